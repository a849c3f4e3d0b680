"""Checks of the set-out that need no solids: short grain, boards that touch nothing, what a smaller row left dangling.

They read cuts, never kinds of joint: a cut that goes through the whole thickness weakens what is left
beyond it, one that does not is a housing.
"""

from collections.abc import Iterable, Sequence

from ..findings import Finding, Severity, declare
from ..geometry.polygons import level_crossings
from ..geometry.shapes import Prism
from ..job.model import Job
from ..places import Where
from .model import Cut, Meeting, Part

SHORT_GRAIN = declare("short-grain", "A cut lies too near an end or another cut: what is left between breaks out.")
TOUCHES_NOTHING = declare("touches-nothing", "A board meets no other: it would hang in the air.")
APART = declare("apart", "Some boards are joined to each other but not to the rest of the piece.")
DANGLING = declare("no-such-board", "The job file speaks of a board that is not there.")
NOTHING_LEFT = declare("nothing-left", "The cuts of a board leave nothing of it.")

WARN_BELOW = 50.0


def short_grain(part: Part) -> tuple[Finding, ...]:
    """Wood left between a through cut and the ends, and between neighbouring through cuts."""
    found: list[Finding] = []
    t = part.board.thickest
    spans = sorted((*span, cut) for cut in part.cuts if not cut.end for span in [_span(part, cut)] if span)
    previous: tuple[float, Cut | None] = (part.zero, None)
    for low, high, cut in spans:
        found += _left(part, low - previous[0], previous[1], cut, t)
        previous = (high, cut) if high > previous[0] else previous
    if previous[1] is not None:
        found += _left(part, _far_face(part) - previous[0], previous[1], None, t)
    return tuple(found)


def _far_face(part: Part) -> float:
    return part.long[1]


def _span(part: Part, cut: Cut) -> tuple[float, float] | None:
    """Where a through cut lies along the board, over both faces; a housing's face only; None for others."""
    lows, highs = [], []
    for shape in cut.shapes:
        if not isinstance(shape, Prism):
            return None
        points = [(x, y) for x, y, _ in shape.outline]
        middle = (min(x for x, _ in points) + max(x for x, _ in points)) / 2
        half = part.board.thickness_at(middle) / 2
        for c in (half, -half):
            crossed = level_crossings(points, c)
            if crossed:
                lows.append(crossed[0])
                highs.append(crossed[1])
    return (min(lows), max(highs)) if lows else None


def _through(part: Part, cut: Cut) -> bool:
    """Whether a cut goes through the thickness."""
    for shape in cut.shapes:
        if isinstance(shape, Prism):
            cs = [knot[1] for knot in shape.outline]
            return max(cs) - min(cs) >= part.board.thickest
    return False


def _left(part: Part, left: float, before: Cut | None, after: Cut | None, t: float) -> list[Finding]:
    """A finding where too little wood is left between two cuts, or a cut and an end."""
    cuts = [cut for cut in (before, after) if cut is not None]
    slots = [cut for cut in cuts if _through(part, cut)]
    if slots:
        stop, warn = 2 * t, max(2 * t, WARN_BELOW, *((cut.figures.deep or 0.0) / 2 for cut in slots))
    else:
        stop, warn = 0.0, t
    if left >= warn:
        return []
    severity = Severity.STOP if left < stop else Severity.WARN
    limit = stop if severity is Severity.STOP else warn
    ends = "the end" if len(cuts) == 1 else cuts[1].key
    return [
        Finding(
            code=SHORT_GRAIN,
            severity=severity,
            where=Where(boards=(part.id,), joint=cuts[0].joint, cut=cuts[0].key, path=part.board.path),
            says=f"{part.id}: {left:.1f} of wood is left between the {cuts[0].key} and {ends}",
            remedy=f"leave at least {limit:.0f}: move the joint, or lengthen {part.id}",
            found=left,
            limit=limit,
            unit="mm",
            source="common practice",
        )
    ]


def nothing_left(part: Part) -> tuple[Finding, ...]:
    """A board must be longer than its ends take."""
    if part.short[1] > part.short[0]:
        return ()
    return (
        Finding(
            code=NOTHING_LEFT,
            severity=Severity.STOP,
            where=Where(boards=(part.id,), path=part.board.path),
            says=f"the ends of {part.id} meet: nothing is left of it on one face",
            remedy=f"lengthen {part.id}",
            found=part.short[1] - part.short[0],
            limit=0.0,
            unit="mm",
            source="geometry",
        ),
    )


def connection(job: Job, meetings: Iterable[Meeting], names: Sequence[str]) -> tuple[Finding, ...]:
    """Boards that touch nothing, and groups that hang together but not with the rest."""
    parent = {name: name for name in names}

    def root(name: str) -> str:
        while parent[name] != name:
            parent[name] = parent[parent[name]]
            name = parent[name]
        return name

    touched: set[str] = set()
    for meeting in meetings:
        a, b = meeting.a.body, meeting.b.body
        touched |= {a, b}
        parent[root(a)] = root(b)
    paths = {board.name: board.path for board in job.boards}
    if len(names) < 2:
        return ()
    lonely = [name for name in names if name not in touched]
    found = [
        Finding(
            code=TOUCHES_NOTHING,
            severity=Severity.WARN,
            where=Where(boards=(name,), path=paths[name]),
            says=f"{name} touches no other board",
            remedy="move it to where it meets another, or fix it to the wall on its own",
        )
        for name in lonely
    ]
    groups: dict[str, list[str]] = {}
    for name in names:
        if name in touched:
            groups.setdefault(root(name), []).append(name)
    found += [
        Finding(
            code=APART,
            severity=Severity.NOTE,
            where=Where(boards=tuple(group)),
            says=f"{', '.join(group)} are joined to each other but to nothing else",
            remedy="nothing, if they are meant to hang apart",
        )
        for group in sorted(groups.values(), key=len, reverse=True)[1:]
    ]
    return tuple(found)


def dangling(job: Job) -> tuple[Finding, ...]:
    """References to boards that are not there."""
    return tuple(
        Finding(
            code=DANGLING,
            severity=Severity.WARN,
            where=Where(path=missing.path),
            says=f"there is no board called {missing.name}",
            remedy=f"did you mean {missing.nearest}?" if missing.nearest else "take it out, or give a board that name",
        )
        for missing in job.dangling
    )
