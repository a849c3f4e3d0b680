"""A step on the wall in words: what the hands do and from where, what is ready, what holds it, what is checked."""

from collections.abc import Iterable, Iterator, Mapping, Sequence

from ....geometry.frames import Vec
from ....piece.history import Stage
from ....piece.model import Board
from ....studies.hanging.result import Lifted
from ....studies.order.result import From, WallStep
from ...looks import Desk
from ...naming import PEOPLE, plural, position
from ...pages import joint as place_of
from ...pages import page_of
from .. import lifting
from ..booklet.acts import glue_said, loose_in, slides
from ..booklet.laying import Act, Scenery, called, lettered
from ..fixings.chain import points

WAYS: Mapping[From, str] = {
    "front": "back to the wall",
    "above": "down",
    "below": "up",
    "left": "to the right",
    "right": "to the left",
    "behind": "forward",
}
SIDES: Mapping[From, str] = {
    "front": "from the front",
    "above": "from above",
    "below": "from below",
    "left": "from the left",
    "right": "from the right",
    "behind": "from behind",
}
PAPER = "workshop"  # the paper with the fixings sheet
EVEN = 1e-3  # of a board's direction, off level or plumb, that is none
HIGHER = 10.0  # mm over its place: from here on the room above it is told


def act(seen: Scenery, steps: Sequence[WallStep], number: int, lifts: Mapping[tuple[str, ...], Lifted]) -> Act:
    """One step; `number` from 0 in the order, `lifts` by the parts that are lifted."""
    one = steps[number]
    step = one.step
    wet = [key for key in step.joints if key in seen.glued]
    held = [SIDES[one.comes], *_facing(seen.desk, step.parts)]
    held += [glue_said(seen, step, wet)] if step.joints else []
    return Act(
        title=_done(seen, one),
        says=" · ".join(held),
        puts=(*_ready(seen, one), *loose_in(seen, step), *_screws(seen.desk, step.parts)),
        minds=tuple(_minds(seen, steps, number, lifts.get(step.parts))),
    )


def _done(seen: Scenery, one: WallStep) -> str:
    """What the hands do."""
    step = one.step
    what = called(seen, step.parts) if len(step.parts) == 1 else lettered(seen.desk, step.parts, seen.units)
    if not step.joints:
        if one.held == "fixings":
            return f"Hang {what} on its marks"
        return (
            f"Stand {what} in its place at the wall" if one.held == "floor" else f"Hold {what} in its place at the wall"
        )
    way = WAYS[one.comes]
    if len(step.legs) > 1:
        beside = lettered(seen.desk, step.into, seen.units)
        return f"Bring {what} beside {beside}, then push it {way} by {position(step.legs[-1].distance)}"
    verb = {"above": "Lower", "below": "Raise"}.get(one.comes)
    return ", ".join([f"{verb} {what}" if verb else f"Push {what} {way}", *_reached(seen, one)])


def _reached(seen: Scenery, one: WallStep) -> Iterator[str]:
    """Into what it is slid, against what it only comes."""
    along = [name for name in one.step.into if name in one.along]
    only = [name for name in one.step.into if name not in one.along]
    for word, names in (("into", along), ("against", only)):
        if names:
            yield f"{word} {lettered(seen.desk, names, seen.units)}"


def _facing(desk: Desk, names: Sequence[str]) -> Iterable[str]:
    """Where the face side of a board looks."""
    if len(names) != 1:
        return ()
    board = desk.book.piece.board_by_name[names[0]]
    x, y, z = (board.face_side * part for part in board.frame.y)
    far = max(abs(x), abs(y), abs(z))
    if far == abs(z):
        return ("face side to the room" if z > 0 else "face side to the wall",)
    if far == abs(y):
        return ("face side up" if y > 0 else "face side down",)
    return ("face side to the right" if x > 0 else "face side to the left",)


def _ready(seen: Scenery, one: WallStep) -> Iterator[str]:
    """What must have been coated, and what of it is bare, before it goes in."""
    history, parts = seen.desk.book.piece.history, one.step.parts
    coated = [name for name in parts if history.lives[name].before(Stage.PUT_IN)]
    if coated:
        whose = "its" if len(parts) == 1 else f"of {lettered(seen.desk, coated, seen.units)}, the"
        yield f"READY: {whose} coats on and hard enough to press on each other."
    masked = [
        name
        for key in one.step.joints
        if key in history.contacts
        for name in key
        if history.contacts[key].of(name).state == "masked"
    ]
    if masked:
        yield f"Masking taken off the joints of {lettered(seen.desk, dict.fromkeys(masked), {})}: bare wood there."


def _screws(desk: Desk, names: Sequence[str]) -> Iterator[str]:
    """The holes of what goes up that are the fixings sheet's."""
    holes = [point for point in points(desk) if point.board in names]
    if holes:
        numbers = ", ".join(str(point.number) for point in holes)
        page = page_of(place_of(holes[0].joint), paper=PAPER)
        yield (
            f"Its screws into the wall: {plural(len(holes), 'hole')} ({numbers}) of the fixings sheet, "
            f"page {page} of the workshop book."
        )


def _minds(seen: Scenery, steps: Sequence[WallStep], number: int, lifted: Lifted | None) -> Iterator[str]:
    """How many people, what they hold meanwhile, what holds it, the room it needs, what is checked."""
    one, desk = steps[number], seen.desk
    if lifted is not None:
        yield people(lifted)
    if one.holding:
        held = lettered(desk, one.holding, seen.units)
        more = lifted.holding if lifted is not None else 1
        yield f"Hold {held} meanwhile, {'one person' if more == 1 else f'{more} people'} more: nothing else does yet."
    if one.held == "hands" and one.on_wall:
        yield f"Keep hold of it: nothing holds it {_until(seen, steps, number)}."
    yield from slides(seen, one.step)
    boards = [desk.book.piece.board_by_name[name] for name in one.step.parts]
    over = one.high[1] - _top(desk, one.step.parts)
    if one.comes != "front" and over > HIGHER:
        yield f"On its way it reaches {position(one.high[1])} high."
    front = max(board.front for board in boards)
    if not one.step.onto and one.held == "fixings":
        yield "CHECK: level along it and plumb, packed straight where the wall is hollow, before its screws are tight."
    elif one.held in ("fixings", "floor"):
        yield f"CHECK: {_true(boards)}; its front edge {position(front)} from the line of the wall edges."
    elif one.step.joints:
        yield f"CHECK: home all along; its front edge {position(front)} from the line of the wall edges."


def _true(boards: Sequence[Board]) -> str:
    """What a level is laid along to see: one board level or plumb, several both."""
    if len(boards) != 1:
        return "level and plumb"
    x, y, _ = boards[0].frame.x
    if min(abs(x), abs(y)) > EVEN:
        return "its lean as drawn"
    return "level" if abs(y) < abs(x) else "plumb"


def _until(seen: Scenery, steps: Sequence[WallStep], number: int) -> str:
    """Until which step."""
    mine = set(steps[number].step.parts)
    held = [at for at in range(number + 1, len(steps)) if steps[at].on_wall and mine & set(steps[at].holding)]
    if not held:
        return "but hands: see that it can't fall"
    last = steps[held[-1]]
    return f"until {lettered(seen.desk, last.step.parts, seen.units)} is in (step {held[-1] + 1})"


def people(one: Lifted) -> str:
    """How many people lift it, and at which height their hands are; what to do where it is too much."""
    low, high = one.hands
    where = f"held between {position(round(low))} and {position(round(high))} over the floor"
    if one.mass_kg is None:
        return f"Weigh it first: its mass decides how many people lift it ({where})."
    mass = lifting.told_mass(one.mass_kg)
    if one.overhead:
        return f"{mass}, all of it over head height: from a stable platform; no guideline weight holds there."
    if one.people is None:
        return f"{mass}, {where}: over the guideline for three people there. Use a hoist or a ledger to set it on."
    return f"{PEOPLE[one.people]}: {mass}, {where}."


def _top(desk: Desk, names: Iterable[str]) -> float:
    corners = [point for name in names for point in _ends(desk, name)]
    return max(point[1] for point in corners)


def _ends(desk: Desk, name: str) -> Iterator[Vec]:
    part = desk.book.piece.part_by_name[name]
    half = part.board.thickest / 2
    for a in part.long:
        for c in (-half, half):
            yield part.board.frame.place((a, c, 0.0))
