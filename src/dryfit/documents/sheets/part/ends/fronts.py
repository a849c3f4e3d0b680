"""What is seen and measured on an end from outside: tongues, tails, holes, grooves, pockets, with their figures.

Distances are from the front edge, through the thickness from the face side. An end is looked at with its face
side up, so the front edge lies right on one end of a board and left on the other.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise

from .....geometry.frames import NEAR, Vec2
from .....geometry.loops import Loop
from .....geometry.shapes import Prism
from .....geometry.views import Surface, SurfaceView
from .....piece.model import DATUM_END, Cut
from .....piece.recording import DIGITS
from ....looks import Look, is_bored
from ....naming import depth, plural, position
from ....naming import width as wide_words
from ....standard import DETAILS, FIRST, ROW
from ...page.frame import BLOCK_WIDE
from ..looking import cut_at, cut_of, up_of
from ..words.facts import LEAST_LEAN, bore_words, is_tongue
from .windows import carried

MOST = (BLOCK_WIDE - 2 * (FIRST + ROW), 14.0)  # on paper: of an end's length across the board, of its thickness
LITTLE = BLOCK_WIDE / 2 - 2 * ROW  # the same of its length where there is little room: two stand side by side
EDGE = 0.3  # of the board: nearer than this to its edge nothing is marked


@dataclass(frozen=True, slots=True, kw_only=True)
class Front:
    """An end on paper: its face side at `top`, its front edge at `left` or `right`.

    Attributes:
        way: 1 where the front edge lies left, so that its figures run to the right.
    """

    look: Look
    end: int
    scale: float
    left: float
    top: float

    @property
    def surface(self) -> Surface:
        """The end."""
        return Surface.DATUM if self.end == DATUM_END else Surface.FAR

    @property
    def view(self) -> SurfaceView:
        """The exact view."""
        return self.look.view(self.surface)

    @property
    def half(self) -> float:
        """Half the thickness here."""
        a = self.look.end_at(self.end, self.look.names.face_side) + self.look.part.zero
        return self.look.part.board.thickness_at(a) / 2

    @property
    def up(self) -> float:
        """Which way +c goes up the sheet."""
        return up_of(self.look)

    @property
    def way(self) -> float:
        """Looking at the datum end with +c up the front edge is on the right."""
        return -1.0 if (self.end == DATUM_END) == (self.up > 0) else 1.0

    @property
    def right(self) -> float:
        """The other edge."""
        return self.left + self.look.part.board.depth * self.scale

    @property
    def bottom(self) -> float:
        """The other face."""
        return self.top + 2 * self.half * self.scale

    def x(self, d: float) -> float:
        """Where a distance from the wall edge stands."""
        front = self.look.part.board.depth - d
        return self.left + front * self.scale if self.way > 0 else self.right - front * self.scale

    def y(self, c: float) -> float:
        """Where a place in the thickness stands."""
        return self.top + (self.half - self.up * c) * self.scale

    def at(self, p: Vec2) -> Vec2:
        """A point (c, d) of the view."""
        return self.x(p[1]), self.y(p[0])


def needed(look: Look, end: int) -> bool:
    """Whether an end is stepped or carries cuts; a plain bevel is told by its section."""
    view = look.view(Surface.DATUM if end == DATUM_END else Surface.FAR)
    return bool(carried(look, end)) or (_stepped(view) and bool(view.outline))


def _stepped(view: SurfaceView) -> bool:
    """Whether shoulders lie behind an end's own face."""
    return any(all(max(p) - min(p) > EDGE for p in (through_of(loop), across_of(loop))) for loop in view.behind)


def across_of(loop: Loop) -> list[float]:
    """Distances from the wall edge of an outline's corners."""
    return [d for _, d in loop]


def through_of(loop: Loop) -> list[float]:
    """Places through the thickness of an outline's corners."""
    return [c for c, _ in loop]


def front_of(look: Look, end: int, *, roomy: bool = True) -> Front:
    """An end at the largest scale at which it keeps to a sheet, or to half its width."""
    depth_of_board = look.part.board.depth
    trial = Front(look=look, end=end, scale=1.0, left=0.0, top=0.0)
    wide, high = MOST if roomy else (LITTLE, MOST[1])
    fits = (s for s in DETAILS if depth_of_board * s <= wide and 2 * trial.half * s <= high)
    return replace(trial, scale=next(fits, DETAILS[-1]))


def features(front: Front) -> tuple[object, ...]:
    """Everything that is told of an end, to find two that are mirror images."""
    cuts = [(cut.word, sizes(front.look, cut)) for cut in told_of(front)]
    marked = [from_front(front, d) for d in places(front)]
    return cuts, marked, [figure for _, _, figure in heights(front)], _lean(front)


def cuts_on(front: Front) -> list[Cut]:
    """The cuts that open at it."""
    keys = [trace.key for trace in carried(front.look, front.end)]
    return [cut for cut in front.look.part.cuts if cut.key in keys]


def told_of(front: Front) -> list[Cut]:
    """The cuts that are told under it: the end itself where it is a tongue, then what opens at it."""
    ends = [cut for cut in front.look.part.cuts if cut.end == front.end and cut.figures.across and cut.figures.deep]
    return [*(ends if _stepped(front.view) else []), *cuts_on(front)]


def _lean(front: Front) -> float:
    cut = cut_at(front.look, front.end)
    return round(abs(cut.figures.lean), 2) if cut is not None else 0.0


def places(front: Front) -> list[float]:
    """Distances from the wall edge that are marked.

    Holes, and pockets that a round cutter makes, on their middle; else the wall nearer the front edge.
    """
    whole = front.look.part.board.depth
    found = [d for loop in front.view.outline for d in _level_edges(loop)]
    for trace in carried(front.look, front.end):
        middle = on_middle(cut_of(front.look, trace.key))
        for loop in trace.opening:
            low, high = min(across_of(loop)), max(across_of(loop))
            found.append((low + high) / 2 if middle else high)
    return sorted({round(d, DIGITS) for d in found if EDGE < d < whole - EDGE}, reverse=True)


def from_front(front: Front, d: float) -> str:
    """How far a place is from the front edge: a shoulder as finely as its row has it, all else as positions are."""
    shoulders = {round(edge, DIGITS) for loop in front.view.outline for edge in _level_edges(loop)}
    far = front.look.part.board.depth - d
    return wide_words(far) if d in shoulders and EDGE < d < d + far - EDGE else position(far)


def on_middle(cut: Cut) -> bool:
    """Whether a cut is set out on its middle: a bore, a round cutter's pocket."""
    rounded = (isinstance(shape, Prism) and any(bulge for *_, bulge in shape.outline) for shape in cut.shapes)
    return is_bored(cut) or any(rounded)


def _level_edges(loop: Loop) -> Iterator[float]:
    """Where an outline runs through the thickness: the ends of a tongue."""
    for (c, d), (c1, d1) in pairwise([*loop, loop[0]]):
        if abs(d - d1) < NEAR and abs(c - c1) > EDGE:
            yield d


def heights(front: Front) -> list[tuple[float, float, str]]:
    """(from, to, figure) through the thickness, from the face side: shoulder and tongue, a hole's axis, a groove.

    On a leaning end they would be seen foreshortened by nobody's gauge: its section gives them.
    """
    if _lean(front) > LEAST_LEAN:
        return []
    half, up = front.half, front.up
    found: list[tuple[float, float, str]] = []
    spans = [(min(through_of(loop)), max(through_of(loop)), False) for loop in front.view.outline]
    for trace in carried(front.look, front.end):
        bored = is_bored(cut_of(front.look, trace.key))
        spans += [(min(through_of(loop)), max(through_of(loop)), bored) for loop in trace.opening]
    for low, high, bored in spans:
        near, far = sorted((half - up * low, half - up * high))
        if bored:
            near = far = (near + far) / 2
        if near > EDGE:
            found.append((0.0, near, depth(near)))
        if far - near > EDGE and 2 * half - (far - near) > EDGE:
            found.append((near, far, depth(far - near)))
    return list(dict.fromkeys(found))


def sizes(look: Look, cut: Cut) -> str:
    """A cut's sizes: "8 × 21 deep", "4.00 wide, 12.0 deep"."""
    if is_bored(cut):
        return f"{plural(len(cut.shapes), 'hole')} {bore_words(look, cut)}"
    if cut.end and cut.figures.reach is not None:
        low, high = cut.figures.reach
        return f"{cut.word}, over {depth(high - low)}; the rest square"
    lap = cut.end and cut.figures.stands == "line" and not is_tongue(look, cut)  # it goes in nowhere
    if lap and cut.figures.deep is not None:
        return f"{cut.word} {depth(cut.figures.deep)} deep"
    found = []
    if cut.figures.across is not None and (not cut.end or is_tongue(look, cut)):
        found.append(f"{wide_words(cut.figures.across)} {'thick' if cut.end else 'wide'}")
    if cut.figures.deep is not None:
        deep = depth(cut.figures.deep)
        found.append(f"goes in {deep}" if cut.end else f"{deep} deep")
    word = cut.word if not cut.end else cut.plain if is_tongue(look, cut) else "end"
    return f"{word}{', ' if found and found[0][:1].isalpha() else ' '}{', '.join(found)}".strip()
