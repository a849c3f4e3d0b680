"""An answer of the slow work counts only for the very text and made file that are drawn.

Here the worker is a dummy that is told what to say; revision 7 is drawn throughout, unless a test draws another.
"""

import dataclasses

import pytest

from dryfit.asking import concerns
from dryfit.book import build, read_job_text
from dryfit.findings import QUESTIONS
from dryfit.piece.setout import NOTHING_MADE, Pin
from dryfit.web import states
from dryfit.web.worker.bench import _made
from dryfit.web.worker.messages import Asked, Ended, Step
from dryfit.web.worker.slow import Slow
from dryfit.web.worker.worker import Worker
from tests.web.served import NODE, SHELF

PINNED = dataclasses.replace(NOTHING_MADE, pins={"shelf": Pin(mark="Z")})
NOW = Asked(revision=7, text=SHELF, file="shelf.toml", made=NOTHING_MADE)


class Dummy(Worker):
    def __init__(self):
        super().__init__(None, lambda said: None)
        self.asked = []

    def ask_book(self, job):
        self.asked.append(job)


@pytest.fixture
def drawn(window):
    return window.session.drawn


@pytest.fixture
def slow():
    now = [NOW]
    made = Slow(Dummy(), lambda: now[0], lambda kind, **said: None)
    made.now = now
    return made


def book_of(asked):
    return _made(asked, build(read_job_text(asked.text), made=asked.made))


def told(drawn, slow):
    """Who answered, who is open and who waits, by name; every question to it is in one of the first two."""
    checked, left = states.looked_at(drawn, slow)
    names = {one.study for one in checked}, {one.study for one in left}, {one.study for one in left if one.waits}
    assert names[0] | names[1] == {name for name in QUESTIONS if concerns(name, drawn.piece)}
    return names


SLOW = {"overlap", "measures", "order", "glue_up", "fits"}


def test_until_the_slow_work_has_answered_its_questions_wait(drawn, slow):
    slow.ask()
    assert slow.stands.stands == "working"
    checked, _, waits = told(drawn, slow)
    assert waits == SLOW
    assert checked.isdisjoint(SLOW)
    assert "wood" in checked, "which needs no solids"

    slow.heard(Step(task=None, revision=7, done=0.5, what="order"))
    assert (slow.stands.stands, slow.stands.done) == ("working", 0.5)
    slow.heard(book_of(NOW))
    assert slow.stands.stands == "answered"
    checked, _, waits = told(drawn, slow)
    assert checked >= SLOW
    assert waits == set()


@pytest.mark.parametrize(
    "later",
    [dataclasses.replace(NOW, revision=8), dataclasses.replace(NOW, made=PINNED)],
    ids=["another text", "another made file, the same revision"],
)
def test_what_was_answered_before_is_no_answer_for_what_is_drawn_now(drawn, slow, later):
    slow.ask()
    slow.heard(book_of(NOW))
    slow.now[0] = later
    for _ in range(2):  # before it is asked for again, and after
        assert slow.stands.stands == "working"
        assert slow.stands.done == 0.0
        assert slow.looked_at() is None
        assert told(drawn, slow)[2] == SLOW
        assert slow.findings()[1], "what was found then is marked as not up to date"
        assert slow.answered("order").stale
        slow.ask()
    assert slow.worker.asked == [NOW, later]
    slow.heard(book_of(NOW))  # a late word about what was before
    assert slow.stands.stands == "working"
    slow.heard(book_of(later))
    assert slow.stands.stands == "answered"


def test_the_same_things_measured_and_cut_read_again_are_no_news(slow):
    slow.ask()
    slow.heard(book_of(NOW))
    slow.now[0] = dataclasses.replace(NOW, made=dataclasses.replace(NOTHING_MADE))
    assert slow.stands.stands == "answered"


def test_slow_work_that_stopped_leaves_its_questions_open_and_says_so(drawn, slow):
    slow.ask()
    slow.heard(Ended(task=None, revision=0, why="the slow work stopped"))
    slow.ask()
    slow.heard(Ended(task=None, revision=0, why="the slow work stopped"))
    assert slow.stands.stands == "stopped"
    _, left = states.looked_at(drawn, slow)
    assert {one.study: one.why for one in left if one.study in SLOW} == dict.fromkeys(SLOW, slow.stands.says)
    assert slow.stands.says.startswith("the slow work stopped twice: ")
    assert not any(one.waits for one in left)

    slow.now[0] = dataclasses.replace(NOW, revision=8)
    slow.ask()
    assert slow.stands.stands == "working"


def test_without_a_drawing_nothing_is_answered(slow):
    slow.now[0] = None
    checked, left = states.looked_at(None, slow)
    assert checked == ()
    assert {one.study: one.why for one in left} == dict.fromkeys(QUESTIONS, "there is no drawing yet")


def test_what_setting_out_finds_is_not_told_again_by_the_slow_work_though_its_cures_were_tried():
    """Three boards through one point: of the cures that setting out offers some are not sure, and fall away."""
    book = build(read_job_text(NODE))
    offered = sum(len(finding.cures) for finding in book.piece.findings)
    assert 0 < sum(len(finding.cures) for finding in book.findings) < offered

    late = book_of(dataclasses.replace(NOW, text=NODE)).findings

    live = {(finding.code, finding.where, finding.says) for finding in book.piece.findings}
    assert live.isdisjoint((finding.code, finding.where, finding.says) for finding in late)
