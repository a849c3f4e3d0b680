"""Pieces drawn at random whose sheets can be cut from, one of each family in turn, every other one in inches.

The families are those of the properties and of the bench: shelves and uprights that lean, taper and are scribed;
frames of any corners, mitred or butted, keyed, tongued, dowelled, screwed; pairs of boards that are housed, halved and
mitred in every way there is; boards notched over a rail, screwed to the wall, longer than their stock. What must be
changed before the first cut has no sheet to cut from, so another is drawn for it; what only stands in the air has one.
"""

from dataclasses import replace
from functools import cache

from hypothesis import HealthCheck, Phase, given, seed

from bench.layouts import layout
from dryfit.book import build, read_job_text
from dryfit.documents.workshop import workshop_pdf
from tests.documents.test_part_pages import drawn
from tests.fewer import counted
from tests.joints.kinds import PAIRS
from tests.joints.typed import IN_THE_AIR
from tests.property.drawn_frames import furnished
from tests.property.long_boards import long_boards
from tests.property.wall_layouts import laid, screwed
from tests.strategies import pieces

SHAPES = ("bays", "star", "ring")
TRIED = 40  # of a strategy, for one that has no stop
FIRST = 3  # of a strategy are the plainest there are


def _pair(kind):
    return lambda number: (pair.job() for pair in _examples(PAIRS[kind](), number))


def _shape(number):
    shape = SHAPES[number % len(SHAPES)]
    for more in range(3):
        yield read_job_text(layout(shape, 9 + number % 4 + more).text())


FAMILIES = {
    "shelves and uprights": lambda number: (one.job for one in _examples(pieces(), number)),
    "a frame": lambda number: (read_job_text(one.text()) for one in _examples(furnished(), number)),
    "dividers": lambda number: (read_job_text(drawn(1000 * number + more)) for more in range(TRIED)),
    "housing": _pair("housing"),
    "a layout": _shape,
    "mitre": _pair("mitre"),
    "a long board": lambda number: (one.divided for one in _examples(long_boards(), number)),
    "cross halving": _pair("cross halving"),
    "over a rail": lambda number: (one.job() for one in _examples(laid(), number)),
    "butt": _pair("butt"),
    "screwed to the wall": lambda number: (one.job() for one in _examples(screwed(), number)),
    "another frame": lambda number: (read_job_text(one.text()) for one in _examples(furnished(), number + 1000)),
}


def _examples(strategy, number):
    found = []

    @seed(number)
    @counted(
        FIRST + TRIED,  # the first are passed over, so in a first look as well
        database=None,
        deadline=None,
        derandomize=False,  # the seed is the number, whatever the profile of the tests
        phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    @given(strategy)
    def draw(one):
        found.append(one)

    draw()
    return found[FIRST:]


@cache
def printed(number):
    """Family, book and workshop's paper of a piece by its number."""
    names = list(FAMILIES)
    name = names[number % len(names)]
    units = "in" if number % 2 != number // len(names) % 2 else "mm"  # each family in both
    for job in FAMILIES[name](number):
        book = build(replace(job, units=units))
        if {finding.code for finding in book.stops} <= IN_THE_AIR:
            return f"{number}, {name}, {units}", book, workshop_pdf(book)
    raise AssertionError(f"every piece that was drawn for {number}, {name}, has a stop")
