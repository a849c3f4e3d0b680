"""What the maker owns and can hold to: read from a shop file, or the default small shop."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Shop:
    """One shop.

    Attributes:
        name: as it stands on papers.
        trim: left at each end of a blank, to be cut off with the joint (common practice: 10).
        seconds_a_crossing: pace at glue-up (common practice: 20 to 40).
        paper: largest sheet the shop prints, "A4" or "A3".
    """

    name: str = "default shop"
    trim: float = 10.0
    seconds_a_crossing: float = 30.0
    paper: str = "A4"
