"""What takes longer, and what is told of it: studies, papers, the model, the messages of the socket."""

from dataclasses import dataclass
from typing import Any, Literal, TypeAlias

from .faults import Fault


@dataclass(frozen=True, slots=True, kw_only=True)
class Answered:
    """A study's result, as in book.json; None with why where there is none. `stale`: from an older revision."""

    revision: int | None
    result: Any
    why: str
    stale: bool


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
    """One file of the job book.

    Attributes:
        name: "workshop", "parts" ...
        file: as it is saved.
        revision: of which it was made; None before.
        stale: made of an older revision.
        pages: pictures of its sheets; none for lists and models.
        size_bytes: of the file.
    """

    name: str
    file: str
    revision: int | None
    stale: bool
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
    """

    word: str
    lines: str = ""
    solid: str = ""
    heavy: str = ""
    rings: tuple[float, ...] = ()
    discs: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Schema:
    """What does not change while the server runs.

    Attributes:
        job_file: JSON Schema of the job file.
        kinds: joint kinds that are made, with the JSON Schema of their options.
        named: kinds that may be named and are not made yet.
        species, finishes: the trade's words.
    """

    version: str
    job_file: dict[str, Any]
    kinds: dict[str, Any]
    named: tuple[str, ...]
    species: tuple[str, ...]
    finishes: tuple[str, ...]
    marks: tuple[Mark, ...]


LiveKind: TypeAlias = Literal["hello", "changed", "rest", "progress", "papers", "file"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Live:
    """A message of the socket.

    Attributes:
        kind: "hello" on connection; "changed": the job has a new revision; "rest": slow results have come;
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
