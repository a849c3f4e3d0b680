"""What a hand may do: where it snaps, how a move may be written, the card of what is chosen."""

from dataclasses import dataclass
from typing import Literal

from ...geometry.frames import Vec2
from ...places import Pair, Path
from .state import CureShown


@dataclass(frozen=True, slots=True, kw_only=True)
class Handle:
    """A point of the target that may snap."""

    at: Vec2
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """A place to snap to.

    Attributes:
        snap: "x" or "y": that coordinate of the handle comes to `at`; "line": the handle comes onto `guide`;
            "angle": the line through `pivot` and the handle comes to a multiple of `at` degrees.
        handle: index of the handle that snaps.
        says: why, as the page shows it: "level with shelf 2".
        guide: what may be drawn to show it.
        rank: lower wins where two are as near.
        place: the same as the job file writes it, `top("shelf 2")`, sent back as `MeantSent.place`; "" where only a
            figure can be written.
        axis: of the coordinate that would say so; "" with no place.
    """

    snap: Literal["x", "y", "line", "angle"]
    handle: int
    at: float
    says: str
    guide: tuple[Vec2, ...]
    rank: int
    pivot: Vec2 | None = None
    place: str = ""
    axis: Literal["", "x", "y"] = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """One way in which the move may be written; the first is taken unless another is chosen.

    Attributes:
        says: "change width: 9 boards follow".
        boards: those that move.
        axis: the only direction it can serve; "" for both.
        named: whether a name is to be typed for it.
        relates: whether it writes the place that was snapped to; else a figure.
    """

    id: str
    says: str
    boards: tuple[str, ...]
    axis: Literal["", "x", "y"] = ""
    named: bool = False
    relates: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Bay:
    """A clear opening: between boards, or of a wall on which nothing stands.

    Attributes:
        at: a point in it, by which it is asked for.
        wide, high: clear, at its middle.
    """

    outline: tuple[Vec2, ...]
    at: Vec2
    wide: float
    high: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Bays:
    """All bays, the largest first."""

    revision: int
    bays: tuple[Bay, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Gives:
    """A side of a bay: the board that would move, "" for the wall; `why` it cannot, "" where it can."""

    board: str
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """A bay of a row of bays: from where to where it is clear, along the row."""

    start: float
    end: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Opening:
    """A clear opening of a bay, and the bays that follow one another in its direction.

    Attributes:
        axis: "x" where it is measured level, "y" plumb.
        line: where on the other axis.
        clear: between the faces.
        square: the same square to boards that lean alike; None where they do not lean.
        low, high: what bounds it, "" for the wall.
        gives: which side moves when another figure is typed, the first one that can where none is named.
        row: the bays that follow one another with a board between, `here` which of them it is.
        equal: what makes it and its neighbours equal; None where they are, or nothing can move.
        moves: which boards move by that, in words.
    """

    axis: Literal["x", "y"]
    line: float
    clear: float
    square: float | None
    low: str
    high: str
    gives: tuple[Gives, ...]
    row: tuple[Stretch, ...]
    here: int
    equal: CureShown | None
    moves: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Together:
    """Bays that are chosen together.

    Attributes:
        bays: they, in their order, and those between them.
        at: where on the drawing is said what may be done with them.
        equal: what makes them equal and no others; None where nothing does.
        moves: which boards move by that, in words.
        why: there is nothing to do, in words.
    """

    bays: tuple[Bay, ...]
    at: Vec2
    equal: CureShown | None
    moves: str
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BayCard:
    """A bay that is chosen.

    Attributes:
        openings: its width, then its height.
        puts: the boards that may be put in it, half-way or at a third.
        together: with others that are chosen too; None where it is chosen alone.
    """

    bay: Bay
    openings: tuple[Opening, ...]
    puts: tuple[CureShown, ...]
    together: Together | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class BayFound:
    """The bay that a point lies in; None where boards do not close one all round."""

    revision: int
    card: BayCard | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Gripped:
    """What the hand can do with what it gripped.

    Attributes:
        along: a unit vector where it moves along one direction only; None where it is free.
        step: what a move is rounded to where nothing snaps.
        follow: joints that follow.
        bays: where a row may be laid, of something new alone.
    """

    revision: int
    handles: tuple[Handle, ...]
    candidates: tuple[Candidate, ...]
    offers: tuple[Offer, ...]
    along: Vec2 | None
    step: float
    follow: tuple[Pair, ...]
    bays: tuple[Bay, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Offers:
    """The ways in which a figure that is worked out may be written, the usual one first."""

    revision: int
    offers: tuple[Offer, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """One value that may be chosen; `why` says why not where it is not possible, or what it brings."""

    value: str
    possible: bool
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One value of a card.

    Attributes:
        key: what `TypedSent.key` must say to change it.
        label: in words.
        written: as it stands in the file, "" where it does not.
        value: what holds, worked out: mm for a length; None where it is not one value.
        shown: the same as text for reading.
        unit: "mm" for a length, "deg" for an angle, else "".
        default: what holds when nothing is written, "" where something must be.
        sentence: what it means.
        input: how it is typed.
        choices: where one of several may be chosen.
        path: of the value in the file, where it stands.
        from_: "" for its own word, else where it comes from: "default", "[joints]", "exception" ...
        derived: what is worked out and can be typed all the same, sent as `DerivedSent.figure`; `beside` with it.
        after: what stands behind the value: "right of plumb".
        needed: it must be written.
        names: of a list of names those that it has.
    """

    key: Path
    label: str
    written: str
    value: float | str | bool | None
    shown: str
    unit: str
    default: str
    sentence: str
    input: Literal["length", "text", "number", "yes or no", "choice", "board", "timber", "list", "name", "angle"]
    choices: tuple[Choice, ...] = ()
    path: Path | None = None
    from_: str = ""
    derived: Literal["", "rake", "length", "along", "clear", "row clear", "row centres", "row thick"] = ""
    beside: str = ""
    after: str = ""
    needed: bool = False
    names: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Listed:
    """One table of those that a job may have many of.

    Attributes:
        path: of the table, which taking it out is asked with.
        name: its own, else what is said of it: "fixing of upright 1", "door 2".
        line: of its header in the file, from 1.
        rows: its values; their keys are paths from the file's top.
    """

    path: Path
    name: str
    line: int
    rows: tuple[Row, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Listing:
    """A sort of table that a job may have many of, with those that it has.

    Attributes:
        word: of its header, which adding one is asked with.
        one, several: in words: "an eye", "eyes".
        says: what it is.
        there: those of the job, in the file's order.
        blank: the values of one that is to be added; their keys are single.
    """

    word: str
    one: str
    several: str
    says: str
    there: tuple[Listed, ...]
    blank: tuple[Row, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CutMarked:
    """A cut on a board's strip.

    Attributes:
        number: as its sheet numbers it; 0 where it has none.
        at: where it is marked, from the datum end: the wall nearer to it, of a bore its axis.
        on: the surface that it is marked on, in words: the first of the face side, the other face, the edges.
        hidden: it does not break the face side; `area` is then what it takes behind it.
        area: loops along the board from the datum end and across it from the wall edge.
    """

    key: str
    number: int
    joint: Pair | None
    at: float
    on: str
    bored: bool
    hidden: bool
    area: tuple[tuple[Vec2, ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class FaceShown:
    """A board's face side, its datum end at the left, as its sheet has it.

    Attributes:
        face, up, datum: the face, the edge above and the end at the left, in words.
        turned: whether the front edge is above, and so loops stand on their heads.
        length: of the face, from the datum end.
        outline: loops as those of the cuts.
    """

    face: str
    up: str
    datum: str
    turned: bool
    length: float
    depth: float
    outline: tuple[tuple[Vec2, ...], ...]
    cuts: tuple[CutMarked, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SectionWood:
    """What is left of a board where it is cut through, in the job's mm.

    Attributes:
        thick: its own thickness in words, which no width of a cut is.
    """

    board: str
    areas: tuple[tuple[Vec2, ...], ...]
    thick: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SectionWidth:
    """The width of a cut between its walls, and where it may be drawn.

    Attributes:
        board: which has the cut.
        takes: the board that goes into it.
    """

    start: Vec2
    end: Vec2
    says: str
    board: str
    takes: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SectionShown:
    """A joint cut through, seen from the front.

    Attributes:
        window: left, foot, right, head of what is seen, mm.
        at: how far from the wall it is cut, mm.
        says: how it is cut and seen, where not so.
    """

    window: tuple[float, float, float, float]
    at: float
    wood: tuple[SectionWood, ...]
    widths: tuple[SectionWidth, ...]
    says: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class CutShown:
    """A cut of a board, which can be ticked as done.

    Attributes:
        key: what it is called, and goes by.
        says: its figures in a line; of a cut that is made those measured in the wood.
        made: it is in the wood already.
        accepted: the maker's word that it may stay, though the job asks for something else.
    """

    board: str
    key: str
    says: str
    made: bool
    accepted: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Card:
    """The card of what is chosen.

    Attributes:
        title: its name, and `says` one line of what it is.
        figures: what was worked out of it, as word and text; nothing of it can be typed.
        joints: pairs that belong to it.
        users: where it is referred to, as paths.
        cuts: of a board, or of a joint or fixing in all its boards.
        strip: of a board, its face side.
        section: of a joint between two boards.
        board: of which the figures that are worked out are asked; "" for that of the title.
        listings: of the job, the tables that it may have many of.
    """

    revision: int
    what: Literal["job", "board", "row", "frame", "joint", "fixing"]
    title: str
    says: str
    rows: tuple[Row, ...]
    figures: tuple[tuple[str, str], ...]
    joints: tuple[Pair, ...]
    users: tuple[Path, ...]
    cuts: tuple[CutShown, ...] = ()
    strip: FaceShown | None = None
    section: SectionShown | None = None
    board: str = ""
    listings: tuple[Listing, ...] = ()
