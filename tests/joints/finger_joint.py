"""Pairs of boards with fingers at a square corner, and what plane geometry makes of them."""

from dataclasses import dataclass, replace

from hypothesis import strategies as st
from hypothesis.strategies import DrawFn

from tests.property.closed_forms import Bar, Facing, Form, Seen, Z, bar_of
from tests.strategies import Pair, asked_options, at_a_corner, lengths, pair_of, perhaps


@st.composite
def pairs(draw: DrawFn) -> Pair:
    """Two boards that start at one point, square and level."""
    one, other = at_a_corner(draw)
    one, other = (replace(bar, before=0.0, back=one.back, depth=one.depth) for bar in (one, other))
    options = asked_options(
        fingers=draw(st.sampled_from([None, 2, 3, 4, 7, 8])),
        begins=draw(st.sampled_from([one.name, other.name])),
        clearance=perhaps(draw, lengths(0.05, 0.4)),
        glued=draw(st.sampled_from([None, False])),
    )
    return pair_of(draw, "finger joint", (one, other), 90.0, options)


def seen(pair: Pair, front: str) -> Seen:
    """`other` lies along x; an angle to the right is mirrored."""
    thin = min(pair.mounted(pair.one), pair.mounted(pair.other))
    depth = pair.one.depth
    count = pair.options.get("fingers") or max(3, 2 * round((depth / thin - 1) / 2) + 1)
    one, other = bar_of(pair, pair.one), bar_of(pair, pair.other)
    begins = pair.options["begins"] == pair.one.name
    form = Fingers(one=one, other=other, count=count, play=pair.play, one_begins=begins)
    return Seen(form=form, heading=pair.heading, mirrored=pair.angle < 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Fingers(Form):
    """`other` runs from the corner along x, `one` along y; fingers and slots in turn from the front edge."""

    one: Bar
    other: Bar
    count: int
    play: float
    one_begins: bool

    @property
    def between(self) -> float:
        """Two walls that face each other: half the play, and the film on both."""
        return self.play / 2 + self.one.film + self.other.film

    @property
    def half(self) -> float:
        return (self.one.front - self.one.back) / self.count

    def _slots(self, *, begins: bool) -> float:
        """Widths of all slots in a board together."""
        slots = range(1 if begins else 0, self.count, 2)
        edges = sum(number == 0 for number in slots) + sum(number == self.count - 1 for number in slots)
        return len(slots) * (self.half + self.between) - edges * self.between / 2

    def missing(self) -> float:
        """Between all walls, and film under the ends of the fingers."""
        beside = (self.count - 1) * self.between * self.one.thickness * self.other.thickness
        film = self.one.film + self.other.film
        under = self._slots(begins=self.one_begins) * self.one.thickness * film
        return beside + under + self._slots(begins=not self.one_begins) * self.other.thickness * film

    def facings(self) -> list[Facing]:
        film = self.one.film + self.other.film
        walls = [Facing("wall", Z, self.between)] * (self.count - 1)
        return [*walls, Facing("bottom", 0.0, film), Facing("bottom", 90.0, film)]
