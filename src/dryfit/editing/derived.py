"""Figures of a board that are worked out, and can be typed all the same, because the file holds what they hang on.

    rake     it turns about its foot: see `raking`
    length   of its line: its far end goes on along it
    along    from its foot to where another board meets it: the other board moves square to itself
    clear    between it and the next board parallel to it: it moves square to itself
    row ...  the spacing and the thickness of a whole row: see `rows`

Each is a move of something by so much, and is written as a move of the hand is (see `moving`), only as exactly as it
was typed.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from ..documents.elevation import foot_of
from ..geometry.frames import Vec2
from ..job.model import BoardSpec
from ..lengths import MM_PER, LengthUnit, figure, length_text
from ..piece.model import Board
from . import requests
from .answers import Offer
from .composed import Composed
from .drawn import Drawn, no_such
from .moving import HERE, ONE, by_measure, evaluated, written_as
from .points import follow, frame_of, points_of
from .raking import ANGLE, MOST, angle_offers, angle_ways, rake_of, rise_in, turned
from .refusals import refused
from .rows import even_row, fellows, row_typed
from .ways import offers

PARALLEL = 0.01  # degrees: below this two boards have one direction
LEAST = 1e-6
ROW = ("row clear", "row centres", "row thick")
LEAST_SQUARE = 0.05  # mm: less is the same figure
RUN, FOOT = 300.0, 304.8  # mm in which a rake is said as a rise


@dataclass(frozen=True, slots=True, kw_only=True)
class Derived:
    """One figure.

    Attributes:
        beside: the other board, where there is one.
        value: mm; of a rake degrees.
        after: what stands behind the value: "right of plumb".
        target: what moves when it is typed.
        way: by how much, a mm of the figure; nothing for a rake.
        together: whether the usual way would move both boards, so that nothing came of it: they are one row's.
    """

    figure: requests.DerivedFigure
    label: str
    value: float
    sentence: str
    target: requests.Target
    beside: str = ""
    after: str = ""
    way: Vec2 = (0.0, 0.0)
    together: bool = False


def figures_of(drawn: Drawn, name: str) -> tuple[Derived, ...]:
    """The figures of a board that can be typed."""
    spec, board = drawn.spec(name), drawn.board(name)
    return (*_rake(drawn, spec), *_length(drawn, spec), *_clear(drawn, spec, board), *_along(drawn, spec, board))


def row_figures(drawn: Drawn, name: str) -> tuple[Derived, ...]:
    """The figures of a whole row that can be typed, asked of one of its boards; its rake is that board's too."""
    return (*_row(drawn, drawn.spec(name)), *_rake(drawn, drawn.spec(name)))


def derived(drawn: Drawn, sent: requests.DerivedSent) -> Composed:
    """The edits that bring a figure to what was typed.

    Raises:
        Refused: it is not there, or cannot come to that.
    """
    if sent.figure in ROW:
        return row_typed(drawn, sent)
    found = _named(drawn, sent.board, sent.figure, sent.beside)
    value = _typed(drawn, found, sent.entry)
    says = f"{sent.board}: {found.label} = {sent.entry.strip()}"
    if found.figure == "rake":
        spec = drawn.spec(sent.board)
        for held in angle_ways(drawn, spec, rake_of(spec), value):
            if held.id == (sent.choice or ANGLE):
                return Composed(edits=(held.edit,), says=says)
        by = turned(spec, rake_of(spec), value)
    else:
        by = (found.way[0] * (value - found.value), found.way[1] * (value - found.value))
    usual = ONE if found.together else HERE
    far = max(map(abs, by))
    if far > requests.FAR:
        raise refused("refused", f"{sent.board} would reach {length_text(far, drawn.job.units)} further", "type less")
    drag = requests.DragSent(
        do="drag", target=found.target, by=by, exact=True, choice=sent.choice or usual, name=sent.name
    )
    edits = written_as(drawn, drag, points_of(drawn, found.target, by))
    return Composed(edits=edits, says=says, follow=follow(drawn, found.target))


def ways_of(drawn: Drawn, asked: requests.WaysAsked) -> tuple[Offer, ...]:
    """The ways in which a figure may be written once it is typed, the usual one first.

    Raises:
        Refused: it is not there.
    """
    if asked.figure in ROW:
        return ()
    found = _named(drawn, asked.board, asked.figure, asked.beside)
    usual = offers(drawn, found.target)
    if found.figure == "rake":
        spec = drawn.spec(asked.board)
        angles = [*angle_offers(drawn, spec, rake_of(spec))]
        first = [offer for offer in angles if offer.id == ANGLE]
        return (*first, *usual[:1], *(offer for offer in angles if offer.id != ANGLE), *usual[1:])
    if found.together:
        usual = tuple(offer for offer in usual if offer.id != HERE)
    measures = set(map(by_measure, drawn.job.measures))
    return tuple(offer for offer in usual if found.beside not in offer.boards or offer.id not in measures)


def _named(drawn: Drawn, board: str, name: str, beside: str) -> Derived:
    for found in figures_of(drawn, board):
        if (found.figure, found.beside) == (name, beside):
            return found
    raise no_such("figure to type", f"{name} {beside}".strip())


def _typed(drawn: Drawn, found: Derived, entry: str) -> float:
    """What was typed: mm, or degrees, which may be said so behind the number."""
    job, angle = drawn.job, found.figure == "rake"
    text = entry.strip().removesuffix("°").removesuffix("degrees").removesuffix("deg") if angle else entry
    value = evaluated(drawn, text)
    if angle:
        value /= MM_PER[job.units]
        if abs(value) > MOST:
            raise refused("refused", f"a rake of {figure(value)} degrees", f"type {MOST:g} at most, or move its ends")
    elif value <= LEAST:
        raise refused("refused", f"{found.label} comes to {length_text(value, job.units)}", "type more than 0")
    return value


# --- the board's own line


def _rake(drawn: Drawn, spec: BoardSpec) -> Iterator[Derived]:
    """Of a board with ends of its own; the corners of a frame are other boards' too."""
    if spec.frame or math.dist(*spec.line) < LEAST:
        return
    rake = rake_of(spec)
    if rake.steep:
        turns = "It turns about its foot; its head keeps its level"
    else:
        stays, far = ("left", "right") if rake.way > 0 else ("right", "left")
        turns = f"It turns about its {stays} end; its {far} end keeps its plumb"
    yield Derived(
        figure="rake",
        label="rake" if rake.steep else "slope",
        value=rake.value,
        after=rake.said,
        sentence=f"{_rise(rake.value, drawn.job.units)}. {turns}.",
        target=_end(spec, rake.head),
    )


def _rise(value: float, units: LengthUnit) -> str:
    """A rake as one sets a bevel by a square: so much in so much."""
    if units == "mm":
        return f"{figure(rise_in(value, RUN))} in {RUN:g}"
    return f"{length_text(rise_in(value, FOOT), units)} over {length_text(FOOT, units)}"


def _end(spec: BoardSpec, end: int) -> requests.EndTarget:
    return requests.EndTarget(what="end", board=spec.name, end="end" if end else "start")


def _length(drawn: Drawn, spec: BoardSpec) -> Iterator[Derived]:
    size = math.dist(*spec.line)
    if spec.frame:
        yield from _side_length(drawn, spec)
    elif size >= LEAST:
        rake = rake_of(spec)
        (x, y), (far, high) = spec.line[rake.foot], spec.line[rake.head]
        yield Derived(
            figure="length",
            label="length",
            value=size,
            sentence="Of its line as drawn. Its foot stays; its other end moves along the line.",
            target=_end(spec, rake.head),
            way=((far - x) / size, (high - y) / size),
        )


def _side_length(drawn: Drawn, spec: BoardSpec) -> Iterator[Derived]:
    """Of a frame's side between its corners: the next side moves, if it stands square to this one."""
    frame, side = frame_of(drawn.job, spec.frame), spec.index - 1
    count = len(frame.points)
    here, end = frame.points[side], frame.points[(side + 1) % count]
    size = math.dist(here, end)
    if size < LEAST:
        return
    way = (end[0] - here[0]) / size, (end[1] - here[1]) / size
    following = (side + 1) % len(frame.boards)
    target: requests.Target = requests.CornerTarget(what="corner", frame=frame.name, corner=(side + 1) % count)
    moves = "its end"
    if frame.closed or side + 1 < len(frame.boards):
        other = frame.points[(side + 2) % count]
        if abs((other[0] - end[0]) * way[0] + (other[1] - end[1]) * way[1]) > LEAST * size:
            return
        target = requests.SideTarget(what="side", frame=frame.name, side=following)
        moves = frame.boards[following]
    sentence = f"Between the corners of {frame.name}, points on its {frame.size}; {moves} moves."
    yield Derived(figure="length", label="length", value=size, sentence=sentence, target=target, way=way)


# --- of a whole row


def _row(drawn: Drawn, spec: BoardSpec) -> Iterator[Derived]:
    row = even_row(drawn, spec)
    target = requests.BoardTarget(what="boards", boards=[one.name for one in fellows(drawn, spec)])
    if row is not None:
        level = "level" if row.axis == 0 else "plumb"
        after, square = "", abs(row.step) / row.wide * drawn.board(spec.name).thickest - drawn.board(spec.name).thickest
        if row.clear - square > LEAST_SQUARE:
            after = f"measured {level}; {length_text(square, drawn.job.units)} square to them"
        yield Derived(
            figure="row clear",
            label="clear",
            value=row.clear,
            after=after,
            sentence="Between the faces of one board and the next; the first stays, the others move.",
            target=target,
        )
        yield Derived(
            figure="row centres",
            label="on centres",
            value=abs(row.step),
            after=f"measured {level}" if after else "",
            sentence="From the middle of one board to that of the next; the first stays, the others move.",
            target=target,
        )
    yield Derived(
        figure="row thick",
        label="thickness",
        value=drawn.board(spec.name).thickest,
        sentence="Of all its boards: of their timber, or where others are of that too, of one of their own like it.",
        target=target,
    )


# --- between it and others


def _mover(drawn: Drawn, name: str) -> requests.Target:
    """What moves a board: the side of a frame, or the board."""
    spec = drawn.spec(name)
    if spec.frame:
        return requests.SideTarget(what="side", frame=spec.frame, side=spec.index - 1)
    return requests.BoardTarget(what="boards", boards=[spec.name])


def along_of(drawn: Drawn, spec: BoardSpec, board: Board) -> Iterator[tuple[str, float, float]]:
    """The boards that meet this one between its ends: name, place from the datum end, and up from its foot."""
    foot = foot_of(board)
    for joint in drawn.piece.joints:
        if board.name not in joint.key or joint.meeting.path:
            continue
        here, other = joint.meeting.side(board.name), joint.meeting.other(board.name)
        if here.end or other.body not in drawn.piece.board_by_name or drawn.spec(other.body).path == spec.path:
            continue
        yield other.body, here.at, (here.at - foot) * (1.0 if foot == 0.0 else -1.0)


def _along(drawn: Drawn, spec: BoardSpec, board: Board) -> Iterator[Derived]:
    foot = foot_of(board)
    for name, _, value in sorted(along_of(drawn, spec, board), key=lambda found: found[2]):
        x, y = _square_to(drawn.board(name))
        share = (board.frame.x[0] * x + board.frame.x[1] * y) * (1.0 if foot == 0.0 else -1.0)
        yield Derived(
            figure="along",
            label=f"to {name}",
            beside=name,
            value=value,
            sentence=f"Along its centre-line from its foot to that of {name}, which moves.",
            target=_mover(drawn, name),
            way=(x * share, y * share),
        )


def _square_to(board: Board) -> Vec2:
    x, y, _ = board.frame.x
    return -y, x


def _clear(drawn: Drawn, spec: BoardSpec, board: Board) -> Iterator[Derived]:
    """To the nearest board on either side that runs the same way beside it."""
    if board.lies == "flat":
        return
    x, y = _square_to(board)
    nearest: dict[int, tuple[float, Board]] = {}
    for other in drawn.piece.boards:
        off = _off(board, other) if drawn.piece.whole.get(other.name, other.name) != spec.name else None
        if off is None:
            continue
        side, gap = (1 if off > 0 else -1), abs(off) - (board.thickest + other.thickest) / 2
        if gap > LEAST and (side not in nearest or gap < nearest[side][0]):
            nearest[side] = gap, other
    for side, (gap, other) in sorted(nearest.items(), reverse=True):
        yield Derived(
            figure="clear",
            label=f"clear to {other.name}",
            beside=other.name,
            value=gap,
            after=_word((side * x, side * y)),
            sentence="Between their faces; this board moves.",
            target=_mover(drawn, spec.name),
            way=(-side * x, -side * y),
            together=drawn.spec(other.name).path == spec.path and not spec.frame,
        )


def _off(board: Board, other: Board) -> float | None:
    """How far another board's centre-line lies aside; None unless it runs the same way, and beside it."""
    turn = (other.angle - board.angle) % 180.0
    if other.lies == "flat" or min(turn, 180.0 - turn) > PARALLEL:
        return None
    x, y = _square_to(board)
    ends = [other.frame.place((a, 0.0, 0.0)) for a in (0.0, other.length)]
    away = [(end[0] - board.frame.origin[0], end[1] - board.frame.origin[1]) for end in ends]
    low, high = sorted(dx * board.frame.x[0] + dy * board.frame.x[1] for dx, dy in away)
    if min(high, board.length) - max(low, 0.0) < LEAST:
        return None
    return away[0][0] * x + away[0][1] * y


def _word(way: Vec2) -> str:
    if abs(way[1]) > abs(way[0]):
        return "above" if way[1] > 0 else "below"
    return "to the right" if way[0] > 0 else "to the left"
