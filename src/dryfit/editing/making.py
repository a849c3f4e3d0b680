"""Boards drawn anew, copied, mirrored, taken out: the edits, and the sentence."""

import math
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from contextlib import suppress
from typing import cast

from ..book import models
from ..geometry.frames import Vec2
from ..job import style
from ..job.arithmetic import ArithmeticMistake, parse
from ..job.edits import TomlText, sheet_of
from ..job.model import BoardSpec, FrameSpec
from ..job.renaming import users
from ..job.standing import Line
from ..job.writing import only_this_one
from ..lengths import to_mm
from ..places import Edit, Path, Plain
from . import requests
from .composed import Composed
from .drawn import Drawn
from .figures import FINE
from .framing import Placed, made_again, number, opened, turned_over, whole_frames
from .moving import way_said
from .points import Moved, line_path
from .refusals import refused
from .relating import Related, Snap, copied_text, figures_for, related, stays_said, written

USUAL_DEPTH, USUAL_THICKNESS = 300.0, 22.0  # of a first board, until the maker says otherwise
NOT_COPIED = frozenset({"name", "line", "count", "except", "thickness_at"})  # measured is the wood, not the idea
TRUE_BY_EYE = 1.0  # degrees: a board drawn less off level, or off plumb, was meant so (common practice)
OTHER_FACE = {"left face": "right face", "right face": "left face"}


def drawn_new(drawn: Drawn, sent: requests.DrawSent) -> Composed:
    """A board by two points, or a frame by its corners."""
    if sent.what == "board" and len(sent.points) != 2:
        raise refused("refused", "a board is drawn between two points", "give its two ends")
    name = free_name(drawn, "frame" if sent.what == "frame" else lies_as(*sent.points))
    snap = FINE if sent.exact else style.SNAP
    moves = tuple(Moved(path=(at,), at=point, by=(0.0, 0.0)) for at, point in enumerate(sent.points))
    snaps = [
        Snap(axis=0 if meant.axis == "x" else 1, points=((meant.handle,),), text=meant.place) for meant in sent.meant
    ]
    said = written(drawn, moves, snaps)
    points: Plain = [
        [said.get(((at,), axis), number(drawn, place, snap)) for axis, place in enumerate(point)]
        for at, point in enumerate(sent.points)
    ]
    table: dict[str, Plain] = {"name": name, **usual_timber(drawn)}
    if sent.what == "board":
        table |= {"line": points, "depth": usual_depth(drawn)}
    else:
        table |= {"points": points, "closed": sent.closed, "depth": usual_depth(drawn)}
    edits = (*timber_edits(drawn), Edit(action="add", path=(sent.what,), value=table))
    return Composed(edits=edits, says=f"{name} drawn")


def lies_as(start: Vec2, end: Vec2) -> str:
    """What the trade calls a board by how it lies: its name until the maker gives it another."""
    along, up = abs(end[0] - start[0]), abs(end[1] - start[1])
    off = math.degrees(math.atan2(up, along))
    if off <= TRUE_BY_EYE:
        return "shelf"
    if off >= 90 - TRUE_BY_EYE:
        return "upright"
    return "raking" if up > along else "sloping"


def free_name(drawn: Drawn, wanted: str, taken: Iterable[str] = ()) -> str:
    """The name, or the name with the first number that is free."""
    there = {spec.name for spec in drawn.job.boards} | {frame.name for frame in drawn.job.frames} | set(taken)
    if wanted not in there:
        return wanted
    return next(f"{wanted} {number}" for number in range(2, len(there) + 3) if f"{wanted} {number}" not in there)


def usual_timber_name(drawn: Drawn) -> str | None:
    """The timber that most boards are of; None where the job has none yet."""
    counted = Counter(spec.timber for spec in drawn.job.boards if spec.timber in drawn.job.timbers)
    return counted.most_common(1)[0][0] if counted else next(iter(drawn.job.timbers), None)


def usual_timber(drawn: Drawn) -> dict[str, Plain]:
    """What a new board says of its timber; nothing where there is no choice."""
    name = usual_timber_name(drawn)
    return {"timber": name} if name is not None and len(drawn.job.timbers) > 1 else {}


def usual_thickness(drawn: Drawn) -> float:
    """How thick a new board is, mm."""
    name = usual_timber_name(drawn)
    if name is None:
        return USUAL_THICKNESS
    timber = drawn.job.timbers[name]
    return timber.thickness if timber.measured is None else timber.measured


def first_timber(drawn: Drawn) -> tuple[str, dict[str, Plain]]:
    """What is drawn with until the maker names another timber."""
    thickness = number(drawn, USUAL_THICKNESS)
    return "oak", {"species": "oak, European", "form": "edge-glued panel", "thickness": thickness}


def timber_edits(drawn: Drawn) -> tuple[Edit, ...]:
    """What makes a job without any timber one that can be drawn in."""
    if drawn.job.timbers:
        return ()
    name, table = first_timber(drawn)
    return (Edit(action="set", path=("timber", name), value=table),)


def usual_depth(drawn: Drawn) -> Plain:
    """The depth of a new board as it is written: as most have it, else the measure of that name."""
    sheet = sheet_of(drawn.text)
    tables = [table for kind in ("board", "frame") for table in sheet.get((kind,)) or [] if isinstance(table, dict)]
    counted = Counter(value for table in tables if isinstance(value := table.get("depth"), (str, int, float)))
    if counted:
        return counted.most_common(1)[0][0]
    return "depth" if "depth" in drawn.job.measures else number(drawn, USUAL_DEPTH)


def usual_depth_is(drawn: Drawn) -> float:
    """The same in mm."""
    written = usual_depth(drawn)
    if isinstance(written, str):
        with suppress(ArithmeticMistake):
            return parse(written).evaluate(drawn.job.measures, drawn.job.units)
        return USUAL_DEPTH
    assert isinstance(written, (int, float)), "so it was counted"
    return to_mm(float(written), drawn.job.units)


# --- copies


def copied(drawn: Drawn, sent: requests.CopySent) -> Composed:
    """Boards once more, moved."""
    dx, dy = sent.by
    made = _made_anew(drawn, sent.boards, lambda p: (p[0] + dx, p[1] + dy), mirrored=False)
    return Composed(edits=made, says=f"{_called(sent.boards)} copied, {way_said(sent.by, drawn.job.units)}")


def mirrored(drawn: Drawn, sent: requests.MirrorSent) -> Composed:
    """Boards on the other side of a plumb line, in place of the old ones or beside them."""

    def over(point: Vec2) -> Vec2:
        return 2 * sent.x - point[0], point[1]

    says = f"{_called(sent.boards)} mirrored"
    if sent.keep:
        return Composed(edits=_made_anew(drawn, sent.boards, over, mirrored=True), says=f"{says}, as a copy")
    frames, others = _frames_and_boards(drawn, sent.boards)
    same = {name: name for name in (*others, *(name for frame in frames for name in frame.boards))}
    meant = _Meant(drawn, same, over, mirrored=True)
    edits = [turned_over(frame, meant.points((*frame.path, "points"), frame.points)) for frame in frames]
    for name in others:
        edits += _turned_over(drawn, drawn.spec(name), meant)
    return Composed(edits=tuple(edits), says=says)


def _frames_and_boards(drawn: Drawn, boards: list[str]) -> tuple[tuple[FrameSpec, ...], list[str]]:
    """Whole frames among boards, and the boards that are none of theirs."""
    names = drawn.wholes(boards)
    frames = whole_frames(drawn, names)
    theirs = {name for frame in frames for name in frame.boards}
    return frames, [name for name in names if name not in theirs]


def _turned_over(drawn: Drawn, spec: BoardSpec, meant: "_Meant") -> list[Edit]:
    if spec.frame:
        says = f"{spec.name} is a side of {spec.frame}, and its corners are those of its neighbours too"
        raise refused("refused", says, f"choose the whole frame {spec.frame}, or mirror it as a copy")
    line = meant.points(line_path(drawn, spec), spec.line, spec)
    row = sum(other.path == spec.path for other in drawn.job.boards) > 1
    keys: dict[str, Plain] = {"line": line}
    if spec.line_is in OTHER_FACE:
        keys["line_is"] = OTHER_FACE[spec.line_is]
    if row and line_path(drawn, spec) == (*spec.path, "line"):
        return [only_this_one(drawn.text, spec.path, spec.index, keys)]
    table = line_path(drawn, spec)[:-1]
    return [Edit(action="set", path=(*table, key), value=value) for key, value in keys.items()]


def _made_anew(drawn: Drawn, names: list[str], place: Placed, *, mirrored: bool) -> tuple[Edit, ...]:
    sheet = sheet_of(drawn.text)
    frames, others = _frames_and_boards(drawn, names)
    called: dict[str, str] = {}
    new: dict[str, str] = {}
    for frame in frames:
        new[frame.name] = free_name(drawn, f"{frame.name} copy", new.values())
        called |= {board: f"{new[frame.name]} {side}" for side, board in enumerate(frame.boards, start=1)}
    for name in others:
        new[name] = free_name(drawn, f"{name} copy", new.values())
    meant = _Meant(drawn, {**called, **{name: new[name] for name in others}}, place, mirrored=mirrored)
    edits = [
        made_again(drawn, frame, new[frame.name], meant.points((*frame.path, "points"), frame.points))
        for frame in frames
    ]
    for name in others:
        spec = drawn.spec(name)
        line = meant.points(line_path(drawn, spec), spec.line, spec)
        table = {"name": new[name], **_kept_keys(drawn, sheet, spec), "line": line}
        if mirrored and spec.line_is in OTHER_FACE:
            table["line_is"] = OTHER_FACE[spec.line_is]
        edits.append(Edit(action="add", path=("board",), value=cast("Plain", table)))
    return tuple(edits)


class _Meant:
    """The points of copies: where they lie, by what they hang on where all of that is copied too."""

    def __init__(self, drawn: Drawn, called: Mapping[str, str], place: Placed, *, mirrored: bool) -> None:
        self._drawn, self._called, self._place, self._mirrored = drawn, called, place, mirrored
        self._lines = {name: _placed(drawn.spec(name).line, place) for name in called}
        self._related: dict[tuple[str, Path, int], Related] = {}
        for one in related(drawn):
            self._related["" if one.spec is None else one.spec.name, one.path, one.axis] = one

    def points(self, path: Path, points: Sequence[Vec2], spec: BoardSpec | None = None) -> Plain:
        """As they are written, of a line or a frame."""
        return [self._point((*path, at), point, "" if spec is None else spec.name) for at, point in enumerate(points)]

    def _point(self, path: Path, point: Vec2, owner: str) -> Plain:
        there = self._place(point)
        found: list[Plain] = []
        for axis in (0, 1):
            one = self._related.get((owner, path, axis))
            text = None
            if one is not None:
                text = copied_text(self._drawn, one, self._called, self._lines, there, mirrored=self._mirrored)
            found.append(number(self._drawn, there[axis]) if text is None else text)
        return found


def _placed(line: Line, place: Placed) -> Line:
    return place(line[0]), place(line[1])


def _kept_keys(drawn: Drawn, sheet: TomlText, spec: BoardSpec) -> Mapping[str, Plain]:
    """What a copy says as its board does; of a row or a frame, what it comes to."""
    alone = not spec.frame and sum(other.path == spec.path for other in drawn.job.boards) == 1
    table = sheet.get(spec.path)
    if alone and isinstance(table, dict) and "count" not in table:
        return {key: value for key, value in table.items() if key not in NOT_COPIED}
    kept: dict[str, Plain] = {"timber": spec.timber}
    kept["width" if spec.lies == "flat" else "depth"] = number(drawn, spec.depth)
    if spec.lies == "flat":
        kept["lies"] = "flat"
    if spec.back:
        kept["back"] = number(drawn, spec.back)
    if spec.line_is != "centre":
        kept["line_is"] = spec.line_is
    return kept


# --- taking out


def deleted(drawn: Drawn, sent: requests.DeleteSent) -> Composed:
    """Boards taken out, with the joints and fixings that are theirs alone and the lists that name them.

    What named a place of theirs has the figure in its stead.
    """
    gone = set(drawn.wholes(sent.boards))
    for name in gone:
        drawn.spec(name)
    removed, edits = _tables(drawn, gone)
    sheet, known = sheet_of(drawn.text), models()
    names = gone | {frame.name for frame in drawn.job.frames if set(frame.boards) <= gone}
    for name in sorted(names):
        for path in users(sheet.data, name, known):
            removed.add(_reference(sheet, path, names))
    last = [path for path in removed if not any(path != other and path[: len(other)] == other for other in removed)]
    ordered = sorted(last, key=_order, reverse=True)
    taken = tuple(Edit(action="remove", path=path) for path in ordered)
    figures, stay = figures_for(drawn, gone)
    says = f"{_called(sent.boards)} taken out{stays_said(stay)}"
    return Composed(edits=(*figures, *edits, *taken), says=says)


def _tables(drawn: Drawn, gone: set[str]) -> tuple[set[Path], list[Edit]]:
    """Tables that go whole, and the edits that take single boards out of their row or frame."""
    removed: set[Path] = set()
    edits: list[Edit] = []
    for frame in drawn.job.frames:
        if gone.intersection(frame.boards) and not gone.issuperset(frame.boards):
            edits += opened(drawn, frame, gone)
    for name in sorted(gone):
        spec = drawn.spec(name)
        same = {other.name for other in drawn.job.boards if other.path == spec.path}
        if same <= gone:
            removed.add(spec.path)
        elif not spec.frame:
            edits.append(only_this_one(drawn.text, spec.path, spec.index, {"absent": True}))
    return removed, edits


def _reference(sheet: TomlText, path: Path, gone: set[str]) -> Path:
    """What goes with a reference: the entry of a list, else the table that speaks of the board."""
    last = path[-1]
    if isinstance(last, int) and path[-2] != "between":
        entries = sheet.get(path[:-1])
        if any(entry not in gone for entry in entries) or not isinstance(path[1], int):
            return path
    return path[:2]


def _order(path: Path) -> tuple[tuple[int, str, int], ...]:
    return tuple((1, "", step) if isinstance(step, int) else (0, step, 0) for step in path)


def _called(names: list[str]) -> str:
    return names[0] if len(names) == 1 else f"{names[0]} and {len(names) - 1} more"
