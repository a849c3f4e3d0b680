"""What is in the wood stays: recorded cuts take the place of those worked out, and where the job differs is told.

A recorded cut keeps its figures however the job changes. What is not cut yet is worked out anew and follows what
is cut where the trade has it so (`JointKind.follow`). Where the job asks for another figure, beyond the step that
sheets print, that is a stop, with both figures: see `differing`.

A piece without recorded cuts pays nothing for this.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import partial
from typing import TypeAlias

from ..geometry.frames import length
from ..keeping import Keep, Same
from ..lengths import MM_PER, LengthUnit
from ..places import Pair
from .choose import Chosen, chosen_so
from .facts import Opens
from .model import DATUM_END, FAR_END, Board, Cut, Joint, Part
from .parts import cuts_by_board
from .reshaping import (
    EXACT,
    Measured,
    lean_of_end,
    leaning,
    measured,
    moved_along,
    old_cut,
    reshaped,
    unbuilt,
    walls_off,
)
from .setout import AsCut, Made

TOGETHER = 0.1  # cuts that are off by the same, to the step of a place, are off together
# Sheets in inches print places and depths in fractions, coarser than any play: a figure copied from them is as asked.
PRINTED_TO: Mapping[LengthUnit, float] = {"mm": 0.0, "in": MM_PER["in"] / 64}

COPIED = 0.01  # a fraction written as a decimal to three places is off by no more

PartOf: TypeAlias = Callable[[Board, Sequence[Cut]], Part]


@dataclass(frozen=True, slots=True, kw_only=True)
class ComparedCut:
    """A recorded cut beside what the job asks for.

    Attributes:
        one: what is recorded.
        cut: as the job asks for it; None where it asks for none.
        asked: what could be measured of that.
        wood: what is measured of it in the wood, what nobody wrote down taken as worked out now.
        asked_length: of the board over its long points, of an end.
        off: how much further from its datum end the board's cuts lie than the job asks, all together.
        fitting: how many cuts of the pair the record may mean, 1 where it is clear.
        beyond: why the record cannot be, in words; "" where it can.
        unbuilt: the figures by which it differs and from which its shape cannot be made; it is then not used.
        old: whether it is kept as a cut of its own, since the job has no such cut there.
    """

    one: AsCut
    cut: Cut | None = None
    asked: Measured = field(default_factory=Measured)
    wood: Measured = field(default_factory=Measured)
    asked_length: float | None = None
    off: float = 0.0
    fitting: int = 1
    beyond: str = ""
    unbuilt: tuple[str, ...] = ()
    old: bool = False

    @property
    def is_used(self) -> bool:
        """Whether its figures can be, and a shape made from them."""
        return not self.beyond and not self.unbuilt


@dataclass(frozen=True, slots=True, kw_only=True)
class InTheWood:
    """The joints as they are cut, and what recorded cuts say.

    Attributes:
        joints: in their order.
        cuts: of every board, ends that no joint makes among them where they are recorded.
        told: in the order of the file.
        deeper: ends that reach further than their joints have them, or less far, by the joint; each with how deep it
            goes in, where it does, and "to suit" for its `end` where it is not cut yet.
    """

    joints: tuple[Joint, ...]
    cuts: Mapping[str, Sequence[Cut]]
    told: tuple[ComparedCut, ...] = ()
    deeper: Mapping[Pair, tuple[AsCut, ...]] = field(default_factory=dict)

    @property
    def to_suit(self) -> frozenset[Pair]:
        """Joints with such an end that is not cut yet: it will be cut to suit."""
        return frozenset(pair for pair, ends in self.deeper.items() if any(one.end == "to suit" for one in ends))


def following(chosen: Iterable[Chosen], made: Made, keep: Keep) -> tuple[Chosen, ...]:
    """The joints as they will be made, what is not cut yet following what is."""
    recorded = _by_pair(made.cuts)
    return tuple(_following(item, recorded.get(frozenset(item.meeting.key)), keep) for item in chosen)


def _following(item: Chosen, recorded: tuple[AsCut, ...] | None, keep: Keep) -> Chosen:
    if recorded is None:
        return item
    key = (Same(item.meeting), item.kind.name, Same(item.asked), recorded)
    asked = keep.get("follow", key, lambda: item.kind.follow(item.meeting, item.asked, recorded))
    return item if asked is item.asked else chosen_so(item.meeting, item.kind, asked, item.spec, keep)


def _by_pair(cuts: Iterable[AsCut]) -> dict[frozenset[str], tuple[AsCut, ...]]:
    found: dict[frozenset[str], tuple[AsCut, ...]] = {}
    for one in cuts:
        if one.between:
            pair = frozenset(one.between)
            found[pair] = (*found.get(pair, ()), one)
    return found


def reaching(item: Chosen, made: Made, ends: tuple[AsCut, ...], keep: Keep) -> tuple[Chosen, ...]:
    """A joint as it follows an end that reaches further than it has it, or less far; none where it does not follow."""
    recorded = (*_by_pair(made.cuts).get(frozenset(item.meeting.key), ()), *ends)
    followed = _following(item, recorded, keep)
    return () if followed is item else (followed,)


def with_others(wood: InTheWood, again: Mapping[Pair, Joint], keep: Keep) -> InTheWood:
    """What is not cut yet as other joints have it that follow what is; what is cut, and its board's ends, stay."""
    held = {cut.key: cut for own in wood.cuts.values() for cut in own if cut.made or cut.end}
    joints = tuple(_joint(again[joint.key], held, keep) if joint.key in again else joint for joint in wood.joints)
    new = {cut.key: cut for joint in joints if joint.key in again for cut in joint.cuts}
    cuts = {name: [new.get(cut.key, cut) for cut in own] for name, own in wood.cuts.items()}
    return replace(wood, joints=joints, cuts=cuts)


def in_the_wood(
    joints: tuple[Joint, ...],
    asked: Mapping[Pair, Joint],
    boards: Mapping[str, Board],
    made: Made,
    part_of: PartOf,
    units: LengthUnit,
    keep: Keep,
) -> InTheWood:
    """Put recorded cuts in the place of those worked out.

    Args:
        joints: as they follow what is cut.
        asked: those of them that the job itself asks to be made otherwise, by key.
        boards: by name.
        made: what is recorded.
        part_of: makes a part of a board and its cuts.
        units: of the job.
        keep: what may be kept.
    """
    if not made.cuts:
        return InTheWood(joints=joints, cuts=cuts_by_board(joints))
    by_board: dict[str, tuple[AsCut, ...]] = {}
    for one in made.cuts:
        by_board[one.board] = (*by_board.get(one.board, ()), one)
    cuts = cuts_by_board(joints)
    wanted = cuts_by_board(asked.values())
    changed: dict[str, Cut] = {}
    deeper: dict[Pair, tuple[AsCut, ...]] = {}
    told: list[ComparedCut] = []
    printed_to = PRINTED_TO[units]
    for name, recorded in by_board.items():
        if name not in boards:
            told += [ComparedCut(one=one) for one in recorded]
            continue
        own = _as_asked(boards[name], cuts.get(name, ()), wanted.get(name, ()), recorded)
        part = part_of(boards[name], own)
        found = keep.get("as cut", (Same(part), recorded, units), partial(_board, part, recorded, printed_to))
        told += found.told
        changed |= {cut.key: cut for cut in found.cuts}
        for one in found.deeper:
            a, b = one.between
            deeper[a, b] = (*deeper.get((a, b), ()), one)
        free = [cut for cut in found.cuts if cut.joint is None]
        if free:
            cuts[name] = [*cuts.get(name, ()), *free]
    order = {one: number for number, one in enumerate(made.cuts)}
    return InTheWood(
        joints=tuple(_joint(joint, changed, keep) for joint in joints),
        cuts={name: [changed.get(cut.key, cut) for cut in own] for name, own in cuts.items()},
        told=tuple(sorted(told, key=lambda item: order[item.one])),
        deeper=deeper,
    )


def _as_asked(board: Board, cuts: Sequence[Cut], wanted: Sequence[Cut], recorded: Sequence[AsCut]) -> list[Cut]:
    """A board's cuts, each one that is recorded as the job itself asks for it."""
    asked = {cut.key: cut for cut in wanted}
    mine = {cut.key for one in recorded for cut in fitting(board, cuts, one)}
    return [asked.get(cut.key, cut) if cut.key in mine else cut for cut in cuts]


def fitting(board: Board, cuts: Iterable[Cut], one: AsCut) -> list[Cut]:
    """The cuts of a board that a record may mean."""
    if one.end:
        end = DATUM_END if (one.end == "start") != board.flipped else FAR_END
        return [cut for cut in cuts if cut.end == end]
    pair = frozenset(one.between)
    own = [cut for cut in cuts if not cut.end and cut.joint is not None and frozenset(cut.joint) == pair]
    return [cut for cut in own if not one.name or means(one.name, cut)]


def means(written: str, cut: Cut) -> bool:
    """Whether words in a made file, or in a command, mean a cut: its name, or how its key begins, up to a space.

    This is the one place where a key is read, for made files that were written before cuts had names, and for hands.
    """
    return written == cut.name or f"{cut.key} ".startswith(f"{written} ")


def _joint(joint: Joint, changed: Mapping[str, Cut], keep: Keep) -> Joint:
    if not any(cut.key in changed for cut in joint.cuts):
        return joint
    cuts = tuple(changed.get(cut.key, cut) for cut in joint.cuts)
    return keep.get("joint as cut", (Same(joint), *map(Same, cuts)), lambda: replace(joint, cuts=cuts))


# ---- one board


@dataclass(frozen=True, slots=True)
class _Board:
    """Cuts of one board as they were cut, its ends last.

    Attributes:
        deeper: the ends that lie elsewhere than their joints have them; see `InTheWood`.
    """

    cuts: tuple[Cut, ...]
    told: tuple[ComparedCut, ...]
    deeper: tuple[AsCut, ...] = ()


def _board(part: Part, recorded: Sequence[AsCut], printed_to: float) -> _Board:
    """One board with its recorded cuts: they and its datum end are one piece of wood, and lie where they fit best.

    Positions count from the datum end, whose place the joint there would decide, and that place shifts when the
    other board is measured. What crosses the board leaves it no such choice; so the recorded cuts are put where
    most of them meet what they are for, and the datum end lies where that brings it.
    """
    told = [_told_end(part, one) if one.end else _told(part, one, printed_to) for one in recorded]
    sound = [item for item in told if item.cut is not None and item.is_used and not _otherwise(item)]
    off = _offset(sound)
    zero = part.zero - off
    olds = {item.one: old for item in told if (old := _old(part, item, zero)) is not None}
    cuts = {
        item.cut.key: reshaped(part.board, item.cut, zero, replace(item.asked, at=_from(item.asked.at, off)), item.wood)
        for item in sound
        if item.cut is not None and not item.one.end
    }
    ends, deeper = _ends(part, sound, cuts, off)
    cuts |= {cut.key: cut for cut in ends}
    cuts |= {cut.key: cut for cut in olds.values()}
    told = [replace(item, off=off, old=item.one in olds) for item in told]
    return _Board(tuple(cuts.values()), tuple(told), tuple(deeper))


def _otherwise(item: ComparedCut) -> bool:
    """Whether what the job has there opens elsewhere: a cut of another kind, or from the other side."""
    return not item.one.end and item.wood.opens != item.asked.opens


def _old(part: Part, item: ComparedCut, zero: float) -> Cut | None:
    """What is in the wood where the job has no such cut; None where it has, or where the figures cannot be."""
    if item.one.end or item.fitting > 1 or (item.cut is not None and not _otherwise(item)):
        return None
    one = item.one
    wood = Measured(at=one.at, across=one.across, deep=one.deep, stop=one.stop or 0.0, stop_wall=one.stop_wall or 0.0)
    if _beyond(part, Measured(), wood, let_in="face" in one.opens) or (one.across or 0.0) > part.board.length:
        return None
    return old_cut(part.board, one, zero)


def _from(at: float | None, off: float) -> float | None:
    """A place counted from the datum end as it lies, that was counted from where the job has it."""
    return None if at is None else length(at + off)


def _offset(sound: Sequence[ComparedCut]) -> float:
    """How far the board must lie from where the job has it for most recorded cuts to meet what they are for.

    A cut that is wider than asked meets it wherever what is asked lies within its walls; a narrower one with its
    middle. Of the places that suit equally many cuts, the nearest.
    """
    spans = [span for item in sound if (span := _span(item)) is not None]
    places = [place for low, high in spans for place in (low, min(max(low, 0.0), high), high)]
    if not places:
        return 0.0
    best = max(places, key=lambda one: (sum(_suits(one, span) for span in spans), -abs(one), one))
    return length(best) if abs(best) > EXACT else 0.0


def _span(item: ComparedCut) -> tuple[float, float] | None:
    """From where to where the board may lie off for a cut to meet what it is for."""
    off = None if item.cut is None else walls_off(item.cut, item.asked, item.wood)
    if off is None:
        return None
    near, far = off
    return off if near <= far else ((near + far) / 2, (near + far) / 2)


def _suits(place: float, span: tuple[float, float]) -> bool:
    return span[0] - TOGETHER <= place <= span[1] + TOGETHER


def _told(part: Part, one: AsCut, printed_to: float) -> ComparedCut:
    found = fitting(part.board, part.cuts, one)
    if len(found) != 1:
        return ComparedCut(one=one, fitting=len(found))
    (cut,) = found
    asked = measured(part.board, cut, part.zero)
    either = ("face side", "other face")
    opens = asked.opens if not one.opens or (one.opens == "face" and asked.opens in either) else one.opens
    wood = Measured(
        at=_read(one.at, asked.at, printed_to),
        across=_read(one.across, asked.across, 0.0),
        deep=_read(one.deep, asked.deep, printed_to),
        opens=opens,
        lean=asked.lean if one.lean is None else one.lean,
        stop=_read(one.stop, asked.stop, printed_to) or 0.0,
        stop_wall=_read(one.stop_wall, asked.stop_wall, printed_to) or 0.0,
    )
    same_way = opens == asked.opens  # else it is another cut, and no figure of this one is a measure of it
    beyond = _beyond(part, asked, wood, let_in=bool(cut.face)) if same_way else ""
    not_built = unbuilt(cut, asked, wood) if same_way and not beyond else ()
    return ComparedCut(one=one, cut=cut, asked=asked, wood=wood, beyond=beyond, unbuilt=not_built)


def _read(wood: float | None, asked: float | None, printed_to: float) -> float | None:
    """A figure as it is in the wood; one not written down, or copied from a sheet of fractions, is as asked."""
    if wood is None or asked is None:
        return asked if wood is None else wood
    copied = printed_to and abs(wood - printed_to * round(asked / printed_to)) <= COPIED
    return asked if copied else wood


def _beyond(part: Part, asked: Measured, wood: Measured, *, let_in: bool) -> str:
    """Which figure cannot be: it is then not used."""
    board = part.board
    if wood.at is not None and not -EXACT <= wood.at <= max(part.length, board.length) + EXACT:
        return "at"
    if wood.across and asked.across and not asked.across / 2 <= wood.across <= 2 * asked.across:
        return "across"
    room = board.thickest if let_in else board.depth
    if wood.deep is not None and asked.opens != "end" and wood.deep > room + EXACT:
        return "deep"
    if wood.stop + wood.stop_wall >= board.depth:
        return "stop"
    return ""


def _told_end(part: Part, one: AsCut) -> ComparedCut:
    found = fitting(part.board, part.cuts, one)
    cut = found[0] if found else None
    lean = lean_of_end(cut) if cut is not None else 0.0
    long = one.length if one.length is not None else part.length
    return ComparedCut(
        one=one,
        cut=cut,
        asked=Measured(lean=lean, opens="end"),
        wood=Measured(lean=lean if one.lean is None else one.lean, opens="end"),
        asked_length=part.length,
        beyond="" if part.length / 2 <= long <= 2 * part.length else "length",
    )


def _ends(
    part: Part, sound: Sequence[ComparedCut], made: Mapping[str, Cut], off: float
) -> tuple[list[Cut], list[AsCut]]:
    """Both ends where the recorded cuts and the recorded length bring them, with what is worked on them.

    Wood only grows shorter: of the two lengths recorded with the ends the lesser holds.
    """
    ends = [item for item in sound if item.one.end]
    lengths = [item.one.length for item in ends if item.one.length is not None]
    far = min(lengths) - off - part.length if lengths else 0.0
    by = {DATUM_END: -off, FAR_END: far if abs(far) > EXACT else 0.0}
    recorded = {cut.key: item for item in ends for cut in fitting(part.board, part.cuts, item.one)}
    joints = {cut.joint: cut.end for cut in part.cuts if cut.end and cut.joint is not None}
    found, deeper = [], []
    for cut in part.cuts:
        on_end = cut.figures.opens is Opens.END and cut.joint in joints
        end = cut.end or (joints[cut.joint] if on_end and cut.joint is not None else 0)
        new, item = made.get(cut.key, cut), recorded.get(cut.key)
        if end and by[end]:
            new = moved_along(new, by[end])
        if cut.end and by[cut.end] and cut.joint is not None:
            deep = None if cut.figures.deep is None else cut.figures.deep + cut.end * by[cut.end]
            word = "to suit" if item is None else "cut"
            deeper.append(AsCut(board=part.id, between=cut.joint, end=word, deep=deep, opens="end"))
        if item is not None:
            if abs(item.wood.lean - item.asked.lean) > EXACT:
                new = leaning(part.board, new, item.wood.lean)
            new = replace(new, made=True)
        if new is not cut:
            found.append(new)
    return found, deeper
