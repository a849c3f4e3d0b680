"""Arithmetic in a job file: `"width / 4"`, `"23 5/8 in"`, `"i * bay + height * tan(9)"`.

A text is read once into an immutable `Expression` and kept; working it out is a short loop over its steps.
The sums are done in the job's units and turned into mm once at the end, so that in a job in inches
`"width / 2 + 1"` adds one inch; a length with a unit inside is turned into the job's units first.
Digits/digits before a unit is a fraction of that unit, and whole number, fraction and unit bind tighter
than any operator: `2 * 3 1/2 in` is 7 inches, `5 ft 3 in` is 63.
"""

import math
import operator
from collections.abc import Callable, Iterable, Mapping
from functools import lru_cache
from typing import TypeAlias

from ..lengths import CONVERSION_DECIMALS, MM_PER, UNIT_WORDS, LengthUnit
from .names import nearest, shown
from .tokens import ArithmeticMistake, Token, tokens

__all__ = [
    "COUNTER",
    "FUNCTIONS",
    "MEETING_NAMES",
    "RESERVED",
    "ArithmeticMistake",
    "Expression",
    "UnknownName",
    "number",
    "parse",
]

NESTING = 50  # brackets in brackets: far deeper than anything typed by hand
LONGEST = 2000  # characters of one text

# Works on the stack of values, the names' values in mm, and mm per unit of the job.
Step: TypeAlias = Callable[[list[float], Mapping[str, float], float], None]

COUNTER = "i"  # the number of a board in its row: a pure number, never a length
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
RESERVED = frozenset({COUNTER, *MEETING_NAMES, *UNIT_WORDS, *FUNCTIONS})
_OPERATORS: dict[str, Callable[[float, float], float]] = {
    "+": operator.add,
    "-": operator.sub,
    "*": operator.mul,
    "/": operator.truediv,
}


class Expression:
    """A text of arithmetic, read and ready to be worked out; equal and hashed by its text.

    Attributes:
        text: as written.
        names: measures and other names it uses, each once, in order.
    """

    __slots__ = ("_hash", "_steps", "names", "text")

    text: str
    names: tuple[str, ...]
    _steps: tuple[Step, ...]
    _hash: int

    def __init__(self, text: str, names: tuple[str, ...], steps: tuple[Step, ...]) -> None:
        put = object.__setattr__
        put(self, "text", text)
        put(self, "names", names)
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
            raise UnknownName(str(unknown.args[0]), scope) from None
        except ZeroDivisionError:
            says = f"{shown(self.text)} divides by zero"
            raise ArithmeticMistake(says, "give a divisor that is not zero") from None
        except ValueError:
            says = f"{shown(self.text)} takes the square root of a negative number"
            raise ArithmeticMistake(says, "put what stands in sqrt right") from None
        except OverflowError:
            raise ArithmeticMistake(
                f"{shown(self.text)} comes to no usable number", "keep lengths within 100 m"
            ) from None
        (result,) = stack
        # Adding 0.0 turns -0.0 into 0.0.
        return result + 0.0 if per == 1.0 else round(result * per, CONVERSION_DECIMALS) + 0.0


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
        close = guess(self.name, self.known)
        return f"did you mean {close}?" if close else f"add {self.name} to [measures], or write a number"


def number(value: float) -> Expression:
    """The expression of a bare number, in the job's units.

    Raises:
        ArithmeticMistake: it is infinite or not a number.
    """
    if not math.isfinite(value):
        raise ArithmeticMistake(f"{value} is no length", "write a plain number")
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
    return Expression(text, tuple(dict.fromkeys(reader.names)), tuple(reader.steps))


def _push(value: float) -> Step:
    return lambda stack, scope, per: stack.append(value)


def _length(value: float) -> Step:
    return lambda stack, scope, per: stack.append(value / per)


def _name(name: str) -> Step:
    if name == COUNTER:
        return lambda stack, scope, per: stack.append(scope[name])
    return lambda stack, scope, per: stack.append(scope[name] if per == 1.0 else scope[name] / per)


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
            raise ArithmeticMistake("two minus signs stand in a row", "write one, or put the second in brackets")
        self.value(depth)
        self.steps.append(_negate)

    def value(self, depth: int) -> None:
        word = self.take()
        if word.kind == "number":
            self.steps.append(_push(word.value))
        elif word.kind == "length":
            self.length(word)
        elif word.kind == "name" and word.text in FUNCTIONS:
            self.call(word.text, depth)
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
            raise ArithmeticMistake("brackets stand too deep in one another", f"keep them within {NESTING}")
        self.sum(depth + 1)
        self.close()

    def call(self, name: str, depth: int) -> None:
        if self.word.text != "(":
            raise ArithmeticMistake(f"{name} stands without brackets", f"write {name}(...)")
        self.take()
        if depth >= NESTING:
            raise ArithmeticMistake("brackets stand too deep in one another", f"keep them within {NESTING}")
        count = 1
        self.sum(depth + 1)
        while self.word.text == ",":
            self.take()
            self.sum(depth + 1)
            count += 1
        self.close()
        function, least, most = FUNCTIONS[name]
        if not least <= count <= most:
            wanted = "one value" if most == 1 else f"{least} to {most} values with commas between"
            raise ArithmeticMistake(f"{name} is given {count}", f"give {name} {wanted}")
        self.steps.append(_call(function, count))

    def close(self) -> None:
        if self.word.text != ")":
            if self.word.kind != "end":
                raise _not_expected(self.words, self.at)
            raise ArithmeticMistake("a bracket is opened and not closed", "add )")
        self.take()

    def finish(self) -> None:
        if self.word.kind != "end":
            raise _not_expected(self.words, self.at)


def _no_value(word: Token) -> ArithmeticMistake:
    if word.kind == "unit":
        return ArithmeticMistake(
            f"the unit {word.text} stands without a number before it",
            f"write a number before it, such as 12 {word.text}",
        )
    if word.kind == "end":
        return ArithmeticMistake("the arithmetic stops where a value should stand", "write a number or a measure")
    return ArithmeticMistake(f"{word.text} stands where a value should", "write a number or a measure before it")


def _not_expected(words: tuple[Token, ...], at: int) -> ArithmeticMistake:
    """What is wrong with the word at a place where an operator or the end should stand."""
    before, word = words[at - 1], words[at]
    if word.kind == "unit":
        return ArithmeticMistake(
            f"the unit {word.text} stands behind {shown(before.text)}",
            "take the unit away: only a number can have one, a measure has its own",
        )
    if word.text == ",":
        return ArithmeticMistake("a comma stands outside min and max", "write decimals with a point, such as 2.5")
    if word.text == ")":
        return ArithmeticMistake("a bracket is closed that was not opened", "take ) away, or add ( before")
    if before.kind == "number" and word.kind == "name":
        return ArithmeticMistake(
            f"{word.text} stands right behind the number {before.text}",
            f"write * between to multiply; as a unit write {_unit(word)}",
        )
    if before.kind == "number" and word.kind == "number":
        return _two_numbers(before, words[at:])
    return ArithmeticMistake(
        f"{shown(before.text)} and {shown(word.text)} stand side by side", "write + - * or / between them"
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
            return ArithmeticMistake(f"{shown(after.text)} behind {length} is no unit", f"write {_unit(after)}")
        return ArithmeticMistake(f"{length} has no unit", f'write it behind, such as "{length} in"')
    return ArithmeticMistake(
        f"two numbers, {before.text} and {rest[0].text}, stand side by side",
        'write an operator between them; a length with a fraction is written as "23 5/8 in"',
    )
