"""Joint kinds, one file each. The order here is the order in which they are registered and listed."""

from . import butt, cross_halving, housing, long_screw, mitre, notch
from .registry import KINDS, NAMED, register

__all__ = ["KINDS", "NAMED", "butt", "cross_halving", "housing", "long_screw", "mitre", "notch", "register"]
