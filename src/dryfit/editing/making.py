"""Boards drawn anew, copied, mirrored, taken out: the edits, and the sentence."""

from collections import Counter
from collections.abc import Iterable, Mapping
from typing import cast

from ..book import models
from ..geometry.frames import Vec2
from ..job.edits import Sheet, sheet_of
from ..job.model import BoardSpec, FrameSpec
from ..job.renaming import users
from ..job.writing import only_this_one
from ..places import Edit, Path, Plain
from . import requests
from .composed import Composed
from .drawn import Drawn
from .framing import Placed, made_again, number, opened, turned_over, whole_frames
from .moving import way_said
from .points import line_path
from .refusals import refused

USUAL_DEPTH = 300.0  # of a first board, until the maker says otherwise
NOT_COPIED = frozenset({"name", "line", "count", "except", "thickness_at"})  # measured is the wood, not the idea
OTHER_FACE = {"left face": "right face", "right face": "left face"}


def drawn_new(drawn: Drawn, sent: requests.DrawSent) -> Composed:
    """A board by two points, or a frame by its corners."""
    sheet = sheet_of(drawn.text)
    if not drawn.job.timbers:
        raise refused("refused", "there is no timber to draw with", "add a table [timber.NAME] to the job file")
    if sent.what == "board" and len(sent.points) != 2:
        raise refused("refused", "a board is drawn by two points", "give its two ends")
    name = free_name(drawn, sent.what)
    points: Plain = [[number(drawn, x), number(drawn, y)] for x, y in sent.points]
    table: dict[str, Plain] = {"name": name, **_usual_timber(drawn)}
    if sent.what == "board":
        table |= {"line": points, "depth": _usual_depth(drawn, sheet)}
    else:
        table |= {"points": points, "closed": sent.closed, "depth": _usual_depth(drawn, sheet)}
    return Composed(edits=(Edit(action="add", path=(sent.what,), value=table),), says=f"{name} drawn")


def free_name(drawn: Drawn, wanted: str, taken: Iterable[str] = ()) -> str:
    """The name, or the name with the first number that is free."""
    there = {spec.name for spec in drawn.job.boards} | {frame.name for frame in drawn.job.frames} | set(taken)
    if wanted not in there:
        return wanted
    return next(f"{wanted} {number}" for number in range(2, len(there) + 3) if f"{wanted} {number}" not in there)


def _usual_timber(drawn: Drawn) -> dict[str, Plain]:
    """The timber that most boards are of; nothing where there is only one."""
    if len(drawn.job.timbers) < 2:
        return {}
    counted = Counter(spec.timber for spec in drawn.job.boards)
    return {"timber": counted.most_common(1)[0][0] if counted else next(iter(drawn.job.timbers))}


def _usual_depth(drawn: Drawn, sheet: Sheet) -> Plain:
    """The depth that most boards have, as it is written."""
    written = [table.get("depth") for table in sheet.get(("board",)) or [] if isinstance(table, dict)]
    counted = Counter(value for value in written if isinstance(value, (str, int, float)))
    return counted.most_common(1)[0][0] if counted else number(drawn, USUAL_DEPTH)


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
    edits = [turned_over(drawn, frame, over) for frame in frames]
    for name in others:
        edits += _turned_over(drawn, drawn.spec(name), over)
    return Composed(edits=tuple(edits), says=says)


def _frames_and_boards(drawn: Drawn, boards: list[str]) -> tuple[tuple[FrameSpec, ...], list[str]]:
    """Whole frames among boards, and the boards that are none of theirs."""
    names = drawn.wholes(boards)
    frames = whole_frames(drawn, names)
    theirs = {name for frame in frames for name in frame.boards}
    return frames, [name for name in names if name not in theirs]


def _line(drawn: Drawn, spec: BoardSpec, place: Placed) -> Plain:
    ends = [place(point) for point in spec.line]
    return [[number(drawn, x), number(drawn, y)] for x, y in ends]


def _turned_over(drawn: Drawn, spec: BoardSpec, over: Placed) -> list[Edit]:
    if spec.frame:
        says = f"{spec.name} is a side of {spec.frame}, and its corners are those of its neighbours too"
        raise refused("refused", says, f"choose the whole frame {spec.frame}, or mirror it as a copy")
    line = _line(drawn, spec, over)
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
    taken: list[str] = []
    edits: list[Edit] = []
    for frame in frames:
        taken.append(free_name(drawn, f"{frame.name} copy", taken))
        edits.append(made_again(drawn, frame, taken[-1], place))
    for name in others:
        spec = drawn.spec(name)
        own = free_name(drawn, f"{name} copy", taken)
        taken.append(own)
        table = {"name": own, **_kept_keys(drawn, sheet, spec), "line": _line(drawn, spec, place)}
        if mirrored and spec.line_is in OTHER_FACE:
            table["line_is"] = OTHER_FACE[spec.line_is]
        edits.append(Edit(action="add", path=("board",), value=cast("Plain", table)))
    return tuple(edits)


def _kept_keys(drawn: Drawn, sheet: Sheet, spec: BoardSpec) -> Mapping[str, Plain]:
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
    """Boards taken out, with the joints and fixings that are theirs alone and the lists that name them."""
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
    return Composed(edits=(*edits, *taken), says=f"{_called(sent.boards)} taken out")


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


def _reference(sheet: Sheet, path: Path, gone: set[str]) -> Path:
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
