"""The sheets: each kind of sheet is a room, whose `maker` registers it; what they share has rooms of its own.

    overall     the whole piece in elevation
    lists       boards, blanks, hardware, glue, set-ups, joints, findings: as tables
    part        a part's sheet, of several that are alike and of a pair of hands too
    joint       a detail of every kind of joint in the piece
    fixings     the wall and the screws that hold the piece to it
    booklet     the assembly, a picture a step
    gluing      a card for each go of the glue-up

    page        heading, title block, tables, paragraphs: what every sheet is laid out with
    dimensions  running and plain dimensions, and the ruler that breaks a long board

    registry    what a kind of sheet gives; `lifting`: how many people lift a piece

Imports go one way: no shared room knows a kind of sheet. A kind may use what another works out: the lists a part's
words, a joint's detail the chain of a screw in `fixings`, the cards the booklet's steps. In `part`: words, then faces,
ends, stack and sketches, page, hands. In `joint`: stance and roles, then drawing and figures, then views, then layout.

A new kind is a room here, or one file where that is enough, and its line below.
"""

from .booklet import maker as assembly_maker
from .fixings import maker as fixings_maker
from .gluing import maker as gluing_maker
from .joint import maker as joint_maker
from .lists import maker as lists_maker
from .overall import maker as overall_maker
from .part import maker as part_maker
from .registry import SHEETS, Apart, Draft, Sheet, kinds_of

__all__ = [
    "SHEETS",
    "Apart",
    "Draft",
    "Sheet",
    "assembly_maker",
    "fixings_maker",
    "gluing_maker",
    "joint_maker",
    "kinds_of",
    "lists_maker",
    "overall_maker",
    "part_maker",
]
