"""Pairs of boards of which one slides into a socket in the other's face, and what plane geometry makes of them.

The socket is the cutter's own shape, symmetrical about the normal of the face where the centre-line of the board that
ends meets it; or one wall is square, as far from there as the other at the face; or it is wider towards one edge; or it
lies at one edge, and the board that ends is housed as deep beside it, with the play where they meet. The tail is
narrower by the clearance, and by the film between the slopes, and stays 0.2 off the floor; its shoulders bear. At a
stopped or set-back edge there is as much play as the clearance. (Conventions of the project's geometry notes.)
"""

import math
from dataclasses import dataclass, replace

from hypothesis import strategies as st
from hypothesis.strategies import DrawFn

from tests.joints.housing import EndInFace
from tests.property.closed_forms import Facing, Polygon, Seen, Z, across, bar_of, clipped
from tests.strategies import Pair, asked_options, end_on_a_face, lengths, pair_of, perhaps

GAP = 0.2
SHOULDER, BESIDE, NECK = 3.0, 2.0, 5.0
RAKE = 15.0
PART = 20.0  # least of a tail of part length, and of the housing beside it


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
    # A taper has tests of its own: none is let be so small that walls it turns are still told apart here.
    form = draw(st.sampled_from([None, "full", "part length", "single-sided"]))
    options = asked_options(
        form=form,
        tail=draw(lengths(30.0, 90.0)) if form == "part length" else None,
        tail_at=draw(st.sampled_from([None, "wall"])) if form == "part length" else None,
        square_wall=draw(st.sampled_from([None, "lower or right"])) if form == "single-sided" else None,
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
        tail=pair.options.get("tail", 0.0),
        tail_at=pair.options.get("tail_at", "front"),
        taper=pair.options.get("taper", 0.0),
        goes_in_from=pair.options.get("enters", ""),
        square=_square(pair) if pair.options.get("form") == "single-sided" else 0.0,
    )
    return Seen(form=form, heading=pair.heading, mirrored=pair.angle < 0.0)


def _square(pair: Pair) -> float:
    """Along the other board's line, at `heading`, to the wall that is square: up, or left of a level board."""
    x, y = math.cos(math.radians(pair.heading)), math.sin(math.radians(pair.heading))
    up = math.copysign(1.0, y if abs(y) > 1e-9 else -x)
    return -up if pair.options.get("square_wall") == "lower or right" else up


@dataclass(frozen=True, slots=True, kw_only=True)
class Dovetail(EndInFace):
    """By its form.

    Attributes:
        tail, tail_at: of part length, how long the socket is and at which edge; 0 for one all along.
        taper, goes_in_from: by how much it is wider where it goes in, and from which edge that is; 0 for none.
        square: on which side of the middle the wall is square, 0 for neither.
    """

    depth: float
    cutter: float
    slope: float
    tail: float = 0.0
    tail_at: str = "front"
    taper: float = 0.0
    goes_in_from: str = ""
    square: float = 0.0

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
            and self._open
            and (not self.tail or PART <= self.tail <= high - low - PART)
            and self.neck >= NECK
            and (face - self.neck - self.taper) / 2 >= SHOULDER
            and face / 2 - self.depth * math.tan(rho) - (self.cutter + self.taper) / 2 >= BESIDE
        )

    @property
    def _open(self) -> bool:
        """Whether it can slide in from an edge, or from the one that it must."""
        wall, front = self.closed
        if self.tail:
            return not (wall if self.tail_at == "front" else front)
        if self.taper:
            return not (wall if self.goes_in_from == "wall" else front)
        return not (wall and front)

    @property
    def _stops(self) -> tuple[float, float]:
        """Between which places it tapers: from stop to stop, or to the edge that the boards have in common."""
        low, high = max(self.one.back, self.other.back), min(self.one.front, self.other.front)
        return (self.housed[0] if self.closed[0] else low, self.housed[1] if self.closed[1] else high)

    def _half(self, way: float, z: float) -> float:
        """From the middle to the socket's wall at the face."""
        low, high = self._stops
        wider = (z - low) / (high - low) if self.goes_in_from == "front" else (high - z) / (high - low)
        return (self.cutter - 2 * self.depth * self.tangent + self.taper * wider) / 2

    def _lean(self, way: float) -> float:
        return 0.0 if way == self.square else self.tangent

    def _less(self, way: float) -> float:
        """By how much the tail's flank stands back from the wall, along the face."""
        film = self.one.film + self.other.film
        return self.clearance / 2 + film * math.hypot(1.0, self._lean(way))

    def _trapezium(self, z: float, deep: float, *, tail: bool) -> Polygon:
        left, right = (way * (self._half(way, z) - (self._less(way) if tail else 0.0)) for way in (-1.0, 1.0))
        lean_left, lean_right = deep * self._lean(-1.0), deep * self._lean(1.0)
        return [(left - lean_left, -deep), (right + lean_right, -deep), (right, 0.0), (left, 0.0)]

    def _board_in(self, width: float, deep: float) -> Polygon:
        """What stands in the face of the board that ends, so wide across its faces."""
        half, cotangent = width / 2 / math.sin(math.radians(self.angle)), 1.0 / math.tan(math.radians(self.angle))
        away = deep * cotangent
        return [(-half - away, -deep), (half - away, -deep), (half, 0.0), (-half, 0.0)]

    def _in_tail(self, z: float, play: float) -> bool:
        """Whether the socket lies there, or, `play` further towards the housing, the tail."""
        low, high = self._stops
        if not self.tail:
            return True
        return z > high - self.tail - play if self.tail_at == "front" else z < low + self.tail + play

    def taken_at(self, z: float) -> Polygon:
        if self._in_tail(z, 0.0):
            return self._trapezium(z, self.depth, tail=False)
        return self._board_in(across(self.one, self.other, self.clearance, 0.0), self.depth)

    @property
    def changes(self) -> tuple[float, ...]:
        """Where its shape changes out of the wall."""
        if not self.tail:
            return ()
        low, high = self._stops
        at, way = (high - self.tail, -1.0) if self.tail_at == "front" else (low + self.tail, 1.0)
        return (at, at + way * self.clearance)

    def end(self, z: float) -> list[Polygon]:
        """What is left of the board that ends at this distance from the wall, as convex polygons."""
        if not self.one.back < z < self.one.front:
            return []
        body = clipped(self.blank(), (0.0, 0.0), -90.0)
        low, high = self.enters
        if not low < z < high:
            return [body]
        deep = self.depth - GAP
        goes_in = self._trapezium(z, deep, tail=True) if self._in_tail(z, self.clearance) else None
        return [body, goes_in or self._board_in(self.one.thickness, deep)]

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
        film = self.one.film + self.other.film
        sloped = round(self.clearance / 2 * math.cos(math.radians(self.slope)) + film, 6)  # as cuts hold lengths
        square = round(self.clearance / 2 + film, 6)
        walls = [
            Facing("wall", 0.0, square)
            if way == self.square
            else Facing("flank", self.slope if way > 0.0 else 180.0 - self.slope, sloped)
            for way in (1.0, -1.0)
        ]
        step = [Facing("stopped end", Z, self.clearance)] if self.tail else []
        return [
            *walls,
            *([Facing("wall", (self.angle + 90.0) % 180.0, square)] * 2 if self.tail else []),
            Facing("bottom", 90.0, GAP),
            Facing("shoulder", 90.0, 0.0),
            *step,
            *(Facing("stopped end", Z, self.clearance) for closed in self.closed if closed),
        ]
