"""After any run of changes the page, the file and a build from nothing agree.

Changes, undos, redos, renames and changes from outside are drawn at random from a fixed seed, on the demo with
most joints. What the page shows after each is what a fresh reading of the file's bytes shows; at a few places
the whole piece is built from nothing and compared, drawing and findings.
"""

import random

import pytest

from dryfit.book import Kept, piece_of, read_job_text
from dryfit.book.demos import demo_text
from dryfit.documents.elevation import elevation
from dryfit.findings import in_order
from dryfit.web.store.jobfile import for_browser, hash_of
from tests.fewer import FIRST_LOOK
from tests.web.served import Window, moved

COLD_EVERY = 10  # steps


@pytest.fixture
def wall(tmp_path):
    path = tmp_path / "wall.toml"
    path.write_text(demo_text("record-wall"), encoding="utf-8")
    window = Window(path)
    yield window
    window.close()


def a_change(draw, window):
    """One thing a hand might do next."""
    boards = [board.name for board in window.session.drawn.elevation.boards]
    board = draw.choice(boards)
    kind = draw.choices(
        ["drag", "end", "undo", "redo", "rename", "measure", "copy", "delete", "outside", "text"],
        [30, 12, 20, 12, 8, 6, 4, 3, 2, 3],
    )[0]
    if kind == "drag":
        return window.do(**moved(board, draw.randint(-40, 40), draw.randint(-40, 40)))
    if kind == "end":
        target = {"what": "end", "board": board, "end": draw.choice(["start", "end"])}
        return window.do(do="drag", target=target, by=[draw.randint(-30, 30), 0])
    if kind in ("undo", "redo"):
        return window.step(kind)
    if kind == "rename":
        return window.do(do="typed", card={"board": board}, key=["name"], entry=f"board {draw.randint(1, 10**6)}")
    if kind == "measure":
        return window.do(do="typed", card={}, key=["measures", "step"], entry=str(draw.randint(380, 420)))
    if kind == "copy":
        return window.do(do="copy", boards=[board], by=[draw.randint(60, 300), 0])
    if kind == "delete":
        return window.do(do="delete", boards=[board])
    if kind == "text":
        return window.write(window.state()["text"] + f"# note {draw.randint(1, 9)}\n")
    window.job.write_bytes(window.job.read_bytes() + b"# from outside\n")
    window.session.look()
    return None


def test_page_file_and_a_cold_build_agree_after_any_changes(wall):
    steps = 20 if FIRST_LOOK else 40  # the first 20 are the same
    draw, done = random.Random(5), 0
    for step in range(steps):
        answer = a_change(draw, wall)
        assert answer is None or answer.status_code in (200, 409, 422), answer.text
        done += answer is None or answer.status_code == 200
        data = wall.job.read_bytes()
        session = wall.session
        assert hash_of(data) == session.row.hash == hash_of(session.history.data(session.row))
        if answer is not None and answer.status_code == 200:
            state = answer.json()["state"]
            assert state["text"] == for_browser(data.decode())
            assert state["revision"] == session.revision
        if step % COLD_EVERY == 0:
            cold = piece_of(read_job_text(data.decode(), wall.job.name), bench=Kept())
            assert session.drawn.elevation == elevation(session.drawn.job, cold, Kept().keep)
            assert session.drawn.findings == in_order(list(cold.findings))
    assert done > steps * 0.7, "most of what was drawn could be done"
    while wall.state()["undo"] is not None:
        wall.step("undo").raise_for_status()
    assert wall.job.read_text(encoding="utf-8") == demo_text("record-wall"), "all taken back, the bytes are the first"


def test_two_windows_stay_in_step(wall):
    other = dict(wall.client.headers)
    socket = "ws://127.0.0.1:4170/api/live"
    with wall.client.websocket_connect(socket, headers={"Origin": other["origin"]}) as live:
        assert live.receive_json()["kind"] == "hello"
        done = wall.do(**moved("raking 1", 12, 0)).raise_for_status().json()
        told = live.receive_json()
    assert (told["kind"], told["by"], told["revision"]) == ("changed", "here", done["state"]["revision"])
    assert told["says"] == done["says"]
    assert told["operation_id"]


def test_a_window_that_is_behind_cannot_overwrite_the_other(wall):
    base = wall.revision()
    wall.do(base, **moved("raking 1", 12, 0)).raise_for_status()
    sent = {"base_revision": base, "operation_id": "the-other-window", "text": demo_text("step-shelf")}
    assert wall.post("text", **sent).status_code == 409
    assert "raking 1" in wall.job.read_text()
