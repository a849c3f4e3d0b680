"""Sentences as values. An inch is 25.4: 3.175 is 1/8 in. A limit of 75.2 is told as 75.2, or in whole mm as 76."""

import ast
import pickle
import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryfit.sentences import Angle, Count, Fineness, Length, Mass, Name, On, Several, Voice, a, say
from tools.sentences import sentences_page

MM, INCHES = Voice("mm"), Voice("in")

TOLD = [
    (Length(3.04), "3", "1/8 in"),
    (Length(75.24), "75.2", "2 31/32 in"),
    (Length(24.675, Fineness.WIDTH), "24.7", "0.971 in"),
    (Length(0.123, Fineness.FINE), "0.12", "0.005 in"),
    (Length(1923.7, Fineness.WHOLE), "1924", "75 47/64 in"),
    (Length(-0.01), "0", "0 in"),
    (Angle(7.5), "7.5°", "7.5°"),
    (Angle(8.326), "8.33°", "8.33°"),
    (Count(1, "slot"), "1 slot", "1 slot"),
    (Count(3, "notch"), "3 notches", "3 notches"),
    (Count(2, "box"), "2 boxes", "2 boxes"),
    (Count(2, "half", "halves"), "2 halves", "2 halves"),
    (Count(2, "pair of screws", "pairs of screws"), "2 pairs of screws", "2 pairs of screws"),
    (Mass(3.42), "3.4 kg", "7.5 lb"),
    (Mass(34.2), "34 kg", "75 lb"),
    (Name("left end"), "left end", "left end"),
    (Several(()), "", ""),
    (Several((Name("b"),)), "b", "b"),
    (Several((Name("b"), "a slot", Length(2))), "b, a slot and 2", "b, a slot and 5/64 in"),
    (Several((Name("b"), Name("c")), " or "), "b or c", "b or c"),
]


@pytest.mark.parametrize(("value", "mm", "inches"), TOLD, ids=[mm or "nothing" for _, mm, _ in TOLD])
def test_a_value_is_told_in_mm_and_in_inches(value, mm, inches):
    assert (value.said(MM), value.said(INCHES)) == (mm, inches)


def test_a_sentence_is_told_by_whoever_tells_it_in_its_own_units_and_names():
    told = say("only {} left between {} and {}", Length(68.5), say("the slot for {}", Name("shelf 3")), "the end")

    assert told.said(MM) == "only 68.5 left between the slot for shelf 3 and the end"
    assert told.said(Voice("in", {"shelf 3": "C"})) == "only 2 45/64 in left between the slot for C and the end"
    assert told.said(Voice("in", bare=True)).startswith("only 2 45/64 left")


@given(st.floats(0.0, 5000.0), st.sampled_from(Fineness), st.sampled_from(["mm", "in"]))
def test_a_limit_is_never_told_from_its_wrong_side_and_at_most_a_step_off(limit, step, units):
    """At least 75.2 is never told as 75; what is told is read back as a maker would read it."""
    fine = step.mm if units == "mm" else 25.4 / 64 if step.decimals is None else 25.4 / 1000
    least, most = (read(Length(limit, step, side).said(Voice(units)), units) for side in (On.UP, On.DOWN))

    assert least >= limit - 1e-5 * fine
    assert most <= limit + 1e-5 * fine
    assert least - most <= fine * 1.001


def read(text, units):
    """A told length in mm, read with a maker's eyes: whole inches, a fraction, decimals."""
    if units == "mm":
        return float(text)
    total = 0.0
    for word in text.removesuffix(" in").split():
        top, _, bottom = word.partition("/")
        total += float(top) / float(bottom or 1)
    return total * 25.4


names = st.text(st.sampled_from("{}abc slot end 3/8 \"'"), max_size=12)


@given(names, names)
def test_a_name_changes_no_other_word_whatever_it_is(one, other):
    """Names with braces, quotes and our own words in them."""
    told = say("the {} shows beside {}", "end", Several((Name(one), Name(other))))

    assert told.said(MM) == f"the end shows beside {one} and {other}"
    assert (
        told.renamed({one: "A", other: "B" if other != one else "A"}.__getitem__)
        .said(MM)
        .startswith("the end shows beside A and ")
    )


@given(names, names)
def test_sentences_that_say_the_same_of_other_things_are_alike(one, other):
    def of(name, length=3.0):
        return say("{} is {} short", say("the end of {}", Name(name)), Length(length))

    assert of(one).alike() == of(other).alike()
    assert of(one).alike() != of(one, 4.0).alike()
    assert (of(one) == of(other)) == (one == other)


def test_a_sentence_is_small_and_comes_back_from_a_pickle_equal():
    told = say("{} and {} overlap by {}", Name("a"), Name("b"), Length(3.0))

    packed = pickle.dumps(told, protocol=5)
    assert pickle.loads(packed) == told
    assert len(packed) < 400
    assert hash(told) == hash(pickle.loads(packed))


def test_a_form_with_more_or_fewer_braces_than_values_is_our_own_mistake():
    with pytest.raises(AssertionError):
        say("{} and {}", Length(1.0))


def test_words_get_their_article():
    assert [a(word) for word in ("slot", "open notch", "Angle")] == ["a slot", "an open notch", "an Angle"]
    assert a("pins in slots") == "pins in slots"  # what is plural has none


# --- all of them in one list -----------------------------------------------------------------------


def test_the_list_of_sentences_has_what_is_said_in_the_order_of_the_files_and_neither_keys_nor_docstrings(tmp_path):
    (tmp_path / "joints").mkdir()
    (tmp_path / "joints" / "peg.py").write_text(
        '"""A peg for a board."""\n'
        'KEY = "peg-loose"\n'
        'SAYS = say("{} is loose: "\n'
        '    "drive it home", name)\n'
        'TOLD = f"{count} pegs a board"\n'
    )

    page = sentences_page(tmp_path)

    said = page.partition("## joints/peg.py")[2]
    assert said.split("\n")[3:-2] == ["    3  {} is loose: drive it home", "    5  {} pegs a board"]


def test_every_form_of_a_sentence_stands_in_the_list():
    """Found by what calls `say`, not as the list finds them; a form of one word says nothing by itself."""
    listed = sentences_page()
    forms = {
        call.args[0].value
        for path in SOURCES.rglob("*.py")
        for _, name, call in calls(ast.parse(path.read_text(encoding="utf-8")))
        if name in {"say", "asked"} and isinstance(call.args[0], ast.Constant)
    }
    spoken = {" ".join(form.split()) for form in forms if len(re.findall(r"[A-Za-z]+", form)) > 2}
    assert len(spoken) > 300
    assert [form for form in spoken if form not in listed] == []


# --- nothing told is put together but by `say` -----------------------------------------------------

SOURCES = Path(__file__).parents[1] / "src" / "dryfit"
TAKES = {  # what takes sentences, and under which words
    "Finding": {"says", "remedy"},
    "Cure": {"label"},
    "NotChecked": {"what", "why"},
    "Decision": {"value", "reason"},
    "Ease": {"says"},
    "Judgement": {"reasons"},
}
TAKES_THIRD = {"Difference"}  # what takes a form as its third value
PASSED_ON = {
    ("editing/different.py", "said"),
    ("piece/kinds.py", "asked"),
    ("piece/settling/locks.py", "asked"),
    ("cli/findings.py", "_headed"),  # the form of a code, as it is declared
}  # its callers' forms are looked at in its stead
MADE = ast.JoinedStr | ast.BinOp


def calls(tree):
    """Every call by a plain name, with the function it stands in."""
    for outer in ast.walk(tree):
        if isinstance(outer, ast.FunctionDef):
            for node in ast.walk(outer):
                if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
                    yield outer.name, node.func.id, node


def test_every_form_is_a_constant_and_no_text_that_is_told_is_put_together_otherwise():
    """So nothing has a name or a figure in it that nobody can find again: names are renamed, lengths told in inches."""
    wrong, seen = set(), 0
    for path in sorted(SOURCES.rglob("*.py")):
        text, room = path.read_text(encoding="utf-8"), path.relative_to(SOURCES).as_posix()
        says = re.search(r"sentences import [^\n]*\bsay\b|^    say,$", text, re.MULTILINE)
        forms = {"asked", "say"} if says else {"asked"}
        for within, name, call in calls(ast.parse(text)):
            told = [word.value for word in call.keywords if word.arg in TAKES.get(name, ())]
            told += call.args[2:3] if name in TAKES_THIRD else []
            if name in forms and (room, within) not in PASSED_ON:
                seen += 1
                if not (isinstance(call.args[0], ast.Constant) or is_table(call.args[0]) or is_said(call.args[0])):
                    wrong.add((room, call.lineno, ast.unparse(call.args[0])))
            declared = [word.value for word in call.keywords if name == "declare" and word.arg == "several"]
            wrong |= {(room, node.lineno, ast.unparse(node)) for node in declared if not isinstance(node, ast.Constant)}
            every = [node for value in told for node in branches(value)]
            wrong |= {(room, node.lineno, ast.unparse(node)) for node in every if made(node)}
    assert seen > 300
    assert wrong == set()


def branches(node):
    """The expression itself, or both of one that is chosen."""
    return [*branches(node.body), *branches(node.orelse)] if isinstance(node, ast.IfExp) else [node]


def made(node):
    """Whether a text is put together there."""
    joined = (
        isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr in ("join", "format")
    )
    return joined or isinstance(node, MADE)


def is_table(node):
    """A form taken from a table of constants by its key, or one of two."""
    return isinstance(node, ast.Subscript) or (
        isinstance(node, ast.IfExp) and isinstance(node.body, ast.Constant) and isinstance(node.orelse, ast.Constant)
    )


def is_said(node):
    """A sentence itself, where one is taken for a form."""
    return isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "say"
