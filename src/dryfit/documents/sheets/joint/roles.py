"""Who is who in a joint, so that joints made alike read alike: names become signs, and signs letters on paper.

What a detail says is first written with a sign for each board: the one that is drawn level, and the other. Two joints
whose sayings and figures are then equal to the letter share a sheet; on paper the signs become the boards' letters.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from ....piece.model import Joint
from ....sentences import Voice, Words, renamed, told
from ...lettering import known
from ...looks import Desk
from ...naming import printed_units
from ..page.prose import Run
from .stance import Stance, stances

SIGNS = ("\ue010", "\ue011")  # private characters: no name has them


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """One figure of a joint as it is printed: what it is, how it comes about, its value; boards as signs."""

    name: str
    what: str = ""
    sum: str = ""
    value: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Roles:
    """The two boards of a joint by sign.

    Attributes:
        shown: how the joint is drawn, once for each board that another enters.
        names: the boards in the order of the signs; the wall is none.
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

    def sign(self, name: str) -> str:
        """A board's sign; other bodies keep their name."""
        return SIGNS[self.names.index(name)] if name in self.names else name

    def signed(self, words: Words, *, bare: bool = False) -> str:
        """A sentence of a joint kind in the job's units, its boards' names as signs."""
        return told(renamed(words, self.sign), Voice(printed_units(), bare=bare))

    def letters(self, desk: Desk) -> Mapping[str, str]:
        """The letter that each sign stands for."""
        return {SIGNS[number]: desk.marks.get(name, name) for number, name in enumerate(self.names)}


def lettered(text: str, letters: Mapping[str, str]) -> str:
    """A text with its signs as letters."""
    for sign, letter in letters.items():
        text = text.replace(sign, letter)
    return known(text)


def lettered_runs(runs: Sequence[Run], letters: Mapping[str, str]) -> list[Run]:
    """A paragraph with its signs as letters."""
    return [Run(lettered(run.text, letters), run.weight, run.blank) for run in runs]
