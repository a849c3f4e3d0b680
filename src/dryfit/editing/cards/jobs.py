"""The card of the whole job: its tables one after the other, its measures, and those it may have many of."""

from collections.abc import Iterator, Mapping
from dataclasses import replace

from pydantic import BaseModel

from ...job.edits import TomlText
from ...job.schema import FinishTable, JobTable, JointsTable, TimberTable, WallTable
from ...job.tables import One
from ...joints import KINDS
from ...lengths import MM_PER, figure, length_text
from ...places import Path
from ...studies import STUDIES
from ..answers import Card, Choice, Row
from ..drawn import Drawn
from ..levers import angles_in
from .common import table
from .listings import listings

BEGIN = "You can begin without filling anything in."


def job_card(drawn: Drawn, sheet: TomlText, revision: int) -> Card:
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
        *((("joints", kind), KINDS[kind].options, {}) for kind in _kinds(drawn)),
        *((path, model, {}) for path, model in _of_studies()),
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
        users=(),
        listings=tuple(listings(drawn, sheet)),
    )


def _kinds(drawn: Drawn) -> Iterator[str]:
    """The kinds of joint that are made here: their tables hold for all of a kind."""
    made = {joint.kind for joint in drawn.piece.joints if joint.meeting.form != "fixing"}
    return (kind for kind in KINDS if kind in made)


def _of_studies() -> Iterator[tuple[Path, type[BaseModel]]]:
    """The tables that studies own of which there is one."""
    for study in STUDIES.values():
        yield from (((owned.word,), owned.model) for owned in study.owns if isinstance(owned, One))


def _within(row: Row, path: Path) -> Row:
    """A row under its table's name; the job's own values need none."""
    name = "" if path == ("job",) else f"{' '.join(map(str, path[1:] or path))}: "
    return replace(row, key=(*path, *row.key), label=f"{name}{row.label}")


def _measure_rows(drawn: Drawn, sheet: TomlText) -> Iterator[Row]:
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
            sentence=f"{'An angle' if angle else 'A measure'}: everything that uses it follows.",
            input="length",
            path=path,
        )
