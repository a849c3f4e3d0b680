"""What a hand snaps to is written as the place that it is, and follows it; through the page's server.

Uprights of 18 stand at 200 and at 1000, a shelf at 500 goes from one centre to the other: clear between them are 209
and 991. A leaning board goes from (1200, 0) to (1300, 900), one aside in nine.
"""

import math
import re

import pytest

from dryfit.book import read_job_text
from tests.web.served import SHELF

RAKER = '\n[[board]]\nname = "raker"\nline = [[1200, 0], [1300, 900]]\ndepth = 250\n'
PLANK = '\n[[board]]\nname = "plank"\nline = [[300, 700], [800, 700]]\ndepth = 200\n'
END = {"what": "end", "board": "shelf", "end": "end"}
BOARD = {"what": "boards", "boards": ["plank"]}
POST = {"what": "boards", "boards": ["right upright"]}


def grip(window, target):
    return window.post("drag", base_revision=window.revision(), target=target).raise_for_status().json()


def onto(window, target, *places, by=(0.0, 0.0), handle=0, choice=""):
    """A drag as the page sends it, its handle snapped to candidates with these places."""
    gripped = grip(window, target)
    gone, meant = list(by), []
    for place in places:
        one = next(one for one in gripped["candidates"] if one["place"] == place and one["handle"] == handle)
        axis = "xy".index(one["axis"])
        at = gripped["handles"][handle]["at"]
        if one["snap"] == "line":
            (x0, y0), (x1, y1) = one["guide"]
            other = at[1 - axis] + gone[1 - axis]
            share = (other - (y0, x0)[axis]) / ((y1, x1)[axis] - (y0, x0)[axis])
            gone[axis] = round((x0, y0)[axis] + ((x1, y1)[axis] - (x0, y0)[axis]) * share - at[axis], 3)
        else:
            gone[axis] = round(one["at"] - at[axis], 3)
        meant.append({"handle": handle, "axis": one["axis"], "place": place})
    return {"do": "drag", "target": target, "by": gone, "exact": True, "choice": choice, "meant": meant}


def lines(job):
    return {spec.name: spec.line for spec in read_job_text(job.read_text()).boards}


def thicker(window, job, thickness):
    window.write(re.sub(r"(?m)^thickness = \d+", f"thickness = {thickness}", job.read_text())).raise_for_status()


SNAPS = [
    (END, 'left("right upright")', (991, 500), (985, 500)),
    (END, 'right("right upright")', (1009, 500), (1015, 500)),
    (END, 'middle("right upright")', (1000, 500), (1000, 500)),
    (END, 'end("right upright")', (1000, 900), (1000, 900)),
    (END, 'top("plank")', (1000, 709), (1000, 715)),
    (END, 'under("plank")', (1000, 691), (1000, 685)),
    (END, 'end("plank")', (800, 500), (800, 500)),
]


@pytest.mark.parametrize(("target", "place", "comes", "then"), SNAPS, ids=[case[1] for case in SNAPS])
def test_an_end_that_snaps_says_the_place_and_follows_a_thickness(window, job, target, place, comes, then):
    window.write(SHELF + PLANK).raise_for_status()
    before = job.read_text()
    window.do(**onto(window, target, place)).raise_for_status()
    assert f"'{place}'" in job.read_text() or place == 'middle("right upright")'
    assert lines(job)["shelf"][1] == pytest.approx(comes, abs=1e-6)
    rest = {name: line for name, line in lines(job).items() if name != "shelf"}
    thicker(window, job, 30)
    assert lines(job)["shelf"][1] == pytest.approx(then, abs=1e-6)
    assert {name: line for name, line in lines(job).items() if name != "shelf"} == rest
    window.step("undo").raise_for_status()
    window.step("undo").raise_for_status()
    assert job.read_text() == before


def test_onto_a_leaning_face_an_end_goes_along_the_wall_at_its_own_height(window, job):
    window.write(SHELF + RAKER).raise_for_status()
    done = window.do(**onto(window, END, 'left("raker")', by=(0.0, 40.0))).raise_for_status().json()
    assert done["says"].startswith("shelf, end: ")
    assert ', to left("raker")' in done["says"]
    x, y = lines(job)["shelf"][1]
    assert (x, y) == pytest.approx((1200 + 540 / 9 - 9 * math.hypot(1, 9) / 9, 540), abs=1e-6)
    assert """['left("raker")', "low + 40"]""" in job.read_text()


def test_a_face_of_a_board_put_on_another_keeps_to_it_by_its_own_thickness(window, job):
    """The plank laid on the shelf: its line is half its own thickness above the shelf's top."""
    window.write(SHELF + PLANK).raise_for_status()
    under = next(at for at, one in enumerate(grip(window, BOARD)["handles"]) if one["at"][1] == 691)
    window.do(**onto(window, BOARD, 'top("shelf")', handle=under)).raise_for_status()
    assert job.read_text().count("""'top("shelf") + thickness("plank") / 2'""") == 2
    assert lines(job)["plank"] == ((300, 518), (800, 518))
    thicker(window, job, 30)
    assert lines(job)["plank"] == ((300, 530), (800, 530))


def test_a_leaning_board_moved_onto_a_face_keeps_its_lean(window, job):
    window.write(SHELF + RAKER).raise_for_status()
    raker = {"what": "boards", "boards": ["raker"]}
    window.do(**onto(window, raker, 'right("right upright")')).raise_for_status()
    assert lines(job)["raker"] == ((1009, 0), (1109, 900))
    thicker(window, job, 30)
    assert lines(job)["raker"] == ((1015, 0), (1115, 900))


def test_a_level_board_moved_by_one_end_leaves_the_other_where_the_hand_left_it(window, job):
    window.write(SHELF + PLANK).raise_for_status()
    window.do(**onto(window, BOARD, 'right("left upright")')).raise_for_status()
    assert """line = [['right("left upright")', 700], [709, 700]]""" in job.read_text()


@pytest.mark.parametrize(
    ("share", "x", "says"),
    [("1/2", 600, "half-way between"), ("1/3", 466.667, "a third of the way between"), ("2", 1800, "spaced as")],
)
def test_half_way_thirds_and_spacing_are_written_between(window, job, share, x, says):
    post = '\n[[board]]\nname = "post"\nline = [[700, 0], [700, 900]]\ndepth = 200\n'
    window.write(SHELF + post).raise_for_status()
    place = f'between(middle("left upright"), middle("right upright"), {share})'
    target = {"what": "boards", "boards": ["post"]}
    told = {one["says"] for one in grip(window, target)["candidates"] if one["place"] == place}
    assert told == {f"{says} left upright and right upright"}
    window.do(**onto(window, target, place)).raise_for_status()
    assert job.read_text().count(f"'{place}'") == 2
    assert [round(point[0], 3) for point in lines(job)["post"]] == [x, x]
    window.do(do="typed", card={}, key=["measures", "wide"], entry="1300").raise_for_status()
    assert lines(job)["post"][0][0] > x, "it keeps its share of what is wider now"


def test_a_measure_is_a_place_only_where_the_file_has_it_as_one(window):
    """`low` stands alone as a height, `far` as where the room ends: neither is one up or along, `deep` on neither."""
    text = SHELF.replace("low = 500", "low = 500\ndeep = 640\nfar = 1500")
    window.write(f'{text}\n[wall]\nright = "far"\n').raise_for_status()
    found = {(one["axis"], one["place"]) for one in grip(window, END)["candidates"]}
    assert {("y", "low"), ("x", "far")} <= found
    assert not {("x", "low"), ("y", "far"), ("x", "deep"), ("y", "deep")} & found


def test_a_place_that_hangs_on_what_is_moved_is_snapped_to_as_a_figure(window, job):
    """The upright leans and stands on the sloping shelf: were the shelf's end to hang on it, it would be a circle."""
    text = SHELF.replace('["wide", 0], ["wide", 900]', """["wide", 'top("shelf")'], [1100, 900]""")
    window.write(text.replace('["wide", "low"]]', "[900, 540]]")).raise_for_status()
    faces = [one for one in grip(window, END)["candidates"] if one["says"] == "at the left face of right upright"]
    assert faces
    assert all((one["place"], one["axis"]) == ("", "") for one in faces)


def test_what_a_row_shares_is_moved_as_figures_and_one_of_it_may_say_a_place(window, job):
    line = '[["300 + i * 200", 500], ["300 + i * 200", 900]]'
    window.write(f'{SHELF}\n[[board]]\nname = "post {{i}}"\ncount = 2\nline = {line}\ndepth = 200\n').raise_for_status()
    target = {"what": "boards", "boards": ["post 2"]}
    relates = {offer["id"]: offer["relates"] for offer in grip(window, target)["offers"]}
    assert relates == {"here": False, "only this one": True}
    sent = onto(window, target, 'left("right upright")')
    window.do(**sent).raise_for_status()
    assert "left(" not in job.read_text()
    window.step("undo").raise_for_status()
    window.do(**{**sent, "choice": "only this one"}).raise_for_status()
    assert """line = [['left("right upright")', 500], ['left("right upright")', 900]]""" in job.read_text()


def test_a_place_that_is_not_where_the_hand_is_is_refused(window, job):
    sent = onto(window, END, 'left("right upright")')
    answer = window.do(**{**sent, "by": [sent["by"][0] - 3, 0]})
    assert answer.status_code == 422
    assert 'left("right upright") is not where the hand came to' in answer.json()["error"]["says"]
    assert job.read_text() == SHELF


def test_a_board_drawn_between_faces_keeps_to_them(window, job):
    meant = [
        {"handle": 0, "axis": "x", "place": 'right("left upright")'},
        {"handle": 1, "axis": "x", "place": 'left("right upright")'},
    ]
    window.do(do="draw", what="board", points=[[209, 300], [991, 300]], meant=meant).raise_for_status()
    assert """line = [['right("left upright")', 300], ['left("right upright")', 300]]""" in job.read_text()


def test_a_figure_may_be_typed_as_a_place(window, job):
    window.write(SHELF + PLANK).raise_for_status()
    window.do(do="figure", target=BOARD, axis="y", now=700, entry='top("shelf") + 200').raise_for_status()
    assert job.read_text().count("""'top("shelf") + 200'""") == 2


# --- moved together, taken out, copied

FITTED = SHELF.replace(
    '[[200, "low"], ["wide", "low"]]', """[['right("left upright")', "low"], ['left("right upright") - 2', "low"]]"""
)


def test_boards_moved_together_are_not_moved_twice(window, job):
    window.write(FITTED).raise_for_status()
    every = {"what": "boards", "boards": ["left upright", "right upright", "shelf"]}
    window.do(do="drag", target=every, by=[40, 10], exact=True).raise_for_status()
    assert lines(job)["shelf"] == ((249, 510), (1029, 510))
    assert """[['right("left upright")', "low + 10"], ['left("right upright") - 2', "low + 10"]]""" in job.read_text()


def test_a_board_that_others_hang_on_takes_them_along(window, job):
    window.write(FITTED).raise_for_status()
    window.do(do="drag", target=POST, by=[40, 0], exact=True).raise_for_status()
    assert lines(job)["shelf"] == ((209, 500), (1029, 500))


def test_taking_a_board_out_leaves_its_figures_and_says_so(window, job):
    window.write(FITTED).raise_for_status()
    before = lines(job)["shelf"]
    done = window.do(do="delete", boards=["right upright"]).raise_for_status().json()
    assert done["says"] == "right upright taken out; shelf stays where it stood, by figures now"
    assert lines(job)["shelf"] == before
    assert """line = [['right("left upright")', "low"], [989, "low"]]""" in job.read_text()
    window.step("undo").raise_for_status()
    assert job.read_text() == FITTED


def test_text_that_names_more_than_what_is_taken_out_keeps_the_rest(window, job):
    text = FITTED.replace('left("right upright") - 2', 'between(left("left upright"), left("right upright"), 1/2)')
    window.write(text).raise_for_status()
    window.do(do="delete", boards=["right upright"]).raise_for_status()
    assert """'between(left("left upright"), 991, 1/2)'""" in job.read_text()


def test_of_a_row_only_the_boards_that_named_it_get_figures(window, job):
    rows = (
        '\n[[board]]\nname = "post {i}"\ncount = 2\nline = [["1200 * i", 0], ["1200 * i", 900]]\ndepth = 200\n'
        '\n[[board]]\nname = "rail {i}"\ncount = 2\ndepth = 200\n'
        """line = [['right("post {i}")', 40], ['right("post {i}") + 90', 40]]\n"""
    )
    window.write(SHELF + rows).raise_for_status()
    before = lines(job)
    done = window.do(do="delete", boards=["post 2"]).raise_for_status().json()
    assert "rail 2 stays where it stood" in done["says"]
    assert lines(job) == {name: line for name, line in before.items() if name != "post 2"}
    assert "i = 2\nline = [[2409, 40], [2499, 40]]" in job.read_text()
    assert """line = [['right("post {i}")', 40]""" in job.read_text()


def test_a_row_of_fewer_leaves_the_figures_of_those_it_has_no_more(window, job):
    row = '\n[[board]]\nname = "post {i}"\ncount = 2\nline = [["1200 * i", 0], ["1200 * i", 900]]\ndepth = 200\n'
    rail = """\n[[board]]\nname = "rail"\nline = [['right("post 1")', 40], ['left("post 2")', 40]]\ndepth = 200\n"""
    window.write(SHELF + row + rail).raise_for_status()
    done = window.do(do="typed", card={"board": "post 1"}, key=["count"], entry="1").raise_for_status().json()
    assert done["says"] == "post 1: count = 1; rail stays where it stood, by figures now"
    assert """line = [['right("post 1")', 40], [2391, 40]]""" in job.read_text()


def test_the_card_says_what_a_place_hangs_on_and_who_hangs_on_a_board(window):
    window.write(FITTED).raise_for_status()
    shelf = window.client.get("/api/card", params={"board": "shelf"}).json()
    (row,) = [row for row in shelf["rows"] if row["key"] == ["line", 0, 0]]
    assert row["value"] == 209
    assert row["sentence"].endswith('As the file has it: right("left upright").')
    post = window.client.get("/api/card", params={"board": "left upright"}).json()
    assert ["board", 2, "line", 0, 0] in post["users"]


def test_boards_mirrored_where_they_stand_change_left_and_right(window, job):
    window.write(FITTED.replace("""'left("right upright") - 2'""", """'left("right upright")'""")).raise_for_status()
    boards = ["left upright", "right upright", "shelf"]
    window.do(do="mirror", boards=boards, x=1500).raise_for_status()
    assert """['left("left upright")', 500], ['right("right upright")', 500]""" in job.read_text()
    assert lines(job)["shelf"] == ((2791, 500), (2009, 500))


def test_copies_name_copies_where_all_that_is_named_is_copied(window, job):
    window.write(FITTED).raise_for_status()
    boards = ["left upright", "right upright", "shelf"]
    window.do(do="copy", boards=boards, by=[2000, 0]).raise_for_status()
    assert """['right("left upright copy")', 500], ['left("right upright copy") - 2', 500]""" in job.read_text()
    assert lines(job)["shelf copy"] == ((2209, 500), (2989, 500))
    thicker(window, job, 30)
    assert lines(job)["shelf copy"] == ((2215, 500), (2983, 500))


def test_a_copy_of_a_board_alone_stands_by_figures(window, job):
    window.write(FITTED).raise_for_status()
    window.do(do="copy", boards=["shelf", "left upright"], by=[2000, 0]).raise_for_status()
    assert """line = [['right("left upright copy")', 500], [2989, 500]]""" in job.read_text()


def test_a_mirrored_copy_changes_left_and_right(window, job):
    text = FITTED.replace("""'left("right upright") - 2'""", """'left("right upright")'""")
    window.write(text).raise_for_status()
    boards = ["left upright", "right upright", "shelf"]
    window.do(do="mirror", boards=boards, x=1500, keep=True).raise_for_status()
    assert """['left("left upright copy")', 500], ['right("right upright copy")', 500]""" in job.read_text()
    assert lines(job)["shelf copy"] == ((2791, 500), (2009, 500))


def test_a_board_is_called_anew_in_every_text_that_names_it(window, job):
    window.write(FITTED).raise_for_status()
    window.do(do="typed", card={"board": "left upright"}, key=["name"], entry="post").raise_for_status()
    assert """'right("post")'""" in job.read_text()
    assert "left upright" not in job.read_text()
