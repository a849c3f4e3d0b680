"""The whole schemas and pages that are not in git: made where they are out of date, carried by each release.

    python -m tools.made

writes them into docs/made/. `tools.build` calls it and tells, by what they are made from, when they are stale.
"""

import sys
from collections.abc import Mapping
from pathlib import Path

from dryfit.book import job_schema
from dryfit.documents.bookschema import book_schema_text
from tools.build import HOME, MADE, made_stamp
from tools.changelog import compiled
from tools.contracts import as_json
from tools.findings import findings_page
from tools.openapi import text
from tools.reference import job_file_reference
from tools.sentences import sentences_page


def whole() -> Mapping[str, bytes]:
    """Every whole schema and page by its name in docs/made/."""
    schema = job_schema()
    return {
        "job.schema.json": as_json(schema),
        "book.schema.json": book_schema_text().encode(),
        "openapi.json": text().encode(),
        "job-file-reference.md": job_file_reference(schema).encode(),
        "CHANGELOG.md": compiled().encode(),
        "findings.md": findings_page(HOME / "docs" / "findings").encode(),
        "sentences.md": sentences_page().encode(),
    }


def put(pages: Mapping[str, bytes], folder: Path) -> None:
    """Write what differs from what is there, so that a file's time tells when it changed."""
    for name, data in pages.items():
        place = folder / name
        place.parent.mkdir(parents=True, exist_ok=True)
        if not place.exists() or place.read_bytes() != data:
            place.write_bytes(data)


def main() -> int:
    """Write them, and the stamp of what they were made from last of all."""
    stamp = made_stamp()  # taken before: what changes meanwhile makes them stale again
    pages = whole()
    put(pages, MADE)
    for left in set(MADE.iterdir()) - {MADE / name for name in pages}:
        left.unlink()
    (MADE / ".stamp").write_text(stamp, encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
