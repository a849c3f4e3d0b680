"""The history damaged as disks do it, or written by a newer Dryfit: a sound job opens, and nothing new is lost.

A shelf is changed thirty times; its file is whole throughout. Then bits of its history are turned over, pages
emptied, ends cut off. What matters each time: the job opens as it is in its file, a change is acknowledged, and
after the next opening that change is there and can be taken back.
"""

import random
import shutil
import sqlite3
import zlib

import pytest

from dryfit.editing import requests
from dryfit.editing.refusals import Refused
from dryfit.errors import JobError
from dryfit.web.store import history as history_module
from dryfit.web.store.history import _FORMAT as FORMAT
from dryfit.web.store.history import history_path
from dryfit.web.store.jobfile import hash_of
from dryfit.web.store.session import Session
from tests.web.served import SHELF, moved, operation

CHANGES = 30
PAGE = 4096  # bytes; how sqlite makes them by itself


def change(session, dy=1):
    sent = requests.Change(operation_id=operation(), base_revision=session.revision, doing=moved("shelf", 0, dy))
    session.change(sent)
    return session.row


def undo(session):
    return session.undo(requests.EditAsked(operation_id=operation(), base_revision=session.revision))


@pytest.fixture(scope="module")
def lived(tmp_path_factory):
    """A job that was changed for a while, and is closed."""
    job = tmp_path_factory.mktemp("lived") / "shelf.toml"
    job.write_text(SHELF, encoding="utf-8")
    session = Session(job)
    for n in range(CHANGES):
        change(session, 1 + n % 5)
    session.close()
    return job


@pytest.fixture
def copied(lived, tmp_path):
    """Makes copies of it, each in a folder of its own."""

    def copy(name):
        folder = tmp_path / name
        shutil.copytree(lived.parent, folder)
        return folder / lived.name

    return copy


def assert_sound(job):
    """It opens as its file is; a change is acknowledged, and there at the next opening, and can be taken back."""
    before = job.read_bytes()
    session = Session(job)
    mended = session.history.mended
    assert job.read_bytes() == before
    assert session.text.encode() == before
    assert not session.mistakes
    row = change(session)
    after = job.read_bytes()
    assert after != before
    session.close()
    again = Session(job)
    assert again.row == row
    assert again.history.data(row) == after
    undo(again)
    assert job.read_bytes() == before
    assert hash_of(before) == again.row.hash
    kept = again.history.newest(10_000)
    assert len({one.id for one in kept}) == len(kept)
    assert again.history.mended == "", "it is mended once"
    again.close()
    return mended


def damaged(job, work):
    path = history_path(job)
    data = bytearray(path.read_bytes())
    path.write_bytes(bytes(work(data) or data))
    return path


def test_the_sound_twin_of_all_these_is_not_mended(copied):
    assert assert_sound(copied("sound")) == ""


def test_any_bit_may_be_turned_over(copied):
    """Forty bits at seeded places; some fall into texts, some into the trees, the head, or what is free."""
    draw = random.Random(5)
    for n in range(40):
        job = copied(f"bit {n}")

        def turn(data):
            data[draw.randrange(len(data))] ^= 1 << draw.randrange(8)

        damaged(job, turn)
        assert_sound(job)
        shutil.rmtree(job.parent)


def test_any_page_may_be_empty(copied):
    pages = history_path(copied("first")).stat().st_size // PAGE
    assert pages > 5
    mended = []
    for page in range(pages):
        job = copied(f"page {page}")

        def empty(data, page=page):
            data[page * PAGE : (page + 1) * PAGE] = bytes(PAGE)

        damaged(job, empty)
        session = Session(job)
        mended.append(session.history.mended)
        assert session.trouble == session.history.mended
        session.close()
        assert_sound(job)
    assert sum(map(bool, mended)) > pages // 2
    assert all("the damaged file is kept as shelf.history.damaged-1.sqlite3" in says for says in mended if says)


@pytest.mark.parametrize("left", [0, 1, 16, 99, 100, 511, PAGE, 2 * PAGE, 3 * PAGE + 7, -PAGE, -1])
def test_any_end_may_be_missing(copied, left):
    job = copied("cut")
    damaged(job, lambda data: data[:left])
    assert_sound(job)


def test_what_is_no_history_at_all_is_kept_and_a_new_one_begun(copied):
    job = copied("other")
    path = damaged(job, lambda data: b"not a history at all, but somebody's words" * 200)
    was = path.read_bytes()
    assert "0 versions could be read" in assert_sound(job)
    assert path.with_name("shelf.history.damaged-1.sqlite3").read_bytes() == was


def test_a_damaged_history_gives_what_can_be_read_and_is_kept_as_it_was(copied):
    """The last page holds texts alone: every version is still told, and numbers go on rising."""
    job = copied("texts")
    path = damaged(job, lambda data: data[: -2 * PAGE] + bytes(2 * PAGE))
    was = path.read_bytes()
    session = Session(job)
    rows = session.history.newest(10_000)
    assert path.with_name("shelf.history.damaged-1.sqlite3").read_bytes() == was
    assert len(rows) > CHANGES // 2
    assert session.row.id >= max(row.id for row in rows)
    session.close()


def spoil_texts(job):
    """Turn a bit in every text that is kept."""
    with sqlite3.connect(history_path(job)) as db:
        for digest, packed in db.execute("SELECT hash, packed FROM body").fetchall():
            db.execute("UPDATE body SET packed = ? WHERE hash = ?", (bytes([*packed[:-1], packed[-1] ^ 1]), digest))
    db.close()


def test_where_every_text_is_damaged_undo_says_so_and_what_follows_is_whole(copied):
    job = copied("texts")
    spoil_texts(job)
    session = Session(job)
    with pytest.raises(Refused, match=r"version \d+ cannot be read any more"):
        undo(session)
    before = job.read_bytes()
    change(session)
    undo(session)
    assert job.read_bytes() == before, "the text at opening was written anew"
    assert len(session.history.newest(10_000)) == CHANGES + 3
    session.close()
    assert_sound(job)


def test_a_text_of_another_hash_is_not_given_out(copied):
    job = copied("swapped")
    with sqlite3.connect(history_path(job)) as db:
        db.execute("UPDATE body SET packed = ?", (zlib.compress(b"dryfit = 1 # somebody else's"),))
    db.close()
    session = Session(job)
    with pytest.raises(Refused):
        undo(session)
    session.close()


def test_a_job_that_cannot_be_read_opens_over_damaged_texts(copied):
    job = copied("broken")
    job.write_text("this is no job", encoding="utf-8")
    spoil_texts(job)
    session = Session(job)
    assert session.mistakes
    assert session.drawn is None
    session.close()


def test_damage_that_comes_while_it_is_open_loses_no_change(copied):
    """All but the head is emptied under it. A second opening may not be refused what the first has acknowledged."""
    job = copied("open")
    session = Session(job)
    with history_path(job).open("r+b") as file:
        file.seek(PAGE)
        file.write(bytes(history_path(job).stat().st_size - PAGE))
    acknowledged = [change(session).hash for _ in range(12)]
    session.close()
    assert hash_of(job.read_bytes()) == acknowledged[-1]
    assert_sound(job)


def test_a_mending_that_is_cut_short_is_done_at_the_next_opening(copied, monkeypatch):
    job = copied("short")
    path = damaged(job, lambda data: data[:PAGE] + bytes(PAGE) + data[2 * PAGE :])
    was = path.read_bytes()

    def stopped(*_):
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as patched:
        patched.setattr(history_module.os, "replace", stopped)
        session = Session(job)
        assert "damaged" in session.journal.wait_word(), "it can be looked at, and says why no more"
        with pytest.raises(Refused, match="damaged"):
            change(session)
        session.close()
    assert path.read_bytes() == was
    assert_sound(job)
    assert not list(job.parent.glob(".*.part*"))


# ---- a newer Dryfit's


def newer(job, journal):
    path = history_path(job)
    db = sqlite3.connect(path)
    db.execute(f"PRAGMA journal_mode = {journal}")
    db.execute(f"PRAGMA user_version = {FORMAT + 1}")
    db.execute("ALTER TABLE version ADD COLUMN who TEXT")
    db.commit()
    db.close()
    return {one.name: one.read_bytes() for one in job.parent.iterdir()}


@pytest.mark.parametrize("journal", ["DELETE", "WAL"])
def test_a_newer_history_asks_for_a_newer_dryfit_and_nothing_is_written(copied, journal):
    job = copied("newer")
    was = newer(job, journal)
    with pytest.raises(JobError) as error:
        Session(job)
    assert f"was written by a newer Dryfit (format {FORMAT + 1}, this one knows {FORMAT})" in str(error.value)
    assert "move it away" not in str(error.value)
    assert {one.name: one.read_bytes() for one in job.parent.iterdir()} == was


def test_a_number_of_a_format_that_never_was_is_damage(copied):
    job = copied("head")

    def turn(data):
        data[60:64] = (1 << 20).to_bytes(4, "big")

    damaged(job, turn)
    assert_sound(job)
