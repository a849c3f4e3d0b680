"""The tables that a job may have many of, listed on its card: put in, typed in, renamed, taken out, by the schema.

The file has a comment over its one door, which is called front, 820 wide and 2000 high; a stair comes after it.
"""

import tomllib

import pytest

from dryfit.editing.cards.listings import DRAWN, table_sorts
from dryfit.job.schema import MANY, NAMED
from dryfit.job.tables import Many
from dryfit.studies import STUDIES
from tests.web.served import LONG, Window

DOOR = '# the front door, measured on Monday\n[[door]]\nname = "front"\nwidth = 820 # at the stop\nheight = 2000\n'
STAIR = '\n[[stair]]\nafter = "front"\nwidth = 800\nheadroom = 2000\npitch = 38\n'
JOB = f"{LONG}\n{DOOR}{STAIR}"


@pytest.fixture
def way(job):
    job.write_text(JOB, encoding="utf-8")
    window = Window(job)
    yield window
    window.close()


def listing(window, word):
    (found,) = (one for one in window.client.get("/api/card").json()["listings"] if one["word"] == word)
    return found


def last(answer):
    return answer.raise_for_status().json()["state"]["last"]


def added(window, word, **values):
    return window.do(do="add table", table=word, values=values)


def typed(window, *key, entry):
    return window.do(do="typed", card={}, key=list(key), entry=entry)


def test_every_table_that_may_stand_many_times_is_listed_but_what_is_drawn(way):
    owned = {one.word for study in STUDIES.values() for one in study.owns if isinstance(one, Many)}
    words = {one["word"] for one in way.client.get("/api/card").json()["listings"]}
    assert words == {*MANY, *NAMED, *owned} - {*DRAWN}
    for word, sort in table_sorts().items():
        keys = [row["key"][-1] for row in listing(way, word)["blank"]]
        assert keys == [*(["name"] if sort.keyed else []), *sort.model.model_json_schema()["properties"]]


def test_each_that_the_job_has_is_there_with_its_name_line_and_values(way):
    (front,), (stair,) = listing(way, "door")["there"], listing(way, "stair")["there"]
    assert (front["name"], stair["name"]) == ("front", "stair 1")
    assert JOB.splitlines()[front["line"] - 1] == "[[door]]"
    shown = {row["label"]: row["shown"] for row in front["rows"]}
    assert shown == {"name": "front", "after": "", "width": "820 mm", "height": "2000 mm"}
    assert front["rows"][0]["key"] == ["door", 0, "name"]


def test_one_is_put_in_behind_its_like_and_all_else_stays_to_the_byte(way):
    assert last(added(way, "door", name="landing", width="700", height="2 m", after="")) == "door landing added"
    new = '\n[[door]]\nname = "landing"\nwidth = 700\nheight = "2 m"\n'
    assert way.session.text == JOB.replace(STAIR, new + STAIR)
    undo = way.step("undo").raise_for_status().json()["state"]
    assert (way.session.text, undo["redo"]) == (JOB, "door landing added")


def test_what_it_must_say_and_does_not_is_told_at_its_keys_and_nothing_is_written(way):
    answer = added(way, "door", name="landing")
    assert answer.status_code == 422
    told = answer.json()["error"]
    assert told["says"] == "a door needs more than was typed"
    assert [mistake["path"] for mistake in told["mistakes"]] == [["door", 1, "width"], ["door", 1, "height"]]
    wrong = added(way, "stair", width="800", headroom="2000", pitch="80").json()["error"]
    assert [(one["path"], one["remedy"]) for one in wrong["mistakes"]] == [
        (["stair", 1, "pitch"], "make it less than 75")
    ]
    assert way.session.text == JOB


def test_values_are_written_as_the_schema_has_them(way):
    added(way, "unit", name="12", boards=["post 1", "post 2"], place="2").raise_for_status()
    added(way, "eye", name="sofa", at="1200, 1100, 2500", hidden=True).raise_for_status()
    added(way, "fixing", board="shelf", kind="long screw", at="400, 1000").raise_for_status()
    added(way, "anchor", name="grey plug", type="nylon plug", drill="8", strength="ultimate").raise_for_status()
    data = tomllib.loads(way.session.text)
    assert data["unit"] == [{"name": "12", "boards": ["post 1", "post 2"], "place": 2}]
    assert data["eye"] == [{"name": "sofa", "at": [1200, 1100, 2500], "hidden": True}]
    assert data["fixing"] == [{"board": "shelf", "kind": "long screw", "at": [400, 1000]}]
    assert data["anchor"] == {"grey plug": {"type": "nylon plug", "drill": 8, "strength": "ultimate"}}
    names = [listing(way, word)["there"][0]["name"] for word in ("unit", "eye", "fixing", "anchor")]
    assert names == ["12", "sofa", "fixing of shelf", "grey plug"]
    twice = added(way, "anchor", name="grey plug", type="nylon plug")
    assert twice.json()["error"]["mistakes"][0]["path"] == ["anchor", "grey plug", "name"]


def test_options_of_a_fixing_s_kind_stand_among_its_values(way):
    added(way, "fixing", board="shelf", kind="long screw", at="400").raise_for_status()
    (fixing,) = listing(way, "fixing")["there"]
    assert ["fixing", 0, "screw"] in [row["key"] for row in fixing["rows"]]
    assert [choice["value"] for choice in listing(way, "fixing")["blank"][2]["choices"]] == ["long screw"]
    assert last(typed(way, "fixing", 0, "screw", entry="6")).startswith("fixing")


def test_a_value_typed_keeps_the_comment_beside_it_and_a_wrong_one_is_told_there(way):
    typed(way, "door", 0, "width", entry="760").raise_for_status()
    assert way.session.text == JOB.replace("width = 820 #", "width = 760 #")
    wrong = typed(way, "door", 0, "width", entry="-760").json()["error"]
    assert [mistake["path"] for mistake in wrong["mistakes"]] == [["door", 0, "width"]]


def test_what_is_renamed_is_renamed_where_it_is_named(way):
    assert last(typed(way, "door", 0, "name", entry="hall")) == "door front renamed hall"
    assert way.session.text == JOB.replace('"front"', '"hall"')
    assert last(typed(way, "stair", 0, "name", entry="lower flight")) == "stair 1 renamed lower flight"


def test_taking_one_out_that_others_name_is_asked_first_with_their_lines(way):
    line = JOB.splitlines().index('after = "front"') + 1
    taken = {"do": "take table out", "path": ["door", 0]}
    asked = way.do(**taken)
    assert asked.status_code == 409
    assert asked.json()["error"]["says"] == f"Line {line} names front, which would not be there."
    assert way.session.text == JOB
    assert last(way.do(do="take table out", path=["stair", 0])) == "stair 1 taken out"
    assert last(way.do(**taken)) == "door front taken out"
    assert way.session.text.startswith(LONG)
    assert "door" not in tomllib.loads(way.session.text)


def test_taking_out_an_anchor_or_a_timber_tells_who_needs_it(way):
    added(way, "anchor", name="plug", type="nylon plug").raise_for_status()
    added(way, "fixing", board="shelf", kind="long screw", at="400").raise_for_status()
    typed(way, "fixing", 0, "anchor", entry="plug").raise_for_status()
    line = way.session.text.splitlines().index('anchor = "plug"') + 1
    asked = way.do(do="take table out", path=["anchor", "plug"]).json()["error"]
    assert asked["says"] == f"Line {line} names plug, which would not be there."
    oak = way.do(do="take table out", path=["timber", "oak"])
    assert oak.status_code == 422
    assert oak.json()["error"]["mistakes"][0]["line"] > 0


@pytest.mark.parametrize("path", [["door", 7], ["board", 0], ["nothing", 0], ["door", "front"], ["wall", "left"]])
def test_what_is_no_such_table_is_not_taken_out(way, path):
    assert way.do(do="take table out", path=path).status_code == 404
    assert way.session.text == JOB


def test_a_table_that_came_in_by_the_text_is_named_in_the_versions(way):
    way.write(JOB + '\n[[door]]\nname = "shed"\nwidth = 900\nheight = 2000\n').raise_for_status()
    assert way.state()["last"] == "text typed by hand: door shed added"
