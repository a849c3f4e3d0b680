"""Ends seen from outside, where they are not square or carry cuts: tongues, tails, dowel holes, grooves, pockets.

Each is drawn as you see it standing before the end with the face side up, so that left and right change between
the two ends; the front edge is named in the view. Everything is measured from the front edge, and on a square
end from the face side too. A plain bevel has no view: its section in `sections` says all there is to say.
"""

from .....geometry.views import Surface
from .....piece.facts import CutForm
from .....piece.model import DATUM_END, FAR_END
from .....piece.recording import DIGITS
from ....display import Item, Stroke, Text, extent, shifted
from ....hatch import hatch
from ....kit import dimension
from ....kit.dimension import DimensionMark, UnplacedDimension, plain
from ....kit.placing import FilledPaper
from ....kit.wood import FACE_STEP
from ....lettering import TEXT, width
from ....looks import Look, is_bored
from ....naming import scale_words
from ....standard import AIR, LINE, PAST
from ....symbols import BALLOON, balloon
from ...page.arranging import Sketch
from ..faces.surface import at_end
from ..looking import cut_of
from .fronts import (
    Front,
    across_of,
    features,
    from_front,
    front_of,
    heights,
    needed,
    on_middle,
    places,
    sizes,
    through_of,
    told_of,
)
from .windows import carried

SAYS = "from front edge"


def end_views(look: Look, of: str = "", twin: str = "", *, roomy: bool = True) -> list[Sketch]:
    """The views of a part's ends that need one; two that are mirror images share one drawing.

    Args:
        of: the letter of the hand that is drawn, of a pair.
        twin: that of the other hand, whose ends are the mirror images.
        roomy: as large as a sheet is wide; else as half of it.
    """
    fronts = [front_of(look, end, roomy=roomy) for end in (DATUM_END, FAR_END) if needed(look, end)]
    if len(fronts) == 2 and features(fronts[0]) == features(fronts[1]):
        return [_drawn(fronts[0], fronts[1], of, twin)]
    return [_drawn(front, None, of, twin) for front in fronts]


def _drawn(front: Front, twin: Front | None, of: str, hand: str) -> Sketch:
    """One end; `twin` is the board's other one, `hand` the other hand's letter: told in words as mirror images."""
    paper = FilledPaper()
    paper.draw(_wood(front))
    dimension.put(paper, running(front))
    for one in _thickness(front):
        dimension.put(paper, one)
    paper.draw(_named(front, twin))
    left, top, right, bottom = extent(paper.items)
    title = _title(front, twin, of, hand)
    under = TEXT + LINE * TEXT
    return Sketch(
        items=(Text(at=(0.0, TEXT), text=title, weight="semibold"), *shifted(paper.items, -left, under - top)),
        wide=max(right - left, width(title, TEXT, "semibold")),
        high=under + bottom - top,
        leans="",
        says=(),
        scale=front.scale,
        view=True,
    )


def _title(front: Front, twin: Front | None, of: str, hand: str) -> str:
    names = front.look.names
    side, whose = names.words[names.face_side], f" of {of}" if of else ""
    title = f"{names.loud(front.surface)}{whose}, seen from outside, {side} up, {scale_words(front.scale)}"
    others = [f"the {names.words[twin.surface]}"] if twin is not None else []
    others += [f"that of {hand}"] if hand else []
    if others:
        title += f"; {' and '.join(others)} {'is its mirror image' if len(others) == 1 else 'are its mirror images'}"
    return title


def running(front: Front) -> UnplacedDimension:
    """The running line over the end, from the front edge."""
    whole, tops = front.look.part.board.depth, _tops(front)
    at = ((d, tops.get(round(d, DIGITS), front.top)) for d in (*places(front), 0.0))
    marks = [DimensionMark((front.x(d), top), from_front(front, d)) for d, top in at]
    datum = DimensionMark((front.x(whole), front.top))
    side = 1 if front.way > 0 else -1
    return UnplacedDimension(
        way=(front.way, 0.0), marks=(datum, *marks), style="running", side=side, weight="bold", says=SAYS
    )


def _tops(front: Front) -> dict[float, float]:
    """How far down an extension line reaches to each place."""
    found: dict[float, float] = {}
    for trace in carried(front.look, front.end):
        middle = on_middle(cut_of(front.look, trace.key))
        for loop in trace.opening:
            d = (min(across_of(loop)) + max(across_of(loop))) / 2 if middle else max(across_of(loop))
            found[round(d, DIGITS)] = min(front.y(c) for c in through_of(loop))
    return found


def _wood(front: Front) -> list[Item]:
    """The board's outline, the end's own face in it, and what opens there."""
    owner, whole = front.look.part.id, front.look.part.board.depth
    corners = (front.at((-front.half, 0.0)), front.at((front.half, whole)))
    (x0, y0), (x1, y1) = corners
    box = ((x0, y0), (x1, y0), (x1, y1), (x0, y1))
    items: list[Item] = [Stroke(points=box, pen="outline", closed=True, layer="wood", owner=owner)]
    for loop in front.view.outline:
        points = tuple(front.at(p) for p in loop)
        items.append(Stroke(points=points, pen="outline", closed=True, layer="wood", owner=owner))
    for trace in carried(front.look, front.end):
        bored = is_bored(cut_of(front.look, trace.key))
        for loop in trace.opening:
            points = tuple(front.at(p) for p in loop)
            items += [] if bored else hatch([points], FACE_STEP, owner=trace.key)
            items.append(Stroke(points=points, pen="outline", closed=True, layer="wood", owner=trace.key))
    return items


def _thickness(front: Front) -> list[UnplacedDimension]:
    """Plain figures through the thickness: from the face side on the left, the rest on the right."""
    found = []
    for low, high, figure in heights(front):
        x, side = (front.left, -1) if low == 0.0 else (front.right, 1)
        start, end = ((x, front.top + size * front.scale) for size in (low, high))
        found.append(plain(start, end, figure, side))
    return found


def _named(front: Front, twin: Front | None) -> list[Item]:
    """Under the end: the names of its edges, and each cut's number with its sizes, between them where there is room."""
    names, base = front.look.names, front.bottom + PAST + TEXT
    edges = (names.words[Surface.FRONT], names.words[Surface.WALL])
    left, right = edges if front.way > 0 else edges[::-1]
    items: list[Item] = [
        Text(at=(front.left, base), text=left),
        Text(at=(front.right, base), text=right, anchor="end"),
    ]
    told = _told(front, twin)
    wide, room = extent(told).right, front.right - front.left - sum(width(edge, TEXT) for edge in edges)
    beside = LINE * TEXT + width(left, TEXT)
    if wide + 2 * LINE * TEXT <= room:
        return [*items, *shifted(told, front.left + beside + (room - 2 * LINE * TEXT - wide) / 2, base)]
    return [*items, *shifted(told, front.left, base + BALLOON)]


def _told(front: Front, twin: Front | None) -> list[Item]:
    """Each cut's number with its sizes, on one line from (0, 0)."""
    others = told_of(twin) if twin is not None else []
    items: list[Item] = []
    x, base = 0.0, 0.0
    for place, cut in enumerate(told_of(front)):
        numbers = [front.look.numbers.get(one.key) for one in (cut, *others[place : place + 1])]
        for number in (number for number in numbers if number is not None):
            items += balloon((x + BALLOON / 2, base - TEXT / 2), str(number), cut.key)
            x += BALLOON + AIR
        words = sizes(front.look, cut)
        items.append(Text(at=(x + AIR, base), text=words, owner=cut.key))
        x += width(words, TEXT) + LINE * TEXT
    return items


def keyed(look: Look) -> bool:
    """Whether both ends carry key pockets alike and nothing else, so that one line of figures tells them."""
    forms = {cut.form for cut in look.part.cuts if at_end(look, cut.key)}
    if forms != {CutForm.POCKET} or not all(needed(look, end) for end in (DATUM_END, FAR_END)):
        return False
    return features(front_of(look, DATUM_END)) == features(front_of(look, FAR_END))
