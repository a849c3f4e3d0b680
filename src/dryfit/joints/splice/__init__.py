"""Splice: two boards end to end in one line, as a board longer than its stock is made of two.

    half-lapped  each is halved over the lap, and long grain glued to long grain
    bevelled     a scarf, both cut to one slope of 1 in 8 or flatter
    keys         square ends, and slips along the grain let into one face across them when they are glued
    dowels       square ends, dowels along the grain: they align, and carry little
    tongue       square ends, a loose tongue in a groove of either: the same

A splice belongs near a support: at a quarter of a bay, never in its middle third, clear of other joints (common
practice); there a board longer than its stock is divided. A lap or a scarf runs on past the place where the two meet,
half of its length in either board, and their blanks are so much longer. How much any of them carries is not worked out,
and said so.

Worked example: 27 x 280, 800 long, a lap of 160 at the middle: two members of 480, 604800 mm3 out of each, 44800 mm2
of long grain glued. Lengths in mm.
"""

from collections.abc import Mapping
from types import MappingProxyType

from ...findings import Finding, NotChecked, Severity, declare, question
from ...piece.carries import fast, left_of, opposite, rests, sideways, spread
from ...piece.facts import GlueZone, Press, Size
from ...piece.kinds import Glyph, JointKind
from ...piece.model import (
    Bearing,
    Board,
    Carry,
    Ease,
    Joint,
    Judgement,
    Making,
    Mating,
    Meeting,
    Touch,
    Ware,
)
from ...piece.operations import Operation
from ...piece.pressing import as_it_meets
from ...places import Plain, Where
from ...sentences import Length, Name, Words, say
from ..registry import register
from .forms import THIN, EndToEnd, SpliceForm
from .lapped import STEEP_SCARF, HalfLapped, Scarf
from .options import SpliceOptions
from .square import CARRIES_LITTLE, FaceKeys, InLineDowels, InLineTongue

STRENGTH = question(
    "splices", "how much a splice carries", lambda piece: any(one.form == "in line" for one in piece.meetings)
)
STEP = declare(
    "splice-step",
    "The faces of two boards in line do not lie in one plane.",
    uncured="which board is planed to the other, or moved, is known to the maker",
)
SEEN_STEP = 0.2  # of two faces side by side, what a hand feels and a plane takes off (common practice)

FORMS: Mapping[str, SpliceForm] = MappingProxyType({
    "half-lapped": HalfLapped(),
    "bevelled": Scarf(),
    "keys": FaceKeys(),
    "dowels": InLineDowels(),
    "tongue": InLineTongue(),
})  # fmt: skip


@register
class Splice(JointKind[SpliceOptions]):
    """Two boards in one line."""

    name = "splice"
    glyphs = MappingProxyType({
        "": Glyph(lines="M1 4h14M1 12h14M4 4v4h8v4"),
        "bevelled": Glyph(lines="M1 4h14M1 12h14M3.5 4l9 8"),
        "square": Glyph(lines="M1 4h14M1 12h14M8 4v8", heavy="M5 8h6"),
        "keyed": Glyph(lines="M1 4h14M1 12h14M8 4v8M4 4c1.5 4 6.5 4 8 0"),
    })  # fmt: skip
    codes = (CARRIES_LITTLE, STEEP_SCARF, STEP, THIN)
    serves = frozenset({(Touch.END, Touch.END)})
    options = SpliceOptions
    questions = (STRENGTH,)
    plainer = ({},)

    def judge(self, meeting: Meeting, options: SpliceOptions) -> Judgement:
        """Possible of boards in line, with room for its form."""
        if meeting.form != "in line":
            return Judgement.refused("a splice joins two boards in line", remedy="choose a mitre or a rebate")
        if options.over and options.over not in (meeting.a.body, meeting.b.body):
            return Judgement.refused(say("{} is not one of the two boards", Name(options.over)))
        return FORMS[options.form].no_room(EndToEnd.of(meeting), options) or Judgement(possible=True)

    def worked(self, meeting: Meeting, options: SpliceOptions) -> SpliceOptions:
        """The sizes of its form."""
        return FORMS[options.form].worked(EndToEnd.of(meeting), options)

    def glues(self, options: SpliceOptions) -> bool:
        """As asked."""
        return options.glued

    def gluing(self, options: SpliceOptions) -> tuple[tuple[str, Plain], ...]:
        """An option of its own."""
        return () if options.glued else (("glued", True),)

    def held(self, options: SpliceOptions) -> Words:
        """By its form."""
        return {"dowels": "dowelled", "keys": "keyed", "tongue": "with a tongue"}.get(options.form, options.form)

    def makings(self, meeting: Meeting, options: SpliceOptions) -> tuple[Making, ...]:
        """Of a lap or a scarf either board may lie over; of square ends there is one way."""
        row, form = EndToEnd.of(meeting), FORMS[options.form]
        if not form.lies:
            name = say("{} and {} end to end", Name(meeting.a.body), Name(meeting.b.body))
            return (Making(name=name, motions=form.motion(row, options, "")),)
        over = (options.over,) if options.over else meeting.key
        return tuple(
            Making(
                name=say("{} over {}", Name(one), Name(meeting.other(one).body)),
                motions=form.motion(row, options, one),
                word=("over", one),
            )
            for one in over
        )

    def eases(self, meeting: Meeting, options: SpliceOptions, making: Making) -> tuple[Ease, ...]:
        """The other board over; and what stands in both ends left out for a lap, which can be lifted off."""
        if FORMS[options.form].lies:
            return super().eases(meeting, options.model_copy(update={"over": ""}), making)
        lapped = options.model_copy(update={"form": "half-lapped"})
        if FORMS[options.form].afterwards or not self.judge(meeting, lapped).possible:
            return ()
        says = say("half-lap {} and {} instead", Name(meeting.a.body), Name(meeting.b.body))
        made = self.worked(meeting, lapped)
        return (Ease(says=says, options=(("form", "half-lapped"),), making=self.makings(meeting, made)[0]),)

    def matings(self, meeting: Meeting, options: SpliceOptions, making: Making) -> tuple[Mating, ...]:
        """Of a tongue, its grooves."""
        return FORMS[options.form].matings(EndToEnd.of(meeting), options)

    def make(self, meeting: Meeting, options: SpliceOptions, making: Making) -> Joint[SpliceOptions]:
        """Cut both ends, then what is let into them."""
        row, form = EndToEnd.of(meeting), FORMS[options.form]
        met = form.met_mm2(row, options)
        return Joint(
            key=meeting.key,
            kind=self.name,
            meeting=meeting,
            options=options,
            making=making,
            glued=options.glued,
            cuts=tuple(form.cuts(row, options, making.word[1])),
            gaps=form.gaps(row, options),
            hidden_mm2=((meeting.a.body, met), (meeting.b.body, met)),
            findings=(*form.findings(row, options), *_step(row)),
            not_checked=(_not_worked_out(meeting),),
        )

    def carries(self, joint: Joint[SpliceOptions]) -> tuple[Carry, ...]:
        """Glue on long grain holds fast; square ends hinge, kept level by what stands in them."""
        row, form = EndToEnd.of(joint.meeting), FORMS[joint.options.form]
        a, b, middle = joint.meeting.a.body, joint.meeting.b.body, joint.meeting.frame.origin
        across = left_of(row.off)
        bears = [rests(b, a, opposite(row.off), spread(middle, across, row.thin / 2))]
        if form.pins:
            bears.append(sideways(b, a, across, (middle,)))
        if joint.making.word[1]:
            into = opposite(row.up) if joint.making.word[1] == b else row.up
            bears.append(rests(b, a, into, spread(middle, row.off, form.met_mm2(row, joint.options) / row.deep / 4)))
        if form.long_grain and (joint.options.glued or form.afterwards):
            bears.append(fast(joint.meeting))
        elif joint.options.glued:
            bears.append(Carry(how=Bearing.PULLS, body=b, by=a, ways=(row.off,), at=(middle,), glue=True))
        return tuple(bears)

    def marked(self, joint: Joint[SpliceOptions]) -> str:
        """By its form."""
        return FORMS[joint.options.form].mark

    def strengthened(self, joint: Joint[SpliceOptions]) -> Words:
        """By keys, dowels or a tongue."""
        return FORMS[joint.options.form].word

    def pressed(self, joint: Joint[SpliceOptions]) -> Press:
        """A lap square to its faces, square ends along the line."""
        form = FORMS[joint.options.form]
        return form.pressed(EndToEnd.of(joint.meeting), joint) or as_it_meets(joint, "", self.glue(joint))

    def hardware(self, joint: Joint[SpliceOptions]) -> tuple[Ware, ...]:
        """Keys or a tongue to be made in the shop, or dowels."""
        return FORMS[joint.options.form].hardware(EndToEnd.of(joint.meeting), joint)

    def glue(self, joint: Joint[SpliceOptions]) -> tuple[GlueZone, ...]:
        """By its form."""
        return FORMS[joint.options.form].glue(EndToEnd.of(joint.meeting), joint) if joint.glued else ()

    def operations(self, joint: Joint[SpliceOptions], boards: Mapping[str, Board]) -> tuple[Operation, ...]:
        """By its form."""
        return tuple(FORMS[joint.options.form].operations(EndToEnd.of(joint.meeting), joint, boards))

    def notes(self, joint: Joint[SpliceOptions]) -> tuple[Words, ...]:
        """Which board lies over, what must not be forgotten, and that nobody has worked out what it carries."""
        form, over = FORMS[joint.options.form], joint.making.word[1]
        lies = (say("{} lies over {}.", Name(over), Name(joint.meeting.other(over).body)),) if over else ()
        return (*lies, form.note, "How much it carries is not worked out: keep it near a support.")

    def figures(self, joint: Joint[SpliceOptions]) -> tuple[Size, ...]:
        """By its form."""
        return FORMS[joint.options.form].figures(EndToEnd.of(joint.meeting), joint)


def _step(row: EndToEnd) -> tuple[Finding, ...]:
    """Faces beside each other that do not lie in one plane."""
    if row.step <= SEEN_STEP:
        return ()
    a, b = row.meeting.a.body, row.meeting.b.body
    return (
        Finding(
            code=STEP,
            severity=Severity.NOTE,
            where=Where(boards=(a, b), joint=row.meeting.key),
            says=say("the faces of {} and {} stand {} apart at their splice", Name(a), Name(b), Length(row.step)),
            remedy="plane them flush, or make both as thick and bring them in one line",
            found=row.step,
            limit=SEEN_STEP,
            unit="mm",
            source="common practice",
        ),
    )


def _not_worked_out(meeting: Meeting) -> NotChecked:
    """Nothing in Dryfit's sources says how strong such a splice is."""
    a, b = meeting.a.body, meeting.b.body
    return NotChecked(
        study=STRENGTH,
        what=say("how much the splice of {} and {} carries", Name(a), Name(b)),
        why="it is not worked out: no figures of its strength are known here",
        where=Where(boards=(a, b), joint=meeting.key),
    )
