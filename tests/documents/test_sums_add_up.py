"""Every sum on paper adds up as it is printed, in mm and in inches: no maker need wonder which of its figures is wrong.

Read off the joints' figures ("24 + clearance 0.15" beside "24.15") and the parts' notes ("Length 790 = 776 between
shoulders + 2 × 7.0"), of the demos, the manual's examples and irregular pieces of the bench.
"""

import math
import re
from dataclasses import replace
from fractions import Fraction

import pytest

from bench.layouts import layout
from dryfit.book import build, read_job_text
from dryfit.book.demos import demo_text, demos
from dryfit.documents.looks import Desk
from dryfit.documents.naming import printing_in
from dryfit.documents.sheets.joint.figures.printed import figures
from dryfit.documents.sheets.joint.roles import Roles, lettered
from dryfit.documents.sheets.part.words.sums import sums
from dryfit.piece.facts import Opens
from dryfit.piece.model import placed
from dryfit.piece.sums import Sum, Term, Word
from dryfit.sentences import Voice, told
from tests.documents.sums_in_words import FIGURE, SIGN, added, value
from tools.examples import EXAMPLES

JOBS = {name: demo_text(name) for name in demos()}
JOBS |= {f"{kind} {number}": one.text for kind, some in EXAMPLES.items() for number, one in enumerate(some)}
JOBS |= {shape: layout(shape, 12).text() for shape in ("bays", "ring", "star")}


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
                said = lettered(desk, row.sum, bare=True)
                terms, _, total = said.partition(" = ")
                if not SIGN.search(terms) or (sum_of := added(terms)) is None:
                    continue
                if total:
                    assert sum_of == value(total), (joint.key, row)
                    assert abs(value(total) - value(row.value)) <= Fraction(1, 20), "rounded, to its step at most"
                elif str(row.what).startswith("at most"):
                    assert 0 <= sum_of - value(row.value) < Fraction(1, 10), (joint.key, row)
                else:
                    assert sum_of == value(row.value), (joint.key, row)
        for look in desk.looks.values():
            for said in sums(look):
                whole = re.search(rf"({FIGURE}) = (.*)\.$", said)
                if whole and ":" not in said:  # what is scribed begins with the sum and ends with what it comes to
                    assert added(whole[2].replace("short points ", "")) == value(whole[1]), (look.part.id, said)


@pytest.mark.parametrize("name", JOBS)
def test_a_width_by_the_sine_and_a_shift_by_the_tangent_come_to_what_is_printed_beside_them(name):
    """As one works it out from what is printed: 24.08 / sin 82° = 24.317, set to 24.30; 24.1 / tan 82° = 3.39 is 3.4.

    An angle is printed to 0.05 degrees, which at most changes a length of t by t x 0.025 degrees / sin² of it.
    """
    desk = Desk(build(read_job_text(JOBS[name])))
    with printing_in("mm"):
        for joint in desk.book.piece.joints:
            for row in figures(Roles.of(desk, joint)):
                said = re.fullmatch(r"([\d.]+) / (sin|tan) ([\d.]+)°", lettered(desk, row.sum, bare=True))
                if said:
                    size, lean = float(said[1]), math.radians(float(said[3]))
                    worked = size / (math.sin if said[2] == "sin" else math.tan)(lean)
                    step = 0.05 if said[2] == "sin" else 0.1
                    angle = size * math.radians(0.025) / math.sin(lean) ** 2
                    assert abs(worked - float(row.value)) <= step / 2 + 0.005 / math.sin(lean) + angle, (joint.key, row)


@pytest.mark.parametrize("name", JOBS)
def test_what_a_sum_comes_to_is_what_is_cut(name):
    """Depths and stops are seen in the shapes, from the edge they are told from; widths on the face, by the lean."""
    seen = 0
    for part in build(read_job_text(JOBS[name])).piece.parts:
        for cut in (cut for cut in part.cuts if not cut.end and not cut.form.in_rows):
            figures, whole = cut.figures, part.board.depth
            for shape in cut.shapes:  # several of a cut are alike
                if figures.opens.edge:
                    deep = deep_in(shape, figures.opens, whole)
                    assert figures.depth.total == pytest.approx(deep, abs=1e-6), cut.key
                for stop in figures.stops if cut.face else ():
                    short = whole - shape.high if stop.edge is Opens.FRONT else shape.low
                    assert stop.size.total == pytest.approx(short, abs=1e-6), cut.key
            if figures.on_face is not None:
                across = figures.on_face * math.cos(math.radians(figures.lean))
                assert figures.width.total == pytest.approx(across, abs=1e-6), cut.key
            seen += 1
    assert seen or name.startswith(("butt", "mitre", "long screw", "finger joint", "splice")), "looked at something"


def deep_in(shape, opens, whole):
    """From an edge to the floor of what opens to it."""
    return whole - shape.low if opens is Opens.FRONT else shape.high


def test_a_size_that_is_a_share_of_another_adds_up_and_says_of_what():
    """Half of 300 and half of a gap of 1: 150.5 from the front. In inches 5 58/64 and 1/64 come to 5 59/64."""
    half = Sum("", (Term(Word.COMMON, 150.0, share=(0.5, 300.0)), Term(Word.HALF_GAP, 0.5)))
    assert str(placed(half, "mm")) == "150 (half of 300) + half the gap 0.5"
    inches = told(placed(half, "in"), Voice("in", bare=True))
    assert inches == "5 29/32 (half of 11 13/16) + half the gap 1/64"
    assert added(inches) == Fraction(5) + Fraction(59, 64)
    third = Sum("", (Term(Word.SET_BACK, 12.0), Term(Word.COMMON, 90.0, share=(0.3, 300.0))))
    assert str(placed(third, "mm")) == "12 set back + 90 (0.3 of 300)"


def test_what_is_made_up_of_nothing_says_so_or_nothing():
    assert placed(Sum.alone(12.0), "mm") == ""
    assert placed(Sum.alone(12.0, Word.AS_CUT), "mm") == "as cut"
    assert str(placed(Sum.alone(12.0, Word.STOP), "mm")) == "12 short of the edge"
