"""The card of the whole job: its tables one after the other, and its measures."""

from collections.abc import Iterator, Mapping
from dataclasses import replace

from pydantic import BaseModel

from ...job.edits import Sheet
from ...job.schema import FinishTable, JobTable, JointsTable, TimberTable, WallTable
from ...joints import KINDS
from ...lengths import MM_PER, figure, length_text
from ...places import Path
from ..answers import Card, Choice, Row
from ..drawn import Drawn
from ..levers import angles_in
from .common import table

BEGIN = "Nothing here has to be filled in to begin."


def job_card(drawn: Drawn, sheet: Sheet, revision: int) -> Card:
    """The job's tables one after the other; keys are paths from the file's top."""
    rows: list[Row] = []
    kinds = tuple(Choice(value=name, possible=True, why="") for name in KINDS)
    meetings = dict.fromkeys(("crossing", "end_on_face", "corner", "in_line"), kinds)
    tables: list[tuple[Path, type[BaseModel], Mapping[str, tuple[Choice, ...]]]] = [
        (("job",), JobTable, {}),
        *((timber.path, TimberTable, {}) for timber in drawn.job.timbers.values()),
        (("joints",), JointsTable, meetings),
        (("finish",), FinishTable, {}),
        (("wall",), WallTable, {}),
    ]
    for path, model, choices in tables:
        rows += [_within(row, path) for row in table(drawn, sheet, path, choices=choices).rows(model)]
    rows += _measure_rows(drawn, sheet)
    piece = drawn.piece
    return Card(
        revision=revision,
        what="job",
        title=drawn.job.title,
        says=f"{len(piece.boards)} boards, {len(piece.joints)} joints" if piece.boards else BEGIN,
        rows=tuple(rows),
        figures=(),
        joints=(),
        dimensions=(),
        users=(),
    )


def _within(row: Row, path: Path) -> Row:
    """A row under its table's name; the job's own values need none."""
    name = "" if path == ("job",) else f"{' '.join(map(str, path[1:] or path))}: "
    return replace(row, key=(*path, *row.key), label=f"{name}{row.label}")


def _measure_rows(drawn: Drawn, sheet: Sheet) -> Iterator[Row]:
    angles = angles_in(drawn.text)
    for name, value in drawn.job.measures.items():
        path, angle = ("measures", name), name in angles
        seen = value / MM_PER[drawn.job.units] if angle else value
        yield Row(
            key=path,
            label=name,
            written=sheet.spans.written(path),
            value=round(seen, 6) + 0.0,
            shown=figure(seen, 0.01) if angle else length_text(seen, drawn.job.units),
            unit="deg" if angle else "mm",
            default="",
            sentence=f"{'An angle' if angle else 'A measure'}: all that uses it follows.",
            input="length",
            path=path,
        )
