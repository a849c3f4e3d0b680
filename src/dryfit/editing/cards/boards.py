"""The cards of a board and of a frame."""

from collections.abc import Iterator
from typing import Any

from ...book import models
from ...job.arithmetic import COUNTER
from ...job.edits import Sheet
from ...job.model import BoardSpec, FrameSpec
from ...job.renaming import users
from ...job.schema import BoardTable, FrameTable
from ...lengths import figure, length_text
from ...piece.model import Board, Joint, Part
from ...places import Path
from ..answers import Along, Card, Row
from ..derived import Derived, figures_of, foot_of
from ..drawn import Drawn
from ..points import line_path
from ..raking import rake_of
from .common import point_rows, table, timbers


def board_card(drawn: Drawn, sheet: Sheet, name: str, revision: int) -> Card:
    """A board's card; of a member of a divided one its own figures and joints, with the whole's values."""
    spec = drawn.spec(name)
    part = drawn.piece.part_by_name[name if name in drawn.piece.part_by_name else drawn.members([name])[0]]
    board = part.board
    scope = {**drawn.job.measures, COUNTER: float(spec.index)}
    holds: dict[str, tuple[Any, str]] = {
        "timber": (spec.timber, "the only one"),
        "back": (spec.back, "default"),
        "lies": (spec.lies, "default"),
        "line_is": (spec.line_is, "default"),
        "depth": (spec.depth, spec.frame or "default"),
    }
    path = line_path(drawn, spec)[:-1] if not spec.frame else spec.path
    own = table(drawn, sheet, spec.path, scope=scope, holds=holds, choices={"timber": timbers(drawn)})
    rows = [*_line_rows(drawn, sheet, spec, path)]
    if not spec.frame:
        left = frozenset({"line", "except", "width" if spec.lies == "across" else "depth"})
        rows = [*own.rows(BoardTable, left), *rows]
    derived = figures_of(drawn, name)
    rows += [_derived_row(drawn, found) for found in derived]
    typed = {found.beside for found in derived if found.figure == "along"}
    joints = _joints_of(drawn, part.id)
    says = f"{spec.timber}, {length_text(board.thickest, drawn.job.units, step=0.05)} thick"
    return Card(
        revision=revision,
        what="board",
        title=part.id,
        says=f"{says}, side {spec.index} of {spec.frame}" if spec.frame else says,
        rows=tuple(rows),
        figures=_board_figures(drawn, part),
        joints=tuple(joint.key for joint in joints),
        dimensions=tuple(_along(board, joints, typed)),
        users=tuple(users(sheet.data, spec.name, models())),
    )


def _board_figures(drawn: Drawn, part: Part) -> tuple[tuple[str, str], ...]:
    """What can only be read; a frame's side has no rake of its own to be typed, so its direction is said here."""
    board, units = part.board, drawn.job.units
    direction = ("direction", f"{figure(board.angle, 0.1)} degrees from level")
    return (
        *((direction,) if board.frame_name else ()),
        ("length over the long points", length_text(part.length, units)),
        ("width", length_text(board.depth, units)),
        ("thickness", length_text(board.thickest, units, step=0.05)),
        ("on the sheets", part.mark),
    )


def _line_rows(drawn: Drawn, sheet: Sheet, spec: BoardSpec, table: Path) -> Iterator[Row]:
    """The four coordinates of a board's line, each as it is written."""
    if spec.frame:
        return
    rake = rake_of(spec)
    words = {rake.foot: "foot", rake.head: "head"} if rake.steep else _left_and_right(spec)
    for end, does in ((0, "starts"), (1, "ends")):
        yield from point_rows(drawn, sheet, table, ("line", end), words[end], spec.line[end], f"Its line {does} there.")


def _left_and_right(spec: BoardSpec) -> dict[int, str]:
    first = 0 if spec.line[0][0] <= spec.line[1][0] else 1
    return {first: "left end", 1 - first: "right end"}


def _joints_of(drawn: Drawn, board: str) -> list[Joint]:
    return [joint for joint in drawn.piece.joints if board in joint.key]


def _derived_row(drawn: Drawn, found: Derived) -> Row:
    angle = found.figure == "rake"
    value = found.value
    return Row(
        key=(found.figure, found.beside) if found.beside else (found.figure,),
        label=found.label,
        written="",
        value=round(value, 6) + 0.0,
        shown=figure(value, 0.01, fixed=True) if angle else length_text(value, drawn.job.units, step=0.05),
        unit="deg" if angle else "mm",
        default="",
        sentence=found.sentence,
        input="angle" if angle else "length",
        derived=found.figure,
        beside=found.beside,
        after=found.after,
    )


def _along(board: Board, joints: list[Joint], typed: set[str]) -> Iterator[Along]:
    """From the board's foot along its centre-line to each joint, nearest first.

    Args:
        board: as it is drawn.
        joints: its joints.
        typed: the boards whose place along it can be typed.
    """
    foot = foot_of(board)
    start = board.frame.place((foot, 0.0, 0.0))
    for joint in sorted(joints, key=lambda joint: abs(joint.meeting.side(board.name).at - foot)):
        at = joint.meeting.side(board.name).at
        end = board.frame.place((at, 0.0, 0.0))
        yield Along(
            start=(round(start[0], 3) + 0.0, round(start[1], 3) + 0.0),
            end=(round(end[0], 3) + 0.0, round(end[1], 3) + 0.0),
            value=round(abs(at - foot), 3) + 0.0,
            joint=joint.key,
            beside=other if (other := joint.meeting.other(board.name).body) in typed else "",
        )


def frame_card(drawn: Drawn, sheet: Sheet, frame: FrameSpec, revision: int) -> Card:
    """A frame's card: its own values, and its corners."""
    own = table(drawn, sheet, frame.path, choices={"timber": timbers(drawn)})
    rows = [*own.rows(FrameTable, frozenset({"points", "names"}))]
    for corner, point in enumerate(frame.points):
        rows += point_rows(drawn, sheet, frame.path, ("points", corner), f"corner {corner + 1}", point)
    joints = [joint.key for joint in drawn.piece.joints if set(joint.key) <= set(frame.boards)]
    return Card(
        revision=revision,
        what="frame",
        title=frame.name,
        says=f"a frame of {len(frame.boards)} boards, points on its {frame.size}",
        rows=tuple(rows),
        figures=(),
        joints=tuple(joints),
        dimensions=(),
        users=tuple(users(sheet.data, frame.name, models())),
    )
