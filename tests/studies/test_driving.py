"""Driving: at which step each screw into the wall is driven, what covers it, and what eyes see of its mouth.

A shelf 260 deep in brick, bored 200 from its front edge: a driver of 230, a screw 110 that travels 50 to come home.
max(230, 110, 30 + 50 + 200) = 280 must be free before its mouth, 70 across. The case of the board that comes at step 5
and stands 90 before it is worked apart from this project (S14 of the stages and hanging cases). The counterbore is 15
wide, so that a board within 7.5 of a screw's axis lies before the bit itself.
"""

import pytest

from dryfit.book import build, building, change_job_text, read_job_text
from dryfit.book.curing import MOST_STUDIED
from dryfit.findings import CODES, Vain, uncured
from dryfit.shop.reading import parse_shop
from dryfit.studies.driving.result import Driving
from dryfit.study.base import Work
from tests.joints.typed import board, book_of, found, job, table

LINE = 280.0
BRICK = table("[wall]", kind="brick", lining=0, hollow=0, hung=True)
OURS = ("screw-not-driven", "screw-line-short", "screw-driven-first", "screw-step")


def fixing(at=(200,), **options):
    asked = {"screw": "wood 6x110, pan head", "anchor": "nylon plug 8x40", "engagement": 50, "driver": 230, **options}
    return table("[[fixing]]", name="screws", board="shelf", kind="long screw", at=list(at), **asked)


def shelf(**more):
    return board("shelf", [[0, 500], [1200, 500]], 260, "40", **more)


def post(x=200, off=90, *, name="post", depth=50, **more):
    """A board that stands before the shelf's front edge, so far off it."""
    return board(name, [[x, 300], [x, 700]], depth, "24", back=260 + off, **more)


def steps(*posts, asked=None, **options):
    """The shelf at step 1, three boards aside at 2 to 4, the posts from step 5 on, one more at the end."""
    aside = [board(f"aside {n}", [[3000 + 100 * n, 0], [3000 + 100 * n, 900]], 50, "24", place=n) for n in (2, 3, 4)]
    given = {} if asked is None else {"step": asked}
    last = board("last", [[4000, 0], [4000, 900]], 50, "24", place="last")
    return job(BRICK, shelf(place=1), *aside, *posts, last, fixing(**options, **given))


def told(text):
    return [one for one in book_of(text).findings if one.code in OURS]


def cured(text, cure):
    """What is still told once a cure is taken."""
    return [one for one in book_of(change_job_text(text, cure.edits)[0]).findings if one.code in OURS]


def driving(text):
    return book_of(text).found(Driving)


def only(text):
    (screw,) = driving(text).screws
    return screw


# ---- when it is driven


def test_the_screw_is_driven_as_soon_as_its_board_is_there_and_at_step_4_at_the_latest():
    screw = only(steps(post(place=5)))

    assert (screw.line, screw.here, screw.step, screw.until) == (pytest.approx(LINE), 1, 1, 4)
    (bar,) = screw.bars
    assert (bar.part, bar.step, bar.distance, bar.lies) == ("post", 5, pytest.approx(90.0), False)
    (note,) = told(steps(post(place=5)))
    assert (note.code, note.severity) == ("screw-driven-first", "note")
    assert str(note.says) == (
        "the screws of screws are driven at step 1, at step 4 at the latest: from step 5 on, "
        "post is 90 in front of the mouth of the screws of screws; bit and drill need 280"
    )
    assert (note.found, note.limit, note.where.boards) == (pytest.approx(90.0), pytest.approx(LINE), ("post", "shelf"))


def test_the_makers_step_6_is_taken_with_a_warning_and_the_cure_before_step_5():
    text = steps(post(place=5), asked=6)
    screw, (finding,) = only(text), told(text)

    assert (screw.step, screw.asked, screw.until) == (6, 6, 4)
    assert (finding.code, finding.severity) == ("screw-line-short", "warn")
    assert str(finding.remedy) == "drive them before step 5, when post comes"
    (cure,) = finding.cures
    assert [(edit.path, edit.value) for edit in cure.edits] == [(("fixing", 0, "step"), 4)]
    assert cured(text, cure) == []


@pytest.mark.parametrize("asked", [1, 4])
def test_a_step_at_which_the_line_is_free_is_taken_without_a_word(asked):
    text = steps(post(place=5), asked=asked)

    assert (only(text).step, told(text)) == (asked, [])


def test_a_board_over_the_mouth_at_the_step_given_is_a_stop_with_the_earlier_step_for_cure():
    text = steps(post(off=0, place=5), asked=6)
    (finding,) = told(text)

    assert (finding.code, finding.severity, only(text).step) == ("screw-not-driven", "stop", None)
    assert str(finding.says) == "at step 6, post covers the mouth of the screws of screws"
    assert finding.cures[0].edits[0].value == 4


def test_a_board_that_stands_there_before_the_screws_board_is_a_stop():
    text = job(BRICK, post(place=1), shelf(place=2), fixing())
    (finding,) = told(text)

    assert (finding.code, finding.severity) == ("screw-not-driven", "stop")
    assert only(text).until is None


@pytest.mark.parametrize(("off", "barred"), [(279.9, True), (280.1, False)])
def test_what_must_be_free_ends_where_bit_and_drill_end(off, barred):
    assert bool(only(steps(post(off=off, place=5))).bars) is barred


@pytest.mark.parametrize(("x", "barred"), [(200 + 46.9, True), (200 + 47.1, False), (200 - 46.9, True)])
def test_what_must_be_free_is_70_across(x, barred):
    """12 of the post and 35 of the drill: 47."""
    assert bool(only(steps(post(x, place=5))).bars) is barred


@pytest.mark.parametrize(("x", "lies"), [(200 + 19.4, True), (200 + 19.6, False), (200 - 19.4, True)])
def test_a_board_lies_over_the_mouth_as_far_as_its_face_and_the_bore_reach(x, lies):
    """12 of the post and 7.5 of the counterbore: 19.5."""
    assert [bar.lies for bar in only(steps(post(x, off=0, place=5))).bars] == [lies]


@pytest.mark.parametrize("deep", [260, 150])
def test_a_board_that_ends_level_with_the_front_edge_or_behind_it_bars_nothing(deep):
    through = board("through", [[230, 0], [230, 900]], deep, "24", place=5)
    assert only(steps(through)).bars == ()


def test_a_board_lying_flat_before_a_mouth_bars_it():
    flat = table(
        "[[board]]", name="fascia", timber="24", line=[[0, 500], [1200, 500]], lies="flat", width=90, back=280, place=5
    )
    (bar,) = only(steps(flat)).bars
    assert (bar.part, bar.distance, bar.lies, bar.step) == ("fascia", pytest.approx(20.0), False, 5)


def test_a_board_that_rakes_past_below_and_above_bars_nothing():
    raking = board("raking", [[200, 400], [1000, 600]], 50, "24", back=300, place=5)
    assert driving(steps(raking, at=(200, 1000))).screws[0].bars == ()


def test_what_stands_beside_the_bit_alone_is_a_warning_and_no_stop():
    """The bit stands out by 230 - 200 = 30 when the screw is home: a board that ends 29 out meets no drill."""
    near = board("post", [[230, 0], [230, 900]], 289, "24", place="first")
    text = job(BRICK, near, shelf(place=2), fixing())
    (finding,) = told(text)
    assert (finding.code, finding.severity) == ("screw-line-short", "warn")
    assert only(text).step == only(text).here

    deeper = job(BRICK, near.replace("289", "292"), shelf(place=2), fixing())
    assert [(one.code, one.severity) for one in told(deeper)] == [("screw-not-driven", "stop")]


def test_each_screw_of_a_fixing_has_its_own_step_and_those_alike_are_told_together():
    text = steps(post(place=5), at=(200, 600, 1000), asked=None)

    assert [(one.number, one.until) for one in driving(text).screws] == [(1, 4), (2, 6), (3, 6)]
    (note,) = told(text)
    assert str(note.says).startswith("screw 1 of screws")


def test_a_step_before_the_board_is_there_is_a_stop_and_one_after_the_last_a_warning():
    early = job(BRICK, post(3000, place=1), shelf(place=2), fixing(step=1))
    late = job(BRICK, shelf(place=1), post(3000, place=2), fixing(step=9))

    assert [(one.code, one.severity) for one in told(early)] == [("screw-step", "stop")]
    assert [(one.code, one.severity) for one in told(late)] == [("screw-step", "warn")]
    assert only(late).step == 2
    for text in (early, late):
        assert cured(text, told(text)[0].cures[0]) == []


def test_what_a_screws_length_is_made_of_adds_up():
    """Bored 200 of 260: 60 of grip; the wall is flat, with no lining: 110 - 60 = 50 are held, all under a flat head."""
    stands = only(steps()).stands

    assert (stands.length, stands.grip, stands.gap, stands.lining, stands.held) == (110.0, 60.0, 0.0, 0.0, 50.0)


# ---- loose, then tight


def test_screws_are_left_loose_until_the_first_board_has_slid_in_and_tightened_then():
    """An upright crosses the shelf at 800 and slides into its slot from the front."""
    upright = board("upright", [[800, 0], [800, 900]], 260, "24", place=2)
    text = job(BRICK, shelf(place=1), upright, post(3000, name="later", place="last"), fixing())
    screw = only(text)

    assert (screw.step, screw.tight, str(screw.waits)) == (1, 2, "upright")


def test_screws_that_the_first_board_would_bar_are_tightened_before_it():
    upright = board("upright", [[240, 0], [240, 900]], 320, "24", place=2)
    text = job(BRICK, shelf(place=1), upright, fixing())
    screw = only(text)

    assert (screw.until, screw.step, screw.tight, screw.waits) == (1, 1, 1, "")


def test_what_is_joined_in_the_shop_is_hung_at_one_step_with_all_that_belongs_to_it():
    upright = board("upright", [[240, 0], [240, 900]], 320, "24")
    text = job(BRICK, shelf(), upright, fixing())

    assert [step.parts for step in driving(text).steps] == [("shelf", "upright")]
    (finding,) = told(text)
    assert (finding.code, finding.severity) == ("screw-not-driven", "stop")
    assert str(finding.says).startswith("upright is 0 in front of the mouth")


def test_boards_joined_to_nothing_come_after_what_is_screwed():
    text = job(BRICK, post(), shelf(), fixing())

    assert [step.parts for step in driving(text).steps] == [("shelf",), ("post",)]
    assert [one.code for one in told(text)] == ["screw-driven-first"]


# ---- the room


@pytest.mark.parametrize(("y", "free"), [(34, False), (36, True)])
def test_a_drill_wants_half_its_width_over_the_floor(y, free):
    low = board("shelf", [[0, y], [1200, y]], 260, "40")
    stands = board("side", [[3000, 0], [3000, 300]], 50, "24")
    text = job(BRICK.replace("hung = true\n", ""), low, stands, fixing())

    assert (only(text).until is not None) is free
    assert [str(one.says).startswith("at step 1, the floor is in the line") for one in told(text)] == [True] * (
        not free
    )


@pytest.mark.parametrize(("right", "free"), [(1034, False), (1036, True)])
def test_a_drill_wants_half_its_width_beside_the_end_of_the_wall(right, free):
    walled = BRICK + f"right = {right}\n"

    assert (only(job(walled, shelf(), fixing(at=(1000,)))).until is not None) is free


# ---- bits


def test_a_bit_is_the_shortest_of_the_shop_that_reaches_else_the_next_that_is_sold():
    """230 reach: of bits 200, 250 and 300 in the shop the second; 300 is the next that is sold."""
    text = job(BRICK, shelf(), fixing(driver=None).replace('driver = "None"\n', "").replace("driver = None\n", ""))
    drivers = "".join(f'[[driver]]\nname = "{n} long"\nlength = {n}\n' for n in (300, 200, 250))
    owned = build(read_job_text(text), parse_shop(drivers)).found(Driving).screws[0]
    bought = build(read_job_text(text)).found(Driving).screws[0]

    assert (owned.bit, owned.bit_from, owned.owned) == (250.0, "the shop", "250 long")
    assert owned.line == pytest.approx(300.0)  # 250 - 200 + 50 + 200
    assert (bought.bit, bought.bit_from, bought.line) == (300.0, "to buy", pytest.approx(350.0))


def test_a_shorter_driver_that_reaches_and_frees_the_line_is_a_cure():
    """With 400 in hand 400 - 200 + 250 = 450 must be free; with 300 it is 350."""
    text = job(BRICK, post(off=360, place=1), shelf(place=2), fixing(driver=400))
    (finding,) = told(text)
    (cure,) = [one for one in finding.cures if "bit" in str(one.label)]

    assert only(text).shorter == 300.0
    assert cured(text, cure) == []


def test_the_nearest_free_place_along_the_board_is_a_cure():
    """12 of the post and 35 beside it: 153 or 247, and 247 is nearer to 210."""
    text = job(BRICK, post(place=1), shelf(place=2), fixing(at=(210,)))
    (finding,) = told(text)
    cure = next(one for one in finding.cures if "move" in str(one.label))

    assert only(text).moved == 247.0
    assert cured(text, cure) == []


def test_no_place_is_offered_that_would_run_the_bore_into_another_cut():
    """An upright is halved into the shelf at 250: from 210 the other side of the post is free, at 153."""
    upright = board("upright", [[250, 0], [250, 900]], 260, "24", place=3)
    text = job(BRICK, post(place=1), shelf(place=2), upright, fixing(at=(210,)))
    (finding,) = [one for one in told(text) if one.code == "screw-not-driven"]

    assert only(text).moved == 153.0
    after = book_of(change_job_text(text, finding.cures[0].edits)[0])
    assert not {"bore-near-cut", "screw-not-driven"} & {one.code for one in after.findings}


def test_of_a_screw_in_a_stud_no_other_place_is_offered():
    studs = table("[wall]", kind="timber studs", lining=0, hollow=0, hung=True, studs=[200])
    text = job(studs, post(place=1), shelf(place=2), fixing(anchor="", screw="wood 6x110"))

    assert only(text).moved is None
    assert not any("move" in str(cure.label) for one in told(text) for cure in one.cures)


# ---- what is in the way put in later


def stop(text):
    (one,) = [one for one in told(text) if one.severity == "stop"]
    return one


def labels(finding):
    return [str(cure.label) for cure in finding.cures]


def stops_after(text, cure):
    """Of screws, and what was not there before."""
    book, before = book_of(change_job_text(text, cure.edits)[0]), {one.code for one in book_of(text).stops}
    assert book.found(Driving).screws, "the screw is looked at again"
    return [one.code for one in book.stops if one.code in OURS or one.code not in before]


COVERED = job(BRICK, post(off=0, place=1), shelf(place=2), fixing(), post(3000, name="aside", place=3))


def test_a_screw_covered_before_its_board_comes_has_cures_of_the_order_and_each_ends_the_stop():
    finding = stop(COVERED)

    assert str(finding.says) == "at step 2, post covers the mouth of the screws of screws"
    assert labels(finding) == [
        "move the screws of screws out of the way",
        "put post in last",
        "leave the place of post to be settled",
        "put shelf in first",
    ]
    assert [stops_after(COVERED, cure) for cure in finding.cures] == [[]] * 4
    last = change_job_text(COVERED, finding.cures[1].edits)[0]
    assert [step.parts for step in driving(last).steps] == [("shelf",), ("aside",), ("post",)]


def test_all_that_is_in_the_way_of_a_screw_is_put_in_later_together():
    other = post(off=80, name="other", place=2)
    text = job(BRICK, post(off=0, place=1), other, shelf(place=3), fixing())
    (cure,) = [cure for cure in stop(text).cures if "in last" in str(cure.label)]

    assert str(cure.label) == "put post and other in last"
    assert stops_after(text, cure) == []


def test_one_of_a_row_is_put_in_later_by_an_exception_of_its_own():
    row = table(
        "[[board]]", name="post {i}", timber="24", line=[["400*i - 200", 300], ["400*i - 200", 700]], depth=50,
        back=260, count=3, place=1,
    )  # fmt: skip
    text = job(BRICK, row, shelf(place=2), fixing())
    (cure,) = [cure for cure in stop(text).cures if str(cure.label) == "put post 1 in last"]

    assert [(edit.action, edit.path, edit.value) for edit in cure.edits] == [
        ("add", ("board", 0, "except"), {"i": 1, "place": "last"})
    ]
    assert stops_after(text, cure) == []


def test_what_goes_up_in_one_unit_with_the_screws_board_is_left_out_of_it():
    side = board("side", [[1212, 300], [1212, 700]], 260, "24")
    group = table("[[unit]]", name="front", boards=["shelf", "side", "post"])
    more = board("more", [[3000, 0], [3000, 900]], 50, "24")
    text = job(BRICK, post(off=0), shelf(), side, more, group, fixing())
    (cure,) = [cure for cure in stop(text).cures if "leave post out of front" in str(cure.label)]

    assert cure.edits[0].value == ["shelf", "side"]
    assert stops_after(text, cure) == []


def test_a_change_of_the_order_that_would_bring_a_stop_is_not_offered_and_the_note_says_so():
    """A leg of number 2 stands on the rail that covers the mouth, so that the rail cannot be last; screwed to studs."""
    studs = table("[wall]", kind="timber studs", lining=0, hollow=0, hung=True, studs=[200])
    rail = board("rail", [[0, 500], [600, 500]], 50, "24", back=260, place=1)
    leg = board("leg", [[300, 512], [300, 900]], 50, "24", back=260, place=2)
    text = job(studs, rail, leg, shelf(place=3), fixing(anchor="", screw="wood 6x110"))
    finding = stop(text)

    assert labels(finding) == ["put shelf in first"]
    assert {str(one.label): one.brings for one in finding.in_vain} == {
        "put rail in last": ("in-before-its-support",),
        "leave the place of rail to be settled": ("in-before-its-support",),
    }


def test_where_no_change_of_the_job_helps_the_note_says_whose_choice_it_is():
    """34 over the floor, where a drill wants 35, and no other place along the shelf is higher."""
    low = board("shelf", [[0, 34], [1200, 34]], 260, "40")
    stands = board("side", [[3000, 0], [3000, 300]], 50, "24")
    finding = stop(job(BRICK.replace("hung = true\n", ""), low, stands, fixing()))

    assert finding.cures == finding.in_vain == ()
    assert str(finding.remedy) == "hold shelf to the wall another way"
    assert str(uncured(finding)) == CODES["screw-not-driven"].uncured


def test_a_sound_piece_has_nothing_tried_and_a_stop_no_more_than_eight(monkeypatch):
    tried = []
    work_out = building._worked_out
    monkeypatch.setattr(building, "_worked_out", lambda *given: tried.append(1) or work_out(*given))

    assert build(read_job_text(steps(post(place=5)))).findings
    assert not tried
    assert build(read_job_text(COVERED)).stops
    assert 0 < len(tried) <= MOST_STUDIED


def test_a_trial_that_is_called_off_offers_nothing_and_does_not_say_that_nothing_helps():
    over = []
    work = Work(cancelled=lambda: bool(over))
    book = build(
        read_job_text(COVERED),
        work=work,
        told=lambda now: over.append(1) if now.study == "driving" and now.outcome else None,
    )
    (finding,) = [one for one in book.findings if one.code == "screw-not-driven"]

    assert finding.cures == ()
    assert {one.why for one in finding.in_vain} == {Vain.OPEN}


# ---- another tool


def test_a_longer_bit_that_brings_the_drill_past_what_stands_beside_it_ends_the_stop():
    """The near board ends 32 before the mouth at 18 from the axis: a bit of 300 stands 100 out, no drill there."""
    near = board("post", [[230, 0], [230, 900]], 292, "24", place="first")
    text = job(BRICK, near, shelf(place=2), fixing())
    (cure,) = [cure for cure in stop(text).cures if "bit" in str(cure.label)]

    assert only(text).longer == 300.0
    assert [(one.code, one.severity) for one in cured(text, cure)] == [("screw-line-short", "warn")]


@pytest.mark.parametrize(("off", "head"), [(240, 160.0), (232, 152.0), (228, None), (300, None)])
def test_how_high_an_angle_drivers_head_may_be_is_told_where_its_bit_goes_in(off, head):
    """A bit of 230 must go in; of what is free, 230 - 200 + 50 = 80 are bit and travel. With 300 a drill has room."""
    text = job(BRICK, post(off=off, place=1), shelf(place=2), fixing())
    assert only(text).angle == head
    if head is None:
        return

    assert f"an angle driver whose bit is 230 long and whose head is at most {head:g} high" in str(stop(text).remedy)

    def bought(high):
        shop = parse_shop(f'[[driver]]\nname = "small"\nlength = 230\nhead = {high}\n')
        return [one.severity for one in build(read_job_text(text), shop).findings if one.code in OURS]

    assert "stop" not in bought(head)
    assert "stop" in bought(head + 1)


# ---- what is not looked at


def test_where_no_order_is_worked_out_nothing_is_said_of_driving():
    """Two boards in one place: they overlap."""
    text = job(BRICK, shelf(), board("again", [[0, 505], [1200, 505]], 260, "40"), fixing())
    book = book_of(text)

    assert [str(one.why) for one in book.not_checked if one.study == "driving"] == [
        "no order of assembly is worked out"
    ]
    assert not told(text)


# ---- eyes


def eye(x, y, z, *, name="door", **more):
    return table("[[eye]]", name=name, at=[x, y, z], **more)


def seen(text):
    return {(one.what, one.cut): (one.share, one.by) for one in driving(text).sights}


MOUTH = ("plug", "bore 1 of screws")


def test_a_plug_is_seen_from_in_front_and_not_from_behind_its_own_edge():
    assert seen(job(BRICK, shelf(), fixing(), eye(200, 1500, 2000)))[MOUTH] == (100, ())
    assert seen(job(BRICK, shelf(), fixing(), eye(200, 1500, 100)))[MOUTH] == (0, ("shelf",))


def test_a_board_between_hides_it_and_is_named():
    """A fascia 90 high stands 20 before the shelf's edge: from straight ahead it hides all of the plug."""
    fascia = table(
        "[[board]]", name="fascia", timber="24", line=[[0, 500], [1200, 500]], lies="flat", width=90, back=280
    )
    hidden = seen(job(BRICK, shelf(), fascia, fixing(), eye(200, 500, 2000)))[MOUTH]
    over = seen(job(BRICK, shelf(), fascia, fixing(), eye(200, 3000, 300)))[MOUTH]

    assert hidden == (0, ("fascia",))
    assert over == (100, ())  # down behind the fascia, by the gap of 20


@pytest.mark.parametrize(("y", "least", "most"), [(510, 100, 100), (590, 1, 99), (660, 0, 0)])
def test_a_ray_past_an_edge_is_where_similar_triangles_have_it(y, least, most):
    """A board from 508 up ends 100 before the plug, the eye is 1100 before it.

    From a height h a ray to a point p of the plug passes that edge at p + (h - p) / 11. The rim reaches from 493.25 to
    506.75: from 510 all of it passes under 507.1, from 660 all of it over 508.4, from 590 the middle at 508.2.
    """
    lip = table("[[board]]", name="lip", timber="24", line=[[0, 553], [1200, 553]], lies="flat", width=90, back=336)
    text = job(BRICK, shelf(), lip, fixing(), eye(200, y, 1360))
    share, by = seen(text)[MOUTH]

    assert least <= share <= most
    assert by == (("lip",) if most < 100 else ())


def test_where_the_job_wants_it_hidden_plugs_are_a_note_and_open_mouths_a_warning():
    plugged = job(BRICK, shelf(), fixing(), eye(200, 1500, 2000, hidden=True))
    bare = job(BRICK, shelf(), fixing(plugged=False), eye(200, 1500, 2000, hidden=True))
    silent = job(BRICK, shelf(), fixing(), eye(200, 1500, 2000))

    assert [(one.severity, str(one.says)) for one in found(plugged, "seen-from-eye")] == [
        ("note", "from door, 1 plug in shelf is seen")
    ]
    assert [(one.severity, str(one.says)) for one in found(bare, "seen-from-eye")] == [
        ("warn", "from door, 1 mouth in shelf is seen")
    ]
    assert found(silent, "seen-from-eye") == []


def test_an_open_notch_is_seen_from_the_front_and_hidden_from_behind_the_board():
    """The upright is 200 deep, the shelf 260: where the shelf's slot opens to the front, 60 of it stays open."""
    upright = board("upright", [[600, 0], [600, 900]], 200, "24")
    way = table("[[joint]]", between=["shelf", "upright"], front="shelf")
    ahead = seen(job(BRICK, shelf(), upright, way, fixing(), eye(600, 1200, 2000)))
    notch = ("open notch", "slot in shelf for upright")
    assert ahead[notch][0] > 0
    below = seen(job(BRICK, shelf(), upright, way, fixing(), eye(-2000, 490, 100)))
    assert below[notch] == (0, ("shelf",))


def test_an_eye_of_a_job_in_inches_is_where_it_says():
    inches = job(BRICK, board("shelf", [[0, 20], [50, 20]], 10, "40"), units="in")
    book = build(read_job_text(inches + eye(10, 60, 80)))
    assert book.job.tables["eye"][0].at == (pytest.approx(254.0), pytest.approx(1524.0), pytest.approx(2032.0))
