"""Words and marks on the wood of a face, each where there is room for it, what matters most first.

Cut numbers and what they take, what kind of end it is, the letter, the face mark, the triangle, the grain,
the names of face and edges, the width and one depth of each kind. What finds no room on a narrow board is
left to the heading, the running line and the table, which say it too; cut numbers then go outside.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field

from .....geometry.frames import Vec2
from .....geometry.shapes import Bore
from .....geometry.views import Surface, Trace
from .....piece.model import DATUM_END, FAR_END, Cut
from ....display import Item, Stroke, Text, extent
from ....lettering import FIGURE, TEXT, width
from ....looks import Desk, is_bored
from ....symbols import BALLOON, TAG_HIGH, balloon, face_mark, grain, tag, tag_width, triangle
from ...dimensions.running import Mark
from ...page.placing import AIR, Rect, Room, along
from ..looking import cut_at, cut_of
from ..words.facts import end_words, finish_words, scribe_of, tag_of
from .sizes import board_width, depths
from .surface import Plane, axis_of, cuts_seen

HIGH = 3.4  # of a line of text with its tails
STANDING = {"upper end": -90.0, "lower end": 90.0}  # which way the triangle turns by the name of the far end
APART = 2.5  # between what reads as one if it stands side by side
ALONG = 0.5  # share of a hole's direction from which on it runs along the board
WRITE = "write here"
RISE = 2.7  # of its base line below its top


def written_wide(mark: str) -> float:
    """Room across for `written`."""
    return width(mark, FIGURE, "bold") + 0.8 + width(WRITE, TEXT)


def written(mark: str, spot: Vec2) -> list[Item]:
    """Where the part's letter is to be written, from the top left corner of the words."""
    x, base = spot[0], spot[1] + FIGURE
    gap = width(mark, FIGURE, "bold") + 0.8
    return [Text(at=(x, base), text=mark, size=FIGURE, weight="bold"), Text(at=(x + gap, base), text=WRITE)]


@dataclass
class Wording:
    """Places words on one face.

    Attributes:
        main: whether this is the face side, which carries the marks.
        lines: extension lines that cross the wood, to be kept clear.
        outside: labels of cuts that found no room, as (x, number, key).
        mark_x: where the face mark starts, for the V on the edge.
    """

    desk: Desk
    plane: Plane
    main: bool
    lines: list[Mark]
    away: float
    outside: list[tuple[float, str, str]] = field(default_factory=list)
    mark_x: float | None = None
    _items: list[Item] = field(default_factory=list)

    def items(self) -> list[Item]:
        """All that found room."""
        self._room = self._empty_room()
        self._ends()
        for trace in self._labelled():
            self._label(trace)
        if self.main:
            self._face_mark()
        self._name()
        self._items += depths(self.plane, self._room, self._dimensioned())
        if self.main:
            self._items += board_width(self.plane, self._room)
            self._triangle()
        self._edges()
        self._grain()
        return self._items

    def _empty_room(self) -> Room:
        plane, ruler = self.plane, self.plane.ruler
        room = Room(Rect(ruler.left + 0.9, plane.top + 0.8, ruler.right - 0.9, plane.bottom - 0.8))
        for trace in plane.view.traces:
            self._block(room, trace)
        for left, right in ruler.breaks:
            room.block(left - 0.8, plane.top, right + 0.8, plane.bottom)
        for mark in self.lines:
            edge = plane.bottom if self.away > 0 else plane.top
            if abs(edge - mark.foot) > 0.5:
                room.block(mark.x - 0.1, mark.foot, mark.x + 0.1, edge)
        for loop in plane.view.behind:
            points = [plane.at(p) for p in loop]
            room.block_items([Stroke(points=tuple(points), pen="outline")])
        self._block_axes(room)
        return room

    def _block_axes(self, room: Room) -> None:
        """Keep free the axes of holes that run along the board from its ends."""
        for cut in self.plane.look.part.cuts:
            for shape in cut.shapes:
                if isinstance(shape, Bore) and abs(shape.direction[0]) > ALONG:
                    (x0, y0), (x1, y1) = axis_of(self.plane, shape)
                    room.block(x0, y0 - 0.1, x1, y1 + 0.1)

    def _block(self, room: Room, trace: Trace) -> None:
        plane = self.plane
        if trace.end:
            return
        if trace.seen:
            for loop in trace.opening:
                room.block_items([Stroke(points=tuple(plane.at(p) for p in loop), pen="outline")])
        elif is_bored(cut_of(self.plane.look, trace.key)):
            a = sum(p[0] for p in trace.extent) / len(trace.extent)
            room.block(plane.ruler.x(a) - 0.1, plane.top, plane.ruler.x(a) + 0.1, plane.bottom)
        else:
            room.block_items([Stroke(points=tuple(plane.at(p) for p in trace.extent), pen="hidden")])

    def _labelled(self) -> list[Trace]:
        return list(cuts_seen(self.plane.look, self.plane.surface))

    def _dimensioned(self) -> list[Trace]:
        """Cuts whose depth is given on this face: not bores, and on the other face only what the face side lacks."""
        side = self.plane.look.view(self.plane.look.names.face_side)
        shown = {trace.key for trace in side.traces if trace.seen} if not self.main else set()
        new = (trace for trace in self._labelled() if trace.key not in shown)
        return [trace for trace in new if not is_bored(cut_of(self.plane.look, trace.key))]

    # --- words -----------------------------------------------------------------------------------

    def _text(self, text: str, places: Iterable[Vec2], *, name: bool = False) -> bool:
        """Place one line; the places are top left corners."""
        size = FIGURE if name else TEXT
        wide = width(text, size, "bold" if name else "regular")
        high = size + 0.3 if name else HIGH
        spot = self._spot(wide, high, list(places)) if name else self._room.find(wide, high, places)
        if spot is None:
            return False
        base = spot[1] + (size + 0.1 if name else RISE)
        self._items.append(
            Text(at=(spot[0], base), text=text, size=size, weight="bold" if name else "regular", layer="words")
        )
        return True

    def _spot(self, wide: float, high: float, places: list[Vec2]) -> Vec2 | None:
        """Room for what stands on its own: well apart from other words, else where it can."""
        spot = self._room.find(wide, high, places, air=APART)
        return spot if spot is not None else self._room.find(wide, high, places, air=AIR)

    def _ends(self) -> None:
        for end in (DATUM_END, FAR_END):
            cut = cut_at(self.plane.look, end)
            if cut is not None:
                self._end(cut, end)

    def _end(self, cut: Cut, end: int) -> None:
        plane, part = self.plane, self.plane.look.part
        at = plane.ruler.x(plane.look.end_at(end, plane.surface))
        kind, text = tag_of(self.desk, cut, scribe_of(part, end))
        lines = self._end_lines(cut, end)
        y = plane.top + 1.4
        if self.main and end == DATUM_END:
            y = self._letter(at + 2.0, y)
        for shown in (text, text.removeprefix("LEAVE ")):
            wide = tag_width(shown)
            left = at + 2.0 if end == DATUM_END else at - 2.0 - wide
            spot = self._room.find(wide, TAG_HIGH, [(left, y + step) for step in (0.0, 3.0, 6.0, 9.0)])
            if spot is not None:
                break
        else:
            return
        self._items += tag(*spot, kind, shown)
        y = spot[1] + TAG_HIGH + 0.8
        for line in lines:
            long = width(line, TEXT)
            x = at + 2.0 if end == DATUM_END else at - 2.0 - long
            if not self._text(line, [(x, y)]):
                return
            y += HIGH + 0.75

    def _letter(self, x: float, y: float) -> float:
        """Where the part's letter is to be written; gives the y below it."""
        mark = self.plane.look.part.mark
        spot = self._room.find(written_wide(mark), FIGURE + 0.6, [(x, y)])
        if spot is None:
            return y
        self._items += written(mark, spot)
        return y + FIGURE + 1.8

    def _end_lines(self, cut: Cut, end: int) -> list[str]:
        look = self.plane.look
        if not scribe_of(look.part, end):
            return [end_words(cut)]
        return [*finish_words(look, end, self.plane.surface), "scribe on site"]

    def _label(self, trace: Trace) -> None:
        """Number and what is taken, beside the opening: right, left, then the number alone, else outside."""
        cut = cut_of(self.plane.look, trace.key)
        number = str(self.plane.look.numbers.get(cut.key, ""))
        mark = self.desk.marks.get(cut.takes, cut.takes)
        words = f"takes {mark}" if mark else ""
        left, top, right, bottom = extent(
            [Stroke(points=tuple(self.plane.at(p) for loop in trace.opening for p in loop), pen="outline")]
        )
        wide = max(BALLOON, width(words, TEXT))
        for high, across_wide, with_words in ((BALLOON + HIGH + 0.7, wide, True), (BALLOON, BALLOON, False)):
            if with_words and not words:
                continue
            levels = self._levels(top, bottom, high)
            places = [(x, y) for y in levels for x in (right + 1.2, left - 1.2 - across_wide)]
            spot = self._room.find(across_wide, high, places)
            if spot is None:
                continue
            self._draw_label(spot, across_wide, number, words if with_words else "", spot[0] > left, cut.key)
            return
        self.outside.append(((left + right) / 2, number, cut.key))

    def _levels(self, top: float, bottom: float, high: float) -> list[float]:
        """Heights to try: near the middle of the opening's outer half first, then along it."""
        plane = self.plane
        low, far = plane.top + 3.6, plane.bottom - 3.6 - high
        middle = (top + bottom - high) / 2
        return [
            min(max(middle, low), far),
            top + 1.0,
            bottom - high - 1.0,
            plane.top + 0.9,
            plane.bottom - high - 0.9,
        ]

    def _draw_label(self, spot: Vec2, wide: float, number: str, words: str, right: bool, key: str) -> None:
        x, y = spot
        centre = x + BALLOON / 2 if right else x + wide - BALLOON / 2
        self._items += balloon((centre, y + BALLOON / 2), number, key)
        if words:
            at = x if right else x + wide
            base = y + BALLOON + 0.7 + RISE
            self._items.append(Text(at=(at, base), text=words, anchor="start" if right else "end", owner=key))

    def _name(self) -> None:
        names, plane = self.plane.look.names, self.plane
        text = names.loud(plane.surface)
        wide = width(text, FIGURE, "bold")
        middle = (plane.top + plane.bottom) / 2
        levels = [middle + 3.0, middle - 2.0, middle + 6.0, middle - 7.0, plane.top + 4.6, plane.bottom - 8.2]
        inset = (plane.ruler.right - plane.ruler.left) * 0.1
        left, right = plane.ruler.left + inset, plane.ruler.right - inset
        self._text(text, [(x - wide / 2, y) for y in levels for x, _ in along(left, right, y)], name=True)

    # --- marks -----------------------------------------------------------------------------------

    def _face_mark(self) -> None:
        """The loop starts on the arris of the face edge and runs into the face."""
        plane = self.plane
        front = plane.y(plane.look.part.board.depth)
        into = -1.0 if front == plane.bottom else 1.0
        size = min(1.0, (plane.bottom - plane.top) / 11.0)
        wide, high = 7.4 * size, 8.4 * size
        top = front - high - 0.8 if into < 0 else front + 0.8
        start = plane.ruler.x(plane.look.end_at(DATUM_END, plane.surface))
        spot = self._room.find(wide, high, [(start + 3.0 + step, top) for step in range(0, 160, 3)])
        if spot is None:
            return
        self.mark_x = spot[0] + 1.2 * size
        self._items.append(face_mark((self.mark_x, front), into, size))

    def _triangle(self) -> None:
        """Over the set: its point to the front on level boards, up on standing ones; smaller where it must be."""
        plane, board = self.plane, self.plane.look.part.board
        far = plane.look.names.words[Surface.FAR]
        words = "point to the front" if board.lies == "across" and far not in STANDING else "point up"
        down = plane.y(board.depth) == plane.bottom
        turn = STANDING.get(far, 180.0 if down else 0.0)
        largest = min(4.6, (plane.bottom - plane.top) / 3.6)
        if not any(self._triangle_of(size, turn, words) for size in (largest, min(3.2, largest))):
            self._triangle_of(min(3.2, largest), turn, "")

    def _triangle_of(self, size: float, turn: float, words: str) -> bool:
        plane = self.plane
        wide, high = max(width(words, TEXT), 2 * size), 2 * size + (HIGH + 0.8 if words else 0.0)
        middle = (plane.top + plane.bottom - high) / 2
        levels = (middle, middle - 3.0, middle + 3.0, plane.top + 1.4, plane.bottom - high - 1.4)
        places = [(x - wide / 2, y) for y in levels for x, _ in along(plane.ruler.left, plane.ruler.right, y)]
        spot = self._spot(wide, high, places)
        if spot is None:
            return False
        x = spot[0] + wide / 2
        self._items.append(triangle((x, spot[1] + size), size, turn))
        if words:
            at = (x, spot[1] + 2 * size + 0.8 + RISE)
            self._items.append(Text(at=at, text=words, anchor="middle", layer="mark"))
        return True

    def _grain(self) -> None:
        plane = self.plane
        long = min(36.0, max(20.0, (plane.ruler.right - plane.ruler.left) / 6))
        levels = [plane.top + (plane.bottom - plane.top) * share for share in (0.5, 0.35, 0.65, 0.2, 0.8)]
        places = [(x - long / 2, y - 1.6) for y in levels for x, _ in along(plane.ruler.left, plane.ruler.right, y)]
        spot = self._spot(long, 3.2, places)
        if spot is not None:
            self._items += grain((spot[0], spot[1] + 1.6), long)

    def _edges(self) -> None:
        """The names of the two edges, twice where there is room."""
        plane, names = self.plane, self.plane.look.names
        left, right = plane.ruler.left, plane.ruler.right
        for surface, v in ((Surface.WALL, 0.0), (Surface.FRONT, plane.look.part.board.depth)):
            text = names.words[surface]
            y = plane.top + 0.9 if plane.y(v) == plane.top else plane.bottom - HIGH - 0.5
            shares = (0.25, 0.72) if right - left > 120 else (0.5,)
            for share in shares:
                x = left + (right - left) * share
                self._text(
                    text, [(x - width(text, TEXT) / 2, y)] + [(x + off, y) for off in (-14, 14, -24, 24, -34, 34)]
                )
