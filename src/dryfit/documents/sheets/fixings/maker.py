"""The fixings sheet, for the wall: where each hole lies, what goes into it, and what to look at before drilling.

The wall seen from the room with the piece faint on it; a table of the holes with a box each; each chain of screw and
hole cut along its axis with the sum that makes its length. Large type: it is read at arm's length, on a ladder.
"""

import math
from collections.abc import Iterator, Sequence

from ...display import Item, shifted
from ...lettering import printable
from ...looks import Desk
from ...naming import depth, plural, position, scale_words, thickness, width
from ..lifting import PERSON_KG, persons
from ..page.frame import Space, heading, space
from ..page.prose import Place, Run, flow, strong
from ..page.table import LARGE, Cell, Column, Row, bold, drawn, fitting, head_high, rows_high, unfolded
from ..registry import A4, Draft, sheet
from .chain import Chain, Point, Zero, chains, into_words, points, zero
from .section import Section, section
from .wall import HEAD, Wall

SIZE = (A4[1], A4[0])
SCALES = (0.2, 0.1, 0.05, 0.02, 0.01, 0.005)
CHECKS = 78.0  # of the column of what to look at first
NUMBERS = 15.0  # between it and the wall, for the numbers of crowded rows
LEAST_WALL = 3.0  # beside a counterbore, less wander (common practice)
BLANK = "____"  # for what is read from a sheet that the program has not seen
WORDS_WIDE = 78.0  # beside a section
TITLE = "fixings to the wall"
SIGN = "+"  # as each fixing is drawn; letters are the parts'


@sheet("fixings", paper="workshop", order=90)
def fixings(desk: Desk) -> Iterator[Draft]:
    """The wall, then holes and screws; nothing where the job has no screws into the wall."""
    found = points(desk)
    if not found:
        return
    start = zero(desk)
    pages = [_wall_page(desk, found, start), *_hole_pages(desk, found, start)]
    for number, (items, scale) in enumerate(pages, start=1):
        yield Draft(title=TITLE, kind="fixings", number=f"F{number}", scale=scale, size=SIZE, items=tuple(items))


def _headed(desk: Desk, found: Sequence[Point], more: str) -> tuple[list[Item], float, Space]:
    room = space(SIZE, desk)
    screws = ", ".join(dict.fromkeys(point.chain.screw.name for point in found))
    wall = next((point.chain.into for point in found if point.chain.into), "wall not described")
    facts = " · ".join([plural(len(found), "hole"), screws, wall, more])
    items, y = heading(SIGN, TITLE, printable(facts), room.right)
    return items, y + 2.0, room


# --- the wall ------------------------------------------------------------------------------------


def _wall_page(desk: Desk, found: Sequence[Point], start: Zero) -> tuple[list[Item], str]:
    items, top, room = _headed(desk, found, "seen from the room")
    wall = Wall(desk, found, start)
    left, right = room.left + wall.beside(), room.right - CHECKS - NUMBERS
    for scale in SCALES:
        wall.place(scale, left, 0.0)
        high = wall.top * scale + HEAD + wall.below()
        if (wall.right - wall.left) * scale <= right - left and high <= room.bottom - top:
            break
    wall.place(scale, left, top + HEAD + wall.top * scale)
    items += [*wall.items(), *wall.figures()]
    items += _checks(desk, found, Place(room.right - CHECKS, top, CHECKS, room.bottom))
    return items, scale_words(scale)


def _checks(desk: Desk, found: Sequence[Point], place: Place) -> list[Item]:
    """What to look at on the wall before the first hole, a box each."""
    columns = [Column(title="", wide=7.0), Column(title="first, on the wall", wide=CHECKS - 7.0)]
    rows: list[Row] = [(Cell(tick=True), Cell(text=printable(text))) for text in checks(desk, found)]
    return drawn(place.x, place.y, columns, unfolded(columns, rows, LARGE), LARGE)


def checks(desk: Desk, found: Sequence[Point]) -> list[str]:
    """The sentences, as this wall and these screws ask for them."""
    gaps = [point.chain.plan.gap for point in found]
    said = ["Cables and pipes: a detector over every hole; supply off at the board, water off, while you drill."]
    if any("stud" in into_words(point, Zero(0.0, "")) for point in found):
        said.append("Find both edges of each stud and mark its centre. Not as drawn: stop.")
    if any(point.chain.anchored for point in found):
        said.append("The wall may be hollow or weak: try one anchor where it will not show.")
    said.append("Level line right along; heights from it, never from the floor at each hole.")
    known = [gap for gap in gaps if gap is not None]
    if len(known) == len(gaps):
        said.append(f"Straightedge on the wall: hollows over {position(max(known))} ask for longer screws.")
    else:
        said.append("Straightedge on the wall: the worst hollow is not given. Measure it before buying screws.")
    if any(point.chain.plan.lining is None for point in found):
        said.append("The lining is not given: drill 3 mm, feel with a wire how thick it is, and again elsewhere.")
    said.append(
        "The pull on the screws is not worked out: a screw's or anchor's maker and local rules say what it holds."
    )
    mass = sum(desk.book.mass_kg.values())
    if mass:
        each = f"{persons(mass)} people at {PERSON_KG:.0f} kg each (HSE guidance, from memory)"
        said.append(f"The piece weighs {mass:.0f} kg. Lift: {each}, or hang it in parts.")
    else:
        said.append("Weigh the piece; two people or more lift it.")
    if any(point.chain.plugged for point in found):
        said.append("Plugs go in after hanging.")
    return said


# --- holes and screws ----------------------------------------------------------------------------


def _hole_pages(desk: Desk, found: Sequence[Point], start: Zero) -> Iterator[tuple[list[Item], str]]:
    """The table on as many sheets as it takes, then the sections, beginning where the table ends."""
    columns = _columns()
    left = unfolded(columns, [_row(desk, point, start) for point in found], LARGE)
    blocks = [(section(chain, alike), _words(desk, chain)) for chain, alike in chains(found)]
    while left or blocks:
        items, y, room = _headed(desk, found, f"x from {start.says}, y from the floor")
        scales: list[float] = []
        if left:
            count = fitting(left, room.bottom - y - head_high(columns, LARGE), LARGE)
            items += drawn(room.left, y, columns, left[:count], LARGE)
            y += head_high(columns, LARGE) + rows_high(left[:count], LARGE) + 5.0
            left = left[count:]
        fresh = not scales and y < room.top + 40.0
        while blocks and not left and (y + blocks[0][0].high <= room.bottom or fresh):
            drawing, words = blocks.pop(0)
            items += _block(drawing, words, room, y)
            scales.append(drawing.scale)
            y, fresh = y + drawing.high + 4.0, False
        yield items, ", ".join(_scale_words(scale) for scale in sorted(set(scales), reverse=True)) or "–"


def _scale_words(scale: float) -> str:
    return "1:1" if scale == 1.0 else scale_words(scale)


def _columns() -> list[Column]:
    return [
        Column(title="", wide=10.0),
        Column(title="board: its cut", wide=43.0),
        Column(title="from its datum end", wide=28.0),
        Column(title="wall x", wide=20.0),
        Column(title="wall y", wide=20.0),
        Column(title="into", wide=43.0),
        Column(title="screw", wide=33.0),
        Column(title="bits in board", wide=22.0),
        Column(title="bit in wall", wide=24.0),
        Column(title="in", wide=9.0),
        Column(title="plug", wide=14.0),
    ]


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
        Cell(tick=point.chain.plugged),
    )


def _screw_words(chain: Chain) -> str:
    name = "M" if chain.screw.kind == "machine" else "wood "
    head = "".join(chain.screw.size.partition(", ")[1:]) if chain.screw.other_head else ""
    return f"{name}{chain.screw.diameter:g} × {chain.screw.length:g}{head}"


def _bit_words(chain: Chain) -> str:
    if chain.pilot is not None:
        return f"pilot {position(chain.pilot)}"
    anchor = chain.plan.anchor
    return position(anchor.drill) if anchor is not None and anchor.drill else "by anchor"


def _block(drawing: Section, words: Sequence[Sequence[Run]], room: Space, y: float) -> list[Item]:
    """A section with its sum and its hole's figures to the right."""
    place = Place(room.right - WORDS_WIDE, y, WORDS_WIDE, room.bottom + 20.0)
    return [*shifted(drawing.items, room.left, y), *flow([place], words).items]


def _words(desk: Desk, chain: Chain) -> list[list[Run]]:
    """The sum, the hole, and what is left beside it."""
    return [_sum(chain), _hole(chain), _left(chain), _tools(chain), _hint(chain)]


def _sum(chain: Chain) -> list[Run]:
    plan = chain.plan
    beyond = [("worst gap" if name == "gap" else name, size) for name, size in reversed(chain.links())]
    terms = [("head", chain.head_counts), ("washer", plan.washer), ("grip", plan.grip), *beyond]
    said = " + ".join(f"{name} {position(size)}" for name, size in terms if size or name in ("grip", "held"))
    flat = f"On a flat wall {position(plan.held + plan.gap)} are held." if plan.gap and plan.held is not None else ""
    return [
        strong(f"{said} = {position(chain.screw.length)},"),
        Run(f"the screw. Wanted in the wall: {_wanted(chain)}. {flat}".strip()),
    ]


def _wanted(chain: Chain) -> str:
    """What the wall is to hold, and by whose rule."""
    plan = chain.plan
    if plan.hold_known:
        return position(plan.hold)
    return f"{position(plan.hold)} is assumed, the anchor's maker says it: {BLANK}"


def _hole(chain: Chain) -> list[Run]:
    plan = chain.plan
    over = f"{'washer' if plan.washer else 'head'} of {position(plan.head)}"
    return [
        strong("Hole."),
        Run(f"Counterbore {position(plan.counterbore)}, {depth(plan.deep)} deep from the front edge, for a {over};"),
        Run(f"{position(plan.hole)} on through the grip ({chain.hole_from}).{_plug_words(chain)}"),
    ]


def _plug_words(chain: Chain) -> str:
    """The plug, and of which wood it is cut."""
    wood = f" of {printable(chain.wood)}" if chain.wood else ""
    return f" Plug {position(chain.plan.counterbore)}{wood}, grain with the board's." if chain.plug else ""


def _left(chain: Chain) -> list[Run]:
    """Wood beside the counterbore: nominal, and after the bit has strayed."""
    left = chain.side_wall - chain.plan.wander
    beside = f"({thickness(chain.thick)} – {position(chain.plan.counterbore)}) / 2 = {width(chain.side_wall)}"
    return [
        strong("Beside it"),
        Run(
            f"{beside}; a bit {chain.drilled} may stray {width(chain.plan.wander)} by there, which leaves {width(left)}"
        ),
        Run(f"(least {position(LEAST_WALL)}; common practice)."),
    ]


def _hint(chain: Chain) -> list[Run]:
    """The hole in the wall, and what its maker's sheet must still say."""
    if chain.anchored:
        return _anchor(chain)
    return [Run("Pilot in the stud: figure for hardwood (usual data sheets, from memory); soft timber asks for less.")]


def _anchor(chain: Chain) -> list[Run]:
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
        Run(f"the hole in the wall: {sizes}; how it is set and how tight;"),
        Run(f"what one holds: {pull} N out of the wall, {shear} N along it{whose}."),
    ]


def _tools(chain: Chain) -> list[Run]:
    """Bits as they are sold, for a hole so deep."""
    plan = chain.plan
    if not plan.deep:
        return []
    driver = position(plan.driver) if plan.driver is not None else f"over {position(plan.reach)}"
    bit = position(plan.bit) if plan.bit is not None else f"over {position(plan.reach)}"
    return [
        strong("Tools."),
        Run(f"Wood bits {bit} long, driver bit {driver}: {position(plan.reach)} at least. Free before the edge:"),
        Run(f"{position(math.ceil(plan.clear))}."),
    ]
