"""A sketch, never registered: a sliding dovetail, full or tapered, to prove the protocol of joint kinds.

The kind itself is `dryfit.joints.sliding_dovetail`, whose socket is the cutter's own and whose tail is smaller by the
clearance; this one, older, widens the socket instead, and stays for the taper, which is not made yet.

Figures of reference case K12: t 27, cutter 12.7 x 14 degrees, 9 deep: the neck is 12.7 - 2 x 9 tan 14 = 8.21, the
tail 12.7, shoulders 9.39 beside the neck (7.15 of waste a side at the tip). Square boards only, to stay short.
The taper is what `Prism.outline_high` is for: a socket narrower at one edge than at the other.
"""

import math
import re
from dataclasses import replace
from typing import Annotated, Any, Literal

import pytest
from pydantic import Field

from dryfit.book import build, read_job_text
from dryfit.documents.display import Text
from dryfit.documents.elevation import elevation
from dryfit.documents.looks import Desk, Look
from dryfit.documents.workshop import paper_sheets
from dryfit.geometry.frames import length
from dryfit.geometry.shapes import OVER, Prism, half_space, outline
from dryfit.geometry.views import Surface
from dryfit.job.options import Options, Quantity, Within
from dryfit.joints import KINDS
from dryfit.keeping import Keep
from dryfit.piece.clash import clashes
from dryfit.piece.facts import Between, CutForm, Cutting, GlueZone, Grain, Opens, SectionLength, Size
from dryfit.piece.kinds import JointKind
from dryfit.piece.made import HEAD, read_made_text
from dryfit.piece.model import (
    FAR_END,
    Cut,
    Figures,
    Gap,
    Hand,
    Joint,
    Judgement,
    Mating,
    Motion,
    Touch,
)
from dryfit.piece.operations import Dial, Operation, Way, WorkSort
from dryfit.piece.plane import Lines
from dryfit.piece.solids import Solids
from dryfit.piece.sums import Sum, Term, Word
from dryfit.sentences import Angle, Fineness, Length, Name, say
from dryfit.shop.tools import Ability, Need, Process

from ..joints.going import overlap_when_moved, slides
from ..joints.typed import board, job, joint
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
                key=key,
                cut_in=meeting.b.body,
                takes=meeting.a.body,
                normal=(1.0, 0.0, 0.0),
                nominal=neck,
                play=options.clearance,
                play_from="clearance",
            ),
        )

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
            options=options,
            hand=hand,
            cuts=(
                Cut(
                    key=key,
                    body=b.body,
                    form=CutForm.HOUSING,
                    word="socket",
                    takes=a.body,
                    joint=meeting.key,
                    face=b.face,
                    shapes=(swept(socket, 0.0, whole),),
                    size_is="FIT TO",
                    figures=Figures(
                        width=Sum.alone(length(2 * options.half(0, options.clearance))),
                        depth=Sum.alone(options.depth),
                        opens=Opens.FACE,
                        note=f"cutter {options.cutter:.1f} + clearance {options.clearance:.2f}",
                    ),
                ),
                Cut(
                    key=f"tail of {a.body} in {b.body}",
                    body=a.body,
                    form=CutForm.END,
                    word="tail",
                    joint=meeting.key,
                    end=a.end,
                    shapes=(end, *(swept(waste(way), 0.0, whole) for way in (1.0, -1.0))),
                    figures=Figures(
                        width=Sum.alone(length(2 * options.half(options.depth))),
                        depth=Sum(b.body, (Term(Word.DEPTH, options.depth), Term(Word.GAP, -TIP_GAP))),
                        opens=Opens.END,
                        stands="shoulder",
                    ),
                ),
            ),
            gaps=(
                Gap(between=Between.WALL, size=options.clearance / 2, count=2),
                Gap(between=Between.BOTTOM, size=TIP_GAP),
            ),
            hidden_mm2=((a.body, 2 * flank + tail), (b.body, 2 * flank + tail)),
        )

    def glue(self, joint):
        """Long tails are glued on the last 50 only: they must move (GEOMETRY: the last 50 to 80)."""
        options = joint.options
        flank = 2 * 50 * options.depth / math.cos(math.radians(options.slope))
        return (GlueZone(faces="the last 50 of the tail", grain=(Grain.SIDE, Grain.END), area_mm2=flank),)

    def operations(self, joint, boards):
        """The socket first, then the tail to it, in the same cutter; the fitting waits for the socket."""
        socket, tail = joint.cuts
        options = joint.options
        slope = options.slope
        needs = (
            Need(ability=Ability.SLOPE, least=slope, most=slope),
            Need(ability=Ability.CUTTER, least=options.cutter, most=options.cutter),
            Need(ability=Ability.REACH, least=options.depth),
        )
        deep = (Dial.DEPTH, Length(options.depth))
        routed = Way(
            process=Process.ROUTER,
            makes="socket",
            says="router with a dovetail cutter",
            needs=needs,
            sets=((Dial.WIDTH, Length(socket.figures.across, Fineness.WIDTH)), deep),
        )
        tailed = replace(routed, makes="tail", sets=((Dial.WIDTH, Length(tail.figures.across, Fineness.WIDTH)), deep))
        return (
            Operation(key=socket.key, work=WorkSort.ACROSS, cuts=(socket.key,), ways=(routed,)),
            Operation(key=tail.key, work=WorkSort.ENDS, cuts=(tail.key,), ways=(tailed,), after=(socket.key,)),
        )

    def notes(self, joint):
        return ("Goes in along its length only; the shoulders bear.",)

    def figures(self, joint):
        """The neck and the cutter that makes it; no shoulder counted from the tip."""
        (socket, _), options, a = joint.cuts, joint.options, Name(joint.meeting.a.body)
        neck = Sum("", (Term(Word.CUTTER, options.cutter), Term(Word.SLOPES, socket.figures.across - options.cutter)))
        beside = (joint.meeting.a.thickness - 2 * options.half(0)) / 2
        name = say("socket in {}", Name(joint.meeting.b.body))
        return (
            Size(
                of=name,
                size="across the walls",
                what="on the face",
                how=neck,
                value=Length(socket.figures.across, Fineness.WIDTH),
            ),
            Size(of=name, size="slope", what="of either wall", value=Angle(options.slope)),
            Size(of=say("shoulders of {}", a), value=None),
            Size(of=say("shoulders of {}", a), size="beside the neck", value=Length(beside)),
        )

    def sections(self, joint):
        """From the front, in the middle of the depth."""
        meeting, options = joint.meeting, joint.options
        x = meeting.frame.x
        out = tuple(meeting.b.face * c for c in meeting.frame.y)
        at = tuple(o + meeting.b.thickness / 2 * c for o, c in zip(meeting.frame.origin, out, strict=True))
        neck = [tuple(p + way * options.half(0) * c for p, c in zip(at, x, strict=True)) for way in (-1, 1)]
        return (
            Cutting(
                title=say("{} in {}, cut across", Name(meeting.a.body), Name(meeting.b.body)),
                at=at,
                right=x,
                up=out,
                reach=(30.0, 25.0),
                sizes=(SectionLength(start=neck[0], end=neck[1], value=Length(2 * options.half(0), Fineness.WIDTH)),),
            ),
        )


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
    assert "A is laid before B" in str(decision.reason)  # level boards lie first, so B comes down over A
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
    assert {cut for operation in kind.operations(joint, piece.board_by_name) for cut in operation.cuts} == {
        cut.key for cut in joint.cuts
    }
    socket, tail = kind.operations(joint, piece.board_by_name)
    assert socket.ways[0].needs == tail.ways[0].needs  # one cutter for both
    assert kind.hardware(joint) == ()
    assert kind.glue(joint)[0].area_mm2 < joint.hidden_mm2[0][1]


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


ON_PAPER = job(
    board("post", [[0, 0], [0, 1200]], 300, "27"),
    board("shelf", [[0, 500], [700, 500]], 300, "27"),
    joint("shelf", "post", kind=Dovetail.name),
)
OTHERS = ("housing", "slot", "notch", "groove", "pocket", "tongue", "halving")


def on_sheets(book, paper):
    """What each sheet says, by its title."""
    drawn = paper_sheets(paper, book, desk=Desk(book))
    return {draft.title: " ".join(item.text for item in draft.items if isinstance(item, Text)) for draft, _ in drawn}


def test_its_own_words_stand_on_every_paper_and_on_the_page_and_no_word_of_another_kind(monkeypatch):
    """A socket is a housing and a tail an end by their forms: nobody but the kind knows what they are called."""
    monkeypatch.setitem(KINDS, Dovetail.name, SHOWN[Dovetail.name])
    book = build(read_job_text(ON_PAPER))
    sheets, booklet = on_sheets(book, "workshop"), on_sheets(book, "assembly")
    (detail,) = (text for title, text in sheets.items() if Dovetail.name in title)
    lists = sheets["boards, set-ups, joints"]

    assert "1 socket B shelf" in sheets["A  post"]
    assert "in A post" in sheets["B  shelf"]
    assert "tail 12.70 thick, goes in 8.5" in sheets["B  shelf"]
    assert "socket in A, across the walls" in detail
    assert "tail on B, thick" in detail
    assert "on the face cutter 12.7 less slopes 4.4 8.30" in detail
    assert detail.count("across the walls") == 1 + detail.count("in all across the walls"), (
        "the kind's own in its place"
    )
    assert "socket in A, slope of either wall 14°" in detail
    assert "shoulders of B, beside the neck" in detail
    assert "7.1" not in detail, "that is beside the tip"
    assert "B in A, cut across" in detail
    assert "The last 50 of the tail; side on end grain" in detail
    assert "1 socket" in lists
    assert "socket: no tool" not in lists  # 12.7 at 14 degrees is among the usual cutters
    told_there = elevation(book.job, book.piece, Keep()).joints[0].says
    assert ("post", "socket", "8.3 across, 9 deep") in {(one.board, one.word, one.says) for one in told_there}
    assert len(booklet) > 1
    told = {**sheets, **booklet}
    del told["the whole piece"]  # it names the questions that were asked
    assert {title: word for title in told for word in OTHERS if re.search(rf"\b{word}s?\b", told[title])} == {}


RECORD = """\
[[cut]]
between = ["A", "B"]
in = "B"
at = {at}
across = {across}
deep = {deep}
opens = "face side"
"""


def recorded(own=None, **figures):
    """The piece with its socket cut so, the rest as asked; its part, and the socket."""
    kinds = SHOWN
    job = job_of(
        UPRIGHT,
        plank("A", (0, 500), (700, 500), thickness=27),
        joint_specs=(asked("A", "B", Dovetail.name, **(own or {})),),
    )
    piece = built(job, kinds=kinds)
    socket = cut_of(piece, "socket in B for A")
    figures = {"across": socket.figures.across, "deep": socket.figures.deep, **figures}
    opens = "face side" if socket.face == piece.part_by_name["B"].board.face_side else "other face"
    text = HEAD + RECORD.format(**figures).replace("face side", opens)
    again = built(job, read_made_text(text, "t.made.toml"), kinds=kinds)
    return again, cut_of(again, "socket in B for A")


def test_a_socket_written_down_as_its_sheet_prints_it_moves_nothing():
    """Its neck is 8.212 + 0.1 wide and stands at 500: from 495.844 on the face, where the sheet has it."""
    asked_for, _ = joined()
    piece, socket = recorded(at=495.844)

    face = Surface.PLUS if socket.face > 0 else Surface.MINUS
    assert Look(asked_for.part_by_name["B"]).position(socket, face) == pytest.approx(495.844, abs=0.001)
    assert socket.made
    assert piece.findings == asked_for.findings
    assert volumes(piece) == volumes(asked_for)


@pytest.mark.parametrize("own", [{}, {"taper": 0.5, "enters": "front"}], ids=["straight", "tapered"])
def test_a_socket_that_is_wider_and_deeper_is_so_in_the_solid_too(own):
    """0.04 wider and 0.04 deeper, in steps that no sheet prints, so that nothing stops: the trapezoid says how much."""
    asked_for, _ = joined(**own)
    neck = cut_of(asked_for, "socket in B for A").figures.across
    piece, socket = recorded(own, at=500 - neck / 2, across=neck + 0.04, deep=9.04)

    floor = neck + 18 * TAN14
    mean_taper = own.get("taper", 0.0) / 2
    before = ((neck + floor) / 2 - mean_taper) * 9 * 300
    after = ((neck + floor + 0.08 + 0.08 * TAN14) / 2 - mean_taper) * 9.04 * 300
    assert socket.made
    assert volumes(asked_for)["B"] - volumes(piece)["B"] == pytest.approx(after - before, rel=1e-3)
