"""What is coated when: areas by board and by stage, how much it takes, how long it waits."""

from dataclasses import dataclass
from typing import Literal

from ...job.model import When


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardCoats:
    """One board's coats.

    Attributes:
        when: they go on; None where nobody says.
        coats: how many, in all.
        open_m2: of its surface what no joint hides; `edges_m2` its two edges and ends, before joints are cut.
        coated_m2: of what joints hide, that is coated with it: it is bare wood or masked but for that.
        masked_m2: of what joints hide, that is masked off.
    """

    name: str
    when: When | None
    coats: int
    open_m2: float
    edges_m2: float
    coated_m2: float
    masked_m2: float


@dataclass(frozen=True, slots=True, kw_only=True)
class CoatingStage:
    """The coats that go on at one time.

    Attributes:
        when: that is.
        boards: that are coated then.
        coats: how many; of boards that differ, the most.
        m2: to be covered, each coat counted.
        litres: for them, with what is lost; None where nobody says how far a litre goes.
        next_h: until the last of them has dried as for another coat; `hard_h` until coated faces may press on each
            other or lie in plastic; both from the first coat; None where no figure is known.
    """

    when: When
    boards: tuple[str, ...]
    coats: int
    m2: float
    litres: float | None
    next_h: float | None
    hard_h: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Wait:
    """Hours in which nothing is done to the piece; they stand one after the other.

    Attributes:
        after: what it waits for: coats that go on then, or "glue".
        until: what is done next: "glued", "coated", "carried", "lived with".
        hours: from the first coat, or from the last clamp; None where no figure is known.
        dries: whether it is finish that dries, which takes twice as long where it is cold or damp.
    """

    after: When | Literal["glue"]
    until: Literal["glued", "coated", "carried", "lived with"]
    hours: float | None
    dries: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Coating:
    """All of it.

    Attributes:
        system: as the job names it.
        covers: m2 a litre, one coat; `covers_from` whose figure that is, "" where there is none.
        recoat_h: from coat to coat; `recoat_from` whose figure. So `cure_d`, days until hard, and `cure_from`.
        waits: in the calendar of the job, in order, until it is lived with.
        self_heating: whether rags with it can take fire by themselves; `fumes` whether it gives off solvents. Of a
            finish that is not known both are taken to be so.
    """

    system: str
    boards: tuple[BoardCoats, ...]
    stages: tuple[CoatingStage, ...]
    covers: float | None
    covers_from: str
    recoat_h: float | None
    recoat_from: str
    cure_d: float | None
    cure_from: str
    self_heating: bool
    fumes: bool
    waits: tuple[Wait, ...] = ()
