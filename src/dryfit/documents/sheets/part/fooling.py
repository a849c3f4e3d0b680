"""Parts that will fool you: nearly alike, left and right hands, alike either way round but not quite.

Parts that nothing but their letters tells apart fool nobody: they share a sheet.

Two parts are compared by what a hand feels and an eye sees: length, width, thickness, and the places, kinds and
leans of their cuts from the datum end. A part turned end for end has every place from its other end.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import combinations
from typing import NamedTuple

from ....geometry.shapes import Prism
from ....geometry.views import EDGES, Surface
from ....piece.model import Cut, Part
from ....piece.operations import LEAST_LEAN
from ...looks import Desk, Look
from ...naming import LEAST, depth, plural, position, thickness, width
from .alike import in_order
from .fellows import hands, is_plain_end, same_unmarked, sorts

SAME = LEAST  # mm: no eye or tape tells these apart
NEARLY = 1.5  # and this much only a careful one
FAR = 50.0  # cuts that lie further from one another no eye takes for the same


class FeltCut(NamedTuple):
    """A cut as a hand feels it: its middle `at` along the part, the face it is let into, the edge it `opens` to."""

    kind: str
    at: float
    wide: float
    lean: float
    face: int
    opens: str


def fooling(desk: Desk) -> Iterator[str]:
    """One sentence for every pair and part that may be taken for another, or the wrong way round."""
    parts = sorted(desk.book.piece.parts, key=lambda part: (len(part.mark), part.mark))
    sort, told = sorts(parts), set[tuple[str, str]]()
    for one, other in combinations(parts, 2):
        if sort[one.id] == sort[other.id] or not _near(one, other):
            continue
        if said := _pair(desk, one, other):
            yield said
        elif (one.mark, other.mark) not in told:
            alike = [part for part in parts if part in (one, other) or _only_of_a_size(desk, part, (one, other), sort)]
            told |= set(combinations([part.mark for part in alike], 2))
            yield _of_a_size(alike)
    for part in parts:
        yield from _turned_round(part)


def _near(one: Part, other: Part) -> bool:
    """Whether a hand takes one for the other by its size."""
    sizes = [(part.length, part.board.depth, part.board.thickest) for part in (one, other)]
    long, wide, thick = (abs(a - b) for a, b in zip(*sizes, strict=True))
    return bool(long <= NEARLY and wide <= SAME and thick <= NEARLY)


def _only_of_a_size(desk: Desk, part: Part, others: Sequence[Part], sort: Mapping[str, int]) -> bool:
    """Whether nothing but its size makes a part look like each of others."""
    return all(
        sort[part.id] != sort[other.id] and _near(part, other) and not _pair(desk, part, other) for other in others
    )


def _of_a_size(parts: Sequence[Part]) -> str:
    """Parts alike in size, and how many cuts each has: what an eye counts."""
    (first, many), *more = [(part.mark, len(_marks(part))) for part in parts]
    *names, last = (part.mark for part in parts)
    head = f"{', '.join(names)} and {last} are alike in size"
    if all(count == many for _, count in more):
        return f"{head} and have as many cuts."
    return f"{head}; {first} has {plural(many, 'cut')}, {', '.join(f'{mark} {count}' for mark, count in more)}."


def _pair(desk: Desk, one: Part, other: Part) -> str:
    """What tells two parts of a size apart, or makes them look alike; "" where nothing but the size does."""
    a, b = one.mark, other.mark
    apart = abs(one.length - other.length)
    marks, others = _marks(one), _marks(other)
    if apart > SAME:
        return f"{a} and {b} differ by {position(apart)} in length: read the letters, not the tape."
    if abs(one.board.thickest - other.board.thickest) > SAME:
        thick = thickness(one.board.thickest), thickness(other.board.thickest)
        return f"{a} is {thick[0]} thick and {b} {thick[1]}, otherwise alike."
    if hands(one, other):
        return f"{a} and {b} are {_hands(one)}: mirror images, the same cuts on opposite faces."
    if told := _difference(desk, one, other) if _answer(marks, others) else "":
        return f"{a} and {b} are alike but for {told}."
    if marks and _alike(_turned(one, marks), others):
        return f"{a} and {b} are left and right hands: the same cuts, from opposite ends."
    return ""


def _hands(part: Part) -> str:
    """What two mirror images are called: the same board marked otherwise is no hand."""
    return "one board until they are marked" if same_unmarked(part) else "left and right hands"


def _answer(marks: Sequence[FeltCut], others: Sequence[FeltCut]) -> bool:
    """Whether two parts have the same cuts, at places that an eye may take for one another."""
    off = _largest(marks, others)
    return off is not None and off <= FAR


def _difference(desk: Desk, one: Part, other: Part) -> str:
    """The figure that tells two parts with the same cuts apart, and how it is read; "" where there is none."""
    looks = desk.looks[one.id], desk.looks[other.id]
    for pair in zip(*map(in_order, looks), strict=False):
        for read, told in _READ:
            found = [read(look, cut) for look, cut in zip(looks, pair, strict=True)]
            if found[0] != found[1] and all(found):
                what = _called(looks[0], pair[0])
                return f"{what}: {found[0]} in {one.mark}, {found[1]} in {other.mark}, {told}"
    if one.board.face_side != other.board.face_side:
        return "their marks: they are marked from opposite faces"
    return "how their ends or their cuts are made" if _alike(_marks(one), _marks(other)) else ""


def _called(look: Look, cut: Cut) -> str:
    """A cut by its word and number, an end by its name."""
    if cut.end:
        return look.names.words[Surface.DATUM if cut.end < 0 else Surface.FAR]
    return f"{cut.word} {look.numbers[cut.key]}"


def _place(look: Look, cut: Cut) -> str:
    """Where a cut is marked on the face side, else where first it shows; of an end where it ends there."""
    if cut.end:
        return position(look.end_of(cut, look.names.face_side))
    places = (look.position(cut, surface) for surface in (look.names.face_side, look.names.other_face, *EDGES))
    return next((position(place) for place in places if place is not None), "")


def _deep(_: Look, cut: Cut) -> str:
    return "" if cut.figures.deep is None or is_plain_end(cut) else depth(cut.figures.deep)


def _across(_: Look, cut: Cut) -> str:
    return "" if cut.figures.across is None or cut.end else width(cut.figures.across)


def _stop(_: Look, cut: Cut) -> str:
    return depth(cut.figures.stop) if cut.figures.stop else ""


_READ: Sequence[tuple[Callable[[Look, Cut], str], str]] = (
    (_place, "from the datum end"),
    (_deep, "deep"),
    (_across, "across its walls"),
    (_stop, "from its stop to the edge"),
)


def _turned_round(part: Part) -> Iterator[str]:
    """A part whose cuts fall nearly, not quite, on each other when it is turned end for end."""
    off = turned_off(part)
    if off is not None and SAME < off <= 2 * NEARLY:
        yield f"{part.mark} looks the same turned end for end, but a cut is {position(off)} off: mind the datum end."


def turned_off(part: Part) -> float | None:
    """How far the cuts of a part turned end for end lie from where they should; None where they are no match."""
    marks = _marks(part)
    return _largest(marks, _turned(part, marks)) if marks else None


def _marks(part: Part) -> list[FeltCut]:
    found = []
    for cut in part.cuts:
        place = _middle(cut)
        if not cut.end and place is not None:
            figures = cut.figures
            found.append(
                FeltCut(cut.form, place - part.zero, figures.across or 0.0, figures.lean, cut.face, figures.opens)
            )
    return sorted(found, key=lambda mark: mark.at)


def _middle(cut: Cut) -> float | None:
    for shape in cut.shapes:
        if isinstance(shape, Prism):
            places = [knot[0] for knot in shape.outline]
            return (min(places) + max(places)) / 2
        start = getattr(shape, "start", None)
        if start is not None:
            return float(start[0])
    return None


def _turned(part: Part, marks: Sequence[FeltCut]) -> list[FeltCut]:
    turned = [one._replace(at=part.length - one.at, lean=-one.lean) for one in marks]
    return sorted(turned, key=lambda mark: mark.at)


def _alike(marks: Sequence[FeltCut], others: Sequence[FeltCut]) -> bool:
    off = _largest(marks, others)
    leans = (abs(p.lean - q.lean) for p, q in zip(marks, others, strict=False))
    return off is not None and off <= SAME and max(leans, default=0.0) < LEAST_LEAN


def _sort(mark: FeltCut) -> tuple[str, int, str]:
    return mark.kind, mark.face, mark.opens


def _largest(marks: Sequence[FeltCut], others: Sequence[FeltCut]) -> float | None:
    """The greatest distance between places that answer each other; None where kinds or faces differ."""
    if len(marks) != len(others):
        return None
    pairs = list(zip(marks, others, strict=True))
    if any(_sort(p) != _sort(q) or abs(p.wide - q.wide) > SAME for p, q in pairs):
        return None
    return max((abs(p.at - q.at) for p, q in pairs), default=0.0)
