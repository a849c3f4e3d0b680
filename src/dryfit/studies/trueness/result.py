"""How true what hangs first must be, for what comes later still to go in: as others read it."""

from dataclasses import dataclass

from ...sentences import Words


@dataclass(frozen=True, slots=True, kw_only=True)
class Entering:
    """What is put in at one step, and how far what stands there already may be out for it.

    Attributes:
        name: what is put in, in words; `parts` its ids.
        base: ids of the boards that it meets there.
        joints: how many of them slide together.
        halved: whether boards of it are notched for the base too, so that a turn lifts their slots.
        right, left: the farthest lean of the base to either side, as mm over mm; None where its joints set no limit.
        wide, high: of what stands there already.
        shift: how far one joint may be out of the line of two others, of three or more; None of fewer.
        pitch: how much two boards that it crosses may differ in pitch from front to back, as mm over mm, and
            `plan` in plan; None where it crosses one.
        play: across the closest of the joints.
    """

    name: Words
    parts: tuple[str, ...]
    base: tuple[str, ...]
    joints: int
    halved: bool
    right: float | None
    left: float | None
    wide: float
    high: float
    shift: float | None
    pitch: float | None
    plan: float | None
    play: float

    @property
    def closest(self) -> float | None:
        """The smaller of the two leans; None where neither is limited."""
        return min((lean for lean in (self.right, self.left) if lean is not None), default=None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Trueness:
    """All of it.

    Attributes:
        entries: in the order of putting in, those alone that slide into something.
        lean: of the base as it was measured by its diagonals, to the right, as mm over mm; None where it was not.
        out: the same over its height, in mm.
        hollow_turns: how much slots at the ends of the longest level board turn where it follows the wall's hollow, as
            mm over mm; None where the hollow is not known.
        left_out: names of boards with joints that do not slide in the plane of the elevation.
    """

    entries: tuple[Entering, ...]
    lean: float | None
    out: float | None
    hollow_turns: float | None
    left_out: tuple[str, ...]
