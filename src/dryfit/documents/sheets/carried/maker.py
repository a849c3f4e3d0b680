"""Carrying: what is on the way, who lifts what, how each goes through, each turn in plan, and what to mind."""

import math
from collections.abc import Iterator, Sequence

from ....sentences import told
from ....studies.carrying.result import HANDS, OVER_STEPS, Body, Carrying, Passage, Passed, People
from ....studies.coating.result import Coating
from ....trade.lifting import LONG, LONGER, SOURCE
from ...display import Draft
from ...lettering import printable
from ...looks import Desk
from ...naming import angle, mass_figure, mass_unit, plural, position, tenths_above
from ...sheet import sheet
from ..page.frame import BARS
from ..page.prose import WordRun, strong
from ..page.sheaf import Sheaf
from ..page.table import Cell, Row, bold
from ..part.words.together import lettered
from .turning import turnings

TITLE = "carrying"
AT_ONCE = 4  # passages in one table: more have no room beside one another
NOBODY = "nobody"
WAITS = {
    "before glue": "after the first coat",
    "glue": "after gluing",
    "after glue": "after the first coat in the shop",
    "on site": "after the first coat on site",
}
ROOM = {"clear": "", "tight": ", TIGHT", "none": ""}


@sheet("carrying", paper="hanging", order=60)
def carrying(desk: Desk) -> Iterator[Draft]:
    """As many sheets as it takes; none where the study has no result."""
    found = desk.book.found(Carrying)
    if found is None or not found.bodies:
        return
    kept = f"{position(HANDS)} of each clear size is kept for hands and wrapping, {position(OVER_STEPS)} over the steps"
    sheaf = Sheaf(desk, letter=BARS, title=TITLE, says=(kept,) if found.way else (), kind=TITLE, number="C")
    bodies = found.bodies
    sheaf.table("what is carried, and by how many", _heads(found), [_who(desk, one, found) for one in bodies])
    if found.way:
        sheaf.table("on the way", ("", "what", "wide", "high", "more"), list(_passages(found.way)))
        for first in range(0, len(found.way), AT_ONCE):
            part = found.way[first : first + AT_ONCE]
            heads = ("", *(printable(f"{first + at}: {one.name}") for at, one in enumerate(part, start=1)))
            sheaf.table("how each goes through", heads, list(_alike(desk, bodies, first, len(part))))
    for items in turnings(_least_room(found), desk.book.voice):
        sheaf.drawing(items)
    sheaf.paragraphs("to mind", list(_minds(desk, found)))
    yield from sheaf.drafts()


def _called(desk: Desk, body: Body) -> str:
    """A body with its boards' letters."""
    return f"{_letters(desk, [body])} {body.name or 'the whole piece'}"


def _letters(desk: Desk, bodies: Sequence[Body]) -> str:
    marks = [desk.marks[name] for body in bodies for name in body.boards]
    return lettered(sorted(marks, key=lambda mark: (len(mark), mark)))


# --- who lifts ------------------------------------------------------------------------------------------


def _heads(found: Carrying) -> tuple[str, ...]:
    stairs = ("up the stair",) if _has_stair(found) else ()
    over = ("to stand up",) if found.ceiling is not None else ()
    return ("", "carried", "box around it", f"{mass_unit()}, up to", "to carry", *stairs, "into its place", *over)


def _has_stair(found: Carrying) -> bool:
    return any(passage.kind == "stair" for passage in found.way)


def _who(desk: Desk, body: Body, found: Carrying) -> Row:
    size = " × ".join(position(tenths_above(size)) for size in body.boxes[0])
    mass = "not known" if body.reckoned_kg is None else mass_figure(body.reckoned_kg)
    stairs = (Cell(text=_people(body.stairs)),) if _has_stair(found) else ()
    tips = ", tipped up" if body.tipped else ""
    over = (Cell(text=f"{position(math.ceil(body.upright))}{_over(body)}"),) if found.ceiling is not None else ()
    return (
        Cell(tick=True),
        Cell(text=printable(_called(desk, body))),
        Cell(text=size),
        Cell(text=f"{mass}{', weighed' if body.weighed else ''}"),
        bold(_people(body.carried)),
        *stairs,
        bold(f"{_people(body.placed)}{tips}"),
        *over,
    )


def _people(people: People | None) -> str:
    if people is None:
        return "weigh it"
    if people.count is None:
        return NOBODY
    return f"{people.count}, better less" if people.better_less else str(people.count)


def _over(body: Body) -> str:
    return {"clear": "", "tight": ", TIGHT", "none": ", NO ROOM", None: ""}[body.upright_room]


# --- the way --------------------------------------------------------------------------------------------


def _passages(way: Sequence[Passage]) -> Iterator[Row]:
    for number, passage in enumerate(way, start=1):
        more = {
            "van": f"{position(passage.length)} long",
            "door": "",
            "stair": f"{angle(passage.pitch)} steep",
            "turn": f"into {position(passage.into)}",
        }[passage.kind]
        said = f"{passage.name} ({passage.kind})" if passage.named else passage.name
        sizes = Cell(text=position(passage.width)), Cell(text=position(passage.height))
        yield (bold(str(number)), Cell(text=printable(said)), *sizes, Cell(text=more))


def _alike(desk: Desk, bodies: Sequence[Body], first: int, count: int) -> Iterator[Row]:
    """A row for all that go through these in the same ways, by their letters."""
    alike: dict[tuple[Cell, ...], list[Body]] = {}
    for body in bodies:
        alike.setdefault(tuple(_through(body, first, count)), []).append(body)
    for cells, those in alike.items():
        said = _called(desk, those[0]) if len(those) == 1 else _letters(desk, those)
        yield (Cell(text=printable(said)), *cells)


def _through(body: Body, first: int, count: int) -> Iterator[Cell]:
    """Up to where it does not pass: what comes after that it never reaches."""
    stuck = body.stuck
    for one in body.ways[first : first + count]:
        yield Cell(text="–") if stuck is not None and one.at > stuck.at else _cell(one)


def _cell(passed: Passed) -> Cell:
    way = passed.way
    if way is None:
        if passed.over is None:
            return bold("DOES NOT PASS")
        size, limit = passed.over
        over = dict(zip(("long", "wide", "thick"), passed.box, strict=True))[size] - limit
        return bold(f"DOES NOT PASS: {position(math.ceil(over))} too {size}")
    how = (
        f"{way.how} by {angle(round(way.lean, 1))}"
        if way.lean and way.how in ("tilted", "turned", "across") and (way.how != "across" or passed.outline)
        else way.how
    )
    if way.behind:
        how = f"{how}, {position(math.ceil(way.behind))} behind"
    if passed.outline:
        how = f"{how}, its outline"
    return Cell(text=f"{how}{ROOM[passed.room]}", weight="bold" if passed.room == "tight" else "regular")


def _least_room(found: Carrying) -> Iterator[tuple[Passage, Body, Passed]]:
    """Of each turn the body that has least room to spare in it."""
    for at, passage in enumerate(found.way):
        if passage.kind == "turn":
            there = [(body.ways[at], body) for body in found.bodies if body.ways[at].way is not None]
            if there:
                passed, body = min(there, key=lambda one: _spare(one[0]))
                yield passage, body, passed


def _spare(passed: Passed) -> float:
    return passed.way.room - passed.way.floor if passed.way is not None else math.inf


# --- what to mind ---------------------------------------------------------------------------------------


def _minds(desk: Desk, found: Carrying) -> Iterator[list[WordRun]]:
    voice = desk.book.voice
    for one in desk.book.not_checked:
        if one.study == "carrying":
            yield [
                strong("Not looked at:"),
                WordRun(f"{printable(told(one.what, voice))} ({printable(told(one.why, voice))})."),
            ]
    long = f"two from {position(LONG)} of length on, three from {position(LONGER)}"
    yield [
        strong("People."),
        WordRun(
            f"Weigh what is near its figure. The figures are guidance for fit adults who stand well, no limit; {long}"
        ),
        WordRun(
            f"({SOURCE}). One leads and says so; the way is clear, doors are held; gloves and shoes. Nobody stands"
        ),
        WordRun("under it, or holds it up by hand while another drills. Until it is fixed it can tip."),
    ]
    if any(NOBODY in (_people(body.carried), _people(body.placed), _people(body.stairs)) for body in found.bodies):
        yield [
            strong(f"{NOBODY[:1].upper()}{NOBODY[1:]}:"),
            WordRun(
                "more than three people may lift by the guidance, on a stair than two. Split it, put it together where "
                "it stands, or use a stand, a lift or a hoist."
            ),
        ]
    yield [strong("Wrapping."), *_wrapping(desk)]
    coating = desk.book.found(Coating)
    if coating is not None and coating.waits:
        yield [strong("Before that."), *_waiting(coating)]


def _wrapping(desk: Desk) -> Iterator[WordRun]:
    yield WordRun(
        "Blankets or paper on the finish, plastic only outside: its softeners print into lacquer. Guard arrises, box "
        "what stands out, tie dry joints together, keep small things in one box (common practice)."
    )


def _waiting(coating: Coating) -> Iterator[WordRun]:
    """The hours in which the job waits, in order; nothing of a finish whose times nobody knows but that."""
    waits = coating.waits
    if any(wait.hours is None for wait in waits):
        yield WordRun(
            "How long its finish takes to dry and to be hard enough to be wrapped is not known: ask its maker."
        )
        return
    told = ", ".join(f"{wait.hours:.0f} h {WAITS[wait.after]} until it is {wait.until}" for wait in waits)
    days = math.ceil(math.fsum(wait.hours or 0.0 for wait in waits) / 24)
    room = "in the cold or damp room of [drying]" if coating.slower > 1.0 else "at 20 °C"
    yield WordRun(f"{told[:1].upper()}{told[1:]}: {plural(days, 'day')} of waiting in all, {room};")
    cold = "in the cold (under 18 °C) or damp, finish takes twice as long."
    longer = "there it may take longer still." if coating.slower > 1.0 else cold
    yield WordRun(f"{longer} Until it is hard, coated faces must not press")
    yield WordRun("on each other or lie in plastic.")
