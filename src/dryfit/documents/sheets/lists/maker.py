"""The lists: boards; set-ups and joints to tick off; findings with what to do."""

from collections.abc import Callable, Iterator
from functools import cache, partial
from typing import TypeAlias

from ....asking import open_in_words
from ....findings import Severity
from ...display import Draft
from ...lettering import printable
from ...looks import Desk
from ...sheet import DeferredSheets, sheet, tried
from ...standard import NAME, TEXT
from ..overall.maker import finding_words, leaves_to_lists, tells_findings
from ..page.frame import BARS
from ..page.prose import WordRun
from ..page.sheaf import Sheaf
from ..part.fooling import fooling
from .boards import board_list
from .finish import finish_list
from .gluing import frames_list
from .joints import joint_list
from .setups import setup_list

Fools: TypeAlias = Callable[[], list[str]]

TITLE = "boards, set-ups, joints"
SAYS = ("lengths first, along the grain", "what to buy is on the order")
NO_FINDINGS = "nothing found that must change in what was checked"
AFTER = (NAME, TEXT)  # below a table, the second where it saves a sheet
MOST_FOOLING = 12


@sheet("lists", paper="workshop", order=20)
def lists(desk: Desk) -> Iterator[Draft | DeferredSheets]:
    """The lists, on as many sheets as they take; set closer where that saves a sheet with little on it.

    A list that cannot be made takes no other away, and has a page in its place behind them.
    """
    fools = cache(lambda: list(fooling(desk)))
    made = [_sheaf(desk, fools, after) for after in AFTER]
    sheaf, lacking = min(made, key=lambda one: len(one[0].drafts()))
    yield from sheaf.drafts()
    yield from lacking


def _sheaf(desk: Desk, fools: Fools, after: float) -> tuple[Sheaf, list[DeferredSheets]]:
    """All lists that can be made, and those that cannot."""
    sound = all(finding.severity is Severity.NOTE for finding in desk.book.findings)
    none = (NO_FINDINGS,) if sound else ()
    sheaf = Sheaf(desk, letter=BARS, title=TITLE, says=(*SAYS, *none), kind="lists", number="L", after=after)
    tries = [tried(f"the list of {what}", partial(make, desk, sheaf)) for what, make in _every(fools, desk)]
    return sheaf, [one for one in tries if one is not None]


def _every(fools: Fools, desk: Desk) -> Iterator[tuple[str, Callable[[Desk, Sheaf], None]]]:
    """What is listed; findings first while there are stops, what was not checked where sheet 0 has no room for it."""
    if desk.book.stops:
        yield "findings", _findings
    yield "boards", board_list
    yield "finish", finish_list
    yield "set-ups", setup_list
    yield "joints", joint_list
    yield "frames", frames_list
    yield "boards that will fool you", partial(_fooling, fools)
    if desk.book.findings and not desk.book.stops and not tells_findings(desk):
        yield "findings", _findings
    yield "what was not checked", _left_here


def _fooling(fools: Fools, desk: Desk, sheaf: Sheaf) -> None:
    said = [[WordRun(printable(sentence))] for sentence in fools()]
    if len(said) > MOST_FOOLING:
        more = f"and {len(said) - MOST_FOOLING} more like these: go by the letters."
        said = [*said[:MOST_FOOLING], [WordRun(more)]]
    if said:
        sheaf.paragraphs("boards that will fool you", said)


# --- findings ------------------------------------------------------------------------------------


def _findings(desk: Desk, sheaf: Sheaf) -> None:
    findings = desk.book.findings
    stops = iter(range(1, len(findings) + 1))
    texts = [finding_words(desk, one, next(stops) if one.severity is Severity.STOP else 0) for one in findings]
    sheaf.paragraphs("findings", texts)


def _left_here(desk: Desk, sheaf: Sheaf) -> None:
    """What was not checked, where the overall sheet has no room for it."""
    if not leaves_to_lists(desk):
        return
    said = (f"{what}: {why}." for what, why in open_in_words(desk.book.not_checked, desk.book.voice))
    sheaf.paragraphs("not checked", [[WordRun(printable(sentence))] for sentence in said])
