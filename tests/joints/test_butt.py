"""A butt: an end flat against a face, with glue, dowels, or plugged screws; two ends in line if no splice finds room.

Two boards 24 thick and 300 deep at a right angle: three dowels, 24 / 3 = 8 thick and 50 long, 16 in the face (two
thirds) and 34 in the end, their holes 1 deeper each; or three screws 5 x 60, heads 10 wide and 3.0 high under plugs
of 12, 8 deep: 24 - 11 = 13 of wood under the head, 60 - 3 - 13 = 44 in the end.
"""

import math
from itertools import product

import pytest

from dryfit.book import change_job_text
from dryfit.documents.looks import Look
from dryfit.geometry.frames import dot
from dryfit.geometry.views import FACES
from dryfit.piece.facts import Grain
from dryfit.sentences import Name, say
from tests.joints.going import CONTACT, along, overlap_when_moved, slides, touching_area
from tests.joints.typed import board, cut_of, found, frame, job, joint, joint_of, kind_of, piece_of, stops, table

ANGLES = [90, 60, 105, -75]


def tee(degrees=90, *, depth=300, back=0, thickness="24", **options):
    """An upright that stands with its foot on a level board, leaning from 90 as the angle says."""
    x, y = 500 * math.cos(math.radians(degrees)), 500 * math.sin(math.radians(degrees))
    return job(
        table("[joints]", end_on_face="butt"),
        table("[joints.butt]", **options),
        board("base", [[-500, 0], [500, 0]]),
        board("post", [[0, 0], [x, y]], depth, thickness, back=back),
    )


def corner(degrees=90, *, first="24", second="24", depths=(300, 300), through="", **options):
    x, y = 500 * math.cos(math.radians(degrees)), 500 * math.sin(math.radians(degrees))
    return job(
        table("[joints]", corner="butt"),
        table("[joints.butt]", **options),
        board("base", [[0, 0], [500, 0]], depths[0], first),
        board("post", [[0, 0], [x, y]], depths[1], second),
        *([joint("base", "post", through=through)] if through else []),
    )


MEETINGS = {"on a face": tee, "at a corner": corner}


# ---- how it goes together


@pytest.mark.parametrize("degrees", ANGLES)
@pytest.mark.parametrize("meeting", MEETINGS.values(), ids=MEETINGS)
@pytest.mark.parametrize("fasten", ["none", "dowels", "screws"])
def test_the_end_leaves_along_each_of_its_motions_and_not_the_opposite_way(degrees, meeting, fasten):
    text = meeting(degrees, fasten=fasten)
    piece, made = piece_of(text), joint_of(text, "base", "post")
    for motion in made.making.motions:
        assert slides(piece, made, motion), motion
    out = made.making.motions[0]
    assert out.body == "post"
    assert overlap_when_moved(piece, made, out.body, along(out, -1.0)) > 1000.0


@pytest.mark.parametrize("degrees", ANGLES)
@pytest.mark.parametrize("meeting", MEETINGS.values(), ids=MEETINGS)
@pytest.mark.parametrize("through", ["base", "post"])
def test_it_leaves_square_to_the_face_into_which_side_the_end_came_from(degrees, meeting, through):
    text = meeting(degrees, **({"through": through} if meeting is corner else {}))
    made = joint_of(text, "base", "post")
    moves = made.making.motions[0]
    takes = piece_of(text).board_by_name["base" if moves.body == "post" else "post"]
    ends = piece_of(text).board_by_name[moves.body]
    assert abs(dot(moves.direction, takes.frame.y)) == pytest.approx(1.0)
    far = ends.frame.place((250.0, 0.0, 0.0))
    assert dot(moves.direction, tuple(p - q for p, q in zip(far, takes.frame.origin, strict=True))) > 0.0
    if meeting is corner:
        assert moves.body != through


@pytest.mark.parametrize("degrees", ANGLES)
def test_where_nothing_is_let_in_it_leaves_in_every_direction_that_does_not_press(degrees):
    text = tee(degrees, fasten="none")
    piece, made = piece_of(text), joint_of(text, "base", "post")
    out = made.making.motions[0]
    assert out.free == 0.0
    for x, y, z in product((-1.0, 0.0, 0.7), (0.0, 0.5, 1.0), (-1.0, 0.0, 1.0)):
        if dot((x, y, z), out.direction) > 0.02:
            overlaps = [overlap_when_moved(piece, made, out.body, (x * d, y * d, z * d)) for d in (1.0, 9.0, 40.0)]
            assert max(overlaps) <= CONTACT, (x, y, z)


def test_dowels_hold_it_to_one_direction_until_they_are_out_of_the_face():
    (out,) = joint_of(tee(fasten="dowels"), "base", "post").making.motions
    assert (out.direction, out.free) == ((0.0, 1.0, 0.0), 16.0)


def test_a_dowelled_board_between_two_sides_of_a_glued_frame_goes_in_before_it_is_closed():
    """The maker has the frame glued by itself."""
    sides = frame([[0, 0], [900, 0], [900, 500], [0, 500]])
    unit = table("[[unit]]", name="box", boards=[f"box {k}" for k in (1, 2, 3, 4)])
    text = job(table("[joints]", end_on_face="butt"), sides, board("middle", [[450, 12], [450, 488]], 260), unit)
    (finding,) = found(text, "locked")
    assert [str(cure.label) for cure in finding.cures] == ["let middle go in before box is glued"]
    screwed = text.replace("[joints]", '[joints.butt]\nfasten = "screws"\n[joints]')
    assert not found(screwed, "locked")


def test_screws_are_offered_where_dowels_hold_too_much():
    made = joint_of(tee(fasten="dowels"), "base", "post")
    options = made.options
    (ease,) = kind_of(made).eases(made.meeting, options, made.making)
    assert (str(ease.says), ease.options) == ("screw post and base instead of dowelling them", (("fasten", "screws"),))
    assert {motion.direction for motion in ease.making.motions} == {(0.0, 1.0, 0.0), (0.0, 0.0, 1.0), (0.0, 0.0, -1.0)}


# ---- what is made


@pytest.mark.parametrize("degrees", ANGLES)
@pytest.mark.parametrize("meeting", MEETINGS.values(), ids=MEETINGS)
def test_it_bears_with_no_gap_over_all_its_end(degrees, meeting):
    """24 / sin of the angle, 300 deep: what the joint hides is what the solids show."""
    text = meeting(degrees, fasten="none")
    made = joint_of(text, "base", "post")
    area = 24 / abs(math.sin(math.radians(degrees))) * 300
    assert [(gap.between, gap.size) for gap in made.gaps] == [("shoulder", 0.0)]
    assert dict(made.hidden_mm2) == {"base": pytest.approx(area), "post": pytest.approx(area)}
    assert touching_area(piece_of(text), made) == pytest.approx(area, rel=1e-6)
    (face,) = kind_of(made).glue(made)
    assert (face.grain, face.area_mm2) == ((Grain.SIDE, Grain.END), pytest.approx(area))


def test_holes_for_dowels_lie_opposite_each_other():
    """The post stands 40 off the wall: its own d is 40 less than the base's."""
    text = tee(fasten="dowels", depth=240, back=40)
    piece = piece_of(text)
    holes = {cut.body: cut for cut in joint_of(text, "base", "post").cuts if cut.word == "dowel holes"}
    for mine, its in zip(holes["base"].shapes, holes["post"].shapes, strict=True):
        base, post = (piece.board_by_name[name].frame for name in ("base", "post"))
        assert base.place(mine.start) == pytest.approx(post.place(its.start))
        assert dot(base.direct(mine.direction), post.direct(its.direction)) == pytest.approx(-1.0)
    assert [shape.start[2] for shape in holes["base"].shapes] == pytest.approx([100.0, 220.0])


def test_dowels_are_a_third_of_the_board_thick_two_thirds_deep_in_the_face_and_as_long_as_sold():
    made = joint_of(tee(fasten="dowels"), "base", "post")
    (item,) = kind_of(made).hardware(made)
    assert (item.name, str(item.says), item.count) == ("dowel, grooved", "8 x 50", 3)
    face, end = (cut for cut in made.cuts if cut.word == "dowel holes")
    assert [(shape.profile[0][1], shape.profile[-1][0]) for shape in (face.shapes[0], end.shapes[0])] == [
        (8.0, 17.0),
        (8.0, 35.0),
    ]
    assert (face.face, face.figures.opens, end.figures.opens) == (1, "face", "end")


@pytest.mark.parametrize(
    ("options", "size", "holes"),
    [
        ({"in_face": 12}, "8 x 35", [13.0, 24.0]),
        ({"in_end": 30}, "8 x 46", [17.0, 31.0]),
        ({"in_face": 10, "in_end": 26}, "8 x 36", [11.0, 27.0]),
    ],
    ids=["in the face: the length as sold about three times that", "in the end", "both"],
)
def test_dowels_stand_as_deep_as_the_maker_says(options, size, holes):
    made = joint_of(tee(fasten="dowels", **options), "base", "post")
    assert str(kind_of(made).hardware(made)[0].says) == size
    assert [cut.figures.deep for cut in made.cuts if cut.word == "dowel holes"] == holes


@pytest.mark.parametrize(("thickness", "dowel"), [("18", 6.0), ("24", 8.0), ("40", 8.0)], ids=["18", "24", "40 on 24"])
def test_the_next_dowel_as_sold_over_a_third_of_the_thinner_board(thickness, dowel):
    assert cut_of(tee(fasten="dowels", thickness=thickness), "dowel holes in post for base").figures.across == dowel


def opposite(depths=(300, 300), thickness="24", backs=(0, 0), **options):
    """Ends on both faces of a level board, at the same place."""
    return job(
        table("[joints]", end_on_face="butt"),
        table("[joints.butt]", **options),
        board("base", [[-500, 0], [500, 0]], timber=thickness),
        board("post", [[0, 0], [0, 500]], depths[0], thickness, back=backs[0]),
        board("leg", [[0, 0], [0, -500]], depths[1], thickness, back=backs[1]),
    )


def holes_in(text, name="base"):
    """Places across the board and depths of the holes in its two faces, upper and lower."""
    cuts = {cut.face: cut for cut in piece_of(text).part_by_name[name].cuts if cut.face}
    return [([shape.start[2] for shape in cuts[face].shapes], cuts[face].figures.deep) for face in (1, -1)]


def test_dowels_of_ends_that_stand_opposite_each_other_stand_side_by_side_as_deep_as_any():
    """Three steps of 100; the middles at 50, 150, 250, a quarter of a step before and behind them."""
    text = opposite()
    assert holes_in(text) == [([25.0, 125.0, 225.0], 17.0), ([75.0, 175.0, 275.0], 17.0)]
    assert not found(text, "thin-web")
    assert not found(text, "dowel-breaks-out")
    made = joint_of(text, "base", "post")
    assert any("go beside these" in note for note in kind_of(made).notes(made))


@pytest.mark.parametrize(
    ("depths", "backs"),
    [((180, 180), (0, 0)), ((180, 230), (0, 0)), ((60, 300), (100, 0)), ((120, 280), (180, 0)), ((300, 75), (0, 25))],
    ids=str,
)
def test_no_dowel_comes_within_6_of_one_from_the_other_face_whatever_the_two_depths_are(depths, backs):
    """6 and the dowel's own 8 from axis to axis; 3 to the edges of each end."""
    text = opposite(depths, backs=backs)
    (upper, _), (lower, _) = holes_in(text)
    assert min(abs(a - b) for a, b in product(upper, lower)) >= 14.0
    for places, deep, back in zip((upper, lower), depths, backs, strict=True):
        assert len(places) >= 2
        assert back + 7.0 <= min(places) <= max(places) <= back + deep - 7.0
    assert not {"thin-web", "dowel-breaks-out"} & stops(text)


def test_where_the_dowels_of_two_ends_find_no_room_side_by_side_they_stay_short_and_a_warning_says_so():
    """Two in 40: 20 apart, 10 to those of the other, 8 thick. So 24 / 4 - 1 = 5 in the face."""
    text = opposite((40, 40))
    assert holes_in(text) == [([10.0, 30.0], 6.0), ([10.0, 30.0], 6.0)]
    warned = found(text, "dowel-holds-little")
    assert [(one.severity, one.found, one.limit) for one in warned] == [("warn", 5.0, 8.0)] * 2
    assert "one dowel hold both" in str(warned[0].remedy)
    assert not found(opposite(), "dowel-holds-little")


def test_dowels_that_would_meet_in_the_board_are_a_stop():
    """Where there is no room side by side and the maker asks for 13 deep holes from either face of 24."""
    (finding,) = found(opposite((40, 40), in_face=12), "thin-web")
    assert (finding.severity, finding.found) == ("stop", -2.0)


def test_screws_with_heads_under_the_end_opposite_are_warned_of():
    warned = found(opposite(fasten="screws"), "screws-covered")
    assert {one.where.joint for one in warned} == {("base", "leg"), ("base", "post")}
    assert not found(tee(fasten="screws"), "screws-covered")


@pytest.mark.parametrize(("thickness", "in_face"), [("12", 6), ("18", 12), ("24", 16), ("27", 16), ("40", 20)])
def test_five_stay_behind_a_dowel_and_it_is_no_less_deep_than_thick(thickness, in_face):
    """Common practice: two thirds of the board, as near as dowels as sold come."""
    text = opposite(thickness=thickness)
    assert {deep for _, deep in holes_in(text)} == {in_face + 1.0}
    assert float(thickness) - in_face - 1.0 >= 5.0
    assert not found(text, "dowel-holds-little")


def test_screws_go_through_the_face_under_plugs_into_pilot_holes():
    text = tee(fasten="screws")
    made = joint_of(text, "base", "post")
    assert [(item.name, str(item.says), item.count) for item in kind_of(made).hardware(made)] == [
        ("wood screw", "5 x 60", 3),
        ("plug", "12 diameter, oak, white", 3),
    ]
    face, end = (cut for cut in made.cuts if cut.word == "screw holes")
    assert face.shapes[0].profile == ((0.0, 12.0), (11.0, 5.5), (24.0, 0.0))
    assert end.shapes[0].profile == ((0.0, 3.5), (44.0, 0.0))
    assert face.face == -1  # from below, where the post is not
    assert face.shapes[0].start[1] == -12.0


@pytest.mark.parametrize("screw", ["wood 5x45", "wood 5x40"])
def test_a_screw_that_has_no_hold_in_the_end_is_refused_with_one_that_would_do(screw):
    """6 x 5 = 30 in the end: 3 + 13 + 30 = 46."""
    (finding,) = found(tee(fasten="screws", screw=screw), "joint-unsuited")
    assert "take one 46 mm long or more" in str(finding.says)
    assert not found(tee(fasten="screws", screw="wood 5x46"), "joint-unsuited")


@pytest.mark.parametrize("screw", ["nail", "wood 7x60"])
def test_a_screw_that_nobody_knows_is_refused(screw):
    (finding,) = found(tee(fasten="screws", screw=screw), "joint-unsuited")
    assert f'nothing is known of a screw "{screw}"' in str(finding.says)


# ---- at a corner


def length_of(text, name):
    return piece_of(text).part_by_name[name].length


@pytest.mark.parametrize(
    ("through", "base", "post"),
    [("", 512.0, 488.0), ("base", 512.0, 488.0), ("post", 488.0, 512.0)],
    ids=["the level one by default", "the level one", "the upright one"],
)
def test_one_board_runs_through_and_covers_the_others_end(through, base, post):
    """Lines 500 long, 24 thick: 12 more where it runs through, 12 less where it ends."""
    text = corner(through=through)
    assert (length_of(text, "base"), length_of(text, "post")) == (pytest.approx(base), pytest.approx(post))


def test_of_two_as_level_boards_the_first_name_runs_through_whichever_comes_first_in_the_file():
    lines = {"ash": [[0, 0], [400, 300]], "birch": [[0, 0], [-400, 300]]}
    for order in (("ash", "birch"), ("birch", "ash")):
        text = job(table("[joints]", corner="butt"), *(board(name, lines[name]) for name in order))
        assert joint_of(text, "ash", "birch").making.name == say("{} against {}", Name("birch"), Name("ash"))


def test_the_board_that_is_told_to_run_through_must_be_one_of_the_two():
    text = job(
        table("[joints]", corner="butt"),
        board("base", [[0, 0], [500, 0]]),
        board("post", [[0, 0], [0, 500]]),
        board("other", [[300, -300], [300, 300]]),
        joint("base", "post", through="other"),
    )
    (finding,) = found(text, "joint-unsuited")
    assert "other is not one of the two boards" in str(finding.says)


def test_unequal_thickness_makes_each_its_own_length():
    """27 through over 18: the end of the 27 board 9 past the line, the 18 board 13.5 short of it."""
    text = corner(first="27", second="18")
    assert length_of(text, "base") == pytest.approx(509.0)
    assert length_of(text, "post") == pytest.approx(486.5)


def test_a_deeper_board_that_ends_shows_its_end_grain():
    text = corner(depths=(300, 330))
    (finding,) = found(text, "end-grain-shows")
    assert (finding.where.boards[0], finding.severity, finding.found) == ("post", "warn", pytest.approx(30.0))
    for cure in finding.cures:
        cured, _ = change_job_text(text, cure.edits)
        assert not found(cured, "end-grain-shows"), cure.label
    assert [str(cure.label) for cure in finding.cures] == [
        "post: 30 less deep, level at the front",
        "base: 30 deeper, level at the front",
    ]
    assert not found(corner(depths=(330, 300)), "end-grain-shows")  # it runs through: its end shows anyway


# ---- in line


def in_line(way=1, timbers=("24", "24"), rise=False, depths=(300, 300), **options):
    ends = [[[0, 0], [500, 0]], [[500, 0], [900, 0]][::way]]
    lines = [[point[::-1] for point in line] for line in ends] if rise else ends
    return job(
        table("[joints]", in_line="butt"),
        table("[joints.butt]", **options),
        board("left", lines[0], depths[0], timbers[0]),
        board("right", lines[1], depths[1], timbers[1]),
    )


@pytest.mark.parametrize("fasten", ["dowels", "none"])
@pytest.mark.parametrize("way", [1, -1], ids=["drawn on", "drawn back"])
def test_boards_end_to_end_part_along_their_line_and_no_other_way_while_dowels_hold_them(way, fasten):
    text = in_line(way, fasten=fasten)
    made = joint_of(text, "left", "right")
    assert (length_of(text, "left"), length_of(text, "right")) == (500.0, 400.0)
    for motion in made.making.motions:
        assert slides(piece_of(text), made, motion), motion
    out = made.making.motions[0]
    assert (out.body, out.direction) == ("right", (1.0, 0.0, 0.0))
    assert overlap_when_moved(piece_of(text), made, out.body, along(out, -1.0)) > 1000.0
    assert (len(made.making.motions), out.free) == ((1, 25.0) if fasten == "dowels" else (3, 0.0))


@pytest.mark.parametrize("way", [1, -1], ids=["drawn on", "drawn back"])
def test_dowels_in_line_lie_along_the_grain_at_mid_thickness_three_diameters_deep_in_both_ends(way):
    """8 thick: 3 x 8 is 24; of 50 as sold 25 stand in each (a trade text on sizes of dowels), holes 1 deeper."""
    text = in_line(way)
    piece, made = piece_of(text), joint_of(text, "left", "right")
    holes = {cut.body: cut for cut in made.cuts if cut.word == "dowel holes"}
    assert [(item.name, str(item.says), item.count) for item in kind_of(made).hardware(made)] == [
        ("dowel, grooved", "8 x 50", 3)
    ]
    for mine, its in zip(holes["left"].shapes, holes["right"].shapes, strict=True):
        left, right = (piece.board_by_name[name].frame for name in ("left", "right"))
        assert left.place(mine.start) == pytest.approx(right.place(its.start))
        assert left.place(mine.start)[:2] == pytest.approx((500.0, 0.0))
        assert dot(left.direct(mine.direction), (-1.0, 0.0, 0.0)) == pytest.approx(1.0)
        assert dot(right.direct(its.direction), (1.0, 0.0, 0.0)) == pytest.approx(1.0)
        assert mine.profile == its.profile == ((0.0, 8.0), (26.0, 0.0))
    assert [shape.start[2] for shape in holes["left"].shapes] == pytest.approx([50.0, 150.0, 250.0])
    drilled = kind_of(made).operations(made, piece.board_by_name)[2:]
    assert {key for one in drilled for key in one.cuts} == {cut.key for cut in holes.values()}


def test_dowels_in_line_are_a_third_of_the_thinner_board_and_as_deep_as_asked():
    text = in_line(timbers=("40", "18"), in_end=20, count=2)
    made = joint_of(text, "left", "right")
    assert [(str(item.says), item.count) for item in kind_of(made).hardware(made)] == [("6 x 40", 2)]


def test_ends_in_line_are_glued_end_on_end_over_what_both_have():
    text = in_line(timbers=("24", "18"), depths=(300, 250), fasten="none")
    made = joint_of(text, "left", "right")
    (face,) = kind_of(made).glue(made)
    assert (face.grain, face.area_mm2) == ((Grain.END, Grain.END), 18 * 250)
    assert touching_area(piece_of(text), made) == pytest.approx(18 * 250)
    assert any("next to nothing" in note for note in kind_of(made).notes(made))


@pytest.mark.parametrize("fasten", ["dowels", "none"])
def test_a_butt_in_line_is_warned_of_and_wants_a_support(fasten):
    (lying,) = found(in_line(fasten=fasten), "butt-in-line")
    (standing,) = found(in_line(fasten=fasten, rise=True), "butt-in-line")
    assert lying.severity == standing.severity == "warn"
    assert "under both ends" in str(lying.remedy)
    assert "from the side" in str(standing.remedy)


def test_screws_cannot_be_driven_in_line():
    (finding,) = found(in_line(fasten="screws"), "joint-unsuited")
    assert finding.severity == "stop"
    assert "no screw can be driven along two ends in line" in str(finding.says)
    assert 'fasten = "dowels"' in str(finding.says)


def test_a_kind_not_made_yet_names_the_key_that_butts_the_ends_and_says_what_that_means(unmade):
    text = in_line().replace('in_line = "butt"', f'in_line = "{unmade}"')
    (finding,) = found(text, "joint-not-made-yet")
    assert finding.severity == "stop"
    assert f"a {unmade} cannot be made yet" in str(finding.says)
    assert 'write in_line = "butt" under [joints]: two square ends, dowelled and glued' in str(finding.remedy)
    assert [cut.word for cut in joint_of(text, "left", "right").cuts] == ["end", "end", "dowel holes", "dowel holes"]
    screwed = in_line(fasten="screws").replace('in_line = "butt"', f'in_line = "{unmade}"')
    (unscrewed,) = found(screwed, "joint-not-made-yet")
    assert "take dowels, no screws" in str(unscrewed.remedy)


@pytest.mark.parametrize(
    ("timbers", "own", "kinds"),
    [
        (("24", "24"), {"fasten": "screws"}, {"end", "dowel holes"}),
        (("24", "24"), {"dowel": 3}, {"end", "dowel holes"}),
        (("6", "6"), {}, {"end"}),
    ],
    ids=["screws for the rest", "dowels as nobody sells", "too thin for a dowel"],
)
def test_ends_in_line_that_nobody_named_a_kind_for_never_stop(timbers, own, kinds):
    """A dowel of 6 wants 3 of wood either side of it: 12 thick at least; below that glue alone is left.

    Of boards so unlike in depth no lap is made, so they are butted.
    """
    text = in_line(timbers=timbers, depths=(300, 250), **own).replace('in_line = "butt"', "")
    assert {cut.word for cut in joint_of(text, "left", "right").cuts} == kinds
    assert stops(text) == set()
    assert found(text, "butt-in-line")


def test_glue_alone_is_offered_where_dowels_in_line_hold_too_much():
    made = joint_of(in_line(), "left", "right")
    options = made.options
    (ease,) = kind_of(made).eases(made.meeting, options, made.making)
    assert (str(ease.says), ease.options) == ("glue left to right alone", (("fasten", "none"),))


# ---- where holes are marked


def marked(text, name, of):
    """Running positions of a cut on the two faces of a part, the one at +c first."""
    look = Look(piece_of(text).part_by_name[name])
    cut = next(cut for cut in look.part.cuts if cut.key.endswith(f" for {of}"))
    return tuple(look.position(cut, face) for face in FACES)


@pytest.mark.parametrize("inches", [47 / 64, 49 / 64, 0.75, 1 / 3], ids=["47/64", "49/64", "3/4", "a third"])
@pytest.mark.parametrize("fasten", ["dowels", "screws"])
def test_holes_are_marked_on_their_axis_however_the_thickness_comes_out_in_mm(inches, fasten):
    """Half of 47/64 in is 9.3265625; lengths of cuts are rounded to 1e-6. The post stands 300 from the datum end."""
    timber = table("[timber.t]", species="oak, white", thickness=inches * 25.4)
    text = job(
        timber,
        table("[joints]", end_on_face="butt"),
        table("[joints.butt]", fasten=fasten),
        board("base", [[0, 0], [900, 0]], timber="t"),
        board("post", [[300, 0], [300, 500]], timber="t"),
    )
    upper, lower = marked(text, "base", "post")
    assert (upper, lower) == ((300.0, None) if fasten == "dowels" else (300.0, 300.0))


@pytest.mark.parametrize("fasten", ["dowels", "screws"])
@pytest.mark.parametrize("thin", [23.8, 20.0, 12.0])
def test_holes_in_a_board_that_changes_its_thickness_are_marked_on_their_axis(thin, fasten):
    text = job(
        table("[joints]", end_on_face="butt"),
        table("[joints.butt]", fasten=fasten, screw="wood 5x80"),
        board("base", [[0, 0], [900, 0]], thickness_at=[[0, thin], [877, 24.1]]),
        board("post", [[400, 0], [400, 500]]),
    )
    upper, lower = marked(text, "base", "post")
    assert (upper, lower) == pytest.approx((400.0, None) if fasten == "dowels" else (400.0, 400.0))


# ---- limits


def test_a_dowel_in_a_leaning_end_keeps_3_to_its_face():
    """The shortest, 19 in the end: 12 - 4 - 20 cos 60 = -2 at 60."""
    (finding,) = found(tee(60, fasten="dowels"), "dowel-breaks-out")
    assert finding.found == pytest.approx(-2.0)


@pytest.mark.parametrize(("degrees", "size"), [(90, "8 x 50"), (85, "8 x 50"), (80, "8 x 40"), (76, "8 x 25")])
def test_an_end_that_leans_gets_the_longest_dowel_that_keeps_3_to_its_face(degrees, size):
    """12 - 4 - 35 cos 85 = 4.9; at 80 that would be 1.9, and 27 leave 3.3; at 76 20 leave 3.2, and 22 2.7."""
    text = tee(degrees, fasten="dowels")
    made = joint_of(text, "base", "post")
    assert str(kind_of(made).hardware(made)[0].says) == size
    assert not found(text, "dowel-breaks-out")


def test_where_as_much_is_left_beside_the_holes_as_at_the_edges_it_is_made_as_ever():
    """48 deep: (24 - 8) / 2 to the edges, 12 - 4 beside."""
    made = joint_of(tee(fasten="dowels", depth=48), "base", "post")
    assert str(kind_of(made).hardware(made)[0].says) == "8 x 50"


def test_a_dowel_too_long_for_the_face_is_a_stop():
    """22 and 1 more in 24 leave 1.0."""
    (finding,) = found(tee(fasten="dowels", in_face=22, in_end=24), "dowel-breaks-out")
    assert (finding.where.boards, finding.found) == (("base",), pytest.approx(1.0))


def test_so_many_dowels_that_the_outermost_break_out_are_a_stop():
    """30 in 300: 10 apart, 8 thick: 1.0 to the edge."""
    (finding,) = found(tee(fasten="dowels", count=30), "dowel-breaks-out")
    assert finding.found == pytest.approx(1.0)
    assert "1 of wood is left at the edges, beside its holes" in str(finding.says)


def test_a_counterbore_under_a_blunt_corners_bevel_keeps_3():
    """At 105: 12 - 6 - 24 cos 75 = -0.2 at the outside face."""
    found_there = {f.where.boards[0]: f.found for f in found(corner(105, fasten="screws"), "dowel-breaks-out")}
    assert found_there["base"] == pytest.approx(12 - 6 - 24 * math.cos(math.radians(75)))


def test_a_shallow_butt_is_warned_of_and_a_sharper_one_refused():
    assert found(tee(29, fasten="none"), "shallow-angle")
    assert not found(tee(30, fasten="none"), "shallow-angle")
    assert found(tee(14, fasten="none"), "joint-unsuited")


def test_holes_follow_the_end_and_each_board_has_its_own_setting():
    piece = piece_of(tee(fasten="dowels"))
    (made,) = piece.joints
    sawn, *drilled = kind_of(made).operations(made, piece.board_by_name)
    assert sawn.cuts == ("end of post at base",)
    assert [one.after for one in drilled] == [(sawn.key,)] * 2
    assert {one.cuts for one in drilled} == {("dowel holes in base for post",), ("dowel holes in post for base",)}
    assert len({one.ways[0].sets for one in drilled}) == 2


def test_a_screw_wants_three_bits_counterbore_clearance_and_pilot():
    """24 thick, 5 x 60: plugs of 12 over heads, then 5.5 through; the pilot in the end is the third."""
    piece = piece_of(tee(fasten="screws"))
    (made,) = piece.joints
    _, counterbore, clearance, pilot = kind_of(made).operations(made, piece.board_by_name)
    (bore,) = {cut.shapes[0].profile for cut in made.cuts if cut.figures.opens == "face"}
    wide = [one.ways[0].needs[0].least for one in (counterbore, clearance, pilot)]
    assert wide[:2] == [bore[0][1], bore[1][1]]
    assert sorted(wide, reverse=True) == wide
    assert clearance.after == (counterbore.key,)
    assert counterbore.cuts == clearance.cuts != pilot.cuts


def test_end_grain_glued_to_side_grain_is_not_to_be_trusted():
    made = joint_of(tee(), "base", "post")
    assert any("holds little" in note for note in kind_of(made).notes(made))


def test_no_stop_is_left_on_a_plain_dowelled_tee():
    assert stops(tee(fasten="dowels")) == set()


# ---- the wood about screws


def test_a_machine_screw_is_refused_and_never_listed_as_a_wood_screw():
    text = tee(fasten="screws", screw="M6x60")
    (finding,) = found(text, "joint-unsuited")
    assert (finding.severity, "no thread for wood" in str(finding.says)) == ("stop", True)
    assert not piece_of(text).joints


@pytest.mark.parametrize(
    ("degrees", "glued", "severity"),
    [(90, False, "warn"), (-90, False, "stop"), (90, True, None), (-90, True, None)],
    ids=["dry, standing", "dry, hanging", "glued, standing", "glued, hanging"],
)
def test_screws_in_end_grain_alone_hold_nothing_that_hangs(degrees, glued, severity):
    """Its own weight presses an upright onto the board it stands on; below a board it would hang on the thread."""
    severities = [str(one.severity) for one in found(tee(degrees, fasten="screws", glued=glued), "end-grain-pull")]
    assert severities == ([severity] if severity else [])


@pytest.mark.parametrize(
    ("thickness", "severity"), [("12", "warn"), ("18", None), ("24", None)], ids=["3.5 left", "6.5 left", "9.5 left"]
)
def test_wood_in_the_end_is_measured_to_the_thread_and_not_to_its_pilot_hole(thickness, severity):
    """Thread 5, pilot 3.5: in 12 there are 3.5 beside the thread (4.25 beside the pilot), little; below 3 is a stop."""
    text = tee(fasten="screws", thickness=thickness)
    assert [str(one.severity) for one in found(text, "thin-beside-screw")] == ([severity] if severity else [])
    thick = tee(fasten="screws", thickness=thickness, screw="wood 8x100")
    left = (float(thickness) - 8.0) / 2
    assert [one.found for one in found(thick, "dowel-breaks-out") if "beside" in str(one.says)] == (
        [pytest.approx(left)] if left < 3.0 else []
    )


@pytest.mark.parametrize(
    ("thickness", "left", "severity"), [("24", 13.0, None), ("18", 7.0, "warn"), ("12", 3.0, "stop")]
)
def test_half_the_board_stays_under_the_heads_and_never_less_than_a_sixth_or_4(thickness, left, severity):
    """Head 3 and plug 8: 24 - 11 = 13 of 12; 18 - 11 = 7 of 9; of 12 only 3 are left (common practice)."""
    text = job(
        table("[joints]", end_on_face="butt"),
        table("[joints.butt]", fasten="screws", screw="wood 5x60"),
        board("base", [[-500, 0], [500, 0]], timber=thickness),
        board("post", [[0, 0], [0, 500]]),
    )
    under = found(text, "thin-under-head")
    assert [(one.found, str(one.severity)) for one in under] == ([(left, severity)] if severity else [])


def test_heads_under_another_boards_end_are_told_with_that_boards_name():
    says = {one.where.joint: str(one.says) for one in found(opposite(fasten="screws"), "screws-covered")}
    assert says[("base", "post")].startswith("leg covers the mouth of the screws through base into post")
    assert says[("base", "leg")].startswith("post covers the mouth of the screws through base into leg")
