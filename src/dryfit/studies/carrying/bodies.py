"""Each body worked out: its boxes, who lifts it, and how it goes through what is on its way."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from ...geometry.frames import Vec
from ...trade.lifting import TRESTLES, Lift, lift, lower_share, reckon, up_a_flight
from .boxes import Around, around
from .outline import outline_way, to_stand_up_by
from .passing import NEAR, first_way, most
from .result import HANDS, Body, Box, Passage, Passed, PassingWay, People, Room
from .value import BodyValue, CarryingValue

ON_FLOOR = 1.0  # a body that begins no higher stands on the floor


@dataclass(frozen=True, slots=True, kw_only=True)
class CarriedParts:
    """What is asked of the value for each body, by board."""

    value: CarryingValue
    corners: Mapping[str, tuple[Vec, ...]]
    mass_kg: Mapping[str, float]

    def around(self, boards: Iterable[str]) -> Around:
        """The boxes round some boards."""
        return around([corner for name in boards for corner in self.corners[name]])


def ground_of(value: CarryingValue) -> CarriedParts:
    """The same by board."""
    return CarriedParts(value=value, corners=dict(value.corners), mass_kg=dict(value.mass_kg))


def body(own: BodyValue, ground: CarriedParts) -> Body:
    """One body."""
    value, box = ground.value, ground.around(own.boards)
    mass = own.weighed_kg
    if mass is None and all(name in ground.mass_kg for name in own.boards):
        mass = sum(ground.mass_kg[name] for name in own.boards)
    corners = [corner for name in own.boards for corner in ground.corners[name]]
    upright = round(to_stand_up_by(corners), 3)
    long, _, thick = box.boxes[0]
    flights = [passage.pitch for passage in value.way if passage.kind == "stair"]
    lower = lower_share(long, thick / 2, max(flights)) if flights else None
    weighed, tipped = own.weighed_kg is not None, not value.hung and box.low[1] <= ON_FLOOR
    carried = placed = stairs = None
    if mass is not None:
        carried = _people(lift(mass, long, [(TRESTLES, TRESTLES)], reach=thick, weighed=weighed))
        placed = _people(_placed(mass, box, weighed=weighed, tipped=tipped))
    if mass is not None and lower is not None:
        stairs = _people(up_a_flight(mass, long, lower, weighed=weighed))
    return Body(
        name=own.name,
        boards=own.boards,
        boxes=box.boxes,
        mass_kg=mass,
        reckoned_kg=None if mass is None else reckon(mass, weighed=weighed),
        weighed=weighed,
        carried=carried,
        placed=placed,
        tipped=tipped,
        stairs=stairs,
        lower=lower,
        upright=upright,
        upright_room=_over(upright, value.ceiling),
        ways=tuple(passed(box.boxes, passage, at, box) for at, passage in enumerate(value.way)),
    )


def passed(boxes: Sequence[Box], passage: Passage, at: int = 0, shape: Around | None = None) -> Passed:
    """How what has these boxes goes through: best all inside a van, and best with room for hands.

    The box is the quick check, and enough; where it finds no room, or none for hands, the outline is tried.
    """
    found = list(_ways(boxes, passage))
    clear = any(room == "clear" and way.behind <= NEAR for room, _, way in found)
    if shape is not None and shape.hull and not clear:
        inside = any(way.behind <= NEAR for _, _, way in found)
        rooms: tuple[tuple[Room, bool], ...] = (("clear", True), ("tight", False))
        for room, hands in rooms if not inside else rooms[:1]:
            own = outline_way(shape.hull, shape.high[2] - shape.low[2], passage, hands=hands)
            if own is not None:
                return Passed(at=at, room=room, box=boxes[0], way=own, outline=True)
    if not found:
        return Passed(at=at, room="none", box=boxes[0], way=None, over=most(boxes[0], passage))
    room, box, way = min(found, key=lambda one: (one[2].behind > NEAR, one[0] == "tight", one[2].behind))
    return Passed(at=at, room=room, box=box, way=way)


def _ways(boxes: Sequence[Box], passage: Passage) -> Iterator[tuple[Room, Box, PassingWay]]:
    rooms: tuple[tuple[Room, bool], ...] = (("clear", True), ("tight", False))
    for box in boxes:
        for room, hands in rooms:
            way = first_way(box, passage, hands=hands)
            if way is not None:
                yield room, box, way


def goes(boxes: Sequence[Box], way: Iterable[Passage]) -> bool:
    """Whether it passes all of it."""
    return all(any(True for _ in _ways(boxes, passage)) for passage in way)


def _over(wants: float, ceiling: float | None) -> Room | None:
    if ceiling is None:
        return None
    return "clear" if wants <= ceiling - HANDS + NEAR else "tight" if wants <= ceiling + NEAR else "none"


def _placed(mass: float, box: Around, *, weighed: bool, tipped: bool) -> Lift:
    """Lifted into its place: from trestles to where it is best held there; what stands is tipped up about its foot.

    Of that half the mass is in the hands, held by the edges that face up.
    """
    (x0, y0, z0), (x1, y1, z1) = box.low, box.high
    if tipped:
        return lift(mass / 2, x1 - x0, [(0.0, z1 - z0)], weighed=weighed)
    hands = [(TRESTLES, TRESTLES), (max(y0, 0.0), max(y1, 0.0))]
    return lift(mass, max(x1 - x0, y1 - y0), hands, reach=z1 - z0, weighed=weighed)


def _people(found: Lift) -> People:
    return People(count=found.people, may_kg=found.may, better_less=found.better_less)
