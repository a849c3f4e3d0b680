"""LEFT and RIGHT of walls that lean: one way of looking, for drawing, section, cut table, set-up list and book.json.

Look along a cut from the edge that it opens to, the board lying before you on a face. The head is the upper end of its
walls, the foot their lower end: a head that stands to the right of its foot leans RIGHT, else LEFT. What opens to both
edges, or to none, is looked at from the front edge.

Which face is up does not matter, nor where the datum end lies: to bring the other face up with the same edge towards
you the board is turned end for end, half a turn about the way you look, and that makes of a head on the right a foot on
the left. So a set-up has one word and serves every cut that has it; LEFT and RIGHT are two set-ups. Both slots of one
crossing have one word (half a turn about the line that halves the angle between their boards carries one into the
other). The mirror image of a piece has the other word everywhere.

Sections of such cuts are drawn from that edge with the datum end left, as all views have it; then the face that lies up
is the one at +c seen from the front edge, the one at -c seen from the wall edge, and the sheet says which.

Worked example: a wall leans 9 degrees to the far end at +c and opens to the front. From there, with +c up, the datum
end lies left: the head stands 24 tan 9 = 3.8 to the right of its foot. With -c up the datum end lies right, and the
head, now at -c, is nearer to the datum end: to the right again. Were it open to the wall, it would be LEFT.
"""

from typing import Literal, TypeAlias

from ..geometry.shapes import Prism
from .model import Board

Head: TypeAlias = Literal["LEFT", "RIGHT"]

AT_EDGE = 1e-6


def edges_open(prism: Prism, board: Board) -> tuple[bool, bool]:
    """Whether a shape swept across the board runs out at its wall edge, and at its front edge."""
    return prism.low <= AT_EDGE, prism.high >= board.depth - AT_EDGE


def from_the_wall(prism: Prism, board: Board) -> bool:
    """Whether a cut is looked at from the wall edge: the only one that it opens to."""
    return edges_open(prism, board) == (True, False)


def head(lean: float, prism: Prism, board: Board) -> Head:
    """Which way the head of leaning walls leans.

    Args:
        lean: of the walls, above 0 to the far end at +c.
        prism: what is taken away.
        board: it is taken from.
    """
    edge = -1.0 if from_the_wall(prism, board) else 1.0
    return "RIGHT" if lean * edge > 0 else "LEFT"
