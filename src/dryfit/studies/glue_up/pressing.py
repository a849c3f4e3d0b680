"""What presses a glued joint: how much face there is to press, how hard, and by how many clamps.

A clamp lies along the board that ends on another and presses its end home. At a square corner that is mitred two
clamps lie along its boards and press the mitre between them; each gives what one of the two ends asks for. Where a
corner is not square a clamp along a board slides off: a band right round, or a clamp across blocks glued to the
boards, presses square to the mitre. The walls of a halving or a housing cannot be pressed: their fit does it, and a
clamp only brings the joint home.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal, TypeAlias

from ...places import Pair

Pressed: TypeAlias = Literal["end", "corner", "in line", "fit"]

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
        pressed: how it can be pressed; "corner" is end on end, as in a mitre.
        face_mm2: of the face that is pressed, 0 where the fit does it.
        along: (board, share of pressure x face) for each board along which clamps lie; empty at a corner that
            is not square, and where boards lie end to end.
        deep: common depth of its boards: the length over which clamps are spread.
        asked: pressure the job file asks for, N/mm2; None where it leaves it open.
    """

    key: Pair
    kind: str
    faces: tuple[tuple[str, float], ...]
    pressed: Pressed
    face_mm2: float
    along: tuple[tuple[str, float], ...]
    deep: float
    asked: float | None = None

    @property
    def end_faces(self) -> int:
        """How many of its glued faces are end grain."""
        return max((grain.split("-").count("end") for grain, _ in self.faces), default=0)


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


@dataclass(frozen=True, slots=True, kw_only=True)
class Bound:
    """A joint that no clamp along one board presses: a corner that is not square, or boards end to end.

    A corner takes a band round its frame, or clamps across blocks glued to its two boards; boards end to end long
    clamps, or clamps to blocks held on both.

    Attributes:
        force_n: square to its face.
        count: clamps across the blocks.
        corner: whether it is a corner.
    """

    key: Pair
    force_n: float
    count: int
    pressure_n_mm2: float | None
    source: str
    corner: bool = True


def pressure(joint: GlueJoint, usual: float | None, usual_from: str) -> tuple[float | None, str]:
    """N/mm2 on a joint's face, and where it comes from: as asked, 0.5 at a mitre, else the glue's own."""
    if joint.asked is not None:
        return joint.asked, "the job file"
    if joint.pressed == "corner" and usual is not None:
        return min(MITRE, usual), f"{PRACTICE}: a mitre is pressed with 0.5"
    return usual, usual_from


def corner_shares(one: float, other: float) -> tuple[float, float]:
    """Of pressure x face, what the clamps along the two boards of a corner give, from the angles of its cut.

    Args:
        one, other: of the cut to either board's length, degrees; together the inside angle.
    """
    sine = math.sin(math.radians(one + other))
    return math.cos(math.radians(other)) / sine, math.cos(math.radians(one)) / sine


def clamps(joints: Iterable[GlueJoint], usual: float | None, usual_from: str, clamp_n: float) -> tuple[Clamps, ...]:
    """Clamps along every board of a stage, by name."""
    found: dict[str, Clamps] = {}
    for joint in joints:
        if not joint.faces:
            continue
        per_face, source = pressure(joint, usual, usual_from)
        for board, share in joint.along:
            force = (per_face or 0.0) * joint.face_mm2 * share
            count = _count(force, joint.deep, clamp_n)
            one = Clamps(board=board, force_n=force, count=count, pressure_n_mm2=per_face, source=source)
            old = found.get(board)
            if old is None or (one.count, one.force_n) > (old.count, old.force_n):
                found[board] = one
    return tuple(found[board] for board in sorted(found))


def bound(joints: Iterable[GlueJoint], usual: float | None, usual_from: str, clamp_n: float) -> tuple[Bound, ...]:
    """The joints of a stage that no clamp along one board can press."""
    found = []
    for joint in joints:
        if joint.faces and joint.pressed in ("corner", "in line") and not joint.along:
            per_face, source = pressure(joint, usual, usual_from)
            force = (per_face or 0.0) * joint.face_mm2
            found.append(
                Bound(
                    key=joint.key,
                    force_n=force,
                    count=_count(force, joint.deep, clamp_n),
                    pressure_n_mm2=per_face,
                    source=source,
                    corner=joint.pressed == "corner",
                )
            )
    return tuple(found)


def _count(force: float, deep: float, clamp_n: float) -> int:
    """By force, and by spacing over the depth."""
    return max(1, math.ceil(force / clamp_n - 1e-9), math.ceil(deep / min(SPACING, FAN * deep) - 1e-9))
