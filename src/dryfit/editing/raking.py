"""The rake of a board as it can be typed: how far it leans off plumb or slopes off level, and where that is written.

A steep board is turned about its foot, and its head keeps its level, because it stands up to something; a flat one is
turned about its lower end, and its far end keeps its plumb. So one coordinate moves. Where that is written with an
angle, as a number in `tan(9)` or through a measure in `tan(lean)`, the angle may be written there.
"""

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass

from ..errors import JobError
from ..geometry.frames import Vec2
from ..job import style
from ..job.arithmetic import COUNTER, ArithmeticMistake, parse
from ..job.edits import TomlText, sheet_of
from ..job.model import BoardSpec
from ..lengths import to_mm
from ..places import Edit, Path
from .answers import Offer
from .drawn import Drawn
from .levers import boards_moved, is_typed, measures_in, with_measure
from .points import line_path

STEEP = 60.0  # degrees off plumb: beyond, a board is said to slope off level
MOST = 80.0  # degrees that may be typed either way: past this neither word means anything
ANGLE = "angle"  # the way that writes the angle itself; behind a blank the measure that holds it
SAME = 1e-4  # mm: as near as sums of tangents come
FINEST = 6  # decimals of an angle as it is written
_LITERAL = re.compile(r"(?<=tan\()\s*-?\s*\d+(?:\.\d+)?\s*(?=\))")


@dataclass(frozen=True, slots=True, kw_only=True)
class Rake:
    """How a board leans.

    Attributes:
        value: degrees, 0 or more.
        steep: off plumb; else off level.
        foot, head: which end of the line (0 start, 1 end) it is turned about, and which moves.
        way: +1 where it leans to the right, or its far end lies to the right.
    """

    value: float
    steep: bool
    foot: int
    head: int
    way: int

    @property
    def said(self) -> str:
        """What stands behind the figure."""
        side = "right" if self.way > 0 else "left"
        if self.steep:
            return f"{side} of plumb" if self.value else "plumb"
        return f"up to the {side}" if self.value else "level"


def rake_of(spec: BoardSpec) -> Rake:
    """How the line of a board leans."""
    foot = 0 if spec.line[0][1] <= spec.line[1][1] else 1
    (x, y), (far, high) = spec.line[foot], spec.line[1 - foot]
    dx, dy = far - x, high - y
    off = math.degrees(math.atan2(abs(dx), dy))
    steep = off < STEEP
    value = off if steep else 90.0 - off
    way = 1 if dx >= 0 else -1
    return Rake(value=round(value, 9) + 0.0, steep=steep, foot=foot, head=1 - foot, way=way)


def turned(spec: BoardSpec, rake: Rake, value: float) -> Vec2:
    """By how much the head moves for another rake, in degrees; below 0 it leans the other way."""
    (x, y), (far, high) = spec.line[rake.foot], spec.line[rake.head]
    tangent = math.tan(math.radians(value))
    if rake.steep:
        return x + rake.way * (high - y) * tangent - far, 0.0
    return 0.0, y + abs(far - x) * tangent - high


def rise_in(value: float, run: float) -> float:
    """How far it goes aside in so much along plumb, or up in so much along level."""
    return run * math.tan(math.radians(value))


# --- where the angle may be written


@dataclass(frozen=True, slots=True, kw_only=True)
class Holds:
    """A way to write an angle: its id, the edit, and the measure that it changes where it is one."""

    id: str
    edit: Edit
    boards: tuple[str, ...]
    measure: str = ""


def angle_ways(drawn: Drawn, spec: BoardSpec, rake: Rake, value: float) -> Iterator[Holds]:
    """The places in the file that hold the rake as an angle, each with the edit that brings it to a value."""
    sheet = sheet_of(drawn.text)
    axis = 0 if rake.steep else 1
    path = (*line_path(drawn, spec), rake.head, axis)
    text = sheet.get(path)
    if not isinstance(text, str):
        return
    wanted = spec.line[rake.head][axis] + turned(spec, rake, value)[axis]
    yield from _in_text(drawn, spec, path, text, wanted, value)
    yield from _in_measures(drawn, sheet, spec, text, wanted, value)


def _in_text(drawn: Drawn, spec: BoardSpec, path: Path, text: str, wanted: float, value: float) -> Iterator[Holds]:
    """A number within `tan( )`, if there is just one."""
    if len(_LITERAL.findall(text)) != 1:
        return
    for angle in (value, -value):
        changed = _LITERAL.sub(style.plain_number(round(angle, FINEST)), text)
        if _comes_to(drawn, spec, changed, {}, wanted):
            own = tuple(other.name for other in drawn.job.boards if other.path == spec.path)
            yield Holds(id=ANGLE, edit=Edit(action="set", path=path, value=changed), boards=own)
            return


def _in_measures(
    drawn: Drawn, sheet: TomlText, spec: BoardSpec, text: str, wanted: float, value: float
) -> Iterator[Holds]:
    """A measure that is the angle."""
    for name in measures_in(text, drawn.job):
        for angle in (value, -value):
            scope = {name: to_mm(angle, drawn.job.units)}
            if is_typed(sheet, name) and _comes_to(drawn, spec, text, scope, wanted):
                written = round(angle, FINEST)
                try:
                    boards = boards_moved(drawn.job, with_measure(sheet, name, written))
                except JobError:  # another board could not be read then
                    break
                edit = Edit(action="set", path=("measures", name), value=written)
                yield Holds(id=f"{ANGLE} {name}", edit=edit, boards=boards, measure=name)
                break


def _comes_to(drawn: Drawn, spec: BoardSpec, text: str, other: dict[str, float], wanted: float) -> bool:
    scope = {**drawn.job.measures, COUNTER: float(spec.index), **other}
    try:
        return abs(parse(text).evaluate(scope, drawn.job.units) - wanted) < SAME
    except ArithmeticMistake:
        return False


def angle_offers(drawn: Drawn, spec: BoardSpec, rake: Rake) -> Iterator[Offer]:
    """The same as they are offered, tried with a rake a degree from what it is."""
    for held in angle_ways(drawn, spec, rake, rake.value + 1.0):
        says = "the angle in the text"
        if held.measure:
            count = len(held.boards)
            says = f"change {held.measure}: {count} {'board follows' if count == 1 else 'boards follow'}"
        yield Offer(id=held.id, says=says, boards=held.boards)
