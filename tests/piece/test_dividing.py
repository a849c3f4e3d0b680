"""Where a board longer than its stock is divided: sums for the head, of GEOMETRY's rules for a splice.

A shelf of 2600 in stock of 2000, 10 of trim at each end of a blank, so 1980 for a member; boards 24 thick. An
upright at 1800 takes 12 of the shelf to either side; 2 t of 24 and 1 to spare make 49 beside it.
"""

import math
from itertools import pairwise

import pytest

from dryfit.job.model import Fixing, FrameSpec, JointRules, JointSpec, Wall
from dryfit.piece.dividing import BaySpan, Room, any_spans, places, sound_spans, zones_of
from dryfit.piece.setout import Made, Pin
from tests.piece.making import built, coded, job_of, met, plank

HUNG = Wall(hung=True)
BUTTED, OPEN = JointRules(in_line="butt", in_line_named=True), JointRules()
TAKES = 12.0  # an upright 24 thick, to either side of its middle
CLEAR = 2 * 24 + 1


def shelf(length=2600.0, name="shelf", **more):
    return plank(name, (0, 500), (length, 500), **more)


def uprights(*places, low=0.0, high=1000.0):
    return [plank(f"upright {x:g}", (x, low), (x, high)) for x in places]


def piece(*boards, longest=2000.0, **more):
    """Its members are butted, so that they end where it is divided; of splices see below."""
    return built(job_of(*boards, longest=longest, wall=HUNG, **{"joints": BUTTED, **more}))


def divided_at(made, name="shelf"):
    """Where a board is divided, from its datum end."""
    lengths = [board.length for board in made.boards if made.whole.get(board.name) == name]
    return [round(sum(lengths[: number + 1]), 6) for number in range(len(lengths) - 1)]


# ---- whether


@pytest.mark.parametrize(("length", "divided"), [(1980.0, False), (1980.01, True)])
def test_a_board_is_divided_when_its_blank_does_not_come_out_of_its_stock(length, divided):
    assert bool(piece(shelf(length), *uprights(200, 1000, 1800)).whole) == divided


@pytest.mark.parametrize(("length", "divided"), [(1965.0, False), (1965.01, True)])
def test_what_is_left_to_scribe_counts(length, divided):
    assert bool(piece(shelf(length, scribe=(0.0, 15.0)), *uprights(200, 1000, 1800)).whole) == divided


@pytest.mark.parametrize(("form", "degrees"), [("level", 60.0), ("plumb", 30.0)])
def test_the_long_points_of_slanting_ends_count(form, degrees):
    """30 off plumb a level end runs 12 tan 30 = 6.93 past the centre-line; so does a plumb one 30 off level."""
    beyond = 12 * math.tan(math.radians(30.0))
    u = (math.cos(math.radians(degrees)), math.sin(math.radians(degrees)))
    for length, divided in ((1980 - 2 * beyond - 0.01, False), (1980 - 2 * beyond + 0.01, True)):
        board = plank("long", (0, 500), (length * u[0], 500 + length * u[1]), ends=(form, form))
        across = [_across(length * share, u, number) for number, share in enumerate((0.1, 0.45, 0.8))]
        made = piece(board, *across)
        assert bool(made.whole) == divided
        assert not divided or coded(made.findings, "longer-than-stock") == []


def _across(along, u, number):
    """A short board square to one through (0, 500), at a place along it."""
    x, y = along * u[0], 500 + along * u[1]
    return plank(f"across {number}", (x - 200 * u[1], y + 200 * u[0]), (x + 200 * u[1], y - 200 * u[0]))


@pytest.mark.parametrize(("length", "divided"), [(1956.0, False), (1956.01, True)])
def test_the_long_points_of_mitred_ends_count(length, divided):
    """A mitre at 90 in 24 runs 12 past the centre-lines' corner at either end."""
    box = [
        plank("lower", (0, 200), (length, 200), frame="box"),
        plank("right", (length, 200), (length, 900), frame="box"),
        plank("upper", (length, 900), (0, 900), frame="box"),
        plank("left", (0, 900), (0, 200), frame="box"),
    ]
    made = piece(*box)
    assert set(made.whole.values()) == ({"lower", "upper"} if divided else set())


@pytest.mark.parametrize(("length", "divided"), [(1988.0, False), (1988.01, True)])
def test_a_housed_end_counts_as_it_is_cut_not_as_it_is_drawn(length, divided):
    """Between uprights on centres a shelf goes 8 into each: 1988 drawn is 1988 - 24 + 16 = 1980."""
    stands = uprights(0, length, low=0.0, high=1000.0)
    made = piece(plank("shelf", (0, 500), (length, 500)), *stands, *uprights(500, 1400))
    assert bool(made.whole) == divided


def test_the_maker_may_divide_a_board_that_the_stock_holds():
    made = piece(shelf(1500, splice_at=(400.0,)), *uprights(200, 1000))
    assert divided_at(made) == [400.0]
    assert made.decisions[-1].decider == "maker"


def test_without_a_length_of_stock_any_length_can_be_had():
    assert not piece(shelf(9000), *uprights(200, 1000), longest=None).whole


# ---- where


def test_at_a_quarter_of_a_bay_the_furthest_that_the_stock_reaches():
    """Quarters at 400, 800, 1200, 1600, 1950 and 2250; from 620 to 1980 is in reach of both ends."""
    assert divided_at(piece(shelf(), *uprights(200, 1000, 1800, 2400))) == [1950.0]


@pytest.mark.parametrize(
    ("longest", "place"),
    [
        (2000, 1900.0),  # both quarters, 700 and 1900, are in reach: the further one
        (1800, 1780.0),  # 700 is 120 short of 820, where the rest is 1780; 1900 is 120 over 1780
        (1790, 1770.0),
        (1720, 1700.0),  # the middle third, 900 to 1700, is the last that it comes to
    ],
)
def test_a_place_off_the_quarter_is_as_near_to_it_as_the_stock_allows(longest, place):
    """One bay from 100 to 2500: quarters at 700 and 1900, its middle third from 900 to 1700."""
    assert divided_at(piece(shelf(), *uprights(100, 2500), longest=longest)) == [place]


def test_in_a_middle_third_it_is_never_divided():
    made = piece(shelf(), *uprights(100, 2500), longest=1719)
    assert not made.whole
    assert coded(made.findings, "no-place-to-divide")


@pytest.mark.parametrize(("scribe", "place"), [((0.0, 0.0), 1780.0), ((60.0, 0.0), 820.0), ((0.0, 60.0), 1780.0)])
def test_what_is_left_to_scribe_shortens_the_member_that_has_it(scribe, place):
    """With 60 at the datum end the first member reaches 1720, 180 short of the quarter; 820 is 120 past the other."""
    assert divided_at(piece(shelf(scribe=scribe), *uprights(100, 2500), longest=1800)) == [place]


def test_two_divisions_where_one_will_not_do():
    """Supports every 600 from 100 to 4900. Quarters near: 1750 (then 2050 is out of reach), then 3550 of 3730."""
    made = piece(shelf(5000), *uprights(*range(100, 5000, 600)))
    assert divided_at(made) == [1750.0, 3550.0]


@pytest.mark.parametrize("longest", [700, 900, 1200, 1500, 2000, 2600, 3200])
def test_as_few_divisions_as_will_do(longest):
    """Against every choice of whole-millimetre places, one a bay, worked out step by step."""
    supports = range(100, 5000, 600)
    made = piece(shelf(5000), *uprights(*supports), longest=longest)
    reach = _furthest(supports, longest - 20)
    assert len(divided_at(made)) == next(count for count, far in enumerate(reach) if far >= 5000)


def _furthest(supports, member):
    """How far one comes with 0, 1, 2 ... divisions, each in a bay of its own."""
    far, bay, reach = member, -1, [member]
    bays = list(pairwise(supports))
    while far < 5000:
        best = (0, bay)
        for number, (start, end) in enumerate(bays):
            third = (end - start) / 3
            able = [
                place
                for low, high in ((start + TAKES + CLEAR, start + third), (end - third, end - TAKES - CLEAR))
                for place in [min(high, far)]
                if number > bay and low <= place
            ]
            best = max([best, *((place, number) for place in able)])
        far, bay = best[0] + member, best[1]
        reach.append(far)
    return reach


def test_a_place_is_clear_of_its_support_by_twice_the_thickness_and_leaves_no_short_grain():
    """From 1500 to 3000: the first member reaches 1561 = 1500 + 12 + 49 and no further."""
    made = piece(shelf(3100), *uprights(100, 1500, 3000), longest=1581)
    assert divided_at(made) == [1561.0]
    assert not [finding for finding in coded(made.findings, "short-grain") if finding.severity == "stop"]


def test_beside_a_leaning_board_it_is_clear_on_the_face_where_that_comes_nearest():
    """At 45 the other board covers (24 + 24 cos 45) / 2 / sin 45 = 28.97 to either side, over both faces."""
    leaning = plank("leaning", (1300, 300), (1700, 700))
    covered = (24 + 24 * math.cos(math.pi / 4)) / 2 / math.sin(math.pi / 4)
    place = math.ceil(2 * (1500 + covered + CLEAR)) / 2
    made = piece(shelf(3100), leaning, *uprights(100, 3000), longest=place + 20)
    assert divided_at(made) == [place]
    assert not [finding for finding in coded(made.findings, "short-grain") if finding.severity == "stop"]
    made = piece(shelf(3100), leaning, *uprights(100, 3000), longest=place + 18)
    assert all(abs(at - 1500) > covered + CLEAR for at in divided_at(made))


def test_a_bay_too_short_to_keep_clear_in_is_not_divided():
    """A bay of 180: a third is 60, and 12 + 49 = 61 beside the upright is more."""
    (meetings, board) = _meetings(shelf(), uprights(1000, 1180))
    assert sound_spans(board, zones_of(job_of(), board, meetings)) == []
    (meetings, board) = _meetings(shelf(), uprights(1000, 1183))
    assert [(span.low, span.high) for span in sound_spans(board, zones_of(job_of(), board, meetings))] == [
        (1061.0, 1061.0),
        (1122.0, 1122.0),
    ]


def _meetings(long, others):
    found = met(long, *others).meetings
    (board,) = [board for board in piece(long, *others, longest=None).boards if board.name == long.name]
    return found, board


def test_boards_that_come_near_each_other_hold_as_one():
    """Uprights at 1000 and 1020 overlap in what they take: one support, 988 to 1032, its middle at 1010."""
    (meetings, board) = _meetings(shelf(), [*uprights(1000, low=500), *uprights(1020, high=500)])
    assert zones_of(job_of(), board, meetings) == [(988.0, 1032.0)]


def test_a_board_laid_along_another_holds_it_nowhere():
    """Face on face nothing is cut, and no place along it is the one."""
    (meetings, board) = _meetings(shelf(), [plank("upper", (300, 524), (1500, 524))])
    assert [meeting.form for meeting in meetings] == ["touching"]
    assert zones_of(job_of(), board, meetings) == []


def test_a_flat_board_is_divided_beside_the_boards_that_are_notched_over_it():
    rail = plank("rail", (0, 500), (2600, 500), lies="flat", depth=90)
    assert divided_at(piece(rail, *uprights(200, 1000, 1800, 2400)), "rail") == [1950.0]


def test_a_wide_flat_board_takes_its_width_of_what_crosses_it():
    """A flat board 90 wide covers 45 to either side of an upright's place over it."""
    rail = plank("rail", (0, 545), (600, 545), lies="flat", depth=90)
    (meetings, board) = _meetings(plank("post", (300, 0), (300, 1000)), [rail])
    (zone,) = zones_of(job_of(), board, meetings)
    assert zone[1] - zone[0] == pytest.approx(90.0)


# ---- the search itself


def test_of_places_equally_near_their_quarters_the_further_one_is_taken():
    spans = [BaySpan(0, 0.0, 10.0, 5.0), BaySpan(1, 20.0, 30.0, 25.0)]
    assert places(spans, 50.0, Room(first=40.0, middle=40.0, last=45.0)) == (25.0,)


def test_no_bay_is_divided_twice():
    spans = [BaySpan(0, 0.0, 10.0, 5.0), BaySpan(0, 20.0, 30.0, 25.0)]
    assert places(spans, 50.0, Room(first=10.0, middle=20.0, last=20.0)) == ()
    assert places([spans[0], BaySpan(1, 20.0, 30.0, 25.0)], 50.0, Room(first=10.0, middle=20.0, last=20.0)) == (
        10.0,
        30.0,
    )


def test_a_place_is_in_halves_where_the_span_has_one_and_to_the_last_bit_where_not():
    room = Room(first=100.0, middle=100.0, last=100.0)
    assert places([BaySpan(0, 10.1, 20.3, 15.24)], 50.0, room) == (15.0,)
    assert places([BaySpan(0, 10.1, 10.4, 15.24)], 50.0, room) == (10.4,)


# ---- the maker's places


@pytest.mark.parametrize(
    ("place", "found", "limit", "says"),
    [
        (240.0, 28.0, 48.0, "from what holds it"),
        (600.0, 400.0, 800 / 3, "in the middle third of a bay"),
        (100.0, None, None, "only a splice holds the member from"),
        (400.0, None, None, ""),
        (260.0, None, None, ""),  # 2 t from the upright's face, to the last bit
        (466.5, None, None, ""),  # within the third
        (467.0, 267.0, 800 / 3, "in the middle third of a bay"),
    ],
    ids=[
        "28 from a joint",
        "in the middle",
        "beyond the last joint",
        "at a quarter",
        "2 t clear",
        "a third",
        "past it",
    ],
)
def test_a_weak_place_of_the_makers_is_taken_and_told(place, found, limit, says):
    """Uprights at 200 and 1000: 212 is the first one's face, the middle third runs from 466.67 to 733.33."""
    made = piece(shelf(1500, splice_at=(place,)), *uprights(200, 1000))
    weak = coded(made.findings, "weak-place-to-divide")
    assert divided_at(made) == [place]
    assert len(weak) == bool(says)
    for finding in weak:
        assert finding.severity == "warn"
        assert says in str(finding.says)
        assert finding.found == pytest.approx(found)
        assert finding.limit == pytest.approx(limit)
        assert finding.where.path == ("board", "shelf", "splice_at")


def test_a_fixing_holds_a_board_as_a_joint_does():
    """With screws at 100 and 700 the quarter of 600 is at 250; without them nothing holds the first member."""
    screws = Fixing(name="screws", board="shelf", kind="long screw", at=(100.0, 700.0), path=("fixing", 0))
    board = shelf(1500, splice_at=(250.0,))
    assert coded(piece(board, *uprights(1000)).findings, "weak-place-to-divide")
    assert not coded(piece(board, *uprights(1000), fixings=(screws,)).findings, "weak-place-to-divide")


def test_a_members_blank_longer_than_its_stock_is_a_stop_by_name():
    """Divided at 500, 2100 is left: a blank of 2120 for stock of 2000."""
    made = piece(shelf(splice_at=(500.0,)), *uprights(200, 1000, 1800, 2400))
    (stop,) = coded(made.findings, "longer-than-stock")
    assert (stop.severity, stop.where.boards, stop.found, stop.limit) == ("stop", ("shelf (2 of 2)",), 2120.0, 2000.0)
    assert stop.where.path == ("board", "shelf")


# ---- no place


def test_no_place_is_a_stop_told_once_and_the_board_stays_whole():
    made = piece(shelf(), *uprights(100, 2500), longest=1500)
    (stop,) = coded(made.findings, "no-place-to-divide")
    assert (stop.severity, stop.where.boards, stop.found, stop.limit) == ("stop", ("shelf",), 2620.0, 1500.0)
    assert not coded(made.findings, "longer-than-stock")
    assert [part.length for part in made.parts if part.id == "shelf"] == [2600.0]


def test_the_cures_are_the_least_weak_place_and_longer_stock():
    """Between 161 and 2439, 1480 at most either way: from 1120 on, nearest to the far quarter at 1869.5 is 1480."""
    made = piece(shelf(), *uprights(100, 2500), longest=1500)
    (stop,) = coded(made.findings, "no-place-to-divide")
    divide, longer = stop.cures
    assert str(divide.label) == "divide shelf 1480 from its datum end"
    assert [(edit.path, edit.value) for edit in divide.edits] == [(("board", "shelf", "splice_at"), [1480.0])]
    assert str(longer.label) == "use stock 2620 long"
    assert [(edit.path, edit.value) for edit in longer.edits] == [(("timber", "24", "longest"), 2620.0)]


@pytest.mark.parametrize(
    ("stands", "best"),
    [
        ((), [1300.0]),  # nothing holds it anywhere: the middle
        ((700,), [761.0]),  # 49 beside the one upright
        ((1990,), [1929.0]),
    ],
    ids=["no support", "one on the left", "one on the right"],
)
def test_where_little_holds_a_board_the_cure_keeps_near_to_it(stands, best):
    (meetings, board) = _meetings(shelf(), uprights(*stands))
    spans = any_spans(board, zones_of(job_of(), board, meetings))
    assert list(places(spans, 2600.0, Room(first=1980.0, middle=1980.0, last=1980.0))) == best


def test_a_frames_side_has_no_word_for_its_places_so_only_longer_stock_is_offered():
    box = [
        plank("lower", (0, 200), (2600, 200), frame="box"),
        plank("right", (2600, 200), (2600, 900), frame="box"),
        plank("upper", (2600, 900), (0, 900), frame="box"),
        plank("left", (0, 900), (0, 200), frame="box"),
    ]
    frame = FrameSpec(
        name="box",
        boards=tuple(board.name for board in box),
        points=((0.0, 200.0), (2600.0, 200.0), (2600.0, 900.0), (0.0, 900.0)),
        closed=True,
        size="centre",
    )
    made = piece(*box, longest=1500, frames=(frame,))
    stops = coded(made.findings, "no-place-to-divide")
    assert {stop.where.boards for stop in stops} == {("lower",), ("upper",)}
    assert {str(cure.label) for stop in stops for cure in stop.cures} == {"use stock 2650 long"}
    assert all("boards of its own" in str(stop.remedy) for stop in stops)


# ---- drawn the other way


@pytest.mark.parametrize("length", [2600.0, 2633.3, 5000.0])
def test_a_line_drawn_the_other_way_is_divided_in_the_same_places(length):
    others = uprights(200, 1000, 1800, 2400, 3300, 4100, 4700)
    there = piece(plank("shelf", (0, 500), (length, 500), scribe=(7.0, 0.0)), *others)
    back = piece(plank("shelf", (length, 500), (0, 500), scribe=(0.0, 7.0)), *others)
    assert divided_at(there)
    assert sorted(divided_at(there)) == divided_at(there)
    ours, theirs = ({part.id: (part.blank, part.cuts, part.long) for part in made.parts} for made in (there, back))
    assert ours == theirs


def test_pinned_to_its_right_end_it_is_counted_and_divided_from_there():
    """Seen from the right the supports stand at 200, 800, 1600 and 2400: quarters at 1400 and 1800, 620 to 1980."""
    job = job_of(shelf(), *uprights(200, 1000, 1800, 2400), longest=2000.0, wall=HUNG)
    made = built(job, Made(pins={"shelf": Pin(datum="end", face_side="left")}, thickness={}, fronts={}))
    first = next(board for board in made.boards if board.name == "shelf (1 of 2)")
    assert first.frame.origin[0] == pytest.approx(2600.0)
    assert first.length == 1800.0


# ---- spliced: what runs past the place wants stock, and room in the bay


def lapped(made, name="shelf"):
    """Members' lengths over their laps, and how each two are joined."""
    kinds = [joint.kind for joint in made.joints if joint.meeting.form == "in line"]
    return [part.length for part in made.parts if made.whole.get(part.id) == name], kinds


def test_a_half_lap_takes_half_its_length_of_the_stock_of_either_member():
    """24: a lap of 140, so 1980 - 70 = 1910 to the place: 1950 is out of reach, the quarter at 1600 is not."""
    made = piece(shelf(), *uprights(200, 1000, 1800, 2400), joints=OPEN)
    assert divided_at(made) == [1600.0]
    assert lapped(made) == ([1670.0, 1070.0], ["splice"])
    assert [part.blank.length for part in made.parts if part.id in made.whole] == [1690.0, 1090.0]


def test_a_lap_is_clear_of_the_support_by_twice_the_thickness_from_where_it_ends():
    """From 1500 to 3000: 1500 + 12 + 49 + 70 = 1631, and the stock must have that and the other half of the lap."""
    stands = uprights(100, 1500, 3000)
    made = piece(shelf(3100), *stands, longest=1631 + 70 + 20, joints=OPEN)
    assert divided_at(made) == [1631.0]
    assert lapped(made) == ([1701.0, 1539.0], ["splice"])


@pytest.mark.parametrize("short", [1, 70])
def test_where_the_stock_or_the_bay_has_no_room_for_a_lap_members_are_butted_where_a_butt_would_be(short):
    stands = uprights(100, 1500, 3000)
    made = piece(shelf(3100), *stands, longest=1721 - short, joints=OPEN)
    butted = piece(shelf(3100), *stands, longest=1721 - short)
    assert divided_at(made) == divided_at(butted) != []
    assert lapped(made) == ([1721.0 - short - 20, 3100 - 1721.0 + short + 20], ["butt"])
    assert not coded(made.findings, "longer-than-stock") + coded(made.findings, "weak-place-to-divide")


def test_no_member_more_is_made_for_a_laps_sake_unless_it_is_asked_for():
    """Supports every 600 from 100 to 4900 and stock of 1800: 3 members flush (1750, 3530); laps would want 4."""
    stands = uprights(*range(100, 5000, 600))
    flush = piece(shelf(5000), *stands, longest=1770, joints=OPEN)
    asked = piece(shelf(5000), *stands, longest=1770, joints=JointRules(in_line="splice", in_line_named=True))
    assert (len(divided_at(flush)), set(lapped(flush)[1])) == (2, {"butt"})
    assert (len(divided_at(asked)), set(lapped(asked)[1])) == (3, {"splice"})
    assert max(part.blank.length for part in asked.parts if part.id in asked.whole) <= 1770


def test_a_splice_that_is_asked_for_and_finds_no_room_in_any_bay_is_told_as_weak():
    """Supports every 300: a third is 100, and 12 + 49 + 70 = 131 beside one is more; a butt is made 75 beside it."""
    stands = uprights(*range(100, 2600, 300))
    made = piece(shelf(), *stands, joints=JointRules(in_line="splice", in_line_named=True))
    assert lapped(made)[1] == ["splice"]
    (weak,) = coded(made.findings, "weak-place-to-divide")
    assert (weak.found, weak.limit) == (75 - 12 - 70.0, 48.0)
    assert lapped(piece(shelf(), *stands, joints=OPEN))[1] == ["butt"]


def test_a_splice_that_is_asked_for_and_does_not_come_out_of_the_stock_is_a_stop():
    """One bay from 100 to 2500, its middle third to 1700: in stock of 1720 a butt is made there, a lap wants more."""
    made = piece(shelf(), *uprights(100, 2500), longest=1720, joints=JointRules(in_line="splice", in_line_named=True))
    (stop,) = coded(made.findings, "longer-than-stock")
    assert (stop.found, stop.limit) == (1700 + 70 + 20.0, 1720.0)


def test_a_splice_in_the_makers_place_that_ends_near_a_joint_is_told():
    """Divided at 320, its lap of 140 begins at 250, 38 from the face of the upright at 200."""
    made = piece(shelf(1500, splice_at=(320.0,)), *uprights(200, 1000), joints=OPEN)
    (weak,) = coded(made.findings, "weak-place-to-divide")
    assert (weak.found, weak.limit) == (38.0, 48.0)
    assert "its splice ends 38 from what holds it" in str(weak.says)


def test_the_joint_between_members_may_be_asked_for_in_a_table_of_its_own():
    table = JointSpec(
        between=("shelf (1 of 2)", "shelf (2 of 2)"), kind="splice", options={"lap": 100}, path=("joint", 0)
    )
    made = piece(shelf(), *uprights(200, 1000, 1800, 2400), joints=OPEN, joint_specs=(table,))
    assert lapped(made) == ([1650.0, 1050.0], ["splice"])


def test_a_lap_is_as_thick_as_the_whole_board_was_there():
    """From 24 at 0 to 26 at 2600: 70 past 1600 it is 24 + 2 x 1670 / 2600, on the first member as on the second."""
    made = piece(shelf(thickness_at=((0.0, 24.0), (2600.0, 26.0))), *uprights(200, 1000, 1800, 2400), joints=OPEN)
    first, second = (made.board_by_name[f"shelf ({number} of 2)"] for number in (1, 2))
    assert lapped(made)[1] == ["splice"]
    place = first.length
    for off in (-70.0, 0.0, 70.0):
        meant = pytest.approx(24 + 2 * (place + off) / 2600)
        assert first.thickness_at(place + off) == meant
        assert second.thickness_at(off) == meant
