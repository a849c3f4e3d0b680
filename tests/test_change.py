"""`dryfit change`: what differs between two jobs is what the books' own data say, cut wood first, nothing besides."""

import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dryfit.book import build, read_job_text
from dryfit.book.demos import demo_text
from dryfit.cli import main
from dryfit.documents.bookjson import book_data, book_json
from dryfit.documents.changed import changes
from tests.joints.typed import board, book_of, job


def piece(wide=1000, shelf=400, thick="24"):
    """Two sides and a shelf let into them."""
    return job(
        board("left", ((12, 0), (12, 800)), timber=thick),
        board("right", ((wide - 12, 0), (wide - 12, 800)), timber=thick),
        board("shelf", ((12, shelf), (wide - 12, shelf)), timber=thick),
    )


def compared(one, other):
    return changes(book_data(book_of(one)), book_data(book_of(other)))


def test_a_job_does_not_differ_from_itself():
    assert not compared(piece(), piece()).any


def test_what_was_made_of_a_job_does_not_differ_from_it(tmp_path, capsys):
    """By way of book.json as it is written, for the largest demo."""
    text = demo_text("record-wall")
    path, made = tmp_path / "record-wall.toml", tmp_path / "book.json"
    path.write_text(text, encoding="utf-8")
    made.write_text(book_json(build(read_job_text(text))), encoding="utf-8")
    assert main(["change", str(made), str(path)]) == 0
    assert "nothing of the piece differs" in capsys.readouterr().out


@given(by=st.floats(-150.0, 150.0).filter(lambda by: abs(by) > 1.0))
@settings(max_examples=10)
def test_a_shelf_that_moves_moves_its_two_housings_and_nothing_else(by):
    found = compared(piece(), piece(shelf=400 + by))
    assert {part.name for part in found.parts} == {"left", "right"}
    assert not found.bought
    for part in found.parts:
        (cut,) = part.cuts
        assert not part.sizes
        for figure in cut.figures:
            assert figure.word == "position"
            assert figure.after - figure.before == pytest.approx(by, abs=2e-3)


def test_a_wider_piece_has_a_longer_shelf_to_order():
    found = compared(piece(), piece(wide=1100))
    (part,) = found.parts
    (size,) = part.sizes
    assert (part.name, size.word) == ("shelf", "length")
    assert size.after - size.before == pytest.approx(100.0)
    lengths = {row.how: row.sizes[0] for row in found.bought}
    assert lengths["new"] - lengths["gone"] == pytest.approx(100.0)
    assert lengths["new"] >= size.after + 20  # 10 to trim at each end


def test_a_board_that_comes_or_goes_is_told():
    more = piece() + board("divider", ((500, 400), (500, 800)))
    assert [(part.name, part.how) for part in compared(piece(), more).parts if part.how != "changed"] == [
        ("divider", "new")
    ]
    back = compared(more, piece())
    assert [(part.name, part.how) for part in back.parts if part.how != "changed"] == [("divider", "gone")]
    assert back.order is not None


def test_what_is_in_the_wood_comes_first_and_is_said_loudly(tmp_path, capsys):
    old, new = tmp_path / "old.toml", tmp_path / "new.toml"
    old.write_text(piece())
    assert main(["cut", str(old), "right"]) == 0
    new.write_text(piece(shelf=300))
    capsys.readouterr()
    assert main(["change", str(old), str(new)]) == 1
    said = capsys.readouterr().out
    loud, quiet = said.index("IN WOOD THAT IS CUT ALREADY"), said.index("Parts; their sheets")
    assert loud < said.index("B right") < quiet < said.index("A left")
    assert "CUT: " in said


@pytest.mark.parametrize(
    ("name", "text"), [("none.json", None), ("no.json", "[1]"), ("half.json", '{"parts": ['), ("list.json", "{}")]
)
def test_what_is_no_book_is_told_plainly(name, text, tmp_path, capsys):
    path, other = tmp_path / name, tmp_path / "job.toml"
    other.write_text(piece())
    if text is not None:
        path.write_text(text)
    assert main(["change", str(path), str(other)]) == 2
    said = capsys.readouterr().err
    assert name in said
    assert "book.json" in said
    assert "Traceback" not in said


def test_names_that_look_like_words_of_ours_are_told_as_they_are(tmp_path):
    text = piece().replace('"shelf"', '"on the new > gone"')
    moved = text.replace("400", "420")
    found = compared(text, moved)
    assert json.dumps([cut.key for part in found.parts for cut in part.cuts]).count("on the new > gone") == 2
