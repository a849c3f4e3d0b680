"""The PDF: exact pages, only our four fonts, and the same bytes whoever makes it, wherever and whenever."""

import hashlib
import math
import os
import subprocess
import sys
from pathlib import Path

import pypdfium2 as pdfium
import pypdfium2.raw as raw
import pytest

import dryfit
from dryfit.documents.display import Area, Circle, Display, Stroke, Text, rectangle
from dryfit.documents.lettering import FILES, width
from dryfit.documents.pdf import layers, pdf
from tests.documents.reading import MM, fonts, pages, sizes

ROOT = Path(__file__).parents[2]
MAKE = """
import hashlib, sys
sys.path[:0] = sys.argv[1:]
from dryfit.documents.workshop import workshop_pdf
from tests.documents.samples import sample_book
print(hashlib.sha256(workshop_pdf(sample_book())).hexdigest())
"""


def sheet(*items, size=(297, 210)):
    return Display(width=size[0], height=size[1], items=items)


def words(text="long shelf", **more):
    return Text(at=(40, 40), text=text, **more)


def test_a_page_and_what_is_on_it_are_printed_at_their_true_size():
    """A rectangle of 180 x 17 measures so; pdfium's bounds add the line's 0.5 on every side. A4 is 297 x 210."""
    data = pdf([sheet(Stroke(points=rectangle(107, 183, 180, 17), pen="outline", closed=True), words())], "size")

    assert sizes(data) == [(pytest.approx(297, abs=0.01), pytest.approx(210, abs=0.01))]
    with pdfium.PdfDocument(data) as document:
        (path,) = document[0].get_objects(filter=[raw.FPDF_PAGEOBJ_PATH], max_depth=15)
        left, bottom, right, top = path.get_bounds()
        matrix = _whole_matrix(path)
    wide, high = (right - left) * matrix * MM, (top - bottom) * matrix * MM
    assert (wide - 1, high - 1) == (pytest.approx(180, abs=0.01), pytest.approx(17, abs=0.01))


def _whole_matrix(item):
    """How much the forms around an item scale it."""
    scale = 1.0
    holder = item.container
    while holder is not None:
        scale *= holder.get_matrix().a
        holder = holder.container
    return scale


def test_pages_may_differ_in_size_and_stand_in_their_order():
    data = pdf([sheet(words("first")), sheet(words("second"), size=(210, 297))], "two")

    assert [round(wide) for wide, _ in sizes(data)] == [297, 210]
    assert ["first" in page for page in pages(data)] == [True, False]


def test_all_four_weights_are_ours_and_nothing_else_is_embedded():
    data = pdf([sheet(*(Text(at=(20, 20 + 9 * n), text=f"weight {w}", weight=w) for n, w in enumerate(FILES)))], "f")

    assert fonts(data) == {"IBMPlexSansCond", "IBMPlexSansCond-Medm", "IBMPlexSansCond-SmBld", "IBMPlexSansCond-Bold"}


def test_what_the_fonts_lack_brings_in_no_other_font():
    data = pdf([sheet(words("shelf 棚 \ue000 \U0001f6aa of the hall"))], "lacking")

    assert fonts(data) == {"IBMPlexSansCond"}


def test_a_user_s_words_are_never_part_of_the_layout():
    """Typst would run `#panic()`, and take `]` for the end of a text."""
    data = pdf([sheet(words('#panic("no") ] $x$ \\ #{1 + 1}'))], '#panic("title") ]', says=['" #panic("alt")'])

    assert '#panic("no") ] $x$' in pages(data)[0]


@pytest.mark.slow
def test_two_processes_with_other_clocks_seeds_and_folders_make_the_same_bytes(tmp_path):
    made = set()
    for zone, seed, folder in (("Pacific/Auckland", "1", tmp_path), ("America/Halifax", "77", ROOT)):
        env = os.environ | {"TZ": zone, "PYTHONHASHSEED": seed, "HOME": str(tmp_path), "LC_ALL": "C"}
        paths = [str(Path(dryfit.__file__).parents[1]), str(ROOT)]
        ran = subprocess.run(
            [sys.executable, "-c", MAKE, *paths], cwd=folder, env=env, capture_output=True, text=True, check=True
        )
        made.add(ran.stdout.strip())

    assert len(made) == 1
    assert len(made.pop()) == hashlib.sha256().digest_size * 2


# ---- lettering and what lies over it


def reads(item):
    return [text.text for text in item.items if isinstance(text, Text)]


def test_lettering_is_painted_last_where_nothing_hides_it():
    """One layer: a black square of 20 before its white letter, and a line that only crosses a word."""
    square = Area(loops=(rectangle(100, 100, 20, 20),))
    line = Stroke(points=((30, 38), (90, 38)), pen="outline")
    drawing = sheet(square, words("A", ink="white"), words("below"), line)

    assert layers(drawing) == [drawing]


@pytest.mark.parametrize(
    "cover",
    [
        Area(loops=(rectangle(30, 30, 40, 20),), ink="white"),
        Circle(centre=(45, 38), radius=5, ink="white"),
        Text(at=(42, 41), text="above", ground=0.8),
    ],
    ids=["an area", "a ring", "a word's white ground"],
)
def test_what_is_painted_over_a_word_still_hides_it(cover):
    drawing = sheet(words("hidden"), cover, words("elsewhere"))

    first, second = layers(drawing)

    assert reads(first) == ["hidden"]
    assert any(isinstance(item, (Area, Circle)) for item in second.items)
    assert "elsewhere" in reads(second)


def test_a_word_hidden_by_an_area_is_not_to_be_seen():
    """The page of both has no more ink than that of the area's border alone."""
    cover = Area(loops=(rectangle(30, 30, 60, 20),), ink="white")

    with pdfium.PdfDocument(pdf([sheet(words("hidden"), cover)], "hidden")) as document:
        picture = document[0].render(scale=2).to_numpy()
    assert picture.min() == 255


@pytest.mark.parametrize("anchor", ["start", "middle", "end"])
@pytest.mark.parametrize("turn", [0.0, 90.0, -30.0])
def test_a_word_stands_at_its_anchor_turned_about_it(anchor, turn):
    """A row of 12 capitals 3.5 high at (120, 90): its middle is half its width along the line and 1.75 above it."""
    item = Text(at=(120, 90), text="HHHHHHHHHHHH", size=3.5, anchor=anchor, turn=turn)
    wide = width(item.text, 3.5)
    along = {"start": wide / 2, "middle": 0.0, "end": -wide / 2}[anchor]
    cosine, sine = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    middle = (120 + along * cosine - 1.75 * sine, 90 - along * sine - 1.75 * cosine)

    with pdfium.PdfDocument(pdf([sheet(item)], "turned")) as document:
        text = document[0].get_textpage()
        boxes = [text.get_charbox(number) for number in range(12)]
    left, low = (min(box[k] for box in boxes) * MM for k in (0, 1))
    right, high = (max(box[k] for box in boxes) * MM for k in (2, 3))
    assert ((left + right) / 2, 210 - (low + high) / 2) == (
        pytest.approx(middle[0], abs=0.3),
        pytest.approx(middle[1], abs=0.3),
    )
