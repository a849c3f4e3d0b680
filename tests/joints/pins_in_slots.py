"""Pairs of boards of which one stands on pins of the other, and what plane geometry makes of them."""

from dataclasses import dataclass, replace

from hypothesis import strategies as st
from hypothesis.strategies import DrawFn

from tests.property.closed_forms import Bar, Facing, Form, Seen, bar_of, bored, polygon_area
from tests.strategies import Pair, asked_options, end_on_a_face, lengths, pair_of, perhaps

ARC_SIDES = 48  # of a whole circle, of a solid's arcs
EASY = 0.2  # play, left out
LOCK = 6.0  # diameter, left out


@st.composite
def pairs(draw: DrawFn) -> Pair:
    """One board's end at another's face, square, slid on or lowered; to be lowered it lies level within 15 degrees."""
    one, other, _ = end_on_a_face(draw)
    form = draw(st.sampled_from(["slide-on", "drop-on"]))
    options = asked_options(
        form=form,
        open=draw(st.sampled_from([None, "front"])) if form == "slide-on" else None,
        pin=draw(st.sampled_from([5.0, 6.0, 8.0])),
        pin_in=draw(lengths(4.0, 8.0)),
        stands_out=draw(lengths(8.0, 14.0)),
        inset=draw(lengths(15.0, 25.0)),
        pins=2,
        play=perhaps(draw, lengths(0.1, 0.4)),
        end_play=perhaps(draw, lengths(0.0, 1.0)) if form == "slide-on" else None,
        end_gap=draw(lengths(0.1, 1.0)),
        lock=draw(st.sampled_from([None, "pin"])) if form == "slide-on" else None,
        lock_pin=perhaps(draw, lengths(3.0, 5.0)),
    )
    past = draw(lengths(-0.9, 0.9)) + other.thickness / 2 * draw(st.sampled_from([-1.0, 0.0, 1.0]))
    pair = pair_of(draw, "pins in slots", (replace(one, before=past), other), 90.0, options, glues=False)
    if form == "drop-on":
        pair = replace(pair, heading=draw(st.sampled_from([90.0, 270.0])) + draw(lengths(-14.0, 14.0)))
    return pair


def seen(pair: Pair, front: str) -> Seen:
    """The side on which the end lies is up, so a pair on the right is mirrored."""
    form = Pins(
        one=bar_of(pair, pair.one),
        other=bar_of(pair, pair.other),
        slides=pair.options["form"] == "slide-on",
        front=pair.options.get("open") == "front",
        wide=pair.options["pin"],
        play=pair.options.get("play", EASY),
        end_play=pair.options.get("end_play", 0.0),
        inset=pair.options["inset"],
        out=pair.options["stands_out"],
        pin_in=pair.options["pin_in"],
        gap=pair.options["end_gap"] + pair.film_on(pair.other),
        lock=pair.options.get("lock_pin", LOCK) if pair.options.get("lock") == "pin" else 0.0,
    )
    return Seen(form=form, heading=pair.heading, mirrored=pair.angle < 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Pins(Form):
    """`other` lies along x below its face, `one` stands up from `gap` over it."""

    one: Bar
    other: Bar
    slides: bool
    front: bool
    wide: float
    play: float
    end_play: float
    inset: float
    out: float
    pin_in: float
    gap: float
    lock: float = 0.0

    @property
    def in_limits(self) -> bool:
        """Wood over the slots and behind the holes, and pins that stand in the board."""
        over = (self.one.thickness - self.wide - (self.play if self.slides else 0.0)) / 2
        if self.lock and (over < 4.0 or self.out - self.gap - self.lock < 3.0 or not self._lock_has_room):
            return False
        return over >= 3.0 and self.other.thickness - self.pin_in - 1.0 >= 3.0 and self.out - self.gap >= 6.0

    @property
    def _lock_has_room(self) -> bool:
        """Between the pins, 0.5 free on either side of it, and 3 from the edge of its board."""
        low, high = max(self.one.back, self.other.back), min(self.one.front, self.other.front)
        pins = low + self.inset, high - self.inset
        aside = self.wide / 2 + 0.5 + self.lock / 2
        at = pins[0] + aside if self.front else pins[1] - aside
        beside = min(at - self.one.back, self.one.front - at) - self.lock / 2
        return pins[1] - pins[0] - self.wide - self.lock >= 1.0 and beside >= 3.0

    def facings(self) -> list[Facing]:
        return [Facing("bottom", 90.0, self.gap)]

    @property
    def unseen(self) -> list[tuple[str, float]]:
        return [("wall", self.play / 2)]

    def missing(self) -> float:
        """Slots and holes."""
        slot = self.wide + self.play
        round_end = polygon_area(slot, ARC_SIDES) / 2
        if self.slides:
            low, high = max(self.one.back, self.other.back), min(self.one.front, self.other.front)
            far = self.one.front - (low + self.inset) if self.front else high - self.inset - self.one.back
            section = slot * (far + self.wide / 2 + self.end_play - slot / 2) + round_end
        else:
            section = 2 * (slot * (self.one.thickness / 2 + self.wide / 2 - slot / 2) + round_end)
        lock = bored(((self.lock, self.one.thickness - 3.0 - slot),)) if self.lock else 0.0  # but for the groove
        return section * (self.out + 1.0) + 2 * bored(((self.wide, self.pin_in + 1.0),)) + lock
