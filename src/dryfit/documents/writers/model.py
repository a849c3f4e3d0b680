"""model.glb: the piece as put together, in three dimensions."""

from collections.abc import Iterator

from ..bookjson import book_stamp
from ..glb import model_glb
from ..looks import Desk
from ..writer import Writer, register


@register
class Model(Writer):
    """The model."""

    name = "model"
    word = "Model to turn in hand"
    makes = "model.glb"
    order = 30
    media = "model/gltf-binary"

    def files(self, desk: Desk) -> Iterator[tuple[str, bytes]]:
        """One file."""
        yield self.makes, model_glb(desk.book, book_stamp(desk))
