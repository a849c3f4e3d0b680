"""The checker of sheets: each kind of collision is found, and a sound sheet has none."""

import pytest

from dryfit.documents.display import Area, Circle, Display, Stroke, Text, rectangle
from dryfit.documents.faults import faults


def sheet(*items):
    return Display(width=210, height=297, items=items)


SHELF = Text(at=(50, 50), text="long shelf")


@pytest.mark.parametrize(
    ("items", "word"),
    [
        ((SHELF, Text(at=(55, 51), text="wall edge")), "text on text"),
        ((SHELF, Stroke(points=((40, 49), (80, 49)), pen="dimension")), "line through text"),
        ((Stroke(points=((40, 49), (80, 49)), pen="outline"), Text(at=(50, 50), text="x", ground=0.7)), "line through"),
        ((SHELF, Area(loops=(rectangle(45, 45, 30, 10),), ink="white")), "covered"),
        ((Text(at=(200, 50), text="far too long for the margin"),), "off the sheet"),
        ((Stroke(points=((10, 10), (10, 296)), pen="outline"),), "off the sheet"),
        ((Text(at=(50, 50), text="upright", turn=90), Text(at=(44, 46), text="level text")), "text on text"),
    ],
    ids=["texts", "dimension", "ground on an outline", "painted over", "text off", "line off", "turned"],
)
def test_a_collision_is_found_and_named(items, word):
    (found, *_) = faults(sheet(*items))

    assert found.startswith(word)


@pytest.mark.parametrize(
    "items",
    [
        (SHELF, Text(at=(50, 54), text="wall edge")),
        (Stroke(points=((40, 49), (80, 49)), pen="dimension"), Text(at=(50, 50), text="x", ground=0.7)),
        (Circle(centre=(50, 50), radius=2.6, pen="balloon", ink="white"), Text(at=(49, 51), text="3")),
        (Area(loops=(rectangle(45, 45, 30, 10),)), Text(at=(50, 50), text="FIXED", ink="white")),
    ],
    ids=["one under the other", "ground over a fine line", "number in its balloon", "white on black"],
)
def test_a_sound_sheet_has_no_faults(items):
    assert faults(sheet(*items)) == []
