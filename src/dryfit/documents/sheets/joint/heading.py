"""The head of a detail and where its joints are: the black tag, who is who, which are the same, marks, a picture."""

from collections.abc import Iterator, Sequence

from ....geometry.views import FACES, Surface
from ....piece.model import DATUM_END, WALL, Cut, Part
from ...display import Circle, Item, Text
from ...lettering import LETTER, NAME, TEXT, fitted, printable, width, wrapped
from ...looks import Desk
from ...naming import position
from ..page.frame import black, name_in
from ..page.picture import fitted as picture_fitted
from ..page.picture import small_picture
from ..page.table import Cell, Column, Row, bold, drawn, head_high
from .groups import Alike, hand, kind_said, tag, who
from .roles import Roles

WIDE = 180.0
TAG_HIGH = 12.0
MOST_LINES = 3  # of joints named in a heading
LINE = 3.8
ROW = 5.0
PICTURE = (38.0, 34.0)
RING = 1.7
MARKS_WIDE = 53.0  # of a column of marks, at least
TITLE = 4.2  # from a small title's base line to what it stands over


def heading(desk: Desk, group: Alike, *, continued: bool = False) -> tuple[list[Item], float]:
    """The black tag, the kind, who is who, and which are the same: items and height."""
    roles = group.first
    letter = tag(desk, roles)
    wide = width(letter, LETTER, "bold") + 6.0
    items = black(letter, (0.0, 0.0, wide, TAG_HIGH), LETTER)
    left, room = wide + 3.0, WIDE - wide - 3.0
    count = len(group.roles)
    name = kind_said(roles) + (f" · {count} of these" if count > 1 else "") + (", continued" if continued else "")
    items.append(name_in(printable(name), (left, NAME), room))
    base = TAG_HIGH - 1.0
    for line in [] if continued else _facts(desk, group, room):
        items.append(Text(at=(left, base), text=line, layer="frame"))
        base += LINE
    return items, max(base - LINE + 1.4, TAG_HIGH)


def _facts(desk: Desk, group: Alike, room: float) -> list[str]:
    lines = wrapped(printable(who(desk, group.first)), room, TEXT)
    for says, them in (("the same", group.same), ("the same turned over", group.turned)):
        if them:
            listed = wrapped(printable(f"{says}: {', '.join(tag(desk, one) for one in them)}"), room, TEXT)
            if len(listed) > MOST_LINES:
                listed = [*listed[: MOST_LINES - 1], fitted(f"{listed[MOST_LINES - 1]} …", room, TEXT)]
            lines += listed
    return lines


# --- where they are ------------------------------------------------------------------------------


def places(desk: Desk, group: Alike, room: float) -> tuple[list[Item], float]:
    """The marks of all joints of a sheet from their datum ends, beside a picture of the piece; nothing if no room."""
    if WALL in (group.first.joint.meeting.a.body, group.first.joint.meeting.b.body):
        columns, rows = _fixing_columns(), list(_fixing_rows(desk, group))
        title = "where the screws are, from the datum end along the wall edge and in the room"
    else:
        columns, rows = _mark_columns(desk, group), [_mark_row(desk, group, roles) for roles in group.roles]
        title = "marks from each board's datum end"
    fits = int((room - TITLE - head_high(columns)) // ROW)
    if fits < min(len(rows), 2):
        return [], 0.0
    items: list[Item] = [Text(at=(0.0, TEXT), text=title, weight="semibold")]
    if len(rows) > fits:
        items[0] = Text(at=(0.0, TEXT), text=f"{title}; the others on their boards' sheets", weight="semibold")
    items += drawn(0.0, TITLE, columns, rows[:fits])
    high = TITLE + head_high(columns) + ROW * min(fits, len(rows))
    items += picture(desk, group.roles, WIDE - PICTURE[0], min(PICTURE[1], max(room, high)))
    return items, max(high, min(PICTURE[1], max(room, high)))


def picture(desk: Desk, them: Sequence[Roles], x: float, high: float) -> list[Item]:
    """The piece seen from the room with a ring around each of these joints."""
    box = (x, 0.0, x + PICTURE[0], high)
    items, whole = small_picture(desk, "", box), picture_fitted(desk, box)
    for roles in them:
        for spot in _spots(desk, roles):
            items.append(Circle(centre=whole.at(spot), radius=RING, pen="outline", layer="picture"))
    return items


def _spots(desk: Desk, roles: Roles) -> Iterator[tuple[float, float]]:
    meeting = roles.joint.meeting
    if not meeting.places:
        yield meeting.frame.origin[0], meeting.frame.origin[1]
        return
    board = desk.book.piece.board_by_name[meeting.a.body]
    for place in meeting.places:
        x, y, _ = board.frame.place((place, 0.0, 0.0))
        yield x, y


def _mark_columns(desk: Desk, group: Alike) -> list[Column]:
    handed = bool(group.turned)
    return [
        Column(title="joint", wide=15.0),
        Column(title="in the first", wide=MARKS_WIDE if handed else 57.0),
        Column(title="in the second", wide=MARKS_WIDE if handed else 57.0),
        *([Column(title="leans" if group.first.shown[0].cut is not None else "hand", wide=11.0)] if handed else []),
        Column(title="done", wide=9.0),
    ]


def _mark_row(desk: Desk, group: Alike, roles: Roles) -> Row:
    meeting = roles.joint.meeting
    marks = [Cell(text=printable(_marks(desk, roles, side.body))) for side in (meeting.a, meeting.b)]
    cells = [bold(printable(tag(desk, roles))), *marks]
    if group.turned:
        leaning = roles.shown[0].cut is not None
        cells.append(Cell(text=_hand(roles) if leaning else _drawn_hand(group, roles)))
    return (*cells, Cell(tick=True))


def _hand(roles: Roles) -> str:
    stance = roles.shown[0]
    return "right" if stance.hand > 0 else "left"


def _drawn_hand(group: Alike, roles: Roles) -> str:
    """Of a corner, whether it is as drawn."""
    return "drawn" if hand(roles) == hand(group.first) else "turned"


def _marks(desk: Desk, roles: Roles, body: str) -> str:
    """The cut's number and its marks on both faces, or where the end lies on them."""
    look = desk.looks[body]
    faces = (look.names.face_side, FACES[1 - FACES.index(look.names.face_side)])
    let_in = [stance.cut for stance in roles.shown if stance.cut is not None and stance.main.id == body]
    for cut in let_in:
        if cut is not None:
            found = [(face, look.position(cut, face)) for face in faces]
            said = [(look.names.short(face), position(place)) for face, place in found if place is not None]
            if said:
                return f"{look.numbers.get(cut.key, '')}: {_two(said)}"
    for cut in roles.joint.cuts:
        if cut.body == body and cut.end:
            return _end_marks(desk, look.part, cut)
    return _holes(desk, roles, body) or "stays whole"


def _holes(desk: Desk, roles: Roles, body: str) -> str:
    """Where a row of holes in a face lies along the board."""
    look = desk.looks[body]
    for cut in roles.joint.cuts:
        for face in FACES if cut.body == body and not cut.end else ():
            place = look.position(cut, face)
            if place is not None:
                return f"{look.numbers.get(cut.key, '')}: {look.names.short(face)} {position(place)}"
    return ""


def _end_marks(desk: Desk, part: Part, cut: Cut) -> str:
    look = desk.looks[part.id]
    faces = (look.names.face_side, FACES[1 - FACES.index(look.names.face_side)])
    word = look.names.short(Surface.DATUM if cut.end == DATUM_END else Surface.FAR)
    said = [(look.names.short(face), position(look.end_of(cut, face))) for face in faces]
    full = f"{word}: {_two(said)}"
    return full if width(full, TEXT) <= MARKS_WIDE - 2.0 else _two(said)  # inches: the end is plain from its place


def _two(said: Sequence[tuple[str, str]]) -> str:
    if len({place for _, place in said}) == 1:
        return said[0][1]
    return ", ".join(f"{word} {place}" for word, place in said)


def _fixing_columns() -> list[Column]:
    return [
        Column(title="board", wide=30.0),
        Column(title="place", wide=10.0),
        Column(title="from the datum end", wide=21.0),
        Column(title="along the wall", wide=20.0),
        Column(title="up", wide=17.0),
        Column(title="stud off", wide=14.0),
        Column(title="done", wide=9.0),
    ]


def _fixing_rows(desk: Desk, group: Alike) -> Iterator[Row]:
    for roles in group.roles:
        meeting = roles.joint.meeting
        part = desk.book.piece.part_by_name[meeting.a.body]
        for number, place in enumerate(meeting.places):
            x, y, _ = part.board.frame.place((place, 0.0, 0.0))
            off = meeting.studs_off[number] if number < len(meeting.studs_off) else None
            name = f"{part.mark} {part.id}" if number == 0 else ""
            yield (
                Cell(text=printable(name)),
                Cell(text=str(number + 1)),
                bold(position(place - part.zero)),
                Cell(text=position(x)),
                Cell(text=position(y)),
                Cell(text="" if off is None else position(off)),
                Cell(tick=True),
            )
