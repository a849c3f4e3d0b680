"""Why something is not done: one shape for every error a browser sees, with what to do about it.

{"error": {"code", "says", "remedy", "mistakes", "revision", "since"}}
"""

from collections.abc import Mapping
from types import MappingProxyType

from ..errors import Mistake
from ..job.spans import Spans
from .answers import Fault, MistakeShown, Refusal, Version

STATUS: Mapping[str, int] = MappingProxyType({
    "not understood": 422,
    "refused": 422,
    "not there": 404,
    "stale": 409,
    "nothing to undo": 409,
    "read-only": 423,
    "disk full": 507,
    "not written": 500,
    "not allowed": 403,
    "not known": 401,
    "wrong host": 421,
    "too large": 413,
    "too often": 429,
    "not ready": 503,
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
