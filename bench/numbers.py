"""How many numbers stand in the documents: one that was tried until a picture looked right is a rule that is missing.

    python3 -m bench.numbers [--files]

Counted is every number that is written down in src/dryfit/documents, but 0, 1, 2 and the sizes of paper (ISO 216): in
sums, fractions, tables, in text that is nothing but numbers, and in data files. What is worked out of others is none.
On 29 November 2026, before there was one way to place, break, dimension and label, they were 1676; the aim is a fifth.
"""

import argparse
import ast
import re
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

ROOM = Path(__file__).parents[1] / "src" / "dryfit" / "documents"
FREE = frozenset({0, 1, 2, 210, 297, 420})  # nothing, one, two; A4 and A3 in mm
DATA = (".csv", ".json", ".toml", ".txt")
_NUMBER = re.compile(r"(?<![\w.])\d+(?:\.\d+)?(?![\w.])")
_NOTHING_ELSE = re.compile(r"[\d\s.,;:/x+-]*\d[\d\s.,;:/x+-]*")


def numbers_in(path: Path) -> Iterator[float]:
    """The numbers of one file."""
    text = path.read_text(encoding="utf-8")
    found = _in_code(text) if path.suffix == ".py" else (float(one) for one in _NUMBER.findall(text))
    return (one for one in found if one not in FREE)


def _in_code(text: str) -> Iterator[float]:
    """Written as numbers, or as text that is nothing but numbers."""
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.Constant):
            if isinstance(node.value, int | float) and not isinstance(node.value, bool):
                yield float(node.value)
            elif isinstance(node.value, str) and _NOTHING_ELSE.fullmatch(node.value):
                yield from (float(one) for one in _NUMBER.findall(node.value))


def counts() -> dict[Path, int]:
    """How many each file holds, the fonts' licence left out."""
    files = (path for path in sorted(ROOM.rglob("*")) if path.suffix == ".py" or path.suffix in DATA)
    return {path.relative_to(ROOM): sum(1 for _ in numbers_in(path)) for path in files if path.name != "OFL.txt"}


def main() -> None:
    """Print them."""
    parser = argparse.ArgumentParser(prog="bench.numbers", description="Numbers that stand in the documents.")
    parser.add_argument("--files", action="store_true", help="by file, not by room")
    by_file = parser.parse_args().files
    found = counts()
    rooms = Counter[str]()
    for path, count in found.items():
        rooms[str(path) if by_file else str(path.parent)] += count
    for room, count in sorted(rooms.items(), key=lambda one: -one[1]):
        if count:
            print(f"{count:7} {room}")
    print(f"{sum(found.values()):7} in all")


if __name__ == "__main__":
    main()
