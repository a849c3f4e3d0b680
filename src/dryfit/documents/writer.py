"""The protocol of writers, and their register: whoever makes a file of the job book.

A writer is a file in `writers/`, found by standing there. The command, the page and the folder read what it says of
itself; none of them knows its name. Adding one: docs/adding-a-file.md.
"""

from abc import ABC, abstractmethod
from collections.abc import Iterator
from importlib.util import find_spec
from typing import ClassVar

from ..scanning import Register
from .looks import Desk


class Writer(ABC):
    """Makes a file of the job book, or a folder of files; see the module's text.

    Attributes:
        name: its own, as `--extra` takes it.
        word: what a maker calls what it makes.
        makes: the file, "parts.csv", or with a stroke at its end a folder of its own, "outlines/".
        order: where it stands in lists; equal ones by name.
        extra: whether it is made only where it is asked for.
        library: that it needs and that need not be installed, as Python imports it: in `files`, not before.
        media: type of the file, for browsers.
        binds: the paper whose sheets it binds.
        tells: whether it tells what of the others could not be made, and so is made when all others are.
    """

    name: ClassVar[str]
    word: ClassVar[str]
    makes: ClassVar[str]
    order: ClassVar[int] = 50
    extra: ClassVar[bool] = False
    library: ClassVar[str] = ""
    media: ClassVar[str] = "application/octet-stream"
    binds: ClassVar[str] = ""
    tells: ClassVar[bool] = False

    @abstractmethod
    def files(self, desk: Desk) -> Iterator[tuple[str, bytes]]:
        """Each file's name and contents, the same for the same book; each carries the stamp of its set.

        What it makes is a file: that one. A folder: files in it, such as "outlines/A.svg".
        """

    @property
    def own_folder(self) -> bool:
        """Whether it makes a folder of files."""
        return self.makes.endswith("/")

    def lacks(self) -> str:
        """Why it cannot be made on this machine; "" where it can."""
        if not self.library or find_spec(self.library) is not None:
            return ""
        return f"it needs the library {self.library}, which is not installed"

    def made(self, desk: Desk) -> Iterator[tuple[str, bytes]]:
        """Its files, each where it may stand."""
        for name, data in self.files(desk):
            own = name.startswith(self.makes) and ".." not in name.split("/") if self.own_folder else name == self.makes
            assert own, f"{self.name} makes {self.makes}, not {name}"
            yield name, data


WRITERS: Register[Writer] = Register("writers", lambda writer: writer.order)


def register(writer: type[Writer]) -> type[Writer]:
    """Class decorator: make one of the writer and file it under its name.

    Raises:
        ValueError: the name has an owner already.
    """
    WRITERS.file(writer.name, writer())
    return writer


def by_turn(writers: list[Writer]) -> list[Writer]:
    """Writers as they are put to work: those that tell what the others lack come last."""
    return sorted(writers, key=lambda writer: writer.tells)
