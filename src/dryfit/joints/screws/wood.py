"""What is wrong with the wood about a long screw, and with the tools for its hole. Lengths in mm."""

import math
from collections.abc import Iterator
from itertools import pairwise

from ...findings import Finding, Severity, declare
from ...job.options import given
from ...piece.meetings import TOUCHING, fixing_called
from ...piece.model import Meeting
from ...places import Cure, Edit, Where
from ...sentences import Fineness, Length, Name, On, Sentence, Words, say
from ...trade.screws import DRIVER_BITS, ENGAGEMENT, INCH_CUTTERS, LONG_BIT_LENGTHS, LONG_BITS, PLUG_CUTTERS, Screw
from .chain import ENTRY, PER_100, Plan
from .options import LongScrewOptions

SCREW_SHORT = declare(
    "screw-too-short",
    "A long screw does not reach: too little grip is left under its head.",
    uncured="no screw that is sold is long enough here",
)
SCREW_HOLD = declare(
    "screw-holds-little",
    "Too little of a screw's thread is in the wood that is to hold it.",
    uncured="no longer screw that is sold would hold more here",
)
SCREW_SIDE = declare(
    "thin-beside-bore",
    "Too little wood is left beside a long hole through a board.",
    uncured="a thinner bore, or a thicker board, is a choice of design",
)
SCREW_HOLE = declare(
    "screw-hole-tight",
    "A hole is too narrow for its screw, or for the head.",
    uncured="no hole of a width that is sold takes it",
)
SCREW_NEAR = declare(
    "screw-near-end",
    "A screw is too near the end of a board, its edge, or the next screw.",
    uncured="the screw stands where a stud is, and what moves is a choice of design",
)
NOT_SOLD = declare(
    "size-not-sold",
    "A plug or a bore is asked for in a size that no cutter is sold in.",
    uncured="no size that is sold is near to it",
)
DRIVER_SHORT = declare(
    "driver-too-short",
    "The driver or the bit is too short for a hole so deep: the chuck stops it.",
    uncured="which driver you have is a fact of the shop; no shorter hole holds as well",
)
STANDS_OFF = declare(
    "screw-off-wall",
    "A board stands off the wall: its screws are free behind it, where they bend.",
    uncured="whether the board comes to the wall or is packed there is a choice of design",
)
CODES = (SCREW_SHORT, SCREW_HOLD, SCREW_SIDE, SCREW_HOLE, SCREW_NEAR, NOT_SOLD, DRIVER_SHORT, STANDS_OFF)

SIDE_STOP, SIDE_WARN = 3.0, 6.0  # beside the counterbore, less wander; nominal (common practice)
FROM_END, APART = 10.0, 7.0  # times the diameter, along the grain to the thread's middle
SPACING = "EN 1995-1-1, 8.7.2 (as an LVL handbook prints it)"
THREAD = "EN 1995-1-1, 8.7.2"
PRACTICE = "common practice"


def where(meeting: Meeting) -> Where:
    """The fixing and its board."""
    return Where(boards=(meeting.a.body,), fixing=meeting.key[0], path=meeting.path)


def finding(
    code: str,
    severity: Severity,
    at: Where,
    says: Words,
    remedy: Words,
    source: str,
    compared: tuple[float, float | None] | None = None,
    cures: tuple[Cure, ...] = (),
) -> Finding:
    """A finding about screws; `compared` are what was found and its limit, in mm, where something was measured."""
    found, limit = compared or (None, None)
    unit = "mm" if compared else ""
    return Finding(
        code=code, severity=severity, where=at, says=says, remedy=remedy, found=found, limit=limit, unit=unit,
        source=source, cures=cures,
    )  # fmt: skip


def about_fixing(
    meeting: Meeting,
    code: str,
    severity: Severity,
    says: Words,
    remedy: Words,
    source: str,
    compared: tuple[float, float | None] | None = None,
    cures: tuple[Cure, ...] = (),
) -> Finding:
    """The same about a fixing, which is named before what is said of it."""
    named = say("{}: {}", fixing_called(meeting), says)
    return finding(code, severity, where(meeting), named, remedy, source, compared, cures)


def about_wood(meeting: Meeting, made: Plan, options: LongScrewOptions) -> Iterator[Finding]:
    """Everything that is wrong on the board's side of the wall."""
    yield from _short(meeting, made, options)
    yield from _holds_little(meeting, made, options)
    yield from _thin(meeting, made, options)
    yield from _tight(meeting, made)
    yield from _near(meeting, made)
    yield from _not_sold(meeting, made, options)
    yield from _tools(meeting, made, options)
    yield from _stands_off(meeting, made)


# ---- grip and hold


def next_sold(sold: Screw | None, wanted: float) -> Words:
    """What is told behind a length that is not sold: the next one that is, in mm as screws are called."""
    if sold is None or sold.length == wanted:
        return ""
    return say("; the next that is sold is {}", format(sold.length, "g"))


def _longer(meeting: Meeting, screw: Screw, missing: float) -> tuple[Words, tuple[Cure, ...]]:
    """A longer screw: in words, and as a change of the job file."""
    wanted = math.ceil(screw.length + missing - 1e-9)
    sold = screw.at_least(wanted)
    remedy = say("use a screw at least {} mm long{}", str(wanted), next_sold(sold, wanted))
    if sold is None or not meeting.path:
        return remedy, ()
    edit = Edit(action="set", path=(*meeting.path, "screw"), value=sold.asked)
    return remedy, (Cure(label=say("use a {}", sold.name), edits=(edit,)),)


def _short(meeting: Meeting, made: Plan, options: LongScrewOptions) -> Iterator[Finding]:
    """Grip wants 30 and 4 d, and no more than the screw's length allows."""
    least, allowed = made.least_grip, made.longest_grip
    remedy: Words
    source = PRACTICE
    cures: tuple[Cure, ...] = ()
    missing = made.grip - allowed
    if missing > 1e-9:
        says = say("the {} is {} too short for a grip of {}", made.screw.name, Length(missing), Length(made.grip))
        found, limit = missing, 0.0
        source = _hold_from(made, options)
        remedy, cures = _longer(meeting, made.screw, max(made.grip, least) - allowed)
    elif made.grip < least - 1e-9:
        says = say("only {} of wood is under the head of the {}", Length(made.grip), made.screw.name)
        found, limit = made.grip, least
        if made.widest_grip < least:
            remedy = say("use a board {} wider, or fix it in another way", _at_least(least - made.widest_grip))
        elif allowed < least:
            remedy, cures = _longer(meeting, made.screw, least - allowed)
        else:
            remedy = say("leave a grip of {} or more", _at_least(least))
            cures = _set(meeting, "grip", least, say("leave a grip of {}", _at_least(least)))
    else:
        return
    yield about_fixing(
        meeting,
        SCREW_SHORT,
        Severity.STOP,
        says,
        remedy,
        source,
        (found, limit),
        cures,
    )


def _hold_from(made: Plan, options: LongScrewOptions) -> str:
    """Whose rule it is how far the screw must go in beyond the lining."""
    if given(options, "engagement"):
        return "the job file"
    if made.anchor is not None:
        return f"[anchor.{made.anchor.name}]" if made.anchor.described else "trade texts on wall fixings"
    return THREAD if made.hold_known else PRACTICE


def _at_least(limit: float, step: Fineness = Fineness.WHOLE) -> Length:
    return Length(limit, step, On.UP)


def _set(meeting: Meeting, key: str, size: float, label: Words) -> tuple[Cure, ...]:
    """An option of this fixing, in mm whatever the job's units are."""
    if not meeting.path:
        return ()
    edit = Edit(action="set", path=(*meeting.path, key), value=f"{size:g} mm")
    return (Cure(label=label, edits=(edit,)),)


def _holds_little(meeting: Meeting, made: Plan, options: LongScrewOptions) -> Iterator[Finding]:
    """Six diameters of thread in the timber; in an anchor its own rule holds."""
    least = ENGAGEMENT * made.screw.diameter
    if options.anchor or made.screw.kind == "machine" or made.held is None or made.held >= least - 1e-9:
        return
    if made.grip > made.longest_grip + 1e-9:
        return  # it does not even hold what is asked, which is told
    remedy, cures = _longer(meeting, made.screw, least - made.held)
    if not given(options, "grip"):
        remedy = say("leave out engagement: it is then {}", _at_least(least))
        cures = _set(meeting, "engagement", least, say("have {} of the thread held", _at_least(least)))
    yield about_fixing(
        meeting,
        SCREW_HOLD,
        Severity.STOP,
        say("only {} of the {} is in the timber", Length(max(made.held, 0.0)), made.screw.name),
        remedy,
        THREAD,
        (made.held, least),
        cures,
    )


# ---- beside the hole


def _thin(meeting: Meeting, made: Plan, options: LongScrewOptions) -> Iterator[Finding]:
    """Wood beside the counterbore, nominal and less wander."""
    nominal = (meeting.a.thickness - made.counterbore) / 2
    left = nominal - made.wander
    if left >= SIDE_STOP and nominal >= SIDE_WARN:
        return
    severity = Severity.STOP if left < SIDE_STOP else Severity.WARN
    yield about_fixing(
        meeting,
        SCREW_SIDE,
        severity,
        say("{} of wood beside the bore, {} if it wanders", Length(nominal), Length(max(left, 0.0))),
        _away_from_the_side(nominal, made, options),
        PRACTICE,
        (left if severity is Severity.STOP else nominal, SIDE_STOP if severity is Severity.STOP else SIDE_WARN),
    )


def _away_from_the_side(nominal: float, made: Plan, options: LongScrewOptions) -> str:
    """What leaves more wood; a guide for the bit where there is none yet and it would do."""
    guided = nominal - ENTRY - PER_100 * made.deep / 100
    if options.drilled == "by hand" and nominal - made.wander < SIDE_STOP <= guided:
        return "use a thinner screw or head, a thicker board, or a guide for the bit"
    return "use a thinner screw or head, or a thicker board"


def _tight(meeting: Meeting, made: Plan) -> Iterator[Finding]:
    """The hole through the grip must let the thread pass, or it holds the board off; the counterbore its head."""
    standard = "ISO 273" if made.screw.kind == "machine" else "usual data sheets (from memory)"
    holes = (
        ("hole", "hole_diameter", made.hole, made.least_hole, standard),
        ("counterbore", "counterbore", made.counterbore, made.head, "its head or washer"),
    )
    for name, key, wide, least, source in holes:
        if wide < least - 1e-9:
            yield about_fixing(
                meeting,
                SCREW_HOLE,
                Severity.STOP,
                say("a {} of {} is too narrow for a {}", name, Length(wide), made.screw.name),
                say("make it {} or more", _at_least(least, Fineness.PLACE)),
                source,
                (wide, least),
                _set(meeting, key, _wide_enough(name, least), say("make the {} wide enough", name)),
            )


def _wide_enough(name: str, least: float) -> float:
    sizes = PLUG_CUTTERS if name == "counterbore" else ()
    return next((size for size in sizes if size >= least), least)


def _near(meeting: Meeting, made: Plan) -> Iterator[Finding]:
    """Along the grain: ten diameters to the ends, seven to the next screw; too near a bore is a stop of its own."""
    length, d = meeting.a.before + meeting.a.after, made.screw.diameter
    places = sorted(meeting.places)
    end = round(min(min(place, length - place) for place in places), 6)  # the same from either end of the line
    if meeting.a.thickness <= end < FROM_END * d:  # nearer than the thickness is a stop: it is off the board
        says = say("a screw is {} from the end of {}", Length(end, Fineness.WHOLE), Name(meeting.a.body))
        yield _too_near(meeting, says, end, FROM_END * d)
    apart = round(min((after - before for before, after in pairwise(places)), default=math.inf), 6)
    if apart < APART * d:
        yield _too_near(meeting, say("two screws are {} apart", Length(apart, Fineness.WHOLE)), apart, APART * d)


def _too_near(meeting: Meeting, says: Sentence, found: float, limit: float) -> Finding:
    return about_fixing(
        meeting,
        SCREW_NEAR,
        Severity.WARN,
        say("{}: the wood may split", says),
        say("leave {} or more, or use a thinner screw", _at_least(limit)),
        SPACING,
        (found, limit),
    )


# ---- tools


def _not_sold(meeting: Meeting, made: Plan, options: LongScrewOptions) -> Iterator[Finding]:
    """A counterbore that is asked for wants a plug cutter, or where it stays open a bit, of its size."""
    if made.deep <= 0.0:
        return
    sizes = sorted({*PLUG_CUTTERS, *INCH_CUTTERS}) if options.plugged else sorted({*LONG_BITS, *INCH_CUTTERS})
    if min(abs(size - made.counterbore) for size in sizes) < 0.051:  # 6.35 is sold as 6.4, 15.875 as 15.9
        return
    tool = "plug cutter" if options.plugged else "wood bit"
    other = next((size for size in sizes if size > made.counterbore and size >= made.head), None)
    yield about_fixing(
        meeting,
        NOT_SOLD,
        Severity.WARN,
        say("no {} of {} is sold, as far as is known", tool, Length(made.counterbore)),
        say("use {}, the next that is sold", _at_least(other, Fineness.PLACE))
        if other
        else "use a smaller head or washer",
        "sizes as sold (from memory)",
        (made.counterbore, other),
        _bored_wider(meeting, made, other),
    )


def _bored_wider(meeting: Meeting, made: Plan, other: float | None) -> tuple[Cure, ...]:
    """The next size, where the board has wood enough beside it."""
    if other is None or (meeting.a.thickness - other) / 2 - made.wander < SIDE_STOP:
        return ()
    return _set(meeting, "counterbore", other, say("bore {} wide", Length(other)))


def _tools(meeting: Meeting, made: Plan, options: LongScrewOptions) -> Iterator[Finding]:
    """Driver and bit must reach the bottom of the counterbore with the chuck still outside."""
    if made.deep <= 0.0 or not (made.known or given(options, "grip")):
        return  # how deep it will be is not known yet
    wanted = made.reach
    driver = made.driver if made.driver is not None else DRIVER_BITS[-1]
    if driver < wanted - 1e-9:
        whose = "the driver is" if given(options, "driver") else "driver bits are sold to"
        yield _tool_short(meeting, made, say("{} {} long", whose, Length(driver, Fineness.WHOLE)), driver, options)
    elif made.bit is None:
        longest = LONG_BIT_LENGTHS[-1]
        says = say("wood bits are sold to a length of {}", Length(longest, Fineness.WHOLE))
        yield _tool_short(meeting, made, says, longest, options)


def _tool_short(meeting: Meeting, made: Plan, says: Sentence, found: float, options: LongScrewOptions) -> Finding:
    wanted = made.reach
    cures: tuple[Cure, ...] = ()
    more = "leave more grip, with a longer screw where this one does not allow it"
    if not given(options, "grip") and made.grip == made.longest_grip:  # the screw's length decides
        more = "use a longer screw, which leaves more grip"
        _, cures = _longer(meeting, made.screw, wanted - found)
    return about_fixing(
        meeting,
        DRIVER_SHORT,
        Severity.STOP,
        say("{}; a counterbore {} deep needs {}", says, Length(made.deep), Length(wanted)),
        say("{} and a shallower counterbore, or write driver = and the length of one that you have", more),
        PRACTICE,
        (found, wanted),
        cures,
    )


# ---- behind the board


def _stands_off(meeting: Meeting, made: Plan) -> Iterator[Finding]:
    """A free length of screw between board and wall bends under the load."""
    if made.off <= TOUCHING:
        return
    free = made.off if made.gap is None else made.gap
    worst = "" if made.gap is None or made.gap == made.off else ", where the wall is worst"
    yield finding(
        STANDS_OFF,
        Severity.WARN,
        where(meeting),
        say(
            "{} stands {} off the wall: {} of each screw is free behind it{}, and bends under the load",
            Name(meeting.a.body),
            Length(made.off),
            Length(free),
            worst,
        ),
        say("bring {} to the wall, or pack it there at every screw", Name(meeting.a.body)),
        PRACTICE,
        (free, 0.0),
    )
