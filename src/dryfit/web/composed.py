"""What a change on the page comes to, before it is written."""

from dataclasses import dataclass

from ..places import Edit


@dataclass(frozen=True, slots=True, kw_only=True)
class Composed:
    """Edits, and what they do in a sentence.

    Attributes:
        renames: boards that are called anew, old name and new: what has been made of them follows.
    """

    edits: tuple[Edit, ...]
    says: str
    renames: tuple[tuple[str, str], ...] = ()
