"""From a job to the piece: set out, find the meetings, choose, settle, make.

Each step is a pure function of frozen values and is kept by them, so an edit repeats only the work whose
values changed; nothing after `settle` changes the piece. Only its parts show that a board is longer than its
stock: it is then taken apart, and the steps are taken once more.
"""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache, partial

from ..asking import Answers, put_to, unanswered
from ..findings import Finding, NotChecked
from ..job.model import BoardSpec, Job, Unit
from ..keeping import Keep, Same
from ..lengths import LengthUnit
from ..places import Pair
from ..sentences import say
from ..shop.model import Shop
from . import checks
from .as_cut import ComparedCut, following, in_the_wood, reaching, with_others
from .bores import bores_near_cuts
from .choose import JOINTS, NOT_JOINED, Choices, Chosen, choose, choose_fixings, in_its_table
from .clearing import moved_clear
from .contradictions import STAGES, contradictions, settled_coats
from .cut_findings import CUTS, Before, CutScene, cut_findings, thicknesses_before, told_by_record
from .dividing import STOCK, longer_than_stock, stock_not_given, too_long
from .fixings import meetings_with_wall
from .history import UNKNOWN, Contact, History, history_of
from .holding import HOLDING, what_holds
from .kinds import Kinds
from .loads import LOADS, loads
from .meetings import Met, find_meetings, runs_past
from .members import (
    Divided,
    decision_in_the_file,
    divide,
    finding_in_the_file,
    left_open,
    reaches,
    with_pins_of_wholes,
)
from .model import Board, Cut, Joint, Making, Mating, Meeting, Part, Piece, Side
from .mouths import covered_mouths
from .movable import Movable, in_lines, in_their_lines
from .nodes import Sorted, sort_nodes
from .parts import make_part, marks
from .room import ROOM, room_findings, room_not_given
from .setout import NOTHING_MADE, AsCut, Made, set_out
from .settling.settle import OPENS, Settled, settle
from .units import units_of

MOST_SETTLED = 3  # times; the second has the film, and a third only what film shuts, which play leaves no room for


@dataclass(frozen=True, slots=True, kw_only=True)
class _Laid:
    """A job from its boards to its parts, every step's answer with it.

    Attributes:
        followed: the joints that are made otherwise than the job asks, since they follow what is cut.
    """

    boards: tuple[Board, ...]
    met: Met
    nodes: Sorted
    choices: Choices
    fixings: Choices
    settled: Settled
    joints: tuple[Joint, ...]
    parts: tuple[Part, ...]
    told: tuple[ComparedCut, ...]
    to_suit: frozenset[Pair]
    history: History
    followed: frozenset[Pair]

    @property
    def chosen(self) -> tuple[Chosen, ...]:
        """The joints between boards, then the fixings, as `joints` has them."""
        return (*self.choices.chosen, *self.fixings.chosen)


def build_piece(job: Job, kinds: Kinds, shop: Shop, made: Made = NOTHING_MADE, keep: Keep | None = None) -> Piece:
    """Make the piece of a job, all findings that need no solids with it."""
    keep = keep if keep is not None else Keep()
    made = with_pins_of_wholes(made)
    laid = _laid(job, made, kinds, shop, keep)
    long = too_long(job, laid.parts)
    divided, flush = Divided(job=job, made=made), frozenset[str]()
    if long:
        divided, laid, flush = _divided(job, made, long, laid, kinds, shop, keep)

    @cache
    def before() -> tuple[Mapping[AsCut, ComparedCut], ...]:
        """The recorded cuts beside the piece as thick as it was ordered, and as it was known when they were cut."""
        wholes, now = set(divided.whole.values()), {board.name: board for board in laid.boards}
        jobs = thicknesses_before(divided.job, divided.made, now)
        return tuple(told_by_record(_laid(*one, kinds, shop, keep, wholes, flush).told) for one in jobs)

    coats = settled_coats(divided.job, laid.history)
    said = _answers(laid, divided, kinds, before, keep)
    piece = Piece(
        boards=laid.boards,
        meetings=laid.nodes.meetings,
        joints=laid.joints,
        parts=laid.parts,
        decisions=tuple(
            decision_in_the_file(decision, divided.whole)
            for decision in (*laid.settled.decisions, *laid.choices.decisions, *divided.decisions, *coats)
        ),
        findings=tuple(finding_in_the_file(finding, divided.whole) for finding in said.findings),
        job=divided.job,
        whole=divided.whole,
        units=laid.settled.units,
        to_suit=laid.to_suit,
        history=laid.history,
        recorded=bool(made.cuts or made.trouble),
    )
    left = said.not_checked
    checked, not_checked = put_to(piece, said.checked, left)
    return replace(piece, checked=checked, not_checked=not_checked)


def _divided(
    job: Job, made: Made, long: Sequence[Part], laid: _Laid, kinds: Kinds, shop: Shop, keep: Keep
) -> tuple[Divided, _Laid, frozenset[str]]:
    """Boards taken apart, and taken apart again where their splices run past the places: they want more stock and room.

    How far they do only their own parts show. Where the stock or the bay has no room for that, and nobody asks for it,
    their members are joined flush; which ones, is the last of the three.
    """

    def apart(reach: Mapping[str, float]) -> Divided:
        return divide(job, made, long, laid.met.meetings, shop.trim, kinds, reach)

    def made_so(divided: Divided, flush: frozenset[str] = frozenset()) -> _Laid:
        return _laid(divided.job, divided.made, kinds, shop, keep, set(divided.whole.values()), flush)

    divided = apart({})
    if not divided.whole:
        return divided, laid, frozenset()
    members = made_so(divided)
    reach = reaches(members.joints, members.parts, divided.whole)
    if not reach:
        return divided, members, frozenset()
    again = apart(reach)
    members = members if again.job == divided.job else made_so(again)
    past = {again.whole[part.id] for part in too_long(again.job, members.parts) if part.id in again.whole}
    short = {name for name in again.cramped | (past & reach.keys()) if left_open(job, name)}
    if not short:
        return again, members, frozenset()
    again = apart({name: past for name, past in reach.items() if name not in short})
    flush = frozenset(member for member, name in again.whole.items() if name in short)
    return again, made_so(again, flush), flush


def _laid(
    job: Job,
    made: Made,
    kinds: Kinds,
    shop: Shop,
    keep: Keep,
    wholes: Collection[str] = (),
    flush: frozenset[str] = frozenset(),
) -> _Laid:
    """Set out, find the meetings, choose, settle, make.

    `wholes` are boards that stand here as their members, `flush` the members that may not run past where they end.

    Which boards are coated when they meet hangs on what is glued up first, and how wide their slots are on that: so
    where film comes between, it is settled once more with it, until nothing changes any more.
    """
    boards = tuple(_board(spec, job, made, keep) for spec in job.boards)
    met = find_meetings(boards, keep)
    by_name = {board.name: board for board in boards}
    nodes = sort_nodes(met.meetings, by_name)
    fixings = choose_fixings(meetings_with_wall(job, by_name, kinds, keep), job, kinds, keep)
    history, places = UNKNOWN, {spec.name: spec.place for spec in job.boards if spec.place is not None}
    for _ in range(MOST_SETTLED):
        coated = nodes
        if history.adds_film:
            coated = replace(nodes, meetings=tuple(_met(meeting, history, keep) for meeting in nodes.meetings))
        choices = choose(coated.meetings, job, kinds, keep, wholes, flush)
        asked = (*choices.chosen, *fixings.chosen)
        chosen = following(asked, made, keep)
        glued = [item.meeting.key for item in choices.chosen if item.kind.glues(item.options)]
        settled = settle(chosen, made, keep, units_of(job, glued), places)
        before, history = history, _history(job, settled.units, choices.chosen, keep)
        if not history.adds_film or history == before:
            break
    joints = tuple(_joint(item, settled.makings[item.meeting.key], keep) for item in chosen)
    letters = marks(boards, {name: pin.mark for name, pin in made.pins.items()})

    def part_of(board: Board, cuts: Sequence[Cut]) -> Part:
        return _part(board, letters[board.name], tuple(cuts), shop.trim, keep)

    otherwise = {
        item.meeting.key: _joint(item, settled.makings[item.meeting.key], keep)
        for item, made_so in zip(asked, chosen, strict=True)
        if item is not made_so
    }
    wood = in_the_wood(joints, otherwise, by_name, made, part_of, job.units, keep)
    again: dict[Pair, Joint] = {}
    if wood.deeper:
        again = {
            item.meeting.key: _joint(more, settled.makings[item.meeting.key], keep)
            for item in chosen
            if item.meeting.key in wood.deeper
            for more in reaching(item, made, wood.deeper[item.meeting.key], keep)
        }
        wood = with_others(wood, again, keep)
    parts = tuple(part_of(board, wood.cuts.get(board.name, ())) for board in boards)
    return _Laid(
        boards=boards,
        met=met,
        nodes=coated,
        choices=choices,
        fixings=fixings,
        settled=settled,
        joints=wood.joints,
        parts=parts,
        told=wood.told,
        to_suit=wood.to_suit,
        history=history,
        followed=frozenset((*otherwise, *again)),
    )


def _answers(laid: _Laid, divided: Divided, kinds: Kinds, before: Before, keep: Keep) -> Answers:
    """All that was found on the way, and the checks that need no solids, each question put by itself."""
    job, boards, joints, parts = divided.job, laid.boards, laid.joints, laid.parts
    said = Answers()
    said.put(LOADS, lambda: loads(job, boards, joints))
    movable = Movable({board.name: board for board in boards}, job.fixings)
    said.put(JOINTS, lambda: in_lines(_joined(laid, job.units), movable), guards=True)
    for name, told in _besides(kinds, joints):
        said.add(name, told)
    said.put(STOCK, lambda: _in_stock(laid, divided), guards=True)
    said.put(OPENS, lambda: laid.settled.findings, guards=True)
    said.put(CUTS, lambda: cut_findings(_scene(laid, divided, keep), before), guards=True)
    said.put(checks.WOOD, tuple)
    for part in parts:
        said.put(checks.WOOD, partial(_checked, part, movable, keep), guards=True, of=part.id)
    said.put(STAGES, lambda: contradictions(job, laid.history, laid.settled.units, movable.boards, joints), guards=True)
    said.put(HOLDING, lambda: in_lines(_held(laid, job, keep), movable), guards=True)
    said.put(checks.NAMES, lambda: [*checks.slicing_ends(job, boards), *checks.dangling(job, divided.whole)])
    said.put(
        ROOM, lambda: in_lines([*room_not_given(job.wall), *room_findings(job, parts, keep)], movable), guards=True
    )
    return said


def _besides(kinds: Kinds, joints: Sequence[Joint]) -> Iterator[tuple[str, tuple[NotChecked, ...]]]:
    """What kinds ask besides: open where nothing of the kind is made, else answered, with what its joints left open."""
    there = {joint.kind for joint in joints}
    for kind in kinds.values():
        for name in kind.questions:
            yield name, () if kind.name in there else (unanswered(name, say("no {} is made", kind.name)),)


def _joined(laid: _Laid, units: LengthUnit) -> Iterator[Finding | NotChecked]:
    """What was found of the meetings and their joints, and what the joints leave open."""
    yield from laid.met.findings
    boards = {board.name: board for board in laid.boards}
    yield from (finding for meeting in laid.met.meetings for finding in [runs_past(meeting, boards)] if finding)
    yield from laid.nodes.findings
    yield from (_cleared(finding, boards) for finding in laid.choices.findings)
    yield from laid.fixings.findings
    for item, joint in zip(laid.chosen, laid.joints, strict=True):
        yield from (in_its_table(finding, item, units) for finding in joint.findings)
        yield from joint.not_checked
    yield from covered_mouths(laid.boards, laid.joints)


def _cleared(finding: Finding, boards: Mapping[str, Board]) -> Finding:
    """Of boards in each other's way: either moved off the other. Who found it has seen only where they meet."""
    if finding.code != NOT_JOINED:
        return finding
    one, other = (boards[name] for name in finding.where.boards)
    return replace(finding, cures=tuple(moved_clear(one, other)))


def _scene(laid: _Laid, divided: Divided, keep: Keep) -> CutScene:
    """What recorded cuts are held against."""

    def matings(item: Chosen) -> tuple[Mating, ...]:
        making = laid.settled.makings[item.meeting.key]
        key = (Same(item.meeting), item.kind.name, Same(item.options), Same(making))
        return keep.get("matings", key, lambda: item.kind.matings(item.meeting, item.options, making))

    told = bool(laid.told)  # without recorded cuts nobody asks for joints
    return CutScene(
        told=laid.told,
        job=divided.job,
        made=divided.made,
        boards={board.name: board for board in laid.boards},
        specs={spec.name: spec for spec in divided.job.boards},
        whole=divided.whole,
        chosen={frozenset(item.meeting.key): item for item in (laid.chosen if told else ())},
        joints={frozenset(joint.key): joint for joint in laid.joints} if told else {},
        followed=laid.followed,
        matings=matings,
    )


def _held(laid: _Laid, job: Job, keep: Keep) -> Iterator[Finding | NotChecked]:
    """What was found of what holds the boards up, and what of it is left open."""
    chosen = zip(laid.chosen, laid.joints, strict=True)
    held = what_holds(job, laid.parts, laid.met.meetings, chosen, laid.settled.units, keep)
    yield from held.findings
    yield from held.not_checked


def _in_stock(laid: _Laid, divided: Divided) -> Iterator[Finding | NotChecked]:
    """What was found of boards longer than their stock; a board that is divided is spoken of once."""
    told = {name for finding in divided.findings for name in finding.where.boards}
    yield from stock_not_given(divided.job, laid.parts)
    yield from divided.findings
    yield from longer_than_stock(divided.job, laid.parts, told)


def _board(spec: BoardSpec, job: Job, made: Made, keep: Keep) -> Board:
    """A board is kept by all that setting out reads of the job for it."""
    key = (spec, job.timbers.get(spec.timber), job.finish, job.wall, *made.of(spec.name))
    return keep.get("board", key, lambda: set_out(spec, job, made))


def _history(job: Job, units: Sequence[Unit], chosen: Sequence[Chosen], keep: Keep) -> History:
    """The history is kept by all that is read for it: most changes of a hand move boards and touch none of that."""
    joined = tuple((item.meeting.key, item.kind.glues(item.options)) for item in chosen)
    words = tuple((spec.name, spec.when, spec.place) for spec in job.boards)
    key = (job.finish, words, tuple(units), joined, tuple(fixing.board for fixing in job.fixings))
    return keep.get("history", key, lambda: history_of(job, units, joined))


def _met(meeting: Meeting, history: History, keep: Keep) -> Meeting:
    """A meeting with its film: kept, so that what hangs on it stays as it is while the film does."""
    contact = history.contacts.get(meeting.key)
    if contact is None or not contact.has_film:
        return meeting
    return keep.get("film", (Same(meeting), contact.zones), lambda: _with_film(meeting, contact))


def _with_film(meeting: Meeting, contact: Contact) -> Meeting:
    def coated(side: Side) -> Side:
        zone = contact.of(side.body)
        return replace(side, film=zone.film, wall_film=zone.wall_film)

    return replace(meeting, a=coated(meeting.a), b=coated(meeting.b))


def _joint(item: Chosen, making: Making, keep: Keep) -> Joint:
    key = (Same(item.meeting), item.kind.name, Same(item.options), Same(making))
    return keep.get("joint", key, lambda: item.kind.make(item.meeting, item.options, making))


def _part(board: Board, mark: str, cuts: tuple[Cut, ...], trim: float, keep: Keep) -> Part:
    return keep.get("part", (Same(board), mark, trim, *map(Same, cuts)), lambda: make_part(board, mark, cuts, trim))


def _checked(part: Part, movable: Movable, keep: Keep) -> Iterator[Finding | NotChecked]:
    found = keep.get("part checks", Same(part), lambda: _of_its_wood(part))
    return (in_their_lines(one, movable) if isinstance(one, Finding) and one.cures else one for one in found)


def _of_its_wood(part: Part) -> tuple[Finding | NotChecked, ...]:
    checked = (checks.nothing_left, checks.short_grain, checks.thin_web, bores_near_cuts)
    return (*(found for check in checked for found in check(part)), *checks.not_looked_at(part))
