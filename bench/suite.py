"""Where the tests' time goes: by room, by file, and the dearest of those that `start.py test --fast` runs.

    python3 -m bench.suite [--fast] [--over SECONDS] [--keep FILE] [PYTEST ARGUMENTS]

One test after another in one process. A test's time is the processor's, of this process and of what it started and
waited for, with the fixtures that the test is the first to ask for; so what runs beside it weighs little. Beside it
stands the clock's, which tells of waiting, and of a browser that outlives the test or a server that was forked for it.
"""

import argparse
import os
import time
from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path

import pytest

LEFT_OUT = ("slow", "browser")  # marks; `--fast` leaves these out
FILES = 25  # printed, the dearest first


def dearest(times: Mapping[str, float]) -> list[tuple[str, float]]:
    """What takes longest comes first."""
    return sorted(times.items(), key=lambda one: -one[1])


@dataclass
class Times:
    """A plug-in of pytest: seconds by the processor and by the clock of each test, by its name."""

    processor: dict[str, float] = field(default_factory=dict)
    clock: dict[str, float] = field(default_factory=dict)
    left_out: set[str] = field(default_factory=set)
    keep: Path | None = None

    @pytest.hookimpl(wrapper=True, tryfirst=True)
    def pytest_runtest_protocol(self, item: pytest.Item) -> Iterator[None]:
        """Take the times of one test, its fixtures and what clears up after it."""
        if any(item.get_closest_marker(name) for name in LEFT_OUT):
            self.left_out.add(item.nodeid)
        began = sum(os.times()[:4]), time.monotonic()
        done = yield
        self.processor[item.nodeid] = sum(os.times()[:4]) - began[0]
        self.clock[item.nodeid] = time.monotonic() - began[1]
        if self.keep is not None:
            with self.keep.open("a", encoding="utf-8") as kept:
                kept.write(f"{self.processor[item.nodeid]:.3f}\t{self.clock[item.nodeid]:.3f}\t{item.nodeid}\n")
        return done

    def told(self, over: float) -> Iterator[str]:
        """What is printed; single tests from `over` seconds on."""
        for words, parts in (("room", slice(0, 2)), ("file", slice(0, None))):
            sums, waits = defaultdict[str, float](float), defaultdict[str, float](float)
            for name, seconds in self.processor.items():
                place = "/".join(name.split("::")[0].split("/")[parts])
                sums[place] += seconds
                waits[place] += self.clock[name]
            yield f"\n  processor     clock  {words}"
            yield from (f"{took:9.1f} s {waits[place]:7.1f} s  {place}" for place, took in dearest(sums)[:FILES])
        yield "\n  processor     clock  tests not left out by --fast"
        for name, took in dearest(self.processor):
            if max(took, self.clock[name]) >= over and name not in self.left_out:
                yield f"{took:9.1f} s {self.clock[name]:7.1f} s  {name}"
        both = (sum(times.values()) for times in (self.processor, self.clock))
        yield "\n{:9.1f} s {:7.1f} s  {} tests in all".format(*both, len(self.processor))


def main() -> None:
    """Run the tests and print."""
    parser = argparse.ArgumentParser(prog="bench.suite", description="Where the tests' time goes.")
    parser.add_argument("--fast", action="store_true", help="what `start.py test --fast` runs, as it runs it")
    parser.add_argument("--over", type=float, default=2.0, metavar="SECONDS", help="tests are named from here on")
    parser.add_argument("--keep", type=Path, metavar="FILE", help="add each test's two times to it, once it has run")
    own, rest = parser.parse_known_args()
    if own.fast:
        os.environ.setdefault("HYPOTHESIS_PROFILE", "fast")
        rest = ["-m", " and ".join(f"not {name}" for name in LEFT_OUT), *rest]
    times = Times(keep=own.keep)
    pytest.main(["-q", "-p", "no:xdist", *rest], plugins=[times])
    print(*times.told(own.over), sep="\n")


if __name__ == "__main__":
    main()
