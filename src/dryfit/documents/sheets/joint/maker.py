"""Details of the joints: every kind of joint in the piece full size, with all it takes to cut it and put it together.

Joints that are made alike share one detail, both hands of a leaning one too. A detail has the section seen from the
front, the face or the row that is marked, the cut along the board, what to do in which order, and a table of its
figures to tick. Two small ones stand on a sheet where they fit full size; else each has a sheet of its own, with the
marks of all its joints and a picture of where they are.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from ....piece.model import Joint
from ...display import Display, Item, Stroke, shifted
from ...looks import Desk
from ..page.frame import LEFT, MARGIN, Space, space
from ..registry import A4, Draft, sheet
from .drawing.pad import Titled
from .groups import Alike, alike, kind_said, one, tag
from .heading import heading, places
from .layout import Band, alone, close, titled, views

GAP, MOST_GAP = 5.0, 9.0  # between bands, and where there is room to spare
APART = 10.0  # between two details, the rule in the middle
LEAST_PLACES = 26.0  # of room for the marks of all joints
FILE = 190.0  # width of a detail drawn by itself


@dataclass(frozen=True, slots=True, kw_only=True)
class _Detail:
    """A group of joints with its views, laid out close."""

    group: Alike
    shown: tuple[Titled, ...]
    close: tuple[Band, ...]

    @property
    def high(self) -> float:
        return _high(self.close)


@sheet("joints", paper="workshop", order=80, aside=True)
def joints(desk: Desk) -> Iterator[Draft]:
    """All details, in the order of the schedule; a small one takes the next small one onto its sheet."""
    room = space(A4, desk)
    left = [_detail(desk, group) for group in alike(desk)]
    while left:
        first = left.pop(0)
        second = next((other for other in left if first.high + other.high + APART <= room.high), None)
        if second is None:
            yield from _alone(desk, first, room)
        else:
            left.remove(second)
            yield _pair(desk, first, second, room)


def picture(desk: Desk, joint: Joint) -> Display:
    """One joint's detail as a drawing of its own, for the manual."""
    group = one(desk, joint)
    bands = alone(desk, group, titled(views(desk, group.first)))
    items = shifted(_stacked(bands, GAP), (FILE - 180.0) / 2, MARGIN / 2)
    return Display(width=FILE, height=_high(bands) + MARGIN, items=items)


def _detail(desk: Desk, group: Alike) -> _Detail:
    shown = titled(views(desk, group.first))
    return _Detail(group=group, shown=shown, close=tuple(close(desk, group, shown)))


def _high(bands: Sequence[Band]) -> float:
    return sum(band.high for band in bands) + GAP * (len(bands) - 1)


def _stacked(bands: Sequence[Band], gap: float) -> list[Item]:
    """Bands under one another, from (0, 0) down."""
    items: list[Item] = []
    y = 0.0
    for band in bands:
        items += shifted(band.items, 0.0, y)
        y += band.high + gap
    return items


# --- sheets --------------------------------------------------------------------------------------


def _alone(desk: Desk, detail: _Detail, room: Space) -> Iterator[Draft]:
    """A detail with a sheet of its own, or with more where it is very large."""
    bands = _fitting(desk, detail, room.high)
    spare = room.high - _high(bands) - GAP
    if spare >= LEAST_PLACES:
        items, high = places(desk, detail.group, spare)
        if items:
            bands = [*bands, Band(items=tuple(items), high=high)]
    for number, page in enumerate(_pages(desk, detail.group, bands, room.high)):
        spare = (room.high - _high(page)) / max(len(page) - 1, 1)
        items = _stacked(page, min(GAP + max(spare, 0.0), MOST_GAP))
        title = f"{tag(desk, detail.group.first)} {kind_said(detail.group.first)}"
        yield _draft(desk, [detail], title, items, room, str(number + 1) if number else "")


def _fitting(desk: Desk, detail: _Detail, high: float) -> list[Band]:
    """The whole detail if it fits a sheet; else close together; else with smaller views; else over several sheets."""
    whole = alone(desk, detail.group, detail.shown)
    if _high(whole) <= high:
        return whole
    if detail.high <= high:
        return list(detail.close)
    for smaller in (1, 2):
        shown = titled(views(desk, detail.group.first, smaller))
        for bands in (alone(desk, detail.group, shown), close(desk, detail.group, shown)):
            if _high(bands) <= high:
                return bands
    return whole


def _pages(desk: Desk, group: Alike, bands: Sequence[Band], high: float) -> Iterator[list[Band]]:
    """Bands in as many sheets as they take; the heading is said again on each."""
    page: list[Band] = []
    for band in bands:
        if page and _high([*page, band]) > high:
            yield page
            items, tall = heading(desk, group, continued=True)
            page = [Band(items=tuple(items), high=tall)]
        page.append(band)
    yield page


def _pair(desk: Desk, first: _Detail, second: _Detail, room: Space) -> Draft:
    """Two details on one sheet, a rule between them."""
    spare = (room.high - first.high - second.high) / 2
    middle = first.high + spare
    items = [
        *_stacked(first.close, GAP),
        Stroke(points=((0.0, middle), (180.0, middle)), pen="outline", layer="frame"),
        *shifted(_stacked(second.close, GAP), 0.0, first.high + 2 * spare),
    ]
    title = f"{tag(desk, first.group.first)}, {tag(desk, second.group.first)}"
    return _draft(desk, [first, second], title, items, room)


def _draft(
    desk: Desk, details: Sequence[_Detail], title: str, items: Sequence[Item], room: Space, further: str = ""
) -> Draft:
    scales = sorted({view.scale for detail in details for view in detail.shown}, reverse=True)
    number = tag(desk, details[0].group.first).replace(" × ", "×")
    return Draft(
        title=title,
        kind="joint",
        number=f"{number} {further}".strip(),
        scale=", ".join(f"1:{round(1 / scale)}" for scale in scales) or "–",
        size=A4,
        items=shifted(items, LEFT, room.top),
    )
