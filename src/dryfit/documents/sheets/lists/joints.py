"""Joints to tick off as they are fitted dry, and the hardware they take."""

from collections import Counter

from ....joints.registry import KINDS
from ....piece.model import Joint
from ....sentences import Voice, told
from ...lettering import printable
from ...looks import Desk
from ...naming import angle, printed_units
from ..page.prose import Run
from ..page.sheaf import Sheaf
from ..page.table import Cell, Column, Row, bold

ONE_IN, LEAST_SPARE = 10, 2  # spare hardware (common practice)


def joint_list(desk: Desk, sheaf: Sheaf) -> None:
    """Joints by their letters, two side by side, a box each for the dry fit."""
    columns = [
        Column(title="joint", wide=14.4),
        Column(title="kind", wide=20.4),
        Column(title="angle", wide=11.6),
        Column(title="made so that", wide=32.8),
        Column(title="fits", wide=7.8),
    ]
    joints = sorted(desk.book.piece.joints, key=lambda joint: [_placed(mark) for mark in letters_of(desk, joint)])
    if joints:
        sheaf.tables_abreast("joints", columns, [_joint(desk, joint) for joint in joints], 2)


def _placed(mark: str) -> tuple[int, str]:
    """Where a letter stands among others: A to Z, then A1 and so on."""
    return len(mark), mark


def _joint(desk: Desk, joint: Joint) -> Row:
    return (
        bold(printable(" × ".join(letters_of(desk, joint)))),
        Cell(text=joint.kind),
        Cell(text=angle(joint.meeting.angle)),
        Cell(text=printable(_lettered(desk, joint))),
        Cell(tick=True),
    )


def letters_of(desk: Desk, joint: Joint) -> tuple[str, str]:
    """The letters of the two bodies: A, B; of what has none its name: A, wall."""
    first, second = (desk.marks.get(side.body, side.body) for side in (joint.meeting.a, joint.meeting.b))
    return first, second


def _lettered(desk: Desk, joint: Joint) -> str:
    """How a joint is made, its boards by their letters: "A opens to the front"."""
    return told(joint.hand.name, Voice(printed_units(), desk.marks))


# --- hardware ------------------------------------------------------------------------------------


def hardware_list(desk: Desk, sheaf: Sheaf) -> None:
    """What to buy or make, with spares."""
    needed: Counter[tuple[str, str]] = Counter()
    used: dict[tuple[str, str], list[str]] = {}
    for joint in desk.book.piece.joints:
        for item in KINDS[joint.kind].hardware(joint):
            needed[item.name, item.size] += item.count
            used.setdefault((item.name, item.size), []).append(" × ".join(letters_of(desk, joint)))
    if not needed:
        return
    columns = [
        Column(title="hardware", wide=46.0),
        Column(title="size", wide=46.0),
        Column(title="for", wide=46.0),
        Column(title="needed", wide=15.0),
        Column(title="take", wide=18.0),
        Column(title="have", wide=9.0),
    ]
    rows = [
        (
            Cell(text=printable(name)),
            Cell(text=printable(size)),
            Cell(text=printable(", ".join(dict.fromkeys(used[name, size])))),
            Cell(text=str(count)),
            bold(f"{count + spares(count)}"),
            Cell(tick=True),
        )
        for (name, size), count in needed.items()
    ]
    says = (
        f"Take: needed and spares, one in {ONE_IN}, {LEAST_SPARE} at least (common practice); buy the pack that holds"
    )
    sheaf.table("hardware", columns, rows, [Run(f"{says} as many.")])


def spares(count: int) -> int:
    """How many more of a thing to take than are needed (common practice)."""
    return max(LEAST_SPARE, -(-count // ONE_IN))
