"""The rules of the house that no other tool holds: what a tracked file must not name, what must be documented.

Import rules are in pyproject.toml (import-linter), style and types in ruff and mypy; `start.py lint` runs all.
"""

import ast
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

ROOT = Path(__file__).parent.parent
SRC = ROOT / "src" / "dryfit"

# Namespaces and this machine: addresses that nothing is fetched from.
HARMLESS = {"www.w3.org", "json-schema.org", "127.0.0.1", "localhost"}
# Fonts come with their own licences, the page's lock with funding links; both are others' words.
OTHERS_WORDS = re.compile(r"/fonts/|package-lock\.json$")
MACHINE = re.compile(r"(?<![\w.])/(?:work|root|opt|mnt|Users)/\w")


def tracked():
    """Every text file of the project that is, or would be, in its history."""
    listed = subprocess.run(
        ["git", "ls-files", "--cached", "--others", "--exclude-standard"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )
    if listed.returncode:
        pytest.skip("not a git checkout: nothing is tracked")
    for name in listed.stdout.splitlines():
        path = ROOT / name
        if path.is_file():
            data = path.read_bytes()
            if b"\0" not in data[:4096]:
                yield name, data.decode("utf-8")


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
    allowed = {re.match(r"[a-z0-9_]+", line)[0] for line in project["dependencies"]} | {"pydantic_core"}
    for path in SRC.rglob("*.py"):
        foreign = set(imported(path)) - set(sys.stdlib_module_names) - {"dryfit"}
        assert foreign <= allowed, f"{path.relative_to(ROOT)} imports {foreign - allowed}"


def test_every_library_that_a_test_imports_is_locked():
    locked = set(re.findall(r"^([a-z0-9-]+)==", (ROOT / "requirements-dev.lock.txt").read_text("utf-8"), re.MULTILINE))
    locked = {name.replace("-", "_") for name in locked} | {"tests", "bench", "page", "dryfit", "start"}
    for path in (ROOT / "tests").rglob("*.py"):
        foreign = set(imported(path)) - set(sys.stdlib_module_names)
        assert foreign <= locked, f"{path.relative_to(ROOT)} imports {foreign - locked}"


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


# ---- what must be documented


def test_every_finding_has_its_place_in_the_manual():
    for module in modules():
        importlib.import_module(module)
    manual = (ROOT / "docs" / "findings.md").read_text(encoding="utf-8")
    assert len(findings.CODES) > 0
    pages = [f"\n### {code}\n\n{meaning}\n" for code, meaning in findings.CODES.items()]
    lacking = [opening for opening in pages if opening not in manual]
    assert not lacking, f"docs/findings.md lacks (or has otherwise):\n{''.join(lacking)}"
    described = set(re.findall(r"^### (\S+)$", manual, re.MULTILINE))
    assert described <= set(findings.CODES), "the manual tells of findings that nothing makes"


def test_the_changelog_opens_with_the_version_at_hand():
    changelog = (ROOT / "CHANGELOG.md").read_text(encoding="utf-8")
    assert re.search(r"^## \[([^\]]+)\]", changelog, re.MULTILINE)[1] == dryfit.__version__


def test_every_page_that_a_page_points_to_is_there():
    for page in [*ROOT.glob("*.md"), *(ROOT / "docs").rglob("*.md")]:
        for target in re.findall(r"\]\(([^)#\s]+)", page.read_text(encoding="utf-8")):
            assert (page.parent / target).exists(), f"{page.relative_to(ROOT)} points to {target}"
