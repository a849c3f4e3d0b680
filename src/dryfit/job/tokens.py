"""The words of arithmetic: numbers, lengths with their unit, names, operators, each with its place.

Reading and writing back share them: a rename changes the name tokens of a text and nothing else. The name of a board
stands in quotes, and only within the brackets of a word for a place of it, `left("upright 1")`; elsewhere a quote is
the mark of a unit.
"""

import re
from dataclasses import dataclass
from typing import Literal

from ..lengths import MM_PER, UNIT_WORDS, to_mm
from .names import shown

# "23-5/8 in" is 23 5/8 in to one reader and a subtraction to the next: a guess would cost a board.
_HYPHENED = re.compile(
    r"""(?<![\w.])(?P<whole>\d+)-(?P<part>\d+/\d+)\s*(?P<unit>(?:mm|cm|m|in|ft)(?!\w)|["'])""", re.ASCII
)
_TOKEN = re.compile(
    r"""(?P<fraction> (?:(?P<whole>\d+)\s+)? (?P<top>\d+)\s*/\s*(?P<bottom>\d+) \s*
        (?P<unit>(?:mm|cm|m|in|ft)(?![A-Za-z0-9_])|["']) )
    | (?P<number> (?:\d+\.\d*|\.\d+|\d+)(?:[eE][+-]?\d+)? )
    | (?P<name> [A-Za-z_][A-Za-z0-9_]* )
    | (?P<mark> ["'] )
    | (?P<operator> [-+*/(),] )""",
    re.VERBOSE | re.ASCII,
)
_BLANK = re.compile(r"\s*", re.ASCII)

PLACE_WORDS = ("left", "right", "top", "under", "middle", "start", "end", "thickness", "width")
_NAMED = re.compile(rf"""\b(?:{"|".join(PLACE_WORDS)})\s*\(\s*("[^"\n]*"|'[^'\n]*')""", re.ASCII)


class ArithmeticMistake(ValueError):  # noqa: N818 - the maker's word for it
    """A text that cannot be read or worked out.

    Attributes:
        says: what is wrong, in a sentence without a full stop.
    """

    def __init__(self, says: str, remedy: str) -> None:
        self.says = says
        self._remedy = remedy
        super().__init__(says, remedy)

    @property
    def remedy(self) -> str:
        """What would be right."""
        return self._remedy

    def __str__(self) -> str:
        return f"{self.says}; {self.remedy}"


@dataclass(frozen=True, slots=True)
class Token:
    """One word of arithmetic.

    Attributes:
        kind: "length" is a number with its unit, already in mm; a "unit" has no number
            before it (a mistake the reader names); a "board" is the name of one; "end" stands behind the last word.
        text: as written, of a board with its quotes.
        start: its place in the text, counted from 0.
        value: of a number, or of a length in mm.
        unit: of a length.
    """

    kind: Literal["number", "length", "name", "board", "unit", "operator", "end"]
    text: str
    start: int
    value: float = 0.0
    unit: str = ""


def names_boards(text: str) -> bool:
    """Whether a text has the name of a board in it."""
    return "(" in text and _NAMED.search(text) is not None


def tokens(text: str) -> tuple[Token, ...]:
    """Cut a text into its words; the last is always an "end".

    Raises:
        ArithmeticMistake: a character or a number that has no place in arithmetic.
    """
    boards = {found.start(1): found[1] for found in _NAMED.finditer(text)} if "(" in text else {}
    hyphened = _HYPHENED.search(_without(text, boards) if boards else text)
    if hyphened:
        whole, part, unit = hyphened["whole"], hyphened["part"], hyphened["unit"]
        raise ArithmeticMistake(
            f"{shown(hyphened[0])} can be read in two ways",
            f"write {whole} {part} {unit} for one length, or {whole} - {part} {unit} to subtract",
        )
    found: list[Token] = []
    at = _blank(text, 0)
    while at < len(text):
        if at in boards:
            token = Token("board", boards[at], at)
            at = _blank(text, at + len(token.text))
        else:
            token, at = _next(text, at)
        found.append(token)
    return *found, Token("end", "", len(text))


def _without(text: str, boards: dict[int, str]) -> str:
    """The text with the names of boards blotted out."""
    for at, name in boards.items():
        text = f"{text[:at]}{'_' * len(name)}{text[at + len(name) :]}"
    return text


def _blank(text: str, at: int) -> int:
    match = _BLANK.match(text, at)
    return match.end() if match else at


def _next(text: str, at: int) -> tuple[Token, int]:
    match = _TOKEN.match(text, at)
    if match is None:
        raise ArithmeticMistake(
            f"{shown(text[at])} has no place in arithmetic", "use numbers, names, units, + - * / and brackets"
        )
    start, end, kind = match.start(), match.end(), match.lastgroup
    word = match[0]
    if match["fraction"]:
        value = int(match["whole"] or 0) + _divide(int(match["top"]), int(match["bottom"]), word)
        return Token("length", word, start, to_mm(value, match["unit"]), match["unit"]), _blank(text, end)
    if kind == "number":
        return _number(text, word, start, end)
    if kind == "mark" or word in UNIT_WORDS:
        return Token("unit", word, start), _blank(text, end)
    assert kind in ("name", "operator")
    return Token("name" if kind == "name" else "operator", word, start), _blank(text, end)


def _number(text: str, word: str, start: int, end: int) -> tuple[Token, int]:
    value = float(word)
    if value > 1e15:
        raise ArithmeticMistake(f"{shown(word)} is too large", "keep lengths within 100 m")
    after = _blank(text, end)
    follows = _TOKEN.match(text, after)
    if follows and follows[0] in MM_PER:
        unit = follows[0]
        end = follows.end()
        return Token("length", text[start:end], start, to_mm(value, unit), unit), _blank(text, end)
    return Token("number", word, start, value), after


def _divide(top: int, bottom: int, word: str) -> float:
    if bottom == 0:
        raise ArithmeticMistake(f"{shown(word)} divides by zero", "give a divisor that is not zero")
    try:
        return top / bottom
    except OverflowError:
        raise ArithmeticMistake(f"{shown(word)} is too large", "keep lengths within 100 m") from None
