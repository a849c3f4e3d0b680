"""How a sliding dovetail is cut, by its form."""

from collections.abc import Sequence

from ...piece.model import Board, Cut
from ...piece.operations import Dial, Operation, Way, WorkSort, across, leans, let_in_reach, router_needs
from ...sentences import Angle, Fineness, Length, Value, Words, say
from ...shop.tools import Ability, Need, Process
from .plan import TIP_GAP, DovetailPlan


def _needs(plan: DovetailPlan, deep: float) -> tuple[Need, ...]:
    """One cutter for both: its slope, its width, and that it reaches."""
    return (
        Need(ability=Ability.SLOPE, least=plan.slope, most=plan.slope),
        Need(ability=Ability.CUTTER, least=plan.cutter, most=plan.cutter),
        Need(ability=Ability.REACH, least=deep),
        Need(ability=Ability.EDGE, least=deep),
    )


def housing_work(cut: Cut, board: Board) -> Operation:
    """With a straight cutter where the boards are square to each other; else its walls are sawn at their lean."""
    sets, makes = across(cut, board), cut.plain
    routed = Way(
        process=Process.ROUTER,
        makes=makes,
        says="router on a guide, stopped where the socket begins",
        needs=router_needs(cut, let_in_reach(cut)),
        sets=sets,
    )
    by_hand = Way(process=Process.HAND, makes=makes, says="walls sawn by hand, floor levelled", sets=sets)
    ways = (by_hand,) if leans(cut) else (routed, by_hand)
    return Operation(key=cut.key, work=WorkSort.ACROSS, cuts=(cut.key,), ways=ways)


def socket_work(cut: Cut, board: Board, plan: DovetailPlan, housed: Sequence[Cut]) -> Operation:
    """In one pass along a guide, after a straight groove no wider than the neck."""
    sets = ((Dial.CUTTER, say("{} × {}", Length(plan.cutter), Angle(plan.slope))), *across(cut, board))
    ways = (
        Way(
            process=Process.ROUTER,
            makes=cut.plain,
            says=_routed(plan),
            needs=_needs(plan, plan.depth),
            sets=sets,
        ),
        Way(
            process=Process.HAND,
            makes=cut.plain,
            says="slopes sawn along a bevelled guide, floor levelled by hand",
            sets=sets[1:],
        ),
    )
    after = tuple(one.key for one in housed)
    return Operation(key=cut.key, work=WorkSort.ACROSS, cuts=(cut.key,), ways=ways, after=after)


def _routed(plan: DovetailPlan) -> Words:
    """How the socket is routed, by its form."""
    if plan.square:
        return "straight cutter to the square wall at full depth; then the dovetail cutter along the other wall"
    if plan.taper:
        half = Length(plan.taper / 2, Fineness.WIDTH)
        return say(
            "dovetail cutter on a guide, at full depth, a straight groove first; then one pass each way with the "
            "guide moved {} aside at its wide end",
            half,
        )
    return "dovetail cutter on a guide, at full depth in one pass; a straight groove inside the neck first"


def tail_work(cut: Cut, socket: Cut, plan: DovetailPlan) -> Operation:
    """On end against a fence, one side and then the other; what shows of the cutter is the shoulder.

    Where the boards meet raked the end is bevelled first, and the board leans as it will stand.
    """
    deep = plan.depth - TIP_GAP
    raked = leans(cut)
    first, held = ("end bevelled; ", "on a wedge of the rake") if raked else ("", "on its end against a high fence")
    sets: list[tuple[Dial, Value]] = [
        (Dial.CUTTER, say("{} × {}", Length(plan.cutter), Angle(plan.slope))),
        (Dial.WIDTH, Length(plan.wide_tip, Fineness.WIDTH)),
        (Dial.DEPTH, Length(deep)),
        (Dial.LEAN, Angle(cut.figures.lean))
        if raked
        else (Dial.PLACE, say("{} past the fence", Length(plan.shoulder))),
    ]
    ways = (
        Way(
            process=Process.ROUTER,
            makes=cut.plain,
            says=say("{}socket's cutter in a router table, the board {}; {}", first, held, _faces(plan)),
            needs=_needs(plan, deep),
            sets=tuple(sets),
        ),
        Way(
            process=Process.HAND,
            makes=cut.plain,
            says=say("{}shoulders sawn, slopes pared by hand", first),
            sets=tuple(sets[1:]),
        ),
    )
    return Operation(key=cut.key, work=WorkSort.ENDS, cuts=(cut.key,), ways=ways, after=(socket.key,))


def _faces(plan: DovetailPlan) -> Words:
    """Which faces of the tail's board are laid against the fence, and what lies between."""
    if plan.square:
        return "one face; the other shoulder with a straight cutter"
    if plan.taper:
        return say(
            "either face, a slip of {} between fence and board at its wide end", Length(plan.taper / 2, Fineness.WIDTH)
        )
    if plan.part is not None:
        return "either face, to a stop where the housed part begins"
    return "either face"
