"""Nodes: three or more boards at one point.

Boards whose line passes through are not divided; others end on the face they see. What cannot be made there
is a stop, with the changes that would end it: three boards that pass through one point, three ends where no
board passes, and an end in the angle of two boards that cross.
"""

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations

from ..findings import Finding, Severity, declare, owns
from ..places import Cure, Where
from ..sentences import Fineness, Length, Name, On, Several, say
from .lines import CentreLine, left_between, span
from .meetings import name_order
from .model import FAR_END, Board, Meeting, Side
from .movable import ROUND, Movable, compass, end_in_the_file

THREE_PASS = declare(
    "three-boards-pass",
    "Three boards pass through one point: their slots would leave nothing.",
    uncured="no board of these can be moved by itself",
)
THREE_END = declare(
    "three-ends",
    "Three boards end at one point and none passes through it.",
    uncured="which of the boards runs on is a choice of design",
)
IN_ANGLE = declare(
    "end-in-angle",
    "A board ends in the angle of two boards that cross.",
    uncured="on which of the two boards it ends is a choice of design",
)
owns("joints", THREE_PASS, THREE_END, IN_ANGLE)
UNMADE = frozenset({THREE_PASS, THREE_END, IN_ANGLE})  # no joints are made between the boards named

CLEAR = 2.0  # times the thickness that is left between two slots
SPARE = 1.0  # on top of what must be left: clearance and film widen the slots
LEAST_SINE = math.sin(math.radians(15.0))  # no joint is made at a sharper angle
FURTHEST = 20.0  # times the thickness: no end is moved further


@dataclass(frozen=True, slots=True, kw_only=True)
class Sorted:
    """Meetings that can be made, and what stands in the way of the others."""

    meetings: tuple[Meeting, ...]
    findings: tuple[Finding, ...]


def sort_nodes(meetings: Sequence[Meeting], boards: Mapping[str, Board]) -> Sorted:
    """Take out the meetings of nodes that cannot be made, and say what would mend them."""
    dropped: set[int] = set()
    movable = Movable(boards)
    findings = [
        *_three_ends(meetings, movable, dropped),
        *_ends_in_angles(meetings, movable, dropped),
        *_three_passing(meetings, movable),
    ]
    kept = tuple(meeting for index, meeting in enumerate(meetings) if index not in dropped)
    return Sorted(meetings=kept, findings=tuple(findings))


def _three_ends(meetings: Sequence[Meeting], boards: Movable, dropped: set[int]) -> list[Finding]:
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


def _three_ends_finding(sides: Mapping[str, Side], boards: Movable) -> Finding:
    names = _in_order(sides)
    cures = [cure for name in names for cure in _run_on(name, sides, boards)]
    return Finding(
        code=THREE_END,
        severity=Severity.STOP,
        where=Where(boards=names),
        says=say("{} end at one point and no board passes through it", _listed(names)),
        remedy="run one of them on and let the others end on it",
        cures=tuple(cures),
    )


def _run_on(name: str, sides: Mapping[str, Side], boards: Movable) -> Iterator[Cure]:
    """Lengthen a board at one end, along its line, if the others can then end on it, one on either face."""
    board, side = boards[name], sides[name]
    end = side.end
    (ux, uy, _), way = board.frame.x, 1.0 if end == FAR_END else -1.0
    by, faces = 0.0, set()
    for other, its in sides.items():
        if other == name:
            continue
        vx, vy, _ = boards[other].frame.x
        away = 1.0 if its.end != FAR_END else -1.0
        sine, cosine = (ux * vy - uy * vx) * away, ux * vx + uy * vy
        if abs(sine) < LEAST_SINE or (sine > 0.0) in faces:
            return
        faces.add(sine > 0.0)
        # past the other's housing as much as a housing wants to the end: the thickness
        by = max(by, (its.thickness / 2 + abs(cosine) * side.thickness / 2) / abs(sine) + side.thickness + SPARE)
    by = math.ceil(by)
    point = end_in_the_file(board, end)
    edits = boards.shift(name, (point,), way * by * ux, way * by * uy)
    if edits:
        yield Cure(label=say("run {} on by {}", Name(name), Length(by)), edits=edits)


def _ends_in_angles(meetings: Sequence[Meeting], boards: Movable, dropped: set[int]) -> list[Finding]:
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
                findings.append(_angle_finding(boards, name, end, kept, other))
    return findings


def _angle_finding(boards: Movable, name: str, end: int, kept: Side, other: Side) -> Finding:
    board, clear = boards[name], Length(CLEAR * kept.thickness, Fineness.WHOLE, On.UP)
    return Finding(
        code=IN_ANGLE,
        severity=Severity.STOP,
        where=Where(boards=(name, kept.body, other.body), path=board.path),
        says=say("{} ends in the angle where {} and {} cross", Name(name), Name(kept.body), Name(other.body)),
        remedy=say("move it along one of them until its housing clears the crossing by {}", clear),
        found=0.0,
        limit=CLEAR * kept.thickness,
        unit="mm",
        source="common practice",
        cures=tuple(_move_end(boards, name, end, kept, other)),
    )


def _move_end(boards: Movable, name: str, end: int, kept: Side, other: Side) -> Iterator[Cure]:
    """Move the end along the face it stands on, away from the crossing, until 2 t are left between.

    A divided board would turn about its whole's other end, not about the member's, so it is not offered.
    """
    if name in boards.divided:
        return
    board, on, crosses = boards[name], boards.line(kept.body), boards.line(other.body)
    ends = [board.frame.place((a, 0.0, 0.0)) for a in (0.0, board.length)]
    (x, y, _), (fx, fy, _) = ends if end != FAR_END else ends[::-1]
    (vx, vy), (ux, uy), (px, py) = crosses.u, on.u, crosses.point
    lies = vx * (fy - py) - vy * (fx - px)  # on which side of the crossing board its other end lies
    way = 1.0 if lies * (vx * uy - vy * ux) > 0.0 else -1.0
    c = kept.face * on.half
    for step in range(1, int(FURTHEST * board.thickest / ROUND)):
        by = way * step * ROUND
        moved = CentreLine.through((fx, fy), (x + by * ux, y + by * uy), board.thickest / 2)
        mine, its = span(on, moved, c), span(on, crosses, c)
        if mine is None or its is None:
            return
        clear = (mine[0] - its[0]) * way - mine[1] - its[1]
        if clear >= CLEAR * 2 * on.half + SPARE:
            break
    else:
        return
    point = end_in_the_file(board, end)
    edits = boards.shift(name, (point,), by * ux, by * uy)
    if edits:
        word = compass(way * ux, way * uy)
        label = say("move the end of {} {} along {} {}", Name(name), Length(abs(by)), Name(kept.body), word)
        yield Cure(label=label, edits=edits)


def _three_passing(meetings: Sequence[Meeting], boards: Movable) -> list[Finding]:
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
                    found[names] = _passing_finding(_in_order(names), boards)
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


def _passing_finding(names: tuple[str, ...], boards: Movable) -> Finding:
    return Finding(
        code=THREE_PASS,
        severity=Severity.STOP,
        where=Where(boards=names),
        says=say("{} pass through one point", _listed(names)),
        remedy="shift one of them until its slots clear the others by twice the thickness, or let one end on another",
        cures=tuple(cure for name in names for cure in _step_aside(boards, name, names)),
    )


def _step_aside(boards: Movable, name: str, names: tuple[str, ...]) -> Iterator[Cure]:
    """Shift a board square to its line until 2 t are left between any two slots of the three."""
    nx, ny, _ = boards[name].frame.y
    lines = [boards.line(one) for one in names]
    moved = [line.moved(nx, ny) if one == name else line for one, line in zip(names, lines, strict=True)]
    ways = [(_least_shift(lines, moved, way), way) for way in (1.0, -1.0)]
    least, way = min(ways, key=lambda one: one[0])
    if math.isinf(least):
        return
    by = math.ceil(least / ROUND) * ROUND
    dx, dy = way * by * nx, way * by * ny
    edits = boards.shift(name, (0, 1), dx, dy)
    if edits:
        label = say("{}: {} {}", Name(name), Length(by), compass(dx, dy))
        yield Cure(label=label, edits=edits)


def _least_shift(lines: Sequence[CentreLine], moved: Sequence[CentreLine], way: float) -> float:
    """How far one line must go, `moved` being where it is after 1 mm, until all slots keep clear of each other.

    What is left between two slots changes evenly with the shift, on either face of each board.
    """
    least = 0.0
    for index in range(3):
        one, other = (index + 1) % 3, (index + 2) % 3
        for c in (lines[index].half, -lines[index].half):
            now = left_between(lines[index], lines[one], lines[other], c)
            then = left_between(moved[index], moved[one], moved[other], c)
            if now is None or then is None:
                return math.inf
            rate = (then[0] - now[0]) * way
            need = now[1] + CLEAR * 2 * lines[index].half + SPARE
            if abs(rate) < 1e-6:
                if abs(now[0]) < need:
                    return math.inf
                continue
            least = max(least, (math.copysign(need, rate) - now[0]) / rate)
    return least


def _listed(names: Sequence[str]) -> Several:
    return Several(tuple(map(Name, names)))
