"""The book: reading a job with all that the rooms know, and building everything from it."""

from .building import Kept, build, overlaps, piece_of, set_out_findings, what_if
from .comparing import Comparing, Comparison
from .curing import CureTrial
from .model import Book
from .reading import change_job_text, job_schema, models, read, read_job_text

__all__ = [
    "Book",
    "Comparing",
    "Comparison",
    "CureTrial",
    "Kept",
    "build",
    "change_job_text",
    "job_schema",
    "models",
    "overlaps",
    "piece_of",
    "read",
    "read_job_text",
    "set_out_findings",
    "what_if",
]
