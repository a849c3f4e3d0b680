"""The paper at full size: its free room, the two bars by which a print is checked, and what stands where on it."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from ....lengths import MM_PER
from ...display import Area, Draft, Held, Item, Stroke, Strokes, Text, extent, shifted
from ...lettering import FIGURE, TEXT, fitted, printable, width, wrapped
from ...looks import Desk
from ...naming import printed_units
from ...standard import A3, A4, AIR, LETTER_PAPER, LINE, NAME, PAST, RIGHT, ROW, STEP, UNDER
from ..page.frame import Space, space

SIZES = {"A4": A4, "A3": A3, "Letter": LETTER_PAPER}  # by the shop file's word, upright
SAFE = 7.0  # printers leave 5 to 6 white (common practice)
BAR = 100.0
INCHES = 4  # of the second bar of a job in inches
TENTH = 10  # parts of the bar
GAP = 2 * ROW  # between two things beside one another
GUTTER = 2 * ROW  # kept free on the left and below, for the bars
ARROW = 2 * NAME  # of the arrow to the datum end
HEAD = (
    "Print at 100 %, not fitted to the page; measure both bars before you use the print. Where the print "
    "and a figure disagree, the figure is right."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class PrintedBlock:
    """Something printed in one piece, from (0, 0) down.

    Attributes:
        title: what it is, for the title block.
        held: what can be found by it.
        unplaced: what of its words found no room: a fault.
    """

    items: tuple[Item, ...]
    title: str
    held: tuple[Held, ...] = ()
    unplaced: tuple[str, ...] = ()

    @property
    def wide(self) -> float:
        """How far it reaches to the right."""
        return extent(self.items).right

    @property
    def high(self) -> float:
        """How far it reaches down."""
        return extent(self.items).bottom


def size(desk: Desk, *, upright: bool = False) -> tuple[float, float]:
    """The shop's paper as it lies, or upright."""
    wide, high = SIZES[desk.book.shop.paper]
    return (wide, high) if upright else (high, wide)


def room(desk: Desk, *, upright: bool = False) -> Space:
    """Where blocks may stand on it."""
    wide, _ = paper = size(desk, upright=upright)
    top = SAFE + FIGURE + AIR + 2 * UNDER
    return Space(left=SAFE + GUTTER, top=top, right=wide - SAFE, bottom=space(paper, desk).bottom - GUTTER)


def headed(title: str, words: str, items: Iterable[Item], wide: float, way: tuple[int, int]) -> list[Item]:
    """Items under a title with an arrow to the datum end, and words on how they lie beside it or below.

    Args:
        way: where the datum end lies on paper, (-1, 0) for left, y down; (0, 0) for no arrow.
    """
    said = list(_arrow(way))
    left, y = (ARROW + 2 * AIR if said else 0.0), FIGURE
    lines = wrapped(printable(title), wide - left, FIGURE, "semibold")
    for number, line in enumerate(lines):
        y = FIGURE + number * LINE * FIGURE
        said.append(Text(at=(left, y), text=line, size=FIGURE, weight="semibold"))
    beside = left + width(lines[-1], FIGURE, "semibold") + 2 * FIGURE
    if beside + width(printable(words), TEXT) <= wide:
        said.append(Text(at=(beside, y), text=printable(words)))
    else:
        for number, line in enumerate(wrapped(printable(words), wide - left, TEXT)):
            y += STEP if number else LINE * FIGURE
            said.append(Text(at=(left, y), text=line))
    drawn = list(items)
    first, top, _, _ = extent(drawn)
    return [*said, *shifted(drawn, -first, y + UNDER - top)]


def tile_of(number: int, of: int) -> str:
    """What a title ends with where its drawing is in several tiles: ", tile 1 of 2"."""
    return f", tile {number} of {of}" if of > 1 else ""


def _arrow(way: tuple[int, int]) -> Iterator[Item]:
    """An arrow in the room before a title, as high as its capitals where it lies."""
    x, y = way
    if way == (0, 0):
        return
    (mx, my), half, head = (ARROW / 2, FIGURE / 2), ARROW / 2 if x else FIGURE / 2, FIGURE / 2
    tip, neck = (mx + x * half, my + y * half), (mx + x * (half - head), my + y * (half - head))
    yield Stroke(points=((mx - x * half, my - y * half), neck), pen="outline", layer="mark")
    barbs = ((neck[0] - y * head, neck[1] + x * head), (neck[0] + y * head, neck[1] - x * head))
    yield Area(loops=((tip, *barbs),), layer="mark")


@dataclass
class _Page:
    """A sheet as it fills: blocks beside one another while there is room, then below."""

    room: Space
    items: list[Item] = field(default_factory=list)
    blocks: list[PrintedBlock] = field(default_factory=list)
    x: float = 0.0
    y: float = 0.0
    low: float = 0.0

    def __post_init__(self) -> None:
        self.x, self.y, self.low = self.room.left, self.room.top, self.room.top

    def takes(self, block: PrintedBlock) -> bool:
        """Put a block where there is room; False if there is none, unless the page is empty."""
        if self.x > self.room.left and self.x + block.wide > self.room.right:
            self.x, self.y = self.room.left, self.low + STEP
        if self.blocks and self.y + block.high > self.room.bottom:
            return False
        self.items += shifted(block.items, self.x, self.y)
        self.blocks.append(block)
        self.low = max(self.low, self.y + block.high)
        self.x += block.wide + GAP
        return True


def sheets(
    desk: Desk, kind: str, blocks: Iterable[PrintedBlock], first: int = 1, *, upright: bool = False
) -> list[Draft]:
    """Blocks on as few sheets as hold them in their order; `first` is the number of the first sheet."""
    pages: list[_Page] = []
    for block in blocks:
        if not pages or not pages[-1].takes(block):
            pages.append(_Page(room(desk, upright=upright)))
            pages[-1].takes(block)
    assert not (lost := [words for page in pages for block in page.blocks for words in block.unplaced]), lost
    return [_draft(desk, kind, page, number, upright) for number, page in enumerate(pages, start=first)]


def _draft(desk: Desk, kind: str, page: _Page, number: int, upright: bool) -> Draft:
    paper = size(desk, upright=upright)
    titles = list(dict.fromkeys(block.title for block in page.blocks))
    return Draft(
        title="; ".join(titles),
        kind=kind,
        number=f"F{kind[0].upper()}{number}",
        scale="1:1",
        size=paper,
        items=(*_frame(desk, page.room, kind), *page.items),
        holds=tuple(held for block in page.blocks for held in block.held),
    )


def _frame(desk: Desk, free: Space, kind: str) -> Iterator[Item]:
    """What stands on each sheet: the job, the paper, how to print it, the bars."""
    title = printable(f"Full size on {desk.book.shop.paper} paper: {kind}. {desk.book.job.title}")
    room_for = fitted(title, free.right - SAFE, FIGURE, "semibold")
    yield Text(at=(SAFE, SAFE + FIGURE + AIR), text=room_for, size=FIGURE, weight="semibold")
    left, y = SAFE + GUTTER / 2 + BAR + FIGURE + ROW, free.bottom + UNDER + TEXT
    for line in wrapped(HEAD, free.right - left, TEXT):
        yield Text(at=(left, y), text=line)
        y += STEP
    yield from _bars(SAFE + GUTTER / 2, free.bottom + GUTTER / 2)


def _bars(x: float, y: float) -> Iterator[Item]:
    """Two bars from one corner, to the right and up, in tenths; of a job in inches with inches on the other side."""
    long = max(BAR, INCHES * MM_PER["in"] if printed_units() == "in" else 0.0)
    yield Stroke(points=((x, y - long), (x, y), (x + long, y)), pen="dimension", layer="bar")
    ticks = [(BAR * part / TENTH, PAST if part % TENTH else 2 * PAST) for part in range(TENTH + 1)]
    yield _ticks(x, y, ticks, 1.0)
    said = [(BAR, "100 mm", 1.0)]
    if printed_units() == "in":
        yield _ticks(x, y, [(MM_PER["in"] * part, 2 * PAST) for part in range(INCHES + 1)], -1.0)
        said.append((INCHES * MM_PER["in"], f"{INCHES} in", -1.0))
    for at, words, side in said:
        off = AIR + PAST
        yield Text(at=(x + at - 2 * AIR, y + side * off + (TEXT if side > 0 else 0.0)), text=words, anchor="end")
        yield Text(
            at=(x - side * off - (0.0 if side > 0 else -TEXT), y - at + 2 * AIR), text=words, anchor="end", turn=RIGHT
        )


def _ticks(x: float, y: float, ticks: Iterable[tuple[float, float]], side: float) -> Strokes:
    level = [((x + at, y), (x + at, y + side * long)) for at, long in ticks]
    upright = [((x, y - at), (x - side * long, y - at)) for at, long in ticks]
    return Strokes(segments=(*level, *upright), pen="dimension", layer="bar")
