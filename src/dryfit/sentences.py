"""Sentences as values: what is said, with its lengths, angles and names still in it, told in words only at the edge.

    told = say("{} shows at {}", Length(3.04), Name("shelf"))
    told.said(Voice("mm"))                                  # "3 shows at shelf"
    told.said(Voice("in", {"shelf": "A"}))                  # "1/8 in shows at A"

Whoever knows a fact says it once; the terminal, the page, the papers and book.json each make text of it with a
`Voice` of their own. So nothing takes a sentence apart again: names are renamed in the value, alike sentences
are found by comparing values, and a board called "left" or "end" changes no other word.
"""

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from enum import Enum
from functools import lru_cache
from types import MappingProxyType
from typing import TypeAlias

from .lengths import MM_PER, LengthUnit, figure, inches

NO_NAMES: Mapping[str, str] = MappingProxyType({})
VOWELS = "aeiou"
HISSING = ("ch", "sh", "s", "x", "z")  # after these a plural has -es
FRACTION = 64  # parts of an inch on a rule


class Fineness(Enum):
    """To what a length is told: the finest that is set or read where it is used.

    Attributes:
        mm: step in mm.
        decimals: of an inch; None where inches are told in fractions, as a rule has them.
    """

    WHOLE = (1.0, None)
    PLACE = (0.1, None)
    WIDTH = (0.05, 3)
    FINE = (0.01, 3)

    def __init__(self, mm: float, decimals: int | None) -> None:
        self.mm = mm
        self.decimals = decimals

    def size(self, units: LengthUnit) -> float:
        """In mm, where lengths are told in these units: of inches a part of 64, or of a decimal."""
        if units == "mm":
            return self.mm
        return MM_PER["in"] / (FRACTION if self.decimals is None else 10**self.decimals)


class On(Enum):
    """To which side of itself a figure is rounded: a limit must not be told from its wrong side."""

    NEAREST = 0
    UP = 1  # what something must be at least
    DOWN = -1  # what it may be at most


@dataclass(frozen=True, slots=True)
class Voice:
    """How a sentence is told.

    Attributes:
        units: of its lengths.
        names: what boards and joints are called here, by their name in the job; by that name where it is not in it.
        bare: whether inches are told without their unit, where the head of a table has it.
    """

    units: LengthUnit = "mm"
    names: Mapping[str, str] = field(default_factory=lambda: NO_NAMES)
    bare: bool = False


@dataclass(frozen=True, slots=True)
class Length:
    """A length in mm, told to a step; on one side of itself where it is a limit."""

    mm: float
    step: Fineness = Fineness.PLACE
    side: On = On.NEAREST

    def said(self, voice: Voice) -> str:
        """The plain figure in mm; inches with their unit, unless that stands elsewhere."""
        if voice.units == "mm":
            return figure(on_its_side(self.mm, self.step.mm, self.side), self.step.mm)
        unit = "" if voice.bare else " in"
        if self.step.decimals is None:
            step = MM_PER["in"] / FRACTION
            return f"{inches(on_its_side(self.mm, step, self.side), FRACTION)}{unit}"
        step = MM_PER["in"] / 10**self.step.decimals
        return f"{on_its_side(self.mm, step, self.side) / MM_PER['in'] + 0.0:.{self.step.decimals}f}{unit}"


SLACK = 1e-6  # of a step: a figure this near to one is that one, whatever a float's last bit says


def on_its_side(value: float, step: float, side: On) -> float:
    """A figure moved to the multiple of its step that lies on its side; as it is where any side will do."""
    match side:
        case On.NEAREST:
            return value
        case On.UP:
            return math.ceil(value / step - SLACK) * step
        case On.DOWN:
            return math.floor(value / step + SLACK) * step


HUNDREDTH = 0.01  # degrees, to which every angle is told: over 300 it is 0.05, what a rule can tell


@dataclass(frozen=True, slots=True)
class Angle:
    """An angle in degrees, told to its hundredths: 8.326 is 8.33, never the nearest mark of some scale."""

    degrees: float

    def said(self, voice: Voice) -> str:
        """The figure with its sign."""
        return f"{figure(self.degrees, HUNDREDTH)}°"


@dataclass(frozen=True, slots=True)
class Count:
    """So many of a thing: "1 slot", "3 slots", "2 notches"; `many` where a plural is made otherwise."""

    number: int
    one: str
    many: str = ""

    def said(self, voice: Voice) -> str:
        """The number and the noun that suits it."""
        return f"{self.number:,} {self.one if self.number == 1 else self.many or plural(self.one)}"


KG_PER_LB = 0.45359237  # international agreement of 1959


@dataclass(frozen=True, slots=True)
class Mass:
    """A mass, told to 0.1 kg below ten and to whole kilograms from there on; in pounds where lengths are in inches."""

    kg: float

    def said(self, voice: Voice) -> str:
        """The figure with its unit."""
        value, unit = (self.kg, "kg") if voice.units == "mm" else (self.kg / KG_PER_LB, "lb")
        return f"{figure(value, 0.1 if abs(value) < 10 else 1.0)} {unit}"


@dataclass(frozen=True, slots=True)
class Name:
    """The name of a board, a fixing, a unit: the only place where a name stands in a sentence."""

    of: str

    def said(self, voice: Voice) -> str:
        """What it is called where it is told."""
        return voice.names.get(self.of, self.of)


@dataclass(frozen=True, slots=True)
class Several:
    """Things one after the other: "a, b and c"; `last` stands between the last two, `apart` between the others."""

    items: "tuple[Value, ...]"
    last: str = " and "
    apart: str = ", "

    def said(self, voice: Voice) -> str:
        """The items in words."""
        told = [_told(item, voice) for item in self.items]
        return self.last.join([self.apart.join(told[:-1]), told[-1]]) if len(told) > 1 else "".join(told)


@dataclass(frozen=True, slots=True)
class Sentence:
    """What is said: a form with a pair of braces for each value.

    Attributes:
        form: a constant of the code: words of ours, never a name and never a figure that was worked out.
        values: what stands in the braces, in order; a plain string is a word of the trade.
    """

    form: str
    values: "tuple[Value, ...]" = ()

    def __post_init__(self) -> None:
        assert len(_pieces(self.form)) == len(self.values) + 1, f"{self.form!r} has not {len(self.values)} braces"

    def __str__(self) -> str:
        """In mm, by the names of the job: for a log, and for a test."""
        return self.said(Voice())

    def said(self, voice: Voice) -> str:
        """The words, as this voice tells them."""
        pieces = _pieces(self.form)
        text = pieces[0]
        for value, piece in zip(self.values, pieces[1:], strict=True):
            text += _told(value, voice) + piece
        return text

    @property
    def parts(self) -> "Iterator[Value]":
        """Its words and the values between them, in their order."""
        first, *rest = _pieces(self.form)
        yield first
        for value, piece in zip(self.values, rest, strict=True):
            yield value
            yield piece

    @property
    def names(self) -> tuple[str, ...]:
        """What it names, each once, in the order in which it does."""
        return tuple(dict.fromkeys(name for value in self.values for name in _names(value)))

    def renamed(self, name: Callable[[str], str]) -> "Sentence":
        """The same sentence of things called otherwise."""
        return replace(self, values=tuple(_renamed(value, name) for value in self.values))

    def alike(self) -> "Sentence":
        """The sentence without its names: equal for all that say the same of other things."""
        return self.renamed(lambda _: "")


Value: TypeAlias = Length | Angle | Count | Mass | Name | Several | Sentence | str
Words: TypeAlias = Sentence | str  # a plain string: a sentence in which nothing is to be told otherwise


def few(items: Sequence[Value], most: int, last: str = " and ") -> Several:
    """The first so many of things, and how many more there are; `last` stands before the last where all are told."""
    if len(items) <= most:
        return Several(tuple(items), last)
    return Several((*items[:most], Count(len(items) - most, "more", "more")))


def say(form: str, *values: Value) -> Sentence:
    """A sentence of a form and what stands in its braces."""
    return Sentence(form, values)


def told(words: Words, voice: Voice) -> str:
    """A sentence as a voice tells it."""
    return words if isinstance(words, str) else words.said(voice)


def renamed(words: Words, name: Callable[[str], str]) -> Words:
    """A sentence of things called otherwise."""
    return words if isinstance(words, str) else words.renamed(name)


def as_printed(words: Words, voice: Voice) -> Words:
    """A sentence with its figures as they are told, and its names still names: what prints alike is equal."""
    if isinstance(words, str):
        return words
    return replace(words, values=tuple(_printed(value, voice) for value in words.values))


def names_in(words: Words) -> tuple[str, ...]:
    """What a sentence names, each once, in order."""
    return () if isinstance(words, str) else words.names


def a(word: str) -> str:
    """A word of the trade with its article: "a slot", "an open notch"; what is plural has none: "pins in slots"."""
    if plural(word) == word:
        return word
    heard = word[:1].lower() in VOWELS and not word.lower().startswith("uni")  # a unit: its first sound is that of you
    return f"an {word}" if heard else f"a {word}"


def plural(word: str) -> str:
    """More than one of a thing: "slots", "notches", "boxes"; what is plural already stays."""
    if word.endswith("s") and not word.endswith("ss"):
        return word
    return f"{word}es" if word.endswith(HISSING) else f"{word}s"


@lru_cache(maxsize=4096)
def _pieces(form: str) -> tuple[str, ...]:
    return tuple(form.split("{}"))


def _told(value: Value, voice: Voice) -> str:
    return value if isinstance(value, str) else value.said(voice)


def _names(value: Value) -> tuple[str, ...]:
    match value:
        case Name(of):
            return (of,)
        case Several(items):
            return tuple(name for item in items for name in _names(item))
        case Sentence():
            return value.names
        case _:
            return ()


def _printed(value: Value, voice: Voice) -> Value:
    match value:
        case Name() | str():
            return value
        case Several(items, last, apart):
            return Several(tuple(_printed(item, voice) for item in items), last, apart)
        case Sentence():
            return replace(value, values=tuple(_printed(item, voice) for item in value.values))
        case _:
            return value.said(voice)


def _renamed(value: Value, name: Callable[[str], str]) -> Value:
    match value:
        case Name(of):
            return Name(name(of))
        case Several(items, last, apart):
            return Several(tuple(_renamed(item, name) for item in items), last, apart)
        case Sentence():
            return value.renamed(name)
        case _:
            return value
