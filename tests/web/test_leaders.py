"""Where a note's leader ends: at the very place that its figures are of."""

from dryfit.book import piece_of, read_job_text
from dryfit.book.demos import demo_text
from dryfit.findings import CODES, Finding, Severity
from dryfit.geometry.frames import Vec2
from dryfit.places import Pair, Where
from dryfit.web.notes import place_of

PIECE = piece_of(read_job_text(demo_text("record-wall")))
CODE = next(iter(CODES))


def pointed(boards: tuple[str, ...], joint: Pair | None = None, cut: str | None = None) -> Vec2 | None:
    where = Where(boards=boards, joint=joint, cut=cut)
    return place_of(Finding(code=CODE, severity=Severity.WARN, where=where, says="something"), boards, PIECE)


def crossing(pair: Pair) -> Vec2:
    x, y, _ = PIECE.joint_by_key[pair].meeting.frame.origin
    return round(x, 3), round(y, 3)


def test_wood_between_two_slots_is_pointed_at_between_them():
    (lower,), (upper,) = ([joint.key for joint in PIECE.joints if {"raking 2", name} == set(joint.key)]
                          for name in ("shelf 3", "box 3"))  # fmt: skip
    low, high = crossing(lower), crossing(upper)
    found = pointed(("raking 2", "shelf 3", "box 3"))
    assert found is not None
    assert abs(found[0] - (low[0] + high[0]) / 2) < 0.002
    assert abs(found[1] - (low[1] + high[1]) / 2) < 0.002


def test_two_boards_are_pointed_at_where_they_meet_and_one_in_its_middle():
    assert pointed(("shelf 1", "left upright")) == crossing(("left upright", "shelf 1"))
    shelf = PIECE.board_by_name["shelf 1"]
    x, y, _ = shelf.frame.place((shelf.length / 2, 0.0, 0.0))
    assert pointed(("shelf 1",)) == (x, y)


def test_one_screw_of_several_is_pointed_at_itself():
    shelf = PIECE.board_by_name["shelf 1"]
    fixing = next(joint for joint in PIECE.joints if "wall" in joint.key and joint.meeting.a.body == "shelf 1")
    keys = [cut.key for cut in PIECE.part_by_name["shelf 1"].cuts if cut.joint == fixing.key]
    found = [pointed(("shelf 1",), cut=key) for key in keys]
    wanted = [shelf.frame.place((a, 0.0, 0.0))[:2] for a in fixing.meeting.places]
    assert len(keys) > 1
    assert found == [(round(x, 3), round(y, 3)) for x, y in wanted]
