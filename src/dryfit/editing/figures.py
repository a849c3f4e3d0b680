"""How exactly a length is written that was typed, or that came to a place."""

from ..lengths import LengthUnit, from_mm, rounded

FINE = 0.01  # mm: off by less is contact, not overlap


def held(length: float, units: LengthUnit) -> float:
    """A length in the job's units, as exactly as can be held; of inches a sixty-fourth stays one."""
    if units == "mm":
        return from_mm(rounded(length, FINE), units)
    value = from_mm(length, units)
    near = round(value * 64) / 64
    return near if abs(near - value) < from_mm(FINE, units) / 10 else round(value, 4)
