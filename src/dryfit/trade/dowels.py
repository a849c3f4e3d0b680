"""Grooved dowels as they are sold, and how deep they stand in a board.

Across a face: about two thirds of the board's thickness, 5 left behind the hole (common practice), and a third of
the dowel's length; the rest goes into the end (a trade text on dowelling). In two ends in line: three times the
diameter in each (a trade text on sizes of dowels). Both only as near as lengths as sold come to it, and in steps
that fall between usual thicknesses, so that boards of one nominal thickness get one drill and one depth stop: with
24 thick that is 8 x 50, 16 in the face and 34 in the end; 23.6 and 24.3 have the same.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass

DIAMETERS = (6.0, 8.0, 10.0, 12.0, 16.0)  # as sold; from memory
LENGTHS = (25.0, 30.0, 35.0, 40.0, 50.0, 60.0)  # as sold; from memory
DEEPER = 1.0  # each of its two holes, for glue (a trade text on dowelling)
OFF_NOMINAL = 0.6  # a board may be so much over the thickness that it is sold as
BEHIND = 5.0  # left behind a hole in a face (common practice)
LONGEST = 6.5  # diameters: three in each of two boards, and what the next length as sold adds

# From this thickness on, half a millimetre under a nominal one: length, and how much of it stands in the face.
_IN_FACE = (
    (28.5, 60.0, 20.0),
    (23.0, 50.0, 16.0),
    (21.0, 40.0, 14.0),
    (17.5, 35.0, 12.0),
    (14.5, 30.0, 9.0),
    (11.5, 25.0, 6.0),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Dowel:
    """One dowel: how much of its length stands in either board."""

    in_face: float
    in_end: float

    @property
    def length(self) -> float:
        """As it is sold, or cut."""
        return self.in_face + self.in_end


def diameter_for(thickness: float) -> float:
    """The next as sold over a third of a board."""
    third = (thickness - OFF_NOMINAL) / 3
    return next((size for size in DIAMETERS if size >= third), DIAMETERS[-1])


def across_a_face(thickness: float, diameter: float) -> Iterator[Dowel]:
    """Dowels for the face of a board so thick, the one to take first; the shorter ones after it."""
    fitting = [
        Dowel(in_face=deep, in_end=long - deep)
        for least, long, deep in _IN_FACE
        if thickness >= least and long <= LONGEST * diameter
    ]
    yield from fitting or [shallow(max(math.floor(thickness - BEHIND - DEEPER), 1.0))]


def shallow(in_face: float) -> Dowel:
    """The shortest as sold, with so much of it in the face; at least as much in the end."""
    return Dowel(in_face=in_face, in_end=max(LENGTHS[0] - in_face, in_face))


def with_in_face(in_face: float) -> Dowel:
    """The length as sold that has about a third of it in the face; longer ones are cut."""
    wanted = 3 * in_face
    long = min(LENGTHS, key=lambda sold: abs(sold - wanted))
    return Dowel(in_face=in_face, in_end=max(long - in_face, in_face))


def in_line(diameter: float) -> Dowel:
    """The longest as sold that stands about three diameters in either of two ends."""
    long = max((sold for sold in LENGTHS if sold <= LONGEST * diameter), default=LENGTHS[0])
    return Dowel(in_face=long / 2, in_end=long / 2)
