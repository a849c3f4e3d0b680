"""The views of a part under one another, each the one above rolled away from you, with their running lines.

A face at +c that is the face side stands first, then the front edge, then the other face. Where the face side
lies at -c the front edge stands above it: arrises that meet on the wood still meet on paper.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property

from ....geometry.frames import Vec2
from ....geometry.views import FACES, Surface
from ....piece.model import DATUM_END
from ...display import Item, Stroke, Text, extent, shifted
from ...kit import dimension
from ...kit.axis import PAPER, Axis
from ...kit.dimension import DimensionMark, PlacedRun, UnplacedDimension
from ...kit.placing import FilledPaper
from ...lettering import FIGURE, TEXT, width
from ...looks import Desk, Look
from ...naming import LEAST, position, scale_words
from ...standard import AIR, LINE, PAST, SCALES, SMALLEST
from ...symbols import edge_mark
from .faces.surface import SurfacePaper, at_end, cuts_seen, marks, plane_for, wood
from .faces.wording import Wording, half_place

UNDER_VIEW = FIGURE + TEXT + 2 * PAST  # what stands between two views takes at least: a running line or a name
FIRST, SAME = "from the datum end", "from the same end"
ROLLED = "each view is rolled away from you: left stays left"
WHOLE = "the whole board, {}: what the views leave out is clear wood"


@dataclass(frozen=True)
class Stacked:
    """What a stack of views comes to: its items and the y below it."""

    items: list[Item]
    bottom: float

    @cached_property
    def right(self) -> float:
        """How far it reaches."""
        return max((right for right, _ in self._corners), default=-math.inf)

    @cached_property
    def foot(self) -> float:
        """How far down it is drawn."""
        return max((bottom for _, bottom in self._corners), default=-math.inf)

    @cached_property
    def _corners(self) -> list[Vec2]:
        """How far each item reaches, and how far down."""
        return [extent([item])[2:] for item in self.items]

    def below(self, x: float) -> float:
        """The y below what reaches over x; below all where nothing does."""
        return max((bottom for right, bottom in self._corners if right > x), default=self.bottom)


def least_high(look: Look, faces: int, scale: float) -> float:
    """How high so many views of a part are at least, the front edge among them: wood, and what is under each."""
    board, others = look.part.board, faces - 1
    return (others * board.depth + board.thickest) * scale + others * UNDER_VIEW


def surfaces(look: Look, *, brief: bool = False) -> list[Surface]:
    """The views that are drawn, from the top of the sheet down; `brief`: no face that has the other's figures alone."""
    side, other = look.names.face_side, look.names.other_face
    shown: list[Surface] = [side, Surface.FRONT] if side is Surface.PLUS else [Surface.FRONT, side]
    if not any(not at_end(look, trace.key) for trace in cuts_seen(look, other)):
        return shown
    return shown if brief and _told_already(look, plane_for(look, other, PAPER)) else [*shown, other]


@dataclass(frozen=True, slots=True, kw_only=True)
class LyingPart:
    """One part as it lies: its faces and its front edge.

    Attributes:
        look: as it is drawn; `face_side` is the face that carries its marks in truth.
        faces: those that are drawn, from the top of the sheet down, the front edge among them.
        inner: of a pair the face whose wall edge meets the other hand's.
        of: of a pair its letter.
    """

    look: Look
    face_side: Surface
    faces: tuple[Surface, ...]
    inner: Surface | None = None
    of: str = ""


def stacked(desk: Desk, look: Look, axis: Axis, top: float, right: float, *, brief: bool = False) -> Stacked:
    """Draw the views from `top` down; `right` is how far words reach: at the wood's end, as far as figures."""
    faces = tuple(surfaces(look, brief=brief))
    made = _stacked(desk, [LyingPart(look=look, face_side=look.names.face_side, faces=faces)], axis, top, right)
    if faces == tuple(surfaces(look)):
        return made
    same = _the_same(plane_for(look, look.names.other_face, axis))
    return Stacked([*made.items, replace(same, at=(axis.left, made.bottom + TEXT))], made.bottom + TEXT + PAST)


def pair_stacked(desk: Desk, hands: Sequence[LyingPart], axis: Axis, top: float, right: float) -> Stacked:
    """Two hands above one another, each +c up: the wall edges lie together, the lower is the upper's mirror image."""
    return _stacked(desk, hands, axis, top, right)


def _stacked(desk: Desk, them: Sequence[LyingPart], axis: Axis, top: float, right: float) -> Stacked:
    papers = [paper for lying in them for paper in _Views(desk, lying, axis, right - axis.left + PAST).papers()]
    if axis.breaks:
        papers.append(_unbroken(them[0].look, axis))
    items: list[Item] = []
    y = top
    for paper in papers:
        _, above, _, below = extent(paper.items)
        items += shifted(paper.items, 0.0, y - above)
        y += below - above + PAST
    return Stacked(items, y)


def _unbroken(look: Look, axis: Axis) -> FilledPaper:
    """The whole board small, where the views are broken: so that nobody takes it for a short one."""
    paper = FilledPaper()
    room = axis.right - axis.left - width(WHOLE, TEXT) - 2 * LINE * TEXT
    scale = next((one for one in SCALES if one < SMALLEST and look.part.length * one <= room), SCALES[-1])
    plane = plane_for(look, look.names.face_side, Axis.whole(0.0, look.part.length, scale, axis.left))
    loops = [loop for trace in plane.view.traces if not trace.end for loop in trace.opening]
    for loop in (*plane.view.outline, *loops):
        points = tuple(plane.at(p) for p in loop)
        paper.draw([Stroke(points=points, pen="break", closed=True, layer="wood")])
    at = (plane.axis.right + TEXT, (plane.top + plane.bottom + TEXT) / 2)
    paper.draw([Text(at=at, text=WHOLE.format(scale_words(scale)))])
    return paper


@dataclass
class _Views:
    """The views of one part, each on its own paper, the upper edge of the wood at 0."""

    desk: Desk
    lying: LyingPart
    axis: Axis
    wide: float
    _told: bool = field(default=False)

    def papers(self) -> list[FilledPaper]:
        """From the top of the sheet down."""
        found: list[FilledPaper] = []
        mark_at: float | None = None
        edge: tuple[FilledPaper, SurfacePaper] | None = None
        for number, surface in enumerate(self.lying.faces):
            plane = plane_for(self.lying.look, surface, self.axis)
            paper, line = self._lined(plane, first=number == 0)
            if surface in FACES:
                mark_at = self._face(paper, plane) or mark_at
            else:
                edge = paper, plane
                self._edge(paper, plane, line)
            found.append(paper)
        if edge is not None:
            edge[0].draw(edge_sign(self.lying.face_side, edge[1], mark_at))
        return found

    def _lined(self, plane: SurfacePaper, *, first: bool) -> tuple[FilledPaper, UnplacedDimension | None]:
        """The wood with its running line; from where it runs is left unsaid where the words would take a row more.

        Wood and line are the same with any words, and drawn once.
        """
        bare = FilledPaper(self.wide)
        bare.draw(wood(plane))
        whole = self._line(plane, FIRST if not self._told else SAME, first=first)
        if whole is None:
            return bare, None
        lined = bare.copy(self._room(bare, plane, whole))
        line = dimension.running(lined, whole, plane.axis.breaks)
        paper = _said(lined, line, whole.says)
        without = [item for item in paper.items if not (isinstance(item, Text) and item.text == whole.says)]
        if _high(paper.items) > _high(without) + AIR:
            brief = self._line(plane, "", first=first)
            shorter = _said(lined, line, brief.says) if brief is not None else paper
            if _high(shorter.items) < _high(paper.items) - AIR:
                return shorter, brief
        self._told = True
        return paper, whole

    def _room(self, bare: FilledPaper, plane: SurfacePaper, line: UnplacedDimension) -> float:
        """How wide the paper may become; as wide as wood and figures, where no words may stand on their right."""
        if self.axis.left + self.wide > plane.axis.right + 2 * PAST:
            return self.wide
        tried = bare.copy(math.inf)
        dimension.running(tried, line, plane.axis.breaks)
        left, _, right, _ = extent(tried.items)
        return right - left + AIR

    def _line(self, plane: SurfacePaper, counted: str, *, first: bool) -> UnplacedDimension | None:
        """The running line of a view: above it at the top of the sheet, else below; None where it says nothing new."""
        look, surface = self.lying.look, plane.surface
        found = marks(plane, -1.0 if first else 1.0)
        says = ", ".join(filter(None, (f"{_loud(look, surface)}{self._of}", counted)))
        if surface not in FACES:
            found = [m._replace(ring=str(look.numbers.get(m.owner, ""))) for m in found]
        elif surface is not look.names.face_side and _told_already(look, plane):
            found = []
        if not found:
            return None
        begins = look.end_at(DATUM_END, surface) if surface in FACES else 0.0
        if begins > LEAST and position(begins) not in {mark.figure for mark in found}:
            says = f"{says}; its arris is at {position(begins)}"  # too near the zero for a mark of its own
        datum = DimensionMark((plane.axis.at(0.0), plane.top if first else plane.bottom))
        return UnplacedDimension(
            way=(1.0, 0.0), marks=(datum, *found), style="running", side=1 if first else -1, weight="bold", says=says
        )

    @property
    def _of(self) -> str:
        return f" of {self.lying.of}" if self.lying.of else ""

    def _face(self, paper: FilledPaper, plane: SurfacePaper) -> float | None:
        """The words of one face; gives where its face mark starts."""
        look, lying = self.lying.look, self.lying
        main = plane.surface is look.names.face_side
        if not main and _told_already(look, plane):
            paper.draw([_the_same(plane)])
        inner = plane.surface is lying.inner
        words = Wording(
            desk=self.desk, plane=plane, paper=paper, main=main, loop=plane.surface is lying.face_side,
            half=half_place(plane) if inner else None, whole=lying.inner is None,
        )  # fmt: skip
        words.put()
        return words.mark_at

    def _edge(self, paper: FilledPaper, plane: SurfacePaper, line: UnplacedDimension | None) -> None:
        """The words of the front edge: its name, and how the views follow one another."""
        look, left = self.lying.look, plane.axis.left
        if line is not None:
            said = next((item for item in paper.items if isinstance(item, Text) and item.text == line.says), None)
            if said is not None:
                after = said.at[0] + width(line.says, TEXT) + LINE * TEXT
                if after + width(ROLLED, TEXT) <= plane.axis.right:
                    paper.place([[Text(at=(after, said.at[1]), text=ROLLED)]])
        else:
            name = look.names.loud(Surface.FRONT)
            base = plane.bottom + PAST + FIGURE
            paper.draw([Text(at=(left, base), text=name, size=FIGURE, weight="bold")])
            paper.draw([Text(at=(left + width(name, FIGURE, "bold") + TEXT, base), text=ROLLED)])


def _said(lined: FilledPaper, line: PlacedRun, says: str) -> FilledPaper:
    """A paper like one on which a running line stands, with the line's words."""
    paper = lined.copy(lined.wide)
    line.say(paper, says)
    return paper


def _high(items: Sequence[Item]) -> float:
    _, above, _, below = extent(items)
    return below - above


def _loud(look: Look, surface: Surface) -> str:
    """Its name with the word that matters loud: "UPPER face", "FRONT edge"."""
    called = look.names.words[surface]
    return f"{called.word.upper()} {called.noun}"


def _the_same(plane: SurfacePaper) -> Text:
    """In place of a running line that would say nothing new."""
    look = plane.look
    same = f"{_loud(look, plane.surface)}: the same figures as on the {look.names.words[look.names.face_side]}"
    return Text(at=(plane.axis.left, plane.bottom + PAST + TEXT), text=same)


def _told_already(look: Look, plane: SurfacePaper) -> bool:
    """Whether every figure of the other face stands on the face side too: square work, marked once."""
    side = plane_for(look, look.names.face_side, plane.axis)
    told = {(mark.owner, mark.figure) for mark in marks(side, 1.0)}
    return all((mark.owner, mark.figure) in told for mark in marks(plane, 1.0))


def edge_sign(face_side: Surface, edge: SurfacePaper, mark_at: float | None) -> list[Item]:
    """The V on the face edge, under the loop on the face side, its point to the face side."""
    x = mark_at if mark_at is not None else edge.axis.left + 2 * TEXT
    high = min(TEXT, edge.bottom - edge.top - 2 * AIR)
    towards_top = face_side is Surface.PLUS
    base = edge.top + high + AIR if towards_top else edge.bottom - high - AIR
    return edge.drawn([edge_mark((x, base), high, -1.0 if towards_top else 1.0)])
