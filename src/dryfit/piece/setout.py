"""Setting out: boards placed in space, each counted from its datum end however its line was drawn.

The datum end is the left end, for boards steeper than 45 the lower one, unless the made file pins it. All
that follows works in the frame that starts there, so a line drawn the other way gives the same board to
the last bit. The face side is the upper face, the left one within 1 degree of plumb, the inside of a
frame, and the front of a board lying flat.
"""

import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from ..geometry.frames import Frame, Vec2, length
from ..job.model import BoardSpec, EndForm, Job, Wall
from ..job.standing import thickness_along
from .model import Board, Profile

STEEP = 1e-9  # of the length: how much steeper than 45 a line must be to count from its lower end
PLUMB = math.sin(math.radians(1.0))  # within 1 degree of plumb the face side is the left face
TOUCHING = 1.0  # an end this near the floor, a wall or the ceiling stands to it
SLANT = math.sin(math.radians(15.0))  # a cut that would slice a board lengthwise is no end
_PLY = re.compile(r"(?<![a-z])ply(wood)?(?![a-z])")  # in what a timber is called


@dataclass(frozen=True, slots=True, kw_only=True)
class Pin:
    """What the made file holds still for one board, once a sheet of it was printed.

    Attributes:
        datum: "start" or "end" of its line as drawn.
        face_side: "left" or "right", looking along its line from start to end, so that no dragging turns it
            round; of a board lying flat "front" or "wall"; "" where it is not pinned.
        mark: its letter.
    """

    datum: str = ""
    face_side: str = ""
    mark: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class AsCut:
    """One cut that is in the wood, as it was measured there; None is what nobody wrote down.

    Attributes:
        board: it is cut in.
        between: names of the joint's two bodies as written; () for an end.
        end: "start" or "end" of the board's line as drawn, for an end; else "".
        name: which one, where the pair has several in the board: how its key begins ("bore 2").
        at: its datum wall on the face side, or on the face it is let into, from the datum end; of a bore its axis.
        across: across the walls; of a bore its diameter.
        deep: from the edge or face that it opens to.
        opens: "front", "wall", "face", "face side", "other face" or "end".
        lean: degrees off square, signed as `model.Figures.lean`.
        stop, stop_wall: wood left at the front and at the wall edge, 0 for none, of what is let into a face.
        takes: thickness of what enters, as it was known then.
        length: of the board over its long points, of an end.
        accept: the maker's word that it may stay as it is.
        place: its file and line.
    """

    board: str
    between: tuple[str, ...] = ()
    end: str = ""
    name: str = ""
    at: float | None = None
    across: float | None = None
    deep: float | None = None
    opens: str = ""
    lean: float | None = None
    stop: float | None = None
    stop_wall: float | None = None
    takes: float | None = None
    length: float | None = None
    accept: bool = False
    place: str = ""

    @property
    def other(self) -> str:
        """The body that it is cut for; "" for an end."""
        return next((name for name in self.between if name != self.board), "")


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """What has been cut, measured and pinned: NAME.made.toml.

    Attributes:
        pins: by board.
        thickness: (distance from the line's start, thickness) by board, as measured.
        fronts: which board's slot opens to the front, by pair in order of names, where a slot is cut.
        cuts: that are in the wood.
        then: thickness of boards as it was known when cuts of theirs, or for them, were first written down.
        trouble: why the file cannot be used, with its place; "" where it can.
        state: first digits of the hash of its text, where something is recorded as cut.
    """

    pins: Mapping[str, Pin]
    thickness: Mapping[str, Profile]
    fronts: Mapping[tuple[str, str], str]
    cuts: tuple[AsCut, ...] = ()
    then: Mapping[str, float] = field(default_factory=dict)
    trouble: str = ""
    state: str = ""

    def of(self, name: str) -> tuple[Pin | None, Profile]:
        """What setting out reads of it for one board."""
        return self.pins.get(name), self.thickness.get(name, ())


NOTHING_MADE = Made(pins={}, thickness={}, fronts={})


def set_out(spec: BoardSpec, job: Job, made: Made = NOTHING_MADE) -> Board:
    """Place one board in space, in the frame that starts at its datum end."""
    pin, timber = made.pins.get(spec.name, Pin()), job.timbers.get(spec.timber)
    start, end = spec.line
    flipped = _counts_from_the_end(start, end, pin)
    if flipped:
        start, end = end, start
    dx, dy = end[0] - start[0], end[1] - start[1]
    size = math.hypot(dx, dy)
    u = (dx / size + 0.0, dy / size + 0.0)
    profile = _profile(spec, job, made, size, flipped)
    # what a line along a face stands off the centre of a tapering board
    thickness = thickness_along(profile, size / 2) if spec.midway is None else spec.midway
    side = {"centre": 0, "left face": 1, "right face": -1}[spec.line_is] * (-1 if flipped else 1)
    drawn, line_c = start, side * (spec.depth if spec.lies == "flat" else thickness) / 2
    start = (drawn[0] + u[1] * line_c, drawn[1] - u[0] * line_c)
    frame = _flat(start, u, spec, thickness) if spec.lies == "flat" else _across(start, u, spec)
    ends = tuple(
        asked if asked and not slices(asked, u) else _stands_to(point, u, spec, job.wall)
        for asked, point in zip(_swap(spec.ends, flipped), _ends(drawn, u, size), strict=True)
    )
    inside = spec.inside * (-1 if flipped else 1)
    return Board(
        name=spec.name,
        timber=spec.timber,
        frame=frame,
        length=size,
        line_c=0.0 if spec.lies == "flat" else line_c,
        depth=spec.depth,
        profile=profile,
        lies=spec.lies,
        face_side=_face_side(u, spec, inside, pin, flipped=flipped),
        flipped=flipped,
        ends=(ends[0], ends[1]),
        scribe=_swap(spec.scribe, flipped),
        inside=inside,
        frame_name=spec.frame,
        planing=0.0 if timber is None else timber.planing,
        species="" if timber is None else timber.species,
        cross_plies=timber is not None and _PLY.search(f"{timber.species} {timber.form}".casefold()) is not None,
        path=spec.path,
        index=spec.index,
    )


def _counts_from_the_end(start: Vec2, end: Vec2, pin: Pin) -> bool:
    if pin.datum:
        return pin.datum == "end"
    dx, dy = end[0] - start[0], end[1] - start[1]
    steep = abs(dy) - abs(dx) > STEEP * math.hypot(dx, dy)
    return dy < 0 if steep else dx < 0


def _profile(spec: BoardSpec, job: Job, made: Made, size: float, flipped: bool) -> Profile:
    """Thickness along the board as put together; one thickness wins: made, thickness_at, measured, thickness."""
    timber = job.timbers.get(spec.timber)
    ordered = 0.0 if timber is None else (timber.thickness if timber.measured is None else timber.measured)
    places = made.thickness.get(spec.name) or spec.thickness_at or ((0.0, ordered),)
    loss = 2 * job.finish.sanded
    if flipped:
        places = tuple((size - a, thickness) for a, thickness in reversed(places))
    if len({thickness for _, thickness in places}) == 1:
        return ((0.0, places[0][1] - loss),)
    # Rounded, so that a line drawn the other way, whose places are its length less these, gives the same.
    return tuple((length(a), thickness - loss) for a, thickness in places)


def _across(start: Vec2, u: Vec2, spec: BoardSpec) -> Frame:
    return Frame((start[0], start[1], spec.back), (u[0], u[1], 0.0), (-u[1] + 0.0, u[0], 0.0), (0.0, 0.0, 1.0))


def _flat(start: Vec2, u: Vec2, spec: BoardSpec, thickness: float) -> Frame:
    """Lying flat: d runs across it on the wall to the left of its line, +c points to the wall."""
    n = (-u[1] + 0.0, u[0])
    low = (start[0] - n[0] * spec.depth / 2, start[1] - n[1] * spec.depth / 2)
    return Frame((low[0], low[1], spec.back + thickness / 2), (u[0], u[1], 0.0), (0.0, 0.0, -1.0), (n[0], n[1], 0.0))


def _ends(start: Vec2, u: Vec2, size: float) -> tuple[Vec2, Vec2]:
    return start, (start[0] + u[0] * size, start[1] + u[1] * size)


def _swap(pair: tuple, flipped: bool) -> tuple:  # type: ignore[type-arg]
    return (pair[1], pair[0]) if flipped else (pair[0], pair[1])


def _stands_to(point: Vec2, u: Vec2, spec: BoardSpec, wall: Wall) -> EndForm:
    """The form of a free end: as the floor, ceiling or wall it stands to, else square."""
    if spec.lies == "flat":
        return "square"
    level = [y for y in (None if wall.hung else 0.0, wall.ceiling) if y is not None]
    plumb = [x for x in (wall.left, wall.right) if x is not None]
    if not slices("level", u) and any(abs(point[1] - y) <= TOUCHING for y in level):
        return "level"
    if not slices("plumb", u) and any(abs(point[0] - x) <= TOUCHING for x in plumb):
        return "plumb"
    return "square"


def slices(form: EndForm, u: Sequence[float]) -> bool:
    """Whether an end of this form would run along a board in direction `u` rather than across it."""
    return (form == "level" and abs(u[1]) <= SLANT) or (form == "plumb" and abs(u[0]) <= SLANT)


def _face_side(u: Vec2, spec: BoardSpec, inside: int, pin: Pin, *, flipped: bool) -> int:
    if spec.lies == "flat":
        return 1 if pin.face_side == "wall" else -1
    if pin.face_side in ("left", "right"):
        return 1 if (pin.face_side == "left") != flipped else -1
    if inside:
        return inside
    if abs(u[0]) <= PLUMB:
        return 1 if u[1] > 0 else -1
    return 1 if u[0] > 0 else -1
