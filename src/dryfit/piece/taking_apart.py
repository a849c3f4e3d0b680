"""A job with its divided boards taken apart into members, each a board like any other.

What the job says of a whole board (joints, fixings, units, finish) and what was made of it (thickness, pins,
cut slots) is handed on to the member that it concerns. Members are counted, and their ends worked out, from
the board's datum end, so a line drawn the other way gives the same members to the last bit.
"""

import math
from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import TypeAlias

from ..geometry.frames import Vec2, length
from ..job.model import BoardSpec, Fixing, Job, JointSpec
from ..job.names import member_name
from ..job.standing import thickness_along
from .meetings import pair_key
from .model import Board, Meeting, Profile
from .setout import AsCut, Made, Pin

MemberOf: TypeAlias = Callable[[str, str], str]


@dataclass(frozen=True, slots=True)
class Division:
    """A board, the places where it is divided, in order from its datum end, and how far splices run past them."""

    board: Board
    places: tuple[float, ...]
    reach: float = 0.0

    @property
    def count(self) -> int:
        """How many members it has."""
        return len(self.places) + 1

    @property
    def names(self) -> tuple[str, ...]:
        """Its members, from the datum end."""
        return tuple(member_name(self.board.name, number, self.count) for number in range(1, self.count + 1))

    @property
    def bounds(self) -> tuple[tuple[float, float], ...]:
        """From where to where each member runs."""
        return tuple(pairwise((0.0, *self.places, self.board.length)))

    @property
    def typed_bounds(self) -> tuple[tuple[float, float], ...]:
        """The same from the start of the line as drawn."""
        size = self.board.length
        return tuple((size - high, size - low) for low, high in self.bounds) if self.board.flipped else self.bounds

    def at(self, place: float) -> int:
        """Which member lies at a place from the datum end, counted from 0."""
        return sum(place > cut for cut in self.places)

    def turned(self, place: float) -> float:
        """A place from the start of the line as drawn as one from the datum end."""
        return self.board.length - place if self.board.flipped else place


def taken_apart(
    job: Job,
    made: Made,
    divisions: Mapping[str, Division],
    meetings: Sequence[Meeting],
    names_boards: Collection[str],
) -> tuple[Job, Made]:
    """The job, and what has been made of it, with the divided boards' members in place of their wholes.

    Args:
        job: with the whole boards.
        made: what has been made of them.
        divisions: by the whole's name.
        meetings: of the whole boards.
        names_boards: options of joints that name a board.
    """
    met = {meeting.key: meeting for meeting in meetings}

    def member(name: str, other: str) -> str:
        """The member of a board that meets another; its own name where it is not divided or they do not meet."""
        meeting, division = met.get(pair_key(name, other)), divisions.get(name)
        if meeting is None or division is None:
            return name
        return division.names[division.at(meeting.side(name).at)]

    members = {spec.name: _members(spec, divisions[spec.name]) for spec in job.boards if spec.name in divisions}
    order = {name: division.names for name, division in divisions.items()}
    drawn = {name: names[::-1] if divisions[name].board.flipped else names for name, names in order.items()}
    apart = replace(
        job,
        boards=tuple(own for spec in job.boards for own in members.get(spec.name, (spec,))),
        frames=tuple(replace(frame, boards=_named(frame.boards, drawn)) for frame in job.frames),
        joint_specs=tuple(_joint(spec, member, names_boards) for spec in job.joint_specs),
        fixings=tuple(own for fixing in job.fixings for own in _fixings(fixing, divisions.get(fixing.board))),
        units_glued=tuple(replace(unit, boards=_named(unit.boards, order)) for unit in job.units_glued),
    )
    return apart, _made(made, divisions, member)


def _members(spec: BoardSpec, division: Division) -> tuple[BoardSpec, ...]:
    """Boards from place to place along the line, from its datum end."""
    board, last = division.board, division.count - 1
    even = len(board.profile) == 1
    found = []
    for number, (name, (low, high)) in enumerate(zip(division.names, division.typed_bounds, strict=True)):
        starts, ends = (number == last, number == 0) if board.flipped else (number == 0, number == last)
        found.append(
            replace(
                spec,
                name=name,
                line=_line(spec, division, number),
                ends=(spec.ends[0] if starts else "square", spec.ends[1] if ends else "square"),
                scribe=(spec.scribe[0] if starts else 0.0, spec.scribe[1] if ends else 0.0),
                thickness_at=_profile_of(spec.thickness_at, low, high, division),
                splice_at=(),
                midway=None if even else board.thickness_at(board.length / 2),
            )
        )
    return tuple(found)


def _line(spec: BoardSpec, division: Division, number: int) -> tuple[Vec2, Vec2]:
    """A member's line as drawn; its points are worked out from the datum end, whichever end the line starts at."""
    datum, far = spec.line[::-1] if division.board.flipped else spec.line
    low, high = division.bounds[number]
    size = math.dist(datum, far)

    def point(at: float) -> Vec2:
        return datum[0] + (far[0] - datum[0]) * at / size, datum[1] + (far[1] - datum[1]) * at / size

    first = datum if number == 0 else point(low)
    last = far if number == division.count - 1 else point(high)
    return (last, first) if division.board.flipped else (first, last)


def _profile_of(whole: Profile, low: float, high: float, division: Division) -> Profile:
    """The part of a profile that a member from `low` to `high` has, to where its splices end, from its own start."""
    if len(whole) < 2:
        return tuple((0.0, thickness) for _, thickness in whole)
    first = low - division.reach if low > 0.0 else low
    last = high + division.reach if high < division.board.length else high
    places = sorted({first, last, *(at for at, _ in whole if first < at < last)})
    return tuple((length(at - low), length(thickness_along(whole, at))) for at in places)


def _named(names: tuple[str, ...], members: Mapping[str, tuple[str, ...]]) -> tuple[str, ...]:
    return tuple(own for name in names for own in members.get(name, (name,)))


def _joint(spec: JointSpec, member: MemberOf, names_boards: Collection[str]) -> JointSpec:
    """What is asked of a joint, asked of the members that meet: also where an option names one of the two."""
    a, b = spec.between
    own = {a: member(a, b), b: member(b, a)}
    options = {
        key: own.get(value, value) if key in names_boards and isinstance(value, str) else value
        for key, value in spec.options.items()
    }
    return replace(spec, between=(own[a], own[b]), front=own.get(spec.front, spec.front), options=options)


def _fixings(fixing: Fixing, division: Division | None) -> Iterator[Fixing]:
    """One fixing for each member that it goes through, its places from the start of the member's line."""
    if division is None:
        yield fixing
        return
    places: dict[int, list[float]] = {}
    for at in fixing.at:
        number = division.at(division.turned(at))
        places.setdefault(number, []).append(length(at - division.typed_bounds[number][0]))
    for number, own in sorted(places.items()):
        name = fixing.name if len(places) == 1 else member_name(fixing.name, number + 1, division.count)
        yield replace(fixing, name=name, board=division.names[number], at=tuple(own))


def _made(made: Made, divisions: Mapping[str, Division], member: MemberOf) -> Made:
    """What has been made of the whole boards, handed on; what is said of a member by its own name holds."""
    pins, thickness = dict(made.pins), dict(made.thickness)
    for whole, division in divisions.items():
        for name, (low, high) in zip(division.names, division.typed_bounds, strict=True):
            if whole in made.pins:
                pins.setdefault(name, Pin(datum=made.pins[whole].datum, face_side=made.pins[whole].face_side))
            if whole in made.thickness:
                thickness.setdefault(name, _profile_of(made.thickness[whole], low, high, division))
    fronts = dict(made.fronts)
    for (a, b), front in made.fronts.items():
        own = {a: member(a, b), b: member(b, a)}
        fronts.setdefault(pair_key(own[a], own[b]), own.get(front, front))
    cuts = tuple(_cut(one, member) for one in made.cuts)
    return replace(made, pins=pins, thickness=thickness, fronts=fronts, cuts=cuts)


def _cut(one: AsCut, member: MemberOf) -> AsCut:
    """A cut in a board that is still whole, for the member of the other that meets it; one in a whole stays its."""
    other = one.other
    own = member(other, one.board) if other else ""
    return one if own in ("", other) else replace(one, between=(one.board, own))
