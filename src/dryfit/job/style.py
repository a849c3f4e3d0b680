"""Values written the way the maker wrote them: the same unit, decimals, fractions and quotes.

A number of inches with a fraction stays one, `600.0` keeps its decimal, arithmetic keeps its text and gets a
constant behind it: `"i * bay"` moved by 12 is `"i * bay + 12"`, moved by 8 more `"i * bay + 20"`, and moved
back by 20 what it was.
"""

import datetime
import math
import re
from dataclasses import dataclass
from fractions import Fraction

from ..lengths import MM_PER, LengthUnit, rounded
from ..places import Plain
from .arithmetic import parse
from .tokens import ArithmeticMistake, Token, names_boards, tokens

FINEST = 32  # parts of an inch to which a fraction is written
FITS = 0.0005  # in: what a hand moves by comes to the micrometre
SNAP = 0.1  # mm to which a hand moves things

_FRACTION = re.compile(r"(?:(\d+)\s+)?(\d+)\s*/\s*(\d+)")
_BARE_KEY = re.compile(r"[A-Za-z0-9_-]+")
_ESCAPES = {"\b": "\\b", "\t": "\\t", "\n": "\\n", "\f": "\\f", "\r": "\\r", '"': '\\"', "\\": "\\\\"}


def render(value: Plain) -> str:
    """A plain value as TOML.

    Raises:
        ValueError: a number that is none, or nothing at all.
    """
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, (int, float)):
        return plain_number(value)
    if isinstance(value, str):
        return quoted(value)
    if isinstance(value, list):
        return f"[{', '.join(render(part) for part in value)}]"
    if isinstance(value, dict):
        return f"{{ {', '.join(f'{key(name)} = {render(part)}' for name, part in value.items())} }}"
    raise ValueError("there is no value to write")


def plain_number(value: float) -> str:
    """A number without needless decimals and never with an exponent where it can be helped."""
    if not math.isfinite(value):
        raise ValueError(f"{value} is no number to write")
    if value == int(value) and abs(value) < 1e15:
        return str(int(value))
    return repr(value)


def quoted(text: str, like: str = '"') -> str:
    """Text in quotes, single ones where `like` begins with one and the text can stand in them.

    So does a text that names boards, `'left("upright 1")'`, where `like` shows no other way of writing that.
    """
    single = like.startswith("'") or ('\\"' not in like and names_boards(text))
    if single and text.isprintable() and "'" not in text:
        return f"'{text}'"
    return '"' + "".join(_escaped(c) for c in text) + '"'


def _escaped(character: str) -> str:
    if character in _ESCAPES:
        return _ESCAPES[character]
    code = ord(character)
    return f"\\u{code:04X}" if code < 0x20 or code == 0x7F else character


def key(name: str) -> str:
    """A key, in quotes where it needs them."""
    return name if _BARE_KEY.fullmatch(name) else quoted(name)


def is_date(text: str) -> bool:
    """Whether a text can stand as a TOML date without quotes."""
    try:
        datetime.date.fromisoformat(text)
    except ValueError:
        return False
    return len(text) == 10


@dataclass(frozen=True, slots=True)
class Style:
    """How one length is written: `23 5/8 in` has the unit in, 8 parts and a gap of one blank.

    Attributes:
        unit: as written; "" for a bare number in the job's units.
        decimals: behind the point, where they end on 0 and so are meant to be kept.
        parts: of the fraction's unit, 0 for decimals; 1 for whole inches, which get a fraction only where one fits.
        gap: between number and unit.
    """

    unit: str = ""
    decimals: int = 0
    parts: int = 0
    gap: str = ""

    @classmethod
    def of(cls, word: Token) -> "Style":
        """The style of a number or length."""
        body = word.text.removesuffix(word.unit)
        number = body.rstrip()
        fraction = _FRACTION.fullmatch(number)
        if fraction:
            return cls(word.unit, 0, int(fraction[3]), body[len(number) :])
        whole_inches = word.unit == "in" and number.isdecimal()
        return cls(word.unit, _kept_decimals(number), int(whole_inches), body[len(number) :])

    def write(self, length: float, units: LengthUnit, *, snap: float | None) -> str:
        """A length of 0 or more in this style.

        Args:
            length: in mm.
            units: of the job, for a bare number.
            snap: what it is rounded to; None to keep what was asked for, as far as it can be written.
        """
        unit = self.unit or units
        value = length / MM_PER[unit]
        if self.parts:
            parts = self.parts if self.parts % FINEST == 0 else FINEST
            top = round(value * parts)
            off = abs(top / parts - value)
            if off < 1e-9 or (snap is not None and (self.parts > 1 or off < FITS)):
                return f"{_mixed(top, parts)}{self.gap}{self.unit}"
        if snap is None:
            text = plain_number(round(value, 9))
        else:
            if unit in ("mm", "cm", "m"):
                value = rounded(length, snap) / MM_PER[unit]
            finest = max(0, math.ceil(-math.log10(snap / MM_PER[unit]) - 1e-9))
            text = plain_number(round(value, max(finest, self.decimals)))
        return f"{_with_decimals(text, self.decimals)}{self.gap}{self.unit}"


def _kept_decimals(number: str) -> int:
    """How many decimals a number shows on purpose: `600.0` has one, `600.5` just happens to need it."""
    decimals = number.partition(".")[2]
    return len(decimals) if decimals.isdecimal() and decimals.endswith("0") else 0


def _mixed(top: int, parts: int) -> str:
    whole, rest = divmod(top, parts)
    if not rest:
        return str(whole)
    fraction = Fraction(rest, parts)
    return f"{whole} {fraction}" if whole else str(fraction)


def _with_decimals(text: str, decimals: int) -> str:
    """At least as many decimals as there were."""
    if "e" in text or not decimals:
        return text
    whole, _, fraction = text.partition(".")
    return f"{whole}.{fraction.ljust(decimals, '0')}"


def signed(style: Style, length: float, units: LengthUnit, *, snap: float | None) -> str:
    """A length of either sign in a style; nothing is written as -0."""
    text = style.write(abs(length), units, snap=snap)
    return f"-{text}" if length < 0 and re.search("[1-9]", text) else text


def number_like(written: str, length: float, units: LengthUnit, *, snap: float | None) -> str:
    """A bare TOML number in place of `written`, which was one: `600.0` becomes `612.0`.

    Args:
        written: the number as it stands.
        length: in mm.
        units: of the job.
        snap: what it is rounded to, None for nothing.
    """
    return signed(Style(decimals=_kept_decimals(written)), length, units, snap=snap)


def lone_length(text: str) -> tuple[Token, float] | None:
    """The one number or length, with its sign put to its value, that a text consists of; None for more."""
    try:
        words = tokens(text)
    except ArithmeticMistake:
        return None
    sign = -1.0 if words[0].text == "-" else 1.0
    rest = words[1:] if sign < 0 else words
    return (rest[0], sign) if len(rest) == 2 and rest[0].kind in ("number", "length") else None


def text_like(text: str, length: float, units: LengthUnit, *, snap: float | None) -> str | None:
    """A length in place of a text that was one ("23 5/8 in"); None where it was arithmetic."""
    lone = lone_length(text)
    return None if lone is None else signed(Style.of(lone[0]), length, units, snap=snap)


def shifted_arithmetic(text: str, by: float, units: LengthUnit, *, snap: float) -> str:
    """Arithmetic with `by` mm added, folded into a constant that stands at its end.

    Raises:
        ArithmeticMistake: the text is no arithmetic.
    """
    parse(text)
    words = tokens(text)[:-1]
    style, now, start = Style(), 0.0, len(text)
    if len(words) >= 3 and words[-1].kind in ("number", "length") and _is_binary(words):
        sign, constant = words[-2], words[-1]
        per = MM_PER[units] if constant.kind == "number" else 1.0
        now = constant.value * per * (-1.0 if sign.text == "-" else 1.0)
        style, start = Style.of(constant), sign.start
    head = text[:start].rstrip()
    moved = now + by
    written = style.write(abs(moved), units, snap=snap)
    if not re.search("[1-9]", written):
        return head
    return f"{head} {'-' if moved < 0 else '+'} {written}"


def place_text(word: str, board: str) -> str:
    """A place of a board as it is written; "" where the name has both kinds of quotation marks."""
    mark = '"' if '"' not in board else "'"
    return "" if mark in board else f"{word}({mark}{board}{mark})"


def _is_binary(words: tuple[Token, ...]) -> bool:
    """Whether the last word but one is a plus or minus between two values, not a sign."""
    before = words[-3]
    return words[-2].text in ("+", "-") and (before.kind in ("number", "length", "name") or before.text == ")")
