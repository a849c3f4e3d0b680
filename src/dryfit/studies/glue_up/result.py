"""The glue-up plan as others read it: goes, glue, clamps, what to measure."""

from dataclasses import dataclass

from ...geometry.frames import Vec2
from ...places import Pair
from ...sentences import Words

WITHIN = 0.5  # mm by which diagonals may differ from what they should be
WIND = 0.5  # mm that its corners may be out of one plane
LIMITS_FROM = "common practice"


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """A figure of the glue with where it comes from."""

    name: str
    value: float
    low: float | None
    high: float | None
    unit: str
    source: str
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Clamps:
    """Clamps along one board.

    Attributes:
        force_n: that its joints ask for along it, the larger of its two ends.
        count: by force and by spacing, whichever asks for more.
        pressure_n_mm2: on the face, and `source` where it comes from; None for contact pressure only.
        seats: whether they only bring ends home that are let in, however hard.
        wedge: degrees off square at which the board ends: cauls are wedges of that, else the bars slide.
        fill: boards whose empty housing the bars would bear on, which wants a slip of wood in it.
    """

    board: str
    force_n: float
    count: int
    pressure_n_mm2: float | None
    source: Words
    seats: bool = False
    wedge: float = 0.0
    fill: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Bound:
    """A joint that no clamp along one board presses: a corner that is not square, boards end to end, faces on faces.

    A corner takes a band round its frame, or clamps across blocks glued to its two boards; boards end to end long
    clamps, or clamps to blocks held on both.

    Attributes:
        force_n: square to its face.
        count: clamps across the blocks.
        corner: whether it is a corner; `across` whether clamps stand square on its faces.
    """

    key: Pair
    force_n: float
    count: int
    pressure_n_mm2: float | None
    source: Words
    corner: bool = True
    across: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Squareness:
    """What to measure on a frame of four sides, or between boards that others hold apart; front and back.

    Attributes:
        outside: both diagonals, corner to corner; `inside` too of a frame that is closed, else nothing.
        between: the boards from whose ends they run, both of a pair; of a frame all four.
        ends: from where to where in the elevation, for each of `outside`.
        differ_by: by how much more than now the diagonals differ for 1 of lean.
        within: the most by which the two may differ more than they do here.
        wind: the most that its corners may be out of one plane; `source` where both are said.
    """

    outside: tuple[float, float]
    inside: tuple[float, ...]
    differ_by: float
    between: tuple[str, ...] = ()
    ends: tuple[tuple[Vec2, Vec2], ...] = ()
    within: float = WITHIN
    wind: float = WIND
    source: str = LIMITS_FROM


@dataclass(frozen=True, slots=True, kw_only=True)
class Across:
    """What to measure on a frame of five sides or more, or across one corner of two boards; front and back.

    Attributes:
        between: the two corners of each diagonal, counted from 0; corner n begins side n. Of one corner the far ends of
            its two boards.
        ends: from where to where in the elevation, for each of `outside`.
        outside, inside: their lengths, in the same order.
        equal: whether all of them should be equal.
        within: the most by which they may differ from that.
    """

    between: tuple[tuple[int, int], ...]
    outside: tuple[float, ...]
    inside: tuple[float, ...]
    equal: bool
    ends: tuple[tuple[Vec2, Vec2], ...] = ()
    within: float = WITHIN
    wind: float = WIND
    source: str = LIMITS_FROM


@dataclass(frozen=True, slots=True, kw_only=True)
class GlueStage:
    """What is glued in one go.

    Attributes:
        name: the unit's, "" for the piece; `place` "shop" or "site".
        number, of: which go of how many it is in that unit or piece.
        boards: with glue on them.
        lying: what lies there before the first step; `steps` what goes in, in order, and `moves` the boards of
            each step with those it goes onto.
        held: boards put on dry after these, a tuple a step, so that it stays square while the glue sets; `off`
            whether they come off again then.
        minutes: it takes from the first glue to the last clamp, which is what it takes to spread, close and clamp;
            `open_minutes` the glue gives.
        grams: of glue by grain pair, what is lost included; `total_g` together.
        contact_only: True where the glue wants no pressure but contact.
        fitted: joints that only their fit presses; `bound` those that no clamp along one board presses.
        end_faces: glued faces of end grain.
        squares: what to check of frames of four, and between boards that others hold apart; `across` of a frame of
            more sides, and across one corner.
        after: work that follows once it is glued; `following` what goes in next, "" for nothing.
    """

    name: str
    place: str
    number: int
    of: int
    boards: tuple[str, ...]
    lying: tuple[str, ...]
    steps: tuple[Words, ...]
    glued: tuple[Pair, ...]
    dry: tuple[Pair, ...]
    minutes: float
    open_minutes: float
    grams: tuple[tuple[str, float], ...]
    total_g: float
    clamps: tuple[Clamps, ...]
    contact_only: bool
    fitted: tuple[Pair, ...]
    squares: tuple[Squareness, ...]
    after: tuple[str, ...]
    following: Words
    moves: tuple[tuple[tuple[str, ...], tuple[str, ...]], ...] = ()
    held: tuple[tuple[str, ...], ...] = ()
    off: bool = False
    spread_minutes: float = 0.0
    close_minutes: float = 0.0
    clamp_minutes: float = 0.0
    bound: tuple[Bound, ...] = ()
    end_faces: int = 0
    across: tuple[Across, ...] = ()

    @property
    def diagonals(self) -> tuple[tuple[Vec2, Vec2, float], ...]:
        """All that is measured from outside: from where to where in the elevation, and how long."""
        lines = [(square.ends, square.outside) for square in self.squares]
        more = [(across.ends, across.outside) for across in self.across]
        return tuple(
            (start, end, size)
            for ends, sizes in (*lines, *more)
            for (start, end), size in zip(ends, sizes, strict=True)
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class GlueUp:
    """The glue-up plan.

    Attributes:
        glue: its name; "" where it is not known, and there are no stages then.
        figures: of the glue, each with its source.
        practice: what else it rests on, (what, figure, unit, source).
        grams: of glue by grain pair for every joint of the piece, whether an order was found for it or not.
    """

    glue: str
    figures: tuple[Said, ...]
    practice: tuple[tuple[str, float, str, Words], ...]
    people: int
    clamp_kn: float
    stages: tuple[GlueStage, ...]
    grams: tuple[tuple[str, float], ...] = ()
