"""A sketch, never registered: a sliding dovetail, full or tapered, to prove the protocol of joint kinds.

Figures of reference case K12: t 27, cutter 12.7 x 14 degrees, 9 deep: the neck is 12.7 - 2 x 9 tan 14 = 8.21, the
tail 12.7, shoulders 9.39 beside the neck (7.15 of waste a side at the tip). Square boards only, to stay short.
The taper is what `Prism.outline_high` is for: a socket narrower at one edge than at the other.
"""

import math
from typing import Annotated, Any, Literal

import pytest
from pydantic import Field

from dryfit.geometry.frames import length
from dryfit.geometry.shapes import OVER, Prism, half_space, outline
from dryfit.job.options import Options, Quantity, Within
from dryfit.joints import KINDS
from dryfit.joints.common import told
from dryfit.keeping import Keep
from dryfit.piece.clash import clashes
from dryfit.piece.kinds import JointKind, Operation, Spring, StrengthCheck, Way
from dryfit.piece.model import (
    FAR_END,
    Cut,
    Figures,
    Gap,
    GlueFace,
    Hand,
    Joint,
    Judgement,
    Mating,
    Motion,
    Touch,
)
from dryfit.piece.plane import Lines
from dryfit.piece.solids import Solids

from ..joints.going import overlap_when_moved, slides
from ..piece.making import asked, built, coded, cut_of, job_of, joint_of, plank

TIP_GAP = 0.5  # the shoulders bear, the tail does not reach the floor


THIRD: Any = "t_b / 3"  # arithmetic as a default: a length once it is worked out at the meeting


class DovetailOptions(Options):
    clearance: Annotated[Quantity, Within(least=0)] = Field(default=0.1)
    depth: Annotated[Quantity, Within(above=0)] = Field(default=THIRD)
    cutter: Quantity = Field(default=12.7)
    slope: float = Field(default=14.0, gt=0, lt=30)
    taper: Annotated[Quantity, Within(least=0)] = Field(default=0.0)
    enters: Literal["either", "front", "wall"] = Field(default="either")

    def half(self, deep, play=0.0, less=0.0):
        """Half the width at a depth below the face; `less` where a tapered socket is narrower."""
        tail = self.cutter - 2 * (self.depth - deep) * math.tan(math.radians(self.slope))
        return (tail + play - less) / 2


class Dovetail(JointKind[DovetailOptions]):
    name = "sketched dovetail"
    serves = frozenset({(Touch.END, Touch.FACE)})
    options = DovetailOptions

    def judge(self, meeting, options):
        reasons = []
        if meeting.angle < 90:
            reasons.append("this sketch is made square only")
        if (meeting.a.thickness - 2 * options.half(0)) / 2 < 3:
            reasons.append("the shoulders want 3 each")
        if options.half(0) <= 2 or options.depth > meeting.b.thickness / 2:
            reasons.append("the neck is too thin, or the socket deeper than half")
        return Judgement(possible=not reasons, rank=2, reasons=tuple(reasons))

    def hands(self, meeting, options):
        """A full one leaves either way; a tapered one only towards its wide end: two ways to make it."""
        free = meeting.overlap[1] - meeting.overlap[0]
        out = {
            way: Motion(body=meeting.a.body, direction=(0.0, 0.0, z), free=free)
            for way, z in (("front", 1.0), ("wall", -1.0))
        }
        if not options.taper:
            return (Hand(name=f"{meeting.a.body} slid into {meeting.b.body}", motions=tuple(out.values())),)
        ways = ("front", "wall") if options.enters == "either" else (options.enters,)
        return tuple(Hand(name=f"enters from the {way}", motions=(out[way],), word=("enters", way)) for way in ways)

    def matings(self, meeting, options, hand):
        key = f"socket in {meeting.b.body} for {meeting.a.body}"
        neck = length(2 * options.half(0, options.clearance))
        return (
            Mating(
                key=key, cut_in=meeting.b.body, takes=meeting.a.body, normal=(1.0, 0.0, 0.0), nominal=neck,
                play=options.clearance, play_from="clearance",
            ),
        )  # fmt: skip

    def make(self, meeting, options, hand):
        a, b = meeting.a, meeting.b
        lines, face = Lines.of(b, a), b.face * b.thickness / 2
        wide_front = "wall" not in hand.name

        def across(deep, play, narrow, way=1.0):
            """A place on the tail's flank in b's plane; `narrow` at the tapered edge."""
            return (lines.at + way * options.half(deep, play, options.taper if narrow else 0.0), face - b.face * deep)

        def swept(shape, low, high):
            """A prism out of the wall whose outline may differ at the wall and at the front."""
            wall, front = (outline(*shape(narrow)) for narrow in (wide_front, not wide_front))
            return Prism(
                outline=wall, low=length(low), high=length(high), outline_high=front if options.taper else None
            )

        def socket(narrow):
            low, out = across(options.depth, options.clearance, narrow), across(-OVER, options.clearance, narrow)
            return (2 * lines.at - low[0], low[1]), low, out, (2 * lines.at - out[0], out[1])

        def waste(way):
            def shape(narrow):
                tip, neck = across(options.depth + OVER, 0, narrow, way), across(0, 0, narrow, way)
                aside = lines.at + way * (a.thickest / 2 + OVER)
                return tuple(map(lines.carry, (tip, neck, (aside, neck[1]), (aside, tip[1]))))

            return shape

        whole = b.front - b.back
        end = half_space(
            lines.carry((lines.at, face - b.face * (options.depth - TIP_GAP))), (1.0 if a.end == FAR_END else -1.0, 0.0)
        )
        key = f"socket in {b.body} for {a.body}"
        tail = 2 * options.half(options.depth - TIP_GAP) * whole
        flank = (options.depth - TIP_GAP) / math.cos(math.radians(options.slope)) * whole
        return Joint(
            key=meeting.key,
            kind=self.name,
            meeting=meeting,
            options=told(options),
            hand=hand,
            cuts=(
                Cut(
                    key=key, body=b.body, kind="socket", takes=a.body, joint=meeting.key, face=b.face,
                    shapes=(swept(socket, 0.0, whole),), size_is="FIT TO", tool="dovetail cutter on a guide",
                    figures=Figures(
                        across=length(2 * options.half(0, options.clearance)), deep=options.depth, opens="face",
                        sum=f"cutter {options.cutter:.1f} + clearance {options.clearance:.2f}",
                    ),
                ),
                Cut(
                    key=f"tail of {a.body} in {b.body}", body=a.body, kind="tail", joint=meeting.key, end=a.end,
                    shapes=(end, *(swept(waste(way), 0.0, whole) for way in (1.0, -1.0))),
                    figures=Figures(
                        across=length(2 * options.half(options.depth)), deep=options.depth - TIP_GAP, opens="end"
                    ),
                ),
            ),
            gaps=(Gap(between="wall", size=options.clearance / 2, count=2), Gap(between="bottom", size=TIP_GAP)),
            hidden_mm2=((a.body, 2 * flank + tail), (b.body, 2 * flank + tail)),
        )  # fmt: skip

    def glue(self, joint):
        """Long tails are glued on the last 50 only: they must move (GEOMETRY: the last 50 to 80)."""
        options = dict(joint.options)
        flank = 2 * 50 * options["depth"] / math.cos(math.radians(options["slope"]))
        return (GlueFace(grain="side-end", area_mm2=flank),)

    def springs(self, joint, timbers):
        return (Spring(axis="out", low=1.0, likely=1.0, high=1.0, source="made up: a sketch shows the form only"),)

    def strength(self, joint, timbers, demand):
        """Shear of the neck along the grain, per mm2: the demand alone, since a sketch has no figure for the wood."""
        options = dict(joint.options)
        low, high = joint.meeting.overlap
        neck = options["cutter"] - 2 * options["depth"] * math.tan(math.radians(options["slope"]))
        stress = demand["pull_n"] / (neck * (high - low))
        return (
            StrengthCheck(
                name="pull", demand=stress, capacity=math.inf, unit="N/mm2", source="sketch", assumptions=("even",)
            ),
        )

    def operations(self, joint):
        """The socket first, then the tail to it, in the same cutter; the fitting waits for the socket."""
        socket, tail = joint.cuts
        options = dict(joint.options)
        setup = ("dovetail", options["cutter"], options["slope"])
        way = Way(process="router with a dovetail cutter", needs=(("reach", options["depth"]),), setup=setup)
        return (
            Operation(key=socket.key, cuts=(socket.key,), ways=(way,)),
            Operation(key=tail.key, cuts=(tail.key,), ways=(way,), after=(socket.key,)),
        )

    def notes(self, joint):
        return ("Goes in along its length only; the shoulders bear.",)


SHOWN = {**KINDS, Dovetail.name: Dovetail()}
UPRIGHT = plank("B", (0, 0), (0, 1200), thickness=27)
TAN14 = math.tan(math.radians(14))


def joined(a=None, **own):
    shelf = a or plank("A", (0, 500), (700, 500), thickness=27)
    piece = built(job_of(UPRIGHT, shelf, joint_specs=(asked("A", "B", Dovetail.name, **own),)), kinds=SHOWN)
    return piece, joint_of(piece, "A", "B")


def volumes(piece):
    solids = Solids()
    return {part.id: solids.volume(part) for part in piece.parts}


def test_the_figures_are_those_of_case_k12():
    piece, _ = joined(clearance=0)

    assert cut_of(piece, "socket in B for A").figures.deep == 9.0
    assert cut_of(piece, "socket in B for A").figures.across == pytest.approx(8.21, abs=0.005)
    assert cut_of(piece, "tail of A in B").figures.across == pytest.approx(12.7)
    assert pytest.approx(7.15) == (27 - 12.7) / 2


def test_the_solids_come_out_as_the_trapezoids_say():
    """Socket: (8.212 + 12.7) / 2 x 9 over 300. Tail: as deep, less 0.5 at its tip where it is 12.45 to 12.7 wide."""
    found = volumes(joined(clearance=0)[0])
    neck, tip = 12.7 - 18 * TAN14, 12.7 - 2 * 0.5 * TAN14

    assert found["B"] == pytest.approx(1200 * 27 * 300 - (neck + 12.7) / 2 * 9 * 300)
    assert found["A"] == pytest.approx((700 - 13.5) * 27 * 300 + (neck + tip) / 2 * 8.5 * 300)


@pytest.mark.parametrize("enters", ["front", "wall"])
def test_a_tapered_one_is_its_mean_and_leaves_only_towards_its_wide_end(enters):
    piece, joint = joined(clearance=0, taper=1.0, enters=enters)
    neck = 12.7 - 18 * TAN14

    assert volumes(piece)["B"] == pytest.approx(1200 * 27 * 300 - ((neck + 12.7) / 2 - 0.5) * 9 * 300)
    (motion,) = joint.hand.motions
    assert motion.direction[2] == (1.0 if enters == "front" else -1.0)
    assert slides(piece, joint, motion)
    back = (0.0, 0.0, -30.0 * motion.direction[2])
    assert overlap_when_moved(piece, joint, "A", back) > 1.0


def test_it_slides_out_either_way_and_never_out_of_the_face():
    piece, joint = joined()

    assert {motion.direction for motion in joint.hand.motions} == {(0.0, 0.0, 1.0), (0.0, 0.0, -1.0)}
    assert all(slides(piece, joint, motion) for motion in joint.hand.motions)
    assert overlap_when_moved(piece, joint, "A", (3.0, 0.0, 0.0)) > 1000
    assert overlap_when_moved(piece, joint, "A", (-0.02, 0.0, 0.0)) > 1  # the shoulders bear
    assert overlap_when_moved(piece, joint, "A", (0.0, 0.049, 0.0)) == pytest.approx(0.0, abs=1e-6)


def test_two_ways_to_make_it_are_settled_and_the_choice_can_be_kept():
    piece, joint = joined(taper=0.5)
    (decision,) = piece.decisions

    assert {decision.value, *decision.others} == {"enters from the front", "enters from the wall"}
    assert (decision.value, decision.decider) == (joint.hand.name, "chosen")
    assert "A lies before B" in str(decision.reason)  # level boards lie first, so B comes down over A
    assert decision.keep is not None
    assert decision.keep.path[-1] == "enters"
    kept, same = joined(taper=0.5, enters=decision.keep.value)
    assert kept.decisions == ()
    assert same.hand == joint.hand


def test_no_other_room_stumbles_over_it():
    piece, joint = joined()
    keep = Keep()

    assert clashes(piece.parts, Solids(keep), frozenset({joint.key}), keep) == ()
    assert not coded(piece.findings, "short-grain")
    assert piece.part_by_name["A"].length == 700 - 13.5 + 8.5
    kind = SHOWN[joint.kind]
    assert {cut for operation in kind.operations(joint) for cut in operation.cuts} == {cut.key for cut in joint.cuts}
    assert kind.operations(joint)[0].ways[0].setup == kind.operations(joint)[1].ways[0].setup
    assert kind.hardware(joint) == ()
    assert kind.glue(joint)[0].area_mm2 < joint.hidden_mm2[0][1]
    assert kind.strength(joint, {}, {"pull_n": 300.0})[0].demand == pytest.approx(300 / (8.212 * 300), abs=1e-4)


@pytest.mark.parametrize(
    ("a", "own", "reason"),
    [
        (plank("A", (0, 500), (700, 600), thickness=27), {}, "square only"),
        (plank("A", (0, 500), (700, 500), thickness=14), {}, "shoulders"),
        (None, {"depth": "t_b * 0.6"}, "deeper than half"),
    ],
    ids=["raked", "too thin", "too deep"],
)
def test_what_it_cannot_do_is_a_finding_with_its_reason(a, own, reason):
    job = job_of(
        UPRIGHT,
        a or plank("A", (0, 500), (700, 500), thickness=27),
        joint_specs=(asked("A", "B", Dovetail.name, **own),),
    )
    (finding,) = coded(built(job, kinds=SHOWN).findings, "joint-unsuited")

    assert reason in str(finding.says)
