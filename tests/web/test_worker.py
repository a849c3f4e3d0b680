"""The slow work in its own process: what it finds, in what order it is done, how it ends.

The server runs whole here, with its worker. The demo of a small shelf is sound; the record wall has an order of
assembly of some steps and a paper of some thirty sheets.
"""

import json
import os
import signal
import struct
import time

import numpy as np
import pytest

from dryfit.book import build, read_job_text
from dryfit.book.demos import demo_text
from tests.web.served import HOME, PORT, Window, moved

SOCKET = f"ws://127.0.0.1:{PORT}/api/live"
WAIT = 60.0


@pytest.fixture(scope="module")
def wall(tmp_path_factory):
    path = tmp_path_factory.mktemp("wall") / "wall.toml"
    path.write_text(demo_text("record-wall"), encoding="utf-8")
    window = Window(path)
    with window.client:
        yield window


def until(what, wait=WAIT):
    """Ask until something holds."""
    end = time.monotonic() + wait
    while time.monotonic() < end:
        found = what()
        if found:
            return found
        time.sleep(0.05)
    raise AssertionError("it did not come in time")


def rested(window):
    """The state once the slow work has followed."""

    def state():
        found = window.state()
        return found if not found["rest"]["running"] and found["rest"]["revision"] == found["drawn"] else None

    return until(state)


def test_the_slow_work_follows_a_change_and_is_marked_until_then(wall):
    before = rested(wall)
    masses = dict(before["rest"]["masses"])
    assert masses.keys() == {board["name"] for board in before["drawing"]["boards"]}
    changed = wall.do(do="typed", card={}, key=["timber", "oak24", "thickness"], entry="30").raise_for_status().json()
    assert changed["state"]["rest"]["revision"] == before["revision"], "not followed yet"
    order = wall.client.get("/api/study/order").json()
    assert order["stale"], "it says that it is old"
    assert order["result"], "what was found before stays"
    after = rested(wall)
    assert after["rest"]["revision"] == changed["state"]["revision"]
    assert not wall.client.get("/api/study/order").json()["stale"]
    wall.step("undo").raise_for_status()
    assert dict(rested(wall)["rest"]["masses"]) == masses


def test_what_the_page_shows_at_rest_is_what_a_build_finds(wall):
    state = rested(wall)
    book = build(read_job_text(wall.job.read_text(encoding="utf-8"), wall.job.name))
    assert [(note["code"], note["says"]) for note in state["notes"]] == [(f.code, str(f.says)) for f in book.findings]
    assert not any(note["stale"] for note in state["notes"])
    assert dict(state["rest"]["masses"]) == pytest.approx(dict(book.mass_kg))


def test_a_study_is_tried_in_the_worker_and_answers_as_in_the_book(wall):
    """None of today's studies has a lever: without one moved, what is tried is what the book has."""
    rested(wall)
    tried = wall.post("study/order", base_revision=wall.revision(), levers={}).raise_for_status().json()
    assert (tried["stands"], tried["why"], tried["revision"]) == ("done", "", wall.revision())
    assert tried["result"] == wall.client.get("/api/study/order").json()["result"]
    assert wall.post("study/order", base_revision=wall.revision() - 1, levers={}).json()["error"]["code"] == "stale"


def parts_of(data):
    (size,) = struct.unpack("<I", data[:4])
    head = json.loads(data[4 : 4 + size])
    return head, memoryview(data)[4 + size :]


def volume(vertices, triangles):
    a, b, c = (vertices[triangles[:, i]].astype(np.float64) for i in range(3))
    return float(np.einsum("ij,ij->i", a, np.cross(b, c)).sum() / 6)


def test_the_model_is_the_parts_and_names_every_cuts_faces(wall):
    """Volumes against the solids', which are made another way; each cut that leaves a face has its triangles."""
    book = build(read_job_text(wall.job.read_text(encoding="utf-8")))
    head, buffers = parts_of(wall.client.get("/api/model").raise_for_status().content)
    assert [part["board"] for part in head["parts"]] == [part.id for part in book.piece.parts]
    for shown, part in zip(head["parts"], book.piece.parts, strict=True):
        at, count = shown["vertices"]
        vertices = np.frombuffer(buffers[at : at + 12 * count], dtype="<f4").reshape(-1, 3)
        at, count = shown["triangles"]
        triangles = np.frombuffer(buffers[at : at + 12 * count], dtype="<u4").reshape(-1, 3)
        assert volume(vertices, triangles) == pytest.approx(book.solids.volume(part), rel=1e-5)
        assert sum(run[1] for run in shown["runs"]) == len(triangles)
        named = {run[2] for run in shown["runs"]} - {""}
        assert named == {cut.key for cut in part.cuts}, part.id


def test_a_board_that_only_moved_is_sent_as_its_place_alone(wall):
    head, _ = parts_of(wall.client.get("/api/model").content)
    keys = {part["board"]: part["key"] for part in head["parts"]}
    wall.do(**moved("stopped divider", 7, 0)).raise_for_status()
    query = [("have", key) for key in keys.values()]
    after, buffers = parts_of(wall.client.get("/api/model", params=query).content)
    sent = {part["board"] for part in after["parts"] if part["vertices"] is not None}
    assert sent == {"shelf 2", "shelf 3"}, "it left its slots where they were; the shelves' slots moved"
    assert 0 < len(buffers) < 60_000
    before, now = ({part["board"]: part["matrix"] for part in found["parts"]} for found in (head, after))
    assert now["stopped divider"][12] - before["stopped divider"][12] == pytest.approx(7)
    assert now["shelf 1"] == before["shelf 1"]
    wall.step("undo").raise_for_status()


def test_papers_are_made_with_progress_seen_as_pictures_and_saved(wall):
    with wall.client.websocket_connect(SOCKET, headers={"Origin": HOME}) as socket:
        assert socket.receive_json()["kind"] == "hello"
        task = wall.post("papers", names=["workshop.pdf"]).raise_for_status().json()["task"]
        said = []
        while not said or said[-1]["kind"] != "papers":
            said.append(socket.receive_json())
    progress = [live["says"] for live in said if live["kind"] == "progress" and live["task"] == task]
    assert len(progress) > 10
    assert said[-1]["says"] == ""
    (paper,) = [paper for paper in wall.client.get("/api/papers").json()["papers"] if paper["file"] == "workshop.pdf"]
    assert not paper["stale"]
    assert len(paper["pages"]) > 10
    picture = wall.client.get(paper["pages"][0]["picture"])
    assert picture.headers["content-type"] == "image/svg+xml"
    assert picture.text.startswith("<svg ")
    data = wall.client.get("/api/papers/workshop.pdf").content
    assert data.startswith(b"%PDF-")
    saved = wall.post("papers/save", files=["workshop.pdf"]).raise_for_status().json()
    assert (wall.job.parent / saved["folder"] / "workshop.pdf").read_bytes() == data
    wall.do(**moved("raking 1", 3, 0)).raise_for_status()
    assert [p["stale"] for p in wall.client.get("/api/papers").json()["papers"] if p["revision"]] == [True]
    wall.step("undo").raise_for_status()


def test_papers_that_are_called_off_end_soon(wall):
    rested(wall)
    task = wall.post("papers", names=["workshop.pdf"]).raise_for_status().json()["task"]
    wall.client.delete(f"/api/papers/{task}").raise_for_status()
    began = time.monotonic()
    until(lambda: wall.client.get("/api/papers").json()["task"] is None, 20.0)
    assert time.monotonic() - began < 15.0


def test_the_latest_of_many_changes_wins(wall):
    rested(wall)
    for n in range(6):
        wall.do(**moved("raking 2", n + 1, 0)).raise_for_status()
    last = wall.revision()
    assert rested(wall)["rest"]["revision"] == last
    for _ in range(6):
        wall.step("undo").raise_for_status()


@pytest.mark.skipif(not hasattr(os, "getpriority"), reason="this system has no such order of processes")
def test_the_slow_work_gives_way_to_the_hand(wall):
    rested(wall)
    worker = os.getpriority(os.PRIO_PROCESS, wall.app.state.service.worker.process_id)
    assert worker > os.getpriority(os.PRIO_PROCESS, 0)


def test_a_worker_that_dies_is_started_again(wall):
    rested(wall)
    worker = wall.app.state.service.worker
    old = worker.process_id
    worker._process.kill()
    until(lambda: worker.process_id != old)
    assert wall.client.get("/api/model").status_code == 200
    wall.do(**moved("raking 1", 1, 0)).raise_for_status()
    rested(wall)
    wall.step("undo").raise_for_status()


@pytest.mark.skipif(not hasattr(signal, "SIGSTOP"), reason="this system cannot hold a process")
def test_the_book_follows_though_its_worker_died_at_it(wall):
    """The worker is held first, so that it is surely at work when it dies."""
    rested(wall)
    worker = wall.app.state.service.worker
    os.kill(worker.process_id, signal.SIGSTOP)
    done = wall.do(do="typed", card={}, key=["timber", "oak24", "thickness"], entry="26").raise_for_status().json()
    until(lambda: wall.state()["rest"]["running"])
    worker._process.kill()
    after = rested(wall)
    assert after["rest"]["revision"] == done["state"]["revision"]
    wall.step("undo").raise_for_status()


def test_what_is_measured_in_the_shop_is_followed_and_is_a_version_of_its_own(wall):
    """`NAME.made.toml` pins which end is the datum: the sheets and the book change, the job's text does not."""
    before = rested(wall)
    made = wall.job.with_name("wall.made.toml")
    made.write_text(
        'dryfit_made = 1\n\n[pinned."raking 1"]\ndatum = "start"\nface_side = "left"\nmark = "Z"\n', encoding="utf-8"
    )
    marks = lambda: {board["name"]: board["mark"] for board in wall.state()["drawing"]["boards"]}  # noqa: E731
    until(lambda: marks()["raking 1"] == "Z", 10.0)
    assert wall.revision() == before["revision"] + 1, "undo and versions cover what is made"
    assert rested(wall)["text"] == before["text"]
    made.unlink()
    until(lambda: marks()["raking 1"] != "Z", 10.0)


def test_a_change_from_outside_is_seen_without_being_asked_for(wall):
    revision, text = wall.revision(), wall.job.read_text(encoding="utf-8")
    wall.job.write_text("", encoding="utf-8")  # an editor that empties the file before it writes it
    time.sleep(0.01)
    wall.job.write_text(f"{text}# from outside\n", encoding="utf-8")
    until(lambda: wall.revision() > revision, 10.0)
    assert wall.state()["text"].endswith("# from outside\n"), "what was written in two steps is one change"
    assert wall.revision() == revision + 1
    wall.step("undo").raise_for_status()
