"""The finish: which boards are coated when, as the job says or as settled, what is masked, what is not known yet."""

from collections.abc import Iterator

from ....job.model import When
from ....piece.model import Part
from ....studies.coating.result import Coating
from ...lettering import printable
from ...looks import Desk
from ...naming import area, plural
from ..page.prose import WordRun, strong
from ..page.sheaf import Sheaf
from ..part.words.finish import AT, coats_words, finish_of
from ..part.words.together import lettered

WHENS: tuple[When | None, ...] = ("before glue", "after glue", "on site", "none", None)  # as they are told
UNKNOWN = "Coats: not known yet."


def finish_list(desk: Desk, sheaf: Sheaf) -> None:
    """One paragraph: what is coated when, and where that is known what it takes, how long it dries, what to mind."""
    coating = desk.book.found(Coating)
    more = [] if coating is None or not coating.stages else [*_coats(coating), *_minds(coating)]
    sheaf.paragraphs("", [[strong("Finish."), *_said(desk), *more]])


def _coats(coating: Coating) -> Iterator[WordRun]:
    """Stage by stage the area, counted coat by coat, and what it takes; when coated faces no longer stick.

    A single stage is named too where nobody says when the other boards are coated: its figures are not those of all.
    """
    named = len(coating.stages) > 1 or any(board.when is None for board in coating.boards)
    for stage in coating.stages:
        at = f"{AT[stage.when][:1].upper()}{AT[stage.when][1:]}, " if named else ""
        litres = "" if stage.litres is None else f", {stage.litres:.2f} l"
        dry, hard = stage.next_h, stage.hard_h
        times = "" if dry is None or hard is None else f"; dry for another after {dry:g} h, hard after {hard:g} h"
        yield WordRun(f"{at}{plural(stage.coats, 'coat')}, {area(stage.m2)} coat by coat{litres}{times}.")
    dries = ", ".join(dict.fromkeys(filter(None, (coating.recoat_from, coating.cure_from))))
    if dries:
        room = (
            "At 20 °C" if coating.slower == 1.0 else f"{coating.slower:g} times as at 20 °C, for the room of [drying]"
        )
        yield WordRun(f"({room}; {dries}.)")
    masked = sum(board.masked_m2 for board in coating.boards)
    if masked:
        yield WordRun(f"Masked: {area(masked)}.")


def _minds(coating: Coating) -> Iterator[WordRun]:
    if coating.self_heating:
        yield WordRun("Rags can take fire by themselves: dry them flat outdoors, or under water in a closed can.")
    yield WordRun("Fresh air, no flame; dust mask." if coating.fumes else "Dust mask.")


def _said(desk: Desk) -> Iterator[WordRun]:
    finish = finish_of(desk)
    if not finish.coats and not finish.system:
        yield strong(UNKNOWN)
        yield WordRun("The job names no finish: add [finish] to it, or agree on bare wood.")
        return
    words = coats_words(finish)
    yield strong(printable(f"{words[:1].upper()}{words[1:]}.") if finish.coats else UNKNOWN)
    parts = sorted(desk.book.piece.parts, key=lambda part: (len(part.mark), part.mark))
    history, groups = desk.book.piece.history, dict[tuple[When | None, bool], list[Part]]()
    for part in parts:
        life = history.lives.get(part.id)
        groups.setdefault((life.when, life.said) if life is not None else (None, False), []).append(part)
    for (when, said), alike in sorted(groups.items(), key=lambda group: (WHENS.index(group[0][0]), group[0][1])):
        marks = lettered([part.mark for part in alike])
        if when is None:
            yield WordRun(f"When {marks} {'is' if len(alike) == 1 else 'are'} coated: not known yet.")
        elif when == "none":
            yield WordRun(f"No finish: {marks}.")
        else:
            masks = any(history.masked(part.id) for part in alike)
            zones = {"masked": "joints masked", "coated": "joints coated, glued faces masked"}
            told = zones.get(finish.joint_zones, "slots and glued faces masked") if masks else ""
            kept = f", {told}, as their sheets show" if told else ""
            why = "" if said else "; the job does not say when"
            yield WordRun(f"{AT[when][:1].upper()}{AT[when][1:]}: {marks}{kept}{why}.")
