"""The wall as it is typed on the page: its ends, its ceiling, its studs; with it the stock that boards are drawn of."""

from collections.abc import Iterator

from ..job.edits import sheet_of
from ..places import Edit, Path, Plain
from . import requests
from .answers import WallShown
from .composed import Composed
from .drawn import Drawn
from .figures import as_typed
from .framing import number
from .making import first_timber, usual_depth_is, usual_thickness, usual_timber_name
from .moving import evaluated
from .refusals import refused

MOST_STUDS = 200
LEAST_STEP = 10.0  # mm between studs' centres
WORDS = {"wide": "width", "high": "height", "studs": "first stud", "every": "studs", "thick": "stock", "deep": "depth"}


def wall_shown(drawn: Drawn) -> WallShown:
    """What is known of the wall, and of what boards are drawn of."""
    wall = drawn.job.wall
    studs = wall.studs
    return WallShown(
        wide=None if wall.right is None else wall.right - (wall.left or 0.0),
        high=wall.ceiling,
        studs=studs[0] if studs else None,
        every=studs[1] - studs[0] if len(studs) > 1 else None,
        floor=not wall.hung,
        thick=usual_thickness(drawn),
        deep=usual_depth_is(drawn),
    )


def wall_typed(drawn: Drawn, sent: requests.WallSent) -> Composed:
    """The edits for what was typed of it.

    Raises:
        Refused: a figure cannot be read, or cannot be one of a wall.
    """
    given = {key: entry.strip() for key in WORDS if (entry := getattr(sent, key)) is not None}
    edits: list[Edit] = []
    if "wide" in given:
        edits += _wide(drawn, given["wide"])
    if "high" in given:
        edits += _one(drawn, ("wall", "ceiling"), given["high"], "the wall")
    if "studs" in given or "every" in given:
        edits += _studs(drawn, given)
    if "thick" in given:
        edits += _thick(drawn, given["thick"])
    if "deep" in given:
        edits += _one(drawn, ("measures", "depth"), given["deep"], "a board")
    told = ", ".join(f"{WORDS[key]} {entry or 'left open'}" for key, entry in given.items())
    return Composed(edits=tuple(edits), says=f"wall: {told}")


def _length(drawn: Drawn, entry: str, of: str) -> float:
    found = evaluated(drawn, entry)
    if not 0.0 < found <= requests.FAR:
        raise refused("refused", f"{entry} is no size for {of}", "type a length above 0")
    return found


def _one(drawn: Drawn, path: Path, entry: str, of: str) -> Iterator[Edit]:
    if entry:
        _length(drawn, entry, of)
        yield Edit(action="set", path=path, value=as_typed(entry))
    elif _is_there(drawn, path):
        yield Edit(action="remove", path=path)


def _is_there(drawn: Drawn, path: Path) -> bool:
    return path in sheet_of(drawn.text).spans.values


def _wide(drawn: Drawn, entry: str) -> Iterator[Edit]:
    """From its left end, which is the datum where nothing else is said."""
    left = drawn.job.wall.left
    if not entry:
        yield from _one(drawn, ("wall", "right"), entry, "the wall")
        return
    wide = _length(drawn, entry, "the wall")
    if left is None:
        yield Edit(action="set", path=("wall", "left"), value=0)
    right: Plain = number(drawn, left + wide) if left else as_typed(entry)
    yield Edit(action="set", path=("wall", "right"), value=right)


def _studs(drawn: Drawn, given: dict[str, str]) -> Iterator[Edit]:
    """The first and those that follow it at equal steps, as far as the wall reaches."""
    known = wall_shown(drawn)
    path: Path = ("wall", "studs")
    first = _length(drawn, given["studs"], "a stud's place") if given.get("studs") else known.studs
    if given.get("studs") == "" or first is None:
        if "studs" not in given:
            raise refused("refused", "the first stud's place is not known", "type where its centre is")
        if _is_there(drawn, path):
            yield Edit(action="remove", path=path)
        return
    every = _length(drawn, given["every"], "their step") if given.get("every") else known.every
    if given.get("every") == "" or every is None:
        yield Edit(action="set", path=path, value=[number(drawn, first)])
        return
    right = _right(drawn, given)
    if right is None:
        raise refused("refused", "how far the studs go on is not known", "type the wall's width first")
    many = int((right - first) / every) + 1 if every >= LEAST_STEP else MOST_STUDS + 1
    if many > MOST_STUDS:
        raise refused(
            "refused", f"studs every {given.get('every') or every} are too many", "type how far apart they are"
        )
    yield Edit(action="set", path=path, value=[number(drawn, first + at * every) for at in range(many)])


def _right(drawn: Drawn, given: dict[str, str]) -> float | None:
    """Where the wall ends once what is typed holds."""
    wide = given.get("wide")
    if wide is None:
        return drawn.job.wall.right
    return (drawn.job.wall.left or 0.0) + _length(drawn, wide, "the wall") if wide else None


def _thick(drawn: Drawn, entry: str) -> Iterator[Edit]:
    if not entry:
        raise refused("refused", "the stock has to have a thickness", "type what it is ordered at")
    _length(drawn, entry, "a board")
    name = usual_timber_name(drawn)
    if name is None:
        name, table = first_timber(drawn)
        yield Edit(action="set", path=("timber", name), value={**table, "thickness": as_typed(entry)})
    else:
        yield Edit(action="set", path=("timber", name, "thickness"), value=as_typed(entry))
