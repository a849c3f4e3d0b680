"""Hypothesis strategies of layouts: pairs of boards that meet, by kind of joint, and whole pieces.

A drawn pair says in plain numbers what it is (thicknesses, depths, the angle, what was asked), makes the
`Job` that a maker's file would have given, and leaves it to the tests to work out what must come of it.
A new kind of joint joins the property tests by one entry in `PAIRS`: a strategy of `Pair`s of its own.

Every pair may lie anywhere, turned by any heading, drawn from either end, on its centre-line or a face.
"""

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace

from hypothesis import assume
from hypothesis import strategies as st
from hypothesis.strategies import DrawFn, SearchStrategy
from shapely import LineString, Point

from dryfit.job.model import BoardSpec, EndForm, Finish, Job, JointRules, JointSpec, LineIs, Timber, Wall

REVERSED_LINE: Mapping[str, LineIs] = {"centre": "centre", "left face": "right face", "right face": "left face"}


# ---- what a pair and a piece are


@dataclass(frozen=True, kw_only=True)
class Bar:
    """One board of a pair: as ordered, and how its line was drawn.

    Attributes:
        before, after: of the centre-line, from the meeting to its start and to its end, before any reversing.
        coated: finished before the piece goes together, joint zones and all.
    """

    name: str
    thickness: float
    depth: float
    back: float
    before: float
    after: float
    coated: bool = False
    drawn_back: bool = False
    line_is: LineIs = "centre"

    @property
    def front(self) -> float:
        return round(self.back + self.depth, 6)


@dataclass(frozen=True, kw_only=True)
class Pair:
    """Two boards that meet.

    Attributes:
        one, other: for an end on a face, `one` is the board that ends.
        place: where the centre-lines meet, in the elevation.
        heading: direction of `other`, degrees anticlockwise from level.
        angle: from the direction of `other` to that of `one`, degrees, within (0, 180) or (-180, 0).
        options: asked of the joint.
        front: the board told to open to the front, "" for none.
        film: dry film of all coats on one face; `sanded` off each face.
    """

    kind: str
    one: Bar
    other: Bar
    place: tuple[float, float]
    heading: float
    angle: float
    options: Mapping[str, object]
    front: str = ""
    film: float = 0.0
    sanded: float = 0.0

    def mounted(self, bar: Bar) -> float:
        """Thickness as put together."""
        return bar.thickness - 2 * self.sanded

    def film_on(self, bar: Bar) -> float:
        return self.film if bar.coated else 0.0

    def job(self) -> Job:
        """The job that a file with these two boards would give."""
        bars = (self.one, self.other)
        joint = JointSpec(
            between=(self.one.name, self.other.name), kind=self.kind, front=self.front, options=self.options
        )
        return Job(
            file="pair.toml",
            text="",
            state="00000000",
            title="a pair",
            timbers={bar.name: timber(bar.name, bar.thickness) for bar in bars},
            boards=in_file_order(
                (self._spec(self.one, self.heading + self.angle), self._spec(self.other, self.heading))
            ),
            joint_specs=(joint,),
            finish=Finish(
                system="demo",
                coats=2,
                film=self.film / 2,
                sanded=self.sanded,
                before_assembly=tuple(bar.name for bar in bars if bar.coated),
                joint_zones="coated",
            ),
            wall=Wall(hung=True),
        )

    def _spec(self, bar: Bar, direction: float) -> BoardSpec:
        ux, uy = math.cos(math.radians(direction)), math.sin(math.radians(direction))
        side = {"centre": 0.0, "left face": 1.0, "right face": -1.0}[bar.line_is] * self.mounted(bar) / 2
        x, y = self.place[0] - uy * side, self.place[1] + ux * side
        spec = BoardSpec(
            name=bar.name,
            timber=bar.name,
            line=((x - bar.before * ux, y - bar.before * uy), (x + bar.after * ux, y + bar.after * uy)),
            line_is=bar.line_is,
            depth=bar.depth,
            back=bar.back,
        )
        return drawn_the_other_way(spec) if bar.drawn_back else spec


def timber(name: str, thickness: float) -> Timber:
    return Timber(name=name, species="oak, white", form="edge-glued panel", thickness=thickness)


def in_file_order(boards: tuple[BoardSpec, ...]) -> tuple[BoardSpec, ...]:
    """Boards with the paths they have in a file that holds them in this order."""
    return tuple(replace(spec, path=("board", index)) for index, spec in enumerate(boards))


def drawn_the_other_way(spec: BoardSpec) -> BoardSpec:
    """The same board, its line typed from its end to its start."""
    size = math.dist(*spec.line)
    return replace(
        spec,
        line=(spec.line[1], spec.line[0]),
        line_is=REVERSED_LINE[spec.line_is],
        ends=(spec.ends[1], spec.ends[0]),
        scribe=(spec.scribe[1], spec.scribe[0]),
        thickness_at=tuple((size - a, thickness) for a, thickness in reversed(spec.thickness_at)),
        inside=-spec.inside,
    )


# ---- numbers


def lengths(low: float, high: float) -> SearchStrategy[float]:
    """Lengths in hundredths, as a maker would type them."""
    return st.integers(round(low * 100), round(high * 100)).map(lambda count: count / 100)


def thicknesses() -> SearchStrategy[float]:
    return lengths(12.0, 40.0)


def angles() -> SearchStrategy[float]:
    """Between lines, 30 to 150: square, or at least half a degree off it, so that no wall is nearly parallel."""
    raked = st.integers(3000, 15000).map(lambda count: count / 100).filter(lambda angle: abs(angle - 90.0) >= 0.5)
    return st.one_of(raked, raked, raked, st.sampled_from([30.0, 60.0, 90.0, 98.13, 150.0]))


def headings() -> SearchStrategy[float]:
    return st.one_of(st.sampled_from([0.0, 0.0, 90.0, 180.0]), lengths(0.0, 359.99))


def places() -> SearchStrategy[tuple[float, float]]:
    return st.tuples(lengths(-3000, 3000), lengths(-500, 3000))


def _some(draw: DrawFn, choice: SearchStrategy[float], share: int = 2) -> float | None:
    """A number, or in one of `share` cases none at all."""
    return None if draw(st.integers(1, share)) == 1 else draw(choice)


def _depths(draw: DrawFn) -> tuple[tuple[float, float], tuple[float, float]]:
    """(back, depth) of two boards: flush, nearly flush, set back or proud at either edge."""
    step = st.one_of(st.just(0.0), st.sampled_from([0.5, 0.9, -0.5]), lengths(2, 60), lengths(-60, -2))
    back, depth = draw(lengths(60, 90)), draw(lengths(100, 400))
    other_back = back + draw(step)
    other_front = max(back + depth + draw(step), other_back + 80.0)
    return (back, max(depth, other_back + 80.0 - back)), (other_back, round(other_front - other_back, 6))


def _drawn(draw: DrawFn) -> dict[str, object]:
    return {
        "coated": draw(st.booleans()),
        "drawn_back": draw(st.booleans()),
        "line_is": draw(st.sampled_from(["centre", "centre", "left face", "right face"])),
    }


def _pair(
    draw: DrawFn,
    kind: str,
    one: dict[str, object],
    other: dict[str, object],
    angle: float,
    options: dict[str, object],
    front: str,
) -> Pair:
    return Pair(
        kind=kind,
        one=Bar(**one),  # type: ignore[arg-type]
        other=Bar(**other),  # type: ignore[arg-type]
        place=draw(places()),
        heading=draw(headings()),
        angle=angle if draw(st.booleans()) else -angle,
        options=options,
        front=front,
        film=draw(st.sampled_from([0.0, 0.08, 0.12])),
        sanded=draw(st.sampled_from([0.0, 0.0, 0.1])),
    )


def _asked(**options: object) -> dict[str, object]:
    return {name: value for name, value in options.items() if value is not None}


# ---- pairs, by kind


@st.composite
def crossings(draw: DrawFn) -> Pair:
    """Two boards that run through each other."""
    depths = _depths(draw)
    names = draw(st.permutations(["raking 2", "raking 10"]))
    bars = [
        {
            "name": name,
            "thickness": draw(thicknesses()),
            "back": back,
            "depth": depth,
            "before": draw(lengths(160, 400)),
            "after": draw(lengths(160, 400)),
            **_drawn(draw),
        }
        for name, (back, depth) in zip(names, depths, strict=True)
    ]
    options = _asked(
        clearance=_some(draw, lengths(0.1, 0.6)),
        ratio=draw(st.sampled_from([None, 0.5, 0.25, 0.4, 0.7])),
        end_clearance=_some(draw, lengths(0.5, 2.5)),
        walls=draw(st.sampled_from([None, "leaning", "square"])),
        swelling=_some(draw, lengths(0.0, 0.5)),
        glued=draw(st.sampled_from([None, True])),
    )
    front = draw(st.sampled_from(["", "", *names]))
    return _pair(draw, "cross halving", bars[0], bars[1], draw(angles()), options, front)


@st.composite
def housings(draw: DrawFn) -> Pair:
    """One board's end on another's face: drawn to anywhere in the other's thickness, or 1 short of it or past it."""
    depths = _depths(draw)
    t_one, t_other = draw(thicknesses()), draw(thicknesses())
    angle = draw(angles())
    past = draw(lengths(-0.9, t_other + 0.9)) - t_other / 2  # of the end past the other's centre-line, square to it
    one = {
        "name": draw(st.sampled_from(["shelf", "wing"])),
        "thickness": t_one,
        "back": depths[0][0],
        "depth": depths[0][1],
        "before": past / math.sin(math.radians(angle)),
        "after": draw(lengths(200, 500)),
        **_drawn(draw),
    }
    other = {
        "name": "upright",
        "thickness": t_other,
        "back": depths[1][0],
        "depth": depths[1][1],
        "before": draw(lengths(200, 400)),
        "after": draw(lengths(200, 400)),
        **_drawn(draw),
    }
    options = _asked(
        clearance=_some(draw, lengths(0.1, 0.6)),
        depth=_some(draw, lengths(3.0, (t_other - 0.2) / 2)),
        stop=draw(st.sampled_from([None, "through", "front", "wall", "both"])),
        stop_distance=_some(draw, lengths(5.0, 25.0)),
        raked=draw(st.sampled_from([None, "floor square to walls", "floor parallel to face", "shouldered"])),
        tongue=_some(draw, lengths(6.0, 20.0)),
        swelling=_some(draw, lengths(0.0, 0.5)),
        glued=draw(st.sampled_from([None, False])),
    )
    return _pair(draw, "housing", one, other, angle, options, "")


@st.composite
def mitres(draw: DrawFn) -> Pair:
    """Two boards that start at one point, or within 1 of each other."""
    depths = _depths(draw)
    names = draw(st.permutations(["box 1", "box 2"]))
    bars = [
        {
            "name": name,
            "thickness": draw(thicknesses()),
            "back": back,
            "depth": depth,
            "before": draw(st.sampled_from([0.0, 0.0, 0.3, -0.4])),
            "after": draw(lengths(220, 400)),
            **_drawn(draw),
            "line_is": "centre",  # lines on faces meet at another point than the centre-lines
        }
        for name, (back, depth) in zip(names, depths, strict=True)
    ]
    options = _asked(
        strengthen=draw(st.sampled_from([None, "none", "tongue"])),
        tongue_stop=_some(draw, lengths(5.0, 20.0)),
        tongue_play=_some(draw, lengths(0.05, 0.3)),
    )
    return _pair(draw, "mitre", bars[0], bars[1], draw(angles()), options, "")


@st.composite
def butts(draw: DrawFn) -> Pair:
    """One board's end flat on another's face, with glue alone: bores are round, and solids only nearly so."""
    pair = draw(housings())
    return replace(pair, kind="butt", options={"fasten": "none"})


# One entry a kind that the property tests of volumes and gaps draw from; `tests/property/closed_forms.py`
# has the sums that go with each.
PAIRS: Mapping[str, Callable[[], SearchStrategy[Pair]]] = {
    "cross halving": crossings,
    "housing": housings,
    "mitre": mitres,
    "butt": butts,
}


# Kinds with no strategy here, and why.
NOT_DRAWN: Mapping[str, str] = {
    "long screw": "its other body is the wall",
    "notch": "one of its boards lies flat and stays whole: there is no pair of boards that stand across the wall",
}


# ---- whole pieces


@dataclass(frozen=True, kw_only=True)
class Drawing:
    """A whole piece: its job, and the pairs of boards that were drawn to meet."""

    job: Job
    meetings: frozenset[frozenset[str]] = field(default_factory=frozenset)


@st.composite
def pieces(draw: DrawFn) -> Drawing:
    """Shelves, nearly level, with uprights and raking boards that cross them, stand on them or hang from them.

    No three boards come together at one place, and no two uprights touch: what is drawn can be made.
    """
    shelves = draw(st.integers(2, 4))
    uprights = draw(st.integers(1, 3))
    width = 500.0 * uprights + 400.0
    specs: list[BoardSpec] = []
    for row in range(shelves):
        y = 300.0 * (row + 1) + draw(lengths(-30, 30))
        tilt = draw(st.sampled_from([0.0, 0.0, 20.0, -35.0]))
        specs.append(_board(draw, f"shelf {row + 1}", ((-100.0, y), (width, y + tilt))))
    meetings: set[frozenset[str]] = set()
    for column in range(uprights):
        low, high = sorted(draw(st.lists(st.integers(0, shelves + 1), min_size=2, max_size=2, unique=True)))
        lean = math.tan(math.radians(draw(st.sampled_from([0.0, 0.0, 6.0, -9.0, 10.0]))))
        foot = 350.0 + 500.0 * column + draw(lengths(-40, 40))
        points = []
        for level in (low, high):
            y = _height(specs[level - 1], foot, lean) if 1 <= level <= shelves else 300.0 * level
            points.append((foot + lean * y, y))
        # On its centre-line: with both boards drawn on their far faces an end would stay short of the shelf.
        specs.append(replace(_board(draw, f"raking {column + 1}", (points[0], points[1])), line_is="centre"))
        meetings |= {
            frozenset((f"shelf {row}", f"raking {column + 1}")) for row in range(max(low, 1), min(high, shelves) + 1)
        }
    order = draw(st.permutations(specs))
    boards = in_file_order(tuple(drawn_the_other_way(spec) if draw(st.booleans()) else spec for spec in order))
    return Drawing(job=_job(draw, boards), meetings=frozenset(meetings))


ENDS: tuple[tuple[EndForm | None, EndForm | None], ...] = ((None, None), (None, "plumb"), ("square", "level"))


def _board(draw: DrawFn, name: str, line: tuple[tuple[float, float], tuple[float, float]]) -> BoardSpec:
    size = math.dist(*line)
    tapered = draw(st.integers(1, 4)) == 1
    taper = ((0.0, 24.0), (round(size / 2, 1), draw(lengths(23.5, 24.5)))) if tapered else ()
    return BoardSpec(
        name=name,
        timber=draw(st.sampled_from(["thin", "middling", "thick"])),
        line=line,
        line_is=draw(st.sampled_from(["centre", "centre", "centre", "left face", "right face"])),
        depth=draw(lengths(200, 350)),
        back=draw(st.sampled_from([0.0, 0.0, 12.5])),
        ends=draw(st.sampled_from(ENDS)),
        scribe=draw(st.sampled_from([(0.0, 0.0), (0.0, 15.0)])),
        thickness_at=taper,
    )


def _height(shelf: BoardSpec, foot: float, lean: float) -> float:
    """Where a raking line (foot + lean y, y) meets a shelf's line."""
    (x0, y0), (x1, y1) = shelf.line
    slope = (y1 - y0) / (x1 - x0)
    return (y0 + slope * (foot - x0)) / (1.0 - slope * lean)


def _job(draw: DrawFn, boards: tuple[BoardSpec, ...]) -> Job:
    coated = tuple(board.name for board in boards if draw(st.integers(1, 3)) == 1)
    return Job(
        file="piece.toml",
        text="",
        state="00000000",
        title="a piece",
        timbers={
            "thin": timber("thin", draw(lengths(12, 18))),
            "middling": timber("middling", 24.0),
            "thick": timber("thick", draw(lengths(27, 40))),
        },
        joints=JointRules(
            clearance=draw(st.sampled_from([None, 0.15, 0.3])),
            kinds={
                "cross halving": _asked(ratio=draw(st.sampled_from([None, 0.4]))),
                "housing": _asked(stop=draw(st.sampled_from([None, None, "front", "both"]))),
            },
        ),
        finish=Finish(system="demo", coats=2, film=0.04, before_assembly=coated, joint_zones="coated"),
        boards=boards,
    )


# ---- frames


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
    """

    points: tuple[tuple[int, int], ...]
    sides: tuple[Side, ...]
    size: str
    kind: str
    options: Mapping[str, object]
    through: Mapping[int, str] = field(default_factory=dict)
    crosser: tuple[tuple[float, float], tuple[float, float]] | None = None

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
            tables += ["[[board]]", 'name = "crosser"', 'timber = "crosser"', "depth = 260", "back = 3"]
            tables.append(f"line = {_written([list(point) for point in self.crosser])}")
        for corner, name in self.through.items():
            between = [side.name for side in self.beside(corner)]
            tables += ["[[joint]]", f"between = {_written(between)}", f'through = "{name}"']
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
def frames(draw: DrawFn, kinds: tuple[str, ...] = ("mitre", "butt"), *, level: bool = False) -> Frame:
    """A closed frame; `level` where all sides are as deep as each other."""
    kind = draw(st.sampled_from(kinds))
    fastening = draw(st.sampled_from(["none", "keys", "tongue"] if kind == "mitre" else ["none", "dowels", "screws"]))
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
        stop, play = _some(draw, lengths(5, 20)), _some(draw, lengths(0.05, 0.3))
        return {"strengthen": how, **_asked(tongue_stop=stop, tongue_play=play)}
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
