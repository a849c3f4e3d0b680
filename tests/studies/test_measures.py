"""Measures by hand.

One board 1000 x 300 x 20: 0.006 m3; its surface 2 x (1000 x 300 + 1000 x 20 + 300 x 20) = 0.652 m2. Density is the
trade's figure for white oak (Wood Handbook, FPL-GTR-282), not repeated here.
"""

import math
from dataclasses import replace

import pytest

from dryfit.findings import Severity
from dryfit.joints import KINDS
from dryfit.piece.solids import Solids
from dryfit.shop.model import Shop
from dryfit.studies.measures import MeasuresStudy
from dryfit.study.base import Scene, Work
from dryfit.study.runner import Results, run
from dryfit.trade.species import density, find_species

from ..piece.making import asked, built, job_of, plank, rules

OAK = find_species("oak, white").found
assert OAK is not None
FIGURE = density(OAK)
assert FIGURE is not None
KG_M3 = FIGURE.value


def measured(job):
    piece = built(job)
    solids, study = Solids(), MeasuresStudy()
    scene = Scene(
        job=job,
        shop=Shop(),
        piece=piece,
        kinds=KINDS,
        volume_mm3=lambda name: solids.volume(piece.part_by_name[name]),
        surface_mm2=lambda name: solids.surface(piece.part_by_name[name]),
        centroid=lambda name: solids.centroid(piece.part_by_name[name]),
    )
    value = study.reads(scene)
    result = study.run(value, Work())
    assert run({"measures": study}, scene, Results()).results["measures"] == result
    return result, study.findings(value, result)


ONE = plank("one", (0, 10), (1000, 10), thickness=20, depth=300)


def test_one_board():
    result, findings = measured(job_of(ONE))

    assert result.mass_kg == (("one", pytest.approx(0.006 * KG_M3)),)
    assert result.total_kg == pytest.approx(0.006 * KG_M3)
    assert result.finished_m2 == pytest.approx(0.652)
    assert (result.hidden_m2, result.glued_m2) == (0.0, ())
    assert (result.low, result.high) == (pytest.approx((0, 0, 0)), pytest.approx((1000, 20, 300)))
    assert result.centre_of_gravity == pytest.approx((500, 10, 150))
    assert result.diagonals == pytest.approx((math.hypot(1000, 20),) * 2)
    assert findings == ()


def test_two_boards_that_cross():
    """Each loses 20.15 x 20 x 150.5; the slots hide 2 x 20 x 149.5 twice over, on either board."""
    other = plank("other", (400, -490), (400, 510), thickness=20, depth=300)
    result, _ = measured(job_of(ONE, other, joints=rules(clearance=0.15)))

    slot = 20.15 * 20 * 150.5 / 1e9
    volume = 0.006 - slot
    assert result.total_kg == pytest.approx(2 * volume * KG_M3)
    assert result.hidden_m2 == pytest.approx(2 * 4 * 20 * 149.5 / 1e6)
    # a slot adds its two walls and its seat to the surface, and takes its mouth and the two faces beside it
    surface = 652_000 + 2 * 20 * 150.5 + 20.15 * 20 - 20.15 * 20 - 2 * 20.15 * 150.5
    assert result.finished_m2 == pytest.approx((2 * surface - 8 * 20 * 149.5) / 1e6)
    assert (result.low[1], result.high[1]) == (-490, 510)
    x, y, z = result.centre_of_gravity
    assert x == pytest.approx((0.006 * 500 - slot * 400 + volume * 400) / (2 * volume))
    assert y == pytest.approx(10)
    assert z == pytest.approx(150.0, abs=1e-6)  # what the one loses at the front the other loses at the wall


def test_glue_is_added_up_by_grain():
    """A housed end: 2 x 8 x 300 and 24 x 300, twice; a dry one counts for nothing."""
    sides = [plank(f"side {x}", (x, 0), (x, 1000)) for x in (0, 400, 800)]
    boards = [plank("low", (0, 300), (400, 300)), plank("high", (400, 700), (800, 700))]
    job = job_of(*sides, *boards, joint_specs=(asked("high", "side 800", glued=False),))
    result, _ = measured(job)

    assert result.glued_m2 == (("side-end", pytest.approx(3 * (2 * 8 * 300 + 24 * 300) / 1e6)),)


def test_the_size_over_all_is_that_of_ends_as_they_are_cut():
    """9 off plumb between level ends, 0 to 1900: nothing lies below the floor or above 1900 (case K16)."""
    tan9 = math.tan(math.radians(9))
    result, _ = measured(job_of(plank("raking", (650, 0), (650 + 1900 * tan9, 1900), ends=("level", "level"))))

    half = 12 / math.cos(math.radians(9))
    assert (result.low[1], result.high[1]) == pytest.approx((0, 1900), abs=1e-5)
    assert (result.low[0], result.high[0]) == pytest.approx((650 - half, 650 + 1900 * tan9 + half), abs=1e-5)


def test_the_diagonal_of_a_frame_is_over_its_outside_corners():
    """Case K14: a rectangle on centre-lines 900 x 500 of 24 boards: 1062.2."""
    points = ((0, 0), (900, 0), (900, 500), (0, 500))
    boards = [plank(f"b {i}", p, points[(i + 1) % 4]) for i, p in enumerate(points)]
    result, _ = measured(job_of(*boards))

    assert result.diagonals == pytest.approx((1062.2, 1062.2), abs=0.05)


def test_a_species_without_figures_leaves_its_mass_out_and_is_said_once():
    job = job_of(ONE, plank("two", (0, 500), (1000, 500), thickness=20))
    (timber,) = job.timbers.values()
    odd = replace(timber, species="unobtainium")
    result, findings = measured(replace(job, timbers={"20": odd}))

    assert (result.mass_kg, result.total_kg, result.centre_of_gravity) == ((), 0.0, None)
    (finding,) = findings
    assert (finding.code, finding.severity) == ("no-figures", Severity.WARN)
    assert finding.where.path == ("timber", "20", "species")
    assert str(finding.remedy)
