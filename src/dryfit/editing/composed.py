"""What a change on the page comes to, before it is written."""

from collections.abc import Iterable
from dataclasses import dataclass

from ..piece.setout import AsCut
from ..places import Edit, Pair


@dataclass(frozen=True, slots=True, kw_only=True)
class Composed:
    """Edits, and what they do in a sentence.

    Attributes:
        renames: boards and fixings that are called anew, old name and new, as `renamed_in_records` has them: what has
            been made of them follows.
        follow: the joints of what is moved, as they are before.
        cut: cuts to be written down as they are.
        uncut: cuts whose records are taken out.
        asks: what the maker is asked before it is done; "" where nothing is.
        plain: `says` is no more than a key and what was typed for it: what is different by it says it better.
    """

    edits: tuple[Edit, ...]
    says: str
    renames: tuple[tuple[str, str], ...] = ()
    follow: tuple[Pair, ...] = ()
    cut: tuple[AsCut, ...] = ()
    uncut: tuple[AsCut, ...] = ()
    asks: str = ""
    plain: bool = False

    def said(self, joints: Iterable[Pair]) -> str:
        """What it does, with how many joints follow and how many come apart; `joints` are those there are after it."""
        if not self.follow:
            return self.says
        lost = len(set(self.follow).difference(joints))
        kept = len(self.follow) - lost
        words = [f"{kept} {'joint follows' if kept == 1 else 'joints follow'}"] if kept else []
        words += [f"{lost} {'joint comes apart' if lost == 1 else 'joints come apart'}"] if lost else []
        return f"{self.says}; {', '.join(words)}"
