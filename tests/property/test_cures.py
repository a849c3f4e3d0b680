"""Remedies cure: whatever a finding offers, done by machine, ends it or makes it less, and brings no stop.

Faulty pieces are drawn at random (`faulty.py`); every cure that is offered is made on the text of the job, and its book
built, once where several findings offer the same, on the bench of the piece: a kept build equals one from nothing
(`test_incremental.py`). What it would in its turn offer is not asked, so it tries none. What a remedy says in figures
is read here out of its sentence, as a maker would, and must lie on the right side of the finding's limit: who does what
is said has done enough.
"""

import re
from collections import Counter
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryfit.book import Kept, build, change_job_text, read_job_text
from dryfit.findings import Severity, printed
from dryfit.sentences import Fineness, Length, On, Voice
from dryfit.sentences import told as in_words
from tests.fewer import counted

from .faulty import FAMILIES

# ---- cures

GRAVE = [Severity.NOTE, Severity.WARN, Severity.STOP]


def of_one_thing(finding):
    """What a finding is about: another with the same is the same finding in another piece."""
    where = finding.where
    return finding.code, frozenset(where.boards), where.joint, where.cut, where.fixing


def as_bad(now, before):
    """Whether a finding is no less than it was."""
    grave, was = GRAVE.index(now.severity), GRAVE.index(before.severity)
    if grave != was or None in (now.found, now.limit, before.found, before.limit):
        return grave >= was
    return abs(now.found - now.limit) >= abs(before.found - before.limit) - 1e-9


def stops(book):
    return Counter((stop.code, frozenset(stop.where.boards)) for stop in book.stops)


def brought(after, before):
    """Stops that were not there. Of boards that hold one another some may still do so, among others."""
    return [
        (code, boards)
        for code, boards in after - before
        if code not in ("locked", "no-order") or not any(code == was and len(boards & old) > 1 for was, old in before)
    ]


LARGE = ("shelving", "flat", "nodes")


@pytest.mark.parametrize(
    "family", [pytest.param(name, marks=pytest.mark.slow) if name in LARGE else name for name in FAMILIES]
)
def test_every_cure_ends_its_finding_or_makes_it_less_and_brings_no_stop(family):
    offered = Counter()

    @counted(25)
    @given(text=FAMILIES[family]())
    def each(text):
        bench, books = Kept(), {}
        book = build(read_job_text(text), bench=bench)
        for finding in book.findings:
            for cure in finding.cures:
                cured, _ = change_job_text(text, cure.edits)
                if cured not in books:
                    books[cured] = build(replace(read_job_text(cured), text=""), bench=bench)
                after = books[cured]
                same = [one for one in after.findings if of_one_thing(one) == of_one_thing(finding)]
                assert not [one for one in same if as_bad(one, finding)], (finding.says, cure.label, cured)
                assert not brought(stops(after), stops(book)), (finding.says, cure.label, cured)
                offered[finding.code] += 1

    each()
    assert len(offered) > 2, "the pieces are faulty, and have cures"
    assert family != "shelving" or offered["short-grain"]


def test_a_cure_that_would_bring_a_stop_is_not_offered():
    """Board a shifted up by 84.5 would clear the node, and come so near to d that only 16.6 is left in c."""
    boards = {"a": [[0, 500], [1000, 500]], "b": [[500, 0], [500, 1000]], "c": [[0, 150], [1000, 850]]}
    text = '[timber.t]\nspecies = "oak, white"\nthickness = 24\n'
    for name, line in {**boards, "d": [[620, 0], [620, 1000]]}.items():
        text += f'[[board]]\nname = "{name}"\nline = {line}\ndepth = 300\n'

    def shifts(text):
        (node,) = [one for one in build(read_job_text(text)).findings if one.code == "three-boards-pass"]
        return {str(cure.label).partition(":")[0] for cure in node.cures}

    assert "a" in shifts(text.replace("620", "820"))
    assert "a" not in shifts(text)


# ---- remedies

FIGURE = r"(\d+ \d+/\d+|\d+/\d+|\d+(?:\.\d+)?)( in)?"
ENOUGH = [rf"at least {FIGURE}", rf"{FIGURE} or more", rf"until {FIGURE} is left", rf"the crossing by {FIGURE}"]
NO_MORE = [rf"no deeper than {FIGURE}", rf"within {FIGURE}"]
OTHER_FIGURES = {
    "thin-web": "the two depths together, where the limit is what stays between them",
    "weak-place-to-divide": "twice the thickness, where the limit may be a third of the bay",
    "screw-too-short": "the length of a screw, where the limit is the grip",
}


def told(match):
    """A figure of a sentence, in mm."""
    number, inch = match.groups()
    parts = [part.split("/") for part in number.split()]
    value = sum(float(part[0]) / (float(part[1]) if len(part) > 1 else 1.0) for part in parts)
    return value * 25.4 if inch else value


def wrong_sides(finding, units):
    """The figures of a remedy with which a maker would not have done enough."""
    if finding.code in OTHER_FIGURES or finding.limit is None or finding.unit != "mm":
        return []
    remedy = in_words(finding.remedy, Voice(units))
    least = [told(match) for pattern in ENOUGH for match in re.finditer(pattern, remedy)]
    most = [told(match) for pattern in NO_MORE for match in re.finditer(pattern, remedy)]
    low, high = finding.limit - 1e-4, finding.limit + 1e-4  # the printed thousandth of an inch has the float's slack
    return [figure for figure in least if figure < low] + [figure for figure in most if figure > high]


@pytest.mark.parametrize("units", ["mm", "in"])
@pytest.mark.parametrize("family", FAMILIES)
def test_no_figure_of_a_remedy_lies_on_the_wrong_side_of_its_limit(family, units):
    seen = Counter()

    @counted(30)
    @given(text=FAMILIES[family]())
    def each(text):
        job = replace(read_job_text(text), units=units, text="")  # lengths are worked out: only words are in inches
        for finding in build(job).findings:
            assert not wrong_sides(finding, units), (finding.remedy, finding.limit)
            seen[finding.code] += bool(re.search(FIGURE, str(finding.remedy)))

    each()
    assert sum(seen.values()) > 10


STEPS = {
    Fineness.WHOLE: (1.0, 64),
    Fineness.PLACE: (0.1, 64),
    Fineness.WIDTH: (0.05, 1000),
    Fineness.FINE: (0.01, 1000),
}


@given(limit=st.floats(0.001, 5000), step=st.sampled_from(Fineness), units=st.sampled_from(["mm", "in"]))
def test_what_is_told_as_a_least_is_never_under_its_limit_and_hardly_over_it(limit, step, units):
    mm, parts = STEPS[step]
    size = mm if units == "mm" else 25.4 / parts
    least, most = (
        told(re.match(rf"{FIGURE}$", Length(limit, step, side).said(Voice(units)))) for side in (On.UP, On.DOWN)
    )

    assert limit - 1e-5 * size <= least < limit + size * (1 + 1e-5)
    assert limit - size * (1 + 1e-5) < most <= limit + 1e-5 * size


def test_75_2_wants_76_and_in_inches_the_next_64th():
    """75.2 / 25.4 is 2.9606 inches: 2 61/64 are 75.01 and too little, 2 62/64 are 75.41."""
    up, down = Length(75.2, Fineness.WHOLE, On.UP), Length(75.2, Fineness.WHOLE, On.DOWN)
    assert [up.said(Voice()), down.said(Voice())] == ["76", "75"]
    assert [up.said(Voice("in")), down.said(Voice("in"))] == ["2 31/32 in", "2 61/64 in"]
    assert Length(76.0, Fineness.WHOLE, On.UP).said(Voice()) == "76"
    assert printed(12.04, "-", "mm") == 12.0
    assert printed(25.4 * 3 / 64 + 0.1, "-", "in") == pytest.approx(3 / 64, abs=1e-6)
