"""What the study of set-ups gives: the set-ups by name, how each cut is made, and what the shop lacks."""

from collections.abc import Mapping
from dataclasses import dataclass

from ...piece.operations import Dial, WorkSort
from ...places import Pair
from ...sentences import Words
from ...shop.tools import Ability, Process


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """One thing that is set.

    Attributes:
        says: to what, in words.
        mm, degrees: where that is one length, or one angle; else None.
    """

    dial: Dial
    says: Words
    mm: float | None = None
    degrees: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Lacking:
    """What no tool of the shop can make.

    Attributes:
        cuts: keys of them.
        makes: what was to come of it.
        process, ability: of the tool that is lacking; without an ability the shop has none of the sort.
        wanted: as it is asked for, without an article.
        limit, best: the figure that is wanted, and the nearest that a tool of the shop has; None where there is none.
    """

    cuts: tuple[str, ...]
    makes: Words
    process: Process
    ability: Ability | None = None
    wanted: Words = ""
    limit: float | None = None
    best: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SetUp:
    """One set-up.

    Attributes:
        name: as it stands on sheets: "R1", the letter of its `work` and its `number` among those.
        makes, says: what comes of it, and how, in the maker's words.
        tool: of the shop, by which it is done; "" where the shop has none.
        assumed: whether the shop file does not name that tool.
        sets: all that is set.
        cuts: keys of the cuts made with it, by the parts' letters.
        after: names of the set-ups of which something must come first.
        after_gluing: joints that must be glued before.
        tools: names of the router and of its cutter, for what a router makes.
        reach: how far a cutter must go below the base, or below the thin edge of a tilted bed, for the deepest of its
            cuts; None where that is not asked of the tool.
        faces: from how many faces of the board it is worked.
    """

    name: str
    number: int
    work: WorkSort
    process: Process
    makes: Words
    says: Words
    tool: Words
    assumed: bool
    sets: tuple[Setting, ...]
    cuts: tuple[str, ...]
    after: tuple[str, ...] = ()
    after_gluing: tuple[Pair, ...] = ()
    tools: tuple[str, ...] = ()
    reach: float | None = None
    faces: int = 1

    def set_to(self, dial: Dial) -> Setting | None:
        """What one dial is set to; None where it is not set."""
        return next((one for one in self.sets if one.dial is dial), None)


@dataclass(frozen=True, slots=True, kw_only=True)
class SetUps:
    """All set-ups of a piece.

    Attributes:
        all: by the letter of their work and their number.
        how: each cut's key with how it is made, with or without a set-up.
        lacking: what no tool of the shop can make.
        assumed: sorts of tools that are needed and that the shop file does not name.
    """

    all: tuple[SetUp, ...]
    how: tuple[tuple[str, Words], ...]
    lacking: tuple[Lacking, ...] = ()
    assumed: tuple[str, ...] = ()

    @property
    def by_cut(self) -> Mapping[str, tuple[SetUp, ...]]:
        """The set-ups by which each cut is made, in their order; those that want none are not there."""
        found: dict[str, tuple[SetUp, ...]] = {}
        for setup in self.all:
            for key in setup.cuts:
                found[key] = (*found.get(key, ()), setup)
        return found
