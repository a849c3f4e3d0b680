"""Studies: questions worked out from the piece, one file each, in the order in which they are registered."""

from ..study.registry import STUDIES, register
from . import fits, glue_up, measures, order

__all__ = ["STUDIES", "fits", "glue_up", "measures", "order", "register"]
