"""The manual's page of all findings, put together from a page a finding.

docs/findings/README.md opens it and has a heading a part; docs/findings/CODE.md names its part in its first line,
`<!-- Joints -->`. So a finding is told in one file of its own, and none is told of in two lists.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

OPENING = "README.md"
_PAGE = re.compile(r"<!-- (?P<part>[^\n]+) -->\n\n# (?P<code>[a-z0-9-]+)\n\n(?P<body>.+)", re.DOTALL)


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """One finding's page.

    Attributes:
        part: the heading it stands under in the whole.
        code: the finding's.
        body: all below its title; the first line is what the program says that the code means.
    """

    part: str
    code: str
    body: str


def told(folder: Path) -> tuple[Told, ...]:
    """Every page of the folder, by code.

    Raises:
        ValueError: a page has another form; with its name and what is asked for.
    """
    found = []
    for path in sorted(folder.glob("*.md")):
        if path.name == OPENING:
            continue
        match = _PAGE.fullmatch(path.read_text(encoding="utf-8"))
        if match is None or match["code"] != path.stem:
            raise ValueError(f"{path}: a page begins with '<!-- PART -->', an empty line and '# {path.stem}'")
        found.append(Told(part=match["part"], code=match["code"], body=match["body"].strip()))
    return tuple(found)


def findings_page(folder: Path) -> str:
    """All findings on one page, which stands by itself: its links lead nowhere but to itself.

    Raises:
        ValueError: a page names a part that the opening has no heading for.
    """
    opening = (folder / OPENING).read_text(encoding="utf-8")
    head, *parts = re.split(r"^(?=## )", opening, flags=re.MULTILINE)
    pages = told(folder)
    named = {part.partition("\n")[0].removeprefix("## ") for part in parts}
    for page in pages:
        if page.part not in named:
            raise ValueError(f"{folder / page.code}.md: {OPENING} has no part called {page.part!r}")
    return _alone("\n".join([head.rstrip(), *(_part(part, pages) for part in parts)]))


def _part(text: str, pages: tuple[Told, ...]) -> str:
    name = text.partition("\n")[0].removeprefix("## ")
    return "\n".join([f"\n{text.rstrip()}", *_sections(page for page in pages if page.part == name)])


def _sections(pages: Iterator[Told]) -> Iterator[str]:
    yield from (f"\n### {page.code}\n\n{page.body}" for page in pages)


def _alone(page: str) -> str:
    """Links to findings lead to their places on the page; other pages of docs/ are named."""
    within = re.sub(r"\]\(([a-z0-9-]+)\.md\)", r"](#\1)", page)
    return re.sub(r"\[([^\]]+)\]\(\.\./([^)]+)\)", r"\1 (docs/\2)", within) + "\n"
