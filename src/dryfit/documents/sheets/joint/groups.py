"""Joints that are made alike, by what would be printed of them; both hands together, told apart.

Two joints are made alike if their kind, every figure as rounded for paper, every sentence, the depths of both boards
and where they stand to each other are the same. Marks, names and the hand may differ: the first joint is drawn, the
others are named beside it.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from ....joints.registry import KINDS
from ....piece.model import WALL, Joint
from ....sentences import Voice, told
from ...looks import Desk
from ...naming import LEAST, angle, position, printed_units, thickness, written_as
from ..part.words.together import lettered as letters_of
from .bevels import bevel_of
from .figures.printed import figures
from .roles import JointFigure, Phrase, Roles
from .stance import SQUARE
from .words import FOUND, OPPOSITE, words

TIMES = " × "
BARE = "#"  # stands for a length, where forms are compared


@dataclass(frozen=True, slots=True, kw_only=True)
class AlikeJoints:
    """Joints made alike.

    Attributes:
        roles: who is who in each; the first is drawn.
        figures, words: of the first; of the others the same, but for names.
        form: its words without the lengths in them.
    """

    roles: tuple[Roles, ...]
    figures: tuple[JointFigure, ...]
    words: tuple[tuple[Phrase, ...], ...]
    form: tuple[tuple[Phrase, ...], ...]

    @property
    def first(self) -> Roles:
        """The joint that is drawn."""
        return self.roles[0]

    @property
    def joints(self) -> list[Joint]:
        """All of them."""
        return [one.joint for one in self.roles]

    @property
    def settled(self) -> list[tuple[Phrase, ...]]:
        """The paragraphs that tell how it is made; what is so in one of them alone is left out."""
        return [runs for runs in self.words if _is_settled(runs)]

    @property
    def settled_form(self) -> list[tuple[Phrase, ...]]:
        """The same without the lengths in them."""
        return [runs for runs in self.form if _is_settled(runs)]


def _is_settled(runs: Sequence[Phrase]) -> bool:
    return runs[0].words not in (FOUND, OPPOSITE)


@dataclass(frozen=True, slots=True, kw_only=True)
class JointTold:
    """What is told of one joint."""

    roles: Roles
    figures: tuple[JointFigure, ...]
    words: tuple[tuple[Phrase, ...], ...]
    form: tuple[tuple[Phrase, ...], ...]

    @property
    def printed(self) -> tuple[object, ...]:
        """All that is printed of it, each board standing for its part."""
        return (
            *printed(self.roles),
            tuple(_figure(self.roles, row) for row in self.figures),
            tuple(_paragraph(self.roles, runs) for runs in self.words),
        )


def told_of(desk: Desk, joint: Joint) -> JointTold:
    """What is told of a joint."""
    roles = Roles.of(desk, joint)
    said = tuple(tuple(runs) for runs in words(desk, roles))
    with written_as(lambda _: BARE):
        form = tuple(tuple(runs) for runs in words(desk, roles))
    return JointTold(roles=roles, figures=tuple(figures(roles)), words=said, form=form)


def alike(desk: Desk) -> list[AlikeJoints]:
    """All joints of a piece in the order of the schedule, made alike together."""
    return gathered(told_of(desk, joint) for joint in desk.book.piece.joints)


def gathered(every: Iterable[JointTold]) -> list[AlikeJoints]:
    """Joints made alike together, in the order of the first of each."""
    found: dict[tuple[object, ...], list[JointTold]] = {}
    for one in every:
        found.setdefault(one.printed, []).append(one)
    return [
        AlikeJoints(
            roles=tuple(one.roles for one in them), figures=them[0].figures, words=them[0].words, form=them[0].form
        )
        for them in found.values()
    ]


def _figure(roles: Roles, row: JointFigure) -> JointFigure:
    alike = roles.alike
    return replace(row, of=alike(row.of), what=alike(row.what), sum=alike(row.sum))


def _paragraph(roles: Roles, runs: tuple[Phrase, ...]) -> tuple[Phrase, ...]:
    return tuple(
        replace(run, words=roles.alike(run.words), several=None if run.several is None else roles.alike(run.several))
        for run in runs
    )


def one(desk: Desk, joint: Joint) -> AlikeJoints:
    """A joint by itself."""
    return gathered([told_of(desk, joint)])[0]


def printed(roles: Roles) -> tuple[object, ...]:
    """What the views print beside the table: kind, angle, thicknesses, depths and set-backs, boards by their parts."""
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
            (roles.part(cut.body), cut.word, cut.figures.opens, len(cut.shapes), bool(cut.face)) for cut in joint.cuts
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
    if len(bevels) < 2 or abs(bevels[0].longer - bevels[1].longer) < LEAST:
        return 0
    (ax, ay), (bx, by) = bevels[0].away, bevels[1].away
    return 1 if ax * by - ay * bx > 0 else -1


# --- names ---------------------------------------------------------------------------------------


def tag(desk: Desk, roles: Roles) -> str:
    """The letters of the two bodies, as in the schedule: "A × B", "A × wall"."""
    return tag_of(desk, roles.joint)


def tags(desk: Desk, them: Iterable[Roles]) -> str:
    """Several of them: "E × A to C, G × A"."""
    first: dict[str, list[str]] = {}
    for roles in them:
        one, other = letters_of_both(desk, roles.joint)
        first.setdefault(one, []).append(other)
    return ", ".join(f"{one}{TIMES}{letters_of(others)}" for one, others in first.items())


def tag_of(desk: Desk, joint: Joint) -> str:
    """The same of a joint of which nothing else is known."""
    return TIMES.join(letters_of_both(desk, joint))


def letters_of_both(desk: Desk, joint: Joint) -> tuple[str, str]:
    """Those of its two bodies."""
    one, other = (desk.marks.get(side.body, side.body) for side in (joint.meeting.a, joint.meeting.b))
    return one, other


def kind_said(roles: Roles) -> str:
    """The kind in full: "raked cross halving", "stopped housing", "mitre with keys"."""
    joint = roles.joint
    said = joint.kind
    cuts = [cut for cut in joint.cuts if not cut.end]
    if any(stop.covered for cut in cuts for stop in cut.figures.stops):
        said = f"stopped {said}"
    if any(abs(stance.leans) > SQUARE for stance in roles.shown if stance.cut is not None):
        said = f"raked {said}"
    by = KINDS[joint.kind].strengthened(joint)
    return f"{said} with {told(by, Voice(printed_units()))}" if by else said


def who(desk: Desk, roles: Roles) -> str:
    """The boards by their names and letters."""
    bodies = [side.body for side in (roles.joint.meeting.a, roles.joint.meeting.b)]
    return " and ".join(f"{body} {desk.marks[body]}" for body in bodies if body in desk.marks)
