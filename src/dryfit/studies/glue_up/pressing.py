"""What presses a glued joint: how much face there is to press, how hard, and by how many clamps.

A clamp lies along the board that ends on another and presses its end home; at a corner the two clamps that lie
along its boards press the mitre between them. The walls of a halving or a housing cannot be pressed: their fit
does it, and a clamp only brings the joint home.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal, TypeAlias

from ...places import Pair

Pressed: TypeAlias = Literal["end", "corner", "fit"]

SPACING = 300.0  # mm between clamps at most
FAN = 2.0  # times the board's depth: a clamp presses in a fan of 45 degrees to either side
PRACTICE = "common practice"
SPACING_FROM = f"{PRACTICE}: a clamp presses in a fan of 45 degrees, one in 300 at least"
MITRE = 0.5  # N/mm2: end grain crushes and slides under more
NEWTONS = 1000.0  # in a kN


@dataclass(frozen=True, slots=True, kw_only=True)
class GlueJoint:
    """One joint as it is glued.

    Attributes:
        faces: (grain pair, mm2) of glue; empty where it stays dry.
        pressed: how it can be pressed.
        face_mm2: of the face that is pressed, 0 where the fit does it.
        along: boards along which clamps lie.
        half_angle: half the inside angle of a corner, degrees; 90 elsewhere.
        deep: common depth of its boards: the length over which clamps are spread.
        asked: pressure the job file asks for, N/mm2; None where it leaves it open.
    """

    key: Pair
    kind: str
    faces: tuple[tuple[str, float], ...]
    pressed: Pressed
    face_mm2: float
    along: tuple[str, ...]
    half_angle: float
    deep: float
    asked: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Clamps:
    """Clamps along one board.

    Attributes:
        force_n: that its joints ask for along it, the larger of its two ends.
        count: by force and by spacing, whichever asks for more.
        pressure_n_mm2: on the face, and `source` where it comes from; None for contact pressure only.
    """

    board: str
    force_n: float
    count: int
    pressure_n_mm2: float | None
    source: str


def pressure(joint: GlueJoint, usual: float | None, usual_from: str) -> tuple[float | None, str]:
    """N/mm2 on a joint's face, and where it comes from: as asked, 0.5 at a mitre, else the glue's own."""
    if joint.asked is not None:
        return joint.asked, "the job file"
    if joint.pressed == "corner" and usual is not None:
        return min(MITRE, usual), f"{PRACTICE}: a mitre is pressed with 0.5"
    return usual, usual_from


def clamps(joints: Iterable[GlueJoint], usual: float | None, usual_from: str, clamp_n: float) -> tuple[Clamps, ...]:
    """Clamps along every board of a stage, by name."""
    found: dict[str, Clamps] = {}
    for joint in joints:
        if not joint.faces or joint.pressed == "fit":
            continue
        per_face, source = pressure(joint, usual, usual_from)
        force = (per_face or 0.0) * joint.face_mm2 / (2 * math.sin(math.radians(joint.half_angle)))
        if joint.pressed == "end":
            force = (per_face or 0.0) * joint.face_mm2
        count = max(1, math.ceil(force / clamp_n - 1e-9), math.ceil(joint.deep / min(SPACING, FAN * joint.deep) - 1e-9))
        for board in joint.along:
            one = Clamps(board=board, force_n=force, count=count, pressure_n_mm2=per_face, source=source)
            old = found.get(board)
            if old is None or (one.count, one.force_n) > (old.count, old.force_n):
                found[board] = one
    return tuple(found[board] for board in sorted(found))
