"""What a browser gets back: frozen data, written as JSON by pydantic and described by OpenAPI."""

from dataclasses import dataclass
from typing import Any, Literal, TypeAlias

from pydantic import JsonValue

from ..documents.shown import BoardShown, Dimension, Elevation, JointShown
from ..geometry.frames import Vec2
from ..places import Pair, Path

Severity: TypeAlias = Literal["stop", "warn", "note"]


@dataclass(frozen=True, slots=True, kw_only=True)
class MistakeShown:
    """A mistake in the text.

    Attributes:
        line: counted from 1; 0 where it has none.
        column, end_column: of what is wrong in that line, counted from 0 in UTF-16 units, end exclusive.
        read: what stands there.
    """

    line: int
    column: int
    end_column: int
    path: Path
    read: str
    says: str
    remedy: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """Why something was not done.

    Attributes:
        code: a word for programs: "stale", "refused", "read-only", "disk full" ...
        says, remedy: for the maker.
        mistakes: each with its place, where the job file is at fault.
        revision: as it is now; with "stale", `since` says what happened after the base.
    """

    code: str
    says: str
    remedy: str
    mistakes: tuple[MistakeShown, ...] = ()
    revision: int | None = None
    since: tuple["Version", ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Refusal:
    """The one shape of every error."""

    error: Fault


@dataclass(frozen=True, slots=True, kw_only=True)
class Version:
    """One line of the job's history.

    Attributes:
        at: when, ISO 8601 in UTC.
        kind: "opened", "edit", "text", "undo", "redo", "restore", "outside".
        says: what was changed.
        written: False for a change that was set aside because the file was changed outside at the same moment.
    """

    version: int
    at: str
    kind: str
    says: str
    written: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class History:
    """The versions of the job, the newest first."""

    revision: int
    versions: tuple[Version, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Saved:
    """How the file stands.

    Attributes:
        at: when it was last written, ISO 8601 in UTC.
        state: first eight hex digits of the text's hash, as papers carry it.
        writable: False for a file or folder that may not be written.
        says: what to know of it ("the file is marked read-only"); "" where all is well.
    """

    at: str
    state: str
    writable: bool
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class JobHead:
    """What the title block says."""

    title: str
    client: str
    date: str
    units: Literal["mm", "in"]


@dataclass(frozen=True, slots=True, kw_only=True)
class EditShown:
    """One change of the job file, to be sent back as it is."""

    action: Literal["set", "add", "remove", "rename", "shift"]
    path: Path
    value: JsonValue


@dataclass(frozen=True, slots=True, kw_only=True)
class CureShown:
    """A change that ends a finding; `label` is the button's."""

    label: str
    edits: tuple[EditShown, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Note:
    """A finding as a note on the drawing.

    Attributes:
        id: steady while the finding stays the same.
        number: as it stands in the list.
        at: where a leader may point; None where it has no place.
        light: the light under which it is looked at.
        stale: from before the last change; the slow work has not followed yet.
    """

    id: str
    number: int
    code: str
    severity: Severity
    says: str
    remedy: str
    found: float | None
    limit: float | None
    unit: str
    source: str
    at: Vec2 | None
    boards: tuple[str, ...]
    joint: Pair | None
    cut: str | None
    path: Path | None
    light: str
    cures: tuple[CureShown, ...]
    stale: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Decided:
    """Something decided before cutting; `keep` would make it the maker's word."""

    about: str
    key: Pair
    value: str
    decider: str
    reason: str
    others: tuple[str, ...]
    keep: EditShown | None


@dataclass(frozen=True, slots=True, kw_only=True)
class FrameShown:
    """A frame: its boards and points."""

    name: str
    boards: tuple[str, ...]
    points: tuple[Vec2, ...]
    closed: bool
    path: Path


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure:
    """A named dimension: as written, and in mm."""

    name: str
    written: str
    value: float
    users: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Rest:
    """How far the slow work is.

    Attributes:
        revision: of its last whole result, None before the first.
        running: whether it is at work.
        done, what: a share from 0 to 1, and at what.
        mass_kg: of each board, of that revision.
    """

    revision: int | None
    running: bool
    done: float
    what: str
    masses: tuple[tuple[str, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class State:
    """The whole job as the page shows it.

    Attributes:
        revision: rises with every change, whoever made it.
        text: line ends as \\n; `line_ends` says how the file has them.
        drawn: revision of the drawing; older than `revision` while the text cannot be read.
        stale: True then: the drawing is the last good one.
        last: what the last change was, in a sentence.
        undo, redo: what would be taken back or done again; None where nothing is.
    """

    revision: int
    file: str
    text: str
    line_ends: Literal["LF", "CRLF", "mixed"]
    saved: Saved
    stale: bool
    drawn: int | None
    mistakes: tuple[MistakeShown, ...]
    job: JobHead | None
    drawing: Elevation
    frames: tuple[FrameShown, ...]
    measures: tuple[Measure, ...]
    notes: tuple[Note, ...]
    decisions: tuple[Decided, ...]
    undo: str | None
    redo: str | None
    last: str
    rest: Rest


@dataclass(frozen=True, slots=True, kw_only=True)
class Changed:
    """What came of a change; `again` where this operation had been done already."""

    says: str
    again: bool
    state: State


@dataclass(frozen=True, slots=True, kw_only=True)
class Previewed:
    """What would come of a change, as a difference from the drawing of `revision`.

    Attributes:
        boards, joints: those that change or are new, whole.
        gone_boards, gone_joints: those that would not be there.
        notes: all live findings; the slow ones are left as they are.
        writes: what would stand in the file, place by place.
        mistakes: why it cannot be done; the rest is empty then.
    """

    revision: int
    says: str
    boards: tuple[BoardShown, ...] = ()
    joints: tuple[JointShown, ...] = ()
    gone_boards: tuple[str, ...] = ()
    gone_joints: tuple[Pair, ...] = ()
    dimensions: tuple[Dimension, ...] | None = None
    notes: tuple[Note, ...] = ()
    writes: tuple["Written", ...] = ()
    mistakes: tuple[MistakeShown, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """One line of the file before and after; "" for one that is new or goes."""

    line: int
    before: str
    after: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Handle:
    """A point of the target that may snap."""

    at: Vec2
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """A place to snap to.

    Attributes:
        snap: "x" or "y": that coordinate of the handle comes to `at`; "line": the handle comes onto `guide`;
            "angle": the line through `pivot` and the handle comes to a multiple of `at` degrees.
        handle: index of the handle that snaps.
        says: why, as the page shows it: "level with shelf 2".
        guide: what may be drawn to show it.
        rank: lower wins where two are as near.
    """

    snap: Literal["x", "y", "line", "angle"]
    handle: int
    at: float
    says: str
    guide: tuple[Vec2, ...]
    rank: int
    pivot: Vec2 | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """One way in which the move may be written; the first is taken unless another is chosen.

    Attributes:
        says: "change width: 9 boards follow".
        boards: those that move.
        axis: the only direction it can serve; "" for both.
        named: whether a name is to be typed for it.
    """

    id: str
    says: str
    boards: tuple[str, ...]
    axis: Literal["", "x", "y"] = ""
    named: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Gripped:
    """What the hand can do with what it gripped.

    Attributes:
        along: a unit vector where it moves along one direction only; None where it is free.
        step: what a move is rounded to where nothing snaps.
        follow: joints that follow.
    """

    revision: int
    handles: tuple[Handle, ...]
    candidates: tuple[Candidate, ...]
    offers: tuple[Offer, ...]
    along: Vec2 | None
    step: float
    follow: tuple[Pair, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """One value that may be chosen; `why` says why not where it is not possible, or what it brings."""

    value: str
    possible: bool
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One value of a card.

    Attributes:
        key: what `TypedSent.key` must say to change it.
        label: in words.
        written: as it stands in the file, "" where it does not.
        value: what holds, worked out: mm for a length; None where it is not one value.
        shown: the same as text for reading.
        unit: "mm" for a length, else "".
        default: what holds when nothing is written, "" where something must be.
        sentence: what it means.
        input: how it is typed.
        choices: where one of several may be chosen.
        path: of the value in the file, where it stands.
        from_: "" for its own word, else where it comes from: "default", "[joints]", "exception" ...
    """

    key: Path
    label: str
    written: str
    value: float | str | bool | None
    shown: str
    unit: str
    default: str
    sentence: str
    input: Literal["length", "text", "number", "yes or no", "choice", "board", "timber", "list", "name"]
    choices: tuple[Choice, ...] = ()
    path: Path | None = None
    from_: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Card:
    """The card of what is chosen.

    Attributes:
        title: its name, and `says` one line of what it is.
        figures: what was worked out of it, as word and text; nothing of it can be typed.
        joints: pairs that belong to it.
        dimensions: along the chosen board, for the drawing: from its foot, in blue.
        users: where it is referred to, as paths.
    """

    revision: int
    what: Literal["job", "board", "frame", "joint", "fixing"]
    title: str
    says: str
    rows: tuple[Row, ...]
    figures: tuple[tuple[str, str], ...]
    joints: tuple[Pair, ...]
    dimensions: tuple["Along", ...]
    users: tuple[Path, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Along:
    """A running dimension along the chosen board, from its foot to a joint's centre-line."""

    start: Vec2
    end: Vec2
    value: float
    joint: Pair | None


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

    kind: Literal["hello", "changed", "rest", "progress", "papers", "file"]
    revision: int
    by: Literal["", "here", "outside"] = ""
    operation_id: str = ""
    says: str = ""
    task: int | None = None
    done: float = 0.0
    failed: Fault | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ModelHead:
    """The head of the model's binary answer: 4 bytes of its length (little endian), itself as JSON, the buffers.

    Attributes:
        revision: of which the model is.
        parts: all of them; those whose `key` the page named in `have` come without buffers.
    """

    revision: int
    parts: tuple["ModelPart", ...]


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
