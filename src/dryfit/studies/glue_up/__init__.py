"""Glue-up: what is glued in one go, how long there is, how much glue, how many clamps, what to check.

What it works out   Stages of the assembly that close while the glue is open, at the shop's pace; glue by grain
                    pair; clamps by pressure and by spacing; times and conditions; diagonals of frames.
Assumes             Every joint takes the same time to bring home; all hands work at once; glue on one face of
                    each pair, on both where end grain meets end grain. Pressure is by the glue, less at a
                    mitre, or as `[glue]` in the job file asks.
Source              Glues: the trade's table, each figure with its own; most are from memory, the sheet of the
                    product in hand governs. Pace: the shop file, or common practice. Clamp of 3 kN (2.5 to 4 for
                    a bar clamp), a tenth over for what is lost, spacing, limits: common practice.
"""

from collections.abc import Iterable, Iterator, Mapping
from typing import Annotated, Any, ClassVar

from pydantic import Field

from ...asking import unanswered
from ...findings import Finding, NotChecked, Severity, declare
from ...job.options import Options
from ...lengths import figure as plain
from ...piece.model import Piece
from ...places import Cure, Edit, Pair, Where
from ...sentences import Count, Name, Several, Words, say
from ...shop.model import PRACTICE as SHOP_PRACTICE
from ...study.base import Pace, Scene, Study, Work
from ...study.registry import register
from ...trade.figures import Figure
from ...trade.glues import Glue, all_glues, figure, find_glue
from .model import GlueStage, GlueUp, GlueUpValue, Said, StageValue
from .pressing import NEWTONS, PRACTICE, SPACING, SPACING_FROM, GlueJoint, bound, clamps
from .reading import glue_joint, stage_of
from .stages import BOTH, Batch, batches, grams

UNKNOWN = declare("glue-unknown", "There are no figures for a glue, so no glue-up is planned.")
TOO_SLOW = declare("glue-sets-first", "A step takes longer to close than the glue stays open.")

DEFAULT = "PVA, D3"
NO_ORDER = "no order is found"
CLAMP_KN = 3.0
OVER = 1.1  # a tenth more glue than is spread: what is lost (common practice)
FIGURES = ("spread", "open_time", "clamp_time", "pressure", "coldest", "moisture")


class GlueTable(Options):
    """What is glued with, and what presses it: the `[glue]` table."""

    kind: str = Field(default=DEFAULT, description="A glue by its name.")
    people: Annotated[int, Field(ge=1, le=8)] = Field(default=1, description="Pairs of hands at glue-up.")
    clamp_kn: Annotated[float, Field(gt=0, le=50)] = Field(default=CLAMP_KN, description="Force of one clamp, in kN.")
    pressure: dict[str, Annotated[float, Field(gt=0, le=10)]] = Field(
        default_factory=dict, description="By kind of joint, in N/mm2; left out: the glue's own, 0.5 at a mitre."
    )


@register
class GlueUpStudy(Study[GlueUpValue, GlueUp]):
    """Stages, times, glue and clamps."""

    name = "glue_up"
    asks = "how the units are glued up"
    version = 5
    needs = ("order",)
    pace = Pace.REST
    tables: ClassVar[Mapping[str, type[Any]]] = {"glue": GlueTable}

    def concerns(self, piece: Piece) -> bool:
        """Something is glued."""
        return any(dict(joint.options).get("glued") for joint in piece.joints)

    def reads(self, scene: Scene, earlier: Mapping[str, Any]) -> GlueUpValue:
        """Copy the stages of the order, the joints' glue faces, the glue's figures and the shop's pace."""
        raw = scene.job.tables.get("glue")
        table = GlueTable.model_validate(raw if isinstance(raw, dict) else {})
        match, shop = find_glue(table.kind), scene.shop
        assumed = "seconds_a_crossing" in shop.assumed
        boards = set(scene.piece.board_by_name)
        return GlueUpValue(
            asked=table.kind,
            given="kind" in table.model_fields_set,
            glue=match.found.name if match.found else "",
            unknown="" if match.found else match.says,
            remedy="" if match.found else match.remedy,
            figures=_figures(match.found) if match.found else (),
            slower=_slower(match.found) if match.found else (),
            seconds_a_joint=shop.seconds_a_crossing,
            pace_from=SHOP_PRACTICE["seconds_a_crossing"] if assumed else "the shop file",
            people=table.people,
            clamp_kn=table.clamp_kn,
            stages=tuple(stage_of(stage, scene.job, scene.piece) for stage in earlier["order"].stages),
            joints=tuple(
                glue_joint(joint, scene.kinds[joint.kind], table.pressure)
                for joint in scene.piece.joints
                if set(joint.key) <= boards
            ),
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
                ("time to bring one joint home", value.seconds_a_joint, "s", value.pace_from),
                ("force of one clamp", value.clamp_kn, "kN", f"{PRACTICE}: 2.5 to 4 for a bar clamp"),
                ("clamps at most this far apart", SPACING, "mm", SPACING_FROM),
                ("glue over what is spread", OVER, "1", PRACTICE),
                ("faces spread where end grain meets end grain", float(BOTH), "1", f"{PRACTICE}: end grain drinks"),
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
            return (Finding(code=UNKNOWN, severity=Severity.WARN, where=where, says=says, remedy=value.remedy),)
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
            why = say("[glue] names none, so {} is taken", value.glue)
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


def _faces(joints: Iterable[GlueJoint]) -> Iterator[tuple[str, float]]:
    return (face for joint in joints for face in joint.faces)


def _goes(
    stage: StageValue, value: GlueUpValue, known: Mapping[str, Said], every: Mapping[Pair, GlueJoint]
) -> list[GlueStage]:
    """The goes of one stage of the assembly."""
    wet = frozenset(key for key, joint in every.items() if joint.faces)
    found = batches(stage.steps, wet, value.seconds_a_joint / value.people, known["open_time"].value)
    told = []
    for number, batch in enumerate(found, 1):
        last = number == len(found)
        following: Words = stage.steps[batch.first + len(batch.steps)].name if not last else ""
        told.append(_go(stage, batch, value, known, every, (number, len(found)), following))
    return told


def _go(
    stage: StageValue,
    batch: Batch,
    value: GlueUpValue,
    known: Mapping[str, Said],
    every: Mapping[Pair, GlueJoint],
    count: tuple[int, int],
    following: Words,
) -> GlueStage:
    joints = [every[key] for key in batch.glued]
    usual = known.get("pressure")
    pressed = (usual.value if usual else None, usual.source if usual else "")
    masses = grams(_faces(joints), known["spread"].value, OVER)
    before = [part for step in stage.steps[: batch.first] for part in step.parts]
    done = count[0] == count[1]
    return GlueStage(
        name=stage.name,
        place=stage.place,
        number=count[0],
        of=count[1],
        boards=tuple(dict.fromkeys(name for key in batch.glued for name in key)),
        lying=(*stage.first, *before),
        steps=tuple(step.name for step in batch.steps),
        moves=tuple((step.parts, step.onto) for step in batch.steps),
        glued=batch.glued,
        dry=batch.dry,
        minutes=batch.minutes,
        open_minutes=known["open_time"].value,
        grams=masses,
        total_g=sum(mass for _, mass in masses),
        clamps=clamps(joints, *pressed, value.clamp_kn * NEWTONS),
        bound=bound(joints, *pressed, value.clamp_kn * NEWTONS),
        contact_only=usual is None,
        fitted=tuple(joint.key for joint in joints if joint.pressed == "fit"),
        end_faces=sum(joint.end_faces for joint in joints),
        square=stage.square if done else None,
        across=stage.across if done else None,
        after=stage.after if done else (),
        following=following,
    )


def _too_slow(go: GlueStage, value: GlueUpValue) -> Finding:
    able = [name for name, minutes in value.slower if minutes >= go.minutes]
    return Finding(
        code=TOO_SLOW,
        severity=Severity.WARN,
        where=Where(boards=go.boards, path=("glue", "kind")),
        says=say(
            "to put in {} takes {} min; {} stays open {} min",
            go.steps[-1],
            plain(go.minutes),
            value.glue,
            plain(go.open_minutes, 1.0),
        ),
        remedy=say("take {}, have more hands, or leave some of its joints dry", able[0])
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
