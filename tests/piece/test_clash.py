"""The clash check: parts overlap, or they do not; contact up to 0.02 is neither (assembly case A7).

Two 24 boards cross square at (500, 600): without slots they share 24 x 24 x 300; with slots narrower than the
board by 0.4 in all, each wall bites 0.2.
"""

from dataclasses import replace
from itertools import cycle

import pytest

from bench.layouts import layout
from dryfit.book import piece_of, read_job_text
from dryfit.findings import Severity
from dryfit.keeping import Keep
from dryfit.piece import clash
from dryfit.piece.clash import clashes, near_parts
from dryfit.piece.parts import make_part
from dryfit.piece.solids import Solids

from .making import asked, built, cut_of, job_of, placed, plank, rules

SHELF = plank("shelf", (0, 600), (2000, 600))
UPRIGHT = plank("upright", (500, 0), (500, 1200))


def found_in(piece, keep=None):
    keep = keep or Keep()
    return clashes(piece.parts, Solids(keep), frozenset(joint.key for joint in piece.joints), keep)


def uncut(*boards):
    return [make_part(placed(board), "A", (), 10.0) for board in boards]


def test_boards_without_slots_overlap_by_the_thinnest_way_through():
    parts = uncut(SHELF, UPRIGHT)
    keep = Keep()
    (finding,) = clashes(parts, Solids(keep), frozenset(), keep)

    assert (finding.code, finding.severity, finding.where.boards) == ("overlap", Severity.STOP, ("shelf", "upright"))
    assert finding.found == pytest.approx(24)
    assert finding.where.joint is None
    assert finding.remedy == "move one of them clear, or let them be joined"
    assert str(finding.says).endswith("overlap by 24 near x 500, y 600")
    assert [str(cure.label) for cure in finding.cures] == [], "no short move parts a crossing"


def test_what_stands_a_little_in_another_is_offered_to_be_moved_off_it():
    """A board 24 thick that ends 30 above the shelf's line stands on it at 12; one that ends at 5 is 7 in it."""
    keep = Keep()
    (finding,) = clashes(uncut(SHELF, plank("stub", (500, 605), (500, 1200))), Solids(keep), frozenset(), keep)

    assert [str(cure.label) for cure in finding.cures] == ["shelf: 7 down", "stub: 7 up", "stub: 7 shorter"]


@pytest.mark.parametrize(
    ("narrower", "depth"), [(0.0, None), (0.02, None), (0.036, None), (0.4, 0.2)], ids=["exact", "0.02", "0.036", "0.4"]
)
def test_a_slot_narrower_by_a_little_is_contact_and_by_more_an_overlap(narrower, depth):
    """The upright grows after the joint was made: its part is cut as before from a thicker board."""
    piece = built(job_of(SHELF, UPRIGHT, joints=rules(clearance=0.0)))
    thicker = placed(plank("upright", (500, 0), (500, 1200), thickness=24.0 + narrower))
    slot = cut_of(piece, "slot in upright for shelf")
    parts = (piece.part_by_name["shelf"], make_part(thicker, "B", (slot,), 10.0))
    keep = Keep()

    found = clashes(parts, Solids(keep), frozenset({("shelf", "upright")}), keep)

    assert [round(finding.found, 3) for finding in found] == ([] if depth is None else [depth])
    for finding in found:
        assert finding.where.joint == ("shelf", "upright")
        assert "let them be joined" not in finding.remedy
        assert "they are joined already" in finding.remedy


def test_seats_that_would_run_into_each_other_are_found():
    """Cut for end clearance nought, the seats touch; an upright that stands 1 further out digs 1 into the shelf's."""
    piece = built(job_of(SHELF, UPRIGHT, joint_specs=(asked("shelf", "upright", end_clearance=0),)))
    moved = placed(plank("upright", (500, 0), (500, 1200), back=1.0))
    for board, depth in ((piece.board_by_name["upright"], []), (moved, [])):
        parts = (
            piece.part_by_name["shelf"],
            make_part(board, "B", (cut_of(piece, "slot in upright for shelf"),), 10.0),
        )
        assert [finding.found for finding in clashes(parts, Solids(), frozenset(), Keep())] == depth
    sunk = placed(plank("upright", (500, 0), (500, 1200), back=-1.0))
    parts = (piece.part_by_name["shelf"], make_part(sunk, "B", (cut_of(piece, "slot in upright for shelf"),), 10.0))
    assert [finding.found for finding in clashes(parts, Solids(), frozenset(), Keep())] == pytest.approx([1.0])


def test_a_sound_piece_has_no_clash():
    boards = [plank(f"X {i}", (0, 300 * i), (1500, 300 * i)) for i in (1, 2, 3)]
    boards += [plank(f"Y {i}", (300 * i, 0), (300 * i + 100, 1100)) for i in (1, 2, 3)]
    boards += [plank("Z", (1350, 300), (1350, 600)), plank("W", (1350, 600), (1350, 900), depth=250)]

    assert found_in(built(job_of(*boards))) == ()


def test_a_housed_shelf_has_no_clash_and_the_bottom_of_its_housing_touches():
    """Case A6: 18 uprights, housings 6 deep, an 18 shelf."""
    shelf = plank("shelf", (0, 500), (800, 500), thickness=18)
    sides = [plank(f"side {x}", (x, 0), (x, 1000), thickness=18) for x in (0, 800)]
    piece = built(job_of(shelf, *sides))

    assert found_in(piece) == ()
    assert piece.part_by_name["shelf"].length == 800 - 18 + 2 * 6


def test_boards_one_behind_the_other_are_not_even_near():
    assert near_parts(uncut(SHELF, plank("upright", (500, 0), (500, 1200), back=300)), Keep()) == []
    assert len(near_parts(uncut(SHELF, plank("upright", (500, 0), (500, 1200), back=299)), Keep())) == 1


def test_an_edit_looks_again_only_at_the_pairs_it_touches():
    def piece(x):
        uprights = [plank("Y 1", (x, 0), (x, 1000)), plank("Y 2", (900, 0), (900, 1000))]
        return built(job_of(plank("X", (0, 500), (1500, 500)), *uprights))

    keep = Keep()
    found_in(piece(300.0), keep)
    before = keep.made["clash"]
    found_in(piece(310.0), keep)

    # X got another slot, so both its pairs are new; another upright is no pair with Y 1
    assert (before, keep.made["clash"]) == (2, 4)


def test_what_rounding_leaves_along_a_mitre_of_unequal_backs_is_contact():
    """A corner at (792.26, 792.26), 15.48 thick, one board 12 off the wall: a sliver 10 long and 1e-9 thick.

    Its walls are cut as a step, not as an end, so no direction of the parts tells how thin it is.
    """
    corner = (792.26, 792.26)
    level = plank("a", (7.74, 792.26), corner, thickness=15.48, depth=240)
    upright = plank("b", corner, (792.26, 7.74), thickness=15.48, depth=240, back=12.0)
    piece = built(job_of(level, upright))
    assert [joint.kind for joint in piece.joints] == ["mitre"]
    assert found_in(piece) == ()


def moved(part, by):
    """A part moved along the wall."""
    x, y, z = part.board.frame.origin
    return replace(part, board=replace(part.board, frame=replace(part.board.frame, origin=(x + by, y, z))))


def test_parts_looked_at_length_by_length_and_without_bores_overlap_as_they_do_whole(monkeypatch):
    """A board of 60 slots: of every four rays one is moved by 3, and one by 0.06, within its play of 0.15."""
    piece = piece_of(read_job_text(layout("star", 61).text()))
    hub, *rays = piece.parts
    parts = [hub, *map(moved, rays, cycle([0.0, 3.0, 0.0, 0.06]))]
    joined = frozenset(joint.key for joint in piece.joints)

    found = clashes(parts, Solids(), joined, Keep())
    monkeypatch.setattr(clash, "_apart", lambda *_: False)

    assert found == clashes(parts, Solids(), joined, Keep())
    assert {finding.where.boards for finding in found} == {(hub.id, ray.id) for ray in rays[1::4]}
