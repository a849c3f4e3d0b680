"""Words on a face, clear of the axes of holes that run along the board from its ends."""

from dataclasses import dataclass

from ...geometry.shapes import Bore
from .faces import axis_of
from .placing import Room
from .wording import Wording

ALONG = 0.5  # share of a hole's direction from which on it runs along the board


@dataclass
class FaceWording(Wording):
    """Places words on one face."""

    def _empty_room(self) -> Room:
        room = super()._empty_room()
        for cut in self.plane.look.part.cuts:
            for shape in cut.shapes:
                if isinstance(shape, Bore) and abs(shape.direction[0]) > ALONG:
                    (x0, y0), (x1, y1) = axis_of(self.plane, shape)
                    room.block(x0, y0 - 0.1, x1, y1 + 0.1)
        return room
