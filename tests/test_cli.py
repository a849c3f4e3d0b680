"""The command `dryfit` as a maker meets it: exit 0 sound, 1 something must change, 2 unusable; never a traceback."""

import json
import subprocess
import sys

import pytest

from dryfit.book.demos import demo_text
from dryfit.cli import MUST_CHANGE, SOUND, UNUSABLE, main

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


def test_new_writes_a_job_that_is_sound_and_never_over_another(tmp_path, capsys):
    path = tmp_path / "shelf.toml"

    assert run("new", path) == SOUND
    assert run("check", path) == SOUND
    before = path.read_bytes()
    assert run("new", path) == UNUSABLE
    assert path.read_bytes() == before
    assert "there already" in capsys.readouterr().err


@pytest.mark.parametrize("word", ["nowhere.toml", "."], ids=["no such file", "a folder"])
def test_what_cannot_be_opened_is_told_in_a_line(tmp_path, monkeypatch, capsys, word):
    monkeypatch.chdir(tmp_path)

    assert run("check", word) == UNUSABLE
    said = capsys.readouterr().err
    assert said.count("\n") == 1
    assert "cannot be opened" in said


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


def test_a_reader_that_goes_away_gets_no_traceback(job):
    path = job(SOUND_JOB)
    command = [sys.executable, "-m", "dryfit.cli", "check", str(path), "--json"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE) as running:
        running.stdout.close()
        said = running.stderr.read().decode()
        running.wait(timeout=60)

    assert "Traceback" not in said
