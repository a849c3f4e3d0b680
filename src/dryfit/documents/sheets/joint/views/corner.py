"""The section seen from the front of a joint in which no board enters the other: mitres and butts.

Both boards are drawn where they end, with the long and the short point of every bevel, both thicknesses, the depths of
holes, how far a key reaches, and the angle three ways: between the boards, on the saw, as rise. Dowels and screws are
drawn in their holes, pockets for keys as the dashed arc of their cutter, a loose tongue in its grooves, which are drawn
wider than they are so that its play can be seen.
"""

import math
from collections.abc import Iterator, Sequence
from functools import cached_property, partial

from shapely import LineString, Point, unary_union
from shapely.geometry.base import BaseGeometry

from .....geometry.frames import Vec2
from .....geometry.shapes import Bore, Prism
from .....piece.facts import Between, CutForm, Opens
from .....piece.model import Cut, Part
from .....piece.sums import Word
from ....display import Arc, Area, Item, Stroke
from ....kit.dimension import UnplacedDimension, plain
from ....kit.label import Label
from ....kit.view import View
from ....kit.wood import ARC, FAR, LEANS, DrawnAngle, WoodStretch, cut_wood, hatch_step, shown
from ....looks import Desk
from ....naming import angle, depth, position, thickness
from ....standard import FIRST, PAST, RIGHT
from ....through import Plane, Wider, cut_in, wood_in
from ..bevels import Bevel, bevel_of, bevels
from ..hardware import dowel_long, plug_outline, screw_in, screw_outline
from ..letters import letter
from ..stance import GAP_SEEN, SQUARE, Stance, drawn_gap, exaggerated, largest, turned_words
from .front import FrontSection

SHORT = GAP_SEEN  # of a tongue in its grooves at either end, on paper
TURN = math.degrees(math.tau)


def corner_view(desk: Desk, stance: Stance, smaller: int = 0) -> View:
    """The section through both ends, at the largest scale that leaves room for the other views.

    Args:
        smaller: how many of the larger scales are left out.
    """
    return largest(desk, ("corner", stance.called), partial(_Corner, desk, stance), smaller)


class _Corner(FrontSection):
    """One such section."""

    def _says(self) -> Iterator[str]:
        """What is drawn otherwise than it is, and what is dashed."""
        yield from turned_words(self.desk, self.stance)
        if self.grooves and (said := exaggerated("the groove's play", self.play, self.scale)):
            yield said
        if self.pockets:
            yield "dashed: the pocket of a key"

    # --- how it lies -----------------------------------------------------------------------------

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
        return [cut for cut in self._own() if not cut.form.in_rows]

    @cached_property
    def pockets(self) -> list[Cut]:
        """Cuts of a circular cutter."""
        return [cut for cut in self._own() if cut.form is CutForm.POCKET]

    @cached_property
    def holes(self) -> list[Cut]:
        """Round holes for dowels or screws."""
        return [cut for cut in self._own() if cut.form is CutForm.BORE]

    def _own(self) -> Iterator[Cut]:
        return (cut for cut in self.stance.joint.cuts if not cut.end)

    @property
    def play(self) -> float | None:
        """Beside a tongue, on each side."""
        return next((gap.size for gap in self.stance.joint.gaps if gap.between is Between.WALL), None)

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
        return self.stance.plane(self.z, FAR)

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

    @cached_property
    def reach(self) -> float:
        """How far the joint reaches along either board from the origin: its ends, and where a lap has its shoulder."""
        points = [(bevel, p) for bevel in self.bevels for p in (bevel.long, bevel.short, *self._shoulders(bevel))]
        return max([0.0, *(x * bevel.away[0] + y * bevel.away[1] for bevel, (x, y) in points)])

    def _shoulders(self, bevel: Bevel) -> Iterator[Vec2]:
        """Corners of what is taken off an end besides its plane."""
        part = next(part for part in self.parts if part.id == bevel.cut.body)
        for shape in bevel.cut.shapes:
            if isinstance(shape, Prism):
                yield from (self.stance.place(part, (a, c)) for a, c, _ in shape.outline)

    def stretch(self, part: Part) -> WoodStretch:
        """What is shown of a board: past the bottom of a hole, at least."""
        bevel = bevel_of(self.stance, part)
        deep = [cut.figures.deep or 0.0 for cut in self.holes if cut.body == part.id and cut.figures.opens is Opens.END]
        deep += [cut.figures.on_face or 0.0 for cut in self.pockets if self.stance.joint.meeting.form == "in line"]
        far = self.reach + max([ARC / self.scale, *(one + 2 * FIRST / self.scale for one in deep)])
        return WoodStretch((1.0, 0.0), -far, far) if bevel is None else WoodStretch(bevel.away, -FAR, far)

    # --- what is drawn -----------------------------------------------------------------------------

    @cached_property
    def boards(self) -> list[tuple[Part, BaseGeometry]]:
        """Each with its section."""
        key = self.stance.joint.key
        found = []
        for part in self.parts:
            cuts = [cut for cut in part.cuts if cut.end or (cut.joint == key and cut not in self.pockets)]
            found.append((part, wood_in(part, self.plane, cuts=cuts, wider=self.wider)))
        return found

    def _drawn(self) -> Iterator[Item]:
        """Both boards, what is let in, and the arc of their angle."""
        step = hatch_step(2 * self.stance.half, self.scale)
        for (part, wood), lean in zip(self.boards, LEANS, strict=True):
            yield from cut_wood(wood, [self.stretch(part)], self.scale, part.id, lean=lean, step=step)
        yield from self._fasteners()
        for cut in self.holes:
            yield self._axis(cut)
        if self.pockets:
            yield self._pocket(self.pockets[0])
        if len(self.grooves) == 2:
            yield self._tongue()
        if self.angle is not None:
            yield from self.angle.arc(self.scale, [(FAR, 0.0), (FAR, 0.0)])

    def paper(self, p: Vec2) -> Vec2:
        """A point of the drawing on paper."""
        return p[0] * self.scale, -p[1] * self.scale

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

    def _axis(self, cut: Cut) -> Item:
        start, way, profile = self.bore(cut)
        over = PAST / self.scale
        ends = ((start[0] + way[0] * s, start[1] + way[1] * s) for s in (-over, profile[-1][0] + over))
        return Stroke(points=tuple(self.paper(p) for p in ends), pen="axis", layer="axis")

    def _fasteners(self) -> Iterator[Item]:
        """The dowel, or the screw under its plug, in the holes."""
        if len(self.holes) < 2:
            return
        start, way, profile = self.bore(self.holes[0])
        (_, diameter), *steps, (long, _) = profile
        if steps:
            screw = screw_in(self.stance.joint)
            if screw is not None:
                yield from self._outlined(start, way, screw_outline(screw, steps[0][0]))
                yield from self._outlined(start, way, plug_outline(screw, steps[0][0], diameter))
            return
        beyond = self.bore(self.holes[1])[2][-1][0]
        dowel = dowel_long(self.stance.joint)
        if dowel is not None and long + beyond > dowel:
            spare, half = (long + beyond - dowel) / 2, diameter / 2
            low, high = spare - beyond, long - spare
            yield from self._outlined(start, way, ((low, -half), (high, -half), (high, half), (low, half)))

    def _outlined(self, start: Vec2, way: Vec2, points: Sequence[Vec2]) -> Iterator[Item]:
        """Points given along and across an axis, drawn with white inside."""
        (x, y), (wx, wy) = start, way
        outline = tuple(self.paper((x + wx * s - wy * t, y + wy * s + wx * t)) for s, t in points)
        yield Area(loops=(outline,), ink="white", layer="hardware")
        yield Stroke(points=outline, pen="balloon", closed=True, layer="hardware")

    def _pocket(self, cut: Cut) -> Item:
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
        return Arc(centre=on_paper, radius=radius * self.scale, start=first, end=last, pen="hidden", layer="hidden")

    def _tongue(self) -> Item:
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
        return Stroke(points=tuple(points), pen="outline", closed=True, layer="hardware")

    # --- figures and words -------------------------------------------------------------------------

    def _dimensions(self) -> Iterator[UnplacedDimension]:
        for bevel in self.bevels:
            if bevel.bevelled:
                yield self._outside(bevel, bevel.short, position(bevel.longer))
        for bevel in self.bevels[:1]:
            if (lap := _lap(bevel.cut)) is not None:
                (x, y), (ax, ay) = bevel.long, bevel.away
                yield self._outside(bevel, (x + ax * lap, y + ay * lap), position(lap))
        for part in self.parts:
            yield self._thickness(part)
        if self.pockets:
            yield self._key(self.pockets[0])
        for cut in self.holes:
            yield self._hole(cut)

    def _outside(self, bevel: Bevel, end: Vec2, figure: str) -> UnplacedDimension:
        """Along a board from its long point, on its outside."""
        (ax, ay), (ox, oy) = bevel.away, bevel.outside
        return plain(bevel.long, end, figure, 1 if ax * oy - ay * ox > 0 else -1, way=bevel.away)

    def _thickness(self, part: Part) -> UnplacedDimension:
        """Of a board, beyond where it is broken off."""
        stretch = self.stretch(part)
        (x, y), far = stretch.way, stretch.high
        half = self.stance.joint.meeting.side(part.id).thickness / 2
        start, end = ((x * far - y * c, y * far + x * c) for c in (half, -half))
        return plain(start, end, thickness(2 * half), 1, weight="regular")

    def _key(self, pocket: Cut) -> UnplacedDimension:
        """How far a key reaches on the outside face."""
        bevel = self._end(pocket)
        reach = pocket.figures.on_face or 0.0
        end = (bevel.long[0] + bevel.away[0] * reach, bevel.long[1] + bevel.away[1] * reach)
        return self._outside(bevel, end, f"key {position(reach)}")

    def _hole(self, cut: Cut) -> UnplacedDimension:
        """How deep a hole, or its counterbore, is, beside it."""
        (x, y), (wx, wy), profile = self.bore(cut)
        deep = profile[1][0] if len(profile) > 2 else profile[-1][0]
        return plain((x, y), (x + wx * deep, y + wy * deep), f"{depth(deep)} deep", 0)

    def _labels(self) -> Iterator[Label]:
        for part, wood in self.boards:
            bevel = bevel_of(self.stance, part)
            x, y = bevel.away if bevel else (-1.0, 0.0)
            far = [self.reach + off * FIRST / self.scale for off in (2, 3, 1)]
            there = shown(wood, [self.stretch(part)])
            yield letter(self.desk.marks[part.id], part.id, there, [(x * s, y * s) for s in far], self.scale)
        if self.mitred:
            bevel = self.bevels[0]
            for point, words in ((bevel.long, "long points"), (bevel.short, "short points")):
                yield Label(says=words, at=(point,), priority=2)
        if self.angle is not None:
            between = next((cut.figures.between_faces for cut in self.stance.joint.cuts if cut.end), RIGHT)
            yield self.angle.label(angle(between), list(self._leans()), self.scale)

    def _leans(self) -> Iterator[str]:
        """Each bevel on the saw and as rise, with the boards that have it."""
        told: dict[str, list[str]] = {}
        for bevel in self.bevels:
            lean = abs(bevel.cut.figures.lean)
            if lean > SQUARE:
                said = f"{bevel.on_saw}, {bevel.rises}"
                told.setdefault(said, []).append(self.desk.marks[bevel.cut.body])
        for words, marks in told.items():
            yield words if len(marks) > 1 else f"{marks[0]}: {words}"

    @cached_property
    def angle(self) -> DrawnAngle | None:
        """Where the inside faces meet, and the ways along both from there; None where they do not."""
        if self.stance.joint.meeting.form == "in line":
            return None
        if self.mitred:
            first, second = self.bevels
            return DrawnAngle(first.short, (first.away, second.away))
        end = bevel_of(self.stance, self.stance.other)
        if end is None:
            return None
        own = bevel_of(self.stance, self.stance.main)
        right = end.away[0] > -SQUARE if own is None else own.away[0] > 0
        foot = max((end.long, end.short), key=lambda p: p[0] if right else -p[0])
        return DrawnAngle(foot, ((1.0 if right else -1.0, 0.0), end.away))


def _arc_through(angles: Sequence[float]) -> Vec2:
    """The shortest arc that holds these angles, from and to anticlockwise."""
    if not angles:
        return 0.0, 0.0
    ordered = sorted(angles)
    turns = [*ordered, ordered[0] + TURN]
    widest = max(range(len(ordered)), key=lambda i: turns[i + 1] - turns[i])
    first, last = turns[widest + 1], turns[widest]
    return (first - TURN, last) if first > last else (first, last)


def _lap(cut: Cut) -> float | None:
    """How long an end's lap is; None of one that has none."""
    width = cut.figures.width
    return width.total if width is not None and width.terms[0].word is Word.LAP else None
