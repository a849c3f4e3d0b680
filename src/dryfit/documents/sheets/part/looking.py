"""What all that draws or tells of a part asks of its look."""

from ....geometry.shapes import Prism
from ....geometry.views import Surface
from ....piece.leaning import from_the_wall
from ....piece.model import Cut
from ....piece.operations import leans
from ...looks import Look


def cut_of(look: Look, key: str) -> Cut:
    """The cut of that key."""
    return next(cut for cut in look.part.cuts if cut.key == key)


def cut_at(look: Look, end: int) -> Cut | None:
    """The cut that makes an end."""
    return next((cut for cut in look.part.cuts if cut.end == end), None)


def faces_of(look: Look) -> tuple[Surface, Surface]:
    """The face side, then the other face."""
    return look.names.face_side, look.names.other_face


def up_of(look: Look) -> float:
    """Which way +c goes up the sheet where the face side lies up: 1 or -1."""
    return 1.0 if look.names.face_side is Surface.PLUS else -1.0


def other_of(cut: Cut) -> str:
    """The body that an end meets or a cut is made for; "" for none."""
    if cut.joint is None:
        return ""
    return cut.joint[1] if cut.joint[0] == cut.body else cut.joint[0]


def over(look: Look, cut: Cut) -> bool:
    """Whether the section of a cut has the other face up: leaning walls are seen from the edge that they open to.

    Square ones, and ends, go with those that lean, where these all have the other face up.
    """
    edge = _seen_over(look, cut)
    return all_over(look) if edge is None else edge


def all_over(look: Look) -> bool:
    """Whether all cuts of a part that lean are seen with the other face up."""
    leaning = [edge for cut in look.part.cuts if (edge := _seen_over(look, cut)) is not None]
    return bool(leaning) and all(leaning)


def _seen_over(look: Look, cut: Cut) -> bool | None:
    """Of a cut whose walls lean, whether it is; None for any other."""
    prism = next((shape for shape in cut.shapes if isinstance(shape, Prism)), None)
    if cut.end or prism is None or not leans(cut):
        return None
    return (-1.0 if from_the_wall(prism, look.part.board) else 1.0) != up_of(look)
