"""Options of long screws into the wall."""

from typing import Annotated, Literal

from pydantic import Field

from ...job.options import NOT_BELOW_0, WORKED, Options, Quantity


class LongScrewOptions(Options):
    """Options of long screws into the wall."""

    screw: str = Field(
        default="wood 6x120",
        description='As sold: "wood 6x120" (countersunk; else "wood 6x120, pan head") into studs and plugs, "M6x80" '
        '(cap head; else "M6x80, countersunk") into other anchors.',
    )
    washer: bool = Field(default=False, description="Whether a washer lies under the head.")
    hole: Literal["fine", "medium", "coarse"] = Field(default="medium", description="Hole through the grip (ISO 273).")
    hole_diameter: Annotated[Quantity | None, WORKED] = Field(
        default=None, description="Of the hole through the grip; left out: by the screw."
    )
    counterbore: Annotated[Quantity | None, WORKED] = Field(
        default=None, description="Diameter; left out: head or washer and a little more, as cutters and bits are sold."
    )
    grip: Annotated[Quantity | None, WORKED] = Field(
        default=None, description="Wood left under the head; left out: all that the screw allows."
    )
    engagement: Annotated[Quantity | None, WORKED] = Field(
        default=None, description="Of the thread beyond the lining; left out: what the anchor needs, else 6 diameters."
    )
    driver: Annotated[Quantity | None, WORKED] = Field(
        default=None, description="Length of the driver bit; left out: the next that is sold."
    )
    step: int = Field(
        default=0,
        ge=0,
        le=10_000,
        description="Of the order on the wall, from 1, at which they are driven; 0: as soon as the board is there.",
    )
    drilled: Literal["guided", "by hand"] = Field(default="guided", description="How the hole is kept straight.")
    plugged: bool = Field(default=True, description="Whether plugs close the holes after hanging.")
    lining: Annotated[Quantity | None, NOT_BELOW_0] = Field(
        default=None, description="What hides the wall's structure; the wall's own, if left out."
    )
    hollow: Annotated[Quantity | None, NOT_BELOW_0] = Field(
        default=None, description="Worst gap behind the board; the wall's own, if left out."
    )
    void: Annotated[Quantity | None, NOT_BELOW_0] = Field(
        default=None, description="What is free behind the lining; the wall's own, if left out."
    )
    into: str = Field(default="", description="What the wall is; the wall's own, if left out.")
    anchor: str = Field(
        default="",
        description="What takes the screw where it is no timber: the NAME of an [anchor.NAME], or a generic type as "
        'sold, such as "nylon plug 10x50", "hollow-wall anchor", "sleeve 8x40".',
    )
    marked: Literal["in place", "punch", "brad point", "twist bit", "pencil", "measured"] | None = Field(
        default=None,
        description="How its places are found on the wall; left out: in place where timber takes the screw, else by a "
        "twist bit turned in the board's own hole.",
    )
    pilot_first: bool = Field(default=True, description="Whether masonry is drilled thin first.")
    aimed: Literal["by eye", "guided"] = Field(
        default="by eye", description="How the hole in the wall is kept square to it."
    )
    may_turn: bool = Field(default=False, description="Whether what it holds need not hang level.")
