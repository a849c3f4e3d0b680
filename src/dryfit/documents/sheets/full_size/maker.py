"""The full-size paper: strips, then templates, then angles; in each the parts in the order of their letters."""

from collections.abc import Iterable, Iterator
from functools import partial

from ...display import Draft
from ...looks import Desk, Look
from ...sheet import DeferredSheets, sheet
from ..part.fellows import Pair, fellows
from .angles import angle_sheets
from .corners import corners
from .drilling import holes
from .paper import PrintedBlock, sheets
from .strips import strips
from .templates import bevels, slots


@sheet("full-size", paper="full-size", order=10)
def full_size_sheets(desk: Desk) -> Iterator[DeferredSheets]:
    """All of them."""
    for title, draw in (("strips", strip_sheets), ("templates", template_sheets), ("paper angles", _angles)):
        yield DeferredSheets(title=f"{title} at full size", draw=partial(draw, desk))


def strip_sheets(desk: Desk) -> list[Draft]:
    """Strips along the edges of all parts."""
    blocks = [block for found in fellows(desk) for strip in strips(found) for block in strip.blocks(desk)]
    return sheets(desk, "strips along edges", blocks)


def template_sheets(desk: Desk) -> list[Draft]:
    """Templates of slots, of bevelled ends, of holes, of corners."""
    return sheets(desk, "templates", _templates(desk))


def _templates(desk: Desk) -> Iterable[PrintedBlock]:
    looks = drawn(desk)
    for made in (slots(looks), bevels(looks), (one for look in looks for one in holes(look)), corners(desk)):
        for template in made:
            yield from template.blocks(desk)


def _angles(desk: Desk) -> list[Draft]:
    return angle_sheets(desk, drawn(desk))


def drawn(desk: Desk) -> list[Look]:
    """Of what shares a sheet, the parts that are drawn: both hands of a pair, of parts that are alike the first.

    That one bears the letters of all.
    """
    return [look for found in fellows(desk) for look in (found.looks if isinstance(found, Pair) else (found.shown,))]
