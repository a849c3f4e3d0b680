"""Set-ups: which way the shop can go, what is set once for many cuts, and what it has no tool for.

A shelf 24 thick on two uprights, housed 8 deep: two housings 24.10 across are one set-up, sawn ends none. A board
hung by two screws 6 x 120 wants a bit for the counterbores and one for the holes.
"""

import json
from dataclasses import replace

from dryfit.book import build
from dryfit.book.reading import read_job_text
from dryfit.cli.findings import lines
from dryfit.documents.bookjson import book_json
from dryfit.documents.looks import Desk
from dryfit.documents.sheets.part.words.setups import setups as as_printed
from dryfit.joints import KINDS
from dryfit.piece.operations import Dial, Operation, Way, WorkSort
from dryfit.sentences import Fineness, Length
from dryfit.shop.model import Cutter, Groover, Router, Saw, Shop
from dryfit.shop.reading import parse_shop
from dryfit.shop.tools import Ability, Need, Process
from dryfit.studies import STUDIES
from dryfit.studies.setups import MadeCut, SetUpsStudy, SetUpsValue
from dryfit.study.base import Work as Report
from tests.joints.typed import board, job, joint, table

HOUSED = job(
    board("left", [[0, 0], [0, 900]]),
    board("right", [[800, 0], [800, 900]]),
    board("shelf", [[0, 400], [800, 400]]),
    joint("left", "shelf", kind="housing"),
    joint("right", "shelf", kind="housing"),
)
HUNG = job(
    '[wall]\nkind = "timber studs"\nhung = true\n',
    board("rail", [[0, 300], [900, 300]]),
    table("[[fixing]]", name="screws", board="rail", kind="long screw", at=[200, 700], screw="wood 6x120"),
)
RAKED = job(board("level", [[0, 400], [900, 400]]), board("raking", [[300, 0], [430, 900]]))
BOXED = job(
    table("[[frame]]", name="box", points=[[0, 0], [400, 0], [400, 300], [0, 300]], timber="24", depth=280),
    '[joints]\ncorner = "mitre"\n[joints.mitre]\nstrengthen = "keys"\n',
)


def built(text, shop=None):
    return build(read_job_text(text), shop)


def result(text, shop=None):
    return built(text, shop).studies["setups"]


def set_up(text, shop=None):
    return {one.name: one for one in result(text, shop).all}


def lacks(text, shop):
    return [finding for finding in built(text, shop).findings if finding.code == "no-tool"]


# ---- one setting for many cuts


def test_two_housings_are_one_setting_and_plain_ends_are_none():
    (only,) = result(HOUSED).all

    assert (only.name, only.makes, only.says) == ("R1", "housing", "router on a guide")
    assert only.cuts == ("housing in left for shelf", "housing in right for shelf")
    assert {one.dial: (str(one.says), one.mm) for one in only.sets} == {
        Dial.WIDTH: ("24.1", 24.1),
        Dial.DEPTH: ("8", 8.0),
    }


def test_a_counterbore_and_its_hole_are_two_settings_of_the_same_cuts():
    first, second = result(HUNG).all

    assert (first.name, first.makes, second.name, second.makes) == ("D1", "counterbore", "D2", "long bore")
    assert first.cuts == second.cuts == ("bore 1 of screws", "bore 2 of screws")
    assert (first.after, second.after) == ((), ("D1",))
    assert [one.name for one in result(HUNG).by_cut["bore 1 of screws"]] == ["D1", "D2"]


def test_keys_of_a_glued_corner_wait_for_it_and_both_boards_are_cut_at_once():
    keys = [one for one in result(BOXED).all if one.work is WorkSort.CORNER]

    assert len(keys) == 1
    assert len(keys[0].cuts) == 8
    assert len(keys[0].after_gluing) == 4


def test_settings_that_print_alike_are_one_and_that_differ_by_a_printed_step_are_two():
    def grouped(*widths, units="mm"):
        operations = tuple(
            Operation(
                key=f"o{n}",
                work=WorkSort.ACROSS,
                cuts=(f"c{n}",),
                ways=(
                    Way(
                        process=Process.HAND,
                        makes="slot",
                        says="by hand",
                        sets=((Dial.WIDTH, Length(wide, Fineness.WIDTH)),),
                    ),
                ),
            )
            for n, wide in enumerate(widths)
        )
        cuts = tuple(MadeCut(key=f"c{n}", board="b", called="it", age=(0, 0, n)) for n in range(len(widths)))
        value = SetUpsValue(operations=operations, cuts=cuts, shop=Shop(), units=units)
        return [one.cuts for one in SetUpsStudy().run(value, Report()).all]

    assert grouped(24.10, 24.11, 24.15) == [("c0", "c1"), ("c2",)]
    assert grouped(24.10, 24.11, 24.15, units="in") == [("c0", "c1"), ("c2",)]
    assert grouped(24.10, 24.118, units="in") == [("c0",), ("c1",)], "0.949 and 0.950 in"


# ---- what is set comes from the kind


def test_a_socket_is_no_housing_and_wants_a_dovetail_cutter():
    """A socket of a sliding dovetail: its way asks for flanks of 14 degrees; no router straight down will do."""
    way = Way(
        process=Process.ROUTER,
        makes="socket",
        says="router with a dovetail cutter",
        needs=(Need(ability=Ability.SLOPE, least=14.0, most=14.0), Need(ability=Ability.CUTTER, most=12.7)),
        sets=((Dial.WIDTH, Length(8.21, Fineness.WIDTH)), (Dial.DEPTH, Length(9.0))),
    )
    operation = Operation(key="o", work=WorkSort.ACROSS, cuts=("c",), ways=(way,))
    cuts = (MadeCut(key="c", board="b", called="the socket in b", age=(0, 0, 0)),)
    study = SetUpsStudy()

    def run(shop):
        value = SetUpsValue(operations=(operation,), cuts=cuts, shop=shop, units="mm")
        return study.findings(value, study.run(value, Report())), study.run(value, Report()).all

    (lack,), (without,) = run(Shop(cutters=(Cutter(name="straight 12", diameter=12.0, length=30.0),)))
    assert (without.makes, without.tool) == ("socket", "")
    assert str(lack.says) == "the socket in b: it needs a cutter with flanks of 14°, the nearest of the shop's is 0°"
    cutter = Cutter(name="dovetail 14", diameter=12.7, length=14.0, shape="dovetail", slope=14.0)
    none, (done,) = run(Shop(cutters=(cutter,)))
    assert (none, str(done.tool)) == ((), "plunge router with dovetail 14")
    none, (usual,) = run(Shop())
    assert (none, usual.assumed) == ((), True)


# ---- which way the shop can go


def test_where_the_router_does_not_reach_both_faces_are_worked_and_then_the_hand():
    """24 thick, leaning: each way asks for less."""
    (whole, *_), *_ = [one.ways for one in operations_of_raked()]
    reaches = [way.needs[2].least for way in operations_of_raked()[0].ways[:2]]
    assert whole.needs[2].ability is Ability.REACH
    lean = whole.needs[0].least
    room = reach_room(lean)

    def says(stick_out):
        cutter = Cutter(name="c", diameter=12.0, length=20.0, shank=8.0, stick_out=stick_out)
        shop = Shop(routers=(Router(name="r", offsets=(60.0, 60.0)),), cutters=(cutter,))
        return {str(one.says) for one in result(RAKED, shop).all if one.work is WorkSort.ACROSS}

    assert says(reaches[0] + room + 0.1) == {"router from the face, through the thickness"}
    assert says(reaches[1] + room + 0.1) == {"router from both faces, half the thickness from each"}
    assert says(reaches[1] + room - 0.2) == {"sawn by hand and pared, through the thickness"}


def reach_room(lean):
    """What a bed of 12 and a base of 60 with 25 of seat take, by plane geometry."""
    import math

    return 12.0 + (60.0 + 25.0) * math.tan(math.radians(lean))


def operations_of_raked():
    piece = built(RAKED).piece
    (made,) = piece.joints
    return KINDS[made.kind].operations(made, piece.board_by_name)


def test_a_bevel_steeper_than_saws_tilt_is_sawn_on_end_else_by_hand():
    steep = job(
        board("base", [[0, 0], [900, 0]]),
        board("post", [[300, 0], [700, 300]]),
        joint("base", "post", kind="butt", fasten="none"),
    )

    def says(**saw):
        (only,) = (one for one in result(steep, Shop(saws=(Saw(name="s", **saw),))).all if one.work is WorkSort.ENDS)
        return only.says

    assert says() == says(tilt=60.0) == "saw, the board on its end against a high fence"
    assert says(tilt=5.0) == "sawn proud by hand, pared to a template"


# ---- what is lacking


def test_a_bit_that_the_shop_does_not_have_is_a_finding_with_what_there_is():
    shop = parse_shop("[[bit]]\nname = 'auger 10'\ndiameter = 10\nlength = 460\n", "shop.toml")
    book = built(HUNG, shop)
    found = [finding for finding in book.findings if finding.code == "no-tool"]

    assert [finding.found for finding in found] == [10.0, 10.0]
    assert {finding.limit for finding in found} == {setting.set_to(Dial.WIDTH).mm for setting in result(HUNG, shop).all}
    assert all(finding.where.boards == ("rail",) and finding.unit == "mm" for finding in found)
    told = "\n".join(lines(book))
    assert "[[bit]]" in told
    assert "bore 1 of screws" in told


def test_a_shop_without_a_groover_that_plunges_so_deep_is_told_once_for_all_corners():
    (finding,) = lacks(BOXED, Shop(groovers=(Groover(name="g", plunge=8.0),)))

    assert (finding.found, finding.limit) == (8.0, 12.0)
    assert "it needs a groover that goes 12 deep" in str(finding.says)
    assert "5 more" in str(finding.says)


def test_what_is_lacking_still_has_its_setting_on_the_list():
    shop = Shop(groovers=(Groover(name="g", plunge=8.0),))
    keys = next(one for one in result(BOXED, shop).all if one.work is WorkSort.CORNER)

    assert (keys.name, keys.tool) == ("K1", "")


# ---- what is assumed, and what is named


def test_assumed_tools_are_told_as_not_looked_at_and_named_ones_are_not():
    def open_ones(shop):
        return [(str(one.what), str(one.why)) for one in built(HOUSED, shop).not_checked if one.study == "setups"]

    ((what, why),) = open_ones(None)
    assert (what, why) == ("your own tools", "no shop file is given, so usual ones are taken")
    named = parse_shop(
        "[[router]]\nname = 'r'\n[[cutter]]\nname = 'c'\ndiameter = 12\n[[saw]]\nname = 's'\n", "shop.toml"
    )
    assert open_ones(named) == []
    ((what, why),) = open_ones(parse_shop("[[saw]]\nname = 's'\n", "shop.toml"))
    assert (what, why) == (
        "your own router and cutters",
        "the shop file names none, so usual ones are taken",
    )


def test_a_tool_that_the_shop_file_names_stands_on_the_list_and_in_book_json():
    shop = parse_shop("[[router]]\nname = 'big one'\n[[cutter]]\nname = 'half inch'\ndiameter = 12.7\n", "shop.toml")
    book = built(HOUSED, shop)

    assert as_printed(Desk(book)).all[0].does == "housing, big one with half inch"
    (told,) = json.loads(book_json(book))["setups"]
    assert (told["with"], told["assumed"], told["makes"]) == ("big one with half inch", False, "housing")


# ---- a fault of ours


def test_without_a_result_the_papers_say_that_there_are_no_set_ups_and_why(isolated, monkeypatch):
    def broken(self, value, work):
        raise ValueError("of our own")

    monkeypatch.setattr(type(STUDIES["setups"]), "run", broken)
    book = built(HOUSED)
    desk = Desk(book)

    assert "setups" not in book.studies
    assert as_printed(desk).why_not.startswith("it failed: ")
    told = json.loads(book_json(book, desk))
    assert told["setups"] == []
    assert {"study-failed"} <= {finding.code for finding in book.findings}
    assert all(cut["setups"] == [] for part in told["parts"] for cut in part["cuts"])


def test_the_value_is_kept_so_an_edit_that_changes_no_operation_works_nothing_out_anew():
    piece = built(HOUSED)
    study, scene = SetUpsStudy(), piece
    assert study.run(value_of(scene), Report()) == study.run(value_of(scene), Report())
    assert value_of(scene) == value_of(replace(scene))


def value_of(book):
    from dryfit.book.building import scene_of

    return SetUpsStudy().reads(scene_of(book.job, book.shop, book.piece, book.solids))
