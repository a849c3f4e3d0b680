"""Trial cuts: for each set-up an offcut of the boards' own thickness, so long that the cut stands in whole wood.

A cut across, and a hole, want `BESIDE` of wood on either side. What is sawn off square is tried by sawing an offcut
in two: the halves make the corner. Keys and tongues are tried in the two halves of a corner, one of each board.
"""

import math
from collections.abc import Iterator, Mapping, Sequence

from ...lengths import MM_PER, LengthUnit
from ...piece.operations import WorkSort
from .result import Trial
from .timber import up
from .value import PartValue, SetUpValue

BESIDE = 30.0  # of whole wood either side of a trial cut (ours: the walls must not spring)
HALF = 100.0  # of an offcut beyond a mitre, to be held against a fence and clamped (ours)
ROUND: dict[LengthUnit, float] = {"mm": 10.0, "in": MM_PER["in"] / 2}  # offcuts are told to this (ours)


def trials(setups: Sequence[SetUpValue], parts: Sequence[PartValue], units: LengthUnit) -> Iterator[Trial]:
    """What the trials take; bits for one and the same hole share theirs."""
    known = {part.name: part for part in parts}
    alike: dict[object, list[SetUpValue]] = {}
    for setup in setups:
        alike.setdefault((setup.work, setup.cuts) if setup.work is WorkSort.HOLES else setup.name, []).append(setup)
    for same in alike.values():
        yield from _trial(same, known, ROUND[units])


def _trial(same: Sequence[SetUpValue], known: Mapping[str, PartValue], step: float) -> Iterator[Trial]:
    first, names = same[0], tuple(setup.name for setup in same)
    cut = [known[name] for name in first.parts]
    widest: dict[str, PartValue] = {}
    for part in cut:
        if part.timber not in widest or part.blank[1] > widest[part.timber].blank[1]:
            widest[part.timber] = part
    timbers = list(widest.values())
    match first.work:
        case WorkSort.ENDS:
            yield _one(names, timbers[0], up(2 * HALF, step), "sawn in two")
        case WorkSort.CORNER:
            pair = timbers if len(timbers) > 1 else [*timbers, *timbers]
            for part in pair[:2]:
                yield _one(names, part, up(HALF, step), "half of a corner")
        case _:
            wide = max(setup.across for setup in same)
            lean = math.radians(first.lean)
            thick = timbers[0].thickness[1]
            long = 2 * BESIDE + wide / math.cos(lean) + thick * math.tan(lean)
            yield _one(names, timbers[0], up(long, step), "cut")


def _one(names: tuple[str, ...], part: PartValue, long: float, how: str) -> Trial:
    return Trial(
        setups=names,
        timber=part.timber,
        length=long,
        width=part.blank[1],
        how=how,  # type: ignore[arg-type]
    )
