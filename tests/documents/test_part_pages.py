"""How parts fill their sheets: ten cuts and their table on one A4, two small parts on one, nothing lost, all found.

Of the record wall the shelves are 2600 x 300 and carry eight to eleven cuts, D has eight, the raking boards four and
six with bevels. Dividers K and L are the same board, 399.9 x 260 x 20: K goes 8 into A and 6 into B, L 6 into B and 8
into C.
"""

import random
import re
from collections import Counter
from functools import cache

import pytest

from bench.layouts import layout
from dryfit.book import build, read_job_text
from dryfit.book.demos import demo_text
from dryfit.documents.display import Stroke, Text
from dryfit.documents.faults import faults
from dryfit.documents.lettering import TEXT
from dryfit.documents.looks import Desk
from dryfit.documents.naming import printing_in
from dryfit.documents.pages import numbered
from dryfit.documents.sheets.part.fellows import fellows
from dryfit.documents.sheets.part.fooling import fooling
from dryfit.documents.sheets.part.words.joined import joined
from dryfit.documents.standard import A3, A4
from dryfit.documents.workshop import workshop_sheets
from dryfit.shop.model import Shop
from tests.documents import demo_papers
from tests.documents.reading import pages
from tests.joints.typed import board, book_of, frame, job

DEMOS = ("record-wall", "sample-grid", "step-shelf")
EVERY = (*DEMOS, *range(12), ("bays", 14), ("lattices", 12))  # the last two: ten cuts that all lean otherwise
MOST = 10  # cuts of a part that one A4 holds
RULE = 180.0  # wide, between two parts on a sheet


def drawn(seed):
    """A piece as a maker may have it: shelves, uprights and raking boards that cross them, dividers."""
    rng = random.Random(seed)
    long, high = rng.choice([1100, 1600, 2100, 2600]), rng.randint(2, 4)
    shelves = [
        board(f"shelf {n + 1}", [[0, 300 + n * 380], [long, 300 + n * 380]], depth=rng.choice([220, 280, 300]))
        for n in range(high)
    ]
    top = 300 + (high - 1) * 380 + rng.choice([0, 160])
    uprights, count = [], rng.randint(2, 5)
    for n in range(count):
        foot = 120 + n * (long - 300) / max(count - 1, 1)
        lean = rng.choice([0, 0, 0, 60, -60])
        uprights.append(board(f"upright {n + 1}", [[foot, 0], [foot + lean, top]], depth=rng.choice([240, 300])))
    at = 120 + 0.5 * (long - 300) / max(count - 1, 1)
    housed = rng.choice(["", 'stop = "front"'])
    dividers = [
        board(f"divider {n + 1}", [[at, 300 + n * 380], [at, 680 + n * 380]], depth=200, timber="18")
        for n in range(high - 1)
    ]
    return job(*shelves, *uprights, *dividers, f"[joints.housing]\n{housed}\n" if housed else "")


@cache
def sheets(name):
    """Every sheet of a demo, or of a piece drawn at random, with its book."""
    if name in DEMOS:  # a name, the number of a piece drawn, or a shape of those that are measured
        return demo_papers.sheets(name), demo_papers.book(name)
    book = book_of(drawn(name) if isinstance(name, int) else layout(*name).text())
    return tuple(workshop_sheets(book)), book


def part_sheets(name):
    return [(draft, display) for draft, display in sheets(name)[0] if draft.kind.startswith("part")]


def cuts_of(part):
    return sum(1 for cut in part.cuts if not cut.end)


def texts(draft):
    return [item for item in draft.items if isinstance(item, Text)]


# --- on one sheet -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", EVERY)
def test_a_part_with_ten_cuts_takes_one_a4_sheet(name):
    many = {part.id: cuts_of(part) for part in sheets(name)[1].piece.parts}
    held = Counter(
        held.place[1] for draft, _ in part_sheets(name) if draft.kind != "part, a pair" for held in draft.holds
    )
    pairs = Counter(draft.number for draft, _ in part_sheets(name) if draft.kind == "part, a pair")

    assert max(pairs.values(), default=0) <= 2, "one for each hand"
    assert {part: count for part, count in held.items() if count > 1 and many[part] <= MOST} == {}
    assert {draft.size for draft, _ in part_sheets(name)} <= {A4, (A4[1], A4[0])}


@pytest.mark.parametrize("name", EVERY)
def test_no_part_s_sheet_has_a_fault_or_smaller_letters_than_may_be_acted_on(name):
    for draft, display in part_sheets(name):
        assert faults(display) == [], draft.title
        assert {item.size for item in texts(draft) if item.layer in ("words", "table", "dimension")} >= {TEXT}
        assert min(item.size for item in texts(draft)) >= TEXT, draft.title


def test_the_record_wall_s_parts_take_thirteen_sheets():
    """They took twenty: five a second one for their tables, K and L one each, E, G and F, K, L and N half of one."""
    numbers = [draft.number for draft, _ in part_sheets("record-wall")]

    assert len(numbers) <= 13
    assert {"EGF", "KLN", "QS"} <= set(numbers)


def test_a_shop_that_prints_large_gets_the_board_with_eleven_cuts_on_one_sheet():
    book = build(read_job_text(demo_text("record-wall"), "record-wall.toml"), Shop(paper="A3"))
    found = [draft for draft, _ in workshop_sheets(book) if draft.number == "C"]
    others = [draft for draft, _ in workshop_sheets(book) if draft.number == "A"]

    assert [draft.size for draft in found] == [(A3[1], A3[0])]
    assert [draft.size for draft in others] == [(A4[1], A4[0])], "what A4 holds is not drawn large"


def test_notes_are_told_once_where_a_part_takes_two_sheets():
    both = [draft for draft, _ in part_sheets("record-wall") if draft.number == "C"]
    said = [item.text for draft in both for item in texts(draft)]

    assert len(both) == 2
    assert sum(text.startswith("Check against the board") for text in said) == 1


# --- two parts on a sheet ---------------------------------------------------------------------------------------


def halves():
    """Every sheet that two parts share, with the level of the rule between them and the parts above and below it."""
    for name in EVERY:
        found, book = sheets(name)
        desk = Desk(book)
        for draft, _ in found:
            if draft.kind != "part, two parts":
                continue
            rules = [item for item in draft.items if isinstance(item, Stroke) and item.layer == "frame"]
            (middle,) = [item.points[0][1] for item in rules if abs(item.points[1][0] - item.points[0][0]) == RULE]
            looks = [desk.looks[held.place[1]] for held in draft.holds]
            yield name, draft, middle, looks, desk


def test_no_figure_is_lost_where_two_parts_share_a_sheet():
    """Every word of every row of its table, and every blank, stands on the part's own half."""
    count = 0
    for name, draft, middle, looks, desk in halves():
        top = [item.text for item in texts(draft) if item.at[1] < middle]
        foot = [item.text for item in texts(draft) if item.at[1] > middle]
        for half in (top, foot):
            letters = next(text for text in half if re.fullmatch(r"[A-Z](, [A-Z])*|[A-Z] to [A-Z]", text))
            own = [look for look in looks if look.part.mark in _spelt(letters)]
            with printing_in(desk.book.job.units):
                cells = [cell for row in joined(desk, own) for cell in row]
            said = " ".join(half)
            figures = {word for cell in cells for word in re.findall(r"\d+\.\d+|\d{2,}", cell.text)}
            assert own, (name, draft.title)
            assert all(figure in said for figure in figures), (name, draft.title, letters)
            assert any(text.startswith("Check against the board") for text in half)
            assert sum(cell.tick for cell in cells) >= len(own)
            count += 1
    assert count >= 6, "three sheets at least are shared"


def _spelt(letters):
    given = "ABCDEFGHJKLMNPQRSTUVWXYZ"
    first, _, last = letters.partition(" to ")
    return given[given.index(first) : given.index(last) + 1] if last else letters.split(", ")


def test_the_lower_part_s_letter_stands_in_the_top_right_corner():
    for _, draft, middle, looks, _ in halves():
        white = [item for item in texts(draft) if item.ink == "white" and item.weight == "bold" and item.at[1] < 30.0]
        right = max(white, key=lambda item: item.at[0])

        assert right.at[0] > 160.0
        assert looks[-1].part.mark in _spelt(right.text)
        assert any(item.text == right.text and item.at[1] > middle for item in texts(draft))


def test_what_both_are_told_is_told_once_at_the_foot():
    (sheet,) = [draft for draft, _ in part_sheets("record-wall") if draft.number == "EGF"]
    said = [item.text for item in texts(sheet) if item.text.startswith("Each figure is the wall nearer the datum end")]

    assert len(said) == 1


def test_dividers_that_are_one_board_have_a_sum_each_and_their_letters_with_each_depth():
    (sheet,) = [draft for draft, _ in part_sheets("record-wall") if draft.number == "KLN"]
    said = " ".join(item.text for item in texts(sheet))

    assert (
        "K: Length 399.9 = 385.9 between faces + 8.0 + 6.0. L: Length 399.9 = 385.9 between faces + 6.0 + 8.0." in said
    )
    assert "goes in 8.0 (K), 6.0 (L)" in said
    assert "divider 1 and 2: two alike" in said


# --- found at once ----------------------------------------------------------------------------------------------


@pytest.mark.parametrize("demo", DEMOS)
def test_every_cut_names_the_page_on_which_its_joint_is_drawn(demo):
    """The page that a row names is opened: the letters of both boards stand on it, or of one and where it is fixed."""
    found, book = sheets(demo)
    places = [{held.place for held in draft.holds} for draft, _ in found]
    letters = {part.id: part.mark for part in book.piece.parts}
    read = pages(demo_papers.paper(demo))

    def number(_paper, place):
        return next(page for page, held in enumerate(places, start=1) if place in held)

    named = 0
    for part in book.piece.parts:
        own = [draft for draft, _ in found if ("part", part.id) in {held.place for held in draft.holds}]
        told = {item.text for draft in own for item in numbered(texts(draft), number)}
        for cut in part.cuts:
            if cut.joint is None:
                continue
            page = number("", ("joint", *cut.joint))
            assert any(re.search(rf"\b{page}\b", text) for text in told), (part.mark, cut.key)
            for body in {*cut.joint} & set(letters):
                assert re.search(rf"\b{letters[body]}\b", read[page - 1]), (part.mark, cut.key, page)
            named += 1
    assert named >= len(book.piece.parts)


@pytest.mark.parametrize("demo", DEMOS)
def test_job_number_and_page_stand_at_the_top_of_every_sheet(demo):
    found, book = sheets(demo)
    for page, (_, display) in enumerate(found, start=1):
        top = [item.text for item in display.items if isinstance(item, Text) and item.at[1] < 10.0]

        assert any(text.startswith(book.job.title) and text.endswith(f" {page} of {len(found)}") for text in top), page


def test_boards_that_will_fool_you_are_told_with_the_figure_that_tells_them_apart():
    said = list(fooling(Desk(demo_papers.book("record-wall"))))

    assert "P and R are alike but for raked slot 3: 214.5 in P, 187.5 in R, from the datum end." in said
    assert not [words for words in said if "K and L" in words or "Q and S" in words or "S and Q" in words]


@pytest.mark.parametrize(
    ("demo", "letter", "face", "begins"),
    [("record-wall", "P", "INSIDE", "20"), ("record-wall", "R", "INSIDE", "20"), ("step-shelf", "D", "LOWER", "2.8")],
)
def test_the_line_of_a_face_that_begins_short_of_the_zero_says_where_its_arris_is(demo, letter, face, begins):
    (sheet,) = [draft for draft, _ in part_sheets(demo) if draft.number == letter]
    said = [item.text for item in texts(sheet) if item.text.startswith(f"{face} face")]

    assert len(said) == 1
    assert said[0].endswith(f"; its arris is at {begins}")


def test_the_grouping_of_a_piece_maps_onto_itself_in_the_glass():
    """A box, a shelf halved through it, two uprights: mirrored left to right the same boards are alike."""

    def groups(way):
        def x(a):
            return a if way > 0 else 2000 - a

        text = job(
            frame([[x(300), 400], [x(900), 400], [x(900), 800], [x(300), 800]][::way], names=list("pqrs")),
            board("shelf", [[0, 600], [2000, 600]]),
            board("one", [[x(1200), 300], [x(1200), 900]]),
            board("other", [[x(1600), 300], [x(1600), 900]]),
        )
        found = fellows(Desk(book_of(text)))
        return sorted(len(one.looks) for one in found), Counter(type(one).__name__ for one in found)

    assert groups(1) == groups(-1)
