"""The order of assembly as others read it: stages, steps, moves, what is locked; and the order on the wall."""

from dataclasses import dataclass
from typing import Literal, TypeAlias

from ...geometry.frames import Vec
from ...job.model import Turn
from ...places import Cure, Pair
from ...sentences import Sentence, Several, Value, Words, say

Place: TypeAlias = Literal["shop", "site"]
From: TypeAlias = Literal["front", "above", "below", "left", "right", "behind"]  # as seen from the room
Hold: TypeAlias = Literal["fixings", "floor", "joints", "hands"]
Bound: TypeAlias = Literal["wall", "floor", "ceiling", "left wall", "right wall"]  # of the room
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
class PlaceRefused:
    """A place in the order on the wall that cannot be kept.

    Attributes:
        says: what was to be put in then, in words; `parts` its ids.
        place: that the job asks for: "first", "last" or a number; None where it is put in after all that have one.
        blockers: what stands in its way then; `blocking` the ids of the parts of each.
    """

    says: Sentence
    parts: tuple[str, ...]
    place: Turn | None
    blockers: tuple[Sentence, ...]
    blocking: tuple[tuple[str, ...], ...] = ()


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
class WallStep:
    """One thing that is put up: a unit, a loose board, or several that only move together.

    Attributes:
        step: as in any stage: `parts` move, `onto` are the ids of all that stands there then, `legs` is the way in, in
            the order of doing, the last of them home; `joints` and `cuts` it closes. Nothing is turned; every step has
            a way, from in front of all that it passes.
        comes: from where it goes home, by its last leg.
        along: ids of the parts that it is slid along on that leg; empty where it is only brought to its place.
        held: what holds it once it is there: its own fixings, the floor, what it is joined to (which is itself held),
            or nobody but hands until more is in.
        holding: ids of the parts that hands hold meanwhile: what is to hold them is not there yet when this goes in.
        low, high: corners of the box that it needs on its way, from where it is free of what stands there.
        on_wall: False where it is put together on the floor, to go up as one with others in a later step.
    """

    step: Step
    comes: From
    along: tuple[str, ...]
    held: Hold
    holding: tuple[str, ...]
    low: Vec
    high: Vec
    on_wall: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """What stands in the way of something on one way in.

    Attributes:
        comes: from where it would go home that way, along `direction`.
        room: what of the room is in its way; `others`, in words, and `parts`, their ids, what of the piece is.
        joints: those of its joints that let it go home along that way and not from the opposite side.
    """

    comes: From
    direction: Vec
    room: tuple[Bound, ...]
    others: tuple[Sentence, ...]
    parts: tuple[str, ...]
    joints: tuple[Pair, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Barred:
    """Something that cannot be put in on the wall when its turn comes: `says` it in words, `parts` are its ids.

    Attributes:
        bar: the way in on which least is in its way.
        cure: a change that helps; None where none was found.
    """

    says: Sentence
    parts: tuple[str, ...]
    bar: Bar
    cure: Cure | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class OnTheWall:
    """How it goes together where it hangs, what is hung first standing there for all that follows.

    Attributes:
        bodies: what is carried as one: ids of the parts of each unit, and of each loose board.
        steps: in order, all that is put up; empty where it cannot be.
        barred: why it cannot; the smallest sets in each other's way and the room's.
        room: what bounds the room as far as the job says, each with its place in mm.
        asked: whether the job itself gives places in this order, so that it is the maker's word.
    """

    bodies: tuple[tuple[str, ...], ...]
    steps: tuple[WallStep, ...]
    barred: tuple[Barred, ...]
    room: tuple[tuple[Bound, float], ...]
    asked: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """How it goes together.

    Attributes:
        stages: units first, the piece last; empty where parts overlap.
        turns: of the piece in its last stage.
        overlaps: pairs of parts that take up the same space: nothing is said of an order then.
        refused: places on the wall that cannot be kept; the order is then without them.
        wall: the order on the wall, the piece standing at it from the first step; None for a piece that does not hang,
            and where parts overlap.
        proof: what is proved by it.
    """

    stages: tuple[StagePlan, ...]
    turns: int
    overlaps: tuple[Pair, ...]
    refused: tuple[PlaceRefused, ...] = ()
    wall: OnTheWall | None = None
    proof: str = PROOF

    @property
    def locked(self) -> tuple[Locked, ...]:
        """Everything that is locked, in any stage."""
        return tuple(lock for stage in self.stages for lock in stage.locked)


def barred_in_words(barred: Barred) -> Sentence:
    """Why something cannot be put in on the wall: from where it would have to come, and what is in its way there."""
    bar = barred.bar
    things: tuple[Value, ...] = (*(say("the {}", bound) for bound in bar.room), *bar.others)
    where = {"front": "the front", "left": "the left", "right": "the right"}.get(bar.comes, bar.comes)
    many = len(things) > 1
    return say(
        "{} cannot be put in on the wall: it would have to come from {}, and {} {} in its way",
        barred.says,
        where,
        Several(things),
        "are" if many else "is",
    )
