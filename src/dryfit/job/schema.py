"""The tables of a job file, as pydantic models: what may be written, its kinds, defaults and a sentence each.

Required keys are checked by the reader, not here: so one wrong value does not hide what else is wrong in
its table. `schema` publishes all of it as JSON Schema, with joint kinds and studies put in from outside.
"""

import datetime
from collections.abc import Iterable, Mapping
from typing import Annotated, Any, ClassVar, Literal

from pydantic import AfterValidator, BaseModel, BeforeValidator, ConfigDict, Field, PlainValidator, WithJsonSchema

from ..lengths import LengthUnit
from ..trade.anchors import anchor_types, read_takes, type_called
from .arithmetic import ArithmeticMistake
from .model import EndForm, LineIs, Turn, When, Zones
from .names import shown
from .options import CLEARANCE, LENGTH, NOT_BELOW_0, BoardName, Each, Quantity, Within
from .tables import Many, Owned

MOST_BOARDS = 2000
LONGEST_NAME = 100
LONGEST_TIMBER = 300  # letters of a timber's name: what a merchant calls it may be copied whole
LONGEST_TEXT = 300  # letters of what is looked up or said in a sentence: what a timber or a wall is
LONGEST_NOTES = 2000  # letters of a title with its notes, and of a client: papers cut them short
NOT_NAMES = ("wall", "floor")  # bodies of their own in a meeting

Point = Annotated[list[Quantity], Field(min_length=2, max_length=2)]

# Bounds of sizes, each held wherever such a size is written: `sizes.Sizes` finds them beside the key.
LEAST_SIZE = 1.0  # of a board, any way it is measured: boards meet within 1, and thinner wood is veneer (ours)
# No board or panel is thicker; a width typed as a thickness is.
THICKNESS = Within(least=LEAST_SIZE, most=500.0, what="thickness", too_much="; across the board is its depth")
ACROSS = Within(least=LEAST_SIZE)
STOCK = Within(least=100.0, what="the stock's length")  # of the length: less is a slip of the unit
PANEL = Each((STOCK.of("a panel's length"), ACROSS.of("a panel's width")))
SHAVING = Within(least=0.0, most=20.0, what="what is planed off a face")  # planed off a side: more is a slip of the pen
FILM = Within(least=0.0, most=5.0, what="film on a face")
SANDED = FILM.of("what is sanded off a face")
SCRIBE = NOT_BELOW_0.of("scribe")
PLACE = NOT_BELOW_0.of("the place")


def one_line(text: str) -> str:
    """Refuse what cannot be printed on one line of a sheet."""
    return _within(text, LONGEST_TEXT)


def with_notes(text: str) -> str:
    """The same of what papers cut short, so that it may be long."""
    return _within(text, LONGEST_NOTES)


def _within(text: str, most: int) -> str:
    if len(text) > most:
        raise ArithmeticMistake(f"the text has {len(text)} letters", f"keep it within {most}")
    if not text.isprintable():
        raise ArithmeticMistake("the text has a line break or a character that cannot be printed", "take it out")
    return text


def a_name(text: str) -> str:
    """Refuse what would be no use as the name of a thing."""
    one_line(text)
    if not text.strip():
        raise ArithmeticMistake("the name is empty", "give it a name")
    if text != text.strip():
        raise ArithmeticMistake("the name begins or ends with a space", f"write {shown(text.strip())}")
    if len(text) > LONGEST_NAME:
        raise ArithmeticMistake("the name is too long", f"keep it under {LONGEST_NAME} characters")
    return text


def board_name(text: str) -> str:
    """Refuse also the names of bodies that are always there."""
    if text.casefold() in NOT_NAMES:
        raise ArithmeticMistake(
            f"{shown(text)} cannot be the name of a board", f"choose another: the {text.lower()} is always there"
        )
    return a_name(text)


def iso_date(value: object) -> str:
    """A date as TOML or as text."""
    if isinstance(value, datetime.date) and not isinstance(value, datetime.datetime):
        return value.isoformat()
    if isinstance(value, str):
        try:
            return datetime.date.fromisoformat(value).isoformat()
        except ValueError:
            pass
    raise ArithmeticMistake(f"{shown(value)} is not a date", "write a date as 2026-05-04")


def _turn(value: object) -> object:
    """A place in the order on the wall."""
    if value in ("first", "last") or (type(value) is int and 1 <= value <= MOST_BOARDS):
        return value
    raise ArithmeticMistake(f"{shown(value)} is no place in the order", 'write "first", "last" or a number from 1 on')


def _both(value: object) -> object:
    return {"start": value, "end": value} if isinstance(value, str) else value


def _listed(value: object) -> object:
    return value if isinstance(value, list) else [value]


def _anchor_type(text: str) -> str:
    if type_called(text) is None:
        known = ", ".join(one.name for one in anchor_types())
        raise ArithmeticMistake(f"{shown(text)} is not a type of anchor", f"write one of {known}, or other")
    return text


def _anchor_screw(text: str) -> str:
    if text and read_takes(text) is None:
        raise ArithmeticMistake(
            f"{shown(text)} is not a screw for an anchor", 'write "M6", "wood 5" or "wood 4.5 to 6"'
        )
    return text


OneLine = Annotated[str, AfterValidator(one_line)]
WithNotes = Annotated[str, AfterValidator(with_notes)]
Name = Annotated[str, AfterValidator(a_name)]
NewBoardName = Annotated[str, AfterValidator(board_name)]
Date = Annotated[str, PlainValidator(iso_date), WithJsonSchema({"type": "string", "format": "date"})]
# Where a board was measured, from the line's start, and how thick it is there.
Measured = Annotated[
    list[Quantity],
    Field(min_length=2, max_length=2),
    Each((NOT_BELOW_0.of("the distance from the line's start"), THICKNESS)),
]
Timber = Annotated[str, WithJsonSchema({"type": "string", "refers": "timber"})]
Place = Annotated[
    Turn,
    PlainValidator(_turn),
    WithJsonSchema(
        {
            "anyOf": [
                {"type": "string", "pattern": "^(first|last)$"},
                {"type": "integer", "minimum": 1, "maximum": MOST_BOARDS},
            ]
        }
    ),
]


def _one_or_list(item: dict[str, Any]) -> WithJsonSchema:
    return WithJsonSchema({"anyOf": [item, {"type": "array", "items": item}]})


class TableModel(BaseModel):
    """Base of all tables: nothing unknown, nothing turned from one kind into another.

    Attributes:
        required: keys that must be there.
        called: what a message calls such a table.
    """

    model_config = ConfigDict(
        frozen=True,
        extra="forbid",
        strict=True,
        defer_build=True,
        json_schema_extra=lambda schema, model: _publish(schema, model),
    )
    required: ClassVar[tuple[str, ...]] = ()
    called: ClassVar[str] = "this table"


def _publish(schema: dict[str, Any], model: type[BaseModel]) -> None:
    required = getattr(model, "required", ())
    if required:
        schema["required"] = list(required)
    for name in required:
        published = schema["properties"][name]
        published.pop("default", None)
        branches = [branch for branch in published.get("anyOf", []) if branch != {"type": "null"}]
        if len(branches) == 1 and "anyOf" in published:
            del published["anyOf"]
            published.update(branches[0])


class JobTable(TableModel):
    """What the whole job is called, for whom and when."""

    called = "[job]"
    title: WithNotes = Field("", description="Printed on every sheet; left out: the file's name.")
    client: WithNotes = Field("", description="For whom it is made.")
    date: Date = Field("", description="Printed on the sheets, as 2026-05-04; left out: a blank to fill in.")
    units: LengthUnit = Field("mm", description="What a bare number in this file is in.")


class TimberTable(TableModel):
    """One timber as ordered, and as it came."""

    called = "a timber"
    required = ("species", "thickness")
    species: OneLine | None = Field(None, description="Its name in the trade, such as oak, European.")
    form: OneLine = Field("board", description="Board, edge-glued panel, plywood ...")
    thickness: Annotated[Quantity, THICKNESS] | None = Field(None, description="Nominal, as ordered.")
    measured: Annotated[Quantity, THICKNESS] | None = Field(
        None, description="As measured once it is in the shop: the joints follow this."
    )
    nominal: Annotated[Quantity, THICKNESS] | None = Field(
        None, description="The thickness it is sold by, where that differs, as for stock bought sawn."
    )
    panel: Annotated[list[Quantity], Field(min_length=2, max_length=2), PANEL] | None = Field(
        None, description="Size of the panel or sheet as sold: along the grain, then across."
    )
    longest: Annotated[Quantity, STOCK] | None = Field(
        None, description="Length of the stock: longer boards are divided."
    )
    planed: bool = Field(True, description="False where the blank is bought sawn, thicker and wider, and then planed.")
    planing: Annotated[Quantity, SHAVING] | None = Field(
        None, description="What planing takes off each face and edge of such a blank; left out: 3 mm."
    )


class JointsTable(TableModel):
    """Which kind of joint for which meeting, for the whole piece; options of a kind in a table of its own."""

    called = "[joints]"
    crossing: str = Field("cross halving", description="Where two boards run through each other.")
    end_on_face: str = Field("housing", description="Where a board ends on another's face.")
    corner: str = Field("mitre", description="Where two boards end at one point.")
    in_line: str = Field(
        "splice", description="Where two boards meet end to end, in line; a butt where no splice finds room."
    )
    clearance: Annotated[Quantity, CLEARANCE] | None = Field(
        None, description="Across the walls, in all; left out: what each kind has."
    )


class FinishTable(TableModel):
    """What goes on the surface, and when."""

    called = "[finish]"
    system: OneLine = Field("", description="The finish, such as varnish, polyurethane.")
    coats: int | None = Field(None, ge=0, le=50, description="How many.")
    film: Annotated[Quantity, FILM] | None = Field(
        None, description="Dry, one coat on one face; left out: the usual figure for the finish."
    )
    sanded: Annotated[Quantity, SANDED] | None = Field(
        None, description="Taken off each face after the thickness was measured."
    )
    when: When | None = Field(
        None,
        description="When it goes on: before a board is glued, after, where the piece hangs, or never; a frame, a unit "
        "or a board may say otherwise.",
    )
    coats_before: int | None = Field(
        None, ge=0, le=50, description="Where coats go on before glue: how many do, the rest after; left out: all."
    )
    before_assembly: Annotated[
        list[str], BeforeValidator(_listed), _one_or_list({"type": "string", "refers": "board"})
    ] = Field(
        default_factory=list,
        description='An older way to say when = "before glue": the boards of which it holds, or "all".',
    )
    joint_zones: Zones = Field(
        "masked",
        description="Whether the finish goes on where boards enter one another; walls masked: on what enters alone.",
    )
    coverage: float | None = Field(
        None,
        gt=0,
        le=1000,
        description="What a litre covers in one coat, in m2, as its tin says; left out: the usual figure.",
    )


class WallTable(TableModel):
    """What the piece stands at or hangs on."""

    called = "[wall]"
    kind: OneLine = Field("", description="How the wall is built.")
    lining: Annotated[Quantity, NOT_BELOW_0] | None = Field(
        None, description="Total thickness of what hides the structure; 0 for none."
    )
    hollow: Annotated[Quantity, NOT_BELOW_0] | None = Field(
        None, description="Worst gap behind a board; 0 where it is flat."
    )
    void: Annotated[Quantity, NOT_BELOW_0] | None = Field(None, description="Free space behind the lining.")
    studs: list[Quantity] = Field(
        default_factory=list, max_length=MOST_BOARDS, description="Centres of the studs, along the wall."
    )
    hung: bool = Field(False, description="True where nothing stands on the floor.")
    left: Quantity | None = Field(None, description="Where the room ends on the left.")
    right: Quantity | None = Field(None, description="Where the room ends on the right.")
    ceiling: Annotated[Quantity, ACROSS] | None = Field(None, description="Height of the ceiling.")


class AnchorTable(TableModel):
    """One anchor, as its maker's sheet describes it."""

    called = "an anchor"
    required = ("type",)
    type: Annotated[str, AfterValidator(_anchor_type)] | None = Field(
        None, description="A generic type, such as nylon plug, hollow-wall anchor, spring toggle, sleeve; or other."
    )
    drill: Annotated[Quantity, NOT_BELOW_0] | None = Field(None, description="Diameter of its hole in the wall.")
    deep: Annotated[Quantity, NOT_BELOW_0] | None = Field(None, description="Depth of its hole in the wall.")
    clamps: Annotated[list[Quantity], Field(min_length=2, max_length=2)] | None = Field(
        None, description="The thinnest and the thickest lining that it clamps."
    )
    void: Annotated[Quantity, NOT_BELOW_0] | None = Field(
        None, description="Free space that it needs behind the lining."
    )
    screw: Annotated[str, AfterValidator(_anchor_screw)] = Field(
        "", description="The screw that it takes, in mm: M6, wood 5, wood 4.5 to 6."
    )
    length: Annotated[Quantity, NOT_BELOW_0] | None = Field(
        None, description="Length of a plug or sleeve; of a hollow-wall anchor, under its flange."
    )
    apart: Annotated[Quantity, NOT_BELOW_0] | None = Field(None, description="Least distance from one to the next.")
    pull_n: float | None = Field(None, ge=0, description="What it holds against a pull out of the wall, in newtons.")
    shear_n: float | None = Field(None, ge=0, description="What it holds along the wall, in newtons.")
    strength: Literal["working", "characteristic", "ultimate"] = Field(
        "working", description="Which kind of figure its capacities are."
    )
    source: OneLine = Field("", description="Where its capacities are published; needed with them.")


class Ends(TableModel):
    """A form for each end of a board."""

    called = "ends"
    start: EndForm | None = Field(None, description="At the line's start.")
    end: EndForm | None = Field(None, description="At the line's end.")


class Scribe(TableModel):
    """Extra left at the ends of a board."""

    called = "scribe"
    start: Annotated[Quantity, SCRIBE] | None = Field(None, description="At the line's start.")
    end: Annotated[Quantity, SCRIBE] | None = Field(None, description="At the line's end.")


_ENDS_SCHEMA = {"enum": ["square", "level", "plumb"]}


class _BoardKeys(TableModel):
    name: NewBoardName | None = Field(None, description="Its name; {i} stands for its number in a row.")
    timber: Timber | None = Field(None, description="A [timber.NAME]; left out: the only one.")
    line: Annotated[list[Point], Field(min_length=2, max_length=2)] | None = Field(
        None,
        description="From start to end: x along the wall, y up; may name places of boards, such as top('shelf 2').",
    )
    line_is: LineIs | None = Field(
        None, description="What the line is, looking from its start to its end; lying flat, a face is that side's edge."
    )
    depth: Annotated[Quantity, ACROSS] | None = Field(None, description="Across the board, out of the wall.")
    width: Annotated[Quantity, ACROSS] | None = Field(
        None, description="Across a board that lies flat on the wall: half of it on either side of a centre-line."
    )
    back: Quantity | None = Field(None, description="Where the board begins, out of the wall.")
    lies: Literal["across", "flat"] | None = Field(None, description="Across the wall, or flat against it.")
    ends: (
        Annotated[
            Ends,
            BeforeValidator(_both),
            WithJsonSchema(
                {
                    "anyOf": [
                        _ENDS_SCHEMA,
                        {
                            "type": "object",
                            "properties": {"start": _ENDS_SCHEMA, "end": _ENDS_SCHEMA},
                            "additionalProperties": False,
                        },
                    ]
                }
            ),
        ]
        | None
    ) = Field(None, description="Form of the free ends; left out: to suit what they meet, else square.")
    scribe: Scribe | None = Field(None, description="Extra left at an end to scribe to the wall.")
    thickness_at: Annotated[list[Measured], Field(min_length=1, max_length=100)] | None = Field(
        None, description="Measured: distance from the line's start, and thickness."
    )
    splice_at: Annotated[list[Quantity], Field(min_length=1, max_length=20)] | None = Field(
        None, description="Where it is divided into members, from the line's start; left out: by rule."
    )
    when: When | None = Field(None, description="When its coats go on; left out: as its unit or the finish has it.")
    place: Place | None = Field(
        None, description="In the order on the wall: first, last or a number; left out: settled. Not of a unit's board."
    )


class ExceptTable(_BoardKeys):
    """What one board of a row has otherwise."""

    called = "[[board.except]]"
    required = ("i",)
    i: int | None = Field(None, ge=1, le=MOST_BOARDS, description="Its number in the row.")
    absent: bool = Field(False, description="True leaves it out.")


class BoardTable(_BoardKeys):
    """One board, or a row of them."""

    called = "a board"
    required = ("name", "line")
    count: int | None = Field(None, ge=1, le=MOST_BOARDS, description="How many; i is 1, 2, 3 ... in arithmetic.")
    exceptions: list[ExceptTable] = Field(
        default_factory=list,
        alias="except",
        max_length=MOST_BOARDS,
        description="What differs in single boards of the row.",
    )


class FrameTable(TableModel):
    """A chain of boards with a joint at each corner."""

    called = "a frame"
    required = ("name", "points", "depth")
    name: NewBoardName | None = Field(None, description="Its name; its boards are NAME 1, NAME 2 ...")
    names: list[NewBoardName] | None = Field(None, description="Names of its boards, in the order of the points.")
    timber: (
        Annotated[list[str], BeforeValidator(_listed), _one_or_list({"type": "string", "refers": "timber"})] | None
    ) = Field(None, description="One for all, or a list, one a side.")
    points: Annotated[list[Point], Field(min_length=2, max_length=MOST_BOARDS)] | None = Field(
        None, description="Its corners in order; may name places of boards, such as right('upright 1')."
    )
    size: Literal["outside", "inside", "centre"] = Field("outside", description="What the points are corners of.")
    closed: bool = Field(True, description="Whether the last point joins the first.")
    depth: (
        Annotated[
            list[Annotated[Quantity, ACROSS]],
            BeforeValidator(_listed),
            _one_or_list({**LENGTH, **ACROSS.published()}),
        ]
        | None
    ) = Field(None, description="Out of the wall: one for all, or a list, one a side.")
    back: Annotated[list[Quantity], BeforeValidator(_listed), _one_or_list(dict(LENGTH))] | None = Field(
        None, description="Where the boards begin, out of the wall: one for all, or a list."
    )
    when: When | None = Field(None, description="When its coats go on; left out: as its unit or the finish has it.")
    place: Place | None = Field(
        None, description="In the order on the wall: first, last or a number; left out: settled. Not of a unit's frame."
    )


class JointTable(TableModel):
    """One joint, where the default is not wanted; what else it says are options of its kind."""

    model_config = ConfigDict(extra="allow")
    called = "a joint"
    required = ("between",)
    between: Annotated[list[BoardName], Field(min_length=2, max_length=2)] | None = Field(
        None, description="The two boards."
    )
    kind: str = Field("", description="Left out: the default for such a meeting.")
    front: BoardName = Field("", description="The board whose slot opens to the front; left out: settled.")


class UnitTable(TableModel):
    """Boards glued up in the shop and carried as one."""

    called = "a unit"
    required = ("name", "boards")
    name: Name | None = Field(None, description="Its name.")
    boards: Annotated[list[BoardName], Field(min_length=1, max_length=MOST_BOARDS)] | None = Field(
        None, description="Its boards; a frame's name stands for the frame's."
    )
    when: When | None = Field(None, description="When its coats go on; left out: as the finish has it.")
    place: Place | None = Field(
        None, description="In the order on the wall: first, last or a number; left out: settled."
    )
    last: bool = Field(False, description='An older way to say place = "last".')
    mass_kg: float | None = Field(
        None, gt=0, le=10_000, description="In kg, as weighed; left out: worked out, and a fifth added to be safe."
    )


class FixingTable(TableModel):
    """What holds a board to the wall; what else it says are options of its kind."""

    model_config = ConfigDict(extra="allow")
    called = "a fixing"
    required = ("board", "kind", "at")
    name: Name | None = Field(None, description="Left out: fixing of BOARD.")
    board: BoardName | None = Field(None, description="The board it holds.")
    kind: str | None = Field(None, description="The kind, such as long screw.")
    at: Annotated[list[Annotated[Quantity, PLACE]], Field(min_length=1, max_length=MOST_BOARDS)] | None = Field(
        None, description="Along the board's centre-line, from the line's start."
    )


SINGLE: dict[str, type[TableModel]] = {"job": JobTable, "finish": FinishTable, "wall": WallTable}
MANY: dict[str, type[TableModel]] = {
    "board": BoardTable,
    "frame": FrameTable,
    "joint": JointTable,
    "unit": UnitTable,
    "fixing": FixingTable,
}
NAMED: dict[str, type[TableModel]] = {"timber": TimberTable, "anchor": AnchorTable}
NAMED_TABLES = ("load",)  # tables of studies to come: read freely until a study takes them
CORE = ("dryfit", "measures", *NAMED, "joints", *SINGLE, *MANY)


def schema(
    kinds: Mapping[str, type[BaseModel]], named: Iterable[str] = (), tables: Iterable[Owned] = ()
) -> dict[str, Any]:
    """The whole job file as JSON Schema (2020-12), for editors and for the page's cards.

    Args:
        kinds: options of the joint kinds, by name.
        named: kinds that may be named and are not made yet: their options are free.
        tables: tables that studies own.
    """
    definitions: dict[str, Any] = {}

    def ref(model: type[BaseModel], name: str) -> dict[str, Any]:
        published = model.model_json_schema(ref_template="#/$defs/{model}")
        definitions.update(published.pop("$defs", {}))
        definitions[name] = published
        return {"$ref": f"#/$defs/{name}"}

    options = {kind: ref(model, f"options of {kind}") for kind, model in kinds.items()}
    options.update({kind: {"type": "object"} for kind in named if kind not in kinds})
    properties: dict[str, Any] = {
        "dryfit": {"const": 1, "description": "Version of the file format."},
        "measures": {"type": "object", "additionalProperties": LENGTH, "description": "Named dimensions."},
        "timber": {"type": "object", "additionalProperties": ref(TimberTable, "timber")},
        "anchor": {"type": "object", "additionalProperties": ref(AnchorTable, "anchor")},
        "joints": _joints_schema(ref(JointsTable, "joints"), definitions, options),
    }
    properties.update({word: ref(model, word) for word, model in SINGLE.items()})
    for word, model in MANY.items():
        item = ref(model, word)
        if word in ("joint", "fixing"):
            item = _with_options(definitions[word], kinds, options)
        properties[word] = {"type": "array", "items": item}
    for owned in tables:
        item = ref(owned.model, f"table {owned.word}")
        properties[owned.word] = {"type": "array", "items": item} if isinstance(owned, Many) else item
    for word in NAMED_TABLES:
        properties.setdefault(word, {"anyOf": [{"type": "object"}, {"type": "array", "items": {"type": "object"}}]})
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Dryfit job",
        "type": "object",
        "properties": properties,
        "additionalProperties": False,
        "$defs": definitions,
    }


def _joints_schema(ref: dict[str, Any], definitions: dict[str, Any], options: Mapping[str, Any]) -> dict[str, Any]:
    table = definitions["joints"]
    for meeting in ("crossing", "end_on_face", "corner", "in_line"):
        table["properties"][meeting] = {**table["properties"][meeting], "enum": sorted(options)}
    table["properties"].update(options)
    return ref


def _with_options(
    table: dict[str, Any], kinds: Mapping[str, type[BaseModel]], options: Mapping[str, Any]
) -> dict[str, Any]:
    """A table with `kind` and that kind's options, as a union on `kind`."""
    branches = []
    for kind in sorted(options):
        own = dict(table["properties"])
        own["kind"] = {"const": kind}
        if kind in kinds:
            own = {**kinds[kind].model_json_schema(ref_template="#/$defs/{model}").get("properties", {}), **own}
        required = sorted({*table.get("required", ()), "kind"})
        branches.append(
            {"type": "object", "properties": own, "required": required, "additionalProperties": kind not in kinds}
        )
    if "kind" not in table.get("required", ()):
        free = {name: part for name, part in table["properties"].items() if name != "kind"}
        branches.append(
            {"type": "object", "properties": free, "required": table["required"], "not": {"required": ["kind"]}}
        )
    return {"description": table.get("description", ""), "anyOf": branches}
