"""`dryfit joints`: what every kind of joint would cost where two boards meet, side by side.

    divider and shelf: end on face at 90°; now a housing

                          housing (now)                butt
    must change first     nothing                      nothing
    held                  glued                        dowelled
    cuts in divider       1: end                       2: end, dowel holes (2)
    cuts in shelf         1: housing                   1: dowel holes (2)

Figures are in the job's units; as JSON in mm, as in `check --json`.
"""

import json
import textwrap
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from itertools import zip_longest
from pathlib import Path
from typing import TYPE_CHECKING, Any

from .telling import say
from .working import job_of, made_of, mistake_in, shop_of

if TYPE_CHECKING:
    from ..book.comparing import Compared, Comparing, Comparison, Cost
    from ..lengths import LengthUnit
    from ..piece.model import Cut, Meeting, Motion, Ware
    from ..sentences import Voice

COLUMN, HEAD, SPACE = 27, 20, 2  # letters: two kinds fit on a terminal 80 wide
LEFT_OUT = (
    "the order of putting the piece together",
    "its glue-ups",
    "what a third board covers",
)  # see `book.comparing`
OBLIQUE = 0.02  # of a unit vector: a board that comes so far off level or plumb comes obliquely


def compare(path: Path, shop: Path | None, one: str, other: str, *, as_json: bool = False) -> None:
    """Print every kind of joint at the meeting of two boards.

    Raises:
        JobError: a file cannot be used, there is no such board, or the two do not meet, or meet more than once.
    """
    from ..book.comparing import Comparing
    from ..sentences import Voice

    job = job_of(path)
    comparing = Comparing(job, shop_of(shop), made_of(path))
    found = comparing.compare(_meeting(comparing, path, one, other))
    voice = Voice(job.units)
    if as_json:
        say(json.dumps(data(found, voice), ensure_ascii=False, indent=1))
        return
    for line in lines(found, voice):
        say(line.rstrip())


# ---- which meeting


def _meeting(comparing: "Comparing", path: Path, one: str, other: str) -> "Meeting":
    """The one meeting meant."""
    for name in (one, other):
        _must_be_there(comparing, path, name)
    if one == other:
        raise mistake_in(path, f"{one} is named twice", "name the two boards that meet")
    found = comparing.meetings(one, other)
    if len(found) == 1:
        return found[0]
    if found:
        pairs = "; ".join(f'"{a}" "{b}"' for a, b in (meeting.key for meeting in found))
        raise mistake_in(path, f"{one} and {other} meet more than once, being divided", f"write one of: {pairs}")
    met = "; ".join(f"{name} meets {', '.join(comparing.met_by(name)) or 'no board'}" for name in (one, other))
    raise mistake_in(path, f"no joint can be made between {one} and {other}: {_apart(comparing, one, other)}", met)


def _must_be_there(comparing: "Comparing", path: Path, name: str) -> None:
    from ..job.names import nearest

    piece = comparing.piece
    known = {*piece.board_by_name, *piece.whole.values()}
    if name not in known:
        near = nearest(name, known)
        remedy = f"did you mean {near}?" if near else f"there are: {', '.join(piece.board_by_name)}"
        raise mistake_in(path, f"there is no board called {name}", remedy)


def _apart(comparing: "Comparing", one: str, other: str) -> str:
    """Why two boards have no meeting that could be joined."""
    from ..piece.nodes import UNMADE
    from ..sentences import told

    voice = comparing.voice
    said = (
        told(finding.says, voice)
        for finding in comparing.piece.findings
        if finding.code in UNMADE and {one, other}.issubset(finding.where.boards)
    )
    return next(said, "they do not meet")


# ---- as a table


def lines(found: "Comparison", voice: "Voice") -> Iterator[str]:
    """The table, and under it what it would bring, what cannot be made, and what was not judged."""
    from ..sentences import Angle
    from ..sentences import a as an

    a, b = found.meeting.key
    now = f"now {an(found.now)}" if found.now else "no joint is made there now"
    if found.asked and found.asked != found.now:
        now += f" (the job asks for {an(found.asked)})"
    yield f"{a} and {b}: {found.meeting.form} at {Angle(found.meeting.angle).said(voice)}; {now}"
    able = [one for one in found.kinds if one.cost is not None]
    if able:
        yield ""
        yield from _table(able, found.meeting.key, voice)
    for one in able:
        yield from _brought(one, voice)
    unable = [one for one in found.kinds if one.cost is None]
    if unable:
        yield ""
        yield "Cannot be made here:"
        yield from (line for one in unable for line in _refused(one, voice))
    if found.not_made:
        yield ""
        yield from textwrap.wrap(
            f"Not judged, since Dryfit cannot make them yet: {', '.join(found.not_made)}.", subsequent_indent="  "
        )
    if able:
        yield ""
        yield from textwrap.wrap(f"Not worked out for each kind: {', '.join(LEFT_OUT)}.", subsequent_indent="  ")


def _table(able: "Sequence[Compared]", key: tuple[str, str], voice: "Voice") -> Iterator[str]:
    yield from _row("", [f"{one.kind} (now)" if one.now else one.kind for one in able])
    costs = [one.cost for one in able if one.cost is not None]
    yield from _row("must change first", [f"{len(one.stops)}, see below" if one.stops else "nothing" for one in able])
    yield from _row("held", [_told(cost.held, voice) for cost in costs])
    for board in key:
        yield from _row(f"cuts in {board}", [_cuts(cost.cuts_in(board)) for cost in costs])
    yield from _row("set-ups", [_setups(cost) for cost in costs])
    yield from _row("glue", [_glue(cost, voice.units) for cost in costs])
    yield from _row("hardware", [_wares(cost.hardware, voice) for cost in costs])
    yield from _row("seen", [_seen(cost) for cost in costs])
    yield from _row("goes together", [_ways(cost) for cost in costs])
    yield from _row("ways to make it", [_hands(cost, voice) for cost in costs])


def _row(head: str, cells: Sequence[str]) -> Iterator[str]:
    """One fact of every kind, each in its column, wrapped."""
    columns = [textwrap.wrap(head, HEAD), *(textwrap.wrap(cell, COLUMN) for cell in cells)]
    widths = [HEAD, *(COLUMN for _ in cells)]
    for line in zip_longest(*columns, fillvalue=""):
        yield (" " * SPACE).join(f"{text:<{width}}" for text, width in zip(line, widths, strict=True))


def _told(words: Any, voice: "Voice") -> str:
    from ..sentences import told

    return told(words, voice)


def _cuts(cuts: "Iterable[Cut]") -> str:
    """How many, and what: "2: bevelled end, 3 dowel holes"; of a row what it is a row of, with how many there are."""
    cuts = tuple(cuts)
    words = [f"{cut.word} ({len(cut.shapes)})" if cut.form.in_rows else cut.word for cut in cuts]
    return f"{len(cuts)}: {', '.join(words)}" if cuts else "none"


def _setups(cost: "Cost") -> str:
    if cost.setups_why:
        return f"not worked out: {cost.setups_why}"
    if not cost.setups:
        return "none: worked to its lines"
    count, alone = len(cost.setups), len(cost.alone)
    if count == alone:
        return f"{count}, for it alone"
    return f"{count}, of which {alone or 'none'} for it alone" if count > 1 else "1, shared with other cuts"


def _glue(cost: "Cost", units: "LengthUnit") -> str:
    from ..lengths import area_text

    return "none" if cost.glue_mm2 is None else area_text(cost.glue_mm2, units)


def _wares(wares: "Iterable[Ware]", voice: "Voice") -> str:
    return "; ".join(f"{ware.count} x {ware.name} {_told(ware.says, voice)}" for ware in wares) or "none"


def _seen(cost: "Cost") -> str:
    """What shows besides the line where the boards meet."""
    said = [f"at the {' and the '.join(cost.edges)}"] if cost.edges else []
    said += [f"{what}s, driven from outside" for what in dict.fromkeys(cost.driven)]
    said += [f"{what}s over the holes" for what in dict.fromkeys(cost.covers)]
    said += [f"{word}, cut from outside" for word in cost.after_gluing]
    return ", ".join(said) or "hidden"


def _ways(cost: "Cost") -> str:
    count = Counter(way.body for way in cost.ways)
    said = [
        f"{body} {' or '.join(dict.fromkeys(_from(way) for way in cost.ways if way.body == body))}" for body in count
    ]
    return " or ".join(said) or "in no one way by itself"


def _hands(cost: "Cost", voice: "Voice") -> str:
    return "1" if cost.makings == 1 else f"{cost.makings}; here {_told(cost.making, voice)}"


def _from(way: "Motion") -> str:
    """Whence a body comes that leaves that way."""
    x, y, z = way.direction
    side = max(
        (abs(z), "front" if z > 0 else "wall"),
        (abs(y), "above" if y > 0 else "below"),
        (abs(x), "right" if x > 0 else "left"),
    )
    size, name = side
    whence = f"from {name}" if name in ("above", "below") else f"from the {name}"
    return whence if size > 1.0 - OBLIQUE**2 / 2 else f"obliquely {whence}"


def _refused(one: "Compared", voice: "Voice") -> Iterator[str]:
    said = "; ".join(_told(reason, voice) for reason in one.judgement.reasons) or "no reason is given"
    figures = _figures(one, voice)
    remedy = _told(one.judgement.remedy, voice)
    text = f"{one.kind}: {said}" + (f" ({figures})" if figures else "") + (f"; {remedy}" if remedy else "")
    yield from textwrap.wrap(text, initial_indent="  ", subsequent_indent="    ")


def _figures(one: "Compared", voice: "Voice") -> str:
    """Found against limit, with the limit's source, as findings have them."""
    from .findings import figure_of

    judgement = one.judgement
    if judgement.found is None or judgement.limit is None:
        return ""
    found, limit = (figure_of(value, judgement.unit, voice.units) for value in (judgement.found, judgement.limit))
    return f"found {found}, limit {limit}" + (f", {judgement.source}" if judgement.source else "")


def _brought(one: "Compared", voice: "Voice") -> Iterator[str]:
    from ..sentences import a as an

    if one.brings:
        yield ""
        yield f"With {an(one.kind)} there:"
        for finding in one.brings:
            text = f"{finding.severity.value}  {_told(finding.says, voice)}: {_told(finding.remedy, voice)}"
            yield from textwrap.wrap(text, initial_indent="  ", subsequent_indent="        ")


# ---- for another program


def data(found: "Comparison", voice: "Voice") -> dict[str, Any]:
    """The same as plain data: figures in mm, sentences in the job's units."""
    from ..documents.bookjson import rounded

    return {
        "dryfit": 1,
        "between": list(found.meeting.key),
        "meeting": found.meeting.form,
        "angle": rounded(found.meeting.angle),
        "now": found.now or None,
        "asked": found.asked or None,
        "kinds": [_kind(one, voice) for one in found.kinds],
        "not_made_yet": list(found.not_made),
        "not_worked_out": list(LEFT_OUT),
    }


def _kind(one: "Compared", voice: "Voice") -> dict[str, Any]:
    from ..documents.bookjson import finding_data, rounded

    judgement = one.judgement
    return {
        "kind": one.kind,
        "now": one.now,
        "possible": one.cost is not None,
        "reasons": [_told(reason, voice) for reason in judgement.reasons],
        "remedy": _told(judgement.remedy, voice),
        "found": None if judgement.found is None else rounded(judgement.found),
        "limit": None if judgement.limit is None else rounded(judgement.limit),
        "unit": judgement.unit,
        "source": judgement.source,
        "cost": None if one.cost is None else _cost(one.cost, voice),
        "findings": [_without_cures(finding_data(finding, voice)) for finding in one.brings],
    }


def _without_cures(finding: dict[str, Any]) -> dict[str, Any]:
    """Of a joint that nobody has asked for no cure is tried, so neither is it said why there is none."""
    return {key: value for key, value in finding.items() if key != "uncured"}


def _cost(cost: "Cost", voice: "Voice") -> dict[str, Any]:
    from ..documents.bookjson import rounded, ware_data

    return {
        "held": _told(cost.held, voice),
        "cuts": [
            {"board": cut.body, "word": cut.word, "count": len(cut.shapes) if cut.form.in_rows else 1}
            for cut in cost.cuts
        ],
        "setups": None
        if cost.setups_why
        else [
            {"makes": _told(one.makes, voice), "how": _told(one.says, voice), "alone": one.name in cost.alone}
            for one in cost.setups
        ],
        "setups_why": cost.setups_why,
        "glue_mm2": None if cost.glue_mm2 is None else rounded(cost.glue_mm2),
        "hardware": [ware_data(ware) for ware in cost.hardware],
        "hidden": cost.hidden,
        "seen": {
            "edges": list(cost.edges),
            "driven": list(cost.driven),
            "covers": list(cost.covers),
            "cut_after_gluing": list(cost.after_gluing),
        },
        "hands": cost.makings,
        "hand": _told(cost.making, voice),
        "ways": [{"board": way.body, "leaves": [rounded(step) for step in way.direction]} for way in cost.ways],
    }
