"""Where cables usually run in a wall, by country: bands of the elevation. They may run anywhere else as well.

UK        BS 7671:2018, 522.6.202 (as two pages on permitted zones have it): within 150 of the top of the wall, within
          150 of an inner corner, and level and plumb from each accessory, as wide as its plate.
Germany   DIN 18015-3 (as an expert's note and a manual have it): level 150 to 450 under the ceiling and over the floor,
          in kitchens 1000 to 1300; plumb 100 to 300 beside doors, windows and corners.
USA       NEC 300.4 keeps cables 32 from a stud's edge, or behind steel: no bands, but a depth.
"""

from collections.abc import Iterator
from typing import Annotated, Literal, TypeAlias

from pydantic import Field

from ...geometry.frames import Vec2
from ...job.model import Wall
from ...job.options import NOT_BELOW_0, Options, Quantity
from ...job.tables import One
from ...sentences import Fineness, Length, Sentence, say
from .result import CableZone

Country: TypeAlias = Literal["", "UK", "Germany", "USA"]
SOURCES = {
    "": "",
    "UK": "BS 7671:2018, 522.6.202, as two pages on permitted zones have it",
    "Germany": "DIN 18015-3, as an expert's note and a manual have it",
    "USA": "NEC 300.4, as printed",
}
IN_STUD = 32.0  # a cable must lie so deep behind the edge of a stud, or behind steel (NEC 300.4)
NEAR = 50.0  # of a zone or a cable (common practice)
TOP = CORNER = 150.0  # UK
BAND = (150.0, 450.0)  # Germany, from ceiling and floor
KITCHEN = (1000.0, 1300.0)
BESIDE = (100.0, 300.0)
PLATE = 86.0  # of an accessory, wide and high (BS 4662, from memory)
HIGH = 10_000.0  # of a wall whose ceiling is not given


class CablesTable(Options):
    """Where cables usually run in the wall, and what tells of them; places as boards have them."""

    country: Country = Field("", description="By whose rule zones are drawn; left out: none is looked at.")
    across: tuple[Quantity, ...] = Field(
        (), max_length=50, description="Sockets and switches: the middle of each along the wall."
    )
    up: tuple[Quantity, ...] = Field(
        (), max_length=50, description="The same accessories in their order: heights of the middles."
    )
    plate: Annotated[Quantity, NOT_BELOW_0] = Field(PLATE, description="Width and height of an accessory's plate.")
    openings: tuple[Quantity, ...] = Field(
        (), max_length=50, description="Edges of doors and windows along the wall: left, right, ..."
    )
    kitchen: bool = Field(False, description="Whether it is a kitchen, or such a room with a worktop.")


CABLES = One("cables", CablesTable)


def zones_of(table: CablesTable, wall: Wall, wide: tuple[float, float]) -> Iterator[CableZone | Sentence]:
    """The bands of the table's country, and what of them could not be drawn.

    Args:
        table: as the job has it, in mm.
        wall: of the job.
        wide: of what is drawn where the wall's ends are not known, from left to right.
    """
    left = wide[0] if wall.left is None else wall.left
    right = wide[1] if wall.right is None else wall.right
    if table.country == "UK":
        yield from _uk(table, wall, left, right)
    elif table.country == "Germany":
        yield from _germany(table, wall, left, right)


def accessories(table: CablesTable) -> tuple[Vec2, ...]:
    """Their middles, as far as both figures are given."""
    return tuple(zip(table.across, table.up, strict=False))


def _uk(table: CablesTable, wall: Wall, left: float, right: float) -> Iterator[CableZone | Sentence]:
    top = HIGH if wall.ceiling is None else wall.ceiling
    if wall.ceiling is None:
        yield say("the zone under the ceiling: [wall] ceiling is not given")
    else:
        yield CableZone(says=say("within {} of the ceiling", Length(TOP)), low=(left, top - TOP), high=(right, top))
    for corner, side in ((wall.left, 1), (wall.right, -1)):
        if corner is not None:
            low, high = sorted((corner, corner + side * CORNER))
            yield CableZone(says=say("within {} of the corner", Length(CORNER)), low=(low, 0.0), high=(high, top))
    if wall.left is None or wall.right is None:
        yield say("zones at corners: where the wall ends ([wall] left, right) is not given")
    if not table.across:
        yield say("zones of sockets and switches: [cables] names none, on this side or the other")
    half = table.plate / 2
    for x, y in accessories(table):
        at = Length(x, Fineness.WHOLE), Length(y, Fineness.WHOLE)
        yield CableZone(
            says=say("level with the accessory at {}, {}", *at), low=(left, y - half), high=(right, y + half)
        )
        yield CableZone(says=say("plumb with the accessory at {}, {}", *at), low=(x - half, 0.0), high=(x + half, top))


def _germany(table: CablesTable, wall: Wall, left: float, right: float) -> Iterator[CableZone | Sentence]:
    top = HIGH if wall.ceiling is None else wall.ceiling
    low, high = (Length(size) for size in BAND)
    if wall.ceiling is None:
        yield say("the band under the ceiling: [wall] ceiling is not given")
    else:
        band = (left, top - BAND[1]), (right, top - BAND[0])
        yield CableZone(says=say("{} to {} under the ceiling", low, high), low=band[0], high=band[1])
    yield CableZone(says=say("{} to {} over the floor", low, high), low=(left, BAND[0]), high=(right, BAND[1]))
    if table.kitchen:
        low, high = (Length(size) for size in KITCHEN)
        yield CableZone(
            says=say("{} to {} over the floor", low, high), low=(left, KITCHEN[0]), high=(right, KITCHEN[1])
        )
    near, far = (Length(size) for size in BESIDE)
    for edge, side in ((wall.left, 1), (wall.right, -1)):
        if edge is not None:
            x0, x1 = sorted((edge + side * BESIDE[0], edge + side * BESIDE[1]))
            yield CableZone(says=say("{} to {} beside the corner", near, far), low=(x0, 0.0), high=(x1, top))
    if wall.left is None or wall.right is None:
        yield say("bands at corners: where the wall ends ([wall] left, right) is not given")
    if not table.openings:
        yield say("bands beside doors and windows: [cables] openings names none")
    for number, edge in enumerate(table.openings):
        side = -1 if number % 2 == 0 else 1
        x0, x1 = sorted((edge + side * BESIDE[0], edge + side * BESIDE[1]))
        yield CableZone(says=say("{} to {} beside a door or window", near, far), low=(x0, 0.0), high=(x1, top))


def off(zone: CableZone, at: Vec2) -> float:
    """How far a place is from a zone; 0 inside it."""
    dx = max(zone.low[0] - at[0], at[0] - zone.high[0], 0.0)
    dy = max(zone.low[1] - at[1], at[1] - zone.high[1], 0.0)
    return float((dx * dx + dy * dy) ** 0.5)
