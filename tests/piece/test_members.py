"""Boards longer than their stock are divided into members that meet in line.

The shelf is 2600 long, its stock 2000; trim of 10 at each end leaves 1980 for a member. Uprights 24 thick cross
it at 200, 1000, 1800 and 2400. In the bay from 1800 to 2400 the quarter point is 1950: near the upright at
1800, clear of it by 138, outside the middle third (2000 to 2200), and within reach: there it is divided.
"""

import math

import pytest

from dryfit.book import Bench, piece_of, read_job_text
from dryfit.job.writing import apply
from dryfit.joints import KINDS, NAMED

HEAD = """\
dryfit = 1
[job]
title = "wall"
[timber.oak]
species = "oak, white"
form = "panel"
thickness = 24
longest = 2000
[wall]
hung = true
"""
UPRIGHTS = (200, 1000, 1800, 2400)


def board(name, line, more=""):
    return f'[[board]]\nname = "{name}"\ntimber = "oak"\nline = {line}\ndepth = 300\n{more}'


def job(line=((0, 500), (2600, 500)), more="", uprights=UPRIGHTS, rest=""):
    stands = "".join(board(f"upright {x}", [[x, 0], [x, 1000]]) for x in uprights)
    return HEAD + board("shelf", [list(point) for point in line], more) + stands + rest


def piece(text):
    return piece_of(read_job_text(text), bench=Bench())


def members(made):
    return {part.id: part.length for part in made.parts if part.id.startswith("shelf")}


def test_a_board_longer_than_its_stock_is_divided_at_a_quarter_of_a_bay():
    assert members(piece(job())) == {"shelf (1 of 2)": 1950.0, "shelf (2 of 2)": 650.0}


def test_a_board_that_the_stock_holds_is_left_whole():
    assert members(piece(job(((0, 500), (1980, 500))))) == {"shelf": 1980.0}


def test_the_line_drawn_the_other_way_gives_the_same_members():
    there, back = piece(job()), piece(job(((2600, 500), (0, 500))))

    assert members(there) == members(back)
    assert [joint.key for joint in there.joints] == [joint.key for joint in back.joints]


def test_the_makers_places_are_taken_and_said_to_be_the_makers():
    made = piece(job(more="splice_at = [1100]\n"))

    assert members(made) == {"shelf (1 of 2)": 1100.0, "shelf (2 of 2)": 1500.0}
    (decision,) = [decision for decision in made.decisions if decision.about == "where the board is divided"]
    assert (decision.decider, decision.keep) == ("maker", None)


def test_no_division_lies_in_a_middle_third_or_near_a_joint():
    made = piece(job(uprights=(150, 700, 1350, 1900, 2450)))
    places = [part.length for part in made.parts if part.id.startswith("shelf")][:-1]
    at = [sum(places[: number + 1]) for number in range(len(places))]
    supports = (150, 700, 1350, 1900, 2450)

    for place in at:
        before = max(x for x in supports if x < place)
        after = min(x for x in supports if x > place)
        assert min(place - before, after - place) <= (after - before) / 3 + 0.5
        assert min(place - before, after - place) >= 2 * 24 + 12


def test_what_is_said_of_the_whole_board_is_handed_on_to_its_members():
    rest = (
        '[[joint]]\nbetween = ["shelf", "upright 2400"]\nfront = "upright 2400"\n'
        '[[fixing]]\nboard = "shelf"\nkind = "long screw"\nat = [400, 2500]\nscrew = "wood 5x120"\n'
    )
    made = piece(job(rest=rest))
    fixed = {joint.key[0]: joint.meeting.a.body for joint in made.joints if joint.kind == "long screw"}

    assert made.joint_by_key["shelf (2 of 2)", "upright 2400"].hand.front == "upright 2400"
    assert fixed == {"fixing of shelf 1": "shelf (1 of 2)", "fixing of shelf 2": "shelf (2 of 2)"}
    bores = [joint.meeting.places for joint in made.joints if joint.kind == "long screw"]
    assert bores == [(400.0,), (550.0,)]


def test_keeping_the_decision_writes_the_place_and_comes_back_to_the_same_piece():
    text = job()
    before = piece(text)
    (decision,) = [decision for decision in before.decisions if decision.about == "where the board is divided"]
    kinds = {name: kind.options for name, kind in KINDS.items()}
    kept = apply(text, [decision.keep], kinds=kinds, named=NAMED)
    after = piece(kept)

    assert "splice_at = [1950" in kept
    assert members(after) == members(before)
    assert after.joints == before.joints


def test_until_a_splice_can_be_made_the_members_meet_square_and_a_stop_says_so():
    made = piece(job())
    (joint,) = [joint for joint in made.joints if joint.meeting.form == "in line"]

    assert joint.kind == "butt"
    (stop,) = [finding for finding in made.findings if finding.code == "joint-not-made-yet"]
    assert "end to end" in stop.says
    assert stop.cures[0].edits[0].path == ("joints", "in_line")


def test_a_board_without_a_support_where_it_could_be_divided_is_a_stop():
    made = piece(job(uprights=()))

    assert members(made) == {"shelf": 2600.0}
    assert [finding.code for finding in made.findings if finding.severity.value == "stop"] == ["no-place-to-divide"]


@pytest.mark.parametrize("longest", [1200, 1500, 2000])
def test_every_member_can_be_cut_from_the_stock(longest):
    made = piece(job(uprights=tuple(range(150, 2600, 300))).replace("longest = 2000", f"longest = {longest}"))
    lengths = members(made)

    assert sum(lengths.values()) == pytest.approx(2600)
    assert max(lengths.values()) <= longest - 20
    assert len(lengths) >= math.ceil(2600 / (longest - 20))
