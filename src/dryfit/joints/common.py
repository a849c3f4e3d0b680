"""What several kinds share and no other room needs: defaults, limits of the angle, end grain at corners."""

from ..findings import Finding, Severity, declare
from ..job.options import Options
from ..piece.model import Hardware, Judgement, Meeting, Side
from ..places import Where
from ..sentences import Angle, Length, Name, Step, a, say
from ..trade.screws import Screw, figure

LEAST_ANGLE = 15.0  # degrees: below, a slot would be longer on the face than it leaves wood to hold (common practice)
SHALLOW_ANGLE = 30.0  # from here down it is made, with a warning
ANGLE_SLACK = 1e-6
TOLD = 0.1  # of a degree, to which angles are told
OVER_HEAD = 0.5  # counterbore over head or washer (common practice)
PLUG = 8.0  # depth of a plug over a screw's head (common practice: 6 to 10)
WRITTEN = 0.0006  # a figure of what is cut is written to 0.001: what differs by no more is the same
UNEQUAL = 1.0  # edges that differ by no more are taken as level

END_GRAIN = declare("end-grain-shows", "At a corner of unequal boards end grain is left in sight.")
SHALLOW = declare("shallow-angle", "Two boards meet at a shallow angle: slots grow long and leave thin points.")


def default_clearance(clearance: float | None, *, glued: bool) -> float:
    """Play across the walls: as asked, else 0.10 glued and 0.15 dry (common practice)."""
    if clearance is None:
        return 0.10 if glued else 0.15
    return clearance


def size_of(screw: Screw, name: str) -> float:
    """A figure of a screw as sold; its diameter where nothing is known."""
    known = figure(screw, name)
    return known.value if known else screw.diameter


def plug(wide: float, side: Side, count: int) -> Hardware:
    """Plugs for holes in a board, of its own wood."""
    wood = f", {side.species}" if side.species else ""
    return Hardware(name="plug", size=f"{wide:g}{wood}", count=count)


def told(options: Options) -> tuple[tuple[str, object], ...]:
    """Options as a joint carries them: names and plain values."""
    return tuple((name, getattr(options, name)) for name in type(options).model_fields)


def judge_angle(meeting: Meeting, kind: str) -> Judgement:
    """Possible from 15 degrees between the boards on."""
    if meeting.angle < LEAST_ANGLE - ANGLE_SLACK:
        reason = say(
            "the boards meet at {}; {} is made from {} on", Angle(meeting.angle, TOLD), a(kind), Angle(LEAST_ANGLE)
        )
        return Judgement(possible=False, reasons=(reason,))
    return Judgement(possible=True)


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
            says=say("{} and {} meet at {}", Name(one), Name(other), Angle(meeting.angle, TOLD)),
            remedy="turn one of the boards further, or take care of the thin points that are left",
            found=meeting.angle,
            limit=SHALLOW_ANGLE,
            unit="deg",
            source="common practice",
        ),
    )


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
                Length(shown, Step.WHOLE),
                Name(side.body),
                edge,
                Name(other.body),
            ),
            remedy="bring the two edges level, or let it show",
            found=shown,
            limit=UNEQUAL,
            unit="mm",
            source="geometry",
        )
        for edge, shown, severity in edges
        if shown > UNEQUAL
    )
