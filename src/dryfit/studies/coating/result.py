"""What is coated when: areas by face and by stage, how much it takes, and what is done on which day."""

from dataclasses import dataclass
from typing import Literal, TypeAlias

from ...geometry.frames import Vec2
from ...job.model import When
from ...piece.history import State
from ...places import Pair

FaceName: TypeAlias = Literal["face +", "face -", "front edge", "wall edge", "ends", "cuts"]
APART, WALK = 100.0, 600.0  # from board to board in a rack; round a unit, to walk (from memory)
Act: TypeAlias = Literal["sand", "mask", "coat", "glue", "carry", "put in", "live with"]


@dataclass(frozen=True, slots=True, kw_only=True)
class HiddenPlace:
    """Where another board lies on a face.

    Attributes:
        by: the other board.
        state: of the face there, when the two meet.
        outline: (along, across), from the datum end's long point; across from the wall edge, on an edge from the middle
            of the thickness.
    """

    by: str
    state: State
    outline: tuple[Vec2, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CoatedFace:
    """One face of a board, in m2; open, masked, coated and bare make up the whole.

    Attributes:
        board: whose.
        face: "face +" and "face -" as its sheet has them; "ends" with what is cut at them; "cuts" the walls and floors
            of what is cut into it. Ends are end grain and take up more: no figure of how much was found.
        called: of the two faces, as they lie: "upper", "left"; of others "".
        long, across: of the face as it is drawn; 0 of ends and cuts.
        m2: of all of it.
        open_m2: that no joint hides; `seen_m2` of it from the eyes, or from the front.
        masked_m2, coated_m2, bare_m2: of what joints hide, by how it is when they close; `glued_m2` of these together.
        places: where other boards lie on it; none of ends and cuts.
    """

    board: str
    face: FaceName
    called: str
    long: float
    across: float
    m2: float
    open_m2: float
    seen_m2: float
    masked_m2: float
    coated_m2: float
    bare_m2: float
    glued_m2: float
    places: tuple[HiddenPlace, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class JointCoats:
    """A joint as it closes: of its two boards, in the key's order, how they are there, and the film.

    Attributes:
        closes: "glued" in the shop, "put in" on site or dry.
        films: on a face that enters; `wall_films` on a wall that is cut.
        hidden_m2: of each board.
    """

    joint: Pair
    closes: Literal["glued", "put in"]
    glued: bool
    states: tuple[State, State]
    films: tuple[float, float]
    wall_films: tuple[float, float]
    hidden_m2: tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sanding:
    """What is sanded at a time.

    Attributes:
        between: two coats; else bare wood, before the first.
        grits: one after the other; `source` whose they are.
        m2: each grit goes over.
        discs: of 150, or sheets of their area, of each grit (from memory).
    """

    between: bool
    grits: tuple[int, ...]
    source: str
    m2: float
    discs: int


@dataclass(frozen=True, slots=True, kw_only=True)
class RackNeed:
    """What is wet at once.

    Attributes:
        pieces: boards, or units once they are glued up.
        longest, widest: of them.
        high: of a rack where boards lie flat over each other; 0 of units, which stand on the floor.
        floor_m2: that the rack or the units take; `flat_m2` where boards lie side by side instead.
    """

    when: When
    pieces: int
    longest: float
    widest: float
    high: float
    floor_m2: float
    flat_m2: float


@dataclass(frozen=True, slots=True, kw_only=True)
class FinishStep:
    """One thing that is done, as soon as it can be.

    Attributes:
        boards: it is done to.
        coat: its number, counted on each board from its first; 0 of what is no coat.
        hours: from the first thing that waits are counted from; None of what comes before, or where no figure is known.
        day: counted from 1; None as `hours`. `date` "" where the job does not say when it begins.
        grits: of what is sanded.
    """

    act: Act
    boards: tuple[str, ...]
    coat: int = 0
    hours: float | None = None
    day: int | None = None
    date: str = ""
    grits: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardCoats:
    """One board's coats.

    Attributes:
        when: they go on; None where nobody says.
        coats: how many, in all.
        open_m2: of its surface what no joint hides; `edges_m2` its two edges and ends, before joints are cut.
        coated_m2: of what joints hide, that is coated with it: it is bare wood or masked but for that.
        masked_m2: of what joints hide, that is masked off.
    """

    name: str
    when: When | None
    coats: int
    open_m2: float
    edges_m2: float
    coated_m2: float
    masked_m2: float


@dataclass(frozen=True, slots=True, kw_only=True)
class CoatingStage:
    """The coats that go on at one time.

    Attributes:
        when: that is.
        boards: that are coated then.
        coats: how many; of boards that differ, the most.
        m2: to be covered, each coat counted.
        litres: for them, with what is lost; None where nobody says how far a litre goes.
        next_h: until the last of them has dried as for another coat; `hard_h` until coated faces may press on each
            other or lie in plastic; both from the first coat; None where no figure is known.
    """

    when: When
    boards: tuple[str, ...]
    coats: int
    m2: float
    litres: float | None
    next_h: float | None
    hard_h: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Wait:
    """Hours in which nothing is done to the piece; they stand one after the other.

    Attributes:
        after: what it waits for: coats that go on then, or "glue".
        until: what is done next: "glued", "coated", "carried", "lived with".
        hours: from the first coat, or from the last clamp; None where no figure is known.
        dries: whether it is finish that dries, which takes twice as long where it is cold or damp.
    """

    after: When | Literal["glue"]
    until: Literal["glued", "coated", "carried", "lived with"]
    hours: float | None
    dries: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Coating:
    """All of it.

    Attributes:
        system: as the job names it.
        covers: m2 a litre, one coat; `covers_from` whose figure that is, "" where there is none.
        recoat_h: from coat to coat; `recoat_from` whose figure. So `cure_d`, days until hard, and `cure_from`.
        waits: in the calendar of the job, in order, until it is lived with.
        self_heating: whether rags with it can take fire by themselves; `fumes` whether it gives off solvents. Of a
            finish that is not known both are taken to be so.
        eyes: from where it is seen; none: from the front.
        joints: between boards that have coats.
        steps: what is done, in order.
        slower: by how much it dries slower than at 20 °C, for what the job says of its room; all hours are with it.
        temperature, humidity: of that room, °C and per cent; None where the job does not say.
    """

    system: str
    boards: tuple[BoardCoats, ...]
    stages: tuple[CoatingStage, ...]
    covers: float | None
    covers_from: str
    recoat_h: float | None
    recoat_from: str
    cure_d: float | None
    cure_from: str
    self_heating: bool
    fumes: bool
    waits: tuple[Wait, ...] = ()
    faces: tuple[CoatedFace, ...] = ()
    eyes: tuple[str, ...] = ()
    joints: tuple[JointCoats, ...] = ()
    sandings: tuple[Sanding, ...] = ()
    racks: tuple[RackNeed, ...] = ()
    steps: tuple[FinishStep, ...] = ()
    slower: float = 1.0
    temperature: float | None = None
    humidity: float | None = None
