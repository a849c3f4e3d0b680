"""Where a board that is coated before it meets others stays bare: what they slide along or are glued to.

A place is bare on a face where another board's wood lies close against it once the piece stands. It is found by a cut
through that other board just outside the face: the play between the two is less than that.
"""

from collections.abc import Iterator

from shapely import Polygon, affinity, unary_union
from shapely.geometry.base import BaseGeometry

from .....geometry.frames import Vec2
from .....geometry.sections import polygons
from .....geometry.views import FACES, Surface
from ....display import Item, Stroke
from ....looks import Desk, Look
from ....naming import in_runs, position
from ....through import Plane as Section
from ....through import wood_in
from .surface import SurfacePaper

CLOSE = 1.0  # outside a face: what lies nearer leaves no room for film
SLIVER = 2.0  # of an area's breadth: less is the play beside a board that goes in there


def masked(desk: Desk, look: Look, face: Surface) -> list[Polygon]:
    """What of a face is masked, in the view's coordinates; nothing where the board is bare when it meets others.

    Found once, however often the part is drawn.
    """
    kept: dict[tuple[str, Surface], list[Polygon]] = desk.kept.setdefault("masked", {})
    key = look.part.id, face
    if key not in kept:
        kept[key] = _masked(desk, look, face)
    return kept[key]


def _masked(desk: Desk, look: Look, face: Surface) -> list[Polygon]:
    board, others = look.part.board, []
    side = 1.0 if face is Surface.PLUS else -1.0
    section = Section(
        board.frame.place((0.0, side * (board.thickest / 2 + CLOSE), 0.0)),
        board.frame.x,
        board.frame.z,
        (2 * look.part.blank.length, 2 * board.depth),
    )
    for key in desk.book.piece.history.masked(look.part.id):
        other = desk.looks.get(next(name for name in key if name != look.part.id))
        if other is not None:
            others.append(wood_in(other.part, section))
    if not others:
        return []
    close = affinity.translate(unary_union(others), -look.part.zero, 0.0).intersection(_wood(look, face))
    return [area for area in polygons(close.buffer(-SLIVER / 2).buffer(SLIVER / 2, join_style="mitre")) if area.area]


def _wood(look: Look, face: Surface) -> BaseGeometry:
    """What is left of a face."""
    view = look.view(face)
    openings = [Polygon(loop) for trace in view.traces if not trace.end for loop in trace.opening]
    return unary_union([Polygon(loop) for loop in view.outline]).difference(unary_union(openings))


def mask_words(desk: Desk, look: Look) -> list[str]:
    """Where they lie, each figure from an edge or the datum end: beside a cut they run in line with its walls.

    "in line with 1 to 4, 150.5 to 300 from the wall edge"; of a place beside no cut its face, from where to where along
    the board, and across it.
    """
    beside: dict[str, set[int]] = {}
    apart: list[str] = []
    for face in FACES:
        for area in masked(desk, look, face):
            start, low, stop, high = area.bounds
            across = f"{position(low)} to {position(high)} from the wall edge"
            if (number := _in_line(look, face, (start + stop) / 2)) is not None:
                beside.setdefault(across, set()).add(number)
            else:
                where = f"{look.names.words[face]} {position(start)} to {position(stop)} from the datum end"
                apart.append(f"{where}, {across}")
    return [*(f"in line with {in_runs(sorted(some))}, {across}" for across, some in beside.items()), *apart]


def _in_line(look: Look, face: Surface, at: float) -> int | None:
    """The number of the cut in that face which lies at a running position."""
    for trace in look.view(face).traces:
        points = [a for loop in trace.opening for a, _ in loop]
        if points and not trace.end and trace.key in look.numbers and min(points) < at < max(points):
            return look.numbers[trace.key]
    return None


def drawn_masks(desk: Desk, plane: SurfacePaper) -> Iterator[Item]:
    """Each with its border in thin dashes and crossed through."""
    for area in masked(desk, plane.look, plane.surface):
        border = [plane.at((a, d)) for a, d in area.exterior.coords[:-1]]
        yield Stroke(points=tuple(border), pen="hidden small", closed=True, layer="mask")
        for points in _cross(area):
            yield Stroke(points=tuple(map(plane.at, points)), pen="hatch", layer="mask")


def _cross(area: Polygon) -> Iterator[tuple[Vec2, Vec2]]:
    """The two diagonals of the rectangle around it."""
    p, q, r, s = area.minimum_rotated_rectangle.exterior.coords[:4]
    for one, other in ((p, r), (q, s)):
        yield (one[0], one[1]), (other[0], other[1])
