"""Parts that will fool you: nearly alike, left and right hands, alike either way round but not quite.

Parts that nothing but their letters tells apart fool nobody: they share a sheet.

Two parts are compared by what a hand feels and an eye sees: length, width, thickness, and the places, kinds and
leans of their cuts from the datum end. A part turned end for end has every place from its other end.
"""

from collections.abc import Iterator, Sequence
from itertools import combinations
from typing import TypeAlias

from ....geometry.shapes import Prism
from ....geometry.views import Surface
from ....piece.model import Cut, Part
from ...looks import Desk
from ...naming import depth, names, position, thickness
from .fellows import hands, sorts

SAME = 0.05  # mm: no eye or tape tells these apart
NEARLY = 1.5  # and this much only a careful one

# kind, place of its middle along the part, width, lean, the face it is let into, the edge it opens to
Mark: TypeAlias = tuple[str, float, float, float, int, str]


def fooling(desk: Desk) -> Iterator[str]:
    """One sentence for every pair and part that may be taken for another, or the wrong way round."""
    parts = sorted(desk.book.piece.parts, key=lambda part: (len(part.mark), part.mark))
    sort = sorts(parts)
    for one, other in combinations(parts, 2):
        if sort[one.id] != sort[other.id]:
            yield from _pair(one, other)
    for part in parts:
        yield from _turned_round(part)


def _pair(one: Part, other: Part) -> Iterator[str]:
    a, b = one.mark, other.mark
    if abs(one.board.depth - other.board.depth) > SAME or abs(one.board.thickest - other.board.thickest) > NEARLY:
        return
    apart = abs(one.length - other.length)
    if apart > NEARLY:
        return
    marks, others = _marks(one), _marks(other)
    if apart > SAME:
        yield f"{a} and {b} differ by {position(apart)} in length: read the letters, not the tape."
    elif abs(one.board.thickest - other.board.thickest) > SAME:
        thick = thickness(one.board.thickest), thickness(other.board.thickest)
        yield f"{a} is {thick[0]} thick and {b} {thick[1]}, otherwise alike."
    elif hands(one, other):
        yield f"{a} and {b} are left and right hands: mirror images, the same cuts on opposite faces."
    elif _alike(marks, others):
        yield f"{a} and {b} look alike and are not: {_difference(one, other)}."
    elif marks and _alike(_turned(one, marks), others):
        yield f"{a} and {b} are left and right hands: the same cuts, from opposite ends."
    elif len(marks) == len(others):
        off = _largest(marks, others)
        where = f"; a cut of one lies {position(off)} from where the other has it" if off is not None else ""
        yield f"{a} and {b} are alike in size and have as many cuts{where}."
    else:
        yield f"{a} and {b} are alike in size; {a} has {len(marks)} cuts, {b} {len(others)}."


def _difference(one: Part, other: Part) -> str:
    """The first thing that tells two parts with the same cuts at the same places apart."""
    words = names(one.board).words
    for p, q in zip(one.cuts, other.cuts, strict=False):
        what = words[Surface.DATUM if p.end < 0 else Surface.FAR] if p.end else p.kind
        for size, others, told in (
            (p.figures.deep, q.figures.deep, "deep"),
            (p.figures.across, q.figures.across, "across"),
            (p.figures.stop, q.figures.stop, "from the stop to the edge"),
        ):
            if (size or others) and depth(size or 0.0) != depth(others or 0.0):
                return (
                    f"the {what} is {depth(size or 0.0)} {told} in {one.mark}, {depth(others or 0.0)} in {other.mark}"
                )
    if one.board.face_side != other.board.face_side:
        return "they are marked from opposite faces"
    return "their ends or their cuts are made differently"


def _turned_round(part: Part) -> Iterator[str]:
    """A part whose cuts fall nearly, not quite, on each other when it is turned end for end."""
    off = turned_off(part)
    if off is not None and SAME < off <= 2 * NEARLY:
        yield f"{part.mark} looks the same turned end for end, but a cut is {position(off)} off: mind the datum end."


def turned_off(part: Part) -> float | None:
    """How far the cuts of a part turned end for end lie from where they should; None where they are no match."""
    marks = _marks(part)
    return _largest(marks, _turned(part, marks)) if marks else None


def _marks(part: Part) -> list[Mark]:
    found = []
    for cut in part.cuts:
        place = _middle(cut)
        if not cut.end and place is not None:
            figures = cut.figures
            found.append((cut.kind, place - part.zero, figures.across or 0.0, figures.lean, cut.face, figures.opens))
    return sorted(found, key=lambda mark: mark[1])


def _middle(cut: Cut) -> float | None:
    for shape in cut.shapes:
        if isinstance(shape, Prism):
            places = [knot[0] for knot in shape.outline]
            return (min(places) + max(places)) / 2
        start = getattr(shape, "start", None)
        if start is not None:
            return float(start[0])
    return None


def _turned(part: Part, marks: Sequence[Mark]) -> list[Mark]:
    turned = [(kind, part.length - at, wide, -lean, face, opens) for kind, at, wide, lean, face, opens in marks]
    return sorted(turned, key=lambda mark: mark[1])


def _alike(marks: Sequence[Mark], others: Sequence[Mark]) -> bool:
    off = _largest(marks, others)
    return off is not None and off <= SAME and all(abs(p[3] - q[3]) < 0.01 for p, q in zip(marks, others, strict=True))


def _largest(marks: Sequence[Mark], others: Sequence[Mark]) -> float | None:
    """The greatest distance between places that answer each other; None where kinds or faces differ."""
    if len(marks) != len(others):
        return None
    pairs = list(zip(marks, others, strict=True))
    if any((p[0], p[4], p[5]) != (q[0], q[4], q[5]) or abs(p[2] - q[2]) > SAME for p, q in pairs):
        return None
    return max((abs(p[1] - q[1]) for p, q in pairs), default=0.0)
