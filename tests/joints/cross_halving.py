"""Pairs of boards halved across each other, and what plane geometry makes of them.

The seats lie `end` apart about the middle height, which leaves `ratio` of the common depth to the board slotted from
the front; both slots run out to their own boards' edges. (Conventions of the project's geometry notes.)
"""

import math
from dataclasses import dataclass

from hypothesis import strategies as st
from hypothesis.strategies import DrawFn

from tests.property.closed_forms import Bar, Facing, Form, Seen, Z, across, bar_of, wall_gap
from tests.strategies import Pair, angles, asked_options, lengths, pair_of, perhaps, through_each_other


@st.composite
def pairs(draw: DrawFn) -> Pair:
    """Two boards that run through each other."""
    boards = through_each_other(draw)
    options = asked_options(
        clearance=perhaps(draw, lengths(0.1, 0.6)),
        ratio=draw(st.sampled_from([None, 0.5, 0.25, 0.4, 0.7])),
        end_clearance=perhaps(draw, lengths(0.5, 2.5)),
        walls=draw(st.sampled_from([None, "leaning", "square"])),
        swelling=perhaps(draw, lengths(0.0, 0.5)),
        glued=draw(st.sampled_from([None, True])),
    )
    front = draw(st.sampled_from(["", "", *(bar.name for bar in boards)]))
    return pair_of(draw, "cross halving", boards, draw(angles()), options, front=front, glues=False)


def seen(pair: Pair, front: str) -> Seen:
    """The pair from the board that is slotted from the front, and its heading."""
    first, second = (pair.one, pair.other) if front == pair.one.name else (pair.other, pair.one)
    turn = pair.angle if second is pair.one else -pair.angle
    form = Crossing(
        first=bar_of(pair, first),
        second=bar_of(pair, second),
        angle=turn % 180.0,
        clearance=pair.play,
        swelling=pair.options.get("swelling", 0.0),
        ratio=pair.options.get("ratio", 0.5),
        end=pair.options.get("end_clearance", 1.0),
        square=pair.options.get("walls") == "square",
    )
    return Seen(form=form, heading=pair.heading + (pair.angle if first is pair.one else 0.0))


@dataclass(frozen=True, slots=True, kw_only=True)
class Crossing(Form):
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
