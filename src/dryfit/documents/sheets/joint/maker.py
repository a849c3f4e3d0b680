"""Details of the joints: every kind of joint in the piece, with all it takes to cut it and put it together.

Joints that are made alike share one detail, both hands of a leaning one too, and so do those that differ in figures
alone: these stand in a table. A detail has the section seen from the front, the face or the row that is marked, the
cut along the board, what to do in which order, its figures to tick, the marks of all its joints and a picture of where
they are. Small ones share a sheet, where they have room; what is said of all of them is said once there. Screws into
the wall have sheets of their own (`sheets/fixings`).
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property, partial

from ....piece.model import WALL, Joint
from ...display import Display, Draft, Held, Item, Stroke, shifted
from ...kit.view import PlacedView, View
from ...looks import Desk
from ...naming import is_written_otherwise
from ...pages import joint as place_of
from ...sheet import DeferredSheets, sheet, tried
from ...standard import A4
from ..fixings.chain import chain_of
from ..page.frame import LEFT, MARGIN, Space, space
from ..page.prose import WordRun, strong
from .groups import AlikeJoints, JointTold, gathered, kind_said, letters_of_both, one, tag, tag_of, tags, told_of
from .heading import WIDE, heading
from .layout import BETWEEN, CLOSE, Band, Close, alone, columns, high_of, sentences, shrunk, titled, views
from .roles import Roles
from .shared import Shared, by_itself, shared, views_of

GAP, MOST_GAP = BETWEEN, 2 * BETWEEN  # between bands, and where there is room to spare
APART = GAP  # between two details, the rule in the middle
SMALLER = 2  # how many of the larger scales are left out at most, so that a detail has room
GUESSED = -1  # stands for one left out: what its views take is guessed as long as they are not drawn so


@dataclass
class _Views:
    """The views of each joint that stands for others or for itself, drawn once at a scale."""

    desk: Desk
    made: dict[tuple[object, ...], Sequence[View]] = field(default_factory=dict)

    def of(self, smaller: int, desk: Desk, roles: Roles, several: bool) -> Sequence[View]:
        """Those of one joint at a desk, with so many of the larger scales left out; kept as they are printed."""
        if desk is not self.desk or is_written_otherwise():
            return views(desk, roles, smaller, several=several)
        key = (roles.joint.key, smaller, several)
        if key not in self.made:
            self.made[key] = views(desk, roles, smaller, several=several)
        return self.made[key]


@dataclass
class _Detail:
    """Joints on one detail; what is placed at a scale is placed once. `called` by their letters and their kind."""

    desk: Desk
    called: str
    group: Shared
    drawn: _Views
    words: list[list[WordRun]]
    _views: dict[int, list[View]] = field(default_factory=dict)
    _placed: dict[int, tuple[PlacedView, ...]] = field(default_factory=dict)
    _at_ease: dict[int, list[Band]] = field(default_factory=dict)
    _close: dict[int, Close] = field(default_factory=dict)

    @cached_property
    def told(self) -> list[str]:
        """Its paragraphs as they read."""
        return [_text(runs) for runs in self.words]

    def shown(self, smaller: int = 0) -> tuple[PlacedView, ...]:
        """Its views, with so many of the larger scales left out; one that has the same scale as before is the same."""
        if smaller not in self._placed:
            self._placed[smaller] = self._guessed() if smaller == GUESSED else self._shown(smaller)
        return self._placed[smaller]

    def _shown(self, smaller: int) -> tuple[PlacedView, ...]:
        made = self._views[smaller] = views_of(self.desk, self.group, partial(self.drawn.of, smaller))
        return titled(self.desk, made, self.shown() if smaller else ())

    def _guessed(self) -> tuple[PlacedView, ...]:
        """As large as its views are one scale smaller: the wood shrinks, what is said around it does not."""
        return tuple(map(shrunk, self.shown(), self._views[0]))

    def at_ease(self, smaller: int = 0) -> list[Band]:
        """With a sheet to itself."""
        if smaller not in self._at_ease:
            self._at_ease[smaller] = alone(self.desk, self.group, self.shown(smaller))
        return self._at_ease[smaller]

    def close(self, smaller: int = 0, words: Sequence[Sequence[WordRun]] | None = None) -> list[Band]:
        """Where it takes least of the sheet; with these of its words, if given."""
        return self._as_close(smaller).bands(self.words if words is None else words)

    def high(self, smaller: int, words: Sequence[Sequence[WordRun]] | None = None) -> float:
        """How much of the sheet that takes."""
        return self._as_close(smaller).high(self.words if words is None else words)

    def is_drawn(self, smaller: int) -> bool:
        """Whether its views are there with so many of the larger scales left out."""
        return smaller in self._placed

    def _as_close(self, smaller: int) -> Close:
        smaller = 1 if smaller == GUESSED and self.is_drawn(1) else smaller
        if smaller not in self._close:
            first = next(iter(self._close.values()), None)
            self._close[smaller] = Close(self.desk, self.group, self.shown(smaller), first)
        return self._close[smaller]


@sheet("joints", paper="workshop", order=80, aside=True)
def joints(desk: Desk) -> Iterator[DeferredSheets]:
    """All details, in the order of the schedule; small ones together where a sheet holds them.

    What cannot be drawn takes its own detail away, and comes last.
    """
    room = space(A4, desk)
    every = _details(desk)
    details = [one for one in every if isinstance(one, _Detail)]
    for page in _packed(desk, details, room):
        draw = partial(_alone, desk, page.details[0], room) if len(page.details) == 1 else partial(_several, page, room)
        yield DeferredSheets(title=", ".join(one.called for one in page.details), draw=draw)
    yield from (one for one in every if isinstance(one, DeferredSheets))


def picture(desk: Desk, joint: Joint) -> Display:
    """One joint's detail as a drawing of its own, for the manual."""
    group = by_itself(one(desk, joint))
    bands = alone(desk, group, titled(desk, views(desk, group.first)), paged=False)
    items = shifted(_stacked(bands, GAP), MARGIN / 2, MARGIN / 2)
    return Display(width=WIDE + MARGIN, height=high_of(bands) + MARGIN, items=items)


def _details(desk: Desk) -> list[_Detail | DeferredSheets]:
    """Each group of joints by itself, so that a fault in one leaves the others."""
    drawn = _Views(desk)
    here = [joint for joint in desk.book.piece.joints if not (WALL in joint.key and chain_of(joint))]
    every = [tried(_called(desk, [joint]), partial(told_of, desk, joint)) for joint in here]
    alike = gathered(one for one in every if isinstance(one, JointTold))
    seen = [(some, tried(_called(desk, some.joints), partial(_seen, drawn, some))) for some in alike]
    sound = [some for some, views in seen if not isinstance(views, DeferredSheets)]
    groups = shared(desk, sound, partial(drawn.of, 0), WIDE)
    details = [tried(_called(desk, group.joints), partial(_detail, desk, group, drawn)) for group in groups]
    lost = [one for one in (*every, *(views for _, views in seen)) if isinstance(one, DeferredSheets)]
    return [*details, *lost]


def _seen(drawn: _Views, some: AlikeJoints) -> Sequence[View]:
    """The views of joints made alike, which may be of one form with others."""
    return drawn.of(0, drawn.desk, some.first, len(some.roles) > 1)


def _called(desk: Desk, joints: Sequence[Joint]) -> str:
    """Joints of one detail by the letters of the first, and how many more there are."""
    more = f" and {len(joints) - 1} made alike" if len(joints) > 1 else ""
    return f"{tag_of(desk, joints[0])} {joints[0].kind}{more}"


def _detail(desk: Desk, group: Shared, drawn: _Views) -> _Detail:
    detail = _Detail(desk, _called(desk, group.joints), group, drawn, sentences(desk, group))
    detail.at_ease()
    return detail


def _stacked(bands: Sequence[Band], gap: float) -> list[Item]:
    """Bands under one another, from (0, 0) down."""
    items: list[Item] = []
    y = 0.0
    for band in bands:
        items += shifted(band.items, 0.0, y)
        y += band.high + gap
    return items


# --- which share a sheet -------------------------------------------------------------------------


@dataclass(frozen=True)
class _Page:
    """Details of one sheet, each close together, and what is said of all of them under the last."""

    desk: Desk
    details: list[_Detail]
    smaller: int = 0

    def stacks(self) -> list[list[Band]]:
        """Each detail's bands, then what is said of all."""
        own, said = self._words()
        stacks = [one.close(self.smaller, words) for one, words in zip(self.details, own, strict=True)]
        return [*stacks, [columns(said)]] if said else stacks

    def _words(self) -> tuple[list[list[list[WordRun]]], list[list[WordRun]]]:
        """What is said of each detail by itself, and what of all; only if it is the same of all of them."""
        first, *others = (one.told for one in self.details)
        once = [text for text in first if all(text in other for other in others)]
        own = [
            [runs for runs, text in zip(one.words, one.told, strict=True) if text not in once] for one in self.details
        ]
        if not once:
            return own, []
        both = "Both of these:" if len(self.details) == 2 else "All of these:"
        shared = [runs for runs, text in zip(self.details[0].words, first, strict=True) if text in once]
        return own, [[strong(both), *shared[0]], *shared[1:]]

    @cached_property
    def least(self) -> float:
        """What they would take if all their words were said already; quicker to tell than what they take."""
        return sum(one.high(self.smaller, []) for one in self.details) + APART * (len(self.details) - 1)

    @cached_property
    def high(self) -> float:
        """How much of a sheet they take."""
        own, said = self._words()
        each = [one.high(self.smaller, words) for one, words in zip(self.details, own, strict=True)]
        return sum(each) + APART * (len(each) - 1) + (CLOSE + columns(said).high if said else 0.0)

    def with_(self, other: _Detail) -> "_Page":
        """The same and one more, in the order of the schedule."""
        return _Page(self.desk, [*self.details, other], self.smaller)


def _text(runs: Iterable[WordRun]) -> str:
    return " ".join(run.text for run in runs)


def _packed(desk: Desk, details: Sequence[_Detail], room: Space) -> list[_Page]:
    """Details on as few sheets as hold them at their largest scale, or on fewer still where that is smaller.

    They are drawn smaller only where it takes fewer sheets by what is told of their heights without that.
    """
    pages = _filled(desk, details, room.high, 0)
    if len(pages) < 2:
        return pages
    if _may_save(desk, details, room.high, len(pages)):
        pages = min((pages, _filled(desk, details, room.high, 1)), key=len)
    at = {id(one): place for place, one in enumerate(details)}
    in_order = (replace(page, details=sorted(page.details, key=lambda one: at[id(one)])) for page in pages)
    return sorted((_largest(page, room.high) for page in in_order), key=lambda page: at[id(page.details[0])])


def _may_save(desk: Desk, details: Sequence[_Detail], high: float, most: int) -> bool:
    """Whether details a scale smaller may take fewer sheets; only those are drawn that by a guess would share one."""
    while len(pages := _filled(desk, details, high, GUESSED)) < most:
        guessed = [one for page in pages if len(page.details) > 1 for one in page.details if not one.is_drawn(1)]
        if not guessed:
            return True
        for detail in guessed:
            detail.shown(1)
    return False


def _largest(page: _Page, high: float) -> _Page:
    """A page at the largest scale that it holds; one detail by itself finds its own."""
    if len(page.details) == 1:
        return page
    at_each = (replace(page, smaller=smaller) for smaller in range(SMALLER))
    return next((one for one in at_each if one.high <= high), page)


def _filled(desk: Desk, details: Sequence[_Detail], high: float, smaller: int) -> list[_Page]:
    """Sheets filled one after the other, the highest detail first, each with the first that still has room."""
    pages: list[_Page] = []
    heights = {id(detail): detail.high(smaller) for detail in details}
    for detail in sorted(details, key=lambda detail: -heights[id(detail)]):
        least = APART + detail.high(smaller, [])
        open_ = (at for at, page in enumerate(pages) if page.least + least <= high)
        place = next((at for at in open_ if pages[at].with_(detail).high <= high), None)
        if place is None:
            pages.append(_Page(desk, [detail], smaller))
        else:
            pages[place] = pages[place].with_(detail)
    return pages


# --- sheets --------------------------------------------------------------------------------------


def _alone(desk: Desk, detail: _Detail, room: Space) -> Iterator[Draft]:
    """A detail with a sheet of its own, or with more where it is very large."""
    bands, smaller, gap = _fitting(detail, room.high)
    scales = [view.scale for view in detail.shown(smaller)]
    for number, page in enumerate(_pages(desk, detail.group, bands, room.high, gap)):
        spare = (room.high - high_of(page, gap)) / max(len(page) - 1, 1)
        items = _stacked(page, min(gap + max(spare, 0.0), MOST_GAP))
        title = f"{tag(desk, detail.group.first)} {kind_said(detail.group.first)}"
        yield _draft(desk, [detail], title, items, room, scales, str(number + 1) if number else "")


def _fitting(detail: _Detail, high: float) -> tuple[list[Band], int, float]:
    """The detail at ease if it fits a sheet; else close together; else with smaller views; else over several sheets.

    Returns:
        Its bands, how many of the larger scales are left out, and how near together the bands stand.
    """
    for smaller in range(SMALLER + 1):
        for make, gap in ((detail.at_ease, GAP), (detail.close, CLOSE)):
            bands = make(smaller)
            if high_of(bands, gap) <= high:
                return bands, smaller, gap
    return detail.at_ease(), 0, GAP


def _pages(desk: Desk, group: Shared, bands: Sequence[Band], high: float, gap: float) -> Iterator[list[Band]]:
    """Bands in as many sheets as they take; the heading is said again on each."""
    page: list[Band] = []
    for band in bands:
        if page and high_of([*page, band], gap) > high:
            yield page
            items, tall = heading(desk, group, continued=True)
            page = [Band(high=tall, draw=partial(tuple, items))]
        page.append(band)
    yield page


def _several(page: _Page, room: Space) -> Iterator[Draft]:
    """Details on one sheet, a rule between them; what is said of all under the last."""
    stacks, count = page.stacks(), len(page.details)
    between = sum(len(some) for some in stacks) - 1
    gap = CLOSE + min(max(room.high - page.high, 0.0) / max(between, 1), MOST_GAP - CLOSE)
    items: list[Item] = []
    y = 0.0
    for place, some in enumerate(stacks):
        items += shifted(_stacked(some, gap), 0.0, y)
        y += high_of(some, gap)
        if place + 1 < count:
            apart = APART + gap - CLOSE
            items.append(Stroke(points=((0.0, y + apart / 2), (WIDE, y + apart / 2)), pen="outline", layer="frame"))
            y += apart
        else:
            y += gap
    scales = [view.scale for one in page.details for view in one.shown(page.smaller)]
    title = ", ".join(tag(page.desk, one.group.first) for one in page.details)
    yield _draft(page.desk, page.details, title, items, room, scales)


def _draft(
    desk: Desk,
    details: Sequence[_Detail],
    title: str,
    items: Sequence[Item],
    room: Space,
    scales: Iterable[float],
    further: str = "",
) -> Draft:
    said = ", ".join(f"1:{round(1 / scale)}" for scale in sorted(set(scales), reverse=True))
    number = "×".join(letters_of_both(desk, details[0].group.first.joint))
    return Draft(
        title=title,
        kind="joint",
        number=f"{number} {further}".strip(),
        scale=said or "–",
        size=A4,
        items=shifted(items, LEFT, room.top),
        holds=tuple(held for detail in details for held in _held(desk, detail.group)),
    )


def _held(desk: Desk, group: Shared) -> Iterator[Held]:
    """Every joint of a detail; the first with its name, the others found by it."""
    for roles in group.roles:
        first = f"{tags(desk, group.roles)} {kind_said(roles)}" if roles is group.first else ""
        yield Held(place=place_of(roles.joint.key), title=first)
