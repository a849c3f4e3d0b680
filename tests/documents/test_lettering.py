"""Lettering: the committed fonts are the original ones, and measured widths are those of the printed page.

By hand: a figure of IBM Plex Sans Condensed is 540 of 1000 wide, so "1970" at capitals of 3.5 (em 5.014) is
4 x 0.540 x 5.014 = 10.83 long.
"""

import struct

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryfit.documents.display import Display, Text
from dryfit.documents.lettering import FILES, FOLDER, fitted, known, printable, width, wrapped
from dryfit.documents.pdf import pdf
from tests.documents.reading import find

WHOLE_FONT = 0xB1B0AFBA  # OpenType specification, table `head`, checksumAdjustment


@pytest.mark.parametrize("name", FILES.values())
def test_each_font_is_the_original_by_its_own_checksum(name):
    data = (FOLDER / name).read_bytes()

    assert sum(struct.unpack(f">{len(data) // 4}I", data)) & 0xFFFFFFFF == WHOLE_FONT


def test_the_fonts_travel_with_their_licence_and_stay_small():
    assert "SIL OPEN FONT LICENSE" in (FOLDER / "OFL.txt").read_text(encoding="utf-8")
    assert sum((FOLDER / name).stat().st_size for name in FILES.values()) < 1_000_000


def test_figures_are_of_one_width():
    assert {width(figure, 3.5, "bold") for figure in "0123456789"} == {width("0", 3.5, "bold")}
    assert width("1970", 3.5) == pytest.approx(4 * 0.540 * 3.5 / 0.698)


@pytest.mark.parametrize("weight", FILES)
@pytest.mark.parametrize(
    "text", ["Do not ease an arris within 26 of these marks", "each view is rolled away", "1970.843"]
)
def test_measured_widths_are_the_printed_ones(text, weight):
    sheet = Display(width=210, height=297, items=(Text(at=(20, 40), text=text, size=3.5, weight=weight),))
    (found,) = find(pdf([sheet], "widths"), 0, text)

    assert found.right - found.left == pytest.approx(width(text, 3.5, weight), rel=0.02)
    assert found.left == pytest.approx(20, abs=0.1)


def test_a_letter_that_the_fonts_lack_is_replaced_not_handed_to_another_font():
    assert known("shelf 棚 one") == "shelf ? one"
    assert printable(" two\nlines\t ") == "two lines"


@given(st.text(), st.floats(1, 100))
def test_a_fitted_text_fits(text, room):
    assert width(fitted(text, room, 2.5), 2.5) <= room


@given(st.lists(st.text("abcdefgh", min_size=1, max_size=12), max_size=30), st.floats(30, 100))
def test_wrapped_lines_fit_and_lose_no_word(words, room):
    lines = wrapped(" ".join(words), room, 2.5)

    assert all(width(line, 2.5) <= room for line in lines)
    assert " ".join(lines).split() == words
