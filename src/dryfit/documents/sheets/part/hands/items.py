"""What is drawn on a hand that stands: its face and edge, its figures, and its words where there is room.

What matters most is placed first: half the triangle at the wall edge, the marks of face side and face edge, the
numbers of cuts and what they take; then how far cuts reach, the face's name, letter, grain, the edges' names.
"""

from dataclasses import replace

from .....geometry.views import Surface, Trace
from .....piece.model import DATUM_END, FAR_END
from ....display import Item, Stroke, Text
from ....lettering import FIGURE, TEXT, width
from ....looks import is_bored
from ....naming import in_runs, position
from ....symbols import BALLOON, TAG_HIGH, balloon, edge_mark, face_mark, grain, tag, tag_width
from ...dimensions.mirrored import mirrored
from ...dimensions.plain import level
from ...dimensions.running import PAST, Mark, drawn, plan
from ...dimensions.upright import Height, upright
from ...page.placing import Rect, Room
from ..ends.fronts import front_of, places
from ..faces.surface import Plane, at_end, cuts_seen, marks, plane_for, wood
from ..faces.wording import written, written_wide
from ..looking import cut_at, cut_of
from ..words.facts import finish_words, scribe_of, tag_of
from .hand import Hand, stood

LINE = 4.2  # from the wood to a running line
BESIDE = 3.2  # from a running line to its figures
NARROW = 1.6  # room beside a figure where few stand
INSET = 0.9  # of words from the wood's outline
BELOW = 5.8  # from the board to the line of its width
THIN = 0.3  # on either side of a fine line, that no word may stand in
HALF = (6.4, 9.6)  # half a triangle: its base, its height


def hand_items(hand: Hand, inner: bool, keys: bool) -> list[Item]:
    """Its face and edge with everything on and beside them; `inner` where the wall edges of a pair meet."""
    plane = hand.plane
    edge = plane_for(hand.look, Surface.FRONT, hand.ruler, 0.0)
    items = [*stood(wood(plane), hand.left, hand.zero), *stood(wood(edge), hand.edge_left, hand.zero)]
    room = _empty(hand)
    items += _half(hand, room) if inner else []
    items += _marks_of_faces(hand, edge, room)
    for trace in cuts_seen(hand.look, hand.surface):
        items += _label(hand, trace, room)
    items += [*_reaches(hand, room), *_names(hand, room), *_scribes(hand, room)]
    return [*items, *running(hand), *(_keys(hand) if keys else _width(hand)), *_edge_name(hand)]


def _empty(hand: Hand) -> Room:
    """The face with what is cut in it taken."""
    plane = hand.plane
    room = Room(Rect(hand.left + INSET, hand.top + INSET, hand.right - INSET, hand.zero - INSET))
    for trace in plane.view.traces:
        loops = trace.opening if trace.seen else (trace.extent,)
        if trace.end or not any(loops):
            continue
        taken = [hand.box([loop]) for loop in loops if loop]
        room.taken += taken
    for loop in plane.view.behind:
        room.taken.append(hand.box([loop]))
    return room


def _half(hand: Hand, room: Room) -> list[Item]:
    """Half of the triangle, at the wall edge: whole when the wall edges meet, its point up."""
    wide, high = HALF
    side = -1.0 if hand.wall_right else 1.0
    left = min(hand.wall, hand.wall + side * wide)
    middle = (hand.top + hand.zero - high) / 2
    room.bounds = replace(room.bounds, left=hand.left, right=hand.right)
    steps = (0.0, *(way * step for step in range(4, 60, 4) for way in (-1.0, 1.0)))
    spot = room.find(wide, high, [(left, middle + step) for step in steps])
    room.bounds = replace(room.bounds, left=hand.left + INSET, right=hand.right - INSET)
    if spot is None:
        return []
    top, foot = spot[1], spot[1] + high
    points = ((hand.wall, top), (hand.wall + side * wide, foot), (hand.wall, foot))
    return [Stroke(points=points, pen="outline", layer="mark")]


def _marks_of_faces(hand: Hand, edge: Plane, room: Room) -> list[Item]:
    """The loop on the face side, from the front arris in; the V on the front edge, its point to the face side."""
    face_side = hand.look.names.face_side
    front = 0.0 if hand.wall_right else hand.wide
    into = 1.0 if hand.wall_right else -1.0
    x = hand.look.end_at(DATUM_END, hand.surface) * hand.scale + 6.0
    items: list[Item] = []
    if face_side is hand.surface:
        loop = stood([face_mark((x, front), into)], hand.left, hand.zero)
        room.block_items(loop)
        items += loop
    high = min(2.4, (edge.bottom - edge.top) * 0.75)
    towards_top = face_side is Surface.PLUS
    base = edge.top + high + 0.1 if towards_top else edge.bottom - high - 0.1
    items += stood([edge_mark((x, base), high, -1.0 if towards_top else 1.0)], hand.edge_left, hand.zero)
    return items


def _label(hand: Hand, trace: Trace, room: Room) -> list[Item]:
    """Number and what is taken, above or below the opening; the number alone where there is less room."""
    cut = cut_of(hand.look, trace.key)
    number, box = str(hand.look.numbers.get(cut.key, "")), hand.box(trace.opening)
    mark = hand.desk.marks.get(cut.takes, cut.takes)
    words = f"takes {mark}" if mark else ""
    middle = (box.left + box.right) / 2
    for says in dict.fromkeys((words, "")):
        wide = BALLOON + (width(says, TEXT) + 1.0 if says else 0.0)
        lefts = (middle - wide / 2, box.left + 1.0, box.right - wide - 1.0)
        places = [(x, y) for y in (box.top - BALLOON - 0.8, box.bottom + 0.8) for x in lefts]
        spot = room.find(wide, BALLOON, places)
        if spot is not None:
            items = list(balloon((spot[0] + BALLOON / 2, spot[1] + BALLOON / 2), number, cut.key))
            at = (spot[0] + BALLOON + 1.0, spot[1] + (BALLOON + TEXT) / 2)
            return [*items, Text(at=at, text=says, owner=cut.key)] if says else items
    return []


def _reaches(hand: Hand, room: Room) -> list[Item]:
    """How far across the board cuts reach, each size once, where it is not the whole width."""
    whole_depth = hand.look.part.board.depth
    done: set[str] = set()
    items: list[Item] = []
    for trace in cuts_seen(hand.look, hand.surface):
        low, high = trace.across
        through = low < 0.05 and high > whole_depth - 0.05
        if through or is_bored(cut_of(hand.look, trace.key)) or at_end(hand.look, trace.key):
            continue
        figure = position(high - low)
        box = hand.box(trace.opening)
        if figure in done or box.right - box.left < width(figure, TEXT, "semibold") + 6.0:
            continue
        left, right = max(box.left, hand.left + INSET), min(box.right, hand.right - INSET)
        spot = room.find(right - left, 5.4, [(left, box.bottom + 1.0), (left, box.top - 6.2)])
        if spot is None:
            continue
        done.add(figure)
        below = spot[1] > box.top
        y = spot[1] + 4.0
        start = box.bottom + 0.8 if below else box.top - 0.8
        inside = [x for x in (box.left, box.right) if hand.left + 0.1 < x < hand.right - 0.1]
        items += [
            Stroke(points=((x, start), (x, y + (PAST if below else -PAST))), pen="dimension", layer="dimension")
            for x in inside
        ]
        items += level(box.left, box.right, y, figure, bold=True)
    return items


def _names(hand: Hand, room: Room) -> list[Item]:
    """The face's name and whose it is; letter, grain, the names of the edges, as there is room."""
    names, part = hand.look.names, hand.look.part
    middle = (hand.left + hand.right) / 2
    loud, whose = names.loud(hand.surface), f"of {part.mark}, {hand.word}"
    items: list[Item] = []
    wide, high = max(width(loud, FIGURE, "bold"), width(whose, TEXT)), FIGURE + TEXT + 2.4
    shares = (0.2, 0.3, 0.12, 0.42, 0.55, 0.65, 0.78)
    levels = [hand.top + (hand.zero - hand.top) * share for share in shares]
    shifts = (0.0, -4.0, 4.0, -8.0, 8.0)
    spot = room.find(wide, high, [(middle - wide / 2 + shift, y) for shift in shifts for y in levels], air=1.5)
    if spot is not None:
        x = spot[0] + wide / 2
        items.append(Text(at=(x, spot[1] + FIGURE), text=loud, size=FIGURE, weight="bold", anchor="middle"))
        items.append(Text(at=(x, spot[1] + high - 0.7), text=whose, anchor="middle"))
    items += [*_letter(hand, room), *_grain(hand, room)]
    room.taken += [_run_over(hand, mark) for mark in _heights(hand)]
    items += _along_edge(hand, room, names.words[Surface.WALL], hand.wall, hand.wall_right)
    return [*items, *_along_edge(hand, room, names.words[Surface.FRONT], hand.front, not hand.wall_right)]


def _letter(hand: Hand, room: Room) -> list[Item]:
    mark = hand.look.part.mark
    wide = written_wide(mark)
    y = hand.zero - hand.look.end_at(DATUM_END, hand.surface) * hand.scale - FIGURE - 1.8
    lefts = [hand.wall - wide - 2.0 if hand.wall_right else hand.wall + 2.0, (hand.left + hand.right - wide) / 2]
    spot = room.find(wide, FIGURE + 0.6, [(x, y - step) for step in (0.0, 3.0, 6.0, 12.0) for x in lefts])
    return [] if spot is None else written(mark, spot)


def _grain(hand: Hand, room: Room) -> list[Item]:
    """Along the board, upright; shorter where it must be."""
    high = hand.zero - hand.top
    middle = (hand.left + hand.right) / 2
    for long in (min(26.0, max(18.0, high / 4)), 18.0):
        levels = [hand.top + high * share - long / 2 for share in (0.75, 0.6, 0.85, 0.7, 0.4, 0.2)]
        shifts = (0.0, -6.0, 6.0, -12.0, 12.0)
        spot = room.find(3.4, long, [(middle - 1.7 + shift, y) for shift in shifts for y in levels])
        if spot is not None:
            return stood(grain((0.0, 0.0), long), spot[0] + 1.7, spot[1] + long)
    return []


def _along_edge(hand: Hand, room: Room, text: str, x: float, right: bool) -> list[Item]:
    """An edge's name beside it, read from the right."""
    long = width(text, TEXT)
    left = x - 4.6 if right else x + 1.2
    high = hand.zero - hand.top
    shares = (0.3, 0.75, 0.5, 0.15, 0.88)
    spot = room.find(3.4, long, [(left, hand.top + high * share - long / 2) for share in shares])
    return [] if spot is None else [Text(at=(spot[0] + 2.7, spot[1] + long), text=text, turn=90.0)]


def _scribes(hand: Hand, room: Room) -> list[Item]:
    """What is left long at an end, with its finish line and where it is cut."""
    items: list[Item] = []
    for end in (DATUM_END, FAR_END):
        scribe = scribe_of(hand.look.part, end)
        cut = cut_at(hand.look, end)
        if not scribe or cut is None:
            continue
        kind, text = tag_of(hand.desk, cut, scribe)
        lines = finish_words(hand.look, end, hand.surface)
        wide, high = max(tag_width(text), *(width(line, TEXT) for line in lines)), TAG_HIGH + 2 * 3.6 + 0.6
        y = hand.top + 1.6 if end == FAR_END else hand.zero - 1.6 - high
        spot = room.find(wide, high, [(x, y) for x in (hand.left + 2.0, hand.right - 2.0 - wide)])
        if spot is not None:
            items += tag(spot[0], spot[1], kind, text)
            bases = (spot[1] + TAG_HIGH + 3.4, spot[1] + TAG_HIGH + 7.0)
            items += [Text(at=(spot[0], base), text=line) for base, line in zip(bases, lines, strict=True)]
    return items


def running(hand: Hand) -> list[Item]:
    """Heights from the datum on the side of the wall edge."""
    heights = [
        Height(y=hand.zero - mark.x, figure=mark.figure, foot=hand.left + mark.foot, key=mark.key)
        for mark in _heights(hand)
    ]
    length = position(hand.look.part.length)
    if length not in {height.figure for height in heights}:
        heights.append(Height(y=hand.top, figure=length, foot=hand.wall))
    return upright(hand.wall + hand.towards * LINE, hand.zero, heights, hand.towards, BESIDE)


def _heights(hand: Hand) -> list[Mark]:
    """The marks on the side of the wall edge."""
    return marks(hand.plane, 1.0 if hand.wall_right else -1.0)


def _run_over(hand: Hand, mark: Mark) -> Rect:
    """Where the fine line of a mark runs over the face, from what is marked to the wall edge."""
    foot, y = hand.left + mark.foot, hand.zero - mark.x
    return Rect(min(foot, hand.wall), y - THIN, max(foot, hand.wall), y + THIN)


def _width(hand: Hand) -> list[Item]:
    """The board's width under it."""
    y = hand.zero + BELOW
    lines = [
        Stroke(points=((x, hand.zero + 0.8), (x, y + PAST)), pen="dimension", layer="dimension")
        for x in (hand.left, hand.right)
    ]
    return [*lines, *level(hand.left, hand.right, y, position(hand.look.part.board.depth))]


def _keys(hand: Hand) -> list[Item]:
    """From the front edge on, each key pocket and the board's width, under it."""
    front, scale = front_of(hand.look, DATUM_END), hand.scale
    whole_depth = hand.look.part.board.depth
    found = [
        Mark(x=hand.left + (whole_depth - d) * scale, figure=position(whole_depth - d), foot=hand.zero, edge=hand.zero)
        for d in (*places(front), 0.0)
    ]
    line = plan(hand.left, found, "", air=NARROW)
    y = hand.zero + line.over(1.0) + line.crank + 1.2
    items = drawn(line, y, 1.0)
    items = items if hand.wall_right else mirrored(items, hand.left, hand.right)
    numbers = [hand.look.numbers[cut.key] for cut in hand.look.part.cuts if at_end(hand.look, cut.key)]
    text = f"{in_runs(numbers)}: key pockets, from the front edge"
    return [
        *(item for item in items if not isinstance(item, Text) or item.text),
        Text(at=((hand.left + hand.right) / 2, y + PAST + TEXT + 0.8), text=text, anchor="middle"),
    ]


def _edge_name(hand: Hand) -> list[Item]:
    """Over the view of the edge."""
    thick = hand.look.part.board.thickest * hand.scale
    text = hand.look.names.words[Surface.FRONT]
    left = hand.edge_left if hand.wall_right else hand.edge_left + thick - width(text, TEXT)
    return [Text(at=(left, hand.top - 1.8), text=text)]
