"""The piece at its wall, seen from the room: a little from above and from one side, so that no board is seen end on."""

import math
from collections.abc import Iterable

from ....geometry.frames import Vec, dot
from ....piece.model import WALL
from ...axonometric import CLEAR, Camera, Lying, body_of, plate
from ...looks import Desk

HIGH = 18.0  # degrees above the level from which it is seen
LIKED, SINGLE = 24.0, 4.0  # degrees from the side; a step from one turn to the next that is tried
TURNS = tuple(side * (LIKED + SINGLE * steps) for side in (1, -1) for steps in (0, 1, 2, -1, -2))  # the best first
AROUND = 80.0  # of the wall beside, above and below the piece
THICK = 1.0  # of the wall as it is drawn


def view(desk: Desk) -> Lying:
    """The parts and the wall behind them."""
    if "upright view" not in desk.kept:
        bodies = {part.id: body_of(part, desk.book.solids) for part in desk.book.piece.parts}
        corners = [point for body in bodies.values() for edge in body.edges.tolist() for point in edge]
        left, right = min(x for x, _, _ in corners) - AROUND, max(x for x, _, _ in corners) + AROUND
        low, high = min(y for _, y, _ in corners) - AROUND, max(y for _, y, _ in corners) + AROUND
        bodies[WALL] = plate([(left, low), (right, low), (right, high), (left, high)], -THICK, 0.0)
        normals = [board.frame.y for board in desk.book.piece.boards]
        desk.kept["upright view"] = Lying(bodies, camera(normals))
    kept: Lying = desk.kept["upright view"]
    return kept


def camera(normals: Iterable[Vec]) -> Camera:
    """The way to look: the first turn from which no board, given by the normal of its faces, is seen end on."""
    faces = list(normals)
    least = math.sin(math.radians(CLEAR))
    eyes = [_eye(turn) for turn in TURNS]
    clear = [min((abs(dot(normal, eye)) for normal in faces), default=1.0) for eye in eyes]
    best = next((at for at, off in enumerate(clear) if off >= least), clear.index(max(clear)))
    turn, high = math.radians(TURNS[best]), math.radians(HIGH)
    right: Vec = (math.cos(turn), 0.0, -math.sin(turn))
    up: Vec = (-math.sin(turn) * math.sin(high), math.cos(high), -math.cos(turn) * math.sin(high))
    return Camera(right, up, eyes[best])


def _eye(turn: float) -> Vec:
    a, b = math.radians(turn), math.radians(HIGH)
    return math.sin(a) * math.cos(b), math.sin(b), math.cos(a) * math.cos(b)
