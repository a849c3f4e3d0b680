"""The display list: one drawing as plain data, for the page and for the paper alike.

Millimetres on the sheet, x to the right, **y down**, the origin in the sheet's top left corner. A drawing
is a tuple of frozen items in the order in which they are painted; each names its pen (the line weights of
the drawing standard's series), its layer, and its owner - the
board or the cut it shows - so that a renderer can light what is chosen. Nothing in it needs sums to be
shown: hatches are lines, dimensions are lines, arrowheads and text.
"""

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Literal, NamedTuple, TypeAlias

from ..geometry.frames import Vec2
from .lettering import ASCENT, CAPITAL, DESCENT, TEXT, Weight, width
from .standard import FINE, HAIR, HEAVY, MEDIUM, THICK, THIN, axis, dashed

STEPS = 24  # of a round that is shown as short lines
DEEP, TALL = frozenset("gjpqy,;()ßQ"), frozenset("bdfhkl()")  # letters that reach below the line, and above capitals
Anchor: TypeAlias = Literal["start", "middle", "end"]
Ink: TypeAlias = Literal["black", "white", "grey"]


@dataclass(frozen=True, slots=True)
class Pen:
    """A line's width, and its dashes (drawn, left out, drawn ...) where it is not full."""

    width: float
    dashes: tuple[float, ...] = ()


PENS: Mapping[str, Pen] = MappingProxyType(
    {
        "cut wood": Pen(HEAVY),  # outline of wood in a section
        "incoming": Pen(HEAVY),  # the board that comes in, in a booklet
        "outline": Pen(THICK),  # edges, walls of joints, marks, table heads, title block's border
        "balloon": Pen(MEDIUM),  # balloons, tick boxes, floor, tags
        "hidden": Pen(THIN, dashed(FINE)),
        "hidden small": Pen(THIN, dashed(HAIR)),
        "left long": Pen(THIN, dashed(HAIR)),
        "tag long": Pen(MEDIUM, dashed(HAIR)),
        "break": Pen(THIN),  # zigzags and the grain's arrow
        "dimension": Pen(FINE),  # dimensions, extensions, table rules, leaders
        "extension over wood": Pen(FINE, dashed(HAIR)),
        "axis": Pen(FINE, axis(FINE)),
        "hatch": Pen(HAIR),
        "knife": Pen(HAIR),  # at full size, where wood is cut to the line
        "picture": Pen(HAIR),  # other parts in a small picture
        "picture part": Pen(HEAVY),  # the part in a small picture
    }
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Stroke:
    """A line through points, closed or not."""

    points: tuple[Vec2, ...]
    pen: str
    closed: bool = False
    layer: str = ""
    owner: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Strokes:
    """Many separate lines of one pen: a hatch, a set of rules."""

    segments: tuple[tuple[Vec2, Vec2], ...]
    pen: str
    layer: str = ""
    owner: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Area:
    """A filled outline with holes; even-odd, opaque."""

    loops: tuple[tuple[Vec2, ...], ...]
    ink: Ink = "black"
    layer: str = ""
    owner: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Circle:
    """A circle; filled where it has an ink."""

    centre: Vec2
    radius: float
    pen: str = ""
    ink: Ink | None = None
    layer: str = ""
    owner: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Arc:
    """Part of a circle, anticlockwise as seen on paper, from and to angles off the paper's right."""

    centre: Vec2
    radius: float
    start: float
    end: float
    pen: str
    layer: str = ""
    owner: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Text:
    """One line of lettering.

    Attributes:
        at: on the base line, at the anchor.
        turn: degrees anticlockwise as seen on paper; 90 is read from the right.
        ground: white ground around it, 0 for none; for text that stands on hatch or lines.
    """

    at: Vec2
    text: str
    size: float = TEXT
    weight: Weight = "regular"
    anchor: Anchor = "start"
    turn: float = 0.0
    ground: float = 0.0
    ink: Ink = "black"
    layer: str = "words"
    owner: str = ""

    @property
    def corners(self) -> tuple[Vec2, Vec2, Vec2, Vec2]:
        """The four corners of its ink, around the box; without the white ground."""
        return self.box_grown(0.0)

    def box_grown(self, by: float) -> tuple[Vec2, Vec2, Vec2, Vec2]:
        """The same box, grown on all sides."""
        wide = width(self.text, self.size, self.weight)
        left = {"start": 0.0, "middle": -wide / 2, "end": -wide}[self.anchor]
        below = 0.0 if DEEP.isdisjoint(self.text) else self.size * DESCENT / CAPITAL
        above = self.size if TALL.isdisjoint(self.text) else self.size * ASCENT / CAPITAL
        box = (
            (left - by, below + by), (left + wide + by, below + by),
            (left + wide + by, -above - by), (left - by, -above - by),
        )  # fmt: skip
        x, y = self.at
        if self.turn == 0.0:  # as most are
            first, second, third, fourth = ((x + p, y + q) for p, q in box)
            return first, second, third, fourth
        cosine, sine = math.cos(math.radians(self.turn)), math.sin(math.radians(self.turn))
        first, second, third, fourth = ((x + p * cosine + q * sine, y - p * sine + q * cosine) for p, q in box)
        return first, second, third, fourth


Item: TypeAlias = Stroke | Strokes | Area | Circle | Arc | Text


@dataclass(frozen=True, slots=True, kw_only=True)
class Display:
    """A whole sheet: its size in mm and what is drawn on it, in painting order."""

    width: float
    height: float
    items: tuple[Item, ...]


def rectangle(x: float, y: float, wide: float, high: float) -> tuple[Vec2, ...]:
    """The corners of an upright rectangle from its top left corner."""
    return (x, y), (x + wide, y), (x + wide, y + high), (x, y + high)


def shifted(items: Iterable[Item], dx: float, dy: float) -> tuple[Item, ...]:
    """The same items moved on the sheet."""
    return tuple(_shifted(item, dx, dy) for item in items)


def _shifted(item: Item, dx: float, dy: float) -> Item:
    def move(p: Vec2) -> Vec2:
        return p[0] + dx, p[1] + dy

    match item:  # each named in full: `replace` takes thrice as long, and a sheet is laid out many times over
        case Stroke(pen=pen, closed=closed, layer=layer, owner=owner):
            return Stroke(points=tuple(map(move, item.points)), pen=pen, closed=closed, layer=layer, owner=owner)
        case Strokes(pen=pen, layer=layer, owner=owner):
            segments = tuple([(move(p), move(q)) for p, q in item.segments])
            return Strokes(segments=segments, pen=pen, layer=layer, owner=owner)
        case Area(ink=ink, layer=layer, owner=owner):
            loops = tuple([tuple(map(move, loop)) for loop in item.loops])
            return Area(loops=loops, ink=ink, layer=layer, owner=owner)
        case Circle() | Arc():
            return replace(item, centre=move(item.centre))
        case Text():
            return Text(
                at=move(item.at), text=item.text, size=item.size, weight=item.weight, anchor=item.anchor,
                turn=item.turn, ground=item.ground, ink=item.ink, layer=item.layer, owner=item.owner,
            )  # fmt: skip


class Extent(NamedTuple):
    """An upright rectangle on paper, in mm."""

    left: float
    top: float
    right: float
    bottom: float


def extent(items: Iterable[Item]) -> Extent:
    """The smallest upright rectangle around items; for none it is turned inside out, without end."""
    points = [point for item in items for point in outline_points(item)]
    if not points:
        return Extent(math.inf, math.inf, -math.inf, -math.inf)
    across, down = [x for x, _ in points], [y for _, y in points]
    return Extent(min(across), min(down), max(across), max(down))


def arc_points(item: Arc, count: int = STEPS) -> list[Vec2]:
    """Points along an arc, its ends among them."""
    (x, y), r = item.centre, item.radius
    angles = (math.radians(item.start + (item.end - item.start) * i / count) for i in range(count + 1))
    return [(x + r * math.cos(angle), y - r * math.sin(angle)) for angle in angles]


def outline_points(item: Item) -> list[Vec2]:
    """Points whose hull holds the item."""
    match item:
        case Stroke():
            return list(item.points)
        case Strokes():
            return [point for segment in item.segments for point in segment]
        case Area():
            return [point for loop in item.loops for point in loop]
        case Circle():
            (x, y), r = item.centre, item.radius
            return [(x - r, y - r), (x + r, y + r)]
        case Arc():
            return arc_points(item)
        case Text():
            return list(item.box_grown(item.ground))


Place: TypeAlias = tuple[str, ...]
"""What stands on a sheet: its kind, then its names: ("part", "shelf 1"). `pages` makes them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """Something that a sheet holds; `title` is its bookmark, "" for what is found by another's."""

    place: Place
    title: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """A sheet that still lacks its title block.

    Attributes:
        title, kind: for the title block: "A  long shelf", "part, a pair".
        number: what tells it from the job's other sheets: "A", "lists".
        scale: in words: "1:10, sections 1:2".
        size: width and height of the paper.
        items: what is drawn, the heading among it.
        holds: what can be found on it; the first sheet that holds a thing is where it is.
        sort: of kinds that are found together: "part"; left out: the kind itself.
    """

    title: str
    kind: str
    number: str
    scale: str
    size: tuple[float, float]
    items: tuple[Item, ...]
    holds: tuple[Held, ...] = ()
    sort: str = ""
