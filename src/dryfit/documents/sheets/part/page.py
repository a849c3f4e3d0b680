"""Lays a part out on paper: views, table, sections, views of ends, notes, small picture; on as few sheets as hold it.

The largest scale at which all stands on one sheet is taken, if it is 1:10 or larger or the part fits at no larger
one. Else views and sections stand on the first sheet and the table on the second; else the views alone on the
first. Sections of ends are drawn large with figures where there is room, smaller where there is less, and are
left out only where one sheet then holds the part: table and edge tell them too.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import chain, islice, product

from ....geometry.frames import Vec2
from ...display import Draft, Item, extent, shifted
from ...kit.axis import BROKEN, NEAR, Axis
from ...kit.placing import Bounds
from ...standard import AIR, LIFT, PAST, TEXT
from ..page.arranging import BETWEEN, WIDE, Arranged, Sketch, arranged, rows, views
from ..page.frame import MARGIN, beside_block
from ..page.prose import AFTER, LINE, TextPlace
from ..page.table import GUTTER, Row, drawn, fitting, head_high, rows_high
from .contents import PICTURE, Contents

SMALLEST = BROKEN[0]  # a part that can be drawn at this goes on two sheets rather than smaller on one
LEAST_LONG = 47.0  # on paper: a face shorter than this has no room for its words
SIDE_WIDE = 2 * WIDE + BETWEEN  # two sections: of the column for sections on a landscape sheet
CLOSEST = -1.1  # a table's head is lower than its room, and may stand so near the last line
APART = 2 * BETWEEN  # what stands side by side
LOOSE, TIGHT = TEXT + AIR, 2.0  # between what stands under one another on a portrait sheet; not a table's row
TRIED = 3  # sets of sections, the best first
LEAST_NOTE = 2.0  # a place for notes holds a line and this


class PartPage(Contents):
    """One part, several that are truly alike or a pair of hands, on paper of one size."""

    @property
    def large_enough(self) -> bool:
        """Whether the views fit this paper, unbroken if upright, at a scale that is not too small."""
        rulers = [ruler for ruler in self.subject.rulers(self.space) if ruler.scale >= SMALLEST]
        rulers = [ruler for ruler in rulers if self.landscape or not ruler.breaks]
        return any(map(self._fits, rulers))

    def whole(self) -> Draft | None:
        """The part's one sheet; None where it takes more."""
        return self._whole

    @cached_property
    def _whole(self) -> Draft | None:
        """The same; what had no room is not tried again."""
        tried: set[tuple[Axis, tuple[Sketch, ...]]] = set()
        for ruler, made in self._tries():
            way = ruler, tuple(made)
            if way in tried:
                continue
            tried.add(way)
            if (items := self._with_table(ruler, made)) is not None:
                return self.draft(items, ruler.scale, made)
        return None

    def _tries(self) -> Iterator[tuple[Axis, list[Sketch]]]:
        """Scales with what else is drawn: a step smaller with all sections rather than larger with some left out.

        Where the largest has no room by the part's sizes alone, the next stands for it first: mostly that is the one.
        """
        rulers, kept = self._clear(), TRIED
        first, *others = self.subject.rulers(self.space)
        if self._has_no_room(first) and (other := next(filter(self._is_clear, others), None)) is not None:
            yield from ((other, made) for made in islice(self.made(), kept))
        for one in rulers:
            yield from ((one, made) for made in islice(self.made(), kept))
            smaller = next(rulers, None)
            if smaller is not None:
                yield from ((smaller, made) for made in islice(self.made(), kept))
            yield from ((one, made) for made in islice(self.made(), kept, None))
            if smaller is not None:
                yield from ((smaller, made) for made in islice(self.made(), kept, None))

    def close(self) -> Iterator[tuple[tuple[Item, ...], float, Axis, list[Sketch]]]:
        """Ways to set the part close together on an upright sheet, the best first; all sections are drawn.

        Each with the y of its foot, its scale and its sections.
        """
        head, _ = self.heading("")
        for ruler in islice(self._clear(), 1):
            if ruler.breaks:
                return
            for made in islice(self.made(), TRIED):
                stack = self.stack(ruler)
                tries = (self._aside_of(ruler, made), self._laid(ruler, stack.bottom, made, TIGHT, aside=True))
                for below in (*tries, self._laid(ruler, stack.bottom, made, TIGHT, aside=False)):
                    if below is not None:
                        foot = max(extent(head).bottom, stack.foot, extent(below).bottom)
                        yield (*head, *stack.items, *below), foot, ruler, made

    def _aside_of(self, ruler: Axis, made: list[Sketch]) -> list[Item] | None:
        """On a portrait sheet: sections and the picture on the right of a short part, table, ends and notes below."""
        space, stack = self.space, self.stack(ruler)
        margin = self._margin(ruler)
        sections = self._in_places(made, [margin])
        if sections is None or margin.wide < PICTURE[0]:
            return None
        picture, _ = self._pictured(sections, above=False)
        foot = self.under_table(stack.bottom + 1.0, space.wide)
        ends = views(made, space.wide)
        notes = self.flowed(self.places(foot + (ends.high + AIR if ends else PAST), space.wide), made)
        if picture is None or not notes.whole:
            return None
        items = self.table(space.left, stack.bottom + 1.0, space.wide)
        items += shifted(ends.items, space.left, foot + AIR)
        return [*items, *sections.items, *self.picture_in(picture), *notes.items]

    def drafts(self) -> list[Draft]:
        """The part's sheets, in order."""
        if (one := self.whole()) is not None:
            return [one]
        for ruler in self._clear():
            for made in islice(self.made(), 2):
                if (views := self._without_table(ruler, made)) is not None:
                    drawn_so, noted = views
                    table = self._more_sheets(self.body(self.space.wide), [], "cuts", noted=noted)
                    return [self.draft(drawn_so, ruler.scale, made), *table]
        for ruler in self._clear():
            if (items := self._with_table(ruler, [])) is not None:
                return [self.draft(items, ruler.scale, []), *self._more_sheets([], self.large, "sections", noted=True)]
        alone, noted = self._views_alone()
        return [alone, *self._more_sheets(self.body(self.space.wide), self.large, "cuts", noted=noted)]

    # --- scales ----------------------------------------------------------------------------------

    def _clear(self) -> Iterator[Axis]:
        """The ways at which the views fit the sheet; smaller ones only where no good one is left.

        A part is not drawn smaller than 1:10, nor too short on paper to hold its words, in order to get
        everything on one sheet.
        """
        rulers, none = self.subject.rulers(self.space), True
        for ruler in filter(self._is_clear, rulers):
            none = False
            yield ruler
        if none:
            yield next(filter(self._fits, rulers), rulers[-1])

    def _is_clear(self, ruler: Axis) -> bool:
        return ruler.scale >= SMALLEST and ruler.right - ruler.left >= LEAST_LONG and self._fits(ruler)

    def _has_no_room(self, ruler: Axis) -> bool:
        """Whether views and table have no room, by the part's sizes; nothing is drawn for that.

        On an upright sheet notes stand under the table, but where the margin beside the views may hold some.
        """
        foot, wide = self.least(ruler.scale), self.space.wide - SIDE_WIDE
        if not self.landscape:
            notes = 0.0 if self._has_margin(ruler) else max(self.lines - 2, 0) * LINE
            return self.under_table(foot, self.space.wide) + notes > self.space.bottom + AFTER
        beside, over_block = self.under_table(foot + CLOSEST, wide - APART), self.under_table(foot + AIR, wide - GUTTER)
        return min(beside, over_block) > self.space.bottom

    def _fits(self, ruler: Axis) -> bool:
        """Whether the views fit; those that cannot by their sizes are not drawn to find that out."""
        bottom = self.space.bottom
        return self.least(ruler.scale) <= bottom + NEAR and self.stack(ruler).bottom <= bottom

    # --- whole sheets ----------------------------------------------------------------------------

    def _with_table(self, ruler: Axis, made: list[Sketch]) -> tuple[Item, ...] | None:
        """Views, table, notes and these sections on one sheet; None where it does not fit."""
        reaches_over_block = ruler.right > self.space.left + SIDE_WIDE + GUTTER  # no table stands beside the views
        if self._has_no_room(ruler) and (reaches_over_block or not self.landscape):
            return None
        stack = self.stack(ruler)
        if stack.bottom > self.space.bottom:
            return None
        below = self._lying(ruler, made) if self.landscape else self._under(ruler, stack.bottom, made)
        if below is None and self._has_margin(ruler):
            stack, below = self.stack(ruler, narrow=True), self._margined(ruler, made)
        return None if below is None else (*self.heading("")[0], *stack.items, *below)

    def _has_margin(self, ruler: Axis) -> bool:
        """Whether a sheet stands upright and a section has room on the right of what lies on it."""
        return not self.landscape and self.subject.lies and ruler.right + GUTTER + WIDE < self.space.right

    def _without_table(self, ruler: Axis, made: list[Sketch]) -> tuple[tuple[Item, ...], bool] | None:
        """Views, sections and the small picture, and whether the notes found room; None where it does not fit."""
        stack, space = self.stack(ruler), self.space
        wide = space.wide - PICTURE[0] - APART
        side = arranged(made, SIDE_WIDE, self.subject.seen)
        items: list[Item] = []
        y = stack.bottom + 1.0
        if self._beside_free(ruler) and self.top + side.high < y:
            items += shifted(side.items, space.right - SIDE_WIDE, self.top)
        else:
            side = arranged(made, wide, self.subject.seen)
            items += shifted(side.items, space.left, y)
            y += side.high + (PAST if side else 0.0)
        ends = views(made, wide)
        items += shifted(ends.items, space.left, y)
        y += ends.high
        if y > space.bottom + PAST or space.bottom - PICTURE[1] < stack.bottom:
            return None
        notes = self.flowed(self.places(y, wide), made)
        items += notes.items if notes.whole else []
        return (*self.heading("")[0], *stack.items, *items, *self.picture(space.bottom)), notes.whole

    def _views_alone(self) -> tuple[Draft, bool]:
        """The views at the largest scale at which they fit, with what else there is room for; and whether notes are."""
        ruler = next(self._clear())
        stack = self.stack(ruler)
        items = [*self.heading("")[0], *stack.items]
        notes = self.flowed(self.places(stack.bottom + 2.0, self.space.wide - PICTURE[0] - GUTTER))
        if notes.whole:
            items += notes.items
        if self.space.bottom - stack.bottom > PICTURE[1] + 2.0:
            items += self.picture(self.space.bottom)
        return self.draft(tuple(items), ruler.scale, []), notes.whole

    def _more_sheets(self, body: list[Row], made: list[Sketch], title: str, *, noted: bool) -> list[Draft]:
        """What is left of table and sections, on as many sheets as it takes; the notes, unless `noted` on the first."""
        wide, cols = self.space.wide, self.columns(self.space.wide)
        blocks, drafts = list(_in_blocks(made, wide)), []
        while body or blocks:
            items, y = self.heading(title)
            count = fitting(body, self.space.bottom - y - head_high(cols) - 1.0)
            if body:
                items += drawn(self.space.left, y, cols, body[:count])
                y += head_high(cols) + rows_high(body[:count]) + APART
                body = body[count:]
            shown: list[Sketch] = []
            while blocks and not body:
                more = _block(blocks[0], wide, self.subject.seen)
                if y + more.high > self.space.bottom and (shown or count):
                    break
                items += shifted(more.items, self.space.left, y)
                y += more.high + 2.0
                shown += blocks.pop(0)
            notes = self.flowed(self.places(y, wide))
            if not body and not blocks and notes.whole and not noted:
                items += notes.items
            drafts.append(self.draft(tuple(items), None, shown, title))
        return drafts

    # --- on one sheet ------------------------------------------------------------------------------

    def _beside_free(self, ruler: Axis) -> bool:
        """Whether the views leave the column for sections free."""
        return max(ruler.right + 2 * TEXT, self.stack(ruler).right + 2.0) < self.space.right - SIDE_WIDE

    def _lying(self, ruler: Axis, made: list[Sketch]) -> list[Item] | None:
        """On a sheet that lies: the table on the left or over the title block, the picture below or in the heading."""
        tries = product((self._beside, self._over_block), (False, True))
        laid = (lay(ruler, made, above=above) for lay, above in tries)
        return next((items for items in laid if items is not None), None)

    def _beside(self, ruler: Axis, made: list[Sketch], *, above: bool) -> list[Item] | None:
        """Table, ends and notes on the left, sections in a column on the right, above the title block.

        Args:
            above: whether the picture stands in the heading.
        """
        space, y = self.space, self.stack(ruler).bottom
        wide = space.wide - SIDE_WIDE - APART
        high = head_high(self.columns(wide)) + rows_high(self.body(wide))
        top = y + min(PAST, max(space.bottom - y - high, CLOSEST))
        foot, ends = self.under_table(top, wide), views(made, wide)
        bottom = foot + (ends.high + 2.0 if ends else 0.0)
        if bottom > space.bottom:
            return None
        free = self._beside_free(ruler)
        column = TextPlace(space.right - SIDE_WIDE, self.top if free else y + AIR, SIDE_WIDE, space.bottom + PAST)
        sections = self._in_places(made, [column] if free else [self._margin(ruler), column])
        if sections is None:
            return None
        picture, column = self._pictured(sections, above=above)
        aside = TextPlace(column.x, max(column.y, y) + 2.0, column.wide, column.bottom)
        places = [place for place in (*self.places(bottom + PAST, wide), aside) if _holds_a_line(place)]
        if picture is None or not places:
            return None
        notes = self.flowed(places, made)
        if not notes.whole:
            return None
        items = [*self.table(space.left, top, wide), *shifted(ends.items, space.left, foot + 2.0)]
        return [*items, *sections.items, *self.picture_in(picture), *notes.items]

    def _over_block(self, ruler: Axis, made: list[Sketch], *, above: bool) -> list[Item] | None:
        """The table above the title block, all else in the column on its left, down to the margin.

        Args:
            above: whether the picture stands in the heading.
        """
        space, stack, foot = self.space, self.stack(ruler), self.size[1] - MARGIN
        x, wide = space.left + SIDE_WIDE + GUTTER, space.wide - SIDE_WIDE - GUTTER
        over = stack.below(x)
        under_table, ends = self.under_table(over + AIR, wide), views(made, wide)
        bottom = under_table + (LIFT + ends.high if ends else 0.0)
        if bottom > space.bottom:
            return None
        column = TextPlace(space.left, stack.bottom + AIR, SIDE_WIDE, foot)
        sections = self._in_places(made, [self._margin(ruler), column])
        if sections is None:
            return None
        picture, column = self._pictured(sections, above=above)
        under = TextPlace(x, bottom + LIFT, wide, space.bottom + AFTER)
        beside = TextPlace(column.x, max(column.y, space.bottom), beside_block(self.size), column.bottom + AFTER)
        left = TextPlace(column.x, column.y, column.wide, min(column.bottom, space.bottom) + AFTER)
        places = [place for place in (under, left, beside) if _holds_a_line(place)]
        if picture is None or not places:
            return None
        notes = self.flowed(places, made)
        if not notes.whole:
            return None
        items = [*self.table(x, over + AIR, wide), *shifted(ends.items, x, under_table + LIFT)]
        return [*items, *sections.items, *self.picture_in(picture), *notes.items]

    def _margin(self, ruler: Axis) -> TextPlace:
        """The room on the right of the views."""
        reach = max(self.stack(ruler).right, ruler.right) + GUTTER
        return TextPlace(reach, self.top, self.space.right - reach, self.stack(ruler).bottom)

    def _in_places(self, made: list[Sketch], places: list[TextPlace]) -> "_Sections | None":
        """Sections in the first place that holds them, those that come later in the next; None where the last is full.

        What is left of the last place is where other things may stand.
        """
        left, last = [sketch for sketch in made if not sketch.view], places[-1]
        placed: list[tuple[Arranged, Vec2]] = []
        corner = (0.0, 0.0)
        for place in places:
            count = len(left)
            while count and not _holds(place, side := arranged(left[:count], place.wide, self.subject.seen)):
                count -= 1
            if count:
                placed.append((side, (place.x, place.y)))
            if place is last:
                corner = (side.corner[0], place.y + side.corner[1]) if count else corner
                y = place.y + side.high + AIR if count else place.y
                last = TextPlace(place.x, y, place.wide, place.bottom)
            left = left[count:]
        return None if left else _Sections(placed, last, corner)

    def _pictured(self, left: "_Sections", *, above: bool) -> tuple[Bounds | None, TextPlace]:
        """Where the picture stands: in the heading, beside the last section, at a column's foot; what is then free."""
        place, (x, y) = left.left, left.corner
        if above:
            return self.above, place
        if y and x + PICTURE[0] <= place.wide + BETWEEN and place.y - y >= PICTURE[1]:
            return self.room_for_picture(place.y - AIR, place.x + place.wide), place
        top = place.bottom - PICTURE[1] - 1.0
        if top < place.y:
            return None, place
        foot = max(place.bottom - PAST, place.y + PICTURE[1] + 1.0)  # clear of the title block where it can be
        room = self.room_for_picture(foot, place.x + place.wide)
        return room, replace(place, bottom=foot - PICTURE[1] - 1.0)

    def _under(self, ruler: Axis, y: float, made: list[Sketch]) -> list[Item] | None:
        """On a portrait sheet: table, sections, ends, notes with the picture to their right.

        Beside a short part there is room for the sections, and they go there.
        """
        tries = ((LOOSE, False), (TIGHT, False), (TIGHT, True))
        laid = (self._laid(ruler, y, made, gap, aside=aside) for gap, aside in tries)
        noted = (self._noted(ruler, made, above=above) for above in (False, True))
        return next((items for items in chain(laid, noted) if items is not None), None)

    def _margined(self, ruler: Axis, made: list[Sketch]) -> list[Item] | None:
        """On a portrait sheet: what has room on the right of views without words there, table and all else below."""
        space, stack = self.space, self.stack(ruler, narrow=True)
        reach = stack.right + GUTTER
        margin = TextPlace(reach, self.top, space.right - reach, stack.bottom)
        bottom = self.under_table(stack.bottom + AIR, space.wide)
        lower = TextPlace(space.left, bottom + TIGHT, space.wide, space.bottom)
        inside = self._in_places(made, [margin])
        sections = inside or self._in_places(made, [margin, lower])
        if sections is None:
            return None
        picture, left = self._pictured(sections, above=False) if inside else (self.above, sections.left)
        ends = views(made, space.wide)
        top = (lower.y if inside else left.y) + ends.high
        places = [place for place in ([left] if inside else []) if _holds_a_line(place)] + self.places(top, space.wide)
        if picture is None or top > space.bottom:
            return None
        notes = self.flowed(places, made)
        if not notes.whole:
            return None
        items = [*self.table(space.left, stack.bottom + AIR, space.wide), *sections.items]
        items += shifted(ends.items, space.left, top - ends.high)
        return [*items, *self.picture_in(picture), *notes.items]

    def _noted(self, ruler: Axis, made: list[Sketch], *, above: bool) -> list[Item] | None:
        """The same with the notes beside the sections, and on under them.

        Args:
            above: whether the picture stands in the heading; else it stands beside the sections, under notes.
        """
        space = self.space
        if not any(not sketch.view for sketch in made):
            return None
        top = self.under_table(self.stack(ruler).bottom, space.wide) + TIGHT
        least = sum(max(sketch.wide, WIDE) + BETWEEN for sketch in made if not sketch.view)
        side = arranged(made, min(least, space.wide), self.subject.seen)
        x = space.left + side.right + GUTTER
        ends = views(made, space.wide)
        beside = bool(ends) and ends.right <= space.right - x
        under = 0.0 if beside else ends.high
        band = max(side.high, ends.high) if beside else side.high
        bottom, foot = top + band + under, top + band - (0.0 if above else PICTURE[1])
        picture = self.above if above else self.room_for_picture(top + band - 2 * AIR)  # clear of the notes below
        right = TextPlace(x, top + (ends.high if beside else 0.0), space.right - x, foot)
        places = [place for place in (right, *self.places(bottom, space.wide)) if _holds_a_line(place)]
        if picture is None or x + PICTURE[0] > space.right or bottom > space.bottom or not places or right.y > foot:
            return None
        notes = self.flowed(places, made)
        if not notes.whole:
            return None
        items = self.table(space.left, self.stack(ruler).bottom, space.wide)
        at = (x, top) if beside else (space.left, top + band)
        items += [*shifted(side.items, space.left, top), *shifted(ends.items, *at)]
        return [*items, *self.picture_in(picture), *notes.items]

    def _laid(self, ruler: Axis, y: float, made: list[Sketch], gap: float, *, aside: bool) -> list[Item] | None:
        """The same with so much room between one thing and the next; `aside`: the picture beside the sections."""
        space, wide = self.space, self.space.wide - PICTURE[0] - APART
        bottom = self.under_table(y + 1.0, space.wide)
        reach = self.stack(ruler).right
        left = min(reach + GUTTER, space.right - SIDE_WIDE)
        side = arranged(made, space.right - left, self.subject.seen)
        beside = bool(side) and max(reach, ruler.right + LOOSE) + 2.0 < left and self.top + side.high < y
        if aside and (beside or not side):
            return None
        at = (left, self.top + 1.0)
        if beside:
            bottom += gap
        else:
            side = arranged(made, wide if aside else space.wide, self.subject.seen)
            at = (space.left, bottom + gap)
            picture = bottom + gap + max(side.high, PICTURE[1])
            bottom += max(side.high, PICTURE[1] if aside else 0.0) + gap + (gap - 1.0 if side else 0.0)
        ends = views(made, space.wide)
        under = bottom + ends.high - (LOOSE - gap if ends else 0.0)
        if not aside and under + PICTURE[1] > space.bottom:
            return None
        notes = self.flowed(self.places(under, space.wide if aside else wide), made)
        if not notes.whole:
            return None
        items = [*self.table(space.left, y + 1.0, space.wide), *shifted(side.items, *at)]
        items += self.picture(picture) if aside else []
        items += [*shifted(ends.items, space.left, bottom), *notes.items]
        return items if aside else [*items, *self.picture(under + PICTURE[1])]


@dataclass(frozen=True, slots=True)
class _Sections:
    """Sections and where they stand, what is left of their last place; the corner free beside the last."""

    placed: list[tuple[Arranged, Vec2]]
    left: TextPlace
    corner: Vec2

    @property
    def items(self) -> list[Item]:
        """All of them, drawn."""
        return [item for side, at in self.placed for item in shifted(side.items, *at)]


def _holds(place: TextPlace, side: Arranged) -> bool:
    """Whether a place holds sections, their words among them."""
    return place.y + side.high <= place.bottom + AIR and side.right <= place.wide + BETWEEN


def _holds_a_line(place: TextPlace) -> bool:
    return place.bottom - place.y > LINE + LEAST_NOTE and place.wide > 0.0


def _in_blocks(made: Sequence[Sketch], wide: float) -> Iterator[list[Sketch]]:
    """Sections, then views of ends, in groups that share a row, so that a sheet can end between two rows."""
    for view in (False, True):
        yield from rows([sketch for sketch in made if sketch.view is view], wide)


def _block(block: Sequence[Sketch], wide: float, seen: str) -> Arranged:
    """One row of sections or of views of ends."""
    return views(block, wide) if block[0].view else arranged(block, wide, seen)
