"""The figures of ends that meet without entering each other: bevels, pockets, grooves, holes."""

from collections.abc import Iterator

from .....geometry.shapes import Bore
from .....piece.facts import CutForm
from .....piece.model import Board, Cut
from .....piece.operations import Bevelling, bevelled
from .....sentences import Name, Words, say
from ....naming import angle, depth, position, saw_rise, width
from ..bevels import Bevel, bevels
from ..roles import JointFigure, Roles
from ..stance import Stance
from .sums import longer_by, placed_sum, width_sum

MOST_PLACES = 4  # of holes that are listed; of more the view says where they stand


def end_figures(roles: Roles, stance: Stance) -> Iterator[JointFigure]:
    """Each end, then what strengthens the joint."""
    for bevel in bevels(stance):
        yield from _end(roles, stance, bevel)
    for cut in stance.joint.cuts:
        if cut.end:
            continue
        if cut.form is CutForm.BORE:
            yield from _holes(roles, cut)
        elif cut.body == stance.main.id:
            yield from _pockets(cut) if cut.form is CutForm.POCKET else _groove(cut)


def _end(roles: Roles, stance: Stance, bevel: Bevel) -> Iterator[JointFigure]:
    """What the saw is set to, and how far the points lie apart."""
    sign = Name(bevel.cut.body)
    if not bevel.bevelled:
        yield JointFigure(of=say("end of {}", sign), size="on the saw", what="a square cut", value=angle(0.0))
        return
    lean = abs(bevel.cut.figures.lean)
    yield bevel_figure(say("bevel of {}", sign), lean, bevel.board)
    thick = stance.joint.meeting.side(bevel.cut.body).thickness
    yield JointFigure(
        of=say("bevel of {}", sign),
        size="long point",
        what="past the short point",
        sum=longer_by(thick, lean),
        value=position(bevel.longer),
    )


def bevel_figure(of: Words, lean: float, board: Board) -> JointFigure:
    """What is set to cut a bevel: on the saw, on the saw with the board on its end, or on a template."""
    one = bevelled(lean, board)
    size, what = {
        Bevelling.TILTED: ("on the saw", "0 is a square cut"),
        Bevelling.ON_END: ("on the saw", "the board on its end"),
        Bevelling.TEMPLATE: ("on a template", "to the face"),
    }[one.how]
    return JointFigure(of=of, size=size, what=what, sum=saw_rise(lean, board), value=angle(one.degrees))


def _pockets(cut: Cut) -> Iterator[JointFigure]:
    """Pockets of a circular cutter: the same in both boards."""
    f = cut.figures
    many = f"{len(cut.shapes)} of them"
    how = width_sum(cut)
    yield JointFigure(of=cut.plain, size="across", what=many, sum=how, value=width(f.across or 0.0))
    reach = position(f.on_face or 0.0)
    yield JointFigure(of=cut.plain, size="reach", what="on either outside face", sum="from the long point", value=reach)
    yield JointFigure(of=cut.plain, size="deep", what="along the bisector", value=depth(f.deep or 0.0))


def _groove(cut: Cut) -> Iterator[JointFigure]:
    """A groove for a loose tongue: the same in both boards."""
    f = cut.figures
    yield JointFigure(of=cut.plain, size="across", sum=width_sum(cut), value=width(f.across or 0.0))
    deep = depth(f.deep or 0.0)
    yield JointFigure(
        of=cut.plain, size="deep", what="square to the mitre face", sum=placed_sum(f.depth, deep), value=deep
    )
    if f.stop:
        yield JointFigure(of=cut.plain, size="stops", what="from either edge", value=position(f.stop))


def _places(cut: Cut) -> str:
    """How far from the wall edge holes stand, if they are few."""
    found = sorted(shape.start[2] for shape in cut.shapes if isinstance(shape, Bore))
    return f"at {', '.join(map(position, found))} from the wall" if len(found) <= MOST_PLACES else ""


def _holes(roles: Roles, cut: Cut) -> Iterator[JointFigure]:
    """Each step of a row of holes."""
    sign, shape = Name(cut.body), cut.shapes[0]
    assert isinstance(shape, Bore), "a row of holes is round throughout"
    steps = list(zip(shape.profile, shape.profile[1:], strict=False))
    places = _places(cut)
    names = ("hole",) if len(steps) == 1 else ("counterbore", "hole")
    for name, ((_, size), (bottom, _)) in zip(names, steps, strict=False):
        start = f"from the {cut.figures.opens.value}"
        many = f"{len(cut.shapes)} of them, {start}"
        yield JointFigure(of=say("{} in {}", name, sign), size="across", what=many, sum=places, value=position(size))
        yield JointFigure(of=say("{} in {}", name, sign), size="deep", what=start, value=depth(bottom))
