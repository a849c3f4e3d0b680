"""The overall sheet: the whole piece seen from the room, every board with its letter, where it stands and how high.

Positions run along the floor from the left end of the piece, heights from the floor; both are to faces, because
faces are what can be measured. Findings that stop the work stand on it, at their places; beside them what was looked
at and what was not, so that nothing is approved by silence.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from typing import TypeAlias

from ....asking import in_words, open_in_words
from ....book.model import Book
from ....findings import Finding, Severity
from ....sentences import Voice, told
from ...display import Item, Text, extent
from ...lettering import TEXT, printable, widest, width
from ...looks import Desk
from ...naming import plural, position, scale_words
from ..dimensions.running import APART
from ..page.frame import LEFT, MARGIN, Space, beside_block, heading, space
from ..page.prose import Flowed, Place, Run, flow, strong
from ..page.table import lines_in
from ..registry import A4, Draft, sheet
from .elevation import Elevation

SIZE = (A4[1], A4[0])
SCALES = (0.5, 0.2, 0.1, 0.05, 0.02, 0.01, 0.005, 0.002, 0.001)
SIDE = 57.0  # of the column of words on the right
HEIGHTS, AROUND = 25.0, 11.0  # of the figures left of the piece, at least; what they need beside their words
BELOW = 17.0  # of the figures under the floor
LEGEND = 34  # lines of names; more are left to the lists
FIRST_STOPS, MOST_STOPS = 1, 25  # told before what was not looked at is only counted; that may have room at all
REASONED = 2  # of the ways to tell what was not looked at, so many give the reasons
LEGEND_LINE, INSET = 3.8, 5.6  # from line to line; from a letter to its name

Words: TypeAlias = list[list[Run]]  # paragraphs


@sheet("overall", paper="workshop", order=10)
def overall(desk: Desk) -> Iterator[Draft]:
    """One sheet."""
    if not desk.book.piece.parts:
        return
    room = space(SIZE, desk)
    items, top = _head(desk, room)
    left, foot, right, head = desk.bounds
    box = (room.left + _beside(desk), top + 4.0, room.right - SIDE - 4.0, room.bottom - BELOW)
    scale = next(
        (s for s in SCALES if (right - left) * s <= box[2] - box[0] and (head - foot) * s <= box[3] - box[1]),
        SCALES[-1],
    )
    crowded = len(Elevation(desk, scale, 0.0, 0.0).heights()) * APART * TEXT - (head - foot) * scale
    view = Elevation(desk, scale, box[0] - left * scale, box[1] + head * scale + max(0.0, crowded))
    items += [*view.boards(), *view.floor(), *view.figures(box[0] - 4.0), *view.letters(), *view.stops()]
    column, told = _words(desk, room, top)
    items += [*_under(desk, extent(items)[3] + 4.0, told), *column]
    yield Draft(
        title="the whole piece",
        kind="overall",
        number="0",
        scale=scale_words(scale),
        size=SIZE,
        items=tuple(items),
    )


def leaves_to_lists(desk: Desk) -> bool:
    """Whether it has no room for all that was not looked at with the reasons, so that the lists must tell it."""
    if not desk.book.not_checked or not desk.book.piece.parts:
        return False
    room = space(SIZE, desk)
    _, told = _words(desk, room, _head(desk, room)[1])
    return told not in [*_looked_at(desk.book)][:REASONED]


def _head(desk: Desk, room: Space) -> tuple[list[Item], float]:
    return heading("", desk.book.job.title, _facts(desk), room.right)


def _beside(desk: Desk) -> float:
    """Room left of the piece for the heights and for the letters of all that lies there."""
    marks = Elevation(desk, 1.0, 0.0, 0.0).heights()
    words = (width(mark.figure, TEXT, "semibold") + width(mark.letters, TEXT) for mark in marks)
    return max(HEIGHTS, max(words, default=0.0) + AROUND)


def _facts(desk: Desk) -> str:
    piece = desk.book.piece
    left, foot, right, head = desk.bounds
    deep = max(board.front for board in piece.boards) - min(board.back for board in piece.boards)
    size = f"{position(right - left)} wide × {position(head - foot)} high × {position(deep)} deep"
    parts = [size, plural(len(piece.boards), "board"), plural(len(piece.joints), "joint")]
    if desk.book.mass_kg:
        parts.append(f"{sum(desk.book.mass_kg.values()):.0f} kg at 12 % moisture")
    return " · ".join([*parts, "seen from the room"])


def _words(desk: Desk, room: Space, top: float) -> tuple[list[Item], Words]:
    """The column on the right: which letter is which board, what was and was not looked at, what must change.

    With it the words in which it is told what was looked at.
    """
    x = room.right - SIDE
    items, y = _legend(desk, x, top + 2.0)
    place = Place(x, y + 3.0, SIDE, room.bottom)
    paragraphs = [
        list(_stop(number, finding, desk.book.voice)) for number, finding in enumerate(desk.book.stops, start=1)
    ]
    counts = [[strong("Heights"), Run(f"are to the upper face of each level board, from {_zero(desk)}.")]]
    said, words = _told(place, counts, [*_looked_at(desk.book)], paragraphs)
    return [*items, *said.items], words


def _under(desk: Desk, top: float, told: Words) -> list[Item]:
    """What was looked at, under the piece and left of the title block, where the column has no room for it."""
    looked = next(_looked_at(desk.book))[1]
    said = flow([Place(LEFT, top, beside_block(SIZE), SIZE[1] - MARGIN)], [looked])
    return said.items if said.whole and looked not in told else []


def _told(place: Place, counts: Words, looked: Sequence[Words], stops: Words) -> tuple[Flowed, Words]:
    """All of it in as many words as have room; then only the first stops, the others left to the list of findings."""
    whole = ((words, stops) for words in looked[:-1])
    most = min(len(stops), MOST_STOPS) - 1
    fewer = ((words, stops[:count]) for words in looked[-2:] for count in range(most, min(most, FIRST_STOPS) - 1, -1))
    last = ((looked[-1], stops[:count]) for count in range(min(len(stops), FIRST_STOPS), -1, -1))
    for words, some in (*whole, *fewer, *last):
        more = [] if len(some) == len(stops) else [[Run("More: see the list of findings.")]]
        said = flow([place], [*counts, *words, *some, *more])
        if said.whole:
            break
    return said, words


def _looked_at(book: Book) -> Iterator[Words]:
    """What was found, what was looked at and what was not; then the same in fewer words, from `REASONED` on no why."""
    counted = Counter(finding.severity for finding in book.findings)
    stops, looks, notes = (counted[severity] for severity in (Severity.STOP, Severity.WARN, Severity.NOTE))
    found = [f"{stops} to change" if stops else "", f"{looks} to look at" if looks else ""]
    found = [*filter(None, [*found, plural(notes, "note") if notes else ""])] or ["nothing"]
    listed = " and ".join(filter(None, [", ".join(found[:-1]), found[-1]]))
    head = [strong("Found"), Run(f"{listed} in what was looked at.")]
    looked = [strong("Looked at"), Run(printable(f"{in_words(book.checked) or 'nothing'}."))]
    left = open_in_words(book.not_checked, book.voice)
    if not left:
        yield [head, looked]
        yield [head]
        return
    told = [[strong("Not looked at"), Run(printable("; ".join(f"{what} ({why})" for what, why in left) + "."))]]
    yield [head, looked, *told]
    yield [head, *told]
    yield [head, [strong("Not looked at"), Run(printable("; ".join(what for what, _ in left) + "."))]]
    yield [head, [strong(f"Not looked at: {plural(len(left), 'thing')}."), Run("See the list of findings.")]]


def _zero(desk: Desk) -> str:
    """Where heights count from, in words."""
    _, foot, _, _ = desk.bounds
    if position(abs(foot)) == position(0.0):
        return "the floor"
    return f"the lowest point of the piece, {position(abs(foot))} {'above' if foot > 0 else 'below'} the floor"


def _stop(number: int, finding: Finding, voice: Voice) -> Iterable[Run]:
    yield strong(f"STOP {number}")
    yield Run(printable(f"{told(finding.says, voice)}."))
    if finding.remedy:
        yield Run(printable(f"Remedy: {told(finding.remedy, voice)}."))


def _legend(desk: Desk, x: float, top: float) -> tuple[list[Item], float]:
    """Letters and names: in two columns where every name has room in one, else in one column, long names in lines."""
    parts = sorted(desk.book.piece.parts, key=lambda part: (len(part.mark), part.mark))
    if sum(len(lines_in(printable(part.id), SIDE - INSET, TEXT)) for part in parts) > LEGEND:
        lines = lines_in("Letters and names: see the list of boards.", SIDE, TEXT)
        return [Text(at=(x, top + TEXT + n * 3.6), text=line) for n, line in enumerate(lines)], top + 4.0 * len(lines)
    half = SIDE / 2 - INSET - 1.0
    count = 2 if widest([printable(part.id) for part in parts], TEXT) <= half else 1
    high = -(-len(parts) // count)
    items: list[Item] = []
    bottom = top
    for start in range(0, len(parts), high):
        left, base = x + (start // high) * SIDE / 2, top + TEXT
        for part in parts[start : start + high]:
            items.append(Text(at=(left, base), text=part.mark, weight="semibold"))
            for line in lines_in(printable(part.id), SIDE / count - INSET, TEXT):
                items.append(Text(at=(left + INSET, base), text=line))
                base += LEGEND_LINE
        bottom = max(bottom, base - TEXT)
    return items, bottom
