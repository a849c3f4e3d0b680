"""The finish plan: what is done on which day, what each face has, what it takes, what is masked, and what to mind."""

import math
from collections.abc import Iterator, Sequence

from ...geometry.views import Surface
from ...lengths import MM2_PER_M2
from ...studies.coating.result import APART, WALK, CoatedFace, Coating, FaceName, FinishStep, RackNeed, Sanding
from ..display import Draft
from ..lettering import printable
from ..looks import Desk
from ..naming import area, patch, plural, position
from ..pages import page_of, part
from ..sheet import sheet
from .page.frame import BARS
from .page.prose import WordRun, strong
from .page.sheaf import Sheaf
from .page.table import Cell, Row, bold
from .part.words.finish import AT, INSIDE, finish_of
from .part.words.together import lettered

TITLE = "finish plan"
ACTS = {"sand": "sand", "mask": "mask the joints", "coat": "coat", "glue": "glue up", "carry": "carry it away: hard",
        "put in": "put in", "live with": "hard: it may be used"}  # fmt: skip
FACE_HEADS = ("part", "one face", "the other", "front", "wall", "ends", "in cuts", "all", "seen", "in joints", "masked")
COLUMNS: tuple[FaceName, ...] = ("face +", "face -", "front edge", "wall edge", "ends", "cuts")
FINEST = 5e-5  # m2: less is told as nothing


@sheet("finish plan", paper="finish", order=10)
def finish_plan(desk: Desk) -> Iterator[Draft]:
    """As many sheets as it takes; none where the job does not say what is coated when."""
    found = desk.book.found(Coating)
    if found is None or not found.stages:
        return
    says = (
        f"{plural(finish_of(desk).coats, 'coat')} of {found.system}" if found.system else "the finish is not named",
    )
    sheaf = Sheaf(desk, letter=BARS, title=TITLE, says=says, kind=TITLE, number="F")
    dated = any(step.date for step in found.steps)
    heads = ("day", *(("date",) if dated else ()), "what", "which", "after the one before", "")
    sheaf.table(
        "what is done when",
        heads,
        list(_steps(desk, found, dated=dated)),
        note=[*_silent(desk, found), *_drying(found)],
    )
    sheaf.table("what it takes", ("", "for", "coat by coat", "to buy"), list(_takes(found)), note=list(_covers(found)))
    heads = ("when", "wet at once", "longest", "widest", "rack, high", "floor", "side by side")
    sheaf.table("where what is wet lies", heads, [_rack(need) for need in found.racks], note=_racked())
    if masks := list(_masks(desk, found)):
        sheaf.table("masked", ("part", "", "to", "each joint", "in all", "drawn on page", ""), masks, note=_masking())
    sheaf.table("open of each part, as it stands", FACE_HEADS, list(_faces(desk, found)), note=list(_seen(desk, found)))
    sheaf.paragraphs("to mind", list(_minds(found)))
    yield from sheaf.drafts()


def _letters(desk: Desk, names: Sequence[str]) -> str:
    if set(names) >= set(desk.marks):
        return "all"
    return lettered(sorted((desk.marks[name] for name in names), key=lambda mark: (len(mark), mark)))


def _square(m2: float) -> str:
    """An area of a face: parts of a square metre that a brush meets."""
    return area(m2) if m2 >= FINEST else "–"


def _steps(desk: Desk, found: Coating, *, dated: bool) -> Iterator[Row]:
    before: float | None = None
    for step in found.steps:
        hours = None if step.hours is None or before is None else step.hours - before
        yield (
            bold(_day(step)),
            *((Cell(text=step.date or "–"),) if dated else ()),
            bold(_act(step)),
            Cell(text=_letters(desk, step.boards)),
            Cell(text="" if not hours else f"{hours:g} h"),
            Cell(tick=True),
        )
        before = step.hours if step.hours is not None else before


def _day(step: FinishStep) -> str:
    """What is done before the days begin has none; of a finish whose times nobody knows it is written in."""
    return str(step.day) if step.day is not None else "before" if step.act == "mask" or _is_first(step) else "?"


def _is_first(step: FinishStep) -> bool:
    return step.act == "sand" and len(step.grits) > 1


def _act(step: FinishStep) -> str:
    if step.act == "coat":
        return f"coat {step.coat}"
    grits = " ".join(f"P{grit}" for grit in step.grits)
    return f"{ACTS[step.act]} {grits}".strip()


def _silent(desk: Desk, found: Coating) -> Iterator[WordRun]:
    """Above all else: a plan of some boards looks like one of all."""
    silent = [board.name for board in found.boards if board.when is None]
    if silent:
        they_are = "it is" if len(silent) == 1 else "they are"
        yield strong(f"Not in this plan: {_letters(desk, silent)}. Nobody says when {they_are} coated.")


def _drying(found: Coating) -> Iterator[WordRun]:
    """What the days are reckoned with."""
    yield WordRun("Each step at the earliest working hour, 8 to 16, that waits allow; what hands take is left out.")
    if not any(step.date for step in found.steps):
        yield WordRun("Days are counted from the first; weekends are not known: give begins in [drying].")
    if found.recoat_h is None or found.cure_d is None:
        yield WordRun("How long it dries is not known: ask its maker, and write the days in.")
        return
    yield WordRun(
        f"Coat to coat {found.recoat_h * found.slower:g} h ({found.recoat_from}), hard after "
        f"{found.cure_d * found.slower:g} days ({found.cure_from})"
    )
    room = _room(found)
    if found.slower > 1.0:
        yield WordRun(f"at {room}: {found.slower:g} times as long as at 20 °C (drying guide); it may not dry at all.")
    else:
        yield WordRun(f"at {room}. Under 18 °C or over 70 % it is twice as long, or does not dry (drying guide).")
    yield WordRun("The maker's sheet of your finish comes first.")


def _room(found: Coating) -> str:
    warm = "20 °C, assumed" if found.temperature is None else f"{found.temperature:g} °C"
    return warm if found.humidity is None else f"{warm}, {found.humidity:g} % of moisture"


def _takes(found: Coating) -> Iterator[Row]:
    for stage in found.stages:
        litres = "not known" if stage.litres is None else f"{stage.litres:.2f} l"
        yield (
            bold(found.system or "finish"),
            Cell(text=f"{plural(stage.coats, 'coat')} {AT[stage.when]}"),
            Cell(text=area(stage.m2)),
            bold(litres),
        )
    for one in found.sandings:
        yield _sanded(one)


def _sanded(one: Sanding) -> Row:
    grits = ", ".join(f"P{grit}" for grit in one.grits)
    each = " of each" if len(one.grits) > 1 else ""
    return (
        bold(f"discs {grits}"),
        Cell(text="between coats" if one.between else "before the first coat"),
        Cell(text=area(one.m2)),
        bold(f"{one.discs}{each}"),
    )


def _covers(found: Coating) -> Iterator[WordRun]:
    if found.covers is None:
        yield WordRun("How far a litre goes is not known: ask its maker, and give coverage in [finish].")
    else:
        yield WordRun(f"A litre covers {found.covers:g} m² ({found.covers_from}); a tenth more for what is lost.")
    yield WordRun(
        "Grams are not told: no density is known. End grain takes up more; how much was not found. Grits: common "
        "practice; a disc of 150 does 1 m² bare, 2 between coats (from memory): change it when it no longer cuts."
    )


def _rack(need: RackNeed) -> Row:
    boards = need.high > 0.0
    return (
        Cell(text=AT[need.when]),
        bold(plural(need.pieces, "board" if boards else "unit")),
        Cell(text=position(need.longest)),
        Cell(text=position(need.widest)),
        Cell(text=position(need.high) if boards else "stands"),
        bold(area(need.floor_m2)),
        Cell(text=area(need.flat_m2) if boards else "–"),
    )


def _racked() -> list[WordRun]:
    return [
        WordRun(
            f"Boards lie flat on points or thin strips, {position(APART)} from one to the next; round a unit "
            f"{position(WALK)} to walk (from memory). Coat the side that is not seen first, then turn it onto points."
        )
    ]


def _masks(desk: Desk, found: Coating) -> Iterator[Row]:
    """Each part with masked joints, and the parts that come there."""
    own: dict[str, list[tuple[str, float]]] = {}
    for joint in found.joints:
        for number, name in enumerate(joint.joint):
            if joint.states[number] == "masked":
                own.setdefault(name, []).append((joint.joint[1 - number], MM2_PER_M2 * joint.hidden_m2[number]))
    for name in sorted(own, key=lambda name: (len(desk.marks[name]), desk.marks[name])):
        areas = [mm2 for _, mm2 in own[name]]
        each = f"{patch(min(areas))} to {patch(max(areas))}" if patch(min(areas)) != patch(max(areas)) else ""
        yield (
            bold(desk.marks[name]),
            Cell(text=printable(name)),
            Cell(text=_letters(desk, [other for other, _ in own[name]])),
            Cell(text=each or patch(max(areas))),
            Cell(text=patch(math.fsum(areas))),
            Cell(text=page_of(part(name), paper="workshop")),
            Cell(tick=True),
        )


def _masking() -> list[WordRun]:
    return [
        WordRun(
            f"To the line of the joint, {INSIDE:g} inside it; off while the last coat is soft (common practice). What "
            "is crossed through on a part's sheet stays bare: glue does not hold on film."
        )
    ]


def _faces(desk: Desk, found: Coating) -> Iterator[Row]:
    """What is open of the faces of each part that has coats, then what is seen, in joints and masked of all of it."""
    coated = {board.name for board in found.boards if board.coats}
    by_part: dict[str, dict[FaceName, CoatedFace]] = {}
    for face in found.faces:
        if face.board in coated:
            by_part.setdefault(face.board, {})[face.face] = face
    for name in sorted(by_part, key=lambda name: (len(desk.marks[name]), desk.marks[name])):
        own = by_part[name]
        words = desk.looks[name].names
        opens = [own[face].open_m2 if face in own else 0.0 for face in COLUMNS]
        sides = [words.short(surface) for surface in (Surface.PLUS, Surface.MINUS)]
        yield (
            bold(desk.marks[name]),
            *(Cell(text=f"{side} {_square(m2)}") for side, m2 in zip(sides, opens, strict=False)),
            *(Cell(text=_square(m2)) for m2 in opens[2:]),
            *_sums(list(own.values())),
        )
    every = [face for own in by_part.values() for face in own.values()]
    by_column = [math.fsum(face.open_m2 for face in every if face.face == column) for column in COLUMNS]
    yield (bold("all"), *(Cell(text=_square(m2)) for m2 in by_column), *_sums(every))


def _sums(faces: Sequence[CoatedFace]) -> Iterator[Cell]:
    yield bold(_square(math.fsum(face.open_m2 for face in faces)))
    yield Cell(text=_square(math.fsum(face.seen_m2 for face in faces)))
    yield Cell(text=_square(math.fsum(face.m2 - face.open_m2 for face in faces)))
    yield Cell(text=_square(math.fsum(face.masked_m2 for face in faces)))


def _seen(desk: Desk, found: Coating) -> Iterator[WordRun]:
    if found.eyes:
        yield WordRun(printable(f"Seen from {', '.join(found.eyes)}: by rays, to some per cent; the rest no eye sees."))
    else:
        yield WordRun(
            "Seen: from the front, all that is not turned to the wall or inside a cut; [[eye]] in the job tells more."
        )
    yield WordRun("In joints: what another board covers. Ends are end grain. In cuts: walls of holes too, left bare.")


def _minds(found: Coating) -> Iterator[Sequence[WordRun]]:
    if found.self_heating:
        yield [
            strong("Fire."),
            WordRun(
                "Rags, pads and dust with it heat by themselves and can burn, hours later too: dry them flat and "
                "single outdoors, or keep them under water in a closed metal can. Never heap them, never in a bin."
            ),
        ]
    if found.fumes:
        yield [
            strong("Fumes."),
            WordRun(
                "It gives off solvent: fresh air through the room, no flame, pilot light, heater or spark; a "
                "respirator with cartridges for organic vapour, gloves, eyes covered (common practice). Fumes are "
                "heavy and lie low."
            ),
        ]
    yield [
        strong("Dust."),
        WordRun(
            "Sand with suction and a mask for fine dust (P2 or better, common practice); some woods make ill. Dust of "
            "wood and of finish burns: empty the bag outdoors. No dust in the room while a coat is wet."
        ),
    ]
    yield [
        strong("Its maker's sheet"),
        WordRun("holds over every figure here, and the rules where you work over both. Try all coats on an offcut."),
    ]
