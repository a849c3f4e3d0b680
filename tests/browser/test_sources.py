"""The page's own sources: they check against the types of the server as it is, their tests pass, nothing is forced.

All of it needs Node; where there is none the tests are skipped in plain words, and fail in CI.
"""

import re
import subprocess
from pathlib import Path

import pytest

from tools.build import PAGE, TYPES

pytestmark = pytest.mark.browser
SOURCES = [path for path in (PAGE / "src").rglob("*") if path.suffix in (".ts", ".svelte") and path != PAGE / TYPES]
MOST_LINES = 240
CAST = re.compile(r"[\w)\]}]\s+as\s+(?!const\b)[A-Za-z{(\[]")


def run(npm: str, *words: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run([npm, *words], cwd=PAGE, capture_output=True, text=True, check=False)


def test_the_sources_check_without_a_warning(npm: str):
    ran = run(npm, "run", "check")
    assert ran.returncode == 0, ran.stdout[-3000:]


def test_the_pages_own_tests_pass(npm: str):
    ran = run(npm, "run", "test")
    assert ran.returncode == 0, ran.stdout[-3000:]


@pytest.mark.parametrize("path", SOURCES, ids=lambda path: path.name)
def test_a_source_forces_no_type_and_is_short_enough_to_read(path: Path):
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
