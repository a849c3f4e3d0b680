"""The scanner against `tomllib`: whatever TOML is written, both see the same paths and the same values."""

import tomllib

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dryfit.job.spans import Spans, too_deep
from dryfit.job.syntax import data_of
from tests.job.toml_texts import at, readable, texts


def leaves(value, path=()):
    if isinstance(value, dict) and value:
        return {found for name, part in value.items() for found in leaves(part, (*path, name))}
    if isinstance(value, list) and value:
        return {found for at, part in enumerate(value) for found in leaves(part, (*path, at))}
    return {path}


def same(one, other):
    return repr(one) == repr(other)  # nan is not itself, and 1 is not 1.0 here


HEADS = (
    "[a]",
    "[[a]]",
    "[a.b]",
    "[[a.b]]",
    "[b]",
    '["a"]',
    '[a."b c"]',
    "[a.b.c]",
    "  [a]",
    "[ a . b ]",
    "[[a]",
    "[a] # x]",
)
PIECES = (
    *HEADS,
    "x = 1",
    "b.c = 2",
    "a = 3",
    "a = []",
    "a = [",
    "[1, 2]",
    "]",
    's = """',
    '"""',
    "b = {c = 1}",
    "c = [ # ]",
)


def told(reads, text):
    try:
        return repr(reads(text))
    except ValueError as error:
        return str(error)


@settings(max_examples=200, deadline=None)
@given(st.one_of(texts(), st.lists(st.sampled_from(PIECES), max_size=9).map("\n".join)))
def test_a_text_read_table_by_table_is_what_tomllib_reads_of_the_whole_mistakes_too(text):
    assert told(data_of, text) == told(tomllib.loads, text)
    assert told(data_of, text) == told(tomllib.loads, text), (
        "nor are the tables that are kept changed by putting them together"
    )


@settings(max_examples=100, deadline=None)
@given(texts().filter(readable))
def test_the_scanner_finds_the_paths_and_values_that_tomllib_reads(text):
    data = tomllib.loads(text)
    spans = Spans(text)

    assert spans.faults == []
    whole_tables = {table.path for table in spans.tables}
    assert {path for path in leaves(data) if path not in whole_tables} == {
        path for path in spans.values if path in leaves(data)
    }
    for path, span in spans.values.items():
        alone = tomllib.loads(f"x = {text[span.start : span.end]}")["x"]
        assert same(alone, at(data, path))


@settings(max_examples=100, deadline=None)
@given(texts().filter(readable))
def test_every_key_stands_where_the_scanner_says(text):
    spans = Spans(text)

    for path, written in spans.keys.items():
        for span in written:
            assert next(iter(tomllib.loads(f"{text[span.start : span.end]} = 1"))) == path[-1]


@settings(max_examples=100, deadline=None)
@given(st.text(max_size=60) | st.text(alphabet="ab=[]{}\"'#\n,. 1", max_size=60))
def test_no_text_stops_the_scanner(text):
    spans = Spans(text)

    assert all(0 <= fault.start <= fault.at <= len(text) for fault in spans.faults)
    assert all(0 <= span.start <= span.end <= len(text) for span in spans.values.values())


TEXT = """\
top = 1

[[board]]
name = "a"
line = [[0, 600],
        [1, "w"]]
[[board]]
name = "b"
scribe = { end = 15 }
[board.extra]
x = 1
"""

LINES = [
    (("top",), 1),
    (("board", 0), 3),
    (("board", 0, "line", 1, 1), 6),
    (("board", 1, "scribe", "end"), 9),
    (("board", 1, "scribe", "start"), 9),
    (("board", 1, "depth"), 7),
    (("board", 1, "extra", "x"), 11),
    (("board", 1, "extra"), 10),
    (("nothing", "at", "all"), 1),
]


@pytest.mark.parametrize(("path", "line"), LINES, ids=[".".join(map(str, path)) for path, _ in LINES])
def test_a_value_has_its_line_and_a_missing_one_that_of_what_it_would_stand_in(path, line):
    assert Spans(TEXT).line_of(path) == line


def test_a_mark_of_byte_order_moves_nothing():
    with_mark = Spans("\ufeff" + TEXT)

    assert with_mark.written(("board", 1, "name")) == '"b"'
    assert with_mark.line_of(("board", 1, "name")) == 8


def test_after_a_fault_the_scanner_goes_on_at_the_next_header():
    spans = Spans("[a]\nx = = 1\ny = 2\n[b]\nz = 3\n[c\nw = 4\n[d]\nv = 5\n")

    assert [spans.line_at(fault.start) for fault in spans.faults] == [2, 6]
    assert [table.path for table in spans.tables if table.faulty] == [("a",), ()]
    assert set(spans.values) == {("b", "z"), ("d", "v")}


@pytest.mark.parametrize(
    ("text", "deep"),
    [
        ("a = " + "[" * 50 + "]" * 50, False),
        ("a = " + "[" * 51 + "]" * 51, True),
        ("a = " + "[\n" * 500, True),
        ("a = '" + "[" * 500 + "'", False),
        ("# " + "[" * 500, False),
        ('a = """\n' + "[" * 500 + '\n"""', False),
        ("a = " + "{a = " * 51, True),
        (".".join("a" * 60) + " = 1", True),
        ("a = [" + "[], " * 500 + "]", False),
        ("a = [" + "1.5, " * 500 + "]", False),
    ],
    ids=["50", "51", "500", "in text", "in a note", "in long text", "braces", "dots", "side by side", "decimals"],
)
def test_nesting_is_seen_before_it_can_hurt(text, deep):
    assert (too_deep(text) is not None) == deep
