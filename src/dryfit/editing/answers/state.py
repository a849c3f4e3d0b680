"""The job as the page shows it, and what a change would make of it."""

from dataclasses import dataclass
from typing import Literal, TypeAlias

from pydantic import JsonValue

from ...documents.shown import Along, BoardShown, CutSaid, Dimension, Elevation, JointShown
from ...geometry.frames import Vec2
from ...places import Pair, Path
from .faults import Fault, MistakeShown

Severity: TypeAlias = Literal["stop", "warn", "note"]


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
class WallShown:
    """The wall and the stock as far as they are known, mm.

    Attributes:
        studs: the first one's centre; `every`: how far the next is from it.
        floor: whether the floor is at 0; of a piece that hangs nobody has said so.
        thick, deep: of a board that is drawn now.
    """

    wide: float | None
    high: float | None
    studs: float | None
    every: float | None
    floor: bool
    thick: float
    deep: float


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
        lead: its figure and its limit, which it leads with: "68.5, 75.3 wanted"; "" where it has none.
        at: where a leader may point; None where it has no place.
        light: the light under which it is looked at.
        uncured: why no change is offered; "" where one is, and while a hand moves.
        stale: from before the last change; the slow work has not followed yet.
    """

    id: str
    number: int
    code: str
    severity: Severity
    lead: str
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
    uncured: str
    stale: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """A question that was answered for the drawing shown, wholly or in part; `asks` is what was looked at."""

    study: str
    asks: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LeftOpen:
    """What was not looked at, and why: no finding and no approval.

    Attributes:
        boards: it is about; none for the whole piece.
        waits: whether it is being worked out now.
    """

    study: str
    what: str
    why: str
    boards: tuple[str, ...] = ()
    waits: bool = False


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
        stands: "answered" once all of it has answered for the drawing shown and for what is measured and cut;
            "working" until then; "stopped" where it will not come by itself, and `says` says why.
        running: whether it is at work, or on its way to it.
        done, what: a share from 0 to 1, and at what.
        says: what to know of it ("the slow work stopped; it is started anew"); "" where all is well. Where it does not
            run and `revision` is not the drawing's, that was not looked at, and this says why.
        mass_kg: of each board, of that revision.
    """

    revision: int | None
    running: bool
    done: float
    what: str
    says: str
    masses: tuple[tuple[str, float], ...]
    stands: Literal["working", "answered", "stopped"] = "working"


StudyStands: TypeAlias = Literal["working", "done", "not checked", "failed", "called off", "waits"]


@dataclass(frozen=True, slots=True, kw_only=True)
class StudyShown:
    """One study as it stands.

    Attributes:
        revision: it was last looked at for; where a change left what it reads as it was, that of the change. None
            before the first.
        key: of what it read: while it is the same, so is the result.
        done: how far the work on it is, from 0 to 1.
        stands: what came of it for that revision; "working" before the first.
        why: there is no result, in words; "" where there is one.
        stale: that revision is not the drawing's, or other things are measured and cut now.
    """

    study: str
    revision: int | None
    key: str
    done: float
    stands: StudyStands
    why: str
    stale: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class State:
    """The whole job as the page shows it.

    Attributes:
        revision: rises with every change, whoever made it.
        text: lines ending as a browser has them; `line_ends` says how the file has them.
        drawn: revision of the drawing; older than `revision` while the text cannot be read.
        stale: True then: the drawing is the last good one.
        last: what the last change was, in a sentence.
        checked, not_checked: every question stands in one of them, or in both where it is answered in part.
        studies: each as it stands; its result is asked for by its name.
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
    wall: WallShown | None
    drawing: Elevation
    frames: tuple[FrameShown, ...]
    measures: tuple[Measure, ...]
    notes: tuple[Note, ...]
    checked: tuple[Question, ...]
    not_checked: tuple[LeftOpen, ...]
    decisions: tuple[Decided, ...]
    undo: str | None
    redo: str | None
    last: str
    rest: Rest
    studies: tuple[StudyShown, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Changed:
    """What came of a change; `again` where this operation had been done already."""

    says: str
    again: bool
    state: State


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """One line of the file before and after; "" for one that is new or goes."""

    line: int
    before: str
    after: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardMoved:
    """What is different of a board that only moves, or is cut otherwise; None for what is as it was.

    Attributes are those of `BoardShown`.
    """

    name: str
    outline: tuple[Vec2, ...] | None = None
    face: tuple[tuple[Vec2, ...], ...] | None = None
    line: tuple[Vec2, Vec2] | None = None
    length: float | None = None
    rake: float | None = None
    label_at: Vec2 | None = None
    foot: Vec2 | None = None
    head: Vec2 | None = None
    along: tuple[Along, ...] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class JointMoved:
    """What is different of a joint that follows its boards; None for what is as it was.

    Attributes are those of `JointShown`.
    """

    boards: Pair
    at: Vec2 | None = None
    also: tuple[Vec2, ...] | None = None
    angle: float | None = None
    says: tuple[CutSaid, ...] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Previewed:
    """What would come of a change, as a difference from the drawing of `revision`.

    Attributes:
        boards, joints: those that are new, or others in more than their place and shape, whole.
        boards_moved, joints_moved: what is different of all others that change.
        gone_boards, gone_joints: those that would not be there.
        notes: live findings that are new, or told otherwise than now, each with its number among all.
        same_notes: ids of the others, in their order: they are told as the state of `revision` has them, but for their
            numbers, and no cure is offered while a hand moves. The slow ones are left as they are.
        writes: what would stand in the file, place by place.
        mistakes: why it cannot be done; the rest is empty then.
        refused: why it cannot be so, or not yet: a figure half typed is no failure. The rest is empty then.
    """

    revision: int
    says: str
    boards: tuple[BoardShown, ...] = ()
    joints: tuple[JointShown, ...] = ()
    boards_moved: tuple[BoardMoved, ...] = ()
    joints_moved: tuple[JointMoved, ...] = ()
    gone_boards: tuple[str, ...] = ()
    gone_joints: tuple[Pair, ...] = ()
    dimensions: tuple[Dimension, ...] | None = None
    notes: tuple[Note, ...] = ()
    same_notes: tuple[str, ...] = ()
    writes: tuple[Written, ...] = ()
    mistakes: tuple[MistakeShown, ...] = ()
    refused: Fault | None = None
