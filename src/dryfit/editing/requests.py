"""What a browser may send: every field bounded, nothing unknown let in.

Places in the job file are paths as in `places`. Lengths that a hand moves by are mm; what was typed comes as
it was typed, and is read here as the job file would read it.
"""

from typing import Annotated, Literal, TypeAlias

from pydantic import BaseModel, ConfigDict, Field, FiniteFloat, JsonValue, model_validator

from ..places import Edit

FAR = 1e5  # mm: no job is larger
Mm = Annotated[FiniteFloat, Field(ge=-FAR, le=FAR)]
Point: TypeAlias = tuple[Mm, Mm]
Name = Annotated[str, Field(min_length=1, max_length=200)]
Key: TypeAlias = Annotated[str, Field(max_length=200)] | Annotated[int, Field(ge=0, le=10_000)]
Boards = Annotated[list[Name], Field(min_length=1, max_length=2000)]
LARGEST_TEXT = 1_000_000


class Sent(BaseModel):
    """Base of all that is sent."""

    model_config = ConfigDict(extra="forbid", frozen=True)


class EditSent(Sent):
    """One change of the job file, as `places.Edit`: taken from a cure or a decision, or made on the page."""

    action: Literal["set", "add", "remove", "rename", "shift"]
    path: Annotated[list[Key], Field(max_length=20)]
    value: JsonValue = None

    def edit(self) -> Edit:
        """The same for the rooms below."""
        return Edit(action=self.action, path=tuple(self.path), value=self.value)


class BoardTarget(Sent):
    """Whole boards."""

    what: Literal["boards"]
    boards: Boards


class EndTarget(Sent):
    """One end of a board's line."""

    what: Literal["end"]
    board: Name
    end: Literal["start", "end"]


class CornerTarget(Sent):
    """One point of a frame, counted from 0."""

    what: Literal["corner"]
    frame: Name
    corner: Annotated[int, Field(ge=0, le=2000)]


class SideTarget(Sent):
    """One side of a frame: it moves along its normal."""

    what: Literal["side"]
    frame: Name
    side: Annotated[int, Field(ge=0, le=2000)]


class NewTarget(Sent):
    """Nothing yet: a board or frame about to be drawn."""

    what: Literal["new"]


Target: TypeAlias = Annotated[
    BoardTarget | EndTarget | CornerTarget | SideTarget | NewTarget, Field(discriminator="what")
]


Arithmetic = Annotated[str, Field(min_length=1, max_length=2000)]


class MeantSent(Sent):
    """What a handle came to: a candidate's `handle`, `axis` and `place`."""

    handle: Annotated[int, Field(ge=0, le=10_000)]
    axis: Literal["x", "y"]
    place: Arithmetic


class DragSent(Sent):
    """A hand has moved a target by so much; `choice` is the id of one of the offers, "" for the first.

    Attributes:
        exact: it was typed, or snapped to a place: it is written as exactly as can be held, not to a hand's tenth.
        meant: the places that it came to, written where the way chosen `relates`.
    """

    do: Literal["drag"]
    target: Target
    by: Point
    exact: bool = False
    choice: Annotated[str, Field(max_length=210)] = ""
    name: Annotated[str, Field(max_length=100)] = ""
    meant: Annotated[list[MeantSent], Field(max_length=2)] = []


class FigureSent(Sent):
    """A dimension was typed: the target's place on that axis comes to `entry`, arithmetic over the measures."""

    do: Literal["figure"]
    target: Target
    axis: Literal["x", "y"]
    now: Mm
    entry: Annotated[str, Field(min_length=1, max_length=2000)]


class CardOf(Sent):
    """Whose card; with nothing chosen the job's. `row` is a board of a row that is meant as a whole."""

    board: Name | None = None
    row: Name | None = None
    frame: Name | None = None
    joint: tuple[Name, Name] | None = None
    fixing: Name | None = None


# What was typed: a text as it was, yes or no, or names that were chosen.
TypedEntry: TypeAlias = Annotated[str, Field(max_length=4000)] | bool | Annotated[list[Name], Field(max_length=2000)]


class TableAddedSent(Sent):
    """One more of the tables that a job may have many of, by its word in the file, with what was typed for its keys."""

    do: Literal["add table"]
    table: Name
    values: Annotated[dict[Name, TypedEntry], Field(max_length=50)] = {}


class TableTakenSent(Sent):
    """One of these tables taken out."""

    do: Literal["take table out"]
    path: Annotated[list[Key], Field(min_length=2, max_length=2)]


class TypedSent(Sent):
    """A value of a card was typed; None puts it back to its default."""

    do: Literal["typed"]
    card: CardOf
    key: Annotated[list[Key], Field(min_length=1, max_length=20)]
    entry: TypedEntry | None


DerivedFigure: TypeAlias = Literal["rake", "length", "along", "clear", "row clear", "row centres", "row thick"]


class DerivedSent(Sent):
    """A figure that is worked out of a board was typed; `beside` names the other board, `choice` a way offered."""

    do: Literal["derived"]
    board: Name
    figure: DerivedFigure
    beside: Annotated[str, Field(max_length=200)] = ""
    entry: Annotated[str, Field(min_length=1, max_length=2000)]
    choice: Annotated[str, Field(max_length=210)] = ""
    name: Annotated[str, Field(max_length=100)] = ""


Entry = Annotated[str, Field(max_length=2000)]


class WallSent(Sent):
    """The wall was typed, and what the piece is made of: what is sent changes, "" leaves it open again.

    Attributes:
        studs: the first one's centre from the wall's left end; `every`: how far the others follow, up to its right end.
        thick: the stock's thickness.
        deep: how deep boards are drawn from now on.
    """

    do: Literal["wall"]
    wide: Entry | None = None
    high: Entry | None = None
    studs: Entry | None = None
    every: Entry | None = None
    thick: Entry | None = None
    deep: Entry | None = None


class RowSent(Sent):
    """A row of boards laid in the bay that a point lies in, with equal bays between them where no spacing is typed.

    Attributes:
        count: None for as many as there is room for.
        clear, centres: from the bay's beginning on, what is clear between faces, or from centre to centre.
        lean: of all of them, degrees to the right or up; their feet are spaced so.
    """

    do: Literal["row"]
    at: Point
    count: Annotated[int, Field(ge=1, le=100)] | None = None
    lying: bool = False
    clear: Arithmetic | None = None
    centres: Arithmetic | None = None
    lean: Arithmetic | None = None


class ClearSent(Sent):
    """A clear opening was typed, of the bay that a point lies in.

    Attributes:
        axis: "x" for its width, "y" for its height.
        gives: the board beside it that moves; "" for the first that can.
    """

    do: Literal["clear"]
    at: Point
    axis: Literal["x", "y"]
    entry: Arithmetic
    gives: Annotated[str, Field(max_length=200)] = ""


class DrawSent(Sent):
    """A board by two points, or a frame by its corners; `exact` as in `DragSent`.

    Attributes:
        meant: the places that points came to; `handle` counts the points.
    """

    do: Literal["draw"]
    what: Literal["board", "frame"]
    points: Annotated[list[Point], Field(min_length=2, max_length=200)]
    closed: bool = True
    exact: bool = False
    meant: Annotated[list[MeantSent], Field(max_length=400)] = []


class CopySent(Sent):
    """Boards copied and moved."""

    do: Literal["copy"]
    boards: Boards
    by: Point


class MirrorSent(Sent):
    """Boards mirrored about a plumb line at x; `keep` leaves the boards and adds the mirrored ones."""

    do: Literal["mirror"]
    boards: Boards
    x: Mm
    keep: bool = False


class DeleteSent(Sent):
    """Boards taken out, with what speaks of them alone."""

    do: Literal["delete"]
    boards: Boards


class CutsSent(Sent):
    """What is done to the record of cuts: ticked as cut, taken back, left as they are by the maker's word, or not.

    Attributes:
        cuts: by key; all of the board's where none is named.
    """

    do: Literal["cuts"]
    board: Name
    cuts: Annotated[list[Annotated[str, Field(max_length=500)]], Field(max_length=500)] = []
    what: Literal["cut", "take back", "accept", "not accept"]


class EditsSent(Sent):
    """Changes of the file as they are: a cure, a decision kept."""

    do: Literal["edits"]
    edits: Annotated[list[EditSent], Field(min_length=1, max_length=500)]


Doing: TypeAlias = Annotated[
    EditsSent
    | DragSent
    | FigureSent
    | TypedSent
    | DerivedSent
    | DrawSent
    | WallSent
    | RowSent
    | ClearSent
    | CopySent
    | MirrorSent
    | DeleteSent
    | TableAddedSent
    | TableTakenSent
    | CutsSent,
    Field(discriminator="do"),
]


class Based(Sent):
    """Something asked of the job as the page knows it."""

    base_revision: Annotated[int, Field(ge=0, le=2**53)]


class EditAsked(Based):
    """A change, told apart from all others by its id: sending it twice does it once."""

    operation_id: Annotated[str, Field(min_length=8, max_length=64, pattern=r"^[A-Za-z0-9_-]+$")]


class Change(EditAsked):
    """One step of undo.

    Attributes:
        label: replaces the sentence that the server would say of it.
        sure: the maker was asked and wants it; without it what loses recorded cuts is refused with the code "ask".
    """

    doing: Doing
    label: Annotated[str, Field(max_length=200)] = ""
    sure: bool = False


class TextChange(EditAsked):
    """The whole text, lines ending as a browser has them.

    Attributes:
        was: the text that it was typed in, where that is another than the base's: both are put together.
    """

    text: Annotated[str, Field(max_length=LARGEST_TEXT)]
    was: Annotated[str | None, Field(max_length=LARGEST_TEXT)] = None


class Restore(EditAsked):
    """Back to how it was in an earlier version."""

    version: Annotated[int, Field(ge=1, le=2**53)]


class Preview(Based):
    """What would come of it; nothing is saved."""

    doing: Doing


class WhatIf(Based):
    """What would a study find with its levers moved? Of each, by its name, what is not as it stands by itself."""

    levers: Annotated[dict[Name, dict[Name, JsonValue]], Field(max_length=20)]


class Grip(Based):
    """A hand has gripped something."""

    target: Target


class WaysAsked(Based):
    """In which ways may a figure that is worked out be written, once it is typed?"""

    board: Name
    figure: DerivedFigure
    beside: Annotated[str, Field(max_length=200)] = ""


class BayAsked(Sent):
    """What of the bay that a point lies in, and of others chosen with it, by points in them?"""

    at: Point
    others: Annotated[list[Point], Field(max_length=100)] = []


class PapersAsked(Sent):
    """Papers to be made, all of them where no name is given."""

    names: Annotated[list[Name], Field(max_length=100)] = []


class PapersSaved(Sent):
    """Made papers to be written beside the job, all of them where no file is named."""

    files: Annotated[list[Name], Field(max_length=200)] = []


class Password(Sent):
    """What opens the page to another machine."""

    password: Annotated[str, Field(max_length=200)]


class CardQuery(Sent):
    """Whose card, as a query: `joint` is given twice."""

    board: Name | None = None
    row: Name | None = None
    frame: Name | None = None
    joint: Annotated[list[Name], Field(max_length=2)] = []
    fixing: Name | None = None

    @model_validator(mode="after")
    def _one(self) -> "CardQuery":
        if len(self.joint) == 1:
            raise ValueError("a joint is named by its two boards")
        return self

    def card(self) -> CardOf:
        """The same as a card's owner."""
        joint = (self.joint[0], self.joint[1]) if self.joint else None
        return CardOf(board=self.board, row=self.row, frame=self.frame, joint=joint, fixing=self.fixing)
