"""What the order of assembly needs to know of a joint."""

from dataclasses import dataclass

from ...piece.model import Motion
from ...places import Cure, Pair


@dataclass(frozen=True, slots=True, kw_only=True)
class Easing:
    """Another way to make a joint: the change that asks for it, and how the boards then part."""

    cure: Cure
    motions: tuple[Motion, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class JointValue:
    """One joint.

    Attributes:
        motions: how its boards part.
        loose: True where loose pieces (tongue, dowels) hold it, which its cuts do not show.
        cuts: keys of its cuts.
        after: work on it that waits until it is glued, by the names of the operations.
        easings: other ways to make it, the cheapest first.
        glued: whether there is glue on it, which a long slide would wipe off.
    """

    key: Pair
    motions: tuple[Motion, ...]
    loose: bool = False
    cuts: tuple[str, ...] = ()
    after: tuple[str, ...] = ()
    easings: tuple[Easing, ...] = ()
    glued: bool = False

    def other(self, name: str) -> str:
        """The other board."""
        return self.key[1] if name == self.key[0] else self.key[0]
