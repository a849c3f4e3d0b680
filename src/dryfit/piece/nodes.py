"""Nodes: three or more boards at one point.

Boards whose line passes through are not divided; others end on the face they see. What cannot be made there
is a stop, with the changes that would end it: three boards that pass through one point, three ends where no
board passes, and an end in the angle of two boards that cross.
"""

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations

from ..findings import Finding, Severity, declare, said
from ..places import Cure, Edit, Where
from .meetings import name_order
from .model import FAR_END, Board, Meeting, Side

THREE_PASS = declare("three-boards-pass", "Three boards pass through one point: their slots would leave nothing.")
THREE_END = declare("three-ends", "Three boards end at one point and none passes through it.")
IN_ANGLE = declare("end-in-angle", "A board ends in the angle of two boards that cross.")

CLEAR = 2.0  # times the thickness that is left between two slots
ROUND = 0.5  # shifts offered are whole steps of this


@dataclass(frozen=True, slots=True, kw_only=True)
class Sorted:
    """Meetings that can be made, and what stands in the way of the others."""

    meetings: tuple[Meeting, ...]
    findings: tuple[Finding, ...]


def sort_nodes(meetings: Sequence[Meeting], boards: Mapping[str, Board]) -> Sorted:
    """Take out the meetings of nodes that cannot be made, and say what would mend them."""
    dropped: set[int] = set()
    findings = [
        *_three_ends(meetings, boards, dropped),
        *_ends_in_angles(meetings, boards, dropped),
        *_three_passing(meetings, boards),
    ]
    kept = tuple(meeting for index, meeting in enumerate(meetings) if index not in dropped)
    return Sorted(meetings=kept, findings=tuple(findings))


def _three_ends(meetings: Sequence[Meeting], boards: Mapping[str, Board], dropped: set[int]) -> list[Finding]:
    """Corners that share an end: no two of them can be mitred."""
    at_end: dict[tuple[str, int], list[int]] = {}
    for index, meeting in enumerate(meetings):
        if meeting.a.end and meeting.b.end:
            for side in (meeting.a, meeting.b):
                at_end.setdefault((side.body, side.end), []).append(index)
    found: dict[frozenset[str], Finding] = {}
    for indices in at_end.values():
        if len(indices) > 1:
            dropped.update(indices)
            sides = {side.body: side for index in indices for side in (meetings[index].a, meetings[index].b)}
            found.setdefault(frozenset(sides), _three_ends_finding(sides, boards))
    return list(found.values())


def _three_ends_finding(sides: Mapping[str, Side], boards: Mapping[str, Board]) -> Finding:
    names = _in_order(sides)
    cures = []
    for name in names:
        beside = max(sides[other].thickness for other in names if other != name)
        cures.append(_run_on(boards[name], sides[name].end, math.ceil(2 * beside)))
    return Finding(
        code=THREE_END,
        severity=Severity.STOP,
        where=Where(boards=names),
        says=f"{_listed(names)} end at one point and no board passes through it",
        remedy="run one of them on and let the others end on it",
        cures=tuple(cure for cure in cures if cure.edits),
    )


def _run_on(board: Board, end: int, by: float) -> Cure:
    """Lengthen a board at one end, along its line."""
    x, y, _ = board.frame.x
    way = 1.0 if end == FAR_END else -1.0
    point = (1 if end == FAR_END else 0) ^ int(board.flipped)
    return Cure(label=f"run {board.name} on by {said(by)}", edits=_shift(board, (point,), way * by * x, way * by * y))


def _shift(board: Board, points: tuple[int, ...], dx: float, dy: float) -> tuple[Edit, ...]:
    """Edits that move points of a board's line; none for a frame's side, which moves with its corners."""
    if board.frame_name:
        return ()
    return tuple(
        Edit(action="shift", path=(*board.path, "line", point, axis), value=round(by, 3))
        for point in points
        for axis, by in ((0, dx), (1, dy))
        if abs(by) > 1e-3
    )


def _ends_in_angles(meetings: Sequence[Meeting], boards: Mapping[str, Board], dropped: set[int]) -> list[Finding]:
    """Ends on the faces of two boards at once: the squarer one keeps it, crossing boards are a stop."""
    on_faces: dict[tuple[str, int], list[int]] = {}
    crossing = {meeting.key for meeting in meetings if meeting.form == "crossing"}
    for index, meeting in enumerate(meetings):
        if meeting.form == "end on face":
            on_faces.setdefault((meeting.a.body, meeting.a.end), []).append(index)
    findings = []
    for (name, end), indices in on_faces.items():
        if len(indices) < 2:
            continue
        best = max(indices, key=lambda index: (meetings[index].angle, -index))
        for index in indices:
            if index == best:
                continue
            dropped.add(index)
            kept, other = meetings[best].b, meetings[index].b
            if {(kept.body, other.body), (other.body, kept.body)} & crossing:
                findings.append(_angle_finding(boards[name], end, meetings[best], kept, other))
    return findings


def _angle_finding(board: Board, end: int, meeting: Meeting, kept: Side, other: Side) -> Finding:
    """Move the end along the face it stands on, away from the crossing, until 2 t are left between."""
    clear = CLEAR * kept.thickness + (board.thickest + other.thickness) / 2 / max(
        math.sin(math.radians(meeting.angle)), 0.25
    )
    by = math.ceil(clear / ROUND) * ROUND
    point = (1 if end == FAR_END else 0) ^ int(board.flipped)
    x, y, _ = meeting.frame.x
    cures = tuple(
        Cure(
            label=f"move the end of {board.name} {said(by)} along {kept.body} to the {word}",
            edits=_shift(board, (point,), way * by * x, way * by * y),
        )
        for way, word in ((1.0, _word(x, y)), (-1.0, _word(-x, -y)))
    )
    return Finding(
        code=IN_ANGLE,
        severity=Severity.STOP,
        where=Where(boards=(board.name, kept.body, other.body), path=board.path),
        says=f"{board.name} ends in the angle where {kept.body} and {other.body} cross",
        remedy=f"move it along one of them until its housing clears the crossing by {said(CLEAR * kept.thickness, 0)}",
        found=0.0,
        limit=CLEAR * kept.thickness,
        unit="mm",
        source="common practice",
        cures=tuple(cure for cure in cures if cure.edits),
    )


def _word(x: float, y: float) -> str:
    if abs(x) >= abs(y):
        return "right" if x > 0 else "left"
    return "top" if y > 0 else "bottom"


def _three_passing(meetings: Sequence[Meeting], boards: Mapping[str, Board]) -> list[Finding]:
    """Crossings of one board so near each other that their slots meet, where the other two cross as well."""
    crossings = {meeting.key: meeting for meeting in meetings if meeting.form == "crossing"}
    along: dict[str, list[tuple[float, float, str]]] = {}
    for meeting in crossings.values():
        for side, other in ((meeting.a, meeting.b), (meeting.b, meeting.a)):
            half = other.thickness / 2 / math.sin(math.radians(meeting.angle))
            along.setdefault(side.body, []).append((side.at - half, side.at + half, other.body))
    found: dict[frozenset[str], Finding] = {}
    for name, spans in along.items():
        spans.sort()
        for place, (_, high, one) in enumerate(spans):
            for low, _, another in spans[place + 1 :]:
                if low >= high:
                    break
                names = frozenset((name, one, another))
                if names not in found and _cross_here(crossings, names):
                    found[names] = _passing_finding(_in_order(names), crossings, boards)
    return list(found.values())


def _in_order(names: Iterable[str]) -> tuple[str, ...]:
    return tuple(sorted(names, key=name_order))


def _cross_here(crossings: Mapping[tuple[str, str], Meeting], names: frozenset[str]) -> bool:
    """Whether all three pairs cross, and at about one place."""
    ordered = _in_order(names)
    met = [crossings.get((a, b)) or crossings.get((b, a)) for a, b in combinations(ordered, 2)]
    places = [meeting.frame.origin for meeting in met if meeting is not None]
    if len(places) < 3:
        return False
    near = max(side.thickness for meeting in met if meeting for side in (meeting.a, meeting.b)) * 2
    return all(math.dist(p[:2], q[:2]) < near for p, q in combinations(places, 2))


def _passing_finding(
    names: tuple[str, ...], crossings: Mapping[tuple[str, str], Meeting], boards: Mapping[str, Board]
) -> Finding:
    cures = tuple(
        _step_aside(boards[name], tuple(other for other in names if other != name), crossings) for name in names
    )
    return Finding(
        code=THREE_PASS,
        severity=Severity.STOP,
        where=Where(boards=names),
        says=f"{_listed(names)} pass through one point",
        remedy="shift one of them until its slots clear the others by twice the thickness, or let one end on another",
        cures=tuple(cure for cure in cures if cure.edits),
    )


def _step_aside(board: Board, others: tuple[str, ...], crossings: Mapping[tuple[str, str], Meeting]) -> Cure:
    """Shift a board square to its line until its slots stand clear of the others' crossing."""
    met = [crossings.get((board.name, other)) or crossings.get((other, board.name)) for other in others]
    pair = crossings.get((others[0], others[1])) or crossings.get((others[1], others[0]))
    assert pair is not None
    c = board.frame.find((pair.frame.origin[0], pair.frame.origin[1], board.frame.origin[2]))[1]
    wanted = 0.0
    for meeting in met:
        assert meeting is not None
        side, other = meeting.side(board.name), meeting.other(board.name)
        third = next(name for name in others if name != other.body)
        beside = pair.side(third).thickness / math.sin(math.radians(pair.angle))
        # along the other board: half of either slot and 2 t between them, seen square to this board's line
        need = CLEAR * other.thickness + beside / 2 + side.thickness / 2 / math.sin(math.radians(meeting.angle))
        wanted = max(wanted, need * math.sin(math.radians(meeting.angle)))
    way = -1.0 if c > 0 else 1.0
    by = math.ceil((wanted - abs(c)) / ROUND) * ROUND
    y = board.frame.y
    dx, dy = way * by * y[0], way * by * y[1]
    return Cure(label=f"shift {board.name} {said(by)} to the {_word(dx, dy)}", edits=_shift(board, (0, 1), dx, dy))


def _listed(names: Sequence[str]) -> str:
    return f"{', '.join(names[:-1])} and {names[-1]}"
