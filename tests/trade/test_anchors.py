"""Anchors: generic types read as they are sold, and figures against a maker's table and the standard's distances.

A nylon plug 8 x 40 wants a hole of 8, 50 to 55 deep, and a screw of 4.5 to 6 (a technical catalogue of nylon plugs);
its screw must pass its end by its own thickness: with a screw 5 it holds 40 + 5 = 45 beyond the plaster.
"""

import pytest

from dryfit.trade.anchors import Anchor, anchor_types, generic, read_takes, type_called
from dryfit.trade.screws import read_screw

WOOD, MACHINE = read_screw("wood 5x100"), read_screw("M6x100")


@pytest.mark.parametrize(
    ("plug", "hole", "deep", "takes", "apart"),
    [
        ("5x25", 5, 35, (2.5, 4), 30),
        ("6x30", 6, 40, (3.5, 5), 30),
        ("8x40", 8, 55, (4.5, 6), 40),
        ("10x50", 10, 70, (6, 6), 50),
        ("12x60", 12, 70, (8, 8), 60),
        ("14x70", 14, 90, (10, 10), 80),
    ],
)
def test_a_nylon_plug_has_the_sizes_of_its_makers_table(plug, hole, deep, takes, apart):
    found = generic(f"nylon plug {plug}", WOOD, 15.0)
    assert (found.drill, found.deep, found.takes, found.apart) == (hole, deep, takes, apart)
    assert found.length == float(plug.split("x")[1])


@pytest.mark.parametrize(("screw", "length"), [("wood 4x60", 25), ("wood 5x60", 40), ("wood 6x60", 50)])
def test_a_plug_without_a_size_is_the_one_for_its_screw(screw, length):
    assert generic("nylon plug", read_screw(screw), 0.0).length == length


def test_the_point_passes_a_plugs_end_by_its_own_thickness_and_a_sleeve_wants_its_length():
    assert generic("nylon plug 8x40", WOOD, 15.0).hold(WOOD, 15.0) == 45.0
    assert generic("sleeve 8x40", MACHINE, 15.0).hold(MACHINE, 15.0) == 40.0
    assert generic("hollow-wall anchor", MACHINE, 12.5).hold(MACHINE, 12.5) is None  # its maker says how long it is


@pytest.mark.parametrize(
    ("lining", "clamps"), [(12.5, (3, 16)), (25.0, (16, 32)), (40.0, (32, 45)), (60.0, (32, 45)), (1.0, (3, 16))]
)
def test_of_a_hollow_wall_anchor_the_length_is_taken_whose_range_has_the_lining(lining, clamps):
    """3 to 16, 16 to 32, 32 to 45 (usual data sheets, from memory); fixings 75 apart (DIN 18183-1)."""
    found = generic("hollow-wall anchor M6", MACHINE, lining)
    assert (found.clamps, found.apart, found.drill) == (clamps, 75.0, 13.0)


@pytest.mark.parametrize(
    ("words", "type_id"),
    [
        ("Spring Toggle", "spring_toggle"),
        ("sleeve", "sleeve"),
        ("chemical anchor", "resin"),
        ("insert", "insert"),
        ("other", "other"),
        ("bent nail", None),
        ("", None),
    ],
)
def test_a_type_is_found_by_any_of_its_names(words, type_id):
    found = type_called(words)
    assert (found.id if found else None) == type_id


@pytest.mark.parametrize("text", ["gadget", "8x40", "", "other", "demo anchor 8x40"])
def test_what_is_no_generic_type_is_none(text):
    assert generic(text, WOOD, 0.0) is None


def test_every_type_says_what_it_takes_and_where_it_holds():
    assert {(one.screw, one.holds_in) for one in anchor_types()} <= {
        ("machine", "lining"), ("wood", "masonry"), ("machine", "masonry"), ("machine", "timber"),
    }  # fmt: skip
    assert all(isinstance(generic(one.name, MACHINE, 12.5), Anchor) for one in anchor_types())


@pytest.mark.parametrize(
    ("text", "takes"),
    [
        ("M6", ("machine", (6, 6))),
        ("wood 4.5 to 6", ("wood", (4.5, 6))),
        ("wood 6-4.5", ("wood", (4.5, 6))),
        ("6", None),
        ("nail 3", None),
    ],
)
def test_which_screws_an_anchor_takes_is_read_as_it_is_written(text, takes):
    assert read_takes(text) == takes
