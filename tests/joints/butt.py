"""Pairs of boards of which one ends flat on the other's face, and what plane geometry makes of them."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from hypothesis import strategies as st
from hypothesis.strategies import DrawFn

from tests.joints import housing
from tests.property.closed_forms import Facing, Polygon, Seen, bar_of, bored, clipped
from tests.property.fastenings import holes, places
from tests.strategies import Pair


@st.composite
def pairs(draw: DrawFn) -> Pair:
    """One board's end flat on another's face, with glue alone, dowels or plugged screws."""
    pair = draw(housing.pairs())
    options = {"fasten": draw(st.sampled_from(["none", "dowels", "screws"])), "screw": "wood 5x80"}
    return replace(pair, kind="butt", options=options | {"count": draw(st.sampled_from([0, 2, 3]))})


def seen(pair: Pair, front: str) -> Seen:
    """The side on which the end lies is up, so a pair on the right is mirrored."""
    one, other = bar_of(pair, pair.one), bar_of(pair, pair.other)
    steps = holes(pair.options["fasten"], other.thickness, one.thickness, abs(pair.angle))
    common = max(one.back, other.back), min(one.front, other.front)
    count = places(common, pair.options["count"]) if steps else 0
    form = Butt(one=one, other=other, angle=abs(pair.angle), clearance=0.0, steps=steps, count=count)
    return Seen(form=form, heading=pair.heading, mirrored=pair.angle < 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Butt(housing.Housing):
    """An end flat on a face: a housing of no depth.

    Attributes:
        steps: of all holes of one dowel or screw, (diameter, how deep); each lies in the wood whole.
        count: of dowels or screws.
    """

    depth: float | None = 0.0
    form: str = "floor parallel to face"
    steps: tuple[tuple[float, float], ...] = ()
    count: int = 0

    def missing(self) -> float:
        """Besides what the end leaves, its holes."""
        return housing.Housing.missing(self) + self.count * bored(self.steps)

    @property
    def gap(self) -> float:
        return 0.0

    @property
    def in_limits(self) -> bool:
        return True

    @property
    def enters(self) -> tuple[float, float]:
        """The whole end is cut to the face, where it stands proud of the other board too."""
        return self.one.back, self.one.front

    def housing(self) -> Polygon:
        return []

    def end(self, z: float) -> list[Polygon]:
        return [clipped(self.blank(), (0.0, 0.0), -90.0)] if self.one.back < z < self.one.front else []

    def facings(self) -> list[Facing]:
        return [Facing("shoulder", 90.0, 0.0)]


def left_out(options: Mapping[str, Any]) -> set[str]:
    """Sizes of dowels where none are; two ends in line have no face."""
    return {"in_face"} if options["fasten"] == "dowels" else {"dowel", "in_face", "in_end"}
