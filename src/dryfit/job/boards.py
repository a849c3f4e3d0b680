"""Boards as typed: rows of a `count` taken apart, exceptions put in, every length worked out."""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from ..places import Path
from .arithmetic import COUNTER
from .mistakes import Mistakes
from .model import BoardSpec, EndForm, LineIs, Point, Timber
from .names import MEMBER, shown
from .options import NOT_BELOW_0, bound
from .schema import LEAST_SIZE, MOST_BOARDS, BoardTable, ExceptTable, Scribe, TimberTable
from .style import key

NUMBER = "{i}"  # in a name: the board's number in its row
SHORTEST = LEAST_SIZE  # two points nearer than this are one


@dataclass(slots=True)
class Ground:
    """What boards and frames are read against.

    Attributes:
        sanded: off each face.
        names: of boards and frames so far, each with the path of its table.
        room: how many boards may still be read.
    """

    mistakes: Mistakes
    measures: Mapping[str, float]
    timbers: Mapping[str, Timber]
    known_timbers: frozenset[str]
    sanded: float = 0.0
    names: dict[str, Path] = field(default_factory=dict)
    room: int = MOST_BOARDS

    def claim(self, name: str, path: Path) -> bool:
        """Take a name for the thing at `path`; a name that is taken is a mistake."""
        if name not in self.names:
            self.names[name] = path
            return True
        line = self.mistakes.spans.line_of(self.names[name])
        self.mistakes.add(path, f"the name {shown(name)} is taken in line {line}", "give one of the two another name")
        return False

    def keep_for_members(self) -> None:
        """Note names that members of another board would be called, were it divided."""
        for name, path in self.names.items():
            member = MEMBER.fullmatch(name)
            if member and member[1] in self.names:
                says = f"{shown(name)} is what a member of {shown(member[1])} would be called"
                self.mistakes.add(path, says, "give one of the two another name")

    def timber(self, name: str | None, path: Path, owner: str) -> str | None:
        """The timber meant; None, with the mistake noted, where there is none."""
        if name is None and len(self.known_timbers) == 1:
            return next(iter(self.known_timbers))
        if name is not None and name in self.known_timbers:
            return name
        if self.mistakes.is_lost("timber"):
            return None
        if name is not None and self.known_timbers:
            self.mistakes.unknown(path, f"there is no [timber.{name}]", name, sorted(self.known_timbers))
        elif name is not None:
            self.mistakes.add(path, f"there is no [timber.{name}]", f"add a table [timber.{key(name)}]")
        elif self.known_timbers:
            remedy = f"add timber = {shown(min(self.known_timbers))}, or another of the file"
            self.mistakes.add(path, f"{shown(owner)} has no timber", remedy)
        else:
            self.mistakes.add(
                path, f"{shown(owner)} has no timber", "add a table [timber.NAME], and timber = NAME here"
            )
        return None


def read_boards(tables: list[tuple[BoardTable, Path]], ground: Ground) -> Iterator[BoardSpec]:
    """Yield every board, the rows of a `count` one by one."""
    for table, path in tables:
        count = table.count or 1
        if count > ground.room:
            says = f"this makes more than {MOST_BOARDS} boards in all"
            ground.mistakes.add((*path, "count"), says, f"keep a job within {MOST_BOARDS} boards")
            continue
        ground.room -= count
        yield from _row(table, path, count, ground)


def _row(table: BoardTable, path: Path, count: int, ground: Ground) -> Iterator[BoardSpec]:
    if table.name is not None and NUMBER in table.name and table.count is None:
        says = f"the name has {NUMBER}, but the board has no count"
        ground.mistakes.add((*path, "name"), says, f"add count = 2, or take {NUMBER} out")
    template = table.name or ""
    if table.count is not None and NUMBER not in template:
        template += f" {NUMBER}"
    others = _exceptions(table, path, count, ground)
    for number in range(1, count + 1):
        own, own_path = others.get(number, (None, path))
        if own is not None and own.absent:
            continue
        typed = _Typed(table, path, own, own_path, number, ground)
        name = (own.name if own is not None and own.name else template).replace(NUMBER, str(number))
        board = typed.board(name)
        if board is not None:
            yield board


def _exceptions(table: BoardTable, path: Path, count: int, ground: Ground) -> dict[int, tuple[ExceptTable, Path]]:
    found: dict[int, tuple[ExceptTable, Path]] = {}
    for at, own in enumerate(table.exceptions):
        place: Path = (*path, "except", at)
        if table.count is None:
            ground.mistakes.add(place, "an exception stands under a board without a count", "add count to the board")
        elif own.i is None:
            ground.mistakes.add(place, 'the exception has no "i"', "add i = 1, the number of the board in its row")
        elif own.i > count:
            ground.mistakes.add((*place, "i"), f"the row has only {count}", f"give a number from 1 to {count}")
        elif own.i in found:
            ground.mistakes.add((*place, "i"), f"board {own.i} of the row has two exceptions", "put both into one")
        else:
            found[own.i] = own, place
    return found


class _Typed:
    """One board: its row's keys, overlaid by those of its exception."""

    def __init__(
        self, row: BoardTable, path: Path, own: ExceptTable | None, own_path: Path, number: int, ground: Ground
    ) -> None:
        self.row, self.path = row, path
        self.own, self.own_path = own, own_path
        self.number = number
        self.ground = ground
        self.mistakes = ground.mistakes
        self.scope = ground.measures if row.count is None else {**ground.measures, COUNTER: float(number)}

    def get(self, key: str) -> tuple[Any, Path]:
        """A key's value, and where it stands."""
        if self.own is not None:
            value = getattr(self.own, key)
            if value is not None:
                return value, (*self.own_path, key)
        return getattr(self.row, key), (*self.path, key)

    def board(self, name: str) -> BoardSpec | None:
        """The board; None where a mistake leaves it without what it needs."""
        named = bool(self.row.name) and self.ground.claim(name, (*self.path, "name"))
        wanted, timber_path = self.get("timber")
        timber = self.ground.timber(wanted, timber_path if wanted else self.path, name)
        line = self.line()
        flat = self.get("lies")[0] == "flat"
        depth = self.depth(flat=flat)
        back = self.length("back")
        scribe = self.scribe()
        measured = self.thickness_at()
        splices = self.splice_at(line)
        if not named or timber is None or line is None or depth is None or back is None or measured is None:
            return None
        line_is: LineIs = self.get("line_is")[0] or "centre"
        return BoardSpec(
            name=name,
            timber=timber,
            line=line,
            line_is=line_is,
            depth=depth,
            back=back,
            lies="flat" if flat else "across",
            ends=self.ends(),
            scribe=scribe,
            thickness_at=measured,
            splice_at=splices,
            path=self.path,
            index=self.number,
        )

    def length(self, key: str, default: float = 0.0) -> float | None:
        value, path = self.get(key)
        return default if value is None else self.mistakes.length(value, path, self.scope)

    def line(self) -> tuple[Point, Point] | None:
        points, path = self.get("line")
        if points is None:
            return None
        length, scope = self.mistakes.length, self.scope
        x0 = length(points[0][0], (*path, 0, 0), scope)
        y0 = length(points[0][1], (*path, 0, 1), scope)
        x1 = length(points[1][0], (*path, 1, 0), scope)
        y1 = length(points[1][1], (*path, 1, 1), scope)
        if x0 is None or y0 is None or x1 is None or y1 is None:
            return None
        if abs(x1 - x0) < SHORTEST and abs(y1 - y0) < SHORTEST:
            self.mistakes.add(path, "the line has no length: it ends where it starts", "give it two different points")
            return None
        return (x0, y0), (x1, y1)

    def depth(self, *, flat: bool) -> float | None:
        wanted, other = ("width", "depth") if flat else ("depth", "width")
        value, path = self.get(wanted)
        stray, stray_path = self.get(other)
        if stray is not None:
            lying = "lies flat" if flat else "does not lie flat"
            self.mistakes.add(stray_path, f'"{other}" is said of a board that {lying}', f"call it {wanted}")
        elif value is None and not self.was_wrong(wanted):
            self.mistakes.add(self.path, f'a board has no "{wanted}"', f"add {wanted} = ...", read="")
        if value is None:
            return None
        length = self.mistakes.length(value, path, self.scope)
        return self.mistakes.within(bound(BoardTable, wanted), length, path, wanted)

    def was_wrong(self, key: str) -> bool:
        """Whether the key is written, and its value was refused already."""
        return self.mistakes.spans.place_of((*self.path, key)) != self.mistakes.spans.place_of(self.path)

    def ends(self) -> tuple[EndForm | None, EndForm | None]:
        ends = self.get("ends")[0]
        return (None, None) if ends is None else (ends.start, ends.end)

    def scribe(self) -> tuple[float, float]:
        scribe, path = self.get("scribe")
        if scribe is None:
            return 0.0, 0.0
        found = []
        for end in ("start", "end"):
            value, place = getattr(scribe, end), (*path, end)
            length = 0.0 if value is None else self.mistakes.length(value, place, self.scope)
            found.append(self.mistakes.within(bound(Scribe, end), length, place, "scribe") or 0.0)
        return found[0], found[1]

    def splice_at(self, line: tuple[Point, Point] | None) -> tuple[float, ...]:
        """Where the maker divides it, sorted; places off the line, or too near its ends or each other, are mistakes."""
        places, path = self.get("splice_at")
        if places is None or line is None:
            return ()
        size = math.dist(*line)
        found: list[float] = []
        for at, place in enumerate(places):
            length = self.mistakes.length(place, (*path, at), self.scope)
            if length is not None and not 0.0 < length < size:
                says = f"the board is divided at {self.mistakes.said(length)}, off its line"
                self.mistakes.add((*path, at), says, f"give a place between 0 and {self.mistakes.said(size)}")
            elif (
                length is not None
                and length not in found
                and min(abs(length - end) for end in (0.0, size, *found)) < LEAST_SIZE
            ):
                says = f"a member of {self.mistakes.said(LEAST_SIZE)} or more must be left on either side of a division"
                self.mistakes.add((*path, at), says, "move the place, or take it out")
            elif length is not None:
                found.append(length)
        return tuple(sorted(set(found)))

    def thickness_at(self) -> tuple[tuple[float, float], ...] | None:
        """The measured places, sorted; None where a mistake makes them useless."""
        places, path = self.get("thickness_at")
        if places is None:
            return ()
        found: dict[float, float] = {}
        for at, (along, thickness) in enumerate(places):
            a = self.mistakes.length(along, (*path, at, 0), self.scope)
            a = self.mistakes.within(NOT_BELOW_0, a, (*path, at, 0), "the distance from the line's start")
            t = self.mistakes.length(thickness, (*path, at, 1), self.scope)
            t = thick_enough(t, (*path, at, 1), self.mistakes, self.ground.sanded)
            if a is None or t is None:
                return None
            if a in found:
                says = "this place has two thicknesses"
                self.mistakes.add((*path, at), says, "keep the one that was measured")
            found[a] = t
        return tuple(sorted(found.items()))


def thick_enough(thickness: float | None, path: Path, mistakes: Mistakes, sanded: float = 0.0) -> float | None:
    """A thickness that a board can have, once so much is sanded off each face; else None with the mistake noted."""
    if thickness is not None and sanded and LEAST_SIZE <= thickness < LEAST_SIZE + 2 * sanded:
        says = f"sanding leaves {mistakes.said(thickness - 2 * sanded)} of this thickness"
        mistakes.add(path, says, f"leave {mistakes.said(LEAST_SIZE)} or more")
        return None
    hint = "; across the board is its depth" if thickness is not None and thickness > LEAST_SIZE else ""
    return mistakes.within(bound(TimberTable, "thickness"), thickness, path, "thickness", hint)
