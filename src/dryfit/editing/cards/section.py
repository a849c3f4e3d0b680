"""A joint cut through, as it is seen from the front: both boards as their cuts leave them, and the widths."""

from collections.abc import Iterator, Sequence

from shapely import Polygon, box

from ...documents.looks import Look
from ...geometry.frames import Vec2
from ...geometry.sections import polygons
from ...geometry.shapes import Prism, corners
from ...lengths import LengthUnit, cut_text, thickness_text, written
from ...piece.model import FAR_END, Cut, Joint, Part
from ..answers import SectionShown, SectionWidth, SectionWood
from ..drawn import Drawn

AROUND = 2.2  # thicknesses of the thicker board, that are seen on either side
LEAST = 45.0  # mm, at least
BEYOND = 1.3  # times what a lap or a scarf runs past where the boards meet in line


def section_of(drawn: Drawn, joint: Joint) -> SectionShown | None:
    """The section of a joint between two boards that stand across; None of any other."""
    parts = [drawn.piece.part_by_name[name] for name in joint.key if name in drawn.piece.part_by_name]
    if len(parts) != 2 or any(part.board.lies != "across" for part in parts):
        return None
    x, y, _ = joint.meeting.frame.origin
    half = max(LEAST, AROUND * max(part.board.thickest for part in parts), BEYOND * _past(joint, parts))
    at = _depth(joint, parts)
    window = box(x - half, y - half * 0.7, x + half, y + half * 0.7)
    return SectionShown(
        window=(written(x - half), written(y - half * 0.7), written(x + half), written(y + half * 0.7)),
        at=written(at),
        wood=tuple(_wood(part, at, window, drawn.job.units) for part in parts),
        widths=tuple(_widths(joint, parts, at, drawn.job.units)),
    )


def _past(joint: Joint, parts: Sequence[Part]) -> float:
    """How far ends in line run past where they meet."""
    if joint.meeting.form != "in line":
        return 0.0
    ends = ((joint.meeting.side(part.id), part.long) for part in parts)
    return max(high - side.at if side.end == FAR_END else side.at - low for side, (low, high) in ends)


def _depth(joint: Joint, parts: Sequence[Part]) -> float:
    """How far from the wall it is cut: in the middle of the first cut that has a depth there, else of the meeting.

    Of several in one board the one that its kind tells first: a socket, not the housing beside it.
    """
    told = {cut.key: place for place, cut in enumerate(joint.cuts)}
    for part in parts:
        for cut in sorted(part.cuts, key=lambda one: told.get(one.key, len(told))):
            span = _span(part, cut) if cut.joint == joint.key and not cut.end else None
            if span is not None:
                return (span[0] + span[1]) / 2
    low, high = joint.meeting.overlap
    return (low + high) / 2


def _span(part: Part, cut: Cut) -> Vec2 | None:
    """From where to where out of the wall a cut takes wood of its board."""
    ds = [corner[2] for shape in cut.shapes if isinstance(shape, Prism) for corner in corners(shape)]
    if not ds:
        return None
    back = part.board.back
    low, high = max(min(ds), 0.0), min(max(ds), part.board.depth)
    return (back + low, back + high) if high > low else None


def _wood(part: Part, at: float, window: Polygon, units: LengthUnit) -> SectionWood:
    board, look = part.board, Look(part)
    d = at - board.back
    areas = []
    for loop in look.looker.slice_at(d) if 0.0 <= d <= board.depth else ():
        outline = Polygon([board.frame.place((a + part.zero, c, d))[:2] for a, c in loop])
        areas += [[*area.exterior.coords][:-1] for area in polygons(outline.buffer(0).intersection(window))]
    return SectionWood(
        board=part.id,
        areas=tuple(tuple((written(px), written(py)) for px, py in area) for area in areas),
        thick=thickness_text(board.thickest, units),
    )


def _widths(joint: Joint, parts: Sequence[Part], at: float, units: LengthUnit) -> Iterator[SectionWidth]:
    """The width between the walls of each cut that is cut open here, square to the board that it takes."""
    for part in parts:
        other = next(one for one in parts if one is not part)
        for cut in part.cuts:
            across, span = cut.figures.across, _span(part, cut)
            if cut.joint != joint.key or cut.end or across is None or span is None or not span[0] <= at <= span[1]:
                continue
            if cut.takes != other.id:
                continue
            ux, uy, _ = other.board.frame.x
            nx, ny, _ = other.board.frame.y
            x, y, _ = joint.meeting.frame.origin
            mx, my, _ = other.board.frame.place((other.board.length / 2, 0.0, 0.0))
            side = -1.0 if ux * (mx - x) + uy * (my - y) > 0 else 1.0  # where least of the other board's wood is
            out = side * (part.board.thickest * 0.5 + 12.0)
            middle = (x + ux * out, y + uy * out)
            ends = tuple(
                (written(middle[0] + way * nx * across / 2), written(middle[1] + way * ny * across / 2))
                for way in (-1.0, 1.0)
            )
            yield SectionWidth(start=ends[0], end=ends[1], says=cut_text(across, units), board=part.id, takes=other.id)
