"""Why something is not done: one shape for every error a browser sees, with what to do about it.

{"error": {"code", "says", "remedy", "mistakes", "revision", "since"}}

A refusal is never a 5xx, not even where the disk is full: that is how the machine stands, and the maker can put
it right. 500 is a fault of ours and nothing else: code "fault" where one thing alone is not done, "went wrong" where
it was met by nothing nearer.
"""

import logging
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from types import MappingProxyType

from ..errors import JobError, Mistake, fault_in_words
from ..job.spans import Spans
from .answers import Fault, MistakeShown, Refusal, Version

LOG = logging.getLogger("dryfit")
STATUS: Mapping[str, int] = MappingProxyType({
    "not understood": 422,
    "refused": 422,
    "not there": 404,
    "stale": 409,
    "nothing to undo": 409,
    "ask": 409,
    "read-only": 423,
    "disk full": 409,
    "not written": 409,
    "not allowed": 403,
    "not known": 401,
    "wrong host": 421,
    "too large": 413,
    "too often": 429,
    "not ready": 409,
    "fault": 500,
    "went wrong": 500,
})  # fmt: skip


class Refused(Exception):  # noqa: N818 - what it says is the fault
    """Raised anywhere below a route; becomes the answer."""

    def __init__(self, fault: Fault) -> None:
        assert fault.code in STATUS, f"no status for {fault.code!r}"
        self.fault = fault
        super().__init__(fault.says)

    @property
    def status(self) -> int:
        """Of the HTTP answer."""
        return STATUS[self.fault.code]

    @property
    def refusal(self) -> Refusal:
        """The body of the answer."""
        return Refusal(error=self.fault)


def refused(
    code: str,
    says: str,
    remedy: str,
    *,
    mistakes: tuple[MistakeShown, ...] = (),
    revision: int | None = None,
    since: tuple[Version, ...] = (),
) -> Refused:
    """The exception for one fault."""
    return Refused(Fault(code=code, says=says, remedy=remedy, mistakes=mistakes, revision=revision, since=since))


@contextmanager
def own_faults(doing: str) -> Iterator[None]:
    """Whatever goes wrong inside that nobody foresaw is answered as a fault: one thing is not done, all else goes on.

    Args:
        doing: what is tried, as in "Dryfit cannot <show this card>".

    Raises:
        Refused: something went wrong; it stands in the log.
    """
    try:
        yield
    except (Refused, JobError):
        raise
    except Exception as error:
        says = our_fault(doing, error)
        LOG.exception("%s", says)
        raise refused("fault", says, "nothing was changed: do it another way, or write it in the text") from error


def our_fault(doing: str, error: Exception) -> str:
    """The sentence for what is no fault of the job: what it was and where, for whoever reports it."""
    return f"Dryfit cannot {doing}: this is a fault in Dryfit, not in the job ({fault_in_words(error)})"


def mistaken(text: str, mistakes: tuple[Mistake, ...]) -> tuple[MistakeShown, ...]:
    """Mistakes with their place in the text, for marking them there."""
    spans = Spans(text)
    return tuple(_marked(text, spans, mistake) for mistake in mistakes)


def _marked(text: str, spans: Spans, mistake: Mistake) -> MistakeShown:
    column, end = _columns(text, spans, mistake)
    return MistakeShown(
        line=mistake.line,
        column=column,
        end_column=end,
        path=mistake.path,
        read=mistake.read,
        says=mistake.says,
        remedy=mistake.remedy,
    )


def _columns(text: str, spans: Spans, mistake: Mistake) -> tuple[int, int]:
    """From where to where the mistake's line is underlined: the value, else what was read, else all of it."""
    if not mistake.line:
        return 0, 0
    start = spans.line_start(mistake.line)
    line = text[start:].partition("\n")[0].removesuffix("\r")
    place = spans.place_of(mistake.path) if mistake.path else None
    if place is not None and start <= place.start < start + len(line):
        first, last = place.start - start, min(place.end - start, len(line))
    elif mistake.read and mistake.read in line:
        first = line.index(mistake.read)
        last = first + len(mistake.read)
    else:
        first, last = len(line) - len(line.lstrip()), len(line.rstrip())
    return _utf16(line[:first]), _utf16(line[:last])


def _utf16(text: str) -> int:
    """Length as a browser counts it; a byte order mark is not shown."""
    return len(text.removeprefix("\ufeff").encode("utf-16-le", "surrogatepass")) // 2
