"""The manual's pages that the program makes are those in docs/: what a reader sees is what the program does.

After a change of a joint kind, a default or a sheet: `python3 start.py docs`, then look at the pages.
"""

from pathlib import Path

import pytest

from dryfit.documents.manual import pages
from dryfit.joints import KINDS

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


def test_no_page_or_picture_is_left_from_a_kind_that_is_gone(made):
    there = {f"joints/{path.name}" for path in (DOCS / "joints").iterdir()}

    assert there == {path for path in made if path.startswith("joints/")}
