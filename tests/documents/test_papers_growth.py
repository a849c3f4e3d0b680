"""The papers of many boards: what has no room is not drawn to find that out, and each thing is drawn once.

Counted is work, never time. The pieces are the irregular ones that are measured (`bench.layouts`), in which no two
boards are alike: in a row of bays shelves are small enough for two of them to share a sheet, and hardly any two do.
"""

from functools import cache

import pytest

from bench.layouts import layout
from dryfit.book import build, read_job_text
from dryfit.documents.looks import Desk
from dryfit.documents.naming import printing_in
from dryfit.documents.sheets.joint import layout as details_laid
from dryfit.documents.sheets.joint import maker as details
from dryfit.documents.sheets.part import sharing
from dryfit.documents.sheets.part.alike import AlikeParts
from dryfit.documents.sheets.part.fellows import fellows
from dryfit.documents.sheets.part.maker import papers, part_sheets
from dryfit.documents.sheets.part.page import PartPage

DUST = 1e-6  # mm


@cache
def book(shape, boards):
    return build(read_job_text(layout(shape, boards).text()))


def counted(monkeypatch, owner, name, work):
    """What some work gives, and how often a function was called for it."""
    calls, was = [], getattr(owner, name)

    def told(*args, **more):
        calls.append(name)
        return was(*args, **more)

    monkeypatch.setattr(owner, name, told)
    found = work()
    monkeypatch.undo()
    return found, len(calls)


def set_close(monkeypatch, boards):
    """How often a part of a row of bays is set close together to find out which share a sheet."""
    desk = Desk(book("bays", boards))
    with printing_in(desk.book.job.units):
        _, times = counted(monkeypatch, PartPage, "close", lambda: list(part_sheets(desk)))
    return times


def test_of_three_times_the_small_parts_about_three_times_as_many_are_set_close_together(monkeypatch):
    small, large = set_close(monkeypatch, 12), set_close(monkeypatch, 36)
    assert 0 < large <= 3 * 1.3 * small  # each with every other it would be nine times


@pytest.mark.parametrize("shape", ["bays", "star"])
def test_views_of_a_joint_are_placed_once_where_a_smaller_scale_saves_no_sheet(shape, monkeypatch):
    desk = Desk(book(shape, 12))
    with printing_in(desk.book.job.units):
        made = details._details(desk)
        views = sum(len(one.shown()) for one in made)
        pages, placed = counted(monkeypatch, details_laid, "place", lambda: list(details.joints(Desk(desk.book))))
    assert len(pages) == len(made)  # each has a sheet to itself
    assert placed == views


@pytest.mark.parametrize("shape", ["bays", "star", "ring"])
def test_a_detail_guessed_a_scale_smaller_is_no_higher_than_it_is_when_drawn(shape):
    desk = Desk(book(shape, 12))
    with printing_in(desk.book.job.units):
        for one in details._details(desk):
            guessed = one.high(details.GUESSED)
            assert not one.is_drawn(1)
            assert guessed <= one.high(1) + DUST
            assert one.high(details.GUESSED) == one.high(1), "once it is drawn nothing is guessed"


@pytest.mark.parametrize("shape", ["bays", "star", "lattices"])
def test_what_a_small_part_takes_by_its_sizes_is_no_more_than_it_takes_on_paper(shape):
    desk = Desk(book(shape, 12))
    with printing_in(desk.book.job.units):
        small = [
            one
            for one in fellows(desk)
            if isinstance(one, AlikeParts) and sharing.may_share(desk, one, papers(desk, one.shown)[0])
        ]
        assert small
        for one in small:
            assert sharing._told(desk, one) <= sharing._least(desk, one) + DUST


@pytest.mark.parametrize("shape", ["lattices", "ring"])
def test_views_of_a_part_end_no_higher_on_paper_than_its_sizes_tell(shape):
    desk = Desk(book(shape, 12))
    with printing_in(desk.book.job.units):
        for one in (one for one in fellows(desk) if isinstance(one, AlikeParts)):
            page = PartPage(desk, one, papers(desk, one.shown)[0])
            for ruler in page.subject.rulers(page.space)[:2]:
                assert page.least(ruler.scale) <= page.stack(ruler).bottom + DUST
