"""The whole piece in elevation on paper: boards, floor, positions along the floor, heights, letters, stops."""

from collections.abc import Iterator, Sequence

from shapely import LineString

from ....findings import Finding
from ....geometry.frames import Vec2
from ....geometry.views import Surface
from ....piece.parts import LETTERS
from ....sentences import Voice
from ...display import Area, Item, Stroke, Text, rectangle
from ...kit import dimension, label
from ...kit.dimension import DimensionMark, UnplacedDimension
from ...kit.label import Label, around, middle_first
from ...kit.placing import FilledPaper
from ...looks import Desk, Look
from ...naming import position
from ...standard import FIRST, GROUND, LINE, NAME, ROW, SMALL, TEXT
from ..page.picture import Picture

SAYS = "from the left end of the piece: each standing board's left face at its foot"
STANDING, LYING = ("lower end", "upper end"), ("left end", "right end")
LEFT, UPPER = (-1.0, 0.0), (0.0, 1.0)
ON_FACE = 0.01  # mm: a corner of a face's outline is no farther from it
STEPS = 10  # away from a place that its number may stand
STEP = LINE * TEXT


class PaperElevation:
    """The elevation on paper, the world's origin at (0, 0): wood and figures, then letters and stops."""

    def __init__(self, desk: Desk, scale: float) -> None:
        self.desk, self.scale, self.picture = desk, scale, Picture(scale, 0.0, 0.0)
        self.paper = FilledPaper(over_own=True)
        self.paper.draw(self._boards())
        self.paper.draw(self._floor())
        for figures in (self._feet(), self._heights()):
            dimension.put(self.paper, figures)

    def _boards(self) -> Iterator[Item]:
        """What is seen of each board."""
        pen = "balloon" if self.scale >= SMALL else "break"
        for name, area in self.desk.visible.items():
            yield from self.picture.outlines(area, pen, "wood", name)

    def _floor(self) -> Iterator[Item]:
        """The floor, where the piece stands on it."""
        if not self.desk.book.job.wall.hung:
            left, _, right, _ = self.desk.bounds
            (x0, y), (x1, _) = self.picture.at((left, 0.0)), self.picture.at((right, 0.0))
            yield Stroke(points=((x0 - TEXT, y), (x1 + TEXT, y)), pen="balloon", layer="floor")

    # --- figures ---------------------------------------------------------------------------------

    def _feet(self) -> UnplacedDimension:
        """Along the floor: the left face of each standing board at its foot, and the right end of the piece."""
        left, foot, right, _ = self.desk.bounds
        zero, marks = "", []
        for name, look in self.desk.looks.items():
            points = self._face(look, LEFT)
            if look.names.words[Surface.DATUM] in STANDING and points:
                x, y = min(points, key=lambda p: (p[1], p[0]))
                if position(x - left) == position(0.0):
                    zero = position(0.0)
                else:
                    marks.append(DimensionMark(self.picture.at((x, min(y, foot))), position(x - left), owner=name))
        marks.append(DimensionMark(self.picture.at((right, foot)), position(right - left)))
        datum = DimensionMark(self.picture.at((left, foot)), zero)
        return UnplacedDimension(
            way=(1.0, 0.0), marks=(datum, *marks), style="running", side=-1, weight="bold", says=SAYS
        )

    def _heights(self) -> UnplacedDimension:
        """From the floor: the upper face of each level board at its left end, with letters, and the piece's head."""
        left, foot, _, head = self.desk.bounds
        hangs = position(max(foot, 0.0)) != position(0.0)
        found: dict[str, tuple[float, list[str]]] = {}
        for look in self.desk.looks.values():
            points = self._face(look, UPPER)
            if look.names.words[Surface.DATUM] in LYING and points:
                _, y = min(points)
                found.setdefault(position(y), (y, []))[1].append(look.part.mark)
        for y in (foot, head) if hangs else (head,):
            found.setdefault(position(y), (y, []))
        marks = [
            DimensionMark(self.picture.at((left, y)), figure, _together(letters))
            for figure, (y, letters) in found.items()
        ]
        x, zero = self.picture.at((left, foot if hangs else 0.0))
        datum = DimensionMark((x, zero + ROW if hangs else zero))
        return UnplacedDimension(way=(0.0, -1.0), marks=(datum, *marks), style="running", side=1, far=hangs)

    def _face(self, look: Look, towards: Vec2) -> list[Vec2]:
        """The corners, in the world's elevation, of that face of a board which looks most that way."""
        board, points = look.part.board, list(self.desk.elevations[look.part.id].exterior.coords[:-1])
        x, y, _ = board.frame.z if board.lies == "flat" else board.frame.y
        side = 1.0 if x * towards[0] + y * towards[1] > 0 else -1.0
        ahead = [side * (px * x + py * y) for px, py in points]
        slope = board.thickest - min(thickness for _, thickness in board.profile)
        least = max(ahead, default=0.0) - slope / 2 - ON_FACE
        return [point for point, far in zip(points, ahead, strict=True) if far > least]

    # --- letters and stops -----------------------------------------------------------------------

    def letters(self) -> None:
        """A letter for each board: on it where that hides no other board, else beside it with a leader."""
        for look in self.desk.looks.values():
            places = tuple(map(self.picture.at, _along(look, NAME / self.scale)))
            ring = Label(says=look.part.mark, at=places, leader=False, ring=True, owner=look.part.id)
            if not label.put(self.paper, ring, Voice()):
                self.paper.draw(label.ringed(places[0], look.part.mark, look.part.id))

    def stops(self) -> None:
        """The number of each stop, white on black, beside its place."""
        for number, finding in enumerate(self.desk.book.stops, start=1):
            place = self._place(finding)
            if place is not None:
                p = self.picture.at(place)
                self.paper.place(_stop(str(number), p, spot) for spot in around(p, FIRST, STEP, STEPS))

    def _place(self, finding: Finding) -> Vec2 | None:
        """Where a finding is: its joint, else the middle of its first boards."""
        where = finding.where
        meetings = {meeting.key: meeting for meeting in self.desk.book.piece.meetings}
        if where.joint is not None and where.joint in meetings:
            x, y, _ = meetings[where.joint].frame.origin
            return x, y
        shapes = [self.desk.elevations[name] for name in where.boards if name in self.desk.elevations]
        if not shapes:
            return None
        middles = [shape.centroid for shape in shapes[:2]]
        line = LineString([middles[0], middles[-1]])
        return line.centroid.x, line.centroid.y


def _stop(number: str, p: Vec2, spot: Vec2) -> list[Item]:
    """A black square with its number, and a line to its place."""
    x, y = spot
    half = TEXT / 2 + GROUND
    return [
        Stroke(points=(p, spot), pen="balloon", layer="stop"),
        Area(loops=(rectangle(x - half, y - half, 2 * half, 2 * half),), layer="stop"),
        Text(at=(x, y + TEXT / 2), text=number, weight="bold", anchor="middle", ink="white", layer="stop"),
    ]


def _along(look: Look, step: float) -> Iterator[Vec2]:
    """Places along a board's centre-line in the elevation, from its middle outwards."""
    board, flat = look.part.board, look.part.board.lies == "flat"
    for a in middle_first(*look.part.long, step):
        x, y, _ = board.frame.place((a, 0.0, board.depth / 2 if flat else 0.0))
        yield x, y


def _together(marks: Sequence[str]) -> str:
    """Letters of boards at one height, three or more in a row as a run: "A B", "C to G"."""
    runs: list[list[str]] = []
    for mark in sorted(marks, key=lambda mark: (len(mark), mark)):
        follows = bool(runs) and mark in LETTERS[1:] and LETTERS[LETTERS.index(mark) - 1] == runs[-1][-1]
        if follows:
            runs[-1].append(mark)
        else:
            runs.append([mark])
    return " ".join(f"{run[0]} to {run[-1]}" if len(run) > 2 else " ".join(run) for run in runs)
