"""The order of assembly as others read it: stages, steps, moves, and what is locked."""

from dataclasses import dataclass
from typing import Literal, TypeAlias

from ...geometry.frames import Vec
from ...job.model import Turn
from ...places import Cure, Pair
from ...sentences import Sentence, Words

Place: TypeAlias = Literal["shop", "site"]
PROOF = "for straight moves"
SLIDE = 30.0  # mm along a glued face that still leave glue on it (common practice)


@dataclass(frozen=True, slots=True, kw_only=True)
class Leg:
    """One straight move: a unit vector in the world, and how far."""

    direction: Vec
    distance: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One thing that is put in.

    Attributes:
        name: what moves, in words: a board's name, a unit's, or "A and B" of a sub-assembly.
        parts: ids of the parts that move.
        onto: ids of the parts that lie there already.
        legs: how it goes in, in the order of doing; empty where it is only laid beside the others.
        into: ids of the parts it slides into.
        joints: those it closes, and `cuts` their cuts' keys.
        turned: True where what is together already must be turned over before.
        up: which edges face up while it is done; the same for what lies first.
    """

    name: Words
    parts: tuple[str, ...]
    onto: tuple[str, ...]
    legs: tuple[Leg, ...]
    into: tuple[str, ...]
    joints: tuple[Pair, ...]
    cuts: tuple[str, ...]
    turned: bool
    up: Literal["front", "wall"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Locked:
    """A smallest set of which nothing can be moved.

    Attributes:
        parts: ids of all its parts.
        says: its bodies in words.
        waits: (one, others): along the direction in which least is blocked, each and those it can only leave after.
        cure: the cheapest change that frees it, and the joint it changes; None where none was found.
    """

    parts: tuple[str, ...]
    says: Sentence
    waits: tuple[tuple[Sentence, tuple[Sentence, ...]], ...]
    cure: Cure | None
    joint: Pair | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Refused:
    """A place in the order on the wall that cannot be kept.

    Attributes:
        says: what was to be put in then, in words; `parts` its ids.
        place: that the job asks for: "first", "last" or a number; None where it is put in after all that have one.
        blockers: what stands in its way then.
    """

    says: Sentence
    parts: tuple[str, ...]
    place: Turn | None
    blockers: tuple[Sentence, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class StagePlan:
    """One stage: a unit in the shop, or the piece.

    Attributes:
        name: the unit's, "" for the piece.
        place: where it is done: units in the shop; the piece where it will stand, if it has units, else in the shop.
        first: ids of the parts that lie first.
        after: work that waits until the stage is glued ("keys of mitre box 1 and box 2").
        locked: sets that no straight move brings apart; there are then no steps for them.
    """

    name: str
    place: Place
    parts: tuple[str, ...]
    first: tuple[str, ...]
    steps: tuple[Step, ...]
    after: tuple[str, ...]
    turns: int
    locked: tuple[Locked, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """How it goes together.

    Attributes:
        stages: units first, the piece last; empty where parts overlap.
        turns: of the piece in its last stage.
        overlaps: pairs of parts that take up the same space: nothing is said of an order then.
        refused: places on the wall that cannot be kept; the order is then without them.
        proof: what is proved by it.
    """

    stages: tuple[StagePlan, ...]
    turns: int
    overlaps: tuple[Pair, ...]
    refused: tuple[Refused, ...] = ()
    proof: str = PROOF

    @property
    def locked(self) -> tuple[Locked, ...]:
        """Everything that is locked, in any stage."""
        return tuple(lock for stage in self.stages for lock in stage.locked)
