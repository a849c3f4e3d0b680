"""The solids of parts, made when asked for and kept by what they are made from."""

from typing import Any

import numpy as np
from numpy.typing import NDArray

from ..geometry.solids import centroid_of, mesh_of, placed, solid_of
from ..keeping import Keep, Same
from .model import Part
from .parts import stock_of


class Solids:
    """Makes and keeps the solids of a piece's parts, each in its board's own frame."""

    def __init__(self, keep: Keep | None = None) -> None:
        self.keep = keep if keep is not None else Keep()

    def solid(self, part: Part) -> Any:
        """The part as a manifold in its board's frame: by identity, else by what it is made from."""
        return self.keep.get("solid of part", Same(part), lambda: self._made(part))

    def _made(self, part: Part) -> Any:
        shapes = tuple(shape for cut in part.cuts for shape in cut.shapes)
        return solid_of(stock_of(part), shapes, self.keep)

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
