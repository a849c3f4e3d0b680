"""Putting questions to a piece, each by itself: a fault in one takes its answer away and no other, and is said.

A question is put to a piece that it can concern, as its owner tests (`findings.question`), and to no other: a piece
without screws is not told that the wall they go into was looked at. It is answered once its check has run to its end
for this piece; what it leaves open, it says. Where `DRYFIT_RAISE` is set in the environment a fault is raised
instead: tests set it, since what is isolated is hidden.
"""

import logging
import os
from collections.abc import Callable, Iterable

from .errors import Cancelled, fault_in_words
from .findings import CONCERNS, ITSELF, QUESTIONS, Finding, NotChecked, Severity, declare, owns
from .places import Where
from .sentences import Name, Voice, Words, few, say, told

LOG = logging.getLogger("dryfit")
RAISE = "DRYFIT_RAISE"  # set in the environment of tests: faults are raised, not told
FAILED = declare(
    "study-failed",
    "A check or a study failed through a fault in Dryfit: what it looks at is left open.",
    uncured="the fault is in Dryfit, not in the job",
)
owns(ITSELF, FAILED)
MOST_TOLD = 3  # that one question leaves open for one reason; more are counted
OUR_FAULT = "a fault in Dryfit stopped it"


class Answers:
    """What came of the questions put to one piece.

    Attributes:
        findings, not_checked: all of them, in the order in which they were told.
        ran: the questions whose check ran to its end, or in part.
    """

    def __init__(self) -> None:
        self.findings: list[Finding] = []
        self.not_checked: list[NotChecked] = []
        self.ran: dict[str, None] = {}

    def put(
        self, name: str, check: Callable[[], Iterable[Finding | NotChecked]], *, guards: bool = False, of: str = ""
    ) -> None:
        """Put one question.

        Args:
            name: of the question.
            check: what answers it; nothing of it counts where it fails.
            guards: whether it may find what stops the first cut, so that nobody may cut without it.
            of: the board that the check looks at, where it is put board by board.
        """
        try:
            answers = tuple(check())
        except Exception as fault:  # whatever it is, the other questions are answered
            answers = failed(name, fault, guards=guards, of=of)
        self.add(name, answers)

    def add(self, name: str, answers: Iterable[Finding | NotChecked]) -> None:
        """Take in what a check told."""
        self.ran[name] = None
        for one in answers:
            if isinstance(one, NotChecked):
                self.not_checked.append(one)
            else:
                self.findings.append(one)

    @property
    def checked(self) -> tuple[str, ...]:
        """The questions that were answered, wholly or in part, in the order in which they were put."""
        left = {one.study for one in self.not_checked if one.whole}
        return tuple(name for name in self.ran if name not in left)


def failed(name: str, fault: Exception, *, guards: bool, of: str = "") -> tuple[Finding, NotChecked]:
    """That a question could not be answered: what is told of it, and what is left open.

    Raises:
        Exception: the fault itself, where it is no fault of ours, or must not be hidden.
    """
    raised_if_wanted(fault)
    words = fault_in_words(fault)
    asks = say("{} of {}", QUESTIONS[name], Name(of)) if of else say("{}", QUESTIONS[name])
    LOG.debug("not checked: %s (%s)", asks, words, exc_info=fault)
    where = Where(boards=(of,)) if of else Where()
    must = "do not cut until it is put right, or you have checked it yourself" if guards else "check it yourself"
    return (
        Finding(
            code=FAILED,
            severity=Severity.STOP if guards else Severity.WARN,
            where=where,
            says=say("not checked: {} ({})", asks, words),
            remedy=say("{}; this is a fault in Dryfit: please report it, with the job file", must),
        ),
        NotChecked(study=name, what=asks, why=OUR_FAULT, where=where, whole=not of, fault=True),
    )


def raised_if_wanted(fault: Exception) -> None:
    """Raise what may not be told in the place of an answer: work called off; in a test any fault.

    Raises:
        Exception: the fault itself.
    """
    if isinstance(fault, Cancelled) or os.environ.get(RAISE):
        raise fault


def unanswered(name: str, why: Words, where: Where | None = None) -> NotChecked:
    """That nothing of a question was looked at."""
    return NotChecked(study=name, what=QUESTIONS[name], why=why, where=where or Where(), whole=True)


def in_words(checked: Iterable[str]) -> str:
    """What was looked at, to stand behind "looked at: "."""
    return "; ".join(QUESTIONS[name] for name in checked)


def open_in_words(not_checked: Iterable[NotChecked], voice: Voice) -> tuple[tuple[str, str], ...]:
    """What was not checked and why, in order; what one question leaves open for one reason stands together."""
    alike: dict[tuple[str, str], dict[str, None]] = {}
    for one in not_checked:
        alike.setdefault((one.study, told(one.why, voice)), {})[told(one.what, voice)] = None
    return tuple((few([*whats], MOST_TOLD, last=", ").said(voice), why) for (_, why), whats in alike.items())


def concerns(name: str, piece: object) -> bool:
    """Whether a question can concern a piece; where nobody says so, it concerns every one."""
    test = CONCERNS.get(name)
    try:
        return test is None or test(piece)
    except Exception as fault:  # who cannot tell by a fault of ours puts it
        raised_if_wanted(fault)
        return True


def put_to(
    piece: object, checked: Iterable[str], not_checked: Iterable[NotChecked]
) -> tuple[tuple[str, ...], tuple[NotChecked, ...]]:
    """What was answered and what was left open, without the questions that cannot concern a piece.

    What a fault of ours left open stays: somebody asked.
    """
    left = (one for one in not_checked if not one.whole or one.fault or concerns(one.study, piece))
    return tuple(name for name in checked if concerns(name, piece)), tuple(left)


def in_neither(piece: object, checked: Iterable[str], not_checked: Iterable[NotChecked]) -> tuple[str, ...]:
    """The questions to a piece of which nobody has said anything yet, in the order in which they were registered."""
    said = {*checked, *(one.study for one in not_checked)}
    return tuple(name for name in QUESTIONS if name not in said and concerns(name, piece))
