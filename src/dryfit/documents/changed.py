"""What is different between two books, as their book.json have them: what of it is in the wood already comes first.

Figures count as different from half of what sheets print on: positions and depths 0.05, widths 0.025, angles 0.005.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any, TypeAlias

from .naming import LEAST

Data: TypeAlias = dict[str, Any]

PLACE, WIDTH, DEGREES = LEAST, LEAST / 2, 0.005  # halves of the steps printed
SIZES = {"length": PLACE, "width": PLACE, "thickness": WIDTH}
CUT = {"across": WIDTH, "deep": PLACE, "stop": PLACE, "lean": DEGREES, "between_faces": DEGREES}


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangedFigure:
    """A figure before and after; None where there is none. `word` says of what, `on` the surface of a position."""

    word: str
    before: float | None
    after: float | None
    on: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangedCut:
    """A cut that is gone (`how` "gone"), new, or different.

    Attributes:
        made: whether it is in the wood.
        figures: what is different of one that stays.
    """

    key: str
    how: str
    made: bool
    figures: tuple[ChangedFigure, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangedPart:
    """A part that is gone, new, or different; `mark` its letter, `before` that which it had."""

    name: str
    how: str
    mark: str
    before: str
    sizes: tuple[ChangedFigure, ...] = ()
    cuts: tuple[ChangedCut, ...] = ()

    @property
    def made(self) -> bool:
        """Whether wood is concerned that is cut already."""
        return any(cut.made for cut in self.cuts)


@dataclass(frozen=True, slots=True, kw_only=True)
class ListedRow:
    """A row of a list that is gone or new: what it is, and how many."""

    how: str
    what: str
    sizes: tuple[float, ...]
    count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Changes:
    """All that is different.

    Attributes:
        parts: those with cut wood first, then by letter.
        bought: rows of timber and hardware.
        setups: names of set-ups that are set otherwise, gone or new, with the cuts they make.
        order: the first step of putting it together that is another: (before, after) by names; None for none.
        findings: sentences that are new, and those that are gone.
        not_told: what one of the two says nothing of.
    """

    parts: tuple[ChangedPart, ...]
    bought: tuple[ListedRow, ...]
    setups: tuple[tuple[str, str], ...]
    order: tuple[str, str] | None
    findings: tuple[tuple[str, str], ...]
    not_told: tuple[str, ...] = field(default=())

    @property
    def any(self) -> bool:
        """Whether anything is."""
        return bool(self.parts or self.bought or self.setups or self.order or self.findings)


def changes(before: Data, after: Data) -> Changes:
    """Compare the data of two books."""
    parts = sorted(_parts(before, after), key=lambda one: (not one.made, len(one.mark), one.mark))
    lacking = [
        name for name in ("buying", "setups", "order") if any(name not in book["studies"] for book in (before, after))
    ]
    return Changes(
        parts=tuple(parts),
        bought=() if "buying" in lacking else tuple(_bought(before, after)),
        setups=() if "setups" in lacking else tuple(_setups(before, after)),
        order=None if "order" in lacking else _order(before, after),
        findings=tuple(_findings(before, after)),
        not_told=tuple(lacking),
    )


# --- parts ---------------------------------------------------------------------------------------


def _both(before: list[Data], after: list[Data], key: str) -> Iterator[tuple[str, Data | None, Data | None]]:
    """Rows of two lists side by side by their key, those of the second in its order, then what is gone."""
    old, new = {row[key]: row for row in before}, {row[key]: row for row in after}
    for name in [*new, *(name for name in old if name not in new)]:
        yield name, old.get(name), new.get(name)


def _parts(before: Data, after: Data) -> Iterator[ChangedPart]:
    for name, old, new in _both(before["parts"], after["parts"], "id"):
        there = new or old
        assert there is not None
        how = "changed" if old and new else "new" if new else "gone"
        sizes = tuple(_figures(old, new, SIZES)) if old and new else ()
        cuts = tuple(_cuts(old["cuts"] if old else [], new["cuts"] if new else []))
        if how != "changed":
            cuts = tuple(cut for cut in cuts if cut.made)  # of a board that comes or goes, what is cut already
        if how != "changed" or sizes or cuts:
            mark = old["mark"] if old else ""
            yield ChangedPart(name=name, how=how, mark=there["mark"], before=mark, sizes=sizes, cuts=cuts)


def _figures(old: Data, new: Data, steps: Mapping[str, float]) -> Iterator[ChangedFigure]:
    for word, step in steps.items():
        if _differ(old[word], new[word], step):
            yield ChangedFigure(word=word, before=old[word], after=new[word])


def _differ(one: float | None, other: float | None, step: float) -> bool:
    if one is None or other is None:
        return one is not other
    return abs(one - other) >= step


def _cuts(before: list[Data], after: list[Data]) -> Iterator[ChangedCut]:
    for key, old, new in _both(before, after, "key"):
        made = any(cut is not None and cut["made"] for cut in (old, new))
        if old is None or new is None:
            yield ChangedCut(key=key, how="new" if old is None else "gone", made=made)
            continue
        figures = (*_places(old, new), *_figures(old, new, CUT))
        if figures:
            yield ChangedCut(key=key, how="changed", made=made, figures=figures)


def _places(old: Data, new: Data) -> Iterator[ChangedFigure]:
    """Its mark nearer the datum on each surface; one that goes off a surface has none there."""
    for on, one, other in _both(old["position"], new["position"], "on"):
        before, after = (one["at"] if one else None), (other["at"] if other else None)
        if _differ(before, after, PLACE):
            yield ChangedFigure(word="position", before=before, after=after, on=on)


# --- lists ---------------------------------------------------------------------------------------


def _bought(before: Data, after: Data) -> Iterator[ListedRow]:
    for rows in (_timber, _hardware):
        old, new = rows(before["studies"]["buying"]), rows(after["studies"]["buying"])
        for key in [*new, *(key for key in old if key not in new)]:
            had, wants = old.get(key, 0), new.get(key, 0)
            if had != wants:
                how = "new" if wants > had else "gone"
                yield ListedRow(how=how, what=key[0], sizes=key[1:], count=abs(wants - had))


def _timber(buying: Data) -> dict[tuple[Any, ...], int]:
    """Pieces of each timber by what is ordered of them: length, width, thickness."""
    found: dict[tuple[Any, ...], int] = {}
    for timber in buying["timber"]:
        for lot in timber["lots"]:
            key = (timber["timber"], lot["length"], lot["width"], timber["sold"])
            found[key] = found.get(key, 0) + lot["pieces"]
    return found


def _hardware(buying: Data) -> dict[tuple[Any, ...], int]:
    return {(f"{item['name']} {item['says']}",): item["take"] for item in buying["hardware"]}


def _setups(before: Data, after: Data) -> Iterator[tuple[str, str]]:
    """Set-ups by what is set: one renumbered, or with other cuts, is none that is set otherwise."""

    def said(one: Data) -> str:
        words = (f"{word} {one[word]:g}" for word in ("across", "lean", "deep") if one[word])
        return " ".join([one["makes"], *words, one["head"], one["with"]]).strip()

    old, new = ({said(one): one["name"] for one in book["setups"]} for book in (before, after))
    yield from (("new", f"{name}: {words}") for words, name in new.items() if words not in old)
    yield from (("gone", f"{name}: {words}") for words, name in old.items() if words not in new)


def _order(before: Data, after: Data) -> tuple[str, str] | None:
    """The first step that is another."""
    steps: Callable[[Data], list[str]] = lambda book: [  # noqa: E731 - told twice
        ", ".join(step["parts"]) for stage in book["studies"]["order"]["stages"] for step in stage["steps"]
    ]
    old, new = steps(before), steps(after)
    for one, other in zip([*old, ""], [*new, ""], strict=False):
        if one != other:
            return one, other
    return None


def _findings(before: Data, after: Data) -> Iterator[tuple[str, str]]:
    old, new = ([f"{one['severity']}: {one['says']}" for one in book["findings"]] for book in (before, after))
    yield from (("new", says) for says in new if says not in old)
    yield from (("gone", says) for says in old if says not in new)
