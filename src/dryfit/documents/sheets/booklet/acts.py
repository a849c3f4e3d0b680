"""A step of the assembly in words: what to do, with which edge first, with glue or dry, and what to mind."""

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence

from ....geometry.frames import Vec
from ....piece.model import Board, Joint
from ....piece.settling.ways import free_after
from ....places import Pair
from ....studies.order.result import SLIDE, Step
from ...looks import Desk
from ...naming import PEOPLE, depth, position
from .. import lifting
from . import loose
from .laying import AIR, MINDS, Act, Scenery, called, lettered

STRAIGHT = 0.01  # share of a direction, up to which it is straight: half a degree
LEVEL = 0.5  # share of a direction from which on it counts as up or down
ASLANT = math.tan(math.pi / 8)  # from here on a way in the plane is two ways at once
BARE = "bare wood there: mask before finishing"

# --- what goes in -------------------------------------------------------------------------------------


def put_in(seen: Scenery, step: Step) -> Act:
    """What goes in."""
    turned = step.up == "wall"
    wet = [key for key in step.joints if key in seen.glued]
    held = [
        *_leading(seen.desk, step),
        *_facing(seen.desk, step, turned),
        glue_said(seen, step, wet),
        *coated(seen, step),
    ]
    return Act(
        title=_done(seen, step, turned),
        says=" · ".join(held),
        puts=tuple(loose_in(seen, step)),
        minds=tuple(_minds(seen, step))[:MINDS],
    )


def loose_in(seen: Scenery, step: Step) -> list[str]:
    """What goes in that is no board; glued and dry joints apart."""
    said = []
    for wet in (True, False):
        joints = [(joint, _other(seen, step, joint)) for joint in seen.joints(step) if (joint.key in seen.glued) == wet]
        said += loose.put_in(loose.wanted(joints, seen.desk.book.piece.board_by_name), glued=wet)
    return said


def _other(seen: Scenery, step: Step, joint: Joint) -> str:
    """The letter of the board of a joint that is there already."""
    return next(seen.desk.marks.get(name, name) for name in joint.key if name not in step.parts)


def enters(joint: Joint, boards: Mapping[str, Board]) -> bool:
    """Whether an end, or something loose, is let into the other board; a plain butt or mitre only lies at it."""
    return bool(joint.let_in) or any(loose.first(loose.wanted([(joint, "")], boards)))


def _done(seen: Scenery, step: Step, turned: bool) -> str:
    """The sentence: what the hands do."""
    desk, direction = seen.desk, step.legs[0].direction
    what = called(seen, step.parts) if len(step.parts) == 1 else lettered(desk, step.parts, seen.units)
    onto = lettered(desk, step.into, seen.units) if step.into else ""
    if len(step.legs) > 1 and abs(direction[2]) > LEVEL >= abs(step.legs[-1].direction[2]):
        beside = f"beside {onto}" if onto else "beside its place"
        return f"Lower {what} {beside}, then push it {way_words(step.legs[-1].direction, turned)}"
    if abs(direction[2]) > LEVEL:
        return f"Lower {what} onto {onto}" if onto else f"Lower {what} into place"
    if len(step.legs) > 1:
        return f"Bring {what} to {onto}" if onto else f"Bring {what} into place"
    return ", ".join([f"Push {what} {way_words(direction, turned)}", *_reached(seen, step)])


def _reached(seen: Scenery, step: Step) -> Iterator[str]:
    """Into these, against those."""
    into: dict[str, bool] = {}
    for joint in seen.joints(step):
        for name in joint.key:
            if name not in step.parts:
                into[name] = into.get(name, False) or enters(joint, seen.desk.book.piece.board_by_name)
    every = [name for name in step.into if name in into]
    for word, wanted in (("into", True), ("against", False)):
        names = [name for name in every if into[name] == wanted]
        if names:
            yield f"{word} {lettered(seen.desk, names, seen.units)}"


def way_words(direction: Vec, turned: bool) -> str:
    """A way in the plane, as seen by the one at the foot."""
    x, y = (-direction[0] if turned else direction[0]), direction[1]
    aside, ahead = "to the right" if x > 0 else "to the left", "away from you" if y > 0 else "towards you"
    if abs(x) < ASLANT * abs(y):
        return ahead
    return aside if abs(y) < ASLANT * abs(x) else f"{aside} and {ahead}"


def _leading(desk: Desk, step: Step) -> Iterable[str]:
    """Which edge goes first; of a board lying flat its face side says as much."""
    boards = desk.book.piece.board_by_name
    if len(step.parts) > 1 or abs(step.legs[0].direction[2]) <= LEVEL or boards[step.parts[0]].lies == "flat":
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
    side = _side((x, y, 0.0), turned)
    top = {"away from you": "towards the TOP of the piece", "towards you": "towards its FOOT"}
    return (f"face side {top.get(side, side)}",)


def _side(direction: Vec, turned: bool) -> str:
    """The one of four sides to which a face looks most."""
    x, y, _ = direction
    return way_words((x, 0.0, 0.0) if abs(x) > abs(y) else (0.0, y, 0.0), turned)


def glue_said(seen: Scenery, step: Step, wet: Sequence[Pair]) -> str:
    """Where glue goes, or that it goes in dry."""
    if not wet:
        return "DRY"
    others = [name for key in wet for name in key if name not in step.parts]
    said = f"GLUE at {lettered(seen.desk, dict.fromkeys(others), seen.units)}"
    return f"{said} ({BARE})" if coated_before(seen.desk, (name for key in wet for name in key), wet) else said


def coated(seen: Scenery, step: Step) -> Iterator[str]:
    """What of it is coated before it goes in, and whether its joints are."""
    early = coated_before(seen.desk, step.parts, step.joints)
    if early:
        zones = (seen.desk.book.piece.job or seen.desk.book.job).finish.joint_zones
        whose = f"{lettered(seen.desk, early, seen.units)} " if len(step.parts) > 1 else ""
        yield f"{whose}coated before, {'joints masked' if zones == 'masked' else 'joints too'}"


def coated_before(desk: Desk, names: Iterable[str], joints: Iterable[Pair]) -> list[str]:
    """Of these boards those that are coated before these joints close, in order, each once."""
    met = [desk.book.piece.history.contacts[key] for key in joints if key in desk.book.piece.history.contacts]
    coated = {name for contact in met for name in contact.key if contact.of(name).state != "bare"}
    return [name for name in dict.fromkeys(names) if name in coated or desk.book.piece.history.coated_first(name)]


def _minds(seen: Scenery, step: Step) -> Iterator[str]:
    """The gravest first."""
    desk, lowered = seen.desk, abs(step.legs[0].direction[2]) > LEVEL
    mass = sum(desk.book.mass_kg.get(name, 0.0) for name in step.parts)
    length = max(desk.looks[name].part.length for name in step.parts)
    if step.turned:
        yield "Turn the piece over first, with help: it goes in from the other side."
    if len(step.legs) > 1:
        yield f"Two moves: bring it beside its place, then {depth(step.legs[-1].distance)} the other way."
    if people := _people(mass, length, max(desk.looks[name].part.board.depth for name in step.parts)):
        yield people
    if not lowered and len(step.parts) == 1 and (off := seen.off_floor(step.parts[0], step.up)) > AIR:
        yield f"Packing {depth(off)} under it."
    yield from slides(seen, step)
    if (lean := _aslant(step)) and not lowered:
        yield f"It goes in {lean}: pushed straight it binds."
    if len(step.joints) > 1:
        count = "both" if len(step.joints) == 2 else f"all {len(step.joints)}"
        yield f"Start {count} joints together and keep it level."
    if lowered:
        yield "If it sticks, lift it off and look: no hammer."
    elif deep := sorted({depth(each) for joint in seen.joints(step) for each in joint.let_in}):
        yield f"Home at {' and '.join(deep)} deep."


def _aslant(step: Step) -> str:
    """By how much its way is off straight, in words; "" where it is straight, or plainly two ways at once."""
    x, y, _ = step.legs[-1].direction
    least, most = sorted((abs(x), abs(y)))
    if not STRAIGHT < least < ASLANT * most:
        return ""
    turned = step.up == "wall"
    off = math.degrees(math.atan2(least, most))
    aside = (-x if turned else x, 0.0, 0.0) if abs(x) < abs(y) else (0.0, y, 0.0)
    return f"{off:.1f}° off straight, {way_words(aside, turned=False)}"


def _people(mass: float, length: float, deep: float) -> str:
    """How many hands it takes; "" where one person's are enough."""
    found = lifting.board(mass, length, deep)
    why = lifting.told_mass(mass) if mass else f"{position(length)} long"
    if found.people is None:
        return f"{why}: too heavy for three people to put in by hand. Use a hoist."
    return f"{PEOPLE[found.people]}: {why}." if found.people > 1 else ""


def slides(seen: Scenery, step: Step) -> Iterator[str]:
    """That it slides along its glue, where it does so far."""
    if slid := _slid(seen, step):
        yield f"It slides {position(slid)} along its glue: spread both faces thin, and be quick."


def _slid(seen: Scenery, step: Step) -> float:
    """The longest way along glue of what is let in."""
    x, y, z = step.legs[-1].direction
    out = (-x + 0.0, -y + 0.0, -z + 0.0)
    free = [
        free_after(joint.making.motions, name, out)
        for joint in seen.joints(step)
        for name in joint.key
        if name in step.parts and joint.key in seen.glued and joint.let_in
    ]
    return max((one for one in free if one is not None and one > SLIDE), default=0.0)


def shown_offset(step: Step, deepest: float) -> Vec:
    """How far from its place the incoming part is drawn: high enough not to hide where it goes."""
    x = y = z = 0.0
    for leg in step.legs:
        far = max(leg.distance, deepest if abs(leg.direction[2]) > LEVEL else deepest / 2)
        x, y, z = (at - way * far for at, way in zip((x, y, z), leg.direction, strict=True))
    return (x, y, z)
