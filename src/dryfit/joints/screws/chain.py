"""The chain of a long screw and its hole: washer, grip, gap, lining, hold. Lengths in mm.

Worked example: a board 280 wide, screw 6 x 120, countersunk: of its length 116.4 is under the head (3.6 high). With a
gap of 5, a lining of 12.5 and 6 x 6 = 36 held in the stud it allows a grip of 62.9. A screw 6 x 120 in a plug 10 x 50,
pan head: 45 of grip, 4 of gap, 15 of plaster, 50 of plug and 6 past its end. A gap or lining that nobody has measured
is not 0: the grip is then the least there may be, and all the rest of the screw is for the wall.
"""

from dataclasses import dataclass

from ...job.options import given
from ...piece.model import Joint, Meeting
from ...trade.anchors import Anchor, generic
from ...trade.screws import (
    CHUCK,
    DRIVER_BITS,
    ENGAGEMENT,
    LONG_BIT_LENGTHS,
    LONG_BITS,
    PLUG_CUTTERS,
    Screw,
    figure,
    next_of,
    read_screw,
)
from ..common import OVER_HEAD, PLUG, size_of
from .options import LongScrewOptions

DRILL = 200.0  # length of a drill behind its chuck (common practice)
LEAST_GRIP = 30.0  # and 4 d (common practice)
ENTRY, PER_100, BY_HAND = 0.3, 0.5, 1.0  # wander: at the start, guided and by hand in 100 of depth (common practice)


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """The chain and the hole of one fixing.

    Attributes:
        anchor: what takes the screw; None in timber, and where nothing is known of it.
        width: of the board, across which the hole runs.
        grip: wood under the head, or under the washer.
        least_grip: that there must be.
        longest_grip: that the screw allows: its length under the head less washer, gap, lining and hold; where gap or
            lining is not known it allows no more than this.
        widest_grip: that the board allows, if head and plug are to be hidden in it.
        washer: how thick it is, 0 for none.
        off: what the board stands off the wall; `gap` that and the wall's hollow; `lining`: None where not known.
        hold: wanted beyond the lining; `hold_known` False where only the anchor's maker says.
        head: diameter of the head, or of the washer under it.
        deep: of the counterbore, `hole` on through the grip.
        driver: length of the driver bit, None where none that is sold is long enough; `bit` of the wood bit likewise.
        hole_from: where the hole's diameter comes from.
        plugged: whether plugs close the holes; `drilled` how they are kept straight.
        into: what the wall is; `asked` the anchor as the job names it; both "" where nothing is said.
    """

    screw: Screw
    anchor: Anchor | None
    width: float
    grip: float
    least_grip: float
    longest_grip: float
    widest_grip: float
    washer: float
    off: float
    gap: float | None
    lining: float | None
    hold: float
    hold_known: bool
    head: float
    hole: float
    least_hole: float
    counterbore: float
    deep: float
    wander: float
    driver: float | None
    bit: float | None
    hole_from: str
    plugged: bool
    drilled: str
    into: str
    asked: str

    @property
    def beyond(self) -> float:
        """What of the screw stands out of the board at the wall: gap, lining and hold."""
        return self.screw.under_head - self.washer - self.grip

    @property
    def held(self) -> float | None:
        """Beyond the lining where the gap is worst; None where gap or lining is not known."""
        return None if self.gap is None or self.lining is None else self.beyond - self.gap - self.lining

    @property
    def known(self) -> bool:
        """Whether all that the screw must reach through is known."""
        return self.gap is not None and self.lining is not None

    @property
    def clear(self) -> float:
        """Free before the mouth while it is driven: for bit and screw, then for bit, travel of the screw and drill."""
        return self.line(self.driver if self.driver is not None else self.reach)

    def line(self, bit: float, behind: float = DRILL) -> float:
        """The same with a driver bit of another length: it and the screw go in straight, the head first standing out.

        `behind` is what stands out behind the bit: the drill's body, or the head of an angle driver.

        At the start the head stands out by what the screw still goes in, its length less washer, grip, gap and what of
        the lining does not hold (`held`), and the drill is behind it.
        """
        return max(bit, self.screw.length, bit - self.deep + self.travel + behind)

    @property
    def travel(self) -> float:
        """How far the screw still goes in once it stands in its holes: then its head stands out by that."""
        return self.beyond if self.held is None else self.held

    @property
    def reach(self) -> float:
        """The shortest driver and wood bit that will do: the counterbore's depth and the chuck."""
        return self.deep + CHUCK


def plan(meeting: Meeting, options: LongScrewOptions) -> Plan:
    """The chain of a fixing's screws; the screw is known, as `judge` has made sure."""
    screw = read_screw(options.screw)
    assert screw is not None, "judged before it is made"
    width, off = meeting.a.front - meeting.a.back, max(meeting.a.back, 0.0)
    gap = None if options.hollow is None else options.hollow + off
    anchor = _anchor(meeting, options, screw)
    hold, hold_known = _hold(options, screw, anchor)
    washer = size_of(screw, "washer_thick") if options.washer and figure(screw, "washer_thick") else 0.0
    least = max(LEAST_GRIP, 4 * screw.diameter)
    widest = width - washer - screw.head_height - (PLUG if options.plugged else 0.0)
    longest = screw.under_head - washer - (off if gap is None else gap) - (options.lining or 0.0) - hold
    known = gap is not None and options.lining is not None
    grip = options.grip if options.grip is not None else min(longest if known else least, widest)
    grip = min(max(grip, 1.0), width)
    head = size_of(screw, "washer" if options.washer else "head")
    deep = width - grip
    per_100 = PER_100 if options.drilled == "guided" else BY_HAND
    return Plan(
        screw=screw,
        anchor=anchor,
        width=width,
        grip=grip,
        least_grip=least,
        longest_grip=longest,
        widest_grip=widest,
        washer=washer,
        off=off,
        gap=gap,
        lining=options.lining,
        hold=hold,
        hold_known=hold_known,
        head=head,
        hole=options.hole_diameter if options.hole_diameter is not None else size_of(screw, f"hole_{options.hole}"),
        least_hole=size_of(screw, "hole_fine"),
        counterbore=_counterbore(head, options),
        deep=deep,
        wander=ENTRY + per_100 * deep / 100,
        driver=options.driver if options.driver is not None else next_of(DRIVER_BITS, deep + CHUCK),
        bit=next_of(LONG_BIT_LENGTHS, deep + CHUCK),
        hole_from=_hole_from(options, screw),
        plugged=options.plugged,
        drilled=options.drilled,
        into=options.into,
        asked=options.anchor,
    )


def plan_of(joint: Joint) -> Plan | None:
    """The same of a joint that is made; None where no long screws are in it."""
    return plan(joint.meeting, joint.options) if isinstance(joint.options, LongScrewOptions) else None


def _hole_from(options: LongScrewOptions, screw: Screw) -> str:
    known = figure(screw, f"hole_{options.hole}")
    return "as asked" if given(options, "hole_diameter") or known is None else known.cited


def _anchor(meeting: Meeting, options: LongScrewOptions, screw: Screw) -> Anchor | None:
    """As the job describes it, else a generic one."""
    if meeting.anchor is not None:
        return meeting.anchor
    return generic(options.anchor, screw, options.lining) if options.anchor else None


def _hold(options: LongScrewOptions, screw: Screw, anchor: Anchor | None) -> tuple[float, bool]:
    """Wanted beyond the lining, and whether that is known: six diameters in wood, in an anchor what it asks for."""
    if options.engagement is not None:
        return options.engagement, True
    own = anchor.hold(screw, options.lining or 0.0) if anchor is not None else None
    if own is not None:
        return own, True
    return ENGAGEMENT * screw.diameter, screw.kind == "wood" and not options.anchor


def _counterbore(head: float, options: LongScrewOptions) -> float:
    """Over head or washer; up to the next plug cutter where it is plugged, else to the next bit."""
    if options.counterbore is not None:
        return options.counterbore
    least = head + OVER_HEAD
    return next_of(PLUG_CUTTERS if options.plugged else LONG_BITS, least) or least
