"""What is locked, said so that a maker can act on it: the smallest set, and the cheapest change that frees it.

Changes are tried on the locked set itself, cheapest first: make a joint by another of its makings or more open
(the kind says how), let a board go in before a unit is glued, leave a board of a unit dry. Only one that
frees the set is offered.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

from ...findings import Finding, Severity, declare, owns
from ...job.model import Unit
from ...places import Cure, Edit, Pair, Plain, Where
from ...sentences import Name, Several, say
from ..choose import Chosen
from ..meetings import name_order
from ..model import Ease
from .closing import taken_in
from .ways import Link, comes_apart, lies_first, opened

LOCKED = declare(
    "locked",
    "Boards that hold one another: the piece cannot be put together.",
    uncured="no change of a single joint, or of a unit, was found that frees them",
)
owns("settling", LOCKED)

PROOF = "for straight moves"

Tries: TypeAlias = Callable[[Sequence[Pair], Sequence[int]], Iterator[tuple[tuple[int, int], ...]]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Freeing:
    """One change that frees a locked set.

    Attributes:
        joint: the joint it changes, None where it changes a unit.
    """

    cure: Cure
    joint: Pair | None = None


def eased(link: Link, ease: Ease) -> Link:
    """The link as it would then be made."""
    return Link(link.chosen, (ease.making,), link.bodies, (ease.making,))


def edits(link: Link, options: Sequence[tuple[str, str]]) -> tuple[Edit, ...]:
    """The change of the job file that asks for these options of a joint."""
    return edits_asking(link.chosen, options)


def edits_asking(chosen: Chosen, options: Sequence[tuple[str, Plain]]) -> tuple[Edit, ...]:
    """The same of a joint that is chosen."""
    spec = chosen.spec
    if spec is not None:
        return tuple(Edit(action="set", path=(*spec.path, key), value=value) for key, value in options)
    value: dict[str, Plain] = {"between": list(chosen.meeting.key)}
    if any(key != "front" for key, _ in options):
        value["kind"] = chosen.kind.name
    value.update(options)
    return (Edit(action="add", path=("joint",), value=value),)


def one_joint(keys: Sequence[Pair], counts: Sequence[int]) -> Iterator[tuple[tuple[int, int], ...]]:
    """Changes of one joint, (which, by which of its eases), the cheapest first: the last of the joints for choice."""
    for ease in range(max(counts, default=0)):
        for joint in range(len(keys) - 1, -1, -1):
            if ease < counts[joint]:
                yield ((joint, ease),)


def one_board(keys: Sequence[Pair], counts: Sequence[int]) -> Iterator[tuple[tuple[int, int], ...]]:
    """Changes of all joints of one board, each by the same ease, the cheapest first."""
    for ease in range(max(counts, default=0)):
        for board in dict.fromkeys(name for key in reversed(keys) for name in key):
            own = [joint for joint, key in enumerate(keys) if board in key]
            if len(own) > 1 and all(ease < counts[joint] for joint in own):
                yield tuple((joint, ease) for joint in own)


def cheapest(
    bodies: Sequence[str],
    inside: Sequence[Link],
    made: Iterable[Pair],
    units: Mapping[str, Unit],
    every: Sequence[Link],
) -> Freeing | None:
    """The cheapest change that frees these bodies.

    A unit is closed round what stands between its boards; else one uncut joint is changed, a unit, all joints of a
    board.
    """
    cut = set(made)
    links = sorted(inside, key=lambda link: _place(link.key))
    eases = [() if link.key in cut else _eases(link) for link in links]
    return (
        _closed_round(bodies, units, every)
        or _joints_changed(links, eases, one_joint)
        or unit_changes(bodies, units, every)
        or _joints_changed(links, eases, one_board)
    )


def _joints_changed(links: Sequence[Link], eases: Sequence[tuple[Ease, ...]], tries: Tries) -> Freeing | None:
    for changes in tries([link.key for link in links], [len(item) for item in eases]):
        chosen = {joint: eases[joint][ease] for joint, ease in changes}
        if comes_apart([eased(link, chosen[n]) if n in chosen else link for n, link in enumerate(links)]):
            label = say("{}", Several(tuple(ease.says for ease in chosen.values())))
            every = tuple(edit for n, ease in chosen.items() for edit in edits(links[n], ease.options))
            return Freeing(cure=Cure(label=label, edits=every), joint=links[next(iter(chosen))].key)
    return None


def _eases(link: Link) -> tuple[Ease, ...]:
    return link.chosen.kind.eases(link.chosen.meeting, link.chosen.options, link.makings[0])


def _closed_round(bodies: Sequence[str], units: Mapping[str, Unit], links: Sequence[Link]) -> Freeing | None:
    """Let all boards that stand between those of a unit go in before it is glued, if one of these is among them."""
    taken = {board for unit in units.values() for board in unit.boards}
    for unit in (units[name] for name in bodies if name in units):
        standing = taken_in(unit, links, taken)
        if set(standing) & set(bodies):
            return _let_in(unit, standing)
    return None


def _let_in(unit: Unit, boards: Sequence[str]) -> Freeing:
    label = say("let {} go in before {} is glued", Several(tuple(map(Name, boards))), Name(unit.name))
    return Freeing(cure=Cure(label=label, edits=(with_boards(unit, boards),)))


def unit_changes(bodies: Sequence[str], units: Mapping[str, Unit], links: Sequence[Link]) -> Freeing | None:
    """Let a board go in before a unit is glued; or leave one of the unit's boards out of it until later."""
    for name in bodies:
        unit = units.get(name)
        if unit is None:
            continue
        for other in (body for body in bodies if body != name and body not in units):
            if comes_apart(opened(links, {*unit.boards, other})):
                return _let_in(unit, (other,))
        for board in unit.boards:
            if unit.path[:1] == ("unit",) and len(unit.boards) > 2 and _dry(board, unit, bodies, links):
                kept: Plain = [member for member in unit.boards if member != board]
                edit = Edit(action="set", path=(*unit.path, "boards"), value=kept)
                label = say("leave {} dry until {} is glued", Name(board), Name(name))
                return Freeing(cure=Cure(label=label, edits=(edit,)))
    return None


def _dry(board: str, unit: Unit, bodies: Sequence[str], links: Sequence[Link]) -> bool:
    """Whether the set and the unit come apart once `board` is no longer of the unit."""
    rest = set(unit.boards) - {board}
    if not comes_apart(opened(links, rest)):
        return False
    outside: list[Link] = []
    for link in links:
        pair = tuple(key if key == board else unit.name if key in rest else body for key, body in _paired(link))
        if pair[0] != pair[1] and set(pair) <= {*bodies, board, unit.name}:
            outside.append(replace(link, bodies=(pair[0], pair[1])))
    return comes_apart(outside)


def _paired(link: Link) -> Iterator[tuple[str, str]]:
    yield from zip(link.key, link.bodies, strict=True)


def with_boards(unit: Unit, boards: Sequence[str]) -> Edit:
    """The change of the job file that glues these boards up with a unit."""
    if unit.path[:1] == ("unit",):
        return Edit(action="set", path=(*unit.path, "boards"), value=[*unit.boards, *boards])
    value: dict[str, Plain] = {
        "name": f"{unit.name} with {' and '.join(boards)}",
        "boards": [unit.name, *unit.inside, *boards],
    }
    return Edit(action="add", path=("unit",), value=value)


def finding(
    bodies: Sequence[str], inside: Sequence[Link], units: Mapping[str, Unit], change: Freeing | None
) -> Finding:
    """The stop for one locked set."""
    ring = ring_of(bodies, inside)
    named = list(ring or bodies)
    how = "lie over one another in a ring and" if ring else "hold one another: they"
    boards = tuple(board for name in named for board in (units[name].boards if name in units else (name,)))
    spec = next((link.chosen.spec for link in inside if change and link.key == change.joint), None)
    return Finding(
        code=LOCKED,
        severity=Severity.STOP,
        where=Where(boards=boards, joint=change.joint if change else None, path=spec.path if spec else None),
        says=say("{} {} cannot be put together, {}", Several(tuple(map(Name, named))), how, PROOF),
        remedy=change.cure.label if change else "make one of their joints another way, or another kind of joint",
        cures=(change.cure,) if change else (),
    )


def ring_of(bodies: Sequence[str], links: Iterable[Link]) -> tuple[str, ...]:
    """The bodies so that each lies before the next, and the last before the first; empty if they do not."""
    later: dict[str, set[str]] = {name: set() for name in bodies}
    for link in links:
        first, second = (any(way) for way in zip(*(lies_first(link, making) for making in link.makings), strict=True))
        if first != second:
            one, other = link.bodies if first else link.bodies[::-1]
            later[one].add(other)
    start = min(bodies, key=name_order)
    way, at = [start], start
    while True:
        following = sorted(later[at] - set(way[1:]), key=name_order)
        if not following:
            return ()
        if following[0] == start or start in following:
            return tuple(way) if len(way) == len(bodies) else ()
        at = following[0]
        way.append(at)


def _place(key: Pair) -> tuple[object, object]:
    return name_order(key[0]), name_order(key[1])
