"""Stops `dryfit book` for good at seeded instants and looks at what is in the folder: never two states unsaid.

    python -m tests.documents.kills 100 [SEED]

Two jobs take turns in one folder, so that each run replaces the papers of the other; a run begins where the one before
was stopped. Three of ten are stopped anywhere in the run, the others within 30 ms of the moment at which the last paper
is made: there the papers take their places. After each the papers are held against those of undisturbed runs.
"""

import random
import re
import subprocess
import sys
import tempfile
import time
from collections import Counter
from dataclasses import dataclass
from pathlib import Path

from dryfit.book.demos import demo_text
from dryfit.documents.folder import ASIDE, NOTE, standing
from dryfit.documents.writers import WRITERS

FILES = tuple(writer.makes for writer in WRITERS.values() if not writer.extra)
MINE = "notes.txt"
IN_PLACE = 0.03  # seconds from the last paper's making until it stands, about


@dataclass(frozen=True)
class Verdict:
    """What a folder looks like after a stop.

    Attributes:
        says: "none", "first", "second", "said to be mixed", or "MIXED AND NOT SAID".
    """

    says: str

    @property
    def good(self) -> bool:
        """Whether a maker knows what he has before him."""
        return self.says != "MIXED AND NOT SAID"


def book(job, folder):
    return [sys.executable, "-m", "dryfit", "book", str(job), "--out", str(folder)]


def jobs(folder):
    """Two jobs that differ in their title, and so in every paper."""
    text = demo_text("step-shelf")
    changed = re.sub(r"(?m)^(title\s*= )\S.*$", r'\1"another"', text, count=1)
    assert changed != text
    made = []
    for name, words in (("first", text), ("second", changed)):
        path = folder / f"{name}.toml"
        path.write_text(words, encoding="utf-8")
        made.append(path)
    return made


def undisturbed(job, folder):
    subprocess.run(book(job, folder), capture_output=True, check=False)
    return {name: (folder / name).read_bytes() for name in FILES}


def verdict(folder, sets):
    """How the folder stands: `sets` has the papers of each job."""
    there = {name: (folder / name).read_bytes() for name in FILES if (folder / name).exists()}
    for name, papers in (("none", {}), *sets.items()):
        if there == papers:
            return Verdict(name)
    halves = [name for name, data in there.items() if all(data != papers[name] for papers in sets.values())]
    said = standing(folder) is not None and not halves
    return Verdict("said to be mixed" if said else "MIXED AND NOT SAID")


def stopped(job, folder, rng):
    """Run it and stop it for good."""
    anywhere = rng.random() < 0.3
    with subprocess.Popen(book(job, folder), stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True) as run:
        if anywhere:
            time.sleep(rng.uniform(0.0, 2.0))
        else:
            for line in run.stderr:
                if "assembly.pdf is made" in line:
                    break
            time.sleep(rng.uniform(0.0, IN_PLACE))
        run.kill()
        run.stderr.read()


def stops(count, seed, folder):
    """The verdicts of so many stops, and of the run after them that was left alone."""
    rng = random.Random(seed)
    both = jobs(folder)
    sets = {job.stem: undisturbed(job, folder / f"{job.stem} whole") for job in both}
    out = folder / "out"
    out.mkdir()
    (out / MINE).write_text("mine", encoding="utf-8")
    seen = []
    for number in range(count):
        stopped(both[number % 2], out, rng)
        seen.append(verdict(out, sets))
        assert (out / MINE).read_text(encoding="utf-8") == "mine"
    last = both[count % 2]
    subprocess.run(book(last, out), capture_output=True, check=False)
    assert verdict(out, sets).says == last.stem
    assert sorted(path.name for path in out.iterdir()) == sorted([*FILES, MINE]), f"no {NOTE}, nothing {ASIDE}"
    return seen


def main():
    count, seed = int(sys.argv[1]), sys.argv[2] if len(sys.argv) > 2 else "kills"
    with tempfile.TemporaryDirectory() as folder:
        seen = stops(count, seed, Path(folder))
    for says, times in sorted(Counter(one.says for one in seen).items()):
        print(f"{times:5}  {says}")
    return 0 if all(one.good for one in seen) else 1


if __name__ == "__main__":
    sys.exit(main())
