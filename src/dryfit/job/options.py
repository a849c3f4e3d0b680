"""Options of joint kinds: a pydantic model each, whose lengths may be arithmetic.

    class HousingOptions(Options):
        depth: Quantity = Field("t_b / 3", description="How deep the end goes in.")
        stop: Annotated[Quantity, Within(least=0)] = Field(12.0, description="...")
        ratio: float = Field(0.5, gt=0, lt=1, description="...")

A maker's number or text is in the job's units; a default is in mm. A `Quantity` may use the measures and,
of the meeting at hand, `t_a`, `t_b` and `overlap`; `evaluated` gives the same model with plain floats, so
that a kind's sums see nothing of all this.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Annotated, Any, TypeAlias, TypeVar, get_args

from pydantic import BaseModel, ConfigDict, GetJsonSchemaHandler, PlainValidator, WithJsonSchema
from pydantic_core import CoreSchema

from ..lengths import CONVERSION_DECIMALS, MM_PER, LengthUnit, figure, rounded_to
from .arithmetic import ArithmeticMistake, Expression, number, parse
from .names import shown

FARTHEST = 100_000.0  # 100 m: no piece and no room is larger
FINE = 0.001  # a figure of a bound is told to so much

ModelT = TypeVar("ModelT", bound=BaseModel)


class Options(BaseModel):
    """Base of the options of a joint kind, and of a study's tables and levers."""

    model_config = ConfigDict(frozen=True, extra="forbid", defer_build=True)


OptionsT = TypeVar("OptionsT", bound=Options)


def given(options: Options, name: str) -> bool:
    """Whether the job says it, of an option that may be left out: what its kind works out stays not given."""
    return name in options.model_fields_set


def filled(options: OptionsT, **worked: object) -> OptionsT:
    """The same options, those that are left out as `worked` has them; these do not count as `given`."""
    fields = type(options).model_fields
    left = {name: value for name, value in worked.items() if getattr(options, name) == fields[name].default != value}
    return _filled(options, frozenset(options.model_fields_set), tuple(left.items())) if left else options


@lru_cache(maxsize=4096)  # most joints of a piece are made as all others of their kind
def _filled(options: OptionsT, said: frozenset[str], left: tuple[tuple[str, object], ...]) -> OptionsT:
    return type(options).model_construct(_fields_set=set(said), **{**values_of(options), **dict(left)})


def values_of(options: BaseModel) -> dict[str, Any]:
    """The options by name; `dict` will not do, since it takes an option called `keys` for its own."""
    return {name: getattr(options, name) for name in type(options).model_fields}


def in_mm(length: float) -> str:
    """A length in mm as a maker would write it, whatever the job's units: for what is asked for in a maker's stead."""
    return f"{length:.{CONVERSION_DECIMALS}f} mm"


def to_expression(value: object) -> Expression:
    """Read what a maker wrote for a length.

    Raises:
        ArithmeticMistake: it is neither a number nor arithmetic.
    """
    if isinstance(value, Expression):
        return value
    if isinstance(value, str):
        return parse(value)
    if isinstance(value, (int, float)) and not isinstance(value, bool):
        return number(value)
    raise ArithmeticMistake(f"{shown(value)} is not a length", 'write a number, or text such as "width / 2"')


# As the schema has a length, by itself or in a list.
LENGTH: Mapping[str, Any] = {"anyOf": [{"type": "number"}, {"type": "string"}], "unit": "mm", "arithmetic": True}
# For a type checker a float, which it is once `evaluated`; in between it holds an Expression.
Quantity = Annotated[float, PlainValidator(to_expression), WithJsonSchema(dict(LENGTH))]
# The name of a board: renamed with it, and found by "who uses this".
BoardName = Annotated[str, WithJsonSchema({"type": "string", "refers": "board"})]
OTHER = "table"  # what the name of another table refers to


def other_name(*words: str) -> WithJsonSchema:
    """For a text that names another table `[[word]]`: renamed with it, and told where that is taken out."""
    return WithJsonSchema({"type": "string", "refers": OTHER, "of": list(words)})


@dataclass(frozen=True, slots=True, kw_only=True)
class Within:
    """Bounds in mm for a `Quantity`, held when it is worked out: `Annotated[Quantity, Within(least=0)]`.

    Attributes:
        least, most: the bounds themselves are allowed.
        above: a bound that is not allowed itself.
        what: the length is called where it is refused; "" by its key.
        too_much: what is added to the remedy of one above `most`.
    """

    least: float | None = None
    most: float | None = None
    above: float | None = None
    what: str = ""
    too_much: str = ""

    def of(self, what: str) -> "Within":
        """The same bounds of a length with a name of its own."""
        return replace(self, what=what)

    def check(self, name: str, value: float, units: LengthUnit = "mm") -> None:
        """Raise an ArithmeticMistake if `value` is out of bounds."""
        if self.least is not None and value < self.least:
            limit = f"make it at least {_said(self.least, units, '+')}"
        elif self.above is not None and value <= self.above:
            limit = f"make it more than {_said(self.above, units, '+')}"
        elif self.most is not None and value > self.most:
            limit = f"make it at most {_said(self.most, units, '-')}{self.too_much}"
        else:
            return
        raise ArithmeticMistake(f"{self.what or name} comes to {_said(value, units)}", limit)

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        """Give the bounds to the number branch of the schema."""
        return {**handler(schema), **self.published()}

    def published(self) -> dict[str, Any]:
        """The bounds as the schema has them, in mm whatever the job's units."""
        bounds = {"minimum": self.least, "exclusiveMinimum": self.above, "maximum": self.most}
        return {"within": {key: bound for key, bound in bounds.items() if bound is not None}}


def _said(length: float, units: LengthUnit, way: str = "") -> str:
    """A length in words; a bound rounded to its right side (`way`), what would read as 0 as it is."""
    value = length / MM_PER[units]
    if value and abs(value) < FINE:
        return f"{value:.3g} {units}"
    return f"{figure(rounded_to(value, FINE, way), FINE)} {units}"


@dataclass(frozen=True, slots=True)
class Each:
    """Bounds of the lengths of a list, each its own, in their order."""

    of: tuple[Within, ...]


Bounds: TypeAlias = Within | Each | None


# What holds for one option wherever it is written: under [joints], a kind, a joint, or typed on the page.
CLEARANCE = Within(least=0.0, most=5.0)  # of one board in another: with more of it nothing is held (ours)
WORKED = Within(least=0.5)  # what is bored, grooved or let in: no drill or cutter of the trade is finer (ours)
NOT_BELOW_0 = Within(least=0.0)


@lru_cache(maxsize=256)
def quantities(model: type[BaseModel]) -> Mapping[str, Bounds]:
    """The fields of a model that are lengths (or may be, or lists of lengths), each with its bounds."""
    found: dict[str, Bounds] = {}
    for name, info in model.model_fields.items():
        parts = [*info.metadata, *_metadata(info.annotation)]
        if any(isinstance(part, PlainValidator) and part.func is to_expression for part in parts):
            found[name] = next((part for part in parts if isinstance(part, (Within, Each))), None)
    return found


def _metadata(annotation: Any) -> Iterator[Any]:
    """All that `Annotated` says in an annotation, however deep."""
    yield from getattr(annotation, "__metadata__", ())
    for inner in get_args(annotation):
        yield from _metadata(inner)


@lru_cache(maxsize=256)
def references(model: type[BaseModel]) -> tuple[str, ...]:
    """The fields of a model that hold the name of a board (or a list of names)."""
    properties = model.model_json_schema().get("properties", {})
    return tuple(name for name, schema in properties.items() if _refers(schema))


def _refers(schema: object) -> bool:
    if isinstance(schema, dict):
        return schema.get("refers") == "board" or any(_refers(part) for part in schema.values())
    return isinstance(schema, list) and any(_refers(part) for part in schema)


def evaluated(options: ModelT, scope: Mapping[str, float], units: LengthUnit = "mm") -> ModelT:
    """The same options with every length as a float in mm.

    Args:
        options: as validated.
        scope: measures in mm, and `t_a`, `t_b`, `overlap` of the meeting.
        units: of the job, for what the maker wrote; defaults are in mm.

    Raises:
        ArithmeticMistake: a length that cannot be worked out or is out of bounds.
    """
    names, lengths = _plan(options)
    if not lengths:
        return options
    try:
        values = tuple([(name, scope[name]) for name in names])
    except KeyError:
        return worked_out(options, scope, units)  # raises, with the nearest of all names in the scope
    result: ModelT = _kept(options, values, units)
    return result


def worked_out(options: ModelT, scope: Mapping[str, float], units: LengthUnit) -> ModelT:
    """As `evaluated`, with nothing kept: of a table that is read once, and may hold what has no hash."""
    _, lengths = _planned(options)
    fields = values_of(options)
    for name, own_units in lengths:
        within = quantities(type(options))[name]
        fields[name] = _length(name, fields[name], scope, own_units or units, within)
    return type(options).model_construct(_fields_set=set(options.model_fields_set), **fields)


def _planned(options: BaseModel) -> tuple[tuple[str, ...], tuple[tuple[str, LengthUnit | None], ...]]:
    """The names its lengths use; and the fields with lengths to work out, None where the job's units hold."""
    names: dict[str, None] = {}
    lengths: list[tuple[str, LengthUnit | None]] = []
    for field in quantities(type(options)):
        used = _names(getattr(options, field))
        if used is not None:
            names |= dict.fromkeys(used)
            lengths.append((field, None if field in options.model_fields_set else "mm"))
    return tuple(names), tuple(lengths)


_plan = lru_cache(maxsize=4096)(_planned)


def _names(value: object) -> tuple[str, ...] | None:
    """The names a length uses; None where there is nothing to work out."""
    if isinstance(value, str):  # a default, which pydantic does not validate
        value = parse(value)
    if isinstance(value, Expression):
        return value.names
    if isinstance(value, tuple):
        return tuple(name for part in value for name in _names(part) or ())
    return None


@lru_cache(maxsize=4096)
def _kept(options: BaseModel, values: tuple[tuple[str, float], ...], units: LengthUnit) -> Any:
    return worked_out(options, dict(values), units)


def _length(name: str, value: object, scope: Mapping[str, float], units: LengthUnit, within: Bounds) -> object:
    if isinstance(value, tuple):
        own = within.of if isinstance(within, Each) else (within,) * len(value)
        return tuple(_length(name, part, scope, units, bounds) for part, bounds in zip(value, own, strict=True))
    if isinstance(value, str):
        value = parse(value)
    length = value.evaluate(scope, units) if isinstance(value, Expression) else value
    if isinstance(length, (int, float)):
        if not -FARTHEST <= length <= FARTHEST:
            raise ArithmeticMistake(f"{name} comes to {length / 1000:.6g} m", "keep lengths within 100 m")
        if isinstance(within, Within):
            within.check(name, length, units)
    return length
