"""Studies: questions worked out from the piece, one file each, in the order in which they are registered."""

from . import fits, glue_up, measures, order
from .registry import STUDIES, register

__all__ = ["STUDIES", "fits", "glue_up", "measures", "order", "register"]
