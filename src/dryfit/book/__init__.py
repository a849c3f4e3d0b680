"""The book: reading a job with all that the rooms know, and building everything from it."""

from .building import Bench, build, overlaps, piece_of, set_out_findings
from .curing import Trial
from .model import Book
from .reading import change_job_text, job_schema, models, read, read_job_text

__all__ = [
    "Bench",
    "Book",
    "Trial",
    "build",
    "change_job_text",
    "job_schema",
    "models",
    "overlaps",
    "piece_of",
    "read",
    "read_job_text",
    "set_out_findings",
]
