"""The cards of a board and of a frame."""

from collections.abc import Iterator
from typing import Any

from ...book import models
from ...job.arithmetic import COUNTER
from ...job.edits import TomlText
from ...job.model import BoardSpec, FrameSpec
from ...job.renaming import placed_by, users
from ...job.schema import BoardTable, FrameTable
from ...keeping import Keep
from ...lengths import figure, length_text, thickness_text
from ...piece.history import coats_in_words
from ...piece.model import Joint, Part
from ...places import Path
from ...sentences import told
from ..answers import Card, Row
from ..derived import Derived, figures_of, row_figures
from ..drawn import Drawn
from ..points import line_path
from ..raking import rake_of
from ..rows import fellows
from .common import point_rows, table, timbers
from .strip import strip_of


def board_card(drawn: Drawn, sheet: TomlText, name: str, revision: int, keep: Keep) -> Card:
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
    joints = _joints_of(drawn, part.id)
    says = f"{spec.timber}, {thickness_text(board.thickest, drawn.job.units)} thick"
    return Card(
        revision=revision,
        what="board",
        title=part.id,
        says=f"{says}, side {spec.index} of {spec.frame}" if spec.frame else says,
        rows=tuple(rows),
        figures=_board_figures(drawn, part),
        joints=tuple(joint.key for joint in joints),
        users=(
            *users(sheet.data, spec.name, models()),
            *(path for path, _ in placed_by(sheet.data, {spec.name}, models())),
        ),
        strip=strip_of(part, keep),
    )


def _board_figures(drawn: Drawn, part: Part) -> tuple[tuple[str, str], ...]:
    """What can only be read; a frame's side has no rake of its own to be typed, so its direction is said here."""
    board, units = part.board, drawn.job.units
    direction = ("direction", f"{figure(board.angle, 0.1)} degrees from level")
    return (
        *((direction,) if board.frame_name else ()),
        ("over the long points", length_text(part.length, units)),
        ("wide", length_text(board.depth, units)),
        ("thick", thickness_text(board.thickest, units)),
        ("on the sheets", part.mark),
        *_life(drawn, board.name),
    )


def _life(drawn: Drawn, board: str) -> Iterator[tuple[str, str]]:
    """What comes before it is put in: the unit it is glued up in, and its coats as far as the job says when."""
    life = drawn.piece.history.lives.get(board)
    if life is None:
        return
    if life.unit:
        yield "glued up in", life.unit
    if life.coats:
        yield "coats", told(coats_in_words(life), drawn.voice)


def _line_rows(drawn: Drawn, sheet: TomlText, spec: BoardSpec, table: Path) -> Iterator[Row]:
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


def row_card(drawn: Drawn, sheet: TomlText, name: str, revision: int) -> Card:
    """The card of a whole row, by one of its boards: what they share, typed once."""
    spec = drawn.spec(name)
    row = fellows(drawn, spec)
    holds: dict[str, tuple[Any, str]] = {
        "timber": (spec.timber, "the only one"),
        "back": (spec.back, "default"),
        "lies": (spec.lies, "default"),
        "line_is": (spec.line_is, "default"),
        "depth": (spec.depth, "default"),
    }
    own = table(drawn, sheet, spec.path, holds=holds, choices={"timber": timbers(drawn)})
    left = frozenset({"name", "line", "except", "width" if spec.lies == "across" else "depth"})
    names = {one.name for one in row}
    return Card(
        revision=revision,
        what="row",
        title=row[0].name if len(row) == 1 else f"{row[0].name} to {row[-1].name}",
        says=f"a row of {len(row)}, {spec.timber}",
        rows=(
            *own.rows(BoardTable, left),
            *(_derived_row(drawn, found) for found in row_figures(drawn, row[0].name)),
        ),
        figures=(),
        joints=tuple(joint.key for joint in drawn.piece.joints if names.intersection(joint.key)),
        users=tuple(path for one in row for path in users(sheet.data, one.name, models())),
        board=row[0].name,
    )


def frame_card(drawn: Drawn, sheet: TomlText, frame: FrameSpec, revision: int) -> Card:
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
        users=tuple(users(sheet.data, frame.name, models())),
    )
