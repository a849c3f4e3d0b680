"""The card of what is chosen: a board, a frame, a joint, a fixing; the job where nothing is.

Its rows are read off the schema (`rows`); what holds where nothing is written is what the rooms worked out.
"""

from ...job.edits import sheet_of
from ...keeping import Keep
from ...places import Path
from .. import requests
from ..answers import Card
from ..drawn import Drawn
from ..points import frame_of
from .boards import board_card, frame_card, row_card
from .jobs import job_card
from .joints import fixing_card, fixing_path, joint_card, joint_table, meeting_of

__all__ = ["card", "joint_table", "meeting_of", "table_of"]


def card(drawn: Drawn, of: requests.CardOf, revision: int, keep: Keep) -> Card:
    """The card of what is named; the job's where nothing is.

    Raises:
        Refused: there is no such thing.
    """
    sheet = sheet_of(drawn.text)
    if of.board is not None:
        return board_card(drawn, sheet, of.board, revision, keep)
    if of.row is not None:
        return row_card(drawn, sheet, of.row, revision)
    if of.frame is not None:
        return frame_card(drawn, sheet, frame_of(drawn.job, of.frame), revision)
    if of.joint is not None:
        return joint_card(drawn, sheet, meeting_of(drawn, of.joint), revision, keep)
    if of.fixing is not None:
        return fixing_card(drawn, sheet, of.fixing, revision)
    return job_card(drawn, sheet, revision)


def table_of(drawn: Drawn, of: requests.CardOf) -> Path:
    """The table that a card's values stand in."""
    if of.board is not None or of.row is not None:
        return drawn.spec(of.board or of.row or "").path
    if of.frame is not None:
        return frame_of(drawn.job, of.frame).path
    if of.joint is not None:
        return joint_table(drawn, meeting_of(drawn, of.joint).key)
    if of.fixing is not None:
        return fixing_path(drawn, of.fixing)
    return ()
