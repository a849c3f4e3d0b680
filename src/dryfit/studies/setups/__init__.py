"""Set-ups: what is set once and made often, over the whole piece, and whether the shop has the tools for it.

What it works out   For each operation the first of its ways that a tool of the shop can do; which operations share a
                    set-up, and its name; for what the shop has no tool.
Assumes             Two operations share a set-up where all that is set is the same as printed: work, tool, what is made
                    and how, and every dial. Of a sort of tool that the shop file does not name, what a small shop has.
Source              What a way wants of a tool is said by whoever knows the cut; what tools can do, by the shop file.

A set-up takes its number from the youngest board that it cannot do without: of a cut's own board and the one that
enters it the one with the later letter; of several cuts the one that can be made first counts. So a board with the
last letter gets new set-ups behind all others and renames none: one added at the end of the file, or, once letters
are pinned, anywhere in it.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import TypeAlias

from ...findings import Finding, NotChecked, Severity, declare
from ...lengths import LengthUnit
from ...piece.kinds import operations_of
from ...piece.model import Part, Piece
from ...piece.operations import Dial, Operation, Way, WorkSort, tool_for
from ...piece.parts import called
from ...places import Where
from ...sentences import Angle, Fineness, Length, On, Sentence, Several, Value, Voice, Words, few, say
from ...shop.model import Shop
from ...shop.tools import IN_DEGREES, Ability, Lack, Need, Process, Tool
from ...study.base import Pace, Scene, Study
from ...study.base import Work as Report
from ...study.registry import register
from .result import Lacking, Setting, SetUp, SetUps

NO_TOOL = declare(
    "no-tool",
    "The shop has no tool that can make a cut as it is to be made.",
    uncured="which tool you get, or how the joint is made otherwise, is a choice of the shop",
)

MOST_NAMED = 3  # cuts in a finding; more are counted
WORKS = tuple(WorkSort)
SORTS: Mapping[Process, str] = MappingProxyType(
    {
        Process.ROUTER: "router and cutters",
        Process.SAW: "saw",
        Process.GROOVER: "groover",
        Process.DRILL: "bits",
    }
)
Age: TypeAlias = tuple[int, int, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class MadeCut:
    """A cut.

    Attributes:
        called: as a sentence speaks of it.
        age: how late the letters are of the boards that it needs, then its own board's, and its place there.
    """

    key: str
    board: str
    called: Sentence
    age: Age


@dataclass(frozen=True, slots=True, kw_only=True)
class SetUpsValue:
    """All that is looked at; cuts by the letters of their parts."""

    operations: tuple[Operation, ...]
    cuts: tuple[MadeCut, ...]
    shop: Shop
    units: LengthUnit


@register
class SetUpsStudy(Study[SetUpsValue, SetUps]):
    """What is set, and with which tool."""

    name = "setups"
    asks = "the tools for each cut"
    codes = (NO_TOOL,)
    result = SetUps
    pace = Pace.REST

    def concerns(self, piece: Piece) -> bool:
        """A piece without parts has nothing to be cut."""
        return bool(piece.parts)

    def reads(self, scene: Scene) -> SetUpsValue:
        """Copy the operations, the letters and the tools."""
        return SetUpsValue(
            operations=operations_of(scene.piece, scene.kinds),
            cuts=tuple(cuts_of(scene.piece)),
            shop=scene.shop,
            units=scene.job.units,
        )

    def run(self, value: SetUpsValue, work: Report) -> SetUps:
        """Choose a way for each operation, put like settings together, and name them."""
        chosen = [_chosen(operation, value.shop) for operation in value.operations]
        ages = {cut.key: cut.age for cut in value.cuts}
        groups: dict[object, list[_Chosen]] = {}
        for one in chosen:
            if one.way.sets:
                groups.setdefault(_key(one, value.units), []).append(one)
        ranked = sorted(groups.values(), key=lambda group: _rank(group, ages))
        return SetUps(
            all=_after(_named(ranked, ages), ranked),
            how=tuple((cut, one.way.says) for one in chosen for cut in one.operation.cuts),
            lacking=tuple(_lacking(chosen)),
            assumed=_assumed(chosen),
        )

    def findings(self, value: SetUpsValue, result: SetUps) -> tuple[Finding, ...]:
        """What no tool of the shop can make."""
        known = {cut.key: cut for cut in value.cuts}
        return tuple(_finding(one, known) for one in result.lacking)

    def not_checked(self, value: SetUpsValue, result: SetUps) -> tuple[NotChecked, ...]:
        """Tools that are assumed."""
        if not result.assumed:
            return ()
        what = say("your own {}", Several(result.assumed)) if value.shop.file else "your own tools"
        why = "the shop file names none" if value.shop.file else "no shop file is given"
        return (NotChecked(study=self.name, what=what, why=say("{}, so usual ones are taken", why)),)


def cuts_of(piece: Piece) -> Iterator[MadeCut]:
    """Every cut that is to be made, by the letters of the parts."""
    parts = sorted(piece.parts, key=lambda part: (len(part.mark), part.mark))
    places = {part.id: number for number, part in enumerate(parts)}
    for part in parts:
        yield from (_made(part, number, places) for number, cut in enumerate(part.cuts) if not cut.is_old)


def _made(part: Part, number: int, places: Mapping[str, int]) -> MadeCut:
    cut, own = part.cuts[number], places[part.id]
    needed = [places[name] for name in (cut.joint or ()) if name in places]
    return MadeCut(key=cut.key, board=part.id, called=called(cut), age=(max([own, *needed]), own, number))


# --- choosing ------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class _Chosen:
    """An operation with its way and the tool for it; where the shop has none, the preferred way and what is lacking."""

    operation: Operation
    way: Way
    tool: Tool | Lack


def _chosen(operation: Operation, shop: Shop) -> _Chosen:
    found = [(way, tool_for(way, shop)) for way in operation.ways]
    way, tool = next((one for one in found if isinstance(one[1], Tool)), found[0])
    return _Chosen(operation=operation, way=way, tool=tool)


def _lacking(chosen: list[_Chosen]) -> Iterator[Lacking]:
    """What is lacking, what lacks for the same together."""
    alike: dict[tuple[Words, Lack], list[str]] = {}
    for one in chosen:
        if isinstance(one.tool, Lack):
            alike.setdefault((one.way.makes, one.tool), []).extend(one.operation.cuts)
    for (makes, lack), cuts in alike.items():
        need = lack.need
        bare = Lacking(cuts=tuple(cuts), makes=makes, process=lack.process)
        if need is None:
            yield bare
        else:
            limit = need.least if need.least > 0.0 else need.most
            yield replace(bare, ability=need.ability, wanted=_wanted(need, lack.process), limit=limit, best=lack.best)


def _assumed(chosen: list[_Chosen]) -> tuple[str, ...]:
    """The sorts of tools that are used and not named, in the order of their kind."""
    used = {one.tool.process for one in chosen if isinstance(one.tool, Tool) and one.tool.assumed}
    return tuple(word for process, word in SORTS.items() if process in used)


# --- grouping ------------------------------------------------------------------------------------


def _key(one: _Chosen, units: LengthUnit) -> object:
    """All that must be the same: what is set as it is printed, the tool, what is made and how."""
    voice = Voice(units, bare=True)
    sets = tuple((dial.value, _said(value, voice)) for dial, value in one.way.sets)
    tool = str(one.tool.name) if isinstance(one.tool, Tool) else ""
    return one.operation.work.value, one.way.process.value, str(one.way.makes), str(one.way.says), tool, sets


def _said(value: Value, voice: Voice) -> str:
    return value if isinstance(value, str) else value.said(voice)


def _rank(group: list[_Chosen], ages: Mapping[str, Age]) -> tuple[int, Age]:
    """Its work, and the age of the cut that can be made first; of two bits for one cut the first stays first."""
    age = min(ages[cut] for one in group for cut in one.operation.cuts)
    return WORKS.index(group[0].operation.work), age


def _named(ranked: list[list[_Chosen]], ages: Mapping[str, Age]) -> list[SetUp]:
    made: list[SetUp] = []
    for group in ranked:
        first = min(group, key=lambda one: min(ages[cut][1:] for cut in one.operation.cuts))
        work, tool = first.operation.work, first.tool
        number = 1 + sum(1 for setup in made if setup.work is work)
        cuts = {cut for one in group for cut in one.operation.cuts}
        made.append(
            SetUp(
                name=f"{work.value}{number}",
                number=number,
                work=work,
                process=first.way.process,
                makes=first.way.makes,
                says=first.way.says,
                tool=tool.name if isinstance(tool, Tool) else "",
                assumed=isinstance(tool, Tool) and tool.assumed,
                sets=tuple(_setting(dial, value) for dial, value in first.way.sets),
                cuts=tuple(sorted(cuts, key=lambda cut: ages[cut][1:])),
                after_gluing=tuple(
                    dict.fromkeys(one.operation.after_gluing for one in group if one.operation.after_gluing)
                ),
                tools=tool.of if isinstance(tool, Tool) else (),
                reach=_reach(group),
                faces=first.way.faces,
            )
        )
    return made


def _reach(group: list[_Chosen]) -> float | None:
    """The farthest that its tool must reach below the base; None where none is asked to."""
    asked = (need.least for one in group for need in one.way.needs if need.ability is Ability.REACH)
    return max(asked, default=None)


def _after(named: list[SetUp], ranked: list[list[_Chosen]]) -> tuple[SetUp, ...]:
    """With the names of what something of each must wait for."""
    owner = {one.operation.key: setup.name for setup, group in zip(named, ranked, strict=True) for one in group}
    made = []
    for setup, group in zip(named, ranked, strict=True):
        before = {owner[key] for one in group for key in one.operation.after if key in owner} - {setup.name}
        order = tuple(other.name for other in named if other.name in before)
        made.append(replace(setup, after=order))
    return tuple(made)


# --- what is told --------------------------------------------------------------------------------

TABLES: Mapping[Process, str] = MappingProxyType(
    {
        Process.ROUTER: "[[router]] or [[cutter]]",
        Process.SAW: "[[saw]]",
        Process.GROOVER: "[[groover]]",
        Process.DRILL: "[[bit]]",
    }
)


def _setting(dial: Dial, value: Value) -> Setting:
    says = value if isinstance(value, (Sentence, str)) else say("{}", value)
    mm = value.mm if isinstance(value, Length) else None
    return Setting(dial=dial, says=says, mm=mm, degrees=value.degrees if isinstance(value, Angle) else None)


def _finding(lacking: Lacking, known: Mapping[str, MadeCut]) -> Finding:
    cuts, table = lacking.cuts, TABLES.get(lacking.process, "[shop]")
    what = few([known[cut].called for cut in cuts], MOST_NAMED)
    lack = Finding(
        code=NO_TOOL,
        severity=Severity.WARN,
        where=Where(
            boards=tuple(dict.fromkeys(known[cut].board for cut in cuts)), cut=cuts[0] if len(cuts) == 1 else None
        ),
        says=say("{} cannot be made: the shop has no {}", what, lacking.process.value),
        remedy=say("get one, add it to the shop file under {}, or make the joint another way", table),
        source="the shop file",
    )
    if lacking.ability is None:
        return lack
    best: Words = "the shop has none"
    if lacking.best is not None:
        best = say("the nearest of the shop's is {}", _figure(lacking.ability, lacking.best))
    return replace(
        lack,
        says=say("{}: it needs a {}, {}", what, lacking.wanted, best),
        found=lacking.best,
        limit=lacking.limit,
        unit="deg" if lacking.ability in IN_DEGREES else "mm",
    )


def _wanted(need: Need, process: Process) -> Sentence:
    """What is wanted, as it is asked for; a limit told from its right side."""
    value = need.least if need.least > 0.0 else need.most
    way = On.NEAREST if need.least == need.most else On.UP if need.least > 0.0 else On.DOWN
    figure = _figure(need.ability, value, way)
    match need.ability:
        case Ability.REACH:
            return say("router and a cutter that reach {} below the base", figure)
        case Ability.EDGE:
            return say("cutter with {} of edge", figure)
        case Ability.LEAN:
            return say("{} that tilts {}", process.value, figure)
        case Ability.DEPTH:
            return say("{} that goes {} deep", process.value, figure)
        case Ability.SLOPE:
            return say("cutter with flanks of {}", figure)
        case Ability.BEARING:
            return say("cutter with a bearing of {}", figure)
        case Ability.BIT:
            return say("bit of {}", figure)
        case Ability.CUTTER:
            return say("cutter of {}" if way is On.NEAREST else "cutter no wider than {}", figure)
        case Ability.KERF:
            return say("kerf of {}" if way is On.NEAREST else "kerf no wider than {}", figure)


def _figure(ability: Ability, value: float, side: On = On.NEAREST) -> Length | Angle:
    return Angle(value) if ability in IN_DEGREES else Length(value, Fineness.PLACE, side)
