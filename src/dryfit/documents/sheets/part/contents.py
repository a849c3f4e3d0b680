"""What stands on a part's sheets: heading, views, table, notes, small picture, each drawn where it is told to stand."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cached_property
from typing import Literal

from ...display import Item
from ...lettering import FIGURE, width
from ...looks import Desk
from ...naming import position, scale_words
from ..dimensions.ruler import Ruler
from ..page.arranging import Sketch
from ..page.frame import MARGIN, Space, beside_block, space
from ..page.prose import Flowed, Place, Run, flow, strong
from ..page.table import Column, Row, drawn, head_high, rows_high
from ..registry import Draft
from .stack import Stacked
from .subject import Subject
from .words.notes import checks, origins, sharp_within

PICTURE = (32.0, 21.0)
TITLE_WIDE = 59.0  # of the title block's field


@dataclass
class Contents:
    """What is to stand on the sheets of one part, of several that are alike or of a pair, on paper of one size.

    Attributes:
        holds: "views" where another page has the table, "table" where another has the sections.
    """

    desk: Desk
    subject: Subject
    size: tuple[float, float]
    holds: Literal["all", "views", "table"] = "all"
    _stacks: dict[Ruler, Stacked] = field(default_factory=dict)
    _bodies: dict[float, list[Row]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.space: Space = space(self.size, self.desk)
        self.landscape = self.size[0] > self.size[1]
        _, self.top = self.heading("")

    @cached_property
    def large(self) -> list[Sketch]:
        """Sections and views of ends at the larger scale."""
        return [] if self.holds == "table" else self.subject.sketches(self.desk, roomy=True)

    @cached_property
    def _close(self) -> list[Sketch]:
        return self.subject.sketches(self.desk, roomy=False)

    def made(self) -> Iterator[list[Sketch]]:
        """Sections and views of ends to try, the best first; those that come later are mostly never asked for."""
        yield self.large
        if self.holds != "table":
            yield self._close
            yield [sketch for sketch in self._close if not sketch.end]
        if self.subject.told_in_table and self.holds != "table":
            yield [sketch for sketch in self._close if not sketch.view]
            yield [sketch for sketch in self._close if not sketch.end and not sketch.view]

    def stack(self, ruler: Ruler) -> Stacked:
        """The views, drawn at that ruler."""
        if ruler not in self._stacks:
            self._stacks[ruler] = self.subject.stack(self.desk, ruler, self.top, self.space.right)
        return self._stacks[ruler]

    def heading(self, more: str) -> tuple[list[Item], float]:
        """The heading, and the y below which the sheet is free; `more` tells this sheet from the part's others."""
        return self.subject.heading(self.desk, self.space, more)

    def places(self, y: float, wide: float) -> list[Place]:
        """Where notes stand from `y` on: above the title block, then, on a landscape sheet, beside it."""
        above = Place(self.space.left, y, wide, self.space.bottom + 1.2)
        if not self.landscape:
            return [above]
        top = max(y, self.space.bottom - 0.8)
        return [above, Place(self.space.left, top, beside_block(self.size), self.size[1] - MARGIN + 1.5)]

    def body(self, wide: float) -> list[Row]:
        """The table's rows in a table so wide; none where another page has them."""
        if wide not in self._bodies:
            self._bodies[wide] = [] if self.holds == "views" else self.subject.rows(self.desk, wide)
        return self._bodies[wide]

    def columns(self, wide: float) -> list[Column]:
        """Of a table so wide."""
        return self.subject.columns(wide)

    def table(self, x: float, y: float, wide: float) -> tuple[list[Item], float]:
        """The table, and the y of its bottom; nothing where another page has it."""
        cols, body = self.columns(wide), self.body(wide)
        if not body:
            return [], y
        return drawn(x, y, cols, body), y + head_high(cols) + rows_high(body)

    def picture(self, bottom: float) -> list[Item]:
        """The small picture, at the right margin."""
        box = (self.space.right - PICTURE[0], bottom - PICTURE[1], self.space.right, bottom)
        return self.subject.picture(self.desk, box)

    def flowed(self, places: list[Place]) -> Flowed:
        """The notes as paragraphs; run together where only so they find room."""
        notes = [runs for runs in self._notes() if runs]
        apart = flow(places, notes)
        return apart if apart.whole else flow(places, [notes[0], [run for runs in notes[1:] for run in runs]])

    def _notes(self) -> list[list[Run]]:
        """What to check, how the figures are meant, what will fool you, what to mind."""
        look, fools = self.subject.shown, self.subject.fools()
        minded = [
            Run("Knife the walls, work in the waste."),
            strong(f"Do not ease an arris within {position(sharp_within(look))} of these marks."),
            Run("Clamp the board for every cut; the tool at rest before you measure."),
        ]
        fooling = [strong("What will fool you."), *map(Run, fools)] if fools else []
        return [checks(self.desk, self.subject.looks), origins(self.desk, look), fooling, minded]

    def draft(self, items: tuple[Item, ...], scale: float | None, made: list[Sketch], more: str = "") -> Draft:
        """The sheet with what its title block needs."""
        words = [scale_words(scale)] if scale else []
        sections = sorted({sketch.scale for sketch in made}, reverse=True)
        if sections:
            words.append(f"sections {', '.join(map(scale_words, sections))}")
        letters = self.subject.letters
        title = f"{letters}  {self.subject.title}, {more}" if more else f"{letters}  {self.subject.title}"
        if more and width(title, FIGURE, "medium") > TITLE_WIDE:
            title = f"{letters}  {more}"
        return Draft(
            title=title,
            kind=self.subject.kind,
            number=self.subject.number,
            scale=", ".join(words) or "not to scale",
            size=self.size,
            items=items,
        )
