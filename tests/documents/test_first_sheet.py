"""The first sheet says what was found, what was looked at and what was not, however crowded it is.

Its column of words is 57 wide: what has no room is told in fewer words, and is never left out in silence.
"""

from dataclasses import replace

import pytest

from dryfit.book import build, read_job_text
from dryfit.book.demos import demo_text
from dryfit.documents.display import Text
from dryfit.documents.faults import faults
from dryfit.documents.looks import Desk
from dryfit.documents.naming import printing_in
from dryfit.documents.sheets import kinds_of
from dryfit.documents.sheets.page.frame import finished
from dryfit.findings import Finding, NotChecked, Severity
from dryfit.places import Where


@pytest.fixture(scope="module")
def book():
    return build(read_job_text(demo_text("record-wall"), "record-wall.toml"))


def first_sheet(book):
    desk = Desk(book)
    kind = next(kind for kind in kinds_of("workshop") if kind.name == "overall")
    with printing_in("mm"):
        (draft,) = kind.make(desk)
        page = finished(draft, 1, 1, desk)
    return page, " ".join(item.text for item in page.items if isinstance(item, Text))


STOP = Finding(
    code="short-grain", severity=Severity.STOP, where=Where(), says="shelf 1: too little is left",
    remedy="move the joint a good way along, or lengthen the board until there is enough of it",
)  # fmt: skip
NOTE = replace(STOP, severity=Severity.NOTE)
MANY = tuple(
    NotChecked(study="room", what=f"the hold of screw {n} in a stud", why=f"stud {n} is not where it was looked for")
    for n in range(40)
)


def test_a_sound_piece_says_that_nothing_was_found_in_what_was_looked_at(book):
    _, said = first_sheet(replace(book, findings=()))

    assert "Found nothing in what was looked at." in said
    assert "what the shelves carry (no load is given)" in said


@pytest.mark.parametrize("stops", [0, 9, 30])
def test_what_was_looked_at_stands_under_a_wide_piece_where_the_column_has_no_room_for_it(book, stops):
    page, said = first_sheet(replace(book, findings=(STOP,) * stops))

    assert said.count("Looked at how boards meet and are joined; ") == 1
    assert "how close the joints fit." in said
    assert faults(page) == []


def test_a_note_is_found_too(book):
    _, said = first_sheet(replace(book, findings=(NOTE,)))

    assert "Found 1 note in what was looked at." in said


def test_what_was_found_is_counted_beside_it(book):
    _, said = first_sheet(replace(book, findings=(STOP, *book.findings)))

    assert "Found 1 to change, 1 to look at and 1 note in what was looked at." in said


@pytest.mark.parametrize(
    ("stops", "open_ones", "told"),
    [
        (0, 0, "what the shelves carry (no load is given)"),
        (9, 0, "what the shelves carry"),
        (30, 0, "Not looked at"),
        (0, 40, "Not looked at: 47 things. See the list of findings."),  # 7 of the demo's own
        (30, 40, "Not looked at: 47 things. See the list of findings."),
    ],
    ids=["as it is", "nine stops", "thirty stops", "forty things open", "both"],
)
def test_what_was_not_looked_at_is_never_left_out_and_nothing_runs_into_anything(book, stops, open_ones, told):
    crowded = replace(
        book, findings=(STOP,) * stops + book.findings, not_checked=(*book.not_checked, *MANY[:open_ones])
    )
    page, said = first_sheet(crowded)

    assert told in said
    assert faults(page) == []
    if stops > 9:
        assert "More: see the list of findings." in said


@pytest.mark.parametrize(("stops", "open_ones", "listed"), [(0, 0, False), (9, 0, True), (30, 0, True), (0, 40, True)])
def test_what_the_first_sheet_has_no_room_for_stands_in_the_lists_with_its_reason(book, stops, open_ones, listed):
    crowded = replace(
        book, findings=(STOP,) * stops + book.findings, not_checked=(*book.not_checked, *MANY[:open_ones])
    )
    kind = next(kind for kind in kinds_of("workshop") if kind.name == "lists")
    with printing_in("mm"):
        drafts = [*kind.make(Desk(crowded))]
    said = [" ".join(item.text for item in draft.items if isinstance(item, Text)) for draft in drafts]

    for one in crowded.not_checked:
        assert any(f"{one.what}: {one.why}." in text for text in said) is listed, one.what
