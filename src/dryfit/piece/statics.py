"""What stands and what falls, by the weight of bodies alone: sums in the elevation, no wood and no names of kinds.

Bodies that grip each other are one: glued, screwed, or run through each other's slots. One is held while its
weight, at its middle, is borne by what is held already: nothing is pressed harder than at a contact, nothing
slides but on a level. Frictionless but for feet on the floor; so what only friction would hold is told as falling.
Time grows with the contacts; only a body with leaning ones asks for a linear programme in the plane.
"""

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import lru_cache

from ..geometry.frames import Vec2
from .model import FLOOR, Bearing, Carry

LEVER = 1.0  # a weight that hangs out by no more is borne
EVEN = 1e-9
FAR = 1e7  # of a rotation's speed, beyond all lengths
ROUNDS = 8  # of bodies that tip because those before them did; those after are told once these are mended


@dataclass(frozen=True, slots=True)
class HeldPoint:
    """A place where a body cannot move that way against the other."""

    other: str
    way: Vec2
    at: Vec2


@dataclass(frozen=True, slots=True, kw_only=True)
class Bond:
    """A joint as the statics see it.

    Attributes:
        pair: the two bodies.
        grips: whether they move as one in the elevation; `held` whether nothing parts them at all.
        contacts: of the first body, and of the second.
        rests: whether it only bears: nothing keeps the two together.
    """

    pair: tuple[str, str]
    grips: bool
    held: bool
    contacts: tuple[tuple[HeldPoint, ...], tuple[HeldPoint, ...]]
    rests: bool


def bond(pair: tuple[str, str], carries: Sequence[Carry]) -> Bond:
    """What a joint's carries come to."""
    sides: tuple[list[HeldPoint], list[HeldPoint]] = [], []
    shut: dict[Vec2, int] = {}
    for carry in carries:
        own = pair.index(carry.body)
        for x, y, _ in carry.ways:
            if carry.how is not Bearing.RESTS:
                shut[(x, y)] = max(shut.get((x, y), 0), len(carry.at))
            for place in carry.at:
                at = (place[0], place[1])
                sides[own].append(HeldPoint(carry.by, (x, y), at))
                sides[1 - own].append(HeldPoint(carry.body, (-x + 0.0, -y + 0.0), at))
    return Bond(
        pair=pair,
        grips=_grips(shut),
        held=any(carry.how is Bearing.PULLS and len(carry.at) > 1 for carry in carries),
        contacts=(tuple(sides[0]), tuple(sides[1])),
        rests=all(carry.how is Bearing.RESTS for carry in carries),
    )


def _grips(shut: Mapping[Vec2, int]) -> bool:
    """Whether two pairs of opposite ways, not parallel, are shut at two places each."""
    axes: list[Vec2] = []
    for way, places in shut.items():
        back = any(math.hypot(way[0] + x, way[1] + y) < EVEN and count > 1 for (x, y), count in shut.items())
        if places > 1 and back:
            axes.append(way)
    return any(abs(x * axes[0][1] - y * axes[0][0]) > EVEN for x, y in axes[1:])


def feet(points: Iterable[Vec2]) -> tuple[HeldPoint, ...]:
    """Contacts of a body that stands on the floor with these points: it neither sinks nor slides."""
    return tuple(HeldPoint(FLOOR, way, point) for point in points for way in ((0.0, -1.0), (1.0, 0.0), (-1.0, 0.0)))


@dataclass(slots=True)
class _Body:
    """Bodies that grip each other, as one."""

    names: list[str] = field(default_factory=list)
    mass: float = 0.0
    moment: list[float] = field(default_factory=lambda: [0.0, 0.0])
    contacts: list[HeldPoint] = field(default_factory=list)

    @property
    def middle(self) -> Vec2:
        return self.moment[0] / self.mass, self.moment[1] / self.mass


@dataclass(frozen=True, slots=True)
class Balance:
    """Who is held, and who is not though something bears it: it tips, by its body's names."""

    held: frozenset[str]
    tips: tuple[tuple[str, ...], ...]


def one_body(names: Iterable[str], pairs: Iterable[tuple[str, str]]) -> dict[str, str]:
    """For every name one that stands for all those it is joined to by the pairs."""
    parent = {name: name for name in names}

    def root(name: str) -> str:
        while parent[name] != name:
            parent[name] = parent[parent[name]]
            name = parent[name]
        return name

    for one, other in pairs:
        if one in parent and other in parent:
            parent[root(one)] = root(other)
    return {name: root(name) for name in parent}


def standing(
    weights: Mapping[str, tuple[Vec2, float]],
    bonds: Iterable[Bond],
    on_floor: Mapping[str, tuple[HeldPoint, ...]],
    as_one: Iterable[tuple[str, str]] = (),
) -> Balance:
    """Who is held by the floor or by a body that is none of these: the wall.

    Args:
        weights: the middle of each body, in the elevation, and its mass in any one unit.
        bonds: between bodies, and with the wall.
        on_floor: contacts with the floor, of those that have any.
        as_one: further pairs, taken to move as one.
    """
    bonds = list(bonds)
    roots = one_body(weights, [*(bond.pair for bond in bonds if bond.grips), *as_one])
    bodies: dict[str, _Body] = {}
    for name, ((x, y), mass) in weights.items():
        body = bodies.setdefault(roots[name], _Body())
        body.names.append(name)
        body.mass += mass
        body.moment[0] += x * mass
        body.moment[1] += y * mass
        body.contacts += on_floor.get(name, ())
    for bond in bonds:
        own, other = (roots.get(name, "") for name in bond.pair)
        if own == other:
            continue
        for root, contacts in ((own, bond.contacts[0]), (other, bond.contacts[1])):
            if root:
                bodies[root].contacts += contacts
    return _settled(bodies, roots)


def _settled(bodies: Mapping[str, _Body], roots: Mapping[str, str]) -> Balance:
    """From the ground up who is borne; then, until none is left, who tips all the same and what stood on it."""
    tipped: list[str] = []
    borne = _borne(bodies, roots, set())
    for _ in range(ROUNDS):
        falls = [root for root in borne if _tips(bodies[root], borne, roots)]
        if not falls:
            break
        tipped += sorted(falls)
        borne = _borne(bodies, roots, set(tipped))
    held = frozenset(name for root in borne for name in bodies[root].names)
    return Balance(held=held, tips=tuple(tuple(bodies[root].names) for root in tipped))


def _holding(body: _Body, borne: set[str], roots: Mapping[str, str]) -> list[HeldPoint]:
    """Its contacts with the ground and with what is borne."""
    return [contact for contact in body.contacts if contact.other not in roots or roots[contact.other] in borne]


def _borne(bodies: Mapping[str, _Body], roots: Mapping[str, str], tipped: set[str]) -> set[str]:
    """Bodies whose weight is borne from the ground up, turning left aside."""
    above: dict[str, set[str]] = {}
    for root, body in bodies.items():
        for contact in body.contacts:
            above.setdefault(roots.get(contact.other, ""), set()).add(root)
    borne: set[str] = set()
    waiting = sorted(above.get("", ()))
    while waiting:
        root = waiting.pop()
        if root in borne or root in tipped or not bears(_holding(bodies[root], borne, roots)):
            continue
        borne.add(root)
        waiting += sorted(above.get(root, set()) - borne)
    return borne


def bears(contacts: Iterable[HeldPoint]) -> bool:
    """Whether a weight lies in the cone of the ways that are shut: it can go neither down nor aside and down."""
    left = right = -math.inf
    for contact in contacts:
        x, y = contact.way
        if abs(x) <= EVEN:
            if y < 0.0:
                return True
        elif x < 0.0:
            left = max(left, y / x)  # down is positive: both are negative
        else:
            right = max(right, -y / x)
    return left + right > EVEN


def _tips(body: _Body, borne: set[str], roots: Mapping[str, str]) -> bool:
    """Whether what bears it lets it turn over."""
    contacts = _holding(body, borne, roots)
    middle = body.middle
    if _straddled(contacts, middle[0]):
        return False
    return _turns_over(tuple(contacts), middle)


@lru_cache(maxsize=8192)  # of a large piece most stand as they did at the step before
def _turns_over(contacts: tuple[HeldPoint, ...], middle: Vec2) -> bool:
    """Whether it may sink by turning, one way or the other."""
    return any(_sinks(contacts, middle, turn) for turn in (1.0, -1.0))


def _straddled(contacts: Sequence[HeldPoint], x: float) -> bool:
    """Whether level contacts alone bear it: on both sides of its middle, or held down on the side away from it."""
    down = [contact.at[0] for contact in contacts if contact.way[1] <= EVEN - 1.0]
    if not down:
        return False
    up = [contact.at[0] for contact in contacts if contact.way[1] >= 1.0 - EVEN]
    low, high = min(down), max(down)
    return (low <= x + LEVER or (bool(up) and max(up) > low + LEVER)) and (
        high >= x - LEVER or (bool(up) and min(up) < high - LEVER)
    )


def _sinks(contacts: Sequence[HeldPoint], middle: Vec2, turn: float) -> bool:
    """Whether a body that turns that way, one radian a second, may go down with its middle meanwhile.

    The lowest speed of the middle is that of a linear programme in the plane, solved line by line.
    """
    bounds: dict[Vec2, float] = {}
    for contact in contacts:
        (x, y), rx, ry = contact.way, contact.at[0] - middle[0], contact.at[1] - middle[1]
        most = -turn * (rx * y - ry * x)
        bounds[contact.way] = min(most, bounds.get(contact.way, math.inf))
    box = [((1.0, 0.0), FAR), ((-1.0, 0.0), FAR), ((0.0, 1.0), FAR), ((0.0, -1.0), FAR)]
    lines = box + sorted(bounds.items(), key=lambda line: line[0][1])
    speed: Vec2 | None = (0.0, -FAR)
    for number, ((x, y), most) in enumerate(lines):
        if speed is None or speed[1] > -LEVER:
            return False
        if speed[0] * x + speed[1] * y > most + EVEN * FAR:
            speed = _lowest_on(lines[:number], (x, y), most)
    return speed is not None and speed[1] < -LEVER


def _lowest_on(lines: Sequence[tuple[Vec2, float]], way: Vec2, most: float) -> Vec2 | None:
    """The lowest point of a line that keeps within the others; None where none of it does."""
    x, y = way
    along = (y, -x) if x > 0.0 or (x == 0.0 and y > 0.0) else (-y, x)  # downhill, or level
    start = (x * most, y * most)
    low, high = -math.inf, math.inf
    for (u, v), bound in lines:
        rate, room = u * along[0] + v * along[1], bound - (u * start[0] + v * start[1])
        if abs(rate) <= EVEN:
            if room < -EVEN * FAR:
                return None
        elif rate > 0.0:
            high = min(high, room / rate)
        else:
            low = max(low, room / rate)
    if low > high + EVEN:
        return None
    far = high if along[1] < 0.0 else low
    return start[0] + along[0] * far, start[1] + along[1] * far
