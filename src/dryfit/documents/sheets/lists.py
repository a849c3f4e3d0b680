"""The lists: boards with their blanks, blanks to order, joints, hardware, findings with what to do."""

from collections import Counter
from collections.abc import Iterable, Iterator

from ...findings import Finding, Severity
from ...joints.registry import KINDS
from ...piece.model import DATUM_END, FAR_END, Joint, Part
from ..lettering import printable
from ..looks import Desk
from ..naming import angle, plural, position, printed_units, run
from ..symbols import Tag
from .facts import scribe_of, tag_of, thickness_words, timber_words
from .fooling import fooling
from .frame import BARS
from .gluing import frames_list, glue_list
from .prose import Run, strong
from .registry import Draft, sheet
from .sheaf import Sheaf
from .table import Cell, Column, Row, bold

MOST_FOOLING = 12
_SAID = {Severity.STOP: "STOP", Severity.WARN: "LOOK", Severity.NOTE: "note"}


@sheet("lists", paper="workshop", order=20)
def lists(desk: Desk) -> Iterator[Draft]:
    """The lists, on as many sheets as they take; findings first while there are stops."""
    sheaf = Sheaf(
        desk,
        letter=BARS,
        title="what to order and make",
        says="everything to have in the shop before the first cut · lengths along the grain, first",
        kind="lists",
        number="L",
    )
    if desk.book.stops:
        _findings(desk, sheaf)
    _boards(desk, sheaf)
    _blanks(desk, sheaf)
    _joints(desk, sheaf)
    _hardware(desk, sheaf)
    glue_list(desk, sheaf)
    frames_list(desk, sheaf)
    _fooling(desk, sheaf)
    if not desk.book.stops:
        _findings(desk, sheaf)
    yield from sheaf.drafts()


# --- boards --------------------------------------------------------------------------------------


def _boards(desk: Desk, sheaf: Sheaf) -> None:
    columns = [
        Column(title="", wide=8.0),
        Column(title="board", wide=26.0),
        Column(title="long", wide=15.0),
        Column(title="wide", wide=13.5),
        Column(title="thick", wide=11.5),
        Column(title="blank", wide=41.0),
        Column(title="kg", wide=8.5),
        Column(title="what is in it", wide=30.5),
        Column(title="length is", wide=17.0),
        Column(title="have", wide=9.0),
    ]
    sheaf.table("boards", columns, [_board(desk, part) for part in _in_order(desk)])
    if desk.book.mass_kg:
        total = sum(desk.book.mass_kg.values())
        text = f"All boards together {total:.1f} kg after cutting, at 12 % moisture. Blank = finished length and trim"
        sheaf.paragraphs("", [[Run(f"{text} at each end, and what is left long. Letters I and O are not used.")]])


def _in_order(desk: Desk) -> list[Part]:
    return sorted(desk.book.piece.parts, key=lambda part: (len(part.mark), part.mark))


def _board(desk: Desk, part: Part) -> Row:
    board, rough = part.board, part.blank
    mass = desk.book.mass_kg.get(part.id)
    thick = thickness_words(board)
    return (
        bold(part.mark),
        Cell(text=printable(part.id)),
        Cell(text=position(part.length)),
        Cell(text=position(board.depth)),
        Cell(text=thick if len(thick) < 6 else f"{position(board.thickest)} …"),
        Cell(text=f"{position(rough.length)} × {position(rough.width)} × {position(rough.thickness)}"),
        Cell(text="" if mass is None else f"{mass:.1f}"),
        Cell(text=_contents(part)),
        Cell(tags=(_length_tag(desk, part),)),
        Cell(tick=True),
    )


def _contents(part: Part) -> str:
    """What is cut in a board, by its plain noun: "3 slots, 1 housing"."""
    kinds = Counter(cut.kind.rsplit(" ", 1)[-1] for cut in part.cuts if not cut.end)
    return ", ".join(plural(count, kind) for kind, count in kinds.items()) or "ends only"


def _length_tag(desk: Desk, part: Part) -> tuple[Tag, str]:
    for end in (DATUM_END, FAR_END):
        for cut in part.cuts:
            if cut.end == end and cut.size_is != "FIXED":
                kind, text = tag_of(desk, cut, scribe_of(part, end))
                return kind, text.removeprefix("LEAVE ")
    return "FIXED", "FIXED"


# --- blanks to order -----------------------------------------------------------------------------


def _blanks(desk: Desk, sheaf: Sheaf) -> None:
    columns = [
        Column(title="timber", wide=50.0),
        Column(title="thick × wide", wide=24.0),
        Column(title="lengths, longest first", wide=66.0),
        Column(title="pieces", wide=13.0),
        Column(title="in all", wide=18.0),
        Column(title="have", wide=9.0),
    ]
    found: dict[tuple[str, float, float], list[float]] = {}
    for part in desk.book.piece.parts:
        key = (timber_words(desk, part.board), round(part.blank.thickness, 2), round(part.blank.width, 2))
        found.setdefault(key, []).append(part.blank.length)
    rows = [row for key, lengths in sorted(found.items()) for row in _blank(key, sorted(lengths, reverse=True))]
    sheaf.table("blanks to order", columns, rows)


def _blank(key: tuple[str, float, float], lengths: list[float]) -> Iterable[Row]:
    """One row for a section; further lengths on rows of their own."""
    timber, thick, wide = key
    row = 7 if printed_units() == "mm" else 4  # fractions take more room
    lots = [lengths[i : i + row] for i in range(0, len(lengths), row)]
    for number, lot in enumerate(lots):
        words = " · ".join(position(length) for length in lot)
        if number:
            yield Cell(), Cell(), Cell(text=words), Cell(), Cell(), Cell()
        else:
            yield (
                Cell(text=printable(timber)),
                bold(f"{position(thick)} × {position(wide)}"),
                Cell(text=words),
                Cell(text=str(len(lengths))),
                Cell(text=run(sum(lengths))),
                Cell(tick=True),
            )


# --- joints --------------------------------------------------------------------------------------


def _joints(desk: Desk, sheaf: Sheaf) -> None:
    columns = [
        Column(title="joint", wide=16.0),
        Column(title="between", wide=52.0),
        Column(title="kind", wide=27.0),
        Column(title="angle", wide=14.0),
        Column(title="made so that", wide=53.0),
        Column(title="dry fit", wide=18.0),
    ]
    rows = [_joint(desk, joint) for joint in desk.book.piece.joints]
    sheaf.table("joints", columns, rows)


def _joint(desk: Desk, joint: Joint) -> Row:
    return (
        bold(printable(_marks(desk, joint))),
        Cell(text=printable(", ".join(joint.key))),
        Cell(text=joint.kind),
        Cell(text=angle(joint.meeting.angle)),
        Cell(text=printable(joint.hand.name)),
        Cell(tick=True),
    )


def _marks(desk: Desk, joint: Joint) -> str:
    """The letters of the two bodies: "A × B", "A × wall"."""
    bodies = (joint.meeting.a.body, joint.meeting.b.body)
    return " × ".join(desk.marks.get(body, body) for body in bodies)


def _hardware(desk: Desk, sheaf: Sheaf) -> None:
    needed: Counter[tuple[str, str]] = Counter()
    used: dict[tuple[str, str], list[str]] = {}
    for joint in desk.book.piece.joints:
        for item in KINDS[joint.kind].hardware(joint):
            needed[item.name, item.size] += item.count
            used.setdefault((item.name, item.size), []).append(_marks(desk, joint))
    if not needed:
        return
    columns = [
        Column(title="hardware", wide=48.0),
        Column(title="size", wide=56.0),
        Column(title="for", wide=52.0),
        Column(title="needed", wide=15.0),
        Column(title="have", wide=9.0),
    ]
    rows = [
        (
            Cell(text=printable(name)),
            Cell(text=printable(size)),
            Cell(text=printable(", ".join(dict.fromkeys(used[name, size])))),
            bold(str(count)),
            Cell(tick=True),
        )
        for (name, size), count in needed.items()
    ]
    sheaf.table("hardware", columns, rows)


def _fooling(desk: Desk, sheaf: Sheaf) -> None:
    said = [[Run(printable(sentence))] for sentence in fooling(desk)]
    if len(said) > MOST_FOOLING:
        more = f"and {len(said) - MOST_FOOLING} more like these: go by the letters."
        said = [*said[:MOST_FOOLING], [Run(more)]]
    if said:
        sheaf.paragraphs("boards that will fool you", said)


# --- findings ------------------------------------------------------------------------------------


def _findings(desk: Desk, sheaf: Sheaf) -> None:
    findings = desk.book.findings
    if not findings:
        sheaf.paragraphs("findings", [[Run("Nothing was found that must change or should be looked at.")]])
        return
    stops = iter(range(1, len(findings) + 1))
    texts = [_finding(desk, one, next(stops) if one.severity is Severity.STOP else 0) for one in findings]
    sheaf.paragraphs("findings", texts)


def _finding(desk: Desk, finding: Finding, number: int) -> list[Run]:
    where = finding.where.joint or finding.where.boards
    marks = " × ".join(desk.marks.get(name, name) for name in where)
    word = _SAID[finding.severity] + (f" {number}" if number else "")
    runs = [strong(printable(f"{word} {marks}".strip())), Run(printable(f"{finding.says}."))]
    if finding.remedy:
        runs.append(Run(printable(f"What to do: {finding.remedy}.")))
    if finding.source:
        runs.append(Run(printable(f"({finding.source})")))
    return runs
