"""Coating: what goes on when, over what area, how much it takes, and how long each stage waits.

What it works out   For each board what is open, hidden by joints, masked and coated in them, face by face, and what is
                    seen of it; for each stage at which coats go on the area coat by coat, litres with a tenth lost,
                    hours to the next coat and until hard. From these the hours in which the job waits: until what is
                    coated first may be glued, what is glued coated, what is coated carried, and what is coated on site
                    lived with; and the plan: what is sanded, masked, coated and glued on which day, with which grits,
                    on racks of which size.
Assumes             Areas of the exact solids, one flat coat; drying at 20 °C and under 70 % of moisture in the air,
                    where `[drying]` does not say otherwise: cold or damp doubles it. Litres by the low end of what a
                    litre covers, so that it is enough. What hands take is left out of the plan.
Source              When: the piece's history. Spread and times: the trade's table, with the source of each, or the
                    job's `coverage`. That coated faces stick until they are hard, what is lost, working hours: common
                    practice. Cold and damp: drying guide. What a disc does, room round what is wet: from memory.
"""

from collections.abc import Iterator, Sequence

from ...asking import unanswered
from ...findings import Finding, NotChecked
from ...piece.history import Stage
from ...piece.model import Piece
from ...places import Where
from ...sentences import say
from ...study.base import Pace, Scene, Study, Work
from ...study.registry import register
from ...trade.finishes import figure, find_system, has_fumes, heats_rags
from ...trade.sanding import goes_into_wood
from .areas import HOURS, coating_stages, coats_of, faces_of_board, joint_coats, planned
from .planning import GLUE_SETS, WHEN, DryingTimes, racks, sandings, steps
from .result import Coating, CoatingStage, Wait
from .surfaces import faces_by_board
from .tables import DRYING, DryingTable, slower
from .telling import CODES, findings_of
from .value import CoatingValue, board_of, joints_of

_EYES = "eye"  # points from which the piece is looked at: a table that others own


@register
class CoatingStudy(Study[CoatingValue, Coating]):
    """What is coated when."""

    name = "coating"
    order = 45
    version = 3
    asks = "what is coated when, how much it takes and how long it dries"
    result = Coating
    pace = Pace.REST
    owns = (DRYING,)
    codes = CODES

    def concerns(self, piece: Piece) -> bool:
        """Only what has coats."""
        return bool(piece.job and piece.job.finish.coats)

    def reads(self, scene: Scene) -> CoatingValue:
        """Copy lives, surfaces and the figures of the finish."""
        lives, finish = scene.piece.history.lives, scene.job.finish
        system = find_system(finish.system).found if finish.system else None

        def known(name: str) -> tuple[float, str] | None:
            found = None if system is None else figure(system, name)
            return None if found is None else (found.value, found.cited)

        return CoatingValue(
            system=finish.system,
            into_wood=goes_into_wood(finish.system),
            boards=tuple(board_of(scene, name, life) for name, life in lives.items()),
            covers=known("spread") if finish.coverage is None else (finish.coverage, "the job file"),
            recoat_h=known("recoat"),
            cure_d=known("cure"),
            glued=any(met.glued and met.stage is Stage.GLUED for met in scene.piece.history.contacts.values()),
            self_heating=system is None or heats_rags(system),
            fumes=system is None or has_fumes(system),
            joints=tuple(joints_of(scene.piece)),
            eyes=tuple((eye.name, eye.at) for eye in scene.job.tables.get(_EYES, ())),
            drying=scene.one(DRYING) or DryingTable(),
        )

    def run(self, value: CoatingValue, work: Work) -> Coating:
        """Add up by board and by stage, look at the faces, then plan."""
        drying, times_slower = value.drying, slower(value.drying)
        stages = tuple(coating_stages(value, times_slower))
        shapes = [board.shape for board in value.boards if board.shape is not None] if stages else []
        met: dict[str, list[str]] = {}
        for contact, _ in value.joints:
            for name, other in (contact.key, contact.key[::-1]):
                met.setdefault(name, []).append(other)
        faces = faces_by_board(shapes, met, [eye for _, eye in value.eyes])
        work.step(0.8, "faces")
        plans = [planned(board) for board in value.boards]
        times = DryingTimes(
            recoat_h=None if value.recoat_h is None else times_slower * value.recoat_h[0],
            hard_h=None if value.cure_d is None else times_slower * value.cure_d[0] * HOURS,
            begins=drying.begins,
        )
        return Coating(
            system=value.system,
            boards=tuple(map(coats_of, value.boards)),
            stages=stages,
            covers=None if value.covers is None else value.covers[0],
            covers_from="" if value.covers is None else value.covers[1],
            recoat_h=None if value.recoat_h is None else value.recoat_h[0],
            recoat_from="" if value.recoat_h is None else value.recoat_h[1],
            cure_d=None if value.cure_d is None else value.cure_d[0],
            cure_from="" if value.cure_d is None else value.cure_d[1],
            self_heating=value.self_heating,
            fumes=value.fumes,
            waits=tuple(_waits(stages, glued=value.glued)),
            faces=tuple(one for board in value.boards for one in faces_of_board(board, faces.get(board.name, {}))),
            eyes=tuple(name for name, _ in value.eyes),
            joints=tuple(joint_coats(contact, hidden) for contact, hidden in value.joints) if stages else (),
            sandings=tuple(sandings(plans, into_wood=value.into_wood)),
            racks=tuple(racks(plans)),
            steps=steps(plans, times, into_wood=value.into_wood),
            slower=times_slower,
            temperature=drying.temperature,
            humidity=drying.humidity,
        )

    def findings(self, value: CoatingValue, result: Coating) -> tuple[Finding, ...]:
        """What the room, the days and the rack that the job gives contradict."""
        return findings_of(value.drying, result)

    def not_checked(self, value: CoatingValue, result: Coating) -> tuple[NotChecked, ...]:
        """Figures that nobody has; of boards of which nobody says when, the piece's own check tells."""
        if not result.stages:
            return (unanswered(self.name, "the job does not say when anything is coated", Where(path=("finish",))),)
        return tuple(_left_open(self.name, value))


def _waits(stages: Sequence[CoatingStage], *, glued: bool) -> Iterator[Wait]:
    """What is coated first is glued, or coated again, once it has dried; what is carried must be hard."""
    at = {stage.when: stage for stage in stages}
    early, shop, site = (at.get(when) for when in WHEN.values())
    if early is not None and (glued or shop is not None):
        yield Wait(after="before glue", until="glued" if glued else "coated", hours=early.next_h)
    if glued:
        yield Wait(after="glue", until="carried" if shop is None else "coated", hours=GLUE_SETS, dries=False)
    if shop is not None:
        yield Wait(after="after glue", until="carried", hours=shop.hard_h)
    elif early is not None:
        hours = _left(early) if glued else early.hard_h
        if hours is None or hours > 0.0:
            yield Wait(after="before glue", until="carried", hours=hours)
    if site is not None:
        yield Wait(after="on site", until="lived with", hours=site.hard_h)


def _left(early: CoatingStage) -> float | None:
    """Hours until it is hard that are left when its glue has set."""
    if early.hard_h is None or early.next_h is None:
        return None
    return early.hard_h - early.next_h - GLUE_SETS


def _left_open(study: str, value: CoatingValue) -> Iterator[NotChecked]:
    why = say("no figure is known for {}", value.system or "the finish")
    for what, found in (
        ("how much finish it takes", value.covers),
        ("how long it dries", value.recoat_h and value.cure_d),
    ):
        if found is None:
            yield NotChecked(study=study, what=what, why=why, where=Where(path=("finish", "system")))
    if value.drying.needed and not value.drying.begins:
        yield NotChecked(
            study=study,
            what="whether its coats are hard in time",
            why="[drying] does not say on which day it begins",
            where=Where(path=DRYING.at("needed")),
        )
