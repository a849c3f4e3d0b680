"""What stands in a row along the depth of a corner or butt, seen square on a face: keys, dowels, screws, a tongue.

Positions run from the front edge, as on the boards' own sheets, so that errors don't add up. Beside them stand how far
keys reach and how thick they are, where a groove lies on its mitre, or where the other board stands on the face.
"""

import math
from collections.abc import Iterator

from .....geometry.frames import Vec2
from .....geometry.views import Surface
from ....display import Anchor, Circle, Item, Stroke, Text
from ....lettering import TEXT
from ....looks import Desk
from ....naming import position, thickness, width
from ....symbols import arrowhead
from ...dimensions.ruler import SCALES
from ...dimensions.running import APART, DATUM, pooled
from ..bevels import Bevel
from ..drawing.pad import View
from ..drawing.spans import BEFORE, level, tried, upright
from ..drawing.words import edge_names
from ..stance import Stance
from .rows_wood import Rows

MOST_HIGH = 78.0
RUNNING = 6.0  # from the face to the running line
OFF = 6.0  # from the edges to a level dimension
MOVED = 0.05  # a figure further from its mark than this is led to it


def rows_view(desk: Desk, stance: Stance, smaller: int = 0) -> View | None:
    """The face with its row at the largest scale that keeps to its height; None where nothing is to be seen.

    Args:
        smaller: how many of the larger scales are left out.
    """
    if stance.joint.meeting.form == "in line":
        return None
    tries = [Rows(desk, stance, scale) for scale in SCALES[smaller:]]
    rows = next((one for one in tries if one.high <= MOST_HIGH), tries[-1])
    rows.draw()
    if rows.groove is not None:
        _groove(rows)
    elif rows.bevel is not None:
        _outside(rows, rows.bevel)
    else:
        _footprint(rows)
    _running(rows)
    _edges(rows)
    mark = desk.marks[rows.main.id]
    title = f"mitre face of {mark}" if rows.groove is not None else f"{mark}, {rows.look.names.words[rows.surface]}"
    says = ["broken in the depth"] if rows.depths.breaks else []
    if rows.row:
        says.append(f"places from the {rows.look.names.words[Surface.FRONT]}")
    return View(title=title, says=tuple(says), scale=rows.scale, items=tuple(rows.pad.items))


# --- across --------------------------------------------------------------------------------------


def _level(rows: Rows, ends: Vec2, figure: str, *, below: bool) -> None:
    """A level dimension beyond the lower or the upper edge."""
    y = rows.ends[below]
    span = level((ends[0], y), (ends[1], y), y + (OFF if below else -OFF), figure)
    rows.pad.place(span.choices())


def _outside(rows: Rows, bevel: Bevel) -> None:
    """Long point less short point; how far a key reaches, and how thick it is."""
    end = bevel.long[0] * rows.scale
    _level(rows, (end, bevel.short[0] * rows.scale), position(bevel.longer), below=True)
    _set_back(rows, bevel.short[0] * rows.scale, math.copysign(1.0, bevel.away[0]))
    if rows.row:
        way = math.copysign(1.0, bevel.away[0])
        x = end + way * rows.key_reach * rows.scale
        _level(rows, (end, x), position(rows.key_reach), below=False)
        low, high = rows.row[-1]
        start, stop = (x, rows.y(low)), (x, rows.y(high))
        spans = (upright(start, stop, x + way * off, width(high - low)) for off in (4.0, 7.0))
        rows.pad.place(tried(spans, BEFORE))


def _groove(rows: Rows) -> None:
    """Where the groove lies on the mitre, and how wide it is."""
    first, last = rows.groove_places
    _level(rows, (0.0, first * rows.scale), position(first), below=True)
    _level(rows, (first * rows.scale, last * rows.scale), width(last - first), below=False)
    y = rows.ends[1] + 2 * OFF
    rows.pad.write(Text(at=(0.0, y), text="inside"))
    rows.pad.write(Text(at=(rows.across[1], y), text="outside", anchor="end"))


def _footprint(rows: Rows) -> None:
    """How wide the other board stands on the face, and how far from an edge."""
    left, right = rows.stands
    _level(rows, (left * rows.scale, right * rows.scale), thickness(right - left), below=True)
    _set_back(rows, right * rows.scale, 1.0)


def _set_back(rows: Rows, x: float, way: float) -> None:
    """How far from an edge the common depth ends."""
    for end in rows.steps:
        edge = 0.0 if end < rows.depth / 2 else rows.depth
        ends = ((x, rows.y(end)), (x, rows.y(edge)))
        spans = (upright(*ends, x + way * off, position(abs(end - edge))) for off in (5.0, 8.0))
        rows.pad.place(tried(spans))


# --- along the depth -----------------------------------------------------------------------------


def _running(rows: Rows) -> None:
    """Positions from the front edge, down or up the side away from the end."""
    marks = [(low + high) / 2 for low, high in rows.row]
    if rows.groove is not None:
        marks = [end for pair in rows.row for end in pair]
    if marks:
        rows.pad.draw(_running_line(rows, [*sorted(marks, reverse=True), 0.0]))


def _running_line(rows: Rows, places: list[float]) -> Iterator[Item]:
    """The line from its zero at the front edge to the wall edge; `places` across the board lead away from it."""
    x0, x1 = rows.across
    right = rows.bevel is None or rows.groove is not None or rows.bevel.away[0] > 0
    side, foot = (1.0, x1) if right else (-1.0, x0)
    x, zero = foot + side * RUNNING, rows.y(rows.depth)
    sign = math.copysign(1.0, rows.y(0.0) - zero)
    anchor: Anchor = "start" if right else "end"
    yield Circle(centre=(x, zero), radius=DATUM / 2, pen="dimension", layer="dimension")
    points = ((x, zero + sign * DATUM / 2), (x, rows.y(0.0)))
    yield Stroke(points=points, pen="dimension", layer="dimension")
    on_paper = [rows.y(place) for place in places]
    spread = [sign * y for y in pooled([sign * y for y in on_paper], APART * TEXT, sign * zero + APART * TEXT)]
    for place, y, stands in zip(places, on_paper, spread, strict=True):
        yield arrowhead((x, y), (0.0, sign))
        tip = x + side * 1.6
        yield Stroke(points=((foot + side * 0.8, y), (tip, y)), pen="dimension", layer="dimension")
        led = abs(stands - y) > MOVED
        if led:
            yield Stroke(points=((tip, y), (tip + side * 1.6, stands)), pen="dimension", layer="dimension")
        at = (tip + side * (2.2 if led else 0.8), stands + TEXT / 2)
        yield Text(at=at, text=position(rows.depth - place), weight="semibold", anchor=anchor, layer="dimension")


def _edges(rows: Rows) -> None:
    """Which edge is which."""
    x0, x1 = rows.across
    for _, text, base, wide in edge_names(rows.look, rows.y):
        places = ((x0 + x1 - wide) / 2, x1 - wide, x0, x1 + 1.6, x0 - wide - 1.6)
        rows.pad.write(*(Text(at=(x, base), text=text) for x in places))
