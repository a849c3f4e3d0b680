"""Hardware with its spares and the strips of what is made in the shop; the finish, its abrasives and its tape."""

import math
from collections.abc import Iterator, Sequence

from ...lengths import MM_PER_M
from ...trade.sanding import bare_wood, between_coats
from .result import LEAST_SPARE, LOST, ONE_IN, FinishToBuy, Supply
from .timber import up
from .value import FinishValue, WareValue

STRIP = 10.0  # strips are told to this, and are so much longer for what is held (common practice)
TAPE_WIDE = 25.0  # masking tape as sold (from memory)


def spares(count: int) -> int:
    """How many more of a thing to take than are needed (common practice)."""
    return max(LEAST_SPARE, -(-count // ONE_IN))


def supplies(wares: Sequence[WareValue], kerf: float) -> Iterator[Supply]:
    """Hardware of one name and size together, as the joints come."""
    alike: dict[tuple[str, str], list[WareValue]] = {}
    for ware in wares:
        alike.setdefault((ware.name, ware.printed), []).append(ware)
    for same in alike.values():
        first, needed = same[0], sum(ware.count for ware in same)
        take = needed + spares(needed)
        yield Supply(
            name=first.name,
            says=first.says,
            asks=first.asks,
            in_mm=first.in_mm,
            joints=tuple(dict.fromkeys(ware.joint for ware in same)),
            needed=needed,
            take=take,
            strip=_strip(first, take, kerf),
            diameter=first.diameter,
        )


def _strip(ware: WareValue, take: int, kerf: float) -> tuple[float, float, float] | None:
    """A strip for all of them, with what the saw takes between two and what holds it at its end."""
    strip = ware.strip
    if strip is None:
        return None
    each = strip.along + (kerf if strip.sawn else 0.0)
    return up(take * each + STRIP, STRIP), strip.across, strip.thick


def finish_to_buy(value: FinishValue) -> FinishToBuy:
    """How much of it, and what goes with it."""
    tape = math.fsum(mask.strips * math.ceil(mask.wide / TAPE_WIDE) * mask.long for mask in value.masks)
    litres = None if value.covers is None else value.m2 * value.coats / value.covers * (1 + LOST)
    return FinishToBuy(
        system=value.system,
        coats=value.coats,
        m2=value.m2,
        off_m2=value.off_m2,
        litres=litres,
        covers=value.covers,
        covers_from=value.covers_from,
        grits=bare_wood(into_wood=value.into_wood),
        between=next(iter(between_coats(value.coats, into_wood=value.into_wood)), 0),
        tape=tape * (1 + LOST) / MM_PER_M,
        tape_wide=TAPE_WIDE,
        masked=tuple(dict.fromkeys(mask.board for mask in value.masks)),
    )
