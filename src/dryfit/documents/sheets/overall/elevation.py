"""The whole piece in elevation on paper: boards, floor, positions along the floor, heights, letters, stops."""

from collections.abc import Callable, Iterator, Sequence

import numpy as np
from shapely import LineString, Point, STRtree, transform, unary_union
from shapely.geometry.base import BaseGeometry

from ....findings import Finding
from ....geometry.frames import Vec2
from ....geometry.views import Surface
from ....piece.parts import LETTERS
from ...display import Area, Item, Stroke, Text, rectangle
from ...looks import Desk, Look
from ...naming import position
from ...symbols import BALLOON, balloon
from ..dimensions.levels import Level, levels
from ..dimensions.running import Mark, drawn, plan
from ..page.ground import Ground
from ..page.picture import Picture
from ..page.placing import around
from ..registry import A3

SAYS = "from the left end of the piece: each standing board's left face at its foot"
STANDING, LYING = ("lower end", "upper end"), ("left end", "right end")
LEFT, UPPER = (-1.0, 0.0), (0.0, 1.0)
ON_FACE = 0.01  # a corner of a face's outline is no farther from it
TAG = 4.6  # side of a stop's black square
APART = 0.5  # from one letter or number to the next
REACH = (0.7, 1.0)  # of a step away from its board: at the corners, and beside it


class Elevation:
    """The elevation on paper: `scale`, and where the world's origin lies."""

    def __init__(self, desk: Desk, scale: float, x: float, y: float) -> None:
        self.desk, self.scale, self.picture = desk, scale, Picture(scale, x, y)
        self._ground = Ground(0.0, 0.0, A3[1], A3[1])

    def at(self, p: Vec2) -> Vec2:
        """A point of the world's elevation, on paper."""
        return self.picture.at(p)

    def boards(self) -> list[Item]:
        """What is seen of each board."""
        pen = "balloon" if self.scale >= 0.1 else "break"
        items: list[Item] = []
        for name, area in self.desk.visible.items():
            items += self.picture.outlines(area, pen, "wood", name)
        return items

    def floor(self) -> list[Item]:
        """The floor, where the piece stands on it."""
        if self.desk.book.job.wall.hung:
            return []
        left, _, right, _ = self.desk.bounds
        (x0, y), (x1, _) = self.at((left, 0.0)), self.at((right, 0.0))
        return [Stroke(points=((x0 - 3.0, y), (x1 + 3.0, y)), pen="balloon", layer="floor")]

    # --- figures ---------------------------------------------------------------------------------

    def figures(self, x: float) -> list[Item]:
        """Running positions under the floor, and heights on a line at `x`."""
        left, foot, right, _ = self.desk.bounds
        marks = [self._mark(px, py, name) for px, py, name in self._feet()]
        line = plan(self.at((left, foot))[0], [*marks, self._mark(right, foot, "")], SAYS)
        floor = self.at((left, foot))[1]
        items = drawn(line, floor + 1.6 + line.crank + line.over(1.0), 1.0)
        return [*items, *levels(x, floor, self.heights())]

    def _mark(self, x: float, y: float, name: str) -> Mark:
        left, foot, _, _ = self.desk.bounds
        (at, low), (_, floor) = self.at((x, y)), self.at((left, foot))
        return Mark(x=at, figure=position(x - left), foot=max(low, floor), edge=floor, key=name)

    def _feet(self) -> Iterator[tuple[float, float, str]]:
        """Left face of each standing board at its foot: x, y, name."""
        for name, look in self.desk.looks.items():
            points = self._face(look, LEFT)
            if look.names.words[Surface.DATUM] in STANDING and points:
                x, y = min(points, key=lambda p: (p[1], p[0]))
                yield x, y, name

    def heights(self) -> list[Level]:
        """The upper face of each level board at its left end, and the head of the piece."""
        _, foot, _, head = self.desk.bounds
        letters: dict[str, list[str]] = {}
        places: dict[str, float] = {}
        for look in self.desk.looks.values():
            points = self._face(look, UPPER)
            if look.names.words[Surface.DATUM] in LYING and points:
                _, y = min(points)
                letters.setdefault(position(y - foot), []).append(look.part.mark)
                places[position(y - foot)] = y
        letters.setdefault(position(head - foot), [])
        places.setdefault(position(head - foot), head)
        return [
            Level(y=self.at((0.0, places[figure]))[1], figure=figure, letters=_together(marks))
            for figure, marks in letters.items()
        ]

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

    def letters(self) -> list[Item]:
        """A letter for each board: on it where that hides no other board, else beside it with a leader."""
        areas = [self._on_paper(area) for area in self.desk.elevations.values()]
        tree = STRtree(areas)
        items: list[Item] = []
        for own, look in enumerate(self.desk.looks.values()):

            def others(disc: BaseGeometry, own: int = own) -> list[BaseGeometry]:
                near = sorted(tree.query(disc, predicate="intersects").tolist())
                return [areas[number] for number in near if number != own]

            items += self._letter(look, others)
        return items

    def _on_paper(self, area: BaseGeometry) -> BaseGeometry:
        return transform(area, lambda points: points * [self.scale, -self.scale] + [self.picture.x, self.picture.y])

    def _letter(self, look: Look, others: Callable[[BaseGeometry], list[BaseGeometry]]) -> list[Item]:
        """One letter; `others` gives the other boards on which a disc would stand."""
        mark, name = look.part.mark, look.part.id
        places = [(share, self.at(point)) for share, point in _along(look)]
        places.sort(key=lambda place: abs(place[0] - 0.5))
        on_it = [p for _, p in places]
        clear = self._clear(on_it)
        hidden = [_hidden(p, others) for p in clear]
        for most in (0.02, 0.5):
            for p, share in zip(clear, hidden, strict=True):
                if share <= most:
                    self._ground.take(p, p, BALLOON / 2)
                    return list(balloon(p, mark, name))
        for p in on_it:
            for centre in self._clear(list(around(p, *REACH))):
                if not others(Point(centre).buffer(BALLOON / 2)):
                    self._ground.take(centre, centre, BALLOON / 2)
                    leader = Stroke(points=(p, centre), pen="dimension", layer="balloon", owner=name)
                    return [leader, *balloon(centre, mark, name)]
        return list(balloon(on_it[0], mark, name))

    def _clear(self, places: list[Vec2]) -> list[Vec2]:
        """Those places at which a letter stands clear of all that stand already."""
        clear = self._ground.clear_rings(np.asarray(places), BALLOON / 2 + APART)
        return [place for place, is_clear in zip(places, clear.tolist(), strict=True) if is_clear]

    def stops(self) -> list[Item]:
        """The number of each stop, white on black, beside its place."""
        items: list[Item] = []
        for number, finding in enumerate(self.desk.book.stops, start=1):
            place = self._place(finding)
            if place is not None:
                items += self._stop(str(number), self.at(place))
        return items

    def _stop(self, number: str, p: Vec2) -> list[Item]:
        half = TAG / 2
        for x, y in around(p, *REACH):
            if self._ground.free_box(x - half - APART, y - half - APART, x + half + APART, y + half + APART):
                self._ground.take_box(x - half, y - half, x + half, y + half)
                break
        else:
            return []
        return [
            Stroke(points=(p, (x, y)), pen="balloon", layer="stop"),
            Area(loops=(rectangle(x - half, y - half, TAG, TAG),), layer="stop"),
            Text(at=(x, y + 1.25), text=number, weight="bold", anchor="middle", ink="white", layer="stop"),
        ]

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


def _hidden(p: Vec2, others: Callable[[BaseGeometry], list[BaseGeometry]]) -> float:
    """The share of a letter that would stand on other boards."""
    disc = Point(p).buffer(BALLOON / 2)
    return float(disc.intersection(unary_union(others(disc))).area / disc.area)


def _along(look: Look) -> Iterator[tuple[float, Vec2]]:
    """Places along a board's centre-line in the elevation, as (share of its length, point)."""
    board, flat = look.part.board, look.part.board.lies == "flat"
    low, high = look.part.long
    for step in range(1, 40):
        share = step / 40
        x, y, _ = board.frame.place((low + (high - low) * share, 0.0, board.depth / 2 if flat else 0.0))
        yield share, (x, y)


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
