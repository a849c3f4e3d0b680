"""The page's own sources: its types are those of the server, they check, its tests pass, nothing in them is forced.

All of it needs Node; where there is none the tests are skipped in plain words, and fail in CI.
"""

import os
import re
import shutil
import subprocess
from pathlib import Path

import pytest

from dryfit.web.server.openapi import text
from page.build import PAGE, system_node

pytestmark = pytest.mark.browser
SOURCES = [path for path in (PAGE / "src").rglob("*") if path.suffix in (".ts", ".svelte")]
MOST_LINES = 240
CAST = re.compile(r"[\w)\]}]\s+as\s+(?!const\b)[A-Za-z{(\[]")
GENERATED = PAGE / "src" / "core" / "api.ts"


@pytest.fixture(scope="module")
def npm() -> str:
    """How npm is called, its packages being there."""
    if system_node() is None:
        words = "no Node of at least 20.19 with npm on this machine"
        pytest.fail(words) if os.environ.get("CI") == "true" else pytest.skip(words)
    found = shutil.which("npm") or "npm"
    if not (PAGE / "node_modules").is_dir():
        subprocess.run([found, "ci", "--no-audit", "--no-fund"], cwd=PAGE, check=True, capture_output=True)
    return found


def run(npm: str, *words: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run([npm, *words], cwd=PAGE, capture_output=True, text=True, check=False)


def test_the_description_of_the_server_is_the_one_the_page_was_made_for():
    assert (PAGE / "openapi.json").read_text(encoding="utf-8") == text(), (
        "python -m dryfit.web.server.openapi page/openapi.json, then npm run codegen in page/"
    )


def test_the_pages_types_come_from_that_description(npm: str, tmp_path: Path):
    made = tmp_path / "api.ts"
    ran = run(
        npm, "exec", "--", "openapi-typescript", "openapi.json", "--default-non-nullable", "false", "-o", str(made)
    )
    assert ran.returncode == 0, ran.stderr
    assert GENERATED.read_text(encoding="utf-8") == made.read_text(encoding="utf-8"), "npm run codegen in page/"


def test_the_sources_check_without_a_warning(npm: str):
    ran = run(npm, "run", "check")
    assert ran.returncode == 0, ran.stdout[-3000:]


def test_the_pages_own_tests_pass(npm: str):
    ran = run(npm, "run", "test")
    assert ran.returncode == 0, ran.stdout[-3000:]


@pytest.mark.parametrize("path", SOURCES, ids=lambda path: path.name)
def test_a_source_forces_no_type_and_is_short_enough_to_read(path: Path):
    if path == GENERATED:
        return
    lines = path.read_text(encoding="utf-8").splitlines()
    assert len(lines) <= MOST_LINES
    script = path.read_text(encoding="utf-8").partition("</script>")[0]
    code = [
        line.split("//")[0]
        for line in script.splitlines()
        if not line.strip().startswith(("import", "*", "/*", "<!--"))
    ]
    assert not [line for line in code if CAST.search(line) and '"' not in line]


def test_the_lock_names_no_host_but_where_money_may_be_given():
    lock = (PAGE / "package-lock.json").read_text(encoding="utf-8")
    assert '"resolved"' not in lock
