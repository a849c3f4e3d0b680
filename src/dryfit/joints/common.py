"""What several kinds share and no other room needs: defaults, limits of the angle, end grain at corners."""

import math
from collections.abc import Callable, Iterable, Iterator
from typing import TypeVar

from ..findings import Finding, Severity, declare, owns
from ..geometry.frames import Vec2, length
from ..geometry.shapes import HalfSpace, Knot, Prism, prism
from ..job.options import Options
from ..piece.facts import CutForm, Opens
from ..piece.letting_in import StopAt, usual_depth
from ..piece.model import DATUM_END, Cut, Ease, Figures, Judgement, Making, Meeting, Side, Stand, Strip, Ware
from ..piece.movable import asked_to_turn
from ..piece.sums import Sum
from ..places import Cure, Edit, Pair, Where
from ..sentences import Angle, Fineness, Length, Name, Words, a, say
from ..trade.screws import Screw, figure

LEAST_ANGLE = 15.0  # degrees: below, a slot would be longer on the face than it leaves wood to hold (common practice)
SHALLOW_ANGLE = 30.0  # from here down it is made, with a warning
ANGLE_SLACK = 1e-6
OVER_HEAD = 0.5  # counterbore over head or washer (common practice)
PLUG = 8.0  # depth of a plug over a screw's head (common practice: 6 to 10)
AROUND_PLUG = 6.0  # of a strip, between two plugs and beside them: the wall of a plug cutter (common practice)
CALLIPER = 13.0  # smaller sizes are told as a calliper reads them, in inches too
WRITTEN = 0.0006  # a figure of what is cut is written to 0.001: what differs by no more is the same
UNEQUAL = 1.0  # edges that differ by no more are taken as level

END_GRAIN = declare(
    "end-grain-shows",
    "At a corner of unequal boards end grain is left showing.",
    uncured="which of the two boards runs through is a choice of design",
)
SHALLOW = declare(
    "shallow-angle",
    "Two boards meet at a shallow angle: slots grow long and leave thin points.",
    uncured="the angle is a choice of design",
)
owns("joints", END_GRAIN, SHALLOW)


def default_clearance(clearance: float | None, *, glued: bool) -> float:
    """Play across the walls: as asked, else 0.10 glued and 0.15 dry (common practice)."""
    if clearance is None:
        return 0.10 if glued else 0.15
    return clearance


def depth_followed(meeting: Meeting, asked: float | None, deep: float | None) -> float | None:
    """How deep b is to be cut to follow what is cut already; None where that is as asked, or more than half of it."""
    if deep is None or not 0.0 < deep <= meeting.b.thickness / 2:
        return None
    return None if abs(deep - usual_depth(meeting.b, asked)) <= WRITTEN else deep


OptionsT = TypeVar("OptionsT", bound=Options)

OPENED: tuple[tuple[StopAt, str], ...] = (("front", "to the wall"), ("wall", "to the front"), ("through", "to both"))


def stopped(options: OptionsT, stop: StopAt) -> OptionsT:
    """The options of what is let in with another stop."""
    return options.model_copy(update={"stop": stop})


def as_made(options: OptionsT, making: Making) -> OptionsT:
    """The options with the stop that the making settled, where they left it open."""
    key, value = making.word
    return options.model_copy(update={"stop": value}) if key == "stop" else options


def opened(meeting: Meeting, now: StopAt, noun: str, making: Callable[[StopAt], Making | None]) -> tuple[Ease, ...]:
    """What is let in, opened to the wall, else to the front, else to both; `making` gives none where that is no way."""
    a, b = Name(meeting.a.body), Name(meeting.b.body)
    ways = ((stop, where, making(stop)) for stop, where in OPENED if now not in (stop, "through"))
    return tuple(
        Ease(says=say("open the {} in {} for {} {}", noun, b, a, where), options=(("stop", stop),), making=made)
        for stop, where, made in ways
        if made is not None
    )


def size_of(screw: Screw, name: str) -> float:
    """A figure of a screw as sold; its diameter where nothing is known."""
    known = figure(screw, name)
    return known.value if known else screw.diameter


def plug(wide: float, side: Side, count: int) -> Ware:
    """Plugs for holes in a board, of its own wood."""
    says = say("{} diameter, {}", across(wide), side.species) if side.species else say("{} diameter", across(wide))
    strip = Strip(along=wide + AROUND_PLUG, across=wide + AROUND_PLUG, thick=PLUG, sawn=False)
    return Ware(what="plug", says=says, count=count, diameter=wide, goes="over", strip=strip)


def screw_ware(screw: Screw, count: int, asks: Words = "") -> Ware:
    """Screws as they are sold; `asks` what else they must be."""
    what = f"{screw.kind} screw"
    return Ware(
        what=what, says=screw.size, asks=asks, count=count, diameter=screw.diameter, length=screw.length, screw=screw,
        goes="driven", in_mm=True,
    )  # fmt: skip


def across(mm: float) -> Length:
    """A size of a thing that is made or bought to it; where it is small, as a calliper reads it."""
    return Length(mm, Fineness.FINE) if mm < CALLIPER else Length(mm)


def end_cut(
    meeting: Meeting,
    side: Side,
    other: Side,
    plane: HalfSpace,
    *,
    note: Words = "",
    width: Sum | None = None,
    depth: Sum | None = None,
    stands: Stand = "face",
) -> Cut:
    """The end of a board in one plane, square or bevelled; figures as `Figures` has them."""
    lean = math.degrees(math.atan2(abs(plane.normal[1]), abs(plane.normal[0])))
    says = say("end of {} at {}", Name(side.body), Name(other.body))
    return Cut(
        key=str(says),
        says=says,
        body=side.body,
        form=CutForm.END,
        word="end" if lean < 1e-9 else "bevelled end",
        joint=meeting.key,
        end=side.end,
        shapes=(plane,),
        figures=Figures(
            width=width,
            depth=depth,
            opens=Opens.END,
            between_faces=meeting.angle,
            lean=round(lean, 9),
            note=note,
            stands=stands,
        ),
    )


def judge_angle(meeting: Meeting, kind: str) -> Judgement:
    """Possible from 15 degrees between the boards on."""
    if meeting.angle < LEAST_ANGLE - ANGLE_SLACK:
        reason = say("the boards meet at {}; {} is made from {} on", Angle(meeting.angle), a(kind), Angle(LEAST_ANGLE))
        return Judgement.refused(reason, found=meeting.angle, limit=LEAST_ANGLE, unit="deg", source="common practice")
    return Judgement(possible=True)


def unlevel(meeting: Meeting, kind: str) -> Judgement | None:
    """A refusal where one board's edge is set back from the other's, so that such a joint would stand open there."""
    for edge, off in (("front", meeting.a.front - meeting.b.front), ("wall", meeting.a.back - meeting.b.back)):
        if abs(off) > UNEQUAL:
            reason = say(
                "the boards are {} apart at the {}; {} would stand open there", Length(abs(off)), edge, a(kind)
            )
            return Judgement.refused(
                reason,
                remedy="bring both edges level, or choose a butt or a mitre",
                found=abs(off),
                limit=UNEQUAL,
                unit="mm",
                source="geometry",
            )
    return None


def shallow_angle(meeting: Meeting) -> tuple[Finding, ...]:
    """A warning from 15 up to, not including, 30 degrees."""
    if meeting.angle >= SHALLOW_ANGLE - ANGLE_SLACK:
        return ()
    one, other = meeting.key
    return (
        Finding(
            code=SHALLOW,
            severity=Severity.WARN,
            where=Where(boards=meeting.key, joint=meeting.key),
            says=say("{} and {} meet at {}", Name(one), Name(other), Angle(meeting.angle)),
            remedy="turn one of the boards further, or mind the thin points that are left",
            found=meeting.angle,
            limit=SHALLOW_ANGLE,
            unit="deg",
            source="common practice",
            cures=tuple(_turned(side, meeting.other(side.body)) for side in (meeting.a, meeting.b)),
        ),
    )


def _turned(side: Side, other: Side) -> Cure:
    """A board turned about its end that is joined, else about its foot, the shorter way to where no warning is due."""
    lean = (90.0 - side.turn) % 180.0 - 90.0  # of its line from the other's, whichever end either starts from
    by = math.copysign(SHALLOW_ANGLE, lean) - lean
    label = say(
        "{}: turned by {}, to {} from {}", Name(side.body), Angle(abs(by)), Angle(SHALLOW_ANGLE), Name(other.body)
    )
    return asked_to_turn(label, side.body, side.end or DATUM_END, by)


def end_grain(meeting: Meeting, side: Side, other: Side) -> tuple[Finding, ...]:
    """A board deeper than the other at a corner shows its end grain there: at the front, at the wall, or both."""
    edges = (("front", side.front - other.front, Severity.WARN), ("wall", other.back - side.back, Severity.NOTE))
    return tuple(
        Finding(
            code=END_GRAIN,
            severity=severity,
            where=Where(boards=(side.body, other.body), joint=meeting.key, path=side.path),
            says=say(
                "{} of end grain of {} shows at the {}, beside {}",
                Length(shown, Fineness.WHOLE),
                Name(side.body),
                edge,
                Name(other.body),
            ),
            remedy="bring the two edges flush, or let it show",
            found=shown,
            limit=UNEQUAL,
            unit="mm",
            source="geometry",
            cures=tuple(_flush(side, other, edge, shown)),
        )
        for edge, shown, severity in edges
        if shown > UNEQUAL
    )


def _flush(side: Side, other: Side, edge: str, shown: float) -> Iterator[Cure]:
    """Their edges brought level: the one made less deep, or the other deeper; at the wall its back moves with it.

    Sides of one frame, and boards of one row, have one depth in the file: nothing is offered of these.
    """
    if side.path == other.path:
        return
    for one, by, word in ((side, -shown, "less deep"), (other, shown, "deeper")):
        edits = [Edit(action="shift", path=(*one.path, "depth"), value=round(by, 3))]
        if edge == "wall":
            edits.append(Edit(action="shift", path=(*one.path, "back"), value=round(-by, 3)))
        if one.path:
            label = say("{}: {} {}, level at the {}", Name(one.body), Length(shown), word, edge)
            yield Cure(label=label, edits=tuple(edits))


def too_little(
    code: str,
    meeting: Meeting,
    compared: tuple[float, float],
    place: str,
    remedy: Words,
    cures: Callable[[], tuple[Cure, ...]] = tuple,
) -> tuple[Finding, ...]:
    """A stop where less wood is left at a place than there must be (`compared`); none where enough is."""
    left, least = compared
    if left >= least - 1e-9:
        return ()
    a, b = meeting.a.body, meeting.b.body
    return (
        Finding(
            code=code,
            severity=Severity.STOP,
            where=Where(boards=(a, b), joint=meeting.key),
            says=say("{} and {}: {} of wood is left {}", Name(a), Name(b), Length(max(left, 0.0)), place),
            remedy=remedy,
            found=left,
            limit=least,
            unit="mm",
            source="common practice",
            cures=cures(),
        ),
    )


def key_pockets(
    joint: Pair,
    side: Side,
    other: Side,
    middle: Vec2,
    cutter: float,
    places: Iterable[float],
    figures: Figures,
    face: int = 0,
) -> Cut:
    """Pockets that a round cutter plunges for keys into both boards: this board's share.

    Args:
        middle: of the cutter as far as it is plunged, along this board and across its thickness; `cutter` across it.
        places: of the keys' middles, out of the wall.
        figures: their width is the keys' thickness.
    """
    radius, half = cutter / 2, figures.width.total / 2 if figures.width is not None else 0.0
    ring: tuple[Knot, ...] = (
        (length(middle[0] - radius), length(middle[1]), 1.0),
        (length(middle[0] + radius), length(middle[1]), 1.0),
    )
    says = say("key pockets in {} to {}", Name(side.body), Name(other.body))
    return Cut(
        key=str(says),
        says=says,
        body=side.body,
        form=CutForm.POCKET,
        word="key pockets",
        noun="pocket",
        takes="keys",
        joint=joint,
        face=face,
        shapes=tuple(
            Prism(outline=ring, low=length(z - side.back - half), high=length(z - side.back + half)) for z in places
        ),
        figures=figures,
        size_is="FIT TO",
    )


def tongue_groove(
    joint: Pair, side: Side, other: Side, corners: tuple[Vec2, ...], overlap: Vec2, stop: float, figures: Figures
) -> Cut:
    """The groove for a loose tongue: an outline along this board, over what both have in common, `stop` short of it."""
    low, high = overlap
    says = say("groove in {} towards {}", Name(side.body), Name(other.body))
    return Cut(
        key=str(says),
        says=says,
        body=side.body,
        form=CutForm.GROOVE,
        word="tongue groove",
        noun="groove",
        takes="tongue",
        joint=joint,
        shapes=(prism(corners, low - side.back + stop, high - side.back - stop),),
        figures=figures,
        size_is="FIT TO",
    )
