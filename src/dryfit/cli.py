"""The command `dryfit`: check, book, open, demo, new.

Nothing heavy is imported before a sub-command needs it: `dryfit --help` and `--version` answer at once.
Exit codes: 0 sound, 1 something must change before the first cut, 2 the file cannot be used.
"""

import argparse
import json
import os
import sys
from abc import ABC, abstractmethod
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, ClassVar

from . import __version__
from .errors import JobError, Mistake

if TYPE_CHECKING:
    from .book import Book
    from .piece.setout import Made
    from .shop.model import Shop

SOUND, MUST_CHANGE, UNUSABLE = 0, 1, 2


class Command(ABC):
    """One sub-command."""

    name: ClassVar[str]
    help: ClassVar[str]

    @abstractmethod
    def arguments(self, parser: argparse.ArgumentParser) -> None:
        """Say what it takes."""

    @abstractmethod
    def run(self, given: argparse.Namespace) -> int:
        """Do it and return the exit code."""


class Check(Command):
    """`dryfit check JOB.toml`."""

    name = "check"
    help = "read a job and say what must change before the first cut"

    def arguments(self, parser: argparse.ArgumentParser) -> None:
        """The job, the shop, people or machine."""
        parser.add_argument("job", type=Path, help="the job file")
        parser.add_argument("--shop", type=Path, help="what the shop owns; left out: a small default shop")
        parser.add_argument("--json", action="store_true", help="findings as JSON")

    def run(self, given: argparse.Namespace) -> int:
        """Build the whole book and print its findings."""
        try:
            book = _book(given.job, given.shop)
        except JobError as error:
            return _unusable(error, as_json=given.json)
        if given.json:
            _print_json(book)
        else:
            _print_findings(book)
        return MUST_CHANGE if book.stops else SOUND


class MakeBook(Command):
    """`dryfit book JOB.toml --out DIR`."""

    name = "book"
    help = "make the job book: sheets, lists, model, data"

    def arguments(self, parser: argparse.ArgumentParser) -> None:
        """The job, where to, the shop, pins."""
        parser.add_argument("job", type=Path, help="the job file")
        parser.add_argument("--out", type=Path, required=True, help="folder for the papers; nothing else is written")
        parser.add_argument("--shop", type=Path, help="what the shop owns; left out: a small default shop")
        parser.add_argument(
            "--pin", action="store_true", help="hold datums and letters still from now on, in NAME.made.toml"
        )

    def run(self, given: argparse.Namespace) -> int:
        """Build and write; a piece with stops gets its papers too, each saying so."""
        try:
            book = _book(given.job, given.shop)
            if given.pin:
                _pin(given.job, book)
            return _write(book, given.out)
        except JobError as error:
            return _unusable(error)


class Demo(Command):
    """`dryfit demo [NAME]`."""

    name = "demo"
    help = "make the book of a demo job into out/NAME"

    def arguments(self, parser: argparse.ArgumentParser) -> None:
        """Which demo."""
        parser.add_argument("demo", nargs="?", default="record-wall", help="which one; left out: record-wall")

    def run(self, given: argparse.Namespace) -> int:
        """Copy the demo's job file beside its papers, so that it can be changed and tried again."""
        from .book.demos import demo_text, demos

        if given.demo not in demos():
            print(f"there is no demo called {given.demo}; there are: {', '.join(demos())}", file=sys.stderr)
            return UNUSABLE
        folder = Path("out") / given.demo
        try:
            folder.mkdir(parents=True, exist_ok=True)
            job = folder / f"{given.demo}.toml"
            job.write_text(demo_text(given.demo), encoding="utf-8")
        except OSError as error:
            return _unwritable(folder, error)
        print(f"Demo job: {job}")
        try:
            code = _write(_book(job, None), folder)
        except JobError as error:
            return _unusable(error)
        _offer_to_open(job)
        return code


class New(Command):
    """`dryfit new FILE`."""

    name = "new"
    help = "write a commented job file to start from"

    def arguments(self, parser: argparse.ArgumentParser) -> None:
        """Where to."""
        parser.add_argument("file", type=Path, help="the job file to write; it must not be there yet")

    def run(self, given: argparse.Namespace) -> int:
        """Write it, never over another file."""
        path: Path = given.file
        code = self.begin(path)
        if code == SOUND:
            print(f"{path} is ready: change it, then run  dryfit check {path}")
        return code

    def begin(self, path: Path) -> int:
        """Write the file and return the exit code."""
        from .job.starting import new_text

        try:
            with path.open("x", encoding="utf-8", newline="\n") as file:
                file.write(new_text(path.stem.replace("-", " ").replace("_", " ")))
        except FileExistsError:
            print(f"{path} is there already; choose another name, or move it away", file=sys.stderr)
            return UNUSABLE
        except OSError as error:
            return _unwritable(path, error)
        return SOUND


class Open(Command):
    """`dryfit open [JOB.toml]`."""

    name = "open"
    help = "open a job on a page in the browser, seen and changed live"

    def arguments(self, parser: argparse.ArgumentParser) -> None:
        """The job, and where the page is to be had."""
        parser.add_argument(
            "job", type=Path, nargs="?", help="the job file, begun if it is not there; left out: the folder's only one"
        )
        parser.add_argument("--shop", type=Path, help="what the shop owns; left out: a small default shop")
        parser.add_argument("--port", type=int, help="left out: 4170, or any that is free")
        parser.add_argument(
            "--host",
            default="127.0.0.1",
            help="an address of this machine: others may open the page too, with a password; left out: they may not",
        )
        parser.add_argument("--no-browser", action="store_true", help="only print the link")

    def run(self, given: argparse.Namespace) -> int:
        """Serve until Ctrl-C."""
        path = given.job or _only_job(Path())
        if path is None:
            return UNUSABLE
        if not path.exists() and New().begin(path) != SOUND:
            return UNUSABLE
        return _open(path, given)


def _only_job(folder: Path) -> Path | None:
    """The folder's one job file; a name for a new one where there is none; None, having said so, for several."""
    found = [path for path in sorted(folder.glob("*.toml")) if _is_job(path)]
    if len(found) > 1:
        print(f"which job? there are {', '.join(path.name for path in found)}", file=sys.stderr)
        return None
    return found[0] if found else Path("job.toml")


def _is_job(path: Path) -> bool:
    """Whether a file says that it is a job: its version stands on a line of its own."""
    try:
        lines = path.read_text(encoding="utf-8-sig").splitlines()
    except (OSError, UnicodeDecodeError):
        return False
    return any(line.partition("=")[0].strip() == "dryfit" for line in lines)


def _open(path: Path, given: argparse.Namespace) -> int:
    from .web.server import Opening, run

    try:
        opening = Opening(
            job=path, shop=_shop(given.shop), port=given.port, host=given.host, browser=not given.no_browser
        )
        run(opening, lambda line: print(line, flush=True))
    except JobError as error:
        return _unusable(error)
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        print(f"the page cannot be served at {given.host}: {reason}; try another --port or --host", file=sys.stderr)
        return UNUSABLE
    return SOUND


def _offer_to_open(job: Path) -> None:
    """After a demo: open it on the page, if somebody sits there to say yes."""
    print(f"\nTo see and change it:  dryfit open {job}")
    if not (sys.stdin.isatty() and sys.stdout.isatty()):
        return
    try:
        answer = input("Open it now? [Y/n] ")
    except EOFError:
        return
    if answer.strip().lower() in ("", "y", "yes"):
        main(["open", str(job)])


COMMANDS: tuple[Command, ...] = (Check(), MakeBook(), Open(), Demo(), New())


def main(arguments: Sequence[str] | None = None) -> int:
    """Run `dryfit` with the given arguments, those of the command line by default."""
    parser = argparse.ArgumentParser(
        prog="dryfit", description="From a maker's job file to a checked job book, before the first cut."
    )
    parser.add_argument("--version", action="version", version=f"dryfit {__version__}")
    subparsers = parser.add_subparsers(dest="command", metavar="COMMAND", required=True)
    for command in COMMANDS:
        own = subparsers.add_parser(command.name, help=command.help, description=command.help)
        command.arguments(own)
        own.set_defaults(run=command.run)
    given = parser.parse_args(arguments)
    try:
        code: int = given.run(given)
    except KeyboardInterrupt:
        print("stopped", file=sys.stderr)
        return 130
    except BrokenPipeError:  # the reader of our output has gone: nothing more to say, and no traceback
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return SOUND
    return code


def _book(job_path: Path, shop_path: Path | None) -> "Book":
    from .book import build, read

    job = read(job_path)
    return build(job, _shop(shop_path), _made(job_path))


def _shop(path: Path | None) -> "Shop | None":
    if path is None:
        return None
    from .shop.reading import read_shop

    return read_shop(path)


def _made(job_path: Path) -> "Made":
    from .piece.made import made_path, read_made

    return read_made(made_path(job_path))


def _pin(job_path: Path, book: "Book") -> None:
    """Write the pins of boards that have none yet."""
    from .documents.pins import pins_of
    from .piece.made import made_path, read_made, with_pins

    path = made_path(job_path)
    there = read_made(path).pins
    new = {name: pin for name, pin in pins_of(book).items() if name not in there}
    if not new:
        return
    text = path.read_text(encoding="utf-8") if path.exists() else ""
    try:
        path.write_text(with_pins(text, new), encoding="utf-8", newline="\n")
    except OSError as error:
        mistake = Mistake(
            file=path.name, line=0, says=f"cannot be written: {error.strerror}", remedy="make its folder writable"
        )
        raise JobError((mistake,)) from None
    print(f"Pinned {len(new)} boards in {path}")


def _write(book: "Book", folder: Path) -> int:
    from .documents.writing import write_book

    written = write_book(book, folder)
    _print_findings(book)
    print(f"\nThe papers are in {folder}:")
    for path in written:
        print(f"  {path.name}")
    for name, why in book.left_out.items():
        print(f"  left out: {name} ({why})")
    return MUST_CHANGE if book.stops else SOUND


def _print_findings(book: "Book") -> None:
    piece = book.piece
    print(f"{book.job.title}: {len(piece.boards)} boards, {len(piece.joints)} joints")
    for finding in book.findings:
        print(f"{finding.severity.value:>5}  {finding.says}")
        if finding.remedy:
            print(f"       {finding.remedy}")
    stops = len(book.stops)
    if stops:
        print(f"{stops} {'thing' if stops == 1 else 'things'} must change before the first cut.")
    elif book.findings:
        print("Nothing stops the first cut; look at the notes above.")
    else:
        print("Nothing found.")


def _print_json(book: "Book") -> None:
    from .documents.bookjson import findings_data

    data = {
        "dryfit": 1,
        "job": book.job.title,
        "state": book.job.state,
        "boards": len(book.piece.boards),
        "joints": len(book.piece.joints),
        "findings": findings_data(book),
    }
    print(json.dumps(data, ensure_ascii=False, indent=1))


def _unusable(error: JobError, *, as_json: bool = False) -> int:
    if as_json:
        mistakes: list[dict[str, Any]] = [
            {"file": m.file, "line": m.line, "path": list(m.path), "read": m.read, "says": m.says, "remedy": m.remedy}
            for m in error.mistakes
        ]
        print(json.dumps({"dryfit": 1, "mistakes": mistakes}, ensure_ascii=False, indent=1))
        return UNUSABLE
    for mistake in error.mistakes:
        print(mistake, file=sys.stderr)
    return UNUSABLE


def _unwritable(path: Path, error: OSError) -> int:
    print(f"{path} cannot be written: {error.strerror}; choose a folder you may write to", file=sys.stderr)
    return UNUSABLE


if __name__ == "__main__":
    sys.exit(main())
