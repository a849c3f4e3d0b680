"""The manual's templates put to work as whoever adds a thing would: as files in a copy of the house.

It runs in a process of its own: nothing of the running tests is touched, and a template is found by standing in its
folder or not at all.
"""

import json
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parent.parent
PIECE = """\
dryfit = 1
[timber.oak]
species = "oak, white"
thickness = 20
[[board]]
name = "shelf"
line = [[0, 0], [600, 0]]
depth = 200
[[board]]
name = "upright"
line = [[300, 0], [300, 500]]
depth = 200
"""  # that the templates are put to work on: a shelf across an upright
PATIENCE = 120.0  # seconds for all papers of a small piece, on a machine that does something else as well
PAGES = ("adding-a-joint", "adding-a-study", "adding-a-paper", "adding-a-file")
_PLACE = re.compile(r"`(src/dryfit|tests)/([\w/]+\.py)`")
_BLOCK = re.compile(r'^```python\n(""".*?)^```', re.MULTILINE | re.DOTALL)


def templates(page, root="src/dryfit"):
    """The files that a page of the manual asks for, by their place, which it names before each.

    Args:
        page: its name.
        root: of the checkout: "src/dryfit", or "tests".
    """
    text = (ROOT / "docs" / f"{page}.md").read_text(encoding="utf-8")
    found = {}
    for block in _BLOCK.finditer(text):
        where, place = _PLACE.findall(text[: block.start()])[-1]
        if where == root:
            found[place] = block[1]
    return found


def house(folder, files, tests=None):
    """A copy of the package in a folder, with more files in it; to be named in `told` and `ran`.

    Args:
        files: by their place in the package; `tests` those in a copy of the tests, which stands there if there are any.
    """
    if tests:
        shutil.copytree(ROOT / "tests", folder / "tests", ignore=shutil.ignore_patterns("__pycache__", "browser"))
        shutil.copy(ROOT / "pyproject.toml", folder)
    for place, text in (tests or {}).items():
        assert not (folder / "tests" / place).exists(), place
        (folder / "tests" / place).write_text(text, encoding="utf-8")
    package = folder / "src" / "dryfit"
    shutil.copytree(ROOT / "src" / "dryfit", package, ignore=shutil.ignore_patterns("__pycache__"))
    for place, text in files.items():
        assert not (package / place).exists(), place
        (package / place).parent.mkdir(exist_ok=True)
        (package / place).write_text(text, encoding="utf-8")
    return folder / "src"


def ran(source, *command, cwd=ROOT):
    """What a Python command prints that works with the copy of the package."""
    env = {**os.environ, "PYTHONPATH": str(source), "PYTHONDONTWRITEBYTECODE": "1", "HYPOTHESIS_PROFILE": "fast"}
    done = subprocess.run([sys.executable, *command], cwd=cwd, env=env, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


def told(source, job):
    """All sheets of all papers of a job: of each its paper, kind, title and words; and what its check says."""
    return json.loads(ran(source, "-m", "tests.adding", "sheets", str(job)))


def on_the_page(source, job):
    """The page's list of papers once all are made and saved, and what was saved."""
    return json.loads(ran(source, "-m", "tests.adding", "page", str(job)))


# ---- in the process of its own


def _sheets(job):
    from dryfit.book import build, read
    from dryfit.documents.display import Text
    from dryfit.documents.looks import Desk
    from dryfit.documents.sheets import SHEETS
    from dryfit.documents.workshop import paper_sheets

    book = build(read(job))
    desk = Desk(book)
    return [
        {
            "paper": paper,
            "kind": draft.kind,
            "title": draft.title,
            "words": [item.text for item in draft.items if isinstance(item, Text)],
        }
        for paper in dict.fromkeys(kind.paper for kind in SHEETS.values())
        for draft, _ in paper_sheets(paper, book, desk=desk)
    ]


def _page(job):
    import time

    from tests.web.served import Window

    window = Window(job)
    try:
        with window.client:
            window.post("papers", names=[]).raise_for_status()
            began = time.monotonic()
            while (shown := window.client.get("/api/papers").json())["task"] is not None:
                assert time.monotonic() - began < PATIENCE, shown
                time.sleep(0.1)
            saved = window.post("papers/save", files=[]).raise_for_status().json()
            return {"papers": shown["papers"], "saved": saved["files"], "notes": window.state()["notes"]}
    finally:
        window.session.close()


if __name__ == "__main__":
    print(json.dumps({"sheets": _sheets, "page": _page}[sys.argv[1]](Path(sys.argv[2]))))
