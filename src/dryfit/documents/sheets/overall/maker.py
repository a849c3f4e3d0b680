"""The overall sheet: the whole piece seen from the room, every board with its letter, where it stands and how high.

Positions run along the floor from the left end of the piece, heights from the floor; both are to faces, because
faces are what can be measured. Findings that stop the work stand on it, at their places; beside them what was looked
at and what was not, so that nothing is approved by silence.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from ....asking import in_words, open_in_words
from ....book.model import Book
from ....findings import Finding, Severity
from ....piece.model import Part
from ....sentences import Mass, Voice, told
from ...display import Draft, Item, extent, shifted
from ...lettering import kept, printable
from ...looks import Desk
from ...naming import plural, position, scale_words
from ...pages import joint as joint_place
from ...pages import listed, page_of
from ...pages import part as place_of
from ...sheet import sheet
from ...standard import A4, AIR, FIRST, NAME, SCALES, STEP, TEXT
from ..joint.groups import tag_of
from ..page.frame import LEFT, MARGIN, Space, beside_block, heading, space
from ..page.prose import Flowed, TextPlace, WordRun, flow, strong
from ..page.table import Cell, Row, bold, columns_for, drawn, head_high, rows_high, unfolded
from ..part.words.facts import thickness_words
from .elevation import PaperElevation

SIZE = (A4[1], A4[0])
COLUMN = SIZE[0] / 3  # width of the table of boards, and of the words under it
HEADS = ("", "board", "deep", "set back", "thick", "measured", "page")
MOST_STOPS = 25  # that may have room
_SAID = {Severity.STOP: "STOP", Severity.WARN: "WARNING", Severity.NOTE: "note"}
REASONED = 2  # of the ways to tell what was not checked, so many give the reasons

Words: TypeAlias = list[list[WordRun]]  # paragraphs


@dataclass(frozen=True, slots=True, kw_only=True)
class _Laid:
    """The sheet as it is laid out: what is on it, the drawing's scale, in which words it told what was checked.

    `findings`: whether all of them stand on it, with what to do.
    """

    items: list[Item]
    scale: float
    told: Words
    findings: bool


@sheet("overall", paper="workshop", order=10)
def overall(desk: Desk) -> Iterator[Draft]:
    """One sheet."""
    if not desk.book.piece.parts:
        return
    laid = _laid(desk)
    yield Draft(
        title="the whole piece",
        kind="overall",
        number="0",
        scale=scale_words(laid.scale),
        size=SIZE,
        items=tuple(laid.items),
    )


def leaves_to_lists(desk: Desk) -> bool:
    """Whether it has no room for all that was not checked with the reasons, so that the lists must tell it."""
    if not desk.book.not_checked or not desk.book.piece.parts:
        return False
    return _laid(desk).told not in [*_looked_at(desk.book)][:REASONED]


def tells_findings(desk: Desk) -> bool:
    """Whether all findings stand on it with what to do, so that the lists need not tell them again."""
    return bool(desk.book.piece.parts) and _laid(desk).findings


def _laid(desk: Desk) -> _Laid:
    """The piece on the left, its boards on the right; words under both."""
    made = desk.kept.get("overall")
    if not isinstance(made, _Laid):
        made = desk.kept["overall"] = _lay(desk)
    return made


def _lay(desk: Desk) -> _Laid:
    room = space(SIZE, desk)
    items, top = heading("", desk.book.job.title, _facts(desk), room.right)
    column = room.right - COLUMN
    boards, under = _boards(desk, column, top + AIR, room)
    scale, drawn = _drawn(desk, (column - room.left - FIRST, room.bottom - top - FIRST))
    items += [*boards, *shifted(drawn, room.left - extent(drawn).left, top + FIRST - extent(drawn).top)]
    foot = top + 2 * FIRST + extent(drawn).bottom - extent(drawn).top
    places = [
        TextPlace(column, under + TEXT, COLUMN, room.bottom),
        TextPlace(room.left, foot, column - room.left - NAME, room.bottom),
        TextPlace(LEFT, max(foot, room.bottom), beside_block(SIZE), SIZE[1] - MARGIN),
    ]
    said, words, findings = _words(desk, [place for place in places if place.bottom - place.y > STEP])
    return _Laid(items=[*items, *said.items], scale=scale, told=words, findings=findings)


def _drawn(desk: Desk, room: tuple[float, float]) -> tuple[float, Sequence[Item]]:
    """The piece with its figures at the largest scale that has room, letters and stops on it."""
    for scale in SCALES[1:]:
        made = PaperElevation(desk, scale)
        left, top, right, bottom = extent(made.paper.items)
        if right - left <= room[0] and bottom - top <= room[1]:
            break
    made.paper.wide = room[0]
    made.letters()
    made.stops()
    return scale, made.paper.items


def _facts(desk: Desk) -> tuple[str, ...]:
    piece = desk.book.piece
    left, foot, right, head = desk.bounds
    deep = max(board.front for board in piece.boards) - min(board.back for board in piece.boards)
    size = f"{position(right - left)} wide × {position(head - foot)} high × {position(deep)} deep"
    parts = [size, plural(len(piece.boards), "board"), plural(len(piece.joints), "joint")]
    if desk.book.mass_kg:
        parts.append(f"{Mass(sum(desk.book.mass_kg.values())).said(desk.book.voice)} at 12 % moisture")
    return (*parts, "seen from the room")


# --- boards --------------------------------------------------------------------------------------


def _boards(desk: Desk, x: float, top: float, room: Space) -> tuple[list[Item], float]:
    """Each board with its letter, how deep it is and how far behind the piece's front; and the y below them.

    Its thickness is to be measured before anything is cut, so there is room to write that down. Boards that have no
    room here stand in the lists.
    """
    rows = [_board(desk, part) for part in sorted(desk.book.piece.parts, key=lambda part: (len(part.mark), part.mark))]
    columns = columns_for(HEADS, rows, COLUMN)
    lines = unfolded(columns, rows)
    if top + head_high(columns) + rows_high(lines) > room.bottom:
        said = flow(
            [TextPlace(x, top, COLUMN, room.bottom)],
            [[strong("Boards:"), WordRun(f"page {page_of(listed('boards'))}.")]],
        )
        return said.items, said.bottom
    return drawn(x, top, columns, lines), top + head_high(columns) + rows_high(lines)


def _board(desk: Desk, part: Part) -> Row:
    front = max(board.front for board in desk.book.piece.boards)
    return (
        bold(part.mark),
        Cell(text=printable(part.id)),
        Cell(text=position(part.board.depth)),
        Cell(text=position(front - part.board.front)),
        Cell(text=thickness_words(part.board)),
        Cell(),
        Cell(text=page_of(place_of(part.id))),
    )


# --- words ---------------------------------------------------------------------------------------


def _words(desk: Desk, places: Sequence[TextPlace]) -> tuple[Flowed, Words, bool]:
    """Where joints are found, what was and was not checked, what was found.

    With it the words in which it is told what was checked, and whether what was found is told whole.
    """
    heights = [strong("Heights"), WordRun(f"are to the upper face of each level board, from the floor{_foot(desk)}.")]
    looked = [*_looked_at(desk.book)]
    joints, elsewhere = _joints(desk)
    findings = [] if desk.book.stops else [finding_words(desk, finding, 0) for finding in desk.book.findings]
    stops = [list(_stop(number, finding, desk.book.voice)) for number, finding in enumerate(desk.book.stops, start=1)]
    for told_here in [findings, stops] if findings else [stops]:
        for where in (joints, elsewhere):  # what is found comes before the pages of the joints
            said = flow(places, [heights, *where, *looked[0], *told_here])
            if said.whole:
                return said, looked[0], told_here is findings
    return *_told(places, [heights, *elsewhere], looked, stops), False


def finding_words(desk: Desk, finding: Finding, number: int) -> list[WordRun]:
    """A finding with its boards by their letters, what to do and the source of its limit; a stop with its number."""
    where, voice = finding.where.joint or finding.where.boards, desk.book.voice
    between = " × " if finding.where.joint else ", "  # a cross stands for a joint, and boards may meet nowhere
    marks = between.join(desk.marks.get(name, name) for name in where)
    word = _SAID[finding.severity] + (f" {number}" if number else "")
    runs = [strong(printable(f"{word} {marks}".strip())), WordRun(printable(f"{told(finding.says, voice)}."))]
    if finding.remedy:
        runs.append(WordRun(printable(f"What to do: {told(finding.remedy, voice)}.")))
    if finding.source:
        runs.append(WordRun(printable(f"({finding.source})")))
    return runs


def _joints(desk: Desk) -> tuple[Words, Words]:
    """Each joint with the page of its sheet; and where they are listed."""
    if not desk.joints:
        return [], []
    named = (kept(f"{tag_of(desk, joint)} {page_of(joint_place(joint.key))}") for joint in desk.joints)
    told_here = [strong("Joints, page"), WordRun(f"{', '.join(named)}.")]
    return [told_here], [[strong("Joints:"), WordRun(f"page {page_of(listed('joints'))}.")]]


def _told(places: Sequence[TextPlace], counts: Words, looked: Sequence[Words], stops: Words) -> tuple[Flowed, Words]:
    """What was looked at in the most words that have room beside the first stop, then as many stops as have room.

    The others are left to the list of findings, which begins the lists where there are stops.
    """
    most = min(len(stops), MOST_STOPS)
    ways = [(words, count) for words in looked for count in range(most, min(most, 1) - 1, -1)]
    for words, count in [*ways, (looked[-1], 0)]:
        more = [] if count == len(stops) else [[WordRun("More: see the list of findings.")]]
        said = flow(places, [*counts, *words, *stops[:count], *more])
        if said.whole:
            break
    return said, words


def _looked_at(book: Book) -> Iterator[Words]:
    """What was found, what was checked and what was not; then the same in fewer words, from `REASONED` on no why."""
    counted = Counter(finding.severity for finding in book.findings)
    stops, looks, notes = (counted[severity] for severity in (Severity.STOP, Severity.WARN, Severity.NOTE))
    found = [f"{stops} to change" if stops else "", f"{plural(looks, 'warning')}" if looks else ""]
    found = [*filter(None, [*found, plural(notes, "note") if notes else ""])] or ["nothing"]
    listed = " and ".join(filter(None, [", ".join(found[:-1]), found[-1]]))
    head = [strong("Found"), WordRun(f"{listed} in what was checked.")]
    looked = [strong("Checked"), WordRun(printable(f"{in_words(book.checked) or 'nothing'}."))]
    left = open_in_words(book.not_checked, book.voice)
    if not left:
        yield [head, looked]
        yield [head]
        return
    told = [[strong("Not checked"), WordRun(printable("; ".join(f"{what} ({why})" for what, why in left) + "."))]]
    yield [head, looked, *told]
    yield [head, *told]
    yield [head, [strong("Not checked"), WordRun(printable("; ".join(what for what, _ in left) + "."))]]
    yield [head, [strong(f"Not checked: {plural(len(left), 'thing')}."), WordRun("See the list of findings.")]]


def _foot(desk: Desk) -> str:
    """How far from the floor the piece ends, in words, where it does not end there."""
    _, foot, _, _ = desk.bounds
    if position(abs(foot)) == position(0.0):
        return ""
    return f"; its lowest point is {position(abs(foot))} {'above' if foot > 0 else 'below'} it"


def _stop(number: int, finding: Finding, voice: Voice) -> Iterable[WordRun]:
    yield strong(f"STOP {number}")
    yield WordRun(printable(f"{told(finding.says, voice)}."))
    if finding.remedy:
        yield WordRun(printable(f"Remedy: {told(finding.remedy, voice)}."))
