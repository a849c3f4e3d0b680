"""What is cut stays cut: whatever is done to the job, recorded figures stay in the piece, or something stops.

Pieces are drawn, some of their cuts recorded, and the job is then edited as on the page. Of every record one of
two things holds after each edit: its cut has the recorded figures, read off the exact shapes as a sheet reads
them, or a stop speaks of it. Recording all of a piece changes nothing of it but that it is made.
"""

import math
import re
from dataclasses import replace

import manifold3d as m3
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dryfit.book import build, read_job_text
from dryfit.documents.bookjson import book_data
from dryfit.documents.looks import Desk
from dryfit.documents.naming import position, printing_in, width
from dryfit.documents.sheets.part.words.cuts import rows
from dryfit.findings import Severity
from dryfit.joints import KINDS
from dryfit.keeping import Keep
from dryfit.piece.as_cut import fitting
from dryfit.piece.building import build_piece
from dryfit.piece.kinds import Kinds
from dryfit.piece.made import read_made_text
from dryfit.piece.recording import record_of, recorded_text
from dryfit.piece.reshaping import can_lean, lean_of_end, measured
from dryfit.piece.setout import NOTHING_MADE
from dryfit.shop.model import Shop
from tests.property.drawn_frames import changed, furnished
from tests.property.test_incremental import edits
from tests.strategies import pieces

WRITTEN = 0.0011  # figures are written to 0.001, shapes held to 1e-6
PRINTED_LEAN = 0.05  # degrees, as sheets print them


def built(job, made=NOTHING_MADE, keep=None):
    return build_piece(job, Kinds(KINDS), Shop(), made, keep)


def recorded(piece, choose):
    """A made file with the cuts that `choose` picks, as it is read back."""
    records = [record_of(piece, part, cut) for part in piece.parts for cut in part.cuts if choose(cut)]
    text = recorded_text("", piece, NOTHING_MADE, records)
    return read_made_text(text, "wall.made.toml") if records else NOTHING_MADE


def is_stopped(piece, one):
    """Whether a stop speaks of this very record, by its place in the file."""
    return any(
        finding.severity is Severity.STOP and re.search(f"{one.place}(?![0-9])", f"{finding.says!s} {finding.remedy!s}")
        for finding in piece.findings
        if finding.code.startswith("cut-")
    )


def holds(piece, one):
    """Whether a part has a recorded cut with the recorded figures."""
    part = piece.part_by_name.get(one.board)
    cuts = fitting(part.board, part.cuts, one) if part is not None else []
    if not cuts or not all(cut.made for cut in cuts):
        return False
    (cut, *_) = cuts
    if one.end:  # a stepped mitre cannot be turned: within the step that sheets print it is as it is, beyond it a stop
        leans = WRITTEN if can_lean(cut) else PRINTED_LEAN
        return abs(part.length - one.length) <= WRITTEN and abs(lean_of_end(cut) - one.lean) <= leans
    found = measured(part.board, cut, part.zero)
    figures = ("at", "across", "deep", "lean", "stop", "stop_wall")
    pairs = [(getattr(one, name), getattr(found, name)) for name in figures]
    near = all(a is None or (b is not None and abs(a - b) <= WRITTEN) for a, b in pairs)
    return near and found.opens == one.opens


@settings(max_examples=60)
@given(drawing=pieces(), data=st.data())
def test_recorded_figures_stay_through_any_edit_or_something_stops(drawing, data):
    job = drawing.job
    made = recorded(built(job), lambda cut: data.draw(st.booleans(), label=cut.key))
    keep = Keep()
    for _ in range(data.draw(st.integers(1, 3), label="edits")):
        job = data.draw(edits(job))
        piece = built(job, made, keep)
        for one in made.cuts:
            assert holds(piece, one) or is_stopped(piece, one), one
        assert repr(piece) == repr(built(job, made)), "warm and cold differ"


@settings(max_examples=40)
@given(frame=furnished(), data=st.data())
def test_so_do_those_of_frames_and_what_crosses_them(frame, data):
    made = recorded(built(read_job_text(frame.text())), lambda cut: data.draw(st.booleans(), label=cut.key))
    for _ in range(data.draw(st.integers(1, 3), label="edits")):
        frame = data.draw(changed(frame))
        piece = built(read_job_text(frame.text()), made)
        for one in made.cuts:
            assert holds(piece, one) or is_stopped(piece, one), one


def told(piece):
    """What was found; how a locked piece is freed may differ, since a slot that is cut is not turned round."""
    return sorted((one.code, one.severity, sorted(one.where.boards)) for one in piece.findings)


@settings(max_examples=40)
@given(drawing=pieces())
def test_recording_all_of_a_piece_changes_nothing_but_that_it_is_made(drawing):
    before = built(drawing.job)
    after = built(drawing.job, recorded(before, lambda cut: True))
    assert all(cut.made for part in after.parts for cut in part.cuts)
    unmade = [replace(part, cuts=tuple(replace(cut, made=False) for cut in part.cuts)) for part in after.parts]
    assert unmade == list(before.parts)
    assert told(after) == told(before)


def on_the_sheet(desk, one, key):
    """The row of a cut in its part's table, as the sheet prints it: all its texts."""
    look = desk.looks[one.board]
    number = str(look.numbers[key])
    return next([cell.text for cell in row] for row in rows(desk, look) if row[0].text == number)


@settings(max_examples=15)
@given(drawing=pieces(), data=st.data())
def test_sheets_and_book_json_have_the_recorded_figures_or_something_stops(drawing, data):
    """A slot at 487.9, 24.15 across, is printed so: places to 0.1, widths and depths to 0.05."""
    made = recorded(built(drawing.job), lambda cut: not cut.end and data.draw(st.booleans(), label=cut.key))
    job = data.draw(edits(drawing.job))
    book = build(job, made=made, paces=())
    desk, data_of = Desk(book), {part["id"]: part for part in book_data(book)["parts"]}
    for one in made.cuts:
        if not holds(book.piece, one):
            assert is_stopped(book.piece, one)
            continue
        part = book.piece.part_by_name[one.board]
        (cut,) = fitting(part.board, part.cuts, one)
        with printing_in(job.units):
            texts = on_the_sheet(desk, one, cut.key)
            printed = {position(one.at), width(one.across)}
        off_the_board = not any(text and text != "–" for text in texts[3:5])
        assert off_the_board or printed <= set(texts), (one, texts)
        told = next(found for found in data_of[one.board]["cuts"] if found["key"] == cut.key)
        assert told["made"]
        assert (told["across"], told["deep"]) == pytest.approx((one.across, one.deep), abs=WRITTEN)
        places = [place["at"] for place in told["position"]]
        assert off_the_board or any(abs(at - one.at) <= WRITTEN for at in places), (one, places)


@settings(max_examples=15)
@given(drawing=pieces(), data=st.data())
def test_the_solids_have_the_recorded_cuts(drawing, data):
    """A probe in the middle of every recorded slot, on its datum wall's side, lies in the air and not in the wood."""
    made = recorded(built(drawing.job), lambda cut: not cut.end and data.draw(st.booleans(), label=cut.key))
    book = build(data.draw(edits(drawing.job)), made=made, paces=())
    for one in made.cuts:
        if not holds(book.piece, one):
            continue
        part = book.piece.part_by_name[one.board]
        (cut,) = fitting(part.board, part.cuts, one)
        face = cut.face or part.board.face_side
        a = part.zero + one.at + 0.02 + one.across / math.cos(math.radians(one.lean)) / 2
        c = face * (part.board.thickness_at(a) / 2 - 0.5)
        d = cut.shapes[0].low + 0.5 if one.opens == "front" else cut.shapes[0].high - 0.5
        probe = m3.Manifold.cube((0.2, 0.2, 0.2), True).translate((a, c, min(max(d, 0.5), part.board.depth - 0.5)))
        assert (book.solids.solid(part) ^ probe).volume() < 1e-9, one
