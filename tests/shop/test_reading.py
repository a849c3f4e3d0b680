"""The shop file: what it may say, what is assumed where it says nothing, and every mistake with its line."""

import contextlib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryfit.errors import ShopError
from dryfit.shop.model import PRACTICE, Bit, Cutter, Drill, Driver, Groover, Router, Saw, Shop
from dryfit.shop.reading import parse_shop, read_shop

WHOLE = """\
dryfit = 1

[shop]
name = "Bench by the window"
trim = 15
trim_edge = 3
spare_boards = 1
seconds_a_crossing = 25
seconds_to_spread = 8
seconds_a_clamp = 15
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
        trim_edge=3.0,
        spare_boards=1,
        seconds_a_crossing=25.0,
        seconds_to_spread=8.0,
        seconds_a_clamp=15.0,
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
    assert all("practice" in str(source) or "memory" in str(source) for source in PRACTICE.values())


def test_what_the_file_leaves_out_is_said_to_be_assumed():
    paces = ("seconds_a_crossing", "seconds_to_spread", "seconds_a_clamp")
    assert parse_shop("[shop]\ntrim = 12\n").assumed == ("trim_edge", *paces)


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
        ("true", "is not a length"),
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


# ---- tools

TOOLS = """\
[[router]]
name = "large router"
offsets = [66.8, "68.1 mm"]
nose = 12
reach = 60
collets = [8, "1/2 in"]

[[cutter]]
name = "dovetail 14"
diameter = 12.7
length = 14
shape = "dovetail"
slope = 14
shank = 8
overall = 60
stick_out = 30
bearing = 9.5

[[saw]]
name = "track saw"
kerf = 1.8
depth = 55
tilt = 47
drift = -0.8
lean = 0.6

[[groover]]
name = "groover"
diameter = 105
kerf = 3.9
plunge = "3/4 in"

[[drill]]
name = "drill"
chuck = 35

[[bit]]
name = "long 15"
diameter = 15
length = 460

[[driver]]
name = "extended"
length = "12 in"
"""


def test_every_tool_is_read_with_its_lengths_in_mm():
    shop = parse_shop(TOOLS)

    assert shop.routers == (
        Router(name="large router", offsets=(66.8, 68.1), nose=12.0, reach=60.0, collets=(8.0, 12.7)),
    )
    assert shop.cutters == (
        Cutter(
            name="dovetail 14",
            diameter=12.7,
            length=14.0,
            shape="dovetail",
            shank=8.0,
            overall=60.0,
            stick_out=30.0,
            slope=14.0,
            bearing=9.5,
        ),
    )
    assert shop.saws == (Saw(name="track saw", kerf=1.8, depth=55.0, tilt=47.0, drift=-0.8, lean=0.6),)
    assert shop.groovers == (Groover(name="groover", diameter=105.0, kerf=3.9, plunge=19.05),)
    assert (shop.drills, shop.bits) == (
        (Drill(name="drill", chuck=35.0),),
        (Bit(name="long 15", diameter=15.0, length=460.0),),
    )
    assert shop.drivers == (Driver(name="extended", length=304.8),)


def test_what_a_tool_s_table_leaves_out_is_as_a_small_shop_has_it():
    assert parse_shop("[[saw]]\nname = 's'\n").saws == (Saw(name="s"),)
    assert parse_shop("[[router]]\nname = 'r'\n").routers == (Router(name="r"),)


@pytest.mark.parametrize("word", ["router", "cutter", "saw", "groover", "drill", "bit", "driver"])
def test_a_key_that_no_tool_has_and_two_of_one_name_are_told_with_their_lines(word):
    needed = {"cutter": "diameter = 6\n", "bit": "diameter = 6\nlength = 100\n", "driver": "length = 100\n"}
    more = needed.get(word, "")
    one = f"[[{word}]]\nname = 'a'\n{more}"
    told = mistakes_of(f"{one}speed = 3\n{one}")
    lines = 3 + more.count("\n")

    assert told[0].startswith(f"shop.toml:{lines}: ")
    assert f"is not a key of [[{word}]]" in told[0]
    assert told[1].startswith(f"shop.toml:{lines + 2}: two {word}s have this name")


@pytest.mark.parametrize(
    ("table", "says"),
    [
        ("[[bit]]\nname = 'b'\ndiameter = '1 m'\nlength = 100\n", "make it at most 200 mm"),
        ("[[bit]]\nname = 'b'\ndiameter = 8\nlength = '3 m'\n", "make it at most 2000 mm"),
        ("[[saw]]\nname = 's'\nkerf = 0\n", "make it more than 0 mm"),
        ("[[saw]]\nname = 's'\ntilt = 120\n", "make it at most 90"),
        ("[[saw]]\nname = 's'\ndrift = 30\n", "make it at most 20 mm"),
        ("[[router]]\nname = 'r'\noffsets = [66.8]\n", "offsets"),
        ("[[router]]\nname = 'r'\noffsets = [66.8, -1]\n", "make it more than 0 mm"),
        ("[[cutter]]\nname = 'c'\ndiameter = 12\nslope = 70\n", "make it at most 60"),
        ("[[cutter]]\nname = 'c'\ndiameter = 12\nshape = 'square'\n", "shape"),
        ("[router]\nname = 'r'\n", "write [[router]]"),
        ("[[bit]]\nname = 'b'\ndiameter = 8\n", '"length" is missing'),
    ],
)
def test_what_cannot_be_of_a_tool_is_told_with_its_bound(table, says):
    told = mistakes_of(table)

    assert all(one.startswith("shop.toml:") for one in told)
    assert says in " ".join(told)
