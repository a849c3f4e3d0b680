"""A hand on the drawing: two fingers, a box around boards, frames drawn and pulled, figures typed where they stand.

The box of the record wall has its corners at (1720, 640) and (2180, 880), outside; raking 1 stands at 560 and leans
by a measure, 8 degrees; it crosses shelf 2, whose centre is at 550, at 550 / cos 8 = 555.4 from its foot.
"""

import math
from collections.abc import Callable

import pytest

from .conftest import Opened
from .hands import Sheet

Opening = Callable[..., Opened]
TABLET = {"width": 1024, "height": 768}


def test_two_fingers_make_it_larger_around_where_they_are(open_job: Opening):
    opened = open_job(size=TABLET, has_touch=True)
    page, before = opened.page, Sheet(opened)
    touch = page.context.new_cdp_session(page)
    x, y = before.at((1300, 800))

    def fingers(kind: str, apart: float, across: float = 0.0) -> None:
        points = [{"x": x + across + side * apart, "y": y, "id": number} for number, side in enumerate((-1, 1))]
        touch.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": [] if kind == "touchEnd" else points})

    fingers("touchStart", 60)
    for step in range(1, 13):
        fingers("touchMove", 60 + 5 * step, 2 * step)
    fingers("touchEnd", 0)
    page.wait_for_timeout(200)
    after = Sheet(opened)
    assert after.scale / before.scale == pytest.approx(2.0, rel=0.02), "from 120 px apart to 240"
    assert after.at((1300, 800)) == pytest.approx((x + 24, y), abs=3), "what was between the fingers still is"
    assert opened.state()["revision"] == 1, "looking changes nothing"


def test_a_box_chooses_the_boards_that_lie_in_it_whole(open_job: Opening):
    opened = open_job()
    sheet = Sheet(opened)
    opened.page.keyboard.down("Shift")
    sheet.drag((2300, 605), (1690, 930))
    opened.page.keyboard.up("Shift")
    opened.page.get_by_role("heading", name="4 boards", exact=True).wait_for()
    chosen = opened.page.locator("g.board.chosen").evaluate_all("all => all.map(one => one.dataset.board)")
    assert sorted(chosen) == ["box 1", "box 2", "box 3", "box 4"], "raking 2 goes on past it"


def test_a_frame_is_drawn_by_its_corners_and_closed_at_the_first(open_job: Opening):
    opened = open_job()
    before = opened.state()
    opened.page.keyboard.press("f")
    opened.page.get_by_text("a frame from").wait_for()
    opened.page.wait_for_timeout(200)
    sheet = Sheet(opened)
    for corner in ((250, 600), (500, 600), (500, 900), (250, 900), (250, 600)):
        sheet.press(corner)
    opened.settled(before["revision"] + 1)
    (frame,) = [frame for frame in opened.state()["frames"] if frame["name"] == "frame"]
    assert frame["closed"]
    assert len(frame["boards"]) == 4
    xs, ys = ({round(point[axis]) for point in frame["points"]} for axis in (0, 1))
    assert len(xs) == len(ys) == 2, "corners snapped level and plumb with each other or were pressed so"
    opened.page.keyboard.press("Control+z")
    opened.settled(before["revision"] + 2)
    assert opened.job.read_text(encoding="utf-8") == before["text"]


def test_a_frame_left_open_ends_at_enter(open_job: Opening):
    opened = open_job()
    before = opened.state()
    opened.page.keyboard.press("f")
    opened.page.wait_for_timeout(300)
    sheet = Sheet(opened)
    for corner in ((250, 700), (480, 700), (480, 900)):
        sheet.press(corner)
    opened.page.keyboard.press("Enter")
    opened.settled(before["revision"] + 1)
    (frame,) = [frame for frame in opened.state()["frames"] if frame["name"] == "frame"]
    assert (frame["closed"], len(frame["boards"])) == (False, 2)


def test_a_frames_corner_is_pulled_and_its_side_moves_square_to_itself(open_job: Opening):
    opened = open_job()
    before = opened.state()
    opened.choose("box 2")
    sheet = Sheet(opened)
    opened.page.keyboard.down("Alt")
    sheet.drag((2180, 880), (2240, 920))
    opened.page.keyboard.up("Alt")
    opened.settled(before["revision"] + 1)
    (frame,) = opened.state()["frames"]
    assert frame["points"][:2] == [[1720, 640], [2180, 640]]
    assert frame["points"][3] == [1720, 880]
    assert frame["points"][2] == pytest.approx([2240, 920], abs=4)
    opened.page.keyboard.press("Control+z")
    opened.settled(before["revision"] + 2)
    opened.choose("box 2")
    opened.page.keyboard.down("Alt")
    sheet.drag((2170, 760), (2230, 800))  # up as well, but a side moves along its normal alone
    opened.page.keyboard.up("Alt")
    opened.settled(before["revision"] + 3)
    (frame,) = opened.state()["frames"]
    moved = frame["points"][1][0] - 2180
    assert moved == pytest.approx(60, abs=4)
    assert frame["points"] == [[1720, 640], [2180 + moved, 640], [2180 + moved, 880], [1720, 880]]


def test_a_side_is_taken_out_and_what_cannot_be_is_said(open_job: Opening):
    opened = open_job()
    before = opened.state()
    opened.choose("box 4")
    opened.page.keyboard.press("Shift+M")
    opened.page.get_by_role("alert").get_by_text("choose the whole frame box").wait_for()
    opened.console.clear()  # the browser says that something was refused, as it should
    opened.page.keyboard.press("Delete")
    opened.settled(before["revision"] + 1)
    (frame,) = opened.state()["frames"]
    assert (frame["boards"], frame["closed"]) == (["box 1", "box 2", "box 3"], False)


# ---- figures that are worked out


def test_a_rake_is_typed_on_the_card_and_the_way_it_is_written_chosen(open_job: Opening):
    opened = open_job()
    before = opened.state()["revision"]
    opened.choose("raking 1")
    opened.page.get_by_role("button", name="rake: 8.00° right of plumb").click()
    opened.page.locator(".way", has_text="change lean: 2 boards follow").wait_for()
    opened.page.keyboard.type("9.5")
    opened.page.keyboard.press("F2")
    opened.page.keyboard.press("Enter")
    opened.settled(before + 1)
    assert "lean   = 9.5 " in opened.job.read_text(encoding="utf-8")
    for name, way in (("raking 1", 1), ("raking 2", -1)):
        (x, y), (far, high) = opened.board(name)["line"]
        assert math.degrees(math.atan2(far - x, high - y)) == pytest.approx(9.5 * way)


def test_a_rake_is_typed_on_the_drawing_and_may_be_written_otherwise_after(open_job: Opening):
    opened = open_job()
    before = opened.state()["revision"]
    opened.choose("raking 1")
    opened.page.get_by_role("button", name="rake: 8.00").first.wait_for()
    opened.page.locator(".chosen text.typed", has_text="8.00").click()
    opened.page.keyboard.type("10")
    opened.page.keyboard.press("Enter")
    opened.settled(before + 1)
    assert "tan(lean) + 57.97" in opened.job.read_text(encoding="utf-8"), "1620 (tan 10 - tan 8) = 57.97"
    opened.page.locator(".lately").get_by_role("button", name="change lean: 2 boards follow").click()
    opened.settled(before + 3)
    assert "lean   = 10 " in opened.job.read_text(encoding="utf-8")


def test_a_place_along_a_board_is_typed_and_the_other_board_moves(open_job: Opening):
    opened = open_job()
    before = opened.state()["revision"]
    opened.choose("raking 1")
    opened.page.locator(".chosen text.typed", has_text="1383.5").click()  # to the top shelf, at 1370
    opened.page.keyboard.type("1400")
    opened.page.keyboard.press("Enter")
    opened.settled(before + 1)
    assert opened.board("top shelf")["line"][0][1] == pytest.approx(1400 * math.cos(math.radians(8)), abs=0.06)
    assert opened.board("raking 1")["line"][0] == [560, 0], "the board whose figure it is stays"


def test_the_lights_say_how_many_notes_are_theirs(open_job: Opening):
    opened = open_job()
    notes = opened.state()["notes"]
    assert {note["severity"] for note in notes} == {"warn", "note"}
    word = opened.page.get_by_role("button", name="Set out")
    assert word.locator("svg").count() == 1
    assert str(len(notes)) in word.inner_text()


# ---- what is snapped to is kept

POSTS = """\
dryfit = 1

[wall]
right = 1400
ceiling = 1200

[timber.oak]
species = "oak, white"
thickness = 24

[[board]]
name = "post"
line = [[1000, 0], [1000, 900]]
depth = 250

[[board]]
name = "shelf"
line = [[200, 500], [800, 500]]
depth = 250
"""


def test_an_end_snapped_to_a_face_follows_it_when_the_thickness_changes(open_job: Opening):
    """The post stands at 1000 and is 24 thick, then 40: its left face is at 988, then at 980."""
    opened = open_job(POSTS)
    before = opened.state()["revision"]
    opened.choose("shelf")
    sheet = Sheet(opened)
    sheet.hold((800, 500), (984, 500))
    reasons = opened.page.locator("g.moving text.why").all_text_contents()
    assert reasons == ["at the left face of post"]
    opened.page.mouse.up()
    opened.settled(before + 1)
    assert """line = [[200, 500], ['left("post")', 500]]""" in opened.job.read_text(encoding="utf-8")
    assert opened.board("shelf")["line"] == [[200, 500], [988, 500]]
    thicker = opened.job.read_text(encoding="utf-8").replace("thickness = 24", "thickness = 40")
    opened.job.write_text(thicker, encoding="utf-8")
    opened.settled(before + 2)
    assert opened.board("shelf")["line"] == [[200, 500], [980, 500]]
    assert opened.board("post")["line"] == [[1000, 0], [1000, 900]]
    end = opened.page.locator('[data-handle*=\'"end":"end"\']').first.bounding_box()
    assert end is not None
    assert end["x"] + end["width"] / 2 == pytest.approx(sheet.at((980, 500))[0], abs=2), "and is drawn there"


def test_a_row_snaps_by_figures_and_says_so(open_job: Opening):
    """Both posts of the row go 100 to the left: the first, at 600, comes plumb with the end of the shelf at 500."""
    row = POSTS.replace('name = "post"\nline = [[1000, 0], [1000, 900]]', 'name = "post {i}"\ncount = 2\n'
        'line = [["i * 600", 0], ["i * 600", 900]]').replace("[800, 500]]", "[500, 500]]")  # fmt: skip
    opened = open_job(row)
    before = opened.state()["revision"]
    opened.choose("post 1")
    sheet = Sheet(opened)
    sheet.hold((600, 300), (503, 300))
    assert opened.page.locator("g.moving text.why").all_text_contents() == ["plumb with the end of shelf, as a figure"]
    opened.page.mouse.up()
    opened.settled(before + 1)
    assert opened.job.read_text(encoding="utf-8").count('"i * 600 - 100"') == 2
