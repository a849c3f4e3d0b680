"""Joint kinds, one file each. The order here is the order in which they are registered and listed."""

from . import cross_halving, housing
from .registry import KINDS, NAMED, register

__all__ = ["KINDS", "NAMED", "cross_halving", "housing", "register"]
