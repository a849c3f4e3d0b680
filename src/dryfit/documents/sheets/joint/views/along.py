"""A joint cut along the board that enters, from its wall edge to its front: depths, seats, stops and their gaps.

Each slot's depth is measured from the edge it opens to, each stop from its edge. How far one board stands proud, what
is notched back, and the whole depths stand above.
"""

from collections.abc import Iterator, Sequence

from .....geometry.frames import Vec2
from .....geometry.shapes import Prism
from .....piece.model import Cut, Part
from ....display import Anchor, Text
from ....lettering import FIGURE, TEXT, Weight
from ....looks import Desk
from ....naming import depth, position
from ...dimensions.ruler import SCALES
from ..drawing.pad import View, leader
from ..drawing.sections import letter_at
from ..drawing.spans import BEFORE, Span, level, stacked, tried, upright
from ..stance import Stance, drawn_gap, factor
from .along_wood import KEPT, OPEN, Along

MOST_WIDE = 78.0
FIRST, ROW = 5.4, 6.6  # from the wood to the first dimension line, and from line to line
LEAST = 0.05  # less prints as nothing

Figured = tuple[float, float, str]  # from and to out of the wall, and the figure


def along_view(desk: Desk, stance: Stance, back: Cut | None) -> View:
    """The cut along what enters; `back` is the cut in that board which takes the level one, None for none."""
    tries = [Along(desk, stance, back, scale) for scale in SCALES]
    along = next((one for one in tries if one.wide <= MOST_WIDE), tries[-1])
    along.draw()
    _gaps(along)
    _edges(along)
    _letters(along)
    _below(along, _stops(along) if along.housed else _slots(along))
    if along.housed and stance.floored:
        _deep(along)
    _above(along)
    mark = desk.marks[along.along_part.id]
    says = ", ".join(_says(along))
    return View(
        title=f"cut along the middle of {mark}",
        says=(says,) if says else (),
        scale=along.scale,
        items=tuple(along.pad.items),
    )


def _says(along: Along) -> Iterator[str]:
    """What is drawn otherwise than it is."""
    for name, gap in (("gap at the seats", along.stance.seat), ("gap at the bottom", along.bottom)):
        if gap and (times := factor(gap, along.scale)) > 1:
            yield f"{name} drawn {times} times too wide"
    if along.depths.breaks:
        yield "broken in the depth"


# --- words ---------------------------------------------------------------------------------------


def _edges(along: Along) -> None:
    """Which side is the wall's and which the front."""
    left, right = (along.depths.at(end) for end in along.ends)
    y = -along.half * along.scale - 5.0
    ends: tuple[tuple[str, float, Anchor], ...] = (("wall", left - 2.2, "end"), ("front", right + 2.2, "start"))
    for text, x, anchor in ends:
        along.pad.write(*(Text(at=(x, place), text=text, anchor=anchor) for place in (y, y - 4.0, y + 12.0, TEXT / 2)))


def _letters(along: Along) -> None:
    """Each board's letter in its wood."""
    beyond = along.half + (5.4 if along.housed else 7.0) / along.scale
    _letter(along, along.along_part, [beyond] if along.housed else [beyond, -beyond], FIGURE + 1.0)
    _letter(along, along.across_part, [0.0, -along.half * 0.5], FIGURE)


def _letter(along: Along, part: Part, levels: Sequence[float], size: float) -> None:
    side = along.stance.joint.meeting.side(part.id)
    shares = (0.5, 0.3, 0.7) if along.depths.breaks else (0.25, 0.5, 0.75, 0.12, 0.88)
    places = [
        along.paper(low + share * (high - low), s)
        for low, high in along.depths.inside(side.back, side.front)
        for share in shares
        for s in levels
        if _is_wood(along, part, low + share * (high - low), s)
    ]
    mark = along.desk.marks[part.id]
    along.pad.place([letter_at(at, mark, high, part.id, 0.4)] for high in (size, TEXT) for at in places)


def _is_wood(along: Along, part: Part, z: float, s: float) -> bool:
    """Whether a place lies beside this joint's slots in a board; a housing leaves wood everywhere."""
    for cut in along.cuts(part):
        if not cut.end and not cut.face:
            low, high = along.reach(cut)
            if low <= z <= high and abs(s) <= along.half + OPEN:
                return False
    return along.depths.holds(z)


def _gaps(along: Along) -> None:
    """Each gap with its true size, led to where it is drawn."""
    seat, bottom = along.stance.seat, along.bottom
    low, high = along.reach(along.cut)
    if seat is not None:
        further = 0.0 if along.back is not None else drawn_gap(seat, along.scale) - seat
        z = low + (seat - further) / 2 if along.cut.figures.opens == "front edge" else high - (seat - further) / 2
        _lead(along, along.paper(z, along.half * 0.6), f"gap at the seat {depth(seat)}")
    if bottom and along.stance.floored:
        z = (low + min(high, low + KEPT / along.scale)) / 2
        floor = along.half - (along.cut.figures.deep or 0.0) / abs(along.stance.along[1])
        middle = floor + bottom - drawn_gap(bottom, along.scale) / 2
        _lead(along, along.paper(z, middle), f"gap {depth(bottom)}")


def _lead(along: Along, tip: Vec2, words: str) -> None:
    """Words above the joint with a line to a place in it."""
    top = -along.half * along.scale

    def texts() -> Iterator[Text]:
        for off in (3.4, 5.0) if along.housed else (5.0, 8.0, 3.6):
            for shift in (-4.0, 4.0, -10.0, 10.0, 0.0):
                anchor: Anchor = "end" if shift < 0 else "start" if shift > 0 else "middle"
                yield Text(at=(tip[0] + shift, top - off), text=words, anchor=anchor)

    along.pad.place(leader(tip, text) for text in texts())


# --- depths --------------------------------------------------------------------------------------


def _span(along: Along, one: Figured, y: float, weight: Weight) -> Span:
    low, high, figure = one
    return level((along.depths.at(low), y), (along.depths.at(high), y), y, figure, weight=weight)


def _below(along: Along, found: Sequence[Figured]) -> None:
    bottom = -along.heights[0] * along.scale
    stacked(along.pad, [_span(along, one, bottom, "semibold") for one in found], bottom + FIRST, ROW)


def _slots(along: Along) -> list[Figured]:
    """The depth of each slot from the edge it opens to."""
    return [
        (*along.reach(cut), f"{along.desk.marks[cut.body]}'s {cut.kind.split()[-1]} {depth(cut.figures.deep or 0.0)}")
        for cut in (along.cut, along.back)
        if cut is not None
    ]


def _stops(along: Along) -> list[Figured]:
    """How far a housing reaches, and how far from each edge it stops."""
    main = along.stance.main_side
    low, high = along.reach(along.cut)
    found = [(high, main.front), (main.back, low)]
    stops = [(a, b, position(b - a)) for a, b in found if b - a > OPEN]
    return [*stops, (low, high, f"{along.cut.kind.split()[-1]} {position(high - low)}")]


def _deep(along: Along) -> None:
    """How deep the housing is, at the end away from its stop."""
    deep = along.cut.figures.deep or 0.0
    face, floor = -along.half * along.scale, (deep / abs(along.stance.along[1]) - along.half) * along.scale
    low, high = along.reach(along.cut)
    main = along.stance.main_side
    ends = [(low > main.back + OPEN, along.ends[0], -1.0), (high < main.front - OPEN, along.ends[1], 1.0)]

    def spans() -> Iterator[Span]:
        for stopped, end, side in sorted(ends):
            x = along.depths.at(end)
            for far in (6.0, 9.0):
                yield upright((x, face), (x, floor), x + side * far, depth(deep), dashed=(False, stopped))

    along.pad.place(tried(spans(), BEFORE))


def _above(along: Along) -> None:
    """What is notched back and what stands proud, then the depth of each board, of two alike once."""
    main, other = along.stance.main_side, along.stance.other_side
    parts = [*_notches(along), (main.front, other.front), (main.back, other.back)]
    found = [
        (min(part), max(part), position(abs(part[0] - part[1]))) for part in parts if abs(part[0] - part[1]) > LEAST
    ]
    differ = abs((main.front - main.back) - (other.front - other.back)) > LEAST
    for side in sorted((main, other) if differ else (other,), key=lambda side: side.front - side.back):
        figure = f"{along.desk.marks[side.body]} {position(side.front - side.back)}"
        found.append((side.back, side.front, figure))
    top = -along.heights[1] * along.scale
    stacked(along.pad, [_span(along, one, top, "regular") for one in found], top - FIRST, -ROW)


def _notches(along: Along) -> Iterator[Vec2]:
    """What is taken off the end that enters at an edge, from and to out of the wall."""
    side = along.stance.other_side
    whole = side.front - side.back
    ends = [cut for cut in along.stance.joint.cuts if cut.body == along.stance.other.id and cut.end]
    for shape in (shape for cut in ends for shape in cut.shapes):
        if isinstance(shape, Prism):
            low, high = max(shape.low, 0.0), min(shape.high, whole)
            if high - low < whole - OPEN:
                yield low + side.back, high + side.back
