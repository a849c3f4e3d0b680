"""What a row of the cut table says beyond its columns, so that the cut can be made from the row alone.

How far a housing runs, which way its walls lean and how its floor lies; where an end is notched back to a
shoulder; where across the board holes and pockets stand. Places across the board are counted from the face edge
(the front edge), a run from the edge it starts at.
"""

from collections.abc import Iterator, Sequence
from typing import TypeGuard

from shapely import LineString, Point, Polygon, get_coordinates

from .....geometry.frames import NEAR, WORLD, Vec2
from .....geometry.sections import FAR
from .....geometry.shapes import Bore, HalfSpace, Prism, Shape
from .....geometry.solids import flattened
from .....geometry.views import Surface
from .....piece.facts import CutForm, Opens
from .....piece.leaning import edges_open, head
from .....piece.model import DATUM_END, Cut
from ....looks import Desk, Look, is_bored
from ....naming import adding_up, angle, depth, notched, position, thickness, width
from ..looking import faces_of, up_of
from .facts import LEAST_LEAN, bore_words
from .setups import how_made

FINE = 1e-3  # mm: corners as near as this to one line lie on it
ALONG = 0.5  # share of a direction from which on a hole runs along that axis


def details(desk: Desk, look: Look, cut: Cut) -> Iterator[str]:
    """Sentences for further lines of a cut's row; none where the columns say all."""
    if is_bored(cut):
        yield from filter(None, [places_words(look, cut)])
        return
    prisms = [shape for shape in cut.shapes if isinstance(shape, Prism)]
    if cut.end:
        yield from (_cut_back(look, cut, prism) for prism in prisms)
    elif cut.figures.opens is Opens.END:
        yield _at_the_end(look, cut, prisms)
    elif cut.face:
        yield from filter(None, (_runs(look, prisms[0]), _leaning(desk, look, cut, prisms[0])))


def opens_words(look: Look, cut: Cut) -> str:
    """The edge a cut opens to: "front", "wall", "both", "none"; "end" for what opens there."""
    if cut.end or is_bored(cut):
        return ""
    if not cut.face:
        opens = cut.figures.opens
        return look.names.short(_EDGES[opens]) if opens in _EDGES else opens.value
    prism = next(shape for shape in cut.shapes if isinstance(shape, Prism))
    at_wall, at_front = edges_open(prism, look.part.board)
    if at_wall and at_front:
        return "both"
    if at_wall or at_front:
        return look.names.short(Surface.WALL if at_wall else Surface.FRONT)
    return "none"


_EDGES = {Opens.FRONT: Surface.FRONT, Opens.WALL: Surface.WALL}


def thickness_words(look: Look) -> str:
    """How thick a board is along its length; "" for one that does not change.

    What was measured beyond an end, on wood that is cut off, is told as it comes out at that end.
    """
    board, (low, high) = look.part.board, look.part.long
    places = sorted({min(max(a, low), high) for a, _ in board.profile})
    knots = [(a - low, board.thickness_at(a)) for a in places]
    if len({size for _, size in board.profile}) < 2 or len(knots) < 2:
        return ""
    told = ", ".join(f"{thickness(size)} at {position(a)}" for a, size in knots)
    return f"{told}, straight between, parallel beyond"


def hole_words(look: Look, cut: Cut) -> str:
    """Holes: how many, their diameters and depths."""
    size = bore_words(look, cut)
    return size if len(cut.shapes) == 1 else f"{len(cut.shapes)} of {size}"


def places_words(look: Look, cut: Cut) -> str:
    """Where across board and thickness holes stand; "" for one in the middle of an edge."""
    bores = [shape for shape in cut.shapes if isinstance(shape, Bore)]
    along, through, out = bores[0].direction
    if abs(out) > ALONG:
        return "" if is_mid_edge(cut) else f"axis {_in_thickness(look, bores[0])}"
    places = ", ".join(position(place) for place in sorted(look.part.board.depth - bore.start[2] for bore in bores))
    where = f"at {places} from the {look.names.words[Surface.FRONT]}"
    if abs(along) > ALONG:
        end = look.names.words[Surface.DATUM if along > 0 else Surface.FAR]
        return f"{where}, square to the {end}, {_in_thickness(look, bores[0])}"
    return f"{where}, drilled from the {look.names.words[Surface.MINUS if through > 0 else Surface.PLUS]}"


def is_mid_edge(cut: Cut) -> bool:
    """Whether it is a hole in an edge, in the middle of the thickness: said by "mid" beside its name."""
    return is_bored(cut) and all(_in_edge(shape) and abs(shape.start[1]) < NEAR for shape in cut.shapes)


def _in_edge(shape: Shape) -> TypeGuard[Bore]:
    return isinstance(shape, Bore) and abs(shape.direction[2]) > ALONG


def _in_thickness(look: Look, bore: Bore) -> str:
    c = bore.start[1]
    return "mid-thickness" if abs(c) < NEAR else from_face(look, bore)


def from_face(look: Look, bore: Bore) -> str:
    """How far a hole's axis lies from the face side; half a board is told as finely as it is measured."""
    below = look.part.board.thickness_at(bore.start[0]) / 2 - up_of(look) * bore.start[1]
    told = thickness(below) if abs(bore.start[1]) < NEAR else position(below)
    return f"{told} from the {look.names.words[look.names.face_side]}"


# --- housings ------------------------------------------------------------------------------------


def run_and_stop(look: Look, cut: Cut) -> list[str]:
    """How far a housing that stops before one edge runs from the other, and what that leaves of the board's width."""
    prism = next((shape for shape in cut.shapes if isinstance(shape, Prism)), None)
    if prism is None or cut.end or not cut.face or sum(edges_open(prism, look.part.board)) != 1:
        return []
    whole = look.part.board.depth
    runs, stops = (prism.high, whole - prism.high) if prism.low <= NEAR else (whole - prism.low, prism.low)
    _, run, (stop,) = adding_up(runs, [stops], whole)
    return [depth(run), depth(stop)]


def _runs(look: Look, prism: Prism) -> str:
    """From where to where a housing runs that stops before both edges; the columns tell the others."""
    if any(edges_open(prism, look.part.board)):
        return ""
    whole, front = look.part.board.depth, look.names.words[Surface.FRONT]
    return f"runs {depth(whole - prism.high)} to {depth(whole - prism.low)} from the {front}"


def _leaning(desk: Desk, look: Look, cut: Cut, prism: Prism) -> str:
    """Which way the walls lean, seen as the sections are, and how the floor lies."""
    if abs(cut.figures.lean) <= LEAST_LEAN:
        return ""
    side = head(cut.figures.lean, prism, look.part.board)
    middle = f"{depth(cut.figures.deep or 0.0)} deep at the middle of the floor"
    return "; ".join(filter(None, (f"head leans {side} {angle(abs(cut.figures.lean))}", how_made(desk, cut), middle)))


# --- ends ----------------------------------------------------------------------------------------


def _cut_back(look: Look, cut: Cut, prism: Prism) -> str:
    """What more is taken off an end: over part of the width, or beside a tongue."""
    done = "notched" if cut.figures.reach is None else "mitred"
    size = notched if cut.figures.reach is None else width
    taken = {
        (True, True): "",
        (False, True): f"{look.names.words[Surface.FRONT]} {done} {size(look.part.board.depth - prism.low)}",
        (True, False): f"{look.names.words[Surface.WALL]} {done} {size(prism.high)}",
        (False, False): f"{done} {between_words(look, prism)}",
    }[edges_open(prism, look.part.board)]
    shoulder = _shoulder(look, cut, prism)
    return ", ".join(filter(None, (taken or _cheek(look, cut, prism), shoulder)))


def _shoulder(look: Look, cut: Cut, prism: Prism) -> str:
    """Up to where the end is taken off: one figure where both faces have the same."""
    found = [(look.names.short(face), _inner(look, cut, prism, face)) for face in faces_of(look)]
    places = [(name, position(a)) for name, a in found if a is not None]
    if len(places) == 2 and places[0][1] == places[1][1]:
        return f"shoulder at {places[0][1]}"
    return f"shoulder at {', '.join(f'{place} {name}' for name, place in places)}" if places else ""


def between_words(look: Look, prism: Prism) -> str:
    """From where to where a shape reaches across the board, counted from the face edge."""
    whole = look.part.board.depth
    return f"{width(whole - prism.high)} to {width(whole - prism.low)} from the {look.names.words[Surface.FRONT]}"


def _outline(prism: Prism) -> Polygon:
    return Polygon(flattened(prism.outline))


def _inner(look: Look, cut: Cut, prism: Prism, face: Surface) -> float | None:
    """Running position on a face up to which a shape takes the end; None where it does not reach that face."""
    board = look.part.board
    c = (1.0 if face is Surface.PLUS else -1.0) * board.thickness_at(prism.outline[0][0]) / 2
    met = _outline(prism).intersection(LineString([(-FAR, c), (FAR, c)]))
    if met.is_empty:
        return None
    low, _, high, _ = met.bounds
    return float(high if cut.end < 0 else low) - look.part.zero


def _cheek(look: Look, cut: Cut, prism: Prism) -> str:
    """How far below its face a cheek lies: along its shoulder, which on a bevel is further than square to the face."""
    shoulder = _shoulder_line(look, cut, prism)
    if shoulder is None:
        return ""
    line, (low, high) = shoulder
    face = look.names.face_side if low < line.length - high else look.names.other_face
    deep = high if face is look.names.face_side else line.length - low
    along = " along the bevel" if abs(cut.figures.lean) > LEAST_LEAN else ""
    return f"cheek {width(deep)} below the {look.names.words[face]}{along}"


def _shoulder_line(look: Look, cut: Cut, prism: Prism) -> tuple[LineString, tuple[float, float]] | None:
    """The line of a shoulder in (a, c), from the face side to the other face, and from where to where it is sawn."""
    plane = next((shape for shape in cut.shapes if isinstance(shape, HalfSpace)), None)
    if plane is None:
        return None
    nx, ny, _ = plane.normal
    past = [a * nx + c * ny for a, c in flattened(prism.outline)]
    corners = [corner for corner, far in zip(flattened(prism.outline), past, strict=True) if far < min(past) + FINE]
    line = _through(look, (nx, ny), corners[0])
    places = sorted(line.project(Point(corner)) for corner in corners)
    return line, (places[0], places[-1])


def _through(look: Look, normal: Vec2, point: Vec2) -> LineString:
    """A line square to a direction through a point in (a, c), from the face side to the other face."""
    up = up_of(look) * look.part.board.thickness_at(point[0]) / 2
    ends = [(point[0] - normal[1] * (c - point[1]) / normal[0], c) for c in (up, -up)]
    return LineString(ends)


def _end_line(look: Look, cut: Cut) -> LineString:
    """The plane of the end that a cut belongs to, in (a, c), from the face side to the other face.

    Of an end that is mitred over part of its width that of the mitre, not of what is square beside it.
    """
    end = next(one for one in look.part.cuts if one.end and (one is cut or one.joint == cut.joint))
    if end.figures.reach is not None and end.figures.points is not None:
        (plus, minus), thick = end.figures.points, look.part.board.thickness_at
        faces = [(plus, thick(plus) / 2), (minus, -thick(minus) / 2)]
        return LineString(faces if up_of(look) > 0 else faces[::-1])
    plane = next(shape for shape in end.shapes if isinstance(shape, HalfSpace))
    return _through(look, plane.normal[:2], plane.point[:2])


def _along_end(look: Look, cut: Cut, prism: Prism) -> tuple[float, float] | None:
    """From where to where a shape meets the end's plane, counted from the arris of the face side."""
    line = _end_line(look, cut)
    met = _outline(prism).intersection(line)
    if met.is_empty or met.length < NEAR:
        return None
    places = sorted(line.project(Point(corner)) for corner in get_coordinates(met))
    return places[0], places[-1]


def _at_the_end(look: Look, cut: Cut, prisms: Sequence[Prism]) -> str:
    """Pockets of a circular cutter, or a groove in the end's own face."""
    front = look.names.words[Surface.FRONT]
    whole = look.part.board.depth
    if cut.form is CutForm.POCKET:
        low, _, high, _ = _outline(prisms[0]).bounds
        middles = sorted(whole - (prism.low + prism.high) / 2 for prism in prisms)
        places = ", ".join(position(place) for place in middles)
        return f"{len(prisms)} at {places} from the {front}, cutter {position(high - low)}, in along the bisector"
    if prisms[0].frame is not WORLD:
        return _across_the_end(look, cut, prisms)
    met = _along_end(look, cut, prisms[0])
    where = "" if met is None else f"{width(met[0])} to {width(met[1])} from the arris of the {_side(look)}, "
    through = edges_open(prisms[0], look.part.board) == (True, True)
    return (
        f"in the {_end_of(look, cut)}, {where}{'right across' if through else f'runs {between_words(look, prisms[0])}'}"
    )


def _across_the_end(look: Look, cut: Cut, prisms: Sequence[Prism]) -> str:
    """Slots whose outline lies in the end itself, or which stand square to a mitre: where, from the front edge."""
    front, end = look.names.words[Surface.FRONT], _end_of(look, cut)
    board = look.part.board
    whole, half = board.depth, board.thickness_at(prisms[0].frame.origin[0]) / 2
    spans = []
    for prism in prisms:
        points = [prism.frame.place((x, y, z)) for x, y in flattened(prism.outline) for z in (prism.low, prism.high)]
        ups = [half - up_of(look) * c for _, c, _ in points]
        outs = [out for _, _, out in points]
        spans.append((max(min(ups), 0.0), min(max(ups), 2 * half), max(min(outs), 0.0), min(max(outs), whole)))
    near, far, low, high = spans[0]
    across = (
        "" if cut.form is CutForm.BISCUIT else f", {width(near)} to {width(far)} from the arris of the {_side(look)}"
    )
    if len(prisms) == 1 and across:
        return f"in the {end}{across}, runs {width(whole - high)} to {width(whole - low)} from the {front}"
    middles = sorted(whole - (low + high) / 2 for _, _, low, high in spans)
    return f"{len(prisms)} in the {end} at {', '.join(map(position, middles))} from the {front}{across}"


def _end_of(look: Look, cut: Cut) -> str:
    """Which end a cut at a corner lies in: the one that its joint makes."""
    end = next((other.end for other in look.part.cuts if other.end and other.joint == cut.joint), DATUM_END)
    return look.names.words[Surface.DATUM if end == DATUM_END else Surface.FAR]


def _side(look: Look) -> str:
    return look.names.words[look.names.face_side]
