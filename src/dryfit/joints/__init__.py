"""Joint kinds: a file or a room each, which is registered by standing here."""

from ..scanning import modules_in
from .registry import KINDS, NAMED, register

__all__ = ["KINDS", "NAMED", "register"]

modules_in(__name__, __path__)
