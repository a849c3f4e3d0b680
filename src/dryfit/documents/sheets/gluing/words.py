"""The words of a glue-up card: what to do in which order, what presses it, what is next."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import TypeAlias

from ....lengths import MM_PER
from ....sentences import Words
from ....studies.glue_up.result import Bound, Clamps, GlueStage, GlueUp, Said
from ....trade.figures import whose
from ...looks import Desk
from ...naming import plural, position, printed_units
from ..booklet import loose
from ..booklet.acts import coated_before
from ..booklet.pages import BookletPage, pages

StepCalled: TypeAlias = Callable[[int], str]  # what a step of the booklet is called: "step 4, page 3"

SECONDS = 60  # in a minute
SIZING = 3  # minutes to wait after a thin coat on end grain (common practice: 1 to 5)
NAMED = 6  # letters in a row; more are counted
HELD = (
    ((True, False), "Corners", "a bar along a board would slide off; glue the blocks on with paper between"),
    ((False, False), "End to end", "long clamps, or clamps to blocks held on both boards"),
    ((False, True), "Face on face", "straight cauls on both sides, paper under them"),
)
INCH_LEAN = MM_PER["in"] / 16  # mm: what a frame is let lean by in the sentence, on a job in inches


def called(go: GlueStage) -> str:
    """What is glued, in words: "box", "the piece, go 2 of 3"."""
    name = go.name or "the piece"
    return name if go.of == 1 else f"{name}, go {go.number} of {go.of}"


def steps(desk: Desk, plan: GlueUp, go: GlueStage, where: StepCalled) -> Iterator[str]:
    """What to do, in order."""
    bare = coated_before(desk, go.boards, go.glued)
    if bare:
        yield f"{lettered(desk, bare)} {_is(bare)} coated already: its joints must be bare wood, masked before coating."
    yield f"{_steps_called(desk, go)} dry first, clamps set and cauls to hand; then take it apart."
    if go.end_faces:
        yield f"Size {plural(go.end_faces, 'face')} of end grain: a thin coat; wait {SIZING} min."
    dry = f"; {len(go.dry)} stay dry" if go.dry else ""
    yield f"START THE CLOCK: {plan.glue} on {plural(len(go.glued), 'joint')}{_loose(desk, go)}{dry}."
    yield _order(desk, go)
    if go.held:
        held = list(dict.fromkeys(name for parts in go.held for name in parts))
        off = ": take it off again when the glue has set" if go.off else ""
        yield f"Put {lettered(desk, held)} on dry, to hold it square{off}."
    yield _pressed(go)
    driven = loose.driven(_wanted(desk, go))
    if driven:
        yield f"Drive {plural(sum(one.count for one in driven), 'screw')}; plugs with glue over them."
    if go.diagonals:
        yield f"Measure {plural(len(go.diagonals), 'diagonal')}, front and back; sight for twist."
    yield f"Clean off squeezed-out glue; leave it clamped{_then(desk, go, where)}."


def _is(names: Sequence[str]) -> str:
    return "is" if len(names) == 1 else "are"


def _pages_of(desk: Desk, go: GlueStage) -> list[tuple[int, BookletPage]]:
    """The steps of a go in the booklet, with their numbers."""
    return [(number, page) for number, page in enumerate(pages(desk), 1) if glues(go, page)]


def glues(go: GlueStage, page: BookletPage) -> bool:
    """Whether a step of the booklet belongs to a go."""
    return page.stage == go.name and page.step is not None and page.incoming in [parts for parts, _ in go.moves]


def holds(go: GlueStage, page: BookletPage) -> bool:
    """Whether it is put on dry in that go, so that it stays square."""
    return page.stage == go.name and page.step is not None and page.incoming in go.held


def _steps_called(desk: Desk, go: GlueStage) -> str:
    """Which steps are done dry first: "Steps 7 to 9"."""
    numbers = [number for number, _ in _pages_of(desk, go)]
    if len(numbers) < 2:
        return f"Step {numbers[0]}" if numbers else "All"
    return f"Steps {numbers[0]} {'and' if len(numbers) == 2 else 'to'} {numbers[-1]}"


def _then(desk: Desk, go: GlueStage, where: StepCalled) -> str:
    """What comes after this go."""
    every = list(enumerate(pages(desk), 1))
    kept = [number for number, page in every if glues(go, page) or (holds(go, page) and not go.off)]
    following = kept[-1] if kept else len(every)
    return f". Next: {where(following + 1)}" if following < len(every) else ""


def lettered(desk: Desk, names: Sequence[str], between: str = ", ") -> str:
    """The letters of boards; many are counted."""
    letters = [desk.marks.get(name, name) for name in names]
    return between.join(letters) if len(letters) <= NAMED else f"{len(letters)} boards"


def _wanted(desk: Desk, go: GlueStage) -> list[loose.Wanted]:
    piece = desk.book.piece
    return loose.wanted(((piece.joint_by_key[key], "") for key in go.glued), piece.board_by_name)


def _loose(desk: Desk, go: GlueStage) -> str:
    """What is glued in besides the boards: ", 20 dowels"."""
    counts: dict[str, int] = {}
    for one in loose.first(_wanted(desk, go)):
        noun = one.ware.what
        counts[noun] = counts.get(noun, 0) + one.count
    return "".join(f", {plural(count, noun)}" for noun, count in counts.items())


def _order(desk: Desk, go: GlueStage) -> str:
    """Which boards lie and which go in, by letter; by the booklet's numbers where they are many."""
    boards = {name for parts, onto in go.moves for name in (*parts, *onto)}
    if len(boards) <= NAMED:
        return _clauses(desk, go)
    added = [name for parts, _ in go.moves for name in parts]
    letters = [desk.marks.get(name, name) for name in dict.fromkeys(added)]
    first = "Close it in order: " if len(letters) > 1 else "Close it: "
    return (
        f"{first}{', then '.join(letters)}." if len(letters) <= NAMED else f"{first}{_steps_called(desk, go).lower()}."
    )


def _clauses(desk: Desk, go: GlueStage) -> str:
    """As in: Lay F; add E, G. Lay C; add B, D. Then B, C, D together onto E, F, G."""
    said: list[str] = []
    present: set[str] = set()
    for parts, onto in go.moves:
        marks = lettered(desk, parts)
        if set(parts) <= present:
            said.append(f". Then {marks} together onto {lettered(desk, onto)}")
        elif set(onto) <= present:
            said.append(f", {marks}")
        else:
            there = [name for name in onto if name not in present]
            said.append(f"{'. ' if said else ''}Lay {lettered(desk, there)}; add {marks}")
        present.update((*parts, *onto))
    return "".join(said) + "."


def _pressed(go: GlueStage) -> str:
    if go.contact_only and not any(line.seats for line in go.clamps):
        return "Contact only: hold it together, no hard pressure."
    bars = sum(line.count for line in go.clamps)
    corners, ends, faces = (sum(one.count for one in go.bound if _how(one) == how) for how, *_ in HELD)
    said = []
    if bars:
        said.append(f"set {plural(bars, 'bar')}, {_cauls(go)}")
    if corners:
        said.append(f"a band right round, or {plural(corners, 'clamp')} across blocks at the corners")
    if ends:
        said.append(f"{plural(ends, 'long clamp')} end to end, or clamps to blocks")
    if faces:
        said.append(f"{plural(faces, 'clamp')} across the faces that lie on each other, on cauls")
    if not said:
        return "Press home; the fit of the joints holds it."
    text = "; ".join(said)
    return f"{text[0].upper()}{text[1:]}."


def _how(one: Bound) -> tuple[bool, bool]:
    return one.corner, one.across


def _cauls(go: GlueStage) -> str:
    """What the bars bear on: never on a bare mitre point."""
    count = go.clamps[0].count
    if mitred(go):
        return "a notched block over each corner, none on a bare mitre point"
    return "near front and wall edge, on cauls" if count > 1 else "in the middle of the depth, on cauls"


def mitred(go: GlueStage) -> bool:
    """Whether bars press mitres: both boards of a joint have bars along them."""
    along = {line.board for line in go.clamps}
    return any(set(key) <= along for key in go.glued)


def notes(desk: Desk, plan: GlueUp, go: GlueStage, number: int) -> Iterator[str]:
    """The clock's sum, how far it may be off, clamps by board; on the first card pace, conditions, sources of all."""
    yield _clock(plan, go)
    yield from limits(go)
    yield from _clamps(desk, plan, go)
    if go.fitted:
        yield f"{plural(len(go.fitted), 'joint')} held by the fit alone: no clamp presses their walls."
    if number > 1:
        yield "Pace, conditions and sources: card G1."
        return
    known = {said.name: said for said in plan.figures}
    yield _pace(plan)
    if said := list(_conditions(known)):
        text = "; ".join(said)
        yield f"{text[0].upper()}{text[1:]}."
    if "clamp_time" in known and known["clamp_time"].note:
        note = known["clamp_time"].note
        yield f"{note[0].upper()}{note[1:]}."
    if known:
        yield f"Figures of the glue: {plan.figures[0].source}; the sheet of the glue in hand governs."


def _conditions(known: Mapping[str, Said]) -> Iterator[str]:
    """How warm and how dry."""
    if "coldest" in known:
        yield f"glue and wood not below {known['coldest'].value:g} °C"
    if "moisture" in known:
        moisture = known["moisture"]
        low, high = moisture.low, moisture.high if moisture.high is not None else moisture.value
        yield f"wood at {f'{low:g} to ' if low is not None else 'most '}{high:g} % moisture"


def _clock(plan: GlueUp, go: GlueStage) -> str:
    """The sum of the time."""
    parts = seconds(go)
    words = " + ".join(f"{verb} {part}" for part, verb in zip(parts, ("spread", "close", "clamp"), strict=True))
    return f"{words[0].upper()}{words[1:]} = {sum(parts)} s{'' if plan.people == 1 else f', {plan.people} people'}."


def _pace(plan: GlueUp) -> str:
    """What that sum is made of, and whose word it is."""
    paces = [(value, whose(source)) for _, value, unit, source in plan.practice if unit == "s"]
    by: dict[str, list[str]] = {}
    for (value, of), what in zip(paces, ("a side spread", "a joint closed", "a clamp set"), strict=False):
        by.setdefault(str(of), []).append(f"{value:g} s {what}")
    told = [f"{', '.join(each)} ({of})" for of, each in by.items()]
    return f"{'; '.join(told)}."


def seconds(go: GlueStage) -> list[int]:
    """What it takes to spread, to close and to clamp, as they are printed."""
    return [round(minutes * SECONDS) for minutes in (go.spread_minutes, go.close_minutes, go.clamp_minutes)]


def _kn(line: Clamps | Bound) -> str:
    return f"{line.force_n / 1000:.1f}"


def _clamps(desk: Desk, plan: GlueUp, go: GlueStage) -> Iterator[str]:
    alike: dict[tuple[int, bool, float | None, Words], list[Clamps]] = {}
    for line in go.clamps:
        alike.setdefault((line.count, line.seats, line.pressure_n_mm2, line.source), []).append(line)
    for (count, seats, pressure, source), lines in alike.items():
        marks = ", ".join(desk.marks.get(line.board, line.board) for line in lines)
        forces = " and ".join(dict.fromkeys(_kn(line) for line in lines))
        why = "to seat it" if seats else f"for {forces} kN at {pressure:g} N/mm²" if pressure else "for contact"
        of = "" if source == plan.figures[0].source else f" ({whose(source)})"
        yield f"Along {marks}, at the arrows: {plural(count, 'bar')} of {plan.clamp_kn:g} kN, {why}{of}."
    for line in go.clamps:
        mark = desk.marks.get(line.board, line.board)
        if line.wedge >= LEANS:
            yield f"{mark} leans {line.wedge:.1f}°: cauls are wedges of that, or the bars slide."
        for name in line.fill:
            yield (
                f"Behind {mark}, {desk.marks.get(name, name)} has an empty recess: "
                "fill it with a slip of wood under the bars."
            )
    yield from _bound(desk, plan, go)


def _bound(desk: Desk, plan: GlueUp, go: GlueStage) -> Iterator[str]:
    """Joints that no bar along one board presses."""
    for held_so, where, how in HELD:
        held: dict[str, list[str]] = {}
        for one in (one for one in go.bound if _how(one) == held_so):
            said = f"{plural(one.count, 'clamp')} of {plan.clamp_kn:g} kN{_force(one, plan.figures[0].source)}"
            held.setdefault(said, []).append(" × ".join(desk.marks.get(name, name) for name in one.key))
        for said, marks in held.items():
            at = ", ".join(marks) if len(marks) <= NAMED else f"each of {len(marks)}"
            yield f"{where} {at}: {said}, square to the face; {how}."


LEANS = 0.5  # degrees off square from which on bars slide on flat cauls (common practice)


def _force(line: Bound, source: Words) -> str:
    if not line.pressure_n_mm2:
        return ""
    of = f" ({line.source})" if line.source != source else ""
    return f" for {_kn(line)} kN at {line.pressure_n_mm2:g} N/mm²{of}"


def limits(go: GlueStage) -> Iterator[str]:
    """How far what is measured may be off."""
    for square in go.squares[:1]:
        differ, leans = lean(square.differ_by)
        alike = all(position(one.outside[0]) == position(one.outside[1]) for one in go.squares)
        more = "" if alike else " more than here"
        most = position(square.within)
        yield f"Diagonals that differ by {position(differ)}{more} mean a lean of {position(leans)}: {most} at most."
        yield _twist(square.wind)
    if not go.squares:
        for across in go.across[:1]:
            same = len(across.outside) > 1 and across.equal
            yield f"{'All alike' if same else 'Corner to corner'}, within {position(across.within)}."
            yield _twist(across.wind)


def _twist(wind: float) -> str:
    return f"Twist: {position(wind)} at most, across winding sticks."


def lean(differ: float) -> tuple[float, float]:
    """By how much the diagonals differ for the lean that the card speaks of, and that lean, both mm."""
    shown = 1.0 if printed_units() == "mm" else INCH_LEAN
    return differ * shown, shown
