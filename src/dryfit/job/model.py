"""What the client wants, as read from a job file: every length in mm, every angle in degrees.

These are plain, frozen facts with no rule of joinery in them. Boards of a `count` stand here one by one,
frames as chains of boards; what a value was in the file is found again through `path`.
"""

from collections.abc import Container, Mapping
from dataclasses import dataclass, field
from typing import Any, Literal, TypeAlias

from ..lengths import LengthUnit
from ..places import Pair, Path
from ..trade.anchors import Anchor
from .options import in_mm

Point: TypeAlias = tuple[float, float]
EndForm: TypeAlias = Literal["square", "level", "plumb"]
LineIs: TypeAlias = Literal["centre", "left face", "right face"]
When: TypeAlias = Literal["before glue", "after glue", "on site", "none"]  # its coats go on
Turn: TypeAlias = Literal["first", "last"] | int  # in the order on the wall
Zones: TypeAlias = Literal["masked", "coated", "walls masked"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Timber:
    """One `[timber.NAME]`.

    Attributes:
        species: as written; looked up in the trade's table when figures are asked for.
        thickness: nominal, as ordered.
        measured: once it is in the shop; None before.
        nominal: by which it is sold, where that is not `thickness`; None where it is not said.
        panel: of the panel or sheet that it is sold by, along the grain and across; None where it is not said.
        longest: stock there is of it; None where any length can be had.
        planing: what planing takes off each face and edge of the blank; 0 where it is bought as finished.
    """

    name: str
    species: str
    form: str
    thickness: float
    measured: float | None = None
    nominal: float | None = None
    panel: tuple[float, float] | None = None
    longest: float | None = None
    planing: float = 0.0
    path: Path = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardSpec:
    """One board as typed; in the job's words and directions, not yet set out.

    Attributes:
        line: from start to end, in the elevation (x along the wall, y up).
        depth: across the board, out of the wall; for a board lying flat its `width` on the wall.
        ends: form asked for at the line's start and end; None where the default holds.
        scribe: extra left at the line's start and end.
        thickness_at: (distance from the line's start, thickness), sorted; empty where one thickness holds.
        splice_at: where the maker divides it, from the line's start; empty where it is left to be decided.
        midway: thickness by half of which a line along a face lies off the centre-line; None: that at the
            middle of the length. A member of a divided board has its whole's.
        frame: name of the frame whose board it is; "" for none.
        inside: for a frame's board, the side of its line (drawn direction) on which the inside lies:
            +1 left, -1 right; 0 for no frame's board.
        when: its coats go on, as the nearest table says that speaks of it (board, frame, unit); None where none does.
        place: in the order on the wall; None where that is left to be settled, or its unit's.
        path: of its table (`("board", 3)`, `("frame", 0)`); `index` is i for a row, side for a frame.
    """

    name: str
    timber: str
    line: tuple[Point, Point]
    line_is: LineIs = "centre"
    depth: float
    back: float = 0.0
    lies: Literal["across", "flat"] = "across"
    ends: tuple[EndForm | None, EndForm | None] = (None, None)
    scribe: tuple[float, float] = (0.0, 0.0)
    thickness_at: tuple[tuple[float, float], ...] = ()
    splice_at: tuple[float, ...] = ()
    midway: float | None = None
    when: When | None = None
    place: Turn | None = None
    frame: str = ""
    inside: int = 0
    path: Path = ()
    index: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class FrameSpec:
    """One `[[frame]]`: its boards, in the order of its points, stand in `Job.boards`."""

    name: str
    boards: tuple[str, ...]
    points: tuple[Point, ...]
    closed: bool
    size: Literal["outside", "inside", "centre"]
    place: Turn | None = None
    path: Path = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class JointSpec:
    """One `[[joint]]`: what is asked of the joint between two boards.

    Attributes:
        between: names as written, in the file's order.
        kind: "" where the default for such a meeting holds.
        front: the board whose slot opens to the front, "" where it is left to be settled.
        options: what else the table says, as read (lengths still as written).
        path: of its table.
    """

    between: Pair
    kind: str = ""
    front: str = ""
    options: Mapping[str, object] = field(default_factory=dict)
    path: Path = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class JointRules:
    """The `[joints]` table: which kind for which meeting, and what holds for all.

    Attributes:
        in_line: of two ends in line; `in_line_named` whether the job names it.
        clearance: across the walls; None where each kind's own default holds.
        kinds: `[joints."KIND"]` as read, by kind.
    """

    crossing: str = "cross halving"
    end_on_face: str = "housing"
    corner: str = "mitre"
    in_line: str = "splice"
    in_line_named: bool = False
    clearance: float | None = None
    kinds: Mapping[str, Mapping[str, object]] = field(default_factory=dict)

    def options_of(self, kind: str, known: Container[str]) -> Mapping[str, object]:
        """What holds for all joints of a kind, as written: what is said for all kinds that have it, then its own.

        Args:
            known: names of the options that the kind has.
        """
        shared = {} if self.clearance is None or "clearance" not in known else {"clearance": in_mm(self.clearance)}
        return {**shared, **self.kinds.get(kind, {})}


@dataclass(frozen=True, slots=True, kw_only=True)
class Finish:
    """The `[finish]` table.

    Attributes:
        coats: how many; 0 without a finish.
        film: dry thickness of one coat on one face.
        sanded: taken off each face by sanding, after the thickness was measured.
        when: they go on, of every board that does not say otherwise; None where the job does not say.
        coats_before: of the coats of a board that is coated before glue, those that go on then; the rest after it.
        joint_zones: "masked" keeps film off the places where boards enter each other, "walls masked" off the walls of
            what is cut into them alone.
        coverage: what a litre covers, in m2, one coat; None where the job does not say.
    """

    system: str = ""
    coats: int = 0
    film: float = 0.0
    sanded: float = 0.0
    when: When | None = None
    coats_before: int | None = None
    joint_zones: Zones = "masked"
    coverage: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Wall:
    """The `[wall]` table: what the piece stands at or hangs on.

    Attributes:
        lining, hollow, void: of the wall: what hides its structure, its worst gap behind a board, and what is free
            behind the lining; None where it is not said, which is never 0.
        hung: True where nothing stands on the floor.
        left, right, ceiling: where the room ends, for ends that stand to it; None where it is not said.
        studs: centres along the wall.
    """

    kind: str = ""
    lining: float | None = None
    hollow: float | None = None
    void: float | None = None
    studs: tuple[float, ...] = ()
    hung: bool = False
    left: float | None = None
    right: float | None = None
    ceiling: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Unit:
    """One `[[unit]]`: boards glued up in the shop and carried as one; `boards` with frames taken apart.

    Attributes:
        place: in the order on the wall; None where that is left to be settled.
        inside: of its boards, those that a frame is closed round though no `[[unit]]` says so.
        mass_kg: as weighed; None where it was not.
    """

    name: str
    boards: tuple[str, ...]
    place: Turn | None = None
    path: Path = ()
    inside: tuple[str, ...] = ()
    mass_kg: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Fixing:
    """One `[[fixing]]`: what holds a board to the wall, `at` along its line from the line's start."""

    name: str
    board: str
    kind: str
    at: tuple[float, ...]
    options: Mapping[str, object] = field(default_factory=dict)
    path: Path = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Load:
    """One `[[load]]`, as far as it can be understood: what stands on a board.

    Attributes:
        board: a board or a frame, "" where none is named.
        kind: of things, such as "records"; "" where it is not said.
        kg_per_m: mass on a metre of the board; None where it is not a number above 0.
    """

    board: str = ""
    kind: str = ""
    kg_per_m: float | None = None
    path: Path = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Dangling:
    """A reference to a board that is not there; `nearest` is a name it may stand for, "" for none."""

    path: Path
    name: str
    nearest: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """A whole job, read and checked.

    Attributes:
        file: its name as given, for messages and title blocks.
        text: the file as read.
        state: first eight hex digits of the text's SHA-256: the state that papers carry.
        date: as written (ISO), "" where the sheets leave a blank.
        measures: the named dimensions, in mm.
        loads: what stands on the boards.
        anchors: the `[anchor.NAME]` tables.
        tables: those that studies own, by their word: each as its model, its lengths in mm.
        dangling: references to boards that are not there, found while reading.
    """

    file: str
    text: str
    state: str
    title: str
    client: str = ""
    date: str = ""
    units: LengthUnit = "mm"
    measures: Mapping[str, float] = field(default_factory=dict)
    timbers: Mapping[str, Timber] = field(default_factory=dict)
    joints: JointRules = field(default_factory=JointRules)
    joint_specs: tuple[JointSpec, ...] = ()
    finish: Finish = field(default_factory=Finish)
    boards: tuple[BoardSpec, ...] = ()
    frames: tuple[FrameSpec, ...] = ()
    units_glued: tuple[Unit, ...] = ()
    wall: Wall = field(default_factory=Wall)
    fixings: tuple[Fixing, ...] = ()
    loads: tuple[Load, ...] = ()
    anchors: Mapping[str, Anchor] = field(default_factory=dict)
    tables: Mapping[str, tuple[Any, ...]] = field(default_factory=dict)
    dangling: tuple[Dangling, ...] = ()
