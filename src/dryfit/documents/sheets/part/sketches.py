"""Sections of the cuts whose walls or floor are not plain from the faces: leaning slots, housings, ends.

Each is cut along the board through the middle of the cut and drawn with the datum end left. Walls that lean are seen
from the edge that the cut opens to, so that the head leans on paper as it is told (`piece.leaning`); where another face
is up for that than in the others, it is said. The lean is given three ways, once for all that share it.
"""

import math
from collections import Counter
from collections.abc import Iterator, Sequence

from shapely import Polygon, box, unary_union

from ....geometry.sections import FAR, polygons
from ....geometry.shapes import Prism
from ....geometry.views import FACES, Surface
from ....piece.facts import Opens
from ....piece.leaning import Head, head
from ....piece.model import DATUM_END, FAR_END, Cut
from ...display import Item, Stroke, Text
from ...hatch import hatch
from ...kit.axis import clipped
from ...kit.wood import hatch_step
from ...lettering import TEXT, width, wrapped
from ...looks import Desk, Look, is_bored
from ...naming import LEAST, angle, depth, in_runs, position, rest_to_square, rise
from ...standard import AIR, DETAILS, GROUND, LIFT, PAST, ROW, STEP
from ...symbols import BALLOON, balloon
from ..page.arranging import WIDE, Sketch
from .bores import bore_sections
from .ends.sections import end_sections
from .ends.windows import ABOVE, THICK, SectionWindow
from .looking import all_over, over
from .words.facts import LEAST_LEAN

BEFORE, AFTER = 2 * ROW, BALLOON + PAST  # of wood shown on either side, on paper; a figure stands over the first
BELOW = PAST + TEXT + LIFT  # figures under the section; over it stands a ring


def sketches(desk: Desk, look: Look, *, roomy: bool) -> list[Sketch]:
    """The sections a part needs, holes and ends last; cuts alike share one, with all their numbers.

    Args:
        roomy: ends at a larger scale, with figures and letters.
    """
    groups: dict[tuple[object, ...], list[Cut]] = {}
    for cut in sorted(look.part.cuts, key=lambda cut: look.numbers.get(cut.key, math.inf)):
        if _needs(look, cut):
            groups.setdefault(_alike(look, cut), []).append(cut)
    made = [_slot(look, cuts, opposite) for cuts, opposite in _paired(look, list(groups.values()))]
    alike = Counter(sketch.says for sketch in made)
    ordered = sorted(made, key=lambda sketch: (not sketch.says, -alike[sketch.says], sketch.says))
    return [*ordered, *bore_sections(look), *end_sections(desk, look, roomy=roomy)]


def _paired(look: Look, groups: list[list[Cut]]) -> Iterator[tuple[list[Cut], list[Cut]]]:
    """Groups of cuts with those that are let into the other face at the same place: one section shows both."""
    left = list(groups)
    while left:
        first = left.pop(0)
        facing = (other for other in left if len(first) == len(other) == 1 and _faces(look, first[0], other[0]))
        other = next(facing, [])
        if other:
            left.remove(other)
        yield first, other


def _faces(look: Look, one: Cut, other: Cut) -> bool:
    """Whether two square housings lie in one section, the one over the other: as wide, at one place, shown midway."""
    if max(abs(one.figures.lean), abs(other.figures.lean)) > LEAST_LEAN:
        return False
    traces = [look.view(look.names.face_side).trace(cut.key) for cut in (one, other)]
    spans = [sorted(a for a, _ in trace.extent) for trace in traces if trace is not None and trace.extent]
    middle = _middle(look, one)
    across = [trace.across for trace in traces if trace is not None]
    same = len(spans) == 2 and all(
        abs(p - q) < LEAST for p, q in zip((spans[0][0], spans[0][-1]), (spans[1][0], spans[1][-1]), strict=True)
    )
    return (
        same and all(low < middle < high for low, high in across) and _open_faces(look, one) != _open_faces(look, other)
    )


def _needs(look: Look, cut: Cut) -> bool:
    if cut.end or is_bored(cut) or cut.figures.opens is Opens.END or not _inside(look, cut):
        return False  # what lies in an end stands in that end's section
    return abs(cut.figures.lean) > LEAST_LEAN or len(_open_faces(look, cut)) == 1


def _inside(look: Look, cut: Cut) -> bool:
    """Whether wood is left on either side of a cut along the board."""
    trace = look.view(look.names.face_side).trace(cut.key)
    if trace is None or not trace.extent:
        return False
    points = [a for a, _ in trace.extent]
    starts = [look.end_at(DATUM_END, face) for face in FACES]
    stops = [look.end_at(FAR_END, face) for face in FACES]
    return min(points) > max(starts) and max(points) < min(stops)


def _open_faces(look: Look, cut: Cut) -> list[Surface]:
    faces = []
    for face in FACES:
        trace = look.view(face).trace(cut.key)
        if trace is not None and trace.seen:
            faces.append(face)
    return faces


def _alike(look: Look, cut: Cut) -> tuple[object, ...]:
    """What makes two sections one drawing: a slot's depth across the board is not seen in it, a housing's is.

    Nor does a board that changes in thickness make two slots of one lean different: their marks' shifts are given.
    """
    f, faces = cut.figures, _open_faces(look, cut)
    deep = round(f.deep or 0, 1) if len(faces) == 1 else 0.0
    return round(f.lean, 2), round(f.across or 0, 2), deep, tuple(faces), over(look, cut)


def _thickness(look: Look, cut: Cut) -> float:
    trace = look.view(look.names.face_side).trace(cut.key)
    a = sum(p[0] for p in trace.extent) / len(trace.extent) if trace and trace.extent else 0.0
    return look.part.board.thickness_at(a + look.part.zero)


def _scale(thickness: float, wide: float) -> float:
    """The largest drawing scale at which a section keeps to its column."""
    room = WIDE - BEFORE - AFTER + 2 * PAST
    fit = (scale for scale in DETAILS[1:] if thickness * scale <= THICK and wide * scale <= room)
    return next(fit, DETAILS[-1])


def _window(look: Look, cut: Cut, low: float, high: float) -> SectionWindow:
    thick = _thickness(look, cut)
    scale = _scale(thick, high - low)
    return SectionWindow(
        look=look,
        low=low - BEFORE / scale,
        high=high + AFTER / scale,
        scale=scale,
        half=thick / 2,
        above=ABOVE,
        over=over(look, cut),
    )


def _wood(window: SectionWindow, d: float) -> list[Item]:
    """Hatched wood with its outline, open where the section goes on."""
    loops = window.look.looker.slice_at(d)
    inside = unary_union([Polygon(loop) for loop in loops]).intersection(box(window.low, -FAR, window.high, FAR))
    shown = [[window.at((x, y)) for x, y in piece.exterior.coords[:-1]] for piece in polygons(inside)]
    items: list[Item] = list(hatch(shown, hatch_step(2 * window.half, window.scale), owner=window.look.part.id))
    for loop in loops:
        for run in clipped(loop, window.low, window.high):
            points = tuple(window.at(p) for p in run)
            items.append(Stroke(points=points, pen="cut wood", layer="section"))
    return items


def _middle(look: Look, cut: Cut) -> float:
    """Where across the board the cut is cut through."""
    for surface in FACES:
        trace = look.view(surface).trace(cut.key)
        if trace is not None:
            return (trace.across[0] + trace.across[1]) / 2
    return look.part.board.depth / 2


def _slot(look: Look, cuts: Sequence[Cut], opposite: Sequence[Cut] = ()) -> Sketch:
    """A slot or housing, and one let into the other face opposite it; positions stand at the walls of one by itself."""
    cut = cuts[0]
    trace = look.view(look.names.face_side).trace(cut.key)
    assert trace is not None, "a cut with a section takes some wood"
    points = [p[0] for p in trace.extent]
    window = _window(look, cut, min(points), max(points))
    items = _wood(window, _middle(look, cut))
    wide = window.wide
    items += [] if opposite else _figures(look, cuts, window)
    items += _both_floors(look, cuts[0], opposite[0], window) if opposite else []
    numbers = [str(look.numbers[one.key]) for one in (*cuts, *opposite)]
    many = len(numbers) > wide // (BALLOON + AIR)
    x = wide - BALLOON / 2
    for number in () if many else reversed(numbers):
        items += balloon((x, ABOVE - AIR - BALLOON / 2), number, cut.key)
        x -= BALLOON + AIR
    told = wrapped(f"cuts {in_runs([look.numbers[one.key] for one in cuts])}", WIDE, TEXT) if many else []
    return Sketch(
        items=tuple(items),
        wide=wide,
        high=max([window.bottom + BELOW, *(item.at[1] + LIFT for item in items if isinstance(item, Text))]),
        leans=f"head leans {leaning}" if (leaning := _head(look, cut)) else "",
        head=leaning,
        says=(*told, *_says(look, cuts)),
        naming=len(told),
        scale=window.scale,
        numbers=in_runs([look.numbers[one.key] for one in cuts]) if len(_open_faces(look, cut)) > 1 else "",
    )


def _figures(look: Look, cuts: Sequence[Cut], window: SectionWindow, *, floored: bool = True) -> list[Item]:
    """The position at its wall on each face it opens to; the depths of a floor that falls, or if `floored` of any."""
    cut = cuts[0]
    items: list[Item] = []
    open_faces = _open_faces(look, cut)
    for face in open_faces:
        place = look.position(cut, face)
        if place is None or len(cuts) > 1:
            continue
        upper = _lies_up(window, face)
        x, _ = window.at((place, 0.0))
        y = ABOVE - LIFT if upper else window.bottom + LIFT
        far = y - TEXT if upper else y + TEXT
        items.append(Stroke(points=((x, y), (x, far)), pen="dimension", layer="dimension"))
        base = far + TEXT if upper else far
        items.append(Text(at=(x - AIR, base), text=position(place), weight="semibold", anchor="end", layer="dimension"))
    if len(open_faces) == 1 and (corners := _floor_corners(look, cut, window)):
        return [*items, *corners]
    if floored and len(open_faces) == 1 and cut.figures.deep is not None:
        beside = max((item.points[0][0] for item in items if isinstance(item, Stroke)), default=0.0)
        items += _floor(look, cut, window, open_faces[0], beside)
    return items


def _both_floors(look: Look, one: Cut, other: Cut, window: SectionWindow) -> list[Item]:
    """The same of two housings over one another: each depth with its cut's number, one under the other."""
    found = [item for cut in (one, other) for item in _figures(look, [cut], window, floored=False)]
    base = window.bottom + 2 * LIFT + 2 * TEXT
    for number, cut in enumerate((one, other)):
        words = f"{look.numbers[cut.key]}: {depth(cut.figures.deep or 0.0)} deep"
        at = (window.wide, base + number * STEP)
        found.append(Text(at=at, text=words, weight="semibold", anchor="end", layer="dimension"))
    return found


def _floor_corners(look: Look, cut: Cut, window: SectionWindow) -> list[Item]:
    """How deep a floor that falls is at either wall, square to the face, each beside its own corner; else nothing."""
    board, zero = look.part.board, look.part.zero
    knots = [
        (a - zero, c, board.thickness_at(a) / 2 - cut.face * c)
        for a, c, *_ in _prism(cut).outline
        if board.thickness_at(a) / 2 - abs(c) > LEAST
    ]
    if len(knots) != 2 or abs(knots[0][2] - knots[1][2]) < LEAST:
        return []
    items: list[Item] = []
    for (a, c, deep), side in zip(sorted(knots), (-1, 1), strict=True):
        x, y = window.at((a, c))
        items.append(
            Text(
                at=(x + side * 2 * AIR, y + TEXT / 2),
                text=depth(deep),
                weight="semibold",
                anchor="end" if side < 0 else "start",
                ground=GROUND,
                layer="dimension",
            )
        )
    return items


def _floor(look: Look, cut: Cut, window: SectionWindow, face: Surface, beside: float) -> list[Item]:
    """How deep a housing is, on the side of its face; a line lower where its place leaves no room `beside` it."""
    assert cut.figures.deep is not None
    text = f"{depth(cut.figures.deep)} deep"
    upper = _lies_up(window, face)
    x = window.wide
    base = ABOVE - PAST if upper else window.bottom + LIFT + TEXT
    if upper and width(text, TEXT) + BALLOON > x / 2:
        base = window.bottom + LIFT + TEXT
    if not upper and x - width(text, TEXT, "semibold") < beside + AIR:
        base += TEXT + 1.0
    return [Text(at=(x, base), text=text, weight="semibold", anchor="end", layer="dimension")]


def _lies_up(window: SectionWindow, face: Surface) -> bool:
    """Whether a face is the upper one on paper."""
    return (face is Surface.PLUS) == (window.up > 0)


def _head(look: Look, cut: Cut) -> Head | None:
    """Which way its head leans; None where it is square."""
    return None if abs(cut.figures.lean) <= LEAST_LEAN else head(cut.figures.lean, _prism(cut), look.part.board)


def _prism(cut: Cut) -> Prism:
    return next(shape for shape in cut.shapes if isinstance(shape, Prism))


def _says(look: Look, cuts: Sequence[Cut]) -> tuple[str, ...]:
    """The angle three ways, and how far the marks on the two faces lie apart."""
    cut = cuts[0]
    lean = abs(cut.figures.lean)
    if lean <= LEAST_LEAN:
        return ()
    lines = [f"{rest_to_square(lean)} between faces", f"{angle(lean)} on the saw", rise(lean)]
    shifts = sorted(_shifts(look, cuts))
    if shifts:
        words = dict.fromkeys((position(shifts[0]), position(shifts[-1])))
        lines.append(f"marks shift {' to '.join(words)}")
    return tuple(lines)


def _shifts(look: Look, cuts: Sequence[Cut]) -> Iterator[float]:
    for cut in cuts:
        first, second = (look.position(cut, face) for face in FACES)
        if first is not None and second is not None:
            yield abs(first - second)


def seen_from(look: Look, drawn: Look | None = None) -> str:
    """From where the sections of the part are seen; those for which another face is up, by their numbers.

    Args:
        drawn: the other hand, where its sections stand for this one's too: a mirror image is seen from the other edge.
    """
    first = look if drawn is None else drawn
    whole = all_over(first)
    others = [cut for cut in first.part.cuts if _needs(first, cut) and over(first, cut) is not whole]
    words = f"seen from {_seen(look, over=whole)}"
    if not others:
        return words
    numbers = in_runs(sorted(first.numbers[cut.key] for cut in others))
    return f"{words}; {numbers} from {_seen(look, over=not whole)}"


def _seen(look: Look, *, over: bool) -> str:
    """From which edge, and which face is up, so that the datum end lies left."""
    front = (look.names.face_side is Surface.PLUS) != over
    edge, up = Surface.FRONT if front else Surface.WALL, look.names.other_face if over else look.names.face_side
    return f"the {look.names.words[edge]}, {look.names.words[up]} up"
