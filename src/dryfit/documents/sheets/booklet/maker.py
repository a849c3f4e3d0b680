"""The assembly booklet: one picture a step, drawn as it is done, the piece lying on its wall edges.

Units come first, then the piece. Above each picture its number and one sentence, under it what goes in that is no
board, beside it at most three short ones; arrows show the way, dashed lines lead from each joint to its place.
"""

from collections.abc import Iterator

from ...axonometric import Lying, body_of, camera
from ...display import Item, Text
from ...lettering import FIGURE, Weight, printable, wrapped
from ...looks import Desk
from ..page.frame import LEFT, MARGIN, black, space
from ..page.ground import Ground
from ..page.prose import largest
from ..registry import A4, Draft, sheet
from .hovering import Hovering
from .lettered import ends, letters
from .pages import Page, no_order, pages

SIZE = (A4[1], A4[0])
NUMBER, TITLES = 14.0, (7.0, 6.0, 5.0, 4.2)
BOX = (24.0, 18.0)
LAST, LAST_HIGH = "LAST", 7.0  # in place of a number: the piece is together, and no step of it is left
SIDE = 58.0  # of the column of words on the right
LINE = 5.6  # of those words
TITLE_LINE = 1.45  # of a title's heights from line to line
AROUND = 9.0  # of white around the picture, for letters


@sheet("assembly", paper="assembly", order=10, aside=True)
def assembly(desk: Desk) -> Iterator[Draft]:
    """A sheet for every step; one that says why, where there is no order."""
    reason = no_order(desk)
    if reason:
        yield _plain(desk, reason)
        return
    every = pages(desk)
    bodies = {part.id: body_of(part, desk.book.solids) for part in desk.book.piece.parts}
    leans = [90.0 - board.angle for board in desk.book.piece.boards if board.lies == "across"]
    views = {up: Lying(bodies, camera(leans, turned_over=up == "wall")) for up in ("front", "wall")}
    count = sum(not page.whole for page in every)
    for number, page in enumerate(every, 1):
        yield Draft(
            title="the last: to its place" if page.whole else f"step {number} of {count}",
            kind="assembly",
            number=f"S{number}",
            scale="picture only",
            size=SIZE,
            items=tuple(_items(desk, number, page, views[page.up])),
        )


def _plain(desk: Desk, reason: str) -> Draft:
    room = space(SIZE, desk)
    lines = wrapped(printable(reason), room.wide, FIGURE)
    items = tuple(
        Text(at=(room.left, room.top + 12.0 + n * LINE), text=line, size=FIGURE) for n, line in enumerate(lines)
    )
    return Draft(title="no order", kind="assembly", number="S0", scale="–", size=SIZE, items=items)


def _items(desk: Desk, number: int, page: Page, view: Lying) -> Iterator[Item]:
    """One sheet: its head, what to mind, the picture with its letters."""
    room = space(SIZE, desk)
    head, top = _head(number, page, room.right)
    yield from head
    x = room.right - SIDE + 2.0
    lines = [w for said in page.act.minds for w in wrapped(printable(said), SIDE - 2.0, FIGURE)]
    low = room.bottom - LINE * len(lines)
    for row, line in enumerate(lines):
        yield Text(at=(x, low + LINE * row + FIGURE + 0.8), text=line, size=FIGURE)
    ground = Ground(room.left - 5.0, top + 1.0, room.right + 3.0, room.bottom)
    picture = Hovering(desk, view, page.there, page.incoming, page.step, ground)
    left, right = room.left + AROUND, room.right - AROUND
    above, below = top + AROUND, room.bottom - AROUND
    picture.fit([(left, above, right - SIDE, below), (left, above, right, low - AROUND)])
    if lines:
        ground.take_box(x - 2.0, low - 2.0, x + SIDE + 5.0, room.bottom + 5.0)
    yield from picture.drawn()
    yield from letters(picture)
    yield from ends(picture)


def _head(number: int, page: Page, right: float) -> tuple[list[Item], float]:
    """The number white on black, the sentence, how the part is held, what goes in; and the y of its bottom."""
    wide, high = BOX
    size = NUMBER if number < 100 else NUMBER * 0.7
    box = (LEFT, MARGIN, wide, high)
    items = black(LAST, box, LAST_HIGH) if page.whole else black(str(number), box, size)
    x, room = LEFT + wide + 4.0, right - LEFT - wide - 4.0
    said = printable(page.act.title)
    size = largest(said, TITLES, room, "bold")
    y = MARGIN + TITLES[0] + 1.0
    for row, line in enumerate(wrapped(said, room, size, "bold")):
        y += size * TITLE_LINE if row else 0.0
        items.append(Text(at=(x, y), text=line, size=size, weight="bold"))
    y += 7.4 - LINE
    held = f"{page.stage}: {page.act.says}" if page.stage else page.act.says
    weights: list[tuple[str, Weight]] = [(held, "regular"), *((put, "semibold") for put in page.act.puts)]
    for text, weight in weights:
        for line in wrapped(printable(text), room, FIGURE, weight):
            y += LINE
            items.append(Text(at=(x, y), text=line, size=FIGURE, weight=weight))
    return items, max(MARGIN + high, y + 2.0)
