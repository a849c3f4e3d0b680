"""One order of laying: each body comes down over those that lie already, and the piece is never turned."""

import heapq
from collections.abc import Iterable, Mapping, Sequence
from types import MappingProxyType
from typing import TypeAlias

from ...geometry.frames import turned
from ...job.model import Turn
from ..history import rank as by_place
from ..meetings import name_order
from ..model import Meeting
from .ways import Link, lies_first

NOWHERE: Mapping[str, Turn] = MappingProxyType({})  # no place on the wall is said of anything
_Priority: TypeAlias = tuple[tuple[int, int], int, tuple[tuple[int, int, str], ...], str]


def laying_order(
    names: Iterable[str], links: Sequence[Link], places: Mapping[str, Turn] = NOWHERE
) -> dict[str, int] | None:
    """One order of all bodies in which each comes down over those that lie; None if there is none.

    By their places on the wall, where the job gives any. Else level boards come first, with those steep ones that must
    lie before some level one; the other steep ones follow; ties by name.
    """
    later: dict[str, set[str]] = {name: set() for name in names}
    waits = dict.fromkeys(later, 0)
    for link in links:
        ways = [lies_first(link, making) for making in link.makings]
        first, second = any(way[0] for way in ways), any(way[1] for way in ways)
        if not first and not second:
            return None
        if first != second:
            one, other = link.bodies if first else link.bodies[::-1]
            if other not in later[one]:
                later[one].add(other)
                waits[other] += 1
    steep = steep_ones(links)
    early = _before(later, {name for name in later if not steep.get(name, False)})

    def priority(name: str) -> _Priority:
        turn = 0 if not steep.get(name, False) else 1 if name in early else 2
        return by_place(places.get(name)), turn, name_order(name), name

    ready = [(priority(name), name) for name, count in waits.items() if count == 0]
    heapq.heapify(ready)
    rank: dict[str, int] = {}
    while ready:
        _, name = heapq.heappop(ready)
        rank[name] = len(rank)
        for then in later[name]:
            waits[then] -= 1
            if waits[then] == 0:
                heapq.heappush(ready, (priority(then), then))
    return rank if len(rank) == len(waits) else None


def _before(later: Mapping[str, set[str]], names: set[str]) -> set[str]:
    """The names, and all that must lie before any of them."""
    earlier: dict[str, list[str]] = {}
    for first, following in later.items():
        for then in following:
            earlier.setdefault(then, []).append(first)
    found, waiting = set(names), list(names)
    while waiting:
        for first in earlier.get(waiting.pop(), ()):
            if first not in found:
                found.add(first)
                waiting.append(first)
    return found


def steep_ones(links: Iterable[Link]) -> dict[str, bool]:
    """Which boards stand steeper than 45; a unit never does."""
    steep: dict[str, bool] = {}
    for link in links:
        meeting = link.chosen.meeting
        for board, direction in ((meeting.a.body, _direction_of_a(meeting)), (meeting.b.body, meeting.frame.x[:2])):
            if board in link.bodies:
                steep[board] = abs(direction[1]) - abs(direction[0]) > 1e-9  # whatever the last bit
    return steep


def _direction_of_a(meeting: Meeting) -> tuple[float, float]:
    """Direction of side a in the elevation: b's, turned back."""
    (bx, by, _), (tx, ty) = meeting.frame.x, turned(meeting.b.turn)
    return (bx * tx - by * ty, bx * ty + by * tx)
