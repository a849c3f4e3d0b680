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
from typing import Any, ClassVar, Generic, TypeVar, cast

from ..errors import Cancelled
from ..findings import Finding, NotChecked
from ..job.model import Job
from ..job.options import Options, evaluated
from ..job.tables import Many, ModelT, One, Owned
from ..piece.kinds import JointKind
from ..piece.model import Piece
from ..shop.model import Shop

T = TypeVar("T")
LeverT = TypeVar("LeverT", bound=Options)


class Pace(StrEnum):
    """When a study runs: after each change, when the hand rests, or only when somebody asks for it."""

    REST = "rest"
    ASKED = "asked"


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """What `reads` may look at.

    Attributes:
        kinds: the joint kinds, for what is asked of a joint after it is made.
        volume_mm3, surface_mm2, centroid: of a part's solid, by board, the centroid in the board's frame:
            asked for lazily, so that a study that needs none costs no solids.
        study: the one that reads: it is given what it says that it owns, needs and may be moved by, and nothing else.
        results: of the studies that it `needs`, by their class.
        levers: as a page has moved them, by their class; others stand as they are by themselves.
    """

    job: Job
    shop: Shop
    piece: Piece
    volume_mm3: Callable[[str], float]
    surface_mm2: Callable[[str], float]
    centroid: Callable[[str], tuple[float, float, float]]
    kinds: Mapping[str, JointKind[Any]] = field(default_factory=dict)
    study: "Study[Any, Any] | None" = None
    results: Mapping[type[Any], Any] = field(default_factory=dict)
    levers: Mapping[type[Any], Any] = field(default_factory=dict)

    def one(self, table: One[ModelT]) -> ModelT | None:
        """The table as the job has it, its lengths in mm; None where it has none."""
        found = self._given(table)
        return found[0] if found else None

    def many(self, table: Many[ModelT]) -> tuple[ModelT, ...]:
        """The tables as the job has them, in their order, their lengths in mm."""
        return self._given(table)

    def _given(self, table: Owned) -> tuple[Any, ...]:
        owns = self.study.owns if self.study is not None else ()
        assert table in owns, f"{table.heading} does not stand among what the study owns"
        return self.job.tables.get(table.word, ())

    def earlier(self, result: type[T]) -> T:
        """What an earlier study found, by the class of its result."""
        assert result in self.results, f"{result.__name__} does not stand among what the study needs"
        return cast(T, self.results[result])

    def lever(self, lever: type[LeverT]) -> LeverT:
        """What a page asks "what if" by, its lengths in mm; as it stands by itself in a book and on every paper."""
        levers = self.study.levers if self.study is not None else ()
        assert lever in levers, f"{lever.__name__} does not stand among the levers of the study"
        return cast(LeverT, self.levers.get(lever) or evaluated(lever(), self.job.measures, self.job.units))


class Work:
    """What a running study reports to, and is called off by."""

    def __init__(
        self, *, on_step: Callable[[float, str], None] | None = None, cancelled: Callable[[], bool] | None = None
    ) -> None:
        self._on_step = on_step
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


ValueT = TypeVar("ValueT")
ResultT = TypeVar("ResultT")


class Study(ABC, Generic[ValueT, ResultT]):
    """One question; see the module's text.

    Attributes:
        name: as in `needs`, book.json and the light that shows it.
        order: where it stands in lists; equal ones by name.
        asks: what it looks at, as `findings.question` has it.
        version: raise it when the sums change.
        result: the class of what `run` gives, of the study's `result.py`: what others import, and what book.json
            publishes.
        needs: results of other studies that `reads` wants, by their classes.
        pace: when it runs.
        guards: whether it may find what stops the first cut, so that without it nobody may cut.
        owns: job-file tables that are its own: they are read, checked and published by standing here.
        levers: figures that a page may move to ask "what if": they stand in the value and never in the job.
        codes: of the findings that it makes, each from `findings.declare`.
        untried: those of these whose cures are thought of, and only the whole piece can tell if they help: where one is
            a stop, each is made on the job's text and tried with all studies that guard. Of the others it offers what
            it has tried.
        takes_up: codes of findings that others make and it goes on from: they are looked at together with its own.
    """

    name: ClassVar[str]
    order: ClassVar[int] = 50
    asks: ClassVar[str]
    version: ClassVar[int] = 1
    result: ClassVar[type[Any]]
    needs: ClassVar[tuple[type[Any], ...]] = ()
    pace: ClassVar[Pace] = Pace.REST
    guards: ClassVar[bool] = False
    owns: ClassVar[tuple[Owned, ...]] = ()
    levers: ClassVar[tuple[type[Options], ...]] = ()
    codes: ClassVar[tuple[str, ...]] = ()
    untried: ClassVar[tuple[str, ...]] = ()
    takes_up: ClassVar[tuple[str, ...]] = ()

    def concerns(self, piece: Piece) -> bool:
        """Whether its question can concern a piece; where it cannot, it is told neither as looked at nor as open."""
        return True

    @abstractmethod
    def reads(self, scene: Scene) -> ValueT | NotChecked:
        """Copy what the sums need; cheap, frozen, picklable, no solids. Or say why nothing can be looked at."""

    @abstractmethod
    def run(self, value: ValueT, work: Work) -> ResultT:
        """Work it out; pure."""

    def findings(self, value: ValueT, result: ResultT) -> tuple[Finding, ...]:
        """What the result means for the maker."""
        return ()

    def not_checked(self, value: ValueT, result: ResultT) -> tuple[NotChecked, ...]:
        """What the study leaves open for this piece: nothing of its question (`asking.unanswered`), or a part of it."""
        return ()
