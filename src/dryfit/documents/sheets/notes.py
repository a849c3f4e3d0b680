"""What a part's sheet says in sentences: what to measure first, what the figures mean, how lengths came about."""

import math

from ...findings import in_units
from ...geometry.views import Surface
from ..looks import Desk, Look
from ..naming import in_runs, printed_units, width
from .prose import KEPT, Run, strong

BLANK = 11.0


def checks(desk: Desk, look: Look) -> list[Run]:
    """Blanks for the thickness of each board that enters, and what its slot is wider."""
    runs = [strong("Check against the board before cutting.")]
    blanks = _plays(desk, look)
    if not blanks:
        return runs
    plays = {more for _, more in blanks}
    if len(plays) == 1:
        runs.append(Run(f"Width = the board it takes, measured, +{KEPT}{plays.pop()}:"))
        return [*runs, *(Run(mark, "semibold", blank=BLANK) for mark, _ in blanks)]
    runs.append(Run("Width = the board it takes, measured, and its play:"))
    for mark, more in blanks:
        runs += [Run(mark, "semibold", blank=BLANK), Run(f"+{KEPT}{more}")]
    return runs


def _plays(desk: Desk, look: Look) -> list[tuple[str, str]]:
    """For each board that is taken: its letter, and what its slot is wider than it, in words."""
    found: dict[str, str] = {}
    for cut in look.part.cuts:
        joint = desk.book.piece.joint_by_key.get(cut.joint) if cut.joint else None
        if cut.size_is != "FIT TO" or cut.figures.across is None or joint is None or cut.takes not in desk.marks:
            continue
        more = cut.figures.across - joint.meeting.side(cut.takes).thickness
        found.setdefault(desk.marks[cut.takes], width(more))
    return sorted(found.items())


def origins(look: Look) -> list[Run]:
    """How to read the figures, how ends and cuts are made, and where lengths come from."""
    runs = [Run("Each figure is the wall nearer the datum end, the waste (hatched) to its right.")]
    runs += [Run(f"{words}.") for words in _tools(look)]
    for cut in look.part.cuts:
        if cut.end and cut.joint and cut.figures.sum:
            word = look.names.words[Surface.DATUM if cut.end < 0 else Surface.FAR]
            runs.append(Run(f"{word[0].upper()}{word[1:]}: {in_units(cut.figures.sum, printed_units())}."))
    return runs


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
