"""NAME.made.toml: what has been pinned, measured and cut, beside the job file NAME.toml.

    dryfit_made = 1

    [pinned."raking 1"]            # held still since a sheet was first printed
    datum     = "start"            # of its line as drawn
    face_side = "left"             # of its line, looking from start to end; "front" of a board lying flat
    mark      = "B"

    [[measured]]                   # thickness along a board, from its line's start
    board     = "raking 1"
    thickness = [[0, 23.8], [1200, 24.1]]

    [[cut]]                        # a crossing that is cut, and which board's slot opens to the front
    between = ["long shelf", "raking 1"]
    front   = "long shelf"

It holds plain millimetres, since it copies what was read off a tool.
"""

import tomllib
from collections.abc import Mapping
from pathlib import Path as FilePath
from typing import Any, Literal

from pydantic import BaseModel, ConfigDict, Field

from ..errors import MadeError, Mistake
from ..job.mistakes import Mistakes
from ..job.names import MEMBER
from ..job.spans import Spans
from ..job.syntax import read_syntax
from .meetings import pair_key
from .setout import NOTHING_MADE, Made, Pin


class _Table(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid")


class PinTable(_Table):
    """`[pinned."BOARD"]`."""

    datum: Literal["start", "end"] = Field(description="Which end of its line positions are counted from.")
    face_side: Literal["left", "right", "front", "wall"] = Field(
        description="Looking from its line's start to its end; front or wall of a board lying flat."
    )
    mark: str = Field(pattern=r"^[A-HJ-NP-Z][0-9]{0,3}$", description="Its letter; I and O are never given.")


class MeasuredTable(_Table):
    """`[[measured]]`."""

    board: str
    thickness: list[tuple[float, float]] = Field(min_length=1)


class CutTable(_Table):
    """`[[cut]]`."""

    between: tuple[str, str]
    front: str


class MadeTables(_Table):
    """The whole file."""

    dryfit_made: Literal[1]
    pinned: dict[str, PinTable] = {}
    measured: list[MeasuredTable] = []
    cut: list[CutTable] = []


HEAD = "# What has been pinned, measured and cut. Dryfit writes it; you may too.\ndryfit_made = 1\n"


def made_path(job_file: FilePath) -> FilePath:
    """Where what is made of a job is kept."""
    return job_file.with_name(f"{job_file.stem}.made.toml")


def read_made(path: FilePath) -> Made:
    """Read what has been made; nothing, if the file is not there.

    Raises:
        MadeError: it cannot be used; with every mistake in it.
    """
    try:
        text = path.read_text(encoding="utf-8-sig")
    except FileNotFoundError:
        return NOTHING_MADE
    except (OSError, UnicodeDecodeError) as error:
        mistake = Mistake(
            file=path.name, line=0, says=f"cannot be read: {error}", remedy="mend the file, or move it away"
        )
        raise MadeError((mistake,)) from None
    return read_made_text(text, path.name)


def read_made_text(text: str, file: str) -> Made:
    """Read the text of a made file.

    Raises:
        MadeError: it cannot be used; with every mistake in it.
    """
    read = read_syntax(text, file)
    if read.mistakes:
        raise MadeError(read.mistakes)
    mistakes = Mistakes(file, read.text)
    tables = mistakes.validated(MadeTables, read.data, (), called="the made file")
    if mistakes or not isinstance(tables, MadeTables):
        raise MadeError(mistakes.sorted())
    return Made(
        pins={
            name: Pin(datum=pin.datum, face_side=pin.face_side, mark=pin.mark) for name, pin in tables.pinned.items()
        },
        thickness={item.board: tuple(sorted(item.thickness)) for item in tables.measured},
        fronts={pair_key(*item.between): item.front for item in tables.cut},
    )


def with_pins(text: str, pins: dict[str, Pin]) -> str:
    """The text of a made file with pins put to its end; everything before stays as it was."""
    new = "" if text.strip() else HEAD
    lines = [text if not text or text.endswith("\n") else text + "\n", new]
    for name, pin in pins.items():
        lines.append(f"\n[pinned.{quoted(name)}]\n")
        lines.append(f'datum = "{pin.datum}"\nface_side = "{pin.face_side}"\nmark = "{pin.mark}"\n')
    return "".join(lines)


def renamed(text: str, names: Mapping[str, str]) -> str:
    """The text of a made file with boards called anew, wherever it names them; every other byte stays.

    The members of a divided board are called anew with it.

    Args:
        text: of the made file.
        names: old name to new, as `job.renaming.renamed_boards` gives them.
    """
    spans = Spans(text)
    patches = [
        (span, quoted(new))
        for path, written in spans.keys.items()
        if len(path) == 2 and path[0] == "pinned" and (new := _new_name(str(path[1]), names))
        for span in written
    ]
    for path, span in spans.values.items():
        if path[-1] in ("board", "front") or (len(path) > 1 and path[-2] == "between"):
            old = tomllib.loads(f"name = {text[span.start : span.end]}")["name"]
            if new := _new_name(old, names):
                patches.append((span, quoted(new)))
    for span, new in sorted(patches, reverse=True):
        text = text[: span.start] + new + text[span.end :]
    return text


def _new_name(old: str, names: Mapping[str, str]) -> str:
    """What a board or a member is called from now on; "" where its name stays."""
    member = MEMBER.fullmatch(old)
    if old in names or not member:
        return names.get(old, "")
    whole = names.get(member[1], "")
    return f"{whole}{old[len(member[1]) :]}" if whole else ""


def quoted(text: str) -> str:
    """A text as a TOML basic string."""
    escapes: dict[str, Any] = {'"': '\\"', "\\": "\\\\", "\n": "\\n", "\t": "\\t", "\r": "\\r"}
    plain = "".join(
        escapes.get(letter) or (letter if letter.isprintable() else f"\\U{ord(letter):08x}") for letter in text
    )
    return f'"{plain}"'
