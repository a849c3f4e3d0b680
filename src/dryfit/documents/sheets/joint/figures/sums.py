"""How a figure came about: each term as it reads wherever it is printed, and what they come to where that is rounded.

A board measured 23.93 enters a slot with 0.15 of play: "23.93 + clearance 0.15 = 24.08" stands beside 24.10, the width
to the 0.05 that is set. No term is rounded for the sum's sake. In inches all is told to the steps of rule and caliper,
and terms and total are of one step.
"""

from .....lengths import rounded
from .....piece.model import Cut, placed
from .....piece.sums import Sum
from .....sentences import Angle, Fineness, Length, On, Words, on_its_side, say
from ....naming import printed_units, rest_to_square, width

COMES_TO = "{} = {}"  # a sum, and what it comes to where that is not what is printed
ROUGH = 1.5  # left on each side by a rough cut (common practice)


def width_sum(cut: Cut) -> Words:
    """How the width between walls came about."""
    if cut.figures.width is None or printed_units() == "in":
        return cut.figures.width_how(printed_units())
    return _summed(cut.figures.width, width(cut.figures.across or 0.0))


def placed_sum(size: Sum | None, printed: str) -> Words:
    """How a depth or a place came about, beside how it is printed."""
    if size is None:
        return ""
    return placed(size, printed_units()) if printed_units() == "in" else _summed(size, printed)


def rough_cut(on_face: float, shift: float) -> tuple[float, Words]:
    """The strip that both faces have in common, less what a rough cut leaves on each side, and its sum as printed.

    It is the most that may be taken: what the printed figures come to is never rounded up; in inches no figure is
    rounded to the dangerous side.
    """
    step = Fineness.PLACE.size(printed_units())
    if printed_units() == "mm":
        wide, less, each = Length(on_face, Fineness.WIDTH), Length(shift), Length(ROUGH)
        most = rounded(on_face, Fineness.WIDTH.mm) - rounded(shift, step) - 2 * ROUGH
    else:
        wide, less, each = Length(on_face, side=On.DOWN), Length(shift, side=On.UP), Length(ROUGH, side=On.UP)
        most = sum(times * on_its_side(one.mm, step, one.side) for times, one in ((1, wide), (-1, less), (-2, each)))
    return on_its_side(most, step, On.DOWN), say("{} less {} less 2 × {}", wide, less, each)


def by_sine(across: float, lean: float) -> Words:
    """A width as walls that lean make it read along the face."""
    return say("{} / sin {}", Length(across, Fineness.FINE), rest_to_square(abs(lean)))


def by_tangent(thick: float, lean: float) -> Words:
    """How far the marks of two faces lie apart."""
    return say("{} / tan {}", Length(thick, Fineness.FINE), rest_to_square(abs(lean)))


def longer_by(thick: float, lean: float) -> Words:
    """How far a long point lies past its short one."""
    return say("{} × tan {}", Length(thick, Fineness.FINE), Angle(abs(lean)))


def left_of(whole: float, deep: float) -> Words:
    """What is left of a thickness under a floor."""
    return say("leaves {} of {}", Length(whole - deep), Length(whole, Fineness.FINE))


def _summed(size: Sum, printed: str) -> Words:
    """The terms in mm, and their total where it is not what is printed."""
    words, total = size.sentence(Fineness.FINE, "mm"), rounded(size.total, Fineness.FINE.mm)
    if len(size.terms) == 1 or float(printed) == total:
        return words
    return say("{} = {}", words, Length(total, Fineness.FINE))
