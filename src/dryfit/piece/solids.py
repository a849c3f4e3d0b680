"""The solids of parts, made when asked for and kept by what they are made from."""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Any

import numpy as np
from numpy.typing import NDArray

from ..geometry.shapes import Bore
from ..geometry.solids import centroid_of, mesh_of, placed, solid_of
from ..keeping import Keep, Same
from .model import Part
from .parts import begins, stock_of

LENGTH = 16  # cuts in a length of a part, where it is looked at length by length


class Solids:
    """Makes and keeps the solids of a piece's parts, each in its board's own frame."""

    def __init__(self, keep: Keep | None = None) -> None:
        self.keep = keep if keep is not None else Keep()

    def __reduce__(self) -> tuple[type["Solids"], tuple[()]]:
        """Sent to another process, it makes them anew there: a manifold cannot be sent."""
        return Solids, ()

    def solid(self, part: Part) -> Any:
        """The part as a manifold in its board's frame: by identity, else by what it is made from."""
        return self.keep.get("solid of part", Same(part), lambda: self._made(part))

    def _made(self, part: Part) -> Any:
        shapes = tuple(shape for cut in part.cuts for shape in cut.shapes)
        return solid_of(stock_of(part), shapes, self.keep)

    def placed(self, part: Part) -> Any:
        """The part as a manifold where it stands."""
        return placed(self.solid(part), part.board.frame)

    def lengths(self, part: Part) -> tuple[list[Any], NDArray[np.float64], NDArray[np.float64]]:
        """The part where it stands, sawn into lengths of a few cuts each; low and high corners `(n, 3)` of each.

        What lies at one place of a long part then costs nothing of all its other cuts. Its bores are left as wood.
        """
        return self.keep.get("lengths", Same(part), lambda: self._lengths(part))

    def _lengths(self, part: Part) -> tuple[list[Any], NDArray[np.float64], NDArray[np.float64]]:
        starts = [begins(cut) for cut in part.cuts if not cut.end]
        places = [(low + high) / 2 for low, high in list(pairwise(starts))[LENGTH - 1 :: LENGTH]]
        pieces = [placed(piece, part.board.frame) for piece in _sawn(self._unbored(part), places)]
        whole = [piece for piece in pieces if not piece.is_empty()]
        boxes = np.reshape([piece.bounding_box() for piece in whole], (-1, 2, 3))
        return whole, boxes[:, 0], boxes[:, 1]

    def _unbored(self, part: Part) -> Any:
        shapes = tuple(shape for cut in part.cuts for shape in cut.shapes)
        kept = tuple(shape for shape in shapes if not isinstance(shape, Bore))
        return self.solid(part) if kept == shapes else solid_of(stock_of(part), kept, self.keep)

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


def _sawn(solid: Any, places: Sequence[float]) -> Iterator[Any]:
    """A solid in its board's frame, sawn square at places along it, in halves and halves again."""
    if not places:
        yield solid
        return
    middle = len(places) // 2
    far, near = solid.split_by_plane((1.0, 0.0, 0.0), places[middle])
    yield from _sawn(near, places[:middle])
    yield from _sawn(far, places[middle + 1 :])
