"""What is cut and let in when the glue has set, drawn: its pockets on the wood, each piece off the pocket it goes into.

Pockets of a circular cutter across a corner run out on the outside faces of both its boards: there they show as narrow
slits, as long as the circle reaches. What is let in is drawn as the slip that fills both slits, not trimmed yet.
"""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from ....geometry.frames import Vec, Vec2
from ....geometry.shapes import Prism
from ....joints import KINDS
from ....piece.model import Cut, Joint, Part
from ....piece.parts import ends_on_face
from ...axonometric import DrawnBody, plate
from ...looks import Desk

OFF = 4.0  # times as far off its pocket as that is deep across the corner
SLIVER = 0.1  # mm of a slit that are none


@dataclass(frozen=True)
class WaitingPockets:
    """Pockets and what goes into them.

    Attributes:
        slits: lines on the wood, by board.
        pieces: by a name of their own, and how far `off` their place each is drawn.
    """

    slits: Mapping[str, list[tuple[Vec, Vec]]]
    pieces: Mapping[str, DrawnBody]
    off: Mapping[str, Vec]


@dataclass(frozen=True)
class _Slit:
    """Where a pocket runs out on an outside face: from its inner end to the arris, between two places off the wall."""

    board: str
    inner: Vec
    outer: Vec
    low: float
    high: float


def waiting(desk: Desk, boards: tuple[str, ...], after: tuple[str, ...]) -> WaitingPockets:
    """All that waits, by the keys of its operations, on these boards."""
    parts = {part.id: part for part in desk.book.piece.parts}
    slits: dict[str, list[tuple[Vec, Vec]]] = {}
    pieces: dict[str, DrawnBody] = {}
    off: dict[str, Vec] = {}
    for joint in desk.book.piece.joints:
        if not set(joint.key) <= set(boards):
            continue
        found = [slit for cut in _cuts(desk, joint, after) for slit in _slits(cut, parts[cut.body])]
        for slit in found:
            slits.setdefault(slit.board, []).extend(_lines(slit))
        for number, (one, other) in enumerate(_across(found)):
            name = f"{joint.key[0]} × {joint.key[1]}, {number}"
            pieces[name], off[name] = _piece(one, other)
    return WaitingPockets(slits=slits, pieces=pieces, off=off)


def _cuts(desk: Desk, joint: Joint, after: tuple[str, ...]) -> Iterator[Cut]:
    """Those that are made when the glue has set."""
    work = KINDS[joint.kind].operations(joint, desk.book.piece.board_by_name)
    late = {key for one in work if one.key in after for key in one.cuts}
    return (cut for cut in joint.cuts if cut.key in late)


def _slits(cut: Cut, part: Part) -> Iterator[_Slit]:
    board = part.board
    for shape in cut.shapes:
        if not isinstance(shape, Prism) or len(shape.outline) != 2:
            continue
        (left, c, _), (right, _, _) = shape.outline
        middle, radius = (left + right) / 2, (right - left) / 2
        for face in (1, -1):
            level = face * board.thickness_at(middle) / 2
            half = math.sqrt(max(radius**2 - (level - c) ** 2, 0.0))
            ends = ends_on_face(part, face)
            start, stop = max(middle - half, ends[0]), min(middle + half, ends[1])
            if stop - start > SLIVER:
                inner, outer = (start, stop) if stop == ends[1] else (stop, start)
                places = (board.frame.place((a, level, shape.low)) for a in (inner, outer))
                (x, y, z), (p, q, _) = places
                yield _Slit(part.id, (x, y, z), (p, q, z), z, z + shape.high - shape.low)


def _lines(slit: _Slit) -> list[tuple[Vec, Vec]]:
    """Both sides of a slit and its inner end."""
    (x, y, _), (p, q, _) = slit.inner, slit.outer
    sides = [((x, y, z), (p, q, z)) for z in (slit.low, slit.high)]
    return [*sides, ((x, y, slit.low), (x, y, slit.high))]


def _across(slits: list[_Slit]) -> Iterator[tuple[_Slit, _Slit]]:
    """The two slits of each pocket, one on either board."""
    for number, one in enumerate(slits):
        for other in slits[number + 1 :]:
            if other.board != one.board and abs(other.low - one.low) < SLIVER:
                yield one, other


def _piece(one: _Slit, other: _Slit) -> tuple[DrawnBody, Vec]:
    """The slip across a corner, and how far off it is drawn: outwards, square to the line between its inner ends."""
    (ax, ay, _), (bx, by, _), (cx, cy, _) = one.inner, other.inner, one.outer
    mx, my = (ax + bx) / 2, (ay + by) / 2
    out: Vec2 = (cx - mx, cy - my)
    outline = [(ax, ay), (bx, by), (bx + out[0], by + out[1]), (ax + out[0], ay + out[1])]
    return plate(outline, one.low, one.high), (out[0] * OFF, out[1] * OFF, 0.0)
