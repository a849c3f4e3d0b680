"""The figures of a housing and of the end in it: depth, floor, stops, tongue, bevel, what is notched back."""

import math
from collections.abc import Iterator, Sequence

from .....geometry.frames import NEAR, Vec2, length
from .....geometry.shapes import Prism
from .....piece.model import Cut
from .....sentences import Name, Words, say
from ....naming import LEAST, depth, notched, position, width
from ..roles import JointFigure, Roles
from ..stance import SQUARE, Stance, entering
from .ends import bevel_figure
from .sums import left_of, longer_by, placed_sum


def housing_figures(roles: Roles, stance: Stance, cut: Cut, taken: Sequence[JointFigure]) -> Iterator[JointFigure]:
    """A housing, then the end that goes into it; `taken` are its widths."""
    name = say("{} in {}", cut.plain, Name(stance.main.id))
    deep, whole = cut.figures.deep or 0.0, 2 * stance.half
    yield from taken
    yield JointFigure(
        of=name,
        size="deep",
        what="on the centre-line" if abs(stance.leans) > SQUARE else "square to the face",
        sum=left_of(whole, deep),
        value=depth(deep),
    )
    yield from _floor(stance, cut, name)
    yield from _stops(cut, name)
    first = next(shown for shown in roles.shown if shown.main.id == stance.main.id)
    for end in stance.joint.cuts if stance.cut is first.cut else ():  # told once, however much is let in for it
        if end.body == stance.other.id and end.end:
            yield from _end(roles, stance, cut, end)


# --- the housing ---------------------------------------------------------------------------------


def _floor(stance: Stance, cut: Cut, name: Words) -> Iterator[JointFigure]:
    """The two corners of a floor that falls."""
    shallow, deepest = floor_corners(stance, cut)
    if deepest - shallow > LEAST:
        what, how = "floor square to the walls", "square to the face"
        yield JointFigure(of=name, size="shallow corner", what=what, sum=how, value=depth(shallow))
        yield JointFigure(of=name, size="deepest corner", what=what, sum=how, value=depth(deepest))


def floor_corners(stance: Stance, cut: Cut) -> Vec2:
    """Depths of the shallower and the deeper corner of a housing's floor."""
    knots = [c for shape in cut.shapes if isinstance(shape, Prism) for _, c, _ in shape.outline]
    depths = sorted(stance.half - cut.face * c for c in knots if abs(c) < stance.half - NEAR)
    return (depths[0], depths[-1]) if depths else (0.0, 0.0)


def _stops(cut: Cut, name: Words) -> Iterator[JointFigure]:
    """How far from each edge it stops, and why there."""
    for stop in cut.figures.stops:
        size = position(length(stop.size.total))
        how = placed_sum(stop.size, size)
        yield JointFigure(of=name, size="stop", what=f"from the {stop.edge.value}", sum=how, value=size)


# --- the end -------------------------------------------------------------------------------------


def _end(roles: Roles, stance: Stance, cut: Cut, end: Cut) -> Iterator[JointFigure]:
    """What the end that enters is cut to."""
    other = Name(stance.other.id)
    name, f = say("end of {}", other), end.figures
    goes_in = depth(f.deep or 0.0)
    how = placed_sum(f.depth, goes_in)
    yield JointFigure(of=name, size="goes in", what="on the centre-line", sum=how, value=goes_in)
    if abs(f.lean) > SQUARE:
        t = stance.other_side.thickness
        yield bevel_figure(name, abs(f.lean), stance.other.board)
        longer = position(t * abs(math.tan(math.radians(f.lean))))
        how = longer_by(t, f.lean)
        yield JointFigure(of=name, size="long point", what="past the short point", sum=how, value=longer)
    yield from _tongue(stance, cut, end, other)
    yield from _notched(end, name)


def _tongue(stance: Stance, cut: Cut, end: Cut, other: Name) -> Iterator[JointFigure]:
    """A tongue square to the face on a leaning end, and its two shoulders."""
    enters = entering(stance)
    if enters > stance.wide - LEAST:
        return
    yield JointFigure(
        of=say("{} on {}", end.plain, other), size="thick", what="square to the face", value=width(enters)
    )
    if abs(stance.leans) < SQUARE:
        each = position((stance.wide - enters) / 2)
        yield JointFigure(of=say("shoulders of {}", other), what="on either side", value=each)
        return
    ax, ay = stance.along
    middle = _middle(stance, cut) - ax / ay * stance.sigma * stance.half
    half = stance.wide / 2 / abs(ay)
    leaning = math.copysign(1.0, ax)
    for side, word in ((leaning, "acute"), (-leaning, "obtuse")):
        shoulder = half - side * middle - enters / 2
        yield JointFigure(
            of=say("shoulder of {}", other), size=f"{word} side", what="along the face", value=position(shoulder)
        )


def _middle(stance: Stance, cut: Cut) -> float:
    """The middle of a housing with square walls, in the drawing's u."""
    shape = next(shape for shape in cut.shapes if isinstance(shape, Prism))
    places = [stance.place(stance.main, (a, c))[0] for a, c, _ in shape.outline]
    return (min(places) + max(places)) / 2


def _notched(end: Cut, name: Words) -> Iterator[JointFigure]:
    """What is taken off the end that enters at its edges."""
    for stop in end.figures.stops:
        size = notched(length(stop.size.total))
        how = placed_sum(stop.size, size)
        yield JointFigure(of=name, size="notched back", what=f"from its {stop.edge.value}", sum=how, value=size)
