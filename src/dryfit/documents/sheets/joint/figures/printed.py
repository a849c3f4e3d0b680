"""The figures of a joint as they are printed: what each is, how it came about, and its value.

Everything is read from the cuts, the gaps and the boards as set out, with the rounding of the sheets: widths 0.05,
depths and positions 0.1, what a kind tells to the calliper 0.01, or parts of an inch. For 24 on 24 at 81 degrees
with 0.15 of play: 24.15 across the walls, 24.15 / sin 81 = 24.45 on the face, 24 / tan 81 = 3.8 of shift.
"""

import math
from collections.abc import Iterator

from .....joints.registry import KINDS
from .....piece.facts import Size
from .....piece.model import WALL, Cut
from .....piece.sums import Sum
from .....sentences import Angle, Fineness, Length, Name, Words, renamed, say
from ....naming import LEAST, angle, depth, fine, position, printed_units, width
from ..roles import JointFigure, Roles
from ..stance import SQUARE, Stance, entering
from .ends import end_figures
from .housing import housing_figures
from .screw import screw_figures
from .sums import by_sine, by_tangent, placed_sum, rough_cut, width_sum


def figures(roles: Roles) -> list[JointFigure]:
    """All figures of a joint, the first to be set first: those of its cuts, then those that its kind tells."""
    found = _of_cuts(roles)
    for size in KINDS[roles.joint.kind].figures(roles.joint):
        called = str(size.of), size.size
        place = next((at for at, one in enumerate(found) if (str(one.of), one.size) == called), len(found))
        found[place : place + 1] = [] if size.value is None else [_told(size, size.value)]
    return found


def _told(size: Size, value: Length | Angle) -> JointFigure:
    """What a kind tells, as it is printed."""
    step = value.step if isinstance(value, Length) else Fineness.FINE
    how = size.how.sentence(step, printed_units()) if isinstance(size.how, Sum) else size.how
    return JointFigure(of=size.of, size=size.size, what=size.what, sum=how, value=written(value))


def written(value: Length | Angle) -> str:
    """A length or an angle with the rounding of the sheets."""
    if isinstance(value, Angle):
        return angle(value.degrees)
    return {Fineness.WIDTH: width, Fineness.FINE: fine}.get(value.step, position)(value.mm)


def _of_cuts(roles: Roles) -> list[JointFigure]:
    if WALL in (roles.joint.meeting.a.body, roles.joint.meeting.b.body):
        return list(screw_figures(roles))
    made = [list(_of_one(roles, stance)) for stance in roles.shown]
    if len(made) == 2 and _are_alike(roles, *made):
        return list(_of_one(roles, roles.shown[0], either=True))
    return [one for rows in made for one in rows]


def _of_one(roles: Roles, stance: Stance, *, either: bool = False) -> Iterator[JointFigure]:
    """The figures of what is let into one board, or of both ends; of `either` of two slots that are made alike."""
    if stance.cut is None:
        return end_figures(roles, stance)
    taken = width_figures(roles, stance, stance.cut, either=either)
    if stance.cut.face:
        return housing_figures(roles, stance, stance.cut, taken)
    return _slot(stance, stance.cut, taken, either=either)


def _are_alike(roles: Roles, first: list[JointFigure], second: list[JointFigure]) -> bool:
    """Whether two slots are made alike: the same figures, either board in the place of the other."""
    main, other = (name.of for name in (roles.main, roles.other))
    turned = {main: other, other: main}

    def of_other(words: Words) -> Words:
        return renamed(words, lambda name: turned.get(name, name))

    made_so = [(one.name, one.value) for one in first] == [(of_other(one.name), one.value) for one in second]
    return made_so and [roles.alike(one.sum) for one in first] == [roles.alike(of_other(one.sum)) for one in second]


def _called(stance: Stance, cut: Cut, *, either: bool) -> Words:
    return "either slot" if either else say("{} in {}", cut.plain, Name(stance.main.id))


# --- widths --------------------------------------------------------------------------------------


def width_figures(roles: Roles, stance: Stance, cut: Cut, *, either: bool = False) -> list[JointFigure]:
    """Across the walls, and where these lean on the face."""
    f = cut.figures
    name = _called(stance, cut, either=either)
    tongue = entering(stance) < stance.wide - LEAST
    fit = "" if tongue else say("fit to {}", "the other" if either else Name(stance.other.id))
    across = f.across or 0.0
    found = [JointFigure(of=name, size="across the walls", what=fit, sum=width_sum(cut), value=width(across))]
    if abs(f.lean) > SQUARE:
        how = by_sine(across, f.lean)
        found.append(
            JointFigure(of=name, size="on the face", what="between the marks", sum=how, value=width(f.on_face or 0.0))
        )
    return found


# --- slots ---------------------------------------------------------------------------------------


def _slot(stance: Stance, cut: Cut, taken: list[JointFigure], *, either: bool) -> Iterator[JointFigure]:
    """A slot or notch through the thickness."""
    f = cut.figures
    name = _called(stance, cut, either=either)
    leans = abs(f.lean) > SQUARE
    yield from taken
    if leans:
        t = 2 * stance.half
        shift = position(t * abs(math.tan(math.radians(f.lean))))
        yield JointFigure(of=name, size="shift", what="from face to face", sum=by_tangent(t, f.lean), value=shift)
    edge = "edge it opens to" if either else f.opens.value
    yield JointFigure(
        of=name,
        size="deep",
        what=say("from the {}", edge),
        sum=placed_sum(f.depth, depth(f.deep or 0.0)),
        value=depth(f.deep or 0.0),
    )
    if leans:
        yield from _rough(stance, cut, name)


def _rough(stance: Stance, cut: Cut, name: Words) -> Iterator[JointFigure]:
    """The widest cut square to the face that stays inside leaning walls."""
    f = cut.figures
    on_face, shift = f.on_face or 0.0, 2 * stance.half * abs(math.tan(math.radians(f.lean)))
    most, how = rough_cut(on_face, shift)
    if most > 1.0:
        what = "at most: in both faces"
        yield JointFigure(of=name, size="square rough cut", what=what, sum=how, value=position(most))
