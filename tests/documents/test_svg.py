"""SVG: real text, millimetres, one escape for every name, no -0."""

import xml.etree.ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryfit.documents.display import Arc, Area, Circle, Display, Stroke, Strokes, Text, rectangle
from dryfit.documents.svg import escape, number, svg

NASTY = "</text><script>alert('&amp;')</script> ]]> \" \x00 \ud800 #{page} <%"


def drawing(*items):
    return Display(width=297, height=210, items=items)


def texts(source):
    return [element.text for element in ET.fromstring(source).iter("{http://www.w3.org/2000/svg}text")]


def test_a_nasty_name_stays_one_text():
    source = svg(drawing(Text(at=(10, 10), text=NASTY, owner=NASTY)))

    (found,) = texts(source)
    assert found.startswith("</text><script>alert('&amp;')</script> ]]> \"")
    assert "<script" not in source


@given(st.text())
def test_every_text_is_read_back_as_xml(text):
    ET.fromstring(f'<a b="{escape(text)}">{escape(text)}</a>')


@given(st.floats(-1e4, 1e4))
def test_numbers_are_rounded_to_a_thousandth_and_never_minus_nought(value):
    text = number(value)

    assert float(text) == pytest.approx(value, abs=0.0005000001)
    assert text != "-0"
    assert len(text.partition(".")[2]) <= 3


def test_a_sheet_has_its_size_in_mm_and_one_unit_a_mm():
    root = ET.fromstring(svg(drawing()))

    assert (root.get("width"), root.get("height"), root.get("viewBox")) == ("297mm", "210mm", "0 0 297 210")


def test_every_item_is_drawn_with_its_owner():
    items = (
        Stroke(points=rectangle(1, 2, 3, 4), pen="outline", closed=True, owner="a"),
        Strokes(segments=(((0, 0), (1, 1)),), pen="hatch", owner="b"),
        Area(loops=(rectangle(0, 0, 1, 1),), owner="c"),
        Circle(centre=(5, 5), radius=2.6, pen="balloon", owner="d"),
        Arc(centre=(5, 5), radius=2, start=0, end=90, pen="dimension", owner="e"),
        Text(at=(0, 0), text="x", turn=90, owner="f"),
    )
    root = ET.fromstring(svg(drawing(*items)))

    assert [element.get("data-owner") for element in root] == list("abcdef")


def test_an_arc_turns_anticlockwise_as_seen_on_paper():
    """A quarter from the right to the top: the end lies above the centre, which is up the sheet."""
    (arc,) = ET.fromstring(svg(drawing(Arc(centre=(10, 10), radius=5, start=0, end=90, pen="dimension"))))

    assert arc.get("d") == "M15 10A5 5 0 0 0 10 5"
