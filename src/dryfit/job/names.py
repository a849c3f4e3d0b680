"""The nearest known word, for messages about one that is not known."""

import difflib
from collections.abc import Iterable

# A search costs some 10 us a word; nobody mistypes a word of a hundred letters.
_MOST = 2500
_LONGEST = 100

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
    close = difflib.get_close_matches(word.casefold(), folded, n=1, cutoff=0.6)
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
