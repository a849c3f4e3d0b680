"""A bay as a thing: its clear openings, which side gives when one is typed, bays made equal, a board put in one.

What comes of it is written as it was meant where the file can say so: so much clear from a face, half-way between two
faces, equal bays between two. Where boards lean, or a place would go round in a circle, the figures are written.
"""

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise

from shapely import Polygon

from ..book import change_job_text
from ..errors import EditError, JobError
from ..geometry.frames import Vec2
from ..job import style
from ..job.arithmetic import Place, parse
from ..job.edits import sheet_of
from ..job.model import BoardSpec
from ..job.writing import only_this_one
from ..lengths import length_text
from ..piece.setout import Made
from ..places import Edit, Plain
from . import requests
from .answers import BayCard, Bays, CureShown, EditShown, Gives, Opening, Stretch, Together
from .bays import (
    FINE,
    LEAST_BAY,
    BayEnd,
    area_at,
    areas_of,
    bay_of,
    bays_of,
    bounds_of,
    covering,
    number_text,
    point_at,
    run_of,
    size_text,
    written,
)
from .composed import Composed
from .cutting import cut_in
from .drawn import Drawn
from .making import free_name, timber_edits, usual_depth, usual_timber
from .moving import evaluated, is_row, way_said, written_as
from .points import follow, line_path, points_of
from .refusals import refused
from .relating import Depending, Node, related
from .rows import equal_text, fellows, row_laid

ALIKE = 0.05  # mm, as figures are read: bays that differ by less are equal
PARALLEL = 0.01  # degrees
LEANS_ALIKE = 1e-4  # degrees: over 3000 this is 0.005, too little to be seen
HOW_MANY = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
PUT = (
    ("1/2", 1 / 2, "half-way", "half-way"),
    ("1/3", 1 / 3, "a third from the left", "a third up"),
    ("2/3", 2 / 3, "two thirds from the left", "two thirds up"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class BayRun:
    """Bays that follow one another along an axis, the one that was asked for among them.

    Attributes:
        line: the place on the other axis at which they are measured.
        here: which of the bays.
    """

    axis: int
    line: float
    bays: tuple[tuple[BayEnd, BayEnd], ...]
    here: int

    @property
    def low(self) -> BayEnd:
        """What the bay begins at."""
        return self.bays[self.here][0]

    @property
    def high(self) -> BayEnd:
        """What it ends at."""
        return self.bays[self.here][1]

    @property
    def clear(self) -> float:
        """Of the bay, mm."""
        return self.high.at - self.low.at

    @property
    def boards(self) -> set[str]:
        """All that bound a bay of it."""
        return {bound.board for bay in self.bays for bound in bay} - {""}


def all_bays(drawn: Drawn, revision: int) -> Bays:
    """Every bay, the largest first."""
    return Bays(revision=revision, bays=bays_of(drawn))


def bay_card(drawn: Drawn, made: Made, at: Vec2, others: Iterable[Vec2] = ()) -> BayCard | None:
    """A bay by a point in it: what bounds it, what can be typed, what can be done with it; None where there is none.

    Args:
        drawn: the job.
        made: what is cut.
        at: a point in the bay.
        others: points in those that are chosen with it.
    """
    areas = areas_of(drawn)
    area = covering(areas, at)
    if area is None:
        return None
    hanging = Depending(drawn)
    runs = [_run(drawn, areas, area, axis) for axis in (0, 1)]
    return BayCard(
        bay=bay_of(area),
        openings=tuple(_opening(drawn, made, hanging, run) for run in runs),
        puts=tuple(_puts(drawn, area, runs)),
        together=_together(drawn, made, hanging, areas, area, [covering(areas, other) for other in others]),
    )


def _together(
    drawn: Drawn,
    made: Made,
    hanging: Depending,
    areas: tuple[Polygon, ...],
    area: Polygon,
    others: Iterable[Polygon | None],
) -> Together | None:
    chosen = [area, *(one for one in others if one is not None and one is not area)]
    if len(chosen) < 2:
        return None
    for axis in (0, 1):
        in_row, line = run_of(drawn, areas, area, axis)
        found = [at for at, one in enumerate(in_row) if any(one is other for other in chosen)]
        if len(found) == len({id(one) for one in chosen}):
            run, (first, last) = _run(drawn, areas, area, axis), (found[0], found[-1])
            equal = (
                _made_equal(drawn, hanging, run, first, last)
                if not (why := _held(drawn, made, run, first, last))
                else why
            )
            middle = (run.bays[first][0].at + run.bays[last][1].at) / 2
            return Together(
                bays=tuple(bay_of(one) for one in in_row[first : last + 1]),
                at=point_at(axis, middle, line),
                equal=None if isinstance(equal, str) else equal.cure,
                moves="" if isinstance(equal, str) else equal.moves,
                why=equal if isinstance(equal, str) else "",
            )
    return Together(
        bays=tuple(bay_of(one) for one in chosen),
        at=bay_of(area).at,
        equal=None,
        moves="",
        why="they do not follow one another in one row, with one board between",
    )


def _held(drawn: Drawn, made: Made, run: BayRun, first: int, last: int) -> str:
    """Why the boards between bays cannot move; "" where all can."""
    for _, high in run.bays[first:last]:
        if high.spec is None:
            return "the wall stays as it is"
        if why := "it is a side of a frame" if high.spec.frame else _stays(drawn, made, high.spec, run):
            return f"{high.board} stays: {why}"
    return ""


def _run(drawn: Drawn, areas: tuple[Polygon, ...], area: Polygon, axis: int) -> BayRun:
    run, line = run_of(drawn, areas, area, axis)
    bays = tuple(bounds_of(drawn, one, axis, line) for one in run)
    return BayRun(axis=axis, line=line, bays=bays, here=next(at for at, one in enumerate(run) if one is area))


def _opening(drawn: Drawn, made: Made, hanging: Depending, run: BayRun) -> Opening:
    low, high = run.low, run.high
    found = _equal(drawn, made, hanging, run)
    return Opening(
        axis="x" if run.axis == 0 else "y",
        line=run.line,
        clear=run.clear,
        square=_square(low, high),
        low=low.board,
        high=high.board,
        gives=tuple(
            Gives(board=one.board, why=_kept(drawn, made, hanging, run, one, other))
            for one, other in ((high, low), (low, high))
        ),
        row=tuple(Stretch(start=one.at, end=other.at) for one, other in run.bays),
        here=run.here,
        equal=None if found is None else found.cure,
        moves="" if found is None else found.moves,
    )


def _square(low: BayEnd, high: BayEnd) -> float | None:
    """Of a bay between boards that lean alike, measured square to them; None where that is no other figure."""
    if low.spec is None or high.spec is None or low.straight or low.lies or high.lies:
        return None
    one, other = (_lean(bound.spec, low.axis) for bound in (low, high) if bound.spec is not None)
    return (high.at - low.at) * math.cos(math.radians(one)) if abs(one - other) < PARALLEL else None


def _lean(spec: BoardSpec, axis: int) -> float:
    """Degrees by which a board's line is off square to an axis."""
    (x0, y0), (x1, y1) = spec.line
    along, across = (x1 - x0, y1 - y0) if axis == 0 else (y1 - y0, x1 - x0)
    return math.degrees(math.atan2(along, across)) if across > 0 else math.degrees(math.atan2(-along, -across))


# --- what gives


def _kept(drawn: Drawn, made: Made, hanging: Depending, run: BayRun, bound: BayEnd, other: BayEnd) -> str:
    """Why a side of a bay cannot give; "" where it can."""
    spec = bound.spec
    if spec is None:
        return "the wall stays as it is"
    why = _stays(drawn, made, spec, run)
    if why or other.spec is None:
        return why
    return f"{other.board} hangs on it and goes with it" if _hangs(drawn, hanging, other.spec, spec, run.axis) else ""


def _stays(drawn: Drawn, made: Made, spec: BoardSpec, run: BayRun) -> str:
    """Why a board cannot move along the axis of a run; "" where it can: what hangs on boards of the run alone may."""
    if any(bound.lies for bay in run.bays for bound in bay if bound.spec is spec):
        return "it has no face there"
    if cut_in(drawn, made, [spec.name]) or any(spec.name in one.between for one in made.cuts):
        return "what is cut of it or for it would no longer fit"
    mine = _nodes(drawn, spec, run.axis)
    others: dict[str, None] = {}
    for one in related(drawn):
        if (one.path, one.axis) in mine and (one.spec is None or one.spec.name == spec.name):
            others |= dict.fromkeys(sorted(one.boards - run.boards))
    return f"it hangs on {' and '.join(others)}" if others else ""


def _nodes(drawn: Drawn, spec: BoardSpec, axis: int) -> set[Node]:
    """The coordinates of the file by which a board stands where it does on an axis."""
    if spec.frame:
        target = requests.SideTarget(what="side", frame=spec.frame, side=spec.index - 1)
        return {(moved.path, one) for moved in points_of(drawn, target, (0.0, 0.0)) for one in (0, 1)}
    return {((*line_path(drawn, spec), end), axis) for end in (0, 1)}


def _hangs(drawn: Drawn, hanging: Depending, one: BoardSpec, on: BoardSpec, axis: int) -> bool:
    """Whether a board's place hangs on another's; boards of one row do where their row does."""
    mine = _nodes(drawn, on, axis)
    if one.path == on.path and not one.frame:
        return False
    return bool(hanging.reach(_nodes(drawn, one, axis)) & mine)


# --- one opening typed


def done_in_bay(drawn: Drawn, sent: requests.RowSent | requests.ClearSent, made: Made) -> Composed:
    """The edits for what is done in a bay: a row laid, or its opening typed.

    Raises:
        Refused: it cannot be done.
    """
    return row_laid(drawn, sent) if isinstance(sent, requests.RowSent) else clear_typed(drawn, sent, made)


def clear_typed(drawn: Drawn, sent: requests.ClearSent, made: Made) -> Composed:
    """The edits that make a bay as wide or as high as typed; the side named gives, else the first that can.

    Raises:
        Refused: there is no bay, no side can give, or the figure is none of a bay.
    """
    areas = areas_of(drawn)
    run = _run(drawn, areas, area_at(areas, sent.at), 0 if sent.axis == "x" else 1)
    value = _typed(drawn, sent.entry)
    hanging = Depending(drawn)
    sides = [(run.high, run.low, 1.0), (run.low, run.high, -1.0)]
    if sent.gives:
        sides = [side for side in sides if side[0].board == sent.gives]
    kept = [(side, _kept(drawn, made, hanging, run, side[0], side[1])) for side in sides]
    able = next((side for side, why in kept if not why), None)
    if able is None:
        whys = "; ".join(f"{side[0].board or 'the end'}: {why}" for side, why in kept)
        raise refused(
            "refused", whys or f"{sent.gives} is no side of this bay", "let another board give, or type elsewhere"
        )
    bound, fixed, way = able
    assert bound.spec is not None, "the wall does not give"
    by = (value - run.clear) * way
    text = _clear_text(drawn, hanging, bound, fixed, value, sent.entry)
    edits = tuple(_moved(drawn, bound.spec, run.axis, by, text, run))
    units = drawn.job.units
    clear = f"{length_text(value, units)} clear between {fixed.board or 'the wall'} and {bound.board}"
    says = f"{clear}: {bound.board} {way_said(_along(run, by), units)}"
    target = requests.BoardTarget(what="boards", boards=[bound.board])
    return Composed(edits=edits, says=says, follow=follow(drawn, target))


def _typed(drawn: Drawn, entry: str) -> float:
    found = evaluated(drawn, entry)
    if not LEAST_BAY <= found <= requests.FAR:
        least = length_text(LEAST_BAY, drawn.job.units)
        raise refused("refused", f"{entry} is no clear opening", f"type {least} or more")
    return found


def _along(run: BayRun, by: float) -> Vec2:
    return (by, 0.0) if run.axis == 0 else (0.0, by)


def _clear_text(drawn: Drawn, hanging: Depending, bound: BayEnd, fixed: BayEnd, value: float, entry: str) -> str:
    """The place of the board that gives, as so much from the other's face; "" where only a figure can say it."""
    spec, face = bound.spec, fixed.text(drawn)
    if spec is None or fixed.spec is None or not face or spec.path == fixed.spec.path:
        return ""
    size = _size(drawn, hanging, spec, (fixed,), bound.axis)
    if not size:
        return ""
    plain = parse(entry)
    clear = f"({entry.strip()})" if plain.names else number_text(written(drawn, value))
    sign = "+" if fixed.at < bound.at else "-"
    return f"{face} {sign} {clear} {sign} {size} / 2"


def _size(drawn: Drawn, hanging: Depending, spec: BoardSpec, on: Iterable[BayEnd], axis: int) -> str:
    """The text of a board's size where it may be placed by faces of other boards; "" where it may not.

    It stands straight, and so do they; and none of them hangs on it, which would be a circle.
    """
    if spec.frame or spec.line[0][axis] != spec.line[1][axis]:
        return ""
    if any(not bound.straight or _in_a_circle(drawn, hanging, spec, bound, axis) for bound in on):
        return ""
    return size_text(drawn, spec)


def _in_a_circle(drawn: Drawn, hanging: Depending, spec: BoardSpec, bound: BayEnd, axis: int) -> bool:
    """Whether what a board would be placed by hangs on that board."""
    if bound.spec is None:
        return False
    path, place = line_path(drawn, spec), Place(bound.word, bound.spec.name)
    needs = hanging.needed(place, axis, (*path, 0)) | hanging.needed(place, axis, (*path, 1))
    return bool(hanging.reach(needs) & _nodes(drawn, spec, axis))


def _moved(
    drawn: Drawn,
    spec: BoardSpec,
    axis: int,
    by: float,
    text: str,
    run: BayRun,
    at_ends: tuple[str, str] = ("", ""),
) -> Iterator[Edit]:
    """The edits that move a board along an axis.

    `text` is where its line is then, where that can be said, and `at_ends` what is added to it at either end. One of a
    row is an exception of its row, whose other coordinates stay as they are written.
    """
    if spec.frame:
        target = requests.SideTarget(what="side", frame=spec.frame, side=spec.index - 1)
        sent = requests.DragSent(do="drag", target=target, by=_along(run, by), exact=True)
        yield from written_as(drawn, sent, points_of(drawn, target, sent.by))
        return
    path, sheet = line_path(drawn, spec), sheet_of(drawn.text)
    places = [
        f"{text}{at_ends[end]}" if text else _shifted(drawn, sheet.get((*path, end, axis)), spec.line[end][axis], by)
        for end in (0, 1)
    ]
    if is_row(drawn, spec):
        others = [sheet.get((*path, end, 1 - axis)) for end in (0, 1)]
        line: Plain = [[place, up] if axis == 0 else [up, place] for place, up in zip(places, others, strict=True)]
        yield only_this_one(drawn.text, spec.path, spec.index, {"line": line})
        return
    for end, place in enumerate(places):
        yield Edit(action="set", path=(*path, end, axis), value=place)


def _shifted(drawn: Drawn, text: Plain, at: float, by: float) -> Plain:
    """A coordinate moved: arithmetic keeps its measures, what hung on boards that move too is a figure."""
    if isinstance(text, str) and style.lone_length(text) is None and not parse(text).places:
        fine = FINE[drawn.job.units] * (1.0 if drawn.job.units == "mm" else 25.4)
        return style.shifted_arithmetic(text, by, drawn.job.units, snap=fine)
    return written(drawn, at + by)


# --- bays made equal


@dataclass(frozen=True, slots=True, kw_only=True)
class Equal:
    """What makes bays equal, and what moves by it in words: "shelf 2: 10 down; shelf 3: 10 up"."""

    cure: CureShown
    moves: str


def _equal(drawn: Drawn, made: Made, hanging: Depending, run: BayRun) -> Equal | None:
    """How the bay and its neighbours are made equal; None where they are, or nothing between them can move."""
    first, last = run.here, run.here
    while first > 0 and _free(drawn, made, run, run.bays[first][0]):
        first -= 1
    while last < len(run.bays) - 1 and _free(drawn, made, run, run.bays[last][1]):
        last += 1
    found = _made_equal(drawn, hanging, run, first, last) if last > first else ""
    return None if isinstance(found, str) else found


def _made_equal(drawn: Drawn, hanging: Depending, run: BayRun, first: int, last: int) -> Equal | str:
    """How bays of a run are made equal, boards between them being free to move; or why that is not done."""
    bays = run.bays[first : last + 1]
    clears = [high.at - low.at for low, high in bays]
    if max(clears) - min(clears) < ALIKE:
        return "they are equal"
    each = sum(clears) / len(bays)
    moves: list[tuple[BoardSpec, float]] = []
    at = bays[0][0].at
    for (_, high), (after, _) in pairwise(bays):
        assert high.spec is not None, "it is free to move"
        at += each
        moves.append((high.spec, at - high.at))
        at += after.at - high.at
    ends = bays[0][0], bays[-1][1]
    if any(end.spec and _hangs(drawn, hanging, end.spec, spec, run.axis) for end in ends for spec, _ in moves):
        return "what they lie between would go along"
    edits = _equal_edits(drawn, hanging, run, ends, moves)
    units = drawn.job.units
    many = HOW_MANY[len(bays)] if len(bays) < len(HOW_MANY) else str(len(bays))
    label = f"make these {many} equal, {length_text(each, units)} each"
    said = [f"{spec.name}: {way_said(_along(run, by), units)}" for spec, by in moves if abs(by) >= ALIKE]
    return Equal(cure=_cure(label, edits), moves="; ".join(said))


def _free(drawn: Drawn, made: Made, run: BayRun, bound: BayEnd) -> bool:
    """Whether a board between two bays can be moved to make them equal."""
    return bound.spec is not None and not bound.spec.frame and not _stays(drawn, made, bound.spec, run)


def _equal_edits(
    drawn: Drawn, hanging: Depending, run: BayRun, ends: tuple[BayEnd, BayEnd], moves: list[tuple[BoardSpec, float]]
) -> tuple[Edit, ...]:
    specs = [spec for spec, _ in moves]
    sizes = _sizes(drawn, hanging, ends, specs, run.axis)
    texts = _equal_texts(drawn, ends, specs, sizes)
    if whole := _one_table(drawn, specs):
        return tuple(_table_edits(drawn, run, ends, moves, sizes[0] if texts else "", whole))
    return tuple(
        edit
        for at, (spec, by) in enumerate(moves)
        for edit in _moved(
            drawn, spec, run.axis, by, texts[at] if texts else "", run, at_ends=_off(drawn, spec, ends, run)
        )
    )


def _sizes(
    drawn: Drawn, hanging: Depending, ends: tuple[BayEnd, BayEnd], specs: list[BoardSpec], axis: int
) -> list[str]:
    """What each board takes of the bays beside it, as the file can say it; "" of one that cannot be placed by faces."""
    return [
        _size(drawn, hanging, spec, ends, axis) or _leaning_size(drawn, hanging, spec, ends, axis) for spec in specs
    ]


def _leaning_size(drawn: Drawn, hanging: Depending, spec: BoardSpec, on: tuple[BayEnd, ...], axis: int) -> str:
    """The same of a board that leans, between faces that stand straight, or that all lean as it does."""
    lean = _lean(spec, axis)
    if spec.frame or abs(lean) < PARALLEL or not (_all_straight(on) or all(_leans_so(one, lean) for one in on)):
        return ""
    if any(_in_a_circle(drawn, hanging, spec, bound, axis) for bound in on):
        return ""
    size = size_text(drawn, spec)
    return f"{size} / cos({number_text(round(abs(lean), 6))})" if size else ""


def _all_straight(on: tuple[BayEnd, ...]) -> bool:
    return all(bound.straight for bound in on)


def _leans_so(bound: BayEnd, lean: float) -> bool:
    return bound.spec is not None and not bound.lies and abs(_lean(bound.spec, bound.axis) - lean) < LEANS_ALIKE


def _off(drawn: Drawn, spec: BoardSpec, ends: tuple[BayEnd, BayEnd], run: BayRun) -> tuple[str, str]:
    """How far each end of a board that leans between straight faces is off where it is measured, to be added to it."""
    if not _all_straight(ends) or abs(_lean(spec, run.axis)) < PARALLEL:
        return "", ""
    (x0, y0), (x1, y1) = (point if run.axis == 0 else point[::-1] for point in spec.line)
    there = x0 + (run.line - y0) * (x1 - x0) / (y1 - y0)
    return _added(written(drawn, x0 - there)), _added(written(drawn, x1 - there))


def _added(by: float) -> str:
    return f" {'-' if by < 0 else '+'} {number_text(abs(by))}" if by else ""


def _equal_texts(drawn: Drawn, ends: tuple[BayEnd, BayEnd], specs: list[BoardSpec], sizes: list[str]) -> list[str]:
    """Where each board stands, as equal bays between two faces; none where only figures can say it."""
    low, high = (end.text(drawn) for end in ends)
    if not (low and high and all(sizes)):
        return []
    bays = len(specs) + 1
    axis = ends[0].axis
    thick = {(spec.timber if spec.lies == "across" else "", round(abs(_lean(spec, axis)), 6)) for spec in specs}
    if len(thick) == 1 and all(timber for timber, _ in thick):
        return [equal_text(low, high, size, str(at), bays) for at, size in enumerate(sizes, start=1)]
    each = f"({high} - {low} - {' - '.join(sizes)}) / {bays}"
    found = []
    for at, size in enumerate(sizes, start=1):
        before = "".join(f" + {one}" for one in sizes[: at - 1])
        found.append(f"{low} + {at} * {each}{before} + {size} / 2")
    return found


def _one_table(drawn: Drawn, specs: list[BoardSpec]) -> int:
    """Which way boards are numbered that are all of one row and nothing else: 1 or -1; 0 where they are not."""
    row = fellows(drawn, specs[0])
    if len(specs) < 2 or any(line_path(drawn, spec) != (*row[0].path, "line") for spec in specs):
        return 0
    names = [spec.name for spec in specs]
    own = [spec.name for spec in row]
    return 1 if names == own else -1 if names == own[::-1] else 0


def _table_edits(
    drawn: Drawn,
    run: BayRun,
    ends: tuple[BayEnd, BayEnd],
    moves: list[tuple[BoardSpec, float]],
    size: str,
    way: int,
) -> Iterator[Edit]:
    """A whole row written anew: its boards stay one table; `size` of one as the file says it, "" for figures."""
    ordered = moves[::way]
    (first, by), (last, there), steps = ordered[0], ordered[-1], len(moves) + 1
    for end in (0, 1):
        at, to = first.line[end][run.axis] + by, last.line[end][run.axis] + there
        far = (to - at) / (len(moves) - 1) * steps
        begins = at - first.index * far / steps
        value = f"{number_text(written(drawn, begins))} + i * {number_text(written(drawn, far))} / {steps}"
        if size and first.index == 1:
            low, high = (bound.text(drawn) for bound in ends)
            off = _off(drawn, first, ends, run)[end]
            near, beyond = f"{low} - {size} / 2", f"{high} + {size} / 2"
            value = f"between({near}, {beyond}, i / {steps})" if way > 0 else f"between({beyond}, {near}, i / {steps})"
            value += off
        yield Edit(action="set", path=(*first.path, "line", end, run.axis), value=value)


# --- a board put in


def _puts(drawn: Drawn, area: Polygon, runs: list[BayRun]) -> Iterator[CureShown]:
    """A board put in the bay half-way or at a third of it, standing or lying; what leaves no bay is not offered."""
    for run, word in zip(runs, ("divider", "shelf"), strict=True):
        name = free_name(drawn, word)
        for text, share, *where in PUT:
            # Between leaning boards a place may not be one that a file can say: then the figures are written.
            ways = (_put(drawn, area, run, name, text, share, meant=meant) for meant in (True, False))
            edits = next((way for way, plumb in ways if plumb or _sound(drawn, way)), None)
            if edits is not None:
                yield _cure(f"a {word} {where[run.axis]}", edits)


def _put(
    drawn: Drawn, area: Polygon, run: BayRun, name: str, text: str, share: float, *, meant: bool
) -> tuple[tuple[Edit, ...], bool]:
    """The edits for one, by the places it is meant to have or by figures; whether all that it is put to is straight."""
    place = run.low.at + run.clear * share
    ends = bounds_of(drawn, area, 1 - run.axis, place)
    at: Plain = written(drawn, place)
    low, high = run.low.text(drawn), run.high.text(drawn)
    if meant and low and high and (run.low.meant(drawn) or run.high.meant(drawn)):
        at = f"between({low}, {high}, {text})"
    line: list[Plain] = []
    for end in ends:
        said = end.meant(drawn) if meant else ""
        up: Plain = said or written(drawn, end.at)
        line.append([at, up] if run.axis == 0 else [up, at])
    table: dict[str, Plain] = {"name": name, "line": line, **usual_timber(drawn), "depth": usual_depth(drawn)}
    straight = all(bound.straight for bound in (run.low, run.high, *ends))
    return (*timber_edits(drawn), Edit(action="add", path=("board",), value=table)), straight


def _sound(drawn: Drawn, edits: tuple[Edit, ...]) -> bool:
    """Whether the file can be read with edits made."""
    try:
        return change_job_text(drawn.text, edits)[1] is not None
    except (EditError, JobError):
        return False


def _cure(label: str, edits: tuple[Edit, ...]) -> CureShown:
    shown = (EditShown(action=edit.action, path=edit.path, value=edit.value) for edit in edits)
    return CureShown(label=label, edits=tuple(shown))
