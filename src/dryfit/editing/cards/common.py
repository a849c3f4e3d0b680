"""What the cards share: a table of the file as rows, points as rows, timbers to choose from."""

from collections.abc import Iterator, Mapping
from typing import Any

from ...job.edits import TomlText
from ...job.tokens import names_boards
from ...lengths import length_text
from ...places import Path
from ..answers import Choice, Row
from ..drawn import Drawn
from .rows import Table


def table(
    drawn: Drawn,
    sheet: TomlText,
    path: Path,
    *,
    scope: Mapping[str, float] | None = None,
    holds: Mapping[str, tuple[Any, str]] | None = None,
    choices: Mapping[str, tuple[Choice, ...]] | None = None,
) -> Table:
    """The table at a path; with no scope of its own its arithmetic knows the measures."""
    return Table(
        drawn=drawn,
        sheet=sheet,
        path=path,
        scope=scope if scope is not None else drawn.job.measures,
        holds=holds or {},
        choices=choices or {},
    )


def timbers(drawn: Drawn) -> tuple[Choice, ...]:
    """The timbers of the job, each with what it is."""
    found = drawn.job.timbers.values()
    return tuple(
        Choice(value=timber.name, possible=True, why=f"{timber.species}, {length_text(timber.thickness)}")
        for timber in found
    )


def point_rows(
    drawn: Drawn, sheet: TomlText, table: Path, key: Path, word: str, point: tuple[float, float], sentence: str = ""
) -> Iterator[Row]:
    """The two coordinates of a point of the file."""
    for place, label, after in ((0, word, "from the left"), (1, f"{word}, level", "above the floor")):
        path = (*table, *key, place)
        text = sheet.get(path)
        hangs = f"As the file has it: {text}." if isinstance(text, str) and names_boards(text) else ""
        yield Row(
            key=(*key, place),
            label=label,
            written=sheet.spans.written(path),
            value=round(point[place], 6) + 0.0,
            shown=length_text(point[place], drawn.job.units),
            unit="mm",
            default="",
            sentence=" ".join(filter(None, (sentence if place == 0 else "", hangs))),
            input="length",
            path=path,
            after=after,
            from_="exception" if "except" in table else "",
        )
