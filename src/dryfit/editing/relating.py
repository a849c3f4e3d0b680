"""What is meant by a move, as the job file holds it: coordinates that name places of boards, and what hangs on them.

snapped       the coordinate says the place it came to, a board that leans or a whole frame is carried along by it
moved with    of boards moved together, one that hangs on another of them goes with it and is not written over
taken out     what named a board that goes is the figure it stood for, and all else of its text stays
copied        what named a board that is copied too names the copy
"""

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from ..job import style
from ..job.arithmetic import NUMBER, ArithmeticMistake, Expression, Place, parse
from ..job.edits import sheet_of
from ..job.model import BoardSpec, Job, Point
from ..job.renaming import with_places
from ..job.standing import ENDS, SIZES, STRAIGHT, Line, Places, standing_of
from ..job.writing import only_this_one
from ..places import Edit, Path, Plain
from .drawn import Drawn
from .figures import FINE, held
from .points import Moved, frame_of, line_path
from .refusals import refused

SAME = 1e-6  # mm
NEAR = 0.05  # mm: as near as a hand that snapped comes to the place it snapped to
LEANS = 1e-6  # mm between two coordinates that are one

Node = tuple[Path, int]  # a point of the file, and the axis


@dataclass(frozen=True, slots=True, kw_only=True)
class Related:
    """A coordinate that names places of boards.

    Attributes:
        spec: the board whose line it is of; None for a point of a frame.
        path: of its point.
        at: the point.
        text: as it is written.
        number: of the board in its row.
    """

    spec: BoardSpec | None
    path: Path
    axis: int
    at: Point
    text: str
    number: int = 1

    @property
    def read(self) -> Expression:
        """The text as arithmetic."""
        return parse(self.text)

    @property
    def boards(self) -> set[str]:
        """The boards that it names."""
        return {named(place, self.number) for place in self.read.places}


def named(place: Place, number: int) -> str:
    """The board that a place is of, for the board of that number in its row."""
    return place.board.replace(NUMBER, str(number))


def related(drawn: Drawn) -> Iterator[Related]:
    """Every coordinate that names places, of a row once for each of its boards."""
    for spec in drawn.job.boards:
        if not spec.frame:
            path = line_path(drawn, spec)
            yield from (one for end in (0, 1) for one in _named_at(drawn, (*path, end), spec.line[end], spec))
    for frame in drawn.job.frames:
        for corner, at in enumerate(frame.points):
            yield from _named_at(drawn, (*frame.path, "points", corner), at, None)


def _named_at(drawn: Drawn, path: Path, at: Point, spec: BoardSpec | None) -> Iterator[Related]:
    sheet = sheet_of(drawn.text)
    for axis in (0, 1):
        text = sheet.get((*path, axis))
        if isinstance(text, str) and "(" in text and parse(text).places:
            number = 1 if spec is None else spec.index
            yield Related(spec=spec, path=path, axis=axis, at=at, text=text, number=number)


# --- what hangs on what


class Depending:
    """Which coordinates of a job hang on which others, through the places that they name."""

    def __init__(self, drawn: Drawn) -> None:
        self._drawn = drawn
        self._specs = {spec.name: spec for spec in drawn.job.boards}
        self._needs: dict[Node, set[Node]] = {}
        for one in related(drawn):
            needs = self._needs.setdefault((one.path, one.axis), set())
            for place in one.read.places:
                needs |= self.needed(place, one.axis, one.path, one.number)

    def needed(self, place: Place, axis: int, path: Path, number: int = 1) -> set[Node]:
        """The coordinates that a place needs, named at a point of the file."""
        spec = self._specs.get(named(place, number))
        if spec is None or place.word in SIZES:
            return set()
        board = standing_of(spec, self._drawn.job)
        straight = abs(spec.line[1][axis] - spec.line[0][axis]) < STRAIGHT and board.even
        met = set() if straight or place.word in ENDS else {(path, 1 - axis)}
        if spec.frame:
            frame = frame_of(self._drawn.job, spec.frame)
            return met | {((*frame.path, "points", at), one) for at in range(len(frame.points)) for one in (0, 1)}
        line = line_path(self._drawn, spec)
        if board.line_is == "centre" and place.word in ENDS:
            return {((*line, ENDS.index(place.word)), axis)}
        axes = (axis,) if board.line_is == "centre" and straight else (0, 1)
        return met | {((*line, end), one) for end in (0, 1) for one in axes}

    def reach(self, nodes: Iterable[Node]) -> set[Node]:
        """All that coordinates hang on, they themselves among it."""
        found: set[Node] = set()
        ahead = list(nodes)
        while ahead:
            node = ahead.pop()
            if node not in found:
                found.add(node)
                ahead.extend(self._needs.get(node, ()))
        return found


# --- moved together


def not_followed(drawn: Drawn, moves: tuple[Moved, ...], boards: Iterable[str]) -> tuple[Moved, ...]:
    """Moves of whole boards, less what each coordinate does by itself since it hangs on another of them."""
    lines = {spec.name: _gone(spec, moves, drawn) for spec in map(drawn.spec, drawn.wholes(boards))}
    now, then = Places(drawn.job), Places(drawn.job, lines)
    left = {moved.path: list(moved.by) for moved in moves}
    for one in related(drawn):
        by = left.get(one.path)
        if by is None or not one.boards & lines.keys() or not by[one.axis]:
            continue
        total = next(moved.by for moved in moves if moved.path == one.path)
        goal = (one.at[0] + total[0], one.at[1] + total[1])
        follows = then.worked_out(one.read, one.axis, goal, one.number) - now.worked_out(
            one.read, one.axis, one.at, one.number
        )
        rest = total[one.axis] - follows
        by[one.axis] = 0.0 if abs(rest) < SAME else rest
    return tuple(replace(moved, by=(left[moved.path][0], left[moved.path][1])) for moved in moves)


def _gone(spec: BoardSpec, moves: tuple[Moved, ...], drawn: Drawn) -> Line:
    """A board's line once what moves has moved."""
    if spec.frame:
        by = next((moved.by for moved in moves if moved.path[:2] == spec.path), (0.0, 0.0))
        start, end = ((x + by[0], y + by[1]) for x, y in spec.line)
        return start, end
    path = line_path(drawn, spec)
    shifts = {moved.path: moved.by for moved in moves}
    start, end = (
        (x + shifts.get((*path, at), (0.0, 0.0))[0], y + shifts.get((*path, at), (0.0, 0.0))[1])
        for at, (x, y) in enumerate(spec.line)
    )
    return start, end


# --- snapped


@dataclass(frozen=True, slots=True, kw_only=True)
class Snap:
    """A point of what is moved that came to a place.

    Attributes:
        axis: on which.
        points: of the file, that are this point or whose faces are.
        text: what the place is, as the file writes it.
        off: what of the handle's place the line's is, as text to be put behind it: ` - thickness("shelf") / 2`.
    """

    axis: int
    points: tuple[Path, ...]
    text: str
    off: str = ""


def written(drawn: Drawn, moves: tuple[Moved, ...], snaps: Iterable[Snap]) -> dict[Node, str]:
    """The coordinates that say the place which they came to.

    Raises:
        Refused: the place is not where the hand came to.
    """
    found: dict[Node, str] = {}
    for snap in snaps:
        for moved in moves:
            if moved.path in snap.points:
                found[moved.path, snap.axis] = _said(drawn, snap, moved)
    for snap in snaps:
        found |= _carried(drawn, moves, snap, found)
    return found


def _said(drawn: Drawn, snap: Snap, moved: Moved) -> str:
    """The text for one coordinate, which must come to where the hand has it."""
    text = f"{snap.text}{snap.off}"
    goal = (moved.at[0] + moved.by[0], moved.at[1] + moved.by[1])
    try:
        off = abs(Places(drawn.job).worked_out(parse(text), snap.axis, goal) - goal[snap.axis])
    except ArithmeticMistake as mistake:
        raise refused("refused", mistake.says, mistake.remedy) from None
    if off > NEAR:
        raise refused("refused", f"{snap.text} is not where the hand came to", "let it snap again")
    return text


def _carried(drawn: Drawn, moves: tuple[Moved, ...], snap: Snap, found: Mapping[Node, str]) -> dict[Node, str]:
    """What goes with a snapped point, so that a plumb board stays plumb, a leaning one and a frame keep their shape."""
    more: dict[Node, str] = {}
    lines = {path[:-1] for path in snap.points}
    for line in lines:
        own = [moved for moved in moves if moved.path[:-1] == line]
        first = next((moved for moved in own if moved.path in snap.points), None)
        if first is None:
            continue
        whole = line[-1:] == ("points",) and len(own) == len(sheet_of(drawn.text).get(line))
        leans = line[-1:] == ("line",) and all(abs(own[0].at[axis] - own[-1].at[axis]) > LEANS for axis in (0, 1))
        for moved in own:
            if (moved.path, snap.axis) in found:
                continue
            if abs(moved.at[snap.axis] - first.at[snap.axis]) < LEANS:
                more[moved.path, snap.axis] = _said(drawn, snap, moved)
            elif whole or leans:
                more[moved.path, snap.axis] = _from_there(drawn, snap, moved)
    return more


def _from_there(drawn: Drawn, snap: Snap, moved: Moved) -> str:
    """The place with so much put to it as there is to another point."""
    text, job = f"{snap.text}{snap.off}", drawn.job
    goal = (moved.at[0] + moved.by[0], moved.at[1] + moved.by[1])
    by = goal[snap.axis] - Places(job).worked_out(parse(text), snap.axis, goal)
    return style.shifted_arithmetic(text, by, job.units, snap=FINE)


# --- taken out


def figures_for(drawn: Drawn, gone: Collection[str]) -> tuple[list[Edit], list[str]]:
    """The edits that put figures in the place of boards which go, and the boards and frames that keep their place so.

    Text that says more than the figure stays: `left("upright 1") + 12` becomes `588 + 12` only if it names another
    board or a measure, else 600.
    """
    places = Places(drawn.job)
    texts: dict[tuple[Path, int], dict[str, list[Related]]] = {}
    keeping: dict[str, None] = {}
    for one in related(drawn):
        if one.spec is not None and one.spec.name in gone:
            continue
        if one.boards & set(gone):
            owner = one.spec.name if one.spec is not None else _frame_at(drawn.job, one.path)
            keeping[owner] = None
        texts.setdefault((one.path, one.axis), {}).setdefault(_without(drawn, places, one, gone), []).append(one)
    edits: list[Edit] = []
    single: dict[str, BoardSpec] = {}
    for (path, axis), ways in texts.items():
        (text, ones), *others = ways.items()
        if others:  # boards of a row, each with a figure of its own
            single |= {one.spec.name: one.spec for same in ways.values() for one in same if one.spec is not None}
        elif text != ones[0].text:
            edits.append(Edit(action="set", path=(*path, axis), value=_plain(drawn, ones[0], text)))
    for name, spec in single.items():
        if name in keeping:
            line: Plain = [[held(place, drawn.job.units) for place in end] for end in spec.line]
            edits.append(only_this_one(drawn.text, spec.path, spec.index, {"line": line}))
    return edits, list(keeping)


def _frame_at(job: Job, path: Path) -> str:
    return next(frame.name for frame in job.frames if path[: len(frame.path)] == frame.path)


def _without(drawn: Drawn, places: Places, one: Related, gone: Collection[str]) -> str:
    def figure(word: str, board: str) -> str:
        place = Place(word, board)
        if named(place, one.number) not in gone:
            return style.place_text(word, board)
        value = held(places.of(place, one.axis, one.at, one.number), drawn.job.units)
        text = style.plain_number(value)
        return f"({text})" if value < 0 else text

    return with_places(one.text, figure)


def _plain(drawn: Drawn, one: Related, text: str) -> Plain:
    """What is left of a text: a number where it hangs on nothing any more."""
    read = parse(text)
    return text if read.names or read.places else held(one.at[one.axis], drawn.job.units)


def stays_said(names: list[str]) -> str:
    """What figures in the place of a board mean, in words."""
    if not names:
        return ""
    shown = names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
    shown = f"{', '.join(names[:3])} and {len(names) - 3} more" if len(names) > 4 else shown
    one = len(names) == 1
    return f"; {shown} {'stays' if one else 'stay'} where {'it' if one else 'they'} stood, by figures now"


# --- copied


def copied_text(
    drawn: Drawn, one: Related, called: Mapping[str, str], lines: Mapping[str, Line], at: Point, *, mirrored: bool
) -> str | None:
    """The text of a coordinate for a copy, naming copies; None where a figure must serve.

    Args:
        drawn: what is copied.
        one: the coordinate.
        called: every board that is copied, with the name of its copy.
        lines: of the boards that are copied, where the copies lie.
        at: where the copy's point lies.
        mirrored: whether left and right change places.
    """
    if not one.boards <= called.keys() or "i" in one.read.names:
        return None
    other = {"left": "right", "right": "left"} if mirrored else {}

    def copy(word: str, board: str) -> str:
        name = named(Place(word, board), one.number)
        return style.place_text(other.get(word, word), called[name])

    def there(word: str, board: str) -> str:
        return style.place_text(other.get(word, word), named(Place(word, board), one.number))

    try:
        value = Places(drawn.job, lines).worked_out(parse(with_places(one.text, there)), one.axis, at)
    except ArithmeticMistake:
        return None
    return with_places(one.text, copy) if abs(value - at[one.axis]) < SAME else None
