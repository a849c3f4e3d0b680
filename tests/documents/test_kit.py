"""The drawing kit: what is placed is free, what is not is told, a sum wraps at its signs, a sheet is short to write."""

import ast
import re
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from dryfit.book import build, read_job_text
from dryfit.book.demos import demo_text, demos
from dryfit.documents.display import Display, Stroke, Text
from dryfit.documents.faults import faults
from dryfit.documents.kit import label
from dryfit.documents.kit.label import SIGNS, Label, lines_of, pieces_of
from dryfit.documents.kit.placing import FilledPaper
from dryfit.documents.kit.view import View, place
from dryfit.documents.lettering import unkept, width
from dryfit.documents.looks import Desk
from dryfit.documents.naming import position, printing_in
from dryfit.documents.sheet import SHEETS
from dryfit.documents.sheets.joint.groups import alike
from dryfit.documents.sheets.joint.layout import titled, views
from dryfit.documents.sheets.page.frame import finished
from dryfit.piece.sums import Sum, Term, Word
from dryfit.sentences import Fineness, Length, Voice, say, told
from tests.documents import sheet_of_a_study
from tests.documents.sheet_of_a_study import heights

KIND = SHEETS.pop("heights")  # registered by its standing there; no paper of the package's has it
terms = st.builds(Term, st.sampled_from(list(Word)), st.floats(-40, 40), st.integers(1, 3))
sums = st.builds(
    lambda first, others: Sum("shelf 2", (replace(first, times=1), *others)),
    terms,
    st.lists(terms, min_size=1, max_size=6),
)


@given(sums, st.sampled_from(["mm", "in"]), st.floats(5, 120))
def test_a_long_sum_wraps_at_its_signs_and_loses_nothing(told_sum, units, room):
    sentence = told_sum.sentence(Fineness.WIDTH, units, named=True)
    assume(sentence.form in SIGNS)  # of what prints as nothing no term is left
    lines = lines_of(sentence, Voice(), room)

    assert " ".join(lines) == told(sentence, Voice())
    assert all(re.match(r"(\+|less) ", line) for line in lines[1:]), "each line after the first begins with a sign"
    for line in lines:
        terms_in = len(re.findall(r"(?:^| )(?:\+|less) ", line[1:])) + 1
        assert width(line, 2.5) <= room or terms_in == 1, "only a single term may be wider than the room"


@given(
    st.lists(st.tuples(st.floats(20, 180), st.floats(20, 180)), min_size=1, max_size=12),
    st.lists(st.tuples(st.floats(20, 180), st.floats(20, 180)), min_size=2, max_size=8),
)
def test_what_is_placed_meets_nothing_and_what_is_not_is_told(places, line):
    wood = Stroke(points=tuple(line), pen="outline", layer="wood")
    labels = tuple(Label(says=f"word {number}", at=(place,)) for number, place in enumerate(places))
    placed = place(View(title="", wood=(wood,), labels=labels), (400.0, 400.0), Voice())

    found = faults(Display(width=900, height=900, items=tuple(placed.items)))
    assert [fault for fault in found if "off the sheet" not in fault] == []
    shown = {item.text for item in placed.items if isinstance(item, Text)}
    assert {one.says for one in labels} == shown | set(placed.unplaced)


def test_words_that_find_no_room_are_unplaced():
    paper = FilledPaper()
    paper.block(-500.0, -500.0, 500.0, 500.0)

    assert not label.put(paper, Label(says="nowhere", at=((0.0, 0.0),)), Voice())
    assert paper.items == []


@pytest.mark.parametrize("units", ["mm", "in"])
@pytest.mark.parametrize("demo", demos())
def test_no_view_of_a_demo_s_joints_leaves_anything_unplaced(demo, units):
    job = replace(read_job_text(demo_text(demo)), units=units)
    desk = Desk(build(job))
    with printing_in(units):
        lacking = [
            (view.title, view.unplaced)
            for group in alike(desk)
            for view in titled(desk, views(desk, group.first))
            if view.unplaced
        ]

    assert lacking == []


# --- a sheet of a study, as a template ---------------------------------------------------------------------------


@pytest.mark.parametrize("demo", demos())
def test_a_table_beside_a_drawing_is_a_short_sheet(demo):
    book = build(read_job_text(demo_text(demo)))
    desk = Desk(book)
    with printing_in(book.job.units):
        (draft,) = heights(desk)
        display = finished(draft, 1, 1, desk)
        wanted = {position(y - desk.bounds[1]) for _, y in sheet_of_a_study._levels(desk)}

    assert faults(display) == []
    words = {item.text for item in display.items if isinstance(item, Text)}
    assert wanted <= words, "each different height stands where it is drawn"
    assert KIND.make is heights


def test_it_takes_under_eighty_lines():
    source = Path(sheet_of_a_study.__file__).read_text(encoding="utf-8")
    lines = [line for line in source.splitlines() if line.strip() and not line.lstrip().startswith("#")]

    assert ast.get_docstring(ast.parse(source))
    assert len(lines) < 80


def test_a_figure_that_stands_over_the_width_leaves_words_inside_their_room():
    """Figures at the end of a line are spread past it: it is wider than it may be, and words inside still fit."""
    paper = FilledPaper(100.0)
    paper.draw([Text(at=(90.0, 10.0), text="a figure that goes on")])
    assert paper.right - paper.left < 100.0 < paper.right

    paper.draw([Text(at=(0.0, 10.0), text="datum")])
    assert paper.right - paper.left > 100.0
    assert paper.place([[Text(at=(40.0, 20.0), text="inside")]])
    assert not paper.place([[Text(at=(120.0, 30.0), text="further out")]])


# --- words that wrap -----------------------------------------------------------------------------


def test_a_sum_wraps_at_its_signs_wherever_in_a_sentence_it_stands():
    """The half of 298.45 and half of a gap of 1: what is told before the sum wraps at its spaces, a term never."""
    sized = say("{} (half of {})", Length(149.225, Fineness.WIDTH), Length(298.45, Fineness.WIDTH))
    says = say("{}: {}", "from the edge it opens to", say("{} + {}", sized, say("half the gap {}", Length(0.5))))

    pieces = [unkept(piece) for piece in pieces_of(says, Voice())]

    assert pieces == ["from", "the", "edge", "it", "opens", "to:", "149.25 (half of 298.45)", "+ half the gap 0.5"]
    assert " ".join(pieces) == says.said(Voice())
