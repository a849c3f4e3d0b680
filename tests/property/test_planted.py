"""Boards lying flat, and loads: sound pieces are let be, one fault planted brings its own finding only.

Two rails 24 thick lie flat on the wall, 90 wide, at 300 and 600 to 800; two or three posts 24 thick and 200 to 300
deep stand on the floor and come over both in notches 25 deep. A notch may take half of the post: 50. Above a notch a
post wants twice its thickness, 48, at least, better 50; half of a notch is 45.075 over the middle of its rail.
"""

from dataclasses import dataclass, replace

import pytest
from hypothesis import given, note, settings
from hypothesis import strategies as st

from dryfit.book import build, read_job_text
from dryfit.study.base import Pace
from tests.joints.typed import board, frame, job, rail, table


@dataclass(frozen=True, kw_only=True)
class Rack:
    """Posts over rails, as typed."""

    posts: tuple[int, ...]
    depth: int
    high: int
    over: float = 300.0
    back: float = 0.0
    more: str = ""

    def text(self):
        posts = (
            board(f"post {number}", [[x, 0], [x, self.high + self.over]], self.depth)
            for number, x in enumerate(self.posts, 1)
        )
        rails = (
            rail("low", [[0, 300], [1200, 300]], back=self.back),
            rail("high", [[0, self.high], [1200, self.high]]),
        )
        return job(*rails, *posts, self.more)


@st.composite
def racks(draw):
    return Rack(
        posts=draw(st.sampled_from([(200, 900), (150, 1000), (100, 600, 1100)])),
        depth=draw(st.integers(200, 300)),
        high=draw(st.integers(600, 800)),
    )


def with_more(rack, *tables):
    return replace(rack, more="".join((rack.more, *tables)))


RACK_FAULTS = {
    "a post too shallow for its notches": ("notch-too-deep", "stop", lambda r: replace(r, depth=49)),
    "a rail in the middle of the posts": ("joint-unsuited", "stop", lambda r: replace(r, back=100.0)),
    "47.9 over a notch": ("short-grain", "stop", lambda r: replace(r, over=45.075 + 47.9)),
    "49.9 over a notch": ("short-grain", "warn", lambda r: replace(r, over=45.075 + 49.9)),
    "29.85 between two notches": ("short-grain", "stop", lambda r: replace(r, high=420)),
    "a post that ends on a rail": (
        "not-joined", "stop", lambda r: with_more(r, board("stub", [[450, 300], [450, 500]], 200)),
    ),
    "a brace along a rail": (
        "not-joined", "stop", lambda r: with_more(r, board("brace", [[310, 260], [550, 320]], 200)),
    ),
    "a rail through a rail": (
        "not-joined", "stop", lambda r: with_more(r, rail("up", [[450, 200], [450, 500]])),
    ),
    "a housing over a rail": (
        "joint-unsuited", "stop",
        lambda r: with_more(r, table("[[joint]]", between=["low", "post 1"], kind="housing")),
    ),
    "a rail past the wall": ("past-the-room", "stop", lambda r: with_more(r, table("[wall]", right=1190))),
    "no play over a rail": ("no-clearance", "warn", lambda r: with_more(r, table("[joints.notch]", clearance=0))),
    "screws into the edge of a rail": (
        "joint-unsuited", "stop",
        lambda r: with_more(r, table("[[fixing]]", board="low", kind="long screw", at=[100], screw="wood 6x80")),
    ),
}  # fmt: skip


NOTES = {("held-by-fit", "note"), ("laid-on", "note"), ("no-order-while-overlapping", "note")}  # of what comes apart


def told(text, paces=(Pace.REST,)):
    """What is found, by code and severity, but for what is usual of posts that only stand over rails."""
    return {(one.code, str(one.severity)) for one in build(read_job_text(text), paces=paces).findings} - NOTES


@pytest.mark.parametrize("fault", RACK_FAULTS)
def test_of_one_fault_of_a_board_lying_flat_comes_its_own_finding_and_its_sound_twin_has_none(fault):
    code, severity, plant = RACK_FAULTS[fault]

    @settings(max_examples=8, deadline=None)
    @given(rack=racks())
    def planted(rack):
        assert told(rack.text()) == set()
        text = plant(rack).text()
        note(text)
        assert told(text) == {(code, severity)}

    planted()


# ---- loads


BOX = frame([[2000, 0], [2600, 0], [2600, 500], [2000, 500]])
LOADS = {
    "on a board": ({"board": "post 1", "kg_per_m": 30}, ("post 1",)),
    "of a kind": ({"board": "high", "kind": "records"}, ("high",)),
    "on a frame": ({"board": "box", "kg_per_m": 12.5}, ("box 1", "box 2", "box 3", "box 4")),
    "on nothing that is named": ({"kind": "books"}, ()),
    "of no mass": ({"board": "low"}, ("low",)),
    "with a key that nobody knows": ({"board": "low", "since": "spring"}, ("low",)),
}


def of_loads(book):
    """The notes of loads with their boards, and what is left open of loads and why."""
    notes = [one.where.boards for one in book.findings if one.code == "load-not-worked-out"]
    return notes, [(one.what, one.why) for one in book.not_checked if one.study == "loads" and one.whole]


@settings(max_examples=25, deadline=None)
@given(rack=racks(), names=st.lists(st.sampled_from(sorted(LOADS)), min_size=1, max_size=4, unique=True))
def test_each_load_is_told_as_not_worked_out_and_a_piece_without_has_no_such_note(rack, names):
    sound = with_more(rack, BOX)
    loaded = with_more(sound, *(table("[[load]]", **LOADS[name][0]) for name in names))

    yet = "no load is worked out yet"
    for one, boards, why in ((sound, [], "no load is given"), (loaded, [LOADS[name][1] for name in names], yet)):
        book = build(read_job_text(one.text()), paces=())
        notes, left = of_loads(book)
        assert sorted(notes) == sorted(boards)
        assert left == [("what the shelves carry", why)]
        assert "loads" not in book.checked
    assert told(loaded.text(), paces=()) - told(sound.text(), paces=()) == {("load-not-worked-out", "note")}


@settings(max_examples=10, deadline=None)
@given(rack=racks())
def test_a_load_on_a_board_that_is_not_there_says_so_too(rack):
    text = with_more(rack, table("[[load]]", board="post 9", kg_per_m=30)).text()

    assert told(text, paces=()) == {("load-not-worked-out", "note"), ("no-such-board", "warn")}
