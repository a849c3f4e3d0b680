"""Screws: names as they are sold, and figures against the standards' tables.

An M6 passes a medium hole of 6.6 (ISO 273), has a cap head of 10 (ISO 4762) and a washer of 12 (ISO 7089).
"""

import pytest

from dryfit.trade.screws import Screw, figure, read_screw, sizes


# ISO 273 fine, medium, coarse; ISO 4762 head diameter (plain, greatest) and height; ISO 7089 washer.
@pytest.mark.parametrize(
    ("sold", "fine", "medium", "coarse", "head", "height", "washer"),
    [
        ("M4x50", 4.3, 4.5, 4.8, 7.0, 4, 9),
        ("M5x50", 5.3, 5.5, 5.8, 8.5, 5, 10),
        ("M6x80", 6.4, 6.6, 7.0, 10.0, 6, 12),
        ("M8x100", 8.4, 9.0, 10.0, 13.0, 8, 16),
        ("M10x100", 10.5, 11.0, 12.0, 16.0, 10, 20),
    ],
)
def test_a_machine_screw_has_the_sizes_of_its_standards(sold, fine, medium, coarse, head, height, washer):
    screw = read_screw(sold)
    names = ("hole_fine", "hole_medium", "hole_coarse", "head", "head_height", "washer")
    assert [figure(screw, name).value for name in names] == [fine, medium, coarse, head, height, washer]


@pytest.mark.parametrize(
    ("sold", "thick"), [("M4x50", 0.8), ("M5x50", 1.0), ("M6x50", 1.6), ("M8x50", 1.6), ("M10x50", 2.0)]
)
def test_a_washer_is_as_thick_as_its_standard_says(sold, thick):
    """ISO 7089, from memory; a wood screw of the same thread takes the same washer."""
    for screw in (read_screw(sold), read_screw(sold.replace("M", "wood "))):
        assert figure(screw, "washer_thick").value == thick


@pytest.mark.parametrize(
    ("text", "screw"),
    [
        ("wood 5x120", Screw(kind="wood", diameter=5, length=120)),
        ("Wood  4.5 x 60", Screw(kind="wood", diameter=4.5, length=60)),
        ("M6x80", Screw(kind="machine", diameter=6, length=80)),
        (" m8 x 100 ", Screw(kind="machine", diameter=8, length=100)),
    ],
)
def test_a_screw_is_read_as_it_is_sold(text, screw):
    assert read_screw(text) == screw
    assert read_screw(screw.name.replace("wood screw", "wood").replace("machine screw ", "").replace(", cap head", ""))


@pytest.mark.parametrize("text", ["", "5x120", "wood 5", "M6", "nail 3x60", "M6x80x", "wood5x120", "M-6x80"])
def test_what_is_no_screw_is_none(text):
    assert read_screw(text) is None


def test_every_screw_passes_its_own_holes_and_hides_under_its_head():
    """Pilot < shank < hole < head: a table that breaks this has a slip in it."""
    for kind in ("machine", "wood"):
        assert sizes(kind)
        for name in sizes(kind):
            screw = read_screw(f"{name}x50")
            assert screw is not None
            assert screw.kind == kind
            holes = [found.value for hole in ("fine", "medium", "coarse") if (found := figure(screw, f"hole_{hole}"))]
            assert holes == sorted(holes)
            assert all(screw.diameter < hole < figure(screw, "head").value for hole in holes), name
            pilot = figure(screw, "pilot")
            assert pilot is None or 0 < pilot.value < screw.diameter
