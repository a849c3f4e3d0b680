"""What stands on a part's sheets: heading, views, table, notes, small picture, each drawn where it is told to stand."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Literal

from ...display import Draft, Held, Item, Text, extent
from ...kit.axis import Axis
from ...kit.placing import Bounds
from ...lettering import FIGURE, TEXT, width
from ...looks import Desk
from ...naming import position, scale_words
from ...pages import part as place_of
from ..page.arranging import WIDE, Sketch
from ..page.frame import LETTER_HIGH, MARGIN, TITLE_WIDE, Space, beside_block, space
from ..page.prose import AFTER, FIRST, LINE, Flowed, TextPlace, WordRun, flow, line_count, strong
from ..page.table import ROW, Column, Row, drawn, head_high, rows_high
from .stack import Stacked
from .subject import PART, Subject
from .words.notes import checks, origins, sharp_within
from .words.sums import sums

PICTURE = (WIDE, 2 * WIDE / 3)  # as wide as a section


@dataclass
class Contents:
    """What is to stand on the sheets of one part, of several that are alike or of a pair, on paper of one size.

    Attributes:
        holds: "views" where another page has the table, "table" where another has the sections.
        left_out: sentences of its notes that another place on the sheet has.
        corner: how much of the heading's right is kept free.
    """

    desk: Desk
    subject: Subject
    size: tuple[float, float]
    holds: Literal["all", "views", "table"] = "all"
    left_out: frozenset[str] = frozenset()
    corner: float = 0.0
    _stacks: dict[tuple[Axis, bool], Stacked] = field(default_factory=dict)
    _columns: dict[float, list[Column]] = field(default_factory=dict)
    _bodies: dict[float, list[Row]] = field(default_factory=dict)
    _sketches: dict[bool, list[Sketch]] = field(default_factory=dict)
    _headings: dict[str, tuple[list[Item], float]] = field(default_factory=dict)
    _all_said: list[list[WordRun]] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.space: Space = space(self.size, self.desk)
        self.landscape = self.size[0] > self.size[1]
        _, self.top = self.heading("")

    @property
    def large(self) -> list[Sketch]:
        """Sections and views of ends at the larger scale."""
        return [] if self.holds == "table" else self._sketched(roomy=True)

    @property
    def _close(self) -> list[Sketch]:
        return self._sketched(roomy=False)

    def _sketched(self, *, roomy: bool) -> list[Sketch]:
        if roomy not in self._sketches:
            self._sketches[roomy] = self.subject.sketches(self.desk, roomy=roomy)
        return self._sketches[roomy]

    def made(self) -> Iterator[list[Sketch]]:
        """Sections and views of ends to try, the best first; those that come later are mostly never asked for."""
        yield self.large
        if self.holds != "table":
            views = [sketch for sketch in self.large if sketch.view]
            yield [*(sketch for sketch in self._close if not sketch.view), *views]
            if views:
                yield self._close
            yield [sketch for sketch in self._close if not sketch.end]
        if self.subject.told_in_table and self.holds != "table":
            yield [sketch for sketch in self._close if not sketch.view]
            yield [sketch for sketch in self._close if not sketch.end and not sketch.view]
        if self.holds != "table" and len(self._fewer) < len(self._close):
            yield self._fewer
            yield [sketch for sketch in self._fewer if not sketch.end]

    @cached_property
    def _fewer(self) -> list[Sketch]:
        """Of slots that lean one way the first alone is drawn: of the others words tell as much."""
        first = {sketch.leans: sketch for sketch in reversed(self._close) if sketch.numbers}
        return [
            sketch for sketch in self._close if not (sketch.numbers and sketch.leans) or sketch is first[sketch.leans]
        ]

    def _untold(self, made: Sequence[Sketch]) -> list[WordRun]:
        """In words what the sections show that are left out among these."""
        shown = {sketch.numbers for sketch in made}
        left = [sketch for sketch in self._close if sketch.numbers and sketch.numbers not in shown] if made else []
        said = ((sketch, [line for line in (sketch.leans, *sketch.says[sketch.naming :]) if line]) for sketch in left)
        return [WordRun(f"{sketch.numbers}: {', '.join(lines)}.") for sketch, lines in said]

    def stack(self, ruler: Axis, *, narrow: bool = False) -> Stacked:
        """The views, drawn at that ruler; `narrow`: no words on their right."""
        if (ruler, narrow) not in self._stacks:
            right = ruler.right if narrow else self.space.right
            self._stacks[ruler, narrow] = self.subject.stack(self.desk, ruler, self.top, right)
        return self._stacks[ruler, narrow]

    def least(self, scale: float) -> float:
        """The y above which no stack of the views ends, by the part's sizes: faces, front edge, what is under each."""
        return self.top + self.subject.least(scale)

    @cached_property
    def lines(self) -> int:
        """How many lines the notes take at least: at the whole width, run together."""
        return line_count([run for runs in self._notes for run in runs], self.space.wide)

    def heading(self, more: str) -> tuple[list[Item], float]:
        """The heading, and the y below which the sheet is free; `more` tells this sheet from the part's others."""
        if more not in self._headings:
            space = replace(self.space, right=self.space.right - self.corner)
            self._headings[more] = self.subject.heading(self.desk, space, more)
        items, y = self._headings[more]
        return [*items], y

    def places(self, y: float, wide: float) -> list[TextPlace]:
        """Where notes stand from `y` on: above the title block, then, on a landscape sheet, beside it."""
        above = TextPlace(self.space.left, y, wide, self.space.bottom + AFTER)
        if not self.landscape:
            return [above]
        top = max(y, self.space.bottom)
        return [above, TextPlace(self.space.left, top, beside_block(self.size), self.size[1] - MARGIN + AFTER)]

    def body(self, wide: float) -> list[Row]:
        """The table's rows in a table so wide; none where another page has them."""
        if wide not in self._bodies:
            self._bodies[wide] = [] if self.holds == "views" else self.subject.rows(self.desk, wide)
        return self._bodies[wide]

    def columns(self, wide: float) -> list[Column]:
        """Of a table so wide."""
        if wide not in self._columns:
            self._columns[wide] = self.subject.columns(self.desk, wide)
        return self._columns[wide]

    def table(self, x: float, y: float, wide: float) -> list[Item]:
        """The table; nothing where another page has it."""
        body = self.body(wide)
        return drawn(x, y, self.columns(wide), body) if body else []

    def under_table(self, y: float, wide: float) -> float:
        """The y of the bottom of a table that stands at `y`."""
        body = self.body(wide)
        return y + head_high(self.columns(wide)) + rows_high(body) if body else y

    def picture(self, bottom: float, right: float | None = None) -> list[Item]:
        """The small picture, at the right margin or where it is told to end."""
        return self.picture_in(self.room_for_picture(bottom, right))

    def picture_in(self, room: Bounds) -> list[Item]:
        """The small picture in a room."""
        return self.subject.picture(self.desk, room)

    def room_for_picture(self, bottom: float, right: float | None = None) -> Bounds:
        """The room of the small picture, at the right margin or where it is told to end."""
        right = self.space.right if right is None else right
        return (right - PICTURE[0], bottom - PICTURE[1], right, bottom)

    @cached_property
    def above(self) -> Bounds | None:
        """The same in the heading, as high as its letter; None where the words leave it no room."""
        heading, _ = self.heading("")
        words = [extent([item]) for item in heading if isinstance(item, Text)]
        middle = (self.space.left + self.space.right) / 2
        top, foot = MARGIN, MARGIN + LETTER_HIGH
        words = [box for box in words if box[1] < foot]
        right = min((box[0] for box in words if box[0] > middle), default=self.space.right) - TEXT
        left = right - (foot - top) * PICTURE[0] / PICTURE[1]
        if any(box[0] < right and box[2] + TEXT > left for box in words):
            return None
        return (left, top, right, foot)

    def flowed(self, places: list[TextPlace], made: Sequence[Sketch] = ()) -> Flowed:
        """The notes as paragraphs; run together where only so they find room. `made`: the sections that are drawn.

        What is written on stands first, each line a table's row below the one above where there is room for that.
        """
        checks, *notes = (runs for runs in (*self._notes, self._untold(made)) if runs)
        flows = (self._flowed(_written(places, checks, pitch), notes) for pitch in (ROW, LINE))
        return next((flowed for flowed in flows if flowed.whole), Flowed([], 0.0, False))

    def _flowed(self, made: tuple[Flowed, list[TextPlace]], notes: list[list[WordRun]]) -> Flowed:
        written, left = made
        if not written.whole or not notes:
            return written
        apart = flow(left, notes)
        said = apart if apart.whole else flow(left, [[run for runs in notes for run in runs]])
        return Flowed([*written.items, *said.items], said.bottom, said.whole)

    @cached_property
    def _notes(self) -> list[list[WordRun]]:
        """What to check, how the figures are meant, what will fool you, what to mind."""
        if not self._all_said:
            self._all_said.extend(self._all_notes())
        checked, general, fooling, minded = self._all_said
        said, mind = ([run for run in runs if run.text not in self.left_out] for runs in (general, minded))
        return [checked, said, fooling, mind]

    def _all_notes(self) -> list[list[WordRun]]:
        """The same, nothing left out."""
        look, fools = self.subject.shown, self.subject.fools()
        within = any(not cut.end for one in self.subject.looks for cut in one.part.cuts)
        minded = [
            WordRun(f"Knife the {'walls' if within else 'ends'}, work in the waste."),
            strong(f"Do not ease an arris within {position(sharp_within(look))} of these marks."),
            WordRun("Clamp the board for every cut; let the tool come to rest before you measure."),
        ]
        fooling = [strong("What will fool you."), *map(WordRun, fools)] if fools else []
        return [checks(self.desk, self.subject.looks), self._origins(), fooling, minded]

    def _origins(self) -> list[WordRun]:
        """How figures are meant and lengths came about; of parts alike whose sums differ each with its letter."""
        runs = origins(self.desk, self.subject.shown)
        told = [sums(look) for look in self.subject.looks]
        if all(said == told[0] for said in told):
            return runs
        kept = [run for run in runs if run.text not in told[0]]
        marks = (look.part.mark for look in self.subject.looks)
        return [*kept, *(WordRun(f"{mark}: {words}") for mark, said in zip(marks, told, strict=True) for words in said)]

    def general(self) -> list[WordRun]:
        """What its notes say beside what is to be checked and what will fool you."""
        _, said, _, minded = self._notes
        return [*said, *minded]

    def draft(self, items: tuple[Item, ...], scale: float | None, made: list[Sketch], more: str = "") -> Draft:
        """The sheet with what its title block needs."""
        words = [scale_words(scale)] if scale else []
        sections = sorted({sketch.scale for sketch in made}, reverse=True)
        if sections:
            words.append(f"sections {', '.join(map(scale_words, sections))}")
        letters, further = self.subject.letters, f", {more}" if more else ""
        title = f"{letters}  {self.subject.title}, {more}" if more else f"{letters}  {self.subject.title}"
        if more and width(title, FIGURE, "medium") > TITLE_WIDE:
            title = f"{letters}  {more}"
        return Draft(
            title=title,
            kind=self.subject.kind,
            sort=PART,
            number=self.subject.number,
            scale=", ".join(words) or "not to scale",
            size=self.size,
            items=items,
            holds=tuple(
                Held(place=place_of(look.part.id), title=f"{look.part.mark} {look.part.id}{further}")
                for look in self.subject.looks
            ),
        )


def _written(places: Sequence[TextPlace], runs: Sequence[WordRun], pitch: float) -> tuple[Flowed, list[TextPlace]]:
    """Words with blanks in lines as far apart as a table's rows, in the first place that holds them; what is left."""
    made = Flowed([], 0.0, False)
    for number, place in enumerate(places):
        lines = list(_lines(runs, place.wide))
        made, y = Flowed([], place.y, True), place.y
        for line in lines:
            one = flow([TextPlace(place.x, y, place.wide, place.bottom)], [line])
            made = Flowed([*made.items, *one.items], one.bottom, made.whole and one.whole)
            y = one.bottom - AFTER - FIRST + pitch
        if made.whole:
            y -= 0.0 if len(lines) > 1 else pitch - LINE
            return made, [replace(place, y=y), *places[number + 1 :]]
    return made, list(places)


def _lines(runs: Sequence[WordRun], wide: float) -> Iterator[list[WordRun]]:
    """Runs in as many lines as they take, each run whole where a line holds it."""
    line: list[WordRun] = []
    for run in runs:
        if line and flow([TextPlace(0.0, 0.0, wide, FIRST + AFTER)], [[*line, run]]).whole is False:
            yield line
            line = []
        line.append(run)
    yield line
