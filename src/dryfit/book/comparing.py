"""One meeting, every kind of joint: what each says of it, and what it would cost in this piece.

Nothing is reckoned from a table: each kind is chosen in a trial of the job, the piece set out anew, its solids
too, its set-ups found by their study, and the joint read as it is then made. An option that the joint's own table has
and the other kind knows is kept, as where the kind is changed on the page. Other studies (the order, the glue-up) are
not run for each kind: whether the piece still goes together is what settling finds.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any, Literal, TypeAlias

from ..findings import Finding, Severity, with_no_cures
from ..geometry.shapes import Prism
from ..job.model import Job, JointSpec
from ..joints import KINDS, NAMED
from ..piece.choose import judged, wanted_by
from ..piece.kinds import JointKind, Kinds
from ..piece.leaning import edges_open
from ..piece.meetings import pair_key
from ..piece.model import Board, Cut, Joint, Judgement, Meeting, Motion, Piece, Ware
from ..piece.setout import Made
from ..piece.solids import Solids
from ..places import Pair
from ..sentences import Voice, Words
from ..shop.model import Shop
from ..studies import STUDIES
from ..studies.setups.result import SetUp, SetUps
from ..study.outcome import why_none
from ..study.runner import Ran, run
from .building import Kept, overlaps, piece_of, scene_of

Edge: TypeAlias = Literal["front edge", "wall edge"]
NO_JOINT = "no joint is made of it in this piece"


@dataclass(frozen=True, slots=True, kw_only=True)
class Cost:
    """What a joint of one kind costs, as it is made in the trial.

    Attributes:
        held: how it is held together, in a word or two.
        cuts: of both boards.
        makings: in how many ways it could be made; `making` the one that is settled for this piece.
        ways: how it then comes apart by itself; it goes together the other way.
        setups: that its cuts take part in; `alone` of these, the names of those that no other cut of the piece wants.
        setups_why: why set-ups could not be found; "" where they could.
        glue_mm2: of one of each pair of faces that are glued; None where it stays dry.
        edges: at which edges of a board one sees into a cut of it.
        driven: what is driven in from outside and covered by nothing; `covers`, what covers such a hole.
        after_gluing: words of cuts that are made through the glued joint, so from outside.
    """

    held: Words
    cuts: tuple[Cut, ...]
    makings: int
    making: Words
    ways: tuple[Motion, ...]
    setups: tuple[SetUp, ...]
    alone: tuple[str, ...]
    setups_why: str
    glue_mm2: float | None
    hardware: tuple[Ware, ...]
    edges: tuple[Edge, ...]
    driven: tuple[str, ...]
    covers: tuple[str, ...]
    after_gluing: tuple[str, ...]

    @property
    def hidden(self) -> bool:
        """Whether nothing of it shows but the line where the boards meet."""
        return not (self.edges or self.driven or self.covers or self.after_gluing)

    def cuts_in(self, board: str) -> tuple[Cut, ...]:
        """The cuts in one board."""
        return tuple(cut for cut in self.cuts if cut.body == board)


@dataclass(frozen=True, slots=True, kw_only=True)
class Compared:
    """One kind at the meeting.

    Attributes:
        now: whether the job has this kind there.
        judgement: what the kind says, or why the piece has no such joint although the kind could.
        cost: of the joint as it is then made; None where it cannot be.
        brings: stops and warnings of the joint, and those that the piece has with this kind and not with each.
    """

    kind: str
    now: bool
    judgement: Judgement
    cost: Cost | None = None
    brings: tuple[Finding, ...] = ()

    @property
    def stops(self) -> tuple[Finding, ...]:
        """What of that must be mended before the first cut."""
        return tuple(finding for finding in self.brings if finding.severity is Severity.STOP)


@dataclass(frozen=True, slots=True, kw_only=True)
class Comparison:
    """A meeting with every kind.

    Attributes:
        now: the kind of its joint; "" where none is made.
        asked: the kind that the job names for it, by its own table or by a rule; "" for none.
        kinds: those of the register, the possible ones first, then by rank.
        not_made: kinds that are known by name and cannot be made yet: they are not judged.
    """

    meeting: Meeting
    now: str
    asked: str
    kinds: tuple[Compared, ...]
    not_made: tuple[str, ...]


@dataclass(frozen=True)
class _Laid:
    """A piece with what its set-ups are, as found in one trial."""

    job: Job
    piece: Piece
    overlaps: tuple[Finding, ...]
    ran: Ran

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """Of setting out, of solids, of set-ups."""
        return (*self.piece.findings, *self.overlaps, *self.ran.findings)


class Comparing:
    """The meetings of one piece, to be compared; what the trials have in common is worked out once."""

    def __init__(self, job: Job, shop: Shop | None = None, made: Made | None = None, bench: Kept | None = None) -> None:
        self.job, self.shop, self.made = job, shop or Shop(), made
        self.bench = bench if bench is not None else Kept()
        self.now = self._laid(job)

    @property
    def voice(self) -> Voice:
        """How its sentences are told in the job's own units."""
        return Voice(self.job.units)

    @property
    def piece(self) -> Piece:
        """As the job has it."""
        return self.now.piece

    def meetings(self, one: str, other: str) -> tuple[Meeting, ...]:
        """Where two boards meet; of a board that is divided, each of its members."""
        return tuple(meeting for meeting in self.piece.meetings if self._is_between(meeting, one, other))

    def met_by(self, name: str) -> tuple[str, ...]:
        """The boards that a board meets, each once, as the piece has them."""
        met = (
            meeting.other(side.body).body
            for meeting in self.piece.meetings
            for side in (meeting.a, meeting.b)
            if name in self._names(side.body)
        )
        return tuple(dict.fromkeys(other for other in met if name not in self._names(other)))

    def compare(self, meeting: Meeting) -> Comparison:
        """Every kind at one meeting of the piece."""
        joint = self.piece.joint_by_key.get(meeting.key)
        now = joint.kind if joint is not None else ""
        tried = {name: self._tried(meeting, name, now) for name in KINDS}
        laid = [one for _, one in tried.values() if one is not None]
        found = [_compared(meeting.key, name, name == now, *tried[name], laid) for name in KINDS]
        found.sort(key=lambda one: (one.cost is None, not one.now, one.judgement.rank))
        job = self.piece.job or self.job
        return Comparison(
            meeting=meeting,
            now=now,
            asked=wanted_by(job, meeting, _spec_of(self._between(meeting.key), self.job)),
            kinds=tuple(found),
            not_made=tuple(name for name in NAMED if name not in KINDS),
        )

    def _tried(self, meeting: Meeting, name: str, now: str) -> tuple[Judgement, _Laid | None]:
        """What a kind says of a meeting, and the piece with it there; none where there can be no such joint."""
        job = self.job if name == now else self._with(meeting.key, name)
        judgement = self._judgement(meeting, name, job)
        if not judgement.possible:
            return judgement, None
        trial = self.now if name == now else self._laid(job)
        joint = trial.piece.joint_by_key.get(meeting.key)
        if joint is not None and joint.kind == name:
            return judgement, trial
        why = [one.says for one in trial.findings if one.severity is Severity.STOP and _is_between(one, meeting.key)]
        return replace(judgement, possible=False, reasons=tuple(why) or (NO_JOINT,)), None

    def _judgement(self, meeting: Meeting, name: str, job: Job) -> Judgement:
        """What the kind says, with the options that it would have there."""
        spec = _spec_of(self._between(meeting.key), job)
        specs = () if spec is None else (replace(spec, between=meeting.key),)
        apart = replace(self.piece.job or job, joint_specs=specs)
        kinds: dict[str, JointKind[Any]] = {name: KINDS[name]}
        ((_, judgement),) = judged(meeting, apart, Kinds(kinds), self.bench.keep)
        return judgement

    def _with(self, key: Pair, kind: str) -> Job:
        """The job with this kind asked for at a meeting, and of its table what the kind knows."""
        between = self._between(key)
        old = _spec_of(between, self.job)
        if old is None:
            return replace(self.job, joint_specs=(*self.job.joint_specs, JointSpec(between=between, kind=kind)))
        known = KINDS[kind].options.model_fields
        new = replace(old, kind=kind, options={name: value for name, value in old.options.items() if name in known})
        return replace(self.job, joint_specs=tuple(new if spec is old else spec for spec in self.job.joint_specs))

    def _between(self, key: Pair) -> Pair:
        """How the job file speaks of a pair: of members by their wholes, but for two members of one board."""
        one, other = (self.piece.whole.get(name, name) for name in key)
        return key if one == other else pair_key(one, other)

    def _laid(self, job: Job) -> _Laid:
        piece = piece_of(job, self.shop, self.made, self.bench)
        solids = Solids(self.bench.keep)
        scene = scene_of(job, self.shop, piece, solids)
        ran = run(STUDIES, scene, self.bench.results, paces=(), asked=(_SETUPS,))
        return _Laid(job, piece, tuple(overlaps(piece, self.bench, solids).findings), ran)

    def _names(self, body: str) -> frozenset[str]:
        """What a board may be called: by its name, or as a member by that of its whole."""
        return frozenset((body, self.piece.whole.get(body, body)))

    def _is_between(self, meeting: Meeting, one: str, other: str) -> bool:
        a, b = self._names(meeting.a.body), self._names(meeting.b.body)
        return (one in a and other in b) or (one in b and other in a)


_SETUPS = next(name for name, study in STUDIES.items() if study.result is SetUps)


def _spec_of(between: Pair, job: Job) -> JointSpec | None:
    """The `[[joint]]` of a pair."""
    return next((spec for spec in job.joint_specs if set(spec.between) == set(between)), None)


def _compared(
    key: Pair, kind: str, now: bool, judgement: Judgement, trial: _Laid | None, others: Sequence[_Laid]
) -> Compared:
    """One kind beside the others; `others` are all trials."""
    if trial is None:
        return Compared(kind=kind, now=now, judgement=judgement)
    joint = trial.piece.joint_by_key[key]
    brings = tuple(_brought(trial, others, joint))
    return Compared(kind=kind, now=now, judgement=judgement, cost=_cost(joint, trial), brings=brings)


# ---- what it costs


def _cost(joint: Joint, trial: _Laid) -> Cost:
    kind, boards = KINDS[joint.kind], trial.piece.board_by_name
    keys = {cut.key for cut in joint.cuts}
    setups, why = _setups(trial, keys)
    zones, wares = kind.glue(joint), kind.hardware(joint)
    over = tuple(ware.what for ware in wares if ware.goes == "over")
    after = {key for one in kind.operations(joint, boards) if one.after_gluing for key in one.cuts}
    return Cost(
        held=kind.held(joint.options),
        cuts=joint.cuts,
        makings=len(kind.makings(joint.meeting, joint.options)),
        making=joint.making.name,
        ways=joint.making.motions,
        setups=setups,
        alone=tuple(setup.name for setup in setups if keys.issuperset(setup.cuts)),
        setups_why=why,
        glue_mm2=sum(zone.area_mm2 for zone in zones) if joint.glued else None,
        hardware=wares,
        edges=tuple(_edges(joint.cuts, boards)),
        driven=() if over else tuple(ware.what for ware in wares if ware.goes == "driven"),
        covers=over,
        after_gluing=tuple(dict.fromkeys(cut.word for cut in joint.cuts if cut.key in after)),
    )


def _setups(trial: _Laid, keys: set[str]) -> tuple[tuple[SetUp, ...], str]:
    """The set-ups that cuts take part in; with why there are none to be told."""
    found = trial.ran.results.get(_SETUPS)
    if not isinstance(found, SetUps):
        return (), why_none(trial.ran.outcomes[_SETUPS], Voice(trial.job.units))
    return tuple(setup for setup in found.all if keys.intersection(setup.cuts)), ""


def _edges(cuts: Iterable[Cut], boards: Mapping[str, Board]) -> Iterator[Edge]:
    """Where a cut runs out at an edge, so that one looks into it; ends and what is bored show none."""
    runs = [
        edges_open(shape, boards[cut.body])
        for cut in cuts
        if not (cut.end or cut.form.in_rows) and cut.body in boards
        for shape in cut.shapes
        if isinstance(shape, Prism)
    ]
    if any(front for _, front in runs):
        yield "front edge"
    if any(wall for wall, _ in runs):
        yield "wall edge"


# ---- what it brings


def _brought(trial: _Laid, others: Iterable[_Laid], joint: Joint) -> Iterator[Finding]:
    """Stops and warnings of a joint, and those that the piece does not have with each of the kinds.

    Without cures: those would change a table that the job file may not have, or has for another kind.
    """
    keys = {cut.key for cut in joint.cuts}
    always = [set(map(_about, other.findings)) for other in others]
    for finding in trial.findings:
        if finding.severity is Severity.NOTE:
            continue
        is_its = finding.where.joint == joint.key or finding.where.cut in keys
        if is_its or not all(_about(finding) in each for each in always):
            yield replace(with_no_cures(finding), where=replace(finding.where, path=finding.where.path or None))


def _about(finding: Finding) -> tuple[object, ...]:
    return finding.code, finding.severity, finding.where, finding.says


def _is_between(finding: Finding, key: Pair) -> bool:
    """Whether a finding is of a meeting of two boards."""
    return finding.where.joint == key or set(key) <= set(finding.where.boards)
