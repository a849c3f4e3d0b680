"""Writers: a file each, which is registered by standing here."""

from ...scanning import modules_in
from ..writer import WRITERS

__all__ = ["WRITERS"]

modules_in(__name__, __path__)
