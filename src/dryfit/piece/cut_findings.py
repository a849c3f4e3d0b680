"""Where the job asks for something else than what is in the wood: said with both figures, and what can be done.

A board that is cut cannot follow a changed drawing. Beyond the step to which sheets print (0.1 for places, 0.05 for
widths and depths, 0.05 degrees) a difference is a stop, until the job is put back, the board made anew, or the
maker's word is on that cut (`accept = true`): then it is a note.

A thickness that was measured after cutting is nobody's change of mind: it never stops by itself. What counts then is
the play that a slot has left, and a warning says where it is too little or too much.
"""

import math
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, TypeAlias

from ..findings import Finding, Severity, declare, question, said
from ..job.model import BoardSpec, Job
from ..job.names import nearest
from ..job.options import CLEARANCE, Options
from ..lengths import MM_PER, LengthUnit
from ..places import Cure, Edit, Plain, Where
from .as_cut import Told
from .choose import Chosen
from .model import Board, Joint, Mating
from .parts import called
from .reshaping import EXACT, can_lean
from .setout import AsCut, Made

CUTS = question("cuts", "what is cut already against what is asked for", lambda piece: piece.recorded)
OTHERWISE = declare("cut-otherwise", "A cut that is in the wood is not what the job asks for.")
NOT_THERE = declare("cut-not-asked-for", "Something is cut that the job has no place for.")
UNCLEAR = declare("cut-unclear", "A recorded cut may be one of several.")
BEYOND = declare("cut-cannot-be", "A figure of a recorded cut is out of reason, and is not used.")
DIVIDED = declare("cut-board-divided", "A board that is cut in one length is now divided.")
PLAY = declare("play-as-cut", "A slot that is cut leaves too little or too much play for the board as measured.")
UNUSABLE = declare("made-file-unusable", "What has been made cannot be read, so nobody knows what is cut.")
MADE_FOR_NOBODY = declare("made-for-no-board", "The made file pins or measures a board that is not there.")

OF_A_PAIR = (OTHERWISE, PLAY)  # that say what is missing between two boards
PLACE, WIDTH, LEAN = 0.1, 0.05, 0.05  # the steps to which sheets print in mm
FRACTION = MM_PER["in"] / 64  # and in inches, of places and depths
LEAST_PLAY, MOST_PLAY = 0.05, 0.25  # total, across the walls
PLAY_SOURCE = "common practice: 0.05 at least; glued joints failed in tests above 0.25 and none at or below 0.13"
NO_DEEPER = 0.02  # that may overlap, as in the clash check
MOST_EASED = CLEARANCE.most or 0.0  # of a slot to let in what is sent there: wider than by that it holds nothing
SEATS = ("seat", "bottom")


Before: TypeAlias = Callable[[], Iterable[Mapping[AsCut, Told]]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """What the findings look at besides what is recorded.

    Attributes:
        boards: by name, members of divided ones by their own.
        specs: of the boards as this piece has them, by name.
        whole: the board of the file that each member is part of.
        chosen: the joints as the job asks for them, by their two bodies.
        joints: as made, by their two bodies.
        matings: of a joint as the job asks for it.
        told: every recorded cut.
    """

    told: Sequence[Told]
    job: Job
    made: Made
    boards: Mapping[str, Board]
    specs: Mapping[str, BoardSpec]
    whole: Mapping[str, str]
    chosen: Mapping[frozenset[str], Chosen]
    joints: Mapping[frozenset[str], Joint]
    matings: Callable[[Chosen], Sequence[Mating]]

    def is_measured(self, name: str) -> bool:
        """Whether a board's thickness was measured, not taken as ordered."""
        spec = self.specs.get(name)
        if spec is None:
            return False
        timber = self.job.timbers.get(spec.timber)
        return bool(spec.thickness_at or name in self.made.thickness or (timber and timber.measured is not None))


@dataclass(frozen=True, slots=True)
class _Differs:
    """One figure of a cut that is not what the job asks for; `cut_words` and `asked_words` say both."""

    word: str
    wood: float
    asked: float
    cut_words: str
    asked_words: str


def cut_findings(scene: Scene, before: Before) -> Iterator[Finding]:
    """All that recorded cuts give cause to say.

    Args:
        scene: the recorded cuts, and the piece around them.
        before: the same cuts beside the piece with its boards as thick as they were ordered, and as thick as they
            were known to be when these were cut; asked only where it is needed.
    """
    if scene.made.trouble:
        yield Finding(
            code=UNUSABLE,
            severity=Severity.STOP,
            where=Where(),
            says=f"what is cut cannot be read: {scene.made.trouble}",
            remedy="put the made file right: until then what was last read of it is shown",
        )
    yield from _without_a_board(scene)
    yield from _for_nobody(scene)
    for item in scene.told:
        if item.one.board not in scene.boards:
            continue
        if item.cut is None:
            yield _unclear(item, scene) if item.fitting > 1 else _not_there(item, scene)
        elif item.beyond:
            yield _out_of_reason(item, scene)
        else:
            yield from _compared(item, scene, before)


# ---- what is not there


def _without_a_board(scene: Scene) -> Iterator[Finding]:
    lost: dict[str, list[Told]] = {}
    for item in scene.told:
        if item.one.board not in scene.boards:
            lost.setdefault(item.one.board, []).append(item)
    wholes = set(scene.whole.values())
    for name, items in lost.items():
        cuts = ", ".join(f"{_short(item.one)} at {item.one.place}" for item in items)
        if name in wholes:
            members = [member for member, whole in scene.whole.items() if whole == name]
            yield Finding(
                code=DIVIDED,
                severity=Severity.STOP,
                where=Where(boards=tuple(members), path=scene.specs[members[0]].path),
                says=f"{name} is cut in one length ({cuts}), and is now divided into {' and '.join(members)}",
                remedy="keep it whole, or make it anew and take its cuts out of the made file",
            )
            continue
        close = nearest(name, [*scene.boards, *wholes])
        yield Finding(
            code=NOT_THERE,
            severity=Severity.STOP,
            where=Where(),
            says=f"{name} is cut ({cuts}), but there is no board called {name}: its cuts would be lost",
            remedy=f"did you mean {close}?" if close else f"put {name} back, or take its cuts out of the made file",
        )


def _short(one: AsCut) -> str:
    return f"its {one.end}" if one.end else f"for {one.other}" + (f", {one.name}" if one.name else "")


def _for_nobody(scene: Scene) -> Iterator[Finding]:
    """Pins and thicknesses of boards that are not there: they wait, and do no harm."""
    names = {*scene.boards, *scene.whole.values()}
    made = scene.made
    pinned = [name for name, pin in made.pins.items() if pin.mark and name not in names]
    for name in dict.fromkeys([*pinned, *(name for name in made.thickness if name not in names)]):
        if any(one.board == name for one in made.cuts):
            continue  # told already, and worse
        close = nearest(name, names)
        yield Finding(
            code=MADE_FOR_NOBODY,
            severity=Severity.NOTE,
            where=Where(),
            says=f"the made file has {'a pin' if name in pinned else 'a thickness'} for {name}, which is not there",
            remedy=f"did you mean {close}?" if close else "leave it for when the board comes back, or take it out",
        )


def _not_there(item: Told, scene: Scene) -> Finding:
    one, other = item.one, item.one.other
    if "wall" in one.between and frozenset(one.between) not in scene.joints:
        fixings = [fixing.name for fixing in scene.job.fixings]
        close = nearest(other, fixings)
        why = f"there is no fixing called {other}" + (f": did you mean {close}?" if close else "")
    elif other not in scene.boards and frozenset(one.between) not in scene.joints:
        close = nearest(other, scene.boards) if other not in scene.whole.values() else ""
        why = f"there is no board called {other}" + (f": did you mean {close}?" if close else "")
    elif frozenset(one.between) in scene.joints:
        why = f"its joint with {other} has none such" + (f' ("{one.name}")' if one.name else "")
    else:
        why = f"the job has no joint of {one.board} and {other}"
    return Finding(
        code=NOT_THERE,
        severity=Severity.STOP,
        where=Where(boards=(one.board,), path=scene.boards[one.board].path),
        says=f"{one.board} is cut for {other} ({one.place}), but {why}; {_drawn(item)}",
        remedy=f"put that joint back, or make {one.board} anew and take the cut out of the made file",
    )


def _drawn(item: Told) -> str:
    """Whether a cut that the job has no place for is shown."""
    return "it is drawn as it was cut" if item.old else "it is not drawn, for its figures do not tell a shape there"


def _unclear(item: Told, scene: Scene) -> Finding:
    one = item.one
    return Finding(
        code=UNCLEAR,
        severity=Severity.STOP,
        where=Where(boards=(one.board,), path=scene.boards[one.board].path),
        says=f"{one.place} may be one of {item.fitting} cuts in {one.board} for {one.other}",
        remedy='say which with cut = "..."; the part\'s sheet has their names',
    )


_WORDS = {"at": "at", "across": "across", "deep": "deep", "stop": "stopped", "length": "long"}


def _out_of_reason(item: Told, scene: Scene) -> Finding:
    one, word = item.one, item.beyond
    assert item.cut is not None, "what is not there is told otherwise"
    wood, asked = (
        (one.length, item.asked_length) if word == "length" else (getattr(item.wood, word), getattr(item.asked, word))
    )
    slip = _slip(wood or 0.0, asked or 0.0)
    return Finding(
        code=BEYOND,
        severity=Severity.STOP,
        where=Where(boards=_boards(item, scene), joint=item.cut.joint, cut=item.cut.key),
        says=f"{one.place}: {_WORDS[word]} {said(wood or 0.0, 2)} cannot be for {called(item.cut)}, which the job has "
        f"at {said(asked or 0.0, 2)}; the figure is not used",
        remedy=slip or "measure it again and write it anew; or make the board anew and take the cut out",
        found=wood,
        limit=asked,
        unit="mm",
    )


def _slip(wood: float, asked: float) -> str:
    """What a slip of the pen looks like: the same figures in another order, or the point elsewhere."""
    one, other = (f"{value:.2f}".rstrip("0").replace(".", "") for value in (wood, asked))
    alike = sorted(one) == sorted(other) and one != other
    tenfold = any(abs(wood * times - asked) <= PLACE for times in (10.0, 0.1, 100.0, 0.01))
    return f"two figures may have changed places: did you mean {said(asked, 2)}?" if alike or tenfold else ""


# ---- what is asked for otherwise


def _compared(item: Told, scene: Scene, before: Before) -> Iterator[Finding]:
    assert item.cut is not None, "what is not there is told otherwise"
    units = scene.job.units
    found = _differing(item, item, units)
    yield from _play(item, scene)
    if not found:
        return
    since: list[_Differs] = []
    if _any_measured(scene):
        for thick in (told.get(item.one) for told in before()):
            if thick is not None and thick.cut is not None:
                still = {one.word for one in _differing(item, thick, units)}
                since += [one for one in found if one.word not in still and one not in since]
        since += [one for one in found if one not in since and _by_measuring(one, item, scene)]
        since = [one for one in since if one.word != "lean" or not item.one.end or can_lean(item.cut)]
        found = [one for one in found if one not in since]
    if found:
        severity = Severity.NOTE if item.one.accept else Severity.STOP
        yield _otherwise(item, found, severity, scene)
    elif since := [one for one in since if one.word != "across"]:
        yield _otherwise(item, since, Severity.NOTE if item.one.accept else Severity.WARN, scene)


def _any_measured(scene: Scene) -> bool:
    job = scene.job
    return bool(
        scene.made.thickness
        or any(timber.measured is not None for timber in job.timbers.values())
        or any(spec.thickness_at for spec in job.boards)
    )


def _differing(item: Told, other: Told, units: LengthUnit) -> list[_Differs]:
    """The figures of a cut in the wood beyond the printed step off what `other` asks for."""
    wood, asked, place = item.wood, other.asked, PLACE if units == "mm" else FRACTION
    found: list[_Differs] = []
    if item.one.end:
        if item.one.length is not None and other.asked_length is not None:
            found += _length("length", item.one.length, other.asked_length, place, "{} long over its long points", "{}")
    elif wood.opens != asked.opens:
        found.append(_Differs("opens", 0.0, 1.0, f"open to the {wood.opens}", f"to the {asked.opens}"))
    deep = WIDTH if units == "mm" else FRACTION
    for word, step, form in (
        ("at", place, "at {}"),
        ("across", WIDTH, "{} across"),
        ("deep", deep, "{} deep"),
        ("stop", deep, "stopped {} from the front"),
        ("stop_wall", deep, "stopped {} from the wall edge"),
    ):
        found += _length(word, getattr(wood, word), getattr(asked, word), step, form, form)
    if abs(wood.lean - asked.lean) > LEAN + EXACT:
        other_way = " the other way" if wood.lean * asked.lean < 0.0 else ""
        in_wood, in_job = f"{abs(wood.lean):.2f} degrees off square", f"{abs(asked.lean):.2f} degrees{other_way}"
        found.append(_Differs("lean", wood.lean, asked.lean, in_wood, in_job))
    return found


def _length(
    word: str, wood: float | None, asked: float | None, step: float, form: str, asked_form: str
) -> Iterator[_Differs]:
    if wood is not None and asked is not None and abs(wood - asked) > step + EXACT:
        digits = 1 if step >= PLACE else 2
        yield _Differs(word, wood, asked, form.format(said(wood, digits)), asked_form.format(said(asked, digits)))


def _by_measuring(one: _Differs, item: Told, scene: Scene) -> bool:
    """Whether a width differs because what enters was measured since, and for no other reason."""
    if one.word != "across" or not scene.is_measured(item.one.other):
        return False
    then, now = item.one.takes, _thickness(item, scene)
    return then is None or now is None or abs(one.asked - (now - then) - one.wood) <= WIDTH + EXACT


def _thickness(item: Told, scene: Scene) -> float | None:
    """Of what enters, where it does."""
    chosen = scene.chosen.get(frozenset(item.one.between))
    return None if chosen is None else chosen.meeting.other(item.one.board).thickness


def _mating(item: Told, scene: Scene) -> Mating | None:
    chosen = scene.chosen.get(frozenset(item.one.between))
    if chosen is None or item.cut is None:
        return None
    return next((mating for mating in scene.matings(chosen) if mating.key == item.cut.key), None)


def _wider(item: Told) -> float:
    wood, asked = item.wood.across, item.asked.across
    return 0.0 if wood is None or asked is None else wood - asked


def _play(item: Told, scene: Scene) -> Iterator[Finding]:
    """Play that a slot leaves for a board measured since it was cut."""
    if abs(_wider(item)) <= EXACT or not scene.is_measured(item.one.other):
        return
    mating = _mating(item, scene)
    if mating is None:
        return
    play = mating.play + _wider(item)
    if LEAST_PLAY - EXACT <= play <= MOST_PLAY + EXACT:
        return
    tight = play < LEAST_PLAY
    other = item.one.other
    assert item.cut is not None, "a mating has a cut"
    yield Finding(
        code=PLAY,
        severity=Severity.NOTE if item.one.accept else Severity.WARN,
        where=Where(boards=_boards(item, scene), joint=item.cut.joint, cut=item.cut.key),
        says=f"{called(item.cut)} is cut {said(item.wood.across or 0.0, 2)} across and leaves {said(play, 2)} of play "
        f"for {other} as measured",
        remedy=f"plane {other} there, or pare the slot" if tight else f"pack the slot, or take a thicker {other}",
        found=play,
        limit=LEAST_PLAY if tight else MOST_PLAY,
        unit="mm",
        source=PLAY_SOURCE,
    )


def _otherwise(item: Told, found: Sequence[_Differs], severity: Severity, scene: Scene) -> Finding:
    one, cut = item.one, item.cut
    assert cut is not None, "what is not there is told otherwise"
    subject = one.board if one.end else called(cut)
    cut_words = " and ".join(figure.cut_words for figure in found)
    asked_words = " and ".join(figure.asked_words for figure in found)
    first = found[0]
    measured = first.word != "opens"
    return Finding(
        code=OTHERWISE,
        severity=severity,
        where=Where(boards=_boards(item, scene), joint=cut.joint, cut=cut.key, path=scene.boards[one.board].path),
        says=f"{subject} is cut {cut_words}; the job has it {asked_words}: {_together(item, found, scene)}",
        remedy="" if severity is Severity.NOTE else _remedy(item, found, scene),
        found=first.wood if measured else None,
        limit=first.asked if measured else None,
        unit="" if not measured else "deg" if first.word == "lean" else "mm",
        source="the sheets print places to 0.1, widths and depths to 0.05, angles to 0.05 degrees" if measured else "",
        cures=() if severity is Severity.NOTE else tuple(_cures(item, found, scene)),
    )


def _boards(item: Told, scene: Scene) -> tuple[str, ...]:
    other = item.one.other
    if item.cut is not None and item.one.end and item.cut.joint is not None:
        other = next((name for name in item.cut.joint if name != item.one.board), "")
    return (item.one.board, other) if other in scene.boards else (item.one.board,)


# ---- whether the boards still go together


def _together(item: Told, found: Sequence[_Differs], scene: Scene) -> str:
    """Whether what is cut still takes what the job sends in, and what is missing where it does not."""
    if item.cut is not None and item.one.end and item.cut.joint is None:
        return "it meets nothing there"
    if _turned(found):
        return f"they do not go together so, and {_drawn(item)}"
    missing = _room_missing(item, found, scene)
    if missing > NO_DEEPER:
        return f"they no longer go together, {said(missing, 2)} of room is missing"
    short = next((one.asked - one.wood for one in found if one.word == "length"), 0.0)
    if short > NO_DEEPER:
        return f"they go together, and it ends {said(short)} short"
    if abs(item.off) > NO_DEEPER and not item.one.end:
        way = "past" if item.off > 0.0 else "short of"
        return f"they still go together, its datum end then lies {said(abs(item.off))} {way} where the job has it"
    return "they still go together"


def _turned(found: Sequence[_Differs]) -> bool:
    """Whether it opens to another edge than is asked for."""
    return any(one.word == "opens" for one in found)


def _room_missing(item: Told, found: Sequence[_Differs], scene: Scene) -> float:
    return max((_missing(item, one, scene) for one in found), default=0.0)


def _missing(item: Told, one: _Differs, scene: Scene) -> float:
    """How much room is missing by one figure; 0 or less where there is enough."""
    mating = _mating(item, scene)
    play = mating.play if mating is not None else 0.0
    chosen = scene.chosen.get(frozenset(item.one.between or (item.cut.joint if item.cut and item.cut.joint else ())))
    joint = None if chosen is None else scene.joints.get(frozenset(chosen.meeting.key))
    gap = next((gap.size for gap in joint.gaps if gap.between in SEATS), 0.0) if joint is not None else 0.0
    by = one.wood - one.asked
    match one.word:
        case "at" | "across":
            shift = (item.wood.at or 0.0) - (item.asked.at or 0.0) - item.off
            along = shift * math.cos(math.radians(item.wood.lean))
            return max(along - play / 2, -along - play / 2 - _wider(item))
        case "deep":
            return 0.0 if _followed(item, chosen, joint, scene) else -by - gap
        case "lean":
            thick = scene.boards[item.one.board].thickest
            return thick * abs(math.tan(math.radians(one.wood)) - math.tan(math.radians(one.asked))) - play
        case "length":
            return by - gap
        case _:
            return by


def _followed(item: Told, chosen: Chosen | None, joint: Joint | None, scene: Scene) -> bool:
    """Whether what enters is not cut yet, and will be made to suit."""
    if chosen is None or joint is None or dict(joint.options) == _plain(chosen.options):
        return False
    other = item.one.other
    return not any(one.one.board == other and (one.one.end or item.one.board in one.one.between) for one in scene.told)


def _plain(options: Options) -> dict[str, Any]:
    return {name: getattr(options, name) for name in type(options).model_fields}


# ---- what can be done


def _remedy(item: Told, found: Sequence[_Differs], scene: Scene) -> str:
    one = item.one
    ways = ["put the job back"]
    if one.other in scene.boards and any(figure.word == "at" for figure in found):
        ways.append(f"move {one.other} to it")
    cuts = sum(other.one.board == one.board for other in scene.told)
    joints = [key for key in scene.joints if one.board in key]
    others = sorted({name for key in joints for name in key if name != one.board and name in scene.boards})
    anew = f"make {one.board} anew: {cuts} {'cut goes' if cuts == 1 else 'cuts go'} with it"
    if others:
        anew += f", and its joints with {', '.join(others)} follow"
    ways.append(anew)
    said_so = f"{', '.join(ways[:-1])}, or {ways[-1]}"
    at_an_end = item.cut is not None and one.end and item.cut.joint is None
    if not at_an_end and (_turned(found) or _room_missing(item, found, scene) > MOST_EASED):
        # no word makes boards go together that cannot be eased
        return f"{said_so}; where the record is wrong ({one.place}), correct it"
    return f"{said_so}; accept = true on that cut ({one.place}) takes it as it is"


def _cures(item: Told, found: Sequence[_Differs], scene: Scene) -> Iterator[Cure]:
    words = {figure.word for figure in found}
    if words == {"at"}:
        yield from _moving(item, scene)
    if words == {"deep"}:
        yield from _written(item, scene)


def _moving(item: Told, scene: Scene) -> Iterator[Cure]:
    """The other board moved to what is cut, where that puts right all that is recorded of it."""
    one, spec = item.one, scene.specs.get(item.one.other)
    alone = spec is not None and sum(other.path == spec.path for other in scene.job.boards) == 1
    if spec is None or not alone or spec.frame or spec.name in scene.whole:
        return
    x = scene.boards[one.board].frame.x
    by = (item.wood.at or 0.0) - (item.asked.at or 0.0)
    dx, dy = x[0] * by, x[1] * by
    if not all(_right_after(other, one.other, dx, dy, scene) for other in scene.told):
        return
    edit = Edit(action="shift", path=(*spec.path, "line"), value=[round(dx, 3) + 0.0, round(dy, 3) + 0.0])
    yield Cure(label=f"move {one.other} by {said(abs(by))} along {one.board}", edits=(edit,))


def _right_after(item: Told, moved: str, dx: float, dy: float, scene: Scene) -> bool:
    """Whether a recorded cut is as the job asks once a board is moved, as far as can be said beforehand."""
    if moved not in (item.one.board, item.one.other) or item.cut is None:
        return True
    if item.one.end or item.wood.at is None or item.asked.at is None:
        return item.one.board != moved
    x = scene.boards[item.one.board].frame.x
    by = dx * x[0] + dy * x[1]
    asked = item.asked.at + (by if item.one.other == moved else -by)
    return abs(item.wood.at - asked) <= PLACE


def _written(item: Told, scene: Scene) -> Iterator[Cure]:
    """What the job would have to say for the joint to be as it is cut."""
    chosen = scene.chosen.get(frozenset(item.one.between))
    if chosen is None:
        return
    before, after = _plain(chosen.options), _plain(chosen.kind.follow(chosen.meeting, chosen.options, (item.one,)))
    changed = {name: value for name, value in after.items() if value != before[name]}
    if len(changed) != 1:
        return
    ((name, value),) = changed.items()
    is_length = name != "ratio"
    written: Plain = round(value, 6)
    if is_length and scene.job.units == "in":
        written = f"{round(value, 3):.10g} mm"
    spec = chosen.spec
    if spec is not None and spec.path:
        edit = Edit(action="set", path=(*spec.path, name), value=written)
    else:
        edit = Edit(action="add", path=("joint",), value={"between": list(chosen.meeting.key), name: written})
    label = f"let the joint of {' and '.join(chosen.meeting.key)} be as it is cut"
    yield Cure(label=label, edits=(edit,))


def told_by_record(told: Iterable[Told]) -> dict[AsCut, Told]:
    """What is told of each record."""
    return {item.one: item for item in told}


def thicknesses_before(job: Job, made: Made, now: Mapping[str, Board]) -> Iterator[tuple[Job, Made]]:
    """The job and what is made of it with boards as thick as they may have been when the cuts were made.

    As they were known then, where that was written down and is no longer so; as they were ordered, where it was not.
    """
    loss = 2 * job.finish.sanded  # what meets is thinner than what was measured
    entered = {one.other: one.takes + loss for one in made.cuts if one.takes is not None and one.other}
    even = {name for name, board in now.items() if len(board.profile) == 1}  # a taper has no one thickness
    then = {name: thickness for name, thickness in {**entered, **made.then}.items() if name in even}
    if any(abs(now[name].thickest + loss - thickness) > EXACT for name, thickness in then.items()):
        thickness = {name: ((0.0, thickness),) for name, thickness in then.items()}
        yield job, replace(made, thickness={**made.thickness, **thickness})
    if any(one.board not in made.then for one in made.cuts):
        timbers = {name: replace(timber, measured=None) for name, timber in job.timbers.items()}
        boards = tuple(replace(spec, thickness_at=()) if spec.thickness_at else spec for spec in job.boards)
        yield replace(job, timbers=timbers, boards=boards), replace(made, thickness={})
