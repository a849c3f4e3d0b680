"""Stages of gluing: as many steps of the assembly as can be closed while the glue is open.

The clock starts when the first glue of a stage is spread. Every joint that a step closes takes its time, glued
or dry; steps before the first glue and after the last cost nothing.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from ...places import Pair
from ...sentences import Words

BOTH = 2  # faces that are spread where end grain meets end grain: it drinks (common practice)
MM2_PER_M2 = 1e6


@dataclass(frozen=True, slots=True, kw_only=True)
class StepValue:
    """One step of the assembly: what moves, onto what, and the joints it closes."""

    name: Words
    parts: tuple[str, ...]
    joints: tuple[Pair, ...]
    onto: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Batch:
    """Steps glued in one go.

    Attributes:
        first: number of its first step in the assembly's stage, from 0.
        minutes: from the first glue to the last joint closed.
    """

    first: int
    steps: tuple[StepValue, ...]
    glued: tuple[Pair, ...]
    dry: tuple[Pair, ...]
    minutes: float


def batches(
    steps: Sequence[StepValue], glued: frozenset[Pair], seconds_a_joint: float, open_minutes: float
) -> tuple[Batch, ...]:
    """Pack steps in their order; a step that alone takes longer than the glue is open stands by itself."""
    found: list[Batch] = []
    first, spent, last_glue = 0, 0.0, -1
    for number, step in enumerate(steps):
        cost = len(step.joints) * seconds_a_joint / 60
        wet = any(key in glued for key in step.joints)
        if wet and last_glue >= first and spent + cost > open_minutes + 1e-9:
            found.append(_batch(steps, first, last_glue + 1, glued, seconds_a_joint))
            first, spent, last_glue = last_glue + 1, 0.0, -1
        if wet or last_glue >= first:
            spent += cost
        if wet:
            last_glue = number
    if last_glue >= first:
        found.append(_batch(steps, first, len(steps), glued, seconds_a_joint))
    return tuple(found)


def _batch(steps: Sequence[StepValue], first: int, stop: int, glued: frozenset[Pair], seconds_a_joint: float) -> Batch:
    inside = tuple(steps[first:stop])
    wet = [number for number, step in enumerate(inside) if any(key in glued for key in step.joints)]
    timed = inside[wet[0] : wet[-1] + 1]
    closed = [key for step in inside for key in step.joints]
    return Batch(
        first=first,
        steps=inside,
        glued=tuple(key for key in closed if key in glued),
        dry=tuple(key for key in closed if key not in glued),
        minutes=sum(len(step.joints) for step in timed) * seconds_a_joint / 60,
    )


def grams(faces: Iterable[tuple[str, float]], spread_g_m2: float, over: float) -> tuple[tuple[str, float], ...]:
    """Glue by grain pair: spread x area, with what is lost; end grain on end grain gets it on both faces."""
    areas: dict[str, float] = {}
    for grain, area in faces:
        areas[grain] = areas.get(grain, 0.0) + area * (BOTH if grain == "end-end" else 1)
    return tuple((grain, areas[grain] / MM2_PER_M2 * spread_g_m2 * over) for grain in sorted(areas))
