"""The demos worked out and printed once a process: tests that only read them share them."""

from functools import cache

from dryfit.book import build, read_job_text
from dryfit.book.demos import demo_text
from dryfit.book.model import Book
from dryfit.documents.display import Display, Draft
from dryfit.documents.looks import Desk
from dryfit.documents.workshop import paper_pdf, paper_sheets


@cache
def book(name: str) -> Book:
    """The whole book of a demo."""
    return build(read_job_text(demo_text(name), f"{name}.toml"))


@cache
def desk(name: str) -> Desk:
    """Where its papers are drawn, each sheet once."""
    return Desk(book(name))


@cache
def sheets(name: str) -> tuple[tuple[Draft, Display], ...]:
    """Every sheet of its workshop's paper."""
    return tuple(paper_sheets("workshop", book(name), desk=desk(name)))


@cache
def paper(name: str) -> bytes:
    """The workshop's paper as a PDF."""
    return paper_pdf("workshop", desk(name))
