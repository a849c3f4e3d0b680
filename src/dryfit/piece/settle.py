"""Settling, before any cutting, which way each slot opens.

For every crossing, in this order: what is already made; the maker's word (against something made: a
stop); that the piece can be put together at all; no open notch at the front; as few turns of the piece as
is easily known; and then the order of names, so that a tie never depends on the history of the file.

A halved grid is put together lying on its wall edges: the board whose slot opens to the front lies, the
other comes down over it. So each crossing says "this one before that one", and the piece goes together if
and only if these never run in a ring. Turns: when every board comes down from the front in one order, the
piece is never turned; level boards lie first, which is how a wall of shelves is laid out.
"""

import heapq
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import partial

from ..findings import Finding, Severity, declare
from ..geometry.frames import turned
from ..keeping import Keep, Same
from ..places import Cure, Edit, Pair, Where
from .choose import Chosen
from .meetings import name_order
from .model import Decision, Hand, Meeting
from .setout import Made

AGAINST_MADE = declare("against-what-is-made", "The maker's word goes against a slot that is already cut.")
LOCKED = declare("locked", "Boards that lie over one another in a ring: the piece cannot be put together.")

ABOUT = "which slot opens to the front"


@dataclass(frozen=True, slots=True, kw_only=True)
class Settled:
    """A hand for every joint, the decisions behind them, and what stood in the way."""

    hands: Mapping[Pair, Hand]
    decisions: tuple[Decision, ...]
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True)
class _Open:
    """A joint with more than one hand: which board lies is still open."""

    chosen: Chosen
    by_front: dict[str, Hand]

    @property
    def meeting(self) -> Meeting:
        return self.chosen.meeting

    @property
    def key(self) -> Pair:
        return self.chosen.meeting.key

    def other(self, front: str) -> str:
        a, b = self.by_front
        return b if front == a else a


class _Over:
    """Who lies before whom: a directed graph that is kept free of rings."""

    def __init__(self) -> None:
        self.later: dict[str, set[str]] = {}

    def add(self, first: str, then: str) -> None:
        self.later.setdefault(first, set()).add(then)
        self.later.setdefault(then, set())

    def path(self, start: str, goal: str) -> list[str] | None:
        """A way from start to goal, fewest steps, the earliest names first; None if there is none."""
        came: dict[str, str] = {start: start}
        row = [start]
        while row and goal not in came:
            following: list[str] = []
            for name in row:
                for then in sorted(self.later.get(name, ()), key=name_order):
                    if then not in came:
                        came[then] = name
                        following.append(then)
            row = following
        if goal not in came:
            return None
        way = [goal]
        while way[-1] != start:
            way.append(came[way[-1]])
        return way[::-1]

    def before(self, names: set[str]) -> set[str]:
        """The names, and all that must lie before any of them."""
        earlier: dict[str, list[str]] = {}
        for first, following in self.later.items():
            for then in following:
                earlier.setdefault(then, []).append(first)
        found, waiting = set(names), list(names)
        while waiting:
            for first in earlier.get(waiting.pop(), ()):
                if first not in found:
                    found.add(first)
                    waiting.append(first)
        return found


def settle(chosen: tuple[Chosen, ...], made: Made, keep: Keep) -> Settled:
    """Settle the hand of every joint."""
    hands: dict[Pair, Hand] = {}
    opens: list[_Open] = []
    decisions: list[Decision] = []
    for item in chosen:
        key = (Same(item.meeting), item.kind.name, Same(item.options))
        ways: tuple[Hand, ...] = keep.get("hands", key, partial(item.kind.hands, item.meeting, item.options))
        by_front = {hand.front: hand for hand in ways}
        if by_front.keys() == {item.meeting.a.body, item.meeting.b.body}:
            opens.append(_Open(item, by_front))
            continue
        hands[item.meeting.key] = ways[0]
        if len(ways) > 1:
            decisions.append(_plainest(item, ways))
    over = _Over()
    findings: list[Finding] = []
    free: list[_Open] = []
    for joint in opens:
        word = _word(joint, made, findings)
        if word is None:
            free.append(joint)
            continue
        front, decider = word
        hands[joint.key] = joint.by_front[front]
        ring = over.path(joint.other(front), front)
        if ring is not None:
            findings.append(_locked(ring, joint))
        over.add(front, joint.other(front))
        reason = "the slot is cut" if decider == "already made" else "the job file says so"
        decisions.append(_decision(joint, front, decider, reason))
    _settle_free(free, over, hands, decisions)
    decisions.sort(key=lambda decision: tuple(name_order(name) for name in decision.key))
    return Settled(hands=hands, decisions=tuple(decisions), findings=tuple(findings))


def _word(joint: _Open, made: Made, findings: list[Finding]) -> tuple[str, str] | None:
    """What is made or said about this crossing: the board that lies, and who decided it."""
    spec = joint.chosen.spec
    said = spec.front if spec is not None and spec.front in joint.by_front else ""
    cut = made.fronts.get(joint.key, "")
    if cut in joint.by_front:
        if said and said != cut:
            findings.append(_against(joint, said, cut))
        return cut, "already made"
    return (said, "maker") if said else None


def _settle_free(free: list[_Open], over: _Over, hands: dict[Pair, Hand], decisions: list[Decision]) -> None:
    """Choose for the rest: first those that would leave an open notch, the longest first, then by one order."""
    notched = [joint for joint in free if len({hand.open_notch for hand in joint.by_front.values()}) > 1]
    notched.sort(key=lambda joint: -max(hand.open_notch for hand in joint.by_front.values()))
    reasons: dict[Pair, tuple[str, str]] = {}
    for joint in notched:
        front = min(joint.by_front, key=lambda name: joint.by_front[name].open_notch)
        other = joint.other(front)
        ring = over.path(other, front)
        if ring is not None:
            front, other = other, front
            reasons[joint.key] = (front, "the other way the piece could not be put together")
        else:
            reasons[joint.key] = (front, f"{other} stands proud at the front; the other way leaves an open notch")
        over.add(front, other)
    rank = _laying_order(free, over)
    for joint in free:
        if joint.key in reasons:
            front, reason = reasons[joint.key]
        else:
            front = min(joint.by_front, key=rank.__getitem__)
            reason = f"{front} lies before {joint.other(front)} when the piece is put together lying on its wall edges"
        hands[joint.key] = joint.by_front[front]
        decisions.append(_decision(joint, front, "chosen", reason))


def _laying_order(free: Iterable[_Open], over: _Over) -> dict[str, int]:
    """One order of all boards that keeps every "before" said so far.

    Level boards come first, with those steep ones that must lie before some level one; the other steep
    ones follow; ties by name. In a ring (already found and reported) the order of names goes on, so that
    there always is one.
    """
    steep: dict[str, bool] = {}
    for joint in free:
        a, b = joint.meeting.a, joint.meeting.b
        steep[a.body] = _is_steep(_direction_of_a(joint.meeting))
        steep[b.body] = _is_steep(joint.meeting.frame.x[:2])
        over.later.setdefault(a.body, set())
        over.later.setdefault(b.body, set())
    early = over.before({name for name in over.later if not steep.get(name, False)})
    waits = dict.fromkeys(over.later, 0)
    for following in over.later.values():
        for name in following:
            waits[name] += 1

    def priority(name: str) -> tuple[int, tuple[tuple[int, int, str], ...], str]:
        turn = 0 if not steep.get(name, False) else 1 if name in early else 2
        return turn, name_order(name), name

    ready = [(priority(name), name) for name, count in waits.items() if count == 0]
    heapq.heapify(ready)
    rank: dict[str, int] = {}
    while len(rank) < len(waits):
        if not ready:
            stuck = min((name for name in waits if name not in rank), key=priority)
            ready.append((priority(stuck), stuck))
        _, name = heapq.heappop(ready)
        if name in rank:
            continue
        rank[name] = len(rank)
        for then in over.later[name]:
            waits[then] -= 1
            if waits[then] == 0 and then not in rank:
                heapq.heappush(ready, (priority(then), then))
    return rank


def _is_steep(direction: tuple[float, float]) -> bool:
    return abs(direction[1]) - abs(direction[0]) > 1e-9  # steeper than 45, whatever the last bit


def _direction_of_a(meeting: Meeting) -> tuple[float, float]:
    """Direction of side a in the elevation: b's, turned back."""
    (bx, by, _), (tx, ty) = meeting.frame.x, turned(meeting.b.turn)
    return (bx * tx - by * ty, bx * ty + by * tx)


def _plainest(item: Chosen, ways: tuple[Hand, ...]) -> Decision:
    """Ways that do not turn on what opens to the front: the kind names the plainest first."""
    return Decision(
        about="how it goes together",
        key=item.meeting.key,
        value=ways[0].name,
        decider="chosen",
        reason="it is the plainest way to make it",
        others=tuple(hand.name for hand in ways[1:]),
    )


def _decision(joint: _Open, front: str, decider: str, reason: str) -> Decision:
    spec = joint.chosen.spec
    if spec is not None:
        keep = Edit(action="set", path=(*spec.path, "front"), value=front)
    else:
        keep = Edit(action="add", path=("joint",), value={"between": list(joint.key), "front": front})
    return Decision(
        about=ABOUT,
        key=joint.key,
        value=front,
        decider=decider,  # type: ignore[arg-type]
        reason=reason,
        others=tuple(name for name in joint.by_front if name != front),
        keep=keep if decider == "chosen" else None,
    )


def _against(joint: _Open, said: str, cut: str) -> Finding:
    spec = joint.chosen.spec
    assert spec is not None
    return Finding(
        code=AGAINST_MADE,
        severity=Severity.STOP,
        where=Where(boards=joint.key, joint=joint.key, path=(*spec.path, "front")),
        says=f"{cut} is already slotted from the front at {joint.other(cut)}, but the job asks for {said}",
        remedy=f"let {cut} open to the front, or make the board anew",
        cures=(
            Cure(
                label=f"{cut} opens to the front",
                edits=(Edit(action="set", path=(*spec.path, "front"), value=cut),),
            ),
        ),
    )


def _locked(ring: list[str], joint: _Open) -> Finding:
    """The ring runs from the board that should come later back to the one that lies."""
    names = ", ".join(ring[:-1]) + f" and {ring[-1]}"
    spec = joint.chosen.spec
    other = ring[0]
    cures: tuple[Cure, ...] = ()
    if spec is not None:
        edit = Edit(action="set", path=(*spec.path, "front"), value=other)
        cures = (Cure(label=f"reverse the slot between {ring[-1]} and {other}", edits=(edit,)),)
    return Finding(
        code=LOCKED,
        severity=Severity.STOP,
        where=Where(boards=tuple(ring), joint=joint.key, path=spec.path if spec else None),
        says=f"{names} lie over one another in a ring and cannot be put together",
        remedy=f"let {other} open to the front where it crosses {ring[-1]}",
        cures=cures,
    )
