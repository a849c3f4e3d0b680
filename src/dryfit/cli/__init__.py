"""The command `dryfit`: check, joints, book, cut, open, demo, new.

Nothing heavy is imported before a sub-command needs it: `dryfit --help` and `--version` answer at once.
Exit codes: 0 sound, 1 something must change before the first cut, 2 the file cannot be used, or Dryfit failed.
"""

import argparse
import os
import sys
from collections.abc import Sequence
from contextlib import suppress

from .. import __version__
from ..terminal import TRACE
from .commands import COMMANDS
from .faults import failed, warnings_told
from .telling import MUST_CHANGE, SOUND, UNUSABLE, NotToldError, say

__all__ = ["COMMANDS", "MUST_CHANGE", "SOUND", "UNUSABLE", "main"]

STOPPED = 130  # as a shell has it for a program ended by Ctrl-C


def main(arguments: Sequence[str] | None = None) -> int:
    """Run `dryfit` with the given arguments, those of the command line by default."""
    given = _parser().parse_args(arguments)
    try:
        with warnings_told():
            code: int = given.run(given)
    except KeyboardInterrupt:
        say("stopped", to=sys.stderr)
        return STOPPED
    except BrokenPipeError:  # the reader of our output has gone: nothing more to say, and no traceback
        _say_no_more()
        return SOUND
    except NotToldError as error:
        _say_no_more()
        with suppress(NotToldError):
            say(f"the output could not be written: {error}; make room, or send it elsewhere", to=sys.stderr)
        return UNUSABLE
    except Exception as fault:  # whatever it is, a maker is told in a sentence
        if os.environ.get(TRACE):
            raise
        return failed(fault, given)
    return code


def _say_no_more() -> None:
    """Send the rest of the output nowhere, so that nothing fails at it again on the way out."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


class _Parser(argparse.ArgumentParser):
    """Of a sub-command; what its help lists by looking round is looked for only when the help is asked for."""

    more = staticmethod(lambda: "")

    def format_help(self) -> str:
        """The help, and below it what is there."""
        return super().format_help() + self.more()


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="dryfit", description="From a maker's job file to a checked job book, before the first cut."
    )
    parser.add_argument("--version", action="version", version=f"dryfit {__version__}")
    subparsers = parser.add_subparsers(dest="command", metavar="COMMAND", required=True, parser_class=_Parser)
    for command in COMMANDS:
        own = subparsers.add_parser(command.name, help=command.help, description=command.help)
        command.arguments(own)
        own.more = command.more
        own.set_defaults(run=command.run)
    return parser
