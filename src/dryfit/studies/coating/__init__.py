"""Coating: what goes on when, over what area, how much it takes, and how long each stage waits.

What it works out   For each board what is open, hidden by joints, masked and coated in them; for each stage at which
                    coats go on the area coat by coat, litres with a tenth lost, hours to the next coat and until hard.
                    From these the hours in which the job waits: until what is coated first may be glued, what is glued
                    coated, what is coated carried, and what is coated on site lived with.
Assumes             Areas of the exact solids, one flat coat; drying at 20 °C and under 70 % of moisture in the air:
                    cold or damp doubles it. Litres by the low end of what a litre covers, so that it is enough.
Source              When: the piece's history. Spread and times: the trade's table, with the source of each, or the
                    job's `coverage`. That coated faces stick until they are hard, and what is lost: common practice.
"""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from ...asking import unanswered
from ...findings import NotChecked
from ...job.model import When
from ...piece.history import Contact, Life, Stage
from ...piece.model import Piece
from ...places import Where
from ...sentences import say
from ...study.base import Pace, Scene, Study, Work
from ...study.registry import register
from ...trade.finishes import figure, find_system, has_fumes, heats_rags, hours_until
from ..buying.result import LOST
from .result import BoardCoats, Coating, CoatingStage, Wait

MM2_PER_M2 = 1e6
HOURS = 24  # in a day
GLUE_SETS = 24.0  # hours from the last clamp until what is glued is coated (common practice)
_WHEN: Mapping[Stage, When] = {
    Stage.EARLY: "before glue",
    Stage.COATED: "after glue",
    Stage.ON_SITE: "on site",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class CoatedBoard:
    """One board: its life as far as coats go, its surface and what of it joints hide, in mm2.

    Attributes:
        coats: how many at which stage.
        hidden: of each joint: the stage at which it closes, how its zone is then, the area that it hides.
    """

    name: str
    when: When | None
    coats: tuple[tuple[Stage, int], ...]
    surface_mm2: float
    edges_mm2: float
    hidden: tuple[tuple[Stage, str, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CoatingValue:
    """All that is read; figures with whose they are, None where nobody has one; `glued` is said of the shop."""

    system: str
    known: bool
    boards: tuple[CoatedBoard, ...]
    covers: tuple[float, str] | None
    recoat_h: tuple[float, str] | None
    cure_d: tuple[float, str] | None
    glued: bool
    self_heating: bool
    fumes: bool


@register
class CoatingStudy(Study[CoatingValue, Coating]):
    """What is coated when."""

    name = "coating"
    order = 45
    version = 2
    asks = "what is coated when, how much it takes and how long it dries"
    result = Coating
    pace = Pace.REST

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
            known=system is not None,
            boards=tuple(_board(scene, name, life) for name, life in lives.items()),
            covers=known("spread") if finish.coverage is None else (finish.coverage, "the job file"),
            recoat_h=known("recoat"),
            cure_d=known("cure"),
            glued=any(met.glued and met.stage is Stage.GLUED for met in scene.piece.history.contacts.values()),
            self_heating=system is None or heats_rags(system),
            fumes=system is None or has_fumes(system),
        )

    def run(self, value: CoatingValue, work: Work) -> Coating:
        """Add up by board and by stage."""
        stages = tuple(_stages(value))
        return Coating(
            system=value.system,
            boards=tuple(map(_coats_of, value.boards)),
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
        )

    def not_checked(self, value: CoatingValue, result: Coating) -> tuple[NotChecked, ...]:
        """Figures that nobody has; of boards of which nobody says when, the piece's own check tells."""
        if not result.stages:
            return (unanswered(self.name, "the job does not say when anything is coated", Where(path=("finish",))),)
        return tuple(_left_open(self.name, value))


def _board(scene: Scene, name: str, life: Life) -> CoatedBoard:
    part = scene.piece.part_by_name[name]
    contacts = scene.piece.history.contacts
    joints = [joint for joint in scene.piece.joints if name in joint.key]
    hides = [(contacts.get(joint.key), dict(joint.hidden_mm2).get(name, 0.0)) for joint in joints]
    return CoatedBoard(
        name=name,
        when=life.when,
        coats=life.coats,
        surface_mm2=scene.surface_mm2(name),
        edges_mm2=2 * part.board.thickest * (part.length + part.board.depth),
        hidden=tuple(_hidden(contact, name, area) for contact, area in hides if area),
    )


def _hidden(contact: Contact | None, name: str, area: float) -> tuple[Stage, str, float]:
    """What the wall or a fixing hides is never coated: it is closed when the piece hangs."""
    return (Stage.PUT_IN, "bare", area) if contact is None else (contact.stage, contact.of(name).state, area)


def _coats_of(board: CoatedBoard) -> BoardCoats:
    def hidden(state: str) -> float:
        return math.fsum(area for _, how, area in board.hidden if how == state) / MM2_PER_M2

    return BoardCoats(
        name=board.name,
        when=board.when,
        coats=sum(coats for _, coats in board.coats),
        open_m2=_open(board) / MM2_PER_M2,
        edges_m2=board.edges_mm2 / MM2_PER_M2,
        coated_m2=hidden("coated"),
        masked_m2=hidden("masked"),
    )


def _open(board: CoatedBoard) -> float:
    return max(0.0, board.surface_mm2 - math.fsum(area for *_, area in board.hidden))


def _stages(value: CoatingValue) -> Iterator[CoatingStage]:
    for stage, when in _WHEN.items():
        here = [(board, coats) for board in value.boards for at, coats in board.coats if at is stage]
        if not here:
            continue
        m2 = math.fsum(coats * _covered(board, stage) for board, coats in here) / MM2_PER_M2
        coats = max(coats for _, coats in here)
        recoat, cure = value.recoat_h, value.cure_d
        yield CoatingStage(
            when=when,
            boards=tuple(board.name for board, _ in here),
            coats=coats,
            m2=m2,
            litres=None if value.covers is None else m2 / value.covers[0] * (1 + LOST),
            next_h=None if recoat is None else hours_until(coats=coats, recoat_h=recoat[0], wait_h=recoat[0]),
            hard_h=None
            if recoat is None or cure is None
            else hours_until(coats=coats, recoat_h=recoat[0], wait_h=cure[0] * HOURS),
        )


def _waits(stages: Sequence[CoatingStage], *, glued: bool) -> Iterator[Wait]:
    """What is coated first is glued, or coated again, once it has dried; what is carried must be hard."""
    at = {stage.when: stage for stage in stages}
    early, shop, site = (at.get(when) for when in _WHEN.values())
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


def _covered(board: CoatedBoard, stage: Stage) -> float:
    """What a coat at that stage covers: all that is open, and what joints hide that are not closed yet nor masked."""
    return _open(board) + math.fsum(area for at, how, area in board.hidden if how == "coated" and at > stage)


def _left_open(study: str, value: CoatingValue) -> Iterator[NotChecked]:
    why = say("no figure is known for {}", value.system or "the finish")
    for what, found in (
        ("how much finish it takes", value.covers),
        ("how long it dries", value.recoat_h and value.cure_d),
    ):
        if found is None:
            yield NotChecked(study=study, what=what, why=why, where=Where(path=("finish", "system")))
