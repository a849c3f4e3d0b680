"""The hands of writing back, on any TOML: what is set, added or taken away is so, and nothing else is.

Texts are drawn; `tomllib` reads them before and after, and the same change made on the values is the measure.
"""

import copy
import tomllib

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from dryfit.job.edits import EditRefused, TomlText
from dryfit.job.spans import Spans
from dryfit.job.style import render
from tests.job.toml_texts import at, readable, texts

VALUES = st.one_of(
    st.integers(-5000, 5000),
    st.floats(-5000, 5000).map(lambda value: round(value, 3)),
    st.booleans(),
    st.text(st.characters(codec="utf-8"), max_size=6),
    st.lists(st.integers(0, 9), max_size=3),
    st.dictionaries(st.text(st.characters(codec="utf-8"), max_size=4), st.integers(0, 9), max_size=2),
)
READABLE = texts().filter(readable)


def same(one, other):
    """Equal, nan and the difference of 1 and 1.0 apart."""
    return one == other or repr(one) == repr(other)


def tables(value, path=()):
    """Every path that leads to a table."""
    if isinstance(value, dict):
        yield path
        for name, part in value.items():
            yield from tables(part, (*path, name))
    elif isinstance(value, list):
        for number, part in enumerate(value):
            yield from tables(part, (*path, number))


@settings(max_examples=40, deadline=None)
@given(READABLE, VALUES, st.data())
def test_a_value_written_over_another_leaves_every_other_byte(text, value, data):
    spans = Spans(text)
    assume(spans.values)
    path = data.draw(st.sampled_from(sorted(spans.values, key=repr)))
    after = TomlText(text).replace(path, render(value))
    expected = copy.deepcopy(tomllib.loads(text))
    at(expected, path[:-1])[path[-1]] = value
    span = spans.values[path]

    assert same(tomllib.loads(after), expected)
    assert after.startswith(text[: span.start])
    assert after.endswith(text[span.end :])


@settings(max_examples=40, deadline=None)
@given(READABLE, VALUES, st.data())
def test_a_key_added_to_any_table_is_there_and_all_bytes_before_and_behind_it_too(text, value, data):
    before = tomllib.loads(text)
    parent = data.draw(st.sampled_from(sorted(tables(before), key=repr)))
    assume("new" not in at(before, parent))
    after = TomlText(text).add_key((*parent, "new"), value)
    expected = copy.deepcopy(before)
    at(expected, parent)["new"] = value

    assert same(tomllib.loads(after), expected)
    assert is_inserted(text, after)


@settings(max_examples=40, deadline=None)
@given(READABLE, VALUES, st.data())
def test_a_key_added_to_a_table_that_is_not_there_brings_the_table(text, value, data):
    before = tomllib.loads(text)
    parent = data.draw(st.sampled_from(sorted(tables(before), key=repr)))
    assume("new" not in at(before, parent))
    after = TomlText(text).add_key((*parent, "new", "key"), value)
    expected = copy.deepcopy(before)
    at(expected, parent)["new"] = {"key": value}

    assert same(tomllib.loads(after), expected)
    assert is_inserted(text, after)


def is_inserted(before, after):
    """Whether `after` is `before` with one piece put in."""
    start = next((k for k, (a, b) in enumerate(zip(before, after, strict=False)) if a != b), len(before))
    rest = before[start:]
    return any(after.endswith(before[k:]) and after.startswith(before[:k]) for k in range(start + 1)) or not rest


@settings(max_examples=40, deadline=None)
@given(READABLE, st.data())
def test_what_is_taken_away_is_gone_and_all_else_stays(text, data):
    spans = Spans(text)
    headers = {table.path for table in spans.tables if table.path}
    paths = sorted({*spans.values, *headers}, key=repr)
    assume(paths)
    path = data.draw(st.sampled_from(paths))
    before = tomllib.loads(text)
    after = TomlText(text).remove(path)
    expected = copy.deepcopy(before)
    del at(expected, path[:-1])[path[-1]]

    assert same(pruned(tomllib.loads(after)), pruned(expected))


def pruned(value):
    """Without tables and lists that are empty: what holds nothing more need not be written."""
    if isinstance(value, dict):
        found = {name: pruned(part) for name, part in value.items()}
        return {name: part for name, part in found.items() if part not in ({}, [])}
    return [pruned(part) for part in value] if isinstance(value, list) else value


@settings(max_examples=40, deadline=None)
@given(READABLE, VALUES, st.data())
def test_a_value_put_into_a_list_moves_the_others_up(text, value, data):
    before = tomllib.loads(text)
    lists = [path for path in Spans(text).values if isinstance(at(before, path), list)]
    assume(lists)
    path = data.draw(st.sampled_from(sorted(lists, key=repr)))
    place = data.draw(st.integers(0, len(at(before, path))))
    after = TomlText(text).insert((*path, place), value)
    at(before, path).insert(place, value)

    assert same(tomllib.loads(after), before)


def test_there_is_no_key_to_be_added_to_what_is_no_table():
    refused = []
    for path in [("a", "b"), ("l", 7), ("l", 0, "x")]:
        try:
            TomlText("a = 1\nl = [1]\n").add_key(path, 2)
        except EditRefused as why:
            refused.append(why.remedy)

    assert len(refused) == 3
