"""The section seen from the front of a joint in which no board enters the other: mitres and butts.

Both boards are drawn where they end, with the long and the short point of every bevel, both thicknesses, the depths of
holes, how far a key reaches, and the angle three ways: between the boards, on the saw, as rise.
"""

import math
from collections.abc import Iterator

from shapely.geometry.base import BaseGeometry

from .....geometry.frames import Vec2
from .....piece.model import Cut, Part
from ....display import Anchor, Item, Text
from ....lettering import FIGURE, TEXT
from ....looks import Desk
from ....naming import angle, depth, position, rise, thickness
from ...dimensions.ruler import SCALES
from ..bevels import Bevel, bevel_of
from ..drawing.pad import View, leader
from ..drawing.sections import write_letter
from ..drawing.spans import Span, arc, tried
from ..drawing.words import ANGLE_LINE, angle_lines
from ..stance import SQUARE, Stance, factor, turned_words
from .corner_wood import Corner

MOST_WIDE, MOST_HIGH = 116.0, 128.0
FIRST, ROW = 6.0, 6.4  # from the wood to the first dimension line, and from line to line
LEADS = (
    (7.0, 7.0), (-7.0, 7.0), (7.0, -7.0), (-7.0, -7.0), (12.0, 14.0), (-12.0, 14.0), (12.0, -14.0), (-12.0, -14.0),
)  # fmt: skip


def corner_view(desk: Desk, stance: Stance, smaller: int = 0) -> View:
    """The section through both ends, at the largest scale that leaves room for the other views.

    Args:
        smaller: how many of the larger scales are left out.
    """
    tries = [Corner(desk, stance, scale) for scale in SCALES[smaller:]]
    corner = next((one for one in tries if one.size[0] <= MOST_WIDE and one.size[1] <= MOST_HIGH), tries[-1])
    shown = corner.draw()
    corner.pad.keep_to_sheet()
    _letters(corner, shown)
    for bevel in corner.bevels:
        if bevel.bevelled:
            _points_apart(corner, bevel)
    for part in corner.parts:
        _thickness(corner, part)
    _points(corner)
    _angles(corner)
    if corner.pockets:
        _key(corner, corner.pockets[0])
    for cut in corner.holes:
        _hole(corner, cut)
    names = desk.looks[stance.main.id].names
    title = f"section seen from the front, {names.short(stance.up_face)} face up"
    return View(title=title, says=tuple(_says(corner)), scale=corner.scale, items=tuple(corner.pad.items))


def _says(corner: Corner) -> Iterator[str]:
    """What is drawn otherwise than it is, and what is dashed."""
    yield from turned_words(corner.desk, corner.stance)
    if corner.grooves and corner.play is not None and (times := factor(corner.play, corner.scale)) > 1:
        yield f"the tongue's play drawn {times} times too wide, the gaps at its ends too"
    if corner.pockets:
        yield "dashed: the pocket of a key"


def _letters(corner: Corner, shown: list[tuple[Part, BaseGeometry]]) -> None:
    for part, area in shown:
        bevel = bevel_of(corner.stance, part)
        x, y = bevel.away if bevel else (-1.0, 0.0)
        far = [corner.reach + off / corner.scale for off in (12.0, 18.0, 24.0, corner.runs(part) - 6.0)]
        mark = corner.desk.marks[part.id]
        write_letter(corner.pad, mark, part.id, area, [(x * s, y * s) for s in far], corner.scale)


# --- ends ----------------------------------------------------------------------------------------


def _points_apart(corner: Corner, bevel: Bevel) -> None:
    """Long point less short point, along the board, on its outside."""
    corner.pad.place(
        tried(
            _along(corner, bevel, bevel.short, far, position(bevel.longer), dashed=True)
            for far in (FIRST, FIRST + ROW, FIRST + 2 * ROW)
        )
    )


def _along(corner: Corner, bevel: Bevel, end: Vec2, far: float, figure: str, *, dashed: bool = False) -> Span:
    """A dimension along a board from its long point, so far outside it."""
    (ax, ay), (ox, oy) = bevel.away, bevel.outside
    foot = corner.paper(bevel.long)
    at = (foot[0] + ox * far, foot[1] - oy * far)
    return Span(start=foot, end=corner.paper(end), way=(ax, -ay), at=at, figure=figure, dashed=(False, dashed))


def _thickness(corner: Corner, part: Part) -> None:
    """Of a board, beyond where it is broken off."""
    stretch = corner.stretch(part)
    (x, y), far = stretch.way, stretch.high
    half = corner.stance.joint.meeting.side(part.id).thickness / 2
    ends = [corner.paper((x * far - y * c, y * far + x * c)) for c in (half, -half)]
    upright = abs(y) < 1e-9
    start, end = sorted(ends, key=lambda p: p[1] if upright else p[0])
    way = (0.0, 1.0) if upright else (abs(y), x * math.copysign(1.0, y))

    def span(off: float) -> Span:
        at = (start[0] + x * off, start[1] - y * off)
        return Span(start=start, end=end, way=way, at=at, figure=thickness(2 * half), weight="regular")

    corner.pad.place(tried(span(off) for off in (4.8, 8.0)))


def _points(corner: Corner) -> None:
    """Long points and short points by name, where the two boards share them."""
    if corner.mitred:
        bevel = corner.bevels[0]
        for point, words in ((bevel.long, "long points"), (bevel.short, "short points")):
            x, y = corner.paper(point)
            corner.pad.place(
                leader((x, y), Text(at=(x + dx, y + dy), text=words, anchor="start" if dx > 0 else "end"))
                for dx, dy in LEADS
            )


# --- what is let in ------------------------------------------------------------------------------


def _key(corner: Corner, pocket: Cut) -> None:
    """How far a key reaches on the outside face."""
    bevel = next(bevel for bevel in corner.bevels if bevel.cut.body == pocket.body)
    reach = pocket.figures.on_face or 0.0
    end = (bevel.long[0] + bevel.away[0] * reach, bevel.long[1] + bevel.away[1] * reach)
    words = f"key {position(reach)}"
    corner.pad.place(tried(_along(corner, bevel, end, far, words) for far in (FIRST + ROW, FIRST, FIRST + 2 * ROW)))


def _hole(corner: Corner, cut: Cut) -> None:
    """How deep a hole, or its counterbore, is, beside it."""
    (x, y), (wx, wy), profile = corner.bore(cut)
    deep = profile[1][0] if len(profile) > 2 else profile[-1][0]
    start, end = corner.paper((x, y)), corner.paper((x + wx * deep, y + wy * deep))
    half = corner.stance.wide / 2

    def spans() -> Iterator[Span]:
        for off in (half + 5.5 / corner.scale, half + 9.0 / corner.scale):
            for sign in (-1.0, 1.0):
                at = corner.paper((x - wy * sign * off, y + wx * sign * off))
                yield Span(
                    start=start, end=end, way=(wx, -wy), at=at, figure=f"{depth(deep)} deep", dashed=(True, True)
                )

    corner.pad.place(tried(spans()))


# --- the angle -----------------------------------------------------------------------------------


def _angles(corner: Corner) -> None:
    """Between the boards once, then on the saw and as rise for each bevel that differs; with the arc."""
    inside = _inside(corner)
    if inside is None or corner.stance.joint.meeting.form == "in line":
        return
    point, ways = inside
    x, y = corner.paper(point)
    turns = sorted(math.degrees(math.atan2(way[1], way[0])) for way in ways)
    first, last = (turns[0], turns[1]) if turns[1] - turns[0] <= 180.0 else (turns[1], turns[0] + 360.0)
    cosine, sine = math.cos(math.radians((first + last) / 2)), math.sin(math.radians((first + last) / 2))
    lines = list(_angle_lines(corner))

    def blocks() -> Iterator[list[Item]]:
        for far in (13.0, 16.0, 20.0, 26.0, 34.0, -18.0, -26.0, -34.0, -42.0):
            for lean in (math.copysign(1.0, far) * cosine, 0.0):
                yield _block(lines, x + far * cosine, y - far * sine, lean)

    corner.pad.place(blocks())
    corner.pad.place([arc((x, y), radius, first, last)] for radius in (9.0, 11.0, 7.0, 5.0))


def _angle_lines(corner: Corner) -> Iterator[tuple[str, float]]:
    """The angle between the boards, then each bevel with the boards that have it."""
    yield angle(next((cut.figures.between_faces for cut in corner.stance.joint.cuts if cut.end), 90.0)), FIGURE
    told: dict[str, list[str]] = {}
    for bevel in corner.bevels:
        lean = abs(bevel.cut.figures.lean)
        if lean > SQUARE:
            told.setdefault(f"{angle(lean)} on the saw, {rise(lean)}", []).append(corner.desk.marks[bevel.cut.body])
    for words, marks in told.items():
        yield (words if len(marks) > 1 else f"{marks[0]}: {words}"), TEXT


def _inside(corner: Corner) -> tuple[Vec2, tuple[Vec2, Vec2]] | None:
    """Where the inside faces meet, and the ways along both from there."""
    if corner.mitred:
        first, second = corner.bevels
        return first.short, (first.away, second.away)
    end = bevel_of(corner.stance, corner.stance.other)
    if end is None:
        return None
    own = bevel_of(corner.stance, corner.stance.main)
    right = end.away[0] > -1e-9 if own is None else own.away[0] > 0
    foot = max((end.long, end.short), key=lambda p: p[0] if right else -p[0])
    return foot, ((1.0 if right else -1.0, 0.0), end.away)


def _block(lines: list[tuple[str, float]], x: float, y: float, lean: float) -> list[Item]:
    """Lines of words about a point: to its right, to its left, or on it."""
    anchor: Anchor = "start" if lean > 0.2 else "end" if lean < -0.2 else "middle"
    top = y - ANGLE_LINE * (len(lines) - 1) / 2
    rows = ((top + number * ANGLE_LINE + size / 2, text, size) for number, (text, size) in enumerate(lines))
    return angle_lines(x, anchor, rows)
