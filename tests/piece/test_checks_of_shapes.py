"""Wood beside cuts whose walls are not parallel, that taper, are of several shapes, or lie otherwise in the board.

The board is 1000 long, 27 thick and 300 deep, its datum end square at 0, and the cuts are let into its upper face
(c = 13.5). A socket of a cutter 12.7 x 14 degrees, 9 deep, at 30 is 8.212 wide on the face and 12.7 at its floor: its
floor's corner lies 30 - 6.35 = 23.65 from the end.
"""

import math
from dataclasses import replace

import pytest

from dryfit.geometry.frames import WORLD
from dryfit.geometry.shapes import OVER, Bore, Prism, half_space, outline
from dryfit.piece.bores import bores_near_cuts
from dryfit.piece.checks import not_looked_at, short_grain, thin_web
from dryfit.piece.facts import CutForm, Opens
from dryfit.piece.model import DATUM_END, FAR_END, Cut, Figures
from dryfit.piece.parts import make_part
from dryfit.piece.sums import Sum

from .making import placed, plank

TAN14 = math.tan(math.radians(14))
BOARD = placed(plank("B", (0, 0), (1000, 0), thickness=27))


def trapezoid(at, *, deep=9.0, neck=12.7 - 18 * TAN14, flare=TAN14, face=1):
    half, floor = neck / 2, neck / 2 + deep * flare
    out = neck / 2 - OVER * flare
    low, high = face * (13.5 - deep), face * (13.5 + OVER)
    assert half > 0.0
    return outline((at - floor, low), (at + floor, low), (at + out, high), (at - out, high))


def across(knots, low=-OVER, high=300 + OVER, high_knots=None):
    return Prism(outline=knots, outline_high=high_knots, low=low, high=high)


def let_in(*shapes, key="socket", face=1, deep=9.0, form=CutForm.HOUSING, joint=("A", "B")):
    figures = Figures(width=Sum.alone(8.2), depth=Sum.alone(deep), opens=Opens.FACE)
    return Cut(key=key, body="B", form=form, word="socket", face=face, joint=joint, shapes=shapes, figures=figures)


def sawn(end, joint=None):
    place = 0.0 if end == DATUM_END else 1000.0
    return Cut(
        key=f"end {end}",
        body="B",
        form=CutForm.END,
        word="end",
        end=end,
        joint=joint,
        shapes=(half_space((place, 0.0), (float(end), 0.0)),),
        figures=Figures(opens=Opens.END),
    )


def part_of(*cuts):
    return make_part(BOARD, "B", (sawn(DATUM_END), *cuts, sawn(FAR_END)), 10.0)


def left(check, *cuts):
    return [round(finding.found, 3) for finding in check(part_of(*cuts))]


def test_a_socket_that_is_wider_inside_is_looked_at_where_it_is_widest():
    """On the face 30 - 4.106 = 25.894 are left, at the floor 23.65: that is what breaks out."""
    assert left(short_grain, let_in(across(trapezoid(30.0)))) == [23.65]
    assert left(short_grain, let_in(across(trapezoid(970.0)))) == [23.65]


def test_two_sockets_want_wood_between_their_floors():
    both = (let_in(across(trapezoid(at)), key=f"socket {at}", joint=(f"A {at}", "B")) for at in (500.0, 535.0))

    assert left(short_grain, *both) == [35 - 12.7]


def test_what_narrows_inwards_is_looked_at_on_the_face():
    narrowing = trapezoid(30.0, neck=12.7, flare=-TAN14)

    assert left(short_grain, let_in(across(narrowing))) == [30 - 6.35]


@pytest.mark.parametrize("wide_at", ["wall", "front"])
def test_a_taper_is_looked_at_where_it_is_widest(wide_at):
    """Parallel walls 10 apart at the one edge and 12 at the other, at 30: 24 are left."""
    narrow, wide = (trapezoid(30.0, neck=neck, flare=0.0) for neck in (10.0, 12.0))
    first, last = (wide, narrow) if wide_at == "wall" else (narrow, wide)

    assert left(short_grain, let_in(across(first, 0.0, 300.0, last))) == [24.0]


def test_two_shapes_in_one_cut_leave_the_web_of_the_deeper():
    """A tail 9 deep and a housing 7 deep in one cut, opposite a housing 12 deep: 27 - 9 - 12 = 6 of web."""
    tail = across(trapezoid(500.0, flare=0.0, neck=12.0), 220.0, 301.0)
    plain = across(trapezoid(500.0, flare=0.0, neck=27.0, deep=7.0), -OVER, 220.0)
    other = let_in(across(trapezoid(500.0, flare=0.0, neck=27.0, deep=12.0, face=-1)), key="other", face=-1, deep=12.0)

    assert left(thin_web, let_in(tail, plain), other) == [6.0]


def test_a_slot_in_the_plane_of_the_face_is_looked_at_too():
    """Drawn in (a, d) and swept through the thickness, 10 wide from 15 on: 15 are left to the end."""
    frame = replace(WORLD, y=(0.0, 0.0, 1.0), z=(0.0, -1.0, 0.0))
    slot = Prism(outline=outline((15, -1), (25, -1), (25, 200), (15, 200)), low=-14.5, high=-4.5, frame=frame)

    assert left(short_grain, let_in(slot)) == [15.0]
    assert not_looked_at(part_of(let_in(slot))) == ()


@pytest.mark.parametrize("drawn", ["across", "along"])
def test_what_runs_along_the_board_from_end_to_end_leaves_nothing_that_breaks_out(drawn):
    """A rebate 9 wide and 10 deep along the wall edge, drawn in either way; the slot beside it is still looked at."""
    frame = replace(WORLD, x=(0.0, 1.0, 0.0), y=(0.0, 0.0, 1.0), z=(1.0, 0.0, 0.0))
    shapes = {
        "across": Prism(outline=outline((-5, 3.5), (1005, 3.5), (1005, 14.5), (-5, 14.5)), low=-1.0, high=9.0),
        "along": Prism(outline=outline((3.5, -1), (14.5, -1), (14.5, 9), (3.5, 9)), low=-5.0, high=1005.0, frame=frame),
    }
    rebate = let_in(shapes[drawn], key="rebate", form=CutForm.REBATE, deep=10.0)

    assert left(short_grain, rebate) == []
    assert left(short_grain, rebate, let_in(across(trapezoid(30.0)))) == [23.65]


def test_what_lies_askew_is_told_and_not_passed_over():
    half = math.sqrt(0.5)
    frame = replace(WORLD, y=(0.0, half, half), z=(0.0, -half, half))
    slit = Prism(outline=outline((495, -2), (505, -2), (505, 2), (495, 2)), low=-20.0, high=20.0, frame=frame)
    (told,) = not_looked_at(part_of(let_in(slit)))

    assert told.study == "wood"
    assert (str(told.what), str(told.why)) == ("what the socket leaves of B", "its shape lies askew in the board")


def holes(at, joint=("A", "B")):
    row = (
        Bore(start=(at, 13.5, d), direction=(0.0, -1.0, 0.0), profile=((0.0, 8.0), (12.0, 0.0))) for d in (50.0, 250.0)
    )
    return replace(let_in(*row, key="holes", form=CutForm.BORE, joint=joint), figures=Figures(opens=Opens.FACE))


@pytest.mark.parametrize(("at", "told"), [(20.0, "16"), (31.1, ""), (985.0, "11")], ids=["near", "far", "other end"])
def test_holes_in_a_face_near_an_end_are_told_as_not_looked_at(at, told):
    """As far off as a housing must stand, the board's thickness, nothing is asked: 31.1 - 4 = 27.1."""
    found = [str(one.what) for one in not_looked_at(part_of(holes(at)))]

    assert found == ([f"whether {told} of wood beside the holes is enough"] if told else [])


def test_holes_of_a_corner_are_not_asked_after_at_the_end_that_their_joint_makes():
    part = make_part(BOARD, "B", (sawn(DATUM_END, ("A", "B")), holes(13.5), sawn(FAR_END)), 10.0)

    assert not_looked_at(part) == ()


def test_holes_beside_what_is_cut_for_another_board_are_told():
    (told,) = not_looked_at(part_of(holes(470.0, ("C", "B")), let_in(across(trapezoid(500.0)))))

    assert str(told.what) == "whether 21.9 of wood beside the holes is enough"  # 30 - 4 - 4.106


def test_a_long_bore_keeps_clear_of_what_tapers_and_of_what_is_drawn_in_its_own_frame():
    """8 wide through the board at 500, in the middle; a groove along the upper half reaches from 505 to 515."""
    bore = Cut(
        key="bore",
        body="B",
        form=CutForm.BORE,
        word="bore",
        joint=("screws", "wall"),
        shapes=(Bore(start=(500.0, 0.0, 300.0), direction=(0.0, 0.0, -1.0), profile=((0.0, 8.0), (300.0, 0.0))),),
        figures=Figures(opens=Opens.FRONT),
    )
    frame = replace(WORLD, y=(0.0, 0.0, 1.0), z=(0.0, -1.0, 0.0))
    groove = Prism(outline=outline((505, 50), (515, 50), (515, 200), (505, 200)), low=-14.5, high=2.0, frame=frame)
    taper = across(
        trapezoid(520.0, flare=0.0, neck=10.0, deep=20.0), 0.0, 300.0, trapezoid(520.0, flare=0.0, neck=22.0, deep=20.0)
    )

    assert left(bores_near_cuts, let_in(groove), bore) == [1.0]
    assert left(bores_near_cuts, let_in(taper), bore) == [5.0]


def test_a_housing_that_goes_on_where_its_joint_s_socket_ends_leaves_no_short_grain_and_another_s_does():
    """A socket over the front 80 of 300 and a housing 27 wide behind it, of one joint; nothing is meant between."""
    socket = let_in(across(trapezoid(500), low=220.0 - OVER))
    square = outline((486.5, 4.5), (513.5, 4.5), (513.5, 13.5 + OVER), (486.5, 13.5 + OVER))
    own = let_in(across(square, high=220.0), key="housing")
    other = replace(own, joint=("B", "C"))

    assert short_grain(part_of(socket, own)) == ()
    assert [found.found for found in short_grain(part_of(socket, other))]
