"""Where a piece is screwed to its wall, and the chain of each screw: head, grip, gap, lining, hold.

Worked example (the record wall): a board 300 deep, bored 243 from its front edge, leaves 57 of grip; with the
countersunk head's 3, 5 of gap, 25 of lining and 30 in the stud these are the 120 of a wood screw 5 x 120. On a flat
wall the gap is 0 and 35 is held.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from ....geometry.shapes import Bore
from ....geometry.views import Surface
from ....joints.common import PLUG
from ....joints.long_screw import anchor_words
from ....joints.screws.chain import Plan, plan_of
from ....joints.screws.wall import is_studded
from ....piece.model import WALL, Cut, Joint
from ....studies.driving.result import Driving
from ....trade.screws import Screw, figure
from ...looks import Desk
from ...naming import LEAST, position

BEYOND = "gap, lining and hold"  # beyond the board, where it is not known how much of it is what


@dataclass(frozen=True, slots=True, kw_only=True)
class Chain:
    """One screw and the hole it stands in, all along it from the front edge into the wall.

    Attributes:
        plan: the chain as the joint kind works it out.
        thick: of the board.
        wood: of the board, and of a plug in it.
    """

    plan: Plan
    thick: float
    wood: str

    @property
    def screw(self) -> Screw:
        """As sold."""
        return self.plan.screw

    @property
    def head_high(self) -> float:
        """Height of the screw's head."""
        return self.screw.head_height

    @property
    def head_counts(self) -> float:
        """What of the screw's length its head is: a countersunk head's height, else 0."""
        return self.screw.length - self.screw.under_head

    @property
    def opening(self) -> float:
        """Diameter at the front edge: the counterbore's, the hole's where there is none."""
        return self.plan.counterbore if self.plan.deep else self.plan.hole

    @property
    def side_wall(self) -> float:
        """Wood beside the counterbore."""
        return (self.thick - self.plan.counterbore) / 2

    @property
    def plug(self) -> float:
        """Depth of the plug, 0 for none."""
        return min(PLUG, self.plan.deep) if self.plan.plugged else 0.0

    @property
    def anchored(self) -> bool:
        """Whether an anchor takes it, known or not."""
        return bool(self.plan.asked) or self.screw.kind == "machine"

    @property
    def anchor(self) -> str:
        """The anchor as it is bought; "" for none."""
        return anchor_words(self.plan) if self.anchored else ""

    @property
    def pilot(self) -> float | None:
        """Hole in the wall's timber; None for what goes into an anchor."""
        known = None if self.anchored else figure(self.screw, "pilot")
        return known.value if known else None

    def links(self) -> list[tuple[str, float]]:
        """What stands beyond the board, from the tip on; all in one where gap or lining is not known."""
        plan = self.plan
        if plan.held is None:
            return [(BEYOND, plan.beyond)]
        return [("held", plan.held), ("lining", plan.lining or 0.0), ("gap", plan.gap or 0.0)]


@dataclass(frozen=True, slots=True, kw_only=True)
class Point:
    """One place where the piece is screwed to the wall.

    Attributes:
        number: on the sheet, from the lowest board up, from left to right.
        board: its name; `cut` the number of the hole on the board's own sheet.
        along: from the board's datum end, on its edges.
        x, y: on the wall, in the job's own set-out.
        stud: centre of the nearest stud, None where none is known.
        joint: the key of the joint that it belongs to.
    """

    number: int
    board: str
    cut: int | None
    along: float
    x: float
    y: float
    stud: float | None
    chain: Chain
    joint: tuple[str, str] = ("", "")

    @property
    def in_a_stud(self) -> bool:
        """Whether its screw goes into a stud, known or to be found."""
        return not self.chain.anchored and (self.stud is not None or is_studded(self.chain.plan.into))


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
        joint=cut.joint or ("", ""),
    )


def chain_of(joint: Joint) -> Chain | None:
    """The chain of a fixing's screws; None for a fixing that has none."""
    plan = plan_of(joint)
    return None if plan is None else Chain(plan=plan, thick=joint.meeting.a.thickness, wood=joint.meeting.a.species)


def chains(found: Sequence[Point]) -> list[tuple[Chain, list[Point]]]:
    """Points whose screws stand in the same chain together."""
    groups: dict[Chain, list[Point]] = {}
    for point in found:
        groups.setdefault(point.chain, []).append(point)
    return list(groups.items())


def driver_of(desk: Desk, chain: Chain, some: Sequence[Point]) -> tuple[float | None, float]:
    """The driver bit for screws that stand in a chain, and what must be free before their mouths.

    As the study of their driving has it, by what the shop owns; where it has none, the next that is sold. None where
    none that is sold is long enough.
    """
    found, keys = desk.book.found(Driving), {point.joint[0] for point in some}
    for screw in found.screws if found is not None else ():
        if screw.fixing in keys:
            return (None if screw.bit_from == "none sold" else screw.bit), screw.line
    return chain.plan.driver, chain.plan.clear


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
    if left > LEAST and least >= -LEAST:
        return Zero(0.0, f"the job's own zero, {position(left)} left of the piece")
    return Zero(left, "the left end of the piece")


def into_words(point: Point, start: Zero) -> str:
    """What the screw goes into there: "stud at 1400", "4 right of stud 1000" (of its centre), an anchor."""
    if point.chain.anchored:
        return f"anchor {point.chain.anchor}"
    if point.stud is None:
        return "stud: find it" if is_studded(point.chain.plan.into) else point.chain.plan.into or "timber"
    off, stud = point.x - point.stud, position(point.stud - start.x)
    if abs(off) <= LEAST:
        return f"stud at {stud}"
    return f"{position(abs(off))} {'right' if off > 0 else 'left'} of stud {stud}"
