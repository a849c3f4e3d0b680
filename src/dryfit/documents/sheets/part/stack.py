"""The views of a part under one another, each the one above rolled away from you, with their running lines.

A face at +c that is the face side stands first, then the front edge, then the other face. Where the face side
lies at -c the front edge stands above it: arrises that meet on the wood still meet on paper.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from ....geometry.views import FACES, Surface
from ...display import Item, Stroke, Text
from ...lettering import FIGURE, TEXT, width
from ...looks import Desk, Look
from ...naming import scale_words
from ...symbols import BALLOON, balloon, edge_mark
from ..dimensions.ruler import Ruler, whole
from ..dimensions.running import BESIDE, PAST, Line, drawn, plan, pooled
from ..page.placing import Rect, Room
from .faces.surface import Plane, at_end, cuts_seen, marks, plane_for, wood
from .faces.wording import Wording

FIRST, SAME = "from the datum end", "from the same end"
CLEAR = 3.0  # from a line above the wood to the wood
ROLLED = "each view is rolled away from you: left stays left"
WHOLE = (0.02, 0.01, 0.005, 0.002, 0.001)  # scales for a board shown whole beside its broken views
OUTSIDE_ROW = 6.4  # height of a row of cut numbers outside a narrow face


Words: TypeAlias = Callable[..., Wording]  # makes what places words on one face


@dataclass(frozen=True, slots=True)
class Stacked:
    """What a stack of views comes to: its items and the y below it."""

    items: list[Item]
    bottom: float


def surfaces(look: Look) -> list[Surface]:
    """The views that are drawn, from the top of the sheet down."""
    side, other = look.names.face_side, look.names.other_face
    shown: list[Surface] = [side, Surface.FRONT] if side is Surface.PLUS else [Surface.FRONT, side]
    return [*shown, other] if any(not at_end(look, trace.key) for trace in cuts_seen(look, other)) else shown


@dataclass(frozen=True, slots=True, kw_only=True)
class Lying:
    """One hand of a pair as it lies: its faces and its front edge.

    Attributes:
        look: as it is drawn; `face_side` is the face that carries its marks in truth.
        faces: those that are drawn, +c before -c.
        words: places the words on a face.
    """

    look: Look
    face_side: Surface
    faces: tuple[Surface, ...]
    words: Words


def pair_stacked(desk: Desk, hands: Sequence[Lying], ruler: Ruler, top: float, right: float) -> Stacked:
    """Two hands above one another, each +c up: the wall edges lie together, the lower is the upper's mirror image."""
    items: list[Item] = []
    y = top
    for hand in hands:
        edge: Plane | None = None
        mark_x: float | None = None
        told = False
        for surface in (Surface.PLUS, Surface.FRONT, Surface.MINUS):
            if surface in FACES and surface not in hand.faces:
                continue
            says = f"{_loud(hand.look, surface)} of {hand.look.part.mark}, {SAME if told else FIRST}"
            told = told or surface in FACES
            first = surface is Surface.PLUS
            if surface in FACES:
                more, y, mark = _face(desk, hand.look, surface, ruler, y, says, right, first=first, words=hand.words)
                mark_x = mark if mark is not None else mark_x
            else:
                edge, more, y = _edge(hand.look, ruler, y, says, first=Surface.PLUS not in hand.faces)
            items += more
        if edge is not None:
            items += _edge_sign(hand.face_side, edge, mark_x)
    return Stacked(items, y)


def stacked(desk: Desk, look: Look, ruler: Ruler, top: float, right: float) -> Stacked:
    """Draw the views from `top` down; `right` is how far words may stand beside them."""
    items: list[Item] = []
    y = top
    mark_x: float | None = None
    edge: Plane | None = None
    told = False
    for number, surface in enumerate(surfaces(look)):
        says = f"{_loud(look, surface)}, {SAME if told else FIRST}"
        told = told or surface in FACES or bool(marks(plane_for(look, surface, ruler, 0.0), 1.0))
        if surface in FACES:
            more, y, mark = _face(desk, look, surface, ruler, y, says, right, first=number == 0)
            mark_x = mark if mark is not None else mark_x
        else:
            edge, more, y = _edge(look, ruler, y, says, first=number == 0)
        items += more
    if edge is not None:
        items += _edge_sign(look.names.face_side, edge, mark_x)
    if ruler.breaks:
        more, y = _unbroken(look, ruler, y)
        items += more
    return Stacked(items, y)


def _unbroken(look: Look, ruler: Ruler, y: float) -> tuple[list[Item], float]:
    """The whole board small, where the views are broken: so that nobody takes it for a short one."""
    words = "the whole board, {}: what is taken out of the views is clear wood"
    room = ruler.right - ruler.left - width(words, TEXT) - 6.0
    scale = next((one for one in WHOLE if look.part.length * one <= room), WHOLE[-1])
    plane = plane_for(look, look.names.face_side, whole(0.0, look.part.length, ruler.left, scale), y)
    loops = [loop for trace in plane.view.traces if not trace.end for loop in trace.opening]
    items: list[Item] = [
        Stroke(points=tuple(plane.at(p) for p in loop), pen="break", closed=True, layer="wood")
        for loop in (*plane.view.outline, *loops)
    ]
    at = (plane.ruler.right + 3.0, (plane.top + plane.bottom + TEXT) / 2)
    items.append(Text(at=at, text=words.format(scale_words(scale))))
    return items, max(plane.bottom, at[1]) + 1.6


def _loud(look: Look, surface: Surface) -> str:
    """Its name with the word that matters loud: "UPPER face", "FRONT edge"."""
    word, noun = look.names.words[surface].rsplit(" ", 1)
    return f"{word.upper()} {noun}"


def _zero(look: Look, ruler: Ruler) -> float:
    return ruler.x(0.0)


def _face(
    desk: Desk,
    look: Look,
    surface: Surface,
    ruler: Ruler,
    y: float,
    says: str,
    right: float,
    *,
    first: bool,
    words: Words = Wording,
) -> tuple[list[Item], float, float | None]:
    """One face with its running line: above it at the top of the sheet, else below."""
    away = -1.0 if first else 1.0
    line = plan(_zero(look, ruler), marks(plane_for(look, surface, ruler, 0.0), away), says, right)
    above = line.over(away) + line.crank + CLEAR if first else 0.0
    plane = plane_for(look, surface, ruler, y + above)
    main = surface is look.names.face_side
    trial = words(desk=desk, plane=plane, main=main, lines=marks(plane, away), away=away)
    trial.items()
    row = OUTSIDE_ROW if trial.outside else 0.0
    if row and not first:
        plane = plane_for(look, surface, ruler, y + above + row)
    if not main and _told_already(look, plane):
        wording = words(desk=desk, plane=plane, main=main, lines=[], away=away)
        items = [*wood(plane), *wording.items(), *_outside(plane, wording.outside, below=first)]
        base = plane.bottom + 1.6 + TEXT
        return [*items, _the_same(plane, base)], base + 2.4, None
    line = plan(_zero(look, ruler), marks(plane, away), says, right)
    level = y + line.over(away) if first else plane.bottom + 1.2 + line.crank + line.over(away)
    wording = words(desk=desk, plane=plane, main=main, lines=list(line.marks), away=away)
    items = [*wood(plane), *wording.items(), *drawn(line, level, away, ruler.breaks)]
    below = plane.bottom + (row if first else 0.0)
    items += _outside(plane, wording.outside, below=first)
    bottom = below + 2.0 if first else level + line.under(away) + 1.4
    return items, bottom, wording.mark_x


def _the_same(plane: Plane, base: float) -> Text:
    """In place of a running line that would say nothing new."""
    look = plane.look
    same = f"{_loud(look, plane.surface)}: the same figures as on the {look.names.words[look.names.face_side]}"
    return Text(at=(plane.ruler.left + 1.0, base), text=same)


def _told_already(look: Look, plane: Plane) -> bool:
    """Whether every figure of the other face stands on the face side too: square work, marked once."""
    side = plane_for(look, look.names.face_side, plane.ruler, 0.0)
    told = {(mark.key, mark.figure) for mark in marks(side, 1.0)}
    return all((mark.key, mark.figure) in told for mark in marks(plane, 1.0))


def _outside(plane: Plane, labels: Sequence[tuple[float, str, str]], *, below: bool) -> list[Item]:
    """Numbers of cuts that found no room on the wood, in a row beside it with leaders."""
    if not labels:
        return []
    ordered = sorted(labels)
    places = pooled([x for x, _, _ in ordered], BALLOON + 0.6, plane.ruler.left + BALLOON / 2)
    edge = plane.bottom if below else plane.top
    way = 1.0 if below else -1.0
    items: list[Item] = []
    for (x, number, key), place in zip(ordered, places, strict=True):
        centre = (place, edge + way * (OUTSIDE_ROW - BALLOON / 2 - 0.2))
        items.append(Stroke(points=((x, edge), centre), pen="dimension", layer="balloon", owner=key))
        items += balloon(centre, number, key)
    return items


def _edge(look: Look, ruler: Ruler, y: float, says: str, *, first: bool) -> tuple[Plane, list[Item], float]:
    """The front edge with what only it shows; its name stands below it."""
    away = -1.0 if first else 1.0
    made = marks(plane_for(look, Surface.FRONT, ruler, 0.0), away)
    if not made:
        return _bare_edge(look, ruler, y)
    line = plan(_zero(look, ruler), made, says)
    above = line.over(away) + line.crank + CLEAR if first else 0.4
    plane = plane_for(look, Surface.FRONT, ruler, y + above)
    line = plan(_zero(look, ruler), marks(plane, away), says)
    level = y + line.over(away) if first else plane.bottom + 1.6 + line.crank + line.over(away)
    items = [*wood(plane), *drawn(line, level, away, ruler.breaks), *_numbers(look, plane, line, level, away)]
    return plane, items, (plane.bottom + 2.4 if first else level + line.under(away) + 1.8)


def _bare_edge(look: Look, ruler: Ruler, y: float) -> tuple[Plane, list[Item], float]:
    plane = plane_for(look, Surface.FRONT, ruler, y + 0.4)
    name = look.names.loud(Surface.FRONT)
    base = plane.bottom + 1.4 + FIGURE
    left = ruler.left + 1.0
    items: list[Item] = [
        *wood(plane),
        Text(at=(left, base), text=name, size=FIGURE, weight="bold"),
        Text(at=(left + width(name, FIGURE, "bold") + 3.0, base), text=ROLLED),
    ]
    return plane, items, base + 2.6


def _numbers(look: Look, plane: Plane, line: Line, level: float, away: float) -> list[Item]:
    """Cut numbers beside their arrows, and the words on how the views follow one another, where there is room."""
    room = Room(Rect(line.zero, level - line.over(away) - 4.0, plane.ruler.right + 6.0, level + 3.0))
    for mark, x in zip(line.marks, line.places, strict=True):
        high = line.size if line.form == "level" else width(mark.figure, line.size, "bold")
        wide = width(mark.figure, line.size, "bold") if line.form == "level" else line.size
        room.block(x - BESIDE - wide, level - line.lift - high, x + 0.2, level + PAST)
    items: list[Item] = []
    for mark, x in zip(line.marks, line.places, strict=True):
        spot = room.find(BALLOON, BALLOON, [(x + 1.4, level - BALLOON / 2 - 1.0)], air=0.4)
        if spot is not None and mark.key in look.numbers:
            centre = (spot[0] + BALLOON / 2, spot[1] + BALLOON / 2)
            items += balloon(centre, str(look.numbers[mark.key]), mark.key)
    if not line.lifted:
        room.block(line.words_x, level - line.lift - TEXT, line.words_x + width(line.says, TEXT), level)
    wide, left = width(ROLLED, TEXT), line.words_x + 4.0 + width(line.says, TEXT)
    spot = room.find(wide, TEXT, [(left + step, level - line.lift - TEXT) for step in range(0, 140, 4)], air=1.5)
    if spot is not None:
        items.append(Text(at=(spot[0], level - line.lift), text=ROLLED))
    return items


def _edge_sign(face_side: Surface, edge: Plane, mark_x: float | None) -> list[Item]:
    """The V on the face edge, under the loop on the face side, its point to the face side."""
    x = mark_x if mark_x is not None else edge.ruler.left + 6.0
    high = min(2.4, (edge.bottom - edge.top) * 0.75)
    towards_top = face_side is Surface.PLUS
    base = edge.top + high + 0.1 if towards_top else edge.bottom - high - 0.1
    return [edge_mark((x, base), high, -1.0 if towards_top else 1.0)]
