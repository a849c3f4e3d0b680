"""Gathering mistakes while a file is read: each with its line, what was read, and what would be right.

Lines are looked up only when there is something to report, so a sound file pays nothing for them.
"""

import types
from collections.abc import Iterable, Iterator, Mapping
from functools import cached_property
from typing import Any, Union, get_args, get_origin

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from ..errors import Mistake
from ..lengths import MM_PER, LengthUnit
from ..places import Path
from .arithmetic import ArithmeticMistake, Expression, UnknownName
from .names import SENTENCE, nearest, printable, shown
from .options import FARTHEST, Within
from .spans import Spans
from .syntax import EVERYTHING

_GUESSES = 100  # nearest names looked for in one reading; a file with more mistakes needs another kind of help


class Mistakes:
    """The mistakes of one reading, one for each place and sentence.

    Attributes:
        file: name of the file as given.
        text: its text.
        lost: first words of tables that could not be read (their absence is no further mistake).
        broken: measures that have no value because of a mistake already noted.
        units: of the job.
    """

    def __init__(self, file: str, text: str, lost: frozenset[str] = frozenset()) -> None:
        self.file = file
        self.text = text
        self.lost = lost
        self.broken: set[str] = set()
        self.units: LengthUnit = "mm"
        self._found: dict[tuple[Path, str], Mistake] = {}
        self._guesses = 0

    @cached_property
    def spans(self) -> Spans:
        """Where everything stands."""
        return Spans(self.text)

    def __bool__(self) -> bool:
        return bool(self._found)

    def sorted(self) -> tuple[Mistake, ...]:
        """All of them, in the order of the file."""
        return tuple(sorted(self._found.values(), key=lambda mistake: mistake.line))

    def add(self, path: Path, says: str, remedy: str, *, read: str | None = None) -> None:
        """Note one. `read` is what stands at `path` in the file unless it is given."""
        if self._is_told(path, says):
            return
        written = self.spans.written(path) if read is None else read
        line = self.spans.line_of(path)
        self._found[self._key(path, says)] = Mistake(
            file=self.file,
            line=line,
            path=path,
            read=printable(written),
            says=printable(says, SENTENCE),
            remedy=printable(remedy, SENTENCE),
        )

    def _key(self, path: Path, says: str) -> tuple[Path, str]:
        # Of a value one mistake is told: the boards of a row share it, each with its own figures.
        return path, says if len(path) < 3 else ""

    def _is_told(self, path: Path, says: str) -> bool:
        return self._key(path, says) in self._found

    def guess(self, word: str, known: Iterable[str]) -> str:
        """The nearest of the known words, "" for none."""
        self._guesses += 1
        return nearest(word, known) if self._guesses <= _GUESSES else ""

    def unknown(self, path: Path, says: str, word: str, known: Iterable[str], *, read: str | None = None) -> None:
        """Note a word that is not known, with the nearest that is."""
        if self._is_told(path, says):
            return
        words = list(known)
        close = self.guess(word, words)
        if close:
            remedy = f"did you mean {close}?"
        elif words:
            remedy = f"choose from: {', '.join(words[:12])}{' ...' if len(words) > 12 else ''}"
        else:
            remedy = "take it out"
        self.add(path, says, remedy, read=read)

    def is_lost(self, table: str) -> bool:
        """Whether part of a table could not be read at all."""
        return table in self.lost or EVERYTHING in self.lost

    def length(self, value: Expression, path: Path, scope: Mapping[str, float]) -> float | None:
        """Work a length out in mm; None, with the mistake noted, where that cannot be done."""
        try:
            length = value.evaluate(scope, self.units)
        except ArithmeticMistake as mistake:
            if not self._follows(value, scope) and not self._is_told(path, mistake.says):
                remedy = mistake.remedy_with(self.guess) if isinstance(mistake, UnknownName) else mistake.remedy
                self.add(path, mistake.says, remedy)
            return None
        if -FARTHEST <= length <= FARTHEST:
            return length
        self.add(path, f"this comes to {length / 1000:.6g} m", "keep lengths within 100 m")
        return None

    def _follows(self, value: Expression, scope: Mapping[str, float]) -> bool:
        """Whether it fails only because of a mistake noted elsewhere."""
        missing = [name for name in value.names if name not in scope]
        return bool(missing) and all(name in self.broken or self.is_lost("measures") for name in missing)

    def said(self, length: float) -> str:
        """A length in the job's units."""
        return f"{round(length / MM_PER[self.units], 3) + 0.0:.10g} {self.units}"

    def within(self, bounds: Within, length: float | None, path: Path, what: str) -> float | None:
        """The length, if it is within its bounds; else None, with the mistake noted."""
        if length is None:
            return None
        try:
            bounds.check(what, length, self.units)
        except ArithmeticMistake as mistake:
            self.add(path, mistake.says, mistake.remedy)
            return None
        return length

    def validated(
        self, model: type[BaseModel], data: Mapping[str, Any], path: Path, *, called: str = "", partial: bool = False
    ) -> BaseModel | None:
        """Read a table by its model; wrong keys are noted and left out, so that the rest is still looked at.

        Args:
            model: of the table.
            data: the table as TOML gives it.
            path: of the table.
            called: what a message calls it; left out: as the model says.
            partial: whether keys that must be there may stand elsewhere.
        """
        try:
            return model.model_validate(data)
        except ValidationError as error:
            details = error.errors(include_url=False)
        wrong = {str(detail["loc"][0]) for detail in details if detail["loc"]}
        for detail in details:
            if not (partial and detail["type"] == "missing" and len(detail["loc"]) == 1):
                self._explain(model, detail, path, called)
        rest = {key: value for key, value in data.items() if key not in wrong}
        try:
            return model.model_validate(rest)
        except ValidationError:
            return None

    def _explain(self, model: type[BaseModel], detail: ErrorDetails, path: Path, called: str) -> None:
        loc = detail["loc"]
        at = (*path, *loc)
        inner = model_at(model, loc[:-1])
        if detail["type"] == "extra_forbidden":
            key = str(loc[-1])
            owner = called if inner is model and called else getattr(inner, "called", called or "this table")
            self.unknown(at, f"{shown(key)} is not a key of {owner}", key, keys(inner), read=key)
            return
        at = self._written_at(at, len(path))
        named = [step for step in at[len(path) :] if isinstance(step, str)]
        key = f'"{named[-1]}"' if named else called or "this"
        says, remedy = _sentence(key if not named or at[-1] == named[-1] else f"a part of {key}", detail)
        if detail["type"] == "literal_error":
            self.unknown(at, says, str(detail["input"]), _words(detail))
        elif detail["type"] == "missing":
            self.add(at, says, remedy, read="")
        else:
            self.add(at, says, remedy, read=None if self.spans.values.get(at) else shown(detail["input"]))

    def _written_at(self, at: Path, depth: int) -> Path:
        """Where a value is written that stands for several: `ends = "level"` for a start and an end."""
        while len(at) > depth + 1 and at not in self.spans.values and self.spans.written(at[:-1])[:1] not in "[{":
            at = at[:-1]
        return at


def explained(model: type[BaseModel], error: ValidationError, called: str) -> tuple[str, str]:
    """The first thing wrong with a table that is only read once its kind is known, and what would be right."""
    detail = error.errors(include_url=False)[0]
    key = str(detail["loc"][-1]) if detail["loc"] else called
    if detail["type"] == "extra_forbidden":
        close = nearest(key, keys(model))
        return f"{called} has no option {shown(key)}", f"did you mean {close}?" if close else "take it out"
    says, remedy = _sentence(shown(key), detail)
    return says, remedy or f"write {' or '.join(_words(detail))}"


def keys(model: type[BaseModel]) -> list[str]:
    """The keys that a table of this model can have."""
    return [info.alias or name for name, info in model.model_fields.items()]


def model_at(model: type[BaseModel], loc: tuple[str | int, ...]) -> type[BaseModel]:
    """The model of the table that stands at `loc` in a table of `model`."""
    for key in loc:
        if isinstance(key, int):
            continue
        for name, info in model.model_fields.items():
            if key == (info.alias or name):
                model = next(_models(info.annotation), model)
    return model


def _models(annotation: Any) -> Iterator[type[BaseModel]]:
    if isinstance(annotation, type) and get_origin(annotation) is None and issubclass(annotation, BaseModel):
        yield annotation
    elif get_origin(annotation) in (Union, types.UnionType, list, tuple) or hasattr(annotation, "__metadata__"):
        for inner in get_args(annotation):
            yield from _models(inner)


def _words(detail: ErrorDetails) -> list[str]:
    expected = str(detail.get("ctx", {}).get("expected", ""))
    return [part for part in expected.replace(" or ", ", ").replace("'", '"').split(", ") if part]


def _sentence(said: str, detail: ErrorDetails) -> tuple[str, str]:
    """What is wrong with the thing so called, and what would be right."""
    kind, context = detail["type"], detail.get("ctx", {})
    error = context.get("error")
    if isinstance(error, ArithmeticMistake):
        return error.says, error.remedy
    if kind in _PLAIN:
        says, remedy = _PLAIN[kind]
        return f"{said} {says}", remedy
    if kind == "literal_error":
        return f"{said} has an unknown word", ""
    if kind in ("too_short", "too_long"):
        least, most = context.get("min_length"), context.get("max_length")
        wanted = f"at most {most}" if kind == "too_long" else f"at least {least}"
        found = context.get("actual_length")
        counted = "too many values" if found is None else f"{found} value{'' if found == 1 else 's'}"
        return f"{said} has {counted}", f"give it {wanted}"
    for sign, words in (("ge", "at least"), ("gt", "more than"), ("le", "at most"), ("lt", "less than")):
        if sign in context:
            return f"{said} is out of range", f"make it {words} {context[sign]:g}"
    return f"{said} cannot be used: {detail['msg'][:1].lower()}{detail['msg'][1:]}", "look up its table in the manual"


_PLAIN = {
    "missing": ("is missing", "add it"),
    "string_type": ("is not text", "put it in quotes"),
    "int_type": ("is not a whole number", "write a number without quotes, such as 2"),
    "int_from_float": ("is not a whole number", "write a number such as 2"),
    "int_parsing": ("is not a whole number", "write a number such as 2"),
    "float_type": ("is not a number", "write a number without quotes, such as 0.5"),
    "float_parsing": ("is not a number", "write a number such as 0.5"),
    "finite_number": ("is not a usable number", "write a number such as 0.5"),
    "bool_type": ("is neither true nor false", "write true or false, without quotes"),
    "bool_parsing": ("is neither true nor false", "write true or false"),
    "list_type": ("is not a list", "put it in brackets: [ ... ]"),
    "tuple_type": ("is not a list", "put it in brackets: [ ... ]"),
    "dict_type": ("is not a table", "write { key = value }"),
    "model_type": ("is not a table", "write { key = value }"),
    "model_attributes_type": ("is not a table", "write { key = value }"),
}
