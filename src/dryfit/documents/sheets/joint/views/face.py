"""A slot or housing seen square on its face: where it is marked, how deep it is or where it stops, its corners.

Both faces' marks of a leaning slot are shown, those of the face behind dashed, each with its position from the datum
end; then the depth or the stops, the width, and the corners that a round cutter leaves.
"""

import math
from collections.abc import Iterator, Sequence

from .....geometry.frames import Vec2
from .....geometry.views import OPPOSITE, Surface
from ....display import Anchor, Arc, Item, Text
from ....lettering import TEXT, wrapped
from ....lettering import width as text_wide
from ....looks import Desk
from ....naming import depth, position, width
from ..drawing.pad import View, leader
from ..drawing.spans import AFTER, BEFORE, level, tried, upright
from ..drawing.words import edge_names
from ..stance import SQUARE, Stance
from .face_wood import Face

DIMENSION = 4.6  # from the end of what is drawn to the line of a depth
SECOND = 7.0  # to the next line
LEADS = (6.4, 11.4)  # from the open edge to the words on each mark
UNKNOWN_CORNER = 5.0  # drawn for a cutter that the shop has not named
CORNER_WIDE = 21.0  # of the words on corners
LINE = 3.4

Row = tuple[Surface, Vec2, float]  # a face, its walls on paper, and how far from the open edge its words stand


def face_view(desk: Desk, stance: Stance, smaller: int = 0) -> View:
    """The face that is marked and worked from, at the largest scale that leaves room for the other views.

    Args:
        smaller: how many of the larger scales are left out.
    """
    assert stance.cut is not None, "something is let in"
    face = Face(desk, stance, stance.cut, smaller)
    face.draw()
    _marks(face)
    if face.cut.face:
        _stops(face)
        _deep(face)
    elif face.closed:
        words = f"{depth(face.cut.figures.deep or 0.0)} deep"
        _dimension(face, (face.open_edge, face.closed[0]), words, DIMENSION)
    for seat in face.closed:
        _corners(face, seat)
    _width(face)
    _edges(face)
    seen = face.look.names.words[face.surface]
    title = f"{face.mark} from above" if seen == "upper face" else f"{face.mark} on its {seen}"
    says = ("broken in the depth",) if face.depths.breaks else ()
    return View(title=title, says=says, scale=face.scale, items=tuple(face.pad.items))


# --- marks ---------------------------------------------------------------------------------------


def _side(face: Face) -> float:
    """The side on paper at which positions stand: -1 left, 1 right."""
    return 1.0 if face.datum_right else -1.0


def _inward(face: Face) -> float:
    """From the open edge into the board on paper."""
    return math.copysign(1.0, face.y(face.depth / 2) - face.y(face.open_edge))


def _rows(face: Face) -> list[Row]:
    """The faces to mark; of two the one whose mark lies further out first, so that no line crosses another."""
    if not face.both:
        return [(face.surface, face.walls(), LEADS[0])]
    right = face.datum_right
    found = [(face.surface, face.walls()), (OPPOSITE[face.surface], face.walls(other=True))]
    found.sort(key=lambda row: -_side(face) * row[1][right])
    return [(surface, walls, off) for (surface, walls), off in zip(found, LEADS, strict=True)]


def _marks(face: Face) -> None:
    """The positions of the datum wall on the faces, each led to its wall, and the shift between them."""
    rows, side, inward = _rows(face), _side(face), _inward(face)
    edge, right = face.y(face.open_edge), face.datum_right
    anchor: Anchor = "start" if right else "end"
    x = rows[0][1][right] + side * 3.4
    for surface, walls, off in rows:
        place = face.look.position(face.cut, surface)
        if place is None:
            continue
        words = f"{face.look.names.short(surface)} {position(place)}" if len(rows) > 1 else position(place)
        y = edge + inward * off
        at = (x, y + (TEXT if inward > 0 else 0.0) - 1.0)
        text = Text(at=at, text=words, weight="semibold", anchor=anchor, layer="dimension")
        face.pad.place([leader((walls[right], y + 2.0), text), [text]])
    if len(rows) > 1:
        _shift(face, rows[0][1][right], rows[1][1][right])


def _shift(face: Face, first: float, second: float) -> None:
    """Between the marks of the two faces, just before the break or the seat."""
    edge, inward = face.y(face.open_edge), _inward(face)
    figure = position(abs(second - first) / face.scale)
    levels = (edge + inward * off for off in (16.4, 17.6, 14.0, 24.0, 28.0, 32.0))
    spans = (level((first, y), (second, y), y, figure, bare=(True, True)) for y in levels)
    face.pad.place(tried(spans, AFTER if face.datum_right else BEFORE))


# --- depth, stops, width -------------------------------------------------------------------------


def _stops(face: Face) -> None:
    """How far from its edge each end stops, and how long the housing is then."""
    low, high = face.reach
    for seat in face.closed:
        edge = 0.0 if seat == low else face.depth
        _dimension(face, (edge, seat), position(abs(seat - edge)), DIMENSION)
    if face.closed:
        _dimension(face, (low, high), f"{position(high - low)} long", DIMENSION + SECOND)


def _dimension(face: Face, ends: Vec2, figure: str, far: float) -> None:
    """Between two depths, on the side away from the positions."""
    right = not face.datum_right
    edge, foot = face.across[right], face.walls()[right]
    start, end = ((edge if face.on_edge(d) else foot, face.y(d)) for d in ends)
    xs = (edge + (off if right else -off) for off in (far, far + 3.0))
    face.pad.place(tried(upright(start, end, x, figure) for x in xs))


def _width(face: Face) -> None:
    """The width on this face, beyond the seat or the last edge."""
    left, right = face.walls()
    figures = face.cut.figures
    shown = figures.on_face if figures.on_face is not None else figures.across or 0.0
    y = face.y(face.closed[0] if face.closed else face.depth)
    inside = face.y(sum(face.reach) / 2) if face.cut.face else face.y(face.open_edge)
    away = math.copysign(1.0, y - inside)
    spans = (level((left, y), (right, y), y + away * off, width(shown)) for off in (6.2, 8.0, 10.0))
    face.pad.place(tried(spans))


def _deep(face: Face) -> None:
    """How deep it is let in, in the waste: level, or turned where it is narrow."""
    words = f"{depth(face.cut.figures.deep or 0.0)} deep"
    left, right = face.walls()
    wide = text_wide(words, TEXT, "semibold")

    def texts() -> Iterator[Text]:
        for a, b in face.depths.inside(*face.reach):
            x, y = (left + right) / 2, (face.y(a) + face.y(b)) / 2
            if wide + 3.0 < right - left:
                yield Text(at=(x, y + TEXT / 2), text=words, weight="semibold", anchor="middle", ground=0.7)
            elif wide + 2.0 < abs(face.y(a) - face.y(b)):
                at = (x + TEXT / 2, y)
                yield Text(at=at, text=words, weight="semibold", anchor="middle", turn=90.0, ground=0.7)

    face.pad.place([text] for text in texts())


# --- corners -------------------------------------------------------------------------------------


def _corners(face: Face, seat: float) -> None:
    """The corners a round cutter leaves, and what is to be done with them."""
    left, right = face.walls()
    inside = face.y(sum(face.reach) / 2) if face.cut.face else face.y(face.open_edge)
    inward = math.copysign(1.0, inside - face.y(seat))
    radius = min((_cutter(face) or 2 * UNKNOWN_CORNER) / 2 * face.scale, (right - left) / 2)
    y = face.y(seat) + inward * radius
    for x, first, last in ((left + radius, 180.0, 270.0), (right - radius, 270.0, 360.0)):
        start, end = (first, last) if inward < 0 else (-last, -first)
        face.pad.draw([Arc(centre=(x, y), radius=radius, start=start, end=end, pen="dimension", layer="mark")])
    if not face.cut.face and right - left > 14.0:
        base = face.y(seat) - 1.6 if inward < 0 else face.y(seat) + 1.6 + TEXT
        face.pad.write(Text(at=((left + right) / 2, base), text="seat", anchor="middle"))
    face.pad.place(_corner_words(face, face.y(seat), inward))


def _cutter(face: Face) -> float | None:
    """The largest straight cutter of the shop that goes between the walls."""
    across = face.cut.figures.across or 0.0
    cutters = (one for one in face.desk.book.shop.cutters if one.shape == "straight" and one.diameter <= across)
    return max((one.diameter for one in cutters), default=None)


def _corner_words(face: Face, seat: float, inward: float) -> Iterator[Sequence[Item]]:
    """What to do with the corners, beside them."""
    leans = abs(face.cut.figures.lean) > SQUARE
    text = "square the corners to the walls' lean" if leans else "square the corners"
    cutter = _cutter(face)
    if cutter is not None:
        text += f" (cutter {position(cutter)} leaves r {position(cutter / 2)})"
    lines = wrapped(text, CORNER_WIDE, TEXT)
    left, right = face.walls()
    for on_right in (True, False) if face.datum_right else (False, True):
        x = right + 3.4 if on_right else left - 3.4
        anchor: Anchor = "start" if on_right else "end"
        for off in (1.0, 4.0, -3.0, 8.0):
            top = seat + (off if inward > 0 else -off - LINE * len(lines)) + TEXT
            yield [Text(at=(x, top + LINE * number), text=line, anchor=anchor) for number, line in enumerate(lines)]


def _edges(face: Face) -> None:
    """Which edge is which."""
    x0, x1 = face.across
    for d, text, base, wide in edge_names(face.look, face.y):
        if face.depths.holds(d):
            face.pad.write(*(Text(at=(x, base), text=text) for x in (x1 - wide, x0, (x0 + x1 - wide) / 2)))
