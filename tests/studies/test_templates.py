"""The page "adding a study" followed: its templates taken off it, each put where it says, and a piece built with them.

The piece is a shelf 600 long on which an upright 500 high stands, both 200 deep: 600 x 510 x 200 around. Through a
hatch 150 wide it lacks 200 + 20 - 150 = 70, with 60 for hands 110; a hatch 900 wide it passes.
"""

import json
import re
import sys
import types
from contextlib import redirect_stdout
from io import StringIO
from pathlib import Path

import jsonschema
import pytest

from dryfit import findings
from dryfit.book import build, job_schema, read_job_text
from dryfit.cli import MUST_CHANGE, SOUND, main, telling
from dryfit.documents.bookjson import book_data
from dryfit.documents.bookschema import book_schema
from dryfit.documents.writers import WRITERS
from dryfit.errors import JobError
from dryfit.studies import STUDIES
from dryfit.web.worker.bench import Bench
from dryfit.web.worker.messages import BookAsked, BookMade, StudyAsked, StudyMade
from tests import adding
from tests.documents.reading import pages
from tests.web.served import Window
from tests.web.test_looked_at import Pipe

PAGE = Path(__file__).parents[2] / "docs" / "adding-a-study.md"
BLOCK = re.compile(r"^`src/dryfit/studies/(\w+)/(\w+)\.py`\n\n```python\n(.*?)^```", re.MULTILINE | re.DOTALL)
PIECE = f"{adding.PIECE}[measures]\ngap = 150\n"
HANGS = "[wall]\nhung = true\n"  # so that every study concerns it
TRAILER = '[trailer]\nlength = "gap * 3.5"\n'
HATCHES = '[[hatch]]\nwidth = 900\n[[hatch]]\nwidth = "gap"\n'


@pytest.fixture
def follow(monkeypatch):
    """Put the templates called so where the page says; taken out again after the test."""
    registers = (STUDIES, findings.QUESTIONS, findings.CONCERNS, findings.CODES, findings.OWNERS)
    before = [dict(register) for register in registers]
    blocks = BLOCK.findall(PAGE.read_text(encoding="utf-8"))

    def put(*names):
        for name in names:
            files = {file: source for room, file, source in blocks if room == name}
            room = types.ModuleType(f"dryfit.studies.{name}")
            room.__path__ = []
            room.__package__ = room.__name__
            result = types.ModuleType(f"{room.__name__}.result")
            result.__package__ = room.__name__
            monkeypatch.setitem(sys.modules, room.__name__, room)
            monkeypatch.setitem(sys.modules, result.__name__, result)
            exec(compile(files["result"], f"{name}/result.py", "exec"), result.__dict__)
            exec(compile(files["__init__"], f"{name}/__init__.py", "exec"), room.__dict__)

    yield put
    for register, kept in zip(registers, before, strict=True):
        register.clear()
        register.update(kept)


def check(tmp_path, text):
    """What `dryfit make` prints and its exit code; the papers stand in `tmp_path`/papers."""
    job = tmp_path / "piece.toml"
    job.write_text(text, encoding="utf-8")
    out = StringIO()
    with redirect_stdout(out):
        code = main(["book", str(job), "--out", str(tmp_path / "papers")])
    made = {path.name: path for path in (tmp_path / "papers").iterdir()}
    assert len(made) == sum(not writer.extra for writer in WRITERS.values()), "all papers, a file each"
    data = json.loads(made["book.json"].read_text(encoding="utf-8"))
    jsonschema.validate(data, book_schema())
    first = " ".join(pages(made["workshop.pdf"].read_bytes())[0].split())
    return code, out.getvalue(), data, first


def served(tmp_path, text):
    """A window on the job, its studies answered by a worker's desk in this process."""
    job = tmp_path / "seen.toml"
    job.write_text(text, encoding="utf-8")
    window = Window(job)
    service = window.app.state.service
    desk = Bench(Pipe(), None)

    async def what_if(asked, study, levers):
        desk.try_study(StudyAsked(number=1, job=asked, study=study, levers=levers))
        return desk.pipe.said[-1].data

    service.worker.what_if = what_if
    desk.make_book(BookAsked(job=service._asked()))
    for one in desk.pipe.said:
        if isinstance(one, StudyMade | BookMade):
            service.slow.heard(one)
    return window


def test_the_template_with_one_table_answers_everywhere(follow, tmp_path):
    follow("trailer")
    code, said, data, _ = check(tmp_path, PIECE + TRAILER)

    assert code == SOUND
    assert "shelf is 600 long, the trailer 525" in said
    assert data["studies"]["trailer"] == {"too_long": ["shelf"]}
    (found,) = [one for one in data["findings"] if one["code"] == "longer-than-the-trailer"]
    assert (found["limit"], found["where"]["path"]) == (525.0, ["trailer", "length"])
    assert "trailer" in {one["study"] for one in data["checked"]}
    window = served(tmp_path, PIECE + TRAILER)
    try:
        answer = window.client.get("/api/study/trailer").json()
        assert (answer["stands"], answer["result"], answer["stale"]) == ("done", {"too_long": ["shelf"]}, False)
        assert "trailer" in {one["study"] for one in window.state()["studies"]}
    finally:
        window.close()


def test_a_question_without_its_table_is_open_everywhere_and_nothing_is_approved(follow, tmp_path):
    follow("trailer", "hatches")
    code, said, data, first = check(tmp_path, PIECE)

    assert code == SOUND
    for what, why in (
        ("parts too long for the trailer", "the job has no [trailer]"),
        ("whether it passes the hatches on its way", "the job has no [[hatch]]"),
    ):
        assert f"{what}: {why}" in said
        assert f"{what} ({why})" in first
    assert {"trailer", "hatches"}.isdisjoint(one["study"] for one in data["checked"])
    assert {"trailer": "the job has no [trailer]", "hatches": "the job has no [[hatch]]"}.items() <= {
        one["study"]: one["why"] for one in data["not_checked"]
    }.items()
    window = served(tmp_path, PIECE)
    try:
        answer = window.client.get("/api/study/hatches").json()
        assert (answer["stands"], answer["why"], answer["result"]) == ("not checked", "the job has no [[hatch]]", None)
    finally:
        window.close()


def test_the_tables_of_the_templates_are_read_checked_and_published(follow):
    follow("trailer", "hatches")
    schema = job_schema()
    assert schema["properties"]["trailer"] == {"$ref": "#/$defs/table trailer"}
    assert schema["properties"]["hatch"] == {"type": "array", "items": {"$ref": "#/$defs/table hatch"}}

    text = PIECE + TRAILER.replace("[trailer]", "[[trailer]]") + "[hatch]\nwidth = 800\n"
    with pytest.raises(JobError) as caught:
        read_job_text(text, "piece.toml")
    line = PIECE.count("\n")
    assert [(one.line - line, one.says, one.remedy) for one in caught.value.mistakes] == [
        (1, "there is only one [trailer]", "write [trailer] on a line of its own"),
        (3, "there may be several hatches", "write [[hatch]], with two brackets"),
    ]


def test_the_template_with_many_tables_answers_for_each_and_its_lever_moves_no_paper(follow, tmp_path):
    follow("hatches")
    code, said, data, _ = check(tmp_path, PIECE + HATCHES)

    assert code == SOUND
    assert "the piece lacks 70 at a hatch 150 wide" in said
    assert data["studies"]["hatches"] == {"lacking": [0.0, 70.0]}
    (found,) = [one for one in data["findings"] if one["code"] == "hatch-too-small"]
    assert found["where"]["path"] == ["hatch", 1, "width"]
    window = served(tmp_path, PIECE + HATCHES)
    try:
        assert "HatchLever" in window.client.get("/api/schema").json()["levers"]["hatches"]

        def tried(**figures):
            return window.post("study/hatches", base_revision=window.revision(), levers={"HatchLever": figures})

        more = tried(hands=60).raise_for_status().json()
        assert (more["stands"], more["result"]) == ("done", {"lacking": [0.0, 110.0]})
        assert [one["says"] for one in more["found"]] == ["the piece lacks 110 at a hatch 150 wide"]
        assert tried(hands="gap - 130").json()["result"] == {"lacking": [0.0, 70.0]}
        assert tried(hands=300).json()["error"]["remedy"] == "make it at most 200 mm"
        assert tried(feet=1).json()["error"]["says"] == 'HatchLever has no option "feet"'
        assert window.post("study/hatches", base_revision=window.revision(), levers={"Other": {}}).status_code == 404
        assert window.post("study/nonsense", base_revision=window.revision(), levers={}).status_code == 404
        assert window.client.get("/api/study/hatches").json()["result"] == {"lacking": [0.0, 70.0]}, "as in the book"
        assert window.state()["text"] == PIECE + HATCHES
    finally:
        window.close()


def test_the_template_that_fails_is_told_everywhere_and_so_is_what_waits_for_it(follow, isolated, tmp_path):
    follow("tipping", "tethers", "trailer")
    code, said, data, first = check(tmp_path, PIECE + TRAILER)

    assert code == MUST_CHANGE, "it guards the cut"
    assert "not checked: how far it may lean (ZeroDivisionError" in said
    for what, why in (
        ("how far it may lean", "a fault in Dryfit stopped it"),
        ("how many tethers it wants", "waits for how far it may lean"),
    ):
        assert f"{what}: {why}" in said
        assert f"{what} ({why})" in first
    (found,) = [one for one in data["findings"] if one["code"] == "study-failed"]
    assert found["severity"] == "stop"
    assert {"tipping", "tethers"} == {one["name"] for one in data["left_out"]}
    assert {"tipping", "tethers"} <= {one["study"] for one in data["not_checked"]}
    assert data["studies"]["trailer"] == {"too_long": ["shelf"]}, "the others are answered"
    window = served(tmp_path, PIECE + TRAILER)
    try:
        told = {one["study"]: (one["stands"], one["why"].partition(",")[0]) for one in window.state()["studies"]}
        assert told["tipping"] == ("failed", "it failed: ZeroDivisionError: float division by zero")
        assert told["tethers"] == ("waits", "waits for how far it may lean")
    finally:
        window.close()


def test_in_a_test_the_template_that_fails_raises(follow):
    follow("tipping", "tethers")
    with pytest.raises(ZeroDivisionError):
        build(read_job_text(PIECE))


# --- any study that fails --------------------------------------------------------------------------


def broken(self, *given):
    raise ZeroDivisionError("division by zero")


@pytest.mark.parametrize("method", ["reads", "run", "findings"])
@pytest.mark.parametrize("name", sorted(STUDIES))
def test_a_study_that_fails_in_any_method_is_told_in_words_and_data_and_what_needs_it_waits(
    isolated, monkeypatch, name, method
):
    monkeypatch.setattr(type(STUDIES[name]), method, broken)
    book = build(read_job_text(PIECE + HANGS))
    said, data = "\n".join(telling.looked_at(book)), book_data(book)

    waiting = {other.name for other in STUDIES.values() if STUDIES[name].result in other.needs}
    assert {name, *waiting} <= {one["name"] for one in data["left_out"]}
    assert {name, *waiting}.isdisjoint(data["studies"])
    assert {name, *waiting}.isdisjoint(book.checked)
    assert f"{STUDIES[name].asks}: a fault in Dryfit stopped it" in said
    for other in (one for one in waiting if STUDIES[one].concerns(book.piece)):
        assert f"{STUDIES[other].asks}: waits for {STUDIES[name].asks}" in said
    (found,) = [one for one in book.findings if one.code == "study-failed"]
    assert found.severity.value == ("stop" if STUDIES[name].guards else "warn")
    assert set(data["studies"]) >= set(STUDIES) - {name, *later_than(name), "glue_up", "fits"}


def later_than(name):
    """All that wait for a study, and for these."""
    found = {other.name for other in STUDIES.values() if STUDIES[name].result in other.needs}
    return found.union(*(later_than(other) for other in found))


def test_a_new_table_that_may_stand_many_times_is_on_the_job_s_card_with_no_line_for_it(follow, tmp_path):
    """Listed, put in, typed and taken out: the page shows what the card lists."""
    follow("trailer", "hatches")
    path = tmp_path / "piece.toml"
    path.write_text(PIECE, encoding="utf-8")
    window = Window(path)
    try:
        (hatches,) = (one for one in window.client.get("/api/card").json()["listings"] if one["word"] == "hatch")
        assert (hatches["one"], hatches["several"], hatches["there"]) == ("a hatch", "hatches", [])
        window.do(do="add table", table="hatch", values={"width": "gap * 2"}).raise_for_status()
        card = window.client.get("/api/card").json()
        (new,) = next(one for one in card["listings"] if one["word"] == "hatch")["there"]
        assert [(row["key"], row["shown"]) for row in new["rows"]] == [
            (["hatch", 0, "width"], "300 mm"),
            (["hatch", 0, "height"], "2000 mm"),
        ]
        window.do(do="typed", card={}, key=["hatch", 0, "width"], entry="900").raise_for_status()
        assert window.session.text == f"{PIECE}\n[[hatch]]\nwidth = 900\n"
        told = window.do(do="take table out", path=["hatch", 0]).raise_for_status().json()
        assert (told["state"]["last"], window.session.text) == ("hatch 1 taken out", PIECE)
    finally:
        window.close()
