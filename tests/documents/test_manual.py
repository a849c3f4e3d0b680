"""The manual's pages that the program makes are those in docs/: what a reader sees is what the program does.

After a change of a joint kind, a default or a sheet: `python3 start.py docs`, then look at the pages.
"""

from pathlib import Path

import pytest

from dryfit.joints import KINDS
from dryfit.studies import STUDIES
from tools.contracts import contracts
from tools.manual import left_over, pages

DOCS = Path(__file__).parents[2] / "docs"


@pytest.fixture(scope="module")
def made():
    return pages()


def test_every_page_and_picture_in_docs_is_what_the_program_makes(made):
    stale = [path for path, data in made.items() if not (DOCS / path).exists() or (DOCS / path).read_bytes() != data]

    assert stale == []


def test_every_kind_has_a_page_with_a_drawing_and_its_options(made):
    for name, kind in KINDS.items():
        slug = name.replace(" ", "-")
        page = made[f"joints/{slug}.md"].decode()
        assert made[f"joints/{slug}.png"].startswith(b"\x89PNG")
        assert all(f"`{key}`" in page for key in kind.options.model_fields)


def test_no_page_picture_or_contract_is_left_from_what_is_gone(made):
    assert left_over(made) == []
    assert {path.name for path in left_over({})} >= {"mitre.md", "mitre.png", "mitre.json", "glue_up.json"}


@pytest.mark.parametrize(
    ("register", "name", "file"),
    [(KINDS, name, f"joints/{name.replace(' ', '-')}.json") for name in KINDS]
    + [(STUDIES, name, f"studies/{name}.json") for name in STUDIES],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_a_kind_or_a_study_changes_no_contract_but_its_own(made, monkeypatch, register, name, file):
    """So that two of them, added side by side, touch no common line."""
    every = {path.removeprefix("schema/"): data for path, data in made.items() if path.startswith("schema/")}
    monkeypatch.delitem(register, name)
    assert contracts() == {path: data for path, data in every.items() if path != file}
