"""Whatever is given as a job file is read or refused in words, and soon.

Texts are drawn at random, cut out of a sound file and put together wrongly, or made as large as may be.
"""

import re
import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dryfit.errors import JobError, Mistake
from tests.job.samples import WALL, read, small

WORDS = re.findall(r"\w+|[^\w\s]+|\s+", WALL)
JUNK = [
    '"', "'", '"""', "'''", "\\", "[", "]", "[[", "{", "}", "=", "#", ",", "\n", "\r", "\0", "\ud800", "\ufeff", "é",
    "0", "-", "1e9", "1e999", "nan", "inf", "true", "0x1F", "9" * 5000, "2026-13-45", "a.b.c.d", "i", "t_a", "{i}",
    "..", "wall", "in", "count = 1000000000", '"width / 0"', "[[board]]\n", "[[board.except]]\ni = 1\n", "[board]\n",
    "x = [" * 60,
]  # fmt: skip
SOON = 60.0  # seconds of this process's own work, whatever else the machine does: a quadratic step takes minutes


def looked_at(text: str) -> None:
    """Read a text; whatever is wrong must be told with a line of the file, a sentence and a remedy."""
    found: tuple[Mistake, ...] = ()
    try:
        read(text)
    except JobError as error:
        found = error.mistakes
    last = text.count("\n") + 1
    for mistake in found:
        assert 1 <= mistake.line <= last
        assert mistake.says
        assert mistake.remedy
        assert str(mistake).isprintable()


@st.composite
def spoilt(draw):
    words = list(WORDS)
    for _ in range(draw(st.integers(1, 4))):
        at = draw(st.integers(0, len(words) - 1))
        act = draw(st.sampled_from(["cut", "put in", "put over", "copy"]))
        if act == "cut":
            del words[at : at + draw(st.integers(1, 12))]
        elif act == "put in":
            words.insert(at, draw(st.sampled_from(JUNK)))
        elif act == "put over":
            words[at] = draw(st.sampled_from(JUNK))
        else:
            words[at:at] = words[: draw(st.integers(1, 40))]
        words = words or [" "]
    return "".join(words)


@settings(max_examples=400, deadline=None)
@given(spoilt())
def test_a_sound_file_spoilt_anywhere_is_refused_in_words(text):
    looked_at(text)


@settings(max_examples=200, deadline=None)
@given(st.text(max_size=80) | st.text(alphabet='[]{}"=.,#ab1\n ', max_size=80))
def test_any_text_is_refused_in_words(text):
    looked_at(text)


PLAIN = st.one_of(st.integers(), st.floats(), st.booleans(), st.text(max_size=8), st.just("width"), st.just("1 in"))
ANY = st.recursive(
    PLAIN, lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=4), inner, max_size=2)
)


@settings(max_examples=400, deadline=None)
@given(
    st.sampled_from(re.findall(r"(?m)^\w+ *= .*$", WALL)),
    ANY,
)
def test_any_value_in_the_place_of_any_other_is_refused_in_words(line, value):
    from dryfit.job.style import render

    try:
        written = render(value)
    except ValueError:
        written = "nan"
    text = WALL.replace(line, f"{line.split('=', maxsplit=1)[0]}= {written}", 1)
    looked_at(text)


def repeated(text: str) -> str:
    return text * (1_000_000 // len(text.encode()))


LARGE = {
    "tables that cannot be read": repeated("[a]\nx\n"),
    "the same table": repeated("[a]\n"),
    "the same board": repeated("[[board]]\nname='a'\nline=[[0,0],[0,0]]\n"),
    "boards of unknown timber": "".join(f"[[board]]\nname='a{n}'\ntimber='z{n}'\n" for n in range(24000)),
    "unknown measures": "[measures]\n" + "".join(f"m{n} = 'n{n} + m{n + 1}'\n" for n in range(38000)),
    "a chain of measures": "[measures]\n" + "".join(f"m{n} = 'm{n + 1}'\n" for n in range(50000)) + "m50000 = 1\n",
    "a circle of measures": "[measures]\n" + "".join(f"m{n} = 'm{n + 1}'\n" for n in range(50000)) + "m50000 = 'm0'\n",
    "unknown keys": "".join(f"k{n} = 1\n" for n in range(70000)),
    "joints of nothing": "".join(f"[[joint]]\nbetween=['a{n}','b{n}']\n" for n in range(25000)),
    "quotes": repeated('"'),
    "backslashes": '"' + repeated('\\"')[:-10],
    "open brackets": "a = " + repeated("[")[:-10],
    "points between names": ".".join("a" * 400_000) + " = 1",
    "a list without end": "a = [\n" + "1,\n" * 300_000,
    "a pair of many": "[[joint]]\nbetween=[" + "1," * 400_000 + "]\n",
    "rows upon rows": "".join(f"[[board]]\nname='a{n}'\ncount=2000\nline=[[0,0],[1,'x']]\n" for n in range(500)),
    "one word": repeated("a"),
}


@pytest.mark.slow
@pytest.mark.parametrize("text", LARGE.values(), ids=LARGE.keys())
def test_a_megabyte_of_nonsense_is_done_with_soon(text):
    assert len(text.encode()) <= 1_000_000
    start = time.process_time()
    looked_at(text)

    assert time.process_time() - start < SOON


BOUNDS = [
    ("a = " + "[" * 500 + "]" * 500, "more than 50"),
    ("a = " + "{a = " * 500, "more than 50"),
    ("# " + "x" * 1_000_000, "larger than 1 MB"),
    (small("[[board]]\nname = 'a'\ndepth = 1\nline = [[0, 0], [9, 9]]\ncount = 1000000000"), "out of range"),
    (
        small(*[f"[[board]]\nname = '{n}'\ndepth = 1\nline = [[0, 0], [9, 9]]\ncount = 1500" for n in "ab"]),
        "more than 2000",
    ),
    (small("[[board]]\nname = 'a'\ndepth = 1\nline = [[0, 0], ['101 m', 0]]"), "101 m"),
    (small("[[board]]\nname = 'a'\ndepth = '" + "(" * 60 + "1" + ")" * 60 + "'\nline = [[0, 0], [9, 9]]"), "too deep"),
]


@pytest.mark.parametrize(("text", "says"), BOUNDS, ids=[says for _, says in BOUNDS])
def test_every_bound_has_its_message(text, says):
    with pytest.raises(JobError) as caught:
        read(text)

    assert [says in mistake.says for mistake in caught.value.mistakes] == [True]


def test_two_thousand_boards_are_read():
    job = read(small("[[board]]\nname = 'a'\ndepth = 1\nline = [['i', 0], ['i', 900]]\ncount = 2000"))

    assert len(job.boards) == 2000
