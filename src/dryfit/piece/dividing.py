"""Where a board that is longer than its stock is divided.

A bay lies between two neighbouring joints or fixings of the board. It may be divided once, near either of
them: at a quarter of the bay where that can be, never in its middle third, and clear of what holds it by
twice the thickness (all common practice). So every member has a joint or a fixing of its own. As few
divisions are made as will do; from the datum end on, each keeps as near to a quarter as the stock allows.

At a quarter a board that runs on over its supports bends hardly at all, which is what two butted ends want: they
are a hinge. In an outer bay that holds by the inner support only: by the outer one the bending is greatest, and the
short member would rock on its one support. So an outer bay is divided by its inner support where that will do.

All places here run from the board's datum end, so a line drawn the other way is divided in the same places.
"""

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from ..findings import Finding, NotChecked, Severity, declare, owns, question
from ..geometry.frames import length
from ..job.model import Job
from ..job.names import MEMBER
from ..lengths import MM_PER, LengthUnit
from ..places import Cure, Edit, Where
from ..sentences import Fineness, Length, Name, On, Sentence, Several, say
from .model import Board, Meeting, Part

STOCK = question("stock", "boards longer than their stock")
LONGER = declare(
    "longer-than-stock",
    "A board, or a member of a divided one, does not come out of its stock.",
    uncured="where it is divided, or made shorter, is a choice of design",
)
WEAK = declare(
    "weak-place-to-divide",
    "A board is divided where a splice is weak, or too near a joint.",
    uncured="no better place to divide it was found",
)
owns(STOCK, LONGER, WEAK)

CLEAR = 2.0  # times the thickness between a division and what holds the board (common practice)
SPARE = 1.0  # on top of that: clearance and film widen the slots
ROUND = 0.5  # places are rounded to this where the span allows
STEEPEST = math.sin(math.radians(15.0))  # no joint is made at a sharper angle
EVEN = 1e-6
STOCK_STEP: Mapping[LengthUnit, float] = {"mm": 10.0, "in": 0.5}  # stock is asked for in whole steps of this


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """How long members may be between their centre-line ends: the one at the datum end, those between, the last."""

    first: float
    middle: float
    last: float


@dataclass(frozen=True, slots=True)
class BaySpan:
    """Where a bay may be divided, and where best; `upper` for what lies by the support at its far end."""

    bay: int
    low: float
    high: float
    best: float
    upper: bool = False

    def from_(self, place: float) -> float:
        """The first place of the span that is not before `place`; infinite where there is none."""
        first = max(self.low, place)
        return first if first <= self.high + EVEN else math.inf


def too_long(job: Job, parts: Iterable[Part]) -> list[Part]:
    """What is to be divided: blanks longer than their stock, and boards that the maker divides."""
    by_maker = {spec.name for spec in job.boards if spec.splice_at}
    return [part for part in parts if part.id in by_maker or part.blank.length > longest_of(job, part.board) + EVEN]


def longest_of(job: Job, board: Board) -> float:
    """Length of the stock that the board is cut from."""
    timber = job.timbers.get(board.timber)
    return math.inf if timber is None or timber.longest is None else timber.longest


def room_of(part: Part, longest: float, trim: float, reach: float = 0.0) -> Room:
    """What stock of that length allows the members of a part, whose own blank tells what lies beyond its line.

    Args:
        part: whole.
        longest: of its stock.
        trim: left at each end of a blank.
        reach: of a splice past the place where it is divided, on either member.
    """
    datum, far, lost = -part.blank.start, part.blank.end - part.board.length, trim + reach
    return Room(first=longest - datum - lost, middle=longest - 2 * lost, last=longest - far - lost)


def zones_of(job: Job, board: Board, meetings: Iterable[Meeting]) -> list[tuple[float, float]]:
    """What its joints and fixings take of the board along it, in order, those that overlap as one."""
    zones = [zone for meeting in meetings if board.name in meeting.key for zone in _zone(meeting, board)]
    for fixing in job.fixings:
        if fixing.board == board.name:
            half = board.thickest / 2  # no bore is wider
            ats = (board.length - at if board.flipped else at for at in fixing.at)
            zones += [(at - half, at + half) for at in ats]
    merged: list[tuple[float, float]] = []
    for low, high in sorted(zones):
        if merged and low <= merged[-1][1]:
            merged[-1] = merged[-1][0], max(merged[-1][1], high)
        else:
            merged.append((low, high))
    return merged


def _zone(meeting: Meeting, board: Board) -> Iterator[tuple[float, float]]:
    """What the other board covers of this one, on either face; nothing where one is laid along the other."""
    side, other = meeting.side(board.name), meeting.other(board.name)
    sine, cosine = math.sin(math.radians(meeting.angle)), math.cos(math.radians(meeting.angle))
    if meeting.form == "in line":
        yield side.at, side.at
    elif sine > STEEPEST - EVEN:
        takes = meeting.wide if meeting.wide and side is meeting.a else other.thickness
        half = (takes + side.thickness * cosine) / 2 / sine
        yield side.at - half, side.at + half


def sound_spans(board: Board, zones: Sequence[tuple[float, float]], reach: float = 0.0) -> list[BaySpan]:
    """Near either end of each bay: outside its middle third, and its splice clear of what holds the board."""
    clear = CLEAR * board.thickest + SPARE + reach
    spans = []
    for bay, (before, after) in enumerate(pairwise(zones)):
        start, end = sum(before) / 2, sum(after) / 2
        third, quarter = (end - start) / 3, (end - start) / 4
        spans.append(BaySpan(bay, before[1] + clear, start + third, start + quarter))
        spans.append(BaySpan(bay, end - third, after[0] - clear, end - quarter, upper=True))
    return [span for span in spans if span.low <= span.high]


def inner_spans(spans: Sequence[BaySpan], bays: int) -> list[BaySpan]:
    """Of these, in the outermost of several bays, only those by the inner support."""
    outer = {(0, False), (bays - 1, True)} if bays > 1 else set()
    return [span for span in spans if (span.bay, span.upper) not in outer]


def any_spans(board: Board, zones: Sequence[tuple[float, float]]) -> list[BaySpan]:
    """Wherever it is clear of what holds the board, in a middle third and beyond the outermost joints too."""
    clear = CLEAR * board.thickest + SPARE
    spans = []
    for bay, (before, after) in enumerate(pairwise([(0.0, 0.0), *zones, (board.length, board.length)])):
        low, high = before[1] + clear, after[0] - clear
        quarter = (high - low) / 4
        if 0 < bay < len(zones):
            bests = [low + quarter, high - quarter]
        else:  # an end hangs free: near what holds the rest
            bests = [low if bay else high if zones else (low + high) / 2]
        spans += [BaySpan(bay, low, high, best) for best in bests if low <= high]
    return spans


def places(spans: Sequence[BaySpan], whole: float, room: Room) -> tuple[float, ...]:
    """Where a board of that length is divided, from the datum end; empty where no places in the spans do."""
    needs: list[list[float]] = []
    for need in _needs(spans, whole, room):
        needs.append(need)
        if any(place <= room.first + EVEN for place in need):
            return tuple(_chosen(spans, needs, room))
    return ()


def _needs(spans: Sequence[BaySpan], whole: float, room: Room) -> Iterator[list[float]]:
    """For each span the earliest place of a division after which 0, 1, 2 ... more suffice; infinite for none."""
    bays = 1 + max((span.bay for span in spans), default=-1)
    need = [span.from_(whole - room.last) for span in spans]
    for _ in range(bays):
        yield need
        first = [math.inf] * (bays + 1)  # the earliest of this bay and those after it
        for span, place in zip(spans, need, strict=True):
            first[span.bay] = min(first[span.bay], place)
        for bay in range(bays - 1, -1, -1):
            first[bay] = min(first[bay], first[bay + 1])
        need = [span.from_(first[span.bay + 1] - room.middle) for span in spans]


def _chosen(spans: Sequence[BaySpan], needs: Sequence[Sequence[float]], room: Room) -> Iterator[float]:
    """Place after place from the datum end: the one nearest to the best of its span; of two, the further one."""
    bay, limit = -1, room.first
    for need in reversed(needs):
        able = [
            (span, _nearest(span, place, min(span.high, limit)))
            for span, place in zip(spans, need, strict=True)
            if span.bay > bay and place <= limit + EVEN
        ]
        span, place = min(able, key=lambda found: (round(abs(found[1] - found[0].best)), -found[1]))
        yield place
        bay, limit = span.bay, place + room.middle


def _nearest(span: BaySpan, low: float, high: float) -> float:
    """What is nearest to the best place between two others, on a whole step where one lies there."""
    place = max(min(span.best, high), low)
    steps = (math.floor(place / ROUND) * ROUND, math.ceil(place / ROUND) * ROUND)
    able = [step for step in steps if low - EVEN <= step <= high + EVEN]
    return length(min(able, key=lambda step: abs(step - place), default=place))


def weak_places(
    board: Board, zones: Sequence[tuple[float, float]], at: Sequence[float], reach: float = 0.0
) -> Iterator[Finding]:
    """What is weak in places where it is divided, from the datum end, its splices reaching so far to either side."""
    clear = CLEAR * board.thickest
    middles = [sum(zone) / 2 for zone in zones]
    for place in at:
        near = min((max(low - place, place - high) for low, high in zones), default=math.inf) - reach
        if near < clear - EVEN:
            says = say("divided {} from what holds it", Length(max(near, 0.0)))
            if reach:
                says = say("divided so that its splice ends {} from what holds it", Length(max(near, 0.0)))
            yield _weak(board, says, near, clear)
        for before, after in pairwise(middles):
            off, third = min(place - before, after - place), (after - before) / 3
            if off > third + EVEN:
                says = say("divided {} from the nearest joint, in the middle third of a bay", Length(off))
                yield _weak(board, says, off, third)
    for start, end in pairwise([0.0, *sorted(at), board.length]) if at else ():
        if not any(start <= middle <= end for middle in middles):
            member = (Length(start), Length(end))
            yield _weak(board, say("so divided that only a splice holds the member from {} to {}", *member))


def _weak(board: Board, says: Sentence, found: float | None = None, limit: float | None = None) -> Finding:
    return Finding(
        code=WEAK,
        severity=Severity.WARN,
        where=Where(boards=(board.name,), path=(*board.path, "splice_at")),
        says=say("{} is {}", Name(board.name), says),
        remedy=say(
            "divide it at a quarter of a bay, and {} or more from any joint",
            Length(CLEAR * board.thickest, side=On.UP),
        ),
        found=found,
        limit=limit,
        unit="" if found is None else "mm",
        source="common practice",
        cures=_by_rule(board),
    )


def stock_not_given(job: Job, parts: Iterable[Part]) -> Iterator[NotChecked]:
    """Timbers of which nobody has said how long they can be had."""
    used = dict.fromkeys(part.board.timber for part in parts)
    silent = [name for name in used if name in job.timbers and job.timbers[name].longest is None]
    if silent:
        why = say("longest is not given for {}", Several(tuple(map(Name, silent)), apart=" and "))
        yield NotChecked(study=STOCK, what="the length of the stock", why=why, whole=len(silent) == len(used))


def longer_than_stock(job: Job, parts: Iterable[Part], told: Iterable[str]) -> Iterator[Finding]:
    """Parts whose blank is longer than the stock, but for boards that another finding speaks of."""
    known = set(told)
    for part in parts:
        longest = longest_of(job, part.board)
        if part.blank.length > longest + EVEN and part.id not in known:
            yield Finding(
                code=LONGER,
                severity=Severity.STOP,
                where=Where(boards=(part.id,), path=part.board.path),
                says=say(
                    "{} needs a blank of {}; its stock is {} long",
                    Name(part.id),
                    Length(part.blank.length),
                    Length(longest),
                ),
                remedy="divide it elsewhere with splice_at, or use longer stock",
                found=part.blank.length,
                limit=longest,
                unit="mm",
                cures=(*(_by_rule(part.board) if MEMBER.match(part.id) else ()), longer_stock(job, part)),
            )


def _by_rule(board: Board) -> tuple[Cure, ...]:
    """The maker's places taken out, so that the board is divided by rule."""
    edit = Edit(action="remove", path=(*board.path, "splice_at"))
    return (Cure(label=say("leave open where {} is divided", Name(board.name)), edits=(edit,)),)


def longer_stock(job: Job, part: Part) -> Cure:
    """Stock in which the blank of a part lies whole."""
    step = STOCK_STEP[job.units]
    long = math.ceil(part.blank.length / MM_PER[job.units] / step - 1e-9) * step
    edit = Edit(action="set", path=(*job.timbers[part.board.timber].path, "longest"), value=long)
    return Cure(label=say("use stock {} long", Length(long * MM_PER[job.units], Fineness.WHOLE)), edits=(edit,))
