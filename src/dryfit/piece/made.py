"""NAME.made.toml: what has been pinned, measured and cut, beside the job file NAME.toml.

    dryfit_made = 1

    [pinned."raking 1"]            # held still since a sheet was first printed
    datum     = "start"            # of its line as drawn
    face_side = "left"             # of its line, looking from start to end; "front" of a board lying flat
    mark      = "B"

    [[measured]]                   # thickness along a board, from its line's start
    board     = "raking 1"
    thickness = [[0, 23.8], [1200, 24.1]]

    [[cut]]                        # a slot that is in the wood, in the figures that were measured there
    between = ["shelf", "raking 1"]
    in      = "shelf"              # the board that is cut
    at      = 487.9                # datum wall, on the face side, from the datum end
    across  = 24.15                # across the walls
    deep    = 140.5
    opens   = "front"

    [[cut]]                        # an end that is cut
    board   = "raking 1"
    end     = "start"              # of its line as drawn
    length  = 1923.7               # of the board, over the long points

    [thickness_then]               # as known when cuts were first written down: measuring since is no change of mind
    "raking 1" = 24.0

    [[cut]]                        # of a crossing that is cut, only which board's slot opens to the front
    between = ["long shelf", "raking 1"]
    front   = "long shelf"

A bare number is in mm, as in a shop file, whatever the job's units: it copies what was read off a tool. Text may be
a length with its unit ("19 7/32 in").
"""

import hashlib
import math
import tomllib
from collections.abc import Iterable, Mapping
from pathlib import Path as FilePath
from typing import Annotated, Any, ClassVar, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field

from ..errors import MadeError, Mistake
from ..job.edits import TomlText
from ..job.mistakes import Mistakes
from ..job.names import MEMBER
from ..job.options import FARTHEST, to_expression
from ..job.reading import file_bytes
from ..job.renaming import FIXING
from ..job.spans import Span, Spans
from ..job.style import render
from ..job.syntax import read_syntax
from ..lengths import LengthUnit, from_mm
from ..places import Path, Plain
from .meetings import pair_key
from .model import WALL
from .setout import NOTHING_MADE, AsCut, Made, Pin

STATE = 8  # digits, as of the job file
STEEPEST = 75.0  # degrees off square: boards meet from 15 degrees on


def _in_mm(value: object) -> object:
    """A length: a bare number in mm, text with its unit."""
    return to_expression(value).evaluate({}, "mm")


_Any = Annotated[float, BeforeValidator(_in_mm), Field(ge=-FARTHEST, le=FARTHEST, allow_inf_nan=False)]
_Size = Annotated[float, BeforeValidator(_in_mm), Field(gt=0.0, le=FARTHEST, allow_inf_nan=False)]
_Left = Annotated[float, BeforeValidator(_in_mm), Field(ge=0.0, le=FARTHEST, allow_inf_nan=False)]
_Lean = Annotated[float, Field(ge=-STEEPEST, le=STEEPEST, allow_inf_nan=False)]


class _Table(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid", defer_build=True)


class PinTable(_Table):
    """`[pinned."BOARD"]`."""

    called: ClassVar[str] = "[pinned]"

    datum: Literal["start", "end"] = Field(description="Which end of its line positions are counted from.")
    face_side: Literal["left", "right", "front", "wall"] = Field(
        description="Looking from its line's start to its end; front or wall of a board lying flat."
    )
    mark: str = Field(pattern=r"^[A-HJ-NP-Z][0-9]{0,3}$", description="Its letter; I and O are never given.")


class MeasuredTable(_Table):
    """`[[measured]]`."""

    called: ClassVar[str] = "[[measured]]"

    board: str = Field(description="Which board.")
    thickness: list[tuple[_Any, _Size]] = Field(
        min_length=1, description="Places from its line's start, each with the thickness there."
    )


class FrontTable(_Table):
    """`[[cut]]` of a crossing, of which only is known which slot opens to the front."""

    called: ClassVar[str] = "a [[cut]] with a front"

    between: tuple[str, str] = Field(description="The joint's two boards.")
    front: str = Field(description="The board whose slot opens to the front.")


class CutTable(_Table):
    """`[[cut]]` of a slot, a housing, a notch or a hole."""

    called: ClassVar[str] = "a [[cut]] of a joint"

    between: tuple[str, str] = Field(description='The joint\'s two boards; of a screw its fixing and "wall".')
    inside: str = Field(alias="in", description="The board that is cut.")
    cut: str = Field("", description='Which one, where the joint has several in that board: "bore 2".')
    at: _Any | None = Field(
        None,
        description="Its datum wall as cut, from the datum end, on the face side; on the face that it is let into, "
        'where that is the other. Of a hole its middle. Only what opens to "end" has none.',
    )
    across: _Size = Field(description="Across the walls; of a hole its width.")
    deep: _Left = Field(description="From the edge or face that it opens to.")
    opens: Literal["front", "wall", "face", "face side", "other face", "end"] = Field(description="Where it opens to.")
    lean: _Lean | None = Field(
        None, description="Degrees off square, positive where it leans to the far end; left out: as worked out now."
    )
    stop: _Left | None = Field(
        None, description="Wood left at the front edge, of what is let into a face; left out: as worked out now."
    )
    stop_wall: _Left | None = Field(
        None, description="Wood left at the wall edge, of what is let into a face; left out: as worked out now."
    )
    takes: _Size | None = Field(
        None, description="Thickness of what enters, as it was known when this was cut; left out: not known."
    )
    accept: bool = Field(default=False, description="The maker's word that it may stay, though the job asks otherwise.")


class EndTable(_Table):
    """`[[cut]]` of an end."""

    called: ClassVar[str] = "a [[cut]] of an end"

    board: str = Field(description="Which board.")
    end: Literal["start", "end"] = Field(description="Which end of its line as drawn.")
    length: _Size = Field(description="Of the board over its long points, as cut; of two ends the shorter holds.")
    lean: _Lean | None = Field(None, description="Degrees off square; left out: as worked out now.")
    accept: bool = Field(default=False, description="The maker's word that it may stay, though the job asks otherwise.")


class MadeTables(_Table):
    """The whole file."""

    dryfit_made: Literal[1] = Field(description="Version of the file's form.")
    pinned: dict[str, PinTable] = Field(default={}, description="Held still, by board.")
    measured: list[MeasuredTable] = Field(default=[], description="Thicknesses as measured.")
    cut: list[dict[str, Any]] = Field(default=[], description="What is cut.")
    thickness_then: dict[str, _Size] = Field(
        default={},
        description="Of boards, as it was known when their cuts, or cuts for them, were first written down.",
    )


HEAD = "# What has been pinned, measured and cut. Dryfit writes it; you may too.\ndryfit_made = 1\n"


def made_path(job_file: FilePath) -> FilePath:
    """Where what is made of a job is kept."""
    return job_file.with_name(f"{job_file.stem}.made.toml")


def read_made(path: FilePath) -> Made:
    """Read what has been made; nothing, if the file is not there.

    Raises:
        MadeError: it cannot be used; with every mistake in it.
    """
    try:
        text = file_bytes(path).decode("utf-8-sig")
    except FileNotFoundError:
        return NOTHING_MADE
    except (OSError, UnicodeDecodeError) as error:
        mistake = Mistake(
            file=path.name, line=0, says=f"cannot be read: {error}", remedy="put the file right, or move it away"
        )
        raise MadeError((mistake,)) from None
    return read_made_text(text, path.name)


def read_made_text(text: str, file: str) -> Made:
    """Read the text of a made file.

    Raises:
        MadeError: it cannot be used; with every mistake in it.
    """
    read = read_syntax(text, file)
    if read.mistakes:
        raise MadeError(read.mistakes)
    mistakes = Mistakes(file, read.text)
    tables = mistakes.validated(MadeTables, read.data, (), called="the made file")
    if not isinstance(tables, MadeTables):
        raise MadeError(mistakes.sorted())
    cuts = [_cut_table(mistakes, item, ("cut", number)) for number, item in enumerate(tables.cut)]
    recorded, fronts = _cuts(mistakes, cuts), _fronts(mistakes, cuts)
    if mistakes:
        raise MadeError(mistakes.sorted())
    return Made(
        pins={
            name: Pin(datum=pin.datum, face_side=pin.face_side, mark=pin.mark) for name, pin in tables.pinned.items()
        },
        thickness={item.board: tuple(sorted(item.thickness)) for item in tables.measured},
        fronts=fronts,
        cuts=recorded,
        then=tables.thickness_then,
        state=hashlib.sha256(read.text.encode()).hexdigest()[:STATE] if recorded else "",
    )


def state_with(job_state: str, made: Made) -> str:
    """The state that papers carry: the job file's, and with recorded cuts that of both files."""
    if not made.state:
        return job_state
    return hashlib.sha256(f"{job_state}{made.state}".encode()).hexdigest()[:STATE]


_CutOf = FrontTable | CutTable | EndTable


def _cut_table(mistakes: Mistakes, item: dict[str, Any], path: Path) -> _CutOf | None:
    """One `[[cut]]`, by the keys that it has."""
    of_an_end = "board" in item or "end" in item
    model: type[BaseModel] = EndTable if of_an_end else FrontTable if "front" in item and "in" not in item else CutTable
    table = mistakes.validated(model, item, path)
    if not isinstance(table, (FrontTable, CutTable, EndTable)):
        return None
    if isinstance(table, CutTable):
        _told_well(mistakes, table, path)
    return table


def _told_well(mistakes: Mistakes, table: CutTable, path: Path) -> None:
    if WALL not in table.between and table.inside not in table.between:
        a, b = table.between
        mistakes.add((*path, "in"), f'"{table.inside}" is neither of the two boards', f"write {a} or {b}")
    if table.at is None and table.opens != "end":
        mistakes.add((*path, "at"), "where it is cut is missing", "add at, from the datum end", read="")


def _cuts(mistakes: Mistakes, tables: Iterable[_CutOf | None]) -> tuple[AsCut, ...]:
    """What is recorded with its figures; two tables of one cut are a mistake, since only one can be true."""
    found: dict[object, AsCut] = {}
    for number, table in enumerate(tables):
        if table is None or isinstance(table, FrontTable):
            continue
        line = mistakes.spans.line_of(("cut", number))
        one = _recorded(table, f"{mistakes.file}:{line}")
        key = identity(one)
        if key in found:
            says = f"this cut is already in the file ({found[key].place})"
            mistakes.add(("cut", number), says, "take one of the two out", read="")
        found.setdefault(key, one)
    return tuple(found.values())


def _recorded(table: CutTable | EndTable, place: str) -> AsCut:
    if isinstance(table, EndTable):
        return AsCut(
            board=table.board,
            end=table.end,
            length=table.length,
            lean=table.lean,
            accept=table.accept,
            opens="end",
            place=place,
        )
    return AsCut(
        board=table.inside,
        between=table.between,
        name=table.cut,
        at=table.at,
        across=table.across,
        deep=table.deep,
        opens=table.opens,
        lean=table.lean,
        stop=table.stop,
        stop_wall=table.stop_wall,
        takes=table.takes,
        accept=table.accept,
        place=place,
    )


def _fronts(mistakes: Mistakes, tables: Iterable[_CutOf | None]) -> dict[tuple[str, str], str]:
    """Which slot opens to the front, as written or as the cut slots say."""
    fronts: dict[tuple[str, str], str] = {}
    for number, table in enumerate(tables):
        if isinstance(table, FrontTable):
            front = table.front
        elif isinstance(table, CutTable) and table.opens in ("front", "wall") and WALL not in table.between:
            other = next((name for name in table.between if name != table.inside), table.inside)
            front = table.inside if table.opens == "front" else other
        else:
            continue
        key = pair_key(*table.between)
        if isinstance(table, FrontTable):  # of two of them the last has always held
            fronts[key] = front
        elif fronts.setdefault(key, front) != front:
            says = f"both slots of {key[0]} and {key[1]} cannot open to one edge"
            mistakes.add(("cut", number), says, "look at the boards and put one of the tables right", read="")
    return fronts


def identity(one: AsCut) -> object:
    """What tells a recorded cut from every other."""
    return (one.board, one.end, frozenset(one.between), one.name)


# ---- writing


def with_cuts(text: str, cuts: Iterable[AsCut], units: LengthUnit) -> str:
    """The text of a made file with cuts put into it, each in the place of one it has of the same cut.

    Every byte beside those tables stays. Of a table that is there only what differs is written.

    Args:
        text: of the made file, one that can be read.
        cuts: as they are to stand there.
        units: of the job: figures are written in inches, with their unit, where it is in inches.
    """
    for one in cuts:
        sheet = TomlText(text if text.strip() else HEAD)
        path = _table_of(sheet, one)
        text = sheet.text if path is not None else sheet.add_table(("cut",), _written(one, units), several=True)
        for name, value in _written(one, units).items() if path is not None else ():
            text = _put(text, (*(path or ()), name), value, getattr(one, _FIELDS.get(name, name), None))
        if path is not None and not one.accept and TomlText(text).get((*path, "accept")):
            text = TomlText(text).remove((*path, "accept"))
    return text


def with_thicknesses(text: str, then: Mapping[str, float], units: LengthUnit) -> str:
    """The text with thicknesses as they are known now, of boards that it has none of yet."""
    there = TomlText(text if text.strip() else HEAD).data.get("thickness_then", {})
    for name, thickness in then.items():
        if name not in there:
            text = TomlText(text if text.strip() else HEAD).add_key(("thickness_then", name), _figure(thickness, units))
    return text


def without_cuts(text: str, cuts: Iterable[AsCut]) -> str:
    """The text of a made file without the tables of these cuts."""
    for one in cuts:
        sheet = TomlText(text)
        path = _table_of(sheet, one)
        if path is not None:
            text = sheet.remove(path)
    return text


_FIELDS = {"in": "board", "cut": "name"}


def _table_of(sheet: TomlText, one: AsCut) -> Path | None:
    """Where a cut stands in the file."""
    for number, item in enumerate(sheet.data.get("cut", [])):
        if "front" in item and "in" not in item:
            continue
        there = (
            item.get("board", item.get("in")),
            item.get("end", ""),
            frozenset(item.get("between", ())),
            item.get("cut", ""),
        )
        if there == identity(one):
            return ("cut", number)
    return None


def _put(text: str, path: Path, value: Plain, figure: object) -> str:
    """A key of a table that is there, unless it says the same already."""
    sheet = TomlText(text)
    old = sheet.get(path)
    if old is None:
        return sheet.add_key(path, value)
    if isinstance(figure, float):
        alike = math.isclose(to_expression(old).evaluate({}, "mm"), figure, abs_tol=_SAME)
    else:
        alike = old == value or isinstance(old, list)  # of two names in another order
    return text if alike else sheet.replace(path, render(value))


_SAME = 5e-4  # mm: to 0.001 it is the same figure


def _written(one: AsCut, units: LengthUnit) -> dict[str, Plain]:
    """A cut as its table has it, without what nobody knows."""
    if one.end:
        table: dict[str, Plain] = {"board": one.board, "end": one.end, "length": _figure(one.length, units)}
    else:
        table = {"between": list(one.between), "in": one.board, "cut": one.name or None}
        table |= {name: _figure(getattr(one, name), units) for name in ("at", "across", "deep")}
        table["opens"] = one.opens
    table["lean"] = _degrees(one.lean)
    if not one.end:
        table |= {name: _figure(getattr(one, name), units) for name in ("stop", "stop_wall", "takes")}
    table["accept"] = one.accept or None
    return {name: value for name, value in table.items() if value is not None}


def _figure(value: float | None, units: LengthUnit) -> Plain:
    if value is None:
        return None
    return round(value, 3) + 0.0 if units == "mm" else f"{round(from_mm(value, units), 5) + 0.0:.10g} in"


def _degrees(value: float | None) -> Plain:
    return None if value is None else round(value, 4) + 0.0


def with_pins(text: str, pins: dict[str, Pin]) -> str:
    """The text of a made file with pins put to its end; everything before stays as it was."""
    new = "" if text.strip() else HEAD
    lines = [text if not text or text.endswith("\n") else text + "\n", new]
    for name, pin in pins.items():
        lines.append(f"\n[pinned.{quoted(name)}]\n")
        lines.append(f'datum = "{pin.datum}"\nface_side = "{pin.face_side}"\nmark = "{pin.mark}"\n')
    return "".join(lines)


def renamed(text: str, names: Mapping[str, str]) -> str:
    """The text of a made file with boards and fixings called anew, wherever it names them; every other byte stays.

    The members of a divided board are called anew with it.

    Args:
        text: of the made file.
        names: old name to new, as `job.renaming.renamed_in_records` gives them.
    """
    spans = Spans(text)
    fixings = {old.removeprefix(FIXING): new.removeprefix(FIXING) for old, new in names.items() if FIXING in old}
    boards = {old: new for old, new in names.items() if FIXING not in old}
    patches = [
        (span, quoted(new))
        for path, written in spans.keys.items()
        if len(path) == 2 and path[0] in ("pinned", "thickness_then") and (new := _new_name(str(path[1]), boards))
        for span in written
    ]
    for path, span in spans.values.items():
        if path[-1] in ("board", "front", "in") or (len(path) > 1 and path[-2] == "between"):
            old = _text_at(text, span)
            if new := _new_name(old, fixings if _is_fixing(text, spans, path) else boards):
                patches.append((span, quoted(new)))
    for span, new in sorted(patches, reverse=True):
        text = text[: span.start] + new + text[span.end :]
    return text


def _text_at(text: str, span: Span) -> str:
    return str(tomllib.loads(f"name = {text[span.start : span.end]}")["name"])


def _is_fixing(text: str, spans: Spans, path: Path) -> bool:
    """Whether a name stands for a fixing: the one of two that is screwed to the wall."""
    if len(path) < 2 or path[-2] != "between":
        return False
    other = spans.values.get((*path[:-1], 1 - int(path[-1])))
    return other is not None and _text_at(text, other) == WALL


def _new_name(old: str, names: Mapping[str, str]) -> str:
    """What a board or a member is called from now on; "" where its name stays."""
    member = MEMBER.fullmatch(old)
    if old in names or not member:
        return names.get(old, "")
    whole = names.get(member[1], "")
    return f"{whole}{old[len(member[1]) :]}" if whole else ""


def quoted(text: str) -> str:
    """A text as a TOML basic string."""
    escapes: dict[str, Any] = {'"': '\\"', "\\": "\\\\", "\n": "\\n", "\t": "\\t", "\r": "\\r"}
    plain = "".join(
        escapes.get(letter) or (letter if letter.isprintable() else f"\\U{ord(letter):08x}") for letter in text
    )
    return f'"{plain}"'
