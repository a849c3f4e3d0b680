"""When each screw into the wall is driven, what covers its mouth from which step on, and what is seen of mouths."""

from dataclasses import dataclass
from typing import Literal, TypeAlias

from ...geometry.frames import Vec
from ...places import Pair, Path
from ...sentences import Words

Seen: TypeAlias = Literal["mouth", "plug", "open notch"]
Tool: TypeAlias = Literal["drill", "angle driver"]
From: TypeAlias = Literal["the job", "the shop", "to buy", "none sold"]
LookedFrom: TypeAlias = Literal["front", "left", "right", "top", "underside", "back"]


@dataclass(frozen=True, slots=True, kw_only=True)
class StepComing:
    """A step of the order, as far as screws go by it; its number is its place, from 1.

    Attributes:
        says: what comes, in words; `parts` its ids.
        into: ids of the parts it slides into.
        on_wall: whether it is done on the wall; else it goes up later, and nothing is screwed to the wall at it.
    """

    says: Words
    parts: tuple[str, ...]
    into: tuple[str, ...] = ()
    on_wall: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class InTheLine:
    """What stands in the line of bit and driver.

    Attributes:
        part: its id; "" for floor, ceiling and the ends of the room.
        says: the same in words.
        step: from which on it stands there.
        distance: free before it, from the mouth.
        lies: whether it lies over the mouth itself.
        beside: whether neither bit nor drill meets it, but the hand has no room: it stands beside the bit alone, or
            `hand` is true: it leaves no side on which a drill's grip, or an angle driver's body, can be held.
    """

    part: str
    says: Words
    step: int
    distance: float
    lies: bool
    beside: bool
    hand: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class ScrewStands:
    """What a screw's length is made of once it is home, from its head to its tip; with a washer that is part of it.

    Attributes:
        length: as sold; `wide` its diameter.
        hole: through the grip.
        grip: wood under its head, or its washer.
        gap: that is packed between board and wall where the wall is hollowest; None where the job does not say.
        lining: that does not hold; None where the job does not say.
        held: beyond both; None where one of them is not known.
    """

    length: float
    wide: float
    hole: float
    grip: float
    gap: float | None
    lining: float | None
    held: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Driven:
    """One screw into the wall.

    Attributes:
        fixing, number: its fixing, and which of its places, from 1; `cut` the key of its bore.
        mouth: in the world; it is driven along z, to the wall.
        screw: as sold; `anchor` as the job names it, "" for none; `plugged` whether a plug closes the mouth.
        counterbore, deep: its hole from the front edge; `stands` what its length is made of behind that.
        bit: of the driver, its length; `least` the shortest that reaches; `bit_from` whose it is, `owned` its name in
            the shop file.
        tool: that takes the bit: a drill, or where that has no room, or the hand on it, an angle driver of the shop's.
        line: that must be free before the mouth, `wide` across.
        here: the step at which its board comes.
        until: the last step at which the line is free; None where it is at none.
        step: at which it is driven, None where it can be at none; `asked` the step that the job gives.
        tight: the step at the end of which it is tightened; the same where it is not left loose.
        waits: what is put in before it is tightened, in words; "" where it is not left loose.
        shorter: where its line is free at no step: a driver's length that reaches and with which it would be free;
            `longer` a longer one, with which what is in the way stands beside the bit alone; `angle` how high the head
            of an angle driver may be over a bit of `least` so that it goes in; `moved` the nearest place along its
            board for it, from the line's start. None where there is none.
        bars: what comes to stand in its line, in the order of steps, the nearest of each step first.
        covered: the first that lies over its mouth.
    """

    fixing: str
    number: int
    cut: str
    board: str
    mouth: Vec
    screw: str
    anchor: str
    plugged: bool
    counterbore: float
    deep: float
    stands: ScrewStands
    bit: float
    least: float
    bit_from: From
    owned: str
    tool: Tool
    line: float
    wide: float
    here: int
    until: int | None
    step: int | None
    asked: int | None
    tight: int | None
    waits: Words
    shorter: float | None
    moved: float | None
    bars: tuple[InTheLine, ...]
    covered: InTheLine | None
    longer: float | None = None
    angle: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchStep:
    """A step of a stage of the order: `stage` the unit's name, "" for the piece; `on_wall` where that is done there.

    `number` is its place in the stage, from 1; 0 is what lies there first, and `says` is then "". `onto` are the ids of
    the parts that what comes is put to.
    """

    stage: str
    number: int
    says: Words
    parts: tuple[str, ...]
    onto: tuple[str, ...] = ()
    on_wall: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class JoinedScrew:
    """One screw from board to board; its steps are places in `Driving.bench`, from 0.

    Attributes:
        joint, number: its joint, and which of its screws, from 1; `cut` the key of its bore.
        board, into: that its head is in, and that its thread holds in.
        mouth, out: in the world; it is driven against `out`.
        screw: as sold.
        bit, bit_from, owned, tool, line, wide, until, bars, covered: as of a screw into the wall.
        here: the step at which both boards are together.
        step: at which it is driven: as soon as they are; None where it can be at none.
    """

    joint: Pair
    number: int
    cut: str
    board: str
    into: str
    mouth: Vec
    out: Vec
    screw: str
    bit: float
    bit_from: From
    owned: str
    tool: Tool
    line: float
    wide: float
    here: int
    until: int | None
    step: int | None
    bars: tuple[InTheLine, ...]
    covered: InTheLine | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Sight:
    """Whether something is seen from one point, once all stands there.

    Attributes:
        eye: its name.
        what: a mouth left open, a plug over one, or an open notch.
        board, cut: where it is; `joint` whose.
        share: of the points looked at, how many of a hundred are seen.
        by: the boards that hide it, the one that hides most of it first; none where all of it is seen.
    """

    eye: str
    what: Seen
    board: str
    cut: str
    joint: Pair | None
    share: int
    by: tuple[str, ...]

    @property
    def seen(self) -> bool:
        """Whether any of it is."""
        return self.share > 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Eye:
    """A point from which the piece is looked at; `hidden` whether nothing is to be seen from it."""

    name: str
    at: Vec
    hidden: bool
    path: Path


@dataclass(frozen=True, slots=True, kw_only=True)
class ScrewMouth:
    """Where a screw went in, once all stands there: an open mouth in a surface of a board, or a plug flush with it.

    Attributes:
        what: "mouth" or "plug".
        board, cut: where it is; `joint` whose.
        at: where the hole's axis meets the surface; `out` along that axis, `normal` square to the surface, both out of
            the wood; in the world.
        wide: its diameter, square to the axis: where that lies aslant, what shows is an ellipse.
        looks: the side of the piece to which its surface looks, the nearest of six.
        covered: whether something lies against all of it, so that nobody can see it; `by` the parts that do, the one
            that covers most first: none where it is the floor, the ceiling or a wall.
        seen_from: the sides of the piece from which any of it is seen, straight on.
    """

    what: Seen
    board: str
    cut: str
    joint: Pair | None
    at: Vec
    out: Vec
    normal: Vec
    wide: float
    looks: LookedFrom
    covered: bool
    by: tuple[str, ...]
    seen_from: tuple[LookedFrom, ...]

    @property
    def is_outside(self) -> bool:
        """Whether it is seen from the side that it looks to: no wood stands before all of it, near or far."""
        return self.looks in self.seen_from


@dataclass(frozen=True, slots=True, kw_only=True)
class Driving:
    """All of it.

    Attributes:
        steps: as they stand in the order.
        screws: by their fixings, in the order of the job.
        eyes: as the job has them; `sights` all that each sees or does not.
        room: what of the room the job does not give: "left", "right", "ceiling"; it is taken to be nowhere.
        bench: all steps of all stages, units first; `joined` the screws from board to board, by their joints.
        mouths: of all screws, by their joints, as they lie there in the end.
    """

    steps: tuple[StepComing, ...]
    screws: tuple[Driven, ...]
    eyes: tuple[Eye, ...]
    sights: tuple[Sight, ...]
    room: tuple[str, ...]
    bench: tuple[BenchStep, ...] = ()
    joined: tuple[JoinedScrew, ...] = ()
    mouths: tuple[ScrewMouth, ...] = ()
