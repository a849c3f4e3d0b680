"""What stands on which sheet of the booklet: two to a sheet, in order, each glue-up card after the steps it glues.

A card comes before what waits for its glue. One that needs a whole sheet has it; a step that is left alone on its sheet
fills it.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial

from ....studies.glue_up.result import GlueStage, GlueUp
from ...display import Held
from ...looks import Desk
from ...pages import card as place_of_card
from ...pages import page_of, step
from ...sheet import DeferredSheets, tried
from ...standard import A4, NAME
from ..gluing.maker import DrawnCard, card
from ..gluing.words import glues, holds
from ..page.frame import Space, space
from .pages import BookletPage, pages

TO_A_SHEET = 2
BETWEEN = NAME  # of white between two on a sheet


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """A step of the booklet, or a card.

    Attributes:
        number: of the step among the steps, or of the card among the cards, from 1.
        cards: of a step: (number of the card, whether the step is only put on dry there) for each go it belongs to.
    """

    number: int
    page: BookletPage | None = None
    go: GlueStage | None = None
    cards: tuple[tuple[int, bool], ...] = ()

    @property
    def held(self) -> Held:
        """What others find its sheet by."""
        place = place_of_card(self.number) if self.page is None else step(self.number)
        return Held(place=place, title=self.called if self.page is None else f"{self.called}: {self.page.act.title}")

    @property
    def called(self) -> str:
        """In a title."""
        if self.page is None:
            return f"card G{self.number}"
        return "the last: to its place" if self.page.whole else f"step {self.number}"


Sheet = tuple[Block, ...]


def bound(desk: Desk) -> list[Sheet]:
    """The sheets in order."""
    if "booklet sheets" not in desk.kept:
        desk.kept["booklet sheets"] = list(_paired(desk, blocks(desk)))
    found: list[Sheet] = desk.kept["booklet sheets"]
    return found


def blocks(desk: Desk) -> list[Block]:
    """Steps and cards in the order in which they are needed."""
    plan = desk.book.found(GlueUp)
    goes = list(enumerate(plan.stages if plan is not None else (), 1))
    every = pages(desk)
    after: dict[int, list[Block]] = {}
    for number, go in goes:
        own = [n for n, page in enumerate(every) if glues(go, page) or (holds(go, page) and not go.off)]
        after.setdefault(own[-1] if own else len(every) - 1, []).append(Block(number=number, go=go))
    found = []
    for n, page in enumerate(every):
        belongs = tuple((k, not glues(go, page)) for k, go in goes if glues(go, page) or holds(go, page))
        found += [Block(number=n + 1, page=page, cards=belongs), *after.get(n, ())]
    return found


def halves(desk: Desk) -> tuple[Space, Space]:
    """The upper and the lower half of a sheet."""
    room = space(A4, desk)
    middle = (room.top + room.bottom) / 2
    return replace(room, bottom=middle - BETWEEN / 2), replace(room, top=middle + BETWEEN / 2)


def _paired(desk: Desk, every: Sequence[Block]) -> Iterator[Sheet]:
    """Two to a sheet, but a card that needs it all."""
    upper, _ = halves(desk)
    waiting: list[Block] = []
    for one in every:
        if one.go is not None and not _fits(desk, one, upper):
            if waiting:
                yield tuple(waiting)
            yield (one,)
            waiting = []
            continue
        waiting.append(one)
        if len(waiting) == TO_A_SHEET:
            yield tuple(waiting)
            waiting = []
    if waiting:
        yield tuple(waiting)


def _fits(desk: Desk, one: Block, room: Space) -> bool:
    """Whether all of a card stands in a room; one that cannot be drawn at all is told of when its turn comes."""
    made = tried(one.called, partial(drawn_card, desk, one, room, of_step(desk)))
    return isinstance(made, DeferredSheets) or made.whole


def drawn_card(desk: Desk, one: Block, room: Space, where: Callable[[int], str]) -> DrawnCard:
    """A card in a room."""
    plan = desk.book.found(GlueUp)
    assert plan is not None, "there is a go"
    assert one.go is not None, "a card has one"
    return card(desk, plan, one.go, one.number, room, where)


def of_step(desk: Desk) -> Callable[[int], str]:
    """What a step is called where a card sends to it: "step 4, page 3"."""
    whole = {number for number, page in enumerate(pages(desk), 1) if page.whole}

    def called(number: int) -> str:
        return f"{'the last sheet' if number in whole else f'step {number}'}, page {page_of(step(number))}"

    return called


def of_card(number: int) -> str:
    """What a card is called where a step sends to it: "card G2, page 5"."""
    return f"card G{number}, page {page_of(place_of_card(number))}"
