"""The book: reading a job with all that the rooms know, and building everything from it."""

from .building import Bench, build, piece_of
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
    "piece_of",
    "read",
    "read_job_text",
]
