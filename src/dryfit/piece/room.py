"""Where the room ends: boards that run past a wall beside the piece, through the ceiling, or below the floor.

A board is looked at as it is cut, by the corners of its outline in the elevation. Nothing is said of a side
that the job gives no place for. The floor is y = 0 only for a piece that stands on it: a height counted
from elsewhere is no mistake, so a board below 0 is a note where another that stands at 0 shows that 0 is the floor.
Where the ceiling is given its height is counted from the floor, so a board below that is a stop, as one past the walls.
"""

import math
from collections.abc import Iterable, Iterator, Mapping
from functools import partial

from ..findings import Finding, NotChecked, Severity, declare, owns, question
from ..geometry.frames import Vec, Vec2
from ..job.model import Job, Wall
from ..keeping import Keep, Same
from ..places import Cure, Edit, Where
from ..sentences import Length, Name, On, Sentence, Several, say
from .model import DATUM_END, FAR_END, Board, Part
from .movable import ROUND, asked_to_move, compass, end_in_the_file
from .parts import ends_on_face
from .setout import TOUCHING

ROOM = question("room", "the room that the piece stands in")
PAST_THE_ROOM = declare(
    "past-the-room",
    "A board runs past where the room ends.",
    uncured="no board of these can be moved or shortened by itself",
)
BELOW_THE_FLOOR = declare(
    "below-the-floor",
    "A board reaches below the floor on which the piece stands.",
    uncured="no board of these can be moved or shortened by itself",
)
owns(ROOM, PAST_THE_ROOM, BELOW_THE_FLOOR)

SCRIBED = 2.0  # so much is planed off by eye when a board is scribed to a wall (common practice)
SEEN = 0.05  # less does not show in a figure
EVEN = 1e-6
NO_WALL = ("nothing", "none", "no")  # as the kind of a wall begins where there is none
STEEP = 0.5  # of a board's run, towards what is too near: more, and its end can be taken back; less, and it is its side

_Extent = tuple[float, float, float, float]  # least x, greatest x, least y, greatest y
Corners = tuple[Vec2, ...]


def has_wall(wall: Wall, *, fixed: bool) -> bool:
    """Whether there is a wall behind the piece, as far as the job says: without a word of it a back edge is seen."""
    first = wall.kind.casefold().replace(":", " ").split()
    return fixed or wall.hung or bool(first and first[0] not in NO_WALL)


def room_findings(job: Job, parts: Iterable[Part], keep: Keep) -> Iterator[Finding]:
    """Boards past the room's ends, then those below the floor."""
    extents = [(part, keep.get("extent", Same(part), partial(_extent, part))) for part in parts]
    for part, extent in extents:
        for over, place, called, key in _over(extent, job.wall):
            if over > SEEN:
                yield _past(part, over, place, called, key)
    if not is_floor(job.wall, [low for _, (_, _, low, _) in extents]):
        return
    yield from (_below(part, -low, job.wall) for part, (_, _, low, _) in extents if low < -TOUCHING)


def room_not_given(wall: Wall) -> Iterator[NotChecked]:
    """What the job does not say of the room; of the wall that takes screws, what screws it says."""
    ends = {"the wall on the left": wall.left, "the wall on the right": wall.right, "its ceiling": wall.ceiling}
    unknown = [called for called, place in ends.items() if place is None]
    if len(unknown) == len(ends):
        yield NotChecked(study=ROOM, what="the room", why="its walls and ceiling are not given", whole=True)
    elif unknown:
        yield NotChecked(study=ROOM, what="the room", why=_not_given(unknown))


def _not_given(things: list[str]) -> Sentence:
    return say("{} {} not given", Several(tuple(things), apart=" and "), "is" if len(things) == 1 else "are")


def _extent(part: Part) -> _Extent:
    """How far a part reaches in the elevation."""
    points = outline(part)
    xs, ys = [point[0] for point in points], [point[1] for point in points]
    return min(xs), max(xs), min(ys), max(ys)


def outline(part: Part) -> Corners:
    """The corners of a part in the elevation, as it is cut."""
    board = part.board
    points: list[Vec] = []
    for face in (1, -1):
        ends = ends_on_face(part, face)
        for a in (*ends, *(a for a, _ in board.profile if ends[0] < a < ends[1])):
            c = face * board.thickness_at(a) / 2
            points += [board.frame.place((a, c, d)) for d in (0.0, board.depth)]
    return tuple(dict.fromkeys((x, y) for x, y, _ in points))


def _over(extent: _Extent, wall: Wall) -> Iterator[tuple[float, float, str, str]]:
    """How far it reaches past each end of the room that is known: by how much, of what place, its name, its key."""
    left, right, _, high = extent
    if wall.left is not None:
        yield wall.left - left, wall.left, "the wall on the left", "left"
    if wall.right is not None:
        yield right - wall.right, wall.right, "the wall on the right", "right"
    if wall.ceiling is not None:
        yield high - wall.ceiling, wall.ceiling, "the ceiling", "ceiling"


def _past(part: Part, over: float, place: float, called: str, key: str) -> Finding:
    near = over <= SCRIBED + EVEN
    end_it = say("end it at {}", Length(place, side=On.UP if key == "left" else On.DOWN))
    remedy = say("scribe it to fit, or {}", end_it) if near else say('{}, or correct "{}" under [wall]', end_it, key)
    return Finding(
        code=PAST_THE_ROOM,
        severity=Severity.NOTE if near else Severity.STOP,
        where=Where(boards=(part.id,), path=part.board.path),
        says=say("{} runs {} past {}", Name(part.id), Length(over), called),
        remedy=remedy,
        found=over,
        limit=SCRIBED if near else 0.0,
        unit="mm",
        source="common practice" if near else "geometry",
        cures=tuple(_inside(part.board, over, key)),
    )


_OUT: Mapping[str, Vec2] = {"left": (-1.0, 0.0), "right": (1.0, 0.0), "ceiling": (0.0, 1.0)}


def _inside(board: Board, over: float, key: str) -> Iterator[Cure]:
    """Its end taken back into the room, where it runs that way; or the whole board."""
    by = math.ceil(over / ROUND - EVEN) * ROUND
    x, y = _OUT[key]
    ux, uy, _ = board.frame.x
    along = x * ux + y * uy
    if abs(along) > STEEP:
        end, far = (FAR_END if along > 0 else DATUM_END), by / abs(along)
        label = say("{}: {} shorter", Name(board.name), Length(far))
        point = (end_in_the_file(board, end),)
        yield asked_to_move(label, board.name, (-end * far * ux, -end * far * uy), point)
    label = say("{}: {} {}", Name(board.name), Length(by), compass(-x, -y))
    yield asked_to_move(label, board.name, (-x * by, -y * by))


def is_floor(wall: Wall, lowest: Iterable[float]) -> bool:
    """Whether y = 0 is the floor: a ceiling's height is counted from there, or a board stands on it."""
    return not wall.hung and (wall.ceiling is not None or any(abs(low) <= TOUCHING for low in lowest))


def _below(part: Part, under: float, wall: Wall) -> Finding:
    """A stop where the ceiling is given, whose height is counted from the floor; else 0 may be some other line."""
    sure = wall.ceiling is not None and under > SCRIBED + EVEN
    return Finding(
        code=BELOW_THE_FLOOR,
        severity=Severity.STOP if sure else Severity.NOTE,
        where=Where(boards=(part.id,), path=part.board.path),
        says=say("{} reaches {} below the floor, which is y = 0", Name(part.id), Length(under)),
        remedy="raise it, or write hung = true under [wall] if the piece hangs",
        found=under,
        limit=0.0,
        unit="mm",
        source="geometry",
        cures=(*_raised(part.board, under), HANGS),
    )


HANGS = Cure(label="it hangs", edits=(Edit(action="set", path=("wall", "hung"), value=True),))


def _raised(board: Board, under: float) -> Iterator[Cure]:
    """Its foot taken up to the floor, where it stands; or the whole board."""
    ux, uy, _ = board.frame.x
    if abs(uy) > STEEP:
        end, far = (DATUM_END if uy > 0 else FAR_END), under / abs(uy)
        label = say("{}: {} shorter, down to the floor", Name(board.name), Length(far))
        point = (end_in_the_file(board, end),)
        yield asked_to_move(label, board.name, (-end * far * ux, -end * far * uy), point)
    yield asked_to_move(say("{}: {} up", Name(board.name), Length(under)), board.name, (0.0, under))
