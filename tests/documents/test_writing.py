"""Writing a book: what its writers make, no more, whole or not at all, and clear words where it cannot be done."""

import os
import sys

import pytest

from dryfit.documents.writers import WRITERS
from dryfit.documents.writing import write_book
from dryfit.errors import JobError
from tests.documents.samples import sample_book

FILES = tuple(writer.makes for writer in WRITERS.values() if not writer.extra)


def test_what_the_writers_make_is_written_and_nothing_else(tmp_path):
    folder = tmp_path / "out" / "wall"
    written = write_book(sample_book(), folder)

    assert tuple(path.name for path in written) == FILES
    assert sorted(path.name for path in folder.iterdir()) == sorted(FILES)
    assert sorted(path.name for path in tmp_path.iterdir()) == ["out"]


def test_other_files_in_the_folder_are_left_alone(tmp_path):
    (tmp_path / "notes.txt").write_text("mine", encoding="utf-8")
    write_book(sample_book(), tmp_path)

    assert (tmp_path / "notes.txt").read_text(encoding="utf-8") == "mine"


def test_writing_twice_gives_the_same_bytes(tmp_path):
    first = {path.name: path.read_bytes() for path in write_book(sample_book(), tmp_path)}
    second = {path.name: path.read_bytes() for path in write_book(sample_book(), tmp_path)}

    assert first == second


def test_a_folder_that_is_a_file_is_said_with_what_to_do(tmp_path):
    taken = tmp_path / "book"
    taken.write_text("", encoding="utf-8")

    with pytest.raises(JobError) as caught:
        write_book(sample_book(), taken)

    assert "cannot be written" in str(caught.value)
    assert "choose a folder" in str(caught.value)


@pytest.mark.skipif(sys.platform == "win32" or os.getuid() == 0, reason="root may write anywhere")
def test_a_folder_without_leave_to_write_is_said(tmp_path):
    tmp_path.chmod(0o500)
    with pytest.raises(JobError, match="cannot be written"):
        write_book(sample_book(), tmp_path)


def test_a_writer_that_fails_leaves_what_was_there_under_a_name_that_says_it_is_old(tmp_path, monkeypatch, isolated):
    write_book(sample_book(), tmp_path)
    before = {path.name: path.read_bytes() for path in tmp_path.iterdir()}

    def broken(self, desk):
        raise RuntimeError("no ink")

    monkeypatch.setattr(type(WRITERS["workshop"]), "files", broken)
    write_book(sample_book(title="changed"), tmp_path)
    after = {path.name: path.read_bytes() for path in tmp_path.iterdir()}

    assert after.keys() == before.keys() - {"workshop.pdf"} | {"workshop.old.pdf"}
    assert after["workshop.old.pdf"] == before["workshop.pdf"]
    assert after["book.json"] != before["book.json"]


def test_a_rename_that_fails_leaves_no_half_file(tmp_path, monkeypatch):
    def full(source, target):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "replace", full)
    with pytest.raises(JobError, match="No space left"):
        write_book(sample_book(), tmp_path)

    assert list(tmp_path.iterdir()) == []


def test_an_extra_that_is_not_known_is_refused_before_anything_is_made(tmp_path):
    with pytest.raises(JobError, match="no paper is called abacus"):
        write_book(sample_book(), tmp_path / "out", extras=("abacus",))

    assert not (tmp_path / "out").exists()
