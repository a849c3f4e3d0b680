"""The finish plan: faces against slices of the solids, litres against a worked case, days against a walk hour by hour.

A board 1000 x 200 x 20: each face 0.2 m2, each long edge 0.02, both ends together 0.008. Two that cross and are halved
hide of each other two walls of a slot and what stands between them: 2 x 20 x 100 + 2 x 20 x 100 mm2 (play apart).
The case of 6 m2 in 3 coats at 12 m2/l with 15 % lost, 1.725 l, is a worked example of coating arithmetic.
"""

import datetime
import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dryfit.book import build, read_job_text
from dryfit.book.demos import demo_text, demos
from dryfit.piece.history import Stage
from dryfit.piece.solids import Solids
from dryfit.studies.buying.result import LOST
from dryfit.studies.coating.planning import DryingTimes, Planned, steps
from dryfit.studies.coating.result import Coating
from tests.strategies import pieces

HEAD = 'dryfit = 1\n[timber.oak]\nspecies = "oak, European"\nthickness = 20\n[wall]\nhung = true\n'
VARNISH = '[finish]\nsystem = "varnish, polyurethane"\ncoats = 2\n'
GLUED = '[joints."cross halving"]\nglued = true\n'


def board(name, line, more="", depth=200):
    return f'[[board]]\nname = "{name}"\nline = {line}\ndepth = {depth}\n{more}'


ONE = board("a", "[[0, 500], [1000, 500]]")
CROSSED = ONE + board("b", "[[500, 0], [500, 1000]]")


def book_of(text):
    return build(read_job_text(text))


def coating(text):
    return book_of(text).found(Coating)


def faces(found, name="a"):
    return {one.face: one for one in found.faces if one.board == name}


# --- faces ------------------------------------------------------------------------------------------


def test_the_faces_of_one_board_from_the_front():
    found = faces(coating(HEAD + VARNISH + ONE))

    assert {name: one.m2 for name, one in found.items()} == {
        "face +": pytest.approx(0.2),
        "face -": pytest.approx(0.2),
        "front edge": pytest.approx(0.02),
        "wall edge": pytest.approx(0.02),
        "ends": pytest.approx(0.008),
    }
    assert (found["face +"].called, found["face -"].called) == ("upper", "lower")
    assert [name for name, one in found.items() if one.seen_m2 == 0.0] == ["wall edge"]


def test_an_eye_above_and_to_the_left_sees_three_sides_and_a_board_before_it_takes_them_away():
    eye = '[[eye]]\nname = "door"\nat = [-3000, 1500, 3000]\n'
    text = HEAD + VARNISH + ONE + eye

    seen = faces(coating(text))
    assert {name: one.seen_m2 for name, one in seen.items()} == {
        "face +": pytest.approx(0.2),
        "face -": 0.0,
        "front edge": pytest.approx(0.02),
        "wall edge": 0.0,
        "ends": pytest.approx(0.004),
    }
    # Rays to it pass the height of 900 between 1500 left of it and its right end, 1200 to 1350 out of the wall.
    screen = board("screen", "[[-2000, 900], [1400, 900]]", depth=2000)
    assert {one.seen_m2 for one in faces(coating(text + screen)).values()} == {0.0}


def test_what_glued_joints_mask_is_what_they_hide():
    book = book_of(HEAD + VARNISH + 'when = "before glue"\n' + CROSSED + GLUED)
    found = book.found(Coating)

    (joint,) = book.piece.joints
    for name, hidden in joint.hidden_mm2:
        own = faces(found, name).values()
        assert math.fsum(one.masked_m2 for one in own) == pytest.approx(hidden / 1e6)
        assert math.fsum(one.glued_m2 for one in own) == pytest.approx(hidden / 1e6)
        assert hidden == pytest.approx(2 * 20 * 100 * 2, rel=0.02)
    (met,) = found.joints
    assert (met.states, met.films, met.closes) == (("masked", "masked"), (0.0, 0.0), "glued")


def test_a_mask_lies_on_a_face_where_the_other_board_does():
    """Across it at 500 stands b: its 20 lie on a's faces from 490 to 510, over half of the depth."""
    found = faces(coating(HEAD + VARNISH + 'when = "before glue"\n' + CROSSED))

    (place,) = found["face +"].places
    alongs, acrosses = zip(*place.outline, strict=True)
    assert (min(alongs), max(alongs)) == (pytest.approx(490, abs=0.2), pytest.approx(510, abs=0.2))
    assert max(acrosses) - min(acrosses) == pytest.approx(100, abs=1.5)
    assert (place.by, place.state) == ("b", "masked")


def slices(book, part):
    """Areas of both edges, and of the faces of a board of one thickness, by slices just inside of them."""
    solid, edge = Solids().solid(part), 1e-3
    turned = solid.rotate([90.0, 0.0, 0.0])  # (a, c, d) to (a, -d, c)
    half = part.board.thickest / 2 - edge
    return {
        "wall edge": solid.slice(edge).area(),
        "front edge": solid.slice(part.board.depth - edge).area(),
        "face +": turned.slice(half).area(),
        "face -": turned.slice(-half).area(),
    }


@given(drawn=pieces(), when=st.sampled_from(["before glue", "after glue"]))
@settings(max_examples=15)
def test_faces_of_any_piece_add_up_to_its_solids(drawn, when):
    job = replace(drawn.job, finish=replace(drawn.job.finish, system="varnish, polyurethane", coats=2, when=when))
    book = build(job)
    found = book.found(Coating)
    if found is None or not found.stages:
        return
    solids = Solids()
    for part in book.piece.parts:
        own = faces(found, part.id)
        if part.short[1] <= part.short[0]:
            continue
        surface = solids.solid(part).surface_area() / 1e6
        assert math.fsum(one.m2 for one in own.values()) == pytest.approx(surface, rel=1e-6)
        for one in own.values():
            parts = one.open_m2 + one.masked_m2 + one.coated_m2 + one.bare_m2
            assert parts == pytest.approx(one.m2, rel=1e-9, abs=1e-12)
            assert -1e-12 <= one.seen_m2 <= one.open_m2 + 1e-12
            assert one.glued_m2 <= one.m2 - one.open_m2 + 1e-12
        if len({thickness for _, thickness in part.board.profile}) == 1:
            for face, area in slices(book, part).items():
                assert own[face].m2 * 1e6 == pytest.approx(area, rel=2e-3, abs=2.0) if face in own else area < 2.0


@pytest.mark.parametrize("name", list(demos()))
def test_what_is_open_of_the_faces_of_a_demo_is_what_its_boards_have_open(name):
    found = coating(demo_text(name))
    if found is None or not found.stages:
        pytest.skip("it has no coats")
    for one in found.boards:
        own = faces(found, one.name).values()
        assert math.fsum(face.open_m2 for face in own) == pytest.approx(one.open_m2, rel=2e-3)
        assert math.fsum(face.masked_m2 for face in own) == pytest.approx(one.masked_m2, abs=2e-4)


# --- litres, discs, racks ---------------------------------------------------------------------------


def test_litres_of_the_worked_case():
    """2 (2.921569 x 1 + 2.921569 x 0.02 + 1 x 0.02) = 6 m2; its 15 % lost, here a tenth."""
    finish = VARNISH.replace("coats = 2", "coats = 3\ncoverage = 12")
    (stage,) = coating(HEAD + finish + board("a", "[[0, 500], [2921.5686, 500]]", depth=1000)).stages

    assert stage.m2 == pytest.approx(18.0, abs=1e-4)
    assert stage.litres / (1 + LOST) * 1.15 == pytest.approx(1.725, abs=1e-4)


def test_what_is_sanded_and_how_many_discs_it_takes():
    """0.448 m2, two coats: once bare, once between; a disc does 1 m2 bare."""
    bare, between = coating(HEAD + VARNISH + ONE).sandings

    assert (bare.m2, bare.grits, bare.discs) == (pytest.approx(0.448), (120, 150, 180), 1)
    assert (between.m2, between.grits, between.discs) == (pytest.approx(0.448), (240,), 1)


def test_an_oil_is_sanded_finer_and_not_between_coats():
    found = coating(HEAD + VARNISH.replace("varnish, polyurethane", "hardwax oil") + ONE)

    assert [(one.between, one.grits) for one in found.sandings] == [(False, (150, 180, 240))]
    assert [step.act for step in found.steps if step.act in ("sand", "coat")] == ["sand", "coat", "coat"]


def test_the_room_that_wet_boards_take():
    """Two boards 1000 x 200 x 20, 100 apart: a rack 240 high on 0.2 m2, or 2 x 1 x 0.3 side by side."""
    (rack,) = coating(HEAD + VARNISH + 'when = "before glue"\n' + CROSSED).racks
    (whole,) = coating(HEAD + VARNISH + 'when = "after glue"\n' + CROSSED).racks

    assert (rack.pieces, rack.longest, rack.high, rack.floor_m2, rack.flat_m2) == (
        2, 1000.0, 240.0, pytest.approx(0.2), pytest.approx(0.6),
    )  # fmt: skip
    assert (whole.pieces, whole.high, whole.floor_m2) == (1, 0.0, pytest.approx(2.2 * 1.4))


# --- the calendar -----------------------------------------------------------------------------------


def walked(coats_early, coats_late, *, glued, recoat, hard, begins):
    """What is done, by a clock that goes hour by hour and does the next thing as soon as it may."""
    acts = ["coat"] * coats_early + ["glue"] * glued + ["coat"] * coats_late + ["carry"]
    first = datetime.datetime.fromisoformat(f"{begins or '2026-05-04'} 08:00")
    hour, free, dry, found = 0, 0, 0, []
    while acts:
        now = first + datetime.timedelta(hours=hour)
        open_now = 8 <= now.hour <= 16 and not (begins and now.weekday() > 4)
        if open_now and hour >= (max(free, dry) if acts[0] == "carry" else free):
            act = acts.pop(0)
            found.append((act, (now.date() - first.date()).days + 1, hour))
            if act == "coat":
                free, dry = hour + recoat, max(dry, hour + hard)
            elif act == "glue":
                free = hour + 24
            continue
        hour += 1
    return found


@given(
    coats=st.tuples(st.integers(0, 3), st.integers(0, 3)).filter(any),
    glued=st.booleans(),
    recoat=st.integers(1, 30),
    hard=st.integers(30, 400),
    begins=st.one_of(st.just(""), st.dates(datetime.date(2026, 1, 1), datetime.date(2027, 1, 1)).map(str)),
)
def test_each_step_stands_at_the_earliest_working_hour(coats, glued, recoat, hard, begins):
    early, late = coats
    stages = ((Stage.EARLY, early), (Stage.COATED, late))
    one = Planned(
        name="a", coats=tuple(pair for pair in stages if pair[1]), stages=(Stage.GLUED,) if glued else (), body="",
        masked=False, m2=1.0, size=(1000.0, 200.0, 20.0), low=(0.0, 0.0), high=(1000.0, 200.0),
    )  # fmt: skip
    found = steps([one], DryingTimes(recoat_h=float(recoat), hard_h=float(hard), begins=begins), into_wood=False)

    told = [(step.act, step.day, step.hours) for step in found if step.act in ("coat", "glue", "carry")]
    assert told == walked(early, late, glued=glued, recoat=recoat, hard=hard, begins=begins)
    assert [step.coat for step in found if step.act == "coat"] == list(range(1, early + late + 1))
    for step in found:
        if begins and step.day is not None:
            day = datetime.date.fromisoformat(begins) + datetime.timedelta(days=step.day - 1)
            assert step.date == day.isoformat()


def test_in_the_cold_all_waits_are_twice_as_long():
    """12 h and 7 days: 180 h by the clock, 360 in the cold; the second coat is due on the second day either way."""
    text = HEAD + VARNISH + 'when = "before glue"\n' + CROSSED
    warm, cold = coating(text), coating(text + "[drying]\ntemperature = 15\n")

    assert ([one.hours for one in warm.waits], [one.hours for one in cold.waits]) == ([180.0], [360.0])
    carried = [[step.day for step in one.steps if step.act == "carry"] for one in (warm, cold)]
    assert carried == [[9], [16]]


def test_of_a_finish_whose_times_are_not_known_the_steps_have_no_days():
    found = coating(HEAD + '[finish]\nsystem = "bees and beeswax"\ncoats = 2\n' + CROSSED + 'when = "after glue"\n')

    assert [(step.act, step.day) for step in found.steps] == [
        ("sand", None), ("coat", 1), ("sand", None), ("coat", None), ("carry", None), ("put in", None),
    ]  # fmt: skip


# --- what contradicts -------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("drying", "code", "found", "limit"),
    [
        ("temperature = 9", "room-unfit-for-coats", 9, 13),
        ("temperature = 35", "room-unfit-for-coats", 35, 32),
        ("humidity = 90", "room-unfit-for-coats", 90, 85),
        ("begins = 2026-05-04\nneeded = 2026-05-11", "coats-not-hard-yet", 9, 8),
        ("rack = 1", "rack-too-small", 2, 1),
    ],
)
def test_what_room_days_and_rack_contradict_is_said(drying, code, found, limit):
    text = HEAD + VARNISH + 'when = "before glue"\n' + CROSSED
    (one,) = [one for one in book_of(f"{text}[drying]\n{drying}\n").findings if one.code == code]

    assert (one.found, one.limit) == (found, limit)
    assert one.where.path[0] == "drying"


@pytest.mark.parametrize(
    "drying", ["temperature = 13\nhumidity = 85\nrack = 2", "begins = 2026-05-04\nneeded = 2026-05-12"]
)
def test_at_the_limits_nothing_is_said(drying):
    text = HEAD + VARNISH + 'when = "before glue"\n' + CROSSED
    codes = {one.code for one in book_of(f"{text}[drying]\n{drying}\n").findings}

    assert codes.isdisjoint({"room-unfit-for-coats", "coats-not-hard-yet", "rack-too-small"})


def test_a_day_on_which_it_is_needed_without_one_on_which_it_begins_stays_open():
    book = book_of(HEAD + VARNISH + ONE + "[drying]\nneeded = 2026-05-11\n")

    assert ("whether its coats are hard in time", "[drying] does not say on which day it begins") in {
        (str(one.what), str(one.why)) for one in book.not_checked
    }
