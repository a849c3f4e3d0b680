"""One command for everything; on Windows write `py start.py` instead of `python3 start.py`.

  python3 start.py demo              make a demo job's book, in out/
  python3 start.py open JOB.toml     anything that is not below goes to `dryfit`
  python3 start.py test [--fast] [--no-lint] [PYTEST ARGUMENTS]
  python3 start.py lint              style, types, import rules and the page's rooms
  python3 start.py bench [house] [order] [page] [browser]   measure all, or these
  python3 start.py docs              write what of the manual the program makes

The first time it makes the environment `.venv` beside this file, from a lock that holds the hash of
every package, and installs the project into it in place. A stamp in `.venv` lets later starts skip that.
Uses the standard library only, and no syntax that an older Python could not read: such a Python is to be
told plainly what it lacks.
"""

from __future__ import annotations

import hashlib
import importlib.util
import json
import os
import shutil
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

NEEDS = (3, 11)
HOME = Path(__file__).resolve().parent
VENV = HOME / ".venv"
STAMP = VENV / "dryfit-stamp.json"
LOG = VENV / "dryfit-setup.log"
WINDOWS = os.name == "nt"
LOCKS = {"core": "requirements.lock.txt", "dev": "requirements-dev.lock.txt"}
NODE_LOCK = HOME / "requirements-node.lock.txt"
NODE = VENV / "node"  # Node for building the page, where the system has none; nothing else uses it
FETCHED = VENV / "page-fetched"  # stands while page/node_modules is there to build the page alone; survives a kill
LOCK = HOME / ".setting-up"  # stands while one start.py makes the environment or the page; others wait
BEAT, STALE = 2.0, 30.0  # seconds: so often it is touched, and after so long untouched its owner is gone
BENCHES = {"house": "bench.run", "order": "bench.order", "page": "bench.page", "browser": "bench.page_browser"}
SKIP_PAGE = "DRYFIT_SKIP_PAGE"

OFFLINE = (
    "NewConnectionError",
    "NameResolutionError",
    "ConnectTimeoutError",
    "ProxyError",
    "Max retries exceeded",
    "Connection broken",
    "Read timed out",
)


class Trouble(Exception):  # noqa: N818 - it is nothing that went wrong in here
    """Something the user can put right; its text says how."""


def main(arguments: list[str]) -> int:
    """Set up what the command needs, and run it."""
    if sys.version_info < NEEDS:
        found = f"{sys.version_info[0]}.{sys.version_info[1]}"
        raise Trouble(f"Dryfit needs Python {NEEDS[0]}.{NEEDS[1]} or newer; this is Python {found}, {sys.executable}.")
    if not arguments:
        print(__doc__.partition("\n\n")[2].partition("\n\n")[0])
        return 2
    developer = {"test": test, "lint": lint, "bench": bench, "docs": docs}.get(arguments[0])
    lock, keep = "dev" if developer else "core", developer is not None
    if not (is_set_up(lock) and page_is_made(keep=keep)):
        with alone():
            set_up(lock)
            make_page(keep=keep)
    return developer(arguments[1:]) if developer else run_dryfit(arguments)


# ---- one at a time


@contextmanager
def alone() -> Iterator[None]:
    """Wait until no other start.py sets up in this folder, and let none begin meanwhile.

    A file made exclusively is the lock. Its owner touches it every few seconds: one that nobody has touched for long
    was left by a start that was killed, whatever the system, and is taken away.
    """
    told = False
    while not _taken():
        if not told:
            print("Another start.py is setting up in this folder: waiting for it.", flush=True)
            told = True
        if _forsaken():
            print("It was broken off: going on without it.", flush=True)
            LOCK.unlink(missing_ok=True)
        else:
            time.sleep(0.2)
    done = threading.Event()
    beating = threading.Thread(target=_beat, args=(done,), daemon=True)
    beating.start()
    try:
        yield
    finally:
        done.set()
        beating.join()
        LOCK.unlink(missing_ok=True)


def _taken() -> bool:
    """Whether the lock is ours now; False while it is another's."""
    try:
        os.close(os.open(LOCK, os.O_CREAT | os.O_EXCL | os.O_WRONLY))
    except OSError as refused:
        if isinstance(refused, FileExistsError) or LOCK.exists():  # Windows refuses otherwise while it goes
            return False
        raise Trouble(f"Nothing can be written in {HOME}: {refused.strerror}. Dryfit sets itself up there.") from None
    return True


def _forsaken() -> bool:
    """Whether its owner is gone."""
    try:
        return time.time() - LOCK.stat().st_mtime > STALE
    except OSError:
        return False  # it has just gone


def _beat(done: threading.Event) -> None:
    while not done.wait(BEAT):
        with suppress(OSError):
            os.utime(LOCK)


# ---- the environment


def is_set_up(lock: str) -> bool:
    """Whether `.venv` is what the lock says, by its stamp."""
    stamp = read_stamp()
    return stamp.get("place") == place() and stamp.get(lock) == fingerprint(lock) and program("python").exists()


def set_up(lock: str) -> None:
    """Bring `.venv` to what the lock says; nothing to do if its stamp says that it is there."""
    if is_set_up(lock):
        return
    wanted, stamp = fingerprint(lock), read_stamp()
    began = time.monotonic()
    print(f"Setting up Dryfit in {VENV.name}: fetching and installing its packages, once.", flush=True)
    make_venv(afresh=bool(stamp) and stamp.get("place") != place())
    kept = {name: value for name, value in stamp.items() if name in LOCKS and value == fingerprint(name)}
    write_stamp({"place": "unfinished"})
    pip("--require-hashes", "--only-binary=:all:", "-r", str(HOME / LOCKS[lock]))
    pip("--no-deps", "--no-build-isolation", "--no-index", "--editable", str(HOME))
    done = {lock: wanted, "core": fingerprint("core")}  # the developer's lock holds the user's
    write_stamp({"place": place(), **kept, **done})
    print(f"Ready after {time.monotonic() - began:.0f} s.", flush=True)


def place() -> str:
    """What an environment cannot survive a change of: its folder, and the version of its Python."""
    return f"{sys.version_info[0]}.{sys.version_info[1]} {VENV}"


def fingerprint(lock: str) -> str:
    """Hash of all that decides what is installed; src is not in it, being installed in place."""
    digest = hashlib.sha256()
    for name in (LOCKS[lock], "pyproject.toml"):
        digest.update((HOME / name).read_bytes())
    return digest.hexdigest()


def read_stamp() -> dict[str, str]:
    """What was set up last; empty if that is not known."""
    try:
        stamp = json.loads(STAMP.read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}
    return stamp if isinstance(stamp, dict) else {}


def write_stamp(stamp: dict[str, str]) -> None:
    """Note what is set up."""
    STAMP.write_text(json.dumps(stamp, indent=1), encoding="utf-8")


def program(name: str) -> Path:
    """A program of the environment."""
    return VENV / "Scripts" / f"{name}.exe" if WINDOWS else VENV / "bin" / name


def make_venv(*, afresh: bool) -> None:
    """Make the environment; one that is there and can install is kept, unless it must be `afresh`."""
    if importlib.util.find_spec("ensurepip") is None:
        raise Trouble(
            "This Python cannot make an environment: its part `ensurepip` is missing.\n"
            "On Debian and Ubuntu: sudo apt install python3-venv    Then run the same command again."
        )
    if (
        not afresh
        and program("python").exists()
        and quiet([program("python"), "-m", "pip", "--version"]).returncode == 0
    ):
        return
    made = quiet([sys.executable, "-m", "venv", "--clear", VENV])
    if made.returncode:
        raise Trouble(f"The environment {VENV} could not be made:\n{tail(made.stdout)}")


def pip(*arguments: str) -> None:
    """Run `pip install`, showing on a terminal which package is at hand."""
    command = [str(program("python")), "-m", "pip", "install", "--disable-pip-version-check", "--no-input"]
    command += ["--retries", "2", "--progress-bar", "off", *arguments]
    said = []
    env = {**os.environ, SKIP_PAGE: "1"}  # the page is built by make_page, which can say so
    with subprocess.Popen(
        command,
        env=env,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        encoding="utf-8",
        errors="replace",
    ) as process:
        assert process.stdout is not None
        for line in process.stdout:
            said.append(line)
            if line.startswith("Collecting ") and sys.stdout.isatty():
                print(f"\r  {line.split()[1]:<60}", end="", flush=True)
    if sys.stdout.isatty():
        print(f"\r{'':<62}\r", end="", flush=True)
    if process.returncode:
        text = "".join(said)
        LOG.write_text(text, encoding="utf-8")
        raise Trouble(f"{why_pip_failed(text)}\n(All that pip said is in {LOG}.)")


def page_is_made(*, keep: bool) -> bool:
    """Whether the page and docs/made are up to date, and what was fetched to build them there where it is kept."""
    from tools import build

    return not build.stale() and ((HOME / "page" / "node_modules").is_dir() or not keep)


def make_page(*, keep: bool) -> None:
    """Build docs/made and the page where they are out of date; all but `open` works without, so a failure is only told.

    What was fetched to build it goes again, unless it is to be kept for the page's own tests.
    """
    from tools import build

    fetched = HOME / "page" / "node_modules"
    if keep:
        FETCHED.unlink(missing_ok=True)
    if build.made_stale():
        written = quiet([program("python"), "-m", "tools.made"])  # the page is stale after it only if its types changed
        if written.returncode:
            print(f"The schemas and pages of docs/made could not be made:\n{tail(written.stdout)}", flush=True)
            return
    if page_is_made(keep=keep):
        return
    began = time.monotonic()
    if not keep and not fetched.is_dir():
        FETCHED.touch()
    print("Building the page.", flush=True)
    try:
        if build.system_node() is None and not NODE.is_dir():
            pip("--require-hashes", "--only-binary=:all:", "--target", str(NODE), "-r", str(NODE_LOCK))
    except Trouble as trouble:
        print(f"The page could not be built: {trouble}")
        return
    env = {**os.environ, "PYTHONPATH": str(NODE)}
    made = subprocess.run([str(program("python")), "-m", "tools.build"], cwd=HOME, env=env, check=False)
    shutil.rmtree(NODE, ignore_errors=True)  # 200 MB that nothing else needs
    if FETCHED.exists():
        shutil.rmtree(fetched, ignore_errors=True)  # and as much again
        FETCHED.unlink()
    if made.returncode == 0:
        print(f"Built after {time.monotonic() - began:.0f} s.", flush=True)


def why_pip_failed(text: str) -> str:
    """What went wrong, in plain words, from what pip printed."""
    if any(word in text for word in OFFLINE):
        return "The packages could not be fetched: is this computer online? Then run the same command again."
    if "DO NOT MATCH THE HASHES" in text:
        return "A package is not the one that the lock names: nothing was installed. Report it if it stays so."
    if "No space left" in text:
        return "The disk is full: Dryfit needs about 320 MB, with the tests' tools about 1.1 GB."
    if "No matching distribution" in text:
        return (
            "A package has no ready-made build for this machine and this Python "
            f"({sys.version_info[0]}.{sys.version_info[1]}). Try Python 3.11, 3.12 or 3.13, 64 bit.\n{tail(text)}"
        )
    return f"The packages could not be installed:\n{tail(text)}"


def quiet(command: list[str | Path]) -> subprocess.CompletedProcess[str]:
    """Run a command and keep what it prints."""
    return subprocess.run(
        [str(word) for word in command],
        cwd=HOME,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        encoding="utf-8",
        errors="replace",
        check=False,
    )


def tail(text: str, lines: int = 8) -> str:
    """The last lines of what a program said."""
    return "\n".join(f"  {line}" for line in text.strip().splitlines()[-lines:])


# ---- the commands


def run_dryfit(arguments: list[str]) -> int:
    """Hand over to `dryfit`, in the folder the user is in."""
    command = [str(program("dryfit")), *arguments]
    sys.stdout.flush()
    if not WINDOWS:
        os.execv(command[0], command)  # so that Ctrl-C and signals reach it and nobody else
    return subprocess.call(command)


def lint(_arguments: list[str]) -> int:
    """Check style, types, import rules and the page's rooms; 0 if all is well."""
    faults = 0
    for name, *command in (
        ("style", "ruff", "check", "--output-format=concise", "."),
        ("layout", "ruff", "format", "--check", "."),
        ("types", "mypy"),
        ("import rules", "lint-imports", "--no-logo"),
        ("page's rooms", "python", str(HOME / "tools" / "rooms.py")),
    ):
        began = time.monotonic()
        checked = quiet([program(command[0]), *command[1:]])
        verdict = "faults" if checked.returncode else "well"
        print(f"{name:<13} {verdict:<7} {time.monotonic() - began:4.1f} s", flush=True)
        if checked.returncode:
            print(checked.stdout, flush=True)
            faults += 1
    return 1 if faults else 0


def test(arguments: list[str]) -> int:
    """Lint, then run the tests; what is not ours among the arguments goes to pytest, whose summary comes last."""
    own = {"--fast", "--no-lint"} & set(arguments)
    rest = [word for word in arguments if word not in own]
    if "--no-lint" not in own and lint([]):
        print("The tests were not run; `python3 start.py test --no-lint` runs them all the same.")
        return 1
    if not rest:
        rest = ["-n", "auto", "--dist", "worksteal"]  # neighbours stay together, and share what is made once a file
    if "--fast" in own:
        rest = ["-m", "not slow and not browser", *rest]
        os.environ.setdefault("HYPOTHESIS_PROFILE", "fast")
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)  # compiled once, not by each of the hundreds of processes started
    return subprocess.call([str(program("python")), "-m", "pytest", *rest], cwd=HOME)


def bench(arguments: list[str]) -> int:
    """Run the measurements in bench/: all of them, or those named."""
    unknown = [name for name in arguments if name not in BENCHES]
    if unknown:
        raise Trouble(f"There is no measurement called {unknown[0]}; there are {', '.join(BENCHES)}.")
    calls = [[str(program("python")), "-m", BENCHES[name]] for name in arguments or BENCHES]
    return max(subprocess.call(call, cwd=HOME) for call in calls)


def docs(_arguments: list[str]) -> int:
    """Write the pages of the manual that the program makes."""
    return subprocess.call([str(program("python")), "-m", "tools.manual"], cwd=HOME)


if __name__ == "__main__":
    try:
        sys.exit(main(sys.argv[1:]))
    except Trouble as trouble:
        sys.exit(f"start.py: {trouble}")
    except KeyboardInterrupt:
        sys.exit(130)
