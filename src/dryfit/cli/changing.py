"""`dryfit change`: what differs between two jobs, or a book that was made and a job, in wood, lists and order.

Figures are in mm, as book.json has them, whatever units the job is in: two books are compared, not two papers.
"""

import json
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

from .telling import say
from .working import book_of, mistake_in

if TYPE_CHECKING:
    from ..documents.changed import ChangedCut, ChangedFigure, ChangedPart, Changes

WORDS = {"between_faces": "between the boards", "lean": "lean", "across": "across", "deep": "deep", "stop": "stops"}
DEGREES = ("between_faces", "lean")
LEFT_OUT = ("glue-ups", "coats", "how it is carried and hung", "hours and price")
NOT = {"buying": "what to order", "setups": "the set-ups", "order": "the order of putting it together"}


def change(old: Path, new: Path, shop: Path | None) -> bool:
    """Print what differs; whether wood that is cut already is concerned.

    Raises:
        JobError: a file cannot be used.
    """
    from ..documents.changed import changes

    found = changes(_data(old, shop), _data(new, shop))
    for line in lines(found, old, new):
        say(line)
    return any(part.made for part in found.parts)


def _data(path: Path, shop: Path | None) -> dict[str, Any]:
    """A book's data: read, where it was made, or made of a job and of what is recorded beside it."""
    if path.suffix.lower() != ".json":
        from ..documents.bookjson import book_data

        return book_data(book_of(path, shop))
    try:
        data = json.loads(path.read_text(encoding="utf-8"))
    except (OSError, UnicodeDecodeError, json.JSONDecodeError) as error:
        raise mistake_in(path, f"cannot be read: {error}", "name a job file, or the book.json of one") from None
    if not isinstance(data, dict) or not {"parts", "setups", "studies", "findings"} <= set(data):
        raise mistake_in(path, "is no book.json", "name a job file, or the book.json of one")
    return data


def lines(found: "Changes", old: Path, new: Path) -> Iterator[str]:
    """All that is told, cut wood first."""
    yield f"From {old} to {new}, in mm and degrees:"
    if not found.any:
        yield "  nothing of the piece differs"
    cut = [part for part in found.parts if part.made]
    if cut:
        yield ""
        yield "IN WOOD THAT IS CUT ALREADY"
        for part in cut:
            yield from _part(part)
    rest = [part for part in found.parts if not part.made]
    if rest:
        yield ""
        yield "Parts; their sheets are to be printed anew"
        for part in rest:
            yield from _part(part)
    for title, rows in (
        ("To order", [f"{_sign(row.how)} {row.count} x {_row(row.what, row.sizes)}" for row in found.bought]),
        ("Set-ups", [f"{_sign(how)} {says}" for how, says in found.setups]),
        ("Findings", [f"{_sign(how)} {says}" for how, says in found.findings]),
    ):
        if rows:
            yield ""
            yield title
            yield from (f"  {row}" for row in rows)
    if found.order:
        before, after = (step or "nothing more" for step in found.order)
        yield ""
        yield f"The order of putting it together differs from here on: {before}; now {after}"
    yield ""
    told = [*LEFT_OUT, *(NOT[name] for name in found.not_told)]
    yield f"Not compared: {', '.join(told)}."


def _sign(how: str) -> str:
    return "+" if how == "new" else "-"


def _row(what: str, sizes: tuple[float, ...]) -> str:
    return f"{what} {' x '.join(f'{size:g}' for size in sizes)}".strip()


def _part(part: "ChangedPart") -> Iterator[str]:
    letter = part.mark if part.how == "new" or part.mark == part.before else f"{part.before}, now {part.mark}"
    sizes = "; ".join(_figure(size) for size in part.sizes)
    said = {"new": "new", "gone": "gone", "changed": ""}[part.how]
    yield f"  {letter} {part.name}: {', '.join(filter(None, (said, sizes)))}".rstrip(": ")
    for cut in part.cuts:
        yield f"      {_cut(cut)}"


def _cut(cut: "ChangedCut") -> str:
    made = "CUT: " if cut.made else ""
    if cut.how != "changed":
        return f"{made}{cut.key}: {cut.how}"
    return f"{made}{cut.key}: {'; '.join(map(_figure, cut.figures))}"


def _figure(one: "ChangedFigure") -> str:
    before, after = ("none" if value is None else f"{value:g}" for value in (one.before, one.after))
    word = f"on the {one.on}" if one.word == "position" else WORDS.get(one.word, one.word)
    return f"{word} {before} > {after}{'°' if one.word in DEGREES else ''}"
