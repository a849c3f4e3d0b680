"""What a maker shows: the piece in its room, wood and nothing else, saved as a picture; and two hands at one text.

The picture is looked at as it was saved: 2400 px wide (PNG's width stands at byte 16, RFC 2083), with the day's wood in
it and not a pixel of the blue, red and ochre in which the page marks things.
"""

import base64
import math
import os
import struct
from collections.abc import Callable, Sequence
from operator import mul
from pathlib import Path
from typing import Any

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


# ---- plugs: two shelves screwed through the outer face of the left side; over the lower one's plugs another board lies

BOARDS = {
    "left": [[12, 0], [12, 400]],
    "right": [[312, 0], [312, 400]],
    "upper": [[24, 300], [300, 300]],
    "lower": [[24, 100], [300, 100]],
    "cover": [[-12, 0], [-12, 200]],
}


def shelves(held: str) -> str:
    """The job, its shelves against its sides, held by plugged screws or by dowels."""
    head = '[timber.t]\nspecies = "oak, white"\nform = "panel"\nthickness = 24\n'
    boards = (f'[[board]]\nname = "{name}"\ntimber = "t"\nline = {at}\ndepth = 150\n' for name, at in BOARDS.items())
    joints = (
        f'[[joint]]\nbetween = ["{side}", "{shelf}"]\nkind = "butt"\nfasten = "{held}"\ncount = 2\n'
        for side in ("left", "right")
        for shelf in ("upper", "lower")
    )
    return "".join(['dryfit = 1\n[job]\ntitle = "Plugs"\n', head, *boards, *joints])


PLUGGED, DOWELLED = shelves("screws"), shelves("dowels")
BOXES = ((-24, 0, 0, 200), (0, 24, 0, 400), (300, 324, 0, 400))  # from and to across and up, all from 0 to 150 out
THIN = 1.8  # of a px or two on either side, aslant
PLUG, PLACES = 6.0, ((0.0, 300.0, 37.5), (0.0, 300.0, 112.5))  # its radius; two, evenly over 150
COVERED = tuple((0.0, 100.0, z) for _, _, z in PLACES)
YAW, PITCH, AIR = math.radians(-24), math.radians(9), 0.1  # from where the client looks, and the air around the piece
RIGHT = (math.cos(YAW), 0.0, -math.sin(YAW))
UP = (-math.sin(YAW) * math.sin(PITCH), math.cos(PITCH), -math.cos(YAW) * math.sin(PITCH))
DIFFER = """async ([one, other]) => {
    const read = async (picture) => {
        const bytes = Uint8Array.from(atob(picture), (letter) => letter.charCodeAt(0));
        const image = await createImageBitmap(new Blob([bytes], { type: "image/png" }));
        const canvas = new OffscreenCanvas(image.width, image.height).getContext("2d");
        canvas.drawImage(image, 0, 0);
        return canvas.getImageData(0, 0, image.width, image.height);
    };
    const [first, second] = [await read(one), await read(other)];
    const found = [];
    for (let at = 0; at < first.data.length; at += 4) {
        const far = Math.hypot(...[0, 1, 2].map((part) => first.data[at + part] - second.data[at + part]));
        if (far > 8) found.push([(at / 4) % first.width, Math.floor(at / 4 / first.width)]);
    }
    return { size: [first.width, first.height], found };
}"""
KNOWN = "() => document.querySelector('#plugs-lacking')?.textContent === ''"


def picture_of(look_at: Opening, text: str) -> tuple[Any, bytes]:
    opened = look_at(text)
    to_the_client(opened)
    opened.page.wait_for_function(KNOWN, timeout=60_000)
    with opened.page.expect_download(timeout=60_000) as download:
        opened.page.get_by_role("button", name="save as a picture").click(timeout=60_000)
    return opened.page, download.value.path().read_bytes()


def drawn_at(point: Sequence[float], size: tuple[int, int]) -> tuple[float, float, float]:
    """Where a point of the piece is in the picture, px, and how many px a mm is there."""
    corners = [(x, y, z) for x0, x1, y0, y1 in BOXES for x in (x0, x1) for y in (y0, y1) for z in (0, 150)]
    xs, ys = ([sum(map(mul, corner, way)) for corner in corners] for way in (RIGHT, UP))
    air = 2 * AIR * min(size)
    scale = min((size[0] - air) / (max(xs) - min(xs)), (size[1] - air) / (max(ys) - min(ys)))
    x, y = (sum(map(mul, point, way)) for way in (RIGHT, UP))
    return (
        size[0] / 2 + scale * (x - (min(xs) + max(xs)) / 2),
        size[1] / 2 - scale * (y - (min(ys) + max(ys)) / 2),
        scale,
    )


def in_the_face(px: int, py: int, at: Sequence[float], size: tuple[int, int]) -> float:
    """How far a px is from a place, measured in a face that looks to the left, mm."""
    x, y, scale = drawn_at(at, size)
    out = (px + 0.5 - x) / scale / RIGHT[2]
    high = (-(py + 0.5 - y) / scale - out * UP[2]) / UP[1]
    return math.hypot(out, high)


def test_a_plug_is_a_ring_of_its_size_at_its_place_and_one_that_is_covered_is_not_drawn(look_at: Opening) -> None:
    """The same piece with plugged screws and with dowels, which show nowhere: what differs are two rings."""
    page, plugged = picture_of(look_at, PLUGGED)
    _, plain = picture_of(look_at, DOWELLED)
    if folder := os.environ.get("DRYFIT_PICTURES"):
        Path(folder, "client-plugs.png").write_bytes(plugged)
    differ = page.evaluate(DIFFER, [base64.b64encode(data).decode() for data in (plugged, plain)])
    rings: list[list[float]] = [[] for _ in PLACES]
    stray: list[tuple[int, int]] = []
    for px, py in differ["found"]:
        radius, number = min((in_the_face(px, py, at, differ["size"]), number) for number, at in enumerate(PLACES))
        if radius < 3 * PLUG:
            rings[number].append(radius)
        else:
            stray.append((px, py))
        assert all(in_the_face(px, py, at, differ["size"]) > 3 * PLUG for at in COVERED), "nothing is drawn there"
    assert len(stray) < 100, "single px, where faces with holes are of other triangles"
    for radii in rings:
        assert len(radii) > 40, "there is a ring"
        assert [radius for radius in radii if abs(radius - PLUG) > THIN] == [], "thin, at its place, wood inside it"


def test_while_it_is_not_known_which_plugs_can_be_seen_the_page_says_so(look_at: Opening) -> None:
    page = look_at(PLUGGED).page
    held: list[Any] = []
    known: list[bool] = []
    page.route("**/api/study/driving*", lambda route: route.continue_() if known else held.append(route))
    page.get_by_role("navigation", name="Lights").get_by_role("button", name="Client").click()
    words = "Which plugs can be seen is not known: it is still being worked out. Their holes are drawn open."
    page.get_by_text(words).wait_for()
    known.append(True)
    for route in held:
        route.continue_()
    page.wait_for_function(KNOWN, timeout=60_000)
