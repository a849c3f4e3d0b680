"""One state a folder: papers are put in place together, and whatever stops that is seen in the folder.

The set is of three small papers; the old one says "old", the new one "new". What is stopped is stopped for good, as by
a power cut: a process of its own ends without a word before the first, second, ... of all that it asks of the disk.
"""

import errno
import os
import shutil
import stat
import subprocess
import sys

import pytest

from dryfit.documents import folder as module
from dryfit.documents.folder import ASIDE, NOTE, NewSet, rights_like, standing
from dryfit.documents.stamps import SIGN
from dryfit.documents.writing import save
from dryfit.errors import JobError
from tests.documents.kills import stops

NAMES = ("book.json", "parts.csv", "workshop.pdf")
unix = pytest.mark.skipif(sys.platform == "win32", reason="no fork, no rights, no small disks there")
ASKED = ("replace", "link", "open", "fsync", "unlink")  # of the disk


def put(folder, word, names=NAMES, retired=None):
    with NewSet(folder) as papers:
        for name in names:
            papers.add(name, f"{word} {name}".encode())
        return papers.put(retired or {})


def given_up(folder):
    with NewSet(folder) as papers:
        papers.add("book.json", b"new")
        raise RuntimeError


def words(folder):
    """What each paper says, without the note and what lies aside."""
    files = [path for path in sorted(folder.iterdir()) if path.is_file() and path.name != NOTE]
    return {path.name: path.read_text(encoding="utf-8").split()[0] for path in files}


OLD, NEW = (dict.fromkeys(NAMES, word) for word in ("old", "new"))


# ---- whole


def test_the_papers_stand_and_nothing_else_is_left(tmp_path):
    put(tmp_path, "old")
    put(tmp_path, "new")

    assert words(tmp_path) == NEW
    assert sorted(path.name for path in tmp_path.iterdir()) == sorted(NAMES)


def test_nothing_of_the_user_s_is_touched(tmp_path):
    (tmp_path / "photos").mkdir()
    (tmp_path / "photos" / "wall.jpg").write_bytes(b"jpg")
    (tmp_path / "workshop copy.pdf").write_text("mine", encoding="utf-8")
    put(tmp_path, "new")

    assert (tmp_path / "photos" / "wall.jpg").read_bytes() == b"jpg"
    assert (tmp_path / "workshop copy.pdf").read_text(encoding="utf-8") == "mine"


def test_a_set_that_is_given_up_leaves_the_folder_as_it_was(tmp_path):
    put(tmp_path / "there", "old")
    for folder in (tmp_path / "there", tmp_path / "a" / "b"):
        with pytest.raises(RuntimeError):
            given_up(folder)

    assert words(tmp_path / "there") == OLD
    assert [path.name for path in tmp_path.iterdir()] == ["there"]


def test_a_paper_of_another_set_takes_another_name(tmp_path):
    put(tmp_path, "old")
    put(tmp_path, "new", NAMES[:2], {"workshop.pdf": "workshop.old.pdf", "assembly.pdf": "assembly.old.pdf"})

    assert words(tmp_path) == {"book.json": "new", "parts.csv": "new", "workshop.old.pdf": "old"}


def test_papers_saved_one_by_one_lay_those_of_another_state_aside(tmp_path):
    first, second = (f"{SIGN}{number:012x} ".encode() for number in (1, 2))
    save({"workshop.pdf": first, "parts.csv": first}, tmp_path)
    save({"assembly.pdf": first}, tmp_path)
    assert sorted(path.name for path in tmp_path.iterdir()) == ["assembly.pdf", "parts.csv", "workshop.pdf"]

    save({"workshop.pdf": second}, tmp_path)

    there = sorted(path.name for path in tmp_path.iterdir())
    assert there == ["assembly.old.pdf", "parts.old.csv", "workshop.pdf"]


# ---- stopped


def dies_before(number):
    """From now on the process ends before the so manieth thing that is asked of the disk."""
    left = [number]

    def watched(asked):
        def ask(*given, **named):
            left[0] -= 1
            if left[0] < 0:
                os._exit(9)
            return asked(*given, **named)

        return ask

    for name in ASKED:
        setattr(os, name, watched(getattr(os, name)))


def put_and_die(folder, number):
    """Whether it ended by itself, in a process that is a copy of this one."""
    child = os.fork()
    if child == 0:
        try:
            dies_before(number)
            put(folder, "new")
        finally:
            os._exit(0)
    return os.waitpid(child, 0)[1] == 0


@unix
def test_at_every_instant_it_is_the_old_set_or_the_new_one_or_said_to_be_mixed(tmp_path):
    seen, number, whole = [], 0, False
    while not whole:
        folder = tmp_path / str(number)
        put(folder, "old")
        whole = put_and_die(folder, number)
        stands = standing(folder)
        seen.append("old" if words(folder) == OLD else "new" if words(folder) == NEW else "mixed")
        assert words(folder).keys() == OLD.keys(), "no paper is ever missing"
        assert seen[-1] != "mixed" or stands is not None
        if stands is not None:
            assert dict.fromkeys(stands.new, "new") | dict.fromkeys(stands.old, "old") == words(folder)
        number += 1

    assert list(dict.fromkeys(seen)) == ["old", "mixed", "new"]
    assert seen.count("mixed") == 2  # after the first and after the second of three


@unix
def test_the_next_run_makes_it_good_and_says_what_it_found(tmp_path):
    put(tmp_path, "old")
    number = 0
    while standing(tmp_path) is None or len(standing(tmp_path).new) != 1:
        assert not put_and_die(tmp_path, number)
        number += 1
    assert "do not work from them" in (tmp_path / NOTE).read_text(encoding="utf-8")
    assert any(path.name.startswith(ASIDE) for path in tmp_path.iterdir())

    with NewSet(tmp_path) as papers:
        assert (papers.found.new, papers.found.old) == (NAMES[:1], NAMES[1:])
        for name in NAMES:
            papers.add(name, b"newest")
        papers.put({})

    assert words(tmp_path) == dict.fromkeys(NAMES, "newest")
    assert sorted(path.name for path in tmp_path.iterdir()) == sorted(NAMES)


@unix
@pytest.mark.slow
def test_dryfit_book_stopped_at_ten_instants_never_leaves_two_states_unsaid(tmp_path):
    seen = stops(10, "ten", tmp_path)

    assert [one.says for one in seen if not one.good] == []


# ---- refused by the disk


def failing(monkeypatch, name, error, after):
    """An `os` function that fails from its so manieth call on."""
    asked, left = getattr(os, name), [after]

    def fails(*given, **named):
        left[0] -= 1
        if left[0] < 0:
            raise error
        return asked(*given, **named)

    monkeypatch.setattr(module.os, name, fails)


@pytest.mark.parametrize("after", [0, 1, 2])
@pytest.mark.parametrize("code", [errno.ENOSPC, errno.EDQUOT])
def test_a_full_disk_is_called_one_and_nothing_is_replaced(tmp_path, monkeypatch, after, code):
    put(tmp_path, "old")
    failing(monkeypatch, "fsync", OSError(code, os.strerror(code)), after)

    with pytest.raises(JobError) as told:
        put(tmp_path, "new")

    monkeypatch.undo()
    said = str(told.value)
    assert "the disk is full" in said
    assert "nothing was replaced, the folder is as it was" in said
    assert "make room" in said
    assert words(tmp_path) == OLD
    assert sorted(path.name for path in tmp_path.iterdir()) == sorted(NAMES)


def open_elsewhere(name):
    return PermissionError(errno.EACCES, "Permission denied", "new", None, name)


def test_a_paper_that_is_open_elsewhere_is_named_and_what_was_replaced_is_put_back(tmp_path, monkeypatch):
    """As on Windows, where a file that another program holds open cannot be replaced: here the third of three."""
    put(tmp_path, "old")
    replace = os.replace

    def held(source, target):
        if str(target).endswith("workshop.pdf") and "was " not in str(source):
            raise open_elsewhere(str(target))
        replace(source, target)

    monkeypatch.setattr(module.os, "replace", held)
    with pytest.raises(JobError, match=r"workshop\.pdf cannot be replaced .*as it was; close it") as told:
        put(tmp_path, "new")

    assert told.value.mistakes[0].file == str(tmp_path)
    assert words(tmp_path) == OLD
    assert standing(tmp_path) is None


def test_where_it_cannot_be_put_back_it_is_said_what_is_new_and_what_is_old(tmp_path, monkeypatch):
    put(tmp_path, "old")
    failing(monkeypatch, "replace", OSError(errno.EIO, "Input/output error"), 2)  # the note, one paper, no more

    with pytest.raises(JobError, match=r"new are book\.json; old are parts\.csv and workshop\.pdf: do not work"):
        put(tmp_path, "new")

    monkeypatch.undo()
    assert words(tmp_path) == NEW | dict.fromkeys(NAMES[1:], "old")
    assert standing(tmp_path).new == ("book.json",)


def test_a_disk_without_second_names_is_served_as_well(tmp_path, monkeypatch):
    put(tmp_path, "old")
    failing(monkeypatch, "link", OSError(errno.EPERM, "Operation not permitted"), 0)
    put(tmp_path, "new")

    assert words(tmp_path) == NEW


@pytest.mark.skipif(sys.platform != "linux" or os.getuid() != 0, reason="a small disk is mounted")
def test_a_disk_that_is_really_full_and_then_may_not_be_written(tmp_path):
    """A disk of 64 kB with the old papers on it, and a new one of 100 kB."""
    disk = tmp_path / "disk"
    disk.mkdir()
    made = subprocess.run(
        ["mount", "-t", "tmpfs", "-o", "size=64k", "tmpfs", str(disk)], check=False, capture_output=True
    )
    if made.returncode:
        pytest.skip("it cannot be mounted here")
    try:
        put(disk, "old")
        with pytest.raises(JobError, match="the disk is full"):
            put(disk, "new " + "x" * 100_000)
        assert words(disk) == OLD
        assert sorted(path.name for path in disk.iterdir()) == sorted(NAMES)
        subprocess.run(["mount", "-o", "remount,ro", str(disk)], check=True)
        with pytest.raises(JobError, match="cannot be written: Read-only file system"):
            put(disk, "new")
        assert words(disk) == OLD
    finally:
        subprocess.run(["umount", str(disk)], check=True)


@pytest.mark.skipif(sys.platform == "win32" or os.getuid() == 0, reason="root may write anywhere")
def test_a_folder_that_may_not_be_written_keeps_what_it_has(tmp_path):
    put(tmp_path, "old")
    tmp_path.chmod(0o500)
    try:
        with pytest.raises(JobError, match="choose a folder you may write to"):
            put(tmp_path, "new")
        assert words(tmp_path) == OLD
    finally:
        tmp_path.chmod(0o700)


# ---- who may read them


@unix
@pytest.mark.parametrize(
    ("job", "mask", "paper", "folder"),
    [
        (0o644, 0o022, 0o644, 0o755),
        (0o644, 0o077, 0o600, 0o700),
        (0o600, 0o022, 0o600, 0o700),
        (0o664, 0o002, 0o664, 0o775),
        (0o400, 0o022, 0o600, 0o700),
    ],
    ids=["usual", "private user", "private job", "a team's", "a job that is only read"],
)
def test_papers_have_the_job_s_own_rights_and_the_user_s_mask(tmp_path, job, mask, paper, folder):
    file = tmp_path / "job.toml"
    file.write_text("", encoding="utf-8")
    file.chmod(job)
    out = tmp_path / "out"
    before = os.umask(mask)
    try:
        with NewSet(out, rights_like(file)) as papers:
            papers.add("book.json", b"new")
            papers.put({})
    finally:
        os.umask(before)

    assert stat.S_IMODE((out / "book.json").stat().st_mode) == paper
    assert stat.S_IMODE(out.stat().st_mode) == folder
    shutil.rmtree(out)
