"""The stamp of a set of papers: which of them belong together.

All papers are made from one book, and book.json tells all of it; so its text, in short, is the stamp that each paper
carries: book.json and parts.csv in a field, the model beside its version, a PDF among its keywords. It is looked for as
plain bytes, the same way in each. Two papers of one stamp were made of the same piece, shop, made file and figures.
"""

import hashlib
import json
import re
from typing import Any

SIGN = "dryfit-set:"
_STAMP = re.compile(rb"dryfit-set:[0-9a-f]{12}")


def stamp_of(data: dict[str, Any]) -> str:
    """The stamp of a book as plain data."""
    text = json.dumps(data, ensure_ascii=False, allow_nan=False, separators=(",", ":"))
    return SIGN + hashlib.sha256(text.encode()).hexdigest()[:12]


def stamp_in(paper: bytes) -> str:
    """The stamp that a paper carries; "" where there is none."""
    found = _STAMP.search(paper)
    return found[0].decode() if found else ""
