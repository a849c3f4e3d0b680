"""A template: the sheet of a study with a table beside a drawing, on A3. Copy it to `documents/sheets/NAME.py`.

Heights: each level board's upper side measured from the floor on the piece's front, and the set-ups that its cuts take.
"""

from collections.abc import Iterator

from dryfit.documents.display import Draft, Stroke, shifted
from dryfit.documents.kit.axis import Axis
from dryfit.documents.kit.dimension import DimensionMark, UnplacedDimension
from dryfit.documents.kit.label import Label
from dryfit.documents.kit.view import View, place
from dryfit.documents.lettering import printable
from dryfit.documents.looks import Desk
from dryfit.documents.naming import position, scale_words
from dryfit.documents.sheet import sheet
from dryfit.documents.sheets.page.frame import BARS, heading, space
from dryfit.documents.sheets.page.table import GUTTER, Cell, Column, bold, drawn, unfolded
from dryfit.documents.standard import A3, FIGURE, SCALES, TEXT
from dryfit.sentences import Voice
from dryfit.studies.setups.result import SetUps

SIZE = (A3[1], A3[0])
COLUMNS = (
    Column(title="part", wide=14.0),
    Column(title="board", wide=60.0),
    Column(title="height", wide=25.0),
    Column(title="set-ups", wide=40.0),
)


@sheet("heights", paper="heights", order=10)
def heights(desk: Desk) -> Iterator[Draft]:
    """One sheet; none where the study found nothing."""
    plan = desk.book.found(SetUps)
    if plan is None:
        return
    room = space(SIZE, desk)
    items, top = heading(BARS, "heights and set-ups", (), room.right)
    table = drawn(room.left, top, COLUMNS, unfolded(COLUMNS, [_row(desk, plan, *level) for level in _levels(desk)]))
    left = room.left + sum(column.wide for column in COLUMNS) + GUTTER
    size = (room.right - left, room.bottom - top)
    ways = (place(_view(desk, scale), size, Voice()) for scale in SCALES)
    front = next(one for one in ways if not one.unplaced and one.wide <= size[0] and one.high <= size[1])
    yield Draft(
        title="heights", kind="heights", number="H", scale=scale_words(front.scale), size=SIZE,
        items=(*items, *table, *shifted(front.items, left, top)),
    )  # fmt: skip


def _levels(desk: Desk) -> list[tuple[str, float]]:
    """Level boards with the heights of their upper sides, from the foot up."""
    level = {name: area.bounds for name, area in desk.elevations.items() if not area.is_empty}
    found = [(name, box[3]) for name, box in level.items() if box[2] - box[0] > box[3] - box[1]]
    return sorted(found, key=lambda one: one[1])


def _row(desk: Desk, plan: SetUps, name: str, height: float) -> tuple[Cell, ...]:
    cuts = {cut.key for cut in desk.looks[name].part.cuts}
    names = ", ".join(one.name for one in plan.all if cuts & set(one.cuts))
    said = Cell(text=printable(name)), Cell(text=position(height)), Cell(text=names)
    return (bold(desk.marks[name]), *said)


def _view(desk: Desk, scale: float) -> View:
    """The front: outlines, letters on the level boards, heights from the floor."""
    left, foot, right, head = desk.bounds
    across, up = Axis.whole(left, right, scale), Axis.whole(foot, head, scale, sign=-1.0)
    outlines = {name: area.exterior.coords for name, area in desk.elevations.items() if not area.is_empty}
    wood = tuple(
        Stroke(points=tuple((across.at(x), up.at(y)) for x, y in points), pen="outline", closed=True, owner=name)
        for name, points in outlines.items()
    )
    marks = (DimensionMark((left, foot)), *(DimensionMark((left, y), position(y - foot)) for _, y in _levels(desk)))
    names = [(name, desk.elevations[name].representative_point()) for name, _ in _levels(desk)]
    return View(
        title="from the room", wood=wood, across=across, up=up,
        dimensions=(UnplacedDimension(way=(0.0, 1.0), marks=marks, style="running"),),
        labels=tuple(Label(says=desk.marks[name], at=((p.x, p.y),), sizes=(FIGURE, TEXT)) for name, p in names),
    )  # fmt: skip
