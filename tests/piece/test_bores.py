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
    assert "bore 1 of screws runs into the slot in shelf for upright" in str(finding.says)
    assert str(finding.remedy) == "move the bore until 15 is left"


def test_a_bore_off_its_board_is_told_once():
    """The shelf is 1200 long; the fixing's own finding says how far off the place is."""
    text = shelf(at=[5000])
    assert left(text) == []
    assert len(found(text, "fixing-off-board")) == 1


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


@pytest.mark.parametrize(("x", "near"), [(668, False), (666, True)], ids=["beside", "near"])
def test_a_bore_near_a_notch_over_a_flat_board(x, near):
    """A rail 90 wide upright at 600: the notch's wall at 600 + 45.075, and 22.5 to the bore's middle: 667.575."""
    rail = table("[[board]]", name="rail", timber="24", lies="flat", width=90, line=[[600, 0], [600, 1000]])
    assert bool(left(shelf(rail, at=[x]))) is near


@pytest.mark.parametrize(("at", "wood"), [(35, [14.642]), (36, [])])
def test_a_bore_near_the_groove_of_a_loose_tongue(at, wood):
    """In 24 the groove is 8.1 wide and 8.5 deep, a third of the mitre in: its corner lies 12.874 along, 0.853 up.

    From a bore's middle 35 along that is 22.142, less 7.5.
    """
    text = job(
        WALL,
        table("[joints.mitre]", strengthen="tongue"),
        frame([[0, 0], [900, 0], [900, 500], [0, 500]], depth=280),
        table("[[fixing]]", name="screws", board="box 1", kind="long screw", at=[at, 450]),
    )
    assert [one for one, _ in left(text)] == wood
    assert all("groove in box 1 towards box 4" in str(finding.says) for finding in found(text, "bore-near-cut"))


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
