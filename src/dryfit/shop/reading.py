"""Reading a shop file: what the maker owns and can hold to, the same for every job.

    dryfit = 1

    [shop]
    name  = "Bench by the window"
    trim  = 15                    # left at each end of a blank
    paper = "A3"                  # the largest sheet it prints

    [[cutter]]
    name     = "straight 12"
    diameter = 11.9               # as a test cut shows it
    length   = 50                 # of the cutting edge

Lengths are read as in a job file: a bare number in mm, or text with its unit. All mistakes are gathered.
"""

import pathlib
from typing import Annotated, Any, ClassVar, Literal

from pydantic import BaseModel, ConfigDict, Field

from ..errors import JobError, ShopError
from ..job.arithmetic import Expression
from ..job.mistakes import Mistakes
from ..job.options import Within, bound
from ..job.reading import decoded, file_bytes, not_opened
from ..job.schema import Length, Name, OneLine
from ..job.syntax import read_syntax
from ..places import Path
from .model import PRACTICE, Cutter, CutterShape, Shop

TRIM = Within(least=0.0, most=200.0)  # more is a slip of the unit, and would spoil every blank
OF_A_CUTTER = Within(above=0.0)
MOST_CUTTERS = 200


class _Table(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid")


class ShopTable(_Table):
    """The `[shop]` table."""

    called: ClassVar[str] = "[shop]"

    name: OneLine | None = Field(default=None, description="As it stands on papers.")
    trim: Annotated[Length, TRIM] | None = Field(
        default=None, description="Left at each end of a blank, to be cut off with the joint."
    )
    seconds_a_crossing: Annotated[float, Field(gt=0, le=3600)] | None = Field(
        default=None, description="Time to bring one crossing home at glue-up, in seconds."
    )
    paper: Literal["A4", "A3"] = Field(default="A4", description="The largest sheet the shop prints.")


class CutterTable(_Table):
    """One `[[cutter]]` table."""

    called: ClassVar[str] = "[[cutter]]"

    name: Name = Field(description="As written on its case.")
    diameter: Annotated[Length, OF_A_CUTTER] = Field(description="As measured in a test cut.")
    length: Annotated[Length, OF_A_CUTTER] | None = Field(default=None, description="Of its cutting edge.")
    shape: CutterShape = "straight"


class ShopFile(_Table):
    """A whole shop file; its tables are read one by one."""

    called: ClassVar[str] = "a shop file"

    dryfit: Literal[1] = Field(default=1, description="Version of the file format.")
    shop: dict[str, Any] = Field(default_factory=dict)
    cutter: list[Any] = Field(default_factory=list)


def read_shop(path: str | pathlib.Path) -> Shop:
    """Read a shop file.

    Raises:
        ShopError: it is not there, or cannot be used; holds every mistake.
    """
    name = str(path)
    try:
        text = decoded(file_bytes(path), name)
    except OSError as error:
        raise ShopError((not_opened(name, "the shop file cannot be opened", error),)) from None
    except JobError as error:
        raise ShopError(error.mistakes) from None
    return parse_shop(text, name)


def parse_shop(text: str, file: str = "shop.toml") -> Shop:
    """Read the text of a shop file.

    Raises:
        ShopError: it cannot be used; holds every mistake.
    """
    syntax = read_syntax(text, file)
    mistakes = Mistakes(file, text, syntax.lost)
    shop = _shop(syntax.data, mistakes, file)
    every = sorted((*syntax.mistakes, *mistakes.sorted()), key=lambda mistake: mistake.line)
    if every:
        raise ShopError(tuple(every))
    return shop


def _shop(data: dict[str, Any], mistakes: Mistakes, file: str) -> Shop:
    """The shop, table by table, so that one mistake does not hide the next; what will not do stays at its default."""
    outer: dict[str, Any] = {name: [] if name == "cutter" else {} for name in data if name in {"shop", "cutter"}}
    mistakes.validated(ShopFile, {**data, **outer}, (), called=ShopFile.called)
    table = _table(ShopTable, data.get("shop", {}), ("shop",), mistakes)
    values = _values(table, mistakes) if isinstance(table, ShopTable) else {}
    cutters = [
        _cutter(read, index, mistakes)
        for index, row in enumerate(_rows(data, mistakes))
        if isinstance(read := _table(CutterTable, row, ("cutter", index), mistakes), CutterTable)
    ]
    assumed = tuple(name for name in PRACTICE if name not in values)
    return Shop(**values, cutters=tuple(cutters), assumed=assumed, file=file)


def _rows(data: dict[str, Any], mistakes: Mistakes) -> list[Any]:
    """The `[[cutter]]` tables; none, with the mistake noted, where they are something else."""
    rows = data.get("cutter", [])
    if not isinstance(rows, list):
        mistakes.add(("cutter",), '"cutter" is no list of tables', "write [[cutter]]")
        return []
    if len(rows) > MOST_CUTTERS:
        mistakes.add(("cutter",), f"there are {len(rows)} cutters", f"keep to {MOST_CUTTERS}")
    names = [row.get("name") if isinstance(row, dict) else None for row in rows]
    for index, name in enumerate(names):
        if name is not None and name in names[:index]:
            mistakes.add(("cutter", index, "name"), "two cutters have this name", "name one of them otherwise")
    return rows[:MOST_CUTTERS]


def _table(model: type[BaseModel], data: object, path: Path, mistakes: Mistakes) -> BaseModel | None:
    if not isinstance(data, dict):
        mistakes.add(path, f'"{path[0]}" is no table', f"write [{path[0]}]")
        return None
    return mistakes.validated(model, data, path)


def _values(table: ShopTable, mistakes: Mistakes) -> dict[str, Any]:
    """What the `[shop]` table says, by the names of `Shop`."""
    values: dict[str, Any] = {"paper": table.paper}
    if table.name is not None:
        values["name"] = table.name
    if table.seconds_a_crossing is not None:
        values["seconds_a_crossing"] = table.seconds_a_crossing
    if table.trim is not None:
        path = ("shop", "trim")
        trim = mistakes.within(bound(ShopTable, "trim"), mistakes.length(table.trim, path, {}), path, "trim")
        if trim is not None:
            values["trim"] = trim
    return values


def _cutter(table: CutterTable, index: int, mistakes: Mistakes) -> Cutter:
    def more_than_nothing(length: Expression | None, key: str) -> float | None:
        path = ("cutter", index, key)
        if length is None:
            return None
        return mistakes.within(bound(CutterTable, key), mistakes.length(length, path, {}), path, f"the {key}")

    return Cutter(
        name=table.name,
        diameter=more_than_nothing(table.diameter, "diameter") or 0.0,
        length=more_than_nothing(table.length, "length"),
        shape=table.shape,
    )
