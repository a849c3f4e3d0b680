"""What a part's sheet says in sentences: what to measure first, what the figures mean, how lengths came about."""

import math
from collections.abc import Iterable, Iterator, Sequence

from .....geometry.shapes import Bore, Prism
from .....geometry.views import FACES, Surface
from .....piece.facts import CutForm
from .....piece.leaning import edges_open
from .....piece.model import DATUM_END, Cut
from .....piece.operations import Bevelling, bevelled
from .....piece.sums import Word
from ....lettering import KEPT, printable
from ....looks import Desk, Look, is_bored
from ....naming import LEAST, in_runs, width
from ....standard import BLANK
from ...page.prose import WordRun, strong
from ..faces.masks import mask_words
from .details import from_face, is_mid_edge
from .facts import LEAST_LEAN, thickness_words
from .finish import finish_words
from .setups import how_made, not_worked_out, routed
from .sums import sums

ON_END = (  # common practice
    "the board on its end at the saw. Clamp it to a carrier on a high fence, hands above and out of the blade's line,"
    " the waste free to fall; if you cannot, saw proud and pare to a template."
)


CHECK = "Check against the board before cutting."


def checks(desk: Desk, looks: Sequence[Look]) -> list[WordRun]:
    """Blanks for the thickness of each board that enters, and what its slot is wider; else for the board's own."""
    runs = [strong(CHECK)]
    blanks = _plays(desk, looks)
    if not blanks:
        return [*runs, *_own(looks)]
    plays = {more for _, more in blanks}
    if len(plays) == 1:
        runs.append(WordRun(f"Width = the board it takes, measured, +{KEPT}{plays.pop()}:"))
        return [*runs, *(WordRun(mark, "semibold", blank=BLANK) for mark, _ in blanks)]
    runs.append(WordRun("Width = the board it takes, measured, and its play:"))
    for mark, more in blanks:
        runs += [WordRun(mark, "semibold", blank=BLANK), WordRun(f"+{KEPT}{more}")]
    return runs


def _plays(desk: Desk, looks: Sequence[Look]) -> list[tuple[str, str]]:
    """For each board that is taken: its letter, "tongue of" before it, and what its slot is wider, in words."""
    found: dict[str, str] = {}
    for cut in (cut for look in looks for cut in look.part.cuts):
        if cut.figures.fitted is None or cut.takes not in desk.marks:
            continue
        word, wider = cut.figures.fitted
        before = f"tongue of{KEPT}" if word is Word.TONGUE else ""
        found.setdefault(f"{before}{desk.marks[cut.takes]}", width(wider))
    return sorted(found.items())


def _own(looks: Sequence[Look]) -> list[WordRun]:
    """A board that takes no other is measured itself: what takes it is cut to its thickness."""
    thick = thickness_words(looks[0].part.board)
    runs = [WordRun(f"Its own thickness, set out as {thick}, measured:")]
    if len(looks) == 1:
        return [WordRun(runs[0].text, blank=BLANK)]
    return [*runs, *(WordRun(look.part.mark, "semibold", blank=BLANK) for look in looks)]


def origins(desk: Desk, look: Look) -> list[WordRun]:
    """How to read the figures, how ends and cuts are made, and where lengths come from."""
    runs = []
    within = [cut for cut in look.part.cuts if not cut.end]
    if any(not is_bored(cut) for cut in within):
        runs.append(WordRun("Each figure is the wall nearer the datum end, the waste (hatched) beyond it."))
    if any(is_bored(cut) for cut in within):
        runs.append(WordRun(_centres(look, [cut for cut in within if is_bored(cut)])))
    runs += [WordRun(words) for words in _zero(look)]
    runs += [WordRun(f"{words}.") for words in _tools(desk, look)]
    runs += [WordRun(words) for words in _corners(desk, look)]
    runs += [WordRun(f"{words}: {ON_END}", "semibold") for words in _on_end(look)]
    if why := not_worked_out(desk):
        runs.append(WordRun(why))
    runs += [strong(printable(words)) for words in finish_words(desk, look, mask_words(desk, look))]
    return [*runs, *(WordRun(words) for words in sums(look))]


def _centres(look: Look, bored: Sequence[Cut]) -> str:
    """That they are given to their centres; of those in mid-thickness, how far that is from the face side."""
    found: dict[str, list[Cut]] = {}
    for cut in bored:
        if is_mid_edge(cut) and isinstance(bore := cut.shapes[0], Bore):
            found.setdefault(from_face(look, bore), []).append(cut)
    if len(found) == 1 and sum(map(len, found.values())) == len(bored):
        return f"Bores are given to their centres, {next(iter(found))}."
    mids = (f"; {_numbers(look, cuts)} {where}" for where, cuts in found.items())
    return f"Holes and bores are given to their centres{''.join(mids)}."


def _zero(look: Look) -> Iterator[str]:
    """Which face the zero is on, where the other begins further in: how far, its running line says."""
    for face in FACES:
        if look.end_at(DATUM_END, face) > LEAST:
            yield f"Zero is the long point, on the {look.names.words[FACES[1 - FACES.index(face)]]}."


def _on_end(look: Look) -> Iterator[str]:
    """The ends for which the board stands on its end at the saw."""
    board = look.part.board
    ends = [cut for cut in look.part.cuts if cut.end and bevelled(abs(cut.figures.lean), board).how is Bevelling.ON_END]
    if ends and all(cut.key in look.numbers for cut in ends):
        yield in_runs(sorted(look.numbers[cut.key] for cut in ends))
    elif ends:
        yield " and ".join(look.names.words[Surface.DATUM if cut.end == DATUM_END else Surface.FAR] for cut in ends)


def _tools(desk: Desk, look: Look) -> list[str]:
    """How the cuts are made, those alike together: "2, 4: from the face, through the thickness"."""
    found: dict[str, list[int]] = {}
    for cut in sorted(look.part.cuts, key=lambda cut: look.numbers.get(cut.key, math.inf)):
        how = "" if cut.face and abs(cut.figures.lean) > LEAST_LEAN else how_made(desk, cut)  # its row says it
        if how and cut.key in look.numbers and not cut.end:
            found.setdefault(how, []).append(look.numbers[cut.key])
    return [f"{in_runs(numbers)}: {tool}" for tool, numbers in found.items()]


def _corners(desk: Desk, look: Look) -> Iterator[str]:
    """What a round cutter leaves to the chisel: the corners of seats and stops, for what enters has square ones."""
    board, round_ones = look.part.board, []
    for cut in look.part.cuts:
        prisms = [shape for shape in cut.shapes if isinstance(shape, Prism)]
        inner = cut.form in (CutForm.SLOT, CutForm.NOTCH, CutForm.HOUSING, CutForm.REBATE) and routed(desk, cut)
        if inner and prisms and not all(edges_open(prisms[0], board)):
            round_ones.append(cut)
    if round_ones:
        yield f"Square the corners of {_numbers(look, round_ones)} to their walls."


def _numbers(look: Look, cuts: Iterable[Cut]) -> str:
    return in_runs(sorted(look.numbers[cut.key] for cut in cuts))


def sharp_within(look: Look) -> int:
    """Two more than the board is thick, in whole mm: how far from a mark an arris must stay sharp."""
    return math.ceil(look.part.board.thickest + 2)
