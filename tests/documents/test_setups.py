"""Set-ups shared over a job: what one guide makes has one name, a guide for the other hand has another.

The record wall: four level shelves are crossed by raking 1, 8 degrees to the right, and cross it; shelf and raking
board are both 24.1 thick and slotted half the common depth, so all eight slots are 24.25 across, 150.5 deep, and one
leaning guide makes them. Raking 2 leans the other way: its guide is another.
"""

import json
import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import dryfit
from dryfit.book import build
from dryfit.book.building import scene_of
from dryfit.book.demos import demo_text
from dryfit.book.reading import read_job_text
from dryfit.documents.bookjson import book_json
from dryfit.documents.looks import Desk
from dryfit.documents.naming import printing_in
from dryfit.documents.pins import pins_of
from dryfit.documents.sheets.lists.setups import used_words
from dryfit.documents.sheets.part.words.cuts import whole_rows
from dryfit.documents.sheets.part.words.setups import how_made, setups
from dryfit.piece.leaning import head
from dryfit.piece.operations import WorkSort
from dryfit.piece.setout import Made
from dryfit.studies.setups import SetUpsStudy
from dryfit.study.base import Work as Report
from dryfit.study.outcome import Done
from tests.documents import samples
from tests.joints.typed import board, book_of, job, joint, table

DEMOS = ("record-wall", "sample-grid", "step-shelf")


def named(found):
    """The names of the set-ups that make each cut."""
    return {key: tuple(one.name for one in some) for key, some in found.of.items()}


def read(name, more=""):
    return dryfit.build(read_job_text(demo_text(name) + more, f"{name}.toml"))


@pytest.fixture(scope="module")
def books():
    return {name: read(name) for name in DEMOS}


def worked_out(book):
    """The set-ups alone, without the slower studies."""
    study = SetUpsStudy()
    return study.run(study.reads(scene_of(book.job, book.shop, book.piece, book.solids)), Report())


def made(book):
    with printing_in(book.job.units):
        return setups(Desk(book))


# ---- which way the head of a leaning wall leans


def as_seen(lean, opens, up):
    """By vectors: looking along the cut from its open edge, the face at c = `up` up, where walls go as they go up.

    The board's frame is right-handed (a, c, d). The eye's right is (away from the eye) x (up).
    """
    away, upwards = (0.0, 0.0, -1.0 if opens == "front edge" else 1.0), (0.0, up, 0.0)
    right = away[1] * upwards[2] - away[2] * upwards[1]  # only a is not 0
    moves = up * math.tan(math.radians(lean))  # along a, for one step up
    return "RIGHT" if moves * right > 0 else "LEFT"


@pytest.mark.parametrize("lean", [-30.0, -9.0, 9.0, 30.0])
@pytest.mark.parametrize("opens", ["front edge", "wall edge"])
@pytest.mark.parametrize("face_side", [1, -1])
def test_the_head_leans_as_is_seen_and_turning_the_board_end_for_end_keeps_it(lean, opens, face_side):
    low, high = (165.0, 331.0) if opens == "front edge" else (-1.0, 165.0)
    cut = samples.slot("b", "other", 500.0, lean, low, high, opens)
    part = samples.Part(
        board=samples.board("b", (0.0, 0.0), 0, 1000.0, face_side=face_side),
        mark="A",
        blank=samples.Blank(start=0.0, end=1000.0, width=330.0, thickness=24.0),
        long=(0.0, 1000.0),
        short=(0.0, 1000.0),
        cuts=(cut,),
    )

    assert head(lean, cut.shapes[0], part.board) == as_seen(lean, opens, 1) == as_seen(lean, opens, -1)


def test_the_two_slots_of_a_raked_crossing_have_one_word_and_the_other_lean_has_the_other():
    """The long shelf of samples.py is crossed by B leaning right and C leaning left, all slots 24.15, 165.5 deep."""
    found = made(samples.sample_book()).of

    assert found["slot in long shelf for raking 1"] == found["slot in raking 1 for long shelf"]
    assert found["slot in long shelf for raking 2"] == found["slot in raking 2 for long shelf"]
    assert found["slot in long shelf for raking 1"] != found["slot in long shelf for raking 2"]


def test_a_square_slot_shares_its_guide_whichever_edge_it_opens_to():
    found = made(samples.sample_book())
    (square,) = (setup for setup in found.all if setup.does == "slot" and not setup.lean)

    assert used_words(square).replace("\u00a0", " ") == "A 3; D 1"
    assert {use.key for use in square.uses} == {"slot in long shelf for upright 3", "slot in upright 3 for long shelf"}


# ---- what is shared


def test_eight_slots_of_the_record_wall_are_made_with_one_leaning_guide(books):
    found = next(setup for setup in made(books["record-wall"]).all if setup.lean == "8° RIGHT")

    assert (found.across, found.deep) == ("24.25", "150.5")
    assert used_words(found).replace("\u00a0", " ") == "A 2; B 2; C 2; D 2; H 1 to 4"


@pytest.mark.parametrize("name", DEMOS)
def test_cuts_share_a_set_up_exactly_where_all_that_is_printed_of_it_is_the_same(books, name):
    """Of slots and housings, told from the sheets: kind, width, depth, lean with its head, run, tool."""
    book = books[name]
    desk = Desk(book)
    cuts = {cut.key: cut for part in book.piece.parts for cut in part.cuts}
    with printing_in(book.job.units):
        found = setups(desk)
        printed = {}
        for part in book.piece.parts:
            look = desk.looks[part.id]
            for key, number in look.numbers.items():
                row, *_ = _lines(whole_rows(desk, look), number)
                cells = _columns(row)
                letter = ",".join(named(found).get(key, ()))
                if letter.startswith("R"):
                    cut = cuts[key]
                    hand = head(cut.figures.lean, cut.shapes[0], part.board) if abs(cut.figures.lean) > 0.025 else ""
                    opens, _, runs = cells[8].partition(" ")
                    run = runs and (opens, runs.partition(", ")[0])  # a stop is what is left of its own board
                    printed[key] = (
                        cells[5],
                        cells[7],
                        hand,
                        round(abs(cut.figures.lean), 2),
                        run,
                        how_made(desk, cut),
                    )
                    assert cells[10] == letter
    assert len(printed) > 5
    for one, said in printed.items():
        for other, also in printed.items():
            assert (named(found)[one] == named(found)[other]) == (said == also), (one, other)


def _lines(table, number):
    starts = [place for place, row in enumerate(table) if str(number) in row[0].text.split(",")]
    (start,) = starts
    end = next((p for p in range(start + 1, len(table)) if not table[p][0].joins), len(table))
    return table[start:end]


def _columns(row):
    """The texts of a row by column; a cell that spans several stands in its first."""
    texts = []
    for cell in row:
        texts += [cell.text, *[""] * (cell.span - 1)]
    return texts


def test_each_operation_has_its_letter(books):
    letters = {setup.name[0]: {use.key for use in setup.uses} for setup in made(books["record-wall"]).all}

    assert set(letters) == {"R", "D", "M", "K"}
    assert all("bore" in key for key in letters["D"])
    assert all("mitre" in key for key in letters["M"])
    assert all("key pockets" in key for key in letters["K"])


def test_a_plain_end_needs_no_set_up_and_a_level_one_does(books):
    found = made(books["step-shelf"])

    assert "datum end of lower shelf" not in found.of
    assert named(found)["datum end of leaning side"] == ("M1",)
    assert used_words(found.all[-1]).replace("\u00a0", " ") == "D lower end"


def test_bores_share_a_guide_only_in_boards_of_one_thickness():
    def fixed(timber):
        return job(
            '[wall]\nkind = "timber studs"\nhung = true\n',
            board("one", [[0, 300], [900, 300]]),
            board("other", [[0, 600], [900, 600]], timber=timber),
            *(
                table("[[fixing]]", name=f"f {name}", board=name, kind="long screw", at=[300], screw="wood 6x120")
                for name in ("one", "other")
            ),
        )

    assert len(made(book_of(fixed("24"))).all) == 2, "a bit for the counterbores, one for the holes"
    assert len(made(book_of(fixed("27"))).all) == 4


# ---- names that stay


@pytest.fixture(scope="module")
def pinned(books):
    """The first files' letters, as `dryfit book --pin` writes them down, and the set-ups that go with them."""
    return {
        name: (Made(pins=pins_of(books[name]), thickness={}, fronts={}), named(made(books[name])))
        for name in ("record-wall", "step-shelf")
    }


@settings(max_examples=3, deadline=None)
@given(
    x=st.integers(210, 520),
    lean=st.sampled_from([0, 5, -12]),
    thick=st.sampled_from([18, 24, 30]),
    name=st.sampled_from(["record-wall", "step-shelf"]),
)
def test_a_board_with_the_last_letter_renames_no_set_up(pinned, x, lean, thick, name):
    """An upright through shelves that were there before brings new cuts on old boards; their old names stay."""
    run = 700 * math.tan(math.radians(lean))
    more = (
        f'\n[timber.late]\nspecies = "oak, white"\nform = "panel"\nthickness = {thick}\n'
        f'[[board]]\nname = "late"\ntimber = "late"\nline = [[{x}, 60], [{x + run:.3f}, 760]]\ndepth = 200\n'
    )
    pins, before = pinned[name]
    job = replace(read_job_text(demo_text(name) + more, f"{name}.toml"), text="")  # no cures are tried: none is asked
    book = build(job, made=pins, paces=())
    book = replace(book, outcomes={"setups": Done(result=worked_out(book))})

    assert {key: named(made(book)).get(key) for key in before} == before


def test_a_cut_that_the_new_board_brings_gets_the_next_free_number():
    """Step shelf: R1 to R5 are there; a board 30 thick brings a slot that no old guide makes."""
    more = (
        '\n[timber.late]\nspecies = "oak, white"\nform = "panel"\nthickness = 30\n'
        '[[board]]\nname = "late"\ntimber = "late"\nline = [[280, 60], [280, 560]]\ndepth = 220\n'
    )
    before, after = made(read("step-shelf")), made(read("step-shelf", more))
    last = max(int(setup.name[1:]) for setup in before.all if setup.of.work is WorkSort.ACROSS)

    assert named(after)["slot in lower shelf for late"] == (f"R{last + 1}",)


# ---- the same everywhere


@pytest.mark.parametrize("name", DEMOS)
def test_book_json_names_the_set_ups_as_the_sheets_do(books, name):
    told = json.loads(book_json(books[name]))
    found = made(books[name])

    cuts = {cut["key"]: tuple(cut["setups"]) for part in told["parts"] for cut in part["cuts"] if cut["setups"]}
    assert cuts == named(found)
    assert [one["name"] for one in told["setups"]] == [setup.name for setup in found.all]
    makers = {key: [one["name"] for one in told["setups"] if key in one["cuts"]] for key in cuts}
    assert makers == {key: list(names) for key, names in named(found).items()}


def test_holes_and_tongues_find_their_letters_too():
    text = job(
        board("plinth", [[0, 12], [800, 12]]),
        board("left", [[100, 24], [100, 500]]),
        board("right", [[600, 24], [600, 500]]),
        joint("left", "plinth", kind="butt", fasten="dowels"),
        joint("right", "plinth", kind="butt", fasten="dowels"),
    )
    found = made(book_of(text))

    assert {setup.of.work for setup in found.all} == {WorkSort.HOLES}
    assert sorted(len(setup.uses) for setup in found.all) == [2, 2], "the faces with one jig, the ends with another"
