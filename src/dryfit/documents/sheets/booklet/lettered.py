"""Letters of the boards in a picture of the booklet, and where its foot and its top lie.

What comes in and what it goes into always bear theirs. Of a large piece only the boards about them do besides: they
tell the place, and a picture full of letters is searched instead of read.
"""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

import numpy as np

from ....geometry.frames import Vec, Vec2
from ....sentences import Voice
from ...axonometric import HERE
from ...kit import label
from ...kit.label import Label, middle_first
from ...kit.placing import FilledPaper
from ...looks import Desk
from ...standard import FIGURE, NAME, ROW
from .hovering import Hovering, moved

SHARES = 16  # of a board's length, at which its letter is looked for
NEAR = 4  # steps from its board that a letter stands, unless it has no room at any place along it
AROUND = 24  # boards about the place that bear letters
FOOT, TOP = "FOOT, near you", "TOP of the piece"


def lettered(paper: FilledPaper, picture: Hovering, *, ends: bool = True) -> list[str]:
    """The words for the foot and the top; letters of what comes in, of what it goes into, then of those about them.

    Args:
        ends: whether foot and top are said.

    Returns:
        What found no room.
    """
    _, top, _, bottom = picture.extent
    said = ((FOOT, bottom + ROW), (TOP, top - ROW)) if ends else ()
    lacking = [text for text, y in said if not _end(paper, picture, text, y)]
    lacking += [name for name in picture.incoming if not _coming(paper, picture, name)]
    into = picture.step.into if picture.step else ()
    for name in dict.fromkeys((*into, *_about(picture))):  # led to the edge that faces up
        if name not in picture.scene.away and not _beside(paper, _ring(picture, name, FIGURE), _seen(picture, name)):
            lacking.append(name)
    return lacking


def _end(paper: FilledPaper, picture: Hovering, text: str, y: float) -> bool:
    """Words above or below the picture, as far left as they have room."""
    left, _, right, _ = picture.extent
    places = tuple((x, y) for x in np.arange(left, right, FIGURE).tolist())
    words = Label(
        says=text, at=places, beyond=(1, 0), leader=False, sizes=(FIGURE,), weight="medium", ground=False, reach=0
    )
    return label.put(paper, words, Voice())


def _about(picture: Hovering) -> Sequence[str]:
    """What lies there; where something comes in and that is much, what lies nearest to it."""
    if not picture.incoming or len(picture.page.there) <= AROUND:
        return picture.page.there
    coming = np.asarray([picture.view.box(name, HERE) for name in picture.incoming])
    (left, low), (right, high) = coming[:, :2].min(axis=0), coming[:, 2:].max(axis=0)
    there = np.asarray([picture.view.boxes[name] for name in picture.page.there])
    its_left, its_low, its_right, its_high = there.T
    across = np.maximum(np.maximum(left - its_right, its_left - right), 0.0)
    up = np.maximum(np.maximum(low - its_high, its_low - high), 0.0)
    nearest = np.argsort(np.hypot(across, up), kind="stable")[:AROUND]
    return [picture.page.there[number] for number in sorted(nearest.tolist())]


def _coming(paper: FilledPaper, picture: Hovering, name: str) -> bool:
    """On the face of what comes in, else beside it."""
    part = picture.desk.looks[name].part
    low, high = part.long
    middles = middle_first(low, high, (high - low) / SHARES)
    at = [picture.world(moved(part.board.frame.place((a, 0.0, part.board.depth / 2)), picture.offset)) for a in middles]
    on_it = replace(_ring(picture, name, NAME), at=tuple(at), leader=False, reach=0)
    return label.put(paper, on_it, Voice()) or _beside(paper, _ring(picture, name, NAME), at)


def _ring(picture: Hovering, name: str, size: float) -> Label:
    return Label(says=picture.desk.marks[name], at=(), ring=True, sizes=(size,), owner=name, dot=True)


def _beside(paper: FilledPaper, ring: Label, places: Iterable[Vec2]) -> bool:
    """A letter near one of these places, else farther off the first; nothing where there is no place."""
    tried: list[Vec2] = []
    for place in places:
        tried.append(place)
        if label.put(paper, replace(ring, at=(place,), reach=NEAR), Voice()):
            return True
    return not tried or label.put(paper, replace(ring, at=tuple(tried)), Voice())


def _seen(picture: Hovering, name: str) -> Iterator[Vec2]:
    """Along the edge that faces up, where nothing hides it."""
    edge = _edge(picture.desk, name, up=picture.page.up == "front")
    return (picture.world(point) for point in edge if picture.view.is_seen(point, picture.scene))


def _edge(desk: Desk, name: str, *, up: bool) -> list[Vec]:
    """Places along the front edge, or else the wall edge, from its ends inwards, those near a joint last."""
    kept: dict[tuple[str, bool], list[Vec]] = desk.kept.setdefault("edges", {})
    if (name, up) not in kept:
        board, (low, high) = desk.looks[name].part.board, desk.looks[name].part.long
        step, d = (high - low) / SHARES, board.depth if up else 0.0
        inwards = reversed(middle_first(low + step, high - step, step))
        joints = [joint.meeting.frame.origin for joint in desk.book.piece.joints if name in joint.key]

        def near_joint(a: float) -> bool:
            x, y, _ = board.frame.place((a, 0.0, 0.0))
            return any(math.dist((x, y), joint[:2]) < 2 * board.thickest for joint in joints)

        kept[name, up] = [board.frame.place((a, 0.0, d)) for a in sorted(inwards, key=near_joint)]
    return kept[name, up]
