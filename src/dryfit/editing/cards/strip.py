"""A board's face side for its card: the same views, numbers and places as its sheet has."""

from collections.abc import Iterator

from ...documents.looks import Look, is_bored
from ...geometry.frames import Vec2
from ...geometry.loops import Loop
from ...geometry.views import Surface
from ...keeping import Keep, Same
from ...lengths import written
from ...piece.model import Part
from ..answers import CutMarked, FaceShown


def strip_of(part: Part, keep: Keep) -> FaceShown:
    """The face side of a part from its datum end, with each cut where it is marked."""
    return keep.get("strip", (Same(part),), lambda: _strip(Look(part)))


def _strip(look: Look) -> FaceShown:
    names = look.names
    view = look.view(names.face_side)
    up = Surface.WALL if names.face_side is Surface.PLUS else Surface.FRONT  # as one sees it, the datum end at the left
    return FaceShown(
        face=names.words[names.face_side],
        up=names.words[up],
        turned=up is Surface.FRONT,
        datum=names.words[Surface.DATUM],
        length=written(look.end_at(1, names.face_side)),
        depth=written(look.part.board.depth),
        outline=tuple(_loop(loop) for loop in view.outline),
        cuts=tuple(sorted(_cuts(look), key=lambda cut: cut.at)),
    )


def _cuts(look: Look) -> Iterator[CutMarked]:
    names = look.names
    places = (names.face_side, names.other_face, Surface.FRONT, Surface.WALL)
    for trace in look.view(names.face_side).traces:
        cut = next(cut for cut in look.part.cuts if cut.key == trace.key)
        if cut.end:
            continue
        found = ((surface, look.position(cut, surface)) for surface in places)
        on, at = next(((surface, at) for surface, at in found if at is not None), (None, None))
        if on is None or at is None:
            continue
        yield CutMarked(
            key=cut.key,
            number=look.numbers.get(cut.key, 0),
            joint=cut.joint,
            at=written(at),
            on=names.words[on],
            bored=is_bored(cut),
            hidden=not trace.seen,
            area=tuple(_loop(loop) for loop in (trace.opening or (trace.extent,))),
        )


def _loop(loop: Loop) -> tuple[Vec2, ...]:
    return tuple((written(a), written(d)) for a, d in loop)
