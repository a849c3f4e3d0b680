"""Every part of every demo, and of jobs with the other joints, is built again from the words of its sheet alone.

Read back from the PDF are the heading (sizes, face side, face edge, datum end), the cut table, and where the front
edge lies on the drawing: all that a maker without the job file has (`sheet_words`). From that a small builder of the
tests' own makes a solid, with none of Dryfit's shapes (`built_from_words`), and it is laid over the part's solid.

They may differ by what the sheet rounds and no more; the bound is the sum over all printed figures of half their last
place times the area that they move. They are laid over each other cut by cut, each in a slice of the board that
holds it with 5 to either side: on the whole board a floor that tilts the wrong way would hide in what the thickness
may be off. What the comparison cannot find is told at the end: a depth must be 2 off to be seen beside the walls.
"""

import copy
from functools import cache

import pytest

import dryfit
from dryfit.book.reading import read_job_text
from dryfit.documents.workshop import workshop_pdf
from tests.documents import demo_papers
from tests.documents.laid_over import faults, laid, too_far
from tests.documents.sheet_words import sheets_in
from tests.joints.typed import board, frame, job, joint, rail

DEMOS = ("record-wall", "sample-grid", "step-shelf")
SIDES = (board("left", [[100, 0], [100, 900]]), board("right", [[800, 0], [800, 900]]))
SHELF = board("shelf", [[100, 400], [800, 400]])
LEANING = (board("left", [[100, 0], [200, 900]]), board("shelf", [[150, 400], [800, 400]]), SIDES[1])
OTHERS = {
    "stopped": job(*SIDES, SHELF, joint("shelf", "left", stop="wall"), joint("shelf", "right", stop="both")),
    "bevelled": job(*LEANING, joint("shelf", "left", raked="floor parallel to face", stop="front")),
    "dowelled": job(*LEANING, joint("shelf", "left", kind="butt", fasten="dowels")),
    "screwed": job(*SIDES, SHELF, joint("shelf", "right", kind="butt", fasten="screws")),
    "tongued": job(frame([[0, 0], [900, 0], [900, 500], [0, 500]]), '[joints.mitre]\nstrengthen = "tongue"\n'),
    "a corner of unequal boards": job(
        board("a", [[0, 0], [900, 0]], depth=300), board("b", [[900, 0], [900, 500]], depth=200)
    ),
    "notched over a rail": job(
        rail("rail", [[0, 300], [900, 300]]), board("u", [[400, 0], [400, 600]]), board("v", [[600, 0], [640, 600]])
    ),
    "square walls": job(
        board("s", [[0, 300], [900, 300]]), board("u", [[400, 0], [450, 600]]), joint("s", "u", walls="square")
    ),
}


@cache
def sheets(demo):
    """The sheet of each part by its letter, and the book it was printed from."""
    other = demo in OTHERS
    book = dryfit.build(read_job_text(OTHERS[demo], "job.toml")) if other else demo_papers.book(demo)
    assert not book.stops, "what is not to be cut has no sheet to cut from"
    return sheets_in(workshop_pdf(book) if other else demo_papers.paper(demo)), book


def built(demo, letter, change=lambda sheet: sheet):
    """The builder with the part as its sheet has it, and the part as it is, in one frame."""
    found, book = sheets(demo)
    return laid(change(copy.deepcopy(found[letter])), book, letter)


EVERY = (*DEMOS, *OTHERS)


@pytest.mark.parametrize("demo", EVERY)
def test_every_part_has_a_sheet_with_a_table(demo):
    found, book = sheets(demo)

    assert set(found) == {part.mark for part in book.piece.parts}
    assert all(sheet.rows for sheet in found.values())


@pytest.mark.parametrize("demo", EVERY)
def test_a_part_built_from_its_sheet_s_words_is_the_part(demo):
    for letter in sheets(demo)[0]:
        assert faults(*built(demo, letter)) == [], letter


# --- what the comparison finds ---------------------------------------------------------------------------


def slot_of(sheet):
    return next(row for row in sheet.rows if "slot" in row["cut"])


def other_edge(sheet):
    column = next(column for column in slot_of(sheet).cells if column.startswith("opens to"))
    slot_of(sheet).cells[column] = {"wall": "front", "front": "wall"}[slot_of(sheet)[column]]
    return sheet


def mirrored(sheet):
    sheet.front_below = not sheet.front_below
    return sheet


def faces_swapped(sheet):
    row = next(row for row in sheet.rows if "raked slot" in row["cut"])
    one, other = sheet.faces
    row.cells[one], row.cells[other] = row[other], row[one]
    return sheet


def said_otherwise(old, new):
    def change(sheet):
        row = next(row for row in sheet.rows if any(old in words for words in row.cells.values()))
        row.cells = {column: words.replace(old, new) for column, words in row.cells.items()}
        return sheet

    return change


WRONG = {
    "the other edge": ("record-wall", "A", other_edge),
    "the hand of the board": ("record-wall", "J", mirrored),
    "faces mixed up": ("record-wall", "A", faces_swapped),
    "half a mm along the board": ("record-wall", "A", said_otherwise("167.9", "168.4")),
    "two mm in depth": ("record-wall", "A", said_otherwise("140.5", "142.5")),
    "a housing that runs out": ("record-wall", "A", said_otherwise("260.1, 39.9", "300.0, 0.0")),
    "a housing that leans the other way": ("record-wall", "D", said_otherwise("head leans RIGHT", "head leans LEFT")),
    "a floor parallel to the face": ("record-wall", "C", said_otherwise("floor square to the walls", "")),
    "a notch at the other edge": ("record-wall", "M", said_otherwise("front edge notched", "wall edge notched")),
    "keys counted from the wall edge": ("record-wall", "P", said_otherwise("at 46.7, 140", "at 56.7, 140")),
    "a taper read as even": ("record-wall", "J", said_otherwise("23.8 at 1.7", "24.1 at 1.7")),
    "a bore that misses": ("record-wall", "A", said_otherwise("front 1400", "front 1401")),
    "a bevel the other way": ("step-shelf", "D", said_otherwise("2.8", "0")),
    "a sixteenth of an inch": ("sample-grid", "A", said_otherwise("16 25/64", "16 29/64")),
}


@pytest.mark.parametrize(("demo", "letter", "change"), WRONG.values(), ids=WRONG)
def test_a_sheet_that_said_something_else_would_be_found_out(demo, letter, change):
    assert too_far(*built(demo, letter, change))
