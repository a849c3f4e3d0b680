"""Which parts share a sheet: those truly alike, and the left and the right hand of one another.

Two parts are compared as they are cut, each counted from its own datum with its own face side, so that what the
made file pins counts too. They are **alike** if every figure that is printed is the same and every corner of every
cut lies within 0.02 of its fellow: then only the letter tells them apart. They are **hands** if that holds once one
of them is turned over through its thickness: the same positions from the datum end and from the front edge, on
opposite faces. Parts that differ by more are told apart in the list of boards that will fool you.

Two boards with the same cuts counted from opposite ends are hands as well, but their figures differ, and a sheet
of one figure for both would be wrong: each keeps its own sheet, and the list says so.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from ....geometry.frames import Vec
from ....geometry.shapes import Bore, HalfSpace, Prism, Shape, corners
from ....geometry.views import Surface
from ....piece.model import Cut, Part
from ...looks import Desk, Look
from ...naming import angle, depth, position, thickness, width
from .alike import Alike

TOLERANCE = 0.02  # no tool of the shop shows it; the finest figure printed is 0.05
MOST_UPRIGHT, MOST_LYING = 4, 12  # alike on one sheet: as many boxes to tick as its table holds
LONG = 875.0  # the longest part on a portrait sheet

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


def fellows(desk: Desk) -> list[Alike | Pair]:
    """All parts, those that share a sheet together, in the order of their first letters."""
    looks = sorted(desk.looks.values(), key=lambda look: (len(look.part.mark), look.part.mark))
    sets: list[list[Look]] = []
    told: dict[Words, list[list[Look]]] = {}  # by all that is printed of their parts: only such can be alike
    for look in looks:
        most = MOST_UPRIGHT if look.part.length <= LONG else MOST_LYING
        maybe = told.setdefault(_words(look.part, 1.0), [])
        same = next((found for found in maybe if len(found) < most and alike(found[0].part, look.part)), None)
        if same is None:
            sets.append([look])
            maybe.append(sets[-1])
        else:
            same.append(look)
    return list(_paired(sets))


def _paired(sets: Sequence[list[Look]]) -> Iterator[Alike | Pair]:
    """Single parts whose mirror image is a single part as well go together."""
    turned: dict[Words, list[int]] = {}  # single parts by what would be printed of them, turned over
    for number, looks in enumerate(sets):
        if len(looks) == 1:
            turned.setdefault(_words(looks[0].part, -1.0), []).append(number)
    gone: set[int] = set()
    for number, looks in enumerate(sets):
        if number in gone:
            continue
        first = looks[0]
        maybe = turned.get(_words(first.part, 1.0), []) if len(looks) == 1 else []
        later = (other for other in maybe if other > number and other not in gone)
        found = next((other for other in later if hands(first.part, sets[other][0].part)), None)
        if found is None:
            yield Alike(tuple(looks))
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
    return round(x, 3), round(y, 3)


def alike(one: Part, other: Part) -> bool:
    """Whether nothing but the letter tells two parts apart."""
    if one.board.face_side != other.board.face_side:
        return False
    return _same(one, other, 1.0)


def sorts(parts: Iterable[Part]) -> dict[str, int]:
    """Parts by name, those that nothing but their letter tells apart with the same number."""
    found: dict[str, int] = {}
    firsts: dict[Words, list[Part]] = {}  # of each sort, by all that is printed of them: only such can be alike
    for part in parts:
        maybe = firsts.setdefault(_words(part, 1.0), [])
        first = next((one for one in maybe if alike(one, part)), None)
        if first is None:
            maybe.append(part)
        found[part.id] = len(found) if first is None else found[first.id]
    return found


def hands(one: Part, other: Part) -> bool:
    """Whether one is the other's mirror image: the same cuts, on opposite faces."""
    return _same(one, other, -1.0)


def _same(one: Part, other: Part, side: float) -> bool:
    """Whether the second part, turned over through its thickness if `side` is -1, is the first."""
    if _words(one, 1.0) != _words(other, side):
        return False
    pairs = zip(one.cuts, other.cuts, strict=True)
    return all(_points_meet(_points(one, p, 1.0), _points(other, q, side)) for p, q in pairs)


def _words(part: Part, side: float) -> Words:
    """Everything of a part that is printed, and what no figure tells."""
    board, blank = part.board, part.blank
    profile = tuple((position(a), thickness(t)) for a, t in board.profile)
    sizes = (position(part.length), position(part.short[1] - part.short[0]), position(board.depth))
    rough = (position(blank.start - part.zero), position(blank.end - part.zero), position(blank.thickness))
    kept = (board.timber, board.lies, round(board.film, 3), tuple(map(position, board.scribe)))
    return (*kept, profile, sizes, rough, position(blank.width), tuple(_cut_words(cut, side) for cut in part.cuts))


def _cut_words(cut: Cut, side: float) -> Words:
    f = cut.figures
    lean = round(abs(f.lean), 2)  # which way it leans the points tell
    sizes = tuple("" if size is None else width(size) for size in (f.across, f.on_face))
    reach = ("" if f.deep is None else depth(f.deep), depth(f.stop), f.opens, angle(f.between_faces), lean)
    kinds = tuple(sorted(type(shape).__name__ for shape in cut.shapes))
    return cut.kind, cut.end, cut.joint is None, cut.face * side, cut.size_is, cut.tool, sizes, reach, kinds


def _points(part: Part, cut: Cut, side: float) -> list[Vec]:
    """Places that fix a cut's shapes, counted from the datum."""
    return [(a - part.zero, side * c, d) for shape in cut.shapes for a, c, d in _of_shape(part, shape)]


def _of_shape(part: Part, shape: Shape) -> Iterator[Vec]:
    match shape:
        case Prism():
            yield from corners(shape)
            yield from ((part.zero, 0.0, abs(bulge) * 100.0) for *_, bulge in shape.outline)
        case Bore():
            for at, diameter in shape.profile:
                x, y, z = (s + at * d for s, d in zip(shape.start, shape.direction, strict=True))
                yield x, y, z
                yield part.zero, 0.0, diameter
        case HalfSpace():
            yield from _on_plane(part, shape)


def _on_plane(part: Part, half: HalfSpace) -> Iterator[Vec]:
    """Where a saw's plane meets the board's long arrises; its own point where it runs along them."""
    (px, py, pz), (nx, ny, nz) = half.point, half.normal
    if abs(nx) < 0.1:
        yield half.point
        yield nx * 100.0 + part.zero, ny * 100.0, nz * 100.0
        return
    c = part.board.thickest / 2
    for y, z in ((c, 0.0), (-c, 0.0), (c, part.board.depth), (-c, part.board.depth)):
        yield px - (ny * (y - py) + nz * (z - pz)) / nx, y, z


def _points_meet(points: Sequence[Vec], others: Sequence[Vec]) -> bool:
    """Whether every point has a fellow of its own among the others."""
    left = list(others)
    if len(points) != len(left):
        return False
    for point in points:
        near = next((other for other in left if _near(point, other)), None)
        if near is None:
            return False
        left.remove(near)
    return True


def _near(point: Vec, other: Vec) -> bool:
    return all(abs(p - q) <= TOLERANCE for p, q in zip(point, other, strict=True))
