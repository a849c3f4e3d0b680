"""Settling, before any cutting, how each joint is made: which way slots open, from where ends go in.

For all joints together, in this order: what is already made; the maker's word (against something made: a
stop); that the piece can be put together at all; no open notch at the front; what is plainer to look at;
the places on the wall that the job gives; as few turns of the piece as may be; and then the order of names, so
that a tie never depends on the history of the file.

Nothing here needs solids: the motions of the makings say how two bodies leave each other. Units are settled
by themselves first, a glued frame with the boards it is closed round (`closing`); in the piece each of them
is one body. A halved grid is put together lying on its wall edges: the board whose slot opens to the front
lies, the other comes down over it. While every joint parts out of the wall and "lies before" runs in no
ring, one order of all bodies does it without a turn; level boards lie first, which is how a wall of shelves
is laid out. Otherwise the piece is taken apart on paper (`apart`), and each joint is made so that it parts
there.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial

from ...findings import Finding, Severity, declare, owns, question
from ...job.model import Turn, Unit
from ...keeping import Keep, Same
from ...places import Cure, Edit, Pair, Where
from ...sentences import Name, Sentence, Words, say
from ..choose import Chosen
from ..history import rank
from ..meetings import name_order
from ..model import Decision, Making, Motion
from ..setout import Made
from ..units import body_of
from . import closing, locks
from .apart import WALLWARD, Apart, bits, take_apart
from .apart import locks as smallest_locks
from .laying import NOWHERE, laying_order, steep_ones
from .locks import edits
from .ways import Link, MotionGraph, backwards, by_name, lies_first, permits, side_of

OPENS = question("settling", "which way each slot opens", lambda piece: piece.in_several)
AGAINST_MADE = declare(
    "against-what-is-made",
    "The maker's word goes against a slot that is already cut.",
    uncured="the slot is cut: whether your word goes or the board is made anew is your choice",
)
owns(OPENS, AGAINST_MADE)

ABOUT = "which slot opens to the front"
ABOUT_OTHERS = "how it goes together"
NO_OTHER_WAY = "the other way the piece could not be put together"


@dataclass(frozen=True, slots=True, kw_only=True)
class Settled:
    """A making for every joint, the decisions behind them, and what stood in the way; `units` as they are glued."""

    makings: Mapping[Pair, Making]
    decisions: tuple[Decision, ...]
    findings: tuple[Finding, ...]
    units: tuple[Unit, ...] = ()


def settle(
    chosen: tuple[Chosen, ...],
    made: Made,
    keep: Keep,
    units: Sequence[Unit] = (),
    places: Mapping[str, Turn] = NOWHERE,
) -> Settled:
    """Settle the making of every joint.

    Args:
        chosen: the joints.
        made: what is cut already.
        keep: of earlier answers.
        units: those that are glued up first.
        places: of loose boards in the order on the wall, as far as the job says.
    """
    links = [_as_said(_link(item, keep), made) for item in chosen]
    links.sort(key=lambda link: (name_order(link.key[0]), name_order(link.key[1])))
    boards = {side.body for item in chosen for side in (item.meeting.a, item.meeting.b) if side.path}
    loose = [link for link in links if set(link.key) <= boards]
    units = _closed(units, loose, made, keep)
    homes = body_of(units)
    state = {link.key: _in_homes(link, homes) for link in loose}
    findings = [against for link in links for against in _against_made(link, made)]
    outside = [key for key, link in state.items() if link.bodies[0] != link.bodies[1]]
    for unit in units:
        inside = [key for key, link in state.items() if link.bodies == (unit.name, unit.name)]
        state |= {key: replace(state[key], bodies=key) for key in inside}
        state, found = _Level(inside, {}, made, state, keep).settled()
        findings.extend(found)
    placed = {**places, **{unit.name: unit.place for unit in units if unit.place is not None}}
    state, found = _Level(outside, {unit.name: unit for unit in units}, made, state, keep, placed).settled()
    findings.extend(found)
    settled = [state.get(link.key, link) for link in links]
    return Settled(
        makings={link.key: link.makings[0] for link in settled},
        decisions=(*(_decision(link) for link in settled if len(link.every) > 1), *closing.decisions(units)),
        findings=tuple(findings),
        units=tuple(units),
    )


def _link(item: Chosen, keep: Keep) -> Link:
    key = (Same(item.meeting), item.kind.name, Same(item.options))
    makings: tuple[Making, ...] = keep.get("makings", key, partial(item.kind.makings, item.meeting, item.options))
    return Link(item, makings, item.meeting.key, makings)


def _in_homes(link: Link, homes: Mapping[str, str]) -> Link:
    """The link between the units of its two boards, where they are in any."""
    a, b = link.key
    bodies = homes.get(a, a), homes.get(b, b)
    return link if bodies == link.bodies else replace(link, bodies=bodies)


def _closed(units: Sequence[Unit], links: Sequence[Link], made: Made, keep: Keep) -> Sequence[Unit]:
    """The units with what their frames are closed round, unless more of the piece were locked so."""
    closed = closing.closed_round(units, links)
    if not any(unit.inside for unit in closed):
        return units
    stuck = _stuck_outside(closed, links, made, keep)
    return units if stuck and stuck > _stuck_outside(units, links, made, keep) else closed


def _stuck_outside(units: Sequence[Unit], links: Sequence[Link], made: Made, keep: Keep) -> int:
    """How many bodies are locked in the piece with these units whole."""
    homes = body_of(units)
    parted = {link.key: _in_homes(link, homes) for link in links}
    outside = [key for key, link in parted.items() if link.bodies[0] != link.bodies[1]]
    return _Level(outside, {unit.name: unit for unit in units}, made, parted, keep).stuck() if outside else 0


def _word(link: Link) -> str:
    """The board that the maker lets open to the front, if it can."""
    spec = link.chosen.spec
    return spec.front if spec is not None and spec.front in by_name(link.every) else ""


def _as_said(link: Link, made: Made) -> Link:
    """The link with the one making that is cut already, or else that the maker asks for."""
    said, cut = _word(link), made.fronts.get(link.key, "")
    if not said and not cut:
        return link
    by_front = by_name(link.every)
    if len(by_front) < 2:
        return link
    if cut and cut in by_front:
        return replace(link, makings=(by_front[cut],), reason="the slot is cut", decider="already made")
    if said:
        return replace(link, makings=(by_front[said],), reason="the job file says so", decider="maker")
    return link


def _against_made(link: Link, made: Made) -> Iterator[Finding]:
    """That the maker asks for another board to open to the front than the one that is slotted."""
    if link.decider != "already made":
        return
    said, cut = _word(link), made.fronts.get(link.key, "")
    if said and said != cut:
        yield _against(link, said, cut)


class _Level:
    """The joints of one unit, or of the piece with its units whole, while they are settled.

    Attributes:
        every: all joints between boards, those of other levels for cures that open a unit; its own as they are now.
        places: of its bodies in the order on the wall, as far as the job says.
        findings: what stands in the way.
    """

    def __init__(
        self,
        keys: Iterable[Pair],
        units: Mapping[str, Unit],
        made: Made,
        every: Mapping[Pair, Link],
        keep: Keep,
        places: Mapping[str, Turn] = NOWHERE,
    ) -> None:
        self.keys, self.units, self.made, self.every = tuple(keys), units, made, dict(every)
        self.keep, self.places = keep, places
        self._links: tuple[Mapping[Pair, Link], tuple[Link, ...]] | None = None
        self.findings: list[Finding] = []
        self.names = sorted({body for link in self.links for body in link.bodies}, key=name_order)
        self._looked: tuple[list[tuple[Making, ...]], MotionGraph, Apart] | None = None
        self._locked_anyway: int | None = None

    @property
    def links(self) -> tuple[Link, ...]:
        """Its own joints as they are now; kept until one of all joints is another."""
        if self._links is None or self._links[0] is not self.every:
            self._links = self.every, tuple(self.every[key] for key in self.keys)
        return self._links[1]

    def put(self, links: Iterable[Link]) -> None:
        """Have these of its joints so from now on."""
        self.every = {**self.every, **{link.key: link for link in links}}

    def settled(self) -> tuple[dict[Pair, Link], list[Finding]]:
        """All joints, its own with one making each, and what stands in the way."""
        if self.keys:
            self.settle()
        return self.every, self.findings

    def settle(self) -> None:
        """Narrow the makings of every joint of its own to one."""
        self.prefer(lambda making: making.open_notch, lambda link, making: _proud(link, making))
        self.prefer(
            lambda making: float(making.rank), lambda link, making: say("{}: so nothing of it shows", making.name)
        )
        for name in self.names:
            if self.places.get(name) == "last":
                self.put_last(name)
        order = laying_order(self.names, self.links, self.places)
        if order is not None:
            self.by_order(order)
        else:
            self.by_taking_apart()

    def locked_anyway(self) -> int:
        """How many bodies stay locked whatever is chosen, which is told the first time.

        Asked only once some are locked: till then nothing was left out that they need, since fewer makings free nobody.
        """
        if self._locked_anyway is None:
            self._locked_anyway = self.stuck()
            if self._locked_anyway:
                self.report()
        return self._locked_anyway

    def stuck(self) -> int:
        """How many bodies cannot be brought apart, whatever makings are chosen of those still open."""
        if laying_order(self.names, self.links) is not None:
            return 0
        return sum(locked.bit_count() for locked in self.apart().locked)

    def apart(self) -> Apart:
        return self.looked_at()[1]

    def looked_at(self) -> tuple[MotionGraph, Apart]:
        """The joints as they are now, and how far they come apart; kept until one of them is another."""
        makings = [link.makings for link in self.links]
        if self._looked is None or self._looked[0] != makings:
            removal = self.removal()
            links = tuple((link.key[0], link.bodies, *self.ways_apart(link)) for link in self.links)
            key = (tuple(self.names), links, tuple(removal))
            self._looked = makings, *self.keep.get("apart", key, lambda: self._taken_apart(removal))
        return self._looked[1:]

    def _taken_apart(self, removal: Sequence[int]) -> tuple[MotionGraph, Apart]:
        graph = MotionGraph(self.names, self.links)
        return graph, take_apart(graph, (1 << len(self.names)) - 1, removal)

    def ways_apart(self, link: Link) -> Iterator[Same]:
        """What counts of a joint for taking apart: the motions of its makings, equal ones as one object.

        A board that is dragged has its joints made anew at every step, and most come apart as they did before.
        """
        for making in link.makings:
            alike = partial(self.keep.get, "motions", making.motions, partial(_itself, making.motions))
            yield Same(self.keep.get("motions of a making", Same(making), alike))

    def removal(self) -> list[int]:
        """Who leaves first where there is a choice: steep boards before level ones, later names first."""
        steep = steep_ones(self.links)

        def late(number: int) -> tuple[int, int, bool, int]:
            turn, place = rank(self.places.get(self.names[number]))
            return -turn, -place, not steep.get(self.names[number], False), -number

        return sorted(range(len(self.names)), key=late)

    def narrowed(self, fewer: Sequence[Link]) -> bool:
        """Have these with fewer makings open, if nothing more is locked by it."""
        before = self.every
        self.put(fewer)
        locked = self.stuck()
        if not locked:
            return True
        narrow, self.every = self.every, before
        if locked > self.locked_anyway():
            return False
        self.every = narrow
        return True

    def prefer(self, cost: Callable[[Making], float], why: Callable[[Link, Making], Words]) -> None:
        """Keep the makings of least cost while the piece still goes together, the dearest mistakes first."""
        differ = [link for link in self.links if len({cost(making) for making in link.makings}) > 1]
        if not differ:
            return
        differ.sort(key=lambda link: -max(cost(making) for making in link.makings))
        best = [tuple(h for h in link.makings if cost(h) == min(map(cost, link.makings))) for link in differ]
        fewer = [
            replace(link, makings=makings, reason=why(link, makings[0]))
            for link, makings in zip(differ, best, strict=True)
        ]
        if self.narrowed(fewer):
            return
        for link, narrow in zip(differ, fewer, strict=True):
            if not self.narrowed([narrow]):
                others = tuple(making for making in link.makings if making not in narrow.makings)
                self.put([replace(link, makings=others, reason=NO_OTHER_WAY)])

    def put_last(self, name: str) -> None:
        """Let one body leave first of all, if there is a way to."""
        own = [link for link in self.links if name in link.bodies]
        graph = MotionGraph(self.names, own)
        for direction in graph.directions:
            fits = [_parting(link, name, direction) for link in own]
            if all(fits) and self.narrowed([link.left(makings) for link, makings in zip(own, fits, strict=True)]):
                return

    def by_order(self, order: Mapping[str, int]) -> None:
        """Each joint as the one order of laying asks."""
        self.put(_laid(link, order) for link in self.links if len(link.makings) > 1)

    def by_taking_apart(self) -> None:
        """Each joint as it parts when the piece is taken apart with the fewest turns."""
        graph, apart = self.looked_at()
        if apart.locked:
            self.locked_anyway()
        undecided = {link.key: link for link in self.links if len(link.makings) > 1}
        of_body: dict[str, list[Pair]] = {}
        for key, link in undecided.items():
            for body in link.bodies:
                of_body.setdefault(body, []).append(key)
        parted: dict[Pair, Link] = {}
        for move in apart.moves:
            for mover in (self.names[n] for n in bits(move.movers)):
                for link in (undecided[key] for key in of_body.get(mover, ()) if key not in parted):
                    stays = link.bodies[1] if mover == link.bodies[0] else link.bodies[0]
                    if move.rest >> graph.number[stays] & 1:
                        parted[link.key] = _parted(link, mover, graph.directions[move.way])
        self.put(_plainest(parted.get(link.key, link)) for link in self.links)

    def report(self) -> None:
        """A stop for each smallest locked set, with the cheapest change that frees it."""
        (graph, apart), order = self.looked_at(), self.removal()
        for lock in smallest_locks(graph, apart.locked, order):
            bodies = [self.names[n] for n in bits(lock)]
            inside = [link for link in self.links if set(link.bodies) <= set(bodies)]
            change = locks.cheapest(bodies, inside, self.made.fronts, self.units, tuple(self.every.values()))
            self.findings.append(locks.finding(bodies, inside, self.units, change))


def _itself(motions: tuple[Motion, ...]) -> tuple[Motion, ...]:
    return motions


def _laid(link: Link, order: Mapping[str, int]) -> Link:
    """The link made so that the body that comes first in the order lies."""
    lies = 0 if order[link.bodies[0]] < order[link.bodies[1]] else 1
    fit = [making for making in link.makings if lies_first(link, making)[lies]]
    return link.left((fit[0] if fit else link.makings[0],), _lies_before(link, link.key[lies]))


def _parted(link: Link, mover: str, direction: tuple[float, float, float]) -> Link:
    """The link made so that one of its bodies leaves in that direction."""
    makings = _parting(link, mover, direction)
    return link.left(makings[:1], _goes_in(link, link.key[link.bodies.index(mover)], side_of(direction)))


def _plainest(link: Link) -> Link:
    """The link with its first open making."""
    return link.left(link.makings[:1], _lies_before(link, link.makings[0].front or link.key[0]))


def _parting(link: Link, body: str, direction: tuple[float, float, float]) -> tuple[Making, ...]:
    """The open makings by which a body may leave in that direction."""
    out = direction if link.bodies[0] == body else backwards(direction)
    return tuple(making for making in link.makings if permits(making.motions, link.key[0], out))


def _proud(link: Link, making: Making) -> Words:
    if not making.front:
        return "the other way leaves an open notch"
    return say("{} stands proud at the front; the other way leaves an open notch", Name(link.other(making.front)))


def _lies_before(link: Link, first: str) -> Sentence:
    other = link.other(first)
    return say("{} is laid before {} when the piece is put together lying on its wall edges", Name(first), Name(other))


def _goes_in(link: Link, board: str, side: int) -> Sentence:
    other = link.other(board)
    if side == WALLWARD:
        return say("{} goes into {} from the wall, with the piece turned over", Name(board), Name(other))
    return _lies_before(link, other)


def _decision(link: Link) -> Decision:
    making = link.makings[0]
    word = ("front", making.front) if making.front else making.word
    keep: Edit | None = None
    if link.decider == "chosen" and word[0]:
        (keep,) = edits(link, (word,))
    return Decision(
        about=ABOUT if making.front else ABOUT_OTHERS,
        key=link.key,
        value=_called(making),
        decider=link.decider,
        reason=link.reason or "it is the simplest way to make it",
        others=tuple(_called(other) for other in link.every if other is not making),
        keep=keep,
    )


def _called(making: Making) -> Words:
    return say("{}", Name(making.front)) if making.front else making.name


def _against(link: Link, said: str, cut: str) -> Finding:
    spec = link.chosen.spec
    assert spec is not None
    return Finding(
        code=AGAINST_MADE,
        severity=Severity.STOP,
        where=Where(boards=link.key, joint=link.key, path=(*spec.path, "front")),
        says=say(
            "{} is already slotted from the front at {}, but the job asks for {}",
            Name(cut),
            Name(link.other(cut)),
            Name(said),
        ),
        remedy=say("let {} open to the front, or make the board again", Name(cut)),
        cures=(
            Cure(
                label=say("{}'s slot opens to the front", Name(cut)),
                edits=(Edit(action="set", path=(*spec.path, "front"), value=cut),),
            ),
        ),
    )
