"""Where the room ends: an alcove 1000 wide and 2400 high, boards 24 thick.

A board that leans 30 degrees off level with a square end digs 12 sin 30 = 6 further with one corner than with
its line.
"""

import math

import pytest

from dryfit.findings import Severity
from dryfit.job.model import Wall

from .making import built, coded, job_of, plank

ALCOVE = Wall(left=0.0, right=1000.0, ceiling=2400.0)


def past(*boards, wall=ALCOVE):
    """What is said of boards past the room: severity and how far."""
    found = coded(built(job_of(*boards, wall=wall)).findings, "past-the-room")
    return [(finding.severity, round(finding.found, 3), str(finding.says)) for finding in found]


LINES = {
    "past the right wall": ((0, 300), (1200, 300), 200.0, "the wall on the right"),
    "past the left wall": ((-100, 300), (900, 300), 100.0, "the wall on the left"),
    "through the ceiling": ((500, 0), (500, 2600), 200.0, "the ceiling"),
}


@pytest.mark.parametrize(("start", "end", "over", "said"), LINES.values(), ids=LINES)
@pytest.mark.parametrize("turned", [False, True], ids=["as drawn", "drawn the other way"])
def test_a_board_past_the_room_is_a_stop_with_how_far(start, end, over, said, turned):
    ((severity, found, says),) = past(plank("b", *((end, start) if turned else (start, end))))

    assert (severity, found) == (Severity.STOP, over)
    assert said in says


@pytest.mark.parametrize(
    ("right", "severity"),
    [(1000, None), (1000.04, None), (1001.9, Severity.NOTE), (1002.1, Severity.STOP)],
    ids=["at the wall", "less than shows", "to be scribed", "too long to scribe"],
)
def test_up_to_two_it_is_scribed(right, severity):
    assert [found[0] for found in past(plank("shelf", (0, 300), (right, 300)))] == (
        [] if severity is None else [severity]
    )


def test_the_corner_that_reaches_furthest_counts():
    """The line ends 4 short of the wall, its lower corner 2 past it: 12 sin 30 = 6."""
    cos, sin = math.cos(math.radians(30)), math.sin(math.radians(30))
    length = (996 - 300) / cos
    board = plank("brace", (300, 300), (996, 300 + length * sin), ends=("square", "square"))

    ((severity, found, _),) = past(board)
    assert (severity, found) == (Severity.NOTE, 2.0)


def test_a_leaning_board_that_stands_to_the_ceiling_is_cut_level_there_and_stays_below_it():
    assert past(plank("post", (300, 0), (600, 2400))) == []


def test_what_is_left_to_scribe_does_not_count():
    assert past(plank("shelf", (0, 300), (1000, 300), scribe=(0.0, 15.0))) == []


def test_a_flat_board_reaches_as_far_as_its_width():
    board = plank("rail", (100, 2370), (900, 2370), depth=90, lies="flat")
    ((severity, found, _),) = past(board)
    assert (severity, found) == (Severity.STOP, 15.0)


def test_nothing_is_said_of_a_room_that_is_not_described():
    assert past(plank("shelf", (-5000, 300), (5000, 300)), wall=Wall()) == []


POST = plank("post", (500, 0), (500, 900))
LOW = plank("low", (500, -60), (500, 900))
SHELF = plank("shelf", (0, 300), (1000, 300))


@pytest.mark.parametrize(
    ("boards", "wall", "under", "severity"),
    [
        ((SHELF, LOW), Wall(), [], None),
        ((SHELF, LOW), Wall(ceiling=2400.0), [60.0], Severity.STOP),
        ((SHELF, plank("low", (500, -2), (500, 900))), Wall(ceiling=2400.0), [2.0], Severity.NOTE),
        ((SHELF, LOW, plank("foot", (200, 0), (200, 300))), Wall(), [60.0], Severity.NOTE),
        ((SHELF, LOW, plank("foot", (200, 0), (200, 300))), Wall(hung=True), [], None),
        ((SHELF, POST), ALCOVE, [], None),
    ],
    ids=[
        "heights from anywhere",
        "a ceiling is given",
        "it can be scribed",
        "another board stands",
        "it hangs",
        "all stands",
    ],
)
def test_a_board_below_the_floor_is_told_where_zero_is_the_floor(boards, wall, under, severity):
    """A ceiling's height is counted from the floor: then it is as sure as one that runs past the ceiling."""
    found = coded(built(job_of(*boards, wall=wall)).findings, "below-the-floor")

    assert [round(finding.found, 3) for finding in found] == under
    assert all(finding.severity is severity and "hung = true" in str(finding.remedy) for finding in found)
