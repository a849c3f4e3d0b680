"""What a part's page asks of what it shows: one part, several that are alike, a pair of hands."""

from typing import Protocol

from ...display import Item
from ...kit.axis import Axis
from ...looks import Desk, Look
from ..page.arranging import Sketch
from ..page.frame import Space
from ..page.table import Column, Row
from .stack import Stacked

PART = "part"  # what all sheets of parts are found under


class Subject(Protocol):
    """What a sheet is of: a part, several alike, or a pair of hands."""

    @property
    def looks(self) -> tuple[Look, ...]:
        """Every part the sheet is of."""

    @property
    def shown(self) -> Look:
        """The one that its sections and notes speak of."""

    @property
    def letters(self) -> str:
        """Its parts' letters."""

    @property
    def title(self) -> str:
        """Its parts' names, for the title block."""

    @property
    def number(self) -> str:
        """What tells the sheet from the job's others."""

    @property
    def kind(self) -> str:
        """The kind of paper."""

    @property
    def seen(self) -> str:
        """From where its sections are seen."""

    @property
    def lies(self) -> bool:
        """Whether it is drawn along the sheet, from the left."""

    def heading(self, desk: Desk, space: Space, more: str) -> tuple[list[Item], float]:
        """The heading, and the y below which the sheet is free."""

    def rulers(self, space: Space) -> list[Axis]:
        """Ways to draw it, the best first."""

    def stack(self, desk: Desk, ruler: Axis, top: float, right: float) -> Stacked:
        """Its views from `top` down; words may stand beside them as far as `right`."""

    def least(self, scale: float) -> float:
        """How high its views are at least, by its sizes alone: nothing is drawn for that."""

    def sketches(self, desk: Desk, *, roomy: bool) -> list[Sketch]:
        """Its sections and views of ends."""

    def columns(self, desk: Desk, wide: float) -> list[Column]:
        """Its cut table's columns."""

    def rows(self, desk: Desk, wide: float) -> list[Row]:
        """Its cut table's rows in a table so wide."""

    @property
    def told_in_table(self) -> bool:
        """Whether the views of its ends may be left out, since its table says all that they show."""

    def picture(self, desk: Desk, box: tuple[float, float, float, float]) -> list[Item]:
        """The whole piece small, with its parts dark."""

    def fools(self) -> list[str]:
        """Sentences on what of it will fool you."""
