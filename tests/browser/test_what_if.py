"""A study's lever on the page: the template with hatches of docs/adding-a-study.md, in a copy of program and page.

The piece is a shelf 600 long on which an upright 500 high stands, both 200 deep: 600 x 510 x 200 around. Through a
hatch 150 wide it lacks 200 + 20 - 150 = 70, with 60 for hands 110; with none 50. A hatch 900 wide it passes.
"""

import os
import re
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

from tests import adding

from .conftest import ROOT, Opened

Opening = Callable[..., Opened]
BLOCK = re.compile(r"^`src/dryfit/studies/hatches/(\w+)\.py`\n\n```python\n(.*?)^```", re.MULTILINE | re.DOTALL)
PIECE = f"{adding.PIECE}[[hatch]]\nwidth = 900\n[[hatch]]\nwidth = 150\n"
LIGHT = """import { aLight } from "../../core/light";
import Side from "./Side.svelte";
export const light = aLight({
  name: "hatches", word: "Hatches", order: 56, studies: ["hatches"], Side, keepsSide: true,
  show: ({ hatches }) => hatches && {
    boards: new Map(), joints: new Map(), legend: { says: `lacking ${hatches.lacking.join(" and ")}`, tints: [] },
  },
});
"""
SIDE = """<script lang="ts">
  import { answers } from "../../core/answers.svelte";
</script>
<p>As it stands {answers.of("hatches").result?.lacking.join(" and ") ?? "not known"}.</p>
"""


@pytest.fixture(scope="module")
def with_hatches(npm: str, tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """Program and page with the study and a light of it; its types are of our program, and are not checked."""
    home = tmp_path_factory.mktemp("hatches")
    source, page = home / "src", home / "page"
    shutil.copytree(ROOT / "src" / "dryfit", source / "dryfit", ignore=shutil.ignore_patterns("__pycache__", "static"))
    room = source / "dryfit" / "studies" / "hatches"
    room.mkdir()
    blocks = BLOCK.findall((ROOT / "docs" / "adding-a-study.md").read_text(encoding="utf-8"))
    assert {name for name, _ in blocks} == {"__init__", "result"}
    for name, text in blocks:
        (room / f"{name}.py").write_text(text, encoding="utf-8")
    shutil.copytree(ROOT / "page", page, ignore=shutil.ignore_patterns("node_modules"))
    (page / "node_modules").symlink_to(ROOT / "page" / "node_modules")
    light = page / "src" / "lights" / "hatches"
    light.mkdir()
    (light / "index.ts").write_text(LIGHT, encoding="utf-8")
    (light / "Side.svelte").write_text(SIDE, encoding="utf-8")
    built = home / "static"
    words = [npm, "run", "build", "--", "--outDir", str(built)]
    ran = subprocess.run(words, cwd=page, capture_output=True, text=True, check=False)
    assert ran.returncode == 0, ran.stdout + ran.stderr
    return {"static": built, "source": source}


def test_a_lever_is_shown_with_unit_and_range_and_asks_what_if_and_nothing_is_written(
    open_job: Opening, with_hatches: dict[str, Path]
):
    opened = open_job(PIECE, **with_hatches)
    page, before = opened.page, opened.job.read_bytes()
    page.get_by_role("navigation", name="Lights").get_by_role("button", name="Hatches").click()
    page.get_by_text("As it stands 0 and 70.").wait_for(timeout=20_000)
    asked = page.get_by_role("region", name="What if")
    assert "0 to 200 mm" in asked.inner_text()
    assert "Beside the piece, in all." in asked.inner_text()
    field = asked.get_by_label("hands")
    assert field.input_value() == "20"

    field.fill("60")
    field.press("Enter")
    asked.get_by_text("the piece lacks 110 at a hatch 150 wide").wait_for()
    page.get_by_text("lacking 0 and 110").wait_for()  # the drawing shows it, by what the light makes of it
    page.get_by_text("As it stands 0 and 70.").wait_for()
    if folder := os.environ.get("DRYFIT_PICTURES"):
        page.screenshot(path=f"{folder}/what-if.png")

    field.fill("300")
    field.press("Enter")
    asked.get_by_text("hands: 0 to 200 mm").wait_for()
    page.get_by_text("lacking 0 and 70").wait_for()

    field.fill("200 - 200")
    field.press("Enter")
    asked.get_by_text("the piece lacks 50 at a hatch 150 wide").wait_for()
    asked.get_by_role("button", name="as it stands").click()
    page.get_by_text("lacking 0 and 70").wait_for()
    assert field.input_value() == "20"
    assert opened.job.read_bytes() == before
    assert opened.state()["undo"] is None


def test_a_light_whose_studies_have_no_lever_asks_nothing(open_job: Opening):
    page = open_job("step-shelf").page
    page.get_by_role("button", name="Together").click()
    page.get_by_text("step", exact=False).first.wait_for()
    assert page.get_by_role("region", name="What if").count() == 0
