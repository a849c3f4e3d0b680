"""Hands made by hand: a standing side with housings in one face, and its mirror image through the thickness.

A side 24 thick counts from its lower end; its face at -c looks to the right. Its other hand has every c the other way
round and is marked from the other face, so that the two look at one another.
"""

from dataclasses import replace

from dryfit.geometry.shapes import Bore, HalfSpace, Prism, outline, prism
from dryfit.piece.facts import CutForm, Opens, Stop
from dryfit.piece.model import DATUM_END, FAR_END, Blank, Cut, Figures, Part
from dryfit.piece.sums import Sum, Word
from tests.documents import samples

WIDE = 24.10


def housing(body, takes, a, face=-1, low=-1.0, high=268.0, deep=8.0):
    """A housing of 24.10 let into one face, open to the wall edge and `high` long."""
    c, bottom = face * 13.0, face * (12.0 - deep)
    half = WIDE / 2
    return Cut(
        key=f"housing in {body} for {takes}",
        body=body,
        form=CutForm.HOUSING,
        word="stopped housing",
        takes=takes,
        joint=tuple(sorted((body, takes))),
        face=face,
        shapes=(prism(((a - half, bottom), (a + half, bottom), (a + half, c), (a - half, c)), low, high),),
        figures=Figures(
            width=Sum.alone(WIDE),
            on_face=WIDE,
            depth=Sum.alone(deep),
            opens=Opens.FACE,
            stops=(Stop(edge=Opens.FRONT, size=Sum.alone(300.0 - high, Word.STOP)),),
        ),
        size_is="FIT TO",
    )


def side(name, mark, x, cuts, length=500.0, depth=300.0, face_side=-1):
    """A standing board with square ends and these cuts."""
    ends = (samples.end(name, DATUM_END, 0.0), samples.end(name, FAR_END, length))
    return Part(
        board=samples.board(name, (x, 0.0), 90, length, depth=depth, face_side=face_side),
        mark=mark,
        blank=Blank(start=-10.0, end=length + 10.0, width=depth, thickness=24.0),
        long=(0.0, length),
        short=(0.0, length),
        cuts=(ends[0], *cuts, ends[1]),
    )


def other_hand(part, name, mark, x, face_side=None):
    """The same part turned over through its thickness, at another place along the wall."""
    old = part.board
    y = old.frame.origin[1]
    board = replace(
        old,
        name=name,
        frame=replace(old.frame, origin=(x, y, old.frame.origin[2])),
        face_side=-old.face_side if face_side is None else face_side,
    )
    return replace(part, board=board, mark=mark, cuts=tuple(_turned(cut, old.name, name, -1.0) for cut in part.cuts))


def twin(part, name, mark, x):
    """A part that only its letter tells from this one."""
    frame = replace(part.board.frame, origin=(x, *part.board.frame.origin[1:]))
    cuts = tuple(_turned(cut, part.id, name, 1.0) for cut in part.cuts)
    return replace(part, board=replace(part.board, name=name, frame=frame), mark=mark, cuts=cuts)


def _turned(cut, old, new, way):
    joint = None if cut.joint is None else tuple(sorted(new if body == old else body for body in cut.joint))
    return replace(
        cut,
        key=cut.key.replace(old, new),
        body=new,
        joint=joint,
        face=int(way * cut.face),
        shapes=tuple(_over(shape, way) for shape in cut.shapes),
        figures=replace(cut.figures, lean=way * cut.figures.lean + 0.0),
    )


def _over(shape, way):
    match shape:
        case HalfSpace():
            (px, py, pz), (nx, ny, nz) = shape.point, shape.normal
            return replace(shape, point=(px, way * py, pz), normal=(nx, way * ny, nz))
        case Bore():
            (sx, sy, sz), (dx, dy, dz) = shape.start, shape.direction
            return replace(shape, start=(sx, way * sy, sz), direction=(dx, way * dy, dz))
        case Prism():
            return replace(shape, outline=outline(*((x, way * y) for x, y, _ in shape.outline)))


def shelf(mark="M"):
    """What both sides take."""
    part = samples.short_upright()
    board = samples.board("shelf", (100.0, 200.0), 0, 400.0, depth=268.0)
    return replace(part, board=board, mark=mark, cuts=tuple(replace(cut, body="shelf") for cut in part.cuts))
