"""The client's page of the hanging book: what it carries as far as that is known, care, and how it comes off the wall.

Care through the seasons is common practice; the moisture of wood by the air around it is of the Wood Handbook, Table
4-2, at 21 degrees C: 7.7 % at 40 % of humidity, 11.0 % at 60 %. How the piece moves by that is not worked out, nor what
its boards carry: the page says so, since what it leaves out would be taken for leave.
"""

from collections.abc import Iterator, Sequence
from itertools import takewhile

from ...studies.hanging.result import Hanging
from ...studies.order.result import From, Order, WallStep
from ..display import Draft
from ..lettering import printable
from ..looks import Desk
from ..sheet import sheet
from . import lifting
from .booklet.laying import lettered
from .page.frame import BARS
from .page.prose import WordRun, strong
from .page.sheaf import Sheaf
from .part.words.finish import finish_of

TITLE = "for those who live with it"
OUT: dict[From, str] = {
    "front": "straight out to the room",
    "above": "up",
    "below": "down",
    "left": "to the left",
    "right": "to the right",
    "behind": "to the wall",
}
CARE = (
    (
        "Wood takes up and gives off moisture with the air: at 21 °C it holds about 7.7 % at 40 % of humidity, 11.0 % "
        "at 60 % (Wood Handbook, Table 4-2). It grows wider and thicker by that, hardly longer: joints close in damp "
        "months and may show a hair in heated ones. How much this piece moves is not worked out."
    ),
    (
        "Keep the air between about 40 and 60 % of humidity through the year, and the piece away from radiators, "
        "stoves and wet walls (common practice)."
    ),
    (
        "After the first heated winter look at its screws: one that has come loose is tightened until it just holds, "
        "no more. Do not fill a joint that opens in winter: it closes again (common practice)."
    ),
    (
        "Wipe dust with a soft cloth, dry or barely damp, and dry it after; no standing water, nothing hot or wet set "
        "down on it (common practice)."
    ),
)


@sheet("client's page", paper="hanging", order=90)
def client_page(desk: Desk) -> Iterator[Draft]:
    """One sheet; nothing for a piece that does not hang."""
    found, order = desk.book.found(Hanging), desk.book.found(Order)
    if found is None or order is None or order.wall is None:
        return
    sheaf = Sheaf(desk, letter=BARS, title=TITLE, says=("leave this page with the piece",), kind="client", number="C")
    sheaf.paragraphs(
        "what it carries", [[strong(text)] if not n else [WordRun(text)] for n, text in enumerate(_carries())]
    )
    sheaf.paragraphs("care through the seasons", [[WordRun(text)] for text in (*CARE, *_finish(desk))])
    sheaf.paragraphs("how it comes off the wall", [[WordRun(printable(text))] for text in _off(desk, found, order)])
    yield from sheaf.drafts()


def _carries() -> Iterator[str]:
    yield "Not worked out: neither what a shelf carries nor what its screws hold in this wall."
    yield (
        "Take no figure from its looks. Before anything heavy stands on it, ask its maker, who goes by the wall, by "
        "what the makers of screws and anchors say, and by local rules. Heavy things low; nobody climbs, sits or pulls "
        "on it."
    )


def _finish(desk: Desk) -> Iterator[str]:
    finish = finish_of(desk)
    if finish.system:
        yield printable(f"Its finish: {finish.system}. What it is cleaned and renewed with, its maker's sheet says.")
    else:
        yield "Its finish is not known yet: ask its maker what it is cleaned with."


def _off(desk: Desk, found: Hanging, order: Order) -> Iterator[str]:
    """The order backwards."""
    assert order.wall is not None, "else there is no page"
    yield "Empty it first. Two people at least, one of whom holds while the other unscrews."
    steps = [one for one in order.wall.steps if one.on_wall] if found.way == "wall" else []
    if len(steps) < 2:
        lift = found.offers[0].lifts[0] if found.offers[0].lifts else None
        mass = f" ({lifting.told_mass(lift.mass_kg)})" if lift is not None and lift.mass_kg else ""
        yield f"It comes off whole{mass}: hold it, take out its plugs and screws, lift it off to the room."
        return
    units = {part: stage.name for stage in order.stages if stage.name for part in stage.parts}
    backwards = list(reversed(steps))
    loose = list(takewhile(lambda one: not _is_glued(desk, one, steps), backwards))
    yield (
        "What went up last comes off first. Pull along the way told, straight and together at all joints; no hammer. "
        "What is glued stays together."
    )
    fixed = {name for name, life in desk.book.piece.history.lives.items() if life.hung}
    for number, one in enumerate(loose, 1):
        screws = "take out its plugs and screws, " if fixed.intersection(one.step.parts) else ""
        hold = f" Hold {lettered(desk, one.holding, units)}: nothing else does any more." if one.holding else ""
        yield f"{number}. {_called(desk, one, units)}: {screws}{OUT[one.comes]}.{hold}"
    if len(loose) < len(backwards):
        left = [name for one in backwards[len(loose) :] for name in one.step.parts]
        whole = sum(desk.book.mass_kg.get(name, 0.0) for name in left)
        weighs = f" It weighs {lifting.told_mass(whole)}." if all(name in desk.book.mass_kg for name in left) else ""
        yield (
            f"{len(loose) + 1}. What is left was glued on the wall and comes off as one: hold it, take out its plugs "
            f"and screws, lift it straight out to the room.{weighs}"
        )


def _is_glued(desk: Desk, one: WallStep, steps: Sequence[WallStep]) -> bool:
    """Whether glue holds it to what went up in other steps."""
    contacts = desk.book.piece.history.contacts
    mine = set(one.step.parts)
    return any(
        contacts[key].glued and mine.intersection(key)
        for other in steps
        for key in other.step.joints
        if key in contacts
    )


def _called(desk: Desk, one: WallStep, units: dict[str, str]) -> str:
    parts = one.step.parts
    if len(parts) > 1:
        return lettered(desk, parts, units)
    return " ".join(dict.fromkeys((parts[0], desk.marks[parts[0]])))
