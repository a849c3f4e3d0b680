"""Pairs of boards in line that are spliced, and what plane geometry makes of them."""

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from hypothesis import strategies as st
from hypothesis.strategies import DrawFn

from tests.property.closed_forms import Bar, Facing, Form, Polygon, Seen, area, bar_of, bored, clipped, union
from tests.strategies import Pair, asked_options, at_a_corner, lengths, pair_of, perhaps

FAR = 200.0  # along either board, to where nothing is cut
PLUMB = math.sin(math.radians(1.0))  # within a degree of plumb the left face is the upper one


@st.composite
def pairs(draw: DrawFn) -> Pair:
    """One board from the place on, the other up to it; keys have a test of their own."""
    one, other = at_a_corner(draw)
    one, other = replace(one, before=0.0), replace(other, before=other.after, after=0.0)
    form = draw(st.sampled_from(["half-lapped", "bevelled", "dowels", "tongue"]))
    options = {"form": form, "glued": draw(st.sampled_from([True, True, False]))}
    thin, thick = sorted((one.thickness, other.thickness))
    if form in ("half-lapped", "bevelled"):
        one, other = (replace(bar, back=one.back, depth=one.depth) for bar in (one, other))
        options |= {"over": draw(st.sampled_from([one.name, other.name]))}
    if form == "half-lapped":
        options |= {"lap": draw(lengths(2 * thin, max(2 * thin, 200.0)))}
    elif form == "bevelled":
        options |= {"slope": draw(st.sampled_from([n for n in (3.0, 5.5, 8.0, 12.0) if n * thick <= 200.0]))}
    elif form == "dowels":
        options |= {"dowel": draw(st.sampled_from([6.0, 8.0])), "dowel_in": draw(lengths(10.0, 30.0)), "dowels": 2}
    else:
        stop, play = perhaps(draw, lengths(5.0, 15.0)), perhaps(draw, lengths(0.05, 0.3))
        options |= asked_options(tongue_stop=stop, tongue_play=play)
    return replace(pair_of(draw, "splice", (one, other), 0.0, options), angle=0.0)


def seen(pair: Pair, front: str) -> Seen:
    """`other` lies along x up to the place, `one` from there on."""
    heading = math.radians(pair.heading)
    x, y = -math.sin(heading), math.cos(heading)
    upwards = y > PLUMB or (abs(y) <= PLUMB and x < 0.0)
    options = pair.options
    form = Splice(
        one=bar_of(pair, pair.one),
        other=bar_of(pair, pair.other),
        form=options["form"],
        one_up=(options.get("over") == pair.one.name) is upwards,
        lap=options.get("lap", 0.0),
        slope=options.get("slope", 0.0),
        dowel=(options.get("dowel", 0.0), options.get("dowel_in", 0.0) + 1.0),
        stop=options.get("tongue_stop", 12.0),
        play=options.get("tongue_play", 0.1),
    )
    return Seen(form=form, heading=pair.heading)


@dataclass(frozen=True, slots=True, kw_only=True)
class Splice(Form):
    """`other` from the left up to x = 0, `one` from there to the right; `one_up`: it lies over the other in y.

    Attributes:
        dowel: diameter, and how deep its hole is in either board; there are two.
        stop, play: of a tongue's groove from the edges, and of the tongue in it.
    """

    one: Bar
    other: Bar
    form: str
    one_up: bool
    lap: float
    slope: float
    dowel: tuple[float, float]
    stop: float
    play: float

    @property
    def in_limits(self) -> bool:
        """Holes whole in the wood; 3 of it beside a tongue."""
        if self.form == "dowels":
            return (self._thin - self.dowel[0]) / 2 >= 3.0
        return True

    @property
    def _thin(self) -> float:
        return min(self.one.thickness, self.other.thickness)

    @property
    def _deep(self) -> float:
        return min(self.one.front, self.other.front) - max(self.one.back, self.other.back)

    @property
    def _normal(self) -> float:
        """Of a scarf, the direction from `other` into `one`."""
        return math.degrees(math.atan2(self.slope if self.one_up else -self.slope, 1.0))

    def missing(self) -> float:
        """A thicker board's half beside the thinner one, film between cheeks, grooves, holes."""
        if self.form == "half-lapped":
            thick = max(self.one.thickness, self.other.thickness)
            mean = (self.one.thickness + self.other.thickness) / 2
            return self.lap * (thick - mean + self.one.film + self.other.film) * self._deep
        if self.form == "bevelled":
            return self._scarf() * self._deep
        if self.form == "dowels":
            return 2 * 2 * bored((self.dowel,))
        tongue = max(0.5, math.floor(self._thin / 3 * 2 + 1e-9) / 2)
        deep = math.floor(1.5 * self._thin + 1e-9) / 2 + 0.5
        wide = 2 * (tongue + self.play) + 2 * (self.one.film + self.other.film)
        return wide * deep * (self._deep - 2 * self.stop)

    def _scarf(self) -> float:
        """Area of what the blanks fill, from their long points, and the parts do not."""
        blanks = [self._blank(self.one, 1.0), self._blank(self.other, -1.0)]
        one, other = clipped(blanks[0], (0.0, 0.0), self._normal + 180.0), clipped(blanks[1], (0.0, 0.0), self._normal)
        return union(*blanks) - area(one) - area(other)

    def _blank(self, bar: Bar, way: float) -> Polygon:
        long, half = -way * self.slope * bar.thickness / 2, bar.thickness / 2
        return [(long, -half), (way * FAR, -half), (way * FAR, half), (long, half)]

    def facings(self) -> list[Facing]:
        if self.form == "half-lapped":
            cheek = Facing("cheek", 90.0, self.one.film + self.other.film)
            return [cheek, Facing("end", 0.0, 0.0), Facing("end", 0.0, 0.0)]
        if self.form == "bevelled":
            return [Facing("cheek", self._normal % 180.0, 0.0)]
        return [Facing("end", 0.0, 0.0)]

    @property
    def unseen(self) -> list[tuple[str, float]]:
        """Beside a tongue."""
        return [("wall", self.play / 2 + bar.film) for bar in (self.one, self.other) if self.form == "tongue"]


def left_out(options: Mapping[str, Any]) -> set[str]:
    """What other forms have."""
    of = {
        "half-lapped": {"lap"},
        "keys": {"plunge"},
        "dowels": {"dowel", "dowel_in"},
        "tongue": {"tongue", "tongue_width"},
    }
    return {name for form, names in of.items() if form != options["form"] for name in names}
