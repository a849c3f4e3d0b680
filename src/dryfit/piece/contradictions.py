"""What the job says of a board's life that cannot all be so: refused, with the two stages named.

A unit is glued up in the shop and meets others where it hangs: boards of two units cannot also be glued together in
the shop. What stands on another cannot be put in before it. Once something hangs on the wall, nothing comes to it from
behind.
That film and glue do not go together is said with the finish.
"""

import math
from collections.abc import Iterable, Iterator, Mapping

from ..asking import MOST_TOLD
from ..findings import Finding, NotChecked, Severity, declare, owns, question
from ..job.model import Job, Unit
from ..places import Cure, Edit, Path, Where
from ..sentences import Length, Name, Several, Value, few, say
from .history import History, Life, place_in_words, rank
from .model import FAR_END, Board, Decision, Joint, Piece, Side, Touch

STAGES = question("stages", "whether its stages follow from one another", lambda piece: _has_stages(piece))
GLUED_APART = declare(
    "glued-apart",
    "Boards are to be glued together in the shop, though two units carry them apart to the site.",
    uncured="which units there are is your choice",
)
BEFORE_SUPPORT = declare(
    "in-before-its-support",
    "A board is to be put in before what it stands on.",
    uncured="which of the two is put in first is your choice",
)
FROM_BEHIND = declare(
    "comes-from-behind",
    "A board could only come from the wall's side to what hangs there already.",
    uncured="which of the two goes to the wall first is your choice",
)
owns(STAGES, GLUED_APART, BEFORE_SUPPORT, FROM_BEHIND)

ABOUT_COATS = "when it is coated"
ALONG = math.cos(math.radians(60.0))  # a way out that leads so far to the wall leads there
PARTED = 0.5  # from the wall: what has this much room behind it may still be pushed back


def _has_stages(piece: Piece) -> bool:
    """Whether the job speaks of anything that comes before or after something else: coats, units, places."""
    job = piece.job
    if job is None or not piece.in_several:
        return False
    return bool(job.finish.coats or job.units_glued) or any(spec.place is not None for spec in job.boards)


def contradictions(
    job: Job, history: History, units: Iterable[Unit], boards: Mapping[str, Board], joints: Iterable[Joint]
) -> Iterator[Finding | NotChecked]:
    """All that contradicts itself, and of what nobody says when it is coated.

    Args:
        job: with divided boards apart.
        history: of the piece.
        units: as they are glued up.
        boards: by name.
        joints: with the makings that were chosen.
    """
    tables = {**{name: board.path for name, board in boards.items()}, **{unit.name: unit.path for unit in units}}
    yield from _glued_apart(job)
    apart = len({rank(life.place) for life in history.lives.values()}) > 1  # else nothing comes before anything
    for joint in joints if apart else ():
        if set(joint.key) <= boards.keys():
            yield from _stands_on(joint, history, boards, tables)
            yield from _from_behind(joint, history, boards, tables, job)
    unsaid = tuple(name for name, life in history.lives.items() if life.when is None and not life.said)
    if history.on_site and unsaid and job.finish.coats:
        whole = len(unsaid) == len(history.lives)
        names: Value = "all of it" if whole else few([say("{}", Name(name)) for name in unsaid], MOST_TOLD)
        yield NotChecked(
            study=STAGES,
            what=say("what is masked, and the film in the joints, of {}", names),
            why=say("[finish] does not say when {} coated", "they are" if len(unsaid) > 1 else "it is"),
            where=Where(boards=unsaid, path=("finish",)),
        )


def settled_coats(job: Job, history: History) -> Iterator[Decision]:
    """When what the job is silent of is coated, where that is settled; kept in one word where nothing else is said."""
    silent = [name for name, life in history.lives.items() if life.when is not None and not life.said]
    if silent and job.finish.coats:
        every = len(silent) == len(history.lives)
        yield Decision(
            about=ABOUT_COATS,
            key=(silent[0], silent[0]),
            value=say("after glue{}", "" if every else say(": {}", few([Name(name) for name in silent], MOST_TOLD))),
            decider="chosen",
            reason="all of it goes together in the shop: no joint need be masked then, and no film comes between",
            others=("before glue", "on site", "none"),
            keep=Edit(action="set", path=("finish", "when"), value="after glue") if every else None,
        )


def _glued_apart(job: Job) -> Iterator[Finding]:
    """Boards that a unit is to glue up though another one, named before it, carries them."""
    homes: dict[str, Unit] = {}
    for unit in job.units_glued:
        others: dict[str, list[str]] = {}
        for name in unit.boards:
            home = homes.setdefault(name, unit)
            if home is not unit:
                others.setdefault(home.name, []).append(name)
        taken = tuple(name for names in others.values() for name in names)
        if not taken or len(unit.boards) < 2:
            continue
        rest = [name for name in unit.boards if name not in taken]
        edit = (
            Edit(action="set", path=(*unit.path, "boards"), value=list(rest))
            if rest
            else Edit(action="remove", path=unit.path)
        )
        carried = [
            say("{} {} carried in {}", Several(tuple(map(Name, names))), "is" if len(names) == 1 else "are", Name(home))
            for home, names in others.items()
        ]
        yield Finding(
            code=GLUED_APART,
            severity=Severity.STOP,
            where=Where(boards=taken, path=(*unit.path, "boards")),
            says=say(
                "{} glues {} up in the shop, but {}: they meet on site, when they are put in",
                Name(unit.name),
                Several(tuple(map(Name, unit.boards))),
                Several(tuple(carried)),
            ),
            remedy="make one unit of all of them, or leave their joint to be made on site",
            cures=(Cure(label=say("leave them out of {}", Name(unit.name)), edits=(edit,)),),
        )


def _stands_on(
    joint: Joint, history: History, boards: Mapping[str, Board], tables: Mapping[str, Path]
) -> Iterator[Finding]:
    """A board whose foot stands on another that is put in after it."""
    for side in (joint.meeting.a, joint.meeting.b):
        other = joint.meeting.other(side.body)
        if not _is_foot(side, other, boards[side.body]):
            continue
        own, base = history.lives[side.body], history.lives[other.body]
        if history.together(side.body, other.body) or rank(own.place) >= rank(base.place):
            continue
        carried = {history.carried(name): life for name, life in ((side.body, own), (other.body, base))}
        yield Finding(
            code=BEFORE_SUPPORT,
            severity=Severity.STOP,
            where=Where(boards=(side.body, other.body), joint=joint.key, path=side.path),
            says=say(
                "{} is put in {}, but it stands on {}, which is put in {}",
                Name(side.body),
                place_in_words(own.place),
                Name(other.body),
                place_in_words(base.place),
            ),
            remedy=say("put {} in before {}", Name(history.carried(other.body)), Name(history.carried(side.body))),
            cures=tuple(_unplaced(carried, tables)),
        )


def _is_foot(side: Side, other: Side, board: Board) -> bool:
    """Whether a board stands with that end on the other's upper face."""
    if side.touch is not Touch.END or other.touch is not Touch.FACE:
        return False
    x, y, _ = board.frame.x
    down = -y if side.end == FAR_END else y
    return down > abs(x)


def _unplaced(carried: Mapping[str, Life], tables: Mapping[str, Path]) -> Iterator[Cure]:
    """Leave a place to be settled, in the new word or the old one: which of them is there is tried."""
    for name, life in carried.items():
        if life.place is not None:
            label = say("leave the place of {} to be settled", Name(name))
            for key in ("place", "last"):
                yield Cure(label=label, edits=(Edit(action="remove", path=(*tables[name], key)),))


def _from_behind(
    joint: Joint, history: History, boards: Mapping[str, Board], tables: Mapping[str, Path], job: Job
) -> Iterator[Finding]:
    """A board that comes later to one that hangs on the wall already, and could only come from the wall's side."""
    one, other = (history.lives[name] for name in joint.key)
    if history.together(*joint.key) or rank(one.place) == rank(other.place):
        return
    first, later = joint.key if rank(one.place) < rank(other.place) else joint.key[::-1]
    hangs = any(life.hung for name, life in history.lives.items() if name == first or history.together(name, first))
    ways = [(motion, 1.0 if motion.body == later else -1.0) for motion in joint.making.motions]
    if not hangs or not ways:
        return
    back = boards[later].back
    free = [motion.free for motion, sign in ways if sign * motion.direction[2] > -ALONG or motion.free < back - PARTED]
    if free:
        return
    need = min(motion.free for motion, _ in ways)
    spec = next((spec for spec in job.joint_specs if frozenset(spec.between) == frozenset(joint.key)), None)
    carried = {history.carried(name): history.lives[name] for name in (later, first)}
    cures: tuple[Cure, ...] = ()
    if joint.making.front:
        value = first if joint.making.front != first else later
        edit = (
            Edit(action="set", path=(*spec.path, "front"), value=value)
            if spec is not None
            else Edit(action="add", path=("joint",), value={"between": list(joint.key), "front": value})
        )
        cures = (Cure(label=say("have the slot in {} open to the front", Name(value)), edits=(edit,)),)
    yield Finding(
        code=FROM_BEHIND,
        severity=Severity.STOP,
        where=Where(boards=(later, first), joint=joint.key, path=boards[later].path),
        says=say(
            "{} hangs on the wall when {} is put in, and their slot opens to the wall: it would have to come from {} "
            "behind",
            Name(first),
            Name(later),
            Length(need),
        ),
        remedy=say("have the slot in {} open to the front, or put {} in before", Name(first), Name(later)),
        found=need,
        limit=back,
        unit="mm",
        source="geometry",
        cures=(*cures, *_unplaced(carried, tables)),
    )
