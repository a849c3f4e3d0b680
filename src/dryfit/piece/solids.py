"""The solids of parts, made when asked for and kept by what they are made from."""

from collections.abc import Hashable
from typing import Any

import numpy as np
from numpy.typing import NDArray

from ..geometry.solids import centroid_of, mesh_of, placed, solid_of
from ..keeping import Keep
from .model import Part
from .parts import stock_of


class Solids:
    """Makes and keeps the solids of a piece's parts, each in its board's own frame."""

    def __init__(self, keep: Keep | None = None) -> None:
        self.keep = keep if keep is not None else Keep()

    def key(self, part: Part) -> Hashable:
        """What the part's solid is made from; equal keys, equal solids."""
        return stock_of(part), tuple(shape for cut in part.cuts for shape in cut.shapes)

    def solid(self, part: Part) -> Any:
        """The part as a manifold in its board's frame."""
        stock = stock_of(part)
        return solid_of(stock, tuple(shape for cut in part.cuts for shape in cut.shapes), self.keep)

    def placed(self, part: Part) -> Any:
        """The part as a manifold where it stands."""
        return placed(self.solid(part), part.board.frame)

    def mesh(self, part: Part) -> tuple[NDArray[np.float64], NDArray[np.int64]]:
        """Vertices `(n, 3)` in mm in the board's frame, and triangles `(m, 3)`."""
        return mesh_of(self.solid(part))

    def volume(self, part: Part) -> float:
        """Volume in mm3."""
        return float(self.solid(part).volume())

    def surface(self, part: Part) -> float:
        """Surface in mm2, of all faces and cuts."""
        return float(self.solid(part).surface_area())

    def centroid(self, part: Part) -> tuple[float, float, float]:
        """Centre of mass in the board's frame."""
        return centroid_of(self.solid(part))
