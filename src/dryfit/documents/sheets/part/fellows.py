"""Which parts share a sheet: those truly alike, and the left and the right hand of one another.

Two parts are compared as they are cut, each counted from its own datum with its own face side, so that what the
made file pins counts too. They are **alike** if every figure that is printed is the same and every corner of every
cut, and every thickness, lies within 0.02 of its fellow: then only the letter tells them apart. How far an end goes in
that is cut square and no thinner than its board is no figure of it: what takes it is cut so deep. They are **hands** if
all that holds once one of them is turned over through its thickness: the same positions from the datum end and from the
front edge, on opposite faces. Parts that differ by more are told apart in the list of boards that will fool you.

A part whose two ends are mirror images is no hand: its mirror image is the same board turned end for end, the same face
and the same edge where they were, so that the two are alike.

Two boards with the same cuts counted from opposite ends are hands as well, but their figures differ, and a sheet
of one figure for both would be wrong: each keeps its own sheet, and the list says so.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Literal, NamedTuple, TypeAlias

from ....geometry.frames import Vec
from ....geometry.shapes import Bore, HalfSpace, Prism, Shape, corners
from ....geometry.views import Surface
from ....piece.facts import Opens
from ....piece.model import Cut, Part
from ....piece.recording import DIGITS
from ...looks import Desk, Look
from ...naming import angle, depth, position, width
from .alike import LONG, AlikeParts
from .words.setups import how_made

TOLERANCE = 0.02  # no tool of the shop shows it; the finest figure printed is 0.05
MOST_UPRIGHT, MOST_LYING = 4, 12  # alike on one sheet: as many boxes to tick as its table holds
FAR = 100.0  # mm along a direction: so far away a turn is seen as a length

Words: TypeAlias = tuple[object, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Pair:
    """A left and a right hand; of boards that lie level the upper and the lower one."""

    left: Look
    right: Look

    @property
    def looks(self) -> tuple[Look, Look]:
        """Left, then right."""
        return self.left, self.right


def fellows(desk: Desk) -> list[AlikeParts | Pair]:
    """All parts, those that share a sheet together, in the order of their first letters."""
    looks = sorted(desk.looks.values(), key=lambda look: (len(look.part.mark), look.part.mark))
    sets: list[list[Look]] = []
    told: dict[Words, list[list[Look]]] = {}  # by all that is printed of their parts: only such can be alike
    for look in looks:
        most = MOST_UPRIGHT if look.part.length <= LONG else MOST_LYING
        maybe = told.setdefault((_unhanded(look.part), _ways(desk, look)), [])
        same = next((found for found in maybe if len(found) < most and alike(found[0].part, look.part)), None)
        if same is None:
            sets.append([look])
            maybe.append(sets[-1])
        else:
            same.append(look)
    return list(_paired(desk, sets))


def _ways(desk: Desk, look: Look) -> Words:
    """How its cuts are made, and when it is coated, which no figure tells."""
    return (desk.book.piece.history.when(look.part.id), *sorted(how_made(desk, cut) for cut in look.part.cuts))


def _paired(desk: Desk, sets: Sequence[list[Look]]) -> Iterator[AlikeParts | Pair]:
    """Single parts whose mirror image is a single part as well go together."""
    turned: dict[Words, list[int]] = {}  # single parts by what would be printed of them, turned over
    for number, looks in enumerate(sets):
        if len(looks) == 1:
            turned.setdefault((_words(looks[0].part, OVER), _ways(desk, looks[0])), []).append(number)
    gone: set[int] = set()
    for number, looks in enumerate(sets):
        if number in gone:
            continue
        first = looks[0]
        maybe = turned.get((_words(first.part, AS_IT_LIES), _ways(desk, first)), []) if len(looks) == 1 else []
        later = (other for other in maybe if other > number and other not in gone)
        found = next((other for other in later if hands(first.part, sets[other][0].part)), None)
        if found is None:
            yield AlikeParts(tuple(looks))
        else:
            gone.add(found)
            yield pair_of(first, sets[found][0])


def pair_of(one: Look, other: Look) -> Pair:
    """Two hands in order: left before right, upper before lower where both lie level."""
    (x0, y0), (x1, y1) = (_middle(look.part) for look in (one, other))
    first = (x0, y1) <= (x1, y0) if standing(one) else (-y0, x0) <= (-y1, x1)
    return Pair(left=one, right=other) if first else Pair(left=other, right=one)


def standing(look: Look) -> bool:
    """Whether a part stands: its ends are then called lower and upper."""
    return look.names.short(Surface.DATUM) in ("lower", "upper")


def _middle(part: Part) -> tuple[float, float]:
    x, y, _ = part.board.frame.place((part.board.length / 2, 0.0, 0.0))
    return round(x, DIGITS), round(y, DIGITS)


def _unhanded(part: Part) -> Words:
    """All that is printed of a part, as it lies and turned over: the same for two that are alike."""
    return tuple(sorted(map(repr, (_words(part, AS_IT_LIES), _words(part, OVER)))))


def alike(one: Part, other: Part) -> bool:
    """Whether nothing but the letter tells two parts apart."""
    if one.board.face_side == other.board.face_side:
        return _same(one, other, AS_IT_LIES)
    return _same(one, other, OVER) and _same(one, one, TURNED)


def sorts(parts: Iterable[Part]) -> dict[str, int]:
    """Parts by name, those that nothing but their letter tells apart with the same number."""
    found: dict[str, int] = {}
    firsts: dict[Words, list[Part]] = {}  # of each sort, by all that is printed of them: only such can be alike
    for part in parts:
        maybe = firsts.setdefault(_unhanded(part), [])
        first = next((one for one in maybe if alike(one, part)), None)
        if first is None:
            maybe.append(part)
        found[part.id] = len(found) if first is None else found[first.id]
    return found


def hands(one: Part, other: Part) -> bool:
    """Whether one is the other's mirror image, the same cuts on opposite faces, and not the same board turned round."""
    return _same(one, other, OVER) and not alike(one, other)


def same_unmarked(one: Part) -> bool:
    """Whether a part is its own mirror image, so that nothing but its marks makes it a hand."""
    return any(_same(one, one, way) for way in (OVER, TURNED, BACK))


class Turned(NamedTuple):
    """How a part is held against another: which of its directions are mirrored, -1 for one that is."""

    along: int = 1
    through: int = 1
    out: int = 1


AS_IT_LIES, OVER, TURNED, BACK = Turned(), Turned(through=-1), Turned(along=-1), Turned(out=-1)
_BACK = {Opens.FRONT: Opens.WALL, Opens.WALL: Opens.FRONT}


def _same(one: Part, other: Part, way: Turned) -> bool:
    """Whether the second part, held that way, is the first."""
    if _words(one, AS_IT_LIES) != _words(other, way) or not _as_thick(one, other, way):
        return False
    left = [(_cut_words(cut, way), _points(other, cut, way)) for cut in other.cuts]
    for cut in one.cuts:
        words, points = _cut_words(cut, AS_IT_LIES), _points(one, cut, AS_IT_LIES)
        found = next((it for it in left if it[0] == words and _points_meet(points, it[1])), None)
        if found is None:
            return False
        left.remove(found)
    return True


def _as_thick(one: Part, other: Part, way: Turned) -> bool:
    """Whether two parts are as wide as one another, and as thick wherever either was measured."""
    if abs(one.board.depth - other.board.depth) > TOLERANCE or abs(one.length - other.length) > TOLERANCE:
        return False
    places = [a - one.zero for a, _ in one.board.profile]
    places += [_along(other, a - other.zero, way) for a, _ in other.board.profile]
    return all(
        abs(one.board.thickness_at(a + one.zero) - other.board.thickness_at(_along(other, a, way) + other.zero))
        <= TOLERANCE
        for a in places
    )


def _along(part: Part, a: float, way: Turned) -> float:
    """A running position of a part that is held that way."""
    return a if way.along > 0 else part.length - a


def _words(part: Part, way: Turned) -> Words:
    """Everything of a part that is printed, and what no figure tells."""
    board, blank = part.board, part.blank
    sizes = (position(part.length), position(part.short[1] - part.short[0]), position(board.depth))
    ends = sorted(_along(part, a - part.zero, way) for a in (blank.start, blank.end))
    rough = (*map(position, ends), position(blank.width), position(blank.thickness))
    left = tuple(position(left) for left in (board.scribe if way.along > 0 else reversed(board.scribe)))
    kept = (board.timber, board.lies, left)
    return (*kept, sizes, rough, tuple(sorted(map(repr, (_cut_words(cut, way) for cut in part.cuts)))))


def _cut_words(cut: Cut, way: Turned) -> Words:
    f = cut.figures
    lean = round(abs(f.lean), 2)  # which way it leans the points tell
    plain = is_plain_end(cut)
    sizes = tuple("" if size is None or plain else width(size) for size in (f.across, f.on_face))
    deep = "" if f.deep is None or plain else depth(f.deep)
    opens = f.opens if way.out > 0 else _BACK.get(f.opens, f.opens)
    reach = (deep, depth(f.stop), opens, angle(f.between_faces), lean)
    kinds = tuple(sorted(type(shape).__name__ for shape in cut.shapes))
    word = "" if plain else cut.word
    return word, cut.end * way.along, cut.joint is None, cut.face * way.through, cut.size_is, sizes, reach, kinds


def is_plain_end(cut: Cut) -> bool:
    """Whether an end is sawn and nothing more: no tongue, no notch."""
    return bool(cut.end) and all(isinstance(shape, HalfSpace) for shape in cut.shapes)


class PlaceTold(NamedTuple):
    """A place of a shape, a direction of it, or a size that is the same whichever way the part is held."""

    kind: Literal["place", "way", "size"]
    at: Vec


def _points(part: Part, cut: Cut, way: Turned) -> list[PlaceTold]:
    """What fixes a cut's shapes, counted from the datum of the part held that way."""
    return [_held(part, told, way) for shape in cut.shapes for told in _of_shape(part, shape)]


def _held(part: Part, told: PlaceTold, way: Turned) -> PlaceTold:
    x, y, z = told.at
    if told.kind == "size":
        return told
    if told.kind == "way":
        return PlaceTold("way", (x * way.along, y * way.through, z * way.out))
    return PlaceTold(
        "place", (_along(part, x - part.zero, way), y * way.through, z if way.out > 0 else part.board.depth - z)
    )


def _of_shape(part: Part, shape: Shape) -> Iterator[PlaceTold]:
    match shape:
        case Prism():
            yield from (PlaceTold("place", corner) for corner in corners(shape))
            yield from (PlaceTold("size", (0.0, 0.0, abs(bulge) * FAR)) for *_, bulge in shape.outline)
        case Bore():
            for at, diameter in shape.profile:
                x, y, z = (s + at * d for s, d in zip(shape.start, shape.direction, strict=True))
                yield PlaceTold("place", (x, y, z))
                yield PlaceTold("size", (0.0, 0.0, diameter))
        case HalfSpace():
            yield from _on_plane(part, shape)


def _on_plane(part: Part, half: HalfSpace) -> Iterator[PlaceTold]:
    """Where a saw's plane meets the board's long arrises; its own point where it runs along them."""
    (px, py, pz), (nx, ny, nz) = half.point, half.normal
    if abs(nx) < 0.1:
        yield PlaceTold("place", half.point)
        yield PlaceTold("way", (nx * FAR, ny * FAR, nz * FAR))
        return
    c = part.board.thickest / 2
    for y, z in ((c, 0.0), (-c, 0.0), (c, part.board.depth), (-c, part.board.depth)):
        yield PlaceTold("place", (px - (ny * (y - py) + nz * (z - pz)) / nx, y, z))


def _points_meet(points: Sequence[PlaceTold], others: Sequence[PlaceTold]) -> bool:
    """Whether every point has a fellow of its own among the others."""
    left = list(others)
    if len(points) != len(left):
        return False
    for point in points:
        near = next((other for other in left if point.kind == other.kind and _near(point.at, other.at)), None)
        if near is None:
            return False
        left.remove(near)
    return True


def _near(point: Vec, other: Vec) -> bool:
    return all(abs(p - q) <= TOLERANCE for p, q in zip(point, other, strict=True))
