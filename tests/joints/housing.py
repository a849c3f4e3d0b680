"""Pairs of boards of which one is housed in the other's face, and what plane geometry makes of them.

A housing is `h` deep on the centre-line of the board that ends, square to the face; a through housing bottoms, a
stopped or shouldered one stays 1.0 off the bottom and bears on its shoulder; a stopped end, and the closed end where
the entering board is set back by more than 1, has the clearance for its gap. (Conventions of the project's geometry
notes.)
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from hypothesis import strategies as st
from hypothesis.strategies import DrawFn

from tests.property.closed_forms import (
    FLUSH,
    Bar,
    Facing,
    Form,
    Polygon,
    Seen,
    Z,
    across,
    area,
    bar_of,
    clipped,
    common,
    wall_gap,
)
from tests.strategies import Pair, asked_options, end_on_a_face, lengths, pair_of, perhaps

BOTTOM = 1.0  # left under an end that bears on its shoulder
SHOULDER = 3.0  # least, beside a tongue
LEAST_TONGUE = 5.0


@st.composite
def pairs(draw: DrawFn) -> Pair:
    """One board's end on another's face, at any depth that leaves the other its half."""
    one, other, angle = end_on_a_face(draw)
    options = asked_options(
        clearance=perhaps(draw, lengths(0.1, 0.6)),
        depth=perhaps(draw, lengths(3.0, (other.thickness - 0.2) / 2)),
        stop=draw(st.sampled_from([None, "through", "front", "wall", "both"])),
        stop_distance=perhaps(draw, lengths(5.0, 25.0)),
        raked=draw(st.sampled_from([None, "floor square to walls", "floor parallel to face", "shouldered"])),
        tongue=perhaps(draw, lengths(6.0, 20.0)),
        swelling=perhaps(draw, lengths(0.0, 0.5)),
        glued=draw(st.sampled_from([None, False])),
    )
    return pair_of(draw, "housing", (one, other), angle, options)


def seen(pair: Pair, front: str = "") -> Seen:
    """The side on which the end lies is up, so a pair on the right is mirrored."""
    form = Housing(
        one=bar_of(pair, pair.one),
        other=bar_of(pair, pair.other),
        angle=abs(pair.angle),
        clearance=pair.play,
        swelling=pair.options.get("swelling", 0.0),
        depth=pair.options.get("depth"),
        stop=pair.options.get("stop", "through"),
        distance=pair.options.get("stop_distance", 12.0),
        form=pair.options.get("raked", ""),
        tongue=pair.options.get("tongue"),
    )
    return Seen(form=form, heading=pair.heading, mirrored=pair.angle < 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class EndInFace(Form):
    """`one` ends in the face of `other`; `angle` from other's line to one's, outwards, (0, 180).

    Attributes:
        stop: "through", "front", "wall", "both".
    """

    one: Bar
    other: Bar
    angle: float
    clearance: float
    stop: str = "through"
    distance: float = 12.0

    def taken_at(self, z: float) -> Polygon:
        """What is taken from the other board at this distance from the wall, up to its face."""
        raise NotImplementedError

    @property
    def changes(self) -> tuple[float, ...]:
        """Where, besides its stops, its shape changes out of the wall; between these it grows evenly, if at all."""
        return ()

    def end(self, z: float) -> list[Polygon]:
        """What is left of the board that ends at this distance from the wall, as convex polygons."""
        raise NotImplementedError

    def blank(self) -> Polygon:
        """The uncut board that ends, to its long point; its other end lies far off."""
        raise NotImplementedError

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
        """From where to where what is taken runs: the clearance beyond what enters, or out at the edge."""
        low, high = self.enters
        return (
            low - self.clearance if self.closed[0] else self.other.back,
            high + self.clearance if self.closed[1] else self.other.front,
        )

    def board(self) -> Polygon:
        """The other board, far beyond the joint both ways."""
        return [(-900.0, 0.0), (-900.0, -self.other.thickness), (900.0, -self.other.thickness), (900.0, 0.0)]

    def missing(self) -> float:
        """Volume that neither part fills where the uncut boards did, slab by slab out of the wall."""
        edges = sorted(
            {
                *self.enters,
                *self.housed,
                *self.changes,
                self.one.back,
                self.one.front,
                self.other.back,
                self.other.front,
            }
        )
        return sum((high - low) * self._missing_at((low + high) / 2) for low, high in pairwise(edges))

    def _missing_at(self, z: float) -> float:
        blank = self.blank() if self.one.back < z < self.one.front else []
        board = self.board() if self.other.back < z < self.other.front else []
        taken = self.taken_at(z) if board and self.housed[0] < z < self.housed[1] else []
        left = self.end(z)
        kept = sum(area(part) for part in left)
        shared = sum(common(part, board) - common(part, taken) for part in left)  # none, if it fits
        whole = area(blank) + area(board) - common(blank, board)
        return whole - (kept + area(board) - area(taken) - shared)


@dataclass(frozen=True, slots=True, kw_only=True)
class Housing(EndInFace):
    """By its form.

    Attributes:
        depth: as asked; None for a third of the board in whole halves.
        form: "", or one of the three raked forms; "" is square, or the form by the rule.
        tongue: of a shouldered end as asked; None for half the board, in whole halves.
    """

    swelling: float = 0.0
    depth: float | None = None
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

    @property
    def in_limits(self) -> bool:
        """Whether the kind says that it makes this."""
        low, high = self.enters
        if high <= low or (self.made_form == "shouldered" and self.tongue_made < LEAST_TONGUE):
            return False
        return self.made_form != "floor square to walls" or self.floor_fits

    # -- shapes in the plane

    def taken_at(self, z: float) -> Polygon:
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


def left_out(options: Mapping[str, Any]) -> set[str]:
    """A tongue where nothing is shouldered."""
    return set() if options["raked"] == "shouldered" else {"tongue"}
