"""The finish plan: what is done in which order, on which day, what it is sanded with, and the room that it takes wet.

Work is done from 8 to 16; what dries, dries by the clock, at night and at weekends too. What hands take is left out:
each step stands at the earliest hour that waits allow. Where the job says on which day it begins, nothing is done on a
Saturday or Sunday; else days are counted from the first. (Working hours and days: common practice.)
"""

import datetime
import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from ...job.model import When
from ...lengths import MM2_PER_M2
from ...piece.history import Stage
from ...trade.finishes import hours_until
from ...trade.sanding import SOURCE, bare_wood, between_coats, discs
from .result import APART, WALK, Act, FinishStep, RackNeed, Sanding

DAY, OPENS, CLOSES, SATURDAY = 24.0, 8.0, 16.0, 5
GLUE_SETS = 24.0  # hours from the last clamp until what is glued is coated (common practice)
WHEN: Mapping[Stage, When] = {
    Stage.EARLY: "before glue",
    Stage.COATED: "after glue",
    Stage.ON_SITE: "on site",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Planned:
    """One board as the plan sees it.

    Attributes:
        coats: how many at which stage.
        stages: that it passes.
        body: it is coated in once it is together: its unit, itself, or "" for the whole.
        masked: whether any of its joints is masked.
        m2: of it that is sanded.
        size: length, depth, thickness.
        low, high: of its box where it stands, along the wall and out of it.
    """

    name: str
    coats: tuple[tuple[Stage, int], ...]
    stages: tuple[Stage, ...]
    body: str
    masked: bool
    m2: float
    size: tuple[float, float, float]
    low: tuple[float, float]
    high: tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class DryingTimes:
    """Hours from coat to coat and until it is hard, as it dries in that room; None where no figure is known."""

    recoat_h: float | None
    hard_h: float | None
    begins: str = ""


def sandings(boards: Sequence[Planned], *, into_wood: bool) -> Iterator[Sanding]:
    """Before the first coat, and between coats."""
    coated = [(board, sum(coats for _, coats in board.coats)) for board in boards if board.coats]
    most = max((coats for _, coats in coated), default=0)
    bare = math.fsum(board.m2 for board, _ in coated)
    between = math.fsum((coats - 1) * board.m2 for board, coats in coated)
    for first, grits, m2 in (
        (True, bare_wood(into_wood=into_wood), bare),
        (False, between_coats(most, into_wood=into_wood), between),
    ):
        if grits and m2:
            yield Sanding(between=not first, grits=grits, source=SOURCE, m2=m2, discs=discs(m2, bare=first))


def racks(boards: Sequence[Planned]) -> Iterator[RackNeed]:
    """At each time of coating, what is wet at once: a coat goes on all that has it before the next begins."""
    for stage, when in WHEN.items():
        wet = [board for board in boards if any(at is stage for at, _ in board.coats)]
        if not wet:
            continue
        if stage is Stage.EARLY:
            sizes = [board.size for board in wet]
            longest, widest = max(size[0] for size in sizes), max(size[1] for size in sizes)
            yield RackNeed(
                when=when,
                pieces=len(wet),
                longest=longest,
                widest=widest,
                high=math.fsum(size[2] + APART for size in sizes),
                floor_m2=longest * widest / MM2_PER_M2,
                flat_m2=math.fsum(long * (wide + APART) for long, wide, _ in sizes) / MM2_PER_M2,
            )
            continue
        bodies: dict[str, list[Planned]] = {}
        for board in wet:
            bodies.setdefault(board.body, []).append(board)
        boxes = [_box(body) for body in bodies.values()]
        floor = math.fsum((long + 2 * WALK) * (deep + 2 * WALK) for long, deep in boxes) / MM2_PER_M2
        yield RackNeed(
            when=when,
            pieces=len(boxes),
            longest=max(long for long, _ in boxes),
            widest=max(deep for _, deep in boxes),
            high=0.0,
            floor_m2=floor,
            flat_m2=floor,
        )


def _box(boards: Sequence[Planned]) -> tuple[float, float]:
    """Length along the wall and depth of what stands together."""
    low = [min(board.low[way] for board in boards) for way in (0, 1)]
    high = [max(board.high[way] for board in boards) for way in (0, 1)]
    return high[0] - low[0], high[1] - low[1]


def steps(boards: Sequence[Planned], times: DryingTimes, *, into_wood: bool) -> tuple[FinishStep, ...]:
    """All of it in order; dates and days follow from the hours."""
    return tuple(_dated(step, times.begins) for step in _Plan(boards, times, into_wood=into_wood).all())


class _Plan:
    """Goes through the stages, and keeps the hour."""

    def __init__(self, boards: Sequence[Planned], times: DryingTimes, *, into_wood: bool) -> None:
        self._boards, self._times, self._into_wood = boards, times, into_wood
        self._now: float | None = 0.0  # the hour at which the next thing can be done
        self._hard: float | None = 0.0  # by which all coats so far are hard
        self._done: dict[str, int] = {board.name: 0 for board in boards}

    def all(self) -> Iterator[FinishStep]:
        first = [board for board in self._boards if board.coats]
        if not first:
            return
        yield FinishStep(act="sand", boards=_names(first), grits=bare_wood(into_wood=self._into_wood))
        masked = [board for board in first if board.masked]
        if masked:
            yield FinishStep(act="mask", boards=_names(masked))
        yield from self._coats(Stage.EARLY)
        glued = [board for board in self._boards if Stage.GLUED in board.stages]
        if glued:
            yield self._step("glue", glued)
            self._now = None if self._now is None else self._now + GLUE_SETS
        yield from self._coats(Stage.COATED)
        self._now = None if self._now is None or self._hard is None else max(self._now, self._hard)
        yield self._step("carry", self._boards)
        placed = [board for board in self._boards if Stage.PUT_IN in board.stages]
        if placed:
            yield self._step("put in", placed)
        late = [board for board in self._boards if any(at is Stage.ON_SITE for at, _ in board.coats)]
        yield from self._coats(Stage.ON_SITE)
        if late:
            self._now = self._hard
            yield self._step("live with", self._boards)

    def _coats(self, stage: Stage) -> Iterator[FinishStep]:
        """Coat by coat, each once the one before it has dried, which is scuffed first; then as for one more."""
        counts = {board.name: dict(board.coats).get(stage, 0) for board in self._boards}
        for number in range(1, max(counts.values()) + 1):
            wet = [board for board in self._boards if counts[board.name] >= number]
            scuffed = [board for board in wet if self._done[board.name]]
            grits = between_coats(2, into_wood=self._into_wood)
            if scuffed and grits:
                yield self._step("sand", scuffed, grits=grits)
            for board in wet:
                self._done[board.name] += 1
            step = self._step("coat", wet, coat=max(self._done[board.name] for board in wet))
            yield step
            hard, recoat = self._times.hard_h, self._times.recoat_h
            if step.hours is None or recoat is None:
                self._now = self._hard = None
                continue
            self._now = step.hours + recoat
            if self._hard is not None:
                ready = None if hard is None else step.hours + hours_until(coats=1, recoat_h=recoat, wait_h=hard)
                self._hard = None if ready is None else max(self._hard, ready)

    def _step(self, act: Act, boards: Sequence[Planned], *, coat: int = 0, grits: tuple[int, ...] = ()) -> FinishStep:
        if self._now is not None:
            self._now = working(self._now, self._times.begins)
        return FinishStep(act=act, boards=_names(boards), coat=coat, hours=self._now, grits=grits)


def _names(boards: Sequence[Planned]) -> tuple[str, ...]:
    return tuple(board.name for board in boards)


def working(hours: float, begins: str) -> float:
    """The first working hour at or after an hour, both counted from the opening of the first day."""
    day, hour = divmod(hours + OPENS, DAY)
    if hour > CLOSES:
        day, hour = day + 1, OPENS
    hour = max(hour, OPENS)
    if begins:
        first = datetime.date.fromisoformat(begins).weekday()
        while (first + day) % 7 >= SATURDAY:
            day, hour = day + 1, OPENS
    return day * DAY + hour - OPENS


def _dated(step: FinishStep, begins: str) -> FinishStep:
    """Its day, and the date of that."""
    if step.hours is None:
        return step
    day = int((step.hours + OPENS) // DAY)
    first = datetime.date.fromisoformat(begins) if begins else None
    date = "" if first is None else (first + datetime.timedelta(days=day)).isoformat()
    return replace(step, day=day + 1, date=date)
