"""Whether a change of the inside changed a word outside: what is told of many pieces, taken before, compared after.

    python3 -m bench.told take FILE [--faulty 100]        in the checkout before the change
    python3 -m bench.told compare FILE [--rules RULES]    in the one after

Of each piece, in mm and in inches: book.json, parts.csv, the lines of `check`, the text of each page of both papers
and its drawing. Pieces are the demos, the manual's examples, the layouts of the bench, and faulty ones drawn at random.

RULES is a JSON list of `{"where": pattern, "was": pattern, "now": pattern, "reason": words}`: a difference that one of
them matches whole is expected, and counted; any other fails. Stamps are left out, since they are made of all the rest.
"""

import argparse
import json
import re
import sys
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import replace
from hashlib import sha256
from pathlib import Path
from typing import Any

from hypothesis import HealthCheck, Phase, given, seed, settings
from hypothesis import strategies as st

from bench.layouts import layout
from dryfit.book import Book, build, read_job_text
from dryfit.book.demos import demo_text, demos
from dryfit.cli.findings import lines
from dryfit.cli.telling import looked_at
from dryfit.documents.bookjson import book_data
from dryfit.documents.display import Text
from dryfit.documents.looks import Desk
from dryfit.documents.sheets import SHEETS
from dryfit.documents.svg import svg
from dryfit.documents.tables import parts_csv
from dryfit.documents.workshop import paper_sheets
from dryfit.errors import JobError
from tests.property.faulty import FAMILIES
from tools.examples import EXAMPLES

SHAPES = ("bays", "ring", "star", "alike", "lattices")


def jobs(faulty: int) -> dict[str, str]:
    """Texts of jobs by name."""
    found = {name: demo_text(name) for name in demos()}
    found |= {f"{kind} {number}": one.text for kind, some in EXAMPLES.items() for number, one in enumerate(some)}
    found |= {shape: layout(shape, 12).text() for shape in SHAPES}
    return found | {f"faulty {number}": text for number, text in enumerate(_faulty(faulty))}


def _faulty(count: int) -> list[str]:
    found: list[str] = []
    every = list(HealthCheck)

    @seed(20)
    @settings(max_examples=count, database=None, deadline=None, phases=[Phase.generate], suppress_health_check=every)
    @given(st.one_of(*(family() for family in FAMILIES.values())))
    def draw(text: str) -> None:
        found.append(text)

    draw()
    return found[:count]


def told_of(text: str, *, drawn: bool = True) -> dict[str, Any]:
    """All that is told of a job, by what tells it; `drawn`, a stamp of each sheet's drawing too."""
    try:
        job = read_job_text(text)
    except JobError as error:
        return {"mistakes": [str(mistake) for mistake in error.mistakes]}
    return {units: _told_in(build(replace(job, units=units)), drawn=drawn) for units in ("mm", "in")}


def _told_in(book: Book, *, drawn: bool) -> dict[str, Any]:
    desk = Desk(book)
    told: dict[str, Any] = {
        "check": [*lines(book), *looked_at(book)],
        "parts.csv": parts_csv(book, desk).splitlines(),
        "book.json": {key: value for key, value in book_data(book, desk).items() if key != "stamp"},
    }
    for paper in dict.fromkeys(kind.paper for kind in SHEETS.values()):
        for number, (draft, display) in enumerate(paper_sheets(paper, book, desk=desk), 1):
            words = [item.text for item in display.items if isinstance(item, Text)]
            told[f"{paper} {number}"] = [draft.title, *words]
            if drawn:
                told[f"{paper} {number} drawn"] = sha256(svg(display).encode()).hexdigest()[:12]
    return json.loads(json.dumps(told))


def differences(was: Any, now: Any, where: str = "") -> Iterator[tuple[str, str, str]]:
    """Place, what stood there and what stands there now."""
    if isinstance(was, dict) and isinstance(now, dict):
        for key in dict.fromkeys((*was, *now)):
            yield from differences(was.get(key), now.get(key), f"{where}/{key}")
    elif isinstance(was, list) and isinstance(now, list) and len(was) == len(now):
        for number, (one, other) in enumerate(zip(was, now, strict=True)):
            yield from differences(one, other, f"{where}/{number}")
    elif was != now:
        yield where, json.dumps(was, ensure_ascii=False), json.dumps(now, ensure_ascii=False)


def _rule(rules: list[Mapping[str, str]], difference: tuple[str, str, str]) -> str:
    for rule in rules:
        patterns = (rule.get("where", ".*"), rule.get("was", ".*"), rule.get("now", ".*"))
        if all(re.fullmatch(pattern, said, re.DOTALL) for pattern, said in zip(patterns, difference, strict=True)):
            return rule["reason"]
    return ""


def main() -> int:
    """Take or compare."""
    parser = argparse.ArgumentParser(prog="bench.told", description="Whether a word outside has changed.")
    parser.add_argument("do", choices=["take", "compare"])
    parser.add_argument("file", type=Path)
    parser.add_argument("--faulty", type=int, default=12, help="pieces drawn at random")
    parser.add_argument("--rules", type=Path)
    parser.add_argument("--most", type=int, default=40, help="differences that are printed")
    given_ = parser.parse_args()
    if given_.do == "take":
        taken = {name: {"text": text, "told": told_of(text)} for name, text in jobs(given_.faulty).items()}
        given_.file.write_text(json.dumps(taken, ensure_ascii=False), encoding="utf-8")
        print(f"{len(taken)} pieces taken")
        return 0
    rules = json.loads(given_.rules.read_text(encoding="utf-8")) if given_.rules else []
    taken, counts, others = json.loads(given_.file.read_text(encoding="utf-8")), Counter[str](), 0
    for name, one in taken.items():
        for difference in differences(one["told"], told_of(one["text"])):
            reason = _rule(rules, difference)
            counts[reason] += 1
            if not reason:
                others += 1
                if others <= given_.most:
                    print(f"{name}{difference[0]}\n  was {difference[1]}\n  now {difference[2]}")
    for reason, count in sorted(counts.items()):
        print(f"{count:7} {reason or 'of no rule'}")
    print(f"{len(taken)} pieces compared")
    return int(others > 0)


if __name__ == "__main__":
    sys.exit(main())
