"""Pairs of boards of which one has a stub tenon in the other's face, and what plane geometry makes of them."""

import math
from dataclasses import dataclass

from hypothesis import strategies as st
from hypothesis.strategies import DrawFn

from tests.property.closed_forms import (
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

FAR = 150.0  # along the board that ends, to where nothing is cut
FREE, BEHIND, LEAST = 1.0, 4.0, 3.0
EVEN = 0.5


@st.composite
def pairs(draw: DrawFn) -> Pair:
    """One board's end in another's face, all its sizes asked for or left out."""
    one, other, angle = end_on_a_face(draw)
    options = asked_options(
        clearance=perhaps(draw, lengths(0.0, 0.5)),
        depth=perhaps(draw, lengths(3.0, 5.5)),
        shoulder=perhaps(draw, lengths(3.0, 4.5)),
        edge_shoulder=perhaps(draw, lengths(2.0, 30.0)),
        glued=draw(st.sampled_from([None, False])),
    )
    return pair_of(draw, "stub tenon", (one, other), angle, options)


def seen(pair: Pair, front: str) -> Seen:
    """The side on which the end lies is up, so a pair on the right is mirrored."""
    one, other = bar_of(pair, pair.one), bar_of(pair, pair.other)
    angle = abs(pair.angle)
    off, on_face = abs(1.0 / math.tan(math.radians(angle))), one.thickness / math.sin(math.radians(angle))
    shoulder = pair.options.get("shoulder", (on_face - _whole(one.thickness / 3)) / 2)
    thick = on_face - 2 * shoulder
    depth = _whole(other.thickness / 3)
    if off * depth > min(thick / 2, shoulder):
        depth = _whole(min(thick / 2, shoulder) / off)
    form = StubTenon(
        one=one,
        other=other,
        angle=angle,
        shoulder=shoulder,
        thick=thick,
        depth=pair.options.get("depth", depth),
        edge=pair.options.get("edge_shoulder", 12.0),
        clearance=pair.play,
    )
    return Seen(form=form, heading=pair.heading, mirrored=pair.angle < 0.0)


def _whole(size: float) -> float:
    return max(EVEN, math.floor(size / EVEN + 1e-9) * EVEN)


@dataclass(frozen=True, slots=True, kw_only=True)
class StubTenon(Form):
    """`other` lies along x below its face, y = 0; `one` rises at `angle`, shouldered on the film on that face.

    The tenon is square to the face, in the middle of where the board's end meets it.
    """

    one: Bar
    other: Bar
    angle: float
    shoulder: float
    thick: float
    depth: float
    edge: float
    clearance: float

    @property
    def in_limits(self) -> bool:
        off = abs(1.0 / math.tan(math.radians(self.angle)))
        return (
            min(self.thick, self.depth, self._long - 2 * self._play) >= LEAST
            and self.depth <= self.other.thickness - BEHIND
            and off * self.depth <= min(self.shoulder, self.thick)
        )

    def facings(self) -> list[Facing]:
        """Two cheeks, two narrow sides, the tenon's end, and the shoulders in one plane."""
        return [
            Facing("wall", 0.0, self._play),
            Facing("wall", 0.0, self._play),
            Facing("stopped end", Z, self._play),
            Facing("stopped end", Z, self._play),
            Facing("bottom", 90.0, FREE),
            Facing("shoulder", 90.0, self.other.film),
        ]

    def missing(self) -> float:
        """What is cut off the end but for the tenon, and the mortise, less where both uncut boards were."""
        blank = self._blank()
        cut_off = area(blank) - area(clipped(blank, (0.0, self.other.film), -90.0))
        tenon = self.thick * (self.depth - FREE + self.other.film) * (self._long - 2 * self._play)
        tongue = Bar(thickness=self.thick, film=self.one.film, back=0.0, front=0.0)
        mortise = across(tongue, self.other, self.clearance, 0.0)
        taken = cut_off * (self.one.front - self.one.back) - tenon + mortise * self.depth * self._long
        both = min(self.one.front, self.other.front) - max(self.one.back, self.other.back)
        return taken - common(blank, self._board()) * both

    @property
    def way_out(self) -> float:
        """How far the tenon is drawn until it is out."""
        return self.depth - FREE + self.other.film

    @property
    def _long(self) -> float:
        """Of the mortise, out of the wall."""
        both = min(self.one.front, self.other.front) - max(self.one.back, self.other.back)
        return both - 2 * self.edge

    @property
    def _play(self) -> float:
        return wall_gap(self.one, self.other, self.clearance, 0.0)

    def _blank(self) -> Polygon:
        """From the long point of the tenon's end plane on."""
        ux, uy = math.cos(math.radians(self.angle)), math.sin(math.radians(self.angle))
        half = self.one.thickness / 2
        start = (FREE - self.depth) / uy - half * abs(ux) / uy
        return [
            (along * ux - beside * uy, along * uy + beside * ux)
            for along, beside in ((start, -half), (FAR, -half), (FAR, half), (start, half))
        ]

    def _board(self) -> Polygon:
        return [(-FAR, 0.0), (-FAR, -self.other.thickness), (FAR, -self.other.thickness), (FAR, 0.0)]
