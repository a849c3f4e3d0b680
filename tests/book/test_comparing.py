"""What each kind of joint would cost at a meeting, on a piece whose figures can be checked in the head.

All boards are 20 thick and 200 deep. An upright crosses a shelf; a divider stands on the shelf. A housing is a third of
the board deep, in whole halves: 6.5. So its glue is 20 x 200 of the floor and twice 6.5 x 200 of the walls; a butt's is
the end alone. Dowels stand one in 100, so there are two. Between the shelf and the post at its end is a corner.
"""

from dataclasses import replace

import pytest

from dryfit.book import Comparing, build, change_job_text, read_job_text
from dryfit.joints import KINDS, NAMED
from dryfit.places import Edit
from dryfit.studies.setups.result import SetUps
from tests.piece.making import UNMADE, asked

JOB = """
dryfit = 1
[job]
title = "Demo: a shelf with an upright, a divider and a post"
[timber.oak]
species = "oak, white"
thickness = 20
[[board]]
name = "shelf"
timber = "oak"
line = [[0, 300], [1000, 300]]
depth = 200
[[board]]
name = "upright"
timber = "oak"
line = [[200, 0], [200, 600]]
depth = 200
[[board]]
name = "divider"
timber = "oak"
line = [[600, 300], [600, 700]]
depth = 200
[[board]]
name = "post"
timber = "oak"
line = [[1000, 300], [1000, 700]]
depth = 200
"""


def compared(text, one, other):
    comparing = Comparing(read_job_text(text))
    (meeting,) = comparing.meetings(one, other)
    return comparing.compare(meeting)


def kind_of(text, one, other, kind):
    (found,) = [found for found in compared(text, one, other).kinds if found.kind == kind]
    return found


def words(cost, board):
    return [(cut.word, len(cut.shapes) if cut.form.in_rows else 1) for cut in cost.cuts_in(board)]


def test_a_cross_halving_is_a_slot_in_either_board_dry_and_seen_at_both_edges():
    cost = kind_of(JOB, "shelf", "upright", "cross halving").cost

    assert words(cost, "shelf") == words(cost, "upright") == [("slot", 1)]
    assert (len(cost.setups), len(cost.alone)) == (1, 1)  # both 100 deep and as wide as 20 thick and the clearance
    assert cost.glue_mm2 is None
    assert cost.hardware == ()
    assert cost.edges == ("front edge", "wall edge")
    assert not cost.hidden
    assert cost.makings == 2  # either board's slot may open to the front
    assert [way.direction for way in cost.ways] in ([(0.0, 0.0, 1.0)], [(0.0, 0.0, -1.0)])


def test_a_housing_is_glued_on_floor_and_walls_and_is_seen_where_it_runs_out():
    cost = kind_of(JOB, "shelf", "divider", "housing").cost

    assert words(cost, "shelf") == [("housing", 1)]
    assert words(cost, "divider") == [("end", 1)]
    assert cost.glue_mm2 == pytest.approx(20 * 200 + 2 * 6.5 * 200)
    assert (len(cost.setups), len(cost.alone)) == (1, 1)  # the end is sawn to its line
    assert cost.hardware == ()
    assert cost.edges == ("front edge", "wall edge")
    assert {way.direction for way in cost.ways} == {(0.0, 1.0, 0.0), (0.0, 0.0, 1.0), (0.0, 0.0, -1.0)}


@pytest.mark.parametrize(
    ("stop", "edges"),
    [("front", ("wall edge",)), ("wall", ("front edge",)), ("both", ())],
)
def test_a_housing_is_seen_at_the_edges_that_it_is_not_stopped_at(stop, edges):
    text = JOB + f'[[joint]]\nbetween = ["shelf", "divider"]\nkind = "housing"\nstop = "{stop}"\n'
    cost = kind_of(text, "shelf", "divider", "housing").cost

    assert cost.edges == edges
    assert cost.hidden is (not edges)


def test_a_butt_is_two_dowels_hidden_that_let_the_end_come_square_to_the_face_alone():
    cost = kind_of(JOB, "shelf", "divider", "butt").cost

    assert words(cost, "shelf") == [("dowel holes", 2)]
    assert words(cost, "divider") == [("end", 1), ("dowel holes", 2)]
    assert cost.glue_mm2 == pytest.approx(20 * 200)
    assert [(ware.what, ware.count) for ware in cost.hardware] == [("dowel", 2)]
    assert cost.hidden
    assert [way.direction for way in cost.ways] == [(0.0, 1.0, 0.0)]


def test_screws_are_seen_by_their_plugs_and_keys_as_they_are_cut_from_outside():
    more = '[joints.butt]\nfasten = "screws"\n[joints.mitre]\nstrengthen = "keys"\n'
    screwed, keyed = (kind_of(JOB + more, "shelf", "post", kind).cost for kind in ("butt", "mitre"))

    assert screwed.covers == ("plug",)
    assert screwed.driven == ()
    assert keyed.after_gluing == ("key pockets",)
    assert not screwed.hidden
    assert not keyed.hidden


def test_a_set_up_that_others_want_too_is_not_for_the_joint_alone():
    twice = JOB + '[[board]]\nname = "second"\ntimber = "oak"\nline = [[400, 300], [400, 700]]\ndepth = 200\n'
    housing, butt = (kind_of(twice, "shelf", "divider", kind).cost for kind in ("housing", "butt"))

    assert (len(housing.setups), housing.alone) == (1, ())  # the second one's housing is the same
    assert len(butt.alone) == len(butt.setups) > 0  # nothing else is dowelled


@pytest.mark.parametrize(
    ("other", "now", "able"),
    [
        ("upright", "cross halving", {"cross halving"}),
        ("divider", "housing", {"housing", "butt"}),
        ("post", "mitre", {"mitre", "butt"}),
    ],
)
def test_every_kind_is_told_and_which_one_the_job_has(other, now, able):
    found = compared(JOB, "shelf", other)

    assert {one.kind for one in found.kinds} == set(KINDS)
    assert found.now == found.asked == now
    assert [one.kind for one in found.kinds if one.now] == [now]
    assert {one.kind for one in found.kinds if one.cost is not None} >= able
    assert all(one.judgement.reasons for one in found.kinds if one.cost is None)
    assert set(found.not_made) == set(NAMED) - set(KINDS)


@pytest.mark.parametrize("other", ["divider", "post"])
def test_what_a_kind_would_cost_is_what_it_costs_once_the_job_asks_for_it(other):
    found = compared(JOB, "shelf", other)
    others = [one for one in found.kinds if one.cost is not None and not one.now]
    assert others
    for one in others:
        edit = Edit(action="add", path=("joint",), value={"between": ["shelf", other], "kind": one.kind})
        _, job = change_job_text(JOB, [edit])
        book = build(job)
        joint = book.piece.joint_by_key[found.meeting.key]
        keys = {cut.key for cut in joint.cuts}
        assert joint.kind == one.kind
        assert joint.cuts == one.cost.cuts
        assert tuple(s for s in book.found(SetUps).all if keys.intersection(s.cuts)) == one.cost.setups


def test_a_kind_that_breaks_into_another_joint_brings_that_stop_and_the_one_at_hand_does_not():
    """A second divider hangs under the first: the dowels of one come near the other's housing."""
    under = '[[board]]\nname = "under"\ntimber = "oak"\nline = [[604, 300], [604, 0]]\ndepth = 200\n'
    deep = '[[joint]]\nbetween = ["shelf", "under"]\nkind = "housing"\ndepth = 9\n'
    found = {one.kind: one for one in compared(JOB + under + deep, "shelf", "divider").kinds}

    assert found["housing"].now
    assert not found["housing"].stops
    assert [stop.where.boards for stop in found["butt"].stops] == [("shelf",)]
    assert not any(finding.cures for one in found.values() for finding in one.brings)  # they are of no written job


def test_a_refusal_carries_its_figures():
    low = JOB.replace("[[600, 300], [600, 700]]", "[[600, 300], [900, 360]]")  # rises 60 in 300: 11.3 degrees
    judgement = kind_of(low, "shelf", "divider", "butt").judgement

    assert not judgement.possible
    assert judgement.found == pytest.approx(11.31, abs=0.01)
    assert judgement.limit == 15.0


def test_a_kind_that_cannot_be_made_is_told_as_what_the_job_asks_for():
    job = replace(read_job_text(JOB), joint_specs=(asked("shelf", "divider", UNMADE),))
    comparing = Comparing(job)
    found = comparing.compare(comparing.meetings("shelf", "divider")[0])

    assert (found.asked, found.now) == (UNMADE, "")
    assert not any(one.now for one in found.kinds)
    assert {one.kind for one in found.kinds if one.cost is not None} >= {"housing", "butt"}


def test_options_that_both_kinds_know_stay_and_others_go():
    text = JOB + '[[joint]]\nbetween = ["shelf", "divider"]\nkind = "housing"\nglued = false\ndepth = 8\n'
    butt = kind_of(text, "shelf", "divider", "butt")

    assert butt.judgement.possible
    assert butt.cost.glue_mm2 is None


def test_a_board_that_is_divided_goes_by_its_own_name_and_its_members():
    comparing = Comparing(read_job_text(JOB.replace("thickness = 20", "thickness = 20\nlongest = 700")))

    (whole,) = comparing.meetings("shelf", "divider")
    assert all(comparing.meetings(name, "divider") == (whole,) for name in whole.key if name != "divider")
    assert comparing.met_by("shelf") == ("divider", "post", "upright")
    (between,) = comparing.meetings("shelf (1 of 2)", "shelf (2 of 2)")
    assert comparing.compare(between).now == "splice"
