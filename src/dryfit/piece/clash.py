"""The clash check: do any two parts overlap, once all cuts are made?

Solids of all near pairs are laid over each other, joined or not. An overlap counts when it is deeper than
0.02 in the direction in which it is thinnest: a slot narrower than its board by less is contact.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import pairwise
from typing import Any

import manifold3d as m3
import numpy as np
from numpy.typing import NDArray

from ..findings import Finding, Severity, declare, owns, question
from ..geometry.frames import Vec
from ..geometry.nearness import StraightStrip, near_pairs
from ..geometry.shapes import HalfSpace
from ..keeping import Keep, Same
from ..places import Pair, Where
from ..sentences import Fineness, Length, Name, say
from .clearing import moved_clear
from .meetings import pair_key, separation
from .model import Part
from .solids import Solids

DEEPEST = 0.02  # mm that may overlap: contact, as a hand would call it
PARTS_OVERLAP = question("overlap", "parts that overlap", lambda piece: piece.in_several)
PRINTED = 0.2  # what the printed places of two ends cannot tell
OVERLAP = declare(
    "overlap",
    "Two finished parts take up the same space.",
    uncured="no short move is known that clears them: which of the two gives way is a choice of design",
)
owns(PARTS_OVERLAP, OVERLAP)


@dataclass(frozen=True, slots=True, kw_only=True)
class Overlap:
    """Where two parts overlap: how deep, how much, and around which place in the world."""

    depth: float
    volume_mm3: float
    place: Vec


LEVEL_DIGITS = 5  # heights nearer than this are one
WIDTH_STEP = 1e-3
DUST_MM3 = 1e-6  # what rounding leaves between faces that touch
NONE = Overlap(depth=0.0, volume_mm3=0.0, place=(0.0, 0.0, 0.0))


def clashes(
    parts: Sequence[Part],
    solids: Solids,
    joined: frozenset[Pair],
    keep: Keep,
    known: frozenset[frozenset[str]] = frozenset(),
    cut: frozenset[frozenset[str]] = frozenset(),
) -> tuple[Finding, ...]:
    """Findings for every pair of parts that overlap deeper than 0.02.

    Args:
        parts: of the piece.
        solids: makes their solids.
        joined: pairs that have a joint.
        keep: what may be kept.
        known: pairs of which it is said already.
        cut: pairs that are joined by something in the wood, whose figures may be off by the step sheets print to.
    """
    found = []
    for one, other in near_parts(parts, keep):
        pair = frozenset((one.id, other.id))
        if pair in known:
            continue
        overlap = overlap_of(one, other, solids, keep)
        if overlap.depth > (DEEPEST + PRINTED if pair in cut else DEEPEST):
            found.append(_finding(one, other, overlap, joined))
    return tuple(found)


def near_parts(parts: Sequence[Part], keep: Keep) -> list[tuple[Part, Part]]:
    """Pairs of parts whose uncut bodies overlap in space."""
    strips = [keep.get("strip", Same(part), partial(_strip, part)) for part in parts]
    return [
        (parts[i], parts[j])
        for i, j in near_pairs(strips, 0.0)
        if min(parts[i].board.front, parts[j].board.front) - max(parts[i].board.back, parts[j].board.back) > DEEPEST
        and separation(strips[i], strips[j]) < -DEEPEST
    ]


def overlap_of(one: Part, other: Part, solids: Solids, keep: Keep) -> Overlap:
    """How two parts overlap, kept by what they are made from and how they lie to each other."""
    return keep.get("clash", (Same(one), Same(other)), lambda: _overlap(one, other, solids))


def _overlap(one: Part, two: Part, solids: Solids) -> Overlap:
    frame, other = one.board.frame, two.board.frame
    axes = np.array([frame.x, frame.y, other.x, other.y, frame.z, other.z, *_end_normals(one), *_end_normals(two)])
    if _apart(one, two, axes, solids):
        return NONE
    common = solids.placed(one) ^ solids.placed(two)
    if common.is_empty() or common.volume() <= 0.0:
        return NONE
    deepest = NONE
    for lump, points, depth in _lumps(common, axes):
        depth = min(depth, _thickness(lump, points)) if depth > DEEPEST else depth
        if depth > deepest.depth:
            middle = points.mean(axis=0)
            place = (float(middle[0]), float(middle[1]), float(middle[2]))
            deepest = Overlap(depth=depth, volume_mm3=float(common.volume()), place=place)
    return deepest


def _lumps(common: Any, axes: NDArray[np.float64]) -> Iterator[tuple[Any, NDArray[np.float64], float]]:
    """The pieces of an overlap but for dust, with their points and their least size along any axis."""
    for lump in common.decompose():
        if lump.volume() > DUST_MM3:
            points = lump.to_mesh64().vert_properties[:, :3]
            along = points @ axes.T
            yield lump, points, float((along.max(axis=0) - along.min(axis=0)).min())


def _apart(one: Part, two: Part, axes: NDArray[np.float64], solids: Solids) -> bool:
    """Whether two parts are at most in contact, bores or not: told at once of most, however many cuts they have.

    A lump that is sawn is not measured here, as its halves would be thinner than it is.
    """
    (pieces, low, high), (others, its_low, its_high) = solids.lengths(one), solids.lengths(two)
    near = np.all((low[:, None] < its_high) & (its_low < high[:, None]), axis=2)
    whole = len(pieces) == len(others) == 1
    volume = 0.0
    for i, j in np.argwhere(near).tolist():
        common = pieces[i] ^ others[j]
        volume += common.volume()
        if volume > DUST_MM3:
            return whole and all(depth <= DEEPEST for _, _, depth in _lumps(common, axes))
    return True


def _thickness(lump: Any, points: NDArray[np.float64]) -> float:
    """How deep an overlap is where it is deepest, though it runs round a corner.

    Two boards that are both tight in each other's slots overlap in strips that hang together at the seats:
    as one body they would seem as deep as a board is thick. So it is looked at slab by slab out of the wall,
    in which the strips lie apart.
    """
    levels = sorted(set(np.round(points[:, 2], LEVEL_DIGITS).tolist()))
    slabs = pairwise(levels)
    return max((min(top - low, _width(lump.slice((low + top) / 2))) for low, top in slabs), default=0.0)


def _width(area: Any) -> float:
    """Diameter of the largest disc that a flat area holds, to a thousandth.

    No disc is larger than the area itself: what rounding leaves along a mitre is too thin to be offset, which
    would come out as thick as it is long.
    """
    if area.is_empty():  # its bounds would be endless
        return 0.0
    x0, y0, x1, y1 = area.bounds()
    size = max(area.area(), 0.0)  # dust along a slope may come out a hair below nothing
    low, high = 0.0, min(x1 - x0, y1 - y0, math.sqrt(4 * size / math.pi))
    while high - low > WIDTH_STEP:
        middle = (low + high) / 2
        shrunk = area.offset(-middle / 2, m3.JoinType.Miter)
        low, high = (low, middle) if shrunk.is_empty() else (middle, high)
    return float(high)


def _end_normals(part: Part) -> list[Vec]:
    """Directions in the world in which parts touch besides their own axes: square to mitres and bevels."""
    planes = (shape for cut in part.cuts for shape in cut.shapes if isinstance(shape, HalfSpace))
    return [part.board.frame.direct(plane.normal) for plane in planes]


def _strip(part: Part) -> StraightStrip:
    board = part.board
    low, high = part.long
    if board.lies == "flat":
        point = board.frame.place((low, 0.0, board.depth / 2))
        half = board.depth / 2
    else:
        point = board.frame.place((low, 0.0, 0.0))
        half = board.thickest / 2
    return StraightStrip((point[0], point[1]), (board.frame.x[0], board.frame.x[1]), high - low, half)


def _finding(one: Part, other: Part, overlap: Overlap, joined: frozenset[Pair]) -> Finding:
    key = pair_key(one.id, other.id)
    x, y, _ = overlap.place
    return Finding(
        code=OVERLAP,
        severity=Severity.STOP,
        where=Where(boards=(one.id, other.id), joint=key if key in joined else None, path=one.board.path),
        says=say(
            "{} and {} overlap by {} near x {}, y {}",
            Name(one.id),
            Name(other.id),
            Length(overlap.depth, Fineness.FINE),
            Length(x, Fineness.WHOLE),
            Length(y, Fineness.WHOLE),
        ),
        remedy="move one of them clear, or change what is cut there: they are joined already, and still overlap"
        if key in joined
        else "move one of them clear, or let them be joined",
        found=overlap.depth,
        limit=DEEPEST,
        unit="mm",
        source="geometry",
        cures=tuple(moved_clear(one.board, other.board)),
    )
