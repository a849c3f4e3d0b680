"""The live drawing: outlines and fronts against sums done in the head, and against the solids.

A shelf 800 long between two uprights 18 thick at x = 200 and 1000; boards that cross, halved at the front.
"""

import math

import pytest
from shapely import Polygon

from dryfit.book import Kept, build, piece_of, read_job_text
from dryfit.book.demos import demo_text, demos
from dryfit.documents.elevation import elevation
from dryfit.documents.marks import mark_of, marks
from dryfit.joints import KINDS
from dryfit.keeping import Keep
from dryfit.piece.kinds import JointKind
from tests.web.served import SHELF

CROSS = """\
dryfit = 1
[timber.oak]
species = "oak, white"
thickness = 20
[joints]
clearance = 0
[[board]]
name = "level"
line = [[0, 300], [600, 300]]
depth = 200
[[board]]
name = "post"
line = [[250, 0], [250, 700]]
depth = 200
[[joint]]
between = ["level", "post"]
front = "level"
"""


def drawn(text):
    job = read_job_text(text)
    return elevation(job, piece_of(job), Keep())


def area(loops):
    """Of even-odd loops, as the page paints them."""
    whole = Polygon()
    for loop in loops:
        whole = whole.symmetric_difference(Polygon(loop))
    return whole.area


def test_outlines_extent_and_joints_are_where_they_were_set_out():
    found = drawn(SHELF)
    boards = {board.name: board for board in found.boards}
    assert set(boards["left upright"].outline) == {(191.0, 0.0), (209.0, 0.0), (209.0, 900.0), (191.0, 900.0)}
    assert found.extent == (0.0, 0.0, 1009.0, 900.0)
    assert {joint.at for joint in found.joints} == {(200.0, 500.0), (1000.0, 500.0)}
    assert {joint.mark for joint in found.joints} == {"stopped housing"}, "the shelf stands 20 back from the fronts"
    low, high = (f(x for x, _ in boards["shelf"].outline) for f in (min, max))
    assert (low, high) == (209.0 - 6.0, 991.0 + 6.0), "let in by a third of 18 at both ends"


def test_the_front_of_a_crossing_shows_who_is_slotted_there():
    """The level board opens to the front: 20 of its 600 are missing there, of the post nothing."""
    faces = {board.name: area(board.face) for board in drawn(CROSS).boards}
    assert faces == pytest.approx({"level": (600 - 20) * 20, "post": 700 * 20}, abs=0.5)


def test_dimensions_run_from_the_datum_and_say_where_they_are_typed():
    found = {(d.axis, d.of): d for d in drawn(SHELF).dimensions}
    assert found["y", "shelf"].value == 500.0
    assert found["y", "shelf"].path == ("board", 2, "line", 0, 1)
    assert found["x", "left upright"].value == 200.0
    assert found["x", "left upright"].path == ("board", 0, "line", 0, 0)


@pytest.mark.parametrize("name", demos())
def test_every_front_is_what_the_solid_shows_there(name):
    """The area of a board's front, against the section of its solid just under that surface."""
    book = build(read_job_text(demo_text(name)))
    shown = {board.name: board for board in elevation(book.job, book.piece, Keep()).boards}
    for part in book.piece.parts:
        board, solid = part.board, book.solids.solid(part)
        if board.lies == "across":
            cut = solid.slice(board.depth - 0.02).area()
            rounding = 0.002 * part.length  # points are rounded to 0.001, along both sides
            assert area(shown[part.id].face) == pytest.approx(cut, abs=rounding), part.id


@pytest.mark.parametrize("name", demos())
def test_what_is_kept_is_what_is_drawn_anew(name):
    bench = Kept()
    job = read_job_text(demo_text(name))
    piece = piece_of(job, bench=bench)
    first = elevation(job, piece, bench.keep)
    again = elevation(job, piece, bench.keep)
    assert first == again == elevation(job, piece_of(job), Keep())
    assert all(one is other for one, other in zip(first.boards, again.boards, strict=True))


def test_every_kind_brings_its_mark_and_no_two_look_alike():
    assert [name for name, kind in KINDS.items() if kind.glyphs is JointKind.glyphs] == []
    assert set(KINDS) <= set(marks())
    assert len(set(marks().values())) == len(marks())


def test_a_joint_has_the_mark_of_how_it_is_made():
    """Keyed at the corners of the box; a stopped divider; a halving stops nowhere."""
    piece = piece_of(read_job_text(demo_text("record-wall")))
    words = {joint.key: mark_of(joint) for joint in piece.joints}
    assert words["box 1", "box 2"] == "keyed mitre"
    assert words["shelf 2", "stopped divider"] == "stopped housing"
    assert words["left upright", "shelf 1"] == "cross halving"
    assert set(words.values()) <= set(marks())


def test_all_of_it_is_finite_and_rounded():
    for name in demos():
        for board in drawn(demo_text(name)).boards:
            for x, y in (*board.outline, *(point for loop in board.face for point in loop)):
                assert math.isfinite(x)
                assert math.isfinite(y)
                assert (x, y) == (round(x, 3), round(y, 3))
