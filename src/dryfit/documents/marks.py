"""The joint marks of the live drawing: the joint's own section drawn small, its front edge at the bottom.

On a grid of 16; lines are drawn 1.5 wide with square ends, heavy ones 3.2. A joint is marked by the trade's
name of its kind, with "stopped" or "keyed" before it where there is a mark of that name.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from ..piece.model import Joint

_HOUSING = "M1 4.5h4v6h6v-6h4"


@dataclass(frozen=True, slots=True, kw_only=True)
class Glyph:
    """Paths drawn, filled and drawn heavy; radii of rings and discs about the middle."""

    lines: str = ""
    solid: str = ""
    heavy: str = ""
    rings: tuple[float, ...] = ()
    discs: tuple[float, ...] = ()


MARKS: Mapping[str, Glyph] = MappingProxyType({
    "cross halving": Glyph(lines="M2.75 2.5h10.5v4.3H2.75z", solid="M2.75 9.2h10.5v4.3H2.75z"),
    "housing": Glyph(lines=_HOUSING),
    "stopped housing": Glyph(lines=_HOUSING, heavy="M5 10h6"),
    "sliding dovetail": Glyph(lines="M1 4.5h5L4 11.5h8L10 4.5h5"),
    "mitre": Glyph(lines="M3 13L13 3"),
    "keyed mitre": Glyph(lines="M3 13L13 3M5.2 7.6l3.2 3.2M7.6 5.2l3.2 3.2"),
    "butt": Glyph(lines="M1 5h14M5.5 5v8M10.5 5v8"),
    "rebate": Glyph(lines="M1 4.5h8v6h6"),
    "notch": Glyph(lines="M1 3.5h9v6h5"),
    "finger joint": Glyph(lines="M1 4.5h3v6h4v-6h4v6h3"),
    "splice": Glyph(lines="M1 4.5h4.5l5 7H15"),
    "dowel": Glyph(discs=(3.0,)),
    "pins in slots": Glyph(rings=(4.0,)),
    "long screw": Glyph(lines="M4.6 4.6l6.8 6.8M11.4 4.6l-6.8 6.8", rings=(5.2,)),
})  # fmt: skip
UNKNOWN = Glyph(discs=(2.0,))  # for a kind that has no mark yet


def mark_of(joint: Joint) -> str:
    """The word of a joint's mark."""
    stopped = any(cut.figures.stop for cut in joint.cuts)
    keyed = any(value == "keys" for _, value in joint.options)
    words = (f"stopped {joint.kind}" if stopped else "", f"keyed {joint.kind}" if keyed else "")
    return next((word for word in words if word in MARKS), joint.kind)
