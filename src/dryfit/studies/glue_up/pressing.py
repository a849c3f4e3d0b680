"""By how many clamps a glued joint is pressed, and how hard; on which face, and along what, its kind says.

A clamp lies along the board that ends on another and presses its end home. At a square corner that is mitred two
clamps lie along its boards and press the mitre between them; each gives what one of the two ends asks for. Where a
corner is not square a clamp along a board slides off: a band right round, or a clamp across blocks glued to the
boards, presses square to the mitre. The walls of a halving or a housing cannot be pressed: their fit does it. An end
that is let in is seated: as many clamps as its depth asks for bring it home, however large it is.
"""

import math
from collections.abc import Iterable, Set
from dataclasses import dataclass, replace

from ...piece.facts import Grain, Grains, Pressing
from ...places import Pair
from ...sentences import Words
from ...trade.figures import sourced
from .result import Bound, Clamps

SPACING = 300.0  # mm between clamps at most: each presses in a fan of 45 degrees
ALONE = 100.0  # mm of depth that one clamp presses by itself; on more it turns the joint, so one stands near each edge
PRACTICE = "common practice"
SEATED_FROM = sourced(PRACTICE, "a clamp seats it, its fit presses its walls")
SPACING_FROM = sourced(
    PRACTICE, "one near each edge, for one alone turns the joint; each presses in a fan of 45 degrees"
)
MITRE = 0.5  # N/mm2: end grain crushes and slides under more
BOUND = (Pressing.CORNER, Pressing.IN_LINE, Pressing.ACROSS)
NEWTONS = 1000.0  # in a kN


@dataclass(frozen=True, slots=True, kw_only=True)
class GlueJoint:
    """One joint as it is glued.

    Attributes:
        faces: (grain pair, mm2) of glue; empty where it stays dry.
        pressed: how it is pressed, as its kind says.
        face_mm2: of the face that is pressed, 0 where the fit does it.
        seated: whether its end is let in: clamps only bring it home.
        along: (board, share of pressure x face) for each board along which clamps lie; empty at a corner that
            is not square, and where boards lie end to end.
        ending: the boards that end at it.
        lean: of a board that ends on another's face, degrees off square; a bar along it slides but for wedge cauls.
        opposed: the board whose other face a bar bears on, where something else is let in there; `at` which place along
            it, over how `wide` a stretch.
        deep: common depth of its boards: the length over which clamps are spread.
        asked: pressure the job file asks for, N/mm2; None where it leaves it open.
    """

    key: Pair
    kind: str
    faces: tuple[tuple[Grains, float], ...]
    pressed: Pressing
    face_mm2: float
    along: tuple[tuple[str, float], ...]
    deep: float
    asked: float | None = None
    seated: bool = False
    ending: tuple[str, ...] = ()
    lean: float = 0.0
    opposed: str = ""
    at: float = 0.0
    wide: float = 0.0

    @property
    def sides(self) -> int:
        """How many of its sides are spread with glue: both where end grain meets end grain."""
        return 2 if any(set(grain) == {Grain.END} for grain, _ in self.faces) else 1

    @property
    def end_faces(self) -> int:
        """How many of its glued faces are end grain: of both faces of every zone."""
        return sum(grain.count(Grain.END) for grain, _ in self.faces)


def pressure(joint: GlueJoint, usual: float | None, usual_from: Words) -> tuple[float | None, Words]:
    """N/mm2 on a joint's face, and where it comes from: as asked, none if seated, 0.5 at a mitre, else the glue's."""
    if joint.asked is not None:
        return joint.asked, "the job file"
    if joint.seated:
        return None, SEATED_FROM
    if joint.pressed is Pressing.CORNER and usual is not None:
        return min(MITRE, usual), sourced(PRACTICE, "a mitre is pressed with 0.5")
    return usual, usual_from


def clamps(joints: Iterable[GlueJoint], usual: float | None, usual_from: Words, clamp_n: float) -> tuple[Clamps, ...]:
    """Clamps along every board of a go, by name."""
    found: dict[str, Clamps] = {}
    for joint in joints:
        if not joint.faces:
            continue
        per_face, source = pressure(joint, usual, usual_from)
        for board, share in joint.along:
            force = (per_face or 0.0) * joint.face_mm2 * share
            one = Clamps(
                board=board,
                force_n=force,
                count=_count(force, joint.deep, clamp_n),
                pressure_n_mm2=per_face,
                source=source,
                seats=joint.seated and joint.asked is None,
                wedge=joint.lean,
            )
            old = found.get(board, one)
            most = one if (one.count, one.force_n) > (old.count, old.force_n) else old
            found[board] = replace(most, seats=one.seats and old.seats, wedge=max(one.wedge, old.wedge))
    return tuple(found[board] for board in sorted(found))


def to_fill(board: str, joints: Iterable[GlueJoint], every: Iterable[GlueJoint], there: Set[str]) -> tuple[str, ...]:
    """Boards on whose far face a bar along a board would bear in an empty housing: what goes in there is not there."""
    ended = [joint for joint in joints if joint.opposed and joint.along and joint.along[0][0] == board]
    return tuple(
        dict.fromkeys(
            joint.opposed
            for joint in ended
            for other in every
            if other.opposed == joint.opposed and other.key != joint.key and abs(other.at - joint.at) < joint.wide
            if not set(other.key) <= there
        )
    )


def bound(joints: Iterable[GlueJoint], usual: float | None, usual_from: Words, clamp_n: float) -> tuple[Bound, ...]:
    """The joints of a stage that no clamp along one board can press."""
    found = []
    for joint in joints:
        if joint.faces and joint.pressed in BOUND and not joint.along:
            per_face, source = pressure(joint, usual, usual_from)
            force = (per_face or 0.0) * joint.face_mm2
            found.append(
                Bound(
                    key=joint.key,
                    force_n=force,
                    count=_count(force, joint.deep, clamp_n),
                    pressure_n_mm2=per_face,
                    source=source,
                    corner=joint.pressed is Pressing.CORNER,
                    across=joint.pressed is Pressing.ACROSS,
                )
            )
    return tuple(found)


def _count(force: float, deep: float, clamp_n: float) -> int:
    """By force, and by spacing over the depth: one near each edge, and no gap over `SPACING` between them."""
    spaced = 1 if deep <= ALONE else math.ceil(deep / SPACING - 1e-9) + 1
    return max(spaced, math.ceil(force / clamp_n - 1e-9))
