"""How a part's length came about, as a sum a maker can follow: between shoulders + 2 × 7.0 = 790.

An end that goes into another board has its face, or the shoulders, where the board it enters begins; a mitre's
long point lies past its short one; an end to be scribed is cut long. Lengths of leaning ends are summed on the
middle line, where both faces' lengths are halved.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from .....geometry.shapes import HalfSpace
from .....geometry.views import FACES, Surface
from .....piece.model import DATUM_END, FAR_END, Cut
from .....piece.sums import Sum
from .....sentences import Fineness, Voice, told
from ....looks import Look
from ....naming import LEAST, adding_up, angle, depth, position, printed_units
from ....standard import RIGHT
from .facts import LEAST_LEAN, is_tongue, scribe_of


@dataclass(frozen=True, slots=True, kw_only=True)
class _Goes:
    """What one end has past the shoulder or face it stands to, along the middle line; `how` as the joint tells it.

    Attributes:
        beyond: of that what the faces do not show: a tongue stands out past both.
    """

    more: float
    shouldered: bool
    how: str
    beyond: float


def sums(look: Look) -> list[str]:
    """Sentences: the length as a sum, then what each scribed end is cut at, then what an end is cut to."""
    ends = {cut.end: cut for cut in look.part.cuts if cut.end}
    if set(ends) != {DATUM_END, FAR_END}:
        return []
    return [*_length(look, ends[DATUM_END], ends[FAR_END]), *_scribed(look), *_others(look, ends)]


def _length(look: Look, datum: Cut, far: Cut) -> Iterator[str]:
    if datum.figures.stands == far.figures.stands == "corner":
        yield from _mitred(look, datum, far)
        return
    goes = [_goes(look, cut) for cut in (datum, far)]
    lets = [item for item in goes if item is not None]
    if not lets:
        return
    middle = _middle(look, FAR_END) - _middle(look, DATUM_END) + sum(item.beyond for item in lets)
    whole, *more = (adding_up(one, (), one)[0] for one in (middle, *(item.more for item in lets)))
    between = whole - sum(more)  # how far each goes in is told elsewhere too: there is no figure to be taken from it
    leaning = any(abs(cut.figures.lean) > LEAST_LEAN for cut in (datum, far))
    what = "On the middle line" if leaning else "Length"
    yield f"{what} {position(whole)} = {position(between)} {_base(goes)} + {_added(more)}{_how(lets)}."
    if leaning:
        yield f"Long points {position(look.part.length)}."


def _mitred(look: Look, datum: Cut, far: Cut) -> Iterator[str]:
    """Over the long points, from the short ones; an end that is square at its long point adds nothing."""
    both = [abs(look.end_at(cut.end, FACES[0]) - look.end_at(cut.end, FACES[1])) for cut in (datum, far)]
    past = [one for one in both if one > LEAST]
    if not past:
        return
    whole, short, more = adding_up(look.part.short[1] - look.part.short[0], past, look.part.length)
    yield f"Long points {position(whole)} = short points {position(short)} + {_added(more)}."


def _goes(look: Look, cut: Cut) -> _Goes | None:
    """What an end has beyond the face of the board it enters; None for a free end, a butt or a mitre."""
    if not cut.figures.goes_in or not cut.figures.deep:
        return None
    along = cut.figures.deep / math.sin(math.radians(cut.figures.between_faces))
    less = _less(cut.figures.depth)
    if cut.figures.between_faces < RIGHT - LEAST_LEAN:
        less = f"({depth(cut.figures.deep)} square to the face at {angle(cut.figures.between_faces)})"
    beyond = along if is_tongue(look, cut) and not _shows(look, cut) else 0.0
    return _Goes(more=along, shouldered=cut.figures.stands == "shoulder", how=less, beyond=beyond)


def _shows(look: Look, cut: Cut) -> bool:
    """Whether a face reaches to the end itself: a tongue over part of the width has the whole board beside it."""
    plane = next((shape for shape in cut.shapes if isinstance(shape, HalfSpace)), None)
    if plane is None or not plane.normal[0]:
        return False
    (x, y, _), (along, through, _) = plane.point, plane.normal
    half = look.part.board.thickness_at(x) / 2
    for face, c in zip(FACES, (half, -half), strict=True):
        if abs(x - (c - y) * through / along - look.part.zero - look.end_at(cut.end, face)) < LEAST:
            return True
    return False


def _less(deep: Sum | None) -> str:
    """What of the housing's depth the end leaves free; "" where nothing."""
    if deep is None or len(deep.terms) < 2:
        return ""
    _, (whole, free) = deep.printed(Fineness.PLACE.size(printed_units()))
    return f"({depth(whole)} deep less {depth(abs(free))})"


def how_said(cut: Cut) -> str:
    """How the size of a cut came about, in words."""
    return told(cut.figures.how(printed_units(), named=True), Voice(printed_units(), bare=True))


def _base(goes: list[_Goes | None]) -> str:
    """What the sum starts from."""
    lets = [item for item in goes if item is not None]
    if len(lets) < len(goes):
        return "to the shoulder" if lets[0].shouldered else "to the face"
    if all(item.shouldered for item in lets):
        return "between shoulders"
    return "between faces" if not any(item.shouldered for item in lets) else "between face and shoulder"


def _added(more: Sequence[float]) -> str:
    words = [depth(one) for one in more]
    return f"2 × {words[0]}" if len(words) == 2 and words[0] == words[1] else " + ".join(words)


def _how(lets: list[_Goes]) -> str:
    """How deep the ends go in, where it is less than their housings, or not along the board."""
    words = list(dict.fromkeys(item.how for item in lets if item.how))
    return f" {' and '.join(words)}" if words else ""


def _middle(look: Look, end: int) -> float:
    """Where an end lies on the middle line."""
    return sum(look.end_at(end, face) for face in FACES) / 2


def _scribed(look: Look) -> Iterator[str]:
    """Finish line, what is left long, and where the saw goes."""
    for end, surface in ((DATUM_END, Surface.DATUM), (FAR_END, Surface.FAR)):
        scribe = scribe_of(look.part, end)
        if scribe < LEAST:
            continue
        word = look.names.words[surface]
        finish = look.end_at(end, look.names.face_side)
        sign = "+" if end > 0 else "−"
        whole, line, (left,) = adding_up(finish, [end * scribe])
        said = f"finish line {position(line)} {sign} {position(abs(left))} left long"
        yield f"{word[0].upper()}{word[1:]}: {said} = cut at {position(whole)}."


def _others(look: Look, ends: dict[int, Cut]) -> Iterator[str]:
    """Ends whose sum is none of figures, as their joint tells it."""
    for end, surface in ((DATUM_END, Surface.DATUM), (FAR_END, Surface.FAR)):
        cut = ends[end]
        if cut.joint is None or not (said := how_said(cut)) or _goes(look, cut) is not None:
            continue
        if all(one.figures.stands == "corner" for one in ends.values()):
            continue
        word = look.names.words[surface]
        yield f"{word[0].upper()}{word[1:]}: {said}."
