"""Rules of the trade as cases: what is possible before and after gluing, from which side, as two halves or not at all.

Boards are 24 thick and 300 deep and wall edges lie at 0 where nothing else is said.
"""

import math

import pytest

from dryfit.book import build, piece_of, read_job_text
from dryfit.book.building import scene_of
from dryfit.book.reading import change_job_text
from dryfit.piece.meetings import pair_key
from dryfit.piece.solids import Solids
from dryfit.shop.model import Shop
from dryfit.studies.order import OrderStudy

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
BARE = '[[unit]]\nname = "bare box"\nboards = ["box"]\n'  # the maker glues the frame by itself
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

    found = [
        (str(f.says).split(" x ")[0], f.found)
        for f in book.findings
        if f.code == "open-notch" and "front" in str(f.says)
    ]
    assert found == ([] if notch is None else [("open notch 30", notch)])
    assert joint.making.front == (front or "A")
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
    assert "for straight moves" in str(finding.says)
    assert "to the wall" in str(finding.cures[0].label)
    after, plan = cured(text, finding)
    assert stops(after) == []
    assert plan.locked == ()


@pytest.mark.parametrize("stop", ["front", "one end"])
def test_open_to_the_wall_they_go_together_along_z(stop):
    book, order = booked(f'[joints.housing]\nstop = "{stop}"\n' + LADDER)

    assert stops(book) == []
    (stage,) = order.stages
    last = stage.steps[-1]
    assert str(last.name) in ("low", "high")
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
    assert "keys instead of a tongue" in str(finding.cures[0].label)
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
    book, order = booked(frame(RECTANGLE) + BARE + let_in("front"))
    _, site = order.stages

    assert stops(book) == []
    (step,) = site.steps
    into_box = step.legs[0].direction if str(step.name) == "inner" else tuple(-x for x in step.legs[0].direction)
    assert tuple(round(x, 9) + 0.0 for x in into_box) == (0.0, 0.0, 1.0)


def test_stopped_at_both_ends_it_goes_in_before_the_frame_is_glued_or_never():
    text = frame(RECTANGLE) + BARE + let_in("both")
    (finding,) = stops(booked(text)[0])

    assert str(finding.cures[0].label) == "let inner go in before bare box is glued"
    after, plan = cured(text, finding)
    assert stops(after) == []
    assert set(plan.stages[0].parts) == {"box 1", "box 2", "box 3", "box 4", "inner"}


def test_a_board_that_crosses_a_glued_frame_has_its_slots_there_open_to_one_edge():
    crossing = board("through", (400, -200), (400, 700))
    book, order = booked(frame(RECTANGLE) + crossing)
    fronts = {book.piece.joint_by_key[pair_key("through", f"box {side}")].making.front == "through" for side in (1, 3)}

    assert len(fronts) == 1
    assert stops(book) == []
    assert order.stages[-1].steps[-1].legs[0].direction[:2] == (0.0, 0.0)


def test_a_unit_that_the_site_wants_last_goes_in_last():
    shelf = board("shelf", (-300, 250), (1200, 250))
    unit = '[[unit]]\nname = "glued box"\nboards = ["box"]\nlast = true\n'
    text = frame(RECTANGLE) + shelf
    ends = [str(booked(words)[1].stages[-1].steps[-1].name) for words in (text, text + unit)]

    assert ends == ["shelf", "glued box"]


# ---- dowels hold as tongues do


def test_a_board_dowelled_between_two_fixed_sides_goes_in_before_they_are_closed():
    (finding,) = stops(booked(frame(RECTANGLE) + BARE + DOWELLED)[0])

    assert set(finding.where.boards) == {"inner", "box 1", "box 2", "box 3", "box 4"}
    label = str(finding.cures[0].label)
    assert "before bare box is glued" in label or "screw" in label


# ---- a frame is closed round what stands between its own sides

DOWELLED = board("inner", (24, 250), (876, 250), timber="thin") + "".join(
    f'[[joint]]\nbetween = ["inner", "box {side}"]\nkind = "butt"\nfasten = "dowels"\n' for side in (2, 4)
)
DRY = let_in("through").replace('stop = "through"', "glued = false")
LEANING = "".join(board(name, (x, 24), (x + lean, 476)) for name, x, lean in (("plumb", 300, 0), ("raking", 600, 80)))
INNER_FIRST = "before box is glued"


@pytest.mark.parametrize(
    "inside", [let_in("front"), let_in("both"), DOWELLED, LEANING], ids=["front", "both", "dowels", "two"]
)
def test_a_frame_that_is_glued_is_closed_round_the_boards_between_its_sides_and_that_is_a_decision_to_keep(inside):
    text = frame(RECTANGLE) + inside
    book, order = booked(text)
    names = {part.id for part in book.piece.parts}
    told = [decision for decision in book.piece.decisions if str(decision.value) == INNER_FIRST]

    assert stops(book) == []
    assert set(order.stages[0].parts) == names
    assert order.stages[1].steps == ()
    assert {decision.key[0] for decision in told} == names - {f"box {side}" for side in (1, 2, 3, 4)}
    changed, _ = change_job_text(HEAD + text, (told[0].keep,))
    kept = build(read_job_text(changed))
    assert kept.studies["order"].stages[0].steps == order.stages[0].steps
    assert not [decision for decision in kept.piece.decisions if str(decision.value) == INNER_FIRST]


def test_a_dry_board_that_can_be_slid_in_later_is_left_out_and_so_is_one_with_one_end_outside():
    for text in (DRY, board("half", (300, 250), (876, 250), timber="thin") + board("cross", (300, -100), (300, 600))):
        book, order = booked(frame(RECTANGLE) + text)

        assert stops(book) == []
        assert set(order.stages[0].parts) == {"box 1", "box 2", "box 3", "box 4"}


def test_boards_that_end_on_what_was_taken_in_are_taken_in_too():
    """A divider between the two level sides; a shelf from it to a side; an upright from the shelf to the top."""
    inside = (
        board("divider", (300, 24), (300, 476))
        + board("shelf", (300, 200), (876, 200))
        + board("post", (600, 200), (600, 476))
    )
    book, order = booked(frame(RECTANGLE) + inside)

    assert stops(book) == []
    assert len(order.stages[0].parts) == 7


CASE = BARE + (
    '[joints]\nend_on_face = "butt"\n'
    + board("tall", (300, 24), (300, 476))
    + board("shelf", (300, 250), (876, 250))
    + board("post", (600, 24), (600, 250))
    + board("post above", (600, 250), (600, 476))
)


def test_a_dowelled_case_whose_frame_is_glued_by_itself_has_a_cure_for_every_stop_and_the_first_ends_them_all():
    """Settling finds tall locked with the frame; the study, apart from it, finds the shelf and the post above it."""
    text = frame(RECTANGLE) + CASE
    one, other = stops(booked(text)[0])

    assert (one.code, other.code) == ("locked", "no-order")
    assert str(one.cures[0].label) == "let tall, shelf, post and post above go in before bare box is glued"
    assert str(other.cures[0].label) == "let shelf and post above go in before bare box is glued"
    after, plan = cured(text, one)
    assert stops(after) == []
    assert plan.locked == ()
    assert len(plan.stages[0].parts) == 8


def test_the_same_case_is_closed_round_its_boards_by_itself():
    book, order = booked(frame(RECTANGLE) + CASE.removeprefix(BARE))

    assert stops(book) == []
    assert len(order.stages[0].parts) == 8


# ---- glue, flat boards, and on which edges the piece is begun


def test_a_glued_board_is_pushed_home_rather_than_slid_along_its_glue_where_it_can_be():
    """Of a plumb and a raking divider between two shelves one thing slides; the rest is pushed home, 8 deep."""
    _, order = booked(LADDER)
    (stage,) = order.stages
    slid = [step for step in stage.steps if step.legs and step.legs[0].distance > 100]

    assert len(slid) == 1
    assert len(slid[0].joints) == 2


def test_what_touches_nothing_yet_lies_there_from_the_start():
    _, order = booked(board("low", (0, 100), (900, 100)) + board("high", (0, 500), (900, 500))
                      + board("a", (300, -50), (300, 700)) + board("b", (600, -50), (600, 700)))  # fmt: skip
    (stage,) = order.stages
    laid = [not step.legs for step in stage.steps]

    assert laid == sorted(laid, reverse=True)
    assert sum(laid) == 1


SHELVED = (
    '[[board]]\nname = "rail"\ntimber = "thin"\nlies = "flat"\nline = [[0, 900], [900, 900]]\nwidth = 90\n'
    + board("post 1", (200, 0), (200, 1000)) + board("post 2", (700, 0), (700, 1000))
)  # fmt: skip


def test_flat_boards_lie_on_the_floor_first_while_the_piece_lies_on_its_wall_edges():
    _, order = booked(SHELVED + board("shelf", (0, 400), (900, 400)))
    (stage,) = order.stages

    assert order.turns == 0
    assert {step.up for step in stage.steps} == {"front"}
    laid = [*stage.first, *(part for step in stage.steps if not step.legs for part in step.parts)]
    assert "rail" in laid


def test_a_piece_that_goes_together_from_the_wall_is_begun_on_its_front_edges_and_flat_boards_drop_in_last():
    """Both posts take a shelf between them that is housed at its own depth only: then shelf b from the wall."""
    between = board("between", (200, 600), (700, 600), depth=200).replace("depth = 200", "depth = 200\nback = 50")
    words = "".join(f'[[joint]]\nbetween = ["long", "post {n}"]\nfront = "long"\n' for n in (1, 2))
    _, order = booked(SHELVED + between + board("long", (0, 400), (900, 400)) + words)
    (stage,) = order.stages

    assert order.turns == 0
    assert {step.up for step in stage.steps} == {"wall"}
    assert str(stage.steps[-1].name) == "rail"
    assert stage.steps[-1].legs[0].direction == (0.0, 0.0, 1.0)


def test_what_is_together_is_turned_over_where_boards_go_in_from_both_sides():
    """A divider between two shelves goes in along them, so they are together before any upright."""
    text = (
        '[joints.housing]\nstop = "both"\n' + board("low", (0, 100), (900, 100)) + board("high", (0, 500), (900, 500))
        + board("divider", (600, 100), (600, 500)) + board("one", (300, -100), (300, 700))
        + board("other", (800, -100), (800, 700))
    )  # fmt: skip
    for shelf in ("low", "high"):
        text += "".join(
            f'[[joint]]\nbetween = ["{name}", "{shelf}"]\nfront = "{front}"\n'
            for name, front in (("one", "one"), ("other", shelf))
        )
    book, order = booked(text)

    assert order.turns == 1
    assert [str(step.name) for step in order.stages[0].steps if step.turned] == ["one"]
    (note,) = [finding for finding in book.findings if finding.code == "turned-over"]
    assert str(note.says) == "the piece is turned over once while it is put together, to put in one"


# ---- what ties boards to the ways of their joint


@pytest.mark.parametrize(
    ("options", "tied"),
    [
        ('fasten = "dowels"', True),
        ('fasten = "screws"', False),
        ('fasten = "none"', False),
        ('kind = "mitre"\nstrengthen = "tongue"', True),
        ('kind = "mitre"\nstrengthen = "keys"', False),
    ],
    ids=["dowels", "screws", "glue alone", "a tongue", "keys"],
)
def test_only_what_is_put_in_before_a_joint_closes_ties_it_to_its_ways(options, tied):
    """Screws are driven when it stands, and keys let in when it is glued."""
    kind = "" if "kind" in options else 'kind = "butt"\n'
    text = HEAD + board("top", (0, 500), (600, 500)) + board("side", (600, 500), (600, 0))
    text += f'[[joint]]\nbetween = ["top", "side"]\n{kind}{options}\n'
    job = read_job_text(text)
    (joint,) = OrderStudy().reads(scene_of(job, Shop(), piece_of(job), Solids())).joints

    assert joint.loose is tied
