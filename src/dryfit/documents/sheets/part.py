"""A part's sheet: with it, the board and the tools a maker can do the work right, and another can check it.

Down the sheet: heading, views with running dimensions, cut table with the sections beside it, what to check
and what to mind, the small picture, the title block. What does not fit goes to a second sheet of the part,
table and sections together; nothing is made smaller than it can be read.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field

from ...geometry.views import Surface
from ..display import Item, shifted
from ..looks import Desk, Look
from ..naming import position, scale_words
from .arranging import BETWEEN, WIDE, Sketch, arranged
from .cuts import columns, rows
from .facts import facts
from .frame import MARGIN, Space, beside_block, heading, said, small_picture, space
from .notes import checks, origins, sharp_within
from .prose import LINE, Place, Run, flow, strong
from .registry import A3, A4, Draft, sheet
from .ruler import Ruler, ways
from .sketches import seen_from, sketches
from .stack import Stacked, stacked
from .table import ROW, Column, Row, drawn, head_high, table_high

SMALLEST = 0.1  # a part that can be drawn at this goes on two sheets rather than smaller on one
LONG = 875.0  # a part longer than this lies on a landscape sheet: the longest that a portrait one holds at 1:5
LONGEST = 2620.0  # drawn whole at 1:10 on A4
LEAST_LONG = 60.0  # on paper: a face shorter than this has no room for its words
SIDE_WIDE = 66.0  # of the column for sections on a landscape sheet
PICTURE = (32.0, 21.0)
FACE_WORDS = 50.0  # of the column FACE SIDE, FACE EDGE, DATUM END


@sheet("part", paper="workshop", order=30)
def part_sheets(desk: Desk) -> Iterator[Draft]:
    """The sheets of all parts, in the order of their marks."""
    for part in sorted(desk.book.piece.parts, key=lambda part: (len(part.mark), part.mark)):
        yield from one_part(desk, desk.looks[part.id])


def one_part(desk: Desk, look: Look) -> list[Draft]:
    """One sheet where everything fits, else more; see `_Page`."""
    return _Page(desk, look, _paper(desk, look)).drafts()


def _paper(desk: Desk, look: Look) -> tuple[float, float]:
    if look.part.length <= LONG:
        return A4
    wide, high = A3 if desk.book.shop.paper == "A3" and look.part.length > LONGEST else A4
    return high, wide


@dataclass
class _Page:
    """Lays one part out on paper of one size.

    The largest scale at which all stands on one sheet is taken, if it is 1:10 or larger or the part fits at
    no larger one. Else sections go to a second sheet; else the table too, with the views alone on the first.
    """

    desk: Desk
    look: Look
    size: tuple[float, float]
    _stacks: dict[Ruler, Stacked] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.space: Space = space(self.size, self.desk)
        self.made: list[Sketch] = sketches(self.look)
        self.landscape = self.size[0] > self.size[1]
        self.body: list[Row] = rows(self.desk, self.look)
        _, self.top = self._heading("")

    def drafts(self) -> list[Draft]:
        """The part's sheets, in order."""
        good = self._clear()
        needed = [sketch for sketch in self.made if not sketch.end]
        for ruler in good:
            for made in (self.made, needed):
                if (items := self._with_table(ruler, made)) is not None:
                    return [self._draft(items, ruler.scale, made)]
        for ruler in good:
            for count in range(len(self.made) - 1, -1, -1):
                if (items := self._with_table(ruler, self.made[:count])) is not None:
                    first = self._draft(items, ruler.scale, self.made[:count])
                    return [first, *self._more_sheets([], self.made[count:], "sections")]
        return [self._views_alone(), *self._more_sheets(self.body, self.made, "cuts")]

    # --- scales ----------------------------------------------------------------------------------

    def _rulers(self) -> list[Ruler]:
        """Ways to draw the part along the sheet, the best first."""
        scribe = self.look.part.board.scribe
        traces = self.look.view(self.look.names.face_side).traces
        kept = [
            (min(a for a, _ in trace.extent), max(a for a, _ in trace.extent))
            for trace in traces
            if trace.extent and not trace.end
        ]
        start, end = -scribe[0], self.look.part.length + scribe[1]
        return list(ways(start, end, self.space.left + 2.4, self.space.wide - 5.0, kept))

    def _clear(self) -> list[Ruler]:
        """The ways at which the views fit the sheet; smaller ones only where no good one is left.

        A part is not drawn smaller than 1:10, nor too short on paper to hold its words, in order to get
        everything on one sheet.
        """
        fitting = [ruler for ruler in self._rulers() if self._stack(ruler).bottom <= self.space.bottom]
        large = [r for r in fitting if r.scale >= SMALLEST and r.right - r.left >= LEAST_LONG]
        return large or fitting[:1] or self._rulers()[-1:]

    def _stack(self, ruler: Ruler) -> Stacked:
        if ruler not in self._stacks:
            self._stacks[ruler] = stacked(self.desk, self.look, ruler, self.top)
        return self._stacks[ruler]

    # --- whole sheets ----------------------------------------------------------------------------

    def _with_table(self, ruler: Ruler, made: list[Sketch]) -> tuple[Item, ...] | None:
        """Views, table, notes and these sections on one sheet; None where it does not fit."""
        views = self._stack(ruler)
        if views.bottom > self.space.bottom:
            return None
        if self.landscape:
            free = ruler.right + 5.0 < self.space.right - SIDE_WIDE
            below = self._beside(views.bottom, self.top if free else views.bottom + 0.6, made)
        else:
            below = self._under(ruler, views.bottom, made)
        return None if below is None else (*self._heading("")[0], *views.items, *below)

    def _views_alone(self) -> Draft:
        """The views at the largest scale at which they fit, with what else there is room for."""
        ruler = self._clear()[0]
        views = self._stack(ruler)
        items = [*self._heading("")[0], *views.items]
        notes = flow(self._places(views.bottom + 2.0, self.space.wide - PICTURE[0] - 6.0), self._notes())
        if notes.whole:
            items += notes.items
        if self.space.bottom - views.bottom > PICTURE[1] + 2.0:
            items += self._picture(self.space.bottom)
        return self._draft(tuple(items), ruler.scale, [])

    def _more_sheets(self, body: list[Row], made: list[Sketch], title: str) -> list[Draft]:
        """What is left of table and sections, on as many sheets as it takes."""
        wide, cols = self.space.wide, columns(self.look, self.space.wide)
        blocks, drafts = _in_blocks(made, wide), []
        while body or blocks:
            items, y = self._heading(title)
            count = min(len(body), int((self.space.bottom - y - head_high(cols) - 1) // ROW))
            if body:
                items += drawn(self.space.left, y, cols, body[:count])
                y += table_high(cols, count) + 4.0
                body = body[count:]
            shown: list[Sketch] = []
            while blocks and not body:
                more = arranged(blocks[0], wide, seen_from(self.look))
                if y + more.high > self.space.bottom and (shown or count):
                    break
                items += shifted(more.items, self.space.left, y)
                y += more.high + 2.0
                shown += blocks.pop(0)
            notes = flow(self._places(y, wide), self._notes())
            if not body and not blocks and notes.whole:
                items += notes.items
            drafts.append(self._draft(tuple(items), None, shown, title))
        return drafts

    # --- parts of a sheet ------------------------------------------------------------------------

    def _heading(self, more: str) -> tuple[list[Item], float]:
        look, names = self.look, self.look.names
        right = self.space.right - FACE_WORDS
        name = f"{look.part.id}, {more}" if more else look.part.id
        items, y = heading(look.part.mark, name, facts(self.desk, look.part), right - 3.0)
        words = (
            ("FACE SIDE", names.words[names.face_side]),
            ("FACE EDGE", names.words[Surface.FRONT]),
            ("DATUM END", names.words[Surface.DATUM]),
        )
        return [*items, *said(right + 24.0, words)], y + 1.0

    def _beside(self, y: float, top: float, made: list[Sketch]) -> list[Item] | None:
        """Table and notes on the left from `y`, sections from `top` and the picture on the right."""
        space = self.space
        wide = space.wide - SIDE_WIDE - 4.0
        items, bottom = self._table(space.left, y + 1.6, wide)
        side = arranged(made, SIDE_WIDE, seen_from(self.look))
        beside = side.corner[0] + PICTURE[0] <= SIDE_WIDE + BETWEEN
        clear = side.corner[1] if beside else side.high
        if bottom > space.bottom or top + max(side.high, clear + PICTURE[1]) > space.bottom + 1.5:
            return None
        aside = Place(
            space.right - SIDE_WIDE, max(top + side.high, y) + 2.0, SIDE_WIDE, space.bottom - PICTURE[1] - 1.0
        )
        places = [place for place in (*self._places(bottom + 1.6, wide), aside) if place.bottom - place.y > LINE + 2.0]
        notes = flow(places, self._notes())
        items += [*notes.items, *shifted(side.items, space.right - SIDE_WIDE, top), *self._picture(space.bottom)]
        return items if notes.whole else None

    def _places(self, y: float, wide: float) -> list[Place]:
        """Where notes stand from `y` on: above the title block, then, on a landscape sheet, beside it."""
        above = Place(self.space.left, y, wide, self.space.bottom + 1.2)
        if not self.landscape:
            return [above]
        top = max(y, self.space.bottom - 0.8)
        return [above, Place(self.space.left, top, beside_block(self.size), self.size[1] - MARGIN + 1.5)]

    def _under(self, ruler: Ruler, y: float, made: list[Sketch]) -> list[Item] | None:
        """On a portrait sheet: table, sections with the picture to their right, notes.

        Beside a short part there is room for the sections, and they go there.
        """
        space = self.space
        items, bottom = self._table(space.left, y + 1.6, space.wide)
        side = arranged(made, SIDE_WIDE, seen_from(self.look))
        if made and ruler.right + 6.0 < space.right - SIDE_WIDE and self.top + side.high < y:
            items += shifted(side.items, space.right - SIDE_WIDE, self.top + 1.0)
            made = []
        y = bottom
        wide = space.wide - PICTURE[0] - 4.0
        side = arranged(made, wide, seen_from(self.look))
        y += 3.0
        items += shifted(side.items, space.left, y)
        if made:
            items += self._picture(y + max(side.high, PICTURE[1]) - 1.0)
            notes = flow(self._places(y + max(side.high, PICTURE[1]) + 1.0, space.wide), self._notes())
            return [*items, *notes.items] if notes.whole else None
        notes = flow(self._places(y, wide), self._notes())
        items += self._picture(y + PICTURE[1])
        return [*items, *notes.items] if notes.whole and y + PICTURE[1] <= space.bottom else None

    def _table(self, x: float, y: float, wide: float) -> tuple[list[Item], float]:
        cols: list[Column] = columns(self.look, wide)
        return drawn(x, y, cols, self.body), y + table_high(cols, len(self.body))

    def _picture(self, bottom: float) -> list[Item]:
        box = (self.space.right - PICTURE[0], bottom - PICTURE[1], self.space.right, bottom)
        return small_picture(self.desk, self.look.part.id, box)

    def _notes(self) -> list[list[Run]]:
        """What to check, how the figures are meant, what to mind: in this order, as there is room."""
        look = self.look
        minded = [
            Run("Knife the walls, work in the waste."),
            strong(f"Do not ease an arris within {position(sharp_within(look))} of these marks."),
            Run("Clamp the board for every cut; the tool at rest before you measure."),
        ]
        return [checks(self.desk, look), origins(look), minded]

    def _draft(self, items: tuple[Item, ...], scale: float | None, made: list[Sketch], more: str = "") -> Draft:
        """The sheet with what its title block needs."""
        part = self.look.part
        words = [scale_words(scale)] if scale else []
        sections = sorted({sketch.scale for sketch in made}, reverse=True)
        if sections:
            words.append(f"sections {', '.join(map(scale_words, sections))}")
        title = f"{part.mark}  {part.id}"
        return Draft(
            title=f"{title}, {more}" if more else title,
            kind="part",
            number=part.mark,
            scale=", ".join(words) or "not to scale",
            size=self.size,
            items=items,
        )


def _in_blocks(made: list[Sketch], wide: float) -> list[list[Sketch]]:
    """Sections in groups that share a row, so that a sheet can end between two rows."""
    count = max(1, int((wide + BETWEEN) // (WIDE + BETWEEN)))
    return [made[i : i + count] for i in range(0, len(made), count)]
