"""What a row of the cut table says beyond its columns, so that the cut can be made from the row alone.

How far a housing runs, which way its walls lean and how its floor lies; where an end is notched back to a
shoulder; where across the board holes and pockets stand. Places across the board are counted from the face edge
(the front edge), a run from the edge it starts at.
"""

from collections.abc import Iterator, Sequence
from typing import TypeGuard

from shapely import LineString, Point, Polygon, get_coordinates

from .....geometry.shapes import Bore, HalfSpace, Prism, Shape
from .....geometry.solids import flattened
from .....geometry.views import Surface
from .....piece.model import DATUM_END, Cut
from ....looks import Look, is_bored
from ....naming import angle, depth, position, thickness, width
from ..looking import faces_of, up_of
from .facts import LEAST_LEAN, bore_words

FAR = 1e5  # past any board
LEAST = 1e-6
ALONG = 0.5  # share of a direction from which on a hole runs along that axis


def details(look: Look, cut: Cut) -> Iterator[str]:
    """Sentences for further lines of a cut's row; none where the columns say all."""
    if is_bored(cut):
        yield from filter(None, [places_words(look, cut)])
        return
    prisms = [shape for shape in cut.shapes if isinstance(shape, Prism)]
    if cut.end:
        yield from (_cut_back(look, cut, prism) for prism in prisms)
    elif cut.figures.opens == "end":
        yield _at_the_end(look, cut, prisms)
    elif cut.face:
        yield from filter(None, (_runs(look, prisms[0]), _leaning(look, cut)))


def opens_words(look: Look, cut: Cut) -> str:
    """The edge a cut opens to: "front", "wall", "both", "none"; "end" for what opens there."""
    if cut.end or is_bored(cut):
        return ""
    if not cut.face:
        words = {f"{name} edge": look.names.short(surface) for name, surface in _EDGES.items()}
        return words.get(cut.figures.opens, cut.figures.opens)
    at_wall, at_front = edges_open(look, next(shape for shape in cut.shapes if isinstance(shape, Prism)))
    if at_wall and at_front:
        return "both"
    if at_wall or at_front:
        return look.names.short(Surface.WALL if at_wall else Surface.FRONT)
    return "none"


_EDGES = {"front": Surface.FRONT, "wall": Surface.WALL}


def edges_open(look: Look, prism: Prism) -> tuple[bool, bool]:
    """Whether a shape swept across the board runs out at its wall edge, and at its front edge."""
    return prism.low <= LEAST, prism.high >= look.part.board.depth - LEAST


def thickness_words(look: Look) -> str:
    """Where a board that changes its thickness has been measured; "" for one that does not."""
    board, zero = look.part.board, look.part.zero
    if len({size for _, size in board.profile}) < 2:
        return ""
    knots = ", ".join(f"{thickness(size)} at {position(a - zero)}" for a, size in board.profile)
    return f"{knots}, straight between, even beyond"


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
    return is_bored(cut) and all(_in_edge(shape) and abs(shape.start[1]) < LEAST for shape in cut.shapes)


def _in_edge(shape: Shape) -> TypeGuard[Bore]:
    return isinstance(shape, Bore) and abs(shape.direction[2]) > ALONG


def _in_thickness(look: Look, bore: Bore) -> str:
    c = bore.start[1]
    if abs(c) < LEAST:
        return "mid-thickness"
    up = up_of(look)
    below = look.part.board.thickness_at(bore.start[0]) / 2 - up * c
    return f"{position(below)} from the {look.names.words[look.names.face_side]}"


# --- housings ------------------------------------------------------------------------------------


def run_words(look: Look, prism: Prism) -> str:
    """From where to where a housing runs across the board; "" from edge to edge."""
    whole = look.part.board.depth
    match edges_open(look, prism):
        case (True, True):
            return ""
        case (True, False):
            return f"{depth(prism.high)} from the {look.names.words[Surface.WALL]}"
        case (False, True):
            return f"{depth(whole - prism.low)} from the {look.names.words[Surface.FRONT]}"
    return f"{depth(whole - prism.high)} to {depth(whole - prism.low)} from the {look.names.words[Surface.FRONT]}"


def _runs(look: Look, prism: Prism) -> str:
    words = run_words(look, prism)
    return f"runs {words}" if words else ""


def _leaning(look: Look, cut: Cut) -> str:
    """Which way the walls lean, seen as the sections are, and how the floor lies."""
    if abs(cut.figures.lean) <= LEAST_LEAN:
        return ""
    up = up_of(look)
    side = "RIGHT" if cut.figures.lean * up > 0 else "LEFT"
    middle = f"{depth(cut.figures.deep or 0.0)} deep at the middle of the floor"
    return f"head leans {side} {angle(abs(cut.figures.lean))}; {cut.tool}; {middle}"


# --- ends ----------------------------------------------------------------------------------------


def _cut_back(look: Look, cut: Cut, prism: Prism) -> str:
    """What more is taken off an end: over part of the width, or beside a tongue."""
    done = "mitred" if cut.kind.startswith("mitre") else "notched"
    notched = {
        (True, True): "",
        (False, True): f"{look.names.words[Surface.FRONT]} {done} {width(look.part.board.depth - prism.low)}",
        (True, False): f"{look.names.words[Surface.WALL]} {done} {width(prism.high)}",
        (False, False): f"{done} {between_words(look, prism)}",
    }[edges_open(look, prism)]
    shoulder = _shoulder(look, cut, prism)
    return ", ".join(filter(None, (notched or _cheek(look, cut, prism), shoulder)))


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
    """How far below its face a cheek lies, along the end's plane."""
    taken = _along_end(look, cut, prism)
    if taken is None:
        return ""
    low, high = taken
    total = _end_line(look, cut).length
    face = look.names.face_side if low < total - high else look.names.other_face
    deep = high if face is look.names.face_side else total - low
    return f"cheek {width(deep)} below the {look.names.words[face]}"


def _end_line(look: Look, cut: Cut) -> LineString:
    """The plane of the end that a cut belongs to, in (a, c), from the face side to the other face."""
    plane = next(
        shape
        for other in look.part.cuts
        if other.end and (other is cut or other.joint == cut.joint)
        for shape in other.shapes
        if isinstance(shape, HalfSpace)
    )
    nx, ny, _ = plane.normal
    half = look.part.board.thickness_at(plane.point[0]) / 2
    up = up_of(look) * half
    ends = [(plane.point[0] - ny * (c - plane.point[1]) / nx, c) for c in (up, -up)]
    return LineString(ends)


def _along_end(look: Look, cut: Cut, prism: Prism) -> tuple[float, float] | None:
    """From where to where a shape meets the end's plane, counted from the arris of the face side."""
    line = _end_line(look, cut)
    met = _outline(prism).intersection(line)
    if met.is_empty or met.length < LEAST:
        return None
    places = sorted(line.project(Point(corner)) for corner in get_coordinates(met))
    return places[0], places[-1]


def _at_the_end(look: Look, cut: Cut, prisms: Sequence[Prism]) -> str:
    """Pockets of a circular cutter, or a groove in the end's own face."""
    front = look.names.words[Surface.FRONT]
    whole = look.part.board.depth
    if any(bulge for _, _, bulge in prisms[0].outline):
        low, _, high, _ = _outline(prisms[0]).bounds
        middles = sorted(whole - (prism.low + prism.high) / 2 for prism in prisms)
        places = ", ".join(position(place) for place in middles)
        return f"{len(prisms)} at {places} from the {front}, cutter {position(high - low)}, in along the bisector"
    met = _along_end(look, cut, prisms[0])
    where = "" if met is None else f"{width(met[0])} to {width(met[1])} from the arris of the {_side(look)}, "
    return f"in the {_end_of(look, cut)}, {where}runs {between_words(look, prisms[0])}"


def _end_of(look: Look, cut: Cut) -> str:
    """Which end a cut at a corner lies in: the one that its joint makes."""
    end = next((other.end for other in look.part.cuts if other.end and other.joint == cut.joint), DATUM_END)
    return look.names.words[Surface.DATUM if end == DATUM_END else Surface.FAR]


def _side(look: Look) -> str:
    return look.names.words[look.names.face_side]
