"""A pair of hands drawn as they stand, opened like a book: left hand left, one face of each, their edges beside them.

The two drawings are mirror images because the boards are: each is drawn from its own cuts. The wall edges meet in
the middle and running figures stand between them; of the other two faces, rolled on over the front edges, the
front edges meet and the figures stand outside.
"""

from dataclasses import dataclass

from .....geometry.frames import Vec2
from .....geometry.views import Surface
from .....piece.model import DATUM_END
from ....display import Item, Text, extent
from ....lettering import FIGURE, TEXT, width, wrapped
from ....looks import Desk, Look
from ....naming import position
from ...dimensions.running import PAST
from ...page.placing import Rect, Room
from ..fellows import Pair
from .hand import EDGE_GAP, Hand
from .items import BESIDE, LINE, hand_items, running

MIDDLE = 9.0  # between two front edges
ABOVE = 4.4  # over the boards, for the names of their edges
SPACED = 4.0  # between figures of the two hands
OUT = 12.0  # most that is left free outside them


@dataclass(frozen=True, slots=True, kw_only=True)
class Stood:
    """Both hands drawn: the items, and the y below them."""

    items: list[Item]
    bottom: float


def figures_wide(look: Look) -> float:
    """Room for the running figures of a hand, from the wood on."""
    widest = max(width(position(look.part.length), FIGURE, "bold"), width("000.0", FIGURE, "bold"))
    return LINE + BESIDE + widest


def needed_width(look: Look, scale: float, *, inner: bool) -> float:
    """How wide both hands come with their figures."""
    board = look.part.board
    hand = (board.depth + board.thickest) * scale + EDGE_GAP
    between = 2 * figures_wide(look) + SPACED if inner else MIDDLE + 2 * figures_wide(look)
    return 2 * hand + between


def drawn_standing(
    desk: Desk, pair: Pair, faces: tuple[Surface, Surface], scale: float, span: Vec2, top: float, *, keys: bool
) -> Stood:
    """Both hands with the faces given, left hand's first, between two x on paper; `keys`: pockets under them."""
    inner = faces[0] is Surface.MINUS
    left, right = _placed(desk, pair, faces, scale, span, top)
    items = [*hand_items(left, inner, keys), *hand_items(right, inner, keys)]
    items += _between(left, right) if inner else []
    return Stood(items=items, bottom=extent(items)[3] + 1.6)


def _placed(
    desk: Desk, pair: Pair, faces: tuple[Surface, Surface], scale: float, span: Vec2, top: float
) -> tuple[Hand, Hand]:
    """The two hands at their places, as far out as there is room."""
    board = pair.left.part.board
    wide, thick = board.depth * scale, board.thickest * scale
    zero = top + ABOVE + pair.left.part.length * scale + pair.left.part.board.scribe[1] * scale
    spare = (span[1] - span[0] - needed_width(pair.left, scale, inner=faces[0] is Surface.MINUS)) / 2
    if faces[0] is Surface.MINUS:
        spare = min(spare, OUT)
        places = (span[0] + spare + thick + EDGE_GAP, span[1] - spare - thick - EDGE_GAP - wide)
    else:
        outer = figures_wide(pair.left)
        places = (span[0] + spare + outer, span[1] - spare - outer - wide)
    hands = [
        Hand(
            desk=desk,
            look=look,
            surface=face,
            scale=scale,
            left=x,
            zero=zero,
            towards=1.0 if (number == 0) == (faces[0] is Surface.MINUS) else -1.0,
            word=("left", "right")[number],
        )
        for number, (look, face, x) in enumerate(zip(pair.looks, faces, places, strict=True))
    ]
    return hands[0], hands[1]


def _between(left: Hand, right: Hand) -> list[Item]:
    """Words between the hands: which end is which, where the datum is, what the triangle is for."""
    names = left.look.names
    middle = (left.right + right.left) / 2
    room = right.left - left.right - 2.0
    bevelled = abs(left.look.end_at(DATUM_END, left.surface)) > 0.05
    items: list[Item] = [
        Text(at=(middle, left.top - 3.2), text=names.words[Surface.FAR], weight="semibold", anchor="middle"),
        Text(at=(middle, left.zero + 3.8), text=names.words[Surface.DATUM], weight="semibold", anchor="middle"),
    ]
    datum = "datum: its long point" if bevelled else "datum"
    items.append(Text(at=(middle, left.zero + 7.4), text=datum, anchor="middle"))
    lines = wrapped("one triangle over the pair, wall edges put together", room - 2 * (LINE + PAST + 1.0), TEXT)
    high = len(lines) * 3.6
    taken = Room(Rect(left.right, left.top + 6.0, right.left, left.zero - 8.0))
    taken.block_items(item for hand in (left, right) for item in running(hand) if isinstance(item, Text))
    middle_y = (left.top + left.zero - high) / 2
    steps = (0.0, *(way * step for step in range(4, 80, 4) for way in (-1.0, 1.0)))
    wide = max(width(line, TEXT) for line in lines)
    spot = taken.find(wide, high, [(middle - wide / 2, middle_y + step) for step in steps], air=1.0)
    if spot is not None:
        for number, line in enumerate(lines):
            items.append(Text(at=(middle, spot[1] + TEXT + number * 3.6), text=line, anchor="middle"))
    return items
