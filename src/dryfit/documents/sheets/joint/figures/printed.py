"""The figures of a joint as they are printed: what each is, how it came about, and its value.

Everything is read from the cuts, the gaps and the boards as set out, with the rounding of the sheets: widths 0.05,
depths and positions 0.1, or parts of an inch. Boards stand as signs (see `roles`). For 24 on 24 at 81 degrees
with 0.15 of play: 24.15 across the walls, 24.15 / sin 81 = 24.45 on the face, 24 / tan 81 = 3.8 of shift.
"""

import math
from collections.abc import Iterator

from .....piece.model import WALL, Cut
from ....naming import angle, depth, position, printed_units, thickness, width
from ..roles import SIGNS, Figure, Roles
from ..stance import SQUARE, Stance, entering
from .ends import end_figures
from .housing import housing_figures
from .screw import screw_figures

ROUGH = 1.5  # left on each side by a rough cut (common practice)
LEAST = 0.05  # less prints as nothing
OTHER = "\ue012"  # a third sign, while two are exchanged


def figures(roles: Roles) -> list[Figure]:
    """All figures of a joint, the first to be set first."""
    if WALL in (roles.joint.meeting.a.body, roles.joint.meeting.b.body):
        return list(screw_figures(roles))
    made = [list(_of_one(roles, stance)) for stance in roles.shown]
    either = _either(*made) if len(made) == 2 else None
    return either if either is not None else [one for rows in made for one in rows]


def _of_one(roles: Roles, stance: Stance) -> Iterator[Figure]:
    """The figures of what is let into one board, or of both ends."""
    if stance.cut is None:
        return end_figures(roles, stance)
    taken = width_figures(roles, stance, stance.cut)
    if stance.cut.face:
        return housing_figures(roles, stance, stance.cut, taken)
    return _slot(roles, stance, stance.cut, taken)


def _either(first: list[Figure], second: list[Figure]) -> list[Figure] | None:
    """Two slots that are made alike as one; None where a figure differs."""
    a, b = SIGNS
    swapped = [one.name.replace(a, OTHER).replace(b, a).replace(OTHER, b) for one in second]
    if [one.name for one in first] != swapped:
        return None
    if [(one.sum, one.value) for one in first] != [(one.sum, one.value) for one in second]:
        return None
    return [
        Figure(
            name=one.name.replace(f"slot in {a}", "either slot"), what=_neither(one.what), sum=one.sum, value=one.value
        )
        for one in first
    ]


def _neither(what: str) -> str:
    """What a figure is, for either of two boards."""
    for edge in ("front edge", "wall edge"):
        what = what.replace(edge, "edge it opens to")
    return what.replace(SIGNS[1], "the other")


# --- widths --------------------------------------------------------------------------------------


def width_figures(roles: Roles, stance: Stance, cut: Cut) -> list[Figure]:
    """Across the walls, and where these lean on the face."""
    f = cut.figures
    name = f"{cut.kind.split()[-1]} in {roles.sign(stance.main.id)}"
    tongue = entering(stance) < stance.wide - 0.01
    fit = "" if tongue else f"fit to {roles.sign(stance.other.id)}"
    across = width(f.across or 0.0)
    found = [Figure(name=f"{name}, across the walls", what=fit, sum=width_sum(roles, cut), value=across)]
    if abs(f.lean) > SQUARE:
        how = f"{across} / sin {angle(90.0 - abs(f.lean))}"
        found.append(
            Figure(name=f"{name}, on the face", what="between the marks", sum=how, value=width(f.on_face or 0.0))
        )
    return found


def width_sum(roles: Roles, cut: Cut) -> str:
    """How the width between the walls came about, its terms adding up as printed."""
    return roles.signed(cut.figures.how(printed_units()), bare=True)


# --- slots ---------------------------------------------------------------------------------------


def _slot(roles: Roles, stance: Stance, cut: Cut, taken: list[Figure]) -> Iterator[Figure]:
    """A slot or notch through the thickness."""
    f = cut.figures
    name = f"{cut.kind.split()[-1]} in {roles.sign(stance.main.id)}"
    leans = abs(f.lean) > SQUARE
    yield from taken
    if leans:
        t = 2 * stance.half
        how = f"{thickness(t)} / tan {angle(90.0 - abs(f.lean))}"
        shift = position(t * abs(math.tan(math.radians(f.lean))))
        yield Figure(name=f"{name}, shift", what="from face to face", sum=how, value=shift)
    yield Figure(
        name=f"{name}, deep", what=f"from the {f.opens}", sum=_deep_sum(stance, cut), value=depth(f.deep or 0.0)
    )
    if leans:
        yield from _rough(stance, cut, name)


def _deep_sum(stance: Stance, cut: Cut) -> str:
    """Of a halving its share of the common depth; of a notch the board it goes over."""
    side = stance.joint.meeting.side(cut.body)
    low, high = stance.joint.meeting.overlap
    deep, seat = cut.figures.deep or 0.0, stance.seat or 0.0
    proud = side.front - high if cut.figures.opens == "front edge" else low - side.back
    terms = [position(proud)] if proud > LEAST else []
    if stance.joint.meeting.wide:
        return " + ".join([*terms, position(deep - seat - proud), f"gap {depth(seat)}"])
    share = round((deep - proud - seat / 2) / (high - low), 3)
    terms.append(f"half of {position(high - low)}" if share == 0.5 else f"{share:g} × {position(high - low)}")
    return " + ".join([*terms, *([f"half of {depth(seat)}"] if seat > 0.0 else [])])


def _rough(stance: Stance, cut: Cut, name: str) -> Iterator[Figure]:
    """The widest cut square to the face that stays inside leaning walls."""
    f = cut.figures
    strip = (f.on_face or 0.0) - 2 * stance.half * abs(math.tan(math.radians(f.lean))) - 2 * ROUGH
    if strip > 1.0:
        yield Figure(
            name=f"{name}, square rough cut",
            what="at most: in both faces",
            sum=f"less {position(ROUGH)} a side",
            value=position(strip),
        )
