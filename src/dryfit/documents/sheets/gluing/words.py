"""The words of a glue-up card: what to do in which order, what presses it, what is next."""

from collections.abc import Iterator, Sequence

from ....studies.glue_up.model import GlueStage, GlueUp
from ....studies.glue_up.pressing import Bound, Clamps
from ...looks import Desk
from ...naming import plural, printed_units
from ..booklet import loose
from ..booklet.acts import finished_before
from ..booklet.pages import pages
from ..booklet.standing_up import SHEET
from ..fixings.chain import points

SIZING = 3  # minutes to wait after a thin coat on end grain (common practice: 1 to 5)
NAMED = 6  # letters in a row; more are counted
HELD = (
    (True, "Corners", "a bar along a board would slide off; blocks are glued on with paper between"),
    (False, "End to end", "long clamps, or clamps to blocks held on both boards"),
)
INCH_LEAN = 25.4 / 16  # mm: what a frame is let lean by in the sentence, on a job in inches


def called(go: GlueStage) -> str:
    """What is glued, in words: "the box", "the piece, go 2 of 3"."""
    name = f"the {go.name}" if go.name else "the piece"
    return name if go.of == 1 else f"{name}, go {go.number} of {go.of}"


def steps(desk: Desk, go: GlueStage) -> Iterator[str]:
    """What to do, in order."""
    bare = finished_before(desk, go.boards)
    if bare:
        yield f"{lettered(desk, bare)} finished already: bare wood at the joints (mask before finishing)."
    yield "Dry fit once, clamps set, then apart."
    if go.end_faces:
        yield f"Size {plural(go.end_faces, 'face')} of end grain: thin coat, wait {SIZING} min."
    dry = f", {len(go.dry)} stay dry" if go.dry else ""
    yield f"Glue {plural(len(go.glued), 'joint')}{_loose(desk, go)}{dry}. START THE CLOCK."
    yield _order(desk, go)
    yield _pressed(go)
    driven = [one for one in loose.after(_wanted(desk, go)) if loose.PLUGS not in one.name]
    if driven:
        yield f"Drive {plural(sum(one.count for one in driven), 'screw')}; plugs with glue over them."
    if go.square is not None:
        yield "Both diagonals, front and back. Sight for wind."
    elif go.across is not None:
        yield f"{len(go.across.outside)} diagonals, front and back. Sight for wind."
    yield "Wipe the corners. Leave it in the clamps."


def lettered(desk: Desk, names: Sequence[str], between: str = ", ") -> str:
    """The letters of boards; many are counted."""
    letters = [desk.marks.get(name, name) for name in names]
    return between.join(letters) if len(letters) <= NAMED else f"{len(letters)} boards"


def _wanted(desk: Desk, go: GlueStage) -> list[loose.Wanted]:
    return loose.wanted((desk.book.piece.joint_by_key[key], "") for key in go.glued)


def _loose(desk: Desk, go: GlueStage) -> str:
    """What is glued in besides the boards: ", 20 dowels"."""
    counts: dict[str, int] = {}
    for one in loose.first(_wanted(desk, go)):
        noun = one.name.split(", ")[0]
        counts[noun] = counts.get(noun, 0) + one.count
    return "".join(f", {plural(count, noun)}" for noun, count in counts.items())


def _order(desk: Desk, go: GlueStage) -> str:
    """Which boards lie and which go in, by letter; by the booklet's numbers where they are many."""
    numbers = [number for number, page in enumerate(pages(desk), 1) if _shows(go, page.stage, page.incoming)]
    boards = {name for parts, onto in go.moves for name in (*parts, *onto)}
    if len(boards) <= NAMED:
        return _clauses(desk, go)
    where = f"steps {numbers[0]} to {numbers[-1]}" if len(numbers) > 1 else f"step {numbers[0]}"
    return f"Put the parts in as the booklet shows: {where}."


def _shows(go: GlueStage, stage: str, incoming: tuple[str, ...]) -> bool:
    return stage == go.name and incoming in [parts for parts, _ in go.moves]


def _clauses(desk: Desk, go: GlueStage) -> str:
    """As in: F lies; put in E, G. C lies; put in B, D. Then B, C, D together onto E, F, G."""
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
            lie = "lies" if len(there) == 1 else "lie"
            said.append(f"{'. ' if said else ''}{lettered(desk, there)} {lie}; put in {marks}")
        present.update((*parts, *onto))
    return "".join(said) + "."


def _pressed(go: GlueStage) -> str:
    if go.contact_only:
        return "Contact only: hold it together, no hard pressure."
    bars = sum(line.count for line in go.clamps)
    corners, ends = (sum(held.count for held in go.bound if held.corner == corner) for corner in (True, False))
    said = [f"{plural(bars, 'clamp')}, {'a caul under it' if bars == 1 else 'cauls under every one'}"] if bars else []
    if corners:
        said.append(f"a band right round, or {plural(corners, 'clamp')} across blocks at the corners")
    if ends:
        said.append(f"{plural(ends, 'long clamp')} end to end, or clamps to blocks")
    if not said:
        return "Press home; the fit of the joints holds it."
    text = "; ".join(said)
    return f"{text[0].upper()}{text[1:]}."


def notes(desk: Desk, plan: GlueUp, go: GlueStage) -> Iterator[str]:
    """Clamps by board with their pressure, conditions and sources, the one that most come from said once."""
    known = {said.name: said for said in plan.figures}
    source = next(iter(known.values())).source if known else ""
    yield from _clamps(desk, plan, go, source)
    if go.fitted:
        yield f"{plural(len(go.fitted), 'joint')} held by the fit alone: no clamp presses their walls."
    if "coldest" in known:
        yield f"Glue and wood not below {known['coldest'].value:g} °C."
    if "moisture" in known:
        moisture = known["moisture"]
        low, high = moisture.low, moisture.high if moisture.high is not None else moisture.value
        yield f"Wood at {f'{low:g} to ' if low is not None else 'most '}{high:g} % moisture."
    if "clamp_time" in known and known["clamp_time"].note:
        note = known["clamp_time"].note
        yield f"{note[0].upper()}{note[1:]}."
    if known:
        yield f"Figures: {source}; the sheet of the glue in hand governs."


def _clamps(desk: Desk, plan: GlueUp, go: GlueStage, source: str) -> Iterator[str]:
    alike: dict[str, list[str]] = {}
    for line in go.clamps:
        said = f"{plural(line.count, 'clamp')} of {plan.clamp_kn:g} kN{_force(line, source)}"
        alike.setdefault(said, []).append(desk.marks.get(line.board, line.board))
    for said, marks in alike.items():
        yield f"Along {', '.join(marks)}: {said}."
    for corner, where, how in HELD:
        held: dict[str, list[str]] = {}
        for one in (one for one in go.bound if one.corner == corner):
            said = f"{plural(one.count, 'clamp')} of {plan.clamp_kn:g} kN{_force(one, source)}"
            held.setdefault(said, []).append(" × ".join(desk.marks.get(name, name) for name in one.key))
        for said, marks in held.items():
            at = ", ".join(marks) if len(marks) <= NAMED else f"each of {len(marks)}"
            yield f"{where} {at}: {said}, square to the face; {how}."


def _force(line: Clamps | Bound, source: str) -> str:
    if not line.pressure_n_mm2:
        return ""
    whose = f" ({line.source})" if line.source != source else ""
    return f" for {line.force_n / 1000:.1f} kN at {line.pressure_n_mm2:g} N/mm2{whose}"


def following(desk: Desk, go: GlueStage) -> list[str]:
    """What comes after this go, in order, by the booklet's numbers."""
    every = list(enumerate(pages(desk), 1))
    own = [number for number, page in every if page.stage == go.name and not page.whole]
    after = list(dict.fromkeys(name.split(" of ")[0] for name in go.after))
    said = []
    if go.following:
        found = [(n, page.incoming) for n, page in every if page.step is not None and page.step.name == go.following]
        said += [f"put in {lettered(desk, parts)}: step {number}" for number, parts in found[:1]]
    elif after:
        said.append(f"the {' and the '.join(after)}: step {own[-1]}")
    if not go.following and own and own[-1] < len(every):
        number, page = every[own[-1]]
        title = f"{page.act.title[0].lower()}{page.act.title[1:]}"
        said.append(f"the last sheet: {title}" if page.whole else f"step {number}: {title}")
    if said:
        return ["let it stand", *said] if not after and not go.following else said
    return ["let it stand", *([f"the wall: {SHEET}"] if points(desk) else [])]


def lean(differ: float) -> tuple[float, float]:
    """By how much the diagonals differ for the lean that the card speaks of, and that lean, both mm."""
    shown = 1.0 if printed_units() == "mm" else INCH_LEAN
    return differ * shown, shown
