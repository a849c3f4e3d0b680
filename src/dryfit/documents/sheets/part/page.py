"""Lays a part out on paper: views, table, sections, views of ends, notes, small picture; on as few sheets as hold it.

The largest scale at which all stands on one sheet is taken, if it is 1:10 or larger or the part fits at no larger
one. Else views and sections stand on the first sheet and the table on the second; else the views alone on the
first. Sections of ends are drawn large with figures where there is room, smaller where there is less, and are
left out only where one sheet then holds the part: table and edge tell them too.
"""

from collections.abc import Iterator, Sequence
from itertools import islice

from ...display import Item, extent, shifted
from ..dimensions.ruler import Ruler
from ..page.arranging import BETWEEN, Arranged, Sketch, arranged, rows, views
from ..page.prose import LINE, Place
from ..page.table import Row, drawn, fitting, head_high, rows_high
from ..registry import Draft
from .contents import PICTURE, Contents

SMALLEST = 0.1  # a part that can be drawn at this goes on two sheets rather than smaller on one
LEAST_LONG = 47.0  # on paper: a face shorter than this has no room for its words
SIDE_WIDE = 66.0  # of the column for sections on a landscape sheet
CLOSEST = -1.1  # a table's head is lower than its room, and may stand so near the last line
LOOSE, TIGHT = 3.0, 2.0  # between what stands under one another on a portrait sheet; not a table's row
LEAST_NOTE = 2.0  # a place for notes holds a line and this


class Page(Contents):
    """One part, several that are truly alike or a pair of hands, on paper of one size."""

    @property
    def large_enough(self) -> bool:
        """Whether the views fit this paper, unbroken if upright, at a scale that is not too small."""
        rulers = [ruler for ruler in self.subject.rulers(self.space) if ruler.scale >= SMALLEST]
        rulers = [ruler for ruler in rulers if self.landscape or not ruler.breaks]
        return any(map(self._fits, rulers))

    def drafts(self) -> list[Draft]:
        """The part's sheets, in order."""
        for ruler in self._clear():
            for made in self.made():
                if (items := self._with_table(ruler, made)) is not None:
                    return [self.draft(items, ruler.scale, made)]
        for ruler in self._clear():
            for made in islice(self.made(), 2):
                if (items := self._without_table(ruler, made)) is not None:
                    return [
                        self.draft(items, ruler.scale, made),
                        *self._more_sheets(self.body(self.space.wide), [], "cuts"),
                    ]
        for ruler in self._clear():
            if (items := self._with_table(ruler, [])) is not None:
                return [self.draft(items, ruler.scale, []), *self._more_sheets([], self.large, "sections")]
        return [self._views_alone(), *self._more_sheets(self.body(self.space.wide), self.large, "cuts")]

    # --- scales ----------------------------------------------------------------------------------

    def _clear(self) -> Iterator[Ruler]:
        """The ways at which the views fit the sheet; smaller ones only where no good one is left.

        A part is not drawn smaller than 1:10, nor too short on paper to hold its words, in order to get
        everything on one sheet.
        """
        rulers, none = self.subject.rulers(self.space), True
        for ruler in rulers:
            if ruler.scale >= SMALLEST and ruler.right - ruler.left >= LEAST_LONG and self._fits(ruler):
                none = False
                yield ruler
        if none:
            yield next(filter(self._fits, rulers), rulers[-1])

    def _fits(self, ruler: Ruler) -> bool:
        return self.stack(ruler).bottom <= self.space.bottom

    # --- whole sheets ----------------------------------------------------------------------------

    def _with_table(self, ruler: Ruler, made: list[Sketch]) -> tuple[Item, ...] | None:
        """Views, table, notes and these sections on one sheet; None where it does not fit."""
        stack = self.stack(ruler)
        wide = self.space.wide - (SIDE_WIDE + 4.0 if self.landscape else 0.0)
        if stack.bottom > self.space.bottom or sum(column.wide for column in self.columns(wide)) > wide + 0.1:
            return None
        if self.landscape:
            below = self._beside(stack.bottom, self._side_top(ruler, stack.bottom), made)
        else:
            below = self._under(ruler, stack.bottom, made)
        return None if below is None else (*self.heading("")[0], *stack.items, *below)

    def _without_table(self, ruler: Ruler, made: list[Sketch]) -> tuple[Item, ...] | None:
        """Views, sections and the small picture, with the notes where they find room; None where it does not fit."""
        stack, space = self.stack(ruler), self.space
        wide = space.wide - PICTURE[0] - 4.0
        side = arranged(made, SIDE_WIDE, self.subject.seen)
        items: list[Item] = []
        y = stack.bottom + 1.0
        if self._beside_free(ruler) and self.top + side.high < y:
            items += shifted(side.items, space.right - SIDE_WIDE, self.top)
        else:
            side = arranged(made, wide, self.subject.seen)
            items += shifted(side.items, space.left, y)
            y += side.high + (1.6 if side.items else 0.0)
        ends = views(made, wide)
        items += shifted(ends.items, space.left, y)
        y += ends.high
        if y > space.bottom + 1.6 or space.bottom - PICTURE[1] < stack.bottom:
            return None
        notes = self.flowed(self.places(y, wide))
        items += notes.items if notes.whole else []
        return (*self.heading("")[0], *stack.items, *items, *self.picture(space.bottom))

    def _views_alone(self) -> Draft:
        """The views at the largest scale at which they fit, with what else there is room for."""
        ruler = next(self._clear())
        stack = self.stack(ruler)
        items = [*self.heading("")[0], *stack.items]
        notes = self.flowed(self.places(stack.bottom + 2.0, self.space.wide - PICTURE[0] - 6.0))
        if notes.whole:
            items += notes.items
        if self.space.bottom - stack.bottom > PICTURE[1] + 2.0:
            items += self.picture(self.space.bottom)
        return self.draft(tuple(items), ruler.scale, [])

    def _more_sheets(self, body: list[Row], made: list[Sketch], title: str) -> list[Draft]:
        """What is left of table and sections, on as many sheets as it takes."""
        wide, cols = self.space.wide, self.columns(self.space.wide)
        blocks, drafts = list(_in_blocks(made, wide)), []
        while body or blocks:
            items, y = self.heading(title)
            count = fitting(body, self.space.bottom - y - head_high(cols) - 1.0)
            if body:
                items += drawn(self.space.left, y, cols, body[:count])
                y += head_high(cols) + rows_high(body[:count]) + 4.0
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
            if not body and not blocks and notes.whole:
                items += notes.items
            drafts.append(self.draft(tuple(items), None, shown, title))
        return drafts

    # --- on one sheet ------------------------------------------------------------------------------

    def _beside_free(self, ruler: Ruler) -> bool:
        """Whether the views leave the column for sections free."""
        return max(ruler.right + 5.0, extent(self.stack(ruler).items)[2] + 2.0) < self.space.right - SIDE_WIDE

    def _side_top(self, ruler: Ruler, bottom: float) -> float:
        """Where the column of sections starts: beside the views where they leave it free."""
        return self.top if self._beside_free(ruler) else bottom + 0.6

    def _beside(self, y: float, top: float, made: list[Sketch]) -> list[Item] | None:
        """Table, ends and notes on the left from `y`, sections from `top` and the picture on the right."""
        space = self.space
        wide = space.wide - SIDE_WIDE - 4.0
        high = head_high(self.columns(wide)) + rows_high(self.body(wide))
        items, bottom = self.table(space.left, y + min(1.6, max(space.bottom - y - high, CLOSEST)), wide)
        side, ends = arranged(made, SIDE_WIDE, self.subject.seen), views(made, wide)
        items += shifted(ends.items, space.left, bottom + 2.0)
        bottom += ends.high + 2.0 if ends.items else 0.0
        beside = side.corner[0] + PICTURE[0] <= SIDE_WIDE + BETWEEN
        clear = side.corner[1] if beside else side.high
        if bottom > space.bottom or top + max(side.high, clear + PICTURE[1]) > space.bottom + 1.5:
            return None
        free = top + side.high if top < y else max(top + side.high, y)
        aside = Place(space.right - SIDE_WIDE, free + 2.0, SIDE_WIDE, space.bottom - PICTURE[1] - 1.0)
        places = [*self.places(bottom + 1.6, wide), aside]
        notes = self.flowed([place for place in places if place.bottom - place.y > LINE + LEAST_NOTE])
        items += [*notes.items, *shifted(side.items, space.right - SIDE_WIDE, top), *self.picture(space.bottom)]
        return items if notes.whole else None

    def _under(self, ruler: Ruler, y: float, made: list[Sketch]) -> list[Item] | None:
        """On a portrait sheet: table, sections, ends, notes with the picture to their right.

        Beside a short part there is room for the sections, and they go there.
        """
        tries = ((LOOSE, False), (TIGHT, False), (TIGHT, True))
        laid = (self._laid(ruler, y, made, gap, aside=aside) for gap, aside in tries)
        return next((items for items in laid if items is not None), None)

    def _laid(self, ruler: Ruler, y: float, made: list[Sketch], gap: float, *, aside: bool) -> list[Item] | None:
        """The same with so much room between one thing and the next; `aside`: the picture beside the sections."""
        space, wide = self.space, self.space.wide - PICTURE[0] - 4.0
        items, bottom = self.table(space.left, y + 1.0, space.wide)
        reach = extent(self.stack(ruler).items)[2]
        left = min(reach + 6.0, space.right - SIDE_WIDE)
        side = arranged(made, space.right - left, self.subject.seen)
        beside = max(reach, ruler.right + 3.0) + 2.0 < left and self.top + side.high < y
        if side.items and beside:
            items += shifted(side.items, left, self.top + 1.0)
            bottom += gap
        else:
            side = arranged(made, wide if aside else space.wide, self.subject.seen)
            items += shifted(side.items, space.left, bottom + gap)
            items += self.picture(bottom + gap + max(side.high, PICTURE[1])) if aside else []
            bottom += max(side.high, PICTURE[1] if aside else 0.0) + gap + (gap - 1.0 if side.items else 0.0)
        ends = views(made, space.wide)
        items += shifted(ends.items, space.left, bottom)
        bottom += ends.high - (LOOSE - gap if ends.items else 0.0)
        if aside:
            notes = self.flowed(self.places(bottom, space.wide))
            return [*items, *notes.items] if notes.whole and side.items and not beside else None
        notes = self.flowed(self.places(bottom, wide))
        items += [*notes.items, *self.picture(bottom + PICTURE[1])]
        return items if notes.whole and bottom + PICTURE[1] <= space.bottom else None


def _in_blocks(made: Sequence[Sketch], wide: float) -> Iterator[list[Sketch]]:
    """Sections, then views of ends, in groups that share a row, so that a sheet can end between two rows."""
    for view in (False, True):
        yield from rows([sketch for sketch in made if sketch.view is view], wide)


def _block(block: Sequence[Sketch], wide: float, seen: str) -> Arranged:
    """One row of sections or of views of ends."""
    return views(block, wide) if block[0].view else arranged(block, wide, seen)
