"""Speed of the whole house on irregular pieces, stage by stage, and how it grows with the piece.

    python3 start.py bench house                         all of it: some ten minutes
    python3 -m bench.run [--json FILE] [--no-book] [--shape bays]

Pieces are those of `layouts`: no two boards are alike. Times are medians of several calls in processor time of this
process, its threads together, so that what runs beside it weighs little; only whole books are timed by the clock,
since a second process draws some of them: they want a machine at rest. Each row stands beside a fixed sum measured
just before it, and is given as a multiple of that too: two runs are compared by the multiples.

Growth is the exponent b in time ~ (boards + joints)^b, fitted over all sizes of a shape, smallest to largest.
"""

import argparse
import json
import math
import os
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from dataclasses import asdict, dataclass, replace
from functools import partial
from pathlib import Path

from bench.layouts import layout
from dryfit.book import Book, Kept, build, piece_of, read_job_text
from dryfit.book.building import scene_of
from dryfit.book.demos import demo_text, demos
from dryfit.documents.looks import Desk
from dryfit.documents.sheets import SHEETS
from dryfit.documents.workshop import paper_sheets
from dryfit.documents.writing import write_book
from dryfit.geometry.bodies import pieces_of
from dryfit.job.model import Job
from dryfit.piece.clash import clashes
from dryfit.piece.model import Piece
from dryfit.piece.solids import Solids
from dryfit.shop.model import Shop
from dryfit.studies import STUDIES
from dryfit.study.base import Work

BROAD = ("bays", 40)
SHAPES = dict.fromkeys(("bays", "ring", "star", "alike", "lattices"), (40, 80, 160, 320))
GRID = (20, 40, 80)  # boards; 1,600 joints the last
THOUSAND = ("bays", 1000)
EXPONENT = 1.2
ENOUGH = 1000.0  # ms: what takes as long is measured once


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One figure; `times` is it in reference sums, None for an exponent."""

    what: str
    found: float
    aim: float | None
    unit: str
    times: float | None = None


def milliseconds(work: Callable[[], object], clock: Callable[[], float] = time.process_time) -> float:
    """Time of one call, of the processor if no other clock is given."""
    start = clock()
    work()
    return (clock() - start) * 1000


def median(work: Callable[[], object], runs: int = 5, clock: Callable[[], float] = time.process_time) -> float:
    """Median of several calls after one that is not counted; that one alone where it takes long."""
    first = milliseconds(work, clock)
    return first if first > ENOUGH else statistics.median(milliseconds(work, clock) for _ in range(runs))


def reference() -> float:
    """A fixed sum in plain Python: what this machine does just now."""
    return median(lambda: sum(math.sin(i) * math.sqrt(i) for i in range(20_000)), 15)


# ---- what is measured


def cold_findings(text: str) -> None:
    """A text to its findings, no solids, nothing kept."""
    piece_of(read_job_text(text), bench=Kept())


def warm_findings(shape: str, boards: int, runs: int = 40) -> float:
    """A changed text to its findings, no solids, on a warm bench: every run moves another board."""
    bench, piece = Kept(), layout(shape, boards)
    piece_of(read_job_text(piece.text()), bench=bench)
    texts = [piece.text({name: 3.0}) for name in piece.names[:runs]]

    def findings(text: str) -> None:
        piece_of(read_job_text(text), bench=bench)

    return statistics.median(milliseconds(partial(findings, text)) for text in texts)


def moved_boards(shape: str, boards: int) -> tuple[float, float]:
    """One board moved by 3, text to findings with solids and clashes: median and worst over all boards."""
    bench, drawn = Kept(), layout(shape, boards)

    def whole(text: str) -> None:
        piece = piece_of(read_job_text(text), bench=bench)
        solids_and_clashes(piece, bench)

    whole(drawn.text())
    times = []
    for name in drawn.names:
        times.append(milliseconds(partial(whole, drawn.text({name: 3.0}))))
        whole(drawn.text())
    return statistics.median(times), max(times)


def solids_and_clashes(piece: Piece, bench: Kept) -> None:
    """Every part's solid, and the clash check of all near pairs."""
    solids = Solids(bench.keep)
    clashes(piece.parts, solids, frozenset(joint.key for joint in piece.joints), bench.keep)
    for part in piece.parts:
        solids.solid(part)


def order_and_glue_up(job: Job, piece: Piece) -> None:
    """Both studies, nothing kept."""
    pieces_of.cache_clear()
    scene = scene_of(job, Shop(), piece, Solids())
    results: dict[type, object] = {}
    for name in ("order", "glue_up"):
        study = STUDIES[name]
        results[study.result] = study.run(study.reads(replace(scene, study=study, results=results)), Work())


def check(text: str) -> None:
    """All that `dryfit check` does with a text."""
    pieces_of.cache_clear()
    build(read_job_text(text))


def whole_book(text: str, folder: Path) -> None:
    """Text to all papers on disk."""
    pieces_of.cache_clear()
    write_book(build(read_job_text(text)), folder)


def papers(made: Book) -> None:
    """Every sheet of both papers of a book, drawn by this process alone."""
    desk = Desk(made)
    for paper in dict.fromkeys(kind.paper for kind in SHEETS.values()):
        paper_sheets(paper, made, desk=desk)


def waited(text: str, folder: Path) -> float:
    """How long a maker waits for the whole book."""
    return median(partial(whole_book, text, folder), 3, time.perf_counter)


def cold_check() -> float:
    """Processor time of `dryfit check` on the small demo in ms, a fresh process each time, median of five."""
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
        return statistics.median(spent) * 1000


# ---- rows


def timed(what: str, found: Callable[[], float], aim: float | None) -> Row:
    """A row with the reference as it is just before."""
    unit = reference()
    value = found()
    return Row(what=what, found=value, aim=aim, unit="ms", times=value / unit)


def broad(book: bool) -> Iterator[Row]:
    """The piece of 40 boards."""
    text = layout(*BROAD).text()
    job = read_job_text(text)
    piece = piece_of(job)
    said = f"{len(piece.boards)} boards, {len(piece.joints)} joints"
    yield timed(f"{said}: changed text to findings, warm", lambda: warm_findings(*BROAD), 10)
    yield timed(f"{said}: text to findings, cold", lambda: median(partial(cold_findings, text)), 40)
    yield timed(f"{said}: solids and clashes, cold", lambda: median(lambda: solids_and_clashes(piece, Kept())), 60)
    yield timed(f"{said}: order and glue-up, cold", lambda: median(lambda: order_and_glue_up(job, piece)), None)
    unit, (moved, worst) = reference(), moved_boards(*BROAD)
    yield Row(what="one board moved, with solids and clashes", found=moved, aim=None, unit="ms", times=moved / unit)
    yield Row(what="the same, worst board", found=worst, aim=None, unit="ms", times=worst / unit)
    made = build(job)
    yield timed(f"{said}: sheets of both papers, one process", lambda: median(partial(papers, made)), None)
    for name in demos():
        made = build(read_job_text(demo_text(name)))
        yield timed(f"{name}: sheets of both papers, one process", partial(median, partial(papers, made)), None)
    if book:
        with tempfile.TemporaryDirectory() as folder:
            yield timed(f"{said}: whole book, by the clock", lambda: waited(text, Path(folder)), 2000)
    yield timed("check of the small demo, a fresh process", cold_check, 450)


def growing(shape: str, sizes: tuple[int, ...], book: bool) -> Iterator[Row]:
    """What the largest of a shape takes, and the exponent of each stage over all its sizes."""
    stages: dict[str, list[tuple[int, float]]] = {}
    unit = 0.0
    said = ""
    for boards in sizes:
        text = layout(shape, boards).text()
        job = read_job_text(text)
        piece = piece_of(job)
        weight = len(piece.boards) + len(piece.joints)
        said = f"{shape}, {len(piece.boards)} boards, {len(piece.joints)} joints"
        unit = reference()
        runs: dict[str, Callable[[], object]] = {
            "findings": partial(cold_findings, text),
            "solids and clashes": lambda piece=piece: solids_and_clashes(piece, Kept()),  # type: ignore[misc]
            "order and glue-up": partial(order_and_glue_up, job, piece),
            "check": partial(check, text),
        }
        with tempfile.TemporaryDirectory() as folder:
            for name, work in runs.items():
                stages.setdefault(name, []).append((weight, median(work, 3)))
            if book:
                stages.setdefault("whole book", []).append((weight, waited(text, Path(folder))))
    aims = {"check": 2000.0, "whole book": 60_000.0} if shape == "bays" else {}
    for name, points in stages.items():
        last = points[-1][1]
        yield Row(what=f"{said}: {name}", found=last, aim=aims.get(name), unit="ms", times=last / unit)
        aim = EXPONENT if name != "check" else None
        yield Row(what=f"{shape}: {name}, growth", found=exponent(points), aim=aim, unit="exponent")


def exponent(points: list[tuple[int, float]]) -> float:
    """The slope of the line of least squares through the logarithms."""
    xs, ys = [math.log(size) for size, _ in points], [math.log(spent) for _, spent in points]
    x, y = statistics.fmean(xs), statistics.fmean(ys)
    return sum((a - x) * (b - y) for a, b in zip(xs, ys, strict=True)) / sum((a - x) ** 2 for a in xs)


def rows(given: argparse.Namespace) -> Iterator[Row]:
    """All of them, or those of some shapes."""
    if not given.shape:
        yield from broad(given.book)
        text = layout(*THOUSAND).text()
        yield timed("bays, 1000 boards: check", lambda: median(partial(check, text)), 10_000)
    for shape, sizes in {**SHAPES, "grid": GRID}.items():
        if not given.shape or shape in given.shape:
            yield from growing(shape, sizes, given.book and shape != "grid")


def main() -> int:
    """Measure and print the table, each row as it is found."""
    parser = argparse.ArgumentParser(prog="bench.run", description="Speed of the whole house.")
    parser.add_argument("--json", type=Path, help="write the rows into this file too")
    parser.add_argument(
        "--no-book", dest="book", action="store_false", help="leave out the whole books, which are slow"
    )
    parser.add_argument("--shape", action="append", choices=[*SHAPES, "grid"], help="growth of this shape only")
    given = parser.parse_args()
    unit = reference()
    print(f"reference sum {unit:.2f} ms of processor time")
    print(f"{'':64}{'found':>10}{'aim':>8}{'x reference':>13}")
    found = []
    for row in rows(given):
        found.append(row)
        times = "" if row.times is None else f"{row.times:.1f}"
        mark = "" if row.aim is None or row.found <= row.aim else "  over its aim"
        aim = "" if row.aim is None else f"{row.aim:g}"
        print(f"{row.what:64}{row.found:10.2f}{aim:>8}{times:>13}{mark}", flush=True)
    if given.json:
        given.json.write_text(json.dumps({"reference_ms": unit, "rows": [asdict(row) for row in found]}, indent=1))
    return 0


if __name__ == "__main__":
    sys.exit(main())
