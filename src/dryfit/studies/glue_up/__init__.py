"""Glue-up: what is glued in one go, how long there is, how much glue, how many clamps, what to check.

What it works out   Goes of the assembly that are spread, closed and clamped while the glue is open, at the shop's
                    pace, each held square; glue by grain pair; clamps that seat what is let in, and those by
                    pressure and by spacing; times and conditions; diagonals of every go.
Assumes             Every joint takes the same time to bring home; all hands work at once; glue on one face of
                    each pair, on both where end grain meets end grain. Pressure is by the glue, less at a
                    mitre, or as `[glue]` in the job file asks.
Source              Glues: the trade's table, each figure with its own; most are from memory, the sheet of the
                    product in hand governs. Pace: the shop file, or what it assumes. Clamp of 3 kN (2.5 to 4 for
                    a bar clamp), a tenth over for what is lost, spacing, limits: common practice.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence, Set
from dataclasses import replace
from typing import Annotated

from pydantic import Field

from ...asking import unanswered
from ...findings import Finding, NotChecked, Severity, declare
from ...job.options import Options
from ...job.tables import One
from ...lengths import figure as plain
from ...piece.facts import Grains, Pressing
from ...piece.model import Piece
from ...places import Cure, Edit, Pair, Where
from ...sentences import Count, Name, Several, Words, say
from ...shop.model import PRACTICE as SHOP_PRACTICE
from ...shop.model import Shop
from ...study.base import Pace, Scene, Study, Work
from ...study.registry import register
from ...trade.figures import Figure, sourced
from ...trade.glues import Glue, all_glues, figure, find_glue
from ..order.result import Order
from .pressing import NEWTONS, PRACTICE, SPACING, SPACING_FROM, GlueJoint, bound, clamps, to_fill
from .reading import corners_of, glue_joint, stage_of
from .result import Across, GlueStage, GlueUp, Said, Squareness
from .squareness import Quad, apart
from .stages import BOTH, Batch, Clock, batches, grams
from .value import GlueUpValue, StageValue

UNKNOWN = declare(
    "glue-unknown",
    "There are no figures for a glue, so no glue-up is planned.",
    uncured="no known glue has a name near to it",
)
TOO_SLOW = declare(
    "glue-sets-first",
    "A step takes longer to spread, close and clamp than the glue stays open.",
    uncured="no other glue that is known stays open long enough; fewer joints a step is a choice of design",
)

DEFAULT = "PVA, D3"
NO_ORDER = "no order is found"
CLAMP_KN = 3.0
OVER = 1.1  # a tenth more glue than is spread: what is lost (common practice)
SPAN = 300.0  # mm of a joint's length that one time to spread covers; a longer one takes longer in proportion
FIGURES = ("spread", "open_time", "clamp_time", "pressure", "coldest", "moisture")


class GlueTable(Options):
    """What is glued with, and what presses it: the `[glue]` table."""

    kind: str = Field(default=DEFAULT, description="The glue, by name.")
    people: Annotated[int, Field(ge=1, le=8)] = Field(default=1, description="Pairs of hands at glue-up.")
    clamp_kn: Annotated[float, Field(gt=0, le=50)] = Field(default=CLAMP_KN, description="Force of one clamp, in kN.")
    pressure: dict[str, Annotated[float, Field(gt=0, le=10)]] = Field(
        default_factory=dict, description="By kind of joint, in N/mm2; left out: the glue's own, 0.5 at a mitre."
    )


GLUE = One("glue", GlueTable)


@register
class GlueUpStudy(Study[GlueUpValue, GlueUp]):
    """Stages, times, glue and clamps."""

    name = "glue_up"
    codes = (UNKNOWN, TOO_SLOW)
    asks = "how the units are glued up"
    version = 6
    result = GlueUp
    needs = (Order,)
    pace = Pace.REST
    owns = (GLUE,)

    def concerns(self, piece: Piece) -> bool:
        """Something is glued."""
        return any(joint.glued for joint in piece.joints)

    def reads(self, scene: Scene) -> GlueUpValue:
        """Copy the stages of the order, the joints' glue faces, the glue's figures and the shop's pace."""
        table = scene.one(GLUE) or GlueTable()
        match, shop = find_glue(table.kind), scene.shop
        boards, units = set(scene.piece.board_by_name), {name for unit in scene.piece.units for name in unit.boards}
        return GlueUpValue(
            asked=table.kind,
            given="kind" in table.model_fields_set,
            glue=match.found.name if match.found else "",
            unknown="" if match.found else match.says,
            remedy="" if match.found else match.remedy,
            near=() if match.found else tuple(glue.name for glue in match.candidates),
            figures=_figures(match.found) if match.found else (),
            slower=_slower(match.found) if match.found else (),
            paces=(
                (shop.seconds_to_spread, _whose(shop, "seconds_to_spread")),
                (shop.seconds_a_crossing, _whose(shop, "seconds_a_crossing")),
                (shop.seconds_a_clamp, _whose(shop, "seconds_a_clamp")),
            ),
            people=table.people,
            clamp_kn=table.clamp_kn,
            stages=tuple(
                stage_of(stage, scene.job, scene.piece, () if stage.name else sorted(units))
                for stage in scene.earlier(Order).stages
            ),
            joints=tuple(
                glue_joint(joint, scene.kinds[joint.kind], table.pressure)
                for joint in scene.piece.joints
                if set(joint.key) <= boards
            ),
            corners=tuple((part.id, corners_of(part)) for part in scene.piece.parts if part.short[1] > part.short[0]),
        )

    def run(self, value: GlueUpValue, work: Work) -> GlueUp:
        """Pack the steps into goes."""
        known = {said.name: said for said in value.figures}
        complete = "spread" in known and "open_time" in known
        every = {joint.key: joint for joint in value.joints}
        stages = [go for stage in value.stages for go in _goes(stage, value, known, every)] if complete else []
        return GlueUp(
            glue=value.glue,
            figures=value.figures,
            practice=(
                ("time to spread one side of a joint, to 300 long", value.paces[0][0], "s", value.paces[0][1]),
                ("time to bring one joint home", value.paces[1][0], "s", value.paces[1][1]),
                ("time to set one clamp", value.paces[2][0], "s", value.paces[2][1]),
                ("force of one clamp", value.clamp_kn, "kN", sourced(PRACTICE, "2.5 to 4 for a bar clamp")),
                ("clamps at most this far apart", SPACING, "mm", SPACING_FROM),
                ("glue to spare, over what is spread", OVER, "1", PRACTICE),
                (
                    "faces spread where end grain meets end grain",
                    float(BOTH),
                    "1",
                    sourced(PRACTICE, "end grain drinks"),
                ),
            ),
            people=value.people,
            clamp_kn=value.clamp_kn,
            stages=tuple(stages),
            grams=grams(
                (face for joint in value.joints for face in joint.faces),
                known["spread"].value if complete else 0.0,
                OVER,
            ),
        )

    def findings(self, value: GlueUpValue, result: GlueUp) -> tuple[Finding, ...]:
        """A glue that nothing is known of; a step that takes longer than the glue stays open."""
        if not value.glue and any(joint.faces for joint in value.joints):
            where = Where(path=("glue", "kind"))
            says = say("no glue-up is planned: {}", value.unknown)
            return (
                Finding(
                    code=UNKNOWN,
                    severity=Severity.WARN,
                    where=where,
                    says=says,
                    remedy=value.remedy,
                    cures=tuple(
                        Cure(
                            label=say("it is {}", name), edits=(Edit(action="set", path=("glue", "kind"), value=name),)
                        )
                        for name in value.near
                    ),
                ),
            )
        return tuple(_too_slow(go, value) for go in result.stages if go.minutes > go.open_minutes + 1e-9)

    def not_checked(self, value: GlueUpValue, result: GlueUp) -> tuple[NotChecked, ...]:
        """All of it without figures of the glue or an order; which glue, where none is named; joints in no order."""
        wet = {joint.key for joint in value.joints if joint.faces}
        if not wet:
            return ()
        if not value.glue:
            return (unanswered(self.name, value.unknown or "no glue is named", Where(path=("glue", "kind"))),)
        if not {"spread", "open_time"} <= {said.name for said in value.figures}:
            return (unanswered(self.name, say("its spread or its open time is not known of {}", value.glue)),)
        planned = {key for go in result.stages for key in go.glued}
        if not planned:
            return (unanswered(self.name, NO_ORDER),)
        left = sorted(wet - planned)
        open_ones = []
        if left:
            boards = tuple(dict.fromkeys(name for key in left for name in key))
            which = Several(tuple(map(Name, left[0]))) if len(left) == 1 else Count(len(left), "joint")
            what = say("how {} are glued", which)
            open_ones.append(NotChecked(study=self.name, what=what, why=NO_ORDER, where=Where(boards=boards)))
        if not value.given:
            why = say("[glue] names none, so {} is assumed", value.glue)
            open_ones.append(NotChecked(study=self.name, what="your own glue", why=why))
        return tuple(open_ones)


def _figures(glue: Glue) -> tuple[Said, ...]:
    known: list[tuple[str, Figure]] = [(name, one) for name in FIGURES if (one := figure(glue, name)) is not None]
    return tuple(
        Said(name=n, value=f.value, low=f.low, high=f.high, unit=f.unit, source=f.cited, note=f.note) for n, f in known
    )


def _slower(glue: Glue) -> tuple[tuple[str, float], ...]:
    own = figure(glue, "open_time")
    times = [(other.name, one.value) for other in all_glues() if (one := figure(other, "open_time")) is not None]
    return tuple(sorted((item for item in times if own is None or item[1] > own.value), key=lambda item: item[1]))


def _faces(joints: Iterable[GlueJoint]) -> Iterator[tuple[Grains, float]]:
    return (face for joint in joints for face in joint.faces)


def _whose(shop: Shop, pace: str) -> Words:
    return SHOP_PRACTICE[pace] if pace in shop.assumed else "the shop file"


def _goes(
    stage: StageValue, value: GlueUpValue, known: Mapping[str, Said], every: Mapping[Pair, GlueJoint]
) -> list[GlueStage]:
    """The goes of one stage of the assembly."""
    (spread, _), (close, _), (clamp, _) = value.paces

    def set_on(glued: Sequence[Pair]) -> int:
        """How many clamps."""
        joints = [every[key] for key in glued]
        kept = _pressed(known)
        bars, held = (one(joints, *kept, value.clamp_kn * NEWTONS) for one in (clamps, bound))
        return sum(line.count for line in bars) + sum(one.count for one in held)

    clock = Clock(
        spread={key: spread * joint.sides * max(1.0, joint.deep / SPAN) for key, joint in every.items() if joint.faces},
        close=close,
        clamp=clamp,
        clamps=set_on,
        people=value.people,
        open_minutes=known["open_time"].value,
        rigid=frozenset(stage.rigid),
    )
    found = batches(stage.steps, clock)
    return [_go(stage, batch, value, known, every, (number, len(found))) for number, batch in enumerate(found, 1)]


def _pressed(known: Mapping[str, Said]) -> tuple[float | None, Words]:
    """The glue's own pressure, and whose word it is."""
    usual = known.get("pressure")
    return (usual.value if usual else None, usual.source if usual else "")


def _go(
    stage: StageValue,
    batch: Batch,
    value: GlueUpValue,
    known: Mapping[str, Said],
    every: Mapping[Pair, GlueJoint],
    count: tuple[int, int],
) -> GlueStage:
    joints = [every[key] for key in batch.glued]
    pressed = _pressed(known)
    masses = grams(_faces(joints), known["spread"].value, OVER)
    before = [part for step in stage.steps[: batch.first] for part in step.parts]
    there = {*stage.first, *before, *(part for step in (*batch.steps, *batch.held) for part in step.parts)}
    squares, across = _measured(stage, batch, joints, dict(value.corners), there)
    then = batch.first + len(batch.steps) + (0 if batch.off else len(batch.held))
    return GlueStage(
        name=stage.name,
        place=stage.place,
        number=count[0],
        of=count[1],
        boards=tuple(dict.fromkeys(name for key in batch.glued for name in key)),
        lying=(*stage.first, *before),
        steps=tuple(step.name for step in batch.steps),
        moves=tuple((step.parts, step.onto) for step in batch.steps),
        held=tuple(step.parts for step in batch.held),
        off=batch.off and bool(batch.held),
        glued=batch.glued,
        dry=batch.dry,
        minutes=batch.times.whole,
        spread_minutes=batch.times.spread,
        close_minutes=batch.times.close,
        clamp_minutes=batch.times.clamp,
        open_minutes=known["open_time"].value,
        grams=masses,
        total_g=sum(mass for _, mass in masses),
        clamps=tuple(
            replace(line, fill=to_fill(line.board, joints, every.values(), there))
            for line in clamps(joints, *pressed, value.clamp_kn * NEWTONS)
        ),
        bound=bound(joints, *pressed, value.clamp_kn * NEWTONS),
        contact_only=pressed[0] is None,
        fitted=tuple(joint.key for joint in joints if joint.pressed is Pressing.FIT),
        end_faces=sum(joint.end_faces for joint in joints),
        squares=squares,
        across=across,
        after=stage.after if count[0] == count[1] else (),
        following=stage.steps[then].name if then < len(stage.steps) else "",
    )


def _measured(
    stage: StageValue, batch: Batch, joints: Sequence[GlueJoint], corners: Mapping[str, Quad], there: Set[str]
) -> tuple[tuple[Squareness, ...], tuple[Across, ...]]:
    """The frame, where this go closes it; else what lies between its boards."""
    if stage.frame and set(stage.frame) <= there and stage.check is not None:
        rest = [joint for joint in joints if not set(joint.key) <= set(stage.frame)]
        squares, across = apart(rest, batch.dry, corners) if rest else ((), ())
        if isinstance(stage.check, Squareness):
            return (stage.check, *squares), across
        return squares, (stage.check, *across)
    return apart(joints, batch.dry, corners)


def _too_slow(go: GlueStage, value: GlueUpValue) -> Finding:
    able = [name for name, minutes in value.slower if minutes >= go.minutes]
    return Finding(
        code=TOO_SLOW,
        severity=Severity.WARN,
        where=Where(boards=go.boards, path=("glue", "kind")),
        says=say(
            "putting in {} takes {} min to spread, close and clamp; {} stays open {} min",
            go.steps[-1],
            plain(go.minutes),
            value.glue,
            plain(go.open_minutes, 1.0),
        ),
        remedy=say("use {}, have more hands, or leave some of its joints dry", able[0])
        if able
        else "have more hands, or leave some of its joints dry",
        found=go.minutes,
        limit=go.open_minutes,
        unit="min",
        source=next((said.source for said in value.figures if said.name == "open_time"), ""),
        cures=tuple(
            Cure(label=say("glue with {}", name), edits=(Edit(action="set", path=("glue", "kind"), value=name),))
            for name in able[:1]
        ),
    )
