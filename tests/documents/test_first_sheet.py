"""The first sheet says what was found, what was checked and what was not, however crowded it is.

Words stand beside the piece and under it: what has no room is told in fewer words, and is never left out in silence.
"""

import re
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
from dryfit.documents.workshop import paper_sheets
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
    for n in range(400)
)


def test_a_sound_piece_says_that_nothing_was_found_in_what_was_looked_at(book):
    _, said = first_sheet(replace(book, findings=()))

    assert "Found nothing in what was checked." in said
    assert "what the shelves carry (no load is given)" in said


@pytest.mark.parametrize("stops", [0, 9, 30])
def test_what_was_looked_at_stands_there_beside_many_stops(book, stops):
    page, said = first_sheet(replace(book, findings=(STOP,) * stops))

    assert said.count("Checked how boards meet and are joined; ") == 1
    assert "how close the joints fit" in said
    assert faults(page) == []


def test_a_note_is_found_too(book):
    _, said = first_sheet(replace(book, findings=(NOTE,)))

    assert "Found 1 note in what was checked." in said


def test_what_was_found_is_counted_beside_it(book):
    _, said = first_sheet(replace(book, findings=(STOP, *book.findings)))

    assert "Found 1 to change, 2 warnings and 2 notes in what was checked." in said


def test_a_warning_is_called_by_the_word_that_it_is_counted_by(book):
    warned = tuple(one for one in book.findings if one.severity is Severity.WARN)
    _, said = first_sheet(replace(book, findings=warned, not_checked=()))  # else there is no room for it to be told

    assert "Found 2 warnings in what was checked." in said
    assert "WARNING J × C" in said


@pytest.mark.parametrize(
    ("stops", "open_ones", "told"),
    [
        (0, 0, "what the shelves carry (no load is given)"),
        (9, 0, "what the shelves carry"),
        (30, 0, "Not checked"),
        (0, 40, "the hold of screw 39 in a stud"),
        (0, 400, "Not checked: 410 things. See the list of findings."),  # 10 of the demo's own
        (30, 400, "Not checked: 410 things. See the list of findings."),
    ],
    ids=["as it is", "nine stops", "thirty stops", "forty things open", "very many open", "very many of both"],
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


@pytest.mark.parametrize(
    ("stops", "open_ones", "listed"), [(0, 0, False), (9, 0, False), (0, 40, True), (30, 400, True)]
)
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


# --- what is where -------------------------------------------------------------------------------


def test_every_board_stands_there_with_its_depth_its_set_back_and_room_to_write_down_its_thickness(book):
    """Of the record wall the raking boards are 320 deep and foremost, the uprights at the ends 280: 40 behind them."""
    page, _ = first_sheet(book)
    rows = rows_of(page)

    assert rows["board"] == ["deep", "set back", "thick", "measured", "page"]
    assert rows["raking 1"][:3] == ["320", "0", "24.1"]
    assert rows["left upright"][:3] == ["280", "40", "24.1"]
    assert rows["divider 2"][:3] == ["260", "60", "20"]
    assert {board.name for board in book.piece.boards} <= set(rows)


def test_pages_named_on_the_first_sheet_are_those_on_which_boards_and_joints_are(book):
    """Read from the pages: a part's sheet has its letter in the title block's number, a joint's its two."""
    made = paper_sheets("workshop", replace(book, not_checked=(), findings=()))  # else they stand in the lists
    rows = rows_of(made[0][1])
    said = " ".join(item.text for item in made[0][1].items if isinstance(item, Text)).replace("\u00a0", " ")

    for part in book.piece.parts:
        (page,) = rows[part.id][3:]
        assert part.mark in made[int(page) - 1][0].title
    found = re.findall(r"([A-Z]) × ([A-Z]) (\d+)[,.]", said)
    assert len(found) == 32  # 35 joints, three of them screws into the wall
    for one, other, page in found:
        words = [item.text for item in made[int(page) - 1][1].items if isinstance(item, Text)]
        assert any(f"{one} × {other}" in text for text in words), (one, other, page)


def rows_of(page):
    """The words of the table on the right: what stands on one line, by the board's name."""
    lines = {}
    for item in page.items:
        if isinstance(item, Text) and item.layer == "table":
            lines.setdefault(round(item.at[1], 1), []).append((item.at[0], item.text))
    rows = [[text for _, text in sorted(line)] for line in lines.values()]
    head = {row[0]: row[1:] for row in rows if row[0] == "board"}
    return head | {row[1]: row[2:] for row in rows if row[0] != "board"}
