"""What a maker may say of a mitre."""

from typing import Annotated, Literal

from pydantic import Field

from ...job.options import NOT_BELOW_0, WORKED, BoardName, Options, Quantity


class MitreOptions(Options):
    """Options of a mitre."""

    strengthen: Literal["none", "keys", "tongue", "dowels", "biscuits", "screws"] = Field(
        default="none", description="What holds it besides the glue."
    )
    keys: int = Field(default=0, ge=0, le=40, description="How many keys; 0 for one in 100 of depth, two at least.")
    key_thickness: Annotated[Quantity, WORKED] = Field(default=4.0, description="Thickness of a key and its pocket.")
    cutter: Annotated[Quantity, WORKED] = Field(
        default=100.0, description="Diameter of the circular cutter for the pockets."
    )
    plunge: Annotated[Quantity, WORKED] = Field(
        default=12.0, description="How deep the cutter goes, from the outside arris along the bisector."
    )
    tongue: Annotated[Quantity | None, WORKED] = Field(
        default=None, description="Thickness of a loose tongue; left out: a third of the board."
    )
    tongue_width: Annotated[Quantity | None, WORKED] = Field(
        default=None, description="Width across both grooves; left out: two thirds of the board."
    )
    tongue_stop: Annotated[Quantity, NOT_BELOW_0] = Field(
        default=12.0, description="From the edges to the ends of a tongue's groove."
    )
    tongue_play: Annotated[Quantity, NOT_BELOW_0] = Field(
        default=0.1, description="Play of a tongue in its grooves, total of both sides."
    )
    dowels: int = Field(default=0, ge=0, le=60, description="How many dowels; 0 for one in 100 of depth, two at least.")
    dowel: Annotated[Quantity | None, WORKED] = Field(
        default=None,
        description="Diameter of a dowel; left out: the thickest of which some length leaves 4 of wood behind its "
        "hole, up to the next as sold over a third of the thinner board.",
    )
    dowel_in: Annotated[Quantity | None, WORKED] = Field(
        default=None,
        description="Of a dowel's length, in either end; left out: half the longest as sold that leaves 4 of wood "
        "behind its hole.",
    )
    biscuit: Literal["", "#0", "#10", "#20"] = Field(
        default="", description="Which biscuits; left out: the largest for the thinner board that leaves 4 of wood."
    )
    biscuits: int = Field(
        default=0, ge=0, le=60, description="How many biscuits; 0 for one in 100 of depth, two where there is room."
    )
    screw: str = Field(default="wood 4x50", description="Screws through one board into the other's end, plugged.")
    screws: int = Field(default=0, ge=0, le=60, description="How many screws; 0 for one in 100 of depth, two at least.")
    through: BoardName = Field(
        default="", description="Of screws, the board that they go through; left out: the level one."
    )
    screw_in: Annotated[Quantity | None, WORKED] = Field(
        default=None,
        description="From the outside face of the board that they go into to the screws' axes; left out: midway "
        "between the nearest place at which 3 of wood stay beside the plug and the farthest for the thread.",
    )
    counterbore: Annotated[Quantity | None, WORKED] = Field(
        default=None, description="Depth for a screw's head and its plug; left out: the head and 6 of plug."
    )
    glued: bool = Field(default=True, description="Whether the corner is glued.")
