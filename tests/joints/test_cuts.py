"""What the cuts of every kind say, by their form: what papers and checks go by, as docs/adding-a-joint.md has it.

Looked at in the demos, in the manual's examples and in pairs of boards drawn at random.
"""

import re
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dryfit.book.building import piece_of
from dryfit.book.demos import demo_text, demos
from dryfit.book.reading import read_job_text
from dryfit.geometry.shapes import Bore, HalfSpace, Prism
from dryfit.joints import KINDS
from dryfit.piece.facts import CutForm, Opens
from tests.joints.kinds import PAIRS
from tests.piece.making import meeting_of, options_for, plank
from tests.property.test_volumes_and_gaps import build
from tools.examples import EXAMPLES

PAGE = Path(__file__).parents[2] / "docs" / "adding-a-joint.md"
EDGES = {Opens.FRONT, Opens.WALL}
OPENS = {
    CutForm.SLOT: EDGES,
    CutForm.NOTCH: EDGES,
    CutForm.HOUSING: {Opens.FACE, Opens.END},
    CutForm.REBATE: {Opens.FACE, Opens.END},
    CutForm.END: {Opens.END},
    CutForm.GROOVE: {Opens.END, Opens.FACE},
    CutForm.POCKET: {Opens.END, Opens.FACE},
    CutForm.BISCUIT: {Opens.END, Opens.FACE},
    CutForm.BORE: set(Opens),
}
LET_IN = {CutForm.SLOT, CutForm.NOTCH, CutForm.HOUSING, CutForm.REBATE}


def lacks(cut):
    """What a cut does not say, or says otherwise than its form has it."""
    form, figures, shapes = cut.form, cut.figures, {type(shape) for shape in cut.shapes}
    holds = {
        "opens": figures.opens in OPENS[form],
        "end": bool(cut.end) == (form is CutForm.END),
        "face": (form is not CutForm.HOUSING or cut.face in (-1, 1)) and (form is not CutForm.SLOT or not cut.face),
        "takes": form not in LET_IN | {CutForm.GROOVE, CutForm.POCKET} or bool(cut.takes),
        "width": form not in LET_IN | {CutForm.GROOVE, CutForm.BORE} or figures.width is not None,
        "depth": form not in LET_IN | {CutForm.GROOVE, CutForm.POCKET} or figures.depth is not None,
        "stands": not figures.goes_in or form is CutForm.END,
        "shapes": HalfSpace in shapes if form is CutForm.END else HalfSpace not in shapes,
        "bores": (form is CutForm.BORE) == (shapes == {Bore}),
        "prism": form not in LET_IN or shapes == {Prism},
    }
    return {name for name, held in holds.items() if not held}


def all_say(piece):
    for part in piece.parts:
        for cut in part.cuts:
            if cut.joint is not None:
                assert lacks(cut) == set(), cut


@pytest.mark.parametrize("name", demos())
def test_in_a_demo(name):
    all_say(piece_of(read_job_text(demo_text(name))))


@pytest.mark.parametrize("name", sorted(EXAMPLES))
def test_in_an_example_of_the_manual(name):
    for example in EXAMPLES[name]:
        all_say(piece_of(read_job_text(example.text)))


@settings(max_examples=40)
@given(data=st.data())
@pytest.mark.parametrize("kind", sorted(PAIRS))
def test_in_pairs_of_boards(kind, data):
    all_say(build(data.draw(PAIRS[kind]()).job()))


def test_the_page_tells_of_every_form():
    table = PAGE.read_text(encoding="utf-8").partition("## What a cut says")[2].partition("\n## ")[0]
    assert set(re.findall(r"^\| `(\w+)`", table, re.MULTILINE)) == {form.name for form in CutForm}


@pytest.mark.parametrize(
    ("kind", "boards"),
    [
        ("cross halving", (plank("A", (0, 500), (1000, 500)), plank("B", (500, 0), (500, 1000)))),
        ("housing", (plank("A", (0, 500), (1000, 500)), plank("B", (1000, 0), (1000, 1000)))),
    ],
)
def test_what_enters_and_the_walls_that_take_it_may_be_coated_apart(kind, boards):
    """0.1 on each face of A makes the slot in B 0.2 wider; 0.1 on each wall in A the slot in A: never both."""
    meeting = meeting_of(*boards)

    def widths(**own):
        one = replace(meeting, a=replace(meeting.a, **own))
        joint_kind, options = KINDS[kind], options_for(KINDS[kind], one)
        joint = joint_kind.make(one, options, joint_kind.makings(one, options)[0])
        return {cut.body: cut.figures.across for cut in joint.cuts if cut.takes}

    bare = widths()
    enters = {name: wide + 0.2 * (name == meeting.b.body) for name, wide in bare.items()}
    taken = {name: wide + 0.2 * (name == meeting.a.body) for name, wide in bare.items()}
    assert widths(film=0.1) == pytest.approx(enters)
    assert widths(wall_film=0.1) == pytest.approx(taken)
