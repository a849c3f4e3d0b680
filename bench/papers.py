"""Whether the papers say enough: parts of many random pieces built again from their sheets, and every sum added.

    python3 -m bench.papers [--pieces 100] [--first 12] [--keep FOLDER]

The pieces are those of `tests/documents/drawn_jobs.py`, by their numbers; the tests have the first twelve. What is
wrong is printed with the piece's number, and its paper is kept where that is asked.
"""

import argparse
import sys
from pathlib import Path

from tests.documents.drawn_jobs import FAMILIES, printed
from tests.documents.laid_over import unlike
from tests.documents.sums_in_words import sums_in


def main() -> int:
    """Prove them one by one; 1 where anything is wrong."""
    parser = argparse.ArgumentParser(prog="bench.papers", description="Whether the papers say enough.")
    parser.add_argument("--pieces", type=int, default=100)
    parser.add_argument("--first", type=int, default=len(FAMILIES), help="number of the first piece")
    parser.add_argument("--keep", type=Path, help="folder for the papers that have a fault")
    given = parser.parse_args()
    parts = sums = wrong = 0
    for number in range(given.first, given.first + given.pieces):
        name, book, data = printed(number)
        printed.cache_clear()
        found, added = unlike(book, data), list(sums_in(data))
        found += [f"page {one.page}: {one.text} (off by {float(one.off):g})" for one in added if one.off]
        parts, sums, wrong = parts + len(book.piece.parts), sums + len(added), wrong + bool(found)
        print(f"{name}: {len(book.piece.parts)} parts, {len(added)} sums", *found, sep="\n    ", flush=True)
        if found and given.keep:
            given.keep.mkdir(parents=True, exist_ok=True)
            (given.keep / f"{number}.pdf").write_bytes(data)
    print(f"{given.pieces} pieces, {parts} parts, {sums} sums; {wrong} with a fault")
    return int(wrong > 0)


if __name__ == "__main__":
    sys.exit(main())
