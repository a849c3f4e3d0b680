"""The rows of a part's cut table: everything needed to make each cut, a box to tick and a blank to fill in.

With the heading's sizes and these rows a part can be built again without looking at its views: what the columns
have no room for stands in a further line of the row (see `details`).
"""

from collections.abc import Sequence

from .....geometry.views import Surface
from .....piece.model import DATUM_END, Cut
from ....looks import Desk, Look, is_bored
from ....naming import position, printed_units, width
from ....symbols import Tag, tag_width
from ...page.table import PAD, Cell, Column, Row, bold, under, unfolded
from ..looking import faces_of, other_of
from .details import details, hole_words, is_mid_edge, opens_words, thickness_words
from .facts import LEAST_LEAN, depth_words, end_angle_words, scribe_of, tag_of, takes_words
from .setups import setups

NARROWEST = 180.0  # of the room for a table: a portrait sheet's
SIZE_IS, SETUP = 20.6, 8.0  # of the columns for the tag and the set-up
MEASURED = "as cut"
SAID = 10  # columns that a further line reaches over, past the number's


def columns(look: Look, wide: float) -> list[Column]:
    """The columns in the room there is; what is left over goes to the names and to what is measured."""
    faces = [look.names.short(surface) + " face" for surface in faces_of(look)]
    spare = max(0.0, wide - NARROWEST)
    inches = printed_units() == "in"
    place, deep = (15.6, 13.4) if inches else (12.8, 11.2)
    return [
        Column(title="", wide=6.0),
        Column(title="cut", wide=23.0),
        Column(title="takes", wide=(22.0 if inches else 27.4) + spare * 0.4),
        Column(title=faces[0], wide=place + spare * 0.1),
        Column(title=faces[1], wide=place + spare * 0.1),
        Column(title="across walls", wide=11.4 + spare * 0.05),
        Column(title="on the face", wide=11.4 + spare * 0.05),
        Column(title="deep", wide=deep),
        Column(title="opens to", wide=10.4),
        Column(title="this size is", wide=SIZE_IS),
        Column(title="set- up", wide=SETUP),
        Column(title="done", wide=8.6),
        Column(title="measured", wide=(14.0 if inches else 16.4) + spare * 0.3),
    ]


def rows(desk: Desk, look: Look) -> list[Row]:
    """One row a cut in the order of its number, then the free ends; two plain ones share a row.

    What is too wide for its column on the narrowest sheet is carried on in rows that join the one above.
    """
    return unfolded(columns(look, NARROWEST), _whole_rows(desk, look))


def _whole_rows(desk: Desk, look: Look) -> list[Row]:
    cuts = sorted(look.part.cuts, key=lambda cut: look.numbers.get(cut.key, 10_000))
    plain = [cut for cut in cuts if _is_plain(cut)]
    plain = plain if len({cut.made for cut in plain}) == 1 else []  # one that is made stands by itself
    apart = cuts if len(plain) < 2 else [cut for cut in cuts if cut not in plain]
    made: list[Row] = []
    for cut in apart:
        made.append(_row(desk, look, cut))
        made += [under(Cell(), Cell(text=words, span=SAID)) for words in details(look, cut)]
    if len(plain) > 1:
        made.append(_both_ends(desk, look, plain))
    if thick := thickness_words(look):
        made.append((Cell(), Cell(text="thickness"), Cell(text=thick, span=SAID - 1)))
    return made


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
        Cell(text="cut square", span=4),
        Cell(tags=(_tag(desk, look, ends[0], SIZE_IS),)),
        Cell(),
        Cell(tick=True, done=ends[0].made),
        Cell(text=MEASURED if ends[0].made else ""),
    )


def _row(desk: Desk, look: Look, cut: Cut) -> Row:
    number = str(look.numbers.get(cut.key, ""))
    start = (bold(number), Cell(text=_kind(look, cut)), Cell(text=_takes(desk, cut)))
    return (*start, *_places(look, cut), *_sizes(look, cut), *_made(desk, look, cut), *_done(cut))


def _done(cut: Cut) -> tuple[Cell, Cell]:
    """A box to tick and a blank to fill in; of what is recorded as cut, ticked, its figures being those measured."""
    return Cell(tick=True, done=cut.made), Cell(text=MEASURED if cut.made else "")


def _made(desk: Desk, look: Look, cut: Cut) -> tuple[Cell, ...]:
    """What kind of size it is, and its set-up; a cut without one has room for more words."""
    setup = setups(desk).of.get(cut.key)
    if setup is None:
        return (Cell(tags=(_tag(desk, look, cut, SIZE_IS + SETUP),), span=2),)
    return Cell(tags=(_tag(desk, look, cut, SIZE_IS),)), Cell(text=setup)


def _kind(look: Look, cut: Cut) -> str:
    if not cut.end:
        return f"{cut.kind}, mid" if is_mid_edge(cut) else cut.kind
    return look.names.words[Surface.DATUM if cut.end == DATUM_END else Surface.FAR]


def _takes(desk: Desk, cut: Cut) -> str:
    """What enters; for an end that enters another board, that board."""
    if cut.takes or not cut.joint:
        words = takes_words(desk, cut) or ("free" if cut.end else "")
        return words.removeprefix("wood ") if is_bored(cut) and cut.takes not in desk.marks else words
    other = other_of(cut)
    mark = desk.marks.get(other)
    return f"in {mark} {other}" if mark else f"to the {other}"


def _tag(desk: Desk, look: Look, cut: Cut, room: float) -> tuple[Tag, str]:
    """The tag, in fewer words where there is no room for all."""
    kind, text = tag_of(desk, cut, scribe_of(look.part, cut.end) if cut.end else 0.0)
    if tag_width(text) > room - PAD:
        text = f"{kind} it" if kind == "FIT TO" else text.removeprefix("LEAVE ")
    return kind, text


def _places(look: Look, cut: Cut) -> tuple[Cell, ...]:
    """Running positions on face side and other face; of what only an edge shows, on that edge."""
    faces = faces_of(look)
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
    """Widths, depth and the edge it opens to."""
    if is_bored(cut):
        return (Cell(text=hole_words(look, cut), span=4),)
    if cut.end and (cut.figures.deep is None or abs(cut.figures.lean) > LEAST_LEAN):
        return (Cell(text=end_angle_words(cut), span=4),)
    figures = cut.figures
    across = Cell() if figures.across is None else bold(width(figures.across))
    on_face = "" if figures.on_face is None else width(figures.on_face)
    return across, Cell(text=on_face), Cell(text=depth_words(cut)), Cell(text=opens_words(look, cut))
