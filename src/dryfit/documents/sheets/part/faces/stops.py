"""Where a housing stops short of an edge: its end at full size on the face, with what is left to the edge."""

from collections.abc import Iterator, Sequence

from .....geometry.views import FACES, Surface, Trace
from .....piece.model import Cut
from ....display import Item, Stroke, Text, extent, shifted
from ....hatch import hatch
from ....kit import dimension
from ....kit.dimension import plain
from ....kit.placing import FilledPaper
from ....kit.wood import FACE_STEP, broken
from ....lettering import TEXT, width
from ....looks import Look
from ....naming import LEAST, depth, position
from ....naming import width as wide_words
from ....standard import AIR, FIGURE, PAST, RIGHT, ROW
from ....standard import SCALES as STEPS
from ....symbols import BALLOON, balloon
from ...page.arranging import WIDE, Sketch
from ..ends.windows import OUTER

SCALES = STEPS[:3]
ABOVE = BALLOON + 2 * AIR  # for the number, and clear of the line above it
LEFT = ROW  # for the edge's name
LONG = OUTER  # of the housing shown, on paper
MOST = (2 * WIDE, WIDE)


def stop_details(look: Look, *, roomy: bool) -> list[Sketch]:
    """One detail for housings that stop alike, at full size if roomy."""
    done: set[tuple[str, ...]] = set()
    made: list[Sketch] = []
    for cut in look.part.cuts:
        for face in FACES:
            trace = look.view(face).trace(cut.key)
            if trace is None or not trace.seen or cut.end or not cut.face:
                continue
            front = look.part.board.depth - trace.across[1]
            figures = cut.figures
            same = (position(front), wide_words(figures.across or 0.0), depth(figures.deep or 0.0))
            if front > LEAST and same not in done:
                done.add(same)
                made.append(_detail(look, cut, face, trace, front, SCALES if roomy else SCALES[1:]))
    return made


def _detail(look: Look, cut: Cut, face: Surface, trace: Trace, front: float, scales: Sequence[float]) -> Sketch:
    """The stopped end, the front edge left."""
    along = [a for loop in trace.opening for a, _ in loop]
    wide = max(along) - min(along)
    scale = next((s for s in scales if front * s + LONG + LEFT <= MOST[0] and wide * s <= MOST[1]), scales[-1])
    stop, bottom = LEFT + front * scale, ABOVE + wide * scale
    right = stop + LONG
    items = list(_wood(look, cut, stop, bottom))
    number = look.numbers.get(cut.key)
    if number is not None:
        items += balloon((right - BALLOON / 2, BALLOON / 2), str(number), cut.key)
    paper = FilledPaper()
    paper.draw(items)
    dimension.put(paper, plain((LEFT, bottom), (stop, bottom), position(front), -1))
    sizes = f"{wide_words(cut.figures.across or 0.0)} wide, {depth(cut.figures.deep or 0.0)} deep"
    down = max(AIR - extent(paper.items).top, 0.0)  # a narrow housing is shorter than its edge's name
    placed = shifted(paper.items, 0.0, down)
    return Sketch(
        items=placed,
        wide=max(right + 1.0, width(sizes, TEXT)),
        high=extent(placed).bottom + AIR,
        leans=f"stop of housing, {look.names.words[face]}",
        says=(sizes, "square the corners"),
        scale=scale,
    )


def _wood(look: Look, cut: Cut, stop: float, bottom: float) -> Iterator[Item]:
    """The front edge, and the housing from its stop on, broken off where it goes on."""
    right = stop + LONG
    outline = ((right, ABOVE), (stop, ABOVE), (stop, bottom), (right, bottom))
    yield Stroke(points=((LEFT, ABOVE - FIGURE), (LEFT, bottom + FIGURE)), pen="cut wood", layer="section")
    yield from hatch([outline], FACE_STEP, owner=cut.key)
    yield Stroke(points=outline, pen="cut wood", layer="section", owner=cut.key)
    yield broken((right, ABOVE), (right, bottom))
    yield Text(at=(LEFT - PAST, bottom), text=look.names.words[Surface.FRONT], turn=RIGHT)
