"""Operations: the bench work that makes the cuts, as whoever makes a cut knows it; the one source of set-ups.

An operation has one or more ways; each says what it wants of a tool (`shop.tools`) and all that is set for it. Cuts
for which the same is set, as printed, share a set-up: the study `setups` finds them. Nobody guesses from shapes.

LEFT and RIGHT of walls that lean are those of `leaning`: the same from either face, so a slot open to the front of one
board may share its guide with one open to the wall of another.

The reach that a slot right through wants, from the far wall's mouth: width 24.15, thickness 24, lean 9:
24.15 tan 9 + 24 / cos 9 + 1 = 29.1 below the bed of the guide; what the bed and the base take, `shop.tools` knows.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise
from typing import TypeAlias

from ..geometry.shapes import Bore, HalfSpace, Prism
from ..places import Pair
from ..sentences import Angle, Fineness, Length, Several, Value, Words, say
from ..shop.model import Shop
from ..shop.tools import Ability, Lack, Need, Process, Tool, tool_for_needs
from .leaning import edges_open, head
from .model import Board, Cut

LEAST_LEAN = 0.025  # degrees; less prints as square
LEAST = 1e-6
PAST = 1.0  # a cutter goes so far into the backing (common practice)
GUIDE = 30.0  # of a bit, in a guide block or a jig's bush (common practice)
STEEPEST = 45.0  # degrees off square: where the scales of saws end (common practice)
TALLEST = 900.0  # a longer board is not stood on its end at a saw (from memory)


class WorkSort(StrEnum):
    """What sort of work it is: set-ups of one sort stand together, and its letter begins their names."""

    ACROSS = "R"
    ALONG = "L"
    HOLES = "D"
    ENDS = "M"
    CORNER = "K"


class Dial(StrEnum):
    """What is set before the first cut of a set-up."""

    WIDTH = "width"
    DEPTH = "depth"
    LEAN = "lean"
    HEAD = "head"
    STOP = "stop"
    PLACE = "place"
    CORNER = "corner"
    CUTTER = "cutter"


Sets: TypeAlias = tuple[tuple[Dial, Value], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """One way to carry out an operation.

    Attributes:
        makes: what comes of it, in a word or two.
        says: how, in the maker's words.
        needs: what its tool must be able to do; of a router's cutter, straight flanks where no slope is asked.
        sets: all that is set; nothing where it is worked to its lines alone.
        faces: from how many faces of the board it is worked.
    """

    process: Process
    makes: Words
    says: Words
    needs: tuple[Need, ...] = ()
    sets: Sets = ()
    faces: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Operation:
    """A step at the bench that makes one or more cuts, or one bit's share of a hole.

    Attributes:
        key: unique in the piece.
        cuts: keys of the cuts it makes, all of them with the same settings.
        ways: alternatives, the first one preferred.
        after: keys of operations that must come first.
        after_gluing: the joint that must be glued before; None for none.
    """

    key: str
    work: WorkSort
    cuts: tuple[str, ...]
    ways: tuple[Way, ...]
    after: tuple[str, ...] = ()
    after_gluing: Pair | None = None


def tool_for(way: Way, shop: Shop) -> Tool | Lack:
    """The tool of a shop by which a way is done, or what is lacking."""
    return tool_for_needs(way.process, way.needs, shop)


# --- across the face -----------------------------------------------------------------------------


def across(cut: Cut, board: Board) -> Sets:
    """What is set for a slot or a housing: width, depth, lean with its head, and from where to where it runs."""
    (prism, *_) = [shape for shape in cut.shapes if isinstance(shape, Prism)]
    sets: list[tuple[Dial, Value]] = []
    if cut.figures.across is not None:
        sets.append((Dial.WIDTH, Length(cut.figures.across, Fineness.WIDTH)))
    if leans(cut):
        sets.append((Dial.LEAN, Angle(abs(cut.figures.lean))))
        sets.append((Dial.HEAD, head(cut.figures.lean, prism, board)))
    if cut.figures.deep is not None:
        sets.append((Dial.DEPTH, Length(cut.figures.deep)))
    if cut.face and (run := _run(prism, board)) is not None:
        sets.append((Dial.STOP, run))
    return tuple(sets)


def leans(cut: Cut) -> bool:
    """Whether its walls, or the end it makes, are off square by what is printed."""
    return abs(cut.figures.lean) > LEAST_LEAN


def _run(prism: Prism, board: Board) -> Value | None:
    """From where to where a housing runs across the board; None from edge to edge."""
    whole = board.depth
    match edges_open(prism, board):
        case (True, True):
            return None
        case (True, False):
            return say("{} from the wall", Length(prism.high))
        case (False, True):
            return say("{} from the front", Length(whole - prism.low))
    return say("{} to {} from the front", Length(whole - prism.high), Length(whole - prism.low))


def router_needs(cut: Cut, reach: float, edge: float | None = None) -> tuple[Need, ...]:
    """What walls of a width, cut with a router, ask of it.

    Args:
        cut: with its width and its lean.
        reach: that is wanted below the base, or below the bed of a tilted guide.
        edge: of the cutter's edge, in wood at once; left out: the same.
    """
    lean = (Need(ability=Ability.LEAN, least=abs(cut.figures.lean)),) if leans(cut) else ()
    wide = () if cut.figures.across is None else (Need(ability=Ability.CUTTER, most=cut.figures.across),)
    return (
        *lean,
        *wide,
        Need(ability=Ability.REACH, least=reach),
        Need(ability=Ability.EDGE, least=reach if edge is None else edge),
    )


def through_reach(cut: Cut, thick: float) -> float:
    """How far a cutter must go below base or bed to come through: over the far wall's mouth, and a little past."""
    lean = math.radians(abs(cut.figures.lean)) if leans(cut) else 0.0
    return (cut.figures.across or 0.0) * math.tan(lean) + thick / math.cos(lean) + PAST


def let_in_reach(cut: Cut) -> float:
    """The same of a housing whose floor is square to its walls, on a centre-line as deep as it is said to be."""
    lean = math.radians(abs(cut.figures.lean)) if leans(cut) else 0.0
    return (cut.figures.across or 0.0) / 2 * math.tan(lean) + (cut.figures.deep or 0.0) / math.cos(lean)


def slotted(cut: Cut, board: Board) -> Operation:
    """A slot through the thickness: with a router from the face, from both faces, else by hand."""
    sets, thick = across(cut, board), board.thickest
    lean = math.radians(abs(cut.figures.lean)) if leans(cut) else 0.0
    whole, in_wood = through_reach(cut, thick), thick / math.cos(lean)
    half = whole - in_wood / 2
    says = "router from the face, through the thickness"
    ways = (
        Way(
            process=Process.ROUTER,
            makes=cut.plain,
            says=says,
            needs=router_needs(cut, whole, in_wood),
            sets=sets,
        ),
        Way(
            process=Process.ROUTER,
            makes=cut.plain,
            says="router from both faces, half the thickness from each",
            needs=router_needs(cut, half, in_wood / 2),
            sets=sets,
            faces=2,
        ),
        Way(process=Process.HAND, makes=cut.plain, says="sawn by hand and pared, through the thickness", sets=sets),
    )
    return Operation(key=cut.key, work=WorkSort.ACROSS, cuts=(cut.key,), ways=ways)


# --- ends ----------------------------------------------------------------------------------------


def sawn(ends: Sequence[Cut], board: Board, *, key: str = "") -> Operation:
    """Ends of one bevel, sawn with one setting; a plain one is sawn to its line, and nothing is set."""
    first = ends[0]
    sets: Sets = ()
    lean = abs(first.figures.lean)
    if leans(first):
        planes = [shape for shape in first.shapes if isinstance(shape, HalfSpace)]
        in_part = not any(abs(plane.normal[1]) > LEAST for plane in planes)
        more: Sets = ((Dial.STOP, "in part of the width"),) if in_part else ()
        sets = ((Dial.LEAN, Angle(bevelled(lean, board).degrees)), *more)
    return Operation(
        key=key or first.key,
        work=WorkSort.ENDS,
        cuts=tuple(cut.key for cut in ends),
        ways=tuple(_sawn_ways(lean, board, sets)),
    )


class Bevelling(StrEnum):
    """How an end that is off square is cut; what it makes is called so in the list of set-ups."""

    TILTED = "mitre or bevel"
    ON_END = "mitre or bevel, board on its end"
    TEMPLATE = "mitre or bevel, pared to a template"


@dataclass(frozen=True, slots=True)
class Bevelled:
    """What is set for an end that is off square: on a saw's scale, or on a bevel gauge from the board's face."""

    how: Bevelling
    degrees: float


def bevelled(lean: float, board: Board) -> Bevelled:
    """No scale is asked for more than 45: the board stands on its end and what is left to 90 is set.

    A board too long to stand there is sawn proud and pared to a template, which has that same angle to the face.

    Example: 24.1 on 20 at a right angle is 50.31 off square; on its end the saw is set to 39.69.
    """
    if lean <= STEEPEST + LEAST:
        return Bevelled(Bevelling.TILTED, lean)
    how = Bevelling.ON_END if board.length <= TALLEST else Bevelling.TEMPLATE
    return Bevelled(how, 90.0 - lean)


def _sawn_ways(lean: float, board: Board, sets: Sets) -> Iterator[Way]:
    one = bevelled(lean, board)
    makes: Words = one.how if sets else "end"
    if one.how is not Bevelling.TEMPLATE:
        deep = Need(ability=Ability.DEPTH, least=board.thickest / math.cos(math.radians(lean)))
        says = "saw" if one.how is Bevelling.TILTED else "saw, the board on its end against a high fence"
        tilted = Need(ability=Ability.LEAN, least=one.degrees)
        yield Way(process=Process.SAW, makes=makes, says=says, needs=(tilted, deep), sets=sets)
    by_hand = "hand saw, trimmed on a shooting board"
    if one.how is not Bevelling.TILTED:
        makes = Bevelling.TEMPLATE
        by_hand = "sawn proud by hand, pared to a template"
    yield Way(process=Process.HAND, makes=makes, says=by_hand, sets=sets)


# --- holes ---------------------------------------------------------------------------------------


def bored(
    cut: Cut, board: Board, says: Words, *, guided: bool = True, after: tuple[str, ...] = ()
) -> Iterator[Operation]:
    """Holes of one cut: an operation for each bit, the wider first, whose floor centres the next.

    Args:
        cut: its bores, all alike.
        board: that they are in.
        says: how.
        guided: whether a guide block or a jig takes some of the bit.
        after: keys of what comes before the first bit.
    """
    bore, *_ = bores = [shape for shape in cut.shapes if isinstance(shape, Bore)]
    fixed, more = _guide_sets(cut, bores, board), GUIDE if guided else 0.0
    steps = list(pairwise(bore.profile))
    for number, ((above, diameter), (bottom, _)) in enumerate(steps):
        last = number == len(steps) - 1
        key = f"holes of {cut.key}" if last else f"counterbore of {cut.key}"
        bit = Need(ability=Ability.BIT, least=diameter, most=diameter)
        makes = cut.word if last else "counterbore"
        wide = (Dial.WIDTH, Length(diameter))
        ways = [
            Way(
                process=Process.DRILL,
                makes=makes,
                says=says,
                needs=(bit, Need(ability=Ability.DEPTH, least=bottom + more)),
                sets=(wide, (Dial.DEPTH, Length(bottom)), *fixed),
            )
        ]
        if bore.through and last and number:
            rest = bottom - above
            far: tuple[Dial, Value] = (Dial.DEPTH, say("{} from the far side", Length(rest)))
            other = Need(ability=Ability.DEPTH, least=rest + more)
            ways.append(
                Way(process=Process.DRILL, makes=makes, says=says, needs=(bit, other), sets=(wide, far, *fixed))
            )
        yield Operation(key=key, work=WorkSort.HOLES, cuts=(cut.key,), ways=tuple(ways), after=after)
        after = (key,)


def _guide_sets(cut: Cut, bores: Sequence[Bore], board: Board) -> Sets:
    """Where holes stand; a guide set to the middle of an edge or an end asks for the same thickness."""
    first = bores[0]
    along, through, out = map(abs, first.direction)
    into_face = through > along and out < through
    thick = board.thickness_at(first.start[0])
    sets: list[tuple[Dial, Value]] = [] if into_face else [(Dial.STOP, say("in {} thick", Length(thick)))]
    if out <= max(along, through):
        places = sorted(board.depth - bore.start[2] for bore in bores)
        sets.append((Dial.PLACE, say("at {}", Several(tuple(map(Length, places)), ", "))))
    elif any(abs(bore.start[1]) > LEAST for bore in bores):
        sets.append((Dial.PLACE, say("axis {}", Length(thick / 2 - board.face_side * first.start[1]))))
    return tuple(sets)
