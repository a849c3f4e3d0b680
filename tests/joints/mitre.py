"""Pairs of boards mitred at a corner, and what plane geometry makes of them."""

import math
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from itertools import pairwise
from typing import Any

from hypothesis import strategies as st
from hypothesis.strategies import DrawFn

from tests.property.closed_forms import (
    FLUSH,
    Bar,
    Facing,
    Form,
    Point,
    Polygon,
    Seen,
    Z,
    bar_of,
    bored,
    clipped,
    common,
    union,
)
from tests.strategies import Pair, angles, asked_options, at_a_corner, lengths, pair_of, perhaps

GROOVE_DEEPER = 0.5  # than half the tongue
SCREW = "wood 4x60"  # its head 8 wide and 2.4 high (the trade's figures); the next plug cutter over 8.5 is 10
THREAD, HEAD, BORE, HOLE, PILOT = 4.0, 2.4, 10.0, 4.5, 2.8


@st.composite
def pairs(draw: DrawFn) -> Pair:
    """Two boards that start at one point, or within 1 of each other."""
    boards, angle = at_a_corner(draw), draw(angles())
    by = draw(st.sampled_from([None, "none", "tongue", "dowels", "screws"]))
    options = asked_options(strengthen=by)
    if by == "tongue":
        stop, play = perhaps(draw, lengths(5.0, 20.0)), perhaps(draw, lengths(0.05, 0.3))
        options = asked_options(strengthen=by, tongue_stop=stop, tongue_play=play)
    elif by == "dowels":
        options |= {"dowel": draw(st.sampled_from([6.0, 8.0])), "dowel_in": draw(lengths(6.0, 15.0)), "dowels": 2}
    elif by == "screws":  # only near square, where there is wood enough for a plug
        angle = draw(lengths(75.0, 105.0).filter(lambda angle: abs(angle - 90.0) >= 0.5) | st.just(90.0))
        first, second = (replace(one, thickness=draw(lengths(26.0, 40.0))) for one in boards)
        boards = first, second
        options |= {"screw": SCREW, "counterbore": draw(lengths(7.0, 8.5)), "screw_in": draw(lengths(16.0, 22.0))}
        options |= {"through": draw(st.sampled_from([one.name for one in boards])), "screws": 2}
    return pair_of(draw, "mitre", boards, angle, options)


def seen(pair: Pair, front: str) -> Seen:
    """Inside up: an angle to the right is mirrored."""
    options = pair.options
    form = Mitre(
        one=bar_of(pair, pair.one),
        other=bar_of(pair, pair.other),
        angle=abs(pair.angle),
        by=options.get("strengthen", "none"),
        stop=options.get("tongue_stop", 12.0),
        play=options.get("tongue_play", 0.1),
        asked=options,
        through_one=options.get("through") == pair.one.name,
    )
    return Seen(form=form, heading=pair.heading, mirrored=pair.angle < 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Mitre(Form):
    """`other` runs from the corner along x, `one` at `angle` to it, (0, 180): the inside angle.

    The cut runs from where the inside faces meet to where the outside faces meet. Beyond the depth that
    both share, by more than 1, an end is square at its long point.

    Attributes:
        by: what holds it.
        stop, play: of a tongue's groove from the edges, and of the tongue in it.
        asked: sizes of dowels or screws, as the job has them.
        through_one: of screws, whether they go through `one`.
    """

    one: Bar
    other: Bar
    angle: float
    by: str = "none"
    stop: float = 12.0
    play: float = 0.1
    asked: Mapping[str, Any] = field(default_factory=dict)
    through_one: bool = False

    @property
    def tongue(self) -> bool:
        return self.by == "tongue"

    @property
    def in_limits(self) -> bool:
        """With screws, 3 left beside the counterbore and beside the thread; holes whole in the wood."""
        if self.by == "dowels":
            return self._beside_dowels() >= 3.5
        return self.by != "screws" or min(self._screw()[1:]) >= 3.0

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
            volume += (high - low) * (union(*blanks) - union(*parts))
        low, high = self.common
        volume += self._grooves() * (high - low - 2 * self.stop) if self.tongue else 0.0
        if self.by == "dowels":
            volume += 2 * 2 * bored(((self.asked["dowel"], self.asked["dowel_in"] + 1.0),))
        if self.by == "screws":
            (wood, *_), deep = self._screw(), self.asked["counterbore"]
            in_end = 60.0 - HEAD - (wood - deep)
            volume += 2 * bored(((BORE, deep), (HOLE, wood - deep), (PILOT, in_end)))
        return volume

    def _screw(self) -> tuple[float, float, float]:
        """Wood along the axis in the board that it goes through; beside the counterbore; beside the thread.

        The board that it goes into lies along x, its outside face down; the axis runs along it.
        """
        ends, takes = (self.other, self.one) if self.through_one else (self.one, self.other)
        inward, deep = self.asked["screw_in"], self.asked["counterbore"]
        sine, cosine = math.sin(math.radians(self.angle)), math.cos(math.radians(self.angle))
        half = ends.thickness / 2
        out = (takes.thickness / 2 + half * cosine) / sine  # of the inside arris along x; the outside one opposite

        def mitre(y: float) -> float:
            return y * out / half

        y = inward - half
        face = -out + inward * cosine / sine
        beside = min(mitre(y - BORE / 2), mitre(y + BORE / 2)) - face - deep
        return mitre(y) - face, beside, ends.thickness - inward - THREAD / 2

    def _beside_dowels(self) -> float:
        """From the bottom of a hole, a third of the mitre from the inside arris, to the nearer face of its board."""
        (x, y), size = self.inner, math.hypot(*self.inner)
        least = math.inf
        for way, (ux, uy), bar in ((-1.0, (1.0, 0.0), self.other), (1.0, self._one_way, self.one)):
            for side in (-1.0, 1.0):
                along, deep = size / 3 + side * self.asked["dowel"] / 2, way * (self.asked["dowel_in"] + 1.0)
                px, py = along * x / size - deep * y / size, along * y / size + deep * x / size
                least = min(least, bar.thickness / 2 - abs(ux * py - uy * px))
        return least

    @property
    def _one_way(self) -> Point:
        return math.cos(math.radians(self.angle)), math.sin(math.radians(self.angle))

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


def left_out(options: Mapping[str, Any]) -> set[str]:
    """What it is strengthened with otherwise."""
    of = {
        "tongue": {"tongue", "tongue_width"},
        "dowels": {"dowel", "dowel_in"},
        "screws": {"screw_in", "counterbore"},
    }
    return {name for by, names in of.items() if by != options["strengthen"] for name in names}
