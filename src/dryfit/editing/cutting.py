"""What is cut, as the page ticks it: records written and taken back, and what is asked before they would be lost."""

from collections.abc import Iterable
from dataclasses import replace

from ..findings import Finding, Severity
from ..lengths import cut_text, depth_text, length_text
from ..piece.cut_findings import DIVIDED, NOT_THERE
from ..piece.model import WALL, Cut, Part
from ..piece.recording import record_of, recorded_of
from ..piece.setout import AsCut, Made
from ..sentences import Voice, told
from . import requests
from .answers import CutShown
from .composed import Composed
from .drawn import Drawn, no_such
from .refusals import refused

LOST = (NOT_THERE, DIVIDED)


def ticked(drawn: Drawn, made: Made, sent: requests.CutsSent) -> Composed:
    """Cuts of one board written down, taken back, or left to the maker's word.

    Raises:
        Refused: there is no such board or cut, or none of them is recorded.
    """
    part = _part(drawn, sent.board)
    cuts = _cuts(part, sent.cuts)
    there = {cut.key: recorded_of(made, part, cut) for cut in cuts}
    recorded = [one for one in there.values() if one is not None]
    if sent.what == "cut":
        new = tuple(record_of(drawn.piece, part, cut) for cut in cuts if there[cut.key] is None)
        return Composed(edits=(), says=f"{_called(part, cuts, sent)} ticked as cut", cut=new)
    if not recorded:
        raise refused("refused", f"nothing of {_called(part, cuts, sent)} is recorded as cut", "tick it first")
    if sent.what == "take back":
        return Composed(edits=(), says=f"{_called(part, cuts, sent)} no longer ticked as cut", uncut=tuple(recorded))
    accept = sent.what == "accept"
    says = "may stay as it is cut" if accept else "is to be as the job asks"
    return Composed(
        edits=(), says=f"{_called(part, cuts, sent)} {says}", cut=tuple(replace(one, accept=accept) for one in recorded)
    )


def _part(drawn: Drawn, board: str) -> Part:
    part = drawn.piece.part_by_name.get(board)
    if part is None:
        raise no_such("board", board)
    return part


def _cuts(part: Part, keys: list[str]) -> list[Cut]:
    there = {cut.key: cut for cut in part.cuts}
    missing = [key for key in keys if key not in there]
    if missing:
        raise no_such("cut", missing[0])
    return [there[key] for key in keys] if keys else list(part.cuts)


def _called(part: Part, cuts: list[Cut], sent: requests.CutsSent) -> str:
    if not sent.cuts:
        return f"all of {part.id}"
    return cuts[0].key if len(cuts) == 1 else f"{len(cuts)} cuts of {part.id}"


# ---- asked first


def cut_in(drawn: Drawn, made: Made, boards: Iterable[str]) -> tuple[AsCut, ...]:
    """What is recorded as cut in boards, and in the members of divided ones."""
    names = {*boards, *drawn.wholes(boards), *drawn.members(boards)}
    return tuple(one for one in made.cuts if one.board in names)


def asked_first(doing: requests.Doing, made: Made, drawn: Drawn) -> str:
    """What taking out, copying or mirroring boards with recorded cuts means for them; "" where it means nothing."""
    if not isinstance(doing, requests.CopySent | requests.MirrorSent | requests.DeleteSent):
        return ""
    count = len(cut_in(drawn, made, doing.boards))
    if not count:
        return ""
    cuts = "one of its cuts is made" if count == 1 else f"{count} of its cuts are made"
    who = doing.boards[0] if len(doing.boards) == 1 else f"{doing.boards[0]} and {len(doing.boards) - 1} more"
    if isinstance(doing, requests.DeleteSent):
        return f"{who}: {cuts}, and would be lost. Take it out?"
    if isinstance(doing, requests.CopySent) or doing.keep:
        return f"{who}: {cuts}. The copy is a board of its own, with nothing cut yet. Copy it?"
    return f"{who}: {cuts}, and that wood cannot be mirrored: cuts that no longer fit will be errors. Mirror it?"


def lost(before: Iterable[Finding], after: Iterable[Finding], voice: Voice) -> str:
    """What a change would lose of what is cut, in the words of the findings that come with it; "" for nothing."""
    had = {finding.says for finding in before}
    new = [
        told(finding.says, voice)
        for finding in after
        if finding.code in LOST and finding.severity is Severity.STOP and finding.says not in had
    ]
    more = f", and {len(new) - 1} more" if len(new) > 1 else ""
    return f"{new[0]}{more}. Do it all the same?" if new else ""


# ---- shown


def cuts_of(drawn: Drawn, made: Made, of: requests.CardOf) -> tuple[CutShown, ...]:
    """The cuts of what a card is of: of a board, or of a joint or fixing in all its boards."""
    parts = drawn.piece.part_by_name
    if of.board is not None:
        return tuple(
            shown
            for name in drawn.members([of.board])
            if name in parts
            for shown in cuts_shown(drawn, made, parts[name])
        )
    pair = of.joint or ((of.fixing, WALL) if of.fixing is not None else None)
    if pair is None:
        return ()
    keys = {cut.key: cut.body for joint in drawn.piece.joints if set(joint.key) == set(pair) for cut in joint.cuts}
    boards = dict.fromkeys(name for name in keys.values() if name in parts)
    return tuple(shown for name in boards for shown in cuts_shown(drawn, made, parts[name], keys))


def cuts_shown(drawn: Drawn, made: Made, part: Part, only: Iterable[str] = ()) -> tuple[CutShown, ...]:
    """The cuts of a part as a card lists them; `only` those with these keys."""
    wanted = set(only)
    shown = []
    for cut in part.cuts:
        if wanted and cut.key not in wanted:
            continue
        one = recorded_of(made, part, cut)
        shown.append(
            CutShown(
                board=part.id,
                key=cut.key,
                says=_figures(drawn, part, cut),
                made=cut.made,
                accepted=one is not None and one.accept,
            )
        )
    return tuple(shown)


def _figures(drawn: Drawn, part: Part, cut: Cut) -> str:
    """Its figures in a line, as its sheet has them."""
    units = drawn.job.units
    one = record_of(drawn.piece, part, cut)
    words = []
    if one.length is not None:
        words.append(f"{length_text(one.length, units)} over the long points")
    if one.at is not None:
        words.append(f"at {length_text(one.at, units)}")
    if one.across is not None:
        words.append(f"{cut_text(one.across, units)} across")
    if one.deep is not None:
        words.append(f"{depth_text(one.deep, units)} deep")
    if cut.figures.opens.edge:
        words.append(f"from the {cut.figures.opens.value}")
    return ", ".join(words)
