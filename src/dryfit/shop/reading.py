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

Tools stand in tables of their own ([[router]], [[cutter]], [[saw]], [[groover]], [[drill]], [[bit]], [[driver]]). Of a
sort that has one, these are all there are; of any other, what a small shop commonly has is assumed. Driver bits that
reach no screw's head are to be bought.

Lengths are read as in a job file: a bare number in mm, or text with its unit. All mistakes are gathered.
"""

import pathlib
from collections.abc import Mapping
from types import MappingProxyType
from typing import Annotated, Any, ClassVar, Literal

from pydantic import BaseModel, ConfigDict, Field

from ..errors import JobError, ShopError
from ..job.mistakes import Mistakes
from ..job.options import Quantity, Within, quantities
from ..job.reading import decoded, file_bytes, not_opened
from ..job.schema import Name, OneLine
from ..job.sizes import Sizes
from ..job.syntax import read_syntax
from ..places import Path
from .model import PRACTICE, Bit, Cutter, CutterShape, Drill, Driver, Groover, Router, Saw, Shop

TRIM = Within(least=0.0, most=200.0)  # more is a slip of the unit, and would spoil every blank
WIDE = Within(above=0.0, most=200.0)  # across a tool, and how far it goes: more is a slip of the unit
LONG = Within(above=0.0, most=2000.0)  # of a bit or a cutter, whole
ROUGH = Within(above=0.0, most=5.0)  # that a rough cut leaves
FROM_0 = Within(least=0.0, most=200.0)
SIDEWAYS = Within(least=-20.0, most=20.0)  # of a saw after 100: with more it is not sawing where it is led
MOST_TOOLS = 200  # of one sort


class _Table(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid", defer_build=True)


class ShopTable(_Table):
    """The `[shop]` table."""

    called: ClassVar[str] = "[shop]"

    name: OneLine | None = Field(default=None, description="As it is printed on the papers.")
    trim: Annotated[Quantity, TRIM] | None = Field(
        default=None, description="Left at each end of a blank, to be cut off with the joint."
    )
    trim_edge: Annotated[Quantity, TRIM] | None = Field(
        default=None, description="Left at each edge of what is ordered, to be ripped off before marking out."
    )
    spare_boards: Annotated[int, Field(ge=0, le=20)] = Field(
        default=0, description="Spares ordered of each timber, as long as its longest piece."
    )
    seconds_a_crossing: Annotated[float, Field(gt=0, le=3600)] | None = Field(
        default=None, description="Time to bring one crossing home at glue-up, in seconds."
    )
    seconds_to_spread: Annotated[float, Field(gt=0, le=3600)] | None = Field(
        default=None, description="Time to spread one side of a joint up to 300 mm long with glue, in seconds."
    )
    seconds_a_clamp: Annotated[float, Field(gt=0, le=3600)] | None = Field(
        default=None, description="Time to set one clamp with its cauls, in seconds."
    )
    paper: Literal["A4", "A3", "Letter"] = Field(
        default="A4",
        description='The largest sheet the shop prints. "Letter" is 8 1/2 by 11 inches; full size is laid out for it.',
    )


class _ToolTable(_Table):
    name: Name = Field(description="As written on it, or on its case.")


class RouterTable(_ToolTable):
    """One `[[router]]`."""

    called: ClassVar[str] = "[[router]]"

    offsets: Annotated[list[Annotated[Quantity, WIDE]], Field(min_length=2, max_length=2), WIDE] | None = Field(
        default=None,
        description="From two opposite edges of its base to the nearer side of a groove, as a test cut shows.",
    )
    nose: Annotated[Quantity, FROM_0] | None = Field(default=None, description="From base to collet at full plunge.")
    reach: Annotated[Quantity, WIDE] | None = Field(
        default=None,
        description="The farthest that a cutter may stand out below the base; left out: as far as the cutter allows.",
    )
    collets: Annotated[list[Annotated[Quantity, WIDE]], Field(max_length=20), WIDE] | None = Field(
        default=None, description="Diameters of the shanks it takes; left out: any."
    )


class CutterTable(_ToolTable):
    """One `[[cutter]]` of a router."""

    called: ClassVar[str] = "[[cutter]]"

    diameter: Annotated[Quantity, WIDE] = Field(
        description="As measured in a test cut; of a dovetail cutter at its widest."
    )
    length: Annotated[Quantity, LONG] | None = Field(
        default=None, description="Of its cutting edge; a dovetail cutter's height."
    )
    shape: CutterShape = Field(default="straight", description="Of its edge.")
    shank: Annotated[Quantity, WIDE] | None = Field(default=None, description="Diameter of its shank.")
    overall: Annotated[Quantity, LONG] | None = Field(
        default=None, description="Its whole length; left out: it reaches no deeper than its edge is long."
    )
    stick_out: Annotated[Quantity, WIDE] | None = Field(
        default=None, description="How far it stands out below the base at the most, where you measured it."
    )
    slope: Annotated[float, Field(ge=0, le=60)] | None = Field(
        default=None, description="Of a dovetail cutter's flanks off its axis, in degrees."
    )
    bearing: Annotated[Quantity, WIDE] | None = Field(default=None, description="Diameter of its bearing.")


class SawTable(_ToolTable):
    """One `[[saw]]`."""

    called: ClassVar[str] = "[[saw]]"

    kerf: Annotated[Quantity, WIDE] | None = Field(default=None, description="As measured.")
    depth: Annotated[Quantity, LONG] | None = Field(default=None, description="How deep it cuts, along its blade.")
    tilt: Annotated[float, Field(ge=0, le=90)] | None = Field(
        default=None, description="How far its blade or sole tilts, in degrees."
    )
    drift: Annotated[Quantity, SIDEWAYS] | None = Field(
        default=None, description="Sideways after 100 of a trial cut, to the right above 0."
    )
    lean: Annotated[Quantity, SIDEWAYS] | None = Field(
        default=None, description="Of the under face against the upper one in that cut, to the right above 0."
    )
    leaves: Annotated[Quantity, ROUGH] | None = Field(
        default=None, description="What a rough cut leaves on a wall at least."
    )


class GrooverTable(_ToolTable):
    """One `[[groover]]`."""

    called: ClassVar[str] = "[[groover]]"

    diameter: Annotated[Quantity, WIDE] | None = Field(default=None, description="Of its circular cutter.")
    kerf: Annotated[Quantity, WIDE] | None = Field(default=None, description="Of its cutter, as measured.")
    plunge: Annotated[Quantity, WIDE] | None = Field(
        default=None, description="As deep as it goes, less the plate between its fence and the wood."
    )


class DrillTable(_ToolTable):
    """One `[[drill]]`."""

    called: ClassVar[str] = "[[drill]]"

    chuck: Annotated[Quantity, WIDE] | None = Field(
        default=None, description="How much of a bit is in the chuck and clear of the mouth."
    )
    axis: Annotated[Quantity, WIDE] | None = Field(
        default=None,
        description="How high its axis stands over the bench as it lies on its side.",
    )


class BitTable(_ToolTable):
    """One `[[bit]]`, plain or for counterbores."""

    called: ClassVar[str] = "[[bit]]"

    diameter: Annotated[Quantity, WIDE] = Field(description="As measured in a test hole.")
    length: Annotated[Quantity, LONG] = Field(description="Its whole length, with any extension on it.")


class DriverTable(_ToolTable):
    """One `[[driver]]`: a driver bit for screws."""

    called: ClassVar[str] = "[[driver]]"

    length: Annotated[Quantity, LONG] = Field(description="Its whole length, with any extension on it.")
    head: Annotated[Quantity, WIDE] | None = Field(
        None, description="Of an angle driver: how high its head stands over the bit's end; left out: a drill takes it."
    )


# What each sort of tool is read by, what it makes, and where in a shop its kind stands.
TOOLS: Mapping[str, tuple[type[_ToolTable], type[Any], str]] = MappingProxyType(
    {
        "router": (RouterTable, Router, "routers"),
        "cutter": (CutterTable, Cutter, "cutters"),
        "saw": (SawTable, Saw, "saws"),
        "groover": (GrooverTable, Groover, "groovers"),
        "drill": (DrillTable, Drill, "drills"),
        "bit": (BitTable, Bit, "bits"),
        "driver": (DriverTable, Driver, "drivers"),
    }
)


class ShopFile(_Table):
    """A whole shop file; its tables are read one by one."""

    called: ClassVar[str] = "a shop file"

    dryfit: Literal[1] = Field(default=1, description="Version of the file format.")
    shop: dict[str, Any] = Field(default_factory=dict)
    router: list[Any] = Field(default_factory=list)
    cutter: list[Any] = Field(default_factory=list)
    saw: list[Any] = Field(default_factory=list)
    groover: list[Any] = Field(default_factory=list)
    drill: list[Any] = Field(default_factory=list)
    bit: list[Any] = Field(default_factory=list)
    driver: list[Any] = Field(default_factory=list)


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
    outer: dict[str, Any] = {name: [] for name in data if name in TOOLS} | ({"shop": {}} if "shop" in data else {})
    mistakes.validated(ShopFile, {**data, **outer}, (), called=ShopFile.called)
    table = _table(ShopTable, data.get("shop", {}), ("shop",), mistakes)
    values = _values(table, mistakes) if isinstance(table, ShopTable) else {}
    tools: dict[str, Any] = {into: _tools(data, word, mistakes) for word, (_, _, into) in TOOLS.items()}
    assumed = tuple(name for name in PRACTICE if name not in values)
    return Shop(**values, **tools, assumed=assumed, file=file)


def _tools(data: dict[str, Any], word: str, mistakes: Mistakes) -> tuple[Any, ...]:
    """All tools of one sort that can be read."""
    model, made, _ = TOOLS[word]
    read = (
        (index, _table(model, row, (word, index), mistakes)) for index, row in enumerate(_rows(data, word, mistakes))
    )
    found = (_tool(table, made, (word, index), mistakes) for index, table in read if table is not None)
    return tuple(tool for tool in found if tool is not None)


def _rows(data: dict[str, Any], word: str, mistakes: Mistakes) -> list[Any]:
    """The tables of one sort of tool; none, with the mistake noted, where they are something else."""
    rows = data.get(word, [])
    if not isinstance(rows, list):
        mistakes.add((word,), f'"{word}" is not a list of tables', f"write [[{word}]]")
        return []
    if len(rows) > MOST_TOOLS:
        mistakes.add((word,), f"there are {len(rows)} {word}s", f"keep to {MOST_TOOLS}")
    names = [row.get("name") if isinstance(row, dict) else None for row in rows]
    for index, name in enumerate(names):
        if name is not None and name in names[:index]:
            mistakes.add((word, index, "name"), f"two {word}s have this name", "rename one of them")
    return rows[:MOST_TOOLS]


def _table(model: type[BaseModel], data: object, path: Path, mistakes: Mistakes) -> BaseModel | None:
    if not isinstance(data, dict):
        mistakes.add(path, f'"{path[0]}" is not a table', f"write [{path[0]}]")
        return None
    return mistakes.validated(model, data, path)


def _values(table: ShopTable, mistakes: Mistakes) -> dict[str, Any]:
    """What the `[shop]` table says, by the names of `Shop`."""
    values: dict[str, Any] = {"paper": table.paper, "spare_boards": table.spare_boards}
    if table.name is not None:
        values["name"] = table.name
    for pace in ("seconds_a_crossing", "seconds_to_spread", "seconds_a_clamp"):
        if getattr(table, pace) is not None:
            values[pace] = getattr(table, pace)
    sizes = Sizes(table, ("shop",), {}, mistakes)
    trims = {key: sizes.of(key) for key in ("trim", "trim_edge")}
    return values | {key: size for key, size in trims.items() if size is not None}


def _tool(table: BaseModel, made: type[Any], path: Path, mistakes: Mistakes) -> Any | None:
    """A tool with its lengths in mm; None where one will not do, which is noted."""
    sizes = Sizes(table, path, {}, mistakes)
    said = {key: getattr(table, key) for key in type(table).model_fields if getattr(table, key) is not None}
    values = {key: _sized(sizes.of(key)) if key in quantities(type(table)) else value for key, value in said.items()}
    if any(value is None or (isinstance(value, tuple) and None in value) for value in values.values()):
        return None
    return made(**values)


def _sized(size: Any) -> Any:
    """A length, or a list of them, as a tool holds it."""
    return tuple(size) if isinstance(size, list) else size
