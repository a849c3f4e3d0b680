"""The sheets: each kind of sheet is a room, whose `maker` registers it; what they share has rooms of its own.

    overall     the whole piece in elevation
    lists       boards, blanks, hardware, glue, set-ups, joints, findings: as tables
    part        a part's sheet, of several that are alike and of a pair of hands too
    joint       a detail of every kind of joint in the piece
    fixings     the wall and the screws that hold the piece to it
    booklet     the assembly, a picture a step
    gluing      a card for each go of the glue-up
    approval    the drawing that client and maker sign

    page        heading, title block, tables, paragraphs: what every sheet is laid out with

    lifting     how many people lift a piece

What a kind of sheet gives stands above this folder, in `sheet`; how it places, breaks, dimensions and labels, in `kit`.

Imports go one way: no shared room knows a kind of sheet. A kind may use what another works out: the lists a part's
words, a joint's detail the chain of a screw in `fixings`, the cards the booklet's steps. In `part`: words, then faces,
ends, stack and sketches, page, hands. In `joint`: stance and roles, then figures, then views, then layout.

A new kind is a room with a `maker`, or one file where that is enough; it is found by standing here.
"""

from importlib import import_module
from importlib.util import find_spec

from ...scanning import modules_in
from ..sheet import SHEETS, DeferredSheets, Sheet, kinds_of

__all__ = ["SHEETS", "DeferredSheets", "Sheet", "kinds_of"]

for _room in modules_in(__name__, __path__):
    if hasattr(_room, "__path__") and find_spec(f"{_room.__name__}.maker"):
        import_module(f"{_room.__name__}.maker")
