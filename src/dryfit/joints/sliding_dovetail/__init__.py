"""Sliding dovetail: the end of one board worked to a tail that slides along a socket in the face of another.

It goes in along the width of the boards, from the front or the wall, and nothing draws it out of the face. The socket
is the cutter's own shape: as wide at its floor as the cutter, symmetrical about the normal of the face. The tail is cut
to it with the same cutter, narrower by the clearance, and lower, so that the shoulders close and the tail stays off
the floor. Where the boards meet raked the end is bevelled and the tail is worked on the bevel. What is stopped at both
edges is refused.

Of part length, the tail stands at one edge only and the rest of the end is housed in its full thickness, as deep: it is
held where the wood is seen, bears all along, and slides no further than the tail is long. Single-sided, one wall is
square to the face: a straight cutter's, for thin boards and an unbroken line on one side. Tapered, the socket is wider
where the tail goes in: it runs free until the last of its way, where the slopes close.

Worked example: a board 27 thick, a cutter 12.7 x 14 degrees, 9 deep, 0.08 of clearance: the socket's neck is
12.7 - 2 x 9 tan 14 = 8.21, the tail's 8.13, the shoulders are (27 - 8.13) / 2 = 9.43 wide. Of part length, the
front 80 of 280: the socket takes (8.21 + 12.7) / 2 x 9 x 80 = 7528 mm3, the housing behind it 27.08 x 9 x 200 = 48744.
Lengths in mm.
"""

from collections.abc import Mapping
from types import MappingProxyType

from ...geometry.frames import Vec, length
from ...job.options import filled
from ...piece.carries import fast
from ...piece.facts import Cutting, GlueZone, Grain, Press, Pressing, SectionLength, Size
from ...piece.kinds import Glyph, JointKind
from ...piece.letting_in import StopAt, depth_as_cut, usual_depth
from ...piece.model import Board, Carry, Ease, Joint, Judgement, Making, Mating, Meeting, Touch
from ...piece.operations import Operation
from ...piece.setout import AsCut
from ...places import Plain
from ...sentences import Angle, Fineness, Length, Name, Words, say
from ..common import as_made, depth_followed, opened, stopped
from ..registry import register
from .cuts import gaps_of, housing_cut, socket_cut, tail_cut
from .limits import DEEP, GLUED, LONG_TAIL, TOO_DEEP, refusals, too_deep, too_long
from .plan import TIP_GAP, WAYS, DovetailPlan, SlidingDovetailOptions, hand_of, run_of, settled_options, ways_in
from .telling import floor_figures, own_figures, own_notes
from .work import housing_work, socket_work, tail_work


@register
class SlidingDovetail(JointKind[SlidingDovetailOptions]):
    """One board's end slid into another's face."""

    name = "sliding dovetail"
    glyphs = MappingProxyType({
        "": Glyph(lines="M1 4.5h5l-2 6h8l-2 -6h5"),
        "stopped": Glyph(lines="M1 4.5h5l-2 6h8l-2 -6h5", heavy="M5 10h6"),
    })  # fmt: skip
    codes = (TOO_DEEP, DEEP, LONG_TAIL)
    serves = frozenset({(Touch.END, Touch.FACE)})
    options = SlidingDovetailOptions

    def judge(self, meeting: Meeting, options: SlidingDovetailOptions) -> Judgement:
        """Possible to 15 of rake, open at one edge at least, with wood beside neck and tip."""
        return next(refusals(meeting, options), Judgement(possible=True))

    def worked(self, meeting: Meeting, options: SlidingDovetailOptions) -> SlidingDovetailOptions:
        """Its clearance, its depth, and that the cutter is as high; at which edge it stops, the making settles."""
        depth = usual_depth(meeting.b, options.depth)
        return filled(options, clearance=options.play(), depth=depth, cutter_height=depth)

    def makings(self, meeting: Meeting, options: SlidingDovetailOptions) -> tuple[Making, ...]:
        """It slides in from each edge that the socket opens to: which, may be left open."""
        return tuple(
            hand_of(meeting, settled, word, rank) for rank, (settled, word) in enumerate(ways_in(meeting, options))
        )

    def eases(self, meeting: Meeting, options: SlidingDovetailOptions, making: Making) -> tuple[Ease, ...]:
        """Let a taper go in from the other edge; open it to the wall, else to the front, else to both."""

        def one(stop: StopAt) -> Making | None:
            ways = ways_in(meeting, stopped(options, stop))
            return hand_of(meeting, *ways[0]) if ways else None

        turned = tuple(
            Ease(
                says=say("let {} go in from the {}", Name(meeting.a.body), other.word[1]),
                options=(other.word,),
                making=other,
            )
            for other in self.makings(meeting, options)
            if other.word[0] == "enters" and other != making
        )
        return (*turned, *opened(meeting, as_made(options, making).stop, "socket", one))

    def matings(self, meeting: Meeting, options: SlidingDovetailOptions, making: Making) -> tuple[Mating, ...]:
        """The two slopes of the socket with the tail between them, along the face."""
        plan = DovetailPlan.of(meeting, options)
        a, b = meeting.a.body, meeting.b.body
        return (
            Mating(
                key=f"socket in {b} for {a}",
                cut_in=b,
                takes=a,
                normal=(1.0, 0.0, 0.0),
                nominal=length(plan.neck + plan.taper),
                play=length(plan.play),
                play_from="clearance",
                closes=plan.taper > 0.0,
            ),
        )

    def make(self, meeting: Meeting, options: SlidingDovetailOptions, making: Making) -> Joint[SlidingDovetailOptions]:
        """Cut the socket, then the tail to it."""
        options = settled_options(options, making)
        run = run_of(meeting, options)
        plan = DovetailPlan.of(meeting, options)
        hidden = plan.hidden(run)
        housing = (housing_cut(meeting, plan, run),) if plan.part else ()
        return Joint(
            key=meeting.key,
            kind=self.name,
            meeting=meeting,
            options=options,
            making=making,
            glued=options.glued,
            cuts=(socket_cut(meeting, plan, run, options), *housing, tail_cut(meeting, plan, run, options)),
            gaps=gaps_of(plan, run),
            hidden_mm2=((meeting.a.body, hidden), (meeting.b.body, hidden)),
            findings=(*too_deep(meeting, plan), *too_long(meeting, plan, run, glued=options.glued)),
        )

    def glues(self, options: SlidingDovetailOptions) -> bool:
        """As asked."""
        return options.glued

    def gluing(self, options: SlidingDovetailOptions) -> tuple[tuple[str, Plain], ...]:
        """An option of its own."""
        return () if options.glued else (("glued", True),)

    def carries(self, joint: Joint[SlidingDovetailOptions]) -> tuple[Carry, ...]:
        """Glued or dry the slopes hold it every way in the elevation; it leaves out of the wall only."""
        return (fast(joint.meeting),)

    def follow(
        self, meeting: Meeting, options: SlidingDovetailOptions, cut: tuple[AsCut, ...]
    ) -> SlidingDovetailOptions:
        """The tail is as deep as the socket that is cut, or the socket as the tail reaches; a wider one is looser."""
        deep = depth_followed(meeting, options.depth, depth_as_cut(meeting.a, meeting.b, cut, TIP_GAP))
        if deep is None:
            return options
        followed = options.model_copy(update={"depth": deep})
        return followed if self.judge(meeting, followed).possible else options

    def pressed(self, joint: Joint[SlidingDovetailOptions]) -> Press:
        """No clamp does: the slopes draw the shoulders home."""
        return Press(how=Pressing.FIT)

    def glue(self, joint: Joint[SlidingDovetailOptions]) -> tuple[GlueZone, ...]:
        """Side grain of the tail's flanks on end grain of the socket's, where it goes in last."""
        if not joint.glued:
            return ()
        plan, run = DovetailPlan.of(joint.meeting, joint.options), run_of(joint.meeting, joint.options)
        glued = min(GLUED, plan.of_tail(run).length)
        faces = say("the last {} of the tail's flanks to go in", Length(glued, Fineness.WHOLE))
        area = glued * plan.flanks
        return (GlueZone(faces=faces, grain=(Grain.SIDE, Grain.END), area_mm2=area),)

    def operations(self, joint: Joint[SlidingDovetailOptions], boards: Mapping[str, Board]) -> tuple[Operation, ...]:
        """The housing beside it, the socket, then the tail to it with the same cutter."""
        socket, *housed, tail = joint.cuts
        plan = DovetailPlan.of(joint.meeting, joint.options)
        housings = (housing_work(cut, boards[cut.body]) for cut in housed)
        return (*housings, socket_work(socket, boards[socket.body], plan, housed), tail_work(tail, socket, plan))

    def notes(self, joint: Joint[SlidingDovetailOptions]) -> tuple[Words, ...]:
        """Where it bears, how it goes in, and how its fit is found."""
        ways = [motion.direction[2] > 0.0 for motion in joint.making.motions]
        edge = "from either edge" if len(ways) > 1 else "from the front" if ways[0] else "from the wall"
        plan = DovetailPlan.of(joint.meeting, joint.options)
        return (
            say("The tail slides in {}; the shoulders bear, the tip does not reach the floor.", edge),
            "Cut the socket first; fit the tail to it on an offcut of its board, then cut the board.",
            *own_notes(
                plan, run_of(joint.meeting, joint.options), Name(joint.meeting.a.body), "front" if ways[0] else "wall"
            ),
        )

    def figures(self, joint: Joint[SlidingDovetailOptions]) -> tuple[Size, ...]:
        """What no other kind has: the cutter, the slope, the tail at neck and tip, the shoulders along the face."""
        meeting = joint.meeting
        plan = DovetailPlan.of(meeting, joint.options)
        run = run_of(meeting, joint.options)
        taken, *_, goes_in = joint.cuts
        socket, tail = (
            say("{} in {}", taken.plain, Name(meeting.b.body)),
            say("{} on {}", goes_in.plain, Name(meeting.a.body)),
        )
        entering = Name(meeting.a.body)
        shoulder, shoulders = say("shoulder of {}", entering), say("shoulders of {}", entering)
        neck, tip, beside = (Length(mm, Fineness.FINE) for mm in (plan.wide_neck, plan.wide_tip, plan.shoulder))
        return (
            Size(
                of=socket,
                size="slope",
                what="of the sloped wall" if plan.square else "of either wall",
                value=Angle(plan.slope),
            ),
            *floor_figures(plan, socket),
            *own_figures(plan, run, socket, tail),
            Size(of=tail, size="neck", what="at the shoulders", how=plan.tail_neck_sum, value=neck),
            Size(of=tail, size="thick", what="at the tip", how=plan.tip_sum, value=tip),
            *(Size(of=shoulder, size=side, value=None) for side in ("acute side", "obtuse side")),  # beside the tip
            Size(of=shoulders, value=None),
            Size(of=shoulders, size="beside the neck", what="along the face", value=beside),
        )

    def sections(self, joint: Joint[SlidingDovetailOptions]) -> tuple[Cutting, ...]:
        """Along the board that receives, in the middle of what goes in."""
        meeting = joint.meeting
        plan, run = DovetailPlan.of(meeting, joint.options), run_of(meeting, joint.options)
        right = meeting.frame.x
        up: Vec = tuple(meeting.b.face * way for way in meeting.frame.y)  # type: ignore[assignment]
        aside = plan.middle - meeting.b.at
        x, y = (
            origin + aside * along + meeting.b.thickness / 2 * out
            for origin, along, out in zip(meeting.frame.origin[:2], right[:2], up[:2], strict=True)
        )
        tail = plan.of_tail(run)
        middle = (x, y, (tail.tongue_low + tail.tongue_high) / 2)
        neck, tip = (sum(plan.tail_at(way, deep, middle[2]) for way in WAYS) for deep in (0.0, plan.depth - TIP_GAP))

        def beside(way: float, deep: float) -> Vec:
            aside = way * plan.tail_at(way, deep, middle[2])
            return tuple(  # type: ignore[return-value]
                at + aside * along - deep * out for at, along, out in zip(middle, right, up, strict=True)
            )

        deep = plan.depth - TIP_GAP
        return (
            Cutting(
                title=say("{} in {}, cut across", Name(meeting.a.body), Name(meeting.b.body)),
                at=middle,
                right=right,
                up=up,
                reach=(meeting.a.thickness / plan.lines.sine / 2 + 8.0, meeting.b.thickness),
                sizes=(
                    SectionLength(
                        start=beside(-1, 0.0),
                        end=beside(1, 0.0),
                        value=Length(neck, Fineness.FINE),
                    ),
                    SectionLength(
                        start=beside(-1, deep),
                        end=beside(1, deep),
                        value=Length(tip, Fineness.FINE),
                        side=-1,
                    ),
                ),
            ),
        )
