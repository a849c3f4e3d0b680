"""What is looked for in the wall, how its holes are marked and drilled, and how a hole is tried."""

from collections.abc import Iterator, Sequence

from ....sentences import Fineness, On, Voice, on_its_side
from ....studies.marking.result import MarkedBody, Marking, Marks
from ...lettering import printable
from ...naming import fine, plural, position, printed_units
from ..page.prose import WordRun, strong

LOOK = "Zones say where cables should be, not that there are none elsewhere."
WAYS = {
    "in place": "driven in place, through the piece where it hangs",
    "punch": "punched through the piece's own holes",
    "brad point": "by a brad point in the piece's own holes",
    "twist bit": "by a twist bit in the piece's own holes",
    "pencil": "by pencil in the piece's own holes, centres after",
    "measured": "by measure from the two lines",
}


def cautions(marks: Marks | None, voice: Voice) -> Iterator[Sequence[WordRun]]:
    """Before any hole."""
    country = marks.country if marks is not None else ""
    yield [
        strong("Before any hole:"),
        WordRun("go over the wall with a detector for cables, pipes and metal, at every hole and between. Switch the"),
        WordRun(
            "circuit off and turn the water off while you drill. Water and gas run straight up or down from taps and"
        ),
        WordRun("radiators (common practice). Rules of the place, and whoever laid the cables, go before this sheet."),
    ]
    if marks is None or not country:
        yield [strong("Where cables usually run: not looked at."), WordRun("The job names no country in [cables].")]
        return
    yield [strong(f"{country}:"), WordRun(f"{marks.source}. {LOOK}")]
    if country == "USA":
        deep = f"No zones: cables lie {position(32.0)} behind a stud's edge or behind steel; longer screws meet one."
        yield [WordRun(deep)]
    for left in marks.left:
        yield [strong("Not drawn:"), WordRun(printable(f"{left.said(voice)}."))]


def marking(marks: Marks) -> Iterator[Sequence[WordRun]]:
    """How the holes are found, and the chance that they meet."""
    if any(row.way == "in place" for row in marks.rows):
        yield [
            strong("Driven in place:"),
            WordRun(
                "hold the piece on its line by ledger, stand or hands free of the drill; start with one outer screw,"
            ),
            WordRun("level, then the other outer one, then the rest. A pilot goes through the piece's own hole."),
        ]
    for held in marks.bodies:
        yield [strong(f"{_names(held)}:"), WordRun(_chance(held))]
    if marks.bodies:
        yield [
            strong("Marking:"),
            WordRun(
                "piece on its line and level; mark all, take it down, drill. Masonry: 4 mm first, look, then full size."
            ),
            WordRun(
                "Two screws first, left loose; then the rest; tighten last. If one does not meet, widen the hole that a"
            ),
            WordRun("washer covers, never bend the screw."),
        ]


def _names(held: MarkedBody) -> str:
    return printable(", ".join(held.fixings))


def _chance(held: MarkedBody) -> str:
    how = "may turn" if held.turns else "kept level"
    share = f"{held.chance * 100:.0f} %" if held.chance >= 0.01 else "under 1 %"
    return (
        f"{plural(held.count, 'hole')} in one, {how}: all meet with a chance of {share}; each needs {held.k:.2f} times "
        "its error all round for 95 %."
    )


def trying() -> Iterator[Sequence[WordRun]]:
    """A hole where it will not show (common practice)."""
    yield [
        strong("Trying a hole (common practice):"),
        WordRun(
            "where it will not show, 3 mm, slowly. The bit drops: so thick is the lining. A hooked wire turned behind"
        ),
        WordRun(
            "it: so deep is the void, and what stands a finger's breadth beside. The dust: white is gypsum, red brick,"
        ),
        WordRun("grey-white and light AAC; chips are wood. Do it again at a second place; where they differ, stop."),
    ]


def strays(row: Marking) -> str:
    """What adds up, as printed: "0.3 + 0.8 + 0.4"; by their squares."""
    return ", ".join(f"{stray.what} {fine(stray.mm)}" for stray in row.strays) or "–"


def hole(size: float | None, side: On = On.UP) -> str:
    """A size that is wanted, never rounded to its wrong side; a dash where there is none."""
    return "–" if size is None else position(on_its_side(size, Fineness.PLACE.size(printed_units()), side))
