"""Letters and names of several parts as one: "A to H", "divider 1 and 2", "left and right uprights"."""

from collections.abc import Sequence

from ....naming import in_runs

COUNTS = ("", "", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
PLURALS = {"shelf": "shelves"}


def lettered(marks: Sequence[str], apart: str = ", ", to: str = " to ") -> str:
    """Letters together, three or more in a row as a run: "K, L", "A to H"."""
    places = ["ABCDEFGHJKLMNPQRSTUVWXYZ".find(mark) for mark in marks]
    if -1 in places or places != sorted(places):
        return apart.join(marks)
    return in_runs(places, apart=apart, to=to, called=lambda place: marks[places.index(place)])


def together(names: Sequence[str]) -> str:
    """Several names in one: "divider 1 and 2", "shelf 1 to 5", "left and right uprights", "long shelf and rail"."""
    if len(names) == 1:
        return names[0]
    split = [name.split() for name in names]
    heads = {tuple(words[:-1]) for words in split}
    if len(heads) == 1 and split[0][:-1] and all(words[-1].isdigit() for words in split):
        return " ".join((*split[0][:-1], in_runs(sorted(int(words[-1]) for words in split), last=" and ")))
    before, mids, after = shared(split)
    if not before and not after:
        return f"{', '.join(names[:-1])} and {names[-1]}"
    told = f"{', '.join(mids[:-1])} and {mids[-1]}"
    return " ".join((*before, told, *after[:-1], *map(_plural, after[-1:])))


def common(names: Sequence[str]) -> str:
    """What several names share, as one name for all: "box sides", "ends"; "" where their last words differ."""
    before, _, after = shared([name.split() for name in names])
    return " ".join((*before, *after[:-1], _plural(after[-1]))) if after else ""


def shared(split: Sequence[Sequence[str]]) -> tuple[list[str], list[str], list[str]]:
    """The words that begin all names, what is each one's own, the words that end all."""
    least = min(len(words) for words in split) - 1  # each keeps a word of its own
    count = next((n for n, words in enumerate(zip(*split, strict=False)) if len(set(words)) > 1), least)
    before = list(split[0][: min(count, least)])
    rest = [list(words[len(before) :]) for words in split]
    last = 0
    while last < min(len(words) for words in rest) - 1 and len({words[-1 - last] for words in rest}) == 1:
        last += 1
    after = rest[0][len(rest[0]) - last :]
    return before, [" ".join(words[: len(words) - last]) for words in rest], after


def _plural(noun: str) -> str:
    if noun in PLURALS or noun.endswith("s"):
        return PLURALS.get(noun, noun)
    if noun.endswith(("x", "ch", "sh")):
        return f"{noun}es"
    return f"{noun[:-1]}ies" if noun.endswith("y") and noun[-2:-1] not in "aeiou" else f"{noun}s"


def counted(number: int) -> str:
    """A number as a word, as far as one reads better."""
    return COUNTS[number] if number < len(COUNTS) else str(number)
