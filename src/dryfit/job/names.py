"""Names: the nearest known word for one that is not known, and what the members of a divided board are called."""

import difflib
import re
from collections.abc import Iterable

# A search costs some 10 us a word; nobody mistypes a word of a hundred letters.
_MOST = 2500
_LONGEST = 100

MEMBER = re.compile(r"(.+) \([1-9][0-9]* of [1-9][0-9]*\)")  # what `member_name` makes, with the whole's name in it

LIKE = 0.65  # of 1: two letters changed places in a word of three are like it, "ghost" and "short" are not
SENTENCE = 400  # letters of a message's sentence, however long the names in it are


def nearest(word: str, known: Iterable[str]) -> str:
    """The known word most like `word`, "" if none is like it.

    >>> nearest("Bounds", ["bay", "bounds"]), nearest("thicknes", ["thickness"]), nearest("x", ["bay"])
    ('bounds', 'thickness', '')
    """
    folded = {candidate.casefold(): candidate for candidate in known if len(candidate) < _LONGEST}
    same = folded.get(word.casefold())
    if same is not None:
        return same
    if len(folded) > _MOST or len(word) > _LONGEST:
        return ""
    close = difflib.get_close_matches(word.casefold(), folded, n=1, cutoff=LIKE)
    return folded[close[0]] if close else ""


def shown(value: object, width: int = 60) -> str:
    """A value as a message shows it: on one line, quoted if it is text, not too long."""
    text = f'"{value[: width + 1]}"' if isinstance(value, str) else _plain(value)
    return printable(text, width)


def printable(text: str, width: int = 60) -> str:
    """A piece of text on one line and not too long."""
    text = "".join(c if c.isprintable() else f"\\u{ord(c):04x}" for c in text[: width + 1])
    return text if len(text) <= width else f"{text[: width - 3]}..."


def _plain(value: object) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    return str(value)


def fixing_of(board: str) -> str:
    """What a fixing without a name is called."""
    return f"fixing of {board}"


def member_name(name: str, number: int, count: int) -> str:
    """What a member of a divided board is called, and what fixes it; `number` counts from the board's datum end.

    >>> member_name("shelf", 1, 2)
    'shelf (1 of 2)'
    """
    return f"{name} ({number} of {count})"
