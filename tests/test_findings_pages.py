"""The page of all findings, put together from a page a finding.

Here: two parts, "Wood" and "Glue"; the codes "split" and "knot" are of the first, "dry" of the second.
"""

import pytest

from tools.build import HOME
from tools.findings import findings_page, told

README = "# Findings\n\nWhat is said.\n\n## Wood\n\nOf boards, see [the job](../job-file.md).\n\n## Glue\n"


@pytest.fixture
def folder(tmp_path):
    (tmp_path / "README.md").write_text(README, encoding="utf-8")
    for code, part, body in (
        ("split", "Wood", "It splits, where [a knot](knot.md) is."),
        ("dry", "Glue", "Too dry."),
        ("knot", "Wood", "A knot."),
    ):
        (tmp_path / f"{code}.md").write_text(f"<!-- {part} -->\n\n# {code}\n\n{body}\n", encoding="utf-8")
    return tmp_path


def test_each_finding_stands_under_its_part_by_its_word_and_links_lead_within_the_page(folder):
    assert findings_page(folder) == (
        "# Findings\n\nWhat is said.\n\n## Wood\n\nOf boards, see the job (docs/job-file.md).\n"
        "\n### knot\n\nA knot.\n\n### split\n\nIt splits, where [a knot](#knot) is.\n"
        "\n## Glue\n\n### dry\n\nToo dry.\n"
    )


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("<!-- Paint -->\n\n# wet\n\nWet.\n", "README.md has no part called 'Paint'"),
        ("# wet\n\nWet.\n", "a page begins with"),
        ("<!-- Glue -->\n\n# damp\n\nWet.\n", "'# wet'"),
    ],
    ids=["no such part", "no part", "another code"],
)
def test_a_page_that_would_be_lost_is_refused_by_name(folder, text, says):
    (folder / "wet.md").write_text(text, encoding="utf-8")
    with pytest.raises(ValueError, match=says) as refused:
        findings_page(folder)
    assert "wet.md" in str(refused.value)


def test_every_page_of_the_project_is_on_the_whole():
    folder = HOME / "docs" / "findings"
    whole = findings_page(folder)
    assert [page.code for page in told(folder) if f"\n### {page.code}\n" not in whole] == []
