"""The template of docs/adding-a-light.md, put into a copy of the page, built, and looked at on the record wall.

Every word the template says is marked first, so that a word the page has of its own is not taken for it: the light is
called "Weight 7f3" and a board of 9.4 kg "9.4 kg 7f3". What boards weigh comes from the study itself, here in Python.
"""

import base64
import re
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from dryfit.book import build, read_job_text
from dryfit.book.demos import demo_text
from dryfit.documents.plain import plain

from .conftest import ROOT, Opened

Opening = Callable[..., Opened]
PAGE = ROOT / "page"
FILES = re.compile(r"^`(\S+)`\n\n```(?:ts|svelte)\n(.*?)^```", re.MULTILINE | re.DOTALL)
MARK = "7f3"
COUNTED = """async ([picture, [red, green, blue]]) => {
    const bytes = Uint8Array.from(atob(picture), (letter) => letter.charCodeAt(0));
    const image = await createImageBitmap(new Blob([bytes], { type: "image/png" }));
    const canvas = new OffscreenCanvas(image.width, image.height).getContext("2d");
    canvas.drawImage(image, 0, 0);
    const { data } = canvas.getImageData(0, 0, image.width, image.height);
    let count = 0;
    for (let at = 0; at < data.length; at += 4) {
        count += Math.hypot(data[at] - red, data[at + 1] - green, data[at + 2] - blue) < 30 ? 1 : 0;
    }
    return count;
}"""
OCHRE = (0x83, 0x52, 0x00)  # the day's --ochre, in which tints are hatched


def template() -> dict[str, str]:
    """The template's files by name."""
    found = dict(FILES.findall((ROOT / "docs" / "adding-a-light.md").read_text(encoding="utf-8")))
    assert set(found) == {"index.ts", "shown.ts", "Side.svelte", "Foot.svelte"}
    return found


def marked(text: str) -> str:
    """The template with a mark behind each word it says, but not in its comments and names."""
    for before, after in (
        ('word: "Weight"', f'word: "Weight {MARK}"'),
        ("<h2>Weight", f"<h2>Weight {MARK}"),
        (" kg`", f" kg {MARK}`"),
        (" kg<", f" kg {MARK}<"),
        ('"Numbered from the heaviest"', f'"Numbered from the heaviest {MARK}"'),
        ('"half of it"', f'"half of it {MARK}"'),
    ):
        text = text.replace(before, after)
    return text


@pytest.fixture(scope="module")
def static(npm: str, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The page with the template's light, checked and built."""
    page = tmp_path_factory.mktemp("light") / "page"
    shutil.copytree(PAGE, page, ignore=shutil.ignore_patterns("node_modules"))
    (page / "node_modules").symlink_to(PAGE / "node_modules")
    folder = page / "src" / "lights" / "weight"
    folder.mkdir()
    for name, text in template().items():
        (folder / name).write_text(marked(text), encoding="utf-8")
    built = page.parent / "static"
    for words in (("run", "check"), ("run", "build", "--", "--outDir", str(built))):
        ran = subprocess.run([npm, *words], cwd=page, capture_output=True, text=True, check=False)
        assert ran.returncode == 0, ran.stdout + ran.stderr
    return built


@pytest.fixture
def opened(open_job: Opening, static: Path) -> Opened:
    """The record wall, its slow work done, looked at in the light of the template."""
    opened = open_job(static=static, reduced_motion="reduce")
    opened.page.get_by_role("navigation", name="Lights").get_by_role("button", name=f"Weight {MARK}").click()
    opened.page.get_by_text(re.compile(f"All together .* kg {MARK}")).wait_for(timeout=20_000)
    return opened


def weighed() -> list[tuple[str, float]]:
    """Boards and their weight as the page is told it, the heaviest first."""
    measures = plain(build(read_job_text(demo_text("record-wall"))).studies["measures"])
    return sorted(((name, kg) for name, kg in measures["mass_kg"]), key=lambda one: -one[1])


def words() -> dict[str, str]:
    """What stands at each board's name."""
    return {name: f"{at} {name}: {kg:.1f} kg {MARK}" for at, (name, kg) in enumerate(weighed(), start=1)}


def ochre(page: Any) -> int:
    """How many pixels of the model are of the hatching's colour."""
    picture = base64.b64encode(page.locator("#lifted canvas").screenshot()).decode()
    return int(page.evaluate(COUNTED, [picture, list(OCHRE)]))


def test_its_word_stands_in_its_place_among_the_lights_and_no_other_is_gone(opened: Opened):
    lights = opened.page.get_by_role("navigation", name="Lights").locator(".word").all_inner_texts()
    names = [re.sub(r"\s*\d*\s*notes?$|\s+\d+\s*$", "", word.split("\n")[0]).strip() for word in lights]
    assert names == ["Brief", "Set out", "Together", f"Weight {MARK}", "Finish", "Site", "Client", "Papers"], (
        "in the order of the job; of those announced none"
    )


def test_the_drawing_has_its_numbers_figures_and_tints(opened: Opened):
    page, expected = opened.page, words()
    said = {name.get_attribute("data-board"): name.text_content() for name in page.locator("text.name").all()}
    assert len(said) >= 10, "where there is room"
    assert {name: expected[name] for name in said if "…" not in str(said[name])} == {
        name: text for name, text in said.items() if "…" not in str(text)
    }
    heaviest = weighed()[0]
    assert heaviest[0] in said, "the first in rank keeps its place"
    tints = {
        board.get_attribute("data-board"): board.evaluate("node => node.style.getPropertyValue('--tint')")
        for board in page.locator("g.board.tinted").all()
    }
    assert tints == {name: f"{round(100 * kg / heaviest[1])}%" for name, kg in weighed()}
    assert page.locator("g.board .hatch").count() == len(tints), "never by colour alone"
    hatched = {hatch.get_attribute("fill") for hatch in page.locator("g.board .hatch").all()}
    assert len(hatched) > 1, "the greater the share, the nearer the lines"
    page.get_by_text(f"Numbered from the heaviest {MARK}").wait_for()
    page.get_by_text(f"half of it {MARK}").wait_for()


def test_the_model_has_the_same(opened: Opened):
    page, expected = opened.page, words()
    page.get_by_role("button", name="Lift", exact=True).click()
    first = weighed()[0][0]
    page.locator("svg.names text", has_text=expected[first]).wait_for()
    names = page.locator("svg.names text")
    names.nth(4).wait_for()  # they are written anew when the piece has come to rest
    said = set(names.all_text_contents())
    assert len(said) >= 5
    assert said <= set(expected.values())
    hatched = ochre(page)
    page.get_by_role("navigation", name="Lights").get_by_role("button", name="Set out").click()
    page.wait_for_timeout(800)
    assert hatched > 500, "hatched as on the drawing"
    assert ochre(page) < hatched / 20, "and not in a light that does not ask for it"


def test_its_side_and_foot_say_what_the_study_found(opened: Opened):
    side = opened.page.get_by_role("complementary", name="Card")
    assert side.get_by_role("heading", name=f"Weight {MARK}").count() == 1
    rows = [" ".join(row.split()) for row in side.locator("ol li").all_inner_texts()]
    assert rows == [f"{name} {kg:.1f} kg {MARK}" for name, kg in weighed()]
    total = sum(kg for _, kg in weighed())
    foot = opened.page.get_by_text(re.compile("All together")).inner_text()
    assert foot == f"All together {total:.1f} kg {MARK}"
