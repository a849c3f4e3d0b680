"""Ends seen from outside, where they are not square or carry cuts: tongues, tails, dowel holes, grooves, pockets.

Each is drawn as you see it standing before the end with the face side up, so that left and right change between
the two ends; the front edge is named in the view. Everything is measured from the front edge, and on a square
end from the face side too. A plain bevel has no view: its section in `sections` says all there is to say.
"""

from dataclasses import replace

from .....geometry.views import Surface
from .....piece.model import DATUM_END, FAR_END
from ....display import Item, Stroke, Text, extent
from ....hatch import hatch
from ....lettering import TEXT, width
from ....looks import Look, is_bored
from ....naming import position, scale_words
from ....symbols import BALLOON, balloon
from ...dimensions.mirrored import mirrored
from ...dimensions.plain import across
from ...dimensions.running import Line, Mark, drawn, plan
from ...page.arranging import Sketch
from ..faces.surface import at_end
from ..looking import cut_of
from .fronts import (
    BESIDE,
    Front,
    across_of,
    features,
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

CLEAR = 2.4  # from the running line to the wood
UNDER = 7.0  # for the names of the edges and the cuts' numbers
HATCH = 0.8
SAYS = "from front edge"


def end_views(look: Look, of: str = "", twin: str = "") -> list[Sketch]:
    """The views of a part's ends that need one; two that are mirror images share one drawing.

    Args:
        of: the letter of the hand that is drawn, of a pair.
        twin: that of the other hand, whose ends are the mirror images.
    """
    fronts = [front_of(look, end) for end in (DATUM_END, FAR_END) if needed(look, end)]
    if len(fronts) == 2 and features(fronts[0]) == features(fronts[1]):
        return [_drawn(fronts[0], fronts[1], of, twin)]
    return [_drawn(front, None, of, twin) for front in fronts]


def _drawn(front: Front, twin: Front | None, of: str, hand: str) -> Sketch:
    """One end; `twin` is the board's other one, `hand` the other hand's letter: told in words as mirror images."""
    title, items = _title(front, twin, of, hand)
    line = _line(front)
    front = replace(front, top=TEXT + 2.4 + line.over(-1.0) + line.crank + CLEAR)
    line = _line(front)
    level = TEXT + 2.4 + line.over(-1.0)
    running = drawn(line, level, -1.0)
    items += [*_wood(front), *(mirrored(running, front.left, front.right) if front.way < 0 else running)]
    named = _named(front, twin)
    items += [*_thickness(front), *named]
    return Sketch(
        items=tuple(items),
        wide=max(front.right + BESIDE, width(title, TEXT, "semibold")),
        high=max(front.bottom + UNDER, extent(named)[3]) + 1.0,
        leans="",
        says=(),
        scale=front.scale,
        view=True,
    )


def _title(front: Front, twin: Front | None, of: str, hand: str) -> tuple[str, list[Item]]:
    names = front.look.names
    side, whose = names.words[names.face_side], f" of {of}" if of else ""
    title = f"{names.loud(front.surface)}{whose}, seen from outside, {side} up, {scale_words(front.scale)}"
    others = [f"the {names.words[twin.surface]}"] if twin is not None else []
    others += [f"that of {hand}"] if hand else []
    if others:
        title += f"; {' and '.join(others)} {'is its mirror image' if len(others) == 1 else 'are its mirror images'}"
    return title, [Text(at=(0.0, TEXT + 0.4), text=title, weight="semibold")]


def _line(front: Front) -> Line:
    """The running line from the front edge, planned to the right; one that runs left is mirrored when drawn."""
    whole = front.look.part.board.depth
    tops = _tops(front)
    marks = [
        Mark(
            x=front.left + (whole - d) * front.scale,
            figure=position(whole - d),
            foot=tops.get(round(d, 3), front.top),
            edge=front.top,
        )
        for d in (*places(front), 0.0)
    ]
    return plan(front.left, marks, SAYS)


def _tops(front: Front) -> dict[float, float]:
    """How far down an extension line reaches to each place."""
    found: dict[float, float] = {}
    for trace in carried(front.look, front.end):
        middle = on_middle(cut_of(front.look, trace.key))
        for loop in trace.opening:
            d = (min(across_of(loop)) + max(across_of(loop))) / 2 if middle else max(across_of(loop))
            found[round(d, 3)] = min(front.y(c) for c in through_of(loop))
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
            items += [] if bored else hatch([points], HATCH, owner=trace.key)
            items.append(Stroke(points=points, pen="outline", closed=True, layer="wood", owner=trace.key))
    return items


def _thickness(front: Front) -> list[Item]:
    """Plain figures through the thickness: from the face side on the left, the rest on the right."""
    items: list[Item] = []
    sides = {True: front.left - 3.4, False: front.right + 3.4}
    for low, high, figure in heights(front):
        left = low == 0.0
        x = sides[left]
        sides[left] += -3.8 if left else 3.8
        edge = front.left if left else front.right
        for size in (low, high):
            y = front.top + size * front.scale
            out = x - 1.6 if left else x + 1.6
            begin = edge if size in (0.0, 2 * front.half) else (front.right if left else front.left)
            pen = "dimension" if begin == edge else "axis"
            items.append(Stroke(points=((begin, y), (out, y)), pen=pen, layer="dimension"))
        top, bottom = front.top + low * front.scale, front.top + high * front.scale
        items += across(x, top, bottom, figure, bold=True, beside=-1.0 if left else 1.0)
    return items


def _named(front: Front, twin: Front | None) -> list[Item]:
    """Under the end: the names of its edges, and each cut's number with its sizes."""
    names, base = front.look.names, front.bottom + 1.6 + TEXT
    edges = (names.words[Surface.FRONT], names.words[Surface.WALL])
    left, right = edges if front.way > 0 else edges[::-1]
    items: list[Item] = [
        Text(at=(front.left, base), text=left),
        Text(at=(front.right, base), text=right, anchor="end"),
    ]
    others = told_of(twin) if twin is not None else []
    told = []
    for place, cut in enumerate(told_of(front)):
        numbers = [front.look.numbers.get(one.key) for one in (cut, *others[place : place + 1])]
        told.append(([str(number) for number in numbers if number is not None], sizes(front.look, cut), cut.key))
    wide = sum(len(labels) * (BALLOON + 0.6) + 1.0 + width(words, TEXT) + 4.0 for labels, words, _ in told)
    x = (front.left + front.right - wide) / 2
    if x < front.left + max(width(left, TEXT), width(right, TEXT)) + 3.0:
        x, base = max(front.left, x), base + BALLOON + 0.4
    for labels, words, key in told:
        for label in labels:
            items += balloon((x + BALLOON / 2, base - TEXT / 2), label, key)
            x += BALLOON + 0.6
        items.append(Text(at=(x + 0.4, base), text=words, owner=key))
        x += width(words, TEXT) + 4.0
    return items


def keyed(look: Look) -> bool:
    """Whether both ends carry key pockets alike and nothing else, so that one line of figures tells them."""
    kinds = {cut.kind for cut in look.part.cuts if at_end(look, cut.key)}
    if kinds != {"key pockets"} or not all(needed(look, end) for end in (DATUM_END, FAR_END)):
        return False
    return features(front_of(look, DATUM_END)) == features(front_of(look, FAR_END))
