"""The heading of a pair: a black letter in each top corner, the left hand's on the left, the name between them."""

from collections.abc import Sequence
from dataclasses import replace

from .....geometry.views import Surface
from ....display import Item, Text, extent, shifted
from ....lettering import FIGURE, NAME, printable, width
from ....looks import Desk, Look
from ....standard import ROW, STEP, TEXT
from ...page.frame import LEFT, LETTER_HIGH, LETTER_WIDE, MARGIN, Space, heading, name_in
from ...page.prose import packed
from ..fellows import same_unmarked
from ..words.facts import facts

UNMARKED = "alike until marked"


def pair_heading(
    desk: Desk, looks: Sequence[Look], words: tuple[str, str], space: Space, title: str, more: str
) -> tuple[list[Item], float]:
    """The heading, and the y below which the sheet is free.

    Args:
        looks: of the two hands.
        words: which is which: "left", "right".
        title: a name for both.
        more: what this sheet of several shows; "" if there is one.
    """
    items, inset = _letters(looks, words, space)
    middle = (space.left + space.right) / 2
    room = space.wide - 2 * (inset + max(width(word, FIGURE, "semibold") for word in words) + 2.0)
    marked = same_unmarked(looks[0].part)
    loud = printable(f"{title}: {UNMARKED}" if marked else f"{title}: one {words[0].upper()}, one {words[1].upper()}")
    name = loud if width(loud, NAME, "semibold") <= room else printable(title)
    text = name_in(printable(f"{title}, {more}") if more else name, (middle, MARGIN + NAME), room)
    items.append(replace(text, anchor="middle"))
    base = MARGIN + NAME + ROW
    for line in _lines(desk, looks, space.wide - 2 * inset, told=text.text == loud):
        items.append(Text(at=(middle, base), text=line, anchor="middle", layer="frame"))
        base += STEP
    return items, max(base - STEP + TEXT, MARGIN + LETTER_HIGH + TEXT)


def _letters(looks: Sequence[Look], words: tuple[str, str], space: Space) -> tuple[list[Item], float]:
    """Both letters with their words, and how far in from the margins the room between them begins."""
    left, right = (heading(look.part.mark, "", (), space.right)[0] for look in looks)
    wide = [extent(item for item in items if not isinstance(item, Text)).right - LEFT for items in (left, right)]
    items = [*_inked(left), *shifted(_inked(right), space.right - LEFT - wide[1], 0.0)]
    inset = max(*wide, LETTER_WIDE) + TEXT
    one, other = (Text(at=(0.0, 0.0), text=word, size=FIGURE, weight="semibold", layer="frame") for word in words)
    items.append(replace(one, at=(space.left + inset, MARGIN + NAME)))
    items.append(replace(other, at=(space.right - inset, MARGIN + NAME), anchor="end"))
    return items, inset


def _inked(items: Sequence[Item]) -> list[Item]:
    return [item for item in items if not isinstance(item, Text) or item.text]


def _lines(desk: Desk, looks: Sequence[Look], room: float, *, told: bool) -> list[str]:
    """Facts of either hand, then which surfaces are marked from; `told`: the name says that they are hands."""
    names = [look.names for look in looks]
    sides = [
        f"FACE SIDE {_both([name.words[name.face_side] for name in names], looks)}",
        f"FACE EDGE {_both([name.words[Surface.FRONT] for name in names], looks)}",
        f"DATUM {_both([name.words[Surface.DATUM] for name in names], looks)}",
    ]
    mirrored = [] if told else ["mirror images"]
    pieces = [*facts(desk, looks[0].part, each=True), *mirrored, *sides]
    return packed(map(printable, pieces), room)


def _both(words: Sequence[str], looks: Sequence[Look]) -> str:
    """One word where both share it, else each with its letter."""
    if len(set(words)) == 1:
        return words[0]
    return ", ".join(f"{word} ({look.part.mark})" for word, look in zip(words, looks, strict=True))
