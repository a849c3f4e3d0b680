"""The plane of a corner: where faces meet, at what angle each board is cut, how far its long point runs.

Two boards 24 thick at a right angle: the mitre runs from (12, 12) to (-12, -12), 33.941 long, at 45 to both.
"""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryfit.piece.corner import Corner
from dryfit.piece.lines import CentreLine, left_between, span
from tests.piece.making import meeting_of, plank
from tests.strategies import thicknesses


def corner(phi, *, heading=0.0, first=24.0, second=24.0, reverse=(False, False)):
    """Both boards' view of a corner at (100, 200), the second board `phi` round from the first."""
    boards = []
    for name, turn, thickness, backwards in (
        ("a", heading, first, reverse[0]),
        ("b", heading + phi, second, reverse[1]),
    ):
        x, y = math.cos(math.radians(turn)), math.sin(math.radians(turn))
        line = ((100.0, 200.0), (100.0 + 500 * x, 200.0 + 500 * y))
        boards.append(plank(name, *(line[::-1] if backwards else line), thickness=thickness))
    meeting = meeting_of(*boards)
    return {side.body: Corner.of(side, meeting.other(side.body)) for side in (meeting.a, meeting.b)}


WORKED = {
    "square, equal": (90, 24, 24, 45.0, 45.0, 33.941),
    "120, equal": (120, 24, 24, 60.0, 60.0, 27.713),
    "60, equal": (60, 24, 24, 30.0, 30.0, 48.0),
    "27 and 18": (90, 27, 18, 56.310, 33.690, 32.450),
}


@pytest.mark.parametrize(("phi", "first", "second", "one", "other", "long"), WORKED.values(), ids=WORKED)
def test_the_cut_runs_from_where_the_inside_faces_meet_to_where_the_outside_faces_meet(
    phi, first, second, one, other, long
):
    seen = corner(phi, first=first, second=second)
    assert seen["a"].to_length == pytest.approx(one, abs=1e-3)
    assert seen["b"].to_length == pytest.approx(other, abs=1e-3)
    assert seen["a"].cut_length == seen["b"].cut_length == pytest.approx(long, abs=1e-3)
    assert seen["a"].phi == pytest.approx(phi)


@given(
    phi=st.floats(15, 175),
    hand=st.sampled_from([1, -1]),
    heading=st.floats(0, 360),
    first=thicknesses(),
    second=thicknesses(),
    reverse=st.tuples(st.booleans(), st.booleans()),
)
def test_both_boards_see_one_corner(phi, hand, heading, first, second, reverse):
    """One cut, one angle, opposite normals; both ends of the cut lie on a face of either board."""
    seen = corner(hand * phi, heading=heading, first=first, second=second, reverse=reverse)
    a, b = seen["a"], seen["b"]
    assert a.cut_length == pytest.approx(b.cut_length, rel=1e-6)
    assert a.phi == pytest.approx(phi, abs=1e-6)
    assert b.phi == pytest.approx(phi, abs=1e-6)
    for one, thickness in ((a, first), (b, second)):
        assert abs(one.inner[1]) == pytest.approx(thickness / 2)
        assert one.outward[0] * one.inner[0] + one.outward[1] * one.inner[1] == pytest.approx(0.0, abs=1e-6)
        assert one.outward[0] * one.away[0] < 0.0
        assert math.copysign(1.0, one.inner[1]) == one.inside
        assert math.hypot(*one.bisector) == pytest.approx(1.0)
    world = []
    for one, name in ((a, "a"), (b, "b")):
        turn = math.radians(heading + (hand * phi if name == "b" else 0.0))
        # a board counts from its datum end, so its own x may run towards the corner
        sign = 1.0 if one.away[0] > 0 else -1.0
        x = (sign * math.cos(turn), sign * math.sin(turn))
        world.append([(v[0] * x[0] - v[1] * x[1], v[0] * x[1] + v[1] * x[0]) for v in (one.inner, one.outward)])
    assert world[0][0] == pytest.approx(world[1][0], abs=1e-5)
    assert world[0][1] == pytest.approx((-world[1][1][0], -world[1][1][1]), abs=1e-6)


@given(phi=st.floats(20, 160), t=thicknesses())
def test_equal_boards_halve_the_angle(phi, t):
    """Long point less short point: t / tan(phi / 2)."""
    seen = corner(phi, first=t, second=t)["a"]
    assert seen.to_length == pytest.approx(phi / 2, abs=1e-6)
    assert seen.long_less_short == pytest.approx(t / math.tan(math.radians(phi / 2)), rel=1e-9)


# ---- lines of boards


LEVEL = CentreLine((0.0, 0.0), (1.0, 0.0), 12.0)


def leaning(degrees, x=0.0, half=12.0):
    return CentreLine((x, 0.0), (math.cos(math.radians(degrees)), math.sin(math.radians(degrees))), half)


def test_a_leaning_board_meets_the_two_faces_at_two_places():
    """60: 12 / tan 60 = 6.928 to either side, 12 / sin 60 = 13.856 to either side of that."""
    for c, middle in ((12.0, 6.928), (-12.0, -6.928)):
        found = span(LEVEL, leaning(60), c)
        assert found is not None
        assert found == (pytest.approx(middle, abs=1e-3), pytest.approx(13.856, abs=1e-3))


def test_what_lies_between_two_boards_is_seen_on_either_face():
    """A board at 60 and a plumb one 100 to its left: 100 + 6.928 on the upper face, half lengths 13.856 + 12."""
    apart = left_between(LEVEL, leaning(60), leaning(90, x=-100.0), 12.0)
    assert apart is not None
    assert apart == (pytest.approx(106.928, abs=1e-3), pytest.approx(25.856, abs=1e-3))


def test_boards_in_one_direction_do_not_meet():
    assert span(LEVEL, leaning(0, x=50.0), 12.0) is None
    assert left_between(LEVEL, leaning(0), leaning(90), 12.0) is None
