"""NAME.made.toml: read, pinned, and rewritten when a board is called anew, the members of a divided board with it.

A shelf of 2600 in stock of 2000 comes as "shelf (1 of 2)" and "shelf (2 of 2)". What is made of it may stand
under the whole's name or under a member's own; called "long shelf", the piece must be the piece that it was.
"""

import pytest

from dryfit.book import build, change_job_text, read_job_text
from dryfit.documents.pins import pins_of
from dryfit.errors import MadeError
from dryfit.job.edits import sheet_of
from dryfit.job.renaming import renamed_boards
from dryfit.piece.made import HEAD, read_made_text, renamed, with_pins
from dryfit.piece.setout import NOTHING_MADE, Pin
from dryfit.places import Edit

JOB = """\
dryfit = 1
[job]
title = "wall"
[timber.oak]
species = "oak, white"
form = "panel"
thickness = 24
longest = 2000
[wall]
hung = true
"""


def board(name, line, more=""):
    return f'[[board]]\nname = "{name}"\ntimber = "oak"\nline = {line}\ndepth = 300\n{more}'


def job(*boards):
    return JOB + "".join(boards) + "".join(board(f"upright {x}", [[x, 0], [x, 1400]]) for x in (200, 1000, 1800, 2400))


SHELF = board("shelf", [[0, 500], [2600, 500]])
ROW = board("shelf {i}", '[[0, "200 + 300 * i"], [2600, "200 + 300 * i"]]', "count = 2\n")
BOX = (
    '[[frame]]\nname = "box"\ntimber = "oak"\ndepth = 300\nsize = "centre"\n'
    "points = [[-40, 200], [2640, 200], [2640, 1000], [-40, 1000]]\n"
)

MADE = """\
# kept by hand, too
dryfit_made = 1

[pinned."shelf (1 of 2)"]   # since Monday
datum = "start"
face_side = "left"
mark = "K"

[pinned.'shelf (2 of 2)']
datum = "start"
face_side = "left"
mark = "L"

[[measured]]
board = "shelf"
thickness = [[0, 23.8], [2600, 24.4]]

[[measured]]
board = "shelf (2 of 2)"    # this one was planed again
thickness = [[0, 23.1]]

[[cut]]
between = ["shelf", "upright 200"]
front = "shelf"

[[cut]]
between = ["upright 2400", "shelf (2 of 2)"]
front = "shelf (2 of 2)"
"""


def called_anew(text, path, new, made):
    """The job and the made file after one rename, as the page makes it in one step."""
    names = renamed_boards(sheet_of(text).data, path, new)
    changed, _ = change_job_text(text, [Edit(action="rename", path=path, value=new)])
    return changed, renamed(made, names)


def worked(text, made):
    """What is cut, by the names that stand in the pieces."""
    piece = build(read_job_text(text), made=read_made_text(made, "wall.made.toml"), paces=()).piece
    return {
        "marks": {part.id: part.mark for part in piece.parts},
        "sizes": {part.id: (part.long, part.blank, part.board.profile) for part in piece.parts},
        "cuts": sorted((cut.key, cut.shapes) for part in piece.parts for cut in part.cuts),
        "fronts": {frozenset(joint.key): joint.making.front for joint in piece.joints},
        "deciders": {frozenset(decision.key): decision.decider for decision in piece.decisions},
    }


def put(value, old, new):
    """Every name in a value called anew: no other text of these values holds an old name."""
    if isinstance(value, str):
        return value.replace(old, new)
    if isinstance(value, dict):
        return {put(key, old, new): put(item, old, new) for key, item in value.items()}
    if isinstance(value, (tuple, list, frozenset)):
        return type(value)(put(item, old, new) for item in value)
    return value


def test_a_divided_board_called_anew_takes_its_pins_its_thickness_and_its_slots_with_it():
    text, made = called_anew(job(SHELF), ("board", 0, "name"), "long shelf", MADE)
    before = worked(job(SHELF), MADE)
    assert worked(text, made) == put(before, "shelf", "long shelf")
    assert before["marks"]["shelf (1 of 2)"] == "K"
    assert before["sizes"]["shelf (2 of 2)"][2] == ((0.0, 23.1),)
    assert before["sizes"]["shelf (1 of 2)"][2][0] == (0.0, 23.8)
    assert before["deciders"][frozenset(("shelf (2 of 2)", "upright 2400"))] == "already made"
    assert before["deciders"][frozenset(("shelf (1 of 2)", "upright 200"))] == "already made"


def test_every_other_byte_of_the_made_file_stays():
    _, made = called_anew(job(SHELF), ("board", 0, "name"), "long shelf", MADE)
    assert made == MADE.replace("'", '"').replace('"shelf', '"long shelf')


def test_a_row_called_anew_takes_the_members_of_each_of_its_boards():
    pins = with_pins("", pins_of(build(read_job_text(job(ROW)), paces=())))
    text, made = called_anew(job(ROW), ("board", 0, "name"), "shelf {i} of the wall", pins)
    assert set(read_made_text(made, "m").pins) >= {f"shelf {i} of the wall ({n} of 2)" for i in (1, 2) for n in (1, 2)}
    before, after = worked(job(ROW), pins), worked(text, made)
    for i in (1, 2):
        before = put(before, f"shelf {i} (", f"shelf {i} of the wall (")
    assert after["marks"] == before["marks"]
    assert after["sizes"] == before["sizes"]


def test_a_frame_called_anew_takes_the_members_of_its_sides():
    pins = with_pins("", pins_of(build(read_job_text(job(BOX)), paces=())))
    text, made = called_anew(job(BOX), ("frame", 0, "name"), "case", pins)
    before = worked(job(BOX), pins)
    assert {"box 1 (1 of 2)", "box 3 (2 of 2)", "box 2"} <= before["marks"].keys()
    assert worked(text, made) == put(before, "box", "case")


def test_only_the_name_itself_is_called_anew():
    """Another board's name that begins alike, or a member's of another board, is none of it."""
    made = MADE.replace('"shelf (1 of 2)"', '"shelf two (1 of 2)"').replace('"upright 200"', '"shelf 2"')
    text = renamed(made, {"shelf": "board"})
    assert '"shelf two (1 of 2)"' in text
    assert '"shelf 2"' in text
    assert '"board (2 of 2)"' in text


PAIRS = ('datum = "start"', 'face_side = "left"', 'mark = "K"')


@pytest.mark.parametrize(
    "pin",
    [
        '[pinned]\n"shelf (1 of 2)" = {datum = "start", face_side = "left", mark = "K"}\n',
        "[pinned]\n" + "".join(f'"shelf (1 of 2)".{pair}\n' for pair in PAIRS),
        '[pinned."shelf (1 of 2)"]\ndatum = "start"\nface_side = "left"\nmark = "K"\n',
    ],
    ids=["in braces", "dotted", "a table"],
)
def test_however_a_pin_is_written_it_is_found(pin):
    text = renamed(HEAD + pin, {"shelf": 'my "own"'})
    assert read_made_text(text, "m").pins == {'my "own" (1 of 2)': Pin(datum="start", face_side="left", mark="K")}


def test_pins_are_put_to_the_end_and_come_back_as_they_were():
    pins = {
        "shelf (1 of 2)": Pin(datum="start", face_side="left", mark="K"),
        'a "b"\t': Pin(datum="end", face_side="front", mark="L2"),
    }
    text = with_pins("# mine\ndryfit_made = 1", pins)
    assert text.startswith("# mine\ndryfit_made = 1\n")
    assert read_made_text(text, "m").pins == pins
    assert read_made_text(with_pins("", {}), "m") == NOTHING_MADE


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("dryfit_made = 2\n", "dryfit_made"),
        ('dryfit_made = 1\n[pinned.a]\ndatum = "left"\nface_side = "left"\nmark = "A"\n', "left"),
        ('dryfit_made = 1\n[pinned.a]\ndatum = "start"\nface_side = "left"\nmark = "I"\n', '"I"'),
        ('dryfit_made = 1\n[[measured]]\nboard = "a"\nthickness = []\n', "thickness"),
        ('dryfit_made = 1\n[[cut]]\nbetween = ["a"]\nfront = "a"\n', "between"),
        ("dryfit_made = 1\npinned = \n", "pinned"),
    ],
    ids=["another version", "no end", "I is no letter", "no places", "one board", "no value"],
)
def test_what_cannot_be_used_is_told_with_its_line(text, says):
    with pytest.raises(MadeError) as caught:
        read_made_text(text, "wall.made.toml")
    (mistake, *_) = caught.value.mistakes
    assert mistake.file == "wall.made.toml"
    assert mistake.line >= 1
    assert mistake.remedy
    assert says in f"{mistake.says} {mistake.read}"
