"""Where a housing stops short of an edge: its end at full size on the face, with what is left to the edge."""

from collections.abc import Iterator, Sequence

from .....geometry.views import FACES, Surface, Trace
from .....piece.model import Cut
from ....display import Item, Stroke, Text
from ....hatch import hatch
from ....lettering import TEXT, width
from ....looks import Look
from ....naming import depth, position
from ....naming import width as wide_words
from ....symbols import BALLOON, balloon, zigzag
from ...dimensions.plain import level
from ...dimensions.running import PAST
from ...page.arranging import Sketch

SCALES = (1.0, 0.5, 0.2)
LEFT = 6.0  # for the edge's name
LONG = 22.0  # of the housing shown, on paper
MOST = (62.0, 34.0)
ABOVE, BELOW = 6.0, 7.4


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
            if front > 0.5 and same not in done:
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
        items += balloon((right - BALLOON / 2, BALLOON / 2 - 0.4), str(number), cut.key)
    y = bottom + BELOW - 2.4
    for x in (LEFT, stop):
        items.append(Stroke(points=((x, bottom + 0.8), (x, y + PAST)), pen="dimension", layer="dimension"))
    items += level(LEFT, stop, y, position(front), bold=True)
    sizes = f"{wide_words(cut.figures.across or 0.0)} wide, {depth(cut.figures.deep or 0.0)} deep"
    return Sketch(
        items=tuple(items),
        wide=max(right + 1.0, width(sizes, TEXT)),
        high=bottom + BELOW,
        leans=f"stop of housing, {look.names.words[face]}",
        says=(sizes, "square the corners"),
        scale=scale,
    )


def _wood(look: Look, cut: Cut, stop: float, bottom: float) -> Iterator[Item]:
    """The front edge, and the housing from its stop on, broken off where it goes on."""
    right = stop + LONG
    outline = ((right, ABOVE), (stop, ABOVE), (stop, bottom), (right, bottom))
    yield Stroke(points=((LEFT, ABOVE - 4.0), (LEFT, bottom + 4.0)), pen="cut wood", layer="section")
    yield from hatch([outline], 1.6, owner=cut.key)
    yield Stroke(points=outline, pen="cut wood", layer="section", owner=cut.key)
    yield zigzag(right, ABOVE - 1.6, bottom + 1.6)
    yield Text(at=(LEFT - 1.4, bottom), text=look.names.words[Surface.FRONT], turn=90.0)
