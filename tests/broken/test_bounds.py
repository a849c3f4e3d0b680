"""Every number of a job file at its bound, a step inside it and a step outside: a mistake with its line, or a book.

The keys and their bounds are read out of the published schema, so a new key is in here by itself. They are put one by
one, and several at a time, into a piece that has a joint of every kind: boards that cross, end on each other, meet at
corners, follow each other, lie flat, are divided, screwed to the wall and glued up. Lengths without a bound are tried
at nothing, at a millionth of a millimetre and at what no room is long enough for.
"""

import copy
import math
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dryfit.book import Kept, build, job_schema, read_job_text
from dryfit.documents.bookjson import book_data
from dryfit.documents.workshop import workshop_pdf, workshop_sheets
from dryfit.errors import JobError
from dryfit.job.schema import LONGEST_NOTES, LONGEST_TEXT, LONGEST_TIMBER
from dryfit.joints import KINDS
from tests.documents.reading import pages
from tests.fewer import FIRST_LOOK
from tests.joints.typed import typed

SCHEMA = job_schema()
LINES = {
    "shelf": [[0, 300], [900, 300]],
    "more": [[900, 300], [1500, 300]],
    "top": [[0, 700], [900, 700]],
    "post": [[400, 0], [400, 1000]],
    "stub": [[650, 300], [650, 700]],
    "end": [[0, 700], [0, 1000]],
    "long": [[-100, 1200], [2500, 1200]],
    "on it": [[300, 1200], [300, 1500]],
    "beside": [[2000, 1200], [2000, 1500]],
}
RAIL = {"name": "rail", "lies": "flat", "line": [[300, 500], [800, 500]], "width": 60}
FRAME = {"name": "box", "points": [[2000, 0], [2600, 0], [2600, 500], [2000, 500]], "depth": 200}
JOB = {
    "job": {"title": "bounds"},
    "timber": {"oak": {"species": "oak, white", "thickness": 24, "longest": 2000, "planed": False}},
    "joints": {"in_line": "butt", **{name: {} for name in KINDS}},
    "finish": {"system": "demo", "coats": 1, "film": 0.03, "before_assembly": ["shelf"], "joint_zones": "coated"},
    "wall": {"kind": "timber studs", "lining": 12},
    "glue": {},
    "board": [*({"name": name, "line": line, "depth": 200} for name, line in LINES.items()), RAIL],
    "frame": [FRAME],
    "joint": [{"between": ["stub", "top"], "kind": "butt"}, {"between": ["shelf", "post"]}],
    "unit": [{"name": "glued", "boards": ["box"]}],
    "fixing": [{"board": "shelf", "kind": "long screw", "at": [100, 800]}],
}
BENCH = Kept()  # of all numbers that are put one by one: what a number says nothing of is worked out once
STEP = 1e-6
OFTEN = (0, 1e-9, 1e-6, -1e-6, 0.4, 1, 99_999, 100_001, "t_b * 1e9", "t_b - t_b", "1 / 3")


def written(job):
    """The text of a job that is given as tables."""
    parts = []
    for head, table in job.items():
        if isinstance(table, list):
            parts += [_table(f"[[{head}]]", one) for one in table]
            continue
        own = {key: value for key, value in table.items() if not isinstance(value, dict)}
        parts.append(_table(f"[{head}]", own) if own or head == "glue" else "")
        parts += [_table(f'[{head}."{name}"]', one) for name, one in table.items() if isinstance(one, dict) and one]
    return "\n".join(parts)


def _table(head, keys):
    return "\n".join([head, *(f"{key} = {_value(value)}" for key, value in keys.items()), ""])


def _value(value):
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{key} = {_value(one)}" for key, one in value.items()) + " }"
    if isinstance(value, list):
        return "[" + ", ".join(map(_value, value)) + "]"
    return f"{value:.12g}" if isinstance(value, float) else typed(value)


def bounds_of(schema):
    """Bounds that are allowed themselves, low and high; such as are not; and how fine the number is."""
    for part in (schema, *schema.get("anyOf", ()), schema.get("items", {})):
        within = part.get("within", part)
        whole = part.get("type") == "integer"
        if part.get("arithmetic") or whole or part.get("type") == "number":
            low, high = within.get("minimum"), within.get("maximum")
            return low, high, within.get("exclusiveMinimum"), within.get("exclusiveMaximum"), 1 if whole else STEP
    return None


def values_of(schema):
    """What is tried: (value, whether the bounds allow it; None where they say nothing)."""
    found = bounds_of(schema)
    if found is None:
        return []
    low, high, above, below, step = found
    tried = [(one, None) for one in (OFTEN[:3] if FIRST_LOOK else OFTEN) if step == STEP or isinstance(one, int)]
    for bound, way in ((low, -1), (high, 1)):
        if bound is not None:
            tried += [(bound, True), (bound - way * step, True), (bound + way * step, False)]
    for bound, way in ((above, -1), (below, 1)):
        if bound is not None:
            tried += [(bound, False), (bound - way * step, True), (bound + way * step, False)]
    return tried


def numbers():
    """Every number of the schema: the path it is put at, and its schema; an option also in a joint's own table."""
    tables = SCHEMA["properties"]
    for head in ("job", "wall", "finish", "glue"):
        definition = SCHEMA["$defs"].get(head) or SCHEMA["$defs"][f"table {head}"]
        yield from (((head, key), value) for key, value in definition["properties"].items())
    assert "timber" in tables
    yield from ((("timber", "oak", key), value) for key, value in SCHEMA["$defs"]["timber"]["properties"].items())
    yield from ((("board", at, key), value) for at in (0, 2, 6) for key, value in _keys("board"))
    yield (("board", 9, "width"), SCHEMA["$defs"]["board"]["properties"]["width"])
    yield from ((("frame", 0, key), value) for key, value in _keys("frame"))
    yield from ((("fixing", 0, key), value) for key, value in _keys("fixing"))
    yield (("joints", "clearance"), SCHEMA["$defs"]["joints"]["properties"]["clearance"])
    for kind in KINDS:
        for key, value in SCHEMA["$defs"][f"options of {kind}"]["properties"].items():
            yield ("joints", kind, key), value
            yield from (((*place, key), value) for place in {"butt": [("joint", 0)], "long screw": [("fixing", 0)]}.get(
                kind, [("joint", 1)] if kind == "cross halving" else []
            ))  # fmt: skip


def _keys(table):
    definition = SCHEMA["$defs"][table]["properties"]
    return [(key, value) for key, value in definition.items() if key not in ("count", "except", "width")]


NUMBERS = [(path, schema) for path, schema in numbers() if values_of(schema)]
# Numbers that stand in pairs or lists, or in a table of their own: what is written for one of them.
NESTED = {
    ("board", 2, "thickness_at"): lambda one: [[0, 24], [400, one]],
    ("board", 3, "thickness_at"): lambda one: [[one, 24], [600, 30]],
    ("board", 4, "thickness_at"): lambda one: [[0, 500], [one, 1]],
    ("board", 6, "splice_at"): lambda one: [one],
    ("board", 6, "line"): lambda one: [[0, 1200], [one, 1200]],
    ("board", 3, "line"): lambda one: [[400, 0], [one, 1000]],
    ("board", 0, "scribe"): lambda one: {"start": one},
    ("wall", "studs"): lambda one: [one],
    ("frame", 0, "points"): lambda one: [[2000, 0], [2600, 0], [2600, one], [2000, 500]],
    ("fixing", 0, "at"): lambda one: [one, 100],
    ("glue", "pressure"): lambda one: {"housing": one},
}

# What else must be so for a number's own bounds alone to count: as many coats in all, a frame that no unit carries.
BESIDE = {
    ("finish", "coats_before"): [(("finish", "coats"), 50)],
    ("frame", 0, "place"): [(("unit",), [])],
}


def put(job, path, value):
    table = job
    for step in path[:-1]:
        table = table[step]
    table[path[-1]] = value


def looked_at(changes, bench=None):
    """Read and build the piece with changes; whatever is refused is refused with a line, a sentence and a remedy."""
    job = copy.deepcopy(JOB)
    for path, value in changes:
        put(job, path, value)
    text = written(job)
    try:
        read = read_job_text(text)
    except JobError as error:
        for mistake in error.mistakes:
            assert 1 <= mistake.line <= text.count("\n") + 1
            assert mistake.says
            assert mistake.remedy
        return {mistake.path for mistake in error.mistakes}
    assert isinstance(build(read, bench=bench).findings, tuple)
    return set()


def test_the_piece_itself_has_no_mistake_and_joints_of_every_kind_that_joins_what_it_has():
    """What is asked of a kind that is added to these is tried by its table in [joints]."""
    piece = build(read_job_text(written(JOB))).piece

    assert {joint.kind for joint in piece.joints} == {
        "butt",
        "cross halving",
        "housing",
        "long screw",
        "mitre",
        "notch",
    }
    assert len(NUMBERS) > 60


@pytest.mark.parametrize(("path", "schema"), NUMBERS, ids=[".".join(map(str, path)) for path, _ in NUMBERS])
def test_a_number_at_its_bounds_is_taken_or_refused_as_the_schema_says(path, schema):
    for value, allowed in values_of(schema):
        refused = looked_at([*BESIDE.get(path, ()), (path, [value] if path[-1] == "at" else value)], BENCH)
        if allowed is not None:
            at = {place for place in refused if place[: len(path)] == path}
            assert bool(at) is not allowed, (path, value, refused)


@pytest.mark.parametrize("path", NESTED, ids=[".".join(map(str, path)) for path in NESTED])
def test_a_number_in_a_list_or_pair_is_taken_or_refused(path):
    for value in (*OFTEN[:-3], -1, 0.999, 500, 500.1, 899.5, 2599.2, 2601):
        looked_at([(path, NESTED[path](value))], BENCH)


ANY = [
    *((path, lambda one: one, [value for value, _ in values_of(schema)]) for path, schema in NUMBERS),
    *((path, put, [0, 1e-6, 1, 400, 2400]) for path, put in NESTED.items()),
]


@settings(max_examples=60, deadline=None)
@given(data=st.data())
def test_several_numbers_at_their_bounds_at_once_end_in_words_too(data):
    chosen = data.draw(st.lists(st.sampled_from(range(len(ANY))), min_size=2, max_size=5, unique=True))
    looked_at([(ANY[n][0], ANY[n][1](data.draw(st.sampled_from(ANY[n][2])))) for n in chosen])


# ---- one bound, wherever it is written


@pytest.mark.parametrize(
    "path",
    [("joints", "clearance"), ("joints", "cross halving", "clearance"), ("joint", 1, "clearance")],
    ids=["for all", "for a kind", "for one joint"],
)
@pytest.mark.parametrize(("value", "remedy"), [(12, "at most 5 mm"), (-0.1, "at least 0 mm")])
def test_a_clearance_has_one_bound_wherever_it_is_written(path, value, remedy):
    job = copy.deepcopy(JOB)
    put(job, path, value)
    with pytest.raises(JobError) as caught:
        read_job_text(written(job))

    (mistake,) = caught.value.mistakes
    assert mistake.path == path
    assert mistake.says == f"clearance comes to {value} mm"
    assert mistake.remedy == f"make it {remedy}"
    assert written(job).splitlines()[mistake.line - 1] == f"clearance = {value}"


def test_a_bound_is_told_in_inches_on_its_right_side():
    """5 mm are 0.19685 inches: 0.197 would be refused again, 0.196 will do."""
    job = {**copy.deepcopy(JOB), "job": {"units": "in"}}
    job["joints"]["clearance"] = 1
    with pytest.raises(JobError) as caught:
        read_job_text(written(job))

    told = [mistake.remedy for mistake in caught.value.mistakes if mistake.path == ("joints", "clearance")]
    assert told == ["make it at most 0.196 in"]
    assert math.floor(5 / 25.4 * 1000) / 1000 == 0.196


# ---- words without end


LONG = 100_000
TEXTS = [("job", "title"), ("job", "client"), ("timber", "oak", "species"), ("timber", "oak", "form"),
         ("finish", "system"), ("wall", "kind")]  # fmt: skip


@pytest.mark.parametrize("path", TEXTS, ids=[path[-1] for path in TEXTS])
def test_a_text_of_a_hundred_thousand_letters_is_refused_where_it_is_written(path):
    assert looked_at([(path, "w" * LONG)]) == {path}
    most = LONGEST_NOTES if path[0] == "job" else LONGEST_TEXT
    assert not looked_at([(path, "w" * most)])
    assert looked_at([(path, "w" * (most + 1))]) == {path}


def test_a_timber_s_name_of_a_hundred_thousand_letters_is_refused_where_it_is_written():
    for letters, refused in ((LONG, True), (LONGEST_TIMBER + 1, True), (LONGEST_TIMBER, False)):
        job = copy.deepcopy(JOB)
        job["timber"] = {"w" * letters: job["timber"]["oak"]}
        assert ("timber", "w" * letters) in looked_at([(("timber",), job["timber"])]) or not refused


NOTES = "A title with all that was agreed about the piece, copied from a letter. " * 20  # 1520 letters
MERCHANT = "Oak, European, unsteamed, quarter sawn, kiln dried to 10 %, 27 mm, planed all round to 22 mm, lot of May"


def test_a_long_title_and_a_merchant_s_name_for_a_timber_open_are_whole_in_book_json_and_short_on_paper():
    """Such texts opened before there was a bound: 1520 letters of title, 104 of a timber's name."""
    assert len(MERCHANT) == 104
    job = copy.deepcopy(JOB)
    job["job"] = {"title": NOTES.strip(), "client": NOTES.strip()}
    job["timber"] = {MERCHANT: JOB["timber"]["oak"]}
    book = build(read_job_text(written(job)))

    data = book_data(book)
    assert (data["job"]["title"], data["job"]["client"]) == (NOTES.strip(), NOTES.strip())
    assert {board["timber"] for board in data["boards"]} == {MERCHANT}
    sheets = [" ".join(page.split()) for page in pages(workshop_pdf(book))]
    assert all("A title" in sheet for sheet in sheets), "in every title block"
    assert max(sheet.count("copied from a letter") for sheet in sheets) < 4, "of twenty"
    assert any(re.search(r"A title with all[^.]*(\.\.\.|…)", sheet) for sheet in sheets)


NONSENSE = {
    "a clearance that holds nothing": (("joints", "cross halving", "clearance"), 5.1, "at most 5 mm"),
    "a board as thin as paper": (("timber", "oak", "thickness"), 0.9, "at least 1 mm"),
    "a board no wider than a line": (("board", 2, "depth"), 0.9, "at least 1 mm"),
    "a housing that no cutter makes": (("joints", "housing", "depth"), 0.4, "at least 0.5 mm"),
    "a bore that no drill makes": (("fixing", 0, "hole_diameter"), 0.4, "at least 0.5 mm"),
    "a member of less than 1": (("board", 6, "splice_at"), [0.9], "move the place, or take it out"),
}


@pytest.mark.parametrize(("path", "value", "remedy"), NONSENSE.values(), ids=NONSENSE)
def test_what_no_piece_of_wood_was_ever_made_like_is_refused_with_its_bound(path, value, remedy):
    job = copy.deepcopy(JOB)
    put(job, path, value)
    with pytest.raises(JobError) as caught:
        read_job_text(written(job))

    assert [mistake.remedy.partition(";")[0].removeprefix("make it ") for mistake in caught.value.mistakes] == [remedy]


@pytest.mark.slow
@pytest.mark.parametrize("letter", ["W", "w ", "—"], ids=["wide", "words", "dash"])
def test_papers_are_made_with_the_longest_words_that_are_taken(letter):
    def longest(letters):
        return (letter * letters)[:letters].strip()

    text, name, notes = longest(LONGEST_TEXT), longest(LONGEST_TIMBER), longest(LONGEST_NOTES)
    job = copy.deepcopy(JOB)
    job["timber"] = {name: {**JOB["timber"]["oak"], "species": text, "form": text}}
    job["job"] = {"title": notes, "client": notes}
    job["finish"]["system"] = job["wall"]["kind"] = text

    assert len(workshop_sheets(build(read_job_text(written(job))))) > 10
