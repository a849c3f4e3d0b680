"""Notch: a board that stands across one lying flat on the wall is notched over it; the flat one stays whole.

The notch is cut from the wall edge (or from the front edge, where the flat board lies there), as wide as the
flat board where it is crossed and as deep as it is thick. Lengths in mm.
"""

import math
from collections.abc import Iterator, Mapping
from types import MappingProxyType
from typing import Annotated

from pydantic import Field

from ..findings import Finding, Severity, declare
from ..geometry.frames import Vec2, length, turned
from ..geometry.shapes import OVER, prism
from ..job.options import CLEARANCE, NOT_BELOW_0, Options, Quantity, filled
from ..piece.carries import left_of, sideways, spread, turned_in_elevation
from ..piece.facts import Between, CutForm, Opens
from ..piece.kinds import Glyph, JointKind, asked
from ..piece.model import (
    Board,
    Carry,
    Cut,
    Figures,
    Gap,
    Joint,
    Judgement,
    Making,
    Mating,
    Meeting,
    Motion,
    Side,
    Touch,
    films,
)
from ..piece.operations import Operation, slotted
from ..piece.plane import Lines, lean
from ..piece.sums import Sum, Term, Word, walls
from ..places import Cure, Edit, Where
from ..sentences import Fineness, Length, Name, Words, say
from .common import default_clearance, judge_angle
from .registry import register

LEAST_GAP = 0.5  # over the flat board, that none is offered under: half of what is usual (ours)

NOTCH_DEEP = declare(
    "notch-too-deep",
    "A notch over a flat board takes more than half of the board it is cut in.",
    uncured="a thinner board across, or two that end at this one, is a choice of design",
)


class NotchOptions(Options):
    """Options of a notch over a board lying flat."""

    clearance: Annotated[Quantity | None, CLEARANCE] = Field(
        default=None, description="Play along the notched board, total of both sides; left out: 0.15."
    )
    behind: Annotated[Quantity, NOT_BELOW_0] = Field(default=1.0, description="Gap over the flat board's face.")

    def play(self) -> float:
        """Clearance across the walls."""
        return default_clearance(self.clearance, glued=False)


@register
class Notch(JointKind[NotchOptions]):
    """A board notched over one that lies flat."""

    name = "notch"
    glyphs = MappingProxyType({"": Glyph(lines="M1 3.5h9v6h5")})
    codes = (NOTCH_DEEP,)
    serves = frozenset({(Touch.EDGE, Touch.FACE)})
    options = NotchOptions

    def judge(self, meeting: Meeting, options: NotchOptions) -> Judgement:
        """Possible where the flat board is crossed at one of the other's edges."""
        if meeting.form != "crossed flat":
            return Judgement(possible=False, reasons=("a notch is made over a board that lies flat",))
        a, b = meeting.a, meeting.b
        if b.back > a.back + OVER and b.front < a.front - OVER:
            return Judgement(possible=False, reasons=("the flat board lies in the middle of the other's depth",))
        return judge_angle(meeting, self.name)

    def worked(self, meeting: Meeting, options: NotchOptions) -> NotchOptions:
        """Its clearance."""
        return filled(options, clearance=options.play())

    def makings(self, meeting: Meeting, options: NotchOptions) -> tuple[Making, ...]:
        """The notched board comes off the flat one square to the wall."""
        way = 1.0 if _from_wall(meeting) else -1.0
        free = length(_deep(meeting, options))
        motion = Motion(body=meeting.a.body, direction=(0.0, 0.0, way), free=free)
        name = say("{} notched over {}", Name(meeting.a.body), Name(meeting.b.body))
        return (Making(name=name, motions=(motion,)),)

    def matings(self, meeting: Meeting, options: NotchOptions, making: Making) -> tuple[Mating, ...]:
        """The notch with the flat board in it."""
        a, b = meeting.a, meeting.b
        x, y = turned(a.turn)
        return (
            Mating(
                key=f"notch in {a.body} over {b.body}",
                cut_in=a.body,
                takes=b.body,
                normal=(-y + 0.0, x, 0.0),
                nominal=length(_wide(meeting, options)),
                play=length(options.play()),
                play_from="clearance",
            ),
        )

    def make(self, meeting: Meeting, options: NotchOptions, making: Making) -> Joint[NotchOptions]:
        """One notch; the flat board stays whole."""
        a, b = meeting.a, meeting.b
        deep = _deep(meeting, options)
        whole = a.front - a.back
        low, high = (-OVER, deep) if _from_wall(meeting) else (whole - deep, whole + OVER)
        lines = Lines.of(a, b)
        width = _wide(meeting, options)
        says = say("notch in {} over {}", Name(a.body), Name(b.body))
        cut = Cut(
            key=str(says),
            says=says,
            body=a.body,
            form=CutForm.NOTCH,
            word="notch",
            takes=b.body,
            joint=meeting.key,
            shapes=(prism(_outline(a, lines, width), low, high),),
            figures=Figures(
                width=Sum(
                    b.body,
                    (
                        Term(Word.WIDTH, meeting.wide),
                        *walls(film=films(enters=b, receives=a), clearance=options.play()),
                    ),
                ),
                on_face=length(width / lines.sine),
                depth=_depth(meeting, options),
                opens=Opens.WALL if _from_wall(meeting) else Opens.FRONT,
                between_faces=meeting.angle,
                lean=lean(lines),
            ),
            size_is="FIT TO",
        )
        return Joint(
            key=meeting.key,
            kind=self.name,
            meeting=meeting,
            options=options,
            making=making,
            cuts=(cut,),
            gaps=(
                Gap(between=Between.WALL, size=length((width - meeting.wide) / 2), count=2),
                Gap(between=Between.SEAT, size=length(options.behind)),
            ),
            findings=_too_deep(meeting, options, deep),
        )

    def carries(self, joint: Joint[NotchOptions]) -> tuple[Carry, ...]:
        """The notched board sits on the flat one's edge, and cannot rise off it; along the flat one it can slide."""
        a, b, origin = joint.meeting.a, joint.meeting.b, joint.meeting.frame.origin
        flat = turned_in_elevation(joint.meeting.frame.x, a.turn)  # such a meeting is framed along the notched board
        return (sideways(a.body, b.body, left_of(flat), spread(origin, flat, a.thickness / 2 / Lines.of(a, b).sine)),)

    def operations(self, joint: Joint[NotchOptions], boards: Mapping[str, Board]) -> tuple[Operation, ...]:
        """As a slot, which it is."""
        return tuple(slotted(cut, boards[cut.body]) for cut in joint.cuts)

    def notes(self, joint: Joint[NotchOptions]) -> tuple[Words, ...]:
        """Which goes first."""
        a, b = Name(joint.meeting.a.body), Name(joint.meeting.b.body)
        return (say("{} goes to the wall first; {} goes over it.", b, a),)


def _from_wall(meeting: Meeting) -> bool:
    return meeting.b.back <= meeting.a.back + OVER


def _deep(meeting: Meeting, options: NotchOptions) -> float:
    a, b = meeting.a, meeting.b
    return (b.front - a.back if _from_wall(meeting) else a.front - b.back) + options.behind


def _depth(meeting: Meeting, options: NotchOptions) -> Sum:
    """The flat board's thickness and the gap over it, and by how much it stands back from the edge, or proud of it."""
    a, b = meeting.a, meeting.b
    back = b.back - a.back if _from_wall(meeting) else a.front - b.front
    behind = (Term(Word.SET_BACK if back > 0.0 else Word.PROUD, back),) if back else ()
    gap = (Term(Word.GAP, options.behind),) if options.behind else ()
    return Sum(b.body, (Term(Word.THICKNESS, b.front - b.back), *behind, *gap))


def _wide(meeting: Meeting, options: NotchOptions) -> float:
    """Between the walls: the flat board with film on its edges and on the walls, where they have any, and play."""
    return meeting.wide + films(enters=meeting.b, receives=meeting.a) + options.play()


def _outline(a: Side, lines: Lines, width: float) -> tuple[Vec2, ...]:
    """Walls parallel to the flat board's edges, through the notched board's thickness."""
    c = a.thickest / 2 + OVER
    half = width / 2
    return lines.on_line(-c, -half), lines.on_line(-c, half), lines.on_line(c, half), lines.on_line(c, -half)


def _too_deep(meeting: Meeting, options: NotchOptions, deep: float) -> tuple[Finding, ...]:
    """No more than half the depth."""
    a, flat = meeting.a, Name(meeting.b.body)
    half = (a.front - a.back) / 2
    if deep <= half:
        return ()
    return (
        Finding(
            code=NOTCH_DEEP,
            severity=Severity.STOP,
            where=Where(boards=(a.body, meeting.b.body), joint=meeting.key),
            says=say(
                "the notch in {} over {} is {} deep in {}",
                Name(a.body),
                flat,
                Length(deep, Fineness.WHOLE),
                Length(a.front - a.back, Fineness.WHOLE),
            ),
            remedy=say("use a thinner {}, or let it end on either side of {}", flat, Name(a.body)),
            found=deep,
            limit=half,
            unit="mm",
            source="common practice",
            cures=tuple(_shallower(meeting, options, deep - half)),
        ),
    )


def _shallower(meeting: Meeting, options: NotchOptions, over: float) -> Iterator[Cure]:
    """Less of a gap over the flat board, while some is left; or a deeper board, where it is notched from the wall."""
    a = meeting.a
    if options.behind - over >= LEAST_GAP - 1e-6:
        yield asked("leave {} over the flat board", "behind", options.behind - over, "-")
    if _from_wall(meeting) and a.path:
        by = float(math.ceil(2.0 * over - 1e-6))
        deeper = Edit(action="shift", path=(*a.path, "depth"), value=by)
        yield Cure(label=say("{}: {} deeper", Name(a.body), Length(by, Fineness.WHOLE)), edits=(deeper,))
