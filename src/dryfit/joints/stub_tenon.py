"""Stub tenon: an end on another board's face, let in by a tongue with a shoulder on each of its four sides.

The tongue, the tenon, is a third of the board's thickness (common practice) and goes square into the face, however the
board is raked, so that its mortise is cut square; it goes in a third of the other board and stops there: the mortise is
blind. The shoulders stand on the face and set the length; 1 is left free under the tenon for glue (common practice). It
is glued on its cheeks, side grain on the end grain of the mortise's long walls, and comes out along its own axis alone.

Raked, the grain of the board runs out of the tenon: of 8 in a mortise 8 deep, at 20 degrees off square, 2.9 do.

Worked example: a divider 24 thick and 260 deep on a shelf 24 thick. Tenon 8 thick and 8 beside it, mortise 8.1 wide and
8 deep, 12 short of either edge: 8.1 x 8 x 236 = 15292.8 mm3. The tenon goes in 7 and is 0.05 shorter at either end:
8 x 7 x 235.9 = 13210.4 mm3. The rest, 2082.4 mm3, is clearance.
"""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Annotated

from pydantic import Field

from ..findings import Finding, Severity, declare
from ..geometry.frames import length
from ..job.options import CLEARANCE, WORKED, Options, Quantity, filled
from ..piece.carries import axes, fast, opposite, rests, sideways, spread
from ..piece.facts import Between, CutForm, GlueZone, Grain, Opens
from ..piece.kinds import Glyph, JointKind, asked
from ..piece.letting_in import EVEN, SHOULDERED, SQUARE, LetIn, RunOut, depth_as_cut, usual_depth
from ..piece.model import (
    Board,
    Carry,
    Cut,
    Figures,
    Gap,
    Joint,
    Judgement,
    Making,
    Mating,
    Meeting,
    Motion,
    Touch,
    films,
)
from ..piece.operations import Operation, Way, WorkSort, across, let_in_reach, router_needs, sawn
from ..piece.plane import Lines, lean
from ..piece.setout import AsCut
from ..piece.sums import Sum, Term, Word, walls
from ..places import Plain, Where
from ..sentences import Angle, Length, Name, On, Sentence, Words, say
from ..shop.tools import Process
from .common import WRITTEN, default_clearance, judge_angle, shallow_angle
from .registry import register

SHARE = 3.0  # the tenon is this part of its board's thickness (common practice)
FREE = 1.0  # left under the tenon for glue and chips (common practice)
BEHIND = 4.0  # of wood between the mortise's floor and the other face, or another's floor (common practice)
LEAST = 3.0  # of a tenon's thickness and width, and of its mortise's depth: the narrowest chisels sold (from memory)

SHORT_GRAIN = declare(
    "tenon-short-grain",
    "Over half of the grain of a raked tenon runs out of its side before it reaches its end.",
    uncured="no shallower mortise would hold; the rake is a choice of design",
)


class StubTenonOptions(Options):
    """Options of a stub tenon."""

    clearance: Annotated[Quantity, CLEARANCE] | None = Field(
        default=None,
        description="Play of the tenon in its mortise, both sides together; left out: 0.10 glued, 0.15 dry.",
    )
    depth: Annotated[Quantity, WORKED] | None = Field(
        default=None,
        description="Of the mortise, square to the face; left out: a third of the board, a quarter where two lie "
        "opposite, and less where the rake would let more than half of the tenon's grain run out.",
    )
    shoulder: Annotated[Quantity, WORKED] | None = Field(
        default=None,
        description="From either face of the board that ends to its tenon, along the face that it stands on; left out: "
        "what leaves a tenon of a third of its thickness.",
    )
    edge_shoulder: Annotated[Quantity, WORKED] = Field(
        default=12.0, description="From the front and the wall edge that both boards have to the mortise."
    )
    glued: bool = Field(default=True, description="Whether the tenon is glued in.")


@dataclass(frozen=True, slots=True)
class Tenon:
    """A stub tenon set out in the plane of the board that receives it.

    Attributes:
        shoulder: beside the tenon, along the face.
        deep: of the mortise.
        play: at either end of the mortise.
    """

    meeting: Meeting
    lines: Lines
    clearance: float
    shoulder: float
    deep: float
    play: float
    run: RunOut

    @classmethod
    def of(cls, meeting: Meeting, options: StubTenonOptions) -> "Tenon":
        """As asked; what is left out as it is taken here."""
        a, b = meeting.a, meeting.b
        lines = Lines.of(receives=b, enters=a)
        clearance = default_clearance(options.clearance, glued=options.glued)
        play = (clearance + films(a, b)) / 2
        on_face = a.thickness / lines.sine
        shoulder = options.shoulder
        if shoulder is None:
            shoulder = length((on_face - _whole(a.thickness / SHARE)) / 2)
        deep = options.depth
        if deep is None:
            deep = usual_depth(b, None)
            running = min((on_face - 2 * shoulder) / 2, shoulder)
            if abs(lines.cotangent) * deep > running:
                deep = _whole(running / abs(lines.cotangent))
        run = RunOut.of(a, b, (True, True), options.edge_shoulder, play)
        return cls(meeting, lines, clearance, shoulder, deep, play, run)

    @property
    def thick(self) -> float:
        """Of the tenon, along the face."""
        return length(self.meeting.a.thickness / self.lines.sine - 2 * self.shoulder)

    @property
    def width(self) -> Sum:
        """Between the mortise's long walls."""
        a, b = self.meeting.a, self.meeting.b
        return Sum(a.body, (Term(Word.TONGUE, self.thick), *walls(film=films(a, b), clearance=self.clearance)))

    @property
    def goes_in(self) -> Sum:
        """From the shoulders, which stand on the other's film, to the tenon's end."""
        b = self.meeting.b
        return Sum(b.body, (Term(Word.DEPTH, self.deep), Term(Word.GAP, b.film - FREE)))

    @property
    def runs_out(self) -> float:
        """How much of the tenon's thickness has grain that runs out of its side."""
        return abs(self.lines.cotangent) * self.deep

    @property
    def let_in(self) -> LetIn:
        """Its shapes: a tongue square to the face in the middle of the end."""
        b = self.meeting.b
        face = b.face * b.thickness / 2
        return LetIn(
            lines=self.lines,
            form=SHOULDERED,
            depth=self.deep,
            width=length(self.width.total),
            enters=self.thick,
            floor=(self.lines.on_line(face)[0], face - b.face * self.deep),
            gap=FREE,
            face_c=b.face * (b.thickness / 2 + b.film),
        )


@register
class StubTenon(JointKind[StubTenonOptions]):
    """An end with a tongue shouldered all round, in a blind mortise."""

    name = "stub tenon"
    serves = frozenset({(Touch.END, Touch.FACE)})
    options = StubTenonOptions
    codes = (SHORT_GRAIN,)
    glyphs = MappingProxyType({"": Glyph(lines="M1 8h14M4 1v7M12 1v7M6.5 8v4h3v-4")})

    def judge(self, meeting: Meeting, options: StubTenonOptions) -> Judgement:
        """Where its mortise has wood behind it, and the tenon wood in it."""
        able = judge_angle(meeting, self.name)
        return next(_refusals(Tenon.of(meeting, options), options), able) if able.possible else able

    def worked(self, meeting: Meeting, options: StubTenonOptions) -> StubTenonOptions:
        """Clearance, depth and shoulders."""
        tenon = Tenon.of(meeting, options)
        return filled(options, clearance=tenon.clearance, depth=tenon.deep, shoulder=tenon.shoulder)

    def glues(self, options: StubTenonOptions) -> bool:
        """As asked."""
        return options.glued

    def gluing(self, options: StubTenonOptions) -> tuple[tuple[str, Plain], ...]:
        """An option of its own."""
        return () if options.glued else (("glued", True),)

    def follow(self, meeting: Meeting, options: StubTenonOptions, cut: tuple[AsCut, ...]) -> StubTenonOptions:
        """As deep as what is cut of it."""
        deep = depth_as_cut(meeting.a, meeting.b, cut, FREE - meeting.b.film)
        if deep is None or not LEAST <= deep <= _most(meeting):
            return options
        if abs(deep - Tenon.of(meeting, options).deep) <= WRITTEN:
            return options
        return options.model_copy(update={"depth": deep})

    def makings(self, meeting: Meeting, options: StubTenonOptions) -> tuple[Making, ...]:
        """One way: the tenon is drawn straight out."""
        tenon = Tenon.of(meeting, options)
        a, b = meeting.a.body, meeting.b.body
        out = Motion(
            body=a,
            direction=tenon.let_in.outward(meeting.frame),
            free=length(tenon.goes_in.total),
            slack=length(tenon.clearance),
        )
        return (Making(name=say("tenon of {} in {}", Name(a), Name(b)), motions=(out,)),)

    def matings(self, meeting: Meeting, options: StubTenonOptions, making: Making) -> tuple[Mating, ...]:
        """The long walls and the tenon's cheeks."""
        tenon = Tenon.of(meeting, options)
        a, b = meeting.a.body, meeting.b.body
        return (
            Mating(
                key=str(_mortise(meeting)),
                cut_in=b,
                takes=a,
                normal=(1.0, 0.0, 0.0),
                nominal=length(tenon.width.total),
                play=length(tenon.clearance),
                play_from="clearance",
            ),
        )

    def make(self, meeting: Meeting, options: StubTenonOptions, making: Making) -> Joint[StubTenonOptions]:
        """Mortise and tenon."""
        tenon = Tenon.of(meeting, options)
        a, b = meeting.a, meeting.b
        low, high = meeting.overlap
        cheeks = 2 * (tenon.deep - FREE) * (tenon.thick + tenon.run.length)
        hidden = a.thickness / tenon.lines.sine * (high - low) + cheeks
        return Joint(
            key=meeting.key,
            kind=self.name,
            meeting=meeting,
            options=options,
            making=making,
            glued=options.glued,
            cuts=(_mortise_cut(tenon, options), _tenon_cut(tenon, options)),
            gaps=(
                Gap(between=Between.WALL, size=length(tenon.play), count=2),
                Gap(between=Between.STOPPED_END, size=length(tenon.play), count=2),
                Gap(between=Between.BOTTOM, size=FREE),
                Gap(between=Between.SHOULDER, size=length(b.film)),
            ),
            hidden_mm2=((a.body, hidden), (b.body, hidden)),
            findings=(*shallow_angle(meeting), *_short_grain(tenon)),
        )

    def carries(self, joint: Joint[StubTenonOptions]) -> tuple[Carry, ...]:
        """The shoulders rest on the face, the cheeks stand between the walls; glue is on end grain."""
        meeting, a, b = joint.meeting, joint.meeting.a.body, joint.meeting.b.body
        tenon = Tenon.of(meeting, joint.options)
        out, (_, along) = tenon.let_in.outward(meeting.frame), axes(meeting)
        face, floor = (_in_world(tenon, deep) for deep in (0.0, tenon.deep - FREE))
        bears = rests(a, b, opposite(out), spread(face, along, meeting.a.thickness / 2 / tenon.lines.sine))
        held = sideways(a, b, along, (face, floor))
        return (bears, held, fast(meeting, glue=True)) if joint.glued else (bears, held)

    def operations(self, joint: Joint[StubTenonOptions], boards: Mapping[str, Board]) -> tuple[Operation, ...]:
        """The mortise between two stops; the end sawn to its line, then shoulders and cheeks by hand."""
        mortise, end = joint.cuts
        whole = sawn([end], boards[end.body])
        ways = tuple(_with_tenon(way) for way in whole.ways)
        return (
            _mortised(mortise, boards[mortise.body]),
            Operation(key=whole.key, work=whole.work, cuts=whole.cuts, ways=ways),
        )

    def glue(self, joint: Joint[StubTenonOptions]) -> tuple[GlueZone, ...]:
        """The cheeks; the shoulders are left dry, since end grain on a face adds little."""
        if not joint.glued:
            return ()
        tenon = Tenon.of(joint.meeting, joint.options)
        area = 2 * tenon.run.length * (tenon.deep - FREE)
        faces = "the tenon's cheeks and the mortise's long walls"
        return (GlueZone(faces=faces, grain=(Grain.SIDE, Grain.END), area_mm2=area),)

    def notes(self, joint: Joint[StubTenonOptions]) -> tuple[Words, ...]:
        """What bears."""
        return ("The shoulders bear; the tenon does not reach the floor.",)


def _whole(size: float) -> float:
    """A size down to a whole step, one at least."""
    return max(EVEN, math.floor(size / EVEN + SQUARE) * EVEN)


def _most(meeting: Meeting) -> float:
    """The deepest mortise that leaves wood behind it; half of that where another board ends opposite."""
    left = meeting.b.thickness - BEHIND
    return left / 2 if meeting.b.opposed else left


def _in_world(tenon: Tenon, deep: float) -> tuple[float, float, float]:
    """The middle of the tenon so deep below the face, in the middle of the common depth."""
    b = tenon.meeting.b
    face = b.face * b.thickness / 2
    return tenon.meeting.frame.place((tenon.lines.on_line(face)[0] - b.at, face - b.face * deep, 0.0))


def _mortise(meeting: Meeting) -> Sentence:
    return say("mortise in {} for {}", Name(meeting.b.body), Name(meeting.a.body))


def _refusals(tenon: Tenon, options: StubTenonOptions) -> Iterator[Judgement]:
    """What stands against it, the plainest first."""
    meeting = tenon.meeting
    a, b = meeting.a, meeting.b
    if tenon.thick < LEAST - SQUARE:
        usual = Tenon.of(meeting, options.model_copy(update={"shoulder": None}))
        yield Judgement.refused(
            say("the tenon would be {} thick between its shoulders", Length(tenon.thick, side=On.DOWN)),
            remedy="choose narrower shoulders, or a thicker board",
            found=tenon.thick,
            limit=LEAST,
            unit="mm",
            source="the narrowest chisels sold (from memory)",
            cures=(asked("shoulders of {}", "shoulder", usual.shoulder, "-"),) if usual.thick >= LEAST else (),
        )
    if tenon.run.length < LEAST:
        low, high = meeting.overlap
        room = (high - low) / 4
        yield Judgement.refused(
            say("between its shoulders at the edges {} would be left of the tenon", Length(max(0.0, tenon.run.length))),
            remedy="choose narrower shoulders at the edges",
            found=tenon.run.length,
            limit=LEAST,
            unit="mm",
            source="the narrowest chisels sold (from memory)",
            cures=(asked("shoulders at the edges of {}", "edge_shoulder", room, "-"),) if room > 2 * LEAST else (),
        )
    most = _most(meeting)
    if tenon.deep > most + SQUARE:
        yield Judgement.refused(
            say("a mortise {} deep would leave less than {} of {}", Length(tenon.deep), Length(BEHIND), Name(b.body)),
            remedy="choose a shallower mortise, or a thicker board",
            found=tenon.deep,
            limit=most,
            unit="mm",
            source="common practice",
            cures=(asked("mortise {} deep", "depth", most, "-"),) if most >= LEAST else (),
        )
    running = min(tenon.thick, tenon.shoulder)
    if tenon.runs_out > running + SQUARE:
        shallow = running / abs(tenon.lines.cotangent)
        off = Angle(abs(lean(tenon.lines)))
        yield Judgement.refused(
            say("{} off square, a tenon in a mortise {} deep has no wood of {}", off, Length(tenon.deep), Name(a.body)),
            remedy="choose a shallower mortise, wider shoulders, or a housing",
            found=tenon.runs_out,
            limit=running,
            unit="mm",
            source="geometry",
            cures=(asked("mortise {} deep", "depth", shallow, "-"),) if shallow >= LEAST else (),
        )
    if tenon.deep < LEAST - SQUARE:
        cures = (asked("mortise {} deep", "depth", LEAST, "+"),) if most >= LEAST else ()
        yield Judgement.refused(
            say("the mortise would be {} deep", Length(tenon.deep)),
            remedy="choose a deeper mortise, or a housing",
            found=tenon.deep,
            limit=LEAST,
            unit="mm",
            source="common practice",
            cures=cures if options.depth is not None else (),
        )


def _short_grain(tenon: Tenon) -> tuple[Finding, ...]:
    """A warning where more than half of the tenon's grain runs out."""
    half = tenon.thick / 2
    if tenon.runs_out <= half + SQUARE:
        return ()
    meeting = tenon.meeting
    shallow = half / abs(tenon.lines.cotangent)
    return (
        Finding(
            code=SHORT_GRAIN,
            severity=Severity.WARN,
            where=Where(boards=(meeting.a.body, meeting.b.body), joint=meeting.key),
            says=say(
                "{} of the {} of the tenon of {} have grain that runs out of its side",
                Length(tenon.runs_out),
                Length(tenon.thick),
                Name(meeting.a.body),
            ),
            remedy="make the mortise shallower, or house the board",
            found=tenon.runs_out,
            limit=half,
            unit="mm",
            source="half of it left to hold (ours)",
            cures=(asked("mortise {} deep", "depth", shallow, "-"),) if shallow >= LEAST else (),
        ),
    )


def _mortise_cut(tenon: Tenon, options: StubTenonOptions) -> Cut:
    meeting = tenon.meeting
    a, b = meeting.a, meeting.b
    says = _mortise(meeting)
    return Cut(
        key=str(says),
        says=says,
        body=b.body,
        form=CutForm.HOUSING,
        word="mortise",
        takes=a.body,
        joint=meeting.key,
        face=b.face,
        shapes=(tenon.let_in.housing(tenon.run),),
        figures=Figures(
            width=tenon.width,
            depth=Sum.alone(tenon.deep, Word.DEPTH),
            opens=Opens.FACE,
            stops=tenon.run.stops(a, b, options.edge_shoulder, tenon.play),
            between_faces=meeting.angle,
        ),
    )


def _tenon_cut(tenon: Tenon, options: StubTenonOptions) -> Cut:
    meeting = tenon.meeting
    a, b = meeting.a, meeting.b
    says = say("tenon of {} at {}", Name(a.body), Name(b.body))
    return Cut(
        key=str(says),
        says=says,
        body=a.body,
        form=CutForm.END,
        word="stub tenon",
        noun="tenon",
        joint=meeting.key,
        end=a.end,
        shapes=tenon.let_in.end(tenon.run),
        figures=Figures(
            width=Sum.alone(tenon.thick, Word.TONGUE),
            depth=tenon.goes_in,
            opens=Opens.END,
            stops=tenon.run.cut_back(a, b, options.edge_shoulder, tenon.play),
            between_faces=meeting.angle,
            lean=abs(lean(tenon.lines)),
            stands="shoulder",
        ),
    )


def _mortised(cut: Cut, board: Board) -> Operation:
    """With a router between stops, else chopped."""
    sets = across(cut, board)
    ways = (
        Way(
            process=Process.ROUTER,
            makes=cut.plain,
            says="router from the face between two stops, the corners squared with a chisel",
            needs=router_needs(cut, let_in_reach(cut)),
            sets=sets,
        ),
        Way(process=Process.HAND, makes=cut.plain, says="bored or chopped by hand, the walls pared", sets=sets),
    )
    return Operation(key=cut.key, work=WorkSort.ACROSS, cuts=(cut.key,), ways=ways)


def _with_tenon(way: Way) -> Way:
    says = say("{}; then shoulders knifed and sawn, cheeks sawn beside the line and pared to fit", way.says)
    return Way(process=way.process, makes=way.makes, says=says, needs=way.needs, sets=way.sets, faces=way.faces)
