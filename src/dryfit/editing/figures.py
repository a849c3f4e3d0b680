"""How exactly a length is written that was typed, or that came to a place."""

import math

from ..lengths import LengthUnit, from_mm, rounded
from ..places import Plain

FINE = 0.01  # mm: off by less is contact, not overlap


def held(length: float, units: LengthUnit) -> float:
    """A length in the job's units, as exactly as can be held; of inches a sixty-fourth stays one."""
    if units == "mm":
        return from_mm(rounded(length, FINE), units)
    value = from_mm(length, units)
    near = round(value * 64) / 64
    return near if abs(near - value) < from_mm(FINE, units) / 10 else round(value, 4)


def as_typed(entry: str) -> Plain:
    """What was typed as the file would hold it: a bare number as a number, all else as text."""
    text = entry.strip()
    try:
        number = float(text)
    except ValueError:
        return text
    if not math.isfinite(number):
        return text
    return int(number) if number == int(number) and "." not in text and "e" not in text.lower() else number
