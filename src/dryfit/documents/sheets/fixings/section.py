"""A screw in its hole, cut along its axis at true scale: wall to the left, front to the right, link by link.

What enters the wall, the lining and the worst gap are drawn as they were told, not as they are found: that is for the
site. The sum of the links stands beside it.
"""

from collections.abc import Iterator, Sequence

from ...display import extent
from ...kit.axis import Axis
from ...kit.dimension import UnplacedDimension, plain
from ...kit.label import Label
from ...kit.view import PlacedView, View, place
from ...looks import Desk
from ...naming import LEAST, depth, in_runs, position, scale_words, thickness, width
from ...standard import FIGURE, FIRST, SCALES, TEXT
from ..joint.hardware import head_of
from ..part.words.together import lettered
from .chain import BEYOND, Chain, Point
from .through import Through


def section(desk: Desk, chain: Chain, found: Sequence[Point], room: float, smaller: int = 0) -> PlacedView:
    """The drawing of one chain, with its caption, as large as it has room in the width.

    Args:
        smaller: how many of the larger scales are left out.
    """
    boards = [name for name in desk.marks if any(point.board == name for point in found)]
    mark = lettered([desk.marks[name] for name in boards])
    view = screw_view(chain, mark, room, f"holes {in_runs([point.number for point in found])}: ", smaller)
    return place(view, (room, room), desk.book.voice)


def screw_view(
    made: Chain, mark: str, room: float, says: str = "", smaller: int = 0, front: float | None = None
) -> View:
    """A screw in its hole at the largest scale that has room.

    Args:
        made: the chain.
        mark: of the boards that it goes through.
        room: in width, on paper.
        says: before the title.
        front: how far out of the wall the board's front lies; its depth, if not given.
    """
    for scale in SCALES[smaller:]:
        drawn = Through(made, scale, made.plan.grip + made.plan.deep if front is None else front)
        wood = tuple(drawn.items())
        left, _, right, _ = extent(wood)
        if right - left <= room - 2 * FIRST:
            break
    said = "full size" if scale == 1.0 else scale_words(scale)
    broken = "; the counterbore is broken" if drawn.depths.breaks else ""
    return View(
        title=f"{says}cut along the screw, {said}; wall left, front right{broken}",
        scaled=False,
        wood=wood,
        across=drawn.depths,
        up=Axis.whole(0.0, 1.0, scale, sign=-1.0),
        dimensions=(*_stretches(drawn), *_screw(drawn), *_across(drawn)),
        labels=tuple(_names(drawn, mark)),
    )


def _names(drawn: Through, mark: str) -> Iterator[Label]:
    """The board's letter, the wall, the holes, the head, the washer and the plug."""
    m = drawn.made
    beside = (drawn.half + m.opening / 2) / 2
    places = tuple((drawn.back + m.plan.grip * share, side * beside) for share in (1 / 2, 1 / 4) for side in (1, -1))
    yield Label(says=mark, at=places, leader=False, sizes=(FIGURE, TEXT), weight="bold")
    yield Label(says=m.plan.into or "wall", at=(((drawn.left + drawn.lined) / 2, drawn.tall),), priority=1)
    head, high = head_of(m.screw)
    found = [((drawn.under_head + high / 2, head / 2), f"head {position(head)}")]
    if m.plan.washer:
        found.append((((drawn.grip_end + drawn.under_head) / 2, m.plan.head / 2), f"washer {position(m.plan.head)}"))
    found.append((((drawn.back + drawn.under_head) / 2, m.plan.hole / 2), f"hole {position(m.plan.hole)}"))
    if m.plan.deep:
        words = f"counterbore {position(m.opening)}" + (f", plug {position(m.opening)}" if m.plan.plugged else "")
        found.append(((drawn.front - TEXT / drawn.scale, m.opening / 2), words))
    for at, words in found:
        yield Label(says=words, at=(at,), priority=2)


def _stretches(drawn: Through) -> Iterator[UnplacedDimension]:
    """What the screw's length is made of, the shortest first, as they find least room."""
    chain = drawn.made
    links = [
        (drawn.tip, drawn.lined, f"{'held' if chain.plan.known else BEYOND} {position(chain.links()[0][1])}"),
        (drawn.lined, drawn.wall, f"lining {position(drawn.wall - drawn.lined)}"),
        (drawn.wall, drawn.back, f"gap {position(drawn.back - drawn.wall)}"),
        (drawn.back, drawn.grip_end, f"grip {position(chain.plan.grip)}"),
        (drawn.grip_end, drawn.under_head, f"washer {position(chain.plan.washer)}"),
        (drawn.under_head, drawn.top, f"head {position(chain.head_counts)}"),
    ]
    for low, high, words in sorted(links, key=lambda link: link[1] - link[0]):
        if high - low > LEAST:
            yield plain((low, -drawn.tall), (high, -drawn.tall), words, -1)


def _screw(drawn: Through) -> Iterator[UnplacedDimension]:
    """The screw's length under its head; the depth of the counterbore, which is broken."""
    chain = drawn.made
    if chain.plan.deep:
        words = f"{depth(chain.plan.deep)} deep"
        yield plain((drawn.grip_end, drawn.half), (drawn.front, drawn.half), words)
    long = f"{position(chain.screw.under_head)} {'under the head' if chain.head_counts else 'long'}"
    yield plain((drawn.tip, drawn.tall), (drawn.under_head, drawn.tall), f"{chain.screw.name}: {long}")


def _across(drawn: Through) -> Iterator[UnplacedDimension]:
    """The wood beside the counterbore, and the board's thickness."""
    edge, half, rim = drawn.front, drawn.half, drawn.made.opening / 2
    yield plain((edge, -half), (edge, -rim), width(half - rim), -1)
    yield plain((edge, -half), (edge, half), thickness(2 * half), -1, weight="regular")
