"""Joints to tick off as they are fitted dry."""

from ....piece.model import Joint
from ....sentences import Voice, a, told
from ...lettering import printable
from ...looks import Desk
from ...naming import angle, printed_units
from ...pages import joint as place_of
from ...pages import page_of
from ..page.sheaf import Sheaf
from ..page.table import Cell, Row, bold

FEW = 12  # fewer joints stand in two columns, whatever they are


def joint_list(desk: Desk, sheaf: Sheaf) -> None:
    """Joints by their letters, side by side, a box each for the dry fit; what all have alike stands in the title."""
    joints = desk.joints
    if not joints:
        return
    sorts = {(joint.kind, angle(joint.meeting.angle)) for joint in joints}
    if len(sorts) > 1 or len(joints) < FEW:
        heads = ["joint", "kind, angle", "how made", "page", "fits"]
        sheaf.tables_abreast("joints", heads, [_joint(desk, joint) for joint in joints], 2)
        return
    ((kind, turned),) = sorts
    rows = [(named, *rest) for named, _, *rest in (_joint(desk, joint) for joint in joints)]
    sheaf.tables_abreast(f"joints, each {a(kind)} at {turned}", ["joint", "how made", "page", "fits"], rows, 3)


def _joint(desk: Desk, joint: Joint) -> Row:
    return (
        bold(printable(" × ".join(letters_of(desk, joint)))),
        Cell(text=f"{joint.kind} {angle(joint.meeting.angle)}"),
        Cell(text=printable(_lettered(desk, joint))),
        Cell(text=page_of(place_of(joint.key))),
        Cell(tick=True),
    )


def letters_of(desk: Desk, joint: Joint) -> tuple[str, str]:
    """The letters of the two bodies: A, B; of what has none its name: A, wall."""
    first, second = (desk.marks.get(side.body, side.body) for side in (joint.meeting.a, joint.meeting.b))
    return first, second


def _lettered(desk: Desk, joint: Joint) -> str:
    """How a joint is made, its boards by their letters: "A opens to the front"."""
    return told(joint.making.name, Voice(printed_units(), desk.marks))
