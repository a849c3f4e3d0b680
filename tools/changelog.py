"""The changelog, put together from a file a change: `changelog.d/NAME.md`.

    python3 -m tools.changelog release 2031-05-01

A fragment is a heading that names its group and a list of what users see of the change, in their words:

    # Joints

    - A mitre may have keys.

It may go on with another group. Two changes made side by side touch no common line. The whole, docs/made/CHANGELOG.md,
goes out with each release; `release` writes it into CHANGELOG.md with the day, and takes the fragments away.
"""

import re
import sys
from pathlib import Path

from dryfit import __version__
from tools.build import HOME

GROUPS = (
    "Job file",
    "Setting out",
    "Joints",
    "Screws and fixings",
    "Checks",
    "Putting it together",
    "What is cut",
    "Papers",
    "Files",
    "The page",
    "Terminal",
    "The trade's figures",
    "Speed",
    "Setting up",
    "For those who add to it",
)
_GROUP = re.compile(r"^# (.+)\n\n((?:- .+\n(?:  .+\n)*)+)\n?", re.MULTILINE)


def told(path: Path) -> dict[str, str]:
    """A fragment's lists by group.

    Raises:
        ValueError: it has another form, or names a group that is none; with the file and what is asked for.
    """
    text = path.read_text(encoding="utf-8")
    parts = [(match[1], match[2]) for match in _GROUP.finditer(text)]
    found = dict(parts)
    if not found or _GROUP.sub("", text).strip():
        raise ValueError(f"{path}: a fragment is '# GROUP', an empty line and a list of '- ' with two spaces below")
    for group in found:
        if [name for name, _ in parts].count(group) > 1:
            raise ValueError(f"{path}: names {group!r} twice")
        if group not in GROUPS:
            raise ValueError(f"{path}: no group is called {group!r}; there are {', '.join(GROUPS)}")
    return found


def compiled(home: Path = HOME) -> str:
    """The whole changelog: what is to come, in its groups, above what was released.

    Raises:
        ValueError: a fragment has another form.
    """
    head, released = _parts(home)
    title_and_aim = "\n\n".join(head.split("\n\n")[:2])  # without the word of where the fragments stand
    return f"{title_and_aim}\n\n{_to_come('unreleased', home)}{released}"


def release(day: str, home: Path = HOME) -> None:
    """Write what is to come into CHANGELOG.md as released, and take its fragments away."""
    head, released = _parts(home)
    text = f"{head}\n\n{_to_come(day, home)}{released}"
    (home / "CHANGELOG.md").write_text(text, encoding="utf-8", newline="\n")
    for path in (home / "changelog.d").glob("*.md"):
        path.unlink()


def _parts(home: Path) -> tuple[str, str]:
    """The head of CHANGELOG.md, and what was released."""
    head, mark, released = (home / "CHANGELOG.md").read_text(encoding="utf-8").partition("\n## [")
    return head.rstrip(), mark + released


def _to_come(day: str, home: Path) -> str:
    fragments = [told(path) for path in sorted((home / "changelog.d").glob("*.md"))]
    lists = {group: "".join(one[group] for one in fragments if group in one) for group in GROUPS}
    to_come = "".join(f"\n### {group}\n\n{items}" for group, items in lists.items() if items)
    return f"## [{__version__}] - {day}\n{to_come}"


if __name__ == "__main__":
    match sys.argv[1:]:
        case ["release", day] if re.fullmatch(r"\d{4}-\d\d-\d\d", day):
            release(day)
        case _:
            sys.exit("python3 -m tools.changelog release YEAR-MONTH-DAY")
