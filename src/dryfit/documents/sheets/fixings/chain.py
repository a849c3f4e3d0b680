"""Where a piece is screwed to its wall, and the chain of each screw: grip, gap, lining, hold.

Worked example (the record wall): a board 300 deep, bored 240 from its front edge, leaves 60 of grip; 5 of gap, 25 of
lining and 30 in the stud are the 120 of a wood screw 5 x 120. On a flat wall the gap is 0 and 35 is held.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from ....geometry.shapes import Bore
from ....geometry.views import Surface
from ....joints.common import PLUG
from ....joints.long_screw import BY_HAND, ENTRY, PER_100
from ....piece.model import WALL, Cut, Joint
from ....trade.screws import ENGAGEMENT, Screw, figure, read_screw
from ...looks import Desk
from ...naming import position

NEAR = 0.05  # from a stud's centre: on it


@dataclass(frozen=True, slots=True, kw_only=True)
class Chain:
    """One screw and the hole it stands in, all along it from the front edge into the wall.

    Attributes:
        width, thick: of the board.
        counterbore, hole: diameters; `deep` is how deep the counterbore is, 0 for none.
        head, head_high: of the screw's head, or the washer's diameter.
        washer: how thick it is, 0 for none; `plugged` whether there is a plug.
        gap: between board and lining where the wall is worst.
        lining: what hides the wall's structure.
        hold: wanted in stud or anchor.
        hole_from: where the hole's diameter comes from.
        drilled: "guided" or "by hand".
        into, anchor: what the wall is, and what takes a machine screw.
    """

    screw: Screw
    width: float
    thick: float
    counterbore: float
    hole: float
    deep: float
    head: float
    head_high: float
    washer: float
    plugged: bool
    gap: float
    lining: float
    hold: float
    hole_from: str
    drilled: str
    into: str
    anchor: str

    @property
    def grip(self) -> float:
        """Wood under the head."""
        return self.width - self.deep

    @property
    def opening(self) -> float:
        """Diameter at the front edge: the counterbore's, the hole's where there is none."""
        return self.counterbore if self.deep else self.hole

    @property
    def held(self) -> float:
        """In stud or anchor where the gap is worst; less than nothing where the screw is too short."""
        return self.screw.length - self.washer - self.grip - self.gap - self.lining

    @property
    def side_wall(self) -> float:
        """Wood beside the counterbore."""
        return (self.thick - self.counterbore) / 2

    @property
    def wander(self) -> float:
        """How far the bit may stray over the counterbore's depth (common practice)."""
        return ENTRY + self.per_100 * self.deep / 100

    @property
    def per_100(self) -> float:
        """How far it may stray in 100 of depth."""
        return PER_100 if self.drilled == "guided" else BY_HAND

    @property
    def plug(self) -> float:
        """Depth of the plug, 0 for none."""
        return min(PLUG, self.deep) if self.plugged else 0.0

    @property
    def pilot(self) -> float | None:
        """Hole in the wall's timber; None for what goes into an anchor."""
        known = figure(self.screw, "pilot") if self.screw.kind == "wood" else None
        return known.value if known else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Point:
    """One place where the piece is screwed to the wall.

    Attributes:
        number: on the sheet, from the lowest board up, from left to right.
        board: its name; `cut` the number of the hole on the board's own sheet.
        along: from the board's datum end, on its edges.
        x, y: on the wall, in the job's own set-out.
        stud: centre of the nearest stud, None where none is known.
    """

    number: int
    board: str
    cut: int | None
    along: float
    x: float
    y: float
    stud: float | None
    chain: Chain


def points(desk: Desk) -> list[Point]:
    """All of them, numbered."""
    found: list[Point] = []
    for joint in desk.book.piece.joints:
        chain = chain_of(joint) if joint.meeting.b.body == WALL else None
        if chain is not None:
            found += [_point(desk, chain, cut) for cut in joint.cuts if isinstance(cut.shapes[0], Bore)]
    found.sort(key=lambda point: (round(point.y, 1), point.x))
    return [replace(point, number=number) for number, point in enumerate(found, start=1)]


def _point(desk: Desk, chain: Chain, cut: Cut) -> Point:
    look = desk.looks[cut.body]
    bore = cut.shapes[0]
    assert isinstance(bore, Bore), "asked before"
    x, y, _ = look.part.board.frame.place(bore.start)
    studs = desk.book.job.wall.studs
    along = look.position(cut, Surface.WALL)
    return Point(
        number=0,
        board=cut.body,
        cut=look.numbers.get(cut.key),
        along=bore.start[0] - look.part.zero if along is None else along,
        x=x,
        y=y,
        stud=min(studs, key=lambda stud: abs(stud - x)) if studs else None,
        chain=chain,
    )


def chain_of(joint: Joint) -> Chain | None:
    """The chain of a fixing's screws; None for a fixing that has none."""
    options: Mapping[str, object] = dict(joint.options)
    screw = read_screw(str(options.get("screw", "")))
    first = next((cut for cut in joint.cuts if cut.figures.deep is not None), None)
    if screw is None or first is None:
        return None
    side = joint.meeting.a
    washer, own = bool(options.get("washer")), options.get("hole_diameter") is not None
    hole = figure(screw, f"hole_{options.get('hole', 'medium')}")
    return Chain(
        screw=screw,
        width=side.front - side.back,
        thick=side.thickness,
        counterbore=first.figures.across or 0.0,
        hole=first.figures.on_face or 0.0,
        deep=first.figures.deep or 0.0,
        head=_size(screw, "washer" if washer else "head"),
        head_high=_size(screw, "head_height"),
        washer=_size(screw, "washer_thick") if washer else 0.0,
        plugged=bool(options.get("plugged")),
        gap=_number(options.get("hollow")) + max(side.back, 0.0),
        lining=_number(options.get("lining")),
        hold=_number(options.get("engagement")) or ENGAGEMENT * screw.diameter,
        hole_from="as asked" if own or hole is None else hole.cited,
        drilled=str(options.get("drilled", "guided")),
        into=str(options.get("into", "")),
        anchor=str(options.get("anchor", "")),
    )


def _size(screw: Screw, name: str) -> float:
    known = figure(screw, name)
    return known.value if known else screw.diameter


def _number(value: object) -> float:
    return float(value) if isinstance(value, (int, float)) else 0.0


def chains(found: Sequence[Point]) -> list[tuple[Chain, list[Point]]]:
    """Points whose screws stand in the same chain together."""
    groups: dict[Chain, list[Point]] = {}
    for point in found:
        groups.setdefault(point.chain, []).append(point)
    return list(groups.items())


# --- the wall's own coordinates --------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Zero:
    """Where x is counted from on the wall: its place in the job's set-out, and what is there, in words."""

    x: float
    says: str


def zero(desk: Desk) -> Zero:
    """The wall's left end where the job knows it, else the job's own zero, else the left end of the piece."""
    wall, left = desk.book.job.wall, desk.bounds[0]
    if wall.left is not None:
        return Zero(wall.left, "the left end of the wall")
    least = min([left, *wall.studs, *(point.x for point in points(desk))])
    if left > NEAR and least >= -NEAR:
        return Zero(0.0, f"the job's own zero, {position(left)} left of the piece")
    return Zero(left, "the left end of the piece")


def into_words(point: Point, start: Zero) -> str:
    """What the screw goes into there: "stud at 1400", "4 right of stud 1000" (of its centre), an anchor."""
    if point.chain.screw.kind == "machine" or point.chain.anchor:
        return f"anchor {point.chain.anchor or f'for M{point.chain.screw.diameter:g}'}"
    if point.stud is None:
        return "stud: find it" if "stud" in point.chain.into.lower() else point.chain.into or "timber"
    off, stud = point.x - point.stud, position(point.stud - start.x)
    if abs(off) <= NEAR:
        return f"stud at {stud}"
    return f"{position(abs(off))} {'right' if off > 0 else 'left'} of stud {stud}"
