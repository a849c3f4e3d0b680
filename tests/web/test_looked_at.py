"""An answer of the slow work counts only for the very text and made file that are drawn.

Here the worker is a dummy that is told what to say; revision 7 is drawn throughout, unless a test draws another.
"""

import dataclasses

import pytest

from dryfit.asking import concerns
from dryfit.book import build, read_job_text
from dryfit.findings import QUESTIONS
from dryfit.piece.setout import NOTHING_MADE, Pin
from dryfit.studies import STUDIES
from dryfit.web import states
from dryfit.web.worker.bench import Bench, _made
from dryfit.web.worker.messages import BookAsked, BookMade, Ended, HowFar, StudyMade, TextAsked
from dryfit.web.worker.slow import Slow
from dryfit.web.worker.worker import Worker
from tests.web.served import NODE, SHELF

PINNED = dataclasses.replace(NOTHING_MADE, pins={"shelf": Pin(mark="Z")})
NOW = TextAsked(revision=7, text=SHELF, file="shelf.toml", made=NOTHING_MADE)


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


class Pipe:
    """What the worker says goes into a list; nothing more is asked of it."""

    def __init__(self):
        self.said = []

    def poll(self, wait=0.0):
        return False

    def send(self, said):
        self.said.append(said)


def words(desk, asked):
    """All that the worker says while it makes a book, by kind."""
    desk.pipe.said.clear()
    desk.make_book(BookAsked(job=asked))
    return [one for one in desk.pipe.said if isinstance(one, StudyMade | BookMade)]


def told(drawn, slow):
    """Who answered, who is open and who waits, by name; every question to it is in one of the first two."""
    checked, left = states.looked_at(drawn, slow)
    names = {one.study for one in checked}, {one.study for one in left}, {one.study for one in left if one.waits}
    assert names[0] | names[1] == {name for name in QUESTIONS if concerns(name, drawn.piece)}
    return names


def slow_of(drawn):
    """Questions about a piece that the page answers when the hand rests."""
    return {"overlap"} | {name for name in STUDIES if concerns(name, drawn.piece)}


def test_until_the_slow_work_has_answered_its_questions_wait(drawn, slow):
    slow.ask()
    assert slow.stands.stands == "working"
    checked, _, waits = told(drawn, slow)
    assert waits == slow_of(drawn)
    assert checked.isdisjoint(slow_of(drawn))
    assert "wood" in checked, "which needs no solids"

    slow.heard(HowFar(task=None, revision=7, done=0.5, what="order"))
    assert (slow.stands.stands, slow.stands.done) == ("working", 0.5)
    slow.heard(book_of(NOW))
    assert slow.stands.stands == "answered"
    checked, _, waits = told(drawn, slow)
    assert slow_of(drawn) - checked == {"carrying"}, "the job has no way along which it is carried"
    assert waits == set()


@pytest.mark.parametrize(
    "later",
    [dataclasses.replace(NOW, revision=8), dataclasses.replace(NOW, made=PINNED)],
    ids=["another text", "another made file, the same revision"],
)
def test_what_was_answered_before_is_no_answer_for_what_is_drawn_now(drawn, slow, later):
    slow.ask()
    for one in words(Bench(Pipe(), None), NOW):
        slow.heard(one)
    slow.now[0] = later
    for _ in range(2):  # before it is asked for again, and after
        assert slow.stands.stands == "working"
        assert slow.stands.done == 0.0
        assert slow.looked_at() is None
        assert told(drawn, slow)[2] == slow_of(drawn)
        assert slow.findings()[1], "what was found then is marked as not up to date"
        assert slow.answered("order").stale
        slow.ask()
    assert slow.worker.asked == [NOW, later]
    slow.heard(book_of(NOW))  # a late word about what was before
    assert slow.stands.stands == "working"
    slow.heard(book_of(later))
    assert slow.stands.stands == "answered"


def test_a_study_that_an_edit_leaves_as_it_was_is_current_before_the_rest_has_answered(slow):
    """Another title changes nothing that order reads; a wider shelf changes what it reads."""
    desk = Bench(Pipe(), None)
    slow.ask()
    assert {one.stands for one in slow.studies()} == {"working"}
    for one in words(desk, NOW):
        slow.heard(one)
    before = slow.answered("order")
    assert (before.stands, before.revision, before.stale, before.done) == ("done", 7, False, 1.0)

    slow.now[0] = dataclasses.replace(NOW, revision=8, text=SHELF.replace('title = "Shelf"', 'title = "Bench"'))
    slow.ask()
    assert slow.answered("order").stale
    said = words(desk, slow.now[0])
    kept = next(one for one in said if isinstance(one, StudyMade) and one.study == "order")
    assert (kept.same, kept.result, kept.key) == (True, None, before.key)
    slow.heard(kept)
    after = slow.answered("order")
    assert (after.revision, after.stale, after.key, after.result) == (8, False, before.key, before.result)
    assert slow.stands.stands == "working", "the rest has not answered"
    assert {one.study for one in slow.studies() if one.stale} == set(STUDIES) - {"order"}

    slow.now[0] = dataclasses.replace(NOW, revision=9, text=SHELF.replace("depth = 250", "depth = 260"))
    assert slow.now[0].text != SHELF
    slow.ask()
    for one in words(desk, slow.now[0]):
        slow.heard(one)
    assert slow.answered("order").key != before.key
    assert not any(one.stale for one in slow.studies())


def test_how_far_a_study_is_is_told_by_itself(slow):
    slow.ask()
    for study, done in (("order", 0.25), ("measures", 0.75)):
        slow.heard(StudyMade(study=study, revision=7, made=NOTHING_MADE, key="k", done=done, stands="working", why="",
                             result=None))  # fmt: skip
    assert {one.study: one.done for one in slow.studies()} == {
        **dict.fromkeys(STUDIES, 0),
        "order": 0.25,
        "measures": 0.75,
    }
    assert slow.answered("order").why == "it is still being worked out"
    assert slow.answered("nonsense").why == "there is no such study"


def test_a_study_that_failed_says_so_and_so_does_what_waits_for_it(isolated, monkeypatch, slow):
    def broken(self, *given):
        raise ZeroDivisionError("division by zero")

    monkeypatch.setattr(type(STUDIES["order"]), "run", broken)
    slow.ask()
    for one in words(Bench(Pipe(), None), NOW):
        slow.heard(one)
    told = {one.study: (one.stands, one.why) for one in slow.studies()}
    assert told["order"][0] == "failed"
    assert told["order"][1].startswith("it failed: ZeroDivisionError: division by zero")
    assert told["glue_up"] == ("waits", "waits for in what order it goes together")
    assert told["measures"] == ("done", "")
    assert slow.answered("order").result is None


def test_the_same_things_measured_and_cut_read_again_are_no_news(slow):
    slow.ask()
    slow.heard(book_of(NOW))
    slow.now[0] = dataclasses.replace(NOW, made=dataclasses.replace(NOTHING_MADE))
    assert slow.stands.stands == "answered"


def test_slow_work_that_stopped_leaves_its_questions_open_and_says_so(drawn, slow):
    slow.ask()
    slow.heard(Ended(task=None, revision=0, why="the background work stopped"))
    slow.ask()
    slow.heard(Ended(task=None, revision=0, why="the background work stopped"))
    assert slow.stands.stands == "stopped"
    _, left = states.looked_at(drawn, slow)
    waits = slow_of(drawn)
    assert {one.study: one.why for one in left if one.study in waits} == dict.fromkeys(waits, slow.stands.says)
    assert slow.stands.says.startswith("the background work stopped twice: ")
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
