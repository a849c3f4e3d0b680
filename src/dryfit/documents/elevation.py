"""The live drawing: the piece seen from the room, straight from the cuts, in the time of a drag step.

The sheets look at a part from six sides with all its dimensions (`looks`), at some 40 ms a part; here only its
outline and its front edge are worked out, by the same sections of the same exact shapes. Each part's share is
kept by the part, so a step draws anew only what it changed.
"""

import math
from collections import Counter
from collections.abc import Iterable, Iterator
from itertools import pairwise
from typing import TypeAlias

from shapely import LinearRing, Polygon, get_coordinates, unary_union
from shapely.geometry.base import BaseGeometry

from ..geometry.frames import NEAR, WORLD, Vec, Vec2, turned
from ..geometry.polygons import clip
from ..geometry.sections import Patch, chords, polygons, section
from ..geometry.shapes import Bore, HalfSpace, Prism, Shape, corners
from ..geometry.solids import SIDES
from ..job.model import BoardSpec, Job
from ..keeping import Keep, Same
from ..lengths import LengthUnit, cut_text, depth_text, figure, written
from ..piece.model import Board, Cut, Joint, Part, Piece
from ..piece.parts import stock_of
from ..places import Path
from ..sentences import Voice, told
from .marks import mark_of
from .naming import LEAST
from .shown import Along, Axis, Beside, BoardShown, CutSaid, Dimension, Drawn, Elevation, JointShown, Line, Words
from .standard import HALF_TURN

SKIN = 0.02  # below the surface at which the front edge is cut, so that no cut's end lies in the plane
SEEN = LEAST  # a width on the face that differs by less from that across is not told
MARGIN = 150.0  # of wall beside a piece where the room does not say how wide it is
_Slot: TypeAlias = tuple[tuple[Vec2, Vec2], tuple[Vec2, Vec2]]  # its walls, each from under the board to over it
_ROUND = tuple(turned(2 * HALF_TURN * step / SIDES) for step in range(SIDES))
BARE = (0.0, 0.0, 2600.0, 2000.0)  # what an empty job shows of the wall


def elevation(job: Job, piece: Piece, keep: Keep) -> Elevation:
    """The whole drawing of a piece."""
    specs = {spec.name: spec for spec in (piece.job or job).boards}  # a divided board is drawn as its members
    rows = Counter(spec.path for spec in job.boards)
    met = _met(piece)
    boards = tuple(
        _kept_board(part, specs[part.id], rows[specs[part.id].path] > 1, met.get(part.id, ()), keep)
        for part in piece.parts
    )
    joints = tuple(_kept_joint(joint, piece, job.units, keep) for joint in piece.joints)
    extent = _extent(job, boards)
    return Elevation(
        extent=extent,
        wall=tuple(_wall(job, extent)),
        boards=boards,
        joints=joints,
        dimensions=tuple(_dimensions(job, boards)),
        side=_side(boards),
    )


def nothing_drawn() -> Elevation:
    """What is drawn of a job that could never be read: a wall without anything on it."""
    return Elevation(extent=BARE, wall=(), boards=(), joints=(), dimensions=(), side=())


# --- boards


def _met(piece: Piece) -> dict[str, tuple[Joint, ...]]:
    """The joints of each board."""
    met: dict[str, list[Joint]] = {}
    for joint in piece.joints:
        for name in joint.key:
            met.setdefault(name, []).append(joint)
    return {name: tuple(joints) for name, joints in met.items()}


def _kept_board(part: Part, spec: BoardSpec, several: bool, joints: tuple[Joint, ...], keep: Keep) -> BoardShown:
    row = several and not spec.frame
    key = (Same(part), spec.line, spec.frame, spec.index, spec.path, row, *map(Same, joints))
    return keep.get("board shown", key, lambda: _board(part, spec, row, joints))


def _board(part: Part, spec: BoardSpec, row: bool, joints: tuple[Joint, ...]) -> BoardShown:
    board = part.board
    outline = _outline(part)
    (x0, y0), (x1, y1) = spec.line
    foot = foot_of(board)
    return BoardShown(
        name=board.name,
        timber=board.timber,
        outline=_in_world(board, outline),
        face=tuple(_in_world(board, loop) for loop in _face(part, outline)),
        lines=(),
        line=(_point(spec.line[0]), _point(spec.line[1])),
        thickness=written(board.thickest),
        depth=written(board.depth),
        back=written(board.back),
        front=written(board.front),
        length=written(part.length),
        rake=written(math.degrees(math.atan2(y1 - y0, x1 - x0))),
        lies=board.lies,
        frame=spec.frame,
        row=row,
        index=spec.index,
        mark=part.mark,
        path=spec.path,
        label_at=_middle(board, outline),
        foot=_point(board.frame.place((foot, 0.0, 0.0))),
        head=_point(board.frame.place((board.length - foot, 0.0, 0.0))),
        along=tuple(_along(board, foot, joints)),
    )


def foot_of(board: Board) -> float:
    """Where along a board its lower end is; its datum end where it lies level."""
    start, end = (board.frame.place((a, 0.0, 0.0))[1] for a in (0.0, board.length))
    return 0.0 if start <= end + NEAR else board.length


def _along(board: Board, foot: float, joints: Iterable[Joint]) -> Iterator[Along]:
    """From its foot along its centre-line: to each joint, and to its other end.

    A board that ends at another's face meets it beyond its own end: the place before its foot is less than 0.
    """
    way = 1.0 if foot == 0.0 else -1.0
    met: list[tuple[float, Joint | None]] = [(board.length - foot, None)]
    for one in joints:
        met += [(at, one) for at in one.meeting.places or (one.meeting.side(board.name).at,)]
    for at, joint in sorted(met, key=lambda found: (way * (found[0] - foot), found[1] is None)):
        yield Along(value=written(way * (at - foot)), joint=None if joint is None else joint.key)


def _outline(part: Part) -> list[Vec2]:
    """The outline as seen from the room, in the board's (a, c), or (a, d) of one that lies flat; its ends cut."""
    flat = part.board.lies == "flat"
    low, high = part.long
    points = (
        [(low, 0.0), (high, 0.0), (high, part.board.depth), (low, part.board.depth)]
        if flat
        else list(stock_of(part).outline)
    )
    across = 2 if flat else 1
    for cut in part.cuts:
        for shape in cut.shapes:
            if isinstance(shape, HalfSpace) and _ends_outline(cut, shape, part.board):
                points = clip(points, (shape.point[0], shape.point[across]), (shape.normal[0], shape.normal[across]))
    return points


def _ends_outline(cut: Cut, shape: Shape, board: Board) -> bool:
    """Whether a shape is the plane of an end that stands square to the picture, and so cuts the outline itself."""
    out = 1 if board.lies == "flat" else 2
    return bool(cut.end) and isinstance(shape, HalfSpace) and shape.normal[out] == 0.0


def _face(part: Part, outline: list[Vec2]) -> list[list[Vec2]]:
    """What is seen of the front: the outline less all cuts that come out there."""
    if len(outline) < 3:
        return []
    if (slots := _slots(part, outline)) is not None:
        return _between(outline, slots)
    patch = _front(part.board, Polygon(outline))
    shapes = (shape for cut in part.cuts for shape in cut.shapes if not _ends_outline(cut, shape, part.board))
    taken = [area for shape in shapes if (area := _at_front(shape, patch)) is not None]
    if not taken:
        return [outline]
    whole = patch.region.difference(unary_union(taken) if len(taken) > 1 else taken[0])
    areas = sorted(polygons(whole), key=lambda area: area.bounds)
    return [_corners(ring) for area in areas for ring in (area.exterior, *area.interiors)]


def _slots(part: Part, outline: list[Vec2]) -> list[_Slot] | None:
    """The slots that part the front from face to face, from the datum end on; None where other cuts come out there too.

    Most boards have no others, and so parted the front is had in a tenth of the time that the general sum takes.
    """
    board, found = part.board, []
    if board.lies != "across":
        return None
    low, high = min(c for _, c in outline), max(c for _, c in outline)
    for cut in part.cuts:
        for shape in cut.shapes:
            if _ends_outline(cut, shape, board):
                continue
            if not isinstance(shape, Prism) or shape.frame is not WORLD or shape.outline_high is not None:
                return None
            if not shape.low < board.depth - SKIN < shape.high:
                continue  # it does not come out at the front
            under = sorted((a, c) for a, c, bulge in shape.outline if c < low and not bulge)
            over = sorted((a, c) for a, c, bulge in shape.outline if c > high and not bulge)
            if len(shape.outline) != 4 or len(under) != 2 or len(over) != 2:
                return None
            found.append(((under[0], over[0]), (under[1], over[1])))
    found.sort()
    clear = all(one[1][end][0] < other[0][end][0] for one, other in pairwise(found) for end in (0, 1))
    return found if clear else None


def _between(outline: list[Vec2], slots: list[_Slot]) -> list[list[Vec2]]:
    """What slots leave of an outline."""
    left, rest = [], outline
    for (start, end), (beyond, at_end) in slots:
        left.append(clip(rest, start, (end[1] - start[1], start[0] - end[0])))
        rest = clip(rest, beyond, (beyond[1] - at_end[1], at_end[0] - beyond[0]))
    return [points for points in (*left, rest) if len(points) > 2]


def _corners(ring: LinearRing) -> list[Vec2]:
    """The points of a ring, each once."""
    return [(x, y) for x, y in get_coordinates(ring).tolist()[:-1]]


def _at_front(shape: Shape, patch: Patch) -> BaseGeometry | None:
    """What a cut takes of the front; None where it does not come out there."""
    if isinstance(shape, Prism) and shape.frame is WORLD and shape.outline_high is None and patch.v == (0.0, 1.0, 0.0):
        if not shape.low < patch.origin[2] < shape.high:
            return None
        return Polygon(chords(shape.outline))  # as most cuts are: no need of the general sum
    if not _reaches(shape, patch):
        return None
    if isinstance(shape, Bore) and abs(shape.direction[_out(patch)]) == 1.0:
        return _round_hole(shape, patch)
    return section(shape, patch)


def _out(patch: Patch) -> int:
    """Which coordinate of the board runs out of the picture."""
    return 2 if patch.v == (0.0, 1.0, 0.0) else 1


def _round_hole(bore: Bore, patch: Patch) -> BaseGeometry | None:
    """A bore seen from its end; None where it does not reach that deep."""
    out = _out(patch)
    along = (patch.origin[out] - bore.start[out]) / bore.direction[out]
    for (start, diameter), (end, _) in pairwise(bore.profile):
        if start <= along <= end:
            return Polygon(_circle(bore.start[0], bore.start[1 if out == 2 else 2], diameter / 2))
    return None


def _circle(x: float, y: float, radius: float) -> list[Vec2]:
    """Its corners as a body's are."""
    return [(x + radius * cos, y + radius * sin) for cos, sin in _ROUND]


def _reaches(shape: Shape, patch: Patch) -> bool:
    """Whether a cut comes near the front at all; a quick look before the general sum."""
    out = _out(patch)
    at = patch.origin[out]
    if isinstance(shape, Prism):
        reach = [corner[out] for corner in corners(shape)]
        bulge = max((abs(knot[2]) for knot in shape.outline), default=0.0)
        return bulge > 0.0 or min(reach) <= at <= max(reach)
    if isinstance(shape, Bore):
        radius = max(diameter for _, diameter in shape.profile) / 2
        ends = [shape.start[out] + along * shape.direction[out] for along, _ in shape.profile]
        return min(ends) - radius <= at <= max(ends) + radius
    return True


def _front(board: Board, region: Polygon) -> Patch:
    along = (1.0, 0.0, 0.0)
    if board.lies == "across":
        return Patch((0.0, 0.0, board.depth - SKIN), along, (0.0, 1.0, 0.0), region)
    out = 1.0 if board.frame.y[2] > 0 else -1.0
    return Patch((0.0, out * (board.thickest / 2 - SKIN), 0.0), along, (0.0, 0.0, 1.0), region)


def _in_world(board: Board, points: Iterable[Vec2]) -> tuple[Vec2, ...]:
    frame = board.frame
    (ox, oy, _), (ax, ay, _) = frame.origin, frame.x
    vx, vy, _ = frame.z if board.lies == "flat" else frame.y
    return tuple([(written(ox + a * ax + v * vx), written(oy + a * ay + v * vy)) for a, v in points])


def _middle(board: Board, outline: list[Vec2]) -> Vec2:
    if not outline:
        return _in_world(board, [(0.0, 0.0)])[0]
    count = len(outline)
    (point,) = _in_world(board, [(sum(p[0] for p in outline) / count, sum(p[1] for p in outline) / count)])
    return point


def _side(boards: tuple[BoardShown, ...]) -> tuple[Beside, ...]:
    """Each board as a rectangle seen from the left; the one farthest to the right first."""

    def reach(board: BoardShown) -> float:
        return min((x for x, _ in board.outline), default=0.0)

    return tuple(
        Beside(board=board.name, outline=_beside(board))
        for board in sorted(boards, key=lambda board: (-reach(board), board.name))
        if board.outline
    )


def _beside(board: BoardShown) -> tuple[Vec2, ...]:
    low, high = min(y for _, y in board.outline), max(y for _, y in board.outline)
    return (board.back, low), (board.front, low), (board.front, high), (board.back, high)


# --- joints


def _kept_joint(joint: Joint, piece: Piece, units: LengthUnit, keep: Keep) -> JointShown:
    """A joint's place needs its first board only where it is a fixing with several."""
    board = piece.board_by_name.get(joint.meeting.a.body) if joint.meeting.places else None
    return keep.get("joint shown", (Same(joint), Same(board), units), lambda: _joint(joint, board, units))


def _joint(joint: Joint, board: Board | None, units: LengthUnit) -> JointShown:
    meeting = joint.meeting
    ats = [meeting.frame.origin[:2]]
    if meeting.places and board is not None:
        ats = [board.frame.place((a, 0.0, 0.0))[:2] for a in meeting.places]
    return JointShown(
        boards=joint.key,
        kind=joint.kind,
        mark=mark_of(joint),
        at=_point(ats[0]),
        also=tuple(_point(at) for at in ats[1:]),
        angle=written(meeting.angle),
        making=told(joint.making.name, Voice(units)),
        front=joint.making.front,
        says=tuple(_said(joint, units)),
    )


def _said(joint: Joint, units: LengthUnit) -> Iterator[CutSaid]:
    """The figures of those of its cuts that have any."""
    for cut in joint.cuts:
        if says := ", ".join(figures_said(cut, units)):
            yield CutSaid(board=cut.body, word=cut.word, says=says)


def figures_said(cut: Cut, units: LengthUnit) -> Iterator[str]:
    """A cut's figures as its sheets print them: "24.05 across", "24.45 on the face", "8 deep"."""
    figures = cut.figures
    across, deep, stop = figures.across, figures.deep, figures.stop  # each is added up where it is asked for
    if across is not None:
        yield f"{cut_text(across, units)} across"
        if figures.on_face is not None and abs(figures.on_face - across) > SEEN:
            yield f"{cut_text(figures.on_face, units)} on the face"
    if deep is not None:
        yield f"{depth_text(deep, units)} deep"
    if stop:
        yield f"stopped {depth_text(stop, units)} from the edge"


# --- wall and dimensions


def _extent(job: Job, boards: tuple[BoardShown, ...]) -> tuple[float, float, float, float]:
    wall = job.wall
    xs = [x for board in boards for x, _ in board.outline] + list(wall.studs)
    ys = [y for board in boards for _, y in board.outline]
    if not ys:  # as much of the wall as is known, the rest as an empty job has it
        xs += [wall.left or 0.0, BARE[2] if wall.right is None else wall.right]
        ys += [BARE[3] if wall.ceiling is None else wall.ceiling]
    left = min(0.0, *xs) if wall.left is None else min(wall.left, *xs)
    right = max(xs) if wall.right is None else max(wall.right, *xs)
    head = max(ys) if wall.ceiling is None else max(wall.ceiling, *ys)
    return written(left), written(min(0.0, *ys)), written(right), written(head)


def _wall(job: Job, extent: tuple[float, float, float, float]) -> Iterator[Drawn]:
    left, _, right, head = extent
    wall = job.wall
    low = left - MARGIN if wall.left is None else wall.left
    high = right + MARGIN if wall.right is None else wall.right
    yield Line(points=((low, 0.0), (high, 0.0)), pen="ground")
    top = head + MARGIN if wall.ceiling is None else wall.ceiling
    for x in (wall.left, wall.right):
        if x is not None:
            yield Line(points=((x, 0.0), (x, top)), pen="wall")
    if wall.ceiling is not None:
        yield Line(points=((low, wall.ceiling), (high, wall.ceiling)), pen="wall")
    for at in wall.studs:
        yield Line(points=((written(at), 0.0), (written(at), written(top))), pen="stud")
        yield Words(at=(written(at), written(top)), text=figure(at))


def _dimensions(job: Job, boards: tuple[BoardShown, ...]) -> Iterator[Dimension]:
    """Levels of level boards, feet of all others, the wall's width and height.

    The page says places that are equal once, for whichever is chosen.
    """
    for board in boards:
        (_, y0), (_, y1) = board.line
        level = abs(y1 - y0) < NEAR
        axis: Axis = "y" if level else "x"
        end = 0 if level or y0 <= y1 else 1
        value = written(board.line[end][1 if level else 0])
        path = None if board.row else point_path(board.path, board.frame, board.index, end, axis)
        yield Dimension(axis=axis, value=value, of=board.name, board=board.name, path=path)
    wall = job.wall
    if wall.right is not None:
        typed = None if wall.left else ("wall", "right")  # a width only where it begins at the datum
        yield Dimension(axis="x", value=written(wall.right), of="the wall's width", board="", path=typed)
    if wall.ceiling is not None:
        yield Dimension(
            axis="y", value=written(wall.ceiling), of="the wall's height", board="", path=("wall", "ceiling")
        )


def point_path(path: Path, frame: str, index: int, end: int, axis: Axis) -> Path:
    """Where a coordinate of a board's line stands, for a board of its own or a side of a frame."""
    place = 1 if axis == "y" else 0
    return (*path, "points", index - 1, place) if frame else (*path, "line", end, place)


def _point(point: Vec2 | Vec) -> Vec2:
    return written(point[0]), written(point[1])
