"""What a cut is called is shown and nothing else hangs on it: no program compares a cut's word, or takes it apart.

Every word that a kind gives a cut is put in another order of its letters ("raked slot" is "rkaed solt", "tongue" is
"tnogue"), so that it is as wide on paper and means nothing. With the letters put back, all that is told of a piece is
the same to the letter: every sheet of every paper, the lists, the terminal and book.json.
"""

import json
import re
from dataclasses import replace

import pytest

from bench.told import differences, told_of
from dryfit.book.demos import demo_text
from dryfit.joints import KINDS
from tools.examples import EXAMPLES

WHOLE = ("record-wall", "step-shelf")
FIRST = {f"{kind} 0" for kind in EXAMPLES}  # one of each kind, in a first look
JOBS = {name: demo_text(name) for name in WHOLE}
JOBS |= {f"{kind} {number}": one.text for kind, some in EXAMPLES.items() for number, one in enumerate(some)}


def muddled(words):
    """The second and the third letter of each word in the other's place."""
    return " ".join(f"{word[0]}{word[2]}{word[1]}{word[3:]}" if len(word) > 2 else word for word in words.split(" "))


def told(text):
    """All that is told of it but pictures and stamps."""
    return json.loads(re.sub(r"dryfit-set:\w+", "SET", json.dumps(told_of(text, drawn=False), ensure_ascii=False)))


def put_back(found, words):
    """The same with every muddled word in its own letters, also where there are several of it."""
    own = {muddled(word): word for word in words}
    longest_first = "|".join(map(re.escape, sorted(own, key=len, reverse=True)))
    pattern = re.compile(rf"\b(?:{longest_first})(?=(?:e?s)?(?!\w))")
    return json.loads(pattern.sub(lambda met: own[met[0]], json.dumps(found, ensure_ascii=False)))


@pytest.fixture
def otherwise(monkeypatch):
    """Makes every kind call its cuts otherwise; gives the words that were muddled."""
    words = set()

    def begin():
        for kind in KINDS.values():
            monkeypatch.setattr(type(kind), "make", renaming(type(kind).make))
        return words

    def renaming(make):
        def made(self, meeting, options, making):
            joint = make(self, meeting, options, making)
            words.update(word for cut in joint.cuts for word in (cut.word, cut.noun) if word)
            cuts = (replace(cut, word=muddled(cut.word), noun=muddled(cut.noun)) for cut in joint.cuts)
            return replace(joint, cuts=tuple(cuts))

        return made

    return begin


@pytest.mark.parametrize(
    "name", [name if name in FIRST else pytest.param(name, marks=pytest.mark.slow) for name in JOBS]
)
def test_nothing_hangs_on_what_a_cut_is_called(name, otherwise):
    asked = told(JOBS[name])
    words = otherwise()
    found = told(JOBS[name])

    assert words
    assert found != asked
    assert list(differences(asked, put_back(found, words))) == []
