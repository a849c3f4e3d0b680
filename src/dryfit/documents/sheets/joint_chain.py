"""A screw into the wall as figures: what it must reach through, from under its head to its tip, and its holes."""

from collections.abc import Iterator
from dataclasses import dataclass

from ...geometry.shapes import Bore
from ...trade.screws import Screw, read_screw
from ..naming import depth, position, thickness
from .joint_hardware import head_of
from .joint_roles import Figure, Roles


@dataclass(frozen=True, slots=True, kw_only=True)
class Chain:
    """The links of one fixing.

    Attributes:
        head, head_high: of the screw's head.
        across, deep: of the counterbore; `hole` is what goes on through the grip.
        grip: wood under the head.
        gap: behind the board, at its worst; `lining` is what hides the wall's structure.
        thread: what is left of the screw for its hold; less than nothing where it is too short.
    """

    screw: Screw
    head: float
    head_high: float
    across: float
    hole: float
    deep: float
    grip: float
    gap: float
    lining: float
    plugged: bool

    @property
    def thread(self) -> float:
        """Length of the screw less grip, gap and lining."""
        return self.screw.length - self.grip - self.gap - self.lining


def chain(roles: Roles) -> Chain | None:
    """The chain of a fixing; None where it is no screw through a board's depth."""
    joint, side = roles.joint, roles.joint.meeting.a
    options = dict(joint.options)
    screw = read_screw(str(options.get("screw", "")))
    shapes = [shape for cut in joint.cuts for shape in cut.shapes]
    if screw is None or not shapes or not isinstance(shapes[0], Bore):
        return None
    profile = shapes[0].profile
    deep = profile[1][0] if len(profile) > 2 else 0.0
    head, high = head_of(screw)
    return Chain(
        screw=screw,
        head=head,
        head_high=high,
        across=profile[0][1],
        hole=profile[-2][1],
        deep=deep,
        grip=side.front - side.back - deep,
        gap=_number(options.get("hollow")) + max(side.back, 0.0),
        lining=_number(options.get("lining")),
        plugged=bool(options.get("plugged")),
    )


def _number(value: object) -> float:
    return float(value) if isinstance(value, (int, float)) else 0.0


def screw_figures(roles: Roles) -> Iterator[Figure]:
    """Counterbore, hole, the wood beside them, and what is left for the hold."""
    made = chain(roles)
    if made is None:
        return
    side = roles.joint.meeting.a
    thick = thickness(side.thickness)
    what = "over the head, and the plug" if made.plugged else "over the head"
    yield Figure(name="counterbore, across", what=what, sum=f"head {position(made.head)}", value=position(made.across))
    less = f"{position(side.front - side.back)} less grip {depth(made.grip)}"
    yield Figure(name="counterbore, deep", what="from the front edge", sum=less, value=depth(made.deep))
    through = f"screw {position(made.screw.diameter)}"
    yield Figure(name="hole, across", what="through the grip", sum=through, value=position(made.hole))
    yield Figure(
        name="wood beside the counterbore",
        what=f"{roles.sign(side.body)} is {thick} thick",
        sum=f"half of {thick} less {position(made.across)}",
        value=position((side.thickness - made.across) / 2),
    )
    links = " – ".join([depth(made.grip), position(made.gap), position(made.lining)])
    left = depth(made.thread) if made.thread >= 0.0 else f"{depth(-made.thread)} short"
    yield Figure(
        name="thread in the wall",
        what="what is left for the hold",
        sum=f"{position(made.screw.length)} – {links}",
        value=left,
    )
