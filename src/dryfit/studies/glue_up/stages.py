"""Goes of the glue-up: as many steps of the assembly as are spread, closed and clamped while the glue is open.

The clock starts when the first glue of a go is spread. It counts every side of a joint that is spread, every joint
that is closed, glued or dry, and every clamp that is set. Steps before the first glue and after the last stay out of
the go, but for what is put on dry so that each glued board is held at two places while the glue sets: a frame is closed
in every go of it. Going in while less is there, that board finds its way as free as in the order that was proved.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence, Set
from dataclasses import dataclass

from ...lengths import MM2_PER_M2
from ...piece.facts import Grain, Grains, paired
from ...places import Pair
from ...sentences import Words

BOTH = 2  # faces that are spread where end grain meets end grain: it drinks (common practice)
HELD = 2  # joints by which a board is held square while its glue sets
MINUTE = 60.0  # seconds
SLACK = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class StepValue:
    """One step of the assembly: what moves, onto what, and the joints it closes."""

    name: Words
    parts: tuple[str, ...]
    joints: tuple[Pair, ...]
    onto: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Times:
    """Minutes of a go."""

    spread: float = 0.0
    close: float = 0.0
    clamp: float = 0.0

    @property
    def whole(self) -> float:
        """From the first glue to the last clamp."""
        return self.spread + self.close + self.clamp


@dataclass(frozen=True, slots=True, kw_only=True)
class Clock:
    """How long the glue is open and what the work takes, in seconds of one pair of hands.

    Attributes:
        spread: by glued joint, all its sides; a joint that is not in it stays dry.
        rigid: boards of units that were glued before, which nothing has to hold.
        close: one joint; `clamp` one clamp.
        clamps: how many are set on these joints together.
    """

    spread: Mapping[Pair, float]
    close: float
    clamp: float
    clamps: Callable[[Sequence[Pair]], int]
    people: int
    open_minutes: float
    rigid: Set[str] = frozenset()

    def times(self, glued: Sequence[Pair], closed: int) -> Times:
        """Of a go that glues these and closes so many, dry ones among them."""
        hands = MINUTE * self.people
        return Times(
            spread=sum(self.spread[key] for key in glued) / hands,
            close=closed * self.close / hands,
            clamp=self.clamps(glued) * self.clamp / hands,
        )

    def holds(self, times: Times) -> bool:
        """Whether the glue is open so long."""
        return times.whole <= self.open_minutes + SLACK


@dataclass(frozen=True, slots=True, kw_only=True)
class Batch:
    """Steps glued in one go.

    Attributes:
        first: number of its first step in the assembly's stage, from 0.
        held: steps put on dry so that it stays square: those that come next and stay on, or later ones, out of their
            turn, which come `off` again when the glue has set.
        glued, dry: joints closed in it, those of `held` among the dry ones.
    """

    first: int
    steps: tuple[StepValue, ...]
    held: tuple[StepValue, ...]
    off: bool
    glued: tuple[Pair, ...]
    dry: tuple[Pair, ...]
    times: Times


def batches(steps: Sequence[StepValue], clock: Clock) -> tuple[Batch, ...]:
    """Pack steps in their order; one that alone takes longer than the glue is open stands by itself."""
    found: list[Batch] = []
    at = 0
    while (begins := _first_wet(steps, at, clock)) is not None:
        found.append(_best(steps, begins, clock))
        at = begins + len(found[-1].steps)
    return tuple(found)


def _first_wet(steps: Sequence[StepValue], at: int, clock: Clock) -> int | None:
    return next((n for n in range(at, len(steps)) if any(key in clock.spread for key in steps[n].joints)), None)


def _best(steps: Sequence[StepValue], begins: int, clock: Clock) -> Batch:
    """The longest that the glue allows: rather one that leaves nothing to take off again, rather one that is held."""
    ends = [n + 1 for n in range(begins, len(steps)) if any(key in clock.spread for key in steps[n].joints)]
    held = [_batch(steps, begins, end, clock, _holding(steps, begins, end, clock)) for end in ends]
    in_time = [go for go in held if clock.holds(go.times)]
    whole = [go for go in in_time if not go.off]
    bare = [go for end in ends if clock.holds((go := _batch(steps, begins, end, clock, ())).times)]
    return (whole or in_time or bare or held[:1])[-1]


def _batch(steps: Sequence[StepValue], begins: int, end: int, clock: Clock, held: Sequence[int]) -> Batch:
    there = _there(steps, begins, end)
    inside = list(steps[begins:end])
    added = [steps[n] for n in held]
    closed = [key for step in inside for key in step.joints]
    with_them = there | {part for step in added for part in step.parts}
    dry = [key for step in added for key in step.joints if set(key) <= with_them]
    glued = tuple(key for key in closed if key in clock.spread)
    return Batch(
        first=begins,
        steps=tuple(inside),
        held=tuple(added),
        off=list(held) != list(range(end, end + len(held))) or any(key in clock.spread for key in dry),
        glued=glued,
        dry=(*(key for key in closed if key not in clock.spread), *dry),
        times=clock.times(glued, len(closed) + len(dry)),
    )


def _there(steps: Sequence[StepValue], begins: int, end: int) -> set[str]:
    """Boards that are together when these steps are done, what lies there first among them."""
    return {part for step in steps[begins:end] for part in (*step.parts, *step.onto)}


def _holding(steps: Sequence[StepValue], begins: int, end: int, clock: Clock) -> list[int]:
    """Later steps to put on dry, so that each board glued in these is held at two places, as far as they do it."""
    there = _there(steps, begins, end)
    glued = {name for step in steps[begins:end] for key in step.joints if key in clock.spread for name in key}
    picked: list[int] = []
    while True:
        closed = [key for n, step in enumerate(steps) if n < end or n in picked for key in step.joints]
        closed = [key for key in closed if set(key) <= there]
        loose = {name for name in glued - clock.rigid if sum(name in key for key in closed) < HELD}
        gains = {
            n: len({name for key in steps[n].joints if set(key) <= there | set(steps[n].parts) for name in key} & loose)
            for n in range(end, len(steps))
            if n not in picked
        }
        best = max(gains, key=lambda n: (gains[n], -len(steps[n].joints), -n), default=None)
        if best is None or not gains[best]:
            return picked
        parts = set(steps[best].parts)
        picked = sorted({*picked, best, *(n for n in range(end, best) if set(steps[n].parts) < parts)})
        there |= parts


def grams(faces: Iterable[tuple[Grains, float]], spread_g_m2: float, over: float) -> tuple[tuple[str, float], ...]:
    """Glue by grain pair: spread x area, with what is lost; end grain on end grain gets it on both faces."""
    areas: dict[str, float] = {}
    for grain, area in faces:
        pair = paired(grain)
        areas[pair] = areas.get(pair, 0.0) + area * (BOTH if set(grain) == {Grain.END} else 1)
    return tuple((grain, areas[grain] / MM2_PER_M2 * spread_g_m2 * over) for grain in sorted(areas))
