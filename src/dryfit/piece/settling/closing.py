"""What a glued frame is closed round: boards that stand between its own sides go in before the last corner.

Once a frame is glued, a board between two of its sides can only be slid in along the wall's normal, its glue wiped
off on the way, and not at all where it is dowelled or stopped at both ends. At the bench the frame is closed round
it. So such boards are taken into the frame's unit, if the unit then still goes together; that is a decision, which
a `[[unit]]` of the maker's overrules: that unit has the boards he names, and no others.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from ...job.model import Unit
from ...places import Edit, Plain
from ...sentences import Name, say
from ..meetings import name_order
from ..model import DATUM_END, FAR_END, Decision, Touch
from .ways import DOWN, UP, Link, comes_apart, opened, permits

ABOUT_CLOSING = "when it goes into its frame"


def closed_round(units: Sequence[Unit], links: Sequence[Link]) -> tuple[Unit, ...]:
    """The units, those of frames with the boards between their own sides; the maker's own stay as he has them."""
    taken = {board for unit in units for board in unit.boards}
    found: list[Unit] = []
    for unit in units:
        inside = taken_in(unit, links, taken) if unit.path[:1] == ("frame",) else ()
        taken.update(inside)
        found.append(replace(unit, boards=(*unit.boards, *inside), inside=inside) if inside else unit)
    return tuple(found)


def taken_in(unit: Unit, links: Sequence[Link], taken: set[str]) -> tuple[str, ...]:
    """Boards that end on two of the unit's boards, and then those that end on these; none that are `taken` already."""
    inside: list[str] = []
    refused: set[str] = set()
    while True:
        boards = {*unit.boards, *inside}
        free = (name for name in _standing(links, boards) if name not in taken | refused | boards)
        name = next(iter(sorted(free, key=name_order)), None)
        if name is None:
            return tuple(inside)
        if comes_apart(opened(links, {*boards, name})):
            inside.append(name)
        else:
            refused.add(name)


def _standing(links: Iterable[Link], boards: set[str]) -> Iterator[str]:
    """Boards with both ends on these, that must go in before they are glued or had better."""
    ends: dict[str, list[tuple[int, Link]]] = {}
    for link in links:
        for name in link.key:
            side = link.chosen.meeting.side(name)
            if side.touch is Touch.END and link.other(name) in boards and name not in boards:
                ends.setdefault(name, []).append((side.end, link))
    for name, met in ends.items():
        if {end for end, _ in met} == {DATUM_END, FAR_END} and _asks(name, [link for _, link in met]):
            yield name


def _asks(name: str, links: Sequence[Link]) -> bool:
    """Whether a board's glue would be wiped off, or it could not go in at all, once the others are glued."""
    if any(link.chosen.kind.glues(link.chosen.options) for link in links):
        return True
    return not any(all(_lets(link, name, way) for link in links) for way in (UP, DOWN))


def _lets(link: Link, name: str, way: tuple[float, float, float]) -> bool:
    return any(permits(making.motions, name, way) for making in link.makings)


def decisions(units: Iterable[Unit]) -> Iterator[Decision]:
    """That each of these boards goes in before its frame is glued, and what makes it the maker's word."""
    for unit in units:
        members: Plain = [unit.name, *unit.inside]
        edit = Edit(action="add", path=("unit",), value={"name": f"{unit.name} with all in it", "boards": members})
        for name in unit.inside:
            yield Decision(
                about=ABOUT_CLOSING,
                key=(name, name),
                value=say("before {} is glued", Name(unit.name)),
                decider="chosen",
                reason=say(
                    "{} is between boards of {}; once that is glued it could only be slid in, if at all, "
                    "and its glue would be wiped off",
                    Name(name),
                    Name(unit.name),
                ),
                others=(say("after {} is glued", Name(unit.name)),),
                keep=edit,
            )
