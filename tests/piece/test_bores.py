"""Long bores keep 10 of wood, or their own diameter if that is more, from every other cut of their board.

A shelf 27 thick; the bore of a wood screw 6 x 120 is 15 wide under its plug, so 15 must stay: its middle keeps
7.5 + 15 = 22.5 from the wall of a slot.
"""

import pytest

from tests.joints.typed import board, found, frame, job, joint, table

WALL = table("[wall]", kind="timber studs", hung=True)


def shelf(*tables, at, thickness="27", **options):
    return job(
        WALL,
        board("shelf", [[0, 500], [1200, 500]], 280, thickness),
        table("[[fixing]]", name="screws", board="shelf", kind="long screw", at=at, **options),
        *tables,
    )


def upright(x, low=0, high=1000, name="upright"):
    return board(name, [[x, low], [x, high]], 280)


def left(text):
    """Wood left at each finding, and what it lies between."""
    return [(round(finding.found, 3), finding.where.cut) for finding in found(text, "bore-near-cut")]


@pytest.mark.parametrize(
    ("at", "wood"), [(634.575, []), (634.5, [14.925]), (565.425, []), (565.5, [14.925]), (615, [0.0]), (600, [0.0])]
)
def test_a_bore_beside_a_slot(at, wood):
    """The slot of an upright 24 thick at x = 600 is 24.15 wide: 12.075 + 22.5 = 34.575 to the bore's middle."""
    found_left = [max(one, 0.0) for one, _ in left(shelf(upright(600), at=[at]))]
    assert found_left == wood


def test_a_bore_through_a_slot_is_the_worse():
    (finding,) = found(shelf(upright(600), at=[600]), "bore-near-cut")
    assert finding.severity == "stop"
    assert finding.found < 0.0
    assert finding.where.fixing == "screws"
    assert "0.0 of wood is left between the bore 1 of screws and the slot in shelf for upright" in finding.says
    assert finding.remedy == "move the bore until 15 is left"


@pytest.mark.parametrize(("at", "near"), [(640, False), (600, True)], ids=["beside", "under it"])
def test_a_bore_near_a_housing(at, near):
    """A housing 9 deep in 27 ends 4.5 over the middle: the bore's rim is 7.5 out, so under it nothing is left."""
    assert bool(left(shelf(upright(600, 500, 1000), at=[at]))) is near


@pytest.mark.parametrize(("at", "near"), [(635, False), (625, True)], ids=["beside", "near"])
def test_a_bore_near_a_row_of_dowels(at, near):
    """Dowels 8 thick: 4 + 7.5 + 15 = 26.5 from middle to middle."""
    rules = table("[joints]", end_on_face="butt")
    assert bool(left(shelf(rules, upright(600, 513, 1000), at=[at]))) is near


@pytest.mark.parametrize(("at", "near"), [(27, False), (22.6, False), (22.4, True)])
def test_a_bore_near_an_end(at, near):
    """The end cut counts as any other: 22.5; nearer than a thickness the place is off the board as well."""
    assert bool(left(shelf(at=[at]))) is near
    assert bool(found(shelf(at=[at]), "fixing-off-board")) is (at < 27)


def test_a_bore_near_a_mitre_is_measured_square_to_it():
    """24 at 45: from 100 along, 100 sin 45 - 7.5; from 31 along, 21.92 - 7.5 = 14.42."""
    text = job(
        WALL,
        frame([[0, 0], [900, 0], [900, 500], [0, 500]], depth=280),
        table("[[fixing]]", name="screws", board="box 1", kind="long screw", at=[31, 450]),
    )
    assert left(text) == [(pytest.approx(14.42, abs=0.01), "bore 1 of screws")]


@pytest.mark.parametrize(("gap", "near"), [(30.1, False), (29.9, True)])
def test_two_bores_keep_clear_of_each_other_and_are_told_of_once(gap, near):
    """15 wide each: 30 from middle to middle."""
    assert len(left(shelf(at=[400, 400 + gap]))) == (1 if near else 0)


def test_the_wider_of_two_bores_says_how_much_must_stay():
    """15 and 20 wide, 36 apart: 18.5 is left, enough for the one and not for the other."""
    second = table(
        "[[fixing]]", name="wide", board="shelf", kind="long screw", at=[436], counterbore=20, screw="wood 8x120"
    )
    (finding,) = found(shelf(second, at=[400]), "bore-near-cut")
    assert (finding.found, finding.limit) == (pytest.approx(18.5), 20.0)
    assert finding.where.cut == "bore 1 of wide"


@pytest.mark.parametrize(("counterbore", "limit"), [(8, 10.0), (15, 15.0)])
def test_ten_at_least_or_the_diameter(counterbore, limit):
    text = shelf(upright(600), at=[617], counterbore=counterbore)
    (finding,) = found(text, "bore-near-cut")
    assert finding.limit == limit


def test_a_bore_clear_of_everything_is_silent():
    text = shelf(upright(600), upright(900, 500, 1000, "post"), joint("shelf", "upright"), at=[100, 300, 1100])
    assert left(text) == []
