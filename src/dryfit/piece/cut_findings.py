"""Where the job asks for something else than what is in the wood: said with both figures, and what can be done.

A board that is cut cannot follow a changed drawing. Beyond the step to which sheets print (0.1 for places, 0.05 for
widths and depths, 0.05 degrees) a difference is a stop, until the job is put back, the board made anew, or the
maker's word is on that cut (`accept = true`): then it is a note.

A thickness that was measured after cutting is nobody's change of mind: it never stops by itself. What counts then is
the play that a slot has left, and a warning says where it is too little or too much.
"""

import math
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

from ..findings import Finding, Severity, declare, owns, question
from ..job.model import BoardSpec, Job
from ..job.names import nearest
from ..job.options import CLEARANCE, quantities, values_of
from ..lengths import MM_PER, LengthUnit
from ..places import Cure, Edit, Pair, Plain, Where
from ..sentences import Angle, Count, Fineness, Length, Name, Sentence, Several, Words, say
from .as_cut import ComparedCut
from .choose import Chosen
from .model import Board, Joint, Mating
from .parts import called
from .reshaping import EXACT, LEAN, PLACE, WIDTH, can_lean, walls_off
from .setout import AsCut, Made

CUTS = question("cuts", "what is cut already against what is asked for", lambda piece: piece.recorded)
OTHERWISE = declare(
    "cut-otherwise",
    "A cut that is in the wood is not what the job asks for.",
    uncured="wood that is cut stays: whether the job goes back or the board is made anew is your choice",
)
NOT_THERE = declare(
    "cut-not-asked-for",
    "Something is cut that the job has no place for.",
    uncured="wood that is cut stays: whether the job goes back or the board is made anew is your choice",
)
UNCLEAR = declare(
    "cut-unclear",
    "A recorded cut may be one of several.",
    uncured="which cut is meant is known to whoever wrote it down",
)
BEYOND = declare(
    "cut-cannot-be",
    "A figure of a recorded cut is beyond reason, and is not used.",
    uncured="only whoever has the board at hand can measure it again",
)
UNBUILT = declare(
    "cut-not-reshaped",
    "A recorded cut differs in a figure from which its shape cannot be made.",
    uncured="only whoever has the board at hand can say what else differs",
)
DIVIDED = declare(
    "cut-board-divided",
    "A board that is cut in one length is now divided.",
    uncured="wood that is cut stays: whether the job goes back or the board is made anew is your choice",
)
PLAY = declare(
    "play-as-cut",
    "A slot that is cut leaves too little or too much play for the board as measured.",
    uncured="the slot is cut: it is eased, or its board planed, at the bench",
)
UNUSABLE = declare(
    "made-file-unusable",
    "What has been made cannot be read, so what is cut is not known.",
    uncured="it is a file of what is cut: only whoever wrote it can mend it",
)
MADE_FOR_NOBODY = declare(
    "made-for-no-board",
    "The made file pins or measures a board that is not there.",
    uncured="nothing need be changed: it waits for its board to come back",
)
owns(CUTS, OTHERWISE, NOT_THERE, UNCLEAR, BEYOND, UNBUILT, DIVIDED, PLAY, UNUSABLE, MADE_FOR_NOBODY)

OF_A_PAIR = (OTHERWISE, PLAY)  # that say what is missing between two boards
FRACTION = MM_PER["in"] / 64  # and in inches, of places and depths
LEAST_PLAY, MOST_PLAY = 0.05, 0.25  # total, across the walls
PLAY_SOURCE = "common practice: 0.05 at least; glued joints failed in tests above 0.25 and none at or below 0.13"
NO_DEEPER = 0.02  # that may overlap, as in the clash check
MOST_EASED = CLEARANCE.most or 0.0  # of a slot to let in what is sent there: wider than by that it holds nothing


Before: TypeAlias = Callable[[], Iterable[Mapping[AsCut, ComparedCut]]]


@dataclass(frozen=True, slots=True, kw_only=True)
class CutScene:
    """What the findings look at besides what is recorded.

    Attributes:
        boards: by name, members of divided ones by their own.
        specs: of the boards as this piece has them, by name.
        whole: the board of the file that each member is part of.
        chosen: the joints as the job asks for them, by their two bodies.
        joints: as made, by their two bodies.
        followed: of those the ones that are made otherwise than the job asks, to follow what is cut.
        matings: of a joint as the job asks for it.
        told: every recorded cut.
    """

    told: Sequence[ComparedCut]
    job: Job
    made: Made
    boards: Mapping[str, Board]
    specs: Mapping[str, BoardSpec]
    whole: Mapping[str, str]
    chosen: Mapping[frozenset[str], Chosen]
    joints: Mapping[frozenset[str], Joint]
    followed: Collection[Pair]
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
    cut_words: Sentence
    asked_words: Sentence


def cut_findings(scene: CutScene, before: Before) -> Iterator[Finding]:
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
            says=say("what is cut cannot be read: {}", scene.made.trouble),
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
        elif item.unbuilt:
            yield _not_built(item, scene)
        else:
            yield from _compared(item, scene, before)


# ---- what is not there


def _without_a_board(scene: CutScene) -> Iterator[Finding]:
    lost: dict[str, list[ComparedCut]] = {}
    for item in scene.told:
        if item.one.board not in scene.boards:
            lost.setdefault(item.one.board, []).append(item)
    wholes = set(scene.whole.values())
    for name, items in lost.items():
        cuts = Several(tuple(_short(item.one) for item in items), last=", ")
        if name in wholes:
            members = [member for member, whole in scene.whole.items() if whole == name]
            yield Finding(
                code=DIVIDED,
                severity=Severity.STOP,
                where=Where(boards=tuple(members), path=scene.specs[members[0]].path),
                says=say(
                    "{} is cut in one length ({}), and is now divided into {}",
                    Name(name),
                    cuts,
                    Several(tuple(map(Name, members)), apart=" and "),
                ),
                remedy="keep it whole, or make it again and take its cuts out of the made file",
            )
            continue
        close = nearest(name, [*scene.boards, *wholes])
        yield Finding(
            code=NOT_THERE,
            severity=Severity.STOP,
            where=Where(),
            says=say(
                "{} is cut ({}), but there is no board called {}: its cuts would be lost", Name(name), cuts, Name(name)
            ),
            remedy=_did_you_mean(close)
            if close
            else say("put {} back, or take its cuts out of the made file", Name(name)),
        )


def _short(one: AsCut) -> Sentence:
    """A recorded cut, and where its file has it."""
    if one.end:
        return say("its {} at {}", one.end, Name(one.place))
    if one.name:
        return say("for {}, {} at {}", Name(one.other), one.name, Name(one.place))
    return say("for {} at {}", Name(one.other), Name(one.place))


def _did_you_mean(name: str) -> Sentence:
    return say("did you mean {}?", Name(name))


def _for_nobody(scene: CutScene) -> Iterator[Finding]:
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
            says=say(
                "the made file has {} for {}, which is not there",
                "a pin" if name in pinned else "a thickness",
                Name(name),
            ),
            remedy=_did_you_mean(close) if close else "leave it for when the board comes back, or take it out",
        )


def _not_there(item: ComparedCut, scene: CutScene) -> Finding:
    one = item.one
    board = Name(one.board)
    return Finding(
        code=NOT_THERE,
        severity=Severity.STOP,
        where=Where(boards=(one.board,), path=scene.boards[one.board].path),
        says=say(
            "{} is cut for {} ({}), but {}; {}",
            board,
            Name(one.other),
            Name(one.place),
            _why_not_there(one, scene),
            _drawn(item),
        ),
        remedy=say("put that joint back, or make {} again and take the cut out of the made file", board),
    )


def _why_not_there(one: AsCut, scene: CutScene) -> Sentence:
    """What the job lacks for it: the fixing, the board, such a cut in the joint, or the joint."""
    other, joined = Name(one.other), frozenset(one.between) in scene.joints
    if "wall" in one.between and not joined:
        close = nearest(one.other, [fixing.name for fixing in scene.job.fixings])
        return _none_called(say("there is no fixing called {}", other), close)
    if one.other not in scene.boards and not joined:
        close = nearest(one.other, scene.boards) if one.other not in scene.whole.values() else ""
        return _none_called(say("there is no board called {}", other), close)
    if joined:
        which = say(' ("{}")', one.name) if one.name else ""
        return say("its joint with {} has no such cut{}", other, which)
    return say("the job has no joint of {} and {}", Name(one.board), other)


def _none_called(none: Sentence, close: str) -> Sentence:
    return say("{}: {}", none, _did_you_mean(close)) if close else none


def _drawn(item: ComparedCut) -> str:
    """Whether a cut that the job has no place for is shown."""
    return "it is drawn as it was cut" if item.old else "it is not drawn: its figures give no shape there"


def _unclear(item: ComparedCut, scene: CutScene) -> Finding:
    one = item.one
    return Finding(
        code=UNCLEAR,
        severity=Severity.STOP,
        where=Where(boards=(one.board,), path=scene.boards[one.board].path),
        says=say(
            "{} may be one of {} in {} for {}",
            Name(one.place),
            Count(item.fitting, "cut"),
            Name(one.board),
            Name(one.other),
        ),
        remedy='say which with cut = "..."; the part\'s sheet has their names',
    )


_WORDS = {"at": "at", "across": "across", "deep": "deep", "stop": "stopped", "length": "long"}


def _out_of_reason(item: ComparedCut, scene: CutScene) -> Finding:
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
        says=say(
            "{}: {} {} cannot be for {}, which the job has at {}; the figure is not used",
            Name(one.place),
            _WORDS[word],
            Length(wood or 0.0, Fineness.FINE),
            called(item.cut),
            Length(asked or 0.0, Fineness.FINE),
        ),
        remedy=slip or "measure it again and record it again; or make the board again and take the cut out",
        found=wood,
        limit=asked,
        unit="mm",
    )


def _not_built(item: ComparedCut, scene: CutScene) -> Finding:
    """A shape that figures do not tell, as a groove in an end or a keyhole: its kind alone knows how."""
    one, cut = item.one, item.cut
    assert cut is not None, "what is not there is told otherwise"
    pairs = [(word, getattr(item.wood, word), getattr(item.asked, word)) for word in item.unbuilt]
    told = [(_in_words(word, wood), _in_words(word, asked)) for word, wood, asked in pairs]
    _, first, limit = pairs[0]
    keys = Several(tuple(pair[0] for pair in pairs), apart=" and ")
    return Finding(
        code=UNBUILT,
        severity=Severity.STOP,
        where=Where(boards=_boards(item, scene), joint=cut.joint, cut=cut.key, path=scene.boards[one.board].path),
        says=say(
            "{} is recorded {}, the job has it {}: its shape is not made from such a figure; the record is not used",
            called(cut),
            Several(tuple(words for words, _ in told), apart=" and "),
            Several(tuple(words for _, words in told), apart=" and "),
        ),
        remedy=say(
            "put the job to what is cut, or leave {} out of that table ({}): it then counts as the job has it; "
            "or make {} again and take the cut out",
            keys,
            Name(one.place),
            Name(one.board),
        ),
        found=first,
        limit=limit,
        unit="deg" if item.unbuilt[0] == "lean" else "mm",
    )


def _in_words(word: str, value: float) -> Sentence:
    return say("{} off square", Angle(value)) if word == "lean" else _figure(word, Length(value, Fineness.FINE))


def _slip(wood: float, asked: float) -> Words:
    """What a slip of the pen looks like: the same figures in another order, or the point elsewhere."""
    one, other = (f"{value:.2f}".rstrip("0").replace(".", "") for value in (wood, asked))
    alike = sorted(one) == sorted(other) and one != other
    tenfold = any(abs(wood * times - asked) <= PLACE for times in (10.0, 0.1, 100.0, 0.01))
    if not alike and not tenfold:
        return ""
    return say("two figures may have changed places: did you mean {}?", Length(asked, Fineness.FINE))


# ---- what is asked for otherwise


def _compared(item: ComparedCut, scene: CutScene, before: Before) -> Iterator[Finding]:
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


def _any_measured(scene: CutScene) -> bool:
    job = scene.job
    return bool(
        scene.made.thickness
        or any(timber.measured is not None for timber in job.timbers.values())
        or any(spec.thickness_at for spec in job.boards)
    )


def _differing(item: ComparedCut, other: ComparedCut, units: LengthUnit) -> list[_Differs]:
    """The figures of a cut in the wood beyond the printed step off what `other` asks for."""
    wood, asked, place = item.wood, other.asked, PLACE if units == "mm" else FRACTION
    found: list[_Differs] = []
    if item.one.end:
        if item.one.length is not None and other.asked_length is not None:
            found += _length("length", item.one.length, other.asked_length, place)
    elif wood.opens != asked.opens:
        found.append(_Differs("opens", 0.0, 1.0, say("open to the {}", wood.opens), say("to the {}", asked.opens)))
    deep = WIDTH if units == "mm" else FRACTION
    for word, step in (("at", place), ("across", WIDTH), ("deep", deep), ("stop", deep), ("stop_wall", deep)):
        found += _length(word, getattr(wood, word), getattr(asked, word), step)
    if abs(wood.lean - asked.lean) > LEAN + EXACT:
        in_wood, in_job = Angle(abs(wood.lean)), Angle(abs(asked.lean))
        other_way = " the other way" if wood.lean * asked.lean < 0.0 else ""
        words = say("{} off square", in_wood), say("{}{}", in_job, other_way)
        found.append(_Differs("lean", wood.lean, asked.lean, *words))
    return found


def _length(word: str, wood: float | None, asked: float | None, step: float) -> Iterator[_Differs]:
    if wood is not None and asked is not None and abs(wood - asked) > step + EXACT:
        told_to = Fineness.PLACE if step >= PLACE else Fineness.FINE
        size, wanted = Length(wood, told_to), Length(asked, told_to)
        asked_words = say("{}", wanted) if word == "length" else _figure(word, wanted)
        yield _Differs(word, wood, asked, _figure(word, size), asked_words)


def _figure(word: str, size: Length) -> Sentence:
    """One figure of a cut in words."""
    match word:
        case "length":
            return say("{} long over its long points", size)
        case "at":
            return say("at {}", size)
        case "stop":
            return say("stopped {} from the front", size)
        case "stop_wall":
            return say("stopped {} from the wall edge", size)
        case _:
            return say("{} {}", size, word)


def _by_measuring(one: _Differs, item: ComparedCut, scene: CutScene) -> bool:
    """Whether a width differs because what enters was measured since, and for no other reason."""
    if one.word != "across" or not scene.is_measured(item.one.other):
        return False
    then, now = item.one.takes, _thickness(item, scene)
    return then is None or now is None or abs(one.asked - (now - then) - one.wood) <= WIDTH + EXACT


def _thickness(item: ComparedCut, scene: CutScene) -> float | None:
    """Of what enters, where it does."""
    chosen = scene.chosen.get(frozenset(item.one.between))
    return None if chosen is None else chosen.meeting.other(item.one.board).thickness


def _mating(item: ComparedCut, scene: CutScene) -> Mating | None:
    chosen = scene.chosen.get(frozenset(item.one.between))
    if chosen is None or item.cut is None:
        return None
    return next((mating for mating in scene.matings(chosen) if mating.key == item.cut.key), None)


def _wider(item: ComparedCut) -> float:
    wood, asked = item.wood.across, item.asked.across
    return 0.0 if wood is None or asked is None else wood - asked


def _play(item: ComparedCut, scene: CutScene) -> Iterator[Finding]:
    """Play that a slot leaves for a board measured since it was cut."""
    if abs(_wider(item)) <= EXACT or not scene.is_measured(item.one.other):
        return
    mating = _mating(item, scene)
    if mating is None or mating.closes:
        return
    play = mating.play + _wider(item)
    if LEAST_PLAY - EXACT <= play <= MOST_PLAY + EXACT:
        return
    tight = play < LEAST_PLAY
    other = Name(item.one.other)
    assert item.cut is not None, "a mating has a cut"
    yield Finding(
        code=PLAY,
        severity=Severity.NOTE if item.one.accept else Severity.WARN,
        where=Where(boards=_boards(item, scene), joint=item.cut.joint, cut=item.cut.key),
        says=say(
            "{} is cut {} across and leaves {} of play for {} as measured",
            called(item.cut),
            Length(item.wood.across or 0.0, Fineness.FINE),
            Length(play, Fineness.FINE),
            other,
        ),
        remedy=say("plane {} there, or pare the slot", other)
        if tight
        else say("pack the slot, or use a thicker {}", other),
        found=play,
        limit=LEAST_PLAY if tight else MOST_PLAY,
        unit="mm",
        source=PLAY_SOURCE,
    )


def _otherwise(item: ComparedCut, found: Sequence[_Differs], severity: Severity, scene: CutScene) -> Finding:
    one, cut = item.one, item.cut
    assert cut is not None, "what is not there is told otherwise"
    subject = Name(one.board) if one.end else called(cut)
    cut_words = Several(tuple(figure.cut_words for figure in found), apart=" and ")
    asked_words = Several(tuple(figure.asked_words for figure in found), apart=" and ")
    first = found[0]
    measured = first.word != "opens"
    return Finding(
        code=OTHERWISE,
        severity=severity,
        where=Where(boards=_boards(item, scene), joint=cut.joint, cut=cut.key, path=scene.boards[one.board].path),
        says=say("{} is cut {}; the job has it {}: {}", subject, cut_words, asked_words, _together(item, found, scene)),
        remedy="" if severity is Severity.NOTE else _remedy(item, found, scene),
        found=first.wood if measured else None,
        limit=first.asked if measured else None,
        unit="" if not measured else "deg" if first.word == "lean" else "mm",
        source="the sheets print places to 0.1, widths and depths to 0.05, angles to 0.05 degrees" if measured else "",
        cures=() if severity is Severity.NOTE else tuple(_cures(item, found, scene)),
    )


def _boards(item: ComparedCut, scene: CutScene) -> tuple[str, ...]:
    other = item.one.other
    if item.cut is not None and item.one.end and item.cut.joint is not None:
        other = next((name for name in item.cut.joint if name != item.one.board), "")
    return (item.one.board, other) if other in scene.boards else (item.one.board,)


# ---- whether the boards still go together


def _together(item: ComparedCut, found: Sequence[_Differs], scene: CutScene) -> Words:
    """Whether what is cut still takes what the job sends in, and what is missing where it does not."""
    if item.cut is not None and item.one.end and item.cut.joint is None:
        return "it meets nothing there"
    if _turned(found):
        return say("they do not go together so, and {}", _drawn(item))
    missing = _room_missing(item, found, scene)
    if missing > NO_DEEPER:
        return say("they no longer go together: {} of room is missing", Length(missing, Fineness.FINE))
    short = next((one.asked - one.wood for one in found if one.word == "length"), 0.0)
    if short > NO_DEEPER:
        return say("they go together, and it ends {} short", Length(short))
    if abs(item.off) > NO_DEEPER and not item.one.end:
        way = "past" if item.off > 0.0 else "short of"
        off = Length(abs(item.off))
        return say("they still go together, its datum end then lies {} {} where the job has it", off, way)
    return "they still go together"


def _turned(found: Sequence[_Differs]) -> bool:
    """Whether it opens to another edge than is asked for."""
    return any(one.word == "opens" for one in found)


def _room_missing(item: ComparedCut, found: Sequence[_Differs], scene: CutScene) -> float:
    return max((_missing(item, one, scene) for one in found), default=0.0)


def _missing(item: ComparedCut, one: _Differs, scene: CutScene) -> float:
    """How much room is missing by one figure; 0 or less where there is enough."""
    mating = _mating(item, scene)
    play = mating.play if mating is not None else 0.0
    chosen = scene.chosen.get(frozenset(item.one.between or (item.cut.joint if item.cut and item.cut.joint else ())))
    joint = None if chosen is None else scene.joints.get(frozenset(chosen.meeting.key))
    gap = next((gap.size for gap in joint.gaps if gap.between.limits_depth), 0.0) if joint is not None else 0.0
    by = one.wood - one.asked
    match one.word:
        case "at" | "across":
            off = None if item.cut is None else walls_off(item.cut, item.asked, item.wood)
            near, far = (0.0, _wider(item)) if off is None else (wall - item.off for wall in off)
            square = math.cos(math.radians(item.wood.lean))
            sides = near * square - play / 2, -far * square - play / 2
            return sum(sides) if min(sides) > 0.0 else max(sides)
        case "deep":
            return 0.0 if _followed(item, chosen, scene) else -by - gap
        case "lean":
            thick = scene.boards[item.one.board].thickest
            return thick * abs(math.tan(math.radians(one.wood)) - math.tan(math.radians(one.asked))) - play
        case "length":
            return by - gap
        case _:
            return by


def _followed(item: ComparedCut, chosen: Chosen | None, scene: CutScene) -> bool:
    """Whether what enters is not cut yet, and will be made to suit."""
    if chosen is None or chosen.meeting.key not in scene.followed:
        return False
    other = item.one.other
    return not any(one.one.board == other and (one.one.end or item.one.board in one.one.between) for one in scene.told)


# ---- what can be done


def _remedy(item: ComparedCut, found: Sequence[_Differs], scene: CutScene) -> Sentence:
    one = item.one
    ways: list[Words] = ["put the job back"]
    if one.other in scene.boards and any(figure.word == "at" for figure in found):
        ways.append(say("move {} to it", Name(one.other)))
    said_so = say("{}", Several((*ways, _made_anew(one.board, scene)), last=", or "))
    at_an_end = item.cut is not None and one.end and item.cut.joint is None
    if not at_an_end and (_turned(found) or _room_missing(item, found, scene) > MOST_EASED):
        # no word makes boards go together that cannot be eased
        return say("{}; where the record is wrong ({}), correct it", said_so, Name(one.place))
    return say("{}; accept = true on that cut ({}) takes it as it is", said_so, Name(one.place))


def _made_anew(board: str, scene: CutScene) -> Sentence:
    """What is lost with a board, and what follows."""
    cuts = Count(sum(one.one.board == board for one in scene.told), "cut goes", "cuts go")
    joints = [key for key in scene.joints if board in key]
    others = sorted({name for key in joints for name in key if name != board and name in scene.boards})
    if not others:
        return say("make {} again: {} with it", Name(board), cuts)
    follow = Several(tuple(map(Name, others)), last=", ")
    return say("make {} again: {} with it, and its joints with {} follow", Name(board), cuts, follow)


def _cures(item: ComparedCut, found: Sequence[_Differs], scene: CutScene) -> Iterator[Cure]:
    words = {figure.word for figure in found}
    if words == {"at"}:
        yield from _moving(item, scene)
    if words == {"deep"}:
        yield from _written(item, scene)


def _moving(item: ComparedCut, scene: CutScene) -> Iterator[Cure]:
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
    yield Cure(label=say("move {} by {} along {}", Name(one.other), Length(abs(by)), Name(one.board)), edits=(edit,))


def _right_after(item: ComparedCut, moved: str, dx: float, dy: float, scene: CutScene) -> bool:
    """Whether a recorded cut is as the job asks once a board is moved, as far as can be said beforehand."""
    if moved not in (item.one.board, item.one.other) or item.cut is None:
        return True
    if item.one.end or item.wood.at is None or item.asked.at is None:
        return item.one.board != moved
    x = scene.boards[item.one.board].frame.x
    by = dx * x[0] + dy * x[1]
    asked = item.asked.at + (by if item.one.other == moved else -by)
    return abs(item.wood.at - asked) <= PLACE


def _written(item: ComparedCut, scene: CutScene) -> Iterator[Cure]:
    """What the job would have to say for the joint to be as it is cut."""
    chosen = scene.chosen.get(frozenset(item.one.between))
    if chosen is None:
        return
    before, followed = values_of(chosen.asked), chosen.kind.follow(chosen.meeting, chosen.asked, (item.one,))
    changed = {name: value for name, value in values_of(followed).items() if value != before[name]}
    if len(changed) != 1:
        return
    ((name, value),) = changed.items()
    is_length = name in quantities(chosen.kind.options)
    written: Plain = round(value, 6)
    if is_length and scene.job.units == "in":
        written = f"{round(value, 3):.10g} mm"
    spec = chosen.spec
    if spec is not None and spec.path:
        edit = Edit(action="set", path=(*spec.path, name), value=written)
    else:
        edit = Edit(action="add", path=("joint",), value={"between": list(chosen.meeting.key), name: written})
    label = say("let the joint of {} and {} be as it is cut", *map(Name, chosen.meeting.key))
    yield Cure(label=label, edits=(edit,))


def told_by_record(told: Iterable[ComparedCut]) -> dict[AsCut, ComparedCut]:
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
