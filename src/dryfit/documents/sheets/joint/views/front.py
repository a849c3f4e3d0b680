"""The section seen from the front of a joint in which one board enters the other: slots and housings.

Figures stand where they are worked: on the face, across the walls, the shift of the marks from face to face, the
depth, both thicknesses, and the angle three ways: between the boards, on the saw, as rise.
"""

import math
from collections.abc import Iterator

from shapely.geometry.base import BaseGeometry

from .....geometry.frames import Vec2
from ....display import Item, Stroke
from ....lettering import FIGURE, TEXT
from ....looks import Desk
from ....naming import angle, depth, position, rise, thickness, width
from ...dimensions.ruler import SCALES
from ..drawing.pad import View
from ..drawing.sections import write_letter
from ..drawing.spans import AFTER, BEFORE, Span, arc, level, tried, upright
from ..drawing.words import ANGLE_LINE, angle_lines
from ..stance import Stance, factor, turned_words
from .front_wood import Front

MOST_WIDE, MOST_HIGH = 116.0, 100.0
FIRST_LINE = 6.2  # from a face to its dimension line
RADII = (26.0, 28.0, 30.0, 24.0, 20.0, 16.0, 34.0, 12.0)  # of the angle's arc, the best first


def front_view(desk: Desk, stance: Stance, smaller: int = 0) -> View:
    """The section through what enters, at the largest scale that leaves room for the other views.

    Args:
        smaller: how many of the larger scales are left out.
    """
    assert stance.cut is not None, "something is let in"
    tries = [Front(desk, stance, stance.cut, scale) for scale in SCALES[smaller:]]
    front = next((one for one in tries if one.size[0] <= MOST_WIDE and one.size[1] <= MOST_HIGH), tries[-1])
    shown = front.draw()
    front.pad.keep_to_sheet()
    _letters(front, *shown)
    _on_face(front)
    if front.raked:
        _angle(front)
    if front.walls_lean:
        _across(front)
    if front.cut.face and stance.floored:
        _depth(front)
    elif front.walls_lean:
        _shift(front)
    _thickness_of_level(front)
    _thickness_of_other(front)
    title = f"section seen from the front, {front.names.short(stance.up_face)} face up"
    return View(title=title, says=tuple(_says(front)), scale=front.scale, items=tuple(front.pad.items))


def _says(front: Front) -> Iterator[str]:
    """What is drawn otherwise than it is."""
    yield from turned_words(front.desk, front.stance)
    gap, bottom = front.stance.gap, front.stance.bottom
    words = []
    if gap is not None and (times := factor(gap, front.scale)) > 1:
        words.append(f"clearance drawn {times} times too wide")
    if bottom and (times := factor(bottom, front.scale)) > 1:
        words.append(f"gap at the bottom {times} times")
    if words:
        yield ", ".join(words)
    if gap == 0.0:
        yield "no clearance: drawn apart only to be seen"


def _letters(front: Front, main: BaseGeometry, other: BaseGeometry) -> None:
    """The letter of each board in its wood: beside the opening, and where the other one is let in or stands."""
    stance, scale, marks = front.stance, front.scale, front.desk.marks
    x = (front.walls_at(0.0)[front.side < 0] + front.sides[front.side < 0]) / 2
    write_letter(front.pad, marks[stance.main.id], stance.main.id, main, [(x, 0.0), (-x, 0.0)], scale)
    ax, ay = stance.along
    beyond = stance.half / abs(ay) + 10.0 / scale
    places = [beyond] if front.cut.face else [0.0, beyond, -beyond]
    write_letter(front.pad, marks[stance.other.id], stance.other.id, other, [(ax * s, ay * s) for s in places], scale)


# --- widths --------------------------------------------------------------------------------------


def _on_face(front: Front) -> None:
    """Between the walls on the face, its arrows from outside; the words on the side away from the lean."""
    start, end = (front.paper(u, front.face) for u in front.walls_at(front.face))
    span = level(start, end, start[1] + front.out * FIRST_LINE, front.face_words(), open=True)
    front.pad.place(span.choices(BEFORE if front.side > 0 else AFTER))


def _across(front: Front) -> None:
    """Square to the walls, between their lines carried on past the face at which the figure on the face is not."""
    outward = 1.0 if front.cut.face else -1.0
    v = front.face if front.cut.face else -front.stance.half
    start, end = (front.paper(u, v) for u in front.walls_at(v))
    ax, ay = front.stance.along
    way = (abs(ay), ax * math.copysign(1.0, ay))
    figure = width(front.cut.figures.across or 0.0)
    for far in (15.0, 12.0, 18.0):
        at = ((start[0] + end[0]) / 2 + ax * outward * far, (start[1] + end[1]) / 2 - ay * outward * far)
        span = Span(start=start, end=end, way=way, at=at, figure=figure, ground=0.8)
        if front.pad.place(span.choices(["between"])):
            front.pad.write(span.beside("across the walls", "after"), span.beside("across the walls", "before"))
            return
        whole = Span(start=start, end=end, way=way, at=at, figure=f"{figure} across the walls", ground=0.6)
        if front.pad.place(whole.choices(AFTER)):
            return


def _shift(front: Front) -> None:
    """How far the marks on the two faces lie apart, at the lower face."""
    half = front.stance.half
    upper, lower = front.walls_at(half), front.walls_at(-half)
    figure = f"shift {position(abs(upper[0] - lower[0]))}"

    def choices() -> Iterator[list[Item]]:
        for right in (True, False) if front.side > 0 else (False, True):
            ends = sorted([(upper[right], half), (lower[right], -half)])
            start, end = (front.paper(u, v) for u, v in ends)
            dashed = (ends[0][1] > 0, ends[1][1] > 0)  # the upper mark is carried down over wood
            for far in (FIRST_LINE, FIRST_LINE + 3.0):
                span = level(start, end, half * front.scale + far, figure, dashed=dashed)
                yield from span.choices(AFTER if right else BEFORE)

    front.pad.place(choices())


# --- depth and thicknesses -----------------------------------------------------------------------


def _depth(front: Front) -> None:
    """From the face to the floor on the centre-line, at the end away from the lean."""
    floor = front.paper(*front.floor())
    figure = f"{depth(front.cut.figures.deep or 0.0)} deep"
    order = AFTER if front.stance.sigma > 0 else BEFORE

    def spans() -> Iterator[Span]:
        for right in (True, False) if not front.raked or front.side < 0 else (False, True):
            edge = front.sides[right] * front.scale
            face = (edge, -front.face * front.scale)
            x = edge + (4.4 if right else -4.4)
            yield upright(face, floor, x, figure, dashed=(floor[1] < face[1], floor[1] > face[1]))

    front.pad.place(tried(spans(), order))


def _thickness_of_level(front: Front) -> None:
    """At an end of the level board, on the side away from the lean if there is room."""
    t = front.stance.half * front.scale
    figure = thickness(2 * front.stance.half)

    def spans() -> Iterator[Span]:
        for right in (False, True) if front.side > 0 else (True, False):
            edge = front.sides[right] * front.scale
            for far in (5.0, 10.0, 14.0):
                x = edge + (far if right else -far)
                yield upright((edge, -t), (edge, t), x, figure, weight="regular")

    front.pad.place(tried(spans()))


def _thickness_of_other(front: Front) -> None:
    """Square to the other board's faces, beyond where it is broken off."""
    ax, ay = front.stance.along
    s, half = front.runs[1], front.stance.wide / 2
    start, end = sorted(front.paper(ax * s + x * half, ay * s + y * half) for x, y in ((-ay, ax), (ay, -ax)))
    way = (abs(ay), ax * math.copysign(1.0, ay))
    figure = thickness(front.stance.wide)

    def span(far: float) -> Span:
        at = (start[0] + ax * far, start[1] - ay * far)
        return Span(start=start, end=end, way=way, at=at, figure=figure, weight="regular")

    front.pad.place(tried(span(far) for far in (4.6, 7.0)))


# --- the angle -----------------------------------------------------------------------------------


def _angle(front: Front) -> None:
    """The angle three ways, in the acute angle where it can stand there, with its arc."""
    ax, ay = front.stance.along
    corner = front.paper(ax / ay * front.face + front.side * front.stance.wide / 2 / abs(ay), front.face)
    turn = math.degrees(math.atan2(abs(ay), abs(ax)))
    first, last = (0.0, turn) if front.side > 0 else (180.0 - turn, 180.0)
    if front.out > 0:
        first, last = -last, -first

    def blocks() -> Iterator[list[Item]]:
        for x in (6.0, 7.0, 9.0, 12.0, 16.0, 20.0):
            for y in (8.6, 10.0, 13.0):
                yield _block(front, corner, x, y)
        for x in (-30.0, -40.0, 30.0):
            for y in (9.0, 14.0):
                yield _block(front, corner, x, y)

    front.pad.place(blocks())
    front.pad.place(_arc(front, corner, radius, first, last) for radius in RADII)


def _block(front: Front, corner: Vec2, x: float, y: float) -> list[Item]:
    """Three lines beside the other board, the nearest `y` from the face."""
    lean = abs(front.stance.leans)
    lines = ((angle(90.0 - lean), FIGURE), (f"{angle(lean)} on the saw", TEXT), (rise(lean), TEXT))
    base = corner[1] + (y if front.out > 0 else -y - 2 * ANGLE_LINE + 0.2) + TEXT
    bases = (base - 0.4, base + ANGLE_LINE, base + 2 * ANGLE_LINE)
    rows = ((at, text, size) for at, (text, size) in zip(bases, lines, strict=True))
    return angle_lines(corner[0] + front.side * x, "start" if front.side > 0 else "end", rows)


def _arc(front: Front, corner: Vec2, radius: float, first: float, last: float) -> list[Item]:
    """The arc, with the face and the board's own face carried on to it."""
    items: list[Item] = [arc(corner, radius, first, last)]
    edge, end = front.sides[front.side > 0] * front.scale, corner[0] + front.side * radius
    if front.side * (end - edge) > 0:
        points = ((edge + front.side * 0.8, corner[1]), (end + front.side * 1.4, corner[1]))
        items.append(Stroke(points=points, pen="dimension", layer="dimension"))
    ax, ay = front.stance.along
    along = front.face / ay + front.side * front.stance.wide / 2 * ax / ay  # of the corner, along the other board
    shown = (front.runs[1] - along) * front.scale
    if radius > shown + 0.8:
        p, q = ((corner[0] + ax * s, corner[1] - ay * s) for s in (shown + 0.8, radius + 1.4))
        items.append(Stroke(points=(p, q), pen="dimension", layer="dimension"))
    return items
