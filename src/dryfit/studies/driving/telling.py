"""What is told of screws that cannot be driven, or not at the step given, and of what eyes see."""

from collections.abc import Iterable, Iterator, Sequence

from ...findings import Finding, Severity, declare
from ...places import Cure, Edit, Path, Where
from ...sentences import Fineness, Length, Name, On, Sentence, Several, Value, Words, say
from .later import put_later
from .result import Driven, Driving, InTheLine, JoinedScrew, Seen, Sight
from .value import CarriedAs, DrivingValue, ScrewValue

NEVER = declare(
    "screw-not-driven",
    "A screw into the wall cannot be driven: something stands in the line of bit and drill.",
    uncured="what comes before it, where it is driven, and how else its board is held, is a choice of design",
)
SHORT = declare(
    "screw-line-short",
    "Bit and drill have too little room in front of a screw at the step it is driven.",
    uncured="a shorter driver, or another place for it, is a choice of the shop",
)
EARLY = declare(
    "screw-driven-first",
    "Screws into the wall must be driven before a board that will be in their way.",
    uncured="nothing need be changed: it is driven before what covers it comes",
)
STEP = declare(
    "screw-step",
    "The step that the job gives for a screw is none at which its board can be screwed.",
    uncured="at which step it is driven is your choice",
)
SEEN = declare(
    "seen-from-eye",
    "A mouth, plug or open notch is seen from where the job wants it hidden.",
    uncured="whether it may be seen is a choice of design",
)
CODES = (NEVER, SHORT, EARLY, STEP, SEEN)
PRACTICE = "common practice"
BARE: frozenset[Seen] = frozenset(("mouth", "open notch"))  # of what is seen, what is open


def about_screws(value: DrivingValue, result: Driving) -> Iterator[Finding]:
    """Everything that is told of screws; of one fixing those together of which the same is said."""
    about = {(screw.fixing, screw.number): screw for screw in value.screws}
    groups: dict[tuple[object, ...], list[Driven]] = {}
    for screw in result.screws:
        bar = _bar(screw)
        groups.setdefault(
            (screw.fixing, screw.step, screw.asked, bar and (bar.part, bar.says, bar.step, bar.lies, bar.beside)), []
        ).append(screw)
    for some in groups.values():
        values = [about[screw.fixing, screw.number] for screw in some]
        of_all = len(some) == sum(screw.fixing == some[0].fixing for screw in result.screws)
        yield from _Told(some, values, len(result.steps), value.carried, whole=of_all).findings()


def _bar(screw: Driven) -> InTheLine | None:
    """What is told of a screw's line: what bars it at its step, or first does so later; the worst, then the nearest."""
    steps = [bar for bar in screw.bars if not bar.beside]
    at = screw.here if screw.asked is None else max(screw.asked, screw.here)
    now = [bar for bar in steps if bar.step <= at]
    if now:
        return min(now, key=lambda bar: (not bar.lies, bar.distance, bar.step))
    beside = [bar for bar in screw.bars if bar.beside and bar.step <= at]
    return beside[0] if beside else next(iter(steps), None)


class _Told:
    """Screws of one fixing of which the same is told."""

    def __init__(
        self,
        some: Sequence[Driven],
        values: Sequence[ScrewValue],
        steps: int,
        carried: Sequence[CarriedAs],
        *,
        whole: bool,
    ) -> None:
        self.some, self.values, self.steps, self.carried = some, values, steps, carried
        self.one = some[0]
        self.path: Path = values[0].path
        called = values[0].called
        numbers = tuple(str(screw.number) for screw in some)
        self.screws: Sentence = (
            say("the screws of {}", called)
            if whole
            else say("{} {} of {}", "screw" if len(some) == 1 else "screws", Several(numbers), called)
        )
        bars = [bar for bar in map(_bar, some) if bar is not None]
        self.bar = min(bars, key=lambda bar: bar.distance, default=None)

    def findings(self) -> Iterator[Finding]:
        one, bar = self.one, self.bar
        if one.asked is not None and (one.asked < one.here or one.asked > self.steps):
            yield self._wrong_step(one.asked)
        if bar is None:
            return
        if one.step is None:
            if one.asked is None or one.asked >= one.here or one.until is None:
                yield self._never(bar)
        elif bar.step > one.step:
            if one.asked is None:
                yield self._early(bar)
        elif bar.beside:
            yield self._beside(bar)
        else:
            yield self._short(bar)

    def _finding(
        self,
        code: str,
        severity: Severity,
        says: Words,
        remedy: Words,
        compared: tuple[float, float] | None = None,
        cures: tuple[Cure, ...] = (),
        *,
        key: str = "",
        source: str = PRACTICE,
    ) -> Finding:
        part = self.bar.part if self.bar is not None else ""
        found, limit = compared or (None, None)
        return Finding(
            code=code,
            severity=severity,
            where=Where(
                boards=(part, self.one.board) if part else (self.one.board,),
                fixing=self.one.fixing,
                path=((*self.path, key) if key else self.path) or None,
            ),
            says=says,
            remedy=remedy,
            found=found,
            limit=limit,
            unit="mm" if compared else "",
            source=source,
            cures=cures,
        )

    def _stands(self, bar: InTheLine) -> Sentence:
        if bar.lies:
            return say("{} covers the mouth of {}", bar.says, self.screws)
        if not bar.part:
            return say("{} is in the line of bit and drill of {}", bar.says, self.screws)
        free, wanted = Length(bar.distance, Fineness.WHOLE), Length(self.one.line, Fineness.WHOLE, On.UP)
        return say("{} is {} in front of the mouth of {}; bit and drill need {}", bar.says, free, self.screws, wanted)

    @property
    def _tool(self) -> str:
        return "an angle driver" if self.one.tool == "angle driver" else "a drill"

    def _compared(self, bar: InTheLine) -> tuple[float, float]:
        return bar.distance, max(screw.line for screw in self.some)

    def _never(self, bar: InTheLine) -> Finding:
        """It can be driven at no step, or its mouth is covered at the step that the job gives."""
        at = self.one.here if self.one.asked is None else max(self.one.asked, self.one.here)
        earlier = self.one.until is not None
        says = say("at step {}, {}", str(at), self._stands(bar)) if self.steps > 1 else self._stands(bar)
        remedy: Words
        if earlier:
            remedy = say("drive them before step {}, when {} comes", str(self._first()), self._comes())
            cures = self._at_step(self.one.until)
        else:
            remedy, cures = self._freed()
        return self._finding(
            NEVER, Severity.STOP, says, remedy, self._compared(bar), cures, key="step" if earlier else "",
            source="geometry" if bar.lies else PRACTICE,
        )  # fmt: skip

    def _short(self, bar: InTheLine) -> Finding:
        """At the step that the job gives there is too little room, at an earlier one there is enough."""
        says = say("at step {}, {}", str(self.one.step), self._stands(bar))
        remedy = say("drive them before step {}, when {} comes", str(self._first()), self._comes())
        cures = self._at_step(self.one.until)
        return self._finding(SHORT, Severity.WARN, says, remedy, self._compared(bar), cures, key="step")

    def _beside(self, bar: InTheLine) -> Finding:
        if bar.hand:
            says = say("{} leaves the hand no room at {}: {} can be held on no side", bar.says, self.screws, self._tool)
            remedy = say("drive them by hand, or own an angle driver whose head and body have room there")
            return self._finding(SHORT, Severity.WARN, says, remedy, source="from memory")
        says = say("{} stands beside the bit in front of {}: drill and hand have no room there", bar.says, self.screws)
        remedy = say("keep drill and hand in front of {}; a longer bit or an extension gives more room", bar.says)
        limits = (bar.distance, max(screw.line for screw in self.some))
        return self._finding(SHORT, Severity.WARN, says, remedy, limits)

    def _early(self, bar: InTheLine) -> Finding:
        """They can be driven while what comes later is not there yet."""
        one = self.one
        says = say(
            "{} are driven at step {}, at step {} at the latest: from step {} on, {}",
            self.screws if len(self.some) > 1 else say("{}", self.screws),
            str(one.step),
            str(one.until),
            str(bar.step),
            self._stands(bar),
        )
        remedy = say("drive and tighten them before {} goes in", bar.says)
        return self._finding(EARLY, Severity.NOTE, says, remedy, self._compared(bar))

    def _wrong_step(self, asked: int) -> Finding:
        one = self.one
        if asked < one.here:
            says = say(
                "{} cannot be driven at step {}: {} comes at step {}",
                self.screws,
                str(asked),
                Name(one.board),
                str(one.here),
            )
            return self._finding(
                STEP, Severity.STOP, says, say("drive them at step {} or later", str(one.here)),
                cures=self._at_step(one.here if one.until is not None else None), key="step", source="the order",
            )  # fmt: skip
        says = say("{} are to be driven at step {}, and step {} is the last", self.screws, str(asked), str(self.steps))
        remedy = say("write step = {}, or leave it out", str(self.steps))
        return self._finding(
            STEP, Severity.WARN, says, remedy, cures=self._at_step(one.until), key="step", source="the order"
        )

    # ---- remedies

    def _first(self) -> int:
        assert self.one.until is not None, "asked where some step is free"
        return self.one.until + 1

    def _comes(self) -> Value:
        """What comes at the first step at which the line is no longer free."""
        return next(bar.says for bar in self.one.bars if not bar.beside and bar.step == self._first())

    def _at_step(self, step: int | None) -> tuple[Cure, ...]:
        if step is None or not self.path:
            return ()
        edit = Edit(action="set", path=(*self.path, "step"), value=step)
        return (Cure(label=say("drive them at step {}", str(step)), edits=(edit,)),)

    def _freed(self) -> tuple[Words, tuple[Cure, ...]]:
        """What frees a line that is free at no step: another place, another driver, what is in the way put in later."""
        now = [bar for screw in self.some for bar in screw.bars if bar.step <= screw.here and not bar.beside]
        parts = tuple(dict.fromkeys(bar.part for bar in now))
        things = Several(tuple(dict.fromkeys(bar.says for bar in now)))
        ways: list[Value] = []
        cures: list[Cure] = []
        later: tuple[Cure, ...] = ()
        if all(parts):
            ways.append(say("let {} come after {}", things, self.screws))
            later = tuple(put_later(self.carried, parts, self.one.board))
        moved = [screw.moved for screw in self.some]
        if all(place is not None for place in moved) and len({*moved}) == len(moved):
            places = Several(tuple(Length(place, Fineness.WHOLE) for place in moved if place is not None))
            ways.append(say("move them to {} along {}", places, Name(self.one.board)))
            cures += self._at([(screw.number, place) for screw, place in zip(self.some, moved, strict=True) if place])
        for bits, most in (([screw.shorter for screw in self.some], min), ([screw.longer for screw in self.some], max)):
            known = [bit for bit in bits if bit is not None]
            if len(known) == len(bits):
                ways.append(say("use a driver {} long", Length(most(known), Fineness.WHOLE)))
                cures += self._driver(most(known))
        heads = [screw.angle for screw in self.some if screw.angle is not None]
        if len(heads) == len(self.some):
            bit = Length(max(screw.least for screw in self.some), Fineness.WHOLE, On.UP)
            head = Length(min(heads), Fineness.WHOLE, On.DOWN)
            ways.append(say("get an angle driver whose bit is {} long and whose head is at most {} high", bit, head))
        ways = ways or [say("hold {} to the wall another way", Name(self.one.board))]
        return say("{}", Several(tuple(ways), last=", or ")), (*cures, *later)

    def _at(self, places: Iterable[tuple[int, float]]) -> list[Cure]:
        if not self.path:
            return []
        edits = tuple(
            Edit(action="set", path=(*self.path, "at", number - 1), value=f"{place:g} mm") for number, place in places
        )
        return [Cure(label=say("move {} out of the way", self.screws), edits=edits)]

    def _driver(self, bit: float) -> list[Cure]:
        if not self.path:
            return []
        edit = Edit(action="set", path=(*self.path, "driver"), value=f"{bit:g} mm")
        return [Cure(label=say("drive them with a bit {} long", Length(bit, Fineness.WHOLE)), edits=(edit,))]


# ---- screws from board to board


def about_joined(value: DrivingValue, result: Driving) -> Iterator[Finding]:
    """Those that something bars as soon as their boards are together; of one joint those together that it bars alike.

    What covers them later is told as the piece stands when all is together, by the joints.
    """
    groups: dict[tuple[object, ...], list[tuple[JoinedScrew, InTheLine]]] = {}
    for screw in result.joined:
        now = [bar for bar in screw.bars if bar.step <= screw.here]
        if now:
            bar = min(now, key=lambda bar: (not bar.lies, bar.beside, bar.distance, bar.step))
            key = (screw.joint, screw.board, bar.part, bar.says, bar.lies, bar.beside, bar.hand)
            groups.setdefault(key, []).append((screw, bar))
    for some in groups.values():
        yield _joined(some, value.carried)


def _joined(some: Sequence[tuple[JoinedScrew, InTheLine]], carried: Sequence[CarriedAs]) -> Finding:
    one, bar = min(some, key=lambda pair: pair[1].distance)
    screws = say("the screws through {} into {}", Name(one.board), Name(one.into))
    free, wanted = Length(bar.distance, Fineness.WHOLE), Length(one.line, Fineness.WHOLE, On.UP)
    tool = "an angle driver" if one.tool == "angle driver" else "a drill"
    if bar.lies:
        says = say("{} covers the mouth of {} before they can be driven", bar.says, screws)
    elif bar.hand:
        says = say("{} leaves the hand no room at {}: {} can be held on no side", bar.says, screws, tool)
    else:
        says = say("{} is {} in front of the mouth of {}; bit and drill need {}", bar.says, free, screws, wanted)
    remedy = say("let {} come after {}", bar.says, screws) if bar.part and bar.lies else _BY_HAND
    return Finding(
        code=NEVER if bar.lies else SHORT,
        severity=Severity.STOP if bar.lies else Severity.WARN,
        where=Where(boards=(bar.part, one.board) if bar.part else (one.board,), joint=one.joint),
        says=says,
        remedy=remedy,
        found=None if bar.hand else bar.distance,
        limit=None if bar.hand else one.line,
        unit="" if bar.hand else "mm",
        source="geometry" if bar.lies else "from memory" if bar.hand else PRACTICE,
        cures=tuple(put_later(carried, (bar.part,), one.board, one.into)) if bar.lies else (),
    )


_BY_HAND = "drive them by hand, or with an angle driver that has room there, or let what is in the way come later"


# ---- eyes


def about_eyes(value: DrivingValue, result: Driving) -> Iterator[Finding]:
    """What is seen from where nothing is to be seen: open mouths and notches a warning, plugs a note."""
    for eye in result.eyes:
        if not eye.hidden:
            continue
        seen: dict[tuple[Seen, str], list[Sight]] = {}
        for sight in result.sights:
            if sight.eye == eye.name and sight.seen:
                seen.setdefault((sight.what, sight.board), []).append(sight)
        for (what, board), some in seen.items():
            number = len(some)
            things = say("{} {}", str(number), what if number == 1 else _SEVERAL[what])
            yield Finding(
                code=SEEN,
                severity=Severity.WARN if what in BARE else Severity.NOTE,
                where=Where(boards=(board,), path=eye.path),
                says=say(
                    "from {}, {} in {} {} seen", Name(eye.name), things, Name(board), "is" if number == 1 else "are"
                ),
                remedy=_remedy(what, board),
                source="geometry",
            )


_SEVERAL: dict[Seen, str] = {"mouth": "mouths", "plug": "plugs", "open notch": "open notches"}


def _remedy(what: Seen, board: str) -> Sentence:
    if what == "mouth":
        return say("plug them, or move them behind a board that hides them")
    if what == "plug":
        return say("cut the plugs of the wood of {}, grain with grain, or move the screws", Name(board))
    return say("make the boards flush there, let the other slot open to the front, or fill it")
