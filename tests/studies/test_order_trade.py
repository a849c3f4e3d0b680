"""Rules of the trade as cases: what is possible before and after gluing, from which side, as two halves or not at all.

Boards are 24 thick and 300 deep and wall edges lie at 0 where nothing else is said.
"""

import math

import pytest

from dryfit.book import build, read_job_text
from dryfit.book.reading import change_job_text
from dryfit.piece.meetings import pair_key

from .replaying import replayed

HEAD = """dryfit = 1
[job]
title = "a case"
[timber.oak]
species = "oak, white"
form = "edge-glued panel"
thickness = 24
[timber.thin]
species = "oak, white"
form = "edge-glued panel"
thickness = 18
[wall]
hung = true
"""
RECTANGLE = [[0, 0], [900, 0], [900, 500], [0, 500]]
TONGUES = '[joints.mitre]\nstrengthen = "tongue"\n'


def board(name, start, end, depth=300, timber="oak"):
    line = [list(start), list(end)]
    return f'[[board]]\nname = "{name}"\ntimber = "{timber}"\nline = {line}\ndepth = {depth}\n'


def frame(points, timber='"oak"'):
    return f'[[frame]]\nname = "box"\ntimber = {timber}\npoints = {points}\ndepth = 300\n'


def polygon(count):
    turns = [2 * math.pi * number / count for number in range(count)]
    return [[500 + 400 * math.cos(turn), 500 + 400 * math.sin(turn)] for turn in turns]


def let_in(stop):
    """A board let in between the two upright sides of the box."""
    joints = "".join(
        f'[[joint]]\nbetween = ["inner", "box {side}"]\nkind = "housing"\nstop = "{stop}"\n' for side in (2, 4)
    )
    return board("inner", (24, 250), (876, 250), timber="thin") + joints


def booked(text):
    book = build(read_job_text(HEAD + text))
    order = book.studies["order"]
    assert order.overlaps == ()
    assert replayed(book.piece, order, book.solids) == []
    return book, order


def stops(book):
    return [finding for finding in book.findings if finding.code in ("locked", "no-order")]


def cured(text, finding):
    """The book after the page has applied the finding's cure to the file's text."""
    changed, _ = change_job_text(HEAD + text, finding.cures[0].edits)
    book = build(read_job_text(changed))
    return book, book.studies["order"]


# ---- crossings


@pytest.mark.parametrize(("front", "notch"), [("", None), ("A", None), ("B", 30.0)])
def test_a_board_that_stands_30_proud_is_slotted_from_the_wall(front, notch):
    """A 300 deep, B 330, backs level: A opens to the front, slots 150.5 each; the other way leaves an open notch."""
    word = f'[[joint]]\nbetween = ["A", "B"]\nfront = "{front}"\n' if front else ""
    book, order = booked(board("A", (0, 300), (600, 300)) + board("B", (300, 0), (300, 600), depth=330) + word)
    (joint,) = book.piece.joints

    found = [(f.says.split(" x ")[0], f.found) for f in book.findings if f.code == "open-notch" and "front" in f.says]
    assert found == ([] if notch is None else [("open notch 30", notch)])
    assert joint.hand.front == (front or "A")
    if notch is None:
        assert [cut.figures.deep for cut in joint.cuts] == [150.5, 150.5]
    ((step,),) = [stage.steps for stage in order.stages]
    assert step.legs[0].direction == (0.0, 0.0, -1.0)


# ---- a plumb and a raking board between the same two level boards


LADDER = (
    board("low", (0, 100), (1000, 100))
    + board("high", (0, 600), (1000, 600))
    + board("plumb", (250, 100), (250, 600))
    + board("raking", (600, 100), (675, 600))
)


def test_housed_and_stopped_at_both_ends_all_four_are_locked_and_the_cure_opens_one_board_s_housings_to_the_wall():
    text = '[joints.housing]\nstop = "both"\n' + LADDER
    book, order = booked(text)
    (finding,) = stops(book)

    assert sorted(finding.where.boards) == ["high", "low", "plumb", "raking"]
    assert sorted(order.locked[0].parts) == ["high", "low", "plumb", "raking"]
    assert "for straight moves" in finding.says
    assert "to the wall" in finding.cures[0].label
    after, plan = cured(text, finding)
    assert stops(after) == []
    assert plan.locked == ()


@pytest.mark.parametrize("stop", ["front", "one end"])
def test_open_to_the_wall_they_go_together_along_z(stop):
    book, order = booked(f'[joints.housing]\nstop = "{stop}"\n' + LADDER)

    assert stops(book) == []
    (stage,) = order.stages
    last = stage.steps[-1]
    assert last.name in ("low", "high")
    assert last.legs[0].direction == (0.0, 0.0, -1.0)
    assert last.legs[0].distance == pytest.approx(300 - 12 - 0.1)
    assert set(last.into) == {"plumb", "raking"}


@pytest.mark.parametrize(("rake", "possible"), [(1.40, True), (1.46, False)])
def test_a_rake_within_the_play_of_the_housings_is_no_rake(rake, possible):
    """8 goes in (9 deep, 1 left at the bottom); with 0.2 of play that allows atan(0.2 / 8) = 1.43 degrees."""
    lean = 500 * math.tan(math.radians(rake))
    text = (
        '[joints.housing]\nstop = "both"\ndepth = 9\nclearance = 0.2\nraked = "floor parallel to face"\n'
        + board("low", (0, 100), (1000, 100))
        + board("high", (0, 600), (1000, 600))
        + board("plumb", (250, 100), (250, 600))
        + board("raking", (600, 100), (600 + lean, 600))
    )
    book, order = booked(text)

    assert bool(stops(book)) == (not possible)
    assert bool(order.locked) == (not possible)


# ---- a closed frame with loose tongues


@pytest.mark.parametrize(("points", "half"), [(RECTANGLE, 2), (polygon(6), 3)], ids=["rectangle", "hexagon"])
def test_a_closed_frame_with_tongues_closes_as_two_halves_and_never_one_by_one(points, half):
    book, order = booked(TONGUES + frame(points))
    shop = order.stages[0]

    assert stops(book) == []
    assert (shop.name, shop.place) == ("box", "shop")
    assert len(shop.steps[-1].parts) == half
    assert len(shop.steps[-1].onto) == len(points) - half
    assert all(len(step.into) == 1 for step in shop.steps[:-1])
    assert len(shop.steps[-1].joints) == 2


@pytest.mark.parametrize(
    "text",
    [frame(polygon(5)), frame(RECTANGLE, '["oak", "thin", "oak", "oak"]')],
    ids=["pentagon", "one side thinner"],
)
def test_corners_whose_mitres_are_not_parallel_cannot_close_with_tongues_and_one_corner_with_keys_frees_them(text):
    book, order = booked(TONGUES + text)
    (finding,) = stops(book)

    assert len(finding.where.boards) == len(order.stages[0].parts)
    assert "keys instead of a tongue" in finding.cures[0].label
    assert stops(cured(TONGUES + text, finding)[0]) == []


def test_a_plain_mitred_frame_takes_its_boards_one_by_one():
    order = booked(frame(RECTANGLE))[1]

    assert all(len(step.parts) == 1 for step in order.stages[0].steps)


def test_keys_wait_until_the_frame_is_glued_and_come_before_what_stands_in_the_way():
    text = '[joints.mitre]\nstrengthen = "keys"\n' + frame(RECTANGLE) + let_in("front")
    shop, site = booked(text)[1].stages

    assert len(shop.after) == 4
    assert all(name.startswith("keys of mitre") for name in shop.after)
    assert site.after == ()


# ---- a board let in inside a glued frame


def test_inside_a_glued_frame_a_board_stopped_at_the_front_goes_in_from_the_wall_only():
    book, order = booked(frame(RECTANGLE) + let_in("front"))
    _, site = order.stages

    assert stops(book) == []
    (step,) = site.steps
    into_box = step.legs[0].direction if step.name == "inner" else tuple(-x for x in step.legs[0].direction)
    assert tuple(round(x, 9) + 0.0 for x in into_box) == (0.0, 0.0, 1.0)


def test_stopped_at_both_ends_it_goes_in_before_the_frame_is_glued_or_never():
    text = frame(RECTANGLE) + let_in("both")
    (finding,) = stops(booked(text)[0])

    assert finding.cures[0].label == "let inner go in before box is glued"
    after, plan = cured(text, finding)
    assert stops(after) == []
    assert set(plan.stages[0].parts) == {"box 1", "box 2", "box 3", "box 4", "inner"}


def test_a_board_that_crosses_a_glued_frame_has_its_slots_there_open_to_one_edge():
    crossing = board("through", (400, -200), (400, 700))
    book, order = booked(frame(RECTANGLE) + crossing)
    fronts = {book.piece.joint_by_key[pair_key("through", f"box {side}")].hand.front == "through" for side in (1, 3)}

    assert len(fronts) == 1
    assert stops(book) == []
    assert order.stages[-1].steps[-1].legs[0].direction[:2] == (0.0, 0.0)


def test_a_unit_that_the_site_wants_last_goes_in_last():
    shelf = board("shelf", (-300, 250), (1200, 250))
    unit = '[[unit]]\nname = "glued box"\nboards = ["box"]\nlast = true\n'
    text = frame(RECTANGLE) + shelf
    ends = [booked(words)[1].stages[-1].steps[-1].name for words in (text, text + unit)]

    assert ends == ["shelf", "glued box"]


# ---- dowels hold as tongues do


def test_a_board_dowelled_between_two_fixed_sides_goes_in_before_they_are_closed():
    text = frame(RECTANGLE) + board("inner", (24, 250), (876, 250), timber="thin")
    text += "".join(f'[[joint]]\nbetween = ["inner", "box {k}"]\nkind = "butt"\nfasten = "dowels"\n' for k in (2, 4))
    (finding,) = stops(booked(text)[0])

    assert set(finding.where.boards) == {"inner", "box 1", "box 2", "box 3", "box 4"}
    assert "before box is glued" in finding.cures[0].label or "screw" in finding.cures[0].label
