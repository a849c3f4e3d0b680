"""Bays as things: typed, made equal, a board put in; rows laid in them and changed as one.

Two posts of 20 stand 1000 apart from middle to middle, so 980 clear; a rail above and one below close the bay.
Dividers in it leave bays that are worked out here from lines and thicknesses alone: between plumb boards the difference
of their middles less a thickness, between boards that lean by an angle less a thickness over its cosine.
"""

import math
import re
import tomllib
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from dryfit.book import change_job_text, read_job_text
from dryfit.book.demos import demo_text
from dryfit.editing import requests
from dryfit.editing.bays import bays_of
from dryfit.editing.cards import card
from dryfit.editing.doing import compose
from dryfit.editing.drag import gripped
from dryfit.editing.drawn import Draughtsman
from dryfit.editing.openings import bay_card
from dryfit.editing.refusals import Refused
from dryfit.keeping import Keep
from dryfit.piece.setout import NOTHING_MADE, AsCut

THICK = 20.0
HEAD = 'dryfit = 1\n\n[timber.oak]\nspecies = "oak, white"\nthickness = 20\n'
WITHIN = 0.001  # mm, of bays made equal


def board(name, line, more=""):
    return f'\n[[board]]\nname = "{name}"\nline = {line}\ndepth = 250\n{more}'


POSTS = board("left", "[[0, 0], [0, 900]]") + board("right", "[[1000, 0], [1000, 900]]")
RAILS = board("foot", "[[0, 100], [1000, 100]]") + board("head", "[[0, 800], [1000, 800]]")
FRAME = HEAD + POSTS + RAILS


def drawn(text):
    return Draughtsman("job.toml", None, NOTHING_MADE).draw(text)


def bay(text, at, made=NOTHING_MADE):
    return bay_card(drawn(text), made, at)


def done(text, doing, made=NOTHING_MADE):
    composed = compose(drawn(text), text, doing, made)
    return change_job_text(text, composed.edits)[0], composed.says


def taken(text, cure):
    edits = requests.EditsSent.model_validate(
        {"do": "edits", "edits": [{"action": e.action, "path": list(e.path), "value": e.value} for e in cure.edits]}
    )
    return change_job_text(text, tuple(edit.edit() for edit in edits.edits))[0]


def lines(text):
    return {spec.name: spec.line for spec in read_job_text(text).boards}


def typed(at, axis, entry, gives=""):
    return requests.ClearSent(do="clear", at=at, axis=axis, entry=entry, gives=gives)


def put(text, at, label):
    return taken(text, next(cure for cure in bay(text, at).puts if cure.label == label))


def thicker(text, thickness):
    return text.replace("thickness = 20", f"thickness = {thickness}")


# ---- one bay


def test_a_bay_says_what_bounds_it_and_how_wide_it_is():
    across, up = bay(FRAME, (500, 400)).openings
    assert (across.axis, across.low, across.high, across.clear) == ("x", "left", "right", 980)
    assert (up.axis, up.low, up.high, up.clear) == ("y", "foot", "head", 680)
    assert [(one.board, one.why) for one in across.gives] == [("right", ""), ("left", "")]
    assert across.equal is None


@pytest.mark.parametrize(
    ("gives", "name", "x", "text"),
    [
        ("", "right", 920, """'right("left") + 900 + thickness("right") / 2'"""),
        ("left", "left", 80, """'left("right") - 900 - thickness("left") / 2'"""),
    ],
    ids=["the first that can", "the one named"],
)
def test_a_width_typed_moves_the_side_that_gives_and_stays_when_the_stock_gets_thicker(gives, name, x, text):
    after, says = done(FRAME, typed((500, 400), "x", "900", gives))
    assert after.count(text) == 2
    assert [point[0] for point in lines(after)[name]] == [x, x]
    assert {other: line for other, line in lines(after).items() if other != name} == {
        other: line for other, line in lines(FRAME).items() if other != name
    }
    assert says.startswith("900 mm clear between ")
    ((one, _), (other, _)) = (lines(thicker(after, 30))[side] for side in ("left", "right"))
    assert other[0] - one[0] - 30 == pytest.approx(900), "clear as it was typed"


def test_a_height_typed_is_kept_as_arithmetic_over_the_measures():
    text = FRAME.replace("[timber", "[measures]\nfile = 320\n\n[timber")
    after, _ = done(text, typed((500, 400), "y", "2 * file"))
    assert """'top("foot") + (2 * file) + thickness("head") / 2'""" in after
    assert lines(after)["head"][0][1] == 100 + 10 + 640 + 10


def test_a_side_of_a_frame_gives_along_its_normal():
    """A frame 1000 by 900 outside, of 20: 960 by 860 clear."""
    text = f'{HEAD}\n[[frame]]\nname = "box"\npoints = [[0, 0], [1000, 0], [1000, 900], [0, 900]]\ndepth = 250\n'
    across, _ = bay(text, (500, 400)).openings
    assert (across.low, across.high, across.clear) == ("box 4", "box 2", 960)
    after, _ = done(text, typed((500, 400), "x", "900"))
    (frame,) = read_job_text(after).frames
    assert frame.points == ((0, 0), (940, 0), (940, 900), (0, 900))


def test_a_bare_wall_is_a_bay_that_does_not_give_and_is_divided_by_its_measures():
    text = f'{HEAD}\n[measures]\nroom = 2400\n\n[wall]\nright = "room"\nceiling = 1600\n'
    across, up = bay(text, (500, 400)).openings
    assert (across.clear, up.clear, across.low) == (2400, 1600, "")
    assert {one.why for one in (*across.gives, *up.gives)} == {"the wall stays as it is"}
    after = put(text, (500, 400), "a divider half-way")
    assert tomllib.loads(after)["board"][0]["line"] == [["between(0, room, 1/2)", 0], ["between(0, room, 1/2)", 1600]]
    row = tomllib.loads(laid(text, count=2)[0])["board"][0]
    assert row["line"][0][0] == 'between(0 - thickness("upright 1") / 2, room + thickness("upright 1") / 2, i / 3)'


def test_what_hangs_on_another_board_or_is_cut_does_not_give_and_says_why():
    hung = FRAME.replace("[[1000, 0], [1000, 900]]", """[['end("head") ', 0], ['end("head")', 900]]""")
    assert [one.why for one in bay(hung, (500, 400)).openings[0].gives] == ["it hangs on head", ""]
    after, _ = done(hung, typed((500, 400), "x", "900"))
    assert lines(after)["left"][0][0] == 80, "the other gives"
    with pytest.raises(Refused) as refusal:
        done(hung, typed((500, 400), "x", "900", "right"))
    assert "it hangs on head" in refusal.value.fault.says
    made = replace(NOTHING_MADE, cuts=(AsCut(board="head", between=("head", "left")),))
    assert [one.why for one in bay(hung, (500, 400), made).openings[0].gives] == [
        "it hangs on head",
        "what is cut of it or for it would no longer fit",
    ]
    with pytest.raises(Refused):
        done(hung, typed((500, 400), "x", "900"), made)


def test_a_side_on_which_the_other_hangs_goes_with_it_and_does_not_give():
    after, _ = done(FRAME, typed((500, 400), "x", "900"))
    across = bay(after, (500, 400)).openings[0]
    assert [(one.board, one.why) for one in across.gives] == [
        ("right", ""),
        ("left", "right hangs on it and goes with it"),
    ]
    again, _ = done(after, typed((500, 400), "x", "850"))
    assert lines(again)["right"][0][0] == 870, "it is typed once more"


@pytest.mark.parametrize("entry", ["0", "-5", "two", "left("], ids=str)
def test_what_is_no_opening_is_refused(entry):
    with pytest.raises(Refused):
        done(FRAME, typed((500, 400), "x", entry))


def test_there_is_no_bay_outside_of_the_boards():
    assert bay(FRAME, (500, 2000)) is None
    with pytest.raises(Refused) as refusal:
        done(FRAME, typed((500, 2000), "x", "900"))
    assert refusal.value.fault.says == "there is no bay there"


# ---- a board put in


@pytest.mark.parametrize(
    ("label", "name", "coordinate", "at", "thick"),
    [
        ("a divider half-way", "divider", 0, 500, 500),
        ("a divider a third from the left", "divider", 0, 10 + 980 / 3, 15 + 970 / 3),
        ("a shelf half-way", "shelf", 1, 450, 450),
        ("a shelf two thirds up", "shelf", 1, 110 + 680 * 2 / 3, 115 + 670 * 2 / 3),
    ],
)
def test_a_board_put_in_half_way_or_at_a_third_stays_there(label, name, coordinate, at, thick):
    after = put(FRAME, (500, 400), label)
    assert [point[coordinate] for point in lines(after)[name]] == pytest.approx([at, at])
    other = 1 - coordinate
    ends = [point[other] for point in lines(after)[name]]
    assert ends == pytest.approx([110, 790] if other == 1 else [10, 990]), "from face to face"
    assert [point[coordinate] for point in lines(thicker(after, 30))[name]] == pytest.approx([thick, thick])
    moved = after.replace("[[1000, 0], [1000, 900]]", "[[1200, 0], [1200, 900]]")
    if coordinate == 0:
        share = (at - 10) / 980
        assert lines(moved)[name][0][0] == pytest.approx(10 + 1180 * share), "it goes with the post"


def test_between_boards_that_lean_a_divider_is_half_way_at_every_height():
    text = FRAME.replace("[[1000, 0], [1000, 900]]", "[[1000, 0], [1090, 900]]").replace("[1000, 800]", "[1080, 800]")
    after = put(text, (500, 400), "a divider half-way")
    for x, y in lines(after)["divider"]:
        right = 1000 + y / 10 - 10 * math.sqrt(1.01)
        assert x == pytest.approx((10 + right) / 2, abs=1e-6)


# ---- made equal


def divided(*places, lean=0.0):
    """The frame with boards of 20 in it at these places of their feet, leaning alike."""
    by = 680 * math.tan(math.radians(lean))
    return FRAME + "".join(board(f"mid {at}", f"[[{x}, 110], [{x + by}, 790]]") for at, x in enumerate(places, start=1))


def test_three_bays_are_made_equal_and_stay_so():
    text = divided(300, 700)
    across = bay(text, (150, 400)).openings[0]
    assert [round(span.end - span.start, 3) for span in across.row] == [280, 380, 280]
    assert across.equal.label == "make these three equal, 313.3 mm each"
    assert across.moves == "mid 1: 33.3 mm to the right; mid 2: 33.3 mm to the left"
    after = taken(text, across.equal)
    assert """'between(right("left") - thickness("mid 1") / 2, left("right") + thickness("mid 1") / 2, 1/3)'""" in after
    for thickness in (20, 32):
        middles = [line[0][0] for name, line in sorted(lines(thicker(after, thickness)).items()) if "mid" in name]
        clears = [b - a - thickness for a, b in pairwise([0, *middles, 1000])]
        assert clears == pytest.approx([(1000 - 3 * thickness) / 3] * 3, abs=1e-6)
    assert bay(after, (150, 400)).openings[0].equal is None


@pytest.mark.parametrize("number", range(6))
def test_bays_between_boards_that_lean_each_its_own_way_are_made_equal_once(number):
    """Of a demo, measured half-way up whichever of them is pressed: so none of them asks to be made equal again."""
    text = demo_text("record-wall")
    found = bays_of(drawn(text))[number]
    across = bay(text, found.at).openings[0]
    assert across.equal is not None
    after = taken(text, across.equal)
    again = bay(after, ((across.row[across.here].start + across.row[across.here].end) / 2, across.line)) or bay(
        after, found.at
    )
    assert again is not None
    widths = [span.end - span.start for span in again.openings[0].row]
    assert max(widths) - min(widths) <= 2 * WITHIN
    assert again.openings[0].equal is None


def test_boards_of_two_thicknesses_leave_equal_bays():
    thin = '\n[timber.thin]\nspecies = "oak, white"\nthickness = 12\n'
    text = divided(300, 700).replace("depth = 250\n", 'depth = 250\ntimber = "oak"\n') + thin
    head, _, tail = text.rpartition('timber = "oak"')
    text = f'{head}timber = "thin"{tail}'
    after = taken(text, bay(text, (150, 400)).openings[0].equal)
    one, two = lines(after)["mid 1"][0][0], lines(after)["mid 2"][0][0]
    assert [one - 20, two - one - 16, 1000 - two - 16] == pytest.approx([(980 - 32) / 3] * 3)


def test_a_board_that_hangs_elsewhere_parts_the_bays_that_are_made_equal():
    """The middle one stands over a stop on the floor: the three bays left of it are made equal without it."""
    text = divided(200, 300, 600, 700).replace("[[600, 110], [600.0, 790]]", "[['middle(\"stop\")', 110], [600, 790]]")
    assert "stop" in text
    text += board("stop", "[[600, -300], [600, -200]]")
    across = bay(text, (100, 400)).openings[0]
    assert len(across.row) == 5
    assert across.equal.label.startswith("make these three equal, ")
    after = taken(text, across.equal)
    assert lines(after)["mid 3"] == lines(text)["mid 3"]
    assert lines(after)["mid 4"] == lines(text)["mid 4"]


def test_bays_chosen_together_are_made_equal_and_no_others():
    """Bays of 230, 140, 280 and 270: the first and the second are chosen, and the board between them alone moves."""
    text = divided(250, 410, 710)
    found = bay_card(drawn(text), NOTHING_MADE, (300, 400), [(100, 400)]).together
    assert (len(found.bays), found.why) == (2, "")
    assert (found.equal.label, found.moves) == ("make these two equal, 185 mm each", "mid 1: 45 mm to the left")
    after = taken(text, found.equal)
    assert lines(after)["mid 1"] == ((205, 110), (205, 790))
    assert {name: line for name, line in lines(after).items() if name != "mid 1"} == {
        name: line for name, line in lines(text).items() if name != "mid 1"
    }


def test_of_bays_chosen_together_those_between_are_made_equal_too():
    found = bay_card(drawn(divided(210, 410, 710)), NOTHING_MADE, (100, 400), [(850, 400)]).together
    assert (len(found.bays), found.equal.label) == (4, "make these four equal, 230 mm each")
    assert found.at == pytest.approx((500, 450))


@pytest.mark.parametrize(
    ("text", "others", "why"),
    [
        (divided(500), [(750, 400)], "they are equal"),
        (
            divided(400).replace("[[400, 110]", "[['middle(\"stop\")', 110]")
            + board("stop", "[[400, -300], [400, -200]]"),
            [(750, 400)],
            "mid 1 stays: it hangs on stop",
        ),
        (
            divided(400) + board("split", "[[410, 450], [990, 450]]"),
            [(700, 300), (700, 600)],
            "they do not follow one another in one row, with one board between",
        ),
    ],
    ids=["equal", "hangs elsewhere", "no row"],
)
def test_why_bays_chosen_together_are_not_made_equal_is_said(text, others, why):
    found = bay_card(drawn(text), NOTHING_MADE, (100, 300), others).together
    assert (found.equal, found.moves, found.why) == (None, "", why)
    assert len(found.bays) == len(others) + 1


def test_a_bay_chosen_alone_is_with_no_other():
    assert bay(divided(300), (100, 400)).together is None
    assert bay_card(drawn(divided(300)), NOTHING_MADE, (100, 400), [(5000, 400)]).together is None


@pytest.mark.parametrize("posts", ["plumb", "leaning alike"])
def test_bays_between_boards_that_lean_are_made_equal_by_a_relation(posts):
    """Boards 20 thick at 7.5 degrees take 20 / cos(7.5) = 20.1726 measured level; thicker ones leave equal bays too."""
    lean, tan = 7.5, math.tan(math.radians(7.5))
    text = divided(300, 700, lean=lean)
    if posts == "leaning alike":
        for x in (0, 1000):
            text = text.replace(f"[[{x}, 0], [{x}, 900]]", f"[[{x}, 0], [{x + 900 * tan}, 900]]")
        text = text.replace("[[0, 800], [1000, 800]]", f"[[{800 * tan}, 800], [{1000 + 800 * tan}, 800]]")
        text = text.replace("[[0, 100], [1000, 100]]", f"[[{100 * tan}, 100], [{1000 + 100 * tan}, 100]]")
    across = bay(text, (150, 400)).openings[0]
    after = taken(text, across.equal)
    assert after.count('thickness("mid 1") / cos(7.5)') == 4, "at both ends, from either face"
    for thickness in (20, 30):
        now = lines(thicker(after, thickness))
        for name, line in now.items():
            if name.startswith("mid"):
                (x, y), (far, high) = line
                assert math.degrees(math.atan2(far - x, high - y)) == pytest.approx(lean, abs=1e-3), (
                    "it leans as it did"
                )
        wide = thickness / math.cos(math.radians(lean))
        post = thickness if posts == "plumb" else wide
        middles = [
            x + (across.line - y) * (far - x) / (high - y)
            for (x, y), (far, high) in (now[name] for name in ("left", "mid 1", "mid 2", "right"))
        ]
        faces = zip(middles, (post, wide, wide, post), strict=True)
        clears = [b - other / 2 - a - one / 2 for (a, one), (b, other) in pairwise(faces)]
        assert clears == pytest.approx([sum(clears) / 3] * 3, abs=2 * WITHIN)


def test_a_row_of_one_table_stays_one_table():
    row = board("mid {i}", '[["i * 300", 110], ["i * 300", 790]]', "count = 2\n")
    after = taken(FRAME + row, bay(FRAME + row, (150, 400)).openings[0].equal)
    (table,) = [table for table in tomllib.loads(after)["board"] if "count" in table]
    assert "except" not in table
    assert table["line"][0][0] == table["line"][1][0]
    assert table["line"][0][0].endswith("i / 3)")
    assert [lines(after)[f"mid {at}"][0][0] for at in (1, 2)] == pytest.approx([333.333, 666.667], abs=WITHIN)


def in_one_table(places, lean):
    """As many boards at even steps, as one row."""
    step, by = (places[-1] - places[0]) / (len(places) - 1), 680 * math.tan(math.radians(lean))
    line = f'[["{places[0]} + (i - 1) * {step}", 110], ["{places[0] + by} + (i - 1) * {step}", 790]]'
    return FRAME + board("mid {i}", line, f"count = {len(places)}\n")


def in_inches(text):
    """The same piece in a job in inches: every place and size with its mm."""
    text = text.replace("dryfit = 1\n", 'dryfit = 1\n\n[job]\nunits = "in"\n')
    text = re.sub(r"(?m)^(thickness|depth) = (\d+)$", r'\1 = "\2 mm"', text)
    return re.sub(r"(?<=[\[ ])(-?\d+(?:\.\d+)?)(?=[,\]])", r'"\1 mm"', text)


@st.composite
def rows(draw):
    """A piece with one to five boards between the posts, and by how many degrees they lean."""
    count, lean = draw(st.integers(1, 5)), draw(st.sampled_from([0.0, 0.0, 4.0, -7.5, 11.25]))
    places = sorted(draw(st.lists(st.integers(170, 830), min_size=count, max_size=count, unique=True)))
    assume(all(after - before > 45 for before, after in pairwise(places)))
    if count > 1 and draw(st.booleans()):
        return in_one_table(places, lean), count, lean
    text = divided(*places, lean=lean)
    return in_inches(text) if draw(st.booleans()) else text, count, lean


@settings(deadline=None, max_examples=60)
@given(row=rows())
def test_equal_bays_are_equal_and_nothing_else_moves(row):
    """Between the faces, measured level through the middle of the bay that is asked for."""
    text, count, lean = row
    across = bay(text, (15.0, 450.0)).openings[0]
    assume(across.equal is not None)
    before, after = lines(text), lines(taken(text, across.equal))
    wide = THICK / math.cos(math.radians(lean))
    middles = [
        x + (across.line - y) * (far - x) / (high - y)
        for (x, y), (far, high) in (after[f"mid {at}"] for at in range(1, count + 1))
    ]
    faces = [10.0, *(x + side * wide / 2 for x in middles for side in (-1, 1)), 990.0]
    clears = [end - start for start, end in zip(faces[::2], faces[1::2], strict=True)]
    assert len(clears) == count + 1
    assert max(clears) - min(clears) <= WITHIN + 1e-9
    for name, line in before.items():
        if not name.startswith("mid"):
            assert after[name] == line
            continue
        assert [y for _, y in after[name]] == pytest.approx([y for _, y in line])
        leans, leant = (end[0] - start[0] for start, end in (after[name], line))
        assert leans == pytest.approx(leant, abs=2 * WITHIN)


# ---- rows


def laid(text=FRAME, **sent):
    return done(text, requests.RowSent(do="row", at=(500, 400), **sent))


def feet(text, word="upright", axis=0):
    return [line[0][axis] for name, line in lines(text).items() if name.startswith(word)]


def test_a_row_laid_in_a_bay_stays_equal_when_the_stock_gets_thicker():
    after, says = laid(count=2)
    assert says == "2 boards standing, 313.3 mm clear between"
    assert feet(after) == pytest.approx([333.333, 666.667], abs=WITHIN)
    thick = feet(thicker(after, 32))
    assert [b - a - 32 for a, b in pairwise([0, *thick, 1000])] == pytest.approx([(1000 - 96) / 3] * 3)
    assert [y for _, y in lines(thicker(after, 32))["upright 1"]] == [116, 784], "from face to face"


@pytest.mark.parametrize(
    ("sent", "places", "thick"),
    [
        ({"count": 3, "clear": "200"}, [220, 440, 660], [230, 460, 690]),
        ({"count": 2, "centres": "300"}, [300, 600], [300, 600]),
        ({"clear": "200"}, [220, 440, 660, 880], [230, 460, 690, 920]),
        ({"centres": "400"}, [400, 800], [400, 800]),
    ],
    ids=["clear", "on centres", "as many as fit, clear", "as many as fit, on centres"],
)
def test_a_row_is_spaced_as_typed_from_where_the_bay_begins(sent, places, thick):
    after, _ = laid(**sent)
    assert feet(after) == pytest.approx(places)
    assert feet(thicker(after, 30)) == pytest.approx(thick), "what was typed stays, clear or on centres"


def test_a_row_lies_from_below():
    after, says = laid(count=2, clear="150", lying=True)
    assert feet(after, "shelf", 1) == pytest.approx([270, 440])
    assert says == "2 boards lying, 150 mm clear between"


def test_a_row_that_leans_does_so_as_one_and_says_how_its_bays_are_measured():
    after, says = laid(count=2, lean="7.5")
    leans = [
        math.degrees(math.atan2(far - x, high - y))
        for name, ((x, y), (far, high)) in lines(after).items()
        if name.startswith("upright")
    ]
    assert leans == pytest.approx([7.5, 7.5], abs=1e-3)
    wide = THICK / math.cos(math.radians(7.5))
    level = (980 - 2 * wide) / 3
    first, second = feet(after)
    assert [first - 10 - wide / 2, second - first - wide] == pytest.approx([level, level], abs=0.002)
    square = (level + wide) * math.cos(math.radians(7.5)) - THICK
    assert says.endswith(f"{level:.1f} mm clear between, measured level; {square:.1f} mm square to them")


@pytest.mark.parametrize(
    ("sent", "says"),
    [
        ({"count": 60}, "60 of 20 mm leave no bays between them"),
        ({"count": 4, "clear": "300"}, "4 so spaced reach 1280 mm far, and the bay is 980 mm"),
        ({"count": 2, "clear": "300", "centres": "300"}, "the spacing is typed twice"),
        ({"count": 2, "clear": "soon"}, "soon"),
        ({"count": 2, "lean": "45"}, "runs into right"),
        ({"count": 2, "lean": "75"}, "leans 75 degrees"),
        ({"clear": "990"}, "leave no bays"),
    ],
    ids=lambda case: str(case),
)
def test_what_the_bay_has_no_room_for_is_refused(sent, says):
    with pytest.raises(Refused) as refusal:
        laid(**sent)
    assert says in refusal.value.fault.says


def derived(text, figure, entry):
    return done(text, requests.DerivedSent(do="derived", board="upright 1", figure=figure, entry=entry))[0]


def shown(text):
    found = card(drawn(text), requests.CardOf(row="upright 1"), 1, Keep(100))
    return found, {row.label: row for row in found.rows}


def test_a_row_changes_as_one():
    text, _ = laid(count=2)
    found, by_label = shown(text)
    assert (found.title, found.board) == ("upright 1 to upright 2", "upright 1")
    assert by_label["clear"].value == pytest.approx(313.333, abs=WITHIN)
    assert by_label["on centres"].value == pytest.approx(333.333, abs=WITHIN)
    assert feet(derived(text, "row clear", "250")) == pytest.approx([333.333, 603.333], abs=WITHIN)
    assert feet(derived(text, "row centres", "250")) == pytest.approx([333.333, 583.333], abs=WITHIN)
    number = requests.TypedSent(do="typed", card=requests.CardOf(row="upright 1"), key=["count"], entry="3")
    three, says = done(text, number)
    assert says == "the row of upright 1: count = 3; its bays are as equal as they were"
    assert feet(three) == pytest.approx([250, 500, 750]), "as equal as they were"
    leaning = derived(text, "rake", "6")
    for name in ("upright 1", "upright 2"):
        (x, _), (far, _) = lines(leaning)[name]
        assert far - x == pytest.approx(680 * math.tan(math.radians(6)), abs=0.01), "the whole row leans"


def test_a_row_of_another_thickness_is_of_a_timber_of_its_own():
    text, _ = laid(count=2)
    after = derived(text, "row thick", "16")
    timbers = {spec.name: spec.timber for spec in read_job_text(after).boards}
    assert timbers == {
        "left": "oak",
        "right": "oak",
        "foot": "oak",
        "head": "oak",
        "upright 1": "oak 16",
        "upright 2": "oak 16",
    }
    job = read_job_text(after)
    assert (job.timbers["oak"].thickness, job.timbers["oak 16"].thickness) == (20, 16)
    assert job.timbers["oak 16"].species == job.timbers["oak"].species
    again = derived(after, "row thick", "18")
    assert read_job_text(again).timbers["oak 16"].thickness == 18, "it is the row's alone"
    assert [b - a for a, b in pairwise([10, *(x + side for x in feet(again) for side in (-9, 9)), 990])][::2] == (
        pytest.approx([(980 - 36) / 3] * 3)
    ), "its bays are equal still"


# ---- what a hand snaps to


def candidates(text, target):
    return {(one.axis, one.place, one.says) for one in gripped(drawn(text), target, 1).candidates}


def test_the_walls_ends_are_snapped_to_by_the_measure_that_the_file_has_for_them():
    wall = '[measures]\nroom = 2400\n\n[wall]\nright = "room"\nceiling = 2500\n\n[timber'
    text = FRAME.replace("[timber", wall)
    found = candidates(text, requests.EndTarget(what="end", board="head", end="end"))
    assert ("x", "room", "at the wall's right end") in found
    assert ("", "", "at the ceiling") in found, "a number in the file is a figure on the page"


def test_an_end_level_with_its_own_other_end_says_what_that_says():
    text = FRAME.replace("[[0, 800], [1000, 800]]", """[[0, 'end("left") - 100'], [1000, 760]]""")
    found = candidates(text, requests.EndTarget(what="end", board="head", end="end"))
    assert ("y", 'end("left") - 100', "level with its other end") in found


def test_what_is_drawn_anew_snaps_half_way_and_says_so():
    found = candidates(FRAME, requests.NewTarget(what="new"))
    half = 'between(middle("left"), middle("right"), 1/2)'
    assert ("x", half, "half-way between left and right") in found
    sent = requests.DrawSent.model_validate({
        "do": "draw", "what": "board", "points": [[500, 110], [500, 790]], "exact": True,
        "meant": [{"handle": at, "axis": "x", "place": half} for at in (0, 1)],
    })  # fmt: skip
    after, _ = done(FRAME, sent)
    moved = after.replace("[[1000, 0], [1000, 900]]", "[[1200, 0], [1200, 900]]")
    assert lines(moved)["upright"] == ((600, 110), (600, 790))
