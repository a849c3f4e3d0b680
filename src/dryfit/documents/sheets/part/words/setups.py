"""Set-ups as the sheets print them: what the study `setups` found, with the letters and numbers of the sheets.

The letter says the work: R router or saw across the face, L along the board, D drill, M saw tilted for a mitre or a
bevel, K keys and tongues at a corner.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from .....geometry.views import FACES, Surface
from .....piece.facts import CutForm
from .....piece.model import DATUM_END, FAR_END, Cut
from .....piece.operations import Dial, WorkSort
from .....sentences import Angle, Fineness, Length, Sentence, Several, Value, Voice, told
from .....shop.tools import Process
from .....studies.setups.result import Setting, SetUp, SetUps
from ....looks import Desk, Look
from ....naming import angle, depth, position, printed_units, rise_figure, width

WORDS: Mapping[WorkSort, str] = {
    WorkSort.ACROSS: "router or saw across the face",
    WorkSort.ALONG: "router or saw along the board",
    WorkSort.HOLES: "drill",
    WorkSort.ENDS: "saw tilted",
    WorkSort.CORNER: "keys and tongues at a corner",
}
HANDS = "hand tools"  # of them none is named
NOT_MADE = "they were not worked out with this book"


@dataclass(frozen=True, slots=True, kw_only=True)
class Use:
    """One cut made with a set-up.

    Attributes:
        mark: the part's letter.
        number: of the cut on the part's sheet; None for a free end, which `end` then names: "lower end".
        up: the face that lies up, the only one that the cut opens to: "upper"; "" where either may.
    """

    mark: str
    number: int | None
    end: str
    key: str
    up: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Setup:
    """One set-up.

    Attributes:
        name: "R1".
        does: what it makes, in words, and with which tool where the shop file names it.
        across, lean, rise, deep, stop: as printed; "" where nothing is set. The lean with its head: "8° RIGHT".
        of: what the study found.
        uses: in the order of the parts' letters.
    """

    name: str
    does: str
    across: str
    lean: str
    rise: str
    deep: str
    stop: str
    of: SetUp
    uses: tuple[Use, ...]

    @property
    def head(self) -> str:
        """LEFT or RIGHT, for walls that lean; else ""."""
        side = self.of.set_to(Dial.HEAD)
        return "" if side is None else told(side.says, Voice())


@dataclass(frozen=True, slots=True, kw_only=True)
class Setups:
    """All set-ups of a job.

    Attributes:
        of: those that make a cut, by the cut's key.
        how: how each cut is made, one phrase a bit.
        why_not: why they are not worked out; "" where they are.
    """

    all: tuple[Setup, ...] = ()
    of: Mapping[str, tuple[SetUp, ...]] = field(default_factory=dict)
    how: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    why_not: str = ""


def setups(desk: Desk) -> Setups:
    """The set-ups as named on every sheet; told once a desk and unit."""
    key = f"set-ups in {printed_units()}"
    if key not in desk.kept:
        result: SetUps | None = desk.book.studies.get("setups")
        why = desk.book.left_out.get("setups", NOT_MADE)
        desk.kept[key] = Setups(why_not=why) if result is None else _told(desk, result)
    found: Setups = desk.kept[key]
    return found


def _told(desk: Desk, result: SetUps) -> Setups:
    cuts = {cut.key: (look, cut) for look in desk.looks.values() for cut in look.part.cuts}
    how: dict[str, dict[str, None]] = {}
    for key, says in result.how:
        how.setdefault(key, {})[told(says, desk.book.voice)] = None
    return Setups(
        all=tuple(_setup(desk, one, cuts) for one in result.all),
        of=result.by_cut,
        how={key: tuple(says) for key, says in how.items()},
    )


def _setup(desk: Desk, one: SetUp, cuts: Mapping[str, tuple[Look, Cut]]) -> Setup:
    said = {setting.dial: _printed(one, setting) for setting in one.sets}
    corner = f"corner {said[Dial.CORNER]}" if Dial.CORNER in said else ""
    uses = tuple(_use(*cuts[key]) for key in one.cuts)
    lean = one.set_to(Dial.LEAN)
    return Setup(
        name=one.name,
        does=_does(desk, one, said.get(Dial.CUTTER, "")),
        across=said.get(Dial.WIDTH, ""),
        lean=corner or " ".join(filter(None, (said.get(Dial.LEAN), said.get(Dial.HEAD)))),
        rise="" if lean is None or lean.degrees is None else rise_figure(lean.degrees),
        deep=said.get(Dial.DEPTH, ""),
        stop=", ".join(said[dial] for dial in (Dial.STOP, Dial.PLACE) if said.get(dial)),
        of=one,
        uses=uses,
    )


def _does(desk: Desk, one: SetUp, cutter: str) -> str:
    makes, tool = told(one.makes, desk.book.voice), told(one.tool, desk.book.voice)
    makes += f", cutter {cutter}" if cutter else ""
    if not tool:
        return f"{makes}: no tool for it"
    return makes if one.assumed or tool == HANDS else f"{makes}, {tool}"


def _use(look: Look, cut: Cut) -> Use:
    ends = {DATUM_END: Surface.DATUM, FAR_END: Surface.FAR}
    end = look.names.words[ends[cut.end]] if cut.end else ""
    return Use(mark=look.part.mark, number=look.numbers.get(cut.key), end=end, key=cut.key, up=_up(look, cut))


def _up(look: Look, cut: Cut) -> str:
    """Which face lies up, by its word, where a cut opens to but one."""
    if cut.end or cut.form is CutForm.POCKET:
        return ""
    traces = ((face, look.view(face).trace(cut.key)) for face in FACES)
    seen = [face for face, trace in traces if trace is not None and trace.seen]
    return look.names.words[seen[0]].word if len(seen) == 1 else ""


# --- as printed ----------------------------------------------------------------------------------


def _printed(one: SetUp, setting: Setting) -> str:
    """What a dial is set to, each figure as the sheets print such a one."""
    if setting.mm is not None:
        return _length(one, setting.dial, Length(setting.mm, _STEPS.get((setting.dial, one.work), Fineness.PLACE)))
    if setting.degrees is not None:
        return angle(setting.degrees)
    return _worded(one, setting.dial, setting.says)


def _worded(one: SetUp, dial: Dial, value: Value) -> str:
    match value:
        case Length():
            return _length(one, dial, value)
        case Angle():
            return angle(value.degrees)
        case Sentence():
            return str(replace(value, values=tuple(_worded(one, dial, part) for part in value.values)))
        case Several():
            return value.last.join(_worded(one, dial, part) for part in value.items)
    return str(value)


_STEPS: Mapping[tuple[Dial, WorkSort], Fineness] = {
    (Dial.WIDTH, work): Fineness.WIDTH for work in WorkSort if work is not WorkSort.HOLES
}


def _length(one: SetUp, dial: Dial, value: Length) -> str:
    if value.step is Fineness.WIDTH:
        return width(value.mm)
    deep = dial is Dial.DEPTH or (dial is Dial.STOP and one.work is WorkSort.ACROSS)
    return depth(value.mm) if deep and one.work is not WorkSort.HOLES else position(value.mm)


def routed(desk: Desk, cut: Cut) -> bool:
    """Whether a cut is made with a router: its cutter leaves inner corners round."""
    return any(one.process is Process.ROUTER for one in setups(desk).of.get(cut.key, ()))


def how_made(desk: Desk, cut: Cut) -> str:
    """How a cut is made, in the maker's words; "" where that was not worked out."""
    return ", ".join(setups(desk).how.get(cut.key, ()))


def not_worked_out(desk: Desk) -> str:
    """That there are no set-ups, and why; "" where they are worked out."""
    why = setups(desk).why_not
    return f"Set-ups: not worked out, since {why}." if why else ""
