"""Gripping: the places a hand may snap to, worked out once at the start of a drag, each with its reason.

The page compares; it works out nothing. A candidate says for one handle of what is gripped where its x or y
comes to, or which line it comes onto, or to which multiple of an angle; `rank` breaks ties, low first. It says too what
the file will have there: what is snapped to is what was meant, and is written.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from ..geometry.frames import Vec2
from ..job.arithmetic import COUNTER, parse
from ..job.edits import sheet_of
from ..job.model import BoardSpec
from ..job.standing import ENDS, Places
from ..job.style import lone_length, place_text
from ..lengths import MM_PER, LengthUnit
from ..places import Path
from . import requests
from .answers import Candidate, Gripped, Handle
from .bays import bays_of
from .drawn import Drawn
from .handles import Grasp, handles_of, rounded, straight
from .points import follow, frame_of, line_path, normal_of, points_of
from .relating import Depending
from .ways import offers

STEP: Mapping[LengthUnit, float] = {"mm": 1.0, "in": MM_PER["in"] / 16}  # a move is rounded to it where nothing snaps
AWAY, SAME = 1000.0, 1e-6  # mm
LEAST_APART = 1.0  # mm between two boards that anything is spaced as
HALF_DEGREE, RIGHT_ANGLE = 0.5, 90.0
AXES: tuple[Literal["x"], Literal["y"]] = ("x", "y")
FACE, END, CENTRE, SPACING, STUD, MEASURE, ANGLE = 0, 1, 2, 3, 4, 5, 9
SHARES = (
    (1 / 2, "1/2", "half-way between"),
    (1 / 3, "1/3", "a third of the way between"),
    (2 / 3, "2/3", "two thirds of the way between"),
    (2.0, "2", "spaced as"),
    (-1.0, "-1", "spaced as"),
)
BETWEEN = 3  # of them lie between the two
STEEP = (
    ("middle", "on the centre-line of", CENTRE),
    ("left", "at the left face of", FACE),
    ("right", "at the right face of", FACE),
)
FLAT = (("middle", "on the centre-line of", CENTRE), ("top", "on top of", FACE), ("under", "under", FACE))


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """A coordinate that something stands at.

    Attributes:
        axis: whose coordinate.
        guide: the points between which it may be shown.
        place: as the job file writes it; "" where only the figure can be written.
    """

    axis: Literal["x", "y"]
    at: float
    says: str
    rank: int
    guide: tuple[Vec2, ...]
    place: str = ""


def gripped(drawn: Drawn | None, target: requests.Target, revision: int) -> Gripped:
    """What a hand can do with the target.

    Raises:
        Refused: there is no such thing.
    """
    if drawn is None:
        return _nothing(revision)
    moving = _moving(drawn, target)
    handles = handles_of(drawn, target)
    others = [spec for spec in drawn.job.boards if spec.name not in moving]
    places = Places(drawn.job)
    spots = [
        *_spots(drawn, places, others),
        *_spacing(drawn, places, moving, others, new=isinstance(target, requests.NewTarget)),
        *_other_end(drawn, places, target),
    ]
    free = _Free(drawn, target)
    found = [
        *_at_spots(handles, spots, free),
        *_on_lines(places, handles, others, free),
        *_angles(drawn, target),
    ]
    return Gripped(
        revision=revision,
        handles=tuple(Handle(at=handle.at, says=handle.says) for handle in handles),
        candidates=tuple({(c.snap, c.handle, c.at, c.guide if c.snap == "line" else ()): c for c in found}.values()),
        offers=offers(drawn, target),
        along=_along(drawn, target),
        step=STEP[drawn.job.units],
        follow=follow(drawn, target),
        bays=bays_of(drawn) if isinstance(target, requests.NewTarget) else (),
    )


def _nothing(revision: int) -> Gripped:
    return Gripped(
        revision=revision,
        handles=(Handle(at=(0.0, 0.0), says="the point"),),
        candidates=(),
        offers=(),
        along=None,
        step=STEP["mm"],
        follow=(),
    )


def _moving(drawn: Drawn, target: requests.Target) -> set[str]:
    """The boards that are moved, by the job file's names, and so are nothing to snap to."""
    match target:
        case requests.BoardTarget():
            frames = {drawn.spec(name).frame for name in target.boards} - {""}
            fellows = (spec.name for spec in drawn.job.boards if spec.frame in frames)
            return {*drawn.wholes(target.boards), *fellows}
        case requests.EndTarget():
            return {*drawn.wholes([target.board])}
        case requests.CornerTarget() | requests.SideTarget():
            return {*frame_of(drawn.job, target.frame).boards}
    return set()


def _along(drawn: Drawn, target: requests.Target) -> Vec2 | None:
    if not isinstance(target, requests.SideTarget):
        return None
    x, y = normal_of(frame_of(drawn.job, target.frame), target.side)
    return round(x, 9) + 0.0, round(y, 9) + 0.0


# --- what can be written


class _Free:
    """Which places may be written for what moves: none that hangs on it, which would go round in a circle."""

    def __init__(self, drawn: Drawn, target: requests.Target) -> None:
        self._hanging = Depending(drawn)
        new = isinstance(target, requests.NewTarget)
        self._points = () if new else tuple(moved.path for moved in points_of(drawn, target, (0.0, 0.0)))
        self._told: dict[tuple[str, int], bool] = {}

    def place(self, text: str, axis: int, handle: Grasp) -> str:
        """The place as it can be written where the handle comes to it; "" where it cannot."""
        if text and (text, axis) not in self._told:
            ends: tuple[Path, ...] = self._points or ((),)
            needs = {
                node
                for place in parse(text).places
                for path in ends
                for node in self._hanging.needed(place, axis, path)
            }
            mine = {(path, axis) for path in self._points}
            self._told[text, axis] = not mine & self._hanging.reach(needs)
        can = text and self._told[text, axis] and (handle.points or not self._points)
        return text if can else ""


# --- what there is to snap to


def _spots(drawn: Drawn, places: Places, specs: Iterable[BoardSpec]) -> Iterator[Spot]:
    for spec in specs:
        yield from _ends(places, spec)
        yield from _of_straight(places, spec)
    studs = sheet_of(drawn.text).get(("wall", "studs"))
    for at, stud in enumerate(drawn.job.wall.studs):
        text = studs[at] if isinstance(studs, list) and len(studs) == len(drawn.job.wall.studs) else ""
        place = text if isinstance(text, str) and parse(text).names else ""
        yield Spot(axis="x", at=stud, says="on a stud's centre", rank=STUD, guide=((stud, 0.0),), place=place)
    yield from _wall(drawn)
    for axis, name in _measured(drawn):
        there = drawn.job.measures[name]
        guide = (there, 0.0) if axis == 0 else (0.0, there)
        yield Spot(axis=AXES[axis], at=there, says=name, rank=MEASURE, guide=(guide,), place=name)


def _wall(drawn: Drawn) -> Iterator[Spot]:
    """The ends of the wall and its ceiling, as far as they are known: by the arithmetic that the file has for them."""
    wall, sheet = drawn.job.wall, sheet_of(drawn.text)
    ends: list[tuple[int, float | None, str, str]] = [
        (0, wall.left if wall.right is None else wall.left or 0.0, "left", "at the wall's left end"),
        (0, wall.right, "right", "at the wall's right end"),
        (1, wall.ceiling, "ceiling", "at the ceiling"),
    ]
    for axis, at, key, says in ends:
        if at is not None:
            text = sheet.get(("wall", key))
            place = text if isinstance(text, str) and parse(text).names else ""
            guide = (at, 0.0) if axis == 0 else (wall.left or 0.0, at)
            yield Spot(axis=AXES[axis], at=at, says=says, rank=FACE, guide=(guide,), place=place)


def _other_end(drawn: Drawn, places: Places, target: requests.Target) -> Iterator[Spot]:
    """Level or plumb with the board's own other end, where the file says more of that than a figure."""
    if not isinstance(target, requests.EndTarget):
        return
    spec = drawn.spec(target.board)
    if spec.frame:
        return
    end = 1 if target.end == "start" else 0
    at = spec.line[end]
    for axis, says in ((0, "plumb with its other end"), (1, "level with its other end")):
        text = sheet_of(drawn.text).get((*line_path(drawn, spec), end, axis))
        if not isinstance(text, str) or lone_length(text) is not None or COUNTER in parse(text).names:
            continue
        if text.strip() in drawn.job.measures:
            continue  # the measure itself is snapped to, and says more
        away = (at[0], at[1] + AWAY) if axis == 0 else (at[0] + AWAY, at[1])
        if abs(places.worked_out(parse(text), axis, away) - at[axis]) < SAME:  # a leaning face is not level anywhere
            yield Spot(axis=AXES[axis], at=at[axis], says=says, rank=FACE, guide=(at,), place=text)


def _measured(drawn: Drawn) -> Iterator[tuple[int, str]]:
    """The measures that are places on an axis: something stands there by its name alone.

    Any other that has the same number has it by chance.
    """
    sheet = sheet_of(drawn.text)
    found: dict[tuple[int, str], None] = {}
    points = [(*line_path(drawn, spec), end) for spec in drawn.job.boards if not spec.frame for end in (0, 1)]
    points += [(*frame.path, "points", at) for frame in drawn.job.frames for at in range(len(frame.points))]
    places: list[tuple[int, Path]] = [(axis, (*point, axis)) for point in points for axis in (0, 1)]
    places += [(0, ("wall", "left")), (0, ("wall", "right")), (1, ("wall", "ceiling"))]
    for axis, path in places:
        text = sheet.get(path)
        if isinstance(text, str) and text.strip() in drawn.job.measures:
            found[axis, text.strip()] = None
    return iter(found)


def _ends(places: Places, spec: BoardSpec) -> Iterator[Spot]:
    """Of a board's centre-line; of a straight one only along it, since across it the line itself is there."""
    way = straight(spec.line)
    for word, at in zip(ENDS, spec.line, strict=True):
        x, y = (round(places.of_board(spec, word, axis, at), 6) + 0.0 for axis in (0, 1))
        text = place_text(word, spec.name)
        if way != "plumb":
            says = f"plumb with the end of {spec.name}"
            yield Spot(axis="x", at=x, says=says, rank=END, guide=((x, y),), place=text)
        if way != "level":
            says = f"level with the end of {spec.name}"
            yield Spot(axis="y", at=y, says=says, rank=END, guide=((x, y),), place=text)


def _of_straight(places: Places, spec: BoardSpec) -> Iterator[Spot]:
    """Centre and faces of a level or plumb board."""
    way = straight(spec.line)
    if not way:
        return
    axis = 1 if way == "level" else 0
    words = (
        (("middle", "level with", CENTRE), ("top", "on top of", FACE), ("under", "under", FACE))
        if way == "level"
        else (
            ("middle", "plumb with", CENTRE),
            ("right", "at the right face of", FACE),
            ("left", "at the left face of", FACE),
        )
    )
    for word, says, rank in words:
        yield Spot(
            axis=AXES[axis],
            at=places.of_board(spec, word, axis, spec.line[0]),
            says=f"{says} {spec.name}",
            rank=rank,
            guide=spec.line,
            place=place_text(word, spec.name),
        )


def _spacing(drawn: Drawn, places: Places, moving: set[str], others: list[BoardSpec], *, new: bool) -> Iterator[Spot]:
    """Half-way and thirds between two parallel neighbours, and as far on as they are apart; of what is new not that."""
    ways = {"level", "plumb"} if new else {straight(one.line) for one in drawn.job.boards if one.name in moving}
    for way, axis in (("level", 1), ("plumb", 0)):
        if way not in ways:
            continue
        rows = sorted(
            (places.of_board(spec, "middle", axis, spec.line[0]), spec.name)
            for spec in others
            if straight(spec.line) == way
        )
        for (low, one), (high, other) in pairwise(rows):
            if high - low < LEAST_APART:
                continue
            texts = place_text("middle", one), place_text("middle", other)
            for share, said, word in SHARES[: BETWEEN if new else None]:
                at = low + (high - low) * share
                yield Spot(
                    axis=AXES[axis],
                    at=round(at, 6) + 0.0,
                    says=f"{word} {one} and {other}",
                    rank=SPACING,
                    guide=((low, 0.0), (high, 0.0)) if axis == 0 else ((0.0, low), (0.0, high)),
                    place=f"between({texts[0]}, {texts[1]}, {said})" if all(texts) else "",
                )


def _at_spots(handles: tuple[Grasp, ...], spots: list[Spot], free: _Free) -> Iterator[Candidate]:
    for spot in sorted(spots, key=lambda spot: (-spot.rank, spot.says)):  # the best of equals stays last
        for number, handle in enumerate(handles):
            place = free.place(spot.place, AXES.index(spot.axis), handle)
            yield Candidate(
                snap=spot.axis,
                handle=number,
                at=round(spot.at, 6) + 0.0,
                says=spot.says,
                guide=tuple(rounded(point) for point in spot.guide),
                rank=spot.rank,
                place=place,
                axis=spot.axis if place else "",
            )


def _on_lines(places: Places, handles: tuple[Grasp, ...], specs: list[BoardSpec], free: _Free) -> Iterator[Candidate]:
    """Centre-lines and faces of leaning boards: of a steep one at the point's height, else at its place along."""
    for spec in specs:
        if straight(spec.line):
            continue
        (x0, y0), (x1, y1) = spec.line
        steep = abs(y1 - y0) >= abs(x1 - x0)
        axis, faces = (0, STEEP) if steep else (1, FLAT)
        for word, says, rank in faces:
            ends = (places.of_board(spec, word, axis, at) for at in spec.line)
            guide = tuple(
                rounded((on, at[1]) if steep else (at[0], on)) for on, at in zip(ends, spec.line, strict=True)
            )
            for number, handle in enumerate(handles):
                place = free.place(place_text(word, spec.name), axis, handle)
                yield Candidate(
                    snap="line",
                    handle=number,
                    at=0.0,
                    says=f"{says} {spec.name}",
                    guide=guide,
                    rank=rank,
                    place=place,
                    axis=AXES[axis] if place else "",
                )


def _angles(drawn: Drawn, target: requests.Target) -> Iterator[Candidate]:
    """Level, plumb and half degrees about the end that stays."""
    if isinstance(target, requests.EndTarget):
        line = drawn.spec(target.board).line
        pivot: Vec2 | None = line[1] if target.end == "start" else line[0]
    elif isinstance(target, requests.NewTarget):
        pivot = None  # the first point, which only the page knows
    else:
        return
    for at, says, rank in ((RIGHT_ANGLE, "level or plumb", CENTRE), (HALF_DEGREE, "half a degree", ANGLE)):
        yield Candidate(snap="angle", handle=0, at=at, says=says, guide=(), rank=rank, pivot=pivot)
