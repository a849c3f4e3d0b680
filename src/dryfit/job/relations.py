"""Lines that name places of other boards, worked out in the order in which they need one another.

Each coordinate of a line or of a frame's points is worked out when something needs it, and no sooner: the left face
of a plumb board needs where that stands along the wall and not how high, so that a shelf may end flush with an upright
which stands on the shelf. One coordinate is looked at once for each place that it names, and found once.
"""

from collections import ChainMap
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import TypeAlias

from ..places import Path
from .arithmetic import NUMBER, Expression, Place
from .mistakes import Mistakes
from .model import Point
from .names import shown
from .standing import AXIS_OF, ENDS, SIZES, STRAIGHT, Line, Standing, X, Y, lacks, place_of

BOTH = 2  # in place of an axis: the two coordinates of a point that hang on each other
APART = 1000.0  # mm between the two places at which a coordinate is tried for how it hangs on the other
SAME = 1e-6  # mm: as near as two ways of working one place out come
MOST_TOLD = 6  # of a circle

_NO_FACE = {"level": ("top", "under"), "plumb": ("left", "right")}


@dataclass(eq=False, slots=True, kw_only=True)
class Points:
    """The points of one line or frame, as typed and as far as they are worked out.

    Attributes:
        owner: the board or frame.
        path: of the line or the points.
        typed: x and y of each.
        scope: what their arithmetic may use, in mm.
        number: of the board in its row; None for what is no row's.
        found: by point and axis, in mm; None where it cannot be worked out, the mistake noted.
    """

    owner: str
    path: Path
    typed: Sequence[Sequence[Expression]]
    scope: Mapping[str, float]
    number: int | None = None
    found: dict[tuple[int, int], float | None] = field(default_factory=dict)

    def place(self, point: int, axis: int) -> Path:
        """Of a coordinate."""
        return (*self.path, point, axis)

    @property
    def whole(self) -> tuple[Point, ...] | None:
        """The points; None where one cannot be worked out."""
        pairs = [(self.found[at, X], self.found[at, Y]) for at in range(len(self.typed))]
        points = tuple((x, y) for x, y in pairs if x is not None and y is not None)
        return points if len(points) == len(pairs) else None


@dataclass(frozen=True, slots=True, kw_only=True)
class NamedBoard:
    """A board as others may name it.

    Attributes:
        points: of its line, or of its frame.
        standing: None where a mistake leaves it without.
        side: of its frame; None for a board with a line of its own.
        lines: of a frame's sides by its points; None where they have none.
    """

    points: Points
    standing: Standing | None
    side: int | None = None
    lines: Callable[[tuple[Point, ...]], Sequence[Line] | None] | None = None


Node: TypeAlias = tuple[Points, int, int]


class _Needs(Exception):  # noqa: N818 - a step of the way, no error
    """Another coordinate is to be worked out first."""

    def __init__(self, node: Node) -> None:
        self.node = node


class _Broken(Exception):  # noqa: N818
    """It cannot be worked out, and why is noted elsewhere."""


class Relations:
    """Works out all points of a job.

    Args:
        mistakes: where what is wrong is noted.
        boards: that can be named.
        claimed: all names there are, of boards and frames, also of those that could not be read.
        rows: names of rows with their numbers as `{i}`, each with the boards of the row.
        frames: each with its boards.
    """

    def __init__(
        self,
        mistakes: Mistakes,
        boards: Mapping[str, NamedBoard],
        *,
        claimed: Mapping[str, Path],
        rows: Mapping[str, Sequence[str]],
        frames: Mapping[str, Sequence[str]],
    ) -> None:
        self._mistakes = mistakes
        self._boards = boards
        self._claimed = claimed
        self._rows = rows
        self._frames = frames
        self._lines: dict[int, Sequence[Line] | None] = {}  # by the id of a frame's points

    def work_out(self, points: Points) -> None:
        """Find every coordinate of a line or frame, and what it needs."""
        for at, pair in enumerate(points.typed):
            for axis in (X, Y):
                if (at, axis) in points.found:
                    continue
                if pair[axis].places:
                    self._work((points, at, axis))
                else:
                    points.found[at, axis] = self._mistakes.length(pair[axis], points.place(at, axis), points.scope)

    def _work(self, first: Node) -> None:
        trail: list[Node] = [first]
        under_way: dict[Node, Node] = {first: first}  # each with what of the trail works it out
        while trail:
            points, at, axis = node = trail[-1]
            try:
                self._find(points, at, axis)
            except _Needs as needs:
                ahead = needs.node
                if ahead not in under_way:
                    trail.append(ahead)
                    under_way[ahead] = ahead
                    continue
                circle = trail[trail.index(under_way[ahead]) :]
                both: Node = (points, at, BOTH)
                if [one[:2] for one in circle] == [(points, at)] * 2 and BOTH not in (axis, circle[0][2]):
                    del trail[-2:]
                    trail.append(both)
                    under_way |= dict.fromkeys((both, *circle), both)
                    continue
                self._circle(circle)
                continue
            trail.pop()
            under_way = {one: by for one, by in under_way.items() if by is not node} if axis == BOTH else under_way
            under_way.pop(node, None)

    def _find(self, points: Points, at: int, axis: int) -> None:
        if axis == BOTH:
            if (at, X) not in points.found:
                points.found[at, X], points.found[at, Y] = self._both(points, at)
            return
        if (at, axis) not in points.found:
            try:
                points.found[at, axis] = self._value(points, at, axis)
            except _Broken:
                points.found[at, axis] = None

    def _value(self, points: Points, at: int, axis: int, across: float | None = None) -> float | None:
        """One coordinate, with the other as it is worked out, or `across` in its stead.

        Raises:
            _Needs: another coordinate is to be worked out first.
            _Broken: something that it names cannot be worked out.
        """
        typed, path = points.typed[at][axis], points.place(at, axis)
        own = {place.key: self._place(place, points, at, axis, across) for place in typed.places}
        return self._mistakes.length(typed, path, ChainMap(own, points.scope) if own else points.scope)  # type: ignore[arg-type]

    def _both(self, points: Points, at: int) -> tuple[float | None, float | None]:
        """A point each of whose coordinates hangs on the other: where two leaning faces meet."""
        try:
            x0, x1 = (self._value(points, at, X, y) for y in (0.0, APART))
            y0, y1 = (self._value(points, at, Y, x) for x in (0.0, APART))
            if x0 is None or x1 is None or y0 is None or y1 is None:
                return None, None
            # x = x0 + p y and y = y0 + q x
            p, q = (x1 - x0) / APART, (y1 - y0) / APART
            if abs(1.0 - p * q) > STRAIGHT:
                x = (x0 + p * y0) / (1.0 - p * q)
                y = y0 + q * x
                again = self._value(points, at, X, y), self._value(points, at, Y, x)
                if all(one is not None and abs(one - was) < SAME for one, was in zip(again, (x, y), strict=True)):
                    return x, y
        except _Broken:
            return None, None
        says = "the two coordinates of this point hang on each other, and no one place suits both"
        self._mistakes.add((*points.path, at), says, "give one of them a figure")
        return None, None

    # --- a place of a board

    def _place(self, place: Place, points: Points, at: int, axis: int, across: float | None) -> float:
        path = points.place(at, axis)
        board = self._named(place, points, path)
        assert board.standing is not None, "looked at when it was named"
        if place.word in SIZES:
            return self._size(place, board.standing, path)
        if AXIS_OF.get(place.word, axis) != axis:
            self._wrong_axis(place, axis, path)
        if board.side is None:
            simple = self._simple(place.word, axis, board)
            if simple is not None:
                return simple
        line = self._line(board)
        lacking = "" if place.word in ENDS else lacks(place.word, axis, line)
        if lacking:
            self._no_face(place, lacking, path)
        straight = abs(line[1][axis] - line[0][axis]) < STRAIGHT and board.standing.even
        if across is None and not straight and place.word not in ENDS:
            across = self._coordinate(points, at, 1 - axis)
        return place_of(place.word, axis, line, board.standing, across or 0.0)

    def _simple(self, word: str, axis: int, board: NamedBoard) -> float | None:
        """A place that needs the line's coordinates on its own axis alone; None where it needs the others too."""
        standing = board.standing
        assert standing is not None, "looked at when it was named"
        if standing.line_is != "centre":
            return None
        if word in ENDS:
            return self._coordinate(board.points, ENDS.index(word), axis)
        if not standing.even:
            return None
        start, end = (self._coordinate(board.points, at, axis) for at in (0, 1))
        if abs(end - start) >= STRAIGHT:
            return None
        side = {"middle": 0.0, "left": -0.5, "under": -0.5}.get(word, 0.5)
        return start + side * standing.across[0][1]

    def _line(self, board: NamedBoard) -> Line:
        points = board.points
        corners = [
            (self._coordinate(points, at, X), self._coordinate(points, at, Y)) for at in range(len(points.typed))
        ]
        if board.side is None or board.lines is None:
            return corners[0], corners[1]
        if id(points) not in self._lines:
            self._lines[id(points)] = board.lines(tuple(corners))
        lines = self._lines[id(points)]
        if lines is None:
            raise _Broken
        return lines[board.side]

    def _coordinate(self, points: Points, at: int, axis: int) -> float:
        if (at, axis) not in points.found:
            if points.typed[at][axis].places:
                raise _Needs((points, at, axis))
            points.found[at, axis] = self._mistakes.length(points.typed[at][axis], points.place(at, axis), points.scope)
        value = points.found[at, axis]
        if value is None:
            raise _Broken
        return value

    # --- what may be wrong with one

    def _named(self, place: Place, points: Points, path: Path) -> NamedBoard:
        name = place.board
        if points.number is not None:
            name = name.replace(NUMBER, str(points.number))
        board = self._boards.get(name)
        if board is None or board.standing is None:
            if board is None and not self._is_broken(name):
                self._mistakes.add(path, *self._unknown(name))
            raise _Broken
        return board

    def _is_broken(self, name: str) -> bool:
        """Whether there is such a board, which could not be read, or may be one in what was lost."""
        known = name in self._claimed and name not in self._frames and name not in self._rows
        return known or self._mistakes.is_lost("board") or self._mistakes.is_lost("frame")

    def _unknown(self, name: str) -> tuple[str, str]:
        says = f"there is no board called {shown(name)}"
        for row, boards in self._rows.items():
            if boards and name in (row, row.removesuffix(f" {NUMBER}")):
                within = f", or {shown(row)} within a row" if name != row else ""
                return (
                    f"{shown(name)} is a row of boards, not one",
                    f"name one of them, such as {shown(boards[0])}{within}",
                )
        if name in self._frames:
            return (
                f"{shown(name)} is a frame, not a board",
                f"name one of its boards, such as {shown(self._frames[name][0])}",
            )
        if NUMBER in name:
            return f"{shown(name)} is no row of boards", "name one board, or use {i} within a row only"
        close = self._mistakes.guess(name, sorted(self._boards))
        return says, f"did you mean {shown(close)}?" if close else "name a board of the file, or write a figure"

    def _size(self, place: Place, standing: Standing, path: Path) -> float:
        if place.word == "thickness":
            return standing.thickness
        if standing.width is None:
            says = f"{shown(place.board)} does not lie flat, so its width is not seen from the front"
            self._refuse(path, says, f'write thickness("{place.board}") for what is')
        assert standing.width is not None, "it would have been refused"
        return standing.width

    def _wrong_axis(self, place: Place, axis: int, path: Path) -> None:
        says = f"{place.word} is a place along the wall, and a height stands here"
        better = ("top", "under")
        if axis == X:
            says, better = f"{place.word} is a height, and a place along the wall stands here", ("left", "right")
        self._refuse(path, says, f"write {self._words(place, better)}, or middle")

    def _no_face(self, place: Place, way: str, path: Path) -> None:
        called = "middle along the wall" if way == "level" else "middle height"
        if place.word != "middle":
            called = {"left": "left face", "right": "right face", "top": "upper face"}.get(place.word, "lower face")
        says = f"{shown(place.board)} is {way} or nearly so, and has no {called}"
        faces = "" if place.word == "middle" else f"{self._words(place, _NO_FACE[way])} for a face, "
        name = place.board
        self._refuse(path, says, f'write {faces}start("{name}") or end("{name}") for an end')

    @staticmethod
    def _words(place: Place, words: tuple[str, str]) -> str:
        return " or ".join(f'{word}("{place.board}")' for word in words)

    def _refuse(self, path: Path, says: str, remedy: str) -> None:
        self._mistakes.add(path, says, remedy)
        raise _Broken

    def _circle(self, circle: Sequence[Node]) -> None:
        """Note that coordinates go round in a circle, and leave all of them without a value."""
        told: list[tuple[str, Path]] = []
        for points, at, axis in circle:
            path = (*points.path, at) if axis == BOTH else points.place(at, axis)
            if not told or told[-1][0] != points.owner:
                told.append((points.owner, path))
            points.found |= {(at, one): None for one in ((X, Y) if axis == BOTH else (axis,))}
        if len(told) > 1 and told[0][0] == told[-1][0]:
            told.pop()
        path = told[0][1]
        if len(told) == 1:
            says = f"{shown(told[0][0])} is placed by itself"
            self._mistakes.add(path, says, "give it a figure, or a place of another board")
            return
        lines = self._mistakes.spans
        names = [f"{shown(name)} ({self._mistakes.file}:{lines.line_of(at)})" for name, at in told[:MOST_TOLD]]
        if len(told) > MOST_TOLD:
            names.append(f"{len(told) - MOST_TOLD} more")
        says = f"places go round in a circle: {' needs '.join([*names, shown(told[0][0])])}"
        self._mistakes.add(path, says, "give one of them a figure")
