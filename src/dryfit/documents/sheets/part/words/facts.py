"""What a sheet says of a part in words: timber, sizes, ends, cuts; and each cut's row."""

from .....geometry.shapes import Bore
from .....geometry.views import EDGES, FACES, Surface
from .....piece import operations
from .....piece.model import DATUM_END, Board, Cut, Part
from ....looks import Desk, Look
from ....naming import LEAST, depth, mass_figure, mass_unit, position, saw_rise, saw_words, thickness
from ....symbols import Tag
from ..looking import other_of

LEAST_LEAN = operations.LEAST_LEAN  # degrees; less prints as square


def timber_words(desk: Desk, board: Board) -> str:
    """Species and form as the job has them, or the timber's own name."""
    timber = desk.book.job.timbers.get(board.timber)
    if timber is None:
        return board.timber
    form = "" if timber.form in timber.species else timber.form  # "plywood, birch" says it already
    return ", ".join(word for word in (timber.species, form) if word) or timber.name


def thickness_words(board: Board) -> str:
    """Its thickness: "24", or "23.8 to 24.1" where it changes."""
    sizes = sorted({round(thickness, 2) for _, thickness in board.profile})
    words = [thickness(size) for size in (sizes[0], sizes[-1])]
    return words[0] if len(sizes) == 1 else f"{words[0]} to {words[1]}"


def facts(desk: Desk, part: Part, *, each: bool = False) -> tuple[str, ...]:
    """What a part is: timber, finished size, blank, mass, `each` where there are several of it."""
    board, blank = part.board, part.blank
    long, short = part.length, part.short[1] - part.short[0]
    across = f"{position(board.depth)} × {thickness_words(board)}"
    size = f"finished {position(long)} × {across}"
    if long - short > LEAST:
        size = f"long points {position(long)}, short points {position(short)}, {across}"
    rough = f"blank {position(blank.length)} × {position(blank.width)} × {position(blank.thickness)}"
    parts = [timber_words(desk, board), size, f"{rough}, sawn" if board.planing else rough]
    mass = desk.book.mass_kg.get(part.id)
    if mass is not None:
        parts.append(f"{mass_figure(mass)} {mass_unit()}{' each' if each else ''}")
    return tuple(word for word in parts if word)


def tag_of(desk: Desk, cut: Cut, scribe: float = 0.0) -> tuple[Tag, str]:
    """The tag of a cut's size."""
    if cut.size_is == "FIT TO":
        return "FIT TO", f"FIT TO {fitted_to(desk, cut)}".strip()
    if cut.size_is == "LEAVE LONG":
        return "LEAVE LONG", f"LEAVE LONG {position(scribe)}"
    return "FIXED", "FIXED"


def fitted_to(desk: Desk, cut: Cut) -> str:
    """Letter or word of what a cut is fitted to: what enters it, or of an end the board that it stands to."""
    other = other_of(cut) if cut.end else cut.takes
    return desk.marks.get(other, other)


def tag_shortly(desk: Desk, cut: Cut, scribe: float = 0.0) -> str:
    """The same where there is little room, and its pen says what kind it is: "LONG 20"."""
    return f"LONG {position(scribe)}" if cut.size_is == "LEAVE LONG" else tag_of(desk, cut, scribe)[1]


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
    """How an end is cut: "cut square", "bevelled"; to what, its row and its section say."""
    return "cut square" if abs(cut.figures.lean) < LEAST_LEAN else "bevelled"


def end_angle_words(cut: Cut, board: Board) -> str:
    """The same with what the saw is set to and what it rises: "9° on the saw, 47.5 in 300"."""
    lean = abs(cut.figures.lean)
    return "cut square" if lean < LEAST_LEAN else f"{saw_words(lean, board)}, {saw_rise(lean, board)}"


def is_tongue(look: Look, cut: Cut) -> bool:
    """Whether what goes in is thinner than the board there; else it is just the end."""
    at = look.end_at(cut.end, look.names.face_side) + look.part.zero
    return cut.figures.across is not None and cut.figures.across < look.part.board.thickness_at(at) - LEAST


def depth_words(cut: Cut) -> str:
    """Its depth, or nothing."""
    return "" if cut.figures.deep is None else depth(cut.figures.deep)
