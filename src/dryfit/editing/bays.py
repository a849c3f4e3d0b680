"""Bays: the clear openings between boards, and rows of boards laid in one of them with equal bays between.

A bay is what is left of the plane between the boards as they are seen, or of a wall whose ends are known; one that is
not convex, such as the rest of the wall around a frame, is none.
"""

from collections.abc import Iterator

from shapely import LineString, Point, Polygon, box, unary_union
from shapely.geometry.base import BaseGeometry

from ..geometry.sections import polygons
from ..lengths import from_mm, length_text, rounded
from ..places import Edit, Plain
from . import requests
from .answers import Bay
from .composed import Composed
from .drawn import Drawn
from .making import free_name, timber_edits, usual_depth, usual_thickness, usual_timber
from .refusals import refused

SEAM = 1.0  # mm: a gap between two boards that meet, such as a joint's play, is no way out of a bay
LEAST_BAY = 10.0  # mm, clear: less is no bay but a gap
EVEN = 0.01  # mm: ends that differ by less are at one level
FILLS = 0.98  # of its convex hull: what fills less has arms that a row would run into
FINE = {"mm": 0.001, "in": 0.0001}  # to which a place in arithmetic is written, in the job's units


def bays_of(drawn: Drawn) -> tuple[Bay, ...]:
    """All bays, the largest first."""
    return tuple(_bay(area) for area in _areas(drawn))


def _areas(drawn: Drawn) -> tuple[Polygon, ...]:
    outlines = (Polygon(board.outline) for board in drawn.elevation.boards if len(board.outline) > 2)
    taken = unary_union([outline.buffer(SEAM, join_style="mitre") for outline in outlines])
    found = (area for area in polygons(_all(drawn, taken)) if not area.interiors)
    open_ = (area.buffer(SEAM, join_style="mitre") if drawn.elevation.boards else area for area in found)
    bays = [area for area in open_ if area.area >= FILLS * area.convex_hull.area and _least(area) >= LEAST_BAY]
    return tuple(sorted(bays, key=lambda area: (-round(area.area), area.bounds)))


def _all(drawn: Drawn, taken: BaseGeometry) -> BaseGeometry:
    """What bays are parts of: the holes between boards; of a bare wall the wall."""
    wall = drawn.job.wall
    if drawn.elevation.boards:
        return unary_union([Polygon(ring) for area in polygons(taken) for ring in area.interiors])
    if wall.right is None or wall.ceiling is None:
        return Polygon()
    return box(wall.left or 0.0, 0.0, wall.right, wall.ceiling)


def _least(area: Polygon) -> float:
    left, low, right, high = area.bounds
    return float(min(right - left, high - low))


def _bay(area: Polygon) -> Bay:
    at = area.centroid
    (left, right), (low, high) = _chord(area, at.y, 0), _chord(area, at.x, 1)
    outline = tuple((rounded(x, EVEN), rounded(y, EVEN)) for x, y in area.exterior.coords[:-1])
    return Bay(outline=outline, at=(at.x, at.y), wide=rounded(right - left, EVEN), high=rounded(high - low, EVEN))


def _chord(area: Polygon, at: float, axis: int) -> tuple[float, float]:
    """From where to where a bay reaches along an axis, at a place on the other."""
    left, low, right, high = area.bounds
    line = LineString([(left, at), (right, at)] if axis == 0 else [(at, low), (at, high)])
    found = area.intersection(line)
    return found.bounds[axis], found.bounds[axis + 2]


# --- a row


def row_laid(drawn: Drawn, sent: requests.RowSent) -> Composed:
    """So many boards across a bay, standing or lying, as far from each other as from its ends.

    Raises:
        Refused: there is no bay there, or no room in it for so many.
    """
    area = next((area for area in _areas(drawn) if area.covers(Point(sent.at))), None)
    if area is None:
        raise refused("refused", "there is no bay there", "press inside boards that close it all round")
    along, up = (1, 0) if sent.lying else (0, 1)  # the axis along which they follow each other, and the boards' own
    low, high = _chord(area, area.centroid.coords[0][up], along)
    thick = usual_thickness(drawn)
    clear = (high - low - sent.count * thick) / (sent.count + 1)
    if clear < LEAST_BAY:
        says = f"{sent.count} of {length_text(thick, drawn.job.units)} leave no bays between them"
        raise refused("refused", says, "lay fewer")
    step = (high - low + thick) / (sent.count + 1)
    places = [low - thick / 2 + number * step for number in range(1, sent.count + 1)]
    ends = [_chord(area, place, up) for place in places]
    tables = _tables(drawn, sent, ends, (low - thick / 2, high - low + thick))
    edits = (*timber_edits(drawn), *(Edit(action="add", path=("board",), value=table) for table in tables))
    what = "lying" if sent.lying else "standing"
    boards = "1 board" if sent.count == 1 else f"{sent.count} boards"
    return Composed(edits=edits, says=f"{boards} {what}, {length_text(clear, drawn.job.units)} clear between")


def _tables(
    drawn: Drawn, sent: requests.RowSent, ends: list[tuple[float, float]], span: tuple[float, float]
) -> Iterator[dict[str, Plain]]:
    """One table for boards of one length, else one a board; `span`: where the first step begins, and all steps."""
    word = "shelf" if sent.lying else "upright"
    usual: dict[str, Plain] = {**usual_timber(drawn), "depth": usual_depth(drawn)}
    level = all(abs(low - ends[0][0]) < EVEN and abs(high - ends[0][1]) < EVEN for low, high in ends)
    if sent.count > 1 and level:
        line = _line(drawn, sent, ends[0], _place(drawn, span, sent.count, "i"))
        yield {"name": _row_name(drawn, word, sent.count), "count": sent.count, "line": line, **usual}
        return
    taken: list[str] = []
    for number, own in enumerate(ends, start=1):
        taken.append(free_name(drawn, word, taken))
        line = _line(drawn, sent, own, _place(drawn, span, sent.count, str(number)))
        yield {"name": taken[-1], "line": line, **usual}


def _line(drawn: Drawn, sent: requests.RowSent, own: tuple[float, float], place: Plain) -> Plain:
    ends = [_written(drawn, end) for end in own]
    return [[end, place] if sent.lying else [place, end] for end in ends]


def _place(drawn: Drawn, span: tuple[float, float], count: int, number: str) -> Plain:
    """Where a board's centre-line lies, as arithmetic that says why: equal steps."""
    start, far = (_text(_written(drawn, length)) for length in span)
    step = f"{number} * {far} / {count + 1}"
    return step if start == "0" else f"{start} + {step}"


def _written(drawn: Drawn, length: float) -> float:
    return rounded(from_mm(length, drawn.job.units), FINE[drawn.job.units])


def _text(number: float) -> str:
    return str(int(number)) if number == int(number) else repr(number)


def _row_name(drawn: Drawn, word: str, count: int) -> str:
    """A name for a row, none of whose boards is called as another already is."""
    names = {spec.name for spec in drawn.job.boards} | {frame.name for frame in drawn.job.frames}
    for word_of in (word, *(f"row {number} {word}" for number in range(2, len(names) + 3))):
        if names.isdisjoint(f"{word_of} {number}" for number in range(1, count + 1)):
            return f"{word_of} {{i}}"
    raise AssertionError("more rows than names")
