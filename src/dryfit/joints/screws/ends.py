"""Screws through a face into an end, under plugs. Lengths in mm.

Two boards 24 thick, screws 5 x 60: heads 10 wide and 3.0 high under plugs of 12, 8 deep: 24 - 11 = 13 of wood under
the head, 60 - 3 - 13 = 44 in the end, with (24 - 5) / 2 = 9.5 of wood beside the thread. Wood is measured to the
thread, which is thicker than its pilot hole.
"""

import math
from collections.abc import Callable, Iterator
from dataclasses import replace
from itertools import pairwise

from ...findings import Finding, Severity, declare, owns
from ...piece.holes import LEAST_WOOD, HoleRow, evenly
from ...piece.kinds import asked
from ...piece.model import Meeting
from ...piece.onto import Onto
from ...places import Cure, Where
from ...sentences import Fineness, Length, Name, Words, say
from ...trade.screws import ENGAGEMENT, PLUG_CUTTERS, Screw, figure, next_of, read_screw, sizes
from ..common import OVER_HEAD, PLUG, size_of
from .wood import FROM_END, PRACTICE, SIDE_WARN, SPACING, finding, next_sold

UNDER_HEAD = declare(
    "thin-under-head",
    "Too little wood is left under the heads of screws: they pull through.",
    uncured="no thinner screw leaves enough; a thicker board is a choice of design",
)
NEAR_THREAD = declare(
    "thin-beside-screw",
    "Little wood is left beside the thread of a screw: it may split.",
    uncured="a thinner screw, or a thicker board, is a choice of design",
)
SCREWS_NEAR = declare(
    "screws-near",
    "Screws through a board are too near its edge, its end, or each other.",
    uncured="the joint has as few screws as hold it, or stands too near the board's end",
)
END_GRAIN_PULL = declare(
    "end-grain-pull",
    "Screws into end grain are all that holds a board: no lasting pull.",
    uncured="what holds the board besides its screws is a choice of design",
)
owns("joints", UNDER_HEAD, NEAR_THREAD, SCREWS_NEAR, END_GRAIN_PULL)

EDGE, ACROSS = (3.0, 4.0), (3.0, 5.0)  # times the diameter, to the thread's middle: stop below, warn below
UNDER_STOP, UNDER_LEAST, UNDER_WARN = 1 / 6, 4.0, 1 / 2  # of the board; as a web is looked at (common practice)
LEAST_COUNT = 2  # of screws (common practice)
STANDS = math.sqrt(0.5)  # rise of the way off from which on an end stands on the face, and its weight presses
PREDRILLED = "EN 1995-1-1, table 8.2, predrilled (as open code prints it)"


def counterbored(screw: Screw, onto: Onto) -> float:
    """Depth in the far face for head and plug."""
    return min(screw.head_height + PLUG, onto.takes.thickness - LEAST_WOOD)


def reach(screw: Screw, onto: Onto) -> float:
    """How far a screw goes into the end, its head on the counterbore's floor."""
    return screw.under_head - (onto.takes.thickness - counterbored(screw, onto))


def refused(sold: str, onto: Onto) -> Words:
    """Why such screws cannot be had; empty where they can."""
    screw = read_screw(sold)
    if screw is None or figure(screw, "head") is None:
        return say('nothing is known of a screw "{}"', sold)
    if screw.kind == "machine":
        return say("a {} has no thread for wood: use a wood screw", screw.name)
    into, least = reach(screw, onto), ENGAGEMENT * screw.diameter
    if into >= least - 1e-9:
        return ""
    goes = say("goes {} into", Length(into, Fineness.WHOLE)) if into > 0.0 else "ends before"
    wanted = math.ceil(least - into + screw.length - 1e-9)
    longer = screw.at_least(wanted)
    return say(
        "a {} {} {}; take one {} mm long or more{}",
        screw.name,
        goes,
        Name(onto.ends.body),
        str(wanted),
        next_sold(longer, wanted),
    )


def row_of(sold: str, onto: Onto, count: int) -> HoleRow:
    """Counterbored from the far face for a plug, and a pilot hole in the end."""
    screw = read_screw(sold)
    assert screw is not None, "judged before it is made"
    head, hole, pilot = (size_of(screw, name) for name in ("head", "hole_medium", "pilot"))
    bore = next_of(PLUG_CUTTERS, head + OVER_HEAD) or math.ceil(head + OVER_HEAD)
    return HoleRow(
        places=evenly(onto.overlap, count),
        face=((0.0, bore), (counterbored(screw, onto), hole), (onto.takes.thickness, 0.0)),
        end=((0.0, pilot), (reach(screw, onto), 0.0)),
        through=True,
        thread=screw.diameter,
    )


def weak(meeting: Meeting, onto: Onto, row: HoleRow, sold: str, *, glued: bool) -> Iterator[Finding]:
    """What is too little about the screws, `sold` as asked for, besides what any hole wants."""
    yield from under_head(meeting, onto, row, sold)
    yield from beside_thread(meeting, onto, row, sold)
    yield from near_edges(meeting, onto, row)
    yield from _near_end(meeting, onto, row)
    if not glued:
        yield pulls_on_end_grain(meeting, onto)


def _thinner(sold: str, onto: Onto, enough: Callable[[HoleRow], bool]) -> tuple[Cure, ...]:
    """The thickest of the thinner screws, as long or the next longer, with which enough is left; none where none has.

    What a screw in end grain carries is not counted on, so a thinner one takes nothing away that was.
    """
    screw = read_screw(sold)
    assert screw is not None, "judged before it is made"
    known = (read_screw(f"{size}x{screw.length:g}") for size in sizes(screw.kind))
    thinner = sorted({one.diameter for one in known if one is not None and one.diameter < screw.diameter}, reverse=True)
    for diameter in thinner:
        other = replace(screw, diameter=diameter)
        if not refused(other.asked, onto) and enough(row_of(other.asked, onto, LEAST_COUNT)):
            return (asked(say("use a {}", other.name), "screw", other.asked),)
    return ()


def under_head(meeting: Meeting, onto: Onto, row: HoleRow, sold: str) -> Iterator[Finding]:
    """Half the board, at the least a sixth of it and 4."""
    t, body = onto.takes.thickness, onto.takes.body
    left = t - row.face[1][0]
    least, better = max(t * UNDER_STOP, UNDER_LEAST), t * UNDER_WARN
    if left < better - 1e-9:
        stops = left < least - 1e-9
        yield finding(
            UNDER_HEAD,
            Severity.STOP if stops else Severity.WARN,
            Where(boards=(body,), joint=meeting.key),
            say(
                "{}: {} of wood is left under the heads of the screws into {}",
                Name(body),
                Length(left),
                Name(onto.ends.body),
            ),
            say("use thinner screws, whose heads are lower, a thicker {}, or dowels", Name(body)),
            PRACTICE,
            (left, least if stops else better),
            _thinner(sold, onto, lambda other: t - other.face[1][0] >= better - 1e-9),
        )


def beside_thread(meeting: Meeting, onto: Onto, row: HoleRow, sold: str) -> Iterator[Finding]:
    """In the end, to the thread: below 3 is a stop as for any hole; below 6 it is near it."""
    body = onto.ends.body

    def beside(row: HoleRow) -> float:
        return onto.ends.thickness / 2 - row.thread / 2 - row.end[-1][0] * abs(onto.lines.along[0])

    left = beside(row)
    if LEAST_WOOD - 1e-9 <= left < SIDE_WARN - 1e-9:
        yield finding(
            NEAR_THREAD,
            Severity.WARN,
            Where(boards=(body,), joint=meeting.key),
            say("{}: {} of wood is left beside the thread of its screws", Name(body), Length(left)),
            say("use thinner screws, or a thicker {}", Name(body)),
            PRACTICE,
            (left, SIDE_WARN),
            _thinner(sold, onto, lambda other: beside(other) >= SIDE_WARN - 1e-9),
        )


def near_edges(meeting: Meeting, onto: Onto, row: HoleRow, option: str = "count") -> Iterator[Finding]:
    """Edges and neighbours in the board that they go through, to the middle of the thread; `option` says how many."""
    d, takes, (low, high) = row.thread, onto.takes, onto.overlap
    screws = say("{}: its screws into {}", Name(takes.body), Name(onto.ends.body))
    where = Where(boards=(takes.body,), joint=meeting.key)
    edge = min(row.places[0] - low, high - row.places[-1])
    apart = min((after - before for before, after in pairwise(row.places)), default=math.inf)
    for what, left, (stop, warn), source in (
        (say("are {} from the edge", Length(edge)), edge, EDGE, (PREDRILLED, SPACING)),
        (say("are {} apart", Length(apart)), apart, ACROSS, (PREDRILLED, SPACING)),
    ):
        if left < warn * d - 1e-9:
            stops = left < stop * d - 1e-9
            limit = (stop if stops else warn) * d
            says = say("{} {}", screws, what)
            remedy = "use fewer, or thinner ones"
            severity = Severity.STOP if stops else Severity.WARN
            cures = _fewer(option, len(row.places), high - low, d)
            yield finding(SCREWS_NEAR, severity, where, says, remedy, source[0 if stops else 1], (left, limit), cures)


def _near_end(meeting: Meeting, onto: Onto, row: HoleRow) -> Iterator[Finding]:
    """The end of the board that they go through."""
    d, takes = row.thread, onto.takes
    screws = say("{}: its screws into {}", Name(takes.body), Name(onto.ends.body))
    where = Where(boards=(takes.body,), joint=meeting.key)
    end = _from_end(meeting, onto)
    if end < FROM_END * d - 1e-9:
        says = say("{} are {} from its end, little for a pull", screws, Length(end))
        remedy = "let them carry no pull, use thinner ones, or dowels"
        severity = Severity.NOTE if meeting.form == "corner" else Severity.WARN  # at a corner it can never be
        yield finding(SCREWS_NEAR, severity, where, says, remedy, SPACING, (end, FROM_END * d))


def _fewer(option: str, count: int, over: float, d: float) -> tuple[Cure, ...]:
    """As many as keep 5 d apart and 4 d from the edge, evenly set out; none where two do not."""
    most = math.floor(over / max(ACROSS[1] * d, 2 * EDGE[1] * d) + 1e-9)
    return (asked("use {} screws", option, most),) if LEAST_COUNT <= most < count else ()


def _from_end(meeting: Meeting, onto: Onto) -> float:
    """From the screws to the nearer end of the board they go through; at a corner it covers the other's end."""
    if meeting.form == "corner":
        return onto.ends.thickness / onto.lines.sine / 2
    return min(onto.takes.before, onto.takes.after)


def pulls_on_end_grain(meeting: Meeting, onto: Onto, option: str = "fasten") -> Finding:
    """Nothing else holds the end to the face; only where it stands there does its weight press.

    `option` says with what it is fastened.
    """
    a, b = onto.ends.body, onto.takes.body
    stands = onto.out_of_face(meeting)[1] >= STANDS
    return finding(
        END_GRAIN_PULL,
        Severity.WARN if stands else Severity.STOP,
        Where(boards=(a, b), joint=meeting.key),
        say(
            "screws into the end grain of {} are all that holds it to {}: they carry no lasting pull", Name(a), Name(b)
        ),
        "glue it, let it into a housing, or use dowels with glue",
        "Wood Handbook (FPL), ch. 8, and NDS, on screws in end grain (from memory)",
        cures=(asked("use dowels with glue", option, "dowels", more={"glued": True}),),
    )
