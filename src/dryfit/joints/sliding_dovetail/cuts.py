"""The cuts of a sliding dovetail, and the gaps between them."""

from ...geometry.frames import length
from ...piece.facts import Between, CutForm, Opens, Stop
from ...piece.letting_in import RunOut
from ...piece.model import Cut, Figures, Gap, Meeting, Side
from ...piece.plane import lean
from ...piece.sums import Sum, Term, Word, walls
from ...sentences import Name, say
from .plan import TIP_GAP, DovetailPlan, SlidingDovetailOptions


def socket_cut(meeting: Meeting, plan: DovetailPlan, run: RunOut, options: SlidingDovetailOptions) -> Cut:
    """In the board that receives."""
    a, b = meeting.a, meeting.b
    says = say("socket in {} for {}", Name(b.body), Name(a.body))
    return Cut(
        key=str(says),
        says=says,
        body=b.body,
        form=CutForm.HOUSING,
        word="stopped socket" if run.shouldered else "socket",
        noun="socket",
        name="socket" if plan.part else "",
        takes=a.body,
        joint=meeting.key,
        face=b.face,
        shapes=(plan.socket(run),),
        figures=Figures(
            width=plan.neck_sum,
            depth=Sum.alone(plan.depth, Word.DEPTH),
            opens=Opens.FACE,
            stops=(*run.stops(a, b, options.stop_distance, options.play()), *_step(plan, b, housed=False)),
            between_faces=meeting.angle,
        ),
    )


def _step(plan: DovetailPlan, b: Side, *, housed: bool) -> tuple[Stop, ...]:
    """Of part length, where socket and housing meet: each from the edge at which the other one lies."""
    if plan.part is None:
        return ()
    at, way = plan.part
    if (way > 0.0) == housed:
        return (Stop(edge=Opens.FRONT, size=Sum.alone(length(b.front - at), Word.SIZE, b.body)),)
    return (Stop(edge=Opens.WALL, size=Sum.alone(length(at - b.back), Word.SIZE, b.body)),)


def housing_cut(meeting: Meeting, plan: DovetailPlan, run: RunOut) -> Cut:
    """Beside a tail of part length, for the board as thick as it is."""
    a, b = meeting.a, meeting.b
    says = say("housing in {} for {}", Name(b.body), Name(a.body))
    return Cut(
        key=str(says),
        says=says,
        body=b.body,
        form=CutForm.HOUSING,
        word="housing",
        name="housing",
        takes=a.body,
        joint=meeting.key,
        face=b.face,
        shapes=(plan.housing(run),),
        figures=Figures(
            width=Sum(a.body, (Term(Word.THICKNESS, a.thickness), *walls(film=plan.films, clearance=plan.play))),
            depth=Sum.alone(plan.depth, Word.DEPTH),
            opens=Opens.FACE,
            stops=_step(plan, b, housed=True),
            between_faces=meeting.angle,
            lean=lean(plan.lines),
        ),
        size_is="FIT TO",
    )


def tail_cut(meeting: Meeting, plan: DovetailPlan, run: RunOut, options: SlidingDovetailOptions) -> Cut:
    """The end that goes in, cut beside its tail."""
    a, b = meeting.a, meeting.b
    says = say("tail of {} in {}", Name(a.body), Name(b.body))
    return Cut(
        key=str(says),
        says=says,
        body=a.body,
        form=CutForm.END,
        word="stopped tail" if run.shouldered else "tail",
        noun="tail",
        joint=meeting.key,
        end=a.end,
        shapes=plan.tail(run),
        figures=Figures(
            width=plan.tip_sum,
            depth=Sum(b.body, (Term(Word.DEPTH, plan.depth), Term(Word.GAP, -TIP_GAP))),
            opens=Opens.END,
            stops=run.cut_back(meeting.a, meeting.b, options.stop_distance, options.play()),
            between_faces=meeting.angle,
            lean=abs(lean(plan.lines)),
            stands="shoulder",
        ),
        size_is="FIT TO",
    )


def gaps_of(plan: DovetailPlan, run: RunOut) -> tuple[Gap, ...]:
    """Square to the slopes, under the tip, at the shoulders; at a closed end as much as the tail is narrower."""
    flank, square = (plan.play * plan.cosine + plan.films) / 2, (plan.play + plan.films) / 2
    gaps = [
        Gap(between=Between.FLANK, size=length(flank), count=plan.slopes),
        Gap(between=Between.BOTTOM, size=TIP_GAP),
        Gap(between=Between.SHOULDER, size=0.0, count=2 + run.stop_low + run.stop_high),
    ]
    if plan.square or plan.part:
        gaps.append(Gap(between=Between.WALL, size=length(square), count=1 if plan.square else 2))
    if closed := int(run.closed_low) + int(run.closed_high) + int(plan.part is not None):
        gaps.append(Gap(between=Between.STOPPED_END, size=length(plan.play), count=closed))
    return tuple(gaps)
