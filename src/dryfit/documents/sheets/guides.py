"""Guides: for each set-up of a router the two rails as they stand, where they stand for each cut, and the trial cut."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from shapely import Polygon, box

from ...geometry.frames import Vec2
from ...geometry.views import ENDS, FACES
from ...sentences import Voice
from ...studies.guides.result import DrillRest, Guide, GuidedCut, Guides
from ..display import Draft, Item, Stroke
from ..hatch import LEAN
from ..kit.axis import Axis
from ..kit.dimension import UnplacedDimension, plain
from ..kit.view import View, place
from ..kit.wood import WoodStretch, cut_wood, hatch_step
from ..lettering import printable
from ..looks import Desk
from ..naming import angle, depth, plural, position, width
from ..sheet import sheet
from ..standard import A4, BLANK, SCALES
from .page.frame import BARS, MARGIN
from .page.prose import WordRun, strong
from .page.sheaf import Sheaf
from .page.table import Cell, Row, bold
from .part.words.setups import setups

RESTS = ("set-up", "holes over the face side", "packing", "set")
NO_AXIS = "The shop file says of no drill how high its axis stands as it lies on its side: half its body's width."
LIES = (
    "The board lies on packing, face side down, the drill on its side before it, both clamped or held to the bench; a"
    " block or fence keeps the bit square. Try it in an offcut as thick, from both ends where it goes through."
)
UNMEASURED = " No drift is reckoned with, the shop file has none: saw a trial cut first."
THICK = 18.0  # of rails and base as they are drawn: of no consequence
HEADS = ("part", "cut", "face up", "marks", "on the other face", "saw first at", "edge of the rail", "offcut at", "cut")
FIRST = (
    (
        "Measure the base first: run each edge along a straightedge, and from there to the nearer side of the groove."
        " The figures below are of the base named; another cutter, or the base turned, changes them. Mark the edge"
        " that runs on the datum rail, and keep it there in all passes."
    ),
    (
        "Positions count from the part's datum, on the face that lies up. Offcut: there the guide reaches over the"
        " end, and a piece as thick as the board must carry it. Past each open edge clamp a backing."
    ),
    (
        "Clamp board and guide, keep the leads and your hands clear of the cutter, feed against its turning, take"
        " shallow passes, wear eyes and ears; the maker's guard and manual come before this sheet."
    ),
)


@sheet("guides", paper="guides", order=10)
def guides(desk: Desk) -> Iterator[Draft]:
    """All guides, each with its picture, its figures and its cuts; none where no router is used."""
    found = desk.book.found(Guides)
    if found is None or not (found.all or found.rests):
        return
    sheaf = Sheaf(desk, letter=BARS, title="guides", says=("two rails for each set-up",), kind="guides", number="G")
    sheaf.paragraphs("before the first", [*([WordRun(text)] for text in FIRST), _rough(found)])
    for guide in found.all:
        _one(desk, sheaf, guide)
    if found.without:
        names = ", ".join(found.without)
        sheaf.paragraphs("no guide here", [[WordRun(f"{names}: two rails across the face do not make it.")]])
    if found.rests:
        _rests(sheaf, found.rests)
    yield from sheaf.drafts()


def _one(desk: Desk, sheaf: Sheaf, guide: Guide) -> None:
    sheaf.drawing(_picture(desk, guide))
    sheaf.paragraphs("", [_set(guide), _trial(guide)])
    sheaf.table(f"{guide.setup} stands for", HEADS, list(_rows(desk, guide)))


def _rough(found: Guides) -> list[WordRun]:
    """What the lines of rough cuts leave, and for which saw."""
    least, most = found.leaves
    saw = printable(found.blade) if found.blade else "a saw (the shop file names none)"
    says = f"{saw}, square to the face, inside these lines: it leaves {depth(least)} to {depth(most)} on each wall."
    turn = f" That is much: draw them turned by {angle(found.turn)} to the left of the cut's way." if found.turn else ""
    drift = UNMEASURED if least == most else ""
    return [
        strong("Saw first. "),
        WordRun(f"{says}{drift}{turn} The waste is chopped to the end of the cut, then routed."),
    ]


# --- figures -------------------------------------------------------------------------------------


def _title(guide: Guide) -> str:
    bed = guide.bed
    return f"{guide.setup} {'straight' if bed is None else f'tilted {angle(bed.lean)}, head {bed.head}'}"


def _set(guide: Guide) -> list[WordRun]:
    """What is set, in the order in which it is set."""
    bed, assumed = guide.bed, " (assumed: the shop file does not name them)" if guide.assumed else ""
    first = f"{guide.router} with {guide.cutter}, measured {width(guide.diameter)}{assumed}"
    rail = f"the datum rail stands {width(guide.offsets[0])} from the datum wall"
    if bed is not None:
        rail = (
            f"on the bed the low rail's edge stands {width(bed.low_rail)} from the thin edge, and the edge of the base"
            f" that has {width(guide.offsets[0])} runs on it"
        )
    ways = "each rail once" if guide.passes == 2 else f"each rail once and {guide.passes - 2} between"
    runs = f"{plural(guide.passes, 'pass')}: {ways}" if guide.passes > 1 else "one pass"
    faces = "; half the thickness from each face, each set from its own marks" if guide.faces == 2 else ""
    stop = "" if guide.stop is None else f"; stop strip {width(guide.stop)} from the end of the cut"
    said = [
        WordRun(f"{printable(first)}. Slot "),
        strong(width(guide.width)),
        WordRun(" across the walls; between the rails "),
        strong(width(guide.opening)),
        WordRun(f"; {rail}. Cutter "),
        strong(depth(guide.stick_out)),
        WordRun(f" out below the base; {runs}{faces}. Rails carry the base over {position(guide.run)}"),
        WordRun(f"{stop}."),
    ]
    if bed is not None:
        said.append(
            WordRun(
                f" Bed {depth(bed.thick)} thick, {position(bed.long)} up the slope, under its far edge"
                f" {position(bed.wedge)} high; the thin edge lies {width(bed.marks[0])} from the nearer mark."
            )
        )
    return said


def _trial(guide: Guide) -> list[WordRun]:
    """The sum that the trial cut asks for, with room for what is read."""
    bed = guide.bed
    on_face = "" if bed is None else f"; read on the face, times {math.cos(math.radians(bed.lean)):.4f} first"
    return [
        strong("Trial cut. "),
        WordRun("Read across the walls "),
        WordRun("", blank=BLANK),
        WordRun(f" less {width(guide.width)} ="),
        WordRun("", blank=BLANK),
        WordRun(f": so much packing inside the free rail; below 0 that rail goes out by so much{on_face}."),
    ]


def _rows(desk: Desk, guide: Guide) -> Iterator[Row]:
    uses = {use.key: use for one in setups(desk).all if one.name == guide.setup for use in one.uses}
    for cut in guide.cuts:
        use = uses[cut.key]
        yield (
            bold(use.mark),
            Cell(text=str(use.number or "")),
            Cell(text=_face(desk, cut)),
            bold(f"{position(cut.near)}, {position(cut.far)}"),
            Cell(text="" if cut.under is None else ", ".join(map(position, cut.under))),
            Cell(text="" if cut.saw is None else ", ".join(map(position, cut.saw)) or "no room"),
            bold(position(cut.edge)),
            Cell(text=", ".join(desk.looks[cut.board].names.words[ENDS[end > 0]] for end in cut.offcuts)),
            Cell(tick=True),
        )


def _face(desk: Desk, cut: GuidedCut) -> str:
    return desk.looks[cut.board].names.short(FACES[cut.face < 0])


def _rests(sheaf: Sheaf, rests: Sequence[DrillRest]) -> None:
    """How high a board lies before a drill that lies on its side."""
    drill, axis = rests[0].drill, rests[0].axis
    known = f"{printable(drill)}: its axis {position(axis)} over the bench." if axis is not None else NO_AXIS
    rows = [(bold(one.setup), Cell(text=position(one.up)), bold(_packed(one)), Cell(tick=True)) for one in rests]
    sheaf.table("drill on its side", RESTS, rows, [WordRun(f"{known} {LIES}")])


def _packed(one: DrillRest) -> str:
    if one.packing is None:
        return f"axis less {position(one.up)}"
    return f"{position(abs(one.packing))} under the {'board' if one.packing >= 0 else 'drill'}"


# --- pictures ------------------------------------------------------------------------------------


def _picture(desk: Desk, guide: Guide) -> list[Item]:
    """The rails on their board, seen along the cut, as large as the sheet has room: board cut, guide in outline."""
    room = (A4[0] - 4 * MARGIN, A4[1] / 4)
    ways = (place(_view(desk, guide, scale), room, Voice()) for scale in SCALES)
    return list(next(one for one in ways if one.wide <= room[0] and one.high <= room[1] and not one.unplaced).items)


@dataclass(frozen=True, slots=True)
class _Seen:
    """A guide seen along its cut: `at` turns a place along bed and square to it into the picture's, y up.

    Attributes:
        near: where the near wall stands along the bed.
        top: of the bed, or of the board's face, square to it.
    """

    guide: Guide
    near: float
    top: float

    @classmethod
    def of(cls, guide: Guide) -> "_Seen":
        """Counted from the bed's thin edge, or from the near wall."""
        return cls(guide, 0.0, 0.0) if guide.bed is None else cls(guide, guide.bed.near, guide.bed.thick)

    @property
    def low(self) -> float:
        """The edge of the rail on which the base runs first."""
        return self.near - self.guide.offsets[0]

    @property
    def high(self) -> float:
        """That of the free rail."""
        return self.low + self.guide.opening

    def at(self, s: float, h: float) -> Vec2:
        """A bed's thin edge lies where the head is: at the right for one that leans RIGHT."""
        bed = self.guide.bed
        if bed is None:
            return s, h
        rad = math.radians(bed.lean)
        x, y = s * math.cos(rad) - h * math.sin(rad), s * math.sin(rad) + h * math.cos(rad)
        return (-x if bed.head == "RIGHT" else x), y

    def box(self, start: float, end: float, low: float, high: float) -> tuple[Vec2, ...]:
        """A rectangle along the bed."""
        return tuple(self.at(s, h) for s, h in ((start, low), (end, low), (end, high), (start, high)))


def _view(desk: Desk, guide: Guide, scale: float) -> View:
    seen, bed = _Seen.of(guide), guide.bed
    thick = desk.looks[guide.cuts[0].board].part.board.thickest
    left, right = sorted(seen.at(s, 0.0)[0] for s in (seen.low - 2 * guide.rail, seen.high + 2 * guide.rail))
    board = box(left, -thick, right, 0.0)
    slot = Polygon(seen.box(seen.near, seen.near + guide.width, seen.top - guide.stick_out, seen.top))
    stretch = WoodStretch((1.0, 0.0), left, right)
    wood = [*cut_wood(board.difference(slot), (stretch,), scale, "", lean=LEAN, step=hatch_step(thick, scale))]
    for pen, shape in _guide_shapes(seen):
        points = tuple((x * scale, -y * scale) for x, y in shape)
        wood.append(Stroke(points=points, pen=pen, closed=True))
    across, up = Axis.whole(0.0, 1.0, scale), Axis.whole(0.0, 1.0, scale, sign=-1.0)
    title = "seen along it from its open edge" if bed else "seen along it, the datum to the left"
    return View(
        title=f"{_title(guide)}: {title}", wood=tuple(wood), across=across, up=up, dimensions=tuple(_said(seen))
    )


def _guide_shapes(seen: _Seen) -> Iterator[tuple[str, tuple[Vec2, ...]]]:
    """Rails, bed and wedge; base and cutter at the datum rail."""
    guide, bed, top = seen.guide, seen.guide.bed, seen.top
    yield "outline", seen.box(seen.low - guide.rail, seen.low, top, top + THICK)
    yield "outline", seen.box(seen.high, seen.high + guide.rail, top, top + THICK)
    if bed is not None:
        yield "outline", seen.box(0.0, seen.near, 0.0, top)
        yield "outline", seen.box(seen.near + guide.width, bed.long, 0.0, top)
        x, y = seen.at(bed.long, 0.0)
        inner = seen.at(bed.long - guide.rail, 0.0)
        yield "outline", ((x, y), inner, (inner[0], 0.0), (x, 0.0))
    yield "hidden", seen.box(seen.low, seen.low + sum(guide.offsets) + guide.diameter, top, top + THICK / 2)
    yield "hidden", seen.box(seen.near, seen.near + guide.diameter, top - guide.stick_out, top)


def _said(seen: _Seen) -> Iterator[UnplacedDimension]:
    guide, bed, over = seen.guide, seen.guide.bed, seen.top + THICK
    turned = -1 if bed is not None and bed.head == "RIGHT" else 1
    yield plain(seen.at(seen.low, over), seen.at(seen.high, over), width(guide.opening), side=turned)
    if bed is None:
        yield plain(seen.at(seen.low, 0.0), seen.at(0.0, 0.0), width(guide.offsets[0]), side=-1)
        yield plain(seen.at(0.0, 0.0), seen.at(guide.width, 0.0), width(guide.width), side=-1)
        return
    edge = seen.at(0.0, 0.0)
    for mark in bed.marks:
        yield plain(edge, (turned * mark, 0.0), width(mark), side=-turned)
    far = seen.at(bed.long, 0.0)
    yield plain((far[0], 0.0), far, position(bed.wedge), side=-turned)
