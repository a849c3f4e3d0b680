"""Parts that are truly alike, which share a sheet: their letters and names together, a box to tick for each."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property

from ....geometry.views import Surface
from ....piece.model import Cut
from ...display import Item
from ...kit.axis import Axis
from ...kit.dimension import DATUM
from ...lettering import TEXT, widest
from ...looks import Desk, Look
from ...standard import A4, SCALES
from ..page.arranging import Sketch
from ..page.frame import LEFT, MARGIN, Space, heading, said
from ..page.picture import small_picture
from ..page.table import Column, Row, unfolded
from .ends.views import end_views, keyed
from .looking import other_of
from .sketches import seen_from, sketches
from .stack import Stacked, least_high, stacked, surfaces
from .words.facts import facts
from .words.joined import joined, ticked
from .words.together import counted, lettered, together


@dataclass
class AlikeParts:
    """One part, or several that nothing but their letters tells apart; the first is drawn.

    What is drawn of it is kept, and tried on every paper and beside other parts; its brief fellow has the same.

    Attributes:
        brief: whether a face that tells nothing new is left out.
    """

    looks: tuple[Look, ...]
    brief: bool = False
    _sketches: dict[bool, list[Sketch]] = field(default_factory=dict, repr=False, compare=False)
    _stacks: dict[tuple[Axis, float, float, bool], Stacked] = field(default_factory=dict, repr=False, compare=False)
    _columns: dict[float, list[Column]] = field(default_factory=dict, repr=False, compare=False)
    _rows: dict[float, list[Row]] = field(default_factory=dict, repr=False, compare=False)

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
        return first if len(self.looks) == 1 else first.lettered(self.letters)

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
        return lettered(self.marks, apart="", to="-")

    @property
    def lies(self) -> bool:
        """Along the sheet."""
        return True

    def heading(self, desk: Desk, space: Space, more: str) -> tuple[list[Item], float]:
        """The heading, and the y below which the sheet is free."""
        names, name = self.shown.names, f"{self.name}, {more}" if more else self.name
        said_of_it = facts(desk, self.looks[0].part, each=len(self.looks) > 1)
        words = (
            ("FACE SIDE", names.words[names.face_side]),
            ("FACE EDGE", names.words[Surface.FRONT]),
            ("DATUM END", names.words[Surface.DATUM]),
        )
        x = space.right - widest([plain for _, plain in words], TEXT)
        left = x - TEXT - widest([loud for loud, _ in words], TEXT, "semibold")
        items, y = heading(self.letters, name, said_of_it, left - TEXT, below=space.right)
        return [*items, *said(x, words)], y + 1.0

    def rulers(self, space: Space) -> list[Axis]:
        """Ways to draw the part along the sheet, the best first."""
        return along(self.shown, space)

    def stack(self, desk: Desk, ruler: Axis, top: float, right: float) -> Stacked:
        """The views, from `top` down."""
        key = (ruler, top, right, self._leaves_out)
        if key not in self._stacks:
            self._stacks[key] = stacked(desk, self._drawn(desk), ruler, top, right, brief=self._leaves_out)
        return self._stacks[key]

    @cached_property
    def _leaves_out(self) -> bool:
        """Whether a face is left out."""
        return self.brief and surfaces(self.shown, brief=True) != surfaces(self.shown)

    def least(self, scale: float) -> float:
        """How high the views are at least."""
        return least_high(self.shown, self._faces, scale)

    @cached_property
    def _faces(self) -> int:
        """How many views are drawn."""
        return len(surfaces(self.shown, brief=self.brief))

    def _drawn(self, desk: Desk) -> Look:
        """The one that is drawn; what its cuts take, and its ends meet, is that of each: "takes M, N"."""
        if len(self.looks) == 1:
            return self.shown
        cuts = tuple(_of_each(desk, same) for same in zip(*(in_order(look) for look in self.looks), strict=True))
        return self.shown.with_cuts(cuts)

    def sketches(self, desk: Desk, *, roomy: bool) -> list[Sketch]:
        """Sections and views of ends."""
        if roomy not in self._sketches:
            made = sketches(desk, self.shown, roomy=roomy and not self._enter_differently)
            self._sketches[roomy] = [*made, *end_views(self.shown, roomy=roomy)]
        return self._sketches[roomy]

    @cached_property
    def _enter_differently(self) -> bool:
        """Whether their ends go in differently deep: the table tells each, a section with figures but the first."""
        return len({tuple(cut.figures.deep for cut in look.part.cuts if cut.end) for look in self.looks}) > 1

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

    def columns(self, desk: Desk, wide: float) -> list[Column]:
        """The cut table's columns."""
        if wide not in self._columns:
            self._columns[wide] = ticked(desk, self.looks, wide)
        return self._columns[wide]

    def rows(self, desk: Desk, wide: float) -> list[Row]:
        """The cut table's rows, a box for each part; what differs is only what is taken."""
        if wide not in self._rows:
            self._rows[wide] = unfolded(self.columns(desk, wide), joined(desk, self.looks))
        return self._rows[wide]

    def picture(self, desk: Desk, box: tuple[float, float, float, float]) -> list[Item]:
        """The whole piece small, with all of them dark."""
        return dark(desk, [look.part.id for look in self.looks], box)


def in_order(look: Look) -> list[Cut]:
    """The cuts as the table has them: by their numbers, then the free ends."""
    return sorted(look.part.cuts, key=lambda cut: look.numbers.get(cut.key, math.inf))


def _of_each(desk: Desk, same: Sequence[Cut]) -> Cut:
    """The first part's cut, with what it takes or meets in each part, by letters."""
    first = same[0]
    takes, meets = (
        ", ".join(dict.fromkeys(desk.marks.get(name, name) for name in names if name))
        for names in ([cut.takes for cut in same], [other_of(cut) for cut in same])
    )
    joint = first.joint if first.joint is None or len({other_of(cut) for cut in same}) == 1 else (first.body, meets)
    return replace(first, takes=first.takes if len({cut.takes for cut in same}) == 1 else takes, joint=joint)


def room(wide: float) -> float:
    """Of a part along a sheet: what its running lines' circles leave of the width."""
    return wide - 2 * DATUM


LONG = room(A4[0] - LEFT - MARGIN) / SCALES[2]  # a part longer than this lies on a landscape sheet: 1:5


def along(look: Look, space: Space) -> list[Axis]:
    """Ways to draw a part along the sheet, the best first."""
    scribe = look.part.board.scribe
    traces = look.view(look.names.face_side).traces
    kept = [
        (min(a for a, _ in trace.extent), max(a for a, _ in trace.extent))
        for trace in traces
        if trace.extent and not trace.end
    ]
    start, end = -scribe[0], look.part.length + scribe[1]
    return list(Axis.ways(room(space.wide), start, end, kept, space.left + DATUM))


def dark(desk: Desk, names: Sequence[str], box: tuple[float, float, float, float]) -> list[Item]:
    """The small picture with several parts dark."""
    items = small_picture(desk, names[0], box)
    for name in names[1:]:
        items += [item for item in small_picture(desk, name, box) if item.owner == name]
    return items
