"""Bays: the clear openings between boards, and what bounds one.

A bay is what is left of the plane between the boards as they are seen, or of a wall whose ends are known; one that is
not convex, such as the rest of the wall around a frame, is none. It is measured level and plumb, half-way between its
ends: between boards that lean alike level is the same at every height, and more than square to them.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from shapely import LineString, Point, Polygon, box, unary_union
from shapely.geometry.base import BaseGeometry

from ..geometry.frames import Vec2
from ..geometry.sections import polygons
from ..job.arithmetic import NUMBER, parse
from ..job.edits import sheet_of
from ..job.model import BoardSpec
from ..job.standing import Places, lacks, standing_of
from ..job.style import place_text
from ..lengths import from_mm, rounded
from .answers import Bay
from .drawn import Drawn
from .refusals import refused

SEAM = 1.0  # mm: a gap between two boards that meet, such as a joint's play, is no way out of a bay
LEAST_BAY = 10.0  # mm, clear: less is no bay but a gap
EVEN = 0.01  # mm: ends that differ by less are at one level
FILLS = 0.98  # of its convex hull: what fills less has arms that a row would run into
FINE = {"mm": 0.001, "in": 0.00001}  # to which a place in arithmetic is written, in the job's units
FACES = (("right", "left"), ("top", "under"))  # by axis: of what bounds a bay before it, and behind it


def bays_of(drawn: Drawn) -> tuple[Bay, ...]:
    """All bays, the largest first."""
    return tuple(bay_of(area) for area in areas_of(drawn))


def areas_of(drawn: Drawn) -> tuple[Polygon, ...]:
    """The same as polygons."""
    outlines = (Polygon(board.outline) for board in drawn.elevation.boards if len(board.outline) > 2)
    taken = unary_union([outline.buffer(SEAM, join_style="mitre") for outline in outlines])
    found = (area for area in polygons(_all(drawn, taken)) if not area.interiors)
    open_ = (area.buffer(SEAM, join_style="mitre") if drawn.elevation.boards else area for area in found)
    bays = [area for area in open_ if area.area >= FILLS * area.convex_hull.area and _least(area) >= LEAST_BAY]
    return tuple(sorted(bays, key=lambda area: (-round(area.area), area.bounds)))


def area_at(areas: Sequence[Polygon], at: Vec2) -> Polygon:
    """The bay that a point lies in.

    Raises:
        Refused: there is none.
    """
    found = covering(areas, at)
    if found is None:
        raise refused("not there", "there is no bay there", "press inside boards that close it all round")
    return found


def covering(areas: Sequence[Polygon], at: Vec2) -> Polygon | None:
    """The same; None where there is none."""
    return next((area for area in areas if area.covers(Point(at))), None)


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


def bay_of(area: Polygon) -> Bay:
    """A bay as it is shown."""
    at = area.centroid
    (left, right), (low, high) = (chord(area, middle_of([area], 1 - axis), axis) for axis in (0, 1))
    outline = tuple((rounded(x, EVEN), rounded(y, EVEN)) for x, y in area.exterior.coords[:-1])
    return Bay(outline=outline, at=(at.x, at.y), wide=rounded(right - left, EVEN), high=rounded(high - low, EVEN))


def middle_of(areas: Iterable[Polygon], axis: int) -> float:
    """Half-way between the ends that bays have in common on an axis: the same of whichever of them is asked for."""
    all_of = [area.bounds for area in areas]
    return float(max(bounds[axis] for bounds in all_of) + min(bounds[axis + 2] for bounds in all_of)) / 2


def chord(area: Polygon, at: float, axis: int) -> tuple[float, float]:
    """From where to where a bay reaches along an axis, at a place on the other."""
    left, low, right, high = area.bounds
    line = LineString([(left, at), (right, at)] if axis == 0 else [(at, low), (at, high)])
    found = area.intersection(line)
    return found.bounds[axis], found.bounds[axis + 2]


# --- what bounds one


@dataclass(frozen=True, slots=True, kw_only=True)
class BayEnd:
    """What a bay ends at, before it or behind it on an axis.

    Attributes:
        axis: 0 along the wall, 1 up.
        spec: the board; None for an end of the wall.
        at: where its face is, met by the line that the bay is measured along.
        word: of the face that the bay ends at.
        lies: why the board has no such face, "level" or "plumb"; "" where it has.
    """

    axis: int
    spec: BoardSpec | None
    at: float
    word: str
    lies: str = ""

    @property
    def board(self) -> str:
        """Its name; "" for an end of the wall."""
        return "" if self.spec is None else self.spec.name

    @property
    def straight(self) -> bool:
        """Whether its face stands at one place all along: plumb along the wall, level up."""
        if self.spec is None:
            return True
        start, end = self.spec.line
        return not self.lies and start[self.axis] == end[self.axis]

    def text(self, drawn: Drawn) -> str:
        """Its place as the job file has it, of the wall the measure or else the figure; "" where it has none."""
        if self.spec is None:
            return self._of_the_wall(drawn) or number_text(written(drawn, self.at))
        return "" if self.lies or NUMBER in self.spec.name else place_text(self.word, self.spec.name)

    def meant(self, drawn: Drawn) -> str:
        """The same where it says more than a figure does."""
        return self.text(drawn) if self.spec is not None else self._of_the_wall(drawn)

    def _of_the_wall(self, drawn: Drawn) -> str:
        """The arithmetic by which the file has this end of the wall; "" for a figure, and for the floor."""
        key = ({"right": "left", "left": "right"} if self.axis == 0 else {"under": "ceiling"}).get(self.word)
        text = sheet_of(drawn.text).get(("wall", key)) if key is not None else None
        if not isinstance(text, str) or not parse(text).names:
            return ""
        return text if text in drawn.job.measures else f"({text})"


def bounds_of(drawn: Drawn, area: Polygon, axis: int, line: float) -> tuple[BayEnd, BayEnd]:
    """What bounds a bay on an axis, before and behind it, on a line at a place on the other axis."""
    return _bound(drawn, area, axis, line, behind=False), _bound(drawn, area, axis, line, behind=True)


def point_at(axis: int, place: float, line: float) -> Vec2:
    """A point by its place on an axis, and the other coordinate."""
    return (place, line) if axis == 0 else (line, place)


def _bound(drawn: Drawn, area: Polygon, axis: int, line: float, *, behind: bool) -> BayEnd:
    place, word = chord(area, line, axis)[behind], FACES[axis][behind]
    at = point_at(axis, place, line)
    spec = _board_at(drawn, at)
    if spec is None:
        return BayEnd(axis=axis, spec=None, at=place, word=word)
    lies = lacks(word, axis, spec.line)
    if lies:
        return BayEnd(axis=axis, spec=spec, at=place, word=word, lies=lies)
    return BayEnd(axis=axis, spec=spec, at=Places(drawn.job).of_board(spec, word, axis, at), word=word)


def _board_at(drawn: Drawn, at: Vec2) -> BoardSpec | None:
    """The board whose outline a point at the edge of a bay lies on; None where it is the wall's end."""
    nearest, point = (2 * SEAM, ""), Point(at)
    for board in drawn.elevation.boards:
        if _near(board.outline, at):
            nearest = min(nearest, (Polygon(board.outline).distance(point), board.name))
    return drawn.spec(nearest[1]) if nearest[1] else None


def _near(outline: Sequence[Vec2], at: Vec2) -> bool:
    """Whether a point is about where an outline is: looked at first, since that is quick."""
    if len(outline) < 3:
        return False
    ranges = ((min(place), max(place)) for place in zip(*outline, strict=True))
    return all(low - SEAM <= one <= high + SEAM for one, (low, high) in zip(at, ranges, strict=True))


def run_of(drawn: Drawn, areas: Sequence[Polygon], area: Polygon, axis: int) -> tuple[list[Polygon], float]:
    """The bays that follow one another along an axis with one board between, and the place of the line through them."""
    line = middle_of([area], 1 - axis)
    run = [area]
    for behind in (True, False):
        while (ahead := _beyond(drawn, areas, run[-1 if behind else 0], axis, line, behind=behind)) is not None:
            run.insert(len(run) if behind else 0, ahead)
    return run, middle_of(run, 1 - axis)


def _beyond(
    drawn: Drawn, areas: Sequence[Polygon], area: Polygon, axis: int, line: float, *, behind: bool
) -> Polygon | None:
    """The bay on the other side of the board that one ends at; None where there is none."""
    bound = _bound(drawn, area, axis, line, behind=behind)
    if bound.spec is None or bound.lies:
        return None
    face = Places(drawn.job).of_board(bound.spec, FACES[axis][not behind], axis, point_at(axis, bound.at, line))
    ahead = covering(areas, point_at(axis, face + (SEAM if behind else -SEAM), line))
    if ahead is None or _bound(drawn, ahead, axis, line, behind=not behind).board != bound.board:
        return None
    return ahead


# --- how it is written


def written(drawn: Drawn, length: float) -> float:
    """A length in the job's units, as exactly as arithmetic is written."""
    return rounded(from_mm(length, drawn.job.units), FINE[drawn.job.units])


def number_text(number: float) -> str:
    """A number as it stands in arithmetic."""
    return str(int(number)) if number == int(number) else repr(number)


def size_text(drawn: Drawn, spec: BoardSpec) -> str:
    """What a board takes of the bays on either side of it, as the job file has it; "" where it has no one size.

    Only a board whose line is its middle, and which is as thick all along, is put to a face by half of it.
    """
    board = standing_of(spec, drawn.job)
    if board.line_is != "centre" or not board.even or NUMBER in spec.name:
        return ""
    return place_text("thickness" if board.width is None else "width", spec.name)
