"""What is too close or too loose, as others read it."""

from dataclasses import dataclass

from ...places import Pair


@dataclass(frozen=True, slots=True, kw_only=True)
class Fits:
    """The steps, by their place in the value, whose joints have no play; joints too loose for their glue, or too close.

    Attributes:
        wiped: glued joints without play that close one at a time; those of `tight` are told there.
    """

    tight: tuple[tuple[int, tuple[Pair, ...]], ...]
    wiped: tuple[Pair, ...]
    loose: tuple[Pair, ...]
