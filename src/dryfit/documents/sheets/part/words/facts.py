"""What a sheet says of a part in words: timber, sizes, ends, cuts; and each cut's row."""

from .....geometry.shapes import Bore
from .....geometry.views import EDGES, FACES, Surface
from .....piece.model import DATUM_END, Board, Cut, Part
from ....looks import Desk, Look
from ....naming import angle, depth, position, rise, thickness
from ....symbols import Tag

LEAST_LEAN = 0.025  # degrees; less prints as square


def timber_words(desk: Desk, board: Board) -> str:
    """Species and form as the job has them, or the timber's own name."""
    timber = desk.book.job.timbers.get(board.timber)
    if timber is None:
        return board.timber
    form = "" if timber.form in timber.species else timber.form  # "plywood, birch" says it already
    return ", ".join(word for word in (timber.species, form) if word) or timber.name


def stock_words(desk: Desk, board: Board) -> str:
    """The timber as it is bought: "oak, European, sawn, to be planed to 24 × 250"."""
    words = timber_words(desk, board)
    if not board.planing:
        return words
    return f"{words}, sawn, to be planed to {thickness_words(board)} × {position(board.depth)}"


def thickness_words(board: Board) -> str:
    """Its thickness: "24", or "23.8 to 24.1" where it changes."""
    sizes = sorted({round(thickness, 2) for _, thickness in board.profile})
    words = [thickness(size) for size in (sizes[0], sizes[-1])]
    return words[0] if len(sizes) == 1 else f"{words[0]} to {words[1]}"


def facts(desk: Desk, part: Part, *, each: bool = False) -> str:
    """One line on a part: timber, finished size, blank, mass, `each` where there are several of it."""
    board, blank = part.board, part.blank
    long, short = part.length, part.short[1] - part.short[0]
    across = f"{position(board.depth)} × {thickness_words(board)}"
    size = f"finished {position(long)} × {across}"
    if long - short > 0.05:
        size = f"long points {position(long)}, short points {position(short)}, {across}"
    rough = f"blank {position(blank.length)} × {position(blank.width)} × {position(blank.thickness)}"
    parts = [timber_words(desk, board), size, f"{rough}, sawn" if board.planing else rough]
    mass = desk.book.mass_kg.get(part.id)
    if mass is not None:
        parts.append(f"{mass:.1f} kg{' each' if each else ''}")
    return " · ".join(word for word in parts if word)


def tag_of(desk: Desk, cut: Cut, scribe: float = 0.0) -> tuple[Tag, str]:
    """The tag of a cut's size."""
    if cut.size_is == "FIT TO":
        return "FIT TO", f"FIT TO {desk.marks.get(cut.takes, cut.takes)}".strip()
    if cut.size_is == "LEAVE LONG":
        return "LEAVE LONG", f"LEAVE LONG {position(scribe)}"
    return "FIXED", "FIXED"


def scribe_of(part: Part, end: int) -> float:
    """What is left long at an end."""
    return part.board.scribe[0 if end == DATUM_END else 1]


def takes_words(desk: Desk, cut: Cut) -> str:
    """Letter and name of what a cut takes."""
    if not cut.takes:
        return ""
    mark = desk.marks.get(cut.takes)
    return f"{mark} {cut.takes}" if mark else cut.takes


def bore_words(look: Look, cut: Cut) -> str:
    """The diameters of a bore with their depths: "12 × 280 deep, 6.6 through"."""
    bore = next(shape for shape in cut.shapes if isinstance(shape, Bore))
    steps = list(zip(bore.profile, bore.profile[1:], strict=False))
    through = sum(_seen(look, surface, cut) for surface in (*FACES, *EDGES)) > 1
    words = []
    for number, ((_, diameter), (bottom, _)) in enumerate(steps):
        last = number == len(steps) - 1
        size = position(diameter)
        words.append(f"{size} through" if last and through else f"{size} × {position(bottom)} deep")
    return ", ".join(words)


def _seen(look: Look, surface: Surface, cut: Cut) -> bool:
    trace = look.view(surface).trace(cut.key)
    return trace is not None and trace.seen


def finish_words(look: Look, end: int, surface: Surface) -> list[str]:
    """Where an end that is left long is finished on site, and where it is cut before that."""
    finish = look.end_at(end, surface)
    return [f"finish line {position(finish)}", f"cut at {position(finish + end * scribe_of(look.part, end))}"]


def end_words(cut: Cut) -> str:
    """How an end is cut: "cut square", "cut 9° off square"."""
    lean = abs(cut.figures.lean)
    return "cut square" if lean < LEAST_LEAN else f"cut {angle(lean)} off square"


def end_angle_words(cut: Cut) -> str:
    """The same with what the saw is set to and what it rises: "saw 9°, 47.5 in 300"."""
    lean = abs(cut.figures.lean)
    return "cut square" if lean < LEAST_LEAN else f"saw {angle(lean)}, {rise(lean)}"


def depth_words(cut: Cut) -> str:
    """Its depth, or nothing."""
    return "" if cut.figures.deep is None else depth(cut.figures.deep)
