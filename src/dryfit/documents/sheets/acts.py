"""A step of the assembly in words: what to do, with which edge first, with glue or dry, and what to mind."""

import math
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from ...geometry.frames import Vec
from ...joints import KINDS
from ...piece.model import Board, Joint
from ...piece.ways import free_after
from ...places import Pair
from ...studies.order import Step
from ...studies.order.plan import StagePlan
from ..looks import Desk
from ..naming import depth, plural, position

LEVEL = 0.5  # share of a direction from which on it counts as up or down
HEAVY = 15.0  # kg, and
LONG = 1800.0  # mm: from here on two people (common practice)
MANY = 6  # letters; more are counted


@dataclass(frozen=True, slots=True, kw_only=True)
class Act:
    """One sheet of the booklet.

    Attributes:
        title: one sentence.
        says: how the part is held, one line.
        minds: at most three short sentences.
    """

    title: str
    says: str
    minds: tuple[str, ...]


def lettered(desk: Desk, names: Iterable[str], units: Mapping[str, str]) -> str:
    """Letters of boards in words, what is in a glued unit by the unit's name: "B, D and the box"; many are counted."""
    every = list(names)
    whole = dict.fromkeys(units[name] for name in every if name in units)
    letters = [desk.marks.get(name, name) for name in every if name not in units]
    if len(letters) > MANY:
        letters = [f"{len(letters)} boards"]
    said = [*letters, *(f"the {unit}" for unit in whole)]
    return said[0] if len(said) == 1 else f"{', '.join(said[:-1])} and {said[-1]}"


def laid(desk: Desk, names: Sequence[str], units: Mapping[str, str]) -> Act:
    """What lies first."""
    what = f"{names[0]} {desk.marks[names[0]]}" if len(names) == 1 else lettered(desk, names, units)
    one_unit = len({units.get(name, "") for name in names}) == 1 and names[0] in units
    edges = "its wall edge" if len(names) == 1 else "its wall edges" if one_unit else "their wall edges"
    loosely = ("Set them out as drawn, loosely: what comes next brings them to their places.",)
    return Act(
        title=f"Lay {what} on {edges}",
        says="on a flat floor · slots that open to the front face UP",
        minds=("Keep the foot of the piece towards you, as drawn.", *(loosely if len(names) > 1 else ())),
    )


def waited(desk: Desk, stage: StagePlan, *, last: bool) -> Act:
    """What waits until the stage is glued, such as keys across its mitres."""
    joints = [joint for joint in desk.book.piece.joints if _waits(joint, stage)]
    works = dict.fromkeys(name.split(" of ")[0] for name in stage.after)
    marks = [" × ".join(desk.marks.get(name, name) for name in joint.key) for joint in joints]
    items = Counter(
        (item.name, item.size, item.count) for joint in joints for item in KINDS[joint.kind].hardware(joint)
    )
    wanted = [_wanted(each * count, name, size) for (name, size, each), count in items.items()]
    minds = ["Only when the glue has set: see the glue-up card. Guard and hold-downs on; hands clear of the cutter."]
    if not last:
        minds.append("Now, not later: what comes next stands in the way.")
    return Act(
        title=f"When the glue has set: the {' and the '.join(works)}",
        says=" · ".join(["at " + ", ".join(marks), *wanted]),
        minds=tuple(minds),
    )


def _wanted(count: int, name: str, size: str) -> str:
    """Hardware in words: "12 keys, 4.0 thick, grain across the mitre"."""
    noun, *more = name.split(", ")
    return ", ".join([plural(count, noun), size, *more])


def _waits(joint: Joint, stage: StagePlan) -> bool:
    work = (operation.key for operation in KINDS[joint.kind].operations(joint))
    return set(joint.key) <= set(stage.parts) and not set(stage.after).isdisjoint(work)


def put_in(desk: Desk, step: Step, glued: Mapping[Pair, object], units: Mapping[str, str]) -> Act:
    """What goes in."""
    turned = step.up == "wall"
    what = _called(desk, step, units)
    into = lettered(desk, step.into, units) if step.into else ""
    wet = [key for key in step.joints if key in glued]
    held = [*_leading(desk, step), *_facing(desk, step, turned), _glue(desk, step, wet, units)]
    return Act(
        title=_done(step, what, into, turned, _lets_in(desk, step)),
        says=" · ".join(held),
        minds=tuple(_minds(desk, step))[:3],
    )


def _called(desk: Desk, step: Step, units: Mapping[str, str]) -> str:
    if len(step.parts) == 1:
        return f"{step.name} {desk.marks[step.parts[0]]}"
    return lettered(desk, step.parts, units)


def _lets_in(desk: Desk, step: Step) -> float:
    """How far a part is let into others by its last move; 0 where faces only come to touch."""
    x, y, z = step.legs[-1].direction
    out = (-x + 0.0, -y + 0.0, -z + 0.0)
    free = [
        free_after(desk.book.piece.joint_by_key[key].hand.motions, name, out)
        for key in step.joints
        for name in key
        if name in step.parts
    ]
    return max((one for one in free if one is not None), default=0.0)


def _done(step: Step, what: str, into: str, turned: bool, deep: float) -> str:
    """The sentence: what the hands do."""
    direction = step.legs[0].direction
    if abs(direction[2]) > LEVEL:
        return f"Lower {what} onto {into}" if into else f"Lower {what} into place"
    if len(step.legs) > 1:
        return f"Bring {what} to {into}" if into else f"Bring {what} into place"
    way = _way(direction, turned)
    return f"Push {what} {way}, {'into' if deep else 'against'} {into}" if into else f"Push {what} {way}"


def _way(direction: Vec, turned: bool) -> str:
    x, y = (-direction[0] if turned else direction[0]), direction[1]
    if abs(y) >= abs(x):
        return "away from you" if y > 0 else "towards you"
    return "to the right" if x > 0 else "to the left"


def _leading(desk: Desk, step: Step) -> Iterable[str]:
    if len(step.parts) > 1 or abs(step.legs[0].direction[2]) <= LEVEL:
        return ()
    return ("wall edge first" if step.legs[0].direction[2] < 0 else "front edge first",)


def _facing(desk: Desk, step: Step, turned: bool) -> Iterable[str]:
    """Where the face side looks as the piece lies."""
    if len(step.parts) > 1:
        return ()
    board: Board = desk.book.piece.board_by_name[step.parts[0]]
    x, y, z = (board.face_side * part for part in board.frame.y)
    if abs(z) > LEVEL:
        return ("face side up" if (z > 0) != turned else "face side down",)
    side = _way((x, y, 0.0), turned)
    top = {"away from you": "towards the TOP of the piece", "towards you": "towards its FOOT"}
    return (f"face side {top.get(side, side)}",)


def _glue(desk: Desk, step: Step, wet: Sequence[Pair], units: Mapping[str, str]) -> str:
    if not wet:
        return "DRY"
    others = [name for key in wet for name in key if name not in step.parts]
    return f"GLUE at {lettered(desk, dict.fromkeys(others), units)}"


def _minds(desk: Desk, step: Step) -> Iterable[str]:
    mass = sum(desk.book.mass_kg.get(name, 0.0) for name in step.parts)
    length = max(desk.looks[name].part.length for name in step.parts)
    if step.turned:
        yield "Turn the piece over first, with help: it goes in from the other side."
    if len(step.legs) > 1:
        yield f"Two moves: bring it beside its place, then {depth(step.legs[-1].distance)} the other way."
    if mass >= HEAVY or length >= LONG:
        weighs = f": {mass:.1f} kg" if mass else f": {position(length)} long"
        yield f"Two people{weighs}."
    if len(step.joints) > 1:
        count = "Both" if len(step.joints) == 2 else f"All {len(step.joints)}"
        yield f"{count} joints start together; keep it level."
    if abs(step.legs[0].direction[2]) > LEVEL:
        yield "No hammer: if it stops, lift and look."
    elif deep := _lets_in(desk, step):
        yield f"It goes {depth(deep)} deep."


def shown_offset(step: Step, deepest: float) -> Vec:
    """How far from its place the incoming part is drawn: high enough not to hide where it goes."""
    x = y = z = 0.0
    for leg in step.legs:
        upright = abs(leg.direction[2]) > LEVEL
        far = max(leg.distance, 0.75 * deepest) + 0.2 * deepest if upright else max(leg.distance, 0.4 * deepest)
        x, y, z = (at - way * far for at, way in zip((x, y, z), leg.direction, strict=True))
    size = math.hypot(x, y, z)
    return (x, y, z) if size else (0.0, 0.0, 0.0)
