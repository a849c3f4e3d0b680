"""What a maker shows: the piece in its room, wood and nothing else, saved as a picture; and two hands at one text.

The picture is looked at as it was saved: 2400 px wide (PNG's width stands at byte 16, RFC 2083), with the day's wood in
it and not a pixel of the blue, red and ochre in which the page marks things.
"""

import base64
import os
import struct
from collections.abc import Callable
from pathlib import Path

from dryfit.book.demos import demo_text

from .conftest import Opened, window

Opening = Callable[..., Opened]
ROOM = demo_text("record-wall").replace("studs ", "left = -140\nright = 2900\nceiling = 2500\nstuds ")
WOOD, MARKS = (0xF0, 0xE4, 0xC8), ((0x1D, 0x4F, 0xA8), (0xA8, 0x2A, 0x17), (0x83, 0x52, 0x00))
COUNTED = """async ([picture, colours]) => {
    const bytes = Uint8Array.from(atob(picture), (letter) => letter.charCodeAt(0));
    const image = await createImageBitmap(new Blob([bytes], { type: "image/png" }));
    const canvas = new OffscreenCanvas(image.width, image.height).getContext("2d");
    canvas.drawImage(image, 0, 0);
    const { data } = canvas.getImageData(0, 0, image.width, image.height);
    return colours.map(([red, green, blue]) => {
        let count = 0;
        for (let at = 0; at < data.length; at += 4) {
            count += Math.hypot(data[at] - red, data[at + 1] - green, data[at + 2] - blue) < 12 ? 1 : 0;
        }
        return count;
    });
}"""
READY = "() => !document.querySelector('[data-main]')?.disabled"


def to_the_client(opened: Opened) -> None:
    opened.page.get_by_role("navigation", name="Lights").get_by_role("button", name="Client").click()
    opened.page.wait_for_function(READY, timeout=60_000)


def test_the_client_sees_wood_in_its_room_and_it_is_saved_as_a_picture(look_at: Opening) -> None:
    opened = look_at(ROOM)
    page = opened.page
    to_the_client(opened)
    assert page.locator("#in-the-room").is_visible()
    assert page.locator("text.name, [data-note], .tools, .leader").count() == 0, "no name, no note, no tool"
    with page.expect_download(timeout=60_000) as download:
        page.get_by_role("button", name="save as a picture").click(timeout=60_000)
    assert download.value.suggested_filename == "Record wall.png"
    data = download.value.path().read_bytes()
    if folder := os.environ.get("DRYFIT_PICTURES"):
        Path(folder, "client-picture.png").write_bytes(data)
        page.screenshot(path=Path(folder, "client.png"))
    wide, high = struct.unpack(">II", data[16:24])
    assert wide == 2400
    assert high > 1000
    wood, *marks = page.evaluate(COUNTED, [base64.b64encode(data).decode(), [WOOD, *MARKS]])
    assert wood > 0.01 * wide * high, "the boards' fronts are there"
    assert marks == [0, 0, 0]


def test_escape_leaves_and_the_drawing_is_as_it_was(look_at: Opening) -> None:
    opened = look_at(ROOM)
    to_the_client(opened)
    opened.page.keyboard.press("ArrowRight")
    opened.page.keyboard.press("Escape")
    opened.page.locator("text.name").first.wait_for()
    assert opened.page.locator("#in-the-room").count() == 0
    assert opened.page.get_by_role("button", name="Set out").get_attribute("aria-current") == "page"


def test_escape_leads_back_to_the_light_one_came_from(look_at: Opening) -> None:
    page = look_at(ROOM).page
    page.get_by_role("button", name="Together").click()
    page.get_by_role("button", name="Client").click()
    page.locator("#in-the-room").wait_for()
    page.keyboard.press("Escape")
    page.locator("#in-the-room").wait_for(state="detached")
    assert page.get_by_role("button", name="Together").get_attribute("aria-current") == "page"


def test_what_is_typed_in_the_text_keeps_what_another_window_changes_meanwhile(
    open_job: Opening, browser: object
) -> None:
    opened = open_job("step-shelf")
    page, other = opened.page, window(browser, opened.server, {"width": 1280, "height": 800}, {})
    page.get_by_role("button", name="Text").click()
    page.get_by_role("textbox", name="Text of the job").click()
    page.keyboard.press("Control+Home")
    page.keyboard.type("# typed by hand")
    other.page.evaluate(
        """async () => {
            const { revision } = await (await fetch("/api/state")).json();
            const doing = { do: "typed", card: { board: "divider" }, key: ["depth"], entry: "150" };
            await fetch("/api/edit", { method: "POST", headers: { "Content-Type": "application/json" },
                body: JSON.stringify({ base_revision: revision, operation_id: "another-window", doing }) });
        }"""
    )
    opened.settled(3)  # theirs, then what was typed here
    text = opened.job.read_text()
    assert text.startswith("# typed by hand")
    assert "depth  = 150" in text
    other.page.context.close()
