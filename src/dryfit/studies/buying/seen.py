"""What of a board is seen once the piece stands: its edges, ends and faces.

A surface is hidden where it lies on the wall or the floor, and an end where a joint takes it in or another end closes
it. Nothing is hidden by what may be put in front of it.
"""

from ...job.model import Wall
from ...piece.model import DATUM_END, FAR_END, Board, Cut, Joint, Part
from ...piece.room import has_wall
from ...piece.setout import TOUCHING
from .result import Shows

CLOSED = ("face", "shoulder", "corner")  # what an end stands to that hides it


def shows_of(part: Part, joints: dict[tuple[str, str], Joint], wall: Wall, *, fixed: bool) -> Shows:
    """What is seen of a part.

    Args:
        part: with its cuts.
        joints: by their pair.
        wall: as the job has it.
        fixed: whether the piece is screwed to it.
    """
    board = part.board
    behind = board.back <= TOUCHING and has_wall(wall, fixed=fixed)
    ends = sum(_end_shows(part, end, joints, wall) for end in (DATUM_END, FAR_END))
    flat = board.lies == "flat"
    if flat:
        return Shows(edges=2, ends=ends, faces=1 if behind else 2, flat=True)
    return Shows(edges=1 if behind else 2, ends=ends, faces=2 - _lies_on_the_floor(board, wall))


def _lies_on_the_floor(board: Board, wall: Wall) -> int:
    """1 where its lower face does."""
    level = abs(board.frame.x[1]) <= 1e-6
    low = board.frame.place((0.0, board.line_c, 0.0))[1] - board.thickest / 2
    return int(level and not wall.hung and abs(low) <= TOUCHING)


def _end_shows(part: Part, end: int, joints: dict[tuple[str, str], Joint], wall: Wall) -> bool:
    cuts = [cut for cut in part.cuts if cut.end == end]
    if any(_closed(cut, joints) for cut in cuts):
        return False
    board = part.board
    x, y, _ = board.frame.place((part.long[0] if end == DATUM_END else part.long[1], 0.0, 0.0))
    if abs(board.frame.x[1]) >= abs(board.frame.x[0]):
        place, stops = y, (None if wall.hung else 0.0, wall.ceiling)
    else:
        place, stops = x, (wall.left, wall.right)
    near = board.thickest / 2 + TOUCHING  # of a square end on a slope the middle stands off by as much
    return not any(stop is not None and abs(place - stop) <= near for stop in stops)


def _closed(cut: Cut, joints: dict[tuple[str, str], Joint]) -> bool:
    if cut.joint is None:
        return False
    joint = joints.get(cut.joint)
    return cut.figures.stands in CLOSED or (joint is not None and joint.meeting.form == "in line")
