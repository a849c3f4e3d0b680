"""What a detail says in sentences: order, play, what to measure first, width and hand, hardware, glue, cautions.

All with signs for the boards (see `roles`); only the hand is told by the letters, because it differs within a
sheet that shows both hands.
"""

import math
from collections.abc import Iterator, Sequence

from ....findings import Severity
from ....geometry.frames import NEAR
from ....geometry.shapes import Prism
from ....joints.registry import KINDS
from ....piece.facts import Between, CutForm, GlueZone
from ....piece.kinds import matings_of
from ....piece.leaning import from_the_wall, head
from ....piece.model import WALL, Joint, Motion
from ....piece.sums import Word
from ....sentences import Name, Several, Words, say
from ...lettering import KEPT, kept
from ...looks import Desk
from ...naming import depth, patch, ware_size, width
from ...standard import BLANK
from .hardware import screw_in
from .roles import Phrase, Roles
from .stance import SQUARE, Stance

MIND = "Mind."  # begins the last paragraph
FOUND, OPPOSITE = "Look.", "Opposite."  # begin the paragraphs of what is so in one joint alone
OPEN_AT = {Between.SEAT: "At the seat", Between.BOTTOM: "Under the end", Between.STOPPED_END: "At the stop"}


def words(desk: Desk, roles: Roles) -> list[list[Phrase]]:
    """All paragraphs, the order of work first."""
    made = [
        _order(roles),
        _play(desk, roles),
        _before(desk, roles),
        _read_across(roles),
        _hardware(roles),
        _glue(roles),
        _opposite(roles),
        _look(roles),
        _mind(roles),
    ]
    return [runs for runs in made if len(runs) > 1]


def _kind(joint: Joint):  # type: ignore[no-untyped-def]
    return KINDS[joint.kind]


# --- order ---------------------------------------------------------------------------------------


def _order(roles: Roles) -> list[Phrase]:
    """The kind's own notes, and the ways in."""
    joint = roles.joint
    runs = [Phrase("Order.", "semibold"), *(Phrase(note) for note in _kind(joint).notes(joint))]
    ways = list(dict.fromkeys(_way(roles, motion) for motion in joint.making.motions))
    body = joint.making.motions[0].body if joint.making.motions else ""
    if ways and WALL not in (joint.meeting.a.body, joint.meeting.b.body):
        runs.append(Phrase(say("{} {}.", _goes(joint, body), Several(tuple(ways), " or ", " or "))))
    return runs


def _goes(joint: Joint, body: str) -> Words:
    """What a body does that comes to the other: its end goes in, or it goes over the other; else the two only meet."""
    other = joint.meeting.other(body).body
    let_in = [cut for cut in joint.cuts if not cut.form.in_rows and cut.takes in joint.key]
    if any(cut.takes == body for cut in let_in):
        return say("{} goes in", Name(body))
    if let_in:
        return say("{} goes over {}", Name(body), Name(other))
    if all(cut.figures.stands == "corner" for cut in joint.cuts if cut.end):
        return "Bring the corner together"
    return say("{} comes up to {}", Name(body), Name(other))


def _way(roles: Roles, motion: Motion) -> Words:
    """How a body comes in that leaves that way."""
    x, y, z = motion.direction
    if abs(z) > 0.5:
        return "from the front" if z > 0 else "from the wall"
    stance = roles.shown[0]
    u = x * stance.u[0] + y * stance.u[1]
    if abs(u) < math.sin(math.radians(SQUARE)):
        return say("square to the face of {}", roles.main)
    if abs(abs(u) - 1.0) < NEAR:
        return say("along {}", roles.main)
    ax, ay = stance.along
    v = x * stance.v[0] + y * stance.v[1]
    if abs(abs(u * ax + v * ay) - 1.0) < NEAR:
        return "along its own length"
    return "square to the slope" if roles.joint.meeting.form == "in line" else "square to the mitre"


# --- play ----------------------------------------------------------------------------------------


def _play(desk: Desk, roles: Roles) -> list[Phrase]:
    """Play across the walls, seats and bottoms, and whether film is counted."""
    runs = [Phrase("Fit.", "semibold"), *map(Phrase, fit(roles.joint))]
    return [*runs, *_film(desk, roles, slides=bool(_plays(roles.joint)))]


def fit(joint: Joint) -> Iterator[str]:
    """How a joint fits when it is home, a sentence each: its play across the walls, what stays open, what bears."""
    plays = _plays(joint)
    if plays:
        yield f"{' and '.join(plays)} in all across the walls."
    for gap in joint.gaps:
        name = OPEN_AT.get(gap.between)
        if name and gap.size > 0.0:
            size = width(gap.size) if gap.between is Between.STOPPED_END else depth(gap.size)
            yield f"{name} {size}."
    if any(gap.between.bears and gap.size == 0.0 for gap in joint.gaps):
        yield "Bearing faces close tight."


def _plays(joint: Joint) -> list[str]:
    return list(dict.fromkeys(width(mating.play) for mating in matings_of(_kind(joint), joint)))


def _film(desk: Desk, roles: Roles, *, slides: bool) -> list[Phrase]:
    finish, met = (desk.book.piece.job or desk.book.job).finish, desk.book.piece.history.contacts.get(roles.joint.key)
    coated = [name for name in roles.names if met is not None and name in met.key and met.of(name).state != "bare"]
    if met is None or not coated:
        return []
    boards, are = Several(tuple(map(Name, coated)), apart=" and "), "is" if len(coated) == 1 else "are"
    if not met.glued and finish.joint_zones == "masked":
        return [Phrase(say("{} {} masked where wood meets wood: no film is counted.", boards, are))]
    if roles.joint.glued:
        says = say("{} {} masked where it is glued: glue does not hold on film, so none is counted.", boards, are)
        return [Phrase(says)]
    if not finish.film:
        says = say("{} {} finished first: the film is not known and not counted; try the fit finished.", boards, are)
        return [Phrase(says)]
    return [Phrase(say("{} {} finished first: its film is counted in the width.", boards, are))] if slides else []


# --- before the first cut ------------------------------------------------------------------------


def _before(desk: Desk, roles: Roles) -> list[Phrase]:
    """Blanks for what is measured, with what is added to it."""
    runs = [Phrase("Before the first cut.", "semibold")]
    fits = [fit for stance in roles.shown if (fit := _fit(stance)) is not None]
    for number, (what, measured, _) in enumerate(fits):
        each = _each_time([one for *_, one in fits], Several(tuple(one for one, *_ in fits))) if not number else ""
        runs.append(Phrase(say("Measure {} where it enters:", what), blank=BLANK, several=each))
        runs.append(Phrase(f"+{KEPT}{measured}{KEPT}=", blank=BLANK, several=""))
    if len(runs) > 1:
        says = say("Cut a trial in an offcut of {}: {} should push in by hand without rattle.", roles.main, roles.other)
        runs.append(Phrase(says))
        return runs
    return [*runs, *_first_trial(roles)]


def _fit(stance: Stance) -> tuple[Words, str, str] | None:
    """What of a board is measured for the cut that takes it, how much wider that is, and the same with its why."""
    cut = stance.cut
    if cut is None or cut.figures.fitted is None:
        return None
    word, wider = cut.figures.fitted
    board = Name(stance.other.id)
    wide, tongue = say("the width of {}", board), say("the tongue of {}", board)
    what: Words = {Word.WIDTH: wide, Word.TONGUE: tongue}.get(word, say("{}", board))
    lean = abs(cut.figures.lean) < SQUARE < abs(stance.leans) and word not in (Word.WIDTH, Word.TONGUE)
    more = f"{width(wider)} for lean and play" if lean else width(wider)
    return what, kept(more), more


def _each_time(wider: Sequence[str], measured: Several) -> Words:
    """Of several joints: what is measured at each, its blanks standing in the table of marks."""
    it = "it enters" if len(measured.items) == 1 else "they enter"
    cut = "The cut is" if len(measured.items) == 1 else "Each cut is"
    more = Several(tuple(dict.fromkeys(wider)))
    return say("Measure {} where {}, each time (blanks below). {} {} wider.", measured, it, cut, more)


def _first_trial(roles: Roles) -> list[Phrase]:
    """What to try in offcuts where nothing is let in to a measured width."""
    joint = roles.joint
    runs: list[Phrase] = []
    if WALL in (joint.meeting.a.body, joint.meeting.b.body) and screw_in(joint) is not None:
        return [
            Phrase("Measure the screw under its head:", blank=BLANK),
            Phrase("Bore a trial hole in an offcut of the same depth."),
        ]
    if any(cut.end and not cut.figures.goes_in and abs(cut.figures.lean) > SQUARE for cut in joint.cuts):
        what = (
            "they must close in one line"
            if joint.meeting.form == "in line"
            else "the corner must close and measure true"
        )
        runs.append(Phrase(f"Cut both ends in offcuts and hold them together: {what}."))
    loose = any(cut.size_is == "FIT TO" and cut.takes not in roles.names for cut in joint.cuts)
    runs += [Phrase(f"Measure the {ware.what}:", blank=BLANK) for ware in _kind(joint).hardware(joint)[:1] if loose]
    if any(cut.form is CutForm.BORE for cut in joint.cuts):
        runs.append(
            Phrase("Drill a trial joint in offcuts with the bit and stop that will be used, and put it together.")
        )
    return runs


def _read_across(roles: Roles) -> list[Phrase]:
    """That a width is measured square to leaning walls."""
    said: list[str] = []
    for stance in roles.shown:
        cut = stance.cut
        if cut is not None and abs(cut.figures.lean) > SQUARE and cut.figures.on_face is not None:
            across = width(cut.figures.across or 0.0)
            said.append(f"{across} square across, {width(cut.figures.on_face)} along the face")
    if not said:
        return []
    each = "Set and measure it square across; along the face it is wider: see the table."
    return [Phrase("Width.", "semibold"), Phrase(f"{'; '.join(dict.fromkeys(said))}.", several=each)]


# --- hardware, glue, cautions --------------------------------------------------------------------


def _hardware(roles: Roles) -> list[Phrase]:
    joint = roles.joint
    items = _kind(joint).hardware(joint)
    if WALL in (joint.meeting.a.body, joint.meeting.b.body):
        each = [f"{item.name} {ware_size(item)}" for item in items]
        return [
            Phrase("Hardware.", "semibold"),
            *([Phrase(f"At each place one {', one '.join(each)}.")] if each else []),
        ]
    return [
        Phrase("Hardware.", "semibold"),
        *(Phrase(f"{item.count} × {item.name} {ware_size(item)}.") for item in items),
    ]


def _glue(roles: Roles) -> list[Phrase]:
    """Which faces, of which grain, how much; or that none is glued."""
    joint = roles.joint
    if WALL in (joint.meeting.a.body, joint.meeting.b.body):
        return []
    zones = _kind(joint).glue(joint)
    if not zones:
        return [Phrase("Glue.", "semibold"), Phrase("None: leave it dry.")]
    return [Phrase("Glue.", "semibold"), *(run for zone in zones for run in _zone(zone))]


def _zone(zone: GlueZone) -> Iterator[Phrase]:
    """The faces, the grain they show, and how much of them there is."""
    one, other = zone.grain
    yield Phrase(say("{};", zone.faces), starts=True)
    yield Phrase(f"{one.value} on {other.value} grain, {patch(zone.area_mm2)}.")


def _opposite(roles: Roles) -> list[Phrase]:
    """That another board is let into the other face at the same place."""
    faced = [stance for stance in roles.shown[:1] if stance.cut is not None and stance.cut.face]
    there = (say("Another board enters the other face of {} at this place.", Name(one.main.id)) for one in faced)
    return [Phrase(OPPOSITE, "semibold"), *(Phrase(one) for one in there if roles.shown[0].main_side.opposed)]


def _look(roles: Roles) -> list[Phrase]:
    """What was found that must change or be looked at, in this joint alone."""
    found = (one for one in roles.joint.findings if one.severity is not Severity.NOTE)
    return [Phrase(FOUND, "semibold"), *(Phrase(say("{}: {}.", one.says, one.remedy), starts=True) for one in found)]


def _mind(roles: Roles) -> list[Phrase]:
    """Where the step can hurt, by what is cut."""
    return [Phrase(MIND, "semibold"), *(Phrase(sentence) for sentence in dict.fromkeys(_cautions(roles)))]


def _cautions(roles: Roles) -> Iterator[str]:
    joint = roles.joint
    for cut in joint.cuts:
        if cut.form is CutForm.POCKET:
            if joint.meeting.form == "in line":
                yield "The pocket cutter can throw the work: clamp it and the rail, both hands on the tool."
            else:
                yield "The pocket cutter can throw a corner: cradle it, clamp it, hands behind the fence."
        elif cut.form is CutForm.BORE:
            yield "Clamp the board before you drill; a long bit that binds can spin the work."
        elif cut.end and abs(cut.figures.lean) > SQUARE:
            yield "A bevelled end is sharp and easily bruised: hold the board down, no hand in line with the blade."
        elif not cut.end and abs(cut.figures.lean) > SQUARE:
            yield (
                "A tilted router wants to slide downhill: clamp it and the work, shallow passes; stop it "
                "before you measure."
            )
        elif not cut.end:
            yield "Clamp work and guide, shallow passes; let the tool come to rest before you measure."


def hand_words(roles: Roles) -> Words:
    """Which way the heads of its leaning walls lean, told as on part sheets and in the list of set-ups.

    Both slots of a crossing have one word, each seen from its own edge (`piece.leaning`); the section is seen from the
    front, which is said where no cut is looked at from there.
    """
    seen: list[Words] = []
    ways: list[str] = []
    edges: list[str] = []
    for stance in roles.shown:
        cut, board = stance.cut, stance.main.board
        prism = next((shape for shape in cut.shapes if isinstance(shape, Prism)), None) if cut else None
        if cut is None or prism is None or abs(cut.figures.lean) <= SQUARE:
            continue
        edges.append("wall" if from_the_wall(prism, board) else "front")
        ways.append(head(cut.figures.lean, prism, board))
        seen.append(say("the {} edge of {}", edges[-1], Name(stance.main.id)))
    if not seen or abs(roles.shown[0].leans) < SQUARE:
        return ""
    assert len(set(ways)) == 1, (roles.joint.key, ways)
    drawn = "" if "front" in edges else "; the section is seen from the front"
    return say("Head {}, seen from {}{}.", ways[0], Several(tuple(seen), " or ", " or "), drawn)
