"""Fits: can the joints be brought together by hand, and is a glued one close enough for its glue?

What it works out   Of each step of the assembly, the play of the joints that close in it; of each glued joint that
                    slides together, how much wider it is than what enters.
Assumes             Boards as thick as they are said to be, and cut as they are worked out: what the cutting adds
                    or takes is not in it. Mitres and butts close on their faces and have no play.
Source              Play: common practice; that a close fit holds well is one test's word, told beside the note. What a
                    glue bears: the trade's table of glues, each figure with its own.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from ...findings import Finding, NotChecked, Severity, declare
from ...job.model import Job, JointSpec
from ...lengths import LengthUnit
from ...piece.facts import Between
from ...piece.kinds import JointKind
from ...piece.meetings import pair_key
from ...piece.model import Joint, Piece
from ...places import Cure, Edit, Pair, Path, Where
from ...sentences import Count, Fineness, Length, Name, On, Several, Words, say
from ...study.base import Pace, Scene, Study, Work
from ...study.registry import register
from ...trade.glues import figure, find_glue
from ..glue_up.result import GlueUp
from ..order.result import Order
from .result import Fits

TIGHT = declare(
    "no-clearance",
    "Several joints close at once with no play: they cannot all be driven home.",
    uncured="their clearance is not told by one value of the job",
)
LOOSE = declare(
    "loose-for-glue",
    "A glued joint is looser than its glue allows.",
    uncured="their clearance is not told by one value of the job",
)
WIPED = declare(
    "no-room-for-glue",
    "A glued joint has next to no play: glue needs room, and tight walls wipe it off.",
    uncured="their clearance is not told by one value of the job",
)

BY_HAND = 0.05  # of play in all: with less a joint wants a tap (common practice)
GLUED = (0.05, 0.15)  # usual where one glued joint is pushed home by hand; less wants a tap (common practice)
TESTED = "Elek, Kovács, Csóka, Agarwal 2020, Eur. J. Wood Prod., abstract: open mortise and tenon strongest 0.1 tight"
GRID = (0.10, 0.20)  # usual where several close at once (common practice)
USUAL = {True: 0.10, False: 0.15}  # glued, and dry: what a kind gives by itself
EVEN = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """A joint that slides together.

    Attributes:
        play: across its walls in all, the least of them.
        wide: how much wider than what enters, swelling allowed for with it, the most of them.
        written: what of the job file gives the play, and what would be usual there, in the job's units; None where
            it is the kind's own.
    """

    key: Pair
    glued: bool
    play: float
    wide: float
    written: tuple[Path, float | str] | None


@dataclass(frozen=True, slots=True, kw_only=True)
class FitsValue:
    """All that is looked at.

    Attributes:
        steps: name, the boards that move and those they go into, and the joints closed; None without an order.
        glue: its name, "" where it is not known; `bears` what it bears and where that is from, None where no figure is.
    """

    joints: tuple[Fit, ...]
    steps: tuple[tuple[Words, tuple[str, ...], tuple[Pair, ...]], ...] | None
    glue: str
    bears: tuple[float, str] | None


@register
class FitsStudy(Study[FitsValue, Fits]):
    """How the joints fit."""

    name = "fits"
    codes = (TIGHT, LOOSE, WIPED)
    asks = "how close the joints fit"
    result = Fits
    needs = (Order, GlueUp)
    pace = Pace.REST

    def concerns(self, piece: Piece) -> bool:
        """Only joints have a fit."""
        return any(joint.meeting.form != "fixing" for joint in piece.joints)

    def reads(self, scene: Scene) -> FitsValue:
        """Copy what slides, the steps of the order, and what the glue bears."""
        specs = {pair_key(*spec.between): spec for spec in scene.job.joint_specs}
        joints = (_fit(joint, scene.kinds[joint.kind], specs.get(joint.key), scene.job) for joint in scene.piece.joints)
        stages, glue = scene.earlier(Order).stages, find_glue(scene.earlier(GlueUp).glue).found
        bears = figure(glue, "gap") if glue is not None else None
        steps = tuple(
            (step.name, (*step.parts, *step.into), step.joints)
            for stage in stages
            for step in stage.steps
            if len(step.joints) > 1
        )
        return FitsValue(
            joints=tuple(fit for fit in joints if fit is not None),
            steps=steps if stages else None,
            glue="" if glue is None else glue.name,
            bears=None if bears is None else (bears.value, bears.cited),
        )

    def run(self, value: FitsValue, work: Work) -> Fits:
        """Compare."""
        tight = {fit.key for fit in value.joints if fit.play < BY_HAND - EVEN}
        closing = [(n, tuple(key for key in keys if key in tight)) for n, (_, _, keys) in enumerate(value.steps or ())]
        bears = value.bears[0] if value.bears is not None else None
        together = {key for _, keys in closing if len(keys) > 1 for key in keys}
        return Fits(
            tight=tuple((n, keys) for n, keys in closing if len(keys) > 1),
            wiped=tuple(fit.key for fit in value.joints if fit.glued and fit.key in tight - together),
            loose=tuple(fit.key for fit in value.joints if fit.glued and bears is not None and fit.wide > bears + EVEN),
        )

    def findings(self, value: FitsValue, result: Fits) -> tuple[Finding, ...]:
        """Steps that would want a hammer at every joint, and glued joints that are too loose."""
        fits = {fit.key: fit for fit in value.joints}
        steps = value.steps or ()
        tight = (_tight(steps[n][0], steps[n][1], [fits[key] for key in keys]) for n, keys in result.tight)
        wiped = (_wiped(fits[key]) for key in result.wiped)
        return (*tight, *wiped, *(_loose(fits[key], value) for key in result.loose))

    def not_checked(self, value: FitsValue, result: Fits) -> tuple[NotChecked, ...]:
        """What there is no order, or no figure, for."""
        return tuple(_left_open(value))


def _left_open(value: FitsValue) -> Iterator[NotChecked]:
    if value.steps is None and len(value.joints) > 1:
        what = "whether joints that close at once have play enough"
        yield NotChecked(study="fits", what=what, why="no order of assembly is worked out")
    if value.bears is None and any(fit.glued for fit in value.joints):
        why = say("no figure is known for {}", value.glue) if value.glue else "the glue is not known"
        yield NotChecked(study="fits", what="whether glued joints are close enough for their glue", why=why)


def _fit(joint: Joint, kind: JointKind[Any], spec: JointSpec | None, job: Job) -> Fit | None:
    """A joint's fit; None where nothing of it slides between walls that leave it play."""
    matings = [one for one in kind.matings(joint.meeting, joint.options, joint.making) if not one.closes]
    if not matings:
        return None
    tightest = min(matings, key=lambda mating: mating.play)
    walls = (2 * gap.size for gap in joint.gaps if gap.between is Between.WALL)
    path = _written(tightest.play_from, joint, spec, job)
    return Fit(
        key=joint.key,
        glued=joint.glued,
        play=tightest.play,
        wide=max(walls, default=tightest.play),
        written=None if path is None else (path, _length(USUAL[joint.glued], job.units)),
    )


def _written(option: str, joint: Joint, spec: JointSpec | None, job: Job) -> Path | None:
    """Where an option of a joint is written: in its own table, for its kind, or for the whole piece."""
    if spec is not None and option in spec.options:
        return (*spec.path, option)
    if option in job.joints.kinds.get(joint.kind, {}):
        return ("joints", joint.kind, option)
    return ("joints", option) if option == "clearance" and job.joints.clearance is not None else None


def _length(mm: float, units: LengthUnit) -> float | str:
    return mm if units == "mm" else f"{mm:g} mm"


def _tight(name: Words, boards: tuple[str, ...], fits: list[Fit]) -> Finding:
    least = min(fit.play for fit in fits)
    low, high = GRID
    return Finding(
        code=TIGHT,
        severity=Severity.WARN,
        where=Where(boards=boards, joint=fits[0].key, path=next((fit.written[0] for fit in fits if fit.written), None)),
        says=say(
            "{} close at once as {} goes in, with {} of play",
            Count(len(fits), "joint"),
            name,
            Length(least, Fineness.FINE),
        ),
        remedy=say(
            "give each {} or more; {} to {} is usual there",
            Length(BY_HAND, Fineness.FINE, On.UP),
            Length(low, Fineness.FINE),
            Length(high, Fineness.FINE),
        ),
        found=least,
        limit=BY_HAND,
        unit="mm",
        source="common practice",
        cures=_usual_play(fits),
    )


def _where(fit: Fit) -> Where:
    return Where(boards=fit.key, joint=fit.key, path=fit.written[0] if fit.written else None)


def _wiped(fit: Fit) -> Finding:
    a, b = fit.key
    return Finding(
        code=WIPED,
        severity=Severity.NOTE,
        where=_where(fit),
        says=say(
            "the glued joint of {} and {} has {} of play: glue needs room, or it is wiped off",
            Name(a),
            Name(b),
            Length(fit.play, Fineness.FINE),
        ),
        remedy=say(
            "leave it where a light tap closes it dry; else give it {} to {}",
            Length(GLUED[0], Fineness.FINE),
            Length(GLUED[1], Fineness.FINE),
        ),
        found=fit.play,
        limit=BY_HAND,
        unit="mm",
        source=f"common practice; against it {TESTED}",
        cures=_usual_play([fit]),
    )


def _loose(fit: Fit, value: FitsValue) -> Finding:
    assert value.bears is not None, "only compared where there is a figure"
    (a, b), (limit, source) = fit.key, value.bears
    return Finding(
        code=LOOSE,
        severity=Severity.WARN,
        where=_where(fit),
        says=say(
            "the glued joint of {} and {} is {} wider than what enters: {} allows less",
            Name(a),
            Name(b),
            Length(fit.wide, Fineness.FINE),
            value.glue,
        ),
        remedy=say(
            "keep both sides together within {}, or use a glue that fills", Length(limit, Fineness.FINE, On.DOWN)
        ),
        found=fit.wide,
        limit=limit,
        unit="mm",
        source=source,
        cures=_usual_play([fit]) if fit.wide - fit.play + USUAL[True] <= limit else (),
    )


def _usual_play(fits: list[Fit]) -> tuple[Cure, ...]:
    """Give the joints their usual play, wherever the file says otherwise."""
    edits = {fit.written[0]: fit.written[1] for fit in fits if fit.written is not None}
    if not all(fit.written for fit in fits):
        return ()
    plays = tuple(Length(play, Fineness.FINE) for play in sorted({USUAL[fit.glued] for fit in fits}))
    label = say("make the play {}", Several(plays))
    return (Cure(label=label, edits=tuple(Edit(action="set", path=path, value=v) for path, v in edits.items())),)
