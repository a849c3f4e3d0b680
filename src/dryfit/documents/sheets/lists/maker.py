"""The lists: boards, blanks, hardware and glue to order; set-ups and joints to tick off; findings with what to do."""

from collections.abc import Iterator, Sequence

from ....asking import open_in_words
from ....findings import Finding, Severity
from ....sentences import told
from ...lettering import printable
from ...looks import Desk
from ..overall.maker import leaves_to_lists
from ..page.frame import BARS
from ..page.prose import Run, strong
from ..page.sheaf import Sheaf
from ..part.fooling import fooling
from ..registry import Draft, sheet
from .boards import blank_list, board_list
from .gluing import frames_list, glue_list
from .joints import hardware_list, joint_list
from .setups import setup_list

TITLE = "what to order and make"
SAYS = "to have before the first cut · lengths along the grain, first"
NO_FINDINGS = "nothing was found that must change in what was looked at"
AFTER = (5.0, 3.0)  # below a table, the second where it saves a sheet
MOST_FOOLING = 12
_SAID = {Severity.STOP: "STOP", Severity.WARN: "LOOK", Severity.NOTE: "note"}


@sheet("lists", paper="workshop", order=20)
def lists(desk: Desk) -> Iterator[Draft]:
    """The lists, on as many sheets as they take; set closer where that saves a sheet with little on it."""
    fools = list(fooling(desk))
    made = [_sheaf(desk, fools, after).drafts() for after in AFTER]
    yield from min(made, key=len)


def _sheaf(desk: Desk, fools: Sequence[str], after: float) -> Sheaf:
    """All lists; findings first while there are stops, what was not looked at where the first sheet has no room."""
    sound = all(finding.severity is Severity.NOTE for finding in desk.book.findings)
    none = f" · {NO_FINDINGS}" if sound else ""
    sheaf = Sheaf(desk, letter=BARS, title=TITLE, says=SAYS + none, kind="lists", number="L", after=after)
    if desk.book.stops:
        _findings(desk, sheaf)
    board_list(desk, sheaf)
    blank_list(desk, sheaf)
    hardware_list(desk, sheaf)
    glue_list(desk, sheaf)
    setup_list(desk, sheaf)
    joint_list(desk, sheaf)
    frames_list(desk, sheaf)
    _fooling(fools, sheaf)
    if desk.book.findings and not desk.book.stops:
        _findings(desk, sheaf)
    if leaves_to_lists(desk):
        _not_looked_at(desk, sheaf)
    return sheaf


def _fooling(fools: Sequence[str], sheaf: Sheaf) -> None:
    said = [[Run(printable(sentence))] for sentence in fools]
    if len(said) > MOST_FOOLING:
        more = f"and {len(said) - MOST_FOOLING} more like these: go by the letters."
        said = [*said[:MOST_FOOLING], [Run(more)]]
    if said:
        sheaf.paragraphs("boards that will fool you", said)


# --- findings ------------------------------------------------------------------------------------


def _findings(desk: Desk, sheaf: Sheaf) -> None:
    findings = desk.book.findings
    stops = iter(range(1, len(findings) + 1))
    texts = [_finding(desk, one, next(stops) if one.severity is Severity.STOP else 0) for one in findings]
    sheaf.paragraphs("findings", texts)


def _not_looked_at(desk: Desk, sheaf: Sheaf) -> None:
    said = (f"{what}: {why}." for what, why in open_in_words(desk.book.not_checked, desk.book.voice))
    sheaf.paragraphs("not looked at", [[Run(printable(sentence))] for sentence in said])


def _finding(desk: Desk, finding: Finding, number: int) -> list[Run]:
    where = finding.where.joint or finding.where.boards
    between = " × " if finding.where.joint else ", "  # a cross stands for a joint, and boards may meet nowhere
    marks = between.join(desk.marks.get(name, name) for name in where)
    word = _SAID[finding.severity] + (f" {number}" if number else "")
    voice = desk.book.voice
    runs = [strong(printable(f"{word} {marks}".strip())), Run(printable(f"{told(finding.says, voice)}."))]
    if finding.remedy:
        runs.append(Run(printable(f"What to do: {told(finding.remedy, voice)}.")))
    if finding.source:
        runs.append(Run(printable(f"({finding.source})")))
    return runs
