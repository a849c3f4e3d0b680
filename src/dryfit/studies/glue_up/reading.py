"""What the glue-up reads of a piece: its stages as planned, the frames to measure, how each joint is pressed."""

from collections.abc import Mapping, Sequence
from typing import Any

from ...geometry.frames import Vec2
from ...job.model import Job
from ...piece.facts import Pressing
from ...piece.kinds import JointKind
from ...piece.model import Board, Joint, Part, Piece, Touch
from ...piece.parts import ends_on_face
from ...piece.pressing import SQUARE_ON
from ..order.result import StagePlan
from .pressing import GlueJoint
from .result import Across, Squareness
from .squareness import Line, Quad, across, squareness
from .stages import StepValue
from .value import StageValue


def stage_of(stage: StagePlan, job: Job, piece: Piece, rigid: Sequence[str] = ()) -> StageValue:
    """A stage as planned; what is laid beside what lies first, lies first too."""
    laid = 0
    while laid < len(stage.steps) and not stage.steps[laid].legs:
        laid += 1
    frame, check = _checked(stage.parts, job, piece) if stage.name else ((), None)
    return StageValue(
        name=stage.name,
        place=stage.place,
        first=(*stage.first, *(part for step in stage.steps[:laid] for part in step.parts)),
        steps=tuple(
            StepValue(name=step.name, parts=step.parts, joints=step.joints, onto=step.onto)
            for step in stage.steps[laid:]
        ),
        after=stage.after,
        frame=frame,
        check=check,
        rigid=tuple(rigid),
    )


def _checked(parts: Sequence[str], job: Job, piece: Piece) -> tuple[tuple[str, ...], Squareness | Across | None]:
    """The closed frame that a unit holds, if it holds one, and what to measure on it."""
    for frame in job.frames:
        if frame.closed and len(frame.boards) >= 4 and set(frame.boards) <= set(parts):
            boards = [piece.board_by_name[name] for name in frame.boards if name in piece.board_by_name]
            if len(boards) == len(frame.boards) and all(board.inside for board in boards):
                faces = [_face(board, -1) for board in boards], [_face(board, 1) for board in boards]
                names = tuple(frame.boards)
                return names, squareness(*faces, names) if len(boards) == 4 else across(*faces)
    return (), None


def corners_of(part: Part) -> Quad:
    """A part's corners in the elevation, as it is cut; of one that lies flat those of its face."""
    board = part.board
    flat = board.lies == "flat"
    found: list[Vec2] = []
    for number in (0, 1):  # the datum end, the far end
        for side in (-1, 1):
            a = part.long[number] if flat else ends_on_face(part, side)[number]
            c = 0.0 if flat else side * board.thickness_at(a) / 2
            x, y, _ = board.frame.place((a, c, board.depth if flat and side > 0 else 0.0))
            found.append((x, y))
    return found[0], found[1], found[2], found[3]


def _face(board: Board, side: int) -> Line:
    """A frame's board's inside (+1) or outside (-1) face in the elevation."""
    point = board.frame.place((0.0, side * board.inside * board.thickness_at(board.length / 2) / 2, 0.0))
    way: Vec2 = (board.frame.x[0], board.frame.x[1])
    return (point[0], point[1]), way


def glue_joint(joint: Joint, kind: JointKind[Any], asked: Mapping[str, float]) -> GlueJoint:
    """A joint as it is glued; `asked` are pressures by kind."""
    faces = tuple((zone.grain, zone.area_mm2) for zone in kind.glue(joint))
    low, high = joint.meeting.overlap
    sides = ends, on = (joint.meeting.a, joint.meeting.b)
    press = kind.pressed(joint)
    home = press.how is Pressing.END
    return GlueJoint(
        key=joint.key,
        kind=joint.kind,
        faces=faces,
        pressed=press.how,
        face_mm2=press.face_mm2,
        along=press.along,
        deep=high - low,
        asked=asked.get(joint.kind),
        seated=press.seated,
        ending=tuple(side.body for side in sides if side.touch is Touch.END),
        lean=round(abs(abs(joint.meeting.b.turn) - SQUARE_ON), 9) if home else 0.0,
        opposed=on.body if on.opposed and home else "",
        at=on.at,
        wide=ends.thickness,
    )
