"""What a section of a part's end shows: the stretch of the board, where across it is cut, the wood it meets there."""

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from shapely import Polygon, affinity, box
from shapely.geometry.base import BaseGeometry

from .....geometry.frames import NEAR, Vec2
from .....geometry.shapes import Bore
from .....geometry.views import FACES, Surface, Trace
from .....piece.made import STEEPEST
from .....piece.model import DATUM_END, Cut
from ....kit.label import middle_first
from ....looks import Desk, Look
from ....standard import AIR, DETAILS, FIGURE, PAST, RIGHT, ROW
from ....symbols import BALLOON
from ....through import Plane, wood_in
from ...page.arranging import WIDE
from ..looking import all_over, cut_of, other_of, up_of

INNER, OUTER = 3 * ROW, 4 * ROW  # on paper: of the part inside its end, at most of the neighbour outside it
ASIDE, ASIDE_CLOSE = 2 * FIGURE, 2 * PAST  # of the neighbour past either face: room for its letter, or to be seen
ABOVE = BALLOON + AIR  # for the cut's number
THICK = 2 * WIDE / 3  # on paper, of a board in a section
ROOMY, CLOSE = (WIDE, WIDE), (THICK, WIDE - INNER)  # largest thickness and bevel on paper
TRIED = 10  # places across the board
BEYOND = 100.0  # along the board: a cut further than this from an end is not met by its section


def carried(look: Look, end: int) -> list[Trace]:
    """The cuts that open at an end: holes, grooves, pockets."""
    surface = Surface.DATUM if end == DATUM_END else Surface.FAR
    return [trace for trace in look.view(surface).traces if trace.seen and not trace.end]


def span_of(look: Look, cut: Cut) -> Vec2:
    """Where an end's short and long points lie along the board, in their order."""
    at = [look.end_of(cut, face) for face in FACES]
    return min(at), max(at)


@dataclass(frozen=True, slots=True, kw_only=True)
class SectionWindow:
    """A stretch of the section on paper, from (0, 0) down.

    Attributes:
        aside: shown past either face.
        over: whether the other face lies up.
    """

    look: Look
    low: float
    high: float
    scale: float
    half: float
    aside: float = 0.0
    above: float = ABOVE
    over: bool = False

    @property
    def up(self) -> float:
        """Which way +c goes up the sheet."""
        return -up_of(self.look) if self.over else up_of(self.look)

    def at(self, p: Vec2) -> Vec2:
        """A point (a, c) on paper."""
        return (p[0] - self.low) * self.scale, self.top + (self.half - self.up * p[1]) * self.scale

    @property
    def top(self) -> float:
        """The upper face."""
        return self.above + self.aside * self.scale

    @property
    def bottom(self) -> float:
        """The lower face."""
        return self.top + 2 * self.half * self.scale

    @property
    def wide(self) -> float:
        """Width on paper."""
        return (self.high - self.low) * self.scale

    @property
    def frame(self) -> Polygon:
        """What is shown, in (a, c)."""
        reach = self.half + self.aside
        return box(self.low, -reach, self.high, reach)


def window_of(desk: Desk, look: Look, cut: Cut, *, roomy: bool) -> SectionWindow:
    """The window at an end, with room for what it meets."""
    low, high = span_of(look, cut)
    thick = look.part.board.thickness_at((low if cut.end < 0 else high) + look.part.zero)
    most_thick, most_wide = ROOMY if roomy else CLOSE
    allowed = DETAILS if roomy else DETAILS[1:]
    scale = next((s for s in allowed if thick * s <= most_thick and (high - low) * s <= most_wide), DETAILS[-1])
    other = desk.looks.get(other_of(cut))
    met = other is not None
    aside = ASIDE if roomy else ASIDE_CLOSE
    slant = (thick / 2 * scale + aside) / abs(math.tan(math.radians(max(cut.figures.between_faces, RIGHT - STEEPEST))))
    beyond = 1.0 if other is None else min(OUTER, other.part.board.thickest * scale + PAST + max(slant, 0.0))
    inner, outer = INNER / scale, beyond / scale
    low, high = (low - outer, high + inner) if cut.end < 0 else (low - inner, high + outer)
    return SectionWindow(
        look=look,
        low=low,
        high=high,
        scale=scale,
        half=thick / 2,
        aside=aside / scale if met else 0.0,
        over=all_over(look),
    )


def across_at(look: Look, end: Cut) -> float:
    """Where across the board to cut: through a hole in the end, else clear of other cuts near it."""
    for trace in carried(look, end.end):
        bore = next((shape for shape in cut_of(look, trace.key).shapes if isinstance(shape, Bore)), None)
        if bore is not None:
            return bore.start[2]
    at = look.end_at(end.end, look.names.face_side)
    near = [
        trace
        for trace in look.view(look.names.face_side).traces
        if not trace.end and any(abs(a - at) < BEYOND for a, _ in trace.extent)
    ]
    depth_of_board = look.part.board.depth
    for d in middle_first(0.0, depth_of_board, depth_of_board / TRIED):
        if NEAR < d < depth_of_board - NEAR and not any(low <= d <= high for low, high in _reaches(look, near)):
            return d
    return depth_of_board / 2


def _reaches(look: Look, near: Iterable[Trace]) -> Iterator[Vec2]:
    """How far across the board each opening of these cuts reaches, on either face."""
    for trace in near:
        for face in FACES:
            other = look.view(face).trace(trace.key)
            for loop in other.opening if other is not None else ():
                yield min(d for _, d in loop), max(d for _, d in loop)


def neighbour(desk: Desk, look: Look, cut: Cut, d: float, window: SectionWindow) -> BaseGeometry:
    """The wood of the board that the end meets, in this part's (a, c); nothing where there is none."""
    other = desk.looks.get(other_of(cut))
    frame = look.part.board.frame
    if other is None or frame.z != other.part.board.frame.z:
        return Polygon()
    middle = (window.low + window.high) / 2
    reach = ((window.high - window.low) / 2, window.half + window.aside)
    plane = Plane(frame.place((middle + look.part.zero, 0.0, d)), frame.x, frame.y, reach)
    return affinity.translate(wood_in(other.part, plane), middle, 0.0)
