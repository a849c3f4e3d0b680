"""How the piece goes together as the page tells it: the booklet's sheets and the glue-up cards, boards by name."""

from dataclasses import dataclass

from ...places import Pair
from .grip import SectionShown


@dataclass(frozen=True, slots=True, kw_only=True)
class GoesHome:
    """A joint that a step closes.

    Attributes:
        going, into: the board that comes and the one that is there.
        mark: the word of the joint's mark.
        says: the figures of its cuts and its fit, as its sheet prints them, a sentence each.
        slides: how far the boards touch on the way in, as printed; "" where they only meet.
        section: cut along the way in, what comes from above; None of boards that are not both there.
    """

    joint: Pair
    going: str
    into: str
    mark: str
    says: tuple[str, ...]
    slides: str
    section: SectionShown | None


@dataclass(frozen=True, slots=True, kw_only=True)
class WaresIn:
    """What goes into a joint at a step and is no board: "12 keys", "4 screws"."""

    joint: Pair
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class AssemblyStep:
    """One sheet of the booklet.

    Attributes:
        title, says, puts, minds: as it is printed there.
        cards: the glue-up cards it belongs to; `dry` those of them at which it is only put on dry.
        whole: the whole piece is moved: stood up, lifted to its wall.
    """

    title: str
    says: str
    puts: tuple[str, ...]
    minds: tuple[str, ...]
    homes: tuple[GoesHome, ...]
    wares: tuple[WaresIn, ...]
    cards: tuple[int, ...]
    dry: tuple[int, ...]
    whole: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class GlueCard:
    """A glue-up card.

    Attributes:
        number: as printed, 1 for G1.
        figures: (of what, figure, unit): open time, time needed, in clamps, glue.
        measured: what is measured, and what it should be.
        steps: what to do, in order; `notes` clock, limits, clamps, sources.
    """

    number: int
    called: str
    boards: tuple[str, ...]
    figures: tuple[tuple[str, str, str], ...]
    measured: tuple[tuple[str, str], ...]
    steps: tuple[str, ...]
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Assembly:
    """The booklet of a revision, a step a sheet; `why` there is none, "" where there is one."""

    revision: int
    why: str
    steps: tuple[AssemblyStep, ...]
    cards: tuple[GlueCard, ...]
