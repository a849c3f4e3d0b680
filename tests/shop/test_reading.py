"""The shop file: what it may say, what is assumed where it says nothing, and every mistake with its line."""

import contextlib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryfit.errors import ShopError
from dryfit.shop.model import PRACTICE, Cutter, Shop
from dryfit.shop.reading import parse_shop, read_shop

WHOLE = """\
dryfit = 1

[shop]
name = "Bench by the window"
trim = 15
seconds_a_crossing = 25
paper = "A3"

[[cutter]]
name = "straight 12"
diameter = 11.9
length = 50

[[cutter]]
name = "half inch dovetail"
diameter = "1/2 in"
shape = "dovetail"
"""


def mistakes_of(text):
    with pytest.raises(ShopError) as caught:
        parse_shop(text, "shop.toml")
    return [str(mistake) for mistake in caught.value.mistakes]


def test_a_whole_shop_is_read():
    assert parse_shop(WHOLE) == Shop(
        name="Bench by the window",
        trim=15.0,
        seconds_a_crossing=25.0,
        paper="A3",
        cutters=(
            Cutter(name="straight 12", diameter=11.9, length=50.0),
            Cutter(name="half inch dovetail", diameter=12.7, shape="dovetail"),
        ),
        assumed=(),
        file="shop.toml",
    )


def test_an_empty_file_is_the_default_shop_with_everything_assumed():
    assert parse_shop("", "mine.toml") == Shop(file="mine.toml")
    assert set(Shop().assumed) == set(PRACTICE)
    assert all("practice" in source for source in PRACTICE.values())


def test_what_the_file_leaves_out_is_said_to_be_assumed():
    assert parse_shop("[shop]\ntrim = 12\n").assumed == ("seconds_a_crossing",)


def test_every_mistake_is_told_in_one_run_with_its_line():
    told = mistakes_of(
        "[shop]\n"
        "trimm = 10\n"
        "paper = 'A5'\n"
        "seconds_a_crossing = 0\n"
        "[[cutter]]\n"
        "name = 'straight'\n"
        "diameter = -3\n"
        "[[cutter]]\n"
        "name = 'no diameter'\n"
    )

    assert [line.split(": ", 1)[0] for line in told] == [f"shop.toml:{line}" for line in (2, 3, 4, 7, 8)]
    assert "did you mean trim?" in told[0]
    assert "A5" in told[1]
    assert "more than 0" in told[2]
    assert any("diameter" in line and "missing" in line for line in told)


@pytest.mark.parametrize(
    ("trim", "says"),
    [
        ("-1", "make it at least 0 mm"),
        ("'1 m'", "make it at most 200 mm"),
        ("'width / 2'", "width"),
        ("true", "is no length"),
    ],
    ids=["negative", "a slip of the unit", "no measures here", "no length"],
)
def test_a_trim_that_will_not_do_is_refused(trim, says):
    (told,) = mistakes_of(f"[shop]\ntrim = {trim}\n")
    assert told.startswith("shop.toml:2: ")
    assert says in told


def test_two_cutters_of_one_name_are_refused():
    cutter = "[[cutter]]\nname = 'a'\ndiameter = 6\n"
    (told,) = mistakes_of(cutter + cutter)
    assert told.startswith("shop.toml:5: two cutters have this name")


def test_broken_toml_is_told_and_the_rest_still_read():
    told = mistakes_of("[shop]\ntrim = \n[[cutter]]\nname = 'a'\ndiameter = 0\n")
    assert [line.split(":")[1] for line in told] == ["2", "5"]


@given(
    cut=st.tuples(st.integers(0, len(WHOLE)), st.integers(0, 12)),
    put=st.text(alphabet="[]{}=\"'#.,\n 0123456789-abtruefalse_", max_size=12),
)
def test_whatever_is_typed_into_it_the_answer_is_a_shop_or_its_mistakes(cut, put):
    start, length = cut
    text = WHOLE[:start] + put + WHOLE[start + length :]
    with contextlib.suppress(ShopError):
        shop = parse_shop(text)
        assert 0 <= shop.trim <= 200
        assert all(cutter.diameter > 0 for cutter in shop.cutters)


@pytest.mark.parametrize("bad", [b"\xff\xfe[shop]", None], ids=["no text", "not there"])
def test_a_file_that_cannot_be_read_is_an_error_with_its_name(tmp_path, bad):
    path = tmp_path / "shop.toml"
    if bad is not None:
        path.write_bytes(bad)
    with pytest.raises(ShopError) as caught:
        read_shop(path)
    assert str(path) in str(caught.value)


def test_a_shop_file_is_read_from_disk(tmp_path):
    path = tmp_path / "shop.toml"
    path.write_text(WHOLE, encoding="utf-8")
    assert read_shop(path).name == "Bench by the window"
