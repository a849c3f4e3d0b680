"""A screw into the wall as figures: what it must reach through, from under its head to its tip, and its holes."""

from collections.abc import Iterator

from .....sentences import Name, say
from ....naming import adding_up, depth, position, printed_units, thickness
from ...fixings.chain import BEYOND, chain_of
from ..hardware import head_of
from ..roles import JointFigure, Roles


def screw_figures(roles: Roles) -> Iterator[JointFigure]:
    """Counterbore, hole, the wood beside them, and what is left for the hold."""
    made = chain_of(roles.joint)
    if made is None:
        return
    side = roles.joint.meeting.a
    thick = thickness(side.thickness)
    over = "washer" if made.plan.washer else "head"
    what = f"over the {over}, and the plug" if made.plan.plugged else f"over the {over}"
    yield JointFigure(
        of="counterbore",
        size="across",
        what=what,
        sum=f"{over} {position(made.plan.head if made.plan.washer else head_of(made.screw)[0])}",
        value=position(made.opening),
    )
    deep, wide, (grip,) = adding_up(side.front - side.back, [-made.plan.grip], made.plan.deep)
    less = f"{position(wide)} less grip {depth(-grip)}"
    yield JointFigure(of="counterbore", size="deep", what="from the front edge", sum=less, value=depth(deep))
    through = f"screw {position(made.screw.diameter)}"
    yield JointFigure(of="hole", size="across", what="through the grip", sum=through, value=position(made.plan.hole))
    yield JointFigure(
        of="wood beside the counterbore",
        what=say("{} is {} thick", Name(side.body), thick),
        sum=f"({thick} less {position(made.opening)}) / 2" if printed_units() == "mm" else "",
        value=thickness((side.thickness - made.opening) / 2),
    )
    (_, held), *beyond = made.links()
    taken = [size for size in (made.head_counts, made.plan.washer) if size]
    chain = [*taken, made.plan.grip, *(size for _, size in reversed(beyond))]
    held, whole, off = adding_up(made.screw.length, [-size for size in chain], held)
    left = depth(held) if held >= 0.0 else f"{depth(-held)} short"
    yield JointFigure(
        of="thread in the wall" if made.plan.known else "out of the board",
        what="what is left for the hold" if made.plan.known else f"for {BEYOND}",
        sum=" − ".join([position(whole), *(position(-size) for size in off)]),
        value=left,
    )
