"""The signs of the sheets, each as a few plain items: balloon, tick box, tags, arrowheads, the maker's marks.

Sizes in mm on paper. Reference marks (face side, face edge) and the triangle are drawn where they go on the
wood; the three tags are told apart by their frames, in a photocopy and by someone who does not read them.
"""

import math
from typing import Literal

from ..geometry.frames import Vec2
from .display import Anchor, Area, Circle, Item, Stroke, Text, rectangle
from .lettering import TEXT, width

HEAD_LONG, HEAD_WIDE = 2.2, 0.84
BALLOON = 5.2
TAG_HIGH, TAG_PAD = 4.0, 0.8
TICK = 3.5

Tag = Literal["FIXED", "FIT TO", "LEAVE LONG"]


def arrowhead(tip: Vec2, direction: Vec2, owner: str = "") -> Area:
    """A closed, filled head whose point is at `tip`; `direction` is the way it points."""
    x, y = direction
    back = (tip[0] - HEAD_LONG * x, tip[1] - HEAD_LONG * y)
    half = HEAD_WIDE / 2
    corners = (tip, (back[0] - half * y, back[1] + half * x), (back[0] + half * y, back[1] - half * x))
    return Area(loops=(corners,), layer="dimension", owner=owner)


def balloon(centre: Vec2, label: str, owner: str = "") -> tuple[Item, ...]:
    """A cut's number, or a board's letter, in a ring."""
    x, y = centre
    size = TEXT if width(label, TEXT, "medium") <= BALLOON - 1.2 else TEXT * 0.75
    return (
        Circle(centre=centre, radius=BALLOON / 2, pen="balloon", ink="white", layer="balloon", owner=owner),
        Text(
            at=(x, y + size / 2), text=label, size=size, weight="medium", anchor="middle", layer="balloon", owner=owner
        ),
    )


def tick_box(x: float, y: float, size: float = TICK) -> Stroke:
    """A box to tick, by its top left corner."""
    return Stroke(points=rectangle(x, y, size, size), pen="balloon", closed=True, layer="table")


def ticked_box(x: float, y: float, size: float = TICK) -> tuple[Stroke, Stroke]:
    """A box that is ticked already, by its top left corner."""
    tick = ((x + 0.2 * size, y + 0.5 * size), (x + 0.42 * size, y + 0.78 * size), (x + 0.85 * size, y + 0.12 * size))
    return tick_box(x, y, size), Stroke(points=tick, pen="outline", layer="table")


def blank(x: float, y: float, wide: float) -> Stroke:
    """A line to write on, from its left end on the base line."""
    return Stroke(points=((x, y + 0.6), (x + wide, y + 0.6)), pen="balloon", layer="table")


def tag_width(text: str) -> float:
    """Width of a tag with that text."""
    return width(text, TEXT, "semibold") + 2 * TAG_PAD


def tag(x: float, y: float, kind: Tag, text: str) -> tuple[Item, ...]:
    """What kind of size this is, by its top left corner: white on black, framed, or in a dashed frame."""
    wide = tag_width(text)
    frame = rectangle(x, y, wide, TAG_HIGH)
    words = Text(
        at=(x + TAG_PAD, y + (TAG_HIGH + TEXT) / 2),
        text=text,
        weight="semibold",
        ink="white" if kind == "FIXED" else "black",
        layer="tag",
    )
    if kind == "FIXED":
        return Area(loops=(frame,), layer="tag"), words
    pen = "tag long" if kind == "LEAVE LONG" else "outline"
    ground = Area(loops=(frame,), ink="white", layer="tag")
    return ground, Stroke(points=frame, pen=pen, closed=True, layer="tag"), words


def grain(left: Vec2, long: float) -> tuple[Item, ...]:
    """A double-headed open arrow with its word, along the grain."""
    x, y = left
    half = width("grain", TEXT) / 2 + 1.0
    middle = x + long / 2
    items: list[Item] = [
        Stroke(points=((x, y), (middle - half, y)), pen="break", layer="mark"),
        Stroke(points=((middle + half, y), (x + long, y)), pen="break", layer="mark"),
        Text(at=(middle, y + TEXT * 0.36), text="grain", anchor="middle", layer="mark"),
    ]
    for tip, way in ((x, 1.0), (x + long, -1.0)):
        points = ((tip + way * 2.2, y - 1.0), (tip, y), (tip + way * 2.2, y + 1.0))
        items.append(Stroke(points=points, pen="break", layer="mark"))
    return tuple(items)


_LOOP = (
    (0.0, 0.0), (1.5, 2.6), (2.9, 5.0), (3.3, 6.6), (2.4, 7.9), (0.7, 8.2), (-0.8, 7.3), (-1.1, 5.7), (0.2, 4.5),
    (2.0, 4.8), (3.8, 5.9), (6.0, 7.6),
)  # fmt: skip


def face_mark(foot: Vec2, into: float, size: float = 1.0) -> Stroke:
    """The loop on the face side: from the face edge (`foot`) into the face; `into` -1 goes up the sheet."""
    knots = [(foot[0] + size * x, foot[1] + into * size * y) for x, y in _LOOP]
    return Stroke(points=tuple(_smooth(knots)), pen="outline", layer="mark")


def edge_mark(at: Vec2, high: float, towards: float) -> Stroke:
    """The V on the face edge, its point to the face side; `towards` -1 points up the sheet."""
    x, y = at
    half = max(0.7, min(1.4, high * 0.5))
    points = ((x - half, y), (x, y + towards * high), (x + half, y))
    return Stroke(points=points, pen="outline", layer="mark")


def triangle(centre: Vec2, size: float, turn: float) -> Stroke:
    """The maker's triangle; `turn` 0 points up the sheet, 90 to the left, -90 to the right, 180 down."""
    x, y = centre
    angles = (90.0 + turn, 210.0 + turn, 330.0 + turn)
    points = tuple(
        (x + size * math.cos(math.radians(angle)), y - size * math.sin(math.radians(angle))) for angle in angles
    )
    return Stroke(points=points, pen="outline", closed=True, layer="mark")


def zigzag(x: float, top: float, bottom: float) -> Stroke:
    """A break line across a view, with one zigzag in the middle."""
    middle = (top + bottom) / 2
    points = (
        (x, top),
        (x, middle - 1.2),
        (x - 0.9, middle - 0.4),
        (x + 0.9, middle + 0.4),
        (x, middle + 1.2),
        (x, bottom),
    )
    return Stroke(points=points, pen="break", layer="break")


def words(at: Vec2, text: str, *, anchor: Anchor = "start") -> Text:
    """Plain text of the sheet's size."""
    return Text(at=at, text=text, anchor=anchor)


def _smooth(knots: list[Vec2], steps: int = 6) -> list[Vec2]:
    """A curve through points (Catmull and Rom's)."""
    ends = [knots[0], *knots, knots[-1]]
    curve = []
    for p0, p1, p2, p3 in zip(ends, ends[1:], ends[2:], ends[3:], strict=False):
        for step in range(steps):
            s = step / steps
            curve.append((_blend(p0[0], p1[0], p2[0], p3[0], s), _blend(p0[1], p1[1], p2[1], p3[1], s)))
    return [*curve, knots[-1]]


def _blend(p0: float, p1: float, p2: float, p3: float, s: float) -> float:
    return 0.5 * (
        2 * p1 + (p2 - p0) * s + (2 * p0 - 5 * p1 + 4 * p2 - p3) * s * s + (3 * p1 - p0 - 3 * p2 + p3) * s * s * s
    )
