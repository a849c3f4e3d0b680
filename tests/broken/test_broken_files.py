"""Every mistake is found in one run, in its line, with what was read and what would be right.

The cases stand in `cases.py`: twenty classes of mistake with three files each, ten files with several.
"""

from collections import Counter

import pytest

from dryfit.errors import MOST_TOLD, JobError
from dryfit.job.reading import MOST_TABLES
from tests.broken.cases import CASES, HEAD, SEVERAL, SHELF
from tests.job.samples import read


def mistakes(text):
    with pytest.raises(JobError) as caught:
        read(text, "wall.toml")
    return caught.value.mistakes


@pytest.mark.parametrize("case", CASES, ids=[f"{case.kind}, line {case.line}: {case.read}"[:60] for case in CASES])
def test_a_single_mistake_is_the_only_one_told_and_is_told_in_full(case):
    (mistake,) = mistakes(case.text)

    assert mistake.file == "wall.toml"
    assert mistake.line == case.line
    assert mistake.read == case.read
    assert case.remedy in mistake.remedy


def test_there_are_at_least_twenty_classes_of_three_files():
    counted = Counter(case.kind for case in CASES)

    assert len(counted) >= 20
    assert set(counted.values()) == {3}


@pytest.mark.parametrize(("text", "lines"), SEVERAL.values(), ids=SEVERAL.keys())
def test_all_mistakes_of_a_file_are_told_in_one_run(text, lines):
    found = mistakes(text)

    assert [mistake.line for mistake in found] == lines
    assert len(lines) >= 3


@pytest.mark.parametrize("case", CASES, ids=range(len(CASES)))
def test_the_message_reads_as_file_line_what_and_remedy(case):
    (mistake,) = mistakes(case.text)
    message = str(mistake)

    assert message.startswith(f"wall.toml:{case.line}: ")
    assert message.endswith(f"; {mistake.remedy}")
    assert "\n" not in message
    for word in ("pydantic", "Traceback", "dict", "None", "Expected", "TOMLDecodeError"):
        assert word not in message


def test_of_a_file_full_of_mistakes_the_first_are_told_and_how_many_follow_from_where():
    """A list of 9,000 empty joints: each would lack "between"."""
    found = mistakes(SHELF + "[[joint]]\n" * 9_000)

    assert len(found) == MOST_TOLD + 1
    assert (found[0].line, found[0].says) == (10, 'a joint has no "between"')
    assert found[-1].says == "8,800 more mistakes follow"
    assert found[-1].line == 10 + MOST_TOLD


@pytest.mark.parametrize("word", ["board", "frame", "joint", "unit", "fixing", "load"])
def test_more_tables_of_a_kind_than_any_piece_has_are_one_mistake(word):
    (mistake,) = mistakes(HEAD + f"[[{word}]]\n" * 90_000)

    assert (mistake.line, mistake.says) == (6, f"the file has 90,000 tables [[{word}]]")
    assert mistake.remedy == f"keep a job within {MOST_TABLES:,} of a kind"


def test_a_word_in_a_list_that_is_closed_is_named_and_not_the_list():
    (mistake,) = mistakes(SHELF.replace('"width", 600]]', '"width", 6oo]]'))
    assert (mistake.line, mistake.says) == (8, "6oo in a list is not a number")
