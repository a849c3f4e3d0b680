"""To have at hand and to make: what is cut in the shop, the tools of the job, and what the trial cuts take."""

from collections.abc import Iterator, Mapping, Sequence
from itertools import groupby

from ....piece.operations import Dial, WorkSort
from ....sentences import told
from ....shop.tools import Process
from ....studies.buying.result import Buying, Supply, Trial
from ....studies.setups.result import SetUp, SetUps
from ...lettering import printable
from ...looks import Desk
from ...naming import in_runs, position, ware_size, width
from ..fixings.chain import chains, driver_of, points
from ..page.prose import WordRun
from ..page.sheaf import Sheaf
from ..page.table import Cell, Row, bold
from .supplies import used_for
from .timber import nominal

TITLE = "not ordered: to make, and to have to hand"
HOW = {"cut": "", "sawn in two": ", sawn in two", "half of a corner": ", half of its corner"}


def at_hand_list(desk: Desk, sheaf: Sheaf) -> None:
    """What is made for the joints and of what strip, the tools of the job, and what the trial cuts take."""
    found = desk.book.found(Buying)
    made = [] if found is None else [one for one in found.hardware if one.strip is not None]
    tools = [_tool(*words) for words in dict.fromkeys(_tools(desk))]
    title = TITLE
    if made:
        heads = ("to make", "size", "for", "needed", "make", "of a strip", "have")
        sheaf.table(title, heads, [_made(desk, one) for one in made])
        title = ""
    if tools:
        sheaf.tables_abreast(title, ("tool", "size", "for", "have"), tools, 2)
        title = ""
    setups = desk.book.found(SetUps)
    if found is not None and found.trials and setups is not None:
        sheaf.paragraphs(title, [[*_trials(found, {one.name: one for one in setups.all})]])


def _made(desk: Desk, one: Supply) -> Row:
    strip = " × ".join(map(position, one.strip or ()))
    return (
        Cell(text=printable(one.name)),
        Cell(text=printable(ware_size(one))),
        Cell(text=printable(used_for(desk, one))),
        Cell(text=str(one.needed)),
        bold(str(one.take)),
        Cell(text=strip),
        Cell(tick=True),
    )


# --- tools ---------------------------------------------------------------------------------------


def _tool(name: str, must: str, what_for: str) -> Row:
    return Cell(text=printable(name)), Cell(text=printable(must)), Cell(text=printable(what_for)), Cell(tick=True)


def _tools(desk: Desk) -> Iterator[tuple[str, str, str]]:
    """Each tool with what it must do, and for which set-ups."""
    setups, found = desk.book.found(SetUps), desk.book.found(Buying)
    if setups is not None:
        yield from _by_tool(desk, setups.all)
    plugs = [] if found is None else [one for one in found.hardware if one.diameter and one.strip]
    for plug in plugs:
        yield "plug cutter", f"{position(plug.diameter or 0.0)} diameter", plug.name
    for chain, alike in chains(points(desk)):
        driver, _ = driver_of(desk, chain, alike)
        if driver is not None and chain.plan.deep:
            yield "driver bit", f"{position(driver)} long", "screws"
        if chain.pilot is not None:
            yield "pilot bit", position(chain.pilot), "the wall"
        anchor = chain.plan.anchor
        if anchor is not None and anchor.drill:
            yield "bit", position(anchor.drill), "anchors"
        yield "detector for cables, pipes", "", "the wall"


def _by_tool(desk: Desk, setups: Sequence[SetUp]) -> Iterator[tuple[str, str, str]]:
    """Set-ups that ask the same of one tool, together."""
    alike: dict[tuple[str, str], list[SetUp]] = {}
    for setup in setups:
        if setup.process is not Process.HAND and setup.tool:
            name = "bit" if setup.process is Process.DRILL else told(setup.tool, desk.book.voice)
            alike.setdefault((name, _must(setup)), []).append(setup)
    for (name, must), those in alike.items():
        yield name, must, _in_runs(those)


def _must(setup: SetUp) -> str:
    wide, deep = (setup.set_to(dial) for dial in (Dial.WIDTH, Dial.DEPTH))
    if setup.process is Process.DRILL and wide is not None and wide.mm is not None:
        reach = "" if deep is None or deep.mm is None else f", {position(deep.mm)} deep"
        return f"{position(wide.mm)}{reach}"
    if setup.work is WorkSort.ENDS:
        return "tilted"
    if setup.process is Process.GROOVER and wide is not None and wide.mm is not None:
        return f"kerf up to {width(wide.mm)}"
    return ""


def _in_runs(setups: Sequence[SetUp]) -> str:
    """Names of set-ups in words, three or more in a row as a run: "R1 to R7, R12"."""
    works = groupby(setups, key=lambda setup: setup.work)
    return ", ".join(_in_a_run(work, [setup.number for setup in those]) for work, those in works)


def _in_a_run(work: WorkSort, numbers: Sequence[int]) -> str:
    return in_runs(numbers, called=lambda number: f"{work.value}{number}")


# --- trial pieces --------------------------------------------------------------------------------


def _trials(found: Buying, known: Mapping[str, SetUp]) -> Iterator[WordRun]:
    """What each set-up takes of the trial pieces of each timber: "24 thick: R1 to R14 90 each; D1 with D2 80"."""
    yield WordRun("From the trial pieces, by length:", "semibold")
    for order in found.timber:
        own = [trial for trial in found.trials if trial.timber == order.timber]
        if own:
            thick = nominal(order.sold if order.sold is not None else order.least)
            yield WordRun(f"{thick} thick: {'; '.join(_tried(own, known))}.")
    yield WordRun("Try each with the board that goes in.")


def _tried(trials: Sequence[Trial], known: Mapping[str, SetUp]) -> Iterator[str]:
    """Set-ups that take the same, together."""
    alike: dict[tuple[float, str, int], list[tuple[str, ...]]] = {}
    for trial in trials:
        alike.setdefault((trial.length, trial.how, len(trial.setups)), []).append(trial.setups)
    for (long, how, shared), every in alike.items():
        names = list(dict.fromkeys(every))
        alone = [known[name] for some in names for name in some if shared == 1]
        which = _in_runs(alone) if alone else ", ".join(map(" with ".join, names))
        each = " each" if len(names) > 1 else ""
        halves = len(every) > len(names)  # both of a corner are of this timber
        yield f"{which} {position(long)} twice, its corner" if halves else f"{which} {position(long)}{each}{HOW[how]}"
