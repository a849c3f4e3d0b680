"""What a part's sheet says in sentences: what to measure first, what the figures mean, how lengths came about."""

import math
from collections.abc import Sequence

from .....piece.model import Meeting
from ....looks import Desk, Look, is_bored
from ....naming import in_runs, width
from ...page.prose import KEPT, Run, strong
from .facts import thickness_words
from .sums import sums

BLANK = 11.0
THINNER = 0.05  # an end thinner than its board by more goes in with a tongue


def checks(desk: Desk, looks: Sequence[Look]) -> list[Run]:
    """Blanks for the thickness of each board that enters, and what its slot is wider; else for the board's own."""
    runs = [strong("Check against the board before cutting.")]
    blanks = _plays(desk, looks)
    if not blanks:
        return [*runs, *_own(looks)]
    plays = {more for _, more in blanks}
    if len(plays) == 1:
        runs.append(Run(f"Width = the board it takes, measured, +{KEPT}{plays.pop()}:"))
        return [*runs, *(Run(mark, "semibold", blank=BLANK) for mark, _ in blanks)]
    runs.append(Run("Width = the board it takes, measured, and its play:"))
    for mark, more in blanks:
        runs += [Run(mark, "semibold", blank=BLANK), Run(f"+{KEPT}{more}")]
    return runs


def _plays(desk: Desk, looks: Sequence[Look]) -> list[tuple[str, str]]:
    """For each board that is taken: its letter, "tongue of" before it, and what its slot is wider, in words."""
    found: dict[str, str] = {}
    for cut in (cut for look in looks for cut in look.part.cuts):
        joint = desk.book.piece.joint_by_key.get(cut.joint) if cut.joint else None
        if cut.size_is != "FIT TO" or cut.figures.across is None or joint is None or cut.takes not in desk.marks:
            continue
        thick = _thick(joint.meeting, cut.takes)
        ends = (one.figures.across for one in joint.cuts if one.body == cut.takes and one.end)
        enters = next((across for across in ends if across is not None), thick)
        words = "" if enters > thick - THINNER else f"tongue of{KEPT}"
        found.setdefault(f"{words}{desk.marks[cut.takes]}", width(cut.figures.across - enters))
    return sorted(found.items())


def _thick(meeting: Meeting, name: str) -> float:
    """What of a board enters: its thickness; of one lying flat its width."""
    side = meeting.side(name)
    flat = meeting.wide > 0.0 and side is meeting.b
    return meeting.wide if flat else side.thickness


def _own(looks: Sequence[Look]) -> list[Run]:
    """A board that takes no other is measured itself: what takes it is cut to its thickness."""
    thick = thickness_words(looks[0].part.board)
    runs = [Run(f"Its own thickness, set out as {thick}, measured:")]
    if len(looks) == 1:
        return [Run(runs[0].text, blank=BLANK)]
    return [*runs, *(Run(look.part.mark, "semibold", blank=BLANK) for look in looks)]


def origins(desk: Desk, look: Look) -> list[Run]:
    """How to read the figures, how ends and cuts are made, and where lengths come from."""
    runs = []
    within = [cut for cut in look.part.cuts if not cut.end]
    if any(not is_bored(cut) for cut in within):
        runs.append(Run("Each figure is the wall nearer the datum end, the waste (hatched) beyond it."))
    if any(is_bored(cut) for cut in within):
        runs.append(Run("Holes and bores are given to their centres."))
    runs += [Run(f"{words}.") for words in _tools(look)]
    return [*runs, *(Run(words) for words in sums(look))]


def _tools(look: Look) -> list[str]:
    """How the cuts are made, those alike together: "2, 4: from the face, through the thickness"."""
    found: dict[str, list[int]] = {}
    for cut in sorted(look.part.cuts, key=lambda cut: look.numbers.get(cut.key, 10_000)):
        if cut.tool and cut.key in look.numbers and not cut.end:
            found.setdefault(cut.tool, []).append(look.numbers[cut.key])
    return [f"{in_runs(numbers)}: {tool}" for tool, numbers in found.items()]


def sharp_within(look: Look) -> int:
    """Two more than the board is thick, in whole mm: how far from a mark an arris must stay sharp."""
    return math.ceil(look.part.board.thickest + 2)
