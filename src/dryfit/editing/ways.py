"""The ways in which a move may be written, as they are offered to the hand: see the table in `moving`."""

from ..job import style
from ..job.edits import sheet_of
from ..job.model import BoardSpec
from . import requests
from .answers import Offer
from .drawn import Drawn
from .levers import levers
from .moving import HERE, NAMED, ONE, PLAIN_NUMBER, by_measure, is_row, specs_of
from .points import Moved, moving_with, points_of


def offers(drawn: Drawn, target: requests.Target) -> tuple[Offer, ...]:
    """The ways in which a move of the target may be written, the usual one first."""
    if isinstance(target, requests.NewTarget):
        return ()
    moves = points_of(drawn, target, (1.0, 1.0))
    names = tuple(moving_with(drawn, moves))
    rows = [spec for spec in specs_of(drawn, target) if is_row(drawn, spec)]
    found = [Offer(id=HERE, says=_here_said(rows, names), boards=names, relates=not rows)]
    if rows:
        own = tuple(spec.name for spec in rows)
        found.append(Offer(id=ONE, says=f"only {', '.join(own)}", boards=own, relates=True))
    for lever in levers(drawn, moves):
        count = len(lever.boards)
        axes = {path[-1] for path in lever.slopes}
        found.append(
            Offer(
                id=by_measure(lever.name),
                says=f"change {lever.name}: {count} {'board follows' if count == 1 else 'boards follow'}",
                boards=lever.boards,
                axis="" if len(axes) == 2 else "x" if axes == {0} else "y",
            )
        )
    if not rows:
        found += _as_numbers(drawn, moves, names)
    return tuple(found)


def _as_numbers(drawn: Drawn, moves: tuple[Moved, ...], names: tuple[str, ...]) -> list[Offer]:
    sheet = sheet_of(drawn.text)
    values = [sheet.get((*moved.path, place)) for moved in moves for place in (0, 1)]
    arithmetic = any(isinstance(value, str) and style.lone_length(value) is None for value in values)
    found = [Offer(id=PLAIN_NUMBER, says="as a plain number", boards=names)] if arithmetic else []
    if len(moves) == 1 or len({moved.at for moved in moves}) < len(moves):
        return [*found, Offer(id=NAMED, says="as a new measure", boards=names, named=True)]
    for axis, place in (("x", 0), ("y", 1)):
        if len({moved.at[place] for moved in moves}) == 1:
            found.append(
                Offer(id=NAMED, says="as a new measure", boards=names, axis="x" if axis == "x" else "y", named=True)
            )
    return found


def _here_said(rows: list[BoardSpec], names: tuple[str, ...]) -> str:
    if rows:
        return f"the whole row: {', '.join(names)}"
    return "where it stands in the file"
