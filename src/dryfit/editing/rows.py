"""Rows: boards alike laid in a bay in one act, and changed as one afterwards.

What is laid says what was meant: equal bays, so much clear between the faces, or so much from centre to centre, from
the board that the bay begins at. A row that leans has its feet so; its bays are then as wide measured level at any
height, and less measured square to the boards.
"""

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from shapely import Polygon

from ..job.edits import sheet_of
from ..job.model import BoardSpec
from ..job.standing import Places, lacks, place_of, standing_of
from ..job.style import place_text
from ..lengths import MM_PER, figure, length_text
from ..places import Edit, Path, Plain
from . import requests
from .bays import (
    EVEN,
    FACES,
    LEAST_BAY,
    BayEnd,
    area_at,
    areas_of,
    bounds_of,
    middle_of,
    number_text,
    size_text,
    written,
)
from .composed import Composed
from .drawn import Drawn
from .figures import as_typed, held
from .making import free_name, timber_edits, usual_depth, usual_thickness, usual_timber
from .moving import evaluated
from .points import follow, line_path
from .refusals import refused

MOST = 100  # boards of a row
MOST_LEAN = 60.0  # degrees: more is no row of boards beside each other
SAME = 1e-4  # mm by which the steps of an even row may differ, which come of sums of tangents
_EQUAL = re.compile(r"(?<=\bi / )(\d+)\b|(?<=\bi \* )(\d+(?:\.\d+)?) / (\d+)\b")


@dataclass(frozen=True, slots=True, kw_only=True)
class Laid:
    """Where the boards of a row come.

    Attributes:
        axis: along which they follow one another; they run along the other.
        low, high: what the bay ends at.
        wide: of a board, measured along the axis.
        first, step: of their lines' feet, along the axis.
        clear: between two of them, measured along the axis.
        spaced: how that was said.
        lean: degrees, to the right or up.
    """

    axis: int
    low: BayEnd
    high: BayEnd
    count: int
    wide: float
    first: float
    step: float
    spaced: Literal["equal", "clear", "centres"]
    lean: float

    @property
    def clear(self) -> float:
        """Between two of them, measured along the axis."""
        return self.step - self.wide

    @property
    def places(self) -> list[float]:
        """Of their feet."""
        return [self.first + at * self.step for at in range(self.count)]


def row_laid(drawn: Drawn, sent: requests.RowSent) -> Composed:
    """So many boards across a bay, standing or lying, as far from each other as from its ends, or spaced as typed.

    Raises:
        Refused: there is no bay there, or no room in it for so many.
    """
    area = area_at(areas_of(drawn), sent.at)
    laid = _laid(drawn, area, sent)
    edits = (*timber_edits(drawn), *(Edit(action="add", path=("board",), value=t) for t in _tables(drawn, area, laid)))
    what = "lying" if sent.lying else "standing"
    boards = "1 board" if laid.count == 1 else f"{laid.count} boards"
    units = drawn.job.units
    if sent.centres is not None:
        spaced = f"{length_text(laid.step, units)} from centre to centre"
    else:
        spaced = f"{length_text(laid.clear, units)} clear between"
    if laid.lean:
        square = laid.step * math.cos(math.radians(laid.lean)) - usual_thickness(drawn)
        level = "plumb" if sent.lying else "level"
        spaced += f", measured {level}; {length_text(square, units)} square to them"
    return Composed(edits=edits, says=f"{boards} {what}, {spaced}")


def _laid(drawn: Drawn, area: Polygon, sent: requests.RowSent) -> Laid:
    axis = 1 if sent.lying else 0
    units = drawn.job.units
    low, high = bounds_of(drawn, area, axis, middle_of([area], 1 - axis))
    lean = 0.0 if sent.lean is None else _angle(drawn, sent.lean)
    wide = usual_thickness(drawn) / math.cos(math.radians(lean))
    span = high.at - low.at
    if sent.clear is not None and sent.centres is not None:
        raise refused("refused", "the spacing is typed twice", "type what is clear, or what is from centre to centre")
    spaced: Literal["equal", "clear", "centres"] = "equal"
    if sent.clear is not None:
        clear, spaced = _typed(drawn, sent.clear), "clear"
        first, step = low.at + clear + wide / 2, clear + wide
    elif sent.centres is not None:
        step, spaced = _typed(drawn, sent.centres), "centres"
        first = _middle(drawn, low) + step
    else:
        count = sent.count or 1
        step = (span + wide) / (count + 1)
        first = low.at - wide / 2 + step
    room = high.at - LEAST_BAY - wide / 2
    count = sent.count or max(0, min(MOST, int((room - first) / step + 1.0 + EVEN))) if step > 0 else 0
    laid = Laid(axis=axis, low=low, high=high, count=count, wide=wide, first=first, step=step, spaced=spaced, lean=lean)
    says = f"{count or 1} of {length_text(usual_thickness(drawn), units)} leave no bays between them"
    if laid.clear < LEAST_BAY or count < 1:
        raise refused("refused", says, "lay fewer" if sent.clear is None else "set them closer")
    if max(laid.places) > room + EVEN:
        needs = length_text(max(laid.places) + wide / 2 - low.at, units)
        says = f"{count} so spaced reach {needs} far, and the bay is {length_text(span, units)}"
        raise refused("refused", says, "lay fewer, or set them closer")
    return laid


def _typed(drawn: Drawn, entry: str) -> float:
    found = evaluated(drawn, entry)
    if not 0.0 < found <= requests.FAR:
        raise refused("refused", f"{entry} is no spacing", "type a length above 0")
    return found


def _angle(drawn: Drawn, entry: str) -> float:
    found = evaluated(drawn, entry) / MM_PER[drawn.job.units]
    if abs(found) > MOST_LEAN:
        raise refused("refused", f"a row that leans {figure(found)} degrees", f"type {MOST_LEAN:g} at most")
    return found


def _middle(drawn: Drawn, bound: BayEnd) -> float:
    """Of the board that a bay begins at, where it begins there; else its face."""
    if bound.spec is None or bound.lies:
        return bound.at
    return (
        Places(drawn.job).of_board(bound.spec, "middle", bound.axis, bound.spec.line[0]) if bound.straight else bound.at
    )


# --- as it is written


def _tables(drawn: Drawn, area: Polygon, laid: Laid) -> Iterator[dict[str, Plain]]:
    """One table for boards of one length, else one a board."""
    word = "shelf" if laid.axis == 1 else "upright"
    usual: dict[str, Plain] = {**usual_timber(drawn), "depth": usual_depth(drawn)}
    ends = [_ends(drawn, area, laid, place) for place in laid.places]
    alike = all(abs(one.at - other.at) < EVEN for pair in ends for one, other in zip(pair, ends[0], strict=True))
    if laid.count > 1 and alike:
        name = _row_name(drawn, word, laid.count)
        yield {"name": name, "count": laid.count, "line": _line(drawn, laid, ends[0], name, "i"), **usual}
        return
    taken: list[str] = []
    for number, own in enumerate(ends, start=1):
        taken.append(free_name(drawn, word, taken))
        yield {"name": taken[-1], "line": _line(drawn, laid, own, taken[-1], str(number)), **usual}


def _ends(drawn: Drawn, area: Polygon, laid: Laid, place: float) -> tuple[BayEnd, BayEnd]:
    """What a board's two ends come to: its foot, and its head where that is once it leans."""
    foot, head = bounds_of(drawn, area, 1 - laid.axis, place)
    if not laid.lean:
        return foot, head
    there = place + (head.at - foot.at) * math.tan(math.radians(laid.lean))
    if not laid.low.at + laid.wide / 2 < there < laid.high.at - laid.wide / 2:
        beside = (laid.low if there < place else laid.high).board or "the end of the wall"
        raise refused("refused", f"leaning so a board of the row runs into {beside}", "lean less, or lay fewer")
    return foot, bounds_of(drawn, area, 1 - laid.axis, there)[1]


def _line(drawn: Drawn, laid: Laid, ends: tuple[BayEnd, BayEnd], name: str, number: str) -> Plain:
    foot = _place(drawn, laid, name.replace("{i}", "1"), number)
    head, (low, high) = foot, ends
    if laid.lean:
        head = f"{foot} + {_figure(drawn, high.at - low.at)} * tan({number_text(laid.lean)})"
    found: list[Plain] = []
    for place, end in ((foot, low), (head, high)):
        up: Plain = (not laid.lean and end.meant(drawn)) or written(drawn, end.at)
        found.append([place, up] if laid.axis == 0 else [up, place])
    return found


def _place(drawn: Drawn, laid: Laid, name: str, number: str) -> str:
    """Where a board's centre-line lies, as arithmetic that says why."""
    low, high, size = laid.low.text(drawn), laid.high.text(drawn), place_text("thickness", name)
    plumb = not laid.lean and laid.low.straight
    if laid.spaced == "equal":
        if plumb and low and high and laid.high.straight and (laid.low.meant(drawn) or laid.high.meant(drawn)):
            return equal_text(low, high, size, number, laid.count + 1)
        start, far = laid.low.at - laid.wide / 2, laid.high.at - laid.low.at + laid.wide
        step = f"{number} * {_figure(drawn, far)} / {laid.count + 1}"
        begins = _figure(drawn, start)
        return step if begins == "0" else f"{begins} + {step}"
    if plumb and low and laid.spaced == "clear":
        return f"{low} + {number} * {_figure(drawn, laid.clear)} + ({number} - 1/2) * {size}"
    if plumb and low and laid.low.spec is not None:
        return f"{place_text('middle', laid.low.board)} + {number} * {_figure(drawn, laid.step)}"
    return f"{_figure(drawn, laid.first - laid.step)} + {number} * {_figure(drawn, laid.step)}"


def equal_text(low: str, high: str, size: str, number: str, bays: int) -> str:
    """Where the board of a number stands so that all bays between two faces are equal; all boards alike."""
    if bays == 2:
        return f"between({low}, {high}, 1/2)"
    share = f"{number} / {bays}" if number == "i" else f"{number}/{bays}"
    return f"between({low} - {size} / 2, {high} + {size} / 2, {share})"


def _figure(drawn: Drawn, length: float) -> str:
    return number_text(written(drawn, length))


def _row_name(drawn: Drawn, word: str, count: int) -> str:
    """A name for a row, none of whose boards is called as another already is."""
    names = {spec.name for spec in drawn.job.boards} | {frame.name for frame in drawn.job.frames}
    for word_of in (word, *(f"row {number} {word}" for number in range(2, len(names) + 3))):
        if names.isdisjoint(f"{word_of} {number}" for number in range(1, count + 1)):
            return f"{word_of} {{i}}"
    raise AssertionError("more rows than names")


# --- as one


@dataclass(frozen=True, slots=True, kw_only=True)
class Even:
    """A row whose boards follow one another at even steps along one axis, all alike.

    Attributes:
        specs: by their number.
        step: along the axis, below 0 where they are numbered the other way.
        wide: of a board, measured along the axis.
    """

    specs: tuple[BoardSpec, ...]
    axis: int
    step: float
    wide: float

    @property
    def clear(self) -> float:
        """Between two of them, measured along the axis."""
        return abs(self.step) - self.wide


def fellows(drawn: Drawn, spec: BoardSpec) -> tuple[BoardSpec, ...]:
    """The boards of a board's row, it among them; of a frame's side and a board of its own it alone."""
    if spec.frame:
        return (spec,)
    return tuple(other for other in drawn.job.boards if other.path == spec.path)


def even_row(drawn: Drawn, spec: BoardSpec) -> Even | None:
    """The row of a board; None where it is of no row that has one spacing."""
    specs = fellows(drawn, spec)
    if len(specs) < 2 or any(line_path(drawn, one) != (*one.path, "line") for one in specs):
        return None
    steps = {
        tuple(round((there - here) / (after.index - before.index) / SAME) for here, there in zip(a, b, strict=True))
        for before, after in pairwise(specs)
        for a, b in zip(before.line, after.line, strict=True)
    }
    first, last = specs[0], specs[-1]
    axis = 0 if abs(last.line[0][0] - first.line[0][0]) > abs(last.line[0][1] - first.line[0][1]) else 1
    word, other = FACES[axis]
    if max(one[1 - axis] for one in steps) or min(one[1 - axis] for one in steps) or lacks(word, axis, first.line):
        return None
    if max(one[axis] for one in steps) - min(one[axis] for one in steps) > 2:
        return None
    board, at = standing_of(first, drawn.job), first.line[0][1 - axis]
    wide = place_of(word, axis, first.line, board, at) - place_of(other, axis, first.line, board, at)
    step = (last.line[0][axis] - first.line[0][axis]) / (last.index - first.index)
    return Even(specs=specs, axis=axis, step=step, wide=wide)


def row_typed(drawn: Drawn, sent: requests.DerivedSent) -> Composed:
    """The spacing or the thickness of a whole row typed; its first board stays.

    Raises:
        Refused: it is of no such row, or cannot be so.
    """
    spec = drawn.spec(sent.board)
    value = _typed(drawn, sent.entry)
    if sent.figure == "row thick":
        return _thick(drawn, spec, sent.entry)
    row = even_row(drawn, spec)
    if row is None:
        raise refused("refused", f"{spec.name} is of no row that has one spacing", "move its boards one by one")
    clear = value if sent.figure == "row clear" else value - row.wide
    if clear < LEAST_BAY:
        spaced, wide = (length_text(length, drawn.job.units) for length in (value, row.wide))
        says = f"{spaced} leaves no bays between boards of {wide}"
        raise refused("refused", says, "type more")
    first = row.specs[0]
    size = size_text(drawn, first) if first.line[0][row.axis] == first.line[1][row.axis] else ""
    by = _figure(drawn, clear + row.wide)
    if sent.figure == "row clear" and size:
        by = f"({_figure(drawn, clear)} + {size})"
    way = "-" if row.step < 0 else "+"
    number = "i" if first.index == 0 else f"(i - {first.index})"
    edits = tuple(
        Edit(
            action="set",
            path=(*first.path, "line", end, row.axis),
            value=f"{_figure(drawn, first.line[end][row.axis])} {way} {number} * {by}",
        )
        for end in (0, 1)
    )
    word = "clear between" if sent.figure == "row clear" else "from centre to centre"
    target = requests.BoardTarget(what="boards", boards=[one.name for one in row.specs])
    return Composed(
        edits=edits,
        says=f"{first.name} and {len(row.specs) - 1} more: {length_text(value, drawn.job.units)} {word}",
        follow=follow(drawn, target),
    )


def recounted(drawn: Drawn, spec: BoardSpec, count: int) -> tuple[Edit, ...]:
    """The edits that keep a row's bays equal with another number of boards; none where they were not."""
    before, sheet = len(fellows(drawn, spec)), sheet_of(drawn.text)
    edits = []
    for end in (0, 1):
        for axis in (0, 1):
            path: Path = (*spec.path, "line", end, axis)
            text = sheet.get(path)
            if isinstance(text, str) and (new := _of_so_many(text, before + 1, count + 1)) != text:
                edits.append(Edit(action="set", path=path, value=new))
    return tuple(edits)


def _of_so_many(text: str, before: int, after: int) -> str:
    def again(found: re.Match[str]) -> str:
        share, far, many = found.groups()
        if int(share or many) != before:
            return found[0]
        return str(after) if share else f"{far} / {after}"

    return _EQUAL.sub(again, text)


def _thick(drawn: Drawn, spec: BoardSpec, entry: str) -> Composed:
    """The row of another thickness: its timber, where that is the row's alone, else one of its own like it."""
    row = {one.name for one in fellows(drawn, spec)}
    sheet, name = sheet_of(drawn.text), spec.timber
    says = (
        f"{spec.name} and {len(row) - 1} more: {entry.strip()} thick"
        if len(row) > 1
        else f"{spec.name}: {entry.strip()} thick"
    )
    if all(one.name in row for one in drawn.job.boards if one.timber == name):
        edits = [Edit(action="set", path=("timber", name, "thickness"), value=as_typed(entry))]
        if sheet.get(("timber", name, "measured")) is not None:
            edits.append(Edit(action="remove", path=("timber", name, "measured")))
        return Composed(edits=tuple(edits), says=says)
    wanted = f"{name} {figure(held(_typed(drawn, entry), drawn.job.units), 0.01)}".replace(".", " ")
    new = wanted if wanted not in drawn.job.timbers else f"{wanted} {len(drawn.job.timbers) + 1}"
    table = {key: value for key, value in sheet.get(("timber", name)).items() if key not in ("thickness", "measured")}
    added = Edit(action="set", path=("timber", new), value={**table, "thickness": as_typed(entry)})
    left = [
        Edit(action="set", path=(kind, at, "timber"), value=name)  # of two timbers each board has to say which
        for kind in ("board", "frame")
        for at, one in enumerate(sheet.get((kind,)) or [])
        if "timber" not in one and (kind, at) != spec.path
    ]
    own = Edit(action="set", path=(*spec.path, "timber"), value=new)
    return Composed(edits=(added, *left, own), says=f"{says}, of {new}")
