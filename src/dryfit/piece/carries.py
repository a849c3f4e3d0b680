"""Words in which a kind says what its joint carries: places and directions in the elevation.

    the floor of a housing       rests(...)      the end cannot go on into the face
    its walls                    sideways(...)   nor up nor down between them
    glue, screws, keys           fast(...)       nor any way at all, nor turn

What leaves out of the wall is told by the ways apart of the joint's making, not here. Directions are of the world.
"""

from ..geometry.frames import Vec, turned
from .model import FAR_END, Bearing, Carry, Meeting, Side


def left_of(along: Vec) -> Vec:
    """A direction of the elevation turned by 90 degrees to the left."""
    return (-along[1] + 0.0, along[0] + 0.0, 0.0)


def opposite(way: Vec) -> Vec:
    """The way back."""
    return (-way[0] + 0.0, -way[1] + 0.0, -way[2] + 0.0)


def axes(meeting: Meeting) -> tuple[Vec, Vec]:
    """The directions of both boards' lines, of a meeting framed along side b."""
    x = meeting.frame.x
    return turned_in_elevation(x, meeting.b.turn), x


def turned_in_elevation(along: Vec, angle: float) -> Vec:
    """A direction of the elevation turned anticlockwise, by degrees."""
    c, s = turned(angle)
    return (along[0] * c - along[1] * s + 0.0, along[0] * s + along[1] * c + 0.0, 0.0)


def off_the_end(side: Side, along: Vec) -> Vec:
    """From an end into its own board."""
    return opposite(along) if side.end == FAR_END else along


def spread(middle: Vec, along: Vec, half: float) -> tuple[Vec, Vec]:
    """Two places either side of one."""
    x, y, z = middle
    return (x - along[0] * half, y - along[1] * half, z), (x + along[0] * half, y + along[1] * half, z)


def rests(body: str, by: str, way: Vec, at: tuple[Vec, ...]) -> Carry:
    """The body lies against the other, which keeps it from going on that way."""
    return Carry(how=Bearing.RESTS, body=body, by=by, ways=(way,), at=at)


def sideways(body: str, by: str, way: Vec, at: tuple[Vec, ...]) -> Carry:
    """The body stands between two walls, or is pinned: it goes neither that way nor back."""
    return Carry(how=Bearing.SIDEWAYS, body=body, by=by, ways=(way, opposite(way)), at=at)


def fast(meeting: Meeting, *, glue: bool = False) -> Carry:
    """Both are held fast to each other: no way apart, and no turning; `glue` where it is glue on end grain alone."""
    along = meeting.frame.x
    across = left_of(along)
    return Carry(
        how=Bearing.PULLS,
        body=meeting.a.body,
        by=meeting.b.body,
        ways=(along, opposite(along), across, opposite(across)),
        at=spread(meeting.frame.origin, along, meeting.a.thickness / 2),
        glue=glue,
    )
