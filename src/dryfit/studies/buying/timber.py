"""Timber: boards of one size as one lot, what is left at their ends and edges, how many come out of a panel.

Nobody saws an order to tenths: its lengths are rounded up to 5, or to a quarter of an inch, its widths to a whole
millimetre, or to a sixteenth of an inch (ours). A sheet is sawn clean to its width, so nothing is left at its edges;
nor is there at those of what is bought sawn, which is wider by what is planed off.
"""

import math
from collections.abc import Iterator, Sequence

from ...geometry.frames import length
from ...lengths import MM2_PER_M2, MM3_PER_M3, MM_PER, MM_PER_M, LengthUnit
from .result import Lot, TimberOrder, Trial
from .value import BuyingValue, PartValue, TimberValue

LONG_STEPS: dict[LengthUnit, float] = {"mm": 5.0, "in": MM_PER["in"] / 4}
WIDE_STEPS: dict[LengthUnit, float] = {"mm": 1.0, "in": MM_PER["in"] / 16}
SLACK = 1e-6  # of a step: a size this near to one is that one, whatever a float's last bit says
TOLD = 1  # places to which finished sizes are told: what reads the same is one lot
LONGEST_TRIAL = 600.0  # of a piece for trial cuts: it is held and turned by one pair of hands (ours)


def up(size: float, step: float) -> float:
    """The next multiple of a step that is no less."""
    return length(math.ceil(size / step - SLACK) * step)


def orders(value: BuyingValue, trials: Sequence[Trial]) -> Iterator[TimberOrder]:
    """What is ordered of each timber that has parts."""
    for timber in value.timbers:
        parts = [part for part in value.parts if part.timber == timber.name]
        own = [trial for trial in trials if trial.timber == timber.name]
        yield _order(value, timber, parts, tuple(_lots(value, timber, parts, own)))


def _order(value: BuyingValue, timber: TimberValue, parts: Sequence[PartValue], lots: tuple[Lot, ...]) -> TimberOrder:
    m2 = math.fsum(lot.m2 for lot in lots)
    masses = [lot.kg for lot in lots if lot.kg is not None]
    panel = timber.panel
    return TimberOrder(
        timber=timber.name,
        species=timber.species,
        form=timber.form,
        stock=timber.stock,
        sold_as=timber.sold_as,
        sold=timber.sold,
        least=length(max(part.blank[2] for part in parts)),
        planed_to=(min(part.thickness[0] for part in parts), max(part.thickness[1] for part in parts)),
        measured=timber.measured,
        planing=timber.planing,
        edge=edge_of(value, timber),
        panel=panel,
        longest=timber.longest,
        panels=None if panel is None else _panels(panel, lots, value.kerf),
        waste=timber.waste,
        waste_from=timber.waste_from,
        lots=lots,
        metres=math.fsum(lot.pieces * lot.length for lot in lots) / MM_PER_M,
        m2=m2,
        kg=math.fsum(masses) if len(masses) == len(lots) else None,
    )


def _panels(panel: tuple[float, float], lots: Sequence[Lot], kerf: float) -> tuple[int, int] | None:
    """How many panels there must be by area alone, and how many hold all pieces; None where a piece is larger."""
    if not all(lot.from_panel for lot in lots):
        return None
    area = math.fsum(lot.m2 for lot in lots) * MM2_PER_M2
    return math.ceil(area / (panel[0] * panel[1]) - SLACK), panels_for(panel, lots, kerf)


def panels_for(panel: tuple[float, float], lots: Sequence[Lot], kerf: float) -> int:
    """Panels that hold all pieces, ripped into rows and these sawn across: the widest first, into the first row for it.

    It is a number that does, not the least that can.
    """
    pieces = sorted(((lot.width, lot.length) for lot in lots for _ in range(lot.pieces)), reverse=True)
    rows: list[list[float]] = []  # of each its width and what is left of its length
    across: list[float] = []  # what is left of each panel's width
    for wide, long in pieces:
        row = next((row for row in rows if row[0] >= wide - SLACK and row[1] >= long - SLACK), None)
        if row is None:
            at = next((at for at, left in enumerate(across) if left >= wide - SLACK), len(across))
            across += [panel[1]] if at == len(across) else []
            across[at] -= wide + kerf
            row = [wide, panel[0]]
            rows.append(row)
        row[1] -= long + kerf
    return len(across)


def edge_of(value: BuyingValue, timber: TimberValue) -> float:
    """What is left at each edge to be ripped off."""
    return 0.0 if timber.planing or timber.sold_as == "sheet" else value.edge


def ordered(value: BuyingValue, timber: TimberValue, part: PartValue) -> tuple[float, float]:
    """Length and width of a part's piece as ordered."""
    return _rounded(value, part.blank[0], part.blank[1] + 2 * edge_of(value, timber))


def _rounded(value: BuyingValue, long: float, wide: float) -> tuple[float, float]:
    return up(long, LONG_STEPS[value.units]), up(wide, WIDE_STEPS[value.units])


def _lots(
    value: BuyingValue, timber: TimberValue, parts: Sequence[PartValue], trials: Sequence[Trial]
) -> Iterator[Lot]:
    """The boards, the longest and widest first, then what is for trial cuts and to spare."""
    alike: dict[object, list[PartValue]] = {}
    for part in parts:
        key = ordered(value, timber, part), tuple(round(size, TOLD) for size in part.finished), part.shows
        alike.setdefault(key, []).append(part)
    found = [_of_boards(value, timber, same) for same in alike.values()]
    found.sort(key=lambda lot: (-lot.length, -lot.width))
    yield from found
    thick = max(part.blank[2] for part in parts)
    for size, count in _trial_size(value, timber, trials):
        yield _lot(value, timber, size, thick, what="trial cuts", pieces=count)
    if value.spare_boards:
        size = found[0].length, found[0].width
        yield _lot(value, timber, size, thick, what="spare", pieces=value.spare_boards)


def _of_boards(value: BuyingValue, timber: TimberValue, parts: Sequence[PartValue]) -> Lot:
    first, thick = parts[0], max(part.blank[2] for part in parts)
    return _lot(
        value,
        timber,
        ordered(value, timber, first),
        thick,
        what="boards",
        pieces=len(parts),
        boards=tuple(part.name for part in parts),
        finished=first.finished,
        shows=first.shows,
    )


def _lot(
    value: BuyingValue,
    timber: TimberValue,
    size: tuple[float, float],
    thick: float,
    *,
    pieces: int,
    **more: object,
) -> Lot:
    long, wide = size
    m2 = pieces * long * wide / MM2_PER_M2
    kg_m3 = timber.kg_m3
    return Lot(
        pieces=pieces,
        length=long,
        width=wide,
        m2=m2,
        kg=None if kg_m3 is None else m2 * MM2_PER_M2 * thick / MM3_PER_M3 * kg_m3,
        from_panel=from_panel(size, timber, value.kerf),
        **more,  # type: ignore[arg-type]
    )


def from_panel(size: tuple[float, float], timber: TimberValue, kerf: float) -> int | None:
    """How many pieces one panel gives, sawn in rows: along its length, across it, with a kerf between two."""
    along = None if timber.longest is None else rows_in(timber.longest, size[0], kerf)
    if timber.panel is None:
        return along
    return rows_in(timber.panel[0], size[0], kerf) * rows_in(timber.panel[1], size[1], kerf)


def rows_in(whole: float, one: float, kerf: float) -> int:
    """How many of a length come out of a whole with a kerf between each two: 8 of 300 out of 2440 with 3.2."""
    return int((whole + kerf) / (one + kerf) + SLACK)


def _trial_size(
    value: BuyingValue, timber: TimberValue, trials: Sequence[Trial]
) -> Iterator[tuple[tuple[float, float], int]]:
    """Pieces for all trials of a timber, all alike and no longer than one pair of hands turns; nothing for none."""
    lengths = sorted((trial.length for trial in trials), reverse=True)
    filled: list[float] = []
    for long in lengths:  # the longest first, each into the first piece that has room for it
        at = next((at for at, so_far in enumerate(filled) if so_far + long <= LONGEST_TRIAL), None)
        if at is None:
            filled.append(long)
        else:
            filled[at] += long
    if filled:
        wide = max(trial.width for trial in trials) + 2 * edge_of(value, timber)
        yield _rounded(value, max(filled), wide), len(filled)
