"""Debian's Firefox, driven by its own remote protocol: WebDriver BiDi, a standard of the W3C, over a web socket."""

import itertools
import json
import re
import subprocess
import time
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from websockets.sync.client import connect

LONGEST_START, LONGEST_ANSWER, LONGEST_WAIT = 60.0, 60.0, 30.0  # seconds
SETTINGS = {
    "app.update.auto": False,
    "browser.shell.checkDefaultBrowser": False,
    "datareporting.policy.dataSubmissionEnabled": False,
    "network.captive-portal-service.enabled": False,
    "network.connectivity-service.enabled": False,
    "services.settings.server": "data:,",
    "toolkit.telemetry.enabled": False,
    "webgl.disabled": True,  # without a screen it finds no graphics driver, not even one in software
}
SEEN = """async (data, boxes) => {
  const bytes = Uint8Array.from(atob(data), (one) => one.charCodeAt(0));
  const picture = await createImageBitmap(new Blob([bytes], { type: "image/png" }));
  const canvas = new OffscreenCanvas(picture.width, picture.height).getContext("2d");
  canvas.drawImage(picture, 0, 0);
  const hex = (some) => "#" + [...some].map((one) => one.toString(16).padStart(2, "0")).join("");
  const seen = (box) => {
    const { data } = canvas.getImageData(...box.map(Math.round)), found = new Set();
    for (let at = 0; at < data.length; at += 4) found.add(hex(data.slice(at, at + 3)));
    return [...found];
  };
  return Object.fromEntries(Object.entries(boxes).map(([name, box]) => [name, seen(box)]));
}"""
KEYS = {"Enter": "\ue007", "Escape": "\ue00c", "Tab": "\ue004"}  # as WebDriver names them


class Firefox:
    """One window of it, with a profile of its own; closed as a context."""

    def __init__(self, path: str, folder: Path, size: tuple[int, int]) -> None:
        profile, log = folder / "profile", folder / "firefox.log"
        profile.mkdir(parents=True)
        lines = (f'user_pref("{name}", {json.dumps(value)});' for name, value in SETTINGS.items())
        (profile / "user.js").write_text("\n".join(lines), encoding="utf-8")
        command = [path, "--headless", "--no-remote", "--profile", str(profile), "--remote-debugging-port", "0"]
        with log.open("wb") as out:
            self.process = subprocess.Popen(command, stdout=out, stderr=out)
        until = time.monotonic() + LONGEST_START
        while (found := re.search(r"ws://\S+", log.read_text(encoding="utf-8"))) is None:
            assert time.monotonic() < until, log.read_text(encoding="utf-8")
            time.sleep(0.1)
        self.socket = connect(found[0] + "/session", max_size=None).__enter__()
        self.numbers, self.said = itertools.count(1), list[str]()
        self.call("session.new", capabilities={})
        self.window = self.call("browsingContext.getTree")["contexts"][0]["context"]
        self.call("session.subscribe", events=["log.entryAdded"])
        viewport = {"width": size[0], "height": size[1]}
        self.call("browsingContext.setViewport", context=self.window, viewport=viewport)

    def __enter__(self) -> "Firefox":
        return self

    def __exit__(self, *fault: object) -> None:
        self.socket.close()
        self.process.terminate()
        self.process.wait(timeout=20)

    def call(self, method: str, **params: Any) -> dict[str, Any]:
        """What a command of the protocol answers; what the page's console says meanwhile is kept in `said`."""
        number = next(self.numbers)
        self.socket.send(json.dumps({"id": number, "method": method, "params": params}))
        while True:
            answer = json.loads(self.socket.recv(timeout=LONGEST_ANSWER))
            if answer.get("method") == "log.entryAdded" and answer["params"]["level"] in ("error", "warn"):
                self.said.append(answer["params"]["text"])
            if answer.get("id") == number:
                assert answer["type"] == "success", answer
                return dict(answer["result"])

    def go(self, address: str) -> None:
        self.call("browsingContext.navigate", context=self.window, url=address, wait="complete")

    def run(self, script: str) -> Any:
        """What an expression in the page comes to; it must be what JSON can tell."""
        wrapped = f"Promise.resolve({script}).then((value) => JSON.stringify(value ?? null))"
        target = {"context": self.window}
        found = self.call("script.evaluate", expression=wrapped, target=target, awaitPromise=True)
        assert found["type"] == "success", found
        return json.loads(found["result"]["value"])

    def until(self, script: str) -> Any:
        """Waits until an expression in the page is true, and tells it."""
        until = time.monotonic() + LONGEST_WAIT
        while not (found := self.run(script)):
            assert time.monotonic() < until, script
            time.sleep(0.1)
        return found

    def middle(self, element: str) -> tuple[float, float]:
        """The middle of an element that an expression finds, in px of the window."""
        x, y = self.until(
            f"((box) => box && [box.x + box.width / 2, box.y + box.height / 2])(({element})?.getBoundingClientRect())"
        )
        return x, y

    def _act(self, kind: str, actions: Sequence[Mapping[str, Any]], **more: Any) -> None:
        source = {"type": kind, "id": kind, "actions": list(actions), **more}
        self.call("input.performActions", context=self.window, actions=[source])

    def drag(self, *points: tuple[float, float], steps: int = 8) -> None:
        """Press at the first point, go through the others, let go at the last; one point is a press."""
        moves = [points[0]]
        for (x, y), (to_x, to_y) in itertools.pairwise(points):
            moves += [(x + (to_x - x) * n / steps, y + (to_y - y) * n / steps) for n in range(1, steps + 1)]
        first, *more = ({"type": "pointerMove", "x": round(x), "y": round(y), "duration": 20} for x, y in moves)
        self._act("pointer", [first, {"type": "pointerDown", "button": 0}, *more, {"type": "pointerUp", "button": 0}])

    def wheel(self, x: float, y: float, down: int) -> None:
        self._act("wheel", [{"type": "scroll", "x": round(x), "y": round(y), "deltaX": 0, "deltaY": down}])

    def type(self, *keys: str) -> None:
        """Texts, or keys by their names."""
        pressed = [key for text in keys for key in ([KEYS[text]] if text in KEYS else text)]
        kinds = ("keyDown", "keyUp")
        self._act("key", [{"type": kind, "value": key} for key in pressed for kind in kinds])

    def colours(self, boxes: Mapping[str, tuple[float, float, float, float]]) -> dict[str, set[str]]:
        """The colours on the screen in each of some boxes (left, top, wide, high in px), as "#rrggbb"."""
        data = self.call("browsingContext.captureScreenshot", context=self.window)["data"]
        found = self.run(f"({SEEN})({json.dumps(data)}, {json.dumps(boxes)})")
        return {name: set(some) for name, some in found.items()}
