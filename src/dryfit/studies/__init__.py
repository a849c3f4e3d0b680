"""Studies: questions worked out from the piece, a file or a room each, which is registered by standing here."""

from ..scanning import modules_in
from ..study.registry import STUDIES, register

__all__ = ["STUDIES", "register"]

modules_in(__name__, __path__)
