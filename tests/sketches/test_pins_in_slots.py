"""A sketch, never registered: a shelf on pins in slots that are cut into its ends and open to the wall.

Dowels of 8 stand 10 out of the upright's face, one 40 behind the shelf's front, one 60 before its wall edge. The
slot is 8.2 wide, 11 deep, open at the wall and as long as brings the shelf's front level. The shelf slides on
from the room; nothing shows from the front. A round hole of a solid has 32 sides.
"""

import math
from typing import Any

import manifold3d as m3
import pytest
from pydantic import Field

from dryfit.geometry.frames import length
from dryfit.geometry.shapes import OVER, Bore, half_space, prism
from dryfit.geometry.solids import SIDES
from dryfit.job.options import Options, Quantity
from dryfit.joints import KINDS
from dryfit.keeping import Keep
from dryfit.piece.carries import sideways
from dryfit.piece.clash import clashes
from dryfit.piece.facts import Between, CutForm, Opens, Stop
from dryfit.piece.kinds import JointKind
from dryfit.piece.model import FAR_END, Cut, Figures, Gap, Hand, Joint, Judgement, Mating, Motion, Touch, Ware
from dryfit.piece.operations import Dial, Operation, Way, WorkSort, bored, sawn
from dryfit.piece.plane import Lines
from dryfit.piece.solids import Solids
from dryfit.piece.sums import Sum, Word
from dryfit.sentences import Fineness, Length
from dryfit.shop.tools import Ability, Need, Process

from ..joints.going import CONTACT
from ..piece.making import asked, built, coded, cut_of, job_of, joint_of, plank

PLAY = 1.0  # the slot is so much deeper than the pins stand out (GEOMETRY: p + 1)


HALF: Any = "t_b / 2"  # arithmetic as a default: a length once it is worked out at the meeting


class PinOptions(Options):
    clearance: Quantity = Field(default=0.2)
    dowel: Quantity = Field(default=8.0)
    stands_out: Quantity = Field(default=10.0)
    let_in: Quantity = Field(default=HALF)
    front: Quantity = Field(default=40.0)
    wall: Quantity = Field(default=60.0)


class PinsInSlots(JointKind[PinOptions]):
    name = "sketched pins in slots"
    serves = frozenset({(Touch.END, Touch.FACE)})
    options = PinOptions

    def judge(self, meeting, options):
        square = meeting.angle == 90
        wide = meeting.a.thickness - options.dowel - options.clearance >= 6
        reasons = ("square only",) * (not square) + ("too little wood beside the slot",) * (not wide)
        return Judgement(possible=square and wide, rank=3, reasons=reasons)

    def hands(self, meeting, options):
        free = length(self._stop(meeting, options))
        motion = Motion(body=meeting.a.body, direction=(0.0, 0.0, 1.0), free=free)
        return (Hand(name=f"{meeting.a.body} slid onto its pins from the front", motions=(motion,)),)

    def carries(self, joint):
        """The shelf lies on its pins, and cannot be lifted off them but towards the front."""
        a, b, frame = joint.meeting.a, joint.meeting.b, joint.meeting.frame
        return (sideways(a.body, b.body, frame.x, (frame.origin,)),)

    def _stop(self, meeting, options):
        """How far the slot runs in from the shelf's wall edge: round the front pin."""
        return meeting.a.front - meeting.a.back - options.front + options.dowel / 2

    def matings(self, meeting, options, hand):
        a, b = meeting.a.body, meeting.b.body
        return (
            Mating(
                key=f"pin slot in {a} at {b}",
                cut_in=a,
                takes=f"pins of {b}",
                normal=(0.0, 1.0, 0.0),
                nominal=options.dowel + options.clearance,
                play=options.clearance,
                play_from="clearance",
            ),
        )

    def make(self, meeting, options, hand):
        a, b = meeting.a, meeting.b
        lines, face = Lines.of(b, a), b.face * b.thickness / 2
        way = 1.0 if a.end == FAR_END else -1.0
        end, _ = lines.carry((lines.at, face))
        half, deep = (options.dowel + options.clearance) / 2, options.stands_out + PLAY
        slot = prism(
            ((end - way * deep, -half), (end + way * OVER, -half), (end + way * OVER, half), (end - way * deep, half)),
            -OVER,
            self._stop(meeting, options),
        )
        places = (a.back + options.wall - b.back, a.front - options.front - b.back)
        bores = tuple(
            Bore(
                start=(lines.at, face, place),
                direction=(0.0, -float(b.face), 0.0),
                profile=((-OVER, options.dowel), (options.let_in, 0.0)),
            )
            for place in places
        )
        return Joint(
            key=meeting.key,
            kind=self.name,
            meeting=meeting,
            options=options,
            hand=hand,
            cuts=(
                Cut(
                    key=f"end of {a.body} at {b.body}",
                    body=a.body,
                    form=CutForm.END,
                    word="end",
                    joint=meeting.key,
                    end=a.end,
                    shapes=(half_space((end, 0.0), (way, 0.0)),),
                    figures=Figures(opens=Opens.END),
                ),
                Cut(
                    key=f"pin slot in {a.body} at {b.body}",
                    body=a.body,
                    form=CutForm.SLOT,
                    word="pin slot",
                    takes=f"pins of {b.body}",
                    joint=meeting.key,
                    shapes=(slot,),
                    size_is="FIT TO",
                    figures=Figures(
                        width=Sum.alone(2 * half),
                        depth=Sum.alone(deep),
                        opens=Opens.END,
                        stops=(Stop(edge=Opens.FRONT, size=Sum.alone(options.front - options.dowel / 2, Word.STOP)),),
                    ),
                ),
                Cut(
                    key=f"pins in {b.body} for {a.body}",
                    body=b.body,
                    form=CutForm.BORE,
                    word="bore",
                    takes="pins",
                    joint=meeting.key,
                    face=b.face,
                    shapes=bores,
                    figures=Figures(width=Sum.alone(options.dowel), depth=Sum.alone(options.let_in), opens=Opens.FACE),
                ),
            ),
            gaps=(
                Gap(between=Between.WALL, size=options.clearance / 2, count=2),
                Gap(between=Between.BOTTOM, size=PLAY),
            ),
            hidden_mm2=tuple((side.body, a.thickness * (meeting.overlap[1] - meeting.overlap[0])) for side in (a, b)),
        )

    def hardware(self, joint):
        options = joint.options
        size = f"{options.dowel:g} x {options.stands_out + options.let_in:g}"
        return (Ware(what="dowel", says=size, count=2),)

    def operations(self, joint, boards):
        end, slot, bores = joint.cuts
        wide = Length(slot.figures.across, Fineness.WIDTH)
        groove = Way(
            process=Process.ROUTER,
            makes="pin slot",
            says="router with a groove cutter",
            needs=(Need(ability=Ability.CUTTER, most=slot.figures.across),),
            sets=((Dial.WIDTH, wide), (Dial.DEPTH, Length(slot.figures.deep))),
        )
        return (
            sawn([end], boards[end.body]),
            Operation(key=slot.key, work=WorkSort.CORNER, cuts=(slot.key,), ways=(groove,), after=(end.key,)),
            *bored(bores, boards[bores.body], "drill stand"),
        )

    def notes(self, joint):
        return ("Slides on from the front; is not glued.",)


SHOWN = {**KINDS, PinsInSlots.name: PinsInSlots()}
SIDES_OF = [plank("left", (0, 0), (0, 1200)), plank("right", (800, 0), (800, 1200))]


def joined(shelf=None, sides=SIDES_OF, **own):
    shelf = shelf or plank("shelf", (0, 500), (800, 500))
    specs = tuple(asked("shelf", side.name, PinsInSlots.name, **own) for side in sides)
    piece = built(job_of(*sides, shelf, joint_specs=specs), kinds=SHOWN)
    return piece, [joint_of(piece, "shelf", side.name) for side in sides]


def test_the_solids_come_out_by_hand():
    """Shelf 776 between the faces, two slots 11 x 8.2 x 264; uprights less two holes of 8, 12 deep."""
    piece, joints = joined()
    solids = Solids()
    ring = SIDES / 2 * math.sin(2 * math.pi / SIDES) * 16

    assert piece.part_by_name["shelf"].length == 776
    assert solids.volume(piece.part_by_name["shelf"]) == pytest.approx(776 * 24 * 300 - 2 * 11 * 8.2 * 264)
    for side in ("left", "right"):
        assert solids.volume(piece.part_by_name[side]) == pytest.approx(1200 * 24 * 300 - 2 * ring * 12)
    assert [joint.kind for joint in joints] == [PinsInSlots.name] * 2


def pins(piece, joints):
    """The dowels of all joints as solids in the world."""
    found = []
    for joint in joints:
        side = joint.meeting.b.body
        frame = piece.board_by_name[side].frame
        for bore in cut_of(piece, f"pins in {side} for shelf").shapes:
            x, y, z = frame.place(bore.start)
            out = -frame.direct(bore.direction)[0]
            pin = m3.Manifold.cylinder(10.0, 4.0, 4.0, 32).rotate((0.0, 90.0 * out, 0.0)).translate((x, y, z))
            found.append(pin)
    return found


def test_the_shelf_slides_over_its_pins_from_the_front_and_no_other_way():
    piece, joints = joined()
    shelf = Solids().placed(piece.part_by_name["shelf"])
    dowels = pins(piece, joints)
    (motion,) = joints[0].hand.motions

    def bites(by):
        moved = shelf.translate(by)
        return sum((moved ^ pin).volume() for pin in dowels)

    assert motion.direction == (0.0, 0.0, 1.0)
    assert all(bites((0.0, 0.0, z)) <= CONTACT for z in range(0, int(motion.free) + 40, 8))
    assert bites((0.0, 0.0, -20.0)) > 100  # the slots end at the front pins
    assert bites((0.0, -2.0, 0.0)) > 100  # and hold the shelf up
    assert bites((0.0, -2.0, motion.free + 0.1)) <= CONTACT  # free once past the front pins
    assert bites((0.0, -2.0, motion.free - 4.0)) > 10


def test_nothing_shows_from_the_front():
    piece, joints = joined()
    slot = cut_of(piece, "pin slot in shelf at left")

    assert slot.shapes[0].high == 264.0  # of 300
    assert slot.figures.stop == 36.0
    assert all(joint.hand.open_notch == 0.0 for joint in joints)


def test_no_other_room_stumbles_over_it():
    piece, joints = joined()
    keep = Keep()

    assert clashes(piece.parts, Solids(keep), frozenset(joint.key for joint in joints), keep) == ()
    assert not [finding for finding in piece.findings if finding.severity == "stop"]
    assert not coded(piece.findings, "short-grain")
    kind = SHOWN[PinsInSlots.name]
    assert [(item.name, str(item.says), item.count) for item in kind.hardware(joints[0])] == [("dowel", "8 x 22", 2)]
    assert kind.glue(joints[0]) == ()
    assert {cut for operation in kind.operations(joints[0], piece.board_by_name) for cut in operation.cuts} == {
        cut.key for cut in joints[0].cuts
    }


def test_a_shelf_set_back_is_pinned_where_it_is():
    piece, _ = joined(plank("shelf", (0, 500), (800, 500), depth=200, back=50))
    places = [bore.start[2] for bore in cut_of(piece, "pins in left for shelf").shapes]

    assert places == [50 + 60, 250 - 40]
    assert cut_of(piece, "pin slot in shelf at left").shapes[0].high == 200 - 40 + 4
