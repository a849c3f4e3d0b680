"""The page's rooms: `python tools/rooms.py` says which import in `page/src` breaks a rule, and ends with 1 if one does.

1. A file imports from its own room and from rooms below it (`ROOMS`, the lowest first), never from one above.
2. Nobody imports a light: a folder of `lights/` is found by standing there. `main.ts` alone asks `lights/register.ts`.
3. No circle: no file comes back to itself over its imports. What only types are taken from counts as well.

Uses the standard library only.
"""

import re
import sys
from collections.abc import Iterator, Mapping
from pathlib import Path

ROOMS = ("core", "ui", "notes", "card", "text", "lifted", "sheet", "list", "lights", "bar", "")  # "": App and main
REGISTER = ("lights/register.ts", "main.ts")
SOURCE = Path(__file__).resolve().parents[1] / "page" / "src"
IMPORT = re.compile(r"""(?:\bfrom\s*|\bimport\s*\(?\s*)["'](\.[^"']*)["']""")
ENDS = ("", ".ts", ".js", ".svelte", "/index.ts")


def faults(source: Path) -> list[str]:
    """Every import that breaks a rule, as `file: what is wrong`, in the order of the files."""
    imports = {name: tuple(_imported(source, name)) for name in _files(source)}
    found = [fault for name, others in imports.items() for other in others for fault in _broken(name, other)]
    return found + [f"{' -> '.join(circle)}: a circle" for circle in circles(imports)]


def _files(source: Path) -> list[str]:
    found = [path for end in ("*.ts", "*.svelte") for path in source.rglob(end)]
    return sorted(path.relative_to(source).as_posix() for path in found)


def _imported(source: Path, name: str) -> Iterator[str]:
    """The files of the page that one imports; what is no file of it, as a style sheet, is left out."""
    folder = (source / name).parent
    for way in IMPORT.findall((source / name).read_text(encoding="utf-8")):
        paths = (Path(f"{folder / way}{end}") for end in ENDS)
        for path in (path.resolve() for path in paths if path.is_file()):
            if path.is_relative_to(source.resolve()) and path.suffix in (".ts", ".svelte"):
                yield path.relative_to(source.resolve()).as_posix()
            break


def _room(name: str) -> str:
    return name.partition("/")[0] if "/" in name else ""


def _light(name: str) -> str:
    """The light that a file belongs to, "" for none."""
    parts = name.split("/")
    return parts[1] if parts[0] == "lights" and len(parts) > 2 else ""


def _broken(name: str, other: str) -> Iterator[str]:
    own, theirs = _room(name), _room(other)
    if strange := [room for room in (own, theirs) if room not in ROOMS]:
        yield f"{name}: {strange[0]}/ is no room; give it its place in tools/rooms.py"
    elif ROOMS.index(theirs) > ROOMS.index(own):
        yield f"{name}: imports {other}, of a room above its own"
    if _light(other) and _light(other) != _light(name):
        yield f"{name}: imports {other}; nobody imports a light"
    if other == REGISTER[0] and name != REGISTER[1]:
        yield f"{name}: imports {other}; only {REGISTER[1]} asks for all lights"


def circles(imports: Mapping[str, tuple[str, ...]]) -> list[tuple[str, ...]]:
    """Ways along imports that end where they begin: at least one of every knot."""
    done: set[str] = set()
    found = []
    for start in imports:
        way: list[str] = []
        left = [(start, iter(imports[start]))] if start not in done else []
        way += [start] if left else []
        while left:
            _, others = left[-1]
            other = next(others, None)
            if other is None:
                done.add(way.pop())
                left.pop()
            elif other in way:
                found.append((*way[way.index(other) :], other))
            elif other not in done and other in imports:
                way.append(other)
                left.append((other, iter(imports[other])))
    return found


if __name__ == "__main__":
    sys.exit("\n".join(faults(SOURCE)) or 0)
