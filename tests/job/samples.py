"""Joint kinds and a job that the tests of this folder share; the kinds are the tests' own, with two options each."""

import re
from typing import Annotated, Literal

from pydantic import BaseModel, Field

from dryfit.job.model import Job
from dryfit.job.options import BoardName, Options, Quantity, Within
from dryfit.job.reading import read_text


class HousingOptions(Options):
    """Options of a housing."""

    depth: Quantity = Field(
        default="t_b / 3",  # type: ignore[assignment]  # arithmetic until it is worked out
        description="How deep the end goes in.",
    )
    stop: Annotated[Quantity, Within(least=0)] = Field(default=12.0, description="From the front edge.")


class CrossHalvingOptions(Options):
    """Options of a cross halving."""

    ratio: float = Field(default=0.5, gt=0, lt=1, description="Share of the board slotted from the front.")
    end_clearance: Annotated[Quantity, Within(least=0)] = Field(default=1.0, description="Between the seats.")


class MitreOptions(Options):
    """Options of a mitre."""

    strengthen: Literal["none", "keys", "tongue"] = Field(default="none", description="What is let in.")


class ButtOptions(Options):
    """Options of a butt joint."""

    through: BoardName = Field(default="", description="The board that runs through.")


class LongScrewOptions(Options):
    """Options of a long screw."""

    screw: str = Field(default="", description="As sold.")


KINDS: dict[str, type[BaseModel]] = {
    "housing": HousingOptions,
    "cross halving": CrossHalvingOptions,
    "mitre": MitreOptions,
    "butt": ButtOptions,
    "long screw": LongScrewOptions,
}
NAMED = ("splice", "sliding dovetail")

WALL = """\
dryfit = 1

[job]
title  = "Listening wall"
client = "demo"
date   = 2026-05-04
units  = "mm"

[measures]
width  = 2600
height = 1900
depth  = 330
bay    = "width / 4"   # four of them

[timber.oak24]
species   = "oak, white"
form      = "edge-glued panel"
thickness = 24
measured  = 23.8

[joints]
crossing  = "cross halving"
clearance = 0.15

[joints.housing]
depth = "t_b / 3"

[finish]
system = "varnish, polyurethane"
coats  = 2
before_assembly = ["long shelf", "raking 1"]

[[board]]
name   = "long shelf"
timber = "oak24"
line   = [[0, 600], ["width", 600]]  # x along the wall, y up
depth  = "depth"
scribe = { end = 15 }

[[board]]
name   = "raking {i}"
count  = 2
timber = "oak24"
line   = [["i * bay", 0], ["i * bay + height * tan(9)", "height"]]
depth  = "depth"
ends   = "level"
thickness_at = [[1200, 24.1], [0, 23.8]]

# under the long shelf
[[board]]
name   = "hanging rail"
timber = "oak24"
lies   = "flat"
line   = [[1500, "600 - 12 - 45"], [2400, "600 - 12 - 45"]]
width  = 90

[[frame]]
name   = "box"
timber = "oak24"
points = [[300, 900], [1200, 900], [1200, 1400], [300, 1400]]
closed = true
depth  = "depth - 30"

[[joint]]
between = ["long shelf", "raking 1"]
kind    = "cross halving"
front   = "long shelf"

[[unit]]
name   = "glued box"
boards = ["box"]

[wall]
kind  = "plasterboard on timber studs"
studs = [200, 600, 1000]

[[fixing]]
name  = "shelf screws"
board = "long shelf"
kind  = "long screw"
at    = [200, "bay + 350"]
screw = "wood 5x120"

[[load]]
board = "long shelf"
kind  = "records"
"""


def read(text: str, file: str = "wall.toml", **more: object) -> Job:
    """Read a text with the kinds above."""
    return read_text(text, file, kinds=KINDS, named=NAMED, **more)  # type: ignore[arg-type]


def small(*tables: str, head: str = "") -> str:
    """A job of one timber, with what is given behind it."""
    return "\n".join(["[timber.oak]", 'species = "oak"', "thickness = 24", head, *tables])


def swapped(text: str, old: str, new: str) -> str:
    """The text with one piece replaced, which must stand there just once."""
    assert len(re.findall(re.escape(old), text)) == 1, old
    return text.replace(old, new)
