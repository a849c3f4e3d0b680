"""What a joint's volumes and gaps must be, by plane geometry alone: nothing of Dryfit is imported here.

The rules are those of the set-out (conventions of the project's geometry notes):

* a slot or housing is as wide across its walls as the board that enters, its film and the film on the
  walls, the swelling allowed for and the clearance come to;
* cross halving: the seats lie `end` apart about the middle height, which leaves `ratio` of the common
  depth to the board slotted from the front; both slots run out to their own boards' edges;
* housing: `h` deep on the centre-line of the board that ends, square to the face; a through housing
  bottoms, a stopped or shouldered one stays 1.0 off the bottom and bears on its shoulder; a stopped end,
  and the closed end where the entering board is set back by more than 1, has the clearance for its gap.

Everything is worked out in a plane of its own: the receiving board lies along the x axis, its touched face
is y = 0, the entering board rises from there at `angle`. Solids are thickness without film.
"""

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import TypeAlias

Point: TypeAlias = tuple[float, float]
Polygon: TypeAlias = list[Point]

HOLE_SIDES = 32
Z = "out of the wall"  # the direction of a facing pair that does not lie in the elevation


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """One board: thickness as put together, film on a face, and from where to where it is out of the wall."""

    thickness: float
    film: float
    back: float
    front: float


@dataclass(frozen=True, slots=True)
class Facing:
    """A pair of surfaces that face each other when put together.

    Attributes:
        direction: of their normal, degrees from the receiving board's x in [0, 180), or `Z`.
        gap: how far apart they lie.
    """

    name: str
    direction: float | str
    gap: float


# ---- plane polygons


def area(points: Polygon) -> float:
    return abs(sum(points[i - 1][0] * p[1] - p[0] * points[i - 1][1] for i, p in enumerate(points))) / 2


def clipped(points: Polygon, point: Point, direction: float) -> Polygon:
    """What of a convex polygon lies behind the line through `point` whose normal has this direction."""
    nx, ny = math.cos(math.radians(direction)), math.sin(math.radians(direction))
    kept: Polygon = []
    for i, q in enumerate(points):
        p = points[i - 1]
        hp, hq = (nx * (r[0] - point[0]) + ny * (r[1] - point[1]) for r in (p, q))
        if hp * hq < 0.0:
            kept.append((p[0] + (q[0] - p[0]) * hp / (hp - hq), p[1] + (q[1] - p[1]) * hp / (hp - hq)))
        if hq <= 0.0:
            kept.append(q)
    return kept


def common(one: Polygon, other: Polygon) -> float:
    """Area that two convex polygons share."""
    if not one or not other:
        return 0.0
    kept = one
    turn = sum(other[i - 1][0] * p[1] - p[0] * other[i - 1][1] for i, p in enumerate(other))
    for i, q in enumerate(other):
        p = other[i - 1]
        outward = math.degrees(math.atan2(q[1] - p[1], q[0] - p[0])) - math.copysign(90.0, turn)
        kept = clipped(kept, p, outward)
    return area(kept)


def polygon_area(diameter: float, sides: int) -> float:
    """Area of a regular polygon whose corners lie on a circle."""
    return sides / 2 * (diameter / 2) ** 2 * math.sin(2 * math.pi / sides)


def bored(steps: tuple[tuple[float, float], ...]) -> float:
    """Volume of a stepped round hole, (diameter, how deep) by step; a solid's circles have 32 sides."""
    return sum(polygon_area(diameter, HOLE_SIDES) * deep for diameter, deep in steps)


# ---- widths


def across(enters: Bar, receives: Bar, clearance: float, swelling: float) -> float:
    """Between the walls of a slot."""
    return enters.thickness + 2 * enters.film + 2 * receives.film + clearance + swelling


def wall_gap(enters: Bar, receives: Bar, clearance: float, swelling: float) -> float:
    """Each side: half the clearance, the films, half the swelling."""
    return clearance / 2 + enters.film + receives.film + swelling / 2


# ---- cross halving


@dataclass(frozen=True, slots=True, kw_only=True)
class Crossing:
    """`first` is the board whose slot opens to the front; `angle` is between the lines, (0, 180)."""

    first: Bar
    second: Bar
    angle: float
    clearance: float
    swelling: float = 0.0
    ratio: float = 0.5
    end: float = 1.0
    square: bool = False

    @property
    def seats(self) -> tuple[float, float]:
        """Out of the wall: the first board's seat, and the second's."""
        low, high = max(self.first.back, self.second.back), min(self.first.front, self.second.front)
        middle = high - self.ratio * (high - low)
        return middle - self.end / 2, middle + self.end / 2

    def missing(self) -> float:
        """Volume that neither part fills where the uncut boards did: clearance and open notches."""
        sine = math.sin(math.radians(self.angle))
        low, high = self.seats
        both = self.first.thickness * self.second.thickness / sine
        volume = self.end * both
        for receives, enters, start, stop in (
            (self.first, self.second, low, self.first.front),
            (self.second, self.first, self.second.back, high),
        ):
            filled = max(0.0, min(stop, enters.front) - max(start, enters.back))
            volume += self._slot(receives, enters) * (stop - start) - both * filled
        return volume

    def open_notch(self) -> float:
        """Length of the first board's slot that the second does not fill at the front."""
        return max(0.0, self.first.front - self.second.front)

    def _slot(self, receives: Bar, enters: Bar) -> float:
        """Area of a slot in the elevation: as long on the face as the walls' lean or the wedge makes it."""
        sine, tangent = math.sin(math.radians(self.angle)), math.tan(math.radians(self.angle))
        on_face = across(enters, receives, self.clearance, self.swelling) / sine
        if self.square:
            on_face += receives.thickness * abs(1.0 / tangent)
        return receives.thickness * on_face

    def facings(self) -> list[Facing]:
        """All facing pairs, directions counted from the first board's line; wedge gaps have none."""
        pairs = [Facing("seat", Z, self.end)]
        if not self.square or self.angle == 90.0:
            for receives, enters, direction in (
                (self.first, self.second, self.angle + 90.0),
                (self.second, self.first, 90.0),
            ):
                gap = wall_gap(enters, receives, self.clearance, self.swelling)
                pairs += 2 * [Facing("wall", direction % 180.0, gap)]
        return pairs

    @property
    def unseen(self) -> list[tuple[str, float]]:
        """Gaps that the joint has besides, to things that are no boards."""
        return []


# ---- housing, and what else an end does on a face

FLUSH = 1.0  # no further apart counts as level; set back by no more, the housing runs out at the edge
BOTTOM = 1.0  # left under an end that bears on its shoulder
SHOULDER = 3.0  # least, beside a tongue
LEAST_TONGUE = 5.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Housing:
    """`one` ends on the face of `other`; `angle` from other's line to one's, outwards, (0, 180).

    Attributes:
        depth: as asked; None for a third of the board in whole halves.
        stop: "through", "front", "wall", "both".
        form: "", or one of the three raked forms; "" is square, or the form by the rule.
        tongue: of a shouldered end as asked; None for half the board, in whole halves.
    """

    one: Bar
    other: Bar
    angle: float
    clearance: float
    swelling: float = 0.0
    depth: float | None = None
    stop: str = "through"
    distance: float = 12.0
    form: str = ""
    tongue: float | None = None

    # -- figures

    @property
    def h(self) -> float:
        return math.floor(self.other.thickness / 3 * 2 + 1e-9) / 2 if self.depth is None else self.depth

    @property
    def fall(self) -> float:
        """From the middle of a floor square to the walls to its corners, square to the face."""
        width = across(self.one, self.other, self.clearance, self.swelling)
        return width / 2 * abs(math.cos(math.radians(self.angle)))

    @property
    def made_form(self) -> str:
        """The form asked for, or by the rule: a tilted router to 15 of rake, within half the board."""
        if self.angle == 90.0:
            return "shouldered" if self.form == "shouldered" else ""
        tilted = abs(self.angle - 90.0) <= 15.0 and self.floor_fits
        return self.form or ("floor square to walls" if tilted else "floor parallel to face")

    @property
    def floor_fits(self) -> bool:
        """A floor square to the walls: deepest within half the board, its other edge still in the wood by 0.5."""
        return self.h + self.fall <= self.other.thickness / 2 + 1e-9 and self.h - self.fall >= 0.5 - 1e-9

    @property
    def gap(self) -> float:
        """Under the end."""
        return BOTTOM if self.made_form == "shouldered" or self.stop != "through" else 0.0

    @property
    def strip(self) -> tuple[float, float]:
        """Along the face: the wood of the end that is there all the way down, where a tongue can stand."""
        half = self.one.thickness / 2 / math.sin(math.radians(self.angle))
        shift = (self.h - self.gap) / math.tan(math.radians(self.angle))
        return max(0.0, -shift) - half, min(0.0, -shift) + half

    @property
    def tongue_made(self) -> float:
        """As asked, or half the board, as far as 3 of shoulder are left on both sides; in whole halves."""
        low, high = self.strip
        room = math.floor((high - low - 2 * SHOULDER) * 2 + 1e-9) / 2
        return min(math.floor(self.one.thickness + 1e-9) / 2 if self.tongue is None else self.tongue, room)

    # -- out of the wall

    @property
    def closed(self) -> tuple[bool, bool]:
        """Whether wood of the other board stands beyond, at the wall and at the front."""
        return (
            self.stop in ("wall", "both") or self.one.back > self.other.back + FLUSH,
            self.stop in ("front", "both") or self.one.front < self.other.front - FLUSH,
        )

    @property
    def enters(self) -> tuple[float, float]:
        """From where to where the end goes in."""
        low, high = max(self.one.back, self.other.back), min(self.one.front, self.other.front)
        if self.stop in ("wall", "both"):
            low += self.distance + self.clearance
        if self.stop in ("front", "both"):
            high -= self.distance + self.clearance
        return low, high

    @property
    def housed(self) -> tuple[float, float]:
        """From where to where the housing runs: the clearance beyond what enters, or out at the edge."""
        low, high = self.enters
        return (
            low - self.clearance if self.closed[0] else self.other.back,
            high + self.clearance if self.closed[1] else self.other.front,
        )

    @property
    def in_limits(self) -> bool:
        """Whether the kind says that it makes this."""
        low, high = self.enters
        if high <= low or (self.made_form == "shouldered" and self.tongue_made < LEAST_TONGUE):
            return False
        return self.made_form != "floor square to walls" or self.floor_fits

    # -- shapes in the plane

    def housing(self) -> Polygon:
        """What is taken from the other board, up to its face."""
        h, form = self.h, self.made_form
        sine, cotangent = math.sin(math.radians(self.angle)), 1.0 / math.tan(math.radians(self.angle))
        if form == "shouldered":
            middle = sum(self.strip) / 2
            half = (
                self.tongue_made + across(self.one, self.other, self.clearance, self.swelling) - self.one.thickness
            ) / 2
            return [(middle - half, -h), (middle + half, -h), (middle + half, 0.0), (middle - half, 0.0)]
        half = across(self.one, self.other, self.clearance, self.swelling) / 2 / sine
        deep = 4 * self.other.thickness
        walls = [
            (-half - deep * cotangent, -deep), (half - deep * cotangent, -deep), (half, 0.0), (-half, 0.0)
        ]  # fmt: skip
        floor = (-h * cotangent, -h)
        return clipped(walls, floor, self.angle + 180.0 if form == "floor square to walls" else -90.0)

    def end(self, z: float) -> list[Polygon]:
        """What is left of the board that ends at this distance from the wall, as convex polygons."""
        if not self.one.back < z < self.one.front:
            return []
        body = clipped(self.blank(), (0.0, 0.0), -90.0)
        low, high = self.enters
        if not low < z < high:
            return [body]
        goes_in = clipped(self.blank(), (0.0, 0.0), 90.0)
        go = self.h - self.gap
        if self.made_form in ("", "floor square to walls"):
            return [body, goes_in]
        goes_in = clipped(goes_in, (0.0, -go), -90.0)
        if self.made_form == "shouldered":
            middle, half = sum(self.strip) / 2, self.tongue_made / 2
            goes_in = clipped(clipped(goes_in, (middle - half, 0.0), 180.0), (middle + half, 0.0), 0.0)
        return [body, goes_in]

    def blank(self) -> Polygon:
        """The uncut board that ends, to its long point; its other end lies far off."""
        ux, uy = math.cos(math.radians(self.angle)), math.sin(math.radians(self.angle))
        half, far = self.one.thickness / 2, 100.0
        if self.made_form in ("", "floor square to walls"):
            start = -self.h / uy + self.gap
        else:
            start = -(self.h - self.gap) / uy - half * abs(ux) / uy
        return [
            (start * ux - half * uy, start * uy + half * ux),
            (far * ux - half * uy, far * uy + half * ux),
            (far * ux + half * uy, far * uy - half * ux),
            (start * ux + half * uy, start * uy - half * ux),
        ]

    def board(self) -> Polygon:
        """The other board, far beyond the joint both ways."""
        return [(-900.0, 0.0), (-900.0, -self.other.thickness), (900.0, -self.other.thickness), (900.0, 0.0)]

    def missing(self) -> float:
        """Volume that neither part fills where the uncut boards did, slab by slab out of the wall."""
        edges = sorted({*self.enters, *self.housed, self.one.back, self.one.front, self.other.back, self.other.front})
        return sum((high - low) * self._missing_at((low + high) / 2) for low, high in pairwise(edges))

    def _missing_at(self, z: float) -> float:
        blank = self.blank() if self.one.back < z < self.one.front else []
        board = self.board() if self.other.back < z < self.other.front else []
        housing = self.housing() if board and self.housed[0] < z < self.housed[1] else []
        left = self.end(z)
        kept = sum(area(part) for part in left)
        shared = sum(common(part, board) - common(part, housing) for part in left)  # none, if it fits
        whole = area(blank) + area(board) - common(blank, board)
        return whole - (kept + area(board) - area(housing) - shared)

    def facings(self) -> list[Facing]:
        """All facing pairs, directions counted from the other board's line."""
        form = self.made_form
        gap = wall_gap(self.one, self.other, self.clearance, self.swelling)
        wall = 0.0 if form == "shouldered" else (self.angle + 90.0) % 180.0
        floor = self.angle if form == "floor square to walls" else 90.0
        pairs = [*2 * [Facing("wall", wall, gap)], Facing("bottom", floor, self.gap)]
        if self.gap:
            pairs.append(Facing("shoulder", 90.0, 0.0))
        pairs += [Facing("stopped end", Z, self.clearance) for closed in self.closed if closed]
        return pairs

    @property
    def unseen(self) -> list[tuple[str, float]]:
        """Gaps that the joint has besides, to things that are no boards."""
        return []

    # -- the way out

    @property
    def way_out(self) -> float:
        """How far the end travels along its walls until its deepest corner is at the face."""
        sine, cosine = math.sin(math.radians(self.angle)), abs(math.cos(math.radians(self.angle)))
        if self.made_form == "shouldered":
            return self.h - self.gap
        if self.made_form == "floor square to walls":
            return (self.h + self.one.thickness / 2 * cosine) / sine - self.gap
        return (self.h - self.gap) / sine


@dataclass(frozen=True, slots=True, kw_only=True)
class Butt(Housing):
    """An end flat on a face: a housing of no depth.

    Attributes:
        steps: of all holes of one dowel or screw, (diameter, how deep); each lies in the wood whole.
        count: of dowels or screws.
    """

    depth: float | None = 0.0
    form: str = "floor parallel to face"
    steps: tuple[tuple[float, float], ...] = ()
    count: int = 0

    def missing(self) -> float:
        """Besides what the end leaves, its holes."""
        return Housing.missing(self) + self.count * bored(self.steps)

    @property
    def gap(self) -> float:
        return 0.0

    @property
    def in_limits(self) -> bool:
        return True

    @property
    def enters(self) -> tuple[float, float]:
        """The whole end is cut to the face, where it stands proud of the other board too."""
        return self.one.back, self.one.front

    def housing(self) -> Polygon:
        return []

    def end(self, z: float) -> list[Polygon]:
        return [clipped(self.blank(), (0.0, 0.0), -90.0)] if self.one.back < z < self.one.front else []

    def facings(self) -> list[Facing]:
        return [Facing("shoulder", 90.0, 0.0)]


# ---- mitre

GROOVE_DEEPER = 0.5  # than half the tongue


@dataclass(frozen=True, slots=True, kw_only=True)
class Mitre:
    """`other` runs from the corner along x, `one` at `angle` to it, (0, 180): the inside angle.

    The cut runs from where the inside faces meet to where the outside faces meet. Beyond the depth that
    both share, by more than 1, an end is square at its long point.

    Attributes:
        tongue: whether a loose tongue lies in a groove of either board.
        stop, play: of the groove from the edges, and of the tongue in it.
    """

    one: Bar
    other: Bar
    angle: float
    tongue: bool = False
    stop: float = 12.0
    play: float = 0.1

    @property
    def inner(self) -> Point:
        """Where the inside faces meet; the outside ones meet opposite, through the corner's middle."""
        sine, cosine = math.sin(math.radians(self.angle)), math.cos(math.radians(self.angle))
        half_one, half_other = self.one.thickness / 2, self.other.thickness / 2
        return ((half_one + half_other * cosine) / sine, half_other)

    @property
    def normal(self) -> float:
        """Direction of the mitre's normal from `other` into `one`."""
        along = math.degrees(math.atan2(self.inner[1], self.inner[0]))
        return along + 90.0

    @property
    def common(self) -> tuple[float, float]:
        return max(self.one.back, self.other.back), min(self.one.front, self.other.front)

    def blanks(self) -> tuple[Polygon, Polygon]:
        """The uncut boards, from their long points to far off."""
        far, x = 130.0, abs(self.inner[0])
        half = self.other.thickness / 2
        other = [(-x, -half), (far, -half), (far, half), (-x, half)]
        ux, uy = math.cos(math.radians(self.angle)), math.sin(math.radians(self.angle))
        start = -abs(self.inner[0] * ux + self.inner[1] * uy)
        half = self.one.thickness / 2
        one = [
            (a * ux - c * uy, a * uy + c * ux) for a, c in ((start, -half), (far, -half), (far, half), (start, half))
        ]
        return one, other

    def parts(self) -> tuple[Polygon, Polygon]:
        """Both boards cut to the mitre."""
        one, other = self.blanks()
        return clipped(one, (0.0, 0.0), self.normal + 180.0), clipped(other, (0.0, 0.0), self.normal)

    def missing(self) -> float:
        """Volume that neither part fills where the uncut boards did: square corners of the blanks, and grooves."""
        edges = sorted({self.one.back, self.one.front, self.other.back, self.other.front})
        volume = 0.0
        for low, high in pairwise(edges):
            here = [bar.back < (low + high) / 2 < bar.front for bar in (self.one, self.other)]
            cut = [self._cut_at((low + high) / 2, bar) for bar in (self.one, self.other)]
            blanks = [blank if there else [] for blank, there in zip(self.blanks(), here, strict=True)]
            parts = [
                (part if mitred else blank) if blank else []
                for part, mitred, blank in zip(self.parts(), cut, blanks, strict=True)
            ]
            volume += (high - low) * (_union(*blanks) - _union(*parts))
        low, high = self.common
        return volume + (self._grooves() * (high - low - 2 * self.stop) if self.tongue else 0.0)

    def _cut_at(self, z: float, bar: Bar) -> bool:
        """Whether the bar is mitred there: over the common depth, and up to its edge where that is within 1."""
        low, high = self.common
        start = bar.back if low <= bar.back + FLUSH else low
        stop = bar.front if high >= bar.front - FLUSH else high
        return start < z < stop

    def _grooves(self) -> float:
        """Area of both grooves: a third of the thinner board for the tongue, two thirds across it.

        In whole halves and whole millimetres, its middle a third of the mitre from the inside arris: the
        kind's own reading, since the geometry notes give no figures for it.
        """
        thin = min(self.one.thickness, self.other.thickness)
        half = (max(0.5, math.floor(thin / 3 * 2) / 2) + self.play) / 2
        deep = max(2.0, math.floor(thin * 2 / 3)) / 2 + GROOVE_DEEPER
        mx, my = self.inner[0] / 3, self.inner[1] / 3
        nx, ny = math.cos(math.radians(self.normal)), math.sin(math.radians(self.normal))
        total = 0.0
        for part, way in zip(self.parts(), (1.0, -1.0), strict=True):
            groove = [
                (mx - ny * across + way * nx * along, my + nx * across + way * ny * along)
                for across, along in ((-half, 0.0), (half, 0.0), (half, deep), (-half, deep))
            ]
            total += common(part, groove)
        return total

    def facings(self) -> list[Facing]:
        """The mitre itself; and where a board is deeper, its square end over the other's edge."""
        pairs = [Facing("mitre", self.normal % 180.0, 0.0)]
        edges = ((self.one.back, self.other.back), (self.one.front, self.other.front))
        return pairs + [Facing("mitre", Z, 0.0) for mine, theirs in edges if abs(mine - theirs) > FLUSH]

    @property
    def unseen(self) -> list[tuple[str, float]]:
        """Gaps that the joint has besides, to things that are no boards."""
        return [("wall", self.play / 2)] if self.tongue else []


def _union(one: Polygon, other: Polygon) -> float:
    return area(one) + area(other) - common(one, other)
