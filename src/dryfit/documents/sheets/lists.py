"""The lists: boards, blanks, hardware and glue to order; set-ups and joints to tick off; findings with what to do."""

import re
from collections import Counter
from collections.abc import Iterator

from ...findings import Finding, Severity
from ...joints.registry import KINDS
from ...piece.model import DATUM_END, FAR_END, Joint, Part
from ..lettering import printable
from ..looks import Desk
from ..naming import angle, plural, position, run, thickness
from ..symbols import Tag
from .facts import scribe_of, stock_words, tag_of, thickness_words
from .fooling import fooling
from .frame import BARS
from .gluing import frames_list, glue_list
from .prose import KEPT, Run, strong
from .registry import Draft, sheet
from .setups import setup_list
from .sheaf import Sheaf
from .table import Cell, Column, Row, bold

TITLE = "what to order and make"
SAYS = "everything to have in the shop before the first cut · lengths along the grain, first"
NO_FINDINGS = "nothing was found that must change"
AFTER = (5.0, 3.6)  # below a table, the second where it saves a sheet
SAME = 0.005
MOST_FOOLING = 12
ONE_IN, LEAST_SPARE = 10, 2  # spare hardware (common practice)
_SAID = {Severity.STOP: "STOP", Severity.WARN: "LOOK", Severity.NOTE: "note"}


@sheet("lists", paper="workshop", order=20)
def lists(desk: Desk) -> Iterator[Draft]:
    """The lists, on as many sheets as they take; set closer where that saves a sheet with little on it."""
    made = [_sheaf(desk, after).drafts() for after in AFTER]
    yield from min(made, key=len)


def _sheaf(desk: Desk, after: float) -> Sheaf:
    """All lists; findings first while there are stops."""
    none = "" if desk.book.findings else f" · {NO_FINDINGS}"
    sheaf = Sheaf(desk, letter=BARS, title=TITLE, says=SAYS + none, kind="lists", number="L", after=after)
    if desk.book.stops:
        _findings(desk, sheaf)
    _boards(desk, sheaf)
    _blanks(desk, sheaf)
    _hardware(desk, sheaf)
    glue_list(desk, sheaf)
    setup_list(desk, sheaf)
    _joints(desk, sheaf)
    frames_list(desk, sheaf)
    _fooling(desk, sheaf)
    if desk.book.findings and not desk.book.stops:
        _findings(desk, sheaf)
    return sheaf


# --- boards --------------------------------------------------------------------------------------


def _boards(desk: Desk, sheaf: Sheaf) -> None:
    columns = [
        Column(title="", wide=7.0),
        Column(title="board", wide=28.0),
        Column(title="long", wide=15.2),
        Column(title="wide", wide=13.4),
        Column(title="thick", wide=19.8),
        Column(title="blank", wide=28.6),
        Column(title="kg", wide=9.0),
        Column(title="what is in it", wide=32.6),
        Column(title="length is", wide=17.4),
        Column(title="have", wide=9.0),
    ]
    sheaf.table("boards", columns, [_board(desk, part) for part in _in_order(desk)], _weighed(desk))


def _weighed(desk: Desk) -> list[Run]:
    """What all boards weigh, and what a blank is."""
    total = sum(desk.book.mass_kg.values())
    weight = [Run(f"All boards together {total:.1f} kg after cutting, at 12 % moisture.")] if total else []
    planed = any(part.blank.thickness > part.board.thickest + SAME for part in desk.book.piece.parts)
    more = f" and, before planing, ×{KEPT}thickness" if planed else ""
    blank = f"Blank: finished length, trim at each end and what is left long, ×{KEPT}width{more}."
    return [*weight, Run(f"{blank} Letters I and O are not used.")]


def _in_order(desk: Desk) -> list[Part]:
    return sorted(desk.book.piece.parts, key=lambda part: (len(part.mark), part.mark))


def _board(desk: Desk, part: Part) -> Row:
    board = part.board
    mass = desk.book.mass_kg.get(part.id)
    return (
        bold(part.mark),
        Cell(text=printable(part.id)),
        Cell(text=position(part.length)),
        Cell(text=position(board.depth)),
        Cell(text=_thick(part)),
        Cell(text=_blank_words(part)),
        Cell(text="" if mass is None else f"{mass:.1f}"),
        Cell(text=_contents(part)),
        Cell(tags=(_length_tag(desk, part),)),
        Cell(tick=True),
    )


def _thick(part: Part) -> str:
    """From the datum end to the far end: "24", "24.1 to 23.8"."""
    ends = [part.board.thickness_at(a) for a in part.long]
    sizes = list(dict.fromkeys(map(thickness, ends)))
    return thickness_words(part.board) if len(sizes) == 1 else " to ".join(sizes)


def _blank_words(part: Part) -> str:
    """Length and width to saw it to; its thickness too where it is planed after that."""
    rough, planed = part.blank, part.blank.thickness > part.board.thickest + SAME
    sizes = (rough.length, rough.width, *([rough.thickness] if planed else []))
    return " × ".join(map(position, sizes))


def _contents(part: Part) -> str:
    """What is cut in a board, by its plain noun: "3 slots, 1 housing, 4 holes"."""
    kinds: Counter[str] = Counter()
    for cut in part.cuts:
        if not cut.end:
            noun = cut.kind.rsplit(" ", 1)[-1]
            kinds[noun] += len(cut.shapes) if noun.endswith("s") else 1  # a row of holes is one cut
    return ", ".join(plural(count, kind).replace(" ", KEPT) for kind, count in kinds.items()) or "ends only"


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
        key = (stock_words(desk, part.board), round(part.blank.thickness, 2), round(part.blank.width, 2))
        found.setdefault(key, []).append(part.blank.length)
    rows = [_blank(key, sorted(lengths, reverse=True)) for key, lengths in sorted(found.items())]
    sheaf.table("blanks to order", columns, rows)


def _blank(key: tuple[str, float, float], lengths: list[float]) -> Row:
    """One row for a section."""
    timber, thick, wide = key
    return (
        Cell(text=printable(timber)),
        bold(f"{position(thick)} × {position(wide)}"),
        Cell(text=" · ".join(position(length) for length in lengths)),
        Cell(text=str(len(lengths))),
        Cell(text=run(sum(lengths))),
        Cell(tick=True),
    )


# --- joints --------------------------------------------------------------------------------------


def _joints(desk: Desk, sheaf: Sheaf) -> None:
    """Joints by their letters, two side by side, a box each for the dry fit."""
    columns = [
        Column(title="joint", wide=14.4),
        Column(title="kind", wide=20.4),
        Column(title="angle", wide=11.6),
        Column(title="made so that", wide=32.8),
        Column(title="fits", wide=7.8),
    ]
    joints = sorted(desk.book.piece.joints, key=lambda joint: [_placed(mark) for mark in _both(desk, joint)])
    if joints:
        sheaf.tables_abreast("joints", columns, [_joint(desk, joint) for joint in joints], 2)


def _placed(mark: str) -> tuple[int, str]:
    """Where a letter stands among others: A to Z, then A1 and so on."""
    return len(mark), mark


def _joint(desk: Desk, joint: Joint) -> Row:
    return (
        bold(printable(" × ".join(_both(desk, joint)))),
        Cell(text=joint.kind),
        Cell(text=angle(joint.meeting.angle)),
        Cell(text=printable(_lettered(desk, joint))),
        Cell(tick=True),
    )


def _both(desk: Desk, joint: Joint) -> tuple[str, str]:
    """The letters of the two bodies: A, B; of what has none its name: A, wall."""
    first, second = (desk.marks.get(side.body, side.body) for side in (joint.meeting.a, joint.meeting.b))
    return first, second


def _lettered(desk: Desk, joint: Joint) -> str:
    """How a joint is made, its boards by their letters: "A opens to the front"."""
    said, front = joint.hand.name, joint.hand.front
    if front in desk.marks and said.startswith(front):
        return desk.marks[front] + said.removeprefix(front)
    names = sorted({joint.meeting.a.body, joint.meeting.b.body} & set(desk.marks), key=len, reverse=True)
    for number, name in enumerate(names):
        said = re.sub(rf"(?<!\w){re.escape(name)}(?!\w)", f"\0{number}", said, count=1)
    for number, name in enumerate(names):
        said = said.replace(f"\0{number}", desk.marks[name])
    return said


# --- hardware ------------------------------------------------------------------------------------


def _hardware(desk: Desk, sheaf: Sheaf) -> None:
    """What to buy or make, with spares."""
    needed: Counter[tuple[str, str]] = Counter()
    used: dict[tuple[str, str], list[str]] = {}
    for joint in desk.book.piece.joints:
        for item in KINDS[joint.kind].hardware(joint):
            needed[item.name, item.size] += item.count
            used.setdefault((item.name, item.size), []).append(" × ".join(_both(desk, joint)))
    if not needed:
        return
    columns = [
        Column(title="hardware", wide=46.0),
        Column(title="size", wide=46.0),
        Column(title="for", wide=46.0),
        Column(title="needed", wide=15.0),
        Column(title="take", wide=18.0),
        Column(title="have", wide=9.0),
    ]
    rows = [
        (
            Cell(text=printable(name)),
            Cell(text=printable(size)),
            Cell(text=printable(", ".join(dict.fromkeys(used[name, size])))),
            Cell(text=str(count)),
            bold(f"{count + spares(count)}"),
            Cell(tick=True),
        )
        for (name, size), count in needed.items()
    ]
    says = (
        f"Take: needed and spares, one in {ONE_IN}, {LEAST_SPARE} at least (common practice); buy the pack that holds"
    )
    sheaf.table("hardware", columns, rows, [Run(f"{says} as many.")])


def spares(count: int) -> int:
    """How many more of a thing to take than are needed (common practice)."""
    return max(LEAST_SPARE, -(-count // ONE_IN))


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
