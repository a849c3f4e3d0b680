"""Two windows at one job: what they do at different boards is put together, what they do to the same is told.

A window that has not heard of the other's change yet sends its own on the revision that it last saw.
"""

import re

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from dryfit.editing.refusals import Refused
from dryfit.editing.requests import Change
from dryfit.web.store.session import Session
from tests.web.served import SHELF, Window, moved, operation

SAME = [HealthCheck.function_scoped_fixture]
BOARDS = ("left upright", "right upright", "shelf")


def typed(key, entry, **of):
    return {"do": "typed", "card": of, "key": [key], "entry": entry}


def told(answer):
    assert answer.status_code == 409, answer.text
    error = answer.json()["error"]
    assert error["code"] == "stale"
    return f"{error['says']}; {error['remedy']}"


def versions(window):
    return window.client.get("/api/history").json()["versions"]


def test_changes_of_two_boards_are_both_made(window, job):
    base = window.revision()
    window.do(base, **moved("left upright", -10, 0)).raise_for_status()
    done = window.do(base, **typed("depth", "210", board="shelf")).raise_for_status().json()
    assert job.read_text() == SHELF.replace("[[200, 0], [200, 900]]", "[[190, 0], [190, 900]]").replace("230", "210")
    assert done["state"]["text"] == job.read_text()
    assert versions(window)[0]["says"] == "shelf made 210 deep, was 230"
    window.step("undo").raise_for_status()
    assert job.read_text() == SHELF.replace("[[200, 0], [200, 900]]", "[[190, 0], [190, 900]]"), "his alone is undone"


def test_two_keys_of_one_board_are_both_changed(window, job):
    base = window.revision()
    window.do(base, **typed("depth", "210", board="shelf")).raise_for_status()
    window.do(base, **moved("shelf", 0, 10)).raise_for_status()
    assert '[[200, "low + 10"], ["wide", "low + 10"]]\ndepth = 210' in job.read_text()


def test_of_the_same_board_moved_twice_the_second_is_told_both_figures_and_nothing_is_lost(window, job):
    base = window.revision()
    window.do(base, **moved("shelf", 0, 10)).raise_for_status()
    before = job.read_bytes()
    says = told(window.do(base, **moved("shelf", 0, 25)))
    assert "in another window shelf moved 10 up, here shelf moved 25 up" in says
    assert job.read_bytes() == before
    number = int(re.search(r"kept as version (\d+)", says)[1])
    kept = next(one for one in versions(window) if one["version"] == number)
    assert not kept["written"]
    window.post("restore", base_revision=window.revision(), operation_id=operation(), version=number).raise_for_status()
    assert '"low + 25"' in job.read_text()


def late(window, step, base):
    return window.post(step, base_revision=base, operation_id=operation())


def test_an_undo_that_comes_late_takes_back_what_was_seen_and_keeps_what_came_since(window, job):
    window.do(**moved("shelf", 0, 10)).raise_for_status()
    base = window.revision()
    window.do(**typed("depth", "210", board="left upright")).raise_for_status()
    done = late(window, "undo", base).raise_for_status().json()
    assert done["says"] == "undo: shelf moved 10 up"
    with_his = job.read_text()
    assert "low + 10" not in with_his
    assert "depth = 210" in with_his
    assert done["state"]["undo"] == "left upright made 210 deep, was 250"
    window.step("undo").raise_for_status()
    assert job.read_text() == SHELF, "then what came since"


def test_a_redo_that_comes_late_keeps_what_came_since(window, job):
    window.do(**moved("shelf", 0, 10)).raise_for_status()
    window.step("undo").raise_for_status()
    base = window.revision()
    window.do(**typed("depth", "210", board="left upright")).raise_for_status()
    late(window, "redo", base).raise_for_status()
    assert "low + 10" in job.read_text()
    assert "depth = 210" in job.read_text()


def test_an_undo_of_what_somebody_else_has_changed_since_is_refused_with_both_figures(window, job):
    window.do(**moved("shelf", 0, 10)).raise_for_status()
    base = window.revision()
    window.do(**moved("shelf", 0, 7)).raise_for_status()
    before = job.read_bytes()
    says = told(late(window, "undo", base))
    assert "in another window shelf moved 7 up, here shelf moved 10 down; nothing is taken back" in says
    assert job.read_bytes() == before


def test_an_undo_seen_before_an_edit_from_outside_keeps_that_edit(window, job):
    window.do(**moved("shelf", 0, 10)).raise_for_status()
    base = window.revision()
    job.write_text(job.read_text().replace("depth = 230", "depth = 240", 1))
    late(window, "undo", base).raise_for_status()
    assert job.read_text() == SHELF.replace("depth = 230", "depth = 240", 1)


def test_a_measure_that_both_changed_is_told_as_it_is_written(window):
    base = window.revision()
    measure = {"do": "typed", "card": {}, "key": ["measures", "low"]}
    window.do(base, **measure, entry="510").raise_for_status()
    says = told(window.do(base, **measure, entry="520"))
    assert "low of measures: in another window 510, here 520" in says


def test_what_was_changed_outside_is_put_together_too_and_told_as_such(window, job):
    base = window.revision()
    job.write_text(SHELF.replace("depth = 230", "depth = 200"))
    window.do(base, **moved("left upright", -10, 0)).raise_for_status()
    assert "depth = 200" in job.read_text()
    assert "[[190, 0], [190, 900]]" in job.read_text()
    base = window.revision()
    job.write_text(job.read_text().replace("depth = 200", "depth = 190"))
    says = told(window.do(base, **typed("depth", "210", board="shelf")))
    assert "outside shelf made 190 deep, was 200, here shelf made 210 deep, was 200" in says


def test_a_board_drawn_in_both_gets_two_names(window):
    base = window.revision()
    for x in (400, 600):
        window.do(base, do="draw", what="board", points=[[x, 0], [x, 400]]).raise_for_status()
    names = [board["name"] for board in window.state()["drawing"]["boards"]]
    assert len(names) == len(set(names)) == 5


def test_a_board_that_was_taken_out_meanwhile_cannot_be_changed_and_that_is_told(window, job):
    base = window.revision()
    window.do(base, do="delete", boards=["shelf"]).raise_for_status()
    before = job.read_text()
    says = told(window.do(base, **typed("depth", "210", board="shelf")))
    assert "shelf taken out, here shelf made 210 deep, was 230" in says
    assert job.read_text() == before


def test_what_names_a_board_that_is_gone_is_told(window, job):
    """Here the shelf's end is put to the left face of the upright that is taken out in the other window."""
    base = window.revision()
    window.do(base, do="delete", boards=["left upright"]).raise_for_status()
    line = """["left('left upright')", "low"]"""
    here = SHELF.replace('[200, "low"]', line)
    sent = {"base_revision": base, "operation_id": operation(), "text": here}
    says = told(window.post("text", **sent))
    assert "cannot be read" in says
    assert "left('left upright')" not in job.read_text()


def test_undo_on_an_older_job_is_refused_as_before(window):
    base = window.revision()
    window.do(base, **moved("shelf", 0, 10)).raise_for_status()
    told(window.post("undo", base_revision=base, operation_id=operation()))


def test_a_late_change_sent_twice_is_done_once(window, job):
    base, op = window.revision(), operation()
    window.do(base, **moved("left upright", -10, 0)).raise_for_status()
    first = window.do(base, op, **moved("shelf", 0, 10)).raise_for_status().json()
    again = window.do(base, op, **moved("shelf", 0, 10)).raise_for_status().json()
    assert (first["again"], again["again"]) == (False, True)
    assert job.read_text().count('"low + 10"') == 2


# ---- text typed by hand


def wrote(window, was, text, base=None):
    base = window.revision() if base is None else base
    return window.post("text", base_revision=base, operation_id=operation(), text=text, was=was)


def test_text_typed_in_an_older_one_keeps_what_was_changed_meanwhile(window, job):
    window.do(**moved("left upright", -10, 0)).raise_for_status()
    done = wrote(window, SHELF, SHELF.replace("depth = 230", "depth = 210   # from the offcut")).raise_for_status()
    assert "[[190, 0], [190, 900]]" in job.read_text()
    assert "depth = 210   # from the offcut" in job.read_text()
    assert done.json()["state"]["text"] == job.read_text()


def test_the_same_line_typed_in_both_is_told_and_both_are_kept(window, job):
    wrote(window, SHELF, SHELF.replace("depth = 230", "depth = 210")).raise_for_status()
    says = told(wrote(window, SHELF, SHELF.replace("depth = 230", "depth = 240")))
    assert "shelf made 210 deep, was 230, here shelf made 240 deep, was 230" in says
    assert "depth = 210" in job.read_text()
    kept = versions(window)[0]
    assert (kept["written"], kept["says"]) == (False, "text typed by hand")


def test_half_typed_text_is_put_together_by_its_lines(window, job):
    window.do(**moved("left upright", -10, 0)).raise_for_status()
    half = SHELF.replace('name = "shelf"', 'name = "shel')
    wrote(window, SHELF, half).raise_for_status()
    assert job.read_text() == half.replace("[[200, 0], [200, 900]]", "[[190, 0], [190, 900]]")


# ---- any two hands


@st.composite
def two_hands(draw):
    """What two windows do, each at a board of its own."""
    here, there = draw(st.permutations(BOARDS))[:2]

    def act(board):
        by = draw(st.integers(1, 40))
        return draw(
            st.sampled_from(
                [
                    moved(board, by, 0, "plain"),
                    moved(board, 0, by, "plain"),
                    typed("depth", f"{200 + by}", board=board),
                    typed("back", f"{by}", board=board),
                    typed("ends", "level", board=board),
                ]
            )
        )

    return act(here), act(there)


class Hands:
    """The job of a fresh folder, and whoever changes it, all on the revision that it was opened at."""

    def __init__(self, folder):
        self.job = folder / "shelf.toml"
        self.job.write_text(SHELF, encoding="utf-8", newline="")
        self.session = Session(self.job)
        self.base = self.session.revision

    def do(self, doing):
        self.session.change(Change(base_revision=self.base, operation_id=operation(), doing=doing))


@settings(suppress_health_check=SAME, deadline=None, max_examples=40)
@given(two_hands())
def test_two_hands_at_two_boards_come_to_the_same_text_whoever_is_first(tmp_path_factory, doings):
    texts = []
    for two in (doings, doings[::-1]):
        hands = Hands(tmp_path_factory.mktemp("two"))
        for doing in two:
            hands.do(doing)
        hands.session.close()
        texts.append(hands.job.read_text())
    assert texts[0] == texts[1]


@settings(suppress_health_check=SAME, deadline=None, max_examples=40)
@given(st.sampled_from(BOARDS), st.sampled_from(["depth", "back"]), st.integers(1, 90), st.integers(91, 180))
def test_two_hands_at_one_key_are_told_both_figures(tmp_path_factory, board, key, one, other):
    hands = Hands(tmp_path_factory.mktemp("same"))
    hands.do(typed(key, f"{one}", board=board))
    text = hands.job.read_text()
    with pytest.raises(Refused) as told_so:
        hands.do(typed(key, f"{other}", board=board))
    hands.session.close()
    says = told_so.value.fault.says
    assert hands.job.read_text() == text
    assert board in says
    for figure in (one, other):
        assert re.search(rf"(?<!\d){figure}(?!\d)", says), says


@pytest.mark.parametrize("same", [False, True], ids=["two boards", "one board"])
def test_what_came_late_is_in_the_history_after_a_restart(job, same):
    window = Window(job)
    base = window.revision()
    window.do(base, **moved("left upright", -10, 0)).raise_for_status()
    answer = window.do(base, **moved("left upright" if same else "shelf", 0, 10))
    assert (answer.status_code == 409) is same
    text = job.read_text()
    window.close()
    session = Session(job)
    assert session.text == text
    assert any(row.says.startswith("left upright" if same else "shelf") for row in session.history.newest(3))
    session.close()
