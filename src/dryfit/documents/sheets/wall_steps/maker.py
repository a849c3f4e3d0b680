"""The steps on the wall: first why it goes up this way, then a picture a step, two to a sheet, as it stands."""

from collections.abc import Iterator, Mapping, Sequence
from functools import partial

from ....piece.model import WALL
from ....sentences import say, told
from ....studies.glue_up.result import GlueUp
from ....studies.hanging.result import Decider, Hanging, Lifted, Way, WayUp
from ....studies.order.result import Leg, OnTheWall, Order, Step, WallStep, barred_in_words
from ....trade.lifting import SOURCE
from ...display import Draft, Held, Item
from ...lettering import printable
from ...looks import Desk
from ...naming import plural
from ...pages import wall_step
from ...sheet import DeferredSheets, sheet, tried
from ...standard import A4
from .. import lifting
from ..booklet.binding import Block, halves
from ..booklet.laying import Act, Scenery
from ..booklet.maker import placed, rule, views
from ..booklet.pages import BookletPage
from ..page.frame import BARS, Space, space
from ..page.prose import WordRun, strong
from ..page.sheaf import Sheaf
from ..page.table import Cell, bold
from .acts import SIDES, act, people
from .upright import view

TITLE = "how it goes up"
WAYS: Mapping[Way, str] = {"floor": "together on the floor, then lifted whole", "wall": "put together on the wall"}
WHY: Mapping[Decider, str] = {
    "said": "The job gives places in the order on the wall.",
    "only": "It is the only way.",
    "lifting": "It asks for less lifting.",
    "hands": "As much lifting, but fewer people at once.",
    "fewer": "As much lifting and as many people, but fewer lifts.",
    "unknown": "Masses are not known, so the lifting could not be compared.",
    "none": "No way was found.",
    "free": "It is put up at no wall.",
}
STEPS = ("", "what goes up", "from where", "people", "held then by")
ON_FLOOR = "on the floor first"  # in place of a stage's name
HEADS = ("", "way", "possible", "kg times people", "people at once", "lifts", "heaviest")


@sheet("wall steps", paper="hanging", order=30)
def wall_steps(desk: Desk) -> Iterator[Draft | DeferredSheets]:
    """Nothing for a piece that does not hang; else why this way, and the steps."""
    found, order = desk.book.found(Hanging), desk.book.found(Order)
    if found is None or order is None or order.wall is None:
        return
    yield from _why(desk, found, order.wall)
    every = pages(desk)
    for at in range(0, len(every), 2):
        some = every[at : at + 2]
        rooms = (space(A4, desk),) if len(some) == 1 else halves(desk)
        title = (
            f"on the wall: step{'s' if len(some) > 1 else ''} {' and '.join(str(at + 1 + n) for n in range(len(some)))}"
        )
        made = tried(title, partial(_drawn, desk, some, at, rooms))
        if isinstance(made, DeferredSheets):
            yield made
            continue
        yield Draft(
            title=f"{title} of {len(every)}",
            kind="hanging",
            number=f"H{at // 2 + 1}",
            scale="picture only",
            size=A4,
            items=tuple(made),
            holds=tuple(
                Held(place=wall_step(at + n + 1), title=f"step {at + n + 1}: {page.act.title}")
                for n, page in enumerate(some)
            ),
        )


def _drawn(desk: Desk, some: Sequence[BookletPage], at: int, rooms: Sequence[Space]) -> list[Item]:
    items: list[Item] = [rule(rooms[0])] if len(some) > 1 else []
    for number, (page, room) in enumerate(zip(some, rooms, strict=True)):
        one = Block(number=at + number + 1, page=page)
        if not page.hung:
            made, _ = placed(desk, one, views(desk)[page.up], room)
        else:  # what holds it and who is said at each, though it be the same as above
            made, _ = placed(desk, one, view(desk), room, ends=False, behind=(WALL,))
        items += made
    return items


def is_put_together_there(desk: Desk) -> bool:
    """Whether it is put together on the wall, rather than lifted whole."""
    found = desk.book.found(Hanging)
    return found is not None and found.way == "wall"


def pages(desk: Desk) -> list[BookletPage]:
    """All steps in order, as the way that is taken has them."""
    if "wall pages" not in desk.kept:
        desk.kept["wall pages"] = list(_pages(desk))
    found: list[BookletPage] = desk.kept["wall pages"]
    return found


def _pages(desk: Desk) -> Iterator[BookletPage]:
    found, order = desk.book.found(Hanging), desk.book.found(Order)
    if found is None or order is None or order.wall is None or found.chosen is None:
        return
    steps = order.wall.steps if found.way == "wall" else (whole(desk, found.chosen.lifts[0]),)
    lifts = {one.parts: one for one in found.chosen.lifts}
    plan = desk.book.found(GlueUp)
    seen = Scenery(
        desk=desk,
        glued=frozenset(key for go in (plan.stages if plan is not None else ()) for key in go.glued),
        units={part: stage.name for stage in order.stages if stage.name for part in stage.parts},
        floor={"front": 0.0, "wall": 0.0},
    )
    for number, one in enumerate(steps):
        said = act(seen, steps, number, lifts) if found.way == "wall" else _lifted_whole(desk, found.chosen.lifts[0])
        yield BookletPage(
            act=said,
            stage="" if one.on_wall else ON_FLOOR,
            up="front",
            there=one.step.onto,
            incoming=one.step.parts,
            step=one.step,
            hung=one.on_wall,
        )


def whole(desk: Desk, lift: Lifted) -> WallStep:
    """The whole piece as one step, with nothing there."""
    deep = max(board.front for board in desk.book.piece.boards)
    step = Step(
        name=say("the whole piece"),
        parts=lift.parts,
        onto=(),
        legs=(Leg(direction=(0.0, 0.0, -1.0), distance=deep),),
        into=(),
        joints=(),
        cuts=(),
        turned=False,
        up="front",
    )
    return WallStep(
        step=step,
        comes="front",
        along=(),
        held="fixings",
        holding=(),
        low=(0.0, 0.0, 0.0),
        high=(0.0, 0.0, 0.0),
    )


def _lifted_whole(desk: Desk, lift: Lifted) -> Act:
    hung = (desk.book.piece.job or desk.book.job).wall.hung
    return Act(
        title="Lift the whole piece to its marks on the wall" if hung else "Stand the whole piece at its place",
        says="from the front · put together before, by the assembly booklet",
        minds=(
            people(lift),
            "CHECK: level and plumb, packed straight where the wall is hollow, before its screws are tight.",
            "Nobody stands under it until every fixing is in and tight.",
        ),
    )


# --- why this way --------------------------------------------------------------------------------------


def _why(desk: Desk, found: Hanging, up: OnTheWall) -> Iterator[Draft]:
    """The two ways beside each other, what settles it, and what bars the one that is not possible."""
    says = (WAYS[found.way],) if found.way else ("no way was found",)
    sheaf = Sheaf(desk, letter=BARS, title=TITLE, says=says, kind="hanging", number="H")
    sheaf.table("the two ways", HEADS, [_row(offer, found) for offer in found.offers], [WordRun(_measured())])
    texts = [[strong(WHY[found.decider])]]
    texts += [[WordRun(printable(f"{told(barred_in_words(one), desk.book.voice)}."))] for one in up.barred]
    cures = [one.cure for one in up.barred if one.cure is not None]
    texts += [
        [strong("What would help: "), WordRun(printable(f"{told(cure.label, desk.book.voice)}."))] for cure in cures
    ]
    sheaf.paragraphs("why", texts)
    if found.way == "wall":
        sheaf.table("the steps", STEPS, list(_steps(desk, up, found)))
    sheaf.paragraphs("before the first step", [[WordRun(text)] for text in _before(desk, up)])
    yield from sheaf.drafts()


def _steps(desk: Desk, up: OnTheWall, found: Hanging) -> Iterator[tuple[Cell, ...]]:
    """What goes up at each step, from where, by how many, and what holds it then."""
    lifts = {one.parts: one for one in found.offers[1].lifts}
    for number, one in enumerate(up.steps, 1):
        lifted = lifts.get(one.step.parts) if one.on_wall else None
        people = "–" if lifted is None or lifted.mass_kg is None else "over three"
        if lifted is not None and lifted.people is not None:
            people = f"{lifted.people} + {lifted.holding} to hold" if lifted.holding else str(lifted.people)
        yield (
            bold(str(number)),
            Cell(text=printable(told(say("{}", one.step.name), desk.book.voice))),
            Cell(text=SIDES[one.comes]),
            Cell(text=people),
            Cell(text=one.held if one.on_wall else ON_FLOOR),
        )


def _row(offer: WayUp, found: Hanging) -> tuple[Cell, ...]:
    heaviest = max((one.mass_kg or 0.0 for one in offer.lifts), default=0.0)
    many = f"{offer.kg_people:.0f}" if offer.kg_people is not None else "–"
    most = str(offer.people) if offer.people is not None else "over three" if _too_heavy(offer) else "–"
    words = (
        WAYS[offer.way],
        "yes" if offer.possible else "no",
        many,
        most if offer.possible else "–",
        str(len(offer.lifts)) if offer.possible else "–",
        lifting.told_mass(heaviest) if heaviest else "–",
    )
    mark = bold("taken") if offer.way == found.way else Cell(text="")
    return (mark, *(Cell(text=word) for word in words))


def _too_heavy(offer: WayUp) -> bool:
    return any(one.mass_kg is not None and one.people is None for one in offer.lifts)


def _measured() -> str:
    return (
        f"Mass times people over all lifts, a fifth for heavy wood included in how many people it takes: {SOURCE}. "
        "Heights are as drawn, y = 0 taken for the floor. Guidance for fit adults who stand and hold well, no limit."
    )


def _before(desk: Desk, up: OnTheWall) -> Iterator[str]:
    """What must be so before anything is lifted."""
    known = {bound for bound, _ in up.room}
    unknown = [bound for bound in ("ceiling", "left wall", "right wall") if bound not in known]
    if unknown:
        yield (
            f"Not known of the room: {', '.join(unknown)}. Ways in from above and from the sides take it that there is "
            "room: measure it."
        )
    yield (
        "Every way in is swept against all that stands there then, for straight moves; the wall is taken where it "
        "touches the packed boards. Tilting something in is not tried."
    )
    yield "Who leads says so. The way is clear, nobody stands under it, nobody holds it up while another drills."
    if any(one.held == "hands" for one in up.steps):
        count = sum(one.held == "hands" and one.on_wall for one in up.steps)
        yield f"Hands hold {plural(count, 'thing')} that nothing else holds yet: each step says until when."
