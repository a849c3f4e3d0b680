"""Set-ups shared over the whole job: cuts that one guide, bit or saw angle makes, on whatever board they are.

The letter says the operation: R router or saw across the face, D drill, M saw tilted for a mitre or a bevel, K keys
and tongues at a corner. Two cuts share a set-up where all that is set is the same as printed: tool, width across the
walls, depth, where it stops, the lean and its hand.

The hand of a lean is seen on the face that the guide is clamped to, the edge that the slot opens to towards you:
the walls go LEFT or RIGHT as they go down. It is lean x edge. Turning the board end over end keeps it, so it is the
same from either face, and a slot open to the front of one board may share its guide with one open to the wall of
another. What opens to both edges, or to none, is worked with the face edge (the front) towards you.

Worked example: a wall leans 9 degrees to the far end at +c. Looked at from +c with the front towards you the datum
end lies left, and the walls go down to the left; from -c the datum end lies right, and they go down to the left too.

A set-up takes its number from the youngest board that it cannot do without: of a cut's own board and the one that
enters it the one with the later letter; of several cuts the one that can be made first counts. So a board with the
last letter gets new set-ups behind all others and renames none: one added at the end of the file, or, once letters
are pinned, anywhere in it.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from .....geometry.shapes import Bore, HalfSpace, Prism
from .....geometry.views import Surface
from .....piece.model import DATUM_END, FAR_END, Cut
from ....looks import Desk, Look, is_bored
from ....naming import angle, depth, position, printed_units, width
from .details import between_words, edges_open, places_words, run_words
from .facts import LEAST_LEAN
from .sums import how_said

WORDS = {"R": "router or saw across the face", "D": "drill", "M": "saw tilted", "K": "keys and tongues at a corner"}
OPERATIONS = tuple(WORDS)

LEAST = 1e-6

Key: TypeAlias = tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Use:
    """One cut made with a set-up.

    Attributes:
        mark: the part's letter.
        number: of the cut on the part's sheet; None for a free end, which `end` then names: "lower end".
    """

    mark: str
    number: int | None
    end: str
    key: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Setup:
    """One set-up.

    Attributes:
        name: "R1".
        does: what it makes, in words.
        across, lean, deep, stop: as printed; "" where nothing is set. The lean with its hand: "8° LEFT".
        first: a cut of it, and `look` its part.
        uses: in the order of the parts' letters.
    """

    name: str
    does: str
    across: str
    lean: str
    deep: str
    stop: str
    first: Cut
    look: Look
    uses: tuple[Use, ...]

    @property
    def operation(self) -> str:
        """Its letter."""
        return self.name[0]

    @property
    def hand(self) -> str:
        """LEFT or RIGHT, for walls that lean; else ""."""
        word = self.lean.rpartition(" ")[2]
        return word if word in ("LEFT", "RIGHT") else ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Setups:
    """All set-ups of a job, and the name of each cut's by the cut's key."""

    all: tuple[Setup, ...]
    of: Mapping[str, str]


def setups(desk: Desk) -> Setups:
    """The set-ups as named on every sheet; worked out once a desk and unit."""
    key = f"set-ups in {printed_units()}"
    if key not in desk.kept:
        desk.kept[key] = _named(desk)
    found: Setups = desk.kept[key]
    return found


def _named(desk: Desk) -> Setups:
    groups: dict[Key, list[tuple[Look, Cut]]] = {}
    for look in sorted(desk.looks.values(), key=lambda look: (len(look.part.mark), look.part.mark)):
        for cut in look.part.cuts:
            if cut.is_old:
                continue  # nobody makes it any more
            if (key := key_of(look, cut)) is not None:
                groups.setdefault(key, []).append((look, cut))
    age = _ages(desk)
    ranked = sorted(groups.items(), key=lambda group: (OPERATIONS.index(group[0][0]), min(map(age, group[1]))))
    made: list[Setup] = []
    for key, cuts in ranked:
        number = 1 + sum(1 for setup in made if setup.operation == key[0])
        made.append(_setup(f"{key[0]}{number}", key, cuts))
    return Setups(all=tuple(made), of={use.key: setup.name for setup in made for use in setup.uses})


def _setup(name: str, key: Key, cuts: list[tuple[Look, Cut]]) -> Setup:
    _, does, across, lean, deep, stop, *_ = key
    (look, first), *_ = cuts
    uses = tuple(
        Use(mark=at.part.mark, number=at.numbers.get(cut.key), end=_end_words(at, cut), key=cut.key) for at, cut in cuts
    )
    return Setup(
        name=name, does=does, across=across, lean=lean, deep=deep, stop=stop, first=first, look=look, uses=uses
    )


def _end_words(look: Look, cut: Cut) -> str:
    ends = {DATUM_END: Surface.DATUM, FAR_END: Surface.FAR}
    return look.names.words[ends[cut.end]] if cut.end else ""


def _ages(desk: Desk) -> Callable[[tuple[Look, Cut]], tuple[int, int, int]]:
    """How late the letters are of the boards that a cut needs, then its own board's and its own place on it."""
    looks = sorted(desk.looks, key=lambda name: (len(desk.marks[name]), desk.marks[name]))
    places = {name: number for number, name in enumerate(looks)}

    def age(made: tuple[Look, Cut]) -> tuple[int, int, int]:
        look, cut = made
        own = places.get(cut.body, len(places))
        needed = [places[name] for name in (cut.joint or ()) if name in places]
        return max([own, *needed]), own, look.part.cuts.index(cut)

    return age


# --- what must be the same -----------------------------------------------------------------------


def key_of(look: Look, cut: Cut) -> Key | None:
    """All that is set for a cut, as printed: letter, what, width, lean, depth, stop, tool; None for a plain end."""
    lean = abs(cut.figures.lean)
    if cut.end:
        planes = [shape for shape in cut.shapes if isinstance(shape, HalfSpace)]
        part = "" if any(abs(plane.normal[1]) > LEAST for plane in planes) else "in part of the width"
        return None if lean <= LEAST_LEAN else ("M", "mitre or bevel", "", angle(lean), "", part, cut.tool)
    if is_bored(cut):
        return _bored(look, cut)
    prisms = [shape for shape in cut.shapes if isinstance(shape, Prism)]
    across = "" if cut.figures.across is None else width(cut.figures.across)
    deep = "" if cut.figures.deep is None else depth(cut.figures.deep)
    if cut.figures.opens == "end":
        corner = angle(cut.figures.between_faces)
        return ("K", cut.kind, across, f"corner {corner}", deep, _spread(look, prisms), how_said(cut), cut.tool)
    leaning = f"{angle(lean)} {hand_of(look, cut)}" if lean > LEAST_LEAN else ""
    stop = run_words(look, prisms[0]) if cut.face and prisms else ""
    does = "slot" if not cut.face else f"housing, {cut.tool.partition(':')[0]}" if leaning else "housing"
    return ("R", does, across, leaning, deep, stop, cut.tool)


def hand_of(look: Look, cut: Cut) -> str:
    """Where leaning walls go as they go down, the edge they open to towards you: LEFT or RIGHT."""
    (prism, *_) = [shape for shape in cut.shapes if isinstance(shape, Prism)]
    at_wall, at_front = edges_open(look, prism)
    edge = -1.0 if at_wall and not at_front else 1.0
    return "LEFT" if cut.figures.lean * edge > 0 else "RIGHT"


def _bored(look: Look, cut: Cut) -> Key:
    """Holes of the same bits, stops and places; a guide set to the middle of an edge asks for the same thickness."""
    bore = next(shape for shape in cut.shapes if isinstance(shape, Bore))
    steps = zip(bore.profile, bore.profile[1:], strict=False)
    sizes = [(position(diameter), position(bottom)) for (_, diameter), (bottom, _) in steps]
    across, deep = (", ".join(words) for words in zip(*sizes, strict=True))
    into_face = abs(bore.direction[1]) > abs(bore.direction[0]) and abs(bore.direction[2]) < abs(bore.direction[1])
    thick = "" if into_face else f"in {position(look.part.board.thickness_at(bore.start[0]))} thick"
    places = _across(look, cut)
    return ("D", cut.kind, across, "", deep, thick, places, cut.tool)


def _across(look: Look, cut: Cut) -> str:
    """Where holes stand across the board; the end or the face they are in is nothing that is set."""
    return places_words(look, cut).partition(" from ")[0]


def _spread(look: Look, prisms: Sequence[Prism]) -> str:
    """Where across the board pockets lie, or from where to where a groove runs, from the face edge."""
    if len(prisms) == 1:
        return between_words(look, prisms[0])
    whole = look.part.board.depth
    middles = sorted(whole - (prism.low + prism.high) / 2 for prism in prisms)
    return f"at {', '.join(map(position, middles))}"
