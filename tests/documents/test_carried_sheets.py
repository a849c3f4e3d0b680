"""The hanging book's first sheet and its sheet of carrying, read back from the PDF.

The case of S23, 2400 x 320 x 300, goes round a landing of 950 and 800 under 2200 tilted: with 50 off everywhere by
55.6 degrees, 1603 long on the floor where 1688 would go round. The record wall hangs on ten screws in its studs; two
spare ones make twelve.
"""

import json
import math
import re

import pytest

from dryfit.book import build, read_job_text
from dryfit.book.demos import demo_text
from dryfit.documents.display import Area, Stroke
from dryfit.documents.pdf import pdf
from dryfit.documents.workshop import paper_sheets
from tests.documents.reading import pages
from tests.nasty import NASTY_NAMES
from tests.studies.test_carrying import CASE, HEAD, LANDING, board, door

WAY = LANDING + door(780, 1980, 'name = "front door"\n') + "[van]\nlength = 2000\nwidth = 1200\nheight = 1400\n"


def sheets(text):
    return paper_sheets("hanging", build(read_job_text(text)))


def words(text):
    made = sheets(text)
    return [re.sub(r"\s+", " ", page) for page in pages(pdf([display for _, display in made], "t"))]


def of(text, kind):
    return " ".join(page for (draft, _), page in zip(sheets(text), words(text), strict=True) if draft.kind == kind)


# --- carrying ---------------------------------------------------------------------------------------------


def test_the_case_stands_with_its_box_its_people_and_how_it_goes_through():
    told = of(CASE + WAY, "carrying")

    assert "50 of each clear size is kept for hands and wrapping, 100 over the steps" in told
    assert "the whole piece 2400 × 320 × 300" in told
    assert "1 the van 1200 1400 2000 long" in told
    assert "2 landing (turn) 950 2200 into 800" in told
    assert "flat, 400 behind" in told or "on edge, 400 behind" in told
    assert "tilted by 55.6°" in told
    assert "tilted by 55.6°: 1603.1 × 320 on the floor, 1688 long would go round" in told
    assert "Not looked at: standing it up in the room ([wall] gives no ceiling)" in told


def test_the_turn_is_drawn_with_its_floor_against_both_outer_walls_and_at_the_inner_corner():
    """At least room 1688.36 would go round where 1603.07 does; the drawing has both corridors as they are."""
    (draft, _) = next(one for one in sheets(CASE + WAY) if one[0].kind == "carrying")
    (floor,) = [item for item in draft.items if isinstance(item, Area) and item.ink == "grey"]
    outer, inner = [item.points for item in draft.items if isinstance(item, Stroke) and item.pen == "cut wood"]
    corner, edge = outer[1], inner[1]
    scale = (edge[0] - corner[0]) / 950
    at = [((x - corner[0]) / scale, (corner[1] - y) / scale) for x, y in floor.loops[0]]

    assert (corner[1] - edge[1]) / scale == pytest.approx(800)
    assert min(x for x, _ in at) == pytest.approx(0, abs=1e-6)
    assert min(y for _, y in at) == pytest.approx(0, abs=1e-6)
    assert math.dist(at[0], at[1]) == pytest.approx(1603.1, abs=0.1)
    (x1, y1), (x2, y2) = at[3], at[2]  # the inner side
    side = ((x2 - x1) * (800 - y1) - (y2 - y1) * (950 - x1)) / math.dist(at[3], at[2])
    t = math.atan2(at[0][1], at[1][0])
    spare = (1688.36 - 1603.07) * math.sin(t) * math.cos(t) + 50 * (math.sin(t) + math.cos(t))
    assert side == pytest.approx(spare, abs=0.1), "what is to spare, and 50 of both corridors"


def test_what_does_not_pass_is_said_where_it_first_fails_and_what_comes_later_is_left_out():
    assert "the whole piece DOES NOT PASS: 20 too thick –" in of(CASE + door(280) + LANDING, "carrying")
    assert "the whole piece DOES NOT PASS –" in of(CASE + door(150, 160) + LANDING, "carrying")


def test_bodies_that_go_through_alike_share_a_row():
    told = of(demo_text("record-wall") + door(900, 2000), "carrying")

    assert "A to S on edge" in told


def test_in_inches_every_size_is_in_inches():
    told = of(demo_text("sample-grid") + '[[door]]\nwidth = 30\nheight = "78 in"\n', "carrying")

    assert "1 31/32 of each clear size is kept for hands" in told
    assert "1 the door 30 78" in told
    assert "lb, up to" in told
    assert "two from 70 55/64 of length on" in told
    assert not re.search(r"\b(1800|3600)\b", told)


@pytest.mark.parametrize("name", NASTY_NAMES)
def test_nasty_names_of_doors_and_turns_are_printed(name):
    text = CASE + LANDING.replace('"landing"', json.dumps(name, ensure_ascii=False)) + door(900)

    assert "tilted" in of(text, "carrying")


def test_a_long_way_is_told_in_several_tables():
    told = of(CASE + "".join(door(900 + n, more=f'name = "d{n}"\n') for n in range(9)), "carrying")

    assert told.count("how each goes through") == 3
    assert all(f"{n + 1}: d{n}" in told for n in range(9))


def test_what_waits_for_glue_and_finish_is_told_in_its_order_with_the_days_in_all():
    """Glue 24 h, two coats 12 h apart and 7 days: 24 + 180 = 204 h, 9 days."""
    finish = '[finish]\nsystem = "varnish, polyurethane"\ncoats = 2\nwhen = "after glue"\n'
    told = of(CASE + finish, "carrying")

    assert "24 h after gluing until it is coated, 180 h after the first coat in the shop until it is carried" in told
    assert "9 days of waiting in all, at 20 °C" in told
    assert "is not known: ask its maker" in of(CASE + finish.replace("varnish, poly", "varnish, nobody's "), "carrying")


# --- what goes along --------------------------------------------------------------------------------------


def test_the_record_wall_takes_its_screws_bits_shims_and_finish_along():
    told = of(demo_text("record-wall"), "going along")

    assert "wood screw 5 x 120, plain shank for 57 A × wall, C × wall, D × wall 12" in told
    assert "driver bit 300 long" in told
    assert "pilot bit 3.5 studs" in told
    assert "shims up to 5 in all" in told
    assert "varnish, polyurethane touching up plugs and arrises" in told
    assert "14 loads: ticked off on page 14" in told


def test_what_is_not_known_is_said_and_nothing_is_left_to_fill_in():
    text = demo_text("record-wall").replace("lining = 25\n", "").replace("hollow = 5\n", "")
    told = of(text, "going along")

    assert "How thick the lining is (lining in [wall])" in told
    assert "no shims are reckoned with" in told
    assert "shims up to" not in told
    assert "_" not in told


def test_coats_on_site_take_their_litres_along():
    finish = '[finish]\nsystem = "varnish, polyurethane"\ncoats = 2\ncoverage = 8\nwhen = "on site"\n'
    told = of(HEAD + finish + board("a", "[[0, 10], [1000, 10]]", 200), "going along")

    assert "varnish, polyurethane 2 coats what is coated on site 0.12 l" in told
    assert "touching up" in told  # the title of its table only
    assert "touching up plugs" not in told


def test_where_nothing_goes_along_there_is_no_such_sheet():
    made = sheets(HEAD + board("a", "[[0, 10], [1000, 10]]", 200))

    assert [draft.kind for draft, _ in made] == ["carrying"]


def test_no_view_of_a_turn_leaves_out_a_word():
    """Whatever its size: the smallest scale that holds it is taken."""
    for a, b, high in ((600, 600, 2500), (3000, 700, 2500), (700, 5000, 2500)):
        text = CASE + f"[[turn]]\nwidth = {a}\ninto = {b}\nheight = {high}\n"
        assert "would go round" in of(text, "carrying"), (a, b)
