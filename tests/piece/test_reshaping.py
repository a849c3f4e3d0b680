"""What is measured of a cut whose walls are not parallel, and its shape made to what was measured.

The board lies along x, 27 thick, 300 deep, its face side up (+c = 13.5). A socket of a dovetail cutter 12.7 x 14
degrees, 9 deep, on its axis at 500: on the face it is 12.7 - 18 tan 14 = 8.212 wide, from 495.894 on; at its floor
12.7, from 493.65 on. A gauge, and the part's sheet, have it from 495.894.
"""

import math
from dataclasses import replace

import pytest

from dryfit.documents.looks import Look
from dryfit.geometry.shapes import OVER, Bore, Prism, outline
from dryfit.geometry.views import Surface
from dryfit.piece.facts import CutForm, Opens
from dryfit.piece.model import Blank, Cut, Figures, Part
from dryfit.piece.reshaping import measured, reshaped, unbuilt
from dryfit.piece.sums import Sum

from .making import placed, plank

TAN14 = math.tan(math.radians(14))
NECK = 12.7 - 18 * TAN14
BOARD = placed(plank("B", (0, 0), (1000, 0), thickness=27))
FACE = BOARD.face_side


def trapezoid(deep=9.0, flare=TAN14, other=TAN14, less=0.0, neck=NECK):
    """A socket's outline: its walls lean out by `flare` and `other` from the face inwards; `less` narrower."""
    half = neck / 2 - less / 2

    def at(below):
        c = FACE * (13.5 - below)
        return (500 - half - below * flare, c), (500 + half + below * other, c)

    (low_near, low_far), (out_near, out_far) = at(deep), at(-OVER)
    return outline(low_near, low_far, out_far, out_near)


def cut_of(*shapes, across=NECK, deep=9.0, opens=Opens.FACE, face=FACE, form=CutForm.HOUSING):
    figures = Figures(width=Sum.alone(across), on_face=across, depth=Sum.alone(deep), opens=opens)
    return Cut(key="socket", body="B", form=form, word="socket", face=face, shapes=shapes, figures=figures)


def as_recorded(cut, **own):
    """The cut as it is once these figures are recorded of it, and what is then measured of it."""
    asked = measured(BOARD, cut, 0.0)
    made = reshaped(BOARD, cut, 0.0, asked, replace(asked, **own))
    return made, measured(BOARD, made, 0.0)


def on_the_sheet(cut):
    """From and to along the board on the face that it is let into, as the part's sheet marks it."""
    part = Part(
        board=BOARD,
        mark="B",
        blank=Blank(start=0.0, end=1000.0, width=300.0, thickness=27.0),
        long=(0.0, 1000.0),
        short=(0.0, 1000.0),
        cuts=(cut,),
    )
    trace = Look(part).view(Surface.PLUS if FACE > 0 else Surface.MINUS).trace(cut.key)
    return trace.marks


def widths(shape, which="outline"):
    """Of a trapezoid, (c, width) at its floor and outside its mouth."""
    knots = sorted(getattr(shape, which), key=lambda knot: FACE * knot[1])
    low, out = sorted(knots[:2]), sorted(knots[2:])
    return [(pair[0][1], pair[1][0] - pair[0][0]) for pair in (low, out)]


def socket(**own):
    return Prism(outline=trapezoid(**own), low=-OVER, high=300 + OVER)


def tapered():
    """8.212 wide on the face at the wall, 1 narrower at the front."""
    return Prism(outline=trapezoid(), outline_high=trapezoid(less=1.0), low=0.0, high=300.0)


@pytest.mark.parametrize(
    "shape", [socket(), tapered(), socket(other=0.0)], ids=["dovetail", "tapered", "one wall square"]
)
def test_a_socket_counts_from_its_mouth_on_the_face_as_the_sheet_prints_it(shape):
    at = measured(BOARD, cut_of(shape), 0.0).at

    assert at == pytest.approx(500 - NECK / 2, abs=1e-6)
    assert at == pytest.approx(on_the_sheet(cut_of(shape))[0], abs=1e-6)


def test_one_that_tapers_counts_from_where_it_is_widest():
    """It is 9.212 wide at the front: marked from half of one further out."""
    shape = replace(tapered(), outline_high=trapezoid(less=-1.0))

    assert measured(BOARD, cut_of(shape), 0.0).at == pytest.approx(500 - NECK / 2 - 0.5, abs=1e-6)
    assert on_the_sheet(cut_of(shape))[0] == pytest.approx(500 - NECK / 2 - 0.5, abs=1e-6)


def test_recorded_as_printed_it_stays_to_the_last_bit():
    cut = cut_of(socket())

    assert as_recorded(cut)[0] == replace(cut, made=True)


@pytest.mark.parametrize("shape", [socket(), socket(other=0.0)], ids=["dovetail", "one wall square"])
def test_recorded_wider_deeper_and_elsewhere_its_walls_keep_their_slopes(shape):
    """0.3 along, 0.1 wider, half a millimetre deeper: the floor is wider by 0.1 and what both slopes give over 0.5."""
    made, found = as_recorded(cut_of(shape), at=496.194, across=NECK + 0.1, deep=9.5)
    (before, _), (after, mouth) = widths(shape), widths(made.shapes[0])
    slopes = (before[1] - NECK) / 9

    assert (found.at, found.across, found.deep) == pytest.approx((496.194, NECK + 0.1, 9.5), abs=1e-6)
    assert on_the_sheet(made) == pytest.approx((496.194, 496.194 + NECK + 0.1), abs=2e-6)
    assert after == pytest.approx((FACE * 4.0, before[1] + 0.1 + 0.5 * slopes), abs=2e-6)
    assert mouth[1] == pytest.approx(NECK + 0.1 - OVER * slopes, abs=2e-6)
    assert made.made


def test_a_taper_is_set_wider_at_both_its_ends():
    """Recorded 0.1 wider and 8 deep, figures and solid say the same; it runs out past the edges by 1, in its slope."""
    made, found = as_recorded(cut_of(tapered()), across=NECK + 0.1, deep=8.0)
    (shape,) = made.shapes

    assert (found.across, found.deep) == pytest.approx((NECK + 0.1, 8.0))
    for which, less in (("outline", -1 / 300), ("outline_high", 301 / 300)):
        low, _ = widths(shape, which)
        assert low == pytest.approx((FACE * 5.5, NECK + 0.1 - less + 16 * TAN14), abs=2e-6)


def test_a_taper_stopped_elsewhere_keeps_its_flanks():
    """Stopped 30 from the front it is a tenth of the taper wider there: 0.9 narrower than at the wall."""
    made, found = as_recorded(cut_of(tapered()), stop=30.0)
    (shape,) = made.shapes

    assert (shape.high, found.stop) == pytest.approx((270.0, 30.0))
    assert widths(shape, "outline_high")[0][1] == pytest.approx(12.7 - 0.9, abs=2e-6)


def test_shapes_in_a_row_move_together_and_stop_at_their_outer_ends():
    """A dovetail over the last 80 and a housing 27 wide before it, in one cut: each is moved, none onto the other."""
    tail = replace(socket(), low=220.0)
    plain = Prism(outline=trapezoid(flare=0.0, other=0.0, neck=27.0), low=-OVER, high=220.0)
    made, found = as_recorded(cut_of(tail, plain), at=486.7, stop_wall=12.0)

    assert found.at == pytest.approx(486.7)
    assert [(one.low, one.high) for one in made.shapes] == [(220.0, 301.0), (12.0, 220.0)]
    moved = [min(new.outline)[0] - min(old.outline)[0] for new, old in zip(made.shapes, (tail, plain), strict=True)]
    assert moved == pytest.approx([0.2, 0.2])


def round_ended():
    """A pin's slot 10.2 wide, 13 deep, with a round end 235 from the wall edge: an outline in (a, d)."""
    frame = replace(BOARD.frame, origin=(0.0, 0.0, 0.0), x=(1.0, 0.0, 0.0), y=(0.0, 0.0, 1.0), z=(0.0, -1.0, 0.0))
    knots = ((494.9, -1.0, 0.0), (505.1, -1.0, 0.0), (505.1, 229.9, 1.0), (494.9, 229.9, 0.0))
    low, high = (-14.5, -0.5) if FACE > 0 else (0.5, 14.5)
    return Prism(outline=knots, low=low, high=high, frame=frame)


def test_any_shape_is_measured_along_the_board_where_the_sheet_marks_it_and_moved():
    cut = cut_of(round_ended(), across=10.2, deep=13.0)
    made, found = as_recorded(cut, at=495.4)

    assert measured(BOARD, cut, 0.0).at == pytest.approx(494.9)
    assert found.at == pytest.approx(495.4)
    assert on_the_sheet(made) == pytest.approx((495.4, 505.6), abs=1e-6)
    assert unbuilt(cut, measured(BOARD, cut, 0.0), replace(found, at=495.4)) == ()


@pytest.mark.parametrize(
    ("cut", "own", "words"),
    [
        (cut_of(round_ended(), across=10.2, deep=13.0), {"across": 10.4, "deep": 12.0}, ("across", "deep")),
        (cut_of(round_ended(), across=10.2, deep=13.0), {"across": 10.24, "at": 400.0}, ()),
        (cut_of(socket()), {"across": 9.0, "deep": 7.0, "lean": 1.0, "stop": 12.0}, ()),
        (cut_of(socket(), opens=Opens.END, face=0), {"deep": 8.0}, ("deep",)),
        (cut_of(replace(socket(), high=100.0), replace(socket(deep=4.0), low=100.0)), {"deep": 8.0}, ("deep",)),
        (
            cut_of(Bore(start=(500.0, 0.0, 0.0), direction=(0.0, 0.0, 1.0), profile=((0.0, 8.0), (40.0, 0.0))), face=0),
            {"lean": 2.0, "across": 8.2},
            ("lean",),
        ),
    ],
    ids=["round end", "to the step", "walls", "in an end", "two floors", "a hole that leans"],
)
def test_what_no_figure_tells_the_shape_of_is_named(cut, own, words):
    asked = measured(BOARD, cut, 0.0)

    assert unbuilt(cut, asked, replace(asked, **own)) == words
