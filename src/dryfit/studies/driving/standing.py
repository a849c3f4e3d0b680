"""The steps of the order with what comes at each: the one place where this study reads the order.

Where the piece is put together on the wall, its steps are those of the order on the wall. Else it goes up as it is: all
that is joined is one step then, and boards that are joined to nothing come one by one, those that are screwed to the
wall first.
"""

from collections.abc import Iterable, Sequence

from ...places import Pair
from ...sentences import Name, Sentence, Several, say
from ..hanging.result import Hanging
from ..order.result import Order, StagePlan
from .result import StepComing


def steps_on_wall(
    order: Order, hanging: Hanging, joined: Iterable[Pair], screwed: frozenset[str]
) -> tuple[StepComing, ...]:
    """The steps; none where no order is worked out.

    Args:
        order: as it was found; `hanging` which way the piece goes up.
        joined: pairs of boards that a joint ties.
        screwed: the boards that are screwed to the wall.
    """
    if not order.stages or order.overlaps:
        return ()
    if order.wall is not None and hanging.way == "wall":
        return tuple(
            StepComing(says=one.step.name, parts=one.step.parts, into=one.step.into, on_wall=one.on_wall)
            for one in order.wall.steps
        )
    if order.stages[-1].locked or (order.wall is not None and hanging.way is None):
        return ()
    return _hung(order.stages[-1], joined, screwed)


def _hung(whole: StagePlan, joined: Iterable[Pair], screwed: frozenset[str]) -> tuple[StepComing, ...]:
    groups = _tied(whole.parts, joined)
    groups.sort(key=lambda group: screwed.isdisjoint(group))
    return tuple(StepComing(says=_named(group), parts=group) for group in groups)


def _tied(parts: Sequence[str], joined: Iterable[Pair]) -> list[tuple[str, ...]]:
    """The parts in groups that joints tie, in their order."""
    top = {part: part for part in parts}

    def root(part: str) -> str:
        while top[part] != part:
            top[part] = part = top[top[part]]
        return part

    for one, other in joined:
        if one in top and other in top:
            top[root(one)] = root(other)
    groups: dict[str, list[str]] = {}
    for part in parts:
        groups.setdefault(root(part), []).append(part)
    return [tuple(group) for group in groups.values()]


def _named(parts: tuple[str, ...]) -> Sentence:
    return say("{}", Several(tuple(map(Name, parts))))
