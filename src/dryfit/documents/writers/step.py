"""model.step: the piece as exact solids, for programs that model (ISO 10303-21)."""

from collections.abc import Iterator

from ..bookjson import book_stamp
from ..looks import Desk
from ..step import model_step
from ..writer import Writer, register


@register
class StepFile(Writer):
    """The model."""

    name = "step"
    word = "Exact solids (STEP)"
    makes = "model.step"
    order = 31
    extra = True
    library = "OCP"
    media = "model/step"

    def files(self, desk: Desk) -> Iterator[tuple[str, bytes]]:
        """One file."""
        yield self.makes, model_step(desk.book.job.title, desk.book.piece.parts, book_stamp(desk))
