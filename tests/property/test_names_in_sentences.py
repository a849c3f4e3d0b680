"""Names change no word beside them: pieces whose boards are called like words of sentences read as with plain names.

A faulty piece is drawn, and made once with boards called "n 1", "n 2" and once, in like order, with boards called "at",
"bottom", "for", "slot" and so on. What is found of the second, its names put back, must be what is found of the first,
and no name may be left in it beside those that stand there as names. Looked at is what is found of the set-out itself:
wood left, what holds each board, the room, the stock, bores, screws' mouths.
"""

import re

import pytest
from hypothesis import given, settings

from dryfit.book import build, read_job_text
from dryfit.piece import bores, checks, dividing, holding, mouths, room
from dryfit.piece.meetings import name_order
from dryfit.sentences import Voice, renamed, told

from .faulty import FAMILIES

WORDS = ("at", "bottom", "end", "floor or", "for", "in", "left", "of", "over the end", "slot", "the", "to", "wall edge")
CODES = holding.CODES | {
    checks.SHORT_GRAIN,
    checks.THIN_WEB,
    checks.DANGLING,
    checks.END_SLICES,
    checks.NOTHING_LEFT,
    bores.BORE_NEAR,
    dividing.LONGER,
    dividing.WEAK,
    mouths.COVERED,
    room.PAST_THE_ROOM,
    room.BELOW_THE_FLOOR,
}
QUESTIONS = {holding.HOLDING, room.ROOM, dividing.STOCK}
_NAMED = re.compile(r"^(name = |front = |between = \[|boards = \[)(.*)$", re.MULTILINE)


def called(text, names):
    """The text with boards called otherwise, wherever it names them."""

    def anew(match):
        words = re.sub(r'"([^"]*)"', lambda found: f'"{names.get(found[1], found[1])}"', match[2])
        return match[1] + words

    return _NAMED.sub(anew, text)


def whole_or_member(names):
    """A renaming that a member of a divided board follows."""

    def anew(name):
        whole, found, rest = name.partition(" (")
        return names.get(whole, whole) + found + rest

    return anew


def found(text, names):
    """What is said of a piece with its boards called by these names, and then by their old ones again."""
    piece = build(read_job_text(called(text, names)), paces=()).piece
    back = whole_or_member({new: old for old, new in names.items()})
    mine = [one for one in piece.findings if one.code in CODES]
    said = [words for one in mine for words in (one.says, one.remedy, *(cure.label for cure in one.cures))]
    said += [words for one in piece.not_checked if one.study in QUESTIONS for words in (one.what, one.why)]
    return sorted(told(renamed(words, back), Voice()) for words in said)


@pytest.mark.parametrize("family", FAMILIES)
def test_what_is_found_reads_word_for_word_whatever_boards_are_called(family):
    @settings(max_examples=15)
    @given(FAMILIES[family]())
    def looked_at(text):
        there = sorted(re.findall(r'^\[\[board\]\]\nname = "([^"]*)"', text, re.MULTILINE), key=name_order)
        plain = {name: f"n {number}" for number, name in enumerate(there, 1)}
        awkward = dict(zip(there, WORDS, strict=False))
        assert found(text, awkward) == found(text, plain)

    looked_at()
