"""The card of what is chosen: a board, a frame, a joint, a fixing; the job where nothing is.

Its rows are read off the schema (`rows`); what holds where nothing is written is what the rooms worked out.
"""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import Any

from pydantic import BaseModel

from ..book import models
from ..findings import in_units
from ..job.arithmetic import COUNTER
from ..job.edits import Sheet, sheet_of
from ..job.model import BoardSpec, FrameSpec
from ..job.renaming import users
from ..job.schema import BoardTable, FinishTable, FixingTable, FrameTable, JobTable, JointsTable, TimberTable, WallTable
from ..joints import KINDS
from ..keeping import Keep
from ..piece.choose import judged
from ..piece.kinds import Kinds
from ..piece.model import Board, Cut, Joint, Meeting, Part
from ..places import Pair, Path
from ..units import figure, length_text
from . import requests
from .answers import Along, Card, Choice, Row
from .drawn import Drawn, no_such
from .points import frame_of, line_path
from .rows import Table


def card(drawn: Drawn, of: requests.CardOf, revision: int, keep: Keep) -> Card:
    """The card of what is named; the job's where nothing is.

    Raises:
        Refused: there is no such thing.
    """
    sheet = sheet_of(drawn.text)
    if of.board is not None:
        return _board_card(drawn, sheet, of.board, revision)
    if of.frame is not None:
        return _frame_card(drawn, sheet, frame_of(drawn.job, of.frame), revision)
    if of.joint is not None:
        return _joint_card(drawn, sheet, meeting_of(drawn, of.joint), revision, keep)
    if of.fixing is not None:
        return _fixing_card(drawn, sheet, of.fixing, revision)
    return _job_card(drawn, sheet, revision)


def table_of(drawn: Drawn, sheet: Sheet, of: requests.CardOf) -> Path:
    """The table that a card's values stand in."""
    if of.board is not None:
        spec = drawn.spec(of.board)
        return spec.path
    if of.frame is not None:
        return frame_of(drawn.job, of.frame).path
    if of.joint is not None:
        return joint_table(drawn, meeting_of(drawn, of.joint).key)
    if of.fixing is not None:
        return _fixing_path(drawn, of.fixing)
    return ()


def meeting_of(drawn: Drawn, pair: Pair) -> Meeting:
    """Where two bodies meet, named in either order.

    Raises:
        Refused: they do not.
    """
    for meeting in drawn.piece.meetings:
        if set(meeting.key) == set(pair):
            return meeting
    for joint in drawn.piece.joints:
        if set(joint.key) == set(pair):
            return joint.meeting
    raise no_such("joint", " and ".join(pair))


def joint_table(drawn: Drawn, key: Pair) -> Path:
    """The `[[joint]]` of a pair; where there is none, the one that would be added."""
    for spec in drawn.job.joint_specs:
        if set(spec.between) == set(drawn.wholes(key)):
            return spec.path
    return ("joint", len(drawn.job.joint_specs))


def _table(
    drawn: Drawn,
    sheet: Sheet,
    path: Path,
    *,
    scope: Mapping[str, float] | None = None,
    holds: Mapping[str, tuple[Any, str]] | None = None,
    choices: Mapping[str, tuple[Choice, ...]] | None = None,
) -> Table:
    return Table(
        drawn=drawn,
        sheet=sheet,
        path=path,
        scope=scope if scope is not None else drawn.job.measures,
        holds=holds or {},
        choices=choices or {},
    )


def _timbers(drawn: Drawn) -> tuple[Choice, ...]:
    found = drawn.job.timbers.values()
    return tuple(
        Choice(value=timber.name, possible=True, why=f"{timber.species}, {length_text(timber.thickness)}")
        for timber in found
    )


def _board_card(drawn: Drawn, sheet: Sheet, name: str, revision: int) -> Card:
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
    table = _table(drawn, sheet, spec.path, scope=scope, holds=holds, choices={"timber": _timbers(drawn)})
    rows = [*_line_rows(drawn, sheet, spec, path)]
    if not spec.frame:
        left = frozenset({"line", "except", "width" if spec.lies == "across" else "depth"})
        rows = [*table.rows(BoardTable, left), *rows]
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
        dimensions=tuple(_along(board, joints)),
        users=tuple(users(sheet.data, spec.name, models())),
    )


def _board_figures(drawn: Drawn, part: Part) -> tuple[tuple[str, str], ...]:
    board, units = part.board, drawn.job.units
    return (
        ("length over the long points", length_text(part.length, units)),
        ("width", length_text(board.depth, units)),
        ("thickness", length_text(board.thickest, units, step=0.05)),
        ("direction", f"{figure(board.angle, 0.1)} degrees from level"),
        ("on the sheets", part.mark),
    )


def _line_rows(drawn: Drawn, sheet: Sheet, spec: BoardSpec, table: Path) -> Iterator[Row]:
    """The four coordinates of a board's line, each as it is written."""
    if spec.frame:
        return
    for end, word in ((0, "start"), (1, "end")):
        yield from _point_rows(drawn, sheet, table, ("line", end), word, spec.line[end])


def _point_rows(
    drawn: Drawn, sheet: Sheet, table: Path, key: Path, word: str, point: tuple[float, float]
) -> Iterator[Row]:
    for place, axis, sentence in ((0, "x", "Along the wall."), (1, "y", "Up from the floor.")):
        path = (*table, *key, place)
        yield Row(
            key=(*key, place),
            label=f"{word} {axis}",
            written=sheet.spans.written(path),
            value=round(point[place], 6) + 0.0,
            shown=length_text(point[place], drawn.job.units),
            unit="mm",
            default="",
            sentence=sentence,
            input="length",
            path=path,
            from_="exception" if "except" in table else "",
        )


def _joints_of(drawn: Drawn, board: str) -> list[Joint]:
    return [joint for joint in drawn.piece.joints if board in joint.key]


def _along(board: Board, joints: list[Joint]) -> Iterator[Along]:
    """From the board's foot along its centre-line to each joint, nearest first."""
    ends = [board.frame.place((a, 0.0, 0.0)) for a in (0.0, board.length)]
    foot = 0.0 if ends[0][1] <= ends[1][1] else board.length
    start = board.frame.place((foot, 0.0, 0.0))
    for joint in sorted(joints, key=lambda joint: abs(joint.meeting.side(board.name).at - foot)):
        at = joint.meeting.side(board.name).at
        end = board.frame.place((at, 0.0, 0.0))
        yield Along(
            start=(round(start[0], 3) + 0.0, round(start[1], 3) + 0.0),
            end=(round(end[0], 3) + 0.0, round(end[1], 3) + 0.0),
            value=round(abs(at - foot), 3) + 0.0,
            joint=joint.key,
        )


def _frame_card(drawn: Drawn, sheet: Sheet, frame: FrameSpec, revision: int) -> Card:
    table = _table(drawn, sheet, frame.path, choices={"timber": _timbers(drawn)})
    rows = [*table.rows(FrameTable, frozenset({"points", "names"}))]
    for corner, point in enumerate(frame.points):
        rows += _point_rows(drawn, sheet, frame.path, ("points", corner), f"corner {corner + 1}", point)
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


def _joint_card(drawn: Drawn, sheet: Sheet, meeting: Meeting, revision: int, keep: Keep) -> Card:
    joint = drawn.piece.joint_by_key.get(meeting.key)
    path = joint_table(drawn, meeting.key)
    low, high = meeting.overlap
    meets = {"t_a": meeting.a.thickness, "t_b": meeting.b.thickness, "overlap": high - low}
    fronts = _front_choices(meeting, joint)
    choices = {"kind": _kind_choices(drawn, meeting, keep), **({"front": fronts} if fronts else {})}
    holds = _joint_holds(drawn, joint)
    table = _table(drawn, sheet, path, scope={**drawn.job.measures, **meets}, holds=holds, choices=choices)
    rows = [table.row(key, {"description": says}, {}, needed=False) for key, says in _JOINT_KEYS if key in choices]
    if joint is not None:
        rows += table.rows(KINDS[joint.kind].options)
    a, b = meeting.key
    return Card(
        revision=revision,
        what="joint",
        title=f"{a} and {b}",
        says=f"{joint.kind if joint else 'no joint'}, {meeting.form} at {figure(meeting.angle, 0.1)} degrees",
        rows=tuple(rows),
        figures=tuple(_cut_figures(joint)) if joint else (),
        joints=(meeting.key,),
        dimensions=(),
        users=(),
    )


_JOINT_KEYS = (
    ("kind", "Left out: the default for such a meeting."),
    ("front", "The board whose slot opens to the front; left out: settled."),
)


def _joint_holds(drawn: Drawn, joint: Joint | None) -> dict[str, tuple[Any, str]]:
    """What holds of a joint where its table says nothing, and where that comes from."""
    if joint is None:
        return {"kind": ("", "[joints]"), "front": ("", "settled")}
    own = drawn.job.joints.kinds.get(joint.kind, {})
    return {
        "kind": (joint.kind, "[joints]"),
        "front": (joint.hand.front, "settled"),
        **{name: (value, _source(drawn, name, own)) for name, value in joint.options},
    }


def _source(drawn: Drawn, name: str, own: Mapping[str, object]) -> str:
    if name in own:
        return "its kind's table"
    return "[joints]" if name == "clearance" and drawn.job.joints.clearance is not None else "default"


def _kind_choices(drawn: Drawn, meeting: Meeting, keep: Keep) -> tuple[Choice, ...]:
    if meeting.form == "fixing":
        return ()
    found = judged(meeting, drawn.job, Kinds(KINDS), keep)
    ranked = sorted(found, key=lambda item: (not item[1].possible, item[1].rank))
    return tuple(
        Choice(value=name, possible=judgement.possible, why="; ".join(judgement.reasons)) for name, judgement in ranked
    )


def _front_choices(meeting: Meeting, joint: Joint | None) -> tuple[Choice, ...]:
    """The boards that may open to the front, with how it would then be made."""
    if joint is None:
        return ()
    kind = KINDS[joint.kind]
    options = kind.options.model_construct(**dict(joint.options))
    hands = [hand for hand in kind.hands(meeting, options) if hand.front]
    return tuple(Choice(value=hand.front, possible=True, why=hand.name) for hand in hands)


def _cut_figures(joint: Joint) -> Iterator[tuple[str, str]]:
    yield "how", joint.hand.name
    for cut in joint.cuts:
        yield f"{cut.kind} in {cut.body}", _said(cut)
    for gap in joint.gaps:
        yield f"left at the {gap.between}", length_text(gap.size, step=0.05)


def _said(cut: Cut) -> str:
    figures = cut.figures
    said = [f"{figure(figures.across, 0.05)} across"] if figures.across is not None else []
    said += [f"{figure(figures.deep, 0.05)} deep"] if figures.deep is not None else []
    said += [f"leans {figure(abs(figures.lean), 0.1)} degrees"] if figures.lean else []
    said += [f"opens to the {figures.opens}"] if figures.opens else []
    return ", ".join(said) + (f" ({in_units(figures.sum, 'mm')})" if figures.sum else "")


def _fixing_path(drawn: Drawn, name: str) -> Path:
    for fixing in drawn.job.fixings:
        if fixing.name == name:
            return fixing.path
    raise no_such("fixing", name)


def _fixing_card(drawn: Drawn, sheet: Sheet, name: str, revision: int) -> Card:
    path = _fixing_path(drawn, name)
    fixing = next(fixing for fixing in drawn.job.fixings if fixing.name == name)
    joint = next((joint for joint in drawn.piece.joints if joint.meeting.path == path), None)
    holds: dict[str, tuple[Any, str]] = {"name": (fixing.name, "default")}
    holds |= {key: (value, "default") for key, value in joint.options} if joint else {}
    table = _table(drawn, sheet, path, holds=holds)
    rows = [*table.rows(FixingTable)]
    if fixing.kind in KINDS:
        rows += table.rows(KINDS[fixing.kind].options)
    return Card(
        revision=revision,
        what="fixing",
        title=name,
        says=f"{fixing.kind} in {fixing.board}",
        rows=tuple(rows),
        figures=tuple(_cut_figures(joint)) if joint else (),
        joints=(joint.key,) if joint else (),
        dimensions=(),
        users=(),
    )


def _job_card(drawn: Drawn, sheet: Sheet, revision: int) -> Card:
    """The job's tables one after the other; keys are paths from the file's top."""
    rows: list[Row] = []
    kinds = tuple(Choice(value=name, possible=True, why="") for name in KINDS)
    meetings = dict.fromkeys(("crossing", "end_on_face", "corner", "in_line"), kinds)
    tables: list[tuple[Path, type[BaseModel], Mapping[str, tuple[Choice, ...]]]] = [
        (("job",), JobTable, {}),
        *((timber.path, TimberTable, {}) for timber in drawn.job.timbers.values()),
        (("joints",), JointsTable, meetings),
        (("finish",), FinishTable, {}),
        (("wall",), WallTable, {}),
    ]
    for path, model, choices in tables:
        rows += [_within(row, path) for row in _table(drawn, sheet, path, choices=choices).rows(model)]
    rows += _measure_rows(drawn, sheet)
    piece = drawn.piece
    return Card(
        revision=revision,
        what="job",
        title=drawn.job.title,
        says=f"{len(piece.boards)} boards, {len(piece.joints)} joints",
        rows=tuple(rows),
        figures=(),
        joints=(),
        dimensions=(),
        users=(),
    )


def _within(row: Row, path: Path) -> Row:
    return replace(row, key=(*path, *row.key), label=f"{' '.join(map(str, path[1:] or path))}: {row.label}")


def _measure_rows(drawn: Drawn, sheet: Sheet) -> Iterator[Row]:
    for name, value in drawn.job.measures.items():
        path = ("measures", name)
        yield Row(
            key=path,
            label=f"measure: {name}",
            written=sheet.spans.written(path),
            value=round(value, 6) + 0.0,
            shown=length_text(value, drawn.job.units),
            unit="mm",
            default="",
            sentence="A named dimension: change it, and all that uses it follows.",
            input="length",
            path=path,
        )
