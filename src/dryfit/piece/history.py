"""The life of each unit and each loose board, and what lies between two walls when they meet.

Every board is cut, coated, glued, carried and put in (or hung), in an order that hangs on when its coats go on. A
joint closes at one of these stages: inside a unit when that is glued up, between units and loose boards when they are
put in. From the two follows, for each joint, what of either board is bare, coated or masked then, and the film:

    film of a board in a joint = coats that went on before it closes x dry film of one, where its zone is not masked

A coat that follows adds nothing, and what is glued is bare or masked always: glue does not hold on film. Each side has
its own, so that of a crossing the walls of a slot count apart from the faces that enter it.

Where the piece has units, or the job speaks of an order on the wall, it goes together on the site: what is coated
"after glue" is then finished when it is carried. Else all of it goes together in the shop, and "after glue" is after
that.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from enum import IntEnum
from functools import cached_property
from typing import Literal, TypeAlias

from ..job.model import Finish, Job, Turn, Unit, When
from ..places import Pair
from ..sentences import Name, Sentence, Several, say

State: TypeAlias = Literal["bare", "masked", "coated"]


class Stage(IntEnum):
    """What a board goes through, in order; a board passes those alone that it has."""

    CUT = 0
    EARLY = 1
    GLUED = 2
    COATED = 3
    CARRIED = 4
    PUT_IN = 5
    ON_SITE = 6


_COATED_AT: Mapping[When, Stage] = {
    "before glue": Stage.EARLY,
    "after glue": Stage.COATED,
    "on site": Stage.ON_SITE,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Life:
    """What one board goes through.

    Attributes:
        unit: that it is glued up in, and carried in; "" of a loose board.
        when: its coats go on; None where there are none, or nobody says when.
        said: whether the job says so; else it was settled.
        coats: how many go on at which stage.
        stages: all it passes, in order.
        place: in the order on the wall, its unit's where it is in one; None where that is left to be settled.
        hung: whether a fixing holds it to the wall.
    """

    unit: str
    when: When | None
    said: bool
    coats: tuple[tuple[Stage, int], ...]
    stages: tuple[Stage, ...]
    place: Turn | None
    hung: bool

    def before(self, stage: Stage) -> int:
        """How many coats are on it when a stage begins."""
        return sum(coats for at, coats in self.coats if at < stage)


@dataclass(frozen=True, slots=True, kw_only=True)
class Zone:
    """A board in one joint, as that closes: film on one face with which it enters, and on one wall cut into it."""

    state: State = "bare"
    film: float = 0.0
    wall_film: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Contact:
    """Where two boards meet: the stage at which the joint closes, and the zones of the two in the key's order."""

    key: Pair
    stage: Stage
    glued: bool
    zones: tuple[Zone, Zone]

    def of(self, board: str) -> Zone:
        """The zone of one of the two."""
        return self.zones[self.key.index(board)]

    @property
    def has_film(self) -> bool:
        """Whether film comes between the two."""
        return any(zone.film or zone.wall_film for zone in self.zones)


@dataclass(frozen=True, kw_only=True)
class History:
    """The lives of all boards, and all contacts between them.

    Attributes:
        lives: by board.
        contacts: by pair, joints between boards only.
        on_site: whether the piece goes together where it will stand.
        hangs: whether it is put up at a wall, as far as the job says: it hangs, or a fixing or a place speaks of one.
    """

    lives: Mapping[str, Life] = field(default_factory=dict)
    contacts: Mapping[Pair, Contact] = field(default_factory=dict)
    on_site: bool = False
    hangs: bool = False

    @cached_property
    def contacts_of(self) -> Mapping[str, tuple[Contact, ...]]:
        """The contacts of each board that has any."""
        found: dict[str, list[Contact]] = {}
        for contact in self.contacts.values():
            for board in contact.key:
                found.setdefault(board, []).append(contact)
        return {board: tuple(contacts) for board, contacts in found.items()}

    @cached_property
    def adds_film(self) -> bool:
        """Whether film comes between any two boards."""
        return any(contact.has_film for contact in self.contacts.values())

    def early(self, board: str) -> bool:
        """Whether a board is coated before it meets any other, its joints masked or not."""
        return self.coated_first(board) or any(one.of(board).state != "bare" for one in self.contacts_of.get(board, ()))

    def coated_first(self, board: str) -> bool:
        """Whether a board is coated before anything is glued."""
        life = self.lives.get(board)
        return life is not None and life.before(Stage.GLUED) > 0

    def masked(self, board: str) -> tuple[Pair, ...]:
        """The joints in which a board is kept bare by masking."""
        return tuple(one.key for one in self.contacts_of.get(board, ()) if one.of(board).state == "masked")

    def film(self, board: str) -> float:
        """The greatest film with which a board enters another."""
        return max((one.of(board).film for one in self.contacts_of.get(board, ())), default=0.0)

    def together(self, board: str, other: str) -> bool:
        """Whether two boards are glued up in one unit."""
        unit = self.lives[board].unit
        return unit != "" and unit == self.lives[other].unit

    def carried(self, board: str) -> str:
        """What a board is carried as: its unit's name, or its own."""
        return self.lives[board].unit or board

    def when(self, board: str) -> When | None:
        """When its coats go on; None where there are none, or nobody says."""
        life = self.lives.get(board)
        return None if life is None else life.when

    def place(self, board: str) -> Turn | None:
        """Its place in the order on the wall."""
        life = self.lives.get(board)
        return None if life is None else life.place


UNKNOWN = History()  # of a piece that no job is known of


def history_of(job: Job, units: Iterable[Unit], joints: Iterable[tuple[Pair, bool]]) -> History:
    """The history of a piece.

    Args:
        job: with the boards as they are cut, divided ones apart.
        units: of two boards or more, that are glued up in the shop.
        joints: the pair of each joint, and whether it is glued.
    """
    homes = {name: unit for unit in units for name in unit.boards}
    places = {spec.name: _place(homes.get(spec.name), spec.place) for spec in job.boards}
    bodies = sum(spec.name not in homes for spec in job.boards) + len({unit.name for unit in homes.values()})
    on_site = bodies > 1 and (bool(homes) or any(place is not None for place in places.values()))
    hung = {fixing.board for fixing in job.fixings}
    pairs = [(key, glued) for key, glued in joints if set(key) <= places.keys()]
    stuck = {name for key, glued in pairs if glued for name in key}
    lives = {}
    for spec in job.boards:
        when, said = _when(spec.when or job.finish.when, job.finish, on_site=on_site)
        coats = _coats(when, job.finish)
        together = spec.name in homes or (not on_site and spec.name in stuck)
        lives[spec.name] = Life(
            unit=homes[spec.name].name if spec.name in homes else "",
            when=when,
            said=said,
            coats=coats,
            stages=_stages(coats, glued=together, on_site=on_site, alone=bodies < 2),
            place=places[spec.name],
            hung=spec.name in hung,
        )
    contacts = {key: _contact(key, lives, job.finish, glued=glued, on_site=on_site) for key, glued in pairs}
    hangs = job.wall.hung or bool(hung) or any(place is not None for place in places.values())
    return History(lives=lives, contacts=contacts, on_site=on_site, hangs=hangs)


def _place(home: Unit | None, own: Turn | None) -> Turn | None:
    return own if home is None else home.place


def _when(asked: When | None, finish: Finish, *, on_site: bool) -> tuple[When | None, bool]:
    """When a board's coats go on, and whether the job says so.

    Where it does not, a piece that goes together in the shop is coated after it is glued: no joint must be masked then,
    and no film comes between. On the site nothing is settled: the one way masks joints, the other varnishes in a room.
    """
    if not (finish.coats or finish.system):
        return None, asked is not None
    if asked is not None:
        return asked, True
    return (None if on_site else "after glue"), False


def _coats(when: When | None, finish: Finish) -> tuple[tuple[Stage, int], ...]:
    """How many coats go on at which stage."""
    if when is None or when == "none" or not finish.coats:
        return ()
    first = finish.coats
    if when == "before glue" and finish.coats_before is not None:
        first = finish.coats_before
    rest = ((Stage.COATED, finish.coats - first),) if first < finish.coats else ()
    return (*(((_COATED_AT[when], first),) if first else ()), *rest)


def _stages(coats: Iterable[tuple[Stage, int]], *, glued: bool, on_site: bool, alone: bool) -> tuple[Stage, ...]:
    """All that a board passes; a single body is together when it is glued, and is only carried where it will stand."""
    passed = {Stage.CUT, *(stage for stage, _ in coats)}
    if glued:
        passed.add(Stage.GLUED)
    if on_site:
        passed.update((Stage.CARRIED, Stage.PUT_IN))
    elif not alone and not glued:
        passed.add(Stage.PUT_IN)
    return tuple(sorted(passed))


def _contact(key: Pair, lives: Mapping[str, Life], finish: Finish, *, glued: bool, on_site: bool) -> Contact:
    one, other = (lives[name] for name in key)
    apart = not one.unit or one.unit != other.unit
    stage = Stage.PUT_IN if on_site and apart else Stage.GLUED
    zones = tuple(_zone(life, stage, finish, glued=glued) for life in (one, other))
    return Contact(key=key, stage=stage, glued=glued, zones=(zones[0], zones[1]))


def _zone(life: Life, stage: Stage, finish: Finish, *, glued: bool) -> Zone:
    coats = life.before(stage)
    if not coats:
        return Zone()
    if glued or finish.joint_zones == "masked":
        return Zone(state="masked")
    film = coats * finish.film
    return Zone(state="coated", film=film, wall_film=0.0 if finish.joint_zones == "walls masked" else film)


# --- in words ------------------------------------------------------------------------------------------


def coated_in_words(name: str, life: Life, stage: Stage) -> Sentence:
    """That a board is coated when a stage begins, by the last of the stages at which it is."""
    match max((at for at, _ in life.coats if at < stage), default=Stage.EARLY):
        case Stage.COATED:
            return say("{} is coated after glue, in the shop", Name(name))
        case Stage.ON_SITE:
            return say("{} is coated on site", Name(name))
    return say("{} is coated before glue", Name(name))


_SAID_AT: Mapping[Stage, When] = {stage: when for when, stage in _COATED_AT.items()}


def coats_in_words(life: Life) -> Sentence:
    """How many coats go on a board and when: "1 before glue, 1 after glue"; nothing where none are known."""
    return say("{}", Several(tuple(say("{} {}", str(number), _SAID_AT[at]) for at, number in life.coats), last=", "))


def closed_in_words(contact: Contact) -> Sentence:
    """The stage at which a joint closes."""
    one, other = map(Name, contact.key)
    how = "glued" if contact.glued else "put together dry"
    where = "on site" if contact.stage is Stage.PUT_IN else "in the shop"
    return say("{} and {} are {} {}", one, other, how, where)


def rank(place: Turn | None) -> tuple[int, int]:
    """By what bodies come in order on the wall: first, by number, what is left to be settled, last."""
    match place:
        case "first":
            return 0, 0
        case "last":
            return 3, 0
        case None:
            return 2, 0
    return 1, place


def place_in_words(place: Turn | None) -> Sentence:
    """A place in the order on the wall, to stand after "is put in"."""
    match place:
        case "first" | "last":
            return say("{}", place)
        case None:
            return say("after all that have a place")
    return say("as number {}", str(place))
