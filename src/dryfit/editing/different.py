"""What is different between two versions of a job, as a maker would say it: "raking 1 moved 1 to the left".

Worked out from the two jobs as they are read, however the change was made: by hand, by text, by a cure, outside.
What a measure, a timber or a row carries along is told with it: "width made 2700; 9 boards follow". What is alike of
several boards is said once. Values all through (see `sentences`): the history tells them in the job's own units.
"""

import math
import tomllib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import reduce
from types import MappingProxyType
from typing import Any, TypeAlias

from ..geometry.frames import Vec2
from ..job.model import BoardSpec, Fixing, FrameSpec, Job, JointSpec, Timber, Unit
from ..places import Path
from ..sentences import Angle, Count, Fineness, Length, Name, Sentence, Several, Value, Voice, Words, few, say, told

Said: TypeAlias = tuple[
    str, tuple[Value, ...]
]  # a form whose first braces take the name, and the figures of the others

DONE = {"taken out": "{} taken out", "put in": "{} put in", "changed": "{} changed"}
MOST = 2  # differences that are said one by one; of more it is counted what they are
NAMED = 3  # boards that are named where one thing is said of several
SAME = 0.005  # mm: no figure is told so finely
DIGITS = 4  # of a figure that are compared
SAME_ANGLE = 0.005  # degrees
UPRIGHT = 45.0  # degrees off level from which on a lean is told off plumb


@dataclass(frozen=True, slots=True)
class Difference:
    """One thing that is different.

    Attributes:
        what: the sort of thing, for counting: "board", "joint", "measure".
        how: "changed", "put in", "taken out".
        says: of what it names, the name left out: "{} moved 1 to the left" is `form` and `figures`.
        names: whom it is said of; empty where the sentence says it all.
    """

    what: str
    how: str
    form: str
    figures: tuple[Value, ...] = ()
    names: tuple[str, ...] = ()

    def said(self, names: Sequence[str] = ()) -> Sentence:
        """The sentence, of all these."""
        whom = names or self.names
        return say(self.form, *([few([*map(Name, whom)], NAMED)] if whom else []), *self.figures)


def differences(before: Job, after: Job) -> tuple[Difference, ...]:
    """All that is different, the boards first."""
    return tuple(_all(before, after))


def in_words(found: Sequence[Difference]) -> Words:
    """Differences in a few words: one by one, what is alike once; counted where they are many. "" for none."""
    alike: dict[tuple[object, ...], list[str]] = {}
    first: dict[tuple[object, ...], Difference] = {}
    for one in found:
        key = (one.what, one.how, one.form, one.figures) if one.names else (one,)
        alike.setdefault(key, []).extend(one.names)
        first.setdefault(key, one)
    if len(alike) <= MOST:
        return _joined([first[key].said(names) for key, names in alike.items()])
    counts: dict[tuple[str, str], int] = {}
    for one in found:
        counts[one.what, one.how] = counts.get((one.what, one.how), 0) + max(1, len(one.names))
    return _joined([say("{} {}", Count(count, what), how) for (what, how), count in counts.items()], brief=True)


def named(before: Job | None, after: Job | None) -> str:
    """What a version is called that came of a change; "" where nothing can be said of it."""
    if before is None or after is None:
        return ""
    return told(in_words(differences(before, after)), Voice(after.units))


def _joined(said: Sequence[Sentence], *, brief: bool = False) -> Words:
    """Sentences in a row: long ones with semicolons, a few words with commas; "" of none."""
    return reduce(lambda one, other: say("{}, {}" if brief else "{}; {}", one, other), said) if said else ""


# --- two jobs ------------------------------------------------------------------------------------


def _all(before: Job, after: Job) -> Iterator[Difference]:
    """Boards and frames as they are changed in the text; then what carries others along, with these; then the rest."""
    texts = _values(before.text), _values(after.text)
    calls = _renamed(before, after)
    found = [*_of_frames(before, after), *_of_boards(before, after, calls)]
    follows = {one: _is_as_written(one, (before, after), texts, calls) for one in found}
    causes = [*_of_measures(*texts), *_of_timbers(before, after)]
    yield from (one for one in found if not (causes and follows[one]))
    carried = sorted({name for one in found if causes and follows[one] for name in one.names})
    yield from _with(causes, carried)
    yield from _of_joints(before, after, calls)
    yield from _of_named("fixing", before.fixings, after.fixings)
    yield from _of_the_wall(before, after)
    yield from _of_the_rest(before, after)


def _length(mm: float, step: Fineness = Fineness.PLACE) -> Length:
    """A length of which two that differ by a float's dust are one."""
    return Length(round(mm, DIGITS), step)


def _values(text: str) -> Mapping[str, Any]:
    try:
        return tomllib.loads(text.removeprefix("\ufeff"))
    except tomllib.TOMLDecodeError:
        return {}


def _is_as_written(
    one: Difference, jobs: tuple[Job, Job], texts: tuple[Mapping[str, Any], Mapping[str, Any]], calls: Mapping[str, str]
) -> bool:
    """Whether what is changed stands in both texts as it did: then something else carries it along."""
    if one.how != "changed":
        return False
    tables = []
    for job, text in zip(jobs, texts, strict=True):
        known = {spec.name: spec.path for spec in job.boards} | {frame.name: frame.path for frame in job.frames}
        backwards = {new: old for old, new in calls.items()}
        paths = [known.get(backwards.get(name, name) if job is jobs[0] else name, ()) for name in one.names]
        tables.append([_at(text, path) for path in paths])
    return tables[0] == tables[1] and None not in tables[0]


def _at(values: Mapping[str, Any], path: Path) -> Any:
    found: Any = values
    for step in path:
        try:
            found = found[step]
        except (KeyError, IndexError, TypeError):
            return None
    return found if path else None


def _with(causes: Sequence[Difference], carried: Sequence[str]) -> Iterator[Difference]:
    """What carries others along, one alone with how many these are."""
    if len(causes) == 1 and carried:
        (cause,) = causes
        yield replace(cause, form=f"{cause.form}; {{}}", figures=(*cause.figures, _follow(len(carried))))
        return
    yield from causes
    if carried:
        yield Difference("board", "moved along", "{}", (_follow(len(carried)),))


def _follow(count: int) -> Sentence:
    return say("{} follows" if count == 1 else "{} follow", Count(count, "board"))


# --- boards --------------------------------------------------------------------------------------


def _renamed(before: Job, after: Job) -> dict[str, str]:
    """Boards that are alike but for their name, old name to new."""
    old, new = ({spec.name: spec for spec in job.boards} for job in (before, after))
    gone = [spec for name, spec in old.items() if name not in new]
    come = {_but_name(spec): name for name, spec in new.items() if name not in old}
    return {spec.name: come[_but_name(spec)] for spec in gone if _but_name(spec) in come}


def _but_name(spec: BoardSpec) -> BoardSpec:
    return replace(spec, name="", frame="", path=())


def _of_boards(before: Job, after: Job, calls: Mapping[str, str]) -> Iterator[Difference]:
    old, new = ({spec.name: spec for spec in job.boards} for job in (before, after))
    frames = {frame.name for job in (before, after) for frame in job.frames}
    whole = {frame.name for frame in before.frames} & {frame.name for frame in after.frames}
    for name, spec in old.items():
        if name in new:
            yield from _of_board(spec, new[name], (before, after))
        elif name in calls:
            yield Difference("board", "renamed", "{} called {}", (Name(calls[name]),), (name,))
        elif spec.frame not in frames or spec.frame in whole:
            yield Difference("board", "taken out", "{} taken out", (), (name,))
    for name, spec in new.items():
        if name not in old and name not in calls.values() and (spec.frame not in frames or spec.frame in whole):
            yield Difference("board", "put in", "{} put in", (), (name,))


def _of_board(old: BoardSpec, new: BoardSpec, jobs: tuple[Job, Job]) -> Iterator[Difference]:
    said = [*_of_line(old, new)] if not old.frame else []  # a frame's sides are told with it
    said += [*_of_size(old, new, jobs)]
    for one in FIELDS:
        if getattr(old, one) != getattr(new, one):
            said.append((FIELDS[one], ()))
    for form, figures in said:
        yield Difference("board", "changed", form, figures, (new.name,))


FIELDS: Mapping[str, str] = MappingProxyType(
    {
        "line_is": "line of {} runs along another face",
        "lies": "{} laid the other way",
        "ends": "ends of {} cut otherwise",
        "scribe": "{} left long otherwise",
        "thickness_at": "{} measured anew along its length",
        "splice_at": "{} divided elsewhere",
    }
)


def _of_line(old: BoardSpec, new: BoardSpec) -> Iterator[Said]:
    """How a board's line has moved: as a whole, in length, in its lean."""
    (a, b), (c, d) = old.line, new.line
    first, last = (c[0] - a[0], c[1] - a[1]), (d[0] - b[0], d[1] - b[1])
    if math.dist(first, last) < SAME:
        yield from _moved(first)
        return
    turned = _lean(c, d) - _lean(a, b)
    if abs(turned) > SAME_ANGLE:
        yield "{} leaned to {}, was {}", (Angle(round(_off(c, d), DIGITS)), Angle(round(_off(a, b), DIGITS)))
        if min(math.hypot(*first), math.hypot(*last)) > SAME:  # else one end stands where it stood
            yield from _moved(min(first, last, key=lambda way: math.hypot(*way)))
        return
    long, was = math.dist(c, d), math.dist(a, b)
    if was > SAME:
        way = ((b[0] - a[0]) / was, (b[1] - a[1]) / was)
        aside = first[1] * way[0] - first[0] * way[1]
        yield from _moved((-aside * way[1], aside * way[0]))
    yield "{} made {} longer" if long > was else "{} made {} shorter", (_length(abs(long - was)),)


def _moved(way: Vec2) -> Iterator[Said]:
    words = [
        say("{} to the right" if way[0] > 0 else "{} to the left", _length(abs(way[0])))
        if abs(way[0]) > SAME
        else None,
        say("{} up" if way[1] > 0 else "{} down", _length(abs(way[1]))) if abs(way[1]) > SAME else None,
    ]
    told_ways = tuple(word for word in words if word is not None)
    if told_ways:
        yield "{} moved {}", (Several(told_ways),)


def _lean(start: Vec2, end: Vec2) -> float:
    return math.degrees(math.atan2(end[1] - start[1], end[0] - start[0]))


def _off(start: Vec2, end: Vec2) -> float:
    """How far a line is off plumb, or off level where that is nearer."""
    lean = abs(_lean(start, end)) % 180.0
    level = min(lean, 180.0 - lean)
    return 90.0 - level if level > UPRIGHT else level


def _of_size(old: BoardSpec, new: BoardSpec, jobs: tuple[Job, Job]) -> Iterator[Said]:
    """Depth, thickness, wood, how far it stands out."""
    if abs(new.depth - old.depth) > SAME:
        yield "{} made {} deep, was {}", (_length(new.depth), _length(old.depth))
    if abs(new.back - old.back) > SAME:
        out = new.back - old.back
        yield "{} brought {} out from the wall" if out > 0 else "{} set {} back", (_length(abs(out)),)
    if old.timber == new.timber:
        return
    was, now = (job.timbers.get(spec.timber) for job, spec in zip(jobs, (old, new), strict=True))
    if was is not None and now is not None and abs(_thick(was) - _thick(now)) > SAME:
        yield "{} made {} thick, was {}", (_length(_thick(now), Fineness.FINE), _length(_thick(was), Fineness.FINE))
    else:
        yield "{} made of {}", (new.timber,)


def _thick(timber: Timber) -> float:
    return timber.thickness if timber.measured is None else timber.measured


# --- frames --------------------------------------------------------------------------------------


def _of_frames(before: Job, after: Job) -> Iterator[Difference]:
    old, new = ({frame.name: frame for frame in job.frames} for job in (before, after))
    yield from (Difference("frame", "taken out", "{} taken out", (), (name,)) for name in old if name not in new)
    yield from (Difference("frame", "put in", "{} put in", (), (name,)) for name in new if name not in old)
    for name in old:
        for form, figures in _of_frame(old[name], new[name]) if name in new else ():
            yield Difference("frame", "changed", form, figures, (name,))


def _of_frame(old: FrameSpec, new: FrameSpec) -> Iterator[Said]:
    """How a frame has moved, or how large it is now."""
    if len(old.points) != len(new.points) or old.closed != new.closed:
        yield "corners of {} changed", ()
        return
    ways = [(q[0] - p[0], q[1] - p[1]) for p, q in zip(old.points, new.points, strict=True)]
    if all(math.dist(way, ways[0]) < SAME for way in ways):
        yield from _moved(ways[0])
        return
    sizes: list[Said] = []
    for axis, word in ((0, "wide"), (1, "high")):
        was, now = (_span(frame, axis) for frame in (old, new))
        if abs(was - now) > SAME:
            sizes.append((f"{{}} made {{}} {word}, was {{}}", (_length(now), _length(was))))
    yield from sizes or [("corners of {} moved", ())]


def _span(frame: FrameSpec, axis: int) -> float:
    places = [point[axis] for point in frame.points]
    return max(places) - min(places)


# --- what carries others along -------------------------------------------------------------------


def _of_measures(before: Mapping[str, Any], after: Mapping[str, Any]) -> Iterator[Difference]:
    """Measures as they are written, in the job's own units."""
    old, new = (text.get("measures", {}) for text in (before, after))
    for name in (*old, *(name for name in new if name not in old)):
        if name not in new:
            yield Difference("measure", "taken out", "measure {} taken out", (name,))
        elif name not in old:
            yield Difference("measure", "put in", "measure {} put in: {}", (name, _written(new[name])))
        elif old[name] != new[name]:
            yield Difference("measure", "changed", "{} made {}, was {}", (name, *map(_written, (new[name], old[name]))))


def _written(value: object) -> str:
    return f"{value:g}" if isinstance(value, float) else str(value)


def _of_timbers(before: Job, after: Job) -> Iterator[Difference]:
    old, new = before.timbers, after.timbers
    yield from (Difference("timber", "taken out", "timber {} taken out", (name,)) for name in old if name not in new)
    yield from (Difference("timber", "put in", "timber {} put in", (name,)) for name in new if name not in old)
    for name, was in old.items():
        now = new.get(name)
        if now is None or replace(now, path=was.path) == was:
            continue
        thick, thin = _length(_thick(now), Fineness.FINE), _length(_thick(was), Fineness.FINE)
        if now.measured is not None and now.measured != was.measured:
            yield Difference("timber", "changed", "{} measured: {}, was {}", (name, thick, thin))
        elif abs(_thick(now) - _thick(was)) > SAME:
            yield Difference("timber", "changed", "{} made {} thick, was {}", (name, thick, thin))
        elif now.species != was.species:
            yield Difference("timber", "changed", "{} is {}, was {}", (name, now.species, was.species))
        else:
            yield Difference("timber", "changed", "how {} is bought changed", (name,))


# --- joints, fixings, wall, the rest -------------------------------------------------------------


def _of_joints(before: Job, after: Job, calls: Mapping[str, str]) -> Iterator[Difference]:
    """What is asked of single joints, and the rules for all."""
    old = {frozenset(calls.get(name, name) for name in spec.between): spec for spec in before.joint_specs}
    new = {frozenset(spec.between): spec for spec in after.joint_specs}
    there = {spec.name for spec in after.boards} | {frame.name for frame in after.frames} | {"wall"}
    for pair in [*old, *(pair for pair in new if pair not in old)]:
        was, now = old.get(pair), new.get(pair)
        if was is not None and now is not None and _asked(was) == _asked(now):
            continue
        between = (now or was or JointSpec(between=("", ""))).between
        names = (Name(between[0]), Name(between[-1]))
        if now is None and pair <= there:
            yield Difference("joint", "changed", "joint of {} and {} left to the rule", names)
        elif now is not None and now.kind and (was is None or now.kind != was.kind):
            yield Difference("joint", "changed", "joint of {} and {} made a {}", (*names, now.kind))
        elif now is not None:
            yield Difference("joint", "changed", "joint of {} and {} changed", names)
    if before.joints.clearance != after.joints.clearance and after.joints.clearance is not None:
        yield Difference("rule", "changed", "clearance made {}", (_length(after.joints.clearance, Fineness.FINE),))
    elif before.joints != after.joints:
        yield Difference("rule", "changed", "rules for joints changed")


def _asked(spec: JointSpec) -> tuple[object, ...]:
    return spec.kind, spec.front, dict(spec.options)


def _of_named(what: str, before: Sequence[Fixing | Unit], after: Sequence[Fixing | Unit]) -> Iterator[Difference]:
    old, new = ({one.name: replace(one, path=()) for one in some} for some in (before, after))
    for name in (*old, *(name for name in new if name not in old)):
        if old.get(name) != new.get(name):
            how = "taken out" if name not in new else "put in" if name not in old else "changed"
            yield Difference(what, how, DONE[how], (), (name,))


def _of_the_wall(before: Job, after: Job) -> Iterator[Difference]:
    old, new = before.wall, after.wall
    if old == new:
        return
    said = []
    if new.right is not None and (old.left, old.right) != (new.left, new.right):
        said.append(("wall made {} wide", _length(new.right - (new.left or 0.0))))
    if new.ceiling is not None and old.ceiling != new.ceiling:
        said.append(("wall made {} high", _length(new.ceiling)))
    yield from (Difference("wall", "changed", form, (figure,)) for form, figure in said)
    if not said:
        yield Difference("wall", "changed", "studs changed" if old.studs != new.studs else "wall changed")


def _of_the_rest(before: Job, after: Job) -> Iterator[Difference]:
    if before.units != after.units:
        yield Difference("job", "changed", "job in {}", ("inches" if after.units == "in" else "mm",))
    for name in ("title", "client", "date"):
        if getattr(before, name) != getattr(after, name):
            yield Difference("job", "changed", "{} changed", (name,))
    if before.finish != after.finish:
        coats = Count(after.finish.coats, "coat")
        more = before.finish.coats != after.finish.coats
        yield Difference("finish", "changed", "finish made {}" if more else "finish changed", (coats,) if more else ())
    yield from _of_named("unit", before.units_glued, after.units_glued)
    for name, word in (("loads", "loads changed"), ("anchors", "anchors changed")):
        if getattr(before, name) != getattr(after, name):
            yield Difference(name, "changed", word)
    for name in sorted({*before.tables, *after.tables}):
        yield from _of_tables(name, before.tables.get(name, ()), after.tables.get(name, ()))


def _of_tables(word: str, before: Sequence[Any], after: Sequence[Any]) -> Iterator[Difference]:
    """Tables of a study: by their names, where each has one of its own; else that they are others."""
    old, new = ({getattr(one, "name", ""): one for one in some} for some in (before, after))
    if "" in (*old, *new) or (len(old), len(new)) != (len(before), len(after)):
        if before != after:
            yield Difference("table", "changed", "{} changed", (word,))
        return
    yield from (
        Difference(word, "taken out", "{} taken out", (), (f"{word} {name}",)) for name in old if name not in new
    )
    yield from (Difference(word, "put in", "{} added", (), (f"{word} {name}",)) for name in new if name not in old)
    for name in old:
        if new.get(name, old[name]) != old[name]:
            yield Difference(word, "changed", "{} changed", (), (f"{word} {name}",))
