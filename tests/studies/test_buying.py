"""What is ordered, against sums made by hand.

The record wall, with 10 left at each end and 2 at each edge (common practice), lengths rounded up to 5:

    shelves 1 to 3     2600 x 300                     2620 x 304, three of them
    top shelf          2300 - 300 = 2000 x 300        2020 x 304
    raking 1, 2        1620 / cos 8 = 1635.92, and 24.1 tan 8 = 3.39 from long point to long point: 1639.31 x 320,
                       with 20 1659.31, so 1660 x 324, two
    middle upright     1620 x 300                     1640 x 304
    left, right        1160 x 280                     1180 x 284, two
    box 1, 3           2180 - 1720 = 460 x 280        480 x 284, two
    divider 1, 2       410 - 24.1 + 8 + 6 = 399.9 x 260    419.9, so 420 x 264, two
    stopped divider    399.9 x 300                    420 x 304
    box 2, 4           880 - 640 = 240 x 280          260 x 284, two

Its ten long screws 5 x 120 have two to spare, and so have its ten plugs and twelve keys.
"""

import dataclasses
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryfit.book import build, change_job_text, read_job_text
from dryfit.findings import NotChecked
from dryfit.piece.model import Strip
from dryfit.piece.operations import WorkSort
from dryfit.shop.model import Shop
from dryfit.studies.buying.result import Buying, Shows
from dryfit.studies.buying.supplies import finish_to_buy, spares, supplies
from dryfit.studies.buying.timber import orders, panels_for, rows_in
from dryfit.studies.buying.trials import trials
from dryfit.studies.buying.value import BuyingValue, FinishValue, PartValue, SetUpValue, TimberValue, WareValue
from dryfit.trade.stock import is_nominal, stock_of
from tests.documents import demo_papers
from tests.joints.typed import board, frame, job, rail, table

DEMOS = ("record-wall", "sample-grid", "step-shelf")
MM = {"mm": (5.0, 1.0), "in": (25.4 / 4, 25.4 / 16)}


@pytest.fixture(scope="module")
def demos():
    return {name: demo_papers.book(name) for name in DEMOS}


def bought(book):
    found = book.found(Buying)
    assert found is not None, book.left_out
    return found


def of(text, **shop):
    return build(read_job_text(text), shop=Shop(**shop))


def timber(**keys):
    return table("[timber.oak]", **{"species": "oak, white", "form": "edge-glued panel", "thickness": 20, **keys})


def shelf(*tables, **keys):
    """One board 600 x 200 of a timber that the test describes."""
    head = table("dryfit = 1\n[job]", title="typed") + timber(**keys)
    return head + table("[[board]]", name="shelf", line=[[0, 300], [600, 300]], depth=200) + "".join(tables)


# ---- boards


def test_the_record_wall_is_ordered_as_by_hand(demos):
    found = bought(demos["record-wall"])
    lots = [
        (lot.pieces, lot.length, lot.width, set(lot.boards))
        for order in found.timber
        for lot in order.lots
        if lot.what == "boards"
    ]

    for lot in (
        (3, 2620, 304, {"shelf 1", "shelf 2", "shelf 3"}),
        (1, 2020, 304, {"top shelf"}),
        (2, 1660, 324, {"raking 1", "raking 2"}),
        (1, 1640, 304, {"middle upright"}),
        (2, 1180, 284, {"left upright", "right upright"}),
        (2, 480, 284, {"box 1", "box 3"}),
        (2, 420, 264, {"divider 1", "divider 2"}),
        (1, 420, 304, {"stopped divider"}),
        (2, 260, 284, {"box 2", "box 4"}),
    ):
        assert lot in lots
    assert len(lots) == 10, "and the slanting divider"


def test_the_record_wall_s_oak_adds_up(demos):
    """3 x 2.62 x 0.304 + 2.02 x 0.304 + 2 x 1.66 x 0.324 + 1.64 x 0.304 + 2 x 1.18 x 0.284 + 2 x 0.48 x 0.284."""
    oak, _ = bought(demos["record-wall"]).timber

    assert math.fsum(lot.m2 for lot in oak.lots if lot.what == "boards") == pytest.approx(5.52064)
    assert (oak.sold, oak.least, oak.planed_to) == (24.0, 24.1, (23.8, 24.1))


@pytest.mark.parametrize("name", DEMOS)
def test_every_board_is_in_one_lot_and_no_smaller_than_its_blank_with_what_is_left_at_its_edges(demos, name):
    book = demos[name]
    found = bought(book)
    lots = [(order, lot) for order in found.timber for lot in order.lots]
    named = [board for _, lot in lots for board in lot.boards]

    assert sorted(named) == sorted(part.id for part in book.piece.parts)
    for order, lot in lots:
        for part in map(book.piece.part_by_name.__getitem__, lot.boards):
            assert part.board.timber == order.timber
            assert lot.length >= part.blank.length - 1e-6
            assert lot.width >= part.blank.width + 2 * order.edge - 1e-6
        assert lot.pieces == len(lot.boards) or lot.what == "trial cuts"


SIZES = st.tuples(st.floats(50, 3000), st.floats(20, 600))


@st.composite
def values(draw):
    """Parts of two timbers, some of them alike, in mm or inches."""
    sizes = draw(st.lists(SIZES, min_size=1, max_size=6))
    picked = draw(st.lists(st.tuples(st.sampled_from(sizes), st.sampled_from(["one", "other"])), min_size=1))
    planing = draw(st.sampled_from([0.0, 3.0]))
    parts = tuple(
        PartValue(
            name=f"p{number}",
            timber=name,
            blank=(long + 20, wide + 2 * planing, 20.0 + 2 * planing),
            finished=(long, wide),
            thickness=(20.0, 20.0),
            shows=Shows(edges=1, ends=draw(st.integers(0, 2)), faces=2),
        )
        for number, ((long, wide), name) in enumerate(picked)
    )
    used = dict.fromkeys(part.timber for part in parts)
    return BuyingValue(
        units=draw(st.sampled_from(["mm", "in"])),
        trim=10.0,
        trim_from="",
        edge=draw(st.sampled_from([0.0, 2.0])),
        edge_from="",
        spare_boards=draw(st.integers(0, 2)),
        kerf=2.0,
        parts=parts,
        timbers=tuple(
            TimberValue(
                name=name, species="oak, white", form="board", stock="hardwood boards", sold_as="board", sold=20.0,
                measured=False, planing=planing, panel=None, longest=None, kg_m3=700.0, waste=None, waste_from="",
            )
            for name in used
        ),
        setups=(),
        wares=(),
        finish=None,
    )  # fmt: skip


@given(values())
def test_lots_hold_every_part_once_and_add_up_to_what_is_ordered(value):
    made = list(orders(value, ()))
    step_long, step_wide = MM[value.units]
    named = [name for order in made for lot in order.lots for name in lot.boards]
    known = {part.name: part for part in value.parts}

    assert sorted(named) == sorted(known)
    for order in made:
        assert order.m2 == pytest.approx(sum(lot.pieces * lot.length * lot.width for lot in order.lots) / 1e6)
        assert order.kg == pytest.approx(order.m2 * order.least / 1e3 * 700)
        assert sum(lot.pieces for lot in order.lots if lot.what == "spare") == value.spare_boards
        lengths = [lot.length for lot in order.lots if lot.what == "boards"]
        assert lengths == sorted(lengths, reverse=True)
        for lot in order.lots:
            for part in map(known.__getitem__, lot.boards):
                assert 0 <= lot.length - part.blank[0] < step_long + 1e-6
                assert 0 <= lot.width - part.blank[1] - 2 * order.edge + 1e-6 < step_wide + 1e-5


# ---- thickness


@pytest.mark.parametrize(
    ("keys", "sold", "least"),
    [
        ({"thickness": 24, "measured": 24.1}, 24.0, 24.1),
        ({"thickness": 24.1}, None, 24.1),
        ({"thickness": 24.1, "nominal": 24}, 24.0, 24.1),
        ({"thickness": "3/4 in", "measured": "23/32 in"}, 19.05, 18.25625),
        ({"planed": False}, None, 26.0),
        ({"planed": False, "nominal": "5/4 in"}, 31.75, 26.0),
    ],
    ids=["as ordered", "off a caliper", "and its name", "in inches", "sawn", "sawn, and its name"],
)
def test_the_nominal_thickness_is_what_the_job_says_and_nobody_s_reading(keys, sold, least):
    book = of(shelf(**keys))
    (order,) = bought(book).timber

    assert (order.sold, order.least) == (sold, pytest.approx(least))
    open_ones = [left for left in book.not_checked if left.study == "buying"]
    assert bool(open_ones) == (sold is None)
    for left in open_ones:
        assert isinstance(left, NotChecked)
        assert left.where.path == ("timber", "oak", "nominal")


@pytest.mark.parametrize(
    ("thickness", "sold"), [(18, True), (19.5, True), (20.6375, True), (24.1, False), (19.8, False), (18.26, True)]
)
def test_whole_and_half_millimetres_and_32nds_of_an_inch_are_sold(thickness, sold):
    """20.6375 is 26/32 in, 18.26 is 23/32 in told to a hundredth."""
    assert is_nominal(thickness) is sold


@pytest.mark.parametrize(
    ("keys", "found"),
    [
        ({"planed": False, "nominal": 25}, 25.0),
        ({"planed": False, "nominal": 26}, None),
        ({"nominal": 18}, 18.0),
        ({"nominal": 19}, None),
    ],
    ids=["sawn, 26 wanted", "sawn, just enough", "planed, 2 under", "planed, 1 under (EN 13353, from memory)"],
)
def test_stock_that_is_sold_too_thin_is_found(keys, found):
    book = of(shelf(**keys))

    thin = [one for one in book.findings if one.code == "stock-too-thin"]
    assert [one.found for one in thin] == ([] if found is None else [found])
    for one in thin:
        (cure,) = one.cures
        cured, _ = change_job_text(book.job.text, cure.edits)
        after = build(read_job_text(cured)).findings
        assert "stock-too-thin" not in {left.code for left in after}
        assert "if it is to be had" in str(cure.label), "what can be had no job knows"


# ---- panels


@pytest.mark.parametrize(
    ("whole", "one", "kerf", "count"),
    [(2440, 300, 3.2, 8), (2420, 300, 3.2, 7), (600, 300, 0, 2), (600, 300, 0.1, 1), (299, 300, 0, 0)],
)
def test_pieces_of_a_length_have_a_kerf_between_them(whole, one, kerf, count):
    """8 x 300 + 7 x 3.2 = 2422.4."""
    assert rows_in(whole, one, kerf) == count


def test_a_panel_gives_rows_along_and_across_it_and_one_length_what_its_length_holds():
    """620 x 204 out of 2500 x 1220 with kerfs of 2: 4 along (4 x 620 + 6 = 2486), 5 across (5 x 204 + 8 = 1028)."""
    (order,) = bought(of(shelf(panel=[2500, 1220]))).timber
    assert order.lots[0].from_panel == 20
    assert order.panels == (1, 1)
    (order,) = bought(of(shelf(longest=2500))).timber
    assert (order.lots[0].from_panel, order.panels) == (4, None)
    (order,) = bought(of(shelf())).timber
    assert order.lots[0].from_panel is None


@given(values())
def test_panels_that_are_said_to_do_are_no_fewer_than_their_area_asks_and_no_more_than_the_pieces(value):
    for order in orders(value, ()):
        panel = max(lot.length for lot in order.lots), 2.5 * max(lot.width for lot in order.lots)
        count = panels_for(panel, order.lots, value.kerf)
        pieces = sum(lot.pieces for lot in order.lots)

        assert order.m2 * 1e6 / (panel[0] * panel[1]) <= count + 1e-6
        assert count <= -(-pieces // 2), "two rows of the widest go into a panel, and each row holds one piece at least"


def test_a_board_wider_than_its_panel_is_found_and_one_that_fits_with_its_edges_is_not():
    """200 with 2 at each edge is 204."""
    narrow, enough = of(shelf(panel=[2500, 203])), of(shelf(panel=[2500, 204]))

    (finding,) = [one for one in narrow.findings if one.code == "panel-too-narrow"]
    assert (finding.found, finding.limit, finding.where.boards) == (203.0, 204.0, ("shelf",))
    assert not [one for one in enough.findings if one.code == "panel-too-narrow"]


@pytest.mark.parametrize(
    ("keys", "shop", "wide"),
    [
        ({}, {}, 204),
        ({}, {"trim_edge": 5.0}, 210),
        ({"form": "plywood"}, {"trim_edge": 5.0}, 200),
        ({"planed": False}, {"trim_edge": 5.0}, 206),
    ],
    ids=["common practice", "the shop file", "a sheet", "sawn: what is planed off"],
)
def test_what_is_left_at_the_edges_goes_by_the_shop_and_by_how_the_timber_is_sold(keys, shop, wide):
    (order,) = bought(of(shelf(**keys), **shop)).timber

    assert {lot.width for lot in order.lots if lot.what == "boards"} == {wide}


def test_spare_boards_are_as_long_as_the_longest_of_each_timber(demos):
    book = build(demos["record-wall"].job, shop=Shop(spare_boards=1))
    spare = [(lot.length, lot.width) for order in bought(book).timber for lot in order.lots if lot.what == "spare"]

    assert spare == [(2620, 304), (430, 264)]


@pytest.mark.parametrize(
    ("form", "species", "stock", "waste"),
    [
        ("edge-glued panel", "oak, white", "edge-glued panels", 0.10),
        ("plywood", "plywood, birch", "sheets", 0.10),
        ("board", "oak, white", "hardwood boards", 0.15),
        ("board", "pine, Scots", "softwood boards", 0.05),
    ],
)
def test_waste_goes_by_the_sort_of_stock(form, species, stock, waste):
    """A furniture-making textbook's 15 to 20 for square-edged hardwood, 5 to 10 for softwood, 10 to 20 for sheets."""
    found = stock_of(form, species)

    assert (found.name, found.waste.low) == (stock, waste)


# ---- what shows

HUNG, STANDS, FREE = '[wall]\nkind = "brick"\nhung = true\n', '[wall]\nkind = "brick"\n', '[wall]\nkind = "nothing"\n'


@pytest.mark.parametrize(
    ("tables", "name", "shows"),
    [
        ((board("up", [[0, 0], [0, 900]]), STANDS), "up", (1, 1, 2)),
        ((board("up", [[0, 0], [0, 900]]), HUNG), "up", (1, 2, 2)),
        ((board("up", [[0, 0], [0, 900]]), FREE), "up", (2, 1, 2)),
        ((board("up", [[0, 0], [0, 900]]),), "up", (2, 1, 2)),
        ((board("low", [[0, 12], [900, 12]]), STANDS), "low", (1, 2, 1)),
        ((board("out", [[0, 400], [900, 400]], back=20), STANDS), "out", (2, 2, 2)),
        ((rail("rail", [[0, 400], [900, 400]], back=0), STANDS), "rail", (2, 2, 1)),
        ((frame([[0, 400], [900, 400], [900, 900], [0, 900]]), STANDS), "box 1", (1, 0, 2)),
        (
            (board("up", [[0, 0], [0, 900]]), board("shelf", [[0, 400], [600, 400]]), STANDS),
            "shelf",
            (1, 1, 2),
        ),
    ],
    ids=["stands", "hangs", "stands free", "no wall said", "on the floor", "off the wall", "flat", "mitred", "housed"],
)  # fmt: skip
def test_what_shows_of_a_board_goes_by_how_it_stands(tables, name, shows):
    found = bought(of(job(*tables)))
    (lot,) = [lot for order in found.timber for lot in order.lots if name in lot.boards]

    assert (lot.shows.edges, lot.shows.ends, lot.shows.faces) == shows


# ---- trial cuts


def test_each_set_up_of_a_demo_has_its_trial_in_wood_of_its_own_boards(demos):
    for name in DEMOS:
        book = demos[name]
        found = bought(book)
        tried = [setup for trial in found.trials for setup in trial.setups]
        named = {setup.name for setup in book.studies["setups"].all}
        assert set(tried) == named
        for order in found.timber:
            lots = [lot for lot in order.lots if lot.what == "trial cuts"]
            room = sum(lot.pieces * lot.length for lot in lots)
            assert room >= sum(trial.length for trial in found.trials if trial.timber == order.timber)


def part(name, timber, width, thick=20.0):
    return PartValue(
        name=name,
        timber=timber,
        blank=(620.0, width, thick),
        finished=(600.0, width),
        thickness=(thick, thick),
        shows=Shows(edges=1, ends=2, faces=2),
    )


def setup(name, work, parts, across=0.0, lean=0.0, cuts=("a cut",)):
    return SetUpValue(name=name, work=work, across=across, lean=lean, cuts=cuts, parts=parts)


@pytest.mark.parametrize(
    ("setups", "lengths"),
    [
        ([setup("R1", WorkSort.ACROSS, ("a",), 20.15)], [90.0]),
        ([setup("R1", WorkSort.ACROSS, ("a",), 20.15, lean=45.0)], [110.0]),
        ([setup("D1", WorkSort.HOLES, ("a",), 12.0), setup("D2", WorkSort.HOLES, ("a",), 5.5)], [80.0]),
        (
            [setup("D1", WorkSort.HOLES, ("a",), 12.0), setup("D2", WorkSort.HOLES, ("a",), 5.5, cuts=("other",))],
            [80.0, 70.0],
        ),
        ([setup("M1", WorkSort.ENDS, ("a",), lean=40.0)], [200.0]),
        ([setup("K1", WorkSort.CORNER, ("a", "b"), 4.0)], [100.0, 100.0]),
    ],
    ids=["slot", "leaning slot", "two bits of a hole", "two holes", "bevel", "corner"],
)
def test_a_trial_has_whole_wood_beside_its_cut(setups, lengths):
    """20.15 + 60 = 80.15; leaning 45: 20.15 x 1.4142 + 20 + 60 = 108.5; told to 10."""
    parts = [part("a", "oak", 200.0), part("b", "ash", 250.0)]

    assert [trial.length for trial in trials(setups, parts, "mm")] == lengths


def test_a_keyed_corner_is_tried_in_a_half_of_either_board():
    parts = [part("a", "oak", 200.0), part("b", "ash", 250.0)]

    made = list(trials([setup("K1", WorkSort.CORNER, ("a", "b"), 4.0)], parts, "mm"))
    assert [(trial.timber, trial.width) for trial in made] == [("oak", 200.0), ("ash", 250.0)]


# ---- hardware, finish


@pytest.mark.parametrize(("needed", "more"), [(1, 2), (10, 2), (20, 2), (21, 3), (45, 5)])
def test_spares_are_one_in_ten_and_two_at_least(needed, more):
    assert spares(needed) == more


def ware(name, count, strip=None, joint=("a", "b"), asks=""):
    return WareValue(
        name=name, says="4 thick", asks=asks, printed=f"4 thick {asks}", in_mm=False, joint=joint, count=count,
        strip=strip, diameter=None,
    )  # fmt: skip


def test_hardware_of_one_size_is_one_row_with_its_spares_and_the_strip_for_all_of_it():
    """12 keys and 2 to spare, 40 long each with a kerf of 2: 14 x 42 = 588, and 10 to hold, told to 10: 600."""
    key = Strip(along=40.0, across=22.0, thick=4.0)
    (row,) = supplies([ware("key", 6, key), ware("key", 6, key, ("a", "c"))], kerf=2.0)

    assert (row.needed, row.take, row.strip) == (12, 14, (600.0, 22.0, 4.0))
    assert row.joints == (("a", "b"), ("a", "c"))


def test_plugs_are_cut_side_by_side_and_no_saw_parts_them():
    """10 and 2 to spare, 18 each: 216, and 10 to hold: 226, told to 10."""
    (row,) = supplies([ware("plug", 10, Strip(along=18.0, across=18.0, thick=8.0, sawn=False))], kerf=2.0)

    assert row.strip == (230.0, 18.0, 8.0)


def test_screws_of_one_size_that_must_be_otherwise_are_rows_of_their_own():
    rows = supplies([ware("screw", 2, asks="plain shank for 57"), ware("screw", 2, asks="plain shank for 40")], 2.0)

    assert [row.needed for row in rows] == [2, 2]


def test_a_long_wood_screw_is_smooth_in_the_grip(demos):
    """300 deep and bored 243 from the front: 57 of grip."""
    (screw,) = [one for one in bought(demos["record-wall"]).hardware if one.name == "wood screw"]

    assert str(screw.asks) == "plain shank for 57"
    assert (screw.needed, screw.take) == (10, 12)


FINISH = FinishValue(
    system="x", coats=3, m2=6.0, off_m2=1.0, covers=12.0, covers_from="", into_wood=False, masks=()
)  # fmt: skip


def test_litres_are_area_by_coats_by_what_a_litre_covers_and_a_tenth():
    """6 x 3 / 12 = 1.5, and a tenth 1.65."""
    assert finish_to_buy(FINISH).litres == pytest.approx(1.65)
    assert finish_to_buy(dataclasses.replace(FINISH, covers=None)).litres is None


def test_a_tin_s_own_figure_goes_before_the_trade_s():
    own = bought(of(shelf(table("[finish]", system="hardwax oil", coats=2, coverage=30))))
    usual = bought(of(shelf(table("[finish]", system="hardwax oil", coats=2))))
    unknown = bought(of(shelf(table("[finish]", system="grandfather's wax", coats=2))))

    assert (own.finish.covers, own.finish.covers_from) == (30.0, "the job file")
    assert (usual.finish.covers, usual.finish.covers_from) == (20.0, "guides to hardwax oil on floors")
    assert (unknown.finish.covers, unknown.finish.litres) == (None, None)
    assert usual.finish.grits == (150, 180, 240)


def test_masking_tape_is_two_strips_across_each_joint_of_a_coated_board():
    """Two boards 24 thick cross over 300, both coated: four strips of 300, and a tenth: 1.32 m."""
    both = board("a", [[0, 300], [600, 300]]) + board("b", [[300, 0], [300, 600]])
    finish = {"system": "shellac", "coats": 2, "before_assembly": ["a", "b"]}

    masked = bought(of(job(both, table("[finish]", **finish))))
    coated = bought(of(job(both, table("[finish]", **finish, joint_zones="coated"))))
    assert masked.finish.tape == pytest.approx(1.32)
    assert set(masked.finish.masked) == {"a", "b"}
    assert coated.finish.tape == 0


def test_a_job_without_a_finish_orders_none(demos):
    assert bought(demos["step-shelf"]).finish is None
