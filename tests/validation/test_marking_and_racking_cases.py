"""Worked cases S17 to S22 of hanging: holes marked through, and boards pushed into a base that leans.

The cases were computed apart from this project: chances by millions of samples checked against a general optimiser,
limits by searching with polygons and by another linear programme. S17 to S19: screw d in holes D, errors s each way.
S20 to S22: a board of 24 in two level boards of 24, 800 apart, play 0.15, at 75 degrees unless a case says otherwise.
"""

import itertools
import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryfit.studies.marking import chance as chances
from dryfit.studies.marking import covers
from dryfit.studies.trueness.racking import Slot, diagonals_differ, lean_of, limits, programme


def near(value, within=0.01):
    return pytest.approx(value, abs=within)


def row(n):
    return tuple((100.0 * place, 0.0) for place in range(n))


# ---- marked through


@pytest.mark.parametrize(
    ("n", "turns", "level", "slots", "slots_turned"),
    [(4, 1.963, 2.157, 1.817, 1.459), (6, 2.191, 2.352, 2.015, 1.736), (10, 2.435, 2.571, 2.237, 2.011)],
)
def test_the_room_that_gives_95_percent(n, turns, level, slots, slots_turned):
    """The table of k: level and slots by quadrature, to 0.003; turned from a fixed seed, to 0.01."""
    assert chances.wanted(row(n), turns=False) == near(level, 0.003)
    assert chances.wanted(row(n), turns=False, slots=True) == near(slots, 0.001)
    assert chances.wanted(row(n), turns=True) == near(turns)
    assert chances.wanted(row(n), turns=True, slots=True) == near(slots_turned)


def test_two_rows_that_may_turn():
    """Six holes in two rows, half as far apart as long: 2.176."""
    two = tuple((float(x), float(y)) for x in (0, 1, 2) for y in (0, 1))
    assert chances.wanted(two, turns=True) == near(2.176)


def test_s17_four_holes():
    """Error 0.5, screw 6: 7.96 may turn, 8.16 level; hole 7.6: 0.813, 0.691; hole 6.5: 0.02, 0.006."""
    assert 6 + 2 * 0.5 * chances.wanted(row(4), turns=True) == near(7.96)
    assert 6 + 2 * 0.5 * chances.wanted(row(4), turns=False) == near(8.16)
    assert [chances.chance(row(4), 1.6, turns=turns) for turns in (True, False)] == near([0.813, 0.691])
    assert [chances.chance(row(4), 0.5, turns=turns) for turns in (True, False)] == near([0.02, 0.006], 0.001)


def test_s18_eight_holes():
    """Error 0.3, screw 6, hole 7: 0.49, 0.37; 95 % at 7.40 and 7.49; slots 7.14 and 7.29 high."""
    room = 0.5 / 0.3
    assert [chances.chance(row(8), room, turns=turns) for turns in (True, False)] == near([0.49, 0.37])
    holes = [6 + 0.6 * chances.wanted(row(8), turns=turns) for turns in (True, False)]
    slots = [6 + 0.6 * chances.wanted(row(8), turns=turns, slots=True) for turns in (True, False)]
    assert (holes, slots) == (near([7.40, 7.49]), near([7.14, 7.29]))


def test_s19_two_holes_and_a_washer():
    """Room as large as s: 0.843, 0.632. Washer 20 on a 6 screw, r 1.95: covers 3.1; 12 on a 5, r 1.755: drops in."""
    assert [chances.chance(row(2), 1.0, turns=turns) for turns in (True, False)] == near([0.843, 0.632], 0.001)
    assert covers(20.0, 6.0, 6.0, 1.95) == near(3.1, 1e-9)
    assert covers(12.0, 5.0, 5.0, 1.755) == near(-0.01, 1e-9)


@given(n=st.integers(2, 10), r=st.floats(0.2, 4.0), more=st.floats(0.05, 1.0))
def test_more_room_and_fewer_holes_never_lower_the_chance(n, r, more):
    here = chances.level(n, r)
    assert chances.level(n, r + more) >= here - 1e-3
    assert chances.level(n + 1, r) <= here + 1e-3
    assert chances.slots_level(n, r) >= here - 1e-3


# ---- racked


def pushed(phi, apart=800.0, c=0.15, own=None, at=0.0, heights=None, thick=24.0):
    """A board at phi in level boards; `own` is the play of its own slots, None where it has none."""
    slots = []
    for y in heights or (0.0, apart):
        place = (at + y / math.tan(math.radians(phi)), y)
        common = {"at": place, "low": -thick / 2, "high": thick / 2, "middle": (1000.0, y)}
        slots.append(Slot(holder=0.0, taker=phi, own=False, walls=phi, width=thick + c, play=c, **common))
        if own is not None:
            slots.append(Slot(holder=phi, taker=0.0, own=True, walls=0.0, width=thick + own, play=own, **common))
    return slots


def over(slots, apart=800.0, **more):
    return [lean * apart for lean in limits(slots, **more)]


@pytest.mark.parametrize(
    ("slots", "apart", "wanted"),
    [
        (pushed(75), 800, (4.105, 6.947)),
        (pushed(75, own=0.15), 800, (0.659, 0.696)),
        (pushed(75, own=0.15, heights=(0.0, 400.0, 800.0)), 800, (0.659, 0.696)),
        (pushed(75) + pushed(75, at=600.0), 800, (0.688, 0.741)),
        (pushed(75, own=0.15) + pushed(75, own=0.15, at=600.0), 800, (0.273, 0.277)),
        (pushed(60, 600.0, 0.20), 600, (3.844, 11.405)),
        (pushed(60, 600.0, 0.20, own=0.20), 600, (0.618, 0.666)),
        (pushed(90, own=0.15) + pushed(90, own=0.15, at=600.0), 800, (0.337, 0.337)),
    ],
    ids=["base only", "halved", "third between", "two boards", "two halved", "60 base only", "60 halved", "two plumb"],
)
def test_s20_a_board_pushed_into_a_racked_base(slots, apart, wanted):
    assert over(slots, apart) == near(list(wanted), 0.001)


def test_s20_loose_slots_of_its_own_leave_the_limit_of_the_base():
    """Its own slots 0.60 loose and 300 apart, 0.10 in the base: 1.03, not 1.66."""
    assert over(pushed(75, 300.0, 0.10, own=0.60), 300)[0] == near(1.03, 0.005)


def test_s20_what_cannot_turn():
    """0.155 either way: (c1 + c2) / (2 sin phi)."""
    assert over(pushed(75), turns=False) == near([0.155, 0.155], 0.001)


def test_s21_a_base_measured_by_its_diagonals():
    """1600 x 1400, diagonals differ by 6: 3.986 out; play wanted 0.083 with, 0.049 against; halved 0.519, 0.491."""
    rising = 3.0 + math.sqrt(1600.0**2 + 1400.0**2 - 9.0)  # sides unchanged: the squares add up to 2 (W^2 + H^2)
    out = lean_of(1600.0, rising, rising - 6.0)
    assert out == near(3.986, 0.001)
    gam = out / 1400.0
    assert gam == near(0.002847, 1e-6)
    wants = [0.15 * gam / lean for lean in limits(pushed(75))]
    halved = [0.15 * gam / lean for lean in limits(pushed(75, own=0.15))]
    assert (wants, halved) == (near([0.083, 0.049], 0.001), near([0.519, 0.491], 0.002))


@pytest.mark.parametrize(
    ("wide", "high", "out", "differ"),
    [(1200, 2000, 2, 2.058), (2400, 1500, 5, 8.480), (900, 1800, 3, 2.683), (2600, 1620, 2, 3.395)],
)
def test_diagonals_of_what_leans(wide, high, out, differ):
    assert diagonals_differ(wide, high, out) == near(differ, 0.0006)


def test_s22_play_wanted_at_a_level_board_and_at_an_upright():
    """60 degrees, lean 0.003 with: 0.0935 at level boards, 0.0672 at an upright that is crossed as well."""
    assert limits(pushed(60, c=0.0935))[0] == near(0.003, 1e-5)

    pins = pushed(60, c=1e-5, thick=1e-3)  # so thin and close that it turns with the shift of the level boards alone
    place = (400.0 / math.tan(math.radians(60)), 400.0)
    upright = Slot(
        at=place, holder=90.0, taker=60.0, own=False, low=-12.0, high=12.0, walls=60.0, width=24.0672, play=0.0672,
        middle=place,
    )  # fmt: skip
    assert limits([*pins, upright])[0] == near(0.003, 2e-5)


# ---- the programme, against every corner of what is allowed


@given(seed=st.integers(0, 10_000), count=st.integers(1, 9))
def test_the_programme_finds_the_best_corner(seed, count):
    draw = np.random.default_rng(seed)
    rows, bounds, aim = draw.normal(size=(count, 4)), draw.uniform(0, 2, count), draw.normal(size=4)
    ends = np.full(4, 3.0)
    every, limit = np.vstack([rows, np.eye(4), -np.eye(4)]), np.concatenate([bounds, ends, ends])
    best = -math.inf
    for some in itertools.combinations(range(len(every)), 4):
        square = every[list(some)]
        if abs(np.linalg.det(square)) > 1e-9:
            corner = np.linalg.solve(square, limit[list(some)])
            if np.all(every @ corner <= limit + 1e-7):
                best = max(best, float(aim @ corner))
    found = programme(aim, rows, bounds, ends)
    assert np.all(every @ found <= limit + 1e-7)
    assert float(aim @ found) == pytest.approx(best, abs=1e-6)
