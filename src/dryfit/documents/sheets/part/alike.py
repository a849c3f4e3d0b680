"""Parts that are truly alike, which share a sheet: their letters and names together, a box to tick for each."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from ....geometry.views import Surface
from ...display import Item
from ...looks import Desk, Look
from ..dimensions.ruler import Ruler, ways
from ..page.arranging import Sketch
from ..page.frame import Space, heading, said
from ..page.picture import small_picture
from ..page.table import Column, Row, unfolded
from .ends.views import end_views, keyed
from .sketches import seen_from, sketches
from .stack import Stacked, stacked
from .words.facts import facts
from .words.joined import joined, ticked
from .words.together import counted, lettered, together

FACE_WORDS = 50.0  # of the column FACE SIDE, FACE EDGE, DATUM END


@dataclass
class Alike:
    """One part, or several that nothing but their letters tells apart; the first is drawn."""

    looks: tuple[Look, ...]

    @property
    def marks(self) -> list[str]:
        """The letter of each."""
        return [look.part.mark for look in self.looks]

    @cached_property
    def letters(self) -> str:
        """Their letters as the heading has them: "K", "K, L", "A to H"."""
        return lettered(self.marks)

    @cached_property
    def shown(self) -> Look:
        """The one that is drawn, with all their letters."""
        first = self.looks[0]
        return first if len(self.looks) == 1 else Look(replace(first.part, mark=self.letters))

    @property
    def title(self) -> str:
        """Their names together: "divider 1 and 2"."""
        return together([look.part.id for look in self.looks])

    @property
    def name(self) -> str:
        """For the heading: "divider 1 and 2: two alike"."""
        return self.title if len(self.looks) == 1 else f"{self.title}: {counted(len(self.looks))} alike"

    @property
    def kind(self) -> str:
        """The kind of paper."""
        return "part" if len(self.looks) == 1 else f"part, {counted(len(self.looks))} alike"

    @property
    def number(self) -> str:
        """What tells the sheet from the job's others: "K", "KL", "A-H"."""
        return self.letters.replace(", ", "").replace(" to ", "-")

    def heading(self, desk: Desk, space: Space, more: str) -> tuple[list[Item], float]:
        """The heading, and the y below which the sheet is free."""
        right = space.right - FACE_WORDS
        names, name = self.shown.names, f"{self.name}, {more}" if more else self.name
        said_of_it = facts(desk, self.looks[0].part, each=len(self.looks) > 1)
        items, y = heading(self.letters, name, said_of_it, right - 3.0)
        words = (
            ("FACE SIDE", names.words[names.face_side]),
            ("FACE EDGE", names.words[Surface.FRONT]),
            ("DATUM END", names.words[Surface.DATUM]),
        )
        return [*items, *said(right + 24.0, words)], y + 1.0

    def rulers(self, space: Space) -> list[Ruler]:
        """Ways to draw the part along the sheet, the best first."""
        return along(self.shown, space)

    def stack(self, desk: Desk, ruler: Ruler, top: float, right: float) -> Stacked:
        """The views, from `top` down."""
        return stacked(desk, self.shown, ruler, top, right)

    def sketches(self, desk: Desk, *, roomy: bool) -> list[Sketch]:
        """Sections and views of ends."""
        return [*sketches(desk, self.shown, roomy=roomy), *end_views(self.shown)]

    @property
    def seen(self) -> str:
        """From where the sections are seen."""
        return seen_from(self.shown)

    def fools(self) -> list[str]:
        """What of it will fool you: nothing that the lists do not say."""
        return []

    @cached_property
    def told_in_table(self) -> bool:
        """Whether the table says all that a view of the ends shows: they carry key pockets and nothing else."""
        return keyed(self.shown)

    def columns(self, wide: float) -> list[Column]:
        """The cut table's columns."""
        return ticked(self.shown, wide, self.marks)

    def rows(self, desk: Desk, wide: float) -> list[Row]:
        """The cut table's rows, a box for each part; what differs is only what is taken."""
        return unfolded(self.columns(wide), joined(desk, self.looks))

    def picture(self, desk: Desk, box: tuple[float, float, float, float]) -> list[Item]:
        """The whole piece small, with all of them dark."""
        return dark(desk, [look.part.id for look in self.looks], box)


def along(look: Look, space: Space) -> list[Ruler]:
    """Ways to draw a part along the sheet, the best first."""
    scribe = look.part.board.scribe
    traces = look.view(look.names.face_side).traces
    kept = [
        (min(a for a, _ in trace.extent), max(a for a, _ in trace.extent))
        for trace in traces
        if trace.extent and not trace.end
    ]
    start, end = -scribe[0], look.part.length + scribe[1]
    return list(ways(start, end, space.left + 2.4, space.wide - 5.0, kept))


def dark(desk: Desk, names: Sequence[str], box: tuple[float, float, float, float]) -> list[Item]:
    """The small picture with several parts dark."""
    items = small_picture(desk, names[0], box)
    for name in names[1:]:
        items += [item for item in small_picture(desk, name, box) if item.owner == name]
    return items
