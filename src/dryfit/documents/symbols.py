"""The signs of the sheets, each as a few plain items: balloon, tick box, tags, arrowheads, the maker's marks.

Sizes in mm on paper. Reference marks (face side, face edge) and the triangle are drawn where they go on the
wood; the three tags are told apart by their frames, in a photocopy and by someone who does not read them.
"""

import math
from typing import Literal

from ..geometry.frames import Vec2
from .display import STEPS, Area, Circle, Item, Stroke, Text, rectangle
from .lettering import CAPITAL, CAPTION, FIGURE, SMALL, TEXT, width
from .standard import AIR, HEAVY, LIFT, ROW

HEAD_LONG, HEAD_WIDE = 3 * HEAVY, HEAVY  # of an arrowhead: it opens by 19 degrees, ISO 129-1 has 15 to 30 (from memory)
BALLOON = ROW  # so that the rings of two lines of dimensions do not meet
TAG_HIGH, TAG_PAD = TEXT + 2 * LIFT, LIFT
TICK = FIGURE
LOOP = CAPTION  # radius of the face mark's loop
_SLOPE = math.radians(30)  # of the face mark, as a hand writes it

Tag = Literal["FIXED", "FIT TO", "LEAVE LONG"]


def arrowhead(tip: Vec2, direction: Vec2, owner: str = "") -> Area:
    """A closed, filled head whose point is at `tip`; `direction` is the way it points."""
    x, y = direction
    back = (tip[0] - HEAD_LONG * x, tip[1] - HEAD_LONG * y)
    half = HEAD_WIDE / 2
    corners = (tip, (back[0] - half * y, back[1] + half * x), (back[0] + half * y, back[1] - half * x))
    return Area(loops=(corners,), layer="dimension", owner=owner)


def balloon(centre: Vec2, label: str, owner: str = "", size: float = TEXT) -> tuple[Item, ...]:
    """A cut's number, or a board's letter, in a ring."""
    x, y = centre
    radius = BALLOON / 2 * size / TEXT
    size = size if width(label, size, "medium") <= 2 * radius - size / 2 else size * CAPTION / TEXT
    return (
        Circle(centre=centre, radius=radius, pen="balloon", ink="white", layer="balloon", owner=owner),
        Text(
            at=(x, y + size / 2), text=label, size=size, weight="medium", anchor="middle", layer="balloon", owner=owner
        ),
    )


def tick_box(x: float, y: float, size: float = TICK) -> Stroke:
    """A box to tick, by its top left corner."""
    return Stroke(points=rectangle(x, y, size, size), pen="balloon", closed=True, layer="table")


def ticked_box(x: float, y: float, size: float = TICK) -> tuple[Stroke, Stroke]:
    """A box that is ticked already, by its top left corner."""
    quarter, half = size / 4, size / 2
    tick = ((x + quarter, y + half), (x + half, y + half + quarter), (x + half + quarter, y + quarter))
    return tick_box(x, y, size), Stroke(points=tick, pen="outline", layer="table")


def blank(x: float, y: float, wide: float) -> Stroke:
    """A line to write on, from its left end on the base line."""
    return Stroke(points=((x, y + AIR), (x + wide, y + AIR)), pen="balloon", layer="table")


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
    half = width("grain", TEXT) / 2 + 2 * AIR
    middle = x + long / 2
    items: list[Item] = [
        Stroke(points=((x, y), (middle - half, y)), pen="break", layer="mark"),
        Stroke(points=((middle + half, y), (x + long, y)), pen="break", layer="mark"),
        Text(at=(middle, y + TEXT * SMALL / CAPITAL / 2), text="grain", anchor="middle", layer="mark"),
    ]
    for tip, way in ((x, 1.0), (x + long, -1.0)):
        points = ((tip + way * HEAD_LONG, y - 2 * AIR), (tip, y), (tip + way * HEAD_LONG, y + 2 * AIR))
        items.append(Stroke(points=points, pen="break", layer="mark"))
    return tuple(items)


def face_mark(foot: Vec2, into: float, size: float = 1.0) -> Stroke:
    """The loop on the face side: from the face edge (`foot`) into the face; `into` -1 goes up the sheet.

    A leg of two radii, three quarters of a round that begins at its end, and a tail that crosses the leg at its middle.
    """
    turns = (math.tau * (1 - 1 / 4) * step / STEPS for step in range(STEPS + 1))
    ring = [(math.cos(turn) - 1, math.sin(turn) + 2) for turn in turns]
    knots = [(0.0, 0.0), *ring, (1.0, 1.0)]
    c, s, long = math.cos(_SLOPE), math.sin(_SLOPE), LOOP * size
    points = ((foot[0] + long * (c * x + s * y), foot[1] + into * long * (c * y - s * x)) for x, y in knots)
    return Stroke(points=tuple(points), pen="outline", layer="mark")


def edge_mark(at: Vec2, high: float, towards: float) -> Stroke:
    """The V on the face edge, its point to the face side; `towards` -1 points up the sheet."""
    x, y = at
    half = max(HEAVY, min(2 * HEAVY, high / 2))
    points = ((x - half, y), (x, y + towards * high), (x + half, y))
    return Stroke(points=points, pen="outline", layer="mark")


def triangle(centre: Vec2, size: float, turn: float) -> Stroke:
    """The maker's triangle; `turn` 0 points up the sheet, 90 to the left, -90 to the right, 180 down."""
    x, y = centre
    corners, up = 3, math.pi / 2 + math.radians(turn)
    angles = (up + corner * math.tau / corners for corner in range(corners))
    points = tuple((x + size * math.cos(angle), y - size * math.sin(angle)) for angle in angles)
    return Stroke(points=points, pen="outline", closed=True, layer="mark")
