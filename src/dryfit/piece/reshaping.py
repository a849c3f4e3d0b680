"""What can be measured of a cut in the wood, and a cut's exact shapes made to what was measured.

The figures are those that a maker reads on a sheet and writes down after cutting: where the datum wall stands,
the width across the walls, the depth, where it opens, how it leans, where it stops. All is in the board's own
frame; `at` runs from the part's zero, the long point of the datum end.

Worked example: a board 24 thick, a slot from 487.9 on the upper face, 24.15 across its walls, 9 degrees off
square: on that face it is 24.451 long, and its middle crosses the centre-line at
487.9 + 24.451 / 2 - 12 tan(9) = 498.225.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from ..geometry.frames import WORLD, cosine, length
from ..geometry.shapes import OVER, Bore, HalfSpace, Knot, Prism, Shape, prism
from ..trade.dowels import DIAMETERS
from .model import WALL, Board, Cut, Figures
from .setout import AsCut

EXACT = 0.0006  # a figure is written to 0.001: what differs by no more is the same
EXACT_LEAN = 0.0006  # degrees
AS_CUT = "as cut"  # how its size came about
_FACES = {"face side": 1, "other face": -1}  # times the side that the face side is on
_ROUNDS = 4  # until a wall meets a face that tapers: each round takes the slope times the lean off the error
_EDGES = {"front edge": "front", "wall edge": "wall"}
_OPENS = {word: edge for edge, word in _EDGES.items()}


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """What can be measured of a cut; None where the word has no meaning for it. See `setout.AsCut`."""

    at: float | None = None
    across: float | None = None
    deep: float | None = None
    opens: str = ""
    lean: float = 0.0
    stop: float = 0.0
    stop_wall: float = 0.0


def measured(board: Board, cut: Cut, zero: float) -> Measured:
    """What can be measured of a cut that lies along a board."""
    figures, opens = cut.figures, opens_of(board, cut)
    swept = [shape for shape in cut.shapes if isinstance(shape, Prism)]
    stop, stop_wall = _stops(board, swept[0]) if cut.face and swept else (0.0, 0.0)
    return Measured(
        at=None if opens == "end" else _at(board, cut, zero),
        across=figures.across,
        deep=figures.deep,
        opens=opens,
        lean=figures.lean,
        stop=stop,
        stop_wall=stop_wall,
    )


def opens_of(board: Board, cut: Cut) -> str:
    """Where it opens: "front", "wall", "face side", "other face" or "end"."""
    if cut.figures.opens == "face":
        return "face side" if cut.face == board.face_side else "other face"
    return _EDGES.get(cut.figures.opens, cut.figures.opens)


def reshaped(board: Board, cut: Cut, zero: float, asked: Measured, wood: Measured) -> Cut:
    """The cut as it is in the wood; where nothing differs, its shapes stay as they are to the last bit."""
    if same(asked, wood):
        return replace(cut, made=True)
    shapes = tuple(_shape(board, cut, shape, zero, asked, wood) for shape in cut.shapes)
    return replace(cut, made=True, shapes=shapes, figures=_figures(cut.figures, asked, wood))


def old_cut(board: Board, one: AsCut, zero: float) -> Cut | None:
    """A recorded cut that the job has no place for, as it is in the wood; None where its figures do not tell its shape.

    They do of what opens to an edge: a slot or a notch, or the mouth of a bore for a fixing. Into a face a housing is
    told from a row of holes, whose places nobody records, by being wider than any dowel; its floor is taken to be
    parallel to the face.
    """
    edge, face = _OPENS.get(one.opens, ""), _FACES.get(one.opens, 0) * board.face_side
    if one.at is None or not one.across or not one.deep or not (edge or face):
        return None
    if face and one.across <= DIAMETERS[-1]:
        return None
    word = "bore" if WALL in one.between else "slot" if edge else "housing"
    name = f"old {one.name or word} in {board.name} for {one.other}"
    lean = one.lean or 0.0
    shape = _old_bore(board, one, edge, zero) if word == "bore" else _old_prism(board, one, face, zero)
    return Cut(
        key=name,
        body=board.name,
        kind=f"old {word}",
        face=face,
        shapes=(shape,),
        figures=Figures(
            across=one.across,
            on_face=length(one.across / math.cos(math.radians(lean))),
            deep=one.deep,
            opens=edge or "face",
            stop=one.stop or 0.0,
            lean=lean,
            sum=AS_CUT,
        ),
        made=True,
    )


def _old_bore(board: Board, one: AsCut, edge: str, zero: float) -> Bore:
    """Its mouth: what goes on beyond, narrower, nobody records."""
    assert one.at is not None, "looked at before"
    front = edge == "front edge"
    return Bore(
        start=(length(one.at + zero), 0.0, length(board.depth) if front else 0.0),
        direction=(0.0, 0.0, -1.0 if front else 1.0),
        profile=((0.0, one.across or 0.0), (one.deep or 0.0, 0.0)),
    )


def _old_prism(board: Board, one: AsCut, face: int, zero: float) -> Prism:
    """Between two walls, from an edge through the thickness, or from a face to a floor parallel to it."""
    deep, slope = one.deep or 0.0, math.tan(math.radians(one.lean or 0.0))
    half = (one.across or 0.0) / math.cos(math.radians(one.lean or 0.0)) / 2
    a = (one.at or 0.0) + zero
    on = (face or board.face_side) * board.thickness_at(a) / 2
    middle = a + half - slope * on
    past = board.thickest / 2 + OVER
    low, high = sorted((on - face * deep, face * past)) if face else (-past, past)
    wall, front = -OVER, board.depth + OVER
    if face:
        wall, front = one.stop_wall or wall, board.depth - one.stop if one.stop else front
    elif one.opens == "front":
        wall = board.depth - deep
    else:
        front = deep
    walls = ((low, -1.0), (low, 1.0), (high, 1.0), (high, -1.0))
    return prism(tuple((middle + slope * c + way * half, c) for c, way in walls), wall, front)


def same(one: Measured, other: Measured) -> bool:
    """Whether two are the same as far as a figure is written."""
    pairs = (
        (one.at, other.at),
        (one.across, other.across),
        (one.deep, other.deep),
        (one.stop, other.stop),
        (one.stop_wall, other.stop_wall),
    )
    near = all(a is None or b is None or abs(a - b) <= EXACT for a, b in pairs)
    return near and abs(one.lean - other.lean) <= EXACT_LEAN


def _figures(figures: Figures, asked: Measured, wood: Measured) -> Figures:
    wider = 0.0 if asked.across is None or wood.across is None else wood.across - asked.across
    steeper = math.cos(math.radians(asked.lean)) / math.cos(math.radians(wood.lean))
    on_face = figures.on_face
    if on_face is not None and asked.across and wood.across and on_face >= asked.across - EXACT:  # of a bore it is less
        on_face = length(on_face * wood.across / asked.across * steeper)
    return replace(
        figures,
        across=figures.across if abs(wider) <= EXACT else wood.across,
        on_face=on_face,
        deep=figures.deep if wood.deep is None else wood.deep,
        stop=wood.stop,
        lean=wood.lean,
        sum=AS_CUT if abs(wider) > EXACT else figures.sum,
    )


# ---- what lies along the board


@dataclass(frozen=True, slots=True)
class _Walls:
    """The two walls of a swept cut in the board's (a, c) plane.

    Attributes:
        middle, slope: a = middle + slope c of the line between them.
        half: half of what lies between them along the board.
        low, high: the outline's corners at the lesser and the greater c.
    """

    middle: float
    slope: float
    half: float
    low: tuple[Knot, Knot]
    high: tuple[Knot, Knot]

    @classmethod
    def of(cls, shape: Shape) -> "_Walls | None":
        """Of an outline with four straight sides swept across the board; None of any other shape."""
        if not isinstance(shape, Prism) or shape.frame != WORLD or shape.outline_high is not None:
            return None
        if len(shape.outline) != 4 or any(knot[2] for knot in shape.outline):
            return None
        by_c = sorted(shape.outline, key=lambda knot: knot[1])
        low, high = _pair(by_c[:2]), _pair(by_c[2:])
        (a0, c0), (a1, c1) = _between(low), _between(high)
        half = max(((pair[1][0] - pair[0][0]) / 2 for pair in (low, high) if pair[0][1] == pair[1][1]), default=0.0)
        if half <= 0.0 or c0 == c1:  # it lies askew in the board, as a tongue's groove does
            return None
        slope = (a1 - a0) / (c1 - c0)
        return cls(a0 - slope * c0, slope, half, low, high)


def _pair(knots: Sequence[Knot]) -> tuple[Knot, Knot]:
    first, second = sorted(knots)
    return first, second


def _between(pair: tuple[Knot, Knot]) -> tuple[float, float]:
    (a0, c0, _), (a1, c1, _) = pair
    return (a0 + a1) / 2, (c0 + c1) / 2


def _marked_on(board: Board, cut: Cut) -> int:
    """The face that `at` is measured on: the face side, or the one that it is let into."""
    return cut.face or board.face_side


def _at(board: Board, cut: Cut, zero: float) -> float | None:
    first = cut.shapes[0]
    if isinstance(first, Bore):
        return None if first.direction[0] else length(first.start[0] - zero)
    walls, face = _Walls.of(first), _marked_on(board, cut)
    if walls is None:
        return None
    a = walls.middle
    for _ in range(_ROUNDS):
        a = walls.middle + walls.slope * face * board.thickness_at(a) / 2 - walls.half
    return length(a - zero)


def _stops(board: Board, shape: Prism) -> tuple[float, float]:
    """Wood left at the front and at the wall edge."""
    return length(max(board.depth - shape.high, 0.0)), length(max(shape.low, 0.0))


def _shape(board: Board, cut: Cut, shape: Shape, zero: float, asked: Measured, wood: Measured) -> Shape:
    if isinstance(shape, Bore):
        return _bore(shape, asked, wood)
    walls = _Walls.of(shape)
    if walls is None or not isinstance(shape, Prism) or wood.opens == "end":
        return shape
    return _prism(board, cut, shape, walls, zero, asked, wood)


def _bore(shape: Bore, asked: Measured, wood: Measured) -> Bore:
    """Moved along the board; its mouth as wide, its step as deep as they are."""
    along = 0.0 if asked.at is None or wood.at is None else wood.at - asked.at
    a, c, d = shape.start
    steps = list(shape.profile)
    if wood.across:
        steps[0] = (steps[0][0], wood.across)
    if wood.deep and asked.deep:
        steps = [(wood.deep if abs(x - asked.deep) <= EXACT else x, wide) for x, wide in steps]
    return replace(shape, start=(length(a + along), c, d), profile=tuple((length(x), length(w)) for x, w in steps))


def _prism(board: Board, cut: Cut, shape: Prism, walls: _Walls, zero: float, asked: Measured, wood: Measured) -> Prism:
    steeper = abs(wood.lean - asked.lean) > EXACT_LEAN
    slope = math.tan(math.radians(wood.lean)) if steeper else walls.slope
    wider = wood.across / asked.across if wood.across and asked.across else 1.0
    square = math.cos(math.radians(asked.lean)) / math.cos(math.radians(wood.lean)) if steeper else 1.0
    half = walls.half * wider * square
    middle, face = walls.middle, _marked_on(board, cut)
    at = wood.at if wood.at is not None else asked.at
    if at is not None:
        a = at + zero
        middle = a + half - slope * face * board.thickness_at(a) / 2
    deeper = 0.0 if wood.deep is None or asked.deep is None else wood.deep - asked.deep
    floor = walls.low if cut.face > 0 else walls.high

    def knot(old: Knot) -> Knot:
        a, c, _ = old
        beside = (a - walls.middle - walls.slope * c) / walls.half
        if cut.face and old in floor:
            level = _between(floor)[1]
            c = level - cut.face * deeper + (c - level) * wider
        return length(middle + slope * c + beside * half), length(c), 0.0

    low, high = _swept(board, cut, shape, deeper, wood)
    return replace(shape, outline=tuple(knot(old) for old in shape.outline), low=length(low), high=length(high))


def _swept(board: Board, cut: Cut, shape: Prism, deeper: float, wood: Measured) -> tuple[float, float]:
    """From and to across the board."""
    low, high = shape.low, shape.high
    if cut.face:
        low = wood.stop_wall if wood.stop_wall > EXACT else min(low, -OVER) if low <= 0.0 else -OVER
        high = board.depth - wood.stop if wood.stop > EXACT else max(board.depth + OVER, high)
    elif wood.opens == "front":
        low -= deeper
    elif wood.opens == "wall":
        high += deeper
    return (low, high) if low < high else (shape.low, shape.high)


# ---- ends


def moved_along(cut: Cut, by: float) -> Cut:
    """A cut moved along its board, with what is measured of it from one end."""
    points = cut.figures.points
    figures = cut.figures if points is None else replace(cut.figures, points=(points[0] + by, points[1] + by))
    return replace(cut, shapes=tuple(_moved(shape, by) for shape in cut.shapes), figures=figures)


def _moved(shape: Shape, by: float) -> Shape:
    match shape:
        case HalfSpace():
            a, c, d = shape.point
            return replace(shape, point=(length(a + by), c, d))
        case Bore():
            a, c, d = shape.start
            return replace(shape, start=(length(a + by), c, d))
        case Prism() if shape.frame == WORLD:
            high = None if shape.outline_high is None else _along(shape.outline_high, by)
            return replace(shape, outline=_along(shape.outline, by), outline_high=high)
        case Prism():
            a, c, d = shape.frame.origin
            return replace(shape, frame=replace(shape.frame, origin=(length(a + by), c, d)))


def _along(knots: tuple[Knot, ...], by: float) -> tuple[Knot, ...]:
    return tuple((length(a + by), c, bulge) for a, c, bulge in knots)


def lean_of_end(cut: Cut) -> float:
    """Degrees off square of an end, positive where it leans to the far end at +c; unsigned where it is stepped."""
    planes = [shape for shape in cut.shapes if isinstance(shape, HalfSpace)]
    if len(planes) != 1 or cut.figures.reach is not None:
        return cut.figures.lean
    nx, ny, _ = planes[0].normal
    return round(math.degrees(math.atan(-ny / nx)), 9) + 0.0


def can_lean(cut: Cut) -> bool:
    """Whether an end can be given another lean: its saw cut is one plane."""
    return cut.figures.reach is None and sum(isinstance(shape, HalfSpace) for shape in cut.shapes) == 1


def leaning(board: Board, cut: Cut, lean: float) -> Cut:
    """An end whose saw cut stands off square by so much, turned about its long point."""
    if not can_lean(cut):
        return cut
    slope = math.tan(math.radians(lean))

    def turned(shape: Shape) -> Shape:
        if not isinstance(shape, HalfSpace):
            return shape
        nx, ny, _ = shape.normal
        half = board.thickness_at(shape.point[0]) / 2
        was = -ny / nx  # a rises by so much with c
        c = half if was * cut.end > 0.0 else -half  # where the end reached furthest
        new_c = half if slope * cut.end > 0.0 else -half  # and where it does now
        a = shape.point[0] + was * (c - shape.point[1])
        size = math.hypot(1.0, slope)
        normal = (cosine(cut.end / size), cosine(-slope * cut.end / size), 0.0)
        return HalfSpace(point=(length(a), length(new_c), 0.0), normal=normal)

    return replace(
        cut, shapes=tuple(turned(shape) for shape in cut.shapes), figures=replace(cut.figures, lean=abs(lean))
    )
