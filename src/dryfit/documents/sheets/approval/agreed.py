"""What is agreed, in a client's words: the piece over all, wood, finish, where it stands; what is not known yet.

Nothing here is said but from the job's facts; what these do not hold stands under "not known yet", and is not agreed.
"""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from types import MappingProxyType
from typing import TypeAlias

from ....job.model import Timber
from ....piece.model import Board
from ....studies.driving.result import Driving, LookedFrom, ScrewMouth
from ....trade.names import spoken
from ...lettering import printable
from ...looks import Desk
from ...naming import LEAST, mass_figure, mass_unit, plural, position, printed_units, thickness
from ..page.prose import WordRun, strong
from ..part.words.finish import finish_of
from .place import PlaceInRoom, RoomStretch

Words: TypeAlias = list[WordRun]

DEMO = "demo:"  # as the client of a job begins that nobody has ordered
MEANING = (
    (
        "The client agrees to the sizes and the look as drawn here, and to wood and finish as said here; the maker "
        "agrees to make it so."
    ),
    (
        "What is to be otherwise after that takes more time and wood, and costs more: how much is agreed in writing "
        "before it is done."
    ),
    "What is not known yet is not agreed by this.",
    "Every board has a grain and a colour of its own.",
    "This sheet stands beside the offer and the law of the place; it replaces neither.",
)


OUTSIDE: Mapping[LookedFrom, str] = MappingProxyType(
    {
        "front": "in front",
        "left": "on the left side",
        "right": "on the right side",
        "top": "on top",
        "underside": "underneath",
        "back": "at the back",
    }
)
INSIDE = "inside, between boards"
PLACES = (*OUTSIDE.values(), INSIDE)


def is_demo(desk: Desk) -> bool:
    """Whether the job is an example that nobody has ordered."""
    return desk.book.job.client.casefold().startswith(DEMO)


def agreed(desk: Desk, place: PlaceInRoom) -> Iterator[Words]:
    """What is agreed, a paragraph each."""
    across, up, out = (stretch.figures().size for stretch in (place.across, place.up, place.out))
    units = "mm" if printed_units() == "mm" else "inches"
    over_all = f"{position(across)} wide × {position(up)} high × {position(out)} deep over all, in {units}."
    yield [strong("Size:"), WordRun(over_all)]
    yield [strong("Made of:"), WordRun(printable(_wood(desk)))]
    finish = _finish(desk)
    if finish:
        yield [strong("Finish:"), WordRun(printable(finish))]
    mass = desk.book.mass_kg
    if mass and not _unweighed(desk):
        yield [strong("Weighs:"), WordRun(f"about {mass_figure(sum(mass.values()), 0)} {mass_unit()}.")]
    yield [strong("Place:"), WordRun(" ".join(_standing(desk, place)))]
    found = desk.book.found(Driving)
    if found is not None and found.mouths:
        yield [strong("Screws:"), WordRun(_screws_seen(found))]
    elif found is not None:
        yield [strong("Fastenings:"), WordRun("none can be seen, as far as looked at.")]


def not_known(desk: Desk, place: PlaceInRoom) -> Words:
    """What the signatures do not cover, since nobody has said or worked it out."""
    return [strong("Not known yet:"), WordRun(printable(f"{'; '.join(_open(desk, place))}."))]


def meaning() -> Words:
    """What the signatures mean."""
    return [strong("What the signatures mean:"), WordRun(" ".join(MEANING))]


# --- wood and finish -----------------------------------------------------------------------------


def _by_timber(desk: Desk) -> dict[str, list[Board]]:
    found: dict[str, list[Board]] = {}
    for board in desk.book.piece.boards:
        found.setdefault(board.timber, []).append(board)
    return found


def _wood(desk: Desk) -> str:
    """How many boards of which wood, the most of one first: "17 boards: 13 of white oak, 24.1 thick; 4 of ..."."""
    kinds = sorted(_by_timber(desk).items(), key=lambda found: -len(found[1]))
    said = [(len(boards), _timber(desk.book.job.timbers.get(timber), timber, boards)) for timber, boards in kinds]
    total = plural(len(desk.book.piece.boards), "board")
    if len(said) == 1:
        return f"{total} of {said[0][1]}."
    return f"{total}: {'; '.join(f'{count} of {words}' for count, words in said)}."


def _timber(timber: Timber | None, name: str, boards: Sequence[Board]) -> str:
    sizes = [size for board in boards for _, size in board.profile]
    thick = " to ".join(dict.fromkeys(map(thickness, (min(sizes), max(sizes)))))
    if timber is None:
        return f"{name}, {thick} thick"
    species = spoken(timber.species) or name
    form = "" if timber.form in timber.species else timber.form
    how = "" if timber.measured is not None else " as ordered"
    return ", ".join(filter(None, (species, form, f"{thick} thick{how}")))


def _finish(desk: Desk) -> str:
    """What it is finished with, as far as it is said; "" where nothing is."""
    finish = finish_of(desk)
    if not finish.system and not finish.coats:
        return ""
    coats = plural(finish.coats, "coat") if finish.coats else ""
    return f"{' of '.join(filter(None, (coats, spoken(finish.system))))}."


def _unweighed(desk: Desk) -> list[str]:
    return [part.id for part in desk.book.piece.parts if part.id not in desk.book.mass_kg]


# --- screws --------------------------------------------------------------------------------------


def _screws_seen(found: Driving) -> str:
    """How many plugs and open screw holes can be seen, and on which side of the piece; or that none can."""
    seen = [mouth for mouth in found.mouths if not mouth.covered]
    if not seen:
        return "no screw or plug can be seen, as far as looked at."
    said = []
    for what, noun in (("plug", "plugs"), ("mouth", "open screw holes")):
        where = Counter(_where(mouth) for mouth in seen if mouth.what == what)
        if where:
            places = ", ".join(f"{where[words]} {words}" for words in PLACES if where[words])
            said.append(f"{plural(where.total(), noun)} can be seen: {places}.")
    if any({"front", "left"}.intersection(mouth.seen_from) for mouth in seen):
        said.append("Those seen from the room or from the left are rings in the drawing.")
    return " ".join(said)


def _where(mouth: ScrewMouth) -> str:
    return OUTSIDE[mouth.looks] if mouth.is_outside else INSIDE


# --- the room ------------------------------------------------------------------------------------


def _standing(desk: Desk, place: PlaceInRoom) -> Iterator[str]:
    holes = sum(len(fixing.at) for fixing in desk.book.job.fixings)
    if place.stands:
        yield "Stands on the floor."
    if desk.book.job.wall.hung:
        yield "Hangs on the wall."
    if holes:
        yield f"Screwed to the wall at {plural(holes, 'place')}."
    ends = ("the wall's left end", "the wall's right end"), ("the floor", "the ceiling"), ("the wall", "")
    for stretch, names in zip((place.across, place.up, place.out), ends, strict=True):
        yield from _from_ends(stretch, names)


def _from_ends(stretch: RoomStretch, names: tuple[str, str]) -> Iterator[str]:
    """What is free up to an end of the room that is too far away to be drawn; where the piece reaches over one."""
    figures, drawn = stretch.figures(), stretch.drawn
    for free, shown, name in zip((figures.before, figures.behind), (drawn.start, drawn.stop), names, strict=True):
        if free is not None and free < -LEAST:
            yield f"Reaches {position(-free)} over {name}."
        elif free is not None and shown is None:
            yield f"{position(free)} from {name}."


# --- what is not known ---------------------------------------------------------------------------


def _open(desk: Desk, place: PlaceInRoom) -> Iterator[str]:
    job = desk.book.job
    finish = finish_of(desk)
    if not finish.system and not finish.coats:
        yield "the finish"
    elif not finish.system:
        yield "what it is finished with"
    elif not finish.coats:
        yield "how many coats"
    unmeasured = [name for name in _by_timber(desk) if (found := job.timbers.get(name)) and found.measured is None]
    if unmeasured:
        yield "what the boards measure in thickness once they are there"
    if _unweighed(desk):
        yield "what it weighs"
    if not place.stands and not job.fixings:
        yield "what holds it"
    if place.walled:
        lacking = [
            word
            for word, known in (("left end", place.across.start), ("right end", place.across.stop))
            if known is None
        ]
        if lacking:
            yield f"where the wall has its {' and its '.join(lacking)}"
    if place.up.start is None:
        yield "how high it hangs above the floor"
    if place.walled and job.wall.ceiling is None:
        yield "how high the room is"
    if place.walled and not job.wall.kind:
        yield "what the wall is made of"
    yield from _not_worked_out(desk)
    yield "the price, and when it comes: see the offer"


def _not_worked_out(desk: Desk) -> Iterator[str]:
    if desk.book.found(Driving) is None:
        yield "which screws and plugs can be seen"
    yield "what its boards may carry"
    yield "how the wood moves over the seasons"
