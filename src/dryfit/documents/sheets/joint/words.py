"""What a detail says in sentences: order, play, what to measure first, width and hand, hardware, glue, cautions.

All with signs for the boards (see `roles`); only the hand is told by the letters, because it differs within a
sheet that shows both hands.
"""

import math
from collections.abc import Iterator

from ....findings import Severity
from ....geometry.shapes import Bore, Prism
from ....joints.registry import KINDS
from ....piece.kinds import matings_of
from ....piece.model import WALL, Joint, Motion
from ...looks import Desk
from ...naming import depth, printed_units, width
from ..page.prose import KEPT, Run, strong
from .roles import SIGNS, Roles
from .stance import SQUARE, entering

BLANK = 13.0
SQUARE_MM = 100.0  # mm2 in a cm2
TIGHT = frozenset({"shoulder", "mitre"})  # pairs of faces that bear, by the names that gaps have
OPEN_AT = {"seat": "At the seat", "bottom": "Under the end", "stopped end": "At the stop"}
GLUED = {  # by a pair of faces, and whether they touch
    ("bottom", True): "The walls and floor of the housing and what enters;",
    ("bottom", False): "The walls and shoulders of the housing and what enters;",
    ("mitre", True): "Both mitre faces, sized first;",
    ("shoulder", True): "The end and the face it stands on;",
    ("end", True): "Both ends;",
}


def words(desk: Desk, roles: Roles) -> list[list[Run]]:
    """All paragraphs, the order of work first."""
    made = [
        _order(roles),
        _play(desk, roles),
        _before(desk, roles),
        _read_across(roles),
        _hardware(roles),
        _glue(roles),
        _look(roles),
        _mind(roles),
    ]
    return [runs for runs in made if len(runs) > 1]


def _kind(joint: Joint):  # type: ignore[no-untyped-def]
    return KINDS[joint.kind]


# --- order ---------------------------------------------------------------------------------------


def _order(roles: Roles) -> list[Run]:
    """The kind's own notes, and the ways in."""
    joint = roles.joint
    runs = [strong("Order."), *(Run(roles.signed(note)) for note in _kind(joint).notes(joint))]
    ways = list(dict.fromkeys(_way(roles, motion) for motion in joint.hand.motions))
    body = joint.hand.motions[0].body if joint.hand.motions else ""
    if ways and WALL not in (joint.meeting.a.body, joint.meeting.b.body):
        either = roles.shown[0].cut is None and not any(stance.main_side.face for stance in roles.shown)
        mitred = either and all(abs(cut.figures.lean) > SQUARE for cut in joint.cuts if cut.end)
        runs.append(Run(f"{'They come together' if mitred else f'{roles.sign(body)} goes in'} {' or '.join(ways)}."))
    return runs


def _way(roles: Roles, motion: Motion) -> str:
    """How a body comes in that leaves that way."""
    x, y, z = motion.direction
    if abs(z) > 0.5:
        return "from the front" if z > 0 else "from the wall"
    stance = roles.shown[0]
    u = x * stance.u[0] + y * stance.u[1]
    if abs(u) < math.sin(math.radians(0.05)):
        return f"square to the face of {SIGNS[0]}"
    ax, ay = stance.along
    v = x * stance.v[0] + y * stance.v[1]
    if abs(abs(u * ax + v * ay) - 1.0) < 1e-6:
        return "along its own length"
    return "square to the mitre"


# --- play ----------------------------------------------------------------------------------------


def _play(desk: Desk, roles: Roles) -> list[Run]:
    """Play across the walls, seats and bottoms, and whether film is counted."""
    joint = roles.joint
    kind = _kind(joint)
    plays = list(dict.fromkeys(width(mating.play) for mating in matings_of(kind, joint)))
    runs = [strong("Play.")]
    if plays:
        runs.append(Run(f"{' and '.join(plays)} in all across the walls."))
    for gap in joint.gaps:
        name = OPEN_AT.get(gap.between)
        if name and gap.size > 0.0:
            size = width(gap.size) if gap.between == "stopped end" else depth(gap.size)
            runs.append(Run(f"{name} {size}."))
    if any(gap.between in TIGHT and gap.size == 0.0 for gap in joint.gaps):
        runs.append(Run("The faces that bear close tight."))
    return [*runs, *_film(desk, roles, slides=bool(plays))]


def _film(desk: Desk, roles: Roles, *, slides: bool) -> list[Run]:
    finish = (desk.book.piece.job or desk.book.job).finish
    coated = [name for name in roles.names if name in finish.before_assembly or "all" in finish.before_assembly]
    if not coated or not finish.coats:
        return []
    letters = " and ".join(roles.sign(name) for name in coated)
    are = "is" if len(coated) == 1 else "are"
    if finish.joint_zones == "masked":
        return [Run(f"{letters} {are} masked where wood meets wood: no film is counted.")]
    if dict(roles.joint.options).get("glued"):
        return [Run(f"{letters} {are} masked where it is glued: glue does not hold on film, so none is counted.")]
    if not finish.film:
        return [Run(f"{letters} {are} finished first: the film is not known and not counted; try the fit finished.")]
    return [Run(f"{letters} {are} finished first: its film is counted in the width.")] if slides else []


# --- before the first cut ------------------------------------------------------------------------


def _before(desk: Desk, roles: Roles) -> list[Run]:
    """Blanks for what is measured, with what is added to it."""
    runs = [strong("Before the first cut.")]
    for stance in roles.shown:
        cut = stance.cut
        if cut is None or cut.figures.across is None:
            continue
        taken = entering(stance)
        other = roles.sign(stance.other.id)
        more = width(cut.figures.across - taken)
        what = "the width of" if stance.joint.meeting.wide else "the tongue of" if taken < stance.wide - 0.01 else ""
        words = f"Measure {what} {other} where it enters:".replace("  ", " ")
        lean = abs(cut.figures.lean) < SQUARE < abs(stance.leans) and not what
        why = f"{KEPT}for{KEPT}lean{KEPT}and{KEPT}play" if lean else ""
        runs += [Run(words, blank=BLANK), Run(f"+{KEPT}{more}{why}{KEPT}=", blank=BLANK)]
    if len(runs) > 1:
        main = SIGNS[0]
        runs.append(Run(f"Cut once in an offcut of {main}; {SIGNS[1]} must go in by hand and not rattle."))
        return runs
    return [*runs, *_first_trial(roles)]


def _first_trial(roles: Roles) -> list[Run]:
    """What to try in offcuts where nothing is let in to a measured width."""
    joint = roles.joint
    runs: list[Run] = []
    if WALL in (joint.meeting.a.body, joint.meeting.b.body):
        return [Run("Measure the screw under its head:", blank=BLANK), Run("Bore once in an offcut of the same depth.")]
    if any(cut.end and abs(cut.figures.lean) > SQUARE for cut in joint.cuts):
        runs.append(Run("Cut both ends in offcuts and hold them together: the corner must close and measure true."))
    for cut in joint.cuts:
        if cut.size_is == "FIT TO" and cut.figures.across is not None and cut.takes not in roles.names:
            runs.append(Run(f"Measure the {cut.takes.removesuffix('s')}:", blank=BLANK))
            break
    if any(isinstance(shape, Bore) for cut in joint.cuts for shape in cut.shapes):
        runs.append(Run("Drill once in an offcut with the bit and the stop that will be used, and put it together."))
    return runs


def _read_across(roles: Roles) -> list[Run]:
    """That a width is measured square to leaning walls."""
    said: dict[str, str] = {}
    for stance in roles.shown:
        cut = stance.cut
        if cut is not None and abs(cut.figures.lean) > SQUARE and cut.figures.on_face is not None:
            said[width(cut.figures.across or 0.0)] = width(cut.figures.on_face)
    if not said:
        return []
    reads = ", ".join(f"{across} reads {on_face} on the face" for across, on_face in said.items())
    return [strong("Width is read across the walls."), Run(f"{reads}.")]


# --- hardware, glue, cautions --------------------------------------------------------------------


def _hardware(roles: Roles) -> list[Run]:
    joint = roles.joint
    items = _kind(joint).hardware(joint)
    if WALL in (joint.meeting.a.body, joint.meeting.b.body):
        each = [f"{item.name} {item.size}" for item in items]
        return [strong("In it."), *([Run(f"At each place one {', one '.join(each)}.")] if each else [])]
    return [strong("In it."), *(Run(f"{item.count} × {item.name} {item.size}.") for item in items)]


def _glue(roles: Roles) -> list[Run]:
    """Which faces, of which grain, how much; or that none is glued."""
    joint = roles.joint
    if WALL in (joint.meeting.a.body, joint.meeting.b.body):
        return []
    faces = _kind(joint).glue(joint)
    if not faces:
        return [strong("Glue."), Run("None: it stays dry.")]
    said = (f"{face.grain.replace('-', ' on ')} grain, {_area(face.area_mm2)}." for face in faces)
    return [strong("Glue."), Run(_glued_faces(roles)), *map(Run, said)]


def _glued_faces(roles: Roles) -> str:
    for gap in roles.joint.gaps:
        closed = GLUED.get((gap.between, gap.size == 0.0))
        if closed:
            return closed
    return "The walls, not the seats;"


def _area(mm2: float) -> str:
    if printed_units() == "in":
        return f"{mm2 / 25.4**2:.1f} sq in"
    return f"{mm2 / SQUARE_MM:.0f} cm²"


def _look(roles: Roles) -> list[Run]:
    """What was found that must change or be looked at, in this joint alone."""
    runs = [strong("Look.")]
    for finding in roles.joint.findings:
        if finding.severity is not Severity.NOTE:
            says = roles.signed(finding.says)
            runs.append(Run(f"{says[0].upper()}{says[1:]}: {roles.signed(finding.remedy)}."))
    return runs


def _mind(roles: Roles) -> list[Run]:
    """Where the step can hurt, by what is cut."""
    return [strong("Mind."), *(Run(sentence) for sentence in dict.fromkeys(_cautions(roles)))]


def _cautions(roles: Roles) -> Iterator[str]:
    joint = roles.joint
    for cut in joint.cuts:
        shapes = cut.shapes
        if any(isinstance(shape, Prism) and any(knot[2] for knot in shape.outline) for shape in shapes):
            yield "The pocket cutter can throw a corner: cradle it, clamp it, hands behind the fence."
        elif any(isinstance(shape, Bore) for shape in shapes):
            yield "Clamp the board before you drill; a long bit that binds turns the work."
        elif cut.end and abs(cut.figures.lean) > SQUARE:
            yield "A bevelled end is sharp and bruises: hold the board down, no hand in line with the blade."
        elif not cut.end and abs(cut.figures.lean) > SQUARE:
            yield "A leaning tool creeps downhill: clamp it and the work, shallow passes, at rest before you measure."
        elif not cut.end:
            yield "Clamp work and guide, shallow passes, the tool at rest before you measure."


def hand_words(roles: Roles) -> str:
    """How the drawn one leans, and where the slot that takes it opens, with signs."""
    if not roles.shown:
        return ""
    stance = roles.shown[0]
    if stance.cut is None or abs(stance.leans) < SQUARE:
        return ""
    way = "right" if stance.leans * stance.sigma > 0 else "left"
    opens = stance.cut.figures.opens
    where = f"; the cut in {SIGNS[0]} opens to the {opens.removesuffix(' edge')}" if opens.endswith("edge") else ""
    up = "" if stance.sigma > 0 else ", seen with the face up"
    return f"As drawn, {SIGNS[1]} leans {way}{up}{where}."
