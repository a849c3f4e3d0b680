"""Checks of the set-out that need no solids: short grain, thin webs, what a smaller row left dangling.

They read cuts, never kinds of joint: a cut that goes through the whole thickness weakens what is left
beyond it, one that does not is a housing.
"""

import math
from bisect import insort
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import TypeAlias, TypeGuard

from ..findings import Finding, NotChecked, Severity, declare, owns, question
from ..geometry.frames import WORLD
from ..geometry.polygons import level_crossings
from ..geometry.shapes import Bore, Prism, Shape, corners
from ..geometry.solids import flattened
from ..job.model import Job
from ..places import Cure, Edit, Pair, Where
from ..sentences import Fineness, Length, Name, On, Sentence, Several, Value, Words, few, plural, say
from .facts import CutForm, Opens
from .model import DATUM_END, FAR_END, WALL, Board, Cut, Part
from .movable import ROUND, asked_to_move, compass, end_in_the_file
from .parts import called, ends_on_face
from .setout import slices

WOOD = question("wood", "wood left beside cuts and bores")
NAMES = question("names", "what the job file names")
SHORT_GRAIN = declare(
    "short-grain",
    "A cut lies too near an end or another cut: the wood left between breaks out.",
    uncured="no board of these can be moved or lengthened by itself",
)
THIN_WEB = declare(
    "thin-web",
    "A housing, or two opposite each other, leave too little of the board behind them.",
    uncured="how deep it is let in, or how thick the board is, is a choice of design",
)
DANGLING = declare(
    "no-such-board",
    "The job file names a board that is not there.",
    uncured="no board has a name near to it",
)
END_SLICES = declare(
    "end-slices",
    "An end is asked for that would run along the board, not across it.",
    uncured="how the end is to run is a choice of design",
)
NOTHING_LEFT = declare(
    "nothing-left",
    "The cuts of a board leave nothing of it.",
    uncured="how long the board is to be, or how its ends run, is a choice of design",
)
owns(WOOD, SHORT_GRAIN, THIN_WEB, NOTHING_LEFT)
owns(NAMES, DANGLING, END_SLICES)

WARN_BELOW = 50.0
WEB_WARN, WEB_STOP, LEAST_WEB = 1 / 4, 1 / 6, 4.0  # shares of the board, and mm, left behind (common practice)
MOST_NAMES = 12  # of boards, told where a name is not there
SLACK = 1e-6

_Span: TypeAlias = tuple[float, float]
_Profile: TypeAlias = tuple[list[tuple[float, float]], float]


@dataclass(frozen=True, slots=True)
class _Open:
    """A cut, and where it opens: worked out once, and compared with many.

    Attributes:
        profiles: its outlines in (a, c), each with half the board's thickness there.
        front: from and to along the board on the face at +c, or None where it does not come out there.
        back: the same at -c.
        across: from and to across the board.
        deep: how deep it is; 0 where that has no meaning.
    """

    cut: Cut
    profiles: tuple[_Profile, ...]
    front: _Span | None
    back: _Span | None
    across: _Span
    deep: float

    @property
    def through(self) -> bool:
        """Whether it goes through the thickness."""
        return self.front is not None and self.back is not None


_Least: TypeAlias = dict[tuple[str, str], tuple[float, _Open, _Open | None, int]]


def short_grain(part: Part) -> tuple[Finding, ...]:
    """Wood left between a cut and the ends, and between neighbouring cuts, on the face where it is least.

    A cut that narrows towards the face is looked at where it is widest too, inside the board. What a joint lets in at
    an end that it makes itself, a step say, takes that end away: nothing is left to break out. Nor is there of what
    runs along the board from end to end.
    """
    least: _Least = {}
    opened = [_open(part, cut) for cut in part.cuts if _counts(cut)]
    ends = {(cut.end, cut.joint) for cut in part.cuts if cut.end and cut.joint}
    on_faces = ends_on_face(part, 1), ends_on_face(part, -1)
    for level in (1, -1, *_widest(opened)):
        (datum, far), spans = _at(on_faces, opened, level)
        spans.sort(key=lambda item: item[0])
        passed: list[tuple[float, _Open]] = []  # those before, the one that reaches furthest in front
        for (low, high), cut in spans:
            if not _beside_those_passed(least, low, cut, passed) and (DATUM_END, cut.cut.joint) not in ends:
                _note(least, low - datum, cut, None, DATUM_END)
            insort(passed, (high, cut), key=lambda item: -item[0])
        for place, (reached, cut) in enumerate(passed):
            alone = all(_apart_across(cut, beyond) > 0.0 for _, beyond in passed[:place])
            if alone and (FAR_END, cut.cut.joint) not in ends:
                _note(least, far - reached, cut, None, FAR_END)
    return tuple(finding for found in least.values() for finding in _too_little(part, *found))


_Spans: TypeAlias = list[tuple[_Span, _Open]]


def _at(on_faces: tuple[_Span, _Span], opened: Sequence[_Open], level: float) -> tuple[_Span, _Spans]:
    """Where the ends and the cuts lie on the face at +c (1), at -c (-1), or between, at a share of the half.

    Args:
        on_faces: the ends on the face at +c, and at -c.
        opened: the cuts.
        level: of the plane that is looked at.
    """
    share = (1 + level) / 2
    datum, far = (one * share + other * (1 - share) for one, other in zip(*on_faces, strict=True))
    spans = [(span, cut) for cut in opened if (span := _span_at(cut, level))]
    return (datum, far), [(span, cut) for span, cut in spans if span[0] > datum or span[1] < far]


def _span_at(cut: _Open, level: float) -> _Span | None:
    if abs(level) == 1.0:
        return cut.front if level > 0 else cut.back
    return _spans(cut.profiles, level)


def _widest(opened: Sequence[_Open]) -> tuple[float, ...]:
    """Where inside the board a cut is wider than on the face it opens to, as shares of half the thickness."""
    found = []
    for one in opened:
        mouth = one.front or one.back
        if one.through or mouth is None:
            continue
        for level in _inside(one):
            span = _span_at(one, level)
            if span is not None and span[1] - span[0] > mouth[1] - mouth[0] + SLACK:
                found.append(level)
    return tuple(dict.fromkeys(found))


def _inside(cut: _Open) -> Iterator[float]:
    """The levels at which its corners lie between the faces."""
    for points, half in cut.profiles:
        yield from (c / half for _, c in points if abs(c) < half - SLACK)


def _profiles(part: Part, cut: Cut) -> tuple[_Profile, ...]:
    return tuple((points, _half(part, points)) for points in _outlines(cut))


def _half(part: Part, points: Sequence[tuple[float, float]]) -> float:
    along = [x for x, _ in points]
    return part.board.thickness_at((min(along) + max(along)) / 2) / 2


def _beside_those_passed(least: _Least, low: float, cut: _Open, passed: Sequence[tuple[float, _Open]]) -> bool:
    """Note the wood between a cut and those before it; whether one of them lies between it and the end."""
    for reached, other in passed:
        if low < reached and _one_housing(cut.cut, other.cut):
            continue
        across = _apart_across(cut, other)
        if across <= 0.0:
            _note(least, low - reached, cut, other)
            return True
        if cut.through and other.through:  # from either edge: a neck is left between them
            _note(least, max(low - reached, across), cut, other)
    return False


def _one_housing(cut: Cut, other: Cut) -> bool:
    """Whether both are let in for one joint, of which one goes on where the other ends: no wood is meant between."""
    return cut.joint is not None and cut.joint == other.joint and cut.form is other.form is CutForm.HOUSING


def _counts(cut: Cut) -> bool:
    """An end, and what is worked on one, leaves nothing beyond it that could break out."""
    return not cut.end and cut.figures.opens is not Opens.END


def _apart_across(cut: _Open, other: _Open) -> float:
    """How far two cuts lie apart across the board; negative where they cover some of the same depth."""
    (low, high), (start, end) = cut.across, other.across
    return max(low, start) - min(high, end)


def _across(cut: Cut) -> _Span:
    """From and to across the board; nothing for what is neither swept nor bored."""
    places = [d for shape in cut.shapes if isinstance(shape, Prism) for _, _, d in corners(shape)]
    places += [shape.start[2] + way * _radius(shape) for shape in cut.shapes if _in_face(shape) for way in (-1, 1)]
    return (min(places), max(places)) if places else (0.0, 0.0)


def _in_face(shape: Shape) -> TypeGuard[Bore]:
    """Whether a shape is a hole bored square into a face."""
    return isinstance(shape, Bore) and abs(shape.direction[1]) == 1.0


def _radius(bore: Bore) -> float:
    return max(diameter for _, diameter in bore.profile) / 2


def _note(least: _Least, left: float, cut: _Open, other: _Open | None, end: int = 0) -> None:
    """Keep the least wood left between a cut and its neighbour, or an `end`, over both faces."""
    one, beyond = cut.cut.key, other.cut.key if other is not None else ""
    key = (one, beyond) if one < beyond else (beyond, one)  # which is first may differ by face
    if key not in least or left < least[key][0]:
        least[key] = (left, cut, other, end)


def _open(part: Part, cut: Cut) -> _Open:
    """Where a cut opens: on the two faces, along the board, and across it."""
    profiles = _profiles(part, cut)
    return _Open(cut, profiles, _spans(profiles, 1), _spans(profiles, -1), _across(cut), cut.figures.deep or 0.0)


def _on_faces(part: Part, cut: Cut) -> tuple[_Span | None, _Span | None]:
    """Where a cut opens on the faces at +c and -c, along the board. What lies askew in it opens on none."""
    profiles = _profiles(part, cut)
    return _spans(profiles, 1), _spans(profiles, -1)


def _spans(profiles: Iterable[_Profile], level: float) -> _Span | None:
    """From and to along the board of all outlines, so far through the thickness: 1 is the face at +c."""
    crossed = (level_crossings(points, level * half) for points, half in profiles)
    return _around([span for span in crossed if span])


def _outlines(cut: Cut) -> Iterator[list[tuple[float, float]]]:
    """In (a, c): of what is swept across the board both ends, if it tapers; of what is swept otherwise its extent."""
    for shape in cut.shapes:
        if not isinstance(shape, Prism) or lies_askew(shape):
            continue
        if abs(shape.frame.z[2]) == 1.0:
            for knots in (shape.outline, shape.outline_high or ()):
                if points := flattened(knots) if knots else []:
                    here = shape.frame is WORLD
                    yield points if here else [shape.frame.place((x, y, 0.0))[:2] for x, y in points]
            continue
        ends = (shape.outline, shape.low), (shape.outline_high or shape.outline, shape.high)
        places = [shape.frame.place((x, y, z)) for knots, z in ends for x, y in flattened(knots)]
        (a0, a1), (c0, c1) = ((min(each), max(each)) for each in ([p[0] for p in places], [p[1] for p in places]))
        yield [(a0, c0), (a1, c0), (a1, c1), (a0, c1)]


def lies_askew(shape: Prism) -> bool:
    """Whether it is swept along none of the board's own directions."""
    return max(map(abs, shape.frame.z)) < 1.0


def _around(spans: Sequence[_Span]) -> _Span | None:
    """One span around all; None of none."""
    if len(spans) == 1:
        return spans[0]
    return (min(low for low, _ in spans), max(high for _, high in spans)) if spans else None


def _too_little(part: Part, left: float, opened: _Open, beside: _Open | None, end: int) -> list[Finding]:
    """What is wrong with what is left between a cut and its neighbour, or the end."""
    cut, other = opened.cut, beside.cut if beside is not None else None
    stop, warn = _least_wood(part, [one.deep for one in (opened, beside) if one is not None and one.through])
    if left >= warn:
        return []
    severity = Severity.STOP if left < stop else Severity.WARN
    limit = stop if severity is Severity.STOP else warn
    return [
        Finding(
            code=SHORT_GRAIN,
            severity=severity,
            where=Where(boards=(part.id,), joint=cut.joint, cut=cut.key, path=part.board.path),
            says=_left_between(part, left, cut, other),
            remedy=say(
                "leave at least {}: {}", Length(limit, Fineness.WHOLE, On.UP), _to_leave_more(part, limit - left, end)
            ),
            found=left,
            limit=limit,
            unit="mm",
            source="common practice",
            cures=tuple(_to_leave_enough(part, warn - left, opened, beside, end)),
        )
    ]


def _least_wood(part: Part, slots: Sequence[float]) -> tuple[float, float]:
    """Below what wood beside cuts is a stop, and a warning: slots so deep want 2 t, better more; housings want t.

    A panel with cross plies wants half: beyond a slot solid wood holds by its grain alone, but half of the plies
    run across it (Finnish birch plywood: 33 N/mm2 in bending across the face grain, 39 along it, from memory).
    """
    t = part.board.thickest
    if not slots:
        return 0.0, t
    if part.board.cross_plies:
        return t, 2 * t
    return 2 * t, max(2 * t, WARN_BELOW, *(deep / 2 for deep in slots))


def _to_leave_more(part: Part, more: float, end: int) -> Words:
    """What parts two cuts, or a cut and an `end`: an end that a joint makes stays where that joint is."""
    if not end:
        return "move one of the two joints"
    if any(cut.end == end and cut.joint is not None for cut in part.cuts):
        return "move the joint away from that end"
    return say("move the joint, or lengthen {} by {}", Name(part.id), Length(more, side=On.UP))


def _to_leave_enough(part: Part, more: float, opened: _Open, beside: _Open | None, end: int) -> Iterator[Cure]:
    """The same as changes of the file: the board made longer at an end that stands to nothing, a joint moved along."""
    by = math.ceil(more / ROUND - 1e-9) * ROUND
    if beside is not None:
        way = by if _middle(opened) >= _middle(beside) else -by
        yield from _joint_moved(part, opened.cut, way)
        yield from _joint_moved(part, beside.cut, -way)
        return
    board, (ux, uy, _) = part.board, part.board.frame.x
    free = board.ends[0 if end == DATUM_END else 1] == "square"
    if free and not any(cut.end == end and cut.joint is not None for cut in part.cuts):
        label = say("{}: {} longer", Name(part.id), Length(by))
        yield asked_to_move(label, part.id, (end * by * ux, end * by * uy), (end_in_the_file(board, end),))
    yield from _joint_moved(part, opened.cut, -end * by)


def _joint_moved(part: Part, cut: Cut, by: float) -> Iterator[Cure]:
    """The board that a cut is for, moved along the one that is cut."""
    if cut.joint is None or WALL in cut.joint:
        return  # a fixing is no board
    other = next(name for name in cut.joint if name != part.id)
    x, y, _ = part.board.frame.x
    label = say("{}: {} {}", Name(other), Length(abs(by)), compass(by * x, by * y))
    yield asked_to_move(label, other, (by * x, by * y))


def _middle(cut: _Open) -> float:
    low, high = cut.front or cut.back or (0.0, 0.0)
    return (low + high) / 2


def _left_between(part: Part, left: float, cut: Cut, other: Cut | None) -> Sentence:
    """How much is left, or by how much a cut runs into the other or past the end."""
    board, one, beyond = Name(part.id), called(cut), "the end" if other is None else called(other)
    if left < 0.0 and other is None:
        return say("{}: {} runs {} past the end", board, one, Length(-left))
    if left < 0.0:
        return say("{}: {} and {} overlap by {}", board, one, beyond, Length(-left))
    here, there = _receives(cut), _receives(other) if other is not None else None
    if here is None or (other is not None and there is None):
        return say("{}: only {} left between {} and {}", board, Length(left), one, beyond)
    word, enters = here
    if there is None:
        return say("only {} left in {} between the {} for {} and the end", Length(left), board, word, enters)
    if there[0] == word:
        both = Several((enters, there[1]))
        return say("only {} left in {} between the {} for {}", Length(left), board, plural(word), both)
    other_one = say("the {} for {}", *there)
    return say("only {} left in {} between the {} for {} and {}", Length(left), board, word, enters, other_one)


def _receives(cut: Cut) -> tuple[str, Value] | None:
    """What a cut is and for which board, ("slot", "shelf 3"); None of one that takes none, or has its own name."""
    if cut.name or cut.end or not cut.takes or cut.says is None or Name(cut.takes) not in cut.says.values:
        return None
    return cut.plain, Name(cut.takes)


def least_web(thickness: float) -> float:
    """What must stay behind all that is let into a board so thick."""
    return max(thickness * WEB_STOP, LEAST_WEB)


def thin_web(part: Part) -> tuple[Finding, ...]:
    """Behind the floor of a housing, or between those of two opposite each other, some of the board must stay.

    One that is deeper than half the board is another finding's, and what stays behind a hole the business of
    whatever stands in it.
    """
    found = []
    sides = [[_Let.of(part, cut, face) for cut in part.cuts if cut.face == face and not cut.end] for face in (1, -1)]
    for let in (one for side in sides for one in side):
        t = part.board.thickness_at(sum(let.along) / 2) if let.along else 0.0
        deep = let.cut.figures.deep or 0.0
        if t and not let.holes and deep <= t / 2 + SLACK:
            found += _web_finding(part, (let.cut,), t - deep, t)
    for plus in sides[0]:
        for minus in sides[1]:
            common = _common(plus.along, minus.along)
            if not common or _one_work(plus, minus):
                continue
            if _share(_across(plus.cut), _across(minus.cut)) and not _pass_each_other(plus, minus):
                t = min(part.board.thickness_at(a) for a in common)
                web = min(plus.floor(a, 1) - minus.floor(a, -1) for a in _places(common, plus, minus))
                found += _web_finding(part, (plus.cut, minus.cut), web, t, tuple(_moved_apart(part, plus, minus, t)))
    return tuple(found)


def _moved_apart(part: Part, plus: "_Let", minus: "_Let", t: float) -> Iterator[Cure]:
    """Either of two joints opposite each other moved along, until what is let in passes by with a web to spare."""
    assert plus.along is not None, "they lie over each other"
    assert minus.along is not None, "they lie over each other"
    way = 1.0 if sum(minus.along) >= sum(plus.along) else -1.0
    over = plus.along[1] - minus.along[0] if way > 0 else minus.along[1] - plus.along[0]
    by = math.ceil((over + max(t * WEB_WARN, least_web(t))) / ROUND - 1e-9) * ROUND
    yield from _joint_moved(part, minus.cut, way * by)
    yield from _joint_moved(part, plus.cut, -way * by)


@dataclass(frozen=True, slots=True)
class _Let:
    """What is let into one face: the outlines of its floors and walls, and holes bored square into that face.

    Attributes:
        along: from where to where along the board it opens; None where it does not.
    """

    cut: Cut
    along: _Span | None
    outlines: tuple[tuple[tuple[float, float], ...], ...]
    holes: tuple[Bore, ...]

    @classmethod
    def of(cls, part: Part, cut: Cut, face: int) -> "_Let":
        """The cut, as it is let into the face at +c (1) or -c (-1)."""
        outlines = tuple(map(tuple, _outlines(cut)))
        return cls(cut, _opens(part, cut, 0 if face == 1 else 1), outlines, tuple(filter(_in_face, cut.shapes)))

    def floor(self, a: float, face: int) -> float:
        """How deep it comes at a place along the board, as a height in the thickness."""
        if self.holes:
            return min((hole.start[1] - face * hole.profile[-1][0] for hole in self.holes), key=lambda c: face * c)
        heights = []
        for outline in self.outlines:
            for (a0, c0), (a1, c1) in zip(outline, (*outline[1:], *outline[:1]), strict=True):
                if min(a0, a1) - SLACK <= a <= max(a0, a1) + SLACK:
                    heights += [c0, c1] if abs(a1 - a0) <= SLACK else [c0 + (c1 - c0) * (a - a0) / (a1 - a0)]
        return min(heights, key=lambda c: face * c, default=math.inf * face)


def _common(one: _Span | None, other: _Span | None) -> _Span | None:
    """Where two spans lie over each other; None where they only touch."""
    if one is None or other is None:
        return None
    low, high = max(one[0], other[0]), min(one[1], other[1])
    return (low, high) if low < high else None


def _places(common: _Span, *lets: _Let) -> Iterator[float]:
    """Where the least between two floors may lie: at their corners, and where both begin and end."""
    yield from common
    yield from (a for let in lets for outline in let.outlines for a, _ in outline if common[0] < a < common[1])


def _one_work(one: _Let, other: _Let) -> bool:
    """Whether the holes of one go on purpose through to the other's floor: both are of one joint."""
    if one.cut.joint is None or one.cut.joint != other.cut.joint:
        return False
    return any(hole.through for hole in (*one.holes, *other.holes))


def _pass_each_other(one: _Let, other: _Let) -> bool:
    """Whether both are rows of holes, each hole of the one beside those of the other."""
    if not one.holes or not other.holes:
        return False
    apart = (
        math.hypot(hole.start[0] - beside.start[0], hole.start[2] - beside.start[2]) - _radius(hole) - _radius(beside)
        for hole in one.holes
        for beside in other.holes
    )
    return min(apart) > SLACK


def _opens(part: Part, cut: Cut, face: int) -> _Span | None:
    """Where a housing, or a row of holes, opens along the board, on the face at +c (0) or -c (1)."""
    holes = [shape.start[0] + way * _radius(shape) for shape in cut.shapes if _in_face(shape) for way in (-1, 1)]
    return (min(holes), max(holes)) if holes else _on_faces(part, cut)[face]


def _share(one: _Span | None, other: _Span | None) -> bool:
    return one is not None and other is not None and max(one[0], other[0]) < min(one[1], other[1])


def _web_finding(part: Part, cuts: Sequence[Cut], web: float, t: float, cures: tuple[Cure, ...] = ()) -> list[Finding]:
    """A warning under a quarter of the thickness there, a stop under a sixth or 4 (common practice)."""
    stop = least_web(t)
    limit = stop if web < stop - SLACK else max(t * WEB_WARN, stop)
    if web >= limit - SLACK:
        return []
    left, places = Length(max(web, 0.0)), Several(tuple(called(cut) for cut in cuts))
    says = say("{} is left between {}", left, places) if len(cuts) > 1 else say("{} is left behind {}", left, places)
    return [
        Finding(
            code=THIN_WEB,
            severity=Severity.STOP if limit == stop else Severity.WARN,
            where=Where(boards=(part.id,), joint=cuts[0].joint, cut=cuts[0].key, path=part.board.path),
            says=say("{}: {}", Name(part.id), says),
            remedy=_to_leave_a_web(part, t - limit, several=len(cuts) > 1),
            found=web,
            limit=limit,
            unit="mm",
            source="common practice",
            cures=cures,
        )
    ]


def _to_leave_a_web(part: Part, deep: float, *, several: bool) -> Sentence:
    """How deep a housing, or two together, may be; where that is next to nothing, a thicker board."""
    if deep < 0.5:
        return say("use a thicker board for {}", Name(part.id))
    if several:
        return say("make the two no deeper than {} together", Length(deep, side=On.DOWN))
    return say("make it no deeper than {}", Length(deep, side=On.DOWN))


def not_looked_at(part: Part) -> tuple[NotChecked, ...]:
    """What these checks have no measure for: cuts that lie askew in a board, and holes in a face near an end or a cut.

    For holes no least is known (a sound source was not found); where they stand as far off as a housing must, nothing
    need be asked.
    """
    ends = {(cut.end, cut.joint) for cut in part.cuts if cut.end and cut.joint}
    found = []
    for cut in part.cuts:
        if not _counts(cut):
            continue
        askew = any(isinstance(shape, Prism) and lies_askew(shape) for shape in cut.shapes)
        left = _beside_holes(part, cut, ends)
        if not askew and left >= part.board.thickest:
            continue
        where = Where(boards=(part.id,), joint=cut.joint, cut=cut.key, path=part.board.path)
        if askew:
            what = say("what {} leaves of {}", called(cut), Name(part.id))
            found.append(NotChecked(study=WOOD, what=what, why="its shape lies askew in the board", where=where))
        else:
            what = say("whether {} of wood beside {} is enough", Length(max(left, 0.0)), called(cut))
            found.append(NotChecked(study=WOOD, what=what, why="no least is known for holes in a face", where=where))
    return tuple(found)


def _beside_holes(part: Part, cut: Cut, ends: Collection[tuple[int, Pair]]) -> float:
    """Least wood along the board between holes bored into a face and an end that another joint makes, or a cut."""
    if not any(map(_in_face, cut.shapes)):
        return math.inf
    left, across = [], _across(cut)
    for index, face in enumerate((1, -1)):
        span = _opens(part, cut, index) if cut.face in (0, face) else None
        if span is None:
            continue
        datum, far = ends_on_face(part, face)
        left += [span[0] - datum] * ((DATUM_END, cut.joint) not in ends)
        left += [far - span[1]] * ((FAR_END, cut.joint) not in ends)
        for other in part.cuts:
            beyond = _on_faces(part, other)[index] if _counts(other) and other.joint != cut.joint else None
            if beyond is not None and _share(across, _across(other)):
                left.append(max(beyond[0] - span[1], span[0] - beyond[1]))
    return min(left, default=math.inf)


def nothing_left(part: Part) -> tuple[Finding, ...]:
    """A board must be longer than its ends take."""
    if part.short[1] > part.short[0]:
        return ()
    return (
        Finding(
            code=NOTHING_LEFT,
            severity=Severity.STOP,
            where=Where(boards=(part.id,), path=part.board.path),
            says=say("the ends of {} meet: nothing is left of it on one face", Name(part.id)),
            remedy=say("lengthen {}", Name(part.id)),
            found=part.short[1] - part.short[0],
            limit=0.0,
            unit="mm",
            source="geometry",
        ),
    )


def slicing_ends(job: Job, boards: Iterable[Board]) -> tuple[Finding, ...]:
    """A level end on a nearly level board, or a plumb one on an upright, is cut square instead."""
    return tuple(
        Finding(
            code=END_SLICES,
            severity=Severity.WARN,
            where=Where(boards=(board.name,), path=spec.path),
            says=say("a {} end would run along {}, not across it; the end is cut square", form, Name(board.name)),
            remedy=say('leave out ends, or write "square" for that end of {}', Name(board.name)),
            cures=(Cure(label="leave out ends", edits=(Edit(action="remove", path=(*spec.path, "ends")),)),),
        )
        for spec, board in zip(job.boards, boards, strict=True)
        if board.lies != "flat"
        for form in dict.fromkeys(spec.ends)
        if form is not None and slices(form, board.frame.x)
    )


def _names_there(job: Job, whole: Mapping[str, str]) -> Words:
    """What there is to choose from, where no name is near the one that is not there."""
    names = sorted({whole.get(board.name, board.name) for board in job.boards} | {frame.name for frame in job.frames})
    if not names:
        return "take it out, or give a board that name"
    return say("take it out, or write one of {}", few([*map(Name, names)], MOST_NAMES, last=", "))


def dangling(job: Job, whole: Mapping[str, str]) -> tuple[Finding, ...]:
    """References to boards that are not there; `whole` names the board in the file of each member of one.

    A joint may speak of members: the one between two of them has no other names.
    """
    return tuple(
        Finding(
            code=DANGLING,
            severity=Severity.WARN,
            where=Where(path=missing.path),
            says=say("there is no board called {}", Name(missing.name)),
            remedy=say("did you mean {}?", Name(missing.nearest)) if missing.nearest else _names_there(job, whole),
            cures=(
                Cure(
                    label=say("write {}", Name(missing.nearest)),
                    edits=(Edit(action="set", path=missing.path, value=missing.nearest),),
                ),
            )
            if missing.nearest
            else (),
        )
        for missing in job.dangling
        if not (missing.name in whole and missing.path[:1] == ("joint",))
    )
