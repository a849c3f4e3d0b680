"""The overall sheet and the lists: every board with its letter and blank, every finding with what to do.

Nothing on them is cut short: a text wider than its column goes on in a second line of its row, which is 3.7 high
under a row of 5. What is bought stands in the order (test_order.py).
"""

import dataclasses
import re
from functools import cache

import pytest
from hypothesis import given
from hypothesis import strategies as st

import dryfit
from dryfit.book.reading import read_job_text
from dryfit.documents.display import Text
from dryfit.documents.faults import faults
from dryfit.documents.lettering import TEXT, width
from dryfit.documents.sheets.page.table import Cell, Column, drawn, fitting, lines_in, rows_high, unfolded
from dryfit.documents.workshop import workshop_pdf, workshop_sheets
from tests.documents import demo_papers, samples
from tests.documents.reading import pages
from tests.documents.samples import sample_book

DEMOS = ["record-wall", "step-shelf", "sample-grid"]


def plain(*texts):
    return tuple(Cell(text=text) for text in texts)


@pytest.fixture(scope="module")
def data():
    return workshop_pdf(sample_book())


def test_the_overall_sheet_gives_places_along_the_floor_and_heights(data):
    """D's left face stands at 1420 - 12 = 1408, the shelf's upper face lies at 600 + 12 = 612, the head at 1900."""
    overall, _ = workshop_sheets(sample_book())[0]
    said = {item.text for item in overall.items if isinstance(item, Text)}

    assert {"1408", "612", "1900", "2600"} <= said
    assert "2600 wide × 1900 high × 330 deep" in re.sub(r"\s+", " ", pages(data)[0])


def overall_of(text):
    """The figures and words of the overall sheet."""
    head = 'dryfit = 1\n[job]\ntitle = "x"\n[timber.oak]\nspecies = "oak, white"\nthickness = 20\n'
    overall, _ = workshop_sheets(dryfit.build(read_job_text(head + text)))[0]
    return [item.text for item in overall.items if isinstance(item, Text)]


def line(name, start, end):
    return f'[[board]]\nname = "{name}"\nline = [{list(start)}, {list(end)}]\ndepth = 200\n'


def test_a_frame_s_bottom_board_is_high_up_to_its_upper_face_and_its_right_side_stands_at_its_left_face():
    """Outside 600 by 400, 20 thick: bottom 0 to 20, top 380 to 400; the sides 0 to 20 and 580 to 600."""
    said = overall_of('[[frame]]\nname = "box"\npoints = [[0, 0], [600, 0], [600, 400], [0, 400]]\ndepth = 200\n')

    assert {"20", "400", "580"} <= set(said)
    assert "380" not in said


def test_a_board_that_leans_right_with_a_square_end_stands_at_its_left_face_not_at_its_lowest_arris():
    """10 off plumb, 20 thick: the face lies 10 square to the line, so its foot is 10 cos 10 = 9.8 left of 200."""
    said = overall_of(line("a", (0, 500), (600, 500)) + '[[board]]\nname = "b"\nends = "square"\n'
                      'line = [[200, 0], ["200 + 900 * tan(10)", 900]]\ndepth = 200\n')  # fmt: skip

    assert "190.2" in said
    assert "209.8" not in said


def test_heights_of_a_piece_that_hangs_count_from_the_floor_as_its_fixings_do_and_say_where_it_ends():
    said = " ".join(
        overall_of("[wall]\nhung = true\n" + line("a", (0, 1200), (600, 1200)) + line("b", (300, 1100), (300, 1400)))
    )

    assert "from the floor; its lowest point is 1100 above it" in said
    assert all(f" {height} " in f" {said} " for height in ("1100", "1210", "1400"))


def test_the_list_has_a_blank_for_every_board(data):
    text = re.sub(r"\s+", " ", pages(data)[1])

    assert "2635 × 330 13.7" in text
    assert "A long shelf 2600 330 24" in text


@cache
def lists_of(demo):
    """The words of each page of the lists."""
    drafts = [draft for draft, _ in demo_papers.sheets(demo)]
    texts = pages(demo_papers.paper(demo))
    return [re.sub(r"\s+", " ", text) for draft, text in zip(drafts, texts, strict=True) if draft.kind == "lists"]


@pytest.mark.parametrize("name", DEMOS)
def test_no_sheet_of_a_demo_has_a_fault(name):
    for draft, display in demo_papers.sheets(name):
        assert faults(display) == [], f"{name}: {draft.title}"


# ---- every word can be read


@pytest.mark.parametrize("name", DEMOS)
def test_no_word_of_a_demo_s_sheets_is_cut_short(name):
    for draft, display in demo_papers.sheets(name):
        short = [item.text for item in display.items if isinstance(item, Text) and "…" in item.text]
        assert short == [], draft.title


def test_names_too_long_for_their_columns_stand_whole_in_the_lists_and_on_the_overall_sheet():
    name = "the long shelf over the piano and the window seat"
    shelf = samples.long_shelf()
    cuts = tuple(dataclasses.replace(cut, body=name) for cut in shelf.cuts)
    part = dataclasses.replace(shelf, board=dataclasses.replace(shelf.board, name=name), cuts=cuts)
    book = samples.book_of(part)

    for draft, display in workshop_sheets(book)[:2]:
        assert faults(display) == []
        lines = [item.text for item in display.items if isinstance(item, Text)]
        assert all(any(word in line.split() for line in lines) for word in name.split()), draft.title
        assert not any("…" in line for line in lines)


WORDS = st.text(alphabet="abcdefgh mnorstu 0123/", min_size=1, max_size=60).map(lambda text: " ".join(text.split()))


@given(text=WORDS.filter(bool), room=st.floats(6.0, 60.0))
def test_lines_leave_nothing_out_and_keep_to_their_room(text, room):
    lines = lines_in(text, room, TEXT)

    assert "".join(lines).replace(" ", "") == text.replace(" ", "")
    assert all(width(line, TEXT) <= room + 1e-9 for line in lines)


def test_an_inch_figure_is_not_parted_from_its_fraction():
    assert lines_in("60 25/32 × 11 3/4", 19.0, TEXT) == ["60 25/32 ×", "11 3/4"]


@given(texts=st.lists(WORDS.filter(bool), min_size=1, max_size=12), room=st.floats(5.0, 60.0))
def test_a_table_is_never_parted_inside_a_row(texts, room):
    columns = [Column(title="", wide=6.0), Column(title="words", wide=20.0)]
    rows = unfolded(columns, [(Cell(text=str(n)), Cell(text=text)) for n, text in enumerate(texts)])
    count = fitting(rows, room)

    assert count == len(rows) or not rows[count][0].joins
    assert rows_high(rows[:count]) <= room or not any(not row[0].joins for row in rows[1:count])
    assert [row[0].text for row in rows if not row[0].joins] == [str(n) for n in range(len(texts))]


def test_a_short_row_stays_one_line():
    assert unfolded([Column(title="", wide=30.0)], [plain("long shelf")]) == [plain("long shelf")]


# ---- what the lists say


def test_a_tapered_board_s_thickness_is_given_from_its_datum_end_on():
    assert "J raking 2 1639.3 320 23.8 to 24.1 1659.3 × 320" in lists_of("record-wall")[0]


def test_all_that_is_cut_in_a_board_is_said():
    text = lists_of("record-wall")[0]

    assert "5 slots, 1 housing," in text
    assert text.count("3 bores") == 2


def test_a_finding_of_boards_that_do_not_meet_names_them_without_the_sign_of_a_joint():
    """The grid's uprights can be drawn out, all eight; between no two of them there is a joint."""
    text = " ".join(re.sub(r"\s+", " ", text) for text in pages(demo_papers.paper("sample-grid")))

    assert "note A, B, C, D, E, F, G, H nothing but the fit holds upright 1, upright 2" in text
    assert "A × B" not in text


def test_joints_stand_by_their_letters_with_a_box_each():
    text = " ".join(lists_of("record-wall"))

    for said in ("H × A cross halving 82° A's slot to the front", "K × B housing 90° K housed in B",
                 "P × Q mitre 90° P and Q mitred", "A × wall long screw 90° screwed to the wall"):  # fmt: skip
        assert said in text, said
    assert re.search(r"P × Q mitre 90° P and Q mitred \d+ ", text), "and the page on which it is drawn"
    assert text.count("cross halving") == sum(
        j.kind == "cross halving" for j in demo_papers.book("record-wall").piece.joints
    )


def test_a_board_called_by_a_word_of_the_sentence_is_still_told_right():
    from dryfit.documents.looks import Desk
    from dryfit.documents.sheets.lists.joints import _lettered
    from tests.joints.typed import board, book_of, job, joint

    book = book_of(
        job(
            board("front", [[0, 300], [600, 300]]),
            board("opens", [[300, 0], [300, 600]]),
            joint("front", "opens", front="front"),
        )
    )
    (made,) = book.piece.joints

    assert _lettered(Desk(book), made) == "A's slot to the front"


def test_the_set_ups_are_listed_with_what_is_set_and_where():
    text = " ".join(lists_of("record-wall"))

    assert "R3 slot 24.25 8° RIGHT 42.2 150.5 A 2; B 2; C 2; D 2;" in text
    assert "8 H 1 to 4" in text, "the rest of its row, below the count of its cuts"
    assert "D1 counterbore 12 243 in 24.1 thick" in text
    assert "D2 long bore 5.5 300 in 24.1 thick" in text
    assert "as you stand at the edge that the cut opens to" in text
    assert "A 3 upper; C 3 lower" in text, "the face that lies up, where but one may"
    assert "key pockets, cutter 100 4.00 corner 90° 12.0 at 46.7, 140, 233.3" in text
    assert "long point up where the blade leans over the waste" in text


@pytest.mark.parametrize("name", DEMOS)
def test_boards_that_will_fool_you_are_not_parted_from_their_title(name):
    """All of the sentences stand on the page of the first, unless they fill it."""
    told = lists_of(name)
    with_title = [text for text in told if "boards that will fool you" in text]
    alike = [text for text in told if "are alike in size" in text or "turned end for end" in text]

    assert alike == with_title


def test_joints_that_are_all_alike_stand_three_abreast_and_say_what_they_are_once():
    """The grid's forty crossings, 14 rows of three: its lists are one sheet."""
    (text,) = lists_of("sample-grid")

    assert "joints, each a cross halving at 90°" in text
    assert "J × A J's slot to the front" in text
    assert len(re.findall(r"[A-N] × [A-N] [A-N]'s slot to the front", text)) == 40


def test_the_lists_of_the_largest_demo_are_two_sheets_full_and_a_third_with_what_was_found():
    """Its warning and its two notes have no room on the first sheet, beside what was checked and what was not."""
    *full, last = lists_of("record-wall")
    assert len(full) == 2
    assert not any("findings" in text for text in full)
    assert "findings" in last


def test_lists_are_set_closer_where_that_saves_a_sheet():
    """At 5 below each table the step shelf's last sentence would stand alone on a second sheet."""
    assert len(lists_of("step-shelf")) == 1


def test_a_sound_job_is_told_so_at_the_head_of_the_lists():
    assert all("nothing found that must change" in text for text in lists_of("step-shelf"))
    assert not any("nothing found that" in text for text in lists_of("record-wall"))


@pytest.mark.parametrize(("wide", "head"), [(30.0, ["set-up"]), (8.0, ["up", "set-"])])
def test_a_title_breaks_behind_its_hyphen_only_where_it_must(wide, head):
    said = drawn(0.0, 0.0, [Column(title="set- up", wide=wide)], [])

    assert [item.text for item in said if isinstance(item, Text)] == head
