"""What the glue-up reads of a piece: its stages as planned, the frames to measure, how each joint is pressed."""

import math
from collections.abc import Mapping, Sequence
from typing import Any

from ...geometry.frames import Vec2
from ...geometry.shapes import HalfSpace
from ...job.model import Job
from ...piece.corner import Corner
from ...piece.kinds import JointKind
from ...piece.model import Board, Joint, Piece, Side, Touch
from .model import StageValue
from .pressing import GlueJoint, Pressed, corner_shares
from .squareness import Across, Line, Squareness, across, squareness
from .stages import StepValue

SQUARE = 1.0  # degrees off square at which clamps along the boards still press a corner (common practice)


def stage_of(stage: Any, job: Job, piece: Piece) -> StageValue:
    """A stage as planned; what is laid beside what lies first, lies first too."""
    laid = 0
    while laid < len(stage.steps) and not stage.steps[laid].legs:
        laid += 1
    found = _checked(stage.parts, job, piece) if stage.name else None
    return StageValue(
        name=stage.name,
        place=stage.place,
        first=(*stage.first, *(part for step in stage.steps[:laid] for part in step.parts)),
        steps=tuple(
            StepValue(name=step.name, parts=step.parts, joints=step.joints, onto=step.onto)
            for step in stage.steps[laid:]
        ),
        after=stage.after,
        square=found if isinstance(found, Squareness) else None,
        across=found if isinstance(found, Across) else None,
    )


def _checked(parts: Sequence[str], job: Job, piece: Piece) -> Squareness | Across | None:
    """What to measure on the closed frame that a unit holds, if it holds one."""
    for frame in job.frames:
        if frame.closed and len(frame.boards) >= 4 and set(frame.boards) <= set(parts):
            boards = [piece.board_by_name[name] for name in frame.boards if name in piece.board_by_name]
            if len(boards) == len(frame.boards) and all(board.inside for board in boards):
                faces = [_face(board, -1) for board in boards], [_face(board, 1) for board in boards]
                return squareness(*faces) if len(boards) == 4 else across(*faces)
    return None


def _face(board: Board, side: int) -> Line:
    """A frame's board's inside (+1) or outside (-1) face in the elevation."""
    point = board.frame.place((0.0, side * board.inside * board.thickness_at(board.length / 2) / 2, 0.0))
    way: Vec2 = (board.frame.x[0], board.frame.x[1])
    return (point[0], point[1]), way


def glue_joint(joint: Joint, kind: JointKind[Any], asked: Mapping[str, float]) -> GlueJoint:
    """A joint as it is glued; `asked` are pressures by kind."""
    faces = tuple((one.grain, one.area_mm2) for one in kind.glue(joint))
    low, high = joint.meeting.overlap
    pressed, wide, along = _pressed(joint, all(grain == "end-end" for grain, _ in faces))
    return GlueJoint(
        key=joint.key,
        kind=joint.kind,
        faces=faces,
        pressed=pressed,
        face_mm2=wide * (high - low),
        along=along,
        deep=high - low,
        asked=asked.get(joint.kind),
    )


def _pressed(joint: Joint, end_on_end: bool) -> tuple[Pressed, float, tuple[tuple[str, float], ...]]:
    """How a joint is pressed, over what width, and along which boards with what share."""
    meeting = joint.meeting
    a, b = meeting.a, meeting.b
    if (a.touch, b.touch) == (Touch.END, Touch.FACE):
        return "end", a.thickness, ((a.body, 1.0),)
    if (a.touch, b.touch) != (Touch.END, Touch.END):
        return "fit", 0.0, ()
    if meeting.form != "corner":
        return "in line", min(a.thickness, b.thickness), ()
    one, other = Corner.of(a, b), Corner.of(b, a)
    if not end_on_end:
        ends = next((side for side in (a, b) if _cut_back(joint, side)), a)
        return "end", ends.thickness / math.sin(math.radians(one.phi)), ((ends.body, 1.0),)
    shares = corner_shares(one.to_length, other.to_length)
    square = abs(one.phi - 90.0) <= SQUARE
    return "corner", one.cut_length, ((a.body, shares[0]), (b.body, shares[1])) if square else ()


def _cut_back(joint: Joint, side: Side) -> bool:
    """Whether a board's end is cut back to the other's face, which runs past it."""
    planes = (shape for cut in joint.cuts if cut.end and cut.body == side.body for shape in cut.shapes)
    return any(isinstance(plane, HalfSpace) and (plane.point[0] - side.at) * side.end < 0.0 for plane in planes)
