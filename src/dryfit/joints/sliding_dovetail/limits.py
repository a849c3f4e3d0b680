"""What a sliding dovetail is refused for, and what is found against one that is made."""

import math
from collections.abc import Iterator

from ...findings import Finding, Severity, declare
from ...piece.kinds import asked
from ...piece.letting_in import EVEN, SQUARE, RunOut, StopAt
from ...piece.model import Judgement, Meeting
from ...places import Cure, Where
from ...sentences import Angle, Fineness, Length, Name, On, Words, say
from ..common import ANGLE_SLACK, stopped
from .plan import DovetailPlan, SlidingDovetailOptions, run_of, ways_in

STEEPEST_RAKE = 15.0  # degrees: beyond, a bevelled end has too little wood beside its tail (common practice)
LEAST_SHOULDER = 3.0  # beside the tail's neck, each side (common practice)
LEAST_BESIDE = 2.0  # from the tip to the face of its own board: less and the tail runs out of it (common practice)
LEAST_NECK = 5.0  # of the tail (common practice, as for a tongue)
GLUED = 50.0  # of a tail, last to go in: glue on all of it swells the wood and it sticks half-way (common practice)
LONG = 150.0  # a longer straight tail is hard to slide (common practice)
LEAST_PART = 20.0  # of a tail of part length, and of the housing beside it (ours)
MOST_TAPER = 0.03  # of the length: a straight pass at each wall's lean still meets the other (ours)

TOO_DEEP = declare(
    "dovetail-too-deep",
    "A dovetail's socket takes more than half of the board that receives it.",
    uncured="its depth follows what is cut already, or a measure that others use",
)
DEEP = declare(
    "dovetail-deep",
    "A dovetail's socket takes more than a third of the board that receives it.",
    uncured="its depth follows what is cut already, or a measure that others use",
)
LONG_TAIL = declare(
    "dovetail-long",
    "A straight dovetail is so long that it may stick before it is home.",
    uncured="easing the tail is done at the bench: the job stays as it is",
)


def refusals(meeting: Meeting, options: SlidingDovetailOptions) -> Iterator[Judgement]:
    """Why it cannot be made so, what bars most first."""
    if not ways_in(meeting, options):
        yield _no_way_in(meeting, options)
    rake = 90.0 - meeting.angle
    if rake > STEEPEST_RAKE + ANGLE_SLACK:
        yield Judgement.refused(
            say("the boards meet {} off square; a sliding dovetail is made to {}", Angle(rake), Angle(STEEPEST_RAKE)),
            remedy="turn one of the boards, or make it a housing",
            found=rake,
            limit=STEEPEST_RAKE,
            unit="deg",
            source="common practice",
        )
        return
    run = run_of(meeting, options)
    if run.length <= 0.0:
        yield Judgement.refused(
            "the stop leaves nothing to go in",
            found=run.length,
            limit=0.0,
            unit="mm",
            source="geometry",
            cures=(asked("let it run through", "stop", "through"),),
        )
    yield from _formed_badly(run, options)
    yield from _too_little(DovetailPlan.of(meeting, options), options)


def _formed_badly(run: RunOut, options: SlidingDovetailOptions) -> Iterator[Judgement]:
    """A tail of part length that leaves too little of either part; a taper that is none, or too much."""
    full = asked("make it full", "form", "full")
    if options.form == "part length":
        least, most = LEAST_PART, run.length - LEAST_PART
        if not least - SQUARE <= options.tail <= most + SQUARE:
            short = options.tail < least
            yield Judgement.refused(
                say(
                    "a tail of {} leaves {} of housing beside it",
                    Length(options.tail),
                    Length(run.length - options.tail),
                ),
                remedy=say("make the tail {} or more, and leave as much of housing", Length(least, Fineness.WHOLE)),
                found=options.tail,
                limit=least if short else most,
                unit="mm",
                source="ours",
                cures=(asked("make the tail {} long", "tail", least, "+"), full)
                if short and least <= most
                else (full,),
            )
    most = math.floor(run.length * MOST_TAPER / EVEN) * EVEN
    if options.form == "tapered" and not 0.0 < options.taper <= most + SQUARE:
        yield Judgement.refused(
            say("a taper of {} over {}", Length(options.taper, Fineness.WIDTH), Length(run.length, Fineness.WHOLE)),
            remedy=say("let it be {} or less, or make it full", Length(most, side=On.DOWN)),
            found=options.taper,
            limit=most,
            unit="mm",
            source="ours",
            cures=(asked("make the taper {}", "taper", most, "-"), full) if most > 0.0 else (full,),
        )


def _no_way_in(meeting: Meeting, options: SlidingDovetailOptions) -> Judgement:
    """It slides in along its length or not at all."""
    ways: tuple[tuple[StopAt, Cure], ...] = (
        ("front", asked("stop it at the front only", "stop", "front")),
        ("wall", asked("stop it at the wall only", "stop", "wall")),
        ("through", asked("let it run through", "stop", "through")),
    )
    cures = tuple(cure for stop, cure in ways if ways_in(meeting, stopped(options, stop)))
    shown: Words = "a sliding dovetail that is closed at both edges cannot slide in"
    parts: tuple[Cure, ...] = ()
    if options.form == "part length":
        edge = "wall" if options.tail_at == "front" else "front"
        shown = say("a tail at the {} slides in from the {}, where its housing is closed", options.tail_at, edge)
    elif options.form == "tapered" and options.enters != "either":
        shown = say("a dovetail that is to go in from the {} is closed there", options.enters)
    else:
        part = options.model_copy(update={"form": "part length", "stop": "front"})
        if ways_in(meeting, part):
            more = {"stop": "front"}
            parts = (asked("a tail of part length, housed from the wall", "form", "part length", more=more),)
    return Judgement.refused(
        shown,
        remedy="open its socket to one edge, or make it a housing"
        if cures
        else "bring the boards flush at one edge, or make it a housing",
        cures=(*cures[:1], *parts),
    )


def _too_little(plan: DovetailPlan, options: SlidingDovetailOptions) -> Iterator[Judgement]:
    """What the cutter does not reach, or leaves too thin."""
    high = options.cutter_height
    if high is not None and plan.depth > high + SQUARE:
        yield Judgement.refused(
            say("the socket is {} deep; the cutter is {} high", Length(plan.depth), Length(high)),
            remedy=say("make it no deeper than {}, or use a higher cutter", Length(high, side=On.DOWN)),
            found=plan.depth,
            limit=high,
            unit="mm",
            source="the cutter's height",
            cures=(asked("make it {} deep", "depth", high, "-"),),
        )
    if plan.tail_neck < LEAST_NECK - SQUARE:
        least = LEAST_NECK + plan.cutter - plan.tail_neck
        yield _thin(
            say(
                "the neck of the tail is {} thick; it needs {}",
                Length(plan.tail_neck, Fineness.WIDTH),
                Length(LEAST_NECK, Fineness.WHOLE),
            ),
            plan.tail_neck,
            LEAST_NECK,
            say("use a cutter of {} or more, or make the socket less deep", Length(least, Fineness.PLACE, side=On.UP)),
            (asked("use a cutter of {}", "cutter", least, "+"),) if least <= _widest(plan) else (),
        )
    narrower = _widest(plan)
    fits = narrower - (plan.cutter - plan.tail_neck) >= LEAST_NECK
    remedy = (
        say("use a cutter of {} or less", Length(narrower, side=On.DOWN))
        if fits
        else say("use a thicker board for {}, or make it a housing", Name(plan.lines.a.body))
    )
    cures = (asked("use a cutter of {}", "cutter", narrower, "-"),) if fits else ()
    if plan.shoulder < LEAST_SHOULDER - SQUARE:
        says = say(
            "the neck of the tail is {} thick and leaves shoulders of {}; they need {}",
            Length(plan.wide_neck, Fineness.WIDTH),
            Length(plan.shoulder, Fineness.WIDTH),
            Length(LEAST_SHOULDER, Fineness.WHOLE),
        )
        yield _thin(says, plan.shoulder, LEAST_SHOULDER, remedy, cures)
    if plan.beside < LEAST_BESIDE - SQUARE:
        says = say(
            "the tip of the tail lies {} from the face of {}; it needs {}",
            Length(plan.beside, Fineness.WIDTH),
            Name(plan.lines.a.body),
            Length(LEAST_BESIDE, Fineness.WHOLE),
        )
        yield _thin(says, plan.beside, LEAST_BESIDE, remedy, cures)


def _thin(says: Words, found: float, limit: float, remedy: Words, cures: tuple[Cure, ...]) -> Judgement:
    return Judgement.refused(
        says, remedy=remedy, found=found, limit=limit, unit="mm", source="common practice", cures=cures
    )


def _widest(plan: DovetailPlan) -> float:
    """The widest cutter that leaves shoulders, and wood beside the tip."""
    return plan.cutter - 2 * max(LEAST_SHOULDER - plan.shoulder, LEAST_BESIDE - plan.beside)


def too_deep(meeting: Meeting, plan: DovetailPlan) -> tuple[Finding, ...]:
    """A third of the board is usual; more than half is a stop."""
    a, b = meeting.a.body, meeting.b
    third, half = b.thickness / 3, b.thickness / 2
    if plan.depth <= third + SQUARE:
        return ()
    stop = plan.depth > half + SQUARE
    limit = half if stop else third
    shallow = math.floor(third / EVEN + SQUARE) * EVEN
    return (
        Finding(
            code=TOO_DEEP if stop else DEEP,
            severity=Severity.STOP if stop else Severity.WARN,
            where=Where(boards=(b.body, a), joint=meeting.key),
            says=say(
                "the socket in {} for {} is {} deep in {}",
                Name(b.body),
                Name(a),
                Length(plan.depth),
                Length(b.thickness),
            ),
            remedy=say("make it no deeper than {}", Length(limit, side=On.DOWN)),
            found=plan.depth,
            limit=limit,
            unit="mm",
            source="common practice",
            cures=(asked("make it {} deep", "depth", shallow, "-"),) if shallow >= EVEN else (),
        ),
    )


def too_long(meeting: Meeting, plan: DovetailPlan, run: RunOut, *, glued: bool) -> tuple[Finding, ...]:
    """A straight tail over 150 long."""
    run = plan.of_tail(run)
    if plan.taper or run.length <= LONG + SQUARE:
        return ()
    a, b = meeting.a.body, meeting.b.body
    return (
        Finding(
            code=LONG_TAIL,
            severity=Severity.NOTE,
            where=Where(boards=(a, b), joint=meeting.key),
            says=say("the tail of {} slides {} along {}", Name(a), Length(run.length), Name(b)),
            remedy=say(
                "ease the tail by a shaving behind its last {}, and glue these only"
                if glued
                else "ease the tail by a shaving behind its last {}, and wax it",
                Length(GLUED, Fineness.WHOLE),
            ),
            found=run.length,
            limit=LONG,
            unit="mm",
            source="common practice",
        ),
    )
