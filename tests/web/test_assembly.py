"""How the piece goes together, as the page is told it: no other figure than booklet, glue-up cards and joints print.

The record wall's job is built here again, in a process of its own, and its sheets are drawn as they are printed; the
page's words are compared with what stands on them. Play is worked out once more from book.json: what is cut between
the walls, less the thickness that goes in.
"""

import re
from itertools import product

import pytest
from shapely import Polygon

from dryfit.book import build, read_job_text
from dryfit.book.demos import demo_text
from dryfit.documents.bookjson import book_data
from dryfit.documents.display import Text
from dryfit.documents.looks import Desk
from dryfit.documents.sheets.booklet.pages import pages
from dryfit.documents.sheets.wall_steps.maker import pages as wall_pages
from dryfit.documents.workshop import paper_sheets
from dryfit.editing.assembling import assembly_of
from tests.web.served import Window
from tests.web.test_worker import rested

FIGURE = re.compile(r"\d+(?:[.:/]\d+)*")


@pytest.fixture(scope="module")
def wall(tmp_path_factory):
    path = tmp_path_factory.mktemp("wall") / "wall.toml"
    path.write_text(demo_text("record-wall"), encoding="utf-8")
    window = Window(path)
    with window.client:
        rested(window)
        yield window


@pytest.fixture(scope="module")
def told(wall):
    return wall.client.get("/api/assembly").raise_for_status().json()


@pytest.fixture(scope="module")
def desk():
    return Desk(build(read_job_text(demo_text("record-wall"))))


@pytest.fixture(scope="module")
def printed(desk):
    """The words on each finished sheet of the booklet, as they are printed."""
    sheets = paper_sheets("assembly", desk.book, desk=desk)
    return [" ".join(item.text for item in display.items if isinstance(item, Text)) for _, display in sheets]


def shown(desk):
    """The sheets of the booklet, then the steps on the wall of the hanging book."""
    return [*pages(desk), *wall_pages(desk)]


def bare(text, desk):
    """Its figures, those of boards' names left out."""
    for name in sorted(desk.marks, key=len, reverse=True):
        text = text.replace(name, "")
    return FIGURE.findall(text)


def test_the_steps_are_the_booklets_sheets_with_their_figures(told, desk):
    every = shown(desk)
    assert told["why"] == ""
    assert len(told["steps"]) == len(every)
    for step, page in zip(told["steps"], every, strict=True):
        assert step["whole"] == page.whole
        act = page.act
        for said, there in ((step["title"], act.title), (step["says"], act.says)):
            assert bare(said, desk) == bare(there, desk), (said, there)
        assert [bare(one, desk) for one in step["minds"]] == [bare(one, desk) for one in act.minds]
        if page.step is not None and len(page.incoming) == 1:
            assert page.incoming[0] in step["title"], "boards go by their names"


def test_no_letter_and_no_page_is_told_where_there_are_none(told, desk):
    """The page has no letters and no pages: a sentence that sends to them would lead nowhere."""
    letters = set(desk.marks.values())
    words = [word for step in told["steps"] for text in (step["title"], *step["puts"]) for word in text.split()]
    assert not {word.strip(",.;") for word in words} & letters
    texts = [text for step in told["steps"] for text in (step["title"], *step["puts"], *step["minds"])]
    assert not any("page" in text or any(ord(letter) > 0xE000 for letter in text) for text in texts)


def test_a_cards_figures_are_those_on_the_printed_card(told, printed):
    assert told["cards"], "the demo is glued"
    for card in told["cards"]:
        (sheet,) = (text for text in printed if f"G{card['number']} GLUE-UP" in re.sub(r"\s+", " ", text))
        figures = set(FIGURE.findall(sheet))
        assert {what.split()[0] for what, _, _ in card["figures"]} == {"open", "time", "in", "glue"}
        for _, figure, _ in card["figures"]:
            assert figure in sheet.split(), figure
        for words, lengths in card["measured"]:
            assert set(FIGURE.findall(lengths)) <= figures, (words, lengths)
        clock = card["notes"][0]
        assert set(FIGURE.findall(clock)) <= figures


def test_each_step_that_is_glued_has_its_card(told, desk):
    glued = {step: cards for step, one in enumerate(told["steps"]) if (cards := one["cards"])}
    numbers = {number for cards in glued.values() for number in cards}
    assert numbers == {card["number"] for card in told["cards"] if card["called"]}


def test_the_play_of_what_goes_home_is_what_is_cut_less_what_goes_in(told, desk):
    """A cross halving of the demo: 27 of wood in a slot of 27.20 has 0.20 of play, as its joint's sheet says."""
    data = book_data(desk.book)
    cuts = {cut["key"]: (part["id"], cut) for part in data["parts"] for cut in part["cuts"]}
    kinds = {tuple(joint["between"]): joint for joint in data["joints"]}
    homes = [home for step in told["steps"] for home in step["homes"]]
    halvings = [home for home in homes if kinds[tuple(home["joint"])]["kind"] == "cross halving"]
    assert len(halvings) > 5
    for home in halvings:
        joint = kinds[tuple(home["joint"])]
        meeting = desk.book.piece.joint_by_key[tuple(home["joint"])].meeting
        plays = set()
        for key in joint["cuts"]:
            body, cut = cuts[key]
            other = next(name for name in joint["between"] if name != body)
            thick = desk.book.piece.board_by_name[other].thickness_at(meeting.side(other).at)  # as measured just there
            plays.add(f"{cut['across'] - thick:.2f}")
        (said,) = (text for text in home["says"] if text.endswith("in all across the walls."))
        assert {f"{float(figure):.2f}" for figure in FIGURE.findall(said)} == plays, home
        assert home["slides"], "two slots slide along each other"


def test_in_a_section_no_wood_lies_in_other_wood(told):
    """Mated parts never overlap, whichever way they are cut."""
    homes = [home for step in told["steps"] for home in step["homes"]]
    assert all(home["section"] for home in homes)
    for home in homes:
        one, other = ([Polygon(area) for area in wood["areas"]] for wood in home["section"]["wood"])
        assert one, home["joint"]
        assert other, home["joint"]
        common = sum(a.intersection(b).area for a, b in product(one, other))
        assert common < 0.1, home["joint"]  # mm2: their corners are rounded to 0.001 over some 300 mm
        assert {wood["board"] for wood in home["section"]["wood"]} == {home["going"], home["into"]}


def test_keys_are_told_where_they_wait_for_the_glue_and_screws_at_the_wall(told, desk):
    joints = {tuple(joint.key): joint for joint in desk.book.piece.joints}
    for step, page in zip(told["steps"], shown(desk), strict=True):
        for ware in step["wares"]:
            joint = joints[tuple(ware["joint"])]
            assert ("wall" in joint.key) <= (page.whole or page.hung)
            assert not page.whole or "wall" in joint.key
            if page.after:
                assert set(joint.key) <= set(page.there)
    into_the_wall = [
        (page.hung, tuple(ware["joint"]))
        for step, page in zip(told["steps"], shown(desk), strict=True)
        for ware in step["wares"]
        if "wall" in ware["joint"]
    ]
    every = sorted(key for key in joints if "wall" in key)
    assert sorted(key for hung, key in into_the_wall if not hung) == every, "lifted whole, all at the last sheet"
    assert sorted(key for hung, key in into_the_wall if hung) == every, "on the wall, each as its board goes up"
    late = [
        ware["says"]
        for step, page in zip(told["steps"], shown(desk), strict=True)
        if page.after
        for ware in step["wares"]
    ]
    assert all(re.match(r"\d+ key", said) for said in late)
    assert late


def test_before_its_book_is_made_nothing_is_told(wall):
    """Words of another text would be untrue: it is refused until the slow work has answered."""
    wall.do(do="typed", card={}, key=["timber", "oak24", "thickness"], entry="25").raise_for_status()
    answer = wall.client.get("/api/assembly")
    assert answer.status_code == 409 or answer.json()["revision"] == wall.state()["drawn"]
    rested(wall)
    assert wall.client.get("/api/assembly").raise_for_status().json()["revision"] == wall.state()["drawn"]


def test_without_boards_the_reason_is_told():
    """An empty list alone would look like an answer."""
    book = build(read_job_text("dryfit = 1\n"))
    told = assembly_of(Desk(book), 1)
    assert told.why == "There is nothing to put together."
    assert told.steps == ()
