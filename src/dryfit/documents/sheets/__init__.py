"""The sheets. Each line brings in one file, which registers its kind of sheet."""

from . import assembly, fixings, glue_card, joint, lists, overall, part
from .registry import SHEETS, Apart, Draft, kinds_of, sheet

__all__ = [
    "SHEETS",
    "Apart",
    "Draft",
    "assembly",
    "fixings",
    "glue_card",
    "joint",
    "kinds_of",
    "lists",
    "overall",
    "part",
    "sheet",
]
