"""The glue-up plan, and what it is worked out from."""

from dataclasses import dataclass

from ...places import Pair
from ...sentences import Words
from .pressing import Bound, Clamps, GlueJoint
from .squareness import Across, Squareness
from .stages import StepValue


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
class StageValue:
    """One stage of the assembly, as it was planned."""

    name: str
    place: str
    first: tuple[str, ...]
    steps: tuple[StepValue, ...]
    after: tuple[str, ...]
    square: Squareness | None
    across: Across | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class GlueUpValue:
    """All that a glue-up depends on.

    Attributes:
        glue: its name, "" where it is not known; `asked` as the job file has it.
        given: whether the job file names a glue; else the usual one is taken.
        unknown, remedy: of one that is not known, what is wrong and what to do; "" of one that is.
        slower: other glues with the minutes they stay open, slowest last.
    """

    asked: str
    given: bool
    glue: str
    unknown: str
    remedy: str
    figures: tuple[Said, ...]
    slower: tuple[tuple[str, float], ...]
    seconds_a_joint: float
    pace_from: str
    people: int
    clamp_kn: float
    stages: tuple[StageValue, ...]
    joints: tuple[GlueJoint, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class GlueStage:
    """What is glued in one go.

    Attributes:
        name: the unit's, "" for the piece; `place` "shop" or "site".
        number, of: which go of how many it is in that unit or piece.
        boards: with glue on them.
        lying: what lies there before the first step; `steps` what goes in, in order, and `moves` the boards of
            each step with those it goes onto.
        minutes: it takes from the first glue on; `open_minutes` the glue gives.
        grams: of glue by grain pair, what is lost included; `total_g` together.
        contact_only: True where the glue wants no pressure but contact.
        fitted: joints that only their fit presses; `bound` those that no clamp along one board presses.
        end_faces: glued faces of end grain.
        square: what to check of a frame of four, None elsewhere; `across` of a frame of more sides.
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
    square: Squareness | None
    after: tuple[str, ...]
    following: Words
    moves: tuple[tuple[tuple[str, ...], tuple[str, ...]], ...] = ()
    bound: tuple[Bound, ...] = ()
    end_faces: int = 0
    across: Across | None = None


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
    practice: tuple[tuple[str, float, str, str], ...]
    people: int
    clamp_kn: float
    stages: tuple[GlueStage, ...]
    grams: tuple[tuple[str, float], ...] = ()
