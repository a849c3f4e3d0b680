"""The list of set-ups: what is set, what it is used for, and a box for the trial cut."""

from collections.abc import Sequence

from ...looks import Desk
from ...naming import in_runs
from ..page.prose import KEPT, Run, strong
from ..page.sheaf import Sheaf
from ..page.table import Cell, Column, Row, bold
from ..part.words.setups import Setup, Use, setups

LETTERS = {
    "R": "R router or saw across the face",
    "D": "D drill",
    "M": "M saw tilted for a mitre or bevel",
    "K": "K keys and tongues at a corner",
}
HANDS = "LEFT, RIGHT: where the walls go as they go down, the edge they open to towards you; the same from either face."
TRY = "Try each set-up in an offcut as thick as the board, with what goes in."


def setup_list(desk: Desk, sheaf: Sheaf) -> None:
    """Every set-up with what is set, what it is used for, and a box for the trial cut."""
    made = setups(desk).all
    if not made:
        return
    columns = [
        Column(title="set-up", wide=11.2),
        Column(title="makes", wide=23.0),
        Column(title="across walls", wide=13.6),
        Column(title="lean", wide=18.0),
        Column(title="deep", wide=17.0),
        Column(title="set to", wide=38.0),
        Column(title="used for: part, its cuts", wide=41.0),
        Column(title="cuts", wide=8.6),
        Column(title="tried", wide=9.6),
    ]
    leans = [Run(HANDS)] if any(setup.hand for setup in made) else []
    used = {setup.operation for setup in made}
    letters = Run(", ".join(words for letter, words in LETTERS.items() if letter in used) + ".")
    sheaf.table("set-ups", columns, [_listed(setup) for setup in made], [letters, *leans, strong(TRY)])


def _listed(setup: Setup) -> Row:
    return (
        bold(setup.name),
        Cell(text=setup.does),
        bold(setup.across),
        Cell(text=setup.lean),
        Cell(text=setup.deep),
        Cell(text=setup.stop),
        Cell(text=used_words(setup)),
        Cell(text=str(len(setup.uses))),
        Cell(tick=True),
    )


def used_words(setup: Setup) -> str:
    """The parts with their cuts: "A 1, 9; B 1, 8; D lower end"."""
    parts: dict[str, list[Use]] = {}
    for use in setup.uses:
        parts.setdefault(use.mark, []).append(use)
    return "; ".join(f"{mark}{KEPT}{_cuts_words(uses)}" for mark, uses in parts.items())


def _cuts_words(uses: Sequence[Use]) -> str:
    numbers = in_runs(sorted(use.number for use in uses if use.number is not None))
    ends = [use.end for use in uses if use.number is None]
    return ", ".join(filter(None, [numbers, *ends])).replace(" ", KEPT)
