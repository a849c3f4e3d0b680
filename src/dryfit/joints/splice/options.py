"""What a maker may say of a splice."""

from typing import Annotated, Literal

from pydantic import Field

from ...job.options import NOT_BELOW_0, WORKED, BoardName, Options, Quantity


class SpliceOptions(Options):
    """Options of a splice."""

    form: Literal["half-lapped", "bevelled", "keys", "dowels", "tongue"] = Field(
        default="half-lapped", description="How the two ends are held: a lap, a scarf, or what is let into square ends."
    )
    over: BoardName = Field(
        default="",
        description="Of a lap or a scarf, the board that lies on top at the joint, of plumb boards on the left; left "
        "out: settled with the order.",
    )
    lap: Annotated[Quantity | None, WORKED] = Field(
        default=None, description="Length of a half lap; left out: six times the thinner board, in whole 10."
    )
    slope: float = Field(default=8.0, ge=3.0, le=20.0, description="Of a scarf: 1 in so many.")
    keys: int = Field(default=0, ge=0, le=40, description="How many keys; 0 for one in 100 of depth, two at least.")
    key_thickness: Annotated[Quantity, WORKED] = Field(default=4.0, description="Thickness of a key and its pocket.")
    key_face: Literal["lower", "upper"] = Field(
        default="lower", description="The face that keys are let into; of plumb boards the right one is the lower."
    )
    cutter: Annotated[Quantity, WORKED] = Field(
        default=100.0, description="Diameter of the circular cutter for the pockets."
    )
    plunge: Annotated[Quantity | None, WORKED] = Field(
        default=None,
        description="How deep the cutter goes into the face; left out: two thirds of the board, a whole 1.",
    )
    dowels: int = Field(default=0, ge=0, le=60, description="How many dowels; 0 for one in 100 of depth, two at least.")
    dowel: Annotated[Quantity | None, WORKED] = Field(
        default=None, description="Diameter of a dowel; left out: the next size sold over a third of the thinner board."
    )
    dowel_in: Annotated[Quantity | None, WORKED] = Field(
        default=None,
        description="Of a dowel's length, in either end; left out: three times the diameter, as near as lengths as "
        "sold come.",
    )
    tongue: Annotated[Quantity | None, WORKED] = Field(
        default=None, description="Thickness of a loose tongue; left out: a third of the thinner board."
    )
    tongue_width: Annotated[Quantity | None, WORKED] = Field(
        default=None, description="Width across both grooves; left out: one and a half times the thinner board."
    )
    tongue_stop: Annotated[Quantity, NOT_BELOW_0] = Field(
        default=12.0, description="From the edges to the ends of a tongue's groove."
    )
    tongue_play: Annotated[Quantity, NOT_BELOW_0] = Field(
        default=0.1, description="Play of a tongue in its grooves, total of both sides."
    )
    glued: bool = Field(default=True, description="Whether it is glued.")
