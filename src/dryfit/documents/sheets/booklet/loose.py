"""What goes in with a joint and is no board: dowels and tongues before it is closed, screws and plugs after.

Joint kinds say what they take; the words here only sort it by when it goes in.
"""

import re
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from ....joints import KINDS
from ....piece.model import Hardware, Joint
from ...naming import plural, position, printed_units, width

DRIVEN, PLUGS, WASHERS = "screw", "plug", "washer"
CALLIPER = 13.0  # mm: smaller sizes are printed as a calliper reads them, on a job in inches
_BARE_SIZE = re.compile(r"[\d./ x-]+(?:mm)?(?:,|$)")
_FIGURE = re.compile(r"\d+(?:\.\d+)?")


@dataclass(frozen=True, slots=True)
class Wanted:
    """So many of one thing, and the letters of where they go."""

    count: int
    name: str
    size: str
    at: tuple[str, ...]


def waits(joint: Joint) -> bool:
    """Whether what it takes goes in once it is glued, as keys do."""
    return any(early.startswith("glued:") for one in KINDS[joint.kind].operations(joint) for early in one.after)


def first(wanted: Iterable[Wanted]) -> list[Wanted]:
    """What goes in before the joint is closed."""
    return [one for one in wanted if not _after(one.name)]


def after(wanted: Iterable[Wanted]) -> list[Wanted]:
    """What is driven, and what closes its holes."""
    return [one for one in wanted if _after(one.name)]


def _after(name: str) -> bool:
    return any(word in name for word in (DRIVEN, PLUGS, WASHERS))


def wanted(joints: Iterable[tuple[Joint, str]], *, waiting: bool = False) -> list[Wanted]:
    """What these joints take, alike together; the text with each is where it goes."""
    counts: Counter[tuple[str, str]] = Counter()
    places: dict[tuple[str, str], list[str]] = {}
    for joint, at in joints:
        if waits(joint) == waiting:
            for item in KINDS[joint.kind].hardware(joint):
                key = (item.name, size_words(item))
                counts[key] += item.count
                places.setdefault(key, []).append(at)
    return [Wanted(count, *key, tuple(dict.fromkeys(places[key]))) for key, count in counts.items()]


def words(one: Wanted) -> str:
    """In words: "12 keys, 4.0 thick, grain across the mitre", "4 wood screws 4 x 50"."""
    noun, *more = one.name.split(", ")
    count = plural(one.count, noun)
    if _BARE_SIZE.match(one.size):
        return ", ".join([f"{count} {one.size}", *more])
    return ", ".join([count, one.size, *more])


def size_words(item: Hardware) -> str:
    """A size in the job's units; what is sold by the millimetre everywhere keeps its own, and says so."""
    units = printed_units()
    text = item.size
    if units == "mm" or text != item.size:
        return text
    if any(word in item.name for word in (DRIVEN, WASHERS, "anchor")):
        return f"{text} mm"
    return _FIGURE.sub(lambda match: _inches(float(match[0])), text)


def _inches(value: float) -> str:
    return width(value) if value < CALLIPER else position(value)


def put_in(found: Sequence[Wanted], *, glued: bool) -> list[str]:
    """Sentences: what goes in before the joint is closed, and what is driven and plugged when it is."""
    said = []
    before, driven = first(found), after(found)
    if before:
        said.append(f"FIRST put in {_and(map(_there, before))}{', with glue' if glued else ''}.")
    if driven:
        screws = [one for one in driven if PLUGS not in one.name]
        plugs = [words(one) for one in driven if PLUGS in one.name]
        plugged = f"; over them {_and(plugs)}, with glue" if plugs else ""
        said.append(f"THEN drive {_and(map(_there, screws))}{plugged}.")
    return said


def _there(one: Wanted) -> str:
    said = words(one)
    return f"{said}{',' if ',' in said else ''} at {_and(one.at)}"


def _and(said: Iterable[str]) -> str:
    every = list(said)
    return every[0] if len(every) == 1 else f"{', '.join(every[:-1])} and {every[-1]}"
