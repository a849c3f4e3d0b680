"""Whatever a hand does, right or absurd, is answered: done, or refused in words; never by a fault of the server.

Three jobs are pulled at by a seeded hand: the small shelf; a wall with a board of 4,000 in stock of 1,500 (three
members), a row of four and a frame; the demo with its fixings and units. The hand names things that are there and
things that are not, moves them onto each other and out of the room, and types figures, words and rubbish. Every
few changes it takes some back. Values come in classes that have each brought a program down before: zero, the
least and the largest float, no number at all, brackets without end, half a character, another script's digits.
"""

import random

import pytest

from dryfit.book.demos import demo_text
from dryfit.editing import drawn
from dryfit.job.edits import sheet_of
from dryfit.web.store import session
from tests.web.served import LONG, OWN_FAULT, SHELF, Window, moved

FRAMED = (
    LONG
    + """
[[frame]]
name = "box"
points = [[4200, 0], [4800, 0], [4800, 600], [4200, 600]]
depth = 200
"""
)
RUBBISH = (
    "0", "-1", "99999", "1e5", "nan", "-inf", "1e400", "9" * 400, "1 / 0", "1 / (low - low)", "", " ", "(" * 3000,
    "1" + " + 1" * 2000, "-" * 2000 + "1", "low", "i", "1_0", "0x10", "true", "[1, 2]", "1,2", "2 ft 3 in", "1 1/2 in",
    "3**2", "½", "١٢", "é\u2028", "\x00", "\\", '"', "#", "a\nb", "shelf", "box", "housing", "cross halving", "mitre",
)  # fmt: skip
KEYS = (
    "name", "kind", "front", "depth", "width", "line", "line_is", "lies", "back", "count", "timber", "thickness",
    "clearance", "stop", "points", "closed", "size", "names", "except", "measures", "low", "units", "studs", "system",
    "longest", "splice_at", "between", 0, 1, 3, 2000,
)  # fmt: skip
CHOICES = ("", "", "here", "only this one", "plain", "named", "measure low", "measure width", "no way at all")


class Hand:
    """Does something to a job, mostly what a hand might do."""

    def __init__(self, window, seed):
        self.window = window
        self.draw = random.Random(seed)
        self.look()

    def look(self):
        job, state = self.window.session.drawn.job, self.window.state()
        self.boards = [board["name"] for board in state["drawing"]["boards"]]
        self.boards += [spec.name for spec in job.boards] + ["wall", "floor", "nobody"]
        self.frames = [frame.name for frame in job.frames] + ["nobody"]
        self.joints = [joint["boards"] for joint in state["drawing"]["joints"]] or [["one", "other"]]
        self.fixings = [fixing.name for fixing in job.fixings] + ["nothing"]

    def one(self, *of):
        found = self.draw.choice(of)
        return found() if callable(found) else found

    def figure(self):
        return self.one(
            0, -0.0, 1, 12, 37.5, -100, 600, 1e-9, 1e5, -1e5, lambda: round(self.draw.uniform(-3e3, 3e3), 2)
        )

    def point(self):
        return [self.figure(), self.figure()]

    def some_boards(self):
        return [self.draw.choice(self.boards) for _ in range(self.one(1, 1, 1, 2, 3))]

    def target(self):
        corner = self.one(0, 1, 3, 4, 2000)
        return self.one(
            {"what": "boards", "boards": self.some_boards()},
            {"what": "end", "board": self.one(*self.boards), "end": self.one("start", "end")},
            {"what": "corner", "frame": self.one(*self.frames), "corner": corner},
            {"what": "side", "frame": self.one(*self.frames), "side": corner},
            {"what": "new"},
        )

    def card(self):
        return self.one(
            {},
            {"board": self.one(*self.boards)},
            {"frame": self.one(*self.frames)},
            {"joint": self.one(*self.joints)},
            {"joint": [self.one(*self.boards), self.one(*self.boards)]},
            {"fixing": self.one(*self.fixings)},
        )

    def path(self):
        """A place of the file, or one near it."""
        path = list(self.draw.choice([*sheet_of(self.window.session.text).spans.values]))
        match self.draw.randrange(8):
            case 0:
                path[-1] = self.one(*KEYS)
            case 1:
                path.append(self.one(*KEYS))
            case 2 if len(path) > 1:
                path.pop()
            case 3:
                path[0] = self.one(*KEYS)
        return path

    def value(self):
        line = [self.point(), self.point()]
        table = {"name": self.one(*RUBBISH), "line": line, "depth": self.figure()}
        return self.one(
            self.figure, lambda: self.one(*RUBBISH), self.point, None, True, [], {}, line, table, {"a": {"b": [None]}}
        )

    def doing(self):
        do = self.one("drag", "drag", "figure", "typed", "typed", "draw", "copy", "mirror", "delete", "edits")
        given = {
            "drag": lambda: {"target": self.target(), "by": self.point(), "choice": self.one(*CHOICES), "name": "new"},
            "figure": lambda: {"target": self.target(), "axis": self.one("x", "y"), "now": self.figure(),
                               "entry": self.one(*RUBBISH)[:2000] or "1"},
            "typed": lambda: {"card": self.card(), "entry": self.one(True, None, lambda: self.one(*RUBBISH)),
                              "key": [self.one(*KEYS) for _ in range(self.one(1, 1, 1, 2, 3))]},
            "draw": lambda: {"what": self.one("board", "frame"), "closed": self.one(True, False),
                             "points": [self.point() for _ in range(self.one(2, 2, 3, 4))]},
            "copy": lambda: {"boards": self.some_boards(), "by": self.point()},
            "mirror": lambda: {"boards": self.some_boards(), "x": self.figure(), "keep": self.one(True, False)},
            "delete": lambda: {"boards": self.some_boards()},
            "edits": lambda: {"edits": [
                {"action": self.one("set", "add", "remove", "rename", "shift"), "path": self.path(),
                 "value": self.value()} for _ in range(self.one(1, 1, 2))]},
        }  # fmt: skip
        return {"do": do, **given[do]()}

    def act(self):
        """One request; what was sent, and its answer."""
        way = self.one("preview", "preview", "edit", "drag", "card")
        sent = {"preview": self.doing, "edit": self.doing, "drag": self.target, "card": self.card}[way]()
        window = self.window
        if way == "card":
            return sent, window.client.get("/api/card", params=sent)
        if way == "drag":
            return sent, window.post("drag", base_revision=window.revision(), target=sent)
        return sent, window.preview(**sent) if way == "preview" else window.do(**sent)

    def take_back(self):
        """Undo until the text can be read; now and then once more."""
        while self.window.state()["mistakes"]:
            self.window.step("undo").raise_for_status()
        if self.draw.random() < 0.3 or len(self.boards) > 60:
            self.window.step("undo")
        while self.window.state()["mistakes"]:
            self.window.step("undo").raise_for_status()


@pytest.mark.parametrize("seed", [1, pytest.param(2, marks=pytest.mark.slow)])
@pytest.mark.parametrize(
    "text",
    [SHELF, *(pytest.param(text, marks=pytest.mark.slow) for text in (FRAMED, demo_text("record-wall")))],
    ids=["shelf", "long", "record wall"],
)
def test_whatever_a_hand_does_is_answered(job, text, seed):
    job.write_text(text, encoding="utf-8")
    window = Window(job)
    hand = Hand(window, seed)
    answers = dict.fromkeys((200, 404, 422), 0)
    for _ in range(150):
        sent, answer = hand.act()
        assert answer.status_code in answers, (sent, answer.text[:500])
        assert OWN_FAULT not in answer.text, (sent, answer.text[:500])
        told = answer.json() if answer.status_code == 200 else {}  # a preview tells there why it cannot be
        answers[422 if told.get("refused") else answer.status_code] += 1
        if "state" in told:
            hand.take_back()
            hand.look()
    assert min(answers.values()) > 5, f"the hand does things of every kind: {answers}"
    window.close()


LONE = b'"\\ud800"'


@pytest.mark.parametrize(
    "body",
    [
        b"{%s: 1}" % LONE,
        b'{"base_revision": 1, "operation_id": "12345678", "text": %s}' % LONE,
        b'{"base_revision": 1, "operation_id": %s, "text": ""}' % LONE,
        b'{"base_revision": 1, "operation_id": "12345678", "doing": {"do": "copy", "boards": [%s], "by": [0, 0]}}'
        % LONE,
        b'{"base_revision": 1, "names": [%s], "files": [%s]}' % (LONE, LONE),
        b"[" * 100_000,
        b'{"base_revision": NaN}',
        b'{"base_revision": 1%s}' % (b"0" * 5000),
    ],
    ids=["key", "text", "operation", "board", "names", "nested", "no number", "long number"],
)
def test_half_characters_and_endless_brackets_are_refused_in_the_one_shape(window, body):
    for path in ("edit", "text", "undo", "restore", "drag", "preview", "papers", "papers/save"):
        answer = window.client.post(f"/api/{path}", content=body, headers={"Content-Type": "application/json"})
        assert 400 <= answer.status_code < 500, (path, answer.text)
        assert answer.json()["error"]["says"]


def breaks(*_, **__):
    raise ZeroDivisionError("nobody foresaw it")


def test_a_text_that_cannot_be_drawn_by_a_fault_of_ours_is_saved_marked_and_taken_back(window, job, monkeypatch):
    monkeypatch.setattr(drawn, "piece_of", breaks)
    seen = window.preview(**moved("shelf", 0, 12)).raise_for_status().json()
    assert "fault in Dryfit" in seen["mistakes"][0]["says"]
    done = window.do(**moved("shelf", 0, 12)).raise_for_status().json()
    assert '"low + 12"' in job.read_text(encoding="utf-8"), "what was done is saved, whether or not it can be shown"
    (mistake,) = done["state"]["mistakes"]
    assert "fault in Dryfit" in mistake["says"]
    assert "undo" in mistake["remedy"] or "back" in mistake["remedy"]
    assert len(done["state"]["drawing"]["boards"]) == 3, "the last good drawing stays"
    monkeypatch.undo()
    assert not window.step("undo").raise_for_status().json()["state"]["mistakes"]
    assert job.read_text(encoding="utf-8") == SHELF


def test_what_cannot_be_written_by_a_fault_of_ours_is_refused_and_nothing_is_changed(window, job, monkeypatch):
    monkeypatch.setattr(session, "change_job_text", breaks)
    refused = window.do(**moved("shelf", 0, 12))
    assert (refused.status_code, refused.json()["error"]["code"]) == (500, "fault")
    assert job.read_text(encoding="utf-8") == SHELF
    monkeypatch.undo()
    window.do(**moved("shelf", 0, 12)).raise_for_status()


def test_a_history_that_can_no_longer_be_read_is_said(window, job):
    window.session.history.close()
    for answer in (window.do(**moved("shelf", 0, 5)), window.client.get("/api/history"), window.step("undo")):
        assert (answer.status_code, answer.json()["error"]["code"]) == (409, "not written")
    assert job.read_text(encoding="utf-8") == SHELF
