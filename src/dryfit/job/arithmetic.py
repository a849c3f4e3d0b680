"""Arithmetic in a job file: `"width / 4"`, `"23 5/8 in"`, `"i * bay + height * tan(9)"`.

A text is read once into an immutable `Expression` and kept; working it out is a short loop over its steps.
The sums are done in the job's units and turned into mm once at the end, so that in a job in inches
`"width / 2 + 1"` adds one inch; a length with a unit inside is turned into the job's units first.
Digits/digits before a unit is a fraction of that unit, and whole number, fraction and unit bind tighter
than any operator: `2 * 3 1/2 in` is 7 inches, `5 ft 3 in` is 63.

A place of a board, `left("upright 1")`, is looked up in the scope as a name is, by its `key`; who works a text out puts
it there (see `relations`). Its words and `between` are words only before a bracket, so that measures may be called so.
"""

import math
import operator
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import TypeAlias

from ..lengths import CONVERSION_DECIMALS, MM_PER, UNIT_WORDS, LengthUnit
from .names import nearest, shown
from .tokens import PLACE_WORDS, ArithmeticMistake, Token, tokens

__all__ = [
    "COUNTER",
    "FUNCTIONS",
    "MEETING_NAMES",
    "RESERVED",
    "ArithmeticMistake",
    "Expression",
    "Place",
    "UnknownName",
    "number",
    "parse",
]

NESTING = 50  # brackets in brackets: far deeper than anything typed by hand
LONGEST = 2000  # characters of one text

# Works on the stack of values, the names' values in mm, and mm per unit of the job.
Step: TypeAlias = Callable[[list[float], Mapping[str, float], float], None]

COUNTER = "i"  # the number of a board in its row: a pure number, never a length
NUMBER = "{i}"  # the same in a name
MEETING_NAMES = ("t_a", "t_b", "overlap")
FUNCTIONS: dict[str, tuple[Callable[..., float], int, int]] = {
    "min": (min, 2, 20),
    "max": (max, 2, 20),
    "abs": (abs, 1, 1),
    "sqrt": (math.sqrt, 1, 1),
    "sin": (lambda angle: math.sin(math.radians(angle)), 1, 1),
    "cos": (lambda angle: math.cos(math.radians(angle)), 1, 1),
    "tan": (lambda angle: math.tan(math.radians(angle)), 1, 1),
}
BETWEEN = "between"
RESERVED = frozenset({COUNTER, *MEETING_NAMES, *UNIT_WORDS, *FUNCTIONS})
_OPERATORS: dict[str, Callable[[float, float], float]] = {
    "+": operator.add,
    "-": operator.sub,
    "*": operator.mul,
    "/": operator.truediv,
}


@dataclass(frozen=True, slots=True)
class Place:
    """A place of a board that a text names: `left("upright 1")`.

    Attributes:
        board: as written; `{i}` in it stands for the number of the board in whose row the text is.
    """

    word: str
    board: str

    @property
    def key(self) -> str:
        """Under which its value is looked up; no measure can have such a name."""
        return f'{self.word}("{self.board}")'


class Expression:
    """A text of arithmetic, read and ready to be worked out; equal and hashed by its text.

    Attributes:
        text: as written.
        names: measures and other names it uses, each once, in order.
        places: of boards, each once, in order.
    """

    __slots__ = ("_hash", "_steps", "names", "places", "text")

    text: str
    names: tuple[str, ...]
    places: tuple[Place, ...]
    _steps: tuple[Step, ...]
    _hash: int

    def __init__(self, text: str, names: tuple[str, ...], places: tuple[Place, ...], steps: tuple[Step, ...]) -> None:
        put = object.__setattr__
        put(self, "text", text)
        put(self, "names", names)
        put(self, "places", places)
        put(self, "_steps", steps)
        put(self, "_hash", hash(text))

    def __setattr__(self, name: str, value: object) -> None:
        raise AttributeError("an expression does not change")

    def __eq__(self, other: object) -> bool:
        return self is other or (isinstance(other, Expression) and other.text == self.text)

    def __hash__(self) -> int:
        return self._hash

    def __repr__(self) -> str:
        return f"Expression({self.text!r})"

    def __reduce__(self) -> tuple[Callable[[str], "Expression"], tuple[str]]:
        return parse, (self.text,)  # the steps are functions and do not travel between processes

    def evaluate(self, scope: Mapping[str, float], units: LengthUnit = "mm") -> float:
        """Work it out and return mm.

        Args:
            scope: lengths in mm by name; `i` is a pure number.
            units: what a bare number in the text is in.

        Raises:
            ArithmeticMistake: an unknown name, a division by zero, a result that is no number.
        """
        per = MM_PER[units]
        stack: list[float] = []
        try:
            for step in self._steps:
                step(stack, scope, per)
        except KeyError as unknown:
            raise self._unknown(str(unknown.args[0]), scope) from None
        except ZeroDivisionError:
            says = f"{shown(self.text)} divides by zero"
            raise ArithmeticMistake(says, "give a divisor that is not zero") from None
        except ValueError:
            says = f"{shown(self.text)} takes the square root of a negative number"
            raise ArithmeticMistake(says, "correct the value in sqrt") from None
        except OverflowError:
            raise ArithmeticMistake(f"{shown(self.text)} gives no usable number", "keep lengths within 100 m") from None
        (result,) = stack
        # Adding 0.0 turns -0.0 into 0.0.
        return result + 0.0 if per == 1.0 else round(result * per, CONVERSION_DECIMALS) + 0.0

    def _unknown(self, name: str, scope: Mapping[str, float]) -> ArithmeticMistake:
        if all(place.key != name for place in self.places):
            return UnknownName(name, scope)
        says = f"{shown(name)[1:-1]} stands where no place of a board can"
        return ArithmeticMistake(says, "name boards in a line, or in the points of a frame, and write a number here")


class UnknownName(ArithmeticMistake):
    """A text uses a name that has no value.

    Attributes:
        name: which.
        known: the names that have one.
    """

    def __init__(self, name: str, known: Mapping[str, float]) -> None:
        self.name = name
        self.known = known
        super().__init__(f'there is no measure "{name}"', "")

    @property
    def remedy(self) -> str:
        """What would be right; looked for only when it is asked, since that takes long."""
        return self.remedy_with(nearest)

    def remedy_with(self, guess: Callable[[str, Iterable[str]], str]) -> str:
        """What would be right, with `guess` to look for the nearest known name."""
        if self.name == COUNTER:
            return "use i only in a [[board]] that has a count"
        if self.name in MEETING_NAMES:
            return "use t_a, t_b and overlap only in the options of a joint"
        if self.name in PLACE_WORDS and self.name not in self.known:
            return f'for a place of a board write {self.name}("NAME"); else add {self.name} to [measures]'
        close = guess(self.name, self.known)
        return f"did you mean {close}?" if close else f"add {self.name} to [measures], or write a number"


def number(value: float) -> Expression:
    """The expression of a bare number, in the job's units.

    Raises:
        ArithmeticMistake: it is infinite or not a number.
    """
    if not math.isfinite(value):
        raise ArithmeticMistake(f"{value} is not a length", "write a plain number")
    return parse(repr(value))


@lru_cache(maxsize=8192)
def parse(text: str) -> Expression:
    """Read a text of arithmetic.

    Raises:
        ArithmeticMistake: what is wrong with it.
    """
    if len(text) > LONGEST:
        raise ArithmeticMistake("this arithmetic is too long", f"keep it under {LONGEST} characters")
    reader = _Reader(tokens(text))
    reader.sum(0)
    reader.finish()
    names, places = tuple(dict.fromkeys(reader.names)), tuple(dict.fromkeys(reader.places))
    return Expression(text, names, places, tuple(reader.steps))


def _push(value: float) -> Step:
    return lambda stack, scope, per: stack.append(value)


def _length(value: float) -> Step:
    return lambda stack, scope, per: stack.append(value / per)


def _name(name: str) -> Step:
    if name == COUNTER:
        return lambda stack, scope, per: stack.append(scope[name])
    return lambda stack, scope, per: stack.append(scope[name] if per == 1.0 else scope[name] / per)


def _place(key: str) -> Step:
    return lambda stack, scope, per: stack.append(scope[key] if per == 1.0 else scope[key] / per)


def _between(one: float, other: float, share: float) -> float:
    return one + (other - one) * share


def _binary(work: Callable[[float, float], float]) -> Step:
    def step(stack: list[float], scope: Mapping[str, float], per: float) -> None:
        right = stack.pop()
        result = work(stack[-1], right)
        if not math.isfinite(result):
            raise OverflowError
        stack[-1] = result

    return step


def _negate(stack: list[float], scope: Mapping[str, float], per: float) -> None:
    stack[-1] = -stack[-1]


def _call(function: Callable[..., float], count: int) -> Step:
    def step(stack: list[float], scope: Mapping[str, float], per: float) -> None:
        given = stack[-count:]
        del stack[-count:]
        stack.append(function(*given))

    return step


_UNITS_IN_FULL = {
    "inch": "in",
    "inche": "in",
    "foot": "ft",
    "feet": "ft",
    "millimetre": "mm",
    "millimeter": "mm",
    "centimetre": "cm",
    "centimeter": "cm",
    "metre": "m",
    "meter": "m",
}


class _Reader:
    """Recursive descent over the tokens: sum, product, sign, value."""

    def __init__(self, words: tuple[Token, ...]) -> None:
        self.words = words
        self.at = 0
        self.steps: list[Step] = []
        self.names: list[str] = []
        self.places: list[Place] = []

    @property
    def word(self) -> Token:
        return self.words[self.at]

    def take(self) -> Token:
        word = self.words[self.at]
        self.at += 1
        return word

    def sum(self, depth: int) -> None:
        self.product(depth)
        while self.word.text in ("+", "-"):
            work = _OPERATORS[self.take().text]
            self.product(depth)
            self.steps.append(_binary(work))

    def product(self, depth: int) -> None:
        self.signed(depth)
        while self.word.text in ("*", "/"):
            work = _OPERATORS[self.take().text]
            self.signed(depth)
            self.steps.append(_binary(work))

    def signed(self, depth: int) -> None:
        if self.word.text != "-":
            self.value(depth)
            return
        self.take()
        if self.word.text == "-":
            raise ArithmeticMistake("there are two minus signs in a row", "write one, or put the second in brackets")
        self.value(depth)
        self.steps.append(_negate)

    def value(self, depth: int) -> None:
        word = self.take()
        if word.kind == "number":
            self.steps.append(_push(word.value))
        elif word.kind == "length":
            self.length(word)
        elif word.kind == "name" and word.text in FUNCTIONS:
            self.call(word.text, depth, *FUNCTIONS[word.text])
        elif word.kind == "name" and word.text == BETWEEN and self.word.text == "(":
            self.call(word.text, depth, _between, 3, 3)
        elif word.kind == "name" and word.text in PLACE_WORDS and self.word.text == "(":
            self.place(word.text)
        elif word.kind == "name":
            self.names.append(word.text)
            self.steps.append(_name(word.text))
        elif word.text == "(":
            self.bracket(depth)
        else:
            raise _no_value(word)

    def length(self, word: Token) -> None:
        value = word.value
        if word.unit in ("ft", "'") and self.word.kind == "length" and self.word.unit in ("in", '"'):
            value += self.take().value
        self.steps.append(_length(value))

    def bracket(self, depth: int) -> None:
        if depth >= NESTING:
            raise ArithmeticMistake("brackets are nested too deep", f"nest them no deeper than {NESTING}")
        self.sum(depth + 1)
        self.close()

    def place(self, word: str) -> None:
        self.take()
        name = self.take()
        if name.kind != "board":
            remedy = f"write {word}(\"NAME\"), or {word}('NAME')"
            raise ArithmeticMistake(f"{word} needs the name of a board in quotes", remedy)
        self.close()
        found = Place(word, name.text[1:-1])
        self.places.append(found)
        self.steps.append(_place(found.key))

    def call(self, name: str, depth: int, function: Callable[..., float], least: int, most: int) -> None:
        if self.word.text != "(":
            raise ArithmeticMistake(f"{name} needs brackets", f"write {name}(...)")
        self.take()
        if depth >= NESTING:
            raise ArithmeticMistake("brackets are nested too deep", f"nest them no deeper than {NESTING}")
        count = 1
        self.sum(depth + 1)
        while self.word.text == ",":
            self.take()
            self.sum(depth + 1)
            count += 1
        self.close()
        if not least <= count <= most:
            wanted = "one value" if most == 1 else f"{least} to {most} values with commas between"
            wanted = "two places and a share, such as 1/2" if name == BETWEEN else wanted
            raise ArithmeticMistake(f"{name} is given {count}", f"give {name} {wanted}")
        self.steps.append(_call(function, count))

    def close(self) -> None:
        if self.word.text != ")":
            if self.word.kind != "end":
                raise _not_expected(self.words, self.at)
            raise ArithmeticMistake("a bracket is opened but not closed", "add )")
        self.take()

    def finish(self) -> None:
        if self.word.kind != "end":
            raise _not_expected(self.words, self.at)


def _no_value(word: Token) -> ArithmeticMistake:
    if word.kind == "unit":
        return ArithmeticMistake(
            f"the unit {word.text} has no number before it",
            f"write a number before it, such as 12 {word.text}",
        )
    if word.kind == "end":
        return ArithmeticMistake("the arithmetic stops where a value should follow", "write a number or a measure")
    return ArithmeticMistake(f"{word.text} is where a value should be", "write a number or a measure before it")


def _not_expected(words: tuple[Token, ...], at: int) -> ArithmeticMistake:
    """What is wrong with the word at a place where an operator or the end should stand."""
    before, word = words[at - 1], words[at]
    if word.kind == "unit":
        return ArithmeticMistake(
            f"the unit {word.text} follows {shown(before.text)}",
            "take the unit away: only a number can have one, a measure has its own",
        )
    if word.text == ",":
        return ArithmeticMistake("a comma is used outside min and max", "write decimals with a point, such as 2.5")
    if word.text == ")":
        return ArithmeticMistake("a bracket is closed but was not opened", "remove ), or add ( before it")
    if before.kind == "number" and word.kind == "name":
        return ArithmeticMistake(
            f"{word.text} directly follows the number {before.text}",
            f"write * between them to multiply; as a unit write {_unit(word)}",
        )
    if before.kind == "number" and word.kind == "number":
        return _two_numbers(before, words[at:])
    return ArithmeticMistake(
        f"there is no operator between {shown(before.text)} and {shown(word.text)}", "write + - * or /"
    )


def _unit(word: Token) -> str:
    """The unit that a word may stand for, else all there are."""
    return _UNITS_IN_FULL.get(word.text.lower().rstrip("s"), "mm, cm, m, in or ft")


def _two_numbers(before: Token, rest: tuple[Token, ...]) -> ArithmeticMistake:
    """Two numbers side by side: often a fraction whose unit is missing, or is none."""
    whole = len(rest) > 3 and all(word.text.isdecimal() for word in (before, rest[0], rest[2]))
    if whole and rest[1].text == "/":
        length, after = f"{before.text} {rest[0].text}/{rest[2].text}", rest[3]
        if after.kind == "name":
            return ArithmeticMistake(f"{shown(after.text)} after {length} is not a unit", f"write {_unit(after)}")
        return ArithmeticMistake(f"{length} has no unit", f'write it after the number, such as "{length} in"')
    return ArithmeticMistake(
        f"there is no operator between {before.text} and {rest[0].text}",
        'write one; a length with a fraction is written as "23 5/8 in"',
    )
