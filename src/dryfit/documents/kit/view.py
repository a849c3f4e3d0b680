"""A view: wood with its dimensions and labels, under its title."""

from dataclasses import dataclass

from ...geometry.frames import Vec2
from ...sentences import Voice, told
from ..display import Item, Text, extent, shifted
from ..lettering import wrapped
from ..naming import scale_words
from ..standard import AIR, LINE, TEXT
from . import dimension as dimensions
from . import label as labels
from .axis import PAPER, Axis
from .dimension import UnplacedDimension
from .label import Label
from .placing import FilledPaper

LEAST = 20 * TEXT  # to which a title is wrapped
FULL_SIZE = "full size (1:1)"


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """One view, before what is said of it is placed.

    Attributes:
        title: what it shows, without its scale.
        wood: what is drawn, on paper, in painting order.
        across, up: where the wood's two coordinates stand on paper.
        dimensions, labels: in the wood's coordinates; dimensions are placed first, in their order.
        says: what must be known to read it: clearances drawn too wide, breaks.
        scaled: whether the title is followed by the scale.
    """

    title: str
    wood: tuple[Item, ...]
    across: Axis = PAPER
    up: Axis = PAPER
    dimensions: tuple[UnplacedDimension, ...] = ()
    labels: tuple[Label, ...] = ()
    says: tuple[str, ...] = ()
    scaled: bool = True

    @property
    def scale(self) -> float:
        """Paper / wood."""
        return self.across.scale


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedView:
    """A view as it is drawn, from (0, 0) down.

    Attributes:
        unplaced: what found no room, in words: a fault.
    """

    items: tuple[Item, ...]
    wide: float
    high: float
    scale: float
    unplaced: tuple[str, ...]


def place(view: View, room: Vec2, voice: Voice, number: str = "") -> PlacedView:
    """Place what is said of a view.

    Args:
        room: how wide and how high it may be on paper; words keep to the width.
        number: before its title.
    """
    paper = FilledPaper(room[0])
    paper.draw(view.wood)
    lacking = [one for one in view.dimensions if not _dimension(paper, view, one)]
    unplaced = [" ".join(mark.figure for mark in one.marks) for one in lacking]
    ordered = sorted(view.labels, key=lambda one: one.priority)
    unplaced += [told(one.says, voice) for one in ordered if not labels.put(paper, one.on(view.across, view.up), voice)]
    return _under_title(view, tuple(paper.items), tuple(unplaced), number)


def _dimension(paper: FilledPaper, view: View, one: UnplacedDimension) -> bool:
    return dimensions.put(paper, one.on(view.across, view.up), view.across.breaks)


def _under_title(view: View, items: tuple[Item, ...], unplaced: tuple[str, ...], number: str) -> PlacedView:
    left, top, right, bottom = extent(items)
    room = max(right - left, LEAST)
    said = f", {FULL_SIZE if view.scale == 1.0 else scale_words(view.scale)}" if view.scaled else ""
    words: list[Item] = []
    y = TEXT
    for weight, text in (
        ("semibold", f"{number} {view.title}{said}".strip()),
        *(("regular", one) for one in view.says),
    ):
        for line in wrapped(text, room, TEXT, "semibold" if weight == "semibold" else "regular") if view.title else ():
            words.append(Text(at=(0.0, y), text=line, weight="semibold" if weight == "semibold" else "regular"))
            y += LINE * TEXT
    under = y - LINE * TEXT + TEXT if words else 0.0
    moved = shifted(items, -left, under - top + AIR)
    wide = max(right - left, extent(words).right if words else 0.0)
    return PlacedView(
        items=(*words, *moved), wide=wide, high=under + bottom - top + AIR, scale=view.scale, unplaced=unplaced
    )
