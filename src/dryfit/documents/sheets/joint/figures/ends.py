"""The figures of ends that meet without entering each other: bevels, pockets, grooves, holes."""

from collections.abc import Iterator

from .....geometry.shapes import Bore, Prism, Shape
from .....piece.model import Cut
from ....naming import angle, depth, position, rise, thickness, width
from ..bevels import Bevel, bevels
from ..roles import Figure, Roles
from ..stance import Stance

MOST_PLACES = 4  # of holes that are listed; of more the view says where they stand


def end_figures(roles: Roles, stance: Stance) -> Iterator[Figure]:
    """Each end, then what strengthens the joint."""
    for bevel in bevels(stance):
        yield from _end(roles, stance, bevel)
    for cut in stance.joint.cuts:
        if cut.end:
            continue
        if any(isinstance(shape, Bore) for shape in cut.shapes):
            yield from _holes(roles, cut)
        elif cut.body == stance.main.id:
            yield from _pockets(cut) if is_round(cut.shapes[0]) else _groove(cut)


def _end(roles: Roles, stance: Stance, bevel: Bevel) -> Iterator[Figure]:
    """What the saw is set to, and how far the points lie apart."""
    sign = roles.sign(bevel.cut.body)
    if not bevel.bevelled:
        yield Figure(name=f"end of {sign}, on the saw", what="a square cut", value=angle(0.0))
        return
    lean = abs(bevel.cut.figures.lean)
    yield Figure(name=f"bevel of {sign}, on the saw", what="0 is a square cut", sum=rise(lean), value=angle(lean))
    t = thickness(stance.joint.meeting.side(bevel.cut.body).thickness)
    yield Figure(
        name=f"bevel of {sign}, long point",
        what="past the short point",
        sum=f"{t} × tan {angle(lean)}",
        value=position(bevel.longer),
    )


def is_round(shape: Shape) -> bool:
    """Whether it is swept from an outline with arcs."""
    return isinstance(shape, Prism) and any(bulge for _, _, bulge in shape.outline)


def _pockets(cut: Cut) -> Iterator[Figure]:
    """Pockets of a circular cutter: the same in both boards."""
    f = cut.figures
    many = f"{len(cut.shapes)} of them"
    yield Figure(name="pocket, across", what=many, sum="the key as made", value=width(f.across or 0.0))
    reach = position(f.on_face or 0.0)
    yield Figure(name="pocket, reach", what="on either outside face", sum="from the long point", value=reach)
    yield Figure(name="pocket, deep", what="along the bisector", value=depth(f.deep or 0.0))


def _groove(cut: Cut) -> Iterator[Figure]:
    """A groove for a loose tongue: the same in both boards."""
    f = cut.figures
    yield Figure(name="groove, across", what="the tongue and its play", value=width(f.across or 0.0))
    yield Figure(name="groove, deep", what="square to the mitre face", value=depth(f.deep or 0.0))
    yield Figure(name="groove, stops", what="from either edge", value=position(f.stop))


def _places(cut: Cut) -> str:
    """How far from the wall edge holes stand, if they are few."""
    found = sorted(shape.start[2] for shape in cut.shapes if isinstance(shape, Bore))
    return f"at {', '.join(map(position, found))} from the wall" if len(found) <= MOST_PLACES else ""


def _holes(roles: Roles, cut: Cut) -> Iterator[Figure]:
    """Each step of a row of holes."""
    sign, shape = roles.sign(cut.body), cut.shapes[0]
    assert isinstance(shape, Bore), "a row of holes is round throughout"
    steps = list(zip(shape.profile, shape.profile[1:], strict=False))
    places = _places(cut)
    names = ("hole",) if len(steps) == 1 else ("counterbore", "hole")
    for name, ((_, size), (bottom, _)) in zip(names, steps, strict=False):
        start = f"from the {cut.figures.opens}"
        many = f"{len(cut.shapes)} of them, {start}"
        yield Figure(name=f"{name} in {sign}, across", what=many, sum=places, value=position(size))
        yield Figure(name=f"{name} in {sign}, deep", what=start, value=depth(bottom))
