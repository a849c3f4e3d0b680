"""Joints that are made alike, by what would be printed of them; both hands together, told apart.

Two joints share a sheet if their kind, every figure as rounded for paper, every sentence, the depths of both boards
and where they stand to each other are the same. Marks, names and the hand may differ: the first joint is drawn, the
others are named beside it.
"""

from dataclasses import dataclass

from ....piece.model import WALL, Joint
from ...looks import Desk
from ...naming import angle, position, thickness
from ..page.prose import Run
from .bevels import bevel_of
from .figures.printed import figures
from .roles import Figure, Roles
from .stance import SQUARE
from .words import words


@dataclass(frozen=True, slots=True, kw_only=True)
class Alike:
    """Joints made alike.

    Attributes:
        roles: who is who in each; the first is drawn.
        figures, words: with signs for the boards, the same for all.
    """

    roles: tuple[Roles, ...]
    figures: tuple[Figure, ...]
    words: tuple[tuple[Run, ...], ...]

    @property
    def first(self) -> Roles:
        """The joint that is drawn."""
        return self.roles[0]

    @property
    def same(self) -> list[Roles]:
        """The others of the hand that is drawn."""
        return [one for one in self.roles[1:] if hand(one) == hand(self.first)]

    @property
    def turned(self) -> list[Roles]:
        """Those of the other hand."""
        return [one for one in self.roles[1:] if hand(one) != hand(self.first)]


def alike(desk: Desk) -> list[Alike]:
    """All joints of a piece in the order of the schedule, made alike together."""
    found: dict[tuple[object, ...], list[Roles]] = {}
    texts: dict[tuple[object, ...], tuple[tuple[Figure, ...], tuple[tuple[Run, ...], ...]]] = {}
    for joint in desk.book.piece.joints:
        roles = Roles.of(desk, joint)
        said = tuple(tuple(runs) for runs in words(desk, roles))
        rows = tuple(figures(roles))
        key = (*printed(roles), rows, said)
        found.setdefault(key, []).append(roles)
        texts[key] = (rows, said)
    return [Alike(roles=tuple(them), figures=texts[key][0], words=texts[key][1]) for key, them in found.items()]


def one(desk: Desk, joint: Joint) -> Alike:
    """A joint by itself."""
    roles = Roles.of(desk, joint)
    said = tuple(tuple(runs) for runs in words(desk, roles))
    return Alike(roles=(roles,), figures=tuple(figures(roles)), words=said)


def printed(roles: Roles) -> tuple[object, ...]:
    """What the views print beside the table: kind, angle, thicknesses, depths and set-backs, roles by sign."""
    joint = roles.joint
    meeting = joint.meeting
    if WALL in (meeting.a.body, meeting.b.body):
        side = meeting.a
        return joint.kind, thickness(side.thickness), position(side.front - side.back), position(max(side.back, 0.0))
    sides = [meeting.side(name) for name in roles.names]
    least = min(side.back for side in sides)
    stands = tuple(
        (thickness(side.thickness), position(side.back - least), position(side.front - least)) for side in sides
    )
    cuts = tuple(
        sorted(
            (roles.sign(cut.body), cut.kind, cut.figures.opens, len(cut.shapes), bool(cut.face)) for cut in joint.cuts
        )
    )
    opposed = tuple(side.opposed for side in sides)
    return joint.kind, angle(meeting.angle), meeting.form, stands, cuts, opposed, position(meeting.wide)


def hand(roles: Roles) -> int:
    """1 and -1 for the two hands of a joint that has hands, else 0."""
    if not roles.shown:
        return 0
    stance = roles.shown[0]
    if stance.cut is not None:
        return stance.hand
    bevels = [bevel for part in (stance.main, stance.other) if (bevel := bevel_of(stance, part)) is not None]
    if len(bevels) < 2 or abs(bevels[0].longer - bevels[1].longer) < 0.05:
        return 0
    (ax, ay), (bx, by) = bevels[0].away, bevels[1].away
    return 1 if ax * by - ay * bx > 0 else -1


# --- names ---------------------------------------------------------------------------------------


def tag(desk: Desk, roles: Roles) -> str:
    """The letters of the two bodies, as in the schedule: "A × B", "A × wall"."""
    meeting = roles.joint.meeting
    return " × ".join(desk.marks.get(body, body) for body in (meeting.a.body, meeting.b.body))


def kind_said(roles: Roles) -> str:
    """The kind in full: "raked cross halving", "stopped housing", "mitre with keys"."""
    joint = roles.joint
    said = joint.kind
    cuts = [cut for cut in joint.cuts if not cut.end]
    if any(cut.figures.stop and cut.kind.startswith("stopped") for cut in cuts):
        said = f"stopped {said}"
    if any(abs(stance.leans) > SQUARE for stance in roles.shown if stance.cut is not None):
        said = f"raked {said}"
    extras = [_let_in(cut.kind, cut.takes, roles) for cut in cuts]
    told = list(dict.fromkeys(extra for extra in extras if extra))
    return f"{said} with {' and '.join(told)}" if told else said


def _let_in(kind: str, takes: str, roles: Roles) -> str:
    """What holds a joint besides its own wood: "keys", "a tongue", "dowels"."""
    if takes and takes not in roles.names:
        return "" if not roles.shown else takes if takes.endswith("s") else f"a {takes}"
    return f"{kind.split(maxsplit=1)[0]}s" if kind.endswith(" holes") else ""


def who(desk: Desk, roles: Roles) -> str:
    """Names with letters, and where to find the cuts on the parts' sheets."""
    joint = roles.joint
    bodies = [body for body in (joint.meeting.a.body, joint.meeting.b.body) if body in desk.marks]
    named = " and ".join(f"{body} {desk.marks[body]}" for body in bodies)
    numbers = []
    for body in bodies:
        cuts = [desk.looks[body].numbers.get(cut.key) for cut in joint.cuts if cut.body == body]
        listed = ", ".join(str(number) for number in sorted({number for number in cuts if number}))
        if listed:
            numbers.append(f"{'cut' if listed.isdigit() else 'cuts'} {listed} on {desk.marks[body]}'s sheet")
    return f"{named} · {', '.join(numbers)}" if numbers else named
