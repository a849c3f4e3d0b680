"""The protocol of joint kinds: what a kind must say so that every other room can use it unseen.

A kind is one file in `joints/` with one class. `settle` searches its hands, `parts` gathers its cuts,
drawings read cuts and notes, the fit reads matings, the order reads motions, the frame reads springs, the
workshop reads operations; none of them knows its name. The four live members (`judge`, `hands`,
`matings`, `make`) run in every drag step: aim at 50 us each. The late ones have empty answers here.

Adding a kind: docs/adding-a-joint.md.
"""

from abc import ABC, abstractmethod
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any, ClassVar, Generic, TypeVar

from ..geometry.frames import length
from ..job.model import Timber
from ..job.options import Options
from ..places import Cure, Edit, Plain
from ..sentences import Length, Name, Words, say
from ..sentences import Side as On
from .model import (
    Carry,
    Ease,
    GlueFace,
    Hand,
    Hardware,
    Joint,
    Judgement,
    Mating,
    Meeting,
    Touch,
)
from .setout import AsCut

OptionsT = TypeVar("OptionsT", bound=Options)
OPTION = "an option"  # first step of a path that leads to an option of the joint at hand, wherever the file has it


def asked(form: Words, option: str, value: Plain, way: str = "", more: Mapping[str, Plain] | None = None) -> Cure:
    """A cure that asks for an option of the joint at hand: a kind sees no file, `choose.in_its_table` writes it there.

    Args:
        form: of its label, as `say` takes it: a constant with {} where the value is told, if it is a number; else the
            whole label.
        option: by its name.
        value: as written; with a `way` a length in mm, rounded to what is printed: down "-" or up "+".
        way: see there.
        more: other options that must change with it, as written.
    """
    edits = ((option, way, value), *((name, "", other) for name, other in (more or {}).items()))
    return Cure(
        label=say(form, _told(value, way)) if isinstance(form, str) and isinstance(value, (int, float)) else form,
        edits=tuple(Edit(action="set", path=(OPTION, name, to), value=written) for name, to, written in edits),
    )


def _told(value: float, way: str) -> Length | str:
    return Length(value, side={"-": On.DOWN, "+": On.UP}[way]) if way else format(value, "g")


@dataclass(frozen=True, slots=True, kw_only=True)
class Spring:
    """Stiffness of a joint about and along one axis, with how sure it is.

    Attributes:
        axis: "along", "across", "out" for slip, the same with "turn " in front for rotation.
        low, likely, high: in N/mm, or N mm/rad for a turn.
        source: where the figures come from.
    """

    axis: str
    low: float
    likely: float
    high: float
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class StrengthCheck:
    """One demand against one capacity: guidance with its assumptions, never "complies"."""

    name: str
    demand: float
    capacity: float
    unit: str
    source: str
    assumptions: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """One way to carry out an operation.

    Attributes:
        process: "router on a guide", "hand saw and chisel" ...
        needs: what the tool must be able to do, as name and figure ("reach", 46.4).
        setup: operations with an equal key share one set-up.
    """

    process: str
    needs: tuple[tuple[str, float], ...]
    setup: tuple[object, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Operation:
    """A step at the bench that makes one or more cuts.

    Attributes:
        key: unique in the piece.
        cuts: keys of the cuts it makes.
        ways: alternatives, the first one preferred.
        after: keys of operations, or "glued:UNIT", that must come first.
    """

    key: str
    cuts: tuple[str, ...]
    ways: tuple[Way, ...]
    after: tuple[str, ...] = ()


class JointKind(ABC, Generic[OptionsT]):
    """One kind of joint; see the module's text. All members are pure.

    Attributes:
        name: the trade's name, as the job file writes it.
        order: where it stands in lists; equal ones by name.
        serves: the pairs of touches (of side a, of side b) that it can join.
        options: the pydantic model of its options: validates, documents, and makes the page's card.
        questions: what `make` answers besides how the boards are joined, as `findings.question` registered it.
    """

    name: ClassVar[str]
    order: ClassVar[int] = 50
    serves: ClassVar[frozenset[tuple[Touch, Touch]]]
    options: ClassVar[type[Any]]
    questions: ClassVar[tuple[str, ...]] = ()

    @abstractmethod
    def judge(self, meeting: Meeting, options: OptionsT) -> Judgement:
        """Say whether the kind can join this meeting, and why or why not."""

    @abstractmethod
    def hands(self, meeting: Meeting, options: OptionsT) -> tuple[Hand, ...]:
        """Return the ways it can be made, the plainest first, each with its ways apart."""

    @abstractmethod
    def matings(self, meeting: Meeting, options: OptionsT, hand: Hand) -> tuple[Mating, ...]:
        """Return the pairs of walls that slide past each other."""

    @abstractmethod
    def make(self, meeting: Meeting, options: OptionsT, hand: Hand) -> Joint:
        """Return the joint with its cuts, gaps and findings."""

    def follow(self, meeting: Meeting, options: OptionsT, cut: tuple[AsCut, ...]) -> OptionsT:
        """Return the options by which what is not cut yet follows what is; the same ones where nothing need follow.

        Args:
            meeting: of the two boards.
            options: as the job asks for it.
            cut: what is in the wood of this joint; figures may be missing, or be out of reason.
        """
        return options

    def eases(self, meeting: Meeting, options: OptionsT, hand: Hand) -> tuple[Ease, ...]:
        """Return other ways of making it that come apart otherwise, the cheapest first; by itself, the other hands."""
        others = [other for other in self.hands(meeting, options) if other != hand]
        a, b = meeting.key
        return tuple(
            Ease(
                says=say("reverse the slot between {} and {}", Name(a), Name(b))
                if other.front
                else say("make it so: {}", other.name),
                options=(("front", other.front) if other.front else other.word,),
                hand=other,
            )
            for other in others
            if other.front or other.word[0]
        )

    def carries(self, joint: Joint) -> tuple[Carry, ...]:
        """Return what the joint carries as it is made, glued, fastened or dry; by itself, nothing.

        It runs in every drag step too, once for a joint that has changed; `carries` of piece/ has the words for it.
        """
        return ()

    def hardware(self, joint: Joint) -> tuple[Hardware, ...]:
        """Return what must be bought or made for it."""
        return ()

    def glue(self, joint: Joint) -> tuple[GlueFace, ...]:
        """Return the faces that are glued."""
        return ()

    def springs(self, joint: Joint, timbers: Mapping[str, Timber]) -> tuple[Spring, ...]:
        """Return its stiffnesses; empty where nothing is known."""
        return ()

    def strength(
        self, joint: Joint, timbers: Mapping[str, Timber], demand: Mapping[str, float]
    ) -> tuple[StrengthCheck, ...]:
        """Return its checks under a demand (`shear_n`, `pull_n`, `moment_nmm`)."""
        return ()

    def operations(self, joint: Joint) -> tuple[Operation, ...]:
        """Return the bench work that makes it."""
        return ()

    def notes(self, joint: Joint) -> tuple[Words, ...]:
        """Return notes for its drawing."""
        return ()


class Kinds(Mapping[str, JointKind[Any]]):
    """The registered kinds by name, handed in by whoever puts the rooms together."""

    def __init__(self, kinds: Mapping[str, JointKind[Any]]) -> None:
        self._kinds = dict(kinds)

    def __getitem__(self, name: str) -> JointKind[Any]:
        return self._kinds[name]

    def __iter__(self) -> Any:
        return iter(self._kinds)

    def __len__(self) -> int:
        return len(self._kinds)


def matings_of(kind: JointKind[Any], joint: Joint) -> tuple[Mating, ...]:
    """The matings of a joint as it is: of a slot that is cut, with the width it has and the play that leaves."""
    options = kind.options.model_construct(**dict(joint.options))
    matings = kind.matings(joint.meeting, options, joint.hand)
    made = {cut.key: cut.figures.across for cut in joint.cuts if cut.made}
    if not any(mating.key in made for mating in matings):
        return matings
    asked = {cut.key: cut.figures.across for cut in kind.make(joint.meeting, options, joint.hand).cuts}
    return tuple(_as_cut(mating, made.get(mating.key), asked.get(mating.key)) for mating in matings)


def _as_cut(mating: Mating, across: float | None, asked: float | None) -> Mating:
    if across is None or asked is None or across == asked:
        return mating
    wider = length(across - asked)
    return replace(mating, nominal=length(mating.nominal + wider), play=length(mating.play + wider), play_from="as cut")
