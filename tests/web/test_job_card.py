"""The job's card has every table that a job may have one of, those of studies and of its kinds of joint too."""

from shapely import Point, Polygon

from dryfit.book.demos import demo_text
from dryfit.job.tables import Many
from dryfit.studies import STUDIES
from tests.web.served import Window

LAPPED = """\
dryfit = 1
[job]
title = "lapped"
[timber.oak]
species = "oak, white"
thickness = 24
[wall]
hung = true
[[board]]
name = "shelf"
timber = "oak"
line = [[0, 500], [1500, 500]]
depth = 300
splice_at = [1000]
"""
OWNED = [table for study in STUDIES.values() for table in study.owns]


def test_tables_of_studies_and_kinds_stand_on_the_job_s_card(window):
    card = window.client.get("/api/card").json()
    keys = {tuple(row["key"]) for row in card["rows"]}
    for table in OWNED:
        if isinstance(table, Many):
            continue  # of these each that the job has; it has none
        assert {(table.word, key) for key in table.model.model_fields} <= keys
    made = {joint["kind"] for joint in window.client.get("/api/state").json()["drawing"]["joints"]}
    assert made & {key[1] for key in keys if key[0] == "joints" and len(key) == 3}


def test_the_section_of_a_joint_has_both_boards_and_its_widths_as_the_card_says_them(window):
    joints = window.client.get("/api/state").json()["drawing"]["joints"]
    looked = 0
    for joint in joints:
        card = window.client.get("/api/card", params={"joint": joint["boards"]}).json()
        if "wall" in joint["boards"]:
            assert card["section"] is None
            continue
        section = card["section"]
        assert {wood["board"] for wood in section["wood"]} == set(joint["boards"])
        left, foot, right, head = section["window"]
        assert all(
            left <= x <= right and foot <= y <= head for wood in section["wood"] for a in wood["areas"] for x, y in a
        )
        said = " ".join(text for _, text in card["figures"])
        assert all(f"{width['says']} across" in said for width in section["widths"])
        for width in section["widths"]:  # of the slot, and of which board's; the wood's own thickness stands apart
            assert {width["board"], width["takes"]} == set(joint["boards"])
            thick = {wood["board"]: wood["thick"] for wood in section["wood"]}[width["takes"]]
            own = window.client.get("/api/card", params={"board": width["takes"]}).json()
            assert dict(own["figures"])["thick"] == thick
            if (
                joint["kind"] == "housing"
            ):  # the end comes from one side only: the width stands on the other, off the wood
                middle = Point(*((one + other) / 2 for one, other in zip(width["start"], width["end"], strict=True)))
                assert not any(Polygon(area).contains(middle) for wood in section["wood"] for area in wood["areas"])
        looked += len(section["widths"])
    assert looked > 0


def test_the_card_of_two_boards_in_line_shows_both_ends_of_their_lap_and_tells_no_angle(job):
    """A shelf of 1500, 24 thick, divided at 1000: a lap of 140 from 930 to 1070."""
    job.write_text(LAPPED, encoding="utf-8")
    card = Window(job).client.get("/api/card", params={"joint": ["shelf (1 of 2)", "shelf (2 of 2)"]}).json()
    assert card["says"] == "splice, in line"
    left, _, right, _ = card["section"]["window"]
    assert left < 930 < 1070 < right
    halves = {wood["board"]: {x for area in wood["areas"] for x, _ in area} for wood in card["section"]["wood"]}
    assert 1070 in halves["shelf (1 of 2)"]
    assert 930 in halves["shelf (2 of 2)"]


def test_a_board_s_card_says_what_comes_before_it_is_put_in(job):
    """Of the record wall raking 1 is coated before it is put in, twice; of the others the job does not say when."""
    job.write_text(demo_text("record-wall"), encoding="utf-8")
    window = Window(job)
    coats = {
        board: dict(window.client.get("/api/card", params={"board": board}).json()["figures"]).get("coats")
        for board in ("raking 1", "shelf 1")
    }
    assert coats == {"raking 1": "2 before glue", "shelf 1": None}


def test_what_is_left_at_walls_that_are_alike_is_said_once(job):
    """Raking 1 and shelf 1 are of one board's thickness: both slots leave the same at their walls, 0.15 in all."""
    job.write_text(demo_text("record-wall"), encoding="utf-8")
    card = Window(job).client.get("/api/card", params={"joint": ["raking 1", "shelf 1"]}).json()
    assert [word for word, _ in card["figures"] if word.startswith("left at")] == [
        "left at the wall",
        "left at the seat",
    ]
