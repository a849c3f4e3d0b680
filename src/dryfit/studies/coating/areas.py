"""Areas of coats: by board, by face, by joint, and by the stage at which they go on."""

import math
from collections.abc import Iterator, Mapping

from ...lengths import MM2_PER_M2
from ...piece.history import Contact, Stage, State
from ...trade.finishes import hours_until
from ..buying.result import LOST
from .planning import WHEN, Planned
from .result import BoardCoats, CoatedFace, CoatingStage, FaceName, HiddenPlace, JointCoats
from .surfaces import FaceMeasure
from .value import CoatedBoard, CoatingValue

HOURS = 24  # in a day
_WIDE: tuple[FaceName, ...] = ("face +", "face -", "front edge", "wall edge")
_FACES: tuple[FaceName, ...] = (*_WIDE, "ends", "cuts")


def open_mm2(board: CoatedBoard) -> float:
    """What no joint hides of it."""
    return max(0.0, board.surface_mm2 - math.fsum(area for *_, area, _ in board.hidden))


def coats_of(board: CoatedBoard) -> BoardCoats:
    """A board's coats."""

    def hidden(state: str) -> float:
        return math.fsum(area for _, _, how, area, _ in board.hidden if how == state) / MM2_PER_M2

    return BoardCoats(
        name=board.name,
        when=board.when,
        coats=sum(coats for _, coats in board.coats),
        open_m2=open_mm2(board) / MM2_PER_M2,
        edges_m2=board.edges_mm2 / MM2_PER_M2,
        coated_m2=hidden("coated"),
        masked_m2=hidden("masked"),
    )


def planned(board: CoatedBoard) -> Planned:
    """It, as the plan sees it."""
    return Planned(
        name=board.name,
        coats=board.coats,
        stages=board.stages,
        body=board.body,
        masked=any(state == "masked" for _, _, state, _, _ in board.hidden),
        m2=open_mm2(board) / MM2_PER_M2,
        size=board.size,
        low=board.low,
        high=board.high,
    )


def faces_of_board(board: CoatedBoard, faces: Mapping[FaceName, FaceMeasure]) -> Iterator[CoatedFace]:
    """Each face, what joints hide of it in the proportion in which the solids lie on it."""
    lies: dict[str, float] = {}
    for measure in faces.values():
        for other, area in measure.hidden.items():
            lies[other] = lies.get(other, 0.0) + area
    says: dict[str, float] = {}
    how: dict[str, tuple[State, bool]] = {}
    for other, _, state, area, glued in board.hidden:
        says[other] = says.get(other, 0.0) + area
        how[other] = (state, glued)
    for face in _FACES:
        if face in faces:
            yield _face(board, face, faces[face], {other: says.get(other, 0.0) / lies[other] for other in lies}, how)


def _face(
    board: CoatedBoard,
    face: FaceName,
    measure: FaceMeasure,
    times: Mapping[str, float],
    how: Mapping[str, tuple[State, bool]],
) -> CoatedFace:
    hidden = [(*how.get(other, ("bare", False)), area * times[other]) for other, area in measure.hidden.items()]
    whole = math.fsum(area for *_, area in hidden)
    fits = min(1.0, measure.total / whole) if whole else 1.0

    def of(state: State) -> float:
        return fits * math.fsum(area for one, _, area in hidden if one == state) / MM2_PER_M2

    long, depth, thick = board.size
    left, lies = measure.total - fits * whole, measure.total - math.fsum(measure.hidden.values())
    return CoatedFace(
        board=board.name,
        face=face,
        called=board.called[0] if face == "face +" else board.called[1] if face == "face -" else "",
        long=long if face in _WIDE else 0.0,
        across=depth if face in ("face +", "face -") else thick if face in _WIDE else 0.0,
        m2=measure.total / MM2_PER_M2,
        open_m2=left / MM2_PER_M2,
        seen_m2=min(left, measure.seen * left / lies) / MM2_PER_M2 if lies > 0.0 else 0.0,
        masked_m2=of("masked"),
        coated_m2=of("coated"),
        bare_m2=of("bare"),
        glued_m2=fits * math.fsum(area for _, glued, area in hidden if glued) / MM2_PER_M2,
        places=tuple(
            HiddenPlace(by=other, state=how.get(other, ("bare", False))[0], outline=outline)
            for other, outline in measure.marks
        ),
    )


def joint_coats(contact: Contact, hidden: tuple[float, float]) -> JointCoats:
    """A joint as it closes, from what it hides of its two boards in mm2."""
    one, other = contact.zones
    return JointCoats(
        joint=contact.key,
        closes="glued" if contact.stage is Stage.GLUED and contact.glued else "put in",
        glued=contact.glued,
        states=(one.state, other.state),
        films=(one.film, other.film),
        wall_films=(one.wall_film, other.wall_film),
        hidden_m2=(hidden[0] / MM2_PER_M2, hidden[1] / MM2_PER_M2),
    )


def coating_stages(value: CoatingValue, slower: float) -> Iterator[CoatingStage]:
    """All that goes on at one time, stage by stage."""
    for stage, when in WHEN.items():
        here = [(board, coats) for board in value.boards for at, coats in board.coats if at is stage]
        if not here:
            continue
        m2 = math.fsum(coats * _covered(board, stage) for board, coats in here) / MM2_PER_M2
        coats = max(coats for _, coats in here)
        recoat = None if value.recoat_h is None else slower * value.recoat_h[0]
        cure = None if value.cure_d is None else slower * value.cure_d[0]
        yield CoatingStage(
            when=when,
            boards=tuple(board.name for board, _ in here),
            coats=coats,
            m2=m2,
            litres=None if value.covers is None else m2 / value.covers[0] * (1 + LOST),
            next_h=None if recoat is None else hours_until(coats=coats, recoat_h=recoat, wait_h=recoat),
            hard_h=None
            if recoat is None or cure is None
            else hours_until(coats=coats, recoat_h=recoat, wait_h=cure * HOURS),
        )


def _covered(board: CoatedBoard, stage: Stage) -> float:
    """What a coat at that stage covers: all that is open, and what joints hide that are not closed yet nor masked."""
    return open_mm2(board) + math.fsum(area for _, at, how, area, _ in board.hidden if how == "coated" and at > stage)
