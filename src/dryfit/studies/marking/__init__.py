"""Marking: do the holes in the wall meet those in the piece, and do they keep clear of where cables usually run?

What it works out   Of each fixing how far its holes stray from their marks; of each body that goes to the wall in one
                    the chance that all its screws go in, and the hole that gives 95 %; what a washer still covers;
                    holes in zones of cables, or near them.
Assumes             Errors are normal, alike in every direction; the piece may shift, and turns only where a fixing says
                    that it may: what hangs level cannot be turned to suit its marks. A screw driven in place, through
                    the piece where it hangs, finds its own hole. Holes of one body count together, at the largest
                    error and the least room among them.
Source              Errors of marking: common practice, no published figure was found. The chance: `chance.py`, by
                    quadrature. Zones: `zones.py`, each with its own.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby, product

from ...asking import unanswered
from ...findings import Finding, NotChecked, Severity, declare
from ...geometry.frames import Vec2
from ...geometry.shapes import Bore
from ...job.options import in_mm
from ...joints.screws.chain import plan_of
from ...joints.screws.options import LongScrewOptions
from ...joints.screws.wall import is_masonry, is_timber
from ...piece.model import WALL, Joint, Piece
from ...places import Cure, Edit, Path, Where
from ...sentences import Fineness, Length, Name, On, Sentence, Several, Value, Words, say
from ...shop.tools import Ability, Lack, Need, Process, tool_for_needs
from ...study.base import Scene, Study, Work
from ...study.registry import register
from ...trade.screws import LONG_BITS, PLUG_CUTTERS, Screw, figure, next_of
from ..hanging.result import Hanging
from . import chance as chances
from .result import CableZone, Marked, MarkedBody, Marking, Marks, Near, Stray, WallHole
from .zones import CABLES, IN_STUD, NEAR, SOURCES, CablesTable, off, zones_of

MISS = declare(
    "holes-may-miss",
    "Screws may not all find their holes in the wall, marked and drilled as they are.",
    uncured="how the wall is marked and drilled is your choice",
)
BARE = declare(
    "washer-covers-little",
    "A washer or head hardly covers a hole once its screw stands to one side of it.",
    uncured="a wider washer, or a closer way of marking, is a choice of the shop",
)
BINDS = declare(
    "washer-binds",
    "A counterbore is too narrow for its washer to follow a screw to one side.",
    uncured="a wider counterbore, or a smaller washer, is a choice of the shop",
)
CABLE = declare(
    "cables-may-run",
    "A hole in the wall lies where cables usually run, or near it.",
    uncured="where the cables really run only the wall tells",
)
DEEP = declare(
    "screw-meets-cable",
    "A screw goes so deep into a stud that it may meet a cable there.",
    uncured="where the cables really run only the wall tells",
)
NO_BIT = declare(
    "no-bit-to-mark",
    "No bit of the shop is long enough to mark the wall through a hole of the piece.",
    uncured="which bit is bought, or how it is marked instead, is a choice of the shop",
)

MARK: dict[Marked, float] = {  # standard deviations (common practice; the larger where a range is given)
    "punch": 0.3,
    "brad point": 0.3,
    "twist bit": 0.5,
    "pencil": 0.5,
    "measured": 0.8,
}
IN_WOOD = 0.5  # by a twist bit
IN_BRICK = {True: 0.8, False: 1.2}  # drilled thin first, or straight
SLANT = {"by eye": 1.0, "guided": 0.3}  # degrees off square to the wall
COVERS = 1.5  # that a washer must cover on its bad side (common practice)
BEHIND = 20.0  # that a bit stands out of the piece to mark the wall (common practice)
EVEN = 0.5  # holes are asked for in whole steps of this, as bits are sold
PRACTICE = "common practice"


@dataclass(frozen=True, slots=True, kw_only=True)
class Bored:
    """One fixing's holes.

    Attributes:
        body: that it goes to the wall with; "" the whole piece.
        places: on the wall.
        reach: from the head's seat to the wall's structure: grip, gap and lining.
        wide: of the board, through which it is marked.
        cover: outer diameter of washer or head; `bore` of the washer's hole, the screw's where there is none.
        told: whether it is known how the wall is drilled.
        held: of the screw in the wall's structure, None where that is not known; `in_stud` whether that is timber.
        owned: whether the shop has a bit that marks through it.
    """

    fixing: str
    board: str
    body: str
    way: Marked
    pilot_first: bool
    aimed: str
    turns: bool
    places: tuple[Vec2, ...]
    screw: float
    hole: float
    counterbore: float
    deep: bool
    plugged: bool
    reach: float
    wide: float
    cover: float
    bore: float
    washer: bool
    masonry: bool
    timber: bool
    told: bool
    held: float | None
    in_stud: bool
    owned: bool
    path: Path

    @property
    def bit(self) -> float | None:
        """How long a bit must be that marks the wall through it."""
        return self.wide + BEHIND if self.way in ("brad point", "twist bit", "punch") else None

    def at(self, way: Marked, aimed: str) -> "tuple[Stray, ...]":
        """What adds up, marked and drilled so; nothing in place."""
        if way == "in place":
            return ()
        slant = self.reach * math.tan(math.radians(SLANT[aimed]))
        drilled = IN_BRICK[self.pilot_first] if self.masonry else IN_WOOD
        return (
            Stray(what="marking", mm=MARK[way]),
            Stray(what="drilling", mm=drilled),
            Stray(what="slant at the head", mm=round(slant, 6)),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkingValue:
    """All that is looked at."""

    rows: tuple[Bored, ...]
    country: str
    studs: tuple[float, ...]
    zones: tuple[CableZone, ...]
    left: tuple[Sentence, ...]
    inches: bool


def covers(outside: float, bore: float, screw: float, room: float) -> float:
    """What a washer still covers beside a hole, its screw `room` to one side: less what its own bore lets it slip."""
    return (outside - screw) / 2 - 2 * room - max(bore - screw, 0.0) / 2


def together(strays: tuple[Stray, ...]) -> float:
    """Errors that have nothing to do with one another add up by their squares."""
    return math.sqrt(sum(stray.mm**2 for stray in strays))


@register
class MarkingStudy(Study[MarkingValue, Marks]):
    """How the holes in the wall are found."""

    name = "marking"
    version = 2
    codes = (MISS, BARE, BINDS, CABLE, DEEP, NO_BIT)
    asks = "how the wall is marked and drilled"
    result = Marks
    needs = (Hanging,)
    owns = (CABLES,)

    def concerns(self, piece: Piece) -> bool:
        """Only what is screwed to a wall."""
        return piece.is_fixed

    def reads(self, scene: Scene) -> MarkingValue | NotChecked:
        """Copy the chains of all screws, and the bands of the wall."""
        apart = scene.earlier(Hanging).way == "wall"
        rows = tuple(row for joint in scene.piece.joints for row in _row(joint, scene, apart=apart))
        if not rows and scene.piece.is_fixed:
            return unanswered(self.name, "no screws go into the wall")
        table = scene.one(CABLES) or CablesTable.model_construct()
        xs = [x for row in rows for x, _ in row.places] or [0.0]
        found = tuple(zones_of(table, scene.job.wall, (min(xs) - 2 * NEAR, max(xs) + 2 * NEAR)))
        return MarkingValue(
            rows=rows,
            country=table.country,
            studs=tuple(scene.job.wall.studs),
            zones=tuple(one for one in found if isinstance(one, CableZone)),
            left=tuple(one for one in found if isinstance(one, Sentence)),
            inches=scene.job.units != "mm",
        )

    def run(self, value: MarkingValue, work: Work) -> Marks:
        """Add up the errors, body by body, and measure to the bands."""
        bodies, rows = [], []
        for body, group in groupby(sorted(value.rows, key=lambda row: row.body), key=lambda row: row.body):
            of = tuple(group)
            held, marks = _body(body, of)
            bodies += [held] if held is not None else []
            rows += marks
        order = {row.fixing: number for number, row in enumerate(value.rows)}
        places = [at for row in value.rows for at in row.places]
        plumb = min([*value.studs, *(x for x, _ in places)], default=0.0)
        level = min((y for _, y in places), default=0.0)
        return Marks(
            plumb=plumb,
            level=level,
            studs=value.studs,
            holes=tuple(_holes(value, (plumb, level))),
            rows=tuple(sorted(rows, key=lambda row: order[row.fixing])),
            bodies=tuple(bodies),
            country=value.country,
            source=SOURCES[value.country],
            zones=value.zones,
            near=tuple(_near(value)),
            left=value.left,
            deep=tuple(
                (row.fixing, row.held)
                for row in value.rows
                if value.country == "USA" and row.in_stud and row.held is not None and row.held >= IN_STUD
            ),
        )

    def findings(self, value: MarkingValue, result: Marks) -> tuple[Finding, ...]:
        """What may not meet, what is not covered, what may be hit."""
        rows = {row.fixing: row for row in value.rows}
        missed = (_miss(held, rows, value) for held in result.bodies if held.chance < chances.WANTED - 5e-4)
        washers = (one for marking in result.rows for one in _washer(rows[marking.fixing], marking))
        near = (_cable(tuple(some), rows[key[0]], result) for key, some in groupby(_by_zone(result.near), key=_zone_of))
        deep = (_deep(rows[fixing], held) for fixing, held in result.deep)
        bits = (_bit(rows[row.fixing]) for row in result.rows if row.bit is not None and not row.owned)
        return (*missed, *washers, *near, *deep, *bits)

    def not_checked(self, value: MarkingValue, result: Marks) -> tuple[NotChecked, ...]:
        """What could not be looked at for want of a figure."""
        return tuple(_open(value, result))


# --- reading ---------------------------------------------------------------------------------------


def _row(joint: Joint, scene: Scene, *, apart: bool) -> Iterator[Bored]:
    """The holes of a fixing by screws, nothing of another; `apart`: whether it is put together on the wall."""
    piece, shop = scene.piece, scene.shop
    options, plan = joint.options, plan_of(joint)
    if joint.meeting.b.body != WALL or plan is None or not isinstance(options, LongScrewOptions):
        return
    side, board = joint.meeting.a, piece.board_by_name[joint.meeting.a.body]
    starts = [board.frame.place(shape.start) for cut in joint.cuts for shape in cut.shapes if isinstance(shape, Bore)]
    masonry = plan.anchor.type.holds_in == "masonry" if plan.anchor is not None else is_masonry(plan.into)
    timber = not plan.asked and plan.screw.kind == "wood"
    way: Marked = options.marked or "in place"
    need = (Need(ability=Ability.BIT, least=plan.hole, most=plan.hole), Need(ability=Ability.DEPTH, least=plan.width))
    yield Bored(
        fixing=joint.key[0],
        board=side.body,
        body=piece.history.carried(side.body) if apart else "",
        way=way,
        pilot_first=options.pilot_first,
        aimed=options.aimed,
        turns=options.may_turn,
        places=tuple((x, y) for x, y, _ in starts),
        screw=plan.screw.diameter,
        hole=plan.hole,
        counterbore=plan.counterbore,
        deep=plan.deep > 0.0,
        plugged=plan.plugged,
        reach=plan.grip + (plan.gap or 0.0) + (plan.lining or 0.0),
        wide=plan.width,
        cover=plan.head,
        bore=_bore(plan.screw) if plan.washer else plan.screw.diameter,
        washer=plan.washer > 0.0,
        masonry=masonry,
        timber=timber or is_timber(plan.into),
        told=masonry or timber or is_timber(plan.into),
        held=plan.held,
        in_stud=timber and is_timber(plan.into),
        owned=way not in ("brad point", "twist bit") or not isinstance(tool_for_needs(Process.DRILL, need, shop), Lack),
        path=joint.meeting.path,
    )


def _bore(screw: Screw) -> float:
    """Of a plain washer: as the fine hole of ISO 273 (ISO 7089, from memory)."""
    known = figure(screw, "hole_fine")
    return screw.diameter if known is None else known.value


# --- working out -----------------------------------------------------------------------------------


def _body(body: str, rows: tuple[Bored, ...]) -> tuple[MarkedBody | None, list[Marking]]:
    """What goes to the wall in one, and its fixings."""
    marked = tuple(row for row in rows if row.way != "in place")
    at = tuple(place for row in marked for place in row.places)
    turns = bool(marked) and all(row.turns for row in marked)
    k = chances.wanted(at, turns=turns)
    slot = chances.wanted(at, turns=turns, slots=True)
    markings = [_marking(row, k, slot) for row in rows]
    if len(at) < 2:
        return None, markings
    s = max(together(row.at(row.way, row.aimed)) for row in marked)
    room = min(row.hole - row.screw for row in marked) / 2
    found = chances.chance(at, room / s, turns=turns)
    names = tuple(row.fixing for row in marked)
    return MarkedBody(body=body, fixings=names, turns=turns, count=len(at), chance=found, k=k), markings


def _marking(row: Bored, k: float, slot: float) -> Marking:
    strays = row.at(row.way, row.aimed)
    s, meets = together(strays), bool(strays)
    return Marking(
        fixing=row.fixing,
        board=row.board,
        way=row.way,
        count=len(row.places),
        screw=row.screw,
        hole=row.hole,
        strays=strays,
        s=s,
        wanted=row.screw + 2 * k * s if meets else None,
        slot=row.screw + 2 * slot * s if meets else None,
        covers=covers(row.cover, row.bore, row.screw, (row.hole - row.screw) / 2) if row.washer else None,
        assumed="" if row.told or not meets else "no figure is known for holes in such a wall: taken as in wood",
        bit=row.bit,
        owned=row.owned,
    )


def _holes(value: MarkingValue, lines: Vec2) -> Iterator[WallHole]:
    """Every hole from the plumb line and the level one."""
    for row in value.rows:
        for number, (x, y) in enumerate(row.places, 1):
            stud = min(value.studs, key=lambda one: abs(one - x), default=None)
            yield WallHole(
                fixing=row.fixing,
                board=row.board,
                number=number,
                at=(round(x, 6), round(y, 6)),
                right=round(x - lines[0], 6),
                up=round(y - lines[1], 6),
                stud=None if stud is None else round(stud - lines[0], 6),
                off=None if stud is None else round(x - stud, 6),
            )


def _near(value: MarkingValue) -> Iterator[Near]:
    """Of each hole the nearest band, if it is near."""
    for row in value.rows:
        for number, at in enumerate(row.places, 1):
            best = min(((off(zone, at), n) for n, zone in enumerate(value.zones)), default=(math.inf, 0))
            if best[0] < NEAR:
                yield Near(fixing=row.fixing, board=row.board, number=number, zone=best[1], off=round(best[0], 3))


def _zone_of(near: Near) -> tuple[str, int]:
    return near.fixing, near.zone


def _by_zone(near: tuple[Near, ...]) -> list[Near]:
    return sorted(near, key=lambda one: (*_zone_of(one), one.number))


# --- telling ---------------------------------------------------------------------------------------


def _where(row: Bored, key: str = "") -> Where:
    return Where(boards=(row.board,), fixing=row.fixing, path=(*row.path, key) if key else row.path)


def _percent(share: float) -> str:
    """A chance as it is told; never rounded up to what is wanted."""
    return f"{math.floor(share * 100 + 1e-9)} %" if share >= 0.01 else "under 1 %"


def _miss(held: MarkedBody, rows: dict[str, Bored], value: MarkingValue) -> Finding:
    own = [rows[name] for name in held.fixings]
    holes = {row.fixing: row.screw + 2 * held.k * together(row.at(row.way, row.aimed)) for row in own}
    most = max(holes.values())
    what: Value = Several(tuple(Name(name) for name in held.fixings))
    return Finding(
        code=MISS,
        severity=Severity.WARN,
        where=_where(own[0], "marked"),
        says=say(
            "{}: that all {} screws find their holes has a chance of {}, marked {} and drilled {}",
            what,
            str(held.count),
            _percent(held.chance),
            _way_in_words(own[0].way),
            own[0].aimed,
        ),
        remedy=say(
            "holes of {} under washers that cover them, or level slots but for one; mark with a closer way and guide "
            "the drill; else hang it on two screws and drill the rest in place",
            Length(most, side=On.UP),
        ),
        found=held.chance,
        limit=chances.WANTED,
        unit="",
        source="normal errors, worked out; their sizes are common practice",
        cures=tuple(_cures(held, own, inches=value.inches)),
    )


def _way_in_words(way: Marked) -> str:
    return {
        "in place": "in place",
        "punch": "by a punch",
        "brad point": "by a brad point",
        "twist bit": "by a twist bit",
        "pencil": "by pencil",
        "measured": "by measure",
    }[way]


def _cures(held: MarkedBody, own: list[Bored], *, inches: bool) -> Iterator[Cure]:
    """The holes as marked now, then closer ways: the first of which the washers still cover the holes."""
    ways: tuple[Marked, ...] = ("brad point", "punch")
    tried = [(None, None), *product((None, *ways), ("guided",))]
    for way, aimed in tried:
        edits, size = [], 0.0
        for row in own:
            s = together(row.at(way or row.way, aimed or row.aimed))
            hole = math.ceil((row.screw + 2 * held.k * s) / EVEN - 1e-6) * EVEN
            room = (hole - row.screw) / 2
            if not row.washer or covers(row.cover, row.bore, row.screw, room) < COVERS:
                break
            edits += [Edit(action="set", path=(*row.path, "hole_diameter"), value=in_mm(hole) if inches else hole)]
            edits += _wider(row, room, inches=inches)
            edits += [Edit(action="set", path=(*row.path, "marked"), value=way)] if way else []
            edits += [Edit(action="set", path=(*row.path, "aimed"), value=aimed)] if aimed else []
            size = max(size, hole)
        else:
            more = say(", marked {} and guided", _way_in_words(way or own[0].way)) if aimed else say("")
            yield Cure(label=say("bore holes of {}{}", Length(size), more), edits=tuple(edits))
            return


def _wider(row: Bored, room: float, *, inches: bool) -> list[Edit]:
    """The counterbore in which the washer can follow, where the one there is cannot."""
    least = row.cover + 2 * room
    if not row.deep or row.counterbore >= least:
        return []
    sold = next_of(PLUG_CUTTERS if row.plugged else LONG_BITS, least) or math.ceil(least)
    return [Edit(action="set", path=(*row.path, "counterbore"), value=in_mm(sold) if inches else sold)]


def _washer(row: Bored, marking: Marking) -> Iterator[Finding]:
    """What it covers, and the counterbore that it must move in; of what is marked, and bored wider than the trade's."""
    room = (row.hole - row.screw) / 2
    if marking.covers is not None and marking.covers < COVERS and marking.strays:
        drops = marking.covers < 0
        yield Finding(
            code=BARE,
            severity=Severity.STOP if drops else Severity.WARN,
            where=_where(row, "hole_diameter"),
            says=say(
                "{}: a washer {} wide over a hole of {} covers {} of its bad side",
                Name(row.fixing),
                Length(row.cover),
                Length(row.hole),
                say("nothing") if drops else Length(marking.covers, Fineness.WIDTH),
            ),
            remedy="use a wider washer, a closer way of marking with a smaller hole, or slots",
            found=marking.covers,
            limit=0.0 if drops else COVERS,
            unit="mm",
            source="geometry" if drops else PRACTICE,
        )
    least = row.cover + 2 * room
    if row.deep and marking.covers is not None and marking.strays and row.counterbore < least - 1e-9:
        yield Finding(
            code=BINDS,
            severity=Severity.WARN,
            where=_where(row, "counterbore"),
            says=say(
                "{}: in a counterbore of {} a washer {} wide cannot follow the screw by {}",
                Name(row.fixing),
                Length(row.counterbore),
                Length(row.cover),
                Length(room, Fineness.WIDTH),
            ),
            remedy=say("bore it {} or more, if there is the wood beside it", Length(least, side=On.UP)),
            found=row.counterbore,
            limit=least,
            unit="mm",
            source="geometry",
        )


def _cable(near: tuple[Near, ...], row: Bored, result: Marks) -> Finding:
    """Of the holes of one fixing, those that one zone is nearest to."""
    zone, least = result.zones[near[0].zone], min(one.off for one in near)
    lies: Words = say("in a zone of cables") if not least else say("{} from a zone of cables", Length(least))
    numbers = Several(tuple(str(one.number) for one in near))
    holes = say("hole {} of {} lies", numbers, Name(row.fixing))
    if len(near) > 1:
        holes = say("holes {} of {} lie", numbers, Name(row.fixing))
    return Finding(
        code=CABLE,
        severity=Severity.WARN,
        where=_where(row, "at"),
        says=say("{} {}: {}", holes, lies, zone.says),
        remedy=say(
            "keep {} or more from the zone; else detect, switch the circuit off, and follow the rules that hold there",
            Length(NEAR, Fineness.WHOLE),
        ),
        found=least,
        limit=NEAR,
        unit="mm",
        source=f"{result.source}; {NEAR:g} beside it common practice",
    )


def _deep(row: Bored, held: float) -> Finding:
    return Finding(
        code=DEEP,
        severity=Severity.WARN,
        where=_where(row, "screw"),
        says=say("{}: the screws go {} into the stud, where a cable may run", Name(row.fixing), Length(held)),
        remedy=say(
            "detect, or look from the other side, with the circuit off; cables may lie {} behind the edge of a stud",
            Length(IN_STUD, Fineness.WHOLE),
        ),
        found=held,
        limit=IN_STUD,
        unit="mm",
        source=SOURCES["USA"],
    )


def _bit(row: Bored) -> Finding:
    return Finding(
        code=NO_BIT,
        severity=Severity.NOTE,
        where=_where(row, "marked"),
        says=say("{}: no bit of {} in the shop marks through {} of wood", Name(row.fixing), Length(row.hole),
                 Length(row.wide, Fineness.WHOLE)),
        remedy=say(
            "buy or borrow one {} long or more, or mark by measure", Length(row.bit or 0.0, Fineness.WHOLE, On.UP)
        ),
        found=None,
        limit=None,
        source="the shop file",
    )  # fmt: skip


def _open(value: MarkingValue, result: Marks) -> Iterator[NotChecked]:
    if not value.rows:
        return
    if value.country:
        why: Words = "nothing tells where they run: detect"
        yield NotChecked(study="marking", what="pipes in the wall", why=why)
    else:
        why = "[cables] names no country"
        yield NotChecked(study="marking", what="cables and pipes in the wall", why=why)
    for one in value.left:
        yield NotChecked(study="marking", what="zones of cables in part", why=one)
    for marking in result.rows:
        if marking.assumed:
            what = say("{}: how far holes drilled in its wall stray", Name(marking.fixing))
            yield NotChecked(study="marking", what=what, why=marking.assumed)
