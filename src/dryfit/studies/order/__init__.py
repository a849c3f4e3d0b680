"""Order: in what order the piece goes together, which way each part goes in, and the proof that it does.

What it works out   Every move of every part, from boards to units to the piece, exact and free of collisions;
                    or the smallest set that cannot be brought apart, and what would free it.
Assumes             Rigid parts at their finished sizes; straight moves only, one or two to a step (tilting a
                    board in is not tried); bores and round pockets count as wood; a set that moves together
                    may be held by as many hands as it needs. A glued unit is one body.
Source              Geometry: exact sweeps of the cuts' own shapes. Penetration to 0.02 mm is contact.
"""

from collections.abc import Iterable, Iterator, Mapping
from itertools import pairwise
from typing import Any

from ...asking import unanswered
from ...findings import Finding, NotChecked, Severity, declare
from ...geometry.bodies import PartShape
from ...job.model import JointSpec, Unit
from ...piece.contradictions import BEFORE_SUPPORT, FROM_BEHIND
from ...piece.history import place_in_words
from ...piece.kinds import JointKind
from ...piece.meetings import name_order, pair_key
from ...piece.model import Board, Joint, Part, Piece, Touch
from ...piece.parts import corners_of, stock_of
from ...piece.room import is_floor
from ...piece.setout import TOUCHING
from ...piece.settling.locks import LOCKED
from ...places import Cure, Edit, Pair, Path, Plain, Where
from ...sentences import Count, Name, Several, Value, Words, say
from ...study.base import Pace, Scene, Study, Work
from ...study.registry import register
from .joints import Easing, JointValue
from .plan import plan
from .result import Barred, Bound, Order, PlaceRefused, StagePlan, barred_in_words
from .staging import BoardValue
from .standing import WallValue
from .value import OrderValue

NO_ORDER = declare(
    "no-order",
    "Parts that are in each other's way on every straight move: they cannot be put together.",
    uncured="no change of a single joint, or of a unit, was found that frees them",
)
TURNED = declare(
    "turned-over",
    "The piece must be turned over while it is put together.",
    uncured="nothing need be changed: it wants hands and room",
)

NOT_IN_PLACE = declare(
    "place-not-kept",
    "Something cannot be put in at the place on the wall that the job gives it: others bar its way.",
    uncured="what goes to the wall first is your choice",
)
OVERLAPPING = declare(
    "no-order-while-overlapping",
    "No order is worked out while parts take up the same space.",
    uncured="the overlap is mended first: its own note says how",
)
BARRED = declare(
    "no-order-on-the-wall",
    "Where the piece hangs, something cannot be put in at its place: what hangs already or the room is in its way.",
    uncured="what stands there first, and what is carried as one, is your choice",
)


@register
class OrderStudy(Study[OrderValue, Order]):
    """The order of assembly."""

    name = "order"
    codes = (NO_ORDER, TURNED, OVERLAPPING, NOT_IN_PLACE, BARRED)
    untried = (NOT_IN_PLACE, BARRED)
    takes_up = (LOCKED,)
    asks = "in what order it goes together"
    version = 4
    result = Order
    pace = Pace.REST
    guards = True

    def concerns(self, piece: Piece) -> bool:
        """A single board has no order."""
        return piece.in_several

    def reads(self, scene: Scene) -> OrderValue:
        """Copy the parts' shapes, the joints' motions and the units."""
        piece, lives = scene.piece, scene.piece.history.lives
        specs = {pair_key(*spec.between): spec for spec in scene.job.joint_specs}
        boards = {board.name for board in piece.boards}
        told = tuple(tuple(sorted(found.where.boards)) for found in piece.findings if found.code == LOCKED)
        joints = [joint for joint in piece.joints if set(joint.key) <= boards]
        stages = (found for found in piece.findings if found.code in (FROM_BEHIND, BEFORE_SUPPORT))
        crossing = {
            side.body
            for joint in joints
            for side in (joint.meeting.a, joint.meeting.b)
            if side.touch is Touch.THROUGH or side.touch is Touch.FACE
        }
        return OrderValue(
            parts=tuple(_shape(part) for part in piece.parts if part.short[1] > part.short[0]),
            boards=tuple(
                BoardValue(
                    name=board.name,
                    steep=abs(board.frame.x[1]) - abs(board.frame.x[0]) > 1e-9,
                    crosses=board.name in crossing,
                    flat=board.lies == "flat",
                    order=name_order(board.name),
                )
                for board in piece.boards
            ),
            units=piece.units,
            places=tuple((name, life.place) for name, life in lives.items() if life.place is not None),
            tables=tuple((name, home.path) for name, home in _homes(piece).items() if lives[name].place is not None),
            joints=tuple(
                _joint(
                    joint,
                    scene.kinds[joint.kind],
                    specs.get(joint.key),
                    piece.board_by_name,
                    held=any(set(joint.key) <= set(boards) for boards in told),
                )
                for joint in joints
            ),
            told=tuple(tuple(sorted(finding.where.boards)) for finding in piece.findings if finding.code == "locked"),
            wall=_wall(scene, joints),
            told_behind=tuple(found.where.boards for found in stages),
        )

    def run(self, value: OrderValue, work: Work) -> Order:
        """Plan all stages."""
        places = dict(value.places)
        return plan(value.parts, value.boards, value.units, value.joints, places, value.wall, work.step)

    def findings(self, value: OrderValue, result: Order) -> tuple[Finding, ...]:
        """What is locked and not said yet; turns of the piece; no order where parts overlap."""
        found = [_locked(lock, stage) for stage in result.stages for lock in stage.locked if not _told(lock, value)]
        found += [_not_in_place(one, dict(value.tables)) for one in result.refused]
        found += _barred(value, result)
        if result.overlaps:
            found.append(_overlapping(result.overlaps))
        elif result.turns and not result.locked:
            found.append(_turned(result))
        return tuple(found)

    def not_checked(self, value: OrderValue, result: Order) -> tuple[NotChecked, ...]:
        """All of it where parts overlap; tilting, where something is locked; boards of which nothing is left."""
        if result.overlaps:
            boards = tuple(dict.fromkeys(name for pair in result.overlaps for name in pair))
            return (unanswered(self.name, "parts overlap", Where(boards=boards)),)
        locked = [
            NotChecked(
                study=self.name,
                what=say("whether {} go together tilted", lock.says),
                why="only straight moves are tried",
                where=Where(boards=lock.parts, joint=lock.joint),
            )
            for lock in result.locked
        ]
        left = {part.name for part in value.parts}
        gone = tuple(board.name for board in value.boards if board.name not in left)
        if gone:
            names = Several(tuple(map(Name, gone)), apart=" and ")
            what = say("when {} {} in", names, "goes" if len(gone) == 1 else "go")
            locked.append(NotChecked(study=self.name, what=what, why="nothing is left of it", where=Where(boards=gone)))
        return tuple(locked)


def _wall(scene: Scene, joints: Iterable[Joint]) -> WallValue | None:
    """The wall at which it is put up; None where nothing says that it hangs.

    A board is carried alone, or in what it is glued up in: its unit, and where it all goes together in the shop
    whatever glue holds to it.
    """
    job, history = scene.piece.job or scene.job, scene.piece.history
    fixed = tuple(name for name, life in history.lives.items() if life.hung)
    asked = any(life.place is not None for life in history.lives.values())
    if not history.hangs:
        return None
    body = {board.name: board.name for board in scene.piece.boards}
    sticks = [pair for unit in scene.piece.units for pair in pairwise(unit.boards)]
    if not history.on_site:
        sticks += [joint.key for joint in joints if joint.glued]
    for one, other in sticks:
        if one in body and other in body and body[one] != body[other]:
            gone, kept = body[other], body[one]
            body = {name: kept if own == gone else own for name, own in body.items()}
    carried: dict[str, list[str]] = {}
    for name, own in body.items():
        carried.setdefault(own, []).append(name)
    lows = [min(y for _, y, _ in corners_of(part)) for part in scene.piece.parts]
    wall = job.wall
    room: list[tuple[Bound, float]] = [("wall", 0.0)]
    if is_floor(wall, lows) or (wall.ceiling is not None and min(lows, default=0.0) > -TOUCHING):
        room.append(("floor", 0.0))
    bounds: tuple[tuple[Bound, float | None], ...] = (
        ("ceiling", wall.ceiling),
        ("left wall", wall.left),
        ("right wall", wall.right),
    )
    room += [(bound, place) for bound, place in bounds if place is not None]
    return WallValue(room=tuple(room), bodies=tuple(map(tuple, carried.values())), fixed=fixed, asked=asked)


def _shape(part: Part) -> PartShape:
    stock = stock_of(part)
    shapes = tuple(shape for cut in part.cuts for shape in cut.shapes)
    return PartShape(name=part.id, frame=part.board.frame, outline=stock.outline, depth=stock.depth, shapes=shapes)


def _joint(
    joint: Joint, kind: JointKind[Any], spec: JointSpec | None, boards: Mapping[str, Board], *, held: bool
) -> JointValue:
    """What the plan reads of a joint; one that settling found locked is `held` to its motions.

    Loose pieces tie it to its motions where they are put in before it closes, as dowels and tongues are; what is driven
    when it is closed, or put in when it is glued, holds nothing back before. The solids leave out the film on coated
    boards, so they have a little more room than there will be.
    """
    after = tuple(operation.key for operation in kind.operations(joint, boards) if operation.after_gluing is not None)
    put_in = any(ware.goes == "in" for ware in kind.hardware(joint)) and not after
    return JointValue(
        key=joint.key,
        motions=joint.making.motions,
        glued=joint.glued,
        loose=held or put_in,
        cuts=tuple(cut.key for cut in joint.cuts),
        after=after,
        easings=tuple(
            Easing(
                cure=Cure(label=ease.says, edits=_edits(joint.key, joint.kind, spec, ease.options)),
                motions=ease.making.motions,
            )
            for ease in kind.eases(joint.meeting, joint.options, joint.making)
        ),
    )


def _edits(key: Pair, kind: str, spec: JointSpec | None, options: tuple[tuple[str, str], ...]) -> tuple[Edit, ...]:
    if spec is not None:
        return tuple(Edit(action="set", path=(*spec.path, name), value=value) for name, value in options)
    table: dict[str, Plain] = {"between": list(key), "kind": kind, **dict(options)}
    return (Edit(action="add", path=("joint",), value=table),)


def _told(lock: Any, value: OrderValue) -> bool:
    """Whether settling has said so already."""
    return any(set(boards) <= set(lock.parts) for boards in value.told)


def _locked(lock: Any, stage: StagePlan) -> Finding:
    waits = [say("{} only after {}", one, Several(others, apart=" and ")) for one, others in lock.waits if others]
    where = say("in {}, ", Name(stage.name)) if stage.name else ""
    return Finding(
        code=NO_ORDER,
        severity=Severity.STOP,
        where=Where(boards=lock.parts, joint=lock.joint),
        says=say(
            "{}{} cannot be put together, for straight moves ({})",
            where,
            lock.says,
            Several(tuple(waits), last="; ", apart="; "),
        ),
        remedy=lock.cure.label if lock.cure else "make one of their joints another way, or move one of the boards",
        source="geometry",
        cures=(lock.cure,) if lock.cure else (),
    )


def _homes(piece: Piece) -> dict[str, Board | Unit]:
    """Where the place of each board is said: its unit, else itself."""
    return {**piece.board_by_name, **{name: unit for unit in piece.units for name in unit.boards}}


def _not_in_place(refused: PlaceRefused, tables: Mapping[str, Path]) -> Finding:
    bars = Several(refused.blockers)
    others = len(refused.blockers) > 1
    path = tables.get(refused.parts[0], ())
    each = zip(refused.blockers, refused.blocking, strict=True)
    placed = [(refused.says, path)] if path else [(says, tables.get(parts[0], ())) for says, parts in each]
    return Finding(
        code=NOT_IN_PLACE,
        severity=Severity.STOP,
        where=Where(boards=refused.parts, path=path),
        says=say(
            "{} cannot be put in {}, for straight moves: {} {} there before it and {} in its way",
            refused.says,
            place_in_words(refused.place),
            bars,
            "are" if others else "is",
            "stand" if others else "stands",
        ),
        remedy=say("put {} in before {}, or make their joint another way", refused.says, bars),
        source="geometry",
        cures=tuple(cure for says, home in placed for cure in _unplaced(says, home)),
    )


def _unplaced(says: Words, path: Path) -> Iterator[Cure]:
    """Its place left to be settled, in the new word or the old one: which of them is there is tried."""
    label = say("leave the place of {} to be settled", says)
    for key in ("place", "last") if path else ():
        yield Cure(label=label, edits=(Edit(action="remove", path=(*path, key)),))


def _barred(value: OrderValue, result: Order) -> Iterator[Finding]:
    """What the job asks for on the wall and cannot be done there, where nothing else has said so."""
    up = result.wall
    if up is None or not up.asked or result.refused:
        return
    tables = dict(value.tables)
    for one in up.barred:
        there = {*one.parts, *one.bar.parts, *(name for key in one.bar.joints for name in key)}
        if not any(set(pair) <= there for pair in value.told_behind):
            yield _not_on_the_wall(one, tables)


def _not_on_the_wall(barred: Barred, tables: Mapping[str, Path]) -> Finding:
    bar, path = barred.bar, tables.get(barred.parts[0], ())
    joints = tuple(say("its joint with {}", Name(_other(key, barred.parts))) for key in bar.joints)
    remedy: Words = barred.cure.label if barred.cure else "put it in before, or make its joint another way"
    return Finding(
        code=BARRED,
        severity=Severity.STOP,
        where=Where(
            boards=(*barred.parts, *bar.parts), joint=bar.joints[0] if len(bar.joints) == 1 else None, path=path
        ),
        says=barred_in_words(barred) if not joints else say("{} ({})", barred_in_words(barred), Several(joints)),
        remedy=remedy,
        source="geometry",
        cures=(*((barred.cure,) if barred.cure else ()), *_unplaced(barred.says, path)),
    )


def _other(key: Pair, parts: tuple[str, ...]) -> str:
    return next(name for name in key if name not in parts)


def _turned(result: Order) -> Finding:
    steps = [step for stage in result.stages for step in stage.steps if step.turned]
    times: Value = "once" if result.turns == 1 else "twice" if result.turns == 2 else Count(result.turns, "time")
    first = "first to" if result.turns > 1 else "to"
    return Finding(
        code=TURNED,
        severity=Severity.NOTE,
        where=Where(boards=tuple(part for step in steps for part in step.parts)),
        says=say("the piece is turned over {} while it is put together, {} put in {}", times, first, steps[0].name),
        remedy="have help to hand, and room to lay it on its other edges",
        found=float(result.turns),
        limit=0.0,
        source="geometry",
    )


def _overlapping(overlaps: tuple[Pair, ...]) -> Finding:
    pairs = tuple(say("{} and {}", Name(one), Name(other)) for one, other in overlaps[:3])
    return Finding(
        code=OVERLAPPING,
        severity=Severity.NOTE,
        where=Where(boards=tuple(dict.fromkeys(name for pair in overlaps for name in pair))),
        says=say("no order is worked out while parts overlap: {}", Several(pairs, last=", ")),
        remedy="clear the overlap first",
    )
