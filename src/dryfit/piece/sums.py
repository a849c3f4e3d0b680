"""How a size came about, as a sum whose printed terms add up to its printed total.

A width is the thickness of what enters, plus a clearance, less what the lean takes, and so on. The total is told
where the cut is told, on other sheets too, so it is rounded by itself; its terms are rounded so that they add up
to it: the steps that are lacking, or over, go to the terms that lost most by rounding.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import Enum

from ..lengths import LengthUnit, steps
from ..sentences import Fineness, Length, Name, Sentence, Words, say

HALF = 0.5


class Word(Enum):
    """What a term of a sum is, by the trade's word."""

    THICKNESS = "thickness"
    WIDTH = "width"
    TONGUE = "tongue"
    FILM = "film"
    SWELLING = "swelling"
    CLEARANCE = "clearance"
    PLAY = "play"
    DEPTH = "depth"
    GAP = "gap"
    GRIP = "grip"
    BETWEEN = "between"
    GOES_IN = "goes in"
    STOP = "stop"
    SET_BACK = "set back"
    PROUD = "proud"
    LEAN = "lean"
    COMMON = "of the common depth"
    HALF_GAP = "half the gap"
    DEEPER = "left free"
    KEY = "key"
    PIN = "pin"
    BISCUIT = "biscuit"
    FINGER = "finger"
    LAP = "lap"
    CUTTER = "cutter"
    SLOPES = "slopes"  # both flanks' over the depth
    TAPER = "taper"  # over the length
    SIZE = ""  # it is made up of nothing else: as asked, as sold, or by geometry
    AS_CUT = "as cut"


@dataclass(frozen=True, slots=True)
class Term:
    """One size of a sum: in mm, below 0 where it is taken off, so many times over.

    Attributes:
        share: of a size that is a share of another, that share and the other: half of 300 is (0.5, 300.0).
    """

    word: Word
    mm: float
    times: int = 1
    share: tuple[float, float] | None = None


@dataclass(frozen=True, slots=True)
class Sum:
    """A size and what it is made up of; the first term is there once.

    Attributes:
        of: the board that is measured for it, "" where none is.
    """

    of: str
    terms: tuple[Term, ...]

    def __post_init__(self) -> None:
        assert self.terms, "a sum has something in it"
        assert self.terms[0].times == 1, "what is over by rounding goes to the first term at last"

    @classmethod
    def alone(cls, mm: float, word: Word = Word.SIZE, of: str = "") -> "Sum":
        """A size that is made up of nothing else."""
        return cls(of, (Term(word, mm),))

    @property
    def total(self) -> float:
        """In mm."""
        return sum([term.mm * term.times for term in self.terms])

    def printed(self, step: float, whole: float | None = None) -> tuple[float, tuple[float, ...]]:
        """The total and the terms, each once, as multiples of a step in mm: the terms times their number add up.

        Args:
            step: in mm.
            whole: the total as it is printed elsewhere, for one half-way between two steps but for a float's dust.

        >>> film = Term(Word.FILM, 0.03, times=2)
        >>> Sum("shelf", (Term(Word.THICKNESS, 24.08), film, Term(Word.CLEARANCE, 0.15))).printed(0.05)
        (24.3, (24.05, 0.05, 0.15))
        """
        total = steps(self.total if whole is None else whole, step)
        counts = [steps(term.mm, step) for term in self.terms]
        lacking = total - sum(count * term.times for count, term in zip(counts, self.terms, strict=True))
        for place in self._by_loss(counts, step, lacking):
            times = self.terms[place].times
            if times <= abs(lacking):
                more = 1 if lacking > 0 else -1
                counts[place] += more
                lacking -= more * times
        counts[0] += lacking
        return _exact(total, step), tuple(_exact(count, step) for count in counts)

    def sentence(self, step: Fineness, units: LengthUnit, *, named: bool = False, whole: float | None = None) -> Words:
        """The terms with their signs, printed so that they add up to the total as it is printed; "" for a bare size.

        Args:
            step: to which they are printed.
            units: in which.
            named: whether the board that is measured is named; on a sheet it is the one that enters.
            whole: as for `printed`.
        """
        _, figures = self.printed(step.size(units), whole)
        if len(self.terms) == 1 and self.terms[0].word in ALONE:
            return ALONE[self.terms[0].word]
        if len(self.terms) == 1 and self.terms[0].word in ALONE_SIZED:
            return say(ALONE_SIZED[self.terms[0].word], Length(figures[0], step))
        first, *rest = zip(self.terms, figures, strict=True)
        told = _named(self.of, *first, step) if named and self.of else _term(*first, step)
        for term, figure in rest:
            if figure or not term.mm:  # what is too little to be printed is left out; that there is none is said
                told = say("{} less {}" if term.mm < 0.0 else "{} + {}", told, _term(term, abs(figure), step))
        return told

    def _by_loss(self, counts: list[int], step: float, lacking: int) -> Iterable[int]:
        """Places of the terms, the one that rounding took most from first; or gave most to, where it gave too much."""
        way = 1 if lacking > 0 else -1
        return sorted(range(len(counts)), key=lambda place: -way * (self.terms[place].mm / step - counts[place]))


OF_A_BOARD = frozenset({Word.THICKNESS, Word.WIDTH, Word.TONGUE})  # measured on it before its slot is cut
FORMS = {
    Word.THICKNESS: "{}",
    Word.SIZE: "{}",
    Word.COMMON: "{}",
    Word.WIDTH: "{} wide",
    Word.DEPTH: "{} deep",
    Word.SET_BACK: "{} set back",
    Word.PROUD: "{} proud",
    Word.DEEPER: "{} left free",
}
ALONE = {Word.SIZE: "", Word.AS_CUT: "as cut", Word.KEY: "the key as made"}  # of a sum that is this term alone
ALONE_SIZED = {Word.DEPTH: "{} deep to the floor", Word.STOP: "{} short of the edge"}  # and its size is said too


def _term(term: Term, figure: float, step: Fineness) -> Sentence:
    told = Length(figure, step)
    words = say(FORMS[term.word], told) if term.word in FORMS else say("{} {}", term.word.value, told)
    if term.share is not None:
        share, whole = term.share
        part = "half of" if share == HALF else say("{} of", f"{share:g}")
        words = say("{} ({} {})", words, part, Length(whole, step))
    return say("{} × {}", f"{term.times}", words) if term.times > 1 else words


def _named(board: str, term: Term, figure: float, step: Fineness) -> Sentence:
    if term.word is Word.TONGUE:
        return say("tongue of {} {}", Name(board), Length(figure, step))
    return say("{} {}", Name(board), _term(term, figure, step))


def walls(*, film: float = 0.0, swelling: float = 0.0, clearance: float) -> tuple[Term, ...]:
    """What a width between walls has beyond what goes between them; the clearance even where it is none."""
    words = ((Word.FILM, film), (Word.SWELLING, swelling))
    return (*(Term(word, mm) for word, mm in words if mm), Term(Word.CLEARANCE, clearance))


def _exact(count: int, step: float) -> float:
    return round(count * step, 9) + 0.0
