"""Pairs of boards mitred at a corner, and what plane geometry makes of them."""

import math
from dataclasses import dataclass
from itertools import pairwise

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
    clipped,
    common,
    union,
)
from tests.strategies import Pair, angles, asked_options, at_a_corner, lengths, pair_of, perhaps

GROOVE_DEEPER = 0.5  # than half the tongue


@st.composite
def pairs(draw: DrawFn) -> Pair:
    """Two boards that start at one point, or within 1 of each other."""
    boards = at_a_corner(draw)
    options = asked_options(
        strengthen=draw(st.sampled_from([None, "none", "tongue"])),
        tongue_stop=perhaps(draw, lengths(5.0, 20.0)),
        tongue_play=perhaps(draw, lengths(0.05, 0.3)),
    )
    return pair_of(draw, "mitre", boards, draw(angles()), options)


def seen(pair: Pair, front: str) -> Seen:
    """Inside up: an angle to the right is mirrored."""
    form = Mitre(
        one=bar_of(pair, pair.one),
        other=bar_of(pair, pair.other),
        angle=abs(pair.angle),
        tongue=pair.options.get("strengthen") == "tongue",
        stop=pair.options.get("tongue_stop", 12.0),
        play=pair.options.get("tongue_play", 0.1),
    )
    return Seen(form=form, heading=pair.heading, mirrored=pair.angle < 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Mitre(Form):
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
            volume += (high - low) * (union(*blanks) - union(*parts))
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
