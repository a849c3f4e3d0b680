"""Figures that are worked out are typed, and what they hang on is moved in the file.

A post of 900 turned to 9 degrees off plumb has its head 900 tan 9 = 142.55 to the right, which is 47.5 in 300, as
one sets a bevel by a square. The shelf at 500 lies between uprights of 18 at 200 and 1000: 782 clear. The record
wall's raking boards lean by a measure, `lean = 8`, over a height of 1620.
"""

import math

import pytest

from dryfit.book.demos import demo_text
from dryfit.editing.derived import figures_of
from tests.web.served import Window

POSTS = """\
dryfit = 1

[timber.oak]
species = "oak, white"
thickness = 20

[[board]]
name = "post"
line = [[400, 0], [400, 900]]
depth = 250

[[board]]
name = "leaning {i}"
count = 2
line = [["i * 900", 0], ["i * 900 + 600 * tan(9)", 600]]
depth = 250

[[board]]
name = "rail {i}"
count = 3
line = [[0, "i * 250"], [2600, "i * 250"]]
depth = 200

[[frame]]
name = "box"
points = [[3000, 0], [3500, 0], [3500, 300], [3000, 300]]
depth = 200
"""


def figure(window, board, name, beside=""):
    card = window.client.get("/api/card", params={"board": board}).raise_for_status().json()
    (row,) = [row for row in card["rows"] if (row["derived"], row["beside"]) == (name, beside)]
    return row


def typed(window, board, name, entry, beside="", choice=""):
    return window.do(do="derived", board=board, figure=name, beside=beside, entry=entry, choice=choice)


def ways(window, board, name, beside=""):
    sent = {"base_revision": window.revision(), "board": board, "figure": name, "beside": beside}
    return window.post("ways", **sent).raise_for_status().json()["offers"]


@pytest.fixture
def posts(job):
    job.write_text(POSTS, encoding="utf-8")
    window = Window(job)
    yield window
    window.close()


@pytest.mark.parametrize(
    ("entry", "writes", "value", "after"),
    [("9", "[542.55, 900]", 9, "right of plumb"), ("-9°", "[257.45, 900]", 9, "left of plumb"),
     ("4.5 + 4.5 deg", "[542.55, 900]", 9, "right of plumb"), ("0", "[400, 900]", 0, "plumb")],
)  # fmt: skip
def test_a_post_is_turned_about_its_foot_and_its_head_keeps_its_level(posts, job, entry, writes, value, after):
    typed(posts, "post", "rake", entry).raise_for_status()
    assert f"line = [[400, 0], {writes}]" in job.read_text(encoding="utf-8")
    row = figure(posts, "post", "rake")
    assert (row["value"], row["after"]) == (pytest.approx(value, abs=0.01), after)


def test_a_rake_is_said_as_a_rise_too(posts):
    typed(posts, "post", "rake", "9").raise_for_status()
    assert figure(posts, "post", "rake")["sentence"].startswith("47.5 in 300.")


def test_an_angle_in_the_text_is_typed_there_and_serves_the_whole_row(posts, job):
    assert [offer["id"] for offer in ways(posts, "leaning 1", "rake")][:3] == ["angle", "here", "only this one"]
    typed(posts, "leaning 1", "rake", "11.5").raise_for_status()
    assert '"i * 900 + 600 * tan(11.5)"' in job.read_text(encoding="utf-8")
    assert figure(posts, "leaning 2", "rake")["value"] == pytest.approx(11.5)


def test_one_of_a_row_is_turned_alone(posts, job):
    typed(posts, "leaning 2", "rake", "4", choice="only this one").raise_for_status()
    assert figure(posts, "leaning 2", "rake")["value"] == pytest.approx(4, abs=0.02)
    assert figure(posts, "leaning 1", "rake")["value"] == pytest.approx(9)
    assert "tan(9)" in job.read_text(encoding="utf-8")


def test_a_level_board_is_given_a_slope_and_its_far_end_keeps_its_plumb(window, job):
    row = figure(window, "shelf", "rake")
    assert (row["label"], row["value"], row["after"]) == ("slope", 0, "level")
    assert row["sentence"].endswith("It turns about its left end; its right end keeps its plumb.")
    typed(window, "shelf", "rake", "2").raise_for_status()
    assert '["wide", "low + 27.94"]' in job.read_text(encoding="utf-8"), "800 tan 2 = 27.94"


def test_a_board_that_rises_to_the_left_turns_about_its_right_end(window):
    typed(window, "shelf", "rake", "-2").raise_for_status()
    sentence = figure(window, "shelf", "rake")["sentence"]
    assert sentence.endswith("It turns about its right end; its left end keeps its plumb.")


def test_a_length_that_no_job_has_is_refused_in_words(window):
    answer = typed(window, "shelf", "length", "1000000")
    assert answer.json()["error"]["code"] == "refused"
    assert "shelf would reach" in answer.json()["error"]["says"]


def test_a_length_keeps_foot_and_direction(posts, job):
    typed(posts, "post", "rake", "9").raise_for_status()
    typed(posts, "post", "length", "1000").raise_for_status()
    board = next(board for board in posts.state()["drawing"]["boards"] if board["name"] == "post")
    (x, y), (far, high) = board["line"]
    assert (x, y) == (400, 0)
    assert math.dist((x, y), (far, high)) == pytest.approx(1000, abs=0.05)
    assert math.degrees(math.atan2(far - x, high)) == pytest.approx(9, abs=0.01)


def test_a_place_along_a_board_moves_the_board_that_meets_it(window, job):
    row = figure(window, "left upright", "along", "shelf")
    assert row["value"] == 500
    says = typed(window, "left upright", "along", "1 1/2 in + 500", "shelf").raise_for_status().json()["says"]
    assert says == "left upright: to shelf = 1 1/2 in + 500; 2 joints follow"
    assert 'line = [[200, "low + 38.1"], ["wide", "low + 38.1"]]' in job.read_text(encoding="utf-8")


def test_what_is_clear_between_two_boards_moves_the_one_whose_card_it_is(window, job):
    row = figure(window, "left upright", "clear", "right upright")
    assert (row["value"], row["after"]) == (782, "to the right")
    typed(window, "left upright", "clear", "700", "right upright").raise_for_status()
    assert "line = [[282, 0], [282, 900]]" in job.read_text(encoding="utf-8")
    typed(window, "right upright", "clear", "low", "left upright", "measure wide").raise_for_status()
    assert "wide = 800\n" in job.read_text(encoding="utf-8"), "282 + 18 + 500"


def test_between_boards_of_one_row_only_the_one_moves_since_the_row_would_take_both(posts, job):
    assert [offer["id"] for offer in ways(posts, "rail 3", "clear", "rail 2")] == ["only this one"]
    typed(posts, "rail 3", "clear", "260", "rail 2").raise_for_status()
    assert "i = 3\nline = [[0, 780], [2600, 780]]" in job.read_text(encoding="utf-8")


def test_a_frames_side_is_made_longer_by_moving_the_next(posts, job):
    row = figure(posts, "box 1", "length")
    assert "box 2 moves" in row["sentence"]
    typed(posts, "box 1", "length", "560").raise_for_status()
    assert "points = [[3000, 0], [3560, 0], [3560, 300], [3000, 300]]" in job.read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("name", "beside", "entry"),
    [("rake", "", "85"), ("rake", "", "plumb"), ("length", "", "0"), ("length", "", "-4"), ("clear", "leaning 1", "5"),
     ("along", "nobody", "5"), ("length", "", "1 / 0")],
)  # fmt: skip
def test_what_a_figure_cannot_come_to_is_refused_and_nothing_is_changed(posts, job, name, beside, entry):
    refused = typed(posts, "post", name, entry, beside)
    assert refused.status_code in (404, 422)
    assert refused.json()["error"]["says"]
    assert job.read_text(encoding="utf-8") == POSTS


# ---- the demo


@pytest.fixture(scope="module")
def wall(tmp_path_factory):
    path = tmp_path_factory.mktemp("wall") / "wall.toml"
    path.write_text(demo_text("record-wall"), encoding="utf-8")
    window = Window(path)
    yield window
    window.close()


def test_the_lean_of_two_boards_is_one_measure_and_may_be_changed_there(wall):
    offers = ways(wall, "raking 1", "rake")
    assert ("angle lean", "change lean: 2 boards follow") in {(offer["id"], offer["says"]) for offer in offers}
    typed(wall, "raking 1", "rake", "9", choice="angle lean").raise_for_status()
    assert "lean   = 9 " in wall.job.read_text(encoding="utf-8")
    assert figure(wall, "raking 2", "rake")["value"] == pytest.approx(9)
    wall.step("undo").raise_for_status()


def test_without_a_choice_arithmetic_gets_a_constant_behind_it(wall):
    typed(wall, "raking 1", "rake", "9").raise_for_status()
    assert '"560 + height * tan(lean) + 28.91"' in wall.job.read_text(encoding="utf-8"), "1620 (tan 9 - tan 8) = 28.91"
    assert figure(wall, "raking 2", "rake")["value"] == pytest.approx(8)
    wall.step("undo").raise_for_status()


@pytest.mark.slow
def test_every_figure_that_is_offered_comes_to_what_is_typed(wall):
    """All figures of all boards of the demo, each typed 3 mm or a degree larger, seen on the card, and taken back."""
    text, count = wall.job.read_text(encoding="utf-8"), 0
    for board in [board.name for board in wall.session.drawn.piece.boards]:
        for found in figures_of(wall.session.drawn, board):
            more = 1 if found.figure == "rake" else 3
            wanted = round(found.value, 2) + more
            typed(wall, board, found.figure, f"{wanted:.2f}", found.beside).raise_for_status()
            now = {(one.figure, one.beside): one for one in figures_of(wall.session.drawn, board)}
            assert now[found.figure, found.beside].value == pytest.approx(wanted, abs=0.06), (board, found)
            wall.step("undo").raise_for_status()
            count += 1
    assert wall.job.read_text(encoding="utf-8") == text
    assert count > 80


def test_a_short_shelf_meets_the_left_upright_before_its_foot(job):
    """Uprights of 24 at 100 and 680: a shelf laid from 112 to 668 meets their centre-lines at -12 and at 568."""
    boards = {"left": "[[100, 0], [100, 900]]", "right": "[[680, 0], [680, 900]]", "shelf": "[[112, 300], [668, 300]]"}
    job.write_text(
        'dryfit = 1\n\n[timber.oak]\nspecies = "oak, white"\nthickness = 24\n'
        + "".join(f'\n[[board]]\nname = "{name}"\nline = {line}\ndepth = 250\n' for name, line in boards.items()),
        encoding="utf-8",
    )
    drawing = Window(job).client.get("/api/state").json()["drawing"]
    shelf = next(board for board in drawing["boards"] if board["name"] == "shelf")
    assert [(one["value"], one["joint"]) for one in shelf["along"]] == [
        (-12.0, ["left", "shelf"]),
        (556.0, None),
        (568.0, ["right", "shelf"]),
    ]
