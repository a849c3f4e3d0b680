"""How each unit is carried to its place: its box and mass, and how it goes through what is on the way."""

from dataclasses import dataclass
from typing import Literal, TypeAlias

from ...places import Path
from ...sentences import Name, Value

HANDS = 50.0  # taken off each clear width and height for hands and wrapping (common practice)
OVER_STEPS = 2 * HANDS  # on a flight: it is carried clear of the steps, and of what is overhead (common practice)

Box: TypeAlias = tuple[float, float, float]  # the longest size first
Size: TypeAlias = Literal["long", "wide", "thick"]
Kind: TypeAlias = Literal["van", "door", "stair", "turn"]
How: TypeAlias = Literal["on edge", "flat", "on end", "turned", "across", "tilted"]
Room: TypeAlias = Literal["clear", "tight", "none"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Passage:
    """One thing on the way, its sizes clear.

    Attributes:
        name: the maker's, or what it is, with its number where there are several; `named` whether it is the maker's.
        width: of a van between the arches, of a turn that of the corridor one comes from.
        height: of a flight plumb over the steps.
        length: of a van inside; 0 of the others.
        into: of a turn, the width of the corridor that it leads into; 0 of the others.
        pitch: of a flight, in degrees; 0 of the others.
        country: whose rules for loads behind a van are told; "" for none.
        path: of its table.
    """

    kind: Kind
    name: str
    named: bool
    width: float
    height: float
    length: float = 0.0
    into: float = 0.0
    pitch: float = 0.0
    country: str = ""
    path: Path = ()

    @property
    def called(self) -> Value:
        """As a sentence has it."""
        return Name(self.name) if self.named else self.name


@dataclass(frozen=True, slots=True, kw_only=True)
class PassingWay:
    """How a box goes through.

    Attributes:
        how: it lies: on its edge, flat, standing on its end; "turned" in a door's opening, "across" a van's floor from
            corner to corner, "tilted" with one end lifted.
        lean: degrees of a turn or a tilt.
        floor, across: what it takes up on the floor of a turn; `room` the longest floor that goes round there, and
            `turn` how far in degrees it has turned where that is least.
        behind: what projects behind a van.
    """

    how: How
    lean: float = 0.0
    floor: float = 0.0
    across: float = 0.0
    room: float = 0.0
    turn: float = 0.0
    behind: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Passed:
    """One body at one passage.

    Attributes:
        at: the passage's place on the way, from 0.
        room: "clear" with room for hands and wrapping, "tight" without it, "none" where it does not pass.
        box: of the body's boxes the one that passes, or the least.
        way: how; None where it does not pass.
        over: of one that does not pass, the size of which the least share is too much, and the most of it that passes;
            None where no size is too much by itself.
        outline: whether it is its own outline in the elevation that passes so, not its box: `lean` is then how far it
            is turned from as it stands in the piece.
    """

    at: int
    room: Room
    box: Box
    way: PassingWay | None
    over: tuple[Size, float] | None = None
    outline: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class People:
    """How many lift.

    Attributes:
        count: the fewest that may by the guidance; None where three may not.
        may_kg: what these may, or the most that any may.
        better_less: whether a third is there for the mass alone: he adds an eighth, so a lighter load is better.
    """

    count: int | None
    may_kg: float
    better_less: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Body:
    """What is carried as one: a unit, a loose board, or the whole piece.

    Attributes:
        name: the unit's or the board's; "" of the whole piece.
        boards: all of it.
        boxes: around it: as it stands in the piece, and turned; the least first.
        mass_kg: as weighed or worked out; None where a board's is not known. `reckoned_kg` with the margin for heavy
            wood, where it was not weighed.
        carried, placed: people to carry it, and to lift it into its place; None where the mass is not known. `tipped`
            whether it is tipped up there about its foot, half of it in their hands.
        stairs: to carry it up the steepest flight; `lower` the share of the lower one of two; None without a flight.
        upright: what it wants over it while it is stood up; `upright_room` whether the ceiling gives that.
        ways: how it goes through, in the order of the way.
    """

    name: str
    boards: tuple[str, ...]
    boxes: tuple[Box, ...]
    mass_kg: float | None
    reckoned_kg: float | None
    weighed: bool
    carried: People | None
    placed: People | None
    tipped: bool
    stairs: People | None
    lower: float | None
    upright: float
    upright_room: Room | None
    ways: tuple[Passed, ...]

    @property
    def stuck(self) -> Passed | None:
        """Where it does not pass: the first on its way."""
        return next((one for one in self.ways if one.room == "none"), None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Carrying:
    """All that is carried.

    Attributes:
        way: what is passed, in its order, the van first.
        bodies: the largest first.
        ceiling: over the piece; None where nobody says.
        lost: names in `after` that nothing on the way has, or that lead round in a circle, each with the place of the
            passage that asks for it.
    """

    way: tuple[Passage, ...]
    bodies: tuple[Body, ...]
    ceiling: float | None
    lost: tuple[tuple[int, str], ...] = ()
