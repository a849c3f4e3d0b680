"""Arithmetic by example: width 2600, bay a quarter of it, 650; an inch is 25.4, a foot 304.8.

Sums are done in the job's units: in a job in inches `width / 2 + 1` adds one inch, 25.4 mm.
"""

import math
import pickle

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryfit.job.arithmetic import NESTING, ArithmeticMistake, number, parse

SCOPE = {"width": 2600.0, "bay": 650.0, "i": 2.0}

RIGHT_IN_MM = [
    ("600", 600.0),
    ("width / 4", 650.0),
    ("2 + 3 * 4", 14.0),
    ("(2 + 3) * 4", 20.0),
    ("12 - 4 - 3", 5.0),
    ("48 / 4 / 3", 4.0),
    ("-bay + 1000", 350.0),
    ("2 * -3", -6.0),
    ("i * bay", 1300.0),
    ("min(bay, 700, 800)", 650.0),
    ("max(bay, 700)", 700.0),
    ("abs(600 - bay)", 50.0),
    ("sqrt(bay * bay)", 650.0),
    ("width * sin(30)", 1300.0),
    ("width * cos(60)", 1300.0),
    ("100 * tan(45)", 100.0),
    ("2.6 m", 2600.0),
    ("23 5/8 in", 600.075),
    ("5 ft 3 in", 1600.2),
    ("2 * 3 1/2 in", 177.8),
    ("3/4 in + 1", 20.05),
    ("width / 2 + 1 1/8 in", 1328.575),
    ("1/2 in * 2", 25.4),
    ("10 / 5", 2.0),
]

RIGHT_IN_INCHES = [
    ("10", 254.0),
    ("width / 2 + 1", 1325.4),
    ("width / 2 + 25.4 mm", 1325.4),
    ("1/2 in", 12.7),
    ("1/2", 12.7),
    ("i * 10", 508.0),
    ("1 ft", 304.8),
    ("-2.6 m", -2600.0),
]

WRONG = [
    ("bay mm", "unit mm", "take the unit away"),
    ("(3) in", "unit in", "take the unit away"),
    ("in", "unit in", "12 in"),
    ("11 13/16", "11 13/16 has no unit", 'such as "11 13/16 in"'),
    ("11 13/16 + bay", "11 13/16 has no unit", 'such as "11 13/16 in"'),
    ("2 2/3 dm", '"dm" after 2 2/3 is not a unit', "write mm, cm, m, in or ft"),
    ("2 2/3 inches", '"inches" after 2 2/3 is not a unit', "write in"),
    ("11 13", "between 11 and 13", '"23 5/8 in"'),
    ("1 / 0", "divides by zero", "not zero"),
    ("bay / (i - 2)", "divides by zero", "not zero"),
    ("3/0 in", "divides by zero", "not zero"),
    ("sqrt(-1)", "square root", "sqrt"),
    ("2,5", "comma", "2.5"),
    ("23 5/8", "23 5/8 has no unit", 'such as "23 5/8 in"'),
    ("23-5/8 in", "two ways", "23 5/8 in"),
    ("2 x 4", "x directly follows", "*"),
    ("3 inches", "inches", "write in"),
    ("--3", "two minus", "brackets"),
    ("(3", "not closed", "add )"),
    ("3)", "not opened", "remove )"),
    ("", "stops", "number or a measure"),
    ("3 +", "stops", "number or a measure"),
    ("* 3", "where a value should", "before it"),
    ("sin 30", "needs brackets", "sin(...)"),
    ("max(1)", "max is given 1", "commas"),
    ("sqrt(1, 2)", "sqrt is given 2", "one value"),
    ("widht", "widht", "did you mean width?"),
    ("zzz", "zzz", "[measures]"),
    ("t_a / 3", "t_a", "options of a joint"),
    ("3 ÷ 4", "÷", "+ - * /"),
    ("1e400", "too large", "100 m"),
    (" * ".join(["1e15"] * 22), "no usable number", "100 m"),
    ("1 / (" + " * ".join(["1e15"] * 22) + ")", "no usable number", "100 m"),
    ("9" * 3000, "too long", "2000"),
]


@pytest.mark.parametrize(("text", "length"), RIGHT_IN_MM, ids=[text for text, _ in RIGHT_IN_MM])
def test_in_a_job_in_mm_it_comes_to(text, length):
    assert parse(text).evaluate(SCOPE) == pytest.approx(length, abs=1e-9)


@pytest.mark.parametrize(("text", "length"), RIGHT_IN_INCHES, ids=[text for text, _ in RIGHT_IN_INCHES])
def test_in_a_job_in_inches_it_comes_to(text, length):
    assert parse(text).evaluate(SCOPE, "in") == pytest.approx(length, abs=1e-9)


@pytest.mark.parametrize(("text", "says", "remedy"), WRONG, ids=[text[:20] or "nothing" for text, _, _ in WRONG])
def test_what_is_wrong_is_said_with_what_would_be_right(text, says, remedy):
    scope = {"width": 2600.0, "bay": 650.0, "i": 2.0}
    with pytest.raises(ArithmeticMistake) as caught:
        parse(text).evaluate(scope)

    assert says in caught.value.says
    assert remedy in caught.value.remedy


def test_i_means_nothing_outside_a_row():
    with pytest.raises(ArithmeticMistake) as caught:
        parse("i * 3").evaluate({"bay": 650.0})

    assert "count" in caught.value.remedy


def test_brackets_go_fifty_deep_and_no_deeper():
    fits = "(" * NESTING + "1" + ")" * NESTING

    assert parse(fits).evaluate({}) == 1.0
    with pytest.raises(ArithmeticMistake, match="too deep"):
        parse(f"({fits})")


def test_the_same_text_is_the_same_expression_here_and_in_another_process():
    expression = parse("i * bay + 3")

    assert expression.names == ("i", "bay")
    assert pickle.loads(pickle.dumps(expression)) == expression
    assert hash(parse("i * bay + 3")) == hash(expression)
    with pytest.raises(AttributeError):
        expression.text = "4"


@pytest.mark.parametrize("value", [float("nan"), float("inf"), -float("inf")])
def test_a_number_that_is_none_is_no_length(value):
    with pytest.raises(ArithmeticMistake):
        number(value)


def sums():
    """Sums as text together with the same sum in Python, over small whole numbers."""
    leaf = st.integers(1, 99).map(lambda n: (str(n), float(n)))

    def grown(inner):
        return st.tuples(inner, st.sampled_from("+-*"), inner).map(
            lambda t: (f"({t[0][0]} {t[1]} {t[2][0]})", eval(f"{t[0][1]} {t[1]} {t[2][1]}", {}))
        )

    return st.recursive(leaf, grown, max_leaves=12)


@given(sums())
def test_any_sum_comes_to_what_python_makes_of_it(case):
    text, value = case
    assert parse(text).evaluate({}) == pytest.approx(value, rel=1e-12)


@given(st.floats(-1e5, 1e5).map(lambda v: round(v, 3)), st.floats(1.0, 1e5))
def test_a_sum_of_measures_does_not_depend_on_the_job_s_units(value, width):
    in_mm = parse(f"width / 3 + {abs(value)} mm").evaluate({"width": width})
    in_inches = parse(f"width / 3 + {abs(value)} mm").evaluate({"width": width}, "in")

    assert in_mm == pytest.approx(in_inches, abs=1e-6)


@given(st.text(alphabet="0123456789.+-*/() inftmwdbay,_'\"", max_size=30))
def test_any_text_is_either_worked_out_or_refused_in_words(text):
    refused = None
    try:
        value = parse(text).evaluate(SCOPE)
    except ArithmeticMistake as mistake:
        refused = mistake

    assert (refused.says and refused.remedy) if refused else math.isfinite(value)
