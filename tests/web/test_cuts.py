"""Cuts ticked on the page: written beside the job, shown as made, covered by undo and the versions, asked about.

The shelf of `served` is housed in two uprights, 500 up. Cuts are ticked by their keys, as the card has them.
"""

import pytest

from dryfit.editing import requests
from dryfit.piece.made import read_made_text
from dryfit.web.store.session import Session
from tests.web.served import moved, operation

HOUSING = "housing in left upright for shelf"


@pytest.fixture
def made(job):
    return job.with_name("shelf.made.toml")


def tick(window, board, *keys, what="cut", **more):
    return window.do(do="cuts", board=board, cuts=list(keys), what=what, **more)


def cards(window, **of):
    return {cut["key"]: cut for cut in window.client.get("/api/card", params=of).json()["cuts"]}


def test_a_cut_is_ticked_shown_as_made_and_taken_back(window, made):
    done = tick(window, "left upright", HOUSING).raise_for_status().json()
    assert done["says"] == f"{HOUSING} ticked as cut"
    (one,) = read_made_text(made.read_text(encoding="utf-8"), "m").cuts
    assert (one.board, one.opens, one.at) == ("left upright", "other face", 490.95), "500 less half of 18.10"
    assert cards(window, board="left upright")[HOUSING]["made"]
    assert cards(window, joint=["shelf", "left upright"])[HOUSING]["made"]
    assert not cards(window, joint=["shelf", "left upright"])["end of shelf in left upright"]["made"]
    assert not [note for note in done["state"]["notes"] if note["code"].startswith("cut-")]
    tick(window, "left upright", HOUSING, what="take back").raise_for_status()
    assert read_made_text(made.read_text(encoding="utf-8"), "m").cuts == ()
    assert not cards(window, board="left upright")[HOUSING]["made"]


def test_undo_redo_and_versions_cover_what_is_cut(window, made, job):
    before = window.state()["revision"]
    tick(window, "shelf").raise_for_status()
    text, ticked = job.read_bytes(), made.read_bytes()
    window.step("undo").raise_for_status()
    assert read_made_text(made.read_text(encoding="utf-8"), "m").cuts == ()
    window.step("redo").raise_for_status()
    assert made.read_bytes() == ticked
    sent = {"base_revision": window.revision(), "operation_id": operation(), "version": before}
    window.post("restore", **sent).raise_for_status()
    assert read_made_text(made.read_text(encoding="utf-8"), "m").cuts == ()
    assert job.read_bytes() == text, "the job was not changed by any of it"
    assert window.state()["undo"].startswith("back to version")


def test_a_change_of_the_job_against_what_is_cut_stops_with_both_figures(window, job):
    tick(window, "left upright", HOUSING).raise_for_status()
    state = window.do(**moved("shelf", 0.0, 10.0)).raise_for_status().json()["state"]
    (note,) = [note for note in state["notes"] if note["code"] == "cut-otherwise"]
    assert note["severity"] == "stop"
    assert note["limit"] - note["found"] == pytest.approx(10.0)
    assert "its datum end then lies 10 short of where the job has it" in note["says"]
    assert [cure["label"] for cure in note["cures"]] == ["move shelf by 10 along left upright"]
    tick(window, "left upright", HOUSING, what="accept").raise_for_status()
    (note,) = [note for note in window.state()["notes"] if note["code"] == "cut-otherwise"]
    assert note["severity"] == "note"
    assert cards(window, board="left upright")[HOUSING]["accepted"]
    tick(window, "left upright", HOUSING, what="not accept").raise_for_status()
    (note,) = [note for note in window.state()["notes"] if note["code"] == "cut-otherwise"]
    assert note["severity"] == "stop"


@pytest.mark.parametrize(
    "doing",
    [
        {"do": "delete", "boards": ["shelf"]},
        {"do": "copy", "boards": ["shelf"], "by": [0.0, 150.0]},
        {"do": "mirror", "boards": ["shelf"], "x": 500.0},
    ],
    ids=lambda doing: doing["do"],
)
def test_what_would_lose_cuts_is_asked_first_and_done_once_sure(window, made, job, doing):
    tick(window, "shelf").raise_for_status()
    text = job.read_bytes()
    asked = window.do(**doing)
    assert (asked.status_code, asked.json()["error"]["code"]) == (409, "ask")
    assert "shelf" in asked.json()["error"]["says"]
    assert asked.json()["error"]["says"].endswith("?")
    assert job.read_bytes() == text
    sure = {"base_revision": window.revision(), "operation_id": operation(), "doing": doing, "sure": True}
    window.post("edit", **sure).raise_for_status()
    assert job.read_bytes() != text
    window.step("undo").raise_for_status()
    assert job.read_bytes() == text
    assert len(read_made_text(made.read_text(encoding="utf-8"), "m").cuts) > 0


def test_boards_without_cuts_are_not_asked_about(window):
    tick(window, "shelf").raise_for_status()
    window.do(do="copy", boards=["left upright"], by=[0.0, 150.0]).raise_for_status()


def test_a_rename_takes_the_cuts_with_it(window, made):
    tick(window, "shelf").raise_for_status()
    window.do(do="typed", card={"board": "shelf"}, key=["name"], entry="ledge").raise_for_status()
    cuts = read_made_text(made.read_text(encoding="utf-8"), "m").cuts
    assert {one.board for one in cuts} == {"ledge"}
    assert all(cut["made"] for cut in cards(window, board="ledge").values())
    assert not [note for note in window.state()["notes"] if note["code"].startswith("cut-")]


def test_what_another_program_writes_meanwhile_stays_and_is_a_version(window, made):
    tick(window, "left upright", HOUSING).raise_for_status()
    before = window.state()["revision"]
    made.write_text(made.read_text(encoding="utf-8") + "\n# mine\n", encoding="utf-8")
    window.session.look()
    assert window.state()["revision"] == before + 1
    assert window.state()["last"] == "what is cut was changed outside"
    tick(window, "shelf").raise_for_status()
    assert "# mine" in made.read_text(encoding="utf-8")


def test_a_made_file_with_a_mistake_stops_keeps_what_was_last_read_and_is_not_written_over(window, made):
    tick(window, "left upright", HOUSING).raise_for_status()
    broken = made.read_text(encoding="utf-8").replace("across = ", "acros = ")
    made.write_text(broken, encoding="utf-8")
    window.session.look()
    state = window.state()
    (note,) = [note for note in state["notes"] if note["code"] == "made-file-unusable"]
    assert note["severity"] == "stop"
    assert "acros" in note["says"]
    assert cards(window, board="left upright")[HOUSING]["made"], "the last good figures are shown"
    refused = tick(window, "shelf")
    assert refused.status_code == 422
    assert made.read_text(encoding="utf-8") == broken


def test_a_crash_between_the_files_is_finished_at_the_next_opening(job, made, window):
    """The row of a tick is on the disk, the made file is not yet: opening the job again writes it."""
    tick(window, "shelf").raise_for_status()
    ticked = made.read_bytes()
    window.step("undo").raise_for_status()

    session = window.session

    def killed(moment):
        raise SystemExit(moment)

    session.journal.pause = killed
    with pytest.raises(SystemExit):
        session.redo(requests.EditAsked(base_revision=session.revision, operation_id=operation()))
    session.close()
    again = Session(job)
    assert made.read_bytes() == ticked
    again.close()


# ---- fixings called anew, and cuts that the job has no place for

SCREWS = """
[wall]
kind = "timber studs"
lining = 12
hollow = 3

[[fixing]]
{name}board = "shelf"
kind = "long screw"
at = [100, 700]
screw = "wood 5x120"
"""


def screwed(window, name):
    text = window.state()["text"] + SCREWS.format(name=f'name = "{name}"\n' if name else "")
    window.write(text).raise_for_status()
    return name or "fixing of shelf"


def bores(made):
    cuts = read_made_text(made.read_text(encoding="utf-8"), "m").cuts
    return {(one.between, one.name) for one in cuts if one.board != "left upright"}


@pytest.mark.parametrize("named", ["screws", "", "shelf"], ids=["named", "after its board", "as its board"])
def test_a_fixing_called_anew_takes_its_bores_with_it_and_undo_brings_them_back(window, made, named):
    old = screwed(window, named)
    tick(window, "shelf", f"bore 2 of {old}").raise_for_status()
    before = made.read_bytes()
    window.do(do="typed", card={"fixing": old}, key=["name"], entry="wall screws").raise_for_status()

    assert bores(made) == {(("wall screws", "wall"), "bore 2")}
    assert cards(window, fixing="wall screws")["bore 2 of wall screws"]["made"]
    assert not [note for note in window.state()["notes"] if note["code"].startswith("cut-")]
    window.step("undo").raise_for_status()
    assert made.read_bytes() == before


@pytest.mark.parametrize(("named", "after"), [("", "fixing of ledge"), ("screws", "screws"), ("shelf", "shelf")])
def test_a_board_called_anew_takes_only_the_fixing_that_is_called_after_it(window, made, named, after):
    old = screwed(window, named)
    tick(window, "shelf", f"bore 2 of {old}").raise_for_status()
    window.do(do="typed", card={"board": "shelf"}, key=["name"], entry="ledge").raise_for_status()

    assert bores(made) == {((after, "wall"), "bore 2")}
    assert not [note for note in window.state()["notes"] if note["code"].startswith("cut-")]


def test_a_cut_whose_board_is_taken_out_stays_on_the_card_and_can_be_taken_back(window, made):
    tick(window, "left upright", HOUSING).raise_for_status()
    doing = {"do": "delete", "boards": ["shelf"]}
    sure = {"base_revision": window.revision(), "operation_id": operation(), "doing": doing, "sure": True}
    window.post("edit", **sure).raise_for_status()
    old = "old housing in left upright for shelf"

    assert cards(window, board="left upright")[old]["made"]
    assert cards(window, board="left upright")[old]["says"] == "at 491 mm, 18.1 across, 6 deep"
    tick(window, "left upright", old, what="take back").raise_for_status()
    assert read_made_text(made.read_text(encoding="utf-8"), "m").cuts == ()
    assert old not in cards(window, board="left upright")
