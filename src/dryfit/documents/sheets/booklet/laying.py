"""What lies first, and what waits until the glue has set, in words; and what all sheets of the booklet depend on."""

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from ....joints import KINDS
from ....piece.facts import CutForm
from ....piece.model import Board, Joint
from ....places import Pair
from ....sentences import plural as several
from ....studies.order.result import StagePlan, Step
from ...looks import Desk
from ...naming import depth
from . import loose

MANY = 6  # letters; more are counted
MINDS = 4  # things to mind that a sheet tells at most
AIR = 1.0  # mm off the floor that need no packing

Up = Literal["front", "wall"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Act:
    """One sheet of the booklet.

    Attributes:
        title: one sentence.
        says: how the part is held, one line.
        puts: what goes in with it that is no board, a line each.
        minds: at most three short sentences.
    """

    title: str
    says: str
    puts: tuple[str, ...] = ()
    minds: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Scenery:
    """What the words of a step depend on besides the step.

    Attributes:
        glued: joints with glue on them.
        units: the unit of each board that is in one that is glued already.
        floor: how far out of the wall the floor lies under what is being put together, by which edges face up.
    """

    desk: Desk
    glued: frozenset[Pair]
    units: Mapping[str, str]
    floor: Mapping[str, float]

    def off_floor(self, name: str, up: Up) -> float:
        """How far a board stays off the floor."""
        board = self.desk.book.piece.board_by_name[name]
        return board.back - self.floor[up] if up == "front" else self.floor[up] - board.front

    def joints(self, step: Step) -> list[Joint]:
        """Those a step closes."""
        return [self.desk.book.piece.joint_by_key[key] for key in step.joints]


def lettered(desk: Desk, names: Iterable[str], units: Mapping[str, str]) -> str:
    """Letters of boards in words, what is in a glued unit by the unit's name: "B, D and the box"; many are counted."""
    every = list(names)
    whole = dict.fromkeys(units[name] for name in every if name in units)
    letters = [desk.marks.get(name, name) for name in every if name not in units]
    if len(letters) > MANY:
        letters = [f"{len(letters)} boards"]
    said = [*letters, *(f"the {unit}" for unit in whole)]
    return said[0] if len(said) == 1 else f"{', '.join(said[:-1])} and {said[-1]}"


# --- what lies first --------------------------------------------------------------------------------


def laid(seen: Scenery, names: Sequence[str], up: Up, *, begun: bool = False) -> Act:
    """What lies first, on the floor or on packing; `begun` where something lies there already."""
    boards = seen.desk.book.piece.board_by_name
    flat = [name for name in names if boards[name].lies == "flat"]
    standing = [name for name in names if name not in flat]
    edge = "wall" if up == "front" else "front"
    told = []
    if standing:
        one_unit = len({seen.units.get(name, "") for name in standing}) == 1 and standing[0] in seen.units
        edges = f"its {edge} edge" if len(standing) == 1 else f"{'its' if one_unit else 'their'} {edge} edges"
        told.append(f"{called(seen, standing)} on {edges}")
    if flat:
        told.append(f"{called(seen, flat)} flat")
    loosely = "Set them out as drawn, loosely: what follows brings them into place."
    return Act(
        title=f"Lay {', '.join(told)}",
        says=" · ".join(["on a flat floor", *_facing(seen, names, up)]),
        minds=(
            *_packed(seen, names, up),
            *(() if begun else ("Keep the foot of the piece towards you, as drawn.",)),
            *(
                ()
                if begun or not standing
                else (f"Steady {'it' if len(standing) == 1 else 'them'} on edge with blocks.",)
            ),
            *((loosely,) if len(names) > 1 and not _one_unit(seen, names) else ()),
        )[:MINDS],
    )


def _facing(seen: Scenery, names: Sequence[str], up: Up) -> Iterator[str]:
    """Which way up, by the cuts that run out at an edge: those that open upwards, else those that open downwards."""
    cuts = [cut for name in names for cut in seen.desk.looks[name].part.cuts if cut.form is not CutForm.BORE]
    for edge, way in ((up, "UP"), ("wall" if up == "front" else "front", "DOWN")):
        nouns = list(dict.fromkeys(several(cut.plain) for cut in cuts if cut.figures.opens.edge == edge))
        if nouns:
            yield f"open sides of the {' and '.join(nouns)} {way}"
            return


def called(seen: Scenery, names: Sequence[str]) -> str:
    """One board by name and letter, several by their letters."""
    if len(names) != 1:
        return lettered(seen.desk, names, seen.units)
    return " ".join(dict.fromkeys((names[0], seen.desk.marks[names[0]])))  # once, where a name does for a letter


def _one_unit(seen: Scenery, names: Sequence[str]) -> bool:
    return names[0] in seen.units and len({seen.units.get(name, "") for name in names}) == 1


def _packed(seen: Scenery, names: Sequence[str], up: Up) -> Iterator[str]:
    """What does not reach the floor stands on packing."""
    high: dict[str, list[str]] = {}
    units: dict[str, float] = {}
    for name in names:
        off = seen.off_floor(name, up)
        if name in seen.units:  # a unit rests on the boards of it that reach furthest
            units[seen.units[name]] = min(off, units.get(seen.units[name], math.inf))
        elif off > AIR:
            high.setdefault(depth(off), []).append(seen.desk.marks[name])
    for unit, off in units.items():
        if off > AIR:
            high.setdefault(depth(off), []).append(f"the {unit}")
    for size, letters in high.items():
        yield f"Packing {size} under {', '.join(letters)}."


# --- what waits for the glue --------------------------------------------------------------------------


def waited(seen: Scenery, stage: StagePlan, *, last: bool) -> Act:
    """What waits until the stage is glued, such as keys across its mitres."""
    desk = seen.desk
    boards = desk.book.piece.board_by_name
    joints = [joint for joint in desk.book.piece.joints if _waits(joint, stage, boards)]
    marks = [(joint, " × ".join(desk.marks.get(name, name) for name in joint.key)) for joint in joints]
    found = [loose.words(one) for one in loose.wanted(marks, boards, waiting=True)]
    minds = ["Guard and hold-downs on; hands clear of the cutter. Trim flush when their glue has set."]
    if not last:
        minds.append("Now, not later: what follows would be in the way.")
    return Act(
        title=f"When the glue has set: the {' and the '.join(loose.awaited(desk, stage.after))}",
        says=" · ".join(["at " + ", ".join(mark for _, mark in marks), *found]),
        minds=tuple(minds),
    )


def _waits(joint: Joint, stage: StagePlan, boards: Mapping[str, Board]) -> bool:
    work = (operation.key for operation in KINDS[joint.kind].operations(joint, boards))
    return set(joint.key) <= set(stage.parts) and not set(stage.after).isdisjoint(work)
