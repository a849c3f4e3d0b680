"""The command `dryfit` as a maker meets it: exit 0 sound, 1 something must change, 2 unusable; never a traceback."""

import hashlib
import json
import os
import re
import shlex
import subprocess
import sys
import tempfile
from pathlib import Path

import pytest

from dryfit.book.demos import demo_text
from dryfit.cli import MUST_CHANGE, SOUND, UNUSABLE, commands, main, progress, working
from dryfit.cli.findings import grouped
from dryfit.documents.folder import NOTE
from dryfit.documents.sheets import SHEETS
from dryfit.documents.writers import WRITERS
from dryfit.findings import Finding, Severity
from dryfit.places import Where
from dryfit.sentences import Name, say

PAPERS = [writer.makes for writer in WRITERS.values() if not writer.extra]
SOUND_JOB = demo_text("step-shelf")
STOPPED_JOB = SOUND_JOB.replace("[120, 0], [120,", "[30, 0], [30,")  # a slot 20 from the ends: short grain
BROKEN_JOB = SOUND_JOB.replace("thickness = 20", "thickness = -20").replace('title  = "Step', 'titel  = "Step')


@pytest.fixture
def job(tmp_path):
    def write(text, name="job.toml"):
        path = tmp_path / name
        path.write_text(text, encoding="utf-8")
        return path

    return write


def run(*words):
    return main([str(word) for word in words])


@pytest.mark.parametrize(
    ("text", "code"),
    [(SOUND_JOB, SOUND), (STOPPED_JOB, MUST_CHANGE), (BROKEN_JOB, UNUSABLE)],
    ids=["sound", "stopped", "broken"],
)
def test_check_exits_as_the_job_is(job, capsys, text, code):
    assert run("check", job(text)) == code
    said = capsys.readouterr()
    assert "Traceback" not in said.out + said.err
    if code == MUST_CHANGE:
        assert "must change before the first cut" in said.out
    if code == UNUSABLE:
        assert "job.toml:6" in said.err
        assert said.err.count("\n") == 2


def test_check_gives_machines_the_findings_with_their_cures(job, capsys):
    assert run("check", job(STOPPED_JOB), "--json") == MUST_CHANGE
    data = json.loads(capsys.readouterr().out)
    stops = [finding for finding in data["findings"] if finding["severity"] == "stop"]

    assert data["boards"] == 5
    assert {finding["code"] for finding in stops} == {"short-grain"}
    assert all({"says", "remedy", "found", "limit", "unit", "where", "cures"} <= finding.keys() for finding in stops)


def test_check_gives_machines_the_mistakes_with_their_lines(job, capsys):
    assert run("check", job(BROKEN_JOB), "--json") == UNUSABLE
    data = json.loads(capsys.readouterr().out)

    assert [mistake["line"] for mistake in data["mistakes"]] == [6, 18]


def test_book_writes_its_folder_and_nothing_else_even_with_stops(job, tmp_path, capsys):
    path = job(STOPPED_JOB)
    before = path.read_bytes()

    assert run("book", path, "--out", tmp_path / "papers") == MUST_CHANGE
    assert sorted(file.name for file in (tmp_path / "papers").iterdir()) == [
        "assembly.pdf",
        "book.json",
        "model.glb",
        "order.csv",
        "order.pdf",
        "parts.csv",
        "workshop.pdf",
    ]
    assert path.read_bytes() == before
    assert sorted(file.name for file in tmp_path.iterdir()) == ["job.toml", "papers"]


def test_book_with_pin_holds_letters_and_datums_still_from_then_on(job, tmp_path, capsys):
    path = job(SOUND_JOB)
    assert run("book", path, "--out", tmp_path / "papers", "--pin") == SOUND
    pinned = (tmp_path / "job.made.toml").read_text(encoding="utf-8")
    assert pinned.count("[pinned.") == 5

    new = '[[board]]\nname = "a board before all others"\ntimber = "ash20"\n'
    new += "line = [[200, 560], [700, 560]]\ndepth = 150\n\n"
    job(SOUND_JOB.replace("[[board]]", new + "[[board]]", 1))
    assert run("book", path, "--out", tmp_path / "papers", "--pin") in (SOUND, MUST_CHANGE)
    data = json.loads((tmp_path / "papers" / "book.json").read_text(encoding="utf-8"))
    marks = {part["board"]: part["mark"] for part in data["parts"]}

    assert marks["lower shelf"] == "A"
    assert marks["a board before all others"] == "F"
    assert (tmp_path / "job.made.toml").read_text(encoding="utf-8").startswith(pinned)


def test_demo_asks_nothing_and_says_where_the_papers_are(tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)

    assert run("demo", "step-shelf") == SOUND
    assert "The papers are in out/step-shelf:" in capsys.readouterr().out.replace("\\", "/")
    assert (tmp_path / "out" / "step-shelf" / "workshop.pdf").exists()


def test_a_demo_that_is_not_there_is_told_with_those_that_are(capsys):
    assert run("demo", "nothing") == UNUSABLE
    assert "record-wall" in capsys.readouterr().err


def test_new_begins_an_empty_wall_and_never_over_another_file(tmp_path, capsys):
    path = tmp_path / "shelf.toml"

    assert run("new", path) == SOUND
    assert f"dryfit open {path}" in capsys.readouterr().out
    assert run("check", path) == UNUSABLE, "there is nothing to check yet"
    assert "draw one on the page" in capsys.readouterr().err
    before = path.read_bytes()
    assert run("new", path) == UNUSABLE
    assert path.read_bytes() == before
    assert "already exists" in capsys.readouterr().err


@pytest.mark.parametrize("word", ["nowhere.toml", "."], ids=["no such file", "a folder"])
def test_what_cannot_be_opened_is_told_in_a_line(tmp_path, monkeypatch, capsys, word):
    monkeypatch.chdir(tmp_path)

    assert run("check", word) == UNUSABLE
    said = capsys.readouterr().err
    assert said.count("\n") == 1
    assert "cannot be opened" in said


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes with a name on this system")
def test_a_pipe_is_not_waited_for_and_a_device_not_read(tmp_path, capsys):
    pipe = tmp_path / "job.toml"
    os.mkfifo(pipe)

    for file in (pipe, "/dev/zero", "/dev/null"):
        assert run("check", file) == UNUSABLE
        assert capsys.readouterr().err == f"{file}: cannot be opened: it is a pipe or a device; name a file\n"


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes with a name on this system")
def test_a_pipe_in_the_made_file_s_place_is_not_waited_for(job, capsys):
    path = job(SOUND_JOB)
    os.mkfifo(path.with_name("job.made.toml"))

    assert run("check", path) == UNUSABLE
    assert "it is a pipe or a device" in capsys.readouterr().err


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no device that is always full on this system")
def test_output_that_finds_no_room_is_told_where_it_still_can_be(job):
    command = [sys.executable, "-m", "dryfit", "check", str(job(SOUND_JOB))]
    with open("/dev/full", "w") as full:
        done = subprocess.run(command, stdout=full, stderr=subprocess.PIPE, text=True, check=False)

    assert done.returncode == UNUSABLE
    assert done.stderr.count("\n") == 1
    assert "could not be written: No space left" in done.stderr


def test_a_made_file_with_a_mistake_is_told_with_its_line(job, capsys):
    path = job(SOUND_JOB)
    job('dryfit_made = 1\n[pinned."lower shelf"]\ndatum = "strat"\nface_side = "left"\nmark = "A"\n', "job.made.toml")

    assert run("check", path) == UNUSABLE
    assert "job.made.toml:3" in capsys.readouterr().err


@pytest.mark.parametrize("words", [["--version"], ["--help"], ["check", "--help"]], ids=" ".join)
def test_help_and_version_import_nothing_heavy(words):
    code = (
        "import sys\nfrom dryfit.cli import main\n"
        f"try:\n    main({words!r})\nexcept SystemExit:\n    pass\n"
        "heavy = {'numpy', 'pydantic', 'manifold3d', 'shapely', 'typst', 'fastapi'} & set(sys.modules)\n"
        "sys.exit(f'imported {sorted(heavy)}' if heavy else 0)\n"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)

    assert done.returncode == 0, done.stderr


@pytest.mark.parametrize("command", ["book", "demo"])
def test_the_help_lists_the_papers_that_are_made_only_where_they_are_asked_for(command, capsys):
    with pytest.raises(SystemExit):
        run(command, "--help")

    said = capsys.readouterr().out
    for writer in WRITERS.values():
        assert (f"({writer.makes})" in said) == writer.extra


def test_a_demo_makes_an_extra_that_it_is_asked_for(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)

    assert run("demo", "step-shelf", "--extra", "full-size") == SOUND
    assert (tmp_path / "out" / "step-shelf" / "full-size.pdf").exists()


def test_a_book_ends_with_the_names_of_its_papers_and_nothing_of_the_libraries(job, tmp_path):
    """Some complain on the way out of what Python was kept from clearing away."""
    command = [sys.executable, "-m", "dryfit", "book", str(job(SOUND_JOB)), "--out", str(tmp_path / "papers")]
    done = subprocess.run(command, capture_output=True, text=True, check=False)

    assert done.returncode == SOUND
    assert [line for line in done.stderr.splitlines() if " is made" not in line] == []
    assert done.stdout.splitlines()[-1].strip().endswith(".pdf")


def test_a_reader_that_goes_away_gets_no_traceback(job):
    path = job(SOUND_JOB)
    command = [sys.executable, "-m", "dryfit", "check", str(path), "--json"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE) as running:
        running.stdout.close()
        said = running.stderr.read().decode()
        running.wait(timeout=60)

    assert "Traceback" not in said


# --- findings with their places and figures --------------------------------------------------------

GRID = """\
dryfit = 1
[timber.oak]
species = "oak, European"
thickness = 24
[[board]]
name = "shelf {i}"
count = 3
line = [[0, "i * 400"], [1000, "i * 400"]]
depth = 250
[[board]]
name = "upright"
line = [[50, 0], [50, 1600]]
depth = 250
[[board]]
name = "middle"
line = [[600, 0], [600, 1000]]
depth = 250
"""  # the upright's slot is 24.15 wide: 50 - 12.075 = 37.925 are left of each shelf, 48 are asked for


def test_a_finding_has_its_place_in_the_file_what_was_found_and_the_limit(job, capsys):
    path = job(GRID.replace("count = 3\n", "count = 1\n"))
    assert run("check", path) == MUST_CHANGE
    said = capsys.readouterr().out

    assert f" stop  {path}:5: only 37.9 left in shelf 1 between the slot for upright and the end" in said
    assert "       found 37.9 mm, limit 48 mm (common practice)" in said


def test_a_job_in_inches_has_its_figures_in_inches(job, capsys):
    inches = GRID.replace("[timber.oak]", "[job]\nunits = 'in'\n[timber.oak]")
    for length in ("24", "1000", "250", "1600", "50"):
        inches = re.sub(rf"(?<![\w.]){length}(?![\w])", f"'{length} mm'", inches)
    inches = inches.replace('"i * 400"', '"i * 400 mm"').replace("count = 3", "count = 1")
    assert run("check", job(inches)) == MUST_CHANGE
    said = capsys.readouterr().out

    assert "found 1 1/2 in, limit 1 57/64 in (common practice)" in said  # 95.6 and 120.9 of 64 parts


def test_three_findings_alike_are_told_together_with_one_remedy(job, capsys):
    path = job(GRID)
    assert run("check", path) == MUST_CHANGE
    said = capsys.readouterr().out

    assert " stop  3 alike: A cut lies too near an end or another cut" in said
    assert said.count("leave at least 48: move the joint, or lengthen the board") == 1
    assert said.count("limit 48 mm (common practice)") == 1
    for number in (1, 2, 3):
        assert f"         {path}:5: only 37.9 left in shelf {number}" in said
    assert "3 things must change before the first cut." in said


def test_joints_that_cannot_be_made_are_counted_and_the_remedy_names_the_key(job, capsys, unmade):
    uprights = 'name = "upright {i}"\ncount = 3\nline = [["i * 250", 0], ["i * 250", 1600]]'
    text = GRID.replace('name = "upright"\nline = [[50, 0], [50, 1600]]', uprights)
    text += f'[joints]\nin_line = "{unmade}"\n'
    path = job(text.replace("thickness = 24", "thickness = 24\nlongest = 1100"))
    assert run("check", path) == MUST_CHANGE
    lines = capsys.readouterr().out.splitlines()
    (heading,) = [number for number, line in enumerate(lines) if "joints meet end to end" in line]

    assert lines[heading] == f" stop  3 joints meet end to end: a {unmade} cannot be made yet"
    assert lines[heading + 1 : heading + 4] == [
        f"         {path}:11: upright {number} (1 of 2) and upright {number} (2 of 2)" for number in (1, 2, 3)
    ]
    assert 'in_line = "butt"' in lines[heading + 4]


def finding(name, remedy, severity=Severity.WARN):
    says = say("{} touches nothing that holds it", Name(name))
    return Finding(code="held-by-nothing", severity=severity, where=Where(boards=(name,)), says=says, remedy=remedy)


@pytest.mark.parametrize(
    ("findings", "sizes"),
    [
        ([finding(n, say("lengthen {}", Name(n))) for n in "abc"], [3]),
        ([finding(n, say("lengthen {}", Name(n))) for n in "ab"], [1, 1]),
        ([finding("a", "cut 3"), finding("b", "cut 4"), finding("c", "cut 3")], [1, 1, 1]),
        ([finding("a", "cut", severity=Severity.STOP), finding("b", "cut"), finding("c", "cut")], [1, 1, 1]),
        ([finding("a", "cut 3"), finding("x", "leave"), finding("b", "cut 3"), finding("c", "cut 3")], [3, 1]),
        ([], []),
    ],
    ids=["the same of each board", "only two", "other figures", "other severities", "one between", "none"],
)  # fmt: skip
def test_findings_are_grouped_by_what_mends_them_and_none_is_lost(findings, sizes):
    groups = grouped(findings)

    assert [len(group) for group in groups] == sizes
    assert sorted(map(id, findings)) == sorted(id(one) for group in groups for one in group)


# --- nothing there yet, and names as they are typed ------------------------------------------------


@pytest.mark.parametrize("text", ["dryfit = 1\n", ""], ids=["a head", "an empty file"])
@pytest.mark.parametrize("command", ["check", "book"])
def test_a_job_without_boards_is_told_what_to_write(job, tmp_path, capsys, command, text):
    words = [command, job(text), *(["--out", tmp_path / "papers"] if command == "book" else [])]

    assert run(*words) == UNUSABLE
    said = capsys.readouterr()
    assert "there are no boards yet; write a [[board]]" in said.err
    assert said.out == ""
    assert not (tmp_path / "papers").exists()


@pytest.mark.skipif(os.name == "nt", reason="other quotes there")
def test_commands_that_are_printed_can_be_typed_as_they_stand(tmp_path, monkeypatch, capsys, opened):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "oak and ash").mkdir()

    assert run("new", "oak and ash/it's new.toml") == SOUND
    (shown,) = re.findall(r":  (dryfit .*)$", capsys.readouterr().out.strip())
    program, *words = shlex.split(shown)
    assert program == "dryfit"
    assert run(*words) == SOUND
    assert [path.name for path in opened] == ["it's new.toml"]


def test_one_board_is_no_boards(job, capsys):
    one = (
        GRID.partition('[[board]]\nname = "upright"')[0].replace("count = 3", "count = 1").replace("i * 400", "i * 12")
    )
    assert run("check", job(one)) == SOUND
    assert "job: 1 board, 0 joints" in capsys.readouterr().out


# --- open ------------------------------------------------------------------------------------------


@pytest.fixture
def opened(monkeypatch):
    """Serve nothing: what would be opened is kept."""
    from dryfit.web.server import server

    asked = []
    monkeypatch.setattr(server, "run", lambda opening, say: asked.append(opening.job))
    return asked


def test_open_says_that_a_job_was_not_there_and_which_may_have_been_meant(job, tmp_path, capsys, opened):
    job(SOUND_JOB, "kitchen.toml")

    assert run("open", tmp_path / "kitchne.toml", "--no-browser") == SOUND
    said = capsys.readouterr().out
    assert "kitchne.toml did not exist: an empty wall is begun in it. There is also kitchen.toml." in said
    assert opened == [tmp_path / "kitchne.toml"]
    assert opened[0].exists()


def test_open_says_nothing_of_the_kind_of_a_job_that_is_there(job, capsys, opened):
    path = job(SOUND_JOB)
    assert run("open", path, "--no-browser") == SOUND
    assert capsys.readouterr().out == ""
    assert opened == [path]


def test_open_with_no_name_takes_no_projects_file_for_a_job(tmp_path, monkeypatch, opened):
    """A project's file may list a command called dryfit; a job says so before its first table."""
    project = '[project]\nname = "shop"\n\n[project.scripts]\ndryfit = "shop:main"\n'
    (tmp_path / "pyproject.toml").write_text(project, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    assert run("open", "--no-browser") == SOUND
    assert opened == [Path("job.toml")]
    assert (tmp_path / "pyproject.toml").read_text(encoding="utf-8") == project


@pytest.mark.parametrize(
    ("data", "mode", "said"),
    [
        (b"dryfit = 1\n", 0o644, "every change is saved as it is made"),
        (b"dryfit = 1\n", 0o444, "open read-only: the file is marked read-only, so nothing is saved"),
        (b"\xff\xfe\x00binary", 0o644, "the file is not saved as UTF-8 text: nothing can be shown or changed"),
    ],
    ids=["sound", "read-only", "no text"],
)
def test_what_the_page_says_of_saving_is_true(tmp_path, data, mode, said):
    from dryfit.web.server.server import _opened

    path = tmp_path / "job.toml"
    path.write_bytes(data)
    path.chmod(mode)
    assert said in _opened(path)
    assert ("every change is saved" in _opened(path)) == (said == "every change is saved as it is made")


# --- how far it is --------------------------------------------------------------------------------


def test_each_paper_is_said_as_it_is_made_on_the_error_output(job, tmp_path, capsys):
    """Step shelf: 12 sheets in the workshop's paper, one of the order, 4 in the booklet."""
    assert run("book", job(SOUND_JOB), "--out", tmp_path / "papers") == SOUND

    said = capsys.readouterr().err.splitlines()
    made = [line.split(" is made")[0] for line in said]
    assert made == [*(name for name in PAPERS if name != "book.json"), "book.json"], "it tells what the others lack"
    assert [line for line in said if "workshop.pdf is made, 12 sheets" in line]
    assert [line for line in said if "order.pdf is made, 1 sheet (" in line]
    assert [line for line in said if "assembly.pdf is made, 4 sheets" in line]


def test_at_a_terminal_one_line_is_written_over_from_before_the_job_is_read(job, tmp_path, monkeypatch, capsys):
    monkeypatch.setattr(sys.stderr, "isatty", lambda: True, raising=False)
    monkeypatch.setattr(progress, "SAY_EVERY", 0.0)
    path = job(SOUND_JOB)
    assert run("book", path, "--out", tmp_path / "papers") == SOUND

    shown = [text.strip() for text in capsys.readouterr().err.split("\r") if text.strip()]
    assert shown[0] == "reading job.toml and setting it out"
    at = [shown.index(text) for text in ("working out: order, 100%", "workshop.pdf: sheet 1, the whole piece")]
    assert at == sorted(at)
    assert any(text.startswith("assembly.pdf: sheet 4, step 5 of 5") for text in shown)


def test_papers_that_a_stopped_run_left_mixed_are_told_by_check_and_by_the_next_run(job, tmp_path, capsys):
    path, papers = job(SOUND_JOB), tmp_path / "job papers"
    papers.mkdir()
    (papers / "parts.csv").write_text("new", encoding="utf-8")
    digest = hashlib.sha256(b"new").hexdigest()
    (papers / NOTE).write_text(f"parts.csv  sha256 {digest}\nworkshop.pdf  sha256 0\n", encoding="utf-8")

    run("check", path)
    assert "was stopped: new are parts.csv; old are workshop.pdf" in capsys.readouterr().out

    run("book", path, "--out", papers)
    assert "two states here (parts.csv new, workshop.pdf old): now all are of this one" in capsys.readouterr().err
    assert sorted(file.name for file in papers.iterdir()) == sorted(PAPERS)


# --- the last resort -------------------------------------------------------------------------------


def broken(*words, **more):
    raise ZeroDivisionError("division by zero")


@pytest.mark.parametrize("command", ["check", "book", "open", "new"])
def test_a_fault_of_our_own_ends_in_a_sentence_with_the_file_to_report(job, tmp_path, monkeypatch, capsys, command):
    path = job(SOUND_JOB)
    monkeypatch.delenv("DRYFIT_TRACE", raising=False)
    for module, name in ((commands, "book_of"), (commands, "make"), (commands, "_open"), (commands.New, "begin")):
        monkeypatch.setattr(module, name, broken)
    words = [command, path, *(["--out", tmp_path / "papers"] if command == "book" else [])]

    assert run(*words) == UNUSABLE
    said = capsys.readouterr()
    assert "Traceback" not in said.out + said.err
    assert said.err.count("\n") == 1
    assert f"{path}: a fault in Dryfit stopped it" in said.err
    assert "ZeroDivisionError: division by zero" in said.err
    assert "please report this, with the job file" in said.err


def test_machines_are_told_of_a_fault_in_the_form_they_know(job, monkeypatch, capsys):
    monkeypatch.delenv("DRYFIT_TRACE", raising=False)
    monkeypatch.setattr(commands, "book_of", broken)
    assert run("check", job(SOUND_JOB), "--json") == UNUSABLE
    (mistake,) = json.loads(capsys.readouterr().out)["mistakes"]
    assert "a fault in Dryfit" in mistake["says"]


def test_whoever_works_on_dryfit_can_have_the_traceback(job, monkeypatch):
    monkeypatch.setenv("DRYFIT_TRACE", "1")
    monkeypatch.setattr(commands, "book_of", broken)
    with pytest.raises(ZeroDivisionError):
        run("check", job(SOUND_JOB))


def test_a_sheet_that_cannot_be_drawn_is_said_and_the_book_is_made(job, tmp_path, monkeypatch, capsys, isolated):
    from dataclasses import replace

    monkeypatch.delenv("DRYFIT_TRACE", raising=False)
    monkeypatch.setitem(SHEETS, "joints", replace(SHEETS["joints"], make=broken))
    assert run("book", job(SOUND_JOB), "--out", tmp_path / "papers") == SOUND
    said = capsys.readouterr()

    assert "not drawn: the sheets called joints (ZeroDivisionError: division by zero" in said.err
    assert "Traceback" not in said.err
    assert (tmp_path / "papers" / "workshop.pdf").exists()

    monkeypatch.setenv("DRYFIT_TRACE", "1")
    run("book", job(SOUND_JOB), "--out", tmp_path / "papers")
    assert "Traceback" in capsys.readouterr().err


def test_pins_that_cannot_be_written_are_told_with_the_file(job, tmp_path, monkeypatch, capsys):
    def full(*words, **more):
        raise OSError(28, "No space left on device")

    path = job(SOUND_JOB)
    monkeypatch.setattr(tempfile, "mkstemp", full)
    assert run("book", path, "--out", tmp_path / "papers", "--pin") == UNUSABLE
    told = capsys.readouterr().err
    assert "job.made.toml: the change was not made: the disk is full, job.made.toml is as it was; make room" in told


# ---- cut


def test_cut_writes_down_what_is_cut_beside_the_job_and_says_what(job, capsys):
    from dryfit.piece.made import read_made

    path = job(SOUND_JOB)
    made = path.with_name("job.made.toml")
    book = working.book_of(path, None)
    part = book.piece.parts[0]
    key = next(cut.key for cut in part.cuts if not cut.end)
    assert run("cut", path, part.id, key) == SOUND
    assert capsys.readouterr().out == f"{part.id}: 1 cut recorded\n  {key}\n"
    (one,) = read_made(made).cuts
    assert one.board == part.id
    assert read_made(made).pins[part.id].mark == part.mark
    before = made.read_bytes()
    assert run("cut", path, part.id, key) == SOUND
    assert "is recorded already" in capsys.readouterr().out
    assert made.read_bytes() == before
    assert run("cut", path, part.id, "start", "end") == SOUND
    assert len(read_made(made).cuts) == 3
    assert run("cut", path, part.id) == SOUND
    assert len(read_made(made).cuts) == len(part.cuts)
    assert run("check", path) == SOUND, "what is cut as it was worked out stops nothing"
    assert run("cut", path, part.id, "--take-back") == SOUND
    assert read_made(made).cuts == ()


def test_cut_takes_the_number_on_the_sheet_or_the_board_it_is_for(job, capsys):
    from dryfit.documents.looks import Look
    from dryfit.piece.made import read_made

    path = job(SOUND_JOB)
    piece = working.book_of(path, None).piece
    part = next(part for part in piece.parts if any(not cut.end for cut in part.cuts))
    cut = next(cut for cut in part.cuts if not cut.end)
    other = next(name for name in cut.joint if name != part.id)
    for word in (str(Look(part).numbers[cut.key]), other):
        assert run("cut", path, part.id, word) == SOUND
        assert [one.other for one in read_made(path.with_name("job.made.toml")).cuts] == [other]
        assert run("cut", path, part.id, word, "--take-back") == SOUND


def test_a_board_or_cut_that_is_not_there_is_told_with_what_there_is(job, capsys):
    path = job(SOUND_JOB)
    part = working.book_of(path, None).piece.parts[0]
    assert run("cut", path, part.id + "x") == UNUSABLE
    assert f"did you mean {part.id}?" in capsys.readouterr().err
    assert run("cut", path, part.id, "rebate 7") == UNUSABLE
    assert f'{part.id} has no cut "rebate 7"; write one of: ' in capsys.readouterr().err
    assert not path.with_name("job.made.toml").exists()


def test_what_another_program_writes_while_cut_is_at_work_stays(job, monkeypatch, capsys):
    from dryfit.piece.made import HEAD, read_made
    from dryfit.web.store.jobfile import JobFile

    path = job(SOUND_JOB)
    made = path.with_name("job.made.toml")
    part = working.book_of(path, None).piece.parts[0]
    made.write_text(HEAD, encoding="utf-8")
    read = JobFile.read
    others = iter(["# one\n", "# two\n"])

    def overtaken(self):
        seen = read(self)
        more = next(others, "")
        if more:
            made.write_text(made.read_text(encoding="utf-8") + more, encoding="utf-8")
        return seen

    monkeypatch.setattr(JobFile, "read", overtaken)
    assert run("cut", path, part.id) == SOUND
    text = made.read_text(encoding="utf-8")
    assert "# one\n" in text
    assert "# two\n" in text
    assert len(read_made(made).cuts) == len(part.cuts)


def test_a_made_file_that_cannot_be_read_is_left_as_it_is(job, capsys):
    path = job(SOUND_JOB)
    made = path.with_name("job.made.toml")
    made.write_text("dryfit_made = 1\n[[cut]]\nbetween = 3\n", encoding="utf-8")
    part = "x"
    assert run("cut", path, part) == UNUSABLE
    assert "job.made.toml:3" in capsys.readouterr().err
    assert made.read_text(encoding="utf-8").endswith("between = 3\n")


# ---- every kind of joint side by side


def rows_of(said):
    """The rows of the table by their heads, a cell for each kind, as wrapped lines put together again."""
    _, rest = said.split("\n\n", 1)
    lines = rest.split("\n\n", 1)[0].splitlines()
    starts = [match.start() for match in re.finditer(r"(?<=  )\S", lines[0])]
    spans = list(zip([0, *starts], [*starts, None], strict=True))
    rows = []
    for line in lines[1:]:
        cells = [line[low:high].strip() for low, high in spans]
        if cells[0]:
            rows.append(cells)
        else:
            rows[-1] = [f"{before} {more}".strip() for before, more in zip(rows[-1], cells, strict=True)]
    return {head: cells for head, *cells in rows}


def test_joints_puts_every_kind_side_by_side_in_either_order_of_names(job, capsys):
    path = job(SOUND_JOB)
    before = path.read_bytes()
    assert run("joints", path, "divider", "lower shelf") == SOUND
    said = capsys.readouterr().out
    assert run("joints", path, "lower shelf", "divider") == SOUND
    assert capsys.readouterr().out == said

    assert said.startswith("divider and lower shelf: end on face at 90°; now a housing\n")
    rows = rows_of(said)
    assert rows["held"][:2] == ["glued", "dowelled"]
    assert rows["cuts in divider"][:2] == ["1: end", "2: end, dowel holes (2)"]
    # the divider is 19.8 thick and 180 deep, the housing 6.5: (19.8 + 2 x 6.5) x 180 and 19.8 x 180
    assert rows["glue"][:2] == ["5,904 mm2", "3,564 mm2"]
    assert rows["goes together"][:2] == ["divider from above or from the wall", "divider from above"]
    assert "cross halving: a cross halving does not suit an end on face" in said
    assert "Not worked out for each kind: the order" in said
    assert path.read_bytes() == before


def test_joints_tells_what_would_have_to_change_first(job, capsys):
    assert run("joints", job(demo_text("record-wall")), "divider 1", "shelf 2") == SOUND
    said = capsys.readouterr().out

    assert rows_of(said)["must change first"][:2] == ["nothing", "1, see below"]
    assert "With a butt there:\n  stop  shelf 2:" in said


def shelf_and_divider(thickness, depth, shelf, divider, units="mm"):
    head = f'dryfit = 1\n[job]\ntitle = "demo"\nunits = "{units}"\n'
    timber = f'[timber.oak]\nspecies = "oak, white"\nthickness = {thickness}\n'
    boards = (
        f'[[board]]\nname = "{name}"\ntimber = "oak"\nline = {line}\ndepth = {depth}\n'
        for name, line in (("shelf", shelf), ("divider", divider))
    )
    return head + timber + "".join(boards)


def test_joints_speaks_in_the_units_of_the_job(job, capsys):
    text = shelf_and_divider(0.75, 8, [[0, 12], [40, 12]], [[20, 12], [20, 30]], units="in")
    assert run("joints", job(text), "divider", "shelf") == SOUND
    assert rows_of(capsys.readouterr().out)["glue"][1] == "6.00 in2"  # a butt's: 3/4 thick, 8 deep


def test_the_table_of_joints_in_the_manual_is_the_one_that_is_printed(job, capsys):
    manual = (Path(__file__).parent.parent / "docs" / "outputs.md").read_text(encoding="utf-8")
    (shown,) = re.findall(r"^```\n(divider and shelf: .*?)^```", manual, re.MULTILINE | re.DOTALL)
    text = shelf_and_divider(20, 200, [[0, 300], [1000, 300]], [[600, 300], [600, 700]])
    assert run("joints", job(text), "divider", "shelf") == SOUND
    said = capsys.readouterr().out
    # A kind that comes to be made has a column more on the right; what is shown is the three on the left.
    assert [line[: len(of.rstrip())] for line, of in zip(said.splitlines(), shown.splitlines(), strict=False)] == [
        line.rstrip() for line in shown.splitlines()
    ]


def test_joints_gives_machines_the_same(job, capsys):
    assert run("joints", job(SOUND_JOB), "divider", "lower shelf", "--json") == SOUND
    data = json.loads(capsys.readouterr().out)
    kinds = {one["kind"]: one for one in data["kinds"]}

    assert (data["between"], data["now"]) == (["divider", "lower shelf"], "housing")
    assert [name for name, one in kinds.items() if one["now"]] == ["housing"]
    assert kinds["butt"]["cost"]["glue_mm2"] == 3564.0
    assert [(cut["board"], cut["count"]) for cut in kinds["butt"]["cost"]["cuts"]] == [
        ("divider", 1),
        ("lower shelf", 2),
        ("divider", 2),
    ]
    assert kinds["mitre"]["cost"] is None
    assert kinds["mitre"]["reasons"] == ["a mitre does not suit an end on face"]


@pytest.mark.parametrize(
    ("names", "says"),
    [
        (("divder", "lower shelf"), "there is no board called divder; did you mean divider?"),
        (("divider", "qqqq"), "there is no board called qqqq; there are: lower shelf, upper shelf, "),
        (("divider", "divider"), "divider is named twice"),
        (
            ("left side", "leaning side"),
            "they do not meet; left side meets lower shelf, upper shelf; leaning side meets lower shelf, upper shelf",
        ),
    ],
    ids=["nearly", "none such", "twice", "apart"],
)
def test_joints_says_which_boards_there_are_and_which_they_meet(job, capsys, names, says):
    path = job(SOUND_JOB)
    assert run("joints", path, *names) == UNUSABLE
    said = capsys.readouterr()
    assert said.err.startswith("job.toml: ")
    assert says in said.err
    assert said.out == ""
    assert run("joints", path, *names, "--json") == UNUSABLE
    assert len(json.loads(capsys.readouterr().out)["mistakes"]) == 1


def test_joints_says_why_three_boards_that_end_in_one_place_have_no_joint(job, capsys):
    text = shelf_and_divider(20, 200, [[500, 300], [1000, 300]], [[500, 300], [500, 700]])
    third = '[[board]]\nname = "third"\ntimber = "oak"\nline = [[500, 300], [100, 300]]\ndepth = 200\n'
    assert run("joints", job(text + third), "shelf", "divider") == UNUSABLE
    said = capsys.readouterr().err
    assert said.startswith("job.toml: no joint can be made between shelf and divider: ")
    assert "do not meet" not in said
    assert "third" in said
