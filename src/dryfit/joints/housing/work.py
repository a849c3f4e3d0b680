"""How a housing is cut, by its form, and the end that goes in."""

import math

from ...piece.letting_in import FACE_FLOOR, SHOULDERED, SQUARE_FLOOR
from ...piece.model import Board, Cut
from ...piece.operations import Operation, Way, WorkSort, across, leans, let_in_reach, router_needs, sawn
from ...sentences import say
from ...shop.tools import Ability, Need, Process


def operation(cut: Cut, board: Board, form: str) -> Operation:
    """One of the two cuts of a housing."""
    if cut.end:
        return sawn([cut], board)
    ways = _walls_sawn(cut, board) if form == FACE_FLOOR else _routed(cut, board, form)
    return Operation(key=cut.key, work=WorkSort.ACROSS, cuts=(cut.key,), ways=ways)


def _routed(cut: Cut, board: Board, form: str) -> tuple[Way, ...]:
    """Floor square to the walls: with a router on a guide, tilted where they lean; else chopped by hand."""
    sets = across(cut, board)
    makes = say("{}, tilted router", cut.plain) if form == SQUARE_FLOOR else cut.plain
    says = {
        SQUARE_FLOOR: "tilted router: floor square to the walls",
        SHOULDERED: "router on a guide: walls square to the face",
    }.get(form, "router on a guide")
    by_hand = "sawn and chopped by hand: floor square to the walls" if form else "sawn and chopped by hand"
    return (
        Way(process=Process.ROUTER, makes=makes, says=says, needs=router_needs(cut, let_in_reach(cut)), sets=sets),
        Way(process=Process.HAND, makes=cut.plain, says=by_hand, sets=sets),
    )


def _walls_sawn(cut: Cut, board: Board) -> tuple[Way, ...]:
    """Floor parallel to the face: the walls sawn at their lean, with a saw set over or by hand."""
    sets, lean = across(cut, board), abs(cut.figures.lean)
    deep = (cut.figures.deep or 0.0) / math.cos(math.radians(lean))
    needs = Need(ability=Ability.LEAN, least=lean), Need(ability=Ability.DEPTH, least=deep)
    makes = say("{}, walls sawn, floor levelled", cut.plain) if leans(cut) else cut.plain
    return (
        Way(process=Process.SAW, makes=makes, says="walls sawn, floor levelled", needs=needs, sets=sets),
        Way(process=Process.HAND, makes=makes, says="walls sawn by hand, floor levelled", sets=sets),
    )
