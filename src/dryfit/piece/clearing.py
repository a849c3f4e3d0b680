"""Changes of a line that bring a board clear of another, or up to the next one.

Each is thought of from two boards, or from one and those about it, seen in the elevation; whether the piece as a whole
takes it is tried by who offers it. Boards that lie flat are left out: their lines are no centre-lines of what is seen.
"""

import math
from collections.abc import Iterable, Iterator

from ..geometry.frames import Vec2
from ..places import Cure
from ..sentences import Length, Name, say
from .model import DATUM_END, FAR_END, Board
from .movable import asked_to_move, compass, end_in_the_file

FARTHEST = 100.0  # what a board is moved off another, or shortened (ours): farther, another place is meant
STEP = 0.1  # what a move is rounded up to: faces that come this near touch
LEAST_ANGLE = 15.0  # degrees: no joint is made below
SHARED = 1e-6  # least common depth


def moved_clear(one: Board, other: Board) -> Iterator[Cure]:
    """Either board moved off the other square to one of them, the shortest way, or its end taken out of it."""
    if "flat" in (one.lies, other.lies):
        return
    for board, beside in ((one, other), (other, one)):
        ways = (_way_off(board, beside, along) for along in (one, other))
        dx, dy = min(ways, key=lambda way: math.hypot(*way))
        by = math.hypot(dx, dy)
        if by <= FARTHEST:
            yield asked_to_move(say("{}: {} {}", Name(board.name), Length(by), compass(dx, dy)), board.name, (dx, dy))
        yield from _shortened(board, beside)


def _way_off(board: Board, beside: Board, along: Board) -> Vec2:
    """The shorter of the two ways, square to one of the boards, on which a board leaves another."""
    nx, ny, _ = along.frame.y
    low, high = _reach(board, (nx, ny))
    its_low, its_high = _reach(beside, (nx, ny))
    up, down = _up(its_high - low), _up(high - its_low)
    return (up * nx, up * ny) if up <= down else (-down * nx, -down * ny)


def _shortened(board: Board, beside: Board) -> Iterator[Cure]:
    """The nearer end drawn back out of another board, where more than half of it is left."""
    ux, uy, _ = board.frame.x
    low, high = _reach(board, (ux, uy))
    its_low, its_high = _reach(beside, (ux, uy))
    by, end = min((_up(high - its_low), FAR_END), (_up(its_high - low), DATUM_END))
    if 0.0 < by <= min(FARTHEST, board.length / 2):
        label = say("{}: {} shorter", Name(board.name), Length(by))
        yield asked_to_move(label, board.name, (-end * by * ux, -end * by * uy), (end_in_the_file(board, end),))


def _reach(board: Board, way: Vec2) -> tuple[float, float]:
    """From where to where a board reaches in a direction of the elevation."""
    (x, y, _), (ux, uy, _), (nx, ny, _) = board.frame.origin, board.frame.x, board.frame.y
    start = x * way[0] + y * way[1]
    along = board.length * (ux * way[0] + uy * way[1])
    half = board.thickest / 2 * abs(nx * way[0] + ny * way[1])
    return start + min(along, 0.0) - half, start + max(along, 0.0) + half


def _up(by: float) -> float:
    return round(math.ceil(by / STEP - 1e-6) * STEP, 6)


def run_to_meet(board: Board, others: Iterable[Board]) -> Iterator[Cure]:
    """A board that touches nothing, longer at either end, or at both, up to the face that stands in its way."""
    if board.lies == "flat":
        return
    beside = [other for other in others if other.name != board.name and other.lies != "flat"]
    found = [(end, *met) for end in (DATUM_END, FAR_END) for met in [_next(board, end, beside)] if met is not None]
    (ux, uy, _) = board.frame.x
    each = [
        asked_to_move(
            say("{}: {} longer, up to {}", Name(board.name), Length(far), Name(other)),
            board.name,
            (end * far * ux, end * far * uy),
            (end_in_the_file(board, end),),
        )
        for end, far, other in found
    ]
    if len(each) == 2:
        (_, far, other), (_, its_far, another) = found
        label = say(
            "{}: {} and {} longer, from {} to {}",
            Name(board.name), Length(far), Length(its_far), Name(other), Name(another),
        )  # fmt: skip
        yield Cure(label=label, edits=(*each[0].edits, *each[1].edits))
    yield from each


def _next(board: Board, end: int, beside: Iterable[Board]) -> tuple[float, str] | None:
    """How far an end is from the nearest face before it, along its line, and whose that is."""
    x, y, _ = board.frame.place((board.length if end == FAR_END else 0.0, 0.0, 0.0))
    ux, uy = (end * part for part in board.frame.x[:2])
    nearest = None
    for other in beside:
        (ox, oy, _), (vx, vy, _) = other.frame.origin, other.frame.x
        sine = ux * vy - uy * vx
        if abs(sine) < math.sin(math.radians(LEAST_ANGLE)):
            continue
        if min(board.front, other.front) - max(board.back, other.back) <= SHARED:
            continue
        dx, dy = ox - x, oy - y
        far = (dx * vy - dy * vx) / sine - other.thickest / 2 / abs(sine)
        at = (dx * uy - dy * ux) / sine
        if far > 0.0 and 0.0 <= at <= other.length and (nearest is None or far < nearest[0]):
            nearest = far, other.name
    return nearest
