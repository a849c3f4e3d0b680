"""Joints that differ in figures alone share one drawing: what differs stands in it as a letter, and in a table.

Two sets of joints made alike are of one form where all that is printed of them is the same once every figure is left
out: kind, hand, the cuts and the edges they open to, the order of work, the drawings line by line. Each figure that
differs gets a letter where it is drawn, and a column of the table, a row for each set; how it comes about is told in
letters at the column's head. Where a figure of a drawing is in no column, or the columns have no room side by side,
the sets keep a detail each.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from string import ascii_lowercase
from typing import TypeAlias

from ....geometry.views import FACES, Surface
from ....piece.model import WALL, Joint, Side
from ....sentences import Length, Sentence, Several, Value, Voice, Words, renamed, told
from ...kit.view import View
from ...lettering import known
from ...looks import Desk
from ...naming import LEAST, Called, position, printed_units, thickness, written_as
from ...standard import STEP
from ..page.table import Cell, Column, Row, bold, columns_for, head_high, unfolded
from ..part.words.together import lettered as letters_of
from .figures.sums import COMES_TO
from .groups import BARE, AlikeJoints, hand, printed, tags
from .roles import JointFigure, Roles

LETTERS = [letter for letter in ascii_lowercase if letter not in "ilo"]  # these read as figures
MOST_HEAD = 6 * STEP  # of the table of what differs
PARTS = ("the one", "the other")
NAMELESS = dict.fromkeys(FACES, Called("this", "face"))
NAMELESS |= {Surface.DATUM: Called("datum", "end"), Surface.FAR: Called("far", "end")}
Values: TypeAlias = tuple[Fraction | str, ...]
Drawn: TypeAlias = Callable[[Desk, Roles, bool], Sequence[View]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Lettered:
    """A figure that differs: its letter, "" where it is not drawn; the head of its column; what it is in each set."""

    letter: str
    head: str
    values: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Shared:
    """Joints that share one detail, as sets of such as are made alike; the first of the first is drawn.

    Attributes:
        figures: those that are the same in all.
        columns: those that differ.
        letters: of what differs, by its values in the sets.
    """

    sets: tuple[AlikeJoints, ...]
    figures: tuple[JointFigure, ...]
    columns: tuple[Lettered, ...] = ()
    letters: Mapping[Values, str] = field(default_factory=dict)

    @property
    def first(self) -> Roles:
        """The joint that is drawn."""
        return self.sets[0].first

    @property
    def roles(self) -> tuple[Roles, ...]:
        """Who is who in each of them."""
        return tuple(one for some in self.sets for one in some.roles)

    @property
    def joints(self) -> list[Joint]:
        """All of them."""
        return [one.joint for one in self.roles]


def by_itself(some: AlikeJoints) -> Shared:
    """One set alone."""
    return Shared(sets=(some,), figures=some.figures)


def shared(desk: Desk, every: Iterable[AlikeJoints], drawn: Drawn, room: float) -> list[Shared]:
    """Sets of one form together, in the order of the first of each.

    Args:
        drawn: the views of a joint; as that of several or as its own.
        room: how wide the table of what differs may be.
    """
    forms = _Forms(desk, drawn)
    found: list[Shared] = []
    for some in every:
        places = (place for place, other in enumerate(found) if forms.are_one(other.sets[0], some))
        for place in places:
            both = _together(desk, (*found[place].sets, some), forms, room)
            if both is not None:
                found[place] = both
                break
        else:
            found.append(by_itself(some))
    return found


def views_of(desk: Desk, group: Shared, drawn: Drawn) -> list[View]:
    """The views of the joint that is drawn, a letter for each length that is not the same in all."""
    several = len(group.roles) > 1
    if len(group.sets) == 1:
        return list(drawn(desk, group.first, several))
    every = zip(*(_written(desk, some.first, drawn)[1] for some in group.sets), strict=True)
    letters = (group.letters.get(_values(figures), figures[0]) for figures in every)
    with written_as(lambda _: next(letters)):
        return list(drawn(desk, group.first, several))


def table(desk: Desk, group: Shared, room: float) -> tuple[list[Column], list[Row]]:
    """What differs: a row for each set, with a box and a blank."""
    titles = ["joint", *(f"{one.letter} {one.head}".strip() for one in group.columns), "set", "measured"]
    rows: list[Row] = []
    for place, some in enumerate(group.sets):
        values = (bold(one.values[place]) for one in group.columns)
        rows.append((bold(known(tags(desk, some.roles))), *values, Cell(tick=True), Cell()))
    return columns_for(titles, rows, room), rows


# --- the form of what is printed -----------------------------------------------------------------


@dataclass
class _Forms:
    """The forms of sets, each worked out once."""

    desk: Desk
    drawn: Drawn
    _said: dict[tuple[str, str], tuple[object, ...]] = field(default_factory=dict)
    _drawn: dict[tuple[str, str], tuple[list[str], list[str]]] = field(default_factory=dict)

    def are_one(self, one: AlikeJoints, other: AlikeJoints) -> bool:
        """Whether the same is said of two sets, lengths left out; what a screw reaches through is no form."""
        return WALL not in one.first.joint.key and self.said(one) == self.said(other)

    def said(self, some: AlikeJoints) -> tuple[object, ...]:
        """What is said of a set without its lengths, and how its boards stand."""
        if some.first.joint.key not in self._said:
            self._said[some.first.joint.key] = _form(some)
        return self._said[some.first.joint.key]

    def written(self, some: AlikeJoints) -> tuple[list[str], list[str]]:
        """What stands in its views without its lengths, and these."""
        if some.first.joint.key not in self._drawn:
            self._drawn[some.first.joint.key] = _written(self.desk, some.first, self.drawn)
        return self._drawn[some.first.joint.key]


def _form(some: AlikeJoints) -> tuple[object, ...]:
    roles = some.first
    kind, at, form, _, cuts, _, _ = printed(roles)
    sides = [roles.joint.meeting.side(name) for name in roles.names]
    rows = [tuple(plain(roles, _bare(words)) for words in (row.name, row.what, row.sum)) for row in some.figures]
    said = [[(plain(roles, _bare(run.together)), run.blank) for run in runs] for runs in some.settled_form]
    return kind, at, form, cuts, _stands(sides), hand(roles), rows, said


def _stands(sides: Sequence[Side]) -> tuple[int, ...]:
    """Which of two boards stands out at the front and at the wall: 1 the first, -1 the second, 0 neither."""
    (one, other) = sides
    offs = (one.front - other.front, one.back - other.back)
    return tuple(0 if abs(off) < LEAST else 1 if off > 0 else -1 for off in offs)


def plain(roles: Roles, words: Words) -> str:
    """A sentence as it is printed, its boards by the part they have."""
    parts = dict(zip(roles.names, PARTS, strict=False))
    return told(renamed(words, lambda name: parts.get(name, name)), Voice(printed_units(), bare=True))


def _bare(words: Words) -> Words:
    """A sentence without its lengths."""
    return _written_otherwise(words, lambda _: BARE)


def _lengths(words: Words) -> list[str]:
    """The lengths of a sentence in their order, as printed."""
    found: list[str] = []
    _written_otherwise(words, _noted(found))
    return found


def _noted(found: list[str]) -> Callable[[str], str]:
    """Notes lengths, and leaves them out."""

    def way(figure: str) -> str:
        found.append(figure)
        return BARE

    return way


def _written_otherwise(words: Words, way: Callable[[str], str]) -> Words:
    """A sentence with its lengths written as `way` gives them."""
    return words if isinstance(words, str) else replace(words, values=tuple(_value(one, way) for one in words.values))


def _value(value: Value, way: Callable[[str], str]) -> Value:
    match value:
        case Length():
            return way(value.said(Voice(printed_units(), bare=True)))
        case Sentence():
            return replace(value, values=tuple(_value(one, way) for one in value.values))
        case Several(items, last, apart):
            return Several(tuple(_value(one, way) for one in items), last, apart)
        case _:
            return value


def _written(desk: Desk, roles: Roles, drawn: Drawn) -> tuple[list[str], list[str]]:
    """What stands in a joint's views, boards by their parts, faces by no name and no length told; and the lengths."""
    lengths: list[str] = []
    with written_as(_noted(lengths)):
        views = drawn(_nameless(desk, roles), roles, True)
    return [text for view in views for text in (str(view.scale), *_texts(view, desk.book.voice))], lengths


def _texts(view: View, voice: Voice) -> Iterator[str]:
    yield from view.says
    yield from (text for one in view.dimensions for mark in one.marks for text in (mark.figure, mark.more))
    yield from (text for label in view.labels for text in (told(label.says, voice), *label.more))


def _nameless(desk: Desk, roles: Roles) -> Desk:
    """The desk with a joint's boards called by their parts, their faces and ends alike."""
    other = Desk(desk.book, kept=desk.kept)
    other.marks = {**desk.marks, **dict(zip(roles.names, PARTS, strict=False))}
    other.looks = {**desk.looks, **{name: desk.looks[name].called(NAMELESS) for name in roles.names}}
    return other


# --- sets together -------------------------------------------------------------------------------


def _together(desk: Desk, sets: tuple[AlikeJoints, ...], forms: _Forms, room: float) -> Shared | None:
    """These sets as one detail; None where their drawings are not alike, or what differs has no room."""
    texts, lengths = zip(*map(forms.written, sets), strict=True)
    if any(one != texts[0] for one in texts) or len({len(one) for one in lengths}) != 1:
        return None
    differ = _Differing(desk, sets)
    if not all(differ.has(values) for figures in zip(*lengths, strict=True) if _differ(values := _values(figures))):
        return None
    if len(differ.columns) > len(LETTERS):
        return None
    made = Shared(sets=sets, figures=tuple(differ.same), columns=tuple(differ.columns), letters=differ.letters)
    return made if _has_room(desk, made, room) else None


def _has_room(desk: Desk, group: Shared, room: float) -> bool:
    """Whether no figure of the table of what differs goes on in a second line, and its head in no more than a few."""
    columns, rows = table(desk, group, room)
    if head_high(columns) > MOST_HEAD:
        return False
    named_once = [(Cell(), *row[1:]) for row in rows]
    return sum(column.wide for column in columns) <= room + LEAST and len(unfolded(columns, named_once)) == len(rows)


def _values(figures: Iterable[str]) -> Values:
    """Lengths as they are told, comparable however many noughts they end on; what is no figure stays as it is."""
    return tuple(map(_exact, figures))


def _exact(figure: str) -> Fraction | str:
    whole, _, part = figure.rpartition(" ")
    try:
        return Fraction(part) + (Fraction(whole) if whole else 0)
    except ValueError:
        return figure


def _differ(values: Values) -> bool:
    return len(set(values)) > 1


class _Differing:
    """The figures of several sets: those that are the same, and the columns of those that differ."""

    def __init__(self, desk: Desk, sets: tuple[AlikeJoints, ...]) -> None:
        self.desk, self.sets = desk, sets
        self.letters: dict[Values, str] = {}
        self.columns: list[Lettered] = []
        self.same: list[JointFigure] = []
        self.of: Words = ""  # what the last column is measured on
        self.names = dict(zip(sets[0].first.names, map(self._marks, range(2)), strict=False))
        self.sizes = {_values(values): (head, values) for head, values in self._of_boards()}
        for rows in zip(*(one.figures for one in sets), strict=True):
            self._row(rows)

    def has(self, values: Values) -> bool:
        """Whether a column has these values; a size of the boards is given its own."""
        if values not in self.letters and values in self.sizes:
            self._column(*self.sizes[values])
        return values in self.letters

    def _marks(self, place: int) -> str:
        """The letters of all boards that have one part in their joints."""
        there = {self.desk.marks[roles.names[place]] for one in self.sets for roles in one.roles}
        return letters_of([mark for mark in self.desk.marks.values() if mark in there])

    def _of_boards(self) -> Iterator[tuple[str, tuple[str, ...]]]:
        """Sizes of the boards and how they stand to each other: what they are, and as printed of each set."""
        every = [[one.first.joint.meeting.side(name) for name in one.first.names] for one in self.sets]
        for place, name in enumerate(self.names.values()):
            yield f"{name} thick, where it meets", tuple(thickness(sides[place].thickness) for sides in every)
            yield f"{name} edge to edge", tuple(position(sides[place].front - sides[place].back) for sides in every)
        yield "between front edges", tuple(position(abs(one.front - other.front)) for one, other in every)
        yield "between wall edges", tuple(position(abs(one.back - other.back)) for one, other in every)

    def _row(self, rows: Sequence[JointFigure]) -> None:
        """A figure that is the same in all; or its column, and before it those of what its sum has of its own."""
        values = tuple(row.value for row in rows)
        sums = list(zip(*(_lengths(row.sum) for row in rows), strict=True))
        if not _differ(values) and not any(_differ(_values(figures)) for figures in sums):
            self.same.append(rows[0])
            return
        for figures in sums:
            if _differ(_values(figures)) and not self.has(_values(figures)):
                self._column("", figures)
        how = self._in_letters(rows[0].sum, sums)
        if isinstance(how, Sentence) and how.form == COMES_TO:  # the sum has a column, and this one what is set of it
            self._name(_values(sums[-1]), self._told(_first(how)))
            how = ""
        name = self._told(rows[0].size) if rows[0].of == self.of else self._told(rows[0].name)
        self.of = rows[0].of
        self._column(": ".join(text for text in (name, self._told(how)) if text), values)

    def _in_letters(self, words: Words, lengths: Sequence[Sequence[str]]) -> Words:
        """A sum with a letter for each length that differs."""
        letters = (self.letters.get(_values(figures), figures[0]) for figures in lengths)
        return _written_otherwise(words, lambda _: next(letters))

    def _name(self, values: Values, head: str) -> None:
        """Give a column its head."""
        for place, one in enumerate(self.columns):
            if one.letter and one.letter == self.letters.get(values):
                self.columns[place] = replace(one, head=one.head or head)

    def _told(self, words: Words) -> str:
        """Words of all boards that have their part."""
        return known(told(words, Voice(printed_units(), self.names, bare=True)))

    def _column(self, head: str, printed: tuple[str, ...]) -> None:
        """A column, with a letter if it differs; what has the values of one that is there already shares it."""
        values = _values(printed)
        if values in self.letters:
            place = next(at for at, one in enumerate(self.columns) if one.letter == self.letters[values])
            one = self.columns[place]
            self.columns[place] = replace(one, head=f"{one.head}; {head}" if one.head else head)
            return
        if _differ(values):
            self.letters[values] = LETTERS[len(self.letters) % len(LETTERS)]
        self.columns.append(Lettered(letter=self.letters.get(values, ""), head=head, values=printed))


def _first(words: Sentence) -> Words:
    """The first of what stands in a sentence."""
    one = words.values[0]
    return one if isinstance(one, Sentence) else str(one)
