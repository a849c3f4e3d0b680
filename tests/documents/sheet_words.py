"""Reads a part's sheet back from the PDF as a maker reads it: heading, cut table, which way up it is drawn.

Words are told apart by the white between them, columns by where their heads start, rows by their pitch: 5 from row to
row, 3.7 to a further line of the same row. Nothing of Dryfit is used.
"""

import re
from dataclasses import dataclass, field

import pypdfium2 as pdfium

from tests.documents.reading import MM

PITCHES = (5.0, 3.7)  # from line to line of a table: of a new row, of a further line


@dataclass
class Run:
    """Words that stand together on a page: left and right, and the base line, in mm from the top left."""

    text: str
    left: float
    right: float
    base: float


@dataclass
class Row:
    """One row of a cut table: the words in each column, those of further lines among them."""

    cells: dict[str, str] = field(default_factory=dict)

    def __getitem__(self, column):
        return self.cells.get(column, "")


@dataclass
class Sheet:
    """What is read of one part: heading, table, and whether the front edge is drawn below the face side."""

    size: str
    said: dict[str, str]
    front_below: bool
    faces: tuple[str, str]
    rows: list[Row]


def runs_of(page):
    """Words of a page; a gap wider than a space parts them."""
    words, high, found = page.get_textpage(), page.get_height(), []
    for number in range(words.count_chars()):
        letter = words.get_text_range(number, 1)
        if not letter.strip():
            continue
        left, bottom, right, _ = words.get_charbox(number, loose=True)
        left, right, base = left * MM, right * MM, (high - bottom) * MM
        last = found[-1] if found else None
        if last and abs(last.base - base) < 0.2 and last.left < left < last.right + 1.15:
            last.text += (" " if left - last.right > 0.4 else "") + letter
            last.right = max(last.right, right)
        else:
            found.append(Run(letter, left, right, base))
    return found


def heads(runs):
    """The columns of a cut table: where each starts, its words, and the base of the head; None without a table."""
    takes = next((run for run in runs if run.text == "takes"), None)
    if takes is None or not any(run.text.startswith("this size") for run in runs):
        return None
    cut = next(run for run in runs if run.text == "cut" and abs(run.base - takes.base) < 0.2)
    inside = [run for run in runs if -0.3 < takes.base - run.base < 3.8 and run.left > cut.left - 0.3]
    lefts = {}
    for run in sorted(inside, key=lambda run: run.base):
        key = next((left for left in lefts if abs(left - run.left) < 0.3), run.left)
        lefts[key] = f"{lefts.get(key, '')} {run.text}".strip()
    return [(0.0, "number"), *sorted(lefts.items())], takes.base


def table_of(runs):
    """The rows under a head, line by line as far as they follow each other at a table's pitch."""
    found = heads(runs)
    if found is None:
        return None
    columns, base = found
    stop = next((left for left, words in columns if words.startswith("done")), columns[-1][0])
    below = [run for run in runs if run.base > base + 1.0 and run.left < stop]
    rows, at = [], base
    for line in sorted({round(run.base, 1) for run in below}):
        step = line - at
        if rows and min(abs(step - pitch) for pitch in PITCHES) > 0.3:
            break
        if not rows or step > 4.4:
            rows.append(Row())
        at = line
        for run in (run for run in below if abs(run.base - line) < 0.15):
            column = next(words for left, words in reversed(columns) if run.left > left - 0.4)
            rows[-1].cells[column] = f"{rows[-1][column]} {run.text}".strip()
    return columns, rows


def shows_edge(runs, said):
    """The label of the face edge's view; None on a page without views."""
    return next((run for run in runs if run.text.upper().startswith(said["FACE EDGE"].upper()) and _loud(run)), None)


def _loud(run):
    """Whether it names a view, in capitals, and is not the word on an arris."""
    return run.text.split(" ")[0].isupper() and run.left < 150


def front_below(runs, said):
    """Whether the front edge is drawn under the face side: then it lies towards whoever has the datum end left."""
    front = shows_edge(runs, said)
    face = said["FACE SIDE"].split(" ")[0].upper()
    line = next(run for run in runs if re.match(f"{face} face(, from the datum end|$)", run.text))
    named = [run for run in runs if run.text == f"{face} FACE"]
    return front.base > (named[0].base if named else line.base)


def letters_of(runs):
    """The letters in the corner, those of a run among them: "A", "E, G" and "A to H" are one, two and eight."""
    ordered = sorted(runs, key=lambda run: run.left + run.base)
    found = [ordered[0]]
    for run in sorted(runs, key=lambda run: run.left):
        near = run.left - found[-1].right < 4.0 and abs(run.base - found[0].base) < 0.05
        if run is not found[0] and run.left > found[-1].left and near and re.fullmatch(r"[A-Z]\d*,?|to", run.text):
            found.append(run)
    return _spelt(" ".join(run.text for run in found))


def _spelt(words):
    given = "ABCDEFGHJKLMNPQRSTUVWXYZ"
    letters = []
    for piece in words.split(", "):
        first, _, last = piece.partition(" to ")
        letters += given[given.index(first) : given.index(last) + 1] if last else [first]
    return letters


def said_in(runs):
    """What the heading calls the face side, the face edge and the datum end; None on a sheet of another kind."""
    loud = {run.text: run for run in runs if run.text in ("FACE SIDE", "FACE EDGE", "DATUM END")}
    if len(loud) < 3:
        return None
    return {
        word: next(r.text for r in runs if abs(r.base - run.base) < 0.2 and r.left > run.right)
        for word, run in loud.items()
    }


def hands_in(runs):
    """The sheets of a left and a right hand, by letter; none on a sheet of another kind.

    The table is read from the faces that its two columns name, the first of which is drawn beside the front edge: on
    hands that stand the edge lies left of the left hand, which is above it when the board is laid down.
    """
    heading = sorted((run for run in runs if 16.0 < run.base < 34.0), key=lambda run: (round(run.base), run.left))
    facts = " · ".join(run.text for run in heading if run.left > 33.0)
    found = re.search(r"FACE SIDE (.+?) · FACE EDGE (.+?) · DATUM (\w+ end)", facts)
    if found is None:
        return {}
    left = min(runs, key=lambda run: run.left + run.base)
    right = max((run for run in runs if abs(run.base - left.base) < 0.05), key=lambda run: run.left)
    below = [_front_below(runs, number, found[1]) for number in (0, 1)]
    said = {"FACE EDGE": found[2], "DATUM END": found[3]}
    return {
        run.text: Sheet(facts, dict(said), front, ("", ""), []) for run, front in zip((left, right), below, strict=True)
    }


def _front_below(runs, number, face_side):
    """Whether the front edge of a hand lies below its first face, once the hand is laid down datum end left."""
    edges = sorted((run for run in runs if run.text.startswith("FRONT EDGE")), key=lambda run: run.base)
    if not edges:
        return number == 1
    named = sorted((run for run in runs if re.fullmatch(r"[A-Z]+ FACE", run.text)), key=lambda run: run.base)
    loud = [run for run in named if run.text == face_side.upper()] or named
    first = loud[-1] if number else loud[0]
    return edges[number].base > first.base


def sheets_in(data):
    """The sheet of each part by its letter, gathered from all its pages; parts that share a sheet have the same."""
    found = {}
    with pdfium.PdfDocument(data) as document:
        for page in document:
            runs = runs_of(page)
            said = said_in(runs)
            made = hands_in(runs) if said is None else dict.fromkeys(letters_of(runs))
            for letter, hand in made.items():
                facts = " ".join(run.text for run in runs if 16.0 < run.base < 32.0 and 33.0 < run.left < 100.0)
                fresh = hand if said is None else Sheet(facts, said, True, ("", ""), [])
                sheet = found.setdefault(letter, fresh)
                if said is not None and shows_edge(runs, said) is not None:
                    sheet.front_below = front_below(runs, said)
                if (table := table_of(runs)) is not None:
                    columns, rows = table
                    sheet.faces = tuple(words for _, words in columns[3:5])
                    sheet.said.setdefault("FACE SIDE", sheet.faces[0])
                    sheet.rows += rows
    return found
