"""Cuts on the card: ticked, shown as cut, held against the job, taken back; asked about before a board goes.

Shelf 1 of the record wall lies at 140; raking 1 crosses it 569.1 from its left end.
"""

from collections.abc import Callable

from dryfit.piece.made import read_made_text

from .conftest import Opened

Opening = Callable[..., Opened]
SLOT = "slot in shelf 1 for raking 1"


def recorded(opened: Opened) -> list[str]:
    """The boards that the made file has cuts of, one for each."""
    made = opened.job.with_name("wall.made.toml")
    return [one.board for one in read_made_text(made.read_text(encoding="utf-8"), made.name).cuts]


def test_a_cut_is_ticked_on_its_boards_card_and_taken_back_by_undo(open_job: Opening):
    opened = open_job()
    opened.choose("shelf 1")
    opened.page.get_by_text("11 cuts, none made yet").click()
    box = opened.page.get_by_role("checkbox", name=SLOT)
    before = opened.state()["revision"]
    box.check()
    opened.settled(before + 1)
    opened.page.get_by_text("11 cuts, 1 made").wait_for()
    assert recorded(opened) == ["shelf 1"]
    assert opened.page.get_by_text("as cut: at 569.1 mm, 24.25 across, 150.5 deep, from the front edge").is_visible()
    opened.page.get_by_role("button", name="undo", exact=True).click()
    opened.settled(before + 2)
    opened.page.get_by_text("11 cuts, none made yet").wait_for()
    assert recorded(opened) == []


def test_a_joint_moved_off_its_cut_stops_until_the_maker_gives_his_word(open_job: Opening):
    opened = open_job()
    opened.choose("shelf 1")
    opened.page.get_by_text("11 cuts, none made yet").click()
    before = opened.state()["revision"]
    opened.page.get_by_role("checkbox", name=SLOT).check()
    opened.settled(before + 1)
    for name in ("slot in shelf 1 for middle upright", "slot in shelf 1 for right upright"):
        opened.page.get_by_role("checkbox", name=name).check()
    opened.settled(before + 3)
    edit = (
        opened.job.read_text(encoding="utf-8").replace("[560, 0]", "[570, 0]").replace("560 + height", "570 + height")
    )
    opened.job.write_text(edit, encoding="utf-8")
    opened.settled(before + 4)
    opened.page.get_by_text("is cut at 569.1; the job has it at 579.1").first.wait_for()
    opened.page.get_by_role("button", name="it may stay so", exact=True).click()
    opened.settled(before + 5)
    opened.page.get_by_role("button", name="it may no longer stay so").wait_for()
    (note,) = [note for note in opened.state()["notes"] if note["code"] == "cut-otherwise"]
    assert note["severity"] == "note"


def test_a_board_that_is_cut_goes_only_once_the_maker_is_sure(open_job: Opening):
    opened = open_job()
    opened.choose("shelf 1")
    opened.page.get_by_text("11 cuts, none made yet").click()
    before = opened.state()["revision"]
    opened.page.get_by_role("checkbox", name=SLOT).check()
    opened.settled(before + 1)
    opened.choose("shelf 1")  # out of the box, where Delete is the box's
    opened.page.keyboard.press("Delete")
    asked = opened.page.get_by_role("alertdialog")
    asked.get_by_text("one of its cuts is made, and would be lost").wait_for()
    asked.get_by_role("button", name="leave it").click()
    asked.wait_for(state="detached")
    assert any(board["name"] == "shelf 1" for board in opened.state()["drawing"]["boards"])
    opened.page.keyboard.press("Delete")
    asked.get_by_role("button", name="do it").click()
    opened.settled(before + 2)
    assert not any(board["name"] == "shelf 1" for board in opened.state()["drawing"]["boards"])
    assert recorded(opened) == []
    opened.page.get_by_role("button", name="undo", exact=True).click()
    opened.settled(before + 3)
    assert recorded(opened) == ["shelf 1"]
    opened.console.clear()  # the browser says that something was refused, as it should
