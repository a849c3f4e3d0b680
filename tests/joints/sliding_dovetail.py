"""Pairs of boards of which one slides into a socket in the other's face, and what plane geometry makes of them.

The socket is the cutter's own shape, symmetrical about the normal of the face where the centre-line of the board that
ends meets it. The tail is narrower by the clearance, and by the film between the slopes, and stays 0.2 off the floor;
its shoulders bear. At a stopped or set-back edge there is as much play as the clearance. (Conventions of the project's
geometry notes.)
"""

import math
from dataclasses import dataclass, replace

from hypothesis import strategies as st
from hypothesis.strategies import DrawFn

from tests.joints.housing import EndInFace
from tests.property.closed_forms import Facing, Polygon, Seen, Z, bar_of, clipped
from tests.strategies import Pair, asked_options, end_on_a_face, lengths, pair_of, perhaps

GAP = 0.2
SHOULDER, BESIDE, NECK = 3.0, 2.0, 5.0
RAKE = 15.0


@st.composite
def pairs(draw: DrawFn) -> Pair:
    """One board's end on another's face, up to 15 off square, with a cutter that leaves wood beside the tail."""
    one, other, drawn = end_on_a_face(draw)
    angle = 90.0 + draw(st.sampled_from([0.0, 0.0, 5.0, -8.13, 15.0, -15.0]))
    reach = other.thickness / 2 + 0.8  # with 0.1 sanded off either face too the end is within 1 of it
    past = max(-reach, min(reach, one.before * math.sin(math.radians(drawn))))
    one = replace(one, before=past / math.sin(math.radians(angle)))
    slope = draw(st.sampled_from([7.0, 9.0, 14.0]))
    depth = draw(lengths(3.0, max(3.0, min(10.0, (other.thickness - 0.2) / 3))))
    rho = math.radians(abs(angle - 90.0))
    neck = 2 * depth * math.tan(math.radians(slope))
    face = (one.thickness - 0.2) / math.cos(rho)
    widest = min(face - 2 * SHOULDER + neck, face - 2 * (BESIDE + depth * math.tan(rho)))
    options = asked_options(
        clearance=perhaps(draw, lengths(0.0, 0.3)),
        depth=depth,
        cutter=draw(lengths(min(neck + NECK + 1.0, widest), max(widest, neck + NECK + 1.0))),
        slope=None if slope == 14.0 else slope,
        stop=draw(st.sampled_from([None, "through", "front", "wall"])),
        stop_distance=perhaps(draw, lengths(5.0, 25.0)),
        glued=draw(st.sampled_from([None, False])),
    )
    return pair_of(draw, "sliding dovetail", (one, other), angle, options)


def seen(pair: Pair, front: str = "") -> Seen:
    """The side on which the end lies is up, so a pair on the right is mirrored."""
    form = Dovetail(
        one=bar_of(pair, pair.one),
        other=bar_of(pair, pair.other),
        angle=abs(pair.angle),
        clearance=pair.play,
        depth=pair.options["depth"],
        cutter=pair.options["cutter"],
        slope=pair.options.get("slope", 14.0),
        stop=pair.options.get("stop", "through"),
        distance=pair.options.get("stop_distance", 12.0),
    )
    return Seen(form=form, heading=pair.heading, mirrored=pair.angle < 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Dovetail(EndInFace):
    """With two slopes."""

    depth: float
    cutter: float
    slope: float

    @property
    def tangent(self) -> float:
        return math.tan(math.radians(self.slope))

    @property
    def apart(self) -> float:
        """Of tail and socket, square to the slopes."""
        return self.clearance / 2 * math.cos(math.radians(self.slope)) + self.one.film + self.other.film

    @property
    def neck(self) -> float:
        """Of the tail."""
        return self.cutter - 2 * self.depth * self.tangent - 2 * self.apart / math.cos(math.radians(self.slope))

    @property
    def in_limits(self) -> bool:
        """Whether the kind says that it makes this."""
        rho = math.radians(abs(self.angle - 90.0))
        face = self.one.thickness / math.cos(rho)
        low, high = self.enters
        return (
            abs(self.angle - 90.0) <= RAKE
            and high > low
            and not all(self.closed)
            and self.neck >= NECK
            and (face - self.neck) / 2 >= SHOULDER
            and face / 2 - self.depth * math.tan(rho) - self.cutter / 2 >= BESIDE
        )

    def _trapezium(self, neck: float, deep: float) -> Polygon:
        tip = neck / 2 + deep * self.tangent
        return [(-tip, -deep), (tip, -deep), (neck / 2, 0.0), (-neck / 2, 0.0)]

    def taken(self) -> Polygon:
        return self._trapezium(self.cutter - 2 * self.depth * self.tangent, self.depth)

    def end(self, z: float) -> list[Polygon]:
        """What is left of the board that ends at this distance from the wall, as convex polygons."""
        if not self.one.back < z < self.one.front:
            return []
        body = clipped(self.blank(), (0.0, 0.0), -90.0)
        low, high = self.enters
        return [body, self._trapezium(self.neck, self.depth - GAP)] if low < z < high else [body]

    def blank(self) -> Polygon:
        """The uncut board that ends, to its long point; its other end lies far off."""
        ux, uy = math.cos(math.radians(self.angle)), math.sin(math.radians(self.angle))
        half, far = self.one.thickness / 2, 100.0
        start = -(self.depth - GAP) / uy - half * abs(ux) / uy
        return [
            (start * ux - half * uy, start * uy + half * ux),
            (far * ux - half * uy, far * uy + half * ux),
            (far * ux + half * uy, far * uy - half * ux),
            (start * ux + half * uy, start * uy - half * ux),
        ]

    def facings(self) -> list[Facing]:
        """All facing pairs, directions counted from the other board's line."""
        apart = round(self.apart, 6)  # as cuts hold lengths
        return [
            Facing("flank", self.slope, apart),
            Facing("flank", 180.0 - self.slope, apart),
            Facing("bottom", 90.0, GAP),
            Facing("shoulder", 90.0, 0.0),
            *(Facing("stopped end", Z, self.clearance) for closed in self.closed if closed),
        ]
