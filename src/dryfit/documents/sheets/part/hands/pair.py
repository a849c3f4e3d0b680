"""A left and a right hand on one sheet, drawn beside one another as the mirror images they are: never "x 2".

Hands that stand are drawn standing, opened like a book, the wall edges in the middle; long ones, and boards that lie
level, are drawn lying, one above the other, the wall edges together. Each is drawn from its own cuts, with one table
for both and a box to tick for each; sections and views of ends are drawn once, for the hand whose letter they name.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property

from .....geometry.views import OPPOSITE, Surface
from ....display import Draft, Item, Text, shifted
from ....kit.axis import Axis
from ....lettering import NAME, TEXT, width
from ....looks import Desk, Look
from ....naming import Called, position
from ....standard import A4, AIR, DETAILS, LINE
from ...page.arranging import Sketch
from ...page.frame import BLOCK_WIDE, LEFT, MARGIN, Space
from ...page.table import Column, Row, unfolded
from ..alike import LONG, along, dark
from ..ends.views import end_views, keyed
from ..faces.stops import stop_details
from ..faces.surface import at_end, cuts_seen, marks, plane_for
from ..fellows import Pair, same_unmarked, standing
from ..fooling import SAME, turned_off
from ..page import SMALLEST, PartPage
from ..sketches import seen_from, sketches
from ..stack import LyingPart, Stacked, least_high, pair_stacked, surfaces
from ..words.joined import joined, ticked
from ..words.together import common, together
from .heading import pair_heading
from .standing import Stood, drawn_standing

LONGEST = BLOCK_WIDE / 2  # on paper: of a name for both, between their letters
HIGHEST = 110.0  # of standing hands, on paper
OTHERS, AROUND = 30.0, 24.0  # on paper: of the heading, and of what stands about each pair of faces
OFF = 50.0  # of a cut from its place on a hand turned end for end: further off, nobody is fooled
INNER = (Surface.MINUS, Surface.PLUS)  # the faces that look at one another, left hand's first
OUTER = (Surface.PLUS, Surface.MINUS)


def pair_sheets(desk: Desk, pair: Pair) -> Iterator[Draft]:
    """The sheets of a pair of hands: on one paper where both fit it, else the faces that look inward first."""
    shown, lying = PairShown(desk, pair), (A4[1], A4[0])
    for size in (A4,) if pair.left.part.length <= LONG else (lying, A4):
        page = PartPage(desk, shown, size)
        if page.large_enough:
            yield from _fewest(desk, shown, page)
            return
    yield from PartPage(desk, replace(shown, only=INNER), lying, "views").drafts()
    yield from PartPage(desk, replace(shown, only=OUTER), lying, "table").drafts()


def _fewest(desk: Desk, shown: "PairShown", page: PartPage) -> list[Draft]:
    """One sheet with the views of ends; else one with the key pockets under the hands, if these are all; else more."""
    drafts = page.drafts()
    if len(drafts) == 1 or not shown.stands or not keyed(shown.shown):
        return drafts
    shorter = PartPage(desk, replace(shown, keys=True), page.size).drafts()
    return shorter if len(shorter) == 1 else drafts


@dataclass
class PairShown:
    """A pair as its page asks for it.

    Attributes:
        only: the faces drawn on this sheet of boards that lie, where another has the others; else ().
        keys: whether key pockets are told under standing hands, and not by a view of an end.
    """

    desk: Desk
    pair: Pair
    only: tuple[Surface, ...] = ()
    keys: bool = False

    # --- who is who ------------------------------------------------------------------------------

    @property
    def looks(self) -> tuple[Look, ...]:
        """Left, then right."""
        return self.pair.looks

    @cached_property
    def drawn(self) -> tuple[Look, Look]:
        """Both as they are drawn: marked from the faces that look inward, if their face sides are no mirror images."""
        left, right = self.pair.looks
        if left.names.face_side is OPPOSITE[right.names.face_side]:
            return left, right
        return _turned(left, INNER[0]), _turned(right, INNER[1])

    @property
    def shown(self) -> Look:
        """The left hand."""
        return self.drawn[0]

    @property
    def words(self) -> tuple[str, str]:
        """Which is which."""
        return ("left", "right") if standing(self.pair.left) else ("upper", "lower")

    @property
    def letters(self) -> str:
        """Both letters."""
        return ", ".join(look.part.mark for look in self.looks)

    @property
    def title(self) -> str:
        """What the two names share, else which hand is which."""
        names = [look.part.id for look in self.looks]
        title = common(names) or together(names)
        return title if width(title, NAME, "semibold") <= LONGEST else f"{self.words[0]} and {self.words[1]}"

    @property
    def number(self) -> str:
        """Both letters."""
        return "".join(look.part.mark for look in self.looks)

    @property
    def kind(self) -> str:
        """The kind of paper."""
        return "part, a pair"

    @property
    def seen(self) -> str:
        """From where the sections are seen."""
        left, right = self.drawn
        return f"{left.part.mark} {seen_from(left)}; {right.part.mark} looks the same {seen_from(right, left)}"

    def heading(self, desk: Desk, space: Space, more: str) -> tuple[list[Item], float]:
        """A letter in each top corner, the name between them, the facts and the sides below."""
        return pair_heading(desk, self.looks, self.words, space, self.title, more)

    # --- drawing ---------------------------------------------------------------------------------

    @property
    def lies(self) -> bool:
        """Whether the hands lie one above the other."""
        return not self.stands

    @cached_property
    def stands(self) -> bool:
        """Whether the hands are drawn standing: they stand, are short enough, and fit the sheet side by side."""
        if not standing(self.shown) or self.shown.part.length > LONG:
            return False
        return next(self._scales(A4[0] - LEFT - MARGIN), 0.0) >= SMALLEST

    def _scales(self, wide: float) -> Iterator[float]:
        """Scales at which the hands stand side by side."""
        for scale in DETAILS:
            if self.shown.part.length * scale <= HIGHEST and self._stood(self._faces[0], scale).wide <= wide:
                yield scale

    def _stood(self, faces: tuple[Surface, Surface], scale: float) -> Stood:
        """Two faces drawn standing at a scale."""
        return drawn_standing(self.desk, self.pair, faces, scale, keys=self.keys)

    def rulers(self, space: Space) -> list[Axis]:
        """Ways to draw it: standing at the largest scale that suits, else lying along the sheet."""
        look = self.shown
        if not self.stands:
            return along(look, space)
        fitting = [scale for scale in self._scales(space.wide) if scale >= SMALLEST]
        high = space.high - OTHERS - len(self._faces) * AROUND
        good = [scale for scale in fitting if len(self._faces) * look.part.length * scale <= high] or fitting
        return [Axis.whole(0.0, look.part.length, scale, space.left) for scale in good[:1]]

    def stack(self, desk: Desk, ruler: Axis, top: float, right: float) -> Stacked:
        """Both hands' views from `top` down."""
        if not self.stands:
            return self._lying(desk, ruler, top, right)
        items: list[Item] = []
        y, middle = top, (LEFT + right) / 2
        for faces in self._faces:
            items.append(Text(at=(middle, y + TEXT), text=self._opened(faces), anchor="middle"))
            made = self._stood(faces, ruler.scale)
            items += shifted(made.items, middle - made.wide / 2, y + LINE * TEXT + AIR)
            y += LINE * TEXT + AIR + made.high + TEXT
        return Stacked(items, y)

    def _opened(self, faces: tuple[Surface, Surface]) -> str:
        """What is seen of the two standing hands."""
        left, right = (look.names.loud(face) for look, face in zip(self.looks, faces, strict=True))
        one, other = (look.part.mark for look in self.looks)
        which = f"the two {left}S" if left == right else f"the {left} of {one} and the {right} of {other}"
        stands = "standing as they stand, " if self.shown.names.short(Surface.DATUM) == "lower" else ""
        how = "opened like a book" if faces == INNER else "each rolled on over its front edge"
        return f"{stands}{how}: you look at {which}"

    @cached_property
    def _faces(self) -> list[tuple[Surface, Surface]]:
        """The faces that are drawn: those that look at one another, and the others if they have cuts of their own."""
        inner, outer = (self._told(faces[0]) for faces in (INNER, OUTER))
        if not outer - inner:
            return [INNER]
        return [INNER, OUTER] if inner or self.shown.names.face_side is INNER[0] else [OUTER]

    def _told(self, face: Surface) -> set[tuple[str, str]]:
        """What the left hand's face shows: each cut with its figure."""
        look = self.shown
        axis = Axis.whole(0.0, look.part.length, 1.0)
        seen = {trace.key for trace in cuts_seen(look, face) if not at_end(look, trace.key)}
        return {(mark.owner, mark.figure) for mark in marks(plane_for(look, face, axis), 1.0) if mark.owner in seen}

    def _lying(self, desk: Desk, ruler: Axis, top: float, right: float) -> Stacked:
        """One above the other, wall edges together."""
        hands = []
        for look, real, inner in zip(self.drawn, self.looks, INNER, strict=True):
            needed = {inner} | {face for face in INNER if _shows(look, face)}
            if self.only:
                needed &= {inner if self.only == INNER else OPPOSITE[inner]}
            shown = tuple(face for face in (OUTER[0], Surface.FRONT, OUTER[1]) if face in {*needed, Surface.FRONT})
            hands.append(
                LyingPart(look=look, face_side=real.names.face_side, faces=shown, inner=inner, of=look.part.mark)
            )
        return pair_stacked(desk, hands, ruler, top, right)

    def least(self, scale: float) -> float:
        """How high the views are at least: of hands that lie, one hand's."""
        return 0.0 if self.stands or self.only else least_high(self.shown, len(surfaces(self.shown)), scale)

    def sketches(self, desk: Desk, *, roomy: bool) -> list[Sketch]:
        """Sections, stops and views of ends, once: of the left hand."""
        look, (one, other) = self.shown, (look.part.mark for look in self.looks)
        stops = stop_details(look, roomy=roomy) if self.stands else []
        ends = [] if self.keys else end_views(look, one, other, roomy=roomy)
        sections = [_of_both(sketch, one, other) for sketch in sketches(desk, look, roomy=roomy)]
        return [*sections, *stops, *ends]

    # --- table, picture, words ---------------------------------------------------------------------

    def columns(self, desk: Desk, wide: float) -> list[Column]:
        """The cut table's columns, one to tick for each hand; faces that are called differently are inner and outer."""
        return ticked(desk, self._in_table, wide)

    @cached_property
    def _in_table(self) -> list[Look]:
        """Both hands; what their faces are called instead, where the two are called differently."""
        names = [look.names for look in self.drawn]
        if names[0].words[names[0].face_side] == names[1].words[names[1].face_side]:
            return list(self.drawn)
        return [
            look.called({look.names.face_side: Called("inner", "face"), look.names.other_face: Called("outer", "face")})
            for look in self.drawn
        ]

    def rows(self, desk: Desk, wide: float) -> list[Row]:
        """One row for both hands' cut."""
        return unfolded(self.columns(desk, wide), joined(desk, self._in_table))

    @property
    def told_in_table(self) -> bool:
        """Whether the table says all that a view of the ends shows: lying hands with key pockets alone."""
        return not self.stands and keyed(self.shown)

    def picture(self, desk: Desk, box: tuple[float, float, float, float]) -> list[Item]:
        """The whole piece small, with both dark."""
        return dark(desk, [look.part.id for look in self.looks], box)

    def fools(self) -> list[str]:
        """What of the two will fool you."""
        look = self.shown
        words = ["They differ in nothing but the hand: read the letters."]
        if same_unmarked(look.part):
            words = ["Unmarked they are the same board: mark both before you cut either."]
        if not self.stands:
            words.append("One triangle goes over both, the wall edges put together.")
        edges = {_opens_to(look, cut.key) for cut in look.part.cuts} - {""}
        if len(edges) == 1:
            words.append(f"The cuts open to the {edges.pop().upper()} on both.")
        off = turned_off(look.part)
        if off is not None and SAME < off <= OFF:
            datum = look.names.words[Surface.DATUM]
            words.append(f"Turned end for end, a cut lies {position(off)} off: mark the {datum}.")
        return words


def _of_both(sketch: Sketch, one: str, other: str) -> Sketch:
    """A head that leans one way in the hand that is drawn leans the other way in the other."""
    if sketch.head is None:
        return sketch
    opposite = "LEFT" if sketch.head == "RIGHT" else "RIGHT"
    return replace(sketch, leans=f"{one}: head {sketch.head}, {other}: {opposite}")


def _turned(look: Look, face: Surface) -> Look:
    """The same part marked from that face."""
    side = 1 if face is Surface.PLUS else -1
    return Look(replace(look.part, board=replace(look.part.board, face_side=side)))


def _shows(look: Look, face: Surface) -> bool:
    """Whether a face must be drawn: it carries the marks, or cuts that no view of an end tells."""
    return face is look.names.face_side or any(not at_end(look, trace.key) for trace in cuts_seen(look, face))


def _opens_to(look: Look, key: str) -> str:
    """The one edge at which a cut in a face runs out; "" where it runs out at both or at none."""
    whole_depth = look.part.board.depth
    for face in INNER:
        trace = look.view(face).trace(key)
        if trace is not None and trace.seen and not trace.end and not at_end(look, key):
            at_wall, at_front = trace.across[0] < SAME, trace.across[1] > whole_depth - SAME
            return "" if at_wall == at_front else look.names.words[Surface.WALL if at_wall else Surface.FRONT]
    return ""
