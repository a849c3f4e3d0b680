"""The whole piece as a drawing: what is seen of each board from the room, at 1:1, the world's own x and y.

A layer a board, by its letter: `BOARD_A`. The floor at 0 is drawn unless the piece hangs.
"""

from collections.abc import Iterator

from ...geometry.frames import Vec2
from ...geometry.sections import polygons
from ...geometry.views import Surface
from ...piece.model import Part
from ..bookjson import book_stamp
from ..looks import Desk, Look
from .drawing import BRIGHT, Colour, Drawing

FLOOR = "FLOOR"
LEVEL = ("left end", "right end")  # a datum end of these names: the board lies, or leans less than 45


def whole_dxf(desk: Desk) -> bytes:
    """All boards that are seen."""
    left, foot, right, head = desk.bounds
    drawing = Drawing(book_stamp(desk), max(right - left, head - foot))
    for number, (name, look) in enumerate(desk.looks.items()):
        _board(desk, drawing, look, BRIGHT[number % len(BRIGHT)])
        drawing.words(look.part.mark, _middle(desk, name), large=True, middle=True)
    if not desk.book.job.wall.hung:
        over = 2 * drawing.row
        drawing.line((left - over, 0.0), (right + over, 0.0), drawing.layer(FLOOR, "GRAY"))
    _figures(desk, drawing)
    base = foot - drawing.reach - 2 * drawing.row
    for number, text in enumerate(_title(desk)):
        base -= 2 * drawing.height
        drawing.words(text, (left, base), large=number == 0)
    side = drawing.reach + drawing.row
    around = (left - side, base - drawing.row, right + side, head + drawing.row)
    drawing.opens_on(*around)
    drawing.sheet(*around)
    return drawing.written()


def _board(desk: Desk, drawing: Drawing, look: Look, colour: Colour) -> None:
    layer = drawing.layer(f"BOARD_{look.part.mark}", colour)
    for area in polygons(desk.visible[look.part.id]):
        for ring in (area.exterior, *area.interiors):
            drawing.loop(tuple((x, y) for x, y in ring.coords[:-1]), layer)


def _middle(desk: Desk, name: str) -> Vec2:
    """On what is seen of a board, else on where it is."""
    seen = max(polygons(desk.visible[name]), key=lambda area: area.area, default=desk.elevations[name])
    point = seen.representative_point()
    return (0.0, 0.0) if point.is_empty else (point.x, point.y)


def _figures(desk: Desk, drawing: Drawing) -> None:
    """How wide and high it is; from its left end each standing board's foot, from the floor each lying board's top."""
    left, foot, right, head = desk.bounds
    feet = {round(x): (x, y) for look in desk.looks.values() if not _lies(look) for x, y in _foot(desk, look.part)}
    tops = {round(y): (x, y) for look in desk.looks.values() if _lies(look) for x, y in _top(desk, look.part)}
    drawing.running([*feet.values()], foot - drawing.row, zero=(left, foot))
    drawing.running([*tops.values()], left - drawing.row, zero=(left, foot), way="up")
    drawing.distance((left, foot), (right, foot), (left, foot - drawing.reach - drawing.row), "along")
    drawing.distance((right, foot), (right, head), (right + drawing.row, foot), "up")


def _lies(look: Look) -> bool:
    return look.names.words[Surface.DATUM] in LEVEL


def _foot(desk: Desk, part: Part) -> Iterator[Vec2]:
    """The left corner of a board's foot."""
    points = desk.elevations[part.id].exterior.coords
    if points:
        low = min(y for _, y in points)
        yield min((x, y) for x, y in points if y < low + 1.0)


def _top(desk: Desk, part: Part) -> Iterator[Vec2]:
    """The upper corner of a board's left end."""
    points = desk.elevations[part.id].exterior.coords
    if points:
        start = min(x for x, _ in points)
        yield max(((x, y) for x, y in points if x < start + 1.0), key=lambda p: p[1])


def _title(desk: Desk) -> Iterator[str]:
    job = desk.book.job
    yield job.title
    yield f"the whole piece seen from the room, state {job.state}, {book_stamp(desk)}"
    yield "1:1 in mm. Running figures from the left end of the piece, and from the floor."
    if desk.book.stops:
        yield f"{len(desk.book.stops)} stops: something must change before the first cut; see the workshop book"
