"""How a box goes into a van, through a door, up a flight and round a corner, and the longest that will.

A box is its three sizes, the longest first. Each way is a closed form:

    corner    a floor `long` by `wide` turns from a corridor `a` wide into one `b` wide, square to it, where `long` is
              at most min over t of (a sin t + b cos t - wide) / (sin t cos t), its ends along the outer walls and its
              side at the inner corner; or it slides out sideways, where it is no longer than the other is wide
    tilted    lifted at one end by p it is long cos p + thick sin p on the floor, long sin p + thick cos p high
    flight    a headroom measured plumb leaves its cosine square to the steps
    opening   a rectangle turned in another: the least turn at which its width goes in, and then its height

What is smaller in any size goes wherever the larger one does, so the most of a size that passes is found by halving.
"""

import math
from collections.abc import Callable, Iterator
from itertools import permutations

from .result import HANDS, OVER_STEPS, Box, How, Passage, PassingWay, Size

SIZES: tuple[Size, Size, Size] = ("long", "wide", "thick")
NEAR = 1e-6  # so that what is as large as its opening goes in
HALVINGS = 40  # of a length, or an angle, until it is finer than any figure


def round_corner(a: float, b: float, wide: float) -> float:
    """The longest floor of this width that turns from a corridor into another square to it; 0 where it is too wide."""
    if wide > min(a, b) + NEAR:
        return 0.0
    return max(_bound(a, b, wide, math.radians(tightest(a, b, wide))), a, b)


def tightest(a: float, b: float, wide: float) -> float:
    """How far, in degrees, it has turned where there is least room; it is no wider than either corridor.

    The bound is (a - wide sin t) / cos t + (b - wide cos t) / sin t. The second derivative of the first is
    (a (1 + sin^2 t) - 2 wide sin t) / cos^3 t, which is no less than wide (1 - sin t)^2 / cos^3 t, and so with the
    other: the bound has one least, where its slope changes sign.
    """
    low, high = 0.0, math.pi / 2
    for _ in range(HALVINGS):
        t = (low + high) / 2
        sine, cosine = math.sin(t), math.cos(t)
        rises = (a * sine - wide) / cosine**2 > (b * cosine - wide) / sine**2
        low, high = (low, t) if rises else (t, high)
    return math.degrees((low + high) / 2)


def _bound(a: float, b: float, wide: float, t: float) -> float:
    return (a * math.sin(t) + b * math.cos(t) - wide) / (math.sin(t) * math.cos(t))


def tilt(long: float, thick: float, clear: float) -> float | None:
    """How far, in degrees, it is lifted at one end until it is as high as what is clear.

    None where it is too high as it lies; 90 where it may stand.
    """
    reach = math.hypot(long, thick)
    if thick > clear + NEAR:
        return None
    if clear >= reach:
        return 90.0
    return math.degrees(math.asin(clear / reach) - math.atan2(thick, long))


def floor_of(long: float, thick: float, lean: float) -> float:
    """What a box lifted at one end by `lean` degrees takes up on the floor, along it."""
    return long * math.cos(math.radians(lean)) + thick * math.sin(math.radians(lean))


def turned_in(long: float, short: float, wide: float, high: float) -> float | None:
    """The least turn in degrees at which a rectangle goes into another; None where it never does."""
    if long <= wide + NEAR and short <= high + NEAR:
        return 0.0
    reach = math.hypot(long, short)
    if wide >= reach:
        return None  # it goes in as it lies, or is too high at any turn
    turn = math.atan2(short, long) + math.acos(wide / reach)
    if turn > math.pi / 2 or long * math.sin(turn) + short * math.cos(turn) > high + NEAR:
        return None
    return math.degrees(turn)


def to_stand_up(high: float, deep: float) -> float:
    """What a box wants over it while it is stood up about an edge."""
    return math.hypot(high, deep)


# --- each passage, the ways in the order in which they are tried ----------------------------------------


def first_way(box: Box, passage: Passage, *, hands: bool) -> PassingWay | None:
    """The first way in which a box goes through; None where it does in none.

    Args:
        hands: whether room for hands and wrapping is taken off.
    """
    return next(_WAYS[passage.kind](box, passage, HANDS if hands else 0.0), None)


def most(box: Box, passage: Passage) -> tuple[Size, float] | None:
    """The size of which the least share is too much, and the most of it that goes through; None where none alone is."""
    found: list[tuple[float, Size, float]] = []
    for place, size in enumerate(SIZES):
        low, high = 0.0, box[place]
        for _ in range(HALVINGS):
            middle = (low + high) / 2
            low, high = (middle, high) if _passes(box, place, middle, passage) else (low, middle)
        if low > 0.0:
            found.append((1.0 - low / box[place], size, low))
    if not found:
        return None
    _, size, limit = min(found)
    return size, limit


def _passes(box: Box, place: int, size: float, passage: Passage) -> bool:
    one, two, three = sorted((*box[:place], size, *box[place + 1 :]), reverse=True)
    return first_way((one, two, three), passage, hands=False) is not None


def _lie(box: Box) -> Iterator[tuple[How, float, float, float]]:
    """How it lies, with what is then along, across and up."""
    long, wide, thick = box
    yield "on edge", long, thick, wide
    yield "flat", long, wide, thick


def _door(box: Box, door: Passage, hands: float) -> Iterator[PassingWay]:
    wide, high = door.width - hands, door.height - hands
    for how, _, across, up in _lie(box):
        if across <= wide + NEAR and up <= high + NEAR:
            yield PassingWay(how=how)
    turn = turned_in(box[1], box[2], wide, high)
    if turn:
        yield PassingWay(how="turned", lean=turn)


def _stair(box: Box, stair: Passage, hands: float) -> Iterator[PassingWay]:
    square = square_to(stair) - hands * OVER_STEPS / HANDS
    for how, _, across, up in _lie(box):
        if across <= stair.width - hands + NEAR and up <= square + NEAR:
            yield PassingWay(how=how)


def square_to(stair: Passage) -> float:
    """Headroom square to the steps."""
    return stair.height * math.cos(math.radians(stair.pitch))


def _turn(box: Box, turn: Passage, hands: float) -> Iterator[PassingWay]:
    long, wide, thick = box
    a, b, high = turn.width - hands, turn.into - hands, turn.height - hands
    lying: list[tuple[How, float, float, float]] = [*_lie(box), ("on end", wide, thick, long)]
    for how, along, across, up in lying:
        room = round_corner(a, b, across)
        if up <= high + NEAR and along <= room + NEAR:
            yield PassingWay(how=how, floor=along, across=across, room=room, turn=tightest(a, b, across))
    for along, across, up in ((long, wide, thick), (long, thick, wide)):
        lean, room = tilt(along, up, high), round_corner(a, b, across)
        if lean is not None and (floor := floor_of(along, up, lean)) <= room + NEAR:
            at = tightest(a, b, across)
            yield PassingWay(how="tilted", lean=lean, floor=floor, across=across, room=room, turn=at)


def _van(box: Box, van: Passage, hands: float) -> Iterator[PassingWay]:
    inside, wide, high = van.length, van.width - hands, van.height - hands
    long, broad, thick = box
    names: dict[int, How] = {0: "on end", 1: "on edge", 2: "flat"}
    for up, along, across in sorted(permutations(range(3)), key=lambda order: (-order[0], order[1])):
        if box[along] <= inside + NEAR and box[across] <= wide + NEAR and box[up] <= high + NEAR:
            yield PassingWay(how=names[up])
    for side, top in ((broad, thick), (thick, broad)):
        if top <= high + NEAR and (turn := turned_in(long, side, inside, wide)):
            yield PassingWay(how="across", lean=turn)
        if side <= wide + NEAR and (lean := turned_in(long, top, inside, high)):
            yield PassingWay(how="tilted", lean=lean)
    for how, _, side, top in _lie(box):
        if side <= wide + NEAR and top <= high + NEAR:
            yield PassingWay(how=how, behind=long - inside)


_WAYS: dict[str, Callable[[Box, Passage, float], Iterator[PassingWay]]] = {
    "door": _door,
    "stair": _stair,
    "turn": _turn,
    "van": _van,
}
