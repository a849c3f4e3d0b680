"""The page under a hand: from pointer event to changed pixels, and frames while the model is turned.

    python -m bench.page_browser [--steps 120]

Chromium draws in software at 1280 by 800. The board with most joints of the record wall is dragged while the slow
study of its order is made to run again; a step's time is from the pointer event to the first frame painted after
the previewed outline has changed. Orbiting counts frames whose picture differs from the one before, read back from
the canvas. Medians wander some 10 % between runs; the 95th percentile is what a hand feels.
"""

import argparse
import shutil
import subprocess
import sys
import tempfile
from collections import Counter
from pathlib import Path
from typing import Any

from playwright.sync_api import Page, sync_playwright

from dryfit.book.demos import demo_text
from tests.browser.conftest import FLAGS, Server

WIDE, HIGH = 1280, 800

STEPS = """
async ([name, steps]) => {
  const svg = document.querySelector("#drawing");
  const board = [...document.querySelectorAll("text.name")].find((one) => one.textContent === name);
  const box = board.getBoundingClientRect();
  const [x, y] = [box.x + 6, box.y + 8];
  const outline = () => document.querySelector(`g.board[data-board="${name}"] .wood`).getAttribute("d");
  const frame = () => new Promise(requestAnimationFrame);
  const painted = () => new Promise((done) => requestAnimationFrame(() => {
    const told = new MessageChannel();
    told.port1.onmessage = done;
    told.port2.postMessage(0);
  }));
  const send = (kind, dx, at = svg) => at.dispatchEvent(new PointerEvent(kind, {
    pointerId: 1, bubbles: true, cancelable: true, clientX: x + dx, clientY: y, altKey: true, isPrimary: true,
    button: 0, buttons: kind === "pointerup" ? 0 : 1 }));
  Element.prototype.setPointerCapture = () => undefined; // of an event that no device made
  send("pointerdown", 0, board);
  send("pointermove", 8);
  for (let wait = 0; wait < 60; wait += 1) await frame();
  const times = [];
  for (let step = 0; step < steps; step += 1) {
    const before = outline();
    const began = performance.now();
    send("pointermove", 10 + (step % 24) * 2);
    while (outline() === before && performance.now() - began < 2000) await frame();
    await painted();
    times.push(performance.now() - began);
  }
  window.dispatchEvent(new KeyboardEvent("keydown", { key: "Escape", bubbles: true }));
  send("pointerup", 0);
  return times;
}
"""

ORBIT = """
async (seconds) => {
  const place = document.querySelector("#lifted");
  const canvas = place.querySelector("canvas");
  const small = new OffscreenCanvas(160, 100);
  const pen = small.getContext("2d", { willReadFrequently: true });
  const box = place.getBoundingClientRect();
  Element.prototype.setPointerCapture = () => undefined;
  const send = (kind, dx) => place.dispatchEvent(new PointerEvent(kind, {
    pointerId: 1, bubbles: true, clientX: box.x + 500 + dx, clientY: box.y + 300, isPrimary: true,
    button: 0, buttons: 1 }));
  send("pointerdown", 0);
  let [last, differ, dx] = [0, 0, 0];
  const began = performance.now();
  while (performance.now() - began < seconds * 1000) {
    send("pointermove", (dx += 6));
    await new Promise(requestAnimationFrame);
    pen.drawImage(canvas, 0, 0, 160, 100);
    let picture = 0;
    const pixels = new Uint32Array(pen.getImageData(0, 0, 160, 100).data.buffer);
    for (const pixel of pixels) picture = (Math.imul(picture, 31) + pixel) | 0;
    if (picture !== last) differ += 1;
    last = picture;
  }
  send("pointerup", dx);
  return differ / ((performance.now() - began) / 1000);
}
"""


def percentile(values: list[float], share: float) -> float:
    """The value below which that share of all lies."""
    ordered = sorted(values)
    return ordered[min(len(ordered) - 1, int(share * len(ordered)))]


def busiest(page: Page) -> str:
    """The board with most joints."""
    ask = "() => fetch('/api/state').then((answer) => answer.json())"
    joints = [joint["boards"] for joint in page.evaluate(ask)["drawing"]["joints"]]
    counts = Counter(name for pair in joints for name in pair if name not in ("wall", "floor"))
    return counts.most_common(1)[0][0]


def measured(page: Page, steps: int) -> dict[str, Any]:
    """Both figures of one page."""
    name = busiest(page)
    page.keyboard.press("Escape")
    # A change right before the drag sets the slow studies to work on it.
    page.locator("text.name", has_text=name).first.click()
    page.keyboard.press("ArrowRight")
    page.wait_for_function("() => Number(document.documentElement.dataset.revision) > 1")
    times = page.evaluate(STEPS, [name, steps])
    page.get_by_role("button", name="Lift").click()
    page.wait_for_timeout(1500)
    return {"board": name, "times": times, "frames": page.evaluate(ORBIT, 4)}


def main() -> int:
    """Measure and print; 1 where a bound is missed."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--steps", type=int, default=120)
    given = parser.parse_args()
    chromium = shutil.which("chromium")
    if chromium is None:
        print("no chromium on this machine: `apt-get install chromium`")
        return 2
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        server = Server(Path(folder) / "wall.toml")
        server.job.write_text(demo_text("record-wall"), encoding="utf-8")
        server.start()
        try:
            browser = playwright.chromium.launch(executable_path=chromium, args=list(FLAGS), headless=True)
            page = browser.new_context(viewport={"width": WIDE, "height": HIGH}).new_page()
            page.goto(server.link)
            page.wait_for_selector("g.board")
            found = measured(page, given.steps)
            browser.close()
        except subprocess.SubprocessError:
            server.kill()
            raise
        server.stop()
    p50, p95 = percentile(found["times"], 0.5), percentile(found["times"], 0.95)
    print(f"dragging {found['board']}: pointer event to changed pixels p50 {p50:.0f} ms, p95 {p95:.0f} ms (bound 80)")
    print(f"turning the model: {found['frames']:.0f} frames/s whose picture differs (bound 30)")
    return 0 if p95 <= 80 and found["frames"] >= 30 else 1


if __name__ == "__main__":
    sys.exit(main())
