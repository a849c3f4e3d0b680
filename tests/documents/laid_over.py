"""Lays parts that are built from their sheets over those of the book, cut by cut, and says where they are not alike."""

import manifold3d as m3

from tests.documents.built_from_words import INCHES, METRIC, Bound, Builder
from tests.documents.sheet_words import sheets_in


def laid(sheet, book, letter):
    """The builder with the part as its sheet has it, and the part as it is, in one frame."""
    builder = Builder(sheet, INCHES if book.job.units == "in" else METRIC)
    made = builder.solid()
    part = next(part for part in book.piece.parts if part.mark == letter)
    if not sheet.front_below:  # the face side lies at -c of a right-handed frame
        made = made.scale((1, -1, 1))
    if not sheet.hand and sheet.front_below != (
        part.board.face_side > 0
    ):  # of two alike the other is the one turned end for end
        made = made.scale((-1, -1, 1)).translate((builder.length, 0, 0))
    return builder, made, book.solids.solid(part).translate((-part.zero, 0, 0))


def apart(one, other):
    """Volume of what is in one and not in both."""
    return float((one - other).volume() + (other - one).volume())


def too_far(builder, made, part):
    """The slices in which the two differ by more than rounding can make them, each with how much more."""
    found = []
    for bound in builder.bounds:
        box = m3.Manifold.cube((bound.high - bound.low, 4000, 4000)).translate((bound.low, -2000, -2000))
        differ, may = apart(made ^ box, part ^ box), builder.allowed(bound)
        if differ > may:
            found.append(f"{bound.low:.1f} to {bound.high:.1f}: {differ:.0f} mm3 apart, {may:.0f} by rounding")
    return found


def faults(builder, made, part):
    """The same, and what is wrong with the whole of it."""
    may, differ = builder.allowed(Bound(builder.scale, 0.0, builder.length)), apart(made, part)
    return [
        *too_far(builder, made, part),
        *([f"{differ:.0f} mm3 apart, {may:.0f} by rounding"] if differ > may else []),
    ]


def unlike(book, data):
    """What is wrong with a whole paper: parts without a sheet or a table, sheets that cannot be read, other solids."""
    sheets, marks = sheets_in(data), {part.mark for part in book.piece.parts}
    found = [f"{mark}: no sheet" for mark in sorted(marks - set(sheets))]
    found += [f"{mark}: no such part" for mark in sorted(set(sheets) - marks)]
    for mark in sorted(marks & set(sheets)):
        if not sheets[mark].rows:
            found.append(f"{mark}: no table")
            continue
        try:
            found += [f"{mark}, {words}" for words in faults(*laid(sheets[mark], book, mark))]
        except (AssertionError, AttributeError, TypeError, ValueError) as lacking:  # a figure is not there, or not one
            found.append(f"{mark}: cannot be built: {lacking}")
    return found
