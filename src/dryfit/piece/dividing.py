"""Where a board that is longer than its stock is divided.

A bay lies between two neighbouring joints or fixings of the board. It may be divided once, near either of
them: at a quarter of the bay where that can be, never in its middle third, and clear of what holds it by
twice the thickness (all common practice). So every member has a joint or a fixing of its own. As few
divisions are made as will do; of the ways to do so, the one that keeps nearest to the quarters.

All places here run from the board's datum end, so a line drawn the other way is divided in the same places.
"""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from ..findings import Finding, Severity, declare, said
from ..job.model import Job
from ..places import Where
from .corner import Corner
from .model import DATUM_END, FAR_END, Board, Meeting, Part

LONGER = declare("longer-than-stock", "A board, or a member of a divided one, does not come out of its stock.")
WEAK = declare("weak-place-to-divide", "A board is divided where a splice is weak, or too near a joint.")

CLEAR = 2.0  # times the thickness between a division and what holds the board (common practice)
ROUND = 0.5  # places are rounded to this where the span allows
STEEPEST = 0.25  # sine or cosine below which a slanting end is no longer followed
EVEN = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """How long members may be between their centre-line ends: the one at the datum end, those between, the last."""

    first: float
    middle: float
    last: float


@dataclass(frozen=True, slots=True)
class _Span:
    """Where a bay may be divided, with its quarter point."""

    bay: int
    low: float
    high: float
    quarter: float

    def from_(self, place: float) -> float:
        """The first place of the span that is not before `place`; infinite where there is none."""
        first = max(self.low, place)
        return first if first <= self.high + EVEN else math.inf


def too_long(job: Job, boards: Iterable[Board], meetings: Sequence[Meeting], trim: float) -> list[Board]:
    """The boards that are to be divided: longer than their stock, or by the maker's word."""
    by_maker = {spec.name for spec in job.boards if spec.splice_at}
    return [
        board for board in boards if board.name in by_maker or board.length > _whole(job, board, meetings, trim) + EVEN
    ]


def _whole(job: Job, board: Board, meetings: Sequence[Meeting], trim: float) -> float:
    """The longest centre-line that the board's stock gives in one piece."""
    longest = longest_of(job, board)
    return longest if math.isinf(longest) else longest - sum(_beyond(board, meetings, trim))


def longest_of(job: Job, board: Board) -> float:
    """Length of the stock that the board is cut from."""
    timber = job.timbers.get(board.timber)
    return math.inf if timber is None or timber.longest is None else timber.longest


def room_of(job: Job, board: Board, meetings: Sequence[Meeting], trim: float) -> Room:
    """What the stock allows its members: less trim, what is left to scribe, and the long points of its ends."""
    longest = longest_of(job, board)
    datum, far = _beyond(board, meetings, trim)
    return Room(first=longest - datum - trim, middle=longest - 2 * trim, last=longest - far - trim)


def _beyond(board: Board, meetings: Sequence[Meeting], trim: float) -> tuple[float, float]:
    """How far the blank runs on past the centre-line's two ends."""
    datum, far = (_long_point(board, end, meetings) for end in (DATUM_END, FAR_END))
    return datum + trim + board.scribe[0], far + trim + board.scribe[1]


def _long_point(board: Board, end: int, meetings: Sequence[Meeting]) -> float:
    """The long point of an end past its centre-line; an end that a housing takes is counted as drawn."""
    ending = [m for m in meetings if board.name in m.key and m.side(board.name).end == end]
    if ending:
        corners = [
            Corner.of(meeting.side(board.name), meeting.other(board.name))
            for meeting in ending
            if meeting.form == "corner"
        ]
        return max((abs(corner.inner[0]) for corner in corners), default=0.0)
    form = board.ends[0 if end == DATUM_END else 1]
    if form == "square" or board.lies == "flat":
        return 0.0
    cosine, sine = abs(board.frame.x[0]), abs(board.frame.x[1])
    across, along = (cosine, sine) if form == "level" else (sine, cosine)
    return board.thickest / 2 * across / max(along, STEEPEST)


def zones_of(job: Job, board: Board, meetings: Iterable[Meeting]) -> list[tuple[float, float]]:
    """What its joints and fixings take of the board along it, in order, those that overlap as one."""
    zones = [_zone(meeting, board) for meeting in meetings if board.name in meeting.key]
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


def _zone(meeting: Meeting, board: Board) -> tuple[float, float]:
    side, other = meeting.side(board.name), meeting.other(board.name)
    takes = meeting.wide if meeting.wide and side is meeting.a else other.thickness
    half = takes / 2 / max(math.sin(math.radians(meeting.angle)), STEEPEST)
    return side.at - half, side.at + half


def _spans(zones: Sequence[tuple[float, float]], clear: float) -> Iterator[_Span]:
    """The two spans of each bay: outside its middle third and clear of what holds the board."""
    for bay, (before, after) in enumerate(pairwise(zones)):
        start, end = sum(before) / 2, sum(after) / 2
        third, quarter = (end - start) / 3, (end - start) / 4
        near = _Span(bay, before[1] + clear, start + third, start + quarter)
        far = _Span(bay, end - third, after[0] - clear, end - quarter)
        yield from (span for span in (near, far) if span.low <= span.high)


def places(board: Board, zones: Sequence[tuple[float, float]], room: Room) -> tuple[float, ...]:
    """Where it is divided, from the datum end; empty where no sound places do."""
    spans = list(_spans(zones, CLEAR * board.thickest))
    needs: list[list[float]] = []
    for need in _needs(spans, board.length, room):
        needs.append(need)
        if any(place <= room.first + EVEN for place in need):
            return tuple(_chosen(spans, needs, room))
    return ()


def _needs(spans: Sequence[_Span], whole: float, room: Room) -> Iterator[list[float]]:
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


def _chosen(spans: Sequence[_Span], needs: Sequence[Sequence[float]], room: Room) -> Iterator[float]:
    """Place after place from the datum end: nearest to a quarter, else as far along as the stock allows."""
    bay, limit = -1, room.first
    for need in reversed(needs):
        able = [
            (span, _best(span, place, limit))
            for span, place in zip(spans, need, strict=True)
            if span.bay > bay and place <= limit + EVEN
        ]
        span, place = min(able, key=lambda found: (round(abs(found[1] - found[0].quarter)), -found[1]))
        yield place
        bay, limit = span.bay, place + room.middle


def _best(span: _Span, need: float, limit: float) -> float:
    """The quarter point, or what is nearest to it between what is needed and what the stock allows."""
    place = max(min(span.quarter, span.high, limit), need)
    rounded = math.floor(place / ROUND + EVEN) * ROUND
    return rounded if rounded >= need else place


def weak_places(board: Board, zones: Sequence[tuple[float, float]], at: Sequence[float]) -> Iterator[Finding]:
    """What is weak in the places that the maker chose, from the datum end."""
    clear = CLEAR * board.thickest
    middles = [sum(zone) / 2 for zone in zones]
    for place in at:
        near = min((max(low - place, place - high) for low, high in zones), default=math.inf)
        if near < clear - EVEN:
            yield _weak(board, f"divided {said(max(near, 0.0))} from what holds it", near, clear)
        for before, after in pairwise(middles):
            off, third = min(place - before, after - place), (after - before) / 3
            if off > third + EVEN:
                says = f"divided {said(off)} from the nearest joint, in the middle third of a bay"
                yield _weak(board, says, off, third)
    for start, end in pairwise([0.0, *sorted(at), board.length]) if at else ():
        if not any(start <= middle <= end for middle in middles):
            says = f"so divided that only a splice holds the member from {said(start)} to {said(end)}"
            yield _weak(board, says)


def _weak(board: Board, says: str, found: float | None = None, limit: float | None = None) -> Finding:
    return Finding(
        code=WEAK,
        severity=Severity.WARN,
        where=Where(boards=(board.name,), path=(*board.path, "splice_at")),
        says=f"{board.name} is {says}",
        remedy=f"divide it at a quarter of a bay, and {said(CLEAR * board.thickest)} or more from any joint",
        found=found,
        limit=limit,
        unit="" if found is None else "mm",
        source="common practice",
    )


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
                says=f"{part.id} wants a blank of {said(part.blank.length)}, its stock is {said(longest)} long",
                remedy="divide it elsewhere with splice_at, or take longer stock",
                found=part.blank.length,
                limit=longest,
                unit="mm",
            )
