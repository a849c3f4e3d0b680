"""Keeping what was worked out, by the value it was worked out from.

Every stage after reading is a pure function of frozen values, so its answer may be kept by those values:
there is nothing to mark as out of date, and a kept answer equals a fresh one bit for bit. The counters
show which work an edit really repeated.
"""

import gc
from collections import Counter, OrderedDict
from collections.abc import Callable, Hashable, Iterator
from contextlib import contextmanager
from typing import Any, TypeVar

T = TypeVar("T")


@contextmanager
def no_search_for_rings() -> Iterator[None]:
    """Python does not look meanwhile for objects that hold each other in rings.

    What is made here is frozen and has none, and each look goes through all that is kept: time would grow faster
    than the piece. So it is with modules that are read in: they stay.
    """
    searches = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if searches:
            gc.enable()


@contextmanager
def few_searches_for_rings() -> Iterator[None]:
    """Python looks for them seldom meanwhile, and not through what is there already: for long work that makes some."""
    usual = gc.get_threshold()
    gc.freeze()
    gc.set_threshold(50_000, 20, 100)
    try:
        yield
    finally:
        gc.set_threshold(*usual)
        gc.unfreeze()


class Same:
    """A key for a value by its identity, for values that are themselves kept and dear to hash.

    It holds the value, so that no other can take its place. A value that was made anew, though equal, is
    another key: the work is then done again and gives the same answer.
    """

    __slots__ = ("value",)

    def __init__(self, value: object) -> None:
        self.value = value

    def __hash__(self) -> int:
        return id(self.value)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Same) and self.value is other.value


class _Lying:
    """An answer that is kept, and whether it was asked for since it was put where it lies."""

    __slots__ = ("answer", "asked")

    def __init__(self, answer: Any) -> None:
        self.answer = answer
        self.asked = False


class Keep:
    """Answers kept by stage and key; of too many the one that has lain longest without being asked for is forgotten.

    To find out which that is, an answer that is there is only marked: putting it last each time would cost as much
    again as finding it, a few hundred times in a step of a drag.

    Attributes:
        made: how often each stage had to work, by stage.
        found: how often its answer was there already, by stage.
    """

    def __init__(self, limit: int = 20_000) -> None:
        self.limit = limit
        self.made: Counter[str] = Counter()
        self.found: Counter[str] = Counter()
        self._kept: OrderedDict[tuple[str, Hashable], _Lying] = OrderedDict()

    def get(self, stage: str, key: Hashable, make: Callable[[], T]) -> T:
        """Return what `make` gave for this key before, or call it now."""
        place = (stage, key)
        kept = self._kept
        lying = kept.get(place)
        if lying is not None:
            self.found[stage] += 1
            lying.asked = True
            answer: T = lying.answer
            return answer
        self.made[stage] += 1
        answer = make()
        kept[place] = _Lying(answer)
        while len(kept) > self.limit:
            first, oldest = kept.popitem(last=False)
            if oldest.asked:
                oldest.asked, kept[first] = False, oldest
        return answer
