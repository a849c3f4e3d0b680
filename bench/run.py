"""Speed of the whole house, stage by stage: medians of many runs, each beside a fixed reference sum.

    python3 start.py bench

A machine that is busy or slow shows in the reference, so figures are also given as multiples of it. Growth
is the exponent b in time ~ (boards + joints)^b, fitted between the smallest and the largest piece.
"""

import math
import os
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path

from bench.layouts import UNIT_BOARDS, UNIT_JOINTS, job_text, names
from dryfit.book import Bench, build, piece_of, read_job_text
from dryfit.book.demos import demo_text
from dryfit.documents.writing import write_book
from dryfit.piece.clash import clashes
from dryfit.piece.solids import Solids

Row = tuple[str, float, float | None]
BROAD = 4  # units: 40 boards, 60 joints


def milliseconds(work: Callable[[], object]) -> float:
    """How long one call took."""
    start = time.perf_counter()
    work()
    return (time.perf_counter() - start) * 1000


def median(work: Callable[[], object], runs: int) -> float:
    """Median of several calls, after one that is not counted."""
    work()
    return statistics.median(milliseconds(work) for _ in range(runs))


def reference() -> float:
    """A fixed sum in plain Python: what this machine does just now."""
    return median(lambda: sum(math.sin(i) * math.sqrt(i) for i in range(20_000)), 15)


def text_to_findings(units: int, runs: int) -> float:
    """A changed text to its findings, no solids, on a warm bench: every run moves another board."""
    bench = Bench()
    texts = [job_text(units, {name: 3.0}) for name in names(units)]
    piece_of(read_job_text(job_text(units)), bench=bench)
    return statistics.median(milliseconds(partial(_findings, text, bench)) for text in texts[:runs])


def _findings(text: str, bench: Bench) -> object:
    return piece_of(read_job_text(text), bench=bench)


def cold_solids(units: int, runs: int) -> float:
    """All solids and the clash check of all joints and near pairs, nothing kept."""
    job = read_job_text(job_text(units))

    def work() -> None:
        bench = Bench()
        piece = piece_of(job, bench=bench)
        clashes(piece.parts, Solids(bench.keep), frozenset(joint.key for joint in piece.joints), bench.keep)

    whole = median(work, runs)
    return whole - median(lambda: piece_of(job, bench=Bench()), runs)


def moved_boards(units: int) -> tuple[float, float]:
    """One board moved by 3, text to findings with solids and clashes: median and worst over all boards."""
    bench = Bench()
    base = job_text(units)

    def whole(text: str) -> None:
        piece = piece_of(read_job_text(text), bench=bench)
        clashes(piece.parts, Solids(bench.keep), frozenset(joint.key for joint in piece.joints), bench.keep)

    whole(base)
    times = []
    for name in names(units):
        text = job_text(units, {name: 3.0})
        times.append(milliseconds(partial(whole, text)))
        whole(base)
    return statistics.median(times), max(times)


def whole_book(units: int, runs: int) -> float:
    """Text to all papers on disk, nothing kept."""
    text = job_text(units)
    with tempfile.TemporaryDirectory() as folder:
        return median(lambda: write_book(build(read_job_text(text)), Path(folder)), runs)


def cold_check() -> float:
    """CPU seconds of `dryfit check` on the small demo, a fresh process each time, median of five."""
    with tempfile.TemporaryDirectory() as folder:
        job = Path(folder) / "step-shelf.toml"
        job.write_text(demo_text("step-shelf"), encoding="utf-8")
        spent = []
        for _ in range(5):
            before = resource.getrusage(resource.RUSAGE_CHILDREN)
            subprocess.run(
                [sys.executable, "-m", "dryfit", "check", str(job)],
                check=False,
                stdout=subprocess.DEVNULL,
                env={**os.environ, "PYTHONDONTWRITEBYTECODE": ""},
            )
            after = resource.getrusage(resource.RUSAGE_CHILDREN)
            spent.append(after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime)
        return statistics.median(spent)


def growth(measure: Callable[[int], float], sizes: tuple[int, ...] = (4, 16, 64)) -> float:
    """Exponent of time against boards + joints, from the smallest to the largest."""
    times = [measure(size) for size in sizes]
    return math.log(times[-1] / times[0]) / math.log(sizes[-1] / sizes[0])


def main() -> int:
    """Measure and print the table."""
    unit = reference()
    moved, worst = moved_boards(BROAD)
    boards, joints = BROAD * UNIT_BOARDS, BROAD * UNIT_JOINTS
    rows: list[Row] = [
        ("changed text to findings, no solids, warm (ms)", text_to_findings(BROAD, 40), 10),
        ("all solids and clashes, cold (ms)", cold_solids(BROAD, 5), 160),
        ("one moved board with solids and clashes, median (ms)", moved, 10),
        ("the same, worst board (ms)", worst, 40),
        ("whole book, text to papers (ms)", whole_book(BROAD, 3), 3000),
        ("cold check of the small demo (CPU ms)", cold_check() * 1000, 450),
        ("growth to 640 boards, findings (exponent)", growth(lambda size: text_to_findings(size, 3)), 1.15),
        ("growth to 640 boards, solids and clashes (exponent)", growth(lambda size: cold_solids(size, 1)), 1.15),
    ]
    print(f"{boards} boards, {joints} joints; reference sum {unit:.2f} ms")
    print(f"{'':54}{'found':>10}{'aim':>10}{'x reference':>14}")
    for what, found, aim in rows:
        ratio = "" if "exponent" in what else f"{found / unit:.1f}"
        mark = "" if aim is None or found <= aim else "  over its aim"
        print(f"{what:54}{found:10.2f}{aim if aim is not None else '':>10}{ratio:>14}{mark}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
