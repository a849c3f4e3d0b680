"""How the piece goes together, told to the page: what booklet, glue-up cards and hanging book print, boards by name.

Words and figures are the sheets' own; only the letters are the boards' names, since the page has no letters. Beside
each board that goes home stands the place it goes into, cut along its way: exact shapes, as on the joint's sheet.
"""

import math
from collections.abc import Iterable, Iterator
from functools import cached_property
from itertools import product

from ..documents.elevation import figures_said
from ..documents.looks import Desk
from ..documents.marks import mark_of
from ..documents.naming import plural, position, printing_in
from ..documents.pages import without_pages
from ..documents.sheets.booklet import loose
from ..documents.sheets.booklet.binding import Block, blocks
from ..documents.sheets.booklet.pages import BookletPage, no_order, pages
from ..documents.sheets.gluing.maker import figures, lengths_said, measured
from ..documents.sheets.gluing.words import called, notes, steps
from ..documents.sheets.joint.words import fit
from ..documents.sheets.wall_steps.maker import is_put_together_there
from ..documents.sheets.wall_steps.maker import pages as wall_pages
from ..documents.through import Plane, wood_in
from ..geometry.frames import Vec, dot
from ..geometry.sections import polygons
from ..geometry.shapes import Prism, corners
from ..joints import KINDS
from ..lengths import LengthUnit, cut_text, thickness_text, written
from ..piece.model import WALL, Cut, Joint, Part
from ..piece.settling.ways import free_after
from ..studies.glue_up.result import GlueStage, GlueUp
from ..studies.order.result import Step
from .answers import Assembly, AssemblyStep, GlueCard, GoesHome, SectionShown, SectionWidth, SectionWood, WaresIn

AROUND = 2.2  # thicknesses of the thicker board that are seen on either side of a joint
LEAST = 45.0  # mm, at least
BEYOND = 25.0  # mm of what comes, that is seen beyond the joint's ends
BEYOND_MOUTH = 8.0  # mm from a cut to its width
ALONG = 1.0 - 1e-6  # cosine of a plane that runs along a board
ALIKE = 0.98  # cosine from which on two directions are too near each other to span a plane


class _Named(Desk):
    """A desk on which boards go by their names, as on the page."""

    @cached_property
    def marks(self) -> dict[str, str]:
        return {part.id: part.id for part in self.book.piece.parts}


def assembly_of(desk: Desk, revision: int) -> Assembly:
    """The booklet of a book, for the page."""
    named = _Named(desk.book)
    with printing_in(desk.book.job.units):
        why = no_order(named)
        every = [] if why else blocks(named)
        up = wall_pages(named) if not why and is_put_together_there(named) else []
        plan = named.book.found(GlueUp)
        return Assembly(
            revision=revision,
            why=why,
            steps=(
                *(_step(named, one, one.page) for one in every if one.page is not None),
                *(_step(named, Block(number=number, page=page), page) for number, page in enumerate(up, 1)),
            ),
            cards=tuple(_card(named, plan, one.number, one.go) for one in every if one.go is not None and plan),
        )


# --- steps


def _step(desk: Desk, one: Block, page: BookletPage) -> AssemblyStep:
    act = page.act
    joints = [desk.book.piece.joint_by_key[key] for key in page.step.joints] if page.step is not None else []
    return AssemblyStep(
        title=without_pages(act.title),
        says=act.says,
        puts=tuple(map(without_pages, act.puts)),
        minds=tuple(map(without_pages, act.minds)),
        homes=tuple(_home(desk, joint, page.step) for joint in joints) if page.step and page.step.legs else (),
        wares=tuple(_wares(desk, page, joints)),
        cards=tuple(number for number, dry in one.cards if not dry),
        dry=tuple(number for number, dry in one.cards if dry),
        whole=page.whole,
    )


def _wares(desk: Desk, page: BookletPage, closed: Iterable[Joint]) -> Iterator[WaresIn]:
    """What is put in at a step: with the joints it closes, once their glue has set, or into its wall."""
    boards = desk.book.piece.board_by_name
    if page.whole:
        joints = [joint for joint in desk.book.piece.joints if WALL in joint.key]
    elif page.after:
        own = [joint for joint in desk.book.piece.joints if set(joint.key) <= set(page.there)]
        joints = [joint for joint in own if loose.waits(joint, boards)]
    else:
        joints = [joint for joint in closed if not loose.waits(joint, boards)]
        if page.hung:
            screwed = (joint for joint in desk.book.piece.joints if WALL in joint.key)
            joints += [joint for joint in screwed if any(cut.body in page.incoming for cut in joint.cuts)]
    for joint in joints:
        said = [plural(ware.count, ware.what) for ware in KINDS[joint.kind].hardware(joint)]
        if said:
            yield WaresIn(joint=joint.key, says=", ".join(said))


def _home(desk: Desk, joint: Joint, step: Step) -> GoesHome:
    going = next(name for name in joint.key if name in step.parts)
    into = next(name for name in joint.key if name != going)
    x, y, z = step.legs[-1].direction
    out = (-x + 0.0, -y + 0.0, -z + 0.0)
    free = free_after(joint.making.motions, going, out)
    parts = [desk.book.piece.part_by_name[name] for name in (into, going) if name in desk.book.piece.part_by_name]
    return GoesHome(
        joint=joint.key,
        going=going,
        into=into,
        mark=mark_of(joint),
        says=(*_cuts_said(joint, desk.book.job.units), *fit(joint)),
        slides=position(free) if free else "",
        section=_section(desk, joint, parts, going, out) if len(parts) == 2 else None,
    )


def _cuts_said(joint: Joint, units: LengthUnit) -> Iterator[str]:
    """The figures of its cuts: alike in both boards once, else with the board."""
    bodies: dict[tuple[str, str], list[str]] = {}
    for cut in joint.cuts:
        if said := ", ".join(figures_said(cut, units)):
            bodies.setdefault((cut.word, said), []).append(cut.body)
    for (noun, said), boards in bodies.items():
        only = set(boards)
        yield f"{noun}: {said}" if len(only) > 1 else f"{noun} in {only.pop()}: {said}"


def _section(desk: Desk, joint: Joint, parts: list[Part], going: str, up: Vec) -> SectionShown:
    """A joint cut along its way in, what comes from above, through the middle of the board that has the cut."""
    cut = _slot(joint, going)
    has = next((part for part in parts if cut is not None and part.id == cut.body), parts[0])
    right = _aside(has, up)
    low, high = joint.meeting.overlap
    x, y, z = joint.meeting.frame.origin if cut is None else _middle(has, cut)
    upright = abs(up[2]) > ALIKE  # in or out of the wall: then all of the crossing is seen
    origin = (x, y, (low + high) / 2 if upright or cut is None else z)
    half = max(LEAST, AROUND * max(part.board.thickest for part in parts))
    tall = max(half, (high - low) / 2 + BEYOND) if upright else half
    wide = max(half, tall / 2)
    thick = max(part.board.thickest for part in parts)
    below = tall if upright or cut is None or cut.body == going else thick + BEYOND_MOUTH
    plane = Plane(origin, right, up, (wide, tall))
    return SectionShown(
        window=(written(-wide), written(-below), written(wide), written(tall)),
        at=0.0,
        says=f"Cut along its way; {going} comes from above",
        wood=tuple(
            SectionWood(
                board=part.id,
                areas=tuple(
                    tuple((written(u), written(v)) for u, v in [*area.exterior.coords][:-1])
                    for area in polygons(wood_in(part, plane))
                ),
                thick=thickness_text(part.board.thickest, desk.book.job.units),
            )
            for part in parts
        ),
        widths=tuple(_widths(desk, cut, has, (right, up), origin, going)) if cut is not None else (),
    )


def _slot(joint: Joint, going: str) -> Cut | None:
    """The cut that is shown: what comes over the other has its own, else that which it goes into."""
    let_in = [cut for cut in joint.cuts if not cut.end and cut.takes in joint.key and cut.body in joint.key]
    return next((cut for cut in let_in if cut.body == going), let_in[0] if let_in else None)


def _corners(part: Part, cut: Cut) -> list[Vec]:
    """The corners of the box in which a cut takes wood of its board, in the world."""
    board = part.board
    found = [each for shape in cut.shapes if isinstance(shape, Prism) for each in corners(shape)]
    if not found:
        return [board.frame.origin]
    half = board.thickest / 2
    bounds = ((-math.inf, math.inf), (-half, half), (0.0, board.depth))
    sides = [
        [min(max(each, least), most) for each in (min(values), max(values))]
        for values, (least, most) in zip(zip(*found, strict=True), bounds, strict=True)
    ]
    return [board.frame.place((a, c, d)) for a, c, d in product(*sides)]


def _middle(part: Part, cut: Cut) -> Vec:
    """The middle of what a cut takes of its board, in the world."""
    xs, ys, zs = zip(*_corners(part, cut), strict=True)
    return sum(xs) / len(xs), sum(ys) / len(ys), sum(zs) / len(zs)


def _aside(part: Part, up: Vec) -> Vec:
    """Along a board, square to the way in; across it where the way in runs along it."""
    frame = part.board.frame
    axis = next(one for one in (frame.x, frame.y, frame.z) if abs(dot(one, up)) < ALIKE)
    along = dot(axis, up)
    x, y, z = (a - along * b for a, b in zip(axis, up, strict=True))
    size = (x * x + y * y + z * z) ** 0.5
    sign = -1.0 if x < -1e-9 or (abs(x) <= 1e-9 and y < 0) else 1.0
    return (sign * x / size + 0.0, sign * y / size + 0.0, sign * z / size + 0.0)


def _widths(desk: Desk, cut: Cut, has: Part, axes: tuple[Vec, Vec], origin: Vec, going: str) -> Iterator[SectionWidth]:
    """The width between the walls, beyond the cut's mouth, where the plane runs along the board: as on its face."""
    right, up = axes
    size = cut.figures.on_face or cut.figures.across
    if size is None or abs(dot(right, has.board.frame.x)) < ALONG:
        return
    levels = [dot(corner, up) - dot(origin, up) for corner in _corners(has, cut)]
    v = min(levels) - BEYOND_MOUTH if cut.body == going else max(levels) + BEYOND_MOUTH
    yield SectionWidth(
        start=(written(-size / 2), written(v)),
        end=(written(size / 2), written(v)),
        says=cut_text(size, desk.book.job.units),
        board=has.id,
        takes=cut.takes,
    )


# --- cards


def _card(desk: Desk, plan: GlueUp, number: int, go: GlueStage) -> GlueCard:
    whole = {at for at, page in enumerate(pages(desk), 1) if page.whole}
    return GlueCard(
        number=number,
        called=called(go),
        boards=go.boards,
        figures=tuple(figures(plan, go)),
        measured=tuple((words, lengths_said(lengths)) for words, lengths in measured(go, desk)),
        steps=tuple(steps(desk, plan, go, lambda at: "the last" if at in whole else f"step {at}")),
        notes=tuple(notes(desk, plan, go, number)),
    )
