"""Setting up: the locks, `start.py`, and the wheel.

`start.py` is loaded here as a module; what it would install is looked at, not installed. The one slow test
makes a real environment and finds every package server closed.
"""

import ast
import importlib.util
import os
import re
import shutil
import subprocess
import sys
import tarfile
import time
import tomllib
import zipfile
from pathlib import Path
from types import SimpleNamespace

import pytest

from tools import build

ROOT = Path(__file__).parent.parent
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
LOCKS = ("requirements.lock.txt", "requirements-dev.lock.txt")


@pytest.fixture
def start():
    spec = importlib.util.spec_from_file_location("start", ROOT / "start.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def ranges(file):
    """Requirement lines of a .in file, by name."""
    lines = (ROOT / "requirements" / file).read_text(encoding="utf-8").splitlines()
    kept = [line.strip() for line in lines if line.strip() and not line.startswith(("#", "-"))]
    return {re.match(r"[A-Za-z0-9_-]+", line)[0]: line for line in kept}


def pins(lock):
    """Locked releases by name; a package may have several, for different Pythons."""
    found = {}
    for name, release in re.findall(
        r"^([a-z0-9-]+)==([^\s;]+)", (ROOT / lock).read_text(encoding="utf-8"), re.MULTILINE
    ):
        found.setdefault(name, set()).add(release)
    return found


# ---- the locks


@pytest.mark.parametrize("lock", LOCKS)
def test_a_lock_names_no_server_and_hashes_every_package(lock):
    text = (ROOT / lock).read_text(encoding="utf-8")
    assert not re.search(r"://|^\s*-(?!-hash=)", text, re.MULTILINE), "an address or an option stands in the lock"
    entries = re.split(r"\n(?=\S)", text.strip())
    assert len(entries) > 10
    for entry in entries:
        assert re.match(r"[a-z0-9-]+==\S+", entry), entry[:80]
        assert "--hash=sha256:" in entry, entry[:80]


def test_the_developers_lock_holds_every_release_of_the_users_lock():
    core, dev = (pins(lock) for lock in LOCKS)
    assert {name: dev.get(name) for name in core} == core


def test_what_the_project_needs_is_what_is_locked():
    build = {re.match(r"[a-z]+", line)[0]: line for line in PROJECT["build-system"]["requires"]}
    needed = {re.match(r"[a-z0-9-]+", line)[0]: line for line in PROJECT["project"]["dependencies"]}
    assert ranges("core.in") == needed | build
    locked = pins(LOCKS[0])
    assert set(ranges("core.in")) <= set(locked)
    for name, line in build.items():
        assert line == f"{name}=={next(iter(locked[name]))}", "the build tool is not the locked one"


def test_every_tool_is_locked():
    assert set(ranges("dev.in")) <= set(pins(LOCKS[1]))


# ---- start.py


def test_start_uses_the_standard_library_only_and_no_new_syntax():
    tree = ast.parse((ROOT / "start.py").read_text(encoding="utf-8"), feature_version=(3, 8))
    for node in ast.walk(tree):
        modules = [alias.name for alias in node.names] if isinstance(node, ast.Import) else []
        modules += [node.module] if isinstance(node, ast.ImportFrom) else []
        own = {"tools"}  # tools/build.py beside it, which keeps to the same rule
        assert all(module.partition(".")[0] in {*sys.stdlib_module_names, *own} for module in modules), modules


def test_an_old_python_is_told_what_it_lacks(start, monkeypatch):
    monkeypatch.setattr(start.sys, "version_info", (3, 9, 2))
    with pytest.raises(start.Trouble, match=r"needs Python 3\.11 or newer; this is Python 3\.9"):
        start.main(["demo"])


def test_a_python_without_ensurepip_gets_the_command_that_brings_it(start, monkeypatch):
    monkeypatch.setattr(start.importlib.util, "find_spec", lambda name: None)
    with pytest.raises(start.Trouble, match="sudo apt install python3-venv"):
        start.make_venv(afresh=True)


@pytest.mark.parametrize(
    ("said", "means"),
    [
        ("WARNING: Retrying ... NewConnectionError(...)\nERROR: No matching distribution found", "online"),
        ("ERROR: THESE PACKAGES DO NOT MATCH THE HASHES FROM THE REQUIREMENTS FILE", "not the one that the lock names"),
        ("ERROR: Could not install packages: [Errno 28] No space left on device", "disk is full"),
        ("ERROR: No matching distribution found for typst==0.15.2", "no ready-made build"),
        ("ERROR: something never heard of", "something never heard of"),
    ],
    ids=["offline", "wrong hash", "full disk", "no build", "unknown"],
)
def test_a_failed_installation_is_put_in_plain_words(start, said, means):
    assert means in start.why_pip_failed(said)


@pytest.fixture
def environment(start, monkeypatch, tmp_path):
    """An environment in `tmp_path` whose making and installing is only noted."""
    done = []
    for name in (*start.LOCKS.values(), "pyproject.toml"):
        shutil.copy(ROOT / name, tmp_path / name)
    python = tmp_path / ".venv" / ("Scripts" if os.name == "nt" else "bin")
    python.mkdir(parents=True)
    (python / ("python.exe" if os.name == "nt" else "python")).touch()
    for name, value in {"HOME": tmp_path, "VENV": tmp_path / ".venv", "STAMP": tmp_path / ".venv" / "stamp"}.items():
        monkeypatch.setattr(start, name, value)
    monkeypatch.setattr(start, "make_venv", lambda *, afresh: done.append("afresh" if afresh else "venv"))
    monkeypatch.setattr(start, "pip", lambda *arguments: done.append(arguments[-1]))
    return SimpleNamespace(start=start, done=done, folder=tmp_path)


def test_the_second_start_installs_nothing(environment):
    environment.start.set_up("core")
    assert [Path(step).name for step in environment.done] == ["venv", "requirements.lock.txt", environment.folder.name]
    environment.done.clear()
    environment.start.set_up("core")
    assert environment.done == []


def test_the_developers_environment_serves_the_user_too(environment):
    environment.start.set_up("dev")
    environment.done.clear()
    environment.start.set_up("core")
    environment.start.set_up("dev")
    assert environment.done == []


@pytest.mark.parametrize("file", ["requirements.lock.txt", "pyproject.toml"])
def test_a_changed_lock_or_project_file_is_installed_on_the_next_start(environment, file):
    environment.start.set_up("core")
    environment.done.clear()
    with (environment.folder / file).open("a", encoding="utf-8") as text:
        text.write("\n# changed\n")
    environment.start.set_up("core")
    assert environment.done[0] == "venv"


def test_an_interrupted_setting_up_starts_afresh(environment, monkeypatch):
    def interrupted(*arguments):
        raise KeyboardInterrupt

    with monkeypatch.context() as patch:
        patch.setattr(environment.start, "pip", interrupted)
        with pytest.raises(KeyboardInterrupt):
            environment.start.set_up("core")
    environment.done.clear()
    environment.start.set_up("core")
    assert environment.done[0] == "afresh"


def test_an_environment_that_was_moved_is_made_afresh(environment):
    environment.start.set_up("core")
    environment.done.clear()
    text = environment.start.STAMP.read_text(encoding="utf-8")
    environment.start.STAMP.write_text(text.replace(environment.folder.name, "elsewhere"), encoding="utf-8")
    environment.start.set_up("core")
    assert environment.done[0] == "afresh"


# ---- two starts at once

ONE_START = """
import importlib.util, os, sys, time
from pathlib import Path
spec = importlib.util.spec_from_file_location("start", sys.argv[1])
start = importlib.util.module_from_spec(spec)
spec.loader.exec_module(start)
start.LOCK = Path(sys.argv[2]) / "lock"
with start.alone():
    inside = Path(sys.argv[2]) / "inside"
    os.close(os.open(inside, os.O_CREAT | os.O_EXCL))
    time.sleep(0.3)
    inside.unlink()
print("done")
"""


def test_of_starts_at_once_one_sets_up_and_the_others_wait_with_a_word(tmp_path):
    """Each makes a file that must not be there, and takes it away 0.3 s later."""
    command = [sys.executable, "-c", ONE_START, str(ROOT / "start.py"), str(tmp_path)]
    running = [subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True) for _ in range(4)]
    said = [one.communicate(timeout=60)[0] for one in running]

    assert all(one.returncode == 0 for one in running), said
    assert all(text.endswith("done\n") for text in said)
    assert any("Another start.py is setting up in this folder: waiting for it." in text for text in said)
    assert list(tmp_path.iterdir()) == []


def test_a_lock_that_nobody_has_touched_for_long_is_taken_away_and_that_is_said(start, monkeypatch, tmp_path, capsys):
    lock = tmp_path / "lock"
    lock.touch()
    os.utime(lock, (1e9, 1e9))
    monkeypatch.setattr(start, "LOCK", lock)

    with start.alone():
        assert lock.exists()
    assert not lock.exists()
    assert "It was broken off: going on without it." in capsys.readouterr().out


def test_a_lock_in_use_stays_fresh_and_goes_even_where_setting_up_fails(start, monkeypatch, tmp_path):
    monkeypatch.setattr(start, "LOCK", tmp_path / "lock")
    monkeypatch.setattr(start, "BEAT", 0.01)

    def fails():
        with start.alone():
            os.utime(start.LOCK, (1e9, 1e9))
            deadline = time.monotonic() + 20
            while start.LOCK.stat().st_mtime == 1e9:
                assert time.monotonic() < deadline, "it is never touched"
            raise start.Trouble("no network")

    with pytest.raises(start.Trouble):
        fails()
    assert not start.LOCK.exists()


def test_what_is_said_of_a_failed_build_has_no_trace_of_node():
    said = (
        "node:internal/modules/cjs/loader:1210\n  throw err;\n  ^\n\nError: Cannot find module 'vite'\n"
        "    at Module._load (node:internal/modules/cjs/loader:1038:27)\n    at node:internal/main:5:1\n"
        "\nNode.js v24.1.0\n"
    )
    assert build.plainly(said) == "throw err;\nError: Cannot find module 'vite'"


def test_the_page_is_served_from_where_it_is_built():
    from dryfit.web.server import server

    assert server.STATIC == build.STATIC


# ---- what is made and not in git


@pytest.fixture
def sources(tmp_path):
    """A small project whose schemas and page have just been made."""
    texts = {
        "tools/made.py": "",
        "src/dryfit/answers.py": "class State: ...",
        "docs/findings/tips.md": "",
        "changelog.d/one.md": "",
        "CHANGELOG.md": "",
        "docs/made/openapi.json": "{}",
        "page/package.json": "{}",
        "page/src/main.ts": "",
        "page/src/core/api.ts": "",
        "src/dryfit/web/static/index.html": "",
    }
    for name, text in texts.items():
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text(text, encoding="utf-8")
    (tmp_path / "docs/made/.stamp").write_text(build.made_stamp(tmp_path), encoding="utf-8")
    for path in tmp_path.rglob("*"):
        os.utime(path, (1e9, 1e9))
    return tmp_path


def page_stale(home):
    return build.page_stale(home / "page", home / "src/dryfit/web/static")


@pytest.mark.parametrize(
    "name", ["src/dryfit/answers.py", "docs/findings/tips.md", "changelog.d/one.md", "tools/made.py"]
)
def test_the_schemas_are_made_anew_when_what_they_are_made_from_has_other_words_and_only_then(sources, name):
    assert not build.made_stale(sources)
    before = (sources / name).read_bytes()

    (sources / name).write_text("class State:\n    board: str", encoding="utf-8")
    assert build.made_stale(sources)

    (sources / name).write_bytes(before)  # a branch that was looked at and left again: newer, and the same
    assert not build.made_stale(sources)


def test_the_schemas_are_made_where_there_are_none_and_never_without_sources(sources, tmp_path):
    (sources / "docs/made/.stamp").unlink()
    assert build.made_stale(sources)
    (sources / "tools/made.py").unlink()
    assert not build.made_stale(sources)


@pytest.mark.parametrize("name", ["page/src/main.ts", "docs/made/openapi.json"])
def test_the_page_is_built_anew_when_its_sources_or_the_servers_description_are_newer(sources, name):
    assert not page_stale(sources)
    os.utime(sources / "page/src/core/api.ts")  # made from the description by the build itself
    assert not page_stale(sources)
    os.utime(sources / name)
    assert page_stale(sources)


def test_what_is_made_keeps_its_time_where_it_is_as_it_was(tmp_path):
    """So that a change of the program that leaves the server's description alone builds no page."""
    from tools.made import put

    put({"openapi.json": b"{}"}, tmp_path)
    os.utime(tmp_path / "openapi.json", (1e9, 1e9))
    put({"openapi.json": b"{}"}, tmp_path)
    assert (tmp_path / "openapi.json").stat().st_mtime == 1e9
    put({"openapi.json": b"[]"}, tmp_path)
    assert (tmp_path / "openapi.json").stat().st_mtime > 1e9


@pytest.mark.parametrize("changed", [False, True], ids=["the description stays", "the description changes"])
def test_a_start_has_the_program_write_its_schemas_and_builds_the_page_only_where_they_changed_it(
    start, monkeypatch, tmp_path, changed
):
    done = []
    stale = {"made": True, "page": False}

    def quiet(command):
        done.append(command[-1])
        stale.update(made=False, page=changed)
        return SimpleNamespace(returncode=0, stdout="")

    def run(command, **_how):
        done.append(command[-1])
        return SimpleNamespace(returncode=0)

    for name, place in {"HOME": tmp_path, "FETCHED": tmp_path / "fetched", "NODE": tmp_path / "node"}.items():
        monkeypatch.setattr(start, name, place)
    monkeypatch.setattr(start, "quiet", quiet)
    monkeypatch.setattr(start, "pip", lambda *arguments: None)
    monkeypatch.setattr(start.subprocess, "run", run)
    monkeypatch.setattr(build, "system_node", lambda: tmp_path)
    monkeypatch.setattr(build, "made_stale", lambda: stale["made"])
    monkeypatch.setattr(build, "stale", lambda: stale["made"] or stale["page"])

    start.make_page(keep=False)
    assert done == ["tools.made", "tools.build"] if changed else ["tools.made"]


def test_schemas_that_cannot_be_written_are_told_and_stop_nothing_else(start, monkeypatch, capsys):
    failed = SimpleNamespace(returncode=1, stdout="Traceback\nSyntaxError: invalid syntax")
    monkeypatch.setattr(start, "quiet", lambda command: failed)
    monkeypatch.setattr(build, "made_stale", lambda: True)
    monkeypatch.setattr(build, "stale", lambda: True)

    start.make_page(keep=True)
    assert "docs/made could not be made:" in (said := capsys.readouterr().out)
    assert "invalid syntax" in said


def test_words_without_a_command_of_our_own_go_to_dryfit(start, monkeypatch, tmp_path):
    asked = []
    monkeypatch.setattr(start, "is_set_up", lambda lock: False)
    monkeypatch.setattr(start, "LOCK", tmp_path / "lock")
    monkeypatch.setattr(start, "set_up", asked.append)
    monkeypatch.setattr(start, "run_dryfit", lambda arguments: asked.append(arguments) or 0)
    assert start.main(["check", "wall.toml", "--json"]) == 0
    assert asked == ["core", ["check", "wall.toml", "--json"]]


def test_what_follows_test_goes_to_pytest(start, monkeypatch, tmp_path):
    asked = []
    monkeypatch.setattr(start, "is_set_up", lambda lock: False)
    monkeypatch.setattr(start, "LOCK", tmp_path / "lock")
    monkeypatch.setattr(start, "set_up", asked.append)
    monkeypatch.setattr(start, "lint", lambda arguments: asked.append("lint") or 0)
    monkeypatch.delenv("HYPOTHESIS_PROFILE", raising=False)
    monkeypatch.setattr(start.os, "environ", dict(os.environ))
    monkeypatch.setattr(start.subprocess, "call", lambda command, cwd: asked.append(command[1:]) or 5)
    assert start.main(["test", "-x", "tests/trade", "--fast"]) == 5
    fast = ["-m", "not slow and not browser"]
    assert start.os.environ["HYPOTHESIS_PROFILE"] == "fast"
    assert asked == ["dev", "lint", ["-m", "pytest", *fast, "-x", "tests/trade"]]


def test_faults_of_style_stop_the_tests_unless_told_otherwise(start, monkeypatch):
    called = []
    monkeypatch.setattr(start, "is_set_up", lambda lock: True)
    monkeypatch.setattr(start, "lint", lambda arguments: 1)
    monkeypatch.setattr(start.subprocess, "call", lambda command, cwd: called.append(command) or 0)
    assert start.main(["test"]) == 1
    assert not called
    assert start.main(["test", "--no-lint"]) == 0
    assert called


@pytest.mark.slow
def test_without_a_network_the_user_reads_a_sentence_and_no_traceback(tmp_path):
    for name in ("start.py", *LOCKS, "pyproject.toml"):
        shutil.copy(ROOT / name, tmp_path / name)
    closed = {"PIP_CONFIG_FILE": os.devnull, "PIP_INDEX_URL": "http://127.0.0.1:9/", "PIP_NO_CACHE_DIR": "1"}
    kept = {name: value for name, value in os.environ.items() if not name.startswith("PIP_")}

    ran = subprocess.run(
        [sys.executable, "start.py", "check", "wall.toml"],
        cwd=tmp_path,
        env=kept | closed,
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
    )

    assert ran.returncode == 1
    assert "is this computer online?" in ran.stderr
    assert "Traceback" not in ran.stdout + ran.stderr


# ---- the releases


MADE = {"findings.md", "job-file-reference.md", "sentences.md", "CHANGELOG.md"}
MADE |= {"job.schema.json", "book.schema.json", "openapi.json"}


def packed(target, source, folder, **env):
    """The release of a folder, made with what is installed here."""
    command = [sys.executable, "-m", "hatchling", "build", "--target", target, "--directory", str(folder)]
    own = {**os.environ, **env}
    ran = subprocess.run(command, cwd=source, env=own, capture_output=True, text=True, check=False)
    assert ran.returncode == 0, ran.stderr
    (made,) = folder.iterdir()
    return made


@pytest.fixture(scope="module")
def wheel(tmp_path_factory):
    with zipfile.ZipFile(packed("wheel", ROOT, tmp_path_factory.mktemp("wheel"))) as archive:
        yield archive


def test_the_wheel_holds_every_file_of_the_package_the_demos_what_is_made_and_nothing_else(wheel):
    package = ROOT / "src" / "dryfit"
    ours = {path.relative_to(ROOT / "src").as_posix() for path in package.rglob("*") if path.is_file()}
    ours = {name for name in ours if "__pycache__" not in name}
    ours |= {f"dryfit/examples/{path.name}" for path in (ROOT / "examples").iterdir() if path.is_file()}
    ours |= {f"dryfit/manual/{name}" for name in MADE}
    held = {name for name in wheel.namelist() if ".dist-info/" not in name}
    assert held == ours
    assert "dryfit/py.typed" in held
    assert "dryfit/trade/data/species_figures.csv" in held


def test_the_wheel_asks_for_the_projects_needs_and_brings_the_command(wheel):
    def held(name):
        (path,) = (path for path in wheel.namelist() if path.endswith(f".dist-info/{name}"))
        return wheel.read(path).decode()

    asked = re.findall(r"^Requires-Dist: ([a-z0-9-]+)(.*)", held("METADATA"), re.MULTILINE)
    assert [name for name, more in asked if "extra ==" in more] == ["cadquery-ocp-novtk"], (
        "for STEP, where it is asked for"
    )
    assert [name for name, more in asked if "extra ==" not in more] == [
        re.match(r"[a-z0-9-]+", line)[0] for line in PROJECT["project"]["dependencies"]
    ]
    assert "dryfit = dryfit.cli:main" in held("entry_points.txt")
    assert "MIT License" in held("licenses/LICENSE")


@pytest.mark.slow
def test_what_is_in_git_alone_gives_a_source_archive_with_all_that_is_made_and_that_a_wheel_without_node(tmp_path):
    """As in a fresh clone; only npm's packages are taken from here, so that nothing is fetched."""
    if not (build.PAGE / "node_modules").is_dir() or build.system_node() is None:
        pytest.skip("no Node with npm, or its packages not fetched")
    clone, unpacked, packages = (tmp_path / name for name in ("clone", "unpacked", "packages"))
    listed = subprocess.run(["git", "ls-files", "-co", "--exclude-standard"], cwd=ROOT, capture_output=True, text=True)
    if listed.returncode:
        pytest.skip("not a git checkout")
    for name in listed.stdout.splitlines():
        if (ROOT / name).is_file():
            (clone / name).parent.mkdir(parents=True, exist_ok=True)
            shutil.copy2(ROOT / name, clone / name)
    (clone / "page/node_modules").symlink_to(build.PAGE / "node_modules")
    assert not (clone / "docs/made").exists()
    assert not (clone / "page" / build.TYPES).exists()

    with tarfile.open(packed("sdist", clone, packages / "sdist")) as archive:
        archive.extractall(unpacked, **({"filter": "data"} if hasattr(tarfile, "data_filter") else {}))
    (source,) = unpacked.iterdir()
    assert {path.name for path in (source / "docs/made").iterdir()} == MADE | {".stamp"}
    assert (source / "page" / build.TYPES).is_file()

    nothing = tmp_path / "nothing"
    nothing.mkdir()
    with zipfile.ZipFile(packed("wheel", source, packages / "wheel", PATH=str(nothing))) as archive:
        held = set(archive.namelist())
    assert {f"dryfit/manual/{name}" for name in MADE} | {"dryfit/web/static/index.html"} <= held
    assert not [name for name in held if name.startswith("tools/")]
