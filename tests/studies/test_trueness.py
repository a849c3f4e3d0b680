"""How true what hangs first must be, from the job file on.

Two level boards of 24 at 200 and 1000 are fixed to the wall; a board at 75 degrees, halved into both with 0.15 of play,
is put in last. Worked case S20: it binds at 0.659 and 0.696 over 800.
"""

import math

import pytest

from dryfit.book import build, read_job_text
from dryfit.studies.trueness.result import Trueness

HEAD = 'dryfit = 1\n[timber.oak]\nspecies = "oak, European"\nform = "panel"\nthickness = 24\n'
WALL = '[wall]\nkind = "timber studs"\nlining = 0\nhollow = {}\nhung = true\nstuds = [100, 1500]\n'


def level(name, y):
    line = f"[[0, {y}], [1600, {y}]]"
    return (
        f'[[board]]\nname = "{name}"\ntimber = "oak"\nline = {line}\ndepth = 280\nplace = "first"\n'
        f'[[fixing]]\nboard = "{name}"\nkind = "long screw"\nat = [100, 1500]\nscrew = "wood 5x120"\n'
    )


def raking(name, x, place='place = "last"\n'):
    run = 1200 / math.tan(math.radians(75))
    line = f"[[{x}, 0], [{x + run:.6f}, 1200]]"
    return f'[[board]]\nname = "{name}"\ntimber = "oak"\nline = {line}\ndepth = 280\n{place}'


def book_of(more="", hollow=0):
    boards = level("low", 200) + level("high", 1000) + raking("raking", 400)
    return build(read_job_text(HEAD + WALL.format(hollow) + more + boards))


def measured(differ, wide=1600.0, high=1400.0):
    """Diagonals of a rectangle whose sides are unchanged, the rising one longer by so much."""
    mean = math.sqrt(wide**2 + high**2 - (differ / 2) ** 2)
    ends = f"rising = {mean + differ / 2:.6f}\nfalling = {mean - differ / 2:.6f}\n"
    return f"[diagonals]\nwidth = {wide}\nheight = {high}\n{ends}"


def racked(book):
    return [finding for finding in book.findings if finding.code == "racked"]


def entry_of(book):
    (entry,) = [one for one in book.found(Trueness).entries if "raking" in one.parts]
    return entry


def test_s20_a_halved_board_binds_at_a_sixth_of_what_a_housed_one_does():
    entry = entry_of(book_of())

    assert (entry.joints, entry.halved, set(entry.base)) == (2, True, {"low", "high"})
    assert [entry.right * 800, entry.left * 800] == pytest.approx([0.659, 0.696], abs=0.01)


def test_s21_a_base_that_leans_too_far_is_a_stop_and_one_that_stands_true_is_none():
    (stop,) = racked(book_of(measured(6.0)))

    assert (stop.severity, stop.where.path) == ("stop", ("diagonals", "rising"))
    assert stop.found == pytest.approx(3.986, abs=0.001)
    assert "would need 0.52 of play and has 0.15" in str(stop.says)
    assert racked(book_of(measured(0.0))) == []


@pytest.mark.parametrize(("share", "severity"), [(0.45, None), (0.55, "warn"), (0.95, "warn"), (1.05, "stop")])
def test_over_half_of_the_limit_is_a_warning(share, severity):
    limit = entry_of(book_of()).right
    differ = 2 * 1600 * (share * limit * 1400) / math.hypot(1600, 1400)

    assert [one.severity for one in racked(book_of(measured(differ)))] == ([severity] if severity else [])


def test_a_level_is_not_fine_enough_for_a_halved_raking_board():
    """Half of 0.00082 is under 0.0005."""
    codes = [finding.code for finding in book_of().findings]

    assert "truer-than-a-level" in codes


def test_a_hollow_wall_turns_the_slots_of_what_follows_it():
    """3 in 1600: 4 x 3 / 1600; two joints of 0.15 over 280 bear 0.3 / (280 sin 75) in plan."""
    book = book_of(hollow=3)

    assert book.found(Trueness).hollow_turns == pytest.approx(0.0075)
    assert entry_of(book).plan == pytest.approx(0.3 / 280 / math.sin(math.radians(75)))


def test_of_a_piece_that_does_not_hang_nothing_is_asked():
    text = (HEAD + level("low", 200) + raking("raking", 400)).split("[[fixing]]")
    book = build(read_job_text(text[0] + raking("raking", 400)))

    assert book.found(Trueness).entries == ()
    assert not [one for one in book.not_checked if one.study == "trueness"]
