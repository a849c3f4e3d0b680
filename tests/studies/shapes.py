"""Boards as plain shapes, for cases that have no job: boxes with slots and grooves, and frames at will."""

from dryfit.geometry.bodies import PartShape
from dryfit.geometry.frames import Frame
from dryfit.geometry.shapes import half_space, prism
from dryfit.studies.order.plan import plan
from dryfit.studies.order.staging import BoardValue

LEVEL = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))  # a along x, c up y, d out of the wall
UPRIGHT = ((0.0, 1.0, 0.0), (-1.0, 0.0, 0.0), (0.0, 0.0, 1.0))


def board(name, axes, origin, length, thickness=18.0, depth=300.0, cuts=()):
    """A board from a = 0 to `length`, its centre-line through `origin`."""
    half = thickness / 2
    outline = ((0.0, -half), (length, -half), (length, half), (0.0, half))
    return PartShape(name=name, frame=Frame(origin, *axes), outline=outline, depth=depth, shapes=tuple(cuts))


def slot(a, width, low, high, thickness=18.0):
    """Through the whole thickness, its middle at `a`, from `low` to `high` of the depth."""
    c = thickness / 2 + 1.0
    return prism(((a - width / 2, -c), (a + width / 2, -c), (a + width / 2, c), (a - width / 2, c)), low, high)


def sawn(a, c, nx, ny):
    """Everything beyond a plane."""
    return half_space((a, c), (nx, ny))


def egg_crate(n, m, swapped=(), width=18.0, gap=0.0):
    """Case A1: `n` boards along x, `m` along y, 18 thick and 300 high, halved; X is slotted above but where swapped."""
    long = 100.0 * max(n, m) + 100.0
    parts = []
    for i in range(n):
        cuts = [slot(50 + 100 * j, width, *_half(above=(i, j) not in swapped, gap=gap)) for j in range(m)]
        parts.append(board(f"X{i}", LEVEL, (-50.0, 100.0 * i, 0.0), long, cuts=cuts))
    for j in range(m):
        cuts = [slot(50 + 100 * i, width, *_half(above=(i, j) in swapped, gap=gap)) for i in range(n)]
        parts.append(board(f"Y{j}", UPRIGHT, (100.0 * j, -50.0, 0.0), long, cuts=cuts))
    return parts


def _half(*, above, gap):
    return (150.0 - gap / 2, 301.0) if above else (-1.0, 150.0 + gap / 2)


def planned(parts, joints=()):
    """The order of plain shapes."""
    boards = [BoardValue(name=part.name, steep=False, crosses=True, order=((1, 0, part.name),)) for part in parts]
    return plan(parts, boards, (), joints)


def whole(order):
    """The one stage of a piece without units."""
    (stage,) = order.stages
    return stage


def assembly(order):
    """Names in the order in which they are put in, those that lie first in front."""
    stage = whole(order)
    return [*stage.first, *(part for step in stage.steps for part in step.parts)]
