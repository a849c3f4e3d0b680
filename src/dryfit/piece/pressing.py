"""How a glued joint is pressed, as its kind says it; of one whose kind says nothing, as boards meet so.

A clamp along the board that ends on another presses its end home. At a square corner that is mitred two clamps lie
along its boards and press the mitre between them; where it is not square none can. A lap, a scarf, a board laid on
another are pressed square to their faces. The walls of a halving or a housing cannot be pressed: their fit does it.
"""

import math
from collections.abc import Sequence

from .corner import Corner
from .facts import GlueZone, Grain, Press, Pressing
from .model import Joint, Touch

SQUARE_ON = 90.0  # degrees
SQUARE = 1.0  # degrees off square at which clamps along the boards still press a corner (common practice)


def corner_shares(one: float, other: float) -> tuple[float, float]:
    """Of pressure x face, what the clamps along the two boards of a corner give, from the angles of its cut.

    Args:
        one, other: of the cut to either board's length, degrees; together the inside angle.
    """
    sine = math.sin(math.radians(one + other))
    return math.cos(math.radians(other)) / sine, math.cos(math.radians(one)) / sine


def as_it_meets(joint: Joint, home: str, zones: Sequence[GlueZone]) -> Press:
    """How a joint of which no more is known is pressed.

    Args:
        home: the board whose end goes home on the other, "" where neither does.
        zones: its glued faces; where all are end grain on end grain, a corner is pressed as a mitre.
    """
    meeting = joint.meeting
    a, b = meeting.a, meeting.b
    low, high = meeting.overlap
    seated = bool(joint.let_in)
    if (a.touch, b.touch) == (Touch.END, Touch.FACE):
        area = a.thickness * (high - low)
        return Press(how=Pressing.END, face_mm2=area, along=((a.body, 1.0),), seated=seated)
    if (a.touch, b.touch) != (Touch.END, Touch.END):
        return Press(how=Pressing.FIT)
    if meeting.form != "corner":
        return Press(how=Pressing.IN_LINE, face_mm2=min(a.thickness, b.thickness) * (high - low))
    one, other = Corner.of(a, b), Corner.of(b, a)
    if not all(set(zone.grain) == {Grain.END} for zone in zones):
        ends = meeting.side(home) if home else a
        area = ends.thickness / math.sin(math.radians(one.phi)) * (high - low)
        return Press(how=Pressing.END, face_mm2=area, along=((ends.body, 1.0),), seated=seated)
    shares = corner_shares(one.to_length, other.to_length)
    along = ((a.body, shares[0]), (b.body, shares[1])) if abs(one.phi - SQUARE_ON) <= SQUARE else ()
    return Press(how=Pressing.CORNER, face_mm2=one.cut_length * (high - low), along=along)
