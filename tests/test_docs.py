"""The manual against the program: what it shows runs, what there is to know stands in it.

The templates of "adding a joint" and "adding a study" are taken off their pages and put to work on a small
piece: an upright 500 long drawn from the middle of a shelf that is 20 thick.
"""

import re
import sys
import types
from pathlib import Path

import pytest

import dryfit
from dryfit import findings
from dryfit.book import build, read_job_text
from dryfit.findings import Severity
from dryfit.job.schema import MANY, SINGLE, ExceptTable, JointsTable, TimberTable
from dryfit.joints import KINDS
from dryfit.studies import STUDIES

ROOT = Path(__file__).parent.parent
PIECE = """\
dryfit = 1
[timber.oak]
species = "oak, white"
thickness = 20
[[board]]
name = "shelf"
line = [[0, 0], [600, 0]]
depth = 200
[[board]]
name = "upright"
line = [[300, 0], [300, 500]]
depth = 200
"""


def page(name):
    return (ROOT / name).read_text(encoding="utf-8")


def blocks(name, language):
    return re.findall(rf"^```{language}\n(.*?)^```", page(name), re.MULTILINE | re.DOTALL)


def run_template(monkeypatch, name, package, module):
    """Run the one Python block of a page as a module of a package."""
    (source,) = (block for block in blocks(name, "python") if block.startswith('"""'))
    template = types.ModuleType(f"{package}.{module}")
    template.__package__ = package
    monkeypatch.setitem(sys.modules, template.__name__, template)
    monkeypatch.setattr(findings, "CODES", dict(findings.CODES))
    for name in set(re.findall(r'name = "(\w+)"', source)):  # so that what the template asks is taken out again
        monkeypatch.setitem(findings.QUESTIONS, name, "")
        del findings.QUESTIONS[name]
    exec(compile(source, name, "exec"), template.__dict__)
    return template


def test_the_template_of_a_joint_makes_a_piece(monkeypatch):
    monkeypatch.setitem(KINDS, "plain end", None)  # so that what the template registers is taken out again
    del KINDS["plain end"]
    run_template(monkeypatch, "docs/adding-a-joint.md", "dryfit.joints", "template")

    book = build(read_job_text(f'{PIECE}[joints]\nend_on_face = "plain end"\n[joints."plain end"]\ngap = 0.5\n'))

    (joint,) = book.piece.joints
    assert joint.kind == "plain end"
    assert not book.stops
    upright = book.piece.part_by_name["upright"]
    assert upright.length == pytest.approx(500 - 10 - 0.5)
    assert book.solids.volume(upright) == pytest.approx(489.5 * 200 * 20)


def test_the_template_of_a_study_finds_what_it_says(monkeypatch):
    monkeypatch.setitem(STUDIES, "van", None)
    del STUDIES["van"]
    run_template(monkeypatch, "docs/adding-a-study.md", "dryfit.studies", "template")

    def found(table):
        book = build(read_job_text(PIECE + table))
        return [str(finding.says) for finding in book.findings if finding.code == "longer-than-the-van"]

    def open_ones(table):
        book = build(read_job_text(PIECE + table))
        return [one.why for one in book.not_checked if one.study == "van"], "van" in book.checked

    assert open_ones("") == (["no length is given under [van]"], False)
    assert open_ones("[van]\nlength = 550\n") == ([], True)
    assert found("") == []
    assert found('[van]\nlength = "0.6 m"\n') == []
    assert found("[van]\nlength = 550\n") == ["shelf is 600 long, the van 550"]


@pytest.mark.parametrize("name", ["README.md", "docs/job-file.md"])
def test_every_whole_job_shown_reads_and_has_no_stop(name):
    jobs = [block for block in blocks(name, "toml") if "[[board]]" in block]
    assert jobs or name != "README.md"
    for job in jobs:
        book = build(read_job_text(job, name))
        assert book.stops == ()
        assert not [finding for finding in book.findings if finding.severity is Severity.WARN]


def test_the_shop_file_shown_reads():
    from dryfit.shop.reading import parse_shop

    (shop,) = (block for block in blocks("docs/job-file.md", "toml") if "[shop]" in block)
    assert parse_shop(shop).assumed == ()


def keys_of(model):
    return [info.alias or name for name, info in model.model_fields.items()]


@pytest.mark.parametrize("model", [*SINGLE.values(), *MANY.values(), ExceptTable, JointsTable, TimberTable])
def test_every_key_of_the_job_file_stands_in_the_manual(model):
    manual = page("docs/job-file.md")
    missing = [key for key in keys_of(model) if f"`{key}" not in manual and not re.search(rf"\b{key} *=", manual)]
    assert [key for key in missing if key not in {"between", "except"}] == []


@pytest.mark.parametrize("name", sorted(KINDS))
def test_every_option_of_a_joint_stands_in_the_manual(name):
    manual = page("docs/job-file.md")
    assert f"**{name}**" in manual
    assert [key for key in keys_of(KINDS[name].options) if f"`{key}`" not in manual] == []


def test_the_python_shown_in_the_package_works(tmp_path):
    """The lines of `dryfit.__doc__`, with a job of our own."""
    job = tmp_path / "wall.toml"
    job.write_text(PIECE, encoding="utf-8")
    shown = re.findall(r"^    (.*)$", dryfit.__doc__, re.MULTILINE)
    assert shown[0] == "import dryfit"
    names = {"print": lambda *words: None}
    exec("\n".join(shown).replace("wall.toml", job.as_posix()), names)
    assert {board.name for board in names["book"].piece.boards} == {"shelf", "upright"}


def test_every_command_file_and_column_stands_in_the_manual():
    from dryfit.cli import COMMANDS
    from dryfit.documents.tables import COLUMNS
    from dryfit.documents.writing import WRITERS

    manual = page("docs/outputs.md")
    promised = [*(f"`dryfit {command.name}" for command in COMMANDS), *(f"`{file}`" for file in WRITERS)]
    promised += [f"`{column}`" for column in COLUMNS]
    assert [word for word in promised if word not in manual] == []
