"""The changelog: a file a change, put together in groups; two changes made side by side touch no common line.

Fragments here: "keys" tells of joints and of the page, "dowels" of joints.
"""

import re

import pytest

import dryfit
from tools.build import HOME
from tools.changelog import compiled, release, told

HEAD = "# Changelog\n\nWhat changes.\n\nWhat is to come stands elsewhere.\n"
OLD = "\n## [0.0.9] - 2031-01-01\n\n### Joints\n\n- Housings.\n"
KEYS = "# Joints\n\n- Mitres with keys,\n  cut after gluing.\n\n# The page\n\n- Keys are drawn.\n"
TO_COME = """\
## [{version}] - {day}

### Joints

- Dowels.
- Mitres with keys,
  cut after gluing.

### The page

- Keys are drawn.
"""


@pytest.fixture
def project(tmp_path):
    (tmp_path / "changelog.d").mkdir()
    (tmp_path / "CHANGELOG.md").write_text(HEAD + OLD, encoding="utf-8")
    fragment(tmp_path, "keys", KEYS)
    fragment(tmp_path, "dowels", "# Joints\n\n- Dowels.\n")
    return tmp_path


def fragment(project, name, text):
    (project / "changelog.d" / f"{name}.md").write_text(text, encoding="utf-8")


def to_come(day):
    return TO_COME.format(version=dryfit.__version__, day=day)


def test_what_is_to_come_stands_in_its_groups_above_what_was_released(project):
    assert compiled(project) == f"# Changelog\n\nWhat changes.\n\n{to_come('unreleased')}{OLD}"


def test_a_release_puts_it_into_the_changelog_with_its_day_and_leaves_no_fragment(project):
    release("2031-05-01", project)
    assert (project / "CHANGELOG.md").read_text(encoding="utf-8") == f"{HEAD}\n{to_come('2031-05-01')}{OLD}"
    assert list((project / "changelog.d").iterdir()) == []


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("# Jointss\n\n- Dowels.\n", "no group is called 'Jointss'; there are Job file, "),
        ("- Dowels.\n", "a fragment is '# GROUP'"),
        ("# Joints\n\nDowels.\n", "a fragment is '# GROUP'"),
        ("# Joints\n\n- Dowels.\nand more\n", "a fragment is '# GROUP'"),
        ("# Joints\n\n- Dowels.\n\n# Joints\n\n- Keys.\n", "names 'Joints' twice"),
    ],
    ids=["no such group", "no group", "no list", "not set in", "a group twice"],
)
def test_a_fragment_of_another_form_is_refused_with_its_file_so_that_nothing_is_lost(project, text, says):
    fragment(project, "wrong", text)
    with pytest.raises(ValueError, match=re.escape(says)) as refused:
        compiled(project)
    assert "wrong.md" in str(refused.value)


def test_every_fragment_of_the_project_is_told_under_the_version_at_hand():
    whole = compiled()
    assert re.search(r"^## \[([^\]]+)\]", whole, re.MULTILINE)[1] == dryfit.__version__
    fragments = sorted((HOME / "changelog.d").glob("*.md"))
    assert [items for path in fragments for items in told(path).values() if items not in whole] == []
