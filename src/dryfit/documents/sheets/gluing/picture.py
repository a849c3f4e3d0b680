"""The picture on a glue-up card: the boards of one go in the elevation, their letters, the lengths to measure.

Where bars press, along the board that they are told for, two arrows point at one another from outside; the notes say
how many bars lie there, one behind the other out of the wall.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace

from shapely import LineString, get_parts, unary_union
from shapely.geometry.base import BaseGeometry

from ....geometry.frames import Vec2
from ....sentences import Voice
from ....studies.glue_up.result import GlueStage
from ...display import Area, Item, Stroke, Text, extent
from ...kit import label
from ...kit.dimension import reading
from ...kit.label import Label
from ...kit.placing import FilledPaper
from ...looks import Desk
from ...naming import position
from ...standard import AIR, CARD, FIGURE, NAME, TEXT
from ..page.picture import Picture

PRESS = NAME - 2 * AIR  # in the white beside the picture: length of an arrow where bars press
NEARLY = 2.0  # mm: joints that are drawn open by less are pressed through
ASIDE = [side * far for far in (0, 2, 4, 6) for side in (1, -1)]  # times the air around words: of an arrow off its bar
SHARES = 12  # of a diagonal, at which its figure is looked for
Room = tuple[float, float, float, float]


def flatness(desk: Desk, go: GlueStage) -> float:
    """How many times as wide as high the picture is."""
    shapes = _shapes(desk, go)
    if not shapes:
        return 1.0
    left, low, right, high = unary_union(list(shapes.values())).bounds
    return float((right - left) / (high - low))


def _shapes(desk: Desk, go: GlueStage) -> dict[str, BaseGeometry]:
    found = {name: desk.elevations[name] for name in go.boards if name in desk.elevations}
    return {name: shape for name, shape in found.items() if not shape.is_empty}


def drawn(desk: Desk, go: GlueStage, room: Room) -> tuple[Sequence[Item], list[str]]:
    """The picture, in a room of left, top, right, bottom; and what found no room in it, a fault.

    Letters make way for the arrows, unless one of them then finds no place in the room.
    """
    shapes = _shapes(desk, go)
    if not shapes:
        return [], []
    paper, lacking = _made(desk, go, room, shapes, arrows_first=True)
    if lacking or not _inside(paper, room):
        paper, lacking = _made(desk, go, room, shapes, arrows_first=False)
    return paper.items, lacking


def _inside(paper: FilledPaper, room: Room) -> bool:
    """Whether no word reaches further out of the room than a letter beside the frame does."""
    left, top, right, bottom = extent([item for item in paper.items if isinstance(item, Text)])
    first, above, last, below = room
    return first - NAME < left and right < last + TEXT and above - TEXT < top and bottom < below + TEXT


def _made(
    desk: Desk, go: GlueStage, room: Room, shapes: Mapping[str, BaseGeometry], *, arrows_first: bool
) -> tuple[FilledPaper, list[str]]:
    paper, lacking = FilledPaper(), list[str]()
    picture, middle = _fitted(shapes, room)
    for name, shape in shapes.items():
        paper.draw(picture.outlines(shape, "balloon", "wood", name))
    if arrows_first:
        _pressed(paper, desk, go, picture, shapes)
    lacking += _diagonals(paper, picture, go)
    for name, shape in sorted(shapes.items(), key=lambda item: -item[1].length):  # the longest have most to choose
        if not _letter(paper, picture, Label(says=desk.marks[name], at=(middle,), owner=name), shape):
            lacking.append(name)
    if not arrows_first:
        _pressed(paper, desk, go, picture, shapes)
    return paper, lacking


def _fitted(shapes: Mapping[str, BaseGeometry], room: Room) -> tuple[Picture, Vec2]:
    """As large as the room allows, letters around it; and its middle on the sheet."""
    left, low, right, high = unary_union(list(shapes.values())).bounds
    start, top, end, floor = room
    x0, y0, x1, y1 = start + NAME, top + CARD, end - NAME, floor - CARD
    scale = min((x1 - x0) / (right - left), (y1 - y0) / (high - low))
    middle = (x0 + x1) / 2, (y0 + y1) / 2
    return Picture(scale, middle[0] - (left + right) / 2 * scale, middle[1] + (low + high) / 2 * scale), middle


def _pressed(
    paper: FilledPaper, desk: Desk, go: GlueStage, picture: Picture, shapes: Mapping[str, BaseGeometry]
) -> None:
    """Two arrows for the bars along each board, from outside of all that they press together."""
    wood = unary_union(list(shapes.values())).buffer(NEARLY, join_style="mitre").buffer(-NEARLY, join_style="mitre")
    for line in go.clamps:
        shape = shapes.get(line.board)
        if shape is None:
            continue
        x, y, _ = desk.looks[line.board].part.board.frame.x
        left, foot, right, head = wood.bounds
        middle, far = shape.centroid, max(right - left, head - foot)
        along = LineString([(middle.x + s * far * x, middle.y + s * far * y) for s in (-1.0, 1.0)])
        runs = [run for run in get_parts(along.intersection(wood)) if run.distance(middle) < NEARLY]
        if not runs:
            continue
        start, stop = (picture.at((p[0], p[1])) for p in (runs[0].coords[0], runs[0].coords[-1]))
        for to, other in ((start, stop), (stop, start)):
            paper.place(_arrow(to, other, aside * AIR) for aside in ASIDE)


def _stem(to: Vec2, other: Vec2) -> tuple[Vec2, Vec2]:
    """From where an arrow points, and its way outwards: `to` the end of what is pressed, `other` its far end."""
    long = math.dist(to, other)
    way = (to[0] - other[0]) / long, (to[1] - other[1]) / long
    return (to[0] + way[0] * AIR, to[1] + way[1] * AIR), way


def _arrow(to: Vec2, other: Vec2, aside: float) -> list[Item]:
    """From outside to the end of what is pressed, so far beside its middle."""
    (tx, ty), (x, y) = _stem(to, other)
    tip = (tx - y * aside, ty + x * aside)
    neck, tail = ((tip[0] + x * far, tip[1] + y * far) for far in (PRESS / 2, PRESS))
    wide = PRESS / 4
    barbs = ((neck[0] - y * wide, neck[1] + x * wide), (neck[0] + y * wide, neck[1] - x * wide))
    stem = Stroke(points=(neck, tail), pen="outline", layer="press")
    return [stem, Area(loops=((tip, *barbs),), layer="press")]


def _diagonals(paper: FilledPaper, picture: Picture, go: GlueStage) -> list[str]:
    """Each from corner to corner of the wood with its length on it; returns those that have no room for it."""
    lacking, lines, said = [], [], set()  # a length that is there already is known of the one that is alike
    for start, end, length in go.diagonals:
        (x, y), (to, down) = sorted(map(picture.at, (start, end)))
        shares = [number / SHARES for number in range(2, SHARES - 1)]
        figure = Label(
            says=position(length),
            at=tuple((x + (to - x) * share, y + (down - y) * share) for share in shares),
            sizes=(NAME, FIGURE, TEXT), weight="bold", turns=(reading((to - x, down - y))[0],), leader=False, reach=0,
        )  # fmt: skip
        lines.append(((x, y), (to, down)))
        if not label.put(paper, figure, Voice()) and figure.says not in said:
            lacking.append(str(figure.says))
        said.add(figure.says)
    for line in lines:
        paper.draw(paper.extension(*line, broken=True))
    return lacking


def _letter(paper: FilledPaper, picture: Picture, bare: Label, shape: BaseGeometry) -> bool:
    """A letter beside a board, outside of the frame where there is room; else led to it."""
    (middle,), (x, y) = bare.at, picture.at((shape.centroid.x, shape.centroid.y))
    (left, low), (right, top) = picture.at(shape.bounds[:2]), picture.at(shape.bounds[2:])
    level = [((x, top), (0, -1)), ((x, low), (0, 1))]
    standing = [((left, y), (-1, 0)), ((right, y), (1, 0))]
    beside = level if right - left >= low - top else standing
    beside.sort(key=lambda one: -math.dist(one[0], middle))
    loud = replace(bare, sizes=(NAME,), weight="bold", ground=False)
    first = (replace(loud, at=(at,), beyond=way, leader=False, reach=0) for at, way in beside)
    return any(label.put(paper, one, Voice()) for one in (*first, replace(loud, at=((x, y),), dot=True)))
