"""Pairs of boards of which one stands in a rebate of the other's end, and what plane geometry makes of them."""

import math
from dataclasses import dataclass, replace
from itertools import pairwise

from hypothesis import strategies as st
from hypothesis.strategies import DrawFn

from tests.property.closed_forms import Bar, Facing, Form, Polygon, Seen, area, bar_of, clipped, common
from tests.strategies import Pair, angles, asked_options, at_a_corner, lengths, pair_of, perhaps

FAR = 130.0


@st.composite
def pairs(draw: DrawFn) -> Pair:
    """Two boards that start at one point, level or within 1 at both edges, up to 45 off square."""
    one, other = at_a_corner(draw)
    step = draw(st.sampled_from([0.0, 0.0, 0.5, -0.9]))
    other = replace(other, back=one.back + step, depth=one.depth)
    through = draw(st.sampled_from([one, other]))
    options = asked_options(
        through=through.name,
        depth=perhaps(draw, lengths(3.0, through.thickness - 3.5)),
        glued=draw(st.sampled_from([None, False])),
    )
    angle = draw(angles().filter(lambda angle: 45.0 <= angle <= 135.0))
    return pair_of(draw, "rebate", (one, other), angle, options)


def seen(pair: Pair, front: str) -> Seen:
    """The board with the rebate lies along x, its inside up; the other way round the corner it is mirrored."""
    one_has_it = pair.options["through"] == pair.one.name
    takes, ends = (pair.one, pair.other) if one_has_it else (pair.other, pair.one)
    asked = pair.options.get("depth")
    depth = asked if asked is not None else math.floor(pair.mounted(takes) * 2 / 3 / 0.5 + 1e-9) * 0.5
    form = Rebate(takes=bar_of(pair, takes), ends=bar_of(pair, ends), angle=abs(pair.angle), depth=depth)
    heading = pair.heading + (pair.angle if one_has_it else 0.0)
    return Seen(form=form, heading=heading, mirrored=(pair.angle < 0.0) is not one_has_it)


@dataclass(frozen=True, slots=True, kw_only=True)
class Rebate(Form):
    """`takes` runs from the corner along x, `ends` at `angle` to it; the inside face is y = t / 2."""

    takes: Bar
    ends: Bar
    angle: float
    depth: float

    @property
    def floor(self) -> float:
        return self.takes.thickness / 2 - self.depth

    @property
    def wall(self) -> float:
        """Direction square off the wall, away from the body that has it."""
        return self.angle + 90.0

    @property
    def between(self) -> float:
        """Film on the face that stands against the wall, and on the wall."""
        return self.ends.film + self.takes.film

    def facings(self) -> list[Facing]:
        return [Facing("bottom", 90.0, self.takes.film), Facing("shoulder", self.wall % 180.0, self.between)]

    def _off(self, far: float) -> tuple[float, float]:
        """A point so far off the centre-line of the board that ends, towards its outside."""
        return far * math.cos(math.radians(self.wall)), far * math.sin(math.radians(self.wall))

    def _strip(self, start: float) -> Polygon:
        ux, uy = math.cos(math.radians(self.angle)), math.sin(math.radians(self.angle))
        half = self.ends.thickness / 2
        return [
            (a * ux - c * uy, a * uy + c * ux) for a, c in ((start, -half), (FAR, -half), (FAR, half), (start, half))
        ]

    def _parts(self) -> tuple[Polygon, Polygon, Polygon]:
        """The board with the rebate before that is cut, the rebate in it, and the one that stands there."""
        half = self.takes.thickness / 2
        bar = [(-FAR, -half), (FAR, -half), (FAR, half), (-FAR, half)]
        covers = clipped(bar, self._off(self.ends.thickness / 2), self.wall)
        beyond = clipped(covers, self._off(-self.ends.thickness / 2 - self.between), self.wall + 180.0)
        step = clipped(beyond, (0.0, self.floor), -90.0)
        return covers, step, clipped(self._strip(-FAR), (0.0, self.floor + self.takes.film), -90.0)

    def missing(self) -> float:
        """What neither part fills where the uncut boards did, slab by slab out of the wall."""
        covers, step, ended = self._parts()
        ux, uy = math.cos(math.radians(self.angle)), math.sin(math.radians(self.angle))
        half, left = self.takes.thickness / 2, min(x for x, _ in covers)
        blank = [(left, -half), (FAR, -half), (FAR, half), (left, half)]
        strip = self._strip(min(x * ux + y * uy for x, y in ended))
        volume = 0.0
        edges = sorted({self.takes.back, self.takes.front, self.ends.back, self.ends.front})
        for low, high in pairwise(edges):
            z = (low + high) / 2
            has, stands = (bar.back < z < bar.front for bar in (self.takes, self.ends))
            whole = area(blank) * has + area(strip) * stands - common(blank, strip) * (has and stands)
            left_over = (area(covers) - area(step)) * has + area(ended) * stands
            volume += (high - low) * (whole - left_over)
        return volume
