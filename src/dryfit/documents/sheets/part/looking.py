"""What all that draws or tells of a part asks of its look."""

from ....geometry.views import Surface
from ....piece.model import Cut
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
