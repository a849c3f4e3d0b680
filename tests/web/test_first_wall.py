"""From nothing: the wall typed, a frame drawn, a row laid in its bay, each written as a maker would write it.

The wall is 2400 by 1600; the frame stands on the floor from 200 to 2200, 1200 high outside, of 27: its opening is
1946 by 1146, and two uprights of 27 leave three bays of (1946 - 2 * 27) / 3 = 630.67.
"""

import tomllib
from itertools import pairwise

import pytest

from dryfit.documents.elevation import BARE
from dryfit.job.starting import new_text
from tests.web.served import Window

ACROSS = 'between(right("frame 4") - thickness("upright 1") / 2, left("frame 2") + thickness("upright 1") / 2, i / 3)'
FRAME = {"do": "draw", "what": "frame", "points": [[200, 0], [2200, 0], [2200, 1200], [200, 1200]]}


@pytest.fixture(params=["dryfit = 1\n", new_text("a shelf")], ids=["an empty text", "a new job"])
def empty(job, request):
    job.write_text(request.param, encoding="utf-8")
    window = Window(job)
    yield window
    window.close()


def text(window):
    return tomllib.loads(window.session.text)


def done(window, **doing):
    state = window.do(**doing).raise_for_status().json()["state"]
    assert not state["mistakes"]
    return state


def framed(window):
    done(window, do="wall", wide="2400", high="1600", thick="27")
    return done(window, **FRAME)


def bays(window):
    sent = {"base_revision": window.revision(), "target": {"what": "new"}}
    return window.post("drag", **sent).json()["bays"]


def test_what_is_typed_is_the_wall_in_the_file_and_on_the_sheet(empty):
    state = done(empty, do="wall", wide="2400", high="1600", studs="400", every="600")
    assert text(empty)["wall"] == {"left": 0, "right": 2400, "ceiling": 1600, "studs": [400, 1000, 1600, 2200]}
    assert state["drawing"]["extent"] == [0, 0, 2400, 1600]
    assert {(one["axis"], one["value"]) for one in state["drawing"]["dimensions"]} == {("x", 2400), ("y", 1600)}
    wall = {"wide": 2400, "high": 1600, "studs": 400, "every": 600, "floor": True, "thick": 22, "deep": 300}
    assert state["wall"] == wall


def test_a_wall_of_which_one_size_is_known_is_drawn_to_it(empty):
    assert done(empty, do="wall", wide="3 m")["drawing"]["extent"] == [0, 0, 3000, BARE[3]]
    assert text(empty)["wall"]["right"] == "3 m", "as it was typed"


def test_the_first_board_leaves_the_sheet_as_it_is(empty):
    before = done(empty, do="wall", wide="2400", high="1600")["drawing"]["extent"]
    after = done(empty, do="draw", what="board", points=[[300, 400], [900, 400]])
    assert after["drawing"]["extent"] == before
    assert [board["name"] for board in after["drawing"]["boards"]] == ["shelf"]


@pytest.mark.parametrize(
    ("end", "name"),
    [((900, 400), "shelf"), ((900, 405), "shelf"), ((300, 1200), "upright"), ((380, 1200), "raking"),
     ((220, 1200), "raking"), ((900, 500), "sloping")],
    ids=["level", "level by eye", "plumb", "leaning right", "leaning left", "nearer level than plumb"],
)  # fmt: skip
def test_a_board_drawn_is_called_by_how_it_lies(empty, end, name):
    """The papers say these names at the bench: "Lower board C onto E" told nothing."""
    for called in (name, f"{name} 2"):
        state = done(empty, do="draw", what="board", points=[[300, 400], list(end)])
        assert state["drawing"]["boards"][-1]["name"] == called


def test_what_is_typed_of_the_stock_is_what_boards_are_drawn_of(empty):
    done(empty, do="wall", thick="27", deep="280")
    state = done(empty, do="draw", what="board", points=[[300, 400], [900, 400]])
    (board,) = state["drawing"]["boards"]
    assert (board["thickness"], board["depth"]) == (27, 280)
    assert text(empty)["timber"]["oak"]["thickness"] == 27
    assert text(empty)["board"][0]["depth"] == "depth"


def test_a_size_is_left_open_again(empty):
    done(empty, do="wall", wide="2400", high="1600", studs="400", every="600")
    done(empty, do="wall", high="", studs="")
    assert text(empty)["wall"] == {"left": 0, "right": 2400}


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ({"wide": "two"}, "two"),
        ({"wide": "-5"}, "no size for the wall"),
        ({"thick": ""}, "has to have a thickness"),
        ({"every": "400"}, "first stud"),
        ({"studs": "100", "every": "400"}, "wall's width first"),
        ({"wide": "2400", "studs": "100", "every": "0.5"}, "too many"),
    ],
)
def test_what_cannot_be_is_refused_with_what_would_be_right(empty, typed, says):
    error = empty.do(do="wall", **typed).json()["error"]
    assert says in error["says"] + error["remedy"]


def test_a_frame_has_one_bay_and_a_bare_wall_is_one(empty):
    assert bays(empty) == [], "nothing is known of the wall"
    done(empty, do="wall", wide="2400", high="1600")
    (bare,) = bays(empty)
    assert (bare["wide"], bare["high"]) == (2400, 1600)
    framed(empty)
    (bay,) = bays(empty)
    assert (bay["wide"], bay["high"]) == (1946, 1146)
    assert bay["at"] == pytest.approx([1200, 600])


def test_a_row_makes_equal_bays_and_is_written_as_one_table(empty):
    framed(empty)
    state = done(empty, do="row", at=[400, 300], count=2)
    (table,) = text(empty)["board"]
    assert table["name"] == "upright {i}"
    assert table["line"] == [[ACROSS, 'top("frame 1")'], [ACROSS, 'under("frame 3")']], "of the faces it stands between"
    assert state["notes"] == []
    assert {tuple(joint["boards"]) for joint in state["drawing"]["joints"]} >= {("frame 1", "upright 1")}
    widths = [bay["wide"] for bay in bays(empty)]
    assert widths == pytest.approx([630.67] * 3, abs=0.011)


def test_a_row_lies_between_uprights_and_takes_no_name_that_is_there(empty):
    framed(empty)
    done(empty, do="row", at=[400, 300], count=2)
    state = done(empty, do="row", at=[1200, 600], count=2, lying=True)
    assert {"shelf 1", "shelf 2"} < {board["name"] for board in state["drawing"]["boards"]}
    state = done(empty, do="row", at=[300, 600], count=2, lying=True)
    assert {"row 2 shelf 1", "row 2 shelf 2"} < {board["name"] for board in state["drawing"]["boards"]}
    levels = sorted({board["line"][0][1] for board in state["drawing"]["boards"] if "shelf" in board["name"]})
    gaps = [high - low for low, high in pairwise([27 - 13.5, *levels, 1173 + 13.5])]
    assert gaps == pytest.approx([gaps[0]] * 3, abs=0.01)


def test_between_raking_boards_a_row_stands_as_far_as_each_has_room(empty):
    done(empty, do="wall", thick="27")
    done(empty, do="draw", what="board", points=[[0, 500], [2000, 500]])
    done(empty, do="draw", what="board", points=[[0, 1000], [2000, 1200]])
    for x in (0, 2000):
        done(empty, do="draw", what="board", points=[[x, 300], [x, 1400]])
    (bay,) = bays(empty)
    state = done(empty, do="row", at=bay["at"], count=2)
    first, second = state["drawing"]["boards"][4:]
    assert second["length"] > first["length"] + 50


def test_no_row_is_laid_where_there_is_no_room_or_no_bay(empty):
    framed(empty)
    assert "no bay there" in empty.do(do="row", at=[100, 1500], count=1).json()["error"]["says"]
    assert "leave no bays" in empty.do(do="row", at=[400, 300], count=70).json()["error"]["says"]


def test_what_is_typed_of_a_board_is_written_as_it_was_typed(empty):
    """213.25 is kept; of a hand's place a tenth."""
    done(empty, do="draw", what="board", points=[[213.25, 400], [900, 400]], exact=True)
    done(empty, do="draw", what="board", points=[[213.26, 500], [900, 500]])
    assert [table["line"][0][0] for table in text(empty)["board"]] == [213.25, 213.3]


def test_a_wall_in_inches_is_kept_as_it_was_typed(job):
    """95 1/2 by 63 in; stock of 7/8: a frame of 80 by 48, its opening 78.25; two uprights stand at equal steps."""
    job.write_text('dryfit = 1\n\n[job]\nunits = "in"\n', encoding="utf-8")
    window = Window(job)
    done(window, do="wall", wide="95 1/2 in", high="63", thick="7/8 in")
    mm = 25.4
    done(window, **{**FRAME, "points": [[8 * mm, 0], [88 * mm, 0], [88 * mm, 48 * mm], [8 * mm, 48 * mm]]})
    state = done(window, do="row", at=[20 * mm, 20 * mm], count=2)
    written = text(window)
    assert (written["wall"]["right"], written["wall"]["ceiling"]) == ("95 1/2 in", 63)
    assert written["timber"]["oak"]["thickness"] == "7/8 in"
    assert written["board"][0]["line"][0] == [ACROSS, 'top("frame 1")']
    feet = [board["line"][0] for board in state["drawing"]["boards"] if "upright" in board["name"]]
    assert [[x / mm, y / mm] for x, y in feet] == [pytest.approx([8.4375 + at * 79.125 / 3, 0.875]) for at in (1, 2)]
    assert state["notes"] == []
    window.close()


def test_a_figure_half_typed_is_answered_in_its_preview_and_refused_only_where_it_is_put_in(empty):
    """Boards of 27 spaced 2 of 200 from centre to centre would lie in one another."""
    framed(empty)
    at = bays(empty)[0]["at"]
    half = {"do": "row", "at": at, "centres": "2"}
    told = empty.preview(**half)
    assert told.status_code == 200
    seen = told.json()
    assert (seen["refused"]["code"], seen["boards"], seen["writes"]) == ("refused", [], [])
    assert seen["says"] == seen["refused"]["says"]
    assert seen["refused"]["remedy"]
    put_in = empty.do(**half)
    assert put_in.status_code == 422
    assert put_in.json()["error"]["says"] == seen["says"]
    whole = empty.preview(**{**half, "centres": "200"}).raise_for_status().json()
    assert whole["refused"] is None
    assert whole["boards"]


def test_what_is_not_there_is_no_preview(empty):
    framed(empty)
    told = empty.preview(do="drag", target={"what": "boards", "boards": ["nobody"]}, by=[1, 0])
    assert told.status_code == 404
