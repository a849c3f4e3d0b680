"""Boards longer than the stock: divided into members that meet in line.

Where is for `dividing` to say, or for the maker (`splice_at`). A decision is recorded for each board, so that
"keep this" writes the places into the job file.

A divided board's members are boards like any other, called "NAME (1 of 2)". What the job says of the whole
board (joints, fixings, units, finish) and what was made of it (thickness, pins, cut slots) is handed on to the
member it concerns; what is said back, in cures and "keep this", speaks of the whole again.
"""

import math
import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise

from ..findings import Finding, Severity, declare, said
from ..job.model import BoardSpec, Fixing, FrameSpec, Job, JointSpec
from ..job.writing import only_this_one
from ..places import Edit, Plain, Where
from ..units import Units
from .dividing import longest_of, places, room_of, weak_places, zones_of
from .meetings import pair_key
from .model import Board, Decision, Meeting
from .setout import Made, Pin

NO_PLACE = declare("no-place-to-divide", "A board is longer than its stock and no sound place was found to divide it.")

ABOUT = "where the board is divided"
MEMBER = re.compile(r"(.+) \([0-9]+ of [0-9]+\)")  # what `member_name` makes, with the whole's name in it


@dataclass(frozen=True, slots=True, kw_only=True)
class Divided:
    """The job with its long boards taken apart, what was decided, and what was not found.

    Attributes:
        made: what has been made, as handed on to the members.
        whole: the board of the job file that each member is part of, by the member's name.
    """

    job: Job
    made: Made
    decisions: tuple[Decision, ...] = ()
    findings: tuple[Finding, ...] = ()
    whole: Mapping[str, str] = field(default_factory=dict)


def decision_in_the_file(decision: Decision, whole: Mapping[str, str]) -> Decision:
    """A decision whose "keep this" speaks of boards as the job file does; without one where it cannot."""
    keep = decision.keep
    if not whole or keep is None:
        return decision
    said_so = replace(keep, value=_in_the_file(keep.value, whole))
    return replace(decision, keep=None if _of_itself(said_so) else said_so)


def finding_in_the_file(finding: Finding, whole: Mapping[str, str]) -> Finding:
    """A finding whose cures speak of boards as the job file does; those that cannot are left out."""
    if not whole or not finding.cures:
        return finding
    cures = [
        replace(cure, edits=tuple(replace(edit, value=_in_the_file(edit.value, whole)) for edit in cure.edits))
        for cure in finding.cures
    ]
    return replace(finding, cures=tuple(cure for cure in cures if not any(_of_itself(edit) for edit in cure.edits)))


def _in_the_file(value: Plain, whole: Mapping[str, str]) -> Plain:
    if isinstance(value, str):
        return whole.get(value, value)
    if isinstance(value, list):
        return [_in_the_file(item, whole) for item in value]
    if isinstance(value, dict):
        return {key: _in_the_file(item, whole) for key, item in value.items()}
    return value


def _of_itself(edit: Edit) -> bool:
    """A joint between two members of one board has no place in the job file."""
    between = edit.value.get("between") if isinstance(edit.value, dict) else None
    return isinstance(between, list) and len(between) > 1 and between[0] == between[1]


def with_pins_of_wholes(made: Made) -> Made:
    """What has been made, with a pin for the whole of every board whose members are pinned.

    Members are counted from the whole's datum end: without this, dragging a divided board past 45 would
    count them from the other end.
    """
    found = ((MEMBER.fullmatch(name), pin) for name, pin in made.pins.items())
    wholes = {match[1]: replace(pin, mark="") for match, pin in found if match and match[1] not in made.pins}
    return replace(made, pins={**made.pins, **wholes}) if wholes else made


def divide(job: Job, made: Made, long: Sequence[Board], meetings: Sequence[Meeting], trim: float) -> Divided:
    """Take the long boards apart."""
    specs = {spec.name: spec for spec in job.boards}
    cuts: dict[str, _Cut] = {}
    findings: list[Finding] = []
    for board in long:
        spec, zones = specs[board.name], zones_of(job, board, meetings)
        own = [_turned(board, at) for at in spec.splice_at]
        findings += weak_places(board, zones, own)
        own = own or list(places(board, zones, room_of(job, board, meetings, trim)))
        if own:
            # the maker's places to the last bit, since they are what the file says
            cuts[board.name] = _Cut(board, spec.splice_at or tuple(sorted(_turned(board, at) for at in own)))
        else:
            findings.append(_no_place(job, board))
    return _taken_apart(
        Divided(job=job, made=made, decisions=tuple(_decisions(job, specs, cuts)), findings=tuple(findings)),
        cuts,
        meetings,
    )


def _turned(board: Board, place: float) -> float:
    """A place counted from the line's start as one from the datum end, or the other way."""
    return board.length - place if board.flipped else place


def _decisions(job: Job, specs: Mapping[str, BoardSpec], cuts: Mapping[str, "_Cut"]) -> Iterable[Decision]:
    for name, cut in cuts.items():
        maker = bool(specs[name].splice_at)
        yield Decision(
            about=ABOUT,
            key=(name, name),
            value=" and ".join(said(place) for place in cut.places),
            decider="maker" if maker else "chosen",
            reason="the job file says so" if maker else "near a support, clear of other joints, as few members as do",
            keep=None if maker else _keep(job, specs[name], cuts),
        )


def _keep(job: Job, spec: BoardSpec, cuts: Mapping[str, "_Cut"]) -> Edit | None:
    """What writes the places: for the row, where they serve all of it; a frame's side has no word for them."""
    if spec.frame:
        return None
    at = cuts[spec.name].places
    row = [other.name for other in job.boards if other.path == spec.path]
    written = _written(at, job.units)
    if all(name in cuts and cuts[name].places == at for name in row):
        return Edit(action="set", path=(*spec.path, "splice_at"), value=written)
    return only_this_one(job.text, spec.path, spec.index, {"splice_at": written})


def _written(at: Iterable[float], units: Units) -> list[Plain]:
    return [place if units == "mm" else f"{place:g} mm" for place in at]


def _no_place(job: Job, board: Board) -> Finding:
    longest = longest_of(job, board)
    where = "draw this side as boards of its own" if board.frame_name else "say where with splice_at"
    return Finding(
        code=NO_PLACE,
        severity=Severity.STOP,
        where=Where(boards=(board.name,), path=board.path),
        says=f"{board.name} is {said(board.length)} long, its stock {said(longest)}: no sound place to divide it",
        remedy=f"{where}, take longer stock, or put a support where it may be divided",
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


def _taken_apart(divided: Divided, cuts: Mapping[str, _Cut], meetings: Sequence[Meeting]) -> Divided:
    if not cuts:
        return divided
    job = divided.job
    members = {spec.name: _members(spec, cuts[spec.name]) for spec in job.boards if spec.name in cuts}
    met = {meeting.key: meeting for meeting in meetings}

    def member(name: str, other: str) -> str:
        """The member of a board that meets another."""
        meeting = met.get((name, other)) or met.get((other, name))
        return name if name not in cuts or meeting is None else cuts[name].member_with(meeting)

    apart = replace(
        job,
        boards=tuple(part for spec in job.boards for part in members.get(spec.name, (spec,))),
        frames=tuple(_frame(frame, members) for frame in job.frames),
        joint_specs=tuple(_joint(spec, member) for spec in job.joint_specs),
        fixings=tuple(own for fixing in job.fixings for own in _fixings(fixing, cuts)),
        units_glued=tuple(replace(unit, boards=_named(unit.boards, members)) for unit in job.units_glued),
        finish=replace(job.finish, before_assembly=_named(job.finish.before_assembly, members)),
    )
    whole = {part.name: name for name, parts in members.items() for part in parts}
    return replace(divided, job=apart, made=_made(divided.made, cuts, member), whole=whole)


def _made(made: Made, cuts: Mapping[str, _Cut], member: Callable[[str, str], str]) -> Made:
    """What has been made of the whole boards, handed on; what is said of a member by its own name holds."""
    pins, thickness = dict(made.pins), dict(made.thickness)
    for name, cut in cuts.items():
        for number, low in enumerate([0.0, *cut.places], 1):
            own = cut.name(number)
            if name in made.pins:
                pins.setdefault(own, Pin(datum=made.pins[name].datum, face_side=made.pins[name].face_side))
            if name in made.thickness:
                thickness.setdefault(own, tuple((at - low, thick) for at, thick in made.thickness[name]))
    fronts = dict(made.fronts)
    for (a, b), front in made.fronts.items():
        own_a, own_b = member(a, b), member(b, a)
        fronts.setdefault(pair_key(own_a, own_b), {a: own_a, b: own_b}.get(front, front))
    return Made(pins=pins, thickness=thickness, fronts=fronts)


def _frame(frame: FrameSpec, members: Mapping[str, tuple[BoardSpec, ...]]) -> FrameSpec:
    return replace(frame, boards=_named(frame.boards, members))


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
