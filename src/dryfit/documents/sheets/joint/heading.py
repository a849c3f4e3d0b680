"""The head of a detail and where its joints are: the black tag, who is who, which are alike, a picture, the marks."""

from collections.abc import Iterator, Sequence

from ....geometry.views import FACES, Surface
from ....piece.model import DATUM_END, WALL, Cut, Part
from ...display import Circle, Item, Text
from ...lettering import LETTER, NAME, TEXT, printable, width, wrapped
from ...looks import Desk
from ...naming import position
from ...pages import page_of, part
from ...standard import LIFT, PAST, STEP
from ..page.frame import BLOCK_WIDE, LETTER_HIGH, black, name_in
from ..page.picture import fitted as picture_fitted
from ..page.picture import small_picture
from ..page.table import Cell, Row, bold
from ..part.words.together import lettered as letters_of
from .groups import hand, kind_said, tag, tags, who
from .roles import Roles
from .shared import Shared
from .stance import facing

WIDE = BLOCK_WIDE  # of a detail: as wide as the title block under it
PICTURE = (10 * TEXT, LETTER_HIGH)  # width and height of the small picture
RING = TEXT / 2  # as large as a letter
MEASURED = "thick"  # a blank: of the board at that place
DRAWN, ROUND, MIRROR = "as drawn", "turned round", "mirror image"
FIXED = ("board", "place", "from the datum end", "along the wall", "up", "stud off", "done")


def heading(
    desk: Desk, group: Shared, *, continued: bool = False, brief: bool = False, paged: bool = True
) -> tuple[list[Item], float]:
    """The black tag, the kind, who is who, which are alike, and where they are: items and height.

    Args:
        continued: on a further sheet.
        brief: without the others, which the table of marks names.
        paged: with the pages of its parts.
    """
    roles = group.first
    letter = tag(desk, roles)
    wide = width(letter, LETTER, "bold") + 2 * TEXT
    items = black(letter, (0.0, 0.0, wide, LETTER_HIGH), LETTER)
    left, room = wide + TEXT, WIDE - PICTURE[0] - TEXT - wide - TEXT
    count = len(group.roles)
    name = kind_said(roles) + (f" · {count} of these" if count > 1 else "") + (", continued" if continued else "")
    items.append(name_in(printable(name), (left, NAME), room))
    base = LETTER_HIGH - LIFT
    for line in [] if continued else _facts(desk, group, room, brief=brief, paged=paged):
        items.append(Text(at=(left, base), text=line, layer="frame"))
        base += STEP
    items += picture(desk, group.roles)
    return items, max(base - STEP + PAST, PICTURE[1])


def _facts(desk: Desk, group: Shared, room: float, *, brief: bool, paged: bool) -> list[str]:
    """Who is who in the first, and which others there are."""
    told = (f"{desk.marks[name]} {page_of(part(name))}" for name in desk.marks if name in _bodies(group))
    pages = f" · on pages {', '.join(told)}" if paged else ""
    lines = wrapped(f"{printable(who(desk, group.first))}{pages}", room, TEXT)
    if brief:
        return lines
    for way in (DRAWN, ROUND, MIRROR):
        them = [one for one in group.sets[0].roles[1:] if lies(group, one) == way]
        if them:
            says = "alike" if way == DRAWN else f"alike, {way}"
            lines += wrapped(printable(f"{says}: {tags(desk, them)}"), room, TEXT)
    others = [one for some in group.sets[1:] for one in some.roles]
    if others:
        lines += wrapped(printable(f"with figures of their own, see the table: {tags(desk, others)}"), room, TEXT)
    return lines


def _bodies(group: Shared) -> set[str]:
    """All boards of its joints."""
    return {body for roles in group.roles for body in roles.joint.key}


# --- where they are ------------------------------------------------------------------------------


def lies(group: Shared, roles: Roles) -> str:
    """How one of them lies, seen from the front, beside the one that is drawn."""
    if hand(roles) != hand(group.first):
        return MIRROR
    return DRAWN if facing(roles.shown) == facing(group.first.shown) else ROUND


def picture(desk: Desk, them: Sequence[Roles]) -> list[Item]:
    """The piece seen from the room in the upper right corner, with a ring around each of these joints."""
    box = (WIDE - PICTURE[0], 0.0, WIDE, PICTURE[1])
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


def marks(desk: Desk, group: Shared) -> tuple[Sequence[str], list[Row]]:
    """Where all of them are marked, and room for what is measured there: titles and rows."""
    if WALL in group.first.joint.key:
        return FIXED, list(_fixing_rows(desk, group))
    told_ways = len({lies(group, one) for one in group.roles}) > 1
    titles = ["joint", *(["lies"] if told_ways else [])]
    for place, side in enumerate(("a", "b")):
        bodies = [getattr(roles.joint.meeting, side).body for roles in group.roles]
        there = letters_of([mark for name, mark in desk.marks.items() if name in bodies])
        titles += [f"mark on {there}", *([MEASURED] if _is_fitted(group.first, place) else [])]
    return [*titles, "done"], [_mark_row(desk, group, roles, told_ways=told_ways) for roles in group.roles]


def _is_fitted(roles: Roles, place: int) -> bool:
    """Whether a board is measured for the width of a cut that takes it."""
    meeting = roles.joint.meeting
    body = (meeting.a, meeting.b)[place].body
    taken = (stance.cut for stance in roles.shown if stance.cut is not None and stance.other.id == body)
    return any(cut.figures.fitted is not None for cut in taken)


def _mark_row(desk: Desk, group: Shared, roles: Roles, *, told_ways: bool) -> Row:
    cells = [bold(printable(tag(desk, roles))), *([Cell(text=lies(group, roles))] if told_ways else [])]
    for place, side in enumerate((roles.joint.meeting.a, roles.joint.meeting.b)):
        cells.append(Cell(text=printable(_marks(desk, roles, side.body))))
        cells += [Cell()] if _is_fitted(group.first, place) else []
    return (*cells, Cell(tick=True))


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
                return f"{look.numbers.get(cut.key, '')}: {_each(said) if cut.face else _two(said)}"
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
    return f"{word} end: {_two(said)}"


def _two(said: Sequence[tuple[str, str]]) -> str:
    if len({place for _, place in said}) == 1:
        return said[0][1]
    return _each(said)


def _each(said: Sequence[tuple[str, str]]) -> str:
    return ", ".join(f"{word} {place}" for word, place in said)


def _fixing_rows(desk: Desk, group: Shared) -> Iterator[Row]:
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
