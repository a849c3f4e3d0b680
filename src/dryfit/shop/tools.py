"""What the shop's tools can do, told so that a way of working can be held against it.

A router's tool is a router with one cutter in it. How far that reaches below the base follows from the cutter's
length: what stands in the collet (two thirds of its shank, 20 at least: common practice) and what lies between base
and collet at full plunge stand above. A tilted guide takes more of it: the bed is as thick as `BED`, and the base's
offset and the rail's seat keep the cutter's near side away from the bed's thin edge, where it stands so much higher
over the board.

Worked example: a cutter 86.7 long with 53.7 of edge has 33 of shank, of which 22 stand in the collet; with 12 from
base to collet it reaches 52.7. On a bed of 12 tilted by 9 degrees, offset 65: 52.7 - 12 - (65 + 25) tan 9 = 26.4.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from functools import lru_cache
from itertools import product

from ..sentences import Sentence, say
from .model import Cutter, Drill, Groover, Router, Saw, Shop


class Process(StrEnum):
    """With what sort of tool something is worked."""

    ROUTER = "router"
    SAW = "saw"
    GROOVER = "groover"
    DRILL = "drill"
    HAND = "hand tools"


class Ability(StrEnum):
    """What a tool must be able to do; lengths in mm, angles in degrees."""

    REACH = "reach below the base"  # below the bed, where the guide is tilted
    CUTTER = "diameter of the cutter"
    EDGE = "length of the cutting edge"
    SLOPE = "slope of the cutter's flanks"
    BEARING = "diameter of the bearing"
    LEAN = "tilt"
    BIT = "diameter of the bit"
    DEPTH = "depth of cut"
    KERF = "kerf"


IN_DEGREES = frozenset({Ability.SLOPE, Ability.LEAN})
ANY = (0.0, math.inf)
EVEN = 0.051  # between diameters that are one: 6.35 is sold as 6.4
BED = 12.0  # of a tilted guide: thick enough to be stiff (common practice)
SEAT = 25.0  # of the low rail on the bed, beside the base (common practice)
GRIP, LEAST_GRIP = 2 / 3, 20.0  # of a shank, in the collet (common practice)
THINNER = 0.5  # a shank thinner than its cutter by so much goes down in the slot behind it


@dataclass(frozen=True, slots=True, kw_only=True)
class Need:
    """What a way of working asks of a tool: an ability somewhere within these bounds."""

    ability: Ability
    least: float = 0.0
    most: float = math.inf


@dataclass(frozen=True, slots=True, kw_only=True)
class Tool:
    """One tool, or a router with one cutter in it.

    Attributes:
        name: as the shop calls it.
        can: from and to of each ability; one that is not there it has not at all.
        aside: of a router, what its base keeps the cutter away from the thin edge of a tilted bed.
        assumed: whether the shop file names none of the sort, and this is what a small shop commonly has.
        of: names of a router and of the cutter in it.
    """

    name: Sentence
    process: Process
    can: Mapping[Ability, tuple[float, float]] = field(default_factory=dict)
    aside: float = 0.0
    assumed: bool = False
    of: tuple[str, ...] = ()

    def limits(self, ability: Ability, lean: float) -> tuple[float, float] | None:
        """From and to of an ability where the tool leans so much; None where it has it not."""
        found = self.can.get(ability)
        if found is None or ability is not Ability.REACH or not lean:
            return found
        return found[0], found[1] - BED - self.aside * math.tan(math.radians(lean))

    def has(self, need: Need, lean: float) -> bool:
        """Whether it meets a need."""
        found = self.limits(need.ability, lean)
        return found is not None and found[0] <= need.most + EVEN and found[1] >= need.least - EVEN


@dataclass(frozen=True, slots=True, kw_only=True)
class Lack:
    """Why no tool of the shop will do.

    Attributes:
        process: of the tool that is lacking.
        need: what no tool meets that meets the needs before it; None where the shop has none of the sort.
        best: the nearest that one of them comes to it; None where none has that ability at all.
    """

    process: Process
    need: Need | None = None
    best: float | None = None


@lru_cache(maxsize=1024)  # asked for each way of each operation, and most of these are alike
def tool_for_needs(process: Process, needs: tuple[Need, ...], shop: Shop) -> Tool | Lack:
    """The first tool of a sort that meets all needs, a router's widest cutter first; else what is lacking."""
    able = [tool for tool in tools_of(shop) if tool.process is process]
    if not able:
        return Lack(process=process)
    lean = next((need.least for need in needs if need.ability is Ability.LEAN), 0.0)
    if process is Process.ROUTER and all(need.ability is not Ability.SLOPE for need in needs):
        needs = (Need(ability=Ability.SLOPE, most=0.0), *needs)
    for need in needs:
        meet = [tool for tool in able if tool.has(need, lean)]
        if not meet:
            return Lack(process=process, need=need, best=_nearest(able, need, lean))
        able = meet
    return able[0]


def _nearest(tools: list[Tool], need: Need, lean: float) -> float | None:
    """What comes nearest to a need, of those that do not meet it."""
    known = [found for tool in tools if (found := tool.limits(need.ability, lean)) is not None]
    short = [high for _, high in known if high < need.least]
    over = [low for low, _ in known if low > need.most]
    return max(short) if short else min(over, default=None)


# --- what a shop has -----------------------------------------------------------------------------


@lru_cache(maxsize=8)
def tools_of(shop: Shop) -> tuple[Tool, ...]:
    """All tools of a shop: those that its file names; of a sort that it does not name, what a small shop has."""
    cutters = sorted(cutters_of(shop), key=lambda cutter: -cutter.diameter)
    assumed = not (shop.routers and shop.cutters)
    return (
        *(_with_cutter(router, one, assumed) for router, one in product(routers_of(shop), cutters)),
        *(_saw(saw, not shop.saws) for saw in saws_of(shop)),
        *(_groover(groover, not shop.groovers) for groover in shop.groovers or (COMMON_GROOVER,)),
        *_bits(shop),
        Tool(name=say("hand tools"), process=Process.HAND),
    )


def routers_of(shop: Shop) -> tuple[Router, ...]:
    """Its routers; where its file names none, the one that a small shop has."""
    return shop.routers or (COMMON_ROUTER,)


def cutters_of(shop: Shop) -> tuple[Cutter, ...]:
    """Its cutters; where its file names none, those that a small shop has."""
    return shop.cutters or COMMON_CUTTERS


def saws_of(shop: Shop) -> tuple[Saw, ...]:
    """Its saws; where its file names none, the one that a small shop has."""
    return shop.saws or (COMMON_SAW,)


def reach(router: Router, cutter: Cutter) -> float:
    """How far a cutter stands out below a router's base at the most: as measured, or by its length; edge alone else."""
    edge = cutter.length if cutter.length is not None else COMMON_EDGE
    if cutter.stick_out is not None:
        own = cutter.stick_out
    elif cutter.overall is None:
        own = edge
    else:
        own = cutter.overall - router.nose - max(LEAST_GRIP, GRIP * max(cutter.overall - edge, 0.0))
    return min(own, router.reach) if router.reach is not None else own


def _with_cutter(router: Router, cutter: Cutter, assumed: bool) -> Tool:
    shank = cutter.shank
    fits = shank is None or not router.collets or any(abs(shank - one) < EVEN for one in router.collets)
    edge = cutter.length if cutter.length is not None else COMMON_EDGE
    runs_behind = shank is not None and shank <= cutter.diameter - THINNER
    can = {
        Ability.CUTTER: (cutter.diameter, cutter.diameter),
        Ability.LEAN: ANY,  # it is the guide that is tilted
        Ability.REACH: (0.0, reach(router, cutter)),
        Ability.EDGE: (0.0, reach(router, cutter) if runs_behind else edge),
    }
    slope = cutter.slope if cutter.shape == "dovetail" else 0.0
    if slope is not None:
        can[Ability.SLOPE] = (slope, slope)
    if cutter.bearing is not None:
        can[Ability.BEARING] = (cutter.bearing, cutter.bearing)
    return Tool(
        name=say("{} with {}", router.name, cutter.name),
        process=Process.ROUTER,
        can=can if fits and cutter.shape in ("straight", "dovetail") else {},
        aside=min(router.offsets) + SEAT,
        assumed=assumed,
        of=(router.name, cutter.name),
    )


def _saw(saw: Saw, assumed: bool) -> Tool:
    can = {Ability.LEAN: (0.0, saw.tilt), Ability.DEPTH: (0.0, saw.depth), Ability.KERF: (saw.kerf, saw.kerf)}
    return Tool(name=say("{}", saw.name), process=Process.SAW, can=can, assumed=assumed)


def _groover(groover: Groover, assumed: bool) -> Tool:
    can = {
        Ability.CUTTER: (groover.diameter, groover.diameter),
        Ability.KERF: (groover.kerf, groover.kerf),
        Ability.DEPTH: (0.0, groover.plunge),
    }
    return Tool(name=say("{}", groover.name), process=Process.GROOVER, can=can, assumed=assumed)


def _bits(shop: Shop) -> tuple[Tool, ...]:
    """A bit in a drill: it goes as deep as it is long, less what is in the chuck and clear of the mouth."""
    chuck = min((drill.chuck for drill in shop.drills), default=COMMON_DRILL.chuck)
    if not shop.bits:
        can = {Ability.BIT: COMMON_BITS, Ability.DEPTH: (0.0, LONGEST_BIT - chuck)}
        return (Tool(name=say("bits as sold"), process=Process.DRILL, can=can, assumed=True),)
    return tuple(
        Tool(
            name=say("{}", bit.name),
            process=Process.DRILL,
            can={
                Ability.BIT: (bit.diameter, bit.diameter),
                Ability.DEPTH: (0.0, bit.length - chuck),
            },
        )
        for bit in shop.bits
    )


# What a shop is taken to have of a sort that its file does not name; sets say that it is assumed.
COMMON_EDGE = 25.0  # of a cutter whose file says nothing of it (from memory: usual cutting heights are 20 to 28)
COMMON_ROUTER = Router(name="plunge router")  # its figures: see `Router`
COMMON_CUTTERS = (  # straight ones and dovetails as sold for shanks of 6, 8 and 12 (from memory)
    *(
        Cutter(name=f"straight {diameter:g}", diameter=diameter, length=edge, shank=shank, overall=overall)
        for diameter, edge, shank, overall in (
            (3.0, 10.0, 8.0, 55.0),
            (4.0, 14.0, 8.0, 55.0),
            (6.0, 20.0, 8.0, 60.0),
            (8.0, 30.0, 8.0, 70.0),
            (10.0, 32.0, 8.0, 70.0),
            (12.0, 63.0, 12.0, 102.0),
            (16.0, 63.0, 12.0, 102.0),
        )
    ),
    *(
        Cutter(
            name=f"dovetail {slope:g}°",
            diameter=12.7,
            length=edge,
            shank=8.0,
            overall=50.0,
            shape="dovetail",
            slope=slope,
        )
        for slope, edge in ((14.0, 12.7), (7.0, 20.0))
    ),
)
COMMON_SAW = Saw(name="saw")
COMMON_GROOVER = Groover(name="groover")
COMMON_DRILL = Drill(name="drill")
COMMON_BITS = (1.0, 60.0)  # diameters as sold (from memory)
LONGEST_BIT = 600.0  # of augers, as sold (common practice; trade.screws has the steps)
