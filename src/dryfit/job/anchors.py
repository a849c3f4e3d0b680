"""The `[anchor.NAME]` tables: what is screwed into, as its maker's sheet describes it."""

from collections.abc import Iterable, Mapping

from ..places import Path
from ..trade.anchors import OTHER, Anchor, read_takes, type_called
from .mistakes import Mistakes
from .names import shown
from .schema import AnchorTable
from .sizes import Sizes


def read_anchors(
    tables: Iterable[tuple[str, AnchorTable, Path]], measures: Mapping[str, float], mistakes: Mistakes
) -> dict[str, Anchor]:
    """The anchors by name; a capacity without its source is a mistake."""
    return {name: _anchor(name, table, path, measures, mistakes) for name, table, path in tables if table.type}


def _anchor(name: str, table: AnchorTable, path: Path, measures: Mapping[str, float], mistakes: Mistakes) -> Anchor:
    sizes = Sizes(table, path, measures, mistakes)
    if not table.source and (table.pull_n is not None or table.shear_n is not None):
        says = f"the anchor {shown(name)} gives a capacity without its source"
        mistakes.add(path, says, 'add source = "the sheet of its maker", with the page', read="")
    kind = type_called(table.type or "") or OTHER
    takes = read_takes(table.screw) if table.screw else None
    return Anchor(
        name=name,
        type=kind,
        described=True,
        drill=sizes.of("drill"),
        deep=sizes.of("deep"),
        clamps=_clamps(sizes.of("clamps"), path, mistakes),
        void=sizes.of("void"),
        length=sizes.of("length"),
        takes=takes[1] if takes else None,
        screw=takes[0] if takes else kind.screw,
        apart=sizes.of("apart"),
        pull_n=table.pull_n,
        shear_n=table.shear_n,
        strength=table.strength,
        source=table.source,
    )


def _clamps(worked: list[float | None] | None, path: Path, mistakes: Mistakes) -> tuple[float, float] | None:
    low, high = worked or (None, None)
    if low is None or high is None:
        return None
    if not 0.0 <= low <= high:
        says = f"it clamps from {mistakes.said(low)} to {mistakes.said(high)}"
        mistakes.add((*path, "clamps"), says, "write the smaller figure first", read="")
    return low, high
