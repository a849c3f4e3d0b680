"""Choosing a kind of joint for each meeting: the maker's word, else the rule for such meetings.

Ends in line for which the job names no kind are spliced, or where that cannot be butted and dowelled, by a decision,
and never stop for that.

What cannot be made is reported at its meeting and left unmade; the rest of the piece goes on.
"""

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import partial
from typing import Any

from pydantic import ValidationError

from ..findings import Finding, Severity, declare, owns, printed, question
from ..job.arithmetic import ArithmeticMistake
from ..job.mistakes import explained
from ..job.model import Fixing, Job, JointSpec
from ..job.options import Options, evaluated
from ..keeping import Keep, Same
from ..lengths import LengthUnit
from ..places import Cure, Edit, Pair, Plain, Where
from ..sentences import Name, Sentence, Several, Value, Words, a, say
from .fixings import off_the_board, wall_options
from .kinds import OPTION, JointKind, Kinds
from .meetings import fixing_called, pair_key
from .model import WALL, Decision, Judgement, Meeting

JOINTS = question("joints", "how boards meet and are joined", lambda piece: piece.in_several or piece.is_fixed)
KIND_NOT_MADE = declare(
    "joint-not-made-yet",
    "A kind of joint that Dryfit knows by name but cannot make yet.",
    several="{} joints meet {}: a {} cannot be made yet",
    uncured="no other kind suits how these boards meet",
)
KIND_UNSUITED = declare(
    "joint-unsuited",
    "The kind of joint asked for does not suit how the boards meet.",
    uncured="no other kind suits how these boards meet",
)
NOT_JOINED = declare(
    "not-joined",
    "Two boards stand in each other's way and no joint is cut for them.",
    uncured="no short move is known that clears them: which of the two gives way is a choice of design",
)
LAID_ON = declare(
    "laid-on",
    "Two boards touch without a joint: nothing is cut.",
    uncured="nothing need be changed: glue or screw them, or not, as you like",
)
OPTION_FAULT = declare(
    "joint-option",
    "An option of a joint does not suit its kind, or cannot be worked out here.",
    uncured="which value is meant is known to whoever wrote it",
)
NO_MEETING = declare(
    "joint-without-meeting",
    "A joint is asked for between boards that do not meet.",
    uncured="the job's tables of fixings and rows have no joint to take out",
)
owns(JOINTS, KIND_NOT_MADE, KIND_UNSUITED, NOT_JOINED, LAID_ON, OPTION_FAULT, NO_MEETING)
UNMADE = frozenset({KIND_NOT_MADE, KIND_UNSUITED, NOT_JOINED, OPTION_FAULT})  # no joint is made for the pair named

_RULE = {"crossing": "crossing", "end on face": "end_on_face", "corner": "corner", "in line": "in_line"}
_IN_LINE = "butt"  # in the stead of what cannot be made, where the job names no kind, or names one not made yet
ABOUT_IN_LINE = "how the ends in line are joined"
_CROSSED_FLAT = "notch"  # the flat board stays whole


class _OptionError(ValueError):
    """An option that cannot be used at a meeting."""

    def __init__(self, says: Words, remedy: Words) -> None:
        super().__init__(says)
        self.says, self.remedy = says, remedy


@dataclass(frozen=True, slots=True, kw_only=True)
class Chosen:
    """A meeting with the kind that will join it.

    Attributes:
        asked: its options as the job has them, lengths worked out; what is left out there is still left out.
        options: the same with what the kind takes for that.
    """

    meeting: Meeting
    kind: JointKind[Any]
    asked: Options
    options: Options
    spec: JointSpec | None


def chosen_so(meeting: Meeting, kind: JointKind[Any], asked: Options, spec: JointSpec | None, keep: Keep) -> Chosen:
    """A meeting joined as is asked for, what is left out worked out by the kind, which has been judged possible."""
    key = (Same(meeting), kind.name, Same(asked))
    options = keep.get("worked", key, lambda: kind.worked(meeting, asked))
    return Chosen(meeting=meeting, kind=kind, asked=asked, options=options, spec=spec)


@dataclass(frozen=True, slots=True, kw_only=True)
class Choices:
    """What is joined and how, and what could not be."""

    chosen: tuple[Chosen, ...]
    findings: tuple[Finding, ...]
    decisions: tuple[Decision, ...] = ()


def choose(
    meetings: tuple[Meeting, ...],
    job: Job,
    kinds: Kinds,
    keep: Keep,
    wholes: Iterable[str] = (),
    flush: Collection[str] = (),
) -> Choices:
    """Choose a kind and its options for every meeting.

    Args:
        meetings: of all boards.
        job: with its rules, and its own words for some of them.
        kinds: there are.
        keep: what is known.
        wholes: boards of the file that are divided.
        flush: members of these whose stock leaves nothing past where they are divided, if nobody asks for it.
    """
    specs = {pair_key(*spec.between): spec for spec in job.joint_specs}
    chosen: list[Chosen] = []
    findings: list[Finding] = []
    for meeting in meetings:
        spec = specs.get(meeting.key)
        answer = _choose_one(meeting, job, spec, kinds, keep, flush=flush)
        if isinstance(answer, Chosen):
            chosen.append(answer)
            wanted = (spec.kind if spec else "") or job.joints.in_line
            if meeting.form == "in line" and wanted not in kinds:
                findings.append(_not_made(meeting, wanted, spec, _able(meeting, job, kinds, keep)))
        elif answer is not None:
            findings.append(answer)
    findings.extend(_unmet(specs, meetings, {board.name for board in job.boards}.union(wholes)))
    decisions = (_spliced(item, job) for item in chosen if not _named(item.meeting, item.spec, job))
    return Choices(chosen=tuple(chosen), findings=tuple(findings), decisions=tuple(decisions))


def _named(meeting: Meeting, spec: JointSpec | None, job: Job) -> bool:
    """Whether the job names the kind of such a joint, or another rule than that for ends in line does."""
    return meeting.form != "in line" or job.joints.in_line_named or bool(spec and spec.kind)


def _spliced(item: Chosen, job: Job) -> Decision:
    named = item.kind.name == job.joints.in_line
    return Decision(
        about=ABOUT_IN_LINE,
        key=item.meeting.key,
        value=say("{}, {}", item.kind.name, item.kind.held(item.options)),
        decider="chosen",
        reason="the job names no kind for boards in line"
        if named
        else say("the job names no kind for boards in line, and {} finds no room here", a(job.joints.in_line)),
        keep=Edit(action="set", path=("joints", "in_line"), value=item.kind.name),
    )


def wanted_by(job: Job, meeting: Meeting, spec: JointSpec | None) -> str:
    """The kind that the job names for a meeting, by its own table, else by the rule; "" for none."""
    rule = _RULE.get(meeting.form, "")
    return (spec.kind if spec else "") or (getattr(job.joints, rule) if rule else "")


def _choose_one(
    meeting: Meeting, job: Job, spec: JointSpec | None, kinds: Kinds, keep: Keep, *, flush: Collection[str] = ()
) -> Chosen | Finding | None:
    if meeting.form == "touching" and not (spec and spec.kind):
        return _laid_on(meeting)
    wanted = name = wanted_by(job, meeting, spec)
    if not name and meeting.form == "crossed flat":
        name = _CROSSED_FLAT
    if not name:
        return _not_joined(meeting)
    if name not in kinds:
        if meeting.form != "in line" or _IN_LINE not in kinds:
            return _not_made(meeting, name, spec, _able(meeting, job, kinds, keep))
        name = _IN_LINE
        if spec is not None and spec.kind:
            spec = replace(spec, options={})  # they are of the kind that cannot be made yet
    kind = kinds[name]
    if (meeting.a.touch, meeting.b.touch) not in kind.serves:
        judgement = Judgement.refused(_serves_not(name, meeting))
        return _unsuited(meeting, judgement, spec, _able(meeting, job, kinds, keep))
    if not _named(meeting, spec, job) and not (spec and spec.options):
        past = {meeting.a.body, meeting.b.body}.isdisjoint(flush)
        return _in_line(meeting, job, spec, (kind, kinds[_IN_LINE]) if past else (kinds[_IN_LINE],), keep)
    return _as_asked(meeting, job, spec, kind, wanted, kinds, keep)


def _serves_not(kind: str, meeting: Meeting) -> Sentence:
    return say("{} does not suit {}", a(kind), _MEETS.get(meeting.form) or a(meeting.form))


def _in_line(
    meeting: Meeting, job: Job, spec: JointSpec | None, able: tuple[JointKind[Any], ...], keep: Keep
) -> Chosen | Finding | None:
    """What nobody asked for must not stop: with the options of the whole piece where they serve, else plainer.

    Args:
        able: kinds, the first to be taken where it can be made; the last in any case.
    """
    *_, last = able
    for kind in able:
        rules = repr(job.joints.options_of(kind.name, kind.options.model_fields))
        key = (Same(meeting), kind.name, rules, job.units, tuple(job.measures.items()))
        options, serves = keep.get("in line", key, partial(_serving, meeting, job, kind, keep))
        if serves or kind is last:
            return chosen_so(meeting, kind, options, spec, keep)
    return None


def _serving(meeting: Meeting, job: Job, kind: JointKind[Any], keep: Keep) -> tuple[Options, bool]:
    """The first options with which the kind can be made here without a stop; else the plainest, which do not."""
    try:
        asked: list[Options] = [_options(meeting, job, None, kind, keep)]
    except _OptionError:
        asked = []
    plainer = [evaluated(_validated(kind, options), {}, job.units) for options in kind.plainer]
    for options in (*asked, *plainer):
        if kind.judge(meeting, options).possible and not _stops(kind, meeting, options):
            return options, True
    return plainer[-1], False


def _as_asked(
    meeting: Meeting, job: Job, spec: JointSpec | None, kind: JointKind[Any], wanted: str, kinds: Kinds, keep: Keep
) -> Chosen | Finding | None:
    """With the options that the job gives; a finding where they cannot be made."""
    try:
        options = _options(meeting, job, spec, kind, keep)
    except _OptionError as mistake:
        return _fault(meeting, mistake, spec)
    judgement = kind.judge(meeting, options)
    if not judgement.possible:
        if wanted and wanted not in kinds:  # the maker has not asked for what was tried in its stead
            return _not_made(meeting, wanted, spec, ())
        others = tuple(name for name in _able(meeting, job, kinds, keep) if name != kind.name)
        unsuited = _unsuited(meeting, judgement, spec, others)
        return _written_where(unsuited, meeting, kind.name, spec, job.units)
    return chosen_so(meeting, kind, options, spec, keep)


def choose_fixings(fixings: tuple[tuple[Meeting, Fixing], ...], job: Job, kinds: Kinds, keep: Keep) -> Choices:
    """Choose the options of every fixing; its kind is the maker's."""
    chosen: list[Chosen] = []
    findings: list[Finding] = []
    for meeting, fixing in fixings:
        asked = JointSpec(between=meeting.key, kind=fixing.kind, options=fixing.options, path=fixing.path)
        answer = _choose_one(meeting, job, asked, kinds, keep)
        if isinstance(answer, Chosen):
            chosen.append(answer)
        elif answer is not None:
            findings.append(answer)
        findings.extend(off_the_board(meeting))
    return Choices(chosen=tuple(chosen), findings=tuple(findings))


def _options(meeting: Meeting, job: Job, spec: JointSpec | None, kind: JointKind[Any], keep: Keep) -> Options:
    """Options of the kind for the whole piece, overlaid by those of this joint, worked out here.

    Raises:
        _OptionError: one of them is none of this kind, or cannot be worked out.
    """
    fields = kind.options.model_fields
    from_wall = wall_options(job.wall) if meeting.form == "fixing" else {}
    asked = {
        **{name: value for name, value in from_wall.items() if name in fields},
        **job.joints.options_of(kind.name, fields),
        **(spec.options if spec else {}),
    }
    key = (kind.name, tuple(sorted((name, repr(value)) for name, value in asked.items())))
    options = keep.get("options", key, lambda: _validated(kind, asked))
    low, high = meeting.overlap
    scope: Mapping[str, float] = {
        **job.measures,
        "t_a": meeting.a.thickness,
        "t_b": meeting.b.thickness,
        "overlap": high - low,
    }
    try:
        worked: Options = evaluated(options, scope, job.units)
    except ArithmeticMistake as mistake:
        raise _OptionError(mistake.says, mistake.remedy) from None
    return worked


def _validated(kind: JointKind[Any], asked: Mapping[str, object]) -> Options:
    """The kind's options as the maker wrote them."""
    try:
        return kind.options.model_validate(dict(asked))
    except ValidationError as error:
        raise _OptionError(*explained(kind.options, error, f"a {kind.name}")) from None


def _where(meeting: Meeting, spec: JointSpec | None = None) -> Where:
    return Where(boards=(meeting.a.body, meeting.b.body), joint=meeting.key, path=spec.path if spec else None)


def _laid_on(meeting: Meeting) -> Finding:
    a, b = meeting.a.body, meeting.b.body
    return Finding(
        code=LAID_ON,
        severity=Severity.NOTE,
        where=_where(meeting),
        says=say("{} touches {}; nothing is cut", Name(a), Name(b)),
        remedy="glue or screw it",
    )


def _not_joined(meeting: Meeting) -> Finding:
    a, b = meeting.a.body, meeting.b.body
    return Finding(
        code=NOT_JOINED,
        severity=Severity.STOP,
        where=_where(meeting),
        says=say("{} and {} stand in each other's way and no joint is cut for them", Name(a), Name(b)),
        remedy=say("move or shorten {} so that it clears {}", Name(a), Name(b)),
    )


def _able(meeting: Meeting, job: Job, kinds: Kinds, keep: Keep) -> tuple[str, ...]:
    """The kinds that could be made here as the job's rules stand."""
    able = []
    for name, kind in kinds.items():
        if (meeting.a.touch, meeting.b.touch) not in kind.serves:
            continue
        try:
            options = _options(meeting, job, None, kind, keep)
        except _OptionError:
            continue
        if kind.judge(meeting, options).possible and not _stops(kind, meeting, options):
            able.append(name)
    return tuple(able)


def _stops(kind: JointKind[Any], meeting: Meeting, options: Options) -> bool:
    """Whether a joint, made the plainest way, has something that must change before the first cut."""
    worked = kind.worked(meeting, options)
    made = kind.make(meeting, worked, kind.makings(meeting, worked)[0])
    return any(finding.severity is Severity.STOP for finding in made.findings)


def judged(meeting: Meeting, job: Job, kinds: Kinds, keep: Keep) -> tuple[tuple[str, Judgement], ...]:
    """What every kind says of a meeting, with the options that the joint at hand has: for whoever may choose."""
    spec = next((spec for spec in job.joint_specs if pair_key(*spec.between) == meeting.key), None)
    found = []
    for name, kind in kinds.items():
        if (meeting.a.touch, meeting.b.touch) not in kind.serves:
            found.append((name, Judgement(possible=False, reasons=(_serves_not(name, meeting),))))
            continue
        own = spec if spec is not None and spec.kind == name else None
        try:
            found.append((name, kind.judge(meeting, _options(meeting, job, own, kind, keep))))
        except _OptionError as mistake:
            found.append((name, Judgement(possible=False, reasons=(mistake.says,))))
    return tuple(found)


_MEETS = {
    "in line": "boards in line",
    "touching": "boards that only touch",
    "crossed flat": "a board that lies flat over another",
}
_SAID = {
    "corner": "at a corner",
    "in line": "end to end",
    "crossing": "at a crossing",
    "crossed flat": "one over the other",
}


def _not_made(meeting: Meeting, name: str, spec: JointSpec | None, able: tuple[str, ...]) -> Finding:
    a, b = meeting.a.body, meeting.b.body
    cures = tuple(_instead(meeting, spec, able))
    return Finding(
        code=KIND_NOT_MADE,
        severity=Severity.STOP,
        where=_where(meeting, spec),
        says=say(
            "{} and {} meet {}: a {} cannot be made yet",
            Name(a),
            Name(b),
            _SAID.get(meeting.form, meeting.form),
            name,
        ),
        remedy=_remedy(meeting, able),
        cures=cures,
    )


def _instead(meeting: Meeting, spec: JointSpec | None, able: tuple[str, ...]) -> Iterator[Cure]:
    for other in able:
        yield Cure(label=say("make it {}", a(other)), edits=(_kind_edit(meeting, spec, other),))


def _remedy(meeting: Meeting, able: tuple[str, ...]) -> Words:
    """What can be made instead; of boards in line with what it means, and the key that asks for it."""
    if meeting.form == "in line" and _IN_LINE in able:
        means = "two square ends, dowelled and glued, which need a support that holds both"
        return say('write in_line = "{}" under [joints]: {}; or use stock that is long enough', _IN_LINE, means)
    if meeting.form == "in line":
        return "use stock that is long enough, or join them otherwise: two ends in line take dowels, no screws"
    if able:
        return say("choose {} for it", Several(able, " or ", " or "))
    return "move one so that they cross, or one ends on the other"


def _kind_edit(meeting: Meeting, spec: JointSpec | None, kind: str) -> Edit:
    if spec is not None:
        return Edit(action="set", path=(*spec.path, "kind"), value=kind)
    if meeting.form == "in line":  # members of one board have no joint of their own in the file
        return Edit(action="set", path=("joints", "in_line"), value=kind)
    return Edit(action="add", path=("joint",), value={"between": [meeting.a.body, meeting.b.body], "kind": kind})


def in_its_table(finding: Finding, item: Chosen, units: LengthUnit) -> Finding:
    """A joint's finding whose cures say where its options stand in the job file: in its own table."""
    return _written_where(finding, item.meeting, item.kind.name, item.spec, units)


def _written_where(finding: Finding, meeting: Meeting, kind: str, spec: JointSpec | None, units: LengthUnit) -> Finding:
    cures = tuple(replace(cure, edits=_option_edits(cure.edits, meeting, kind, spec, units)) for cure in finding.cures)
    return finding if cures == finding.cures else replace(finding, cures=cures)


def _option_edits(
    edits: tuple[Edit, ...], meeting: Meeting, kind: str, spec: JointSpec | None, units: LengthUnit
) -> tuple[Edit, ...]:
    options: dict[str, Plain] = {}
    for edit in edits:
        if edit.path[0] == OPTION:
            _, option, way = map(str, edit.path)
            options[option] = printed(edit.value, way, units) if way and isinstance(edit.value, float) else edit.value
    rest = tuple(edit for edit in edits if edit.path[0] != OPTION)
    if not options:
        return rest
    if spec is not None:
        path = spec.path
        return (*rest, *(Edit(action="set", path=(*path, name), value=value) for name, value in options.items()))
    value: dict[str, Plain] = {"between": list(meeting.key), "kind": kind, **options}
    return (*rest, Edit(action="add", path=("joint",), value=value))


def _unsuited(meeting: Meeting, judgement: Judgement, spec: JointSpec | None, able: tuple[str, ...] = ()) -> Finding:
    reason = say("{}", Several(judgement.reasons, "; ", "; "))
    if meeting.form == "fixing":
        where = Where(boards=(meeting.a.body,), fixing=meeting.key[0], path=meeting.path)
        says = say("{}: {}", fixing_called(meeting), reason)
        remedy: Words = "use another screw, or another fixing"
    else:
        where = _where(meeting, spec)
        says = say("{} and {}: {}", Name(meeting.a.body), Name(meeting.b.body), reason)
        remedy = "turn or move one of the boards, or choose another kind"
    return Finding(
        code=KIND_UNSUITED,
        severity=Severity.STOP,
        where=where,
        says=says,
        remedy=judgement.remedy or remedy,
        found=judgement.found,
        limit=judgement.limit,
        unit=judgement.unit,
        source=judgement.source,
        cures=(*judgement.cures, *(() if meeting.form == "fixing" else _instead(meeting, spec, able))),
    )


def _fault(meeting: Meeting, mistake: _OptionError, spec: JointSpec | None) -> Finding:
    return Finding(
        code=OPTION_FAULT,
        severity=Severity.STOP,
        where=_where(meeting, spec),
        says=say("{} and {}: {}", Name(meeting.a.body), _other(meeting), mistake.says),
        remedy=mistake.remedy,
        cures=tuple(
            Cure(label=say("leave out {}", name), edits=(Edit(action="remove", path=(*spec.path, name)),))
            for name in spec.options
        )
        if spec is not None  # which of them helps is tried
        else (),
    )


def _other(meeting: Meeting) -> Value:
    """What the board meets: another board, by its name, or the wall."""
    return WALL if meeting.form == "fixing" else Name(meeting.b.body)


def _unmet(specs: Mapping[Pair, JointSpec], meetings: tuple[Meeting, ...], names: set[str]) -> list[Finding]:
    """Joints asked for between boards that are there but do not meet."""
    met = {meeting.key for meeting in meetings}
    return [
        Finding(
            code=NO_MEETING,
            severity=Severity.WARN,
            where=Where(boards=key, path=spec.path),
            says=say("{} and {} do not meet, so the joint asked for is not made", Name(key[0]), Name(key[1])),
            remedy="bring them together, or take the joint out",
            cures=(Cure(label="take the joint out", edits=(Edit(action="remove", path=spec.path),)),),
        )
        for key, spec in specs.items()
        if key not in met and names.issuperset(key)
    ]
