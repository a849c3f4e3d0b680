"""Reads a part's sheet back from the PDF as a maker reads it: heading, cut table, which way up it is drawn.

Words are told apart by the white between them, columns by where their heads start, rows by their pitch: 5 from row to
row, 3.7 to a further line of the same row. Nothing of Dryfit is used.
"""

import re
from collections import Counter
from dataclasses import dataclass, field

import pypdfium2 as pdfium

from tests.documents.reading import MM

WIDE_SPACE, SHARE = 0.98, 0.276  # on paper, and of the letters' height from foot to head: what is wider parts columns
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
    """What is read of one part: heading, table, and whether the front edge is drawn below the face side.

    A hand of a pair has its own drawing, of the face that its table's first column names; of parts alike one is drawn.
    """

    size: str
    said: dict[str, str]
    front_below: bool
    faces: tuple[str, str]
    rows: list[Row]
    hand: bool = False


def runs_of(page):
    """Words of a page; a gap wider than a space parts them."""
    words, high, found = page.get_textpage(), page.get_height(), []
    for number in range(words.count_chars()):
        letter = words.get_text_range(number, 1)
        if not letter.strip():
            continue
        left, bottom, right, top = words.get_charbox(number, loose=True)
        left, right, base = left * MM, right * MM, (high - bottom) * MM
        space = max(WIDE_SPACE, SHARE * (top - bottom) * MM)
        last = found[-1] if found else None
        if last and abs(last.base - base) < 0.2 and last.left < left < last.right + space:
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


def _numbers_at(runs, cut, base):
    """Where the column of numbers starts: sections may stand on the left of it, with balloons."""
    numbers = [run for run in runs if run.base > base and run.left < cut and re.fullmatch(NUMBERS, run.text)]
    lefts = Counter(round(run.left, 1) for run in numbers if cut - run.left < WIDEST_NUMBERS)
    return min((left for left, count in lefts.items() if count == max(lefts.values())), default=0.0) - 0.3


WIDEST_NUMBERS = 21.0  # on paper: of four cuts that share a row, "1,5,10,14"
NUMBERS = r"\d+( to \d+)?(, ?\d+( to \d+)?)*"


def numbers_of(row):
    """The cuts that a row is of: "1 to 3,5" are four."""
    found = []
    for run in re.split(", ?", row["number"]):
        first, _, last = run.partition(" to ")
        found += range(int(first), int(last or first) + 1) if first else ()
    return found


def table_of(runs):
    """The rows under a head, line by line as far as they follow each other at a table's pitch."""
    found = heads(runs)
    if found is None:
        return None
    columns, base = found
    last = next(left for left, words in columns if words == "page")  # what comes after is to be filled in, or beside it
    stop = min((left for left, _ in columns if left > last), default=columns[-1][0])
    start = _numbers_at(runs, columns[1][0], base)
    notes = min((run.base for run in runs if run.base > base and run.text.startswith("Check against")), default=1e3)
    below = [run for run in runs if base + 1.0 < run.base < notes - 0.1 and start <= run.left < stop]
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
    named = [run for run in runs if run.text == f"{face} FACE"]
    line = named or [
        run for run in runs if re.match(rf"{face} face(, from the datum end|; its arris is at|$)", run.text)
    ]
    return front.base > line[0].base


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
        run.text: Sheet(facts, dict(said), front, ("", ""), [], hand=True)
        for run, front in zip((left, right), below, strict=True)
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


def parts_of(runs):
    """The runs of a page by part: where two share it, one stands under the other, each with its heading."""
    tops = sorted(run.base for run in runs if run.text == "FACE SIDE")
    if len(tops) < 2:
        return [runs]
    above = tops[1] - HEADING
    block = next(run.base for run in runs if run.text == "kind of paper")
    upper = [run for run in runs if run.base < above and not _in_corner(run)]
    return [upper, [run for run in runs if above <= run.base < block]]


HEADING = 5.0  # the first words of a heading stand so far over its FACE SIDE at most


def _in_corner(run):
    """Whether it is of the letters in the top right corner, which name the part that stands below."""
    return run.base < 25.0 and run.left > 150.0 and re.fullmatch(r"[A-Z]\d*(, [A-Z]\d*)*,?|to|[A-Z] to [A-Z]", run.text)


def sheets_in(data):
    """The sheet of each part by its letter, gathered from all its pages; parts that share a sheet have the same."""
    found = {}
    with pdfium.PdfDocument(data) as document:
        for page in document:
            for runs in parts_of(runs_of(page)):
                _read(runs, found)
    return found


def _read(runs, found):
    said = said_in(runs)
    made = hands_in(runs) if said is None else dict.fromkeys(letters_of(runs))
    top = next((run.base for run in runs if run.text == "FACE SIDE"), 13.0) - 13.0
    for letter, hand in made.items():
        facts = " ".join(run.text for run in runs if 16.0 < run.base - top < 32.0 and 33.0 < run.left < 100.0)
        fresh = hand if said is None else Sheet(facts, said, True, ("", ""), [])
        sheet = found.setdefault(letter, fresh)
        if said is not None and shows_edge(runs, said) is not None:
            sheet.front_below = front_below(runs, said)
        if (table := table_of(runs)) is not None:
            columns, rows = table
            sheet.faces = tuple(words for _, words in columns[3:5])
            shown = re.search(r"you look at the two (\w+) FACES", sheet.size) if sheet.hand else None
            if shown is not None and sheet.faces[1] == f"{shown[1].lower()} face":
                sheet.front_below = not sheet.front_below  # the first column is of the face that is turned away
            sheet.said.setdefault("FACE SIDE", sheet.faces[0])
            sheet.rows += rows
