"""Boards as typed: rows of a `count` taken apart, exceptions put in, every length worked out."""

import math
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from ..places import Path
from .arithmetic import COUNTER, NUMBER
from .mistakes import Mistakes
from .model import BoardSpec, EndForm, LineIs, Timber
from .names import MEMBER, shown
from .relations import NamedBoard, Points
from .schema import LEAST_SIZE, MOST_BOARDS, BoardTable, ExceptTable
from .sizes import Sizes
from .standing import Line, Standing, standing
from .style import key

SHORTEST = LEAST_SIZE  # two points nearer than this are one


@dataclass(slots=True)
class Ground:
    """What boards and frames are read against.

    Attributes:
        sanded: off each face.
        names: of boards and frames so far, each with the path of its table.
        rows: of boards, by the name with `{i}`, each with those of its boards that there are.
        room: how many boards may still be read.
    """

    mistakes: Mistakes
    measures: Mapping[str, float]
    timbers: Mapping[str, Timber]
    known_timbers: frozenset[str]
    sanded: float = 0.0
    names: dict[str, Path] = field(default_factory=dict)
    rows: dict[str, list[str]] = field(default_factory=dict)
    room: int = MOST_BOARDS

    def claim(self, name: str, path: Path) -> bool:
        """Take a name for the thing at `path`; a name that is taken is a mistake."""
        if name not in self.names:
            self.names[name] = path
            return True
        line = self.mistakes.spans.line_of(self.names[name])
        self.mistakes.add(
            path, f"the name {shown(name)} is already used in line {line}", "give one of the two another name"
        )
        return False

    def keep_for_members(self) -> None:
        """Note names that members of another board would be called, were it divided."""
        for name, path in self.names.items():
            member = MEMBER.fullmatch(name)
            if member and member[1] in self.names:
                says = f"{shown(name)} is also the name of a member of {shown(member[1])}, were it divided"
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
            remedy = f"add timber = {shown(min(self.known_timbers))}, or another from the file"
            self.mistakes.add(path, f"{shown(owner)} has no timber", remedy)
        else:
            self.mistakes.add(
                path, f"{shown(owner)} has no timber", "add a table [timber.NAME], and timber = NAME here"
            )
        return None


@dataclass(frozen=True, slots=True, kw_only=True)
class Drafted:
    """A board all of which is read but its line, which may hang on other boards.

    Attributes:
        points: of its line; None where it has none.
        standing: about its line; None where a mistake leaves it without.
        drawn: the board by its line; None where a mistake leaves it without what it needs.
    """

    name: str
    points: Points | None
    standing: Standing | None
    drawn: Callable[[Line | None], BoardSpec | None]

    @property
    def named(self) -> dict[str, NamedBoard]:
        """The board as others name it, by its name."""
        return {} if self.points is None else {self.name: NamedBoard(points=self.points, standing=self.standing)}

    def board(self) -> BoardSpec | None:
        """The board, once its points are worked out."""
        whole = None if self.points is None else self.points.whole
        return self.drawn(None if whole is None else (whole[0], whole[1]))


def read_boards(tables: list[tuple[BoardTable, Path]], ground: Ground) -> Iterator[Drafted]:
    """Yield every board, the rows of a `count` one by one."""
    for table, path in tables:
        count = table.count or 1
        if count > ground.room:
            says = f"this makes more than {MOST_BOARDS} boards in all"
            ground.mistakes.add((*path, "count"), says, f"keep a job within {MOST_BOARDS} boards")
            continue
        ground.room -= count
        yield from _row(table, path, count, ground)


def _row(table: BoardTable, path: Path, count: int, ground: Ground) -> Iterator[Drafted]:
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
        if table.count is not None:
            ground.rows.setdefault(template, []).append(name)
        yield typed.drafted(name)


def _exceptions(table: BoardTable, path: Path, count: int, ground: Ground) -> dict[int, tuple[ExceptTable, Path]]:
    found: dict[int, tuple[ExceptTable, Path]] = {}
    for at, own in enumerate(table.exceptions):
        place: Path = (*path, "except", at)
        if table.count is None:
            ground.mistakes.add(place, "an exception is given for a board without a count", "add count to the board")
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
        self.scope = scope = ground.measures if row.count is None else {**ground.measures, COUNTER: float(number)}
        self.row_sizes = Sizes(row, path, scope, ground.mistakes)
        self.own_sizes = None if own is None else Sizes(own, own_path, scope, ground.mistakes)

    def get(self, key: str) -> tuple[Any, Path]:
        """A key's value, and where it stands."""
        if self.own is not None:
            value = getattr(self.own, key)
            if value is not None:
                return value, (*self.own_path, key)
        return getattr(self.row, key), (*self.path, key)

    def drafted(self, name: str) -> Drafted:
        """The board but for its line."""
        named = bool(self.row.name) and self.ground.claim(name, (*self.path, "name"))
        wanted, timber_path = self.get("timber")
        timber = self.ground.timber(wanted, timber_path if wanted else self.path, name)
        flat = self.get("lies")[0] == "flat"
        depth = self.depth(flat=flat)
        back = 0.0 if self.get("back")[0] is None else self.size("back")
        scribe = self.scribe()
        measured = self.thickness_at()
        line_is: LineIs = self.get("line_is")[0] or "centre"

        def drawn(line: Line | None) -> BoardSpec | None:
            line = self.with_length(line)
            splices = self.splice_at(line)
            if not named or timber is None or line is None or depth is None or back is None or measured is None:
                return None
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
                when=self.get("when")[0],
                place=self.get("place")[0],
                path=self.path,
                index=self.number,
            )

        wood, stands = self.ground.timbers.get(timber or ""), None
        if wood is not None and measured is not None and (depth is not None or not flat):
            width = depth if flat else None
            stands = standing(wood, self.ground.sanded, thickness_at=measured, line_is=line_is, width=width)
        return Drafted(name=name, points=self.points(name), standing=stands, drawn=drawn)

    def points(self, name: str) -> Points | None:
        """The ends of its line."""
        typed, path = self.get("line")
        if typed is None:
            return None
        number = None if self.row.count is None else self.number
        return Points(owner=name, path=path, typed=typed, scope=self.scope, number=number)

    def size(self, key: str) -> Any:
        """A key's lengths in mm, of the exception where that has it."""
        own = self.own_sizes is not None and getattr(self.own, key) is not None
        return self.own_sizes.of(key) if own and self.own_sizes is not None else self.row_sizes.of(key)

    def with_length(self, line: Line | None) -> Line | None:
        """The line, if it has a length."""
        if line is None:
            return None
        (x0, y0), (x1, y1) = line
        if abs(x1 - x0) < SHORTEST and abs(y1 - y0) < SHORTEST:
            says = "the line has no length: it ends where it starts"
            self.mistakes.add(self.get("line")[1], says, "give it two different points")
            return None
        return line

    def depth(self, *, flat: bool) -> float | None:
        wanted, other = ("width", "depth") if flat else ("depth", "width")
        value = self.get(wanted)[0]
        stray, stray_path = self.get(other)
        if stray is not None:
            lying = "lies flat" if flat else "does not lie flat"
            self.mistakes.add(stray_path, f'"{other}" is given for a board that {lying}', f"call it {wanted}")
        elif value is None and not self.was_wrong(wanted):
            self.mistakes.add(self.path, f'a board has no "{wanted}"', f"add {wanted} = ...", read="")
        size: float | None = self.size(wanted)
        return size

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
        sizes = Sizes(scribe, path, self.scope, self.mistakes)
        return sizes.of("start") or 0.0, sizes.of("end") or 0.0

    def splice_at(self, line: Line | None) -> tuple[float, ...]:
        """Where the maker divides it, sorted; places off the line, or too near its ends or each other, are mistakes."""
        places, path = self.get("splice_at")
        if places is None or line is None:
            return ()
        size = math.dist(*line)
        found: list[float] = []
        for at, length in enumerate(self.size("splice_at")):
            if length is not None and not 0.0 < length < size:
                says = f"the board is divided at {self.mistakes.said(length)}, which is not on its line"
                self.mistakes.add((*path, at), says, f"give a place between 0 and {self.mistakes.said(size)}")
            elif (
                length is not None
                and length not in found
                and min(abs(length - end) for end in (0.0, size, *found)) < LEAST_SIZE
            ):
                says = f"a member of {self.mistakes.said(LEAST_SIZE)} or more must be left on each side of a division"
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
        for at, (a, thickness) in enumerate(self.size("thickness_at")):
            t = self.left_by_sanding(thickness, (*path, at, 1))
            if a is None or t is None:
                return None
            if a in found:
                says = "this place has two thicknesses"
                self.mistakes.add((*path, at), says, "keep the one that was measured")
            found[a] = t
        return tuple(sorted(found.items()))

    def left_by_sanding(self, thickness: float | None, path: Path) -> float | None:
        """A measured thickness that is a board's also once both faces are sanded; else None with the mistake noted."""
        left = None if thickness is None else thickness - 2 * self.ground.sanded
        if left is None or left >= LEAST_SIZE:
            return thickness
        says = f"sanding leaves {self.mistakes.said(left)} of this thickness"
        self.mistakes.add(path, says, f"leave {self.mistakes.said(LEAST_SIZE)} or more")
        return None
