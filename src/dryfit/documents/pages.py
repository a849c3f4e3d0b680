"""The pages on which things stand, told by their makers before any page has its number.

    page_of(part("shelf 1"))                           # stands in a text of any sheet, as a name does
    Draft(..., holds=(Held(place=part("shelf 1"), title="A  shelf 1"),))

A sheet says of its draft what it holds. Whoever writes of that, on any sheet of any paper, puts `page_of` into the
words: a text of our own, as wide as a number of three figures, in which the place is written in letters that no font
prints. Once all drafts of a paper are there the numbers take its place, and what was told of a page leads there.
"""

import re
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

from .display import Draft, Item, Place, Text
from .lettering import STAND_IN, UNPRINTED, width

NOWHERE = "–"  # printed for what stands on no page: its sheet could not be drawn
_FIGURES, _MOST = 3, 2  # of a number, and numbers: so much room is kept free
_FIGURE, _BYTES, _END = chr(UNPRINTED.start), UNPRINTED.start + 1, chr(UNPRINTED.stop - 1)
_TOLD = re.compile(f"{_FIGURE}+([^{_FIGURE}{_END}]*){_END}")
_STRAY = re.compile(f"[{chr(UNPRINTED.start)}-{chr(UNPRINTED.stop - 1)}]")
_PARTED, _NEXT = "\x1f", "\x1e"  # between the words of a place, and between places: no name has them

Number: TypeAlias = Callable[[str, Place], int | None]
"""On which page of a paper, "" for the one in hand, a place is; None where it is on none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PageLink:
    """A part of a page that leads to another page of the same paper: left, top, right, bottom."""

    box: tuple[float, float, float, float]
    page: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Bookmark:
    """A line of a reader's table of contents; `level` 1 for a chapter, 2 for what stands in it."""

    level: int
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Leads:
    """Where a page leads, and by which words it is found."""

    links: tuple[PageLink, ...] = ()
    bookmarks: tuple[Bookmark, ...] = ()


def part(name: str) -> Place:
    """Where a part is drawn, with its cuts."""
    return "part", name


def joint(key: tuple[str, str]) -> Place:
    """Where a joint is drawn."""
    return "joint", *key


def full_size(name: str) -> Place:
    """Where what is printed of a part at full size begins."""
    return "full size", name


def listed(title: str) -> Place:
    """Where a list begins, by its title."""
    return "list", title


def step(number: int) -> Place:
    """Where a step of the booklet is drawn; the last picture goes by the next number."""
    return "step", str(number)


def wall_step(number: int) -> Place:
    """Where a step on the wall is drawn in the hanging book, by its number in the order there, from 1."""
    return "wall step", str(number)


def card(number: int) -> Place:
    """Where a glue-up card stands."""
    return "card", str(number)


def page_of(*places: Place, paper: str = "") -> str:
    """The number of the page on which something stands, to be put into any text of a sheet.

    Args:
        places: as their sheets say that they hold them; of several each page once.
        paper: where another paper holds them.
    """
    return _told([(paper, place) for place in places])


def without_pages(text: str) -> str:
    """A text for who has no pages: what it sends to without ", page 3" behind."""
    return re.sub(f", page {_TOLD.pattern}", "", text)


def together(pages: Iterable[str]) -> str:
    """Texts that `page_of` made as one, each page once; "" where none is such a text."""
    places = [one for text in pages for told in _TOLD.finditer(text) for one in _places(told)]
    return _told(places) if places else ""


def _told(places: Sequence[tuple[str, Place]]) -> str:
    words = _NEXT.join(_PARTED.join((paper, *place)) for paper, place in places).encode()
    return _FIGURE * _FIGURES * min(len(places), _MOST) + "".join(chr(_BYTES + byte) for byte in words) + _END


def numbered(items: Iterable[Item], number: Number) -> tuple[Item, ...]:
    """The items with every page told by its number."""
    return tuple(_numbered(item, number) if isinstance(item, Text) else item for item in items)


def _numbered(item: Text, number: Number) -> Text:
    if not _STRAY.search(item.text):
        return item
    said = _TOLD.sub(lambda told: _said(told, number), item.text)
    return replace(item, text=_STRAY.sub(STAND_IN, said))  # what is left a maker wrote: no font has it


def _said(told: re.Match[str], number: Number) -> str:
    pages = {number(paper, place) for paper, place in _places(told)}
    return ", ".join(str(page) for page in sorted(page for page in pages if page is not None)) or NOWHERE


def _places(told: re.Match[str]) -> Iterator[tuple[str, Place]]:
    """Of pages as they are told in a text: papers and places."""
    for one in bytes(ord(letter) - _BYTES for letter in told[1]).decode().split(_NEXT):
        paper, *place = one.split(_PARTED)
        yield paper, tuple(place)


def leads(drafts: Sequence[Draft], number: Number) -> list[Leads]:
    """Where each sheet of a paper leads."""
    chapters = [_chapter(draft) for draft in drafts]
    return [
        Leads(
            links=tuple(link for item in draft.items if isinstance(item, Text) for link in _links(item, number)),
            bookmarks=tuple(_bookmarks(drafts, chapters, at)),
        )
        for at, draft in enumerate(drafts)
    ]


def _links(item: Text, number: Number) -> Iterator[PageLink]:
    """Of a text in which pages are told: from its beginning to the first number, on to the next, and to its end."""
    found = list(_TOLD.finditer(item.text))
    for at, told in enumerate(found):
        page = next((number(paper, place) for paper, place in _places(told) if not paper), None)
        if page is None:
            continue
        before = "" if at == 0 else item.text[: found[at - 1].end()]
        until = item.text if told is found[-1] else item.text[: told.end()]
        yield PageLink(box=_box(item, before, until, number), page=page)


def _box(item: Text, before: str, until: str, number: Number) -> tuple[float, float, float, float]:
    """The room of a stretch of a text as it is printed; of the whole text where it is turned."""
    whole = _numbered(item, number)
    xs, ys = zip(*whole.corners, strict=True)
    if item.turn:
        return min(xs), min(ys), max(xs), max(ys)
    start, end = (_numbered(replace(item, text=text), number).text for text in (before, until))
    left = min(xs)
    reach = (left + width(text, item.size, item.weight) for text in (start, end))
    return next(reach), min(ys), next(reach), max(ys)


def _chapter(draft: Draft) -> str:
    """What kind of sheet it is, without what tells it from others of the kind."""
    return draft.sort or draft.kind


def _bookmarks(drafts: Sequence[Draft], chapters: Sequence[str], at: int) -> Iterator[Bookmark]:
    """A chapter where one begins, and in a chapter of several sheets what this one holds."""
    draft, chapter = drafts[at], chapters[at]
    held = [one.title for one in draft.holds if one.title] or [draft.title]
    if chapters.count(chapter) == 1 and len(held) == 1:
        yield Bookmark(level=1, says=held[0])
        return
    if at == 0 or chapters[at - 1] != chapter:
        yield Bookmark(level=1, says=chapter)
    yield from (Bookmark(level=2, says=title) for title in held)
