"""Two parts that leave each the half of a sheet free share one: one under the other, what both are told is told once.

Each has its heading, its views at the scale that it has alone, all its sections, its table and its blanks; a face that
has the other's figures and no more is left out. The lower one's letter stands in the top right corner too.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import product
from typing import cast

from ...display import Draft, Held, Item, Stroke, Text, extent, shifted
from ...kit.axis import Axis
from ...lettering import FIGURE, width
from ...looks import Desk
from ...naming import scale_words
from ...pages import part as place_of
from ...standard import A4, AIR, STEP, TEXT
from ..page.arranging import Sketch
from ..page.frame import LETTER_HIGH, MARGIN, TITLE_WIDE, heading, space
from ..page.prose import AFTER, TextPlace, WordRun, flow
from ..page.table import head_high, rows_high
from .alike import AlikeParts
from .page import SMALLEST, PartPage
from .stack import UNDER_VIEW, surfaces
from .subject import PART, Subject

APART = 2 * TEXT  # between two parts, the rule in the middle
LEAST_NOTES = 2  # lines of notes that every part has
MOST = 0.6  # of a sheet: a part whose views and table alone fill more leaves no room for another


@dataclass(frozen=True, slots=True)
class SharedPart:
    """A part set close together, its heading at the top margin; `high` on paper."""

    page: PartPage
    items: tuple[Item, ...]
    ruler: Axis
    made: Sequence[Sketch]
    high: float


def may_share(desk: Desk, alike: AlikeParts, alone: tuple[float, float]) -> bool:
    """Whether a part may be small enough, at the scale that it has on its own paper; it is not drawn for that."""
    page, own = _page(desk, alike), PartPage(desk, alike, alone)
    ruler = next(iter(page.subject.rulers(page.space)))
    faces = surfaces(alike.shown)
    scales = (one.scale for one in alike.rulers(own.space) if _high(own, one.scale, len(faces)) <= own.space.high)
    scale = next(scales, 0.0)
    return not ruler.breaks and ruler.scale >= scale >= SMALLEST and _told(desk, alike) < MOST * page.space.high


def _told(desk: Desk, alike: AlikeParts) -> float:
    """What a part takes at least, by its sizes alone; kept, since it is asked beside every other part."""
    kept: dict[str, float] = desk.kept.setdefault("told", {})
    if alike.letters not in kept:
        page = _page(desk, alike)
        ruler = next(iter(page.subject.rulers(page.space)))
        kept[alike.letters] = _high(page, ruler.scale, len(surfaces(alike.shown, brief=True)))
    return kept[alike.letters]


def _high(page: PartPage, scale: float, faces: int) -> float:
    """What a part takes at least: heading, views with their lines, the front edge among its faces, table, notes."""
    board = page.subject.shown.part.board
    table = head_high(page.columns(page.space.wide)) + rows_high(page.body(page.space.wide))
    views = (faces - 1) * board.depth * scale + board.thickest * scale + faces * UNDER_VIEW
    return LETTER_HIGH + views + table + LEAST_NOTES * STEP


def shared(desk: Desk, first: AlikeParts, second: AlikeParts) -> Draft | None:
    """The sheet of both; None where they have no room on one."""
    room = space(A4, desk)
    most = room.high + AFTER - APART
    if any(least(desk, first) + least(desk, second) > most for least in (_told, _least)):
        return None
    told = [_general(desk, one) for one in (first, second)]
    others = {run.text for run in told[1]}
    common = [run for run in told[0] if run.text in others]
    out = frozenset(run.text for run in common)
    notes = flow([TextPlace(room.left, 0.0, room.wide, room.bottom)], [common])
    left = room.high + AFTER - APART - notes.bottom
    lowest = [min((half.high for half in _halves(desk, one, out)), default=math.inf) for one in (first, second)]
    if sum(lowest) > left:  # a corner kept free makes no part lower
        return None
    for one, other in product(_halves(desk, first, out, corner=_corner(second)), _halves(desk, second, out)):
        if one.high + other.high <= left:
            return _draft(one, other, common)
    return None


def _least(desk: Desk, alike: AlikeParts) -> float:
    """What a part takes at least, whatever of its notes another has too: measured once, not with each other part."""
    kept: dict[str, float] = desk.kept.setdefault("least", {})
    if alike.letters not in kept:
        out = frozenset(run.text for run in _general(desk, alike))
        kept[alike.letters] = min((half.high for half in _halves(desk, alike, out)), default=math.inf)
    return kept[alike.letters]


def _general(desk: Desk, alike: AlikeParts) -> list[WordRun]:
    """What its sheet says that is true of others too; kept as well."""
    kept = desk.kept.setdefault("general", {})
    if alike.letters not in kept:
        kept[alike.letters] = list(_page(desk, alike).general())
    return cast("list[WordRun]", kept[alike.letters])


def _page(desk: Desk, alike: AlikeParts, out: frozenset[str] = frozenset(), corner: float = 0.0) -> PartPage:
    """It close together; what is left out of its notes changes nothing else on it, which is made once."""
    kept = desk.kept.setdefault("close", {})
    key = (alike.letters, corner)
    if key not in kept:
        kept[key] = PartPage(desk, replace(alike, brief=True), A4, corner=corner)
    return replace(cast("PartPage", kept[key]), left_out=out)


def _halves(desk: Desk, alike: AlikeParts, out: frozenset[str], corner: float = 0.0) -> list[SharedPart]:
    """The ways to set a part close together, the best first; kept, since many parts are tried with one another."""
    kept = desk.kept.setdefault("halves", {})
    key = (alike.letters, out, corner)
    if key not in kept:
        page = _page(desk, alike, out, corner)
        made = page.close()
        kept[key] = [SharedPart(page, items, ruler, more, foot - MARGIN) for items, foot, ruler, more in made]
    return cast("list[SharedPart]", kept[key])


def _corner(alike: Subject) -> float:
    """Room for the letter in the corner."""
    return extent(_letter(alike, 0.0)).right - extent(_letter(alike, 0.0)).left + TEXT


def _letter(alike: Subject, right: float) -> list[Item]:
    """Its letters white on black, as far as `right`."""
    items, _ = heading(alike.letters, "", (), right, 0.0)
    inked = [item for item in items if not isinstance(item, Text) or item.text]
    return list(shifted(inked, right - extent(inked).right, 0.0))


def _draft(one: SharedPart, other: SharedPart, common: Sequence[WordRun]) -> Draft:
    pages, space = (one.page, other.page), one.page.space
    spare = max(space.high - one.high - other.high - APART, 0.0)
    notes = flow([TextPlace(space.left, 0.0, space.wide, space.bottom)], [common])
    gap = min((spare - notes.bottom) / 2, APART) if spare > notes.bottom else 0.0
    middle = MARGIN + one.high + gap / 2 + APART / 2
    top = MARGIN + one.high + gap + APART
    foot = top + other.high + (AIR if gap else 0.0)
    said = flow([TextPlace(space.left, foot, space.wide, space.bottom + AFTER)], [common])
    items = (
        *one.items,
        *_letter(other.page.subject, space.right),
        Stroke(points=((space.left, middle), (space.right, middle)), pen="outline", layer="frame"),
        *shifted(other.items, 0.0, top - MARGIN),
        *said.items,
    )
    long = "; ".join(f"{page.subject.letters}  {page.subject.title}" for page in pages)
    short = "; ".join(page.subject.letters for page in pages)
    return Draft(
        title=long if width(long, FIGURE, "medium") <= TITLE_WIDE else short,
        kind="part, two parts",
        sort=PART,
        number="".join(page.subject.number for page in pages),
        scale=_scales((one, other)),
        size=A4,
        items=items,
        holds=tuple(
            Held(place=place_of(look.part.id), title=f"{look.part.mark} {look.part.id}")
            for page in pages
            for look in page.subject.looks
        ),
    )


def _scales(halves: Sequence[SharedPart]) -> str:
    """Of the views, then of the sections."""
    views = sorted({half.ruler.scale for half in halves}, reverse=True)
    sections = sorted({sketch.scale for half in halves for sketch in half.made}, reverse=True)
    words = ", ".join(map(scale_words, views))
    return f"{words}, sections {', '.join(map(scale_words, sections))}" if sections else words
