"""Details of the joints: sections at a larger scale through both boards, with what goes in first.

Joints that are made alike share one detail. The first section is parallel to the wall, seen from the front;
the second is cut along the board that ends, or receives, from its wall edge to its front. Clearances are true in
every figure; the board that enters is drawn so much thinner that its gap can be seen, which is said.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from shapely import Polygon, box
from shapely.geometry.base import BaseGeometry

from ...findings import in_units
from ...geometry.frames import Vec2
from ...geometry.sections import polygons
from ...geometry.shapes import Bore, Prism
from ...joints.registry import KINDS
from ...piece.model import WALL, Cut, Joint, Part
from ..display import Display, Item, Stroke, Text, shifted
from ..hatch import hatch
from ..lettering import TEXT, printable, wrapped
from ..looks import Desk
from ..naming import angle, depth, rise
from ..naming import width as wide_words
from ..through import Plane, wood_in
from .frame import BARS, LEFT, heading, space
from .prose import Place, Run, flow, strong
from .registry import A4, Draft, sheet

SCALES = (1.0, 0.5, 0.2, 0.1)
LEVEL_BOX = (66.0, 62.0)  # of the level section, on paper
ALONG_BOX = (84.0, 62.0)  # of the section along
GAP_SEEN = 1.2  # between two outlines of cut wood, on paper (they are 0.7 wide)
STEP = 1.8
BLOCK = (192.0, 124.0)  # of a detail that stands by itself
LETTER_ROOM = 2.0  # of wood around the middle of a letter, on paper


@dataclass(frozen=True, slots=True)
class _Alike:
    """Joints that are made alike, the first of which is drawn."""

    joints: tuple[Joint, ...]

    @property
    def first(self) -> Joint:
        return self.joints[0]


@sheet("joints", paper="workshop", order=80)
def joints(desk: Desk) -> Iterator[Draft]:
    """Two details a sheet, in the order of the schedule."""
    groups = _groups(desk)
    for number in range(0, len(groups), 2):
        items, top = heading(BARS, "joints in detail", _facts(groups), 200.0)
        free = space(A4, desk)
        y = max(top, free.top) + 2.0
        scales = set()
        for group in groups[number : number + 2]:
            block, scale = _detail(desk, group, y)
            items += block
            scales.add(scale)
            y += (free.bottom - max(top, free.top)) / 2
        words = ", ".join(f"1:{round(1 / scale)}" if scale < 1 else "1:1" for scale in sorted(scales, reverse=True))
        yield Draft(
            title="joints in detail",
            kind="joint",
            number=f"J{number // 2 + 1}",
            scale=words,
            size=A4,
            items=tuple(items),
        )


def _facts(groups: Sequence[_Alike]) -> str:
    count = sum(len(group.joints) for group in groups)
    return f"{count} joints, made in {len(groups)} ways · sections, the cut wood hatched"


def picture(desk: Desk, joint: Joint) -> Display:
    """One joint's two sections and words as a drawing of their own, for the manual."""
    items, _ = _detail(desk, _Alike((joint,)), 4.0)
    return Display(width=BLOCK[0], height=BLOCK[1], items=shifted(items, 4.0 - LEFT, 0.0))


def _groups(desk: Desk) -> list[_Alike]:
    """Joints made alike together; fixings to the wall are in the tables of their boards."""
    found: dict[tuple[object, ...], list[Joint]] = {}
    for joint in desk.book.piece.joints:
        if joint.meeting.b.body != WALL:
            found.setdefault(_made_like(desk, joint), []).append(joint)
    return [_Alike(tuple(alike)) for alike in found.values()]


def _made_like(desk: Desk, joint: Joint) -> tuple[object, ...]:
    """What two joints must share to share a detail: kind, angle, lean, and every figure of their cuts."""
    figures = tuple(
        (cut.kind, cut.figures.across, cut.figures.deep, round(cut.figures.lean, 2), cut.figures.opens, cut.face)
        for cut in joint.cuts
    )
    return joint.kind, round(joint.meeting.angle, 2), figures


# --- one detail ----------------------------------------------------------------------------------


def _detail(desk: Desk, group: _Alike, y: float) -> tuple[list[Item], float]:
    """Title, two sections and the words of one group, from `y` down."""
    joint = group.first
    items: list[Item] = [_title(desk, group, y + 3.5)]
    names = _named(desk, group)
    for line in names:
        y += 4.2
        items.append(Text(at=(LEFT, y + 3.5), text=line))
    top = y + 7.0
    here = desk.book.piece.part_by_name
    parts = [here[side.body] for side in (joint.meeting.a, joint.meeting.b) if side.body in here]
    level, level_scale = _level(desk, joint, parts, (LEFT, top))
    along, along_scale = _along(desk, joint, parts, (LEFT + LEVEL_BOX[0] + 24.0, top))
    items += level + along
    words = flow(
        [Place(LEFT, top + LEVEL_BOX[1] + 9.4, 180.0, top + LEVEL_BOX[1] + 38.0)],
        [_order(desk, joint), _figures(desk, joint), _bought(joint)],
    )
    items += words.items
    return items, min(level_scale, along_scale)


def _title(desk: Desk, group: _Alike, y: float) -> Text:
    joint = group.first
    raked = "" if joint.meeting.angle >= 90.0 else f", {angle(joint.meeting.angle)} between the boards"
    count = len(group.joints)
    more = f" · {count} of these" if count > 1 else ""
    return Text(at=(LEFT, y), text=f"{joint.kind}{raked}{more}", size=3.5, weight="bold")


def _named(desk: Desk, group: _Alike) -> list[str]:
    pairs = [" × ".join(desk.marks.get(name, name) for name in joint.key) for joint in group.joints]
    text = "drawn: " + " and ".join(f"{desk.marks.get(name, '')} {name}".strip() for name in group.first.key)
    if len(pairs) > 1:
        text += f" · the same: {', '.join(pairs[1:])}"
    return wrapped(printable(text), 180.0, TEXT)[:2]


def _level(desk: Desk, joint: Joint, parts: Sequence[Part], place: Vec2) -> tuple[list[Item], float]:
    """The section parallel to the wall, seen from the front, where one board runs through the other's slot."""
    meeting = joint.meeting
    x, y, _ = meeting.frame.origin
    reach = _reach(joint)
    scale = next((scale for scale in SCALES if 2 * reach * scale <= min(LEVEL_BOX)), SCALES[-1])
    half = (LEVEL_BOX[0] / 2 / scale, LEVEL_BOX[1] / 2 / scale)
    plane = Plane((x, y, _height(joint)), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), half)
    centre = (place[0] + LEVEL_BOX[0] / 2, place[1] + LEVEL_BOX[1] / 2)
    items, thinner = _drawn(desk, joint, parts, plane, centre, scale)
    says = f"section parallel to the wall, seen from the front, {_scale(scale)}"
    items += _caption(place, LEVEL_BOX, says, thinner)
    return items, scale


def _along(desk: Desk, joint: Joint, parts: Sequence[Part], place: Vec2) -> tuple[list[Item], float]:
    """Cut along the middle of the board that ends, else of the one that receives; wall edge to the left."""
    meeting = joint.meeting
    low = min(part.board.back for part in parts)
    high = max(part.board.front for part in parts)
    scale = next((scale for scale in SCALES if (high - low) * 1.12 * scale <= ALONG_BOX[0]), SCALES[-1])
    cut = meeting.a.body if meeting.a.end or meeting.b.body == WALL else meeting.b.body
    board = next(part.board for part in parts if part.id == cut)
    x, y, _ = meeting.frame.origin
    half = (ALONG_BOX[0] / 2 / scale, ALONG_BOX[1] / 2 / scale)
    plane = Plane((x, y, (low + high) / 2), (0.0, 0.0, 1.0), board.frame.x, half)
    centre = (place[0] + ALONG_BOX[0] / 2, place[1] + ALONG_BOX[1] / 2)
    items, thinner = _drawn(desk, joint, parts, plane, centre, scale)
    says = f"cut along the middle of {desk.marks[cut]}, {_scale(scale)}; wall to the left, front to the right"
    items += _caption(place, ALONG_BOX, says, thinner)
    return items, scale


def _reach(joint: Joint) -> float:
    """How much of the elevation is shown to either side: the joint and half as much wood again."""
    meeting = joint.meeting
    thick = max(meeting.a.thickness, meeting.b.thickness)
    sine = max(math.sin(math.radians(meeting.angle)), 0.25) if meeting.angle else 1.0
    return 1.1 * thick / sine + 6.0


def _height(joint: Joint) -> float:
    """Out of the wall, where that section shows most: through what is let in, else through a slot."""
    low, high = joint.meeting.overlap
    for cut in joint.cuts:
        for shape in cut.shapes:
            side = joint.meeting.side(cut.body)
            if isinstance(shape, Bore) and shape.direction[2] == 0.0:
                return shape.start[2] + side.back
            if isinstance(shape, Prism) and shape.high - shape.low < (high - low) / 4:
                return (shape.low + shape.high) / 2 + side.back
    seats = [
        (
            max(shape.low + joint.meeting.side(cut.body).back, low),
            min(shape.high + joint.meeting.side(cut.body).back, high),
        )
        for cut in joint.cuts
        if not cut.end
        for shape in cut.shapes
        if isinstance(shape, Prism)
    ]
    if not seats:
        return (low + high) / 2
    start, stop = seats[0]
    return (start + stop) / 2


def _drawn(
    desk: Desk, joint: Joint, parts: Sequence[Part], plane: Plane, centre: Vec2, scale: float
) -> tuple[list[Item], bool]:
    """Both boards' wood, hatched against each other; the one that enters drawn thinner where it has play."""
    gap = GAP_SEEN / 2 / scale
    wide, high = plane.reach
    ample = replace(plane, reach=(wide + 2 * gap, high + 2 * gap))
    woods = [wood_in(part, ample) for part in parts]
    enters = _entering(joint, parts, woods)
    items: list[Item] = []
    thinner = False
    for lean, part, wood in zip((45.0, -45.0), parts, woods, strict=False):
        shown = wood
        if part.id == enters:
            shown = wood.buffer(-gap, join_style="mitre")
            thinner = not shown.is_empty
        shown = shown.intersection(box(-wide, -high, wide, high))
        for polygon in polygons(shown):
            items += _wood(polygon, plane, centre, scale, lean, part.id)
        items += _letter(desk, part, shown, centre, scale)
    return items, thinner


def _wood(polygon: Polygon, plane: Plane, centre: Vec2, scale: float, lean: float, owner: str) -> Iterator[Item]:
    """One piece of cut wood: heavy where it ends, thin where only the picture does."""
    rings = [list(ring.coords) for ring in (polygon.exterior, *polygon.interiors)]
    on_paper = [[_on_paper(point, centre, scale) for point in ring] for ring in rings]
    if not polygon.interiors:
        yield from hatch([on_paper[0]], STEP, lean=lean, owner=owner)
    for ring, drawn in zip(rings, on_paper, strict=True):
        for (p, q), (start, end) in zip(pairwise(ring), pairwise(drawn), strict=True):
            pen = "break" if _at_border(p, q, plane.reach) else "cut wood"
            yield Stroke(points=(start, end), pen=pen, owner=owner)


def _at_border(p: Sequence[float], q: Sequence[float], reach: tuple[float, float]) -> bool:
    return any(abs(abs(p[i]) - reach[i]) < 1e-6 and abs(p[i] - q[i]) < 1e-6 for i in (0, 1))


def _entering(joint: Joint, parts: Sequence[Part], woods: Sequence[BaseGeometry]) -> str:
    """The board that stands in the other's slot in this section, if there is play between them."""
    walls = [gap for gap in joint.gaps if gap.between == "wall" and gap.size > 0.0]
    if not walls or any(wood.is_empty for wood in woods):
        return ""
    takes = {cut.takes for cut in joint.cuts if cut.size_is == "FIT TO"}
    pieces = {part.id: sum(1 for _ in polygons(wood)) for part, wood in zip(parts, woods, strict=True)}
    able = [name for name in takes if name in pieces]
    return min(able, key=lambda name: (pieces[name], name)) if able else ""


def _on_paper(point: Sequence[float], centre: Vec2, scale: float) -> Vec2:
    return (centre[0] + point[0] * scale, centre[1] - point[1] * scale)


def _letter(desk: Desk, part: Part, wood: BaseGeometry, centre: Vec2, scale: float) -> list[Item]:
    largest = max(polygons(wood), key=lambda polygon: polygon.area, default=None)
    if largest is None:
        return []
    if largest.buffer(-LETTER_ROOM / scale).is_empty:
        return []
    inside = largest.buffer(-LETTER_ROOM / scale).representative_point()
    x, y = _on_paper((inside.x, inside.y), centre, scale)
    return [
        Text(
            at=(x, y + 1.75),
            text=desk.marks[part.id],
            size=3.5,
            weight="bold",
            anchor="middle",
            ground=0.8,
            owner=part.id,
        )
    ]


def _scale(scale: float) -> str:
    return "full size" if scale == 1.0 else f"1:{round(1 / scale)}"


def _caption(place: Vec2, size: tuple[float, float], says: str, thinner: bool) -> list[Item]:
    text = f"{says}; the gap is drawn larger than true" if thinner else says
    y = place[1] + size[1] + 4.4
    items: list[Item] = []
    for line in wrapped(text, size[0] + 8.0, TEXT)[:2]:
        items.append(Text(at=(place[0], y), text=line))
        y += 3.6
    return items


# --- words ---------------------------------------------------------------------------------------


def _order(desk: Desk, joint: Joint) -> list[Run]:
    notes = KINDS[joint.kind].notes(joint)
    return [strong("Order."), *(Run(in_units(note, desk.book.job.units)) for note in notes)]


def _figures(desk: Desk, joint: Joint) -> list[Run]:
    """Play, seats and what each cut is, in figures."""
    cuts = [cut for cut in joint.cuts if cut.figures.across is not None and not cut.end]
    said = dict.fromkeys(f"{desk.marks[cut.body]}: {_cut_words(cut)}." for cut in cuts)
    runs = [strong("Figures."), *map(Run, said)]
    gaps = {(gap.between, gap.size) for gap in joint.gaps}
    told = ", ".join(f"{between} {wide_words(size)}" for between, size in sorted(gaps))
    if told:
        runs.append(Run(f"Gaps when together: {told}."))
    lean = max((abs(cut.figures.lean) for cut in joint.cuts), default=0.0)
    if lean > 0.005:
        runs.append(Run(f"{angle(lean)} on the saw (0 = square), {rise(lean)}."))
    return runs


def _cut_words(cut: Cut) -> str:
    figures = cut.figures
    words = [cut.kind, f"{wide_words(figures.across or 0.0)} across the walls"]
    if figures.on_face is not None and abs(figures.on_face - (figures.across or 0.0)) > 0.005:
        words.append(f"{wide_words(figures.on_face)} on the face")
    if figures.deep is not None:
        words.append(f"{depth(figures.deep)} deep")
    return ", ".join(words)


def _bought(joint: Joint) -> list[Run]:
    items = KINDS[joint.kind].hardware(joint)
    if not items:
        return []
    return [strong("In it."), *(Run(f"{item.count} × {item.name} {item.size}.") for item in items)]
