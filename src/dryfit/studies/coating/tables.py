"""The `[drying]` table: the room in which a piece is coated, its rack, and on which days.

In the cold and in damp air finish dries slower, or not at all: a drying guide has it at twice the time under 18 °C or
over 70 % of moisture. A use sheet of a solvent-borne polyurethane varnish has it go on from 13 to 32 °C, up to 85 %.
"""

from pydantic import Field

from ...job.options import Options
from ...job.schema import Date
from ...job.tables import One

COLD, DAMP, SLOWER = 18.0, 70.0, 2.0  # under 18 °C or over 70 % it dries in twice the time, or not (drying guide)
COLDEST, HOTTEST, DAMPEST = 13.0, 32.0, 85.0  # between these it may go on (use sheet of a solvent-borne varnish)
SHEET = "use sheet of a solvent-borne polyurethane varnish"


class DryingTable(Options):
    """The `[drying]` table: the room in which it is coated, and when."""

    temperature: float | None = Field(default=None, ge=-20, le=60, description="Of the room, in °C.")
    humidity: float | None = Field(default=None, ge=0, le=100, description="Moisture in its air, in per cent.")
    begins: Date = Field(default="", description="The day of the first glue or coat; left out: days are counted.")
    needed: Date = Field(default="", description="The day on which it is to be carried away, its coats hard.")
    rack: int | None = Field(default=None, ge=1, description="How many boards the rack holds.")


DRYING = One("drying", DryingTable)


def slower(drying: DryingTable) -> float:
    """By how much it dries slower than at 20 °C."""
    cold = drying.temperature is not None and drying.temperature < COLD
    damp = drying.humidity is not None and drying.humidity > DAMP
    return SLOWER if cold or damp else 1.0
