"""What holds a butt joint besides its glue: how many holes, how wide and how deep, by the rules of the kind.

The figures of the screw, and what dowels are sold, are the trade's own (`dryfit.trade.screws` and
`dryfit.trade.dowels`, with their sources).
"""

import math

from dryfit.trade.dowels import across_a_face, diameter_for
from dryfit.trade.screws import figure, read_screw

SCREW = "wood 5x80"


def places(common, asked=None):
    """How many over the depth that two boards share: as asked, else one in 100, two at least."""
    low, high = common
    return asked or max(2, round((high - low) / 100.0))


def holes(fasten, t, ends, angle=90.0):
    """(diameter, depth) of one dowel's two holes, or of one screw's: counterbore, hole and pilot.

    Rules of the kind: a dowel as sold over a third of the thinner board, as long as may be while 3 of wood stay beside
    both its holes, 1 deeper each; a plug 8 deep over the head, the head on the counterbore's floor.

    Args:
        t, ends: thickness of the board whose face it is, and of the one that ends there.
        angle: between the two boards.
    """
    if fasten == "dowels":
        size, lean = diameter_for(min(t, ends)), abs(math.cos(math.radians(angle)))

        def beside(dowel):  # in the end, which is the deeper of its two holes
            return (ends - size) / 2 - (dowel.in_end + 1.0) * lean

        dowels = list(across_a_face(t, size))
        dowel = next((dowel for dowel in dowels if beside(dowel) >= 3.0 - 1e-9), dowels[-1])
        return ((size, dowel.in_face + 1.0), (size, dowel.in_end + 1.0))
    if fasten == "screws":
        screw = read_screw("wood 5x80")
        head, height, hole, pilot = (
            figure(screw, name).value for name in ("head", "head_height", "hole_medium", "pilot")
        )
        assert head + 0.5 <= 12.0  # the next plug cutter
        deep = min(height + 8.0, t - 3.0)
        return ((12.0, deep), (hole, t - deep), (pilot, 80.0 - height - (t - deep)))
    return ()
