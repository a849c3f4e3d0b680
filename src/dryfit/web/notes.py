"""Findings as notes on the drawing: numbered, each with its place, its light and its cures."""

import sys
from collections import Counter
from collections.abc import Iterable, Mapping
from functools import cache
from types import MappingProxyType

from ..editing.answers import CureShown, Decided, EditShown, Note
from ..editing.drawn import Drawn
from ..findings import CODES, Finding, in_order
from ..geometry.frames import Vec2
from ..piece.model import Decision, Piece
from ..places import Cure, Edit
from ..sentences import Voice, told
from ..studies import STUDIES

FIRST_LIGHT = "set-out"


def notes(drawn: Drawn, slow: Iterable[Finding], *, stale: bool) -> tuple[Note, ...]:
    """The live findings of a drawing with those of the slow work.

    Args:
        drawn: what is drawn.
        slow: what only solids and studies find.
        stale: whether the slow ones are of an earlier text.
    """
    late = list(slow)
    old = {id(finding) for finding in late} if stale else set()
    seen: Counter[str] = Counter()
    found = []
    for number, finding in enumerate(in_order([*drawn.findings, *late]), start=1):
        name = _name(finding)
        seen[name] += 1
        found.append(_note(finding, f"{name}#{seen[name]}", number, drawn, stale=id(finding) in old))
    return tuple(found)


def _name(finding: Finding) -> str:
    where = finding.where
    parts = [finding.code, *where.boards, *(where.joint or ()), where.fixing or "", where.cut or ""]
    return "/".join(parts)


def _note(finding: Finding, name: str, number: int, drawn: Drawn, *, stale: bool) -> Note:
    where, voice = finding.where, drawn.voice
    boards = tuple(drawn.members(where.boards))  # a divided board as it is drawn
    return Note(
        id=name,
        number=number,
        code=finding.code,
        severity=finding.severity.value,
        says=told(finding.says, voice),
        remedy=told(finding.remedy, voice),
        found=finding.found,
        limit=finding.limit,
        unit=finding.unit,
        source=finding.source,
        at=place_of(finding, boards, drawn.piece),
        boards=boards,
        joint=where.joint,
        cut=where.cut,
        path=where.path,
        light=light_of(finding.code),
        cures=tuple(cure_shown(cure, voice) for cure in finding.cures),
        stale=stale,
    )


def place_of(finding: Finding, boards: tuple[str, ...], piece: Piece) -> Vec2 | None:
    """Where a leader points: the joint, else where the boards it names meet, else the first board's middle.

    Args:
        finding: what was found.
        boards: that it names, as they are drawn.
        piece: they are of.
    """
    pairs = [finding.where.joint] if finding.where.joint else []
    if len(boards) > 1:
        one, other = boards[:2]
        pairs += [(one, other), (other, one)]
    for pair in pairs:
        joint = piece.joint_by_key.get(pair)
        if joint is not None:
            x, y, _ = joint.meeting.frame.origin
            return round(x, 3) + 0.0, round(y, 3) + 0.0
    for name in boards:
        board = piece.board_by_name.get(name)
        if board is not None:
            x, y, _ = board.frame.place((board.length / 2, 0.0, 0.0))
            return round(x, 3) + 0.0, round(y, 3) + 0.0
    return None


def light_of(code: str) -> str:
    """The study that declares a code, which is the light it is looked at in; the set-out for all others."""
    return _lights().get(code, FIRST_LIGHT)


@cache
def _lights() -> Mapping[str, str]:
    """The codes that studies declare, each with its study: constants of the study's own modules."""
    found: dict[str, str] = {}
    everything = sys.modules.copy()  # in one step: another thread may be importing
    for name, study in STUDIES.items():
        home = type(study).__module__
        room = home.rpartition(".")[0]
        family = room if room.rpartition(".")[2] != "studies" else home
        for path, module in everything.items():
            if path == family or path.startswith(f"{family}."):
                values = (value for value in vars(module).values() if isinstance(value, str))
                found.update((code, name) for code in values if code in CODES)
    return MappingProxyType(found)


def edit_shown(edit: Edit) -> EditShown:
    """An edit for the page to send back."""
    return EditShown(action=edit.action, path=edit.path, value=edit.value)


def cure_shown(cure: Cure, voice: Voice) -> CureShown:
    """A cure for the page's button."""
    return CureShown(label=told(cure.label, voice), edits=tuple(edit_shown(edit) for edit in cure.edits))


def decided(decision: Decision, voice: Voice) -> Decided:
    """A decision for the page."""
    return Decided(
        about=decision.about,
        key=decision.key,
        value=told(decision.value, voice),
        decider=decision.decider,
        reason=told(decision.reason, voice),
        others=tuple(told(other, voice) for other in decision.others),
        keep=None if decision.keep is None else edit_shown(decision.keep),
    )
