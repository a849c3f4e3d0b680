"""What each kind of joint brings to the properties that hold for every joint.

It stands beside the kind's test, in a file called as the kind's own in `src/dryfit/joints/`, and is found by standing
there: `pairs()`, a strategy of pairs of boards that the kind can join, and `seen(pair, front)`, what plane geometry
makes of one, whose joint has this board open to the front. A kind that has no such pairs says in `NOT_DRAWN` why. One
whose options may stay left out says by `left_out(options)` which of these do: there is nothing that they could be of.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from importlib import import_module
from types import ModuleType
from typing import Any

from hypothesis.strategies import SearchStrategy

from dryfit.joints import KINDS
from tests.property.closed_forms import Seen
from tests.strategies import Pair

WRITE = (
    "the joint {kind!r} takes part in no property: write tests/joints/{file}.py with `pairs()`, a strategy of the "
    "pairs of boards it joins, and `seen(pair, front)`, its closed form; or with `NOT_DRAWN`, why it has none "
    "(docs/adding-a-joint.md, step 9)"
)


def _none(options: Mapping[str, Any]) -> set[str]:
    return set()


@dataclass(frozen=True, slots=True, kw_only=True)
class Brought:
    """What one kind brings: `pairs` and `seen`, or why it has none; `lacks`, what is to be written.

    Attributes:
        left_out: the names of the options that stay None beside these others, as worked out.
    """

    pairs: Callable[[], SearchStrategy[Pair]] | None = None
    seen: Callable[[Pair, str], Seen] | None = None
    not_drawn: str = ""
    lacks: str = ""
    left_out: Callable[[Mapping[str, Any]], set[str]] = _none


def brought(kind: str, file: str) -> Brought:
    """What stands beside a kind's test.

    Args:
        kind: the kind's name.
        file: its module or room in `dryfit.joints`.
    """
    found = _beside(file)
    pairs, seen, why = (getattr(found, name, None) for name in ("pairs", "seen", "NOT_DRAWN"))
    if why or (pairs and seen):
        left_out = getattr(found, "left_out", _none)
        return Brought(pairs=pairs, seen=seen, not_drawn=why or "", left_out=left_out)
    return Brought(lacks=WRITE.format(kind=kind, file=file))


def _beside(file: str) -> ModuleType | None:
    place = f"tests.joints.{file}"
    try:
        return import_module(place)
    except ModuleNotFoundError as lacking:
        if lacking.name != place:
            raise
        return None


BROUGHT: Mapping[str, Brought] = {
    name: brought(name, type(kind).__module__.removeprefix("dryfit.joints.").partition(".")[0])
    for name, kind in KINDS.items()
}
# The kinds that the properties draw.
PAIRS = {kind: one.pairs for kind, one in BROUGHT.items() if one.pairs is not None and not one.not_drawn}
SEEN = {kind: one.seen for kind, one in BROUGHT.items() if one.seen is not None and kind in PAIRS}
