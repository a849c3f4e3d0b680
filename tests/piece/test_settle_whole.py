"""Settling all joints together: an order is found whenever there is one, with the fewest turns.

Every choice of hands of a small piece is tried here by brute force, apart from the product: boards are put in one by
one, in every order, each straight along a way that its joints allow; a piece lies on its wall edges first, and what
goes in from the wall asks for it to be turned over.
"""

import itertools
from collections import deque

from hypothesis import given, settings
from hypothesis import strategies as st

from dryfit.joints import KINDS
from dryfit.keeping import Keep
from dryfit.piece.choose import choose
from dryfit.piece.facts import Opens
from dryfit.piece.kinds import Kinds
from dryfit.piece.meetings import find_meetings
from dryfit.piece.setout import set_out
from dryfit.places import Edit

from .making import asked, built, coded, job_of, joint_of, plank

NEVER = 99


# ---- brute force


def all_ways(joints):
    """Unit ways in which a board leaves another, by the two."""
    return {
        (board, other): leaves(making, board) for key, making in joints.items() for board, other in (key, key[::-1])
    }


def leaves(making, board):
    ways = set()
    for motion in making.motions:
        sign = 1 if motion.body == board else -1
        ways.add(tuple(round(sign * part, 6) + 0.0 for part in motion.direction))
    return ways


def fewest_turns(names, joints):
    """Of all orders, board by board; NEVER if there is none. `joints` maps a pair to its hand."""
    ways = all_ways(joints)
    every = frozenset(names)
    best = {(frozenset({name}), 1): 0 for name in names}
    waiting = deque(best)
    while waiting:
        state = waiting.popleft()
        present, up = state
        for name in every - present:
            touching = [ways[name, other] for other in present if (name, other) in ways]
            common = set.intersection(*touching) if touching else {(0.0, 0.0, 0.0)}
            for way in common:
                side = (way[2] > 0) - (way[2] < 0)
                turned = side not in (0, up)
                then = (present | {name}, side or up)
                if best[state] + turned < best.get(then, NEVER):
                    best[then] = best[state] + turned
                    (waiting.append if turned else waiting.appendleft)(then)
    return min((cost for (present, _), cost in best.items() if present == every), default=NEVER)


def comes_apart(names, joints):
    """Whether the boards part at all, any number at a time."""
    if len(names) < 2:
        return True
    ways = all_ways(joints)
    first, *others = sorted(names)
    for mask in range(2 ** len(others) - 1):
        part = {first, *(name for bit, name in enumerate(others) if mask >> bit & 1)}
        rest = set(names) - part
        between = [ways[p, q] for p in part for q in rest if (p, q) in ways]
        if not between or set.intersection(*between):
            return comes_apart(part, joints) and comes_apart(rest, joints)
    return False


def hands_of(job):
    """The open hands of every joint, before settling."""
    keep = Keep()
    boards = [set_out(spec, job) for spec in job.boards]
    chosen = choose(find_meetings(boards, keep).meetings, job, Kinds(KINDS), keep).chosen
    return {item.meeting.key: item.kind.makings(item.meeting, item.options) for item in chosen}


def every_choice(open_hands, said):
    """All ways to make all joints, the maker's words kept."""
    keys = sorted(open_hands)
    options = [[making for making in open_hands[key] if not said.get(key) or making.front == said[key]] for key in keys]
    for choice in itertools.product(*options):
        yield dict(zip(keys, choice, strict=True))


# ---- small pieces


@st.composite
def small_pieces(draw):
    """Two or three shelves, an upright or two that crosses them, dividers let in between two of them."""
    shelves = draw(st.integers(2, 3))
    uprights = draw(st.integers(0, 2))
    dividers = draw(st.integers(1, 2))
    boards = [plank(f"shelf {i}", (0, 300 * i), (2000, 300 * i)) for i in range(1, shelves + 1)]
    boards += [plank(f"upright {i}", (400 * i, 0), (400 * i, 300 * shelves + 200)) for i in range(1, uprights + 1)]
    joints, said = [], {}
    for i in range(1, dividers + 1):
        low = draw(st.integers(1, shelves - 1))
        boards.append(plank(f"divider {i}", (1000 + 300 * i, 300 * low), (1000 + 300 * i, 300 * low + 300)))
        for shelf in (low, low + 1):
            stop = draw(st.sampled_from(("through", "front", "wall", "both", "one end")))
            joints.append(asked(f"divider {i}", f"shelf {shelf}", "housing", stop=stop, index=len(joints)))
    for i in range(1, uprights + 1):
        for shelf in range(1, shelves + 1):
            word = draw(st.sampled_from(("", "", f"shelf {shelf}", f"upright {i}")))
            if word:
                joints.append(asked(f"upright {i}", f"shelf {shelf}", front=word, index=len(joints)))
                said[(f"shelf {shelf}", f"upright {i}")] = word
    return job_of(*boards, joint_specs=tuple(joints)), said


@settings(max_examples=150, deadline=None)
@given(case=small_pieces())
def test_an_order_is_found_whenever_there_is_one_and_with_the_fewest_turns(case):
    job, said = case
    names = [spec.name for spec in job.boards]
    choices = list(every_choice(hands_of(job), said))
    best = min(fewest_turns(names, choice) for choice in choices)
    piece = built(job)
    settled = {joint.key: joint.making for joint in piece.joints}

    assert settled in choices
    if best < NEVER:
        assert fewest_turns(names, settled) == best
        assert not coded(piece.findings, "locked")
    else:
        possible = any(comes_apart(names, choice) for choice in choices)
        assert bool(coded(piece.findings, "locked")) == (not possible)
        assert comes_apart(names, settled) == possible


# ---- an entry that is left open


def divided(stop, *words):
    """Two shelves, an upright that crosses both, a divider between them housed in shelf 2 as `stop` says."""
    boards = [plank(f"shelf {i}", (0, 300 * i), (2000, 300 * i)) for i in (1, 2)]
    boards += [plank("upright", (400, 0), (400, 800)), plank("divider", (1200, 300), (1200, 600))]
    joints = [
        asked("divider", "shelf 1", "housing", stop="wall", index=0),
        asked("divider", "shelf 2", "housing", stop=stop, index=1),
        *(asked("upright", shelf, front=front, index=2 + n) for n, (shelf, front) in enumerate(words)),
    ]
    return built(job_of(*boards, joint_specs=tuple(joints)))


def entry(piece):
    (decision,) = [decision for decision in piece.decisions if decision.key == ("divider", "shelf 2")]
    (cut,) = [cut for cut in joint_of(piece, "divider", "shelf 2").cuts if cut.word == "stopped housing"]
    return decision, cut


def test_a_housing_stopped_at_one_end_is_stopped_at_the_front_where_nothing_speaks_against_it():
    decision, cut = entry(divided("one end"))

    assert (decision.decider, decision.about) == ("chosen", "how it goes together")
    assert str(decision.value) == "divider housed in shelf 2, open to the wall"
    assert tuple(map(str, decision.others)) == ("divider housed in shelf 2, open to the front",)
    assert decision.keep == Edit(action="set", path=("joint", 1, "stop"), value="front")
    assert cut.figures.stop == 12.0


def test_it_is_stopped_at_the_wall_where_the_piece_could_not_be_put_together_otherwise():
    """Shelf 2 lies before the upright, that before shelf 1, that before the divider, which comes down onto shelf 2."""
    piece = divided("one end", ("shelf 2", "shelf 2"), ("shelf 1", "upright"))
    decision, cut = entry(piece)

    assert str(decision.value) == "divider housed in shelf 2, open to the front"
    assert decision.reason == "the other way the piece could not be put together"
    assert not coded(piece.findings, "locked")
    assert [stop.edge for stop in cut.figures.stops] == [Opens.WALL]


def test_where_the_maker_fixed_that_entry_the_same_piece_is_locked_and_the_cure_opens_it():
    piece = divided("front", ("shelf 2", "shelf 2"), ("shelf 1", "upright"))
    (finding,) = coded(piece.findings, "locked")

    assert set(finding.where.boards) == {"shelf 1", "shelf 2", "upright", "divider"}
    assert len(finding.cures) == 1


def test_what_is_kept_of_an_open_entry_is_read_again_as_the_maker_s_word():
    chosen = entry(divided("one end"))[1]
    kept = joint_of(divided("front"), "divider", "shelf 2").cuts[0]

    assert kept == chosen
