"""What is cut stays cut: whatever is done to the job, recorded figures stay in the piece, or something stops.

Pieces are drawn, some of their cuts recorded, and the job is then edited as on the page. Of every record one of
two things holds after each edit: its cut has the recorded figures, read off the exact shapes as a sheet reads
them, or a stop speaks of it. Recording all of a piece changes nothing of it but that it is made.
"""

import re
from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from dryfit.book import read_job_text
from dryfit.findings import Severity
from dryfit.joints import KINDS
from dryfit.keeping import Keep
from dryfit.piece.as_cut import fitting
from dryfit.piece.building import build_piece
from dryfit.piece.kinds import Kinds
from dryfit.piece.made import read_made_text
from dryfit.piece.recording import record_of, recorded_text
from dryfit.piece.reshaping import lean_of_end, measured
from dryfit.piece.setout import NOTHING_MADE
from dryfit.shop.model import Shop
from tests.property.drawn_frames import changed, furnished
from tests.property.test_incremental import edits
from tests.strategies import pieces

WRITTEN = 0.0011  # figures are written to 0.001, shapes held to 1e-6


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
        finding.severity is Severity.STOP and re.search(f"{one.place}(?![0-9])", f"{finding.says} {finding.remedy}")
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
    if one.end:
        return abs(part.length - one.length) <= WRITTEN and abs(lean_of_end(cut) - one.lean) <= WRITTEN
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


@settings(max_examples=40)
@given(drawing=pieces())
def test_recording_all_of_a_piece_changes_nothing_but_that_it_is_made(drawing):
    before = built(drawing.job)
    after = built(drawing.job, recorded(before, lambda cut: True))
    assert all(cut.made for part in after.parts for cut in part.cuts)
    unmade = [replace(part, cuts=tuple(replace(cut, made=False) for cut in part.cuts)) for part in after.parts]
    assert unmade == list(before.parts)
    assert after.findings == before.findings
