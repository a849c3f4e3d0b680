"""Two changes of one text put together: those of different tables or keys always, those of one key never.

The text is the shelf of `tests.web.served`: three boards, two measures, one timber.
"""

import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryfit.book import change_job_text
from dryfit.book.demos import demo_text, demos
from dryfit.job.edits import TomlText
from dryfit.job.merging import merged
from dryfit.places import Edit
from tests.web.served import SHELF

BOARDS = ("left upright", "right upright", "shelf")
NEW = '\n[[board]]\nname = "{}"\nline = [[300, 0], [300, 400]]\ndepth = 200\n'


def set_to(path, value):
    return Edit(action="set", path=path, value=value)


def changed(text, *edits):
    return change_job_text(text, edits)[0]


def put(here, there, base=SHELF):
    """Both ways: it makes no difference who came first."""
    one, other = merged(base, here, there), merged(base, there, here)
    assert one.text == other.text
    assert {(clash.table, clash.key) for clash in one.clashes} == {(clash.table, clash.key) for clash in other.clashes}
    return one


def test_changes_of_two_boards_are_both_there():
    here, there = set_to(("board", 0, "depth"), 260), set_to(("board", 2, "depth"), 210)
    assert put(changed(SHELF, here), changed(SHELF, there)).text == changed(SHELF, here, there)


def test_two_keys_of_one_board_are_both_there_though_they_stand_on_neighbouring_lines():
    here, there = set_to(("board", 2, "line", 0, 0), 210), set_to(("board", 2, "depth"), 210)
    assert put(changed(SHELF, here), changed(SHELF, there)).text == changed(SHELF, here, there)


def test_the_same_key_clashes_and_both_figures_are_told():
    found = put(changed(SHELF, set_to(("board", 2, "depth"), 210)), changed(SHELF, set_to(("board", 2, "depth"), 240)))
    (clash,) = found.clashes
    assert found.text is None
    assert (clash.table, clash.key) == (("board", "shelf"), "depth")
    assert {clash.base, clash.mine, clash.theirs} == {"depth = 230", "depth = 210", "depth = 240"}


def test_the_same_change_on_both_sides_is_made_once():
    text = changed(SHELF, set_to(("board", 2, "depth"), 210))
    assert put(text, text).text == text


def test_a_board_is_found_again_below_one_that_was_taken_out():
    gone = SHELF.replace('[[board]]\nname = "left upright"\nline = [[200, 0], [200, 900]]\ndepth = 250\n\n', "")
    found = put(gone, changed(SHELF, set_to(("board", 2, "depth"), 210)))
    assert found.text == gone.replace("depth = 230", "depth = 210")


def test_one_that_was_taken_out_and_changed_clashes():
    gone = SHELF[: SHELF.index('[[board]]\nname = "shelf"')]
    found = put(gone, changed(SHELF, set_to(("board", 2, "depth"), 210)))
    assert [clash.table for clash in found.clashes] == [("board", "shelf")]


def test_one_that_is_called_otherwise_keeps_what_the_other_changed():
    called = SHELF.replace('name = "shelf"', 'name = "ledge"')
    found = put(called, changed(SHELF, set_to(("board", 2, "depth"), 210)))
    assert found.text == called.replace("depth = 230", "depth = 210")


def test_two_that_are_put_in_stand_in_one_order_whoever_came_first_a_blank_line_between():
    found = put(SHELF + NEW.format("b"), SHELF + NEW.format("a"))
    assert found.text == SHELF + NEW.format("a") + NEW.format("b")


def test_two_that_are_put_in_under_one_name_clash():
    found = put(SHELF + NEW.format("new"), SHELF + NEW.format("new").replace("200", "210"))
    assert [(clash.table, clash.key, clash.base) for clash in found.clashes] == [(("board", "new"), "", None)]


def test_one_put_in_behind_a_board_whose_last_line_is_changed():
    found = put(SHELF + NEW.format("new"), changed(SHELF, set_to(("board", 2, "depth"), 210)))
    assert found.text == changed(SHELF, set_to(("board", 2, "depth"), 210)) + NEW.format("new")


def test_a_key_that_both_add_clashes_and_two_keys_do_not():
    back, ends = set_to(("board", 2, "back"), 5), set_to(("board", 2, "ends"), "level")
    both = put(changed(SHELF, back), changed(SHELF, ends)).text
    assert tomllib.loads(both)["board"][2] | {"back": 5, "ends": "level"} == tomllib.loads(both)["board"][2]
    assert put(changed(SHELF, back), changed(SHELF, set_to(("board", 2, "back"), 6))).clashes[0].key == "back"


def test_comments_stay_with_their_table_and_those_of_both_are_kept():
    base = SHELF.replace('[[board]]\nname = "shelf"', '# the shelf\n[[board]]\nname = "shelf"')
    here = base.replace("# the shelf", "# the shelf, of the old oak")
    there = base.replace("[timber.oak]", "# from the loft\n[timber.oak]")
    assert put(here, there, base).text == here.replace("[timber.oak]", "# from the loft\n[timber.oak]")


def test_a_text_that_cannot_be_taken_apart_is_put_together_by_its_lines():
    broken = SHELF.replace('title = "Shelf"', 'title = "Shelf')
    there = SHELF.replace("depth = 230", "depth = 210")
    assert put(broken, there).text == broken.replace("depth = 230", "depth = 210")
    assert put(broken, SHELF.replace('title = "Shelf"', 'title = "Rack"')).text is None
    assert put(broken.replace("depth = 230", "depth = 1"), there).text is None


@pytest.mark.parametrize("ends", ["\n", "\r\n"], ids=["lf", "crlf"])
@pytest.mark.parametrize("last", ["", "\n"], ids=["no end", "an end"])
def test_line_ends_are_kept(ends, last):
    base = (SHELF.rstrip("\n") + last).replace("\n", ends)
    here, there = base.replace("depth = 230", "depth = 210"), base.replace("[[200, 0], [200, 900]]", "[[1, 0], [1, 9]]")
    found = put(here, there, base).text
    assert found.rstrip() == here.replace("[[200, 0], [200, 900]]", "[[1, 0], [1, 9]]").rstrip()
    assert found.count("\n") - found.count("\r\n") == (found.count("\n") if ends == "\n" else 0)


@st.composite
def two_changes(draw):
    """A demo, and for each of two hands some edits, none of the same board, timber or measure."""
    base = demo_text(draw(st.sampled_from(demos())))
    data = tomllib.loads(base)
    places = [("board", n, "depth") for n in range(len(data["board"]))]
    places += [("board", n, "back") for n in range(len(data["board"]))]
    places += [("timber", name, "measured") for name in data["timber"]]
    places += [("measures", name) for name in data["measures"]]
    chosen = draw(st.lists(st.sampled_from(places), min_size=2, max_size=8, unique_by=lambda path: path[:2]))
    values = draw(st.lists(st.integers(100, 999), min_size=len(chosen), max_size=len(chosen)))
    edits = [set_to(path, value) for path, value in zip(chosen, values, strict=True)]
    cut = draw(st.integers(1, len(edits) - 1))
    return base, edits[:cut], edits[cut:]


def written(base, edits):
    """The edits made on a text that need not be a sound job after them."""
    for edit in edits:
        sheet = TomlText(base)
        known = edit.path in sheet.spans.values
        base = sheet.replace(edit.path, str(edit.value)) if known else sheet.add_key(edit.path, edit.value)
    return base


@given(two_changes())
def test_whatever_two_hands_change_at_different_places_is_as_if_one_had_done_it_after_the_other(case):
    base, here, there = case
    assert put(written(base, here), written(base, there), base).text == written(written(base, here), there)


@given(two_changes(), st.integers(100, 999))
def test_whatever_else_is_changed_a_key_that_both_changed_is_told(case, value):
    base, here, there = case
    twice = set_to(here[0].path, here[0].value + 1000 + value)
    found = put(written(base, here), written(base, [twice, *there]), base)
    assert found.text is None
    assert [clash.key for clash in found.clashes] == [str(here[0].path[-1])]
