"""The manual against the program: what it shows runs, what there is to know stands in it.

The template of "adding a joint" is taken off its page and put to work on a small piece (those of "adding a study" in
tests/studies/test_templates.py): an upright 500 long drawn from the middle of a shelf that is 20 thick.
"""

import re
import sys
import types
from dataclasses import fields
from pathlib import Path

import pytest

import dryfit
from dryfit import findings
from dryfit.book import build, read_job_text
from dryfit.findings import Severity
from dryfit.job.schema import MANY, SINGLE, ExceptTable, JointsTable, TimberTable
from dryfit.joints import KINDS
from dryfit.shop.model import Shop
from dryfit.shop.reading import TOOLS, ShopTable
from dryfit.shop.tools import tools_of
from tests.adding import PIECE, templates

ROOT = Path(__file__).parent.parent


def page(name):
    return (ROOT / name).read_text(encoding="utf-8")


def blocks(name, language):
    return re.findall(rf"^```{language}\n(.*?)^```", page(name), re.MULTILINE | re.DOTALL)


def run_template(monkeypatch, source, package, module):
    """Run what a page shows as a module of a package."""
    template = types.ModuleType(f"{package}.{module}")
    template.__package__ = package
    monkeypatch.setitem(sys.modules, template.__name__, template)
    for name in ("CODES", "OWNERS"):
        monkeypatch.setattr(findings, name, dict(getattr(findings, name)))
    for name in set(re.findall(r'name = "(\w+)"', source)):  # so that what the template asks is taken out again
        monkeypatch.setitem(findings.QUESTIONS, name, "")
        del findings.QUESTIONS[name]
    exec(compile(source, module, "exec"), template.__dict__)
    return template


def test_the_template_of_a_joint_makes_a_piece(monkeypatch):
    monkeypatch.setitem(KINDS, "plain end", None)  # so that what the template registers is taken out again
    del KINDS["plain end"]
    run_template(monkeypatch, templates("adding-a-joint")["joints/plain_end.py"], "dryfit.joints", "template")

    book = build(read_job_text(f'{PIECE}[joints]\nend_on_face = "plain end"\n[joints."plain end"]\ngap = 0.5\n'))

    (joint,) = book.piece.joints
    assert joint.kind == "plain end"
    assert not book.stops
    upright = book.piece.part_by_name["upright"]
    assert upright.length == pytest.approx(500 - 10 - 0.5)
    assert book.solids.volume(upright) == pytest.approx(489.5 * 200 * 20)


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

    (text,) = (block for block in blocks("docs/shop-file.md", "toml") if "[shop]" in block)
    shop = parse_shop(text)
    assert shop.assumed == ()
    assert not [tool for tool in tools_of(shop) if tool.assumed]


@pytest.mark.parametrize(("model", "made"), [(ShopTable, Shop), *((model, made) for model, made, _ in TOOLS.values())])
def test_every_key_of_the_shop_file_stands_in_the_manual_with_what_is_taken_where_it_is_left_out(model, made):
    """The last cell of a key's row begins with the figure that the program takes."""
    heads = {"ShopTable": "## [shop]", "DrillTable": "### [[drill]] and", "BitTable": "### [[drill]] and"}
    head = heads.get(model.__name__, f"### {model.called}")
    section = page("docs/shop-file.md").split(f"\n{head}")[1].split("\n#")[0]
    for key in keys_of(model):
        default = next(field.default for field in fields(made) if field.name == key)
        rows = [line for line in section.splitlines() if line.startswith(f"| `{key}`")]
        assert rows or key == "name", key
        if isinstance(default, float) and rows:
            left_out = rows[0].rstrip(" |").rpartition("| ")[2]
            assert re.match(rf"{default:g}\b", left_out), (key, default, left_out)


def keys_of(model):
    return [info.alias or name for name, info in model.model_fields.items()]


@pytest.mark.parametrize("model", [*SINGLE.values(), *MANY.values(), ExceptTable, JointsTable, TimberTable])
def test_every_key_of_the_job_file_stands_in_the_manual(model):
    manual = page("docs/job-file.md")
    missing = [key for key in keys_of(model) if f"`{key}" not in manual and not re.search(rf"\b{key} *=", manual)]
    assert [key for key in missing if key not in {"between", "except"}] == []


@pytest.mark.parametrize("name", sorted(KINDS))
def test_every_option_of_a_joint_stands_in_the_manual(name):
    """In the page of the job file, or in the kind's own."""
    own = ROOT / "docs" / "joints" / f"{name.replace(' ', '-')}.md"
    manual = page("docs/job-file.md")
    if f"**{name}**" not in manual:
        manual = own.read_text(encoding="utf-8")
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
    from dryfit.documents.writers import WRITERS

    manual = page("docs/outputs.md") + "".join(
        path.read_text(encoding="utf-8") for path in sorted((ROOT / "docs" / "files").glob("*.md"))
    )
    promised = [
        *(f"`dryfit {command.name}" for command in COMMANDS),
        *(f"`{writer.makes}`" for writer in WRITERS.values()),
    ]
    promised += [f"`{column}`" for column in COLUMNS]
    assert [word for word in promised if word not in manual] == []
