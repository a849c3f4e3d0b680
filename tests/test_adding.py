"""What is added by its page in the manual is printed, listed and told of, and in no word that did not come from it.

The templates of the four pages stand as files in a copy of the house: a kind of joint (`plain end`), a study
(`trailer`), a paper (`loading.pdf`) and a file (`lengths.csv`). The piece: an upright 500 long, drawn from the middle
of a shelf that is 20 thick and 600 long, so 490 from its face; 0.5 is left there, and it is 489.5. Both are of 200 by
20: an end of 40 cm2. The trailer is 550 long. Nothing else in the house was changed, so whatever is told of the four is
told by them.
"""

import csv
import io
import re

import pytest

from dryfit.book import build, read_job_text
from dryfit.book.demos import demo_text, demos
from dryfit.documents.display import Text
from dryfit.documents.workshop import workshop_sheets
from dryfit.documents.writers import WRITERS
from dryfit.joints import KINDS
from dryfit.piece.facts import CutForm
from dryfit.sentences import plural
from tests.adding import PAGES, PIECE, house, on_the_page, ran, templates, told
from tests.documents.reading import pages

JOB = f"""\
{PIECE}
[joints]
end_on_face = "plain end"
[joints."plain end"]
gap = 0.5
[trailer]
length = 550
"""
TODAY = [writer.makes for writer in WRITERS.values() if not writer.extra]
EXTRAS = [writer.makes for writer in WRITERS.values() if writer.extra]
FIGURES = {"0", "0.5", "1", "2", "20", "40", "90"}  # of the joint; 1 and 2 count views and the scale
UNCUT = {"stays", "whole", "stands"}  # the sheet's own of a board in which nothing is cut; the demos have no such joint
STAMP = re.compile(r"dryfit-set:[0-9a-f]{12}")


def words(text):
    """The words of a text, in small letters; figures are none, nor is a letter by itself."""
    return set(re.findall(r"[^\W\d_]{2,}", text.lower()))


def figures(text):
    return set(re.findall(r"\d+(?:\.\d+)?", text))


@pytest.fixture(scope="module")
def source():
    files = {place: text for page in PAGES for place, text in templates(page).items()}
    studies = [place for place in files if place.startswith("studies/") and not place.startswith("studies/trailer/")]
    return {place: text for place, text in files.items() if place not in studies}  # one of each; one is there to fail


@pytest.fixture(scope="module")
def job(tmp_path_factory):
    path = tmp_path_factory.mktemp("job") / "piece.toml"
    path.write_text(JOB, encoding="utf-8")
    return path


@pytest.fixture(scope="module")
def copy(tmp_path_factory, source):
    return house(tmp_path_factory.mktemp("house"), source, templates("adding-a-joint", "tests"))


@pytest.fixture(scope="module")
def papers(copy, job):
    """What the command says, and the files that it made."""
    folder = job.with_name("papers")
    said = ran(copy, "-m", "dryfit", "book", str(job), "--out", str(folder))
    return said, {path.name: path.read_bytes() for path in folder.iterdir()}


@pytest.fixture(scope="module")
def sheets(copy, job):
    return told(copy, job)


def test_each_page_asks_for_new_files_alone(source):
    assert sorted(source) == [
        "documents/sheets/loading.py",
        "documents/writers/lengths.py",
        "documents/writers/loading.py",
        "joints/plain_end.py",
        "studies/trailer/__init__.py",
        "studies/trailer/result.py",
    ]


def test_the_command_makes_and_names_the_new_file_and_the_new_paper_in_their_places(papers):
    said, made = papers
    assert sorted(made) == sorted([*TODAY, "lengths.csv", "loading.pdf"])
    named = said.partition("The papers are in")[2].split(":\n", 1)[1].split()
    assert named == [
        "book.json",
        "parts.csv",
        "lengths.csv",
        "order.csv",
        "model.glb",
        "workshop.pdf",
        "assembly.pdf",
        "order.pdf",
        "loading.pdf",
    ]
    assert "shelf is 600 long, the trailer 550" in said
    assert len({STAMP.search(data.decode("latin-1"))[0] for data in made.values()}) == 1, "one set"


def test_the_new_file_says_nothing_but_what_its_template_and_the_job_say(papers, source):
    data = papers[1]["lengths.csv"].decode()
    rows = list(csv.DictReader(io.StringIO(data)))
    assert [(row["board"], row["length"]) for row in rows] == [("shelf", "600"), ("upright", "489.5")]
    unstamped = STAMP.sub("", data)
    assert words(unstamped) <= words(source["documents/writers/lengths.py"]) | words(JOB)
    assert figures(unstamped) == {"600", "489.5"}


def test_the_new_sheet_says_nothing_but_what_its_template_and_the_job_say(papers, sheets, source):
    (sheet,) = [one for one in sheets if one["paper"] == "loading"]
    text = " ".join([sheet["kind"], sheet["title"], *sheet["words"]])
    assert words(text) <= words(source["documents/sheets/loading.py"]) | words(JOB)
    assert figures(text) == {"600", "489.5"}
    (printed,) = pages(papers[1]["loading.pdf"])
    assert {"shelf", "upright", "longest", "van"} <= words(printed)


def test_the_page_lists_makes_shows_and_saves_the_new_ones_in_their_own_words(copy, job, source):
    shown = on_the_page(copy, job)
    new = [paper["file"] for paper in shown["papers"] if paper["file"] not in (*TODAY, *EXTRAS)]
    assert new == ["lengths.csv", "loading.pdf"]
    for paper in shown["papers"]:
        assert (paper["revision"] is None) == (paper["file"] in EXTRAS), paper["file"]
        if paper["file"] in new:
            own = source[f"documents/writers/{paper['name']}.py"]
            assert all(f'"{paper[told]}"' in own for told in ("name", "word", "file"))
    (loading,) = [paper for paper in shown["papers"] if paper["name"] == "loading"]
    assert [page["title"] for page in loading["pages"]] == ["into the van"]
    assert set(shown["saved"]) == {*TODAY, "lengths.csv", "loading.pdf"}
    (note,) = [note for note in shown["notes"] if note["code"] == "longer-than-the-trailer"]
    assert note["light"] == "trailer", "the study says that the finding is its own"


# ---- the new kind of joint


def test_what_holds_for_every_joint_holds_for_the_new_one(copy):
    """Its solids are those of its closed form; drawn from its other end it is the same."""
    tests = [f"tests/property/test_{name}.py" for name in ("volumes_and_gaps", "reversed_lines")]
    named = "(plain and end) or every_kind_of_joint"
    said = ran(copy, "-m", "pytest", "-q", "-k", named, *tests, cwd=copy.parent)
    assert "7 passed" in said


@pytest.fixture(scope="module")
def sheets_own():
    """Words that stand on the details of two kinds at least: they are the sheet's, and of no one kind."""
    of: dict[str, set[str]] = {name: set() for name in KINDS}
    for demo in demos():
        for draft, _ in workshop_sheets(build(read_job_text(demo_text(demo)))):
            for name in KINDS:
                if draft.kind == "joint" and name in draft.title:
                    of[name] |= words(" ".join(item.text for item in draft.items if isinstance(item, Text)))
    assert sum(bool(said) for said in of.values()) > 2
    return UNCUT | {word for said in of.values() for word in said if sum(word in other for other in of.values()) > 1}


def test_the_detail_of_the_new_kind_says_nothing_of_another(sheets, source, sheets_own):
    (sheet,) = [one for one in sheets if one["kind"] == "joint"]
    assert "plain end" in sheet["title"]
    text = " ".join(sheet["words"])
    assert words(text) - words(source["joints/plain_end.py"]) - words(JOB) - sheets_own == set()
    assert figures(text) <= FIGURES


FORMS = {word for form in CutForm if form is not CutForm.END for word in (form.value, plural(form.value))}
LOOSE = {"dowel", "dowels", "hole", "holes", "key", "keys", "tongue", "plug", "plugs", "stop", "stops", "stopped"}


def test_no_sheet_of_any_paper_speaks_of_what_is_not_in_the_piece(sheets):
    """Nothing is let in, nothing is put in and nothing stops short; only the first sheet names the questions put."""
    assert len({sheet["kind"] for sheet in sheets}) > 5
    for sheet in sheets:
        if sheet["kind"] != "overall":
            said = words(" ".join(sheet["words"]))
            assert sorted(said & (FORMS | LOOSE | {"goes"})) == [], sheet["title"]


def test_an_end_that_only_stands_against_a_face_goes_to_it_and_not_into_it(sheets):
    of = {sheet["title"]: sheet["words"] for sheet in sheets}
    (parts,) = (said for title, said in of.items() if "B  upright" in title)
    assert "to A shelf" in parts
    assert not [text for text in parts if text.startswith("in A")]
    (detail,) = (" ".join(said) for title, said in of.items() if "plain end" in title)
    assert "B comes up to A square to the face of A." in detail
    assert "Knife the ends, work in the waste." in " ".join(parts)


def test_no_sheet_names_another_kind(sheets):
    others = {name for name in KINDS if " " not in name} | {"halving", "screw", "screws"}
    for sheet in sheets:
        assert not words(" ".join([sheet["title"], *sheet["words"]])) & others, sheet["title"]
