"""The maker's own shop file: begun, found by every command, shown; what is not said in it stands there as assumed."""

import dataclasses
import re
import tomllib
from pathlib import Path

import pytest

from dryfit.cli import main
from dryfit.cli.working import shop_of
from dryfit.shop.model import COMMON, PRACTICE, Shop
from dryfit.shop.own import SETTINGS, new_shop_text, own_shop
from dryfit.shop.reading import TOOLS, ShopTable, parse_shop
from tests.joints.typed import board, job

UNCOMMENTED = re.compile(r"^# (?=\[\[|[a-z_]+ = )", re.MULTILINE)


@pytest.fixture
def settings(tmp_path, monkeypatch):
    """A folder for settings that is this test's own; it is not made yet."""
    folder = tmp_path / "own settings"
    monkeypatch.setenv(SETTINGS, str(folder))
    return folder


def test_it_is_kept_in_the_users_settings(monkeypatch):
    """By the convention of this system, which a library of its own knows; never in the folder one happens to be in."""
    monkeypatch.delenv(SETTINGS)
    assert own_shop().is_absolute()
    assert "dryfit" in own_shop().parts
    assert not own_shop().is_relative_to(Path.cwd())


def test_begun_it_says_nothing_and_reads_as_the_default_shop(settings, capsys):
    assert main(["shop", "--new"]) == 0
    path = settings / "shop.toml"
    assert str(path) in capsys.readouterr().out
    assert dataclasses.replace(shop_of(None), file="") == Shop()


def test_begun_twice_it_is_left_as_it_is(settings, capsys):
    settings.mkdir()
    (settings / "shop.toml").write_text("dryfit = 1\n")
    assert main(["shop", "--new"]) != 0
    assert "already exists" in capsys.readouterr().err
    assert (settings / "shop.toml").read_text() == "dryfit = 1\n"


def test_with_its_notes_taken_away_it_says_every_key_of_every_table():
    """Nothing that the file can say is left out of the one that is begun, and all of it can be read."""
    text = UNCOMMENTED.sub("", new_shop_text())
    shop, data = parse_shop(text), tomllib.loads(text)
    assert set(data["shop"]) == set(ShopTable.model_fields)
    assert not shop.assumed
    for word, (model, _, into) in TOOLS.items():
        assert {key for row in data[word] for key in row} == set(model.model_fields)
        assert getattr(shop, into)


def test_every_command_takes_it_unless_another_is_named(settings, tmp_path, capsys):
    settings.mkdir()
    (settings / "shop.toml").write_text(
        'dryfit = 1\n[shop]\nname = "the own one"\n[[bit]]\nname = "thin"\ndiameter = 2\nlength = 90\n'
    )
    other = tmp_path / "other.toml"
    other.write_text('dryfit = 1\n[shop]\nname = "the other one"\n')
    path = tmp_path / "job.toml"
    path.write_text(
        job(
            board("shelf", ((0, 400), (1000, 400)), depth=150),
            "[wall]\nhung = true\nstuds = [200, 600]\n",
            '[[fixing]]\nboard = "shelf"\nkind = "long screw"\nscrew = "M6x120"\nat = [200, 600]\n',
        )
    )
    main(["check", str(path)])
    assert "of the shop's is 2" in capsys.readouterr().out  # of 2 alone no hole for a screw of 6 is bored
    main(["check", str(path), "--shop", str(other)])
    assert "of the shop's is 2" not in capsys.readouterr().out


def test_shown_it_tells_each_tool_and_what_is_assumed(settings, capsys):
    settings.mkdir()
    (settings / "shop.toml").write_text(
        'dryfit = 1\n[shop]\ntrim = 15\n[[router]]\nname = "large"\noffsets = [66.8, "2 5/8 in"]\n'
    )
    assert main(["shop"]) == 0
    said = capsys.readouterr().out
    assert "large: offsets 66.8 and 66.675, nose 12" in said or "large: offsets 66.8 and 66.7, nose 12" in said
    trim, edge = (
        next(line for line in said.splitlines() if line.split()[:1] == [key]) for key in ("trim", "trim_edge")
    )
    assert trim.split() == ["trim", "15"]
    assert "assumed" in edge
    for sort in ("saws", "drills", "bits"):
        assert COMMON[sort] in said
    assert COMMON["routers"] not in said


def test_without_one_the_default_shop_is_shown_and_how_to_begin_ones_own(settings, capsys):
    assert main(["shop"]) == 0
    said = capsys.readouterr().out
    assert "no shop file" in said
    assert "dryfit shop --new" in said
    assert all(key in said for key in PRACTICE)


def test_a_mistake_in_it_is_told_with_its_line(settings, capsys):
    settings.mkdir()
    (settings / "shop.toml").write_text("dryfit = 1\n[shop]\ntrim = 5000\n")
    assert main(["shop"]) != 0
    assert "shop.toml:3" in capsys.readouterr().err
