"""Hypothesis strategies of layouts: pairs of boards that meet, and whole pieces.

Closed frames are in `property/drawn_frames.py`, boards longer than their stock in `property/long_boards.py`.

A drawn pair says in plain numbers what it is (thicknesses, depths, the angle, what was asked), makes the
`Job` that a maker's file would have given, and leaves it to the tests to work out what must come of it.
Here are the boards and how they may lie. Each kind's own pairs stand beside its test, where `joints/kinds.py`
finds them.

Every pair may lie anywhere, turned by any heading, drawn from either end, on its centre-line or a face.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import cache
from typing import Any

from hypothesis import strategies as st
from hypothesis.strategies import DrawFn, SearchStrategy

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
        glues: whether the kind is glued where the job does not say.
    """

    kind: str
    one: Bar
    other: Bar
    place: tuple[float, float]
    heading: float
    angle: float
    options: Mapping[str, Any]
    front: str = ""
    film: float = 0.0
    sanded: float = 0.0
    glues: bool = True

    def mounted(self, bar: Bar) -> float:
        """Thickness as put together."""
        return bar.thickness - 2 * self.sanded

    @property
    def glued(self) -> bool:
        """As asked; left out, as the kind has it."""
        return bool(self.options.get("glued", self.glues))

    @property
    def play(self) -> Any:
        """The clearance asked for, or common practice: 0.10 glued, 0.15 dry."""
        return self.options.get("clearance", 0.10 if self.glued else 0.15)

    def film_on(self, bar: Bar) -> float:
        """Where the joint is: glue does not hold on film, so what is glued is bare."""
        return self.film if bar.coated and not self.glued else 0.0

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
            when="before glue" if bar.coated else None,
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


@cache
def lengths(low: float, high: float) -> SearchStrategy[float]:
    """Lengths in hundredths, as a maker would type them. Made once, as those below: what draws many asks each time."""
    return st.integers(round(low * 100), round(high * 100)).map(lambda count: count / 100)


@cache
def thicknesses() -> SearchStrategy[float]:
    return lengths(12.0, 40.0)


@cache
def angles() -> SearchStrategy[float]:
    """Between lines, 30 to 150: square, or at least half a degree off it, so that no wall is nearly parallel."""
    raked = st.integers(3000, 15000).map(lambda count: count / 100).filter(lambda angle: abs(angle - 90.0) >= 0.5)
    return st.one_of(raked, raked, raked, st.sampled_from([30.0, 60.0, 90.0, 98.13, 150.0]))


@cache
def headings() -> SearchStrategy[float]:
    return st.one_of(st.sampled_from([0.0, 0.0, 90.0, 180.0]), lengths(0.0, 359.99))


@cache
def places() -> SearchStrategy[tuple[float, float]]:
    return st.tuples(lengths(-3000, 3000), lengths(-500, 3000))


def perhaps(draw: DrawFn, choice: SearchStrategy[float], share: int = 2) -> float | None:
    """A number, or in one of `share` cases none at all."""
    return None if draw(st.integers(1, share)) == 1 else draw(choice)


def _depths(draw: DrawFn) -> tuple[tuple[float, float], tuple[float, float]]:
    """(back, depth) of two boards: flush, nearly flush, set back or proud at either edge."""
    step = st.one_of(st.just(0.0), st.sampled_from([0.5, 0.9, -0.5]), lengths(2, 60), lengths(-60, -2))
    back, depth = draw(lengths(60, 90)), draw(lengths(100, 400))
    other_back = back + draw(step)
    other_front = max(back + depth + draw(step), other_back + 80.0)
    return (back, max(depth, other_back + 80.0 - back)), (other_back, round(other_front - other_back, 6))


def _drawn(draw: DrawFn) -> dict[str, Any]:
    return {
        "coated": draw(st.booleans()),
        "drawn_back": draw(st.booleans()),
        "line_is": draw(st.sampled_from(["centre", "centre", "left face", "right face"])),
    }


def pair_of(
    draw: DrawFn,
    kind: str,
    boards: tuple[Bar, Bar],
    angle: float,
    options: Mapping[str, object],
    *,
    front: str = "",
    glues: bool = True,
) -> Pair:
    """Two boards at an angle to either hand, anywhere, turned by any heading, with film or sanded."""
    return Pair(
        kind=kind,
        one=boards[0],
        other=boards[1],
        place=draw(places()),
        heading=draw(headings()),
        angle=angle if draw(st.booleans()) else -angle,
        options=options,
        front=front,
        film=draw(st.sampled_from([0.0, 0.08, 0.12])),
        sanded=draw(st.sampled_from([0.0, 0.0, 0.1])),
        glues=glues,
    )


def asked_options(**options: object) -> dict[str, object]:
    return {name: value for name, value in options.items() if value is not None}


# ---- boards that meet


def through_each_other(draw: DrawFn) -> tuple[Bar, Bar]:
    """Two boards that run through each other, called "raking 2" and "raking 10"."""
    depths = _depths(draw)
    names = draw(st.permutations(["raking 2", "raking 10"]))
    one, other = (
        Bar(
            name=name,
            thickness=draw(thicknesses()),
            back=back,
            depth=depth,
            before=draw(lengths(160, 400)),
            after=draw(lengths(160, 400)),
            **_drawn(draw),
        )
        for name, (back, depth) in zip(names, depths, strict=True)
    )
    return one, other


def end_on_a_face(draw: DrawFn) -> tuple[Bar, Bar, float]:
    """A board that ends on an upright, the upright, and the angle between them.

    It is drawn to anywhere in the upright's thickness, or 1 short of it or past it.
    """
    depths = _depths(draw)
    t_one, t_other = draw(thicknesses()), draw(thicknesses())
    angle = draw(angles())
    past = draw(lengths(-0.9, t_other + 0.9)) - t_other / 2  # of the end past the other's centre-line, square to it
    one = Bar(
        name=draw(st.sampled_from(["shelf", "wing"])),
        thickness=t_one,
        back=depths[0][0],
        depth=depths[0][1],
        before=past / math.sin(math.radians(angle)),
        after=draw(lengths(200, 500)),
        **_drawn(draw),
    )
    other = Bar(
        name="upright",
        thickness=t_other,
        back=depths[1][0],
        depth=depths[1][1],
        before=draw(lengths(200, 400)),
        after=draw(lengths(200, 400)),
        **_drawn(draw),
    )
    return one, other, angle


def at_a_corner(draw: DrawFn) -> tuple[Bar, Bar]:
    """Two boards that start at one point, or within 1 of each other, called "box 1" and "box 2"."""
    depths = _depths(draw)
    names = draw(st.permutations(["box 1", "box 2"]))
    one, other = (
        Bar(
            name=name,
            thickness=draw(thicknesses()),
            back=back,
            depth=depth,
            before=draw(st.sampled_from([0.0, 0.0, 0.3, -0.4])),
            after=draw(lengths(220, 400)),
            **{**_drawn(draw), "line_is": "centre"},  # lines on faces meet at another point than the centre-lines
        )
        for name, (back, depth) in zip(names, depths, strict=True)
    )
    return one, other


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
                "cross halving": asked_options(ratio=draw(st.sampled_from([None, 0.4]))),
                "housing": asked_options(stop=draw(st.sampled_from([None, None, "front", "both"]))),
            },
        ),
        finish=Finish(system="demo", coats=2, film=0.04, joint_zones="coated"),
        boards=tuple(replace(spec, when="before glue") if spec.name in coated else spec for spec in boards),
    )
