"""The rows of a part's cut table: everything needed to make each cut, a box to tick and a blank to fill in.

With the heading's sizes and these rows a part can be built again without looking at its views: what the columns
have no room for stands in a further line of the row (see `details`).
"""

import math
from collections.abc import Iterator, Sequence

from .....geometry.views import EDGES, FACES, Surface
from .....joints.registry import KINDS
from .....piece.model import DATUM_END, Cut
from .....sentences import plural as many
from .....studies.setups.result import SetUp
from ....lettering import KEPT, TEXT, width
from ....looks import Desk, Look, is_bored
from ....naming import in_runs, position
from ....naming import width as wide_words
from ....pages import joint as place_of
from ....pages import page_of
from ....symbols import tag_width
from ...page.frame import BLOCK_WIDE
from ...page.table import BESIDE, PAD, Brief, Cell, Row, bold, columns_for, under, unfolded
from ..looking import faces_of, other_of
from .details import details, hole_words, is_mid_edge, opens_words, run_and_stop, thickness_words
from .facts import (
    LEAST_LEAN,
    depth_words,
    end_angle_words,
    fitted_to,
    is_tongue,
    scribe_of,
    tag_of,
    tag_shortly,
    takes_words,
)
from .setups import setups

MID = "mid"  # of holes in an edge, in the middle of the thickness
SIZE_IS = tag_width("LEAVE LONG") + PAD  # of room for a tag
SETUP = width("set-", TEXT, "semibold") + PAD + BESIDE  # of the column for the set-up, which a tag may have too
MEASURED, DONE = "as cut", "done"
OPENS, RUNS = "opens to", "opens to, run, stop"  # of a housing that stops: where it starts, how far, what is left
GOES_IN = "goes in "
_BEFORE = ("", "cut", "takes")
_AFTER = ("across walls", f"on{KEPT}the face", "deep", OPENS, "this size is", "set- up", "page")
SIZES = _AFTER.index("this size is")  # columns of sizes: of an end or a hole one sentence stands in them
SAID = len((*_BEFORE[1:], *FACES, *_AFTER))  # columns that a further line reaches over, past the number's


def heads(look: Look) -> list[str]:
    """The columns' titles."""
    opens = RUNS if any(run_and_stop(look, cut) for cut in look.part.cuts) else OPENS
    after = [opens if title == OPENS else title for title in _AFTER]
    return [*_BEFORE, *(f"{look.names.short(surface)} face" for surface in faces_of(look)), *after, DONE, "measured"]


def rows(desk: Desk, look: Look) -> list[Row]:
    """One row a cut in the order of its number, then the free ends; two plain ones share a row.

    What is too wide for its column on the narrowest sheet is carried on in rows that join the one above.
    """
    whole = whole_rows(desk, look)
    return unfolded(columns_for(heads(look), spread(whole, len(heads(look))), BLOCK_WIDE), whole)


def spread(body: Sequence[Row], count: int) -> list[Row]:
    """The rows with a cell a column, for the columns' widths; words that reach over several ask for none."""
    return [tuple(_spread(row, count)) for row in body]


def _spread(row: Row, count: int) -> Iterator[Cell]:
    """Its cells, each over one column; a tag counts where it begins."""
    left = count
    for cell in row:
        yield cell if cell.span == 1 or cell.tags else Cell()
        yield from [Cell()] * (cell.span - 1)
        left -= cell.span
    yield from [Cell()] * left


def whole_rows(desk: Desk, look: Look, *, alone: bool = True) -> list[Row]:
    """The same, nothing carried on; sentences below a row are rows of their own.

    Args:
        alone: whether no other part shares the table: then holes that only their places tell apart share a row, with a
            box for each.
    """
    cuts = sorted(look.part.cuts, key=lambda cut: look.numbers.get(cut.key, math.inf))
    plain = [cut for cut in cuts if _is_plain(cut)]
    plain = plain if len({cut.made for cut in plain}) == 1 else []  # one that is made stands by itself
    apart = cuts if len(plain) < 2 else [cut for cut in cuts if cut not in plain]
    made: list[Row] = []
    for some in _in_one_row(desk, look, apart) if alone else [[cut] for cut in apart]:
        made.append(_row(desk, look, *some))
        made += [under(Cell(), Cell(text=words, span=SAID)) for words in details(desk, look, some[0])]
    if len(plain) > 1:
        made.append(_both_ends(desk, look, plain))
    if thick := thickness_words(look):
        made.append((Cell(), Cell(text="thickness"), Cell(text=thick, span=SAID - 1)))
    return made


def _in_one_row(desk: Desk, look: Look, cuts: Sequence[Cut]) -> list[list[Cut]]:
    """The cuts, holes in an edge that only their places tell apart together."""
    found: list[list[Cut]] = []
    alike: dict[tuple[object, ...], list[Cut]] = {}
    for cut in cuts:
        if not (is_bored(cut) and len(cut.shapes) == 1 and _edge_of(look, cut)):
            found.append([cut])
            continue
        says = (_kind(look, cut), _takes(desk, cut), _edge_of(look, cut), _sizes(look, cut), _made(desk, look, cut))
        key = (*says, cut.made, *details(desk, look, cut))
        if key not in alike:
            found.append(alike.setdefault(key, []))
        alike[key].append(cut)
    return found


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
        Cell(text="cut square", span=SIZES),
        _tag(desk, look, ends[0], SIZE_IS),
        Cell(),
        Cell(),
        Cell(tick=True, done=ends[0].made),
        Cell(text=MEASURED if ends[0].made else ""),
    )


def _row(desk: Desk, look: Look, cut: Cut, *more: Cut) -> Row:
    numbers = [look.numbers[one.key] for one in (cut, *more) if one.key in look.numbers]
    kind = _kind(look, cut)
    start = (bold(in_runs(numbers, apart=",")), Cell(text=kind, short=_short(cut)), _takes(desk, cut))
    made = (*_made(desk, look, cut), Cell(text=_pages(cut, *more)))
    return (*start, *_places(look, cut, *more), *_sizes(look, cut), *made, *_done(cut, len(more)))


def _pages(*cuts: Cut) -> str:
    """The pages of their joints."""
    keys = dict.fromkeys(cut.joint for cut in cuts if cut.joint is not None)
    return page_of(*map(place_of, keys)) if keys else ""


def _done(cut: Cut, more: int = 0) -> tuple[Cell, ...]:
    """A box to tick and a blank to fill in; of what is recorded as cut, ticked, its figures being those measured.

    Several that share the row have a box each.
    """
    if more:
        return (Cell(tick=True, done=cut.made, boxes=1 + more, span=2),)
    return Cell(tick=True, done=cut.made), Cell(text=MEASURED if cut.made else "")


def _made(desk: Desk, look: Look, cut: Cut) -> tuple[Cell, ...]:
    """What kind of size it is, and its set-up; a cut without one has room for more words."""
    made_with = setups(desk).of.get(cut.key, ())
    if not made_with:
        return (_tag(desk, look, cut, SIZE_IS + SETUP, span=2),)
    return _tag(desk, look, cut, SIZE_IS), Cell(text=_together(made_with))


def _together(made_with: Sequence[SetUp]) -> str:
    """Names of set-ups as short as they can be told: "D1,2" for D1 and D2."""
    first, *more = made_with
    return ",".join([first.name, *(str(one.number) if one.work is first.work else one.name for one in more)])


def _kind(look: Look, cut: Cut) -> str:
    if not cut.end:
        return f"{cut.word}, {MID}" if is_mid_edge(cut) else cut.word
    return look.names.words[Surface.DATUM if cut.end == DATUM_END else Surface.FAR]


def _short(cut: Cut) -> str:
    """The kind where there is little room: "housing" of a stopped one, as another column says so; "" for all of it."""
    if cut.end:
        return ""
    noun = many(cut.noun) if cut.form.in_rows and len(cut.shapes) > 1 else cut.noun
    return ", ".join(filter(None, (noun, MID if is_mid_edge(cut) else "")))


def _takes(desk: Desk, cut: Cut) -> Cell:
    """What enters; of an end the board that it goes in, or is cut to."""
    if cut.takes or not cut.joint:
        return _named(desk, "", cut.takes) if cut.takes in desk.marks else Cell(text=_loose(desk, cut))
    other = other_of(cut)
    if other not in desk.marks:
        return Cell(text=f"to the {other}")
    return _named(desk, "in " if cut.figures.goes_in else "to ", other)


def _named(desk: Desk, before: str, board: str) -> Cell:
    mark = desk.marks[board]
    return Cell(text=f"{before}{mark} {board}", short=f"{before}{mark}", brief=Brief(before, before, mark))


def _loose(desk: Desk, cut: Cut) -> str:
    """What is no board: a screw by its size, keys; of an end nothing."""
    joint = desk.book.piece.joint_by_key.get(cut.joint) if cut.joint else None
    wares = () if joint is None or not is_bored(cut) else KINDS[joint.kind].hardware(joint)
    screws = (f"screw {ware.screw.size}" for ware in wares if ware.screw is not None)
    return next(screws, "") or takes_words(desk, cut) or ("free" if cut.end else "")


def _tag(desk: Desk, look: Look, cut: Cut, room: float, span: int = 1) -> Cell:
    """The tag, in fewer words where there is no room for all."""
    scribe = scribe_of(look.part, cut.end) if cut.end else 0.0
    kind, text = tag_of(desk, cut, scribe)
    brief = Brief(kind, "", fitted_to(desk, cut)) if kind == "FIT TO" else None
    if tag_width(text) > room - PAD:
        text = f"{kind} it" if kind == "FIT TO" else tag_shortly(desk, cut, scribe)
    return Cell(tags=((kind, text),), brief=brief, span=span)


def _places(look: Look, cut: Cut, *more: Cut) -> tuple[Cell, ...]:
    """Running positions on face side and other face; of what only an edge shows, on that edge."""
    faces = faces_of(look)
    if cut.end:
        return tuple(bold(position(look.end_at(cut.end, face))) for face in faces)
    found = [look.position(cut, face) for face in faces]
    if any(place is not None for place in found):
        return tuple(Cell(text="–") if place is None else bold(position(place)) for place in found)
    edge = _edge_of(look, cut)
    if edge is not None:
        places = (look.position(one, edge) for one in (cut, *more))
        told = ", ".join(position(place) for place in places if place is not None)
        return (bold(f"{look.names.short(edge) if more else look.names.words[edge]} {told}", span=2),)
    return Cell(text="–"), Cell(text="–")


def _opens(look: Look, cut: Cut) -> str:
    """The edge it opens to; of a housing that stops how far it runs and what that leaves: "wall 260.1, 39.9"."""
    return f"{opens_words(look, cut)} {', '.join(run_and_stop(look, cut))}".strip()


def _edge_of(look: Look, cut: Cut) -> Surface | None:
    """The edge that alone shows a cut; None of what shows on a face or nowhere."""
    if any(look.position(cut, face) is not None for face in faces_of(look)):
        return None
    return next((edge for edge in EDGES if look.position(cut, edge) is not None), None)


def _of_end(look: Look, cut: Cut) -> Iterator[str]:
    """How an end is cut, and how thick a tongue on it is."""
    yield end_angle_words(cut, look.part.board)
    if is_tongue(look, cut):
        yield f"{cut.plain} {wide_words(cut.figures.across or 0.0)} thick"


def _goes_in(cut: Cut) -> str:
    """How far an end goes in, the one figure that may differ of parts alike; "" where it does not."""
    return depth_words(cut) if cut.figures.goes_in else ""


def _sizes(look: Look, cut: Cut) -> tuple[Cell, ...]:
    """Widths, depth and the edge it opens to."""
    if is_bored(cut):
        return (Cell(text=hole_words(look, cut), span=SIZES),)
    if cut.end:
        said, own = list(_of_end(look, cut)), _goes_in(cut)
        if not own:
            return (Cell(text=", ".join(said), span=SIZES),)
        plain = abs(cut.figures.lean) < LEAST_LEAN and not is_tongue(look, cut)
        before, shortly = "".join(f"{one}, " for one in said) + GOES_IN, GOES_IN if plain else ""
        short = f"{GOES_IN}{own}" if plain else ""  # that it is cut square stands on the drawing
        return (Cell(text=f"{before}{own}", short=short, span=SIZES, brief=Brief(before, shortly, own)),)
    figures = cut.figures
    across = Cell() if figures.across is None else bold(wide_words(figures.across))
    on_face = "" if figures.on_face is None else wide_words(figures.on_face)
    return across, Cell(text=on_face), Cell(text=depth_words(cut)), Cell(text=_opens(look, cut))
