"""The card of what is chosen: every value with its unit, its default and a sentence, read off the schema.

A row is made from the JSON Schema of the table that its key stands in, so a joint kind's options and a
study's table have their rows without a word here. What holds is worked out by the rooms that hold it.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Literal, TypeAlias

from pydantic import BaseModel

from ..book import models
from ..job.arithmetic import COUNTER, ArithmeticMistake, Expression, parse
from ..job.edits import Sheet, sheet_of
from ..job.model import BoardSpec, FrameSpec
from ..job.renaming import users
from ..job.schema import BoardTable, FinishTable, FixingTable, FrameTable, JobTable, JointsTable, TimberTable, WallTable
from ..joints import KINDS
from ..keeping import Keep
from ..piece.choose import judged
from ..piece.kinds import Kinds
from ..piece.model import Cut, Joint, Meeting
from ..places import Pair, Path
from ..units import figure, length_text, to_mm
from . import requests
from .answers import Along, Card, Choice, Row
from .drawn import Drawn, no_such
from .moving import frame_of, line_path

Input: TypeAlias = Literal["length", "text", "number", "yes or no", "choice", "board", "timber", "list", "name"]
Properties: TypeAlias = Mapping[str, Mapping[str, Any]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """A table of the file as a card sees it.

    Attributes:
        path: of the table, whether or not it is there.
        scope: names that arithmetic in it may use.
        holds: what holds for a key where the file does not say it there: mm for a length, and where from.
        choices: for keys whose values are chosen by more than the schema says.
    """

    drawn: Drawn
    sheet: Sheet
    path: Path
    scope: Mapping[str, float]
    holds: Mapping[str, tuple[Any, str]]
    choices: Mapping[str, tuple[Choice, ...]]

    def rows(self, model: type[BaseModel], leave_out: frozenset[str] = frozenset()) -> Iterator[Row]:
        """A row for every key of the model."""
        published = model.model_json_schema()
        required = published.get("required", ())
        for key, schema in published.get("properties", {}).items():
            if key not in leave_out:
                yield self.row(key, schema, published.get("$defs", {}), needed=key in required)

    def row(self, key: str, schema: Mapping[str, Any], defs: Properties, *, needed: bool) -> Row:
        """One key's row."""
        path = (*self.path, key)
        there = path in self.sheet.spans.values
        how, words = _input(key, schema, defs)
        value, source = self._value(key, path, schema, how, there=there)
        choices = self.choices.get(key, tuple(Choice(value=word, possible=True, why="") for word in words))
        return Row(
            key=(key,),
            label=key.replace("_", " "),
            written=self.sheet.spans.written(path) if there else "",
            value=_plain(value),
            shown=self._shown(value, how),
            unit="mm" if how == "length" else "",
            default="" if needed else _default(schema),
            sentence=str(schema.get("description", "")),
            input="choice" if choices else how,
            choices=choices,
            path=path if there else None,
            from_=source,
        )

    def _value(self, key: str, path: Path, schema: Mapping[str, Any], how: Input, *, there: bool) -> tuple[Any, str]:
        if there:
            return self._worked(self.sheet.get(path), how), ""
        if key in self.holds:
            return self.holds[key]
        return schema.get("default"), "default"

    def _worked(self, value: Any, how: Input) -> Any:
        if how != "length":
            return value
        try:
            if isinstance(value, str):
                return round(parse(value).evaluate(self.scope, self.drawn.job.units), 6)
            return to_mm(float(value), self.drawn.job.units)
        except (ArithmeticMistake, TypeError, ValueError):
            return None

    def _shown(self, value: Any, how: Input) -> str:
        if value is None or value == "":
            return ""
        if how == "length" and isinstance(value, (int, float)):
            return length_text(value, self.drawn.job.units, step=0.05)
        if isinstance(value, bool):
            return "yes" if value else "no"
        return figure(value, 0.001) if isinstance(value, float) else _listed(value)


def _plain(value: Any) -> float | str | bool | None:
    if isinstance(value, (str, bool)):
        return value
    return float(value) if isinstance(value, (int, float)) else None


def _listed(value: Any) -> str:
    if isinstance(value, list):
        return ", ".join(_listed(part) for part in value)
    if isinstance(value, dict):
        return ", ".join(f"{key} {_listed(part)}" for key, part in value.items())
    return str(value)


def _default(schema: Mapping[str, Any]) -> str:
    value = schema.get("default")
    if isinstance(value, Expression):
        return value.text
    if value is None or value == "" or value == []:
        return ""
    return ("yes" if value else "no") if isinstance(value, bool) else _listed(value)


def _input(key: str, schema: Mapping[str, Any], defs: Properties) -> tuple[Input, tuple[str, ...]]:
    """How a key's value is typed, and the words it may be."""
    kinds = list(_branches(schema, defs))
    if key == "name":
        return "name", ()
    if schema.get("arithmetic") or any(kind.get("arithmetic") for kind in kinds):
        return "length", ()
    for kind in kinds:
        if "enum" in kind:
            return "choice", tuple(str(word) for word in kind["enum"])
        if kind.get("refers") in ("board", "timber"):
            return kind["refers"], ()
    types = {str(kind.get("type")) for kind in kinds}
    if "boolean" in types:
        return "yes or no", ()
    if types & {"array", "object"}:
        return "list", ()
    return ("number", ()) if types & {"integer", "number"} else ("text", ())


def _branches(schema: Mapping[str, Any], defs: Properties) -> Iterator[Mapping[str, Any]]:
    if schema.get("arithmetic"):
        yield schema
    elif "$ref" in schema:
        yield from _branches(defs[schema["$ref"].rpartition("/")[2]], defs)
    elif "anyOf" in schema:
        for branch in schema["anyOf"]:
            yield from _branches(branch, defs)
    elif schema.get("type") != "null":
        yield schema


# --- whose card


def card(drawn: Drawn, of: requests.CardOf, revision: int, keep: Keep) -> Card:
    """The card of what is named; the job's where nothing is.

    Raises:
        Refused: there is no such thing.
    """
    sheet = sheet_of(drawn.text)
    if of.board is not None:
        return _board_card(drawn, sheet, drawn.spec(of.board), revision)
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
        if set(spec.between) == set(key):
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


def _board_card(drawn: Drawn, sheet: Sheet, spec: BoardSpec, revision: int) -> Card:
    part = drawn.piece.part_by_name[spec.name]
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
    joints = _joints_of(drawn, spec.name)
    says = f"{spec.timber}, {length_text(board.thickest, drawn.job.units, step=0.05)} thick"
    figures = (
        ("length over the long points", length_text(part.length, drawn.job.units)),
        ("width", length_text(board.depth, drawn.job.units)),
        ("thickness", length_text(board.thickest, drawn.job.units, step=0.05)),
        ("direction", f"{figure(board.angle, 0.1)} degrees from level"),
        ("on the sheets", part.mark),
    )
    return Card(
        revision=revision,
        what="board",
        title=spec.name,
        says=f"{says}, side {spec.index} of {spec.frame}" if spec.frame else says,
        rows=tuple(rows),
        figures=figures,
        joints=tuple(joint.key for joint in joints),
        dimensions=tuple(_along(drawn, spec, joints)),
        users=tuple(users(sheet.data, spec.name, models())),
    )


def _line_rows(drawn: Drawn, sheet: Sheet, spec: BoardSpec, table: Path) -> Iterator[Row]:
    """The four coordinates of a board's line, each as it is written."""
    if spec.frame:
        return
    for end, word in ((0, "start"), (1, "end")):
        for place, axis in ((0, "x"), (1, "y")):
            path = (*table, "line", end, place)
            yield Row(
                key=("line", end, place),
                label=f"{word} {axis}",
                written=sheet.spans.written(path),
                value=round(spec.line[end][place], 6) + 0.0,
                shown=length_text(spec.line[end][place], drawn.job.units),
                unit="mm",
                default="",
                sentence="Along the wall." if axis == "x" else "Up from the floor.",
                input="length",
                path=path,
                from_="exception" if "except" in table else "",
            )


def _joints_of(drawn: Drawn, board: str) -> list[Joint]:
    return [joint for joint in drawn.piece.joints if board in joint.key]


def _along(drawn: Drawn, spec: BoardSpec, joints: list[Joint]) -> Iterator[Along]:
    """From the board's foot along its centre-line to each joint, nearest first."""
    board = drawn.piece.board_by_name[spec.name]
    ends = [board.frame.place((a, 0.0, 0.0)) for a in (0.0, board.length)]
    foot = 0.0 if ends[0][1] <= ends[1][1] else board.length
    start = board.frame.place((foot, 0.0, 0.0))
    for joint in sorted(joints, key=lambda joint: abs(joint.meeting.side(spec.name).at - foot)):
        at = joint.meeting.side(spec.name).at
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
        for place, axis in ((0, "x"), (1, "y")):
            path = (*frame.path, "points", corner, place)
            rows.append(
                Row(
                    key=("points", corner, place),
                    label=f"corner {corner + 1} {axis}",
                    written=sheet.spans.written(path),
                    value=round(point[place], 6) + 0.0,
                    shown=length_text(point[place], drawn.job.units),
                    unit="mm",
                    default="",
                    sentence="Along the wall." if axis == "x" else "Up from the floor.",
                    input="length",
                    path=path,
                )
            )
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
    scope = {
        **drawn.job.measures,
        "t_a": meeting.a.thickness,
        "t_b": meeting.b.thickness,
        "overlap": meeting.overlap[1] - meeting.overlap[0],
    }
    kinds = _kind_choices(drawn, meeting, keep)
    fronts = _front_choices(drawn, meeting, joint)
    choices = {"kind": kinds, **({"front": fronts} if fronts else {})}
    holds: dict[str, tuple[Any, str]] = {"kind": ("", "[joints]"), "front": ("", "settled")}
    if joint is not None:
        holds |= {"kind": (joint.kind, "[joints]"), "front": (joint.hand.front, "settled")}
        own = drawn.job.joints.kinds.get(joint.kind, {})
        holds |= {name: (value, _source(drawn, name, own)) for name, value in joint.options}
    table = _table(drawn, sheet, path, scope=scope, holds=holds, choices=choices)
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


def _front_choices(drawn: Drawn, meeting: Meeting, joint: Joint | None) -> tuple[Choice, ...]:
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
    parts: list[tuple[str, float | None, Callable[[float], str]]] = [
        ("across", figures.across, lambda value: f"{figure(value, 0.05)} across"),
        ("deep", figures.deep, lambda value: f"{figure(value, 0.05)} deep"),
    ]
    said = [write(value) for _, value, write in parts if value is not None]
    if figures.lean:
        said.append(f"leans {figure(abs(figures.lean), 0.1)} degrees")
    if figures.opens:
        said.append(f"opens to the {figures.opens}")
    return ", ".join(said) + (f" ({figures.sum})" if figures.sum else "")


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
    from dataclasses import replace

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
