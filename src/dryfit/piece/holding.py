"""What holds each board up: the floor or a fixing, through joints that can carry it.

The kinds say what their joints carry (`JointKind.carries`), `statics` works out who stands, and here it is said
with the boards, the way that is missing, and a cure where the joint can be made to hold. It is a check of the
set-out, made anew in every drag step, because only there are the kinds at hand; a joint that has not changed
is not asked again.

Taken for granted: boards weigh by their volume and carry nothing; the floor is level, and feet do not slide on it;
what runs through slots grips however wide its clearance. Not judged: how much a joint carries, racking, tipping
towards the room. Where a board is only laid on another, nobody has said what holds it: that is left open.
"""

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property, partial
from itertools import groupby

from ..findings import Finding, NotChecked, Severity, declare, owns, question
from ..geometry.frames import Vec, Vec2
from ..job.model import Job, Unit
from ..keeping import Keep, Same
from ..places import Cure, Edit, Pair, Path, Where
from ..sentences import Length, Name, Several, Value, few, say
from .choose import Chosen
from .clearing import run_to_meet
from .meetings import name_order
from .model import WALL, Board, Joint, Making, Meeting, Part
from .room import is_floor, outline
from .setout import TOUCHING
from .settling.locks import edits_asking
from .settling.ways import STRAY, backwards, permits
from .settling.ways import UP as FRONT
from .statics import Balance, Bond, HeldPoint, bond, feet, one_body, standing
from .units import body_of

HOLDING = question("holding", "what holds each board up")

STANDS = Cure(label="it stands on the floor", edits=(Edit(action="remove", path=("wall", "hung")),))
HUNG = declare(
    "hung-without-fixing",
    "The piece is to hang, and no fixing holds it to the wall.",
    uncured="where it is fixed to the wall is a choice of design",
)
FALLS = declare(
    "held-by-nothing",
    "A board reaches neither the floor nor a fixing through joints that can carry it.",
    uncured="what is to hold the board up is a choice of design",
)
TIPS = declare(
    "tips",
    "A board is supported to one side of its weight only: it tips.",
    uncured="what it bears on at the other side is a choice of design",
)
LOOSE = declare(
    "not-fastened",
    "A joint is neither glued nor fastened, and nothing of it goes into the other board.",
    uncured="the joint cannot be glued as it is; what holds it is a choice of design",
)
DRAWN_OUT = declare(
    "held-by-fit",
    "Nothing but their fit holds some boards: they pull out.",
    uncured="what is to hold them is a choice of design: their joints cannot be glued as they are",
)
APART = declare(
    "apart",
    "Some boards are joined to each other but not to the rest of the piece, or to none.",
    uncured="whether the piece is meant to be in several parts is your choice",
)
CODES = owns(HOLDING, HUNG, FALLS, TIPS, LOOSE, DRAWN_OUT, APART)  # they name boards that stand where they should


STEEP = math.sqrt(0.5)  # sine of the slope from which on a board stands rather than lies
LIFTS = 0.05  # sine from which on a way out lifts the board: its weight keeps it from that
MOST = 12  # boards named in one sentence
MOST_FAST = 2  # cures offered of many alike: each is tried on the whole piece
EVERY_WAY = ((1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0))


@dataclass(frozen=True, slots=True, kw_only=True)
class Holding:
    """What was found, and what was left open."""

    findings: tuple[Finding, ...]
    not_checked: tuple[NotChecked, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Known:
    """What is kept of one joint.

    Attributes:
        bond: as it is made; `sure` without what only glue on end grain holds.
        out: for either side, the ways out of the other that need no lifting and do not lead to the wall.
    """

    joint: Joint
    bond: Bond
    sure: Bond
    out: tuple[tuple[Vec, ...], tuple[Vec, ...]]


def what_holds(
    job: Job,
    parts: Sequence[Part],
    meetings: Iterable[Meeting],
    chosen: Iterable[tuple[Chosen, Joint]],
    units: Sequence[Unit],
    keep: Keep,
) -> Holding:
    """Look at every board of a piece; `meetings` are all there are, also those that no joint is made for."""
    if not parts:
        return Holding(findings=(), not_checked=())
    check = _Check(job, parts, meetings, _by_key(chosen), units, keep)
    return Holding(findings=tuple(check.findings()), not_checked=tuple(check.not_checked()))


def _by_key(chosen: Iterable[tuple[Chosen, Joint]]) -> dict[Pair, tuple[Chosen, Joint]]:
    """By the joint's key."""
    return {joint.key: (item, joint) for item, joint in chosen}


def _known(item: Chosen, joint: Joint) -> _Known:
    carries = item.kind.carries(joint)
    pair = joint.meeting.a.body, joint.meeting.b.body
    sure = [carry for carry in carries if not carry.glue]
    whole = bond(pair, carries)
    return _Known(
        joint=joint,
        bond=whole,
        sure=bond(pair, sure) if len(sure) < len(carries) else whole,
        out=(_ways_out(joint.making, pair[0]), _ways_out(joint.making, pair[1])),
    )


def _ways_out(making: Making, board: str) -> tuple[Vec, ...]:
    """To the front first; then the straight ways of the making that neither lift the board nor lead to the wall."""
    own = [motion.direction if motion.body == board else backwards(motion.direction) for motion in making.motions]
    ways = [way for way in own if abs(way[2]) < STRAY and way[1] < LIFTS]
    return (*([FRONT] if permits(making.motions, board, FRONT) else []), *ways)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Stance:
    """What is kept of one part: where its weight is, how low it reaches, and how it stands if that is the floor."""

    weight: tuple[Vec2, float]
    low: float
    feet: tuple[HeldPoint, ...]


def _stance(part: Part) -> _Stance:
    """Its weight by its volume, on its line as drawn: wood of one density."""
    board, corners = part.board, outline(part)
    x, y, _ = board.frame.place((board.length / 2, 0.0, board.depth / 2))
    low = min(y for _, y in corners)
    return _Stance(
        weight=((x, y), board.length * board.depth * board.thickness_at(board.length / 2)),
        low=low,
        feet=feet(corner for corner in corners if corner[1] <= low + TOUCHING),
    )


def _hooked(board: Board) -> tuple[HeldPoint, ...]:
    """Contacts of a board that goes nowhere."""
    ends = (board.frame.place((a, 0.0, 0.0)) for a in (0.0, board.length))
    return tuple(HeldPoint(WALL, way, (x, y)) for x, y, _ in ends for way in EVERY_WAY)


class _Check:
    """One piece, looked at.

    Attributes:
        names: of all boards.
        known: of every joint, fixings too.
        as_one: pairs that touch with no joint in one unit, which the job says is glued.
        open: other pairs that touch with no joint: what holds them together nobody has said.
        hooked: boards with a fixing that cannot be made, which is a stop of its own, as if it held.
    """

    def __init__(
        self,
        job: Job,
        parts: Sequence[Part],
        meetings: Iterable[Meeting],
        chosen: Mapping[Pair, tuple[Chosen, Joint]],
        units: Sequence[Unit],
        keep: Keep,
    ) -> None:
        self.job, self.parts, self.chosen = job, parts, chosen
        self.names = [part.id for part in parts]
        self.boards = {part.id: part.board for part in parts}
        self.ran_on = 0
        self.known = [
            keep.get("carries", (item.kind.name, Same(joint)), partial(_known, item, joint))
            for item, joint in chosen.values()
        ]
        touching = [(m.a.body, m.b.body) for m in meetings if m.key not in chosen]
        unit = body_of(units)
        self.as_one = [pair for pair in touching if unit.get(pair[0], "") == unit.get(pair[1], pair[1])]
        self.open = [pair for pair in touching if pair not in self.as_one]
        stances = {part.id: keep.get("stance", Same(part), partial(_stance, part)) for part in parts}
        self.weights = {name: stance.weight for name, stance in stances.items()}
        lows = {name: stance.low for name, stance in stances.items()}
        self.lowest = min(lows, key=lows.__getitem__)
        self.low = lows[self.lowest]
        self.floor_known = job.wall.hung or self.low >= -TOUCHING or is_floor(job.wall, lows.values())
        reach = (0.0 if self.floor_known else self.low) + TOUCHING
        standing_on_it = () if job.wall.hung else [name for name, low in lows.items() if low <= reach]
        self.feet = {name: stances[name].feet for name in standing_on_it}
        self.fixed = {known.bond.pair[0] for known in self.known if known.bond.pair[1] not in self.boards}
        unmade = {fixing.board for fixing in job.fixings if (fixing.name, WALL) not in chosen}
        self.hooked = {name: _hooked(self.boards[name]) for name in unmade.intersection(self.boards)}
        bonds = [known.bond for known in self.known]
        stands = standing(self.weights, bonds, self.feet, self.as_one)
        self.left_open = frozenset[str]()
        if len(stands.held) < len(self.names) and (self.open or self.hooked):
            only = stands.held
            stands = self._standing(bonds)
            self.left_open = stands.held - only
        self.held, self.tips = stands.held, stands.tips
        self.tries = 0

    def _standing(self, bonds: Iterable[Bond]) -> Balance:
        """Who stands, if what nobody has said, or what cannot be made, held."""
        return standing(self.weights, bonds, {**self.feet, **self.hooked}, [*self.as_one, *self.open])

    @property
    def grounded(self) -> bool:
        """Whether anything of it reaches the floor or a fixing."""
        return bool(self.feet or self.fixed or self.hooked)

    @cached_property
    def alone(self) -> frozenset[str]:
        """Boards that stand on the floor by one end, with nothing beside them."""
        met = {name for known in self.known for name in known.bond.pair} | {name for pair in self.open for name in pair}
        return frozenset(name for name in self.feet if name not in met and abs(self.boards[name].frame.x[1]) > STEEP)

    def findings(self) -> Iterator[Finding]:
        """The stops, what is loose, what can be drawn out, what is apart."""
        if not self.grounded:
            yield self._hung() if self.job.wall.hung else self._in_the_air()
        else:
            yield from self._not_held()
        yield from self._loose()
        yield from self._drawn_out()
        yield from self._apart()

    # ---- stops

    def _hung(self) -> Finding:
        return Finding(
            code=HUNG,
            severity=Severity.STOP,
            where=Where(boards=(self.names[0],) if len(self.names) == 1 else (), path=("wall", "hung")),
            says="the piece hangs (hung = true), and no fixing holds it to the wall",
            remedy="say with a [[fixing]] which board is screwed to the wall, and where; or take hung out if it stands "
            "on the floor",
            cures=(STANDS,) if abs(self.low) <= TOUCHING else (),
        )

    def _in_the_air(self) -> Finding:
        board = self.boards[self.lowest]
        return Finding(
            code=FALLS,
            severity=Severity.STOP,
            where=Where(boards=(board.name,), path=board.path),
            says=say(
                "nothing of the piece reaches the floor or a fixing: {}, its lowest board, is {} above the floor",
                Name(board.name),
                Length(self.low),
            ),
            remedy="bring it down to the floor, which is y = 0, or say with a [[fixing]] what holds it to the wall",
            found=self.low,
            limit=TOUCHING,
            unit="mm",
            source="geometry",
        )

    def _not_held(self) -> Iterator[Finding]:
        falling = [name for name in self.names if name not in self.held]
        inside = [known.bond.pair for known in self.known if not self.held.issuperset(known.bond.pair)]
        groups = one_body(falling, [*inside, *self.open])
        tipping = {name: names for names in self.tips for name in names}
        falling.sort(key=lambda name: (groups[name], name_order(name)))
        for _, members in groupby(falling, key=groups.__getitem__):
            group = list(members)
            roots = dict.fromkeys(tipping[name] for name in group if name in tipping)
            for root in roots:
                rest = [name for name in group if name not in tipping]
                yield self._tips_over(sorted(root, key=name_order), rest)
            if not roots:
                yield self._falls(group)
        yield from (self._stands_alone(name) for name in sorted(self.alone & self.held, key=name_order))

    def _tips_over(self, root: list[str], rest: list[str]) -> Finding:
        links = self._links(root)
        bearing = sorted({other for known in links for other in known.bond.pair if other not in root}, key=name_order)
        bearers: list[Value] = [Name(name) if name in self.boards else "the wall" for name in bearing]
        if any(name in self.feet for name in root):
            bearers.append("the floor")
        falls_too = say(", and with it {}", _listed(rest)) if rest else ""
        it, tips = ("it", "tips") if len(root) == 1 else ("them", "tip")
        return Finding(
            code=TIPS,
            severity=Severity.STOP,
            where=Where(boards=(*root, *rest), path=self.boards[root[0]].path),
            says=say(
                "{} {}{}: all that supports {} is {}, to one side of the weight",
                _listed(root),
                tips,
                falls_too,
                it,
                few(bearers, MOST),
            ),
            remedy=say("support {} on the other side too, or fix {} to the wall", it, it),
            source="geometry",
            cures=self._glued(links, root),
        )

    def _falls(self, group: list[str]) -> Finding:
        links = self._links(group)
        places, neither = "the floor or a fixing", "neither the floor nor a fixing"
        if self.job.wall.hung:
            places, neither = "a fixing", "no fixing"
        remedy = say("bring it to the rest of the piece, or to {}", places)
        it = "it" if len(group) == 1 else "them"
        if links:
            through = [
                say("the {} with {}", known.joint.kind, Name(other) if other in self.boards else other)
                for known in links
                for other in known.bond.pair
                if other not in group
            ]
            do = "does" if len(through) == 1 else "do"
            says = say("nothing keeps {} from dropping: {} {} not carry {}", _listed(group), few(through, MOST), do, it)
            remedy = say("put a board under {}, fasten the joint so that it pulls, or fix {} to the wall", it, it)
        elif len(group) > 1:
            says = say("{} are joined to each other and reach {}", _listed(group), neither)
        else:
            says = say("{} touches nothing that holds it: it reaches {}", Name(group[0]), neither)
        return Finding(
            code=FALLS,
            severity=Severity.STOP,
            where=Where(boards=tuple(group), path=self.boards[group[0]].path),
            says=says,
            remedy=remedy,
            source="geometry",
            cures=self._glued(links, group) if links else self._run_on(group),
        )

    def _run_on(self, group: Sequence[str]) -> tuple[Cure, ...]:
        """A board that touches nothing, run on to what stands in its way; of many only the first few are tried."""
        if len(group) > 1 or self.ran_on >= MOST_FAST:
            return ()
        self.ran_on += 1
        return tuple(run_to_meet(self.boards[group[0]], self.boards.values()))

    def _stands_alone(self, name: str) -> Finding:
        return Finding(
            code=FALLS,
            severity=Severity.STOP,
            where=Where(boards=(name,), path=self.boards[name].path),
            says=say("{} stands on its end by itself: nothing keeps it from falling over", Name(name)),
            remedy="bring it to the rest of the piece, or fix it to the wall",
            source="geometry",
        )

    def _links(self, group: Sequence[str]) -> list[_Known]:
        """Joints between a group and what is held."""
        inside = set(group)
        return [
            known
            for known in self.known
            if len(inside.intersection(known.bond.pair)) == 1
            and any(other in self.held or other not in self.boards for other in known.bond.pair if other not in inside)
        ]

    def _glued(self, links: Iterable[_Known], group: Sequence[str]) -> tuple[Cure, ...]:
        """The first of these joints that glue would make fast, if the group is then held."""
        for known in links:
            made = self._made_with_glue(known)
            if made is not None and (self.held.issuperset(group) or self._holds(known, made, group)):
                item, joint = self.chosen[known.joint.key]
                a, b = joint.key
                label = say("glue {} to {}", Name(a), Name(b))
                return (Cure(label=label, edits=edits_asking(item, item.kind.gluing(item.asked))),)
        return ()

    def _made_with_glue(self, known: _Known) -> _Known | None:
        """The same joint glued; None where it is, where the kind has no such word, or where that brings a stop."""
        item, joint = self.chosen[known.joint.key]
        asks = item.kind.gluing(item.asked)
        asked = item.asked.model_copy(update=dict(asks))
        if not asks or not item.kind.judge(joint.meeting, asked).possible:
            return None
        made = item.kind.make(joint.meeting, item.kind.worked(joint.meeting, asked), joint.making)
        stops = any(finding.severity is Severity.STOP for finding in made.findings)
        return None if stops else _known(item, made)

    def _holds(self, known: _Known, instead: _Known, group: Sequence[str]) -> bool:
        """Whether a group is held with one joint made otherwise; tried for the first few stops only."""
        self.tries += 1
        if self.tries > MOST:
            return False
        bonds = [instead.bond if other is known else other.bond for other in self.known]
        return self._standing(bonds).held.issuperset(group)

    # ---- warnings and notes

    def _loose(self) -> Iterator[Finding]:
        for known in self.known:
            if not known.bond.rests or (self.grounded and not self.held.issuperset(known.bond.pair)):
                continue  # where nothing is held at all no board is said to drop, and its joint is told all the same
            a, b = known.bond.pair
            so = "the one only bears on the other" if self.grounded else "nothing keeps the one at the other"
            yield Finding(
                code=LOOSE,
                severity=Severity.WARN,
                where=Where(boards=(a, b), joint=known.joint.key, path=self._path(known)),
                says=say(
                    "the {} of {} and {} is neither glued nor fastened: {}", known.joint.kind, Name(a), Name(b), so
                ),
                remedy="glue it, or let dowels, screws, keys or a tongue hold it",
                source="common practice",
                cures=self._glued((known,), known.bond.pair),
            )

    def _path(self, known: _Known) -> Path | None:
        spec = self.chosen[known.joint.key][0].spec
        return spec.path if spec is not None else None

    def _drawn_out(self) -> Iterator[Finding]:
        """Once for the piece: what nothing but its fit holds, and a straight way out that needs no lifting."""
        ways = self._ways()
        if not ways:
            return
        boards = sorted(ways, key=name_order)
        alike = [(way, [name for name in boards if ways[name] == way]) for way in dict.fromkeys(ways.values())]
        if len(alike) == 1:
            pull = "it pulls" if len(boards) == 1 else "they pull"
            says = say("nothing but the fit holds {}: {} out {}", _listed(boards), pull, alike[0][0])
        else:
            pulls = [
                say("{} {} out {}", _listed(names), "pulls" if len(names) == 1 else "pull", way) for way, names in alike
            ]
            says = say("nothing but the fit holds {} boards: {}", f"{len(boards)}", Several(tuple(pulls), "; ", "; "))
        yield Finding(
            code=DRAWN_OUT,
            severity=Severity.NOTE,
            where=Where(boards=tuple(boards)),
            says=says,
            remedy="leave it so if it is to come apart; else glue a joint of each, or fix it to the wall",
            cures=tuple(self._fast(boards)),
        )

    def _fast(self, boards: Sequence[str]) -> Iterator[Cure]:
        """One joint of each glued, the first that glue can make fast; of many boards only so many are tried."""
        for name in boards[:MOST_FAST]:
            own = (known for known in self.known if name in known.bond.pair and not known.bond.held)
            known = next((known for known in own if self._made_with_glue(known) is not None), None)
            if known is not None:
                item, joint = self.chosen[known.joint.key]
                a, b = joint.key
                label = say("glue {} to {}", Name(a), Name(b))
                yield Cure(label=label, edits=edits_asking(item, item.kind.gluing(item.asked)))

    def _ways(self) -> Mapping[str, str]:
        """In words where to each board can be drawn out."""
        parted = [known for known in self.known if not known.bond.held and known.bond.pair[1] in self.boards]
        if not parted:
            return {}
        homes = one_body(self.names, (known.bond.pair for known in self.known if known.bond.held))
        bodies: dict[str, list[str]] = {}
        for name in self.names:
            bodies.setdefault(homes[name], []).append(name)
        stays = {homes[name] for name in self.fixed} | {homes[name] for name in self.names if name not in self.held}
        stays |= {homes[name] for known in self.known if known.bond.rests for name in known.bond.pair}  # told already
        stays |= {homes[name] for pair in self.open for name in pair if name in homes}
        joints: dict[str, list[tuple[_Known, int]]] = {}
        for known in parted:
            for side in (0, 1):
                joints.setdefault(homes[known.bond.pair[side]], []).append((known, side))
        found: dict[str, str] = {}
        half = sum(mass for _, mass in self.weights.values()) / 2
        for home, own in joints.items():
            if home not in stays and sum(self.weights[name][1] for name in bodies[home]) <= half + 1e-6:
                way = _way_out(own, bodies[home])
                if way is not None:
                    found |= dict.fromkeys(bodies[home], _where_to(way))
        return found

    def _apart(self) -> Iterator[Finding]:
        """Parts of a piece that are held each by itself, or that have nothing to hold them yet."""
        groups: dict[str, list[str]] = {}
        roots = one_body(self.names, [*(known.bond.pair for known in self.known), *self.open])
        if len(set(roots.values())) < 2:
            return
        for name in self.names:
            groups.setdefault(roots[name], []).append(name)
        for group in sorted(groups.values(), key=len, reverse=True)[1:]:
            held = self.held.issuperset(group) or not self.grounded
            if held and not self.alone.issuperset(group):
                says = "are joined to each other but to nothing else" if len(group) > 1 else "touches no other board"
                yield Finding(
                    code=APART,
                    severity=Severity.NOTE,
                    where=Where(boards=tuple(group), path=self.boards[group[0]].path),
                    says=say("{} {}", _listed(group), says),
                    remedy="leave it so if that is meant, else bring it to the rest",
                    cures=self._run_on(group),
                )

    # ---- what is left open

    def not_checked(self) -> Iterator[NotChecked]:
        """What nobody has said, and what is not worked out."""
        yield NotChecked(
            study=HOLDING,
            what="how much each joint carries, racking, and tipping towards the room",
            why="no load, strength or stiffness is worked out yet",
        )
        if not self.floor_known:
            yield NotChecked(
                study=HOLDING,
                what="where the floor is",
                why="boards reach below y = 0 and none stands on it: the floor is taken to be at the lowest board",
                where=Where(boards=(self.lowest,)),
            )
        elif self.job.wall.hung and self.low < -TOUCHING:
            yield NotChecked(
                study=HOLDING,
                what="whether the piece clears the floor",
                why="it hangs and reaches below y = 0, which the sheets take as the floor",
                where=Where(boards=(self.lowest,)),
            )
        if not self.grounded and len(self.names) > 1:
            yield NotChecked(
                study=HOLDING,
                what="what keeps each board from dropping or tipping",
                why="nothing holds the piece itself yet",
            )
        if self.left_open:
            boards = sorted(self.left_open, key=name_order)
            yield NotChecked(
                study=HOLDING,
                what=say("what holds {}", _listed(boards)),
                why="how it is fastened is not said: where it touches no joint is made, or its fixing cannot be made",
                where=Where(boards=tuple(boards)),
            )
        glued = self._by_glue_alone()
        if glued:
            yield NotChecked(
                study=HOLDING,
                what=say("whether glue alone holds {}", _listed(glued)),
                why="what glue on end grain carries is not worked out yet, and it is little",
                where=Where(boards=tuple(glued)),
            )

    def _by_glue_alone(self) -> list[str]:
        """Boards that would fall if glue on end grain held nothing."""
        if all(known.sure is known.bond for known in self.known):
            return []
        sure = self._standing([known.sure for known in self.known])
        return sorted(self.held - sure.held, key=name_order)


def _way_out(own: Sequence[tuple[_Known, int]], body: Sequence[str]) -> Vec | None:
    """A way that all joints of a body leave open to it."""
    first, side = own[0]
    for way in first.out[side]:
        if all(
            way in known.out[at] or permits(known.joint.making.motions, known.bond.pair[at], way)
            for known, at in own
            if not set(known.bond.pair).issubset(body)
        ):
            return way
    return None


def _where_to(way: Vec) -> str:
    if way == FRONT:
        return "to the front"
    return "downwards" if way[1] < -STEEP else "sideways"


def _listed(names: Iterable[str]) -> Several:
    """Boards by name, no more of them than a sentence bears."""
    return few([Name(name) for name in names], MOST)
