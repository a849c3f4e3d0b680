"""Options of joint kinds: what a maker writes is in the job's units, what is left out is in mm.

A housing in a board 24 thick is t_b / 3 = 8 deep, stopped 12 behind the edge; 1 in is 25.4.
"""

from typing import Annotated

import pytest
from pydantic import Field, ValidationError

from dryfit.job.arithmetic import ArithmeticMistake, parse
from dryfit.job.options import BoardName, Options, Quantity, Within, evaluated, quantities, references

MEETING = {"t_a": 22.0, "t_b": 24.0, "overlap": 300.0, "bay": 650.0}


class Sample(Options):
    """One option of every sort."""

    depth: Quantity = Field(
        default="t_b / 3",  # type: ignore[assignment]  # arithmetic until it is worked out
        description="How deep.",
    )
    stop: Annotated[Quantity, Within(least=0, most=100)] = Field(default=12.0, description="From the edge.")
    length: Quantity | None = Field(default=None, description="May be left out.")
    places: tuple[Quantity, ...] = ()
    ratio: float = Field(default=0.5, gt=0, lt=1)
    through: BoardName = ""


def test_defaults_are_in_mm_whatever_the_job_s_units():
    for units in ("mm", "in"):
        worked = evaluated(Sample(), MEETING, units)
        assert (worked.depth, worked.stop, worked.length) == (8.0, 12.0, None)


def test_what_is_written_is_in_the_job_s_units():
    given = Sample.model_validate({"depth": "t_b / 4", "stop": 1, "length": "overlap", "places": [1, "bay"]})

    assert evaluated(given, MEETING, "in") == Sample.model_construct(
        _fields_set=given.model_fields_set,
        depth=6.0,
        stop=25.4,
        length=300.0,
        places=(25.4, 650.0),
        ratio=0.5,
        through="",
    )


def test_worked_out_options_are_options_still_and_are_worked_out_no_further():
    worked = evaluated(Sample(), MEETING)

    assert isinstance(worked, Sample)
    assert evaluated(worked, {}) == worked


def test_the_same_options_in_another_meeting_come_to_something_else():
    assert evaluated(Sample(), {"t_b": 27.0}).depth == 9.0
    assert evaluated(Sample(), {"t_b": 24.0}).depth == 8.0


@pytest.mark.parametrize(
    ("given", "says", "remedy"),
    [
        ({"stop": -1}, "stop comes to -1 mm", "at least 0 mm"),
        ({"stop": "t_b * 5"}, "stop comes to 120 mm", "at most 100 mm"),
        ({"depth": "overlp"}, "overlp", "did you mean overlap?"),
        ({"depth": "zzz"}, "zzz", "[measures]"),
        ({"depth": "t_b / (bay - 650)"}, "divides by zero", "not zero"),
    ],
    ids=["too little", "too much", "mistyped", "unknown", "by zero"],
)
def test_a_length_that_cannot_be_worked_out_is_refused_in_words(given, says, remedy):
    with pytest.raises(ArithmeticMistake) as caught:
        evaluated(Sample.model_validate(given), MEETING)

    assert says in caught.value.says
    assert remedy in caught.value.remedy


@pytest.mark.parametrize(
    ("given", "kind"),
    [({"deep": 1}, "extra_forbidden"), ({"ratio": 2}, "less_than"), ({"depth": True}, "value_error"),
     ({"depth": "1 +"}, "value_error"), ({"depth": float("nan")}, "value_error")],
    ids=["unknown", "out of bounds", "no length", "no arithmetic", "no number"],
)  # fmt: skip
def test_a_wrong_option_is_refused_when_it_is_read(given, kind):
    with pytest.raises(ValidationError) as caught:
        Sample.model_validate(given)

    assert caught.value.errors()[0]["type"] == kind


def test_the_schema_says_of_every_option_what_it_is():
    published = Sample.model_json_schema()["properties"]

    assert published["depth"]["description"] == "How deep."
    assert published["depth"]["unit"] == "mm"
    assert published["stop"]["within"] == {"minimum": 0, "maximum": 100}
    assert set(quantities(Sample)) == {"depth", "stop", "length", "places"}
    assert references(Sample) == ("through",)


def test_a_number_and_its_text_are_read_alike():
    assert Sample.model_validate({"depth": 8}).depth == Sample.model_validate({"depth": "8"}).depth == parse("8")
