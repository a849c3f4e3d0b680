"""Findings as notes on the drawing: numbered, each with its place, its light and its cures."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import replace

from ..editing.answers import CureShown, Decided, EditShown, Note
from ..editing.drawn import Drawn
from ..findings import Finding, in_order, uncured
from ..geometry.frames import Vec2
from ..geometry.shapes import Bore, HalfSpace, Prism, corners
from ..lengths import figure
from ..piece.model import Board, Cut, Decision, Piece
from ..places import Cure, Edit
from ..sentences import Angle, Length, On, Value, Voice, say, told
from ..studies import STUDIES

FIRST_LIGHT = "set-out"


def notes(drawn: Drawn, slow: Iterable[Finding], *, stale: bool, curing: bool = True) -> tuple[Note, ...]:
    """The live findings of a drawing with those of the slow work.

    Args:
        drawn: what is drawn.
        slow: what only solids and studies find.
        stale: whether the slow ones are of an earlier text.
        curing: whether cures were tried. A hand that is moving presses no button, and what nobody tried is neither
            offered nor said to be in vain.
    """
    late = list(slow)
    old = {id(finding) for finding in late} if stale else set()
    seen: Counter[str] = Counter()
    found = []
    for number, finding in enumerate(in_order([*drawn.findings, *late]), start=1):
        name = _name(finding)
        seen[name] += 1
        note = _note(finding, f"{name}#{seen[name]}", number, drawn, stale=id(finding) in old)
        found.append(note if curing else replace(note, cures=(), uncured=""))
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
        lead=lead_of(finding, voice),
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
        uncured=told(uncured(finding), voice),
        stale=stale,
    )


def lead_of(finding: Finding, voice: Voice) -> str:
    """What a note leads with, the figure and its limit: "68.5, 75.3 wanted", "12, 8 at most"; "" without them."""
    found, limit = finding.found, finding.limit
    if found is None or limit is None or found == limit or finding.unit == "":
        return ""
    few = found < limit
    values: tuple[Value, Value] = (f"{figure(found)} {finding.unit}", f"{figure(limit)} {finding.unit}")
    if finding.unit == "mm":
        values = (Length(found), Length(limit, side=On.UP if few else On.DOWN))
    elif finding.unit == "deg":
        values = (Angle(found), Angle(limit))
    return told(say("{}, {} wanted", *values) if few else say("{}, {} at most", *values), voice)


def place_of(finding: Finding, boards: tuple[str, ...], piece: Piece) -> Vec2 | None:
    """Where a leader points: the cut, else the joint, else between what meets the first board named, else its middle.

    Args:
        finding: what was found.
        boards: that it names, as they are drawn.
        piece: they are of.
    """
    where = finding.where
    cuts = (cut for name in boards if name in piece.part_by_name for cut in piece.part_by_name[name].cuts)
    cut = next((cut for cut in cuts if cut.key == where.cut), None)
    if cut is not None:
        return _along(piece.board_by_name[cut.body], _middle(cut))
    pairs = [where.joint] if where.joint else []
    pairs += [pair for other in boards[1:] for pair in ((boards[0], other), (other, boards[0]))]
    found = [joint for pair in pairs if (joint := piece.joint_by_key.get(pair)) is not None]
    if found and found[0].meeting.places:
        return _along(piece.board_by_name[found[0].meeting.a.body], found[0].meeting.places[0])
    if found and (where.joint or len(found) < len(boards) - 1):
        return _flat(found[0].meeting.frame.origin)
    if found:
        ats = [joint.meeting.frame.origin for joint in found]
        return _flat(tuple(sum(at[axis] for at in ats) / len(ats) for axis in range(3)))
    met = next((one for one in piece.meetings if one.key in pairs), None)
    if met is not None:
        return _flat(met.frame.origin)
    for name in boards:
        board = piece.board_by_name.get(name)
        if board is not None:
            return _along(board, board.length / 2)
    return None


def _middle(cut: Cut) -> float:
    """Where along its board a cut is."""
    first = cut.shapes[0]
    if isinstance(first, Bore):
        return first.start[0]
    if isinstance(first, HalfSpace):
        return first.point[0]
    ats = [corner[0] for shape in cut.shapes if isinstance(shape, Prism) for corner in corners(shape)]
    return (min(ats) + max(ats)) / 2


def _along(board: Board, a: float) -> Vec2:
    return _flat(board.frame.place((a, 0.0, 0.0)))


def _flat(at: tuple[float, ...]) -> Vec2:
    return round(at[0], 3) + 0.0, round(at[1], 3) + 0.0


def light_of(code: str) -> str:
    """The study that says that a code is its own, which is the light it is looked at in; else the set-out."""
    told = (name for name, study in STUDIES.items() if code in study.codes or code in study.takes_up)
    return next(told, FIRST_LIGHT)


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
