"""Parts: each board with all its cuts, its blank, its long and short points and its mark."""

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace

from ..geometry.frames import Vec, length
from ..geometry.shapes import Bore, HalfSpace, Prism, Shape, corners, half_space
from ..geometry.solids import RoughBoard
from ..sentences import Name, Sentence, say
from .facts import CutForm, Opens
from .model import DATUM_END, FAR_END, Blank, Board, Cut, Figures, Joint, Part

LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"  # I and O are never given: they read as figures
MANY = 24


def called(cut: Cut) -> Sentence:
    """A cut as a sentence speaks of it: "the slot in shelf for upright", "bore 1 of screws"."""
    says = cut.says or say("{}", cut.key)
    return says if cut.name else say("the {}", says)  # what has a number stands without an article


def free_end(board: Board, end: int) -> Cut:
    """The cut of an end that nothing else decides: square, level or plumb, through the line's end."""
    form = board.ends[0 if end == DATUM_END else 1]
    a = 0.0 if end == DATUM_END else board.length
    normal = _end_normal(board, form, end)
    lean = math.degrees(math.atan2(abs(normal[1]), abs(normal[0])))
    word = "datum end" if end == DATUM_END else "far end"
    scribe = board.scribe[0 if end == DATUM_END else 1]
    says = say("{} of {}", word, Name(board.name))
    return Cut(
        key=str(says),
        says=says,
        body=board.name,
        form=CutForm.END,
        word="end" if lean < 1e-9 else f"{form} end",
        end=end,
        shapes=(half_space((a, board.line_c), normal),),
        figures=Figures(opens=Opens.END, lean=lean, note="on the line as drawn"),
        size_is="LEAVE LONG" if scribe else "FIXED",
    )


def _end_normal(board: Board, form: str, end: int) -> tuple[float, float]:
    """Normal of an end's plane in the board's (a, c) plane, pointing away from the board."""
    ux, uy, _ = board.frame.x
    if form == "square" or board.lies == "flat":
        return (float(end), 0.0)
    # world y in the board's plane is (uy, ux); world x is (ux, -uy)
    normal = (uy, ux) if form == "level" else (ux, -uy)
    sign = 1.0 if normal[0] * end > 0 else -1.0
    return (sign * normal[0], sign * normal[1])


def make_part(board: Board, mark: str, joint_cuts: Sequence[Cut], trim: float) -> Part:
    """Put a board's cuts together: an end that no joint makes is a free one."""
    made = {cut.end for cut in joint_cuts if cut.end}
    free = (free_end(board, end) for end in (DATUM_END, FAR_END) if end not in made)
    cuts = [*free, *_fitted(joint_cuts)]
    planes = {end: _planes(cuts, end) for end in (DATUM_END, FAR_END)}
    points = [_points(board, planes[end], end) for end in (DATUM_END, FAR_END)]
    longest = (length(points[0][0]), length(points[1][0]))
    shortest = (length(points[0][1]), length(points[1][1]))
    blank = Blank(
        start=length(longest[0] - trim - board.scribe[0]),
        end=length(longest[1] + trim + board.scribe[1]),
        width=length(board.depth + 2 * board.planing),
        thickness=length(board.thickest + 2 * board.planing),
    )
    return Part(board=board, mark=mark, blank=blank, long=longest, short=shortest, cuts=tuple(_in_order(cuts)))


def _fitted(cuts: Sequence[Cut]) -> Iterator[Cut]:
    """The cuts of a board; where both its ends meet others, those that stand to their wood are fitted to it.

    How long such a board becomes is what lies between the two as cut; a corner's ends are set out by its frame.
    """
    ends = [cut for cut in cuts if cut.end and cut.joint is not None]  # a free one that is cut already is among them
    between = len({cut.end for cut in ends}) == 2
    for cut in cuts:
        fits = between and bool(cut.end) and cut.figures.stands in ("face", "shoulder")
        yield replace(cut, size_is="FIT TO") if fits else cut


def _planes(cuts: Iterable[Cut], end: int) -> list[HalfSpace]:
    return [shape for cut in cuts if cut.end == end for shape in cut.shapes if isinstance(shape, HalfSpace)]


def end_on_face(board: Board, planes: Sequence[HalfSpace], end: int, face: int) -> float:
    """Where an end lies along the board on one face: of several planes, the one that takes most."""
    reach = []
    for plane in planes:
        c = face * board.thickness_at(plane.point[0]) / 2
        nx, ny, _ = plane.normal
        reach.append(plane.point[0] - ny * (c - plane.point[1]) / nx)
    return min(reach) if end == FAR_END else max(reach)


def ends_on_face(part: Part, face: int) -> tuple[float, float]:
    """Where the datum and the far end lie along the board on one face (+1 or -1 of c)."""
    datum, far = (end_on_face(part.board, _planes(part.cuts, end), end, face) for end in (DATUM_END, FAR_END))
    return datum, far


def corners_of(part: Part) -> tuple[Vec, ...]:
    """Its eight corners in the world, ends as cut: no cut reaches beyond them."""
    board = part.board
    return tuple(
        board.frame.place((a, face * board.thickest / 2, d))
        for face in (-1, 1)
        for a in ends_on_face(part, face)
        for d in (0.0, board.depth)
    )


def _points(board: Board, planes: list[HalfSpace], end: int) -> tuple[float, float]:
    """Long and short point of an end along a, over both faces."""
    places = [end_on_face(board, planes, end, face) for face in (1, -1)]
    return (max(places), min(places)) if end == FAR_END else (min(places), max(places))


def _in_order(cuts: list[Cut]) -> list[Cut]:
    """The datum end, what lies along the board, the far end; ties by key."""

    def place(cut: Cut) -> tuple[float, str]:
        if cut.end:
            return (-math.inf if cut.end == DATUM_END else math.inf), cut.key
        return begins(cut), cut.key

    return sorted(cuts, key=place)


def begins(cut: Cut) -> float:
    """Where a cut starts along the board."""
    return min((_first(shape) for shape in cut.shapes), default=0.0)


def _first(shape: Shape) -> float:
    """Where a shape starts along the board."""
    if isinstance(shape, Prism):
        return min(a for a, _, _ in corners(shape))
    return shape.start[0] if isinstance(shape, Bore) else shape.point[0]


def cuts_by_board(joints: Iterable[Joint]) -> dict[str, list[Cut]]:
    """All joints' cuts, by the board they are made in."""
    found: dict[str, list[Cut]] = {}
    for joint in joints:
        for cut in joint.cuts:
            found.setdefault(cut.body, []).append(cut)
    return found


def marks(boards: Sequence[Board], pinned: Mapping[str, str]) -> dict[str, str]:
    """A letter for every board: the pinned ones stay, the rest take what is free in the file's order."""
    given = {name: mark for name, mark in pinned.items() if mark}
    taken = set(given.values())
    free = (mark for mark in _letters(len(boards)) if mark not in taken)
    return {board.name: given.get(board.name) or next(free) for board in boards}


def _letters(count: int) -> Iterable[str]:
    """One letter a part while there are 24 or fewer, then A1, A2 ..."""
    if count <= MANY:
        yield from LETTERS
    number = 1
    while True:
        yield from (f"{letter}{number}" for letter in LETTERS)
        number += 1


def stock_of(part: Part) -> RoughBoard:
    """The part's blank without trim, from long point to long point, with the board's own thickness."""
    low, high = part.long
    places = sorted({low, high, *(a for a, _ in part.board.profile if low < a < high)})
    top = [(a, part.board.thickness_at(a) / 2) for a in places]
    return RoughBoard(outline=(*((a, -c) for a, c in top), *((a, c) for a, c in reversed(top))), depth=part.board.depth)
