"""The piece: boards set out in space, where they meet, how each meeting is made, and the parts that result.

Everything here is frozen data with names and pairs for identity. Directions: see `geometry.frames` for
the world (x right along the wall, y up, z out of the wall) and `geometry.shapes` for a board's own frame
(a along from the datum end, c through the thickness, d from the wall edge).
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from functools import cached_property
from typing import Any, Generic, Literal, TypeAlias

from typing_extensions import TypeVar

from ..findings import Finding, NotChecked
from ..geometry.frames import Frame, Vec, length
from ..geometry.shapes import Shape
from ..job.model import EndForm, Job, Unit
from ..job.options import Options
from ..job.standing import thickness_along
from ..lengths import LengthUnit, rounded
from ..places import Cure, Edit, Pair, Path
from ..sentences import Fineness, Length, Name, Sentence, Words, say
from ..trade.anchors import Anchor
from ..trade.screws import Screw
from .facts import Between, CutForm, Opens, Stop
from .history import UNKNOWN, History
from .sums import OF_A_BOARD, Sum, Word

OptionsT_co = TypeVar("OptionsT_co", bound=Options, covariant=True, default=Options)
WALL = "wall"
FLOOR = "floor"
Decider: TypeAlias = Literal["already made", "maker", "chosen"]
DATUM_END, FAR_END = -1, 1  # the two ends of a board: where positions are counted from, and the other


class Touch(StrEnum):
    """With what a body takes part in a meeting."""

    THROUGH = "through"
    END = "end"
    EDGE = "edge"
    FACE = "face"


Form: TypeAlias = Literal[
    "crossing", "end on face", "corner", "in line", "touching", "crossed flat", "overlap", "fixing"
]


Profile: TypeAlias = tuple[tuple[float, float], ...]  # (place along a board, its thickness there), in order


@dataclass(frozen=True, slots=True, kw_only=True)
class Board:
    """A member as set out: an oriented box in space, one thickness or a straight-sided taper.

    The frame's x runs from the datum end to the far end, so a board drawn from either end is the same
    board. Its origin lies on the centre-line as drawn, at the datum end, on the wall edge.

    Attributes:
        length: of the centre-line as drawn.
        line_c: where in the thickness the line as drawn runs: 0 on the centre-line, else along a face.
        depth: across, along the frame's z.
        profile: (a, thickness) as put together without film; straight between, constant beyond.
        face_side: which face is the face side: +1 the one at +c, -1 the one at -c.
        flipped: True where it was drawn from the far end to the datum end.
        ends: form of the datum and the far end where nothing else decides it.
        scribe: extra left at the datum and the far end.
        inside: the side of a frame's inside in this frame, +1 or -1 of c; 0 for none.
        frame_name: the job's `[[frame]]` it belongs to, "" for none.
        planing: what is planed off each face and edge of its blank.
        cross_plies: whether it is of plywood: about half of its grain runs across it.
        species: of its timber, as the job has it.
        path, index: its table in the job file, and its number in a row or frame.
    """

    name: str
    timber: str
    frame: Frame
    length: float
    depth: float
    profile: Profile
    line_c: float = 0.0
    lies: Literal["across", "flat"] = "across"
    face_side: int = 1
    flipped: bool = False
    ends: tuple[EndForm, EndForm] = ("square", "square")
    scribe: tuple[float, float] = (0.0, 0.0)
    inside: int = 0
    frame_name: str = ""
    planing: float = 0.0
    cross_plies: bool = False
    species: str = ""
    path: Path = ()
    index: int = 1

    def thickness_at(self, a: float) -> float:
        """Thickness at distance `a` from the datum end, as put together without film."""
        return thickness_along(self.profile, a)

    @property
    def thickest(self) -> float:
        """The greatest thickness along the board."""
        return self.profile[0][1] if len(self.profile) == 1 else max(thickness for _, thickness in self.profile)

    @property
    def back(self) -> float:
        """Where its body starts, out of the wall."""
        return self.frame.origin[2] - (self.thickest / 2 if self.lies == "flat" else 0.0)

    @property
    def front(self) -> float:
        """Where its body ends, out of the wall."""
        return self.back + (self.thickest if self.lies == "flat" else self.depth)

    @property
    def angle(self) -> float:
        """Direction from datum end to far end in the elevation, anticlockwise from level."""
        return math.degrees(math.atan2(self.frame.x[1], self.frame.x[0]))


@dataclass(frozen=True, slots=True, kw_only=True)
class Side:
    """One body's share in a meeting, in that body's own frame.

    Attributes:
        body: a board's name, "wall" or "floor".
        touch: with what it touches.
        at: distance along the centre-line from the datum end to where the two centre-lines meet.
        turn: from this body's x to the other's x, degrees anticlockwise about this body's z, in
            (-180, 180]; 0 for a wall or floor.
        end: which end takes part where the touch is END (DATUM_END, FAR_END), else 0.
        face: which face is touched where the touch is FACE (+1 or -1 of c), else 0.
        thickness: here, as put together without film.
        thickest: of the whole body, so that cuts through it run out everywhere.
        film: dry finish on one face of its own here, with which it enters the other.
        wall_film: dry finish on one wall of what is cut into it here, between which the other enters.
        back, front: its own body out of the wall, in the world.
        before, after: what lies between `at` and the datum end, and the far end, of its drawn line.
        opposed: True where another board ends on the other face at the same place.
        facing: from where to where out of the wall the boards that do so reach; None where none does.
        species: of its timber.
        path: its table in the job file.
    """

    body: str
    touch: Touch
    at: float
    turn: float
    end: int = 0
    face: int = 0
    thickness: float
    thickest: float
    film: float = 0.0
    wall_film: float = 0.0
    back: float
    front: float
    before: float
    after: float
    opposed: bool = False
    facing: tuple[float, float] | None = None
    species: str = ""
    path: Path = ()


def films(enters: Side, receives: Side) -> float:
    """Dry finish between two walls in all: on both faces of what enters, and on both walls."""
    return 2 * enters.film + 2 * receives.wall_film


@dataclass(frozen=True, slots=True, kw_only=True)
class Meeting:
    """Where two bodies touch; its key, the pair of names, is the joint's identity.

    The key is in the order of names and says nothing of who is who: for an end on a face side `a` is the
    board that ends, for a flat board crossed by another `a` is the other, at a corner `a` comes first in
    the file; else the sides stand in the key's order. The frame has its origin where the centre-lines meet,
    in the middle of the common depth; its x along side `b`, z out of the wall.

    Attributes:
        angle: between the two bodies, in (0, 90].
        places: along side a from its datum end, where a fixing goes through it; empty for boards.
        studs_off: of a fixing in a wall of studs: how far each place is from the nearest stud's centre.
        anchor: of a fixing whose anchor the job describes; else None.
        wide: of a board lying flat that is crossed, its width on the wall; else 0.
        askew: of two boards in line, how far their middles run out of one line here; else 0.
        path: of the `[[fixing]]`; empty for boards.
    """

    key: Pair
    form: Form
    a: Side
    b: Side
    angle: float
    frame: Frame
    places: tuple[float, ...] = ()
    studs_off: tuple[float, ...] = ()
    anchor: Anchor | None = None
    wide: float = 0.0
    askew: float = 0.0
    path: Path = ()

    @property
    def overlap(self) -> tuple[float, float]:
        """The common depth: (greatest back, least front)."""
        return max(self.a.back, self.b.back), min(self.a.front, self.b.front)

    def side(self, body: str) -> Side:
        """The side of that body."""
        return self.a if self.a.body == body else self.b

    def other(self, body: str) -> Side:
        """The side of the other body."""
        return self.b if self.a.body == body else self.a


@dataclass(frozen=True, slots=True, kw_only=True)
class Motion:
    """One straight way for a body to leave the other.

    Attributes:
        body: the one that moves.
        direction: unit vector in the world.
        free: distance after which nothing of the joint is in the way; 0 where two faces only touch, which may
            then part in any direction that does not press them together.
        slack: how far it may stray sideways over that distance, every way across it: the joint's play there, of both
            sides together.
        within: of one with nothing to come free, normals of more faces that must not be pressed either: it parts in
            the directions that lead away from all of them, or along them. Several motions are ways to choose from; what
            must hold at once, as at a lap or a rebate, is one motion.
    """

    body: str
    direction: Vec
    free: float
    slack: float = 0.0
    within: tuple[Vec, ...] = ()

    def __post_init__(self) -> None:
        assert not self.within or not self.free, "only where nothing need come free do faces alone decide"


@dataclass(frozen=True, slots=True, kw_only=True)
class Making:
    """One way in which a joint can be made.

    Attributes:
        name: tells it from the joint's other makings, in words ("long shelf opens to the front").
        front: the board whose slot opens to the front; "" where the word has no meaning.
        motions: the ways apart.
        open_notch: length of slot left open at the front, 0 for none.
        rank: of makings that leave no notch: lower is plainer to look at.
        word: key and value of a `[[joint]]` that ask for this making, where it is not `front`.
    """

    name: Words
    front: str = ""
    motions: tuple[Motion, ...]
    open_notch: float = 0.0
    rank: int = 0
    word: tuple[str, str] = ("", "")


@dataclass(frozen=True, slots=True, kw_only=True)
class Ease:
    """Another way of making a joint that lets it come apart more freely.

    Attributes:
        says: as a button would: "open the housing in shelf for upright to the wall".
        options: what a `[[joint]]` must say for it.
        making: how it is then made.
    """

    says: Words
    options: tuple[tuple[str, str], ...]
    making: Making


@dataclass(frozen=True, slots=True, kw_only=True)
class Judgement:
    """Whether a kind can serve a meeting, how well against others (lower is better), and why.

    Attributes:
        reasons: of a refusal, the one that the figures are of first.
        remedy: what to do instead; "" for turning a board, or another kind.
        found, limit: the figures compared, in `unit`; None where nothing is measured.
        source: where the limit comes from.
        cures: changes of the joint's own options, by `kinds.asked`, that would make it possible.
    """

    possible: bool
    rank: int = 0
    reasons: tuple[Words, ...] = ()
    remedy: Words = ""
    found: float | None = None
    limit: float | None = None
    unit: str = ""
    source: str = ""
    cures: tuple[Cure, ...] = ()

    @classmethod
    def refused(cls, reason: Words, **more: Any) -> "Judgement":
        """That it cannot be made so; `more` as the attributes have it."""
        return cls(possible=False, reasons=(reason,), **more)


@dataclass(frozen=True, slots=True, kw_only=True)
class Mating:
    """A pair of walls that slide past each other: one thing that can bind, be measured, be made.

    Attributes:
        key: "slot in long shelf for raking 1".
        cut_in, takes: the board with the slot, the board that enters it.
        normal: across the walls, in the frame of `cut_in`.
        nominal: width between the walls.
        play: width less what enters; `play_from` names the option that gives it ("clearance"), so that a study can
            say where that is written. It is "as cut" of what is in the wood.
        closes: whether they are to close on what enters when it is home, as a taper does: no play is too little.
    """

    key: str
    cut_in: str
    takes: str
    normal: Vec
    nominal: float
    play: float
    play_from: str
    closes: bool = False


Stand: TypeAlias = Literal["line", "face", "shoulder", "corner"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Figures:
    """What a maker reads of a cut; None where the word has no meaning for it.

    Attributes:
        width: across the walls, as what it is made up of; of an end what goes in, or the length of its cut.
        on_face: the same on the face it is cut from.
        depth: from the face or edge it opens to, as what it is made up of; of an end that goes in, how far past what
            it stands to, square to that face however it is raked: in one term, or how deep it is let in less what is
            left free (8 deep less 1), as sheets print it. No third term.
        opens: where it opens to; of FACE see `Cut.face`.
        stops: the edges that it does not reach.
        between_faces: the angle between the two boards, 90 when square.
        lean: off square, 0 when square; signed: positive where the walls lean to the far end at +c.
        note: how its size came about where that is no sum: what an end is cut to, how many holes.
        stands: what an end stands to, from which its length counts.
        reach: of an end that is cut so over part of the width only: from and to across the board, out of its wall
            edge; beyond, it is square at its long point. None over the whole width.
        points: of an end that is mitred or bevelled, where it meets the faces at +c and at -c, along the board in
            its own frame, within `reach`; None where the views tell.
    """

    width: Sum | None = None
    on_face: float | None = None
    depth: Sum | None = None
    opens: Opens
    stops: tuple[Stop, ...] = ()
    between_faces: float = 90.0
    lean: float = 0.0
    note: Words = ""
    stands: Stand = "line"
    reach: tuple[float, float] | None = None
    points: tuple[float, float] | None = None

    @property
    def across(self) -> float | None:
        """The width as cuts hold lengths."""
        return None if self.width is None else length(self.width.total)

    @property
    def deep(self) -> float | None:
        """The depth as cuts hold lengths."""
        return None if self.depth is None else length(self.depth.total)

    @property
    def stop(self) -> float:
        """How far it stops from the front edge, else from the wall edge; 0 where it reaches both."""
        if not self.stops:
            return 0.0
        first = min(self.stops, key=lambda stop: stop.edge is not Opens.FRONT)
        return length(first.size.total)

    @property
    def fitted(self) -> tuple[Word, float] | None:
        """What of the board that enters the width is fitted to, and by how much it is wider; None for what is not."""
        first = None if self.width is None or not self.width.of else self.width.terms[0]
        if self.width is None or first is None or first.word not in OF_A_BOARD:
            return None
        return first.word, length(self.width.total - first.mm)

    @property
    def goes_in(self) -> bool:
        """Of an end, whether it goes into what it stands to; one that only stands against a face does not."""
        return self.stands in ("face", "shoulder") and self.depth is not None

    def how(self, units: LengthUnit, *, named: bool = False) -> Words:
        """How its governing size came about: of an end that goes in its depth, else its width, else its depth.

        Figures add up as they are printed in these units; the board is named where asked.
        """
        if self.note:
            return self.note
        if self.goes_in and self.depth is not None:
            return _goes_in(self.depth, self.stands, units)
        return self.width_how(units, named=named) or self.depth_how(units, named=named)

    def width_how(self, units: LengthUnit, *, named: bool = False) -> Words:
        """How the width came about; "" where it is made up of nothing."""
        if self.width is None:
            return ""
        whole = rounded(self.across or 0.0, Fineness.WIDTH.mm) if units == "mm" else None  # as widths are printed
        return self.width.sentence(Fineness.WIDTH, units, named=named, whole=whole)

    def depth_how(self, units: LengthUnit, *, named: bool = False) -> Words:
        """How the depth came about; "" where it is made up of nothing."""
        return "" if self.depth is None else placed(self.depth, units, named=named)


def placed(size: Sum, units: LengthUnit, *, named: bool = False) -> Words:
    """How a depth or a place came about, as those are printed: its terms come to its total."""
    alone = rounded(length(size.total), Fineness.PLACE.mm)  # half-way as it is rounded where it stands alone
    whole = alone if units == "mm" else None
    return size.sentence(Fineness.PLACE, units, named=named, whole=whole)


def _goes_in(deep: Sum, stands: Stand, units: LengthUnit) -> Sentence:
    """How far an end goes in, past what it stands to."""
    total, figures = deep.printed(Fineness.PLACE.size(units))
    goes, *less = [Length(abs(figure)) for figure in (total, *figures)]
    if stands == "face":
        return say("to the face of {} + {} deep", Name(deep.of), goes)
    if len(less) == 1:
        return say("between shoulders + {} that goes in", goes)
    return say("between shoulders + {} that goes in ({} deep less {})", goes, *less)


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """One thing taken from a board.

    Attributes:
        key: unique in the piece and steady: "slot in long shelf for raking 1"; nobody takes it apart.
        name: what tells it from other cuts of its joint in the board, where there may be several: "bore 1".
        body: the board.
        form: what sort of cut it is, for whoever must know.
        word: what it is called, by the trade's word: "raked slot", "socket", "dowel holes"; shown, never compared.
        noun: one of it by a plain noun: "slot", "hole"; of an end what goes in: "tail"; left out: as `word`.
        takes: the body that enters, "" for none.
        joint: the joint it belongs to; None for a free end, and for what is in the wood and the job has no place for.
        end: DATUM_END or FAR_END where the cut makes that end, else 0.
        face: +1 or -1 of c where it is let into one face only, else 0.
        shapes: what is taken away, in the board's frame.
        clear: of a hole whose screw is driven from its mouth, what must be free before that; else 0.
        size_is: "FIXED", "FIT TO" (what `takes` names; of an end the wood that it stands to) or "LEAVE LONG".
        made: whether it is in the wood already: its shapes and figures are then as it was cut.
        says: the key as a sentence with its boards as names, for whoever tells of it; None where it names none.
    """

    key: str
    name: str = ""
    body: str
    form: CutForm
    word: str
    noun: str = ""
    takes: str = ""
    joint: Pair | None = None
    end: int = 0
    face: int = 0
    shapes: tuple[Shape, ...]
    clear: float = 0.0
    figures: Figures
    size_is: Literal["FIXED", "FIT TO", "LEAVE LONG"] = "FIXED"
    made: bool = False
    says: Sentence | None = None

    @property
    def plain(self) -> str:
        """One of it by its plain noun."""
        return self.noun or self.word

    @property
    def is_old(self) -> bool:
        """Whether it is in the wood and the job has no place for it."""
        return self.joint is None and not self.end


@dataclass(frozen=True, slots=True, kw_only=True)
class Gap:
    """How far apart a pair of facing surfaces lies when put together: for the clash check and the fit.

    Attributes:
        between: which two surfaces; what is told of glue and fit goes by it.
        size: the distance.
        count: how many such pairs the joint has.
    """

    between: Between
    size: float
    count: int = 1


class Bearing(StrEnum):
    """How a joint keeps a body from moving."""

    RESTS = "rests on"  # pressed together, and only so long
    SIDEWAYS = "holds sideways"  # between walls, or by pins: it can still be drawn off
    PULLS = "pulls"  # by glue, screws, keys


@dataclass(frozen=True, slots=True, kw_only=True)
class Carry:
    """What a joint carries: ways of the elevation in which one body cannot move against the other.

    The other is kept from moving the opposite way against the first by the same.

    Attributes:
        body, by: what is carried, and by what: a board, "wall" or "floor".
        ways: unit vectors in the world, each kept shut at every one of the places `at`.
        at: where it bears, in the world; two places apart keep it from turning too.
        glue: of a pull, whether glue on end grain is all that gives it.
    """

    how: Bearing
    body: str
    by: str
    ways: tuple[Vec, ...]
    at: tuple[Vec, ...]
    glue: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Strip:
    """What one thing that is made in the shop takes of a strip of wood, with what is lost around it.

    Attributes:
        along: of the strip's length, its grain; `sawn` whether a saw parts one from the next, and takes its kerf too.
        across, thick: the strip's width and thickness.
    """

    along: float
    across: float
    thick: float
    sawn: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Ware:
    """Something to buy or make for a joint.

    Attributes:
        what: the trade's word for one; `like` what it must be besides its size, "" for nothing.
        says: its size, as a list has it.
        asks: what else it must be, as whoever orders it asks for it; "" for nothing.
        count: how many.
        diameter, length: of a round thing; None where that is not its size.
        screw: as sold, where it is one.
        goes: "in" before the joint is closed, "driven" when it is, or "over" what is driven.
        in_mm: whether it is sold by the millimetre everywhere: its size is then told so in a job in inches too.
        strip: what it takes where it is made in the shop; None of what is bought.
    """

    what: str
    like: str = ""
    says: Words
    asks: Words = ""
    count: int
    diameter: float | None = None
    length: float | None = None
    screw: Screw | None = None
    goes: Literal["in", "driven", "over"] = "in"
    in_mm: bool = False
    strip: Strip | None = None

    @property
    def name(self) -> str:
        """What it is called in a list."""
        return f"{self.what}, {self.like}" if self.like else self.what


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint(Generic[OptionsT_co]):
    """A meeting as it will be made.

    Attributes:
        key: of its meeting.
        options: of its kind, worked out for this meeting; what the job says of them is `given`. Who does not know the
            kind asks the kind, not its options.
        making: the way chosen.
        glued: whether it is.
        hidden_mm2: surface of each body that no finish reaches, by board.
        not_checked: what could not be looked at for want of a figure.
    """

    key: Pair
    kind: str
    meeting: Meeting
    options: OptionsT_co
    making: Making
    glued: bool = False
    cuts: tuple[Cut, ...]
    gaps: tuple[Gap, ...]
    hidden_mm2: tuple[tuple[str, float], ...] = ()
    findings: tuple[Finding, ...] = ()
    not_checked: tuple[NotChecked, ...] = ()

    @property
    def let_in(self) -> tuple[float, ...]:
        """How deep an end is let into the other board's face; nothing for holes, nor for slots that run out."""
        return tuple(
            cut.figures.deep
            for cut in self.cuts
            if cut.takes in self.key
            and cut.figures.opens is Opens.FACE
            and cut.figures.deep
            and cut.form is not CutForm.BORE
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Decision:
    """Something decided before cutting, with who decided it and why.

    Attributes:
        about: what was decided ("which slot opens to the front").
        key: the joint, or the board twice.
        value: what was chosen.
        decider: "already made", "maker" or "chosen".
        reason: a sentence.
        others: what else was possible.
        keep: the change of the job file that makes it the maker's word.
    """

    about: str
    key: Pair
    value: Words
    decider: Decider
    reason: Words
    others: tuple[Words, ...] = ()
    keep: Edit | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Blank:
    """The board as sawn before its joints.

    Attributes:
        start, end: in the board's frame, trim and scribe included.
        length, width, thickness: as ordered from or cut to.
    """

    start: float
    end: float
    width: float
    thickness: float

    @property
    def length(self) -> float:
        """Along the grain."""
        return self.end - self.start


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """A board with all its cuts.

    Attributes:
        mark: the letter on it.
        long, short: (a at the datum end, a at the far end) of the long and the short points.
        cuts: ends and joints, from the datum end on.
    """

    board: Board
    mark: str
    blank: Blank
    long: tuple[float, float]
    short: tuple[float, float]
    cuts: tuple[Cut, ...]

    @property
    def id(self) -> str:
        """A part is named as its board."""
        return self.board.name

    @property
    def length(self) -> float:
        """Over the long points."""
        return self.long[1] - self.long[0]

    @property
    def zero(self) -> float:
        """Where sheets count from: the long point of the datum end."""
        return self.long[0]


@dataclass(frozen=True)
class Piece:
    """The whole piece, as cut. `frame` and `parent` are kept for doors, drawers and several pieces in one job.

    Attributes:
        checked: the questions that its checks answered, by name.
        not_checked: what they left open.
        job: what it was made from, boards longer than their stock taken apart; None for a piece made by hand.
        whole: the board of the job file that each member of a divided board is part of.
        units: what is glued up first, a frame with the boards it is closed round.
        history: what each board goes through, and what lies between two walls when they meet.
        to_suit: joints with an end that is not cut yet and lies where other cuts in its board bring it.
        recorded: whether something is recorded as cut, or what is recorded cannot be read.
    """

    boards: tuple[Board, ...]
    meetings: tuple[Meeting, ...]
    joints: tuple[Joint, ...]
    parts: tuple[Part, ...]
    decisions: tuple[Decision, ...]
    findings: tuple[Finding, ...]
    checked: tuple[str, ...] = ()
    not_checked: tuple[NotChecked, ...] = ()
    frame: Frame | None = None
    parent: str | None = None
    job: Job | None = field(default=None, compare=False, repr=False)
    whole: Mapping[str, str] = field(default_factory=dict, compare=False)
    units: tuple[Unit, ...] = ()
    history: History = field(default=UNKNOWN, compare=False, repr=False)
    to_suit: frozenset[Pair] = frozenset()
    recorded: bool = False

    @property
    def in_several(self) -> bool:
        """Whether it is of more than one board: of a single one nobody asks how it goes together."""
        return len(self.boards) > 1

    @property
    def is_fixed(self) -> bool:
        """Whether the job asks for fixings to the wall, made or not."""
        return self.job is not None and bool(self.job.fixings)

    @cached_property
    def part_by_name(self) -> Mapping[str, Part]:
        """Parts by their board's name."""
        return {part.id: part for part in self.parts}

    @cached_property
    def board_by_name(self) -> Mapping[str, Board]:
        """Boards by name."""
        return {board.name: board for board in self.boards}

    @cached_property
    def joint_by_key(self) -> Mapping[Pair, Joint]:
        """Joints by their pair."""
        return {joint.key: joint for joint in self.joints}
