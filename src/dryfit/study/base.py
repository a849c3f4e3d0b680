"""The protocol of studies: one question worked out from a narrow view of the piece.

`reads` is the only place that sees the job, the shop and the piece; it copies just what it needs into a
frozen, picklable value. `run` sees that value and nothing else, and gives the same result for the same
value, bit for bit. The runner keys results by name, version and value, so a change that leaves a study's
value as it was stops there.

Adding a study: docs/adding-a-study.md.
"""

from abc import ABC, abstractmethod
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Any, ClassVar, Generic, TypeVar

from ..errors import Cancelled
from ..findings import Finding, NotChecked
from ..job.model import Job
from ..piece.kinds import JointKind
from ..piece.model import Piece
from ..shop.model import Shop


class Pace(StrEnum):
    """When a study runs: in the drag step, when the hand rests, or when asked."""

    LIVE = "live"
    REST = "rest"
    ASKED = "asked"


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """What `reads` may look at.

    Attributes:
        kinds: the joint kinds, for what is asked of a joint after it is made.
        volume_mm3, surface_mm2, centroid: of a part's solid, by board, the centroid in the board's frame:
            asked for lazily, so that a study that needs none costs no solids.
    """

    job: Job
    shop: Shop
    piece: Piece
    volume_mm3: Callable[[str], float]
    surface_mm2: Callable[[str], float]
    centroid: Callable[[str], tuple[float, float, float]]
    kinds: Mapping[str, JointKind[Any]] = field(default_factory=dict)


class Work:
    """What a running study reports to, and is called off by.

    Attributes:
        seed: for studies that draw random numbers.
    """

    def __init__(
        self,
        *,
        seed: int = 0,
        on_step: Callable[[float, str], None] | None = None,
        on_partial: Callable[[Any], None] | None = None,
        cancelled: Callable[[], bool] | None = None,
    ) -> None:
        self.seed = seed
        self._on_step = on_step
        self._on_partial = on_partial
        self._cancelled = cancelled

    def step(self, done: float, what: str) -> None:
        """Report a share done, 0 to 1, and what is being done.

        Raises:
            Cancelled: nobody wants the result any more.
        """
        if self._cancelled is not None and self._cancelled():
            raise Cancelled(what)
        if self._on_step is not None:
            self._on_step(done, what)

    def partial(self, result: Any) -> None:
        """Show a coarser answer early."""
        if self._on_partial is not None:
            self._on_partial(result)


ValueT = TypeVar("ValueT")
ResultT = TypeVar("ResultT")


class Study(ABC, Generic[ValueT, ResultT]):
    """One question; see the module's text.

    Attributes:
        name: as in `needs`, book.json and the light that shows it.
        order: where it stands in lists; equal ones by name.
        asks: what it looks at, as `findings.question` has it.
        version: raise it when the sums change.
        needs: names of studies whose results `reads` wants.
        pace: when it runs.
        guards: whether it may find what stops the first cut, so that without it nobody may cut.
        tables: job-file tables it owns, with the pydantic model of each.
    """

    name: ClassVar[str]
    order: ClassVar[int] = 50
    asks: ClassVar[str]
    version: ClassVar[int] = 1
    needs: ClassVar[tuple[str, ...]] = ()
    pace: ClassVar[Pace] = Pace.REST
    guards: ClassVar[bool] = False
    tables: ClassVar[Mapping[str, type[Any]]] = {}

    def concerns(self, piece: Piece) -> bool:
        """Whether its question can concern a piece; where it cannot, it is told neither as looked at nor as open."""
        return True

    @abstractmethod
    def reads(self, scene: Scene, earlier: Mapping[str, Any]) -> ValueT:
        """Copy what the sums need; cheap, frozen, picklable, no solids."""

    @abstractmethod
    def run(self, value: ValueT, work: Work) -> ResultT:
        """Work it out; pure."""

    def findings(self, value: ValueT, result: ResultT) -> tuple[Finding, ...]:
        """What the result means for the maker."""
        return ()

    def not_checked(self, value: ValueT, result: ResultT) -> tuple[NotChecked, ...]:
        """What the study leaves open for this piece: nothing of its question (`asking.unanswered`), or a part of it."""
        return ()
