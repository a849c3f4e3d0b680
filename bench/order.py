"""Speed of the order of assembly: settling, which is in the drag step, and the study, when the hand rests.

    python3 -m bench.order

Aims: settle of the wall-hung demo 5 ms, its order 50 ms, a grid of 100 boards 1 s.
"""

import math
import statistics
import time
from collections.abc import Callable
from typing import Any
from unittest import mock

from dryfit.book import Kept, piece_of, read_job_text
from dryfit.book.building import scene_of
from dryfit.book.demos import demo_text
from dryfit.geometry.bodies import pieces_of
from dryfit.job.model import Job
from dryfit.keeping import Keep
from dryfit.piece import building
from dryfit.piece.settling.settle import settle
from dryfit.piece.solids import Solids
from dryfit.shop.model import Shop
from dryfit.studies import STUDIES
from dryfit.study.base import Work

_HEAD = """dryfit = 1
[job]
title = "grid"
[timber.oak]
species = "oak, white"
form = "edge-glued panel"
thickness = 18
[wall]
hung = true
"""


def grid(count: int) -> str:
    """A job of `count` boards: half of them level, half upright, all crossing."""
    half = count // 2
    length = 100 * half + 200
    boards = []
    for number in range(1, half + 1):
        at = 100 * number
        boards.append(_board(f"level {number}", ((0, at), (length, at))))
        boards.append(_board(f"upright {number}", ((at, 0), (at, length))))
    return _HEAD + "".join(boards)


def _board(name: str, line: tuple[tuple[int, int], tuple[int, int]]) -> str:
    points = [list(point) for point in line]
    return f'[[board]]\nname = "{name}"\ntimber = "oak"\nline = {points}\ndepth = 300\n'


def milliseconds(work: Callable[[], object], runs: int) -> float:
    """Median time of one call."""
    spent = []
    for _ in range(runs):
        start = time.perf_counter()
        work()
        spent.append((time.perf_counter() - start) * 1000)
    return statistics.median(spent)


def settling(job: Job) -> float:
    """Settle alone, on what the set-out and the choice of kinds gave, nothing kept."""
    given: list[tuple[Any, Any]] = []

    def caught(*args: Any, **more: Any) -> object:
        given.append((args, more))
        return settle(*args, **more)

    with mock.patch.object(building, "settle", caught):
        piece_of(job, bench=Kept())
    (chosen, made, _, *rest), more = given[0]
    return milliseconds(lambda: settle(chosen, made, Keep(), *rest, **more), 15)


def ordering(job: Job, runs: int) -> tuple[float, int]:
    """The order study, from the piece to its steps, nothing kept; and how many steps it has."""
    piece = piece_of(job)
    scene = scene_of(job, Shop(), piece, Solids())
    study = STUDIES["order"]

    def work() -> int:
        pieces_of.cache_clear()
        result = study.run(study.reads(scene), Work())
        return sum(len(stage.steps) for stage in result.stages)

    steps = work()
    return milliseconds(work, runs), steps


def main() -> None:
    """Print all figures."""
    demo = read_job_text(demo_text("record-wall"))
    print(f"settle, wall-hung demo     {settling(demo):8.2f} ms   (aim 5)")
    spent, steps = ordering(demo, 9)
    print(f"order, wall-hung demo      {spent:8.1f} ms   (aim 50)   {steps} steps")
    times = {}
    for count in (20, 50, 100, 200):
        job = read_job_text(grid(count))
        times[count], steps = ordering(job, 3 if count < 200 else 1)
        aim = "(aim 1000)" if count == 100 else ""
        print(f"order, grid of {count:3} boards   {times[count]:8.1f} ms   {aim}   {steps} steps")
    exponent = math.log(times[200] / times[20]) / math.log(10)
    print(f"growth from 20 to 200 boards: time ~ boards^{exponent:.2f} (crossings grow as boards^2)")
    print(f"settle, grid of 100 boards {settling(read_job_text(grid(100))):8.1f} ms")


if __name__ == "__main__":
    main()
