"""What is done with frames as a whole, and with single sides of one: opened, mirrored, copied.

A side has no line of its own: it runs between two corners that are its neighbours' too. So one can be taken out, and
the frame is open there; it cannot be mirrored where it stands without its fellows.
"""

from collections.abc import Callable, Iterable
from typing import Any

from ..geometry.frames import Vec2
from ..job import style
from ..job.edits import TomlText, sheet_of
from ..job.model import FrameSpec
from ..places import Edit, Plain
from .drawn import Drawn
from .refusals import refused

PER_SIDE = ("timber", "depth", "back")  # keys that may be lists, one a side
Placed = Callable[[Vec2], Vec2]


def number(drawn: Drawn, length: float, snap: float = style.SNAP) -> float:
    """A length as a bare number in the job's units."""
    return float(style.signed(style.Style(), length, drawn.job.units, snap=snap))


def whole_frames(drawn: Drawn, boards: Iterable[str]) -> tuple[FrameSpec, ...]:
    """The frames all of whose sides are among the boards."""
    names = set(boards)
    return tuple(frame for frame in drawn.job.frames if names.issuperset(frame.boards))


# --- sides taken out


def opened(drawn: Drawn, frame: FrameSpec, gone: Iterable[str]) -> tuple[Edit, ...]:
    """The edits that take sides out of a frame, which stays, open where they were, its other sides' names kept.

    Raises:
        Refused: what is left would not hang together.
    """
    count = len(frame.boards)
    kept = [side for side, name in enumerate(frame.boards) if name not in set(gone)]
    run = _run(kept, count, closed=frame.closed)
    if len(run) < len(kept):
        says = f"what is left of {frame.name} would be in two pieces"
        raise refused("refused", says, "take out sides that lie next to each other, or draw a piece as boards first")
    sheet = sheet_of(drawn.text)
    values: dict[str, Plain] = {"names": [frame.boards[side] for side in run]}
    corners = [*run, run[-1] + 1]
    if corners != list(range(len(frame.points))):
        values["points"] = [sheet.get((*frame.path, "points", corner % len(frame.points))) for corner in corners]
    if frame.closed:
        values["closed"] = False
    if len(run) == 1 and frame.size != "centre":  # one line has no inside: what it is the outside of is lost
        (spec,) = (spec for spec in drawn.job.boards if spec.name == frame.boards[run[0]])
        values |= {"points": [[number(drawn, x), number(drawn, y)] for x, y in spec.line], "size": "centre"}
    values |= _per_side(sheet, frame, run)
    return tuple(Edit(action="set", path=(*frame.path, key), value=value) for key, value in values.items())


def _run(kept: list[int], count: int, *, closed: bool) -> list[int]:
    """The sides that follow one another from the first kept one that has none before it."""
    first = next((side for side in kept if (side - 1) % count not in kept), kept[0]) if closed else kept[0]
    run = [first]
    while (following := (run[-1] + 1) % count if closed else run[-1] + 1) in kept and following != first:
        run.append(following)
    return run


def _per_side(sheet: TomlText, frame: FrameSpec, run: list[int]) -> dict[str, Plain]:
    found: dict[str, Plain] = {}
    for key in PER_SIDE:
        value = sheet.get((*frame.path, key))
        if isinstance(value, list) and len(value) == len(frame.boards):
            found[key] = [value[side] for side in run]
    return found


# --- whole frames


def turned_over(frame: FrameSpec, points: Plain) -> Edit:
    """The edit that puts a frame's points elsewhere."""
    return Edit(action="set", path=(*frame.path, "points"), value=points)


def made_again(drawn: Drawn, frame: FrameSpec, name: str, points: Plain) -> Edit:
    """The edit that adds a frame once more with other points; its sides get numbers for names."""
    table: Any = sheet_of(drawn.text).get(frame.path)
    kept = {key: value for key, value in table.items() if key not in ("name", "names", "points")}
    value: dict[str, Plain] = {"name": name, "points": points, **kept}
    return Edit(action="add", path=("frame",), value=value)
