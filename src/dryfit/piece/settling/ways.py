"""How bodies leave each other, read from the motions of joints' makings: no solids needed.

A direction suits a motion when it strays from it by no more than the joint's play allows on the way out.
Where two faces only touch (nothing need come free), every direction serves that does not press them
together, nor others that the motion is kept `within`. A link whose making is still open allows what any of its
makings allows: it is only ever parted once, so the making can be chosen then.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import accumulate, pairwise

import numpy as np
from numpy.typing import NDArray

from ...geometry.frames import Vec, cross, dot
from ...places import Pair
from ...sentences import Words
from ..choose import Chosen
from ..meetings import name_order
from ..model import Decider, Making, Motion
from .apart import FRONT, NEITHER, WALLWARD, Shut, bits, take_apart

AT_ONCE = 200_000  # joints times directions, to bound memory
STRAY = 1e-6  # sine of the angle that is no difference of direction
UP: Vec = (0.0, 0.0, 1.0)
DOWN: Vec = (0.0, 0.0, -1.0)


def backwards(v: Vec) -> Vec:
    """The opposite direction."""
    return (-v[0] + 0.0, -v[1] + 0.0, -v[2] + 0.0)


def side_of(direction: Vec) -> int:
    """Where a direction leads: to the front, to the wall, or neither."""
    return FRONT if direction[2] > STRAY else WALLWARD if direction[2] < -STRAY else NEITHER


def permits(motions: Iterable[Motion], body: str, direction: Vec) -> bool:
    """Whether `body` may leave the other body of the joint in that direction."""
    for motion in motions:
        out = direction if motion.body == body else backwards(direction)
        along = dot(motion.direction, out)
        if motion.free == 0.0:
            if along >= -STRAY and all(dot(normal, out) >= -STRAY for normal in motion.within):
                return True
        elif along > 0.0:
            aside = cross(motion.direction, out)  # not from `along`, which says nothing of a small angle
            if dot(aside, aside) <= (along * motion.slack / motion.free + STRAY) ** 2:
                return True
    return False


def parting(
    joints: Sequence[tuple[str, Sequence[Motion]]], directions: NDArray[np.float64]
) -> Iterator[tuple[int, int]]:
    """Of each joint the sets of directions, of many `(n, 3)`, in which a body leaves the other, and the other it.

    It says of each direction what `permits` says, for any of the joint's motions. A joint is given by that body and
    its motions.
    """
    any_of = np.logical_or.reduce
    at_once = max(1, AT_ONCE // max(1, len(directions)))
    for start in range(0, len(joints), at_once):
        some = joints[start : start + at_once]
        motions = [(motion, body) for body, own in some for motion in own]
        ends = list(accumulate((len(own) for _, own in some), initial=0))
        leaves, left = _permitted(motions, directions)
        for low, high in pairwise(ends):
            yield as_set(any_of(leaves[low:high], axis=0)), as_set(any_of(left[low:high], axis=0))


def _permitted(
    motions: Sequence[tuple[Motion, str]], directions: NDArray[np.float64]
) -> tuple[NDArray[np.bool_], NDArray[np.bool_]]:
    """`(motions, directions)` whether a body may leave by a motion, and whether the other may."""
    x, y, z = directions.T[:, None, :]
    u, v, w = np.reshape([motion.direction for motion, _ in motions], (-1, 3)).T[:, :, None]
    sign = np.asarray([1.0 if motion.body == body else -1.0 for motion, body in motions])[:, None]
    free = np.asarray([motion.free for motion, _ in motions])[:, None]
    slack = np.asarray([motion.slack for motion, _ in motions])[:, None]
    along = sign * (u * x + v * y + w * z)
    a, b, c = v * z - w * y, w * x - u * z, u * y - v * x
    aside = a * a + b * b + c * c

    def permitted(along: NDArray[np.float64]) -> NDArray[np.bool_]:
        room = along * slack / np.where(free == 0.0, 1.0, free) + STRAY
        found: NDArray[np.bool_] = np.where(free == 0.0, along >= -STRAY, (along > 0.0) & (aside <= room * room))
        return found

    leaves, left = permitted(along), permitted(-along)
    for number, (motion, body) in enumerate(motions):
        for normal in motion.within:
            off = (1.0 if motion.body == body else -1.0) * (directions @ np.asarray(normal))
            leaves[number] &= off >= -STRAY
            left[number] &= -off >= -STRAY
    return leaves, left


def as_set(chosen: NDArray[np.bool_]) -> int:
    """Numbers as the bits of an integer."""
    return int.from_bytes(np.packbits(chosen, bitorder="little").tobytes(), "little")


def free_after(motions: Iterable[Motion], body: str, direction: Vec) -> float | None:
    """Distance after which the joint holds `body` no longer; None where it cannot leave that way."""
    fits = [motion.free for motion in motions if permits((motion,), body, direction)]
    return min(fits) if fits else None


@dataclass(frozen=True, slots=True)
class Link:
    """A joint between two bodies, and the makings that are still open for it.

    Attributes:
        makings: what may still be chosen, the plainest first.
        bodies: of the two boards in the order of the key: the boards, or the units they are in.
        every: all the makings it has.
        reason: why fewer makings are open than the joint has; "" while nothing speaks against any.
        decider: who left it one.
    """

    chosen: Chosen
    makings: tuple[Making, ...]
    bodies: Pair
    every: tuple[Making, ...]
    reason: Words = ""
    decider: Decider = "chosen"

    @property
    def key(self) -> Pair:
        """Of the joint."""
        return self.chosen.meeting.key

    def other(self, board: str) -> str:
        """The other board of the joint."""
        return self.key[1] if board == self.key[0] else self.key[0]

    def left(self, makings: tuple[Making, ...], reason: Words = "") -> "Link":
        """The same with only these makings open; a reason that it had stays."""
        return replace(self, makings=makings, reason=self.reason or reason)


def lies_first(link: Link, making: Making) -> tuple[bool, bool]:
    """Whether the first board, and whether the second, can lie while the other comes down onto it."""
    name = link.key[0]
    return permits(making.motions, name, DOWN), permits(making.motions, name, UP)


class MotionGraph:
    """`apart.Blocking` of links: bodies by name, directions from the makings' motions."""

    def __init__(self, names: Sequence[str], links: Iterable[Link]) -> None:
        self.names = tuple(names)
        self.links = tuple(links)
        self.number = {name: index for index, name in enumerate(self.names)}

    @cached_property
    def directions(self) -> tuple[Vec, ...]:
        """Up and down first, then the others, each with its opposite."""
        found: dict[tuple[float, ...], Vec] = {}
        for link in self.links:
            for making in link.makings:
                for motion in making.motions:
                    lines = (motion.direction, *motion.within)
                    for way in (way for line in lines for way in (line, backwards(line))):
                        found.setdefault(tuple(round(part, 6) + 0.0 for part in way), way)
        for way in (UP, DOWN):
            found.pop(tuple(way), None)
        return (UP, DOWN, *(found[key] for key in sorted(found)))

    @cached_property
    def sides(self) -> tuple[int, ...]:
        """Where each direction leads."""
        return tuple(side_of(direction) for direction in self.directions)

    @cached_property
    def _shut(self) -> Shut:
        shut = Shut(len(self.names), len(self.directions))
        directions = np.asarray(self.directions)
        joints = [
            (link.key[0], [motion for making in link.makings for motion in making.motions]) for link in self.links
        ]
        for link, (leaves, left) in zip(self.links, parting(joints, directions), strict=True):
            i, j = (self.number[body] for body in link.bodies)
            shut.add(i, j, shut.every & ~leaves)
            shut.add(j, i, shut.every & ~left)
        return shut

    def open(self, body: int, rest: int) -> Iterator[int]:
        """Up, down, then those in the plane."""
        return bits(self._shut.open(body, rest))

    def blockers(self, way: int, body: int) -> int:
        """Bodies whose joint with this one does not part that way."""
        return self._shut.blockers(way, body)

    def clear(self, way: int, movers: int, rest: int) -> bool:
        """The joints are all there is to know."""
        return True

    def around(self, body: int) -> int:
        """Those that a joint holds to it."""
        return self._shut.others[body]

    def cost(self, way: int, body: int, rest: int) -> int:
        """Which of them goes first does not matter to how the joints are made."""
        return 0

    def detour(self, movers: int, rest: int, side: int) -> None:
        """A joint parts in one step."""
        return


def opened(links: Iterable[Link], boards: set[str]) -> list[Link]:
    """Links between these boards, each board for itself."""
    return [replace(link, bodies=link.key) for link in links if set(link.key) <= boards]


def comes_apart(links: Sequence[Link]) -> bool:
    """Whether the bodies of these links come apart, by the motions of the joints."""
    names = sorted({body for link in links for body in link.bodies}, key=name_order)
    graph = MotionGraph(names, links)
    return not take_apart(graph, (1 << len(names)) - 1, range(len(names))).locked


def by_name(makings: Iterable[Making]) -> Mapping[str, Making]:
    """Hands by the board that opens to the front."""
    return {making.front: making for making in makings}
