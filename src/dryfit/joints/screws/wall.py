"""What takes a long screw in the wall: a stud, an anchor by its own rule; and what nobody has said of the wall.

A wall's lining, hollows and studs that are not given are never taken as 0 or as met: that is a warning, and is left
unchecked. Lengths in mm.
"""

import math
import re
from collections.abc import Iterator
from itertools import pairwise

from ...findings import Finding, NotChecked, Severity, at_least, declare, question, said
from ...piece.model import Meeting
from ...trade.anchors import Anchor
from .chain import Plan
from .options import LongScrewOptions
from .wood import PRACTICE, about_fixing, finding, where

SCREW_STUD = declare("screw-misses-stud", "A screw into the wall does not meet a stud.")
NOT_TOLD = declare("wall-not-told", "What a screw must reach through or into is not given: nothing takes it as 0.")
ANCHOR_UNKNOWN = declare("anchor-not-known", "The anchor is no generic type and is not described, or none is named.")
ANCHOR_UNSUITED = declare("anchor-unsuited", "An anchor does not suit the wall, its lining or the screw.")
WALL = question("wall", "the wall that screws go into", lambda piece: piece.is_fixed)

STUD_AIM = 10.0  # from a stud's centre (common practice)
_TIMBER = ("timber", "wood", "stud", "log")
_NOT_THERE = re.compile(r"\b(?:no|without)\s+\w+")  # "brick, no studs"
_STEEL = ("steel", "metal")
_MASONRY = ("brick", "masonry", "block", "stone", "concrete", "aac")
_HOLLOW = ("plasterboard", "gypsum", "drywall", "lath", "stud")
_PERFORATED = ("perforated", "hollow brick", "hollow block")
_CLEAR_OF_STEEL = ("whether the anchors clear the steel studs", "how wide the studs are is not given")
# The pull-out of a sheet-metal screw is published for one screw in one thickness of steel: no rule for what is bought.
_HELD_BY_STEEL = ("whether the screws hold in the steel studs", "how thick their steel is is not given; its maker says")
LINING = "DIN 18183-1 and trade texts on plasterboard fixings"


def _has(into: str, words: tuple[str, ...]) -> bool:
    said_there = _NOT_THERE.sub("", into.lower())
    return any(word in said_there for word in words)


def is_timber(into: str) -> bool:
    """Whether a wood screw holds in such a wall."""
    return _has(into, _TIMBER) and not _has(into, _STEEL)


def is_lined_void(into: str) -> bool:
    """Whether a plug would crush what it stands in: a lining, or a stud of metal, with a void behind it."""
    return _has(into, _HOLLOW) and not _has(into, _MASONRY) and not is_timber(into)


def about_wall(meeting: Meeting, made: Plan, options: LongScrewOptions) -> Iterator[Finding]:
    """Everything that is wrong, or not said, on the wall's side."""
    yield from _off_studs(meeting, made, options)
    yield from _not_told(meeting, made, options)
    yield from _anchor(meeting, made, options)


# ---- what is not told


def _missing(meeting: Meeting, made: Plan, options: LongScrewOptions) -> list[str]:
    """What the wall's table lacks for this fixing."""
    missing = []
    if not options.into:
        missing.append("kind")
    if made.lining is None:
        missing.append("lining")
    if made.gap is None:
        missing.append("hollow")
    if _wants_stud(made, options) and not meeting.studs_off:
        missing.append("studs")
    return missing


def _wants_stud(made: Plan, options: LongScrewOptions) -> bool:
    """Whether the screw must meet a stud: a wood screw without an anchor, or an insert in one."""
    if not _has(options.into, ("stud",)):
        return False
    if made.anchor is not None:
        return made.anchor.type.holds_in == "timber"
    return made.screw.kind == "wood" and not options.anchor


def _not_told(meeting: Meeting, made: Plan, options: LongScrewOptions) -> Iterator[Finding]:
    missing = _missing(meeting, made, options)
    if not missing:
        return
    verb = "is" if len(missing) == 1 else "are"
    more = ""
    if not made.known:
        more = (
            f"; {said(made.beyond)} of the {made.screw.name} stand out of {meeting.a.body}, of which the wall is to "
            f"hold {said(made.hold)}"
        )
    yield about_fixing(
        meeting,
        NOT_TOLD,
        Severity.WARN,
        f"the wall's {_listed(missing)} {verb} not given{more}",
        f"measure, and write {_listed([f'{key} =' for key in missing])} under [wall]; 0 for a lining or hollow "
        "that is not there",
        PRACTICE,
    )


def _listed(words: list[str]) -> str:
    *before, last = words
    return f"{', '.join(before)} and {last}" if before else last


def wall_not_checked(meeting: Meeting, made: Plan, options: LongScrewOptions) -> Iterator[NotChecked]:
    """What could not be looked at for want of a figure of the wall or of the anchor."""
    left = (*_wall_open(meeting, made, options), *_anchor_open(made, options))
    for what, why in left:
        yield NotChecked(study=WALL, what=f"{meeting.key[0]}: {what}", why=why, where=where(meeting))


def _wall_open(meeting: Meeting, made: Plan, options: LongScrewOptions) -> Iterator[tuple[str, str]]:
    """What, and why: of the wall."""
    missing = _missing(meeting, made, options)
    if not made.known:
        unknown = [key for key in missing if key in ("lining", "hollow")]
        why = f"the wall's {_listed(unknown)} {'is' if len(unknown) == 1 else 'are'} not given"
        yield "how far the screws go into the structure", why
    if "kind" in missing:
        yield "whether the wall takes such a screw", "how the wall is built is not given"
    if "studs" in missing:
        yield "whether the screws meet studs", "the wall's studs are not given"


def _anchor_open(made: Plan, options: LongScrewOptions) -> Iterator[tuple[str, str]]:
    """What, and why: of the anchor, and of the structure about it."""
    if made.screw.kind == "wood" and not options.anchor:
        return
    anchor = made.anchor
    if anchor is None:
        yield "the anchor", "none is named" if not options.anchor else f'nothing is known of "{options.anchor}"'
        return
    if not made.hold_known:
        yield "how far the screw goes into the anchor", "the anchor's length is not given"
    if anchor.type.holds_in == "lining":
        if options.void is None:
            yield "whether the anchor has room behind the lining", "the wall's void is not given"
        if anchor.clamps is None:
            yield "whether the anchor clamps the lining", "what it clamps is not given"
    yield from _beside(anchor, options)
    if anchor.pull_n is None or anchor.shear_n is None:
        yield f"what {_one(anchor)} holds", "its maker's figure is not given"


def _beside(anchor: Anchor, options: LongScrewOptions) -> Iterator[tuple[str, str]]:
    """What is about the anchor that no job tells: edges and joints of masonry, studs of steel."""
    if anchor.type.holds_in == "masonry":
        far = "far enough" if anchor.apart is None else f"{said(anchor.apart, 0)} or more"
        what = f"whether each hole is {far} from the masonry's edges and openings, and in no mortar joint"
        yield what, "nothing says where the masonry ends, or where its joints lie"
    if _has(options.into, _STEEL) and _has(options.into, ("stud",)):
        yield _CLEAR_OF_STEEL if anchor.type.holds_in == "lining" else _HELD_BY_STEEL


# ---- studs


def _off_studs(meeting: Meeting, made: Plan, options: LongScrewOptions) -> Iterator[Finding]:
    """Into studs, each wood screw wants one within 10 of its centre; anchors hold beside them."""
    if not _wants_stud(made, options):
        return
    for number, off in enumerate(meeting.studs_off, 1):
        if off > STUD_AIM:
            yield finding(
                SCREW_STUD,
                Severity.STOP,
                where(meeting),
                f"bore {number} of {meeting.key[0]} misses the nearest stud's centre by {said(off, 0)}",
                "move it to a stud, or use an anchor that the wall can take",
                PRACTICE,
                (off, STUD_AIM),
            )


def studs_missed(meeting: Meeting, options: LongScrewOptions) -> str:
    """The bores that meet no stud, for a screw that is refused for another reason; "" where none is to be met."""
    off = [(n, far) for n, far in enumerate(meeting.studs_off, 1) if far > STUD_AIM]
    if options.anchor or not off or not _has(options.into, ("stud",)):
        return ""
    missed = _listed([f"bore {number} by {said(far, 0)}" for number, far in off])
    return f"besides, a stud's centre is missed: {missed}, {said(STUD_AIM, 0)} at most"


# ---- anchors


def _anchor(meeting: Meeting, made: Plan, options: LongScrewOptions) -> Iterator[Finding]:
    """An anchor is known, and follows its own rule instead of the wood's."""
    anchor = made.anchor
    if anchor is None:
        if options.anchor:
            yield _unknown(meeting, f'nothing is known of the anchor "{options.anchor}"', options.anchor)
        elif made.screw.kind == "machine":
            yield _unknown(meeting, f"no anchor is named for the {made.screw.name}", "NAME")
        return
    taken = tuple(_takes_screw(meeting, made, anchor))
    yield from taken
    yield from _suits_wall(meeting, options, anchor)
    yield from _suits_lining(meeting, made, options, anchor)
    if not taken and made.least_grip - 1e-9 <= made.grip <= made.longest_grip + 1e-9:  # else it is told already
        yield from _reaches(meeting, made, options, anchor)
    places = sorted(meeting.places)
    apart = round(min((after - before for before, after in pairwise(places)), default=math.inf), 6)
    if anchor.apart is not None and apart < anchor.apart - 1e-9:
        says = f"two of {_one(anchor)} stand {said(apart, 0)} apart"
        remedy = f"leave {at_least(anchor.apart)} or more between them"
        yield _unsuited(meeting, says, remedy, _from(anchor), (apart, anchor.apart), Severity.WARN)


def _unknown(meeting: Meeting, says: str, name: str) -> Finding:
    return about_fixing(
        meeting,
        ANCHOR_UNKNOWN,
        Severity.WARN,
        f"{says}: no rule of its own is looked at",
        'write a generic type as it is sold (anchor = "nylon plug 10x50"), or describe it from its maker\'s '
        f"sheet in a table [anchor.{name if name.isidentifier() else chr(34) + name + chr(34)}]",
        PRACTICE,
    )


def _one(anchor: Anchor) -> str:
    return f"the anchor {anchor.called}" if anchor.name else f"a {anchor.called}"


def _from(anchor: Anchor, generic: str = "trade texts on wall fixings") -> str:
    """Whose rule it is."""
    if not anchor.described:
        return generic
    return f"[anchor.{anchor.name}]" + (f", {anchor.source}" if anchor.source else "")


def _unsuited(
    meeting: Meeting,
    says: str,
    remedy: str,
    source: str,
    compared: tuple[float, float] | None = None,
    severity: Severity = Severity.STOP,
) -> Finding:
    return about_fixing(
        meeting,
        ANCHOR_UNSUITED,
        severity,
        says,
        remedy,
        source,
        compared,
    )


def _takes_screw(meeting: Meeting, made: Plan, anchor: Anchor) -> Iterator[Finding]:
    """Wood screws go into plugs, machine screws into what has a thread for them; by the thickness that it takes."""
    screw = made.screw
    if anchor.screw and anchor.screw != screw.kind:
        says = f"{_one(anchor)} takes a {anchor.screw} screw, not a {screw.name}"
        yield _unsuited(meeting, says, f"take a {anchor.screw} screw, or an anchor for this one", _from(anchor))
        return
    if anchor.takes is None:
        return
    low, high = anchor.takes
    if not low - 1e-9 <= screw.diameter <= high + 1e-9:
        sizes = f"{low:g}" if low == high else f"{low:g} to {high:g}"
        limit = low if screw.diameter < low else high
        says = f"{_one(anchor)} takes a screw of {sizes} mm, not one of {screw.diameter:g}"
        remedy = "take a screw that it takes, or the anchor for this one"
        yield _unsuited(meeting, says, remedy, _from(anchor), (screw.diameter, limit))


def _suits_wall(meeting: Meeting, options: LongScrewOptions, anchor: Anchor) -> Iterator[Finding]:
    """Plugs and metal expansion anchors crush plasterboard; what clamps a lining wants one; an insert wants timber."""
    into, kind = options.into, anchor.type
    masonry, hollow = _has(into, _MASONRY), _has(into, _HOLLOW)
    says = ""
    if kind.holds_in == "masonry" and not masonry and (hollow or is_timber(into)):
        says = f"{_one(anchor)} stands in masonry: in {into} it crushes its hole"
    elif kind.holds_in == "lining" and masonry and not hollow:
        says = f"{_one(anchor)} clamps a lining with a void behind it, which {into} does not have"
    elif kind.holds_in == "timber" and into and not is_timber(into):
        says = f"{_one(anchor)} holds in timber, not in {into}"
    if says:
        remedy = "take an anchor that is made for such a wall"
        yield _unsuited(meeting, says, remedy, _from(anchor, LINING))
    elif kind.id == "nylon_plug" and _has(into, _PERFORATED):
        says = f"in {into} {_one(anchor)} holds half as much or less"
        remedy = "take a plug for perforated brick, which is longer, and drill without hammer"
        yield _unsuited(meeting, says, remedy, _from(anchor), severity=Severity.WARN)


def _reaches(meeting: Meeting, made: Plan, options: LongScrewOptions, anchor: Anchor) -> Iterator[Finding]:
    """In masonry: a plug holds where the screw passes its end, and a screw's point must not meet the hole's bottom."""
    if anchor.type.holds_in != "masonry" or made.held is None:
        return
    wanted = anchor.hold(made.screw, made.lining or 0.0)
    if wanted is not None and made.held < wanted - 1e-9:
        says = f"the {made.screw.name} goes {said(made.held)} into {_one(anchor)}, which wants {said(wanted)}"
        remedy = f"leave out engagement: it is {at_least(wanted)} then"
        yield _unsuited(meeting, says, remedy, _from(anchor), (made.held, wanted))
    far = made.held + (options.hollow or 0.0)
    if anchor.deep is not None and far > anchor.deep + 1e-9:
        says = f"where the wall is even, the {made.screw.name} goes {said(far)} into a hole {said(anchor.deep)} deep"
        remedy = f"drill {at_least(far)} or more, or take a shorter screw"
        yield _unsuited(meeting, says, remedy, _from(anchor), (far, anchor.deep), Severity.WARN)


def _suits_lining(meeting: Meeting, made: Plan, options: LongScrewOptions, anchor: Anchor) -> Iterator[Finding]:
    """The lining lies within what it clamps, and behind the lining there is room for it and for the screw."""
    if anchor.type.holds_in != "lining" and anchor.clamps is None:
        return
    lining = made.lining
    if lining is not None and anchor.clamps is not None:
        low, high = anchor.clamps
        off = max(low - lining, lining - high)
        if off > 1e-9:
            over = "under" if lining < low else "over"
            range_of = f"{_one(anchor)} clamps {said(low)} to {said(high)}"
            says = f"{range_of}: a lining of {said(lining)} is {said(off)} {over} it"
            remedy = "take the length of it whose range has the lining, or another anchor"
            compared = (lining, low if lining < low else high)
            yield _unsuited(meeting, says, remedy, _from(anchor, "usual data sheets (from memory)"), compared)
    if options.void is None or anchor.type.holds_in != "lining":
        return
    wanted = max(anchor.void or 0.0, made.held or 0.0)
    if options.void < wanted - 1e-9:
        says = f"{_one(anchor)} wants {said(wanted)} free behind the lining: there are {said(options.void)}"
        remedy = "take a shorter anchor and screw, or one that needs no void"
        yield _unsuited(meeting, says, remedy, _from(anchor), (options.void, wanted))
