"""What takes longer, and what is told of it: studies, papers, the model, the messages of the socket."""

from dataclasses import dataclass
from typing import Any, Literal, TypeAlias

from .faults import Fault
from .state import LeftOpen, StudyShown, StudyStands


@dataclass(frozen=True, slots=True, kw_only=True)
class Answered(StudyShown):
    """One study with its result, as in book.json (`Results`); None with why where there is none."""

    result: Any


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """What a study would find."""

    severity: Literal["stop", "warn", "note"]
    says: str
    remedy: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Tried:
    """What one study gives with its levers moved: nothing of it stands in the job or on a paper.

    Attributes:
        revision: of the drawing it was tried for.
        result: as in book.json; None with `why` where there is none.
        found, not_checked: what it would find and leave open.
    """

    study: str
    revision: int
    stands: StudyStands
    why: str
    result: Any
    found: tuple[Found, ...]
    not_checked: tuple[LeftOpen, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """Slow work that was asked for; its progress comes over the socket."""

    task: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """One sheet of a paper."""

    page: int
    title: str
    kind: str
    number: str
    scale: str
    width: float
    height: float
    picture: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Paper:
    """What one writer of the job book makes.

    Attributes:
        name: "workshop", "parts" ...
        word: what a maker calls it.
        file: as it is saved; with a stroke at its end it is a folder of files.
        extra: made only where it is asked for.
        left_out: why it cannot be made on this machine; "" where it can.
        revision: of which it was made; None before.
        stale: made of an older revision.
        pages: pictures of its sheets; none for lists and models.
        files: how many, once they are made.
        size_bytes: of them.
    """

    name: str
    word: str
    file: str
    extra: bool
    left_out: str
    revision: int | None
    stale: bool
    files: int
    size_bytes: int
    pages: tuple[Page, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Papers:
    """All papers; `task` is the work on them, None while there is none."""

    task: int | None
    papers: tuple[Paper, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SavedPapers:
    """Where the papers were written."""

    folder: str
    files: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """A joint mark on a grid of 16, front edge at the bottom: paths drawn 1.5 wide, paths filled, rings, discs.

    Attributes:
        heavy: paths drawn 3.2 wide.
        size: how large the grid is drawn, px; `ground` the radius in px that is left free of the drawing under it.
    """

    word: str
    lines: str = ""
    solid: str = ""
    heavy: str = ""
    rings: tuple[float, ...] = ()
    discs: tuple[float, ...] = ()
    size: float = 15.0
    ground: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Schema:
    """What does not change while the server runs.

    Attributes:
        job_file: JSON Schema of the job file.
        kinds: joint kinds that are made, with the JSON Schema of their options.
        named: kinds that may be named and are not made yet.
        levers: of each study that has some, by their names, with the JSON Schema of each.
        species, finishes: the trade's words.
        places: the words for places of boards, each with the axis that it is of, "" for both.
    """

    version: str
    job_file: dict[str, Any]
    kinds: dict[str, Any]
    named: tuple[str, ...]
    levers: dict[str, dict[str, Any]]
    species: tuple[str, ...]
    finishes: tuple[str, ...]
    places: dict[str, Literal["", "x", "y"]]
    marks: tuple[Mark, ...]


LiveKind: TypeAlias = Literal["hello", "changed", "rest", "study", "progress", "papers", "file"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Live:
    """A message of the socket.

    Attributes:
        kind: "hello" on connection; "changed": the job has a new revision; "rest": slow results have come;
            "study": what came of one study, which `says` names;
            "progress": of slow work or of papers; "papers": papers were made, or their making ended;
            "file": how the file stands has changed.
        by: of a change: "here", "outside"; the page that made it knows its operation.
        task: of papers; None for the slow work.
    """

    kind: LiveKind
    revision: int
    by: Literal["", "here", "outside"] = ""
    operation_id: str = ""
    says: str = ""
    task: int | None = None
    done: float = 0.0
    failed: Fault | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ModelPart:
    """One part's mesh in its board's own frame.

    Attributes:
        key: of the mesh: equal keys are equal meshes.
        matrix: 16 numbers, column by column: from the board's frame to the world (x right, y up, z out).
        grain: unit vector along the grain in the world.
        vertices, triangles: offset in bytes behind the head and count, of float32 x 3 and uint32 x 3; None
            where the page has the mesh.
        runs: of triangles: first, count, and the key of the cut they belong to; "" for the board itself.
        centre: of its box, in the world.
    """

    board: str
    key: str
    matrix: tuple[float, ...]
    grain: tuple[float, float, float]
    size: tuple[float, float, float]
    vertices: tuple[int, int] | None
    triangles: tuple[int, int] | None
    runs: tuple[tuple[int, int, str], ...] | None


@dataclass(frozen=True, slots=True, kw_only=True)
class ModelHead:
    """The head of the model's binary answer: 4 bytes of its length (little endian), itself as JSON, the buffers.

    Attributes:
        revision: of which the model is.
        parts: all of them; those whose `key` the page named in `have` come without buffers.
    """

    revision: int
    parts: tuple[ModelPart, ...]
