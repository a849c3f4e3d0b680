"""Words and marks on the wood of a face, lying or standing, each where there is room, what matters most first.

Cut numbers and what they take, what kind of end it is, the letter, the face mark, one depth of each kind, the face's
name, the width, the triangle, the names of the edges, the grain. A cut's number that finds no room beside it is led
out; of the rest the heading, the running line and the table say what finds none on a narrow board.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property, partial
from itertools import pairwise

from .....geometry.frames import Vec2
from .....geometry.views import Surface, Trace
from .....piece.model import DATUM_END, FAR_END, Cut
from .....sentences import Voice
from ....display import Item, Stroke, Text, extent
from ....kit import dimension, label
from ....kit.dimension import plain
from ....kit.label import Label, middle_first
from ....kit.placing import FilledPaper
from ....kit.turn import stood
from ....lettering import FIGURE, NAME, TEXT, width
from ....looks import Desk, is_bored
from ....naming import LEAST, depth, position
from ....standard import AIR, FIRST, PAST, RIGHT, STEP
from ....symbols import BALLOON, TAG_HIGH, balloon, face_mark, grain, tag, tag_width, triangle
from ...page.frame import BLOCK_WIDE
from ..looking import cut_at, cut_of
from ..words.facts import end_words, finish_words, scribe_of, tag_of, tag_shortly
from .masks import drawn_masks
from .surface import SurfacePaper, at_end, cuts_seen

STANDING = {"upper end": -RIGHT, "lower end": RIGHT}  # which way the triangle turns by the name of the far end
EDGE = LEAST  # mm: nearer to an edge than this a cut runs out at it
WRITE = "write here"
HIGH = 8.4  # of the loop of a face mark, on paper
GRAIN = (12 * TEXT, 8 * TEXT)  # of the grain's arrow, the best first
TWICE = 2 * BLOCK_WIDE / 3  # on paper: an edge longer than two thirds of a sheet has its name twice
NEAR_END = 8  # rows tried at the end of a board that stands
HALF = (2 * NAME, NAME + TEXT / 2)  # half a triangle: along the edge, and its base


@dataclass
class Wording:
    """Places words on one face whose wood, and running line, stand on its paper.

    Attributes:
        main: whether this is the face side, on which the marks are told.
        loop: whether it carries the face mark.
        half: where along the board half a triangle starts at the wall edge, for a pair; None for a whole one.
        whose: under the face's name, whose it is.
        mark_at: where along the board the face mark starts, for the V on the edge.
    """

    desk: Desk
    plane: SurfacePaper
    paper: FilledPaper
    main: bool
    loop: bool
    half: float | None = None
    whole: bool = True
    whose: str = ""
    mark_at: float | None = None

    def put(self) -> None:
        """All that finds room."""
        self._half_triangle()
        self._block_hidden()
        self._masks()
        if not self.plane.stands:
            self._depths()
            self._ends()
        for trace in self._cuts:
            self._number(trace)
        if self.loop:
            self._face_mark()
        if self.plane.stands:
            self._depths()
        self._name()
        if self.plane.stands:
            self._ends()
        elif self.main:
            self._width()
        if self.main and self.whole:
            self._triangle()
        self._edges()
        self._grain()

    @cached_property
    def _cuts(self) -> Sequence[Trace]:
        return cuts_seen(self.plane.look, self.plane.surface)

    def _block_hidden(self) -> None:
        """No words stand where a cut lies behind the face, nor on a break."""
        for left, right in self.plane.axis.breaks:
            self.paper.block(*self.plane.stretch(left, right))
        for trace in self.plane.view.traces:
            if not trace.end and not trace.seen and not is_bored(cut_of(self.plane.look, trace.key)):
                self.paper.block(*self._box([trace.extent]))

    def _masks(self) -> None:
        """What stays bare, crossed through; no words stand there."""
        for item in drawn_masks(self.desk, self.plane):
            self.paper.draw([item])
            self.paper.block(*extent([item]))

    def _box(self, loops: Iterable[Iterable[Vec2]]) -> tuple[float, float, float, float]:
        """Around outlines of the view, on paper."""
        return extent([Stroke(points=tuple(self.plane.at(p) for loop in loops for p in loop), pen="outline")])

    # --- places ----------------------------------------------------------------------------------

    def _spots(self, wide: float, high: float) -> Iterator[Vec2]:
        """Top left corners on the face for something so large, from its middle outwards."""
        left, top, right, bottom = self.plane.box
        if right - left < wide + 2 * AIR or bottom - top < high + 2 * AIR:
            return
        xs = middle_first(left + AIR, right - AIR - wide, STEP)
        yield from ((x, y) for y in middle_first(top + AIR, bottom - AIR - high, STEP / 2) for x in xs)

    def _corner(self, end: int, wide: float, high: float) -> Iterator[Vec2]:
        """Top left corners at an end of the face, from its upper corner, or from its very end, inwards."""
        left, top, right, bottom = self.plane.box
        rows = int((bottom - top - high) / STEP * 2) + 1
        if self.plane.stands:
            start, way = (bottom - PAST - high, -1) if end == DATUM_END else (top + PAST, 1)
            rows = min(rows, NEAR_END)
            yield from (
                (x, start + way * n * STEP / 2) for n in range(rows) for x in (left + PAST, right - PAST - wide)
            )
        else:
            at = self.plane.axis.at(self.plane.look.end_at(end, self.plane.surface))
            x = at + PAST if end == DATUM_END else at - PAST - wide
            yield from ((x, top + PAST + n * STEP / 2) for n in range(rows))

    def _inside(self, items: Iterable[Item]) -> bool:
        """Whether what is to stand on the face does not reach over its edges."""
        (left, top, right, bottom), (x0, y0, x1, y1) = extent(items), self.plane.box
        return x0 <= left and right <= x1 and y0 <= top and bottom <= y1

    def _put(self, places: Iterable[Vec2], build: Callable[[float, float], Sequence[Item]]) -> bool:
        """At the first place that is free; what is built is the same everywhere."""
        return self.paper.place_at([build(0.0, 0.0)], places, self.plane.box)

    # --- ends --------------------------------------------------------------------------------------

    def _ends(self) -> None:
        for end in (DATUM_END, FAR_END):
            cut = cut_at(self.plane.look, end)
            if cut is not None:
                self._end(cut, end)

    def _end(self, cut: Cut, end: int) -> None:
        """The letter to be written there, what kind of size it is, how it is cut."""
        look = self.plane.look
        scribe = scribe_of(look.part, end)
        if end == DATUM_END and (self.main or self.plane.stands):
            self._letter(look.part.mark)
        if self.plane.stands and not scribe:
            return
        kind, text = tag_of(self.desk, cut, scribe)
        for shown in dict.fromkeys((text, tag_shortly(self.desk, cut, scribe))):
            if self._put(self._corner(end, tag_width(shown), TAG_HIGH), partial(tag, kind=kind, text=shown)):
                break
        lines = [*finish_words(look, end, self.plane.surface), "scribe on site"] if scribe else [end_words(cut)]
        for line in lines[:2] if self.plane.stands else lines:
            self._put(self._corner(end, width(line, TEXT), TEXT), partial(_written, line))

    def _letter(self, mark: str) -> None:
        """Where the part's letter is to be written; the words under it where there is no room beside it."""
        gap = width(mark, FIGURE, "bold") + 2 * AIR
        beside, under = (gap, 0.0), (0.0, STEP)
        for right, down in (beside, under):
            wide, high = max(gap, right + width(WRITE, TEXT)), FIGURE + down

            def written(x: float, y: float, right: float = right, down: float = down) -> list[Item]:
                at = (x + right, y + FIGURE + down)
                return [Text(at=(x, y + FIGURE), text=mark, size=FIGURE, weight="bold"), Text(at=at, text=WRITE)]

            places = (self._corner(DATUM_END, wide, high), self._spots(wide, high))
            if any(self._put(some, written) for some in places):
                return

    # --- cuts --------------------------------------------------------------------------------------

    def _number(self, trace: Trace) -> None:
        """Number and what is taken, beside the opening; the number alone where there is less room, else led out."""
        look, key = self.plane.look, trace.key
        number, mark = str(look.numbers.get(key, "")), self.desk.marks.get(cut_of(look, key).takes, "")
        takes = mark or cut_of(look, key).takes
        box = self._box(trace.opening)
        for words in dict.fromkeys((f"takes {takes}" if takes else "", "")):
            wide, high = self._label_size(words)
            labelled = partial(self._labelled, number=number, words=words, key=key, left=box[0])
            made = (labelled(x, y) for x, y in self._beside(box, wide, high))
            if self.paper.place(items for items in made if self._inside(items)):
                return
        left, top, right, bottom = box
        middle = ((left + right) / 2, (top + bottom) / 2)
        label.put(self.paper, Label(says=number, at=(middle,), ring=True, owner=key), Voice())

    def _label_size(self, words: str) -> Vec2:
        wide = width(words, TEXT) if words else 0.0
        if self.plane.stands:
            return BALLOON + (wide + 2 * AIR if words else 0.0), BALLOON
        return max(BALLOON, wide), BALLOON + (STEP if words else 0.0)

    def _beside(self, box: tuple[float, float, float, float], wide: float, high: float) -> Iterator[Vec2]:
        """Along the two sides of an opening, from its middle outwards."""
        left, top, right, bottom = box
        if self.plane.stands:
            for x in middle_first(left, max(right - wide, left), STEP / 2):
                yield from ((x, top - PAST - high), (x, bottom + PAST))
        else:
            _, low, _, far = self.plane.box
            middle = (top + bottom - high) / 2
            for y in sorted(
                middle_first(low + AIR, max(far - high - AIR, low + AIR), TEXT), key=lambda y: abs(y - middle)
            ):
                yield from ((right + PAST, y), (left - PAST - wide, y))
                yield right + FIRST + 2 * AIR, y  # beyond a dimension

    def _labelled(self, x: float, y: float, *, number: str, words: str, key: str, left: float) -> list[Item]:
        wide, _ = self._label_size(words)
        before = not self.plane.stands and x < left
        centre = (x + wide - BALLOON / 2 if before else x + BALLOON / 2, y + BALLOON / 2)
        items: list[Item] = list(balloon(centre, number, key))
        if words and self.plane.stands:
            items.append(Text(at=(x + BALLOON + 2 * AIR, y + (BALLOON + TEXT) / 2), text=words, owner=key))
        elif words:
            base = y + BALLOON + STEP - AIR
            items.append(
                Text(at=(x + wide if before else x, base), text=words, anchor="end" if before else "start", owner=key)
            )
        return items

    def _depths(self) -> None:
        """How far across the board cuts reach, each size once, where it is not the whole width."""
        look, done = self.plane.look, set[tuple[str, str]]()
        untold: dict[tuple[str, str], list[Trace]] = {}
        side = look.view(look.names.face_side)
        told = {trace.key for trace in side.traces if trace.seen} if not self.main and not self.plane.stands else set()
        for trace in self._cuts:
            if trace.key in told or is_bored(cut_of(look, trace.key)) or at_end(look, trace.key):
                continue
            for low, high in self._reaches(trace):
                size = (depth(low), position(high - low))
                if size not in done and self._depth(trace, low, high):
                    done.add(size)
                elif size not in done:
                    untold.setdefault(size, []).append(trace)
        for size, traces in untold.items():
            if size not in done:
                self._depth_said(traces, f"{size[1]} deep")

    def _depth_said(self, traces: Iterable[Trace], says: str) -> None:
        """Where no dimension line has room: in words along one of the cuts."""
        long, (left, top, right, bottom) = width(says, TEXT), self.plane.box
        for trace in traces:
            x0, y0, x1, y1 = self._box(trace.opening)
            if self.plane.stands:
                xs = middle_first(left + AIR, right - AIR - long, TEXT)
                made = (_written(says, x, y) for x in xs for y in (y0 - PAST - TEXT, y1 + PAST))
            else:
                ys = _nearest(middle_first(top + AIR, bottom - AIR - long, TEXT), (y0 + y1 - long) / 2)
                made = (_upright(says, x, y + long / 2) for y in ys for x in (x1 + PAST, x0 - PAST - TEXT))
            if self.paper.place(items for items in made if self._inside(items)):
                return

    def _reaches(self, trace: Trace) -> list[Vec2]:
        """The stretches to dimension: from the edge it opens to; of a pocket, its own and that to the front edge."""
        (low, high), whole = trace.across, self.plane.look.part.board.depth
        at_wall, at_front = low < EDGE, high > whole - EDGE
        if at_wall and at_front:
            return []
        return [(low, high)] if at_wall or at_front or self.plane.stands else [(low, high), (high, whole)]

    def _depth(self, trace: Trace, low: float, high: float) -> bool:
        """Beside its cut, where there is room."""
        figure = position(high - low)
        along = [a for loop in trace.opening for a, _ in loop]
        for a, other in ((max(along), min(along)), (min(along), max(along))):
            (x0, y0), (x1, y1) = self.plane.at((a, low)), self.plane.at((a, high))
            (ox, oy), way = self.plane.at((other, low)), (x1 - x0, y1 - y0)
            left = way[1] * (x0 - ox) - way[0] * (y0 - oy) > 0  # of the way, as one goes along it, lies what is outside
            one = plain((x0, y0), (x1, y1), figure, 1 if left else -1)
            if dimension.put(self.paper, dimension.near(one), within=self.plane.box):
                return True
        return False

    def _width(self) -> None:
        """The board's width, where there is a free strip across it."""
        left, top, right, bottom = self.plane.box
        figure = position(self.plane.look.part.board.depth)
        start = left + (right - left) / 5
        for x in (start + STEP / 2 * n for n in range(int((right - start) / STEP * 2))):
            one = plain((x, bottom), (x, top), figure, weight="regular")
            if dimension.put(self.paper, dimension.near(one, first=0.0, rows=1), within=self.plane.box):
                return

    # --- names and marks -----------------------------------------------------------------------------

    def _name(self) -> None:
        loud = self.plane.look.names.loud(self.plane.surface)
        wide = max(width(loud, FIGURE, "bold"), width(self.whose, TEXT))

        def named(x: float, y: float) -> list[Item]:
            at = (x + wide / 2, y + FIGURE)
            items: list[Item] = [Text(at=at, text=loud, size=FIGURE, weight="bold", anchor="middle")]
            whose = Text(at=(at[0], at[1] + STEP), text=self.whose, anchor="middle")
            return [*items, whose] if self.whose else items

        self._put(self._spots(wide, FIGURE + (STEP if self.whose else 0.0)), named)

    def _face_mark(self) -> None:
        """The loop starts on the arris of the face edge and runs into the face."""
        plane = self.plane
        front = plane.y(plane.look.part.board.depth)
        into = -1.0 if front == plane.bottom else 1.0
        size = min(1.0, (plane.bottom - plane.top - 2 * AIR) / HIGH)
        start = plane.axis.at(plane.look.end_at(DATUM_END, plane.surface))
        for number in range(1, int((plane.axis.right - start) / TEXT)):
            at = start + number * TEXT
            if self.paper.place([plane.drawn([face_mark((at, front), into, size)])]):
                self.mark_at = at
                return

    def _triangle(self) -> None:
        """Over the set: its point to the front on level boards, up on standing ones; smaller where it must be."""
        plane, board = self.plane, self.plane.look.part.board
        far = plane.look.names.words[Surface.FAR]
        told = "point to the front" if board.lies == "across" and far not in STANDING else "point up"
        turn = STANDING.get(far, 2 * RIGHT if plane.y(board.depth) == plane.bottom else 0.0)
        for words, size in ((told, NAME), (told, FIGURE), ("", FIGURE)):
            wide, high = max(width(words, TEXT), 2 * size), 2 * size + (STEP if words else 0.0)

            def drawn(x: float, y: float, words: str = words, size: float = size, wide: float = wide) -> list[Item]:
                at = (x + wide / 2, y + 2 * size + STEP - AIR)
                items: list[Item] = [triangle((x + wide / 2, y + size), size, turn)]
                return [*items, Text(at=at, text=words, anchor="middle", layer="mark")] if words else items

            before = len(self.paper.items)
            if self._put(self._spots(wide, high), drawn):
                self.paper.block(*extent(self.paper.items[before:]))  # no arrow of the grain runs into it
                return

    def _half_triangle(self) -> None:
        """Half of it, at the wall edge that two hands share, its point to the far end: whole when the edges meet."""
        if self.half is None:
            return
        long, base = HALF
        wall = self.plane.y(0.0)
        inwards = 1.0 if wall == self.plane.top else -1.0
        points = ((self.half + long, wall), (self.half, wall + inwards * base), (self.half, wall))
        self.paper.draw(self.plane.drawn([Stroke(points=points, pen="outline", layer="mark")]))

    def _edges(self) -> None:
        """The names of the two edges, twice where there is room."""
        left, top, right, bottom = self.plane.box
        names, board = self.plane.look.names, self.plane.look.part.board
        long = bottom - top if self.plane.stands else right - left
        shares = (1 / 4, 3 / 4) if long > TWICE and not self.plane.stands else (1 / 2,)
        for surface, v in ((Surface.WALL, 0.0), (Surface.FRONT, board.depth)):
            text = names.words[surface]
            wide = width(text, TEXT)
            for share in shares:
                self.paper.place(self._edge(text, wide, v, share, long))

    def _edge(self, text: str, wide: float, v: float, share: float, long: float) -> Iterator[list[Item]]:
        left, top, right, bottom = self.plane.box
        for off in middle_first(-long / 2 * (1 - share), long / 2 * (1 - share), STEP):
            along = long * share + off
            beyond = share != 1 / 2 and (along > long / 2) is not (share > 1 / 2)  # never both names side by side
            if wide / 2 < along < long - wide / 2 and not beyond:
                first = self.plane.y(v) == self.plane.top
                if self.plane.stands:
                    x = left + PAST + TEXT if first else right - PAST
                    yield [Text(at=(x, bottom - along), text=text, anchor="middle", turn=RIGHT)]
                else:
                    y = top + PAST + TEXT if first else bottom - PAST
                    yield [Text(at=(left + along, y), text=text, anchor="middle")]

    def _grain(self) -> None:
        for long in GRAIN:
            wide, high = (TEXT, long) if self.plane.stands else (long, TEXT)

            def drawn(x: float, y: float, long: float = long) -> list[Item]:
                if self.plane.stands:
                    return stood(grain((0.0, 0.0), long), x + TEXT / 2, y + long)
                return list(grain((x, y + TEXT / 2), long))

            if self._put(self._spots(wide, high), drawn):
                return


def _nearest(places: Iterable[float], to: float) -> list[float]:
    return sorted(places, key=lambda place: abs(place - to))


def _upright(line: str, x: float, y: float) -> list[Item]:
    """A line read from the right, its left side at x, its middle at y."""
    return [Text(at=(x + TEXT, y), text=line, anchor="middle", turn=RIGHT)]


def _written(line: str, x: float, y: float) -> list[Item]:
    """A line from its top left corner."""
    return [Text(at=(x, y + TEXT), text=line)]


def half_place(plane: SurfacePaper) -> float:
    """Where along the wall edge half a triangle finds most room: the middle of the widest gap between cuts."""
    axis = plane.axis
    taken = [(axis.left, axis.left), (axis.right, axis.right)]
    for trace in plane.view.traces:
        points = [a for loop in trace.opening for a, _ in loop] or [a for a, _ in trace.extent]
        if points and not trace.end:
            taken.append((axis.at(min(points)), axis.at(max(points))))
    ordered = sorted(taken)
    gaps = [(after[0] - before[1], before[1]) for before, after in pairwise(ordered)]
    gap, start = max(gaps)
    return start + (gap - HALF[0]) / 2
