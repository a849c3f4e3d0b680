"""Words on a drawing: at one of the places offered, or led to what they name from the nearest place that is free."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache
from typing import TypeAlias, TypeGuard

import numpy as np
from numpy.typing import NDArray

from ...geometry.frames import Vec2
from ...sentences import Sentence, Value, Voice, Words, told
from ..display import Anchor, Circle, Item, Stroke, Text, extent, shifted
from ..lettering import KEPT, Weight, kept, known, unkept, width
from ..standard import AIR, DOT, GROUND, LIFT, LINE, PAST, TEXT
from ..symbols import balloon
from .axis import Axis
from .placing import FilledPaper

SIGNS = {"{} + {}": "+", "{} less {}": "less"}  # the forms in which a sum is said: it wraps before its signs
WAYS = ((1, -1), (-1, -1), (1, 1), (-1, 1), (0, -1), (0, 1), (1, 0), (-1, 0))  # from what is named, the best first
_Row: TypeAlias = tuple[str, float, Weight]  # a line, its height and weight
STEPS = 12  # how many heights of words away from it they may stand, at most


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """Words before they are placed; where they have no room at their places they are led to the first.

    Attributes:
        says: the words; `more` further lines, below a loud first one.
        at: places, the best first: where they may stand, or with a leader what they name.
        priority: low ones are placed first.
        sizes: heights of capitals, the best first; a large one gives way to a small one.
        wide: where lines wrap.
        turns: degrees, the best first: 90 is read from the right.
        beyond: whether they stand right, left, above or below a place, and not on it: (0, -1) is above.
        ring: whether they stand in a ring, as a cut's number does.
        ground: whether they may stand on hatch.
        reach: how many heights away from what they name they may be led.
        dot: whether their leader ends in a dot, as on a face it does (ISO 128-22, from memory).
    """

    says: Words
    at: tuple[Vec2, ...]
    priority: int = 0
    leader: bool = True
    more: tuple[str, ...] = ()
    sizes: tuple[float, ...] = (TEXT,)
    weight: Weight = "regular"
    wide: float = math.inf
    turns: tuple[float, ...] = (0.0,)
    beyond: tuple[int, int] = (0, 0)
    ring: bool = False
    ground: bool = True
    reach: int = STEPS
    dot: bool = False
    layer: str = "words"
    owner: str = ""

    def on(self, across: Axis, up: Axis) -> "Label":
        """The same on paper."""
        return replace(self, at=tuple((across.at(x), up.at(y)) for x, y in self.at))


def lines_of(says: Words, voice: Voice, room: float, size: float = TEXT, weight: Weight = "regular") -> list[str]:
    """The words in lines no wider than the room, broken at spaces; a sum at its signs only, never within a term."""
    lines: list[str] = []
    for piece in pieces_of(says, voice):
        if lines and width(f"{lines[-1]} {piece}", size, weight) <= room:
            lines[-1] += f" {piece}"
        else:
            lines.append(piece)
    return [known(unkept(line)) for line in lines]


def pieces_of(says: Words, voice: Voice) -> list[str]:
    """What of the words must stay together: single words, and of a sum, wherever it stands, each term with its sign."""
    if isinstance(says, str):
        return says.split(" ")
    if says.form in SIGNS:
        first, last = says.values
        begins = pieces_of(first, voice) if _is_sum(first) else [_kept(first, voice)]
        return [*begins, f"{SIGNS[says.form]}{KEPT}{_kept(last, voice)}"]
    pieces = [""]
    for part in says.parts:
        glued, *rest = pieces_of(part if isinstance(part, (Sentence, str)) else part.said(voice), voice)
        pieces[-1] += glued
        pieces += rest
    return pieces


def _is_sum(value: Value) -> TypeGuard[Sentence]:
    return isinstance(value, Sentence) and value.form in SIGNS


def _kept(value: Value, voice: Voice) -> str:
    """One term, none of its spaces broken."""
    return kept(value if isinstance(value, str) else value.said(voice))


def put(paper: FilledPaper, label: Label, voice: Voice) -> bool:
    """Draw a label that is on paper already where it is free; False if that is nowhere."""
    if not label.leader and any(paper.place_at(ways, _spots(label)) for ways in _standing(label, voice)):
        return True
    return _ring_led(paper, label, voice) if label.ring else paper.place(_led(label, voice))


def _spots(label: Label) -> Iterator[Vec2]:
    """Where it stands at its places, or beyond them."""
    x, y = label.beyond
    return ((at[0] + x * PAST, at[1] + y * PAST) for at in label.at)


def _standing(label: Label, voice: Voice) -> Iterator[Sequence[list[Item]]]:
    """The ways in which it may stand at a place, the best first; on a white ground if it must be."""
    for size in label.sizes:
        if label.ring:
            yield [ringed((0.0, 0.0), told(label.says, voice), label.owner, size)]
        else:
            rows = _rows(label, voice, size)
            for ground in (0.0, GROUND) if label.ground else (0.0,):
                how = [(ground, turn) for turn in label.turns]
                yield [list(_block(label, rows, (0.0, 0.0), label.beyond, one)) for one in how]


def _ring_led(paper: FilledPaper, label: Label, voice: Voice) -> bool:
    """A ring around what it names, farther and farther away, with a thin line to it."""
    tip, said = label.at[0], told(label.says, voice)
    rings = [ringed((0.0, 0.0), said, label.owner, size) for size in label.sizes]
    ways, which = _about(label.reach, len(rings))
    centres = LINE * np.asarray(label.sizes)[which, None] * ways + tip
    radii = np.asarray([extent(ring).right for ring in rings])[which]
    found = paper.first_ring(tip, centres, radii, label.owner) if len(ways) else None
    if found is not None:
        x, y = centres[found].tolist()
        paper.draw([*_leader((x, y), tip, label), *shifted(rings[which[found]], x, y)])
    return found is not None


@cache
def _about(reach: int, sizes: int) -> tuple[NDArray[np.float64], NDArray[np.int64]]:
    """Ways from what is named, in steps, near before far; and of each in which of so many sizes."""
    every = [(way, size) for step in range(1, reach) for size in range(sizes) for way in _ring(step)]
    ways = np.asarray([way for way, _ in every], dtype=np.float64).reshape(-1, 2)
    return ways, np.asarray([size for _, size in every], dtype=np.int64)


def _led(label: Label, voice: Voice) -> Iterator[list[Item]]:
    """Around what it names, farther and farther away, with a thin line to it."""
    rows = {size: _rows(label, voice, size) for size in label.sizes}
    for step in range(1, label.reach):
        for size in label.sizes:
            far = LINE * size
            for tip in label.at[:1]:
                for x, y in _ring(step):
                    yield _with_leader(label, rows[size], tip, (tip[0] + x * far, tip[1] + y * far), (x, y))


@cache
def _ring(step: int) -> list[tuple[int, int]]:
    """So many steps to any side of what is named, the eight ways first."""
    every = [(x, y) for x in range(-step, step + 1) for y in range(-step, step + 1) if max(abs(x), abs(y)) == step]
    ways = [(x * step, y * step) for x, y in WAYS]
    return [*ways, *sorted(set(every) - set(ways), key=lambda way: (way[0] ** 2 + way[1] ** 2, way))]


def _with_leader(label: Label, rows: Sequence[_Row], tip: Vec2, at: Vec2, way: tuple[int, int]) -> list[Item]:
    x, y = (one and one // abs(one) for one in way)
    foot = (at[0] - x * AIR, at[1] - (y * LIFT if not x else 0.0))
    return [*_leader(foot, tip, label), *_block(label, rows, at, (x, y), (0.0, 0.0))]


def _leader(start: Vec2, tip: Vec2, label: Label) -> Iterator[Item]:
    yield Stroke(points=(start, tip), pen="dimension", layer="dimension", owner=label.owner)
    if label.dot:
        yield Circle(centre=tip, radius=DOT / 2, ink="black", layer="dimension", owner=label.owner)


def _rows(label: Label, voice: Voice, size: float) -> list[_Row]:
    """Its lines, each as large and as heavy as it is."""
    rows: list[_Row] = []
    rows += [(line, size, label.weight) for line in lines_of(label.says, voice, label.wide, size, label.weight)]
    rows += [(line, min(size, TEXT), "regular") for more in label.more for line in lines_of(more, voice, label.wide)]
    return rows


def _block(label: Label, rows: Sequence[_Row], at: Vec2, way: tuple[int, int], how: Vec2) -> Iterator[Text]:
    """Its lines: in the middle of a place, or beyond it as seen from what they name; `how`: their ground and turn."""
    anchor: Anchor = "start" if way[0] > 0 else "end" if way[0] < 0 else "middle"
    heights = [rows[0][1], *(LINE * row[1] for row in rows[1:])]
    high = sum(heights)
    top = at[1] - high / 2 if way[0] or not way[1] else at[1] if way[1] > 0 else at[1] - high
    (ground, turn), base = how, top
    for (line, letters, weight), step in zip(rows, heights, strict=True):
        base += step
        spot = (at[0], base) if not turn else lifted(at, turn, -letters / 2)
        yield Text(
            at=spot, text=line, size=letters, weight=weight, anchor=anchor, turn=turn, ground=ground, layer=label.layer,
            owner=label.owner,
        )  # fmt: skip


def lifted(p: Vec2, turn: float, by: float) -> Vec2:
    """So far up from a base line, as it is read."""
    return p[0] - by * math.sin(math.radians(turn)), p[1] - by * math.cos(math.radians(turn))


def around(p: Vec2, first: float, step: float, count: int) -> Iterator[Vec2]:
    """Places about a point in eight directions, farther and farther out."""
    for number in range(count):
        far = first + number * step
        for x, y in WAYS:
            long = math.hypot(x, y)
            yield p[0] + far * x / long, p[1] + far * y / long


def middle_first(low: float, high: float, step: float) -> list[float]:
    """Places on a line, from its middle outwards."""
    middle = (low + high) / 2
    count = int((high - low) / 2 / step)
    return [middle, *(middle + way * step * number for number in range(1, count + 1) for way in (-1, 1))]


def ringed(at: Vec2, text: str, owner: str, size: float = TEXT) -> list[Item]:
    """A number or a letter in a ring."""
    return list(balloon(at, text, owner, size))
