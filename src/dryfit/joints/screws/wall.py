"""What takes a long screw in the wall: a stud, an anchor by its own rule; and what nobody has said of the wall.

A wall's lining, hollows and studs that are not given are never taken as 0 or as met: that is a warning, and is left
unchecked. Lengths in mm.
"""

import math
import re
from collections.abc import Iterator
from itertools import pairwise

from ...findings import Finding, NotChecked, Severity, declare, question
from ...piece.meetings import fixing_called
from ...piece.model import Meeting
from ...sentences import Fineness, Length, Name, On, Sentence, Several, Words, say
from ...trade.anchors import Anchor
from .chain import Plan
from .options import LongScrewOptions
from .wood import PRACTICE, about_fixing, finding, where

SCREW_STUD = declare(
    "screw-misses-stud",
    "A screw into the wall does not meet a stud.",
    uncured="whether the board moves, or an anchor holds it, is a choice of design",
)
NOT_TOLD = declare(
    "wall-not-told",
    "What a screw must reach through or into is not given: it is not taken as 0.",
    uncured="what is in your wall is known to nobody but you",
)
ANCHOR_UNKNOWN = declare(
    "anchor-not-known",
    "The anchor is not a generic type and is not described, or none is named.",
    uncured="which anchor you have stands on its box, nowhere in the job",
)
ANCHOR_UNSUITED = declare(
    "anchor-unsuited",
    "An anchor does not suit the wall, its lining or the screw.",
    uncured="which anchor you buy instead is your choice",
)
WALL = question("wall", "the wall that screws go into", lambda piece: piece.is_fixed)
CODES = (SCREW_STUD, NOT_TOLD, ANCHOR_UNKNOWN, ANCHOR_UNSUITED)

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


def is_masonry(into: str) -> bool:
    """Whether the wall is drilled as stone is."""
    return _has(into, _MASONRY)


def is_studded(into: str) -> bool:
    """Whether there are studs in such a wall."""
    return _has(into, ("stud",))


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
    if not is_studded(options.into):
        return False
    if made.anchor is not None:
        return made.anchor.type.holds_in == "timber"
    return made.screw.kind == "wood" and not options.anchor


def _not_told(meeting: Meeting, made: Plan, options: LongScrewOptions) -> Iterator[Finding]:
    missing = _missing(meeting, made, options)
    if not missing:
        return
    keys = tuple(say("{} =", key) for key in missing)
    more: Words = ""
    if not made.known:
        more = say(
            "; {} of the {} projects from {}, and the wall is to hold {} of it",
            Length(made.beyond),
            made.screw.name,
            Name(meeting.a.body),
            Length(made.hold),
        )
    yield about_fixing(
        meeting,
        NOT_TOLD,
        Severity.WARN,
        say("{}{}", _not_given(missing), more),
        say("measure, and write {} under [wall]; 0 where there is no lining or hollow", Several(keys)),
        PRACTICE,
    )


def _not_given(missing: list[str]) -> Sentence:
    return say("the wall's {} {} not given", Several(tuple(missing)), "is" if len(missing) == 1 else "are")


def wall_not_checked(meeting: Meeting, made: Plan, options: LongScrewOptions) -> Iterator[NotChecked]:
    """What could not be looked at for want of a figure of the wall or of the anchor."""
    left = (*_wall_open(meeting, made, options), *_anchor_open(made, options))
    for what, why in left:
        yield NotChecked(study=WALL, what=say("{}: {}", fixing_called(meeting), what), why=why, where=where(meeting))


def _wall_open(meeting: Meeting, made: Plan, options: LongScrewOptions) -> Iterator[tuple[Words, Words]]:
    """What, and why: of the wall."""
    missing = _missing(meeting, made, options)
    if not made.known:
        unknown = [key for key in missing if key in ("lining", "hollow")]
        yield "how far the screws go into the structure", _not_given(unknown)
    if "kind" in missing:
        yield "whether the wall takes such a screw", "how the wall is built is not given"
    if "studs" in missing:
        yield "whether the screws meet studs", "the wall's studs are not given"


def _anchor_open(made: Plan, options: LongScrewOptions) -> Iterator[tuple[Words, Words]]:
    """What, and why: of the anchor, and of the structure about it."""
    if made.screw.kind == "wood" and not options.anchor:
        return
    anchor = made.anchor
    if anchor is None:
        asked = options.anchor
        yield "the anchor", say('nothing is known of "{}"', Name(asked)) if asked else "none is named"
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
        yield say("what {} holds", _one(anchor)), "its maker's figure is not given"


def _beside(anchor: Anchor, options: LongScrewOptions) -> Iterator[tuple[Words, Words]]:
    """What is about the anchor that no job tells: edges and joints of masonry, studs of steel."""
    if anchor.type.holds_in == "masonry":
        far = "far enough" if anchor.apart is None else say("{} or more", Length(anchor.apart, Fineness.WHOLE))
        what = say("whether each hole is {} from the masonry's edges and openings, and in no mortar joint", far)
        yield what, "nothing says where the masonry ends, or where its joints lie"
    if _has(options.into, _STEEL) and is_studded(options.into):
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
                say(
                    "bore {} of {} misses the nearest stud's centre by {}",
                    str(number),
                    fixing_called(meeting),
                    Length(off, Fineness.WHOLE),
                ),
                "move it to a stud, or use an anchor that suits the wall",
                PRACTICE,
                (off, STUD_AIM),
            )


def studs_missed(meeting: Meeting, options: LongScrewOptions) -> Sentence | None:
    """The bores that meet no stud, for a screw that is refused for another reason; None where none is to be met."""
    off = [(n, far) for n, far in enumerate(meeting.studs_off, 1) if far > STUD_AIM]
    if options.anchor or not off or not is_studded(options.into):
        return None
    missed = tuple(say("bore {} by {}", f"{number}", Length(far, Fineness.WHOLE)) for number, far in off)
    return say("a stud's centre is missed as well: {}; {} at most", Several(missed), Length(STUD_AIM, Fineness.WHOLE))


# ---- anchors


def _anchor(meeting: Meeting, made: Plan, options: LongScrewOptions) -> Iterator[Finding]:
    """An anchor is known, and follows its own rule instead of the wood's."""
    anchor = made.anchor
    if anchor is None:
        if options.anchor:
            says = say('nothing is known of the anchor "{}"', Name(options.anchor))
            yield _unknown(meeting, says, _table(options.anchor))
        elif made.screw.kind == "machine":
            yield _unknown(meeting, say("no anchor is named for the {}", made.screw.name), "[anchor.NAME]")
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
        says = say("two of {} are {} apart", _one(anchor), Length(apart, Fineness.WHOLE))
        remedy = say("leave {} or more between them", Length(anchor.apart, side=On.UP))
        yield _unsuited(meeting, says, remedy, _from(anchor), (apart, anchor.apart), Severity.WARN)


def _table(name: str) -> Sentence:
    """The head of an anchor's table in the job file."""
    return say("[anchor.{}]", Name(name)) if name.isidentifier() else say('[anchor."{}"]', Name(name))


def _unknown(meeting: Meeting, says: Sentence, table: Words) -> Finding:
    return about_fixing(
        meeting,
        ANCHOR_UNKNOWN,
        Severity.WARN,
        say("{}: there are no rules to check it by", says),
        say(
            'write a generic type as it is sold (anchor = "nylon plug 10x50"), or describe it from its maker\'s sheet '
            "in a table {}",
            table,
        ),
        PRACTICE,
    )


def _one(anchor: Anchor) -> Sentence:
    return say("the anchor {}", Name(anchor.name)) if anchor.name else say("a {}", anchor.called)


def _from(anchor: Anchor, generic: str = "trade texts on wall fixings") -> str:
    """Whose rule it is."""
    if not anchor.described:
        return generic
    return f"[anchor.{anchor.name}]" + (f", {anchor.source}" if anchor.source else "")


def _unsuited(
    meeting: Meeting,
    says: Sentence,
    remedy: Words,
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
        says = say("{} takes a {} screw, not a {}", _one(anchor), anchor.screw, screw.name)
        remedy = say("use a {} screw, or an anchor for this one", anchor.screw)
        yield _unsuited(meeting, says, remedy, _from(anchor))
        return
    if anchor.takes is None:
        return
    low, high = anchor.takes
    if not low - 1e-9 <= screw.diameter <= high + 1e-9:
        sizes = Several(tuple(format(size, "g") for size in sorted({low, high})), " to ")
        limit = low if screw.diameter < low else high
        says = say("{} takes a screw of {} mm, not one of {}", _one(anchor), sizes, format(screw.diameter, "g"))
        yield _unsuited(
            meeting,
            says,
            "use a screw that fits it, or the anchor for this screw",
            _from(anchor),
            (screw.diameter, limit),
        )


def _suits_wall(meeting: Meeting, options: LongScrewOptions, anchor: Anchor) -> Iterator[Finding]:
    """Plugs and metal expansion anchors crush plasterboard; what clamps a lining wants one; an insert wants timber."""
    into, kind = options.into, anchor.type
    masonry, hollow = _has(into, _MASONRY), _has(into, _HOLLOW)
    says: Sentence | None = None
    if kind.holds_in == "masonry" and not masonry and (hollow or is_timber(into)):
        says = say("{} is for masonry: in {} it crushes its hole", _one(anchor), into)
    elif kind.holds_in == "lining" and masonry and not hollow:
        says = say("{} clamps a lining with a void behind it, which {} does not have", _one(anchor), into)
    elif kind.holds_in == "timber" and into and not is_timber(into):
        says = say("{} holds in timber, not in {}", _one(anchor), into)
    if says is not None:
        remedy = "use an anchor that is made for such a wall"
        yield _unsuited(meeting, says, remedy, _from(anchor, LINING))
    elif kind.id == "nylon_plug" and _has(into, _PERFORATED):
        says = say("in {} {} holds half as much or less", into, _one(anchor))
        remedy = "use a plug for perforated brick, which is longer, and drill without hammer"
        yield _unsuited(meeting, says, remedy, _from(anchor), severity=Severity.WARN)


def _reaches(meeting: Meeting, made: Plan, options: LongScrewOptions, anchor: Anchor) -> Iterator[Finding]:
    """In masonry: a plug holds where the screw passes its end, and a screw's point must not meet the hole's bottom."""
    if anchor.type.holds_in != "masonry" or made.held is None:
        return
    wanted = anchor.hold(made.screw, made.lining or 0.0)
    if wanted is not None and made.held < wanted - 1e-9:
        goes = say("the {} goes {} into {}", made.screw.name, Length(made.held), _one(anchor))
        says = say("{}, which needs {}", goes, Length(wanted))
        remedy = say("leave out engagement: it is then {}", Length(wanted, side=On.UP))
        yield _unsuited(meeting, says, remedy, _from(anchor), (made.held, wanted))
    far = made.held + (options.hollow or 0.0)
    if anchor.deep is not None and far > anchor.deep + 1e-9:
        says = say(
            "where the wall is even, the {} goes {} into a hole {} deep",
            made.screw.name,
            Length(far),
            Length(anchor.deep),
        )
        remedy = say("drill {} or more, or use a shorter screw", Length(far, side=On.UP))
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
            range_of = say("{} clamps {} to {}", _one(anchor), Length(low), Length(high))
            says = say("{}: a lining of {} is {} {} that", range_of, Length(lining), Length(off), over)
            remedy = "use the length whose range includes the lining, or another anchor"
            compared = (lining, low if lining < low else high)
            yield _unsuited(meeting, says, remedy, _from(anchor, "usual data sheets (from memory)"), compared)
    if options.void is None or anchor.type.holds_in != "lining":
        return
    wanted = max(anchor.void or 0.0, made.held or 0.0)
    if options.void < wanted - 1e-9:
        wants = say("{} needs {}", _one(anchor), Length(wanted))
        says = say("{} free behind the lining, and there is {}", wants, Length(options.void))
        remedy = "use a shorter anchor and screw, or one that needs no void"
        yield _unsuited(meeting, says, remedy, _from(anchor), (options.void, wanted))
