"""The register of writers: what stands in `writers/` is made, listed and told of, and nothing else knows of it.

Three writers stand in for new ones, all extras: `notes` makes a file, `slips` a folder with a file for each part, and
`outlines` needs a library that nobody has.
"""

import json

import pytest

from dryfit.cli import SOUND, main
from dryfit.documents.bookjson import book_stamp
from dryfit.documents.looks import Desk
from dryfit.documents.stamps import SIGN, stamp_in
from dryfit.documents.writer import Writer
from dryfit.documents.writers import WRITERS
from dryfit.documents.writing import write_book
from dryfit.editing.refusals import Refused
from dryfit.web.papers import PaperShelf
from dryfit.web.worker.messages import PaperMade
from tests.documents.samples import sample_book

PROMISED = [
    "book.json",
    "parts.csv",
    "order.csv",
    "model.glb",
    "workshop.pdf",
    "assembly.pdf",
    "order.pdf",
]  # docs/outputs.md
TODAY = [writer.makes for writer in WRITERS.values() if not writer.extra]
JOB = """\
dryfit = 1
[timber.oak]
species = "oak, white"
thickness = 20
[[board]]
name = "shelf"
line = [[0, 0], [600, 0]]
depth = 200
"""


class Notes(Writer):
    name = "notes"
    word = "Notes"
    makes = "notes.txt"
    order = 25
    extra = True

    def files(self, desk):
        yield self.makes, book_stamp(desk).encode()


class Slips(Writer):
    name = "slips"
    word = "A slip a part"
    makes = "slips/"
    extra = True

    def files(self, desk):
        for part in desk.book.piece.parts:
            yield f"slips/{part.mark}.txt", book_stamp(desk).encode()


class Outlines(Writer):
    name = "outlines"
    word = "Outlines"
    makes = "outlines/"
    extra = True
    library = "no_such_library_anywhere"

    def files(self, desk):
        raise AssertionError("it cannot work without its library")
        yield


@pytest.fixture(autouse=True)
def three_more():
    for writer in (Notes, Slips, Outlines):
        WRITERS.file(writer.name, writer())
    yield
    for writer in (Notes, Slips, Outlines):
        del WRITERS[writer.name]


def there(folder):
    return sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file())


def test_those_of_today_stand_in_their_order_and_each_word_and_file_has_one_owner():
    assert [file for file in TODAY if file in PROMISED] == PROMISED
    for told in ("word", "makes", "name"):
        said = [getattr(writer, told) for writer in WRITERS.values()]
        assert len(said) == len(set(said))


def test_every_file_of_a_set_carries_its_stamp():
    desk = Desk(sample_book())
    for writer in WRITERS.values():
        if not writer.lacks():
            assert {stamp_in(data) for _, data in writer.made(desk)} == {book_stamp(desk)}, writer.name


def test_an_extra_is_made_where_it_is_asked_for_and_only_there(tmp_path):
    write_book(sample_book(), tmp_path / "without")
    assert there(tmp_path / "without") == sorted(TODAY)

    written = write_book(sample_book(), tmp_path / "with", ["notes"])
    assert [path.name for path in written] == [
        writer.makes for writer in WRITERS.values() if not writer.extra or writer.name == "notes"
    ], "as lists have them"
    assert 0 < [path.name for path in written].index("notes.txt") < len(written) - 1


def test_an_extra_of_an_earlier_state_does_not_stay_beside_new_papers_as_if_it_were_one(tmp_path):
    write_book(sample_book(), tmp_path, ["notes"])
    write_book(sample_book(), tmp_path)
    assert "notes.txt" in there(tmp_path), "it is of the same state"

    write_book(sample_book(title="changed"), tmp_path)
    assert {"notes.old.txt"} == set(there(tmp_path)) - set(TODAY)


def test_a_folder_of_its_own_holds_what_was_made_last_and_what_others_put_there(tmp_path):
    book = sample_book()
    marks = sorted(part.mark for part in book.piece.parts)
    (tmp_path / "slips").mkdir()
    (tmp_path / "slips" / "mine.txt").write_text("mine", encoding="utf-8")
    (tmp_path / "slips" / "Z.txt").write_text(f"{SIGN}000000000000 of a part that is gone", encoding="utf-8")

    written = write_book(book, tmp_path, ["slips"])

    assert [path.relative_to(tmp_path).as_posix() for path in written if path.parent != tmp_path] == [
        f"slips/{m}.txt" for m in marks
    ]
    assert there(tmp_path / "slips") == sorted([*(f"{mark}.txt" for mark in marks), "mine.txt", "Z.old.txt"])
    again = there(tmp_path)
    write_book(book, tmp_path, ["slips"])
    assert there(tmp_path) == again, "what is laid aside is not laid aside again"


def test_a_folder_that_cannot_be_put_in_place_leaves_nothing_behind(tmp_path):
    """A file stands where the folder would."""
    (tmp_path / "slips").write_text("mine", encoding="utf-8")
    with pytest.raises(Exception, match="nothing was replaced"):
        write_book(sample_book(), tmp_path, ["slips"])
    assert there(tmp_path) == ["slips"]
    assert (tmp_path / "slips").read_text(encoding="utf-8") == "mine"


@pytest.mark.parametrize("name", ["other.txt", "slips/../other.txt", "slipsA.txt", "/slips/A.txt"])
def test_a_writer_that_leaves_its_place_is_a_fault(monkeypatch, name):
    monkeypatch.setattr(Slips, "files", lambda self, desk: iter([(name, b"")]))
    with pytest.raises(AssertionError, match="slips makes slips/"):
        list(WRITERS["slips"].made(Desk(sample_book())))


def test_what_lacks_its_library_is_left_out_and_said_in_the_terminal_and_the_data(tmp_path, capsys):
    job = tmp_path / "shelf.toml"
    job.write_text(JOB, encoding="utf-8")
    out = tmp_path / "papers"

    assert main(["book", str(job), "--out", str(out), "--extra", "outlines", "--extra", "slips"]) == SOUND

    said = capsys.readouterr().out
    why = "it needs the library no_such_library_anywhere, which is not installed"
    assert f"  left out: outlines/ ({why})" in said
    assert "  slips/A.txt" in said
    left = json.loads((out / "book.json").read_text(encoding="utf-8"))["left_out"]
    assert {"name": "outlines/", "why": why} in left
    assert there(out) == sorted([*TODAY, "slips/A.txt"])


def test_the_page_lists_all_with_words_makes_extras_only_by_name_and_says_what_is_left_out(tmp_path):
    shelf = PaperShelf(tmp_path / "wall.toml")
    listed = {paper.file: paper for paper in shelf.shown(1).papers}

    assert list(listed) == [writer.makes for writer in WRITERS.values()]
    assert listed["workshop.pdf"].word == "Workshop book"
    assert listed["notes.txt"].extra
    assert "not installed" in listed["outlines/"].left_out
    begun = shelf.begin([])[1]
    assert {WRITERS[name].makes for name in begun} == set(TODAY)
    assert begun[-1] == "book", "the data tells what the others lack"
    assert shelf.begin(["notes.txt", "slips/"])[1] == ("notes", "slips")
    with pytest.raises(Refused) as told:
        shelf.begin(["outlines/"])
    assert "no_such_library_anywhere" in told.value.fault.says


def test_the_page_saves_a_folder_beside_the_job(tmp_path):
    (tmp_path / "wall.toml").write_text(JOB, encoding="utf-8")
    shelf = PaperShelf(tmp_path / "wall.toml")
    stamp = f"{SIGN}{1:012x}".encode()
    files = (("slips/A.txt", stamp), ("slips/B.txt", stamp))
    shelf.put(PaperMade(task=1, revision=1, file="slips/", files=files, pages=(), pictures=()))

    (listed,) = [paper for paper in shelf.shown(1).papers if paper.file == "slips/"]
    assert (listed.files, listed.size_bytes) == (2, 2 * len(stamp))
    assert shelf.save(["slips/"]).files == ("slips/A.txt", "slips/B.txt")
    assert there(shelf.folder) == ["slips/A.txt", "slips/B.txt"]
