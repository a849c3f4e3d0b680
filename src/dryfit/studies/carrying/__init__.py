"""Carrying: how each unit, loose board or whole piece comes to its place, and how many people that takes.

What it works out   The box round each body, as it stands and turned; its mass; how it goes into the van, through each
                    door, up each flight, round each corner and upright under the ceiling, with 50 taken off each clear
                    width and height for hands and wrapping, and where it does not pass how much too large it is; how
                    many carry it, lift it into its place and take it up the steepest flight.
Assumes             Its box; round a turn, into a van and stood up its own outline where the box does not pass: the hull
                    of its boards, so that what is open may pass all the same. Corners are square, flights
                    straight; between two passages it can be turned over. It comes in lying. On a flight two hold it
                    flat, at its under edge by both ends.
Source              Closed forms, see `passing`; people: `trade.lifting`; loads behind a van: `trade.loads_behind`.
                    50 for hands and wrapping, 100 over the steps, trestles: common practice.
"""

import math
from collections.abc import Iterator, Mapping, Sequence
from typing import Literal, TypeAlias

from ...asking import unanswered
from ...findings import Finding, NotChecked, Severity, declare
from ...piece.dividing import sound_spans, zones_of
from ...piece.members import divide_edit
from ...piece.model import Part, Piece
from ...piece.parts import corners_of
from ...places import Where
from ...sentences import Length, Mass, Name, On, Sentence, Several, Value, say
from ...study.base import Scene, Study, Work
from ...study.registry import register
from ...trade.lifting import SOURCE
from ...trade.loads_behind import SOURCES, asked_for
from ..measures.result import Measures
from .bodies import CarriedParts, body, goes, ground_of
from .boxes import around, boxed
from .passing import SIZES
from .result import Body, Box, Carrying, Passage, Passed, People
from .splitting import cures_for, why_none
from .tables import TABLES, read_way
from .value import BodyValue, CarryingValue, Divisible

NO_WAY = declare(
    "not-carried-in",
    "A unit does not pass something on its way: the van, a door, a stair, a turn.",
    uncured="which way it goes in, and what is carried as one, is your choice",
)
NOT_UPRIGHT = declare(
    "not-stood-up",
    "A unit cannot be stood up under the ceiling.",
    uncured="how it is stood up, and what is carried as one, is your choice",
)
TIGHT = declare(
    "tight-way",
    "A unit passes something on its way only without room for hands and wrapping.",
    uncured="whether what is tight is carried so is your choice",
)
BEHIND = declare(
    "behind-the-van",
    "A unit projects behind the van.",
    uncured="which van comes, and how it is loaded, is your choice",
)
HEAVY = declare(
    "heavy-to-carry",
    "A unit is heavier than people may lift or carry by the guidance, or better lighter.",
    uncured="how many carry, and with what, is your choice",
)
MOST_DIVIDED = 20  # boards that are tried divided
_Task: TypeAlias = Literal["place", "tip", "carry", "stair"]
THIRD: Mapping[_Task, str] = {"place": "lift", "tip": "tip up", "carry": "carry", "stair": "take up"}
ANY_RULES = "look up what rules hold there for loads that project"
LOST = declare(
    "way-not-clear",
    "The order of what is passed cannot be told: an `after` names nothing on the way.",
    uncured="only the place itself tells what is lacking",
)


@register
class CarryingStudy(Study[CarryingValue, Carrying]):
    """How it comes to its place."""

    name = "carrying"
    order = 60
    version = 2
    codes = (NO_WAY, NOT_UPRIGHT, TIGHT, BEHIND, HEAVY, LOST)
    asks = "how it is carried in"
    result = Carrying
    needs = (Measures,)
    owns = TABLES
    guards = True

    def reads(self, scene: Scene) -> CarryingValue:
        """Copy corners, masses, the bodies and the way."""
        piece, job = scene.piece, scene.job
        parts = [part for part in piece.parts if part.short[1] > part.short[0]]
        read = read_way(scene)
        return CarryingValue(
            bodies=tuple(_bodies(scene, parts, read.way)),
            corners=tuple((part.id, corners_of(part)) for part in parts),
            mass_kg=scene.earlier(Measures).mass_kg,
            way=read.way,
            lost=read.lost,
            ceiling=job.wall.ceiling,
            hung=job.wall.hung,
            whole=tuple(sorted(piece.whole.items())),
            taken=frozenset(
                (
                    *(board.name for board in job.boards),
                    *(frame.name for frame in job.frames),
                    *(unit.name for unit in job.units_glued),
                )
            ),
        )

    def run(self, value: CarryingValue, work: Work) -> Carrying:
        """Body by body."""
        ground, found = ground_of(value), []
        for number, own in enumerate(value.bodies):
            work.step(number / len(value.bodies), "carrying")
            found.append(body(own, ground))
        return Carrying(
            way=value.way,
            bodies=tuple(sorted(found, key=_largest_first)),
            ceiling=value.ceiling,
            lost=value.lost,
        )

    def findings(self, value: CarryingValue, result: Carrying) -> tuple[Finding, ...]:
        """Of each body the first that it does not pass; what is tight, projects, or is heavy.

        What is too heavy is told of a job that says nothing of the way too: it is lifted wherever it goes.
        """
        own, ground = {one.name: one for one in value.bodies}, ground_of(value)
        found = [_lost(at, after, value) for at, after in value.lost]
        for one in result.bodies:
            found += _of_body(one, own[one.name], ground)
        return tuple(found)

    def not_checked(self, value: CarryingValue, result: Carrying) -> tuple[NotChecked, ...]:
        """Passages that nobody gives, the ceiling, masses that are not known."""
        return tuple(_left_open(self.name, value, result))


# --- what is read -----------------------------------------------------------------------------------------


def _bodies(scene: Scene, parts: list[Part], way: Sequence[Passage]) -> Iterator[BodyValue]:
    """Units and loose boards where the piece goes together on the site, else all of it as one."""
    piece, history = scene.piece, scene.piece.history
    apart = history.on_site
    carried = {part.id: history.carried(part.id) if apart and part.id in history.lives else "" for part in parts}
    if len(parts) == 1:
        carried = {part.id: part.id for part in parts}
    units = {unit.name: unit for unit in piece.units}
    alone = {unit.boards[0]: unit for unit in scene.job.units_glued if len(unit.boards) == 1}
    stuck = _Divider(scene, way)
    for name, groups in _glued(piece, carried).items():
        boards = [board for group in groups for board in group]
        unit = units.get(name) if len(boards) > 1 else alone.get(boards[0])
        yield BodyValue(
            name=name,
            boards=tuple(boards),
            weighed_kg=None if unit is None else unit.mass_kg,
            path=() if unit is None else unit.path,
            groups=groups,
            divisible=stuck.divisible(boards[0]) if len(boards) == 1 else None,
        )


def _glued(piece: Piece, carried: Mapping[str, str]) -> dict[str, tuple[tuple[str, ...], ...]]:
    """What glue holds together of each body, by its name, in the boards' order."""
    home = {name: name for name in carried}

    def root(name: str) -> str:
        while home[name] != name:
            home[name] = home[home[name]]
            name = home[name]
        return name

    for joint in piece.joints:
        one, other = joint.key
        if joint.glued and one in home and other in home and carried[one] == carried[other]:
            home[root(other)] = root(one)
    found: dict[str, dict[str, list[str]]] = {}
    for name, body_of_it in carried.items():
        found.setdefault(body_of_it, {}).setdefault(root(name), []).append(name)
    return {name: tuple(map(tuple, groups.values())) for name, groups in found.items()}


class _Divider:
    """Where loose boards may be divided that are too long for a turn; other passages a shorter board passes no better.

    No more than MOST_DIVIDED are looked at: each costs a search of the job's text.
    """

    def __init__(self, scene: Scene, way: Sequence[Passage]) -> None:
        self.scene, self.way, self.left = scene, way, MOST_DIVIDED
        self.short = min((max(one.width, one.into) for one in way if one.kind == "turn"), default=math.inf)

    def divisible(self, name: str) -> Divisible | None:
        """Of a board that does not pass, by rule; none of a member, of a side of a frame, and without a text.

        The place is taken that leaves the longer member shortest: where that does not pass, no other helps.
        """
        part, piece, job = self.scene.piece.part_by_name[name], self.scene.piece, self.scene.job
        start, end = part.long
        if end - start <= self.short or name in piece.whole or not (job.text and self.left):
            return None
        spec = next((one for one in job.boards if one.name == name), None)
        boxes = around(corners_of(part)).boxes
        if spec is None or spec.frame or goes(boxes, self.way):
            return None
        self.left -= 1
        spans = sound_spans(part.board, zones_of(job, part.board, piece.meetings))
        places = [min(max(span.best, span.low), span.high) for span in spans]
        longer, at = min(((max(at - start, end - at), at) for at in places), default=(math.inf, 0.0))
        if not goes([boxed(longer, *boxes[0][1:])], self.way):
            return None
        return Divisible(longer=longer, edit=divide_edit(job, spec, part.board, at))


# --- what is said -----------------------------------------------------------------------------------------


def _largest_first(one: Body) -> tuple[float, str]:
    long, wide, thick = one.boxes[0]
    return -long * wide * thick, one.name


def _of_body(one: Body, own: BodyValue, ground: CarriedParts) -> Iterator[Finding]:
    stuck, value, way = one.stuck, ground.value, ground.value.way
    if stuck is not None:
        yield _no_way(one, own, stuck, ground)
    elif one.upright_room == "none":
        yield _not_upright(one, value)
    tight: list[Value] = [way[passed.at].called for passed in one.ways if passed.room == "tight"]
    if one.upright_room == "tight":
        tight.append("the ceiling, as it is stood up")
    if tight:
        yield _tight(one, tight)
    for passed in one.ways:
        if passed.way is not None and passed.way.behind > 0.0:
            yield _behind(one, passed.way.behind, way[passed.at])
    yield from _heavy(one, own)


def _it(one: Body) -> Value:
    return Name(one.name) if one.name else "the whole piece"


def _sized(box: Box) -> Sentence:
    return say("{} x {} x {}", *map(Length, box))


def _no_way(one: Body, own: BodyValue, stuck: Passed, ground: CarriedParts) -> Finding:
    passage = ground.value.way[stuck.at]
    cures = cures_for(own, ground)
    says = say("{}, {}, does not pass {}", _it(one), _sized(stuck.box), passage.called)
    found = limit = None
    if stuck.over is not None:
        size, limit = stuck.over
        found = dict(zip(SIZES, stuck.box, strict=True))[size]
        over, most = Length(found - limit, side=On.UP), Length(limit, side=On.DOWN)
        says = say("{}: {} too {}, at most {} goes through", says, over, size, most)
    return Finding(
        code=NO_WAY,
        severity=Severity.STOP,
        where=Where(boards=one.boards, path=passage.path),
        says=says,
        remedy=cures[0].label if cures else why_none(own, ground),
        found=found,
        limit=limit,
        unit="" if found is None else "mm",
        source="geometry of its box and its outline",
        cures=cures,
    )


def _not_upright(one: Body, value: CarryingValue) -> Finding:
    ceiling = value.ceiling or 0.0
    return Finding(
        code=NOT_UPRIGHT,
        severity=Severity.STOP,
        where=Where(boards=one.boards, path=("wall", "ceiling")),
        says=say(
            "{} wants {} over it while it is stood up; the ceiling is {} high",
            _it(one),
            Length(one.upright, side=On.UP),
            Length(ceiling),
        ),
        remedy="make it lower, or put it together standing",
        found=one.upright,
        limit=ceiling,
        unit="mm",
        source="geometry of its box and its outline",
    )


def _tight(one: Body, tight: list[Value]) -> Finding:
    return Finding(
        code=TIGHT,
        severity=Severity.WARN,
        where=Where(boards=one.boards),
        says=say("{} passes {} only without room for hands and wrapping", _it(one), Several(tuple(tight))),
        remedy="measure again where it is narrowest, or wrap it once it is through",
        source="common practice",
    )


def _behind(one: Body, behind: float, van: Passage) -> Finding:
    asks = asked_for(behind, van.country)
    rules = say("{} ({}); look up the rules as they are now", asks, SOURCES[van.country]) if asks else ANY_RULES
    return Finding(
        code=BEHIND,
        severity=Severity.WARN,
        where=Where(boards=one.boards, path=(*van.path, "length")),
        says=say("{} projects {} behind the van, measured at the floor", _it(one), Length(behind, side=On.UP)),
        remedy=say("tie it down and mark its end, or take a longer van; {}", rules),
        found=behind,
        limit=0.0,
        unit="mm",
        source=SOURCES.get(van.country, ""),
    )


def _heavy(one: Body, own: BodyValue) -> Iterator[Finding]:
    """Where the guidance gives it to nobody, or to three for its mass alone: the first of placing, carrying, stairs."""
    if one.reckoned_kg is None:
        return
    asked: tuple[tuple[People | None, _Task], ...] = (
        (one.placed, "tip" if one.tipped else "place"),
        (one.carried, "carry"),
        (one.stairs, "stair"),
    )
    too_much = [(people, task) for people, task in asked if people is not None and people.count is None]
    better = [(people, task) for people, task in asked if people is not None and people.better_less]
    if not (too_much or better):
        return
    people, task = (too_much or better)[0]
    less = "" if own.weighed_kg is not None else "up to "
    weighs = say("{} weighs {}{}", _it(one), less, Mass(one.reckoned_kg))
    told = (
        _too_much(task, Mass(people.may_kg))
        if too_much
        else say("it takes three people to {} it, of whom the third adds an eighth at most", THIRD[task])
    )
    yield Finding(
        code=HEAVY,
        severity=Severity.WARN,
        where=Where(boards=one.boards, path=own.path or None),
        says=say("{}: {}", weighs, told),
        remedy="weigh it, split it, or use a stand or a lift",
        source=SOURCE,
    )


def _too_much(task: _Task, load: Mass) -> Sentence:
    match task:
        case "place":
            return say("three people may lift {} into its place at most", load)
        case "tip":
            return say(
                "half of that is in the hands as it is tipped up, of which three people may lift {} at most", load
            )
        case "carry":
            return say("three people may carry {} at most", load)
    return say("two people may take {} up the stair at most", load)


def _lost(at: int, after: str, value: CarryingValue) -> Finding:
    passage = value.way[at]
    return Finding(
        code=LOST,
        severity=Severity.WARN,
        where=Where(path=(*passage.path, "after")),
        says=say("{} is to come after {}, which is not on the way before it", passage.called, Name(after)),
        remedy="name another door, stair or turn as it is called there, or leave `after` out",
    )


def _left_open(study: str, value: CarryingValue, result: Carrying) -> Iterator[NotChecked]:
    if not value.way:
        yield unanswered(study, "no [van], [[door]], [[stair]] or [[turn]] is given")
        return
    if value.ceiling is None:
        yield NotChecked(
            study=study,
            what="standing it up in the room",
            why="[wall] gives no ceiling",
            where=Where(path=("wall",)),
        )
    light = [one for one in result.bodies if one.mass_kg is None]
    if light:
        names = Several(tuple(map(_it, light)))
        yield NotChecked(
            study=study,
            what=say("how many people carry {}", names),
            why="the density of its timber is not known, and it was not weighed",
            where=Where(boards=tuple(name for one in light for name in one.boards)),
        )
