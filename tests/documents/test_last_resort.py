"""A fault of our own in one sheet or one file leaves the maker all the others, and a page that says what is missing.

The step shelf has a workshop paper of overall sheet, lists, parts and joints; sheets are made to fail on purpose.
"""

import json
import logging
from dataclasses import replace

import pytest

from dryfit.book import build, read_job_text
from dryfit.book.demos import demo_text
from dryfit.documents import writing
from dryfit.documents.display import Text
from dryfit.documents.looks import Desk
from dryfit.documents.sheets import SHEETS
from dryfit.documents.sheets.booklet import binding as booklet_binding
from dryfit.documents.sheets.booklet import maker as booklet_maker
from dryfit.documents.sheets.fixings import maker as fixings_maker
from dryfit.documents.sheets.joint import maker as joint_maker
from dryfit.documents.sheets.lists import maker as lists_maker
from dryfit.documents.sheets.part import maker as part_module
from dryfit.documents.workshop import paper_sheets, sheets_here, workshop_pdf, workshop_sheets
from dryfit.documents.writers import WRITERS
from dryfit.errors import Cancelled
from tests.documents.reading import pages

pytestmark = pytest.mark.usefixtures("isolated")

SOUND = ["book.json", "parts.csv", "order.csv", "workshop.pdf", "assembly.pdf", "order.pdf"]  # all but the model


@pytest.fixture(scope="module")
def book():
    return build(read_job_text(demo_text("step-shelf"), "step-shelf.toml"))


@pytest.fixture(scope="module")
def sound(book):
    return [draft.title for draft, _ in workshop_sheets(book)]


def fails(*given):
    raise ZeroDivisionError("division by zero")


@pytest.mark.parametrize("name", [name for name, sheet in SHEETS.items() if sheet.paper == "workshop"])
def test_a_kind_of_sheet_that_fails_is_replaced_by_one_page(book, sound, monkeypatch, caplog, name):
    monkeypatch.setitem(SHEETS, name, replace(SHEETS[name], make=fails))
    sheets = [draft for draft, _ in workshop_sheets(book)]

    assert [draft.kind for draft in sheets].count("fault") == 1
    assert [draft.title for draft in sheets if draft.kind != "fault"] == [
        t for t in sound if t in {d.title for d in sheets}
    ]
    assert f"not drawn: the sheets called {name}" in caplog.text


def test_a_part_whose_sheet_fails_is_the_only_one_without(book, sound, monkeypatch):
    drawn = part_module.alike_sheets
    first = min(book.piece.parts, key=lambda part: part.mark)

    def broken(desk, alike):
        if first.id in [look.part.id for look in alike.looks]:
            raise ValueError("no room for the words")
        return drawn(desk, alike)

    def pair_broken(desk, pair):
        if first.id in [look.part.id for look in pair.looks]:
            raise ValueError("no room for the words")
        yield from pairs(desk, pair)

    pairs = part_module.pair_sheets
    monkeypatch.setattr(part_module, "alike_sheets", broken)
    monkeypatch.setattr(part_module, "pair_sheets", pair_broken)
    titles = [draft.title for draft, _ in workshop_sheets(book)]

    missing = [title for title in sound if title not in titles]
    assert len(titles) == len(sound) - len(missing) + 1
    assert missing
    assert all(first.id in title for title in missing)
    (stands_in,) = [title for title in titles if title.startswith("not drawn")]
    assert first.id in stands_in


@pytest.fixture(scope="module")
def hung():
    """The record wall hangs by ten screws, all in the same chain."""
    return build(read_job_text(demo_text("record-wall")))


# ---- sheets of many things: one of them cannot be drawn


def broken_for(monkeypatch, module, name, chosen):
    """Make a function of a module fail for what is chosen, by what it is given."""
    whole = getattr(module, name)

    def broken(*given, **more):
        if chosen(*given):
            raise ValueError("no room for the words")
        return whole(*given, **more)

    monkeypatch.setattr(module, name, broken)


def of_a_kind(book, name):
    """One kind of sheet, and the titles of the pages that stand in for some."""
    sheets = list(sheets_here(SHEETS[name], Desk(book)))
    instead = [draft.title.removeprefix("not drawn: ") for draft in sheets if draft.kind == "fault"]
    return [draft for draft in sheets if draft.kind != "fault"], instead


def titles(sheets):
    return [draft.title for draft in sheets]


def is_the_leaning_side(roles):
    """On the lower shelf: D × A; the joint on the upper one is of the same kind."""
    return roles.joint.key == ("leaning side", "lower shelf")


@pytest.mark.parametrize(
    ("name", "chosen"),
    [
        ("told_of", lambda desk, joint: joint.key == ("leaning side", "lower shelf")),
        ("views", lambda desk, roles, *smaller, **several: is_the_leaning_side(roles)),
        ("alone", lambda desk, group, shown: is_the_leaning_side(group.first)),
    ],
    ids=["its words", "its views", "its sheet"],
)
def test_a_joint_that_cannot_be_drawn_is_the_only_one_without(book, monkeypatch, name, chosen):
    sound, none = of_a_kind(book, "joints")
    assert "D × A raked cross halving" in titles(sound)
    assert none == []
    broken_for(monkeypatch, joint_maker, name, chosen)
    others, instead = of_a_kind(book, "joints")
    assert titles(others) == [title for title in titles(sound) if title != "D × A raked cross halving"]
    assert instead == ["D × A cross halving"]


def test_of_joints_made_alike_it_is_said_how_many_are_without(monkeypatch):
    """Five shelves and eight uprights cross 40 times, all alike."""
    grid = build(read_job_text(demo_text("sample-grid")))
    broken_for(monkeypatch, joint_maker, "views", lambda *given, **more: True)
    assert of_a_kind(grid, "joints") == ([], ["J × A cross halving and 39 made alike"])


def test_a_step_and_a_card_that_cannot_be_drawn_are_the_only_ones_without(book, monkeypatch):
    """The pages that stand in come last: the others keep the numbers that steps and cards send to."""
    broken_for(monkeypatch, booklet_maker, "placed", lambda desk, block, *page: block.number == 2)
    broken_for(monkeypatch, booklet_binding, "card", lambda *given: True)
    steps, instead = of_a_kind(book, "assembly")
    assert titles(steps) == ["step 1 of 5", "steps 3 and 4 of 5", "step 5 of 5", "the last: to its place"]
    assert instead == ["step 2 of 5", "card G1"]


def test_a_list_that_cannot_be_made_takes_no_other_away(book, monkeypatch):
    broken_for(monkeypatch, lists_maker, "joint_list", lambda *given: True)
    sheets, instead = of_a_kind(book, "lists")
    listed = {item.text.partition(",")[0] for draft in sheets for item in draft.items if isinstance(item, Text)}
    assert {"boards", "set-ups"} <= listed
    assert instead == ["the list of joints"]


@pytest.mark.parametrize(
    ("name", "instead", "left"),
    [
        ("_wall_page", "fixings to the wall: the wall", ["F2"]),
        ("_hole_pages", "fixings to the wall: the holes", ["F1"]),
        ("section", "fixings to the wall: how the screw of hole 1 and 9 more holds", ["F1", "F2"]),
    ],
)
def test_of_the_fixings_what_can_be_drawn_is(hung, monkeypatch, name, instead, left):
    broken_for(monkeypatch, fixings_maker, name, lambda *given: True)
    sheets, missing = of_a_kind(hung, "fixings")
    assert [draft.number for draft in sheets] == left
    assert missing == [instead]


def test_the_page_in_its_place_says_what_failed_where_and_what_to_do(book, monkeypatch):
    monkeypatch.setitem(SHEETS, "joints", replace(SHEETS["joints"], make=fails))
    (page,) = [text for text in pages(workshop_pdf(book)) if "not drawn" in text]
    said = " ".join(page.split())

    assert "stopped the drawing of the sheets called joints" in said
    assert "report it, with the job file step-shelf.toml" in said
    assert "ZeroDivisionError: division by zero" in said
    assert "Traceback" not in said


def test_what_a_kind_drew_before_it_failed_is_kept(book, monkeypatch):
    make = SHEETS["overall"].make

    def half(desk):
        yield from make(desk)
        raise RuntimeError

    monkeypatch.setitem(SHEETS, "overall", replace(SHEETS["overall"], make=half))
    titles = [draft.title for draft, _ in workshop_sheets(book)]
    assert titles[:2] == ["the whole piece", "not drawn: the sheets called overall"]


def test_work_that_is_called_off_is_called_off(book, monkeypatch):
    def called_off(desk):
        raise Cancelled

    monkeypatch.setitem(SHEETS, "joints", replace(SHEETS["joints"], make=called_off))
    with pytest.raises(Cancelled):
        workshop_sheets(book)

    def stop(title):
        raise Cancelled

    with pytest.raises(Cancelled):
        paper_sheets("assembly", book, stop)


def test_a_file_that_cannot_be_made_does_not_keep_the_others_from_the_folder(book, monkeypatch, tmp_path, caplog):
    monkeypatch.setattr(type(WRITERS["model"]), "files", fails)
    with caplog.at_level(logging.WARNING, logger="dryfit"):
        written = writing.write_book(book, tmp_path)

    assert [path.name for path in written] == SOUND
    assert sorted(path.name for path in tmp_path.iterdir()) == sorted(path.name for path in written)
    assert "not made: model.glb (ZeroDivisionError: division by zero" in caplog.text


def left_out(folder):
    data = json.loads((folder / "book.json").read_text(encoding="utf-8"))
    return {one["name"]: one["why"] for one in data["left_out"]}


def test_the_data_names_the_sheets_and_files_that_are_missing(book, monkeypatch, tmp_path):
    writing.write_book(book, tmp_path / "sound")
    assert left_out(tmp_path / "sound") == {}

    monkeypatch.setitem(SHEETS, "joints", replace(SHEETS["joints"], make=fails))
    monkeypatch.setattr(type(WRITERS["model"]), "files", fails)
    written = writing.write_book(book, tmp_path)
    missing = left_out(tmp_path)

    assert [path.name for path in written] == SOUND
    assert set(missing) == {"the sheets called joints", "model.glb"}
    assert all("ZeroDivisionError: division by zero" in why for why in missing.values())


def test_where_nothing_can_be_made_the_fault_is_not_hidden(book, monkeypatch, tmp_path):
    for writer in WRITERS.values():
        monkeypatch.setattr(type(writer), "files", fails)
    with pytest.raises(ZeroDivisionError):
        writing.write_book(book, tmp_path / "papers")
    assert not (tmp_path / "papers").exists()
