"""Cuts of a piece as they are written down when they are made: in the figures that its sheets show.

Recording a cut pins its board: where positions are counted from, the face side, the letter. What was recorded
by hand with fewer figures is filled up at the same time, so that it no longer follows the job.
"""

from collections.abc import Iterable
from dataclasses import replace

from .as_cut import fitting
from .made import identity, with_cuts, with_pins, with_thicknesses
from .model import DATUM_END, Board, Cut, Part, Piece
from .reshaping import lean_of_end, measured, old_cut
from .setout import AsCut, Made, Pin

DIGITS = 3  # to which a figure is written


def pin_of(part: Part) -> Pin:
    """What is held still of a board."""
    board = part.board
    return Pin(datum="end" if board.flipped else "start", face_side=_side(board), mark=part.mark)


def _side(board: Board) -> str:
    """The face side as seen along the line as drawn: it stays so however the board is dragged."""
    if board.lies == "flat":
        return "wall" if board.face_side > 0 else "front"
    return "left" if (board.face_side > 0) != board.flipped else "right"


def record_of(piece: Piece, part: Part, cut: Cut) -> AsCut:
    """A cut as it stands in the piece, to be written down."""
    board = part.board
    if cut.end:
        end = "start" if (cut.end == DATUM_END) != board.flipped else "end"
        return AsCut(board=part.id, end=end, length=_figure(part.length), lean=_degrees(lean_of_end(cut)), opens="end")
    found = measured(board, cut, part.zero)
    stopped = bool(cut.face) and found.opens != "end"
    return AsCut(
        board=part.id,
        between=cut.joint or (),
        name=_name(part, cut),
        at=_figure(found.at),
        across=_figure(found.across),
        deep=_figure(found.deep),
        opens=found.opens,
        lean=_degrees(found.lean),
        stop=_figure(found.stop) if stopped else None,
        stop_wall=_figure(found.stop_wall) if stopped else None,
        takes=_takes(piece, part, cut),
    )


def recorded_of(made: Made, part: Part, cut: Cut) -> AsCut | None:
    """What is recorded of a cut, however its table names it; None where nothing is."""
    for one in made.cuts:
        if one.board == part.id and cut.is_old:
            if (old := old_cut(part.board, one, part.zero)) is not None and old.key == cut.key:
                return one
        elif one.board == part.id and bool(one.end) == bool(cut.end):
            found = fitting(part.board, part.cuts, one)
            if cut in found and (one.end or len(found) == 1):
                return one
    return None


def _figure(value: float | None) -> float | None:
    return None if value is None else round(value, DIGITS) + 0.0


def _degrees(value: float) -> float:
    return round(value, 4) + 0.0


def _takes(piece: Piece, part: Part, cut: Cut) -> float | None:
    """Thickness of the board that enters; None where none does."""
    joint = piece.joint_by_key.get(cut.joint) if cut.joint is not None else None
    if joint is None or cut.takes not in piece.board_by_name:
        return None
    return _figure(joint.meeting.other(part.id).thickness)


def _name(part: Part, cut: Cut) -> str:
    """What tells a cut from the pair's others in the board; "" where it is alone."""
    alone = not any(not other.end and other.joint == cut.joint and other.key != cut.key for other in part.cuts)
    return "" if alone else cut.name or cut.key


def recorded_text(text: str, piece: Piece, made: Made, records: Iterable[AsCut]) -> str:
    """The text of a made file with cuts recorded, their boards pinned, and earlier records filled up.

    Args:
        text: of the made file, "" where there is none.
        piece: that the cuts are of.
        made: what the text says.
        records: what is to be written down, as `record_of` gives it.
    """
    new = list(records)
    boards = dict.fromkeys(one.board for one in (*new, *made.cuts))
    parts = piece.part_by_name
    pins = {name: pin_of(parts[name]) for name in boards if name in parts and not _pinned(made, name)}
    units = piece.job.units if piece.job is not None else "mm"
    if pins:
        text = with_pins(text, pins)
    if boards:
        text = with_thicknesses(text, _then(piece, boards), units)
    fresh = {identity(one) for one in new}
    filled = [_filled(piece, one) for one in made.cuts if identity(one) not in fresh]
    return with_cuts(text, [*filled, *new], units)


def _then(piece: Piece, boards: Iterable[str]) -> dict[str, float]:
    """Thickness of boards and of those joined to them, as it was before sanding; of boards that have one."""
    cut = set(boards)
    joined = {name for joint in piece.joints if cut.intersection(joint.key) for name in joint.key}
    loss = 2 * piece.job.finish.sanded if piece.job is not None else 0.0
    return {
        board.name: round(board.thickest + loss, DIGITS) + 0.0
        for board in piece.boards
        if board.name in joined | cut and len(board.profile) == 1
    }


def _pinned(made: Made, name: str) -> bool:
    return bool(made.pins.get(name, Pin()).mark)


def _filled(piece: Piece, one: AsCut) -> AsCut:
    """A record with what nobody wrote down taken as worked out now; as it is, where its cut is not there."""
    part = piece.part_by_name.get(one.board)
    found = fitting(part.board, part.cuts, one) if part is not None else []
    if part is None or len(found) != 1 or not found[0].made:
        return one
    now = record_of(piece, part, found[0])
    if one.end:
        return replace(one, lean=now.lean if one.lean is None else one.lean)
    return replace(
        one,
        lean=now.lean if one.lean is None else one.lean,
        stop=now.stop if one.stop is None else one.stop,
        stop_wall=now.stop_wall if one.stop_wall is None else one.stop_wall,
        takes=now.takes if one.takes is None else one.takes,
    )
