"""Changes written back: first by example, then the laws that hold for every change.

Laws: outside the value's span every byte stays; what is read after writing is what the change says; taken
back, a change leaves the same bytes.
"""

import re
import tomllib

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dryfit.errors import EditError
from dryfit.job.options import BoardName, Options, Quantity
from dryfit.job.renaming import Models, renamed_boards, users
from dryfit.job.spans import Spans
from dryfit.job.tables import Many, One
from dryfit.job.writing import apply, only_this_one
from dryfit.places import Edit
from tests.job.samples import KINDS, NAMED, WALL, read, small, swapped


def change(text, action, path, value=None, **more):
    return apply(text, [Edit(action=action, path=path, value=value)], kinds=KINDS, named=NAMED, **more)


def lines(before, after):
    """Lines taken out and put in, each with its sign, as a maker would see the change."""
    old, new = before.splitlines(), after.splitlines()
    start = next((k for k, (a, b) in enumerate(zip(old, new, strict=False)) if a != b), min(len(old), len(new)))
    tail = 0
    while tail < min(len(old), len(new)) - start and old[-1 - tail] == new[-1 - tail]:
        tail += 1
    gone = [f"-{line}" for line in old[start : len(old) - tail]]
    return gone + [f"+{line}" for line in new[start : len(new) - tail]]


SHIFTS = [
    ("600", 12, "612"),
    ("600.0", 12, "612.0"),
    ("600", 0.25, "600.3"),
    ("600.25", 0.05, "600.3"),
    ("-5", 5, "0"),
    ("1_000", 1, "1001"),
    ('"600"', 12, '"612"'),
    ('"2.6 m"', 12, '"2.612 m"'),
    ('"23 5/8 in"', 25.4, '"24 5/8 in"'),
    ('"23 5/8 in"', -15.875, '"23 in"'),
    ('"23 5/8in"', 3.175, '"23 3/4in"'),
    ('"-1/2 in"', 25.4, '"1/2 in"'),
    ('"23 in"', 3.175, '"23 1/8 in"'),  # 25.4 / 8
    ('"23 in"', 1.588, '"23 1/16 in"'),  # as a hand moves it, to the micrometre
    ('"23 in"', 3.0, '"23.118 in"'),  # 23 + 3 / 25.4
    ('"23 in"', 25.4, '"24 in"'),
    ("'23.5 in'", 12.7, "'24 in'"),
    ("'23.50 in'", 12.7, "'24.00 in'"),
    ('"i * bay"', 12, '"i * bay + 12"'),
    ('"i * bay + 12"', 8, '"i * bay + 20"'),
    ('"i * bay + 20"', -20, '"i * bay"'),
    ('"i * bay + 5"', -8.5, '"i * bay - 3.5"'),
    ('"bay - 3"', 5, '"bay + 2"'),
    ('"bay - -3"', 5, '"bay - -3 + 5"'),
    ('"2 * (bay + 3)"', 5, '"2 * (bay + 3) + 5"'),
    ('"bay + 3 * 2"', 5, '"bay + 3 * 2 + 5"'),
    ('"600 - 12 - 45"', 12, '"600 - 12 - 33"'),
    ('"bay + 1 1/8 in"', 25.4, '"bay + 2 1/8 in"'),
    ('"bay + 1.5 m"', 12, '"bay + 1.512 m"'),
    ("'i * bay'", 12, "'i * bay + 12'"),
]


@pytest.mark.parametrize(("old", "by", "new"), SHIFTS, ids=[f"{old} by {by}" for old, by, _ in SHIFTS])
def test_a_hand_moves_a_length_in_its_own_style(old, by, new):
    text = swapped(WALL, '[["i * bay", 0]', f"[[{old}, 0]")

    assert change(text, "shift", ("board", 1, "line", 0, 0), by) == text.replace(f"[[{old}, 0]", f"[[{new}, 0]")


INCH_SHIFTS = [
    ("10", 25.4, "11"),
    ("10.25", 12.7, "10.75"),
    ('"bay"', 12.7, '"bay + 0.5"'),
    ('"bay + 0.5"', -12.7, '"bay"'),
]


@pytest.mark.parametrize(("old", "by", "new"), INCH_SHIFTS, ids=[f"{old} by {by}" for old, by, _ in INCH_SHIFTS])
def test_in_a_job_in_inches_a_hand_in_mm_moves_inches(old, by, new):
    text = small(
        f'[[board]]\nname = "a"\nline = [[{old}, 0], [90, 0]]\ndepth = 10',
        head='[job]\nunits = "in"\n[measures]\nbay = 20',
    ).replace("thickness = 24", "thickness = 1")

    assert change(text, "shift", ("board", 0, "line", 0, 0), by) == text.replace(f"[[{old}, ", f"[[{new}, ")


EXAMPLES = [
    ("set", ("board", 0, "line", 0, 1), 612.5,
     ['-line   = [[0, 600], ["width", 600]]  # x along the wall, y up',
      '+line   = [[0, 612.5], ["width", 600]]  # x along the wall, y up']),
    ("set", ("board", 0, "back"), 12, ["+back   = 12"]),
    ("set", ("board", 0, "scribe", "start"), 5, ["-scribe = { end = 15 }", "+scribe = { end = 15, start = 5 }"]),
    ("set", ("board", 1, "scribe", "start"), 5, ["+scribe = { start = 5 }"]),
    ("set", ("board", 1, "ends"), {"start": "plumb"}, ['-ends   = "level"', '+ends   = { start = "plumb" }']),
    ("set", ("joint", 0, "front"), "raking 1", ['-front   = "long shelf"', '+front   = "raking 1"']),
    ("set", ("wall", "hung"), True, ["+hung  = true"]),
    ("set", ("job", "date"), "2027-01-31", ["-date   = 2026-05-04", "+date   = 2027-01-31"]),
    ("set", ("board", 1, "line", 0, 0), 640, ['-line   = [["i * bay", 0], ["i * bay + height * tan(9)", "height"]]',
                                              '+line   = [[640, 0], ["i * bay + height * tan(9)", "height"]]']),
    ("set", ("joints", "mitre", "strengthen"), "keys", ["+[joints.mitre]", '+strengthen = "keys"', "+"]),
    ("set", ("timber", "ash"), {"species": "ash", "thickness": 18},
     ["+[timber.ash]", '+species = "ash"', "+thickness = 18", "+"]),
    ("shift", ("board", 0, "back"), 12.34, ["+back   = 12.3"]),
    ("shift", ("frame", 0, "points", 2), [12, -3.33],
     ["-points = [[300, 900], [1200, 900], [1200, 1400], [300, 1400]]",
      "+points = [[300, 900], [1200, 900], [1212, 1396.7], [300, 1400]]"]),
    ("shift", ("board", 0, "line"), [0, 20],
     ['-line   = [[0, 600], ["width", 600]]  # x along the wall, y up',
      '+line   = [[0, 620], ["width", 620]]  # x along the wall, y up']),
    ("add", ("joint",), {"between": ["box 1", "raking 2"], "kind": "splice"},
     ["+[[joint]]", '+between = ["box 1", "raking 2"]', '+kind = "splice"', "+"]),
    ("add", ("board", 1, "except"), {"i": 2, "absent": True}, ["+[[board.except]]", "+i = 2", "+absent = true", "+"]),
    ("add", ("frame", 0, "points", 2), [1300, 1000],
     ["-points = [[300, 900], [1200, 900], [1200, 1400], [300, 1400]]",
      "+points = [[300, 900], [1200, 900], [1300, 1000], [1200, 1400], [300, 1400]]"]),
    ("remove", ("frame", 0, "points", 3), None,
     ["-points = [[300, 900], [1200, 900], [1200, 1400], [300, 1400]]",
      "+points = [[300, 900], [1200, 900], [1200, 1400]]"]),
    ("remove", ("board", 0, "scribe"), None, ["-scribe = { end = 15 }"]),
    ("remove", ("board", 0, "scribe", "end"), None, ["-scribe = { end = 15 }", "+scribe = {}"]),
    ("remove", ("board", 2), None,
     ["-[[board]]", '-name   = "hanging rail"', '-timber = "oak24"', '-lies   = "flat"',
      '-line   = [[1500, "600 - 12 - 45"], [2400, "600 - 12 - 45"]]', "-width  = 90", "-"]),
    # the last table of the file: the blank line that stood before it goes too
    ("remove", ("load", 0), None, ["-", "-[[load]]", '-board = "long shelf"', '-kind  = "records"']),
]  # fmt: skip


@pytest.mark.parametrize(
    ("action", "path", "value", "seen"), EXAMPLES, ids=[f"{case[0]} {'.'.join(map(str, case[1]))}" for case in EXAMPLES]
)
def test_a_change_touches_these_lines_and_no_others(action, path, value, seen):
    after = change(WALL, action, path, value)

    assert lines(WALL, after) == seen
    for variant in (WALL.replace("\n", "\r\n"), "\ufeff" + WALL, WALL.rstrip("\n")):
        changed = change(variant, action, path, value)
        assert changed.startswith("\ufeff") == variant.startswith("\ufeff")
        plain = changed.removeprefix("\ufeff").replace("\r\n", "\n")
        assert "\r" not in plain
        assert ("\r\n" in variant) == ("\r\n" in changed)
        assert tomllib.loads(plain) == tomllib.loads(after)


RENAMES = [
    (("board", 0, "name"), "top \"shelf\"", {"long shelf": 'top "shelf"'}, 6),
    (("board", 1, "name"), "upright {i}", {"raking 1": "upright 1", "raking 2": "upright 2"}, 3),
    (("frame", 0, "name"), "case", {"box": "case"} | {f"box {k}": f"case {k}" for k in range(1, 5)}, 2),
]  # fmt: skip


@pytest.mark.parametrize(("path", "new", "renamed", "places"), RENAMES, ids=[case[1] for case in RENAMES])
def test_a_new_name_goes_to_every_place_that_refers_to_it(path, new, renamed, places):
    after = change(WALL, "rename", path, new)
    before, now = read(WALL), read(after)

    assert renamed_boards(tomllib.loads(WALL), path, new) == renamed
    assert sum(a != b for a, b in zip(leaves(WALL), leaves(after), strict=True)) == places
    assert [renamed.get(board.name, board.name) for board in before.boards] == [board.name for board in now.boards]
    assert now.dangling == ()
    for old_joint, joint in zip(before.joint_specs, now.joint_specs, strict=True):
        assert joint.between == tuple(renamed.get(name, name) for name in old_joint.between)


def leaves(text):
    spans = Spans(text)
    return [
        text[s.start : s.end]
        for _, s in sorted(spans.values.items(), key=lambda item: item[1])
        if text[s.start] not in "[{"
    ]


@pytest.mark.parametrize(("old", "new"), [("bay", "field"), ("depth", "deep"), ("height", "h"), ("width", "w_1")])
def test_a_measure_s_new_name_goes_into_all_arithmetic(old, new):
    after = change(WALL, "rename", ("measures", old), new)
    before, now = read(WALL), read(after)

    assert (now.boards, now.fixings) == (before.boards, before.fixings)
    assert now.measures == {new if name == old else name: value for name, value in before.measures.items()}
    assert re.sub(rf"\b{new}\b", old, after) == WALL


def test_a_timber_s_new_name_goes_to_its_boards():
    now = read(change(WALL, "rename", ("timber", "oak24"), "oak 24"))

    assert {board.timber for board in now.boards} == set(now.timbers) == {"oak 24"}


def test_a_joint_s_options_that_name_a_board_are_renamed_with_it():
    text = WALL.replace('kind    = "cross halving"\nfront   = "long shelf"', 'kind = "butt"\nthrough = "raking 1"')
    after = change(text, "rename", ("board", 1, "name"), "upright {i}")

    assert read(after).joint_specs[0].options == {"through": "upright 1"}


class Carried(Options):
    """A table of a study."""

    board: BoardName = ""
    beside: tuple[BoardName, ...] = ()
    at: Quantity = 0.0
    words: str = ""


OWNED = """
[[carried]]
board = "raking 1"  # here
beside = ["raking 2", "long shelf"]
at = "bay / 2"
words = "raking 1"
"""


def test_names_in_a_study_s_table_follow_their_boards_and_measures_and_its_other_words_stay():
    tables = (Many("carried", Carried), One("van", Carried))
    text = WALL + OWNED + OWNED.replace("[[carried]]", "[van]")
    edits = [
        Edit(action="rename", path=("board", 1, "name"), value="upright {i}"),
        Edit(action="rename", path=("measures", "bay"), value="field"),
    ]
    after = apply(text, edits, kinds=KINDS, named=NAMED, tables=tables)

    now = OWNED.replace('board = "raking', 'board = "upright').replace("raking 2", "upright 2").replace("bay", "field")
    assert after.endswith(now + now.replace("[[carried]]", "[van]"))
    models = Models(KINDS, tables)
    assert ("carried", 0, "board") in list(users(tomllib.loads(text), "raking 1", models))


def test_the_first_of_many_tables_is_added_as_one_of_many():
    tables = (Many("carried", Carried), One("van", Carried))
    edits = [Edit(action="add", path=(word,), value={"at": 3}) for word in ("carried", "van")]
    after = apply(WALL, edits, kinds=KINDS, named=NAMED, tables=tables)

    assert after.endswith("[[carried]]\nat = 3\n\n[van]\nat = 3\n")
    with pytest.raises(EditError, match='there is a "van" already'):
        apply(after, edits[1:], kinds=KINDS, named=NAMED, tables=tables)


def test_who_uses_a_board_is_found():
    models = Models(KINDS)

    assert list(users(tomllib.loads(WALL), "raking 1", models)) == [
        ("finish", "before_assembly", 1), ("joint", 0, "between", 1),
    ]  # fmt: skip


def test_only_this_one_of_a_row_gets_an_exception_of_its_own():
    first = only_this_one(WALL, ("board", 1), 2, {"line": [[1500, 0], [1500, 1900]]})
    text = apply(WALL, [first], kinds=KINDS, named=NAMED)
    again = only_this_one(text, ("board", 1), 2, {"back": 10})
    moved = read(apply(text, [again], kinds=KINDS, named=NAMED))

    assert (moved.boards[2].name, moved.boards[2].line, moved.boards[2].back) == (
        "raking 2", ((1500, 0), (1500, 1900)), 10,
    )  # fmt: skip
    assert moved.boards[1] == read(WALL).boards[1]


REFUSED = [
    ("set", ("board", 0, "depth"), -3, 37, "at least 1 mm"),
    ("set", ("board", 0, "name"), "raking 1", 41, "another name"),
    ("set", ("board", 9, "name"), "x", 33, "name a list"),
    ("set", ("board", 0, "dept"), 3, 39, "did you mean depth?"),
    ("set", ("board", 0), 3, 33, "set its keys"),
    ("rename", ("measures", "bay"), "width", 13, "another name"),
    ("rename", ("measures", "bay"), "i", 13, "letters"),
    ("rename", ("measures", "nothing"), "x", 10, "one that is in the file"),
    ("rename", ("board", 0, "name"), 3, 34, "new name"),
    ("remove", ("board", 0, "line"), None, 33, "add line"),
    ("remove", ("measures", "bay"), None, 44, "[measures]"),
    ("remove", ("nothing",), None, 1, "name a value"),
    ("shift", ("board", 0, "name"), 3, 34, "number or arithmetic"),
    ("shift", ("finish", "coats"), 3, 30, "number or arithmetic"),
    ("shift", ("board", 1, "width"), 3, 40, "give it a length first"),
    ("set", ("board", 0, "back"), None, 33, "give a number"),
    ("set", ("board", 0, "back"), float("inf"), 33, "give a number"),
    ("add", ("board",), 3, 33, "keys and values"),
    ("add", ("board", 0, "name", 0), "x", 34, "name a list"),
    ("rename", ("board", 0, "timber"), "x", 35, "the place of a name"),
    ("rename", ("board", 0, "line", 0, 0), "x", 36, "the place of a name"),
]


@pytest.mark.parametrize(
    ("action", "path", "value", "line", "remedy"),
    REFUSED,
    ids=[f"{c[0]} {'.'.join(map(str, c[1]))} {c[2]}" for c in REFUSED],
)
def test_a_change_that_would_spoil_the_file_is_refused(action, path, value, line, remedy):
    with pytest.raises(EditError) as caught:
        change(WALL, action, path, value)
    first = caught.value.mistakes[0]

    assert abs(first.line - line) <= 1, str(first)
    assert remedy in first.remedy


def test_several_changes_are_one_step_and_all_or_none_of_them_are_made():
    edits = [
        Edit(action="shift", path=("board", 0, "line", 0, 1), value=10),
        Edit(action="shift", path=("board", 0, "line", 1, 1), value=10),
    ]

    assert read(apply(WALL, edits, kinds=KINDS, named=NAMED)).boards[0].line == ((0, 610), (2600, 610))
    with pytest.raises(EditError):
        apply(WALL, [*edits, Edit(action="set", path=("board", 0, "dept"), value=1)], kinds=KINDS, named=NAMED)


def test_a_file_with_a_mistake_elsewhere_can_still_be_changed():
    text = WALL.replace('kind  = "records"', 'kind  = "records"\n[finishh]\nx = 1')

    assert "back   = 5" in change(text, "set", ("board", 0, "back"), 5)


def test_a_file_that_is_no_toml_cannot_be_changed():
    with pytest.raises(EditError, match="mistakes right first"):
        change(WALL + "x = = 1", "set", ("board", 0, "back"), 5)


# -- laws

PLACES = [
    path
    for path, span in Spans(WALL).values.items()
    if path[0] in ("measures", "board", "frame", "fixing", "wall") and WALL[span.start] not in "[{"
]
LENGTHS = [path for path in PLACES if not isinstance(path[-1], str) or path[-1] in ("width", "height", "depth", "bay")]
HALVES = st.integers(-400, 400).map(lambda n: n / 2)


@settings(max_examples=150, deadline=None)
@given(st.sampled_from(LENGTHS), HALVES)
def test_outside_a_value_that_is_moved_every_byte_stays(path, by):
    try:
        after = change(WALL, "shift", path, by)
    except EditError:
        return  # a depth below 0, two corners at one place: refused, and nothing is changed
    span = Spans(WALL).values[path]
    now = Spans(after).values[path]

    assert after[: now.start] == WALL[: span.start]
    assert after[now.end :] == WALL[span.end :]


@settings(max_examples=150, deadline=None)
@given(st.sampled_from(LENGTHS), HALVES)
def test_moved_there_and_back_it_is_the_same_to_the_byte(path, by):
    try:
        there = change(WALL, "shift", path, by)
        back = change(there, "shift", path, -by)
    except EditError:
        return
    assert back == WALL


@settings(max_examples=150, deadline=None)
@given(st.sampled_from([path for path in LENGTHS if path[0] == "board" and path[2] == "line"]), HALVES)
def test_what_is_read_after_a_move_is_what_was_read_moved(path, by):
    _, row, _, point, axis = path
    before, now = read(WALL), read(change(WALL, "shift", path, by))

    for old, new in zip(before.boards, now.boards, strict=True):
        moved = [list(place) for place in old.line]
        if old.path == ("board", row):
            moved[point][axis] += by
        assert [value for place in new.line for value in place] == pytest.approx(
            [value for place in moved for value in place], abs=1e-9
        )
    assert now.measures == before.measures


PLAIN = st.one_of(
    st.integers(-5000, 5000), st.floats(-5000, 5000).map(lambda v: round(v, 2)), st.booleans(),
    st.text(st.characters(codec="utf-8"), max_size=12),
)  # fmt: skip
VALUES = st.one_of(PLAIN, st.lists(PLAIN, max_size=3), st.dictionaries(st.text(max_size=5), PLAIN, max_size=3))


@settings(max_examples=300, deadline=None)
@given(st.sampled_from(list(Spans(WALL).values)), VALUES, st.sampled_from(["", "\r\n"]))
def test_a_value_that_is_set_is_read_back_and_nothing_else_changes(path, value, newline):
    # Looked at as TOML alone: whether the value makes sense to a job is another question.
    from dryfit.job import edits, writing

    text = WALL.replace("\n", newline or "\n")
    sheet = edits.TomlText(text)
    after = writing._set(sheet, Edit(action="set", path=path, value=value), Models(KINDS), 0.1)
    if path == ("job", "date") and isinstance(value, str) and re.fullmatch(r"\d{4}-\d\d-\d\d", value):
        value = tomllib.loads(f"x = {value}")["x"]

    assert tomllib.loads(after) == put(tomllib.loads(text), path, value)


def at(data, path):
    for step in path:
        data = data[step]
    return data


def put(data, path, value):
    at(data, path[:-1])[path[-1]] = value
    return data


@settings(max_examples=100, deadline=None)
@given(st.sampled_from(list(Spans(WALL).values)))
def test_what_is_taken_away_is_gone_and_nothing_else(path):
    from dryfit.job.edits import TomlText

    after = TomlText(WALL).remove(path)
    expected = tomllib.loads(WALL)
    del at(expected, path[:-1])[path[-1]]

    assert tomllib.loads(after) == expected


NEW_NAMES = st.text(
    st.characters(exclude_categories=("Cs", "Cc", "Cf", "Zl", "Zp", "Zs", "Co", "Cn")), min_size=1, max_size=8
)


@settings(max_examples=100, deadline=None)
@given(
    NEW_NAMES, st.sampled_from([("board", 0, "name"), ("frame", 0, "name"), ("unit", 0, "name"), ("timber", "oak24")])
)
def test_a_name_given_and_taken_back_leaves_the_same_bytes(name, path):
    try:
        there = change(WALL, "rename", path, name)
    except EditError:
        return  # taken already, or "wall"
    back = change(
        there,
        "rename",
        (*path[:-1], name) if path[0] == "timber" else path,
        str(at(tomllib.loads(WALL), path) if path[0] != "timber" else "oak24"),
    )

    assert back == WALL
