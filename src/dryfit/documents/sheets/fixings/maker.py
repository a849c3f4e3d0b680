"""The fixings sheet, for the wall: where each hole lies, what goes into it, and what to look at before drilling.

The wall seen from the room with the piece faint on it; a table of the holes with a box each; each chain of screw and
hole cut along its axis with the sum that makes its length. Large type: it is read at arm's length, on a ladder. All on
one sheet where that holds it; else the wall on a sheet of its own.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import partial
from typing import TypeAlias

from ....joints.screws.wood import SIDE_STOP
from ....trade.lifting import SOURCE
from ...display import Draft, Held, Item, extent, shifted
from ...kit.view import PlacedView
from ...lettering import printable
from ...looks import Desk
from ...naming import adding_up, depth, plural, position, printed_units, scale_words, thickness, width
from ...pages import joint as place_of
from ...sheet import DeferredSheets, sheet, tried
from ...standard import A4, FIRST, SCALES, SMALLEST, TEXT
from ...standard import BLANK as LINE_TO_FILL
from .. import lifting
from ..page.frame import LEFT, MARGIN, Space, heading, space
from ..page.prose import TextPlace, WordRun, flow, strong
from ..page.table import (
    GUTTER,
    LARGE,
    PAD,
    Cell,
    Column,
    Row,
    bold,
    columns_for,
    fitting,
    head_high,
    rows_high,
    unfolded,
)
from ..page.table import drawn as tabled
from .chain import Chain, Point, Zero, chains, driver_of, into_words, points, zero
from .section import section
from .wall import wall

SIZE = (A4[1], A4[0])
LEAST_SCALE = SMALLEST  # of the wall on a sheet with all else
BLANK = "____"  # for what is read from a sheet that the program has not seen
WORDS_WIDE = 78.0  # beside a section, and of what to look at first on the wall
BESIDE_WORDS = SIZE[0] - LEFT - MARGIN - WORDS_WIDE - GUTTER  # of a section
BELOW = 2 * TEXT  # between what stands one under the other
TITLE = "fixings to the wall"
Block: TypeAlias = tuple[PlacedView, list[list[WordRun]]]  # a section, and the words beside it
FOLDED = (6, 7, 8)  # screw and bits: told once where they are the same in all holes
TITLES = (
    "",
    "board: its cut",
    "from its datum end",
    "wall x",
    "wall y",
    "into",
    "screw",
    "bits in board",
    "bit in wall",
    "in",
    "plug",
)
SIGN = "+"  # as each fixing is drawn; letters are the parts'


@sheet("fixings", paper="workshop", order=90)
def fixings(desk: Desk) -> Iterator[DeferredSheets]:
    """One sheet, or the wall, then holes and screws, each apart; nothing where the job has no screws into the wall."""
    found = points(desk)
    if not found:
        return
    start = zero(desk)
    blocks = [
        tried(f"{TITLE}: how the screw of {_numbers(alike)} holds", partial(_blocked, desk, chain, alike))
        for chain, alike in chains(found)
    ]
    drawn = [block for block in blocks if not isinstance(block, DeferredSheets)]
    whole = (
        tried(f"{TITLE}: the wall", partial(_whole, desk, found, start, drawn)) if len(drawn) == len(blocks) else None
    )
    if isinstance(whole, Draft):
        yield DeferredSheets(title=TITLE, draw=lambda: [whole])
        return
    yield DeferredSheets(title=f"{TITLE}: the wall", draw=partial(_wall_sheet, desk, found, start))
    yield DeferredSheets(title=f"{TITLE}: the holes", draw=partial(_hole_sheets, desk, found, start, drawn))
    yield from (block for block in blocks if isinstance(block, DeferredSheets))


def _numbers(found: Sequence[Point]) -> str:
    """Holes by the first: "hole 1", "hole 1 and 9 more"."""
    more = f" and {len(found) - 1} more" if len(found) > 1 else ""
    return f"hole {found[0].number}{more}"


def _blocked(desk: Desk, chain: Chain, alike: Sequence[Point]) -> Block:
    """A section, and the words beside it."""
    return section(desk, chain, alike, BESIDE_WORDS), _words(desk, chain, alike)


def _wall_sheet(desk: Desk, found: Sequence[Point], start: Zero) -> Iterator[Draft]:
    yield _draft(found, "F1", *_wall_page(desk, found, start))


def _hole_sheets(desk: Desk, found: Sequence[Point], start: Zero, blocks: Sequence[Block]) -> Iterator[Draft]:
    for number, (items, scale) in enumerate(_hole_pages(desk, found, start, blocks), start=2):
        yield _draft(found, f"F{number}", items, scale)


def _draft(
    found: Sequence[Point], number: str, items: Sequence[Item], scale: str, size: tuple[float, float] = SIZE
) -> Draft:
    joints = dict.fromkeys(point.joint for point in found)
    holds = tuple(Held(place=place_of(key), title=TITLE if not at else "") for at, key in enumerate(joints))
    return Draft(title=TITLE, kind="fixings", number=number, scale=scale, size=size, items=tuple(items), holds=holds)


def _headed(
    desk: Desk, found: Sequence[Point], more: str, size: tuple[float, float] = SIZE
) -> tuple[list[Item], float, Space]:
    room = space(size, desk)
    screws = ", ".join(dict.fromkeys(point.chain.screw.name for point in found))
    wall = next((point.chain.plan.into for point in found if point.chain.plan.into), "wall not described")
    facts = (plural(len(found), "hole"), screws, wall, more)
    items, y = heading(SIGN, TITLE, facts, room.right)
    return items, y + 2.0, room


# --- all on one sheet ----------------------------------------------------------------------------


def _whole(desk: Desk, found: Sequence[Point], start: Zero, blocks: Sequence[Block]) -> Draft | None:
    """The wall, the screw and the table on one sheet, upright; nothing where it does not hold them.

    What is said of the screw stands under the wall, beside what is to be looked at first.
    """
    titles, rows, same = _folded([_row(desk, point, start) for point in found])
    items, top, room = _headed(desk, found, " · ".join([f"x from {start.says}, y from the floor", *same]), A4)
    place = TextPlace(room.left, top, room.wide - WORDS_WIDE - GUTTER, room.bottom)
    drawn, scale, under = _wall_in(desk, found, start, place)
    looked = _checks(desk, found, TextPlace(room.right - WORDS_WIDE, top, WORDS_WIDE, room.bottom))
    if len(blocks) != 1 or scale < LEAST_SCALE:
        return None
    said = flow([replace(place, y=under)], blocks[0][1])
    y = max(said.bottom, extent(looked).bottom) + BELOW
    screw = section(desk, *chains(found)[0], room.wide)
    columns = columns_for(titles, rows, room.wide, LARGE)
    table = unfolded(columns, rows, LARGE)
    below = y + screw.high + BELOW
    if not said.whole or below + head_high(columns, LARGE) + rows_high(table, LARGE) > room.bottom:
        return None
    items += [*drawn, *said.items, *looked, *shifted(screw.items, room.left, y)]
    items += tabled(room.left, below, columns, table, LARGE)
    return _draft(found, "F", items, ", ".join(map(_scale_words, (screw.scale, scale))), A4)


def _folded(rows: Sequence[Row]) -> tuple[list[str], list[Row], list[str]]:
    """The table without the columns in which all holes are alike, and what these say."""
    alike = {at for at in FOLDED if len({row[at].text for row in rows}) == 1}
    same = [f"{TITLES[at]} {rows[0][at].text}" for at in sorted(alike)]
    titles = [title for at, title in enumerate(TITLES) if at not in alike]
    return titles, [tuple(cell for at, cell in enumerate(row) if at not in alike) for row in rows], same


def _wall_in(desk: Desk, found: Sequence[Point], start: Zero, place: TextPlace) -> tuple[list[Item], float, float]:
    """The wall as large as a width holds it: items, scale, and the y under it."""
    for scale in SCALES[2:]:
        left, above, right, below = extent(drawn := wall(desk, found, start, scale))
        if right - left <= place.wide:
            break
    return list(shifted(drawn, place.x - left, place.y - above)), scale, place.y + below - above + BELOW


# --- the wall ------------------------------------------------------------------------------------


def _wall_page(desk: Desk, found: Sequence[Point], start: Zero) -> tuple[list[Item], str]:
    items, top, room = _headed(desk, found, "seen from the room")
    for scale in SCALES[2:]:
        left, above, right, below = extent(drawn := wall(desk, found, start, scale))
        if right - left <= room.wide - WORDS_WIDE - FIRST and below - above <= room.bottom - top:
            break
    items += shifted(drawn, room.left - left, top - above)
    items += _checks(desk, found, TextPlace(room.right - WORDS_WIDE, top, WORDS_WIDE, room.bottom))
    return items, scale_words(scale)


def _checks(desk: Desk, found: Sequence[Point], place: TextPlace) -> list[Item]:
    """What to look at on the wall before the first hole, a box each."""
    boxes = LARGE.tick + 2 * PAD
    columns = [Column(title="", wide=boxes), Column(title="first, on the wall", wide=WORDS_WIDE - boxes)]
    rows: list[Row] = [(Cell(tick=True), Cell(text=printable(text))) for text in checks(desk, found)]
    return tabled(place.x, place.y, columns, unfolded(columns, rows, LARGE), LARGE)


def checks(desk: Desk, found: Sequence[Point]) -> list[str]:
    """The sentences, as this wall and these screws ask for them."""
    gaps = [point.chain.plan.gap for point in found]
    said = ["Cables and pipes: a detector over every hole; supply off at the board, water off, while you drill."]
    if any(point.in_a_stud for point in found):
        said.append("Find both edges of each stud and mark its centre. If the studs are not where drawn, stop.")
    if any(point.chain.anchored for point in found):
        said.append("The wall may be hollow or weak: try one anchor where it will not show.")
    said.append("Level line right along; heights from it, never from the floor at each hole.")
    known = [gap for gap in gaps if gap is not None]
    if len(known) == len(gaps):
        said.append(f"Straightedge on the wall: hollows over {position(max(known))} need longer screws.")
    else:
        said.append("Straightedge on the wall: the worst hollow is not given. Measure it before buying screws.")
    if any(point.chain.plan.lining is None for point in found):
        said.append("The lining is not given: drill 3 mm, feel its thickness with a wire, and again elsewhere.")
    said.append(
        "The pull on the screws is not worked out: a screw's or anchor's maker and local rules say what it holds."
    )
    said.append(f"Lifting: {lifting.said(desk)} ({SOURCE}).")
    if any(point.chain.plan.plugged for point in found):
        said.append("Plugs go in after hanging.")
    return said


# --- holes and screws ----------------------------------------------------------------------------


def _hole_pages(
    desk: Desk, found: Sequence[Point], start: Zero, sections: Sequence[Block]
) -> Iterator[tuple[list[Item], str]]:
    """The table on as many sheets as it takes, then the sections, beginning where the table ends."""
    rows = [_row(desk, point, start) for point in found]
    columns = columns_for(TITLES, rows, space(SIZE, desk).wide, LARGE)
    left = unfolded(columns, rows, LARGE)
    blocks = list(sections)
    while left or blocks:
        items, y, room = _headed(desk, found, f"x from {start.says}, y from the floor")
        scales, top = list[float](), y
        if left:
            count = fitting(left, room.bottom - y - head_high(columns, LARGE), LARGE)
            items += tabled(room.left, y, columns, left[:count], LARGE)
            y += head_high(columns, LARGE) + rows_high(left[:count], LARGE) + BELOW
            left = left[count:]
        while blocks and not left:
            more, bottom = _block(*blocks[0], room, y)
            if bottom > room.bottom and y > top:
                break
            drawing, _ = blocks.pop(0)
            items += more
            scales.append(drawing.scale)
            y = bottom + BELOW
        yield items, ", ".join(_scale_words(scale) for scale in sorted(set(scales), reverse=True)) or "–"


def _scale_words(scale: float) -> str:
    return "1:1" if scale == 1.0 else scale_words(scale)


def _row(desk: Desk, point: Point, start: Zero) -> Row:
    cut = f": {point.cut}" if point.cut is not None else ""
    return (
        bold(str(point.number)),
        Cell(text=printable(f"{desk.marks[point.board]} {point.board}{cut}")),
        bold(position(point.along)),
        bold(position(point.x - start.x)),
        bold(position(point.y)),
        Cell(text=printable(into_words(point, start))),
        Cell(text=printable(_screw_words(point.chain))),
        Cell(text=f"{position(point.chain.plan.counterbore)}, {position(point.chain.plan.hole)}"),
        Cell(text=_bit_words(point.chain)),
        Cell(tick=True),
        Cell(tick=point.chain.plan.plugged),
    )


def _screw_words(chain: Chain) -> str:
    name = "M" if chain.screw.kind == "machine" else "wood "
    head = f", {chain.screw.head}" if chain.screw.other_head else ""
    return f"{name}{chain.screw.diameter:g} × {chain.screw.length:g}{head}"


def _bit_words(chain: Chain) -> str:
    if chain.pilot is not None:
        return f"pilot {position(chain.pilot)}"
    anchor = chain.plan.anchor
    return position(anchor.drill) if anchor is not None and anchor.drill else "by anchor"


def _block(drawing: PlacedView, words: Sequence[Sequence[WordRun]], room: Space, y: float) -> tuple[list[Item], float]:
    """A section with its sum and its hole's figures to the right: items, and the y of their bottom."""
    said = flow([TextPlace(room.right - WORDS_WIDE, y, WORDS_WIDE, math.inf)], words)
    return [*shifted(drawing.items, room.left, y), *said.items], y + max(drawing.high, said.bottom - y)


def _words(desk: Desk, chain: Chain, alike: Sequence[Point]) -> list[list[WordRun]]:
    """The sum, the hole, and what is left beside it."""
    return [_first(), _sum(chain), _hole(chain), _left(chain), _tools(desk, chain, alike), _hint(chain)]


def _first() -> list[WordRun]:
    """What is measured and tried before the first hole, and what can hurt."""
    return [
        strong("Before the first hole."),
        WordRun("Measure the screw under its head:", blank=LINE_TO_FILL),
        WordRun("Bore once in an offcut of the same depth. Clamp the board: a long bit that binds can spin the work."),
    ]


def _sum(chain: Chain) -> list[WordRun]:
    plan = chain.plan
    (last, reach), *links = chain.links()
    beyond = [("worst gap" if name == "gap" else name, size) for name, size in reversed(links)]
    before = [("head", chain.head_counts), ("washer", plan.washer), ("grip", plan.grip), *beyond]
    before = [(name, size) for name, size in before if size or name == "grip"]
    left, whole, off = adding_up(chain.screw.length, [-size for _, size in before], reach)
    terms = [*((name, -size) for (name, _), size in zip(before, off, strict=True)), (last, left)]
    said = " + ".join(f"{name} {position(size)}" for name, size in terms if size or name in ("grip", "held"))
    flat = f"On a flat wall {position(plan.held + plan.gap)} is held." if plan.gap and plan.held is not None else ""
    return [
        strong(f"{said} = {position(whole)},"),
        WordRun(f"the screw. Needed in the wall: {_wanted(chain)}. {flat}".strip()),
    ]


def _wanted(chain: Chain) -> str:
    """What the wall is to hold, and by whose rule."""
    plan = chain.plan
    if plan.hold_known:
        return position(plan.hold)
    return f"{position(plan.hold)} is assumed; the anchor's maker gives the figure: {BLANK}"


def _hole(chain: Chain) -> list[WordRun]:
    plan = chain.plan
    over = f"{'washer' if plan.washer else 'head'} of {position(plan.head)}"
    return [
        strong("Hole."),
        WordRun(
            f"Counterbore {position(plan.counterbore)}, {depth(plan.deep)} deep from the front edge, for a {over};"
        ),
        WordRun(f"{position(plan.hole)} on through the grip ({chain.plan.hole_from}).{_plug_words(chain)}"),
    ]


def _plug_words(chain: Chain) -> str:
    """The plug, and of which wood it is cut."""
    wood = f" of {printable(chain.wood)}" if chain.wood else ""
    return f" Plug {position(chain.plan.counterbore)}{wood}, grain with the board's." if chain.plug else ""


def _left(chain: Chain) -> list[WordRun]:
    """Wood beside the counterbore: nominal, and after the bit has strayed."""
    left = chain.side_wall - chain.plan.wander
    bored = position(chain.plan.counterbore) if printed_units() == "mm" else width(chain.plan.counterbore)
    beside = f"({thickness(chain.thick)} − {bored}) / 2 = {thickness(chain.side_wall)}"
    return [
        strong("Beside it"),
        WordRun(
            f"{beside}; a bit {chain.plan.drilled} may stray {width(chain.plan.wander)} by there, "
            f"which leaves {width(left)}"
        ),
        WordRun(f"(least {position(SIDE_STOP)}; common practice)."),
    ]


def _hint(chain: Chain) -> list[WordRun]:
    """The hole in the wall, and what its maker's sheet must still say."""
    if chain.anchored:
        return _anchor(chain)
    return [WordRun("Pilot in the stud: figure for hardwood (usual data sheets, from memory); softwood needs less.")]


def _anchor(chain: Chain) -> list[WordRun]:
    """What is known of the anchor, and what is to be filled in from its maker's sheet."""
    anchor = chain.plan.anchor
    hole = anchor.drill if anchor is not None else None
    deep = anchor.deep if anchor is not None else None
    sizes = f"{position(hole) if hole else BLANK}, {position(deep) if deep else BLANK} deep"
    held = [anchor.pull_n, anchor.shear_n] if anchor is not None else [None, None]
    pull, shear = (f"{size:g}" if size is not None else BLANK for size in held)
    whose = f" ({anchor.strength}; {anchor.source})" if anchor is not None and anchor.source else ""
    return [
        strong("Its maker's sheet says"),
        WordRun(f"the hole in the wall: {sizes}; how it is set and how tight;"),
        WordRun(f"what one holds: {pull} N out of the wall, {shear} N along it{whose}."),
    ]


def _tools(desk: Desk, chain: Chain, alike: Sequence[Point]) -> list[WordRun]:
    """Bits as they are sold, for a hole so deep."""
    plan = chain.plan
    if not plan.deep:
        return []
    known, clear = driver_of(desk, chain, alike)
    driver = position(known) if known is not None else f"over {position(plan.reach)}"
    bit = position(plan.bit) if plan.bit is not None else f"over {position(plan.reach)}"
    return [
        strong("Tools."),
        WordRun(
            f"Wood bits {bit} long, driver bit {driver}: {position(plan.reach)} at least. Clear in front of the edge:"
        ),
        WordRun(f"{position(math.ceil(clear))}."),
    ]
