"""The sheets. Each line brings in one file, which registers its kind of sheet."""

from . import assembly, glue_card, joint, lists, overall, part
from .registry import SHEETS, Draft, drafts, sheet

__all__ = ["SHEETS", "Draft", "assembly", "drafts", "glue_card", "joint", "lists", "overall", "part", "sheet"]
