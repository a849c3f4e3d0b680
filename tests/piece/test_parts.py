"""Parts: blanks, long and short points, marks, and the order of cuts along a board.

A 24 board 9 degrees off plumb between level ends is 24 tan 9 = 3.801 longer over its long points than its
short ones; each blank has 10 of trim at each end (common practice), and what is left to scribe.
"""

import math
import string

import pytest

from dryfit.book import build, read_job_text
from dryfit.book.demos import demo_text, demos
from dryfit.piece.facts import CutForm
from dryfit.piece.model import DATUM_END, FAR_END, WALL
from dryfit.piece.parts import called, marks
from dryfit.piece.setout import Made, Pin

from .making import built, cut_of, job_of, plank

TAN9 = math.tan(math.radians(9))
RAKING = plank("raking", (650, 0), (650 + 1900 * TAN9, 1900), depth=330, ends=("level", "level"))


def test_a_raking_board_between_level_ends_has_the_points_of_case_k16():
    """Length 1923.68 on either face, 1927.48 over all before allowance (reference case K16)."""
    part = built(job_of(RAKING)).part_by_name["raking"]

    assert part.length == pytest.approx(1927.48, abs=0.005)
    assert part.long[1] - part.short[1] == pytest.approx(12 * TAN9 * 2, abs=1e-5)
    assert part.short[1] - part.long[0] == pytest.approx(1923.68, abs=0.005)
    assert part.blank.length == pytest.approx(part.length + 20)
    assert (part.blank.width, part.blank.thickness) == (330, 24)
    assert part.zero == part.long[0]


def test_scribe_is_left_on_the_blank_beside_the_trim_and_its_end_left_long():
    part = built(job_of(plank("shelf", (900, 600), (0, 600), scribe=(15.0, 0.0)))).part_by_name["shelf"]

    assert (part.blank.start, part.blank.end) == (-10.0, 925.0)
    assert [cut.size_is for cut in part.cuts] == ["FIXED", "LEAVE LONG"]


def test_an_end_that_a_joint_makes_is_no_free_end():
    piece = built(job_of(plank("shelf", (0, 600), (2000, 600)), plank("upright", (500, 0), (500, 600))))
    part = piece.part_by_name["upright"]

    assert [(cut.key, cut.end) for cut in part.cuts] == [
        ("datum end of upright", DATUM_END),
        ("end of upright in shelf", FAR_END),
    ]
    assert part.long == (0.0, 596.0)


def test_cuts_stand_in_their_order_along_the_board_whatever_the_order_of_the_file():
    uprights = [plank(f"upright {x}", (x, 0), (x, 1200)) for x in (1500, 300, 900)]
    part = built(job_of(*uprights, plank("shelf", (2000, 600), (0, 600)))).part_by_name["shelf"]

    assert [cut.key for cut in part.cuts] == [
        "datum end of shelf",
        "slot in shelf for upright 300",
        "slot in shelf for upright 900",
        "slot in shelf for upright 1500",
        "far end of shelf",
    ]


def test_every_key_of_a_cut_is_its_own():
    boards = [plank(f"X {i}", (0, 200 * i), (900, 200 * i)) for i in range(1, 4)]
    boards += [plank(f"Y {i}", (200 * i, 0), (200 * i, 800 if i % 2 else 600)) for i in range(1, 4)]
    keys = [cut.key for part in built(job_of(*boards)).parts for cut in part.cuts]

    assert len(keys) == len(set(keys)) == 6 * 2 + 2 * 8 + 1  # two ends each; eight crossings, one housing


def test_a_free_end_says_how_far_it_is_off_square():
    piece = built(job_of(RAKING))

    assert cut_of(piece, "datum end of raking").word == "level end"
    assert cut_of(piece, "datum end of raking").figures.lean == pytest.approx(9.0)
    assert cut_of(built(job_of(plank("b", (0, 0), (9, 900), ends=("square", None)))), "datum end of b").word == "end"


def row(count):
    return built(job_of(*(plank(f"b {i}", (0, 100 * i), (900, 100 * i)) for i in range(1, count + 1))))


def test_up_to_24_boards_get_a_letter_each_and_never_i_or_o():
    letters = [part.mark for part in row(24).parts]

    assert letters == [letter for letter in string.ascii_uppercase if letter not in "IO"]


def test_more_boards_get_a_letter_and_a_number():
    letters = [part.mark for part in row(50).parts]

    assert letters[:2] == ["A1", "B1"]
    assert letters[23:25] == ["Z1", "A2"]
    assert letters[48] == "A3"
    assert len(set(letters)) == 50
    assert not any("I" in mark or "O" in mark for mark in letters)


def test_pinned_marks_stay_and_nobody_else_gets_them():
    boards = row(3).boards

    assert marks(boards, {"b 3": "A", "gone": "B"}) == {"b 1": "C", "b 2": "D", "b 3": "A"}


def test_pinned_marks_stay_when_boards_are_added_in_front():
    pins = {part.id: Pin(datum="start", mark=part.mark) for part in row(3).parts}
    made = Made(pins=pins, thickness={}, fronts={})
    more = [plank("new", (0, 0), (900, 0)), *(plank(f"b {i}", (0, 100 * i), (900, 100 * i)) for i in range(1, 4))]

    piece = built(job_of(*more), made)

    assert {part.id: part.mark for part in piece.parts} == {"new": "D", "b 1": "A", "b 2": "B", "b 3": "C"}


def test_a_pinned_datum_turns_the_positions_and_nothing_else():
    boards = (plank("shelf", (0, 600), (2000, 600)), plank("upright", (500, 0), (500, 1200)))
    made = Made(pins={"shelf": Pin(datum="end", face_side="left", mark="S")}, thickness={}, fronts={})
    part = built(job_of(*boards), made).part_by_name["shelf"]

    slot = next(cut for cut in part.cuts if cut.form is CutForm.SLOT)
    places = sorted(knot[0] for knot in slot.shapes[0].outline)
    assert (places[0] + places[-1]) / 2 == pytest.approx(1500)
    assert part.mark == "S"


# ---- a cut in a sentence


@pytest.mark.parametrize("name", demos())
def test_a_cut_in_a_sentence_is_its_key_with_the_names_in_it_as_names(name):
    """By its key as it is, and with signs for names: no name is left, and both boards, or the fixing, have theirs."""
    piece = build(read_job_text(demo_text(name)), paces=()).piece
    for cut in (cut for part in piece.parts for cut in part.cuts):
        own, words = {cut.body, *(cut.joint or ())} - {WALL}, str(called(cut))
        assert words == (cut.key if cut.name else f"the {cut.key}")
        signed = str(called(cut).renamed(lambda body: f"<{body}>"))
        assert signed.replace("<", "").replace(">", "") == words
        assert {body for body in own if f"<{body}>" in signed} == ({cut.joint[0]} if WALL in (cut.joint or ()) else own)


def test_a_board_called_like_a_word_of_the_key_changes_no_other_word():
    piece = built(job_of(plank("slot in for", (0, 600), (2000, 600)), plank("for", (500, 0), (500, 1200))))
    (cut,) = [cut for cut in piece.part_by_name["slot in for"].cuts if not cut.end]

    assert str(called(cut)) == "the slot in slot in for for for"
    assert str(called(cut).renamed({"slot in for": "A", "for": "B"}.__getitem__)) == "the slot in A for B"
