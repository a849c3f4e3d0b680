"""What a board's surfaces and ends are called, in words, from how it stands; and figures as they are worked.

The rules are those of the set-out: a face is upper or lower; left or right where the board stands within
1 degree of plumb; inside or outside on a frame's board; front or wall on a board lying flat. An end is left
or right, or lower and upper on a board steeper than 45.
"""

import math
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass

from ..geometry.frames import Vec
from ..geometry.views import Surface
from ..lengths import MM_PER, LengthUnit, inches
from ..piece.model import Board, Cut, Part
from ..piece.sums import Sum, Term, Word
from ..sentences import Step

PLUMB = math.sin(math.radians(1.0))
STEEP = 1e-9  # how much steeper than 45 an end must be to be called lower or upper


@dataclass(frozen=True, slots=True, kw_only=True)
class Names:
    """The words for one board.

    Attributes:
        words: of each surface: "upper face", "front edge", "left end" ...
        face_side, other_face: the surface all marking is done from, and the one opposite.
    """

    words: Mapping[Surface, str]
    face_side: Surface
    other_face: Surface

    def short(self, surface: Surface) -> str:
        """Its name without the noun: "upper"."""
        return self.words[surface].rsplit(" ", 1)[0]

    def loud(self, surface: Surface) -> str:
        """Its name as it stands in a view: "UPPER FACE"."""
        return self.words[surface].upper()


def names(board: Board) -> Names:
    """The words for a board's surfaces and ends."""
    plus, minus = _faces(board)
    front, wall = _edges(board)
    datum, far = _ends(board.frame.x)
    words = {
        Surface.PLUS: f"{plus} face",
        Surface.MINUS: f"{minus} face",
        Surface.FRONT: f"{front} edge",
        Surface.WALL: f"{wall} edge",
        Surface.DATUM: f"{datum} end",
        Surface.FAR: f"{far} end",
    }
    upper = board.face_side > 0
    return Names(
        words=words,
        face_side=Surface.PLUS if upper else Surface.MINUS,
        other_face=Surface.MINUS if upper else Surface.PLUS,
    )


def _faces(board: Board) -> tuple[str, str]:
    if board.lies == "flat":
        return ("front", "wall") if board.frame.y[2] > 0 else ("wall", "front")
    if board.inside:
        return ("inside", "outside") if board.inside > 0 else ("outside", "inside")
    return _standing(board.frame.x, board.frame.y)


def _edges(board: Board) -> tuple[str, str]:
    """Of the edge at the whole depth, and of the one at 0."""
    if board.lies == "flat":
        return _standing(board.frame.x, board.frame.z)
    return "front", "wall"


def _standing(along: Vec, normal: Vec) -> tuple[str, str]:
    """What the side a normal points to is called, and the side behind it."""
    if abs(along[0]) <= PLUMB * math.hypot(along[0], along[1]):
        return ("left", "right") if normal[0] < 0 else ("right", "left")
    return ("upper", "lower") if normal[1] > 0 else ("lower", "upper")


def _ends(along: Vec) -> tuple[str, str]:
    if abs(along[1]) - abs(along[0]) > STEEP:
        return ("lower", "upper") if along[1] > 0 else ("upper", "lower")
    return ("left", "right") if along[0] > 0 else ("right", "left")


_HISSING = ("ch", "sh", "s", "x", "z")  # after these a plural has -es

EVEN = 1e-6  # mm: lengths that differ by less are alike
_PRINTED: ContextVar[LengthUnit] = ContextVar("printed", default="mm")
_FINEST = 64  # parts of an inch on a rule
_THOUSANDTHS = 3  # places of an inch on a caliper


@contextmanager
def printing_in(units: LengthUnit) -> Iterator[None]:
    """Figures made within are printed in these units: this is the one place where that is decided."""
    token = _PRINTED.set(units)
    try:
        yield
    finally:
        _PRINTED.reset(token)


def printed_units() -> LengthUnit:
    """The units in which figures are printed just now."""
    return _PRINTED.get()


def position(value: float) -> str:
    """A running position: to 0.1 ("734.7", "250"), or to 1/64 inch ("28 59/64")."""
    if _PRINTED.get() == "in":
        return inches(value, _FINEST)
    return _plain(f"{round(value, 1) + 0.0:.1f}")


def width(value: float) -> str:
    """A width by gauge or board: to 0.05 ("24.45"), or to a thousandth of an inch ("0.963")."""
    if _PRINTED.get() == "in":
        return f"{value / MM_PER['in'] + 0.0:.{_THOUSANDTHS}f}"
    return f"{round(value * 20) / 20 + 0.0:.2f}"


def adding_up(
    first: float, more: Sequence[float], whole: float | None = None
) -> tuple[float, float, tuple[float, ...]]:
    """A total, what it begins with and what comes to it or goes off, as positions that add up; two alike stay alike.

    Args:
        first: what it begins with.
        more: what comes to it, or goes off.
        whole: the total, where it is printed elsewhere too: half-way between two steps it is rounded as there.
    """
    twice = len(more) == 2 and abs(more[0] - more[1]) < EVEN
    terms = [Term(Word.GOES_IN, more[0], times=2)] if twice else [Term(Word.GOES_IN, one) for one in more]
    told = round(whole, 1) if whole is not None and _PRINTED.get() == "mm" else whole
    every = Sum("", (Term(Word.BETWEEN, first), *terms))
    total, (begins, *others) = every.printed(Step.PLACE.size(_PRINTED.get()), told)
    return total, begins, tuple(others * 2 if twice else others)


def thickness(value: float) -> str:
    """A board's thickness: "23.9", or to a thousandth of an inch."""
    if _PRINTED.get() == "in":
        return width(value)
    return f"{value:.2f}".rstrip("0").rstrip(".")


def depth(value: float) -> str:
    """A depth: to 0.1 ("8.0"), or to 1/64 inch."""
    if _PRINTED.get() == "in":
        return inches(value, _FINEST)
    return f"{round(value, 1) + 0.0:.1f}"


def run(value: float) -> str:
    """A length of timber to order, in metres or feet: "11.52 m", "37.8 ft"."""
    if _PRINTED.get() == "in":
        return f"{value / MM_PER['in'] / 12:.1f} ft"
    return f"{value / 1000:.2f} m"


def angle(value: float) -> str:
    """An angle, to 0.05: "7.5°"."""
    return _plain(f"{round(value * 20) / 20 + 0.0:.2f}", all_noughts=True) + "°"


def rise(lean: float) -> str:
    """How far a wall leans over 300 of run, or over 12 inches: "39.5 in 300", "1.580 in 12"."""
    slope = math.tan(math.radians(abs(lean)))
    if _PRINTED.get() == "in":
        return f"{12 * slope:.{_THOUSANDTHS}f} in 12"
    return f"{position(300 * slope)} in 300"


def _plain(text: str, *, all_noughts: bool = False) -> str:
    if all_noughts and "." in text:
        return text.rstrip("0").rstrip(".")
    return text.removesuffix(".0")


def plural(count: int, noun: str) -> str:
    """A count with its noun in the number that suits it; the noun may be given as a plural: "2 notches", "1 hole"."""
    return f"{count} {_singular(noun) if count == 1 else _several(noun)}"


def _several(noun: str) -> str:
    """More than one of it: "slots", "notches", "boxes"; a plural stays."""
    if noun.endswith("s") and not noun.endswith("ss"):
        return noun
    return f"{noun}es" if noun.endswith(_HISSING) else f"{noun}s"


def _singular(noun: str) -> str:
    """One of it: "hole" for "holes", "notch" for "notches"; a noun that is no plural stays."""
    if not noun.endswith("s") or noun.endswith("ss"):
        return noun
    return noun[:-2] if noun.endswith("es") and noun[:-2].endswith(_HISSING) else noun[:-1]


def in_runs(numbers: Sequence[int]) -> str:
    """Numbers in words, three or more in a row as a run: "1, 3 to 6, 9"."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    words = [f"{run[0]} to {run[-1]}" if len(run) > 2 else ", ".join(map(str, run)) for run in runs]
    return ", ".join(words)


def scale_words(scale: float) -> str:
    """A scale as drawings give it: "1:10"."""
    return f"1:{round(1 / scale)}"


def numbered(part: Part) -> dict[str, int]:
    """The number of each cut on the sheets, by its key: in order along the board, free ends without one."""
    worked = [cut for cut in part.cuts if cut.joint is not None or not cut.end]
    return {cut.key: number for number, cut in enumerate(worked, start=1)}


def takes_mark(cut: Cut, marks: Mapping[str, str]) -> str:
    """The letter of the board a cut takes; the name of what has no letter; "" for nothing."""
    return marks.get(cut.takes, cut.takes)
