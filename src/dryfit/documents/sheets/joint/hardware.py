"""Outlines of what is bought for a joint, along and across its axis: screws with their plug, dowels. Lengths in mm."""

from collections.abc import Sequence

from ....geometry.frames import Vec2
from ....joints.registry import KINDS
from ....piece.model import Joint
from ....trade.screws import Screw, figure


def screw_outline(screw: Screw, under_head: float) -> Sequence[Vec2]:
    """A screw whose head bears at `under_head` along the axis, its tip further on."""
    head, high = head_of(screw)
    shank, wide, tip = screw.diameter / 2, head / 2, under_head + screw.under_head
    top = under_head - high
    if screw.kind == "machine":
        return (
            (top, -wide), (under_head, -wide), (under_head, -shank), (tip, -shank), (tip, shank), (under_head, shank),
            (under_head, wide), (top, wide),
        )  # fmt: skip
    point = tip - 2.4 * screw.diameter / 2
    return (
        (top, -wide), (under_head, -wide), (under_head, -shank), (point, -shank), (tip, 0.0), (point, shank),
        (under_head, shank), (under_head, wide), (top, wide),
    )  # fmt: skip


def head_of(screw: Screw) -> Vec2:
    """Diameter and height of a screw's head."""
    head, high = figure(screw, "head"), figure(screw, "head_height")
    return (head.value if head else screw.diameter, high.value if high else screw.diameter)


def plug_outline(screw: Screw, deep: float, wide: float) -> Sequence[Vec2]:
    """A plug from the face down to the head at the bottom of a counterbore."""
    top = deep - head_of(screw)[1]
    return (0.0, -wide / 2), (top, -wide / 2), (top, wide / 2), (0.0, wide / 2)


def dowel_long(joint: Joint) -> float | None:
    """Length of a joint's dowels; None where there are none."""
    wares = KINDS[joint.kind].hardware(joint)
    return next((ware.length for ware in wares if ware.goes == "in" and ware.diameter is not None), None)


def screw_in(joint: Joint) -> Screw | None:
    """The screw that holds a joint; None where none does."""
    return next((ware.screw for ware in KINDS[joint.kind].hardware(joint) if ware.screw is not None), None)
