"""The wood of a section seen from the front through two ends: how both boards lie in it, and what is let into them.

Dowels and screws are drawn in their holes, pockets for keys as the dashed arc of their cutter, a loose tongue in its
grooves, which are drawn wider than they are so that its play can be seen.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from functools import cached_property

from shapely import LineString, Point, unary_union
from shapely.geometry.base import BaseGeometry

from .....geometry.frames import Vec2
from .....geometry.shapes import Bore, Prism
from .....piece.model import Cut, Part
from .....trade.screws import read_screw
from ....display import Arc, Area, Stroke
from ....looks import Desk
from ....through import Plane, Wider, cut_in, wood_in
from ..bevels import Bevel, bevel_of, bevels
from ..drawing.pad import Pad
from ..drawing.sections import LEANS, Stretch, draw_wood, hatch_step, to_paper
from ..figures.ends import is_round
from ..hardware import dowel_long, plug_outline, screw_outline
from ..stance import Stance, drawn_gap

RUNS = 30.0  # of each board beyond the corner, on paper
THROUGH = 24.0  # of one that runs through, on either side
PAST_HOLE = 14.0
SHORT = 1.2  # of a tongue in its grooves at either end, on paper


@dataclass
class Corner:
    """One such section under way; `scale` is paper / wood."""

    desk: Desk
    stance: Stance
    scale: float
    pad: Pad = field(default_factory=Pad)

    @property
    def parts(self) -> tuple[Part, Part]:
        """The level board, and the other."""
        return self.stance.main, self.stance.other

    @cached_property
    def bevels(self) -> list[Bevel]:
        """The ends, the level board's first."""
        return bevels(self.stance)

    @property
    def mitred(self) -> bool:
        """Whether both ends are bevelled, so that they meet in their points."""
        return len(self.bevels) == 2 and all(bevel.bevelled for bevel in self.bevels)

    @cached_property
    def grooves(self) -> list[Cut]:
        """Straight-sided cuts at an end, for a tongue in both boards."""
        return [cut for cut in self._own() if all(isinstance(one, Prism) and not is_round(one) for one in cut.shapes)]

    @cached_property
    def pockets(self) -> list[Cut]:
        """Cuts of a circular cutter."""
        return [cut for cut in self._own() if all(is_round(one) for one in cut.shapes)]

    @cached_property
    def holes(self) -> list[Cut]:
        """Round holes for dowels or screws."""
        return [cut for cut in self._own() if all(isinstance(one, Bore) for one in cut.shapes)]

    def _own(self) -> Iterator[Cut]:
        return (cut for cut in self.stance.joint.cuts if not cut.end)

    @property
    def play(self) -> float | None:
        """Beside a tongue, on each side."""
        return next((gap.size for gap in self.stance.joint.gaps if gap.between == "wall"), None)

    @cached_property
    def z(self) -> float:
        """Out of the wall: through a hole, else in the middle, else clear of a pocket there."""
        low, high = self.stance.joint.meeting.overlap
        for cut in self.holes:
            shape = cut.shapes[0]
            if isinstance(shape, Bore):
                return shape.start[2] + self.stance.joint.meeting.side(cut.body).back
        middle = (low + high) / 2
        for cut in self.pockets:
            back = self.stance.joint.meeting.side(cut.body).back
            reaches = sorted((one.low + back, one.high + back) for one in cut.shapes if isinstance(one, Prism))
            if any(a <= middle <= b for a, b in reaches):
                return (reaches[0][1] + (reaches[1][0] if len(reaches) > 1 else high)) / 2
        return middle

    @cached_property
    def plane(self) -> Plane:
        """The plane of the section."""
        return self.stance.plane(self.z, 4 * (self.stance.wide + 2 * self.stance.half) + 200.0 / self.scale)

    @cached_property
    def wider(self) -> Wider:
        """Grooves drawn wider than they are, so that the tongue can be seen in them."""
        if not self.grooves or self.play is None:
            return {}
        more = drawn_gap(self.play, self.scale) - self.play
        ways: dict[str, list[Vec2]] = {}
        for cut in self.grooves:
            nx, ny = self._end(cut).normal
            ways[cut.key] = [(-ny * more, nx * more), (ny * more, -nx * more)]
        return ways

    def _end(self, cut: Cut) -> Bevel:
        """The end in which something is let in."""
        return next(bevel for bevel in self.bevels if bevel.cut.body == cut.body)

    # --- how much is shown -------------------------------------------------------------------------

    @cached_property
    def reach(self) -> float:
        """How far the joint reaches along either board from the origin, in mm of wood."""
        points = [(bevel, p) for bevel in self.bevels for p in (bevel.long, bevel.short)]
        return max([0.0, *(x * bevel.away[0] + y * bevel.away[1] for bevel, (x, y) in points)])

    def runs(self, part: Part) -> float:
        """How much of a board is shown beyond the joint: past the bottom of a hole, at least; on paper."""
        least = RUNS if bevel_of(self.stance, part) is not None else THROUGH
        deep = [cut.figures.deep or 0.0 for cut in self.holes if cut.body == part.id and cut.figures.opens == "end"]
        return max([least, *(one * self.scale + PAST_HOLE for one in deep)])

    def stretch(self, part: Part) -> Stretch:
        """What is shown of a board."""
        bevel = bevel_of(self.stance, part)
        far = self.reach + self.runs(part) / self.scale
        return Stretch((1.0, 0.0), -far, far) if bevel is None else Stretch(bevel.away, -1e4, far)

    @property
    def size(self) -> Vec2:
        """Width and height on paper, without words outside."""
        wide, high = (self.reach * self.scale + self.runs(part) for part in self.parts)
        across = 2 * self.stance.half * self.scale + 14.0
        through = 2.0 if bevel_of(self.stance, self.stance.main) is None else 1.0
        return wide * through + across, high + across

    def paper(self, p: Vec2) -> Vec2:
        """A point of the drawing on paper."""
        return to_paper(p, self.scale)

    # --- what is drawn -----------------------------------------------------------------------------

    def draw(self) -> list[tuple[Part, BaseGeometry]]:
        """Draw both boards and what is let in, and give what is shown of each board."""
        shown: list[tuple[Part, BaseGeometry]] = []
        key, step = self.stance.joint.key, hatch_step(2 * self.stance.half, self.scale)
        for part, lean in zip(self.parts, LEANS, strict=True):
            cuts = [cut for cut in part.cuts if cut.end or (cut.joint == key and cut not in self.pockets)]
            wood = wood_in(part, self.plane, cuts=cuts, wider=self.wider)
            area = draw_wood(self.pad, wood, [self.stretch(part)], self.scale, part.id, lean=lean, step=step)
            shown.append((part, area))
        self._fasteners()
        for cut in self.holes:
            self._axis(cut)
        if self.pockets:
            self._pocket(self.pockets[0])
        if len(self.grooves) == 2:
            self._tongue()
        return shown

    def bore(self, cut: Cut) -> tuple[Vec2, Vec2, Sequence[Vec2]]:
        """Where a hole starts in the drawing, the way it goes, and its profile."""
        shape = cut.shapes[0]
        assert isinstance(shape, Bore), "a hole is round"
        frame = self.desk.book.piece.part_by_name[cut.body].board.frame
        return (
            self.stance.find(frame.place(shape.start)),
            self.stance.direct(frame.direct(shape.direction)),
            shape.profile,
        )

    def _axis(self, cut: Cut) -> None:
        start, way, profile = self.bore(cut)
        over = 2.0 / self.scale
        ends = ((start[0] + way[0] * s, start[1] + way[1] * s) for s in (-over, profile[-1][0] + over))
        self.pad.draw([Stroke(points=tuple(self.paper(p) for p in ends), pen="axis", layer="axis")])

    def _fasteners(self) -> None:
        """The dowel, or the screw under its plug, in the holes."""
        if len(self.holes) < 2:
            return
        start, way, profile = self.bore(self.holes[0])
        (_, diameter), *steps, (long, _) = profile
        if steps:
            screw = read_screw(str(dict(self.stance.joint.options).get("screw", "")))
            if screw is not None:
                self._outlined(start, way, screw_outline(screw, steps[0][0]))
                self._outlined(start, way, plug_outline(screw, steps[0][0], diameter))
            return
        beyond = self.bore(self.holes[1])[2][-1][0]
        dowel = dowel_long(self.stance.joint)
        if dowel is not None and long + beyond > dowel:
            spare, half = (long + beyond - dowel) / 2, diameter / 2
            low, high = spare - beyond, long - spare
            self._outlined(start, way, ((low, -half), (high, -half), (high, half), (low, half)))

    def _outlined(self, start: Vec2, way: Vec2, points: Sequence[Vec2]) -> None:
        """Points given along and across an axis, drawn with white inside."""
        (x, y), (wx, wy) = start, way
        shown = tuple(self.paper((x + wx * s - wy * t, y + wy * s + wx * t)) for s, t in points)
        self.pad.draw([Area(loops=(shown,), ink="white", layer="hardware")])
        self.pad.draw([Stroke(points=shown, pen="balloon", closed=True, layer="hardware")])

    def _pocket(self, cut: Cut) -> None:
        """The circle of the cutter where it runs in wood, dashed."""
        shape = cut.shapes[0]
        assert isinstance(shape, Prism), "a pocket is a disc"
        (a0, c0, _), (a1, c1, _) = shape.outline[:2]
        part = self.desk.book.piece.part_by_name[cut.body]
        (x, y), radius = self.stance.place(part, ((a0 + a1) / 2, (c0 + c1) / 2)), math.dist((a0, c0), (a1, c1)) / 2
        ends = [(one, [cut for cut in one.cuts if cut.end]) for one in self.parts]
        wood = unary_union([wood_in(one, self.plane, cuts=cuts) for one, cuts in ends])
        inside = LineString(Point(x, y).buffer(radius, quad_segs=90).exterior.coords).intersection(wood)
        points = [p for piece in getattr(inside, "geoms", [inside]) for p in piece.coords]
        first, last = _arc_through([math.degrees(math.atan2(v - y, u - x)) for u, v in points])
        on_paper = self.paper((x, y))
        self.pad.draw(
            [Arc(centre=on_paper, radius=radius * self.scale, start=first, end=last, pen="hidden", layer="hidden")]
        )

    def _tongue(self) -> None:
        """A loose tongue in both grooves, short of their bottoms."""
        by_name = self.desk.book.piece.part_by_name
        hole = unary_union([cut_in(by_name[cut.body], self.plane, cut) for cut in self.grooves]).convex_hull
        nx, ny = self._end(self.grooves[0]).normal
        corners = list(hole.minimum_rotated_rectangle.exterior.coords[:-1])
        along, across = [x * nx + y * ny for x, y in corners], [y * nx - x * ny for x, y in corners]
        play, short = self.play or 0.0, SHORT / self.scale
        low, high, left, right = min(along) + short, max(along) - short, min(across) + play, max(across) - play
        points = (
            self.paper((s * nx - t * ny, s * ny + t * nx))
            for s, t in ((low, left), (high, left), (high, right), (low, right))
        )
        self.pad.draw([Stroke(points=tuple(points), pen="outline", closed=True, layer="hardware")])


def _arc_through(angles: Sequence[float]) -> Vec2:
    """The shortest arc that holds these angles, from and to anticlockwise."""
    if not angles:
        return 0.0, 0.0
    ordered = sorted(angles)
    turns = [*ordered, ordered[0] + 360.0]
    widest = max(range(len(ordered)), key=lambda i: turns[i + 1] - turns[i])
    first, last = turns[widest + 1], turns[widest]
    return (first - 360.0, last) if first > last else (first, last)
