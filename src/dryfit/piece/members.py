"""Boards longer than the stock: divided into members that meet in line.

Where is for `dividing` to say, or for the maker (`splice_at`). A decision is recorded for each board, so that
"keep this" writes the places into the job file.

A divided board's members are boards like any other, called "NAME (1 of 2)"; `taking_apart` hands on to them
what is said of the whole. What is said back, in cures and "keep this", speaks of the whole again.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from types import MappingProxyType

from pydantic import BaseModel

from ..findings import Finding, Severity, declare, owns
from ..geometry.frames import length
from ..job.model import BoardSpec, Job
from ..job.names import MEMBER
from ..job.options import references
from ..job.writing import only_this_one
from ..places import Cure, Edit, Plain, Where
from ..sentences import Length, Name, Sentence, Several, Words, renamed, say
from .dividing import (
    Room,
    any_spans,
    inner_spans,
    longer_stock,
    longest_of,
    places,
    room_of,
    sound_spans,
    weak_places,
    zones_of,
)
from .kinds import Kinds
from .model import FAR_END, Board, Decision, Joint, Meeting, Part
from .movable import kept_where
from .setout import Made
from .taking_apart import Division, taken_apart

NO_PLACE = declare(
    "no-place-to-divide",
    "A board is longer than its stock and no sound place was found to divide it.",
    uncured="how long the board is, and where it may be divided, is a choice of design",
)
owns("stock", NO_PLACE)

ABOUT = "where the board is divided"


@dataclass(frozen=True, slots=True, kw_only=True)
class Divided:
    """The job with its long boards taken apart, what was decided, and what was not found.

    Attributes:
        made: what has been made, as handed on to the members.
        whole: the board of the job file that each member is part of, by the member's name.
        cramped: wholes for whose splices there is no sound place, or only with more members where nobody asks for
            splices: they are divided where flush joints would be.
    """

    job: Job
    made: Made
    decisions: tuple[Decision, ...] = ()
    findings: tuple[Finding, ...] = ()
    whole: Mapping[str, str] = field(default_factory=dict)
    cramped: frozenset[str] = frozenset()


def divide(
    job: Job,
    made: Made,
    long: Sequence[Part],
    meetings: Sequence[Meeting],
    trim: float,
    kinds: Kinds,
    reach: Mapping[str, float] = MappingProxyType({}),
) -> Divided:
    """Take the long boards apart.

    Args:
        job: with the whole boards.
        made: what has been made of them.
        long: what is to be divided: see `dividing.too_long`.
        meetings: of all the whole boards.
        trim: left at each end of a blank.
        kinds: of joints; their options may name a board.
        reach: how far a board's splices run past the places where it is divided, by its name; left out: not at all.
    """
    specs = {spec.name: spec for spec in job.boards}
    divisions: dict[str, Division] = {}
    findings: list[Finding] = []
    cramped: set[str] = set()
    for part in long:
        board, spec, past = part.board, specs[part.id], reach.get(part.id, 0.0)
        zones = zones_of(job, board, meetings)
        at = _places_of(board, spec)
        findings += weak_places(board, zones, at, past)
        if not at:
            longest = longest_of(job, board)
            room = room_of(part, longest, trim)
            at = flush = _by_rule(board, zones, room)
            if past:
                at = _by_rule(board, zones, room_of(part, longest, trim, past), past)
            if flush and (not at or (len(at) > len(flush) and left_open(job, part.id))):
                cramped.add(board.name)
                at = flush
                findings += weak_places(board, zones, at, past)
            if not at:
                elsewhere = places(any_spans(board, zones), board.length, room)
                findings.append(_no_place(job, part, spec, elsewhere))
        if at:
            divisions[board.name] = Division(board, at, past)
    models: list[type[BaseModel]] = [kind.options for kind in kinds.values()]
    named = {name for model in models for name in references(model)}
    apart, handed_on = taken_apart(job, made, divisions, meetings, named) if divisions else (job, made)
    return Divided(
        job=apart,
        made=handed_on,
        decisions=tuple(_decisions(job, specs, divisions)),
        findings=tuple(findings),
        whole={member: name for name, division in divisions.items() for member in division.names},
        cramped=frozenset(cramped),
    )


def reaches(joints: Iterable[Joint], parts: Iterable[Part], whole: Mapping[str, str]) -> dict[str, float]:
    """How far splices between members of one board run past where it is divided, at the most, by the whole's name."""
    of = {part.id: part for part in parts}
    found: dict[str, float] = {}
    for meeting in (joint.meeting for joint in joints if joint.meeting.form == "in line"):
        name = whole.get(meeting.a.body, "")
        if name and name == whole.get(meeting.b.body):
            for side in (meeting.a, meeting.b):
                low, high = of[side.body].long
                past = length(high - side.at if side.end == FAR_END else side.at - low)
                found[name] = max(found.get(name, 0.0), past)
    return {name: past for name, past in found.items() if past > 0.0}


def left_open(job: Job, name: str) -> bool:
    """Whether the job leaves open how a board's members are joined: by no rule, and by no table of such a joint."""
    asked = (spec.between for spec in job.joint_specs if spec.kind or spec.options)
    return not job.joints.in_line_named and not any(_both_of(name, pair) for pair in asked)


def _both_of(name: str, pair: Iterable[str]) -> bool:
    found = [MEMBER.fullmatch(one) for one in pair]
    return all(match is not None and match[1] == name for match in found)


def _by_rule(board: Board, zones: Sequence[tuple[float, float]], room: Room, reach: float = 0.0) -> tuple[float, ...]:
    """Where it is divided by rule: by inner supports, unless only others do, or do with fewer members."""
    spans = sound_spans(board, zones, reach)
    inner = places(inner_spans(spans, len(zones) - 1), board.length, room)
    every = places(spans, board.length, room)
    return inner if inner and len(inner) <= len(every) else every


def _places_of(board: Board, spec: BoardSpec) -> tuple[float, ...]:
    """The maker's places, from the datum end; rounded, so that writing them from the other end changes none."""
    at = (board.length - place if board.flipped else place for place in spec.splice_at)
    return tuple(sorted(length(place) for place in at))


def _decisions(job: Job, specs: Mapping[str, BoardSpec], divisions: Mapping[str, Division]) -> Iterator[Decision]:
    for name, division in divisions.items():
        maker = bool(specs[name].splice_at)
        yield Decision(
            about=ABOUT,
            key=(name, name),
            value=_told(division.places),
            decider="maker" if maker else "chosen",
            reason="the job file says so" if maker else "near a support, clear of other joints, as few members as do",
            keep=None if maker else _keep(job, specs[name], divisions),
        )


def _told(at: Sequence[float]) -> Sentence:
    return say("{} from its datum end", Several(tuple(map(Length, at))))


def _keep(job: Job, spec: BoardSpec, divisions: Mapping[str, Division]) -> Edit | None:
    """What writes the places: for the whole row, where they serve all of it; a frame's side has no word for them."""
    if spec.frame:
        return None
    typed = _typed(divisions[spec.name].board, divisions[spec.name].places)
    row = [divisions.get(other.name) for other in job.boards if other.path == spec.path]
    every = all(other is not None and _typed(other.board, other.places) == typed for other in row)
    return _written(job, spec, typed, every=every)


def _typed(board: Board, at: Iterable[float]) -> tuple[float, ...]:
    """Places from the datum end as the job file gives them, from the start of the line."""
    return tuple(sorted(length(board.length - place if board.flipped else place) for place in at))


def divide_edit(job: Job, spec: BoardSpec, board: Board, at: float) -> Edit:
    """The edit that divides one board at a place from its datum end, and no other of its row."""
    alone = sum(other.path == spec.path for other in job.boards) == 1
    return _written(job, spec, _typed(board, (at,)), every=alone)


def _written(job: Job, spec: BoardSpec, typed: Iterable[float], *, every: bool) -> Edit:
    """The edit that divides a board there; `every` where it is to serve the board's whole row."""
    value: list[Plain] = [place if job.units == "mm" else f"{place:.10g} mm" for place in typed]
    if every:
        return Edit(action="set", path=(*spec.path, "splice_at"), value=value)
    return only_this_one(job.text, spec.path, spec.index, {"splice_at": value})


def _no_place(job: Job, part: Part, spec: BoardSpec, elsewhere: Sequence[float]) -> Finding:
    longest, board = longest_of(job, part.board), part.board
    where = "draw this side as boards of its own" if spec.frame else "say where with splice_at"
    return Finding(
        code=NO_PLACE,
        severity=Severity.STOP,
        where=Where(boards=(part.id,), path=board.path),
        says=say(
            "{} needs a blank of {}; its stock is {} long, and there is no sound place to divide it",
            Name(part.id),
            Length(part.blank.length),
            Length(longest),
        ),
        remedy=say("{}, use longer stock, or put a support where it may be divided", where),
        found=part.blank.length,
        limit=longest,
        unit="mm",
        source="common practice",
        cures=(*_divided_elsewhere(job, spec, board, elsewhere), longer_stock(job, part)),
    )


def _divided_elsewhere(job: Job, spec: BoardSpec, board: Board, elsewhere: Sequence[float]) -> Iterator[Cure]:
    """Where a splice is weaker than by rule: better than no piece at all, and a warning says so."""
    if elsewhere and not spec.frame:
        alone = sum(other.path == spec.path for other in job.boards) == 1
        edit = _written(job, spec, _typed(board, elsewhere), every=alone)
        yield Cure(label=say("divide {} {}", Name(board.name), _told(elsewhere)), edits=(edit,))


# ---- what is said of members, said of their wholes again


class _OfAMemberError(Exception):
    """A change that is of one member alone has no words in the job file."""


def decision_in_the_file(decision: Decision, whole: Mapping[str, str]) -> Decision:
    """A decision whose "keep this" speaks of boards as the job file does; without one where it cannot."""
    if not whole or decision.keep is None:
        return decision
    kept = _edits_in_the_file((decision.keep,), whole)
    return replace(decision, keep=kept[0] if kept else None)


def finding_in_the_file(finding: Finding, whole: Mapping[str, str]) -> Finding:
    """A finding whose cures speak of boards as the job file does; of those that cannot it is said."""
    if not whole or not finding.cures:
        return finding
    return kept_where(
        finding,
        (
            replace(cure, label=_label_in_the_file(cure.label, whole), edits=_edits_in_the_file(cure.edits, whole))
            for cure in finding.cures
        ),
    )


def _label_in_the_file(label: Words, whole: Mapping[str, str]) -> Words:
    return renamed(label, lambda name: whole.get(name, name))


def _edits_in_the_file(edits: Iterable[Edit], whole: Mapping[str, str]) -> tuple[Edit, ...]:
    """The edits in the names of the file; none where one of them cannot be said."""
    try:
        return tuple(replace(edit, value=_in_the_file(edit.value, whole)) for edit in edits)
    except _OfAMemberError:
        return ()


def _in_the_file(value: Plain, whole: Mapping[str, str]) -> Plain:
    if isinstance(value, str):
        return whole.get(value, value)
    if isinstance(value, list):
        return _list_in_the_file(value, whole)
    if isinstance(value, dict):
        return {
            key: _pair_in_the_file(item, whole)
            if key == "between" and isinstance(item, list)
            else _in_the_file(item, whole)
            for key, item in value.items()
        }
    return value


def _list_in_the_file(names: list[Plain], whole: Mapping[str, str]) -> list[Plain]:
    """A list of boards holds all members of one, which its whole's name stands for, or none."""
    found: list[Plain] = []
    for name in names:
        own = whole.get(name) if isinstance(name, str) else None
        if own is not None and not all(member in names for member, of in whole.items() if of == own):
            raise _OfAMemberError
        said_so = _in_the_file(name, whole)
        if own is None or said_so not in found:
            found.append(said_so)
    return found


def _pair_in_the_file(names: list[Plain], whole: Mapping[str, str]) -> list[Plain]:
    """The boards of a joint, known by its pair; one between members of the same board is none of the file's."""
    pair: list[Plain] = [whole.get(name, name) if isinstance(name, str) else name for name in names]
    if len(pair) == 2 and pair[0] == pair[1]:
        raise _OfAMemberError
    return pair


def with_pins_of_wholes(made: Made) -> Made:
    """What has been made, with a pin for the whole of every board whose members are pinned.

    Members are counted from the whole's datum end: without this, dragging a divided board past 45 would
    count them from the other end.
    """
    found = ((MEMBER.fullmatch(name), pin) for name, pin in made.pins.items())
    wholes = {match[1]: replace(pin, mark="") for match, pin in found if match and match[1] not in made.pins}
    return replace(made, pins={**made.pins, **wholes}) if wholes else made
