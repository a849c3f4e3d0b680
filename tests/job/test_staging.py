"""When boards are coated and their place on the wall, as the file says it in the new words and in the old ones.

Two boards cross, `a` level and `b` plumb; a third, `c`, stands apart.
"""

import pytest

from dryfit.book import read_job_text
from dryfit.errors import JobError

HEAD = """\
dryfit = 1
[timber.oak]
species = "oak, European"
thickness = 24
"""


def board(name, line, more=""):
    return f'[[board]]\nname = "{name}"\nline = {line}\ndepth = 200\n{more}'


def three(finish="", a="", b="", more=""):
    boards = board("a", "[[0, 400], [900, 400]]", a) + board("b", "[[300, 0], [300, 800]]", b)
    return f"{HEAD}{finish}{boards}" + board("c", "[[600, 0], [600, 800]]") + more


def said(text):
    return {spec.name: (spec.when, spec.place) for spec in read_job_text(text).boards}


def mistakes(text):
    with pytest.raises(JobError) as caught:
        read_job_text(text)
    return [(mistake.line, mistake.says) for mistake in caught.value.mistakes]


def unit(more, boards='"a"'):
    return f'[[unit]]\nname = "u"\nboards = [{boards}]\n{more}'


def test_the_nearest_table_holds_the_board_s_own_before_its_unit_s():
    text = three(a='when = "none"\n', more=unit('when = "on site"\nplace = 2\n', '"a", "b"'))

    assert said(text) == {"a": ("none", None), "b": ("on site", None), "c": (None, None)}
    assert read_job_text(text).units_glued[0].place == 2


def test_a_unit_of_one_board_is_that_board_with_the_unit_s_words():
    assert said(three(more=unit('when = "after glue"\nplace = "first"\n')))["a"] == ("after glue", "first")


def test_a_frame_says_it_for_its_boards():
    points = "points = [[0, 1000], [500, 1000], [500, 1500], [0, 1500]]"
    frame = f'[[frame]]\nname = "box"\n{points}\ndepth = 200\nwhen = "before glue"\nplace = "last"\n'

    assert {said(three(more=frame))[f"box {number}"] for number in (1, 2, 3, 4)} == {("before glue", "last")}


def test_one_board_of_a_row_may_say_otherwise():
    row = board("r {i}", '[["i * 200", 900], ["i * 200", 1200]]', 'count = 2\nwhen = "none"\n')
    text = three(more=row + '[[board.except]]\ni = 2\nwhen = "on site"\n')

    assert (said(text)["r 1"][0], said(text)["r 2"][0]) == ("none", "on site")


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ('[finish]\ncoats = 2\nbefore_assembly = ["a"]\n', "[finish]\ncoats = 2\n"),
        ('[finish]\ncoats = 2\nbefore_assembly = "all"\n', '[finish]\ncoats = 2\nwhen = "before glue"\n'),
    ],
    ids=["some boards", "all of them"],
)
def test_the_old_word_for_coats_is_read_as_the_new_one(old, new):
    word = 'when = "before glue"\n' if '["a"]' in old else ""
    one, other = read_job_text(three(old)), read_job_text(three(new, a=word))

    assert [spec.when for spec in one.boards] == [spec.when for spec in other.boards]
    assert one.finish == other.finish


def test_the_old_word_for_the_last_unit_is_read_as_the_new_one():
    (old,) = read_job_text(three(more=unit("last = true\n", '"a", "b"'))).units_glued
    (new,) = read_job_text(three(more=unit('place = "last"\n', '"a", "b"'))).units_glued

    assert old == new


@pytest.mark.parametrize("where", ["finish", "board", "unit"])
def test_both_words_for_coats_at_once_are_a_mistake_that_names_both_lines(where):
    old, new = '[finish]\ncoats = 2\nbefore_assembly = ["b"]\n', 'when = "none"\n'
    text = three(
        old + (new if where == "finish" else ""),
        a=new if where == "board" else "",
        more=unit(new, '"a", "c"') if where == "unit" else "",
    )

    ((line, says),) = mistakes(text)
    assert text.splitlines()[line - 1] == new.strip()
    assert 'before_assembly" in line 7' in says


def test_last_and_place_at_once_are_a_mistake_that_names_both_lines():
    text = three(more=unit('last = true\nplace = "first"\n'))

    ((line, says),) = mistakes(text)
    lines = text.splitlines()
    assert lines[line - 1] == 'place = "first"'
    assert f'"last" in line {lines.index("last = true") + 1}' in says


def test_a_board_of_a_unit_has_no_place_of_its_own():
    ((line, says),) = mistakes(three(a="place = 1\n", more=unit("", '"a", "b"')))

    assert three(a="place = 1\n").splitlines()[line - 1] == "place = 1"
    assert "carried in the unit" in says


@pytest.mark.parametrize("written", ["0", "-1", '"middle"', "true", "1.5"])
def test_a_place_is_first_last_or_a_number(written):
    ((_, says),) = mistakes(three(a=f"place = {written}\n"))

    assert "no place in the order" in says


def test_more_coats_before_glue_than_there_are_is_a_mistake():
    ((line, says),) = mistakes(three("[finish]\ncoats = 2\ncoats_before = 3\n"))

    assert (line, "3 coats before glue" in says) == (7, True)
