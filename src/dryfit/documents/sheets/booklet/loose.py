"""What goes in with a joint and is no board: dowels and tongues before it is closed, screws and plugs after.

Joint kinds say what they take; the words here only sort it by when it goes in.
"""

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass

from ....joints import KINDS
from ....piece.model import Board, Joint, Ware
from ....sentences import Voice, told
from ...looks import Desk
from ...naming import plural, printed_units, ware_size


@dataclass(frozen=True, slots=True)
class Wanted:
    """So many of one thing, and the letters of where they go."""

    ware: Ware
    count: int
    at: tuple[str, ...]


def waits(joint: Joint, boards: Mapping[str, Board]) -> bool:
    """Whether what it takes goes in once it is glued, as keys do."""
    return any(one.after_gluing is not None for one in KINDS[joint.kind].operations(joint, boards))


def awaited(desk: Desk, after: Collection[str]) -> list[str]:
    """Work that waits for the glue, by the operations' keys: as its joint calls what it puts in, else what it makes."""
    found: dict[str, None] = {}
    for joint in desk.book.piece.joints:
        kind = KINDS[joint.kind]
        for one in kind.operations(joint, desk.book.piece.board_by_name):
            if one.key in after:
                words = kind.strengthened(joint) or one.ways[0].makes
                found[told(words, Voice(printed_units()))] = None
    return list(found)


def first(wanted: Iterable[Wanted]) -> list[Wanted]:
    """What goes in before the joint is closed."""
    return [one for one in wanted if one.ware.goes == "in"]


def driven(wanted: Iterable[Wanted]) -> list[Wanted]:
    """What is driven when it is closed."""
    return [one for one in wanted if one.ware.goes == "driven"]


def over(wanted: Iterable[Wanted]) -> list[Wanted]:
    """What closes the holes over that."""
    return [one for one in wanted if one.ware.goes == "over"]


def wanted(joints: Iterable[tuple[Joint, str]], boards: Mapping[str, Board], *, waiting: bool = False) -> list[Wanted]:
    """What these joints take, what is listed alike together; the text with each is where it goes."""
    found: dict[tuple[str, str], list[tuple[Ware, str]]] = {}
    for joint, at in joints:
        if waits(joint, boards) == waiting:
            for ware in KINDS[joint.kind].hardware(joint):
                found.setdefault((ware.name, ware_size(ware)), []).append((ware, at))
    return [
        Wanted(same[0][0], sum(ware.count for ware, _ in same), tuple(dict.fromkeys(at for _, at in same)))
        for same in found.values()
    ]


def words(one: Wanted) -> str:
    """In words: "12 keys, 4 thick, grain across the mitre", "4 wood screws 4 x 50"."""
    ware, size = one.ware, ware_size(one.ware)
    begins_with_size = ware.diameter is not None or ware.length is not None
    called = f"{plural(one.count, ware.what)}{' ' if begins_with_size else ', '}{size}"
    return f"{called}, {ware.like}" if ware.like else called


def put_in(found: Sequence[Wanted], *, glued: bool) -> list[str]:
    """Sentences: what goes in before the joint is closed, and what is driven and plugged when it is."""
    said = []
    before, screws, plugs = first(found), driven(found), over(found)
    if before:
        said.append(f"FIRST put in {_and(map(_there, before))}{', with glue' if glued else ''}.")
    if screws:
        plugged = f"; over them {_and(map(words, plugs))}, with glue" if plugs else ""
        said.append(f"THEN drive {_and(map(_there, screws))}{plugged}.")
    return said


def _there(one: Wanted) -> str:
    said = words(one)
    return f"{said}{',' if ',' in said else ''} at {_and(one.at)}"


def _and(said: Iterable[str]) -> str:
    every = list(said)
    return every[0] if len(every) == 1 else f"{', '.join(every[:-1])} and {every[-1]}"
