"""Every sentence that the program can print, in one list to be read from end to end.

Found by reading the sources: each text of more than a word that is no docstring and no key, with `{}` where a
value stands in it, by room and file in the order in which it stands there. Texts of the page itself are not in it.
"""

import ast
from collections.abc import Iterator
from pathlib import Path

SOURCES = Path(__file__).parents[1] / "src" / "dryfit"
HEAD = """# Every sentence

Made from the sources, to be read through: what is printed, told on the terminal or answered to the page.
`{}` is a value. The first figure is the line in the file.
"""
Texts = Iterator[tuple[int, str]]


def sentences_page(sources: Path = SOURCES) -> str:
    """The list, a section for each file that says something."""
    found = (
        (path, list(dict.fromkeys(texts(ast.parse(path.read_text("utf-8")))))) for path in sorted(sources.rglob("*.py"))
    )
    return "\n".join([HEAD, *(_section(path.relative_to(sources), said) for path, said in found if said)])


def texts(tree: ast.AST) -> Texts:
    """Each text with its line: a constant, one that continues over lines, or a form put together with its values."""
    for node in ast.iter_child_nodes(tree):
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):
            continue  # a docstring
        text = _text(node)
        if text is None:
            yield from texts(node)
        elif _is_said(text):
            yield node.lineno, text  # type: ignore[attr-defined]


def _text(node: ast.AST) -> str | None:
    match node:
        case ast.Constant(value=str() as text):
            return text
        case ast.JoinedStr(values=pieces):
            return "".join(_text(piece) or "{}" for piece in pieces)
    return None


def _is_said(text: str) -> bool:
    """Whether it is more than a word or a key: two words with letters beside one another."""
    words = [word for word in text.split() if any(letter.isalpha() for letter in word)]
    return len(words) > 1


def _section(place: Path, said: list[tuple[int, str]]) -> str:
    lines = (f"{line:>5}  {' '.join(text.split())}" for line, text in said)
    return "\n".join([f"## {place.as_posix()}", "", "```text", *lines, "```", ""])
