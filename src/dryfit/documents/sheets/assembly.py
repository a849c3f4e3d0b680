"""The assembly booklet: one picture a step, drawn as it is done, the piece lying on its wall edges.

Units come first, then the piece. Above each picture its number and one sentence, beside it at most three short
ones; arrows show the way, dashed lines lead from each joint to its place.
"""

from collections.abc import Iterator, Mapping
from typing import Any

from shapely import box

from ...places import Pair
from ..axonometric import Lying, body_of, camera
from ..display import Area, Item, Text, rectangle
from ..lettering import FIGURE, fitted, printable, width, wrapped
from ..looks import Desk
from .acts import Act, laid, put_in, waited
from .frame import LEFT, MARGIN, space
from .hovering import Hovering
from .lettered import ends, letters
from .registry import A4, Draft, sheet

SIZE = (A4[1], A4[0])
NUMBER, TITLES = 14.0, (7.0, 6.0, 5.0, 4.2)
BOX = (24.0, 18.0)
SIDE = 58.0  # of the column of words on the right
LINE = 5.6  # of those words
AROUND = 9.0  # of white around the picture, for letters


@sheet("assembly", paper="assembly", order=10)
def assembly(desk: Desk) -> Iterator[Draft]:
    """A sheet for every step; one that says why, where there is no order."""
    order = desk.book.studies.get("order")
    reason = _no_order(desk, order)
    if reason:
        yield _plain(desk, reason)
        return
    pictures = list(_pictures(desk, order))
    for number, (act, stage, picture) in enumerate(pictures, 1):
        yield Draft(
            title=f"step {number} of {len(pictures)}",
            kind="assembly",
            number=f"S{number}",
            scale="picture only",
            size=SIZE,
            items=tuple(_items(number, act, stage, picture)),
        )


def _no_order(desk: Desk, order: Any) -> str:
    if not desk.book.piece.parts:
        return "There is nothing to put together."
    if order is None:
        return f"No order was worked out: {desk.book.left_out.get('order', 'it was not asked for')}."
    if order.overlaps:
        return "No order is worked out while parts overlap: see the list of findings."
    if order.locked:
        return f"{order.locked[0].says} cannot be put together, {order.proof}: see the list of findings."
    return ""


def _plain(desk: Desk, reason: str) -> Draft:
    room = space(SIZE, desk)
    lines = wrapped(printable(reason), room.wide, FIGURE)
    items = tuple(
        Text(at=(room.left, room.top + 12.0 + n * LINE), text=line, size=FIGURE) for n, line in enumerate(lines)
    )
    return Draft(title="no order", kind="assembly", number="S0", scale="–", size=SIZE, items=items)


def _pictures(desk: Desk, order: Any) -> Iterator[tuple[Act, str, Hovering]]:
    """Of each stage first what lies, with all that is only laid beside it; then a picture a step; then what waits."""
    piece = desk.book.piece
    bodies = {part.id: body_of(part, desk.book.solids) for part in piece.parts}
    leans = [90.0 - board.angle for board in piece.boards if board.lies == "across"]
    views = {up: Lying(bodies, camera(leans, turned_over=up == "wall")) for up in ("front", "wall")}
    room = space(SIZE, desk)
    inside = (room.left - 5.0, MARGIN + BOX[1] + 1.0, room.right + 3.0, room.bottom)
    glued = _glued(desk)
    in_units = {part: stage.name for stage in order.stages if stage.name for part in stage.parts}
    drawn = [stage for stage in order.stages if stage.steps or len(order.stages) == 1]  # not a unit that is all there is
    for stage in drawn:
        units: Mapping[str, str] = {} if stage.name else in_units
        steps, lying = list(stage.steps), list(stage.first)
        while steps and not steps[0].legs and not steps[0].turned:
            lying += steps.pop(0).parts
        yield laid(desk, lying, units), stage.name, Hovering(desk, views["front"], tuple(lying), (), None, inside)
        for step in steps:
            act = put_in(desk, step, glued, units) if step.legs else laid(desk, step.parts, units)
            yield act, stage.name, Hovering(desk, views[step.up], step.onto, step.parts, step, inside)
        if stage.after:
            up = steps[-1].up if steps else "front"
            act = waited(desk, stage, last=stage is drawn[-1])
            yield act, stage.name, Hovering(desk, views[up], stage.parts, (), None, inside)


def _glued(desk: Desk) -> dict[Pair, bool]:
    plan = desk.book.studies.get("glue_up")
    return {key: True for go in (plan.stages if plan is not None else ()) for key in go.glued}


def _items(number: int, act: Act, stage: str, picture: Hovering) -> Iterator[Item]:
    """One sheet: its head, what to mind, the picture with its letters."""
    room = space(SIZE, picture.desk)
    yield from _head(number, act, stage, room.right)
    x, lines = room.right - SIDE + 2.0, [w for said in act.minds for w in wrapped(printable(said), SIDE - 2.0, FIGURE)]
    top = room.bottom - LINE * len(lines)
    for row, line in enumerate(lines):
        yield Text(at=(x, top + LINE * row + FIGURE + 0.8), text=line, size=FIGURE)
    left, right = room.left + AROUND, room.right - AROUND
    above, below = MARGIN + BOX[1] + AROUND, room.bottom - AROUND
    rooms = [(left, above, right - SIDE, below), (left, above, right, top - AROUND)]
    picture.fit(rooms)
    if lines:
        picture.taken.append(box(x - 2.0, top - 2.0, x + SIDE + 5.0, room.bottom + 5.0))
    yield from picture.drawn()
    yield from letters(picture)
    yield from ends(picture)


def _head(number: int, act: Act, stage: str, right: float) -> Iterator[Item]:
    """The number white on black, the sentence, how the part is held."""
    wide, high = BOX
    size = NUMBER if number < 100 else NUMBER * 0.7
    yield Area(loops=(rectangle(LEFT, MARGIN, wide, high),), layer="frame")
    at = (LEFT + wide / 2, MARGIN + (high + size) / 2)
    yield Text(at=at, text=str(number), size=size, weight="bold", anchor="middle", ink="white", layer="frame")
    x, room = LEFT + wide + 4.0, right - LEFT - wide - 4.0
    said = printable(act.title)
    size = next((s for s in TITLES if width(said, s, "bold") <= room), TITLES[-1])
    yield Text(at=(x, MARGIN + TITLES[0] + 1.0), text=fitted(said, room, size, "bold"), size=size, weight="bold")
    held = fitted(printable(f"{stage}: {act.says}" if stage else act.says), room, FIGURE)
    yield Text(at=(x, MARGIN + TITLES[0] + 8.4), text=held, size=FIGURE)
