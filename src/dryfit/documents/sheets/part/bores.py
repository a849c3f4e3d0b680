"""Sections of the holes that are drilled square from an edge: cut across the board along their axis, the face side up.

The wall edge lies left and the front edge right. How wide each step is, how deep from the edge, how far the axis lies
from the face side; between them the board is broken. Table and views tell the same in words and by their axes.
"""

import math
from collections.abc import Iterator, Sequence

from shapely import box, unary_union
from shapely.affinity import translate

from ....geometry.frames import NEAR
from ....geometry.shapes import Bore
from ....lengths import written
from ....piece.model import Cut
from ...display import Item, Stroke, Text, extent, shifted
from ...kit import dimension
from ...kit.axis import Axis
from ...kit.dimension import plain
from ...kit.placing import FilledPaper
from ...kit.wood import FAR, LEANS, WoodStretch, cut_wood, hatch_step
from ...lettering import TEXT
from ...looks import Look, is_bored
from ...naming import in_runs, position, thickness
from ...standard import AIR, DETAILS, FIRST, GROUND, PAST
from ...symbols import BALLOON, arrowhead, balloon
from ..page.arranging import WIDE, Sketch
from .ends.windows import THICK
from .looking import up_of

BESIDE = 2 * TEXT  # on paper: of the wood at an edge, and about a step; a diameter stands there
OUT = PAST  # from the front edge to the line that tells how far the axis lies from the face
SEEN = "cut across, front right"


def bore_sections(look: Look) -> list[Sketch]:
    """A section for each sort of hole, with the numbers of all that are bored so."""
    sorts: dict[tuple[object, ...], list[Cut]] = {}
    for cut in sorted(look.part.cuts, key=lambda cut: look.numbers.get(cut.key, 0)):
        bores = [shape for shape in cut.shapes if isinstance(shape, Bore)]
        if is_bored(cut) and len(bores) == 1 and abs(bores[0].direction[2]) > 1.0 - NEAR and cut.key in look.numbers:
            _, c, d = bores[0].start
            same = written(c), written(d), bores[0].direction, bores[0].profile, bores[0].through
            sorts.setdefault((*same, _thick(look, bores[0])), []).append(cut)
    return [_section(look, cuts) for cuts in sorts.values()]


def _thick(look: Look, bore: Bore) -> float:
    return written(look.part.board.thickness_at(bore.start[0]))


def _section(look: Look, cuts: Sequence[Cut]) -> Sketch:
    bore = next(shape for shape in cuts[0].shapes if isinstance(shape, Bore))
    thick = _thick(look, bore)
    scale = next((one for one in DETAILS[1:] if thick * one <= THICK), DETAILS[-1])
    drawn = _Drawn(look, bore, thick, scale)
    numbers = [look.numbers[cut.key] for cut in cuts]
    paper = FilledPaper()
    paper.draw(drawn.wood())
    for figure in drawn.depths():
        near = dimension.near(figure, first=FIRST + AIR)
        drawn_so = dimension.put(paper, near) or dimension.put(paper, figure)
        assert drawn_so, f"no room for the depth of {cuts[0].key}"
    paper.draw([*drawn.diameters(), *drawn.from_face()])
    left, top, right, _ = extent(paper.items)
    many = len(numbers) * (BALLOON + AIR) > WIDE
    for place, number in enumerate(() if many else reversed(numbers)):
        x = right - BALLOON / 2 - place * (BALLOON + AIR)
        paper.draw(balloon((x, top - AIR - BALLOON / 2), str(number), cuts[0].key))
    left, top, right, bottom = extent(paper.items)
    said = [f"cuts {in_runs(numbers)}"] if many else []
    return Sketch(
        items=tuple(shifted(paper.items, -left, -top)), wide=right - left, high=bottom - top + AIR, leans="",
        says=(*said, SEEN), naming=len(said), scale=scale, end=True,
    )  # fmt: skip


class _Drawn:
    """A hole on paper: out of the wall to the right, the axis at 0, the face side up."""

    def __init__(self, look: Look, bore: Bore, thick: float, scale: float) -> None:
        self.look, self.bore, self.scale, self.depth = look, bore, scale, look.part.board.depth
        axis = up_of(look) * bore.start[1]
        self.upper, self.lower = thick / 2 - axis, -thick / 2 - axis
        self.steps = [bore.start[2] + bore.direction[2] * far for far, _ in bore.profile]
        beside = BESIDE / scale
        towards = math.copysign(beside, -bore.direction[2])  # the mouth, where the depth's figure wants room
        inner = [sorted((at - towards / 4, at + towards - towards / 4)) for at in self.steps[1:]]
        edges = [(0.0, beside), (self.depth - beside, self.depth)]
        kept = [(max(low, 0.0), min(high, self.depth)) for low, high in (*inner, *edges)]
        self.across = Axis.of(kept, scale)

    def wood(self) -> Iterator[Item]:
        """The board, hatched, without what is drilled out; and the axis."""
        holes = [
            box(min(p, q), -wide / 2, max(p, q), wide / 2)
            for p, q, (_, wide) in zip(self.steps, self.steps[1:], self.bore.profile, strict=False)
        ]
        board = box(0.0, self.lower, self.depth, self.upper)
        left = board.difference(unary_union(holes))
        step = hatch_step(self.upper - self.lower, self.scale)
        for piece in self.across.pieces:
            start, stop = (self.across.at(end) / self.scale for end in (piece.low, piece.high))
            shown = translate(left.intersection(box(piece.low, -FAR, piece.high, FAR)), start - piece.low, 0.0)
            ends = WoodStretch(
                (1.0, 0.0), start if piece.low > NEAR else -FAR, stop if piece.high < self.depth - NEAR else FAR
            )
            yield from cut_wood(shown, [ends], self.scale, self.look.part.id, lean=LEANS[0], step=step)
        low, high = self.across.ends
        yield Stroke(points=((low, 0.0), (high + OUT, 0.0)), pen="axis", layer="axis")

    def depths(self) -> Iterator[dimension.UnplacedDimension]:
        """How deep each step is from the edge."""
        mouth, under = self.across.at(self.steps[0]), -self.lower * self.scale
        for at in self.steps[1:-1] if self.bore.through else self.steps[1:]:
            start, stop = sorted((self.across.at(at), mouth))
            yield plain((start, under), (stop, under), position(abs(at - self.steps[0])), -1)

    def from_face(self) -> Iterator[Item]:
        """How far the axis lies from the face side: level, beside a line too short to hold it."""
        x, high = self.across.ends[1] + OUT, -self.upper * self.scale
        told = thickness if abs(self.bore.start[1]) < NEAR else position
        for points in (((x, 0.0), (x, high)), ((x - OUT + PAST / 2, high), (x + PAST / 2, high))):
            yield Stroke(points=points, pen="dimension", layer="dimension")
        yield from (arrowhead((x, 0.0), (0.0, 1.0)), arrowhead((x, high), (0.0, -1.0)))
        at = (x + 2 * AIR, (high + TEXT) / 2)
        yield Text(at=at, text=told(self.upper), weight="semibold", layer="dimension")

    def diameters(self) -> Iterator[Item]:
        """Each in its own stretch of the hole, on white: the first at its mouth, the others at their far end."""
        for number, (p, q, (_, wide)) in enumerate(zip(self.steps, self.steps[1:], self.bore.profile, strict=False)):
            near, far = self.across.at(p), self.across.at(q)
            into = math.copysign(BESIDE / 2, far - near)
            if abs(far - near) > BESIDE / 2:
                yield Text(
                    at=(far - into if number else near + into, TEXT / 2), text=position(wide), weight="semibold",
                    anchor="middle", ground=GROUND, layer="dimension",
                )  # fmt: skip
