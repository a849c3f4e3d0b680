"""Screws and when: each fixing with its holes, screw, bit and step, loose or tight, and what covers it from when on.

Then what each eye of the job sees of mouths, plugs and open notches, and what was not looked at. Holes are numbered as
on the fixings sheet, steps as in the order on the wall.
"""

from collections.abc import Iterator, Sequence

from ...sentences import Several, say, told
from ...studies.driving.result import Driven, Driving, Eye, InTheLine, JoinedScrew, Sight, StepComing
from ..display import Draft
from ..lettering import printable
from ..looks import Desk
from ..naming import depth, in_runs, position
from ..sheet import sheet
from .fixings.chain import points
from .page.frame import BARS
from .page.prose import WordRun, strong
from .page.sheaf import Sheaf
from .page.table import Cell, Row, bold

TITLE = "screws, and when"
HEADS = ("holes", "board", "height", "screw, into", "counterbore", "driver bit", "free line", "driven", "tight", "then")
JOINED = ("through", "into", "screws", "screw", "driver bit", "free line", "driven", "then")
JOINED_READS = (
    "Driven as soon as both boards are together, straight against the face, the piece turned to suit; free before the "
    "mouth as of screws into the wall. What covers them later is there from the step told."
)
EYES = ("from", "what", "board", "seen", "hidden by")
NONE, NEVER = "–", "STOP: never"
WHOSE = {"the job": "as the job says", "the shop": "have", "to buy": "to buy", "none sold": "none sold"}
ENDS = {"left": "the room's left end", "right": "its right end", "ceiling": "its ceiling"}
SEVERAL = {"mouth": "mouths", "plug": "plugs", "open notch": "open notches"}


@sheet("screws", paper="hanging", order=40)
def screws(desk: Desk) -> Iterator[Draft]:
    """A table of the screws, one of what eyes see; nothing where there are neither."""
    found = desk.book.found(Driving)
    if found is None or not (found.screws or found.sights or found.joined):
        return
    sheaf = Sheaf(desk, letter=BARS, title=TITLE, says=_says(found), kind="fixings", number="S")
    if found.screws:
        rows = [_row(desk, found.steps, some) for some in _alike(found.screws)]
        sheaf.table("each screw into the wall", HEADS, rows, [*_reads(found)])
        sheaf.paragraphs("", [_cautions()])
    if found.joined:
        sheaf.table("screws from board to board", JOINED, [*_joined_rows(desk, found)], [WordRun(JOINED_READS)])
    if found.sights:
        sheaf.table("what is seen", EYES, [*_eye_rows(desk, found)], [WordRun(_eyes_read())])
    sheaf.paragraphs("not looked at", [[WordRun(printable(f"{words}."))] for words in _open(desk, found)])
    yield from sheaf.drafts()


def _says(found: Driving) -> tuple[str, ...]:
    count, steps = len(found.screws), len(found.steps)
    said = [f"{count} {'screw' if count == 1 else 'screws'}", f"{steps} {'step' if steps == 1 else 'steps'}"]
    return tuple(said if count else ())


# --- screws --------------------------------------------------------------------------------------


def _alike(screws: Sequence[Driven]) -> list[list[Driven]]:
    """Screws of one fixing of which the table says the same."""
    groups: dict[tuple[object, ...], list[Driven]] = {}
    for screw in screws:
        bars = tuple((bar.part, bar.step, position(bar.distance), bar.lies, bar.beside) for bar in _after(screw))
        key = (screw.fixing, position(screw.mouth[1]), screw.step, screw.tight, bars)
        groups.setdefault(key, []).append(screw)
    return list(groups.values())


def _row(desk: Desk, steps: Sequence[StepComing], some: Sequence[Driven]) -> Row:
    one = some[0]
    return (
        bold(_numbered(desk, [(screw.board, screw.cut) for screw in some]) or NONE),
        Cell(text=printable(f"{desk.marks[one.board]} {one.board}")),
        Cell(text=position(one.mouth[1])),
        Cell(
            text=printable(f"{one.screw}{f', {one.anchor}' if one.anchor else ''}{', plugged' if one.plugged else ''}")
        ),
        Cell(text=f"{position(one.counterbore)}, {depth(one.deep)} deep" if one.deep else NONE),
        Cell(text=printable(f"{position(one.bit)}, {one.owned or WHOSE[one.bit_from]}")),
        Cell(text=position(one.line)),
        bold(_driven(desk, steps, one)),
        Cell(text=_tight(desk, steps, one)),
        Cell(text=_then(desk, one)),
    )


def _numbered(desk: Desk, cuts: Sequence[tuple[str, str]]) -> str:
    """The numbers of holes on the fixings sheet, by their boards and their cuts' keys; "" for cuts that are none."""
    numbers = {(point.board, point.cut): point.number for point in points(desk)}
    holes = (numbers.get((board, desk.looks[board].numbers.get(cut))) for board, cut in cuts)
    return in_runs(sorted(hole for hole in holes if hole is not None))


def _comes(desk: Desk, steps: Sequence[StepComing], number: int) -> str:
    """A step by its number and by what comes then, as far as that is one thing."""
    step = steps[number - 1]
    names = told(step.says, desk.book.voice) if len(step.parts) == 1 else ""
    return printable(f"{number}, {names}" if names else str(number))


def _driven(desk: Desk, steps: Sequence[StepComing], one: Driven) -> str:
    if one.step is None:
        return NEVER if one.until is None else f"STOP: before step {one.until + 1}"
    asked = ", as the job says" if one.asked is not None else ""
    if len(steps) == 1:
        return f"when it is hung{asked}"
    return f"step {_comes(desk, steps, one.step)}{asked}"


def _tight(desk: Desk, steps: Sequence[StepComing], one: Driven) -> str:
    if one.tight is None:
        return NONE
    if one.tight == one.step:
        return "at once"
    return f"loose; tight after step {_comes(desk, steps, one.tight)}"


def _after(one: Driven) -> list[InTheLine]:
    """What is told of what bars it: what covers it first, and what first is in the way, if that is another."""
    barring = [bar for bar in one.bars if not bar.beside]
    first = barring[0] if barring else next(iter(one.bars), None)
    return list(dict.fromkeys(bar for bar in (first, one.covered) if bar is not None))


def _then(desk: Desk, one: Driven) -> str:
    said = []
    for bar in _after(one):
        name = told(bar.says, desk.book.voice)
        mark = desk.marks.get(bar.part, "")
        who = f"{mark} {name}".strip()
        if bar.lies:
            said.append(f"covered by {who} from step {bar.step}")
        elif bar.hand:
            said.append(f"{who} leaves the hand no room from step {bar.step}")
        elif bar.beside:
            said.append(f"{who} beside the bit from step {bar.step}")
        elif bar.part:
            said.append(f"{who} {position(bar.distance)} before it from step {bar.step}")
        else:
            said.append(f"{who} in the line")
    return printable("; ".join(said)) or "stays free"


def _joined_rows(desk: Desk, found: Driving) -> Iterator[Row]:
    """By joint and board, those alike in one row."""
    groups: dict[tuple[object, ...], list[JoinedScrew]] = {}
    for screw in found.joined:
        bars = tuple((bar.part, bar.step, position(bar.distance), bar.lies, bar.hand) for bar in screw.bars)
        groups.setdefault((screw.joint, screw.board, screw.step, screw.tool, bars), []).append(screw)
    for (one, *_), count in ((some, len(some)) for some in groups.values()):
        driven = bold(NEVER) if one.step is None else Cell(text=_bench(desk, found, one.step))
        yield (
            Cell(text=printable(f"{desk.marks[one.board]} {one.board}")),
            Cell(text=printable(f"{desk.marks[one.into]} {one.into}")),
            Cell(text=str(count)),
            Cell(text=printable(one.screw)),
            Cell(text=printable(f"{position(one.bit)}, {one.owned or WHOSE[one.bit_from]}")),
            Cell(text=position(one.line)),
            driven,
            Cell(text=_joined_then(desk, found, one)),
        )


def _bench(desk: Desk, found: Driving, number: int) -> str:
    """A step of a stage: "step 3, shelf" of the piece, "box, step 2" of a unit; what lies there first has no number."""
    step = found.bench[number]
    where = "on the wall" if step.on_wall else step.stage
    what = f"step {step.number}" if step.number else "as it lies first"
    return printable(f"{where}, {what}" if where else what)


def _joined_then(desk: Desk, found: Driving, one: JoinedScrew) -> str:
    said = []
    for bar in one.bars:
        who = f"{desk.marks.get(bar.part, '')} {told(bar.says, desk.book.voice)}".strip()
        at = _bench(desk, found, bar.step)
        if bar.lies:
            said.append(f"covered by {who}: {at}")
        elif bar.hand:
            said.append(f"{who} leaves the hand no room: {at}")
        else:
            said.append(f"{who} {position(bar.distance)} before it: {at}")
    return printable("; ".join(said)) or "stays free"


def _reads(found: Driving) -> Iterator[WordRun]:
    """How the table is read."""
    wide = position(found.screws[0].wide)
    yield WordRun(
        "Holes are numbered as on the fixings sheet; heights from y = 0. Free line: straight out from the mouth, "
        f"{wide} across, for bit, screw and drill (common practice); the hand on it has room on one side (from memory)."
    )
    yield strong("Loose:")
    yield WordRun(
        "driven home but not tight. A base drawn tight out of plumb binds on the first board that slides in: push that "
        "in, then tighten."
    )


def _cautions() -> list[WordRun]:
    return [
        strong("Before each hole in the wall:"),
        WordRun("a detector for cables and pipes; supply off while you drill; local rules hold."),
        strong("Until its screws are in, a board can fall:"),
        WordRun(
            "prop it, or let a ledger carry it. Nobody holds it up by hand while another drills, or stands under it."
        ),
    ]


# --- eyes ----------------------------------------------------------------------------------------


def _eye_rows(desk: Desk, found: Driving) -> Iterator[Row]:
    """By eye, what, and board: what is seen in one row, what the same boards hide in another."""
    for eye in found.eyes:
        groups: dict[tuple[object, ...], list[Sight]] = {}
        for sight in found.sights:
            if sight.eye == eye.name:
                groups.setdefault((sight.what, sight.board, sight.seen, sight.by), []).append(sight)
        for some in sorted(groups.values(), key=lambda some: not some[0].seen):
            yield _eye_row(desk, eye, some)


def _eye_row(desk: Desk, eye: Eye, some: Sequence[Sight]) -> Row:
    one, at = some[0], ", ".join(map(position, eye.at))
    holes = _numbered(desk, [(sight.board, sight.cut) for sight in some])
    what = one.what if len(some) == 1 else SEVERAL[one.what] if holes else f"{len(some)} {SEVERAL[one.what]}"
    hides = ", ".join(f"{desk.marks.get(name, '')} {name}".strip() for name in one.by)
    seen = f"seen{'' if not one.by else ' in part'}" if one.seen else "hidden"
    return (
        Cell(text=printable(f"{eye.name} ({at})")),
        Cell(text=f"{what} {holes}".strip()),
        Cell(text=printable(f"{desk.marks[one.board]} {one.board}")),
        bold(seen) if one.seen else Cell(text=seen),
        Cell(text=printable(hides) or NONE),
    )


def _eyes_read() -> str:
    return (
        "Straight rays from the point told (x, y, and z out of the wall) to the middle and rim of each mouth, and into "
        "what is left open of a notch, past the wood as it stands in the end."
    )


# --- what is left open ---------------------------------------------------------------------------


def _open(desk: Desk, found: Driving) -> Iterator[str]:
    """What could not be looked at, for want of a word in the job or since it is not worked out."""
    voice = desk.book.voice
    for one in desk.book.not_checked:
        if one.study == "driving":
            yield f"{told(one.what, voice)}: {told(one.why, voice)}"
    if found.room:
        ends = told(say("{}", Several(tuple(ENDS[one] for one in found.room))), voice)
        yield f"whether a drill has room at {ends}: the job does not give {'it' if len(found.room) == 1 else 'them'}"
    yield "what else stands in the room or hangs on the wall: nothing of it is known"
    if found.screws:
        yield "whether a screw stays on its bit all the way down the hole: try it in an offcut"
    if not found.eyes:
        yield "who sees mouths, plugs and notches: the job has no [[eye]]"
