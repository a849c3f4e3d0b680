"""Does it really go together that way? Parts of a joint moved as its motions say, and laid over each other.

Also how much two parts touch: where solids lie face to face, their union has less surface than the two.
"""

from dryfit.geometry.frames import Vec
from dryfit.piece.model import Joint, Motion, Piece
from dryfit.piece.solids import Solids

CONTACT = 0.5  # mm3: what rounding to 1e-6 leaves between faces that touch
STEPS = 24


def overlap_when_moved(piece: Piece, joint: Joint, body: str, by: Vec) -> float:
    """Volume that the two boards of a joint share once `body` is moved."""
    solids = Solids()
    still = joint.meeting.other(body).body
    moved = solids.placed(piece.part_by_name[body]).translate(by)
    return float((moved ^ solids.placed(piece.part_by_name[still])).volume())


def along(motion: Motion, distance: float, aside: Vec = (0.0, 0.0, 0.0)) -> Vec:
    """A way along a motion, then aside."""
    x, y, z = motion.direction
    return (x * distance + aside[0], y * distance + aside[1], z * distance + aside[2])


def slides(piece: Piece, joint: Joint, motion: Motion) -> bool:
    """Whether the body leaves along the motion without touching the other, from nought to well beyond free."""
    far = motion.free * 1.25 + 5.0
    places = [far * step / STEPS for step in range(STEPS + 1)]
    return all(overlap_when_moved(piece, joint, motion.body, along(motion, at)) <= CONTACT for at in places)


def is_free(piece: Piece, joint: Joint, motion: Motion, distance: float, asides: list[Vec]) -> bool:
    """Whether, after so much of the motion, the body may be moved aside every way."""
    return all(
        overlap_when_moved(piece, joint, motion.body, along(motion, distance, aside)) <= CONTACT for aside in asides
    )


def touching_area(piece: Piece, joint: Joint) -> float:
    """Surface on which the two boards of a joint lie face to face, in mm2."""
    solids = Solids()
    one, other = (solids.placed(piece.part_by_name[body]) for body in joint.key)
    return float(one.surface_area() + other.surface_area() - (one + other).surface_area()) / 2
