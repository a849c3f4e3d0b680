"""A part's sheet: with it, the board and the tools a maker can do the work right, and another can check it.

Down the sheet: heading, views with running dimensions, cut table with the sections beside it, what to check
and what to mind, the small picture, the title block. What does not fit goes to a second sheet of the part,
table and sections together; nothing is made smaller than it can be read.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from ..display import Item, shifted
from ..looks import Desk, Look
from ..naming import scale_words
from .cuts import columns, rows
from .facts import facts
from .frame import MARGIN, Space, beside_block, heading, said, small_picture, space
from .notes import checks, origins, sharp_within
from .prose import Place, Run, flow, strong
from .registry import A3, A4, Draft, sheet
from .ruler import SCALES, Ruler, broken, whole
from .sketches import BETWEEN, WIDE, Sketch, arranged, seen_from, sketches
from .stack import stacked
from .table import ROW, Column, Row, drawn, head_high, table_high
from ...geometry.views import Surface

SMALLEST = 0.1  # a part that can be drawn at this goes on two sheets rather than smaller on one
LONG = 900.0  # a part longer than this lies on a landscape sheet
LONGEST = 2620.0  # drawn whole at 1:10 on A4
SIDE_WIDE = 66.0  # of the column for sections on a landscape sheet
PICTURE = (32.0, 21.0)
FACE_WORDS = 50.0  # of the column FACE SIDE, FACE EDGE, DATUM END
SMALLER = (0.02, 0.01, 0.005, 0.002, 0.001, 0.0005)  # only so that a job of any length has sheets


@sheet("part", paper="workshop", order=30)
def part_sheets(desk: Desk) -> Iterator[Draft]:
    """The sheets of all parts, in the order of their marks."""
    for part in sorted(desk.book.piece.parts, key=lambda part: (len(part.mark), part.mark)):
        yield from one_part(desk, desk.looks[part.id])


def one_part(desk: Desk, look: Look) -> list[Draft]:
    """One sheet where everything fits, else the views first and the table after them."""
    page = _Page(desk, look, _paper(desk, look))
    best = next(page.rulers()).scale
    for ruler in page.rulers():
        if ruler.scale < SMALLEST <= best:
            break
        for made in page.choices():
            items = page.all_on_one(ruler, made)
            if items is not None:
                return [page.draft(items, ruler.scale, made)]
    return page.on_several()


def _paper(desk: Desk, look: Look) -> tuple[float, float]:
    if look.part.length <= LONG:
        return A4
    wide, high = A3 if desk.book.shop.paper == "A3" and look.part.length > LONGEST else A4
    return high, wide


@dataclass
class _Page:
    """Lays one part out on paper of one size."""

    desk: Desk
    look: Look
    size: tuple[float, float]

    def __post_init__(self) -> None:
        self.space: Space = space(self.size, self.desk)
        self.made: list[Sketch] = sketches(self.look)
        self.landscape = self.size[0] > self.size[1]

    # --- scales ----------------------------------------------------------------------------------

    def rulers(self) -> Iterator[Ruler]:
        """Ways to draw the part along the sheet, the best first."""
        start, end = self._ends()
        room = self.space.wide - 5.0
        fitting = [scale for scale in SCALES if (end - start) * scale <= room]
        good = [scale for scale in fitting if scale >= 0.1]
        for scale in good:
            yield self._whole(scale)
        if not good:
            yield from self._broken((0.1,))
        for scale in fitting:
            if scale < 0.1:
                yield self._whole(scale)
        if not fitting:
            yield from self._broken((0.05,))
            yield self._whole(next((s for s in SMALLER if (end - start) * s <= room), SMALLER[-1]))

    def _ends(self) -> tuple[float, float]:
        scribe = self.look.part.board.scribe
        return -scribe[0], self.look.part.length + scribe[1]

    def _whole(self, scale: float) -> Ruler:
        start, end = self._ends()
        return whole(start, end, self.space.left + 2.4, scale)

    def _broken(self, scales: Sequence[float]) -> Iterator[Ruler]:
        start, end = self._ends()
        kept = [(min(p[0] for p in t.extent), max(p[0] for p in t.extent)) for t in self._traces()]
        for scale in scales:
            ruler = broken(start, end, self.space.left + 2.4, scale, self.space.wide - 5.0, kept)
            if ruler is not None:
                yield ruler

    def _traces(self) -> list:  # type: ignore[type-arg]
        view = self.look.view(self.look.names.face_side)
        return [trace for trace in view.traces if trace.extent and not trace.end]

    # --- whole sheets ----------------------------------------------------------------------------

    def choices(self) -> list[list[Sketch]]:
        """Which sections to draw where there is one sheet: all, else those that nothing else on it says."""
        needed = [sketch for sketch in self.made if not sketch.end]
        return [self.made, needed] if len(needed) < len(self.made) else [self.made]

    def all_on_one(self, ruler: Ruler, made: list[Sketch]) -> tuple[Item, ...] | None:
        """Everything on one sheet; None where it does not fit."""
        top, y = self._heading("")
        views = stacked(self.desk, self.look, ruler, y)
        if views.bottom > self.space.bottom:
            return None
        below = (self._beside if self.landscape else self._under)(views.bottom, made)
        return None if below is None else (*top, *views.items, *below)

    def on_several(self) -> list[Draft]:
        """The views on the first sheet, at the largest scale at which they fit it; the rest on those after."""
        drafts = []
        ruler = self._tallest()
        top, y = self._heading("")
        views = stacked(self.desk, self.look, ruler, y)
        notes = flow(self._places(views.bottom + 2.0, self.space.wide - PICTURE[0] - 6.0), self._notes())
        items = [*top, *views.items]
        if notes.whole:
            items += notes.items
        if self.space.bottom - views.bottom > PICTURE[1] + 2.0:
            items += self._picture(self.space.bottom)
        drafts.append(self.draft(tuple(items), ruler.scale, []))
        drafts += self._tables()
        return drafts

    def _tallest(self) -> Ruler:
        _, y = self._heading("")
        last = None
        for ruler in self.rulers():
            last = ruler
            if stacked(self.desk, self.look, ruler, y).bottom <= self.space.bottom:
                return ruler
        assert last is not None, "there is always a scale"
        return last

    def _tables(self) -> list[Draft]:
        """The cut table with the sections under it, on as many sheets as it takes."""
        wide = self.space.wide
        cols = columns(self.look, wide)
        left = rows(self.desk, self.look)
        blocks, drafts = _in_blocks(self.made, wide), []
        while left or blocks:
            items, y = self._heading("cuts")
            count = min(len(left), int((self.space.bottom - y - head_high(cols) - 1) // ROW))
            if left:
                items += drawn(self.space.left, y, cols, left[:count])
                y += table_high(cols, count) + 4.0
                left = left[count:]
            while blocks and not left:
                more = arranged(blocks[0], wide, seen_from(self.look))
                if y + more.high > self.space.bottom:
                    break
                items += shifted(more.items, self.space.left, y)
                y += more.high + 2.0
                blocks = blocks[1:]
            notes = flow(self._places(y, wide), self._notes())
            if not left and not blocks and notes.whole:
                items += notes.items
            drafts.append(self.draft(tuple(items), None, self.made, "cuts"))
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

    def _beside(self, y: float, made: list[Sketch]) -> list[Item] | None:
        """Table and notes on the left, sections and picture on the right; what is left beside the title block."""
        space, top = self.space, y + 0.6
        wide = space.wide - SIDE_WIDE - 4.0
        items, bottom = self._table(space.left, top + 1.0, wide)
        side = arranged(made, SIDE_WIDE, seen_from(self.look))
        beside = side.corner[0] + PICTURE[0] <= SIDE_WIDE + BETWEEN
        clear = side.corner[1] if beside else side.high
        if bottom > space.bottom or top + max(side.high, clear + PICTURE[1]) > space.bottom + 1.5:
            return None
        notes = flow(self._places(bottom + 1.6, wide), self._notes())
        items += [*notes.items, *shifted(side.items, space.right - SIDE_WIDE, top), *self._picture(space.bottom)]
        return items if notes.whole else None

    def _places(self, y: float, wide: float) -> list[Place]:
        """Where notes stand from `y` on: above the title block, then, on a landscape sheet, beside it."""
        above = Place(self.space.left, y, wide, self.space.bottom + 1.2)
        if not self.landscape:
            return [above]
        top = max(y, self.space.bottom - 0.8)
        return [above, Place(self.space.left, top, beside_block(self.size), self.size[1] - MARGIN + 1.5)]

    def _under(self, y: float, made: list[Sketch]) -> list[Item] | None:
        """On a portrait sheet: table, sections with the picture to their right, notes."""
        space = self.space
        items, y = self._table(space.left, y + 1.6, space.wide)
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
        body: list[Row] = rows(self.desk, self.look)
        return drawn(x, y, cols, body), y + table_high(cols, len(body))

    def _picture(self, bottom: float) -> list[Item]:
        box = (self.space.right - PICTURE[0], bottom - PICTURE[1], self.space.right, bottom)
        return small_picture(self.desk, self.look.part.id, box)

    def _notes(self) -> list[list[Run]]:
        """What to check, how the figures are meant, what to mind: in this order, as there is room."""
        look = self.look
        minded = [
            Run("Knife the walls, work in the waste."),
            strong(f"Do not ease an arris within {sharp_within(look)} of these marks."),
            Run("Clamp the board for every cut; the tool at rest before you measure."),
        ]
        return [checks(self.desk, look), [*origins(look), *minded]]

    def draft(self, items: tuple[Item, ...], scale: float | None, made: list[Sketch], more: str = "") -> Draft:
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


def _in_blocks(made: Sequence[Sketch], wide: float) -> list[Sequence[Sketch]]:
    """Sections in groups that share a row, so that a sheet can end between two rows."""
    count = max(1, int((wide + BETWEEN) // (WIDE + BETWEEN)))
    return [made[i : i + count] for i in range(0, len(made), count)]


