"""The tables of the way: `[van]`, `[[door]]`, `[[stair]]`, `[[turn]]`, and the order in which they are passed."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Annotated, Any, Literal, TypeAlias

from pydantic import Field

from ...job.options import Options, Quantity, Within, other_name
from ...job.spans import Spans
from ...job.tables import Many, One, Owned
from ...places import Path
from ...study.base import Scene
from .result import Passage

Asked: TypeAlias = tuple[Passage, str]  # with the name that it comes after, "" where it says none
Clear: TypeAlias = Annotated[Quantity, Within(above=0)]


class PassedTable(Options):
    """What every table of the way but the van's may say."""

    name: str = Field("", description='What it is called on the papers; left out: what it is, "door 2".')
    after: Annotated[str, other_name("door", "stair", "turn")] = Field(
        "", description="The name of what is passed just before it; left out: as the file has them."
    )


class VanTable(Options):
    """The `[van]` table."""

    length: Clear = Field(description="Of the floor, from the bulkhead to the closed doors.")
    width: Clear = Field(description="Between the wheel arches, or what is narrowest.")
    height: Clear = Field(description="Of the doors' opening, or what is lowest.")
    country: Literal["", "UK", "Germany"] = Field("", description="Whose rules are told where something projects.")


class DoorTable(PassedTable):
    """One door."""

    width: Clear = Field(description="Between the stop and the open leaf.")
    height: Clear = Field(description="Over the sill.")


class StairTable(PassedTable):
    """One straight flight."""

    width: Clear = Field(description="Between wall and handrail.")
    headroom: Clear = Field(description="Over the nosings, plumb.")
    pitch: float = Field(gt=0, lt=75, description="Its slope in degrees.")


class TurnTable(PassedTable):
    """One corner of a corridor, or a landing: from one width into another, square to it."""

    width: Clear = Field(description="Of the corridor or the flight that one comes from.")
    into: Clear = Field(description="Of the one that it leads into.")
    height: Clear = Field(description="From the floor to the ceiling, or a lamp.")


VAN = One("van", VanTable)
DOOR, STAIR, TURN = Many("door", DoorTable), Many("stair", StairTable), Many("turn", TurnTable)
OTHERS: tuple[Many[Any], ...] = (DOOR, STAIR, TURN)
TABLES: tuple[Owned, ...] = (VAN, *OTHERS)


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadWay:
    """The way as read; `lost` as in the result."""

    way: tuple[Passage, ...]
    lost: tuple[tuple[int, str], ...]


def read_way(scene: Scene) -> ReadWay:
    """All that is passed: the van, then as the file has them, each with an `after` just behind what it names."""
    spans = Spans(scene.job.text if any(map(scene.many, OTHERS)) else "")
    placed: list[tuple[int, Passage, str]] = []
    for table in OTHERS:
        found = scene.many(table)
        for number, one in enumerate(found):
            path = table.at(number)
            name = one.name or (f"the {table.word}" if len(found) == 1 else f"{table.word} {number + 1}")
            placed.append((spans.line_of(path), _passage(one, name, path), one.after))
    placed.sort(key=lambda one: one[0])
    order = [*_van(scene), *((passage, after) for _, passage, after in placed)]
    way, lost = _in_order(order)
    return ReadWay(way=tuple(way), lost=tuple((way.index(passage), after) for passage, after in lost))


def _van(scene: Scene) -> Iterator[Asked]:
    van = scene.one(VAN)
    if van is not None:
        found = Passage(
            kind="van",
            name="the van",
            named=False,
            width=van.width,
            height=van.height,
            length=van.length,
            country=van.country,
            path=VAN.at(),
        )
        yield found, ""


def _passage(one: Any, name: str, path: Path) -> Passage:
    said, wide = bool(one.name), one.width
    match one:
        case StairTable(headroom=high, pitch=pitch):
            return Passage(kind="stair", name=name, named=said, width=wide, height=high, pitch=pitch, path=path)
        case TurnTable(height=high, into=into):
            return Passage(kind="turn", name=name, named=said, width=wide, height=high, into=into, path=path)
    return Passage(kind="door", name=name, named=said, width=wide, height=one.height, path=path)


def _in_order(asked: Sequence[Asked]) -> tuple[list[Passage], list[Asked]]:
    """As the file has them, those with an `after` moved behind what that names; what it cannot find stays last."""
    way = [passage for passage, after in asked if not after]
    waiting = [one for one in asked if one[1]]
    while waiting:
        at = {passage.name: place for place, passage in enumerate(way)}
        now = next((one for one in reversed(waiting) if one[1] in at), None)
        if now is None:
            return [*way, *(passage for passage, _ in waiting)], waiting
        waiting.remove(now)
        way.insert(at[now[1]] + 1, now[0])
    return way, []
