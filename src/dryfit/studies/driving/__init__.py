"""Driving: can every screw into the wall be driven, at which step, and who sees where it went in?

What it works out   For each screw the straight line of bit and drill in front of its mouth, and what stands in it from
                    which step of the order on; the step at which it is driven, as early as its board is there or as the
                    job says; whether it is left loose until the first board has slid into what it holds, and tightened
                    then. For each `[[eye]]` which mouths, plugs and open notches are seen, and what hides the others;
                    of each mouth and plug what lies against it, and from which sides of the piece it is seen.
Assumes             Boards stand where they will stand, rigid, at their finished sizes; they come in the order that
                    is worked out, and none goes again. The line is straight: no angled drive, no flexible shaft.
                    The drill needs 70 across and is 200 long behind its bit; the hand holds it to one side, on any
                    of twelve. Where a drill has no room, an angle driver of the shop's is taken. Rays are straight, and
                    nothing stands in the room but the piece. On the bench the piece can be turned to suit the driver.
Source              max(bit, screw, (bit - depth) + travel + 200), 70 across, driver bits as sold and the 30 that stay
                    outside: common practice. The hand's room (`hands`): from memory. Left loose until the
                    first element is in: a base halved for it binds at
                    six tenths of what a level of 0.5 mm/m leaves unseen (worked from the play of its joints). Rays and
                    lines: geometry.
"""

from collections.abc import Callable, Iterator
from typing import Annotated

from pydantic import Field

from ...asking import unanswered
from ...findings import Finding, NotChecked
from ...geometry.bodies import PartShape
from ...geometry.shapes import Bore, Prism, corners
from ...job.model import Fixing
from ...job.options import Each, Options, Quantity, Within, given, values_of
from ...job.tables import Many
from ...joints.screws.chain import DRILL, Plan, plan_of
from ...piece.bores import LEAST
from ...piece.meetings import fixing_called
from ...piece.model import Cut, Joint, Part, Piece
from ...piece.parts import stock_of
from ...piece.room import has_wall, is_floor
from ...places import Path, Where
from ...sentences import Name, say
from ...shop.model import Shop
from ...study.base import Scene, Study, Work
from ...study.registry import register
from ...trade.screws import CHUCK, DRIVER_BITS, Screw, next_of
from ..hanging.result import Hanging
from ..order.result import Order
from .joined import bench_steps, joined_screws
from .later import carried_as
from .lines import Site, driven, room_ends
from .outside import Outside
from .result import Driving, Eye, From, ScrewStands
from .sights import looked_at, open_part, sights, surface_at
from .standing import steps_on_wall
from .telling import CODES, NEVER, STEP, about_eyes, about_joined, about_screws
from .value import AngleDriver, DrivingValue, JoinedValue, MouthValue, RoomAlong, ScrewValue, Target
from .wood import ConvexBody, bodies

FROM_END, APART = 10.0, 7.0  # times the diameter, along the grain (EN 1995-1-1, 8.7.2): a screw is moved no nearer


class EyeTable(Options):
    """A point from which the piece is looked at, such as a door, a sofa, a stair."""

    name: Annotated[str, Field(min_length=1, max_length=100)] = Field(description="What is there.")
    at: Annotated[
        tuple[Quantity, Quantity, Quantity], Each((Within(what="x"), Within(what="y"), Within(above=0, what="z")))
    ] = Field(description="Where the eye is: x along the wall, y up, z out of the wall.")
    hidden: bool = Field(False, description="Whether nothing of mouths, plugs and open notches is to be seen from it.")


EYE = Many("eye", EyeTable)


@register
class DrivingStudy(Study[DrivingValue, Driving]):
    """Whether every screw into the wall can be driven, and what eyes see of it."""

    name = "driving"
    order = 47
    version = 4
    codes = CODES
    untried = (NEVER, STEP)
    asks = "driving the screws"
    result = Driving
    needs = (Order, Hanging)
    owns = (EYE,)
    guards = True

    def concerns(self, piece: Piece) -> bool:
        """What is screwed to a wall or together, or looked at."""
        looked = piece.job is not None and piece.job.tables.get(EYE.word)
        return piece.is_fixed or bool(looked) or any(cut.clear > 0.0 for joint in piece.joints for cut in joint.cuts)

    def reads(self, scene: Scene) -> DrivingValue:
        """Copy the parts' shapes, the steps, screws and eyes."""
        piece, wall = scene.piece, scene.job.wall
        eyes = tuple(
            Eye(name=eye.name, at=eye.at, hidden=eye.hidden, path=EYE.at(number))
            for number, eye in enumerate(scene.many(EYE))
        )
        boards = frozenset(piece.board_by_name)
        screws = tuple(_screws(scene))
        made = {screw.fixing for screw in screws}
        lows = [part.board.frame.place((a, 0.0, 0.0))[1] for part in piece.parts for a in part.long]
        named = (("left", wall.left), ("right", wall.right), ("ceiling", wall.ceiling))
        return DrivingValue(
            parts=tuple(_shape(part) for part in piece.parts if part.short[1] > part.short[0]),
            steps=steps_on_wall(
                scene.earlier(Order),
                scene.earlier(Hanging),
                (joint.key for joint in piece.joints if boards.issuperset(joint.key)),
                frozenset(screw.board for screw in screws),
            ),
            screws=screws,
            unmade=tuple((one.name, one.path) for one in scene.job.fixings if one.name not in made),
            eyes=eyes,
            targets=tuple(_targets(scene)) if eyes else (),
            floor=0.0 if is_floor(wall, lows) else None,
            ceiling=wall.ceiling,
            left=wall.left,
            right=wall.right,
            room=tuple(name for name, place in named if place is None),
            bench=bench_steps(scene.earlier(Order), scene.earlier(Hanging)),
            joined=tuple(_joined(scene)),
            mouths=tuple(mouth for joint in piece.joints for mouth in _mouths(scene, joint)),
            walled=has_wall(wall, fixed=piece.is_fixed),
            carried=tuple(carried_as(scene.piece, scene.job, scene.earlier(Order))),
        )

    def run(self, value: DrivingValue, work: Work) -> Driving:
        """Look along every screw's axis, then from every eye."""
        every = bodies(value.parts)
        site, own = Site(value, every), dict[str, list[ConvexBody]]()
        for body in every:
            own.setdefault(body.part, []).append(body)
        work.step(0.2, "wood")
        screws = tuple(driven(site, screw, own) for screw in value.screws if screw.board in site.comes)
        work.step(0.6, "screws")
        outside = Outside(value, every, room_ends(value))
        return Driving(
            steps=value.steps,
            screws=screws,
            eyes=value.eyes,
            sights=tuple(sights(value.eyes, value.targets, every)),
            room=value.room,
            bench=value.bench,
            joined=tuple(joined_screws(value)),
            mouths=tuple(map(outside.seen, value.mouths)),
        )

    def findings(self, value: DrivingValue, result: Driving) -> tuple[Finding, ...]:
        """Screws that cannot be driven, or not at the step given; those to be driven early; what eyes see."""
        return (*about_screws(value, result), *about_joined(value, result), *about_eyes(value, result))

    def not_checked(self, value: DrivingValue, result: Driving) -> tuple[NotChecked, ...]:
        """Screws of which no step is known: none is made, there is no order, or their board never comes to the wall."""
        why: str = "" if result.screws else "no screw into the wall is made"
        if value.screws and not value.steps:
            why = "no order of assembly is worked out"
        if why and not (value.eyes or value.joined):
            return (unanswered(self.name, why),)
        there = {screw.board for screw in result.screws}
        left = {screw.fixing: (screw.board, screw.path) for screw in value.screws if screw.board not in there}
        found = [
            self._open(name, why or "its board comes to the wall at no step", board, path)
            for name, (board, path) in left.items()
        ]
        found += [self._open(name, "no screw of it is made", "", path) for name, path in value.unmade]
        return tuple(found)

    def _open(self, fixing: str, why: str, board: str, path: Path) -> NotChecked:
        return NotChecked(
            study=self.name,
            what=say("whether the screws of {} can be driven", Name(fixing)),
            why=why,
            where=Where(boards=(board,) if board else (), fixing=fixing, path=path or None),
        )


def _shape(part: Part) -> PartShape:
    stock = stock_of(part)
    shapes = tuple(shape for cut in part.cuts for shape in cut.shapes)
    return PartShape(name=part.id, frame=part.board.frame, outline=stock.outline, depth=stock.depth, shapes=shapes)


# ---- screws


def _screws(scene: Scene) -> Iterator[ScrewValue]:
    """Every screw into the wall that is made, by its fixing."""
    fixings = {fixing.name: fixing for fixing in scene.job.fixings}
    for joint in scene.piece.joints:
        made = plan_of(joint) if joint.meeting.form == "fixing" else None
        fixing = fixings.get(joint.key[0])
        if made is not None and fixing is not None:
            yield from _of_fixing(scene, joint, made, fixing)


def _of_fixing(scene: Scene, joint: Joint, made: Plan, fixing: Fixing) -> Iterator[ScrewValue]:
    board = scene.piece.board_by_name[joint.meeting.a.body]
    bit, bit_from, owned = _bit(made, joint, scene.shop)
    sizes = sorted({*DRIVER_BITS, *(one.length for one in scene.shop.drivers if one.head is None)}, reverse=True)
    bits = (bit, *(size for size in sizes if made.reach - 1e-9 <= size < bit - 1e-9))
    longer = [size for size in reversed(sizes) if size > bit + 1e-9]
    for number, cut in enumerate(joint.cuts, 1):
        for shape in cut.shapes:
            if isinstance(shape, Bore):
                yield ScrewValue(
                    fixing=fixing.name,
                    called=fixing_called(joint.meeting),
                    path=fixing.path,
                    number=number,
                    cut=cut.key,
                    board=board.name,
                    mouth=board.frame.place(shape.start),
                    screw=made.screw.name,
                    anchor=made.asked,
                    plugged=made.plugged,
                    counterbore=shape.profile[0][1],
                    deep=made.deep,
                    least=made.reach,
                    stands=ScrewStands(
                        length=made.screw.length,
                        wide=made.screw.diameter,
                        hole=made.hole,
                        grip=made.grip,
                        gap=made.gap,
                        lining=made.lining,
                        held=made.held,
                    ),
                    lines=tuple((one, made.line(one)) for one in bits),
                    longer=tuple((one, made.line(one)) for one in longer),
                    travel=made.travel,
                    angles=angles_of(scene.shop, made.reach, made.line),
                    bit_from=bit_from,
                    owned=owned,
                    asked=values_of(joint.options)["step"] or None,
                    along=_along(joint, scene.piece.part_by_name[board.name], fixing, number, made),
                )


def _bit(made: Plan, joint: Joint, shop: Shop) -> tuple[float, From, str]:
    """The driver bit: as the job says, else the shortest that the shop has and that reaches, else the next to buy."""
    if given(joint.options, "driver") and made.driver is not None:
        return made.driver, "the job", ""
    reach = [one for one in shop.drivers if one.head is None and one.length >= made.reach - 1e-9]
    if reach:
        best = min(reach, key=lambda one: one.length)
        return best.length, "the shop", best.name
    sold = next_of(DRIVER_BITS, made.reach)
    return (made.reach, "none sold", "") if sold is None else (sold, "to buy", "")


def angles_of(shop: Shop, reach: float, line: Callable[[float, float], float]) -> tuple[AngleDriver, ...]:
    """The shop's angle drivers that reach, the shortest line first; `line` by bit and by what is behind it."""
    found = [
        AngleDriver(name=one.name, bit=one.length, head=one.head, line=line(one.length, one.head))
        for one in shop.drivers
        if one.head is not None and one.length >= reach - 1e-9
    ]
    return tuple(sorted(found, key=lambda one: (one.line, one.name)))


def _along(joint: Joint, part: Part, fixing: Fixing, number: int, made: Plan) -> RoomAlong | None:
    """Where it may be moved to; None where it must meet a stud, or its place is not one of its table's."""
    meeting, board = joint.meeting, part.board
    if (not made.asked and meeting.studs_off) or len(fixing.at) != len(meeting.places):
        return None
    back = -1.0 if board.flipped else 1.0
    end = max(meeting.a.thickness, FROM_END * made.screw.diameter)
    wood = made.counterbore / 2 + max(LEAST, made.counterbore)
    return RoomAlong(
        way=(back * board.frame.x[0], back * board.frame.x[1]),
        at=fixing.at[number - 1],
        low=end,
        high=board.length - end,
        others=tuple(at for other, at in enumerate(fixing.at, 1) if other != number),
        apart=APART * made.screw.diameter,
        taken=tuple(_taken(part, joint, wood)),
    )


def _taken(part: Part, joint: Joint, wood: float) -> Iterator[tuple[float, float]]:
    """Where other cuts lie along the board, from its line's start, with the wood that a bore must leave beside them."""
    for cut in part.cuts:
        if cut.joint == joint.key:
            continue
        for shape in cut.shapes:
            if isinstance(shape, Prism):
                places = [a for a, _, _ in corners(shape)]
            elif isinstance(shape, Bore):
                far, wide = shape.profile[-1][0], shape.profile[0][1] / 2
                ends = (shape.start[0], shape.start[0] + far * shape.direction[0])
                places = [min(ends) - wide, max(ends) + wide]
            else:
                continue  # an end: the board's own ends keep it away
            low, high = min(places) - wood, max(places) + wood
            yield (part.board.length - high, part.board.length - low) if part.board.flipped else (low, high)


# ---- screws from board to board


def _joined(scene: Scene) -> Iterator[JoinedValue]:
    """Every screw that is driven from its mouth in one board into another."""
    boards = scene.piece.board_by_name
    for joint in scene.piece.joints:
        mouths = [cut for cut in joint.cuts if cut.clear > 0.0 and cut.body in boards and cut.takes in boards]
        sold = next((ware.screw for ware in scene.kinds[joint.kind].hardware(joint) if ware.screw is not None), None)
        if mouths and sold is not None:
            bores = ((cut, shape) for cut in mouths for shape in cut.shapes if isinstance(shape, Bore))
            for number, (cut, bore) in enumerate(bores, 1):
                yield _of_joint(scene, joint, (cut, bore), number, sold)


def _of_joint(scene: Scene, joint: Joint, hole: tuple[Cut, Bore], number: int, sold: Screw) -> JoinedValue:
    """Its head lies on the counterbore's floor; what of it stands beyond the board's grip is what it goes in by."""
    (cut, bore), shop = hole, scene.shop
    frame, deep = scene.piece.board_by_name[cut.body].frame, bore.profile[1][0] if len(bore.profile) > 2 else 0.0
    travel = max(sold.under_head - (bore.profile[-1][0] - deep), 0.0)
    x, y, z = frame.direct(bore.direction)

    def line(bit: float, behind: float) -> float:
        return max(bit, sold.length, bit - deep + travel + behind)

    reach = deep + CHUCK
    owned = [one for one in shop.drivers if one.head is None and one.length >= reach - 1e-9]
    best = min(owned, key=lambda one: one.length, default=None)
    bought = next_of(DRIVER_BITS, reach)
    bit = best.length if best is not None else bought or reach
    return JoinedValue(
        joint=joint.key,
        number=number,
        cut=cut.key,
        board=cut.body,
        into=cut.takes,
        mouth=frame.place(bore.start),
        out=(-x + 0.0, -y + 0.0, -z + 0.0),
        screw=sold.name,
        counterbore=bore.profile[0][1],
        deep=deep,
        travel=travel,
        bit=bit,
        line=line(bit, DRILL),
        bit_from="the shop" if best is not None else "to buy" if bought is not None else "none sold",
        owned=best.name if best is not None else "",
        angles=angles_of(shop, reach, line),
    )


# ---- what is looked for


def _mouths(scene: Scene, joint: Joint) -> Iterator[MouthValue]:
    """Of the screws of a joint: where they went in, into the wall or into a board."""
    cuts = [cut for cut in joint.cuts if cut.clear > 0.0]
    plugged = cuts and any(ware.goes == "over" for ware in scene.kinds[joint.kind].hardware(joint))
    for cut in cuts:
        board = scene.piece.board_by_name[cut.body]
        for bore in (shape for shape in cut.shapes if isinstance(shape, Bore)):
            x, y, z = board.frame.direct(bore.direction)
            yield MouthValue(
                what="plug" if plugged else "mouth",
                board=board.name,
                cut=cut.key,
                joint=joint.key,
                at=board.frame.place(bore.start),
                out=(-x + 0.0, -y + 0.0, -z + 0.0),
                normal=surface_at(board, bore),
                wide=bore.profile[0][1],
            )


def _targets(scene: Scene) -> Iterator[Target]:
    """Mouths of all screws, plugged or not, and what is left open of slots."""
    for joint in scene.piece.joints:
        for mouth in _mouths(scene, joint):
            yield Target(
                what=mouth.what,
                board=mouth.board,
                cut=mouth.cut,
                joint=mouth.joint,
                points=looked_at(mouth),
                out=mouth.normal,
            )
        if joint.making.open_notch > 0.0:
            for cut in (cut for cut in joint.cuts if cut.clear <= 0.0 and cut.body == joint.making.front):
                points = open_part(scene.piece.board_by_name[cut.body], cut, joint.making.open_notch)
                if points:
                    yield Target(
                        what="open notch", board=cut.body, cut=cut.key, joint=joint.key, points=points, out=None
                    )
