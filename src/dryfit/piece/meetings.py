"""Where boards meet: found by touch, near-linear in their number, at any angle, thickness, depth, set-back.

Two boards meet where their elevations touch (within 1) and their bodies share some depth. What touches on
either side (through, end, edge, face) says what the meeting is; the words of the elevation are the common
combinations.
"""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache, partial

from ..findings import Finding, Severity, declare, owns
from ..geometry.frames import Frame, Vec2, length, turned
from ..geometry.nearness import StraightStrip, near_pairs
from ..job.names import fixing_of
from ..keeping import Keep, Same
from ..places import Cure, Pair, Where
from ..sentences import Length, Name, On, Value, say
from .model import DATUM_END, FAR_END, Board, Form, Meeting, Side, Touch
from .movable import asked_to_move, end_in_the_file

TOUCHING = 1.0  # elevations that come this near touch; lines that run on by no more stop there
NEARLY = 5.0  # up to here past or short of another's face, the maker probably meant to stop at it
SHARED = 1e-6  # least common depth
PARALLEL = 0.05  # degrees: no angle is worked finer
SPLICE = 200.0  # of a splice, to either side of where two boards in line meet: few reach further
ANGLE_DIGITS = 9  # so that square is square

NEARLY_REACHES = declare(
    "nearly-reaches",
    "A board stops a little short of another it was meant to reach.",
    uncured="the board cannot be lengthened by itself",
)
RUNS_PAST = declare(
    "runs-past",
    "A board runs a little past another's face: it was probably meant to stop there.",
    uncured="the board cannot be shortened by itself",
)
owns("joints", NEARLY_REACHES, RUNS_PAST)


@dataclass(frozen=True, slots=True, kw_only=True)
class Met:
    """All meetings of a piece, in the order of their keys, and what was found while looking."""

    meetings: tuple[Meeting, ...]
    findings: tuple[Finding, ...]


@lru_cache(maxsize=8192)
def name_order(name: str) -> tuple[tuple[int, int, str], ...]:
    """A sorting key in which "raking 2" comes before "raking 10"."""
    pieces: list[tuple[int, int, str]] = []
    for word in name.split():
        number = int(word) if word.isascii() and word.isdigit() and len(word) < 10 else 0
        pieces.append((0, number, word) if number else (1, 0, word))
    return tuple(pieces)


def pair_key(one: str, other: str) -> Pair:
    """The identity of a joint: both names in their order, whoever came first in the file."""
    return (one, other) if name_order(one) <= name_order(other) else (other, one)


def fixing_called(meeting: Meeting) -> Value:
    """A fixing in a sentence: by the maker's name for it, else by its board's, whatever that is called there."""
    name, board = meeting.key[0], meeting.a.body
    return say("fixing of {}", Name(board)) if name == fixing_of(board) else Name(name)


def find_meetings(boards: Sequence[Board], keep: Keep) -> Met:
    """Find every meeting between the boards."""
    strips = [_strip(board) for board in boards]
    meetings: list[Meeting] = []
    findings: list[Finding] = []
    for i, j in near_pairs(strips, NEARLY):
        first, second = boards[i], boards[j]
        if min(first.front, second.front) - max(first.back, second.back) < -TOUCHING:
            continue
        # in the order of names, so that a moved table of the file does not change the last bit
        swapped = pair_key(first.name, second.name)[0] != first.name
        if swapped:
            first, second = second, first
        met = keep.get("meeting", (Same(first), Same(second), swapped), partial(_meet, first, second, swapped))
        if isinstance(met, Meeting):
            meetings.append(met)
        elif met is not None:
            findings.append(met)
    meetings = _without_kept_apart(meetings)
    meetings.sort(key=lambda meeting: (name_order(meeting.key[0]), name_order(meeting.key[1])))
    return Met(meetings=tuple(_with_opposed(meetings, keep)), findings=tuple(findings))


def _without_kept_apart(meetings: list[Meeting]) -> list[Meeting]:
    """Leave out ends that meet each other only through a third board on which both stand.

    A board whose line passes through is not divided: each end stands on the face that it sees.
    """
    stands_on: dict[tuple[str, int], set[str]] = {}
    for meeting in meetings:
        if meeting.form == "end on face":
            stands_on.setdefault((meeting.a.body, meeting.a.end), set()).add(meeting.b.body)
    return [
        meeting
        for meeting in meetings
        if not (meeting.a.end and meeting.b.end)
        or not stands_on.get((meeting.a.body, meeting.a.end), set())
        & stands_on.get((meeting.b.body, meeting.b.end), set())
    ]


def _strip(board: Board) -> StraightStrip:
    origin, x = board.frame.origin, board.frame.x
    if board.lies == "flat":
        n = board.frame.z
        middle = (origin[0] + n[0] * board.depth / 2, origin[1] + n[1] * board.depth / 2)
        return StraightStrip(middle, (x[0], x[1]), board.length, board.depth / 2)
    return StraightStrip((origin[0], origin[1]), (x[0], x[1]), board.length, board.thickest / 2)


def _meet(first: Board, second: Board, swapped: bool) -> Meeting | Finding | None:
    """How two boards meet, given in the order of their names; `swapped` where the file has them the other way."""
    if first.lies == "flat" or second.lies == "flat":
        return _meet_flat(first, second)
    if min(first.front, second.front) - max(first.back, second.back) <= SHARED:
        return None
    u, v = first.frame.x, second.frame.x
    turn = round(math.degrees(math.atan2(u[0] * v[1] - u[1] * v[0], u[0] * v[0] + u[1] * v[1])), ANGLE_DIGITS)
    if min(abs(turn), 180.0 - abs(turn)) < PARALLEL:
        return _meet_parallel(first, second, turn)
    return _Crossing(first, second, turn, swapped).meeting()


@dataclass(frozen=True, slots=True)
class _Reach:
    """How one board lies to another's centre-line: what its ends reach, square to that line."""

    at: float  # along this board, where the centre-lines meet
    datum: float  # reach of the datum end, to its side; negative when it does not get there
    far: float
    half: float  # half the other's thickness there

    @property
    def through(self) -> bool:
        return self.datum > self.half + TOUCHING and self.far > self.half + TOUCHING

    @property
    def end(self) -> int:
        """The end that lies within the other's thickness, 0 for none."""
        if -self.half - TOUCHING <= self.datum <= self.half + TOUCHING < self.far:
            return DATUM_END
        if -self.half - TOUCHING <= self.far <= self.half + TOUCHING < self.datum:
            return FAR_END
        return 0

    @property
    def past(self) -> float:
        """By how much the shorter end runs on past the other's far face."""
        return min(self.datum, self.far) - self.half

    @property
    def short(self) -> float:
        """By how much the nearer end stays short of the other's near face."""
        return -min(self.datum, self.far) - self.half


class _Crossing:
    """Two boards at an angle, seen in the elevation."""

    def __init__(self, first: Board, second: Board, turn: float, swapped: bool) -> None:
        self.first, self.second, self.turn, self.swapped = first, second, turn, swapped
        (px, py, _), (ux, uy, _) = first.frame.origin, first.frame.x
        (qx, qy, _), (vx, vy, _) = second.frame.origin, second.frame.x
        cross = ux * vy - uy * vx
        a = ((qx - px) * vy - (qy - py) * vx) / cross
        b = ((qx - px) * uy - (qy - py) * ux) / cross
        self.point: Vec2 = (px + a * ux, py + a * uy)
        sine = abs(cross)
        self.of_first = _Reach(a, a * sine, (first.length - a) * sine, second.thickness_at(b) / 2)
        self.of_second = _Reach(b, b * sine, (second.length - b) * sine, first.thickness_at(a) / 2)

    def meeting(self) -> Meeting | Finding | None:
        one, other = self.of_first, self.of_second
        ends = self._together()
        if ends is not None:
            return self._made("corner", Touch.END, Touch.END, swap=self.swapped, ends=ends)
        if one.through and other.through:
            return self._made("crossing", Touch.THROUGH, Touch.THROUGH, swap=False)
        if one.end and other.through:
            return self._made("end on face", Touch.END, Touch.FACE, swap=False)
        if other.end and one.through:
            return self._made("end on face", Touch.END, Touch.FACE, swap=True)
        if one.end and other.end:
            return self._deeper_ends()
        return self._short()

    def _together(self) -> tuple[int, int] | None:
        """The ends at which the lines as drawn come within 1 of each other, however blunt or sharp the corner."""
        points = [(end, _end_point(self.first, end)) for end in (DATUM_END, FAR_END)]
        others = [(end, _end_point(self.second, end)) for end in (DATUM_END, FAR_END)]
        apart = [(math.dist(p, q), end, other_end) for end, p in points for other_end, q in others]
        nearest, end, other_end = min(apart)
        if nearest > TOUCHING:
            return None
        if (self.of_first.end, self.of_second.end) == (end, other_end):
            return end, other_end
        # as good as straight, or folded back: where the centre-lines cross says little unless it is here
        beside = (self.of_first.at - _place(self.first, end), self.of_second.at - _place(self.second, other_end))
        return (end, other_end) if max(map(abs, beside)) <= TOUCHING else None

    def _deeper_ends(self) -> Meeting:
        """Of two ends in each other's thickness that make no corner, the deeper one stops on the other board."""
        one, other = self.of_first, self.of_second
        depths = [_depth_of_end(one), _depth_of_end(other)]
        steeper = abs(self.first.frame.x[1]) - abs(self.second.frame.x[1]) > SHARED
        first_ends = depths[0] > depths[1] if abs(depths[0] - depths[1]) > SHARED else steeper
        return self._made("end on face", Touch.END, Touch.FACE, swap=not first_ends)

    def _made(
        self, form: Form, a_touch: Touch, b_touch: Touch, swap: bool, ends: tuple[int, int] | None = None
    ) -> Meeting:
        boards = (self.first, self.second)
        reaches = (self.of_first, self.of_second)
        turns = (self.turn, -self.turn)
        ends = ends or (reaches[0].end, reaches[1].end)
        ia, ib = (1, 0) if swap else (0, 1)
        a, b = (
            _side(boards[i], touch, reaches[i], turns[i], (ends[i], ends[1 - i]))
            for i, touch in ((ia, a_touch), (ib, b_touch))
        )
        x = boards[ib].frame.x
        low, high = max(a.back, b.back), min(a.front, b.front)
        frame = Frame((self.point[0], self.point[1], (low + high) / 2), x, (-x[1] + 0.0, x[0], 0.0), (0.0, 0.0, 1.0))
        angle = min(abs(self.turn), round(180.0 - abs(self.turn), ANGLE_DIGITS))
        return Meeting(key=pair_key(a.body, b.body), form=form, a=a, b=b, angle=angle, frame=frame)

    def _short(self) -> Finding | None:
        """A board that stops short of another's face by 1 to 5 was probably meant to reach it."""
        for board, reach, onto, on in (
            (self.first, self.of_first, self.second, self.of_second),
            (self.second, self.of_second, self.first, self.of_first),
        ):
            if TOUCHING < reach.short <= NEARLY and min(on.datum, on.far) > -on.half:
                far = reach.short / math.sin(math.radians(abs(self.turn)))
                end = DATUM_END if reach.datum < reach.far else FAR_END
                ux, uy, _ = board.frame.x
                return Finding(
                    code=NEARLY_REACHES,
                    severity=Severity.WARN,
                    where=Where(boards=(board.name, onto.name), path=board.path),
                    says=say("{} stops {} short of {}", Name(board.name), Length(reach.short), Name(onto.name)),
                    remedy=say(
                        "lengthen {} by {} if it is meant to reach {}",
                        Name(board.name),
                        Length(far, side=On.UP),
                        Name(onto.name),
                    ),
                    found=reach.short,
                    limit=TOUCHING,
                    unit="mm",
                    source="common practice",
                    cures=(
                        asked_to_move(
                            say("{}: {} longer, up to {}", Name(board.name), Length(far), Name(onto.name)),
                            board.name,
                            (end * far * ux, end * far * uy),
                            (end_in_the_file(board, end),),
                        ),
                    ),
                )
        return None


def _place(board: Board, end: int) -> float:
    """Where an end lies along its board."""
    return 0.0 if end == DATUM_END else board.length


def _end_point(board: Board, end: int) -> Vec2:
    """Where the line as drawn ends."""
    point = board.frame.place((_place(board, end), board.line_c, 0.0))
    return (point[0], point[1])


def _depth_of_end(reach: _Reach) -> float:
    """How far the end has come into the other's thickness."""
    return reach.half + (reach.datum if reach.end == DATUM_END else reach.far)


def _side(board: Board, touch: Touch, reach: _Reach, turn: float, ends: tuple[int, int]) -> Side:
    """One side, `ends` its own and the other's; a touched face is the one on which the other, before its end, lies."""
    own_end, others_end = ends
    end = own_end if touch is Touch.END else 0
    face = 0
    if touch is Touch.FACE:
        into = 1.0 if others_end == FAR_END else -1.0
        face = -1 if into * math.sin(math.radians(turn)) > 0 else 1
    return Side(
        body=board.name,
        touch=touch,
        at=reach.at,
        turn=turn,
        end=end,
        face=face,
        thickness=board.thickness_at(reach.at),
        thickest=board.thickest,
        back=board.back,
        front=board.front,
        before=reach.at,
        after=board.length - reach.at,
        species=board.species,
        path=board.path,
    )


def runs_past(meeting: Meeting, boards: Mapping[str, Board]) -> Finding | None:
    """A board that runs 1 to 5 past another's far face was probably meant to stop at it."""
    if meeting.form != "crossing":
        return None
    sine = math.sin(math.radians(meeting.angle))
    for side, other in ((meeting.a, meeting.b), (meeting.b, meeting.a)):
        past = min(side.before, side.after) * sine - other.thickness / 2
        if TOUCHING < past <= NEARLY:
            return Finding(
                code=RUNS_PAST,
                severity=Severity.WARN,
                where=Where(boards=(side.body, other.body), joint=meeting.key, path=side.path),
                says=say("{} runs {} past {}", Name(side.body), Length(past), Name(other.body)),
                remedy=say(
                    "end {} at {} if it is meant to stop there, or let it run on further",
                    Name(side.body),
                    Name(other.body),
                ),
                found=past,
                limit=NEARLY,
                unit="mm",
                source="common practice",
                cures=tuple(_ended(boards[side.body], side, other, past / sine, sine)),
            )
    return None


def _ended(board: Board, side: Side, other: Side, past: float, sine: float) -> Iterator[Cure]:
    """The end that runs past taken back: flush with the far face, or standing on the near one."""
    end = DATUM_END if side.before < side.after else FAR_END
    ux, uy, _ = board.frame.x
    point = (end_in_the_file(board, end),)
    onto = past + other.thickness / sine
    flush = say("{}: {} shorter, flush with {}", Name(board.name), Length(past), Name(other.body))
    stands = say("{}: {} shorter, up to {}", Name(board.name), Length(onto), Name(other.body))
    for far, label in ((past, flush), (onto, stands)):
        yield asked_to_move(label, board.name, (-end * far * ux, -end * far * uy), point)


def _meet_parallel(first: Board, second: Board, turn: float) -> Meeting | None:
    """Boards in one direction: in line end to end, face on face, or one in the other."""
    origin = first.frame.find(second.frame.origin)
    way = 1.0 if abs(turn) < 90.0 else -1.0
    low, high = sorted((origin[0], origin[0] + way * second.length))
    shared = min(high, first.length) - max(low, 0.0)
    half = (first.thickness_at(max(low, 0.0)) + second.thickness_at(0.0)) / 2
    beside = abs(origin[1])
    if abs(shared) <= TOUCHING and beside <= TOUCHING:
        meeting = _parallel(first, second, turn, "in line", Touch.END, max(low, 0.0), low)
        return replace(meeting, askew=_askew(first, second, meeting))
    if shared <= TOUCHING or beside > half + TOUCHING:
        return None
    form: Form = "touching" if beside >= half - TOUCHING else "overlap"
    middle = (max(low, 0.0) + min(high, first.length)) / 2
    return _parallel(first, second, turn, form, Touch.FACE, middle, low)


def _askew(first: Board, second: Board, meeting: Meeting) -> float:
    """How far the second's middle runs off the first's line, at the joint and so far on as a splice may reach."""
    at = meeting.side(second.name).at
    near = (first.frame.find(second.frame.place((at + on, 0.0, 0.0)))[1] for on in (-SPLICE, SPLICE))
    return length(max(map(abs, near)))


def _parallel(first: Board, second: Board, turn: float, form: Form, touch: Touch, at: float, low: float) -> Meeting:
    way = 1.0 if abs(turn) < 90.0 else -1.0
    on_second = second.frame.find(first.frame.place((at, 0.0, 0.0)))[0]
    ends = (FAR_END if at > first.length / 2 else DATUM_END, FAR_END if on_second > second.length / 2 else DATUM_END)
    sides = []
    for board, place, end, face in (
        (first, at, ends[0], 1 if first.frame.find(second.frame.origin)[1] > 0 else -1),
        (second, on_second, ends[1], 1 if second.frame.find(first.frame.origin)[1] > 0 else -1),
    ):
        is_end = touch is Touch.END
        reach = _Reach(place, 0.0, 0.0, 0.0)
        side = _side(board, Touch.THROUGH, reach, 0.0 if way > 0 else 180.0, (0, 0))
        sides.append(replace(side, touch=touch, end=end if is_end else 0, face=0 if is_end else face))
    return _plain_meeting(form, sides[0], sides[1], 0.0, first)


def _plain_meeting(form: Form, a: Side, b: Side, angle: float, board: Board) -> Meeting:
    """A meeting at which nothing is cut, or nothing can be: framed along one of its boards."""
    point = board.frame.place((a.at if board.name == a.body else b.at, 0.0, 0.0))
    low, high = max(a.back, b.back), min(a.front, b.front)
    x = board.frame.x
    frame = Frame((point[0], point[1], (low + high) / 2), x, (-x[1] + 0.0, x[0], 0.0), (0.0, 0.0, 1.0))
    return Meeting(key=pair_key(a.body, b.body), form=form, a=a, b=b, angle=angle, frame=frame)


def _meet_flat(first: Board, second: Board) -> Meeting | None:
    """A board lying flat and another: laid on, beside, crossed, or in each other's way."""
    beside = separation(_strip(first), _strip(second))
    apart = max(first.back, second.back) - min(first.front, second.front)
    if beside > TOUCHING or apart > TOUCHING or (beside > -SHARED and apart > -SHARED):
        return None
    flat, other = (first, second) if first.lies == "flat" else (second, first)
    u, v = other.frame.x, flat.frame.x
    turn = round(math.degrees(math.atan2(u[0] * v[1] - u[1] * v[0], u[0] * v[0] + u[1] * v[1])), ANGLE_DIGITS)
    form: Form = "touching"
    if beside < -TOUCHING and apart < -SHARED:
        form = "crossed flat" if other.lies == "across" and _runs_across(other, flat, turn) else "overlap"
    return _flat_meeting(form, other, flat, turn)


def _flat_meeting(form: Form, other: Board, flat: Board, turn: float) -> Meeting:
    middle = _strip(flat)
    point = (middle.start[0] + middle.u[0] * flat.length / 2, middle.start[1] + middle.u[1] * flat.length / 2, 0.0)
    sine = math.sin(math.radians(turn))
    if abs(sine) > math.sin(math.radians(PARALLEL)):
        ox, oy = other.frame.origin[0] - middle.start[0], other.frame.origin[1] - middle.start[1]
        along = (oy * middle.u[0] - ox * middle.u[1]) / sine  # along the other board to the flat one's middle line
        at_other = min(max(along, 0.0), other.length)
    else:
        at_other = min(max(other.frame.find(point)[0], 0.0), other.length)
    on_flat = flat.frame.find(other.frame.place((at_other, 0.0, 0.0)))[0]
    touch = Touch.EDGE if other.lies == "across" else Touch.FACE
    a = replace(_side(other, Touch.THROUGH, _Reach(at_other, 0.0, 0.0, 0.0), turn, (0, 0)), touch=touch)
    b = replace(_side(flat, Touch.THROUGH, _Reach(on_flat, 0.0, 0.0, 0.0), -turn, (0, 0)), touch=Touch.FACE, face=-1)
    angle = min(abs(turn), 180.0 - abs(turn))
    return replace(_plain_meeting(form, a, b, angle, other), wide=flat.depth if form == "crossed flat" else 0.0)


def _runs_across(other: Board, flat: Board, turn: float) -> bool:
    """Whether the board passes the flat one on both sides."""
    sine = abs(math.sin(math.radians(turn)))
    if sine < math.sin(math.radians(15.0)):
        return False
    depths = [
        flat.frame.find(other.frame.place((a, 0.0, 0.0)))[2] for a in (0.0, other.length)
    ]  # across the flat board, 0 to its depth
    return min(depths) < -TOUCHING and max(depths) > flat.depth + TOUCHING


def separation(one: StraightStrip, other: StraightStrip) -> float:
    """How far two strips lie apart in the elevation; negative when they overlap, by how much."""
    return max(_gap_along(axis, one, other) for axis in (one.u, _left(one.u), other.u, _left(other.u)))


def _left(u: Vec2) -> Vec2:
    return (-u[1], u[0])


def _gap_along(axis: Vec2, one: StraightStrip, other: StraightStrip) -> float:
    (low, high), (start, end) = _extent(axis, one), _extent(axis, other)
    return max(low - end, start - high)


def _extent(axis: Vec2, strip: StraightStrip) -> tuple[float, float]:
    start = strip.start[0] * axis[0] + strip.start[1] * axis[1]
    along = strip.length * (strip.u[0] * axis[0] + strip.u[1] * axis[1])
    across = strip.half * abs(-strip.u[1] * axis[0] + strip.u[0] * axis[1])
    return min(start, start + along) - across, max(start, start + along) + across


def _with_opposed(meetings: list[Meeting], keep: Keep) -> list[Meeting]:
    """Mark ends that stand on both faces of a board at the same place and share some of its depth."""
    places: dict[str, list[tuple[float, float, int]]] = {}
    for index, meeting in enumerate(meetings):
        if meeting.form == "end on face":
            places.setdefault(meeting.b.body, []).append((*_let_in(meeting), index))
    opposed: dict[int, list[int]] = {}
    for spans in places.values():
        spans.sort()
        reaching: list[tuple[float, int]] = []  # ends begun before this one that still reach it
        for low, high, index in spans:
            reaching = [(end, other) for end, other in reaching if end > low]
            for _, other in reaching:
                if _face_each_other(meetings[index], meetings[other]):
                    opposed.setdefault(index, []).append(other)
                    opposed.setdefault(other, []).append(index)
            reaching.append((high, index))
    return [
        _opposed(meeting, [meetings[other].a for other in opposed[index]], keep) if index in opposed else meeting
        for index, meeting in enumerate(meetings)
    ]


def _let_in(meeting: Meeting) -> tuple[float, float]:
    """Where an end lies along the board it stands on, anywhere from its face to its centre-line."""
    side = meeting.b
    half = meeting.a.thickness / 2 / math.sin(math.radians(meeting.angle))
    x, y = turned(side.turn)
    on_face = side.at + side.face * side.thickness / 2 * x / y
    return min(side.at, on_face) - half, max(side.at, on_face) + half


def _face_each_other(one: Meeting, other: Meeting) -> bool:
    if one.b.face == other.b.face:
        return False
    return min(one.a.front, other.a.front) - max(one.a.back, other.a.back) > SHARED


def _opposed(meeting: Meeting, others: Sequence[Side], keep: Keep) -> Meeting:
    facing = min(other.back for other in others), max(other.front for other in others)

    def marked() -> Meeting:
        return replace(meeting, b=replace(meeting.b, opposed=True, facing=facing))

    return keep.get("opposed", (Same(meeting), facing), marked)
