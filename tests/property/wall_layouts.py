"""Boards on the wall, drawn at random: one notched over another that lies flat, one screwed through its width.

A flat board 40 to 120 wide and 12 to 30 thick, at the wall or at the front of the board that is notched over it,
at any heading; that one 12 to 40 thick and 180 to 400 deep, at 30 to 150 to it; both lines drawn from either
end, or along a face. A screwed board lies at any heading, drawn either way, up to 12 off the wall.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

from hypothesis import strategies as st
from hypothesis.strategies import DrawFn

from dryfit.job.model import BoardSpec, Finish, Fixing, Job, JointSpec, LineIs, Wall
from tests.strategies import (
    angles,
    asked_options,
    drawn_the_other_way,
    headings,
    in_file_order,
    lengths,
    perhaps,
    places,
    thicknesses,
    timber,
)


@dataclass(frozen=True, kw_only=True)
class Laid:
    """A board that stands across the wall, notched over one that lies flat on it.

    Attributes:
        heading: of the flat board; `angle` from it to the other's.
        wide, thin: of the flat board; `behind_it` where it begins, out of the wall.
        at_the_wall: which edge of the other board it lies at.
    """

    place: tuple[float, float]
    heading: float
    angle: float
    wide: float
    thin: float
    behind_it: float
    thickness: float
    back: float
    depth: float
    at_the_wall: bool
    options: Mapping[str, object]
    line_is: LineIs
    reversed: tuple[bool, bool]

    @property
    def play(self) -> float:
        return float(self.options.get("clearance", 0.15))  # type: ignore[arg-type]

    @property
    def behind(self) -> float:
        return float(self.options.get("behind", 1.0))  # type: ignore[arg-type]

    def job(self) -> Job:
        rail = self._spec("rail", self.heading, 0.0, depth=self.wide, back=self.behind_it, lies="flat")
        off = {"centre": 0.0, "left face": 1.0, "right face": -1.0}[self.line_is] * self.thickness / 2
        post = self._spec("post", self.heading + self.angle, off, depth=self.depth, back=self.back)
        post = replace(post, line_is=self.line_is)
        rail, post = (
            drawn_the_other_way(spec) if back else spec for spec, back in zip((rail, post), self.reversed, strict=True)
        )
        return Job(
            file="laid.toml",
            text="",
            state="00000000",
            title="laid",
            timbers={"rail": timber("rail", self.thin), "post": timber("post", self.thickness)},
            boards=in_file_order((rail, post)),
            joint_specs=(JointSpec(between=("rail", "post"), options=self.options),),
            wall=Wall(hung=True),
        )

    def _spec(self, name: str, heading: float, off: float, **more: object) -> BoardSpec:
        ux, uy = math.cos(math.radians(heading)), math.sin(math.radians(heading))
        x, y = self.place[0] - uy * off, self.place[1] + ux * off
        line = ((x - 450 * ux, y - 450 * uy), (x + 450 * ux, y + 450 * uy))
        return BoardSpec(name=name, timber=name, line=line, **more)  # type: ignore[arg-type]


@st.composite
def laid(draw: DrawFn) -> Laid:
    """A notch."""
    thin, depth, back = draw(lengths(12, 30)), draw(lengths(180, 400)), draw(lengths(0, 60))
    at_the_wall = draw(st.booleans())
    step = draw(st.sampled_from([0.0, 0.0, 0.6, -0.9, -5.0]))  # past the edge, or a little within it
    behind_it = back + step if at_the_wall else back + depth - thin - step
    return Laid(
        place=draw(places()),
        heading=draw(headings()),
        angle=draw(st.sampled_from([1.0, -1.0])) * draw(angles()),
        wide=draw(lengths(40, 120)),
        thin=thin,
        behind_it=round(behind_it, 6),
        thickness=draw(thicknesses()),
        back=back,
        depth=depth,
        at_the_wall=at_the_wall,
        options=asked_options(clearance=perhaps(draw, lengths(0.1, 0.6)), behind=perhaps(draw, lengths(0.3, 2.5))),
        line_is=draw(st.sampled_from(["centre", "centre", "left face", "right face"])),
        reversed=(draw(st.booleans()), draw(st.booleans())),
    )


@dataclass(frozen=True, kw_only=True)
class Screwed:
    """A board held to the wall by long screws at places counted from its line's start, as first drawn."""

    start: tuple[float, float]
    heading: float
    size: float
    thickness: float
    depth: float
    back: float
    at: tuple[float, ...]
    options: Mapping[str, object]
    wall: Wall
    sanded: float
    drawn_back: bool

    def job(self) -> Job:
        ux, uy = math.cos(math.radians(self.heading)), math.sin(math.radians(self.heading))
        x, y = self.start
        end = (x + self.size * ux, y + self.size * uy)
        spec = BoardSpec(name="board", timber="board", line=(self.start, end), depth=self.depth, back=self.back)
        at = tuple(self.size - place for place in self.at) if self.drawn_back else self.at
        return Job(
            file="screwed.toml",
            text="",
            state="00000000",
            title="screwed",
            timbers={"board": timber("board", self.thickness)},
            boards=in_file_order((drawn_the_other_way(spec) if self.drawn_back else spec,)),
            fixings=(Fixing(name="screws", board="board", kind="long screw", at=at, options=self.options),),
            finish=Finish(sanded=self.sanded),
            wall=self.wall,
        )

    def place(self, at: float) -> tuple[float, float]:
        """Where a screw goes into the wall."""
        turn = math.radians(self.heading)
        return self.start[0] + at * math.cos(turn), self.start[1] + at * math.sin(turn)


SCREWS = ("wood 5x120", "wood 6x120", "wood 6x140", "wood 8x160", "M6x80", "M6x140", "M8x120")


@st.composite
def screwed(draw: DrawFn) -> Screwed:
    """Two to four screws, 60 apart at least."""
    screw = draw(st.sampled_from(SCREWS))
    wood = screw.startswith("wood")
    size = draw(lengths(600, 1500))
    steps = draw(st.lists(lengths(60, 150), min_size=2, max_size=4))
    options = asked_options(
        screw=screw,
        hole=draw(st.sampled_from([None, "fine", "coarse"])),
        plugged=draw(st.sampled_from([None, False])),
        washer=draw(st.sampled_from([None, True])),
        grip=perhaps(draw, lengths(35, 60), 3),
        engagement=perhaps(draw, lengths(15, 40), 3),
    )
    return Screwed(
        start=draw(places()),
        heading=draw(headings()),
        size=size,
        thickness=draw(lengths(24, 40)),
        depth=draw(lengths(120, 400)),
        back=draw(st.sampled_from([0.0, 0.0, 12.0])),
        at=tuple(round(sum(steps[: number + 1]), 6) for number in range(len(steps))),
        options=options,
        wall=Wall(
            kind="timber studs" if wood else "brick",
            lining=draw(st.sampled_from([0.0, 12.5])),
            hollow=draw(st.sampled_from([0.0, 3.0, 5.0])),
            hung=True,
        ),
        sanded=draw(st.sampled_from([0.0, 0.1])),
        drawn_back=draw(st.booleans()),
    )
