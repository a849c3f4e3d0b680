"""The protocol of joint kinds: what a kind must say so that every other room can use it unseen.

A kind is one file in `joints/` with one class. `settle` searches its makings, `parts` gathers its cuts,
drawings read cuts and notes, the fit reads matings, the order reads motions, set-ups come from its operations;
none of them knows its name. The four live members (`judge`, `makings`,
`matings`, `make`) run in every drag step: aim at 50 us each. The late ones have empty answers here.

Adding a kind: docs/adding-a-joint.md.
"""

from abc import ABC, abstractmethod
from collections.abc import Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Any, ClassVar, Generic

from ..geometry.frames import length
from ..job.options import Options, OptionsT
from ..places import Cure, Edit, Plain
from ..sentences import Length, Name, On, Words, say
from .facts import Cutting, GlueZone, Press, Size
from .model import (
    Board,
    Carry,
    Ease,
    Joint,
    Judgement,
    Making,
    Mating,
    Meeting,
    Piece,
    Touch,
    Ware,
)
from .operations import Operation, sawn
from .pressing import as_it_meets
from .setout import AsCut

OPTION = "an option"  # first step of a path that leads to an option of the joint at hand, wherever the file has it


def asked(form: Words, option: str, value: Plain, way: str = "", more: Mapping[str, Plain] | None = None) -> Cure:
    """A cure that asks for an option of the joint at hand: a kind sees no file, `choose.in_its_table` writes it there.

    It is for refusals (`Judgement.cures`) and for findings of `make` alike.

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
class Glyph:
    """A mark of the live drawing: the joint's own section drawn small, its front edge at the bottom.

    On a grid of 16; paths as SVG writes them.

    Attributes:
        lines, heavy: drawn 1.5 and 3.2 wide, with square ends; `solid` filled.
        rings, discs: radii about the middle.
        size: how large the grid is drawn, px; of the drawing under it, a round of the radius `ground` px is left out.
    """

    lines: str = ""
    solid: str = ""
    heavy: str = ""
    rings: tuple[float, ...] = ()
    discs: tuple[float, ...] = ()
    size: float = 15.0
    ground: float = 0.0


class JointKind(ABC, Generic[OptionsT]):
    """One kind of joint; see the module's text. All members are pure.

    Attributes:
        name: the trade's name, as the job file writes it.
        order: where it stands in lists; equal ones by name.
        serves: the pairs of touches (of side a, of side b) that it can join.
        options: the pydantic model of its options: validates, documents, and makes the page's card.
        codes: of the findings that it alone makes, each from `findings.declare`.
        glyphs: its marks by the words that `marked` gives; "" is the one where none of them fits.
        questions: what `make` answers besides how the boards are joined, as `findings.question` registered it.
        anchored: the option that names what a fixing's screw goes into, an `[anchor.NAME]` of the job; "" for none.
        plainer: options to try, one after the other, where nobody has asked for such a joint and those that the job
            has for its kind do not serve.
    """

    name: ClassVar[str]
    order: ClassVar[int] = 50
    serves: ClassVar[frozenset[tuple[Touch, Touch]]]
    options: ClassVar[type[Options]]
    codes: ClassVar[tuple[str, ...]] = ()
    glyphs: ClassVar[Mapping[str, Glyph]] = MappingProxyType({"": Glyph(discs=(2.0,))})
    questions: ClassVar[tuple[str, ...]] = ()
    anchored: ClassVar[str] = ""
    plainer: ClassVar[tuple[Mapping[str, Plain], ...]] = ({},)

    @abstractmethod
    def judge(self, meeting: Meeting, options: OptionsT) -> Judgement:
        """Say whether the kind can join this meeting, and why not: with the figures, and options by which it could.

        What has no way in or out at all is refused here: `makings` must give one at least.
        """

    @abstractmethod
    def makings(self, meeting: Meeting, options: OptionsT) -> tuple[Making, ...]:
        """Return the ways it can be made, the plainest first, each with its ways apart."""

    @abstractmethod
    def matings(self, meeting: Meeting, options: OptionsT, making: Making) -> tuple[Mating, ...]:
        """Return the pairs of walls that slide past each other."""

    @abstractmethod
    def make(self, meeting: Meeting, options: OptionsT, making: Making) -> Joint[OptionsT]:
        """Return the joint with its cuts, gaps and findings."""

    def worked(self, meeting: Meeting, options: OptionsT) -> OptionsT:
        """Return the options with those left out as the kind takes them here; by itself, the same ones.

        It is asked once a joint that has been judged possible, before `makings`, `matings`, `make` and `eases`, which
        are given its answer and must do with it what they do with the options as asked. `job.options.filled` makes it,
        and `given` still tells what the job says. What has no place here stays left out: a tongue where there is none.
        """
        return options

    def glues(self, options: OptionsT) -> bool:
        """Whether a joint with these options is glued."""
        return False

    def gluing(self, options: OptionsT) -> tuple[tuple[str, Plain], ...]:
        """Return what a `[[joint]]` must say for it to be glued; nothing where it is, or cannot be."""
        return ()

    def held(self, options: OptionsT) -> Words:
        """Return how a joint with these options is held together, in a word or two."""
        return "glued" if self.glues(options) else "dry"

    def follow(self, meeting: Meeting, options: OptionsT, cut: tuple[AsCut, ...]) -> OptionsT:
        """Return the options by which what is not cut yet follows what is; the same ones where nothing need follow.

        One option is changed: where a record differs from what is asked, it is offered as the cure that lets the joint
        be as it is cut, and of two changes at once none is. Of a figure out of reason the options stay as they are.

        Args:
            meeting: of the two boards.
            options: as the job asks for it.
            cut: what is in the wood of this joint; figures may be missing, or be out of reason.
        """
        return options

    def ends(self, joint: Joint[OptionsT]) -> str:
        """Return the board whose end goes home on the face of the other, or into it, which runs past; "" for none.

        By itself the one that ends where boards meet so; at a corner the one whose end says that it goes in.
        """
        meeting = joint.meeting
        if (meeting.a.touch, meeting.b.touch) == (Touch.END, Touch.FACE):
            return meeting.a.body
        return next((cut.body for cut in joint.cuts if cut.end and cut.figures.goes_in), "")

    def eases(self, meeting: Meeting, options: OptionsT, making: Making) -> tuple[Ease, ...]:
        """Return other makings that come apart otherwise, the cheapest first; by itself, all others."""
        others = [other for other in self.makings(meeting, options) if other != making]
        a, b = meeting.key
        return tuple(
            Ease(
                says=say("reverse the slot between {} and {}", Name(a), Name(b))
                if other.front
                else say("make it so: {}", other.name),
                options=(("front", other.front) if other.front else other.word,),
                making=other,
            )
            for other in others
            if other.front or other.word[0]
        )

    def carries(self, joint: Joint[OptionsT]) -> tuple[Carry, ...]:
        """Return what the joint carries as it is made, glued, fastened or dry; by itself, nothing.

        It runs in every drag step too, once for a joint that has changed; `carries` of piece/ has the words for it.
        """
        return ()

    def marked(self, joint: Joint[OptionsT]) -> str:
        """Return which of its `glyphs` marks it on the drawing."""
        return "stopped" if any(cut.figures.stops for cut in joint.cuts) else ""

    def pressed(self, joint: Joint[OptionsT]) -> Press:
        """Return what presses it when it is glued, on which face; by itself, as boards that meet so are pressed."""
        return as_it_meets(joint, self.ends(joint), self.glue(joint))

    def strengthened(self, joint: Joint[OptionsT]) -> Words:
        """Return what holds it besides its own wood, as its title has it behind "with": "keys", "a tongue"; or ""."""
        return ""

    def hardware(self, joint: Joint[OptionsT]) -> tuple[Ware, ...]:
        """Return what must be bought or made for it."""
        return ()

    def glue(self, joint: Joint[OptionsT]) -> tuple[GlueZone, ...]:
        """Return the faces that are glued, named in words, with their grain."""
        return ()

    @abstractmethod
    def operations(self, joint: Joint[OptionsT], boards: Mapping[str, Board]) -> tuple[Operation, ...]:
        """Return the bench work that makes it: each of its cuts in one operation, or in one for each bit.

        Args:
            joint: as made; what is cut already has the figures it was cut to.
            boards: by name, as set out.
        """

    def notes(self, joint: Joint[OptionsT]) -> tuple[Words, ...]:
        """Return notes for its drawing."""
        return ()

    def figures(self, joint: Joint[OptionsT]) -> tuple[Size, ...]:
        """Return figures for its sheet beside those that its cuts give, or in their place; by itself, none."""
        return ()

    def sections(self, joint: Joint[OptionsT]) -> tuple[Cutting, ...]:
        """Return the planes in which its sheet shows it cut, beside the views that every joint has; by itself, none."""
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


def operations_of(piece: Piece, kinds: Mapping[str, JointKind[Any]]) -> tuple[Operation, ...]:
    """All bench work of a piece: each joint's by its kind, and the free ends."""
    boards = piece.board_by_name
    of_joints = (one for joint in piece.joints for one in kinds[joint.kind].operations(joint, boards))
    ends = (sawn([cut], part.board) for part in piece.parts for cut in part.cuts if cut.end and cut.joint is None)
    return (*of_joints, *ends)


def matings_of(kind: JointKind[Any], joint: Joint) -> tuple[Mating, ...]:
    """The matings of a joint as it is: of a slot that is cut, with the width it has and the play that leaves."""
    matings = kind.matings(joint.meeting, joint.options, joint.making)
    made = {cut.key: cut.figures.across for cut in joint.cuts if cut.made}
    if not any(mating.key in made for mating in matings):
        return matings
    asked = {cut.key: cut.figures.across for cut in kind.make(joint.meeting, joint.options, joint.making).cuts}
    return tuple(_as_cut(mating, made.get(mating.key), asked.get(mating.key)) for mating in matings)


def _as_cut(mating: Mating, across: float | None, asked: float | None) -> Mating:
    if across is None or asked is None or across == asked:
        return mating
    wider = length(across - asked)
    return replace(mating, nominal=length(mating.nominal + wider), play=length(mating.play + wider), play_from="as cut")
