"""Every sum on paper adds up as it is printed, in mm and in inches: no maker need wonder which of its figures is wrong.

Read off the joints' figures ("24 + clearance 0.15" beside "24.15") and the parts' notes ("Length 790 = 776 between
shoulders + 2 × 7.0"), of the demos, the manual's examples and irregular pieces of the bench.
"""

import re
from dataclasses import replace
from fractions import Fraction

import pytest

from bench.layouts import layout
from dryfit.book import build, read_job_text
from dryfit.book.demos import demo_text, demos
from dryfit.documents.looks import Desk
from dryfit.documents.manual_examples import EXAMPLES
from dryfit.documents.naming import printing_in
from dryfit.documents.sheets.joint.figures.printed import figures
from dryfit.documents.sheets.joint.roles import Roles
from dryfit.documents.sheets.part.words.sums import sums
from dryfit.piece.sums import Sum

JOBS = {name: demo_text(name) for name in demos()}
JOBS |= {f"{kind} {number}": one.text for kind, some in EXAMPLES.items() for number, one in enumerate(some)}
JOBS |= {shape: layout(shape, 12).text() for shape in ("bays", "ring", "star")}
FIGURE = r"(?:\d+ )?\d+/\d+|\d+(?:\.\d+)?"  # "28 59/64", "7/8", "24.15"
SIGN = re.compile(r" (\+|−|less) ")


def value(text):
    whole, _, part = text.rpartition(" ")
    return Fraction(part) + (Fraction(whole) if whole else 0)


def added(text):
    """What a printed sum comes to, remarks in brackets left out; None for a product or an angle, which is no sum."""
    text = re.sub(r" \(.*?\)(?: and)?", "", text)
    if re.search(r"half|sin|tan|(?<!\d) ×|× \D|°|\.\d+ ×", text):
        return None
    total = Fraction(0)
    for sign, term in zip(["+", *SIGN.findall(text)], SIGN.split(text)[::2], strict=True):
        times, figure = re.search(rf"(?:(\d+) × )?(?:^|[^\d]*?)({FIGURE})", term).groups()
        total += (1 if sign == "+" else -1) * int(times or 1) * value(figure)
    return total


def test_it_is_read_as_a_maker_adds():
    assert added("24 + film 0.15 + clearance 0.15") == Fraction("24.3")
    assert added("776.0 between shoulders + 2 × 7.0 (8.0 deep less 1.0)") == 790
    assert added("11 3/4 to the face + 15/64") == 11 + Fraction(63, 64)
    assert added("280 wide less grip 60") == 220
    assert added("half of 300") is None
    assert added("383.6 between shoulders + 7.2 + 6.8 (7.0 at 75.7°) and (6.5 at 72.2°)") == Fraction("397.6")


@pytest.mark.parametrize("units", ["mm", "in"])
@pytest.mark.parametrize("name", JOBS)
def test_every_sum_adds_up_as_printed(name, units):
    job = replace(read_job_text(JOBS[name]), units=units)
    desk = Desk(build(job))
    with printing_in(units):
        for joint in desk.book.piece.joints:
            for row in figures(Roles.of(desk, joint)):
                if SIGN.search(row.sum) and (total := added(row.sum)) is not None:
                    assert total == value(row.value), (joint.key, row)
        for look in desk.looks.values():
            for said in sums(look):
                whole = re.search(rf"({FIGURE}) = (.*)\.$", said)
                if whole and ":" not in said:  # what is scribed begins with the sum and ends with what it comes to
                    assert added(whole[2].replace("short points ", "")) == value(whole[1]), (look.part.id, said)


@pytest.mark.parametrize("name", JOBS)
def test_what_a_sum_comes_to_is_what_is_cut(name):
    """Of a width between walls, or of how far an end goes in."""
    cuts = [cut for part in build(read_job_text(JOBS[name])).piece.parts for cut in part.cuts]
    for cut in cuts:
        if isinstance(cut.figures.sum, Sum):
            sizes = [size for size in (cut.figures.across, cut.figures.deep) if size is not None]
            assert min(abs(cut.figures.sum.total - size) for size in sizes) < 1e-6, cut.key
