"""The rows of a part's cut table: everything needed to make each cut, a box to tick and a blank to fill in."""

from collections.abc import Sequence

from ...geometry.views import Surface
from ...piece.model import DATUM_END, Cut
from ..looks import Desk, Look, is_bored
from ..naming import position, width
from ..symbols import Tag
from .facts import LEAST_LEAN, bore_words, depth_words, end_angle_words, scribe_of, tag_of, takes_words
from .table import Cell, Column, Row, bold


def columns(look: Look, wide: float) -> list[Column]:
    """The columns in the room there is; what is left over goes to the names and to what is measured."""
    faces = [look.names.short(surface) + " face" for surface in _faces(look)]
    spare = max(0.0, wide - 180.0)
    return [
        Column(title="", wide=6.0),
        Column(title="cut", wide=26.5),
        Column(title="takes", wide=26.0 + spare * 0.4),
        Column(title=faces[0], wide=14.0 + spare * 0.1),
        Column(title=faces[1], wide=14.0 + spare * 0.1),
        Column(title="across walls", wide=13.0 + spare * 0.05),
        Column(title="on the face", wide=12.5 + spare * 0.05),
        Column(title="deep", wide=14.2),
        Column(title="this size is", wide=27.5),
        Column(title="done", wide=9.5),
        Column(title="measured", wide=16.8 + spare * 0.3),
    ]


def _faces(look: Look) -> tuple[Surface, Surface]:
    return look.names.face_side, look.names.other_face


def rows(desk: Desk, look: Look) -> list[Row]:
    """One row a cut in the order of its number, then the free ends; two plain ones share a row."""
    cuts = sorted(look.part.cuts, key=lambda cut: look.numbers.get(cut.key, 10_000))
    plain = [cut for cut in cuts if _is_plain(cut)]
    if len(plain) < 2:
        return [_row(desk, look, cut) for cut in cuts]
    return [*(_row(desk, look, cut) for cut in cuts if cut not in plain), _both_ends(desk, look, plain)]


def _is_plain(cut: Cut) -> bool:
    """A free end, cut square to its length."""
    return bool(cut.end) and cut.joint is None and cut.size_is == "FIXED" and abs(cut.figures.lean) < LEAST_LEAN


def _both_ends(desk: Desk, look: Look, ends: Sequence[Cut]) -> Row:
    low, high = sorted(look.end_at(cut.end, look.names.face_side) for cut in ends)
    words = (look.names.short(surface) for surface in (Surface.DATUM, Surface.FAR))
    return (
        Cell(),
        Cell(text="both ends"),
        Cell(text=", ".join(words)),
        bold(f"{position(low)}, {position(high)}", span=2),
        Cell(text="cut square", span=3),
        Cell(tags=(_tag(desk, look, ends[0]),)),
        Cell(tick=True),
        Cell(),
    )


def _row(desk: Desk, look: Look, cut: Cut) -> Row:
    number = str(look.numbers.get(cut.key, ""))
    start = (bold(number), Cell(text=_kind(look, cut)), Cell(text=_takes(desk, cut)))
    end = (Cell(tags=(_tag(desk, look, cut),)), Cell(tick=True), Cell())
    return (*start, *_places(look, cut), *_sizes(look, cut), *end)


def _kind(look: Look, cut: Cut) -> str:
    if not cut.end:
        return cut.kind
    return look.names.words[Surface.DATUM if cut.end == DATUM_END else Surface.FAR]


def _takes(desk: Desk, cut: Cut) -> str:
    """What enters; for an end that enters another board, that board."""
    if cut.takes or not cut.joint:
        return takes_words(desk, cut) or ("free" if cut.end else "")
    other = cut.joint[1] if cut.joint[0] == cut.body else cut.joint[0]
    mark = desk.marks.get(other)
    return f"in {mark} {other}" if mark else f"to the {other}"


def _tag(desk: Desk, look: Look, cut: Cut) -> tuple[Tag, str]:
    return tag_of(desk, cut, scribe_of(look.part, cut.end) if cut.end else 0.0)


def _places(look: Look, cut: Cut) -> tuple[Cell, ...]:
    """Running positions on face side and other face; of what only an edge shows, on that edge."""
    faces = _faces(look)
    if cut.end:
        return tuple(bold(position(look.end_at(cut.end, face))) for face in faces)
    found = [look.position(cut, face) for face in faces]
    if any(place is not None for place in found):
        return tuple(Cell(text="–") if place is None else bold(position(place)) for place in found)
    for edge in (Surface.FRONT, Surface.WALL):
        place = look.position(cut, edge)
        if place is not None:
            return (bold(f"{look.names.words[edge]} {position(place)}", span=2),)
    return Cell(text="–"), Cell(text="–")


def _sizes(look: Look, cut: Cut) -> tuple[Cell, ...]:
    if is_bored(cut):
        return (Cell(text=bore_words(look, cut), span=3),)
    if cut.end and (cut.figures.deep is None or abs(cut.figures.lean) > LEAST_LEAN):
        return (Cell(text=end_angle_words(cut), span=3),)
    figures = cut.figures
    across = Cell() if figures.across is None else bold(width(figures.across))
    on_face = "" if figures.on_face is None else width(figures.on_face)
    return across, Cell(text=on_face), Cell(text=depth_words(cut))
