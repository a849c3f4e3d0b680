"""Settling which slot opens to the front: each rule in its turn, and the piece that must go together.

The over-relation: in every crossing the board whose slot opens to the front lies first, the other comes down
over it. The piece goes together if and only if "lies before" has no ring (assembly cases A2, A3, A4: a 2 x 2
grid with the joints at two diagonally opposite crossings swapped is locked; with one swapped it is not).
The graph is sorted here by a few lines of our own, apart from the product.
"""

import random

from hypothesis import given, settings
from hypothesis import strategies as st

from dryfit.findings import Severity
from dryfit.piece.meetings import pair_key
from dryfit.piece.setout import Made
from dryfit.places import Edit

from .making import asked, built, coded, job_of, joint_of, plank


def grid(levels, uprights, depth=lambda name: 300.0):
    """`levels` boards along x at y = 100, 200 ... and `uprights` boards along y at x = 100, 200 ..."""
    boards = [
        plank(f"X{i}", (0, 100 * i), (100 * uprights + 100, 100 * i), depth=depth(f"X{i}"))
        for i in range(1, levels + 1)
    ]
    boards += [
        plank(f"Y{i}", (100 * i, 0), (100 * i, 100 * levels + 100), depth=depth(f"Y{i}"))
        for i in range(1, uprights + 1)
    ]
    return boards


def lies_before(piece):
    """(first, then) for every crossing, as made."""
    return [
        (joint.making.front, joint.meeting.other(joint.making.front).body)
        for joint in piece.joints
        if joint.making.front
    ]


def ringed(pairs):
    """The names that lie in a ring of "before", or between two: what is left when free ends are taken off."""
    pairs = set(pairs)
    while True:
        firsts, thens = {first for first, _ in pairs}, {then for _, then in pairs}
        kept = {(first, then) for first, then in pairs if first in thens and then in firsts}
        if kept == pairs:
            return {name for pair in pairs for name in pair}
        pairs = kept


def words(*pairs):
    """`[[joint]]` tables in which the first board of each pair opens to the front."""
    return tuple(asked(first, then, front=first, index=index) for index, (first, then) in enumerate(pairs))


def decided(piece, one, other):
    (decision,) = [decision for decision in piece.decisions if decision.key == pair_key(one, other)]
    return decision


def test_level_boards_lie_first_and_the_reason_says_so():
    piece = built(job_of(*grid(2, 2)))

    assert {first for first, _ in lies_before(piece)} == {"X1", "X2"}
    decision = decided(piece, "Y1", "X2")
    assert (decision.about, decision.decider) == ("which slot opens to the front", "chosen")
    assert (str(decision.value), *map(str, decision.others)) == ("X2", "Y1")
    assert "X2 is laid before Y1" in str(decision.reason)


def test_the_maker_s_word_is_taken_first():
    piece = built(job_of(*grid(2, 2), joint_specs=words(("Y1", "X1"))))

    assert joint_of(piece, "X1", "Y1").making.front == "Y1"
    decision = decided(piece, "X1", "Y1")
    assert (decision.decider, decision.reason, decision.keep) == ("maker", "the job file says so", None)
    assert not ringed(lies_before(piece))


def test_a_slot_that_is_cut_goes_before_the_maker_s_word_and_against_it_is_a_stop_with_its_cure():
    made = Made(pins={}, thickness={}, fronts={("X1", "Y1"): "X1"})
    piece = built(job_of(*grid(1, 1), joint_specs=words(("Y1", "X1"))), made)
    (finding,) = coded(piece.findings, "against-what-is-made")

    assert joint_of(piece, "X1", "Y1").making.front == "X1"
    assert decided(piece, "X1", "Y1").decider == "already made"
    assert finding.severity is Severity.STOP
    assert finding.where.joint == ("X1", "Y1")
    assert finding.where.path == ("joint", 0, "front")
    assert finding.cures[0].edits == (Edit(action="set", path=("joint", 0, "front"), value="X1"),)


def test_a_slot_that_is_cut_as_the_maker_says_is_no_finding():
    made = Made(pins={}, thickness={}, fronts={("X1", "Y1"): "Y1"})
    piece = built(job_of(*grid(1, 1), joint_specs=words(("Y1", "X1"))), made)

    assert not coded(piece.findings, "against-what-is-made")
    assert decided(piece, "X1", "Y1").reason == "the slot is cut"


def test_a_board_that_stands_proud_at_the_front_is_slotted_from_the_wall():
    """Y stands 30 proud of X: opened to the front, its slot would run out 30 in front of X."""
    piece = built(job_of(*grid(1, 1, depth=lambda name: 330 if name == "Y1" else 300)))

    assert joint_of(piece, "X1", "Y1").making.front == "X1"
    assert "Y1 stands proud at the front" in str(decided(piece, "X1", "Y1").reason)
    assert not coded(piece.findings, "open-notch")


def test_a_level_board_that_stands_proud_is_slotted_from_the_wall_though_level_boards_lie_first():
    piece = built(job_of(*grid(1, 1, depth=lambda name: 330 if name == "X1" else 300)))

    assert joint_of(piece, "X1", "Y1").making.front == "Y1"


def test_an_open_notch_is_taken_rather_than_a_piece_that_does_not_go_together():
    """X1 before Y1 before X2 before Y2 are the maker's words; Y2 set back by 30 would have to lie before X1."""
    said = words(("X1", "Y1"), ("Y1", "X2"), ("X2", "Y2"))
    piece = built(job_of(*grid(2, 2, depth=lambda name: 270 if name == "Y2" else 300), joint_specs=said))

    assert joint_of(piece, "X1", "Y2").making.front == "X1"
    assert decided(piece, "X1", "Y2").reason == "the other way the piece could not be put together"
    assert [finding.found for finding in coded(piece.findings, "open-notch")] == [30.0, 30.0]
    assert not coded(piece.findings, "locked")


def test_words_in_a_ring_are_a_stop_that_names_exactly_the_ring():
    said = words(("X1", "Y1"), ("Y1", "X2"), ("X2", "Y2"), ("Y2", "X1"))
    (finding,) = coded(built(job_of(*grid(2, 2), joint_specs=said)).findings, "locked")

    assert finding.severity is Severity.STOP
    assert set(finding.where.boards) == {"X1", "Y1", "X2", "Y2"}
    assert "in a ring" in str(finding.says)
    assert len(finding.cures) == 1


def test_the_cure_of_a_ring_ends_it():
    said = words(("X1", "Y1"), ("Y1", "X2"), ("X2", "Y2"), ("Y2", "X1"))
    (finding,) = coded(built(job_of(*grid(2, 2), joint_specs=said)).findings, "locked")
    (edit,) = finding.cures[0].edits
    assert (edit.action, edit.path[0], edit.path[2]) == ("set", "joint", "front")

    cured = tuple(
        asked(*spec.between, front=str(edit.value) if spec.path == edit.path[:2] else spec.front) for spec in said
    )

    assert not coded(built(job_of(*grid(2, 2), joint_specs=cured)).findings, "locked")


def test_one_swapped_crossing_is_no_ring():
    """Case A4: X0 > Y0 swapped alone; the order is the chain X1, Y0, X0, Y1."""
    said = words(("Y1", "X1"), ("X1", "Y2"), ("X2", "Y1"), ("X2", "Y2"))
    piece = built(job_of(*grid(2, 2), joint_specs=said))

    assert not coded(piece.findings, "locked")
    assert not ringed(lies_before(piece))


def test_in_a_large_grid_the_ring_is_named_and_nothing_else():
    """Case A3, 8 x 8: two crossings swapped; 4 of 16 boards are locked."""
    swapped = {("X3", "Y5"), ("X4", "Y6")}
    pairs = [(f"X{i}", f"Y{j}") for i in range(1, 9) for j in range(1, 9)]
    said = words(*(pair[::-1] if pair in swapped else pair for pair in pairs))

    (finding,) = coded(built(job_of(*grid(8, 8), joint_specs=said)).findings, "locked")

    assert sorted(finding.where.boards) == ["X3", "X4", "Y5", "Y6"]


def test_a_made_slot_closes_a_ring_as_a_word_does():
    made = Made(pins={}, thickness={}, fronts={("X1", "Y2"): "Y2"})
    said = words(("X1", "Y1"), ("Y1", "X2"), ("X2", "Y2"))

    (finding,) = coded(built(job_of(*grid(2, 2), joint_specs=said), made).findings, "locked")

    assert set(finding.where.boards) == {"X1", "Y1", "X2", "Y2"}


@st.composite
def halving_grids(draw):
    """Boards of unlike depth, and words for some of the crossings."""
    levels, uprights = draw(st.integers(1, 4)), draw(st.integers(1, 4))
    depths = {
        name: draw(st.sampled_from((270.0, 300.0, 330.0))) for name in ("X1", "X2", "X3", "X4", "Y1", "Y2", "Y3", "Y4")
    }
    boards = grid(levels, uprights, depths.__getitem__)
    said = []
    for i in range(1, levels + 1):
        for j in range(1, uprights + 1):
            word = draw(st.sampled_from(("", f"X{i}", f"Y{j}")))
            if word:
                said.append((word, f"Y{j}" if word == f"X{i}" else f"X{i}"))
    return boards, said


@settings(max_examples=300, deadline=None)
@given(case=halving_grids())
def test_a_stop_is_reported_if_and_only_if_the_words_run_in_a_ring_and_never_by_the_tool_s_own_choice(case):
    boards, said = case
    piece = built(job_of(*boards, joint_specs=words(*said)))
    locked = coded(piece.findings, "locked")

    assert bool(locked) == bool(ringed(said))
    assert bool(ringed(lies_before(piece))) == bool(ringed(said))
    for finding in locked:
        ring = finding.where.boards
        steps = list(zip(ring, ring[1:] + ring[:1], strict=True))
        assert set(steps) <= set(said)
        assert len(set(ring)) == len(ring)


@settings(max_examples=60, deadline=None)
@given(case=halving_grids(), seed=st.integers(0, 999))
def test_the_order_of_tables_in_the_file_decides_nothing(case, seed):
    boards, said = case
    rng = random.Random(seed)
    first = built(job_of(*boards, joint_specs=words(*said)))
    mixed, tables = list(boards), list(words(*said))
    rng.shuffle(mixed)
    rng.shuffle(tables)

    again = built(job_of(*mixed, joint_specs=tuple(tables)))

    assert again.decisions == first.decisions
    assert again.joints == first.joints
    assert {part.id: (part.cuts, part.blank) for part in again.parts} == {
        part.id: (part.cuts, part.blank) for part in first.parts
    }


@settings(max_examples=60, deadline=None)
@given(case=halving_grids())
def test_keeping_every_choice_changes_nothing_but_who_decided(case):
    """Each decision's edit is one that the page writes to the file: as it says, table by table."""
    boards, said = case
    first = built(job_of(*boards, joint_specs=words(*said)))
    tables = {spec.path: spec for spec in words(*said)}
    for number, decision in enumerate(first.decisions):
        if decision.decider != "chosen":
            assert decision.keep is None
            continue
        assert decision.keep is not None
        assert decision.keep.action == "add"
        assert decision.keep.path == ("joint",)
        spec = asked(*decision.keep.value["between"], front=decision.keep.value["front"], index=100 + number)
        tables[spec.path] = spec

    kept = built(job_of(*boards, joint_specs=tuple(tables.values())))

    assert [decision.value for decision in kept.decisions] == [decision.value for decision in first.decisions]
    assert {decision.decider for decision in kept.decisions} <= {"maker"}
    assert kept.joints == first.joints


def test_a_choice_is_kept_in_the_joint_s_own_table_where_it_has_one():
    piece = built(job_of(*grid(1, 1), joint_specs=(asked("Y1", "X1", clearance=0.2, index=4),)))

    assert decided(piece, "X1", "Y1").keep == Edit(action="set", path=("joint", 4, "front"), value="X1")


def test_boards_are_taken_in_the_order_of_their_numbers_not_of_their_letters():
    """Two raking boards cross: neither is level, so names decide, and 2 comes before 10."""
    boards = [
        plank("raking 10", (0, 0), (300, 900)),
        plank("raking 2", (300, 0), (0, 900)),
    ]
    piece = built(job_of(*boards))

    assert joint_of(piece, "raking 2", "raking 10").making.front == "raking 2"
