"""Versions called by what is different, as a maker would say it, however it was changed.

Hand-checked: the record wall's raking 1 runs from (560, 0); its shelves 410 apart from `low` 140, all 24.1 thick.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryfit.book import change_job_text, read_job_text
from dryfit.book.demos import demo_text
from dryfit.editing.different import differences, in_words, named
from dryfit.places import Edit
from dryfit.sentences import Sentence, Voice, told
from tests.web.served import SHELF, Window, moved, operation

WALL = demo_text("record-wall")
MORE = """
[timber.thick]
species = "oak, white"
thickness = 27

[[board]]
name = "ledge"
line = [[200, 700], [1000, 700]]
timber = "oak"
depth = 200

[[frame]]
name = "box"
points = [[300, 50], [500, 50], [500, 250], [300, 250]]
closed = true
timber = "oak"
depth = 200

[[joint]]
between = ["left upright", "shelf"]
stop = "front"

[finish]
coats = 2
film = 0.05
"""
BASE = (
    SHELF.replace("depth = 250\n", 'depth = 250\ntimber = "oak"\n').replace(
        "depth = 230\n", 'depth = 230\ntimber = "oak"\n'
    )
    + MORE
)


def words(old, new, base=BASE):
    assert old in base, old
    return named(read_job_text(base), read_job_text(base.replace(old, new)))


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("[[200, 0], [200, 900]]", "[[199, 0], [199, 900]]", "left upright moved 1 to the left"),
        ('[[200, "low"], ["wide", "low"]]', "[[205, 510], [1005, 510]]", "shelf moved 5 to the right and 10 up"),
        ('[[200, "low"], ["wide", "low"]]', "[[200, 500], [1020, 500]]", "shelf made 20 longer"),
        ("[[200, 0], [200, 900]]", "[[200, 0], [262.93, 900]]", "left upright leaned to 4°, was 0°"),
        ("low = 500", "low = 520", "low made 520, was 500; 1 board follows"),
        ("wide = 1000", "wide = 1100", "wide made 1100, was 1000; 2 boards follow"),
        ('depth = 230\ntimber = "oak"', 'depth = 230\ntimber = "thick"', "shelf made 27 thick, was 18"),
        ("depth = 230", "depth = 240", "shelf made 240 deep, was 230"),
        ("depth = 250", "depth = 240", "left upright and right upright made 240 deep, was 250"),
        ("thickness = 18", "thickness = 18\nmeasured = 17.8", "oak measured: 17.8, was 18"),
        ('name = "ledge"', 'name = "rest"', "ledge called rest"),
        ('[[board]]\nname = "ledge"\nline = [[200, 700], [1000, 700]]\ntimber = "oak"\ndepth = 200\n', "",
         "ledge taken out"),
        ("[[300, 50], [500, 50], [500, 250], [300, 250]]", "[[310, 50], [510, 50], [510, 250], [310, 250]]",
         "box moved 10 to the right"),
        ("[[300, 50], [500, 50], [500, 250], [300, 250]]", "[[300, 50], [540, 50], [540, 250], [300, 250]]",
         "box made 240 wide, was 200"),
        ('stop = "front"', 'stop = "front"\nstop_distance = 12', "joint of left upright and shelf changed"),
        ("coats = 2", "coats = 3", "finish made 3 coats"),
        ("low = 500", "low = 500   # no more than that", ""),
        ("dryfit = 1", 'dryfit = 1\n[wall]\nright = 2000\nceiling = 2400', "wall made 2000 wide; wall made 2400 high"),
    ],
    ids=lambda value: value if isinstance(value, str) and len(value) < 60 and "[" not in value else "",
)  # fmt: skip
def test_a_version_says_what_is_different(old, new, says):
    assert words(old, new) == says


def test_what_is_moved_and_made_longer_says_both():
    says = words('[[200, "low"], ["wide", "low"]]', "[[200, 490], [990, 490]]")
    assert says == "shelf moved 10 down; shelf made 10 shorter"


def test_many_differences_are_counted_by_what_they_are():
    base = read_job_text(BASE)
    text = BASE.replace("[[200, 0], [200, 900]]", "[[190, 0], [190, 900]]").replace("depth = 230", "depth = 231")
    text = text.replace("coats = 2", "coats = 3").replace(
        'name = "ledge"\nline = [[200, 700]', 'name = "ledge"\nline = [[210, 700]'
    )
    text += '\n[[board]]\nname = "new"\ntimber = "oak"\nline = [[600, 0], [600, 400]]\ndepth = 200\n'
    assert named(base, read_job_text(text)) == "3 boards changed, 1 board put in, 1 finish changed"


def test_what_a_measure_carries_along_is_not_said_board_by_board():
    after = read_job_text(WALL.replace("width  = 2600", "width  = 2700"))
    assert named(read_job_text(WALL), after) == "width made 2700, was 2600; 7 boards follow"


def test_boards_of_one_row_are_said_together():
    """Three shelves stand in one table, and the two dividers' feet are written alike."""
    after = read_job_text(WALL.replace('"low + (i - 1) * step"', '"low + 10 + (i - 1) * step"'))
    says = "shelf 1, shelf 2 and shelf 3 moved 10 up; divider 1 and divider 2 made 10 shorter"
    assert named(read_job_text(WALL), after) == says


def test_it_is_told_in_the_job_s_own_units():
    base = demo_text("sample-grid")
    job = read_job_text(base)
    text, after = change_job_text(base, [Edit(action="shift", path=(*job.boards[0].path, "line"), value=[25.4, 0.0])])
    assert text != base
    assert named(job, after) == "upright 1, upright 2, upright 3 and 5 more moved 1 in to the right"


def test_what_is_said_is_a_value_and_names_what_it_is_of():
    before, after = read_job_text(BASE), read_job_text(BASE.replace("[[200, 0], [200, 900]]", "[[199, 0], [199, 900]]"))
    said = in_words(differences(before, after))
    assert isinstance(said, Sentence)
    assert said.names == ("left upright",)
    assert told(said, Voice("in", {"left upright": "A"})) == "A moved 3/64 in to the left"


def test_nothing_is_different_of_a_job_and_itself():
    assert differences(read_job_text(WALL), read_job_text(WALL)) == ()


@given(st.sampled_from(["depth", "back"]), st.sampled_from(read_job_text(WALL).boards), st.integers(1, 60))
def test_every_change_of_a_board_s_size_names_it_with_its_figure(key, spec, by):
    _, after = change_job_text(WALL, [Edit(action="shift", path=(*spec.path, key), value=by)])
    says = named(read_job_text(WALL), after)
    assert spec.name in says or "more" in says
    assert (f"{by} out from the wall" if key == "back" else f"{spec.depth + by:g} deep") in says


# ---- in the history


def told_versions(window):
    return [one["says"] for one in window.client.get("/api/history").json()["versions"]]


def test_the_history_calls_versions_by_what_they_changed(window, job):
    window.do(**moved("left upright", -1, 0)).raise_for_status()
    window.do(do="typed", card={}, key=["measures", "low"], entry="520").raise_for_status()
    window.write(job.read_text().replace("depth = 250", "depth = 260").replace("depth = 230", "depth = 240"))
    window.step("undo").raise_for_status()
    assert told_versions(window) == [
        "undo: text typed by hand: left upright and right upright made 260 deep, was 250; shelf made 240 deep, was 230",
        "text typed by hand: left upright and right upright made 260 deep, was 250; shelf made 240 deep, was 230",
        "low made 520, was 500; 1 board follows",
        "left upright moved 1 to the left",
        "first opened",
    ]


def test_what_was_changed_outside_is_said_too(window, job):
    job.write_text(SHELF.replace("depth = 230", "depth = 200"))
    window.session.look()
    assert told_versions(window)[0] == "changed outside: shelf made 200 deep, was 230"


def test_what_was_changed_while_it_was_not_open_is_said(job):
    Window(job).close()
    job.write_text(SHELF.replace("depth = 230", "depth = 200"))
    other = Window(job)
    assert told_versions(other)[0] == "changed outside: shelf made 200 deep, was 230"
    other.close()


def test_text_with_a_mistake_and_text_that_changes_nothing_say_so(window):
    window.write(SHELF.replace('[200, "low"]', '[200, "lwo"]')).raise_for_status()
    window.write(SHELF.replace("# demo", "# a demo")).raise_for_status()
    assert told_versions(window)[:2] == ["text typed by hand", "text typed by hand, with a mistake in it"]


def test_going_back_says_to_which(window):
    window.do(**moved("left upright", -1, 0)).raise_for_status()
    version = window.revision()
    window.do(**moved("left upright", -1, 0)).raise_for_status()
    sent = {"base_revision": window.revision(), "operation_id": operation(), "version": version}
    window.post("restore", **sent).raise_for_status()
    assert told_versions(window)[0] == f"back to version {version} (left upright moved 1 to the left)"


@pytest.mark.parametrize(
    ("card", "key", "entry", "says"),
    [
        ({"board": "left upright"}, ["line", 0, 0], "190", "left upright leaned to 0.64°, was 0°"),
        ({}, ["timber", "oak", "thickness"], "24", "oak made 24 thick, was 18"),
    ],
    ids=["a place", "a thickness"],
)
def test_a_typed_value_is_told_at_once_as_its_version_is(window, card, key, entry, says):
    """A line of the file's keys is no maker's word; 10 aside in 900 is 0.64 degrees."""
    window.do(do="typed", card=card, key=key, entry=entry).raise_for_status()
    assert window.state()["last"] == told_versions(window)[0] == says
