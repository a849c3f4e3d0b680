"""What the sheets need of a book, worked out once: each part's views, names and numbers, and its elevation.

A `Desk` is what a sheet's maker has in front of him: the book, and this.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Any, Protocol

from shapely import Polygon, STRtree, unary_union
from shapely.geometry.base import BaseGeometry

from ..book.model import Book
from ..geometry.frames import Vec2
from ..geometry.loops import Loop
from ..geometry.sections import polygons
from ..geometry.views import FACES, Looker, Removed, Surface, SurfaceView, Wood
from ..piece.facts import CutForm
from ..piece.model import Board, Cut, Joint, Part
from .display import Display, Draft
from .elevation import BARE
from .naming import Called, Names, names, numbered


def wood_of(part: Part) -> Wood:
    """A part as the views need it; as long as the blank, so that ends have something to be cut from."""
    cuts = tuple(Removed(key=cut.key, end=cut.end, shapes=cut.shapes) for cut in part.cuts)
    return Wood(
        profile=part.board.profile,
        depth=part.board.depth,
        start=min(part.blank.start, part.long[0]) - 1.0,
        end=max(part.blank.end, part.long[1]) + 1.0,
        zero=part.zero,
        cuts=cuts,
    )


def is_bored(cut: Cut) -> bool:
    """Whether the cut is round holes only; then it is marked on its axis, not on a wall."""
    return cut.form is CutForm.BORE


@dataclass
class Look:
    """One part as its sheets show it."""

    part: Part
    _views: dict[Surface, SurfaceView] = field(default_factory=dict)
    _first: "Look | None" = field(default=None, repr=False, compare=False)  # at the same part, otherwise called

    @cached_property
    def looker(self) -> Looker:
        """Looks at the part from all sides."""
        return Looker(wood_of(self.part)) if self._first is None else self._first.looker

    @cached_property
    def names(self) -> Names:
        """What its surfaces are called."""
        return names(self.part.board)

    @cached_property
    def numbers(self) -> dict[str, int]:
        """The number of each cut by key."""
        return numbered(self.part)

    def called(self, words: Mapping[Surface, Called]) -> "Look":
        """The same part, some of its surfaces called otherwise."""
        other = Look(self.part, self._views, self)
        other.names = replace(self.names, words={**self.names.words, **words})
        return other

    def lettered(self, mark: str) -> "Look":
        """The same part with another letter, or with those of several."""
        return Look(replace(self.part, mark=mark), self._views, self)

    def with_cuts(self, cuts: tuple[Cut, ...]) -> "Look":
        """The same part, of whose cuts something else is told; their shapes and keys are the same."""
        return Look(replace(self.part, cuts=cuts), self._views)

    def view(self, surface: Surface) -> SurfaceView:
        """One surface."""
        if surface not in self._views:
            self._views[surface] = self.looker.view(surface)
        return self._views[surface]

    def position(self, cut: Cut, surface: Surface) -> float | None:
        """Running position of a cut on a surface: its wall nearer the datum end, a bore's axis; None if not there."""
        trace = self.view(surface).trace(cut.key)
        if trace is None or trace.marks is None:
            return None
        return sum(trace.marks) / 2 if is_bored(cut) else trace.marks[0]

    def end_at(self, end: int, surface: Surface) -> float:
        """Running position at which a face or edge ends: the datum end (-1) or the far one (1)."""
        points = [a for loop in self.view(surface).outline for a, _ in loop]
        return (min(points) if end < 0 else max(points)) if points else 0.0

    def end_of(self, cut: Cut, face: Surface) -> float:
        """Running position to which an end is cut on a face; of one cut so over part of the width, there."""
        points = cut.figures.points if cut.figures.reach is not None else None
        return self.end_at(cut.end, face) if points is None else points[FACES.index(face)] - self.part.zero


class PaperWatch(Protocol):
    """Is told how far a paper is."""

    def sheet(self, title: str) -> None:
        """A sheet of it is drawn."""

    def binding(self, sheets: int) -> None:
        """All are, so many, and are being bound."""


class Drawer(Protocol):
    """Draws some of the sheets elsewhere; `kinds` are the names of those kinds."""

    kinds: tuple[str, ...]

    def drafts(self, kind: str, missing: dict[str, str]) -> Iterator[Draft]:
        """The sheets of a kind as they come; `missing` gets those that could not be drawn.

        Raises:
            ChildProcessError: it has ended before all were there; those that came are right.
        """


class _Nobody:
    def sheet(self, title: str) -> None:
        pass

    def binding(self, sheets: int) -> None:
        pass


@dataclass
class Desk:
    """A book laid out for drawing.

    Attributes:
        kept: what one kind of sheet has worked out for all of its sheets, by its own name.
        missing: sheets and files that could not be made by a fault of ours, and why, by title and name.
        aside: the second process that draws some of the sheets, while there is one.
        watch: is told how far the paper is that is being made.
        bound: the finished sheets of each paper that was made of sheets, by its file.
    """

    book: Book
    missing: dict[str, str] = field(default_factory=dict, repr=False, compare=False)
    kept: dict[str, Any] = field(default_factory=dict, repr=False, compare=False)
    aside: Drawer | None = field(default=None, repr=False, compare=False)
    watch: PaperWatch = field(default_factory=_Nobody, repr=False, compare=False)
    bound: dict[str, Sequence[tuple[Draft, Display]]] = field(default_factory=dict, repr=False, compare=False)

    @cached_property
    def looks(self) -> dict[str, Look]:
        """A look at each part, by its board's name."""
        return {part.id: Look(part) for part in self.book.piece.parts}

    @cached_property
    def marks(self) -> dict[str, str]:
        """The letter of each part, by its board's name."""
        return {part.id: part.mark for part in self.book.piece.parts}

    @cached_property
    def joints(self) -> tuple[Joint, ...]:
        """The joints in the order of their boards' letters; of what has none, its name."""

        def place(joint: Joint) -> list[tuple[int, str]]:
            marks = (self.marks.get(side.body, side.body) for side in (joint.meeting.a, joint.meeting.b))
            return [(len(mark), mark) for mark in marks]

        return tuple(sorted(self.book.piece.joints, key=place))

    @cached_property
    def elevations(self) -> dict[str, Polygon]:
        """The outline of each part seen from the room, in the world's x and y, cuts along it not taken out."""
        return {name: elevation(look) for name, look in self.looks.items()}

    @cached_property
    def visible(self) -> dict[str, BaseGeometry]:
        """What is seen of each part from the room: less what stands in front of it."""
        fronts = {name: front_area(look) for name, look in self.looks.items()}
        boards = {name: look.part.board for name, look in self.looks.items()}
        tree, order = STRtree(list(fronts.values())), list(fronts)
        seen: dict[str, BaseGeometry] = {}
        for name, area in fronts.items():
            near = [order[number] for number in sorted(tree.query(area).tolist())]
            nearer = [fronts[other] for other in near if boards[other].front > boards[name].front + 1.0]
            seen[name] = area.difference(unary_union(nearer)) if nearer else area
        return seen

    @cached_property
    def bounds(self) -> tuple[float, float, float, float]:
        """The piece in elevation: left, foot, right, head; the floor at 0 belongs to it unless it hangs."""
        shapes = [shape for shape in self.elevations.values() if not shape.is_empty]
        if not shapes:
            return BARE
        left, foot, right, head = unary_union(shapes).bounds
        return left, (foot if self.book.job.wall.hung else min(foot, 0.0)), right, head


def elevation(look: Look) -> Polygon:
    """The outline of one part in the world's x and y."""
    board, zero = look.part.board, look.part.zero
    surfaces = (look.names.face_side, look.names.other_face) if board.lies == "flat" else (Surface.FRONT, Surface.WALL)
    loops = [loop for surface in surfaces for loop in look.view(surface).outline]
    area = unary_union([Polygon(in_world(board, zero, loop)) for loop in loops])
    pieces = sorted(polygons(area), key=lambda piece: -piece.area)
    return pieces[0] if pieces else Polygon()


def front_area(look: Look) -> BaseGeometry:
    """What stands at a part's front: its front edge, or its face if it lies flat, with all cuts out."""
    board = look.part.board
    surface = Surface.FRONT if board.lies == "across" else look.names.face_side
    loops = look.looker.left_of(surface)
    return unary_union([Polygon(in_world(board, look.part.zero, loop)) for loop in loops])


def in_world(board: Board, zero: float, loop: Loop) -> list[Vec2]:
    """A loop of a front view of the board (running a; c, or d if it lies flat) in the world's x and y."""
    flat = board.lies == "flat"
    points = [board.frame.place((a + zero, 0.0 if flat else v, v if flat else 0.0)) for a, v in loop]
    return [(x, y) for x, y, _ in points]
