"""A board longer than its stock, seen and pulled as the members it is made of.

The shelf is 4000 long in stock of 1500, so it is divided into three members by rule; the file knows one board, and
whatever is done to a member is done to that. Four posts cross it at 800, 1600, 2400 and 3200, and two raking boards
cross each other on it at 2000.
"""

from collections.abc import Callable

from tests.web.served import LONG

from .conftest import Opened
from .hands import Sheet

Opening = Callable[..., Opened]
PIECE = (
    LONG
    + """
[joints]
in_line = "butt"

[[joint]]
between = ["shelf", "post 2"]
clearance = 0.3

[[board]]
name = "one"
line = [[1900, 0], [2100, 1200]]
depth = 300

[[board]]
name = "two"
line = [[2100, 0], [1900, 1200]]
depth = 300
"""
)
MEMBERS = [f"shelf ({number} of 3)" for number in (1, 2, 3)]


def test_its_members_are_drawn_named_and_chosen_one_by_one(look_at: Opening):
    opened = look_at(PIECE)
    shown = opened.page.locator("g.board").evaluate_all("all => all.map(one => one.dataset.board)")
    assert sorted(name for name in shown if name.startswith("shelf")) == MEMBERS
    opened.choose(MEMBERS[1])
    chosen = opened.page.locator("g.board.chosen").evaluate_all("all => all.map(one => one.dataset.board)")
    assert chosen == [MEMBERS[1]]
    rows = opened.page.locator("aside li button .name").all_inner_texts()
    assert set(rows) == {MEMBERS[0], MEMBERS[2], "post 2", "post 3", "one", "two"}, "the joints of this member"
    assert opened.page.locator("[data-row='length'] .typed").inner_text() == "4000.0", "the figures of the whole"


def test_a_member_pulled_takes_the_whole_board_and_is_one_step_of_undo(open_job: Opening):
    opened = open_job(PIECE)
    before = opened.state()
    opened.choose(MEMBERS[2])
    sheet = Sheet(opened)
    opened.page.keyboard.down("Alt")
    sheet.hold((3600, 600), (3600, 640))
    moving = [opened.page.locator(f"g.board[data-board='{name}'] .wood").get_attribute("d") for name in MEMBERS]
    opened.page.mouse.up()
    opened.settled(before["revision"] + 1)
    opened.page.keyboard.up("Alt")
    y = opened.board(MEMBERS[0])["line"][0][1]
    assert 620 < y < 660
    assert {opened.board(name)["line"][1][1] for name in MEMBERS} == {y}
    after = [opened.page.locator(f"g.board[data-board='{name}'] .wood").get_attribute("d") for name in MEMBERS]
    assert after == moving, "all three as they were previewed"
    opened.page.get_by_role("button", name="undo").click()
    opened.settled(before["revision"] + 2)
    assert opened.job.read_text(encoding="utf-8") == PIECE


def test_what_is_typed_on_a_members_card_is_the_boards(open_job: Opening):
    opened = open_job(PIECE)
    before = opened.state()["revision"]
    opened.choose(MEMBERS[1])
    opened.page.get_by_role("button", name="depth: 300.0, type another").click()
    opened.page.keyboard.type("280")
    opened.page.keyboard.press("Enter")
    opened.settled(before + 1)
    assert {opened.board(name)["depth"] for name in MEMBERS} == {280}
    opened.page.get_by_role("heading", name=MEMBERS[1], exact=True).wait_for()
    opened.page.get_by_role("button", name="rename").click()
    opened.page.keyboard.press("Control+a")
    opened.page.keyboard.type("ledge")
    opened.page.keyboard.press("Enter")
    opened.settled(before + 2)
    names = [board["name"] for board in opened.state()["drawing"]["boards"]]
    assert [name.replace("ledge", "shelf") for name in names if name.startswith("ledge")] == MEMBERS
    assert 'between = ["ledge", "post 2"]' in opened.job.read_text(encoding="utf-8"), "it is one board to the file"
    opened.page.get_by_role("heading", name="ledge (2 of 3)", exact=True).wait_for()


def test_a_cure_that_speaks_of_it_is_taken_in_the_files_own_names(open_job: Opening):
    opened = open_job(PIECE)
    before = opened.state()
    (note,) = [note for note in before["notes"] if set(note["boards"]) == {"one", "two", MEMBERS[1]}]
    assert note["cures"], "it speaks of the member, and has a cure"
    row = opened.page.locator(f"[data-note='{note['id']}']")
    row.locator(".what").click()
    assert opened.page.locator("g.board.chosen").count() == 3, "what it is about is shown"
    row.get_by_role("button", name=note["cures"][0]["label"]).click()
    opened.settled(before["revision"] + 1)
    assert note["id"] not in {other["id"] for other in opened.state()["notes"]}
    assert "of 3" not in opened.job.read_text(encoding="utf-8"), "the file knows one board"


def test_it_is_lifted_and_each_member_is_pointed_at(look_at: Opening):
    opened = look_at(PIECE)
    opened.page.get_by_role("button", name="Lift", exact=True).click()
    opened.page.wait_for_timeout(2000)
    box = opened.page.locator("#lifted").bounding_box()
    seen = set()
    for across in range(1, 40):
        for down in range(6, 16):
            x, y = box["x"] + box["width"] * across / 40, box["y"] + box["height"] * down / 20
            opened.page.mouse.move(x, y)
            seen.add(opened.page.locator(".pointed").inner_text())
    assert seen.issuperset(MEMBERS)
