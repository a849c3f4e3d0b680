"""Finishes and glues: films by the arithmetic of coatings, and what every row must say.

A litre on a square metre is 1000 micrometres wet; spread s in m2/l leaves 1000/s wet and, of solids v by
volume, 1000 v / s dry. At 0.45 and 12 m2/l that is 37.5 micrometres.
"""

import pytest

from dryfit.trade import finishes, glues
from dryfit.trade.figures import rows


def worked_film(solids, spread):
    """Dry film in mm, as notes on coating arithmetic print it: 0.45 at 12 m2/l leaves 37.5 micrometres."""
    return solids / spread


def figure(word, name):
    return finishes.figure(finishes.find_system(word).found, name)


def test_polyurethane_varnish_leaves_what_its_data_sheet_states():
    """1.3 mil dry of 2.9 mil wet; a mil is 25.4 micrometres."""
    film = finishes.film_of("varnish, polyurethane")

    assert film.value == pytest.approx(1.3 * 0.0254, abs=5e-4)
    assert film.unit == "mm"
    assert film.status == "seen"
    assert figure("varnish, polyurethane", "solids").value == pytest.approx(1.3 / 2.9, abs=5e-3)
    assert film.high == pytest.approx(worked_film(0.45, figure("varnish, polyurethane", "spread").low))


def test_water_borne_varnish_leaves_what_its_spread_gives():
    film, solids, spread = (figure("varnish, water-borne", name) for name in ("film", "solids", "spread"))

    assert film.low == pytest.approx(worked_film(solids.value, spread.high), abs=5e-4)
    assert film.high == pytest.approx(worked_film(solids.value, spread.low), abs=6e-4)


def test_shellac_leaves_what_its_spread_gives():
    film, solids, spread = (figure("shellac", name) for name in ("film", "solids", "spread"))

    assert film.low == pytest.approx(worked_film(solids.value, spread.high), abs=5e-4)
    assert film.high == pytest.approx(worked_film(solids.value, spread.low), abs=5e-4)


@pytest.mark.parametrize("word", ["paint", "varnish", "", "floor finish, one-part"])
def test_no_film_is_given_for_what_names_no_one_system_or_has_none(word):
    assert finishes.film_of(word) is None


@pytest.mark.parametrize("word", ["Polyurethane varnish, oil-based", "varnish_polyurethane", "VARNISH, polyurethane"])
def test_a_system_is_found_in_either_order_and_any_case(word):
    found = finishes.find_system(word).found
    assert found is not None
    assert found.id == "varnish_polyurethane"


def test_every_system_and_glue_is_found_by_its_id_and_name():
    for system in finishes.all_systems():
        assert finishes.find_system(system.id).found == finishes.find_system(system.name).found == system
    for glue in glues.all_glues():
        assert glues.find_glue(glue.id).found == glues.find_glue(glue.name).found == glue


@pytest.mark.parametrize("file", ["finishes", "glues", "screws"])
def test_every_row_says_how_it_is_known_and_lies_within_its_range(file):
    ids = {row["id"] for row in rows(f"{file}.csv")}
    for row in rows(f"{file}_figures.csv"):
        assert row["id"] in ids, row
        assert row["status"] in {"seen", "derived", "memory", "practice"}, row
        assert bool(row["source"]) == (row["status"] != "practice"), row
        assert ("worked from" in row["table"]) == (row["status"] == "derived"), row
        low, high = float(row["low"] or row["value"]), float(row["high"] or row["value"])
        assert low <= float(row["value"]) <= high, row


def test_the_time_to_plan_a_glue_up_by_is_the_shorter_one():
    for glue in glues.all_glues():
        open_time = glues.figure(glue, "open_time")
        assert open_time.value == open_time.low, glue.name
        assert open_time.unit == "min"


def test_a_glue_says_what_it_is_for_and_where_that_is_said():
    d3 = glues.find_glue("PVA D3").found

    assert d3.use.startswith("indoors, often wet")
    assert d3.use_from.startswith("EN 204")
    assert "(from memory)" in glues.figure(d3, "spread").cited
