"""Who is who in a joint, so that joints made alike are found: by what is said of them, its boards by their parts in it.

What a detail says names the boards as the job does; on paper they have their letters. Two joints share a sheet where
what is said of both is equal once each board stands for its part: the one that is drawn level, or the other.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from ....piece.model import Joint
from ....sentences import Name, Voice, Words, as_printed, renamed, say, told
from ...lettering import Weight, known
from ...looks import Desk
from ...naming import printed_units
from ..page.prose import WordRun
from .stance import Stance, stances


@dataclass(frozen=True, slots=True, kw_only=True)
class JointFigure:
    """One figure of a joint as it is printed.

    Attributes:
        of: what it is measured on; `size` which figure of that, "" where there is but one.
        what: more of it; `sum` how it comes about.
        value: as printed.
    """

    of: Words
    size: str = ""
    what: Words = ""
    sum: Words = ""
    value: str

    @property
    def name(self) -> Words:
        """What it is called."""
        return say("{}, {}", self.of, self.size) if self.size else self.of


@dataclass(frozen=True, slots=True)
class Phrase:
    """Words of one weight.

    Attributes:
        blank: mm of line to write on that stand after them.
        starts: whether with a capital, however told.
        several: of what is written in or has a figure that may differ, what is said of several joints together; ""
            for nothing.
    """

    words: Words
    weight: Weight = "regular"
    blank: float = 0.0
    starts: bool = False
    several: Words | None = None

    @property
    def together(self) -> Words:
        """What is said of several joints."""
        return self.words if self.several is None else self.several


@dataclass(frozen=True, slots=True, kw_only=True)
class Roles:
    """The two boards of a joint by the part they have in it.

    Attributes:
        shown: how the joint is drawn, once for each board that another enters.
        names: the boards, the level one first; the wall is none.
    """

    joint: Joint
    shown: tuple[Stance, ...]
    names: tuple[str, ...]

    @classmethod
    def of(cls, desk: Desk, joint: Joint) -> "Roles":
        """The level board first; of a fixing the board it goes through."""
        shown = stances(desk, joint)
        if shown:
            return cls(joint=joint, shown=shown, names=(shown[0].main.id, shown[0].other.id))
        return cls(joint=joint, shown=(), names=(joint.meeting.a.body,))

    @property
    def main(self) -> Name:
        """The board that is drawn level."""
        return Name(self.names[0])

    @property
    def other(self) -> Name:
        """The one that enters it."""
        return Name(self.names[1])

    def part(self, name: str) -> str:
        """Which part a body has, never the same for two: its place among the boards, else its name."""
        return str(self.names.index(name)) if name in self.names else f"called {name}"

    def alike(self, words: Words) -> Words:
        """A sentence as it is printed, each board standing for its part: equal for joints of which the same is said."""
        return renamed(as_printed(words, Voice(printed_units())), self.part)


def lettered(desk: Desk, words: Words, *, bare: bool = False) -> str:
    """A sentence as it stands on paper: boards by their letters; `bare` where the unit stands elsewhere."""
    return known(told(words, Voice(printed_units(), desk.marks, bare=bare)))


def lettered_runs(desk: Desk, runs: Iterable[Phrase]) -> list[WordRun]:
    """A paragraph as it stands on paper."""
    return [WordRun(_started(lettered(desk, run.words), run), run.weight, run.blank) for run in runs]


def _started(text: str, run: Phrase) -> str:
    return f"{text[:1].upper()}{text[1:]}" if run.starts else text
