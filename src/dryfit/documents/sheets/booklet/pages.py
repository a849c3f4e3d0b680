"""What stands on each sheet of the assembly booklet: units first, then the piece, then how it is stood up.

A picture a step; what only lies beside the rest before anything is put in shares the first. A part of the piece that
is put together by itself begins with what lies first of it.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from ....sentences import told
from ....studies.glue_up.result import GlueUp
from ....studies.order.result import Order, StagePlan, Step
from ...looks import Desk
from .acts import put_in
from .laying import Act, Scenery, Up, laid, waited
from .standing_up import standing_up


@dataclass(frozen=True, slots=True, kw_only=True)
class BookletPage:
    """One sheet.

    Attributes:
        stage: name of the unit, "" for the piece.
        there: what lies there; `incoming` what is drawn grey.
        step: the move, None where nothing moves.
        whole: whether the whole piece is moved, once it is together.
        after: work that is done when the glue has set, by the keys of its operations.
        hung: whether it goes up on the wall, the piece standing at it.
    """

    act: Act
    stage: str
    up: Up
    there: tuple[str, ...]
    incoming: tuple[str, ...] = ()
    step: Step | None = None
    whole: bool = False
    after: tuple[str, ...] = ()
    hung: bool = False


def pages(desk: Desk) -> list[BookletPage]:
    """All sheets in order; none where there is no order."""
    if "booklet" not in desk.kept:
        desk.kept["booklet"] = list(_pages(desk)) if not no_order(desk) else []
    found: list[BookletPage] = desk.kept["booklet"]
    return found


def no_order(desk: Desk) -> str:
    """Why there is no booklet; "" where there is one."""
    order = desk.book.found(Order)
    if not desk.book.piece.parts:
        return "There is nothing to put together."
    if order is None:
        return f"No order was worked out: {desk.book.left_out.get('order', 'it was not asked for')}."
    if order.overlaps:
        return "No order is worked out while parts overlap: see the list of findings."
    if order.locked:
        locked = told(order.locked[0].says, desk.book.voice)
        return f"{locked} cannot be put together, {order.proof}: see the list of findings."
    return ""


def _pages(desk: Desk) -> Iterator[BookletPage]:
    order = desk.book.found(Order)
    assert order is not None, "else there is no booklet"
    in_units = {part: stage.name for stage in order.stages if stage.name for part in stage.parts}
    drawn = [stage for stage in order.stages if stage.steps or len(order.stages) == 1]
    for stage in drawn:
        yield from _stage(desk, stage, {} if stage.name else in_units, last=stage is drawn[-1])
    up: Up = drawn[-1].steps[-1].up if drawn and drawn[-1].steps else "front"
    act = standing_up(desk, up)
    if act is not None:
        yield BookletPage(act=act, stage="", up=up, there=tuple(part.id for part in desk.book.piece.parts), whole=True)


def _stage(desk: Desk, stage: StagePlan, units: Mapping[str, str], *, last: bool) -> Iterator[BookletPage]:
    """What lies, a page a step, what waits for the glue."""
    steps, lying = list(stage.steps), list(stage.first)
    up: Up = steps[0].up if steps else "front"
    while steps and not steps[0].legs:
        lying += steps.pop(0).parts
    wholes = [stage.parts, *(step.parts for step in steps if len(step.parts) > 1 and not _unit(step, units))]
    yield BookletPage(
        act=laid(_seen(desk, lying, wholes, units), lying, up), stage=stage.name, up=up, there=tuple(lying)
    )
    present = set(lying)
    for step in steps:
        fresh = [name for name in step.onto if name not in present]
        if fresh:  # of a part that is put together by itself
            act = laid(_seen(desk, fresh, wholes, units), fresh, step.up, begun=True)
            yield BookletPage(act=act, stage=stage.name, up=step.up, there=tuple(fresh))
        seen = _seen(desk, (*step.onto, *step.parts), wholes, units)
        act = put_in(seen, step) if step.legs else laid(seen, step.parts, step.up, begun=True)
        yield BookletPage(act=act, stage=stage.name, up=step.up, there=step.onto, incoming=step.parts, step=step)
        present.update((*step.onto, *step.parts))
    if stage.after:
        up = steps[-1].up if steps else up
        act = waited(_seen(desk, stage.parts, wholes, units), stage, last=last)
        yield BookletPage(act=act, stage=stage.name, up=up, there=stage.parts, after=stage.after)


def _unit(step: Step, units: Mapping[str, str]) -> bool:
    return len({units.get(name, name) for name in step.parts}) == 1


def _seen(desk: Desk, names: Sequence[str], wholes: Sequence[tuple[str, ...]], units: Mapping[str, str]) -> Scenery:
    """What the words depend on: the floor lies under the smallest whole that these boards become part of."""
    boards = desk.book.piece.board_by_name
    whole = min((whole for whole in wholes if set(names) <= set(whole)), key=len)
    plan = desk.book.found(GlueUp)
    glued = frozenset(key for go in (plan.stages if plan is not None else ()) for key in go.glued)
    floor = {
        "front": min(boards[name].back for name in whole),
        "wall": max(boards[name].front for name in whole),
    }
    return Scenery(desk=desk, glued=glued, units=units, floor=floor)
