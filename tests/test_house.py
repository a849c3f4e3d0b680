"""The rules of the house that no other tool holds: what a tracked file must not name, what must be documented.

Import rules are in pyproject.toml (import-linter), style and types in ruff and mypy; `start.py lint` runs all.
"""

import ast
import graphlib
import importlib
import pkgutil
import re
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

import dryfit
from dryfit import findings
from tools.findings import told

ROOT = Path(__file__).parent.parent
SRC = ROOT / "src" / "dryfit"

# Namespaces and this machine: addresses that nothing is fetched from.
HARMLESS = {"www.w3.org", "json-schema.org", "127.0.0.1", "localhost"}
# Fonts come with their own licences, the page's lock with funding links; both are others' words.
OTHERS_WORDS = re.compile(r"/fonts/|package-lock\.json$")
MACHINE = re.compile(r"(?<![\w.])/(?:work|root|opt|mnt|Users)/\w")


def in_git():
    """Every file of the project that is, or would be, in its history."""
    listed = subprocess.run(
        ["git", "ls-files", "--cached", "--others", "--exclude-standard"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )
    if listed.returncode:
        pytest.skip("not a git checkout: nothing is tracked")
    return [ROOT / name for name in listed.stdout.splitlines() if (ROOT / name).is_file()]


def tracked():
    """The text files among them: name and text."""
    for path in in_git():
        data = path.read_bytes()
        if b"\0" not in data[:4096]:
            yield path.relative_to(ROOT).as_posix(), data.decode("utf-8")


def modules():
    return [info.name for info in pkgutil.walk_packages(dryfit.__path__, "dryfit.")]


def imported(path):
    """Top-level names of what a file imports, relative imports left out."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name.partition(".")[0] for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.level == 0:
            yield node.module.partition(".")[0]


# ---- what a file must not name


def test_no_file_names_an_address_on_the_network():
    for name, text in tracked():
        if not OTHERS_WORDS.search(name):
            hosts = set(re.findall(r"\b(?:https?|ftp|git)://([\w.-]+)", text)) - HARMLESS
            hosts = {host for host in hosts if not host.endswith(".example")}  # kept free for examples (RFC 2606)
            assert not hosts, f"{name} names {hosts}"


def test_no_file_names_a_folder_of_the_machine_it_was_written_on():
    for name, text in tracked():
        if not OTHERS_WORDS.search(name):
            found = MACHINE.search(text) or re.search(r"\.\./shared\b", text)
            assert found is None, f"{name} names {text[found.start() : found.start() + 60]!r}"


def test_no_large_file_is_tracked():
    for name, text in tracked():
        assert len(text) < 1_500_000, name


# ---- what a module may use


def test_importing_dryfit_brings_in_nothing_heavy():
    heavy = "{'numpy', 'manifold3d', 'pydantic', 'typst', 'fastapi', 'shapely', 'importlib.metadata'}"
    script = f"import sys, dryfit; dryfit.__version__; print(sorted({heavy} & set(sys.modules)))"
    ran = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True, cwd=SRC.parent)
    assert ran.stdout.strip() == "[]"


def test_the_names_that_dryfit_promises_are_there():
    for name in dryfit.__all__:
        assert getattr(dryfit, name) is not None, name
        assert name in dir(dryfit)
    with pytest.raises(AttributeError, match="nonsense"):
        dryfit.nonsense  # noqa: B018 - the asking is the test


def test_every_library_that_src_imports_is_a_dependency():
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    needed = {re.match(r"[a-z0-9_-]+", line)[0].replace("-", "_") for line in project["dependencies"]}
    allowed = {*needed, "pydantic_core"}
    for path in SRC.rglob("*.py"):
        foreign = set(imported(path)) - set(sys.stdlib_module_names) - {"dryfit"}
        assert foreign <= allowed, f"{path.relative_to(ROOT)} imports {foreign - allowed}"


def test_every_library_that_a_test_imports_is_locked():
    locked = set(re.findall(r"^([a-z0-9-]+)==", (ROOT / "requirements-dev.lock.txt").read_text("utf-8"), re.MULTILINE))
    locked = {name.replace("-", "_") for name in locked} | {"tests", "bench", "tools", "dryfit", "start"}
    locked |= {"OCP"} if "cadquery_ocp_novtk" in locked else set()  # as Python imports it
    for path in (ROOT / "tests").rglob("*.py"):
        foreign = set(imported(path)) - set(sys.stdlib_module_names)
        assert foreign <= locked, f"{path.relative_to(ROOT)} imports {foreign - locked}"


def taken_from(name, path):
    """The modules of the package that a module takes names from, wherever in it the import stands."""
    package = name if path.name == "__init__.py" else name.rpartition(".")[0]
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom):
            above = package.split(".")[: len(package.split(".")) - node.level + 1] if node.level else []
            origin = ".".join([*above, *([node.module] if node.module else [])])
            yield from (f"{origin}.{one.name}" if (f"{origin}.{one.name}") in KNOWN else origin for one in node.names)


KNOWN = set(modules())


def test_no_modules_of_the_package_know_each_other_in_a_circle_not_even_for_their_types():
    """What a room gathers from the folder below it counts as the folder's own: imports go down, whoever does them."""
    waits = {}
    for name in KNOWN:
        place = SRC.joinpath(*name.split(".")[1:])
        path = place / "__init__.py" if place.is_dir() else place.with_suffix(".py")
        waits[name] = {other for other in taken_from(name, path) if other in KNOWN and other != name}
    assert len(KNOWN) > 300
    assert sum(map(len, waits.values())) > 1500
    try:
        graphlib.TopologicalSorter(waits).prepare()
    except graphlib.CycleError as circle:
        pytest.fail(" -> ".join(circle.args[1]))


def test_no_room_outside_the_joints_asks_for_a_kind_by_name():
    """What a kind does is asked of the kind; a room that compares its name would have to know every new one."""
    from dryfit.joints.registry import NAMED

    for path in SRC.rglob("*.py"):
        if path.parent.name == "joints":
            continue
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Compare):
                texts = {part.value for part in ast.walk(node) if isinstance(part, ast.Constant)}
                assert not texts & set(NAMED), f"{path.relative_to(ROOT)}:{node.lineno} compares a kind's name"


READ_BY_PATTERNS = {
    "documents/dxf/drawing.py": "ends of lines and codes, which a line of a DXF text does not allow",
    "documents/pages.py": "the letters that stand in printed text for a page not numbered yet",
    "documents/pdf.py": "spaces at which a line may break",
    "documents/sheets/page/table.py": "where a line may break in printed text",
    "documents/svg.py": "characters that XML does not allow",
    "documents/step.py": "the time and the count that the kernel writes into a file; ends of lines in names",
    "documents/stamps.py": "a stamp among the bytes of any file of ours",
    "editing/levers.py": "numbers in what a maker wrote",
    "editing/raking.py": "arithmetic that a maker wrote",
    "editing/rows.py": "arithmetic in a job file: into how many bays a row parts its own",
    "job/edits.py": "the text of a job file",
    "job/measures.py": "names in a job file",
    "job/names.py": "names in a job file",
    "job/spans.py": "the text of a job file",
    "job/style.py": "the text of a job file",
    "job/syntax.py": "the text of a job file, and what the reader of TOML says of it",
    "job/tokens.py": "arithmetic in a job file",
    "joints/screws/wall.py": "what a maker wrote of the wall",
    "lengths.py": "lengths as people write them",
    "piece/setout.py": "what a timber is called",
    "trade/anchors.py": "anchors as they are sold",
    "trade/names.py": "what things of the trade are called, as people write it",
    "trade/screws.py": "screws as they are sold",
}


def test_patterns_read_what_people_and_other_programs_write_never_what_we_have_said():
    """What we know is a value; text of ours that is taken apart again is a fact that was lost on the way."""
    using = {path.relative_to(SRC).as_posix() for path in SRC.rglob("*.py") if "re" in imported(path)}
    assert using == set(READ_BY_PATTERNS)


READ_AS_TEXT = {  # what takes a text apart, or looks for something in one, and whose text it is
    "book/demos.py": "names of files",
    "cli/commands.py": "names of files, and lines of a file of answers",
    "documents/dxf/drawing.py": "what a text of a DXF file does not allow",
    "documents/folder.py": "the note of stamps that a folder of papers holds",
    "documents/kit/dimension.py": "where printed words go on in a second line",
    "documents/kit/label.py": "where printed words go on in a second line",
    "documents/lettering.py": "where printed words go on in a second line",
    "documents/naming.py": "how a noun ends, for its plural",
    "documents/pages.py": "the letters that stand in printed text for a page not numbered yet",
    "documents/pdf.py": "bytes that the typesetter writes",
    "documents/sheets/approval/agreed.py": "whether a maker calls the client a demo",
    "documents/sheets/booklet/loose.py": "commas: whether one more parts what follows",
    "documents/sheets/booklet/maker.py": "how many people a step takes: that alone is said again on each sheet",
    "documents/sheets/joint/layout.py": "where a head goes on in a second line",
    "documents/sheets/joint/shared.py": "printed figures, which are alike however many noughts they end on",
    "documents/sheets/page/frame.py": "words of a maker's title",
    "documents/sheets/page/prose.py": "where printed words go on in a second line",
    "documents/sheets/page/table.py": "where printed words go on in a second line",
    "documents/sheets/part/words/together.py": "names of boards, as a maker writes them",
    "documents/step.py": "bytes that the kernel writes",
    "documents/tables.py": "what a cell of a table must not begin with, or hold",
    "documents/writer.py": "names of files",
    "documents/writing.py": "names of files",
    "editing/cards/listings.py": "what a maker calls a table",
    "editing/cards/rows.py": "keys of the job file, references of a JSON schema, and what a maker typed",
    "editing/derived.py": "degrees behind a number that a maker typed",
    "editing/different.py": "the text of a job file",
    "editing/figures.py": "a number that a maker typed",
    "editing/refusals.py": "the text of a job file",
    "editing/relating.py": "places in a job file",
    "editing/rows.py": "how a maker numbers a row, and a number that is typed",
    "editing/tabling.py": "keys of the job file",
    "editing/typing_in.py": "what a maker typed, and keys of the job file",
    "lengths.py": "digits of a figure that is being written",
    "piece/as_cut.py": "a name in a made file, or typed by hand",
    "piece/cut_findings.py": "digits of two figures, which may have changed places",
    "piece/made.py": "the text of a made file, and names in it",
    "piece/meetings.py": "names of boards, as a maker writes them: numbers in them count",
    "piece/room.py": "what a maker calls the wall",
    "scanning.py": "names of modules",
    "sentences.py": "how a noun ends, for its plural; a sentence's own braces",
    "terminal.py": "lines of a traceback",
    "trade/anchors.py": "anchors as they are sold",
    "trade/figures.py": "lines of the data files",
    "trade/names.py": "what things of the trade are called, as people write it",
    "trade/sanding.py": "what a maker calls the finish",
    "trade/screws.py": "rows of the data files",
    "web/previews.py": "lines of a job file",
    "web/server/api.py": "a name of a file, for a header",
    "web/server/safety.py": "headers of a request, addresses",
    "web/server/server.py": "the page's own HTML, addresses",
    "web/store/history.py": "what the data base says of a fault; its own tables",
    "web/store/jobfile.py": "the text of a job file; what the system says of its mounts",
    "web/store/journal.py": "bytes of a file that another program may have written",
    "web/store/salvage.py": "what the data base says of a fault",
    "web/store/late.py": "the text of a job file",
    "web/worker/watch.py": "what the system says of a process",
}
READ_IN_ROOMS = {"job": "the text of a job file, and what its readers say of it"}
CUTS_TEXT = {"split", "rsplit", "partition", "rpartition", "splitlines"}
CUTS_TEXT |= {"startswith", "endswith", "removeprefix", "removesuffix", "rfind", "isdigit", "isdecimal"}
NOT_TEXT = {"os", "sheet", "affinity"}  # whose `replace` is another


def takes_text(node):
    """Whether an expression takes a text apart, changes words in it, or asks whether something stands in it."""
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
        owner = node.func.value.id if isinstance(node.func.value, ast.Name) else ""
        return node.func.attr in CUTS_TEXT or (
            node.func.attr == "replace" and bool(node.args) and owner not in NOT_TEXT
        )
    if not isinstance(node, ast.Compare) or not isinstance(node.left, ast.Constant):
        return False
    within = [one for op, one in zip(node.ops, node.comparators, strict=True) if isinstance(op, ast.In | ast.NotIn)]
    return isinstance(node.left.value, str) and any(may_be_text(node.left.value, one) for one in within)


def may_be_text(sought, within):
    """Whether what is asked may be a text: told just then, or asked for what no key is called."""
    if isinstance(within, ast.Call):
        return not (isinstance(within.func, ast.Name) and within.func.id in ("set", "frozenset", "dict"))
    keyed = isinstance(within, ast.Tuple | ast.Set | ast.List | ast.Dict)
    kept = isinstance(within, ast.Attribute) and within.attr == "kept"
    return not (keyed or kept or sought.replace("_", "").replace("$", "").isalnum())


def test_no_text_of_ours_is_taken_apart_or_searched_by_whatever_means():
    """Each module that does so is listed with what it reads: what people or other programs write, or lines to break."""
    found = {}
    for path in SRC.rglob("*.py"):
        place = path.relative_to(SRC).as_posix()
        own = [node.lineno for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))) if takes_text(node)]
        if own and place.partition("/")[0] not in READ_IN_ROOMS:
            found[place] = own
    assert {place: lines for place, lines in found.items() if place not in READ_AS_TEXT} == {}
    assert [place for place in READ_AS_TEXT if place not in found] == [], "listed, and reads nothing any more"


@pytest.mark.parametrize(
    "reads",
    ["told.split(': ')", "item.text.startswith(CHECK)", "'stud' in words_of(point)", "' people: ' in said",
     "told(words, voice).removeprefix('a ')", "svg(sheet).replace('<svg ', '')"],
)  # fmt: skip
def test_what_takes_a_text_apart_is_seen(reads):
    assert any(takes_text(node) for node in ast.walk(ast.parse(reads)))


FACTS_OF_A_CUT = {"word", "noun", "plain", "key", "opens", "takes", "grain", "form", "edge"}
READS_A_KEY = {"piece/as_cut.py": 1}  # `means`: a name in a made file, or typed by hand


def of_a_cut(node):
    """What of a cut's facts is in an expression."""
    return {part.attr for part in ast.walk(node) if isinstance(part, ast.Attribute)} & FACTS_OF_A_CUT


def test_no_program_takes_apart_what_a_cut_is_called_or_compares_it_with_a_word():
    """A fact of a cut is asked by its value; keys are read in the one place that opens the made files there are."""
    read, compared = {}, []
    for path in SRC.rglob("*.py"):
        place = path.relative_to(SRC).as_posix()
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr in CUTS_TEXT:
                if of_a_cut(node.func.value):
                    read[place] = read.get(place, 0) + 1
            elif isinstance(node, ast.Compare) and re.search(r"\bcut\.(word|noun|plain)\b", ast.unparse(node)):
                compared.append(f"{place}:{node.lineno}")
    assert read == READS_A_KEY
    assert compared == []


# ---- what must be documented


def test_every_finding_has_its_place_in_the_manual():
    for module in modules():
        importlib.import_module(module)
    opens = {page.code: page.body.partition("\n\n")[0].replace("\n", " ") for page in told(ROOT / "docs" / "findings")}
    assert len(findings.CODES) > 0
    means = {code.word: code.means for code in findings.CODES.values()}
    assert opens == means, "docs/findings/CODE.md: a page a finding, opened by what the program says of it"


def links():
    """Every link of a tracked page: the page, what it leads to, and the place on that."""
    for page in (path for path in in_git() if path.suffix == ".md"):
        for target, place in re.findall(r"\]\(([^)#\s]*)#?([^)\s]*)\)", page.read_text(encoding="utf-8")):
            yield page, (page.parent / target).resolve() if target else page, place


def test_every_link_leads_to_what_is_in_git_so_that_it_is_live_wherever_the_page_is_read():
    """What the build makes is in no fresh clone: pages name it and do not link to it."""
    there = {path.resolve() for path in in_git()}
    there |= {folder for path in there for folder in path.parents}
    followed = [(page, target) for page, target, _ in links()]
    assert len(followed) > 50
    assert [f"{page.relative_to(ROOT)} points to {target}" for page, target in followed if target not in there] == []


def test_every_place_on_a_page_that_a_link_names_is_there():
    for page, target, place in links():
        if place:
            titles = re.findall(r"^#+ (.+)$", target.read_text(encoding="utf-8"), re.MULTILINE)
            slugs = {re.sub(r"[^\w -]", "", title.lower()).replace(" ", "-") for title in titles}
            assert place in slugs, f"{page.relative_to(ROOT)} points to #{place} of {target.relative_to(ROOT)}"


def test_no_class_that_others_may_import_has_the_name_of_another():
    """One meaning a name: a reader who meets it need not ask of which room it is. What begins with _ stays at home."""
    rooms: dict[str, list[str]] = {}
    for path in sorted(SRC.rglob("*.py")):
        for node in ast.parse(path.read_text(encoding="utf-8")).body:
            if isinstance(node, ast.ClassDef) and not node.name.startswith("_"):
                rooms.setdefault(node.name, []).append(path.relative_to(SRC).as_posix())
    assert {name: found for name, found in rooms.items() if len(found) > 1} == {}
