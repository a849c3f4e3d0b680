"""Sections of the cuts whose walls or floor are not plain from the faces: leaning slots, housings, ends.

Each is cut along the board through the middle of the cut and drawn face side up with the datum end left, so
it lies on the paper as the board lies on the bench. The lean is given three ways, once for all that share it.
"""

from collections import Counter
from collections.abc import Iterator, Sequence

from shapely import Polygon, box, unary_union

from ....geometry.sections import polygons
from ....geometry.views import FACES, Surface
from ....piece.model import DATUM_END, FAR_END, Cut
from ...display import Item, Stroke, Text
from ...hatch import hatch
from ...lettering import TEXT, width, wrapped
from ...looks import Desk, Look, is_bored
from ...naming import angle, depth, in_runs, position, rise
from ...symbols import BALLOON, balloon
from ..dimensions.ruler import clipped
from ..page.arranging import WIDE, Sketch
from .ends.sections import end_sections
from .ends.windows import Window
from .words.facts import LEAST_LEAN

BEFORE, PAST = 10.6, 6.6  # of wood shown on either side, on paper; a figure stands over the first
ABOVE, BELOW = 5.4, 4.6  # figures over and under the section
STEP = 1.4  # of the hatch in sections


def sketches(desk: Desk, look: Look, *, roomy: bool) -> list[Sketch]:
    """The sections a part needs, ends last; cuts alike share one, with all their numbers.

    Args:
        roomy: ends at a larger scale, with figures and letters.
    """
    groups: dict[tuple[object, ...], list[Cut]] = {}
    for cut in sorted(look.part.cuts, key=lambda cut: look.numbers.get(cut.key, 10_000)):
        if _needs(look, cut):
            groups.setdefault(_alike(look, cut), []).append(cut)
    made = [_slot(look, cuts) for cuts in groups.values()]
    alike = Counter(sketch.says for sketch in made)
    ordered = sorted(made, key=lambda sketch: (not sketch.says, -alike[sketch.says], sketch.says))
    return [*ordered, *end_sections(desk, look, roomy=roomy)]


def _needs(look: Look, cut: Cut) -> bool:
    if cut.end or is_bored(cut) or not _inside(look, cut):
        return False
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
    return round(f.lean, 2), round(f.across or 0, 2), deep, tuple(faces)


def _thickness(look: Look, cut: Cut) -> float:
    trace = look.view(look.names.face_side).trace(cut.key)
    a = sum(p[0] for p in trace.extent) / len(trace.extent) if trace and trace.extent else 0.0
    return look.part.board.thickness_at(a + look.part.zero)


def _scale(thickness: float, wide: float) -> float:
    """The largest drawing scale at which a section keeps to its column."""
    for scale in (0.5, 0.2, 0.1):
        if thickness * scale <= 22 and wide * scale <= WIDE - BEFORE - PAST + 3:
            return scale
    return 0.05


def _window(look: Look, cut: Cut, low: float, high: float) -> Window:
    thick = _thickness(look, cut)
    scale = _scale(thick, high - low)
    return Window(
        look=look, low=low - BEFORE / scale, high=high + PAST / scale, scale=scale, half=thick / 2, above=ABOVE
    )


def _wood(window: Window, d: float) -> list[Item]:
    """Hatched wood with its outline, open where the section goes on."""
    loops = window.look.looker.slice_at(d)
    inside = unary_union([Polygon(loop) for loop in loops]).intersection(box(window.low, -1e4, window.high, 1e4))
    shown = [[window.at((x, y)) for x, y in piece.exterior.coords[:-1]] for piece in polygons(inside)]
    items: list[Item] = list(hatch(shown, STEP, owner=window.look.part.id))
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


def _slot(look: Look, cuts: Sequence[Cut]) -> Sketch:
    """A slot or housing; its positions stand at its walls where it is the only one of its kind."""
    cut = cuts[0]
    trace = look.view(look.names.face_side).trace(cut.key)
    assert trace is not None, "a cut with a section takes some wood"
    points = [p[0] for p in trace.extent]
    window = _window(look, cut, min(points), max(points))
    items = _wood(window, _middle(look, cut))
    wide = window.wide
    items += _figures(look, cuts, window)
    numbers = [str(look.numbers[one.key]) for one in cuts]
    many = len(numbers) > wide // (BALLOON + 0.6)
    x = wide - BALLOON / 2
    for number in () if many else reversed(numbers):
        items += balloon((x, ABOVE - 0.5 - BALLOON / 2), number, cut.key)
        x -= BALLOON + 0.6
    told = wrapped(f"cuts {in_runs([look.numbers[one.key] for one in cuts])}", WIDE, TEXT) if many else []
    lean = cut.figures.lean
    return Sketch(
        items=tuple(items),
        wide=wide,
        high=max([window.bottom + BELOW, *(item.at[1] + 0.8 for item in items if isinstance(item, Text))]),
        leans=_leans(window, lean),
        says=(*told, *_says(look, cuts)),
        scale=window.scale,
    )


def _figures(look: Look, cuts: Sequence[Cut], window: Window) -> list[Item]:
    """The position at its wall on each face it opens to, and the depth of a floor."""
    cut = cuts[0]
    items: list[Item] = []
    open_faces = _open_faces(look, cut)
    for face in open_faces:
        place = look.position(cut, face)
        if place is None or len(cuts) > 1:
            continue
        upper = face is look.names.face_side
        x, _ = window.at((place, 0.0))
        y = ABOVE - 0.8 if upper else window.bottom + 0.8
        far = y - 3.0 if upper else y + 3.0
        items.append(Stroke(points=((x, y), (x, far)), pen="dimension", layer="dimension"))
        base = far + TEXT - 0.4 if upper else far
        items.append(Text(at=(x - 0.9, base), text=position(place), weight="semibold", anchor="end", layer="dimension"))
    if len(open_faces) == 1 and cut.figures.deep is not None:
        beside = max((item.points[0][0] for item in items if isinstance(item, Stroke)), default=0.0)
        items += _floor(look, cut, window, open_faces[0], beside)
    return items


def _floor(look: Look, cut: Cut, window: Window, face: Surface, beside: float) -> list[Item]:
    """How deep a housing is, on the side of its face; a line lower where its place leaves no room `beside` it."""
    assert cut.figures.deep is not None
    text = f"{depth(cut.figures.deep)} deep"
    upper = face is look.names.face_side
    x = window.wide
    base = ABOVE - 1.2 if upper else window.bottom + 3.4
    if upper and width(text, TEXT) + BALLOON > x / 2:
        base = window.bottom + 3.4
    if not upper and x - width(text, TEXT, "semibold") < beside + 0.6:
        base += TEXT + 1.0
    return [Text(at=(x, base), text=text, weight="semibold", anchor="end", layer="dimension")]


def _leans(window: Window, lean: float) -> str:
    if abs(lean) <= LEAST_LEAN:
        return ""
    return f"head leans {'RIGHT' if lean * window.up > 0 else 'LEFT'}"


def _says(look: Look, cuts: Sequence[Cut]) -> tuple[str, ...]:
    """The angle three ways, and how far the marks on the two faces lie apart."""
    cut = cuts[0]
    lean = abs(cut.figures.lean)
    if lean <= LEAST_LEAN:
        return ()
    lines = [f"{angle(cut.figures.between_faces)} between faces", f"{angle(lean)} on the saw", rise(lean)]
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


def seen_from(look: Look) -> str:
    """From where all sections of the part are seen."""
    edge = Surface.FRONT if look.names.face_side is Surface.PLUS else Surface.WALL
    return f"seen from the {look.names.words[edge]}, {look.names.words[look.names.face_side]} up"
