"""Marks, sheets and identities stay put: when boards are added, dragged past 45 and past plumb, drawn anew.

A raking board stands at x = 500 on a shelf's height of 500; its foot is its datum end and, since it leans right by
9 degrees, its upper face the one to the left of its line from foot to head. Once pinned it stays so whatever the
hand does: the letter, the end that positions are counted from, the face, the keys of joints and cuts.
"""

import math

import pytest

from dryfit.book import build, change_job_text, read_job_text
from dryfit.documents.display import Text
from dryfit.documents.looks import Desk, Look
from dryfit.documents.pages import numbered
from dryfit.documents.pins import pins_of
from dryfit.documents.sheets.part.alike import AlikeParts
from dryfit.documents.sheets.part.maker import alike_sheets
from dryfit.job.edits import sheet_of
from dryfit.job.renaming import renamed_boards
from dryfit.piece.made import read_made_text, renamed, with_pins
from dryfit.places import Edit

HEAD = """\
dryfit = 1
[job]
title = "wall"
[timber.oak]
species = "oak, white"
form = "panel"
thickness = 24
[wall]
hung = true
"""


def board(name, line):
    return f'[[board]]\nname = "{name}"\ntimber = "oak"\nline = {line}\ndepth = 300\n'


def raking(rake, *, turned=False):
    """A board 1000 long about (500, 500), `rake` degrees off plumb to the right."""
    dx, dy = 500 * math.sin(math.radians(rake)), 500 * math.cos(math.radians(rake))
    line = [[500 - dx, 500 - dy], [500 + dx, 500 + dy]]
    return board("raking", line[::-1] if turned else line)


def piece(*boards, made=None):
    return build(read_job_text(HEAD + "".join(boards)), made=made, paces=()).piece


SHELF = board("shelf", [[0, 500], [1000, 500]])


@pytest.fixture(scope="module")
def made():
    """What `dryfit book --pin` writes for the shelf and a board raking 9 degrees."""
    book = build(read_job_text(HEAD + SHELF + raking(9.0)), paces=())
    return read_made_text(with_pins("", pins_of(book)), "wall.made.toml")


def marks_and_datums(made_piece):
    """Of every part: its letter, whether it is counted from its line's start, and its face side along the line."""
    return {
        part.id: (part.mark, not part.board.flipped, (part.board.face_side > 0) != part.board.flipped)
        for part in made_piece.parts
    }


@pytest.mark.parametrize("rake", [9.0, 0.0, -9.0, 30.0, 60.0, -60.0, 74.0], ids=lambda rake: f"{rake:g} off plumb")
def test_a_pinned_board_keeps_its_letter_datum_and_face_however_it_is_dragged(made, rake):
    before = marks_and_datums(piece(SHELF, raking(9.0), made=made))

    assert marks_and_datums(piece(SHELF, raking(rake), made=made)) == before


def test_without_a_pin_the_datum_turns_past_45_which_is_what_the_pin_is_for(made):
    loose = marks_and_datums(piece(SHELF, raking(-60.0)))

    assert loose["raking"] != marks_and_datums(piece(SHELF, raking(-60.0), made=made))["raking"]


def test_boards_put_before_and_after_take_new_letters_and_move_no_old_one(made):
    first, last = board("a new one", [[0, 900], [1000, 900]]), board("another", [[0, 100], [1000, 100]])
    there = piece(first, SHELF, raking(9.0), last, made=made)
    before = piece(SHELF, raking(9.0), made=made)

    assert {name: part.mark for name, part in there.part_by_name.items()} == {
        "shelf": "A",
        "raking": "B",
        "a new one": "C",
        "another": "D",
    }
    assert there.joint_by_key["raking", "shelf"].cuts == before.joint_by_key["raking", "shelf"].cuts


def test_joints_and_cuts_are_known_by_names_whatever_moves():
    keys = {
        rake: ([joint.key for joint in made_piece.joints], sorted(cut.key for p in made_piece.parts for cut in p.cuts))
        for rake in (9.0, -9.0, 60.0, -60.0)
        for made_piece in [piece(SHELF, raking(rake))]
    }

    assert len({str(found) for found in keys.values()}) == 1


def slanting(rake, *, below=300.0):
    """A board 1000 long that crosses the shelf at x = 500, its lower end `below` that point along it."""
    ux, uy = math.sin(math.radians(rake)), math.cos(math.radians(rake))
    ends = [(500 - below * ux, 500 - below * uy), (500 + (1000 - below) * ux, 500 + (1000 - below) * uy)]
    return board("raking", [list(end) for end in ends])


@pytest.mark.parametrize(
    "rake", [9.0, 0.0, -9.0, 44.0, 46.0, 60.0, -60.0, 74.0], ids=lambda rake: f"{rake:g} off plumb"
)
def test_positions_are_counted_from_the_pinned_end_however_the_board_is_dragged(rake):
    """Its slot lies 300 from the end that was its foot; without the pin, leaning far left it would be at 700."""
    pinned = read_made_text(with_pins("", pins_of(build(read_job_text(HEAD + SHELF + slanting(9.0)), paces=()))), "m")
    there = piece(SHELF, slanting(rake), made=pinned)
    loose = piece(SHELF, slanting(rake))

    assert there.joint_by_key["raking", "shelf"].meeting.side("raking").at == pytest.approx(300.0)
    turned_round = rake < -45.0
    assert loose.joint_by_key["raking", "shelf"].meeting.side("raking").at == pytest.approx(
        700.0 if turned_round else 300.0
    )


def sheets(book, name):
    """Every word and figure on a board's sheets, in order; pages, which are told by what stands there, all as 1."""
    drafts = alike_sheets(Desk(book), AlikeParts((Look(book.piece.part_by_name[name]),)))
    items = (item for draft in drafts for item in numbered(draft.items, lambda paper, place: 1))
    return [item.text for item in items if isinstance(item, Text)]


@pytest.mark.parametrize("name", ["shelf", "raking"])
def test_the_sheets_of_a_board_stay_as_they_were_when_others_are_added_or_taken_out(made, name):
    text = HEAD + SHELF + raking(9.0)
    more = (
        HEAD + board("a new one", [[0, 900], [300, 900]]) + text.removeprefix(HEAD) + board("z", [[0, 90], [300, 90]])
    )
    before, after = (build(read_job_text(one), made=made, paces=()) for one in (text, more))

    assert len(after.piece.parts) == 4
    assert sheets(after, name) == sheets(before, name)


def test_a_board_called_anew_keeps_its_letter_its_sheets_and_its_joints_but_for_the_name(made):
    text = HEAD + SHELF + raking(9.0)
    pinned = with_pins("", pins_of(build(read_job_text(text), paces=())))
    path = ("board", 1, "name")
    changed, _ = change_job_text(text, [Edit(action="rename", path=path, value="slant")])
    carried = renamed(pinned, renamed_boards(sheet_of(text).data, path, "slant"))
    before = build(read_job_text(text), made=read_made_text(pinned, "m"), paces=())
    after = build(read_job_text(changed), made=read_made_text(carried, "m"), paces=())

    assert {part.id: part.mark for part in after.piece.parts} == {"shelf": "A", "slant": "B"}
    assert marks_and_datums(after.piece)["slant"] == marks_and_datums(before.piece)["raking"]
    assert [put_back(word) for word in sheets(after, "slant")] == sheets(before, "raking")
    assert [set(map(put_back, joint.key)) for joint in after.piece.joints] == [{"raking", "shelf"}]


def put_back(word):
    return word.replace("slant", "raking")


def test_the_order_of_the_file_is_no_identity():
    one, other = piece(SHELF, raking(9.0)), piece(raking(9.0), SHELF)

    assert [joint.key for joint in one.joints] == [joint.key for joint in other.joints]
    assert [d.value for d in one.decisions] == [d.value for d in other.decisions]
    assert {cut.key for part in one.parts for cut in part.cuts} == {
        cut.key for part in other.parts for cut in part.cuts
    }


MADE = """\
# kept by hand, too
dryfit_made = 1

[pinned."raking"]   # since Monday
datum = "start"
face_side = "left"
mark = "B"

[[measured]]
board = 'raking'
thickness = [[0, 23.8]]

[[cut]]
between = ["raking", "shelf"]
front = "raking"
"""


def test_a_board_called_anew_is_called_so_in_the_made_file_and_nothing_else_changes():
    text = renamed(MADE, {"raking": 'the "slant"', "no such": "x"})

    assert text == MADE.replace("'raking'", '"raking"').replace('"raking"', r'"the \"slant\""')
    there = read_made_text(text, "wall.made.toml")
    assert there.pins['the "slant"'].mark == "B"
    assert there.fronts == {("shelf", 'the "slant"'): 'the "slant"'}
