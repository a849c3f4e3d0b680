"""The list of set-ups: what is set, what it is used for, and a box for the trial cut."""

import math
from collections.abc import Sequence
from typing import get_args

from ....piece.leaning import Head
from ....piece.operations import Bevelling, WorkSort
from ...display import Item, Stroke, Text, shifted
from ...hatch import hatch
from ...kit.wood import hatch_step
from ...lettering import KEPT, kept, printable, width, wrapped
from ...looks import Desk
from ...naming import in_runs, rise_head
from ...standard import AIR, ROW, STEP, TEXT
from ..page.prose import WordRun, strong
from ..page.sheaf import Sheaf
from ..page.table import Cell, Row, bold
from ..part.words.setups import Setup, Use, not_worked_out, setups

LETTERS = {  # and how the board lies
    WorkSort.ACROSS: "R router or saw across the face: the face named up, either where none is",
    WorkSort.ALONG: "L router or saw along the board: the face named up, the edge named to the fence",
    WorkSort.HOLES: "D drill: face side to the fence where no face is named",
    WorkSort.ENDS: "M saw tilted: long point up where the blade leans over the waste, down where over the board",
    WorkSort.CORNER: "K keys and tongues at a corner: front edge to the stop, figures from it",
}
ON_END = "; on its end, long point to the fence, the blade leaning away from it"
HEADS = (
    "LEFT, RIGHT: which way the head leans as you stand at the edge that the cut opens to, whichever face is up."
    " What opens to both edges, or to none, is seen from the front edge."
)
USED = "used for: part, cuts, face up"
TRY = "Try each set-up in an offcut as thick as the board, with the board that goes in."


def setup_list(desk: Desk, sheaf: Sheaf) -> None:
    """Every set-up with what is set, what it is used for, and a box for the trial cut."""
    if why := not_worked_out(desk):
        sheaf.paragraphs("set-ups", [[WordRun(printable(why))]])
    made = setups(desk).all
    if not made:
        return
    titles = ["set-up", "makes", "across walls", "lean", rise_head(), "deep", "set to", USED, "cuts", "tried"]
    used = {setup.of.work for setup in made}
    more = {WorkSort.ENDS: ON_END} if any(_on_end(setup) for setup in made) else {}
    letters = WordRun(" ".join(f"{words}{more.get(work, '')}." for work, words in LETTERS.items() if work in used))
    sheaf.table("set-ups", titles, [_listed(setup) for setup in made], [letters, strong(TRY)])
    if any(setup.head for setup in made):
        sheaf.drawing(leaning_heads(sheaf.space.wide))


# --- which way a head leans -----------------------------------------------------------------------

BOARD, THICK, LEANING = 20.0, 5.0, 20.0  # on paper, mm and degrees: steep enough to be told from square at once
MOUTH = THICK
HEADED = BOARD + width("head RIGHT", TEXT, "semibold") + ROW


def leaning_heads(wide: float) -> list[Item]:
    """A slot whose head leans LEFT and one whose head leans RIGHT, beside it how they are looked at."""
    items: list[Item] = []
    for number, hand in enumerate(get_args(Head)):
        items += shifted(_headed(hand), number * HEADED, 0.0)
    left = len(get_args(Head)) * HEADED
    for number, line in enumerate(wrapped(HEADS, wide - left, TEXT)):
        items.append(Text(at=(left, TEXT + number * STEP), text=line))
    return items


def _headed(hand: Head) -> list[Item]:
    """A board seen from the edge that the slot opens to, its front cut away."""
    shift = THICK * math.tan(math.radians(LEANING)) / 2 * (1 if hand == "RIGHT" else -1)
    low, high = BOARD / 2 - MOUTH / 2, BOARD / 2 + MOUTH / 2
    near = [(0.0, 0.0), (low + shift, 0.0), (low - shift, THICK), (0.0, THICK)]
    far = [(BOARD, 0.0), (high + shift, 0.0), (high - shift, THICK), (BOARD, THICK)]
    step = hatch_step(THICK, 1.0)
    words = Text(at=(BOARD + AIR, (THICK + TEXT) / 2), text=f"head {hand}", weight="semibold")
    return [
        *hatch([near, far], step),
        *(Stroke(points=tuple(side), pen="cut wood", layer="section") for side in (near, far)),
        words,
    ]


def _listed(setup: Setup) -> Row:
    return (
        bold(setup.name),
        Cell(text=setup.does),
        bold(setup.across),
        Cell(text=setup.lean),
        Cell(text=setup.rise),
        Cell(text=setup.deep),
        Cell(text=setup.stop),
        Cell(text=used_words(setup)),
        Cell(text=str(len(setup.uses))),
        Cell(tick=True),
    )


def _on_end(setup: Setup) -> bool:
    return setup.of.makes is Bevelling.ON_END


def used_words(setup: Setup) -> str:
    """The parts with their cuts, and the face that lies up where but one may: "A 3 upper; C 3 lower; D lower end"."""
    parts: dict[tuple[str, str], list[Use]] = {}
    for use in setup.uses:
        parts.setdefault((use.mark, use.up), []).append(use)
    return "; ".join(KEPT.join(filter(None, (mark, _cuts_words(uses), up))) for (mark, up), uses in parts.items())


def _cuts_words(uses: Sequence[Use]) -> str:
    numbers = in_runs(sorted(use.number for use in uses if use.number is not None))
    ends = [use.end for use in uses if use.number is None]
    return kept(", ".join(filter(None, [numbers, *ends])))
