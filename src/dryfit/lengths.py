"""Lengths in words: the units a maker may write, and figures as precisely as they can be held.

Inside Dryfit every length is in mm; this module is the edge at which other units come in and go out.
A foot is 304.8 and an inch 25.4 exactly (international yard and pound agreement, 1959).
"""

import math
import re
from fractions import Fraction
from functools import cache
from typing import Literal, TypeAlias

LengthUnit: TypeAlias = Literal["mm", "in"]

MM_PER: dict[str, float] = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4, "ft": 304.8, '"': 25.4, "'": 304.8}
MM_PER_M = MM_PER["m"]
MM2_PER_M2, MM3_PER_M3 = MM_PER_M**2, MM_PER_M**3
UNIT_WORDS = ("mm", "cm", "m", "in", "ft")

# Far below what can be cut, and enough to end "23 5/8 in" on 600.075 instead of 600.0749999999999.
CONVERSION_DECIMALS = 9

WRITTEN = 3  # decimals of a length in mm that any writer keeps

_EVEN = 1e-6  # of a step: a value that is a multiple but for the float's last digits stays what it is

_LITERAL = re.compile(
    r"""(?P<sign>-?)\s*
    (?: (?:(?P<whole>\d+)\s+)? (?P<top>\d+)\s*/\s*(?P<bottom>\d+)
      | (?P<number>\d+(?:\.\d*)?|\.\d+) )
    \s*(?P<unit>mm|cm|m|in|ft|["'])\s*""",
    re.VERBOSE,
)


def to_mm(value: float, unit: str) -> float:
    """Convert from a unit of `MM_PER` to mm."""
    per = MM_PER[unit]
    return value if per == 1.0 else round(value * per, CONVERSION_DECIMALS)


def from_mm(length: float, unit: str) -> float:
    """Convert mm to a unit of `MM_PER`."""
    per = MM_PER[unit]
    return length if per == 1.0 else round(length / per, CONVERSION_DECIMALS)


def parse_length(text: str) -> float | None:
    """Read one length with its unit ("2.6 m", "23 5/8 in", `7/8"`); None if it is anything else.

    >>> parse_length("23 5/8 in"), parse_length("-2.6 m"), parse_length("12")
    (600.075, -2600.0, None)
    """
    found = _LITERAL.fullmatch(text.strip())
    if found is None or (found["bottom"] and int(found["bottom"]) == 0):
        return None
    if found["number"]:
        value = float(found["number"])
    else:
        value = int(found["whole"] or 0) + int(found["top"]) / int(found["bottom"])
    return to_mm(-value if found["sign"] else value, found["unit"])


def written(value: float) -> float:
    """A figure as every writer puts it down: to 0.001, never -0."""
    return round(value, WRITTEN) + 0.0


def rounded(value: float, step: float) -> float:
    """The multiple of `step` nearest to `value`, halves away from zero, and never -0.

    >>> rounded(24.675, 0.05), rounded(-0.01, 0.1), rounded(0.25, 0.1)
    (24.7, 0.0, 0.3)
    """
    return round(steps(value, step) * step, _decimals(step)) + 0.0


def steps(value: float, step: float) -> int:
    """How many steps a value is nearest to, halves away from zero.

    >>> steps(24.675, 0.05), steps(-0.25, 0.1)
    (494, -3)
    """
    # 1e-9 lifts values such as 24.675 / 0.05 = 493.49999999999994 over their half.
    count = math.floor(abs(value) / step + 0.5 + 1e-9)
    return -count if value < 0 else count


def rounded_to(value: float, step: float, way: str) -> float:
    """A value taken to a multiple of `step` that is not under it ("+") or not over it ("-"); "" leaves it as it is.

    >>> round(rounded_to(75.2, 1.0, "+"), 6), round(rounded_to(75.2, 1.0, "-"), 6), rounded_to(75.2, 1.0, "")
    (76.0, 75.0, 75.2)
    """
    if way == "+":
        return math.ceil(value / step - _EVEN) * step
    return math.floor(value / step + _EVEN) * step if way == "-" else value


def figure(value: float, step: float = 0.1, *, fixed: bool = False) -> str:
    """A number rounded to `step`; without trailing zeros unless `fixed`.

    >>> figure(792.0), figure(24.66, 0.05), figure(24.0, 0.1, fixed=True)
    ('792', '24.65', '24.0')
    """
    text = f"{rounded(value, step):.{_decimals(step)}f}"
    return text if fixed or "." not in text else text.rstrip("0").rstrip(".")


def inches(length: float, denominator: int = 64) -> str:
    """A length in whole inches and a fraction in its lowest terms, without the unit.

    >>> inches(600.075), inches(-15.875), inches(254), inches(0.1)
    ('23 5/8', '-5/8', '10', '0')
    """
    parts = math.floor(abs(length) / MM_PER["in"] * denominator + 0.5 + 1e-9)
    whole, rest = divmod(parts, denominator)
    sign = "-" if length < 0 and parts else ""
    if rest == 0:
        return f"{sign}{whole}"
    fraction = Fraction(rest, denominator)
    return f"{sign}{whole} {fraction}" if whole else f"{sign}{fraction}"


def length_text(length: float, units: LengthUnit = "mm", *, step: float = 0.1, denominator: int = 64) -> str:
    """A length as a maker reads it, with its unit: `24.6 mm` or `23 5/8 in`.

    Args:
        length: in mm.
        units: in which it is shown.
        step: to which mm are rounded: 0.1, or 0.05 where it matters.
        denominator: to which parts of an inch inches are rounded.
    """
    return f"{figure(length, step)} mm" if units == "mm" else f"{inches(length, denominator)} in"


def depth_text(length: float, units: LengthUnit) -> str:
    """A depth or a place of a cut in words: a plain figure in mm, to 0.1; 64ths of an inch with their unit.

    >>> depth_text(165.25, "mm"), depth_text(165.25, "in")
    ('165.3', '6 1/2 in')
    """
    return figure(length) if units == "mm" else f"{inches(length)} in"


def thickness_text(length: float, units: LengthUnit) -> str:
    """A thickness as it is measured, with its unit: to 0.01 mm, or to a thousandth of an inch.

    >>> thickness_text(23.97, "mm"), thickness_text(23.97, "in")
    ('23.97 mm', '0.944 in')
    """
    return f"{figure(length, 0.01)} mm" if units == "mm" else cut_text(length, units)


def cut_text(length: float, units: LengthUnit) -> str:
    """A width of a cut in words: a plain figure in mm, to 0.05; thousandths of an inch with their unit.

    >>> cut_text(18.4512, "mm"), cut_text(18.4512, "in")
    ('18.45', '0.726 in')
    """
    return figure(length, 0.05) if units == "mm" else f"{length / MM_PER['in']:.3f} in"


def area_text(area: float, units: LengthUnit) -> str:
    """An area in mm2 with its unit: whole square millimetres, or hundredths of a square inch.

    >>> area_text(3960.4, "mm"), area_text(3960.4, "in")
    ('3,960 mm2', '6.14 in2')
    """
    return f"{area:,.0f} mm2" if units == "mm" else f"{area / MM_PER['in'] ** 2:,.2f} in2"


@cache  # steps are a handful, and every figure asks twice
def _decimals(step: float) -> int:
    """How many decimals a multiple of `step` needs."""
    return len(f"{step:.9f}".rstrip("0").partition(".")[2])
