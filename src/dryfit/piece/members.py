"""Boards longer than the stock: divided into members that meet in line.

Where: as the maker says (`splice_at`), else near a support, at a quarter of the bay where that can be and
never in its middle third, clear of other joints by twice the thickness, as few members as will do. A
decision is recorded for each board, so that "keep this" writes the places into the job file.

A divided board's members are boards like any other, called "NAME (1 of 2)". What the job says of the whole
board (joints, fixings, units, finish) is handed on to the member it concerns.
"""

import math
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise

from ..findings import Finding, Severity, declare, said
from ..job.model import BoardSpec, Fixing, Job, JointSpec
from ..places import Edit, Plain, Where
from ..units import Units
from .model import Board, Decision, Meeting

NO_PLACE = declare("no-place-to-divide", "A board is longer than its stock and no sound place was found to divide it.")

ABOUT = "where the board is divided"
CLEAR = 2.0  # times the thickness between a division and another joint (common practice)
ROUND = 0.5


@dataclass(frozen=True, slots=True, kw_only=True)
class Divided:
    """The job with its long boards taken apart, what was decided, and what was not found.

    Attributes:
        whole: the board of the job file that each member is part of, by the member's name.
    """

    job: Job
    decisions: tuple[Decision, ...] = ()
    findings: tuple[Finding, ...] = ()
    whole: Mapping[str, str] = field(default_factory=dict)

    def in_the_file(self, decision: Decision) -> Decision:
        """A decision whose "keep this" speaks of boards as the job file does."""
        keep = decision.keep
        if not self.whole or keep is None:
            return decision
        return replace(decision, keep=replace(keep, value=self._named(keep.value)))

    def cured_in_the_file(self, finding: Finding) -> Finding:
        """A finding whose cures speak of boards as the job file does; those that cannot are left out."""
        if not self.whole or not finding.cures:
            return finding
        cures = [
            replace(cure, edits=tuple(replace(edit, value=self._named(edit.value)) for edit in cure.edits))
            for cure in finding.cures
        ]
        return replace(finding, cures=tuple(cure for cure in cures if not any(_of_itself(edit) for edit in cure.edits)))

    def _named(self, value: Plain) -> Plain:
        if isinstance(value, str):
            return self.whole.get(value, value)
        if isinstance(value, list):
            return [self._named(item) for item in value]
        if isinstance(value, dict):
            return {key: self._named(item) for key, item in value.items()}
        return value


def _of_itself(edit: Edit) -> bool:
    """A joint between two members of one board has no place in the job file."""
    between = edit.value.get("between") if isinstance(edit.value, dict) else None
    return isinstance(between, list) and len(between) > 1 and between[0] == between[1]


def too_long(job: Job, boards: Iterable[Board], trim: float) -> list[Board]:
    """The boards that are to be divided: longer than their stock, or by the maker's word."""
    specs = {spec.name: spec for spec in job.boards}
    return [
        board
        for board in boards
        if specs[board.name].splice_at or board.length + 2 * trim + sum(board.scribe) > _longest(job, board)
    ]


def _longest(job: Job, board: Board) -> float:
    timber = job.timbers.get(board.timber)
    return math.inf if timber is None or timber.longest is None else timber.longest


def divide(job: Job, long: Sequence[Board], meetings: Sequence[Meeting], trim: float) -> Divided:
    """Take the long boards apart."""
    specs = {spec.name: spec for spec in job.boards}
    cuts: dict[str, tuple[float, ...]] = {}
    decisions: list[Decision] = []
    findings: list[Finding] = []
    for board in long:
        spec = specs[board.name]
        if spec.splice_at:
            places, sound = tuple(sorted(spec.splice_at)), True
        else:
            own = [
                place if not board.flipped else board.length - place for place in _places(job, board, meetings, trim)
            ]
            places, sound = tuple(sorted(own)), bool(own)
        if not sound:
            findings.append(_no_place(job, board))
            continue
        cuts[board.name] = places
        decisions.append(_decision(spec, places, job.units))
    apart, whole = _taken_apart(job, cuts, long, meetings)
    return Divided(job=apart, decisions=tuple(decisions), findings=tuple(findings), whole=whole)


def _places(job: Job, board: Board, meetings: Sequence[Meeting], trim: float) -> list[float]:
    """Places from the datum end, each as far along as the stock allows; empty where there is none."""
    zones = sorted(_zone(meeting, board) for meeting in meetings if board.name in meeting.key)
    reach = _longest(job, board) - 2 * trim - sum(board.scribe)
    allowed = [span for before, after in pairwise(zones) for span in _allowed(before, after, board)]
    places: list[float] = []
    start = 0.0
    while board.length - start > reach:
        limit = start + reach
        fits = [_best(span, limit) for span in allowed if start + CLEAR * board.thickest < span[0] <= limit]
        if not fits:
            return []
        start = max(fits)
        places.append(start)
    return places


def _zone(meeting: Meeting, board: Board) -> tuple[float, float]:
    """What a joint takes of the board, along it."""
    side, other = meeting.side(board.name), meeting.other(board.name)
    half = other.thickness / 2 / max(math.sin(math.radians(meeting.angle)), 0.25)
    return side.at - half, side.at + half


def _allowed(before: tuple[float, float], after: tuple[float, float], board: Board) -> list[tuple[float, float, float]]:
    """Spans of a bay outside its middle third and clear of the joints, each with its quarter point."""
    start, end = (before[0] + before[1]) / 2, (after[0] + after[1]) / 2
    third, quarter, clear = (end - start) / 3, (end - start) / 4, CLEAR * board.thickest
    spans = [
        (before[1] + clear, start + third, start + quarter),
        (end - third, after[0] - clear, end - quarter),
    ]
    return [span for span in spans if span[0] <= span[1]]


def _best(span: tuple[float, float, float], limit: float) -> float:
    """The quarter point where it can be, else as near to it as the span and the stock allow."""
    low, high, quarter = span
    return math.floor(min(max(quarter, low), high, limit) / ROUND) * ROUND


def _decision(spec: BoardSpec, places: tuple[float, ...], units: Units) -> Decision:
    value = " and ".join(said(place) for place in places)
    maker = bool(spec.splice_at)
    written: list[Plain] = [place if units == "mm" else f"{place:g} mm" for place in places]
    return Decision(
        about=ABOUT,
        key=(spec.name, spec.name),
        value=value,
        decider="maker" if maker else "chosen",
        reason="the job file says so"
        if maker
        else "near a support, clear of other joints, as long as the stock allows",
        keep=None if maker else Edit(action="set", path=(*spec.path, "splice_at"), value=written),
    )


def _no_place(job: Job, board: Board) -> Finding:
    longest = _longest(job, board)
    return Finding(
        code=NO_PLACE,
        severity=Severity.STOP,
        where=Where(boards=(board.name,), path=board.path),
        says=f"{board.name} is {said(board.length)} long, its stock {said(longest)}: no sound place to divide it",
        remedy="say where with splice_at, take longer stock, or put a support where it may be divided",
        found=board.length,
        limit=longest,
        unit="mm",
        source="common practice",
    )


def member_name(name: str, number: int, count: int) -> str:
    """What the members of a board are called, counted from its datum end."""
    return f"{name} ({number} of {count})"


@dataclass(frozen=True, slots=True)
class _Cut:
    """A board with the places where it is divided, from its line's start."""

    board: Board
    places: tuple[float, ...]

    @property
    def count(self) -> int:
        return len(self.places) + 1

    def name(self, number: int) -> str:
        """Of the member that is `number` from the line's start."""
        return member_name(self.board.name, self.count + 1 - number if self.board.flipped else number, self.count)

    def member_at(self, place: float) -> str:
        """The member at a place from the line's start."""
        return self.name(1 + sum(place > cut for cut in self.places))

    def member_with(self, meeting: Meeting) -> str:
        at = meeting.side(self.board.name).at
        return self.member_at(self.board.length - at if self.board.flipped else at)


def _taken_apart(
    job: Job, places: Mapping[str, tuple[float, ...]], long: Sequence[Board], meetings: Sequence[Meeting]
) -> tuple[Job, dict[str, str]]:
    if not places:
        return job, {}
    cuts = {board.name: _Cut(board, places[board.name]) for board in long if board.name in places}
    members = {spec.name: _members(spec, cuts[spec.name]) for spec in job.boards if spec.name in cuts}
    met = {meeting.key: meeting for meeting in meetings}

    def member(name: str, other: str) -> str:
        """The member of a board that meets another."""
        meeting = met.get((name, other)) or met.get((other, name))
        return name if name not in cuts or meeting is None else cuts[name].member_with(meeting)

    apart = replace(
        job,
        boards=tuple(part for spec in job.boards for part in members.get(spec.name, (spec,))),
        joint_specs=tuple(_joint(spec, member) for spec in job.joint_specs),
        fixings=tuple(own for fixing in job.fixings for own in _fixings(fixing, cuts)),
        units_glued=tuple(replace(unit, boards=_named(unit.boards, members)) for unit in job.units_glued),
        finish=replace(job.finish, before_assembly=_named(job.finish.before_assembly, members)),
    )
    return apart, {part.name: name for name, parts in members.items() for part in parts}


def _members(spec: BoardSpec, cut: _Cut) -> tuple[BoardSpec, ...]:
    """Boards from place to place along the line, each with what it keeps of the whole."""
    (x0, y0), (x1, y1) = spec.line
    size = math.hypot(x1 - x0, y1 - y0)
    found = []
    for number, (low, high) in enumerate(pairwise([0.0, *cut.places, size]), 1):
        first, last = number == 1, number == cut.count
        points = tuple((x0 + (x1 - x0) * at / size, y0 + (y1 - y0) * at / size) for at in (low, high))
        found.append(
            replace(
                spec,
                name=cut.name(number),
                line=(spec.line[0] if first else points[0], spec.line[1] if last else points[1]),
                ends=(spec.ends[0] if first else "square", spec.ends[1] if last else "square"),
                scribe=(spec.scribe[0] if first else 0.0, spec.scribe[1] if last else 0.0),
                thickness_at=tuple((at - low, thickness) for at, thickness in spec.thickness_at),
                splice_at=(),
            )
        )
    return tuple(found[::-1] if cut.board.flipped else found)


def _joint(spec: JointSpec, member: Callable[[str, str], str]) -> JointSpec:
    a, b = spec.between
    mine = (member(a, b), member(b, a))
    front = {a: mine[0], b: mine[1]}.get(spec.front, spec.front)
    return replace(spec, between=mine, front=front)


def _fixings(fixing: Fixing, cuts: Mapping[str, _Cut]) -> list[Fixing]:
    """One fixing for each member that it goes through, its places from the member's own start."""
    if fixing.board not in cuts:
        return [fixing]
    cut = cuts[fixing.board]
    by_member: dict[str, list[float]] = {}
    for at in fixing.at:
        start = max((place for place in cut.places if place < at), default=0.0)
        by_member.setdefault(cut.member_at(at), []).append(at - start)
    one = len(by_member) == 1
    return [
        replace(fixing, name=fixing.name if one else f"{fixing.name} {number}", board=board, at=tuple(by_member[board]))
        for number, board in enumerate(sorted(by_member), 1)
    ]


def _named(names: tuple[str, ...], members: Mapping[str, tuple[BoardSpec, ...]]) -> tuple[str, ...]:
    return tuple(
        own for name in names for own in ([part.name for part in members[name]] if name in members else [name])
    )
