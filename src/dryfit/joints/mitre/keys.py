"""Keys: let into pockets of a circular cutter across the outside arris, after the corner is glued."""

import math

from ...geometry.frames import Vec2, length
from ...geometry.shapes import Knot, Prism
from ...piece.corner import Corner
from ...piece.model import Cut, Figures, Hardware, Meeting, Side
from ...sentences import Count, Length, Step, Words, say
from .options import MitreOptions

SPACING = 100.0  # one key for so much depth, two at least (common practice)


def no_room(meeting: Meeting, options: MitreOptions) -> Words:
    """Why not, where they find no room; "" where they do."""
    low, high = meeting.overlap
    if options.plunge > options.cutter / 2:
        return say(
            "a cutter of {} cannot be plunged {}",
            Length(options.cutter, Step.WHOLE),
            Length(options.plunge, Step.WHOLE),
        )
    count = len(_places(meeting, options.keys))
    if (high - low) / count < 2 * options.key_thickness:
        return say(
            "{} of {} {} no room in {} of depth",
            Count(count, "key"),
            Length(options.key_thickness),
            "has" if count == 1 else "have",
            Length(high - low, Step.WHOLE),
        )
    return ""


def left_inside(meeting: Meeting, options: MitreOptions) -> float:
    """Wood between a pocket and the inside arris."""
    corner = Corner.of(meeting.a, meeting.b)
    mx, my = _cutter_middle(corner, options)
    return math.hypot(corner.inner[0] - mx, corner.inner[1] - my) - options.cutter / 2


def hardware(meeting: Meeting, options: MitreOptions) -> Hardware:
    """The keys, to be made in the shop."""
    strip = f"{2 * _reach(meeting, options) + 10:.0f} x {options.plunge + 10:.0f}"
    size = f"{options.key_thickness:.1f} thick, strip {strip} a key"
    return Hardware(name="key, grain across the mitre", size=size, count=len(_places(meeting, options.keys)))


def pockets(meeting: Meeting, side: Side, other: Side, options: MitreOptions) -> Cut:
    """Pockets of a circular cutter for keys across the outside arris: this board's share."""
    corner = Corner.of(side, other)
    radius = options.cutter / 2
    middle = corner.at(_cutter_middle(corner, options))
    ring: tuple[Knot, ...] = (
        (length(middle[0] - radius), length(middle[1]), 1.0),
        (length(middle[0] + radius), length(middle[1]), 1.0),
    )
    half = options.key_thickness / 2
    shapes = tuple(
        Prism(outline=ring, low=length(z - side.back - half), high=length(z - side.back + half))
        for z in _places(meeting, options.keys)
    )
    return Cut(
        key=f"key pockets in {side.body} to {other.body}",
        body=side.body,
        kind="key pockets",
        takes="keys",
        joint=meeting.key,
        shapes=shapes,
        figures=Figures(
            across=length(options.key_thickness),
            on_face=length(_reach(meeting, options)),
            deep=length(options.plunge),
            opens="end",
            between_faces=round(corner.phi, 9),
            sum=say(
                "cutter {}, plunged {} along the bisector",
                Length(options.cutter, Step.WHOLE),
                Length(options.plunge, Step.WHOLE),
            ),
        ),
        size_is="FIT TO",
        tool="circular cutter, after gluing",
    )


def _places(meeting: Meeting, wanted: int) -> tuple[float, ...]:
    """Middles of the keys out of the wall, evenly over the common depth."""
    low, high = meeting.overlap
    count = wanted or max(2, round((high - low) / SPACING))
    step = (high - low) / count
    return tuple(length(low + (number + 0.5) * step) for number in range(count))


def _reach(meeting: Meeting, options: MitreOptions) -> float:
    """How far a pocket reaches along either outer face from the arris."""
    radius, half = options.cutter / 2, math.radians(Corner.of(meeting.a, meeting.b).phi / 2)
    stand = radius - options.plunge  # the cutter's middle, outside the arris on the bisector
    return math.sqrt(radius**2 - (stand * math.sin(half)) ** 2) - stand * math.cos(half)


def _cutter_middle(corner: Corner, options: MitreOptions) -> Vec2:
    """Outside the outside arris on the bisector of the outer faces, measured from the corner's middle."""
    stand = options.cutter / 2 - options.plunge
    bx, by = corner.bisector
    return (-corner.inner[0] - stand * bx, -corner.inner[1] - stand * by)
