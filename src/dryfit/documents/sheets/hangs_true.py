"""How true it must hang: what each thing that comes later bears, how to check it, and what to tighten last."""

import math
from collections.abc import Iterator, Sequence

from ...lengths import MM_PER_M
from ...sentences import Fineness, On, on_its_side, told
from ...studies.trueness.result import Entering, Trueness
from ..display import Draft
from ..lettering import printable
from ..looks import Desk
from ..naming import fine, position, printed_units
from ..sheet import sheet
from .page.prose import WordRun, strong
from .page.sheaf import Sheaf
from .page.table import Cell, Row, bold

SIGN, TITLE = "+", "how true it must hang"
ON_SITE = 1 / 2  # of a limit (common practice)
LEVEL = 0.0005  # of a good spirit level (makers' pages), mm over mm; twice that of a cheap one
TAPE = 0.7  # of the difference of two diagonals, a standard deviation (common practice)
SURE = 2.0  # standard deviations within which a measure counts as sure
METRE = MM_PER_M
HEADS = ("goes in", "meets", "lean right", "left", "over", "diagonals differ", "check by", "")


@sheet("how true it must hang", paper="hanging", order=50)
def hangs_true(desk: Desk) -> Iterator[Draft]:
    """One table in the order of putting in; nothing where nothing slides into what hangs already."""
    found = desk.book.found(Trueness)
    if found is None or not found.entries:
        return
    sheaf = Sheaf(desk, letter=SIGN, title=TITLE, says=("half of each limit: what to keep within on site",),
                  kind="hanging", number="T")  # fmt: skip
    limited = [entry for entry in found.entries if entry.closest is not None]
    if limited:
        sheaf.table("before each goes in, what hangs already may be out by", HEADS, [_row(desk, e) for e in limited])
    free = [entry for entry in found.entries if entry.closest is None]
    sheaf.paragraphs("", [*_said(desk, found, free)])
    if ahead := [entry for entry in found.entries if entry.plan is not None]:
        rows = [_along(desk, entry) for entry in ahead]
        sheaf.table("two boards that it crosses may differ by, in a metre from front to back",
                    ("goes in", "pitch", "in plan", "one joint out of line"), rows)  # fmt: skip
    sheaf.paragraphs("how", [*_how()])
    yield from sheaf.drafts()


def _most(size: float | None) -> str:
    """A limit, never rounded up; a dash where there is none."""
    return "–" if size is None else fine(on_its_side(size, Fineness.FINE.size(printed_units()), On.DOWN))


def _name(desk: Desk, entry: Entering) -> str:
    return printable(told(entry.name, desk.book.voice))


def _row(desk: Desk, entry: Entering) -> Row:
    leans = [None if lean is None else ON_SITE * lean * entry.high for lean in (entry.right, entry.left)]
    least = min(lean for lean in leans if lean is not None)
    differ = 2 * entry.wide * least / math.hypot(entry.wide, entry.high)
    return (
        bold(_name(desk, entry)),
        Cell(text=" ".join(desk.marks.get(name, name) for name in entry.base)),
        *(bold(_most(lean)) for lean in leans),
        Cell(text=position(entry.high)),
        bold(_most(differ)),
        Cell(text=checked_by(least, differ, entry.high)),
        Cell(tick=True),
    )


def checked_by(lean: float, differ: float, high: float) -> str:
    """The tool that tells it: a level's error over that height, then a tape's; else none does."""
    if lean >= LEVEL * high:
        return "level, turned end for end"
    return "tape, corner to corner" if differ >= SURE * TAPE else "no tool: screws loose until it is in"


def _along(desk: Desk, entry: Entering) -> Row:
    return (
        bold(_name(desk, entry)),
        Cell(text="–" if entry.pitch is None else _most(ON_SITE * entry.pitch * METRE)),
        Cell(text="–" if entry.plan is None else _most(ON_SITE * entry.plan * METRE)),
        Cell(text="–" if entry.shift is None else _most(ON_SITE * entry.shift)),
    )


def _said(desk: Desk, found: Trueness, free: Sequence[Entering]) -> Iterator[Sequence[WordRun]]:
    if found.out is not None and found.lean:
        side = "right" if found.out > 0 else "left"
        yield [strong("Measured:"), WordRun(f"it leans {fine(abs(found.out))} to the {side}, by its diagonals.")]
    if free:
        names = ", ".join(_name(desk, entry) for entry in free)
        yield [strong("No limit is set for"), WordRun(f"{names}: what they meet lets them turn, or meets them once.")]
    if found.left_out:
        yield [strong("Not looked at:"), WordRun(printable(", ".join(found.left_out)) + ": look yourself.")]
    if found.hollow_turns is not None and found.hollow_turns:
        turns = fine(found.hollow_turns * METRE)
        says = f"followed, would turn slots at its ends by {turns} in a metre: pack what hangs first straight, by a"
        yield [strong("The wall's hollow,"), WordRun(f"{says} straightedge; never pull it to the wall.")]


def _how() -> Iterator[Sequence[WordRun]]:
    yield [
        strong("Order:"),
        WordRun(
            "screws of what hangs first home but not tight; shim behind and under it; check; push the next in; check"
        ),
        WordRun(
            "again; tighten last. What does not go in by hand is not driven: loosen a screw and look where it binds."
        ),
    ]
    yield [
        strong("Tools:"),
        WordRun(
            "a spirit level is out by 0.5 mm in a metre, a cheap one by 1.0 (makers' pages): turn it end for end and"
        ),
        WordRun(
            "take the middle. A line laser 0.2 to 0.3 (two manuals). Two diagonals by tape differ by 0.7 as they are"
        ),
        WordRun("read (a standard deviation, common practice): measure twice."),
    ]
    yield [
        strong("Assumed:"),
        WordRun(
            "boards straight and as thick as measured, joints with the play of their sheets. Half of a limit is used"
        ),
        WordRun("on site (common practice)."),
    ]
