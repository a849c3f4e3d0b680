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
from ..geometry.views import FACES, Looker, Removed, Surface, Wood
from ..sentences import Name, say
from ..trade.dowels import DIAMETERS
from .facts import CutForm, Opens, Stop
from .model import WALL, Board, Cut, Figures
from .setout import AsCut
from .sums import Sum, Word

EXACT = 0.0006  # a figure is written to 0.001: what differs by no more is the same
EXACT_LEAN = 0.0006  # degrees
PLACE, WIDTH, LEAN = 0.1, 0.05, 0.05  # the steps to which sheets print in mm, and in degrees
_FIGURES = {"at": PLACE, "across": WIDTH, "deep": WIDTH, "lean": LEAN, "stop": WIDTH, "stop_wall": WIDTH}
AS_CUT = "as cut"  # how its size came about
_FACES = {"face side": 1, "other face": -1}  # times the side that the face side is on
_ROUNDS = 4  # until a wall meets a face that tapers: each round takes the slope times the lean off the error
_EDGES = {"front": Opens.FRONT, "wall": Opens.WALL}  # as they are recorded


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
    stop, stop_wall = _stops(board, cut)
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
    opens = cut.figures.opens
    if opens is Opens.FACE:
        return "face side" if cut.face == board.face_side else "other face"
    return opens.edge or opens.value


def reshaped(board: Board, cut: Cut, zero: float, asked: Measured, wood: Measured) -> Cut:
    """The cut as it is in the wood; where nothing differs, its shapes stay as they are to the last bit."""
    if same(asked, wood):
        return replace(cut, made=True)
    shapes = _shapes(board, cut, zero, asked, wood)
    return replace(cut, made=True, shapes=shapes, figures=_figures(cut, asked, wood))


def walls_off(cut: Cut, asked: Measured, wood: Measured) -> tuple[float, float] | None:
    """How much further from the datum end a cut's near and its far wall stand than asked; None of what has no place.

    A place is that of the near wall, of holes that of their middle.
    """
    if wood.at is None or asked.at is None:
        return None
    wider = ((wood.across or 0.0) - (asked.across or 0.0)) / math.cos(math.radians(wood.lean)) if asked.across else 0.0
    near = wood.at - asked.at
    if all(isinstance(shape, Bore) for shape in cut.shapes):
        near -= wider / 2
    return near, near + wider


def old_cut(board: Board, one: AsCut, zero: float) -> Cut | None:
    """A recorded cut that the job has no place for, as it is in the wood; None where its figures do not tell its shape.

    They do of what opens to an edge: a slot or a notch, or the mouth of a bore for a fixing. Into a face a housing is
    told from a row of holes, whose places nobody records, by being wider than any dowel; its floor is taken to be
    parallel to the face.
    """
    edge, face = _EDGES.get(one.opens), _FACES.get(one.opens, 0) * board.face_side
    if one.at is None or not one.across or not one.deep or not (edge or face):
        return None
    if face and one.across <= DIAMETERS[-1]:
        return None
    form = CutForm.BORE if WALL in one.between else CutForm.SLOT if edge else CutForm.HOUSING
    says = say("old {} in {} for {}", one.name or form.value, Name(board.name), Name(one.other))
    lean = one.lean or 0.0
    bored = form is CutForm.BORE
    shape = _old_bore(board, one, zero) if bored else _old_prism(board, one, face, zero)
    return Cut(
        key=str(says),
        says=says,
        body=board.name,
        form=form,
        word=f"old {form.value}",
        noun=form.value,
        face=face,
        shapes=(shape,),
        figures=Figures(
            width=Sum.alone(one.across, Word.AS_CUT),
            on_face=length(one.across / math.cos(math.radians(lean))),
            depth=Sum.alone(one.deep, Word.AS_CUT),
            opens=edge or Opens.FACE,
            stops=_stopped((), one.stop or 0.0, one.stop_wall or 0.0),
            lean=lean,
        ),
        made=True,
    )


def _old_bore(board: Board, one: AsCut, zero: float) -> Bore:
    """Its mouth: what goes on beyond, narrower, nobody records."""
    assert one.at is not None, "looked at before"
    front = one.opens == "front"
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


def _figures(cut: Cut, asked: Measured, wood: Measured) -> Figures:
    figures = cut.figures
    wider = 0.0 if asked.across is None or wood.across is None else wood.across - asked.across
    steeper = math.cos(math.radians(asked.lean)) / math.cos(math.radians(wood.lean))
    on_face = figures.on_face
    if on_face is not None and asked.across and wood.across and on_face >= asked.across - EXACT:  # of a bore it is less
        on_face = length(on_face * wood.across / asked.across * steeper)
    deep, wider_cut = wood.deep, abs(wider) > EXACT
    same_depth = deep is None or (figures.deep is not None and abs(deep - figures.deep) <= EXACT)
    return replace(
        figures,
        width=Sum.alone(wood.across or 0.0, Word.AS_CUT) if wider_cut else figures.width,
        on_face=on_face,
        depth=figures.depth if same_depth else Sum.alone(deep or 0.0, Word.AS_CUT),
        stops=_stopped(figures.stops, wood.stop, wood.stop_wall) if cut.face else figures.stops,
        lean=wood.lean,
        note=AS_CUT if wider_cut and figures.note else figures.note,
    )


def _stopped(stops: Sequence[Stop], front: float, wall: float) -> tuple[Stop, ...]:
    """Stops where they are in the wood: as they came about, where that is where they are."""
    asked = {stop.edge: stop for stop in stops}
    found = []
    for edge, size in ((Opens.FRONT, front), (Opens.WALL, wall)):
        one = asked.get(edge)
        if one is not None and abs(one.size.total - size) <= EXACT:
            found.append(one)
        elif size > EXACT:
            covered = one is not None and one.covered
            found.append(Stop(edge=edge, size=Sum.alone(size, Word.AS_CUT), covered=covered))
    return tuple(found)


# ---- what lies along the board


@dataclass(frozen=True, slots=True)
class _Wall:
    """One wall in the board's (a, c) plane: a = at + slope c."""

    at: float
    slope: float

    @classmethod
    def through(cls, one: Knot, other: Knot) -> "_Wall":
        """Between two corners."""
        slope = (other[0] - one[0]) / (other[1] - one[1])
        return cls(one[0] - slope * one[1], slope)

    def on(self, c: float) -> float:
        """Where it stands at a place through the thickness."""
        return self.at + self.slope * c

    def met(self, board: Board, face: int) -> float:
        """Where it meets a face, which may taper."""
        a = self.at
        for _ in range(_ROUNDS):
            a = self.on(face * board.thickness_at(a) / 2)
        return a

    def moved(self, c: float, to: float, steeper: float) -> "_Wall":
        """One that stands at `to` there, its slope greater by so much."""
        slope = self.slope + steeper
        return _Wall(to - slope * c, slope)


@dataclass(frozen=True, slots=True)
class _Walls:
    """The two walls of a swept cut, in one section across the board: they need not be parallel.

    Attributes:
        near, far: the one nearer the datum end, and the other.
        low, high: the outline's corners at the lesser and the greater c, the near wall's first.
    """

    near: _Wall
    far: _Wall
    low: tuple[Knot, Knot]
    high: tuple[Knot, Knot]

    @classmethod
    def of(cls, shape: Shape) -> "_Walls | None":
        """Of an outline with four straight sides swept across the board; None of any other shape."""
        if not isinstance(shape, Prism) or shape.frame != WORLD:
            return None
        ends = [cls.section(knots) for knots in (shape.outline, shape.outline_high or shape.outline)]
        return None if None in ends else ends[0]

    @classmethod
    def section(cls, knots: Sequence[Knot]) -> "_Walls | None":
        """Of one outline; None where it has no two straight walls between two others."""
        if len(knots) != 4 or any(knot[2] for knot in knots):
            return None
        by_c = sorted(knots, key=lambda knot: knot[1])
        low, high = _pair(by_c[:2]), _pair(by_c[2:])
        level = any(pair[0][1] == pair[1][1] and pair[0][0] < pair[1][0] for pair in (low, high))
        if not level or low[0][1] == high[0][1] or low[1][1] == high[1][1]:
            return None  # it lies askew in the board, as a tongue's groove does
        return cls(_Wall.through(low[0], high[0]), _Wall.through(low[1], high[1]), low, high)

    def floor(self, face: int) -> tuple[Knot, Knot]:
        """Its corners away from the face that it is let into."""
        return self.low if face > 0 else self.high

    def deepest(self, face: int) -> float:
        """The middle of its floor, through the thickness."""
        return sum(c for _, c, _ in self.floor(face)) / 2


def _pair(knots: Sequence[Knot]) -> tuple[Knot, Knot]:
    first, second = sorted(knots)
    return first, second


def _marked_on(board: Board, cut: Cut) -> int:
    """The face that `at` is measured on: the face side, or the one that it is let into."""
    return cut.face or board.face_side


def _at(board: Board, cut: Cut, zero: float) -> float | None:
    """Where the datum wall is marked, as the sheet prints it: of what narrows inwards at its mouth."""
    first = cut.shapes[0]
    if isinstance(first, Bore):
        return None if first.direction[0] else length(first.start[0] - zero)
    mouth = _mouth(board, cut)
    if mouth is None:
        mouth = _seen(board, cut)
    return None if mouth is None else length(mouth - zero)


def _mouth(board: Board, cut: Cut) -> float | None:
    """Where its walls first meet the face that it is marked on, along the board; None of what has no two walls."""
    if not cut.shapes or any(_Walls.of(shape) is None for shape in cut.shapes):
        return None
    swept = [shape for shape in cut.shapes if isinstance(shape, Prism)]
    outlines = [_section_at(shape, d) for shape in swept for d in (max(shape.low, 0.0), min(shape.high, board.depth))]
    walls = [one for one in map(_Walls.section, outlines) if one is not None]
    return min((one.near.met(board, _marked_on(board, cut)) for one in walls), default=None)


def _seen(board: Board, cut: Cut) -> float | None:
    """The same of any shape, as a view of the part shows it; of what does not break that face, on its edge."""
    corner = max(board.length, board.depth, board.thickest)  # further than any end lies from its line's
    wood = Wood(
        profile=board.profile,
        depth=board.depth,
        start=-corner,
        end=board.length + corner,
        zero=0.0,
        cuts=(Removed(key=cut.key, end=0, shapes=cut.shapes),),
    )
    looker = Looker(wood)
    edge = {Opens.FRONT: Surface.FRONT, Opens.WALL: Surface.WALL}.get(cut.figures.opens)
    for surface in (FACES[0 if _marked_on(board, cut) > 0 else 1], edge):
        trace = None if surface is None else looker.view(surface).trace(cut.key)
        if trace is not None and trace.marks is not None:
            return trace.marks[0]
    return None


def _section_at(shape: Prism, d: float) -> tuple[Knot, ...]:
    """The outline of a prism at a place across the board, on past its ends where that lies beyond them."""
    if shape.outline_high is None:
        return shape.outline
    share = (d - shape.low) / (shape.high - shape.low)
    both = zip(shape.outline, shape.outline_high, strict=True)
    return tuple((a + (x - a) * share, c + (y - c) * share, bulge) for (a, c, bulge), (x, y, _) in both)


def _stops(board: Board, cut: Cut) -> tuple[float, float]:
    """Wood left at the front and at the wall edge."""
    swept = [shape for shape in cut.shapes if isinstance(shape, Prism)]
    if not cut.face or not swept or any(shape.frame != WORLD for shape in swept):
        return 0.0, 0.0
    low, high = min(shape.low for shape in swept), max(shape.high for shape in swept)
    return length(max(board.depth - high, 0.0)), length(max(low, 0.0))


def unbuilt(cut: Cut, asked: Measured, wood: Measured) -> tuple[str, ...]:
    """The figures by which a recorded cut differs and from which its shape cannot be made.

    Any shape can be moved along the board. Walls can be set apart, leant, deepened and stopped elsewhere, whether
    they are parallel, narrow inwards or taper; of a round end, a keyhole, what lies in an end, nobody but the kind
    knows what else would change with a figure.
    """
    differ = [word for word in _FIGURES if _differ(word, asked, wood)]
    if wood.opens == "end":
        return tuple(differ)
    if all(isinstance(shape, Bore) for shape in cut.shapes):
        return tuple(word for word in differ if word not in ("at", "across", "deep"))
    walls = [_Walls.of(shape) for shape in cut.shapes]
    if None in walls:
        return tuple(word for word in differ if word != "at")
    floors = {one.deepest(cut.face) if cut.face else 0.0 for one in walls if one is not None}
    return tuple(word for word in differ if word == "deep" and len(floors) > 1)


def _differ(word: str, asked: Measured, wood: Measured) -> bool:
    one, other = getattr(asked, word), getattr(wood, word)
    return one is not None and other is not None and abs(one - other) > _FIGURES[word]


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


def _shapes(board: Board, cut: Cut, zero: float, asked: Measured, wood: Measured) -> tuple[Shape, ...]:
    if wood.opens == "end":
        return cut.shapes
    if all(isinstance(shape, Bore) for shape in cut.shapes):
        return tuple(_bore(shape, asked, wood) for shape in cut.shapes if isinstance(shape, Bore))
    mouth, at = _mouth(board, cut), wood.at if wood.at is not None else asked.at
    if mouth is None:
        by = 0.0 if at is None or asked.at is None else at - asked.at
        return tuple(_moved(shape, by) for shape in cut.shapes)
    by = 0.0 if at is None else at + zero - mouth
    walled = [shape for shape in cut.shapes if isinstance(shape, Prism)]
    ends = min(shape.low for shape in walled), max(shape.high for shape in walled)
    return tuple(_prism(board, cut, shape, ends, by, asked, wood) for shape in walled)


def _prism(
    board: Board, cut: Cut, shape: Prism, ends: tuple[float, float], by: float, asked: Measured, wood: Measured
) -> Prism:
    """Its walls moved by so much along the board, set apart and leant; its floor and its ends where they are."""
    leant = abs(wood.lean - asked.lean) > EXACT_LEAN
    tan_wood, tan_asked = math.tan(math.radians(wood.lean)), math.tan(math.radians(asked.lean))
    steeper = tan_wood - tan_asked if leant else 0.0
    square = math.cos(math.radians(asked.lean)) / math.cos(math.radians(wood.lean)) if leant else 1.0
    wider = wood.across / asked.across if wood.across and asked.across else 1.0
    grown = (wood.across - asked.across) / math.cos(math.radians(wood.lean)) if wood.across and asked.across else 0.0
    deeper = 0.0 if wood.deep is None or asked.deep is None else wood.deep - asked.deep
    face = _marked_on(board, cut)

    def section(knots: tuple[Knot, ...]) -> tuple[Knot, ...]:
        walls = _Walls.section(knots)
        assert walls is not None, "looked at before"
        was = walls.near.met(board, face)
        c_was, c_now = (face * board.thickness_at(a) / 2 for a in (was, was + by))
        apart = (walls.far.on(c_was) - was) * square + grown
        near, far = walls.near.moved(c_now, was + by, steeper), walls.far.moved(c_now, was + by + apart, steeper)
        floor, level = walls.floor(cut.face), walls.deepest(cut.face)

        def knot(old: Knot) -> Knot:
            c = old[1]
            if cut.face and old in floor:
                c = level - cut.face * deeper + (c - level) * wider
            return (near if old in (walls.low[0], walls.high[0]) else far).on(c), c, 0.0

        return tuple(knot(old) for old in knots)

    tapers = shape.outline_high is not None
    new = replace(
        shape, outline=section(shape.outline), outline_high=section(shape.outline_high) if shape.outline_high else None
    )
    low, high = _swept(board, cut, shape, ends, deeper, wood)
    return replace(
        new,
        outline=_rounded(_section_at(new, low)),
        outline_high=_rounded(_section_at(new, high)) if tapers else None,
        low=length(low),
        high=length(high),
    )


def _rounded(knots: tuple[Knot, ...]) -> tuple[Knot, ...]:
    return tuple((length(a), length(c), bulge) for a, c, bulge in knots)


def _swept(
    board: Board, cut: Cut, shape: Prism, ends: tuple[float, float], deeper: float, wood: Measured
) -> tuple[float, float]:
    """From and to across the board; of several shapes in a row the first and the last reach the cut's `ends`."""
    low, high = shape.low, shape.high
    first, last = low == ends[0], high == ends[1]
    if cut.face:
        if first:
            low = wood.stop_wall if wood.stop_wall > EXACT else min(low, -OVER) if low <= 0.0 else -OVER
        if last:
            high = board.depth - wood.stop if wood.stop > EXACT else max(board.depth + OVER, high)
    elif wood.opens == "front" and first:
        low -= deeper
    elif wood.opens == "wall" and last:
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
