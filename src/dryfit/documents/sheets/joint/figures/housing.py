"""The figures of a housing and of the end in it: depth, floor, stops, tongue, bevel, what is notched back."""

import math
from collections.abc import Iterator, Sequence

from .....geometry.frames import Vec2
from .....geometry.shapes import Prism
from .....piece.model import Cut
from ....naming import adding_up, angle, depth, position, rise, thickness, width
from ..roles import Figure, Roles
from ..stance import SQUARE, Stance, entering

OPEN = 1e-6
LEAST = 0.05  # less prints as nothing


def housing_figures(roles: Roles, stance: Stance, cut: Cut, taken: Sequence[Figure]) -> Iterator[Figure]:
    """A housing, then the end that goes into it; `taken` are its widths."""
    name = f"{cut.kind.split()[-1]} in {roles.sign(stance.main.id)}"
    deep, whole = cut.figures.deep or 0.0, 2 * stance.half
    yield from taken
    yield Figure(
        name=f"{name}, deep",
        what="on the centre-line" if abs(stance.leans) > SQUARE else "square to the face",
        sum=f"leaves {position(whole - deep)} of {thickness(whole)}",
        value=depth(deep),
    )
    yield from _floor(stance, cut, name)
    yield from _stops(stance, cut, name)
    for end in stance.joint.cuts:
        if end.body == stance.other.id and end.end:
            yield from _end(roles, stance, cut, end)


# --- the housing ---------------------------------------------------------------------------------


def _floor(stance: Stance, cut: Cut, name: str) -> Iterator[Figure]:
    """The two corners of a floor that falls."""
    shallow, deepest = floor_corners(stance, cut)
    if deepest - shallow > LEAST:
        what, how = "floor square to the walls", "square to the face"
        yield Figure(name=f"{name}, shallow corner", what=what, sum=how, value=depth(shallow))
        yield Figure(name=f"{name}, deepest corner", what=what, sum=how, value=depth(deepest))


def floor_corners(stance: Stance, cut: Cut) -> Vec2:
    """Depths of the shallower and the deeper corner of a housing's floor."""
    knots = [c for shape in cut.shapes if isinstance(shape, Prism) for _, c, _ in shape.outline]
    depths = sorted(stance.half - cut.face * c for c in knots if abs(c) < stance.half - OPEN)
    return (depths[0], depths[-1]) if depths else (0.0, 0.0)


def _stops(stance: Stance, cut: Cut, name: str) -> Iterator[Figure]:
    """How far from each edge it stops, and why there."""
    shape = next(shape for shape in cut.shapes if isinstance(shape, Prism))
    main, other, whole = stance.main_side, stance.other_side, stance.main.board.depth
    for edge, stop, back in (
        ("front", whole - shape.high, main.front - other.front),
        ("wall", shape.low, other.back - main.back),
    ):
        if stop > OPEN:
            yield Figure(
                name=f"{name}, stop", what=f"from the {edge} edge", sum=_stop_sum(back, stop), value=position(stop)
            )


def _stop_sum(back: float, stop: float) -> str:
    """How a stop came about: what the other board stands back, and what is left beyond or cleared."""
    more = stop - back
    if abs(back) < LEAST:
        return f"{position(stop)} short of the edge"
    if abs(more) < OPEN:
        return f"{position(back)} set back"
    _, back, (more,) = adding_up(back, [more], stop)
    return f"{position(back)} set back {'+' if more > 0.0 else 'less'} {position(abs(more))}"


# --- the end -------------------------------------------------------------------------------------


def _end(roles: Roles, stance: Stance, cut: Cut, end: Cut) -> Iterator[Figure]:
    """What the end that enters is cut to."""
    other = roles.sign(stance.other.id)
    name, f = f"end of {other}", end.figures
    goes, deep, (less,) = adding_up(cut.figures.deep or 0.0, [-(stance.bottom or 0.0)], f.deep)
    how = f"{depth(deep)} deep less {depth(-less)}" if stance.bottom else f"all of {depth(deep)} deep"
    yield Figure(name=f"{name}, goes in", what="on the centre-line", sum=how, value=depth(goes))
    if abs(f.lean) > SQUARE:
        t, lean = stance.other_side.thickness, angle(abs(f.lean))
        yield Figure(name=f"{name}, on the saw", what="0 is a square cut", sum=rise(f.lean), value=lean)
        longer = position(t * abs(math.tan(math.radians(f.lean))))
        how = f"{thickness(t)} × tan {lean}"
        yield Figure(name=f"{name}, long point", what="past the short point", sum=how, value=longer)
    yield from _tongue(stance, cut, other)
    yield from _notched(stance, end, name)


def _tongue(stance: Stance, cut: Cut, other: str) -> Iterator[Figure]:
    """A tongue square to the face on a leaning end, and its two shoulders."""
    enters = entering(stance)
    if enters > stance.wide - 0.01:
        return
    yield Figure(name=f"tongue on {other}, thick", what="square to the face", value=width(enters))
    if abs(stance.leans) < SQUARE:
        each = position((stance.wide - enters) / 2)
        yield Figure(name=f"shoulders of {other}", what="on either side", value=each)
        return
    ax, ay = stance.along
    middle = _middle(stance, cut) - ax / ay * stance.sigma * stance.half
    half = stance.wide / 2 / abs(ay)
    leaning = math.copysign(1.0, ax)
    for side, word in ((leaning, "acute"), (-leaning, "obtuse")):
        shoulder = half - side * middle - enters / 2
        yield Figure(name=f"shoulder of {other}, {word} side", what="along the face", value=position(shoulder))


def _middle(stance: Stance, cut: Cut) -> float:
    """The middle of a housing with square walls, in the drawing's u."""
    shape = next(shape for shape in cut.shapes if isinstance(shape, Prism))
    places = [stance.place(stance.main, (a, c))[0] for a, c, _ in shape.outline]
    return (min(places) + max(places)) / 2


def _notched(stance: Stance, end: Cut, name: str) -> Iterator[Figure]:
    """What is taken off the end that enters at its edges."""
    whole = stance.other_side.front - stance.other_side.back
    for shape in end.shapes:
        if isinstance(shape, Prism):
            low, high = max(shape.low, 0.0), min(shape.high, whole)
            if high - low < whole - OPEN:
                what = f"from its {'front' if low > OPEN else 'wall'} edge"
                yield Figure(
                    name=f"{name}, notched back", what=what, sum="stop and clearance", value=position(high - low)
                )
