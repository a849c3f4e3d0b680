"""The sheets. Each line brings in one file, which registers its kind of sheet."""

from . import joint, lists, overall, part
from .registry import SHEETS, Draft, drafts, sheet

__all__ = ["SHEETS", "Draft", "drafts", "joint", "lists", "overall", "part", "sheet"]
