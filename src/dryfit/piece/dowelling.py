"""Rows of dowels in the end of a board and in the face it stands on: as sold, their holes, and the wood about them.

Any kind of joint that dowels an end may have them; what it is asked for it says in `RowAsked`. Lengths in mm.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from ..findings import Finding, Severity, declare, owns
from ..geometry.shapes import Bore
from ..places import Where
from ..sentences import Count, Fineness, Length, Name, say
from ..trade import dowels
from ..trade.dowels import DEEPER, Dowel
from .corner import Corner
from .facts import CutForm, Opens
from .holes import LEAST_WOOD, HoleRow, between_others, evenly
from .model import Cut, Figures, Meeting, Side
from .onto import Onto
from .sums import Sum

DOWEL_ROOM = declare(
    "dowel-breaks-out",
    "A dowel or screw comes too near a face of a board.",
    uncured="thinner dowels, another kind of joint or thicker wood is a choice of design",
)
DOWEL_SHORT = declare(
    "dowel-holds-little",
    "A dowel goes less deep into a face than it is thick: it holds little.",
    uncured="a thicker board, a housing or screws instead is a choice of design",
)
owns("joints", DOWEL_ROOM, DOWEL_SHORT)


@dataclass(frozen=True, slots=True, kw_only=True)
class RowAsked:
    """What is asked of a row of dowels; None is the next as sold.

    Attributes:
        diameter: of a dowel.
        in_face, in_end: of its length.
        count: how many; 0 for the rule.
    """

    diameter: float | None = None
    in_face: float | None = None
    in_end: float | None = None
    count: int = 0


def row_onto(meeting: Meeting, onto: Onto, asked: RowAsked) -> tuple[HoleRow, Dowel]:
    """The first dowels that leave wood enough about their holes."""
    rows = _rows(onto, asked)
    fitting = (one for one in rows if min(left for left, *_ in wood_about(meeting, onto, one[0])) >= LEAST_WOOD)
    return rows[0] if len(rows) == 1 else next(fitting, rows[-1])


def dowelled(dowel: Dowel, diameter: float, places: tuple[float, ...]) -> HoleRow:
    """Holes for dowels, each a little deeper than what stands in it."""
    return HoleRow(
        places=places,
        face=((0.0, diameter), (dowel.in_face + DEEPER, 0.0)),
        end=((0.0, diameter), (dowel.in_end + DEEPER, 0.0)),
    )


def _rows(onto: Onto, asked: RowAsked) -> list[tuple[HoleRow, Dowel]]:
    """Rows of dowels, the one to take first; opposite another end each between those of the other."""
    t, facing = onto.takes.thickness, onto.facing
    diameter = asked.diameter or dowels.diameter_for(min(onto.ends.thickness, t))
    places = between_others(onto.overlap, facing, onto.face, diameter, asked.count) if facing else ()
    if asked.in_face is not None:
        sold = [dowels.with_in_face(asked.in_face)]
    elif facing and not places:
        sold = [dowels.shallow(max(math.floor(t / 4 - DEEPER), DEEPER))]  # half the board stays between the two
    else:
        sold = list(dowels.across_a_face(t, diameter))
    if asked.in_end is not None:
        sold = [Dowel(in_face=sold[0].in_face, in_end=asked.in_end)]
    places = places or evenly(onto.overlap, asked.count)
    return [(dowelled(dowel, diameter, places), dowel) for dowel in sold]


def holes(meeting: Meeting, side: Side, other: Side, word: str, drilled: tuple[Bore, ...], opens: Opens) -> Cut:
    """The holes of a row in one of the two boards."""
    profile = drilled[0].profile
    says = say("{} in {} for {}", word, Name(side.body), Name(other.body))
    return Cut(
        key=str(says),
        says=says,
        body=side.body,
        form=CutForm.BORE,
        word=word,
        noun="hole",
        takes=other.body,
        joint=meeting.key,
        shapes=drilled,
        figures=Figures(
            width=Sum.alone(profile[0][1]),
            on_face=profile[-2][1],
            depth=Sum.alone(profile[-1][0]),
            opens=opens,
            between_faces=meeting.angle,
            note=say("{}", Count(len(drilled), "hole")),
        ),
    )


def wood_about(meeting: Meeting, onto: Onto, row: HoleRow) -> Iterator[tuple[float, Side, str]]:
    """Least wood about the holes, the side it is in, and where."""
    cosine_between, half = abs(onto.lines.along[0]), onto.ends.thickness / 2
    yield half - row.in_end / 2 - row.end[-1][0] * cosine_between, onto.ends, "beside"
    if not row.through:
        yield onto.takes.thickness - row.deep, onto.takes, "behind"
    if meeting.form == "corner" and Corner.of(onto.takes, onto.ends).phi > 90.0:
        yield half - row.wide / 2 - row.deep * cosine_between, onto.takes, "beside"  # its end leans over the holes
    yield row.beside(onto.overlap), onto.takes, "at the edges, beside"


def breaks_out(meeting: Meeting, left: float, side: Side, place: str, least: float = LEAST_WOOD) -> Finding:
    """Less wood than there must be is left, with the side it is in and where."""
    return Finding(
        code=DOWEL_ROOM,
        severity=Severity.STOP,
        where=Where(boards=(side.body,), joint=meeting.key),
        says=say("{}: {} of wood is left {} its holes", Name(side.body), Length(max(left, 0.0)), place),
        remedy="use thinner, shorter or fewer ones, or another kind of joint",
        found=left,
        limit=least,
        unit="mm",
        source="common practice",
    )


def holds_little(meeting: Meeting, onto: Onto, row: HoleRow) -> Finding:
    """In the face a dowel wants its own diameter at least (common practice)."""
    deep, a, b = row.deep - DEEPER, onto.ends.body, onto.takes.body
    remedy = say("use a thicker {}, a housing, or screws through {}", Name(b), Name(b))
    if onto.takes.opposed:
        remedy = say("set the two ends on {} out of line, or drill through it and let one dowel hold both", Name(b))
    return Finding(
        code=DOWEL_SHORT,
        severity=Severity.WARN,
        where=Where(boards=(a, b), joint=meeting.key),
        says=say(
            "a dowel {} thick goes only {} deep into {}: it holds little",
            Length(row.wide, Fineness.WHOLE),
            Length(deep),
            Name(b),
        ),
        remedy=remedy,
        found=deep,
        limit=row.wide,
        unit="mm",
        source="common practice",
    )
