"""Trueness: how far out of plumb and level may what hangs first be, for what comes later still to go in?

What it works out   Of each step on the wall, from the play of its joints after film, the lean at which what goes
                    in binds, one way and the other; how far one joint may be out of line; how much boards may differ
                    from front to back; and what a base leans that was measured by its diagonals.
Assumes             What is put together on the floor goes up as one, and nothing goes in later. What stands there racks
                    as a rectangle does: level boards stay level, plumb ones lean alike. What is put in is rigid, its
                    boards straight, as thick as they are said to be; coated they are fatter on their arrises and bind
                    sooner. Half of a limit is used on site (common practice).
Source              Geometry: `racking.py`, a linear programme over all walls. Errors of a level: three
                    pages on their accuracy.
"""

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Annotated

from pydantic import Field

from ...asking import unanswered
from ...findings import Finding, NotChecked, Severity, declare
from ...geometry.frames import Vec2
from ...job.options import Options, Quantity, Within
from ...job.tables import One
from ...piece.kinds import matings_of
from ...piece.model import Board, Joint, Mating, Piece, Touch
from ...places import Path, Where
from ...sentences import Fineness, Length, Name, On, Sentence, Several, Words, say
from ...study.base import Scene, Study, Work
from ...study.registry import register
from ..hanging.result import Hanging
from ..order.result import Order
from ..order.result import Step as Going
from .racking import Slot, diagonals_differ, lean_of, limits
from .result import Entering, Trueness

RACKED = declare(
    "racked",
    "What hangs already leans farther than what comes later can follow.",
    uncured="what hangs is set right at the wall, not in the job",
)
FINER = declare(
    "truer-than-a-level",
    "What hangs first must be truer than a level, or a tape, can tell.",
    uncured="what hangs is set right at the wall, not in the job",
)

ON_SITE = 0.5  # of a limit (common practice)
LEVEL = 0.0005  # of a good spirit level, mm over mm (three pages on the accuracy of levels)
LEVEL_SINE = 0.02  # to which a board counts as level


class DiagonalsTable(Options):
    """What hangs first, measured once it hangs: a rectangle of it from corner to corner."""

    width: Annotated[Quantity, Within(above=0)] = Field(description="Of the rectangle.")
    height: Annotated[Quantity, Within(above=0)] = Field(description="Of the rectangle.")
    rising: Annotated[Quantity, Within(above=0)] = Field(description="From its lower left to its upper right corner.")
    falling: Annotated[Quantity, Within(above=0)] = Field(description="From its lower right to its upper left corner.")


DIAGONALS = One("diagonals", DiagonalsTable)


@dataclass(frozen=True, slots=True, kw_only=True)
class Goes:
    """One step: what goes in, the slots that it meets, and the size of what stands there.

    Attributes:
        deep: the greatest common depth of a crossing, along which two may differ; None where it crosses fewer than two.
    """

    name: Words
    parts: tuple[str, ...]
    base: tuple[str, ...]
    slots: tuple[Slot, ...]
    joints: int
    wide: float
    high: float
    deep: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class TruenessValue:
    """All that is looked at.

    Attributes:
        measured: width, height and the two diagonals, rising and falling.
        longest: length of the longest level board that is fixed to the wall.
    """

    steps: tuple[Goes, ...]
    measured: tuple[float, float, float, float] | None
    hollow: float | None
    longest: float
    left_out: tuple[str, ...]


@register
class TruenessStudy(Study[TruenessValue, Trueness]):
    """How true it must hang."""

    name = "trueness"
    codes = (RACKED, FINER)
    asks = "how true it must hang"
    result = Trueness
    needs = (Order, Hanging)
    owns = (DIAGONALS,)
    guards = True

    def concerns(self, piece: Piece) -> bool:
        """Only what goes together where it hangs."""
        return piece.is_fixed and piece.history.on_site

    def reads(self, scene: Scene) -> TruenessValue | NotChecked:
        """Copy the slots of each step."""
        concerned, way = self.concerns(scene.piece), scene.earlier(Hanging).way
        if concerned and way is None:
            return unanswered(self.name, "no order of putting together is worked out")
        left_out: dict[str, None] = {}
        wall = scene.earlier(Order).wall if concerned and way == "wall" else None
        found = _steps((one.step for one in wall.steps), scene, left_out) if wall is not None else ()
        steps = tuple(step for step in found if step.slots)
        table = scene.one(DIAGONALS)
        fixed = frozenset(one.board for one in scene.job.fixings)
        level = [one.length for one in scene.piece.boards if one.name in fixed and abs(one.frame.x[1]) < LEVEL_SINE]
        return TruenessValue(
            steps=steps,
            measured=None if table is None else (table.width, table.height, table.rising, table.falling),
            hollow=scene.job.wall.hollow,
            longest=max(level, default=0.0),
            left_out=tuple(left_out),
        )

    def run(self, value: TruenessValue, work: Work) -> Trueness:
        """A linear programme a step, each way."""
        entries = []
        for number, step in enumerate(value.steps):
            work.step(number / len(value.steps), "how true it must hang")
            entries.append(_entry(step))
        out = None
        if value.measured is not None:
            wide, _, rising, falling = value.measured
            out = lean_of(wide, rising, falling)
        return Trueness(
            entries=tuple(entries),
            lean=None if out is None or value.measured is None else out / value.measured[1],
            out=out,
            hollow_turns=4 * value.hollow / value.longest if value.hollow is not None and value.longest else None,
            left_out=value.left_out,
        )

    def findings(self, value: TruenessValue, result: Trueness) -> tuple[Finding, ...]:
        """What binds as it was measured; what no level tells."""
        racked = (_racked(entry, result) for entry in result.entries if result.lean)
        fine = [entry for entry in result.entries if _share_of_level(entry) < 1.0]
        return (*(one for one in racked if one is not None), *([_finer(fine)] if fine else []))

    def not_checked(self, value: TruenessValue, result: Trueness) -> tuple[NotChecked, ...]:
        """What is not in the plane of the elevation, or was not measured."""
        return tuple(_open(result))


# --- reading ---------------------------------------------------------------------------------------


def _steps(steps: Iterable[Going], scene: Scene, left_out: dict[str, None]) -> Iterator[Goes]:
    for step in steps:
        slots: list[Slot] = []
        base: dict[str, None] = {}
        joints, deep = 0, []
        for key in step.joints:
            joint = scene.piece.joint_by_key[key]
            there = [name for name in key if name not in step.parts]
            found = tuple(_slots(joint, there[0], scene)) if len(there) == 1 else ()
            if not found:
                left_out |= dict.fromkeys(name for name in key if name in step.parts)
                continue
            slots += found
            base[there[0]] = None
            joints += 1
            deep.append(joint.meeting.overlap[1] - joint.meeting.overlap[0])
        corners = [corner for name in step.onto for corner in _ends(scene.piece.board_by_name[name])]
        yield Goes(
            name=step.name,
            parts=step.parts,
            base=tuple(base),
            slots=tuple(slots),
            joints=joints,
            wide=max((x for x, _ in corners), default=0.0) - min((x for x, _ in corners), default=0.0),
            high=max((y for _, y in corners), default=0.0) - min((y for _, y in corners), default=0.0),
            deep=max(deep) if len(base) > 1 else None,
        )


def _ends(board: Board) -> Iterator[Vec2]:
    for a in (0.0, board.length):
        x, y, _ = board.frame.place((a, 0.0, 0.0))
        yield x, y


def _slots(joint: Joint, there: str, scene: Scene) -> Iterator[Slot]:
    """The pairs of walls of a joint that lie in the elevation; `there` is its board that stands there already."""
    boards = scene.piece.board_by_name
    for mating in matings_of(scene.kinds[joint.kind], joint):
        holder, taker = boards.get(mating.cut_in), boards.get(mating.takes)
        if mating.closes or holder is None or taker is None or holder.lies == "flat":
            continue
        x, y, z = holder.frame.direct(mating.normal)
        low, high = _through(joint, mating, holder)
        if abs(z) > 1e-6 or high <= low:
            continue
        base = boards[there]
        middle = base.frame.place((base.length / 2, 0.0, 0.0))
        yield Slot(
            at=joint.meeting.frame.origin[:2],
            holder=holder.angle,
            taker=taker.angle,
            own=holder.name != there,
            low=low,
            high=high,
            walls=_along(math.degrees(math.atan2(y, x)) - 90.0, taker.angle),
            width=mating.nominal,
            play=mating.play,
            middle=middle[:2],
        )


def _along(direction: float, like: float) -> float:
    """The same line pointed the way of another."""
    return direction if math.cos(math.radians(direction - like)) > 0 else direction + 180.0


def _through(joint: Joint, mating: Mating, holder: Board) -> tuple[float, float]:
    """What of the holder a slot goes through, from its line: its thickness, or as deep as an end is let in."""
    side = joint.meeting.side(holder.name)
    half = side.thickness / 2
    if side.touch is not Touch.FACE or not side.face:
        return -half, half
    deep = next((cut.figures.deep for cut in joint.cuts if cut.body == holder.name and cut.key == mating.key), None)
    deep = deep or next((cut.figures.deep for cut in joint.cuts if cut.body == holder.name), None) or 0.0
    low, high = sorted((side.face * half, side.face * (half - min(deep, 2 * half))))
    return low, high


# --- working out -----------------------------------------------------------------------------------


def _entry(step: Goes) -> Entering:
    right, left = limits(step.slots)
    across = [abs(math.sin(math.radians(slot.taker - slot.holder))) for slot in step.slots]
    plays = sorted(slot.play for slot in step.slots)
    shift = min(slot.play / max(sine, 0.05) for slot, sine in zip(step.slots, across, strict=True))
    both = plays[0] + plays[1] if len(plays) > 1 else 0.0
    return Entering(
        name=step.name,
        parts=step.parts,
        base=step.base,
        joints=step.joints,
        halved=any(slot.own for slot in step.slots),
        right=right,
        left=left,
        wide=step.wide,
        high=step.high,
        shift=shift if step.joints > 2 else None,
        pitch=both / step.deep if step.deep else None,
        plan=both / step.deep / max(min(across), 0.05) if step.deep else None,
        play=plays[0],
    )


# --- telling ---------------------------------------------------------------------------------------


def _where(entry: Entering, path: Path = ()) -> Where:
    return Where(boards=(*entry.parts, *entry.base), path=path or None)


def _racked(entry: Entering, result: Trueness) -> Finding | None:
    """Over its limit what was measured is a stop, over half of it a warning."""
    lean, out = result.lean or 0.0, result.out or 0.0
    limit = entry.right if lean > 0 else entry.left
    if limit is None or abs(lean) <= ON_SITE * limit:
        return None
    stops = abs(lean) > limit
    high = abs(out / lean)
    wants = entry.play * abs(lean) / limit if limit else math.inf
    needs = say("{} binds", entry.name)
    if limit:
        needs = say("{} would need {} of play and has {}", entry.name, Length(wants, Fineness.FINE),
                    Length(entry.play, Fineness.FINE))  # fmt: skip
    return Finding(
        code=RACKED,
        severity=Severity.STOP if stops else Severity.WARN,
        where=_where(entry, DIAGONALS.at("rising")),
        says=say(
            "what hangs leans {} to the {} over {}: {}",
            Length(abs(out), Fineness.FINE),
            "right" if lean > 0 else "left",
            Length(high, Fineness.WHOLE),
            needs,
        ),
        remedy=say(
            "loosen its screws, shim it until its diagonals differ by less than {}, push {} in, and tighten last",
            Length(diagonals_differ(entry.wide, entry.high, ON_SITE * limit * entry.high), Fineness.FINE),
            entry.name,
        ),
        found=abs(out),
        limit=limit * high * (1.0 if stops else ON_SITE),
        unit="mm",
        source="geometry" if stops else "geometry; half of it on site: common practice",
    )


def _share_of_level(entry: Entering) -> float:
    """Half of what it bears, by what a good level may be out."""
    return math.inf if entry.closest is None else entry.closest * ON_SITE / LEVEL


def _finer(entries: list[Entering]) -> Finding:
    """Those whose half is less than what a good level tells, in one; the figures are of the closest."""
    entry = min(entries, key=_share_of_level)
    bears = (entry.closest or 0.0) * entry.high
    goes = Several(tuple(say("{}", one.name) for one in entries))
    return Finding(
        code=FINER,
        severity=Severity.NOTE,
        where=Where(boards=tuple(name for one in entries for name in one.parts)),
        says=say(
            "what hangs may lean {} over {} for {} to go in; a level is out by {} there",
            Length(bears, Fineness.FINE, On.DOWN),
            Length(entry.high, Fineness.WHOLE),
            goes,
            Length(LEVEL * entry.high, Fineness.FINE),
        ),
        remedy="leave its screws a little loose, push it in, then tighten",
        found=bears * ON_SITE,
        limit=LEVEL * entry.high,
        unit="mm",
        source="geometry; a level out by 0.5 mm/m: makers' pages",
    )


def _names(names: tuple[str, ...]) -> Sentence | Several:
    return Several(tuple(Name(name) for name in names))


def _open(result: Trueness) -> Iterator[NotChecked]:
    if result.left_out:
        what = say("how true it must hang for {}", _names(result.left_out))
        yield NotChecked(study="trueness", what=what, why="its joints do not slide in the plane of the elevation")
