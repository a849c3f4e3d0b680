"""The sub-commands, one class each, registered in `COMMANDS`."""

import argparse
import difflib
import sys
from abc import ABC, abstractmethod
from itertools import takewhile
from pathlib import Path
from typing import ClassVar

from ..errors import JobError
from .changing import change
from .comparing import compare
from .recording import write_down
from .showing import begun, show
from .telling import MUST_CHANGE, SOUND, UNUSABLE, say, tell, tell_as_json, typed, unusable, unwritable
from .working import book_of, extras, kept_shop, make, shop_of, tell_standing

LOCAL = "127.0.0.1"  # this machine only
SHOP = "what the shop owns; left out: your own shop file (see `dryfit shop`), else a small default shop"


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

    def more(self) -> str:
        """What its help lists besides."""
        return ""


class Check(Command):
    """`dryfit check JOB.toml`."""

    name = "check"
    help = "read a job and say what must change before the first cut"

    def arguments(self, parser: argparse.ArgumentParser) -> None:
        """The job, the shop, people or machine."""
        parser.add_argument("job", type=Path, help="the job file")
        parser.add_argument("--shop", type=Path, help=SHOP)
        parser.add_argument("--json", action="store_true", help="findings as JSON")

    def run(self, given: argparse.Namespace) -> int:
        """Build the whole book and print its findings."""
        try:
            book = book_of(given.job, given.shop)
        except JobError as error:
            return unusable(error, as_json=given.json)
        if given.json:
            tell_as_json(book)
        else:
            tell(book)
            tell_standing(given.job.with_name(f"{given.job.stem} papers"))
        return MUST_CHANGE if book.stops else SOUND


class JointsCommand(Command):
    """`dryfit joints JOB.toml BOARD BOARD`."""

    name = "joints"
    help = "where two boards meet: every kind of joint, whether it can be made there, and what it would cost"

    def arguments(self, parser: argparse.ArgumentParser) -> None:
        """The job, two boards, the shop, people or machine."""
        parser.add_argument("job", type=Path, help="the job file")
        parser.add_argument("boards", nargs=2, metavar="BOARD", help="the two boards, in either order")
        parser.add_argument("--shop", type=Path, help=SHOP)
        parser.add_argument("--json", action="store_true", help="the same as JSON")

    def run(self, given: argparse.Namespace) -> int:
        """Try every kind and print what came of it; the job is not changed."""
        one, other = given.boards
        try:
            compare(given.job, given.shop, one, other, as_json=given.json)
        except JobError as error:
            return unusable(error, as_json=given.json)
        return SOUND


class MakeBook(Command):
    """`dryfit book JOB.toml --out DIR`."""

    name = "book"
    help = "make the job book: sheets, lists, model, data"

    def arguments(self, parser: argparse.ArgumentParser) -> None:
        """The job, where to, the shop, pins, extras."""
        parser.add_argument("job", type=Path, help="the job file")
        parser.add_argument("--out", type=Path, required=True, help="folder for the papers; nothing else is written")
        parser.add_argument("--shop", type=Path, help=SHOP)
        parser.add_argument("--pin", action="store_true", help="pin datums and letters from now on, in NAME.made.toml")
        _extra(parser)

    def more(self) -> str:
        """The extras."""
        return extras()

    def run(self, given: argparse.Namespace) -> int:
        """Build and write; a piece with stops gets its papers too, each saying so."""
        try:
            return make(given.job, given.shop, given.out, pinned=given.pin, extras=given.extra)
        except JobError as error:
            return unusable(error)


def _extra(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--extra",
        action="append",
        default=[],
        metavar="NAME",
        help="also make a paper that is made only when asked for; may be given several times",
    )


class CutCommand(Command):
    """`dryfit cut JOB.toml BOARD [CUT ...]`."""

    name = "cut"
    help = "record what is cut, in NAME.made.toml: from then on it stays as it is"

    def arguments(self, parser: argparse.ArgumentParser) -> None:
        """The job, the board, which of its cuts."""
        parser.add_argument("job", type=Path, help="the job file")
        parser.add_argument("board", help="the board that is cut")
        parser.add_argument(
            "cut",
            nargs="*",
            help='which of its cuts: its number on the sheet, the board it is for, "start" or "end", or the '
            'beginning of its name ("bore 2"); left out: all of them',
        )
        parser.add_argument("--shop", type=Path, help=SHOP)
        parser.add_argument("--take-back", action="store_true", help="remove what was recorded")

    def run(self, given: argparse.Namespace) -> int:
        """Write it down, or take it out, and say what was done."""
        try:
            write_down(given.job, given.shop, given.board, given.cut, back=given.take_back)
        except JobError as error:
            return unusable(error)
        return SOUND


class Demo(Command):
    """`dryfit demo [NAME]`."""

    name = "demo"
    help = "make the book of a demo job in out/NAME"

    def arguments(self, parser: argparse.ArgumentParser) -> None:
        """Which demo, extras."""
        parser.add_argument("demo", nargs="?", default="record-wall", help="which one; left out: record-wall")
        _extra(parser)

    def more(self) -> str:
        """The extras."""
        return extras()

    def run(self, given: argparse.Namespace) -> int:
        """Copy the demo's job file beside its papers, so that it can be changed and tried again."""
        from ..book.demos import demo_text, demos

        if given.demo not in demos():
            say(f"there is no demo called {given.demo}; choose from: {', '.join(demos())}", to=sys.stderr)
            return UNUSABLE
        folder = Path("out") / given.demo
        try:
            folder.mkdir(parents=True, exist_ok=True)
            job = folder / f"{given.demo}.toml"
            job.write_text(demo_text(given.demo), encoding="utf-8")
        except OSError as error:
            return unwritable(folder, error)
        say(f"Demo job: {job}")
        try:
            code = make(job, None, folder, extras=given.extra)
        except JobError as error:
            return unusable(error)
        _offer_to_open(job, "To see and change it")
        return code


class New(Command):
    """`dryfit new FILE`."""

    name = "new"
    help = "begin a job: an empty wall to draw on, in a commented file"

    def arguments(self, parser: argparse.ArgumentParser) -> None:
        """Where to."""
        parser.add_argument("file", type=Path, help="the job file to write; it must not exist yet")

    def run(self, given: argparse.Namespace) -> int:
        """Write it, never over another file, and offer the page, where it is drawn on."""
        path: Path = given.file
        code = self.begin(path)
        if code == SOUND:
            say(f"{path} is an empty wall; it can be written in any editor, too.")
            _offer_to_open(path, "To draw on it")
        return code

    def begin(self, path: Path) -> int:
        """Write the file and return the exit code."""
        from ..job.starting import new_text

        try:
            with path.open("x", encoding="utf-8", newline="\n") as file:
                file.write(new_text(path.stem.replace("-", " ").replace("_", " ")))
        except FileExistsError:
            say(f"{path} already exists; choose another name, or move it away", to=sys.stderr)
            return UNUSABLE
        except OSError as error:
            return unwritable(path, error)
        return SOUND


class ChangeCommand(Command):
    """`dryfit change OLD NEW`."""

    name = "change"
    help = "what differs between two jobs, or a book.json and a job: in wood that is cut, parts, lists, order"

    def arguments(self, parser: argparse.ArgumentParser) -> None:
        """The two, and the shop."""
        parser.add_argument("old", type=Path, help="the job as it was, or the book.json that was made of it")
        parser.add_argument("new", type=Path, help="the job as it is, or its book.json")
        parser.add_argument("--shop", type=Path, help=SHOP)

    def run(self, given: argparse.Namespace) -> int:
        """Build both as far as need be and compare them; nothing is written."""
        try:
            return MUST_CHANGE if change(given.old, given.new, given.shop) else SOUND
        except JobError as error:
            return unusable(error)


class ShopCommand(Command):
    """`dryfit shop`."""

    name = "shop"
    help = "show what the shop has, and what is assumed; begin its file"

    def arguments(self, parser: argparse.ArgumentParser) -> None:
        """Which file, and whether it is to be begun."""
        parser.add_argument("--shop", type=Path, help="the shop file; left out: your own, in your settings")
        parser.add_argument("--new", action="store_true", help="begin it, in notes; it must not exist yet")

    def run(self, given: argparse.Namespace) -> int:
        """Show the file, or begin it, never over another."""
        from ..shop.model import Shop
        from ..shop.own import new_shop_text, own_shop

        if given.new:
            path: Path = given.shop or own_shop()
            try:
                path.parent.mkdir(parents=True, exist_ok=True)
                with path.open("x", encoding="utf-8", newline="\n") as file:
                    file.write(new_shop_text())
            except FileExistsError:
                say(f"{path} already exists; it is left as it is", to=sys.stderr)
                return UNUSABLE
            except OSError as error:
                return unwritable(path, error)
            begun(path)
            return SOUND
        try:
            show(shop_of(given.shop) or Shop(), given.shop or kept_shop())
        except JobError as error:
            return unusable(error)
        return SOUND


class Open(Command):
    """`dryfit open [JOB.toml]`."""

    name = "open"
    help = "open a job in the browser, to see and change it live"

    def arguments(self, parser: argparse.ArgumentParser) -> None:
        """The job, and where the page is to be had."""
        parser.add_argument(
            "job",
            type=Path,
            nargs="?",
            help="the job file, begun if it does not exist; left out: the only one in the folder",
        )
        parser.add_argument("--shop", type=Path, help=SHOP)
        parser.add_argument("--port", type=int, help="left out: 4170, or any free one")
        parser.add_argument(
            "--host",
            default=LOCAL,
            help="an address of this machine: others may open the page too, with a password; left out: they may not",
        )
        parser.add_argument("--no-browser", action="store_true", help="only print the link")

    def run(self, given: argparse.Namespace) -> int:
        """Serve until Ctrl-C."""
        path = given.job or _only_job(Path())
        if path is None:
            return UNUSABLE
        if not path.exists():
            near = _near(path)
            if New().begin(path) != SOUND:
                return UNUSABLE
            say(f"{path} did not exist: an empty wall is begun in it." + (f" There is also {near}." if near else ""))
        return _open(path, given)


def _near(path: Path) -> str:
    """A job beside a file that is not there, with a name so like it that it may have been meant."""
    jobs = [other.name for other in path.parent.glob("*.toml") if _is_job(other)]
    return next(iter(difflib.get_close_matches(path.name, jobs, n=1, cutoff=0.8)), "")


def _only_job(folder: Path) -> Path | None:
    """The folder's one job file; a name for a new one where there is none; None, having said so, for several."""
    found = [path for path in sorted(folder.glob("*.toml")) if _is_job(path)]
    if len(found) > 1:
        names = ", ".join(path.name for path in found)
        say(f"which job? the folder has {names}; any other name begins a new one", to=sys.stderr)
        return None
    return found[0] if found else Path("job.toml")


def _is_job(path: Path) -> bool:
    """Whether a file says that it is a job: its version stands on a line of its own, before the first table.

    Behind a table's head the same word is that table's, as in a project's file that lists commands.
    """
    try:
        lines = path.read_text(encoding="utf-8-sig").splitlines()
    except (OSError, UnicodeDecodeError):
        return False
    before = takewhile(lambda line: not line.lstrip().startswith("["), lines)
    return any(line.partition("=")[0].strip() == "dryfit" for line in before)


def _open(path: Path, given: argparse.Namespace) -> int:
    from ..web.server.server import Serving, run

    try:
        serving = Serving(
            job=path, shop=shop_of(given.shop), port=given.port, host=given.host, browser=not given.no_browser
        )
        run(serving, say)
    except JobError as error:
        return unusable(error)
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        say(f"the page cannot be served at {given.host}: {reason}; try another --port or --host", to=sys.stderr)
        return UNUSABLE
    return SOUND


def _offer_to_open(job: Path, to: str) -> None:
    """Say how a job is opened on the page, and do it if somebody sits there to say yes."""
    say(f"\n{to}:  dryfit open {typed(job)}")
    if not (sys.stdin.isatty() and sys.stdout.isatty()):
        return
    try:
        answer = input("Open it now? [Y/n] ")
    except EOFError:
        return
    if answer.strip().lower() in ("", "y", "yes"):
        Open().run(argparse.Namespace(job=job, shop=None, port=None, host=LOCAL, no_browser=False))


COMMANDS: tuple[Command, ...] = (
    Check(),
    JointsCommand(),
    MakeBook(),
    CutCommand(),
    Open(),
    Demo(),
    New(),
    ChangeCommand(),
    ShopCommand(),
)
