"""What every form of a splice says of itself, and how two boards in line lie to each other.

A form is chosen by the option of that name. Lengths in mm.
"""

import math
from abc import ABC, abstractmethod
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import ClassVar

from ...findings import Finding, declare
from ...geometry.frames import Vec
from ...piece.carries import opposite
from ...piece.facts import GlueZone, Press, Size
from ...piece.holes import Span
from ...piece.model import (
    FAR_END,
    Board,
    Cut,
    Gap,
    Joint,
    Judgement,
    Mating,
    Meeting,
    Motion,
    Side,
    Ware,
)
from ...piece.operations import Operation
from ...piece.setout import PLUMB
from ...sentences import Length, Words, say
from .options import SpliceOptions

THIN = declare(
    "splice-near-face",
    "What is let into two boards in line leaves too little wood beside it.",
    uncured="a thinner key or tongue, or another form of splice, is a choice of design",
)
IN_LINE = 0.01  # further out of one line two faces of a lap would stand apart, or press each other (ours)


@dataclass(frozen=True, slots=True)
class EndToEnd:
    """Two boards end to end.

    Attributes:
        off: from a into b, along the line.
        up: square to it in the elevation, to the upper face; of plumb boards to the left one.
        turned: whether b's own x runs against a's.
    """

    meeting: Meeting
    off: Vec
    up: Vec
    turned: bool

    @classmethod
    def of(cls, meeting: Meeting) -> "EndToEnd":
        """As they lie; the meeting is framed along side a."""
        x, y, _ = meeting.frame.x
        off: Vec = (x, y, 0.0) if meeting.a.end == FAR_END else (-x + 0.0, -y + 0.0, 0.0)
        up: Vec = (-y + 0.0, x, 0.0)
        if up[1] < -PLUMB or (abs(up[1]) <= PLUMB and up[0] > 0.0):
            up = opposite(up)
        return cls(meeting, off, up, abs(meeting.b.turn) > 90.0)

    @property
    def pairs(self) -> tuple[tuple[Side, Side], tuple[Side, Side]]:
        """Each side with the other."""
        a, b = self.meeting.a, self.meeting.b
        return (a, b), (b, a)

    @property
    def thin(self) -> float:
        """Of the thinner board."""
        return min(self.meeting.a.thickness, self.meeting.b.thickness)

    @property
    def common(self) -> Span:
        """From and to out of the wall, of what both have."""
        return self.meeting.overlap

    @property
    def deep(self) -> float:
        """Of what both have, out of the wall."""
        low, high = self.common
        return high - low

    def upper(self, side: Side) -> int:
        """Which of a board's own faces (+1 or -1 of c) lies up."""
        x, y, _ = self.meeting.frame.x
        own = 1 if -y * self.up[0] + x * self.up[1] > 0.0 else -1
        return -own if self.turned and side.body == self.meeting.b.body else own

    def apart(self, body: str) -> Vec:
        """The way in which a body leaves the other along the line."""
        return self.off if body == self.meeting.b.body else opposite(self.off)

    @property
    def step(self) -> float:
        """How far faces that should be one stand apart."""
        return abs(self.meeting.a.thickness - self.meeting.b.thickness) / 2 + self.meeting.askew

    @property
    def shorter(self) -> float:
        """The lesser of both boards' lengths, as drawn."""
        return min(side.before + side.after for side in (self.meeting.a, self.meeting.b))


def out_of_end(side: Side) -> float:
    """A board's own way out of its end, along x."""
    return 1.0 if side.end == FAR_END else -1.0


class SpliceForm(ABC):
    """What the forms have in common: by itself two ends that touch, which part along the line or aside.

    Attributes:
        word: what the joint's title has behind "with".
        mark: which glyph is its own.
        lies: whether one board lies over the other, so that there are two makings of it.
        long_grain: whether glue on side grain holds it, so that it bends as one board.
        pins: whether it keeps the two boards from slipping past each other before the glue has set.
        afterwards: whether what holds it goes in after the ends are glued.
        note: what must not be forgotten.
    """

    word: ClassVar[Words] = ""
    mark: ClassVar[str] = "square"
    lies: ClassVar[bool] = False
    long_grain: ClassVar[bool] = False
    pins: ClassVar[bool] = False
    afterwards: ClassVar[bool] = False
    note: ClassVar[Words] = ""

    def no_room(self, row: EndToEnd, options: SpliceOptions) -> Judgement | None:
        """Why it cannot be had; None where it can."""
        return None

    def worked(self, row: EndToEnd, options: SpliceOptions) -> SpliceOptions:
        """The options with what is left out as it is taken here."""
        return options

    def motion(self, row: EndToEnd, options: SpliceOptions, over: str) -> tuple[Motion, ...]:
        """The ways in which side b leaves: along the line, or aside along the faces that touch."""
        body = row.meeting.b.body
        aside = (Motion(body=body, direction=(0.0, 0.0, way), free=0.0, within=(row.off,)) for way in (1.0, -1.0))
        return (Motion(body=body, direction=row.off, free=0.0), *aside)

    @abstractmethod
    def cuts(self, row: EndToEnd, options: SpliceOptions, over: str) -> list[Cut]:
        """What is taken from both boards."""

    @abstractmethod
    def gaps(self, row: EndToEnd, options: SpliceOptions) -> tuple[Gap, ...]:
        """Between the boards, and what lies in them."""

    def met_mm2(self, row: EndToEnd, options: SpliceOptions) -> float:
        """Of the faces that touch."""
        return row.thin * row.deep

    @abstractmethod
    def glue(self, row: EndToEnd, joint: Joint[SpliceOptions]) -> tuple[GlueZone, ...]:
        """Faces that are glued."""

    def pressed(self, row: EndToEnd, joint: Joint[SpliceOptions]) -> Press | None:
        """What presses it; None: as two ends in line are."""
        return None

    def matings(self, row: EndToEnd, options: SpliceOptions) -> tuple[Mating, ...]:
        """Walls in which something slides."""
        return ()

    def hardware(self, row: EndToEnd, joint: Joint[SpliceOptions]) -> tuple[Ware, ...]:
        """What is bought or made for it."""
        return ()

    def findings(self, row: EndToEnd, options: SpliceOptions) -> tuple[Finding, ...]:
        """What is too little about it."""
        return ()

    def figures(self, row: EndToEnd, joint: Joint[SpliceOptions]) -> tuple[Size, ...]:
        """What its sheet has beside what the cuts give."""
        return ()

    @abstractmethod
    def operations(
        self, row: EndToEnd, joint: Joint[SpliceOptions], boards: Mapping[str, Board]
    ) -> Sequence[Operation]:
        """The bench work."""


def out_of_line(row: EndToEnd, what: str) -> Judgement | None:
    """A refusal where the middles of the two boards do not run in one line."""
    found = row.meeting.askew
    if found <= IN_LINE:
        return None
    return Judgement.refused(
        say("the middles of the two boards are {} out of one line; {} wants them in one", Length(found), what),
        remedy="bring the two boards in one line, or dowel them",
        found=found,
        limit=IN_LINE,
        unit="mm",
        source="ours",
    )


def unequal(row: EndToEnd, what: str) -> Judgement | None:
    """A refusal where the faces do not lie in one plane."""
    if row.step <= IN_LINE:
        return None
    return Judgement.refused(
        say("the faces of the two boards are {} apart; {} wants them in one plane", Length(row.step), what),
        remedy="make both boards as thick and bring them in one line, or dowel them",
        found=row.step,
        limit=IN_LINE,
        unit="mm",
        source="ours",
    )


def whole_steps(size: float, step: float) -> float:
    """Rounded down to whole steps, one at least."""
    return max(step, math.floor(size / step + 1e-9) * step)
