"""The assembly booklet: two pictures a sheet, drawn as it is done, the piece lying on its wall edges.

Units come first, then the piece; a glue-up card stands after the steps that it glues. Above each picture its number and
one sentence, under that what goes in that is no board, below it at most three short ones; arrows show the way, dashed
lines lead from each joint to its place.
"""

from collections.abc import Iterator, Mapping, Sequence
from functools import partial
from itertools import product

from ....geometry.frames import Vec2
from ...axonometric import Lying, body_of, camera, marked
from ...display import Draft, Item, Stroke, shifted
from ...kit.placing import FilledPaper
from ...lettering import Weight, width
from ...looks import Desk
from ...sheet import DeferredSheets, sheet, tried
from ...standard import A4, CARD, FIGURE, LETTER, NAME, NUMBER, RIGHT, TEXT, UNDER
from ..page.frame import SIDE, Space, black, space
from ..page.prose import block, largest
from .binding import BETWEEN, Block, bound, drawn_card, halves, of_card, of_step
from .hovering import Hovering
from .lettered import lettered
from .pages import BookletPage, no_order, pages
from .waiting import waiting

TITLES = (LETTER, NAME, FIGURE)
WIDE, HIGH = width("99", NUMBER, "bold") + TEXT, NUMBER + NAME  # of the black room of a sheet's number
LAST = "LAST"  # in place of a number: the piece is together, and no step of it is left
AROUND = NAME + TEXT  # of white around the picture, for letters
ENDS = 2 * NAME  # of white above and below it, for what says where its foot and its top are


@sheet("assembly", paper="assembly", order=10, aside=True)
def assembly(desk: Desk) -> Iterator[Draft | DeferredSheets]:
    """Sheets of two steps, or a step and a card; one that says why, where there is no order.

    A step or a card that cannot be drawn leaves the other of its sheet; the page that stands in for it comes last, so
    that the pages keep the numbers that others send to.
    """
    reason = no_order(desk)
    if reason:
        room = space(A4, desk)
        words, _ = block(reason, (room.left, room.top), room.wide, (FIGURE,))
        yield Draft(title="no order", kind="assembly", number="S0", scale="–", size=A4, items=tuple(words))
        return
    count, failed = sum(not page.whole for page in pages(desk)), []
    for number, blocks in enumerate(bound(desk), 1):
        rooms = (space(A4, desk),) if len(blocks) == 1 else halves(desk)
        items: list[Item] = [rule(rooms[0])] if len(blocks) > 1 else []
        there = []
        for one, room in zip(blocks, rooms, strict=True):
            first = blocks[0].page if one is not blocks[0] else None
            made = tried(_title((one,), count), partial(_drawn, desk, one, room, first))
            if isinstance(made, DeferredSheets):
                failed.append(made)
            else:
                items += made
                there.append(one)
        if there:
            yield Draft(
                title=_title(there, count),
                kind="assembly",
                number=f"S{number}",
                scale="picture only",
                size=A4,
                items=tuple(items),
                holds=tuple(one.held for one in there),
            )
    yield from failed


def _title(blocks: Sequence[Block], count: int) -> str:
    """As in "steps 1 and 2 of 16", "step 3 of 16, card G1", "the last: to its place"."""
    steps = [str(one.number) for one in blocks if one.page is not None and not one.page.whole]
    others = [one.called for one in blocks if one.page is None or one.page.whole]
    numbered = f"step{'s' if len(steps) > 1 else ''} {' and '.join(steps)} of {count}"
    return ", ".join([*([numbered] if steps else ()), *others])


def rule(upper: Space) -> Item:
    """A fine line between the halves of a sheet."""
    y = upper.bottom + BETWEEN / 2
    return Stroke(points=((upper.left, y), (upper.right, y)), pen="dimension", layer="frame")


def _drawn(desk: Desk, one: Block, room: Space, above: BookletPage | None) -> list[Item]:
    """A step or a card in its room, below another step on its sheet where there is one."""
    if one.page is None:
        return drawn_card(desk, one, room, of_step(desk)).items
    looks = views(desk)
    items, _ = placed(desk, one, looks[one.page.up], room, above)
    return items


def views(desk: Desk) -> Mapping[str, Lying]:
    """The piece as it lies, by which edges face up."""
    if "booklet views" in desk.kept:
        kept: Mapping[str, Lying] = desk.kept["booklet views"]
        return kept
    bodies = {part.id: body_of(part, desk.book.solids) for part in desk.book.piece.parts}
    leans = [RIGHT - board.angle for board in desk.book.piece.boards if board.lies == "across"]
    found = {up: Lying(bodies, camera(leans, turned_over=up == "wall")) for up in ("front", "wall")}
    desk.kept["booklet views"] = found
    return found


def placed(
    desk: Desk,
    one: Block,
    view: Lying,
    room: Space,
    above: BookletPage | None = None,
    *,
    ends: bool = True,
    behind: tuple[str, ...] = (),
) -> tuple[list[Item], list[str]]:
    """One step: its head, what to mind, the picture with its letters; and what found no room, a fault.

    Args:
        above: the step above it on its sheet: what that says of both is not said again, where foot and top are, and
            what to mind; but how many people it takes is.
        ends: whether foot and top are said at all.
        behind: as in `Hovering`.
    """
    page = one.page
    assert page is not None, "a step"
    paper = FilledPaper(over_own=True)
    top = _head(desk, paper, one, page, room)
    picture = Hovering(desk, view, page, behind=behind)
    if page.after:
        found = waiting(desk, page.there, page.after)
        bodies = {
            name: marked(body, found.slits.get(name, ())) for name, body in view.bodies.items() if name in page.there
        }
        picture = Hovering(desk, Lying({**bodies, **found.pieces}, view.camera), page, loose=found.off)
    ends = ends and (above is None or above.up != page.up)
    minds = [said for said in page.act.minds if above is None or said not in above.act.minds or " people: " in said]
    words, at = _arranged(picture, minds, room, top, ENDS if ends else AROUND)
    paper.draw(shifted(words, *at))
    for box in ((0.0, 0.0, A4[0], top), (0.0, room.bottom, *A4), (0.0, 0.0, room.left, A4[1])):
        paper.block(*box)
    paper.block(room.right, 0.0, *A4)
    picture.draw(paper)
    return paper.items, lettered(paper, picture, ends=ends)


def _arranged(
    picture: Hovering, minds: Sequence[str], room: Space, top: float, white: float
) -> tuple[list[Item], Vec2]:
    """The picture as large as it goes, and where on the sheet stands what to mind: in a corner that it leaves free.

    Where it leaves none, beside the picture or below it, whichever leaves that larger.

    Args:
        white: above and below the picture.
    """
    left, right, above, under = room.left + AROUND, room.right - AROUND, top + white, room.bottom - white
    words, high = _minds(minds, SIDE)
    picture.fit([(left, above, right, under)])
    sides, ends = (room.right - SIDE, room.left), (room.bottom - high, top + UNDER)
    air = NAME if picture.behind else 0.0  # of a wall's edge, that no letter stands on, to the words beside it
    for x, y in product(sides, ends):
        if picture.leaves((x, y, x + SIDE, y + high)):
            return words, (x, y)
    lines, low = _minds(minds, room.wide)
    beside = (words, (sides[0], ends[0]))
    choices = [
        ((left, above, sides[0] - air, under), beside),
        ((left, above, right, under - low), (lines, (room.left, room.bottom - low))),
        ((left, above, right, under - high), beside),
    ]
    return choices[picture.fit([box for box, _ in choices])][1]


def _minds(minds: Sequence[str], wide: float) -> tuple[list[Item], float]:
    """What to mind, from (0, 0) down, each on lines of its own; and how high it is."""
    y = 0.0
    items: list[Item] = []
    for said in minds:
        lines, y = block(said, (0.0, y), wide, (FIGURE,))
        items += lines
    return items, y


def _head(desk: Desk, paper: FilledPaper, one: Block, page: BookletPage, room: Space) -> float:
    """The number white on black, the sentence, how the part is held, what goes in; and the y of its bottom."""
    said = LAST if page.whole else str(one.number)
    paper.draw(
        black(said, (room.left, room.top, WIDE, HIGH), largest(said, (NUMBER, CARD, LETTER), WIDE - TEXT, "bold"))
    )
    x = room.left + WIDE + NAME
    held = f"{page.stage}: {page.act.says}" if page.stage else page.act.says
    texts: list[tuple[str, tuple[float, ...], Weight]] = [
        (page.act.title, TITLES, "bold"),
        (held, (FIGURE,), "regular"),
    ]
    texts += [(put, (FIGURE,), "semibold") for put in (*_carded(desk, one, page), *page.act.puts)]
    y = room.top
    for text, sizes, weight in texts:
        items, y = block(text, (x, y), room.right - x, sizes, weight)
        paper.draw(items)
    return max(room.top + HIGH, y)


def _carded(desk: Desk, one: Block, page: BookletPage) -> Iterator[str]:
    """Which card says how it is glued, and whether it is only put on dry there."""
    glued = [of_card(number) for number, dry in one.cards if not dry]
    held = [of_card(number) for number, dry in one.cards if dry]
    if glued:
        yield f"Dry fit first; glue by {glued[0]}."
    if held:
        yield f"Put on dry at {' and '.join(held)}: it holds that go square."
    if page.after:
        every = (each for sheet in bound(desk) for each in sheet if each.go is not None and each.go.name == page.stage)
        last = max((each.number for each in every), default=0)
        if last:
            yield f"Only when the glue of {of_card(last)}, has set."
