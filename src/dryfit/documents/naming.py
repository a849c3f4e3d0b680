"""What a board's surfaces and ends are called, in words, from how it stands; and figures as they are worked.

The rules are those of the set-out: a face is upper or lower; left or right where the board stands within
1 degree of plumb; inside or outside on a frame's board; front or wall on a board lying flat. An end is left
or right, or lower and upper on a board steeper than 45.
"""

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass
from typing import Protocol

from ..geometry.frames import NEAR, Vec
from ..geometry.sections import PARALLEL
from ..geometry.views import Surface
from ..lengths import MM_PER, LengthUnit, figure, inches, rounded
from ..piece.model import Board, Part
from ..piece.operations import Bevelling, bevelled
from ..piece.sums import Sum, Term, Word
from ..sentences import HISSING, HUNDREDTH, KG_PER_LB, Angle, Fineness, Voice, Words, told
from ..sentences import plural as several
from .standard import RIGHT

PLUMB = math.sin(math.radians(1.0))


class Called(str):
    """What a surface is called on paper: "upper face".

    Attributes:
        word: the first of it: "upper".
        noun: the rest: "face".
    """

    __slots__ = ("noun", "word")

    word: str
    noun: str

    def __new__(cls, word: str, noun: str) -> "Called":
        """Of a word and a noun."""
        made = super().__new__(cls, f"{word} {noun}")
        made.word, made.noun = word, noun
        return made

    def __reduce__(self) -> tuple[type["Called"], tuple[str, str]]:
        """So that it comes back from a pickle whole."""
        return Called, (self.word, self.noun)


@dataclass(frozen=True, slots=True, kw_only=True)
class Names:
    """The words for one board.

    Attributes:
        words: of each surface: "upper face", "front edge", "left end" ...
        face_side, other_face: the surface all marking is done from, and the one opposite.
    """

    words: Mapping[Surface, Called]
    face_side: Surface
    other_face: Surface

    def short(self, surface: Surface) -> str:
        """Its name without the noun: "upper"."""
        return self.words[surface].word

    def loud(self, surface: Surface) -> str:
        """Its name as it stands in a view: "UPPER FACE"."""
        return self.words[surface].upper()


def names(board: Board) -> Names:
    """The words for a board's surfaces and ends."""
    plus, minus = _faces(board)
    front, wall = _edges(board)
    datum, far = _ends(board.frame.x)
    words = {
        Surface.PLUS: Called(plus, "face"),
        Surface.MINUS: Called(minus, "face"),
        Surface.FRONT: Called(front, "edge"),
        Surface.WALL: Called(wall, "edge"),
        Surface.DATUM: Called(datum, "end"),
        Surface.FAR: Called(far, "end"),
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
    if abs(along[1]) - abs(along[0]) > PARALLEL:
        return ("lower", "upper") if along[1] > 0 else ("upper", "lower")
    return ("left", "right") if along[0] > 0 else ("right", "left")


_SET: Mapping[Bevelling, tuple[str, ...]] = {
    Bevelling.TILTED: ("{} on the saw",),
    Bevelling.ON_END: ("on its end", "{} on the saw"),
    Bevelling.TEMPLATE: ("template", "{} to the face"),
}

LEAST = 0.05  # mm: the finest step of a printed figure, a width's; less prints as nothing
_PRINTED: ContextVar[LengthUnit] = ContextVar("printed", default="mm")
_WRITTEN: ContextVar[Callable[[str], str]] = ContextVar("written", default=str)
_FINEST = 64  # parts of an inch on a rule
_THOUSANDTHS = 3  # places of an inch on a caliper
_RUN = 300  # mm, a foot in round figures, over which a lean is told
_FOOT = round(MM_PER["ft"] / MM_PER["in"])  # in inches


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


@contextmanager
def written_as(way: Callable[[str], str]) -> Iterator[None]:
    """Lengths that are told within are written as `way` gives them: by a letter, or by none, for who compares forms."""
    token = _WRITTEN.set(way)
    try:
        yield
    finally:
        _WRITTEN.reset(token)


def is_written_otherwise() -> bool:
    """Whether lengths are written otherwise than they are printed just now."""
    return _WRITTEN.get() is not str


def as_written(figure: str) -> str:
    """A figure as it is written just now."""
    return _WRITTEN.get()(figure)


def position(value: float) -> str:
    """A running position: to 0.1 ("734.7", "250"), or to 1/64 inch ("28 59/64")."""
    if _PRINTED.get() == "in":
        return as_written(inches(value, _FINEST))
    return as_written(figure(value))


def width(value: float) -> str:
    """A width by gauge or board: to 0.05 ("24.45"), or to a thousandth of an inch ("0.963")."""
    if _PRINTED.get() == "in":
        return as_written(f"{value / MM_PER['in'] + 0.0:.{_THOUSANDTHS}f}")
    return as_written(f"{rounded(value, LEAST):.2f}")


def notched(value: float) -> str:
    """What is taken off an end at an edge, beside a stop: to 0.05 ("15.15"), or to 1/64 inch as the stop is."""
    return position(value) if _PRINTED.get() == "in" else width(value)


def fine(value: float) -> str:
    """A width by calliper: to 0.01 ("8.13"), or to a thousandth of an inch."""
    return width(value) if _PRINTED.get() == "in" else as_written(f"{rounded(value, Fineness.FINE.mm):.2f}")


def adding_up(
    first: float, more: Sequence[float], whole: float | None = None
) -> tuple[float, float, tuple[float, ...]]:
    """A total, what it begins with and what comes to it or goes off, as positions that add up; two alike stay alike.

    Args:
        first: what it begins with.
        more: what comes to it, or goes off.
        whole: the total, where it is printed elsewhere too: half-way between two steps it is rounded as there.
    """
    twice = len(more) == 2 and abs(more[0] - more[1]) < NEAR
    terms = [Term(Word.GOES_IN, more[0], times=2)] if twice else [Term(Word.GOES_IN, one) for one in more]
    told = rounded(whole, Fineness.PLACE.mm) if whole is not None and _PRINTED.get() == "mm" else whole
    every = Sum("", (Term(Word.BETWEEN, first), *terms))
    total, (begins, *others) = every.printed(Fineness.PLACE.size(_PRINTED.get()), told)
    return total, begins, tuple(others * 2 if twice else others)


def thickness(value: float) -> str:
    """A board's thickness: "23.9", or to a thousandth of an inch."""
    if _PRINTED.get() == "in":
        return width(value)
    return as_written(f"{value:.2f}".rstrip("0").rstrip("."))


def depth(value: float) -> str:
    """A depth: to 0.1 ("8.0"), or to 1/64 inch."""
    if _PRINTED.get() == "in":
        return as_written(inches(value, _FINEST))
    return as_written(figure(value, fixed=True))


def run(value: float) -> str:
    """A length of timber to order, in metres or feet: "11.52 m", "37.8 ft"."""
    if _PRINTED.get() == "in":
        return f"{value / MM_PER['ft']:.1f} ft"
    return f"{value / MM_PER['m']:.2f} m"


def area(value: float) -> str:
    """A surface to order or to finish, in square metres or square feet: "6.05 m²", "65.1 ft²"."""
    if _PRINTED.get() == "in":
        return f"{value * (MM_PER['m'] / MM_PER['ft']) ** 2:.1f} ft²"
    return f"{value:.2f} m²"


def patch(mm2: float) -> str:
    """A small surface, given in mm2: "134 cm²", "20.8 sq in"."""
    if _PRINTED.get() == "in":
        return as_written(f"{mm2 / MM_PER['in'] ** 2:.1f}") + " sq in"
    return as_written(f"{mm2 / MM_PER['cm'] ** 2:.0f}") + " cm²"


def mass_unit() -> str:
    """What masses are told in: "kg", or "lb" where lengths are in inches."""
    return "lb" if _PRINTED.get() == "in" else "kg"


def mass_figure(kg: float, places: int = 1) -> str:
    """A mass in that unit, in columns and sums alike to so many places: "13.9"."""
    return f"{kg / KG_PER_LB if _PRINTED.get() == 'in' else kg:.{places}f}"


def angle(value: float) -> str:
    """An angle, to its hundredths: "7.5°", "8.33°"."""
    return Angle(value).said(Voice())


def saw_words(lean: float, board: Board) -> str:
    """What is set for an end that is off square: "8.33° on the saw", "on its end, 39.69° on the saw"."""
    return ", ".join(saw_lines(lean, board))


def saw_lines(lean: float, board: Board) -> tuple[str, ...]:
    """The same, each thing that is set by itself."""
    one = bevelled(lean, board)
    return tuple(form.format(angle(one.degrees)) for form in _SET[one.how])


def saw_rise(lean: float, board: Board) -> str:
    """The same as a rise."""
    return rise(bevelled(lean, board).degrees)


def rest_to_square(value: float) -> str:
    """What an angle leaves to 90 degrees: the two add up as they are printed."""
    return angle(RIGHT - rounded(value, HUNDREDTH))


def rise(lean: float) -> str:
    """How far a wall leans over 300 of run, or over 12 inches: "39.5 in 300", "1.580 in 12"."""
    return f"{rise_figure(lean)} in {_run_of_rise()}"


def rise_figure(lean: float) -> str:
    """The same under the head of a column that says over how much."""
    slope = math.tan(math.radians(abs(lean)))
    return f"{_FOOT * slope:.{_THOUSANDTHS}f}" if _PRINTED.get() == "in" else position(_RUN * slope)


def rise_head() -> str:
    """That head: "in 300"."""
    return f"in {_run_of_rise()}"


def _run_of_rise() -> int:
    return _FOOT if _PRINTED.get() == "in" else _RUN


class Sized(Protocol):
    """What has a size in words."""

    @property
    def says(self) -> Words:
        """The size."""

    @property
    def in_mm(self) -> bool:
        """Whether it is sold by the millimetre everywhere."""


def ware_size(ware: Sized) -> str:
    """A size in the units printed; what is sold by the millimetre everywhere keeps its own, and says so."""
    units = printed_units()
    size = told(ware.says, Voice(units, bare=True))
    return f"{size} mm" if ware.in_mm and units == "in" else size


PEOPLE = ("Nobody", "One person", "Two people", "Three people", "Four people")  # by their number


def percent(share: float) -> str:
    """A share as a whole number of hundredths, without its sign."""
    return figure(100 * share, 1.0)


def tenths_above(value: float) -> float:
    """Rounded up to a tenth: of what must be enough."""
    return math.ceil(10 * value - NEAR) / 10


def plural(count: int, noun: str) -> str:
    """A count with its noun in the number that suits it; the noun may be given as a plural: "2 notches", "1 hole"."""
    return f"{count} {_singular(noun) if count == 1 else several(noun)}"


def _singular(noun: str) -> str:
    """One of it: "hole" for "holes", "notch" for "notches"; a noun that is no plural stays."""
    if not noun.endswith("s") or noun.endswith("ss"):
        return noun
    return noun[:-2] if noun.endswith("es") and noun[:-2].endswith(HISSING) else noun[:-1]


def in_runs(
    numbers: Sequence[int],
    *,
    apart: str = ", ",
    last: str = "",
    to: str = " to ",
    called: Callable[[int], str] = str,
) -> str:
    """Numbers in words, three or more in a row as a run: "1, 3 to 6, 9".

    Args:
        apart: what stands between two; `last` between the last two, if that is otherwise.
        to: between the ends of a run.
        called: what a number is called.
    """
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    words: list[str] = []
    for run in runs:
        ends = [called(number) for number in run]
        words += [f"{ends[0]}{to}{ends[-1]}"] if len(run) > 2 else ends
    return (last or apart).join(filter(None, (apart.join(words[:-1]), *words[-1:])))


def scale_words(scale: float) -> str:
    """A scale as drawings give it: "1:10"."""
    return f"1:{round(1 / scale)}"


def numbered(part: Part) -> dict[str, int]:
    """The number of each cut on the sheets, by its key: in order along the board, free ends without one."""
    worked = [cut for cut in part.cuts if cut.joint is not None or not cut.end]
    return {cut.key: number for number, cut in enumerate(worked, start=1)}
