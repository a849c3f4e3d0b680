"""The file on disk: whose bytes it keeps, and what is said where it may not or cannot be written.

Somebody else may write at any moment: what they wrote is on the disk afterwards, and in the history.
"""

import errno
import os
import stat

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryfit.errors import JobError
from dryfit.web.store import jobfile
from dryfit.web.store.jobfile import JobFile, OutsideChange, for_browser, from_browser, hash_of
from dryfit.web.store.session import Session
from tests.web.served import SHELF, Window, moved

BOM = b"\xef\xbb\xbf"


@pytest.mark.parametrize(
    ("data", "ends"),
    [
        (SHELF.replace("\n", "\r\n").encode(), "CRLF"),
        (BOM + SHELF.encode(), "LF"),
        (BOM + SHELF.replace("\n", "\r\n").encode(), "CRLF"),
        (SHELF.replace("\n", "\r\n", 9).encode(), "mixed"),
    ],
    ids=["CRLF", "byte order mark", "both", "mixed"],
)
def test_line_ends_and_byte_order_mark_stay_through_drags_and_typing(job, data, ends):
    job.write_bytes(data)
    window = Window(job)
    state = window.state()
    assert state["line_ends"] == ends
    assert state["text"] == SHELF
    window.do(**moved("shelf", 0, 12)).raise_for_status()
    assert job.read_bytes() == data.replace(b'"low"]', b'"low + 12"]')
    typed = window.state()["text"].replace("# demo", "# typed")
    window.write(typed).raise_for_status()
    assert job.read_bytes() == data.replace(b'"low"]', b'"low + 12"]').replace(b"# demo", b"# typed")
    for _ in range(2):
        window.step("undo").raise_for_status()
    assert job.read_bytes() == data
    window.close()


lines = st.lists(st.sampled_from(["a\n", "b\n", "a\r\n", "b\r\n", "\r\n", "\n"]), max_size=8)


@given(before=lines, last=st.sampled_from(["", "x"]), mark=st.booleans())
def test_a_browser_that_changed_nothing_gives_the_same_text_back(before, last, mark):
    text = ("\ufeff" if mark else "") + "".join(before) + last
    assert from_browser(for_browser(text), text) == text


@given(before=lines, at=st.integers(0, 8), new=st.sampled_from(["new\n", "", "p\nq\n"]))
def test_lines_around_a_change_keep_their_own_ends(before, at, new):
    old = "".join(before)
    shown = for_browser(old).splitlines(keepends=True)
    changed = [*shown[:at], new, *shown[at + 1 :]]
    back = from_browser("".join(changed), old)
    assert for_browser(back) == "".join(changed)
    first = next((n for n, (p, q) in enumerate(zip(shown, changed, strict=False)) if p != q), len(shown))
    assert back.startswith("".join(before[: min(first, len(before))]))


def test_a_file_marked_read_only_is_shown_and_never_written(window, job):
    job.chmod(0o444)
    saved = window.state()["saved"]
    assert not saved["writable"]
    assert saved["says"] == "the file is marked read-only"
    refused = window.do(**moved("shelf", 0, 5))
    assert (refused.status_code, refused.json()["error"]["code"]) == (423, "read-only")
    assert job.read_text() == SHELF
    assert stat.S_IMODE(job.stat().st_mode) == 0o444
    job.chmod(0o644)
    window.do(**moved("shelf", 0, 5)).raise_for_status()


def test_the_files_rights_stay(window, job):
    job.chmod(0o640)
    window.do(**moved("shelf", 0, 5)).raise_for_status()
    assert stat.S_IMODE(job.stat().st_mode) == 0o640


def test_a_link_stays_a_link(job, tmp_path):
    link = tmp_path / "link.toml"
    link.symlink_to(job)
    window = Window(link)
    window.do(**moved("shelf", 0, 5)).raise_for_status()
    assert link.is_symlink()
    assert "low + 5" in job.read_text()
    window.close()


@pytest.mark.parametrize(
    ("number", "code", "status"),
    [(errno.ENOSPC, "disk full", 409), (errno.EROFS, "read-only", 423), (errno.EIO, "not written", 409)],
    ids=["disk full", "read-only disk", "broken disk"],
)
def test_a_write_that_fails_leaves_file_and_page_as_they_were(window, job, monkeypatch, number, code, status):
    def fails(*_):
        raise OSError(number, os.strerror(number))

    monkeypatch.setattr(JobFile, "_beside", fails)
    refused = window.do(**moved("shelf", 0, 5))
    assert (refused.status_code, refused.json()["error"]["code"]) == (status, code)
    assert job.read_text() == SHELF
    assert window.revision() == 1
    monkeypatch.undo()
    done = window.do(**moved("shelf", 0, 6)).raise_for_status().json()
    assert '"low + 6"' in job.read_text()
    assert done["state"]["undo"].startswith("shelf moved 6 up")
    window.step("undo").raise_for_status()
    assert job.read_text() == SHELF, "what failed is no step of undo"


def test_an_outside_change_is_taken_in_and_can_be_taken_back(window, job):
    job.write_text(SHELF.replace("depth = 230", "depth = 210"))
    base = window.revision()
    window.do(base, **moved("shelf", 0, 5)).raise_for_status()
    versions = window.client.get("/api/history").json()["versions"]
    assert [v["kind"] for v in versions] == ["edit", "outside", "opened"]
    assert "depth = 210" in job.read_text()
    assert "depth = 210" in window.state()["text"]
    for _ in range(2):
        window.step("undo").raise_for_status()
    assert job.read_text() == SHELF


def test_a_file_put_back_from_elsewhere_is_told_apart(window, job):
    window.do(**moved("shelf", 0, 5)).raise_for_status()
    job.write_text(SHELF)
    window.session.look()
    assert window.state()["last"] == "put back outside, to version 1"


@pytest.mark.parametrize("exchange", [True, False], ids=["exchange", "plain replace"])
def test_an_outside_change_between_look_and_write_is_kept(window, job, monkeypatch, exchange):
    outside = SHELF.replace("# demo", "# from outside")
    beside = JobFile._beside

    def meanwhile(self, data):
        found = beside(self, data)
        job.write_text(outside)
        return found

    if not exchange:
        monkeypatch.setattr(jobfile, "_exchange", lambda: None)
    monkeypatch.setattr(JobFile, "_beside", meanwhile)
    refused = window.do(**moved("shelf", 0, 5))
    assert refused.status_code == 409
    assert job.read_text() == outside
    assert window.state()["text"] == outside
    kept = [v for v in window.client.get("/api/history").json()["versions"] if not v["written"]]
    assert [v["says"] for v in kept] == ["shelf moved 5 up"], "our own change is not lost either"


@pytest.mark.skipif(jobfile._exchange() is None, reason="this system exchanges no two files in one step")
def test_an_outside_change_at_the_very_moment_of_the_write_is_kept(tmp_path, monkeypatch):
    path = tmp_path / "job.toml"
    path.write_bytes(b"old")
    real = jobfile._exchange()
    moments = iter([b"theirs", None])

    def exchange(one, other):
        theirs = next(moments)
        if theirs:
            path.write_bytes(theirs)
        return real(one, other)

    monkeypatch.setattr(jobfile, "_exchange", lambda: exchange)
    with pytest.raises(OutsideChange):
        JobFile(path).write(b"ours", hash_of(b"old"))
    assert path.read_bytes() == b"theirs"
    assert [p.name for p in tmp_path.iterdir()] == ["job.toml"]


def test_a_file_that_is_gone_is_said_and_written_anew(window, job):
    job.unlink()
    window.session.look()
    assert window.state()["saved"]["says"] == "the file is no longer there"
    window.do(**moved("shelf", 0, 5)).raise_for_status()
    assert '"low + 5"' in job.read_text()
    assert not window.state()["saved"]["says"]


def test_bytes_that_are_no_text_are_shown_as_a_mistake_and_kept(window, job):
    wrong = SHELF.encode().replace(b"# demo", b"# d\xe9mo")
    job.write_bytes(wrong)
    window.session.look()
    state = window.state()
    assert state["stale"]
    assert "UTF-8" in state["mistakes"][0]["says"]
    assert window.session.history.data(window.session.row) == wrong


def test_a_job_is_open_in_one_dryfit_at_a_time(window, job):
    with pytest.raises(JobError, match="open in another Dryfit already"):
        Session(job)


def test_a_network_folder_is_said(window, monkeypatch):
    monkeypatch.setattr(jobfile, "file_system", lambda folder: "nfs4")
    assert "network folder" in window.state()["saved"]["says"]


def test_a_folder_that_may_not_be_written_is_shown_without_a_history(job, monkeypatch):
    import sqlite3

    real = sqlite3.connect

    def closed(path, **given):
        if str(path) != ":memory:":
            raise sqlite3.OperationalError("unable to open database file")
        return real(path, **given)

    monkeypatch.setattr(sqlite3, "connect", closed)
    window = Window(job)
    assert window.state()["saved"]["says"] == "its folder may not be written"
    assert window.do(**moved("shelf", 0, 5)).status_code == 423
    window.close()
