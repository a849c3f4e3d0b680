"""What was looked at and what was not: nothing is approved by silence, and a fault takes one answer away.

Of every piece every registered question that can concern it stands among what was answered or among what was not,
never in neither; what cannot concern it stands in neither: of one board nobody asks how it goes together.
Nothing works out yet what shelves carry, so that question is open of every piece.
"""

import json
import re
from contextlib import redirect_stdout
from dataclasses import replace
from io import StringIO
from unittest import mock

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dryfit import asking
from dryfit.asking import Answers, concerns, in_neither, open_in_words
from dryfit.book import Kept, build, piece_of, read_job_text
from dryfit.book import building as book_building
from dryfit.book.demos import demo_text, demos
from dryfit.cli import MUST_CHANGE, SOUND, commands, main, telling
from dryfit.documents.bookjson import book_json
from dryfit.documents.workshop import paper_sheets, workshop_pdf
from dryfit.documents.writers import WRITERS
from dryfit.documents.writing import write_book
from dryfit.findings import QUESTIONS, Finding, NotChecked, Severity
from dryfit.job.model import Fixing, Load, Wall
from dryfit.joints import KINDS
from dryfit.piece import building, checks
from dryfit.piece.setout import NOTHING_MADE, AsCut
from dryfit.places import Where
from dryfit.sentences import Voice
from dryfit.studies import STUDIES
from dryfit.study.base import Pace
from tests.documents.reading import pages
from tests.strategies import pieces

NOBODY = "no check answered it"


def demo(name="step-shelf"):
    return read_job_text(demo_text(name), f"{name}.toml")


def left(book):
    return {(str(one.what), str(one.why)) for one in book.not_checked}


def why(book, study):
    return [str(one.why) for one in book.not_checked if one.study == study and one.whole]


# --- every question, of every piece ----------------------------------------------------------------

PACES = [(), (Pace.REST,)]


@given(drawing=pieces(), paces=st.sampled_from(PACES), wall=st.sampled_from([Wall(), Wall(hung=True, left=-900.0)]))
@settings(max_examples=25)
def test_of_any_piece_every_question_is_answered_or_said_to_be_open(drawing, paces, wall):
    book = build(replace(drawing.job, wall=wall), paces=paces)

    put = {name for name in QUESTIONS if concerns(name, book.piece)}
    assert put == {*book.checked, *(one.study for one in book.not_checked)}
    assert {one.study for one in book.not_checked if one.whole}.isdisjoint(book.checked)
    assert len(set(book.checked)) == len(book.checked)
    assert [one for one in book.not_checked if one.why == NOBODY] == [], "each question has a check that answers it"
    said = "\n".join(telling.looked_at(book))
    assert "Not checked:" in said
    assert "Nothing found.\n" not in f"{said}\n"


BOARD = """\
dryfit = 1
[timber.t]
species = "oak, white"
thickness = 24
[[board]]
name = "a"
line = [[0, 500], [1200, 500]]
depth = 250
"""
OTHER = '[[board]]\nname = "b"\nline = [[600, 0], [600, 1000]]\ndepth = 250\n'
SCREWS = '[[fixing]]\nname = "f"\nboard = "a"\nkind = "long screw"\nat = [100, 1100]\n'
OILED = '[finish]\nsystem = "hardwax oil"\ncoats = 2\n'
OF_ANY = {"loads", "stock", "wood", "holding", "names", "room", "measures", "setups", "guides", "buying", "carrying"}
OF_TWO = {"joints", "settling", "overlap", "order"}
CONCERNED = {
    "one board": (BOARD, set()),
    "one board that is finished": (BOARD + OILED, {"coating"}),
    "one board on the wall": (BOARD + SCREWS, {"joints", "wall", "driving", "marking"}),
    "one board that is looked at": (BOARD + '[[eye]]\nname = "door"\nat = [0, 1500, 2000]\n', {"driving"}),
    "on the wall with a screw that nobody knows": (
        BOARD + SCREWS + 'screw = "bolt"\n',
        {"joints", "wall", "driving", "marking"},
    ),
    "two that cross, dry": (BOARD + OTHER, {*OF_TWO, "fits"}),
    "two that cross, glued": (BOARD + OTHER + '[joints."cross halving"]\nglued = true\n', {*OF_TWO, "fits", "glue_up"}),
    "two that cross, finished": (BOARD + OTHER + OILED, {*OF_TWO, "fits", "finish", "stages", "coating"}),
    "two that do not meet": (BOARD + OTHER.replace("600", "1900"), OF_TWO),
    "all of it": (
        BOARD + OTHER + SCREWS + OILED + '[joints."cross halving"]\nglued = true\n',
        {*OF_TWO, "fits", "glue_up", "finish", "stages", "coating", "wall", "driving", "marking", "hanging"},
    ),
}


@pytest.mark.parametrize(("text", "besides"), CONCERNED.values(), ids=CONCERNED)
@pytest.mark.parametrize("paces", [(), (Pace.REST,)], ids=["no studies", "studies"])
def test_a_question_is_put_only_to_a_piece_that_it_can_concern(text, besides, paces):
    book = build(read_job_text(text), paces=paces)

    assert {*book.checked, *(one.study for one in book.not_checked)} == OF_ANY | besides
    assert ("wall that screws go into" in said(book)) == ("wall" in besides)


A_CUT = AsCut(board="a", end="start", length=1200.0)


@pytest.mark.parametrize("told", [{"cuts": (A_CUT,)}, {"trouble": "line 3: no length"}], ids=["a cut", "not readable"])
def test_what_is_cut_is_asked_about_where_something_is_recorded(told):
    made = replace(NOTHING_MADE, **told)
    assert "cuts" in build(read_job_text(BOARD), made=made, paces=()).checked
    assert "cuts" not in build(read_job_text(BOARD), paces=()).checked


def test_where_no_screw_can_be_made_the_wall_was_not_looked_at():
    book = build(read_job_text(BOARD + SCREWS + 'screw = "bolt"\n'), paces=())

    assert "joint-unsuited" in {finding.code for finding in book.stops}
    assert why(book, "wall") == ["no long screw is made"]
    assert "wall" not in book.checked


@given(drawing=pieces())
@settings(max_examples=10)
def test_what_is_left_open_is_no_finding_and_changes_no_exit_code(drawing):
    book = build(drawing.job, paces=())
    codes = []
    for one in (book, replace(book, not_checked=()), replace(book, not_checked=book.not_checked * 2)):
        with mock.patch.object(commands, "book_of", return_value=one), redirect_stdout(StringIO()):
            codes.append(main(["check", "piece.toml"]))

    assert codes == [MUST_CHANGE if book.stops else SOUND] * 3
    assert not {str(one.what) for one in book.not_checked} & {str(finding.says) for finding in book.findings}


@pytest.mark.parametrize("name", demos())
def test_of_the_demos_only_what_nobody_can_know_is_open(name):
    book = build(demo(name))

    assert why(book, "loads") == ["no load is given"]
    assert {one.study for one in book.not_checked if one.whole} == {"loads", "stock", "room", "carrying"}
    assert {name for name in STUDIES if concerns(name, book.piece)} <= {*book.checked, "carrying"}


def test_a_question_that_nobody_answers_is_open(monkeypatch):
    monkeypatch.setitem(QUESTIONS, "hinges", "whether the doors close")
    book = build(demo())

    assert ("whether the doors close", NOBODY) in left(book)
    assert "hinges" not in book.checked


def test_what_a_kind_of_joint_asks_besides_is_answered_when_its_joints_are_made(monkeypatch):
    monkeypatch.setitem(QUESTIONS, "draught", "whether the wind blows through")
    monkeypatch.setattr(type(KINDS["housing"]), "questions", ("draught",))

    assert "draught" in build(demo()).checked


def test_the_same_is_said_everywhere(tmp_path, capsys):
    path = tmp_path / "record-wall.toml"
    path.write_text(demo_text("record-wall"), encoding="utf-8")
    book = build(demo("record-wall"))
    expected = [(one.study, str(one.what), str(one.why)) for one in book.not_checked]

    main(["check", str(path), "--json"])
    for data in (json.loads(capsys.readouterr().out), json.loads(book_json(book))):
        assert [(one["study"], one["what"], one["why"]) for one in data["not_checked"]] == expected
        assert [one["study"] for one in data["checked"]] == list(book.checked)
        assert all(one["asks"] == QUESTIONS[one["study"]] for one in data["checked"])
    main(["check", str(path)])
    check = capsys.readouterr().out
    sheet = " ".join(pages(workshop_pdf(book))[0].split())
    for what, reason in open_in_words(book.not_checked, book.voice):
        assert f"{what}: {reason}" in check
        assert f"{what} ({reason})" in sheet
    for name in book.checked:
        assert QUESTIONS[name] in check
    small = build(demo())  # where the first sheet has room for what was checked as well
    sheet = " ".join(pages(workshop_pdf(small))[0].split())
    assert all(QUESTIONS[name] in sheet for name in small.checked)


# --- what check says -------------------------------------------------------------------------------


def said(book):
    return "\n".join(telling.looked_at(book))


OPEN = NotChecked(study="loads", what="what the shelves carry", why="no load is given", whole=True)
NOTE = Finding(code="apart", severity=Severity.NOTE, where=Where(), says="two are apart")


@pytest.mark.parametrize(
    ("findings", "open_ones", "begins"),
    [
        ((), (), "Nothing found."),
        ((), (OPEN,), "Nothing found in what was checked: "),
        ((NOTE,), (OPEN,), "Checked: "),
        ((NOTE,), (), "Checked: "),
    ],
    ids=["nothing found, nothing open", "nothing found, one open", "a note, one open", "a note"],
)
def test_nothing_found_stands_alone_only_where_nothing_is_open(findings, open_ones, begins):
    book = replace(build(demo()), findings=findings, not_checked=open_ones)

    assert said(book).startswith(begins)
    assert ("what the shelves carry: no load is given" in said(book)) == bool(open_ones)


def test_what_one_question_leaves_open_for_one_reason_stands_together():
    many = [NotChecked(study="room", what=f"screw {n}", why="no stud is given") for n in range(5)]

    assert open_in_words([*many, OPEN], Voice()) == (
        ("screw 0, screw 1, screw 2 and 2 more", "no stud is given"),
        ("what the shelves carry", "no load is given"),
    )


# --- loads, the pull, the wall, the room -----------------------------------------------------------


LOAD = '\n[[load]]\nboard = "lower shelf"\nkind = "records"\nsince = "spring"\n'


def test_a_load_is_a_note_and_stays_open():
    book = build(read_job_text(demo_text("step-shelf") + LOAD))
    (note,) = [finding for finding in book.findings if finding.code == "load-not-worked-out"]

    assert (note.severity, note.where.boards, note.where.path) == (Severity.NOTE, ("lower shelf",), ("load", 0))
    assert why(book, "loads") == ["no load is worked out yet"]
    assert not book.stops


@pytest.mark.parametrize(
    ("text", "read"),
    [
        (LOAD, Load(board="lower shelf", kind="records", path=("load", 0))),
        ('\n[load]\nboard = "upper shelf"\nkg_per_m = 40\n', Load(board="upper shelf", kg_per_m=40.0, path=("load",))),
        ('\n[[load]]\nboard = 3\nkind = ["a"]\nkg_per_m = "much"\n', Load(path=("load", 0))),
        ("\n[[load]]\nkg_per_m = -5\n", Load(path=("load", 0))),
        ("\n[[load]]\nkg_per_m = true\n", Load(path=("load", 0))),
    ],
    ids=["a kind", "one table", "other kinds of values", "less than nothing", "no number"],
)
def test_any_load_that_could_be_written_before_still_opens(text, read):
    job = read_job_text(demo_text("step-shelf") + text)

    assert job.loads == (read,)
    assert len([finding for finding in build(job).findings if finding.code == "load-not-worked-out"]) == 1


def test_a_load_on_a_board_that_is_not_there_is_told_with_its_place():
    book = build(read_job_text(demo_text("step-shelf") + LOAD.replace("lower shelf", "lowr shelf")))
    (missing,) = [finding for finding in book.findings if finding.code == "no-such-board"]

    assert missing.where.path == ("load", 0, "board")
    assert str(missing.remedy) == "did you mean lower shelf?"


def test_where_the_piece_is_screwed_to_the_wall_the_pull_is_open():
    book = build(demo("record-wall"))

    assert ("the pull on the screws in the wall", "it is not worked out yet") in left(book)
    assert not any(what.startswith("the pull") for what, _ in left(build(demo())))
    said = " ".join(" ".join(pages(workshop_pdf(book))).split())
    assert "The pull on the screws is not worked out" in said


SILENT = Wall(left=0.0, right=2600.0, ceiling=2400.0)


@pytest.mark.parametrize(
    ("wall", "expected"),
    [
        (Wall(), {("the room", "its walls and ceiling are not given")}),
        (replace(SILENT, ceiling=None), {("the room", "its ceiling is not given")}),
        (SILENT, set()),
    ],
    ids=["nothing", "no ceiling", "a room"],
)
def test_what_is_not_said_of_the_room_is_open(wall, expected):
    book = build(replace(demo(), wall=wall), paces=())

    assert {(str(one.what), str(one.why)) for one in book.not_checked if one.study == "room"} == expected
    assert ("room" in book.checked) == (wall != Wall())


def test_a_wall_that_is_screwed_to_is_asked_for_its_lining_as_well():
    job = replace(demo(), wall=SILENT)
    screws = Fixing(name="f", board="upper shelf", kind="long screw", at=(60.0,), options={"screw": "wood 5x120"})
    book = build(replace(job, fixings=(screws,)), paces=())

    assert ("f: how far the screws go into the structure", "the wall's lining and hollow are not given") in left(book)
    assert ("f: whether the wall takes such a screw", "how the wall is built is not given") in left(book)


def test_what_studies_leave_open_is_told_with_its_reason():
    text = re.sub(r"(species\s*= ).*", r'\1"gopher wood"', demo_text("step-shelf"))
    wood = build(read_job_text(text))
    unknown = 'no figures for "gopher wood": the tables have nothing by that name'
    assert ("the mass of the parts in ash20", unknown) in left(wood)
    assert "measures" in wood.checked, "areas and sizes are there all the same"

    glue = build(read_job_text(demo_text("step-shelf") + '\n[glue]\nkind = "bread paste"\n'))
    assert why(glue, "glue_up") == ['no figures for "bread paste": the tables have nothing by that name']
    assert "glue_up" not in glue.checked

    named = build(read_job_text(demo_text("step-shelf") + '\n[glue]\nkind = "PVA, D3"\n'))
    assert "your own glue" in {what for what, _ in left(build(demo()))} - {what for what, _ in left(named)}


def test_where_parts_overlap_no_order_and_no_glue_up_was_looked_at():
    text = demo_text("step-shelf") + '\n[[board]]\nname = "in the way"\ntimber = "ash20"\n'
    book = build(read_job_text(text + "line = [[100, 185], [700, 205]]\ndepth = 150\n"))

    assert book.studies["order"].overlaps
    assert why(book, "order") == ["parts overlap"]
    assert why(book, "glue_up") == ["no order is found"]
    assert {"order", "glue_up"}.isdisjoint(book.checked)


RING = """\
dryfit = 1
[timber.t]
species = "oak, white"
thickness = 24
[[board]]
name = "level {i}"
count = 2
line = [[0, "i * 400"], [1200, "i * 400"]]
depth = 300
[[board]]
name = "upright {i}"
count = 2
line = [["i * 400", 0], ["i * 400", 1200]]
depth = 300
[[joint]]
between = ["level 1", "upright 1"]
front = "level 1"
[[joint]]
between = ["level 1", "upright 2"]
front = "upright 2"
[[joint]]
between = ["level 2", "upright 1"]
front = "upright 1"
[[joint]]
between = ["level 2", "upright 2"]
front = "level 2"
"""


def test_where_slots_lock_only_tilting_was_not_looked_at():
    """Two levels and two uprights, crossings halved, each over the next in a ring."""
    book = build(read_job_text(RING))
    assert "locked" in {finding.code for finding in book.stops}
    (tilting,) = [one for one in book.not_checked if one.study == "order"]
    assert tilting.why == "only straight moves are tried"
    assert str(tilting.what).endswith("go together tilted")
    assert "order" in book.checked


# --- faults ----------------------------------------------------------------------------------------


def broken(*given, **named):
    raise ZeroDivisionError("division by zero")


FAULTS = {
    "loads": (building, "loads"),
    "joints": (building, "_joined"),
    "stock": (building, "longer_than_stock"),
    "holding": (building, "what_holds"),
    "names": (checks, "dangling"),
    "room": (building, "room_findings"),
    "overlap": (book_building, "clashes"),
    "finish": (book_building, "finish_without_figures"),
    "stages": (building, "contradictions"),
}
STOPPING = {"stages", "holding", "joints", "stock", "room", "overlap", "wood"}


@pytest.mark.parametrize("name", FAULTS)
def test_a_fault_in_one_check_takes_that_answer_away_and_no_other(isolated, monkeypatch, name):
    sound = build(demo())
    monkeypatch.setattr(*FAULTS[name], broken)
    book = build(demo())

    (found,) = [finding for finding in book.findings if finding.code == "study-failed"]
    assert QUESTIONS[name] in str(found.says)
    assert found.severity is (Severity.STOP if name in STOPPING else Severity.WARN)
    assert set(sound.checked) - set(book.checked) == {name} & set(sound.checked)
    assert name not in book.checked
    assert why(book, name) == [asking.OUR_FAULT]
    assert set(book.studies) == set(sound.studies)


def test_a_fault_in_the_check_of_one_board_leaves_the_others_looked_at(isolated, monkeypatch):
    real = checks.short_grain

    def short_grain(part):
        return broken() if part.id == "divider" else real(part)

    monkeypatch.setattr(building.checks, "short_grain", short_grain)
    book = build(demo())

    (found,) = book.stops
    assert (found.code, found.where.boards) == ("study-failed", ("divider",))
    assert ("wood left beside cuts and bores of divider", asking.OUR_FAULT) in left(book)
    assert "wood" in book.checked, "of the other boards"


@pytest.mark.parametrize("name", sorted(STUDIES))
def test_a_study_that_fails_leaves_all_papers_and_they_say_so(isolated, monkeypatch, tmp_path, name):
    monkeypatch.setattr(type(STUDIES[name]), "run", broken)
    book = build(read_job_text(demo_text("step-shelf") + OILED, "step-shelf.toml"), bench=Kept())
    write_book(book, tmp_path)

    usual = {writer.makes for writer in WRITERS.values() if not writer.extra}
    assert {path.name for path in tmp_path.iterdir()} == usual
    assert not [draft.title for draft, _ in paper_sheets("workshop", book) if draft.kind == "fault"]
    data = json.loads((tmp_path / "book.json").read_text(encoding="utf-8"))
    assert name in {one["name"] for one in data["left_out"]}
    assert name in {one["study"] for one in data["not_checked"]}
    assert "study-failed" in {finding["code"] for finding in data["findings"]}


def test_a_fault_has_its_exit_code_and_no_traceback(isolated, monkeypatch, tmp_path, capsys):
    path = tmp_path / "shelf.toml"
    path.write_text(demo_text("step-shelf"), encoding="utf-8")
    monkeypatch.delenv("DRYFIT_TRACE", raising=False)

    monkeypatch.setattr(type(STUDIES["measures"]), "run", broken)
    assert main(["check", str(path)]) == SOUND
    monkeypatch.setattr(type(STUDIES["order"]), "run", broken)
    assert main(["check", str(path)]) == MUST_CHANGE, "without an order nobody may cut"
    said = capsys.readouterr()
    assert "Traceback" not in said.out + said.err
    assert "not checked: in what order it goes together (ZeroDivisionError" in said.out
    assert "how the units are glued up: waits for in what order it goes together" in said.out

    monkeypatch.setenv("DRYFIT_TRACE", "1")
    main(["check", str(path)])
    assert "Traceback" in capsys.readouterr().err


def test_in_a_test_every_fault_is_raised(monkeypatch):
    with pytest.raises(ZeroDivisionError):
        Answers().put("loads", broken)
    monkeypatch.setattr(building, "what_holds", broken)
    with pytest.raises(ZeroDivisionError):
        piece_of(demo())


def test_nothing_of_a_check_that_fails_half_way_counts(isolated):
    def half():
        yield NOTE
        broken()

    answers = Answers()
    answers.put("holding", half)

    assert [finding.code for finding in answers.findings] == ["study-failed"]
    assert answers.checked == ()
    assert "holding" not in in_neither(build(demo(), paces=()).piece, answers.checked, answers.not_checked)


def test_a_stop_that_only_lists_boards_does_not_hide_that_they_overlap(monkeypatch):
    """Two boards lengthwise in each other, unjoined, and a stop of another kind that names both."""
    text = demo_text("step-shelf") + '\n[[board]]\nname = "in the way"\ntimber = "ash20"\n'
    job = read_job_text(text + "line = [[100, 185], [700, 205]]\ndepth = 150\n")
    names = tuple(board.name for board in job.boards)
    every = Finding(code="locked", severity=Severity.STOP, where=Where(boards=names), says="all of them")
    real = book_building.piece_of

    def piece(*given):
        found = real(*given)
        return replace(found, findings=(every,))

    monkeypatch.setattr(book_building, "piece_of", piece)
    assert "overlap" in {finding.code for finding in build(job, paces=()).findings}
