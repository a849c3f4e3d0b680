"""Moving what is drawn: which values of the file a move writes, and in which ways it may be written.

    snapped to a place       the place itself, so that it follows; see `relating`
    number, length text      the number, in its own unit and style
    arithmetic               the same text with a folded constant behind it
    one of a row             the whole row; or only this one, as an exception
    frame's corner or side   that point; or both ends of the side, along its normal

Also offered: a measure that the value hangs on, if it does so evenly; a plain number; a new measure.
"""

from collections.abc import Iterable, Mapping
from dataclasses import replace

from ..geometry.frames import Vec2
from ..job import style
from ..job.arithmetic import ArithmeticMistake, parse
from ..job.edits import sheet_of
from ..job.model import BoardSpec
from ..job.standing import Places
from ..job.writing import only_this_one
from ..lengths import LengthUnit, length_text
from ..places import Edit, Path, Plain
from . import requests
from .composed import Composed
from .drawn import Drawn
from .figures import FINE, as_typed, held
from .handles import handles_of
from .levers import levers
from .points import Moved, Point, follow, line_path, points_of
from .refusals import refused
from .relating import Snap, not_followed, written

HERE, ONE, PLAIN_NUMBER, NAMED, MEASURE = "here", "only this one", "plain", "named", "measure "
LEAST = 1e-9


def dragged(drawn: Drawn, sent: requests.DragSent) -> Composed:
    """The edits of a drag, in the way chosen."""
    moves = points_of(drawn, sent.target, sent.by)
    edits = written_as(drawn, sent, moves)
    says = f"{_called(sent.target)}: {way_said(sent.by, drawn.job.units)}"
    places = " and ".join(dict.fromkeys(meant.place for meant in sent.meant)) if relates(drawn, sent) else ""
    return Composed(edits=edits, says=f"{says}, to {places}" if places else says, follow=follow(drawn, sent.target))


def relates(drawn: Drawn, sent: requests.DragSent) -> bool:
    """Whether what a move snapped to is written: what a row shares cannot hang on one place."""
    choice = sent.choice or HERE
    return choice == ONE or (choice == HERE and not any(is_row(drawn, spec) for spec in specs_of(drawn, sent.target)))


def specs_of(drawn: Drawn, target: requests.Target) -> list[BoardSpec]:
    """The boards with lines of their own that a target is of."""
    match target:
        case requests.BoardTarget():
            return [drawn.spec(name) for name in target.boards]
        case requests.EndTarget():
            return [drawn.spec(target.board)]
    return []


def is_row(drawn: Drawn, spec: BoardSpec) -> bool:
    """Whether a board shares its line with others of its row."""
    if spec.frame or line_path(drawn, spec) != (*spec.path, "line"):
        return False
    return sum(other.path == spec.path for other in drawn.job.boards) > 1


def _snapped(drawn: Drawn, sent: requests.DragSent, moves: tuple[Moved, ...]) -> dict[tuple[Path, int], str]:
    """What of the file says the places that a move came to."""
    if not sent.meant or not relates(drawn, sent):
        return {}
    handles = handles_of(drawn, sent.target)
    snaps = []
    for meant in sent.meant:
        if meant.handle >= len(handles):
            raise refused("refused", "there is no such handle to snap by", "let it snap again")
        held_by = handles[meant.handle]
        axis = 0 if meant.axis == "x" else 1
        snaps.append(Snap(axis=axis, points=held_by.points, text=meant.place, off=held_by.off(axis)))
    return written(drawn, moves, snaps)


def figure_typed(drawn: Drawn, sent: requests.FigureSent) -> Composed:
    """The edits of a dimension typed in place."""
    axis = 0 if sent.axis == "x" else 1
    at = points_of(drawn, sent.target, (0.0, 0.0))[0].at
    try:
        value = Places(drawn.job).worked_out(parse(sent.entry), axis, at)
    except ArithmeticMistake as mistake:
        raise refused("refused", mistake.says, mistake.remedy) from None
    off = value - sent.now
    by = (off, 0.0) if sent.axis == "x" else (0.0, off)
    moves = points_of(drawn, sent.target, by)
    edits = tuple(edit for moved in moves for edit in _whole(drawn, moved, sent.axis, sent.entry, value))
    return Composed(edits=edits, says=f"{_called(sent.target)}: {sent.axis} = {sent.entry.strip()}")


def _whole(drawn: Drawn, moved: Moved, axis: str, entry: str, value: float) -> list[Edit]:
    """One coordinate typed: a point that stood at the figure takes it as typed, another is moved along."""
    place = 0 if axis == "x" else 1
    by = moved.by[place]
    path = (*moved.path, place)
    stood = abs(moved.at[place] + by - value) < LEAST
    written = sheet_of(drawn.text).get(path)
    plain = isinstance(written, (int, float)) or (isinstance(written, str) and style.lone_length(written) is not None)
    if stood and plain:
        return [Edit(action="set", path=path, value=as_typed(entry))]
    return [Edit(action="shift", path=path, value=by)] if by else []


def evaluated(drawn: Drawn, entry: str) -> float:
    """What a maker typed comes to, in mm; a sum of bare numbers in the job's own units. Refused where it is no sum."""
    try:
        return parse(entry).evaluate(drawn.job.measures, drawn.job.units)
    except ArithmeticMistake as mistake:
        raise refused("refused", mistake.says, mistake.remedy) from None


def by_measure(name: str) -> str:
    """What the way is called in which a measure is changed."""
    return f"{MEASURE}{name}"


def written_as(drawn: Drawn, sent: requests.DragSent, moves: tuple[Moved, ...]) -> tuple[Edit, ...]:
    """The edits of moves in the way chosen.

    Raises:
        Refused: there is no such way, or it cannot serve.
    """
    choice = sent.choice or HERE
    if choice == HERE:
        return _here(drawn, sent, moves)
    if choice == ONE:
        return _only_these(drawn, sent, _snapped(drawn, sent, moves))
    if choice == PLAIN_NUMBER:
        return tuple(edit for moved in moves for edit in _plain(drawn, moved, _snap(sent)))
    if choice == NAMED:
        return _named(drawn, moves, sent.name, _snap(sent))
    for name in drawn.job.measures:
        if choice == by_measure(name):
            return _by_measure(drawn, moves, name)
    raise refused("refused", f"there is no way of writing called {choice}", "choose one of those offered")


def _here(drawn: Drawn, sent: requests.DragSent, moves: tuple[Moved, ...]) -> tuple[Edit, ...]:
    """Where it stands in the file: what snapped says to what, all else is moved."""
    said = _snapped(drawn, sent, moves)
    if isinstance(sent.target, requests.BoardTarget):
        moves = not_followed(drawn, moves, sent.target.boards)
    places = tuple(Edit(action="set", path=(*path, axis), value=text) for (path, axis), text in said.items())
    rest = tuple(replace(moved, by=(_unless(said, moved, 0), _unless(said, moved, 1))) for moved in moves)
    rest = tuple(moved for moved in rest if any(moved.by))
    return (*places, *(exactly(drawn, rest) if sent.exact else _shifts(rest)))


def _unless(said: Mapping[tuple[Path, int], str], moved: Moved, axis: int) -> float:
    return 0.0 if (moved.path, axis) in said else moved.by[axis]


def _shifts(moves: tuple[Moved, ...]) -> Iterable[Edit]:
    """One shift a point, or one for a line whose two ends go the same way."""
    by_line: dict[Path, list[Moved]] = {}
    for moved in moves:
        by_line.setdefault(moved.path[:-1], []).append(moved)
    for path, ends in by_line.items():
        if path[-1] == "line" and len(ends) == 2 and ends[0].by == ends[1].by:
            yield Edit(action="shift", path=path, value=list(ends[0].by))
        else:
            yield from (_shifted(moved) for moved in ends)


def _shifted(moved: Moved) -> Edit:
    dx, dy = moved.by
    if dx and dy:
        return Edit(action="shift", path=moved.path, value=[dx, dy])
    place, by = (0, dx) if dx else (1, dy)
    return Edit(action="shift", path=(*moved.path, place), value=by)


def exactly(drawn: Drawn, moves: tuple[Moved, ...]) -> tuple[Edit, ...]:
    """The edits of moves that were typed, not pulled: where they stand in the file, as exactly as can be held."""
    sheet, units = sheet_of(drawn.text), drawn.job.units
    edits = []
    for path, at, by in (place for moved in moves for place in _coordinates(moved)):
        text = sheet.get(path)
        value: Plain = held(at + by, units)
        if isinstance(text, str) and style.lone_length(text) is None:
            value = style.shifted_arithmetic(text, by, units, snap=FINE)
        edits.append(Edit(action="set", path=path, value=value))
    return tuple(edits)


def _only_these(drawn: Drawn, sent: requests.DragSent, said: Mapping[tuple[Path, int], str]) -> tuple[Edit, ...]:
    """The boards of rows as exceptions with a line of their own."""
    names = _boards(sent.target)
    edits = []
    for name in names:
        spec = drawn.spec(name)
        ends, path = [_gone(spec, end, sent) for end in (0, 1)], line_path(drawn, spec)
        line: Plain = [
            [said.get(((*path, at), axis), _number(drawn, place, _snap(sent))) for axis, place in enumerate(end)]
            for at, end in enumerate(ends)
        ]
        edits.append(only_this_one(drawn.text, spec.path, spec.index, {"line": line}))
    return tuple(edits)


def _gone(spec: BoardSpec, end: int, sent: requests.DragSent) -> Point:
    (x, y), (dx, dy) = spec.line[end], sent.by
    target = sent.target
    stays = isinstance(target, requests.EndTarget) and (target.end == "start") != (end == 0)
    return (x, y) if stays else (x + dx, y + dy)


def _boards(target: requests.Target) -> list[str]:
    match target:
        case requests.BoardTarget():
            return list(target.boards)
        case requests.EndTarget():
            return [target.board]
    raise refused("refused", "only a board of a row can go its own way", "choose another way of writing it")


def _snap(sent: requests.DragSent) -> float:
    """What a moved place is rounded to."""
    return FINE if sent.exact else style.SNAP


def _number(drawn: Drawn, length: float, snap: float) -> float:
    """A length as a bare number in the job's units."""
    return float(style.signed(style.Style(), length, drawn.job.units, snap=snap))


def _coordinates(moved: Moved) -> Iterable[tuple[Path, float, float]]:
    """The coordinates that do move: path, where they are, by how much."""
    for place in (0, 1):
        if moved.by[place]:
            yield (*moved.path, place), moved.at[place], moved.by[place]


def _plain(drawn: Drawn, moved: Moved, snap: float) -> list[Edit]:
    return [Edit(action="set", path=path, value=_number(drawn, at + by, snap)) for path, at, by in _coordinates(moved)]


def _named(drawn: Drawn, moves: tuple[Moved, ...], name: str, snap: float) -> tuple[Edit, ...]:
    places = [place for moved in moves for place in _coordinates(moved)]
    values = {_number(drawn, at + by, snap) for _, at, by in places}
    if not name:
        raise refused("refused", "the new measure has no name", "give it one")
    if name in drawn.job.measures:
        raise refused("refused", f"there is a measure called {name} already", "choose another name")
    if len(values) != 1:
        raise refused("refused", "one measure cannot give two different places", "move it along one direction only")
    (value,) = values
    first = Edit(action="set", path=("measures", name), value=value)
    return (first, *(Edit(action="set", path=path, value=name) for path, _, _ in places))


def _by_measure(drawn: Drawn, moves: tuple[Moved, ...], name: str) -> tuple[Edit, ...]:
    lever = next((lever for lever in levers(drawn, moves) if lever.name == name), None)
    if lever is None:
        raise refused("refused", f"the place does not change evenly with {name}", "choose another way of writing it")
    needed, others = set(), []
    for moved in moves:
        for path, _, by in _coordinates(moved):
            if path in lever.slopes:
                needed.add(round(by / lever.slopes[path], 6))
            else:
                others.append(Edit(action="shift", path=path, value=by))
    if len(needed) > 1:
        raise refused("refused", f"no single value of {name} puts all of it there", "choose another way of writing it")
    edits = [Edit(action="shift", path=("measures", name), value=off) for off in needed]
    return (*edits, *others)


# --- words


def _called(target: requests.Target) -> str:
    match target:
        case requests.BoardTarget():
            names = target.boards
            return names[0] if len(names) == 1 else f"{names[0]} and {len(names) - 1} more"
        case requests.EndTarget():
            return f"{target.board}, {target.end}"
        case requests.CornerTarget():
            return f"{target.frame}, corner {target.corner + 1}"
        case requests.SideTarget():
            return f"{target.frame}, side {target.side + 1}"
    return "a board"


def way_said(by: Vec2, units: LengthUnit) -> str:
    """A move in words: "12 mm to the right, 3 mm down"."""
    words = []
    for value, plus, minus in ((by[0], "to the right", "to the left"), (by[1], "up", "down")):
        if value:
            words.append(f"{length_text(abs(value), units)} {plus if value > 0 else minus}")
    return ", ".join(words) or "not moved"
