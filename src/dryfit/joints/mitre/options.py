"""What a maker may say of a mitre."""

from typing import Annotated, Literal

from pydantic import Field

from ...job.options import NOT_BELOW_0, WORKED, Options, Quantity


class MitreOptions(Options):
    """Options of a mitre."""

    strengthen: Literal["none", "keys", "tongue"] = Field(default="none", description="What holds it besides the glue.")
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
    glued: bool = Field(default=True, description="Whether the corner is glued.")
