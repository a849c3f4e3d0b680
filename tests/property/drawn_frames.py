"""Closed frames drawn at random, as a maker types them, and what may stand and be fixed in them.

Inside angles of 30 to 165, convex or not, 12 to 40 thick, equal or not, depths and backs level or not, set out by
their outside, inside or centre-lines, typed either way round; every kind of corner. A frame may be crossed by a
board that stands across the wall, or by one that lies flat on it, and be screwed to the wall.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from hypothesis import assume
from hypothesis import strategies as st
from hypothesis.strategies import DrawFn
from shapely import LineString, Point

from tests.strategies import asked_options, lengths, perhaps, thicknesses


@dataclass(frozen=True, kw_only=True)
class Side:
    """One side of a drawn frame: as ordered, and from where to where it is out of the wall."""

    name: str
    thickness: float
    depth: float
    back: float

    @property
    def front(self) -> float:
        return self.back + self.depth


@dataclass(frozen=True, kw_only=True)
class Frame:
    """A closed frame as typed, and perhaps a board that crosses two of its sides.

    Attributes:
        points: of which faces, or of the centre-lines, `size` says.
        options: of the kind, for all corners.
        through: by corner (the number of its point), the name of the side that is told to run through.
        crosser: its line; None for no such board.
        laid: width of the crosser where it lies flat on the wall; 0 where it stands across it.
        screws: by side or crosser, where long screws hold it to the wall.
    """

    points: tuple[tuple[int, int], ...]
    sides: tuple[Side, ...]
    size: str
    kind: str
    options: Mapping[str, object]
    through: Mapping[int, str] = field(default_factory=dict)
    crosser: tuple[tuple[float, float], tuple[float, float]] | None = None
    laid: float = 0.0
    screws: Mapping[str, tuple[float, ...]] = field(default_factory=dict)

    def beside(self, corner: int) -> tuple[Side, Side]:
        """The side that ends at a point, and the one that starts there."""
        return self.sides[corner - 1], self.sides[corner]

    def text(self) -> str:
        """As a maker's file has it."""
        tables = ["dryfit = 1", "[job]", 'title = "a frame"', "[wall]", "hung = true"]
        for side in self.sides:
            tables += _timber(side.name, side.thickness)
        tables += ["[joints]", f'corner = "{self.kind}"', f'[joints."{self.kind}"]']
        tables += [f"{name} = {_written(value)}" for name, value in self.options.items()]
        tables += ["[[frame]]", 'name = "box"', "closed = true", f'size = "{self.size}"']
        for key, values in (
            ("points", [list(point) for point in self.points]),
            ("names", [side.name for side in self.sides]),
            ("timber", [side.name for side in self.sides]),
            ("depth", [side.depth for side in self.sides]),
            ("back", [side.back for side in self.sides]),
        ):
            tables.append(f"{key} = {_written(values)}")
        if self.crosser is not None:
            tables += _timber("crosser", 21.0)
            lies = ['lies = "flat"', f"width = {self.laid}"] if self.laid else ["depth = 260", "back = 3"]
            tables += ["[[board]]", 'name = "crosser"', 'timber = "crosser"', *lies]
            tables.append(f"line = {_written([list(point) for point in self.crosser])}")
        for corner, name in self.through.items():
            between = [side.name for side in self.beside(corner)]
            tables += ["[[joint]]", f"between = {_written(between)}", f'through = "{name}"']
        for name, at in self.screws.items():
            tables += ["[[fixing]]", f'board = "{name}"', 'kind = "long screw"', f"at = {_written(list(at))}"]
            tables.append('screw = "wood 5x120"')
        return "\n".join(tables) + "\n"

    def drawn_from(self, first: int, *, backwards: bool) -> "Frame":
        """The same frame, its points typed from another one on, or the other way round; sides keep their names."""
        count = len(self.points)
        order = [(first + step) % count for step in range(count)]
        if not backwards:
            points, sides = [self.points[k] for k in order], [self.sides[k] for k in order]
            through = {(corner - first) % count: name for corner, name in self.through.items()}
        else:
            points = [self.points[-k] for k in order]
            sides = [self.sides[-k - 1] for k in order]
            through = {(-corner - first) % count: name for corner, name in self.through.items()}
        return replace(self, points=tuple(points), sides=tuple(sides), through=through)


def _timber(name: str, thickness: float) -> list[str]:
    return [f'[timber."{name}"]', 'species = "oak, white"', 'form = "panel"', f"thickness = {thickness}"]


def _written(value: object) -> str:
    """A value as TOML has it."""
    if isinstance(value, str):
        return f'"{value}"'
    return str(value).replace("'", '"').replace("True", "true").replace("False", "false")


SHARPEST, BLUNTEST = 30.0, 165.0  # between the bodies at a corner
CORNER_ROOM = 300.0  # about a corner nothing else is drawn


@st.composite
def outlines(draw: DrawFn, most: int = 8) -> tuple[tuple[int, int], ...]:
    """Corners of a polygon of 3 to 8 sides, convex or not, its sides long and far from each other."""
    count = draw(st.integers(3, most))
    rays = [draw(st.integers(-25, 25)) / 100 for _ in range(count)]
    reach = [draw(st.integers(100, 165)) * (7 + count) for _ in range(count)]
    turns = [2 * math.pi * (k + ray) / count for k, ray in enumerate(rays)]
    points = tuple((round(r * math.cos(turn)), round(r * math.sin(turn))) for r, turn in zip(reach, turns, strict=True))
    assume(_roomy(points))
    return points if draw(st.booleans()) else points[::-1]


def _roomy(points: tuple[tuple[int, int], ...]) -> bool:
    count = len(points)
    lines = [LineString((points[k], points[(k + 1) % count])) for k in range(count)]
    if any(line.length < 2.2 * CORNER_ROOM for line in lines):
        return False
    for k, point in enumerate(points):
        before, after = (math.atan2(q[1] - point[1], q[0] - point[0]) for q in (points[k - 1], points[(k + 1) % count]))
        between = math.degrees(abs((after - before + math.pi) % (2 * math.pi) - math.pi))
        if not SHARPEST <= between <= BLUNTEST:
            return False
        if any(lines[j].distance(Point(point)) < CORNER_ROOM for j in range(count) if j not in ((k - 1) % count, k)):
            return False
    return True


@st.composite
def frames(
    draw: DrawFn, kinds: tuple[str, ...] = ("mitre", "butt"), *, held: str | None = None, level: bool = False
) -> Frame:
    """A closed frame; `held` by what fastens its corners, `level` where all sides are as deep as each other."""
    kind = draw(st.sampled_from(kinds))
    ways = ["none", "keys", "tongue"] if kind == "mitre" else ["none", "dowels", "screws"]
    fastening = draw(st.sampled_from(ways)) if held is None else held
    square = draw(st.integers(0, 1 if kind == "butt" else 4)) == 0
    points = draw(oblongs() if square else outlines())
    size = draw(st.sampled_from(["outside", "inside", "centre"]))
    one_thickness = size == "centre" or draw(st.booleans())
    thickness = draw(thicknesses())
    even = level or draw(st.booleans())
    sides = tuple(
        Side(
            name=f"side {letter}",
            thickness=thickness if one_thickness else draw(thicknesses()),
            depth=240.0 if even else draw(st.sampled_from([240.0, 240.0, 215.0, 300.0])),
            back=0.0 if even else draw(st.sampled_from([0.0, 0.0, 0.9, 12.0])),
        )
        for letter in "ABCDEFGH"[: len(points)]
    )
    through = {}
    if kind == "butt":
        told = [k for k in range(len(points)) if draw(st.booleans())]
        through = {k: draw(st.sampled_from((sides[k - 1].name, sides[k].name))) for k in told}
    return Frame(
        points=points,
        sides=sides,
        size=size,
        kind=kind,
        options=draw(_strengthened(kind, fastening)),
        through=through,
        crosser=_crosser(draw, points),
    )


@st.composite
def oblongs(draw: DrawFn) -> tuple[tuple[int, int], ...]:
    """A rectangle, turned or not."""
    x, y, size = draw(st.sampled_from([(1, 0, 1), (1, 0, 1), (4, 3, 5), (-5, 12, 13)]))
    wide, high = draw(st.integers(800, 1600)) // size, draw(st.integers(800, 1600)) // size
    points = tuple((a * x - b * y, a * y + b * x) for a, b in ((0, 0), (wide, 0), (wide, high), (0, high)))
    return points if draw(st.booleans()) else points[::-1]


@st.composite
def _strengthened(draw: DrawFn, kind: str, how: str) -> dict[str, object]:
    """Options of a mitre or butt."""
    if kind == "butt":
        return {"fasten": how, "screw": "wood 5x80", "count": draw(st.sampled_from([0, 2, 3]))}
    if how == "keys":
        return {
            "strengthen": how,
            "keys": draw(st.sampled_from([0, 2, 4])),
            "key_thickness": draw(st.sampled_from([3.0, 4.0, 6.0])),
            "cutter": draw(st.sampled_from([80.0, 100.0, 150.0])),
            "plunge": draw(lengths(6.0, 14.0)),
        }
    if how == "tongue":
        stop, play = perhaps(draw, lengths(5, 20)), perhaps(draw, lengths(0.05, 0.3))
        return {"strengthen": how, **asked_options(tongue_stop=stop, tongue_play=play)}
    return {"strengthen": how}


def _crosser(
    draw: DrawFn, points: tuple[tuple[int, int], ...]
) -> tuple[tuple[float, float], tuple[float, float]] | None:
    """A line through two sides, clear of corners and other sides; None where the first try is not."""
    if draw(st.booleans()):
        return None
    count = len(points)
    lines = [LineString((points[k], points[(k + 1) % count])) for k in range(count)]
    one, other = sorted(draw(st.lists(st.integers(0, count - 1), min_size=2, max_size=2, unique=True)))
    ends = [lines[k].interpolate(draw(st.sampled_from([0.4, 0.5, 0.55])), normalized=True) for k in (one, other)]
    ux, uy = ends[1].x - ends[0].x, ends[1].y - ends[0].y
    size = math.hypot(ux, uy)
    ux, uy = ux / size, uy / size
    start = (round(ends[0].x - 250 * ux), round(ends[0].y - 250 * uy))
    stop = (round(ends[1].x + 250 * ux), round(ends[1].y + 250 * uy))
    whole = LineString((start, stop))
    for k, side in enumerate(lines):
        (ax, ay), (bx, by) = side.coords
        sine = abs(ux * (by - ay) - uy * (bx - ax)) / side.length
        if k in (one, other) and sine < 0.6:
            return None
        if k not in (one, other) and whole.distance(side) < 150:
            return None
    near_corner = min(whole.distance(Point(point)) for point in points)
    return None if near_corner < 1.1 * CORNER_ROOM else (start, stop)


@st.composite
def furnished(draw: DrawFn) -> Frame:
    """A frame with all that there is a joint for: often crossed, or laid over a flat board, and screwed to the wall."""
    frame = draw(frames())
    laid = draw(st.sampled_from([0.0, 60.0, 85.5])) if frame.crosser else 0.0
    names = [side.name for side in frame.sides]
    held = draw(st.lists(st.sampled_from(names), max_size=2, unique=True))
    return replace(frame, laid=laid, screws={name: draw(_screwed()) for name in held})


def _screwed() -> st.SearchStrategy[tuple[float, ...]]:
    """One place or two, clear of the corner; further along stands what may cross the side."""
    return st.sampled_from([(120.0,), (90.0, 150.0), (141.5,)])


CHANGES = ("point", "thickness", "depth", "options", "kind", "size", "crosser", "laid", "screws")


@st.composite
def changed(draw: DrawFn, frame: Frame) -> Frame:
    """One change of a frame, as the page makes it."""
    k = draw(st.integers(0, len(frame.points) - 1))
    side = frame.sides[k]
    match draw(
        st.sampled_from(["point", "thickness", "depth", "options", "kind", "size", "crosser", "laid", "screws"])
    ):
        case "point":
            x, y = frame.points[k]
            moved = (x + draw(st.integers(-20, 20)), y + draw(st.integers(-20, 20)))
            return replace(frame, points=(*frame.points[:k], moved, *frame.points[k + 1 :]))
        case "thickness" if frame.size != "centre":
            return _with_side(frame, k, replace(side, thickness=draw(thicknesses())))
        case "depth":
            return _with_side(frame, k, replace(side, depth=draw(st.sampled_from([215.0, 240.0, 300.0]))))
        case "options":
            how = ["none", "keys", "tongue"] if frame.kind == "mitre" else ["none", "dowels", "screws"]
            return replace(frame, options=draw(_strengthened(frame.kind, draw(st.sampled_from(how)))))
        case "kind":
            kind, by = ("butt", "dowels") if frame.kind == "mitre" else ("mitre", "keys")
            return replace(frame, kind=kind, options=draw(_strengthened(kind, by)), through={})
        case "crosser" if frame.crosser:
            return replace(frame, crosser=None, laid=0.0)
        case "laid" if frame.crosser:
            return replace(frame, laid=draw(st.sampled_from([0.0, 60.0, 70.25])))
        case "screws":
            return replace(frame, screws={**frame.screws, side.name: draw(_screwed())})
        case _:
            return replace(frame, size="inside" if frame.size == "outside" else "outside")


def _with_side(frame: Frame, k: int, side: Side) -> Frame:
    return replace(frame, sides=(*frame.sides[:k], side, *frame.sides[k + 1 :]))
