"""Sections of a part's ends: how a bevel is sawn, how far an end goes in, and what it stands against.

Each is cut along the board, drawn face side up with the datum end left, as all sections are. The board that the
end meets is drawn beside it in axis lines: wood in 0.7 is the part's own. A plain bevel needs no more than this;
an end that carries cuts has a view from outside too (`views`).
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from shapely import Point, Polygon, affinity, unary_union
from shapely.geometry.base import BaseGeometry

from .....geometry.frames import NEAR
from .....geometry.sections import polygons
from .....geometry.views import FACES, Surface
from .....piece.model import DATUM_END, Cut
from ....display import Item, Stroke, Text, shifted
from ....hatch import hatch
from ....kit import dimension
from ....kit.axis import clipped
from ....kit.dimension import plain
from ....kit.placing import FilledPaper
from ....kit.wood import hatch_step
from ....lettering import FIGURE, TEXT, width
from ....looks import Desk, Look
from ....naming import LEAST, depth, saw_lines, saw_rise
from ....standard import AIR, FIRST, GROUND, HAIR, PAST, RIGHT
from ....symbols import BALLOON, balloon
from ...page.arranging import Sketch
from ..looking import cut_of, other_of
from ..words.facts import LEAST_LEAN
from .windows import SectionWindow, across_at, carried, neighbour, span_of, window_of

NEVER_SEEN = HAIR  # of the part: at full size no line is finer


def end_sections(desk: Desk, look: Look, *, roomy: bool) -> list[Sketch]:
    """A section of each end that is bevelled or meets another board; at a larger scale, with figures, if roomy.

    Two ends that are mirror images share one, drawn for the datum end.
    """
    ends = sorted((cut for cut in look.part.cuts if _shown(cut)), key=lambda cut: cut.end)
    if len(ends) == 2 and _mirrored(desk, look, *ends):
        return [_section(desk, look, ends, roomy)]
    return [_section(desk, look, [cut], roomy) for cut in ends]


def _mirrored(desk: Desk, look: Look, one: Cut, other: Cut) -> bool:
    """Whether the sections of two ends are mirror images: the part's wood, what it meets, and what is said of them."""
    if _says(look, one) != _says(look, other) or _kinds(look, one) != _kinds(look, other):
        return False
    windows = [window_of(desk, look, cut, roomy=True) for cut in (one, other)]
    pairs = [_areas(desk, look, cut, window) for cut, window in zip((one, other), windows, strict=True)]
    turned = [affinity.scale(area, xfact=-1.0, origin=(0.0, 0.0)) for area in pairs[1]]
    return all(_same(p, q) for p, q in zip(pairs[0], turned, strict=True))


def _areas(desk: Desk, look: Look, cut: Cut, window: SectionWindow) -> list[BaseGeometry]:
    """The part's own wood and its neighbour's as shown, counted from the long point."""
    d, span = across_at(look, cut), span_of(look, cut)
    long_point = span[0] if cut.end < 0 else span[1]
    own = unary_union([Polygon(loop) for loop in look.looker.slice_at(d)]).intersection(window.frame)
    return [affinity.translate(area, -long_point) for area in (own, neighbour(desk, look, cut, d, window))]


def _same(one: BaseGeometry, other: BaseGeometry) -> bool:
    """Whether no eye tells two areas apart."""
    near = one.buffer(NEVER_SEEN, join_style="mitre"), other.buffer(NEVER_SEEN, join_style="mitre")
    return bool(near[0].covers(other) and near[1].covers(one))


def _kinds(look: Look, cut: Cut) -> list[tuple[str, str]]:
    """What opens at an end, with its depth."""
    cuts = [cut_of(look, trace.key) for trace in carried(look, cut.end)]
    return [(one.word, depth(one.figures.deep or 0.0)) for one in cuts]


def _shown(cut: Cut) -> bool:
    """Whether a cut makes an end that has a section: it is bevelled, or meets another board."""
    return bool(cut.end) and (abs(cut.figures.lean) > LEAST_LEAN or cut.joint is not None)


def _section(desk: Desk, look: Look, cuts: Sequence[Cut], roomy: bool) -> Sketch:
    """One end, the first of these; a second is its mirror image."""
    cut = cuts[0]
    d = across_at(look, cut)
    window = window_of(desk, look, cut, roomy=roomy)
    own = unary_union([Polygon(loop) for loop in look.looker.slice_at(d)])
    other = neighbour(desk, look, cut, d, window)
    items = [*_edges(other, window, "axis"), *_wood(window, look, d), *_hidden(look, cut, own, window)]
    items += _letters(desk, look, cuts, own, other, window) if roomy else []
    more = _figure(look, cut, window, items) if roomy else []
    x = window.wide - BALLOON / 2
    for number in reversed([look.numbers[one.key] for one in cuts if one.key in look.numbers]):
        items += balloon((x, BALLOON / 2), str(number), cut.key)
        x -= BALLOON + AIR
    words = [look.names.words[Surface.DATUM if one.end == DATUM_END else Surface.FAR] for one in cuts]
    bottom = window.bottom + window.aside * window.scale
    told = words[0] if len(words) == 1 else f"{words[0]}, {words[1]} mirrored"
    wide = max(window.wide, width(told, TEXT, "semibold"))
    return Sketch(
        items=shifted((*items, *more), (wide - window.wide) / 2, 0.0),
        wide=wide,
        high=max(bottom, window.bottom + FIRST + PAST if more else 0.0) + AIR,
        leans=told,
        says=_says(look, cut),
        scale=window.scale,
        end=True,
    )


def _edges(area: BaseGeometry, window: SectionWindow, pen: str, owner: str = "") -> Iterator[Item]:
    """Outlines of an area, open where only the picture ends."""
    border = window.frame.exterior
    for piece in polygons(area.intersection(window.frame)):
        for p, q in pairwise(piece.exterior.coords):
            if border.distance(Point((p[0] + q[0]) / 2, (p[1] + q[1]) / 2)) > NEAR:
                ends = (window.at((p[0], p[1])), window.at((q[0], q[1])))
                yield Stroke(points=ends, pen=pen, layer="section", owner=owner)


def _wood(window: SectionWindow, look: Look, d: float) -> Iterator[Item]:
    """The part's own wood, hatched, its outline open where the section goes on."""
    owner, step = look.part.id, hatch_step(2 * window.half, window.scale)
    for loop in look.looker.slice_at(d):
        for piece in polygons(Polygon(loop).intersection(window.frame)):
            yield from hatch([[window.at((x, y)) for x, y in piece.exterior.coords[:-1]]], step, owner=owner)
        for run in clipped(loop, window.low, window.high):
            points = tuple(window.at(p) for p in run)
            yield Stroke(points=points, pen="cut wood", layer="section", owner=owner)


def _hidden(look: Look, end: Cut, own: BaseGeometry, window: SectionWindow) -> Iterator[Item]:
    """Pockets and grooves in the end that this section does not meet, dashed."""
    for trace in carried(look, end.end):
        d = (trace.across[0] + trace.across[1]) / 2
        first = trace.opening[0]
        middle = (min(v for _, v in first) + max(v for _, v in first)) / 2
        for loop in look.looker.taken_at(trace.key, middle if len(trace.opening) > 1 else d):
            inside = Polygon(loop).intersection(own.buffer(-LEAST)).intersection(window.frame)
            yield from _edges(inside, window, "hidden small", trace.key)


def _letters(
    desk: Desk, look: Look, cuts: Sequence[Cut], own: BaseGeometry, other: BaseGeometry, window: SectionWindow
) -> Iterator[Item]:
    """The letters of the part and of what it meets, where there is wood enough for them."""
    met = ", ".join(dict.fromkeys(desk.marks[name] for cut in cuts if (name := other_of(cut)) in desk.marks))
    for name, text, area in (
        (look.part.id, look.part.mark, own),
        (other_of(cuts[0]), met, other.difference(own)),
    ):
        reach = max(FIGURE, width(text, FIGURE, "bold")) / 2 + AIR
        shown = area.intersection(window.frame).buffer(-reach / window.scale)
        largest = max(polygons(shown), key=lambda piece: piece.area, default=None)
        if largest is None or not text:
            continue
        spot = largest.representative_point()
        x, y = window.at((spot.x, spot.y))
        yield Text(
            at=(x, y + FIGURE / 2),
            text=text,
            size=FIGURE,
            weight="bold",
            anchor="middle",
            ground=GROUND,
            owner=name,
        )


def _figure(look: Look, cut: Cut, window: SectionWindow, wood: Sequence[Item]) -> list[Item]:
    """Under it: how far the end goes in, or what the long point has over the short one."""
    ends = [look.end_of(cut, face) for face in FACES]
    if abs(ends[0] - ends[1]) > LEAST:
        low, high = min(ends), max(ends)
    elif cut.figures.deep and cut.figures.between_faces > RIGHT - LEAST_LEAN:
        inner = ends[0] - cut.end * cut.figures.deep
        low, high = min(ends[0], inner), max(ends[0], inner)
    else:
        return []
    paper = FilledPaper()
    paper.draw(wood)
    left, right = ((window.at((a, 0.0))[0], window.bottom) for a in (low, high))
    one = plain(left, right, depth(high - low), -1)
    placed = dimension.put(paper, replace(one, rows=1)) and paper.right <= window.wide + 2 * PAST
    return paper.items[len(wood) :] if placed else []


def _says(look: Look, cut: Cut) -> tuple[str, ...]:
    """The bevel three ways and its long point; how far a square end goes in needs no words."""
    lean = abs(cut.figures.lean)
    if lean <= LEAST_LEAN:
        return ()
    at = [look.end_of(cut, face) for face in FACES]
    outer = max if cut.end > 0 else min
    board = look.part.board
    lines = [*saw_lines(lean, board), saw_rise(lean, board)]
    if abs(at[0] - at[1]) > LEAST:
        long_face = FACES[at.index(outer(at))]
        lines.append(f"long point {look.names.short(long_face).upper()}")
    return tuple(lines)
