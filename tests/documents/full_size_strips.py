"""Reads the strips of a full-size paper back from its PDF: where each mark on a flap stands, summed over the tiles.

A strip is found by its title, its marks are the finest upright lines of one length, its seams the register crosses.
A place along the board is the sum of what lies before it on paper: nothing of it comes from what drew it. Where tiles
of bare wood are left out the next one is laid by a rule to the figure at its edge, as a maker does.
"""

import re
from collections import defaultdict
from dataclasses import dataclass, field
from fractions import Fraction

import pypdfium2 as pdfium

from tests.documents.reading import MM, lines

FINEST = 0.13
MARK = 2.88  # long: of a mark on a flap
ARM = 5.27  # of a register cross, from tip to tip
TITLE = re.compile(
    r"^(?P<letters>[A-Z]\d*(?:(?:, | to )[A-Z]\d*)*) [^:]*: (?P<edge>\w+) edge"
    r"(?:, tile (?P<tile>\d+) of (?P<of>\d+): (?P<start>[\d./ ]+) to )?\b"
)


@dataclass
class Strip:
    """One edge of a part: places of the marks on the upper and on the lower flap, and how many tiles it has."""

    upper: list = field(default_factory=list)
    lower: list = field(default_factory=list)
    tiles: int = 0
    end: float = 0.0
    last: int = 0


@dataclass(frozen=True)
class _Block:
    left: float
    top: float
    right: float
    bottom: float
    words: str


def strips(data, kind="strips along edges"):
    """Each strip by its part's letters and its edge."""
    found = defaultdict(Strip)
    for page, words in enumerate(_texts(data)):
        if not any(kind in text for *_, text in words):
            continue
        strokes = [line for line in lines(data, page) if abs(line.width - FINEST) < 0.01]
        for block in _blocks(words):
            title = TITLE.match(block.words)
            inside = [line for line in strokes if _inside(line, block)]
            inch = 25.4 if any(text.startswith("inches") for *_, text in words) else 1.0
            _add(found[title["letters"], title["edge"]], title, inside, inch)
    return dict(found)


def _texts(data):
    """Of each page its runs of text: left, top, height of the box, text."""
    with pdfium.PdfDocument(data) as document:
        for page in document:
            text, high = page.get_textpage(), page.get_height()
            rects = [text.get_rect(number) for number in range(text.count_rects())]
            yield [
                (left * MM, (high - top) * MM, (top - low) * MM, text.get_text_bounded(left, low, right, top))
                for left, low, right, top in rects
            ]


def _blocks(words):
    """Where each strip of a page lies: from its title to the next one below, and to the next one on its right."""
    titled = sorted((top, left, text) for left, top, _, text in words if TITLE.match(text))
    for top, left, text in titled:
        below = [other for other, _, _ in titled if other > top + 5]
        beside = [x for y, x, _ in titled if abs(y - top) < 5 and x > left + 5]
        yield _Block(left - 12, top, min(beside, default=1e4) - 12, min(below, default=1e4), text)


def _inside(line, block):
    return block.left < line.start[0] < block.right and block.top < line.start[1] < block.bottom


def _add(strip, title, strokes, unit):
    """Put a tile behind those that are there, or at its own figure where tiles are left out before it."""
    number = int(title["tile"] or 1)
    if number != strip.last + 1:
        strip.end = float(sum(map(Fraction, title["start"].split()))) * unit
    strip.last = number
    arms = [line for line in strokes if line.upright and abs(line.long - ARM) < 0.02]
    crosses = sorted(line.start[0] for line in arms)
    marks = [line for line in strokes if line.upright and abs(line.long - MARK) < 0.02]
    middle = sum(line.start[1] for line in marks + arms) / len(marks + arms)
    first, last = int(title["tile"] or 1) == 1, title["tile"] == title["of"]
    places = [(line.start[0], line.start[1] < middle) for line in marks]
    zero = min(x for x, _ in places) if first else crosses[0]
    for x, above in places:
        (strip.upper if above else strip.lower).append(strip.end + x - zero)
    strip.end += 0.0 if last else crosses[-1] - zero
    strip.tiles += 1
