"""A change sent on a job that somebody has changed meanwhile: put together with that, or told in both figures.

The text is put together table by table and key by key (`job.merging`): two windows that work at different boards never
hear of each other. Where both changed the same key, nothing is overwritten: it is told what was changed there and here.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from ...book import read_job_text
from ...editing.different import Difference, differences, in_words
from ...errors import JobError
from ...job.merging import Clash, merged
from ...job.model import Job
from ...sentences import Sentence, Several, Voice, Words, say, told

MOST = 3  # keys that are told one by one
THERE, OUTSIDE = "in another window", "outside"  # who changed it meanwhile


@dataclass(frozen=True, slots=True, kw_only=True)
class PutTogether:
    """What came of two changes.

    Attributes:
        text: with both; None where they clash.
        job: that the text reads as; None where it cannot be read.
        says: why they do: what was changed there and here.
        twice: whether they clash only in what both put in, under one name.
    """

    text: str | None
    job: Job | None = None
    says: str = ""
    twice: bool = False


def together(was: str, here: str, there: str, file: str, who: str = THERE) -> PutTogether:
    """Put two changes of a text together.

    Args:
        was: the text that both began with.
        here: the text as the change makes it that came late; `there` as it stands now.
        file: as messages call it.
        who: has changed it meanwhile.
    """
    put = merged(was, here, there)
    job = None if put.text is None else _read(put.text, file)
    if job is not None and not job.dangling:  # as nearly always: nothing more has to be read
        return PutTogether(text=put.text, job=job)
    jobs = [_read(text, file) for text in (was, here, there)]
    voice = Voice(next((job.units for job in reversed(jobs) if job is not None), "mm"))
    if put.text is None:
        twice = all(one.base is None and one.table and not one.key for one in put.clashes)
        return PutTogether(text=None, says=told(_clashing(put.clashes, jobs, who), voice), twice=twice)
    why = _unreadable(put.text, jobs, file)
    return PutTogether(text=None, says=why) if why else PutTogether(text=put.text, job=job)


def _read(text: str, file: str) -> Job | None:
    try:
        return read_job_text(text, file)
    except JobError:
        return None


def _unreadable(text: str, jobs: Sequence[Job | None], file: str) -> str:
    """Why a text cannot be read, or speaks of boards that are not there, though each by itself could and did not."""
    _, here, there = jobs
    if here is None or there is None:
        return ""  # it is somebody's text with a mistake: marked as any other
    try:
        job = read_job_text(text, file)
    except JobError as error:
        return f"put together the two cannot be read: {error.mistakes[0].says}"
    known = {one.name for side in (here, there) for one in side.dangling}
    lost = [one.name for one in job.dangling if one.name not in known]
    return f"{lost[0]} is not there any more, or is called otherwise" if lost else ""


# --- what is told --------------------------------------------------------------------------------


def _clashing(clashes: Sequence[Clash], jobs: Sequence[Job | None], who: str) -> Words:
    """What both changed: by what became of the boards where that can be said, else by the keys as they are written."""
    was, here, there = jobs
    if was is not None and here is not None and there is not None:
        names = {one.table[-1] for one in clashes if one.table}
        sides = [in_words(_of(differences(was, job), names)) for job in (there, here)]
        if all(sides) and all(len(one.table) > 1 for one in clashes):
            return say("both changed the same: {} {}, here {}", who, *sides)
    return say("both changed the same: {}", Several(tuple(_by_keys(clashes, who)), last="; ", apart="; "))


def _of(found: Iterable[Difference], names: set[str]) -> list[Difference]:
    """Those that are of these boards."""
    return [one for one in found if names.intersection(one.names)]


def _by_keys(clashes: Sequence[Clash], who: str) -> Iterator[Sentence]:
    for one in clashes[:MOST]:
        what = " of ".join(filter(None, (one.key, " ".join(one.table)))) or "the same lines"
        yield say("{}: {} {}, here {}", what, who, *(_written(side, one) for side in (one.theirs, one.mine)))
    if len(clashes) > MOST:
        yield say("{} more", f"{len(clashes) - MOST}")


def _written(text: str | None, clash: Clash) -> str:
    """What stands on one side: a key's value; of a table or of lines only whether they are there."""
    if text is None:
        return "taken out" if clash.base is not None else "not there"
    return text.partition("=")[2].strip() if clash.key else "changed"
