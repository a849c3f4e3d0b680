"""Guides: two rails for each set-up of a router across the face, straight or on a tilted bed; rests for drilling.

What it works out   How far apart the rails stand, where they stand for each cut, how far the cutter stands out, how
                    long the rails are, and for walls that lean the bed with its wedge. What is packed under a board
                    that is bored along its faces by a drill lying on its side.
Assumes             Base round or square, its cutter in the middle of front and back; each rail 30 wide (common
                    practice). A bed as thick as `shop.tools.BED`, with the lesser of the base's offsets low.
Source              Plane geometry (`rails`); what a cut wants of the router, from its own operation.
"""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from ...findings import NotChecked
from ...geometry.shapes import Bore, Prism
from ...piece.leaning import edges_open, from_the_wall, head
from ...piece.model import Board, Cut, Part, Piece
from ...piece.operations import Dial, WorkSort, leans
from ...sentences import Count, Several, say
from ...shop.tools import Process, cutters_of, routers_of, saws_of
from ...study.base import Scene, Study
from ...study.base import Work as Report
from ...study.registry import register
from ..setups.result import SetUp, SetUps
from .rails import EVEN, RAIL, Base, Bed, opening, passes, rest, runs
from .result import DrillRest, Guide, GuidedCut, Guides, TiltedBed
from .rough import Blade, lines, shared, turned

MOST_NAMED = 6  # set-ups in a line; more are counted
LEVEL = 1e-6  # of a direction: holes along the faces


@dataclass(frozen=True, slots=True, kw_only=True)
class GuidedSlot:
    """One cut as a guide sees it, in its board's frame.

    Attributes:
        upper, under: the marks of its walls on that face and on the other, along it, from the part's datum.
        lean: of the walls, above 0 to the far end at +c; 0 where they are square as printed.
        turned: whether its head leans RIGHT.
        length: across the board; `open_ends` how many of its ends run out at an edge.
        whole: of the board, over its long points.
        through: whether it comes out on the other face.
        sawn: how deep a saw runs in from the one edge that it opens to; 0 where it opens to both, or to none.
        left_first: whether the lower wall lies left, looking in from that edge with the face up.
    """

    key: str
    board: str
    face: int
    upper: tuple[float, float]
    under: tuple[float, float]
    lean: float
    turned: bool
    length: float
    open_ends: int
    whole: float
    through: bool
    sawn: float
    left_first: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class GuideAsked:
    """One set-up of a router: which tools, what they are, and its cuts."""

    setup: str
    router: str
    cutter: str
    assumed: bool
    base: Base
    width: float
    reach: float
    faces: int
    slots: tuple[GuidedSlot, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class GuidesValue:
    """What is looked at.

    Attributes:
        without: set-ups of a router that no two rails make.
        bored: set-ups of holes along the faces, and how high these run over the face side.
        drill: the first of the shop whose axis is said: its name and that; None for none.
        blade: the first saw; `saw` its name, "" where the shop file names none.
    """

    asked: tuple[GuideAsked, ...]
    without: tuple[str, ...]
    bored: tuple[tuple[str, float], ...]
    drill: tuple[str, float] | None
    blade: Blade
    saw: str


@register
class GuidesStudy(Study[GuidesValue, Guides]):
    """How far apart, and where, two rails stand for each set-up of a router."""

    name = "guides"
    asks = "the guides for the router"
    result = Guides
    needs = (SetUps,)

    def concerns(self, piece: Piece) -> bool:
        """A piece without parts has nothing to be cut."""
        return bool(piece.parts)

    def reads(self, scene: Scene) -> GuidesValue:
        """Copy the set-ups of routers with their cuts and the figures of their tools."""
        cuts = {cut.key: (part, cut) for part in scene.piece.parts for cut in part.cuts}
        routers = {one.name: one for one in routers_of(scene.shop)}
        cutters = {one.name: one for one in cutters_of(scene.shop)}
        asked, without = [], []
        for setup in scene.earlier(SetUps).all:
            if setup.process is not Process.ROUTER or not setup.tools:
                continue
            wide = setup.set_to(Dial.WIDTH)
            router, cutter = routers[setup.tools[0]], cutters[setup.tools[1]]
            slots = tuple(_slots(setup, cuts))
            if wide is None or wide.mm is None or setup.reach is None or cutter.shape != "straight" or not slots:
                without.append(setup.name)
                continue
            if cutter.diameter > wide.mm + EVEN:  # by less than a size as sold: its base would not go between the rails
                without.append(setup.name)
                continue
            asked.append(
                GuideAsked(
                    setup=setup.name,
                    router=router.name,
                    cutter=cutter.name,
                    assumed=setup.assumed,
                    base=Base(offsets=router.offsets, cutter=cutter.diameter),
                    width=wide.mm,
                    reach=setup.reach,
                    faces=setup.faces,
                    slots=slots,
                )
            )
        saw = saws_of(scene.shop)[0]
        drills = ((one.name, one.axis) for one in scene.shop.drills if one.axis is not None)
        return GuidesValue(
            asked=tuple(asked),
            without=tuple(without),
            bored=tuple(_bored(scene.earlier(SetUps), cuts)),
            drill=next(drills, None),
            blade=Blade(kerf=saw.kerf, drift=saw.drift, lean=saw.lean, leaves=saw.leaves),
            saw=saw.name if scene.shop.saws else "",
        )

    def run(self, value: GuidesValue, work: Report) -> Guides:
        """One guide for each."""
        drill, axis = value.drill or ("", None)
        deepest = max((slot.sawn for asked in value.asked for slot in asked.slots), default=0.0)
        return Guides(
            all=tuple(_guide(asked, value.blade) for asked in value.asked),
            without=value.without,
            blade=value.saw,
            leaves=(value.blade.leaves, value.blade.most(deepest)),
            turn=turned(value.blade, deepest),
            rests=tuple(
                DrillRest(setup=name, drill=drill, axis=axis, up=up, packing=None if axis is None else rest(axis, up))
                for name, up in value.bored
            ),
        )

    def not_checked(self, value: GuidesValue, result: Guides) -> tuple[NotChecked, ...]:
        """Work of a router that wants something else than two rails."""
        if not value.without:
            return ()
        names = value.without if len(value.without) <= MOST_NAMED else (str(len(value.without)),)
        what = say("guides for {}", Several(names) if names == value.without else Count(len(value.without), "set-up"))
        return (NotChecked(study=self.name, what=what, why="two rails across the face do not make them"),)


def _slots(setup: SetUp, cuts: Mapping[str, tuple[Part, Cut]]) -> Iterator[GuidedSlot]:
    """The cuts of a set-up that is worked across the face; none of any other."""
    if setup.work is not WorkSort.ACROSS:
        return
    for key in setup.cuts:
        part, cut = cuts[key]
        prism = next((shape for shape in cut.shapes if isinstance(shape, Prism)), None)
        if prism is not None:
            yield _slot(part, part.board, cut, prism)


def _bored(setups: SetUps, cuts: Mapping[str, tuple[Part, Cut]]) -> Iterator[tuple[str, float]]:
    """Set-ups of holes that run along the faces, from an edge or an end; those of one set-up run equally high."""
    for setup in setups.all:
        if setup.process is not Process.DRILL:
            continue
        part, cut = cuts[setup.cuts[0]]
        bore = next((shape for shape in cut.shapes if isinstance(shape, Bore)), None)
        if bore is not None and abs(bore.direction[1]) < LEVEL:
            board = part.board
            yield setup.name, board.thickness_at(bore.start[0]) / 2 - board.face_side * bore.start[1]


def _slot(part: Part, board: Board, cut: Cut, prism: Prism) -> GuidedSlot:
    """Its walls by where they cross the middle of the board's thickness: those of a prism are parallel."""
    lean, face = cut.figures.lean if leans(cut) else 0.0, cut.face or board.face_side
    rise = math.tan(math.radians(lean))
    crossed = [x - y * rise for x, y, *_ in prism.outline]
    walls = min(crossed), max(crossed)

    length, open_ends = min(prism.high, board.depth) - max(prism.low, 0.0), sum(edges_open(prism, board))

    def marks(face: int) -> tuple[float, float]:
        low, high = (_on_face(board, wall, face * rise) - part.zero for wall in walls)
        return low, high

    return GuidedSlot(
        key=cut.key,
        board=part.id,
        face=face,
        upper=marks(face),
        under=marks(-face),
        lean=lean,
        turned=head(lean, prism, board) == "RIGHT",
        length=length,
        open_ends=open_ends,
        whole=part.length,
        through=not cut.face,
        sawn=length if not cut.face and open_ends == 1 else 0.0,
        left_first=(face > 0) != from_the_wall(prism, board),
    )


def _on_face(board: Board, middle: float, rise: float) -> float:
    """Where a wall comes out on a face: a taper is so slight that looking twice finds it to a thousandth."""
    at = middle
    for _ in range(2):
        at = middle + rise * board.thickness_at(at) / 2
    return at


# --- one guide -----------------------------------------------------------------------------------


def _guide(asked: GuideAsked, blade: Blade) -> Guide:
    base, width, first = asked.base, asked.width, asked.slots[0]
    bed = Bed.least(base, abs(first.lean), width) if first.lean else None
    longest = max(asked.slots, key=lambda slot: runs(base, slot.length, slot.open_ends))
    return Guide(
        setup=asked.setup,
        router=asked.router,
        cutter=asked.cutter,
        assumed=asked.assumed,
        diameter=base.cutter,
        offsets=base.offsets if bed is None else (bed.low, bed.high),
        width=width,
        opening=opening(base, width),
        rail=RAIL,
        passes=passes(base, width),
        stick_out=asked.reach if bed is None else bed.stick_out(asked.reach),
        faces=asked.faces,
        run=runs(base, longest.length, longest.open_ends),
        stop=None if all(slot.open_ends == 2 for slot in asked.slots) else base.ahead,
        bed=None if bed is None else _bed(bed, first),
        cuts=tuple(
            replace(_straight(slot, base) if bed is None else _tilted(slot, bed), saw=_sawn(slot, blade))
            for slot in asked.slots
        ),
    )


def _bed(bed: Bed, slot: GuidedSlot) -> TiltedBed:
    return TiltedBed(
        lean=bed.lean,
        head="RIGHT" if slot.turned else "LEFT",
        thick=bed.thick,
        near=bed.near,
        low_rail=bed.near - bed.low,
        marks=bed.marks,
        long=bed.long,
        wedge=bed.wedge,
        beyond=bed.beyond,
    )


def _sawn(slot: GuidedSlot, blade: Blade) -> tuple[float, ...] | None:
    """Rough cuts first, where the slot runs in from an edge."""
    if not slot.sawn:
        return None
    return lines(shared((slot.upper, slot.under)), blade, slot.sawn, left_first=slot.left_first)


def _straight(slot: GuidedSlot, base: Base) -> GuidedCut:
    """The datum rail stands on the datum's side of the slot, always."""
    near, far = slot.upper
    edge = near - base.offsets[0]
    ends = ((-1, edge - RAIL < 0.0), (1, far + base.offsets[1] + RAIL > slot.whole))
    return GuidedCut(
        key=slot.key,
        board=slot.board,
        face=slot.face,
        near=near,
        far=far,
        under=None,
        edge=edge,
        datum_side=True,
        offcuts=tuple(end for end, lacks in ends if lacks),
    )


def _tilted(slot: GuidedSlot, bed: Bed) -> GuidedCut:
    """A slot leans away from the thin edge as it goes down: so the thin edge stands where its head is."""
    by_datum = slot.under[0] > slot.upper[0]
    near, far = slot.upper if by_datum else slot.upper[::-1]
    under = slot.under if by_datum else slot.under[::-1]
    way = -1.0 if by_datum else 1.0  # from the slot to the thin edge
    edge, foot = near + way * bed.marks[0], far - way * bed.beyond
    low, high = sorted((edge, foot))
    ends = ((-1, low < 0.0), (1, high > slot.whole))
    return GuidedCut(
        key=slot.key,
        board=slot.board,
        face=slot.face,
        near=near,
        far=far,
        under=under if slot.through else None,
        edge=edge,
        datum_side=by_datum,
        offcuts=tuple(end for end, lacks in ends if lacks),
    )
