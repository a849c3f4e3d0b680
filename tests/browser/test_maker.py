"""What a maker does on the page, from opening the demo to the papers in hand.

Record wall: 17 boards; raking 1 stands at x = 560 and leans 8 degrees to the right, crossing four shelves in
cross halvings; shelf 1 lies at 140. All of it changes by the hand, by typing, by the text, and comes back by undo.
"""

import re
from collections.abc import Callable, Iterator
from io import BytesIO
from typing import Any

import pypdfium2

from dryfit.book import build, read_job_text
from dryfit.documents.looks import Desk
from dryfit.documents.sheets.booklet.pages import pages
from dryfit.documents.sheets.wall_steps.maker import is_put_together_there
from dryfit.documents.sheets.wall_steps.maker import pages as wall_pages
from tests.web.served import NODE

from .conftest import Opened
from .test_first_minute import until

Opening = Callable[..., Opened]


def drag(opened: Opened, name: str, across: int, *, key: str | None = None) -> None:
    """Take a board by its name and pull it so many px to the right, in steps as a hand does."""
    opened.choose(name)
    box = opened.page.locator("text.name", has_text=re.compile(f"^{name}$")).first.bounding_box()
    x, y = box["x"] + 6, box["y"] + 8
    if key:
        opened.page.keyboard.down(key)
    opened.page.mouse.move(x, y)
    opened.page.mouse.down()
    for step in range(1, 11):
        opened.page.mouse.move(x + across * step / 10, y)
        opened.page.wait_for_timeout(25)
    opened.page.wait_for_timeout(200)


def release(opened: Opened, before: int) -> None:
    opened.page.mouse.up()
    opened.settled(before + 1)


def test_the_demo_opens_with_all_its_boards_joints_and_notes_and_no_token_in_the_address(look_at: Opening):
    opened = look_at()
    state = opened.state()
    assert opened.page.locator("g.board").count() == len(state["drawing"]["boards"]) == 17
    assert "token" not in opened.page.url
    shown = {note.get_attribute("data-note") for note in opened.page.locator("[data-note]").all()}
    assert shown == {note["id"] for note in state["notes"]}


def test_a_raking_board_dragged_takes_its_joints_along_and_is_one_step_of_undo(open_job: Opening):
    opened = open_job()
    before = opened.state()
    drag(opened, "raking 1", 44, key="Alt")
    outline = opened.page.locator("g.board[data-board='raking 1'] .wood").get_attribute("d")
    assert opened.state()["text"] == before["text"], "nothing is written while the hand is down"
    release(opened, before["revision"])
    opened.page.keyboard.up("Alt")
    after = opened.state()
    moved = opened.board("raking 1")["line"][0][0] - 560.0
    assert 90 < moved < 250, "44 px at about 0.3 px/mm"
    assert opened.page.locator("g.board[data-board='raking 1'] .wood").get_attribute("d") == outline, "as previewed"

    def joints(state: dict[str, Any]) -> dict[tuple[str, ...], list[float]]:
        return {tuple(joint["boards"]): joint["at"] for joint in state["drawing"]["joints"]}

    was, now = joints(before), joints(after)
    for pair in was.keys() & now.keys():
        expected = moved if "raking 1" in pair else 0.0
        assert abs(now[pair][0] - was[pair][0] - expected) < 0.01, pair
    opened.page.get_by_role("button", name="undo").click()
    opened.settled(after["revision"] + 1)
    assert opened.job.read_text(encoding="utf-8") == before["text"]


def test_a_move_that_brings_boards_too_near_shows_a_note_while_the_hand_is_down(open_job: Opening):
    opened = open_job()
    at_rest = until(
        opened, lambda state: state["rest"]["revision"] == state["revision"] and not state["rest"]["running"]
    )
    before = {note["id"] for note in at_rest["notes"]}  # those of slow work too
    drag(opened, "raking 1", 90, key="Alt")  # onto divider 1 and 2, which stand at 980
    opened.page.wait_for_timeout(300)
    seen = {note.get_attribute("data-note") for note in opened.page.locator("[data-note]").all()}
    assert seen - before, "raking 1 now runs through the dividers"
    opened.page.keyboard.press("Escape")
    opened.page.mouse.up()
    opened.page.keyboard.up("Alt")
    opened.page.wait_for_timeout(200)
    seen = {note.get_attribute("data-note") for note in opened.page.locator("[data-note]").all()}
    assert seen == before, "Escape leaves all as it was"


def test_a_move_is_typed_while_dragging(open_job: Opening):
    opened = open_job()
    before = opened.state()["revision"]
    drag(opened, "raking 1", 20)
    opened.page.keyboard.type("37.5")
    opened.page.wait_for_timeout(150)
    assert opened.page.locator(".moving .far").text_content() == "37.5"
    release(opened, before)
    assert opened.board("raking 1")["line"][0][0] == 597.5


def test_a_dimension_is_typed_in_place_as_arithmetic(open_job: Opening):
    opened = open_job()
    before = opened.state()["revision"]
    opened.choose("raking 1")
    opened.page.locator("text.figure.typed", has_text="560").click()
    opened.page.keyboard.type("width / 4")
    opened.page.keyboard.press("Enter")
    opened.settled(before + 1)
    assert opened.board("raking 1")["line"][0][0] == 650.0, "2600 / 4"


def test_a_joint_is_made_another_way_and_the_kinds_that_cannot_serve_say_why(open_job: Opening):
    opened = open_job()
    before = opened.state()
    opened.choose("slanting divider")
    opened.page.locator("aside li button", has_text="top shelf").click()
    kind = opened.page.get_by_role("combobox", name="kind")
    assert kind.locator("option[value='cross halving']").get_attribute("disabled") is not None
    opened.page.locator("summary", has_text="serve").first.click()
    assert opened.page.locator("details p", has_text="cross halving").is_visible()
    kind.select_option("butt")
    opened.settled(before["revision"] + 1)
    kinds = {tuple(joint["boards"]): joint["kind"] for joint in opened.state()["drawing"]["joints"]}
    assert kinds["slanting divider", "top shelf"] == "butt"
    assert opened.page.get_by_role("combobox", name="kind").input_value() == "butt"


def test_boards_are_walked_moved_and_taken_back_by_keyboard_alone(open_job: Opening):
    opened = open_job()
    before = opened.state()
    opened.page.locator("#drawing").focus()
    names = [board["name"] for board in before["drawing"]["boards"]]
    for _ in range(names.index("raking 1") + 1):
        opened.page.keyboard.press("n")
    opened.page.get_by_role("heading", name="raking 1", exact=True).wait_for()
    for _ in range(3):
        opened.page.keyboard.press("ArrowRight")
    opened.settled(before["revision"] + 1)
    assert opened.board("raking 1")["line"][0][0] == 563.0, "three presses in a row are one move of 3"
    opened.page.keyboard.press("Control+z")
    opened.settled(before["revision"] + 2)
    assert opened.job.read_text(encoding="utf-8") == before["text"]
    opened.page.keyboard.press("Control+Shift+z")
    opened.settled(before["revision"] + 3)
    assert opened.board("raking 1")["line"][0][0] == 563.0


def test_a_board_is_drawn_by_two_points_copied_and_taken_out(open_job: Opening):
    opened = open_job()
    before = opened.state()
    opened.page.keyboard.press("b")
    box = opened.page.locator("#drawing").bounding_box()
    x, y = box["x"] + box["width"] * 0.42, box["y"] + box["height"] * 0.45
    opened.page.wait_for_timeout(150)
    opened.page.mouse.move(x, y)
    opened.page.mouse.down()
    opened.page.mouse.move(x + 20, y + 60, steps=4)
    opened.page.mouse.up()
    opened.settled(before["revision"] + 1)
    drawn = {board["name"] for board in opened.state()["drawing"]["boards"]}
    (new,) = drawn - {board["name"] for board in before["drawing"]["boards"]}
    opened.page.get_by_role("heading", name=new, exact=True).wait_for()
    opened.page.get_by_role("button", name="copy").click()
    opened.settled(before["revision"] + 2)
    assert len(opened.state()["drawing"]["boards"]) == len(before["drawing"]["boards"]) + 2
    opened.page.keyboard.press("Control+z")
    opened.settled(before["revision"] + 3)
    opened.page.keyboard.press("Control+z")
    opened.settled(before["revision"] + 4)
    assert opened.job.read_text(encoding="utf-8") == before["text"]


def test_the_text_marks_a_mistake_on_its_line_and_puts_it_right_at_a_press(open_job: Opening):
    opened = open_job()
    before = opened.state()
    opened.page.get_by_role("button", name="Text").click()
    editor = opened.page.locator(".editor .cm-content")
    editor.click()
    opened.page.keyboard.press("Control+Home")
    line = before["text"].split("\n").index("width  = 2600")
    for _ in range(line):
        opened.page.keyboard.press("ArrowDown")
    opened.page.keyboard.press("End")
    opened.page.keyboard.type('\nlower = "hieght / 2"')
    opened.page.locator(".editor .mistaken").wait_for()
    assert "hieght" in opened.page.locator(".editor .mistaken").inner_text()
    assert "height" in opened.page.locator(".editor .sentence").inner_text()
    assert opened.page.locator("g.board").count() == 17, "the last good drawing stays"
    assert opened.page.locator("#drawing.stale").count() == 1, "but faint"
    opened.page.locator(".editor .put", has_text="put height").click()
    opened.page.wait_for_selector("#drawing:not(.stale)")
    assert opened.state()["mistakes"] == []
    assert 'lower = "height / 2"' in opened.job.read_text(encoding="utf-8")


def test_the_order_runs_on_its_slider_and_each_part_goes_in(open_job: Opening):
    opened = open_job()
    opened.page.get_by_role("button", name="Together").click()
    slider = opened.page.get_by_role("slider", name="Order of assembly")
    slider.wait_for(timeout=15_000)
    steps = int(slider.get_attribute("aria-valuemax"))
    book = build(read_job_text(opened.job.read_text(encoding="utf-8")))
    desk = Desk(book)
    there = wall_pages(desk) if is_put_together_there(desk) else []
    assert steps == len(pages(desk)) + len(there), "as the booklet counts, its last sheet too; then those on the wall"
    words = set()
    slider.focus()
    for step in range(1, steps + 1):
        assert int(slider.get_attribute("aria-valuenow")) == step
        words.add(slider.get_attribute("aria-valuetext"))
        opened.page.keyboard.press("ArrowRight")
    assert len(words) == steps
    assert opened.page.locator("li.now").inner_text().startswith(str(steps))


def test_the_drawing_is_lifted_a_cut_is_named_and_it_lies_down_again(open_job: Opening):
    opened = open_job()
    flat = opened.page.locator(".upper").screenshot()
    opened.page.get_by_role("button", name="Lift", exact=True).click()
    opened.page.wait_for_timeout(1500)
    lifted = opened.page.locator(".upper").screenshot()
    assert lifted != flat
    box = opened.page.locator("#lifted").bounding_box()

    def named(columns: int, rows: int) -> Iterator[str]:
        for across in range(1, columns):
            for down in range(1, rows):
                x = box["x"] + box["width"] * across / columns
                opened.page.mouse.move(x, box["y"] + box["height"] * down / rows)
                yield opened.page.locator(".pointed").inner_text()

    boards = {board["name"] for board in opened.state()["drawing"]["boards"]}
    found: set[str] = set()
    assert any(len(found := found | ({name} & boards)) > 5 for name in named(20, 16)), found
    opened.page.keyboard.press("n")
    opened.page.get_by_role("heading", name="shelf 1", exact=True).wait_for()
    opened.page.get_by_role("button", name="alone", exact=True).click()
    opened.page.get_by_role("button", name="deep", exact=True).click()  # cut open, so that one looks into its slots
    assert any(name.startswith("slot in shelf 1 for ") for name in named(60, 36))
    opened.page.get_by_role("button", name="Lift", exact=True).click()
    opened.page.wait_for_timeout(700)
    opened.page.mouse.move(5, 5)
    assert opened.page.locator("#drawing").is_visible()


def test_the_papers_are_made_previewed_saved_and_open_as_books(open_job: Opening):
    opened = open_job()
    page = opened.page
    page.get_by_role("button", name="Papers").click()
    page.get_by_role("button", name="make all papers").click()
    page.get_by_role("button", name="make them anew").wait_for(timeout=90_000)
    sheets = {}
    for paper in ("workshop", "assembly", "order"):
        with page.expect_download() as download:
            page.get_by_role("link", name=f"{paper}.pdf").click()
        sheets[paper] = len(pypdfium2.PdfDocument(BytesIO(download.value.path().read_bytes())))
        assert page.locator(f"[data-paper={paper}] li").count() == sheets[paper]
    assert sheets["workshop"] > 20, "17 boards, each with its sheet, and the lists"
    assert sheets["assembly"] > 8, "the booklet, and a card for what is glued up"
    first = page.locator("[data-paper=assembly] li").first
    first.scroll_into_view_if_needed()
    first.locator("svg text").first.wait_for()
    family = first.locator("svg text").first.get_attribute("font-family")
    page.wait_for_function(
        "(family) => [...document.fonts].some(f => f.status === 'loaded' && f.family.includes(family))", arg=family
    )
    first.locator("button").click()
    page.get_by_role("img", name=f"sheet {sheets['workshop'] + 1}").wait_for()
    assert f"sheet {sheets['workshop'] + 1} of {sum(sheets.values())}" in page.locator(".one p").inner_text()
    page.get_by_role("button", name="save all beside the job").click()
    page.locator(".saved").wait_for()
    saved = {path.name for path in opened.job.parent.rglob("*.pdf")}
    assert saved == {"workshop.pdf", "assembly.pdf", "order.pdf"}


def test_a_second_window_and_an_outside_edit_are_taken_in(open_job: Opening):
    opened = open_job()
    other = opened.page.context.new_page()
    other.goto(opened.page.url)
    other.wait_for_selector("g.board")
    text = opened.job.read_text(encoding="utf-8")
    opened.job.write_text(text.replace("line   = [[560, 0], [", "line   = [[600, 0], ["), encoding="utf-8")
    for page in (opened.page, other):
        page.wait_for_function("() => Number(document.documentElement.dataset.revision) > 1", timeout=10_000)
    assert opened.board("raking 1")["line"][0][0] == 600.0


def test_a_cure_is_taken_at_a_press_and_its_note_is_gone(open_job: Opening):
    opened = open_job(NODE)  # three boards through one point
    before = opened.state()
    stop = next(note for note in before["notes"] if note["code"] == "three-boards-pass")
    row = opened.page.locator(f"[data-note='{stop['id']}']")
    row.locator(".what").click()
    opened.page.wait_for_selector(".leader path.stop")
    row.get_by_role("button", name=stop["cures"][0]["label"]).click()
    opened.settled(before["revision"] + 1)
    assert stop["id"] not in {note["id"] for note in opened.state()["notes"]}
    opened.page.get_by_role("button", name="undo").click()
    opened.settled(before["revision"] + 2)
    assert opened.job.read_text(encoding="utf-8") == NODE


def test_any_earlier_version_can_be_gone_back_to(open_job: Opening):
    opened = open_job()
    before = opened.state()
    opened.choose("raking 1")
    opened.page.locator("#drawing").focus()
    for step in (1, 2):
        opened.page.keyboard.press("Shift+ArrowRight")
        opened.settled(before["revision"] + step)
    opened.page.get_by_role("button", name="versions").click()
    opened.page.get_by_role("button", name="back to this").last.click()
    opened.settled(before["revision"] + 3)
    assert opened.job.read_text(encoding="utf-8") == before["text"]


def test_boards_are_mirrored_and_shown_in_inches_without_touching_the_file(open_job: Opening):
    opened = open_job()
    before = opened.state()
    opened.page.keyboard.press("u")
    assert opened.page.locator("text.figure", has_text="53 15/16").count() == 1, "1370 mm are 53.937 in"
    assert opened.state()["revision"] == before["revision"]
    opened.choose("left upright")
    opened.page.get_by_role("button", name="mirror", exact=True).click()
    opened.settled(before["revision"] + 1)
    was, now = ({board["name"] for board in state["drawing"]["boards"]} for state in (before, opened.state()))
    (new,) = now - was
    assert opened.board(new)["line"][0][0] == 2600 - 180
