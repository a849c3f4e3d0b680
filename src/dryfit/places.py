"""Where something is, and what change of the job file would mend it: plain data for every room.

A `Path` leads into the job file as TOML would read it: `("board", 3, "line", 1, 0)` is the x of the
second point of the fourth `[[board]]`. It is the one way in which findings, cures and the page name a
value of the file; `job.spans` turns it into a line, `job.writing` into changed bytes.
"""

from dataclasses import dataclass
from typing import Literal, TypeAlias

from typing_extensions import TypeAliasType

from .sentences import Words

Key: TypeAlias = str | int
Path: TypeAlias = tuple[Key, ...]
# By its name in itself, so that a schema of it ends.
Plain = TypeAliasType("Plain", "str | int | float | bool | list[Plain] | dict[str, Plain] | None")
Pair: TypeAlias = tuple[str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Where:
    """What a finding is about, by identity: names and pairs, never places in a list.

    Attributes:
        boards: names of the boards it touches, the one to look at first in front.
        joint: the pair of bodies whose joint it is, in the joint's own order; None if no joint's.
        fixing: name of a fixing.
        cut: key of one cut.
        path: the value of the job file to change, where there is one.
    """

    boards: tuple[str, ...] = ()
    joint: Pair | None = None
    fixing: str | None = None
    cut: str | None = None
    path: Path | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Edit:
    """One change of the job file.

    `set` writes `value` at `path`, adding the key at the end of its table if it is not there; `add`
    appends a new table (`path` names the list of tables, such as `("joint",)`, `value` is the table);
    `remove` takes the value, or the whole table of a list, away; `rename` gives the thing named by the
    value at `path` the name `value`, everywhere it is referred to; `shift` moves a length by `value` in
    mm as a hand on the page would (a number is moved, arithmetic gets a folded trailing constant).
    """

    action: Literal["set", "add", "remove", "rename", "shift"]
    path: Path
    value: Plain = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Cure:
    """A change of the job file that ends a finding; `label` says it as the page's button would."""

    label: Words
    edits: tuple[Edit, ...]
