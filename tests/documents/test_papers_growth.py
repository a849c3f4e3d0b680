"""The papers of many boards: what has no room is not drawn to find that out, and each thing is drawn once.

Counted is work, never time. The pieces are the irregular ones that are measured (`bench.layouts`), in which no two
boards are alike: in a row of bays shelves are small enough for two of them to share a sheet, and hardly any two do.
"""

from dataclasses import replace
from functools import cache

import pytest

from bench.layouts import layout
from dryfit.book import build, read_job_text
from dryfit.documents.looks import Desk
from dryfit.documents.naming import printing_in
from dryfit.documents.sheets.joint import layout as details_laid
from dryfit.documents.sheets.joint import maker as details
from dryfit.documents.sheets.joint.views import front
from dryfit.documents.sheets.part import sharing, stack
from dryfit.documents.sheets.part.alike import AlikeParts
from dryfit.documents.sheets.part.fellows import fellows
from dryfit.documents.sheets.part.maker import papers, part_sheets
from dryfit.documents.sheets.part.page import PartPage
from dryfit.documents.standard import A4

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


@pytest.mark.parametrize("shape", ["bays", "star", "lattices"])
def test_the_wood_of_a_joint_is_drawn_once_at_a_scale_whatever_it_is_called(shape, monkeypatch):
    desk = Desk(book(shape, 12))
    with printing_in(desk.book.job.units):
        _, boards = counted(monkeypatch, front, "wood_in", lambda: list(details.joints(desk)))
    seen = [of for of, _ in desk.kept["wood of joints"] if of[0] == "front"]
    assert boards == 2 * len(seen) > 0


@pytest.mark.parametrize("shape", ["bays", "ring", "lattices"])
def test_the_wood_of_a_face_is_drawn_once_whichever_words_stand_at_its_line(shape, monkeypatch):
    desk = Desk(book(shape, 12))
    views, was = [], stack._Views._lined
    monkeypatch.setattr(
        stack._Views, "_lined", lambda self, plane, **how: views.append(plane) or was(self, plane, **how)
    )
    with printing_in(desk.book.job.units):
        drawn = counted(monkeypatch, stack, "wood", lambda: [one.draw() for one in part_sheets(desk)])[1]
    assert drawn == len(views) > 0


@pytest.mark.parametrize("shape", ["bays", "ring", "lattices"])
def test_no_way_to_lay_out_a_part_is_tried_twice(shape, monkeypatch):
    desk = Desk(book(shape, 12))
    tried, was = [], PartPage._with_table

    def noted(page, ruler, made):
        tried.append((page, ruler, made))  # kept, so that no other takes its place in memory
        return was(page, ruler, made)

    monkeypatch.setattr(PartPage, "_with_table", noted)
    with printing_in(desk.book.job.units):
        for one in part_sheets(desk):
            list(one.draw())
    ways = [(id(page), ruler, tuple(made)) for page, ruler, made in tried if made]
    assert len(set(ways)) == len(ways) > 0


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


@pytest.mark.parametrize("shape", ["bays", "lattices"])
def test_an_upright_sheet_that_is_said_to_have_no_room_has_none(shape):
    desk = Desk(book(shape, 12))
    with printing_in(desk.book.job.units):
        for one in [one for one in fellows(desk) if isinstance(one, AlikeParts)][:6]:
            page = PartPage(desk, one, A4)
            ruler = page.subject.rulers(page.space)[0]
            while not page._has_no_room(ruler):  # lower and lower, until it is said of it
                page.space = replace(page.space, bottom=page.space.bottom - 1.0)
            foot = page.stack(ruler).bottom
            for made in page.made():
                assert page._under(ruler, foot, made) is None
                assert not page._has_margin(ruler) or page._margined(ruler, made) is None
